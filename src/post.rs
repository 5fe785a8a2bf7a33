//! The post itself: does it break before the ground gives?
//!
//! | post | type | source |
//! |---|---|---|
//! | sawn square timber | [`TimberPost`] | NDS, allowable stress |
//! | round steel pipe | [`PipePost`] | AISC 360 chapters F8 and G, allowable strength |
//! | any other, strength known | [`GivenPost`] | yours |
//! | sawn square timber, design resistance | [`TimberEn1995`] | EN 1995-1-1 |
//! | round hollow section, design resistance | [`PipeEn1993`] | EN 1993-1-1 |
//! | moment and shear below grade | [`BelowGrade`] | statics |
//! | dressed timber and fence pipe as sold | [`catalogue`] | NDS Supplement, ASTM F1083 and F1043 |
//! | how far the top leans | [`Lean`] | statics |
//! | weight and bending together | [`AxialBending`] | AISC 360 H1, NDS 3.9.2 |
//!
//! Bending and shear, where the moment is greatest. Axial load (small in a
//! fence post) is combined with bending where asked for. Wall or face lost to rust or decay
//! is a smaller section ([`crate::section::Tube::less_outside`],
//! [`crate::section::Square::less_each_face`]).

mod axial;
mod below_grade;
pub mod catalogue;
mod design_resistance;
mod given;
mod lean;
mod pipe;
mod pipe_en1993;
mod timber;
mod timber_en1995;
mod timber_values;

pub use axial::{AxialBending, AxialForm, AxialOptions, CompressionValues};
pub use below_grade::BelowGrade;
pub use design_resistance::{DesignCheck, DesignResistance};
pub use given::GivenPost;
pub use lean::Lean;
pub use pipe::{PipePost, SteelStrength};
pub use pipe_en1993::PipeEn1993;
pub use timber::{Moisture, TimberFactors, TimberPost, Treatment};
pub use timber_en1995::{TimberClass, TimberEn1995};
pub use timber_values::{DesignValues, Grade, SizeClass, Species};

use crate::section::PostSection;
use crate::source::Citation;
use crate::step::{Step, Worksheet};
use crate::units::{FlexuralRigidity, Force, Torque};
use crate::utilization::Utilization;

/// A post of a material and a section.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Post {
    /// Sawn square timber.
    Timber(TimberPost),
    /// Round steel pipe.
    Pipe(PipePost),
    /// Of known strength.
    Given(GivenPost),
}

impl Post {
    /// Its section.
    #[inline]
    pub fn section(&self) -> PostSection {
        match self {
            Self::Timber(post) => PostSection::Square(*post.section()),
            Self::Pipe(post) => PostSection::Tube(*post.section()),
            Self::Given(post) => *post.section(),
        }
    }

    /// What it resists, at allowable-stress level.
    #[inline]
    pub fn strength(&self) -> PostStrength {
        match self {
            Self::Timber(post) => post.strength(),
            Self::Pipe(post) => post.strength(),
            Self::Given(post) => post.strength(),
        }
    }

    /// EI: of pipe 29 000 ksi times I; none where no modulus is known.
    pub fn rigidity(&self) -> Option<FlexuralRigidity> {
        match self {
            Self::Pipe(post) => Some(post.rigidity()),
            Self::Timber(_) | Self::Given(_) => None,
        }
    }

    /// Writes the working of its strength.
    pub fn write(&self, sheet: &mut Worksheet) {
        match self {
            Self::Timber(post) => post.write(sheet),
            Self::Pipe(post) => post.write(sheet),
            Self::Given(post) => post.write(sheet),
        }
    }
}

impl From<TimberPost> for Post {
    #[inline]
    fn from(post: TimberPost) -> Self {
        Self::Timber(post)
    }
}

impl From<PipePost> for Post {
    #[inline]
    fn from(post: PipePost) -> Self {
        Self::Pipe(post)
    }
}

impl From<GivenPost> for Post {
    fn from(post: GivenPost) -> Self {
        Self::Given(post)
    }
}

/// Allowable bending moment and shear of a post.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct PostStrength {
    /// Allowable moment about an axis parallel to a face.
    pub moment: Torque,
    /// Allowable moment whatever its direction: of a square the above over √2,
    /// since the stresses of both directions add up in a corner.
    pub skew_moment: Torque,
    /// Allowable shear.
    pub shear: Force,
    /// Where the moment comes from.
    pub moment_source: &'static Citation,
    /// Where the shear comes from.
    pub shear_source: &'static Citation,
}

impl PostStrength {
    /// Of a section: its moment about a face, its shear, and their sources.
    #[inline]
    pub(crate) fn new(
        section: &PostSection,
        moment: Torque,
        shear: Force,
        moment_source: &'static Citation,
        shear_source: &'static Citation,
    ) -> Self {
        Self {
            moment,
            skew_moment: skew_moment(section, moment),
            shear,
            moment_source,
            shear_source,
        }
    }
}

/// What of a moment about a face is left in any direction.
#[inline]
fn skew_moment(section: &PostSection, moment: Torque) -> Torque {
    match section {
        PostSection::Square(_) => moment / core::f64::consts::SQRT_2,
        PostSection::Tube(_) => moment,
    }
}

/// A post against the actions on it.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct PostStrengthCheck {
    /// The greatest moment and shear.
    pub demand: BelowGrade,
    /// What the post resists.
    pub strength: PostStrength,
    /// May the moment have any direction (corner, gate), not only square to a
    /// face?
    pub skew: bool,
    /// Moment over allowable moment.
    pub bending: Utilization,
    /// Shear over allowable shear.
    pub shear: Utilization,
}

impl PostStrengthCheck {
    /// The check; `skew` where the moment may have any direction.
    #[inline]
    pub fn new(demand: BelowGrade, strength: PostStrength, skew: bool) -> Self {
        let allowable = if skew {
            strength.skew_moment
        } else {
            strength.moment
        };
        Self {
            demand,
            strength,
            skew,
            bending: Utilization::of(demand.moment(), allowable),
            shear: Utilization::of(demand.shear(), strength.shear),
        }
    }

    /// The worse of bending and shear.
    #[inline]
    pub fn worst(&self) -> Utilization {
        self.bending.max(self.shear)
    }

    /// Writes the working.
    pub fn write(&self, post: &Post, sheet: &mut Worksheet) {
        self.demand.write(sheet);
        post.write(sheet);
        let mut allowable = self.strength.moment;
        let mut symbol = "Mr";
        let mut ratio = "Mmax/Mr";
        if self.skew && self.strength.skew_moment < self.strength.moment {
            allowable = self.strength.skew_moment;
            symbol = "Md";
            ratio = "Mmax/Md";
            sheet.push(
                Step::computed(
                    "Md",
                    "allowable moment in any direction: a corner carries both components",
                    "Mr/sqrt(2)",
                    allowable,
                )
                .with("Mr", self.strength.moment)
                .cite(&crate::source::STATICS),
            );
        }
        sheet.push(
            Step::computed_number("um", "utilization in bending", ratio, self.bending.ratio())
                .with("Mmax", self.demand.moment())
                .with(symbol, allowable),
        );
        sheet.push(
            Step::computed_number("uv", "utilization in shear", "Vmax/Vr", self.shear.ratio())
                .with("Vmax", self.demand.shear())
                .with("Vr", self.strength.shear),
        );
    }
}
