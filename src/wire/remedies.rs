//! Single changes that make a failing post or fence pass, on the wire.

use super::plan::{OfPlan, PlanSpec};
use super::reading::{Path, Problems};
use super::record::{names, records};
use super::request::{Asked, Calculation, Done};
use super::value::{Quantity, Size};
use crate::backwards::VariedWind;
use crate::check::Governing;
use crate::combination::CombinesTo;
use crate::limit_state::AllowableStress;
use crate::plan::FencePlan;
use crate::remedies::{Change, Remedies, RemedyKind, RemedyOptions, of_plan, of_post};
use crate::units::{Measure, UnitSystem};
use crate::utilization::Utilization;

names! {
    RemedyKind {
        "depth" => RemedyKind::Depth,
        "hole_width" => RemedyKind::HoleWidth,
        "larger_post" => RemedyKind::LargerPost,
        "concrete" => RemedyKind::Concrete,
        "isolated_pole" => RemedyKind::IsolatedPole,
        "paving" => RemedyKind::Paving,
        "spacing" => RemedyKind::Spacing,
        "solidity" => RemedyKind::Solidity,
        "height" => RemedyKind::Height,
    }
}

records! {
    /// Single changes that make every failing post of a fence, or one post, pass.
    RemediesRequest {
        /// The fence, as for `fence_schedule`.
        plan: PlanSpec,
        /// One post by its number; the whole fence if left out.
        post: Option<usize>,
        /// Step of depth; 1 in, or 25 mm with SI units, if left out.
        depth_step: Option<Size>,
        /// Step of spacing and of height; 1 in, or 25 mm with SI units, if left out.
        fence_step: Option<Size>,
        /// Greatest depth tried, 1 to 40 ft; 12 ft if left out.
        greatest_depth: Option<Size>,
        /// Kinds of change to try; every kind if left out.
        kinds: Option<Vec<RemedyKind>>,
    }
    /// A single change with which every check passes; the least of its kind.
    RemedyResult {
        /// The kind of change.
        kind: RemedyKind,
        /// The change in words.
        change: String,
        /// Depth, width, spacing, solidity or height of the change, if it has one.
        value: Option<Quantity>,
        /// Outside of the larger post: diameter or side.
        post_size: Option<Size>,
        /// The post with the greatest utilization after the change.
        post: usize,
        /// The check that governs there.
        governing: Governing,
        /// Its utilization after the change.
        utilization: Utilization,
        /// The condition on which the change may be used.
        condition: Option<String>,
    }
    /// A kind of change that does not help.
    NotRemediedResult {
        /// The kind of change.
        kind: RemedyKind,
        /// What still fails at the greatest change, and the range tried.
        reason: String,
    }
    /// Single changes that pass, and why the others do not.
    RemediesResult {
        /// The numbers of the posts that fail; none where nothing fails.
        failing: Vec<usize>,
        /// The changes that pass; none where nothing tried passes.
        remedies: Vec<RemedyResult>,
        /// The kinds of change that do not help.
        others: Vec<NotRemediedResult>,
        /// How many values were tried.
        trials: usize,
    }
}

impl RemediesResult {
    fn of(remedies: Remedies, system: UnitSystem) -> Self {
        let size = |length| Quantity::of(length).shown_as(Measure::SectionLength);
        let found = remedies.found.iter().map(|remedy| RemedyResult {
            kind: remedy.kind(),
            change: remedy.change.text(system),
            value: match remedy.change {
                Change::Depth(length) | Change::HoleWidth(length) => Some(size(length)),
                Change::Concrete(hole) => Some(size(hole.size())),
                Change::Spacing(length) | Change::Height(length) => Some(Quantity::of(length)),
                Change::Solidity(solidity) => Some(Quantity::of(solidity)),
                Change::LargerPost(_) | Change::IsolatedPole | Change::Paving => None,
            },
            post_size: match remedy.change {
                Change::LargerPost(post) => Some(Size(post.section().face_width())),
                _ => None,
            },
            post: remedy.post,
            governing: remedy.governing,
            utilization: remedy.utilization,
            condition: remedy
                .condition
                .map(|condition| condition.text().to_owned()),
        });
        let others = remedies.others.iter().map(|other| NotRemediedResult {
            kind: other.kind,
            reason: other.why.text(other.kind, system),
        });
        Self {
            remedies: found.collect(),
            others: others.collect(),
            trials: remedies.trials,
            failing: remedies.failing,
        }
    }
}

impl RemediesRequest {
    fn options(
        &self,
        system: UnitSystem,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<RemedyOptions> {
        let mut options = RemedyOptions::of(system);
        if let Some(Size(step)) = self.depth_step {
            options = problems.take(&at.field("depth_step"), options.with_depth_step(step))?;
        }
        if let Some(Size(step)) = self.fence_step {
            options = problems.take(&at.field("fence_step"), options.with_fence_step(step))?;
        }
        if let Some(Size(depth)) = self.greatest_depth {
            let made = options.with_greatest_depth(depth);
            options = problems.take(&at.field("greatest_depth"), made)?;
        }
        if let Some(kinds) = &self.kinds {
            options = options.only(kinds);
        }
        Some(options)
    }
}

/// The question: what passes instead.
struct Instead(Option<usize>, RemedyOptions, Asked);

impl OfPlan for Instead {
    type Answer = Done<RemediesResult>;

    fn most_posts(&self) -> usize {
        300
    }

    fn of<C: VariedWind>(
        self,
        plan: &FencePlan<C>,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<RemediesResult>>
    where
        C::Level: CombinesTo<AllowableStress>,
    {
        let Self(post, options, asked) = self;
        let made = match post {
            Some(number) => of_post(plan, number, &options),
            None => of_plan(plan, &options),
        };
        let top = Path::TOP;
        let input = top.field("input");
        let place = if post.is_some() { &input } else { at };
        let remedies = problems.take_by(place, &[("post number", "post")], made)?;
        let schedule = problems.take(at, plan.schedule())?;
        // The cautions of the plan as it is and with each remedy.
        let mut cautions = schedule.cautions();
        for remedy in &remedies.found {
            if let Ok(changed) = remedies.applied(plan, remedy)
                && let Ok(schedule) = changed.schedule()
            {
                cautions = cautions.and(schedule.cautions());
            }
        }
        let worst = schedule
            .posts()
            .filter(|own| post.is_none_or(|number| number == own.post.number))
            .max_by_key(crate::plan::ScheduledPost::utilization);
        let sheet = worst.map(|worst| schedule.worksheet(&worst, asked.system));
        let widths = remedies.of_kind(RemedyKind::HoleWidth);
        let augers = widths.map(|_| RemedyOptions::hole_sizes_source());
        let result = RemediesResult::of(remedies, asked.system);
        let done = Done::new(result, cautions, augers);
        Some(sheet.iter().fold(done, Done::citing))
    }
}

impl Calculation for RemediesRequest {
    const CALCULATE: &'static str = "remedies";
    type Result = RemediesResult;

    fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
        self.plan.validate(&at.field("plan"), problems);
        self.options(UnitSystem::Us, at, problems);
        if self.kinds.as_ref().is_some_and(Vec::is_empty) {
            problems.add(
                &at.field("kinds"),
                None,
                "give at least one kind, or none of this field",
            );
        }
    }

    fn run(
        &self,
        asked: Asked,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<RemediesResult>> {
        let options = self.options(asked.system, at, problems)?;
        let question = Instead(self.post, options, asked);
        self.plan.ask(question, &at.field("plan"), problems)
    }
}
