//! Solid rounds: poles.

use super::disc;
use crate::error::{Error, size_within};
use crate::units::{Area, Length, Measurable, SecondMoment, Volume, inch};
use core::f64::consts::PI;

/// A solid round section.
///
/// Poles are sold by their circumference; one set butt down is thicker below
/// the groundline than at it, so the section at the groundline is the safe
/// one there. One set upside down is not: measure it where the moment is
/// greatest.
///
/// ```
/// use groundline::{section::Disc, units::{inch, cu_in, Measurable}};
/// let pole = Disc::of_circumference(inch(25.0))?;
/// // S = c³/(32 π²).
/// assert!((pole.section_modulus().to(cu_in) - 49.474).abs() < 0.001);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Disc {
    diameter: Length,
}

impl Disc {
    /// A round of a diameter.
    ///
    /// # Errors
    /// Outside 1 to 48 in.
    #[inline]
    pub fn new(diameter: Length) -> Result<Self, Error> {
        Ok(Self {
            diameter: size_within("post diameter", diameter, inch(1.0), inch(48.0))?,
        })
    }

    /// A round of a circumference, over the outside without bark.
    ///
    /// # Errors
    /// Outside π to 48 π in.
    #[inline]
    pub fn of_circumference(circumference: Length) -> Result<Self, Error> {
        let (least, most) = (inch(PI), inch(48.0 * PI));
        Ok(Self {
            diameter: size_within("post circumference", circumference, least, most)? / PI,
        })
    }

    /// What is left when the outside has lost this much to decay.
    ///
    /// # Errors
    /// Loss negative, or so great that the diameter is out of range.
    pub fn less_outside(&self, loss: Length) -> Result<Self, Error> {
        let loss = size_within("loss", loss, inch(0.0), self.diameter)?;
        Self::new(self.diameter - loss * 2.0)
    }

    /// d, the diameter.
    #[inline]
    pub const fn diameter(&self) -> Length {
        self.diameter
    }
    /// c = π d.
    #[inline]
    pub fn circumference(&self) -> Length {
        self.diameter * PI
    }
    /// A = π d²/4.
    #[inline]
    pub fn area(&self) -> Area {
        disc(self.diameter)
    }
    /// The shear area, ¾ A: the shear stress in the middle is 4V/(3A).
    #[inline]
    pub fn shear_area(&self) -> Area {
        self.area() * 0.75
    }
    /// I = π d⁴/64.
    #[inline]
    pub fn second_moment(&self) -> SecondMoment {
        SecondMoment::from_si(PI / 64.0 * self.diameter.value.powi(4))
    }
    /// S = π d³/32.
    #[inline]
    pub fn section_modulus(&self) -> Volume {
        Volume::from_si(PI / 32.0 * self.diameter.value.powi(3))
    }
}
