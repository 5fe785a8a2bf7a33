//! Sites of EN 1991-1-4 and AS/NZS 1170.2 on the wire.

use super::reading::{Path, Problems, Steps};
use super::record::{names, records};
use crate::units::{Length, MassDensity, Pressure, Velocity};
use crate::wind::{AsNzsSite, EnSite, FundamentalSpeed, OffCentreZones, RegionalSpeed, Terrain};

names! {
    Terrain {
        "0" => Terrain::Zero,
        "I" => Terrain::One,
        "II" => Terrain::Two,
        "III" => Terrain::Three,
        "IV" => Terrain::Four,
    }
    OffCentreZones {
        "also" => OffCentreZones::Also,
        "zones_only" => OffCentreZones::ZonesOnly,
    }
}

records! {
    /// A site of EN 1991-1-4.
    EnSpec {
        /// Fundamental basic velocity, 10 min mean.
        speed: Velocity,
        /// Terrain category.
        terrain: Terrain,
        /// cdir; 1 unless said.
        direction_factor: Option<f64>,
        /// cseason; 1 unless said.
        season_factor: Option<f64>,
        /// cprob; 1 unless said.
        probability_factor: Option<f64>,
        /// c0; 1 unless said.
        orography_factor: Option<f64>,
        /// kI; 1 unless said.
        turbulence_factor: Option<f64>,
        /// Air density; 1.25 kg/m³ unless said.
        air_density: Option<MassDensity>,
        /// cs cd; 1 unless said.
        structural_factor: Option<f64>,
        /// Height of a base under the fence; none unless said.
        standing_on: Option<Length>,
        /// Shelter factor of figure 7.20; none unless said.
        shelter_factor: Option<f64>,
        /// Force coefficient of an open fence, figure 7.11.
        lattice_coefficient: Option<f64>,
        /// Peak velocity pressure of a national annex.
        peak_pressure: Option<Pressure>,
    }
    /// A site of AS/NZS 1170.2.
    AsNzsSpec {
        /// Regional gust speed at the annual probability chosen.
        speed: Velocity,
        /// Mc; 1 unless said.
        climate_multiplier: Option<f64>,
        /// Md; 1 unless said.
        direction_multiplier: Option<f64>,
        /// Mz,cat at the top of the fence; 1 unless said, so look it up.
        terrain_height_multiplier: Option<f64>,
        /// Ms; 1 unless said.
        shielding_multiplier: Option<f64>,
        /// Mt; 1 unless said.
        topographic_multiplier: Option<f64>,
        /// Cdyn; 1 unless said.
        dynamic_factor: Option<f64>,
        /// Zoned oblique wind off centre too; also, the heavier reading, unless
        /// said.
        off_centre_zones: Option<OffCentreZones>,
    }
}

impl EnSpec {
    pub(super) fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<EnSite> {
        let speed = FundamentalSpeed::ten_minute_mean(self.speed);
        let speed = problems.take(&at.field("speed"), speed)?;
        let mut steps = Steps::new(EnSite::new(speed, self.terrain), at, problems);
        steps.step(
            "direction_factor",
            self.direction_factor,
            EnSite::with_direction_factor,
        );
        steps.step(
            "season_factor",
            self.season_factor,
            EnSite::with_season_factor,
        );
        steps.step(
            "probability_factor",
            self.probability_factor,
            EnSite::with_probability_factor,
        );
        steps.step(
            "orography_factor",
            self.orography_factor,
            EnSite::with_orography_factor,
        );
        steps.step(
            "turbulence_factor",
            self.turbulence_factor,
            EnSite::with_turbulence_factor,
        );
        steps.step(
            "structural_factor",
            self.structural_factor,
            EnSite::with_structural_factor,
        );
        steps.step(
            "shelter_factor",
            self.shelter_factor,
            EnSite::with_shelter_factor,
        );
        steps.step(
            "lattice_coefficient",
            self.lattice_coefficient,
            EnSite::with_lattice_coefficient,
        );
        steps.step("air_density", self.air_density, EnSite::with_air_density);
        steps.step("standing_on", self.standing_on, EnSite::standing_on);
        steps.step(
            "peak_pressure",
            self.peak_pressure,
            EnSite::with_peak_pressure,
        );
        steps.done()
    }
}

impl AsNzsSpec {
    pub(super) fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<AsNzsSite> {
        let speed = problems.take(&at.field("speed"), RegionalSpeed::ultimate(self.speed))?;
        let mut site = AsNzsSite::new(speed);
        if let Some(reading) = self.off_centre_zones {
            site = site.with_off_centre_zones(reading);
        }
        let mut steps = Steps::new(site, at, problems);
        steps.step(
            "climate_multiplier",
            self.climate_multiplier,
            AsNzsSite::with_climate_multiplier,
        );
        steps.step(
            "direction_multiplier",
            self.direction_multiplier,
            AsNzsSite::with_direction_multiplier,
        );
        steps.step(
            "terrain_height_multiplier",
            self.terrain_height_multiplier,
            AsNzsSite::with_terrain_height_multiplier,
        );
        steps.step(
            "shielding_multiplier",
            self.shielding_multiplier,
            AsNzsSite::with_shielding_multiplier,
        );
        steps.step(
            "topographic_multiplier",
            self.topographic_multiplier,
            AsNzsSite::with_topographic_multiplier,
        );
        steps.step(
            "dynamic_factor",
            self.dynamic_factor,
            AsNzsSite::with_dynamic_factor,
        );
        steps.done()
    }
}
