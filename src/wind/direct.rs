//! A pressure an engineer already has.
//!
//! Uniform, on gross area, at the limit state it is stated in; resultant at 0.55 of the
//! panel height above its foot unless given otherwise. No coefficient, no zones, no
//! eccentric case: they are supposed to be in the number.

use super::code::{WindCode, sealed};
use super::patterns::{Strip, Uniform, WallPressures, WindCase};
use super::wall::{WallEnds, WallShape};
use super::wall_wind::WallWind;
use crate::caution::{Caution, Cautions};
use crate::error::{Error, number_within, within};
use crate::limit_state::LimitState;
use crate::source::{self, Citation};
use crate::step::{Step, Worksheet};
use crate::units::{Length, Measure, Pressure, psf};

/// A net pressure on the gross area of the fence, the same everywhere: openings,
/// free ends, corners and oblique wind are supposed to be in the number. Its
/// resultant acts at 0.55 of the height of the panel above its foot
/// ([`DirectPressure::ACTING_AT`], where ASCE 7 has it for a wall on the ground), or at the
/// share given ([`DirectPressure::acting_at`]), but never below the middle of the solid
/// area.
///
/// A plan takes it at strength or allowable-stress level alike; the level is
/// in the type:
///
/// ```
/// use groundline::{limit_state::AllowableStress, units::*, wind::*};
/// let pressure = DirectPressure::new(psf(21.0), AllowableStress::Basic)?;
/// let wall = WallShape::new(ft(80.0), ft(6.0), ft(0.0), 1.0)?;
/// let wind = WallWind::new(&pressure, wall, WallEnds::FREE)?;
/// assert_eq!(wind.worst(ft(0.0), ft(8.0)).1.to(lb).round(), 21.0 * 6.0 * 8.0);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DirectPressure<L: LimitState> {
    pressure: Pressure,
    height: f64,
    level: L,
}

impl<L: LimitState> DirectPressure<L> {
    /// Height of the resultant where none is given: 0.55 of the height of the panel above
    /// its foot. On the wire and in a job file too.
    pub const ACTING_AT: f64 = 0.55;

    /// Returns a pressure at a limit state, acting at [`DirectPressure::ACTING_AT`].
    ///
    /// # Errors
    /// Outside 0.1 to 1 000 psf.
    pub fn new(pressure: Pressure, level: L) -> Result<Self, Error> {
        Ok(Self {
            pressure: within("wind pressure", pressure, psf(0.1), psf(1_000.0))?,
            height: Self::ACTING_AT,
            level,
        })
    }

    /// With the resultant at this share of the panel's height above its foot:
    /// 0.55 is what ASCE 7 has for a wall on the ground. A panel whose solid area
    /// has its middle higher keeps that.
    ///
    /// # Errors
    /// Outside 0.5 to 1.
    pub fn acting_at(self, share: f64) -> Result<Self, Error> {
        let height = number_within("share of the height", share, 0.5, 1.0)?;
        Ok(Self { height, ..self })
    }

    /// Another pressure, at the same limit state and height.
    ///
    /// # Errors
    /// As [`DirectPressure::new`].
    pub fn with_pressure(self, pressure: Pressure) -> Result<Self, Error> {
        let pressure = Self::new(pressure, self.level)?.pressure;
        Ok(Self { pressure, ..self })
    }

    /// The pressure.
    pub const fn pressure(&self) -> Pressure {
        self.pressure
    }
}

impl<L: LimitState> sealed::Sealed for DirectPressure<L> {}
impl<L: LimitState> WindCode for DirectPressure<L> {
    type Level = L;
    type Working = ();

    #[inline]
    fn level(&self) -> L {
        self.level
    }

    fn document(&self) -> &'static str {
        "pressure as given"
    }

    fn case_name(&self, case: WindCase) -> &'static str {
        match case {
            WindCase::Uniform => "as given",
            _ => "none",
        }
    }

    #[inline]
    fn pressures(&self, shape: &WallShape, ends: &WallEnds) -> Result<(WallPressures, ()), Error> {
        // Returns change nothing; a bad one is refused all the same.
        ends.returns_over(shape.top())?;
        let given = shape.clearance() + shape.panel_height() * self.height;
        let middle = shape.solid_height();
        let pressures = WallPressures {
            uniform: Some(Uniform {
                coefficient: 1.0,
                pressure: self.pressure,
            }),
            off_centre: None,
            zones: None,
            along: None,
            minimum: None,
            resultant: given.max(middle),
        };
        Ok((pressures, ()))
    }

    fn clause(_wall: &WallWind<Self>, _case: WindCase, _zone: usize) -> &'static Citation {
        &source::GIVEN
    }

    fn cautions(_wall: &WallWind<Self>) -> Cautions {
        Cautions::default().with(Caution::GivenPressure)
    }

    fn reference_heights((): &()) -> [Length; 2] {
        [Length::default(); 2]
    }

    fn write_site(wall: &WallWind<Self>, sheet: &mut Worksheet) {
        sheet.section("Wind pressure");
        sheet.remark(format!("Given by the user, {}.", wall.code().level.name()));
    }

    fn write_shape(_wall: &WallWind<Self>, _sheet: &mut Worksheet) {}

    fn write_uniform(wall: &WallWind<Self>, _case: WindCase, sheet: &mut Worksheet) {
        sheet.push(
            Step::given("p", "pressure on gross area", wall.code().pressure)
                .shown_as(Measure::WindPressure)
                .cite(&source::GIVEN),
        );
    }

    fn write_zones(_wall: &WallWind<Self>, _case: WindCase, _sheet: &mut Worksheet) {}

    fn write_zone(
        _wall: &WallWind<Self>,
        _case: WindCase,
        _strip: &Strip,
        _symbol: &'static str,
        _sheet: &mut Worksheet,
    ) {
    }

    fn write_resultant(wall: &WallWind<Self>, sheet: &mut Worksheet) {
        wall.write_mid_height(&source::GIVEN, sheet);
    }
}
