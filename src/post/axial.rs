//! Weight and bending of a post together.
//!
//! - Pipe, AISC 360 H1-1, allowable strength: Pr/Pc ≥ 0.2, Pr/Pc + (8/9) Mr/Mc;
//!   below, Pr/(2 Pc) + Mr/Mc. Pc = Fcr Ae/1.67 (E3): Fe = π² E/(KL/r)², Fcr =
//!   0.658^(Fy/Fe) Fy while Fy/Fe ≤ 2.25, 0.877 Fe beyond; Ae/A = 0.038 E/(Fy D/t) +
//!   2/3 at most 1 (E7). Mr is raised by 1/(1 − 1.6 Pr/Pe), Pe = Fe A.
//! - Square timber, NDS 3.9.2: (fc/Fc')² + (fb/Fb')/(1 − fc/FcE), Fc' = Fc CD CP,
//!   CP (3.7.1) with c = 0.8, FcE = 0.822 Emin/(le/d)², le/d to 50. In a corner
//!   both moments count ([`super::PostStrength::skew_moment`]); the term
//!   (fb/FbE)² of 3.9-3 is left out.
//! - Square steel tube: the same as pipe; walls slender in compression, b/t beyond
//!   1.40 √(E/Fy), are refused.
//! - Round timber as a square of the same area (NDS 3.7.3).
//! - Aluminium and posts of given strength, with an axial capacity given: P/Pa +
//!   M/Mr. A sleeved post is its insert.
//!
//! All from memory. K = 2.1 for a cantilever, the value the commentary of AISC
//! 360 recommends and NDS Appendix G has, over the height above grade and the
//! depth to the greatest moment. Weight acts at the top, which is safe.

use super::steel::{MODULUS_KSI, OMEGA};
use super::{Post, SteelStrength};
use crate::error::{Error, number_within, stress_within, within};
use crate::source::{self, Citation};
use crate::step::{Step, Worksheet};
use crate::units::{
    Area, Force, Length, Measurable, Measure, Pressure, SecondMoment, ft, ksi, lb, lb_per_sq_in,
    number,
};
use crate::utilization::Utilization;
use core::f64::consts::PI;

/// c of sawn lumber.
const SAWN: f64 = 0.8;

/// Compression values of timber.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CompressionValues {
    stress: Pressure,
    modulus: Pressure,
}

impl CompressionValues {
    /// Fc parallel to the grain with CM, Ct, CF and Ci on it, without CD and CP;
    /// and Emin with CM, Ct and Ci ([`super::TimberPost::minimum_modulus`]).
    ///
    /// # Errors
    /// Fc outside 100 psi to 10 ksi, Emin outside 50 to 3 000 ksi.
    pub fn new(compression: Pressure, minimum_modulus: Pressure) -> Result<Self, Error> {
        let (least, most) = (lb_per_sq_in(100.0), ksi(10.0));
        Ok(Self {
            stress: stress_within("Fc", compression, least, most)?,
            modulus: stress_within("Emin", minimum_modulus, ksi(50.0), ksi(3_000.0))?,
        })
    }
}

/// How weight and bending are combined.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AxialOptions {
    factor: f64,
    timber: Option<CompressionValues>,
    capacity: Option<Force>,
}

impl Default for AxialOptions {
    fn default() -> Self {
        Self {
            factor: 2.1,
            timber: None,
            capacity: None,
        }
    }
}

impl AxialOptions {
    /// With another K than 2.1.
    ///
    /// # Errors
    /// Outside 0.5 to 10.
    pub fn with_length_factor(self, factor: f64) -> Result<Self, Error> {
        Ok(Self {
            factor: number_within("effective length factor", factor, 0.5, 10.0)?,
            ..self
        })
    }

    /// With the compression values of a timber post, which it wants.
    #[must_use]
    pub const fn with_timber(self, values: CompressionValues) -> Self {
        Self {
            timber: Some(values),
            ..self
        }
    }

    /// With the allowable axial load of a post of given strength, which it
    /// wants.
    ///
    /// # Errors
    /// Outside 1 to 10⁷ lb.
    pub fn with_capacity(self, capacity: Force) -> Result<Self, Error> {
        let capacity = within("allowable axial load", capacity, lb(1.0), lb(1e7))?;
        Ok(Self {
            capacity: Some(capacity),
            ..self
        })
    }
}

/// Which expression it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum AxialForm {
    /// AISC 360 H1-1a.
    SteelHeavy,
    /// AISC 360 H1-1b.
    SteelLight,
    /// NDS 3.9-3.
    Timber,
    /// Of a given capacity.
    Linear,
}

/// Weight and bending together.
///
/// ```
/// use groundline::{post::*, section::Tube, units::*, utilization::Utilization};
/// let pipe = PipePost::new(Tube::new(inch(2.375), inch(0.154))?, SteelStrength::new(ksi(30.0))?)?;
/// let both = AxialBending::new(
///     &pipe.into(), &AxialOptions::default(), lb(500.0), Utilization::FULL, ft(7.0),
/// )?;
/// assert_eq!(both.form, AxialForm::SteelLight);
/// assert!(both.utilization > Utilization::FULL);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct AxialBending {
    /// Which expression.
    pub form: AxialForm,
    /// P.
    pub axial: Force,
    /// M over the allowable moment, bending alone.
    pub bending: Utilization,
    /// K.
    pub length_factor: f64,
    /// The length K is of.
    pub length: Length,
    /// KL/r, or le/d of timber; zero where the capacity is given.
    pub slenderness: f64,
    /// Fe, or FcE of timber; zero where the capacity is given.
    pub euler: Pressure,
    /// Fcr, or Fc' of timber; zero where the capacity is given.
    pub critical: Pressure,
    /// Share of the area that counts.
    pub effective: f64,
    /// CP of timber, else 1.
    pub stability: f64,
    /// Allowable axial load.
    pub capacity: Force,
    /// What the moment is raised by; infinite where the weight alone tips it.
    pub amplification: f64,
    /// Both together.
    pub utilization: Utilization,
    area: Area,
    /// Fy, or Fc with CD.
    full: Pressure,
    modulus: Pressure,
    /// r, or d of timber.
    radius: Length,
    walls: f64,
}

impl AxialBending {
    /// For a weight, the utilization in bending alone, and the length from the
    /// greatest moment to the top.
    ///
    /// # Errors
    /// Weight outside 0 to 10⁷ lb, length outside 0.1 to 300 ft; timber without
    /// compression values, a post of given strength without a capacity; timber
    /// of le/d beyond 50 (NDS 3.7.1.4).
    pub fn new(
        post: &Post,
        options: &AxialOptions,
        axial: Force,
        bending: Utilization,
        length: Length,
    ) -> Result<Self, Error> {
        let axial = within("axial load", axial, lb(0.0), lb(1e7))?;
        let length = within("length of the post", length, ft(0.1), ft(300.0))?;
        let nothing = lb_per_sq_in(0.0);
        let start = Self {
            form: AxialForm::Linear,
            axial,
            bending,
            length_factor: options.factor,
            length,
            slenderness: 0.0,
            euler: nothing,
            critical: nothing,
            effective: 1.0,
            stability: 1.0,
            capacity: lb(0.0),
            amplification: 1.0,
            utilization: bending,
            area: post.section().gross_area(),
            full: nothing,
            modulus: nothing,
            radius: post.section().face_width(),
            walls: 0.0,
        };
        let wants_values = Error::NotApplicable {
            field: "Fc",
            reason: "weight with bending of timber wants its Fc and Emin",
        };
        match post {
            Post::Pipe(pipe) => {
                let section = pipe.section();
                let walls = section.slenderness();
                let effective = (0.038 * pipe.e_over_fy() / walls + 2.0 / 3.0).min(1.0);
                let tube = (section.area(), section.second_moment());
                Ok(Self { walls, ..start }.of_steel(tube, pipe.steel(), effective))
            }
            Post::SquareTube(tube) => {
                let section = tube.section();
                if tube.is_slender() {
                    return Err(Error::NotApplicable {
                        field: "tube wall",
                        reason: "the walls are slender in compression: b/t is beyond 1.40 times \
                                 the root of E/Fy",
                    });
                }
                let square = (section.area(), section.second_moment());
                Ok(start.of_steel(square, tube.steel(), 1.0))
            }
            Post::Timber(timber) => {
                let values = options.timber.ok_or(wants_values)?;
                let (area, side) = (timber.section().area(), timber.section().side());
                start.of_timber(area, side, timber.factors().load_duration, &values)
            }
            Post::RoundTimber(timber) => {
                let values = options.timber.ok_or(wants_values)?;
                let area = timber.section().area();
                let side = Length::from_si(area.value.sqrt());
                let start = Self {
                    radius: side,
                    ..start
                };
                start.of_timber(area, side, timber.factors().load_duration, &values)
            }
            Post::Given(_) | Post::Aluminium(_) => {
                let capacity = options.capacity.ok_or(Error::NotApplicable {
                    field: "allowable axial load",
                    reason: "weight with bending of this post wants one",
                })?;
                let share = (axial / capacity).value;
                Ok(Self {
                    capacity,
                    utilization: of_ratio(share + bending.ratio()),
                    ..start
                })
            }
            Post::Sleeved(sleeved) => Self::new(
                &Post::from(*sleeved.insert()),
                options,
                axial,
                bending,
                length,
            ),
        }
    }

    fn of_steel(
        self,
        (area, second): (Area, SecondMoment),
        steel: SteelStrength,
        effective: f64,
    ) -> Self {
        let radius = (second.value / area.value).sqrt();
        let slenderness = self.length_factor * self.length.value / radius;
        let modulus = ksi(MODULUS_KSI);
        let fy = steel.yield_strength();
        let euler = modulus * (PI * PI / (slenderness * slenderness));
        let over = (fy / euler).value;
        let critical = if over <= 2.25 {
            fy * 0.658_f64.powf(over)
        } else {
            euler * 0.877
        };
        let capacity = critical * area * (effective / OMEGA);
        let share = (self.axial / capacity).value;
        let amplification = raise(1.6 * (self.axial / (euler * area)).value);
        let raised = amplified(self.bending, amplification);
        let (form, both) = if share >= 0.2 {
            (AxialForm::SteelHeavy, share + 8.0 / 9.0 * raised)
        } else {
            (AxialForm::SteelLight, share / 2.0 + raised)
        };
        Self {
            form,
            slenderness,
            euler,
            critical,
            effective,
            capacity,
            amplification,
            utilization: of_ratio(both),
            area,
            full: fy,
            modulus,
            radius: Length::from_si(radius),
            ..self
        }
    }

    fn of_timber(
        self,
        area: Area,
        side: Length,
        load_duration: f64,
        values: &CompressionValues,
    ) -> Result<Self, Error> {
        let slenderness = self.length_factor * (self.length / side).value;
        if slenderness > 50.0 {
            return Err(Error::NotApplicable {
                field: "slenderness of the post",
                reason: "le/d is beyond 50, where NDS 3.7.1.4 ends",
            });
        }
        let euler = values.modulus * (0.822 / (slenderness * slenderness));
        let full = values.stress * load_duration;
        let stability = column_stability((euler / full).value);
        let critical = full * stability;
        let stress = self.axial / area;
        let amplification = raise((stress / euler).value);
        let share = (stress / critical).value;
        Ok(Self {
            form: AxialForm::Timber,
            slenderness,
            euler,
            critical,
            stability,
            capacity: critical * area,
            amplification,
            utilization: of_ratio(share * share + amplified(self.bending, amplification)),
            area,
            full,
            modulus: values.modulus,
            ..self
        })
    }

    /// Where it comes from.
    pub const fn source(&self) -> &'static Citation {
        match self.form {
            AxialForm::SteelHeavy | AxialForm::SteelLight => &source::AISC_H1,
            AxialForm::Timber => &source::NDS_3_9_2,
            AxialForm::Linear => &source::GIVEN,
        }
    }

    /// Writes the working.
    pub fn write(&self, sheet: &mut Worksheet) {
        sheet.section("Weight and bending together");
        sheet.push(Step::given("Np", "weight on the post", self.axial));
        sheet.push(Step::given_number(
            "um",
            "utilization in bending alone, of the case worst for it",
            self.bending.ratio(),
        ));
        match self.form {
            AxialForm::Linear => {
                sheet.push(
                    Step::given("Pa", "allowable axial load", self.capacity).cite(&source::GIVEN),
                );
            }
            AxialForm::Timber => {
                self.write_slenderness("le/d", sheet);
                self.write_timber(sheet);
            }
            AxialForm::SteelHeavy | AxialForm::SteelLight => {
                self.write_slenderness("KL/r", sheet);
                self.write_steel(sheet);
            }
        }
        if self.utilization == Utilization::NO_CAPACITY {
            sheet.remark("The weight alone is beyond what the post carries without tipping.");
            return;
        }
        let formula = match self.form {
            AxialForm::SteelHeavy => "Np/Pa + 8/9*um*B",
            AxialForm::SteelLight => "Np/(2*Pa) + um*B",
            AxialForm::Timber => "(Np/Pa)^2 + um*B",
            AxialForm::Linear => "Np/Pa + um",
        };
        let mut step = Step::computed_number(
            "ua",
            "utilization of both together",
            formula,
            self.utilization.ratio(),
        )
        .with("Np", self.axial)
        .with("Pa", self.capacity)
        .with_number("um", self.bending.ratio());
        if self.form != AxialForm::Linear {
            self.write_amplification(sheet);
            step = step.with_number("B", self.amplification);
        }
        sheet.push(step.cite(self.source()));
    }

    fn write_slenderness(&self, name: &'static str, sheet: &mut Worksheet) {
        sheet.remark(
            "The length is from the greatest moment in the ground to the top; all weight is taken \
             to act there.",
        );
        sheet.push(
            Step::computed_number("s", name, "K*L/r", self.slenderness)
                .with_number("K", self.length_factor)
                .with_as("L", self.length, Measure::SectionLength)
                .with_as("r", self.radius, Measure::SectionLength)
                .cite(self.source()),
        );
    }

    fn write_timber(&self, sheet: &mut Worksheet) {
        let clause = &source::NDS_3_9_2;
        sheet.push(
            Step::given("Fs", "Fc with its factors and CD, without CP", self.full)
                .shown_as(Measure::Stress)
                .cite(&source::GIVEN),
        );
        sheet.push(
            Step::computed("Fe", "Euler stress FcE", "0.822*E/s^2", self.euler)
                .with_as("E", self.modulus, Measure::Stress)
                .with_number("s", self.slenderness)
                .shown_as(Measure::Stress)
                .cite(clause),
        );
        sheet.push(
            Step::computed_number(
                "CP",
                "column stability",
                "(1 + Fe/Fs)/1.6 - sqrt(((1 + Fe/Fs)/1.6)^2 - Fe/Fs/0.8)",
                self.stability,
            )
            .with_as("Fe", self.euler, Measure::Stress)
            .with_as("Fs", self.full, Measure::Stress)
            .cite(clause),
        );
        sheet.push(
            Step::computed(
                "Pa",
                "allowable axial load",
                sheet.by_system("Fs*CP*Ag", "Fs*CP*Ag/1000"),
                self.capacity,
            )
            .with_as("Fs", self.full, Measure::Stress)
            .with_number("CP", self.stability)
            .with_as("Ag", self.area, Measure::SectionArea)
            .cite(clause),
        );
    }

    fn write_steel(&self, sheet: &mut Worksheet) {
        let clause = &source::AISC_E3;
        sheet.push(
            Step::computed("Fe", "Euler stress", "pi^2*E/s^2", self.euler)
                .with_as("E", self.modulus, Measure::Stress)
                .with_number("s", self.slenderness)
                .shown_as(Measure::Stress)
                .cite(clause),
        );
        let formula = if (self.full / self.euler).value <= 2.25 {
            "0.658^(Fy/Fe)*Fy"
        } else {
            "0.877*Fe"
        };
        sheet.push(
            Step::computed("Fcr", "critical stress", formula, self.critical)
                .with_as("Fe", self.euler, Measure::Stress)
                .with_as("Fy", self.full, Measure::Stress)
                .shown_as(Measure::Stress)
                .cite(clause),
        );
        let meaning = "share of the area that counts";
        // Of a square tube that is not slender all of it does.
        sheet.push(if self.walls > 0.0 {
            let formula = "min(0.038*E/(Fy*w) + 2/3, 1)";
            Step::computed_number("q", meaning, formula, self.effective)
                .with_as("E", self.modulus, Measure::Stress)
                .with_as("Fy", self.full, Measure::Stress)
                .with_number("w", self.walls)
                .cite(clause)
        } else {
            Step::given_number("q", meaning, self.effective).cite(clause)
        });
        sheet.push(
            Step::computed(
                "Pa",
                "allowable axial load",
                sheet.by_system("Fcr*q*Ag/1.67", "Fcr*q*Ag/1.67/1000"),
                self.capacity,
            )
            .with_as("Fcr", self.critical, Measure::Stress)
            .with_number("q", self.effective)
            .with_as("Ag", self.area, Measure::SectionArea)
            .cite(clause),
        );
    }

    fn write_amplification(&self, sheet: &mut Worksheet) {
        let formula = if self.form == AxialForm::Timber {
            sheet.by_system("1/(1 - Np/(Fe*Ag))", "1/(1 - 1000*Np/(Fe*Ag))")
        } else {
            sheet.by_system("1/(1 - 1.6*Np/(Fe*Ag))", "1/(1 - 1600*Np/(Fe*Ag))")
        };
        sheet.push(
            Step::computed_number(
                "B",
                "what the moment is raised by",
                formula,
                self.amplification,
            )
            .with("Np", self.axial)
            .with_as("Fe", self.euler, Measure::Stress)
            .with_as("Ag", self.area, Measure::SectionArea)
            .cite(self.source()),
        );
    }
}

/// CP, of FcE over Fc with all its other factors: half − √(half² − over/c)
/// without the cancellation of a slender post.
fn column_stability(over: f64) -> f64 {
    let half = (1.0 + over) / (2.0 * SAWN);
    let root = (half * half - over / SAWN).max(0.0).sqrt();
    (over / SAWN) / (half + root)
}

/// 1/(1 − share of the Euler load).
fn raise(share: f64) -> f64 {
    if share < 1.0 {
        1.0 / (1.0 - share)
    } else {
        f64::INFINITY
    }
}

/// A post that tips by its weight has no room for bending, nor without.
fn amplified(bending: Utilization, by: f64) -> f64 {
    if by.is_finite() {
        bending.ratio() * by
    } else {
        f64::INFINITY
    }
}

/// A ratio that may be infinite.
fn of_ratio(value: f64) -> Utilization {
    Utilization::of(number(value), number(1.0))
}
