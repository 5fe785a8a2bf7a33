//! Pull-out, frost, and what to carry.

use super::profile::ProfileSpec;
use super::reading::{Path, Problems};
use super::record::{alternatives, names, records};
use super::request::{Asked, Calculation, Done};
use super::value::{Size, Stress, UnitWeight};
use crate::backfill::{Bag, Setting, annulus};
use crate::caution::{Caution, Cautions};
use crate::combination::Combination;
use crate::error::Error;
use crate::foundation::HoleShape;
use crate::limit_state::AllowableStress;
use crate::profile::Profile;
use crate::source::{self, Citation};
use crate::units::{Angle, Force, Length, Measurable, Pressure, Volume, ft, lb};
use crate::uplift::{
    Adfreeze, Bond, Breakout, FreezingIndex, Friction, FrostBalance, FrozenGround, HowKnown,
    LatentHeat, PullOut, PullOutMode, Shaft, ThermalConductivity, frost_depth,
    presumptive_friction,
};
use crate::utilization::Utilization;

names! {
    HowKnown { "analysis" => HowKnown::Analysis, "tests" => HowKnown::Tests, }
    PullOutMode {
        "footing_slides" => PullOutMode::FootingSlides,
        "soil_lifts" => PullOutMode::SoilLifts,
        "post_slides" => PullOutMode::PostSlides,
    }
    FrozenGround {
        "fine_on_wood_or_concrete" => FrozenGround::FineOnWoodOrConcrete,
        "fine_on_steel" => FrozenGround::FineOnSteel,
        "gravel_on_steel" => FrozenGround::GravelOnSteel,
    }
    Setting {
        "poured_concrete" => Setting::PouredConcrete,
        "expanding_foam" => Setting::ExpandingFoam,
        "compacted_gravel" => Setting::CompactedGravel,
        "tamped_soil" => Setting::TampedSoil,
        "driven" => Setting::Driven,
    }
}

records! {
    /// An allowable friction, one sixth of this vertical pressure, capped.
    PresumptiveFrictionSpec {
        /// Allowable vertical foundation pressure.
        bearing: Pressure,
    }
    /// An ultimate friction given.
    GivenFrictionSpec {
        /// The same at every depth.
        stress: Pressure,
    }
    /// α su.
    AlphaSpec {
        /// α; by depth as API RP 2A unless said.
        alpha: Option<f64>,
    }
    /// K σ′ tan δ.
    BetaSpec {
        /// K of tension.
        k: f64,
        /// δ.
        delta: Angle,
    }
    /// The part of a shaft that friction holds.
    ShaftSpec {
        /// Round or square.
        shape: HoleShape,
        /// Diameter or side.
        size: Size,
        /// Depth of its toe.
        depth: Size,
        /// Top part that does not count: frost, seasonal cracks.
        excluded: Size,
    }
    /// A plate, bell or collar that breaks out of sand.
    PlateSpec {
        /// Friction angle of the sand.
        friction_angle: Angle,
        /// Its unit weight, buoyant below water.
        unit_weight: UnitWeight,
        /// Diameter.
        diameter: Size,
        /// Depth.
        depth: Size,
    }
    /// What keeps the post in its footing.
    BondSpec {
        /// Allowable stress; instead of wood_in_concrete.
        stress: Option<Stress>,
        /// Treated wood cast in concrete, 30 psi; instead of stress.
        wood_in_concrete: Option<bool>,
        /// Perimeter of the post.
        perimeter: Size,
        /// Bonded length.
        length: Size,
    }
    /// Every way a post may be pulled out.
    PullOutRequest {
        /// Weight of the post.
        post_weight: Force,
        /// Weight of the footing.
        footing_weight: Force,
        /// Friction along the footing.
        friction: Option<FrictionSpec>,
        /// Of this shaft.
        shaft: Option<ShaftSpec>,
        /// How the friction is known; by analysis unless said.
        known: Option<HowKnown>,
        /// The ground, for friction that depends on it.
        profile: Option<ProfileSpec>,
        /// Weight of the soil a collar lifts.
        lifted_soil: Option<Force>,
        /// A plate, bell or collar that breaks out of sand.
        plate: Option<PlateSpec>,
        /// Volume of the footing below water.
        below_water: Option<Volume>,
        /// Bond between post and footing.
        bond: Option<BondSpec>,
        /// Uplift at allowable-stress level to compare with.
        uplift: Option<Force>,
        /// Load combinations; basic unless said.
        combination: Option<AllowableStress>,
    }
    /// What holds a post down.
    PullOutResult {
        /// Allowable resistance of the weakest way.
        resistance: Force,
        /// The weakest way.
        weakest: PullOutMode,
        /// If the footing slides in the ground.
        footing_slides: Option<Force>,
        /// If the footing lifts the soil above it.
        soil_lifts: Option<Force>,
        /// If the post slides in its footing.
        post_slides: Option<Force>,
        /// Uplift over resistance.
        utilization: Option<Utilization>,
    }
    /// How deep frost goes (Stefan, or modified Berggren with lambda).
    FrostDepthRequest {
        /// Thermal conductivity, W/(m·K).
        conductivity_watt_per_m_k: f64,
        /// Surface factor n.
        surface_factor: f64,
        /// Air freezing index, °C·days.
        freezing_index_celsius_days: f64,
        /// Latent heat, MJ/m³.
        latent_heat_mj_per_cu_m: f64,
        /// λ; 1 unless said.
        lambda: Option<f64>,
    }
    /// A depth of frost.
    FrostDepthResult {
        /// Depth.
        depth: Length,
    }
    /// What frost lifts with against what holds.
    FrostBalanceRequest {
        /// Depth of the frost.
        frost_depth: Size,
        /// What freezes to what; instead of stress.
        ground: Option<FrozenGround>,
        /// Adfreeze stress; instead of ground.
        stress: Option<Pressure>,
        /// Perimeter gripped.
        perimeter: Size,
        /// Depth of the toe.
        depth: Size,
        /// Weight and load that hold it down, factored.
        dead: Force,
        /// Friction below the frost, allowable; none unless said.
        anchorage: Option<Force>,
    }
    /// Does it stay?
    FrostBalanceResult {
        /// What lifts.
        lifts: Force,
        /// What holds.
        holds: Force,
        /// The toe ends in the frost.
        ends_in_frost: bool,
        /// Does it stay?
        stays: bool,
        /// What helps, where it does not.
        remedy: Option<String>,
    }
    /// A bag of dry mix, or a two-part kit.
    BagSpec {
        /// Weight; 40, 50, 60 and 80 lb yield as packaged unless said.
        weight: Force,
        /// What it yields.
        yields: Option<Volume>,
    }
    /// What to buy and carry for a post.
    MaterialsRequest {
        /// What it is set in.
        setting: Setting,
        /// The hole.
        hole: super::design::HoleSpec,
        /// The section of the post.
        section: super::post::SectionSpec,
        /// Depth.
        depth: Size,
        /// Gravel base; none unless said.
        base: Option<Size>,
        /// Bag or kit.
        bag: Option<BagSpec>,
        /// Waste as a share; none unless said.
        waste: Option<f64>,
        /// How many posts; one unless said.
        posts: Option<usize>,
        /// Has what it is set in rested before it is loaded?
        rested: Option<bool>,
    }
    /// What to buy and carry.
    MaterialsResult {
        /// Dug, a post.
        hole: Volume,
        /// To fill, a post.
        fill: Volume,
        /// Bags a post, exact.
        bags_exact: Option<f64>,
        /// Bags to buy a post, each hole filled from whole bags.
        bags: Option<f64>,
        /// To carry a post.
        carry: Option<Force>,
        /// Bags to buy for all posts, shared between holes.
        bags_in_all: Option<f64>,
        /// To carry for all posts.
        carry_in_all: Option<Force>,
    }
}

alternatives! {
    /// Friction of a shaft in the ground.
    FrictionSpec {
        /// Presumptive.
        "presumptive" => Presumptive(PresumptiveFrictionSpec),
        /// Given.
        "given" => Given(GivenFrictionSpec),
        /// By undrained strength.
        "alpha" => Alpha(AlphaSpec),
        /// By effective stress.
        "beta" => Beta(BetaSpec),
    }
}

impl FrictionSpec {
    fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Friction> {
        let made = match self {
            Self::Presumptive(spec) => {
                presumptive_friction(spec.bearing).map(Friction::Presumptive)
            }
            Self::Given(spec) => Ok(Friction::Given(spec.stress)),
            Self::Alpha(spec) => match spec.alpha {
                Some(alpha) => Friction::alpha(alpha),
                None => Ok(Friction::AlphaApi),
            },
            Self::Beta(spec) => Friction::beta(spec.k, spec.delta),
        };
        problems.take(at, made)
    }
}

impl ShaftSpec {
    pub(super) fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Shaft> {
        let names = [
            ("diameter", "size"),
            ("side", "size"),
            ("depth", "depth"),
            ("excluded top", "excluded"),
        ];
        let (size, depth, excluded) = (self.size.0, self.depth.0, self.excluded.0);
        problems.take_by(
            at,
            &names,
            match self.shape {
                HoleShape::Round => Shaft::round(size, depth, excluded),
                HoleShape::Square => Shaft::square(size, depth, excluded),
            },
        )
    }
}

impl PullOutRequest {
    fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<PullOut> {
        let made = PullOut::new(self.post_weight, self.footing_weight);
        let names = [
            ("weight of the post", "post_weight"),
            ("weight of the footing", "footing_weight"),
        ];
        let mut pull = problems.take_by(at, &names, made)?;
        if self.known.is_some() && self.friction.is_none() {
            let allowed = "it says how friction is known: give the friction";
            problems.add(&at.field("known"), None, allowed);
        }
        match (&self.friction, &self.shaft) {
            (Some(friction), Some(shaft)) => {
                let place = at.field("friction");
                let friction = friction.build(&place, problems)?;
                let shaft = shaft.build(&at.field("shaft"), problems)?;
                let needs = matches!(
                    friction,
                    Friction::Alpha(_) | Friction::AlphaApi | Friction::Beta(..)
                );
                let profile = match &self.profile {
                    Some(profile) => profile.build(&at.field("profile"), problems)?,
                    None if needs => {
                        let allowed = "this friction depends on the ground: give it";
                        problems.add(&at.field("profile"), None, allowed);
                        return None;
                    }
                    None => problems.take(&place, any_ground())?,
                };
                let known = self.known.unwrap_or(HowKnown::Analysis);
                let made = pull.with_friction(&profile, friction, &shaft, known);
                pull = problems.take(&place, made)?;
            }
            (None, None) => {}
            _ => {
                problems.add(at, None, "friction and shaft go together");
                return None;
            }
        }
        if let Some(weight) = self.lifted_soil {
            let made = pull.lifting_soil_by_collar(weight);
            pull = problems.take(&at.field("lifted_soil"), made)?;
        }
        if let Some(plate) = &self.plate {
            let made = Breakout::new(
                plate.friction_angle,
                plate.unit_weight.0,
                plate.diameter.0,
                plate.depth.0,
            );
            let names = [
                ("friction angle", "friction_angle"),
                ("unit weight", "unit_weight"),
                ("diameter of the plate", "diameter"),
                ("depth of the plate", "depth"),
            ];
            pull = pull.breaking_out(problems.take_by(&at.field("plate"), &names, made)?);
        }
        if let Some(below) = self.below_water {
            let made = pull.standing_in_water(below);
            pull = problems.take(&at.field("below_water"), made)?;
        }
        if let Some(bond) = &self.bond {
            let place = at.field("bond");
            let (perimeter, length) = (bond.perimeter.0, bond.length.0);
            let made = match (bond.stress, bond.wood_in_concrete) {
                (Some(Stress(stress)), None | Some(false)) => {
                    Bond::given(stress, perimeter, length)
                }
                (None, Some(true)) => Bond::wood_in_concrete(perimeter, length),
                _ => {
                    let allowed = "give either stress, or wood_in_concrete as true";
                    problems.add(&place, None, allowed);
                    return None;
                }
            };
            let names = [
                ("bond stress", "stress"),
                ("perimeter", "perimeter"),
                ("bonded length", "length"),
            ];
            pull = pull.with_bond(problems.take_by(&place, &names, made)?);
        }
        if let Some(uplift) = self.uplift
            && uplift.si() < 0.0
        {
            problems.add(&at.field("uplift"), None, "give a force of 0 or more");
            return None;
        }
        Some(pull)
    }
}

/// Ground for a friction that does not look at it.
fn any_ground() -> Result<Profile, Error> {
    crate::profile::presumed::default_sand()
}

impl Calculation for PullOutRequest {
    const CALCULATE: &'static str = "pull_out";
    type Result = PullOutResult;

    fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
        self.build(at, problems);
    }

    fn run(&self, _: Asked, at: &Path<'_>, problems: &mut Problems) -> Option<Done<PullOutResult>> {
        let pull = self.build(at, problems)?;
        let set = Combination::of(self.combination.unwrap_or_default());
        let holds = pull.resistance(&set);
        let of = |mode: PullOutMode| {
            let found = holds.ways.iter().find(|(way, _)| *way == mode);
            found.and_then(|(_, force)| *force)
        };
        let bond = self.bond.as_ref().map(|bond| match bond.stress {
            Some(_) => &source::GIVEN,
            None => &source::WOOD_BOND,
        });
        let plate = self.plate.as_ref().map(|_| Breakout::source());
        let result = PullOutResult {
            resistance: holds.resistance,
            weakest: holds.weakest,
            footing_slides: of(PullOutMode::FootingSlides),
            soil_lifts: of(PullOutMode::SoilLifts),
            post_slides: of(PullOutMode::PostSlides),
            utilization: self
                .uplift
                .map(|uplift| Utilization::of(uplift, holds.resistance)),
        };
        Some(Done::new(
            result,
            pull.cautions(),
            [Some(holds.source), Some(set.source()), bond, plate]
                .into_iter()
                .flatten(),
        ))
    }
}

impl Calculation for FrostDepthRequest {
    const CALCULATE: &'static str = "frost_depth";
    type Result = FrostDepthResult;

    fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
        self.depth(at, problems);
    }

    fn run(
        &self,
        _: Asked,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<FrostDepthResult>> {
        let depth = self.depth(at, problems)?;
        let cautions = Cautions::default().with(Caution::FrostChecked);
        let sources: [&'static Citation; 1] = [&source::FROST_DEPTH];
        Some(Done::new(FrostDepthResult { depth }, cautions, sources))
    }
}

impl FrostDepthRequest {
    fn depth(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Length> {
        let place = at.field("conductivity_watt_per_m_k");
        let made = ThermalConductivity::watt_per_m_k(self.conductivity_watt_per_m_k);
        let conductivity = problems.take(&place, made);
        let place = at.field("freezing_index_celsius_days");
        let made = FreezingIndex::celsius_days(self.freezing_index_celsius_days);
        let index = problems.take(&place, made);
        let place = at.field("latent_heat_mj_per_cu_m");
        let made = LatentHeat::mj_per_cu_m(self.latent_heat_mj_per_cu_m);
        let latent = problems.take(&place, made);
        let lambda = self.lambda.unwrap_or(1.0);
        let made = frost_depth(conductivity?, self.surface_factor, index?, latent?, lambda);
        problems.take_by(
            at,
            &[("surface factor n", "surface_factor"), ("lambda", "lambda")],
            made,
        )
    }
}

impl FrostBalanceRequest {
    fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Adfreeze> {
        let stress = match (self.ground, self.stress) {
            (Some(ground), None) => ground.stress(),
            (None, Some(stress)) => stress,
            _ => {
                problems.add(at, None, "give either ground or stress");
                return None;
            }
        };
        let names = [
            ("adfreeze stress", "stress"),
            ("perimeter", "perimeter"),
            ("frost depth", "frost_depth"),
        ];
        let made = Adfreeze::new(stress, self.perimeter.0, self.frost_depth.0);
        problems.take_by(at, &names, made)
    }

    fn balance(&self, at: &Path<'_>, problems: &mut Problems) -> Option<FrostBalance> {
        let adfreeze = self.build(at, problems)?;
        let anchorage = self.anchorage.unwrap_or(lb(0.0));
        let names = [
            ("depth", "depth"),
            ("dead load", "dead"),
            ("anchorage", "anchorage"),
        ];
        let made = adfreeze.balance(self.depth.0, self.dead, anchorage);
        problems.take_by(at, &names, made)
    }
}

impl Calculation for FrostBalanceRequest {
    const CALCULATE: &'static str = "frost_balance";
    type Result = FrostBalanceResult;

    fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
        self.balance(at, problems);
    }

    fn run(
        &self,
        _: Asked,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<FrostBalanceResult>> {
        let balance = self.balance(at, problems)?;
        let result = FrostBalanceResult {
            lifts: balance.lifts,
            holds: balance.holds,
            ends_in_frost: balance.ends_in_frost,
            stays: balance.stays(),
            remedy: balance.remedy().map(str::to_owned),
        };
        let source = if self.ground.is_some() {
            FrozenGround::source()
        } else {
            &source::GIVEN
        };
        let cautions = Cautions::default().with(Caution::FrostChecked);
        Some(Done::new(result, cautions, [source]))
    }
}

impl BagSpec {
    pub(super) fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Bag> {
        let known = [Bag::lb_40(), Bag::lb_50(), Bag::lb_60(), Bag::lb_80()];
        let made = match self.yields {
            Some(yields) => Bag::given(self.weight, yields),
            None => known
                .into_iter()
                .find(|bag| (bag.weight() - self.weight).abs() < lb(0.01))
                .ok_or(Error::NotApplicable {
                    field: "weight of a bag",
                    reason: "40, 50, 60 and 80 lb are known; else give what it yields",
                }),
        };
        problems.take(at, made)
    }
}

impl MaterialsRequest {
    fn build(
        &self,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<(Volume, Volume, Option<Bag>)> {
        let hole = self.hole.build(&at.field("hole"), problems);
        let section = self.section.build(&at.field("section"), problems);
        let bag = match &self.bag {
            Some(spec) => spec.build(&at.field("bag"), problems).map(Some),
            None => Some(None),
        };
        let base = self.base.map_or(ft(0.0), |base| base.0);
        let refuse = match self.setting {
            Setting::Driven => Some(("setting", "a driven post has no hole to fill")),
            Setting::TampedSoil if self.bag.is_some() => Some((
                "bag",
                "what came out of the hole goes back: it takes no bags",
            )),
            Setting::ExpandingFoam | Setting::CompactedGravel
                if self.bag.as_ref().is_some_and(|bag| bag.yields.is_none()) =>
            {
                Some(("bag", "known yields are of concrete: give what this yields"))
            }
            _ => None,
        };
        if let Some((name, allowed)) = refuse {
            problems.add(&at.field(name), None, allowed);
        }
        if self.posts == Some(0) {
            problems.add(&at.field("posts"), None, "give 1 or more");
        }
        if let Some(waste) = self.waste {
            let made = crate::error::number_within("waste", waste, 0.0, 1.0);
            problems.take(&at.field("waste"), made)?;
        }
        if refuse.is_some() || self.posts == Some(0) {
            return None;
        }
        let (hole, section) = (hole?, section?);
        let made = annulus(&hole, &section, self.depth.0, base);
        let names = [
            ("depth", "depth"),
            ("gravel base", "base"),
            ("hole", "hole"),
        ];
        let fill = problems.take_by(at, &names, made)?;
        Some((hole.volume(self.depth.0), fill, bag?))
    }
}

impl Calculation for MaterialsRequest {
    const CALCULATE: &'static str = "materials";
    type Result = MaterialsResult;

    fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
        self.build(at, problems);
    }

    #[expect(
        clippy::cast_precision_loss,
        reason = "a count of posts, at most a million"
    )]
    fn run(
        &self,
        _: Asked,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<MaterialsResult>> {
        let (hole, fill, bag) = self.build(at, problems)?;
        let waste = self.waste.unwrap_or(0.0);
        let posts = self.posts.unwrap_or(1) as f64;
        let place = at.field("waste");
        let (one, all) = match &bag {
            Some(bag) => (
                Some(problems.take(&place, bag.count(fill, waste))?),
                Some(problems.take(&place, bag.count(fill * posts, waste))?),
            ),
            None => (None, None),
        };
        let result = MaterialsResult {
            hole,
            fill,
            bags_exact: one.map(|bags| bags.exact),
            bags: one.map(|bags| bags.buy),
            carry: one.map(|bags| bags.carry),
            bags_in_all: all.map(|bags| bags.buy),
            carry_in_all: all.map(|bags| bags.carry),
        };
        let cautions = self.setting.cautions(self.rested == Some(true));
        let sources = bag.map(|bag| bag.source());
        Some(Done::new(result, cautions, sources))
    }
}
