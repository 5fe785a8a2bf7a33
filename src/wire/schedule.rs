//! Every post of a fence.

use super::design::DesignSpec;
use super::fence::FenceSpec;
use super::post_check::{CheckResult, sources};
use super::reading::{Path, Problems};
use super::record::records;
use super::request::{Asked, Calculation, Done};
use super::site::{BuiltSite, SiteSpec};
use super::value::Size;
use crate::check::PostDesign;
use crate::combination::CombinesTo;
use crate::fence::{Fence, PostKind};
use crate::limit_state::AllowableStress;
use crate::plan::FencePlan;
use crate::units::{Length, Volume};
use crate::utilization::Utilization;
use crate::wind::WindCode;

records! {
    /// Another design or depth for one kind of post.
    KindSpec {
        /// The kind.
        post: PostKind,
        /// Its design.
        design: DesignSpec,
        /// Its depth, planned or dug.
        planned_depth: Option<Size>,
    }
    /// Another design or depth for one post.
    NumberSpec {
        /// Its number, from 1 along the fence.
        number: usize,
        /// Its design; that of its kind unless said.
        design: Option<DesignSpec>,
        /// Its depth, planned or dug.
        planned_depth: Option<Size>,
    }
    /// Every post of a fence: wind, ground, post.
    ScheduleRequest {
        /// Where the wind comes from.
        site: SiteSpec,
        /// The fence.
        fence: FenceSpec,
        /// Design of posts that have none of their own.
        design: DesignSpec,
        /// Depth, planned or dug, of posts that have none of their own.
        planned_depth: Option<Size>,
        /// Kinds of post that differ.
        kinds: Option<Vec<KindSpec>>,
        /// Single posts that differ.
        posts: Option<Vec<NumberSpec>>,
    }
    /// One post of a fence.
    ScheduledPostResult {
        /// Its number, from 1 along the fence.
        number: usize,
        /// What it is.
        post: PostKind,
        /// Run in which it stands, from 1.
        run: usize,
        /// Where along that run.
        at: Length,
        /// Tributary width.
        tributary_width: Length,
        /// Its check.
        check: CheckResult,
    }
    /// A fence checked post by post.
    ScheduleResult {
        /// How many posts there are.
        count: usize,
        /// How many of them fail.
        failing: usize,
        /// The worst utilization.
        utilization: Utilization,
        /// The post that has it.
        worst_post: usize,
        /// Concrete, net, of all posts.
        concrete: Volume,
        /// Post by post.
        posts: Vec<ScheduledPostResult>,
    }
}

/// The parts of a plan.
struct Parts {
    fence: Fence,
    design: PostDesign,
    kinds: Vec<(PostKind, PostDesign, Option<Length>)>,
    posts: Vec<(usize, Option<PostDesign>, Option<Length>)>,
}

impl ScheduleRequest {
    fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<(BuiltSite, Parts)> {
        let place = at.field("site");
        let site = self.site.build(&place, problems);
        if matches!(
            site,
            Some(
                BuiltSite::En(_)
                    | BuiltSite::AsNzs(_)
                    | BuiltSite::Characteristic(_)
                    | BuiltSite::Ultimate(_)
            )
        ) {
            problems.add(
                &place.field("kind"),
                None,
                "ground and post are checked at allowable-stress level, which wind of this \
                 limit state does not combine to; ask for fence_actions",
            );
        }
        let fence = self.fence.build(&at.field("fence"), problems);
        let design = self.design.build(&at.field("design"), problems);
        let place = at.field("kinds");
        let mut kinds = Vec::new();
        for (index, kind) in self.kinds.iter().flatten().enumerate() {
            let place = place.place(index);
            let design = kind.design.build(&place.field("design"), problems);
            kinds.push(design.map(|d| (kind.post, d, kind.planned_depth.map(|d| d.0))));
        }
        let place = at.field("posts");
        let mut posts = Vec::new();
        for (index, post) in self.posts.iter().flatten().enumerate() {
            let place = place.place(index);
            let design = match &post.design {
                Some(design) => design.build(&place.field("design"), problems).map(Some),
                None => Some(None),
            };
            let count = fence.as_ref().map_or(usize::MAX, |f| f.posts().len());
            if post.number == 0 || post.number > count {
                problems.add(
                    &place.field("number"),
                    None,
                    format!("posts are numbered 1 to {count}"),
                );
            }
            posts.push(design.map(|d| (post.number, d, post.planned_depth.map(|d| d.0))));
        }
        let parts = Parts {
            fence: fence?,
            design: design?,
            kinds: kinds.into_iter().collect::<Option<_>>()?,
            posts: posts.into_iter().collect::<Option<_>>()?,
        };
        Some((site?, parts))
    }

    fn run_with<C: WindCode>(
        &self,
        site: C,
        parts: Parts,
        asked: Asked,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<ScheduleResult>>
    where
        C::Level: CombinesTo<AllowableStress>,
    {
        let planned = self.planned_depth.map(|Size(depth)| depth);
        let own = |number: usize| {
            let kind = parts.fence.posts().get(number - 1).map(|post| post.kind);
            let of_kind = parts.kinds.iter().find(|(k, ..)| Some(*k) == kind);
            of_kind.map_or((parts.design, planned), |(_, design, depth)| {
                (*design, *depth)
            })
        };
        let numbered: Vec<_> = parts
            .posts
            .iter()
            .map(|&(number, design, depth)| {
                let (usual, usual_depth) = own(number);
                (number, design.unwrap_or(usual), depth.or(usual_depth))
            })
            .collect();
        let mut plan = FencePlan::new(site, parts.fence, parts.design);
        if let Some(depth) = planned {
            plan = plan.with_planned_depth(depth);
        }
        for (kind, design, depth) in parts.kinds {
            plan = plan.with_kind(kind, design, depth);
        }
        for (number, design, depth) in numbered {
            plan = plan.with_post(number, design, depth);
        }
        let schedule = problems.take(at, plan.schedule())?;
        let mut result = ScheduleResult {
            count: 0,
            failing: 0,
            utilization: Utilization::ZERO,
            worst_post: 1,
            concrete: Volume::default(),
            posts: Vec::new(),
        };
        let mut cautions = crate::caution::Cautions::default();
        let mut cited = Vec::new();
        let mut sheets = Vec::new();
        for post in schedule.posts() {
            let check = CheckResult::of(&post.check);
            let arm = post.post.arms().next();
            result.count += 1;
            result.failing += usize::from(!check.passes);
            result.concrete += check.concrete;
            if check.utilization > result.utilization {
                result.utilization = check.utilization;
                result.worst_post = post.post.number;
            }
            for source in sources(&post.check) {
                if !cited.contains(&source) {
                    cited.push(source);
                }
            }
            cautions = cautions.and(post.cautions());
            if asked.worksheet {
                sheets.push(schedule.worksheet(&post, asked.system));
            }
            result.posts.push(ScheduledPostResult {
                number: post.post.number,
                post: post.post.kind,
                run: arm.map_or(0, |arm| arm.run) + 1,
                at: arm.map_or(Length::default(), |arm| arm.at),
                tributary_width: post
                    .post
                    .arms()
                    .fold(Length::default(), |sum, arm| sum + arm.width()),
                check,
            });
        }
        let mut done = Done::new(result, cautions, cited);
        for sheet in sheets {
            done = done.with_worksheet(sheet);
        }
        Some(done)
    }
}

impl Calculation for ScheduleRequest {
    const CALCULATE: &'static str = "fence_schedule";
    type Result = ScheduleResult;

    fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
        self.build(at, problems);
    }

    fn run(
        &self,
        asked: Asked,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<ScheduleResult>> {
        let (site, parts) = self.build(at, problems)?;
        match site {
            BuiltSite::Asce(site) => self.run_with(site, parts, asked, at, problems),
            BuiltSite::Strength(site) => self.run_with(site, parts, asked, at, problems),
            BuiltSite::Allowable(site) => self.run_with(site, parts, asked, at, problems),
            // Said by `build`.
            _ => None,
        }
    }
}
