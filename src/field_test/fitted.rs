//! What a fitted curve gives: values that are found or only bounded, and how well
//! they explain the readings.

#[cfg(doc)]
use super::side_pull::SidePull;
use crate::caution::{Caution, Cautions};
use crate::source::{self, Citation};
use crate::units::{Force, Length};

/// Why a value is only bounded.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum WhyBound {
    /// The readings used are as straight as they scatter: the ground never left
    /// its elastic range, or not by more than chance (F test at 5 % on one value
    /// more). Also where no ground that carries the peak could have yielded under
    /// the loads used. The strength is at least what carried the peak.
    StayedElastic,
    /// Fewer than three readings at growing loads: the stiffness is that of
    /// elastic ground, the least possible, and the strength at least what
    /// carried the peak.
    TooFew,
    /// The readings bend as much as in the weakest ground that carries the
    /// peak, or more: the strength is at least that.
    CarriedThePeak,
    /// The readings fit the stiffest ground of the range: bending of the post and the
    /// strength of the ground explain them. The stiffness is at least that of elastic
    /// ground.
    TooStiff,
}

impl WhyBound {
    /// Its words.
    pub const fn name(self) -> &'static str {
        match self {
            Self::StayedElastic => "the readings never left the elastic range",
            Self::TooFew => "fewer than three readings",
            Self::CarriedThePeak => "the weakest ground that carries the peak fits best",
            Self::TooStiff => "the stiffest ground fits best",
        }
    }
}

impl core::fmt::Display for WhyBound {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(self.name())
    }
}

/// A value that readings give, or that they only bound.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Identified<Q> {
    /// The value of the best fit.
    Found(Q),
    /// Not identifiable: at least this, and why no more can be said.
    AtLeast(Q, WhyBound),
}

impl<Q: Copy> Identified<Q> {
    /// The value, if it was found.
    pub const fn found(&self) -> Option<Q> {
        match self {
            Self::Found(value) => Some(*value),
            Self::AtLeast(..) => None,
        }
    }

    /// The value or its lower bound: what a cautious reader counts on.
    pub const fn at_least(&self) -> Q {
        match self {
            Self::Found(value) | Self::AtLeast(value, _) => *value,
        }
    }
}

/// Stiffness and strength of the ground, and how well they explain the
/// readings.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct FittedCurve<K, S> {
    /// The stiffness.
    pub stiffness: Identified<K>,
    /// The strength.
    pub strength: Identified<S>,
    /// The strength at which statics gives the peak: the floor of the search.
    pub carries_the_peak: S,
    /// Standard error of the stiffness as a share of it, a linear estimate; none unless
    /// both values were found. It is no confidence: ± t of it may cover far less than t
    /// promises, the more so without the error of the load cell
    /// ([`SidePull::with_load_error`]), where it holds the scatter of the movements
    /// alone.
    pub stiffness_error: Option<f64>,
    /// The same of the strength.
    pub strength_error: Option<f64>,
    /// Standard error of a load as a share of it, as it was given.
    pub load_error: Option<f64>,
    /// Load and read less figured movement, of each reading used.
    pub residuals: Vec<(Force, Length)>,
    /// The root of their mean square.
    pub residual: Length,
    /// Readings that were not used: beyond the share of the peak, without
    /// movement or load, or at a load reached before.
    pub left_out: usize,
    /// How many curves were figured to find it.
    pub iterations: u32,
}

impl<K, S> FittedCurve<K, S> {
    /// The cautions that go with it.
    pub fn cautions(&self) -> Cautions {
        Cautions::default().with(Caution::FieldTests)
    }

    /// Where the springs and the statics come from.
    pub const fn sources(&self) -> [&'static Citation; 2] {
        [&source::PLASTIC_SPRINGS, &source::RIGID_PLASTIC]
    }
}
