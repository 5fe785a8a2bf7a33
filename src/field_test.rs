//! What field tests prove, and what they do not.
//!
//! | question | type |
//! |---|---|
//! | peak, stiffness and knee of a pull | [`Readings`] |
//! | bond, friction, α, K tan δ of an axial pull | [`AxialPull`] |
//! | stiffness and strength of the ground from a side pull | [`SidePull`], [`BackFigured`] |
//! | both at once, from its whole curve | [`FittedCurve`], [`Identified`] |
//! | several tests: mean, spread, characteristic value | [`Sample`], [`Basis`], [`Characteristic`] |
//! | two ways of setting a post, fairly | [`Comparison`] |
//! | does this post carry what it must | [`ProofLoad`] |
//! | what n proof loads that were stood prove | [`proved_share`] |
//! | axial resistance of piles by EN 1997-1 | [`PileResistance`] |
//! | quantiles behind them | [`distribution`] |
//!
//! A test is of its own post in its own ground on its own day. Wet seasons,
//! frost, sustained load and decay are not in it.

mod axial;
mod bracket;
mod compare;
mod curve_errors;
pub mod distribution;
mod fitted;
mod piles;
mod proof;
mod readings;
mod sample;
mod side_pull;
mod side_pull_curve;

pub use axial::{AverageBond, AxialPull};
pub use compare::{Comparison, Settled, WelchFreedom};
pub use fitted::{FittedCurve, Identified, WhyBound};
pub use piles::{PileResistance, PileTests, correlation_factors, ground_test_factors};
pub use proof::{ProofLoad, ProofOutcome, ProofResult, proved_share, proved_share_source};
pub use readings::{Knee, Peak, PeakKind, Readings};
pub use sample::{Basis, Characteristic, Sample, Spread};
pub use side_pull::{BackFigured, Gauge, SidePull};
