//! Several tests of one thing: mean, spread, and the value design may use.
//!
//! With the mean m, the deviation s and the coefficient of variation V:
//!
//! - EN 1990 Annex D (D.7), 5 % fractile: Xk = m (1 − kn V), kn = z √(1 + 1/n)
//!   where V is known beforehand, t(n−1) √(1 + 1/n) where it is not; lognormal
//!   the same on ln X. A prediction, not a tolerance limit. Table D.1 prints kn
//!   within 0.016 of this. Tests that spread more than the V known beforehand take
//!   their own spread and t in place of z;
//! - a tolerance limit m − k s: 95 % of the population above with a confidence,
//!   normal, as ASTM D2915 and ISO 16269-6 have it (from memory); at five tests
//!   and 75 % some 5 % heavier than EN 1990;
//! - a tolerance limit on ln X with sY at least 0.05, as EN 14358 has it (from
//!   memory).
//!
//! # What each basis holds
//! Share of next posts that hold at least the value, and share of the values that
//! are at or below the true 5 % fractile, in per cent. Simulated: 10 000 samples of
//! a normal population with V = 0.2, fixed seed (`tests/suite/samples_simulated.rs`).
//!
//! | basis | n = 3 | n = 5 | n = 10 |
//! |---|---|---|---|
//! | lower of both (default) | 95, 78 | 96, 75 | 96, 75 |
//! | tolerance limit at 75 % | 94, 75 | 96, 75 | 96, 75 |
//! | EN 1990, normal | 95, 78 | 95, 72 | 95, 65 |
//! | lognormal tolerance limit at 75 % | 93, 67 | 94, 63 | 94, 59 |
//! | EN 1990, lognormal | 94, 70 | 93, 60 | 93, 50 |
//! | EN 1997-1 Table A.9, of piles: not offered | 83, 20 | 83, 23 | 91, 40 |

use super::distribution::{normal_quantile, student_quantile, tolerance_factor};
use super::readings::PeakKind;
use crate::caution::{Caution, Cautions};
use crate::error::{Error, number_within, within};
use crate::profile::Soil;
use crate::source::{self, Citation};
use crate::units::{Length, Measurable, Pressure};
use crate::uplift::{Bond, Friction};

/// The share of the population that holds more than a characteristic value.
const ABOVE: f64 = 0.95;
/// Confidence of a tolerance limit in the standards (EN 14358, ASTM D2915).
const CONFIDENCE: f64 = 0.75;
/// Least deviation of ln X in EN 14358 (from memory).
const LEAST_DEVIATION: f64 = 0.05;

/// Tests of one quantity, all of one way of setting a post in one ground.
///
/// ```
/// use groundline::{field_test::*, units::*};
/// let pulls = Sample::new(&[kn(12.1), kn(10.8), kn(13.4), kn(11.5), kn(12.6)])?;
/// let design = pulls.characteristic(Basis::default())?;
/// assert!((design.value.to(kn) - 9.620).abs() < 1e-3);
/// assert_eq!((design.tests, design.basis), (5, Basis::Tolerance(0.75)));
/// let en1990 = pulls.characteristic(Basis::Normal(Spread::OfTheTests))?;
/// assert!((en1990.value.to(kn) - 9.748).abs() < 1e-3);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Sample<Q> {
    values: Vec<Q>,
    at_least: u32,
}

/// How well the spread is known.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Spread {
    /// From these tests alone: at least three.
    OfTheTests,
    /// A coefficient of variation known beforehand from many like tests. Where the
    /// tests spread more than that, the value is that of
    /// [`Spread::OfTheTests`]: their spread, and t in place of z.
    Known(f64),
}

/// Basis of a characteristic value, the 5 % fractile. The default is the safest of
/// them, whatever the number of tests. Simulated with normal populations (V = 0.2)
/// and 3, 5 and 10 tests, 95, 96 and 96 % of next posts hold at least the default
/// value, and it is at or below the true 5 % fractile in 78, 75 and 75 % of cases.
///
/// | basis | next posts that hold it, n = 3, 5, 10 | at or below the true 5 % fractile |
/// |---|---|---|
/// | [`Basis::LowerOfBoth`] | 95, 96, 96 % | 78, 75, 75 % |
/// | [`Basis::Tolerance`] at 75 % | 94, 96, 96 % | 75, 75, 75 % |
/// | [`Basis::Normal`] | 95, 95, 95 % | 78, 72, 65 % |
/// | [`Basis::LognormalTolerance`] at 75 % | 93, 94, 94 % | 67, 63, 59 % |
/// | [`Basis::Lognormal`] | 94, 93, 93 % | 70, 60, 50 % |
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[non_exhaustive]
pub enum Basis {
    /// The lower of [`Basis::Tolerance`] at 75 % confidence and [`Basis::Normal`]
    /// with the spread of the tests: the first governs from four tests on, the second
    /// with three.
    #[default]
    LowerOfBoth,
    /// Normal tolerance limit with this confidence, spread of the tests.
    Tolerance(f64),
    /// EN 1990 Annex D, normal.
    Normal(Spread),
    /// Lognormal tolerance limit with this confidence, spread of the tests, the
    /// deviation of ln X at least 0.05: the form of EN 14358, which takes 75 %.
    LognormalTolerance(f64),
    /// EN 1990 Annex D, lognormal.
    Lognormal(Spread),
}

impl Basis {
    /// The bases that need no more than the tests, the default first.
    pub const OF_TESTS: [Self; 5] = [
        Self::LowerOfBoth,
        Self::Tolerance(CONFIDENCE),
        Self::Normal(Spread::OfTheTests),
        Self::LognormalTolerance(CONFIDENCE),
        Self::Lognormal(Spread::OfTheTests),
    ];

    /// Its words.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Normal(Spread::OfTheTests) => "EN 1990 Annex D, normal, spread of the tests",
            Self::Normal(Spread::Known(_)) => "EN 1990 Annex D, normal, spread known",
            Self::Lognormal(Spread::OfTheTests) => {
                "EN 1990 Annex D, lognormal, spread of the tests"
            }
            Self::Lognormal(Spread::Known(_)) => "EN 1990 Annex D, lognormal, spread known",
            Self::LowerOfBoth => "lower of the tolerance limit at 75 % and EN 1990 Annex D, normal",
            Self::Tolerance(_) => "tolerance limit, normal, 95 % of posts above",
            Self::LognormalTolerance(_) => "tolerance limit, lognormal, 95 % of posts above",
        }
    }

    /// Where it comes from.
    pub const fn source(self) -> &'static Citation {
        match self {
            Self::Normal(_) | Self::Lognormal(_) => &source::EN1990_ANNEX_D,
            Self::LowerOfBoth | Self::Tolerance(_) => &source::TOLERANCE_LIMIT,
            Self::LognormalTolerance(_) => &source::EN14358,
        }
    }
}

impl core::fmt::Display for Basis {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(self.name())?;
        match self {
            Self::Tolerance(confidence) | Self::LognormalTolerance(confidence) => {
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
    /// kn or k.
    pub factor: f64,
    /// How many tests.
    pub tests: u32,
    /// How many of them are lower bounds ([`PeakKind::AtLeast`]): then the mean is a
    /// lower bound, and the spread of the ground may be greater than theirs.
    pub at_least: u32,
    /// Basis that governs: one of the two of [`Basis::LowerOfBoth`], and
    /// [`Spread::OfTheTests`] where the tests spread more than the spread known.
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
            at_least: 0,
        })
    }

    /// Results of tests, each with whether it was reached or is a lower bound.
    ///
    /// # Errors
    /// As [`Sample::new`].
    ///
    /// ```
    /// use groundline::{field_test::*, units::*};
    /// let pulls = [(kn(9.0), PeakKind::Reached), (kn(8.0), PeakKind::AtLeast)];
    /// assert_eq!(Sample::with_kinds(&pulls)?.at_least(), 1);
    /// # Ok::<(), groundline::Error>(())
    /// ```
    pub fn with_kinds(values: &[(Q, PeakKind)]) -> Result<Self, Error> {
        let plain: Vec<Q> = values.iter().map(|(value, _)| *value).collect();
        let bounds = values.iter().filter(|(_, kind)| *kind == PeakKind::AtLeast);
        Ok(Self {
            at_least: u32::try_from(bounds.count()).unwrap_or(u32::MAX),
            ..Self::new(&plain)?
        })
    }

    /// Returns how many of the results are lower bounds.
    pub const fn at_least(&self) -> u32 {
        self.at_least
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

    /// Returns the value design may use: 5 % of posts hold less, by the basis.
    ///
    /// # Errors
    /// Where the spread is theirs, fewer than three tests or tests all the same; a
    /// known variation outside 0.01 to 1; confidence outside 0.5 to 0.999; a spread
    /// so great that nothing is left.
    pub fn characteristic(&self, basis: Basis) -> Result<Characteristic<Q>, Error> {
        let (value, factor, basis) = self.by(basis)?;
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
            at_least: self.at_least,
            basis,
        })
    }

    /// Value, factor and what governs, by one basis; the value may be negative.
    fn by(&self, basis: Basis) -> Result<(f64, f64, Basis), Error> {
        let logarithmic = matches!(basis, Basis::LognormalTolerance(_) | Basis::Lognormal(_));
        let (mean, own) = if logarithmic {
            (self.mean_of(f64::ln), self.deviation_of(f64::ln))
        } else {
            (self.mean_of(|v| v), self.deviation_of(|v| v))
        };
        let own = own.unwrap_or(0.0);
        let (s, factor, basis) = match basis {
            Basis::LowerOfBoth => {
                let k = tolerance(self, CONFIDENCE)?;
                let (s, kn, spread) = self.predicted(Spread::OfTheTests, own, |_| own)?;
                if k >= kn {
                    (own, k, Basis::Tolerance(CONFIDENCE))
                } else {
                    (s, kn, Basis::Normal(spread))
                }
            }
            Basis::Tolerance(confidence) => (own, tolerance(self, confidence)?, basis),
            Basis::LognormalTolerance(confidence) => (
                own.max(LEAST_DEVIATION),
                tolerance(self, confidence)?,
                basis,
            ),
            Basis::Normal(spread) => {
                let known = |v: f64| v * mean;
                let (s, kn, spread) = self.predicted(spread, own, known)?;
                (s, kn, Basis::Normal(spread))
            }
            Basis::Lognormal(spread) => {
                let known = |v: f64| (v * v).ln_1p().sqrt();
                let (s, kn, spread) = self.predicted(spread, own, known)?;
                (s, kn, Basis::Lognormal(spread))
            }
        };
        let value = mean - factor * s;
        Ok((if logarithmic { value.exp() } else { value }, factor, basis))
    }

    /// Deviation, kn and the spread that counts.
    fn predicted(
        &self,
        spread: Spread,
        own: f64,
        known: impl Fn(f64) -> f64,
    ) -> Result<(f64, f64, Spread), Error> {
        let root = (1.0 + 1.0 / self.number()).sqrt();
        if let Spread::Known(variation) = spread {
            number_within("known variation", variation, 0.01, 1.0)?;
            let s = known(variation);
            // A hair for rounding: tests that spread as much speak not against it.
            if own <= s * (1.0 + 1e-12) {
                return Ok((s, normal_quantile(ABOVE)? * root, spread));
            }
        } else {
            self.enough()?;
        }
        let t = student_quantile(ABOVE, self.tests() - 1)?;
        Ok((own, t * root, Spread::OfTheTests))
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
}

fn tolerance<Q: Measurable>(sample: &Sample<Q>, confidence: f64) -> Result<f64, Error> {
    sample.enough()?;
    tolerance_factor(sample.tests(), ABOVE, confidence)
}

impl<Q> Characteristic<Q> {
    /// The cautions that go with it.
    pub fn cautions(&self) -> Cautions {
        Cautions::default()
            .with(Caution::FieldTests)
            .with_if(self.at_least > 0, Caution::StoppedPulls)
            .with_if(
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
