//! What of a post the ground grips, and with what friction.

use super::PostDesign;
use crate::backfill::Setting;
use crate::error::{Error, within};
use crate::foundation::{Hole, HoleShape};
use crate::post::Post;
use crate::section::PostSection;
use crate::source::{self, Citation};
use crate::step::{Step, Worksheet};
use crate::units::{
    Area, Force, ForcePerVolume, Length, Measurable, Measure, Pressure, Volume, kpa, pcf,
};
use crate::uplift::presumptive_friction;
use core::f64::consts::PI;

/// Friction on the side of a footing or post, allowable.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[non_exhaustive]
pub enum SideFriction {
    /// None. The default.
    #[default]
    None,
    /// A sixth of the vertical bearing of the ground, at most 500 psf, of poured
    /// concrete alone: the clause is of elements cast in place. It is one of
    /// compression; uplift there is by analysis over 3 or tests over 2, so look
    /// at it as an estimate.
    Presumptive,
    /// An allowable stress of your own. It counts only where the setting may have
    /// friction without a test ([`Setting::credits_friction`]): poured concrete and
    /// driven posts.
    Allowable(Pressure),
    /// An allowable stress from tests of this setting on site.
    Tested(Pressure),
}

impl SideFriction {
    /// An allowable stress written by hand is as checked as any.
    pub(super) fn checked(self) -> Result<Self, Error> {
        match self {
            Self::Allowable(stress) | Self::Tested(stress) => {
                within("friction", stress, kpa(0.0), kpa(1_000.0)).map(|_| self)
            }
            Self::None | Self::Presumptive => Ok(self),
        }
    }

    /// What of it counts for a design.
    pub(super) fn of(self, design: &PostDesign) -> Result<CreditedFriction, Error> {
        let credits = match self {
            // The clause is of elements cast in place.
            Self::Presumptive => design.setting() == Some(Setting::PouredConcrete),
            _ => design.setting().is_some_and(Setting::credits_friction),
        };
        let nothing = CreditedFriction {
            stress: kpa(0.0),
            refused: false,
            source: &source::GIVEN,
            tested: false,
        };
        Ok(match self {
            Self::None => nothing,
            Self::Tested(stress) => CreditedFriction {
                stress,
                tested: true,
                ..nothing
            },
            Self::Presumptive | Self::Allowable(_) if !credits => CreditedFriction {
                refused: true,
                ..nothing
            },
            Self::Allowable(stress) => CreditedFriction { stress, ..nothing },
            Self::Presumptive => {
                let bearing = design.ground().vertical().ok_or(Error::NotApplicable {
                    field: "presumptive friction",
                    reason: "it is a share of the vertical bearing, and the ground has none",
                })?;
                CreditedFriction {
                    stress: presumptive_friction(bearing)?,
                    source: &source::IBC_FRICTION,
                    ..nothing
                }
            }
        })
    }
}

/// The friction that counts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CreditedFriction {
    stress: Pressure,
    refused: bool,
    source: &'static Citation,
    tested: bool,
}

impl CreditedFriction {
    /// The allowable stress.
    pub const fn stress(&self) -> Pressure {
        self.stress
    }
    /// Was friction asked for in a setting that has none without a test?
    pub const fn refused(&self) -> bool {
        self.refused
    }
    /// Is it of tests?
    pub const fn tested(&self) -> bool {
        self.tested
    }
    /// Is it the presumptive friction of IBC 1810.3.3.1.4, a clause of deep
    /// foundations?
    pub fn presumptive(&self) -> bool {
        self.source.id == source::IBC_FRICTION.id
    }
    /// Where it comes from.
    pub const fn source(&self) -> &'static Citation {
        self.source
    }

    /// Writes the stress, or why there is none.
    pub(super) fn write(&self, sheet: &mut Worksheet) {
        if self.refused {
            sheet.remark(
                "Friction was asked for, but this setting has none without a test on site: none is \
                 counted.",
            );
        } else if self.stress > kpa(0.0) {
            sheet.push(Step::given("f", "allowable friction", self.stress).cite(self.source));
        }
    }
}

/// The unit weight of concrete: 145 pcf, or given.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct ConcreteWeight(Option<ForcePerVolume>);

impl ConcreteWeight {
    pub(super) const DEFAULT: Self = Self(None);

    pub(super) fn given(weight: ForcePerVolume) -> Result<Self, Error> {
        within("unit weight of concrete", weight, pcf(60.0), pcf(250.0)).map(|w| Self(Some(w)))
    }

    pub(super) fn unit(self) -> ForcePerVolume {
        self.0.unwrap_or_else(|| pcf(145.0))
    }

    /// The concrete of a design to a depth, and its weight.
    pub(super) fn of(self, design: &PostDesign, depth: Length) -> (Volume, Force) {
        let volume = design.foundation().concrete_volume(depth);
        (volume, self.unit() * volume)
    }

    pub(super) fn write(self, volume: Volume, weight: Force, sheet: &mut Worksheet) {
        if volume == Volume::default() {
            return;
        }
        let basis = if self.0.is_some() {
            &source::GIVEN
        } else {
            &source::CONCRETE_WEIGHT
        };
        sheet.push(
            Step::computed("Wf", "weight of the concrete", "g*Vc", weight)
                .with_as("g", self.unit(), Measure::UnitWeight)
                .with_as("Vc", volume, Measure::Volume)
                .cite(basis),
        );
    }
}

/// The outside that the ground grips: the hole where concrete or foam fills
/// it, else the post.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Gripped {
    pub(super) perimeter: Length,
    /// Steel against the ground, rather than concrete, wood or foam.
    pub(super) steel: bool,
    /// Gravel, rather than the ground, is what grips.
    pub(super) gravel: bool,
}

impl Gripped {
    pub(super) fn of(design: &PostDesign) -> Self {
        let filled = matches!(
            design.setting(),
            Some(Setting::PouredConcrete | Setting::ExpandingFoam)
        );
        match design.foundation().dug_hole() {
            Some(hole) if filled => Self {
                perimeter: around_hole(hole),
                gravel: false,
                steel: false,
            },
            _ => Self {
                perimeter: around_post(&design.post().section()),
                gravel: design.setting() == Some(Setting::CompactedGravel),
                // A tube of known strength may be anything: steel grips most.
                steel: matches!(
                    design.post().section(),
                    PostSection::Tube(_) | PostSection::SquareTube(_)
                ),
            },
        }
    }

    /// What frost grips: of a sleeved post without concrete or foam the sleeve,
    /// which is wider than the insert that friction is credited to.
    pub(super) fn by_frost(design: &PostDesign) -> Self {
        let grips = Self::of(design);
        let bare = grips.perimeter == around_post(&design.post().section());
        match design.post() {
            Post::Sleeved(post) if bare => Self {
                perimeter: post.sleeve().outside() * 4.0,
                ..grips
            },
            _ => grips,
        }
    }

    /// The side between two depths.
    pub(super) fn side(&self, from: Length, to: Length) -> Area {
        if to > from {
            self.perimeter * (to - from)
        } else {
            Area::from_si(0.0)
        }
    }
}

fn around_hole(hole: &Hole) -> Length {
    match hole.shape() {
        HoleShape::Round => hole.size() * PI,
        HoleShape::Square => hole.size() * 4.0,
    }
}

pub(super) fn around_post(section: &PostSection) -> Length {
    match section {
        PostSection::Square(square) => square.side() * 4.0,
        PostSection::SquareTube(tube) => tube.side() * 4.0,
        PostSection::Tube(tube) => tube.diameter() * PI,
        PostSection::Disc(disc) => disc.diameter() * PI,
    }
}

/// Is it a timber post?
pub(super) const fn is_timber(post: &Post) -> bool {
    matches!(post, Post::Timber(_) | Post::RoundTimber(_))
}
