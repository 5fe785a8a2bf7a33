//! Square hollow sections to EN 1993-1-1.
//!
//! Class of the flange by c/t over ε = √(235 MPa/fy), c = b − 3t (more where the
//! corners are sharper): 1 to 33, 2 to 38, 3 to 42 (Table 5.2; the webs, in bending,
//! are better); Mc,Rd = Wpl fy/γM0 in classes 1 and 2, Wel fy/γM0 in class 3 (6.2.5);
//! Vpl,Rd = (A/2) fy/(√3 γM0) (6.2.6); γM0 = 1.0. Class 4 belongs to EN 1993-1-5 and is
//! refused. From memory.

use super::DesignResistance;
use super::steel::{en1993_class, en1993_resistance};
use crate::error::{Error, stress_within};
use crate::section::{PostSection, SquareTube};
use crate::source::{self, Citation};
use crate::units::{Pressure, mpa};

/// A square steel post.
///
/// ```
/// use groundline::{post::*, section::SquareTube, units::*};
/// let post = SquareTubeEn1993::new(SquareTube::new(mm(80.0), mm(4.0))?, mpa(235.0))?;
/// assert_eq!(post.class(), 1);
/// // Wpl 33.1 cm³.
/// assert!((post.resistance().moment.to(kn_m) - 33.1 * 0.235).abs() < 0.02);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SquareTubeEn1993 {
    section: SquareTube,
    yield_strength: Pressure,
    class: u8,
}

impl SquareTubeEn1993 {
    /// A square tube of a section and a yield strength fy. EN 1993-1-1 itself goes to
    /// S460, EN 1993-1-12 to S700 (from memory).
    ///
    /// # Errors
    /// fy outside 140 to 700 MPa; a wall of class 4.
    pub fn new(section: SquareTube, yield_strength: Pressure) -> Result<Self, Error> {
        let fy = stress_within("fy", yield_strength, mpa(140.0), mpa(700.0))?;
        let epsilon = (mpa(235.0).value / fy.value).sqrt();
        let slenderness = section.slenderness() / epsilon;
        let Some(class) = en1993_class(slenderness, [33.0, 38.0, 42.0]) else {
            return Err(Error::NotApplicable {
                field: "tube wall",
                reason: "the wall is of class 4, too thin for EN 1993-1-1: c/t must not pass 42 \
                         times the root of 235 MPa/fy",
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
            &PostSection::SquareTube(self.section),
            modulus,
            self.section.area() * 0.5,
            self.yield_strength,
            self.source(),
        )
    }

    /// Where it comes from.
    pub const fn source(&self) -> &'static Citation {
        &source::EN1993_SHS
    }

    /// The section.
    pub const fn section(&self) -> &SquareTube {
        &self.section
    }
}
