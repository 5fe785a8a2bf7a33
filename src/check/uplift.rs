//! A force that pulls at a post, against every way the post may come out
//! ([`crate::uplift::PullOut`]), at allowable-stress level.
//!
//! Weight that relieves carries the factor of the combination (0.6). Friction
//! counts where the setting may have it ([`SideFriction`]), below the frost if
//! frost is asked for too, and below a top that does not count.

use super::frost::FrostOptions;
use super::side::{
    ConcreteWeight, CreditedFriction, Gripped, SideFriction, around_post, is_timber,
};
use super::site::Standing;
use crate::backfill::Setting;
use crate::combination::CombinesTo;
use crate::error::{Error, stress_within, within};
use crate::limit_state::AllowableStress;
use crate::source;
use crate::step::{Step, Worksheet};
use crate::units::{
    Area, Force, ForcePerVolume, Measure, Pressure, Volume, kipf, lb, lb_per_sq_in, m,
};
use crate::uplift::{Bond, PullOut, PullOutMode, PullOutResistance};
use crate::utilization::Utilization;

/// How the post holds in what it is set in.
#[derive(Debug, Clone, Copy, PartialEq)]
enum PostBond {
    WoodInConcrete,
    Given(Pressure),
}

/// Pull-out asked for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct UpliftOptions {
    force: Force,
    friction: SideFriction,
    bond: Option<PostBond>,
    concrete: ConcreteWeight,
    post: Force,
}

impl UpliftOptions {
    /// A force upwards on each post, at allowable-stress level, dead load not
    /// taken off.
    ///
    /// # Errors
    /// Outside 0 to 1 000 kip.
    pub fn new(force: Force) -> Result<Self, Error> {
        Ok(Self {
            force: within("uplift", force, lb(0.0), kipf(1_000.0))?,
            friction: SideFriction::None,
            bond: None,
            concrete: ConcreteWeight::DEFAULT,
            post: lb(0.0),
        })
    }

    /// With friction on the side.
    ///
    /// # Errors
    /// A given stress outside 0 to 1 MPa.
    pub fn with_friction(self, friction: SideFriction) -> Result<Self, Error> {
        Ok(Self {
            friction: friction.checked()?,
            ..self
        })
    }

    /// With the post sliding in its concrete looked at, treated wood: 30 psi.
    /// Refused where it is not wood in concrete.
    #[must_use]
    pub const fn with_wood_bond(self) -> Self {
        Self {
            bond: Some(PostBond::WoodInConcrete),
            ..self
        }
    }

    /// With the post sliding in what it is set in looked at, by an allowable
    /// bond of yours.
    ///
    /// # Errors
    /// Outside 0 to 1 000 psi.
    pub fn with_bond(self, stress: Pressure) -> Result<Self, Error> {
        let most = lb_per_sq_in(1_000.0);
        let stress = stress_within("bond stress", stress, lb_per_sq_in(0.0), most)?;
        Ok(Self {
            bond: Some(PostBond::Given(stress)),
            ..self
        })
    }

    /// With another unit weight of concrete than 145 pcf.
    ///
    /// # Errors
    /// Outside 60 to 250 pcf.
    pub fn with_concrete(self, unit_weight: ForcePerVolume) -> Result<Self, Error> {
        Ok(Self {
            concrete: ConcreteWeight::given(unit_weight)?,
            ..self
        })
    }

    /// With the weight of the post itself.
    ///
    /// # Errors
    /// Outside 0 to 1 000 kip.
    pub fn with_post_weight(self, weight: Force) -> Result<Self, Error> {
        Ok(Self {
            post: within("weight of the post", weight, lb(0.0), kipf(1_000.0))?,
            ..self
        })
    }
}

/// A pull against what holds.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct UpliftCheck {
    /// The pull.
    pub force: Force,
    /// What holds, which way is the weakest, and every way considered.
    pub resistance: PullOutResistance,
    /// Weight of the post with what stands on it.
    pub post: Force,
    /// Weight of its concrete.
    pub footing: Force,
    /// Factor on weight that relieves.
    pub relieving: f64,
    /// The friction that counts.
    pub friction: CreditedFriction,
    /// The side it counts on.
    pub side: Area,
    /// The bond of the post, if looked at.
    pub bond: Option<Bond>,
    /// Pull over what holds.
    pub utilization: Utilization,
    wood_in_concrete: bool,
    concrete: Volume,
    unit: ConcreteWeight,
}

impl UpliftCheck {
    pub(super) fn new<L: CombinesTo<AllowableStress>>(
        asked: &UpliftOptions,
        frost: Option<&FrostOptions>,
        post: &Standing<'_, L>,
    ) -> Result<Self, Error> {
        let design = post.check.design();
        let depth = post.check.depth();
        let (dead, relieving) = post.relieving()?;
        let (concrete, footing) = asked.concrete.of(design, depth);
        let friction = asked.friction.of(design)?;
        let top = design.ground().discounted_top();
        let frost = frost.map_or(m(0.0), FrostOptions::depth);
        let side = Gripped::of(design).side(if frost > top { frost } else { top }, depth);
        let around = around_post(&design.post().section());
        let wood_in_concrete =
            design.setting() == Some(Setting::PouredConcrete) && is_timber(design.post());
        let bond = match asked.bond {
            None => None,
            Some(PostBond::Given(stress)) => Some(Bond::given(stress, around, depth)?),
            Some(PostBond::WoodInConcrete) => {
                if !wood_in_concrete {
                    return Err(Error::NotApplicable {
                        field: "bond",
                        reason: "30 psi is the bond of treated wood cast in concrete",
                    });
                }
                Some(Bond::wood_in_concrete(around, depth)?)
            }
        };
        let own = dead + asked.post;
        let mut out = PullOut::new(own, footing)?;
        if friction.stress() * side > lb(0.0) {
            out = out.with_side_friction(friction.stress() * side, friction.source());
        }
        if let Some(bond) = bond {
            out = out.with_bond(bond);
        }
        let resistance = out.holding(relieving);
        Ok(Self {
            force: asked.force,
            resistance,
            post: own,
            footing,
            relieving,
            friction,
            side,
            bond,
            utilization: Utilization::of(asked.force, resistance.resistance),
            wood_in_concrete,
            concrete,
            unit: asked.concrete,
        })
    }

    /// Was the bond of wood in concrete looked at? It opens as the wood shrinks.
    pub(super) const fn shrinks(&self) -> bool {
        self.bond.is_some() && self.wood_in_concrete
    }

    /// Writes the working.
    pub fn write(&self, sheet: &mut Worksheet) {
        sheet.section("Pull-out");
        sheet.remark("Water in the ground is not taken off the weight.");
        sheet.push(Step::given("U", "pull, allowable-stress level", self.force));
        sheet.push(Step::given(
            "Np",
            "weight of the post and what stands on it",
            self.post,
        ));
        self.unit.write(self.concrete, self.footing, sheet);
        self.friction.write(sheet);
        sheet.push(Step::given_number(
            "fr",
            "factor on weight that relieves",
            self.relieving,
        ));
        sheet.push(
            Step::given("As", "side that grips", self.side)
                .shown_as(Measure::Area)
                .cite(&source::GEOMETRY),
        );
        if let Some(bond) = &self.bond {
            sheet.push(
                Step::given("Rb", "what the bond holds", bond.resistance()).cite(bond.source()),
            );
        }
        let weights = |step: Step| {
            step.with_number("fr", self.relieving)
                .with("Np", self.post)
                .cite(&source::STATICS)
        };
        for (mode, holds) in self.resistance.ways {
            let Some(holds) = holds else { continue };
            let step = match (mode, self.bond) {
                (PullOutMode::PostSlides, Some(bond)) => weights(Step::computed(
                    "Rp",
                    "the post slides in its footing",
                    "Rb + fr*Np",
                    holds,
                ))
                .with("Rb", bond.resistance()),
                _ => weights(Step::computed(
                    "Rs",
                    "the footing slides in the ground",
                    "f*As + fr*(Np + Wf)",
                    holds,
                ))
                .with("Wf", self.footing)
                .with("f", self.friction.stress())
                .with_as("As", self.side, Measure::Area),
            };
            sheet.push(step);
        }
        sheet.remark(format!("Weakest: {}.", self.resistance.weakest.name()));
        if self.utilization > Utilization::ZERO && self.utilization < Utilization::NO_CAPACITY {
            sheet.push(
                Step::computed_number("uo", "utilization", "U/R", self.utilization.ratio())
                    .with("U", self.force)
                    .with("R", self.resistance.resistance)
                    .cite(self.resistance.source),
            );
        }
    }
}
