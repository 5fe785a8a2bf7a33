//! The fence: panels, straight runs with gates, corners, and the posts they
//! make.
//!
//! A [`Fence`] is a path of straight [`FenceRun`]s. Its posts follow from it:
//! a post at each end, at each corner, at both sides of each gate, and line
//! posts between them in equal bays no longer than the spacing given.
//! Positions are measured along a run from its start, to post centres.

mod layout;
mod run;

pub use layout::{Arm, Fence, FencePost, HungLeaf, PostKind};
pub use run::{FenceRun, Gate, Hinges, Panel};
