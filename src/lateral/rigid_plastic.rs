//! Rigid-plastic statics of three pressures: linear, constant, graded.
//!
//! p per width, z from grade: S z; S; or 3 su (1 + z/(2b)) down to 4 b and 9 su
//! below, b the width. With V and Mu the shear and the ultimate moment at grade, d
//! the depth of the post and zR that of rotation. The post turns about a point
//! where the pressure reverses (nonconstrained), or about grade (constrained there,
//! e.g. by paving). Derived by equilibrium.
//!
//! | pressure | rotation depth | Mu nonconstrained | Mu constrained |
//! |---|---|---|---|
//! | S z | √(V/(b S) + d²/2) | S b (d³ − 2 zR³)/3 | S b d³/3 |
//! | S | V/(2 b S) + d/2 | b S (d²/2 − zR²) | S b d²/2 |
//! | graded | numerically | integrated | integrated |
//!
//! With S = 3 γ′ Kp the first row has Broms' pressure but not his lumped toe
//! force, so the results differ.

use super::rotation::{self, Reaction};
use super::{
    GreatestMoment, LateralMethod, NeededDepth, Ultimate, checked_depth, checked_force,
    checked_height, checked_width, checked_yield, deepest,
};
use crate::error::{Error, within};
use crate::source::{self, Citation};
use crate::step::Worksheet;
use crate::units::{
    Force, ForcePerVolume, Length, Measurable, Pressure, Torque, kn_per_cu_m, kpa, newton,
};

/// How the pressure runs over the depth: S per depth, S, su, in SI.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Law {
    Linear(f64),
    Constant(f64),
    Graded(f64),
}

/// A rigid post in plastic ground (derived by equilibrium).
///
/// The pressure on its width is S z, S, or 3 su (1 + z/(2b)) down to 4 b and 9 su
/// below, z the depth, b the width, su the undrained strength; it reverses at the
/// point about which the post turns.
///
/// ```
/// use groundline::{lateral::RigidPlastic, units::*};
/// let post = RigidPlastic::constant(psf(9_000.0), ft(0.5))?;
/// let limit = post.beside_shear(ft(4.0), lb(2_000.0))?.unwrap();
/// assert!((limit.moment.to(lb_ft) - 13_777.7778).abs() < 1e-4);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RigidPlastic {
    law: Law,
    width: f64,
    yields_at: Option<f64>,
}

/// The moment at grade that a depth resists.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct PlasticLimit {
    /// Where the pressure reverses.
    pub rotation: Length,
    /// The moment at grade.
    pub moment: Torque,
}

impl RigidPlastic {
    fn of(law: Law, width: Length) -> Result<Self, Error> {
        Ok(Self {
            law,
            width: checked_width(width)?.value,
            yields_at: None,
        })
    }

    /// A pressure that grows from nothing at grade: S z.
    ///
    /// # Errors
    /// S outside 0.1 to 10 000 kN/m³, width outside 2 cm to 3 m.
    pub fn linear(s: ForcePerVolume, width: Length) -> Result<Self, Error> {
        let (least, most) = (kn_per_cu_m(0.1), kn_per_cu_m(10_000.0));
        let s = within("pressure per depth", s, least, most)?;
        Self::of(Law::Linear(s.value), width)
    }

    /// The same pressure everywhere.
    ///
    /// # Errors
    /// S outside 0.1 kPa to 100 MPa, width outside 2 cm to 3 m.
    pub fn constant(s: Pressure, width: Length) -> Result<Self, Error> {
        let s = within("pressure", s, kpa(0.1), kpa(100_000.0))?;
        Self::of(Law::Constant(s.value), width)
    }

    /// The graded pressure of a clay: 3 su (1 + z/(2b)) down to 4 b, 9 su below.
    ///
    /// # Errors
    /// su outside 1 kPa to 1 MPa, width outside 2 cm to 3 m.
    pub fn graded_clay(su: Pressure, width: Length) -> Result<Self, Error> {
        let su = within("undrained strength", su, kpa(1.0), kpa(1_000.0))?;
        Self::of(Law::Graded(su.value), width)
    }

    /// With a post that yields at a moment.
    ///
    /// # Errors
    /// Outside 1 N·m to 1 GN·m.
    pub fn yielding_at(self, moment: Torque) -> Result<Self, Error> {
        let yields_at = Some(checked_yield(moment)?);
        Ok(Self { yields_at, ..self })
    }

    /// The ultimate moment at grade beside a shear, the post free at grade;
    /// none where the shear alone, or with it any moment, is too much.
    ///
    /// # Errors
    /// Depth out of range, shear negative or beyond 10 million lb.
    pub fn beside_shear(&self, depth: Length, shear: Force) -> Result<Option<PlasticLimit>, Error> {
        let depth = checked_depth(depth)?;
        let most = crate::units::lb(10_000_000.0);
        let shear = within("shear", shear, newton(0.0), most)?;
        let found = rotation::by_shear(self, depth, shear.value);
        Ok(found.map(|(x, moment)| PlasticLimit {
            rotation: Length::from_si(x),
            moment: Torque::from_si(moment),
        }))
    }

    /// The ultimate moment at grade of a post constrained there.
    ///
    /// # Errors
    /// Depth out of range.
    pub fn constrained(&self, depth: Length) -> Result<Torque, Error> {
        Ok(Torque::from_si(self.cumulative(checked_depth(depth)?).1))
    }
}

impl Reaction for RigidPlastic {
    fn cumulative(&self, z: f64) -> (f64, f64) {
        let b = self.width;
        match self.law {
            Law::Linear(s) => (b * s * z * z / 2.0, b * s * z * z * z / 3.0),
            Law::Constant(s) => (b * s * z, b * s * z * z / 2.0),
            Law::Graded(su) => {
                // 3 su (1 + z/(2b)) to 4 b, 9 su below.
                let upper = z.min(4.0 * b);
                let lower = (z - 4.0 * b).max(0.0);
                let p = 3.0 * su * b * (upper + upper * upper / (4.0 * b));
                let q = 3.0 * su * b * (upper * upper / 2.0 + upper.powi(3) / (6.0 * b));
                let middle = 4.0 * b + 0.5 * lower;
                let below = 9.0 * su * b * lower;
                (p + below, q + below * middle)
            }
        }
    }
}

impl LateralMethod for RigidPlastic {
    fn name(&self) -> &'static str {
        match self.law {
            Law::Linear(_) => "rigid-plastic, linear",
            Law::Constant(_) => "rigid-plastic, constant",
            Law::Graded(_) => "rigid-plastic, graded clay",
        }
    }

    fn source(&self) -> &'static Citation {
        &source::RIGID_PLASTIC
    }

    fn ultimate(&self, depth: Length, height: Length) -> Result<Ultimate, Error> {
        let (l, e) = (checked_depth(depth)?, checked_height(height)?);
        Ok(rotation::ultimate(
            self,
            l,
            e,
            self.yields_at,
            self.source(),
        ))
    }

    fn needed_depth(&self, force: Force, height: Length) -> Result<NeededDepth, Error> {
        let (h, e) = (checked_force(force)?, checked_height(height)?);
        Ok(rotation::needed(
            self,
            deepest().value,
            h,
            e,
            self.yields_at,
        ))
    }

    fn greatest_moment(&self, force: Force, height: Length) -> Result<GreatestMoment, Error> {
        let (h, e) = (checked_force(force)?, checked_height(height)?);
        Ok(rotation::greatest(self, deepest().value, h, e))
    }

    fn write(&self, depth: Length, height: Length, sheet: &mut Worksheet) -> Result<(), Error> {
        let ultimate = self.ultimate(depth, height)?;
        sheet.section("Rigid-plastic statics");
        rotation::write(self, &ultimate, depth, height, sheet);
        Ok(())
    }
}
