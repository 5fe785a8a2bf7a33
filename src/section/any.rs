//! Any section a post may have.

use super::{Disc, Square, SquareTube, Tube};
use crate::units::{Area, Length, SecondMoment, Volume};
use core::f64::consts::PI;

/// The cross-section of a post.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum PostSection {
    /// Solid square.
    Square(Square),
    /// Round tube.
    Tube(Tube),
    /// Solid round.
    Disc(Disc),
    /// Square tube.
    SquareTube(SquareTube),
}

impl PostSection {
    /// The width that bears on soil where no concrete is poured: the diagonal
    /// of a square (over its sharp corners, if they are rounded too), the
    /// diameter of a round (IBC 1807.3.2.1, symbol b).
    #[inline]
    pub fn bearing_width(&self) -> Length {
        match self {
            Self::Square(square) => square.diagonal(),
            Self::Tube(tube) => tube.diameter(),
            Self::Disc(disc) => disc.diameter(),
            Self::SquareTube(tube) => tube.diagonal(),
        }
    }

    /// The face width or diameter.
    #[inline]
    pub fn face_width(&self) -> Length {
        match self {
            Self::Square(square) => square.side(),
            Self::Tube(tube) => tube.diameter(),
            Self::Disc(disc) => disc.diameter(),
            Self::SquareTube(tube) => tube.side(),
        }
    }

    /// The area enclosed by the outer face: what it displaces in a hole.
    #[inline]
    pub fn gross_area(&self) -> Area {
        match self {
            Self::Square(square) => square.area(),
            Self::Tube(tube) => disc(tube.diameter()),
            Self::Disc(disc) => disc.area(),
            Self::SquareTube(tube) => tube.gross_area(),
        }
    }

    /// Has it flat faces and corners, not a round?
    #[inline]
    pub const fn is_square(&self) -> bool {
        matches!(self, Self::Square(_) | Self::SquareTube(_))
    }

    /// I, about any axis through the middle.
    #[inline]
    pub fn second_moment(&self) -> SecondMoment {
        match self {
            Self::Square(square) => square.second_moment(),
            Self::Tube(tube) => tube.second_moment(),
            Self::Disc(disc) => disc.second_moment(),
            Self::SquareTube(tube) => tube.second_moment(),
        }
    }
}

impl From<Square> for PostSection {
    fn from(section: Square) -> Self {
        Self::Square(section)
    }
}

impl From<Tube> for PostSection {
    fn from(section: Tube) -> Self {
        Self::Tube(section)
    }
}

impl From<Disc> for PostSection {
    fn from(section: Disc) -> Self {
        Self::Disc(section)
    }
}

impl From<SquareTube> for PostSection {
    fn from(section: SquareTube) -> Self {
        Self::SquareTube(section)
    }
}

/// A tube, round or square.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum HollowSection {
    /// Round.
    Round(Tube),
    /// Square.
    Square(SquareTube),
}

impl HollowSection {
    /// S, the elastic section modulus.
    pub fn section_modulus(&self) -> Volume {
        match self {
            Self::Round(tube) => tube.section_modulus(),
            Self::Square(tube) => tube.section_modulus(),
        }
    }

    /// The shear area, I b/Q at the neutral axis.
    pub fn shear_area(&self) -> Area {
        match self {
            Self::Round(tube) => tube.shear_area(),
            Self::Square(tube) => tube.shear_area(),
        }
    }
}

impl From<Tube> for HollowSection {
    fn from(section: Tube) -> Self {
        Self::Round(section)
    }
}

impl From<SquareTube> for HollowSection {
    fn from(section: SquareTube) -> Self {
        Self::Square(section)
    }
}

impl From<HollowSection> for PostSection {
    fn from(section: HollowSection) -> Self {
        match section {
            HollowSection::Round(tube) => Self::Tube(tube),
            HollowSection::Square(tube) => Self::SquareTube(tube),
        }
    }
}

/// The area of a disc.
pub(crate) fn disc(diameter: Length) -> Area {
    diameter * diameter * (PI / 4.0)
}
