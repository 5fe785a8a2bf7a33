//! Proof load: a post that must carry a load is pulled to a multiple of it.

use super::readings::Readings;
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
/// let proof = ProofLoad::new(kn(1.5), 2.0)?.allowing(mm(8.0))?;
/// assert_eq!(proof.judge(&pull).outcome, ProofOutcome::MovedTooFar);
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
    /// It did not reach the load.
    NotReached,
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
            Self::NotReached => "did not reach the proof load",
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

    /// What a pull showed.
    pub fn judge(&self, pull: &Readings) -> ProofResult {
        let target = self.target();
        // A hair for rounding.
        let just = target * (1.0 - 1e-12);
        let from = pull.all().iter().position(|(_, load)| *load >= just);
        let after = from.and_then(|from| pull.all().get(from..)).unwrap_or(&[]);
        let lets_go = |load: Force| load < target * (1.0 - 2.0 * BAND);
        let let_go = after.iter().any(|(_, load)| lets_go(*load));
        let movement = pull.movement_at(just).map(|reached| {
            // While the load stays at the target the post may creep.
            after
                .iter()
                .take_while(|(_, load)| *load <= target * (1.0 + BAND) && !lets_go(*load))
                .filter(|(_, load)| *load >= target * (1.0 - BAND))
                .fold(reached, |_, (at, _)| *at)
        });
        let outcome = match (movement, self.allowed) {
            (None, _) => ProofOutcome::NotReached,
            _ if let_go => ProofOutcome::LetGo,
            (Some(movement), Some(allowed)) if movement > allowed => ProofOutcome::MovedTooFar,
            (Some(_), _) => ProofOutcome::Stood,
        };
        ProofResult {
            target,
            reached: pull.peak().1,
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
