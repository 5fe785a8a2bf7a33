//! The cheapest of several plans that hold.

use crate::caution::Cautions;
use crate::check::Governing;
use crate::combination::CombinesTo;
use crate::error::Error;
use crate::limit_state::AllowableStress;
use crate::plan::{FencePlan, Schedule};
use crate::utilization::Utilization;
use crate::wind::WindCode;

/// What became of an option.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum OptionVerdict {
    /// Every check made of every post passes, at this cost.
    Passes(f64),
    /// A post fails: the worst, what governs there, and how far.
    Fails {
        /// Number of the post.
        post: usize,
        /// The check.
        governing: Governing,
        /// Its utilization.
        utilization: Utilization,
    },
    /// It passes, but its cost is not a finite number.
    NoCost,
    /// It cannot be checked, or a check that was asked for beside those of every post
    /// could not be made and none that was made fails.
    Refused(Error),
}

impl core::fmt::Display for OptionVerdict {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::Passes(cost) => write!(f, "passes at {cost}"),
            Self::Fails {
                post,
                governing,
                utilization,
            } => write!(f, "post {post} fails in {governing}, used at {utilization}"),
            Self::NoCost => f.write_str("its cost is not a number"),
            Self::Refused(error) => error.fmt(f),
        }
    }
}

/// One option, as ranked.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Ranked {
    /// Its place among the options given, from 0.
    pub index: usize,
    /// What became of it.
    pub verdict: OptionVerdict,
    /// The cautions of all its posts.
    pub cautions: Cautions,
}

/// Options by cost: those that pass from the cheapest, options of one cost in
/// the order given, then those that are ranked out, in the order given.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Ranking {
    /// Every option.
    pub options: Vec<Ranked>,
}

impl Ranking {
    /// The cheapest that passes, with its cost.
    pub fn cheapest(&self) -> Option<(usize, f64)> {
        self.options.first().and_then(|first| match first.verdict {
            OptionVerdict::Passes(cost) => Some((first.index, cost)),
            _ => None,
        })
    }
}

/// Ranks plans by a cost of your own, in whatever currency: a number made from
/// the schedule. It is asked for of plans that pass only.
///
/// A post without a planned depth counts as set to the depth it needs. A plan of which
/// a check that was asked for cannot be made is refused: beside one that was checked it
/// would be cheap for no reason.
///
/// ```
/// use groundline::{backwards::cheapest, check::PostDesign, fence::*, foundation::Hole};
/// use groundline::{ground::*, plan::FencePlan, post::*, section::Tube, units::*, wind::*};
/// # let fence = Fence::new(FenceRun::new(Panel::new(ft(6.0))?, ft(96.0), ft(8.0))?);
/// # let v = BasicWindSpeed::strength_level(mph(115.0))?;
/// # let site = AsceSite::new(Edition::Asce7_22, v, Exposure::B);
/// # let pipe = PipePost::new(Tube::new(inch(2.875), inch(0.2))?, SteelStrength::new(ksi(50.0))?)?;
/// # let ground = Ground::presumptive(SoilClass::Class4);
/// let mut plans = Vec::new();
/// for hole in [10.0, 12.0, 16.0] {
///     let design = PostDesign::in_concrete(ground, pipe.into(), Hole::round(inch(hole))?)?;
///     plans.push(FencePlan::new(site, fence.clone(), design));
/// }
/// // 9 a cubic foot of concrete, 14 a foot of digging.
/// let ranking = cheapest(&plans, |schedule| {
///     schedule.posts().map(|post| {
///         let depth = post.check.required.depth();
///         let concrete = post.check.design().foundation().concrete_volume(depth);
///         concrete.to(cu_ft) * 9.0 + depth.to(ft) * 14.0
///     }).sum()
/// });
/// for option in &ranking.options {
///     println!("option {}: {}", option.index, option.verdict);
/// }
/// # Ok::<(), groundline::Error>(())
/// ```
pub fn cheapest<C: WindCode>(
    plans: &[FencePlan<C>],
    cost: impl Fn(&Schedule<'_, C>) -> f64,
) -> Ranking
where
    C::Level: CombinesTo<AllowableStress>,
{
    let mut options: Vec<_> = plans
        .iter()
        .enumerate()
        .map(|(index, plan)| {
            let (verdict, cautions) = match plan.schedule() {
                Ok(schedule) => (judge(&schedule, &cost), schedule.cautions()),
                Err(error) => (OptionVerdict::Refused(error), Cautions::default()),
            };
            Ranked {
                index,
                verdict,
                cautions,
            }
        })
        .collect();
    // Stable: ties stay in the order given.
    let rank = |option: &Ranked| match option.verdict {
        OptionVerdict::Passes(cost) => (false, cost),
        _ => (true, 0.0),
    };
    options.sort_by(|a, b| {
        let ((fails, cost), (other_fails, other_cost)) = (rank(a), rank(b));
        fails.cmp(&other_fails).then(cost.total_cmp(&other_cost))
    });
    Ranking { options }
}

fn judge<C: WindCode>(
    schedule: &Schedule<'_, C>,
    cost: impl Fn(&Schedule<'_, C>) -> f64,
) -> OptionVerdict
where
    C::Level: CombinesTo<AllowableStress>,
{
    let worst = schedule.posts().fold(None, |worst, post| match worst {
        Some((_, _, most)) if post.utilization() <= most => worst,
        _ => Some((post.post.number, post.governing(), post.utilization())),
    });
    match worst {
        Some((post, governing, utilization)) if !utilization.passes() => OptionVerdict::Fails {
            post,
            governing,
            utilization,
        },
        _ => {
            let unchecked = schedule
                .posts()
                .find_map(|post| post.site.unchecked().next().copied());
            if let Some(error) = unchecked {
                return OptionVerdict::Refused(error);
            }
            let cost = cost(schedule);
            if cost.is_finite() {
                OptionVerdict::Passes(cost)
            } else {
                OptionVerdict::NoCost
            }
        }
    }
}
