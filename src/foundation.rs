//! The foundation of a post: its hole, what fills it, what width of it bears
//! on the ground, and what it takes in concrete.

use crate::caution::{Caution, Cautions};
use crate::error::{Error, size_within, within};
use crate::section::{PostSection, Square, disc};
use crate::source::{self, Citation, Mark};
use crate::step::{Step, Worksheet};
use crate::units::{Area, Length, Measurable, Measure, Volume, ft, inch};

/// The plan of a hole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hole {
    shape: HoleShape,
    size: Length,
}

/// The shape of a hole in plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum HoleShape {
    /// Drilled.
    Round,
    /// Dug square.
    Square,
}

impl Hole {
    /// A drilled hole of a diameter.
    ///
    /// # Errors
    /// Outside 3 in to 10 ft.
    #[inline]
    pub fn round(diameter: Length) -> Result<Self, Error> {
        Ok(Self {
            shape: HoleShape::Round,
            size: size_within("hole diameter", diameter, inch(3.0), ft(10.0))?,
        })
    }

    /// A square hole of a side.
    ///
    /// # Errors
    /// Outside 3 in to 10 ft.
    #[inline]
    pub fn square(side: Length) -> Result<Self, Error> {
        Ok(Self {
            shape: HoleShape::Square,
            size: size_within("hole side", side, inch(3.0), ft(10.0))?,
        })
    }

    /// One of the same shape and another size.
    ///
    /// # Errors
    /// Outside 3 in to 10 ft.
    pub fn resized(self, size: Length) -> Result<Self, Error> {
        match self.shape {
            HoleShape::Round => Self::round(size),
            HoleShape::Square => Self::square(size),
        }
    }

    /// Its shape.
    #[inline]
    pub const fn shape(&self) -> HoleShape {
        self.shape
    }
    /// Its diameter or side.
    #[inline]
    pub const fn size(&self) -> Length {
        self.size
    }
    /// Its area.
    #[inline]
    pub fn area(&self) -> Area {
        match self.shape {
            HoleShape::Round => disc(self.size),
            HoleShape::Square => self.size * self.size,
        }
    }
    /// Its volume to a depth.
    #[inline]
    pub fn volume(&self, depth: Length) -> Volume {
        self.area() * depth
    }
    #[inline]
    fn diagonal(&self) -> Length {
        match self.shape {
            HoleShape::Round => self.size,
            HoleShape::Square => self.size * core::f64::consts::SQRT_2,
        }
    }
}

/// The width of a square footing or post that counts as b.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[non_exhaustive]
pub enum SquareWidth {
    /// The diagonal, as the code defines b. The default.
    #[default]
    Diagonal,
    /// The face: less, so safer; what a filed calculation used for a
    /// rectangle, on which the code is silent.
    Face,
}

/// What holds the post at grade.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[non_exhaustive]
pub enum Restraint {
    /// Nothing: nonconstrained (IBC 1807.3.2.1). The default.
    #[default]
    None,
    /// Rigid floor or pavement against the post at grade: constrained
    /// (1807.3.2.2). A loosely defined term; ask what the inspector accepts.
    RigidPaving,
}

/// b, the width of post or footing that bears on the ground sideways.
///
/// A type of its own because every other length here would fit its place.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct BearingWidth(Length);

impl BearingWidth {
    /// A width given outright, for a footing of another shape.
    ///
    /// # Errors
    /// Outside 1 in to 20 ft.
    #[inline]
    pub fn new(width: Length) -> Result<Self, Error> {
        within("bearing width", width, inch(1.0), ft(20.0)).map(Self)
    }

    /// The width.
    #[inline]
    pub const fn width(self) -> Length {
        self.0
    }
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Fill {
    Concrete(Hole),
    Backfilled(Hole),
    Driven,
    Bare,
}

/// A post in its hole.
///
/// ```
/// use groundline::{foundation::{Foundation, Hole}, section::{PostSection, Square}};
/// use groundline::units::{ft, inch, cu_ft, Measurable};
/// let post = PostSection::Square(Square::new(inch(5.5))?);
/// let foundation = Foundation::concrete(Hole::round(inch(18.0))?, post)?;
/// assert_eq!(foundation.bearing_width().width(), inch(18.0));
/// assert!((foundation.concrete_volume(ft(4.0)).to(cu_ft) - 6.228).abs() < 0.001);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Foundation {
    fill: Fill,
    section: PostSection,
    /// What stands in the hole: the sleeve round a post, else the post.
    outline: PostSection,
    square_width: SquareWidth,
    restraint: Restraint,
}

impl Foundation {
    /// A post in a hole filled with poured concrete against undisturbed
    /// ground: the hole bears, b is its diameter (the diagonal if square).
    ///
    /// # Errors
    /// The post does not fit the hole with at least 1 in around it; a square
    /// post stands square to a square hole.
    #[inline]
    pub fn concrete(hole: Hole, section: PostSection) -> Result<Self, Error> {
        let (post, room) = match hole.shape {
            HoleShape::Round => (section.bearing_width(), hole.size),
            HoleShape::Square => (section.face_width(), hole.size),
        };
        size_within("hole size", room, post + inch(2.0), ft(10.0))?;
        Ok(Self {
            fill: Fill::Concrete(hole),
            section,
            outline: section,
            square_width: SquareWidth::default(),
            restraint: Restraint::default(),
        })
    }

    /// Returns the same post in a hole filled with concrete, whatever filled the hole
    /// before; the restraint at grade and the reading of b stay.
    ///
    /// # Errors
    /// As [`Foundation::concrete`].
    pub fn filled_with_concrete(self, hole: Hole) -> Result<Self, Error> {
        Ok(Self {
            fill: Self::concrete(hole, self.outline)?.fill,
            ..self
        })
    }

    /// A post whose hole is backfilled as IBC 1807.3.3 says, without a
    /// structural footing: the post alone bears, b is its diameter or
    /// diagonal.
    #[inline]
    pub fn bare(section: PostSection) -> Self {
        Self {
            fill: Fill::Bare,
            section,
            outline: section,
            square_width: SquareWidth::default(),
            restraint: Restraint::default(),
        }
    }

    /// The same post in concrete in another hole.
    ///
    /// # Errors
    /// As [`Foundation::concrete`]; a post that is not set in concrete.
    pub fn in_hole(self, hole: Hole) -> Result<Self, Error> {
        match self.fill {
            Fill::Concrete(_) => Ok(Self {
                fill: Self::concrete(hole, self.outline)?.fill,
                ..self
            }),
            Fill::Backfilled(_) | Fill::Driven | Fill::Bare => Err(Error::NotApplicable {
                field: "hole",
                reason: "the post stands without a footing; its hole makes no difference",
            }),
        }
    }

    /// A post in a hole that something else than concrete fills: as
    /// [`Foundation::bare`], with the hole known.
    ///
    /// # Errors
    /// The post does not fit into the hole.
    pub fn backfilled(hole: Hole, section: PostSection) -> Result<Self, Error> {
        let across = match hole.shape {
            HoleShape::Round => section.bearing_width(),
            HoleShape::Square => section.face_width(),
        };
        size_within("hole size", hole.size, across, ft(10.0))?;
        Ok(Self {
            fill: Fill::Backfilled(hole),
            ..Self::bare(section)
        })
    }

    /// A driven post: it alone bears, on undisturbed ground.
    pub fn driven(section: PostSection) -> Self {
        Self {
            fill: Fill::Driven,
            ..Self::bare(section)
        }
    }

    /// The same hole and fill round a post of another section, without the
    /// sleeve of the one before ([`Foundation::sleeved`]).
    ///
    /// # Errors
    /// As [`Foundation::concrete`] or [`Foundation::backfilled`].
    pub fn with_section(self, section: PostSection) -> Result<Self, Error> {
        match self.fill {
            Fill::Concrete(hole) => {
                Self::concrete(hole, section)?;
            }
            Fill::Backfilled(hole) => {
                Self::backfilled(hole, section)?;
            }
            Fill::Driven | Fill::Bare => {}
        }
        Ok(Self {
            section,
            outline: section,
            ..self
        })
    }

    /// With a sleeve round the post, which takes its room in the hole; b stays.
    ///
    /// # Errors
    /// The sleeve does not fit, as the post of [`Foundation::concrete`] or
    /// [`Foundation::backfilled`] must.
    pub fn sleeved(self, sleeve: Square) -> Result<Self, Error> {
        let outline = PostSection::Square(sleeve);
        match self.fill {
            Fill::Concrete(hole) => {
                Self::concrete(hole, outline)?;
            }
            Fill::Backfilled(hole) => {
                Self::backfilled(hole, outline)?;
            }
            Fill::Driven | Fill::Bare => {}
        }
        Ok(Self { outline, ..self })
    }

    /// What stands in the hole: the sleeve round a post, else the post.
    pub const fn outline(&self) -> &PostSection {
        &self.outline
    }

    /// With the other reading of b for a square.
    #[must_use]
    #[inline]
    pub const fn square_width(self, square_width: SquareWidth) -> Self {
        Self {
            square_width,
            ..self
        }
    }

    /// With restraint at grade.
    #[must_use]
    #[inline]
    pub const fn restrained_by(self, restraint: Restraint) -> Self {
        Self { restraint, ..self }
    }

    /// b, the width that bears on the ground sideways.
    #[inline]
    pub fn bearing_width(&self) -> BearingWidth {
        let face = self.square_width == SquareWidth::Face;
        BearingWidth(match &self.fill {
            Fill::Concrete(hole) if face => hole.size,
            Fill::Concrete(hole) => hole.diagonal(),
            _ if face => self.section.face_width(),
            _ => self.section.bearing_width(),
        })
    }

    /// The restraint at grade.
    #[inline]
    pub const fn restraint(&self) -> Restraint {
        self.restraint
    }

    /// The hole, if it is filled with concrete.
    #[inline]
    pub const fn hole(&self) -> Option<&Hole> {
        match &self.fill {
            Fill::Concrete(hole) => Some(hole),
            _ => None,
        }
    }

    /// The hole, whatever fills it, if it is known.
    #[inline]
    pub const fn dug_hole(&self) -> Option<&Hole> {
        match &self.fill {
            Fill::Concrete(hole) | Fill::Backfilled(hole) => Some(hole),
            Fill::Driven | Fill::Bare => None,
        }
    }

    /// The section of the post.
    #[inline]
    pub const fn section(&self) -> &PostSection {
        &self.section
    }

    /// The area at the bottom that bears downwards: the hole where concrete
    /// fills it, else the post (a tube as if closed).
    #[inline]
    pub fn base_area(&self) -> Area {
        match &self.fill {
            Fill::Concrete(hole) => hole.area(),
            _ => self.section.gross_area(),
        }
    }

    /// Net volume of concrete to a depth, the post taken out, nothing added
    /// for waste or an uneven hole. Zero for a post not in concrete; a depth that is
    /// negative or no number counts as zero, one beyond 300 ft as that.
    pub fn concrete_volume(&self, depth: Length) -> Volume {
        let depth = Length::from_si(depth.value.max(0.0).min(ft(300.0).value));
        match &self.fill {
            Fill::Concrete(hole) => (hole.area() - self.outline.gross_area()) * depth,
            _ => Volume::from_si(0.0),
        }
    }

    /// Where b comes from.
    #[inline]
    const fn citation(&self) -> &'static Citation {
        match self.fill {
            Fill::Concrete(_) | Fill::Driven => &source::IBC_1807_3_2_1,
            Fill::Backfilled(_) | Fill::Bare => &source::IBC_1807_3_3,
        }
    }

    /// The cautions this foundation brings.
    pub fn cautions(&self) -> Cautions {
        let concrete = matches!(self.fill, Fill::Concrete(_));
        Cautions::default()
            .with_if(concrete, Caution::Curing)
            .with_if(
                matches!(self.fill, Fill::Backfilled(_) | Fill::Bare),
                Caution::Backfill,
            )
            .with_if(
                self.restraint == Restraint::RigidPaving,
                Caution::RigidPaving,
            )
            // b of a post without a footing.
            .with_if(
                self.citation().mark == Mark::FromMemory,
                Caution::FromMemory,
            )
    }

    /// Writes b.
    pub fn write(&self, sheet: &mut Worksheet) {
        sheet.section("Foundation");
        sheet.remark(match (&self.fill, self.restraint) {
            (Fill::Concrete(_), Restraint::None) => {
                "Poured concrete against undisturbed ground; nothing rigid at grade."
            }
            (Fill::Concrete(_), Restraint::RigidPaving) => {
                "Poured concrete against undisturbed ground; rigid paving at grade."
            }
            (Fill::Driven, Restraint::None) => "Driven; nothing rigid at grade.",
            (Fill::Driven, Restraint::RigidPaving) => "Driven; rigid paving at grade.",
            (_, Restraint::None) => "Post without structural footing; nothing rigid at grade.",
            (_, Restraint::RigidPaving) => {
                "Post without structural footing; rigid paving at grade."
            }
        });
        let b = self.bearing_width().width();
        let (size, square) = match &self.fill {
            Fill::Concrete(hole) => (hole.size, hole.shape == HoleShape::Square),
            _ => (self.section.face_width(), self.section.is_square()),
        };
        let step = if square && self.square_width == SquareWidth::Diagonal {
            Step::computed("b", "bearing width: diagonal of the square", "a*sqrt(2)", b)
                .with_as("a", size, Measure::SectionLength)
                .shown_as(Measure::SectionLength)
        } else {
            Step::given("b", "bearing width", b).shown_as(Measure::SectionLength)
        };
        sheet.push(step.cite(self.citation()));
    }
}
