//! Sites of EN 1991-1-4 and AS/NZS 1170.2 on the wire.

use super::reading::{Path, Problems};
use super::record::{names, records};
use crate::error::Error;
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

/// One optional step of building a site after another.
fn step<S: Copy, V>(
    site: &mut Option<S>,
    value: Option<V>,
    make: impl FnOnce(S, V) -> Result<S, Error>,
    at: &Path<'_>,
    problems: &mut Problems,
) {
    if let (Some(before), Some(value)) = (*site, value) {
        // What could not be changed stays, so that the next one is read too.
        if let Some(after) = problems.take(at, make(before, value)) {
            *site = Some(after);
        }
    }
}

impl EnSpec {
    pub(super) fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<EnSite> {
        let before = problems.iter().count();
        let speed = FundamentalSpeed::ten_minute_mean(self.speed);
        let speed = problems.take(&at.field("speed"), speed);
        let mut site = speed.map(|speed| EnSite::new(speed, self.terrain));
        let mut factor = |name, value, make: fn(EnSite, f64) -> Result<EnSite, Error>| {
            step(&mut site, value, make, &at.field(name), problems);
        };
        factor(
            "direction_factor",
            self.direction_factor,
            EnSite::with_direction_factor,
        );
        factor(
            "season_factor",
            self.season_factor,
            EnSite::with_season_factor,
        );
        factor(
            "probability_factor",
            self.probability_factor,
            EnSite::with_probability_factor,
        );
        factor(
            "orography_factor",
            self.orography_factor,
            EnSite::with_orography_factor,
        );
        factor(
            "turbulence_factor",
            self.turbulence_factor,
            EnSite::with_turbulence_factor,
        );
        factor(
            "structural_factor",
            self.structural_factor,
            EnSite::with_structural_factor,
        );
        factor(
            "shelter_factor",
            self.shelter_factor,
            EnSite::with_shelter_factor,
        );
        factor(
            "lattice_coefficient",
            self.lattice_coefficient,
            EnSite::with_lattice_coefficient,
        );
        let place = at.field("air_density");
        step(
            &mut site,
            self.air_density,
            EnSite::with_air_density,
            &place,
            problems,
        );
        let place = at.field("standing_on");
        step(
            &mut site,
            self.standing_on,
            EnSite::standing_on,
            &place,
            problems,
        );
        let place = at.field("peak_pressure");
        step(
            &mut site,
            self.peak_pressure,
            EnSite::with_peak_pressure,
            &place,
            problems,
        );
        site.filter(|_| problems.iter().count() == before)
    }
}

impl AsNzsSpec {
    pub(super) fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<AsNzsSite> {
        let before = problems.iter().count();
        let speed = problems.take(&at.field("speed"), RegionalSpeed::ultimate(self.speed));
        let mut site = speed.map(AsNzsSite::new);
        if let (Some(before), Some(reading)) = (site, self.off_centre_zones) {
            site = Some(before.with_off_centre_zones(reading));
        }
        let mut factor = |name, value, make: fn(AsNzsSite, f64) -> Result<AsNzsSite, Error>| {
            step(&mut site, value, make, &at.field(name), problems);
        };
        factor(
            "climate_multiplier",
            self.climate_multiplier,
            AsNzsSite::with_climate_multiplier,
        );
        factor(
            "direction_multiplier",
            self.direction_multiplier,
            AsNzsSite::with_direction_multiplier,
        );
        factor(
            "terrain_height_multiplier",
            self.terrain_height_multiplier,
            AsNzsSite::with_terrain_height_multiplier,
        );
        factor(
            "shielding_multiplier",
            self.shielding_multiplier,
            AsNzsSite::with_shielding_multiplier,
        );
        factor(
            "topographic_multiplier",
            self.topographic_multiplier,
            AsNzsSite::with_topographic_multiplier,
        );
        factor(
            "dynamic_factor",
            self.dynamic_factor,
            AsNzsSite::with_dynamic_factor,
        );
        site.filter(|_| problems.iter().count() == before)
    }
}
