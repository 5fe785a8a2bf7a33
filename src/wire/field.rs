//! Field tests on the wire.

use super::profile::ProfileSpec;
use super::reading::{Path, Problems};
use super::record::{alternatives, names, records};
use super::request::{Asked, Calculation, Done};
use super::uplift::ShaftSpec;
use super::value::{Quantity, Size};
use crate::caution::{Caution, Cautions};
use crate::error::Error;
use crate::field_test::{
    AxialPull, Basis, Comparison, ProofLoad, ProofOutcome, Readings, Sample, Settled, Spread,
};
use crate::source;
use crate::units::{Force, ForcePerVolume, LineLoad, Pressure};

names! {
    Settled {
        "first_higher" => Settled::FirstHigher,
        "second_higher" => Settled::SecondHigher,
        "not_settled" => Settled::NotSettled,
        "too_few" => Settled::TooFew,
    }
    ProofOutcome {
        "stood" => ProofOutcome::Stood,
        "not_reached" => ProofOutcome::NotReached,
        "moved_too_far" => ProofOutcome::MovedTooFar,
        "let_go" => ProofOutcome::LetGo,
    }
    BasisName {
        "normal" => BasisName::Normal,
        "lognormal" => BasisName::Lognormal,
        "tolerance" => BasisName::Tolerance,
        "correlation" => BasisName::Correlation,
        "ground_tests" => BasisName::GroundTests,
    }
}

/// What a characteristic value rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum BasisName {
    /// EN 1990 Annex D, normal.
    Normal,
    /// EN 1990 Annex D, lognormal.
    Lognormal,
    /// A tolerance limit.
    Tolerance,
    /// Correlation factors of static load tests, EN 1997-1 Table A.9.
    Correlation,
    /// Correlation factors of ground tests, EN 1997-1 Table A.10.
    GroundTests,
}

records! {
    /// A reading.
    ReadingSpec {
        /// Movement.
        movement: Size,
        /// Load.
        load: Force,
    }
    /// What a post pulled straight up proves.
    AxialPullRequest {
        /// Load over movement, no movement less than the one before; instead of
        /// peak.
        readings: Option<Vec<ReadingSpec>>,
        /// The peak alone; instead of readings.
        peak: Option<Force>,
        /// The shaft in the ground.
        shaft: ShaftSpec,
        /// Weight of post and footing.
        weight: Force,
        /// Undrained strength, for the α it implies.
        undrained_strength: Option<Pressure>,
        /// The ground, for the K tan δ it implies.
        profile: Option<ProfileSpec>,
    }
    /// What it proves, ultimate values of one test.
    AxialPullResult {
        /// Peak force.
        peak: Force,
        /// Movement at the peak.
        movement_at_peak: Option<Size>,
        /// First stiffness.
        stiffness: Option<LineLoad>,
        /// Load at the knee.
        knee: Option<Force>,
        /// Average bond over the whole shaft.
        average_bond: Pressure,
        /// Friction, the weight taken off.
        friction: Pressure,
        /// α implied.
        alpha: Option<f64>,
        /// K tan δ implied.
        beta: Option<f64>,
    }
    /// Forces.
    ForcesSpec {
        /// One a test.
        values: Vec<Force>,
    }
    /// Pressures: bond, friction, strength.
    PressuresSpec {
        /// One a test.
        values: Vec<Pressure>,
    }
    /// Stiffnesses that grow with depth.
    GrowthsSpec {
        /// One a test.
        values: Vec<ForcePerVolume>,
    }
    /// A value design may use, from tests alike.
    CharacteristicRequest {
        /// The results.
        results: ResultsSpec,
        /// What it rests on.
        basis: BasisName,
        /// Coefficient of variation known beforehand; of the tests unless said.
        known_variation: Option<f64>,
        /// Confidence of a tolerance limit; 0.75 unless said.
        confidence: Option<f64>,
    }
    /// It, with its spread.
    CharacteristicResult {
        /// The characteristic value.
        value: Quantity,
        /// Mean.
        mean: Quantity,
        /// The least.
        least: Quantity,
        /// kn, k, or the ξ that governs.
        factor: f64,
        /// Coefficient of variation.
        variation: Option<f64>,
        /// How many tests.
        tests: usize,
        /// What it rests on, in words.
        basis: String,
    }
    /// Two settings compared.
    CompareRequest {
        /// Tests of the first.
        first: ResultsSpec,
        /// Tests of the second.
        second: ResultsSpec,
        /// Two-sided confidence; 0.95 unless said.
        confidence: Option<f64>,
    }
    /// What is settled.
    CompareResult {
        /// Mean of the first less that of the second.
        difference: Quantity,
        /// Least end of its interval.
        from: Option<Quantity>,
        /// Greatest end of its interval.
        to: Option<Quantity>,
        /// What is settled.
        settled: Settled,
        /// The same in words.
        verdict: String,
        /// How many more tests of each would settle it.
        more_tests: Option<usize>,
    }
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
    /// Whether it does.
    ProofLoadResult {
        /// The target.
        target: Force,
        /// What was reached.
        reached: Force,
        /// Movement at the target.
        movement: Option<Size>,
        /// The outcome.
        outcome: ProofOutcome,
        /// The same in words.
        verdict: String,
    }
}

alternatives! {
    /// Results of tests alike.
    ResultsSpec {
        /// Forces.
        "forces" => Forces(ForcesSpec),
        /// Pressures.
        "pressures" => Pressures(PressuresSpec),
        /// Stiffnesses that grow with depth.
        "growths" => Growths(GrowthsSpec),
    }
}

pub(super) fn readings(
    given: &[ReadingSpec],
    at: &Path<'_>,
    problems: &mut Problems,
) -> Option<Readings> {
    let pairs: Vec<_> = given.iter().map(|r| (r.movement.0, r.load)).collect();
    problems.take(at, Readings::new(&pairs))
}

impl AxialPullRequest {
    fn build(
        &self,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<(AxialPull, Option<Readings>, Force)> {
        let shaft = self.shaft.build(&at.field("shaft"), problems);
        match (&self.readings, self.peak) {
            (Some(given), None) => {
                let read = readings(given, &at.field("readings"), problems)?;
                let pull = AxialPull::of(&read, shaft?, self.weight);
                let peak = read.peak().1;
                let pull = problems.take(&at.field("readings"), pull)?;
                Some((pull, Some(read), peak))
            }
            (None, Some(peak)) => {
                let pull = AxialPull::new(peak, shaft?, self.weight);
                Some((problems.take(&at.field("peak"), pull)?, None, peak))
            }
            _ => {
                problems.add(at, None, "give either readings or peak");
                None
            }
        }
    }
}

impl Calculation for AxialPullRequest {
    const CALCULATE: &'static str = "axial_pull";
    type Result = AxialPullResult;

    fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
        self.build(at, problems);
        if let Some(profile) = &self.profile {
            profile.build(&at.field("profile"), problems);
        }
    }

    fn run(
        &self,
        _: Asked,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<AxialPullResult>> {
        let (pull, read, peak) = self.build(at, problems)?;
        let alpha = match self.undrained_strength {
            Some(su) => {
                Some(problems.take(&at.field("undrained_strength"), pull.implied_alpha(su))?)
            }
            None => None,
        };
        let beta = match &self.profile {
            Some(profile) => {
                let place = at.field("profile");
                let profile = profile.build(&place, problems)?;
                Some(problems.take(&place, pull.implied_beta(&profile))?)
            }
            None => None,
        };
        let result = AxialPullResult {
            peak,
            movement_at_peak: read.as_ref().map(|read| Size(read.peak().0)),
            stiffness: read.as_ref().and_then(Readings::stiffness),
            knee: read.as_ref().and_then(Readings::knee).map(|knee| knee.load),
            average_bond: pull.average_bond().pressure(),
            friction: pull.friction(),
            alpha,
            beta,
        };
        let cautions = Cautions::default().with(Caution::FieldTests);
        Some(Done::new(result, cautions, [&source::STATICS]))
    }
}

/// A sample of whichever quantity.
enum Samples {
    Forces(Sample<Force>),
    Pressures(Sample<Pressure>),
    Growths(Sample<ForcePerVolume>),
}

impl ResultsSpec {
    fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Samples> {
        let made = match self {
            Self::Forces(spec) => Sample::new(&spec.values).map(Samples::Forces),
            Self::Pressures(spec) => Sample::new(&spec.values).map(Samples::Pressures),
            Self::Growths(spec) => Sample::new(&spec.values).map(Samples::Growths),
        };
        problems.take(&at.field("values"), made)
    }
}

impl CharacteristicRequest {
    /// What does not go with the basis is no silent passenger.
    fn fits(&self, at: &Path<'_>, problems: &mut Problems) {
        let by_spread = matches!(self.basis, BasisName::Normal | BasisName::Lognormal);
        if self.known_variation.is_some() && !by_spread {
            let allowed = "it goes with normal and lognormal";
            problems.add(&at.field("known_variation"), None, allowed);
        }
        if self.confidence.is_some() && self.basis != BasisName::Tolerance {
            problems.add(&at.field("confidence"), None, "it goes with tolerance");
        }
    }

    fn basis(&self) -> Basis {
        let spread = self
            .known_variation
            .map_or(Spread::OfTheTests, Spread::Known);
        match self.basis {
            BasisName::Normal => Basis::Normal(spread),
            BasisName::Lognormal => Basis::Lognormal(spread),
            BasisName::Tolerance => Basis::Tolerance(self.confidence.unwrap_or(0.75)),
            BasisName::Correlation => Basis::Correlation,
            BasisName::GroundTests => Basis::GroundTests,
        }
    }
}

fn characteristic<Q: crate::units::Measurable>(
    sample: &Sample<Q>,
    basis: Basis,
) -> Result<(CharacteristicResult, Cautions), Error> {
    let value = sample.characteristic(basis)?;
    let result = CharacteristicResult {
        value: Quantity::of(value.value),
        mean: Quantity::of(value.mean),
        least: Quantity::of(value.least),
        factor: value.factor,
        variation: sample.variation(),
        tests: value.tests as usize,
        basis: value.basis.to_string(),
    };
    Ok((result, Cautions::default().with(Caution::FieldTests)))
}

impl Calculation for CharacteristicRequest {
    const CALCULATE: &'static str = "characteristic_value";
    type Result = CharacteristicResult;

    fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
        self.results.build(&at.field("results"), problems);
        self.fits(at, problems);
    }

    fn run(
        &self,
        _: Asked,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<CharacteristicResult>> {
        let place = at.field("results");
        let basis = self.basis();
        let made = match self.results.build(&place, problems)? {
            Samples::Forces(sample) => characteristic(&sample, basis),
            Samples::Pressures(sample) => characteristic(&sample, basis),
            Samples::Growths(sample) => characteristic(&sample, basis),
        };
        let names = [
            ("known variation", "known_variation"),
            ("confidence", "confidence"),
            ("test result", "results"),
        ];
        let (result, cautions) = problems.take_by(at, &names, made)?;
        Some(Done::new(result, cautions, [basis.source()]))
    }
}

fn compared<Q: crate::units::Measurable>(
    first: &Sample<Q>,
    second: &Sample<Q>,
    confidence: f64,
) -> Result<(CompareResult, Cautions), Error> {
    let both = Comparison::between(first, second, confidence)?;
    let result = CompareResult {
        difference: Quantity::of(both.difference),
        from: both.interval.map(|(from, _)| Quantity::of(from)),
        to: both.interval.map(|(_, to)| Quantity::of(to)),
        settled: both.settled,
        verdict: both.settled.name().to_owned(),
        more_tests: both.more_tests.map(|tests| tests as usize),
    };
    Ok((result, both.cautions()))
}

impl Calculation for CompareRequest {
    const CALCULATE: &'static str = "compare_settings";
    type Result = CompareResult;

    fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
        self.first.build(&at.field("first"), problems);
        self.second.build(&at.field("second"), problems);
    }

    fn run(&self, _: Asked, at: &Path<'_>, problems: &mut Problems) -> Option<Done<CompareResult>> {
        let first = self.first.build(&at.field("first"), problems)?;
        let second = self.second.build(&at.field("second"), problems)?;
        let confidence = self.confidence.unwrap_or(0.95);
        let made = match (&first, &second) {
            (Samples::Forces(a), Samples::Forces(b)) => compared(a, b, confidence),
            (Samples::Pressures(a), Samples::Pressures(b)) => compared(a, b, confidence),
            (Samples::Growths(a), Samples::Growths(b)) => compared(a, b, confidence),
            _ => {
                let place = at.field("second");
                problems.add(
                    &place.field("kind"),
                    None,
                    "give the same kind as the first",
                );
                return None;
            }
        };
        let (result, cautions) = problems.take(&at.field("confidence"), made)?;
        let source = Comparison::<Force>::source();
        Some(Done::new(result, cautions, [source]))
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
