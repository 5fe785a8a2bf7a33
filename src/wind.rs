//! Wind on solid free-standing walls: from the site to a pressure along a run.
//!
//! ASCE 7-10, 7-16 and 7-22, *Solid Freestanding Walls and Solid Signs*. A
//! board fence whose openings are under 30 % of its gross area is such a wall.
//!
//! | step | type | clause |
//! |---|---|---|
//! | where the fence stands | [`WindSite`] | chapter 26 |
//! | pressure of the free wind at the top of the wall | [`VelocityPressure`] | 7-10 29.3; 7-16, 7-22 26.10 |
//! | shape of the wall and force coefficients | [`WallShape`], [`CaseC`] | 7-10 Fig. 29.4-1; 7-16, 7-22 Fig. 29.3-1 |
//! | coefficients of open signs and frames, not yet used by a fence | [`open_sign_cf`] | 7-10 Fig. 29.5-2; 7-16, 7-22 Fig. 29.4-2 |
//! | pressure on any piece of it, by case | [`WallWind`] | 7-10 29.4.1; 7-16, 7-22 29.3.1 |

mod open_sign;
mod site;
mod velocity_pressure;
mod wall_pressure;
mod wall_shape;

pub use open_sign::{ElementShape, open_sign_cf, round_member};
pub use site::{BasicWindSpeed, Edition, Exposure, PrintedConstants, WindSite};
pub use velocity_pressure::{
    DIRECTIONALITY, DirectionalPressure, PrintedPressure, UndirectedPressure, VelocityPressure,
    exposure_coefficient, ground_elevation_factor,
};
pub use wall_pressure::{Strip, WallWind, WindCase};
pub use wall_shape::{
    CaseC, ColumnGap, EccentricCase, Region, ResultantHeight, ShortReturn, WallEnd, WallEnds,
    WallOptions, WallShape, cf_cases_a_b, opening_factor, return_factor,
};
