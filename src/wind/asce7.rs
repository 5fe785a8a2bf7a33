//! ASCE 7-10, 7-16 and 7-22.

mod open_figure;
mod options;
mod risk;
mod site;
mod topography;
mod velocity_pressure;
mod wall_figure;
mod walls;
mod working;

pub use open_figure::{OpenShape, open_cf, open_shape};
pub use options::{
    ColumnGap, EccentricCase, HandOver, MinimumCase, ResultantHeight, ShortReturn, WallOptions,
};
pub use risk::{ReturnPeriod, RiskCategory};
pub use site::{AsceSite, BasicWindSpeed, Edition, Exposure, PrintedConstants, Relief};
pub use topography::{Feature, Side, SpeedUp, Topography};
pub use velocity_pressure::{
    DIRECTIONALITY, DirectionalPressure, PrintedPressure, UndirectedPressure, VelocityPressure,
    exposure_coefficient, ground_elevation_factor,
};
pub use wall_figure::{CaseC, Region, cf_cases_a_b, opening_factor, return_factor};
pub use walls::AsceWorking;
