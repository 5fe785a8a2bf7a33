//! What can be multiplied about a post of any kind: its size, its wall, its
//! strength.

use super::{
    AluminiumPost, GivenPost, Insert, PipePost, Post, SleevedPost, SquareTubePost, SteelStrength,
};
use crate::error::Error;
use crate::section::{Disc, HollowSection, PostSection, Square, SquareTube, Tube};
use crate::units::{Length, Measure, Measured};

/// A property that posts of several kinds have.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum PostProperty {
    /// Side or diameter; the wall of a tube stays.
    Size,
    /// Wall of a tube; its outside stays, a rounded corner grows with the wall.
    Wall,
    /// What bending goes by: Fb of timber; Fy of steel and Fty with Ftu of
    /// aluminium, which shear goes by too; the moment of a given strength.
    Bending,
    /// What shear goes by where it is a value of its own: Fv of timber, the shear
    /// of a given strength.
    Shear,
}

impl PostProperty {
    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Size => "post size",
            Self::Wall => "post wall",
            Self::Bending => "post bending strength",
            Self::Shear => "post shear strength",
        }
    }

    const fn refused(self) -> Error {
        Error::NotApplicable {
            field: self.name(),
            reason: match self {
                Self::Size => "the strength of the post was given; its size does not make it",
                Self::Wall => "the post has no wall that its strength goes by",
                Self::Bending | Self::Shear => {
                    "the post has no such value of its own; metal has one strength for both"
                }
            },
        }
    }
}

impl Post {
    /// A property of the post; of a sleeved one that of the insert. None where it
    /// has no such value.
    pub fn property(&self, property: PostProperty) -> Option<Measured> {
        use PostProperty::{Bending, Shear, Size, Wall};
        let size = |length| Measured::new(length).shown_as(Measure::SectionLength);
        let stress = |pressure| Measured::new(pressure).shown_as(Measure::Stress);
        Some(match (self, property) {
            (Self::Sleeved(post), _) => return Self::from(*post.insert()).property(property),
            (Self::Given(_), Size | Wall)
            | (Self::Pipe(_) | Self::SquareTube(_) | Self::Aluminium(_), Shear) => return None,
            (_, Size) => size(self.section().face_width()),
            (_, Wall) => size(match self.section() {
                PostSection::Tube(tube) => tube.wall(),
                PostSection::SquareTube(tube) => tube.wall(),
                PostSection::Square(_) | PostSection::Disc(_) => return None,
            }),
            (Self::Timber(post), Bending) => stress(post.values().bending()),
            (Self::Timber(post), Shear) => stress(post.values().shear()),
            (Self::RoundTimber(post), Bending) => stress(post.bending()),
            (Self::RoundTimber(post), Shear) => stress(post.shear()),
            (Self::Given(post), Bending) => Measured::new(post.strength().moment),
            (Self::Given(post), Shear) => Measured::new(post.strength().shear),
            (Self::Pipe(post), Bending) => stress(post.steel().yield_strength()),
            (Self::SquareTube(post), Bending) => stress(post.steel().yield_strength()),
            (Self::Aluminium(post), Bending) => stress(post.metal().yield_strength()),
        })
    }

    /// The same post with a property multiplied, through the constructors of its
    /// kind.
    ///
    /// ```
    /// use groundline::{post::*, section::Tube, units::*};
    /// let steel = SteelStrength::new(ksi(50.0))?;
    /// let pipe: Post = PipePost::new(Tube::new(inch(2.875), inch(0.16))?, steel)?.into();
    /// let thin = pipe.scaled(PostProperty::Wall, 0.9)?;
    /// assert!(thin.strength().moment < pipe.strength().moment);
    /// assert!(pipe.scaled(PostProperty::Bending, 3.0).is_err());
    /// # Ok::<(), groundline::Error>(())
    /// ```
    ///
    /// # Errors
    /// A value out of the range of its constructor; a post that has no such
    /// value.
    pub fn scaled(&self, property: PostProperty, factor: f64) -> Result<Self, Error> {
        let by = |wanted: PostProperty| if property == wanted { factor } else { 1.0 };
        if self.property(property).is_none() {
            return Err(property.refused());
        }
        let (size, wall) = (by(PostProperty::Size), by(PostProperty::Wall));
        let (bending, shear) = (by(PostProperty::Bending), by(PostProperty::Shear));
        let steel = |steel: SteelStrength| SteelStrength::new(steel.yield_strength() * bending);
        Ok(match self {
            Self::Timber(post) => {
                let values = *post.values();
                // Tabular values stay tabular where they are not asked for.
                let values = if matches!(property, PostProperty::Bending | PostProperty::Shear) {
                    values.with_stresses(values.bending() * bending, values.shear() * shear)?
                } else {
                    values
                };
                let section = Square::new(post.section().side() * size)?;
                post.with(section, values)?.into()
            }
            Self::RoundTimber(post) => {
                let section = Disc::new(post.section().diameter() * size)?;
                post.with(section, post.bending() * bending, post.shear() * shear)?
                    .into()
            }
            Self::Pipe(post) => {
                let section = round(post.section(), size, wall)?;
                PipePost::new(section, steel(post.steel())?)?.into()
            }
            Self::SquareTube(post) => {
                let section = square(post.section(), size, wall)?;
                SquareTubePost::new(section, steel(post.steel())?)?.into()
            }
            Self::Aluminium(post) => {
                let section = match post.section() {
                    HollowSection::Round(tube) => HollowSection::Round(round(tube, size, wall)?),
                    HollowSection::Square(tube) => HollowSection::Square(square(tube, size, wall)?),
                };
                let metal = if property == PostProperty::Bending {
                    post.metal().scaled(bending)?
                } else {
                    post.metal()
                };
                AluminiumPost::new(section, metal)?.into()
            }
            Self::Given(post) => {
                let strength = post.strength();
                let (moment, force) = (strength.moment * bending, strength.shear * shear);
                let scaled = GivenPost::new(*post.section(), moment, force)?;
                match post.rigidity() {
                    Some(rigidity) => scaled.with_rigidity(rigidity)?,
                    None => scaled,
                }
                .into()
            }
            Self::Sleeved(post) => {
                let insert =
                    Insert::try_from(Self::from(*post.insert()).scaled(property, factor)?)?;
                SleevedPost::new(*post.sleeve(), insert.into())?.into()
            }
        })
    }
}

fn round(tube: &Tube, size: f64, wall: f64) -> Result<Tube, Error> {
    Tube::new(tube.diameter() * size, tube.wall() * wall)
}

fn square(tube: &SquareTube, size: f64, wall: f64) -> Result<SquareTube, Error> {
    let radius: Length = tube.corner_radius() * wall;
    SquareTube::new(tube.side() * size, tube.wall() * wall)?.with_corner_radius(radius)
}
