//! From the regional wind speed to the design pressure.
//!
//! Vsit,β = VR Mc Md (Mz,cat Ms Mt); p = ½ ρ Vdes² Cshp Cdyn, ρ = 1.2 kg/m³.
//! Vdes is not less than 30 m/s at the ultimate limit state (one source).
//! Regional speed and multipliers are inputs: their tables are the standard's.
//! Quoted.

use super::hoarding::OffCentreZones;
use crate::error::{Error, number_within, within};
use crate::source;
use crate::step::{Step, Worksheet};
use crate::units::{MassDensity, Measurable, Measure, Pressure, Velocity, kg_per_cu_m, m_per_s};

/// The air density of the standard.
pub(super) fn air_density() -> MassDensity {
    kg_per_cu_m(1.2)
}

/// The least design speed at the ultimate limit state. Quoted, one source.
fn least_design_speed() -> Velocity {
    m_per_s(30.0)
}

/// The regional wind speed VR: 0.2-second gust (3-second in older editions) at
/// 10 m in open terrain, of the annual probability of exceedance that the
/// ultimate limit state of the fence's importance asks for.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct RegionalSpeed(Velocity);

impl RegionalSpeed {
    /// A speed for the ultimate limit state.
    ///
    /// # Errors
    /// Outside 20 to 130 m/s.
    #[inline]
    pub fn ultimate(speed: Velocity) -> Result<Self, Error> {
        within("regional wind speed", speed, m_per_s(20.0), m_per_s(130.0)).map(Self)
    }

    /// The speed.
    #[inline]
    pub const fn speed(self) -> Velocity {
        self.0
    }
}

/// A site to AS/NZS 1170.2: Vsit = VR Mc Md (Mz,cat Ms Mt), p = ½ ρ Vdes² Cshp
/// Cdyn with ρ = 1.2 kg/m³ and Cshp = Cp,n Kp ([`Hoarding`](super::Hoarding),
/// [`porosity_factor`](super::porosity_factor)). Ultimate limit state. Quoted.
///
/// Defaults: every multiplier 1, Cdyn = 1. Look Mz,cat up: it is below 1 for
/// low fences in most terrain, and above for tall ones in the open.
///
/// ```
/// use groundline::{units::*, wind::*};
/// let site = AsNzsSite::new(RegionalSpeed::ultimate(m_per_s(45.0))?)
///     .with_terrain_height_multiplier(0.91)?
///     .with_direction_multiplier(0.95)?;
/// assert!((site.design_speed().to(m_per_s) - 45.0 * 0.91 * 0.95).abs() < 1e-12);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AsNzsSite {
    speed: RegionalSpeed,
    climate: f64,
    direction: f64,
    terrain_height: f64,
    shielding: f64,
    topography: f64,
    dynamic: f64,
    pub(super) off_centre_zones: OffCentreZones,
}

impl AsNzsSite {
    /// A site with every multiplier 1.
    #[inline]
    pub fn new(speed: RegionalSpeed) -> Self {
        Self {
            speed,
            climate: 1.0,
            direction: 1.0,
            terrain_height: 1.0,
            shielding: 1.0,
            topography: 1.0,
            dynamic: 1.0,
            off_centre_zones: OffCentreZones::default(),
        }
    }

    /// With the climate change multiplier Mc (2021 edition).
    ///
    /// # Errors
    /// Outside 1 to 1.5.
    pub fn with_climate_multiplier(self, mc: f64) -> Result<Self, Error> {
        let climate = number_within("climate multiplier", mc, 1.0, 1.5)?;
        Ok(Self { climate, ..self })
    }

    /// With the wind direction multiplier Md.
    ///
    /// # Errors
    /// Outside 0.7 to 1.
    pub fn with_direction_multiplier(self, md: f64) -> Result<Self, Error> {
        let direction = number_within("direction multiplier", md, 0.7, 1.0)?;
        Ok(Self { direction, ..self })
    }

    /// With the terrain/height multiplier Mz,cat at the top of the fence.
    ///
    /// # Errors
    /// Outside 0.5 to 1.5.
    pub fn with_terrain_height_multiplier(self, mzcat: f64) -> Result<Self, Error> {
        let terrain_height = number_within("terrain/height multiplier", mzcat, 0.5, 1.5)?;
        Ok(Self {
            terrain_height,
            ..self
        })
    }

    /// With the shielding multiplier Ms. What shields may be taken away: a
    /// caution says so.
    ///
    /// # Errors
    /// Outside 0.7 to 1.
    pub fn with_shielding_multiplier(self, ms: f64) -> Result<Self, Error> {
        let shielding = number_within("shielding multiplier", ms, 0.7, 1.0)?;
        Ok(Self { shielding, ..self })
    }

    /// With the topographic multiplier Mt.
    ///
    /// # Errors
    /// Outside 1 to 2.
    pub fn with_topographic_multiplier(self, mt: f64) -> Result<Self, Error> {
        let topography = number_within("topographic multiplier", mt, 1.0, 2.0)?;
        Ok(Self { topography, ..self })
    }

    /// With a dynamic response factor Cdyn.
    ///
    /// # Errors
    /// Outside 1 to 3.
    pub fn with_dynamic_factor(self, cdyn: f64) -> Result<Self, Error> {
        let dynamic = number_within("dynamic response factor", cdyn, 1.0, 3.0)?;
        Ok(Self { dynamic, ..self })
    }

    /// With the other reading of the eccentricity of oblique wind.
    #[must_use]
    pub const fn with_off_centre_zones(self, reading: OffCentreZones) -> Self {
        Self {
            off_centre_zones: reading,
            ..self
        }
    }

    /// Ms.
    pub(super) const fn shielding(&self) -> f64 {
        self.shielding
    }

    /// VR.
    #[inline]
    pub const fn speed(&self) -> RegionalSpeed {
        self.speed
    }

    fn site_speed(&self) -> Velocity {
        self.speed.speed()
            * (self.climate
                * self.direction
                * (self.terrain_height * self.shielding * self.topography))
    }

    /// Vdes, not less than 30 m/s.
    #[inline]
    pub fn design_speed(&self) -> Velocity {
        self.site_speed().max(least_design_speed())
    }

    /// ½ ρ Vdes² Cdyn: what Cshp multiplies.
    #[inline]
    pub fn design_pressure(&self) -> Pressure {
        let v = self.design_speed().value;
        Pressure::from_si(0.5 * air_density().value * v * v * self.dynamic)
    }

    /// Writes the working.
    pub(crate) fn write(&self, sheet: &mut Worksheet) {
        sheet.section("Design wind pressure");
        sheet.remark("AS/NZS 1170.2, ultimate limit state; speed and multipliers as given.");
        sheet.push(Step::given(
            "VR",
            "regional wind speed, ultimate",
            self.speed.speed(),
        ));
        sheet.push(
            Step::computed(
                "Vdes",
                "design wind speed, not below 30 m/s",
                sheet.by_system(
                    "max(VR*Mc*Md*Mzcat*Ms*Mt, 67.1081)",
                    "max(VR*Mc*Md*Mzcat*Ms*Mt, 30)",
                ),
                self.design_speed(),
            )
            .with("VR", self.speed.speed())
            .with_number("Mc", self.climate)
            .with_number("Md", self.direction)
            .with_number("Mzcat", self.terrain_height)
            .with_number("Ms", self.shielding)
            .with_number("Mt", self.topography)
            .cite(&source::ASNZS_SPEED),
        );
        sheet.push(
            Step::computed(
                "q",
                "design pressure before the shape factor",
                sheet.by_system("0.5*rho*Vdes^2*Cdyn*0.00417384", "0.5*rho*Vdes^2*Cdyn"),
                self.design_pressure(),
            )
            .shown_as(Measure::WindPressure)
            .with("rho", air_density())
            .with("Vdes", self.design_speed())
            .with_number("Cdyn", self.dynamic)
            .cite(&source::ASNZS_PRESSURE),
        );
    }
}
