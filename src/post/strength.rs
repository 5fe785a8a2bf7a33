//! What a post resists, and a post against the actions on it.

use super::{BelowGrade, Post};
use crate::section::PostSection;
use crate::source::{self, Citation};
use crate::step::{Step, Worksheet};
use crate::units::{Force, Torque};
use crate::utilization::Utilization;

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

/// What of a moment about a face is left in any direction: of squares, where
/// the stresses of both directions add up in a corner, the share 1/√2; all of
/// it of rounds.
#[inline]
pub(super) fn skew_moment(section: &PostSection, moment: Torque) -> Torque {
    if section.is_square() {
        moment / core::f64::consts::SQRT_2
    } else {
        moment
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
                .cite(&source::STATICS),
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
