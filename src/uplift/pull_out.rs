//! Pull-out: every way a post may come out, and the weakest of them.
//!
//! - the footing slides in the ground: friction over its factor, and the
//!   weight;
//! - the footing lifts the soil above it: the soil's weight, or what a plate breaks
//!   out of sand with, and its own weight;
//! - the post slides in the footing: bond, and the weight of the post.
//!
//! Weight relieves, so it carries the factor of a load combination. The factor
//! on friction depends on how it is known: 3 by analysis, 2 by tests on site
//! (New York City Building Code 1810.3.4, published); presumptive friction is
//! allowable already.

use super::{Bond, Breakout, Friction, Shaft};
use crate::caution::{Caution, Cautions};
use crate::combination::{Combination, CombinesTo, WindUplift};
use crate::error::{Error, within};
use crate::limit_state::AllowableStress;
use crate::profile::{Profile, water};
use crate::source::{self, Citation};
use crate::units::{Force, Volume, cu_m, kipf, lb};
use crate::utilization::Utilization;

/// How a friction is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum HowKnown {
    /// By calculation.
    Analysis,
    /// By pull-out tests on this site.
    Tests,
}

impl HowKnown {
    /// The factor on ultimate friction (New York City Building Code 1810.3.4,
    /// published).
    pub const fn factor(self) -> f64 {
        match self {
            Self::Analysis => 3.0,
            Self::Tests => 2.0,
        }
    }
}

/// A way to come out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum PullOutMode {
    /// The footing slides in the ground.
    FootingSlides,
    /// The footing lifts the soil above it.
    SoilLifts,
    /// The post slides in its footing.
    PostSlides,
}

impl PullOutMode {
    /// Its words.
    pub const fn name(self) -> &'static str {
        match self {
            Self::FootingSlides => "the footing slides in the ground",
            Self::SoilLifts => "the footing lifts the soil above it",
            Self::PostSlides => "the post slides in its footing",
        }
    }
}

/// What holds a post down, at allowable-stress level: the weakest of the footing
/// sliding in the ground, the footing lifting the soil above it, and the post sliding
/// in the footing, each with the weight that goes along. Weight relieves by the
/// factor of a load combination; friction stands over the factor of [`HowKnown`].
///
/// ```
/// use groundline::{combination::*, limit_state::*, profile::*, units::*, uplift::*};
/// let clay = Soil::new(pcf(110.0))?.with_undrained_strength(psf(1_000.0))?;
/// let shaft = Shaft::round(ft(1.0), ft(3.0), ft(1.0))?;
/// let friction = Friction::Presumptive(presumptive_friction(psf(1_500.0))?);
/// let post = PullOut::new(lb(30.0), lb(353.0))?
///     .with_friction(&Profile::uniform(clay)?, friction, &shaft, HowKnown::Analysis)?
///     .with_bond(Bond::wood_in_concrete(inch(14.0), inch(30.0))?);
/// let holds = post.resistance(&Combination::of(AllowableStress::Basic));
/// assert_eq!(holds.weakest, PullOutMode::FootingSlides);
/// assert!((holds.resistance.to(lb) - (1_570.8 + 0.6 * 383.0)).abs() < 0.1);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PullOut {
    post: Force,
    footing: Force,
    friction: Option<(Force, &'static Citation)>,
    soil: Option<Force>,
    /// Allowable.
    breakout: Option<Force>,
    bond: Option<Bond>,
}

/// What holds, and which way is the weakest.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct PullOutResistance {
    /// The least of the ways considered.
    pub resistance: Force,
    /// Which it is.
    pub weakest: PullOutMode,
    /// Each way, where it was considered.
    pub ways: [(PullOutMode, Option<Force>); 3],
    /// Where the weakest comes from.
    pub source: &'static Citation,
}

impl PullOut {
    /// The weight of the post with what stands on it, and of its footing;
    /// buoyant where it stands in water.
    ///
    /// # Errors
    /// Outside 0 to 1 000 kip.
    pub fn new(post: Force, footing: Force) -> Result<Self, Error> {
        let most = kipf(1_000.0);
        Ok(Self {
            post: within("weight of the post", post, lb(0.0), most)?,
            footing: within("weight of the footing", footing, lb(0.0), most)?,
            friction: None,
            soil: None,
            breakout: None,
            bond: None,
        })
    }

    /// With friction on the footing.
    ///
    /// # Errors
    /// As [`Friction::resistance`]; a calculated friction said to be known by
    /// tests.
    pub fn with_friction(
        self,
        profile: &Profile,
        friction: Friction,
        shaft: &Shaft,
        known: HowKnown,
    ) -> Result<Self, Error> {
        let calculated = matches!(
            friction,
            Friction::Alpha(_) | Friction::AlphaApi | Friction::AlphaGec10 | Friction::Beta(..)
        );
        if calculated && known == HowKnown::Tests {
            return Err(Error::NotApplicable {
                field: "how friction is known",
                reason: "alpha and K tan delta are analysis; what tests gave is a friction of \
                         tests",
            });
        }
        let ultimate = friction.resistance(profile, shaft)?;
        let factor = if friction.is_allowable() {
            1.0
        } else {
            known.factor()
        };
        Ok(Self {
            friction: Some((ultimate / factor, friction.source())),
            ..self
        })
    }

    /// With friction that is allowable already.
    pub(crate) const fn with_side_friction(
        self,
        friction: Force,
        source: &'static Citation,
    ) -> Self {
        Self {
            friction: Some((friction, source)),
            ..self
        }
    }

    /// With soil that a bell or collar wider than the shaft has to lift: its
    /// weight, buoyant below water, the post and footing in it taken off. A
    /// straight shaft lifts none: it slides.
    ///
    /// # Errors
    /// Outside 0 to 1 000 kip.
    pub fn lifting_soil_by_collar(self, weight: Force) -> Result<Self, Error> {
        let soil = within("weight of soil", weight, lb(0.0), kipf(1_000.0))?;
        Ok(Self {
            soil: Some(soil),
            ..self
        })
    }

    /// With a plate, bell or collar that breaks out of sand: its ultimate
    /// resistance by analysis over 3, the weight of the sand in it. Beside
    /// [`PullOut::lifting_soil_by_collar`] the lesser counts.
    #[must_use]
    pub fn breaking_out(self, breakout: Breakout) -> Self {
        Self {
            breakout: Some(breakout.ultimate() / HowKnown::Analysis.factor()),
            ..self
        }
    }

    /// With a part of the footing below water: 9.80665 kN/m³ times its volume off
    /// its weight.
    ///
    /// # Errors
    /// A volume that is negative, or whose buoyancy is more than the weight of
    /// the footing: it floats.
    ///
    /// ```
    /// use groundline::{combination::Combination, limit_state::AllowableStress, units::*, uplift::*};
    /// // 150 pcf in water: 87.6 pcf are left.
    /// let dry = PullOut::new(lb(0.0), lb(1_500.0))?;
    /// let wet = dry.standing_in_water(cu_ft(10.0))?;
    /// let holds = wet.resistance(&Combination::of(AllowableStress::Basic));
    /// assert!((holds.resistance.to(lb) - 0.6 * 875.72).abs() < 0.01);
    /// # Ok::<(), groundline::Error>(())
    /// ```
    pub fn standing_in_water(self, below: Volume) -> Result<Self, Error> {
        let most = self.footing / water();
        let below = within("volume below water", below, cu_m(0.0), most)?;
        Ok(Self {
            footing: self.footing - water() * below,
            ..self
        })
    }

    /// With the bond of the post in its footing.
    #[must_use]
    pub const fn with_bond(self, bond: Bond) -> Self {
        Self {
            bond: Some(bond),
            ..self
        }
    }

    /// What holds, with weight relieving by the factor of a combination.
    /// Without friction or soil, weight alone.
    pub fn resistance(&self, set: &Combination<AllowableStress>) -> PullOutResistance {
        self.holding(set.relieving())
    }

    /// What holds, for the factor of weight that relieves.
    pub(crate) fn holding(&self, relief: f64) -> PullOutResistance {
        let weight = (self.post + self.footing) * relief;
        let slides = match self.friction {
            Some((friction, _)) => Some(friction + weight),
            // With soil to lift instead, sliding is not the way.
            None if self.soil.is_some() || self.breakout.is_some() => None,
            None => Some(weight),
        };
        let lifted = self.soil.map(|soil| soil * relief + weight);
        let broken = self.breakout.map(|allowable| allowable + weight);
        let breaks = match (lifted, broken) {
            (Some(lifted), Some(broken)) => broken < lifted,
            (lifted, _) => lifted.is_none(),
        };
        let lifts = if breaks { broken } else { lifted };
        let post = self.bond.map(|bond| bond.resistance() + self.post * relief);
        let ways = [
            (PullOutMode::FootingSlides, slides),
            (PullOutMode::SoilLifts, lifts),
            (PullOutMode::PostSlides, post),
        ];
        let mut weakest = (PullOutMode::FootingSlides, weight);
        let mut first = true;
        for (mode, holds) in ways {
            if let Some(holds) = holds
                && (first || holds < weakest.1)
            {
                weakest = (mode, holds);
                first = false;
            }
        }
        let source = match (weakest.0, self.friction, self.bond) {
            (PullOutMode::FootingSlides, Some((_, source)), _) => source,
            (PullOutMode::PostSlides, _, Some(bond)) => bond.source(),
            (PullOutMode::SoilLifts, ..) if breaks => Breakout::source(),
            _ => &source::STATICS,
        };
        PullOutResistance {
            resistance: weakest.1,
            weakest: weakest.0,
            ways,
            source,
        }
    }

    /// An uplift of wind against what holds.
    pub fn utilization<W: CombinesTo<AllowableStress>>(
        &self,
        uplift: &WindUplift<W>,
        set: &Combination<AllowableStress>,
    ) -> Utilization {
        let own = uplift.combination(set);
        Utilization::of(uplift.factored(set), self.resistance(&own).resistance)
    }

    /// The cautions that go with it.
    pub fn cautions(&self) -> Cautions {
        Cautions::default()
            .with(Caution::Frost)
            .with_if(self.bond.is_some(), Caution::Shrinkage)
            .with_if(
                self.breakout.is_some()
                    || self
                        .friction
                        .is_some_and(|(_, source)| source.mark == source::Mark::FromMemory),
                Caution::FromMemory,
            )
            .with_if(
                self.friction.is_some_and(|(_, source)| of_tests(source))
                    || self.bond.is_some_and(|bond| of_tests(bond.source())),
                Caution::FieldTests,
            )
    }
}

/// Is it a value of field tests?
fn of_tests(basis: &Citation) -> bool {
    [
        &source::EN1990_ANNEX_D,
        &source::TOLERANCE_LIMIT,
        &source::EN14358,
    ]
    .contains(&basis)
}
