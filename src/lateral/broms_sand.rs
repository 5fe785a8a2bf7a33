//! Broms 1964b: a post in one sand, drained.
//!
//! Hu is the ultimate force at a height e above grade, γ′ the effective unit
//! weight, z the depth from grade, b the width, L the depth of the post, My its
//! yield moment, Mmax its greatest moment, f the depth of zero shear. Reaction
//! 3 Kp γ′ z b, Kp = tan²(45° + φ/2); the reversal below the rotation point is
//! lumped into a force at the toe. With Q = γ′ b Kp:
//!
//! - free head, the ground gives way: Hu = Q L³/(2 (e + L));
//! - free head, the post yields: Hu (e + 2f/3) = My, f = √(2 Hu/(3 Q));
//! - restrained head: Hu = 1.5 Q L², Mmax = Q L³ (published); long:
//!   Hu 2f/3 = 2 My (from memory); between them the head yields and the ground
//!   gives way: Hu L = Q L³/2 + My (derived).
//!
//! The greatest moment is at f, of a restrained head at grade. The depth for a
//! load H on a free head solves L³ = (2 H/Q)(e + L), which has one positive root,
//! taken directly.

use super::bracket::rising_root;
use super::{
    GreatestMoment, Head, LateralMethod, Mode, NeededDepth, Ultimate, checked_depth, checked_force,
    checked_height, checked_width, checked_yield, deepest,
};
use crate::embedment::positive_root;
use crate::error::{Error, within};
use crate::profile::Profile;
use crate::source::{self, Citation};
use crate::step::{Step, Worksheet};
use crate::units::{Angle, Force, ForcePerVolume, Length, Measurable, Torque, deg, kn_per_cu_m};

/// Kp = tan²(45° + φ/2), Rankine, for φ from 0° to less than 90°, which is not
/// checked here.
pub fn passive_coefficient(phi: Angle) -> f64 {
    let root = (core::f64::consts::FRAC_PI_4 + 0.5 * phi.value).tan();
    root * root
}

/// A post in one sand, drained (Broms 1964b, quoted for a free head; a restrained
/// one published, its yielding post from memory).
///
/// The reaction per length is 3 Kp γ′ z b, γ′ the effective unit weight, z the
/// depth, b the width, Kp of [`passive_coefficient`]; the reversal below the point of
/// rotation is a force at the toe. With L the depth and e the height of the force,
/// the ground under a free head gives way at Hu = γ′ b Kp L³/(2 (e + L)).
///
/// ```
/// use groundline::{lateral::{BromsSand, LateralMethod}, units::*};
/// let sand = BromsSand::new(kn_per_cu_m(18.0), deg(30.0), m(0.3))?;
/// let ultimate = sand.ultimate(m(1.2), m(1.5))?;
/// assert!((ultimate.shear.to(kn) - 5.184).abs() < 1e-9);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BromsSand {
    unit_weight: ForcePerVolume,
    kp: f64,
    width: Length,
    head: Head,
    yields_at: Option<f64>,
}

impl BromsSand {
    /// A sand of an effective unit weight γ′ and a friction angle, and a post
    /// or footing of a width, free head.
    ///
    /// # Errors
    /// γ′ outside 1 to 30 kN/m³, φ outside 0.5° to 50°, width outside 2 cm to
    /// 3 m.
    pub fn new(unit_weight: ForcePerVolume, phi: Angle, width: Length) -> Result<Self, Error> {
        let phi = within("friction angle", phi, deg(0.5), deg(50.0))?;
        Self::with_passive_coefficient(unit_weight, passive_coefficient(phi), width)
    }

    /// The same from a passive coefficient Kp.
    ///
    /// # Errors
    /// Kp outside 1 to 10; as [`BromsSand::new`].
    pub fn with_passive_coefficient(
        unit_weight: ForcePerVolume,
        kp: f64,
        width: Length,
    ) -> Result<Self, Error> {
        let (least, most) = (kn_per_cu_m(1.0), kn_per_cu_m(30.0));
        Ok(Self {
            unit_weight: within("effective unit weight", unit_weight, least, most)?,
            kp: crate::error::number_within("passive coefficient", kp, 1.0, 10.0)?,
            width: checked_width(width)?,
            head: Head::Free,
            yields_at: None,
        })
    }

    /// From a profile that is one sand down to a depth, dry or wholly under
    /// water.
    ///
    /// # Errors
    /// Several soils or weights, a cohesion, no friction angle, or a
    /// discounted top; the depth is beyond the profile.
    pub fn of(profile: &Profile, width: Length, depth: Length) -> Result<Self, Error> {
        profile.reaches(depth)?;
        let none = Error::NotApplicable {
            field: "soil",
            reason: "this method wants one sand with a friction angle and no cohesion, all dry or \
                     all under water, and no discounted top",
        };
        let soil = profile.uniform_soil(depth).ok_or(none)?;
        let phi = soil
            .friction_angle()
            .filter(|_| soil.cohesion().value == 0.0 && profile.dead_top().value == 0.0)
            .ok_or(none)?;
        Self::new(profile.uniform_weight(depth).ok_or(none)?, phi, width)
    }

    /// With a head that is held.
    #[must_use]
    pub const fn with_head(self, head: Head) -> Self {
        Self { head, ..self }
    }

    /// With a post that yields at a moment.
    ///
    /// # Errors
    /// Outside 1 N·m to 1 GN·m.
    pub fn yielding_at(self, moment: Torque) -> Result<Self, Error> {
        let yields_at = Some(checked_yield(moment)?);
        Ok(Self { yields_at, ..self })
    }

    /// Kp.
    pub const fn passive(&self) -> f64 {
        self.kp
    }

    /// Q = γ′ b Kp.
    fn q(&self) -> f64 {
        self.unit_weight.value * self.width.value * self.kp
    }

    /// Depth of zero shear under a force at a height, and the moment there.
    fn moment_at(&self, force: f64, height: f64) -> (f64, f64) {
        let f = (2.0 * force / (3.0 * self.q())).sqrt();
        (f, force * (height + 2.0 * f / 3.0))
    }

    /// Hu at which Hu (e + 2f/3) reaches a moment.
    fn post(&self, height: f64, moment: f64) -> f64 {
        // With x = √Hu: x² e + x³ c = M, c = (2/3) √(2/(3Q)).
        let c = 2.0 / 3.0 * (2.0 / (3.0 * self.q())).sqrt();
        let most = (moment / c).cbrt();
        let x = rising_root(0.0, most * 1.000_001, |x| x * x * (height + c * x) - moment);
        x * x
    }
}

impl BromsSand {
    /// The working of Hu where the post yields.
    fn other_mode(&self, of: &Ultimate, depth: Length, height: Length) -> Step {
        let my = Torque::from_si(self.yields_at.unwrap_or(0.0));
        let ground = |step: Step| {
            step.with_as("g", self.unit_weight, crate::units::Measure::UnitWeight)
                .with("b", self.width)
                .with_number("Kp", self.kp)
                .with("My", my)
        };
        let (meaning, force) = ("ultimate force at the height e", of.shear);
        let step = match of.mode {
            Mode::Ground | Mode::PostBelow => ground(Step::root(
                "Hu",
                meaning,
                "Hu*(e + sqrt(2*Hu/(3*g*b*Kp))*2/3) = My",
                force,
            ))
            .with("e", height),
            Mode::Head => ground(Step::computed(
                "Hu",
                "ultimate force",
                "g*b*L^2*Kp/2 + My/L",
                force,
            ))
            .with("L", depth),
            Mode::HeadAndPost => ground(Step::root(
                "Hu",
                "ultimate force",
                "Hu*sqrt(2*Hu/(3*g*b*Kp))*2/3 = 2*My",
                force,
            )),
            Mode::PostAbove => Step::computed("Hu", meaning, "My/e", force)
                .with("My", my)
                .with("e", height),
        };
        step.cite(of.source)
    }
}

impl LateralMethod for BromsSand {
    fn name(&self) -> &'static str {
        "Broms, cohesionless"
    }

    fn source(&self) -> &'static Citation {
        match self.head {
            Head::Free => &source::BROMS_SAND,
            Head::Restrained => &source::BROMS_SAND_RESTRAINED,
        }
    }

    fn ultimate(&self, depth: Length, height: Length) -> Result<Ultimate, Error> {
        let (l, e) = (checked_depth(depth)?, checked_height(height)?);
        let q = self.q();
        let mut worst = (f64::MAX, Mode::Ground);
        let mut consider = |force: f64, mode: Mode| {
            if force < worst.0 {
                worst = (force, mode);
            }
        };
        match self.head {
            Head::Free => {
                consider(0.5 * q * l * l * l / (e + l), Mode::Ground);
                if let Some(my) = self.yields_at {
                    consider(self.post(e, my), Mode::PostBelow);
                }
            }
            Head::Restrained => {
                consider(1.5 * q * l * l, Mode::Ground);
                if let Some(my) = self.yields_at {
                    consider(0.5 * q * l * l + my / l, Mode::Head);
                    consider(self.post(0.0, 2.0 * my), Mode::HeadAndPost);
                    consider(my / e, Mode::PostAbove);
                }
            }
        }
        let (force, mode) = worst;
        let (zero_shear, moment) = match (self.head, mode) {
            (Head::Free, _) => self.moment_at(force, e),
            (Head::Restrained, Mode::Ground) => (0.0, q * l * l * l),
            (Head::Restrained, _) => (0.0, self.yields_at.unwrap_or(0.0)),
        };
        Ok(Ultimate {
            shear: Force::from_si(force),
            moment: Torque::from_si(force * e),
            mode,
            zero_shear: Length::from_si(zero_shear),
            greatest_moment: Torque::from_si(moment),
            rotation: None,
            source: match mode {
                Mode::Head => &source::BROMS_INTERMEDIATE,
                Mode::PostAbove => &source::STATICS,
                Mode::HeadAndPost => &source::BROMS_SAND_RESTRAINED_LONG,
                Mode::Ground | Mode::PostBelow => self.source(),
            },
        })
    }

    fn needed_depth(&self, force: Force, height: Length) -> Result<NeededDepth, Error> {
        let (h, e) = (checked_force(force)?, checked_height(height)?);
        let q = self.q();
        let depth = match self.head {
            Head::Free => {
                let (_, moment) = self.moment_at(h, e);
                if self.yields_at.is_some_and(|my| moment > my) {
                    return Ok(NeededDepth::PostYields);
                }
                positive_root(2.0 * h / q, 2.0 * h * e / q)
            }
            Head::Restrained => {
                let alone = (h / (1.5 * q)).sqrt();
                match self.yields_at {
                    Some(my) if self.post(0.0, 2.0 * my) < h || my < h * e => {
                        return Ok(NeededDepth::PostYields);
                    }
                    // Q L³/2 + My = H L: the larger root, or where the head
                    // alone suffices its own depth.
                    Some(my) => {
                        let most = (2.0 * h / q).sqrt();
                        rising_root(alone, most, |l| 0.5 * q * l * l * l + my - h * l)
                    }
                    None => alone,
                }
            }
        };
        Ok(if depth > deepest().value {
            NeededDepth::MoreThan(deepest())
        } else {
            NeededDepth::Depth(Length::from_si(depth))
        })
    }

    fn greatest_moment(&self, force: Force, height: Length) -> Result<GreatestMoment, Error> {
        if self.head == Head::Restrained {
            return Err(Error::NotApplicable {
                field: "head",
                reason: "a restrained head has the greatest moment at grade, by its depth: see the \
                         ultimate load",
            });
        }
        let (depth, moment) = self.moment_at(checked_force(force)?, checked_height(height)?);
        Ok(GreatestMoment {
            depth: Length::from_si(depth),
            moment: Torque::from_si(moment),
        })
    }

    fn write(&self, depth: Length, height: Length, sheet: &mut Worksheet) -> Result<(), Error> {
        let ultimate = self.ultimate(depth, height)?;
        sheet.section("Broms, cohesionless soil");
        sheet.remark(format!("Governs: {}.", ultimate.mode.name()));
        sheet.push(Step::given_number(
            "Kp",
            "passive coefficient, Rankine",
            self.kp,
        ));
        if ultimate.mode == Mode::Ground {
            let (formula, meaning) = match self.head {
                Head::Free => ("0.5*g*b*L^3*Kp/(e + L)", "ultimate force at the height e"),
                Head::Restrained => ("1.5*g*b*L^2*Kp", "ultimate force, restrained head"),
            };
            let mut step = Step::computed("Hu", meaning, formula, ultimate.shear)
                .with_as("g", self.unit_weight, crate::units::Measure::UnitWeight)
                .with("b", self.width)
                .with("L", depth)
                .with_number("Kp", self.kp);
            if self.head == Head::Free {
                step = step.with("e", height);
            }
            sheet.push(step.cite(ultimate.source));
        } else {
            sheet.push(self.other_mode(&ultimate, depth, height));
        }
        if self.head == Head::Free {
            let f = ultimate.zero_shear;
            sheet.push(
                Step::computed("f", "depth of zero shear", "sqrt(2*Hu/(3*g*b*Kp))", f)
                    .with("Hu", ultimate.shear)
                    .with_as("g", self.unit_weight, crate::units::Measure::UnitWeight)
                    .with("b", self.width)
                    .with_number("Kp", self.kp)
                    .cite(self.source()),
            );
            sheet.push(
                Step::computed(
                    "Mmax",
                    "greatest moment",
                    "Hu*(e + 2*f/3)",
                    ultimate.greatest_moment,
                )
                .with("Hu", ultimate.shear)
                .with("e", height)
                .with("f", f)
                .cite(self.source()),
            );
        } else if ultimate.mode == Mode::Ground {
            sheet.push(
                Step::computed(
                    "Mmax",
                    "greatest moment, at the head",
                    "g*b*L^3*Kp",
                    ultimate.greatest_moment,
                )
                .with_as("g", self.unit_weight, crate::units::Measure::UnitWeight)
                .with("b", self.width)
                .with("L", depth)
                .with_number("Kp", self.kp)
                .cite(ultimate.source),
            );
        }
        Ok(())
    }
}
