//! What one plan comes to: the worst post, its check, the greatest depth.

use crate::caution::Cautions;
use crate::check::Governing;
use crate::combination::CombinesTo;
use crate::error::Error;
use crate::limit_state::AllowableStress;
use crate::plan::{FencePlan, ScheduledPost};
use crate::units::Length;
use crate::utilization::Utilization;
use crate::wind::WindCode;

/// Posts within this share of the worst count as used alike; the first of them
/// is named, so that rounding does not make mirrored posts take turns.
const ALIKE: f64 = 1e-9;

/// The greatest utilization of a plan, and where.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Point {
    /// The utilization. The ground counts where a depth is planned; a post without
    /// one would use it up exactly, by construction.
    pub utilization: Utilization,
    /// Number of the post.
    pub post: usize,
    /// The check.
    pub governing: Governing,
    /// The greatest required depth.
    pub depth: DepthPoint,
}

/// The greatest required depth of a plan, and where.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct DepthPoint {
    /// The depth.
    pub depth: Length,
    /// Number of the post.
    pub post: usize,
}

/// What a plan comes to.
pub(super) struct Outcome {
    pub(super) point: Point,
    /// Has every post a planned depth?
    pub(super) planned: bool,
    pub(super) cautions: Cautions,
}

/// The worst check of one post, what more was asked included.
fn worst_check<C: WindCode>(post: &ScheduledPost<C::Level>) -> (Governing, Utilization)
where
    C::Level: CombinesTo<AllowableStress>,
{
    let check = &post.check;
    let mut worst = (Governing::Embedment, Utilization::ZERO);
    for governing in Governing::ALL {
        let counts = governing != Governing::Embedment || check.planned.is_some();
        let made = post.site.utilization_of(governing);
        let utilization = made.unwrap_or(check.utilization_of(governing));
        if counts && utilization > worst.1 {
            worst = (governing, utilization);
        }
    }
    worst
}

/// The forward check of a plan.
pub(super) fn outcome<C: WindCode>(plan: &FencePlan<C>) -> Result<Outcome, Error>
where
    C::Level: CombinesTo<AllowableStress>,
{
    let schedule = plan.unchecked_schedule()?;
    let mut found: Option<Outcome> = None;
    let more = |new: f64, old: f64| new > old * (1.0 + ALIKE);
    for post in plan.fence().posts() {
        let post = schedule.check(post)?;
        // What was asked and cannot be checked leaves the question open.
        if let Some(error) = post.site.unchecked().next() {
            return Err(*error);
        }
        let (governing, utilization) = worst_check::<C>(&post);
        let depth = DepthPoint {
            depth: post.check.required.depth(),
            post: post.post.number,
        };
        let planned = post.check.planned.is_some();
        let point = Point {
            utilization,
            post: post.post.number,
            governing,
            depth,
        };
        found = Some(match found {
            None => Outcome {
                point,
                planned,
                cautions: post.cautions(),
            },
            Some(old) => {
                let deepest = if more(depth.depth.value, old.point.depth.depth.value) {
                    depth
                } else {
                    old.point.depth
                };
                let worst = if more(utilization.ratio(), old.point.utilization.ratio()) {
                    point
                } else {
                    old.point
                };
                Outcome {
                    point: Point {
                        depth: deepest,
                        ..worst
                    },
                    planned: old.planned && planned,
                    cautions: old.cautions.and(post.cautions()),
                }
            }
        });
    }
    found.ok_or(Error::NotApplicable {
        field: "fence",
        reason: "it has no posts",
    })
}
