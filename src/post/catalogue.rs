//! Posts as they are sold: dressed timber and fence pipe.
//!
//! Dressed sizes are those of the NDS Supplement (quoted). Pipe to ASTM F1083
//! Schedule 40 (F1043 group IA) at 30 ksi and to F1043 group IC at 50 ksi:
//! diameters, walls and yields from memory; a "4 in" fence post is 4.000 in
//! across, not a 4 in pipe of 4.500 in. Measure what you have: sellers' names
//! cover several walls.

use super::{PipePost, SteelStrength};
use crate::error::Error;
use crate::section::{Square, Tube};
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
