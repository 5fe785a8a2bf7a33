//! Ground, hole and combinations on the wire.

use super::post::PostSpec;
use super::reading::{Path, Problems};
use super::record::{alternatives, names, records};
use super::value::Size;
use crate::backfill::{RestDays, Setting};
use crate::check::PostDesign;
use crate::combination::Combination;
use crate::embedment::DepthCap;
use crate::foundation::{Hole, HoleShape, Restraint, SquareWidth};
use crate::ground::{Ground, LateralBearing, SoilClass};
use crate::limit_state::AllowableStress;
use crate::units::{ForcePerVolume, Pressure, UnitSystem};

names! {
    UnitSystem { "us" => UnitSystem::Us, "si" => UnitSystem::Si, }
    AllowableStress {
        "basic" => AllowableStress::Basic,
        "alternative_with_increase" => AllowableStress::AlternativeWithIncrease,
    }
    HoleShape { "round" => HoleShape::Round, "square" => HoleShape::Square, }
    Restraint { "none" => Restraint::None, "rigid_paving" => Restraint::RigidPaving, }
    SquareWidth { "diagonal" => SquareWidth::Diagonal, "face" => SquareWidth::Face, }
    DepthCap {
        "cap_depth" => DepthCap::CapDepth,
        "cap_reading" => DepthCap::CapReading,
    }
}

records! {
    /// Ground: a class of IBC Table 1806.2, or a lateral bearing of your own.
    GroundSpec {
        /// Class of IBC Table 1806.2, 1 to 5; instead of lateral_bearing.
        class: Option<usize>,
        /// Allowable lateral bearing per depth; instead of class.
        lateral_bearing: Option<ForcePerVolume>,
        /// Allowable vertical foundation pressure; that of the class unless said,
        /// and without either the base is not checked.
        vertical_pressure: Option<Pressure>,
        /// Lateral bearing doubled as for an isolated pole (1806.3.4): only where
        /// 1/2 in (13 mm) of movement at grade does no harm; false unless said.
        isolated_pole: Option<bool>,
        /// Doubling and one-third increase allowed together; false unless said.
        both_increases: Option<bool>,
        /// Top layer that does not count; none unless said.
        discounted_top: Option<Size>,
    }
    /// A hole.
    HoleSpec {
        /// Round or square.
        shape: HoleShape,
        /// Diameter or side.
        size: Size,
    }
    /// Poured concrete in a hole.
    ConcreteSpec {
        /// The hole.
        hole: HoleSpec,
        /// Restraint at grade; none unless said.
        restraint: Option<Restraint>,
        /// b of a square; the diagonal unless said.
        square_width: Option<SquareWidth>,
    }
    /// Foam, gravel or tamped soil in a hole: the post alone bears.
    BackfillSpec {
        /// What fills it.
        setting: Setting,
        /// The hole.
        hole: HoleSpec,
        /// Restraint at grade; none unless said.
        restraint: Option<Restraint>,
        /// b of a square; the diagonal unless said.
        square_width: Option<SquareWidth>,
    }
    /// Factors of your own on wind and weight.
    FactorsSpec {
        /// On wind.
        wind: f64,
        /// On weight that loads.
        dead: f64,
        /// On weight that relieves.
        relieving: f64,
    }
    /// Days of rest before the wind may come on the fence.
    RestSpec {
        /// Days it rests.
        days: f64,
        /// Days it needs, by its maker or your own.
        needs: f64,
    }
    /// A post in backfill or driven, without a structural footing.
    BareSpec {
        /// Restraint at grade; none unless said.
        restraint: Option<Restraint>,
        /// b of a square; the diagonal unless said.
        square_width: Option<SquareWidth>,
    }
    /// A kind of post in a kind of hole in a ground.
    DesignSpec {
        /// The ground.
        ground: GroundSpec,
        /// The post.
        post: PostSpec,
        /// What it is set in.
        foundation: FoundationSpec,
        /// Load combinations; basic unless said.
        combination: Option<AllowableStress>,
        /// Factors of your own in their place; for a fence only, since actions
        /// given at grade are combined already.
        factors: Option<FactorsSpec>,
        /// Reading of the 12 ft rule; cap_depth unless said.
        depth_cap: Option<DepthCap>,
        /// Rest before load.
        rest: Option<RestSpec>,
    }
}

alternatives! {
    /// What a post is set in.
    FoundationSpec {
        /// Poured concrete.
        "concrete" => Concrete(ConcreteSpec),
        /// Foam, gravel or tamped soil in a hole.
        "backfill" => Backfill(BackfillSpec),
        /// Driven.
        "driven" => Driven(BareSpec),
        /// Backfill as the code wants it, the hole not known.
        "bare" => Bare(BareSpec),
    }
}

impl GroundSpec {
    pub(super) fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Ground> {
        let ground = match (self.class, self.lateral_bearing) {
            (Some(class), None) => {
                let number = u8::try_from(class).unwrap_or(u8::MAX);
                problems
                    .take(&at.field("class"), SoilClass::from_number(number))
                    .map(Ground::presumptive)
            }
            (None, Some(lateral)) => problems
                .take(&at.field("lateral_bearing"), LateralBearing::new(lateral))
                .map(Ground::given),
            _ => {
                problems.add(at, None, "give either class or lateral_bearing");
                None
            }
        };
        let mut ground = ground?;
        if let Some(pressure) = self.vertical_pressure {
            let place = at.field("vertical_pressure");
            ground = problems.take(&place, ground.with_vertical_pressure(pressure))?;
        }
        if let Some(Size(top)) = self.discounted_top {
            let place = at.field("discounted_top");
            ground = problems.take(&place, ground.discounting_top(top))?;
        }
        if self.isolated_pole == Some(true) {
            ground = ground.as_isolated_pole();
        }
        if self.both_increases == Some(true) {
            ground = ground.allowing_both_increases();
        }
        Some(ground)
    }
}

impl HoleSpec {
    pub(super) fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Hole> {
        let size = self.size.0;
        problems.take(
            &at.field("size"),
            match self.shape {
                HoleShape::Round => Hole::round(size),
                HoleShape::Square => Hole::square(size),
            },
        )
    }
}

impl DesignSpec {
    /// For actions at grade, which are combined already.
    pub(super) fn build_for_actions(
        &self,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<PostDesign> {
        if self.factors.is_some() {
            let allowed = "factors are for a fence: what acts at grade here is combined already";
            problems.add(&at.field("factors"), None, allowed);
            return None;
        }
        self.build(at, problems)
    }

    pub(super) fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<PostDesign> {
        let ground = self.ground.build(&at.field("ground"), problems);
        let post = self.post.build(&at.field("post"), problems);
        let place = at.field("foundation");
        let hole_at = place.field("hole");
        let (setting, hole, restraint, width) = match &self.foundation {
            FoundationSpec::Concrete(spec) => {
                let hole = Some(spec.hole.build(&hole_at, problems));
                let setting = Some(Setting::PouredConcrete);
                (setting, hole, spec.restraint, spec.square_width)
            }
            FoundationSpec::Backfill(spec) => {
                if matches!(spec.setting, Setting::PouredConcrete | Setting::Driven) {
                    let allowed = "one of expanding_foam, compacted_gravel, tamped_soil; concrete \
                                   and driven are kinds of their own";
                    problems.add(&place.field("setting"), None, allowed);
                    return None;
                }
                let hole = Some(spec.hole.build(&hole_at, problems));
                (Some(spec.setting), hole, spec.restraint, spec.square_width)
            }
            FoundationSpec::Driven(spec) => (
                Some(Setting::Driven),
                None,
                spec.restraint,
                spec.square_width,
            ),
            FoundationSpec::Bare(spec) => (None, None, spec.restraint, spec.square_width),
        };
        let rest = match &self.rest {
            Some(rest) => {
                let at = at.field("rest");
                let days = problems.take(&at.field("days"), RestDays::new(rest.days));
                let needs = problems.take(&at.field("needs"), RestDays::new(rest.needs));
                days.zip(needs).map(Some)
            }
            None => Some(None),
        };
        let set = Combination::of(self.combination.unwrap_or_default());
        let set = match &self.factors {
            Some(own) => {
                let names = [
                    ("factor on wind", "wind"),
                    ("factor on dead load", "dead"),
                    ("factor on relieving dead load", "relieving"),
                ];
                let made = set.with_factors(own.wind, own.dead, own.relieving);
                problems.take_by(&at.field("factors"), &names, made)
            }
            None => Some(set),
        };
        let (ground, post) = (ground?, post?);
        let design = match (setting, hole) {
            (Some(setting), Some(hole)) => {
                let made = PostDesign::set_in(ground, post, setting, hole?);
                problems.take(&hole_at.field("size"), made)?
            }
            (Some(_), None) => PostDesign::driven(ground, post),
            _ => PostDesign::bare(ground, post),
        };
        let design = match rest? {
            Some((rests, needs)) => design.resting(rests, needs),
            None => design,
        };
        Some(
            design
                .restrained_by(restraint.unwrap_or_default())
                .square_width(width.unwrap_or_default())
                .with_cap(self.depth_cap.unwrap_or_default())
                .with_combination(set?),
        )
    }
}
