//! EN 1991-1-4:2005+A1:2010, with the recommended values; the National Annex
//! governs and most of them are inputs.

mod velocity;
mod walls;
mod working;

pub use velocity::{EnSite, FundamentalSpeed, PeakPressure, Terrain, probability_factor};
pub use walls::{EnWorking, SIGNBOARD, cp_net};
