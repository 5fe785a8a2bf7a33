//! A vinyl sleeve over an insert.
//!
//! The sleeve counts for nothing: vinyl creeps, softens in the sun and turns
//! brittle in the cold. The insert is the post. It must run the full depth in
//! the ground and through the zone of greatest moment, which no one checks here.

use super::{
    AluminiumPost, GivenPost, PipePost, Post, PostStrength, RoundTimber, SquareTubePost, TimberPost,
};
use crate::error::{Error, size_within};
use crate::section::PostSection;
use crate::source;
use crate::step::{Step, Worksheet};
use crate::units::{Length, Measure, inch};

/// A square vinyl sleeve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sleeve {
    outside: Length,
    wall: Length,
}

impl Sleeve {
    /// A sleeve of an outside side and a wall.
    ///
    /// # Errors
    /// Side outside 1 to 24 in, wall outside 0.01 in to a fifth of the side.
    pub fn new(outside: Length, wall: Length) -> Result<Self, Error> {
        let outside = size_within("sleeve side", outside, inch(1.0), inch(24.0))?;
        Ok(Self {
            outside,
            wall: size_within("sleeve wall", wall, inch(0.01), outside * 0.2)?,
        })
    }

    /// Its outside side.
    pub const fn outside(&self) -> Length {
        self.outside
    }
    /// What is free inside.
    pub fn inside(&self) -> Length {
        self.outside - self.wall * 2.0
    }
}

/// Any post but a sleeved one.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Insert {
    /// Sawn square timber.
    Timber(TimberPost),
    /// Round steel pipe.
    Pipe(PipePost),
    /// Of known strength.
    Given(GivenPost),
    /// Square steel tube.
    SquareTube(SquareTubePost),
    /// Round timber.
    RoundTimber(RoundTimber),
    /// Aluminium tube.
    Aluminium(AluminiumPost),
}

impl Insert {
    /// Its section.
    #[inline]
    pub fn section(&self) -> PostSection {
        Post::from(*self).section()
    }
}

impl TryFrom<Post> for Insert {
    type Error = Error;

    fn try_from(post: Post) -> Result<Self, Error> {
        Ok(match post {
            Post::Timber(post) => Self::Timber(post),
            Post::Pipe(post) => Self::Pipe(post),
            Post::Given(post) => Self::Given(post),
            Post::SquareTube(post) => Self::SquareTube(post),
            Post::RoundTimber(post) => Self::RoundTimber(post),
            Post::Aluminium(post) => Self::Aluminium(post),
            Post::Sleeved(_) => {
                return Err(Error::NotApplicable {
                    field: "insert",
                    reason: "a sleeve within a sleeve is no post",
                });
            }
        })
    }
}

/// A sleeve and the insert that carries.
///
/// ```
/// use groundline::{post::*, section::SquareTube, units::*};
/// let tube = SquareTube::new(inch(3.0), inch(0.116))?;
/// let insert = SquareTubePost::new(tube, SteelStrength::new(ksi(46.0))?)?;
/// let sleeve = Sleeve::new(inch(5.0), inch(0.135))?;
/// let post = SleevedPost::new(sleeve, insert.into())?;
/// assert_eq!(Post::from(post).strength(), insert.strength());
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SleevedPost {
    sleeve: Sleeve,
    insert: Insert,
}

impl SleevedPost {
    /// A sleeve over an insert that fits, face in face.
    ///
    /// # Errors
    /// An insert as wide as the inside of the sleeve or wider; a sleeved post
    /// as an insert.
    pub fn new(sleeve: Sleeve, insert: Post) -> Result<Self, Error> {
        let insert = Insert::try_from(insert)?;
        if insert.section().face_width() < sleeve.inside() {
            Ok(Self { sleeve, insert })
        } else {
            Err(Error::NotApplicable {
                field: "insert",
                reason: "it does not go into the sleeve: the outside of the sleeve less two walls",
            })
        }
    }

    /// The sleeve.
    pub const fn sleeve(&self) -> &Sleeve {
        &self.sleeve
    }
    /// What carries.
    #[inline]
    pub const fn insert(&self) -> &Insert {
        &self.insert
    }

    /// That of the insert.
    #[inline]
    pub fn strength(&self) -> PostStrength {
        Post::from(self.insert).strength()
    }

    /// Writes the working of the insert.
    pub fn write(&self, sheet: &mut Worksheet) {
        sheet.section("Vinyl sleeve");
        sheet.remark("The sleeve counts for nothing; the insert is the post.");
        sheet.push(
            Step::given("B", "outside of the sleeve", self.sleeve.outside)
                .shown_as(Measure::SectionLength)
                .cite(&source::GIVEN),
        );
        Post::from(self.insert).write(sheet);
    }
}
