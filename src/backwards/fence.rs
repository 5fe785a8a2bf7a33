//! The greatest spacing, height and solidity for planned holes.

use super::search::Search;
use super::solution::{Question, Solution, solve, worst};
use crate::combination::CombinesTo;
use crate::error::Error;
use crate::limit_state::AllowableStress;
use crate::plan::FencePlan;
use crate::units::{Length, Ratio};
use crate::wind::{Infill, WindCode};

/// The greatest spacing of posts at which every check of every post passes, in
/// all runs alike.
///
/// Bays are equal and no longer than the spacing, so many spacings make the
/// same fence; the plan of the answer shows the bays it comes to. Gates stay
/// where they are.
///
/// # Errors
/// A plan with designs, or site checks, of single posts: their numbers change with
/// the spacing. A post without a planned depth; a check asked for beside that
/// cannot be made; else as [`FencePlan::schedule`] of the plan itself, or where that
/// refuses every value tried.
///
/// ```
/// use groundline::{backwards::*, check::PostDesign, fence::*, foundation::Hole, ground::*};
/// use groundline::{limit_state::AllowableStress, plan::FencePlan, post::*, section::Tube};
/// use groundline::{units::*, wind::*};
/// # let fence = Fence::new(FenceRun::new(Panel::new(ft(6.0))?, ft(96.0), ft(8.0))?);
/// # let pipe = PipePost::new(Tube::new(inch(2.875), inch(0.16))?, SteelStrength::new(ksi(50.0))?)?;
/// # let ground = Ground::presumptive(SoilClass::Class4);
/// # let design = PostDesign::in_concrete(ground, pipe.into(), Hole::round(inch(12.0))?)?;
/// let wind = DirectPressure::new(psf(10.0), AllowableStress::Basic)?;
/// let plan = FencePlan::new(wind, fence, design).with_planned_depth(inch(40.0));
/// let solution = greatest_spacing(&plan, Search::spacings())?;
/// let spacing = solution.value().unwrap();
/// let bays = |spacing| Ok::<_, groundline::Error>(
///     plan.fence().changing_runs(|run| run.with_spacing(spacing))?.posts().len() - 1);
/// // The next inch would make fewer, longer bays, and that fence fails.
/// assert!(bays(spacing + inch(1.0))? < bays(spacing)?);
/// # Ok::<(), groundline::Error>(())
/// ```
pub fn greatest_spacing<C: WindCode>(
    plan: &FencePlan<C>,
    search: Search<Length>,
) -> Result<Solution<Length, C>, Error>
where
    C::Level: CombinesTo<AllowableStress>,
{
    if plan.has_single_designs() {
        return Err(Error::NotApplicable {
            field: "post spacing",
            reason: "posts of a design of their own go by number, and numbers change with the \
                     spacing; give designs by kind",
        });
    }
    worst(plan, None)?;
    solve(Question::Spacing, search, None, |spacing| {
        let fence = plan
            .fence()
            .changing_runs(|run| run.with_spacing(spacing))?;
        Ok(plan.clone().with_fence(fence))
    })
}

/// The greatest height of the top above ground at which every check of every
/// post passes, all runs of that height. The gap below, the topping, the weight
/// per area and the weight of gate leaves stay as they are.
///
/// # Errors
/// As [`greatest_wind`](super::greatest_wind).
pub fn greatest_height<C: WindCode>(
    plan: &FencePlan<C>,
    search: Search<Length>,
) -> Result<Solution<Length, C>, Error>
where
    C::Level: CombinesTo<AllowableStress>,
{
    worst(plan, None)?;
    solve(Question::Height, search, None, |height| {
        let fence = plan.fence().changing_runs(|run| {
            let panel = run.panel().with_top(height)?;
            Ok(run.with_panel(panel))
        })?;
        Ok(plan.clone().with_fence(fence))
    })
}

/// The greatest solidity of the infill at which every check of every post
/// passes, in all runs alike; members stay flat, or as round, as they are, and
/// so does a topping. Weights stay.
///
/// The figures for walls and for open fences do not meet, and the latter step
/// by bands: more open may carry more.
///
/// # Errors
/// As [`greatest_wind`](super::greatest_wind).
pub fn greatest_solidity<C: WindCode>(
    plan: &FencePlan<C>,
    search: Search<Ratio>,
) -> Result<Solution<Ratio, C>, Error>
where
    C::Level: CombinesTo<AllowableStress>,
{
    worst(plan, None)?;
    solve(Question::Solidity, search, None, |solidity| {
        let fence = plan.fence().changing_runs(|run| {
            let infill = Infill::given(solidity.value, run.panel().infill().member())?;
            let panel = run.panel().with_infill(infill);
            Ok(run.with_panel(panel))
        })?;
        Ok(plan.clone().with_fence(fence))
    })
}
