//! The check of one post.

mod working;

use super::{Condition, Governing, PostDesign};
use crate::actions::{GroundlineActions, LoadCase};
use crate::bearing::BearingCheck;
use crate::caution::{Caution, Cautions};
use crate::combination::CombinesTo;
use crate::embedment::{DepthCheck, RequiredDepth};
use crate::error::Error;
use crate::limit_state::{AllowableStress, LimitState, Strength};
use crate::post::{BelowGrade, PostStrengthCheck};
use crate::source::{Citation, Mark};
use crate::units::{Length, ft};
use crate::utilization::Utilization;

/// The check of one post. It holds no heap memory, and its working is written
/// on demand.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct PostCheck<L: LimitState = Strength> {
    design: PostDesign,
    /// The case that asks for the greatest depth; none where the actions were
    /// given at allowable-stress level.
    pub required_case: Option<LoadCase<L>>,
    /// The depth it asks for.
    pub required: RequiredDepth,
    /// The planned depth, if there is one, against the case worst for it.
    pub planned: Option<DepthCheck>,
    /// That case.
    pub planned_case: Option<LoadCase<L>>,
    /// The case worst for the post itself.
    pub strength_case: Option<LoadCase<L>>,
    /// The post against it, with the moment and shear of a rigid post at the required
    /// depth, whatever the planned one. The ground pressures that hold the post there
    /// are still in balance and allowed in any deeper hole (static theorem;
    /// [`crate::source::BELOW_GRADE`]), so a deeper hole never makes the post worse; in a
    /// hole too shallow the ground fails first. Bending falls where the required depth
    /// falls, as in a wider hole or better ground; the reversed shear near the bottom
    /// rises there. Where there is no load the required depth is zero, and 0.1 ft is
    /// taken. The wind is that of
    /// [`crate::combination::Combination::without_increase`].
    pub strength: PostStrengthCheck,
    /// The base, where the ground has a vertical pressure, under the heaviest case.
    pub bearing: Option<BearingCheck>,
    /// What governs.
    pub governing: Governing,
    /// Its utilization. Without a planned depth the ground counts as used up
    /// exactly (1), since the depth is the required one.
    pub utilization: Utilization,
}

/// Allowable-stress actions for the ground and for the post, the case they come
/// from, and whether their moment may have any direction.
type Considered<L> = (
    GroundlineActions<AllowableStress>,
    GroundlineActions<AllowableStress>,
    Option<LoadCase<L>>,
    bool,
);

impl PostCheck {
    /// Checks one post for actions an engineer has at allowable-stress level,
    /// square to a face of the post. Their own load combinations hold, not
    /// those of the design, for the ground and for the post alike: with the
    /// alternative family the post is charged the ω that is in them.
    ///
    /// # Errors
    /// As [`PostCheck::new`].
    ///
    /// ```
    /// # use groundline::{actions::*, check::*, foundation::Hole, ground::*, post::*, section::*};
    /// # use groundline::{limit_state::AllowableStress, units::*};
    /// # let steel = SteelStrength::new(ksi(50.0))?;
    /// # let pipe = PipePost::new(Tube::new(inch(2.375), inch(0.13))?, steel)?;
    /// # let ground = Ground::presumptive(SoilClass::Class4);
    /// let design = PostDesign::in_concrete(ground, pipe.into(), Hole::round(inch(10.0))?)?;
    /// let load =
    ///     GroundlineActions::new(lb(150.0), lb_ft(500.0), lb(0.0), AllowableStress::Basic)?;
    /// let check = PostCheck::of_actions(&design, &load, Some(inch(36.0)))?;
    /// println!("{} at {}", check.governing, check.utilization);
    /// # Ok::<(), groundline::Error>(())
    /// ```
    pub fn of_actions(
        design: &PostDesign,
        actions: &GroundlineActions<AllowableStress>,
        planned: Option<Length>,
    ) -> Result<Self, Error> {
        Self::consider(
            design,
            core::iter::once((*actions, *actions, None, false)),
            planned,
        )
    }
}

impl<L: LimitState> PostCheck<L> {
    /// What was checked.
    pub const fn design(&self) -> &PostDesign {
        &self.design
    }

    /// Returns the condition that a verdict of passing rests on: that of an isolated
    /// pole ([`crate::ground::Ground::as_isolated_pole`]), whose movement at grade is
    /// not checked here. Of a post of a schedule see
    /// [`crate::plan::ScheduledPost::condition`].
    pub fn condition(&self) -> Option<Condition> {
        let doubled = self.design.ground().is_isolated_pole();
        doubled.then_some(Condition::HalfInchAtGrade)
    }
}

impl<L: CombinesTo<AllowableStress>> PostCheck<L> {
    /// Checks one post for its load cases, at a planned depth if there is one.
    ///
    /// # Errors
    /// No load case; planned depth outside 0.01 to 300 ft; increases of
    /// lateral bearing that must not be combined.
    #[inline]
    pub fn new(
        design: &PostDesign,
        cases: &[LoadCase<L>],
        planned: Option<Length>,
    ) -> Result<Self, Error> {
        Self::consider(
            design,
            cases.iter().map(|case| {
                let actions = case.wind.combined(&case.dead, design.combination());
                (
                    actions,
                    design.post_actions(case, &actions),
                    Some(*case),
                    case.is_skew(),
                )
            }),
            planned,
        )
    }

    #[inline]
    fn consider(
        design: &PostDesign,
        considered: impl Iterator<Item = Considered<L>> + Clone,
        planned: Option<Length>,
    ) -> Result<Self, Error> {
        let formula = design.formula();
        let none = Error::NotApplicable {
            field: "load cases",
            reason: "there is none to check",
        };
        let mut required: Option<(RequiredDepth, Option<LoadCase<L>>)> = None;
        let mut plan: Option<(DepthCheck, Option<LoadCase<L>>)> = None;
        for (actions, _, case, _) in considered.clone() {
            let depth = formula.required(&actions)?;
            if required.is_none_or(|(worst, _)| depth.depth() > worst.depth()) {
                required = Some((depth, case));
            }
            if let Some(planned) = planned {
                let check = formula.check(&actions, planned)?;
                if plan.is_none_or(|(worst, _)| check.utilization() > worst.utilization()) {
                    plan = Some((check, case));
                }
            }
        }
        let (required, required_case) = required.ok_or(none)?;

        let top = design.ground().discounted_top();
        let (least, counts) = (ft(0.1), required.depth_that_counts());
        let counts = if counts > least { counts } else { least };
        let restraint = design.foundation().restraint();
        let mut strength: Option<(PostStrengthCheck, Option<LoadCase<L>>)> = None;
        let mut bearing: Option<BearingCheck> = None;
        for (actions, of_post, case, skew) in considered {
            let demand = BelowGrade::new(&of_post, counts, top, restraint)?;
            let check = PostStrengthCheck::new(demand, design.strength, skew);
            if strength.is_none_or(|(worst, _)| check.worst() > worst.worst()) {
                strength = Some((check, case));
            }
            // On a fence the weight is the same in every case; cases given need not agree.
            let base = BearingCheck::new(&actions, design.ground(), design.foundation());
            if let Some(base) = base
                && bearing.is_none_or(|worst| base.utilization > worst.utilization)
            {
                bearing = Some(base);
            }
        }
        let (strength, strength_case) = strength.ok_or(none)?;

        let mut check = Self {
            design: *design,
            required_case,
            required,
            planned: plan.map(|(check, _)| check),
            planned_case: plan.and_then(|(_, case)| case),
            strength_case,
            strength,
            bearing,
            governing: Governing::Embedment,
            utilization: Utilization::ZERO,
        };
        check.utilization = check.utilization_of(Governing::Embedment);
        for other in [
            Governing::Bending,
            Governing::Shear,
            Governing::VerticalBearing,
        ] {
            let utilization = check.utilization_of(other);
            if utilization > check.utilization {
                (check.governing, check.utilization) = (other, utilization);
            }
        }
        Ok(check)
    }

    /// The depth the post stands in: as planned, or else as required.
    pub fn depth(&self) -> Length {
        self.planned
            .map_or(self.required.depth(), |check| check.depth())
    }

    /// The utilization of one check: zero for those that are made only where
    /// asked for ([`crate::check::SiteChecks`]).
    #[inline]
    pub fn utilization_of(&self, check: Governing) -> Utilization {
        match check {
            Governing::Embedment => match &self.planned {
                Some(check) => check.utilization(),
                None => Utilization::FULL,
            },
            Governing::Bending => self.strength.bending,
            Governing::Shear => self.strength.shear,
            Governing::VerticalBearing => match &self.bearing {
                Some(check) => check.utilization,
                None => Utilization::ZERO,
            },
            // Made outside, where asked for.
            Governing::Lean
            | Governing::FrostUplift
            | Governing::PullOut
            | Governing::AxialBending
            | Governing::GradeMovement => Utilization::ZERO,
        }
    }

    /// Every check that fails, of those made here.
    pub fn failing(&self) -> impl Iterator<Item = Governing> + '_ {
        Governing::ALL
            .into_iter()
            .filter(|check| !self.utilization_of(*check).passes())
    }

    /// Does every check made here pass? See also [`PostCheck::condition`].
    pub fn passes(&self) -> bool {
        self.utilization.passes()
    }

    /// Does the post itself fail whatever the depth of this hole? Bending and shear are
    /// those of the required depth, whatever the planned one, so no other depth changes
    /// them. A wider hole needs less depth, and so has a lesser moment below grade.
    pub fn post_is_too_weak(&self) -> bool {
        !self.strength.worst().passes()
    }

    /// Where the governing check comes from.
    pub fn source(&self) -> &'static Citation {
        match self.governing {
            Governing::Embedment => self.required.equation().citation(),
            Governing::Bending => self.strength.strength.moment_source,
            Governing::Shear => self.strength.strength.shear_source,
            // Vertical bearing: those made outside are never the worst here.
            _ => &crate::source::IBC_1807_3_2_3,
        }
    }

    /// Allowable-stress actions at grade of the case that asks for the greatest
    /// depth.
    pub const fn actions(&self) -> &GroundlineActions<AllowableStress> {
        self.required.actions()
    }

    /// The cautions that go with it.
    pub fn cautions(&self) -> Cautions {
        let planned = self.planned.map_or(Cautions::default(), |c| c.cautions());
        Cautions::default()
            .with(Caution::Barrier)
            .and(self.required.cautions())
            .and(planned)
            .and(self.design.cautions())
            .and(self.design.post().cautions())
            .with_if(
                self.design.combination().source().mark == Mark::FromMemory,
                Caution::FromMemory,
            )
            .with_if(
                self.design.combination().source().mark == Mark::Given,
                Caution::OwnFactors,
            )
            .with_if(
                self.bearing
                    .is_some_and(|bearing| bearing.demand.value <= 0.0),
                Caution::NoWeight,
            )
            .with_if(self.bearing.is_none(), Caution::NoVerticalBearing)
    }
}
