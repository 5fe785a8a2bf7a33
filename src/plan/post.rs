//! One post of a schedule: its load cases, its checks, its verdict.

use crate::actions::LoadCases;
use crate::caution::Cautions;
use crate::check::{Condition, Governing, PostCheck, SiteResults};
use crate::combination::CombinesTo;
use crate::fence::FencePost;
use crate::limit_state::{AllowableStress, LimitState, Strength};
use crate::utilization::Utilization;

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
    pub(super) cautions: Cautions,
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

    /// Returns the worst of every check made: those of [`PostCheck`] and the optional
    /// ones. A check that was requested and refused is not part of it, nor of
    /// [`ScheduledPost::utilization`] and [`ScheduledPost::passes`]: see
    /// [`SiteResults::refusals`], [`ScheduledPost::passes_every_check`] and
    /// [`Caution::NotAllChecked`](crate::caution::Caution::NotAllChecked).
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
