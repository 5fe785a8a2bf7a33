//! Round tubes.

use super::disc;
use crate::error::{Error, size_within};
use crate::units::{Area, Length, Measurable, SecondMoment, Volume, inch};
use core::f64::consts::PI;

/// A round tube.
///
/// ```
/// use groundline::{section::Tube, units::{inch, cu_in, Measurable}};
/// let pipe = Tube::new(inch(2.375), inch(0.154))?;
/// assert!((pipe.plastic_modulus().to(cu_in) - 0.7609).abs() < 0.0001);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tube {
    diameter: Length,
    wall: Length,
}

impl Tube {
    /// A tube of an outside diameter and a wall.
    ///
    /// # Errors
    /// Diameter outside 0.5 to 36 in, wall outside 0.01 in to 0.49 of the
    /// diameter.
    #[inline]
    pub fn new(diameter: Length, wall: Length) -> Result<Self, Error> {
        let diameter = size_within("pipe diameter", diameter, inch(0.5), inch(36.0))?;
        Ok(Self {
            diameter,
            wall: size_within("pipe wall", wall, inch(0.01), diameter * 0.49)?,
        })
    }

    /// What is left when the outside has lost this much to rust.
    ///
    /// # Errors
    /// Loss negative, or so great that diameter or wall is out of range.
    pub fn less_outside(&self, loss: Length) -> Result<Self, Error> {
        let loss = size_within("loss", loss, inch(0.0), self.wall)?;
        Self::new(self.diameter - loss * 2.0, self.wall - loss)
    }

    /// D, the diameter outside.
    #[inline]
    pub const fn diameter(&self) -> Length {
        self.diameter
    }
    /// t, the wall.
    #[inline]
    pub const fn wall(&self) -> Length {
        self.wall
    }
    /// d = D − 2t, the diameter inside.
    #[inline]
    pub fn inside_diameter(&self) -> Length {
        self.diameter - self.wall * 2.0
    }
    /// D/t.
    #[inline]
    pub fn slenderness(&self) -> f64 {
        self.diameter.value / self.wall.value
    }
    /// A = π/4 (D² − d²), of the metal.
    #[inline]
    pub fn area(&self) -> Area {
        disc(self.diameter) - disc(self.inside_diameter())
    }
    /// The shear area, I b/Q at the neutral axis: ¾ A (D² + d²)/(D² + D d + d²).
    #[inline]
    pub fn shear_area(&self) -> Area {
        let (outer, inner) = (self.diameter.value, self.inside_diameter().value);
        let squares = outer * outer + inner * inner;
        self.area() * (0.75 * squares / (squares + outer * inner))
    }
    /// I = π/64 (D⁴ − d⁴).
    #[inline]
    pub fn second_moment(&self) -> SecondMoment {
        let (outer, inner) = (self.diameter.value, self.inside_diameter().value);
        SecondMoment::from_si(PI / 64.0 * (outer.powi(4) - inner.powi(4)))
    }
    /// S = 2I/D.
    #[inline]
    pub fn section_modulus(&self) -> Volume {
        Volume::from_si(2.0 * self.second_moment().value / self.diameter.value)
    }
    /// Z = (D³ − d³)/6, the plastic modulus.
    #[inline]
    pub fn plastic_modulus(&self) -> Volume {
        let (outer, inner) = (self.diameter.value, self.inside_diameter().value);
        Volume::from_si((outer * outer * outer - inner * inner * inner) / 6.0)
    }
}
