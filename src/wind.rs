//! Wind on fences: from the site to a pressure along a run.
//!
//! Every code answers one question, asked of one [`WallShape`]: how hard does
//! the wind press where ([`WindCode`]). The answer has one shape,
//! [`WallWind`], and the limit state of the code in its type; nothing behind it
//! knows which code it was.
//!
//! | code | site | velocity pressure | figures | limit state |
//! |---|---|---|---|---|
//! | ASCE 7-10, -16, -22 | [`AsceSite`], [`Topography`] | [`VelocityPressure`] | solid walls [`CaseC`], [`cf_cases_a_b`]; open fences [`open_cf`] | [`Strength`](crate::limit_state::Strength) |
//! | EN 1991-1-4 | [`EnSite`], [`Terrain`] | [`PeakPressure`] | walls [`cp_net`], signboards [`SIGNBOARD`], lattices as given | [`Characteristic`](crate::limit_state::Characteristic) |
//! | AS/NZS 1170.2 | [`AsNzsSite`] | [`AsNzsSite::design_pressure`] | [`Hoarding`] | [`Ultimate`](crate::limit_state::Ultimate) |
//! | none: a number at hand | [`DirectPressure`] | – | – | as given |
//!
//! What fills the panel, and how solid that makes it: [`Infill`].
//!
//! A code is one folder here and one implementation of [`WindCode`].

mod asce7;
mod asnzs1170;
mod code;
mod direct;
mod en1991;
mod infill;
mod patterns;
mod wall;
mod wall_wind;

pub use asce7::*;
pub use asnzs1170::*;
pub use code::WindCode;
pub use direct::DirectPressure;
pub use en1991::*;
pub use infill::{Infill, Member};
pub use patterns::{Edge, HalfBays, Strip, WallPressures, WindCase};
pub use wall::{WallEnd, WallEnds, WallShape};
pub use wall_wind::WallWind;
