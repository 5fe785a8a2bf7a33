//! AS/NZS 1170.2 hoardings and free-standing walls, and the velocity pressure
//! of the CFE manual (Mexico), which shares the figure.

mod cfe;
mod hoarding;
mod site;
mod working;

pub use cfe::{AirTemperature, cfe_density_factor, cfe_velocity_pressure};
pub use hoarding::{
    AlongWind, AsNzsWorking, Hoarding, ObliqueWind, OffCentreZones, porosity_factor,
};
pub use site::{AsNzsSite, RegionalSpeed};
