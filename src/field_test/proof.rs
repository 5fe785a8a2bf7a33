//! Proof load: a post that must carry a load is pulled to a multiple of it.
//!
//! The proof is judged from readings that bracket it: one at or above the proof
//! load, and at least one after it that shows what the post does then. Readings
//! that end before show neither that the post stands nor that it fails.

use super::readings::{PeakKind, Readings};
use crate::caution::{Caution, Cautions};
use crate::error::{Error, number_within, within};
use crate::source::{self, Citation};
use crate::units::{Force, Length, lb, m};

/// A load this near to the target holds it; one short of it by twice as much has
/// let go. Chosen here, no source.
const BAND: f64 = 0.05;

/// A load that a post must carry, the multiple it is pulled to, and the movement
/// that is allowed there.
///
/// ```
/// use groundline::{field_test::*, units::*};
/// let pull = Readings::new(&[(mm(2.0), kn(1.0)), (mm(5.0), kn(2.0)), (mm(9.0), kn(3.0))])?;
/// let proof = ProofLoad::new(kn(1.5), 2.0)?;
/// // Nothing was read after the proof load was reached.
/// assert_eq!(proof.judge(&pull).outcome, ProofOutcome::NotShown);
/// let strict = proof.allowing(mm(8.0))?;
/// assert_eq!(strict.judge(&pull).outcome, ProofOutcome::MovedTooFar);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ProofLoad {
    load: Force,
    multiple: f64,
    allowed: Option<Length>,
}

/// Whether a post stood the proof.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum ProofOutcome {
    /// It carried the load within the movement, if one was set.
    Stood,
    /// The load fell before it reached the proof load.
    NotReached,
    /// The readings do not show it: they end below the proof load with the load
    /// still at its greatest, or at the reading that first reaches the proof load.
    NotShown,
    /// It moved further than allowed while it held the load.
    MovedTooFar,
    /// It reached the load and then let go: a reading after the one that first
    /// reached it is more than a tenth below it. Leave out readings of taking the load
    /// off.
    LetGo,
}

impl ProofOutcome {
    /// Its words.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Stood => "stood the proof",
            Self::NotReached => "the load fell before the proof load",
            Self::NotShown => "not shown: the readings end too early to judge the proof",
            Self::MovedTooFar => "moved further than allowed",
            Self::LetGo => "reached the proof load and let go",
        }
    }
}

/// What a proof showed.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct ProofResult {
    /// The load it was to reach.
    pub target: Force,
    /// The greatest one it reached.
    pub reached: Force,
    /// The greatest movement while the target was held, where it was reached: no
    /// reading counts once the post was pulled further or let go.
    pub movement: Option<Length>,
    /// The verdict.
    pub outcome: ProofOutcome,
}

impl ProofLoad {
    /// A service load and its multiple: 1.0 to 1.5, and 2.0 for sideways loads,
    /// are practice (from memory).
    ///
    /// # Errors
    /// Load outside 1 lb to 1 000 000 lb, multiple outside 1 to 3.
    pub fn new(load: Force, multiple: f64) -> Result<Self, Error> {
        Ok(Self {
            load: within("load", load, lb(1.0), lb(1_000_000.0))?,
            multiple: number_within("multiple of the load", multiple, 1.0, 3.0)?,
            allowed: None,
        })
    }

    /// With a movement allowed at the proof load.
    ///
    /// # Errors
    /// Outside 0 to 10 m.
    pub fn allowing(self, movement: Length) -> Result<Self, Error> {
        let allowed = Some(within("allowed movement", movement, m(0.0), m(10.0))?);
        Ok(Self { allowed, ..self })
    }

    /// The load it is pulled to.
    pub fn target(&self) -> Force {
        self.load * self.multiple
    }

    /// Returns what a pull showed. The movement at the proof load is interpolated
    /// between the readings below and above it; where the first reading is above, it
    /// is the movement of that reading.
    pub fn judge(&self, pull: &Readings) -> ProofResult {
        let (target, peak) = (self.target(), pull.peak());
        // A hair for rounding.
        let just = target * (1.0 - 1e-12);
        let from = pull.all().iter().position(|(_, load)| *load >= just);
        let after = from.and_then(|from| pull.all().get(from..)).unwrap_or(&[]);
        let lets_go = |load: Force| load < target * (1.0 - 2.0 * BAND);
        let let_go = after.iter().any(|(_, load)| lets_go(*load));
        let interpolated = match from {
            Some(0) => pull.all().first().map(|(at, _)| *at),
            _ => pull.movement_at(just),
        };
        let movement = interpolated.map(|reached| {
            // While the load stays at the target the post may creep.
            after
                .iter()
                .take_while(|(_, load)| *load <= target * (1.0 + BAND) && !lets_go(*load))
                .filter(|(_, load)| *load >= target * (1.0 - BAND))
                .fold(reached, |_, (at, _)| *at)
        });
        let outcome = match (movement, self.allowed) {
            (None, _) if peak.kind == PeakKind::AtLeast => ProofOutcome::NotShown,
            (None, _) => ProofOutcome::NotReached,
            _ if let_go => ProofOutcome::LetGo,
            (Some(movement), Some(allowed)) if movement > allowed => ProofOutcome::MovedTooFar,
            _ if after.len() < 2 => ProofOutcome::NotShown,
            (Some(_), _) => ProofOutcome::Stood,
        };
        ProofResult {
            target,
            reached: peak.load,
            movement,
            outcome,
        }
    }

    /// The cautions that go with it.
    pub fn cautions(&self) -> Cautions {
        Cautions::default()
            .with(Caution::FieldTests)
            .with(Caution::FromMemory)
    }

    /// Where the multiples come from.
    pub const fn source() -> &'static Citation {
        &source::PROOF_LOAD
    }
}

/// Returns the share of posts that hold at least a proof load that n posts stood,
/// at a one-sided confidence: (1 − confidence)^(1/n), 0.05^(1/n) at 95 %.
///
/// Derived: a share p of posts that hold the load lets n posts chosen at random all
/// stand with the chance pⁿ; a p for which that is less than 1 − confidence is
/// refuted. Posts chosen because they look good, or one that did not stand, prove
/// nothing by this.
///
/// # Errors
/// No post or more than 10 000, confidence outside 0.5 to 0.999.
///
/// ```
/// use groundline::field_test::proved_share;
/// assert!((proved_share(3, 0.95)? - 0.368).abs() < 1e-3);
/// assert!(proved_share(58, 0.95)? < 0.95 && proved_share(59, 0.95)? > 0.95);
/// # Ok::<(), groundline::Error>(())
/// ```
pub fn proved_share(stood: u32, confidence: f64) -> Result<f64, Error> {
    let stood = number_within("proof loads stood", f64::from(stood), 1.0, 10_000.0)?;
    let confidence = number_within("confidence", confidence, 0.5, 0.999)?;
    Ok((1.0 - confidence).powf(1.0 / stood))
}

/// Returns the source of [`proved_share`].
pub const fn proved_share_source() -> &'static Citation {
    &source::PROVED_SHARE
}
