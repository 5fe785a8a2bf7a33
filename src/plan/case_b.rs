//! What the heavier reading of Case B would change on a fence.

use super::{FencePlan, Schedule, ScheduledPost};
use crate::combination::CombinesTo;
use crate::error::Error;
use crate::limit_state::AllowableStress;
use crate::units::{Length, Measurable, UnitSystem, show};
use crate::wind::WindCode;

/// The posts of a fence under two readings of Case B of ASCE 7: the one of the plan, and
/// spread along every run ([`EccentricCase::EveryRun`](crate::wind::EccentricCase)).
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct CaseBReading {
    /// Number of posts.
    pub posts: usize,
    /// Failing posts as planned.
    pub failing: usize,
    /// Failing posts with Case B on every run.
    pub failing_every_run: usize,
    /// Greatest depth that lateral bearing requires, as planned.
    pub deepest: Length,
    /// The same with Case B on every run.
    pub deepest_every_run: Length,
}

impl CaseBReading {
    /// Returns the comparison as one line of text.
    pub fn text(&self, system: UnitSystem) -> String {
        format!(
            "Case B spread along every run, the heavier reading: {} of {} posts fail (as planned \
             {}), the deepest requires {} (as planned {}).",
            self.failing_every_run,
            self.posts,
            self.failing,
            show(self.deepest_every_run, system),
            show(self.deepest, system),
        )
    }
}

impl<C: WindCode> Schedule<'_, C>
where
    C::Level: CombinesTo<AllowableStress>,
{
    /// Returns what Case B spread along every run would change; none for a code without
    /// such a case, and for a plan that takes it so already.
    ///
    /// # Errors
    /// As [`FencePlan::schedule`].
    ///
    /// ```
    /// use groundline::{check::PostDesign, fence::*, foundation::Hole, ground::*, plan::FencePlan};
    /// use groundline::{post::*, section::Tube, units::*, wind::*};
    /// let fence = Fence::new(FenceRun::new(Panel::new(ft(6.0))?, ft(96.0), ft(8.0))?);
    /// let v = BasicWindSpeed::strength_level(mph(115.0))?;
    /// let site = AsceSite::new(Edition::Asce7_22, v, Exposure::B);
    /// let pipe = PipePost::new(Tube::new(inch(2.875), inch(0.203))?, SteelStrength::new(ksi(50.0))?)?;
    /// let ground = Ground::presumptive(SoilClass::Class4);
    /// let design = PostDesign::in_concrete(ground, pipe.into(), Hole::round(inch(12.0))?)?;
    /// let plan = FencePlan::new(site, fence, design).with_planned_depth(ft(5.0));
    /// let reading = plan.schedule()?.case_b_on_every_run()?.expect("ASCE 7 has a Case B");
    /// assert!(reading.deepest_every_run >= reading.deepest);
    /// # Ok::<(), groundline::Error>(())
    /// ```
    pub fn case_b_on_every_run(&self) -> Result<Option<CaseBReading>, Error> {
        let Some(site) = self.plan.site.with_off_centre_everywhere() else {
            return Ok(None);
        };
        let other: FencePlan<C> = self.plan.clone().with_site(site);
        let other = other.schedule()?;
        let (failing, deepest) = count(self.posts());
        let (failing_every_run, deepest_every_run) = count(other.posts());
        Ok(Some(CaseBReading {
            posts: self.plan.fence.posts().len(),
            failing,
            failing_every_run,
            deepest,
            deepest_every_run,
        }))
    }
}

/// How many posts fail, and the greatest depth required.
fn count<L: CombinesTo<AllowableStress>>(
    posts: impl Iterator<Item = ScheduledPost<L>>,
) -> (usize, Length) {
    posts.fold((0, Length::from_si(0.0)), |(failing, deepest), post| {
        let depth = post.check.required.depth();
        (
            failing + usize::from(!post.passes()),
            if depth > deepest { depth } else { deepest },
        )
    })
}
