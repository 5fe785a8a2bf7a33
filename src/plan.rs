//! A fence, a site and a way of setting posts: the schedule of every post.

mod case_b;

pub use case_b::CaseBReading;
mod dig;
mod held;

pub use dig::{DepthToDig, NoDepth, digging_step};
pub(crate) use dig::{independent_of_depth, rounded_up};
pub use held::WindHeld;

use crate::actions::{FenceWind, LoadCases};
use crate::caution::{Caution, Cautions};
use crate::check::{
    Condition, Governing, MaterialsSum, PostCheck, PostDesign, SiteChecks, SiteResults,
};
use crate::combination::CombinesTo;
use crate::embedment::{DepthCheck, DepthRule};
use crate::error::Error;
use crate::fence::{Fence, FencePost, PostKind};
use crate::limit_state::{AllowableStress, LimitState, Strength};
use crate::step::Worksheet;
use crate::units::{Length, UnitSystem, show};
use crate::utilization::Utilization;
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

/// The schedule of a fence: its wind, and each post checked as it is asked
/// for.
#[derive(Debug, Clone, PartialEq)]
pub struct Schedule<'a, C: WindCode = AsceSite> {
    plan: &'a FencePlan<C>,
    wind: FenceWind<'a, C>,
    wind_cautions: Cautions,
}

impl<'a, C: WindCode> Schedule<'a, C>
where
    C::Level: CombinesTo<AllowableStress>,
{
    /// The wind on the fence.
    pub const fn wind(&self) -> &FenceWind<'a, C> {
        &self.wind
    }

    /// The check of a post of this fence.
    pub(crate) fn check(&self, post: &FencePost) -> Result<ScheduledPost<C::Level>, Error> {
        let (design, planned) = self.plan.design_for(post);
        self.check_as(post, design, planned, self.wind.cases(post))
    }

    /// The check of a post with another design, planned depth or wind: every check
    /// that the plan includes for the post.
    pub(crate) fn check_as(
        &self,
        post: &FencePost,
        design: &PostDesign,
        planned: Option<Length>,
        cases: LoadCases<C::Level>,
    ) -> Result<ScheduledPost<C::Level>, Error> {
        let check = PostCheck::new(design, &cases, planned)?;
        // Three times the footing, 4.5 times the post (ASABE EP486).
        let footing = design.foundation().bearing_width().width() * 3.0;
        let member = design.post().section().face_width() * 4.5;
        // Five times the width that bears, of a row across the load (UFC 3-220-20).
        let row = design.foundation().bearing_width().width() * 5.0;
        let nearest = post
            .arms()
            .flat_map(|arm| [arm.at - arm.from, arm.to - arm.at])
            .filter(|half| *half > Length::default())
            .map(|half| half * 2.0)
            .reduce(|a, b| if b < a { b } else { a });
        let closer = |least: Length| nearest.is_some_and(|bay| bay < least * (1.0 - 1e-9));
        let close = closer(footing) || closer(member);
        let cautions = check
            .cautions()
            .and(self.wind_cautions)
            .with_if(close, Caution::CloseSpacing)
            .with_if(closer(row), Caution::RowSpacing);
        let mut scheduled = ScheduledPost {
            post: *post,
            cases,
            check,
            site: SiteResults::NONE,
            cautions,
        };
        let asked = self.plan.site_checks(post.number);
        if !asked.is_empty() {
            let height = self.height(post);
            scheduled.site = asked.of(&scheduled.check, &scheduled.cases, height);
            scheduled.cautions = scheduled.site.cautions(cautions);
        }
        Ok(scheduled)
    }

    /// The height above ground of the tallest panel a post carries.
    pub(crate) fn height(&self, post: &FencePost) -> Length {
        post.arms()
            .filter_map(|arm| self.plan.fence.runs().get(arm.run))
            .map(|run| run.panel().top())
            .fold(Length::default(), |a, b| if b > a { b } else { a })
    }

    /// Every post, along the path. What could not be checked was refused when
    /// the schedule was made.
    pub fn posts(&self) -> impl Iterator<Item = ScheduledPost<C::Level>> + '_ {
        self.plan
            .fence
            .posts()
            .iter()
            .filter_map(|post| self.check(post).ok())
    }

    /// One post by its number.
    pub fn post(&self, number: usize) -> Option<ScheduledPost<C::Level>> {
        let index = number.checked_sub(1)?;
        self.check(self.plan.fence.posts().get(index)?).ok()
    }

    /// What the posts of one run take, or all of them: a corner post belongs to
    /// the run that comes first. Nothing where no quantities were asked for.
    pub fn materials(&self, run: Option<usize>) -> MaterialsSum {
        let fence = self.plan.fence.posts().iter();
        fence
            .filter(|post| {
                let own = post.arms().next().map(|arm| arm.run);
                let asked = self.plan.site_checks(post.number).materials();
                asked.is_some() && (run.is_none() || own == run)
            })
            .filter_map(|post| self.check(post).ok())
            .fold(MaterialsSum::default(), |sum, post| {
                sum.with(post.site.materials.done())
            })
    }

    /// The cautions of all posts.
    pub fn cautions(&self) -> Cautions {
        self.posts()
            .fold(Cautions::default(), |all, post| all.and(post.cautions()))
    }

    /// Returns the numbers of the posts that a caution is about, along the path.
    pub fn posts_with(&self, caution: Caution) -> impl Iterator<Item = usize> + '_ {
        self.posts()
            .filter(move |post| post.cautions().contains(caution))
            .map(|post| post.post.number)
    }

    /// A rule of thumb against the code formula: every post set to the depth of
    /// the rule, and the post that is used most there.
    ///
    /// # Errors
    /// As [`DepthRule::depth`] and [`PostCheck::new`].
    pub fn compare(&self, rule: DepthRule) -> Result<RuleComparison, Error> {
        let mut failing = 0;
        let mut worst: Option<(usize, DepthCheck)> = None;
        let mut missing: Option<Length> = None;
        for post in self.plan.fence.posts() {
            let depth = rule.depth(self.height(post))?;
            let (design, _) = self.plan.design_for(post);
            let check = PostCheck::new(design, &self.wind.cases(post), Some(depth))?;
            missing = match (missing, check.missing_depth()) {
                (Some(most), Some(next)) if next <= most => Some(most),
                (most, next) => next.or(most),
            };
            if let Some(check) = check.planned {
                failing += usize::from(!check.utilization().passes());
                if worst.is_none_or(|(_, w)| check.utilization() > w.utilization()) {
                    worst = Some((post.number, check));
                }
            }
        }
        let (number, check) = worst.ok_or(Error::NotApplicable {
            field: "fence",
            reason: "it has no posts",
        })?;
        Ok(RuleComparison {
            rule,
            posts: self.plan.fence.posts().len(),
            failing,
            worst_post: number,
            check,
            missing,
        })
    }

    /// The worksheet of a post: from site to result.
    pub fn worksheet(&self, post: &ScheduledPost<C::Level>, system: UnitSystem) -> Worksheet {
        let mut sheet = Worksheet::new(
            format!("Post {}, {}", post.post.number, post.post.kind.name()),
            system,
        );
        self.write_cases(post, &mut sheet);
        post.check.write_with(&mut sheet, |case, sheet| {
            self.wind.write(&post.post, case, sheet);
        });
        post.site.write(&mut sheet);
        sheet.cautions = post.cautions();
        sheet
    }

    /// What was considered: every load case with its required depth.
    fn write_cases(&self, post: &ScheduledPost<C::Level>, sheet: &mut Worksheet) {
        let system = sheet.system;
        sheet.section("Load cases considered");
        sheet.remark(format!(
            "groundline {}; {}.",
            env!("CARGO_PKG_VERSION"),
            self.plan.site.document()
        ));
        let design = post.check.design();
        for case in post.cases.iter() {
            let actions = case.wind.combined(&case.dead, design.combination());
            if let Ok(required) = design.formula().required(&actions) {
                sheet.remark(format!(
                    "Wind {} (run {}, {}): at grade, allowable-stress level, shear {}, moment \
                     {}; required depth {}.",
                    case.kind.name(),
                    case.run + 1,
                    self.plan.site.case_name(case.wind_case),
                    show(actions.shear(), system),
                    show(actions.moment(), system),
                    show(required.depth(), system)
                ));
            }
        }
        sheet.remark("The working follows for the case that asks for the greatest depth.");
    }
}

/// One post of a schedule.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct ScheduledPost<L: LimitState = Strength> {
    /// The post.
    pub post: FencePost,
    /// Its load cases.
    pub cases: LoadCases<L>,
    /// Its check.
    pub check: PostCheck<L>,
    /// What was asked for beside it.
    pub site: SiteResults,
    cautions: Cautions,
}

impl<L: LimitState> ScheduledPost<L> {
    /// The cautions that go with it.
    pub const fn cautions(&self) -> Cautions {
        self.cautions
    }

    /// The worst of every check made, and its utilization.
    fn worst(&self) -> (Governing, Utilization) {
        let own = (self.check.governing, self.check.utilization);
        Governing::ALL
            .into_iter()
            .filter_map(|check| Some((check, self.site.utilization_of(check)?)))
            .fold(
                own,
                |worst, next| if next.1 > worst.1 { next } else { worst },
            )
    }

    /// The worst of every check made: those of [`PostCheck`] and those asked for
    /// beside it. One that was asked for and refused counts for nothing, here, in
    /// [`ScheduledPost::utilization`] and in [`ScheduledPost::passes`];
    /// [`SiteResults::refusals`] and [`Caution::NotAllChecked`] tell of it.
    pub fn governing(&self) -> Governing {
        self.worst().0
    }

    /// Its utilization.
    pub fn utilization(&self) -> Utilization {
        self.worst().1
    }

    /// Returns the condition that a verdict of passing rests on, where lateral bearing
    /// was doubled as for an isolated pole and the movement at grade was not checked
    /// (it is with [`crate::check::LeanOptions`]).
    pub fn condition(&self) -> Option<Condition> {
        self.site.condition(self.check.condition())
    }

    /// Does every check made pass? Ask [`SiteResults::unchecked`] whether each
    /// that was asked for was made.
    pub fn passes(&self) -> bool {
        self.utilization().passes()
    }
}

impl<L: CombinesTo<AllowableStress>> ScheduledPost<L> {
    /// Every check that fails.
    pub fn failing(&self) -> impl Iterator<Item = Governing> + '_ {
        Governing::ALL.into_iter().filter(|check| {
            let made = self.site.utilization_of(*check);
            !made.unwrap_or(self.check.utilization_of(*check)).passes()
        })
    }
}

/// What a rule of thumb is worth at this wind.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct RuleComparison {
    /// The rule.
    pub rule: DepthRule,
    /// How many posts the fence has.
    pub posts: usize,
    /// How many of them the rule leaves too shallow.
    pub failing: usize,
    /// Number of the post that is used most at the depth of the rule.
    pub worst_post: usize,
    /// The rule's depth against the load of that post: lateral bearing alone.
    pub check: DepthCheck,
    /// Depth missing at the post that lacks the most; none where none fails.
    pub missing: Option<Length>,
}
