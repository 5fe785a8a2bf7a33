//! The single changes that pass, and why the others do not.

use super::{Change, Condition, RemedyKind};
use crate::check::Governing;
use crate::error::Error;
use crate::plan::FencePlan;
use crate::units::{Length, Ratio};
use crate::utilization::Utilization;
use crate::wind::WindCode;

/// A single change with which every check passes.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Remedy {
    /// The change, the least of its kind.
    pub change: Change,
    /// The post with the greatest utilization after the change, of those that the
    /// change concerns.
    pub post: usize,
    /// The check that governs there.
    pub governing: Governing,
    /// Its utilization.
    pub utilization: Utilization,
    /// The condition on which the change may be used.
    pub condition: Option<Condition>,
}

impl Remedy {
    /// Returns its kind.
    pub const fn kind(&self) -> RemedyKind {
        self.change.kind()
    }
}

/// What was tried of one kind of change.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum TriedRange {
    /// The one change there is.
    Once,
    /// Depths, widths, spacings or heights, from the least change to the greatest.
    Lengths(Length, Length),
    /// Solidities, from the least change to the greatest.
    Ratios(Ratio, Ratio),
    /// So many posts of the catalogue.
    Posts(usize),
}

/// Why a kind of change does not help.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum WhyNot {
    /// A check fails at every value tried.
    StillFails {
        /// The values tried.
        tried: TriedRange,
        /// The worst post at the greatest change tried.
        post: usize,
        /// The check that fails there.
        governing: Governing,
        /// Its utilization there.
        utilization: Utilization,
    },
    /// A check fails whose result does not depend on the depth of the hole; deeper
    /// holes were not tried.
    FailsAtAnyDepth {
        /// The depth at which it was checked.
        at: Length,
        /// The worst post there.
        post: usize,
        /// The check that fails.
        governing: Governing,
        /// Its utilization.
        utilization: Utilization,
    },
    /// No change tried can be built or checked; the reason of the last.
    Refused(Error),
    /// Nothing to change: the failing posts are so already, or the catalogue holds
    /// nothing larger. A short reason.
    NotApplicable(&'static str),
}

/// A kind of change that does not make the posts pass.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct NotRemedied {
    /// The kind.
    pub kind: RemedyKind,
    /// Why.
    pub why: WhyNot,
}

/// The single changes that make a failing post or plan pass.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Remedies {
    /// The post in question; none for the whole plan.
    pub post: Option<usize>,
    /// The numbers of the posts that fail, ascending; none where nothing fails, and
    /// nothing is tried then.
    pub failing: Vec<usize>,
    /// The changes that pass, by kind, the least of each. Empty exactly where nothing
    /// tried passes, or nothing fails.
    pub found: Vec<Remedy>,
    /// The kinds that do not help.
    pub others: Vec<NotRemedied>,
    /// How many values were tried.
    pub trials: usize,
}

impl Remedies {
    /// Returns the remedy of a kind, if there is one.
    pub fn of_kind(&self, kind: RemedyKind) -> Option<&Remedy> {
        self.found.iter().find(|remedy| remedy.kind() == kind)
    }

    /// Returns why a kind of change does not help, if it was tried and does not.
    pub fn why_not(&self, kind: RemedyKind) -> Option<&WhyNot> {
        let other = self.others.iter().find(|other| other.kind == kind);
        other.map(|other| &other.why)
    }

    /// Returns the plan with one of these remedies.
    ///
    /// # Errors
    /// A plan other than the one in question, which may refuse the change.
    pub fn applied<C: WindCode>(
        &self,
        plan: &FencePlan<C>,
        remedy: &Remedy,
    ) -> Result<FencePlan<C>, Error> {
        remedy.change.applied(plan, &self.failing)
    }
}
