//! An answer, with the forward check that proves it.

use super::search::{Harsh, Search, Stretch, Trial, scan};
use crate::caution::Cautions;
use crate::check::{Governing, PostCheck};
use crate::combination::CombinesTo;
use crate::error::Error;
use crate::limit_state::AllowableStress;
use crate::plan::{FencePlan, ScheduledPost};
use crate::units::{Length, Measurable, Measure, Pressure};
use crate::utilization::Utilization;
use crate::wind::{AsceSite, WindCode};

/// What was asked.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Question {
    /// The greatest basic wind speed.
    Speed,
    /// The greatest wind pressure.
    WindPressure,
    /// The greatest spacing of posts.
    Spacing,
    /// The greatest height of the panel.
    Height,
    /// The greatest solidity of the infill.
    Solidity,
    /// The smallest diameter, or side, of a hole dug to this depth.
    Hole(Length),
}

impl Question {
    /// The question in words.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Speed => "greatest basic wind speed",
            Self::WindPressure => "greatest wind pressure",
            Self::Spacing => "greatest spacing of posts",
            Self::Height => "greatest height of the panel",
            Self::Solidity => "greatest solidity of the infill",
            Self::Hole(_) => "smallest hole for a limited depth",
        }
    }

    /// What its values are shown as.
    pub const fn measure(self) -> Measure {
        match self {
            Self::Speed => Measure::Speed,
            Self::WindPressure => Measure::WindPressure,
            Self::Spacing | Self::Height => Measure::Length,
            Self::Solidity => Measure::Number,
            Self::Hole(_) => Measure::SectionLength,
        }
    }

    /// Must all that is milder pass too? A post that is good for a wind has
    /// stood milder ones.
    const fn includes_milder(self) -> bool {
        matches!(self, Self::Speed | Self::WindPressure)
    }

    pub(super) const fn harsh(self) -> Harsh {
        match self {
            Self::Hole(_) => Harsh::Smaller,
            _ => Harsh::Greater,
        }
    }
}

/// The answer.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Answer<Q> {
    /// This value passes and the next step does not.
    Found(Q),
    /// Every value tried passes, up to this one, the last.
    PassesThroughout(Q),
    /// This value, the mildest tried that can be checked, fails, and no other is an
    /// answer: none passes, or it is asked of wind, and a post that fails in a mild
    /// wind is not good for a harder one.
    FailsAtMildest(Q),
    /// The same, and at that value a post itself is too weak in bending or shear,
    /// whatever the depth of its hole ([`PostCheck::post_is_too_weak`]). Of a speed, a
    /// spacing or a height a wider hole may still do: it wants less depth, and the
    /// moment in the post grows with depth.
    PostTooWeak(Q),
    /// Of the wind: the minimum pressure of the code fails at every value tried. Without
    /// it this value passes and the next step does not, or this value is the last tried.
    /// [`Solution::minimum`] holds both checks.
    MinimumGoverns(Q),
}

impl<Q: Copy> Answer<Q> {
    /// Returns the value that passes every check, if there is one: none where the
    /// minimum pressure of the code fails.
    pub const fn value(&self) -> Option<Q> {
        match self {
            Self::Found(value) | Self::PassesThroughout(value) => Some(*value),
            Self::FailsAtMildest(_) | Self::PostTooWeak(_) | Self::MinimumGoverns(_) => None,
        }
    }

    /// Returns the value that passes, the minimum pressure of the code left out where it
    /// is what fails.
    pub const fn value_without_minimum(&self) -> Option<Q> {
        match self {
            Self::MinimumGoverns(value) => Some(*value),
            other => other.value(),
        }
    }
}

/// The step after the answer.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Next<Q, C: WindCode = AsceSite> {
    /// The value.
    pub value: Q,
    /// The post worst there, or why there is no such fence.
    pub worst: Result<ScheduledPost<C::Level>, Error>,
}

/// The minimum wind pressure of a code where it governs, and the wind that the posts
/// hold without it.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct MinimumGoverns<Q, C: WindCode = AsceSite> {
    /// The minimum pressure, at the limit state of the wind code.
    pub pressure: Pressure,
    /// The greatest value that passes without the minimum.
    pub value: Q,
    /// The post that governs at that value without the minimum.
    pub worst: ScheduledPost<C::Level>,
    /// The plan at that value without the minimum.
    pub plan: FencePlan<C>,
}

/// The answer to a question asked backwards.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Solution<Q, C: WindCode = AsceSite> {
    /// What was asked.
    pub question: Question,
    /// Of which post; none for the whole fence.
    pub post: Option<usize>,
    /// What values were tried.
    pub search: Search<Q>,
    /// The answer.
    pub answer: Answer<Q>,
    /// The step after the answer, which fails or cannot be built; none where
    /// there is no answer or the range ends at it.
    pub next: Option<Next<Q, C>>,
    /// The mildest value that fails although the answer, harsher, passes; never
    /// for wind.
    pub milder_fails: Option<Q>,
    /// What passes again beyond the answer, among the values tried. Never
    /// counted on.
    pub passes_again: Vec<Stretch<Q>>,
    /// Where the minimum pressure of the code fails at every value
    /// ([`Answer::MinimumGoverns`]): the answer without it. The forward check of this
    /// solution is with the minimum, at the mildest value.
    pub minimum: Option<MinimumGoverns<Q, C>>,
    /// How many forward checks of the fence, or of the one post, were made.
    pub evaluations: u32,
    pub(super) at: Q,
    pub(super) plan: FencePlan<C>,
    pub(super) worst: ScheduledPost<C::Level>,
    pub(super) cautions: Cautions,
}

impl<Q: Measurable, C: WindCode> Solution<Q, C> {
    /// The value that passes, if there is one.
    pub fn value(&self) -> Option<Q> {
        self.answer.value()
    }

    /// The value of the forward check: the answer, or the mildest value that
    /// fails.
    pub const fn checked_at(&self) -> Q {
        self.at
    }

    /// The plan at that value.
    pub const fn plan(&self) -> &FencePlan<C> {
        &self.plan
    }

    /// The post that governs there.
    pub const fn governing_post(&self) -> &ScheduledPost<C::Level> {
        &self.worst
    }

    /// Its check.
    pub const fn check(&self) -> &PostCheck<C::Level> {
        &self.worst.check
    }

    /// Which check governs there.
    pub fn governing(&self) -> Governing {
        self.worst.governing()
    }

    /// Its utilization there.
    pub fn utilization(&self) -> Utilization {
        self.worst.utilization()
    }

    /// The cautions of the whole fence, or of the one post, there.
    pub const fn cautions(&self) -> Cautions {
        self.cautions
    }
}

/// The worst post of a plan, or one post, by its number, with the cautions. Every
/// one needs a planned depth, and what more was asked of it must have been made.
pub(super) fn worst<C: WindCode>(
    plan: &FencePlan<C>,
    which: Option<usize>,
) -> Result<(ScheduledPost<C::Level>, Cautions), Error>
where
    C::Level: CombinesTo<AllowableStress>,
{
    let schedule = plan.unchecked_schedule()?;
    let mut worst: Option<ScheduledPost<C::Level>> = None;
    let mut cautions = Cautions::default();
    let mut unchecked = None;
    for post in plan.fence().posts() {
        if which.is_some_and(|number| number != post.number) {
            continue;
        }
        let checked = schedule.check(post)?;
        if checked.check.planned.is_none() {
            return Err(Error::NotApplicable {
                field: "planned depth",
                reason: "the question is of holes that are dug or planned; give every post a depth",
            });
        }
        cautions = cautions.and(checked.cautions());
        unchecked = unchecked.or(checked.site.unchecked().next().copied());
        if worst.is_none_or(|worst| checked.utilization() > worst.utilization()) {
            worst = Some(checked);
        }
    }
    let worst = worst.ok_or(Error::NotApplicable {
        field: "post number",
        reason: "the fence has no such post",
    })?;
    match unchecked {
        // What was asked and could not be checked leaves the question open.
        Some(error) => Err(error),
        None => Ok((worst, cautions)),
    }
}

/// Is any post, or the one asked of, too weak whatever the depth of its hole?
fn a_post_is_too_weak<C: WindCode>(plan: &FencePlan<C>, which: Option<usize>) -> bool
where
    C::Level: CombinesTo<AllowableStress>,
{
    plan.unchecked_schedule().is_ok_and(|schedule| {
        schedule.posts().any(|post| {
            which.is_none_or(|number| number == post.post.number) && post.check.post_is_too_weak()
        })
    })
}

/// Asks a question of plans made from values.
pub(super) fn solve<Q: Measurable, C: WindCode>(
    question: Question,
    search: Search<Q>,
    which: Option<usize>,
    plan_at: impl Fn(Q) -> Result<FencePlan<C>, Error>,
) -> Result<Solution<Q, C>, Error>
where
    C::Level: CombinesTo<AllowableStress>,
{
    let value = |steps: u32| search.value(steps, question.harsh());
    let check = |at: Q| -> Result<_, Error> {
        let plan = plan_at(at)?;
        let (worst, cautions) = worst(&plan, which)?;
        Ok((plan, worst, cautions))
    };
    let mut found = scan(search.steps(), search.trials(), |steps| {
        match check(value(steps)) {
            Ok((_, worst, _)) if worst.passes() => Trial::Passes,
            Ok(_) => Trial::Fails,
            Err(error) => Trial::Refused(error),
        }
    });
    if let (true, Some(from), Some(to), Some(_)) = (
        question.includes_milder(),
        found.starts,
        found.passes,
        found.fails,
    ) {
        found.again.insert(0, (from, to));
        found.passes = None;
    }
    // Nothing passes and nothing fails: every value was refused.
    let steps =
        found
            .passes
            .or(found.fails)
            .ok_or(found.refused.unwrap_or(Error::NotApplicable {
                field: "range",
                reason: "no value of it could be tried",
            }))?;
    let at = value(steps);
    let (plan, worst, cautions) = check(at)?;
    let mut evaluations = found.evaluations + 1;
    let next = found.passes.and(found.next).map(|steps| {
        evaluations += 1;
        Next {
            value: value(steps),
            worst: check(value(steps)).map(|(_, worst, _)| worst),
        }
    });
    let answer = match (found.passes, found.next) {
        (Some(_), Some(_)) => Answer::Found(at),
        (Some(_), None) => Answer::PassesThroughout(at),
        (None, _) if a_post_is_too_weak(&plan, which) => Answer::PostTooWeak(at),
        (None, _) => Answer::FailsAtMildest(at),
    };
    Ok(Solution {
        question,
        post: which,
        search,
        answer,
        next,
        milder_fails: found.passes.and(found.fails).map(value),
        passes_again: found
            .again
            .iter()
            .map(|(from, to)| Stretch {
                from: value(*from),
                to: value(*to),
            })
            .collect(),
        minimum: None,
        evaluations,
        at,
        plan,
        worst,
        cautions,
    })
}
