//! Aluminium tube posts: Aluminum Design Manual, allowable strength, walls too
//! stocky to buckle.
//!
//! Allowable moment: the lesser of S Fty/1.65 (yielding) and S Ftu/1.95 (rupture),
//! with the elastic modulus, which is safe; allowable shear: the lesser of 0.6
//! Fty/1.65 and 0.6 Ftu/1.95 on the shear area (I b/Q). Near a weld the strength
//! of the weld zone counts.
//!
//! Local buckling is not computed. Walls more slender than these limits, which
//! are below the slenderness up to which the Manual lets the wall yield, are
//! refused: flats b/t 20 √(35 ksi/Fty), at most 22; rounds D/t 40 √(35 ksi/Fty), at
//! most 44. Fty is that of the metal away from welds. All of this from memory.

use super::PostStrength;
use super::square_tube::{write_elastic, write_flat, write_plastic};
use crate::error::{Error, stress_within};
use crate::section::{HollowSection, PostSection};
use crate::source::{self, Mark};
use crate::step::{Step, Worksheet};
use crate::units::{FlexuralRigidity, Measure, Pressure, bending_moment, ksi};

/// E.
const MODULUS_KSI: f64 = 10_100.0;
/// Ω of yielding.
const OMEGA_YIELD: f64 = 1.65;
/// Ω of rupture.
const OMEGA_RUPTURE: f64 = 1.95;

/// Alloys of extruded posts. Strengths from memory.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Alloy {
    /// 6063-T6: Fty 25, Ftu 30 ksi; at welds 8 and 17 ksi.
    A6063T6,
    /// 6061-T6: Fty 35, Ftu 38 ksi; at welds 11 (15 by another reading) and 24
    /// ksi.
    A6061T6,
}

/// Does a weld come near where the moment is great: at grade or below? There
/// is no default: two thirds of the strength hang on it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Temper {
    /// No weld there.
    Unwelded,
    /// A weld there; rails welded well above grade are none.
    Welded,
}

/// Yield and ultimate strength of an aluminium.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Aluminium {
    yield_strength: Pressure,
    ultimate: Pressure,
    /// Of the metal away from welds: the wall limits go by it.
    unwelded_yield: Pressure,
    mark: Mark,
}

impl Aluminium {
    /// An alloy, welded where it matters or not.
    pub fn of(alloy: Alloy, temper: Temper) -> Self {
        let (fty, ftu, welded_fty, welded_ftu) = match alloy {
            Alloy::A6063T6 => (25.0, 30.0, 8.0, 17.0),
            Alloy::A6061T6 => (35.0, 38.0, 11.0, 24.0),
        };
        let (yield_strength, ultimate) = match temper {
            Temper::Unwelded => (fty, ftu),
            Temper::Welded => (welded_fty, welded_ftu),
        };
        Self {
            yield_strength: ksi(yield_strength),
            ultimate: ksi(ultimate),
            unwelded_yield: ksi(fty),
            mark: Mark::FromMemory,
        }
    }

    /// Your own: Fty and Ftu. Alloys with a tension coefficient kt above 1 (6005-T5
    /// and 6105-T5 among them, from memory) want Ftu/kt for Ftu: kt is taken as 1 here.
    ///
    /// # Errors
    /// Fty outside 3 to 60 ksi, Ftu outside Fty to 80 ksi.
    pub fn given(yield_strength: Pressure, ultimate: Pressure) -> Result<Self, Error> {
        let fty = stress_within("Fty", yield_strength, ksi(3.0), ksi(60.0))?;
        Ok(Self {
            yield_strength: fty,
            ultimate: stress_within("Ftu", ultimate, fty, ksi(80.0))?,
            unwelded_yield: fty,
            mark: Mark::Given,
        })
    }

    /// Fty, Ftu and the strength away from welds, each multiplied: yours then.
    ///
    /// # Errors
    /// As [`Aluminium::given`]; strength away from welds outside 3 to 60 ksi.
    pub fn scaled(self, factor: f64) -> Result<Self, Error> {
        let unwelded = self.unwelded_yield * factor;
        Ok(Self {
            unwelded_yield: stress_within("Fty", unwelded, ksi(3.0), ksi(60.0))?,
            ..Self::given(self.yield_strength * factor, self.ultimate * factor)?
        })
    }

    /// Fty.
    pub const fn yield_strength(self) -> Pressure {
        self.yield_strength
    }
    /// Ftu.
    pub const fn ultimate(self) -> Pressure {
        self.ultimate
    }
    /// How well they are known.
    pub const fn mark(self) -> Mark {
        self.mark
    }

    /// The lesser of yielding and rupture over their Ω.
    #[inline]
    fn allowable(self) -> Pressure {
        let (yielding, rupture) = (
            self.yield_strength / OMEGA_YIELD,
            self.ultimate / OMEGA_RUPTURE,
        );
        if yielding < rupture {
            yielding
        } else {
            rupture
        }
    }
}

/// An aluminium tube post.
///
/// ```
/// use groundline::{post::*, section::SquareTube, units::*};
/// let tube = SquareTube::new(inch(2.0), inch(0.125))?.with_corner_radius(inch(0.0))?;
/// let metal = Aluminium::of(Alloy::A6063T6, Temper::Unwelded);
/// let post = AluminiumPost::new(tube, metal)?;
/// assert!((post.strength().moment.to(lb_ft) - 696.7).abs() < 0.05);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AluminiumPost {
    section: HollowSection,
    metal: Aluminium,
}

impl AluminiumPost {
    /// A post of a tube and a metal.
    ///
    /// # Errors
    /// A wall beyond the limits above.
    pub fn new(section: impl Into<HollowSection>, metal: Aluminium) -> Result<Self, Error> {
        let section = section.into();
        let scale = (ksi(35.0).value / metal.unwelded_yield.value).sqrt();
        let refused = |reason| {
            Err(Error::NotApplicable {
                field: "aluminium wall",
                reason,
            })
        };
        match &section {
            HollowSection::Round(tube) if tube.slenderness() > (40.0 * scale).min(44.0) => refused(
                "local buckling is not computed: D/t must not pass 40 times the root of 35 \
                     ksi/Fty, nor 44",
            ),
            HollowSection::Square(tube) if tube.slenderness() > (20.0 * scale).min(22.0) => {
                refused(
                    "local buckling is not computed: the flat over the wall must not pass 20 \
                     times the root of 35 ksi/Fty, nor 22",
                )
            }
            _ => Ok(Self { section, metal }),
        }
    }

    /// The section.
    #[inline]
    pub const fn section(&self) -> &HollowSection {
        &self.section
    }
    /// The metal.
    pub const fn metal(&self) -> Aluminium {
        self.metal
    }
    /// E I, E 10 100 ksi.
    pub fn rigidity(&self) -> FlexuralRigidity {
        ksi(MODULUS_KSI) * PostSection::from(self.section).second_moment()
    }

    /// Allowable moment and shear.
    #[inline]
    pub fn strength(&self) -> PostStrength {
        let stress = self.metal.allowable();
        PostStrength::new(
            &self.section.into(),
            bending_moment(stress, self.section.section_modulus()),
            stress * 0.6 * self.section.shear_area(),
            &source::ADM_BENDING,
            &source::ADM_BENDING,
        )
    }

    /// Writes the working.
    pub fn write(&self, sheet: &mut Worksheet) {
        sheet.section("Post: aluminium tube");
        sheet.remark(format!(
            "Strengths {}. Elastic modulus; local buckling is not computed, slender walls are \
             refused.",
            self.metal.mark.name()
        ));
        let own = self.metal.mark == Mark::Given;
        if own {
            sheet.remark(
                "Tension coefficient kt taken as 1: of an alloy with a greater one (6005-T5 and \
                 6105-T5 among them, from memory) Ftu must be given divided by it.",
            );
        }
        let cited = if own {
            &source::GIVEN
        } else {
            &source::ADM_ALLOYS
        };
        let (fty, ftu) = (self.metal.yield_strength, self.metal.ultimate);
        for (symbol, meaning, stress) in [
            ("Fty", "yield strength", fty),
            ("Ftu", "ultimate strength", ftu),
        ] {
            sheet.push(
                Step::given(symbol, meaning, stress)
                    .shown_as(Measure::Stress)
                    .cite(cited),
            );
        }
        write_section(&self.section, sheet);
        let strength = self.strength();
        sheet.push(
            Step::computed(
                "Mr",
                "allowable moment: yielding or rupture",
                sheet.by_system(
                    "min(Fty/1.65, Ftu/1.95)*Sx/12",
                    "min(Fty/1.65, Ftu/1.95)*Sx/10^6",
                ),
                strength.moment,
            )
            .with_as("Fty", fty, Measure::Stress)
            .with_as("Ftu", ftu, Measure::Stress)
            .with_as(
                "Sx",
                self.section.section_modulus(),
                Measure::SectionModulus,
            )
            .cite(&source::ADM_BENDING),
        );
        sheet.push(
            Step::computed(
                "Vr",
                "allowable shear",
                sheet.by_system(
                    "0.6*min(Fty/1.65, Ftu/1.95)*As",
                    "0.6*min(Fty/1.65, Ftu/1.95)*As/1000",
                ),
                strength.shear,
            )
            .with_as("Fty", fty, Measure::Stress)
            .with_as("Ftu", ftu, Measure::Stress)
            .with_as("As", self.section.shear_area(), Measure::SectionArea)
            .cite(&source::ADM_BENDING),
        );
    }
}

/// Sx and the shear area.
fn write_section(section: &HollowSection, sheet: &mut Worksheet) {
    match section {
        HollowSection::Round(tube) => {
            for (symbol, meaning, formula, result) in [
                (
                    "Sx",
                    "section modulus",
                    "pi/32*(D^4 - (D - 2*t)^4)/D",
                    tube.section_modulus(),
                ),
                (
                    "Z",
                    "plastic section modulus, of which Q is half",
                    "(D^3 - (D - 2*t)^3)/6",
                    tube.plastic_modulus(),
                ),
            ] {
                sheet.push(
                    Step::computed(symbol, meaning, formula, result)
                        .with_as("D", tube.diameter(), Measure::SectionLength)
                        .with_as("t", tube.wall(), Measure::SectionLength)
                        .shown_as(Measure::SectionModulus)
                        .cite(&source::GEOMETRY),
                );
            }
            sheet.push(
                Step::computed("As", "shear area", "2*Sx*D*t/Z", tube.shear_area())
                    .with_as("Sx", tube.section_modulus(), Measure::SectionModulus)
                    .with_as("D", tube.diameter(), Measure::SectionLength)
                    .with_as("t", tube.wall(), Measure::SectionLength)
                    .with_as("Z", tube.plastic_modulus(), Measure::SectionModulus)
                    .shown_as(Measure::SectionArea)
                    .cite(&source::GEOMETRY),
            );
        }
        HollowSection::Square(tube) => {
            write_flat(tube, sheet);
            write_elastic(tube, sheet);
            write_plastic(tube, sheet);
            sheet.push(
                Step::computed("As", "shear area", "4*Ix*t/Z", tube.shear_area())
                    .with_as("Ix", tube.second_moment(), Measure::SecondMoment)
                    .with_as("t", tube.wall(), Measure::SectionLength)
                    .with_as("Z", tube.plastic_modulus(), Measure::SectionModulus)
                    .shown_as(Measure::SectionArea)
                    .cite(&source::GEOMETRY),
            );
        }
    }
}
