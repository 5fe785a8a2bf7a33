//! A single change of a plan, and how it is applied.

use crate::backwards::Search;
use crate::check::PostDesign;
use crate::error::Error;
use crate::foundation::{Hole, Restraint};
use crate::plan::FencePlan;
use crate::post::Post;
use crate::units::{Length, Measurable, Ratio};
use crate::wind::{Infill, WindCode};

/// The kind of a single change.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[non_exhaustive]
pub enum RemedyKind {
    /// Another depth of the hole.
    Depth,
    /// A wider hole, of a stock auger.
    HoleWidth,
    /// A larger post of the catalogue, of the same kind and material.
    LargerPost,
    /// The hole filled with concrete instead of what fills it.
    Concrete,
    /// Lateral bearing doubled as for an isolated pole (IBC 1806.3.4).
    IsolatedPole,
    /// Rigid paving against the post at grade (IBC 1807.3.2.2).
    Paving,
    /// Posts closer together.
    Spacing,
    /// Fewer boards: a lower solidity of the infill.
    Solidity,
    /// A lower fence.
    Height,
}

impl RemedyKind {
    /// Every kind, in the order tried.
    pub const ALL: [Self; 9] = [
        Self::Depth,
        Self::HoleWidth,
        Self::LargerPost,
        Self::Concrete,
        Self::IsolatedPole,
        Self::Paving,
        Self::Spacing,
        Self::Solidity,
        Self::Height,
    ];

    /// Returns its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Depth => "depth",
            Self::HoleWidth => "hole width",
            Self::LargerPost => "larger post",
            Self::Concrete => "concrete in the hole",
            Self::IsolatedPole => "isolated pole",
            Self::Paving => "rigid paving at grade",
            Self::Spacing => "post spacing",
            Self::Solidity => "fewer boards",
            Self::Height => "lower fence",
        }
    }

    /// Returns whether the change applies to the whole fence, not to failing posts alone.
    pub const fn is_of_fence(self) -> bool {
        matches!(self, Self::Spacing | Self::Solidity | Self::Height)
    }
}

impl core::fmt::Display for RemedyKind {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.pad(self.name())
    }
}

/// A single change of a plan.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Change {
    /// Holes of the failing posts dug to this depth.
    Depth(Length),
    /// Holes of the failing posts at least this wide: diameter, or side of a square.
    HoleWidth(Length),
    /// This post in place of the failing ones.
    LargerPost(Post),
    /// Concrete in the holes of the failing posts; this hole where none is known.
    Concrete(Hole),
    /// Lateral bearing doubled at the failing posts.
    IsolatedPole,
    /// Rigid paving at grade at the failing posts.
    Paving,
    /// Posts of every run at most this far apart.
    Spacing(Length),
    /// Infill of every run at most this solid.
    Solidity(Ratio),
    /// Every run at most this high above ground.
    Height(Length),
}

/// A condition on which a change may be used. It is for the engineer and the
/// building official to accept; no check of this crate replaces it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Condition {
    /// A movement of 1/2 in at the ground surface does no harm (IBC 1806.3.4).
    HalfInchOfMovement,
    /// A rigid floor or pavement bears against the post at grade and stays there (IBC
    /// 1807.3.2.2); asphalt and pavers are not rigid.
    RigidPavement,
}

impl Condition {
    /// Returns the condition in words.
    pub const fn text(self) -> &'static str {
        match self {
            Self::HalfInchOfMovement => {
                "on condition that a movement of 1/2 in at the ground surface does no harm (IBC \
                 1806.3.4)"
            }
            Self::RigidPavement => {
                "on condition that a rigid floor or pavement bears against the post at grade and \
                 stays there (IBC 1807.3.2.2)"
            }
        }
    }
}

impl Change {
    /// Returns its kind.
    pub const fn kind(&self) -> RemedyKind {
        match self {
            Self::Depth(_) => RemedyKind::Depth,
            Self::HoleWidth(_) => RemedyKind::HoleWidth,
            Self::LargerPost(_) => RemedyKind::LargerPost,
            Self::Concrete(_) => RemedyKind::Concrete,
            Self::IsolatedPole => RemedyKind::IsolatedPole,
            Self::Paving => RemedyKind::Paving,
            Self::Spacing(_) => RemedyKind::Spacing,
            Self::Solidity(_) => RemedyKind::Solidity,
            Self::Height(_) => RemedyKind::Height,
        }
    }

    /// Returns the condition on which the change may be used, if there is one.
    pub const fn condition(&self) -> Option<Condition> {
        match self {
            Self::IsolatedPole => Some(Condition::HalfInchOfMovement),
            Self::Paving => Some(Condition::RigidPavement),
            _ => None,
        }
    }

    /// The design and planned depth of a post with the change.
    pub(super) fn of_design(
        &self,
        design: &PostDesign,
        planned: Option<Length>,
    ) -> Result<(PostDesign, Option<Length>), Error> {
        let design = *design;
        let foundation = *design.foundation();
        let changed = match self {
            Self::Depth(depth) => return Ok((design, Some(*depth))),
            Self::HoleWidth(size) => match foundation.hole() {
                Some(hole) if hole.size() < *size => design.in_hole(hole.resized(*size)?)?,
                _ => design,
            },
            Self::LargerPost(post) => design.with_post(*post)?,
            Self::Concrete(_) if foundation.hole().is_some() => design,
            Self::Concrete(hole) => {
                design.filled_with_concrete(*foundation.dug_hole().unwrap_or(hole))?
            }
            Self::IsolatedPole => design.in_ground(design.ground().as_isolated_pole()),
            Self::Paving => design.restrained_by(Restraint::RigidPaving),
            Self::Spacing(_) | Self::Solidity(_) | Self::Height(_) => design,
        };
        Ok((changed, planned))
    }

    /// Returns the plan with the change; a change of design applies to the posts
    /// of these numbers.
    ///
    /// # Errors
    /// A change that the fence or a design refuses.
    pub fn applied<C: WindCode>(
        &self,
        plan: &FencePlan<C>,
        posts: &[usize],
    ) -> Result<FencePlan<C>, Error> {
        if self.kind().is_of_fence() {
            return self.of_fence(plan);
        }
        let mut changed = plan.clone();
        for post in plan.fence().posts() {
            if posts.binary_search(&post.number).is_ok() {
                let (design, planned) = plan.design_for(post);
                let (design, planned) = self.of_design(design, planned)?;
                changed = changed.with_post(post.number, design, planned);
            }
        }
        Ok(changed)
    }

    fn of_fence<C: WindCode>(&self, plan: &FencePlan<C>) -> Result<FencePlan<C>, Error> {
        let fence = plan.fence().changing_runs(|run| match self {
            Self::Spacing(spacing) if run.spacing() > *spacing => run.with_spacing(*spacing),
            Self::Height(top) if run.panel().top() > *top => {
                let panel = run.panel().with_top(*top)?;
                Ok(run.with_panel(panel))
            }
            Self::Solidity(solidity) if run.panel().solidity() > solidity.value => {
                let infill = Infill::given(solidity.value, run.panel().infill().member())?;
                let panel = run.panel().with_infill(infill);
                Ok(run.with_panel(panel))
            }
            _ => Ok(run),
        })?;
        Ok(plan.clone().with_fence(fence))
    }
}

/// The values below a present one, by steps, down to a least one.
#[derive(Debug, Clone, Copy)]
pub(super) struct Downwards<Q> {
    /// The first value, in steps from zero.
    whole: f64,
    step: Q,
    steps: u32,
}

impl<Q: Measurable> Downwards<Q> {
    /// Whole steps below `present`; none where there is none above `least`.
    pub(super) fn new(present: Q, least: Q, step: Q) -> Option<Self> {
        // A value this close to a whole step is that step, and not below it.
        let whole = (present.si() / step.si() - 1e-6).ceil() - 1.0;
        let first = Q::from_si(whole * step.si());
        let search = Search::new(least, first, step).ok()?;
        Some(Self {
            whole,
            step,
            steps: search.steps(),
        })
    }

    /// How many values there are.
    pub(super) const fn count(&self) -> u32 {
        self.steps + 1
    }

    /// The value of an index from 1.
    pub(super) fn value(&self, index: u32) -> Q {
        let back = f64::from(index.saturating_sub(1));
        Q::from_si((self.whole - back) * self.step.si())
    }
}
