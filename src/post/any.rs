//! A post of any kind.

use super::{
    AluminiumPost, GivenPost, Insert, PipePost, PostStrength, RoundTimber, SleevedPost,
    SquareTubePost, TimberPost,
};
use crate::caution::{Caution, Cautions};
use crate::section::PostSection;
use crate::step::Worksheet;
use crate::units::FlexuralRigidity;

/// A post of a material and a section.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Post {
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
    /// A vinyl sleeve over one of the others.
    Sleeved(SleevedPost),
}

impl Post {
    /// Its section: of a sleeved post that of the insert.
    #[inline]
    pub fn section(&self) -> PostSection {
        match self {
            Self::Timber(post) => PostSection::Square(*post.section()),
            Self::Pipe(post) => PostSection::Tube(*post.section()),
            Self::Given(post) => *post.section(),
            Self::SquareTube(post) => PostSection::SquareTube(*post.section()),
            Self::RoundTimber(post) => PostSection::Disc(*post.section()),
            Self::Aluminium(post) => PostSection::from(*post.section()),
            Self::Sleeved(post) => post.insert().section(),
        }
    }

    /// What it resists, at allowable-stress level.
    #[inline]
    pub fn strength(&self) -> PostStrength {
        match self {
            Self::Timber(post) => post.strength(),
            Self::Pipe(post) => post.strength(),
            Self::Given(post) => post.strength(),
            Self::SquareTube(post) => post.strength(),
            Self::RoundTimber(post) => post.strength(),
            Self::Aluminium(post) => post.strength(),
            Self::Sleeved(post) => post.strength(),
        }
    }

    /// E I, for lean: E' I of timber. None where no E was given.
    ///
    /// ```
    /// use groundline::{post::*, section::Tube, units::*};
    /// let steel = SteelStrength::new(ksi(30.0))?;
    /// let pipe = PipePost::new(Tube::new(inch(2.375), inch(0.154))?, steel)?;
    /// let rigidity = Post::from(pipe).rigidity().unwrap();
    /// assert!((rigidity.to(lb_sq_in) / 1.930e7 - 1.0).abs() < 1e-3);
    /// # Ok::<(), groundline::Error>(())
    /// ```
    pub fn rigidity(&self) -> Option<FlexuralRigidity> {
        match self {
            Self::Timber(post) => Some(post.adjusted_modulus()? * post.section().second_moment()),
            Self::Pipe(post) => Some(post.rigidity()),
            Self::Given(post) => post.rigidity(),
            Self::SquareTube(post) => Some(post.rigidity()),
            Self::RoundTimber(post) => {
                Some(post.adjusted_modulus()? * post.section().second_moment())
            }
            Self::Aluminium(post) => Some(post.rigidity()),
            Self::Sleeved(post) => Self::from(*post.insert()).rigidity(),
        }
    }

    /// The cautions of its kind.
    pub fn cautions(&self) -> Cautions {
        let bare = match self {
            Self::Sleeved(post) => Self::from(*post.insert()),
            other => *other,
        };
        let timber = matches!(bare, Self::Timber(_) | Self::RoundTimber(_));
        let given = matches!(bare, Self::Given(_));
        Cautions::default()
            .with_if(timber, Caution::TimberTreatment)
            .with_if(matches!(bare, Self::RoundTimber(_)), Caution::Taper)
            .with_if(matches!(self, Self::Sleeved(_)), Caution::Sleeve)
            // Adjustment factors of timber, the shear of steel, alloys are.
            .with_if(!given, Caution::FromMemory)
    }

    /// Writes the working of its strength.
    pub fn write(&self, sheet: &mut Worksheet) {
        match self {
            Self::Timber(post) => post.write(sheet),
            Self::Pipe(post) => post.write(sheet),
            Self::Given(post) => post.write(sheet),
            Self::SquareTube(post) => post.write(sheet),
            Self::RoundTimber(post) => post.write(sheet),
            Self::Aluminium(post) => post.write(sheet),
            Self::Sleeved(post) => post.write(sheet),
        }
    }
}

macro_rules! kinds {
    ($( $kind:ty => $variant:ident; )+) => {
        $(
            impl From<$kind> for Post {
                #[inline]
                fn from(post: $kind) -> Self {
                    Self::$variant(post)
                }
            }
        )+
    };
}

kinds! {
    TimberPost => Timber;
    PipePost => Pipe;
    GivenPost => Given;
    SquareTubePost => SquareTube;
    RoundTimber => RoundTimber;
    AluminiumPost => Aluminium;
    SleevedPost => Sleeved;
}

impl From<Insert> for Post {
    fn from(insert: Insert) -> Self {
        match insert {
            Insert::Timber(post) => Self::Timber(post),
            Insert::Pipe(post) => Self::Pipe(post),
            Insert::Given(post) => Self::Given(post),
            Insert::SquareTube(post) => Self::SquareTube(post),
            Insert::RoundTimber(post) => Self::RoundTimber(post),
            Insert::Aluminium(post) => Self::Aluminium(post),
        }
    }
}
