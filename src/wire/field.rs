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
    AxialPull, Basis, Comparison, PeakKind, Readings, Sample, Settled, Spread, WelchFreedom,
};
use crate::source::{self, Citation};
use crate::units::{Force, ForcePerVolume, LineLoad, Pressure};

names! {
    Settled {
        "first_higher" => Settled::FirstHigher,
        "second_higher" => Settled::SecondHigher,
        "not_settled" => Settled::NotSettled,
        "lower_is_bound" => Settled::LowerIsBound,
        "too_few" => Settled::TooFew,
    }
    PeakKind { "reached" => PeakKind::Reached, "at_least" => PeakKind::AtLeast, }
    WelchFreedom {
        "fractional" => WelchFreedom::Fractional,
        "floor" => WelchFreedom::Floor,
    }
    BasisName {
        "lower_of_both" => BasisName::LowerOfBoth,
        "tolerance" => BasisName::Tolerance,
        "normal" => BasisName::Normal,
        "lognormal_tolerance" => BasisName::LognormalTolerance,
        "lognormal" => BasisName::Lognormal,
    }
}

/// Basis of a characteristic value, the 5 % fractile; the default first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[non_exhaustive]
pub enum BasisName {
    /// The lower of the tolerance limit at 75 % and EN 1990 Annex D, both normal.
    #[default]
    LowerOfBoth,
    /// A normal tolerance limit.
    Tolerance,
    /// EN 1990 Annex D, normal.
    Normal,
    /// A lognormal tolerance limit, the form of EN 14358.
    LognormalTolerance,
    /// EN 1990 Annex D, lognormal.
    Lognormal,
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
        /// Greatest force.
        peak: Force,
        /// Whether the readings show a peak, or a lower bound where the last one is
        /// the greatest; none where a peak is given alone.
        peak_kind: Option<PeakKind>,
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
        /// How many of them are lower bounds, from pulls stopped at their greatest
        /// load; none unless given.
        at_least: Option<usize>,
    }
    /// Pressures: bond, friction, strength.
    PressuresSpec {
        /// One a test.
        values: Vec<Pressure>,
        /// How many of them are lower bounds, from pulls stopped at their greatest
        /// load; none unless given.
        at_least: Option<usize>,
    }
    /// Stiffnesses that grow with depth.
    GrowthsSpec {
        /// One a test.
        values: Vec<ForcePerVolume>,
        /// How many of them are lower bounds, from pulls stopped at their greatest
        /// load; none unless given.
        at_least: Option<usize>,
    }
    /// A value design may use, from tests alike.
    CharacteristicRequest {
        /// The results.
        results: ResultsSpec,
        /// Basis of the value; lower_of_both unless given.
        basis: Option<BasisName>,
        /// Coefficient of variation known beforehand; that of the tests unless
        /// given, and where the tests spread more.
        known_variation: Option<f64>,
        /// Confidence of a tolerance limit; 0.75 unless given.
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
        /// kn or k.
        factor: f64,
        /// Coefficient of variation.
        variation: Option<f64>,
        /// How many tests.
        tests: usize,
        /// How many of them are lower bounds.
        at_least: usize,
        /// Basis that governs, in words.
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
        /// Degrees of freedom as they come out, or rounded down; fractional unless
        /// given.
        freedom: Option<WelchFreedom>,
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
        /// Degrees of freedom of the interval.
        freedom: Option<f64>,
        /// How many tests of both are lower bounds.
        at_least: usize,
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
                let peak = read.peak().load;
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
            peak_kind: read.as_ref().map(|read| read.peak().kind),
            movement_at_peak: read.as_ref().map(|read| Size(read.peak().movement)),
            stiffness: read.as_ref().and_then(Readings::stiffness),
            knee: read.as_ref().and_then(Readings::knee).map(|knee| knee.load),
            average_bond: pull.average_bond().pressure(),
            friction: pull.friction(),
            alpha,
            beta,
        };
        let cautions = Cautions::default()
            .with(Caution::FieldTests)
            .with_if(pull.kind() == PeakKind::AtLeast, Caution::StoppedPulls);
        Some(Done::new(result, cautions, [&source::STATICS]))
    }
}

/// A sample of whichever quantity.
enum Samples {
    Forces(Sample<Force>),
    Pressures(Sample<Pressure>),
    Growths(Sample<ForcePerVolume>),
}

/// Results of which some are lower bounds; which of them does not matter.
fn sample<Q: crate::units::Measurable>(
    values: &[Q],
    at_least: Option<usize>,
) -> Result<Sample<Q>, Error> {
    let kind = |i| {
        if i < at_least.unwrap_or(0) {
            PeakKind::AtLeast
        } else {
            PeakKind::Reached
        }
    };
    let values: Vec<_> = values
        .iter()
        .enumerate()
        .map(|(i, v)| (*v, kind(i)))
        .collect();
    Sample::with_kinds(&values)
}

impl ResultsSpec {
    fn has_too_many_bounds(&self) -> bool {
        let (tests, bounds) = match self {
            Self::Forces(spec) => (spec.values.len(), spec.at_least),
            Self::Pressures(spec) => (spec.values.len(), spec.at_least),
            Self::Growths(spec) => (spec.values.len(), spec.at_least),
        };
        bounds.is_some_and(|bounds| bounds > tests)
    }

    fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Samples> {
        let made = match self {
            Self::Forces(spec) => sample(&spec.values, spec.at_least).map(Samples::Forces),
            Self::Pressures(spec) => sample(&spec.values, spec.at_least).map(Samples::Pressures),
            Self::Growths(spec) => sample(&spec.values, spec.at_least).map(Samples::Growths),
        };
        if self.has_too_many_bounds() {
            let allowed = "give at most as many as there are values";
            problems.add(&at.field("at_least"), None, allowed);
            return None;
        }
        problems.take(&at.field("values"), made)
    }
}

impl CharacteristicRequest {
    /// What does not go with the basis is no silent passenger.
    fn fits(&self, at: &Path<'_>, problems: &mut Problems) {
        let basis = self.basis.unwrap_or_default();
        let by_spread = matches!(basis, BasisName::Normal | BasisName::Lognormal);
        if self.known_variation.is_some() && !by_spread {
            let allowed = "it applies to the bases normal and lognormal only";
            problems.add(&at.field("known_variation"), None, allowed);
        }
        let a_limit = matches!(basis, BasisName::Tolerance | BasisName::LognormalTolerance);
        if self.confidence.is_some() && !a_limit {
            let allowed = "it applies to the bases tolerance and lognormal_tolerance only";
            problems.add(&at.field("confidence"), None, allowed);
        }
    }

    fn basis(&self) -> Basis {
        let spread = self
            .known_variation
            .map_or(Spread::OfTheTests, Spread::Known);
        let confidence = self.confidence.unwrap_or(0.75);
        match self.basis.unwrap_or_default() {
            BasisName::LowerOfBoth => Basis::LowerOfBoth,
            BasisName::Tolerance => Basis::Tolerance(confidence),
            BasisName::Normal => Basis::Normal(spread),
            BasisName::LognormalTolerance => Basis::LognormalTolerance(confidence),
            BasisName::Lognormal => Basis::Lognormal(spread),
        }
    }
}

fn characteristic<Q: crate::units::Measurable>(
    sample: &Sample<Q>,
    basis: Basis,
) -> Result<(CharacteristicResult, Cautions, &'static Citation), Error> {
    let value = sample.characteristic(basis)?;
    let result = CharacteristicResult {
        value: Quantity::of(value.value),
        mean: Quantity::of(value.mean),
        least: Quantity::of(value.least),
        factor: value.factor,
        variation: sample.variation(),
        tests: value.tests as usize,
        at_least: value.at_least as usize,
        basis: value.basis.to_string(),
    };
    Ok((result, value.cautions(), value.basis.source()))
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
        let (result, cautions, source) = problems.take_by(at, &names, made)?;
        Some(Done::new(result, cautions, [source]))
    }
}

fn compared<Q: crate::units::Measurable>(
    first: &Sample<Q>,
    second: &Sample<Q>,
    confidence: f64,
    by: WelchFreedom,
) -> Result<(CompareResult, Cautions), Error> {
    let both = Comparison::between_by(first, second, confidence, by)?;
    let result = CompareResult {
        difference: Quantity::of(both.difference),
        from: both.interval.map(|(from, _)| Quantity::of(from)),
        to: both.interval.map(|(_, to)| Quantity::of(to)),
        settled: both.settled,
        verdict: both.settled.name().to_owned(),
        more_tests: both.more_tests.map(|tests| tests as usize),
        freedom: both.freedom,
        at_least: both.at_least as usize,
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
        let by = self.freedom.unwrap_or_default();
        let made = match (&first, &second) {
            (Samples::Forces(a), Samples::Forces(b)) => compared(a, b, confidence, by),
            (Samples::Pressures(a), Samples::Pressures(b)) => compared(a, b, confidence, by),
            (Samples::Growths(a), Samples::Growths(b)) => compared(a, b, confidence, by),
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
