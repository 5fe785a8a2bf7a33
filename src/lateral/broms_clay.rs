//! Broms 1964a: a post in one clay, undrained.
//!
//! Hu is the ultimate force at a height e above grade, b the width, L the depth,
//! My the yield moment of the post, Mmax its greatest moment. Soil reaction 0 from
//! grade to 1.5 b, 9 su b below. With X = 9 su b, f = Hu/X the length over which
//! it balances the load, L0 = L − 1.5 b:
//!
//! - free head, the ground gives way: moment balance over the reversed part
//!   g = L0 − f, Hu (e + 1.5 b + f/2) = X g²/4, so
//!   Hu²/(4X) + Hu (e + 1.5 b + L0/2) − X L0²/4 = 0, positive root (published
//!   form; closed form derived);
//! - free head, the post yields: Hu (e + 1.5 b + f/2) = My;
//! - restrained head: Hu = X L0, Mmax = Hu (L/2 + 0.75 b); long:
//!   Hu (1.5 b + f/2) = 2 My (both from memory); between them the head yields
//!   and the ground gives way: as free with −My for Hu e (derived).
//!
//! The greatest moment is at 1.5 b + f, of a restrained head at grade. A depth of
//! 1.5 b and a thousandth of that, or less, is refused: nothing of it counts.

use super::{
    GreatestMoment, Head, LateralMethod, Mode, NeededDepth, Ultimate, checked_depth, checked_force,
    checked_height, checked_width, checked_yield, deepest,
};
use crate::error::{Error, size_within, within};
use crate::profile::{Profile, Soil};
use crate::source::{self, Citation};
use crate::step::{Step, Worksheet};
use crate::units::{Force, Length, LineLoad, Measurable, Pressure, Torque, kpa};

/// Dead zone over b.
const DEAD: f64 = 1.5;
/// Bearing over su.
const BEARING: f64 = 9.0;

/// A post in one clay, undrained (Broms 1964a, published for a free head; a
/// restrained one from memory).
///
/// The reaction per length is nothing from grade to 1.5 b and 9 su b below, b the
/// width, su the undrained strength. With L the depth and e the height of the
/// force, the ground under a free head gives way at the positive root Hu of
/// Hu²/(4X) + Hu (e + 1.5 b + L0/2) = X L0²/4, X = 9 su b, L0 = L − 1.5 b. Depths
/// of 1.5 b or less are refused.
///
/// ```
/// use groundline::{lateral::{BromsClay, LateralMethod}, units::*};
/// let clay = BromsClay::new(kpa(50.0), m(0.3))?;
/// let ultimate = clay.ultimate(m(1.2), m(1.5))?;
/// assert!((ultimate.shear.to(kn) - 8.112898).abs() < 1e-5);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BromsClay {
    su: Pressure,
    width: Length,
    head: Head,
    yields_at: Option<f64>,
}

impl BromsClay {
    /// A clay of a strength and a post or footing of a width, free head.
    ///
    /// # Errors
    /// su outside 0.5 kPa to 1 MPa, width outside 2 cm to 3 m.
    pub fn new(su: Pressure, width: Length) -> Result<Self, Error> {
        Ok(Self {
            su: within("undrained strength", su, kpa(0.5), kpa(1_000.0))?,
            width: checked_width(width)?,
            head: Head::Free,
            yields_at: None,
        })
    }

    /// From a profile that is one clay down to a depth.
    ///
    /// # Errors
    /// Several soils, no undrained strength, or a discounted top; the depth
    /// is beyond the profile.
    pub fn of(profile: &Profile, width: Length, depth: Length) -> Result<Self, Error> {
        profile.reaches(depth)?;
        let su = profile
            .uniform_soil(depth)
            .and_then(Soil::undrained_strength)
            .filter(|_| profile.dead_top().value == 0.0);
        let su = su.ok_or(Error::NotApplicable {
            field: "soil",
            reason: "this method wants one clay with an undrained strength, and no discounted top",
        })?;
        Self::new(su, width)
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

    /// su.
    pub const fn undrained_strength(&self) -> Pressure {
        self.su
    }

    /// X = 9 su b.
    fn x(&self) -> f64 {
        BEARING * self.su.value * self.width.value
    }

    fn dead(&self) -> f64 {
        DEAD * self.width.value
    }

    /// Hu when the ground gives way, a moment at the head helping it.
    fn ground(&self, depth: f64, height: f64, at_head: f64) -> f64 {
        let (x, l0) = (self.x(), depth - self.dead());
        // Hu²/(4X) + Hu B − C = 0.
        let b = height + self.dead() + 0.5 * l0;
        let c = 0.25 * x * l0 * l0 + at_head;
        2.0 * c / (b + (b * b + c / x).sqrt())
    }

    /// Hu at which the greatest moment below grade is My, a moment at the head
    /// helping the post.
    fn post(&self, height: f64, at_head: f64, my: f64) -> f64 {
        // Hu (e + 1.5 b) + Hu²/(2X) = My + Mhead.
        let (b, c) = (height + self.dead(), my + at_head);
        2.0 * c / (b + (b * b + 2.0 * c / self.x()).sqrt())
    }

    /// Depth of zero shear under a force at a height, and the moment there.
    fn moment_at(&self, force: f64, height: f64) -> (f64, f64) {
        let f = force / self.x();
        (self.dead() + f, force * (height + self.dead() + 0.5 * f))
    }
}

impl BromsClay {
    /// The working of Hu where it is not the ground under a free head.
    fn other_mode(&self, of: &Ultimate, depth: Length, height: Length, x: LineLoad) -> Step {
        let my = Torque::from_si(self.yields_at.unwrap_or(0.0));
        let root = |formula: &'static str| {
            Step::root("Hu", "ultimate force", formula, of.shear)
                .with("X", x)
                .with("b", self.width)
                .with("My", my)
        };
        let step = match of.mode {
            Mode::Ground => Step::computed(
                "Hu",
                "ultimate force, restrained head",
                "X*(L - 1.5*b)",
                of.shear,
            )
            .with("X", x)
            .with("b", self.width)
            .with("L", depth),
            Mode::PostBelow => root("Hu*(e + 1.5*b) + Hu^2/(2*X) = My").with("e", height),
            Mode::Head => root("Hu^2/(4*X) + Hu*(1.5*b + (L - 1.5*b)/2) = X*(L - 1.5*b)^2/4 + My")
                .with("L", depth),
            Mode::HeadAndPost => root("Hu*1.5*b + Hu^2/(2*X) = 2*My"),
            Mode::PostAbove => {
                Step::computed("Hu", "ultimate force at the height e", "My/e", of.shear)
                    .with("My", my)
                    .with("e", height)
            }
        };
        step.cite(of.source)
    }
}

impl LateralMethod for BromsClay {
    fn name(&self) -> &'static str {
        "Broms, cohesive"
    }

    fn source(&self) -> &'static Citation {
        match self.head {
            Head::Free => &source::BROMS_CLAY,
            Head::Restrained => &source::BROMS_CLAY_RESTRAINED,
        }
    }

    fn ultimate(&self, depth: Length, height: Length) -> Result<Ultimate, Error> {
        let least = self.width * (DEAD * 1.001);
        size_within("depth", depth, least, deepest())?;
        let (l, e) = (checked_depth(depth)?, checked_height(height)?);
        let l0 = l - self.dead();
        let mut worst = (f64::MAX, Mode::Ground);
        let mut consider = |force: f64, mode: Mode| {
            if force < worst.0 {
                worst = (force, mode);
            }
        };
        match self.head {
            Head::Free => {
                consider(self.ground(l, e, 0.0), Mode::Ground);
                if let Some(my) = self.yields_at {
                    consider(self.post(e, 0.0, my), Mode::PostBelow);
                }
            }
            Head::Restrained => {
                consider(self.x() * l0, Mode::Ground);
                if let Some(my) = self.yields_at {
                    consider(self.ground(l, 0.0, my), Mode::Head);
                    consider(self.post(0.0, my, my), Mode::HeadAndPost);
                    consider(my / e, Mode::PostAbove);
                }
            }
        }
        let (force, mode) = worst;
        let (zero_shear, moment) = match (self.head, mode) {
            (Head::Free, _) => self.moment_at(force, e),
            (Head::Restrained, Mode::Ground) => (0.0, force * (0.5 * l + 0.75 * self.width.value)),
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
                _ => self.source(),
            },
        })
    }

    fn needed_depth(&self, force: Force, height: Length) -> Result<NeededDepth, Error> {
        let (h, e) = (checked_force(force)?, checked_height(height)?);
        let x = self.x();
        let depth = match self.head {
            Head::Free => {
                let (zero_shear, moment) = self.moment_at(h, e);
                if self.yields_at.is_some_and(|my| moment > my) {
                    return Ok(NeededDepth::PostYields);
                }
                // Mmax = 2.25 su b g² = X g²/4.
                zero_shear + (4.0 * moment / x).sqrt()
            }
            Head::Restrained => {
                let alone = self.dead() + h / x;
                match self.yields_at {
                    Some(my) if self.post(0.0, my, my) < h || my < h * e => {
                        return Ok(NeededDepth::PostYields);
                    }
                    // The head yields: X g²/4 = H (1.5 b + f/2) − My.
                    Some(my) => {
                        let f = h / x;
                        let over = h * (self.dead() + 0.5 * f) - my;
                        let yielded = self.dead() + f + (4.0 * over.max(0.0) / x).sqrt();
                        alone.max(yielded)
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
        let x = LineLoad::from_si(self.x());
        sheet.section("Broms, cohesive soil");
        sheet.remark(format!("Governs: {}.", ultimate.mode.name()));
        sheet.push(
            Step::computed("X", "soil reaction below 1.5 b", "9*su*b", x)
                .with("su", self.su)
                .with("b", self.width)
                .cite(&source::BROMS_CLAY),
        );
        if ultimate.mode == Mode::Ground && self.head == Head::Free {
            let l0 = Length::from_si(depth.value - self.dead());
            sheet.push(
                Step::computed("L0", "depth that counts", "L - 1.5*b", l0)
                    .with("L", depth)
                    .with("b", self.width)
                    .cite(&source::BROMS_CLAY),
            );
            sheet.push(
                Step::root(
                    "Hu",
                    "ultimate force at the height e",
                    "Hu^2/(4*X) + Hu*(e + 1.5*b + L0/2) = X*L0^2/4",
                    ultimate.shear,
                )
                .with("X", x)
                .with("e", height)
                .with("b", self.width)
                .with("L0", l0)
                .cite(&source::BROMS_CLAY),
            );
        } else {
            sheet.push(self.other_mode(&ultimate, depth, height, x));
        }
        if self.head == Head::Free {
            sheet.push(
                Step::computed(
                    "Mmax",
                    "greatest moment, at 1.5 b + Hu/X",
                    "Hu*(e + 1.5*b + Hu/(2*X))",
                    ultimate.greatest_moment,
                )
                .with("Hu", ultimate.shear)
                .with("e", height)
                .with("b", self.width)
                .with("X", x)
                .cite(&source::BROMS_CLAY),
            );
        } else if ultimate.mode == Mode::Ground {
            sheet.push(
                Step::computed(
                    "Mmax",
                    "greatest moment, at the head",
                    "Hu*(L/2 + 0.75*b)",
                    ultimate.greatest_moment,
                )
                .with("Hu", ultimate.shear)
                .with("L", depth)
                .with("b", self.width)
                .cite(ultimate.source),
            );
        }
        Ok(())
    }
}
