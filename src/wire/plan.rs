//! A fence with its wind, its ground and its posts: what several calculations
//! ask about.

use super::design::DesignSpec;
use super::fence::FenceSpec;
use super::reading::{Path, Problems};
use super::record::records;
use super::site::{BuiltSite, SiteSpec};
use super::site_checks::SiteChecksSpec;
use super::value::Size;
use crate::backwards::VariedWind;
use crate::check::{PostDesign, SiteChecks};
use crate::combination::CombinesTo;
use crate::embedment::max_depth;
use crate::fence::{Fence, PostKind};
use crate::limit_state::AllowableStress;
use crate::plan::FencePlan;
use crate::units::{Length, ft};

records! {
    /// Another design or depth for one kind of post.
    KindSpec {
        /// The kind.
        post: PostKind,
        /// Its design.
        design: DesignSpec,
        /// Its depth, planned or dug; that of the plan unless said.
        planned_depth: Option<Size>,
    }
    /// Another design or depth for one post.
    NumberSpec {
        /// Its number, from 1 along the fence.
        number: usize,
        /// Its design; that of its kind unless said.
        design: Option<DesignSpec>,
        /// Its depth, planned or dug; that of its kind unless said.
        planned_depth: Option<Size>,
        /// What more is asked of it, instead of what is asked of every post.
        checks: Option<SiteChecksSpec>,
    }
    /// A fence: wind, ground, posts.
    PlanSpec {
        /// Where the wind comes from.
        site: SiteSpec,
        /// The fence.
        fence: FenceSpec,
        /// Design of posts that have none of their own.
        design: DesignSpec,
        /// Depth, planned or dug, of posts that have none of their own; without any the
        /// required depth is told and the ground not checked.
        planned_depth: Option<Size>,
        /// Kinds of post that differ.
        kinds: Option<Vec<KindSpec>>,
        /// Single posts that differ.
        posts: Option<Vec<NumberSpec>>,
        /// What more is asked of every post.
        checks: Option<SiteChecksSpec>,
    }
}

/// The parts of a plan.
struct Parts {
    fence: Fence,
    design: PostDesign,
    kinds: Vec<(PostKind, PostDesign, Option<Length>)>,
    posts: Vec<Numbered>,
    checks: SiteChecks,
}

/// What a single post has of its own.
struct Numbered {
    number: usize,
    design: Option<PostDesign>,
    depth: Option<Length>,
    checks: Option<SiteChecks>,
}

impl PlanSpec {
    fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<(BuiltSite, Parts)> {
        let before = problems.len();
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
        depth(self.planned_depth, at, problems);
        let place = at.field("kinds");
        let mut kinds: Vec<Option<(PostKind, PostDesign, Option<Length>)>> = Vec::new();
        for (index, kind) in self.kinds.iter().flatten().enumerate() {
            let place = place.place(index);
            depth(kind.planned_depth, &place, problems);
            if kinds
                .iter()
                .flatten()
                .any(|(known, ..)| *known == kind.post)
            {
                problems.add(&place.field("post"), None, "this kind stands twice");
            }
            let design = kind.design.build(&place.field("design"), problems);
            // As posts do of their kind, a kind takes the depth of the plan.
            let planned = kind.planned_depth.or(self.planned_depth);
            kinds.push(design.map(|d| (kind.post, d, planned.map(|d| d.0))));
        }
        let place = at.field("posts");
        let mut posts = Vec::new();
        let mut numbers = std::collections::BTreeSet::new();
        for (index, post) in self.posts.iter().flatten().enumerate() {
            let place = place.place(index);
            depth(post.planned_depth, &place, problems);
            if !numbers.insert(post.number) {
                problems.add(&place.field("number"), None, "this number stands twice");
            }
            let design = match &post.design {
                Some(design) => design.build(&place.field("design"), problems).map(Some),
                None => Some(None),
            };
            let checks = match &post.checks {
                Some(checks) => checks.build(&place.field("checks"), problems).map(Some),
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
            let depth = post.planned_depth.map(|d| d.0);
            let numbered = design.zip(checks);
            posts.push(numbered.map(|(design, checks)| Numbered {
                number: post.number,
                design,
                depth,
                checks,
            }));
        }
        let checks = match &self.checks {
            Some(checks) => checks.build(&at.field("checks"), problems),
            None => Some(SiteChecks::default()),
        };
        let parts = Parts {
            checks: checks?,
            fence: fence?,
            design: design?,
            kinds: kinds.into_iter().collect::<Option<_>>()?,
            posts: posts.into_iter().collect::<Option<_>>()?,
        };
        Some((site?, parts)).filter(|_| problems.len() == before)
    }

    /// Everything that can be refused before computing.
    pub(super) fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
        self.build(at, problems);
    }

    fn plan<C: VariedWind>(&self, site: C, parts: Parts) -> FencePlan<C>
    where
        C::Level: CombinesTo<AllowableStress>,
    {
        let planned = self.planned_depth.map(|Size(depth)| depth);
        let usual = |number: usize| {
            let index = number.checked_sub(1)?;
            let kind = parts.fence.posts().get(index)?.kind;
            let of_kind = parts.kinds.iter().find(|(known, ..)| *known == kind)?;
            Some((of_kind.1, of_kind.2))
        };
        let numbered: Vec<_> = parts
            .posts
            .iter()
            .map(|own| {
                let (usual, usual_depth) = usual(own.number).unwrap_or((parts.design, planned));
                let design = own.design.unwrap_or(usual);
                (own.number, design, own.depth.or(usual_depth), own.checks)
            })
            .collect();
        let mut plan =
            FencePlan::new(site, parts.fence, parts.design).with_site_checks(parts.checks);
        if let Some(depth) = planned {
            plan = plan.with_planned_depth(depth);
        }
        for (kind, design, depth) in parts.kinds {
            plan = plan.with_kind(kind, design, depth);
        }
        for (number, design, depth, checks) in numbered {
            plan = plan.with_post(number, design, depth);
            if let Some(checks) = checks {
                plan = plan.with_post_site_checks(number, checks);
            }
        }
        plan
    }

    /// Asks a question of the plan, whatever its wind.
    pub(super) fn ask<Q: OfPlan>(
        &self,
        question: Q,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Q::Answer> {
        let (site, parts) = self.build(at, problems)?;
        let posts = parts.fence.posts().len();
        if posts > question.most_posts() {
            let allowed = format!("at most {} posts for this question", question.most_posts());
            problems.add(&at.field("fence"), None, allowed);
            return None;
        }
        match site {
            BuiltSite::Asce(site) => question.of(&self.plan(site, parts), at, problems),
            BuiltSite::Strength(site) => question.of(&self.plan(site, parts), at, problems),
            BuiltSite::Allowable(site) => question.of(&self.plan(site, parts), at, problems),
            // Refused by `build`.
            _ => None,
        }
    }
}

/// A planned depth is one that can be checked.
pub(super) fn depth(given: Option<Size>, at: &Path<'_>, problems: &mut Problems) {
    if let Some(Size(depth)) = given {
        let made = crate::error::size_within("planned depth", depth, ft(0.01), max_depth());
        problems.take(&at.field("planned_depth"), made);
    }
}

/// A question about a plan of any wind that combines to allowable stress.
pub(super) trait OfPlan {
    /// What comes of it.
    type Answer;

    /// How many posts it is answered for: it checks the fence many times.
    fn most_posts(&self) -> usize {
        1_000
    }

    fn of<C: VariedWind>(
        self,
        plan: &FencePlan<C>,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Self::Answer>
    where
        C::Level: CombinesTo<AllowableStress>;
}
