//! Round timber posts: NDS allowable stress design with reference values of
//! your own.
//!
//! F'b = Fb CD CM Ct CL CF Cfu Ci Cr, Mr = F'b π d³/32; F'v = Fv CD CM Ct Ci, Vr =
//! F'v 3A/4, since fv = 4V/(3A); E' = E CM Ct Ci. From memory.
//!
//! Reference values are allowable ones: of NDS Supplement Tables 6A and 6B, or
//! of a grader. The fibre strengths of ANSI O5.1 (8 000 psi of southern pine)
//! are of the mean type, go with the load factors of the NESC, and **do not
//! belong here**: with them a post would seem some four times as strong.

use super::{PostStrength, TimberFactors};
use crate::error::{Error, stress_within};
use crate::section::{Disc, PostSection};
use crate::source;
use crate::step::{Step, Worksheet};
use crate::units::{Measure, Pressure, bending_moment, ksi, lb_per_sq_in};

/// A round timber post.
///
/// ```
/// use groundline::{post::RoundTimber, section::Disc, units::*};
/// // Fb 1 950 and Fv 160 psi are an example, not a table.
/// let post =
///     RoundTimber::new(Disc::new(inch(6.0))?, lb_per_sq_in(1_950.0), lb_per_sq_in(160.0))?;
/// assert!((post.strength().moment.to(kip_in) - 66.16).abs() < 0.01);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RoundTimber {
    section: Disc,
    bending: Pressure,
    shear: Pressure,
    modulus: Option<Pressure>,
    factors: TimberFactors,
    own_factors: bool,
}

impl RoundTimber {
    /// A post under wind, of reference Fb and Fv before any adjustment. Of a
    /// tapered one give the section at the groundline (see [`Disc`]).
    ///
    /// # Errors
    /// Fb outside 100 to 4 000 psi (fibre strengths of poles are above), Fv
    /// outside 20 psi to 1 ksi.
    #[inline]
    pub fn new(section: Disc, bending: Pressure, shear: Pressure) -> Result<Self, Error> {
        Ok(Self {
            section,
            bending: stress_within("Fb", bending, lb_per_sq_in(100.0), ksi(4.0))?,
            shear: stress_within("Fv", shear, lb_per_sq_in(20.0), ksi(1.0))?,
            modulus: None,
            factors: TimberFactors::for_round(&section),
            own_factors: false,
        })
    }

    /// The same post of another section and other reference values. The factors
    /// follow, unless they are the user's own: those stay, and so does E.
    ///
    /// # Errors
    /// As [`RoundTimber::new`].
    pub fn with(self, section: Disc, bending: Pressure, shear: Pressure) -> Result<Self, Error> {
        let post = Self::new(section, bending, shear)?;
        Ok(Self {
            section: post.section,
            bending: post.bending,
            shear: post.shear,
            factors: if self.own_factors {
                self.factors
            } else {
                post.factors
            },
            ..self
        })
    }

    /// With a reference E, for lean.
    ///
    /// # Errors
    /// Outside 100 to 5 000 ksi.
    pub fn with_modulus(self, modulus: Pressure) -> Result<Self, Error> {
        let modulus = stress_within("E", modulus, ksi(100.0), ksi(5_000.0))?;
        Ok(Self {
            modulus: Some(modulus),
            ..self
        })
    }

    /// With the user's own factors.
    ///
    /// # Errors
    /// A factor outside 0.1 to 2.
    pub fn with_factors(self, factors: TimberFactors) -> Result<Self, Error> {
        Ok(Self {
            factors: factors.checked()?,
            own_factors: true,
            ..self
        })
    }

    /// The section.
    #[inline]
    pub const fn section(&self) -> &Disc {
        &self.section
    }
    /// Reference Fb.
    pub const fn bending(&self) -> Pressure {
        self.bending
    }
    /// Reference Fv.
    pub const fn shear(&self) -> Pressure {
        self.shear
    }
    /// The factors.
    pub const fn factors(&self) -> &TimberFactors {
        &self.factors
    }
    /// F'b.
    #[inline]
    pub fn adjusted_bending(&self) -> Pressure {
        self.bending * self.factors.bending()
    }
    /// F'v.
    #[inline]
    pub fn adjusted_shear(&self) -> Pressure {
        self.shear * self.factors.shear()
    }
    /// E' = E CM Ct Ci, if E was given.
    pub fn adjusted_modulus(&self) -> Option<Pressure> {
        Some(self.modulus? * self.factors.modulus())
    }

    /// Mr and Vr.
    #[inline]
    pub fn strength(&self) -> PostStrength {
        PostStrength::new(
            &PostSection::Disc(self.section),
            bending_moment(self.adjusted_bending(), self.section.section_modulus()),
            self.adjusted_shear() * self.section.shear_area(),
            &source::NDS_ROUND,
            &source::NDS_ROUND,
        )
    }

    /// Writes the working.
    pub fn write(&self, sheet: &mut Worksheet) {
        let f = &self.factors;
        let modulus = self.section.section_modulus();
        sheet.section("Post: round timber");
        sheet.remark(
            "Allowable stress design; reference values given by the user. Fibre strengths of \
             poles (ANSI O5.1) are not such values.",
        );
        let value = |symbol, meaning, stress: Pressure| {
            Step::given(symbol, meaning, stress)
                .shown_as(Measure::Stress)
                .cite(&source::GIVEN)
        };
        sheet.push(value("Fb", "reference bending stress", self.bending));
        sheet.push(value("Fv", "reference shear stress", self.shear));
        sheet.push(f.bending_step(self.bending, self.adjusted_bending()));
        sheet.push(
            Step::computed("Sx", "section modulus", "pi/32*d^3", modulus)
                .with_as("d", self.section.diameter(), Measure::SectionLength)
                .shown_as(Measure::SectionModulus)
                .cite(&source::GEOMETRY),
        );
        let strength = self.strength();
        let adjusted = self.adjusted_bending();
        let moment = strength.moment;
        let step = TimberFactors::moment_step(sheet, adjusted, modulus, moment, &source::NDS_ROUND);
        sheet.push(step);
        sheet.push(f.shear_step(self.shear, self.adjusted_shear()));
        sheet.push(
            Step::computed(
                "Vr",
                "allowable shear",
                sheet.by_system("3/4*Fv'*Ag", "3/4*Fv'*Ag/1000"),
                strength.shear,
            )
            .with_as("Fv'", self.adjusted_shear(), Measure::Stress)
            .with_as("Ag", self.section.area(), Measure::SectionArea)
            .cite(&source::NDS_ROUND),
        );
        if let (Some(given), Some(adjusted)) = (self.modulus, self.adjusted_modulus()) {
            sheet.push(value("E", "reference modulus", given));
            sheet.push(f.modulus_step(given, adjusted));
        }
    }
}
