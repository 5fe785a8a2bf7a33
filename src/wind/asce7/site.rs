//! Where the fence stands: code edition, wind speed, exposure, topography,
//! elevation, and how the figures are read there.

use super::options::WallOptions;
use super::risk::{ReturnPeriod, RiskCategory};
use super::topography::Topography;
use crate::error::{Error, number_within, within};
use crate::source::{self, Citation};
use crate::units::{Length, Measurable, Pressure, Velocity, ft, m, mph, psf};

/// The edition of ASCE 7 the wind is computed to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Edition {
    /// ASCE/SEI 7-10.
    Asce7_10,
    /// ASCE/SEI 7-16.
    Asce7_16,
    /// ASCE/SEI 7-22.
    Asce7_22,
}

impl Edition {
    /// Its usual name.
    #[inline]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Asce7_10 => "ASCE 7-10",
            Self::Asce7_16 => "ASCE 7-16",
            Self::Asce7_22 => "ASCE 7-22",
        }
    }

    /// The clause of the velocity pressure.
    #[inline]
    pub(crate) const fn velocity_pressure_citation(self) -> &'static Citation {
        match self {
            Self::Asce7_10 => &source::ASCE7_10_29_3_2,
            Self::Asce7_16 => &source::ASCE7_16_26_10_2,
            Self::Asce7_22 => &source::ASCE7_22_26_10_2,
        }
    }

    /// The figure of Cases A and B.
    pub(crate) const fn wall_figure_citation(self) -> &'static Citation {
        match self {
            Self::Asce7_10 => &source::ASCE7_WALL_CASES_A_B,
            Self::Asce7_16 | Self::Asce7_22 => &source::ASCE7_WALL_CASES_A_B_LATER,
        }
    }

    /// The clause of the exposure coefficient.
    #[inline]
    pub(crate) const fn kz_citation(self) -> &'static Citation {
        match self {
            Self::Asce7_10 | Self::Asce7_16 => &source::ASCE7_10_KZ,
            Self::Asce7_22 => &source::ASCE7_22_KZ,
        }
    }
}

/// Surface roughness upwind (ASCE 7 26.7).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Exposure {
    /// Suburban, wooded.
    B,
    /// Open country, scattered obstructions.
    C,
    /// Flat, open water or mud.
    D,
}

impl Exposure {
    /// Its letter.
    #[inline]
    pub const fn letter(self) -> &'static str {
        match self {
            Self::B => "B",
            Self::C => "C",
            Self::D => "D",
        }
    }
}

impl core::fmt::Display for Edition {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.pad(self.name())
    }
}

impl core::fmt::Display for Exposure {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.pad(self.letter())
    }
}

/// The basic wind speed V of ASCE 7-10 and later: 3-second gust at 33 ft in
/// exposure C, at **strength level**, from the map of the risk category.
///
/// Maps before 2010 (and the nominal speed V_asd that IBC 1609 still defines)
/// are lower by √0.6; such a number here would understate the load by 40 %.
/// That is why the speed is a type of its own and its constructor says which
/// it wants.
///
/// ```
/// use groundline::{units::mph, wind::BasicWindSpeed};
/// let v = BasicWindSpeed::strength_level(mph(115.0))?;
/// assert_eq!(v.speed(), mph(115.0));
/// assert!(BasicWindSpeed::strength_level(mph(f64::NAN)).is_err());
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct BasicWindSpeed {
    speed: Velocity,
    nominal: Option<Velocity>,
}

impl BasicWindSpeed {
    /// A strength-level speed.
    ///
    /// # Errors
    /// Outside 40 to 300 mph (17.9 to 134 m/s).
    #[inline]
    pub fn strength_level(speed: Velocity) -> Result<Self, Error> {
        Ok(Self {
            speed: within("wind speed", speed, mph(40.0), mph(300.0))?,
            nominal: None,
        })
    }

    /// Returns the strength-level speed of an allowable-stress (nominal) speed V_asd, such
    /// as the 3-second gusts of the maps before 2010: V = V_asd/√0.6.
    ///
    /// Source: IBC 1609.3.1, V_asd = V √0.6 (from memory).
    ///
    /// # Errors
    /// V_asd outside 31 to 232 mph (V outside 40 to 300 mph).
    ///
    /// ```
    /// use groundline::{units::{Measurable, mph}, wind::BasicWindSpeed};
    /// let v = BasicWindSpeed::from_allowable_stress(mph(90.0))?;
    /// assert!((v.speed().to(mph) - 116.19).abs() < 0.01);
    /// # Ok::<(), groundline::Error>(())
    /// ```
    #[inline]
    pub fn from_allowable_stress(nominal: Velocity) -> Result<Self, Error> {
        let root = 0.6_f64.sqrt();
        let nominal = within(
            "allowable-stress wind speed",
            nominal,
            mph(40.0 * root),
            mph(300.0 * root),
        )?;
        Ok(Self {
            speed: nominal / root,
            nominal: Some(nominal),
        })
    }

    /// Returns the strength-level speed.
    #[inline]
    pub const fn speed(self) -> Velocity {
        self.speed
    }

    /// Returns the allowable-stress speed it was converted from, if it was.
    #[inline]
    pub const fn allowable_stress_speed(self) -> Option<Velocity> {
        self.nominal
    }
}

/// Which of the two printed sets of constants is used. ASCE 7 prints one a
/// unit system, and they differ a little: 0.055 % in the velocity pressure,
/// 0.2 % in the exponent of the ground elevation factor.
///
/// One set is used whatever units the input comes in, so that a fence does
/// not change when its numbers are converted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[non_exhaustive]
pub enum PrintedConstants {
    /// 0.00256 psf/mph² (0.61334 in SI) and 0.0000362 per ft: the larger
    /// loads. The default.
    #[default]
    Customary,
    /// 0.613 (N/m²)/(m/s)² and 0.000119 per m.
    Si,
}

impl PrintedConstants {
    /// The velocity pressure constant in SI, (N/m²)/(m/s)² = kg/m³.
    #[inline]
    pub(crate) fn velocity_pressure(self) -> f64 {
        match self {
            Self::Customary => {
                let mph = mph(1.0).value;
                0.00256 * psf(1.0).value / (mph * mph)
            }
            Self::Si => 0.613,
        }
    }

    /// The exponent of the ground elevation factor at an elevation.
    #[inline]
    pub(crate) fn elevation_exponent(self, elevation: Length) -> f64 {
        match self {
            Self::Customary => -0.000_036_2 * elevation.to(ft),
            Self::Si => -0.000_119 * elevation.to(m),
        }
    }
}

/// What the ground does to the wind.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Relief {
    /// Kzt as given; 1 on flat ground.
    Factor(f64),
    /// Kzt by the formula, at the height asked for.
    Feature(Topography),
}

/// The site, as ASCE 7 chapter 26 asks for it.
///
/// Defaults: flat ground (Kzt = 1), sea level (Ke = 1, always allowed), rigid
/// structure (G = 0.85), minimum pressure 16 psf, every option at its default.
///
/// Solid walls: F = q Kd G Cf As, q at the top, As gross; Cases A, B and C. Open
/// fences: F = q Kd G Cf Af, q at the middle of the solid area Af; uniform.
/// [`HandOver`](super::HandOver) says which of the two, or both. The minimum
/// pressure is a load case of its own ([`MinimumCase`](super::MinimumCase)).
///
/// ```
/// use groundline::{units::{ft, mph}, wind::{AsceSite, BasicWindSpeed, Edition, Exposure}};
/// let v = BasicWindSpeed::strength_level(mph(115.0))?;
/// let site = AsceSite::new(Edition::Asce7_16, v, Exposure::C).at_elevation(ft(5_000.0))?;
/// # let _ = site;
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AsceSite {
    edition: Edition,
    speed: BasicWindSpeed,
    exposure: Exposure,
    relief: Relief,
    elevation: Option<Length>,
    gust_factor: f64,
    minimum_pressure: Pressure,
    risk_category: Option<RiskCategory>,
    return_period: Option<ReturnPeriod>,
    constants: PrintedConstants,
    options: WallOptions,
}

impl AsceSite {
    /// A flat site at sea level.
    #[inline]
    pub fn new(edition: Edition, speed: BasicWindSpeed, exposure: Exposure) -> Self {
        Self {
            edition,
            speed,
            exposure,
            relief: Relief::Factor(1.0),
            elevation: None,
            gust_factor: 0.85,
            minimum_pressure: psf(16.0),
            risk_category: None,
            return_period: None,
            constants: PrintedConstants::default(),
            options: WallOptions::default(),
        }
    }

    /// With the topographic factor Kzt for a hill, ridge or escarpment.
    ///
    /// # Errors
    /// Outside 1 to 4.
    #[inline]
    pub fn with_topographic_factor(self, kzt: f64) -> Result<Self, Error> {
        let factor = number_within("topographic factor", kzt, 1.0, 4.0)?;
        Ok(Self {
            relief: Relief::Factor(factor),
            ..self
        })
    }

    /// With the topographic factor by the formula, at the height the velocity
    /// pressure is taken at.
    #[must_use]
    #[inline]
    pub fn with_topography(self, topography: Topography) -> Self {
        Self {
            relief: Relief::Feature(topography),
            ..self
        }
    }

    /// With choices where the standard is silent or sources disagree.
    #[must_use]
    #[inline]
    pub fn with_options(self, options: WallOptions) -> Self {
        Self { options, ..self }
    }

    /// With the thinner air of higher ground (Ke, from 7-16 on).
    ///
    /// # Errors
    /// Outside −1 500 to 20 000 ft; in 7-10, which has no such factor.
    #[inline]
    pub fn at_elevation(self, elevation: Length) -> Result<Self, Error> {
        if self.edition == Edition::Asce7_10 {
            return Err(Error::NotApplicable {
                field: "ground elevation",
                reason: "ASCE 7-10 has no ground elevation factor; leave it out or use a later \
                         edition",
            });
        }
        let elevation = within("ground elevation", elevation, ft(-1_500.0), ft(20_000.0))?;
        Ok(Self {
            elevation: Some(elevation),
            ..self
        })
    }

    /// With a gust-effect factor other than the 0.85 of a rigid structure
    /// (natural frequency of 1 Hz or more). Not below 0.85.
    ///
    /// # Errors
    /// Outside 0.85 to 3.
    #[inline]
    pub fn with_gust_factor(self, gust: f64) -> Result<Self, Error> {
        let gust_factor = number_within("gust factor", gust, 0.85, 3.0)?;
        Ok(Self {
            gust_factor,
            ..self
        })
    }

    /// With a minimum design pressure other than 16 psf, at strength level, on
    /// gross area of a wall and on solid area of an open fence. Local codes may
    /// ask for more.
    ///
    /// # Errors
    /// Outside 16 to 200 psf.
    #[inline]
    pub fn with_minimum_pressure(self, pressure: Pressure) -> Result<Self, Error> {
        let minimum_pressure = within("minimum pressure", pressure, psf(16.0), psf(200.0))?;
        Ok(Self {
            minimum_pressure,
            ..self
        })
    }

    /// States the risk category of the map that the speed was read from. It changes no
    /// number; headers and worksheets print it.
    ///
    /// ```
    /// use groundline::{units::mph, wind::*};
    /// let v = BasicWindSpeed::strength_level(mph(115.0))?;
    /// let site = AsceSite::new(Edition::Asce7_22, v, Exposure::B)
    ///     .with_risk_category(RiskCategory::II);
    /// assert_eq!(site.return_period().map(ReturnPeriod::years), Some(700.0));
    /// # Ok::<(), groundline::Error>(())
    /// ```
    #[must_use]
    #[inline]
    pub const fn with_risk_category(self, category: RiskCategory) -> Self {
        Self {
            risk_category: Some(category),
            ..self
        }
    }

    /// States the return period of the speed, where it is not that of the map of the risk
    /// category. It changes no number; headers and worksheets print it.
    #[must_use]
    #[inline]
    pub const fn with_return_period(self, period: ReturnPeriod) -> Self {
        Self {
            return_period: Some(period),
            ..self
        }
    }

    /// The same site without any minimum pressure: what a hole is good for, never
    /// what it is designed for.
    #[must_use]
    pub(crate) fn without_minimum_pressure(self) -> Self {
        Self {
            minimum_pressure: psf(0.0),
            ..self
        }
    }

    /// With the other of the two printed sets of constants.
    #[must_use]
    #[inline]
    pub fn with_constants(self, constants: PrintedConstants) -> Self {
        Self { constants, ..self }
    }

    /// The same site at another basic wind speed.
    #[must_use]
    #[inline]
    pub const fn with_speed(self, speed: BasicWindSpeed) -> Self {
        Self { speed, ..self }
    }

    /// The edition.
    #[inline]
    pub const fn edition(&self) -> Edition {
        self.edition
    }
    /// The basic wind speed.
    #[inline]
    pub const fn speed(&self) -> BasicWindSpeed {
        self.speed
    }
    /// Returns the risk category, if it was stated.
    #[inline]
    pub const fn risk_category(&self) -> Option<RiskCategory> {
        self.risk_category
    }
    /// Returns the return period of the speed: as stated, else that of the map of the risk
    /// category.
    #[inline]
    pub const fn return_period(&self) -> Option<ReturnPeriod> {
        match (self.return_period, self.risk_category) {
            (None, Some(category)) => Some(category.return_period(self.edition)),
            (period, _) => period,
        }
    }
    /// Returns what the speed stands for, for a header: risk category and return period.
    pub fn speed_basis(&self) -> String {
        let category = self.risk_category.map_or_else(
            || "risk category not stated".to_owned(),
            |category| format!("risk category {category}"),
        );
        match self.return_period() {
            Some(period) => format!("{category}, return period {period}"),
            None => category,
        }
    }
    /// The exposure.
    #[inline]
    pub const fn exposure(&self) -> Exposure {
        self.exposure
    }
    /// What the ground does to the wind.
    #[inline]
    pub const fn relief(&self) -> &Relief {
        &self.relief
    }
    /// Kzt at a height above ground.
    #[inline]
    pub fn topographic_factor(&self, z: Length) -> f64 {
        match &self.relief {
            Relief::Factor(kzt) => *kzt,
            Relief::Feature(topography) => topography.speed_up(self.exposure, z).kzt,
        }
    }
    /// The ground elevation, if one was given.
    #[inline]
    pub const fn elevation(&self) -> Option<Length> {
        self.elevation
    }
    /// G.
    #[inline]
    pub const fn gust_factor(&self) -> f64 {
        self.gust_factor
    }
    /// The least pressure, at strength level, on gross area of a wall and on
    /// solid area of an open fence.
    #[inline]
    pub const fn minimum_pressure(&self) -> Pressure {
        self.minimum_pressure
    }
    /// The set of printed constants.
    #[inline]
    pub const fn constants(&self) -> PrintedConstants {
        self.constants
    }
    /// The options.
    #[inline]
    pub const fn options(&self) -> &WallOptions {
        &self.options
    }
}
