//! Square tubes with rounded corners.
//!
//! Each contour is a square of side a less four corner pieces: between the
//! square of side r in a corner and the quarter circle of radius r in it. With
//! h = a/2 − r a piece has the area (1 − π/4) r², the first moment
//! h (1 − π/4) r² + r³/6 and the second moment h² (1 − π/4) r² + h r³/3 +
//! (1/3 − π/16) r⁴ about an axis through the middle. The tube is the outer
//! contour less the inner one.

use crate::error::{Error, size_within};
use crate::units::{Area, Length, Measurable, SecondMoment, Volume, inch};
use core::f64::consts::PI;

/// A square tube.
///
/// ```
/// use groundline::{section::SquareTube, units::{inch, cu_in, Measurable}};
/// // Four by four by a quarter, of a design wall of 0.233 in.
/// let tube = SquareTube::new(inch(4.0), inch(0.233))?;
/// assert!((tube.plastic_modulus().to(cu_in) - 4.69).abs() < 0.005);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SquareTube {
    side: Length,
    wall: Length,
    radius: Length,
}

impl SquareTube {
    /// A tube of an outside side and a wall, its corners of the customary
    /// outside radius: twice the wall (cold-formed tube up to 6 mm of
    /// EN 10219-2, and the tables of AISC; from memory).
    ///
    /// # Errors
    /// Side outside 0.5 to 36 in, wall outside 0.01 in to a fifth of the side.
    #[inline]
    pub fn new(side: Length, wall: Length) -> Result<Self, Error> {
        let side = size_within("tube side", side, inch(0.5), inch(36.0))?;
        let wall = size_within("tube wall", wall, inch(0.01), side * 0.2)?;
        Ok(Self {
            side,
            wall,
            radius: wall * 2.0,
        })
    }

    /// With another outside radius of its corners: 0 for sharp ones, such as
    /// those of an extrusion. Inside, the radius is less by the wall, or 0.
    ///
    /// # Errors
    /// Outside 0 to 0.45 of the side.
    #[inline]
    pub fn with_corner_radius(self, radius: Length) -> Result<Self, Error> {
        let radius = size_within("corner radius", radius, inch(0.0), self.side * 0.45)?;
        Ok(Self { radius, ..self })
    }

    /// What is left when the outside has lost this much to rust.
    ///
    /// # Errors
    /// Loss negative, or so great that side or wall is out of range.
    pub fn less_outside(&self, loss: Length) -> Result<Self, Error> {
        let loss = size_within("loss", loss, inch(0.0), self.wall)?;
        let left = Self::new(self.side - loss * 2.0, self.wall - loss)?;
        Ok(Self {
            radius: positive(self.radius - loss),
            ..left
        })
    }

    /// B, the side outside.
    #[inline]
    pub const fn side(&self) -> Length {
        self.side
    }
    /// t, the wall.
    #[inline]
    pub const fn wall(&self) -> Length {
        self.wall
    }
    /// R, of the corners outside.
    #[inline]
    pub const fn corner_radius(&self) -> Length {
        self.radius
    }
    /// The radius of the corners inside: R − t, or 0.
    #[inline]
    pub fn inside_radius(&self) -> Length {
        positive(self.radius - self.wall)
    }
    /// B − 2t, the side inside.
    #[inline]
    pub fn inside(&self) -> Length {
        self.side - self.wall * 2.0
    }
    /// √2 times the side: as over sharp corners.
    #[inline]
    pub fn diagonal(&self) -> Length {
        self.side * core::f64::consts::SQRT_2
    }
    /// b, the flat of a wall as codes of steel take it: B − 3t, or the clear
    /// width less the inside radii where that is more (sharp corners).
    #[inline]
    pub fn flat_width(&self) -> Length {
        let customary = self.side - self.wall * 3.0;
        let clear = self.inside() - self.inside_radius() * 2.0;
        clear.max(customary)
    }
    /// b/t.
    #[inline]
    pub fn slenderness(&self) -> f64 {
        self.flat_width().value / self.wall.value
    }

    fn outer(&self) -> Contour {
        Contour::new(self.side, self.radius)
    }
    fn inner(&self) -> Contour {
        Contour::new(self.inside(), self.inside_radius())
    }

    /// The area within the outer contour.
    #[inline]
    pub fn gross_area(&self) -> Area {
        Area::from_si(self.outer().area())
    }
    /// A, of the metal.
    #[inline]
    pub fn area(&self) -> Area {
        Area::from_si(self.outer().area() - self.inner().area())
    }
    /// The shear area, I b/Q at the neutral axis: 4 I t/Z, since b = 2t and
    /// Q = Z/2.
    #[inline]
    pub fn shear_area(&self) -> Area {
        let z = self.plastic_modulus().value;
        Area::from_si(4.0 * self.second_moment().value * self.wall.value / z)
    }
    /// I, about any axis through the middle.
    #[inline]
    pub fn second_moment(&self) -> SecondMoment {
        SecondMoment::from_si(self.outer().second_moment() - self.inner().second_moment())
    }
    /// S = 2I/B, about an axis parallel to a face.
    #[inline]
    pub fn section_modulus(&self) -> Volume {
        Volume::from_si(2.0 * self.second_moment().value / self.side.value)
    }
    /// Z, the plastic modulus, about an axis parallel to a face.
    #[inline]
    pub fn plastic_modulus(&self) -> Volume {
        Volume::from_si(self.outer().plastic_modulus() - self.inner().plastic_modulus())
    }
}

#[inline]
fn positive(length: Length) -> Length {
    length.max(inch(0.0))
}

/// A square with rounded corners, in SI; its corner pieces are those of the head
/// of the file.
#[derive(Clone, Copy)]
struct Contour {
    side: f64,
    radius: f64,
    /// h, from the middle to the centre of a corner's circle, along a side.
    reach: f64,
    /// The area of a corner piece.
    piece: f64,
}

impl Contour {
    fn new(side: Length, radius: Length) -> Self {
        let (side, radius) = (side.value, radius.value);
        Self {
            side,
            radius,
            reach: side / 2.0 - radius,
            piece: (1.0 - PI / 4.0) * radius * radius,
        }
    }

    fn area(self) -> f64 {
        self.side * self.side - 4.0 * self.piece
    }

    fn plastic_modulus(self) -> f64 {
        let piece = self.reach * self.piece + self.radius.powi(3) / 6.0;
        self.side.powi(3) / 4.0 - 4.0 * piece
    }

    fn second_moment(self) -> f64 {
        let piece = self.reach * self.reach * self.piece
            + self.reach * self.radius.powi(3) / 3.0
            + (1.0 / 3.0 - PI / 16.0) * self.radius.powi(4);
        self.side.powi(4) / 12.0 - 4.0 * piece
    }
}
