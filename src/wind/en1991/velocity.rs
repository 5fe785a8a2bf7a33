//! From the fundamental basic velocity to the peak velocity pressure.
//!
//! - vb = cdir cseason cprob vb,0 (4.2);
//! - kr = 0.19 (z0/0.05)^0.07, cr = kr ln(max(z, zmin)/z0), vm = cr c0 vb
//!   (4.3);
//! - Iv = kI/(c0 ln(max(z, zmin)/z0)) (4.4);
//! - qp = (1 + 7 Iv) ½ ρ vm² (4.5).
//!
//! z0 and zmin by terrain category, Table 4.1; z up to 200 m. Quoted.

use crate::error::{Error, number_within, within};
use crate::units::{
    Length, MassDensity, Measurable, Pressure, Velocity, kg_per_cu_m, kpa, m, m_per_s,
};

/// Terrain category, Table 4.1.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Terrain {
    /// 0: sea, or coast open to it.
    Zero,
    /// I: lakes, flat land with hardly any vegetation.
    One,
    /// II: low vegetation, isolated obstacles.
    Two,
    /// III: villages, suburbs, permanent forest.
    Three,
    /// IV: at least 15 % built over, mean height above 15 m.
    Four,
}

impl Terrain {
    /// Every category.
    pub const ALL: [Self; 5] = [Self::Zero, Self::One, Self::Two, Self::Three, Self::Four];

    /// Its numeral.
    #[inline]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Zero => "0",
            Self::One => "I",
            Self::Two => "II",
            Self::Three => "III",
            Self::Four => "IV",
        }
    }

    /// z0.
    #[inline]
    pub fn roughness_length(self) -> Length {
        m(match self {
            Self::Zero => 0.003,
            Self::One => 0.01,
            Self::Two => 0.05,
            Self::Three => 0.3,
            Self::Four => 1.0,
        })
    }

    /// zmin.
    #[inline]
    pub fn least_height(self) -> Length {
        m(match self {
            Self::Zero | Self::One => 1.0,
            Self::Two => 2.0,
            Self::Three => 5.0,
            Self::Four => 10.0,
        })
    }
}

/// The fundamental value of the basic wind velocity vb,0: **10-minute mean** at
/// 10 m in terrain II, exceeded with an annual probability of 0.02, from the
/// map of the National Annex. Not a gust: a 3-second gust is some 1.5 times as
/// fast, and its pressure would be counted twice.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct FundamentalSpeed(Velocity);

impl FundamentalSpeed {
    /// A 10-minute mean.
    ///
    /// # Errors
    /// Outside 10 to 60 m/s.
    #[inline]
    pub fn ten_minute_mean(speed: Velocity) -> Result<Self, Error> {
        within("basic wind velocity", speed, m_per_s(10.0), m_per_s(60.0)).map(Self)
    }

    /// The speed.
    #[inline]
    pub const fn speed(self) -> Velocity {
        self.0
    }
}

/// The probability factor cprob = {[1 − K ln(−ln(1 − p))]/[1 − K ln(−ln
/// 0.98)]}ⁿ for an annual probability p of being exceeded, 4.2(2) Note 4.
/// Recommended K = 0.2, n = 0.5. Quoted.
///
/// # Errors
/// p outside 0.0001 to 0.5 (return periods of 10 000 to 2 years), K outside
/// 0.05 to 0.4, n outside 0.3 to 1.
///
/// ```
/// use groundline::wind::probability_factor;
/// // A site hoarding, return period 5 years.
/// assert!((probability_factor(0.2, 0.2, 0.5)? - 0.8545).abs() < 5e-5);
/// assert_eq!(probability_factor(0.02, 0.2, 0.5)?, 1.0);
/// # Ok::<(), groundline::Error>(())
/// ```
pub fn probability_factor(p: f64, k: f64, n: f64) -> Result<f64, Error> {
    let p = number_within("annual probability", p, 1e-4, 0.5)?;
    let k = number_within("shape parameter K", k, 0.05, 0.4)?;
    let n = number_within("exponent n", n, 0.3, 1.0)?;
    let of = |p: f64| 1.0 - k * (-(1.0 - p).ln()).ln();
    Ok((of(p) / of(0.02)).powf(n))
}

/// A site to EN 1991-1-4.
///
/// Defaults, the recommended ones: cdir = cseason = cprob = 1, c0 = 1, kI = 1,
/// ρ = 1.25 kg/m³, cs cd = 1 (height below 15 m), no shelter.
///
/// A fence from 0.8 solid is a wall (7.4.1), or a signboard (7.4.3) where the gap
/// below is a quarter of its height or more, or where it is not longer than high;
/// a less solid one is a lattice (7.11), refused until its coefficient is given
/// ([`EnSite::with_lattice_coefficient`]). Pressures are characteristic.
///
/// ```
/// use groundline::{units::*, wind::*};
/// let vb0 = FundamentalSpeed::ten_minute_mean(m_per_s(25.0))?;
/// let site = EnSite::new(vb0, Terrain::Two);
/// let peak = PeakPressure::at(&site, m(2.0))?;
/// assert!((peak.pressure().to(pa) - 556.02).abs() < 0.01);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EnSite {
    pub(super) speed: FundamentalSpeed,
    pub(super) terrain: Terrain,
    pub(super) direction: f64,
    pub(super) season: f64,
    pub(super) probability: f64,
    pub(super) orography: f64,
    pub(super) turbulence: f64,
    pub(super) density: MassDensity,
    pub(super) structural: f64,
    pub(super) base: Length,
    pub(super) shelter: f64,
    pub(super) lattice: Option<f64>,
    pub(super) given: Option<Pressure>,
}

impl EnSite {
    /// A flat, unsheltered site with the recommended values.
    #[inline]
    pub fn new(speed: FundamentalSpeed, terrain: Terrain) -> Self {
        Self {
            speed,
            terrain,
            direction: 1.0,
            season: 1.0,
            probability: 1.0,
            orography: 1.0,
            turbulence: 1.0,
            density: kg_per_cu_m(1.25),
            structural: 1.0,
            base: m(0.0),
            shelter: 1.0,
            lattice: None,
            given: None,
        }
    }

    /// With the directional factor cdir of the National Annex.
    ///
    /// # Errors
    /// Outside 0.5 to 1.
    pub fn with_direction_factor(self, cdir: f64) -> Result<Self, Error> {
        let direction = number_within("directional factor", cdir, 0.5, 1.0)?;
        Ok(Self { direction, ..self })
    }

    /// With the season factor cseason of the National Annex, for fences that
    /// stand for some months only.
    ///
    /// # Errors
    /// Outside 0.5 to 1.
    pub fn with_season_factor(self, cseason: f64) -> Result<Self, Error> {
        let season = number_within("season factor", cseason, 0.5, 1.0)?;
        Ok(Self { season, ..self })
    }

    /// With the probability factor cprob ([`probability_factor`]).
    ///
    /// # Errors
    /// Outside 0.7 to 1.4.
    pub fn with_probability_factor(self, cprob: f64) -> Result<Self, Error> {
        let probability = number_within("probability factor", cprob, 0.7, 1.4)?;
        Ok(Self {
            probability,
            ..self
        })
    }

    /// With the orography factor c0 of hills and escarpments (4.3.3, A.3).
    ///
    /// # Errors
    /// Outside 1 to 2.
    pub fn with_orography_factor(self, c0: f64) -> Result<Self, Error> {
        let orography = number_within("orography factor", c0, 1.0, 2.0)?;
        Ok(Self { orography, ..self })
    }

    /// With another turbulence factor kI.
    ///
    /// # Errors
    /// Outside 0.5 to 1.5.
    pub fn with_turbulence_factor(self, ki: f64) -> Result<Self, Error> {
        let turbulence = number_within("turbulence factor", ki, 0.5, 1.5)?;
        Ok(Self { turbulence, ..self })
    }

    /// With the air density of the National Annex (United Kingdom: 1.226
    /// kg/m³).
    ///
    /// # Errors
    /// Outside 0.7 to 1.5 kg/m³.
    pub fn with_air_density(self, density: MassDensity) -> Result<Self, Error> {
        let (least, most) = (kg_per_cu_m(0.7), kg_per_cu_m(1.5));
        let density = within("air density", density, least, most)?;
        Ok(Self { density, ..self })
    }

    /// With a structural factor cs cd other than the 1 of structures below
    /// 15 m; above, a caution stands until one over 1 is given.
    ///
    /// # Errors
    /// Outside 0.85 to 2.
    pub fn with_structural_factor(self, cscd: f64) -> Result<Self, Error> {
        let structural = number_within("structural factor", cscd, 0.85, 2.0)?;
        Ok(Self { structural, ..self })
    }

    /// With the fence standing on something above the ground around: a
    /// retaining wall, a bank, a parapet. Its height is added to the reference
    /// height only.
    ///
    /// # Errors
    /// Outside 0 to 100 m.
    pub fn standing_on(self, base: Length) -> Result<Self, Error> {
        let base = within("height of the base", base, m(0.0), m(100.0))?;
        Ok(Self { base, ..self })
    }

    /// With the shelter factor ψs of 7.4.2, read by the user off its figure
    /// for another wall at least as high upwind. It is applied to solidities
    /// from 0.8 and farther than h from both ends only. What shelters may be
    /// taken away: a caution says so.
    ///
    /// # Errors
    /// Outside 0.3 to 1.
    pub fn with_shelter_factor(self, psi: f64) -> Result<Self, Error> {
        let shelter = number_within("shelter factor", psi, 0.3, 1.0)?;
        Ok(Self { shelter, ..self })
    }

    /// With the force coefficient cf of plane lattices (7.11), on solid area,
    /// read by the user off its figures: for fences less than 80 % solid, which
    /// are refused otherwise. The velocity pressure is that at the top.
    ///
    /// # Errors
    /// Outside 0.8 to 2.5.
    pub fn with_lattice_coefficient(self, cf: f64) -> Result<Self, Error> {
        let lattice = Some(number_within("lattice coefficient", cf, 0.8, 2.5)?);
        Ok(Self { lattice, ..self })
    }

    /// With a peak velocity pressure qp given outright, for every height: for a
    /// National Annex whose profile is another. Speed, terrain and factors then
    /// count for nothing.
    ///
    /// # Errors
    /// Outside 0.05 to 10 kPa.
    pub fn with_peak_pressure(self, qp: Pressure) -> Result<Self, Error> {
        let given = Some(within("peak velocity pressure", qp, kpa(0.05), kpa(10.0))?);
        Ok(Self { given, ..self })
    }

    /// vb,0.
    #[inline]
    pub const fn speed(&self) -> FundamentalSpeed {
        self.speed
    }
    /// The terrain.
    #[inline]
    pub const fn terrain(&self) -> Terrain {
        self.terrain
    }
    /// vb.
    #[inline]
    pub fn basic_velocity(&self) -> Velocity {
        self.speed.speed() * (self.direction * self.season * self.probability)
    }
}

/// The peak velocity pressure qp = (1 + 7 Iv) ½ ρ vm² at a height, with what it
/// is made of: kr = 0.19 (z0/0.05 m)^0.07, cr = kr ln(max(z, zmin)/z0), vm = cr c0
/// vb, Iv = kI/(c0 ln(max(z, zmin)/z0)). Where qp was given
/// ([`EnSite::with_peak_pressure`]) the others have no part in it.
///
/// Source: EN 1991-1-4 4.3 to 4.5. Quoted.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct PeakPressure {
    /// z above the ground around.
    pub height: Length,
    /// kr, the terrain factor.
    pub kr: f64,
    /// cr.
    pub roughness_factor: f64,
    /// vm, the mean velocity.
    pub mean_velocity: Velocity,
    /// Iv.
    pub turbulence_intensity: f64,
    qp: Pressure,
}

impl PeakPressure {
    /// At a height above ground.
    ///
    /// # Errors
    /// Outside 0 to 200 m.
    #[inline]
    pub fn at(site: &EnSite, height: Length) -> Result<Self, Error> {
        let height = within("height", height, m(0.0), m(200.0))?;
        let z0 = site.terrain.roughness_length().value;
        let z = height.value.max(site.terrain.least_height().value);
        let kr = 0.19 * (z0 / 0.05).powf(0.07);
        let log = (z / z0).ln();
        let roughness_factor = kr * log;
        let mean_velocity = site.basic_velocity() * (roughness_factor * site.orography);
        let turbulence_intensity = site.turbulence / (site.orography * log);
        let v = mean_velocity.value;
        let qp = (1.0 + 7.0 * turbulence_intensity) * 0.5 * site.density.value * v * v;
        Ok(Self {
            height,
            kr,
            roughness_factor,
            mean_velocity,
            turbulence_intensity,
            qp: site.given.unwrap_or(Pressure::from_si(qp)),
        })
    }

    /// qp.
    #[inline]
    pub const fn pressure(&self) -> Pressure {
        self.qp
    }
}
