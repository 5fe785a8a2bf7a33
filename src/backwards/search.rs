//! Trials over a range: a scan first, then halving.

use crate::error::{Error, number_within};
use crate::units::{Length, Measurable, Measured, Pressure, Ratio, Velocity, ft, inch, mph};
use crate::units::{number, psf};

/// The most steps a range may have.
const MOST_STEPS: f64 = 1e6;
/// The most trials of the scan.
const MOST_TRIALS: u32 = 5_000;

/// The values a question may take: whole steps of a range, and how many of them
/// are tried before halving begins.
///
/// ```
/// use groundline::{backwards::Search, units::{ft, inch}};
/// // 4 to 10 ft by half inches, every one of them tried.
/// let search = Search::new(ft(4.0), ft(10.0), inch(0.5))?.trying(144)?;
/// assert_eq!(search.steps(), 144);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Search<Q> {
    least: Q,
    most: Q,
    step: Q,
    trials: u32,
}

/// Values that pass, from one to another, in the order tried.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Stretch<Q> {
    /// The first that passes.
    pub from: Q,
    /// The last that passes.
    pub to: Q,
}

impl<Q: Measurable> Search<Q> {
    /// From a least to a greatest value by steps; the answer is exact to one
    /// step. A range that is no whole number of steps ends at its last whole step,
    /// counted from the mild end. About 100 values are tried first.
    ///
    /// # Errors
    /// An end not finite or negative, ends in the wrong order, a step that is
    /// not positive, greater than the range or below a millionth of it.
    pub fn new(least: Q, most: Q, step: Q) -> Result<Self, Error> {
        let refuse = |field, value: Q, least: Q, most: Q| Error::OutOfRange {
            field,
            value: Measured::new(value),
            least: Measured::new(least),
            most: Measured::new(most),
        };
        let zero = Q::from_si(0.0);
        // Written so that NaN fails.
        let finite = most.si().is_finite();
        if !(least >= zero && finite && least < most) {
            return Err(refuse("least value tried", least, zero, most));
        }
        let range = most.si() - least.si();
        let finest = Q::from_si(range / MOST_STEPS);
        let widest = Q::from_si(range);
        if !(step >= finest && step <= widest && step > zero) {
            return Err(refuse("step", step, finest, widest));
        }
        Ok(Self {
            least,
            most,
            step,
            trials: 100,
        })
    }

    /// With about this many values tried before halving; all of them, where
    /// there are no more.
    ///
    /// # Errors
    /// Outside 1 to 5 000.
    pub fn trying(self, trials: u32) -> Result<Self, Error> {
        number_within("trials", f64::from(trials), 1.0, f64::from(MOST_TRIALS))?;
        Ok(Self { trials, ..self })
    }

    const fn of(least: Q, most: Q, step: Q, trials: u32) -> Self {
        Self {
            least,
            most,
            step,
            trials,
        }
    }

    /// The least value.
    pub const fn least(&self) -> Q {
        self.least
    }
    /// The greatest value.
    pub const fn most(&self) -> Q {
        self.most
    }
    /// The step: how close the answer is.
    pub const fn step(&self) -> Q {
        self.step
    }
    /// How many values are tried before halving, at most one more.
    pub const fn trials(&self) -> u32 {
        self.trials
    }
    /// How many steps the range has.
    pub fn steps(&self) -> u32 {
        let steps = ((self.most.si() - self.least.si()) / self.step.si() + 1e-6).floor();
        // At most a million by the constructor.
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "bounded by the constructor, and saturating"
        )]
        let steps = steps as u32;
        steps.max(1)
    }

    /// The value a number of steps from the mild end.
    pub(super) fn value(&self, steps: u32, harsh: Harsh) -> Q {
        let way = f64::from(steps) * self.step.si();
        match harsh {
            Harsh::Greater => {
                let value = Q::from_si(self.least.si() + way);
                if value > self.most { self.most } else { value }
            }
            Harsh::Smaller => {
                let value = Q::from_si(self.most.si() - way);
                if value < self.least {
                    self.least
                } else {
                    value
                }
            }
        }
    }
}

impl Search<Velocity> {
    /// Basic wind speeds: 40 to 300 mph by 0.1 mph, every 2 mph tried.
    pub fn speeds() -> Self {
        Self::of(mph(40.0), mph(300.0), mph(0.1), 130)
    }
}

impl Search<Pressure> {
    /// Wind pressures: 0.1 to 1 000 psf by 0.1 psf, every 5 psf or so tried.
    pub fn pressures() -> Self {
        Self::of(psf(0.1), psf(1_000.0), psf(0.1), 200)
    }
}

impl Search<Length> {
    /// Spacings: 1 to 40 ft by 1 in, each tried.
    pub fn spacings() -> Self {
        Self::of(ft(1.0), ft(40.0), inch(1.0), 468)
    }

    /// Heights: 1 to 40 ft by 1 in, each tried.
    pub fn heights() -> Self {
        Self::of(ft(1.0), ft(40.0), inch(1.0), 468)
    }

    /// Holes: 3 in to 10 ft by ½ in, each tried.
    pub fn holes() -> Self {
        Self::of(inch(3.0), ft(10.0), inch(0.5), 234)
    }
}

impl Search<Ratio> {
    /// Solidities: 0.01 to 1 by 0.01, each tried.
    pub fn solidities() -> Self {
        Self::of(number(0.01), number(1.0), number(0.01), 99)
    }
}

/// Which way it gets harder.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Harsh {
    /// Towards greater values.
    Greater,
    /// Towards smaller values.
    Smaller,
}

/// How one trial went.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Trial {
    Passes,
    Fails,
    /// No such fence, or no such check.
    Refused(Error),
}

/// What the trials came to, in steps from the mild end.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Scan {
    /// The start of the first stretch that passes.
    pub(super) starts: Option<u32>,
    /// Its end.
    pub(super) passes: Option<u32>,
    /// The step after it, unless the range ends there.
    pub(super) next: Option<u32>,
    /// The first value that fails before one passes.
    pub(super) fails: Option<u32>,
    /// What passes again beyond.
    pub(super) again: Vec<(u32, u32)>,
    /// The first refusal.
    pub(super) refused: Option<Error>,
    /// How many trials.
    pub(super) evaluations: u32,
}

/// Scans whole steps 0 to `steps`, then halves.
pub(super) fn scan(steps: u32, trials: u32, mut trial: impl FnMut(u32) -> Trial) -> Scan {
    let mut scan = Scan {
        starts: None,
        passes: None,
        next: None,
        fails: None,
        again: Vec::new(),
        refused: None,
        evaluations: 0,
    };
    let stride = steps.div_ceil(trials.clamp(1, MOST_TRIALS)).max(1);
    let mut at = 0;
    let mut last_passed = false;
    loop {
        let outcome = trial(at);
        scan.evaluations += 1;
        let passes = outcome == Trial::Passes;
        if passes && scan.starts.is_none() {
            scan.starts = Some(at);
        }
        match (scan.passes, scan.next) {
            (None, _) | (Some(_), None) if passes => scan.passes = Some(at),
            (None, _) => {
                // Once something passes, what failed before it is told.
                if outcome == Trial::Fails && scan.fails.is_none() {
                    scan.fails = Some(at);
                }
            }
            (Some(_), None) => scan.next = Some(at),
            (Some(_), Some(_)) if passes => match scan.again.last_mut() {
                Some(stretch) if last_passed => stretch.1 = at,
                _ => scan.again.push((at, at)),
            },
            (Some(_), Some(_)) => {}
        }
        if let (Trial::Refused(error), None) = (outcome, scan.refused) {
            scan.refused = Some(error);
        }
        last_passed = passes;
        if at >= steps {
            break;
        }
        at = at.saturating_add(stride).min(steps);
    }
    if let (Some(mut good), Some(mut bad)) = (scan.passes, scan.next) {
        // A million steps are halved twenty times.
        while bad - good > 1 {
            let middle = good + (bad - good) / 2;
            scan.evaluations += 1;
            match trial(middle) {
                Trial::Passes => good = middle,
                Trial::Fails | Trial::Refused(_) => bad = middle,
            }
        }
        scan.passes = Some(good);
        scan.next = Some(bad);
    }
    scan
}

/// The first of whole steps 1 to `steps` that passes, and the last value tried where
/// none does. Every step is tried, or about `trials` of them and then, between the
/// first that passes and the one before, halves: the step before the answer fails.
pub(crate) fn first(steps: u32, trials: u32, mut trial: impl FnMut(u32) -> Trial) -> Option<u32> {
    let stride = steps.div_ceil(trials.clamp(1, MOST_TRIALS)).max(1);
    let (mut bad, mut at) = (0, stride.min(steps));
    while at > bad {
        if trial(at) == Trial::Passes {
            let mut good = at;
            while good - bad > 1 {
                let middle = bad + (good - bad) / 2;
                match trial(middle) {
                    Trial::Passes => good = middle,
                    Trial::Fails | Trial::Refused(_) => bad = middle,
                }
            }
            return Some(good);
        }
        bad = at;
        at = at.saturating_add(stride).min(steps);
    }
    None
}
