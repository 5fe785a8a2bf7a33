//! Two ways of setting a post, compared fairly.
//!
//! The difference of the means with Welch's interval: ± t √(s1²/n1 + s2²/n2), ν
//! by Welch and Satterthwaite, not a whole number (from memory). An interval that
//! holds zero has settled nothing. One test of each proves nothing, whatever
//! they read.

use super::distribution::fractional_quantile;
use super::sample::Sample;
use crate::caution::{Caution, Cautions};
use crate::error::{Error, number_within};
use crate::source::{self, Citation};
use crate::units::Measurable;

/// The chance that the tests still to be done settle it, if means and spreads
/// stay.
const POWER: f64 = 0.8;

/// What the tests settle.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Settled {
    /// The first is higher.
    FirstHigher,
    /// The second is higher.
    SecondHigher,
    /// Neither: the interval holds zero.
    NotSettled,
    /// Not settled: the lower mean holds pulls that were stopped at their greatest
    /// load ([`Sample::at_least`]), so that it may be the higher one.
    LowerIsBound,
    /// Too few tests to say anything, or all the same: two of each that differ
    /// are the least.
    TooFew,
}

impl Settled {
    /// Its words.
    pub const fn name(self) -> &'static str {
        match self {
            Self::FirstHigher => "the first holds more",
            Self::SecondHigher => "the second holds more",
            Self::NotSettled => "not settled: the difference may be chance",
            Self::LowerIsBound => {
                "not settled: pulls of the lower one were stopped at their greatest load"
            }
            Self::TooFew => "nothing is proved: one test, or tests all the same, have no spread",
        }
    }
}

/// Degrees of freedom of the interval.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[non_exhaustive]
pub enum WelchFreedom {
    /// ν as it comes out: the interval that statistics programs print.
    #[default]
    Fractional,
    /// ν rounded down to a whole number: a wider interval, as by printed tables.
    Floor,
}

/// The difference of two samples.
///
/// ```
/// use groundline::{field_test::*, units::*};
/// let foam = Sample::new(&[kn(4.1), kn(6.0), kn(5.0)])?;
/// let concrete = Sample::new(&[kn(6.2), kn(5.1), kn(7.4)])?;
/// let both = Comparison::between(&concrete, &foam, 0.95)?;
/// assert_eq!(both.settled, Settled::NotSettled);
/// assert!(both.more_tests.unwrap() > 3);
/// let one = Sample::new(&[kn(9.0)])?;
/// assert_eq!(Comparison::between(&one, &foam, 0.95)?.settled, Settled::TooFew);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Comparison<Q> {
    /// Mean of the first less that of the second.
    pub difference: Q,
    /// Its interval at the confidence; none where a sample has no spread.
    pub interval: Option<(Q, Q)>,
    /// ν, as it was used.
    pub freedom: Option<f64>,
    /// What is settled.
    pub settled: Settled,
    /// How many more tests of each would settle it with a chance of 80 %, if
    /// means and spreads stay as they are; zero where it is settled, none where
    /// no number up to 1 000 would or the spread is not known.
    pub more_tests: Option<u32>,
    /// How many tests of both are lower bounds.
    pub at_least: u32,
}

impl<Q: Measurable> Comparison<Q> {
    /// Compares two samples at a two-sided confidence, ν fractional.
    ///
    /// # Errors
    /// Confidence outside 0.5 to 0.999.
    pub fn between(first: &Sample<Q>, second: &Sample<Q>, confidence: f64) -> Result<Self, Error> {
        Self::between_by(first, second, confidence, WelchFreedom::Fractional)
    }

    /// Compares two samples as [`Comparison::between`], ν as it is chosen.
    ///
    /// # Errors
    /// Confidence outside 0.5 to 0.999.
    pub fn between_by(
        first: &Sample<Q>,
        second: &Sample<Q>,
        confidence: f64,
        by: WelchFreedom,
    ) -> Result<Self, Error> {
        let confidence = number_within("confidence", confidence, 0.5, 0.999)?;
        let share = 0.5 + 0.5 * confidence;
        let difference = first.mean().si() - second.mean().si();
        let too_few = Self {
            difference: Q::from_si(difference),
            interval: None,
            freedom: None,
            settled: Settled::TooFew,
            more_tests: None,
            at_least: first.at_least() + second.at_least(),
        };
        let (Some(s1), Some(s2)) = (first.deviation(), second.deviation()) else {
            return Ok(too_few);
        };
        // Readings so coarse that all are the same have no spread either.
        if [(s1, first), (s2, second)]
            .iter()
            .any(|(s, sample)| s.si() < 1e-6 * sample.mean().si())
        {
            return Ok(too_few);
        }
        let (v1, v2) = (s1.si() * s1.si(), s2.si() * s2.si());
        let (n1, n2) = (first.tests(), second.tests());
        let (error, freedom) = welch(v1, n1, v2, n2, by);
        let half = fractional_quantile(share, freedom)? * error;
        let settled = if difference > half {
            Settled::FirstHigher
        } else if -difference > half {
            Settled::SecondHigher
        } else {
            Settled::NotSettled
        };
        let lower = if difference > 0.0 { second } else { first };
        let (settled, more_tests) = match settled {
            Settled::NotSettled => {
                let more = more(difference.abs(), (v1, n1), (v2, n2), share, by)?;
                (settled, more)
            }
            _ if lower.at_least() > 0 => (Settled::LowerIsBound, None),
            _ => (settled, Some(0)),
        };
        Ok(Self {
            difference: Q::from_si(difference),
            interval: Some((Q::from_si(difference - half), Q::from_si(difference + half))),
            freedom: Some(freedom),
            settled,
            more_tests,
            at_least: first.at_least() + second.at_least(),
        })
    }

    /// The cautions that go with it.
    pub fn cautions(&self) -> Cautions {
        Cautions::default()
            .with(Caution::FieldTests)
            .with_if(self.at_least > 0, Caution::StoppedPulls)
            .with(Caution::FromMemory)
    }

    /// Where it comes from.
    pub const fn source() -> &'static Citation {
        &source::WELCH
    }
}

/// Standard error and degrees of freedom.
fn welch(v1: f64, n1: u32, v2: f64, n2: u32, by: WelchFreedom) -> (f64, f64) {
    let (count1, count2) = (f64::from(n1), f64::from(n2));
    let (a, b) = (v1 / count1, v2 / count2);
    let sum = a + b;
    // The shares, so that nothing underflows. Both have spread.
    let (a, b) = (a / sum, b / sum);
    let freedom = 1.0 / (a * a / (count1 - 1.0) + b * b / (count2 - 1.0));
    let freedom = match by {
        WelchFreedom::Fractional => freedom,
        // A hair for rounding, then down to a whole number.
        WelchFreedom::Floor => (freedom * (1.0 + 1e-12)).floor(),
    };
    (sum.sqrt(), freedom.max(1.0))
}

/// The least number of more tests of each at which the difference is t + t of
/// the power times its error.
fn more(
    difference: f64,
    (v1, n1): (f64, u32),
    (v2, n2): (f64, u32),
    share: f64,
    by: WelchFreedom,
) -> Result<Option<u32>, Error> {
    let enough = |more: u32| -> Result<bool, Error> {
        let (error, freedom) = welch(v1, n1 + more, v2, n2 + more, by);
        let wanted = fractional_quantile(share, freedom)? + fractional_quantile(POWER, freedom)?;
        Ok(difference >= wanted * error && difference > 0.0)
    };
    let (mut low, mut high) = (0, 1_000);
    if !enough(high)? {
        return Ok(None);
    }
    while high - low > 1 {
        let middle = low.midpoint(high);
        if enough(middle)? {
            high = middle;
        } else {
            low = middle;
        }
    }
    Ok(Some(high))
}
