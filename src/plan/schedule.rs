//! The schedule of a fence: every post checked, rules of thumb beside it, worksheets.

use super::{FencePlan, ScheduledPost};
use crate::actions::{FenceWind, LoadCases};
use crate::caution::{Caution, Cautions};
use crate::check::{MaterialsSum, PostCheck, PostDesign, SiteResults};
use crate::combination::CombinesTo;
use crate::embedment::{DepthCheck, DepthRule};
use crate::error::Error;
use crate::fence::FencePost;
use crate::limit_state::AllowableStress;
use crate::step::Worksheet;
use crate::units::{Length, UnitSystem, show};
use crate::wind::{AsceSite, WindCode};

/// Schedule of a fence: its wind, with each post checked when it is read.
#[derive(Debug, Clone, PartialEq)]
pub struct Schedule<'a, C: WindCode = AsceSite> {
    pub(super) plan: &'a FencePlan<C>,
    pub(super) wind: FenceWind<'a, C>,
    pub(super) wind_cautions: Cautions,
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
