//! Adjustment factors of timber: NDS Table 4.3.1, as plain numbers.

use super::timber_values::{DesignValues, SizeClass};
use crate::error::{Error, number_within};
use crate::section::{Disc, Square};
use crate::source::{self, Citation};
use crate::step::{Step, Worksheet};
use crate::units::{Measurable, Measure, Pressure, Torque, Volume, inch, lb_per_sq_in};

/// Moisture in service.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[non_exhaustive]
pub enum Moisture {
    /// Above 19 %: what a post in the ground is. The default.
    #[default]
    Wet,
    /// Kept dry.
    Dry,
}

/// How the preservative got in. There is no default: a fifth of the strength
/// hangs on it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Treatment {
    /// Without incising (southern pine takes it so), or none.
    NotIncised,
    /// Through incisions, as other species usually are: they cost a fifth of
    /// the strength. NDS 4.3.8 says so of dimension lumber (from memory); it is taken
    /// of timbers too, which is safe.
    Incised,
}

/// The adjustment factors on bending, shear and E.
///
/// Each is a plain number that a user may replace by [`super::TimberPost::with_factors`]
/// or [`super::RoundTimber::with_factors`].
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct TimberFactors {
    /// CD, load duration: 1.6 for wind. From memory.
    pub load_duration: f64,
    /// CM on bending. Quoted (exemption at Fb CF ≤ 1150 psi).
    pub wet_bending: f64,
    /// CM on shear. Quoted.
    pub wet_shear: f64,
    /// Ct, temperature: 1 up to 100 °F. From memory.
    pub temperature: f64,
    /// CL, beam stability: 1 for a square section. From memory.
    pub stability: f64,
    /// CF, size. Quoted.
    pub size: f64,
    /// Cfu, flat use: 1 for a square section. Quoted.
    pub flat_use: f64,
    /// Ci, incising, on bending and shear. From memory.
    pub incising: f64,
    /// Cr, repetitive member: 1 for a lone post. Quoted.
    pub repetitive: f64,
    /// CM on E: 0.9 for wet dimension lumber (quoted), 1 for timbers (from
    /// memory).
    pub wet_modulus: f64,
    /// Ct on E: 1 up to 100 °F, 0.9 up to 125 °F. From memory.
    pub temperature_modulus: f64,
    /// Ci on E: 0.95 if incised. From memory.
    pub incising_modulus: f64,
}

impl TimberFactors {
    /// The factors of a post under wind.
    #[inline]
    pub fn for_wind(
        section: &Square,
        values: &DesignValues,
        moisture: Moisture,
        treatment: Treatment,
    ) -> Self {
        let class = values.class();
        let size = match class {
            // 4A: 4 in wide; 4B: built in; 4D: (12/d)^(1/9) above 12 in.
            SizeClass::Dimension => 1.5,
            SizeClass::SouthernPineDimension => 1.0,
            SizeClass::Timbers | SizeClass::SouthernPineTimbers => {
                (12.0 / section.side().to(inch)).min(1.0).powf(1.0 / 9.0)
            }
        };
        let wet_dimension = moisture == Moisture::Wet && !class.is_timbers();
        // A hair above 1150 psi is 1150 psi.
        let exempt = values.bending() * size <= lb_per_sq_in(1150.0 + 1e-9);
        Self {
            load_duration: 1.6,
            wet_bending: if wet_dimension && !exempt { 0.85 } else { 1.0 },
            wet_shear: if wet_dimension { 0.97 } else { 1.0 },
            temperature: 1.0,
            stability: 1.0,
            size,
            flat_use: 1.0,
            incising: match treatment {
                Treatment::NotIncised => 1.0,
                Treatment::Incised => 0.8,
            },
            repetitive: 1.0,
            wet_modulus: if wet_dimension { 0.9 } else { 1.0 },
            temperature_modulus: 1.0,
            incising_modulus: match treatment {
                Treatment::NotIncised => 1.0,
                Treatment::Incised => 0.95,
            },
        }
    }

    /// The factors of a round post under wind: CD 1.6, CF of the square of the
    /// same area, (12/d)^(1/9) above 12 in, that is above 13.5 in of diameter;
    /// all others 1. Reference values of round timber are for wet service and
    /// carry their own conditioning (from memory).
    pub fn for_round(section: &Disc) -> Self {
        let side = section.diameter().to(inch) * (core::f64::consts::PI / 4.0).sqrt();
        Self {
            load_duration: 1.6,
            wet_bending: 1.0,
            wet_shear: 1.0,
            temperature: 1.0,
            stability: 1.0,
            size: (12.0 / side).min(1.0).powf(1.0 / 9.0),
            flat_use: 1.0,
            incising: 1.0,
            repetitive: 1.0,
            wet_modulus: 1.0,
            temperature_modulus: 1.0,
            incising_modulus: 1.0,
        }
    }

    /// The product for bending.
    #[inline]
    pub fn bending(&self) -> f64 {
        self.load_duration
            * self.wet_bending
            * self.temperature
            * self.stability
            * self.size
            * self.flat_use
            * self.incising
            * self.repetitive
    }

    /// The product for shear.
    #[inline]
    pub fn shear(&self) -> f64 {
        self.load_duration * self.wet_shear * self.temperature * self.incising
    }

    /// The product for E.
    #[inline]
    pub fn modulus(&self) -> f64 {
        self.wet_modulus * self.temperature_modulus * self.incising_modulus
    }

    /// F'b on a worksheet.
    pub(super) fn bending_step(&self, reference: Pressure, adjusted: Pressure) -> Step {
        Step::computed(
            "Fb'",
            "adjusted bending stress",
            "Fb*CD*CM*Ct*CL*CF*Cfu*Ci*Cr",
            adjusted,
        )
        .with_as("Fb", reference, Measure::Stress)
        .with_number("CD", self.load_duration)
        .with_number("CM", self.wet_bending)
        .with_number("Ct", self.temperature)
        .with_number("CL", self.stability)
        .with_number("CF", self.size)
        .with_number("Cfu", self.flat_use)
        .with_number("Ci", self.incising)
        .with_number("Cr", self.repetitive)
        .shown_as(Measure::Stress)
        .cite(&source::NDS_FACTORS)
    }

    /// Mr = F'b S on a worksheet.
    pub(super) fn moment_step(
        sheet: &Worksheet,
        adjusted: Pressure,
        modulus: Volume,
        moment: Torque,
        source: &'static Citation,
    ) -> Step {
        let formula = sheet.by_system("Fb'*Sx/12", "Fb'*Sx/10^6");
        Step::computed("Mr", "allowable moment", formula, moment)
            .with_as("Fb'", adjusted, Measure::Stress)
            .with_as("Sx", modulus, Measure::SectionModulus)
            .cite(source)
    }

    /// F'v on a worksheet.
    pub(super) fn shear_step(&self, reference: Pressure, adjusted: Pressure) -> Step {
        Step::computed("Fv'", "adjusted shear stress", "Fv*CD*CM*Ct*Ci", adjusted)
            .with_as("Fv", reference, Measure::Stress)
            .with_number("CD", self.load_duration)
            .with_number("CM", self.wet_shear)
            .with_number("Ct", self.temperature)
            .with_number("Ci", self.incising)
            .shown_as(Measure::Stress)
            .cite(&source::NDS_FACTORS)
    }

    /// E' on a worksheet.
    pub(super) fn modulus_step(&self, reference: Pressure, adjusted: Pressure) -> Step {
        Step::computed("E'", "adjusted modulus, for lean", "E*CM*Ct*Ci", adjusted)
            .with_as("E", reference, Measure::Stress)
            .with_number("CM", self.wet_modulus)
            .with_number("Ct", self.temperature_modulus)
            .with_number("Ci", self.incising_modulus)
            .shown_as(Measure::Stress)
            .cite(&source::NDS_FACTORS)
    }

    /// Refuses a factor outside 0.1 to 2.
    #[inline]
    pub(super) fn checked(self) -> Result<Self, Error> {
        for (name, factor) in self.all() {
            number_within(name, factor, 0.1, 2.0)?;
        }
        Ok(self)
    }

    #[inline]
    fn all(&self) -> [(&'static str, f64); 12] {
        [
            ("CD", self.load_duration),
            ("CM on Fb", self.wet_bending),
            ("CM on Fv", self.wet_shear),
            ("Ct", self.temperature),
            ("CL", self.stability),
            ("CF", self.size),
            ("Cfu", self.flat_use),
            ("Ci", self.incising),
            ("Cr", self.repetitive),
            ("CM on E", self.wet_modulus),
            ("Ct on E", self.temperature_modulus),
            ("Ci on E", self.incising_modulus),
        ]
    }
}
