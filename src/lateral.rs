//! Limit-state methods: the sideways load at which the ground, or the post in
//! it, gives way.
//!
//! | ground | method | type |
//! |---|---|---|
//! | one clay, undrained | Broms 1964a | [`BromsClay`] |
//! | one sand, drained | Broms 1964b | [`BromsSand`] |
//! | either, strengths reduced by a quarter, factored loads | UFC 3-220-20 | [`ReducedClay`], [`ReducedSand`] |
//! | layered, cohesion and friction | Brinch Hansen 1961 | [`Hansen`] |
//! | a pressure linear, constant or graded over depth | rigid-plastic statics | [`RigidPlastic`] |
//! | how long a post is for its stiffness | FHWA-HI-97-013 | [`LengthClass`] |
//!
//! Every method answers the same three questions ([`LateralMethod`]): the
//! ultimate load of a depth, the depth an ultimate load needs, and where the
//! moment is greatest at a load. A safety factor is the caller's: methods
//! differ by factors of two either way, so a factor belongs to its method and
//! never to another.
//!
//! The load is a force at a height e above grade, M = H e, shear and moment in
//! one sense. Depths are from grade. A method is no judge of movement: that is
//! [`crate::response`].

mod bracket;
mod broms_clay;
mod broms_sand;
mod hansen;
mod length_class;
mod reduced;
mod rigid_plastic;
mod rotation;

pub use broms_clay::BromsClay;
pub use broms_sand::{BromsSand, passive_coefficient};
pub use hansen::{Drainage, Hansen, HansenConstants};
pub use length_class::LengthClass;
pub use reduced::{ReducedClay, ReducedSand, UFC_DEAD, UFC_LIVE};
pub use rigid_plastic::{PlasticLimit, RigidPlastic};

use crate::error::{Error, size_within, within};
use crate::source::Citation;
use crate::step::Worksheet;
use crate::units::{Force, Length, Torque, ft, lb, m, newton};

/// What holds the top of the post at grade.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[non_exhaustive]
pub enum Head {
    /// Nothing: it is free to turn.
    #[default]
    Free,
    /// Something that keeps it from turning, such as a beam or slab it is cast
    /// into. Paving does not. It takes the moment of a force above grade, H e,
    /// besides that of the head: both are its own to check.
    Restrained,
}

/// What gives way at the ultimate load.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Mode {
    /// The ground, over the whole depth.
    Ground,
    /// The post yields below grade.
    PostBelow,
    /// The post yields above its restrained head, at grade.
    PostAbove,
    /// The post yields at its restrained head while the ground gives way.
    Head,
    /// The post yields at its restrained head and below grade.
    HeadAndPost,
}

impl Mode {
    /// Its words.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Ground => "the ground gives way",
            Self::PostBelow => "the post yields below grade",
            Self::PostAbove => "the post yields above its held head",
            Self::Head => "the post yields at its head, the ground gives way",
            Self::HeadAndPost => "the post yields at its head and below grade",
        }
    }
}

/// The ultimate load of a depth.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Ultimate {
    /// Hu, the ultimate force.
    pub shear: Force,
    /// Hu e, its moment about grade, e its height above it.
    pub moment: Torque,
    /// What gives way.
    pub mode: Mode,
    /// Where the shear in the post is zero; grade for a restrained head.
    pub zero_shear: Length,
    /// The greatest moment in the post.
    pub greatest_moment: Torque,
    /// Where the pressure reverses, for a method that has such a depth.
    pub rotation: Option<Length>,
    /// Where it comes from.
    pub source: &'static Citation,
}

/// The greatest moment at a load, and where.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct GreatestMoment {
    /// Where the shear is zero.
    pub depth: Length,
    /// The moment there.
    pub moment: Torque,
}

/// The depth an ultimate load needs.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum NeededDepth {
    /// This depth.
    Depth(Length),
    /// The post yields first: no depth carries it.
    PostYields,
    /// More than this, the depth the ground is described to or the method goes
    /// to.
    MoreThan(Length),
}

impl NeededDepth {
    /// The depth, where there is one.
    pub const fn depth(self) -> Option<Length> {
        match self {
            Self::Depth(depth) => Some(depth),
            Self::PostYields | Self::MoreThan(_) => None,
        }
    }
}

/// A way to find the ultimate sideways load of a post.
pub trait LateralMethod: core::fmt::Debug {
    /// Its name.
    fn name(&self) -> &'static str;

    /// Where it comes from.
    fn source(&self) -> &'static Citation;

    /// The ultimate force, at a height above grade, of a post set to a depth.
    ///
    /// # Errors
    /// Depth or height out of range; a depth the method does not cover.
    fn ultimate(&self, depth: Length, height: Length) -> Result<Ultimate, Error>;

    /// The least depth at which the ultimate force, at a height, reaches a
    /// force.
    ///
    /// # Errors
    /// Force or height out of range.
    fn needed_depth(&self, force: Force, height: Length) -> Result<NeededDepth, Error>;

    /// Where the moment is greatest while a force at a height is carried; whether
    /// it is carried at all, [`LateralMethod::ultimate`] tells.
    ///
    /// # Errors
    /// Force or height out of range; a restrained head, whose greatest moment is
    /// at grade.
    fn greatest_moment(&self, force: Force, height: Length) -> Result<GreatestMoment, Error>;

    /// Writes the working of an ultimate load.
    ///
    /// # Errors
    /// As [`LateralMethod::ultimate`].
    fn write(&self, depth: Length, height: Length, sheet: &mut Worksheet) -> Result<(), Error>;
}

/// The deepest any method goes.
fn deepest() -> Length {
    m(30.0)
}

pub(crate) fn checked_depth(depth: Length) -> Result<f64, Error> {
    size_within("depth", depth, m(0.01), deepest()).map(|depth| depth.value)
}

fn checked_height(height: Length) -> Result<f64, Error> {
    within("height of the force", height, ft(0.0), ft(300.0)).map(|height| height.value)
}

fn checked_force(force: Force) -> Result<f64, Error> {
    within("force", force, newton(0.1), lb(10_000_000.0)).map(|force| force.value)
}

pub(crate) fn checked_width(width: Length) -> Result<Length, Error> {
    size_within("width of the post or footing", width, m(0.02), m(3.0))
}

fn checked_yield(moment: Torque) -> Result<f64, Error> {
    use crate::units::n_m;
    within("yield moment", moment, n_m(1.0), n_m(1e9)).map(|moment| moment.value)
}
