//! Which safety format a load belongs to, as a type.
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
    /// Basic combinations, D + 0.6 W (ASCE 7 2.4.1). No stress increase.
    #[default]
    Basic,
    /// Alternative combinations with stress increase, D + 0.6 ω W with
    /// ω = 1.3 (IBC 1605.3.2; 1605.2 from 2021). Not adopted everywhere.
    AlternativeWithIncrease,
}

impl AllowableStress {
    /// The factor on strength-level wind.
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

    /// The factor on soil pressures that belongs to this family.
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

impl sealed::Sealed for Strength {}
impl LimitState for Strength {
    #[inline]
    fn name(self) -> &'static str {
        "strength level"
    }
}
impl sealed::Sealed for AllowableStress {}
impl LimitState for AllowableStress {
    #[inline]
    fn name(self) -> &'static str {
        match self {
            Self::Basic => "allowable stress, basic combinations",
            Self::AlternativeWithIncrease => "allowable stress, alternative combinations",
        }
    }
}
