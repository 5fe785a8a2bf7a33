//! The post itself: does it break before the ground gives?
//!
//! | post | type | source |
//! |---|---|---|
//! | sawn square timber | [`TimberPost`] | NDS, allowable stress |
//! | round steel pipe | [`PipePost`] | AISC 360 chapters F8 and G, allowable strength |
//! | moment and shear below grade | [`BelowGrade`] | statics |
//!
//! A first pass: bending and shear, where the moment is greatest. Axial load
//! (small in a fence post) is not combined with bending, and lean is not
//! computed.

mod below_grade;
mod pipe;
mod timber;
mod timber_values;

pub use below_grade::BelowGrade;
pub use pipe::{PipePost, SteelStrength};
pub use timber::{Moisture, TimberFactors, TimberPost, Treatment};
pub use timber_values::{DesignValues, Grade, SizeClass, Species};

use crate::section::PostSection;
use crate::source::Citation;
use crate::step::{Step, Worksheet};
use crate::units::{Force, Torque};
use crate::utilization::Utilization;

/// A post of a material and a section.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Post {
    /// Sawn square timber.
    Timber(TimberPost),
    /// Round steel pipe.
    Pipe(PipePost),
}

impl Post {
    /// Its section.
    #[inline]
    pub fn section(&self) -> PostSection {
        match self {
            Self::Timber(post) => PostSection::Square(*post.section()),
            Self::Pipe(post) => PostSection::Tube(*post.section()),
        }
    }

    /// What it resists, at allowable-stress level.
    #[inline]
    pub fn strength(&self) -> PostStrength {
        match self {
            Self::Timber(post) => post.strength(),
            Self::Pipe(post) => post.strength(),
        }
    }

    /// Writes the working of its strength.
    pub fn write(&self, sheet: &mut Worksheet) {
        match self {
            Self::Timber(post) => post.write(sheet),
            Self::Pipe(post) => post.write(sheet),
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

/// Allowable bending moment and shear of a post.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct PostStrength {
    /// Allowable moment.
    pub moment: Torque,
    /// Allowable shear.
    pub shear: Force,
    /// Where the moment comes from.
    pub moment_source: &'static Citation,
    /// Where the shear comes from.
    pub shear_source: &'static Citation,
}

/// A post against the actions on it.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct PostStrengthCheck {
    /// The greatest moment and shear.
    pub demand: BelowGrade,
    /// What the post resists.
    pub strength: PostStrength,
    /// Moment over allowable moment.
    pub bending: Utilization,
    /// Shear over allowable shear.
    pub shear: Utilization,
}

impl PostStrengthCheck {
    /// The check.
    #[inline]
    pub fn new(demand: BelowGrade, strength: PostStrength) -> Self {
        Self {
            demand,
            strength,
            bending: Utilization::of(demand.moment(), strength.moment),
            shear: Utilization::of(demand.shear(), strength.shear),
        }
    }

    /// Writes the working.
    pub fn write(&self, post: &Post, sheet: &mut Worksheet) {
        self.demand.write(sheet);
        post.write(sheet);
        sheet.push(
            Step::computed_number(
                "um",
                "utilization in bending",
                "Mmax/Mr",
                self.bending.ratio(),
            )
            .with("Mmax", self.demand.moment())
            .with("Mr", self.strength.moment),
        );
        sheet.push(
            Step::computed_number("uv", "utilization in shear", "Vmax/Vr", self.shear.ratio())
                .with("Vmax", self.demand.shear())
                .with("Vr", self.strength.shear),
        );
    }
}
