//! A fence, a site and a way of setting posts: the schedule of every post.

mod case_b;
mod dig;
mod held;
mod post;
mod schedule;

pub use case_b::CaseBReading;
pub use dig::{DepthToDig, NoDepth, digging_step};
pub(crate) use dig::{independent_of_depth, rounded_up};
pub use held::WindHeld;
pub use post::ScheduledPost;
pub use schedule::{RuleComparison, Schedule};

use crate::actions::FenceWind;
use crate::check::{PostCheck, PostDesign, SiteChecks};
use crate::combination::CombinesTo;
use crate::error::Error;
use crate::fence::{Fence, FencePost, PostKind};
use crate::limit_state::AllowableStress;
use crate::units::Length;
use crate::wind::{AsceSite, WindCode};

/// Everything a schedule needs.
///
/// ```
/// use groundline::{check::PostDesign, fence::*, foundation::Hole, ground::*, plan::FencePlan};
/// use groundline::{post::*, section::*, units::*, wind::*};
/// let fence = Fence::new(FenceRun::new(Panel::new(ft(6.0))?, ft(64.0), ft(8.0))?);
/// let v = BasicWindSpeed::strength_level(mph(115.0))?;
/// let site = AsceSite::new(Edition::Asce7_22, v, Exposure::B);
/// let side = inch(5.5);
/// let values = DesignValues::of(Species::SouthernPine, Grade::No2, side)?;
/// let post = TimberPost::new(Square::new(side)?, values, Moisture::Wet, Treatment::NotIncised)?;
/// let ground = Ground::presumptive(SoilClass::Class4);
/// let design = PostDesign::in_concrete(ground, post.into(), Hole::round(inch(18.0))?)?;
/// let plan = FencePlan::new(site, fence, design).with_planned_depth(ft(4.0));
/// let schedule = plan.schedule()?;
/// assert_eq!(schedule.posts().count(), 9);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct FencePlan<C: WindCode = AsceSite> {
    site: C,
    fence: Fence,
    design: PostDesign,
    planned: Option<Length>,
    by_kind: Vec<(PostKind, PostDesign, Option<Length>)>,
    by_number: Vec<(usize, PostDesign, Option<Length>)>,
    site_checks: SiteChecks,
    site_checks_by_number: Vec<(usize, SiteChecks)>,
}

impl<C: WindCode> FencePlan<C> {
    /// A plan with one design for every post and no planned depth. The site
    /// is one of ASCE 7, or a [`DirectPressure`](crate::wind::DirectPressure)
    /// at strength or allowable-stress level.
    ///
    /// Wind of another limit state does not compile:
    ///
    /// ```compile_fail
    /// use groundline::{check::PostDesign, fence::Fence, plan::FencePlan, wind::EnSite};
    /// fn wrong(site: EnSite, fence: Fence, design: PostDesign) {
    ///     let _ = FencePlan::new(site, fence, design);
    /// }
    /// ```
    pub fn new(site: C, fence: Fence, design: PostDesign) -> Self
    where
        C::Level: CombinesTo<AllowableStress>,
    {
        Self {
            site,
            fence,
            design,
            planned: None,
            by_kind: Vec::new(),
            by_number: Vec::new(),
            site_checks: SiteChecks::default(),
            site_checks_by_number: Vec::new(),
        }
    }

    /// With the depth the crew plans, or dug, below grade: 0.01 to 300 ft, looked
    /// at when the schedule is made.
    #[must_use]
    pub fn with_planned_depth(self, depth: Length) -> Self {
        Self {
            planned: Some(depth),
            ..self
        }
    }

    /// With another design and planned depth for one kind of post; without a depth
    /// given such posts have none.
    #[must_use]
    pub fn with_kind(
        mut self,
        kind: PostKind,
        design: PostDesign,
        planned: Option<Length>,
    ) -> Self {
        self.by_kind.retain(|entry| entry.0 != kind);
        self.by_kind.push((kind, design, planned));
        self
    }

    /// With another design and planned depth for one post, by its number, from 1
    /// along the fence; it counts before that of its kind. Without a depth given the
    /// post has none. A number that no post has is refused by [`FencePlan::schedule`].
    #[must_use]
    pub fn with_post(mut self, number: usize, design: PostDesign, planned: Option<Length>) -> Self {
        self.by_number.retain(|entry| entry.0 != number);
        self.by_number.push((number, design, planned));
        self
    }

    /// The same plan at another site.
    #[must_use]
    pub fn with_site(self, site: C) -> Self {
        Self { site, ..self }
    }

    /// The same plan for another fence. Designs and site checks of single posts go by
    /// number, whatever post has that number now.
    #[must_use]
    pub fn with_fence(self, fence: Fence) -> Self {
        Self { fence, ..self }
    }

    /// The same plan with each design and planned depth changed that a post of this
    /// fence has.
    ///
    /// # Errors
    /// Those of the change.
    pub fn changing_designs(
        mut self,
        mut change: impl FnMut(
            PostDesign,
            Option<Length>,
        ) -> Result<(PostDesign, Option<Length>), Error>,
    ) -> Result<Self, Error> {
        let posts = self.fence.posts().iter();
        let posts = posts.filter(|post| !self.by_number.iter().any(|own| own.0 == post.number));
        let kinds = posts.map(|post| post.kind);
        let any_else = |kind| !self.by_kind.iter().any(|entry| entry.0 == kind);
        if kinds.clone().any(any_else) {
            (self.design, self.planned) = change(self.design, self.planned)?;
        }
        for entry in &mut self.by_kind {
            if kinds.clone().any(|kind| kind == entry.0) {
                (entry.1, entry.2) = change(entry.1, entry.2)?;
            }
        }
        for entry in &mut self.by_number {
            (entry.1, entry.2) = change(entry.1, entry.2)?;
        }
        Ok(self)
    }

    /// Has any single post a design, or site checks, of its own?
    pub(crate) fn has_single_designs(&self) -> bool {
        !self.by_number.is_empty() || !self.site_checks_by_number.is_empty()
    }

    /// With more checks of every post: lean, frost, pull-out, weight with
    /// bending, quantities.
    ///
    /// ```
    /// # use groundline::{check::*, fence::*, foundation::Hole, ground::*, plan::FencePlan};
    /// # use groundline::{post::*, section::Tube, units::*, wind::*};
    /// # let fence = Fence::new(FenceRun::new(Panel::new(ft(6.0))?, ft(64.0), ft(8.0))?);
    /// # let v = BasicWindSpeed::strength_level(mph(105.0))?;
    /// # let site = AsceSite::new(Edition::Asce7_22, v, Exposure::B);
    /// # let steel = SteelStrength::new(ksi(50.0))?;
    /// # let pipe = PipePost::new(Tube::new(inch(2.875), inch(0.160))?, steel)?;
    /// # let ground = Ground::presumptive(SoilClass::Class4);
    /// # let design = PostDesign::in_concrete(ground, pipe.into(), Hole::round(inch(12.0))?)?;
    /// let frost = FrostOptions::new(inch(30.0), Grip::FineGrained)?;
    /// let plan = FencePlan::new(site, fence, design)
    ///     .with_planned_depth(inch(30.0))
    ///     .with_site_checks(SiteChecks::default().with_frost(frost));
    /// for post in plan.schedule()?.posts() {
    ///     // A plain shaft that stops at the frost depth does not stay.
    ///     assert!(!post.passes());
    ///     assert_eq!(post.governing(), Governing::FrostUplift);
    /// }
    /// # Ok::<(), groundline::Error>(())
    /// ```
    #[must_use]
    pub fn with_site_checks(self, asked: SiteChecks) -> Self {
        Self {
            site_checks: asked,
            ..self
        }
    }

    /// With other such checks of one post, by its number; one that no post has is
    /// refused by [`FencePlan::schedule`].
    #[must_use]
    pub fn with_post_site_checks(mut self, number: usize, asked: SiteChecks) -> Self {
        self.site_checks_by_number.retain(|entry| entry.0 != number);
        self.site_checks_by_number.push((number, asked));
        self
    }

    /// What is asked for of a post, by its number.
    pub fn site_checks(&self, number: usize) -> &SiteChecks {
        self.site_checks_by_number
            .iter()
            .find(|entry| entry.0 == number)
            .map_or(&self.site_checks, |entry| &entry.1)
    }

    /// The fence.
    pub const fn fence(&self) -> &Fence {
        &self.fence
    }

    /// The design of posts that have none of their own.
    pub const fn design(&self) -> &PostDesign {
        &self.design
    }

    /// The planned depth of posts that have none of their own.
    pub const fn planned_depth(&self) -> Option<Length> {
        self.planned
    }

    /// The site.
    pub const fn site(&self) -> &C {
        &self.site
    }

    pub(crate) fn design_for(&self, post: &FencePost) -> (&PostDesign, Option<Length>) {
        let by_number = self
            .by_number
            .iter()
            .find(|entry| entry.0 == post.number)
            .map(|entry| (&entry.1, entry.2));
        let by_kind = || {
            self.by_kind
                .iter()
                .find(|entry| entry.0 == post.kind)
                .map(|entry| (&entry.1, entry.2))
        };
        by_number
            .or_else(by_kind)
            .unwrap_or((&self.design, self.planned))
    }
}

impl<C: WindCode> FencePlan<C>
where
    C::Level: CombinesTo<AllowableStress>,
{
    /// Computes the wind on the fence; posts are then checked one by one.
    /// Wind must be such as combines to allowable-stress level.
    ///
    /// # Errors
    /// Where an option refuses the proportions of a wall, a design or planned depth
    /// cannot be checked, or a design or site checks are of a post that is not there.
    pub fn schedule(&self) -> Result<Schedule<'_, C>, Error> {
        let schedule = self.unchecked_schedule()?;
        for post in self.fence.posts() {
            let (design, planned) = self.design_for(post);
            PostCheck::new(design, &schedule.wind.cases(post), planned)?;
        }
        Ok(schedule)
    }

    /// [`FencePlan::schedule`] without looking whether every post can be
    /// checked.
    pub(crate) fn unchecked_schedule(&self) -> Result<Schedule<'_, C>, Error> {
        let posts = 1..=self.fence.posts().len();
        let designs = self.by_number.iter().map(|entry| entry.0);
        let checks = self.site_checks_by_number.iter().map(|entry| entry.0);
        if !designs.chain(checks).all(|number| posts.contains(&number)) {
            return Err(Error::NotApplicable {
                field: "post number",
                reason: "a design or checks are given for a number that no post of the fence has",
            });
        }
        let wind = FenceWind::new(&self.site, &self.fence)?;
        let wind_cautions = wind.cautions();
        Ok(Schedule {
            plan: self,
            wind,
            wind_cautions,
        })
    }
}
