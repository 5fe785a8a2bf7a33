//! Square steel tube: AISC 360, allowable strength design.
//!
//! Bending, chapter F7, of a flange and webs of the same flat b = B − 3t (more
//! where the corners are sharper) and with Mp = Fy Z: Mn = Mp where b/t ≤ 1.12
//! √(E/Fy); up to 1.40 √(E/Fy) the flange leaves Mp − (Mp − Fy S)(3.57 (b/t)
//! √(Fy/E) − 4.0); beyond that Fy Se, Se of the section whose flange in
//! compression is only be = 1.92 t √(E/Fy) [1 − 0.38 √(E/Fy)/(b/t)] wide. The webs,
//! noncompact from 2.42 √(E/Fy), leave more than Fy S and never govern in a square;
//! beyond 5.70 √(E/Fy) they are slender, and refused. Shear, G4 (G5 before 2016):
//! Vn = 0.6 Fy 2 (B − 3t) t Cv, Cv the least of 1, 1.10 √(kv E/Fy)/(b/t) and 1.51 kv
//! E/(Fy (b/t)²), kv = 5. Ω = 1.67, φ = 0.90 of both. From memory.

use super::steel::{MODULUS_KSI, OMEGA, PHI};
use super::{DesignResistance, PostStrength, SteelStrength};
use crate::error::Error;
use crate::limit_state::LoadAndResistance;
use crate::section::{PostSection, SquareTube};
use crate::source;
use crate::step::{Step, Worksheet};
use crate::units::{
    Area, FlexuralRigidity, Length, Measurable, Measure, Pressure, Torque, Volume, bending_moment,
    ksi,
};

/// kv of webs without stiffeners.
const KV: f64 = 5.0;

/// A square steel tube post.
///
/// Give the design wall: for electric-resistance-welded tube to ASTM A500 that
/// is 0.93 of the nominal wall (AISC 360 B4.2, from memory).
///
/// ```
/// use groundline::{post::{SquareTubePost, SteelStrength}, section::SquareTube, units::*};
/// let tube = SquareTube::new(inch(4.0), inch(0.233))?;
/// let post = SquareTubePost::new(tube, SteelStrength::new(ksi(46.0))?)?;
/// // φMn, load and resistance factors; the manual prints 16.2 (from memory).
/// assert!((post.design_strength().moment.to(kip_ft) - 16.2).abs() < 0.05);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SquareTubePost {
    section: SquareTube,
    steel: SteelStrength,
}

/// How the flange behaves in bending.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Flange {
    Compact,
    Noncompact,
    Slender,
}

/// The section with the flange in compression cut down to its effective width.
struct Effective {
    /// be.
    width: Length,
    /// Area that does not count.
    lost: Area,
    /// Of the axis, away from the flange in compression.
    shift: Length,
    /// Se, of the flange in compression.
    modulus: Volume,
}

impl SquareTubePost {
    /// A square tube of a section and a steel.
    ///
    /// # Errors
    /// b/t beyond 5.70 √(E/Fy): a slender web.
    pub fn new(section: SquareTube, steel: SteelStrength) -> Result<Self, Error> {
        let post = Self { section, steel };
        if section.slenderness() <= 5.70 * post.root() {
            Ok(post)
        } else {
            Err(Error::NotApplicable {
                field: "tube wall",
                reason: "the webs are slender, beyond what is computed here: the flat over the wall \
                         must not pass 5.70 times the root of E/Fy",
            })
        }
    }

    /// The section.
    #[inline]
    pub const fn section(&self) -> &SquareTube {
        &self.section
    }
    /// The steel.
    #[inline]
    pub const fn steel(&self) -> SteelStrength {
        self.steel
    }
    /// E I, E 29 000 ksi.
    pub fn rigidity(&self) -> FlexuralRigidity {
        ksi(MODULUS_KSI) * self.section.second_moment()
    }

    /// √(E/Fy).
    fn root(&self) -> f64 {
        (ksi(MODULUS_KSI).value / self.steel.yield_strength().value).sqrt()
    }

    /// Are the walls slender in compression: b/t beyond 1.40 √(E/Fy)?
    pub(super) fn is_slender(&self) -> bool {
        self.flange() == Flange::Slender
    }

    fn flange(&self) -> Flange {
        let slenderness = self.section.slenderness();
        if slenderness <= 1.12 * self.root() {
            Flange::Compact
        } else if slenderness <= 1.40 * self.root() {
            Flange::Noncompact
        } else {
            Flange::Slender
        }
    }

    fn effective(&self) -> Effective {
        let (tube, root) = (&self.section, self.root());
        let (side, wall, flat) = (
            tube.side().value,
            tube.wall().value,
            tube.flat_width().value,
        );
        let width = (1.92 * wall * root * (1.0 - 0.38 * root / tube.slenderness())).min(flat);
        let lost = (flat - width) * wall;
        let arm = (side - wall) / 2.0;
        let left = tube.area().value - lost;
        let shift = lost * arm / left;
        let second_moment = tube.second_moment().value
            - lost * arm * arm
            - (flat - width) * wall.powi(3) / 12.0
            - left * shift * shift;
        Effective {
            width: Length::from_si(width),
            lost: Area::from_si(lost),
            shift: Length::from_si(shift),
            modulus: Volume::from_si(second_moment / (side / 2.0 + shift)),
        }
    }

    /// Mn.
    #[inline]
    fn nominal_moment(&self) -> Torque {
        let fy = self.steel.yield_strength();
        let plastic = bending_moment(fy, self.section.plastic_modulus());
        match self.flange() {
            Flange::Compact => plastic,
            Flange::Noncompact => {
                let elastic = bending_moment(fy, self.section.section_modulus());
                let share = 3.57 * self.section.slenderness() / self.root() - 4.0;
                plastic - (plastic - elastic) * share.max(0.0)
            }
            Flange::Slender => bending_moment(fy, self.effective().modulus),
        }
    }

    /// Cv.
    #[inline]
    fn shear_coefficient(&self) -> f64 {
        let reach = KV.sqrt() * self.root() / self.section.slenderness();
        (1.10 * reach).min(1.51 * reach * reach).min(1.0)
    }

    /// Fcr of shear: 0.6 Fy Cv.
    fn shear_stress(&self) -> Pressure {
        self.steel.yield_strength() * (0.6 * self.shear_coefficient())
    }

    /// The webs: 2 (B − 3t) t.
    fn webs(&self) -> Area {
        let wall = self.section.wall();
        (self.section.side() - wall * 3.0) * wall * 2.0
    }

    /// Mn/Ω and Vn/Ω.
    #[inline]
    pub fn strength(&self) -> PostStrength {
        PostStrength::new(
            &PostSection::SquareTube(self.section),
            self.nominal_moment() / OMEGA,
            self.shear_stress() * self.webs() / OMEGA,
            &source::AISC_F7,
            &source::AISC_G4,
        )
    }

    /// φMn and φVn, load and resistance factors, φ = 0.90 for both: Ω φ = 1.5
    /// times the allowable ones.
    pub fn design_strength(&self) -> DesignResistance<LoadAndResistance> {
        let allowable = self.strength();
        DesignResistance::new(
            &PostSection::SquareTube(self.section),
            allowable.moment * (OMEGA * PHI),
            allowable.shear * (OMEGA * PHI),
            allowable.moment_source,
            allowable.shear_source,
        )
    }

    /// Writes the working.
    pub fn write(&self, sheet: &mut Worksheet) {
        sheet.section("Post: square steel tube");
        let flange = self.flange();
        sheet.remark(match flange {
            Flange::Compact => "Compact walls: the full plastic moment.",
            Flange::Noncompact => "Noncompact flange.",
            Flange::Slender => "Slender flange: effective width.",
        });
        let fy = self.steel.yield_strength();
        let tube = &self.section;
        sheet.push(Step::given("Fy", "yield strength", fy).shown_as(Measure::Stress));
        write_flat(tube, sheet);
        write_plastic(tube, sheet);
        if flange != Flange::Compact {
            write_elastic(tube, sheet);
        }
        if flange == Flange::Slender {
            self.write_effective(sheet);
        }
        self.write_moment(sheet);
        sheet.push(
            Step::computed_number(
                "Cv",
                "web shear coefficient",
                "min(1, min(1.1*sqrt(5*E/Fy)/r, 1.51*5*E/(Fy*r^2)))",
                self.shear_coefficient(),
            )
            .with_as("E", ksi(MODULUS_KSI), Measure::Stress)
            .with_as("Fy", fy, Measure::Stress)
            .with_number("r", tube.slenderness())
            .cite(&source::AISC_G4),
        );
        sheet.push(
            Step::computed(
                "Vr",
                "allowable shear",
                sheet.by_system(
                    "0.6*Fy*Cv*2*(B - 3*t)*t/1.67",
                    "0.6*Fy*Cv*2*(B - 3*t)*t/1.67/1000",
                ),
                self.strength().shear,
            )
            .with_as("Fy", fy, Measure::Stress)
            .with_number("Cv", self.shear_coefficient())
            .with_as("B", tube.side(), Measure::SectionLength)
            .with_as("t", tube.wall(), Measure::SectionLength)
            .cite(&source::AISC_G4),
        );
    }

    fn write_effective(&self, sheet: &mut Worksheet) {
        let tube = &self.section;
        let part = self.effective();
        let arm = (tube.side() - tube.wall()) / 2.0;
        sheet.push(
            Step::computed(
                "be",
                "effective width of the flange",
                "min(1.92*t*sqrt(E/Fy)*(1 - 0.38*sqrt(E/Fy)/r), b)",
                part.width,
            )
            .with_as("t", tube.wall(), Measure::SectionLength)
            .with_as("E", ksi(MODULUS_KSI), Measure::Stress)
            .with_as("Fy", self.steel.yield_strength(), Measure::Stress)
            .with_number("r", tube.slenderness())
            .with_as("b", tube.flat_width(), Measure::SectionLength)
            .shown_as(Measure::SectionLength)
            .cite(&source::AISC_F7),
        );
        sheet.push(
            Step::computed("Al", "area that does not count", "(b - be)*t", part.lost)
                .with_as("b", tube.flat_width(), Measure::SectionLength)
                .with_as("be", part.width, Measure::SectionLength)
                .with_as("t", tube.wall(), Measure::SectionLength)
                .shown_as(Measure::SectionArea),
        );
        sheet.push(
            Step::computed("e", "shift of the axis", "Al*c/(Ag - Al)", part.shift)
                .with_as("Al", part.lost, Measure::SectionArea)
                .with_as("c", arm, Measure::SectionLength)
                .with_as("Ag", tube.area(), Measure::SectionArea)
                .shown_as(Measure::SectionLength)
                .cite(&source::GEOMETRY),
        );
        sheet.push(
            Step::computed(
                "Se",
                "effective section modulus",
                "(Ix - Al*c^2 - Al*t^2/12 - (Ag - Al)*e^2)/(B/2 + e)",
                part.modulus,
            )
            .with_as("Ix", tube.second_moment(), Measure::SecondMoment)
            .with_as("Al", part.lost, Measure::SectionArea)
            .with_as("c", arm, Measure::SectionLength)
            .with_as("t", tube.wall(), Measure::SectionLength)
            .with_as("Ag", tube.area(), Measure::SectionArea)
            .with_as("e", part.shift, Measure::SectionLength)
            .with_as("B", tube.side(), Measure::SectionLength)
            .shown_as(Measure::SectionModulus)
            .cite(&source::GEOMETRY),
        );
    }

    fn write_moment(&self, sheet: &mut Worksheet) {
        let (tube, flange) = (&self.section, self.flange());
        let formula = match flange {
            Flange::Compact => sheet.by_system("Fy*Z/1.67/12", "Fy*Z/1.67/10^6"),
            Flange::Noncompact => sheet.by_system(
                "Fy*(Z - (Z - Sx)*max(3.57*r*sqrt(Fy/E) - 4, 0))/1.67/12",
                "Fy*(Z - (Z - Sx)*max(3.57*r*sqrt(Fy/E) - 4, 0))/1.67/10^6",
            ),
            Flange::Slender => sheet.by_system("Fy*Se/1.67/12", "Fy*Se/1.67/10^6"),
        };
        let step = Step::computed("Mr", "allowable moment", formula, self.strength().moment)
            .with_as("Fy", self.steel.yield_strength(), Measure::Stress);
        let step = match flange {
            Flange::Slender => {
                step.with_as("Se", self.effective().modulus, Measure::SectionModulus)
            }
            Flange::Compact => step.with_as("Z", tube.plastic_modulus(), Measure::SectionModulus),
            Flange::Noncompact => step
                .with_as("Z", tube.plastic_modulus(), Measure::SectionModulus)
                .with_as("Sx", tube.section_modulus(), Measure::SectionModulus)
                .with_number("r", tube.slenderness())
                .with_as("E", ksi(MODULUS_KSI), Measure::Stress),
        };
        sheet.push(step.cite(&source::AISC_F7));
    }
}

/// The flat of a wall, and b/t.
pub(super) fn write_flat(tube: &SquareTube, sheet: &mut Worksheet) {
    sheet.push(
        Step::computed(
            "b",
            "flat of a wall",
            "max(B - 3*t, B - 2*t - 2*q)",
            tube.flat_width(),
        )
        .with_as("B", tube.side(), Measure::SectionLength)
        .with_as("t", tube.wall(), Measure::SectionLength)
        .with_as("q", tube.inside_radius(), Measure::SectionLength)
        .shown_as(Measure::SectionLength)
        .cite(&source::AISC_F7),
    );
    sheet.push(
        Step::computed_number("r", "slenderness of the walls", "b/t", tube.slenderness())
            .with_as("b", tube.flat_width(), Measure::SectionLength)
            .with_as("t", tube.wall(), Measure::SectionLength),
    );
}

/// Ix and Sx.
pub(super) fn write_elastic(tube: &SquareTube, sheet: &mut Worksheet) {
    sheet.push(
        Step::computed(
            "Ix",
            "second moment of area, corners rounded",
            "B^4/12 - 4*((B/2 - R)^2*(1 - pi/4)*R^2 + (B/2 - R)*R^3/3 + (1/3 - pi/16)*R^4) - (B - \
             2*t)^4/12 + 4*((B/2 - t - q)^2*(1 - pi/4)*q^2 + (B/2 - t - q)*q^3/3 + (1/3 - \
             pi/16)*q^4)",
            tube.second_moment(),
        )
        .with_as("B", tube.side(), Measure::SectionLength)
        .with_as("R", tube.corner_radius(), Measure::SectionLength)
        .with_as("t", tube.wall(), Measure::SectionLength)
        .with_as("q", tube.inside_radius(), Measure::SectionLength)
        .shown_as(Measure::SecondMoment)
        .cite(&source::GEOMETRY),
    );
    sheet.push(
        Step::computed("Sx", "section modulus", "2*Ix/B", tube.section_modulus())
            .with_as("Ix", tube.second_moment(), Measure::SecondMoment)
            .with_as("B", tube.side(), Measure::SectionLength)
            .shown_as(Measure::SectionModulus)
            .cite(&source::GEOMETRY),
    );
}

/// Z.
pub(super) fn write_plastic(tube: &SquareTube, sheet: &mut Worksheet) {
    sheet.push(
        Step::computed(
            "Z",
            "plastic section modulus, corners rounded",
            "B^3/4 - 4*((B/2 - R)*(1 - pi/4)*R^2 + R^3/6) - (B - 2*t)^3/4 + 4*((B/2 - t - \
             q)*(1 - pi/4)*q^2 + q^3/6)",
            tube.plastic_modulus(),
        )
        .with_as("B", tube.side(), Measure::SectionLength)
        .with_as("R", tube.corner_radius(), Measure::SectionLength)
        .with_as("t", tube.wall(), Measure::SectionLength)
        .with_as("q", tube.inside_radius(), Measure::SectionLength)
        .shown_as(Measure::SectionModulus)
        .cite(&source::GEOMETRY),
    );
}
