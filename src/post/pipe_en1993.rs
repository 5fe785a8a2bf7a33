//! Round hollow sections to EN 1993-1-1.
//!
//! Class by d/t over ε² = 235 MPa/fy: 1 to 50, 2 to 70, 3 to 90 (Table 5.2);
//! Mc,Rd = Wpl fy/γM0 in classes 1 and 2, Wel fy/γM0 in class 3 (6.2.5); Vpl,Rd =
//! (2A/π) fy/(√3 γM0) (6.2.6); γM0 = 1.0. Class 4 belongs to EN 1993-1-6 and is
//! refused. From memory.

use super::DesignResistance;
use super::steel::{en1993_class, en1993_resistance};
use crate::error::{Error, stress_within};
use crate::section::{PostSection, Tube};
use crate::source::{self, Citation};
use crate::units::{Pressure, mpa};

/// A round steel post.
///
/// ```
/// use groundline::{post::*, section::Tube, units::*};
/// let post = PipeEn1993::new(Tube::new(mm(60.3), mm(3.2))?, mpa(235.0))?;
/// assert_eq!(post.class(), 1);
/// assert!((post.resistance().moment.to(kn_m) - 2.4544).abs() < 5e-4);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PipeEn1993 {
    section: Tube,
    yield_strength: Pressure,
    class: u8,
}

impl PipeEn1993 {
    /// A pipe of a section and a yield strength fy. EN 1993-1-1 itself goes to
    /// S460, EN 1993-1-12 to S700 (from memory).
    ///
    /// # Errors
    /// fy outside 140 to 700 MPa; a wall of class 4.
    pub fn new(section: Tube, yield_strength: Pressure) -> Result<Self, Error> {
        let fy = stress_within("fy", yield_strength, mpa(140.0), mpa(700.0))?;
        let epsilon2 = mpa(235.0).value / fy.value;
        let slenderness = section.slenderness() / epsilon2;
        let Some(class) = en1993_class(slenderness, [50.0, 70.0, 90.0]) else {
            return Err(Error::NotApplicable {
                field: "pipe wall",
                reason: "the wall is of class 4, too thin for EN 1993-1-1: d/t must not pass 90 \
                         times 235 MPa/fy",
            });
        };
        Ok(Self {
            section,
            yield_strength: fy,
            class,
        })
    }

    /// 1, 2 or 3.
    pub const fn class(&self) -> u8 {
        self.class
    }

    /// Mc,Rd and Vpl,Rd.
    pub fn resistance(&self) -> DesignResistance {
        let modulus = if self.class < 3 {
            self.section.plastic_modulus()
        } else {
            self.section.section_modulus()
        };
        en1993_resistance(
            &PostSection::Tube(self.section),
            modulus,
            self.section.area() * core::f64::consts::FRAC_2_PI,
            self.yield_strength,
            self.source(),
        )
    }

    /// Where it comes from.
    pub const fn source(&self) -> &'static Citation {
        &source::EN1993_CHS
    }

    /// The section.
    pub const fn section(&self) -> &Tube {
        &self.section
    }
}
