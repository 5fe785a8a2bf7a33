//! In which steps, and how far, changes are tried.

use super::RemedyKind;
use crate::error::{Error, size_within, within};
use crate::plan::digging_step;
use crate::source::{self, Citation};
use crate::units::{Length, Measurable, Ratio, UnitSystem, ft, inch, m, mm, number};

/// Stock augers, inches (common practice, no source).
const AUGERS_IN: [f64; 12] = [
    6.0, 8.0, 9.0, 10.0, 12.0, 14.0, 16.0, 18.0, 20.0, 24.0, 30.0, 36.0,
];
/// Stock augers, millimetres (common practice, no source).
const AUGERS_MM: [f64; 12] = [
    150.0, 200.0, 225.0, 250.0, 300.0, 350.0, 400.0, 450.0, 500.0, 600.0, 750.0, 900.0,
];

/// In which steps, and how far, changes are tried.
///
/// Defaults: depth by 1 in to 12 ft; holes of stock augers, 6 to 36 in (common practice,
/// no source); spacing by 1 in to 2 ft; solidity by 0.05 to 0.3; height by 1 in to half
/// the present one. In metric steps: 25 mm, augers of 150 to 900 mm, 25 mm to 0.6 m.
///
/// ```
/// use groundline::{remedies::*, units::*};
/// let options = RemedyOptions::of(UnitSystem::Si)
///     .with_depth_step(mm(50.0))?
///     .only(&[RemedyKind::Depth, RemedyKind::HoleWidth]);
/// assert!(!options.tries(RemedyKind::Spacing));
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RemedyOptions {
    system: UnitSystem,
    depth_step: Length,
    fence_step: Length,
    deepest: Length,
    tried: [bool; RemedyKind::ALL.len()],
}

impl Default for RemedyOptions {
    fn default() -> Self {
        Self::of(UnitSystem::Us)
    }
}

impl RemedyOptions {
    /// Returns the usual steps of a unit system.
    pub fn of(system: UnitSystem) -> Self {
        let step = digging_step(system);
        Self {
            system,
            depth_step: step,
            fence_step: step,
            deepest: ft(12.0),
            tried: [true; RemedyKind::ALL.len()],
        }
    }

    /// With another step of depth.
    ///
    /// # Errors
    /// Outside 0.1 in to 10 ft.
    pub fn with_depth_step(self, step: Length) -> Result<Self, Error> {
        Ok(Self {
            depth_step: size_within("step of depth", step, inch(0.1), ft(10.0))?,
            ..self
        })
    }

    /// With another step of the spacing of posts and of the height of the fence.
    ///
    /// # Errors
    /// Outside 0.5 in to 10 ft.
    pub fn with_fence_step(self, step: Length) -> Result<Self, Error> {
        let step = size_within("step of the fence", step, inch(0.5), ft(10.0))?;
        Ok(Self {
            fence_step: step,
            ..self
        })
    }

    /// With another greatest depth: a ledge, water, utilities.
    ///
    /// # Errors
    /// Outside 1 to 40 ft.
    pub fn with_greatest_depth(self, depth: Length) -> Result<Self, Error> {
        Ok(Self {
            deepest: within("greatest depth", depth, ft(1.0), ft(40.0))?,
            ..self
        })
    }

    /// With some kinds of change only.
    #[must_use]
    pub fn only(self, kinds: &[RemedyKind]) -> Self {
        Self {
            tried: RemedyKind::ALL.map(|kind| kinds.contains(&kind)),
            ..self
        }
    }

    /// Returns whether a kind of change is tried.
    pub fn tries(&self, kind: RemedyKind) -> bool {
        let mut all = RemedyKind::ALL.iter().zip(self.tried);
        all.any(|(known, tried)| *known == kind && tried)
    }

    /// Returns the stock augers: diameters of the holes tried, ascending.
    pub fn hole_sizes(&self) -> impl Iterator<Item = Length> + use<> {
        let system = self.system;
        AUGERS_IN
            .into_iter()
            .zip(AUGERS_MM)
            .map(move |(us, si)| match system {
                UnitSystem::Us => inch(us),
                UnitSystem::Si => mm(si),
            })
    }

    /// Returns the source of the sizes of holes.
    pub const fn hole_sizes_source() -> &'static Citation {
        &source::AUGER_SIZES
    }

    /// Returns the step of depth.
    pub const fn depth_step(&self) -> Length {
        self.depth_step
    }

    /// Returns the step of spacing and of height.
    pub const fn fence_step(&self) -> Length {
        self.fence_step
    }

    /// Returns the greatest depth tried.
    pub const fn greatest_depth(&self) -> Length {
        self.deepest
    }

    pub(super) fn least_spacing(&self) -> Length {
        match self.system {
            UnitSystem::Us => ft(2.0),
            UnitSystem::Si => m(0.6),
        }
    }

    pub(super) fn least_height(present: Length) -> Length {
        Length::from_si(present.si() * 0.5)
    }

    pub(super) fn solidities() -> (Ratio, Ratio) {
        (number(0.30), number(0.05))
    }
}
