//! The depth to dig: the least depth at which the whole check of a post passes.

use super::{Schedule, ScheduledPost};
use crate::check::{Governing, MaterialsSum};
use crate::combination::CombinesTo;
use crate::error::{Error, size_within};
use crate::limit_state::{AllowableStress, LimitState};
use crate::units::{Length, Measure, UnitSystem, ft, inch, mm, round_up, show_as};
use crate::utilization::Utilization;
use crate::wind::WindCode;

/// Depths beyond this are tried only where the required depth itself is beyond it:
/// the limit of IBC 1807.3.2.1 on the depth of a pole footing.
const DEEPEST_FT: f64 = 12.0;
/// A depth this close to a whole step is that step.
const WHISKER: f64 = 1e-6;

/// Returns the step to which depths of holes are rounded up: 1 in, or 25 mm.
pub fn digging_step(system: UnitSystem) -> Length {
    match system {
        UnitSystem::Us => inch(1.0),
        UnitSystem::Si => mm(25.0),
    }
}

/// The depth to dig for a post.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum DepthToDig {
    /// The least whole step of depth at which every check of the post passes.
    Passes(Length),
    /// No depth tried passes.
    None(NoDepth),
}

impl DepthToDig {
    /// Returns the depth, if there is one.
    pub const fn depth(&self) -> Option<Length> {
        match self {
            Self::Passes(depth) => Some(*depth),
            Self::None(_) => None,
        }
    }

    /// Returns the reason why there is no depth, if there is none.
    pub const fn reason(&self) -> Option<&NoDepth> {
        match self {
            Self::Passes(_) => None,
            Self::None(reason) => Some(reason),
        }
    }
}

/// Why increasing the depth does not make a post pass.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct NoDepth {
    /// The least depth tried: the required depth, rounded up.
    pub from: Length,
    /// The greatest depth tried.
    pub to: Length,
    /// The check that fails at the greatest depth tried.
    pub governing: Governing,
    /// Its utilization there.
    pub utilization: Utilization,
    /// Does the failing check not depend on the depth of the hole? Deeper holes are
    /// then not tried.
    pub is_independent_of_depth: bool,
    /// The check that could not be made at the greatest depth tried, where no check
    /// made fails there.
    pub refused: Option<Error>,
}

impl NoDepth {
    /// Returns the reason in words, in the units of a system.
    pub fn text(&self, system: UnitSystem) -> String {
        if let Some(error) = &self.refused {
            return format!("a check cannot be made: {}", error.in_system(system));
        }
        let (check, used) = (self.governing, self.utilization);
        if self.is_independent_of_depth {
            return format!("{check} fails at any depth, utilization {used}");
        }
        format!(
            "{check} fails at every depth tried, utilization {used} at {}",
            show_as(self.to, Measure::SectionLength, system)
        )
    }
}

impl<L: LimitState> ScheduledPost<L> {
    /// Returns whether every check requested was made and passes.
    pub fn passes_every_check(&self) -> bool {
        self.passes() && self.site.unchecked().next().is_none()
    }
}

/// Rounds a depth up to a whole step, at least one.
pub(crate) fn rounded_up(depth: Length, step: Length) -> Length {
    let whole = round_up(depth, step);
    if whole > step { whole } else { step }
}

impl<C: WindCode> Schedule<'_, C>
where
    C::Level: CombinesTo<AllowableStress>,
{
    /// Returns one post, by its number, set to another depth: every check that the
    /// plan includes for it, and its quantities.
    ///
    /// # Errors
    /// No post of that number; a depth outside 0.01 to 300 ft.
    pub fn post_at(&self, number: usize, depth: Length) -> Result<ScheduledPost<C::Level>, Error> {
        let post = self.fence_post(number)?;
        let (design, _) = self.plan.design_for(post);
        self.check_as(post, design, Some(depth), self.wind.cases(post))
    }

    /// Returns the least depth, in whole steps, at which the whole check of a post
    /// passes: embedment, bending, shear, bearing and every optional check of the
    /// plan. The planned depth of the post is not used.
    ///
    /// Every step from the required depth to 12 ft is tried (to the required depth,
    /// where it is beyond 12 ft), until one passes. A check whose result does not
    /// depend on the depth of the hole ends the trials.
    ///
    /// # Errors
    /// No post of that number; a step outside 0.1 in to 10 ft.
    ///
    /// ```
    /// use groundline::{check::PostDesign, fence::*, foundation::Hole, ground::*, plan::*};
    /// use groundline::{post::*, section::Tube, units::*, wind::*};
    /// # let fence = Fence::new(FenceRun::new(Panel::new(ft(6.0))?, ft(64.0), ft(6.0))?);
    /// # let wind = DirectPressure::new(psf(10.0), groundline::limit_state::AllowableStress::Basic)?;
    /// # let pipe = PipePost::new(Tube::new(inch(2.875), inch(0.2))?, SteelStrength::new(ksi(50.0))?)?;
    /// # let ground = Ground::presumptive(SoilClass::Class4);
    /// let design = PostDesign::in_concrete(ground, pipe.into(), Hole::round(inch(12.0))?)?;
    /// let plan = FencePlan::new(wind, fence, design);
    /// let schedule = plan.schedule()?;
    /// let depth = schedule.depth_to_dig(2, inch(1.0))?.depth().unwrap();
    /// assert!(schedule.post_at(2, depth)?.passes_every_check());
    /// assert!(!schedule.post_at(2, depth - inch(1.0))?.passes_every_check());
    /// # Ok::<(), groundline::Error>(())
    /// ```
    pub fn depth_to_dig(&self, number: usize, step: Length) -> Result<DepthToDig, Error> {
        let step = size_within("step of depth", step, inch(0.1), ft(10.0))?;
        let post = self.fence_post(number)?;
        let (design, _) = self.plan.design_for(post);
        let cases = self.wind.cases(post);
        let required = self.check_as(post, design, None, cases)?.check.required;
        let from = rounded_up(required.depth(), step);
        let mut to = from;
        loop {
            let at = self.check_as(post, design, Some(to), cases)?;
            if at.passes_every_check() {
                return Ok(DepthToDig::Passes(to));
            }
            let fixed = independent_of_depth(&at);
            let next = to + step;
            if fixed.is_some() || next > ft(DEEPEST_FT) * (1.0 + WHISKER) {
                let (governing, utilization) = fixed.unwrap_or((at.governing(), at.utilization()));
                let refused = if at.passes() {
                    at.site.unchecked().next().copied()
                } else {
                    None
                };
                return Ok(DepthToDig::None(NoDepth {
                    from,
                    to,
                    governing,
                    utilization,
                    is_independent_of_depth: fixed.is_some(),
                    refused,
                }));
            }
            to = next;
        }
    }

    /// Returns one post, by its number, at the depth to dig: as planned where every
    /// check passes there, else at the least whole step of depth at which every check
    /// passes ([`Schedule::depth_to_dig`]). Its quantities are to that depth. Else the
    /// reason why there is no such depth.
    ///
    /// # Errors
    /// As [`Schedule::depth_to_dig`].
    pub fn dug(
        &self,
        number: usize,
        step: Length,
    ) -> Result<Result<ScheduledPost<C::Level>, NoDepth>, Error> {
        let post = self.fence_post(number)?;
        let planned = self.check(post)?;
        if planned.check.planned.is_some() && planned.passes_every_check() {
            return Ok(Ok(planned));
        }
        match self.depth_to_dig(number, step)? {
            DepthToDig::Passes(depth) => self.post_at(number, depth).map(Ok),
            DepthToDig::None(reason) => Ok(Err(reason)),
        }
    }

    /// Returns the quantities of the posts of one run, or of all, at the depths to dig
    /// ([`Schedule::dug`]). A post without one is left out; a corner post belongs to the
    /// run that comes first.
    ///
    /// # Errors
    /// As [`Schedule::depth_to_dig`].
    pub fn materials_to_dig(
        &self,
        run: Option<usize>,
        step: Length,
    ) -> Result<MaterialsSum, Error> {
        let mut sum = MaterialsSum::default();
        for post in self.plan.fence.posts() {
            let own = post.arms().next().map(|arm| arm.run);
            let requested = self.plan.site_checks(post.number).materials();
            if requested.is_some() && (run.is_none() || own == run) {
                let dug = self.dug(post.number, step)?;
                sum = sum.with(dug.as_ref().ok().and_then(|dug| dug.site.materials.done()));
            }
        }
        Ok(sum)
    }

    pub(super) fn fence_post(&self, number: usize) -> Result<&crate::fence::FencePost, Error> {
        number
            .checked_sub(1)
            .and_then(|index| self.plan.fence.posts().get(index))
            .ok_or(Error::NotApplicable {
                field: "post number",
                reason: "the fence has no such post",
            })
    }
}

/// The worst failing check that no depth changes, at or below the required depth:
/// the moment in the post does not fall with depth, shear at grade and the weight
/// stay.
pub(crate) fn independent_of_depth<L: CombinesTo<AllowableStress>>(
    at: &ScheduledPost<L>,
) -> Option<(Governing, Utilization)> {
    [
        Governing::Bending,
        Governing::Shear,
        Governing::VerticalBearing,
    ]
    .into_iter()
    .map(|check| (check, at.check.utilization_of(check)))
    .filter(|(_, utilization)| !utilization.passes())
    .max_by_key(|(_, utilization)| *utilization)
}
