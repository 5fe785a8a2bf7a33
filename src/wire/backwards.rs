//! Questions asked backwards, on the wire.

use super::plan::{OfPlan, PlanSpec};
use super::post_check::sources;
use super::reading::{Path, Problems};
use super::record::{names, records};
use super::request::{Asked, Calculation, Done};
use super::site_checks::refusals;
use super::value::{Quantity, Size};
use crate::backwards::{
    Answer, Search, Solution, VariedWind, greatest_height, greatest_solidity, greatest_spacing,
    greatest_wind, greatest_wind_of_post, smallest_hole,
};
use crate::check::Governing;
use crate::combination::CombinesTo;
use crate::error::Error;
use crate::limit_state::AllowableStress;
use crate::plan::FencePlan;
use crate::units::{Length, Measurable, Measure, Pressure, Ratio, Velocity, ft, number};
use crate::utilization::Utilization;
use crate::wind::WindCode;

names! {
    AnswerKind {
        "found" => AnswerKind::Found,
        "passes_throughout" => AnswerKind::PassesThroughout,
        "fails_at_mildest" => AnswerKind::FailsAtMildest,
        "post_too_weak" => AnswerKind::PostTooWeak,
        "minimum_governs" => AnswerKind::MinimumGoverns,
    }
}

/// How a question came out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum AnswerKind {
    /// A value passes and the next step does not.
    Found,
    /// Every value tried passes.
    PassesThroughout,
    /// The mildest value fails, and no other is an answer.
    FailsAtMildest,
    /// The same, and a post itself is too weak whatever the depth of its hole.
    PostTooWeak,
    /// The minimum pressure of the code fails at every value; without it one passes.
    MinimumGoverns,
}

records! {
    /// Speeds to try.
    SpeedRange {
        /// Least.
        from: Velocity,
        /// Greatest.
        to: Velocity,
        /// Step: how close the answer is.
        step: Velocity,
    }
    /// Pressures to try.
    PressureRange {
        /// Least.
        from: Pressure,
        /// Greatest.
        to: Pressure,
        /// Step: how close the answer is.
        step: Pressure,
    }
    /// Lengths to try.
    LengthRange {
        /// Least.
        from: Length,
        /// Greatest.
        to: Length,
        /// Step: how close the answer is.
        step: Length,
    }
    /// Shares to try.
    ShareRange {
        /// Least.
        from: f64,
        /// Greatest.
        to: f64,
        /// Step: how close the answer is.
        step: f64,
    }
    /// The greatest wind a fence, or one of its posts, is good for.
    GreatestWindRequest {
        /// The fence, every post with a depth.
        plan: PlanSpec,
        /// One post by its number; the whole fence unless said.
        post: Option<usize>,
        /// Basic wind speeds to try, for a site of ASCE 7; 40 to 300 mph by 0.1 mph
        /// unless said.
        speeds: Option<SpeedRange>,
        /// Pressures to try, for a pressure of your own; 0.1 to 1000 psf by 0.1 psf
        /// unless said.
        pressures: Option<PressureRange>,
    }
    /// The greatest spacing of posts for planned holes.
    GreatestSpacingRequest {
        /// The fence, every post with a depth.
        plan: PlanSpec,
        /// Spacings to try; 1 to 40 ft by 1 in unless said.
        range: Option<LengthRange>,
    }
    /// The greatest height of the panel for planned holes.
    GreatestHeightRequest {
        /// The fence, every post with a depth.
        plan: PlanSpec,
        /// Heights to try; 1 to 40 ft by 1 in unless said.
        range: Option<LengthRange>,
    }
    /// The greatest solidity of the infill for planned holes.
    GreatestSolidityRequest {
        /// The fence, every post with a depth.
        plan: PlanSpec,
        /// Solidities to try; 0.01 to 1 by 0.01 unless said.
        range: Option<ShareRange>,
    }
    /// The smallest hole, every one dug to a depth limit: ledge, water,
    /// utilities.
    SmallestHoleRequest {
        /// The fence.
        plan: PlanSpec,
        /// How deep holes can be.
        depth_limit: Size,
        /// Diameters or sides to try; 3 in to 10 ft by 1/2 in unless said.
        range: Option<LengthRange>,
    }
    /// Values that pass again beyond the answer; never counted on.
    PassesAgainResult {
        /// The first.
        from: Quantity,
        /// The last.
        to: Quantity,
    }
    /// The answer to a question asked backwards, verified forwards.
    BackwardsResult {
        /// The question.
        question: String,
        /// How it came out.
        answer: AnswerKind,
        /// The value, if there is one.
        value: Option<Quantity>,
        /// The value that passes when the minimum wind pressure of the code is left out,
        /// where that minimum fails at every value; not a value for design.
        value_without_minimum: Option<Quantity>,
        /// That minimum pressure, at the limit state of the code.
        minimum_pressure: Option<Pressure>,
        /// The check that governs at the value without the minimum.
        governing_without_minimum: Option<Governing>,
        /// The value of the forward check that follows: the answer, or the
        /// mildest that fails.
        checked_at: Quantity,
        /// The post that governs there.
        post: usize,
        /// What governs there.
        governing: Governing,
        /// Its utilization there.
        utilization: Utilization,
        /// The next step, which fails or cannot be built.
        next: Option<Quantity>,
        /// Why it cannot be built.
        next_refused: Option<String>,
        /// The mildest value that fails although the answer passes.
        milder_fails: Option<Quantity>,
        /// What passes again beyond.
        passes_again: Vec<PassesAgainResult>,
        /// Checks asked for and not made of the governing post; they count for
        /// nothing.
        not_checked: Option<Vec<String>>,
        /// How often the fence was checked.
        evaluations: usize,
    }
}

/// The result of a question, shown as one measure.
fn result<Q: Measurable, C: WindCode>(
    solution: &Solution<Q, C>,
    asked: Asked,
) -> Done<BackwardsResult>
where
    C::Level: CombinesTo<AllowableStress>,
{
    let measure: Measure = solution.question.measure();
    let shown = |value: Q| Quantity::of(value).shown_as(measure);
    let again = solution
        .passes_again
        .iter()
        .map(|stretch| PassesAgainResult {
            from: shown(stretch.from),
            to: shown(stretch.to),
        });
    let next = solution.next.as_ref();
    let minimum = solution.minimum.as_ref();
    let result = BackwardsResult {
        question: solution.question.name().to_owned(),
        answer: match solution.answer {
            Answer::Found(_) => AnswerKind::Found,
            Answer::PassesThroughout(_) => AnswerKind::PassesThroughout,
            Answer::FailsAtMildest(_) => AnswerKind::FailsAtMildest,
            Answer::PostTooWeak(_) => AnswerKind::PostTooWeak,
            Answer::MinimumGoverns(_) => AnswerKind::MinimumGoverns,
        },
        value: solution.value().map(shown),
        value_without_minimum: minimum.map(|minimum| shown(minimum.value)),
        minimum_pressure: minimum.map(|minimum| minimum.pressure),
        governing_without_minimum: minimum.map(|minimum| minimum.worst.governing()),
        checked_at: shown(solution.checked_at()),
        post: solution.governing_post().post.number,
        governing: solution.governing(),
        utilization: solution.utilization(),
        next: next.map(|next| shown(next.value)),
        next_refused: next.and_then(|next| {
            let why = next.worst.as_ref().err()?;
            Some(why.in_system(asked.system).to_string())
        }),
        milder_fails: solution.milder_fails.map(shown),
        passes_again: again.collect(),
        not_checked: refusals(&solution.governing_post().site, asked.system),
        evaluations: solution.evaluations as usize,
    };
    let sources = sources(solution.check());
    let sheet = solution.worksheet(asked.system);
    let done = Done::new(result, solution.cautions(), sources).citing(&sheet);
    if asked.worksheet {
        done.with_worksheet(sheet)
    } else {
        done
    }
}

/// A range given, or the usual one.
fn search<Q: Measurable>(
    given: Option<(Q, Q, Q)>,
    usual: Search<Q>,
    at: &Path<'_>,
    problems: &mut Problems,
) -> Option<Search<Q>> {
    match given {
        Some((from, to, step)) => problems.take(at, Search::new(from, to, step)),
        None => Some(usual),
    }
}

/// Of the same quantity, or of another: the two intensities of wind.
fn as_intensity<From: Measurable, To: Measurable>(value: From) -> Option<To> {
    (From::DIMENSION == To::DIMENSION).then(|| To::from_si(value.si()))
}

struct Wind<'a>(&'a GreatestWindRequest, Asked);

impl OfPlan for Wind<'_> {
    type Answer = Done<BackwardsResult>;

    fn of<C: VariedWind>(
        self,
        plan: &FencePlan<C>,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<BackwardsResult>>
    where
        C::Level: CombinesTo<AllowableStress>,
    {
        let Self(request, asked) = self;
        // `at` is the plan; the ranges stand beside it.
        let top = Path::TOP;
        let input = top.field("input");
        let before = problems.iter().count();
        let speeds = request.speeds.as_ref().and_then(|speeds| {
            let ends = [speeds.from, speeds.to, speeds.step].map(as_intensity::<_, C::Intensity>);
            let place = input.field("speeds");
            ranged(
                ends,
                &place,
                "the wind of this site is a pressure: give pressures",
                problems,
            )
        });
        let pressures = request.pressures.as_ref().and_then(|pressures| {
            let ends =
                [pressures.from, pressures.to, pressures.step].map(as_intensity::<_, C::Intensity>);
            let place = input.field("pressures");
            ranged(
                ends,
                &place,
                "the wind of this site is a speed: give speeds",
                problems,
            )
        });
        if problems.iter().count() > before {
            return None;
        }
        let range = speeds.or(pressures);
        let place = input.field(if request.speeds.is_some() {
            "speeds"
        } else {
            "pressures"
        });
        let search = search(range, C::search(), &place, problems)?;
        let made = match request.post {
            Some(number) => greatest_wind_of_post(plan, number, search),
            None => greatest_wind(plan, search),
        };
        let place = if request.post.is_some() { &input } else { at };
        problems
            .take_by(place, &[("post number", "post")], made)
            .map(|solution| result(&solution, asked))
    }
}

/// The ends of a range, or a word that it is of the other quantity.
fn ranged<Q>(
    ends: [Option<Q>; 3],
    at: &Path<'_>,
    otherwise: &str,
    problems: &mut Problems,
) -> Option<(Q, Q, Q)> {
    if let [Some(from), Some(to), Some(step)] = ends {
        Some((from, to, step))
    } else {
        problems.add(at, None, otherwise);
        None
    }
}

/// What is asked of the fence or its holes.
enum Asking {
    Spacing(Search<Length>),
    Height(Search<Length>),
    Solidity(Search<Ratio>),
    Hole(Length, Search<Length>),
}

struct Varied(Asking, Asked);

impl OfPlan for Varied {
    type Answer = Done<BackwardsResult>;

    fn of<C: VariedWind>(
        self,
        plan: &FencePlan<C>,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<BackwardsResult>>
    where
        C::Level: CombinesTo<AllowableStress>,
    {
        let Self(asking, asked) = self;
        let mut of_length = |made: Result<Solution<Length, C>, Error>| {
            problems
                .take(at, made)
                .map(|solution| result(&solution, asked))
        };
        match asking {
            Asking::Spacing(search) => of_length(greatest_spacing(plan, search)),
            Asking::Height(search) => of_length(greatest_height(plan, search)),
            Asking::Hole(limit, search) => of_length(smallest_hole(plan, limit, search)),
            Asking::Solidity(search) => problems
                .take(at, greatest_solidity(plan, search))
                .map(|solution| result(&solution, asked)),
        }
    }
}

impl Calculation for GreatestWindRequest {
    const CALCULATE: &'static str = "greatest_wind";
    type Result = BackwardsResult;
    const HAS_WORKSHEET: bool = true;

    fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
        self.plan.validate(&at.field("plan"), problems);
        if self.speeds.is_some() && self.pressures.is_some() {
            problems.add(at, None, "give either speeds or pressures");
        }
    }

    fn run(
        &self,
        asked: Asked,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<BackwardsResult>> {
        let question = Wind(self, asked);
        self.plan.ask(question, &at.field("plan"), problems)
    }
}

/// Questions that vary the fence or its holes: what each tries.
macro_rules! questions {
    ($($request:ty, $name:literal, |$own:ident, $search:ident| $asking:expr;)+) => { $(
        impl Calculation for $request {
            const CALCULATE: &'static str = $name;
            type Result = BackwardsResult;
            const HAS_WORKSHEET: bool = true;

            fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
                self.plan.validate(&at.field("plan"), problems);
                self.search(at, problems);
            }

            fn run(
                &self,
                asked: Asked,
                at: &Path<'_>,
                problems: &mut Problems,
            ) -> Option<Done<BackwardsResult>> {
                let ($own, $search) = (self, self.search(at, problems)?);
                let question = Varied($asking, asked);
                $own.plan.ask(question, &at.field("plan"), problems)
            }
        }
    )+ };
}

questions! {
    GreatestSpacingRequest, "greatest_spacing", |own, search| Asking::Spacing(search);
    GreatestHeightRequest, "greatest_height", |own, search| Asking::Height(search);
    GreatestSolidityRequest, "greatest_solidity", |own, search| Asking::Solidity(search);
    SmallestHoleRequest, "smallest_hole",
        |own, search| Asking::Hole(own.depth_limit.0, search);
}

/// The lengths to try.
fn lengths(
    range: Option<&LengthRange>,
    usual: Search<Length>,
    at: &Path<'_>,
    problems: &mut Problems,
) -> Option<Search<Length>> {
    let given = range.map(|r| (r.from, r.to, r.step));
    search(given, usual, &at.field("range"), problems)
}

impl GreatestSpacingRequest {
    fn search(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Search<Length>> {
        lengths(self.range.as_ref(), Search::spacings(), at, problems)
    }
}

impl GreatestHeightRequest {
    fn search(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Search<Length>> {
        lengths(self.range.as_ref(), Search::heights(), at, problems)
    }
}

impl GreatestSolidityRequest {
    fn search(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Search<Ratio>> {
        let given = self.range.as_ref();
        let given = given.map(|r| (number(r.from), number(r.to), number(r.step)));
        search(given, Search::solidities(), &at.field("range"), problems)
    }
}

impl SmallestHoleRequest {
    fn search(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Search<Length>> {
        let made =
            crate::error::size_within("depth limit", self.depth_limit.0, ft(0.01), ft(300.0));
        let limit = problems.take(&at.field("depth_limit"), made);
        let search = lengths(self.range.as_ref(), Search::holes(), at, problems);
        limit.and(search)
    }
}
