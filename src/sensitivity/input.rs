//! What can be varied.

use crate::backwards::{Question, VariedWind};
use crate::check::PostDesign;
use crate::plan::FencePlan;
use crate::post::PostProperty;
use crate::units::{Length, Measurable, Measure, Measured, Pressure};

/// An input of a plan that can be multiplied by a factor; the same factor for
/// all runs, designs and posts.
///
/// Exposure, edition, class of soil, restraint and the like are choices, not
/// quantities, and are not among them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Input {
    /// Basic wind speed of ASCE 7.
    WindSpeed,
    /// Wind pressure as given.
    WindPressure,
    /// Allowable lateral bearing per depth.
    LateralBearing,
    /// Allowable vertical foundation pressure, where there is one.
    VerticalPressure,
    /// The top layer left out, where there is one.
    DiscountedTop,
    /// Diameter or side of holes in concrete.
    HoleSize,
    /// Planned depth, of posts that have one.
    PlannedDepth,
    /// Every bay, and so spacing and runs: posts keep their number, gates their
    /// openings ([`FenceRun::with_bays_by`](crate::fence::FenceRun::with_bays_by)).
    /// Bays that snap to whole numbers in a run of fixed length are asked of
    /// [`greatest_spacing`](crate::backwards::greatest_spacing).
    PostSpacing,
    /// Height of the top above ground; the gap below stays.
    PanelHeight,
    /// The gap below the panel, where there is one; the top stays.
    Clearance,
    /// Solidity, of panels whose infill is given by it; toppings stay.
    Solidity,
    /// Weight of panels per area, where it is not zero; gate leaves stay.
    PanelWeight,
    /// Side or diameter of posts; walls and holes stay.
    PostSize,
    /// Wall of tubes; the outside stays.
    PostWall,
    /// Fy of steel, Fb of timber, Fty with Ftu of aluminium, the moment of a given
    /// strength.
    BendingStrength,
    /// Fv of timber, the shear of a given strength.
    ShearStrength,
}

impl Input {
    /// Every input, in the order of the load path.
    pub const ALL: [Self; 16] = [
        Self::WindSpeed,
        Self::WindPressure,
        Self::PanelHeight,
        Self::Clearance,
        Self::Solidity,
        Self::PanelWeight,
        Self::PostSpacing,
        Self::LateralBearing,
        Self::VerticalPressure,
        Self::DiscountedTop,
        Self::HoleSize,
        Self::PlannedDepth,
        Self::PostSize,
        Self::PostWall,
        Self::BendingStrength,
        Self::ShearStrength,
    ];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::WindSpeed => "basic wind speed",
            Self::WindPressure => "wind pressure",
            Self::LateralBearing => "lateral bearing",
            Self::VerticalPressure => "vertical pressure",
            Self::DiscountedTop => "discounted top layer",
            Self::HoleSize => "hole size",
            Self::PlannedDepth => "planned depth",
            Self::PostSpacing => "post spacing",
            Self::PanelHeight => "panel height",
            Self::Clearance => "clearance below",
            Self::Solidity => "solidity",
            Self::PanelWeight => "panel weight",
            Self::PostSize => "post size",
            Self::PostWall => "post wall",
            Self::BendingStrength => "post bending strength",
            Self::ShearStrength => "post shear strength",
        }
    }

    /// Why a plan may have no such input.
    pub(super) const fn absence(self) -> &'static str {
        match self {
            Self::WindSpeed => "the wind is not given by a speed",
            Self::WindPressure => "the wind is not given by a pressure",
            Self::LateralBearing | Self::PostSpacing | Self::PanelHeight => "the plan has none",
            Self::VerticalPressure => "the ground has none, and vertical bearing is not checked",
            Self::DiscountedTop => "no top layer is left out",
            Self::HoleSize => "no post stands in a hole of concrete",
            Self::Clearance => "no panel has a gap below",
            Self::Solidity => "no infill is given by its solidity",
            Self::PanelWeight => "no panel has a weight",
            Self::PostSize => "the strength of every post was given; size does not make it",
            Self::PostWall => "no post has a wall that its strength goes by",
            Self::PlannedDepth | Self::BendingStrength => "no post has one",
            Self::ShearStrength => "no post has one apart from its bending strength",
        }
    }

    /// The property of the post it is, if it is one.
    pub(super) const fn property(self) -> Option<PostProperty> {
        match self {
            Self::PostSize => Some(PostProperty::Size),
            Self::PostWall => Some(PostProperty::Wall),
            Self::BendingStrength => Some(PostProperty::Bending),
            Self::ShearStrength => Some(PostProperty::Shear),
            _ => None,
        }
    }

    /// Its value in a plan, where it has one and only one; none where runs or
    /// designs differ, or the plan has no such input.
    pub fn value<C: VariedWind>(self, plan: &FencePlan<C>) -> Option<Measured> {
        let values = self.values(plan);
        let (first, rest) = values.split_first()?;
        rest.iter().all(|value| value == first).then_some(*first)
    }

    /// Its values in a plan; empty where the plan has no such input.
    pub(super) fn values<C: VariedWind>(self, plan: &FencePlan<C>) -> Vec<Measured> {
        let runs = || plan.fence().runs().iter();
        match self {
            Self::WindSpeed | Self::WindPressure => {
                let value = Measured::new(plan.site().intensity()).shown_as(C::QUESTION.measure());
                if self.is_wind_of::<C>() {
                    vec![value]
                } else {
                    Vec::new()
                }
            }
            Self::PostSpacing => runs().map(|run| Measured::new(run.spacing())).collect(),
            Self::PanelHeight => runs().map(|run| Measured::new(run.panel().top())).collect(),
            Self::Clearance => runs()
                .map(|run| run.panel().clearance())
                .filter(|gap| *gap > Length::default())
                .map(|gap| Measured::new(gap).shown_as(Measure::SectionLength))
                .collect(),
            Self::Solidity => runs()
                .filter_map(|run| run.panel().infill().given_solidity())
                .map(Measured::number)
                .collect(),
            Self::PanelWeight => runs()
                .map(|run| run.panel().weight())
                .filter(|weight| *weight > Pressure::from_si(0.0))
                .map(Measured::new)
                .collect(),
            _ => {
                let mut values = Vec::new();
                // Only to look at every design; an unchanged one is never refused.
                let _ = plan.clone().changing_designs(|design, planned| {
                    values.extend(self.of_design(&design, planned));
                    Ok((design, planned))
                });
                values
            }
        }
    }

    fn of_design(self, design: &PostDesign, planned: Option<Length>) -> Option<Measured> {
        let size = |length: Length| Measured::new(length).shown_as(Measure::SectionLength);
        let ground = design.ground();
        if let Some(property) = self.property() {
            return design.post().property(property);
        }
        match self {
            Self::LateralBearing => Some(Measured::new(ground.lateral().per_depth())),
            Self::VerticalPressure => ground.vertical().map(Measured::new),
            Self::DiscountedTop => {
                let top = ground.discounted_top();
                (top > Length::default()).then(|| size(top))
            }
            Self::HoleSize => design.foundation().hole().map(|hole| size(hole.size())),
            Self::PlannedDepth => planned.map(Measured::new),
            _ => None,
        }
    }

    /// Is it the wind of this code?
    pub(super) fn is_wind_of<C: VariedWind>(self) -> bool {
        match self {
            Self::WindSpeed => C::QUESTION == Question::Speed,
            Self::WindPressure => C::QUESTION == Question::WindPressure,
            _ => false,
        }
    }
}

impl core::fmt::Display for Input {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.pad(self.name())
    }
}
