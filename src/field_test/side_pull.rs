//! A post pulled over: what stiffness and strength its ground must have had, by
//! the models that design uses.
//!
//! Stiffness: the elastic post of [`crate::response`] at readings well below the
//! peak; k or nh so that movement per load fits the readings best (least
//! squares of the movements), found in a bracket. Strength: rigid-plastic
//! statics ([`crate::lateral`]), whose load is proportional to the strength, so
//! that the peak gives it at once. A peak that was not the ground's end gives a
//! lower bound. Both at once, from the whole curve: [`FittedCurve`].
//!
//! [`FittedCurve`]: super::FittedCurve

use super::readings::{Peak, Readings};
use crate::caution::{Caution, Cautions};
use crate::error::{Error, within};
use crate::lateral::{LateralMethod, RigidPlastic};
use crate::response::{PostModel, Springs};
use crate::units::{
    FlexuralRigidity, Force, ForcePerVolume, Length, Measurable, Pressure, ft, kn_per_cu_m, kpa,
    newton,
};

/// Where the movement was read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Gauge {
    /// At grade.
    Grade,
    /// Where the post was pulled.
    Load,
}

/// A post, how it was pulled, and what was read.
///
/// ```
/// use groundline::{field_test::*, units::*};
/// let readings = Readings::new(&[(mm(1.25), newton(100.0)), (mm(2.5), newton(200.0))])?;
/// let pull = SidePull::new(kn_sq_m(47.0), mm(89.0), m(0.9), m(1.0), Gauge::Grade, readings)?;
/// let ground = pull.growing_stiffness(0.5)?;
/// assert!(ground.value > kn_per_cu_m(1_000.0) && ground.value < kn_per_cu_m(100_000.0));
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct SidePull {
    pub(super) rigidity: FlexuralRigidity,
    pub(super) width: Length,
    pub(super) depth: Length,
    pub(super) height: Length,
    pub(super) gauge: Gauge,
    pub(super) readings: Readings,
    /// Relative standard error of a load, if it is known.
    pub(super) load_error: Option<f64>,
}

/// A value of the ground and how well it explains the readings.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct BackFigured<Q> {
    /// The value.
    pub value: Q,
    /// Read less figured movement, of each reading used.
    pub residuals: Vec<Length>,
    /// The root of their mean square.
    pub residual: Length,
}

impl<Q> BackFigured<Q> {
    /// The cautions that go with it.
    pub fn cautions(&self) -> Cautions {
        Cautions::default().with(Caution::FieldTests)
    }
}

impl SidePull {
    /// A post of a flexural rigidity, the width that bears, its depth, and the
    /// height of the pull.
    ///
    /// # Errors
    /// Height outside 0 to 90 ft; the others as [`PostModel::new`].
    pub fn new(
        rigidity: FlexuralRigidity,
        width: Length,
        depth: Length,
        height: Length,
        gauge: Gauge,
        readings: Readings,
    ) -> Result<Self, Error> {
        let springs = Springs::constant(kpa(1_000.0))?;
        PostModel::new(rigidity, width, depth, springs)?.standing(height)?;
        Ok(Self {
            rigidity,
            width,
            depth,
            height: within("height of the pull", height, ft(0.0), ft(90.0))?,
            gauge,
            readings,
            load_error: None,
        })
    }

    /// Sets the standard error of the load cell as a share of the load, 0.02 for 2 %,
    /// independent from reading to reading: the errors of a fitted curve then hold
    /// it ([`FittedCurve::stiffness_error`]). An error that is the same at every
    /// reading, as of a calibration, is not in it: it changes stiffness and strength
    /// by the same share.
    ///
    /// # Errors
    /// Outside 0 to 0.1.
    ///
    /// [`FittedCurve::stiffness_error`]: super::FittedCurve::stiffness_error
    pub fn with_load_error(self, share: f64) -> Result<Self, Error> {
        let share = crate::error::number_within("load error", share, 0.0, 0.1)?;
        Ok(Self {
            load_error: Some(share),
            ..self
        })
    }

    /// Returns the peak of the readings: strengths from a peak that is
    /// [`PeakKind::AtLeast`](super::PeakKind::AtLeast) are lower bounds.
    pub fn peak(&self) -> Peak {
        self.readings.peak()
    }

    /// Movement per force in elastic ground.
    fn compliance(&self, springs: Springs) -> Result<f64, Error> {
        let force = newton(0.01);
        let response = PostModel::new(self.rigidity, self.width, self.depth, springs)?
            .standing(self.height)?
            .with_force(self.height, force)?
            .solve()?;
        let movement = match self.gauge {
            Gauge::Grade => response.at_grade().deflection,
            Gauge::Load => response.at_top().deflection,
        };
        Ok(movement.value / force.value)
    }

    /// Readings up to a share of the peak.
    pub(super) fn early(&self, share: f64) -> Result<Vec<(f64, f64)>, Error> {
        let share = crate::error::number_within("share of the peak", share, 0.05, 1.0)?;
        let most = self.readings.peak().load * (share * (1.0 + 1e-12));
        let early: Vec<_> = self
            .readings
            .all()
            .iter()
            .take_while(|(_, load)| *load <= most)
            .map(|(y, load)| (y.value, load.value))
            .filter(|(y, load)| *y > 0.0 && *load > 0.0)
            .collect();
        if early.is_empty() {
            return Err(Error::NotApplicable {
                field: "readings",
                reason: "there is no movement under load up to that share of the peak",
            });
        }
        Ok(early)
    }

    /// The stiffness whose compliance fits movements over loads, in a bracket on
    /// its logarithm.
    pub(super) fn invert<Q: Measurable>(
        &self,
        early: &[(f64, f64)],
        (least, most): (Q, Q),
        springs: impl Fn(Q) -> Result<Springs, Error>,
    ) -> Result<BackFigured<Q>, Error> {
        let (mut pp, mut yp) = (0.0, 0.0);
        for (y, load) in early {
            pp += load * load;
            yp += y * load;
        }
        let wanted = yp / pp;
        let at = |log: f64| self.compliance(springs(Q::from_si(log.exp()))?);
        let (mut low, mut high) = (least.si().ln(), most.si().ln());
        // The post gives less the stiffer the ground.
        if wanted > at(low)? || wanted < at(high)? {
            return Err(Error::NotApplicable {
                field: "movement",
                reason: "no ground explains it: more than the softest gives, or less than the \
                         post itself",
            });
        }
        // Some 18 of the logarithm at most: to 1e-12 of it.
        for _ in 0..45 {
            let middle = 0.5 * (low + high);
            if at(middle)? > wanted {
                low = middle;
            } else {
                high = middle;
            }
        }
        let residuals: Vec<f64> = early.iter().map(|(y, load)| y - wanted * load).collect();
        let mut count = 0.0;
        let mut sum = 0.0;
        for r in &residuals {
            count += 1.0;
            sum += r * r;
        }
        Ok(BackFigured {
            value: Q::from_si((0.5 * (low + high)).exp()),
            residuals: residuals.into_iter().map(Length::from_si).collect(),
            residual: Length::from_si(f64::sqrt(sum / count)),
        })
    }

    /// nh of ground whose stiffness grows with depth, from the readings up to a
    /// share of the peak.
    ///
    /// # Errors
    /// Share outside 0.05 to 1; no reading so early; a movement that no ground
    /// explains.
    pub fn growing_stiffness(&self, share: f64) -> Result<BackFigured<ForcePerVolume>, Error> {
        let bounds = (kn_per_cu_m(11.0), kn_per_cu_m(9e6));
        self.invert(&self.early(share)?, bounds, Springs::growing)
    }

    /// k, force per length and movement, of ground of constant stiffness.
    ///
    /// # Errors
    /// As [`SidePull::growing_stiffness`].
    pub fn constant_stiffness(&self, share: f64) -> Result<BackFigured<Pressure>, Error> {
        let bounds = (kpa(1.1), kpa(9e7));
        self.invert(&self.early(share)?, bounds, Springs::constant)
    }

    /// The strength at which statics gives the peak.
    fn strength(&self, of_one: &RigidPlastic) -> Result<f64, Error> {
        let ultimate: Force = of_one.ultimate(self.depth, self.height)?.shear;
        Ok((self.readings.peak().load / ultimate).value)
    }

    /// The ultimate pressure, the same at every depth, at which the peak is
    /// statics'.
    ///
    /// # Errors
    /// Width or depth out of the range of [`RigidPlastic`].
    pub fn ultimate_pressure(&self) -> Result<Pressure, Error> {
        let one = kpa(10.0);
        Ok(one * self.strength(&RigidPlastic::constant(one, self.width)?)?)
    }

    /// The growth of ultimate pressure with depth at which the peak is
    /// statics': 3 γ′ Kp of a sand.
    ///
    /// # Errors
    /// As [`SidePull::ultimate_pressure`].
    pub fn ultimate_growth(&self) -> Result<ForcePerVolume, Error> {
        let one = kn_per_cu_m(100.0);
        Ok(one * self.strength(&RigidPlastic::linear(one, self.width)?)?)
    }

    /// The undrained strength at which the peak is statics', by the graded
    /// pressure of a clay.
    ///
    /// # Errors
    /// As [`SidePull::ultimate_pressure`].
    pub fn undrained_strength(&self) -> Result<Pressure, Error> {
        let one = kpa(10.0);
        Ok(one * self.strength(&RigidPlastic::graded_clay(one, self.width)?)?)
    }
}
