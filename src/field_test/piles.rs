//! Resistance of piles by the correlation factors of EN 1997-1, Annex A.
//!
//! Rk is the lesser of the mean over one ξ and the least over the other:
//!
//! - Table A.9 (quoted), ξ1 and ξ2: static load tests;
//! - Table A.10 (quoted), ξ3 and ξ4: resistances calculated from ground test
//!   profiles.
//!
//! The factors are made for axially loaded piles, whose partial factors follow.
//! Rk is no 5 % value: with 3 and 5 tests 17 % of next tests are below it (V = 0.2,
//! simulated). So it is no characteristic value of posts, and neither friction nor bond takes
//! it.

use super::sample::Sample;
use crate::caution::{Caution, Cautions};
use crate::source::{self, Citation};
use crate::units::Force;

/// What the resistances of piles come from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum PileTests {
    /// Static load tests, Table A.9.
    LoadTests,
    /// Calculations, one from each ground test profile, Table A.10.
    GroundTests,
}

impl PileTests {
    /// Returns the name with its table.
    pub const fn name(self) -> &'static str {
        match self {
            Self::LoadTests => "EN 1997-1 Table A.9, static load tests of piles",
            Self::GroundTests => "EN 1997-1 Table A.10, ground test profiles of piles",
        }
    }

    /// Returns the source of the factors.
    pub const fn source(self) -> &'static Citation {
        match self {
            Self::LoadTests => &source::EN1997_CORRELATION,
            Self::GroundTests => &source::EN1997_GROUND_TESTS,
        }
    }
}

/// Characteristic axial resistance of piles in the sense of EN 1997-1, 7.6.2: for
/// piles alone, with the partial factors of that code.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct PileResistance {
    /// Rk, the lesser of the two quotients.
    pub resistance: Force,
    /// Mean of the resistances over its factor.
    pub by_mean: Force,
    /// Least of the resistances over its factor.
    pub by_least: Force,
    /// Where the resistances come from.
    pub tests: PileTests,
}

impl PileResistance {
    /// Returns the cautions of the result.
    pub fn cautions(&self) -> Cautions {
        Cautions::default().with(Caution::FieldTests)
    }
}

impl Sample<Force> {
    /// Returns the characteristic axial resistance of piles by the correlation
    /// factors of EN 1997-1; not for posts ([`Sample::characteristic`]).
    ///
    /// ```
    /// use groundline::{field_test::*, units::*};
    /// let piles = Sample::new(&[kn(412.0), kn(380.0), kn(455.0)])?;
    /// let rk = piles.pile_resistance(PileTests::LoadTests);
    /// assert!((rk.resistance.to(kn) - 415.67 / 1.2).abs() < 0.01);
    /// # Ok::<(), groundline::Error>(())
    /// ```
    pub fn pile_resistance(&self, tests: PileTests) -> PileResistance {
        let (on_mean, on_least) = match tests {
            PileTests::LoadTests => correlation_factors(self.tests()),
            PileTests::GroundTests => ground_test_factors(self.tests()),
        };
        let (by_mean, by_least) = (self.mean() / on_mean, self.least() / on_least);
        let resistance = if by_mean <= by_least {
            by_mean
        } else {
            by_least
        };
        PileResistance {
            resistance,
            by_mean,
            by_least,
            tests,
        }
    }
}

/// Returns ξ1 on the mean and ξ2 on the least of n static load tests of piles, EN
/// 1997-1 Table A.9, recommended values, quoted; national annexes differ.
pub const fn correlation_factors(tests: u32) -> (f64, f64) {
    match tests {
        0 | 1 => (1.4, 1.4),
        2 => (1.3, 1.2),
        3 => (1.2, 1.05),
        4 => (1.1, 1.0),
        _ => (1.0, 1.0),
    }
}

/// Returns ξ3 on the mean and ξ4 on the least of pile resistances calculated from n
/// ground test profiles, EN 1997-1 Table A.10, recommended values, quoted;
/// national annexes differ. Between the numbers of the table (6, 8, 9) those of
/// the lesser number hold, from ten those of ten.
///
/// ```
/// use groundline::field_test::ground_test_factors;
/// assert_eq!(ground_test_factors(3), (1.33, 1.23));
/// assert_eq!(ground_test_factors(9), ground_test_factors(7));
/// ```
pub const fn ground_test_factors(profiles: u32) -> (f64, f64) {
    match profiles {
        0 | 1 => (1.4, 1.4),
        2 => (1.35, 1.27),
        3 => (1.33, 1.23),
        4 => (1.31, 1.2),
        5 | 6 => (1.29, 1.15),
        7..=9 => (1.27, 1.12),
        _ => (1.25, 1.08),
    }
}
