//! Proof loads and piles on the wire.

use super::field::{ReadingSpec, readings};
use super::reading::{Path, Problems};
use super::record::{names, records};
use super::request::{Asked, Calculation, Done};
use super::value::Size;
use crate::caution::{Caution, Cautions};
use crate::field_test::{
    PileTests, ProofLoad, ProofOutcome, Readings, Sample, proved_share, proved_share_source,
};
use crate::units::Force;

names! {
    ProofOutcome {
        "stood" => ProofOutcome::Stood,
        "not_reached" => ProofOutcome::NotReached,
        "not_shown" => ProofOutcome::NotShown,
        "moved_too_far" => ProofOutcome::MovedTooFar,
        "let_go" => ProofOutcome::LetGo,
    }
    PileTests {
        "load_tests" => PileTests::LoadTests,
        "ground_tests" => PileTests::GroundTests,
    }
}

records! {
    /// Does a post carry a proof load?
    ProofLoadRequest {
        /// The load it must carry.
        load: Force,
        /// The multiple it is pulled to.
        multiple: f64,
        /// Movement allowed at the target.
        allowed_movement: Option<Size>,
        /// Load over movement, no movement less than the one before.
        readings: Vec<ReadingSpec>,
    }
    /// Outcome of the proof-load test.
    ProofLoadResult {
        /// The target.
        target: Force,
        /// Greatest load read.
        reached: Force,
        /// Movement at the target.
        movement: Option<Size>,
        /// The outcome.
        outcome: ProofOutcome,
        /// The same in words.
        verdict: String,
    }
    /// Share of posts that hold at least a proof load that all tested posts stood.
    ProvedShareRequest {
        /// How many posts stood it; none failed.
        stood: usize,
        /// One-sided confidence; 0.95 unless given.
        confidence: Option<f64>,
    }
    /// Share of posts proved by the proof loads.
    ProvedShareResult {
        /// At least this share of posts holds at least the proof load.
        share: f64,
    }
    /// Characteristic axial resistance of piles by EN 1997-1; not for posts.
    PileResistanceRequest {
        /// Axial resistance of each test or ground profile.
        resistances: Vec<Force>,
        /// Where the resistances come from.
        tests: PileTests,
    }
    /// Characteristic axial resistance of piles, with the factors of EN 1997-1.
    PileResistanceResult {
        /// Rk, the lesser of the two quotients.
        resistance: Force,
        /// Mean over its correlation factor.
        by_mean: Force,
        /// Least over its correlation factor.
        by_least: Force,
        /// Table of the factors, in words.
        basis: String,
    }
}

impl ProofLoadRequest {
    fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<(ProofLoad, Readings)> {
        let read = readings(&self.readings, &at.field("readings"), problems);
        let made = ProofLoad::new(self.load, self.multiple);
        let names = [("load", "load"), ("multiple of the load", "multiple")];
        let mut proof = problems.take_by(at, &names, made)?;
        if let Some(Size(movement)) = self.allowed_movement {
            let made = proof.allowing(movement);
            proof = problems.take(&at.field("allowed_movement"), made)?;
        }
        Some((proof, read?))
    }
}

impl Calculation for ProofLoadRequest {
    const CALCULATE: &'static str = "proof_load";
    type Result = ProofLoadResult;

    fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
        self.build(at, problems);
    }

    fn run(
        &self,
        _: Asked,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<ProofLoadResult>> {
        let (proof, read) = self.build(at, problems)?;
        let judged = proof.judge(&read);
        let result = ProofLoadResult {
            target: judged.target,
            reached: judged.reached,
            movement: judged.movement.map(Size),
            outcome: judged.outcome,
            verdict: judged.outcome.name().to_owned(),
        };
        Some(Done::new(result, proof.cautions(), [ProofLoad::source()]))
    }
}

impl ProvedShareRequest {
    fn share(&self, at: &Path<'_>, problems: &mut Problems) -> Option<f64> {
        let stood = u32::try_from(self.stood).unwrap_or(u32::MAX);
        let made = proved_share(stood, self.confidence.unwrap_or(0.95));
        let names = [("proof loads stood", "stood"), ("confidence", "confidence")];
        problems.take_by(at, &names, made)
    }
}

impl Calculation for ProvedShareRequest {
    const CALCULATE: &'static str = "proved_share";
    type Result = ProvedShareResult;

    fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
        self.share(at, problems);
    }

    fn run(
        &self,
        _: Asked,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<ProvedShareResult>> {
        let share = self.share(at, problems)?;
        let cautions = Cautions::default().with(Caution::FieldTests);
        let result = ProvedShareResult { share };
        Some(Done::new(result, cautions, [proved_share_source()]))
    }
}

impl PileResistanceRequest {
    fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Sample<Force>> {
        problems.take(&at.field("resistances"), Sample::new(&self.resistances))
    }
}

impl Calculation for PileResistanceRequest {
    const CALCULATE: &'static str = "pile_resistance";
    type Result = PileResistanceResult;

    fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
        self.build(at, problems);
    }

    fn run(
        &self,
        _: Asked,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<PileResistanceResult>> {
        let found = self.build(at, problems)?.pile_resistance(self.tests);
        let result = PileResistanceResult {
            resistance: found.resistance,
            by_mean: found.by_mean,
            by_least: found.by_least,
            basis: found.tests.name().to_owned(),
        };
        let source = found.tests.source();
        Some(Done::new(result, found.cautions(), [source]))
    }
}
