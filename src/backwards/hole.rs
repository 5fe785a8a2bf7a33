//! The smallest hole for a depth that cannot be passed.

use super::search::Search;
use super::solution::{Question, Solution, solve};
use crate::combination::CombinesTo;
use crate::error::{Error, size_within};
use crate::foundation::Hole;
use crate::limit_state::AllowableStress;
use crate::plan::FencePlan;
use crate::units::{Length, ft};
use crate::wind::WindCode;

/// The smallest hole with which every check of every post passes where no hole
/// goes deeper than a limit: a ledge, water, utilities.
///
/// Every hole is dug to the limit, whatever depth was planned, and has the same
/// diameter; a square hole stays square, its side is asked for. The moment in
/// the post grows with the depth it is set to, so a post that fails in bending
/// at the limit may pass in a shallower, wider hole: ask with a lesser limit.
///
/// # Errors
/// Limit outside 0.01 to 300 ft; posts without a footing of concrete; else as
/// [`FencePlan::schedule`], or a check asked for beside that cannot be made, where
/// every value tried is refused.
///
/// ```
/// use groundline::{backwards::*, check::PostDesign, fence::*, foundation::Hole, ground::*};
/// use groundline::{plan::FencePlan, post::*, section::Tube, units::*, wind::*};
/// # let fence = Fence::new(FenceRun::new(Panel::new(ft(6.0))?, ft(96.0), ft(6.0))?);
/// # let v = BasicWindSpeed::strength_level(mph(115.0))?;
/// # let site = AsceSite::new(Edition::Asce7_22, v, Exposure::B);
/// # let pipe = PipePost::new(Tube::new(inch(2.875), inch(0.2))?, SteelStrength::new(ksi(50.0))?)?;
/// # let ground = Ground::presumptive(SoilClass::Class4);
/// # let design = PostDesign::in_concrete(ground, pipe.into(), Hole::round(inch(12.0))?)?;
/// let plan = FencePlan::new(site, fence, design);
/// // Rock at 3 ft.
/// let solution = smallest_hole(&plan, ft(3.0), Search::holes())?;
/// println!("{:?}", solution.answer);
/// # Ok::<(), groundline::Error>(())
/// ```
pub fn smallest_hole<C: WindCode>(
    plan: &FencePlan<C>,
    limit: Length,
    search: Search<Length>,
) -> Result<Solution<Length, C>, Error>
where
    C::Level: CombinesTo<AllowableStress>,
{
    let limit = size_within("depth limit", limit, ft(0.01), ft(300.0))?;
    solve(Question::Hole(limit), search, None, |size| {
        plan.clone().changing_designs(|design, _| {
            let hole = match design.foundation().hole() {
                Some(hole) => hole.resized(size)?,
                None => Hole::round(size)?,
            };
            Ok((design.in_hole(hole)?, Some(limit)))
        })
    })
}
