//! Sawn square posts: NDS allowable stress design, every adjustment factor in
//! the open.
//!
//! F'b = Fb CD CM Ct CL CF Cfu Ci Cr, Mr = F'b S;
//! F'v = Fv CD CM Ct Ci, Vr = (2/3) F'v b d; E' = E CM Ct Ci for lean
//! (NDS Table 4.3.1, 3.3, 3.4).

use super::{DesignResistance, DesignValues, Moisture, PostStrength, TimberFactors, Treatment};
use crate::error::{Error, stress_within};
use crate::limit_state::LoadAndResistance;
use crate::section::{PostSection, Square};
use crate::source::{self, Mark};
use crate::step::{Step, Worksheet};
use crate::units::{Area, Measure, Pressure, Volume, bending_moment, inch, lb_per_sq_in};

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
    /// What the factors follow from; none where they are the user's.
    service: Option<(Moisture, Treatment)>,
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
            service: Some((moisture, treatment)),
        })
    }

    /// The same post of another section and other reference values. The factors
    /// follow, unless they are the user's own: those stay.
    ///
    /// # Errors
    /// As [`TimberPost::new`].
    pub fn with(self, section: Square, values: DesignValues) -> Result<Self, Error> {
        let (moisture, treatment) = self
            .service
            .unwrap_or((Moisture::Dry, Treatment::NotIncised));
        let post = Self::new(section, values, moisture, treatment)?;
        Ok(match self.service {
            Some(_) => post,
            None => Self {
                factors: self.factors,
                service: None,
                ..post
            },
        })
    }

    /// With the user's own factors.
    ///
    /// # Errors
    /// A factor outside 0.1 to 2.
    #[inline]
    pub fn with_factors(self, factors: TimberFactors) -> Result<Self, Error> {
        Ok(Self {
            factors: factors.checked()?,
            service: None,
            ..self
        })
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
    /// E' = E CM Ct Ci, if the design values have an E. CD is never on it.
    #[inline]
    pub fn adjusted_modulus(&self) -> Option<Pressure> {
        Some(self.values.modulus()? * self.factors.modulus())
    }

    /// Mr and Vr.
    #[inline]
    pub fn strength(&self) -> PostStrength {
        PostStrength::new(
            &PostSection::Square(self.section),
            bending_moment(self.adjusted_bending(), self.section.section_modulus()),
            self.adjusted_shear() * self.section.area() * (2.0 / 3.0),
            &source::NDS_3_3,
            &source::NDS_3_4,
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
            &source::NDS_LRFD,
        )
    }

    /// Emin = E (1 − 1.645 COV) 1.03/1.66, COV 0.25: NDS Appendix D, from
    /// memory. For stability, not for lean. Of a reference E it is the reference
    /// Emin, of E' the adjusted one.
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
        sheet.push(f.bending_step(self.values.bending(), self.adjusted_bending()));
        sheet.push(
            Step::computed("Sx", "section modulus about a face", "a^3/6", modulus)
                .with_as("a", self.section.side(), Measure::SectionLength)
                .shown_as(Measure::SectionModulus)
                .cite(&source::GEOMETRY),
        );
        let strength = self.strength();
        let adjusted = self.adjusted_bending();
        let moment = strength.moment;
        let step = TimberFactors::moment_step(sheet, adjusted, modulus, moment, &source::NDS_3_3);
        sheet.push(step);
        sheet.push(f.shear_step(self.values.shear(), self.adjusted_shear()));
        sheet.push(
            Step::computed(
                "Vr",
                "allowable shear",
                sheet.by_system("2/3*Fv'*Ag", "2/3*Fv'*Ag/1000"),
                strength.shear,
            )
            .with_as("Fv'", self.adjusted_shear(), Measure::Stress)
            .with_as("Ag", area, Measure::SectionArea)
            .cite(&source::NDS_3_4),
        );
        let modulus = self.values.modulus().zip(self.values.modulus_mark());
        if let (Some((given, mark)), Some(adjusted)) = (modulus, self.adjusted_modulus()) {
            let step = Step::given("E", "reference modulus", given).shown_as(Measure::Stress);
            sheet.push(if mark == Mark::Given {
                step.cite(&source::GIVEN)
            } else {
                step.cite(table)
            });
            sheet.push(f.modulus_step(given, adjusted));
        }
    }
}
