//! Net pressure coefficients of hoardings and free-standing walls.
//!
//! b breadth, c height of the panel, h height of its top. Cshp = Cp,n Kp with
//! Kp = 1 − (1 − δ)², δ solidity.
//!
//! | wind | b/c | c/h | Cp,n | mark |
//! |---|---|---|---|---|
//! | 0° | 0.5 to 5 | 0.2 to 1 | 1.3 + 0.5 (0.3 + log b/c)(0.8 − c/h) | published |
//! | 0° | above 5 | 0.2 to 1 | 1.7 − 0.5 c/h | quoted |
//! | 0° | any | below 0.2 | 1.4 + 0.3 log b/c; above b/c = 5 not less than 1.7 − 0.5 c/h | quoted |
//! | 45° | to 5 | | the same, 0.2 b off centre | quoted |
//! | 45° | above 5 | to 0.7 | 3.0 to 2 c, 1.5 to 4 c, 0.75 beyond | quoted |
//! | 45° | above 5 | above 0.7 | 2.4 to 2 h, 1.2 to 4 h, 0.6 beyond | quoted |
//! | 90° | any | to 0.7 | 1.2 to 2 c, 0.6 to 4 c, 0.3 beyond | quoted |
//! | 90° | any | above 0.7 | 1.0 to 2 h, 0.25 beyond | quoted |
//!
//! Older edition Appendix D; 2021 edition Appendix B, Table B.2. A b/c below
//! 0.5 is beyond the table (with c/h below 0.2 it is not, but the formula falls
//! without bound): the value at 0.5 is held, and a caution says so.
//! The smaller first zone of a wall with a return corner rests on one
//! transcription and is not used: a return does not reduce.
//!
//! A panel of two infills counts as one by solidity and proportions of its more
//! solid part, all of it.
//!
//! Ultimate limit state. No height of the resultant is given: mid-height, or
//! the middle of the solid area where that is higher.

use super::site::AsNzsSite;
use crate::caution::{Caution, Cautions};
use crate::error::{Error, number_within};
use crate::limit_state::Ultimate;
use crate::source::{self, Citation};
use crate::step::Worksheet;
use crate::units::REL_TOL;
use crate::units::{Length, Pressure};
use crate::wind::code::{WindCode, sealed};
use crate::wind::patterns::{OffCentre, Strip, Uniform, WallPressures, WindCase, Zones};
use crate::wind::wall::{WallEnds, WallShape};
use crate::wind::wall_wind::WallWind;

/// e/b of oblique wind.
const OBLIQUE: f64 = 0.2;
/// The b/c from which oblique wind has zones.
const ZONED_FROM: f64 = 5.0;
/// The least b/c of the table.
pub(super) const LEAST_B_OVER_C: f64 = 0.5;

/// Whether the resultant of zoned oblique wind on walls longer than 5 c is
/// moved off centre too. Older editions give no eccentricity, the 2021 edition
/// and the CFE manual 0.2 b.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[non_exhaustive]
pub enum OffCentreZones {
    /// The zones, and besides them their total force 0.2 b off centre, spread
    /// linearly. The heavier reading and the default.
    #[default]
    Also,
    /// The zones alone: they already are off centre.
    ZonesOnly,
}

/// The factor for porosity, Kp = 1 − (1 − δ)², δ solid over gross area
/// ([`crate::source::ASNZS_POROSITY`], quoted).
///
/// # Errors
/// δ outside 0 to 1.
///
/// ```
/// assert_eq!(groundline::wind::porosity_factor(0.5)?, 0.75);
/// # Ok::<(), groundline::Error>(())
/// ```
pub fn porosity_factor(solidity: f64) -> Result<f64, Error> {
    let open = 1.0 - number_within("solidity", solidity, 0.0, 1.0)?;
    Ok(1.0 - open * open)
}

/// Which formula gave Cp,n of wind square on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Formula {
    Short,
    Long,
    High,
    HighLong,
}

/// The net pressure coefficients Cp,n of a wall, Kp apart, on gross area: b its
/// length, c the height of the panel, h the height of its top.
///
/// Wind square on (0°): 1.3 + 0.5 (0.3 + log b/c)(0.8 − c/h) for b/c to 5, then
/// 1.7 − 0.5 c/h; for c/h below 0.2, 1.4 + 0.3 log b/c, above b/c = 5 not less
/// than 1.7 − 0.5 c/h. At 45° the same, 0.2 b off centre, for b/c to 5, then
/// zones; along the wall (90°) zones. The zones of both end at 2 and 4 times c,
/// for c/h above 0.7 at 2 and 4 times h. Below b/c = 0.5 the value at 0.5 is held
/// ([`Hoarding::beyond_table`]). A return corner does not reduce.
///
/// Source: AS/NZS 1170.2, Table B.2; the first formula published, the rest
/// quoted.
///
/// ```
/// use groundline::wind::Hoarding;
/// let fence = Hoarding::new(20.0, 1.0)?;
/// assert_eq!(fence.normal(), 1.2);
/// assert_eq!(fence.oblique().zones().unwrap(), [2.4, 1.2, 0.6]);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hoarding {
    pub(super) b_over_c: f64,
    pub(super) c_over_h: f64,
    pub(super) formula: Formula,
    normal: f64,
}

/// Wind at 45°.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum ObliqueWind {
    /// Cp,n of wind square on, its resultant 0.2 b off centre.
    OffCentre(f64),
    /// Cp,n of three zones.
    Zones([f64; 3]),
}

impl ObliqueWind {
    /// The zones, where there are any.
    pub const fn zones(&self) -> Option<[f64; 3]> {
        match self {
            Self::Zones(zones) => Some(*zones),
            Self::OffCentre(_) => None,
        }
    }
}

/// Wind at 90°, along the wall: Cp,n, of either sign, of three zones.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct AlongWind {
    /// From the windward edge.
    pub zones: [f64; 3],
}

impl Hoarding {
    /// For b/c and c/h.
    ///
    /// # Errors
    /// b/c outside 0 to 10⁹, c/h outside 0 to 1.
    #[inline]
    pub fn new(b_over_c: f64, c_over_h: f64) -> Result<Self, Error> {
        let given = number_within("b/c", b_over_c, 0.0, 1e9)?;
        let c_over_h = number_within("c/h", c_over_h, 0.0, 1.0)?;
        let b = given.max(LEAST_B_OVER_C);
        let long = 1.7 - 0.5 * c_over_h;
        let (formula, normal) = if c_over_h < 0.2 * (1.0 - REL_TOL) {
            let high = 1.4 + 0.3 * b.log10();
            if given > ZONED_FROM * (1.0 + REL_TOL) && long > high {
                (Formula::HighLong, long)
            } else {
                (Formula::High, high)
            }
        } else if given > ZONED_FROM * (1.0 + REL_TOL) {
            (Formula::Long, long)
        } else {
            let short = 1.3 + 0.5 * (0.3 + b.log10()) * (0.8 - c_over_h);
            (Formula::Short, short)
        };
        Ok(Self {
            b_over_c: given,
            c_over_h,
            formula,
            normal,
        })
    }

    /// Cp,n of wind square on.
    #[inline]
    pub const fn normal(&self) -> f64 {
        self.normal
    }

    /// Cp,n of wind at 45°.
    #[inline]
    pub fn oblique(&self) -> ObliqueWind {
        if self.b_over_c <= ZONED_FROM * (1.0 + REL_TOL) {
            ObliqueWind::OffCentre(self.normal)
        } else if self.is_raised() {
            ObliqueWind::Zones([3.0, 1.5, 0.75])
        } else {
            ObliqueWind::Zones([2.4, 1.2, 0.6])
        }
    }

    /// Cp,n of wind at 90°.
    #[inline]
    pub fn along(&self) -> AlongWind {
        AlongWind {
            zones: if self.is_raised() {
                [1.2, 0.6, 0.3]
            } else {
                [1.0, 0.25, 0.25]
            },
        }
    }

    /// c/h up to 0.7: zones are told in c, else in h.
    #[inline]
    pub fn is_raised(&self) -> bool {
        self.c_over_h <= 0.7 * (1.0 + REL_TOL)
    }

    /// Is b/c below the table's least?
    #[inline]
    pub fn beyond_table(&self) -> bool {
        self.b_over_c < LEAST_B_OVER_C * (1.0 - REL_TOL)
    }
}

/// What the pressures of a wall were made from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AsNzsWorking {
    pub(super) hoarding: Hoarding,
    pub(super) porosity: f64,
    pub(super) per_coefficient: Pressure,
    top: Length,
}

impl sealed::Sealed for AsNzsSite {}
impl WindCode for AsNzsSite {
    type Level = Ultimate;
    type Working = AsNzsWorking;

    #[inline]
    fn level(&self) -> Ultimate {
        Ultimate
    }

    fn document(&self) -> &'static str {
        "AS/NZS 1170.2"
    }

    fn case_name(&self, case: WindCase) -> &'static str {
        match case {
            WindCase::Uniform => "wind at 0°",
            WindCase::OffCentre(_) => "wind at 45°, off centre",
            WindCase::Zones(_) => "wind at 45°, zones",
            WindCase::Along(_) => "wind at 90°, zones",
            WindCase::Minimum => "none",
        }
    }

    #[inline]
    fn pressures(
        &self,
        shape: &WallShape,
        ends: &WallEnds,
    ) -> Result<(WallPressures, AsNzsWorking), Error> {
        // Returns reduce nothing; a bad one is refused all the same.
        ends.returns_over(shape.top())?;
        let hoarding = Hoarding::new(shape.dense_b_over_s(), shape.dense_s_over_h())?;
        let porosity = porosity_factor(shape.densest())?;
        let per_coefficient = self.design_pressure() * porosity;
        let pressure = |cp: f64| per_coefficient * cp;
        let unit = if hoarding.is_raised() {
            shape.panel_height()
        } else {
            shape.top()
        };
        let zones = |zones: [f64; 3]| Zones::new(unit, [0.0, 2.0, 4.0], [zones; 2], pressure);
        let oblique = hoarding.oblique();
        let zoned = oblique.zones().map(zones);
        let off = match (oblique, &zoned, self.off_centre_zones) {
            (ObliqueWind::OffCentre(cp), ..) => Some((cp, pressure(cp))),
            (_, Some(zones), OffCentreZones::Also) => Some(zones.mean(shape.length())),
            _ => None,
        };
        let pressures = WallPressures {
            uniform: Some(Uniform {
                coefficient: hoarding.normal(),
                pressure: pressure(hoarding.normal()),
            }),
            off_centre: off.map(|(coefficient, pressure)| OffCentre {
                coefficient,
                pressure,
                eccentricity: OBLIQUE,
            }),
            zones: zoned,
            along: Some(zones(hoarding.along().zones)),
            minimum: None,
            resultant: shape.solid_height(),
        };
        let working = AsNzsWorking {
            hoarding,
            porosity,
            per_coefficient,
            top: shape.top(),
        };
        Ok((pressures, working))
    }

    fn clause(wall: &WallWind<Self>, case: WindCase, _zone: usize) -> &'static Citation {
        match case {
            WindCase::Uniform if wall.working.hoarding.formula == Formula::Short => {
                &source::ASNZS_B2_A_FORMULA
            }
            WindCase::Uniform => &source::ASNZS_B2_A,
            WindCase::OffCentre(_) if wall.pressures().zones.is_some() => {
                &source::ASNZS_OFF_CENTRE_ZONES
            }
            WindCase::OffCentre(_) => &source::LINEAR_SPREAD,
            WindCase::Zones(_) => &source::ASNZS_B2_C,
            WindCase::Along(_) | WindCase::Minimum => &source::ASNZS_B2_D,
        }
    }

    fn cautions(wall: &WallWind<Self>) -> Cautions {
        Cautions::default()
            .and(wall.shape().cautions())
            .with_if(wall.code().shielding() < 1.0, Caution::Shelter)
            .with_if(wall.working.hoarding.beyond_table(), Caution::BeyondTable)
    }

    fn reference_heights(working: &AsNzsWorking) -> [Length; 2] {
        [working.top; 2]
    }

    fn write_site(wall: &WallWind<Self>, sheet: &mut Worksheet) {
        wall.code().write(sheet);
    }

    fn write_shape(wall: &WallWind<Self>, sheet: &mut Worksheet) {
        wall.write_proportions(sheet);
    }

    fn write_uniform(wall: &WallWind<Self>, case: WindCase, sheet: &mut Worksheet) {
        wall.write_single(case, sheet);
    }

    fn write_zones(wall: &WallWind<Self>, _case: WindCase, sheet: &mut Worksheet) {
        sheet.remark(if wall.working.hoarding.is_raised() {
            "Zones from the windward edge, c/h up to 0.7: to 2 s, to 4 s, and beyond."
        } else {
            "Zones from the windward edge, c/h above 0.7: to 2 h, to 4 h, and beyond."
        });
    }

    fn write_zone(
        wall: &WallWind<Self>,
        case: WindCase,
        strip: &Strip,
        symbol: &'static str,
        sheet: &mut Worksheet,
    ) {
        wall.write_strip(case, strip, symbol, sheet);
    }

    fn write_resultant(wall: &WallWind<Self>, sheet: &mut Worksheet) {
        wall.write_mid_height(&source::ASNZS_MID_HEIGHT, sheet);
    }
}
