//! Load combinations: wind and dead load, each set a named, cited value that
//! the user's own can replace.
//!
//! | set | wind | dead load that loads | dead load that relieves | mark |
//! |---|---|---|---|---|
//! | ASCE 7 2.4.1, D + 0.6 W and 0.6 D + 0.6 W | 0.6 | 1.0 | 0.6 | quoted |
//! | IBC alternative, D + 0.6 ω W, ω = 1.3; 2/3 D | 0.78 | 1.0 | 2/3 | from memory (ω and 2/3 published) |
//! | the same for a check without a stress increase, ω = 1 | 0.6 | 1.0 | 2/3 | from memory |
//! | ASCE 7 2.3.1, 1.2 D + 1.0 W and 0.9 D + 1.0 W | 1.0 | 1.2 | 0.9 | from memory |
//! | EN 1990 STR/GEO 6.10 | 1.5 | 1.35 | 1.0 | from memory |
//! | EN 1990 EQU | 1.5 | 1.1 | 0.9 | from memory |
//! | EN 1990 UPL | 1.5 | 1.0 | 0.9 | from memory |
//! | EN 1990 GEO, reduced soil strength | 1.3 | 1.0 | 1.0 | from memory |
//! | AS/NZS 1170.0, 1.2 G + Wu and 0.9 G + Wu | 1.0 | 1.2 | 0.9 | from memory |
//!
//! Eurocode factors depend on the National Annex.
//!
//! What does not belong together does not compile: characteristic wind has no
//! allowable-stress combination.
//!
//! ```compile_fail
//! use groundline::{actions::*, combination::Combination, limit_state::*};
//! fn wrong(wind: &GroundlineActions<Characteristic>, dead: &DeadEffects) {
//!     let _ = wind.combined(dead, &Combination::of(AllowableStress::Basic));
//! }
//! ```

use crate::error::{Error, number_within, within};
use crate::limit_state::{
    AllowableStress, Characteristic, LimitState, LoadAndResistance, PartialFactor, Strength,
    Ultimate, UltimateCombined,
};
use crate::source::{self, Citation};
use crate::units::{Force, kipf, lb};

/// Factors on wind and dead load, and the limit state they lead to.
///
/// ```
/// use groundline::{combination::Combination, limit_state::PartialFactor};
/// let set = Combination::of(PartialFactor::Structure);
/// assert_eq!((set.wind(), set.dead(), set.relieving()), (1.5, 1.35, 1.0));
/// // A National Annex with other factors.
/// let own = set.with_factors(1.4, 1.2, 0.95)?;
/// assert_eq!(own.source().id, "given");
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Combination<L: LimitState> {
    wind: f64,
    dead: f64,
    relieving: f64,
    level: L,
    source: &'static Citation,
}

/// An uplift by wind, at the limit state its code states it in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WindUplift<L: LimitState> {
    force: Force,
    level: L,
}

impl<L: LimitState> WindUplift<L> {
    /// The combination that holds for it where `asked` is wanted.
    pub(crate) fn combination<To: Combined>(&self, asked: &Combination<To>) -> Combination<To>
    where
        L: CombinesTo<To>,
    {
        self.level.resolve(asked)
    }

    /// With the wind factor of a set.
    pub fn factored<To: Combined>(&self, set: &Combination<To>) -> Force
    where
        L: CombinesTo<To>,
    {
        self.force * self.combination(set).wind
    }

    /// An uplift.
    ///
    /// # Errors
    /// Outside 0 to 100 000 kip.
    pub fn new(force: Force, level: L) -> Result<Self, Error> {
        Ok(Self {
            force: within("uplift", force, lb(0.0), kipf(100_000.0))?,
            level,
        })
    }
}

/// A limit state that has a set of combination factors.
pub trait Combined: LimitState {
    /// Factors on wind, dead load that loads, dead load that relieves; source.
    #[doc(hidden)]
    fn factors(self) -> (f64, f64, f64, &'static Citation);

    /// The least factor on wind that may stand in its place.
    #[doc(hidden)]
    fn least_wind(self) -> f64 {
        0.1
    }
}

impl Combined for AllowableStress {
    #[inline]
    fn factors(self) -> (f64, f64, f64, &'static Citation) {
        let relieving = match self {
            Self::Basic => 0.6,
            Self::AlternativeWithIncrease => 2.0 / 3.0,
        };
        (self.wind_factor(), 1.0, relieving, self.citation())
    }

    /// The soil increase of the alternative family stands on its 1.3.
    fn least_wind(self) -> f64 {
        match self {
            Self::Basic => 0.1,
            Self::AlternativeWithIncrease => self.wind_factor(),
        }
    }
}
impl Combined for LoadAndResistance {
    fn factors(self) -> (f64, f64, f64, &'static Citation) {
        (1.0, 1.2, 0.9, &source::ASCE7_2_3_1)
    }
}
impl Combined for PartialFactor {
    fn factors(self) -> (f64, f64, f64, &'static Citation) {
        match self {
            Self::Structure => (1.5, 1.35, 1.0, &source::EN1990_STR),
            Self::Equilibrium => (1.5, 1.1, 0.9, &source::EN1990_EQU),
            Self::Uplift => (1.5, 1.0, 0.9, &source::EN1990_UPL),
            Self::ReducedGround => (1.3, 1.0, 1.0, &source::EN1990_GEO),
        }
    }
}
impl Combined for UltimateCombined {
    fn factors(self) -> (f64, f64, f64, &'static Citation) {
        (1.0, 1.2, 0.9, &source::ASNZS_COMBINATIONS)
    }
}

/// A limit state wind is stated in that combines to another.
#[diagnostic::on_unimplemented(
    message = "wind at `{Self}` level does not combine to `{To}`",
    label = "another safety format"
)]
pub trait CombinesTo<To: Combined>: LimitState {
    /// The combination that holds for wind at this level where `asked` is
    /// wanted: `asked`, or for wind already at that level its own.
    #[doc(hidden)]
    #[must_use]
    fn resolve(self, asked: &Combination<To>) -> Combination<To>;
}

macro_rules! combines {
    ($( $from:ty => $to:ty; )+) => { $(
        impl CombinesTo<$to> for $from {
            #[inline]
            fn resolve(self, asked: &Combination<$to>) -> Combination<$to> {
                *asked
            }
        }
    )+ };
}

combines! {
    Strength => AllowableStress;
    Strength => LoadAndResistance;
    Characteristic => PartialFactor;
    Ultimate => UltimateCombined;
}

impl CombinesTo<AllowableStress> for AllowableStress {
    /// Wind given at allowable-stress level keeps its own family, factor 1,
    /// whatever factor on wind was asked for; dead load relieves by no more
    /// than its own family lets it.
    #[inline]
    fn resolve(self, asked: &Combination<AllowableStress>) -> Combination<AllowableStress> {
        Combination {
            wind: 1.0,
            relieving: asked.relieving.min(Combination::of(self).relieving),
            level: self,
            source: &source::GIVEN,
            ..*asked
        }
    }
}

impl<L: Combined> Combination<L> {
    /// The set of a limit state.
    #[inline]
    pub fn of(level: L) -> Self {
        let (wind, dead, relieving, source) = level.factors();
        Self {
            wind,
            dead,
            relieving,
            level,
            source,
        }
    }

    /// With the user's own factors on wind, dead load that loads, and dead
    /// load that relieves.
    ///
    /// # Errors
    /// Wind outside 0.1 to 3 (with the alternative family not below its own
    /// 0.78, which its soil increase stands on), dead load outside 0.5 to 3, relieving dead load
    /// outside 0 to 1.
    pub fn with_factors(self, wind: f64, dead: f64, relieving: f64) -> Result<Self, Error> {
        Ok(Self {
            wind: number_within("factor on wind", wind, self.level.least_wind(), 3.0)?,
            dead: number_within("factor on dead load", dead, 0.5, 3.0)?,
            relieving: number_within("factor on relieving dead load", relieving, 0.0, 1.0)?,
            source: &source::GIVEN,
            ..self
        })
    }

    /// The factor on wind.
    #[inline]
    pub const fn wind(&self) -> f64 {
        self.wind
    }
    /// The factor on dead load that loads.
    #[inline]
    pub const fn dead(&self) -> f64 {
        self.dead
    }
    /// The factor on dead load that relieves.
    #[inline]
    pub const fn relieving(&self) -> f64 {
        self.relieving
    }
    /// The limit state.
    #[inline]
    pub const fn level(&self) -> L {
        self.level
    }
    /// Where the factors come from.
    #[inline]
    pub const fn source(&self) -> &'static Citation {
        self.source
    }

    /// The weight that counts against uplift and overturning.
    ///
    /// # Errors
    /// Weight outside 0 to 100 000 kip.
    pub fn relieving_weight(&self, weight: Force) -> Result<Force, Error> {
        Ok(within("weight", weight, lb(0.0), kipf(100_000.0))? * self.relieving)
    }

    /// What is left of an uplift of wind after the relieving weight; negative
    /// where the weight is more.
    ///
    /// ```
    /// use groundline::{combination::*, limit_state::*, units::{Measurable, lb}};
    /// let set = Combination::of(AllowableStress::Basic);
    /// let up = WindUplift::new(lb(1_000.0), Strength)?;
    /// let net = set.net_uplift(&up, lb(353.43))?;
    /// assert!((net.to(lb) - 387.94).abs() < 0.005);
    /// # Ok::<(), groundline::Error>(())
    /// ```
    ///
    /// # Errors
    /// Weight outside 0 to 100 000 kip.
    pub fn net_uplift<W: CombinesTo<L>>(
        &self,
        uplift: &WindUplift<W>,
        weight: Force,
    ) -> Result<Force, Error> {
        let set = uplift.combination(self);
        Ok(uplift.force * set.wind - set.relieving_weight(weight)?)
    }
}

impl Combination<AllowableStress> {
    /// Returns the set for a check whose allowable stress is not increased, such as
    /// that of the post itself. ω is 1.3 only where an allowable stress is increased
    /// (IBC 1605.3.2), which here is soil pressure alone: the factor on wind of the
    /// alternative family falls from 0.78 to 0.6. The basic family has no ω. Factors
    /// of your own hold for every check and are returned as they are.
    ///
    /// ```
    /// use groundline::{combination::Combination, limit_state::AllowableStress};
    /// let ground = Combination::of(AllowableStress::AlternativeWithIncrease);
    /// assert_eq!((ground.wind(), ground.without_increase().wind()), (0.6 * 1.3, 0.6));
    /// ```
    #[must_use]
    #[inline]
    pub fn without_increase(&self) -> Self {
        if self.has_omega() {
            Self {
                wind: AllowableStress::Basic.wind_factor(),
                ..*self
            }
        } else {
            *self
        }
    }

    /// Is ω = 1.3 in the factor on wind? Not in factors of the user's own.
    #[inline]
    pub(crate) fn has_omega(&self) -> bool {
        self.level == AllowableStress::AlternativeWithIncrease
            && self.source.id == source::IBC_1605_3_2_WIND.id
    }
}

impl<L: Combined> From<L> for Combination<L> {
    #[inline]
    fn from(level: L) -> Self {
        Self::of(level)
    }
}
