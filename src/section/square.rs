//! Solid squares.

use crate::error::{Error, size_within};
use crate::units::{Area, Length, Measurable, SecondMoment, Volume, inch};

/// A solid square section.
///
/// ```
/// use groundline::{section::Square, units::{inch, cu_in, Measurable}};
/// let four_by_four = Square::new(inch(3.5))?;
/// assert!((four_by_four.section_modulus().to(cu_in) - 7.146).abs() < 0.0005);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Square {
    side: Length,
}

impl Square {
    /// A square of an actual side.
    ///
    /// # Errors
    /// Outside 1 to 24 in.
    #[inline]
    pub fn new(side: Length) -> Result<Self, Error> {
        Ok(Self {
            side: size_within("post size", side, inch(1.0), inch(24.0))?,
        })
    }

    /// What is left when each face has lost this much to decay.
    ///
    /// # Errors
    /// Loss negative, or so great that the side is out of range.
    pub fn less_each_face(&self, loss: Length) -> Result<Self, Error> {
        let loss = size_within("loss", loss, inch(0.0), self.side)?;
        Self::new(self.side - loss * 2.0)
    }

    /// The side.
    #[inline]
    pub const fn side(&self) -> Length {
        self.side
    }
    /// √2 times the side.
    #[inline]
    pub fn diagonal(&self) -> Length {
        self.side * core::f64::consts::SQRT_2
    }
    /// A = b², b the side.
    #[inline]
    pub fn area(&self) -> Area {
        self.side * self.side
    }
    /// The shear area, ⅔ A: the shear stress in the middle is 3V/(2A).
    #[inline]
    pub fn shear_area(&self) -> Area {
        self.area() * (2.0 / 3.0)
    }
    /// I = b⁴/12.
    #[inline]
    pub fn second_moment(&self) -> SecondMoment {
        let area = self.area().value;
        SecondMoment::from_si(area * area / 12.0)
    }
    /// S = b³/6.
    #[inline]
    pub fn section_modulus(&self) -> Volume {
        let side = self.side.value;
        Volume::from_si(side * side * side / 6.0)
    }
}
