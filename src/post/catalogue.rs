//! Posts as they are sold: dressed timber, fence pipe, square tube.
//!
//! Dressed sizes are those of the NDS Supplement (quoted). Pipe to ASTM F1083
//! Schedule 40 (F1043 group IA) at 30 ksi and to F1043 group IC at 50 ksi:
//! diameters, walls and yields from memory; a "4 in" fence post is 4.000 in
//! across, not a 4 in pipe of 4.500 in. Square steel tube to ASTM A500 Grade B at
//! 46 ksi, with design walls of 0.93 of the nominal ones, and aluminium tube:
//! from memory. Measure what you have: sellers' names cover several walls.

use super::{Aluminium, AluminiumPost, PipePost, SquareTubePost, SteelStrength};
use crate::error::Error;
use crate::section::{Square, SquareTube, Tube};
use crate::source::{self, Citation};
use crate::units::{Length, LineLoad, inch, ksi, lb_per_cu_in};

/// The weight of steel, 0.2833 lb/in³ (AISC, from memory).
const STEEL_PCI: f64 = 0.2833;

/// Dressed square timber.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DressedTimber {
    name: &'static str,
    side_in: f64,
}

/// Sizes sold as posts.
pub static TIMBERS: [DressedTimber; 3] = [
    DressedTimber::of("4x4", 3.5),
    DressedTimber::of("6x6", 5.5),
    DressedTimber::of("8x8", 7.5),
];

impl DressedTimber {
    const fn of(name: &'static str, side_in: f64) -> Self {
        Self { name, side_in }
    }

    /// What it is called.
    pub const fn name(&self) -> &'static str {
        self.name
    }

    /// What it measures.
    pub fn side(&self) -> Length {
        inch(self.side_in)
    }

    /// Its section.
    ///
    /// # Errors
    /// None for the sizes here.
    pub fn section(&self) -> Result<Square, Error> {
        Square::new(self.side())
    }

    /// Where the size comes from.
    pub const fn source(&self) -> &'static Citation {
        &source::DRESSED_SIZES
    }
}

/// What a pipe is made to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum PipeFamily {
    /// ASTM F1083 Schedule 40, F1043 group IA, regular grade, 30 ksi.
    Schedule40,
    /// ASTM F1043 group IC, 50 ksi.
    HighStrength,
}

/// A fence pipe.
///
/// ```
/// use groundline::{post::catalogue::*, units::*};
/// let line_post = PIPES.iter().find(|pipe| pipe.outside() == inch(2.375)).unwrap();
/// let strength = line_post.post()?.strength();
/// assert!((strength.moment.to(kip_in) - 13.67).abs() < 0.005);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FencePipe {
    family: PipeFamily,
    outside_in: f64,
    wall_in: f64,
}

/// Pipes sold for fences.
pub static PIPES: [FencePipe; 11] = [
    FencePipe::of(PipeFamily::Schedule40, 1.900, 0.145),
    FencePipe::of(PipeFamily::Schedule40, 2.375, 0.154),
    FencePipe::of(PipeFamily::Schedule40, 2.875, 0.203),
    FencePipe::of(PipeFamily::Schedule40, 3.500, 0.216),
    FencePipe::of(PipeFamily::Schedule40, 4.000, 0.226),
    FencePipe::of(PipeFamily::Schedule40, 4.500, 0.237),
    FencePipe::of(PipeFamily::Schedule40, 6.625, 0.280),
    FencePipe::of(PipeFamily::HighStrength, 1.900, 0.120),
    FencePipe::of(PipeFamily::HighStrength, 2.375, 0.130),
    FencePipe::of(PipeFamily::HighStrength, 2.875, 0.160),
    FencePipe::of(PipeFamily::HighStrength, 4.000, 0.160),
];

impl FencePipe {
    const fn of(family: PipeFamily, outside_in: f64, wall_in: f64) -> Self {
        Self {
            family,
            outside_in,
            wall_in,
        }
    }

    /// What it is made to.
    pub const fn family(&self) -> PipeFamily {
        self.family
    }

    /// Its outside diameter.
    pub fn outside(&self) -> Length {
        inch(self.outside_in)
    }

    /// Its wall.
    pub fn wall(&self) -> Length {
        inch(self.wall_in)
    }

    /// Its section.
    ///
    /// # Errors
    /// None for the pipes here.
    pub fn section(&self) -> Result<Tube, Error> {
        Tube::new(self.outside(), self.wall())
    }

    /// Its steel.
    ///
    /// # Errors
    /// None for the pipes here.
    pub fn steel(&self) -> Result<SteelStrength, Error> {
        SteelStrength::new(match self.family {
            PipeFamily::Schedule40 => ksi(30.0),
            PipeFamily::HighStrength => ksi(50.0),
        })
    }

    /// The post.
    ///
    /// # Errors
    /// None for the pipes here.
    pub fn post(&self) -> Result<PipePost, Error> {
        PipePost::new(self.section()?, self.steel()?)
    }

    /// Its weight per length.
    ///
    /// # Errors
    /// None for the pipes here.
    pub fn weight(&self) -> Result<LineLoad, Error> {
        Ok(self.section()?.area() * lb_per_cu_in(STEEL_PCI))
    }

    /// Where the size and the steel come from.
    pub const fn source(&self) -> &'static Citation {
        &source::FENCE_PIPE
    }
}

/// A square steel tube to ASTM A500 Grade B.
///
/// ```
/// use groundline::{post::catalogue::*, units::*};
/// let tube = SQUARE_TUBES.iter().find(|tube| tube.name() == "4x4x1/4").unwrap();
/// let section = tube.section()?;
/// assert!((section.section_modulus().to(cu_in) - 3.90).abs() < 0.005);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FenceSquareTube {
    name: &'static str,
    side_in: f64,
    wall_in: f64,
}

/// Square steel tubes that stand as fence and gate posts.
pub static SQUARE_TUBES: [FenceSquareTube; 9] = [
    FenceSquareTube::of("2x2x1/8", 2.0, 0.116),
    FenceSquareTube::of("2x2x3/16", 2.0, 0.174),
    FenceSquareTube::of("3x3x1/8", 3.0, 0.116),
    FenceSquareTube::of("3x3x3/16", 3.0, 0.174),
    FenceSquareTube::of("4x4x1/8", 4.0, 0.116),
    FenceSquareTube::of("4x4x3/16", 4.0, 0.174),
    FenceSquareTube::of("4x4x1/4", 4.0, 0.233),
    FenceSquareTube::of("6x6x3/16", 6.0, 0.174),
    FenceSquareTube::of("6x6x1/4", 6.0, 0.233),
];

impl FenceSquareTube {
    const fn of(name: &'static str, side_in: f64, wall_in: f64) -> Self {
        Self {
            name,
            side_in,
            wall_in,
        }
    }

    /// Side and nominal wall, in inches.
    pub const fn name(&self) -> &'static str {
        self.name
    }

    /// Its section, of the design wall.
    ///
    /// # Errors
    /// None for the tubes here.
    pub fn section(&self) -> Result<SquareTube, Error> {
        SquareTube::new(inch(self.side_in), inch(self.wall_in))
    }

    /// The post, 46 ksi.
    ///
    /// # Errors
    /// None for the tubes here.
    pub fn post(&self) -> Result<SquareTubePost, Error> {
        SquareTubePost::new(self.section()?, SteelStrength::new(ksi(46.0))?)
    }

    /// Where the size and the steel come from.
    pub const fn source(&self) -> &'static Citation {
        &source::SQUARE_TUBES
    }
}

/// A square aluminium tube with sharp corners. Which alloy a seller uses, ask.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FenceAluminium {
    name: &'static str,
    side_in: f64,
    wall_in: f64,
}

/// Aluminium posts with a wall that can be checked here; the lighter ones
/// (1/16 in) are refused by [`AluminiumPost`].
pub static ALUMINIUM: [FenceAluminium; 2] = [
    FenceAluminium {
        name: "2x2x1/8",
        side_in: 2.0,
        wall_in: 0.125,
    },
    FenceAluminium {
        name: "2-1/2x2-1/2x1/8",
        side_in: 2.5,
        wall_in: 0.125,
    },
];

impl FenceAluminium {
    /// Side and wall, in inches.
    pub const fn name(&self) -> &'static str {
        self.name
    }

    /// Its section.
    ///
    /// # Errors
    /// None for the tubes here.
    pub fn section(&self) -> Result<SquareTube, Error> {
        SquareTube::new(inch(self.side_in), inch(self.wall_in))?.with_corner_radius(inch(0.0))
    }

    /// The post, of a metal.
    ///
    /// # Errors
    /// A metal so strong that the wall is beyond the limit.
    pub fn post(&self, metal: Aluminium) -> Result<AluminiumPost, Error> {
        AluminiumPost::new(self.section()?, metal)
    }

    /// Where the size comes from.
    pub const fn source(&self) -> &'static Citation {
        &source::ALUMINIUM_TUBES
    }
}
