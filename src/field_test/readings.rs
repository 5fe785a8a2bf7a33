//! A pull step by step: peak, stiffness, knee.
//!
//! A pull whose last reading is its greatest load was stopped, not pulled out:
//! its greatest load is a lower bound of what the post holds ([`PeakKind`]).

use crate::error::{Error, within};
use crate::units::{Force, Length, LineLoad, Measurable, lb, m};

/// Loads over movements, in the order they were read.
///
/// ```
/// use groundline::{field_test::*, units::*};
/// let pull = Readings::new(&[
///     (mm(1.0), kn(1.0)), (mm(2.0), kn(2.0)), (mm(3.0), kn(3.0)),
///     (mm(6.0), kn(3.4)), (mm(10.0), kn(3.8)), (mm(14.0), kn(3.6)),
/// ])?;
/// let peak = pull.peak();
/// assert_eq!((peak.movement, peak.load), (mm(10.0), kn(3.8)));
/// assert_eq!(peak.kind, PeakKind::Reached);
/// assert!((pull.stiffness().unwrap().to(kn_per_m) - 1_000.0).abs() < 1e-6);
/// assert!((pull.knee().unwrap().load.to(kn) - 3.1).abs() < 0.1);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Readings(Vec<(Length, Force)>);

/// Whether the greatest load of a pull is what the post holds, or less.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum PeakKind {
    /// The load fell after the greatest reading: a peak.
    Reached,
    /// The last reading is the greatest load, or as great: the pull was stopped
    /// there, and the post holds at least that.
    AtLeast,
}

impl PeakKind {
    /// Returns the kind in words.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Reached => "peak",
            Self::AtLeast => "at least: the pull was stopped at its greatest load",
        }
    }
}

impl core::fmt::Display for PeakKind {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(self.name())
    }
}

/// Greatest load of a pull.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Peak {
    /// Movement at which the load was first reached.
    pub movement: Length,
    /// Greatest load read.
    pub load: Force,
    /// Peak, or lower bound.
    pub kind: PeakKind,
}

/// Where the pull turns from stiff to soft.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Knee {
    /// The movement.
    pub movement: Length,
    /// The load.
    pub load: Force,
    /// Load per movement before it: a force per length.
    pub before: LineLoad,
    /// The same after it, up to the peak.
    pub after: LineLoad,
}

impl Readings {
    /// Readings of movement and load, the start at nothing understood.
    ///
    /// # Errors
    /// None or more than 10 000; a movement less than the one before, negative
    /// or beyond 10 m; a load negative or beyond 1 000 000 lb.
    pub fn new(readings: &[(Length, Force)]) -> Result<Self, Error> {
        if readings.is_empty() || readings.len() > 10_000 {
            return Err(Error::NotApplicable {
                field: "readings",
                reason: "give 1 to 10 000 of them",
            });
        }
        let mut last = m(0.0);
        for (movement, load) in readings {
            last = within("movement", *movement, last, m(10.0))?;
            within("load", *load, lb(0.0), lb(1_000_000.0))?;
        }
        Ok(Self(readings.to_vec()))
    }

    /// The readings.
    pub fn all(&self) -> &[(Length, Force)] {
        &self.0
    }

    /// Returns the greatest load, the movement at which it was first reached, and
    /// whether the load fell after it.
    pub fn peak(&self) -> Peak {
        let (movement, load) =
            self.0.iter().fold(
                self.0[0],
                |peak, reading| {
                    if reading.1 > peak.1 { *reading } else { peak }
                },
            );
        let stopped = self.0.last().is_some_and(|(_, last)| *last >= load);
        let kind = if stopped {
            PeakKind::AtLeast
        } else {
            PeakKind::Reached
        };
        Peak {
            movement,
            load,
            kind,
        }
    }

    /// The movement at a load on the way up, straight between readings; none
    /// if it was not reached.
    pub fn movement_at(&self, load: Force) -> Option<Length> {
        let mut before = (m(0.0), lb(0.0));
        for reading in &self.0 {
            if reading.1 >= load {
                let rise = (reading.1 - before.1).value;
                let share = if rise > 0.0 {
                    (load - before.1).value / rise
                } else {
                    1.0
                };
                return Some(before.0 + (reading.0 - before.0) * share.max(0.0));
            }
            before = *reading;
        }
        None
    }

    /// Load per movement at the start, a force per length: least squares
    /// through the origin of the readings up to a third of the peak, or of the
    /// first one where there is none. None where nothing moved.
    pub fn stiffness(&self) -> Option<LineLoad> {
        let third = self.peak().load / 3.0;
        let still = self.0.iter().take_while(|(y, _)| y.value <= 0.0).count();
        let early = self.0.iter().take_while(|(_, load)| *load <= third);
        let count = early.count().max(still + 1).min(self.0.len());
        slope_through_origin(&self.0[..count])
    }

    /// Two straight lines up to the peak, the first from the origin, by least
    /// squares over every way to part the readings; where they meet. None with
    /// fewer than five readings up to the peak, or where no parting bends
    /// downwards.
    pub fn knee(&self) -> Option<Knee> {
        let peak = self.peak().load;
        let upto = self.0.iter().position(|(_, load)| *load >= peak)? + 1;
        let readings = &self.0[..upto];
        if upto < 5 {
            return None;
        }
        let mut best: Option<(f64, Knee)> = None;
        for split in 2..=upto - 2 {
            let (early, late) = readings.split_at(split);
            let Some(before) = slope_through_origin(early) else {
                continue;
            };
            let Some((at, after)) = line(late) else {
                continue;
            };
            let k = before.value;
            // k y = at + after y.
            let movement = at / (k - after);
            let first = early.iter().map(|(y, p)| (p.value - k * y.value).powi(2));
            let second = late
                .iter()
                .map(|(y, p)| (p.value - at - after * y.value).powi(2));
            let error = first.sum::<f64>() + second.sum::<f64>();
            let bends = k > after
                && movement > 0.0
                && movement <= readings[upto - 1].0.value
                && k * movement <= peak.value;
            if bends && best.is_none_or(|(least, _)| error < least) {
                let knee = Knee {
                    movement: Length::from_si(movement),
                    load: Force::from_si(k * movement),
                    before,
                    after: LineLoad::from_si(after),
                };
                best = Some((error, knee));
            }
        }
        best.map(|(_, knee)| knee)
    }
}

fn slope_through_origin(readings: &[(Length, Force)]) -> Option<LineLoad> {
    let (mut yy, mut py) = (0.0, 0.0);
    for (y, p) in readings {
        yy += y.value * y.value;
        py += p.value * y.value;
    }
    (yy > 0.0).then(|| LineLoad::from_si(py / yy))
}

/// Load at no movement and slope, by least squares.
fn line(readings: &[(Length, Force)]) -> Option<(f64, f64)> {
    let (mut count, mut y0, mut p0) = (0.0, 0.0, 0.0);
    for (y, p) in readings {
        count += 1.0;
        y0 += y.value;
        p0 += p.value;
    }
    let (y0, p0) = (y0 / count, p0 / count);
    let (mut yy, mut py) = (0.0, 0.0);
    for (y, p) in readings {
        yy += (y.value - y0).powi(2);
        py += (p.value - p0) * (y.value - y0);
    }
    (yy > 0.0).then(|| (p0 - py / yy * y0, py / yy))
}
