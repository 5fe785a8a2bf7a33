//! What more is asked of every post, on the wire: lean, frost, pull-out, weight
//! with bending, quantities.

use super::materials::BagSpec;
use super::reading::{Path, Problems, Steps};
use super::record::{names, records};
use super::value::{Size, Stress, UnitWeight};
use crate::check::{
    Checked, FrostOptions, FrostRemedy, Grip, GroundStiffness, LeanOptions, MaterialOptions,
    SideFriction, SiteChecks, SiteResults, UpliftOptions,
};
use crate::post::{AxialOptions, CompressionValues};
use crate::units::{FlexuralRigidity, Force, ForcePerVolume, Pressure, UnitSystem, Volume};
use crate::uplift::{FrozenGround, PullOutMode};
use crate::utilization::Utilization;

names! {
    FrostRemedy {
        "smooth_sleeve" => FrostRemedy::SmoothSleeve,
        "drained_gravel" => FrostRemedy::DrainedGravel,
    }
    FrictionName {
        "presumptive" => FrictionName::Presumptive,
        "allowable" => FrictionName::Allowable,
        "tested" => FrictionName::Tested,
    }
}

/// How friction on the side is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum FrictionName {
    /// A sixth of the vertical bearing.
    Presumptive,
    /// An allowable stress of your own.
    Allowable,
    /// An allowable stress from tests of this setting on site.
    Tested,
}

records! {
    /// Friction on the side; none unless asked for.
    SideFrictionSpec {
        /// How it is known.
        basis: FrictionName,
        /// The allowable stress, unless presumptive.
        stress: Option<Pressure>,
    }
    /// Lean of the top.
    LeanCheckSpec {
        /// The same stiffness k at every depth; instead of growing.
        constant: Option<Pressure>,
        /// A stiffness nh z that grows with depth.
        growing: Option<ForcePerVolume>,
        /// A limit of your own on movement of the top over height.
        limit: Option<f64>,
        /// EI, where the post has none of its own.
        rigidity: Option<FlexuralRigidity>,
    }
    /// Frost.
    FrostCheckSpec {
        /// Depth of the frost.
        depth: Size,
        /// What freezes to what; fine-grained ground on what it grips unless
        /// said.
        ground: Option<FrozenGround>,
        /// An adfreeze stress of your own.
        stress: Option<Pressure>,
        /// What switches the grip off.
        remedy: Option<FrostRemedy>,
        /// Friction below the frost.
        friction: Option<SideFrictionSpec>,
        /// Unit weight of the concrete; 145 pcf unless said.
        concrete: Option<UnitWeight>,
        /// Weight of the post; none unless said.
        post_weight: Option<Force>,
    }
    /// Pull-out by a force on each post.
    UpliftCheckSpec {
        /// The force upwards, allowable-stress level.
        force: Force,
        /// Friction on the side.
        friction: Option<SideFrictionSpec>,
        /// Look at treated wood sliding in concrete.
        wood_bond: Option<bool>,
        /// Allowable bond of your own between post and what it is set in.
        bond: Option<Stress>,
        /// Unit weight of the concrete; 145 pcf unless said.
        concrete: Option<UnitWeight>,
        /// Weight of the post; none unless said.
        post_weight: Option<Force>,
    }
    /// Weight with bending.
    AxialCheckSpec {
        /// K; 2.1 unless said.
        length_factor: Option<f64>,
        /// Fc of timber with its factors, without CD and CP.
        fc: Option<Stress>,
        /// Emin of timber with its factors.
        emin: Option<Stress>,
        /// Allowable axial load of a post of given strength.
        capacity: Option<Force>,
    }
    /// Quantities.
    MaterialsCheckSpec {
        /// Bag or kit.
        bag: BagSpec,
        /// Waste as a share; none unless said.
        waste: Option<f64>,
        /// Gravel base below the post; none unless said.
        base: Option<Size>,
    }
    /// What more is asked of every post.
    SiteChecksSpec {
        /// Lean.
        lean: Option<LeanCheckSpec>,
        /// Frost.
        frost: Option<FrostCheckSpec>,
        /// Pull-out.
        uplift: Option<UpliftCheckSpec>,
        /// Weight with bending.
        axial: Option<AxialCheckSpec>,
        /// Quantities.
        materials: Option<MaterialsCheckSpec>,
    }
    /// What came of what more was asked.
    SiteChecksResult {
        /// Movement of the top.
        lean: Option<Size>,
        /// Over the height.
        lean_ratio: Option<f64>,
        /// Against the limit.
        lean_utilization: Option<Utilization>,
        /// Movement at grade of an isolated pole.
        grade_movement: Option<Size>,
        /// Movement at grade over 1/2 in (13 mm), IBC 1806.3.4.
        grade_movement_utilization: Option<Utilization>,
        /// What frost lifts with.
        frost_lifts: Option<Force>,
        /// What holds against it.
        frost_holds: Option<Force>,
        /// Frost over what holds.
        frost_utilization: Option<Utilization>,
        /// What helps, where it does not stay.
        frost_remedy: Option<String>,
        /// What holds against pull-out.
        pull_out_resistance: Option<Force>,
        /// The weakest way.
        pull_out_weakest: Option<PullOutMode>,
        /// Uplift over resistance.
        pull_out_utilization: Option<Utilization>,
        /// Weight with bending.
        axial_bending: Option<Utilization>,
        /// Dug.
        hole: Option<Volume>,
        /// To fill.
        fill: Option<Volume>,
        /// Bags to buy.
        bags: Option<f64>,
        /// To carry.
        carry: Option<Force>,
        /// Why a check that was asked for could not be made.
        not_checked: Option<Vec<String>>,
    }
}

impl SideFrictionSpec {
    fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<SideFriction> {
        match (self.basis, self.stress) {
            (FrictionName::Presumptive, None) => Some(SideFriction::Presumptive),
            (FrictionName::Allowable, Some(stress)) => Some(SideFriction::Allowable(stress)),
            (FrictionName::Tested, Some(stress)) => Some(SideFriction::Tested(stress)),
            (FrictionName::Presumptive, Some(_)) => {
                problems.add(
                    &at.field("stress"),
                    None,
                    "presumptive friction has none given",
                );
                None
            }
            _ => {
                problems.add(&at.field("stress"), None, "give the allowable stress");
                None
            }
        }
    }
}

impl LeanCheckSpec {
    fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<LeanOptions> {
        let ground = match (self.constant, self.growing) {
            (Some(k), None) => problems.take(&at.field("constant"), GroundStiffness::constant(k)),
            (None, Some(nh)) => problems.take(&at.field("growing"), GroundStiffness::growing(nh)),
            _ => {
                problems.add(at, None, "give either constant or growing");
                None
            }
        };
        let mut steps = Steps::new(LeanOptions::new(ground?), at, problems);
        steps.step("limit", self.limit, LeanOptions::with_limit);
        steps.step("rigidity", self.rigidity, LeanOptions::with_rigidity);
        steps.done()
    }
}

impl FrostCheckSpec {
    fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<FrostOptions> {
        let grip = match (self.ground, self.stress) {
            (None, None) => Grip::FineGrained,
            (Some(ground), None) => Grip::Of(ground),
            (None, Some(stress)) => Grip::Given(stress),
            _ => {
                problems.add(at, None, "give either ground or stress, or neither");
                return None;
            }
        };
        let names = [("adfreeze stress", "stress"), ("frost depth", "depth")];
        let options = problems.take_by(at, &names, FrostOptions::new(self.depth.0, grip))?;
        let options = match self.remedy {
            Some(remedy) => options.with_remedy(remedy),
            None => options,
        };
        let mut steps = Steps::new(options, at, problems);
        steps.build(
            "friction",
            self.friction.as_ref(),
            SideFrictionSpec::build,
            FrostOptions::with_friction,
        );
        steps.step("concrete", self.concrete, |options, weight| {
            options.with_concrete(weight.0)
        });
        steps.step(
            "post_weight",
            self.post_weight,
            FrostOptions::with_post_weight,
        );
        steps.done()
    }
}

impl UpliftCheckSpec {
    fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<UpliftOptions> {
        let options = problems.take(&at.field("force"), UpliftOptions::new(self.force))?;
        if self.wood_bond == Some(true) && self.bond.is_some() {
            problems.add(&at.field("bond"), None, "give either wood_bond or bond");
            return None;
        }
        let options = if self.wood_bond == Some(true) {
            options.with_wood_bond()
        } else {
            options
        };
        let mut steps = Steps::new(options, at, problems);
        steps.build(
            "friction",
            self.friction.as_ref(),
            SideFrictionSpec::build,
            UpliftOptions::with_friction,
        );
        steps.step("bond", self.bond, |options, bond| options.with_bond(bond.0));
        steps.step("concrete", self.concrete, |options, weight| {
            options.with_concrete(weight.0)
        });
        steps.step(
            "post_weight",
            self.post_weight,
            UpliftOptions::with_post_weight,
        );
        steps.done()
    }
}

impl AxialCheckSpec {
    fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<AxialOptions> {
        let mut options = AxialOptions::default();
        match (self.fc, self.emin) {
            (Some(fc), Some(emin)) => {
                let values = CompressionValues::new(fc.0, emin.0);
                options = options.with_timber(problems.take(&at.field("fc"), values)?);
            }
            (None, None) => {}
            _ => {
                problems.add(at, None, "fc and emin go together");
                return None;
            }
        }
        let mut steps = Steps::new(options, at, problems);
        steps.step(
            "length_factor",
            self.length_factor,
            AxialOptions::with_length_factor,
        );
        steps.step("capacity", self.capacity, AxialOptions::with_capacity);
        steps.done()
    }
}

impl MaterialsCheckSpec {
    fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<MaterialOptions> {
        let bag = self.bag.build(&at.field("bag"), problems)?;
        let mut steps = Steps::new(MaterialOptions::new(bag), at, problems);
        steps.step("waste", self.waste, MaterialOptions::with_waste);
        steps.step("base", self.base, |options, base| options.with_base(base.0));
        steps.done()
    }
}

impl SiteChecksSpec {
    pub(super) fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<SiteChecks> {
        let mut checks = SiteChecks::default();
        let mut sound = true;
        if let Some(lean) = &self.lean {
            match lean.build(&at.field("lean"), problems) {
                Some(lean) => checks = checks.with_lean(lean),
                None => sound = false,
            }
        }
        if let Some(frost) = &self.frost {
            match frost.build(&at.field("frost"), problems) {
                Some(frost) => checks = checks.with_frost(frost),
                None => sound = false,
            }
        }
        if let Some(uplift) = &self.uplift {
            match uplift.build(&at.field("uplift"), problems) {
                Some(uplift) => checks = checks.with_uplift(uplift),
                None => sound = false,
            }
        }
        if let Some(axial) = &self.axial {
            match axial.build(&at.field("axial"), problems) {
                Some(axial) => checks = checks.with_axial(axial),
                None => sound = false,
            }
        }
        if let Some(materials) = &self.materials {
            match materials.build(&at.field("materials"), problems) {
                Some(materials) => checks = checks.with_materials(materials),
                None => sound = false,
            }
        }
        sound.then_some(checks)
    }
}

/// Why checks that were asked for could not be made.
pub(super) fn refusals(site: &SiteResults, system: UnitSystem) -> Option<Vec<String>> {
    let all: Vec<_> = site
        .refusals()
        .map(|why| why.in_system(system).to_string())
        .collect();
    (!all.is_empty()).then_some(all)
}

impl SiteChecksResult {
    /// Of a post; none where nothing was asked.
    pub(super) fn of(site: &SiteResults, system: UnitSystem) -> Option<Self> {
        let asked = !matches!(site.lean, Checked::NotAsked)
            || !matches!(site.frost, Checked::NotAsked)
            || !matches!(site.uplift, Checked::NotAsked)
            || !matches!(site.axial, Checked::NotAsked)
            || !matches!(site.materials, Checked::NotAsked);
        if !asked {
            return None;
        }
        let (lean, frost, uplift) = (site.lean.done(), site.frost.done(), site.uplift.done());
        let grade = lean.and_then(|check| check.at_grade);
        let materials = site.materials.done();
        Some(Self {
            lean: lean.map(|check| Size(check.lean.total())),
            lean_ratio: lean.map(|check| check.ratio),
            lean_utilization: lean.and_then(|check| check.utilization),
            grade_movement: grade.map(|check| Size(check.movement)),
            grade_movement_utilization: grade.map(|check| check.utilization),
            frost_lifts: frost.map(|check| check.balance.lifts),
            frost_holds: frost.map(|check| check.balance.holds),
            frost_utilization: frost.map(|check| check.utilization),
            frost_remedy: frost.and_then(|check| check.remedy().map(str::to_owned)),
            pull_out_resistance: uplift.map(|check| check.resistance.resistance),
            pull_out_weakest: uplift.map(|check| check.resistance.weakest),
            pull_out_utilization: uplift.map(|check| check.utilization),
            axial_bending: site.axial.done().map(|check| check.utilization),
            hole: materials.map(|all| all.hole),
            fill: materials.map(|all| all.fill),
            bags: materials.and_then(|all| all.bags).map(|bags| bags.buy),
            carry: materials.and_then(|all| all.bags).map(|bags| bags.carry),
            not_checked: refusals(site, system),
        })
    }
}
