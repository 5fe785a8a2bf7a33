//! Cross-sections of posts: geometry alone, no material.
//!
//! Properties are exact geometry of the dimensions given (give the actual,
//! dressed size of timber: a 4×4 is 3.5 in).

use crate::error::{Error, size_within};
use crate::units::{Area, Length, Measurable, SecondMoment, Volume, inch};
use core::f64::consts::PI;

/// The cross-section of a post.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum PostSection {
    /// Solid square.
    Square(Square),
    /// Round tube.
    Tube(Tube),
}

impl PostSection {
    /// The width that bears on soil where no concrete is poured: the diagonal
    /// of a square, the diameter of a round (IBC 1807.3.2.1, symbol b).
    #[inline]
    pub fn bearing_width(&self) -> Length {
        match self {
            Self::Square(square) => square.diagonal(),
            Self::Tube(tube) => tube.diameter(),
        }
    }

    /// The face width or diameter.
    #[inline]
    pub fn face_width(&self) -> Length {
        match self {
            Self::Square(square) => square.side(),
            Self::Tube(tube) => tube.diameter(),
        }
    }

    /// The area enclosed by the outer face: what it displaces in a hole.
    #[inline]
    pub fn gross_area(&self) -> Area {
        match self {
            Self::Square(square) => square.area(),
            Self::Tube(tube) => disc(tube.diameter()),
        }
    }
}

/// The area of a disc.
pub(crate) fn disc(diameter: Length) -> Area {
    diameter * diameter * (PI / 4.0)
}

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
    /// A.
    #[inline]
    pub fn area(&self) -> Area {
        self.side * self.side
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

    /// D.
    #[inline]
    pub const fn diameter(&self) -> Length {
        self.diameter
    }
    /// t.
    #[inline]
    pub const fn wall(&self) -> Length {
        self.wall
    }
    /// d = D − 2t.
    #[inline]
    pub fn inside_diameter(&self) -> Length {
        self.diameter - self.wall * 2.0
    }
    /// D/t.
    #[inline]
    pub fn slenderness(&self) -> f64 {
        self.diameter.value / self.wall.value
    }
    /// A = π/4 (D² − d²).
    #[inline]
    pub fn area(&self) -> Area {
        disc(self.diameter) - disc(self.inside_diameter())
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
    /// Z = (D³ − d³)/6.
    #[inline]
    pub fn plastic_modulus(&self) -> Volume {
        let (outer, inner) = (self.diameter.value, self.inside_diameter().value);
        Volume::from_si((outer * outer * outer - inner * inner * inner) / 6.0)
    }
}
