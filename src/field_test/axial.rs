//! A post pulled out: what its side held.

use super::readings::{PeakKind, Readings};
use crate::error::{Error, within};
use crate::profile::Profile;
use crate::units::{Force, Length, Measurable, Pressure, kpa, lb};
use crate::uplift::Shaft;

/// The peak of a pull along the post, the shaft that slid and the weight that
/// came with it.
///
/// ```
/// use groundline::{field_test::AxialPull, units::*, uplift::Shaft};
/// let shaft = Shaft::round(m(0.30), m(1.0), m(0.0))?;
/// let pull = AxialPull::new(kn(12.1), shaft, kn(0.0))?;
/// assert!((pull.average_bond().pressure().to(kpa) - 12.84).abs() < 0.005);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AxialPull {
    peak: Force,
    kind: PeakKind,
    shaft: Shaft,
    weight: Force,
}

/// Peak over side, with the weight in it: to tell, not to design with.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct AverageBond(Pressure);

impl AverageBond {
    /// The stress.
    pub const fn pressure(self) -> Pressure {
        self.0
    }
}

impl AxialPull {
    /// A peak force, the shaft it was pulled along and the weight of what came
    /// up, which is not the ground's to hold. A peak given alone is taken as
    /// [`PeakKind::Reached`]; readings show it ([`AxialPull::of`]).
    ///
    /// # Errors
    /// Peak outside 1 lb to 1 000 000 lb; weight negative or more than the
    /// peak; a shaft of which nothing counts.
    pub fn new(peak: Force, shaft: Shaft, weight: Force) -> Result<Self, Error> {
        let peak = within("peak", peak, lb(1.0), lb(1_000_000.0))?;
        if shaft.counts().value <= 0.0 {
            return Err(Error::NotApplicable {
                field: "shaft",
                reason: "nothing of it counts",
            });
        }
        Ok(Self {
            peak,
            kind: PeakKind::Reached,
            shaft,
            weight: within("weight", weight, lb(0.0), peak)?,
        })
    }

    /// The peak of readings.
    ///
    /// # Errors
    /// As [`AxialPull::new`].
    pub fn of(readings: &Readings, shaft: Shaft, weight: Force) -> Result<Self, Error> {
        let peak = readings.peak();
        Ok(Self {
            kind: peak.kind,
            ..Self::new(peak.load, shaft, weight)?
        })
    }

    /// Returns whether the peak was reached or is a lower bound; friction, bond, α
    /// and β are the same.
    pub const fn kind(&self) -> PeakKind {
        self.kind
    }

    /// Peak over side: τ = F/(π D L) of a round shaft. With the weight in it,
    /// as such tests are told; design adds the weight itself, so it takes
    /// [`AxialPull::friction`].
    pub fn average_bond(&self) -> AverageBond {
        AverageBond(self.peak / self.shaft.side())
    }

    /// Peak less weight, over side: what the ground held by friction, an
    /// average over the depth.
    pub fn friction(&self) -> Pressure {
        (self.peak - self.weight) / self.shaft.side()
    }

    /// α of an undrained strength.
    ///
    /// # Errors
    /// su outside 1 kPa to 1 MPa.
    pub fn implied_alpha(&self, su: Pressure) -> Result<f64, Error> {
        let su = within("undrained strength", su, kpa(1.0), kpa(1_000.0))?;
        Ok((self.friction() / su).value)
    }

    /// β = K tan δ: friction over the mean effective stress along the shaft.
    ///
    /// # Errors
    /// The shaft is deeper than the ground is described, or nothing presses on
    /// it.
    pub fn implied_beta(&self, profile: &Profile) -> Result<f64, Error> {
        profile.reaches(self.shaft.depth())?;
        // The stress is straight between the depths where something changes.
        let mut edges = vec![self.shaft.from().value];
        let breaks = profile.breaks(self.shaft.depth());
        edges.extend(breaks.into_iter().filter(|z| *z > self.shaft.from().value));
        edges.push(self.shaft.depth().value);
        let stress = |z: f64| profile.effective_stress(Length::from_si(z)).value;
        let sum: f64 = edges
            .windows(2)
            .map(|pair| 0.5 * (stress(pair[0]) + stress(pair[1])) * (pair[1] - pair[0]))
            .sum();
        if sum <= 0.0 {
            return Err(Error::NotApplicable {
                field: "effective stress",
                reason: "there is none along the shaft",
            });
        }
        let mean = sum / self.shaft.counts().value;
        Ok(self.friction().value / mean)
    }
}
