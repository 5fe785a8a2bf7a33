//! Velocity pressure of the CFE manual (Mexico 2008), whose walls share the
//! figure of AS/NZS 1170.2.
//!
//! q = 0.047 G VD² in Pa and km/h, G = 0.392 Ω/(273 + τ), Ω barometric
//! pressure in mmHg, τ air temperature in °C. Published.
//!
//! Its load factors are not known here, so this is a pressure and no
//! [`WindCode`](super::super::WindCode): multiply it by [`Hoarding`](super::Hoarding)
//! and [`porosity_factor`](super::porosity_factor), and hand the product to
//! [`DirectPressure`](super::super::DirectPressure) at the limit state you know
//! it to be.

use crate::error::{Error, number_within, within};
use crate::units::{Measurable, Pressure, Velocity, km_per_h, mm_hg, pa};

/// An air temperature.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct AirTemperature(f64);

impl AirTemperature {
    /// In degrees Celsius.
    ///
    /// # Errors
    /// Outside −60 to 60.
    pub fn celsius(degrees: f64) -> Result<Self, Error> {
        number_within("air temperature", degrees, -60.0, 60.0).map(Self)
    }
}

/// G = 0.392 Ω/(273 + τ), the factor for air density, Ω in mmHg, τ in °C
/// ([`crate::source::CFE_2008`], published).
///
/// # Errors
/// Barometric pressure outside 300 to 900 mmHg.
pub fn cfe_density_factor(barometric: Pressure, temperature: AirTemperature) -> Result<f64, Error> {
    let omega = within(
        "barometric pressure",
        barometric,
        mm_hg(300.0),
        mm_hg(900.0),
    )?;
    Ok(0.392 * omega.to(mm_hg) / (273.0 + temperature.0))
}

/// q = 0.047 G VD² for a design speed VD, in Pa of km/h
/// ([`crate::source::CFE_2008`], published). Its load factors are not known here:
/// which limit state it is at, the user has to know.
///
/// # Errors
/// Speed outside 0 to 500 km/h, G outside 0.3 to 2.
///
/// ```
/// use groundline::{units::*, wind::{AirTemperature, cfe_density_factor, cfe_velocity_pressure}};
/// let g = cfe_density_factor(mm_hg(759.2), AirTemperature::celsius(25.5)?)?;
/// let q = cfe_velocity_pressure(km_per_h(153.0), g)?;
/// assert!((q.to(pa) - 1096.9).abs() < 0.1);
/// # Ok::<(), groundline::Error>(())
/// ```
pub fn cfe_velocity_pressure(speed: Velocity, density_factor: f64) -> Result<Pressure, Error> {
    let v = within("wind speed", speed, km_per_h(0.0), km_per_h(500.0))?.to(km_per_h);
    let g = number_within("density factor", density_factor, 0.3, 2.0)?;
    Ok(pa(0.047 * g * v * v))
}
