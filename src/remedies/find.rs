//! The search: every kind of change, from the least upwards, by forward checks.

use super::change::Downwards;
use super::larger::larger;
use super::{Change, NotRemedied, Remedies, Remedy, RemedyKind, RemedyOptions, TriedRange, WhyNot};
use crate::actions::LoadCases;
use crate::backwards::search::{Trial, first};
use crate::check::{Governing, PostDesign};
use crate::combination::CombinesTo;
use crate::error::Error;
use crate::fence::FencePost;
use crate::foundation::{Hole, Restraint};
use crate::limit_state::{AllowableStress, LimitState};
use crate::plan::{FencePlan, Schedule, ScheduledPost, independent_of_depth, rounded_up};
use crate::units::{Length, Measurable, Ratio, number};
use crate::utilization::Utilization;
use crate::wind::WindCode;

/// Posts checked for one kind of change of the fence, about: a long fence has fewer
/// values tried.
const MOST_CHECKS: usize = 40_000;

/// Finds the single changes that make every failing post of a plan pass.
///
/// # Errors
/// As [`FencePlan::schedule`].
pub fn of_plan<C: WindCode>(plan: &FencePlan<C>, options: &RemedyOptions) -> Result<Remedies, Error>
where
    C::Level: CombinesTo<AllowableStress>,
{
    find(plan, None, options)
}

/// Finds the single changes that make one post pass, by its number. Solidity and
/// height are those of the whole fence; the spacing is not varied, since the numbers of
/// posts change with it ([`of_plan`] varies it).
///
/// # Errors
/// No post of that number; as [`FencePlan::schedule`].
pub fn of_post<C: WindCode>(
    plan: &FencePlan<C>,
    number: usize,
    options: &RemedyOptions,
) -> Result<Remedies, Error>
where
    C::Level: CombinesTo<AllowableStress>,
{
    if number == 0 || number > plan.fence().posts().len() {
        return Err(Error::NotApplicable {
            field: "post number",
            reason: "the fence has no such post",
        });
    }
    find(plan, Some(number), options)
}

fn find<C: WindCode>(
    plan: &FencePlan<C>,
    which: Option<usize>,
    options: &RemedyOptions,
) -> Result<Remedies, Error>
where
    C::Level: CombinesTo<AllowableStress>,
{
    let schedule = plan.schedule()?;
    let mut failing = Vec::new();
    let mut alike: Vec<Failing<C::Level>> = Vec::new();
    for post in plan.fence().posts() {
        if which.is_some_and(|number| number != post.number) {
            continue;
        }
        let checked = schedule.check(post)?;
        if checked.passes_every_check() {
            continue;
        }
        failing.push(post.number);
        let own = Failing::new(&schedule, post, &checked);
        if !alike.iter().any(|other| other.is_like(&own, plan)) {
            alike.push(own);
        }
    }
    // The worst first: a trial ends at the first post that fails.
    alike.sort_by_key(|post| core::cmp::Reverse(post.utilization));
    let mut finder = Finder {
        plan,
        schedule: &schedule,
        which,
        options,
        failing,
        alike,
        trials: 0,
    };
    let mut remedies = Remedies {
        post: which,
        failing: Vec::new(),
        found: Vec::new(),
        others: Vec::new(),
        trials: 0,
    };
    if !finder.failing.is_empty() {
        for kind in RemedyKind::ALL
            .into_iter()
            .filter(|kind| options.tries(*kind))
        {
            match finder.kind(kind) {
                Ok(remedy) => remedies.found.push(remedy),
                Err(why) => remedies.others.push(NotRemedied { kind, why }),
            }
        }
    }
    remedies.trials = finder.trials;
    remedies.failing = finder.failing;
    Ok(remedies)
}

/// A post that fails; of several alike in all that is checked, the first.
struct Failing<L: LimitState> {
    post: FencePost,
    design: PostDesign,
    planned: Option<Length>,
    cases: LoadCases<L>,
    height: Length,
    required: Length,
    utilization: Utilization,
}

impl<L: CombinesTo<AllowableStress>> Failing<L> {
    fn new<C: WindCode<Level = L>>(
        schedule: &Schedule<'_, C>,
        post: &FencePost,
        checked: &ScheduledPost<L>,
    ) -> Self {
        Self {
            post: *post,
            design: *checked.check.design(),
            planned: checked.check.planned.map(|planned| planned.depth()),
            cases: checked.cases,
            height: schedule.height(post),
            required: checked.check.required.depth(),
            utilization: checked.utilization(),
        }
    }

    /// Is all that is checked the same?
    fn is_like<C: WindCode>(&self, other: &Self, plan: &FencePlan<C>) -> bool {
        self.utilization == other.utilization
            && self.planned == other.planned
            && self.height == other.height
            && self.cases == other.cases
            && self.design == other.design
            && plan.site_checks(self.post.number) == plan.site_checks(other.post.number)
    }
}

/// The worst post of a trial.
type Worst = (usize, Governing, Utilization);

/// How a trial came out.
enum Tried {
    Passes(Worst),
    Fails(Worst, Option<(Governing, Utilization)>),
    Refused(Error),
}

struct Finder<'a, C: WindCode> {
    plan: &'a FencePlan<C>,
    schedule: &'a Schedule<'a, C>,
    which: Option<usize>,
    options: &'a RemedyOptions,
    failing: Vec<usize>,
    alike: Vec<Failing<C::Level>>,
    trials: usize,
}

impl<C: WindCode> Finder<'_, C>
where
    C::Level: CombinesTo<AllowableStress>,
{
    fn kind(&mut self, kind: RemedyKind) -> Result<Remedy, WhyNot> {
        match kind {
            RemedyKind::Depth => self.depth(),
            RemedyKind::HoleWidth => self.hole_width(),
            RemedyKind::LargerPost => self.larger_post(),
            RemedyKind::Concrete => self.concrete(),
            RemedyKind::IsolatedPole => {
                if self.every(|design| design.ground().is_isolated_pole()) {
                    return Err(WhyNot::NotApplicable("the bearing is doubled already"));
                }
                self.least(&[Change::IsolatedPole], TriedRange::Once)
            }
            RemedyKind::Paving => {
                if self.every(|design| design.foundation().restraint() != Restraint::None) {
                    return Err(WhyNot::NotApplicable("rigid paving is there already"));
                }
                self.least(&[Change::Paving], TriedRange::Once)
            }
            RemedyKind::Spacing => self.spacing(),
            RemedyKind::Solidity => self.solidity(),
            RemedyKind::Height => self.height(),
        }
    }

    fn every(&self, of: impl Fn(&PostDesign) -> bool) -> bool {
        self.alike.iter().all(|post| of(&post.design))
    }

    /// Depths from the required one, for every failing post alike.
    fn depth(&mut self) -> Result<Remedy, WhyNot> {
        let step = self.options.depth_step();
        let required = self.alike.iter().map(|post| post.required);
        let deepest = required.fold(Length::default(), |a, b| if b > a { b } else { a });
        let from = rounded_up(deepest, step);
        let most = self.options.greatest_depth();
        if from > most * (1.0 + 1e-9) {
            // The required depth alone is too deep; it is tried to tell what fails there.
            return self.least(&[Change::Depth(most)], TriedRange::Lengths(most, most));
        }
        if let Tried::Fails((post, ..), Some((governing, utilization))) =
            self.trial(&Change::Depth(from))
        {
            return Err(WhyNot::FailsAtAnyDepth {
                at: from,
                post,
                governing,
                utilization,
            });
        }
        let mut depths = vec![Change::Depth(from)];
        let mut at = from;
        while at + step <= most * (1.0 + 1e-9) {
            at += step;
            depths.push(Change::Depth(at));
        }
        self.least(&depths, TriedRange::Lengths(from, at))
    }

    fn hole_width(&mut self) -> Result<Remedy, WhyNot> {
        let holes = self
            .alike
            .iter()
            .map(|post| post.design.foundation().hole());
        let sizes = holes.map(|hole| hole.map(Hole::size));
        let Some(narrowest) = sizes.flatten().reduce(|a, b| if b < a { b } else { a }) else {
            return Err(WhyNot::NotApplicable(
                "no failing post has a footing of concrete; the width of its hole makes no \
                 difference",
            ));
        };
        let wider: Vec<_> = self
            .options
            .hole_sizes()
            .filter(|size| *size > narrowest * (1.0 + 1e-6))
            .collect();
        let (Some(first), Some(last)) = (wider.first(), wider.last()) else {
            return Err(WhyNot::NotApplicable("no stock auger is wider"));
        };
        let tried = TriedRange::Lengths(*first, *last);
        let changes: Vec<_> = wider.into_iter().map(Change::HoleWidth).collect();
        self.least(&changes, tried)
    }

    fn larger_post(&mut self) -> Result<Remedy, WhyNot> {
        let Some(post) = self.alike.first().map(|post| *post.design.post()) else {
            return Err(WhyNot::NotApplicable("no post fails"));
        };
        if !self.every(|design| *design.post() == post) {
            return Err(WhyNot::NotApplicable(
                "the failing posts are not all of one kind; see the remedies of each post",
            ));
        }
        let posts = larger(&post);
        if posts.is_empty() {
            return Err(WhyNot::NotApplicable(
                "the catalogue holds no stronger post of this kind and material",
            ));
        }
        let tried = TriedRange::Posts(posts.len());
        let changes: Vec<_> = posts.into_iter().map(Change::LargerPost).collect();
        self.least(&changes, tried)
    }

    fn concrete(&mut self) -> Result<Remedy, WhyNot> {
        if self.every(|design| design.foundation().hole().is_some()) {
            return Err(WhyNot::NotApplicable("concrete fills the holes already"));
        }
        let dug = self.alike.iter().find_map(|post| {
            let foundation = post.design.foundation();
            foundation
                .dug_hole()
                .filter(|_| foundation.hole().is_none())
        });
        if let Some(hole) = dug {
            return self.least(&[Change::Concrete(*hole)], TriedRange::Once);
        }
        let holes: Vec<_> = self
            .options
            .hole_sizes()
            .filter_map(|size| Hole::round(size).ok())
            .collect();
        let (Some(first), Some(last)) = (holes.first(), holes.last()) else {
            return Err(WhyNot::NotApplicable("no hole can be tried"));
        };
        let tried = TriedRange::Lengths(first.size(), last.size());
        let changes: Vec<_> = holes.into_iter().map(Change::Concrete).collect();
        self.least(&changes, tried)
    }

    fn spacing(&mut self) -> Result<Remedy, WhyNot> {
        if self.which.is_some() {
            return Err(WhyNot::NotApplicable(
                "the spacing changes the numbers of the posts; see the remedies of the plan",
            ));
        }
        if self.plan.has_single_designs() {
            return Err(WhyNot::NotApplicable(
                "posts of a design or checks of their own go by number, and numbers change with \
                 the spacing",
            ));
        }
        let runs = self.plan.fence().runs().iter();
        let present = most(runs.map(crate::fence::FenceRun::spacing));
        let least = self.options.least_spacing();
        let down = Downwards::new(present, least, self.options.fence_step());
        self.downwards(down, Change::Spacing, TriedRange::Lengths)
    }

    fn solidity(&mut self) -> Result<Remedy, WhyNot> {
        let runs = self.plan.fence().runs().iter();
        let present = runs.fold(0.0, |most: f64, run| most.max(run.panel().solidity()));
        let (least, step) = RemedyOptions::solidities();
        let down = Downwards::<Ratio>::new(number(present), least, step);
        self.downwards(down, Change::Solidity, TriedRange::Ratios)
    }

    fn height(&mut self) -> Result<Remedy, WhyNot> {
        let present = most(self.plan.fence().runs().iter().map(|run| run.panel().top()));
        let least = RemedyOptions::least_height(present);
        let down = Downwards::new(present, least, self.options.fence_step());
        self.downwards(down, Change::Height, TriedRange::Lengths)
    }

    fn downwards<Q: Measurable>(
        &mut self,
        down: Option<Downwards<Q>>,
        change: impl Fn(Q) -> Change,
        tried: impl Fn(Q, Q) -> TriedRange,
    ) -> Result<Remedy, WhyNot> {
        let Some(down) = down else {
            return Err(WhyNot::NotApplicable("no lesser value can be tried"));
        };
        let values: Vec<_> = (1..=down.count()).map(|i| change(down.value(i))).collect();
        self.least(&values, tried(down.value(1), down.value(down.count())))
    }

    /// The first of several changes that passes, checked once more on a plan of its own.
    fn least(&mut self, changes: &[Change], tried: TriedRange) -> Result<Remedy, WhyNot> {
        let count = u32::try_from(changes.len()).unwrap_or(u32::MAX);
        let of_fence = changes
            .first()
            .is_some_and(|change| change.kind().is_of_fence());
        let posts = self.plan.fence().posts().len().max(1);
        let trials = if of_fence {
            u32::try_from(MOST_CHECKS / posts).unwrap_or(count).max(12)
        } else {
            count
        };
        let at = |index: u32| changes.get(index.saturating_sub(1) as usize);
        let found = first(count, trials, |index| match at(index) {
            Some(change) => match self.trial(change) {
                Tried::Passes(_) => Trial::Passes,
                Tried::Fails(..) => Trial::Fails,
                Tried::Refused(error) => Trial::Refused(error),
            },
            None => Trial::Fails,
        });
        let last = found.map_or(changes.last(), at);
        let Some(change) = last else {
            return Err(WhyNot::NotApplicable("nothing can be tried"));
        };
        match self.on_plan(change) {
            Tried::Passes((post, governing, utilization)) => Ok(Remedy {
                change: *change,
                post,
                governing,
                utilization,
                condition: change.condition(),
            }),
            Tried::Fails((post, governing, utilization), _) => Err(WhyNot::StillFails {
                tried,
                post,
                governing,
                utilization,
            }),
            Tried::Refused(error) => Err(WhyNot::Refused(error)),
        }
    }

    /// Tries a change, as far as the first post that fails.
    fn trial(&mut self, change: &Change) -> Tried {
        self.trials += 1;
        if change.kind().is_of_fence() {
            return match change.applied(self.plan, &[]) {
                Ok(plan) => whole(&plan, true, |post| {
                    self.which.is_none_or(|number| number == post.number)
                }),
                Err(error) => Tried::Refused(error),
            };
        }
        let mut worst = None;
        for post in &self.alike {
            let checked =
                change
                    .of_design(&post.design, post.planned)
                    .and_then(|(design, planned)| {
                        self.schedule
                            .check_as(&post.post, &design, planned, post.cases)
                    });
            match checked {
                Ok(checked) => {
                    if let Some(failed) = judge(&checked, &mut worst) {
                        return failed;
                    }
                }
                Err(error) => return Tried::Refused(error),
            }
        }
        passes(worst)
    }

    /// Checks a change on a copy of the plan: every post it concerns.
    fn on_plan(&self, change: &Change) -> Tried {
        let of_fence = change.kind().is_of_fence();
        match change.applied(self.plan, &self.failing) {
            Ok(plan) => whole(&plan, false, |post| match self.which {
                Some(number) => post.number == number,
                None => of_fence || self.failing.binary_search(&post.number).is_ok(),
            }),
            Err(error) => Tried::Refused(error),
        }
    }
}

fn most(lengths: impl Iterator<Item = Length>) -> Length {
    lengths.fold(Length::default(), |a, b| if b > a { b } else { a })
}

/// Keeps the worst post; tells where one fails.
fn judge<L: CombinesTo<AllowableStress>>(
    checked: &ScheduledPost<L>,
    worst: &mut Option<Worst>,
) -> Option<Tried> {
    let own = (
        checked.post.number,
        checked.governing(),
        checked.utilization(),
    );
    if worst.is_none_or(|(.., most)| own.2 > most) {
        *worst = Some(own);
    }
    if !checked.passes() {
        return Some(Tried::Fails(own, independent_of_depth(checked)));
    }
    let unchecked = checked.site.unchecked().next();
    unchecked.map(|error| Tried::Refused(*error))
}

fn passes(worst: Option<Worst>) -> Tried {
    match worst {
        Some(worst) => Tried::Passes(worst),
        None => Tried::Refused(Error::NotApplicable {
            field: "post number",
            reason: "the fence has no such post",
        }),
    }
}

/// Checks the posts of a plan: the worst of all, or as far as the first that fails.
fn whole<C: WindCode>(
    plan: &FencePlan<C>,
    stop: bool,
    concerns: impl Fn(&FencePost) -> bool,
) -> Tried
where
    C::Level: CombinesTo<AllowableStress>,
{
    let schedule = match plan.unchecked_schedule() {
        Ok(schedule) => schedule,
        Err(error) => return Tried::Refused(error),
    };
    let (mut worst, mut failed, mut refused) = (None, false, None);
    for post in plan.fence().posts().iter().filter(|post| concerns(post)) {
        match schedule.check(post) {
            Ok(checked) => match judge(&checked, &mut worst) {
                None => {}
                Some(Tried::Refused(error)) => refused = Some(error),
                Some(outcome) if stop => return outcome,
                Some(_) => failed = true,
            },
            Err(error) => return Tried::Refused(error),
        }
    }
    match (worst, refused) {
        (Some(worst), _) if failed => Tried::Fails(worst, None),
        (_, Some(error)) => Tried::Refused(error),
        _ => passes(worst),
    }
}
