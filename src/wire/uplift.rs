//! Every way a post may be pulled out, on the wire.

use super::profile::ProfileSpec;
use super::reading::{Path, Problems};
use super::record::{alternatives, names, records};
use super::request::{Asked, Calculation, Done};
use super::value::{Size, Stress, UnitWeight};
use crate::combination::Combination;
use crate::error::Error;
use crate::foundation::HoleShape;
use crate::limit_state::AllowableStress;
use crate::profile::Profile;
use crate::source;
use crate::units::{Angle, Force, Measurable, Pressure, Volume};
use crate::uplift::{
    Bond, Breakout, Friction, HowKnown, PullOut, PullOutMode, Shaft, presumptive_friction,
};
use crate::utilization::Utilization;

names! {
    HowKnown { "analysis" => HowKnown::Analysis, "tests" => HowKnown::Tests, }
    PullOutMode {
        "footing_slides" => PullOutMode::FootingSlides,
        "soil_lifts" => PullOutMode::SoilLifts,
        "post_slides" => PullOutMode::PostSlides,
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
        if self.profile.is_some() && self.friction.is_none() {
            let allowed = "only friction looks at the ground: give the friction";
            problems.add(&at.field("profile"), None, allowed);
        }
        match (&self.friction, &self.shaft) {
            (Some(friction), Some(shaft)) => {
                let place = at.field("friction");
                let friction = friction.build(&place, problems)?;
                let shaft = shaft.build(&at.field("shaft"), problems)?;
                let needs = matches!(
                    friction,
                    Friction::Alpha(_)
                        | Friction::AlphaApi
                        | Friction::AlphaGec10
                        | Friction::Beta(..)
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
