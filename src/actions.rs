//! Ground-line actions: what a post brings down to grade.
//!
//! Shear V is positive in the wind direction; moment M about grade is positive
//! when it overturns the post the way a positive shear above grade does; axial
//! N is compression. So V and M of one sign turn the post in the same sense,
//! and V and M of opposite signs in opposite senses. The limit state is part
//! of the type, see [`crate::limit_state`].

mod fence_wind;
mod load_case;
mod picture;
mod run_wind;

pub use fence_wind::FenceWind;
pub use load_case::{LoadCase, LoadCaseKind, LoadCases};
pub use picture::{CaseSum, PicturedStrip, PressurePicture};
pub use run_wind::{RunWind, StandingWall};

use crate::combination::{Combination, Combined, CombinesTo};
use crate::error::{Error, within};
use crate::limit_state::{AllowableStress, LimitState, Strength};
use crate::units::{
    Angle, Force, Length, Measurable, Measured, Torque, arm, deg, ft, kipf, lb, lb_ft, moment,
};

/// Shear, moment and axial force at grade, in one safety format.
///
/// ```
/// use groundline::{actions::{DeadEffects, GroundlineActions}, limit_state::AllowableStress};
/// use groundline::units::{ft, lb, lb_ft};
/// let wind = GroundlineActions::wind(lb(1_000.0), ft(4.4))?;
/// let asd = wind.allowable(&DeadEffects::NONE, AllowableStress::Basic);
/// assert_eq!(asd.shear(), lb(600.0));
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GroundlineActions<L: LimitState> {
    shear: Force,
    moment: Torque,
    axial: Force,
    level: L,
}

impl<L: LimitState> GroundlineActions<L> {
    /// Actions an engineer already has, in the sign convention of this module.
    ///
    /// # Errors
    /// A value that is not finite, shear or axial beyond 100 000 kip, moment
    /// beyond 10⁹ lb·ft, or tension (uplift is another check).
    #[inline]
    pub fn new(shear: Force, moment: Torque, axial: Force, level: L) -> Result<Self, Error> {
        let most = kipf(100_000.0);
        let most_moment = lb_ft(1e9);
        Ok(Self {
            shear: within("shear", shear, -most, most)?,
            moment: within("moment", moment, -most_moment, most_moment)?,
            axial: within("axial force", axial, lb(0.0), most)?,
            level,
        })
    }

    /// V, the shear.
    #[inline]
    pub const fn shear(&self) -> Force {
        self.shear
    }
    /// M, the moment about grade.
    #[inline]
    pub const fn moment(&self) -> Torque {
        self.moment
    }
    /// N, the axial force.
    #[inline]
    pub const fn axial(&self) -> Force {
        self.axial
    }
    /// The safety format.
    #[inline]
    pub const fn level(&self) -> L {
        self.level
    }
    /// h = M/V, the height at which the shear would act; zero without shear.
    #[inline]
    pub fn height(&self) -> Length {
        arm(self.moment, self.shear)
    }
}

impl<L: LimitState> GroundlineActions<L> {
    /// No wind.
    #[inline]
    pub(crate) fn nothing(level: L) -> Self {
        Self {
            shear: Force::from_si(0.0),
            moment: Torque::from_si(0.0),
            axial: Force::from_si(0.0),
            level,
        }
    }

    /// A force at a height above grade, both known to be in range.
    #[inline]
    pub(crate) fn at_height(force: Force, height: Length, level: L) -> Self {
        Self {
            shear: force,
            moment: moment(force, height),
            axial: Force::from_si(0.0),
            level,
        }
    }

    /// Wind as a code states it: a force at a height above grade.
    ///
    /// # Errors
    /// As [`GroundlineActions::new`]; height outside 0 to 300 ft.
    pub fn wind_at(force: Force, height: Length, level: L) -> Result<Self, Error> {
        let height = within("height of the force", height, ft(0.0), ft(300.0))?;
        Self::new(force, moment(force, height), lb(0.0), level)
    }

    /// The resultant with the wind on something else that turns from this by
    /// an angle, both acting in full at once. The cosine is taken positive:
    /// some wind pushes both to the side where they add up. Shear and moment come
    /// out positive; axial forces are added.
    ///
    /// # Errors
    /// Turn outside 0° to 180°; two variants of a limit state; shear and moment
    /// of either in opposite senses; a resultant beyond the limits of
    /// [`GroundlineActions::new`].
    pub fn with_turned(&self, other: &Self, turn: Angle) -> Result<Self, Error> {
        let turn = within("turn", turn, deg(0.0), deg(180.0))?;
        if self.level != other.level {
            return Err(Error::NotApplicable {
                field: "limit state",
                reason: "the two are not of the same set of load combinations",
            });
        }
        for one in [self, other] {
            if one.shear.value * one.moment.value < 0.0 {
                return Err(Error::OppositeSense {
                    shear: Measured::new(one.shear),
                    moment: Measured::new(one.moment),
                });
            }
        }
        let parts = [(*self, deg(0.0)), (*other, turn)];
        let together = resultant(&parts, self.level);
        Self::new(
            together.shear,
            together.moment,
            self.axial + other.axial,
            self.level,
        )
    }

    /// Combined with dead load that loads, by a set of factors: D + 0.6 W,
    /// 1.2 D + W, 1.35 G + 1.5 Q. Moments of dead load across the wind combine
    /// as vectors. An axial force of these actions is added as it is, without a
    /// factor. For weight that relieves see [`GroundlineActions::relieved`].
    ///
    /// ```
    /// use groundline::{actions::*, combination::Combination, limit_state::*, units::*};
    /// let wind = GroundlineActions::wind_at(kn(2.0), m(1.0), Characteristic)?;
    /// let design = wind.combined(&DeadEffects::NONE, &Combination::of(PartialFactor::Structure));
    /// assert_eq!(design.moment(), kn_m(3.0));
    /// # Ok::<(), groundline::Error>(())
    /// ```
    #[must_use]
    #[inline]
    pub fn combined<To: Combined>(
        &self,
        dead: &DeadEffects,
        combination: &Combination<To>,
    ) -> GroundlineActions<To>
    where
        L: CombinesTo<To>,
    {
        let combination = self.level.resolve(combination);
        let on_dead = combination.dead();
        self.with_dead(dead, &combination, on_dead, on_dead)
    }

    /// The same with the weight taken to relieve: 0.6 D + 0.6 W, 0.9 D + W,
    /// 0.9 G + 1.5 Q. The axial force is the least there may be; the moments of
    /// hung leaves still load.
    ///
    /// ```
    /// use groundline::{actions::*, combination::Combination, limit_state::*, units::*};
    /// let wind = GroundlineActions::wind_at(kn(2.0), m(1.0), Characteristic)?;
    /// let dead = DeadEffects::new(kn(10.0), kn_m(0.0), kn_m(0.0))?;
    /// let least = wind.relieved(&dead, &Combination::of(PartialFactor::Equilibrium));
    /// assert_eq!(least.axial(), kn(9.0));
    /// # Ok::<(), groundline::Error>(())
    /// ```
    #[must_use]
    pub fn relieved<To: Combined>(
        &self,
        dead: &DeadEffects,
        combination: &Combination<To>,
    ) -> GroundlineActions<To>
    where
        L: CombinesTo<To>,
    {
        let combination = self.level.resolve(combination);
        self.with_dead(
            dead,
            &combination,
            combination.relieving(),
            combination.dead(),
        )
    }

    #[inline]
    fn with_dead<To: Combined>(
        &self,
        dead: &DeadEffects,
        combination: &Combination<To>,
        on_weight: f64,
        on_dead: f64,
    ) -> GroundlineActions<To> {
        let factor = combination.wind();
        let wind = self.moment * factor;
        let in_line = wind.value + (dead.in_line.value * on_dead).copysign(wind.value);
        let across = dead.across.value * on_dead;
        let moment = if across == 0.0 {
            in_line
        } else {
            (in_line * in_line + across * across)
                .sqrt()
                .copysign(in_line)
        };
        GroundlineActions {
            shear: self.shear * factor,
            moment: Torque::from_si(moment),
            axial: self.axial + dead.axial * on_weight,
            level: combination.level(),
        }
    }
}

impl GroundlineActions<Strength> {
    /// Strength-level wind: a force at a height above grade.
    ///
    /// # Errors
    /// As [`GroundlineActions::new`]; height outside 0 to 300 ft.
    #[inline]
    pub fn wind(force: Force, height: Length) -> Result<Self, Error> {
        let height = within("height of the force", height, ft(0.0), ft(300.0))?;
        Self::new(force, moment(force, height), lb(0.0), Strength)
    }

    /// Combined with dead load at allowable-stress level: D + 0.6 W, or the
    /// alternative family; short for [`GroundlineActions::combined`].
    #[must_use]
    #[inline]
    pub fn allowable(
        &self,
        dead: &DeadEffects,
        combination: AllowableStress,
    ) -> GroundlineActions<AllowableStress> {
        self.combined(dead, &Combination::of(combination))
    }
}

/// The cosine between two directions, taken positive; a right angle has
/// exactly none.
#[inline]
fn positive_cosine(between: Angle) -> f64 {
    let cosine = between.value.cos().abs();
    if cosine < 1e-12 { 0.0 } else { cosine }
}

/// The resultant of winds in several directions, every pair taken to the side
/// where it adds up. Weight is left to the caller.
fn resultant<L: LimitState>(
    parts: &[(GroundlineActions<L>, Angle)],
    level: L,
) -> GroundlineActions<L> {
    let (mut shear, mut moment) = (0.0, 0.0);
    for (one, towards) in parts {
        for (other, away) in parts {
            let cosine = positive_cosine(*towards - *away);
            shear += (one.shear.value * other.shear.value).abs() * cosine;
            moment += (one.moment.value * other.moment.value).abs() * cosine;
        }
    }
    GroundlineActions {
        shear: Force::from_si(shear.sqrt()),
        moment: Torque::from_si(moment.sqrt()),
        ..GroundlineActions::nothing(level)
    }
}

/// Nominal dead load at grade.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DeadEffects {
    axial: Force,
    in_line: Torque,
    across: Torque,
}

impl DeadEffects {
    /// None.
    pub const NONE: Self = Self {
        axial: Force {
            dimension: core::marker::PhantomData,
            units: core::marker::PhantomData,
            value: 0.0,
        },
        in_line: Torque {
            dimension: core::marker::PhantomData,
            units: core::marker::PhantomData,
            value: 0.0,
        },
        across: Torque {
            dimension: core::marker::PhantomData,
            units: core::marker::PhantomData,
            value: 0.0,
        },
    };

    /// Weight, and the moments it makes at grade in line with the wind and
    /// across it.
    ///
    /// # Errors
    /// A value that is not finite, negative, or beyond 100 000 kip or
    /// 10⁹ lb·ft.
    #[inline]
    pub fn new(axial: Force, in_line: Torque, across: Torque) -> Result<Self, Error> {
        let most = lb_ft(1e9);
        Ok(Self {
            axial: within("weight", axial, lb(0.0), kipf(100_000.0))?,
            in_line: within("moment of the weight", in_line, lb_ft(0.0), most)?,
            across: within("moment of the weight", across, lb_ft(0.0), most)?,
        })
    }

    /// Weight.
    #[inline]
    pub const fn axial(&self) -> Force {
        self.axial
    }
    /// Its moment in line with the wind.
    #[inline]
    pub const fn in_line(&self) -> Torque {
        self.in_line
    }
    /// Its moment across the wind.
    #[inline]
    pub const fn across(&self) -> Torque {
        self.across
    }
}
