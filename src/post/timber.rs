//! Sawn square posts: NDS allowable stress design, every adjustment factor in
//! the open.
//!
//! F'b = Fb CD CM Ct CL CF Cfu Ci Cr, Mr = F'b S;
//! F'v = Fv CD CM Ct Ci, Vr = (2/3) F'v b d (NDS Table 4.3.1, 3.3, 3.4).

use super::timber_values::{DesignValues, SizeClass};
use super::{DesignResistance, PostStrength};
use crate::error::{Error, number_within, stress_within};
use crate::limit_state::LoadAndResistance;
use crate::section::{PostSection, Square};
use crate::source::{self, Mark};
use crate::step::{Step, Worksheet};
use crate::units::{
    Area, Measurable, Measure, Pressure, Volume, bending_moment, inch, lb_per_sq_in,
};

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
    /// the strength.
    Incised,
}

/// The adjustment factors on bending and shear.
///
/// Each is a plain number that a user may replace by [`TimberPost::with_factors`].
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

    #[inline]
    fn all(&self) -> [(&'static str, f64); 9] {
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
        ]
    }
}

/// A sawn square post.
///
/// ```
/// use groundline::{post::*, section::Square, units::*};
/// let side = inch(3.5);
/// let values = DesignValues::of(Species::WesternCedars, Grade::No2, side)?;
/// let post = TimberPost::new(Square::new(side)?, values, Moisture::Wet, Treatment::NotIncised)?;
/// assert!((post.strength().moment.to(lb_in) - 12_005.0).abs() < 1.0);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TimberPost {
    section: Square,
    values: DesignValues,
    factors: TimberFactors,
}

impl TimberPost {
    /// A post under wind.
    ///
    /// # Errors
    /// A size that is not of the class of the design values: dimension lumber
    /// is up to 4 in nominal square, timbers from 5 in.
    #[inline]
    pub fn new(
        section: Square,
        values: DesignValues,
        moisture: Moisture,
        treatment: Treatment,
    ) -> Result<Self, Error> {
        if values.class().is_timbers() != (section.side() >= inch(4.25)) {
            return Err(Error::NotApplicable {
                field: "post size",
                reason: "design values of Tables 4A and 4B are for square posts up to 4 in \
                         nominal, those of Table 4D for 5 in and larger",
            });
        }
        Ok(Self {
            section,
            values,
            factors: TimberFactors::for_wind(&section, &values, moisture, treatment),
        })
    }

    /// With the user's own factors.
    ///
    /// # Errors
    /// A factor outside 0.1 to 2.
    #[inline]
    pub fn with_factors(self, factors: TimberFactors) -> Result<Self, Error> {
        for (name, factor) in factors.all() {
            number_within(name, factor, 0.1, 2.0)?;
        }
        Ok(Self { factors, ..self })
    }

    /// The section.
    #[inline]
    pub const fn section(&self) -> &Square {
        &self.section
    }
    /// The reference values.
    #[inline]
    pub const fn values(&self) -> &DesignValues {
        &self.values
    }
    /// The factors.
    #[inline]
    pub const fn factors(&self) -> &TimberFactors {
        &self.factors
    }
    /// F'b.
    #[inline]
    pub fn adjusted_bending(&self) -> Pressure {
        self.values.bending() * self.factors.bending()
    }
    /// F'v.
    #[inline]
    pub fn adjusted_shear(&self) -> Pressure {
        self.values.shear() * self.factors.shear()
    }

    /// Mr and Vr.
    #[inline]
    pub fn strength(&self) -> PostStrength {
        PostStrength::new(
            &PostSection::Square(self.section),
            bending_moment(self.adjusted_bending(), self.section.section_modulus()),
            self.adjusted_shear() * self.section.area() * (2.0 / 3.0),
            &source::NDS_4_3_BENDING,
            &source::NDS_4_3_SHEAR,
        )
    }

    /// φ λ KF Fb C S and its shear, load and resistance factors: KF 2.54 and
    /// 2.88, φ 0.85 and 0.75, λ 1.0 for wind, without CD. From memory; 1.35
    /// times the allowable ones.
    pub fn design_strength(&self) -> DesignResistance<LoadAndResistance> {
        let allowable = self.strength();
        let duration = self.factors.load_duration;
        DesignResistance::new(
            &PostSection::Square(self.section),
            allowable.moment * (2.54 * 0.85 / duration),
            allowable.shear * (2.88 * 0.75 / duration),
            &source::NDS_LRFD,
        )
    }

    /// Emin = E (1 − 1.645 COV) 1.03/1.66, COV 0.25: NDS Appendix D, from
    /// memory. For stability, not for lean.
    ///
    /// # Errors
    /// E outside 100 to 5 000 ksi.
    pub fn minimum_modulus(modulus: Pressure) -> Result<Pressure, Error> {
        let least = lb_per_sq_in(100_000.0);
        let modulus = stress_within("E", modulus, least, lb_per_sq_in(5_000_000.0))?;
        Ok(modulus * ((1.0 - 1.645 * 0.25) * 1.03 / 1.66))
    }

    /// Writes the working.
    pub fn write(&self, sheet: &mut Worksheet) {
        let f = &self.factors;
        let (area, modulus): (Area, Volume) = (self.section.area(), self.section.section_modulus());
        sheet.section("Post: sawn timber");
        sheet.remark(format!(
            "{}, allowable stress design; values {}.",
            self.values.label(),
            self.values.mark().name()
        ));
        let table = self.values.class().citation();
        let own = self.values.mark() == Mark::Given;
        let value = |symbol, meaning, stress: Pressure| {
            let step = Step::given(symbol, meaning, stress).shown_as(Measure::Stress);
            if own { step } else { step.cite(table) }
        };
        sheet.push(value(
            "Fb",
            "reference bending stress",
            self.values.bending(),
        ));
        sheet.push(value("Fv", "reference shear stress", self.values.shear()));
        sheet.push(
            Step::computed(
                "Fb'",
                "adjusted bending stress",
                "Fb*CD*CM*Ct*CL*CF*Cfu*Ci*Cr",
                self.adjusted_bending(),
            )
            .with_as("Fb", self.values.bending(), Measure::Stress)
            .with_number("CD", f.load_duration)
            .with_number("CM", f.wet_bending)
            .with_number("Ct", f.temperature)
            .with_number("CL", f.stability)
            .with_number("CF", f.size)
            .with_number("Cfu", f.flat_use)
            .with_number("Ci", f.incising)
            .with_number("Cr", f.repetitive)
            .shown_as(Measure::Stress)
            .cite(&source::NDS_FACTORS),
        );
        sheet.push(
            Step::computed("Sx", "section modulus about a face", "a^3/6", modulus)
                .with_as("a", self.section.side(), Measure::SectionLength)
                .shown_as(Measure::SectionModulus)
                .cite(&source::GEOMETRY),
        );
        let strength = self.strength();
        sheet.push(
            Step::computed(
                "Mr",
                "allowable moment",
                sheet.by_system("Fb'*Sx/12", "Fb'*Sx/10^6"),
                strength.moment,
            )
            .with_as("Fb'", self.adjusted_bending(), Measure::Stress)
            .with_as("Sx", modulus, Measure::SectionModulus)
            .cite(&source::NDS_4_3_BENDING),
        );
        sheet.push(
            Step::computed(
                "Fv'",
                "adjusted shear stress",
                "Fv*CD*CM*Ct*Ci",
                self.adjusted_shear(),
            )
            .with_as("Fv", self.values.shear(), Measure::Stress)
            .with_number("CD", f.load_duration)
            .with_number("CM", f.wet_shear)
            .with_number("Ct", f.temperature)
            .with_number("Ci", f.incising)
            .shown_as(Measure::Stress)
            .cite(&source::NDS_FACTORS),
        );
        sheet.push(
            Step::computed(
                "Vr",
                "allowable shear",
                sheet.by_system("2/3*Fv'*Ag", "2/3*Fv'*Ag/1000"),
                strength.shear,
            )
            .with_as("Fv'", self.adjusted_shear(), Measure::Stress)
            .with_as("Ag", area, Measure::SectionArea)
            .cite(&source::NDS_4_3_SHEAR),
        );
    }
}
