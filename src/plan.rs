//! A fence, a site and a way of setting posts: the schedule of every post.

use crate::actions::{FenceWind, LoadCases};
use crate::caution::Cautions;
use crate::check::{PostCheck, PostDesign};
use crate::embedment::{DepthCheck, DepthRule};
use crate::error::Error;
use crate::fence::{Fence, FencePost, PostKind};
use crate::step::Worksheet;
use crate::units::{Length, UnitSystem};
use crate::wind::{WallOptions, WindSite};

/// Everything a schedule needs.
///
/// ```
/// use groundline::{check::PostDesign, fence::*, foundation::Hole, ground::*, plan::FencePlan};
/// use groundline::{post::*, section::*, units::*, wind::*};
/// let fence = Fence::new(FenceRun::new(Panel::new(ft(6.0))?, ft(64.0), ft(8.0))?);
/// let v = BasicWindSpeed::strength_level(mph(115.0))?;
/// let site = WindSite::new(Edition::Asce7_22, v, Exposure::B);
/// let side = inch(5.5);
/// let values = DesignValues::of(Species::SouthernPine, Grade::No2, side)?;
/// let post = TimberPost::new(Square::new(side)?, values, Moisture::Wet, Treatment::NotIncised)?;
/// let ground = Ground::presumptive(SoilClass::Class4);
/// let design = PostDesign::in_concrete(ground, post.into(), Hole::round(inch(18.0))?)?;
/// let plan = FencePlan::new(site, &fence, design).with_planned_depth(ft(4.0));
/// let schedule = plan.schedule()?;
/// assert_eq!(schedule.posts().count(), 9);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct FencePlan<'a> {
    site: WindSite,
    fence: &'a Fence,
    options: WallOptions,
    design: PostDesign,
    planned: Option<Length>,
    by_kind: Vec<(PostKind, PostDesign, Option<Length>)>,
}

impl<'a> FencePlan<'a> {
    /// A plan with one design for every post and no planned depth.
    pub fn new(site: WindSite, fence: &'a Fence, design: PostDesign) -> Self {
        Self {
            site,
            fence,
            options: WallOptions::default(),
            design,
            planned: None,
            by_kind: Vec::new(),
        }
    }

    /// With choices for the wall figure.
    #[must_use]
    pub fn with_options(self, options: WallOptions) -> Self {
        Self { options, ..self }
    }

    /// With the depth the crew plans, or dug.
    #[must_use]
    pub fn with_planned_depth(self, depth: Length) -> Self {
        Self {
            planned: Some(depth),
            ..self
        }
    }

    /// With another design and planned depth for one kind of post.
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

    /// The fence.
    pub const fn fence(&self) -> &'a Fence {
        self.fence
    }

    /// The site.
    pub const fn site(&self) -> &WindSite {
        &self.site
    }

    fn design_for(&self, kind: PostKind) -> (&PostDesign, Option<Length>) {
        self.by_kind
            .iter()
            .find(|entry| entry.0 == kind)
            .map_or((&self.design, self.planned), |entry| (&entry.1, entry.2))
    }

    /// Computes the wind on the fence; posts are then checked one by one.
    ///
    /// # Errors
    /// Where an option refuses the proportions of a wall, or a design or
    /// planned depth cannot be checked.
    pub fn schedule(&'a self) -> Result<Schedule<'a>, Error> {
        let wind = FenceWind::new(&self.site, self.fence, self.options)?;
        let schedule = Schedule { plan: self, wind };
        for post in self.fence.posts() {
            schedule.check(post)?;
        }
        Ok(schedule)
    }
}

/// The schedule of a fence: its wind, and each post checked as it is asked
/// for.
#[derive(Debug, Clone, PartialEq)]
pub struct Schedule<'a> {
    plan: &'a FencePlan<'a>,
    wind: FenceWind<'a>,
}

impl<'a> Schedule<'a> {
    /// The wind on the fence.
    pub const fn wind(&self) -> &FenceWind<'a> {
        &self.wind
    }

    fn check(&self, post: &FencePost) -> Result<ScheduledPost, Error> {
        let (design, planned) = self.plan.design_for(post.kind);
        let cases = self.wind.cases(post);
        Ok(ScheduledPost {
            post: *post,
            cases,
            check: PostCheck::new(design, &cases, planned)?,
        })
    }

    /// Every post, along the path. What could not be checked was refused when
    /// the schedule was made.
    pub fn posts(&self) -> impl Iterator<Item = ScheduledPost> + '_ {
        self.plan
            .fence
            .posts()
            .iter()
            .filter_map(|post| self.check(post).ok())
    }

    /// One post by its number.
    pub fn post(&self, number: usize) -> Option<ScheduledPost> {
        let index = number.checked_sub(1)?;
        self.check(self.plan.fence.posts().get(index)?).ok()
    }

    /// The cautions of all posts.
    pub fn cautions(&self) -> Cautions {
        self.posts().fold(Cautions::default(), |all, post| {
            all.and(post.check.cautions())
        })
    }

    /// A rule of thumb against the code formula, for the post worst for it.
    ///
    /// # Errors
    /// As [`DepthRule::depth`] and [`PostCheck::new`].
    pub fn compare(&self, rule: DepthRule) -> Result<RuleComparison, Error> {
        let mut failing = 0;
        let mut worst: Option<(usize, DepthCheck)> = None;
        for post in self.plan.fence.posts() {
            let height = post
                .arms()
                .filter_map(|arm| self.plan.fence.runs().get(arm.run))
                .map(|run| run.panel().top())
                .fold(Length::default(), |a, b| if b > a { b } else { a });
            let depth = rule.depth(height)?;
            let (design, _) = self.plan.design_for(post.kind);
            let check = PostCheck::new(design, &self.wind.cases(post), Some(depth))?;
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
        })
    }

    /// The worksheet of a post: from site to result.
    pub fn worksheet(&self, post: &ScheduledPost, system: UnitSystem) -> Worksheet {
        let mut sheet = Worksheet::new(
            format!("Post {}, {}", post.post.number, post.post.kind.name()),
            system,
        );
        post.check.write_with(&mut sheet, |case, sheet| {
            self.wind.write(&post.post, case, sheet);
        });
        sheet.cautions = post.check.cautions();
        sheet
    }
}

/// One post of a schedule.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct ScheduledPost {
    /// The post.
    pub post: FencePost,
    /// Its load cases.
    pub cases: LoadCases,
    /// Its check.
    pub check: PostCheck,
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
    /// The worst of them.
    pub worst_post: usize,
    /// The rule's depth against the load of that post.
    pub check: DepthCheck,
}
