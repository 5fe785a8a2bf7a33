//! The ground sideways: every ultimate method side by side, and how far a post
//! moves.

use super::design::DesignSpec;
use super::profile::ProfileSpec;
use super::reading::{Path, Problems};
use super::record::{names, records};
use super::request::{Asked, Calculation, Done};
use super::value::Size;
use crate::actions::GroundlineActions;
use crate::caution::{Caution, Cautions};
use crate::lateral::{Mode, NeededDepth};
use crate::limit_state::AllowableStress;
use crate::post::Lean;
use crate::response::{ClayCurve, Loading, PostModel, Springs};
use crate::side_by_side::SideBySide;
use crate::source;
use crate::units::{
    Angle, FlexuralRigidity, Force, ForcePerVolume, Length, LineLoad, Pressure, Torque, lb, n_m,
    n_sq_m,
};
use crate::utilization::Utilization;

names! {
    Mode {
        "ground" => Mode::Ground,
        "post_below" => Mode::PostBelow,
        "post_above" => Mode::PostAbove,
        "head" => Mode::Head,
        "head_and_post" => Mode::HeadAndPost,
    }
    Loading { "static" => Loading::Static, "cyclic" => Loading::Cyclic, }
    ClayCurve {
        "soft" => ClayCurve::Soft,
        "medium" => ClayCurve::Medium,
        "stiff" => ClayCurve::Stiff,
    }
    SpringLaw {
        "elastic" => SpringLaw::Elastic,
        "elastic_plastic" => SpringLaw::ElasticPlastic,
        "soil_curves" => SpringLaw::SoilCurves,
    }
}

/// How the ground pushes back.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum SpringLaw {
    /// By its stiffness alone.
    Elastic,
    /// By its stiffness up to its strength.
    ElasticPlastic,
    /// By curves of its soil.
    SoilCurves,
}

records! {
    /// Every ultimate method of the ground for one post, side by side.
    LateralMethodsRequest {
        /// The ground.
        profile: ProfileSpec,
        /// Width of the post or footing that bears, 0.02 m to 3 m.
        width: Size,
        /// Planned depth, 0.01 m to 30 m.
        planned_depth: Size,
        /// Shear at grade, allowable-stress level.
        shear: Force,
        /// Moment about grade.
        moment: Torque,
        /// Overall factor on the load for methods that want one.
        factor: f64,
        /// Load factor for UFC 3-220-20; 2.0, that of live load, unless given.
        ufc_load_factor: Option<f64>,
        /// Moment at which the post yields.
        yield_moment: Option<Torque>,
        /// EI of the post.
        rigidity: Option<FlexuralRigidity>,
        /// A design whose pole formula of the building code stands beside them.
        code: Option<DesignSpec>,
    }
    /// What one method says.
    MethodResult {
        /// Its name.
        method: String,
        /// Where its safety is.
        safety: String,
        /// The depth it asks for.
        required_depth: Option<Length>,
        /// More than this is asked for, the limit of the ground or the method.
        required_more_than: Option<Length>,
        /// The post yields first: no depth carries it.
        post_yields: bool,
        /// Why it does not apply.
        not_applicable: Option<String>,
        /// What the planned depth is used at.
        utilization: Option<Utilization>,
        /// What gives way at the planned depth.
        mode: Option<Mode>,
        /// Greatest moment in the post under the load itself.
        greatest_moment: Option<Torque>,
        /// A rigid method on a post that is not short for its ground.
        too_flexible: Option<bool>,
        /// A post or footing 5 % narrower needs less depth by this method.
        narrower_needs_less: bool,
    }
    /// Method by method.
    LateralMethodsResult {
        /// The methods.
        methods: Vec<MethodResult>,
    }
    /// A force on the post above grade.
    ForceAtSpec {
        /// Height above grade.
        height: Length,
        /// Force.
        force: Force,
    }
    /// Wind along a part of the post.
    WindAlongSpec {
        /// From this height above grade.
        from: Length,
        /// To this height.
        to: Length,
        /// Force per height.
        wind: LineLoad,
    }
    /// How far a post in the ground moves, leans and bends.
    ResponseRequest {
        /// EI of the post.
        rigidity: FlexuralRigidity,
        /// Width that bears.
        width: Size,
        /// Depth.
        depth: Size,
        /// Height of the post above grade; none unless said.
        height: Option<Length>,
        /// Layers of ground; instead of constant or growing.
        profile: Option<ProfileSpec>,
        /// How the layers push back; elastic_plastic unless said.
        law: Option<SpringLaw>,
        /// Loading, for soil_curves; cyclic unless said.
        loading: Option<Loading>,
        /// Clay curve, for soil_curves; soft unless said.
        clay: Option<ClayCurve>,
        /// Strain at half strength, for soil_curves; 0.01 unless said.
        strain: Option<f64>,
        /// The same stiffness k at every depth.
        constant: Option<Pressure>,
        /// A stiffness nh z that grows with depth.
        growing: Option<ForcePerVolume>,
        /// Forces above grade.
        forces: Option<Vec<ForceAtSpec>>,
        /// Winds along the post.
        winds: Option<Vec<WindAlongSpec>>,
        /// Moment at grade.
        moment: Option<Torque>,
        /// Axial compression, for the second order; none unless said.
        axial: Option<Force>,
        /// Search the share of the load at collapse, up to this one.
        collapse_up_to: Option<f64>,
        /// Give every station along the post.
        stations: Option<bool>,
        /// Number of elements of the mesh below grade, 4 to 5 000; 40 by default.
        elements: Option<usize>,
    }
    /// A place along the post.
    StationResult {
        /// Depth below grade, negative above.
        depth: Length,
        /// Movement.
        deflection: Size,
        /// Rotation.
        rotation: Angle,
        /// Moment.
        moment: Torque,
        /// Shear.
        shear: Force,
        /// What the ground pushes back.
        reaction: LineLoad,
    }
    /// Movement of a post.
    ResponseResult {
        /// At grade.
        at_grade: StationResult,
        /// At the top.
        at_top: StationResult,
        /// At the toe.
        at_toe: StationResult,
        /// Greatest moment.
        greatest_moment: Torque,
        /// Its depth.
        depth_of_moment: Length,
        /// Movement of the top over the height above grade.
        lean_ratio: Option<f64>,
        /// Estimated error of the mesh in any movement along the post.
        deflection_error: Option<Size>,
        /// Estimated error of the mesh in any moment along the post.
        moment_error: Option<Torque>,
        /// What the post bends above grade.
        flexure: Option<Size>,
        /// Share of the load at which it collapses, where searched and found.
        collapse_at: Option<f64>,
        /// Every station.
        stations: Option<Vec<StationResult>>,
    }
}

impl LateralMethodsRequest {
    fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<SideBySide> {
        let profile = self.profile.build(&at.field("profile"), problems);
        let load = GroundlineActions::new(self.shear, self.moment, lb(0.0), AllowableStress::Basic);
        let names = [("shear", "shear"), ("moment", "moment")];
        let load = problems.take_by(at, &names, load);
        let sound = [
            self.yield_moment.map(|moment| {
                let most = n_m(1e9);
                let made = crate::error::within("yield moment", moment, n_m(1.0), most);
                problems.take(&at.field("yield_moment"), made).is_some()
            }),
            self.rigidity.map(|rigidity| {
                let most = n_sq_m(1e12);
                let made = crate::error::within("flexural rigidity", rigidity, n_sq_m(1.0), most);
                problems.take(&at.field("rigidity"), made).is_some()
            }),
        ];
        let size = crate::lateral::checked_width(self.width.0);
        let size = problems.take(&at.field("width"), size).is_some();
        let depth = crate::lateral::checked_depth(self.planned_depth.0);
        let depth = problems.take(&at.field("planned_depth"), depth).is_some();
        if sound.contains(&Some(false)) || !size || !depth {
            return None;
        }
        let made = SideBySide::new(
            profile?,
            self.width.0,
            load?,
            self.planned_depth.0,
            self.factor,
        );
        let names = [("overall factor", "factor"), ("shear", "shear")];
        let mut all = problems.take_by(at, &names, made)?;
        if let Some(design) = &self.code {
            let design = design.build_for_actions(&at.field("code"), problems)?;
            all = all.with_code(*design.formula());
        }
        if let Some(factor) = self.ufc_load_factor {
            let made = all.with_ufc_load_factor(factor);
            all = problems.take(&at.field("ufc_load_factor"), made)?;
        }
        if let Some(moment) = self.yield_moment {
            all = all.yielding_at(moment);
        }
        if let Some(rigidity) = self.rigidity {
            all = all.with_rigidity(rigidity);
        }
        Some(all)
    }
}

impl Calculation for LateralMethodsRequest {
    const CALCULATE: &'static str = "lateral_methods";
    type Result = LateralMethodsResult;

    fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
        self.build(at, problems);
    }

    fn run(
        &self,
        asked: Asked,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<LateralMethodsResult>> {
        let all = self.build(at, problems)?;
        let verdicts = all.verdicts();
        let methods = verdicts.iter().map(|verdict| {
            let needed = verdict.needed.ok();
            MethodResult {
                method: verdict.method.to_owned(),
                safety: verdict.format.to_string(),
                required_depth: needed.and_then(NeededDepth::depth),
                required_more_than: match needed {
                    Some(NeededDepth::MoreThan(depth)) => Some(depth),
                    _ => None,
                },
                post_yields: needed == Some(NeededDepth::PostYields),
                not_applicable: verdict
                    .needed
                    .err()
                    .map(|why| why.in_system(asked.system).to_string()),
                utilization: verdict.utilization,
                mode: verdict.mode,
                greatest_moment: verdict.greatest_moment,
                too_flexible: verdict.too_flexible,
                narrower_needs_less: verdict.narrower_needs_less,
            }
        });
        let result = LateralMethodsResult {
            methods: methods.collect(),
        };
        let factored = self.ufc_load_factor.is_none();
        let factored = factored.then_some(&source::UFC_LOAD_FACTORS);
        let sources = verdicts.iter().map(|verdict| verdict.source);
        let sources = sources.chain(factored);
        Some(Done::new(result, all.cautions(), sources))
    }
}

impl ResponseRequest {
    fn springs(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Springs> {
        match (&self.profile, self.constant, self.growing) {
            (Some(profile), None, None) => {
                let profile = profile.build(&at.field("profile"), problems)?;
                let made = match self.law.unwrap_or(SpringLaw::ElasticPlastic) {
                    SpringLaw::Elastic => Springs::elastic(&profile),
                    SpringLaw::ElasticPlastic => Springs::elastic_plastic(&profile),
                    SpringLaw::SoilCurves => Springs::curves_of_soil(
                        &profile,
                        self.loading.unwrap_or(Loading::Cyclic),
                        self.strain.unwrap_or(0.01),
                        self.clay.unwrap_or(ClayCurve::Soft),
                    ),
                };
                let place = at.field("profile");
                let strain = made
                    .as_ref()
                    .is_err_and(|e| e.field() == "strain at half strength");
                problems.take(if strain { at } else { &place }, made)
            }
            (None, Some(k), None) => problems.take(&at.field("constant"), Springs::constant(k)),
            (None, None, Some(nh)) => problems.take(&at.field("growing"), Springs::growing(nh)),
            _ => {
                problems.add(at, None, "give one of profile, constant and growing");
                None
            }
        }
    }

    fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<PostModel> {
        let curves = self.law == Some(SpringLaw::SoilCurves);
        for (name, given, allowed) in [
            (
                "law",
                self.law.is_some() && self.profile.is_none(),
                "it goes with profile",
            ),
            (
                "loading",
                self.loading.is_some() && !curves,
                "it goes with law soil_curves",
            ),
            (
                "clay",
                self.clay.is_some() && !curves,
                "it goes with law soil_curves",
            ),
            (
                "strain",
                self.strain.is_some() && !curves,
                "it goes with law soil_curves",
            ),
        ] {
            if given {
                problems.add(&at.field(name), None, allowed);
            }
        }
        let springs = self.springs(at, problems)?;
        let made = PostModel::new(self.rigidity, self.width.0, self.depth.0, springs);
        let names = [
            ("flexural rigidity", "rigidity"),
            ("width of the post or footing", "width"),
            ("depth", "depth"),
        ];
        let mut model = problems.take_by(at, &names, made)?;
        if let Some(height) = self.height {
            model = problems.take(&at.field("height"), model.standing(height))?;
        }
        let place = at.field("forces");
        for (index, force) in self.forces.iter().flatten().enumerate() {
            let names = [("height of the force", "height"), ("force", "force")];
            let made = model.with_force(force.height, force.force);
            model = problems.take_by(&place.place(index), &names, made)?;
        }
        let place = at.field("winds");
        for (index, wind) in self.winds.iter().flatten().enumerate() {
            let names = [
                ("foot of the wind", "from"),
                ("top of the wind", "to"),
                ("wind along the post", "wind"),
            ];
            let made = model.with_wind(wind.from, wind.to, wind.wind);
            model = problems.take_by(&place.place(index), &names, made)?;
        }
        if let Some(moment) = self.moment {
            model = problems.take(&at.field("moment"), model.with_moment(moment))?;
        }
        if let Some(axial) = self.axial {
            model = problems.take(&at.field("axial"), model.with_axial(axial))?;
        }
        if let Some(elements) = self.elements {
            let elements = u32::try_from(elements).unwrap_or(u32::MAX);
            model = problems.take(&at.field("elements"), model.with_elements(elements))?;
        }
        Some(model)
    }
}

impl Calculation for ResponseRequest {
    const CALCULATE: &'static str = "response";
    type Result = ResponseResult;

    fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
        self.build(at, problems);
    }

    fn run(
        &self,
        _: Asked,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<ResponseResult>> {
        let model = self.build(at, problems)?;
        let response = problems.take(at, model.solve())?;
        let collapse_at = match self.collapse_up_to {
            Some(most) => problems.take(&at.field("collapse_up_to"), model.collapse(most))?,
            None => None,
        };
        let station = |station: &crate::response::Station| StationResult {
            depth: station.depth,
            deflection: Size(station.deflection),
            rotation: station.rotation,
            moment: station.moment,
            shear: station.shear,
            reaction: station.reaction,
        };
        let all = (self.stations == Some(true))
            .then(|| response.stations().iter().map(station).collect());
        let error = response.error_estimate();
        let result = ResponseResult {
            at_grade: station(response.at_grade()),
            at_top: station(response.at_top()),
            at_toe: station(response.at_toe()),
            greatest_moment: response.greatest_moment().moment,
            depth_of_moment: response.greatest_moment().depth,
            lean_ratio: response.lean_ratio(),
            deflection_error: error.map(|error| Size(error.deflection)),
            moment_error: error.map(|error| error.moment),
            flexure: Lean::of_response(&response).map(|lean| Size(lean.flexure())),
            collapse_at,
            stations: all,
        };
        let cautions = Cautions::default().with(Caution::Slope);
        let sources = core::iter::once(&source::BEAM_COLUMN).chain(model.springs().sources());
        Some(Done::new(result, cautions, sources))
    }
}
