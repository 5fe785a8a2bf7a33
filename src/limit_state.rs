//! Which safety format a load belongs to, as a type.
//!
//! Wind comes as a code states it; with dead load it is combined to what
//! resistances are checked against ([`crate::combination`]):
//!
//! | wind | as stated by | combined |
//! |---|---|---|
//! | [`Strength`] | ASCE 7-10 and later | [`AllowableStress`], [`LoadAndResistance`] |
//! | [`Characteristic`] | EN 1991 | [`PartialFactor`] |
//! | [`Ultimate`] | AS/NZS 1170.2 | [`UltimateCombined`] |
//! | [`AllowableStress`] | an engineer, who has it already | [`AllowableStress`], its own family |
//!
//! A formula of allowable-stress design given a strength-level load is wrong by
//! the load factor and looks right. Here it does not compile:
//!
//! ```compile_fail
//! use groundline::{embedment::PoleFormula, actions::GroundlineActions, limit_state::Strength};
//! fn wrong(formula: &PoleFormula, wind: &GroundlineActions<Strength>) {
//!     let _ = formula.required(wind);
//! }
//! ```
//!
//! Nor does a design value of the Eurocodes:
//!
//! ```compile_fail
//! use groundline::{embedment::PoleFormula, actions::GroundlineActions};
//! use groundline::limit_state::PartialFactor;
//! fn wrong(formula: &PoleFormula, design: &GroundlineActions<PartialFactor>) {
//!     let _ = formula.required(design);
//! }
//! ```

use crate::source::{self, Citation};

mod sealed {
    /// Keeps [`super::LimitState`] to the states of this crate.
    pub trait Sealed {}
}

/// A safety format that loads are stated in.
pub trait LimitState: Copy + core::fmt::Debug + PartialEq + sealed::Sealed {
    /// Its name in a report.
    fn name(self) -> &'static str;
}

/// Strength level: wind of ASCE 7-10 and later as it comes, load factor 1.0.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Strength;

/// Allowable-stress level, by one of two families of load combinations. They
/// must not be mixed: the one-third increase of soil pressures belongs to the
/// alternative family alone.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[non_exhaustive]
pub enum AllowableStress {
    /// Basic combinations, D + 0.6 W and 0.6 D + 0.6 W (ASCE 7 2.4.1). No stress
    /// increase.
    #[default]
    Basic,
    /// Alternative combinations with stress increase, D + 0.6 ω W with
    /// ω = 1.3 where an allowable stress is increased, which here is lateral
    /// bearing alone, and ω = 1 elsewhere (IBC 1605.3.2; 1605.2 from 2021). Not
    /// adopted everywhere.
    AlternativeWithIncrease,
}

impl AllowableStress {
    /// The factor on strength-level wind for the ground; without a stress increase see
    /// [`crate::combination::Combination::without_increase`].
    ///
    /// ```
    /// use groundline::limit_state::AllowableStress;
    /// assert_eq!(AllowableStress::Basic.wind_factor(), 0.6);
    /// assert_eq!(AllowableStress::AlternativeWithIncrease.wind_factor(), 0.6 * 1.3);
    /// ```
    #[inline]
    pub const fn wind_factor(self) -> f64 {
        match self {
            Self::Basic => 0.6,
            Self::AlternativeWithIncrease => 0.6 * 1.3,
        }
    }

    /// The factor on soil pressures that belongs to this family
    /// ([`source::IBC_1605_3_2`]).
    #[inline]
    pub const fn soil_increase(self) -> f64 {
        match self {
            Self::Basic => 1.0,
            Self::AlternativeWithIncrease => 4.0 / 3.0,
        }
    }

    /// Where the factors come from.
    #[inline]
    pub const fn citation(self) -> &'static Citation {
        match self {
            Self::Basic => &source::ASCE7_2_4_1,
            Self::AlternativeWithIncrease => &source::IBC_1605_3_2_WIND,
        }
    }
}

/// Strength design, load and resistance factors: 1.2 D or 0.9 D with 1.0 W.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct LoadAndResistance;

/// Characteristic value of EN 1990: wind of EN 1991 as it comes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Characteristic;

/// Design values of EN 1990, by the limit state whose partial factors they
/// carry. Strengths of the soil that go with them are divided by
/// [`PartialFactor::soil_friction_factor`] and
/// [`PartialFactor::soil_undrained_factor`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[non_exhaustive]
pub enum PartialFactor {
    /// STR/GEO, expression 6.10: bending and shear of the post, and the ground
    /// with unfactored soil strength (set A1).
    #[default]
    Structure,
    /// EQU: overturning as a rigid body.
    Equilibrium,
    /// UPL: uplift.
    Uplift,
    /// GEO with reduced soil strength (set A2, design approach 1 combination
    /// 2).
    ReducedGround,
}

impl PartialFactor {
    /// All of them.
    pub const ALL: [Self; 4] = [
        Self::Structure,
        Self::Equilibrium,
        Self::Uplift,
        Self::ReducedGround,
    ];

    /// What tan φ′ is divided by: 1.25, and 1 for [`PartialFactor::Structure`] alone
    /// (EN 1997-1 Annex A, Table A.2 for EQU, A.4 for GEO, A.16 for UPL; from
    /// memory). The same for the effective cohesion c′.
    #[inline]
    pub const fn soil_friction_factor(self) -> f64 {
        match self {
            Self::Structure => 1.0,
            Self::Equilibrium | Self::Uplift | Self::ReducedGround => 1.25,
        }
    }

    /// What undrained strength cu is divided by, not the effective cohesion c′: 1.4,
    /// and 1 for [`PartialFactor::Structure`] alone (EN 1997-1 Annex A, the tables of
    /// [`PartialFactor::soil_friction_factor`]; from memory).
    #[inline]
    pub const fn soil_undrained_factor(self) -> f64 {
        match self {
            Self::Structure => 1.0,
            Self::Equilibrium | Self::Uplift | Self::ReducedGround => 1.4,
        }
    }
}

/// Ultimate limit state of AS/NZS 1170: wind of AS/NZS 1170.2 as it comes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Ultimate;

/// Ultimate limit state of AS/NZS 1170.0: wind with factored dead load.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct UltimateCombined;

macro_rules! limit_states {
    ($( $state:ty, |$self:ident| $name:expr; )+) => { $(
        impl sealed::Sealed for $state {}
        impl LimitState for $state {
            #[inline]
            fn name($self) -> &'static str {
                $name
            }
        }
    )+ };
}

limit_states! {
    Strength, |self| "strength level";
    AllowableStress, |self| match self {
        Self::Basic => "allowable stress, basic combinations",
        Self::AlternativeWithIncrease => "allowable stress, alternative combinations",
    };
    LoadAndResistance, |self| "strength design, factored";
    Characteristic, |self| "characteristic value";
    PartialFactor, |self| match self {
        Self::Structure => "design value, STR/GEO 6.10",
        Self::Equilibrium => "design value, EQU",
        Self::Uplift => "design value, UPL",
        Self::ReducedGround => "design value, GEO with reduced soil strength",
    };
    Ultimate, |self| "ultimate limit state, wind";
    UltimateCombined, |self| "ultimate limit state, combined";
}
