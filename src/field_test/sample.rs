//! Several tests of one thing: mean, spread, and the value design may use.
//!
//! With the mean m, the deviation s and the coefficient of variation V:
//!
//! - EN 1990 Annex D (D.7), 5 % fractile: Xk = m (1 − kn V), kn = z √(1 + 1/n)
//!   where V is known beforehand, t(n−1) √(1 + 1/n) where it is not; lognormal
//!   the same on ln X. A prediction, not a tolerance limit. Table D.1 prints kn
//!   within 0.016 of this;
//! - a tolerance limit m − k s: 95 % of the population above with a confidence,
//!   normal, as ASTM D2915 and ISO 16269-6 have it (from memory); at five tests
//!   and 75 % some 5 % heavier than EN 1990;
//! - EN 1997-1 Table A.9: the lesser of mean over ξ1 and least over ξ2, made for
//!   static load tests of piles in compression: for a post an analogy;
//! - EN 1997-1 Table A.10 (quoted): the same with ξ3 and ξ4 of resistances
//!   that are calculated, one from each ground test profile. For a post that
//!   was never pulled, and an analogy too.

use super::distribution::{normal_quantile, student_quantile, tolerance_factor};
use crate::caution::{Caution, Cautions};
use crate::error::{Error, number_within, within};
use crate::profile::Soil;
use crate::source::{self, Citation};
use crate::units::{Length, Measurable, Pressure};
use crate::uplift::{Bond, Friction};

/// The share of the population that holds more than a characteristic value.
const ABOVE: f64 = 0.95;

/// Tests of one quantity, all of one way of setting a post in one ground.
///
/// ```
/// use groundline::{field_test::*, units::*};
/// let pulls = Sample::new(&[kn(12.1), kn(10.8), kn(13.4), kn(11.5), kn(12.6)])?;
/// let design = pulls.characteristic(Basis::Normal(Spread::OfTheTests))?;
/// assert!((design.value.to(kn) - 9.748).abs() < 1e-3);
/// assert_eq!(design.tests, 5);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Sample<Q> {
    values: Vec<Q>,
}

/// How well the spread is known.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Spread {
    /// From these tests alone: at least three.
    OfTheTests,
    /// A coefficient of variation known beforehand from many like tests. Tests
    /// that spread more than that speak against it, and theirs counts.
    Known(f64),
}

/// What a characteristic value rests on.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Basis {
    /// EN 1990 Annex D, normal.
    Normal(Spread),
    /// EN 1990 Annex D, lognormal.
    Lognormal(Spread),
    /// A tolerance limit with this confidence, spread of the tests.
    Tolerance(f64),
    /// Correlation factors of EN 1997-1 Table A.9: each value is a load test.
    Correlation,
    /// Correlation factors of EN 1997-1 Table A.10: each value is calculated
    /// from a ground test profile (a sounding or a boring), not pulled.
    GroundTests,
}

impl Basis {
    /// Its words.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Normal(Spread::OfTheTests) => "EN 1990 Annex D, normal, spread of the tests",
            Self::Normal(Spread::Known(_)) => "EN 1990 Annex D, normal, spread known",
            Self::Lognormal(Spread::OfTheTests) => {
                "EN 1990 Annex D, lognormal, spread of the tests"
            }
            Self::Lognormal(Spread::Known(_)) => "EN 1990 Annex D, lognormal, spread known",
            Self::Tolerance(_) => "tolerance limit, 95 % of posts above",
            Self::Correlation => "EN 1997-1 Table A.9, an analogy for posts",
            Self::GroundTests => "EN 1997-1 Table A.10, ground test profiles, an analogy for posts",
        }
    }

    /// Where it comes from.
    pub const fn source(self) -> &'static Citation {
        match self {
            Self::Normal(_) | Self::Lognormal(_) => &source::EN1990_ANNEX_D,
            Self::Tolerance(_) => &source::TOLERANCE_LIMIT,
            Self::Correlation => &source::EN1997_CORRELATION,
            Self::GroundTests => &source::EN1997_GROUND_TESTS,
        }
    }
}

impl core::fmt::Display for Basis {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(self.name())?;
        match self {
            Self::Tolerance(confidence) => {
                write!(f, " with {:.0} % confidence", 100.0 * confidence)
            }
            Self::Normal(Spread::Known(v)) | Self::Lognormal(Spread::Known(v)) => {
                write!(f, " as {:.0} %", 100.0 * v)
            }
            _ => Ok(()),
        }
    }
}

/// A value that design may use, and what it rests on.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Characteristic<Q> {
    /// The value.
    pub value: Q,
    /// Mean of the tests.
    pub mean: Q,
    /// The least of them.
    pub least: Q,
    /// kn, k, or the ξ that governs.
    pub factor: f64,
    /// How many tests.
    pub tests: u32,
    /// What it rests on.
    pub basis: Basis,
}

impl<Q: Measurable> Sample<Q> {
    /// The results of tests.
    ///
    /// # Errors
    /// None or more than 1 000; a result outside 10⁻⁹ to 10¹⁵ of its SI unit.
    pub fn new(values: &[Q]) -> Result<Self, Error> {
        if values.is_empty() || values.len() > 1_000 {
            return Err(Error::NotApplicable {
                field: "tests",
                reason: "give 1 to 1 000 results",
            });
        }
        for value in values {
            within("test result", *value, Q::from_si(1e-9), Q::from_si(1e15))?;
        }
        Ok(Self {
            values: values.to_vec(),
        })
    }

    /// How many.
    pub fn tests(&self) -> u32 {
        u32::try_from(self.values.len()).unwrap_or(u32::MAX)
    }

    fn number(&self) -> f64 {
        f64::from(self.tests())
    }

    fn mean_of(&self, of: impl Fn(f64) -> f64) -> f64 {
        self.values.iter().map(|v| of(v.si())).sum::<f64>() / self.number()
    }

    fn deviation_of(&self, of: impl Fn(f64) -> f64) -> Option<f64> {
        let mean = self.mean_of(&of);
        let sum: f64 = self
            .values
            .iter()
            .map(|v| (of(v.si()) - mean).powi(2))
            .sum();
        (self.values.len() > 1).then(|| (sum / (self.number() - 1.0)).sqrt())
    }

    /// Their mean.
    pub fn mean(&self) -> Q {
        Q::from_si(self.mean_of(|v| v))
    }

    /// The least of them.
    pub fn least(&self) -> Q {
        let least = self
            .values
            .iter()
            .fold(f64::MAX, |least, v| least.min(v.si()));
        Q::from_si(least)
    }

    /// Their standard deviation; none of one test.
    pub fn deviation(&self) -> Option<Q> {
        self.deviation_of(|v| v).map(Q::from_si)
    }

    /// Their coefficient of variation; none of one test.
    pub fn variation(&self) -> Option<f64> {
        self.deviation_of(|v| v).map(|s| s / self.mean_of(|v| v))
    }

    /// The value design may use: 5 % of posts hold less, by the basis.
    ///
    /// # Errors
    /// Where the spread is theirs, fewer than three tests or tests all the same; a
    /// known variation outside 0.01 to 1; confidence outside 0.5 to 0.999; a spread
    /// so great that nothing is left.
    pub fn characteristic(&self, basis: Basis) -> Result<Characteristic<Q>, Error> {
        let (value, factor) = match basis {
            Basis::Normal(spread) => {
                let kn = self.factor(spread)?;
                let mean = self.mean_of(|v| v);
                let s = match spread {
                    Spread::OfTheTests => self.deviation_of(|v| v).unwrap_or(0.0),
                    Spread::Known(v) => (v * mean).max(self.deviation_of(|v| v).unwrap_or(0.0)),
                };
                (mean - kn * s, kn)
            }
            Basis::Lognormal(spread) => {
                let kn = self.factor(spread)?;
                let s = match spread {
                    Spread::OfTheTests => self.deviation_of(f64::ln).unwrap_or(0.0),
                    Spread::Known(v) => {
                        let own = self.deviation_of(f64::ln).unwrap_or(0.0);
                        (v * v).ln_1p().sqrt().max(own)
                    }
                };
                ((self.mean_of(f64::ln) - kn * s).exp(), kn)
            }
            Basis::Tolerance(confidence) => {
                self.enough()?;
                let k = tolerance_factor(self.tests(), ABOVE, confidence)?;
                let s = self.deviation_of(|v| v).unwrap_or(0.0);
                (self.mean_of(|v| v) - k * s, k)
            }
            Basis::Correlation => self.correlated(correlation_factors(self.tests())),
            Basis::GroundTests => self.correlated(ground_test_factors(self.tests())),
        };
        if value <= 0.0 {
            return Err(Error::NotApplicable {
                field: "tests",
                reason: "their spread is so great that a normal distribution leaves nothing: \
                         test more, or take them as lognormal",
            });
        }
        Ok(Characteristic {
            value: Q::from_si(value),
            mean: self.mean(),
            least: self.least(),
            factor,
            tests: self.tests(),
            basis,
        })
    }

    /// The lesser of mean and least, each over its ξ, and the ξ that governs.
    fn correlated(&self, (on_mean, on_least): (f64, f64)) -> (f64, f64) {
        let mean = self.mean_of(|v| v) / on_mean;
        let least = self.least().si() / on_least;
        if mean <= least {
            (mean, on_mean)
        } else {
            (least, on_least)
        }
    }

    fn enough(&self) -> Result<(), Error> {
        if self.variation().is_none_or(|v| v < 1e-6) {
            return Err(Error::NotApplicable {
                field: "tests",
                reason: "they are all the same: readings so coarse, or so few, say nothing of \
                         their spread",
            });
        }
        if self.tests() < 3 {
            return Err(Error::NotApplicable {
                field: "tests",
                reason: "fewer than three say nothing of their own spread",
            });
        }
        Ok(())
    }

    /// kn.
    fn factor(&self, spread: Spread) -> Result<f64, Error> {
        let quantile = match spread {
            Spread::OfTheTests => {
                self.enough()?;
                student_quantile(ABOVE, self.tests() - 1)?
            }
            Spread::Known(variation) => {
                number_within("known variation", variation, 0.01, 1.0)?;
                normal_quantile(ABOVE)?
            }
        };
        Ok(quantile * (1.0 + 1.0 / self.number()).sqrt())
    }
}

impl<Q> Characteristic<Q> {
    /// The cautions that go with it.
    pub fn cautions(&self) -> Cautions {
        Cautions::default().with(Caution::FieldTests).with_if(
            self.basis.source().mark == source::Mark::FromMemory,
            Caution::FromMemory,
        )
    }
}

impl Characteristic<Pressure> {
    /// Friction of a shaft, ultimate, that remembers where it comes from. Use it
    /// with [`crate::uplift::HowKnown::Tests`].
    pub const fn as_friction(&self) -> Friction {
        Friction::Tested(self.value, self.basis.source())
    }

    /// Bond of a post in its footing: the value over a factor.
    ///
    /// # Errors
    /// Factor outside 1 to 10; as [`Bond::given`].
    pub fn as_bond(&self, factor: f64, perimeter: Length, length: Length) -> Result<Bond, Error> {
        Bond::tested(self.value, factor, perimeter, length, self.basis.source())
    }

    /// A clay of this undrained strength.
    ///
    /// # Errors
    /// As [`Soil::with_undrained_strength`].
    pub fn as_undrained_strength(&self, soil: Soil) -> Result<Soil, Error> {
        let soil = soil.with_undrained_strength(self.value)?;
        Ok(soil.citing(self.basis.source()))
    }
}

/// ξ1 on the mean and ξ2 on the least of n static load tests, EN 1997-1 Table
/// A.9, recommended values; national annexes differ.
pub const fn correlation_factors(tests: u32) -> (f64, f64) {
    match tests {
        0 | 1 => (1.4, 1.4),
        2 => (1.3, 1.2),
        3 => (1.2, 1.05),
        4 => (1.1, 1.0),
        _ => (1.0, 1.0),
    }
}

/// ξ3 on the mean and ξ4 on the least of resistances calculated from n ground
/// test profiles, EN 1997-1 Table A.10, recommended values, quoted;
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
