//! Questions asked backwards, on the wire.

use super::plan::{OfPlan, PlanSpec};
use super::post_check::sources;
use super::reading::{Path, Problems};
use super::record::{names, records};
use super::request::{Asked, Calculation, Done};
use super::value::{Quantity, Size};
use crate::backwards::{
    Answer, Search, Solution, VariedWind, Verdict, cheapest, greatest_height, greatest_solidity,
    greatest_spacing, greatest_wind, greatest_wind_of_post, smallest_hole,
};
use crate::caution::Cautions;
use crate::check::Governing;
use crate::combination::CombinesTo;
use crate::error::Error;
use crate::limit_state::AllowableStress;
use crate::plan::{FencePlan, Schedule};
use crate::source::Citation;
use crate::units::{Length, Measurable, Measure, Pressure, Ratio, Velocity, Volume, number};
use crate::utilization::Utilization;
use crate::wind::WindCode;

names! {
    AnswerKind {
        "found" => AnswerKind::Found,
        "passes_throughout" => AnswerKind::PassesThroughout,
        "fails_at_mildest" => AnswerKind::FailsAtMildest,
        "post_too_weak" => AnswerKind::PostTooWeak,
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
    /// The same, and a post itself is too weak whatever its hole.
    PostTooWeak,
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
        /// Basic wind speeds to try, for a site of ASCE 7.
        speeds: Option<SpeedRange>,
        /// Pressures to try, for a pressure of your own.
        pressures: Option<PressureRange>,
    }
    /// The greatest spacing of posts for planned holes.
    GreatestSpacingRequest {
        /// The fence, every post with a depth.
        plan: PlanSpec,
        /// Spacings to try.
        range: Option<LengthRange>,
    }
    /// The greatest height of the panel for planned holes.
    GreatestHeightRequest {
        /// The fence, every post with a depth.
        plan: PlanSpec,
        /// Heights to try.
        range: Option<LengthRange>,
    }
    /// The greatest solidity of the infill for planned holes.
    GreatestSolidityRequest {
        /// The fence, every post with a depth.
        plan: PlanSpec,
        /// Solidities to try.
        range: Option<ShareRange>,
    }
    /// The smallest hole, every one dug to a depth limit: ledge, water,
    /// utilities.
    SmallestHoleRequest {
        /// The fence.
        plan: PlanSpec,
        /// How deep holes can be.
        depth_limit: Size,
        /// Diameters or sides to try.
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
        /// How often the fence was checked.
        evaluations: usize,
    }
    /// So much a volume of concrete.
    VolumePrice {
        /// Price.
        price: f64,
        /// A volume.
        per: Volume,
    }
    /// So much a length of digging.
    LengthPrice {
        /// Price.
        price: f64,
        /// A length.
        per: Length,
    }
    /// What a plan costs, in any one currency.
    CostSpec {
        /// Once.
        fixed: Option<f64>,
        /// A post.
        post: Option<f64>,
        /// Concrete.
        concrete: Option<VolumePrice>,
        /// Digging.
        digging: Option<LengthPrice>,
    }
    /// An option.
    OptionSpec {
        /// Its name.
        name: String,
        /// The fence.
        plan: PlanSpec,
        /// What it costs.
        cost: CostSpec,
    }
    /// The cheapest of several plans that hold.
    CheapestRequest {
        /// The options, at most 100.
        options: Vec<OptionSpec>,
    }
    /// An option, as ranked.
    RankedResult {
        /// Its name.
        name: String,
        /// Does every check of every post pass?
        passes: bool,
        /// Its cost, if it passes.
        cost: Option<f64>,
        /// Why it is out.
        reason: Option<String>,
    }
    /// Options by cost, those that fail last.
    CheapestResult {
        /// The name of the cheapest that passes.
        cheapest: Option<String>,
        /// All of them.
        options: Vec<RankedResult>,
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
    let result = BackwardsResult {
        question: solution.question.name().to_owned(),
        answer: match solution.answer {
            Answer::Found(_) => AnswerKind::Found,
            Answer::PassesThroughout(_) => AnswerKind::PassesThroughout,
            Answer::FailsAtMildest(_) => AnswerKind::FailsAtMildest,
            Answer::PostTooWeak(_) => AnswerKind::PostTooWeak,
        },
        value: solution.value().map(shown),
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
        evaluations: solution.evaluations as usize,
    };
    let sources = sources(solution.check());
    let done = Done::new(result, solution.cautions(), sources);
    if asked.worksheet {
        done.with_worksheet(solution.worksheet(asked.system))
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
        let top = Path::TOP;
        let input = top.field("input");
        let before = problems.iter().count();
        let speeds = request.speeds.as_ref().and_then(|speeds| {
            let ends = [speeds.from, speeds.to, speeds.step].map(as_intensity::<_, C::Intensity>);
            let place = input.field("speeds");
            ranged(
                ends,
                &place,
                "the wind of this site is a pressure",
                problems,
            )
        });
        let pressures = request.pressures.as_ref().and_then(|pressures| {
            let ends =
                [pressures.from, pressures.to, pressures.step].map(as_intensity::<_, C::Intensity>);
            let place = input.field("pressures");
            ranged(ends, &place, "the wind of this site is a speed", problems)
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
        problems
            .take(at, made)
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

macro_rules! of_length {
    ($($request:ty, $name:literal, $asking:ident, $usual:expr;)+) => { $(
        impl Calculation for $request {
            const CALCULATE: &'static str = $name;
            type Result = BackwardsResult;

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
                let search = self.search(at, problems)?;
                let question = Varied(Asking::$asking(search), asked);
                self.plan.ask(question, &at.field("plan"), problems)
            }
        }

        impl $request {
            fn search(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Search<Length>> {
                let given = self.range.as_ref().map(|r| (r.from, r.to, r.step));
                search(given, $usual, &at.field("range"), problems)
            }
        }
    )+ };
}

of_length! {
    GreatestSpacingRequest, "greatest_spacing", Spacing, Search::spacings();
    GreatestHeightRequest, "greatest_height", Height, Search::heights();
}

impl GreatestSolidityRequest {
    fn search(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Search<Ratio>> {
        let given = self.range.as_ref();
        let given = given.map(|r| (number(r.from), number(r.to), number(r.step)));
        search(given, Search::solidities(), &at.field("range"), problems)
    }
}

impl Calculation for GreatestSolidityRequest {
    const CALCULATE: &'static str = "greatest_solidity";
    type Result = BackwardsResult;

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
        let search = self.search(at, problems)?;
        let question = Varied(Asking::Solidity(search), asked);
        self.plan.ask(question, &at.field("plan"), problems)
    }
}

impl SmallestHoleRequest {
    fn search(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Search<Length>> {
        let given = self.range.as_ref().map(|r| (r.from, r.to, r.step));
        search(given, Search::holes(), &at.field("range"), problems)
    }
}

impl Calculation for SmallestHoleRequest {
    const CALCULATE: &'static str = "smallest_hole";
    type Result = BackwardsResult;

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
        let search = self.search(at, problems)?;
        let question = Varied(Asking::Hole(self.depth_limit.0, search), asked);
        self.plan.ask(question, &at.field("plan"), problems)
    }
}

/// The question: what one plan costs, if it holds.
struct Costs<'a>(&'a CostSpec);

impl OfPlan for Costs<'_> {
    type Answer = (Verdict, Cautions, Vec<&'static Citation>);

    fn of<C: VariedWind>(
        self,
        plan: &FencePlan<C>,
        _: &Path<'_>,
        _: &mut Problems,
    ) -> Option<Self::Answer>
    where
        C::Level: CombinesTo<AllowableStress>,
    {
        let cost = |schedule: &Schedule<'_, C>| self.0.of(schedule);
        let ranking = cheapest(core::slice::from_ref(plan), cost);
        let only = ranking.options.first()?;
        let mut cited = Vec::new();
        if let Ok(schedule) = plan.schedule() {
            let worst = schedule.posts().max_by_key(|post| post.check.utilization);
            cited.extend(worst.iter().flat_map(|post| sources(&post.check)));
        }
        Some((only.verdict, only.cautions, cited))
    }
}

impl CostSpec {
    fn of<C: WindCode>(&self, schedule: &Schedule<'_, C>) -> f64
    where
        C::Level: CombinesTo<AllowableStress>,
    {
        let mut cost = self.fixed.unwrap_or(0.0);
        for post in schedule.posts() {
            let depth = match post.check.planned {
                Some(planned) => planned.depth(),
                None => post.check.required.depth(),
            };
            cost += self.post.unwrap_or(0.0);
            if let Some(concrete) = &self.concrete {
                let volume = post.check.design().foundation().concrete_volume(depth);
                cost += concrete.price * (volume / concrete.per).value;
            }
            if let Some(digging) = &self.digging {
                cost += digging.price * (depth / digging.per).value;
            }
        }
        cost
    }
}

impl Calculation for CheapestRequest {
    const CALCULATE: &'static str = "cheapest_option";
    type Result = CheapestResult;

    fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
        let place = at.field("options");
        if self.options.is_empty() || self.options.len() > 100 {
            problems.add(&place, None, "give 1 to 100 options");
            return;
        }
        for (index, option) in self.options.iter().enumerate() {
            let place = place.place(index);
            option.plan.validate(&place.field("plan"), problems);
        }
    }

    fn run(
        &self,
        asked: Asked,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<CheapestResult>> {
        let place = at.field("options");
        let mut cautions = Cautions::default();
        let mut cited = Vec::new();
        let mut options = Vec::new();
        for (index, option) in self.options.iter().enumerate() {
            let place = place.place(index);
            let question = Costs(&option.cost);
            let (verdict, said, sources) =
                option.plan.ask(question, &place.field("plan"), problems)?;
            cautions = cautions.and(said);
            cited.extend(sources);
            let (cost, reason) = match verdict {
                Verdict::Passes(cost) => (Some(cost), None),
                Verdict::Refused(error) => (None, Some(error.in_system(asked.system).to_string())),
                other => (None, Some(other.to_string())),
            };
            options.push(RankedResult {
                name: option.name.clone(),
                passes: matches!(verdict, Verdict::Passes(_) | Verdict::NoCost),
                cost,
                reason,
            });
        }
        options.sort_by(|a, b| {
            let rank = |option: &RankedResult| option.cost.unwrap_or(f64::INFINITY);
            rank(a).total_cmp(&rank(b))
        });
        let result = CheapestResult {
            cheapest: options
                .first()
                .filter(|option| option.cost.is_some())
                .map(|option| option.name.clone()),
            options,
        };
        Some(Done::new(result, cautions, cited))
    }
}
