//! Round steel pipe: AISC 360, allowable strength design.
//!
//! Bending, chapter F8 (valid for D/t < 0.45 E/Fy): Mn = Fy Z where
//! D/t ≤ 0.07 E/Fy, [0.021 E/(D/t) + Fy] S up to 0.31 E/Fy, and
//! [0.33 E/(D/t)] S beyond; never more than Fy Z; Ω = 1.67, φ = 0.90. Shear, G5 (G6 in
//! editions before 2016): Vn = Fcr A/2 with Fcr = 0.78 E/(D/t)^1.5 ≤ 0.6 Fy;
//! the other expression for Fcr, which needs the shear span, can only be
//! greater where it counts and is left out. From memory but for Mn = Fy Z.

use super::steel::{MODULUS_KSI, OMEGA, PHI};
use super::{DesignResistance, PostStrength, SteelStrength};
use crate::error::Error;
use crate::limit_state::LoadAndResistance;
use crate::section::{PostSection, Tube};
use crate::source::{self, Citation};
use crate::step::{Step, Worksheet};
use crate::units::{FlexuralRigidity, Measure, Pressure, bending_moment, ksi};

/// A round steel pipe post.
///
/// Give the design wall: for electric-resistance-welded tube to ASTM A500 that
/// is 0.93 of the nominal wall (AISC 360 B4.2, from memory).
///
/// ```
/// use groundline::{post::{PipePost, SteelStrength}, section::Tube, units::*};
/// let pipe = PipePost::new(Tube::new(inch(2.375), inch(0.154))?, SteelStrength::new(ksi(30.0))?)?;
/// assert!((pipe.strength().moment.to(kip_in) - 13.67).abs() < 0.005);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PipePost {
    section: Tube,
    steel: SteelStrength,
}

/// How the wall behaves in bending.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Wall {
    Compact,
    Noncompact,
    Slender,
}

impl PipePost {
    /// A pipe of a section and a steel.
    ///
    /// # Errors
    /// D/t of 0.45 E/Fy or more, beyond chapter F8.
    pub fn new(section: Tube, steel: SteelStrength) -> Result<Self, Error> {
        let post = Self { section, steel };
        if section.slenderness() < 0.45 * post.e_over_fy() {
            Ok(post)
        } else {
            Err(Error::NotApplicable {
                field: "pipe wall",
                reason: "the wall is too thin for AISC 360 F8: D/t must be below 0.45 E/Fy",
            })
        }
    }

    /// The section.
    pub const fn section(&self) -> &Tube {
        &self.section
    }
    /// The steel.
    pub const fn steel(&self) -> SteelStrength {
        self.steel
    }

    /// E/Fy.
    pub(super) fn e_over_fy(&self) -> f64 {
        ksi(MODULUS_KSI).value / self.steel.yield_strength().value
    }

    fn wall(&self) -> Wall {
        let slenderness = self.section.slenderness();
        if slenderness <= 0.07 * self.e_over_fy() {
            Wall::Compact
        } else if slenderness <= 0.31 * self.e_over_fy() {
            Wall::Noncompact
        } else {
            Wall::Slender
        }
    }

    /// E I, E 29 000 ksi.
    pub fn rigidity(&self) -> FlexuralRigidity {
        ksi(MODULUS_KSI) * self.section.second_moment()
    }

    /// Fcr of shear.
    fn shear_stress(&self) -> Pressure {
        let slenderness = self.section.slenderness();
        let buckling = ksi(0.78 * MODULUS_KSI) / (slenderness * slenderness.sqrt());
        let yielding = self.steel.yield_strength() * 0.6;
        if buckling < yielding {
            buckling
        } else {
            yielding
        }
    }

    /// φMn and φVn, load and resistance factors, φ = 0.90 for both: Ω φ = 1.5
    /// times the allowable ones.
    pub fn design_strength(&self) -> DesignResistance<LoadAndResistance> {
        let allowable = self.strength();
        DesignResistance::new(
            &PostSection::Tube(self.section),
            allowable.moment * (OMEGA * PHI),
            allowable.shear * (OMEGA * PHI),
            allowable.moment_source,
            allowable.shear_source,
        )
    }

    /// Mn/Ω and Vn/Ω.
    #[inline]
    pub fn strength(&self) -> PostStrength {
        let fy = self.steel.yield_strength();
        let plastic = bending_moment(fy, self.section.plastic_modulus());
        let elastic = |stress: Pressure| bending_moment(stress, self.section.section_modulus());
        let slenderness = self.section.slenderness();
        let nominal = match self.wall() {
            Wall::Compact => plastic,
            Wall::Noncompact => elastic(ksi(0.021 * MODULUS_KSI) / slenderness + fy),
            Wall::Slender => elastic(ksi(0.33 * MODULUS_KSI) / slenderness),
        };
        let nominal = if nominal < plastic { nominal } else { plastic };
        PostStrength::new(
            &PostSection::Tube(self.section),
            nominal / OMEGA,
            self.shear_stress() * self.section.area() * (0.5 / OMEGA),
            self.bending_citation(),
            &source::AISC_G5,
        )
    }

    /// The plastic moment is quoted, the rest of F8 from memory.
    #[inline]
    fn bending_citation(&self) -> &'static Citation {
        match self.wall() {
            Wall::Compact => &source::AISC_F8,
            Wall::Noncompact | Wall::Slender => &source::AISC_F8_LOCAL_BUCKLING,
        }
    }

    /// Writes the working.
    pub fn write(&self, sheet: &mut Worksheet) {
        sheet.section("Post: steel pipe");
        let wall = self.wall();
        sheet.remark(match wall {
            Wall::Compact => "Compact wall: the full plastic moment.",
            Wall::Noncompact => "Noncompact wall.",
            Wall::Slender => "Slender wall.",
        });
        let strength = self.strength();
        let (diameter, thickness) = (self.section.diameter(), self.section.wall());
        sheet.push(
            Step::given("Fy", "yield strength", self.steel.yield_strength())
                .shown_as(Measure::Stress),
        );
        sheet.push(
            Step::computed_number(
                "r",
                "slenderness of the wall",
                "D/t",
                self.section.slenderness(),
            )
            .with_as("D", diameter, Measure::SectionLength)
            .with_as("t", thickness, Measure::SectionLength),
        );
        sheet.push(
            Step::computed(
                "Z",
                "plastic section modulus",
                "(D^3 - (D - 2*t)^3)/6",
                self.section.plastic_modulus(),
            )
            .with_as("D", diameter, Measure::SectionLength)
            .with_as("t", thickness, Measure::SectionLength)
            .shown_as(Measure::SectionModulus)
            .cite(&source::GEOMETRY),
        );
        let modulus = self.section.section_modulus();
        if wall == Wall::Compact {
            sheet.push(
                Step::computed(
                    "Mr",
                    "allowable moment",
                    sheet.by_system("Fy*Z/1.67/12", "Fy*Z/1.67/10^6"),
                    strength.moment,
                )
                .with_as("Fy", self.steel.yield_strength(), Measure::Stress)
                .with_as("Z", self.section.plastic_modulus(), Measure::SectionModulus)
                .cite(&source::AISC_F8),
            );
        } else {
            sheet.push(
                Step::computed(
                    "Sx",
                    "section modulus",
                    "pi/32*(D^4 - (D - 2*t)^4)/D",
                    modulus,
                )
                .with_as("D", diameter, Measure::SectionLength)
                .with_as("t", thickness, Measure::SectionLength)
                .shown_as(Measure::SectionModulus)
                .cite(&source::GEOMETRY),
            );
            let formula = match (wall, sheet.system) {
                (Wall::Noncompact, _) => sheet.by_system(
                    "min((0.021*E/r + Fy)*Sx, Fy*Z)/1.67/12",
                    "min((0.021*E/r + Fy)*Sx, Fy*Z)/1.67/10^6",
                ),
                _ => sheet.by_system(
                    "min(0.33*E/r*Sx, Fy*Z)/1.67/12",
                    "min(0.33*E/r*Sx, Fy*Z)/1.67/10^6",
                ),
            };
            sheet.push(
                Step::computed("Mr", "allowable moment", formula, strength.moment)
                    .with_as("E", ksi(MODULUS_KSI), Measure::Stress)
                    .with_number("r", self.section.slenderness())
                    .with_as("Sx", modulus, Measure::SectionModulus)
                    .with_as("Fy", self.steel.yield_strength(), Measure::Stress)
                    .with_as("Z", self.section.plastic_modulus(), Measure::SectionModulus)
                    .cite(self.bending_citation()),
            );
        }
        sheet.push(
            Step::computed(
                "Vr",
                "allowable shear",
                sheet.by_system(
                    "min(0.78*E/r^1.5, 0.6*Fy)*Ag/2/1.67",
                    "min(0.78*E/r^1.5, 0.6*Fy)*Ag/2/1.67/1000",
                ),
                strength.shear,
            )
            .with_as("E", ksi(MODULUS_KSI), Measure::Stress)
            .with_number("r", self.section.slenderness())
            .with_as("Fy", self.steel.yield_strength(), Measure::Stress)
            .with_as("Ag", self.section.area(), Measure::SectionArea)
            .cite(&source::AISC_G5),
        );
    }
}
