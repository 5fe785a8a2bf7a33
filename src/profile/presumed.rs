//! Values to start from where no report is at hand, each with its mark.
//!
//! A soil report is better. These are what documents print for ground nobody
//! has looked at; what [`crate::caution::Caution::PresumptiveSoil`] says holds
//! for them, and [`crate::side_by_side::SideBySide::cautions`] adds it for
//! [`default_sand`]. A stiffness alone leaves a soil its own source, and no result
//! adds it.

use super::layers::{Layer, Profile};
use super::soil::{Soil, Stiffness};
use crate::error::{Error, within};
use crate::source::{self, Citation};
use crate::units::{Angle, ForcePerVolume, Measurable, deg, ft, lb_per_cu_in, m, pcf};

/// The default soil of the North Carolina Department of Transportation, 2018:
/// 120 pcf, φ 30°, no cohesion, water at 7 ft. Published.
///
/// # Errors
/// None that is reached.
///
/// ```
/// use groundline::profile::presumed;
/// let ground = presumed::default_sand()?;
/// assert_eq!(ground.layers()[0].soil().source().id, "ncdot-2018/default-soil");
/// # Ok::<(), groundline::Error>(())
/// ```
pub fn default_sand() -> Result<Profile, Error> {
    let soil = Soil::new(pcf(120.0))?
        .with_friction_angle(deg(30.0))?
        .citing(&source::NCDOT_DEFAULT_SOIL);
    Profile::new(vec![Layer::new(m(100.0), soil)?])?.with_water_at(ft(7.0))
}

/// How densely a sand lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Density {
    /// Loose.
    Loose,
    /// Medium.
    Medium,
    /// Dense.
    Dense,
}

/// nh of sand ([`Stiffness::Growing`]) by density, above or below water
/// (FHWA-HI-97-013, after Terzaghi). Quoted.
///
/// ```
/// use groundline::{profile::presumed::*, units::{lb_per_cu_in, Measurable}};
/// let (nh, source) = sand_stiffness(Density::Medium, false);
/// assert!((nh.to(lb_per_cu_in) - 30.0).abs() < 1e-12);
/// assert_eq!(source.mark.name(), "quoted");
/// ```
pub fn sand_stiffness(density: Density, below_water: bool) -> (ForcePerVolume, &'static Citation) {
    let pci = match (density, below_water) {
        (Density::Loose, false) => 7.0,
        (Density::Loose, true) => 4.0,
        (Density::Medium, false) => 30.0,
        (Density::Medium, true) => 20.0,
        (Density::Dense, false) => 65.0,
        (Density::Dense, true) => 40.0,
    };
    (lb_per_cu_in(pci), &source::FHWA_SAND_STIFFNESS)
}

/// φ, k above water, k below water, in lb/in³, of the chart.
const API_CHART: [(f64, f64, f64); 13] = [
    (28.8, 10.0, 10.0),
    (29.5, 23.0, 20.0),
    (30.0, 45.0, 33.0),
    (31.0, 61.0, 42.0),
    (32.0, 80.0, 50.0),
    (33.0, 100.0, 60.0),
    (34.0, 120.0, 70.0),
    (35.0, 140.0, 85.0),
    (36.0, 160.0, 95.0),
    (37.0, 182.0, 107.0),
    (38.0, 215.0, 122.0),
    (39.0, 250.0, 141.0),
    (40.0, 275.0, 155.0),
];

/// k of the API sand curve, how its first stiffness grows with depth, by friction
/// angle; read off its chart by others, linear between. Quoted.
///
/// # Errors
/// φ outside the chart, 28.8° to 40°.
pub fn api_sand_stiffness(
    phi: Angle,
    below_water: bool,
) -> Result<(ForcePerVolume, &'static Citation), Error> {
    let phi = within("friction angle", phi, deg(28.8), deg(40.0))?.to(deg);
    let mut pci = API_CHART[0].1;
    for pair in API_CHART.windows(2) {
        let [(low, dry_low, wet_low), (high, dry_high, wet_high)] = [pair[0], pair[1]];
        if phi >= low {
            let u = ((phi - low) / (high - low)).min(1.0);
            pci = if below_water {
                wet_low + u * (wet_high - wet_low)
            } else {
                dry_low + u * (dry_high - dry_low)
            };
        }
    }
    Ok((lb_per_cu_in(pci), &source::API_SAND_STIFFNESS))
}

/// A soil with the nh of its density; the soil keeps its own source.
///
/// # Errors
/// None of its own: the values are in the range of [`Stiffness::growing`].
pub fn with_sand_stiffness(soil: Soil, density: Density, below_water: bool) -> Result<Soil, Error> {
    let (nh, _) = sand_stiffness(density, below_water);
    soil.with_stiffness(Stiffness::Growing(nh))
}
