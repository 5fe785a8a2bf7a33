//! The strength-reduced form of UFC 3-220-20 (16 January 2025).
//!
//! Broms' reactions with three quarters of the strength: su* = 0.75 su
//! (6-57), tan φ* = 0.75 tan φ (6-58), against factored loads
//! P = 1.5 P_dead + 2.0 P_live, M = 1.5 M_dead + 2.0 M_live (6-55, 6-56). The types
//! here take the factored load; [`crate::side_by_side`] factors it. Wind is counted as
//! live, which is our reading: the text names no wind.
//!
//! - undrained: Zmin = 1.5 b + f + g (6-59 to 6-61);
//! - drained: Z³ = 2 (P Z + M)/(γ′ b Kp*) (6-63).
//!
//! P and M are shear and moment at grade, Z the depth; f, g and the other letters
//! are those of [`BromsClay`] and [`BromsSand`], with the reduced strength.
//!
//! Quoted form; check it against the UFC.

use super::{
    BromsClay, BromsSand, GreatestMoment, LateralMethod, NeededDepth, Ultimate, passive_coefficient,
};
use crate::error::{Error, within};
use crate::profile::{Profile, Soil};
use crate::source::{self, Citation};
use crate::step::{Step, Worksheet};
use crate::units::{Angle, Force, ForcePerVolume, Length, Pressure, Torque, deg, rad};

/// What strengths are multiplied by.
const REDUCTION: f64 = 0.75;

/// Load factor on dead load (UFC 3-220-20, 6-55 and 6-56; quoted,
/// [`source::UFC_LOAD_FACTORS`]).
pub const UFC_DEAD: f64 = 1.5;

/// Load factor on live load (UFC 3-220-20, 6-55 and 6-56; quoted,
/// [`source::UFC_LOAD_FACTORS`]). Wind is counted as live: our reading.
pub const UFC_LIVE: f64 = 2.0;

/// One clay with three quarters of its strength: [`BromsClay`] of 0.75 su, compared
/// with factored loads, [`UFC_DEAD`] and [`UFC_LIVE`] (UFC 3-220-20 of 16 January
/// 2025, 6-55 to 6-61; quoted).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ReducedClay(BromsClay);

impl ReducedClay {
    /// From the unreduced strength.
    ///
    /// # Errors
    /// As [`BromsClay::new`], of the reduced strength.
    pub fn new(su: Pressure, width: Length) -> Result<Self, Error> {
        BromsClay::new(su * REDUCTION, width).map(Self)
    }

    /// From a profile that is one clay down to a depth.
    ///
    /// # Errors
    /// As [`BromsClay::of`].
    pub fn of(profile: &Profile, width: Length, depth: Length) -> Result<Self, Error> {
        BromsClay::of(profile, width, depth)?;
        let su = profile
            .uniform_soil(depth)
            .and_then(Soil::undrained_strength)
            .unwrap_or_default();
        Self::new(su, width)
    }

    /// With a post that yields at a moment, which is not reduced.
    ///
    /// # Errors
    /// As [`BromsClay::yielding_at`].
    pub fn yielding_at(self, moment: Torque) -> Result<Self, Error> {
        self.0.yielding_at(moment).map(Self)
    }

    fn write_reduction(&self, sheet: &mut Worksheet) {
        let reduced = self.0.undrained_strength();
        sheet.push(
            Step::computed("su", "reduced undrained strength", "0.75*s0", reduced)
                .with("s0", reduced / REDUCTION)
                .cite(&source::UFC_REDUCED),
        );
    }

    /// The method with the reduced strength.
    pub const fn broms(&self) -> &BromsClay {
        &self.0
    }
}

/// One sand with three quarters of its tan φ: [`BromsSand`] of tan φ* = 0.75 tan φ,
/// compared with factored loads, [`UFC_DEAD`] and [`UFC_LIVE`] (UFC 3-220-20 of 16
/// January 2025, 6-55 to 6-63; quoted).
///
/// ```
/// use groundline::{lateral::*, units::*};
/// let sand = ReducedSand::new(kn_per_cu_m(18.0), deg(30.0), m(0.3))?;
/// assert!((sand.reduced_angle().to(deg) - 23.41322).abs() < 1e-5);
/// let needed = sand.needed_depth(kn(4.0), m(1.5))?;
/// assert!((needed.depth().unwrap().to(m) - 1.199207).abs() < 1e-6);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ReducedSand {
    broms: BromsSand,
    angle: Angle,
}

impl ReducedSand {
    /// From the unreduced friction angle.
    ///
    /// # Errors
    /// γ′ outside 1 to 30 kN/m³, φ outside 1° to 50°, width outside 2 cm to 3 m.
    pub fn new(unit_weight: ForcePerVolume, phi: Angle, width: Length) -> Result<Self, Error> {
        let phi = within("friction angle", phi, deg(1.0), deg(50.0))?;
        let angle = rad((REDUCTION * phi.value.tan()).atan());
        Ok(Self {
            broms: BromsSand::with_passive_coefficient(
                unit_weight,
                passive_coefficient(angle),
                width,
            )?,
            angle,
        })
    }

    /// From a profile that is one sand down to a depth.
    ///
    /// # Errors
    /// As [`BromsSand::of`].
    pub fn of(profile: &Profile, width: Length, depth: Length) -> Result<Self, Error> {
        BromsSand::of(profile, width, depth)?;
        let phi = profile
            .uniform_soil(depth)
            .and_then(Soil::friction_angle)
            .unwrap_or_default();
        let weight = profile.uniform_weight(depth).unwrap_or_default();
        Self::new(weight, phi, width)
    }

    /// φ*.
    pub const fn reduced_angle(&self) -> Angle {
        self.angle
    }

    /// With a post that yields at a moment, which is not reduced.
    ///
    /// # Errors
    /// As [`BromsSand::yielding_at`].
    pub fn yielding_at(self, moment: Torque) -> Result<Self, Error> {
        let broms = self.broms.yielding_at(moment)?;
        Ok(Self { broms, ..self })
    }

    fn write_reduction(&self, sheet: &mut Worksheet) {
        let reduced = self.angle.value.tan();
        sheet.push(
            Step::computed_number(
                "tr",
                "reduced tangent of the friction angle",
                "0.75*t0",
                reduced,
            )
            .with_number("t0", reduced / REDUCTION)
            .cite(&source::UFC_REDUCED),
        );
    }

    /// The method with the reduced strength.
    pub const fn broms(&self) -> &BromsSand {
        &self.broms
    }
}

macro_rules! as_broms {
    ($type:ty, |$self:ident| $broms:expr, $name:literal) => {
        impl LateralMethod for $type {
            fn name(&self) -> &'static str {
                $name
            }

            fn source(&self) -> &'static Citation {
                &source::UFC_REDUCED
            }

            fn ultimate(&$self, depth: Length, height: Length) -> Result<Ultimate, Error> {
                $broms.ultimate(depth, height).map(|broms| Ultimate {
                    source: &source::UFC_REDUCED,
                    ..broms
                })
            }

            fn needed_depth(&$self, force: Force, height: Length) -> Result<NeededDepth, Error> {
                $broms.needed_depth(force, height)
            }

            fn greatest_moment(
                &$self,
                force: Force,
                height: Length,
            ) -> Result<GreatestMoment, Error> {
                $broms.greatest_moment(force, height)
            }

            fn write(
                &$self,
                depth: Length,
                height: Length,
                sheet: &mut Worksheet,
            ) -> Result<(), Error> {
                sheet.section("UFC 3-220-20");
                $self.write_reduction(sheet);
                $broms.write(depth, height, sheet)
            }
        }
    };
}

as_broms!(ReducedClay, |self| self.0, "UFC 3-220-20, undrained");
as_broms!(ReducedSand, |self| self.broms, "UFC 3-220-20, drained");
