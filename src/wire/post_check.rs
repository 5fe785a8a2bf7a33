//! One post for actions at grade.

use super::design::DesignSpec;
use super::plan::depth;
use super::reading::{Path, Problems};
use super::record::{names, records};
use super::request::{Asked, Calculation, Done};
use super::value::Size;
use crate::actions::GroundlineActions;
use crate::check::{Condition, Governing, PostCheck, PostDesign};
use crate::combination::CombinesTo;
use crate::limit_state::AllowableStress;
use crate::source::{self, Citation};
use crate::units::{Force, Length, Torque, Volume};
use crate::utilization::Utilization;

names! {
    Governing {
        "embedment" => Governing::Embedment,
        "bending" => Governing::Bending,
        "shear" => Governing::Shear,
        "vertical_bearing" => Governing::VerticalBearing,
        "lean" => Governing::Lean,
        "frost_uplift" => Governing::FrostUplift,
        "pull_out" => Governing::PullOut,
        "axial_bending" => Governing::AxialBending,
        "grade_movement" => Governing::GradeMovement,
    }
    Condition {
        "half_inch_at_grade" => Condition::HalfInchAtGrade,
    }
}

records! {
    /// One post for actions at grade an engineer has, at allowable-stress
    /// level, square to a face.
    PostCheckRequest {
        /// Post, hole and ground.
        design: DesignSpec,
        /// Shear at grade.
        shear: Force,
        /// Moment about grade, of the same sign as a shear that overturns the
        /// same way.
        moment: Torque,
        /// Weight at grade, downwards; 0 or more.
        axial: Force,
        /// Depth planned or dug; without it the required depth is told and the
        /// ground not checked.
        planned_depth: Option<Size>,
    }
    /// Ground and post against the actions.
    CheckResult {
        /// Required depth below grade.
        required_depth: Length,
        /// Depth planned or dug.
        planned_depth: Option<Length>,
        /// Depth by which the planned depth is less than the required depth.
        missing_depth: Option<Length>,
        /// The worst utilization.
        utilization: Utilization,
        /// Of what.
        governing: Governing,
        /// Is every check made at most 1? Without a planned depth the ground is not
        /// among them.
        passes: bool,
        /// Condition that passing rests on: half_inch_at_grade where lateral bearing is
        /// doubled as for an isolated pole (IBC 1806.3.4).
        condition: Option<Condition>,
        /// The post fails whatever the depth.
        post_is_too_weak: bool,
        /// The required depth is beyond 12 ft.
        beyond_limit: bool,
        /// Of the ground; without a planned depth there is none.
        embedment: Option<Utilization>,
        /// Of the post in bending.
        bending: Utilization,
        /// Of the post in shear.
        shear: Utilization,
        /// Of the base, where the ground has a vertical pressure.
        vertical_bearing: Option<Utilization>,
        /// Shear at grade of the case that asks for the greatest depth.
        shear_at_grade: Force,
        /// Moment at grade of that case.
        moment_at_grade: Torque,
        /// Greatest moment in the post, of the case worst for it.
        greatest_moment: Torque,
        /// What the post may carry, square to a face.
        allowable_moment: Torque,
        /// Concrete, net, to a depth at which every check passes: the planned depth or
        /// else the required one; of a post of a fence, the depth to dig. Left out where
        /// no such depth is known.
        concrete: Option<Volume>,
    }
}

impl CheckResult {
    /// Of a check.
    pub(super) fn of<L: CombinesTo<AllowableStress>>(check: &PostCheck<L>) -> Self {
        let planned = check.planned.map(|planned| planned.depth());
        // At the required depth the ground passes; the rest is checked there too.
        let depth = if check.passes() {
            planned.or(Some(check.required.depth()))
        } else if check.failing().all(|check| check == Governing::Embedment) {
            Some(check.required.depth())
        } else {
            None
        };
        let bearing = Governing::VerticalBearing;
        Self {
            required_depth: check.required.depth(),
            planned_depth: planned,
            missing_depth: check.missing_depth(),
            utilization: check.utilization,
            governing: check.governing,
            passes: check.passes(),
            condition: check.condition(),
            post_is_too_weak: check.post_is_too_weak(),
            beyond_limit: check.required.beyond_limit(),
            embedment: check.planned.map(|planned| planned.utilization()),
            bending: check.strength.bending,
            shear: check.strength.shear,
            vertical_bearing: check.bearing.map(|_| check.utilization_of(bearing)),
            shear_at_grade: check.actions().shear(),
            moment_at_grade: check.actions().moment(),
            greatest_moment: check.strength.demand.moment(),
            allowable_moment: check.strength.strength.moment,
            concrete: depth.map(|depth| check.design().foundation().concrete_volume(depth)),
        }
    }
}

/// The sources of a check.
///
/// Writing the working to cite its every line takes longer than reading and
/// writing the JSON: it is for those who ask for it.
pub(super) fn sources<L: CombinesTo<AllowableStress>>(
    check: &PostCheck<L>,
) -> impl Iterator<Item = &'static Citation> {
    let bearing = check.bearing.map(|bearing| bearing.source());
    let pressure = check.bearing.map(|bearing| bearing.capacity_source);
    core::iter::once(check.source())
        .chain(sources_of(check.design()))
        .chain(bearing)
        .chain(pressure)
}

/// The sources of ground and post in a design, whatever the load.
pub(super) fn sources_of(design: &PostDesign) -> impl Iterator<Item = &'static Citation> + use<> {
    let ground = design.ground();
    let presumed = ground.class().map(|_| &source::IBC_1806_2);
    let doubled = ground.is_isolated_pole().then_some(&source::IBC_1806_3_4);
    let strength = design.post().strength();
    [
        Some(design.formula().equation().citation()),
        presumed,
        doubled,
        Some(&source::BELOW_GRADE),
        Some(strength.moment_source),
        Some(strength.shear_source),
    ]
    .into_iter()
    .flatten()
}

impl PostCheckRequest {
    fn build(
        &self,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<(PostDesign, GroundlineActions<AllowableStress>)> {
        let design = self.design.build_for_actions(&at.field("design"), problems);
        let level = self.design.combination.unwrap_or_default();
        let actions = GroundlineActions::new(self.shear, self.moment, self.axial, level);
        let names = [
            ("shear", "shear"),
            ("moment", "moment"),
            ("axial force", "axial"),
        ];
        let actions = problems.take_by(at, &names, actions);
        depth(self.planned_depth, at, problems);
        Some((design?, actions?))
    }
}

impl Calculation for PostCheckRequest {
    const CALCULATE: &'static str = "post_check";
    type Result = CheckResult;
    const HAS_WORKSHEET: bool = true;

    fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
        self.build(at, problems);
    }

    fn run(
        &self,
        asked: Asked,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<CheckResult>> {
        let (design, actions) = self.build(at, problems)?;
        let planned = self.planned_depth.map(|Size(depth)| depth);
        let check = PostCheck::of_actions(&design, &actions, planned);
        let check = problems.take(at, check)?;
        let result = CheckResult::of(&check);
        let done = Done::new(result, check.cautions(), sources(&check));
        Some(if asked.worksheet {
            let sheet = check.worksheet("Post", asked.system);
            done.citing(&sheet).with_worksheet(sheet)
        } else {
            done
        })
    }
}
