//! Frost that grips a post and lifts it, at allowable-stress level.
//!
//! Lifts: τ p z, the adfreeze stress over the perimeter that the ground grips,
//! down to the frost depth. Holds: the dead load and the concrete, with the
//! factor of weight that relieves (0.6), and friction below the frost where
//! it is given; presumptive friction (IBC 1810.3.3.1.4, a clause of deep foundations)
//! only where the user chooses it by name. See [`crate::uplift::Adfreeze`]. A footing that ends
//! in the frost holds by weight alone and fails whatever its weight: ground
//! that freezes under the base lifts it too.
//!
//! Concrete and foam are gripped round the hole, anything else round the post.
//! The weight of foam, gravel and soil is not counted, nor that of the post
//! unless given.

use super::PostDesign;
use super::side::{ConcreteWeight, CreditedFriction, Gripped, SideFriction};
use super::site::Standing;
use crate::combination::CombinesTo;
use crate::error::{Error, size_within, within};
use crate::limit_state::AllowableStress;
use crate::source::{self, Citation};
use crate::step::{Step, Worksheet};
use crate::units::{
    Area, Force, ForcePerVolume, Length, Measure, Pressure, Volume, kipf, kpa, lb, m,
};
use crate::uplift::{Adfreeze, FrostBalance, FrozenGround};
use crate::utilization::Utilization;

/// How hard frozen ground grips. The values of the table are typical of wet ground, not
/// an upper bound: 150 to 350 kPa were measured on steel in silt
/// ([`source::ADFREEZE_ON_STEEL`]).
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Grip {
    /// Fine-grained wet soil, on what it grips here: 100 kPa on steel, 65 kPa on
    /// wood, concrete and foam. Steel in compacted gravel is taken as gripped by
    /// that, saturated: 150 kPa.
    FineGrained,
    /// A ground and surface named.
    Of(FrozenGround),
    /// An adfreeze stress given.
    Given(Pressure),
}

/// What switches the grip off over the depth of the frost. The base still has
/// to stand below it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum FrostRemedy {
    /// A smooth sleeve that slips.
    SmoothSleeve,
    /// Drained gravel that does not heave.
    DrainedGravel,
}

impl FrostRemedy {
    /// Its words.
    pub const fn name(self) -> &'static str {
        match self {
            Self::SmoothSleeve => "a smooth sleeve through the frost",
            Self::DrainedGravel => "drained gravel through the frost",
        }
    }
}

/// Frost asked for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FrostOptions {
    depth: Length,
    grip: Grip,
    remedy: Option<FrostRemedy>,
    friction: SideFriction,
    concrete: ConcreteWeight,
    post: Force,
}

impl FrostOptions {
    /// A frost depth and how hard the ground grips.
    ///
    /// # Errors
    /// Depth outside 0 to 10 m, a given stress outside 0 to 500 kPa.
    pub fn new(depth: Length, grip: Grip) -> Result<Self, Error> {
        if let Grip::Given(stress) = grip {
            within("adfreeze stress", stress, kpa(0.0), kpa(500.0))?;
        }
        Ok(Self {
            depth: size_within("frost depth", depth, m(0.0), m(10.0))?,
            grip,
            remedy: None,
            friction: SideFriction::None,
            concrete: ConcreteWeight::DEFAULT,
            post: lb(0.0),
        })
    }

    /// With a sleeve or gravel.
    #[must_use]
    pub const fn with_remedy(self, remedy: FrostRemedy) -> Self {
        Self {
            remedy: Some(remedy),
            ..self
        }
    }

    /// With friction below the frost, and below a top that does not count. None by
    /// default. [`SideFriction::Presumptive`] rests on a clause of deep foundations in
    /// compression (IBC 1810.3.3.1.4); taking it here is your decision, and the result
    /// says so ([`crate::caution::Caution::DeepFoundationFriction`]).
    ///
    /// # Errors
    /// A given stress outside 0 to 1 MPa.
    pub fn with_friction(self, friction: SideFriction) -> Result<Self, Error> {
        Ok(Self {
            friction: friction.checked()?,
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

    /// The frost depth.
    pub const fn depth(&self) -> Length {
        self.depth
    }

    /// The stress on a design, before any remedy, and where it comes from.
    fn stress(&self, gripped: &Gripped) -> (Pressure, &'static Citation) {
        let ground = match self.grip {
            Grip::Given(stress) => return (stress, &source::GIVEN),
            Grip::Of(ground) => ground,
            // Where gravel is what grips steel, its row of the table, the greatest.
            Grip::FineGrained if gripped.steel && gripped.gravel => FrozenGround::GravelOnSteel,
            Grip::FineGrained if gripped.steel => FrozenGround::FineOnSteel,
            Grip::FineGrained => FrozenGround::FineOnWoodOrConcrete,
        };
        (ground.stress(), FrozenGround::source())
    }
}

/// Frost on a post.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct FrostCheck {
    /// What lifts and what holds.
    pub balance: FrostBalance,
    /// Depth of the post below grade.
    pub depth: Length,
    /// Depth of the frost.
    pub frost: Length,
    /// Depth that frost grips: the frost, or the post where it ends in it.
    pub gripped: Length,
    /// Adfreeze stress τ; zero under a remedy.
    pub stress: Pressure,
    /// Perimeter p of what it grips: hole, post or sleeve.
    pub perimeter: Length,
    /// What switches the grip off.
    pub remedied: Option<FrostRemedy>,
    /// Dead load at grade, unfactored.
    pub dead: Force,
    /// Weight of the concrete.
    pub footing: Force,
    /// Factor on weight that relieves.
    pub relieving: f64,
    /// The friction below the frost that counts.
    pub friction: CreditedFriction,
    /// The side it counts on.
    pub side: Area,
    /// What that friction holds.
    pub anchorage: Force,
    /// Lifts over holds; no capacity where the footing ends in the frost.
    pub utilization: Utilization,
    post: Force,
    concrete: Volume,
    unit: ConcreteWeight,
    grip_source: &'static Citation,
    on_wood_though_steel: bool,
}

impl FrostCheck {
    pub(super) fn new<L: CombinesTo<AllowableStress>>(
        asked: &FrostOptions,
        post: &Standing<'_, L>,
    ) -> Result<Self, Error> {
        let design: &PostDesign = post.check.design();
        let depth = post.check.depth();
        let side = Gripped::by_frost(design);
        let (stress, grip_source) = asked.stress(&side);
        let stress = if asked.remedy.is_some() {
            kpa(0.0)
        } else {
            stress
        };
        let (dead, relieving) = post.relieving()?;
        let (concrete, footing) = asked.concrete.of(design, depth);
        let friction = asked.friction.of(design)?;
        // Neither the frost nor a top that does not count holds.
        let top = design.ground().discounted_top();
        let from = if top > asked.depth { top } else { asked.depth };
        let below = Gripped::of(design).side(from, depth);
        let anchorage = friction.stress() * below;
        let weight = (dead + footing + asked.post) * relieving;
        let grip = Adfreeze::new(stress, side.perimeter, asked.depth)?;
        let balance = grip.balance(depth, weight, anchorage)?;
        let utilization = if balance.ends_in_frost {
            Utilization::NO_CAPACITY
        } else {
            Utilization::of(balance.lifts, balance.holds)
        };
        Ok(Self {
            balance,
            depth,
            frost: asked.depth,
            gripped: if depth < asked.depth {
                depth
            } else {
                asked.depth
            },
            stress,
            perimeter: side.perimeter,
            remedied: asked.remedy,
            dead,
            footing,
            relieving,
            friction,
            side: below,
            anchorage,
            utilization,
            post: asked.post,
            concrete,
            unit: asked.concrete,
            grip_source,
            on_wood_though_steel: side.steel
                && asked.grip == Grip::Of(FrozenGround::FineOnWoodOrConcrete),
        })
    }

    /// What to do where it does not stay; none where it does.
    pub fn remedy(&self) -> Option<&'static str> {
        self.balance.remedy()
    }

    /// Where the grip comes from.
    pub const fn source(&self) -> &'static Citation {
        self.grip_source
    }

    /// Writes the working.
    pub fn write(&self, sheet: &mut Worksheet) {
        sheet.section("Frost");
        let size = |symbol, meaning, length| Step::given(symbol, meaning, length);
        sheet.push(size("z", "depth that frost grips", self.gripped));
        sheet.push(size("p", "around what it grips", self.perimeter));
        if let Some(remedy) = self.remedied {
            sheet.remark(format!(
                "No grip over the depth of the frost: {}.",
                remedy.name()
            ));
        }
        if self.on_wood_though_steel {
            sheet.remark("The grip asked for is that on wood or concrete, but steel is gripped.");
        }
        sheet.push(
            Step::computed("Fz", "frost lifts with", "t*p*z", self.balance.lifts)
                .with("t", self.stress)
                .with("p", self.perimeter)
                .with("z", self.gripped)
                .cite(self.grip_source),
        );
        self.unit.write(self.concrete, self.footing, sheet);
        self.friction.write(sheet);
        if self.friction.presumptive() {
            sheet.remark(
                "This presumptive friction is of a clause of deep foundations in compression (IBC \
                 1810.3.3.1.4): it was asked for, and is an estimate here.",
            );
        }
        sheet.remark(
            "Adfreeze stresses of tables are typical, no upper bound: 150 to 350 kPa were measured \
             on steel in silt.",
        );
        sheet.push(
            Step::given("As", "side below the frost", self.side)
                .shown_as(Measure::Area)
                .cite(&source::GEOMETRY),
        );
        sheet.push(
            Step::computed(
                "Ff",
                "friction below the frost holds",
                "f*As",
                self.anchorage,
            )
            .with("f", self.friction.stress())
            .with_as("As", self.side, Measure::Area)
            .cite(self.friction.source()),
        );
        sheet.push(Step::given_number(
            "fr",
            "factor on weight that relieves",
            self.relieving,
        ));
        sheet.push(Step::given("Wp", "weight of the post itself", self.post));
        sheet.push(
            Step::computed(
                "Rz",
                "what holds",
                "fr*(N + Wf + Wp) + Ff",
                self.balance.holds,
            )
            .with_number("fr", self.relieving)
            .with("N", self.dead)
            .with("Wf", self.footing)
            .with("Wp", self.post)
            .with("Ff", self.anchorage)
            .cite(&source::STATICS),
        );
        if self.balance.ends_in_frost {
            sheet.remark(
                "The footing ends in the frost: a plain shaft that stops there FAILS, whatever it \
                 weighs.",
            );
        } else if self.utilization < Utilization::NO_CAPACITY
            && self.utilization > Utilization::ZERO
        {
            sheet.push(
                Step::computed_number("uz", "utilization", "Fz/Rz", self.utilization.ratio())
                    .with("Fz", self.balance.lifts)
                    .with("Rz", self.balance.holds),
            );
        }
        if let Some(remedy) = self.remedy() {
            sheet.remark(format!("It does not stay: {remedy}."));
        }
    }
}
