//! Sawn square timber to EN 1995-1-1, solid timber in service class 3.
//!
//! fm,d = kmod kh fm,k/γM, kh = (150/h)^0.2 ≤ 1.3 below 150 mm; MRd = fm,d b³/6;
//! VRd = ⅔ fv,d (kcr b) b, kcr = 0.67; γM = 1.3. kmod in service class 3: 0.90
//! instantaneous, 0.70 short (quoted). Which of the two wind is, a national
//! annex says; it moves MRd by 1.29. National annexes may set γM and kcr too.

use super::DesignResistance;
use crate::error::{Error, number_within, stress_within};
use crate::section::{PostSection, Square};
use crate::source::{self, Citation, Mark};
use crate::units::{Pressure, bending_moment, mpa};

/// γM of solid timber.
const GAMMA_M: f64 = 1.3;
/// Share of the width that carries shear.
const CRACKED: f64 = 0.67;

/// A strength class of EN 338:2016.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum TimberClass {
    /// Softwood, fm,k 16, fv,k 3.2 MPa.
    C16,
    /// Softwood, fm,k 24, fv,k 4.0 MPa.
    C24,
    /// Hardwood, fm,k 30, fv,k 3.9 MPa (4.0 in the edition of 2009). From memory.
    D30,
    /// fm,k, fv,k and E0,mean of another.
    Given(Pressure, Pressure, Pressure),
}

impl TimberClass {
    /// fm,k.
    pub fn bending(self) -> Pressure {
        match self {
            Self::C16 => mpa(16.0),
            Self::C24 => mpa(24.0),
            Self::D30 => mpa(30.0),
            Self::Given(bending, _, _) => bending,
        }
    }

    /// fv,k.
    pub fn shear(self) -> Pressure {
        match self {
            Self::C16 => mpa(3.2),
            Self::C24 => mpa(4.0),
            Self::D30 => mpa(3.9),
            Self::Given(_, shear, _) => shear,
        }
    }

    /// E0,mean: what a post leans by.
    pub fn modulus(self) -> Pressure {
        match self {
            Self::C16 => mpa(8_000.0),
            Self::C24 | Self::D30 => mpa(11_000.0),
            Self::Given(_, _, modulus) => modulus,
        }
    }

    /// How well the values are known.
    pub const fn mark(self) -> Mark {
        match self {
            Self::C16 | Self::C24 => Mark::Quoted,
            Self::D30 => Mark::FromMemory,
            Self::Given(..) => Mark::Given,
        }
    }
}

/// A square timber post.
///
/// ```
/// use groundline::{post::*, section::Square, units::*};
/// let post = TimberEn1995::new(Square::new(mm(100.0))?, TimberClass::C24, 0.9)?;
/// assert!((post.resistance().moment.to(kn_m) - 3.0032).abs() < 1e-4);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TimberEn1995 {
    section: Square,
    class: TimberClass,
    kmod: f64,
}

impl TimberEn1995 {
    /// kmod of an instantaneous load in service class 3.
    pub const KMOD_INSTANTANEOUS: f64 = 0.9;
    /// kmod of a short load in service class 3.
    pub const KMOD_SHORT: f64 = 0.7;

    /// A post of a section and a class, with kmod of the wind.
    ///
    /// # Errors
    /// kmod outside 0.5 to 1.1; of a class given, fm,k outside 5 to 100 MPa,
    /// fv,k outside 0.5 to 10 MPa, E outside 3 to 30 GPa.
    pub fn new(section: Square, class: TimberClass, kmod: f64) -> Result<Self, Error> {
        stress_within("fm,k", class.bending(), mpa(5.0), mpa(100.0))?;
        stress_within("fv,k", class.shear(), mpa(0.5), mpa(10.0))?;
        stress_within("E0,mean", class.modulus(), mpa(3_000.0), mpa(30_000.0))?;
        Ok(Self {
            section,
            class,
            kmod: number_within("kmod", kmod, 0.5, 1.1)?,
        })
    }

    /// kh, of the size.
    pub fn size_factor(&self) -> f64 {
        let side = self.section.side().value;
        (0.15 / side).powf(0.2).clamp(1.0, 1.3)
    }

    /// fm,d.
    pub fn bending_strength(&self) -> Pressure {
        self.class.bending() * (self.kmod * self.size_factor() / GAMMA_M)
    }

    /// fv,d.
    pub fn shear_strength(&self) -> Pressure {
        self.class.shear() * (self.kmod / GAMMA_M)
    }

    /// MRd and VRd.
    pub fn resistance(&self) -> DesignResistance {
        let area = self.section.area() * (CRACKED * 2.0 / 3.0);
        DesignResistance::new(
            &PostSection::Square(self.section),
            bending_moment(self.bending_strength(), self.section.section_modulus()),
            self.shear_strength() * area,
            self.source(),
            self.source(),
        )
    }

    /// Where it comes from.
    pub const fn source(&self) -> &'static Citation {
        &source::EN1995_BENDING
    }

    /// The section.
    pub const fn section(&self) -> &Square {
        &self.section
    }
    /// The class.
    pub const fn class(&self) -> TimberClass {
        self.class
    }
}
