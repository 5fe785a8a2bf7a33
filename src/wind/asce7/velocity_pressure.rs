//! Velocity pressure: q = 0.00256 Kz Kzt Kd Ke V², with Kd where the edition
//! has it and never twice.
//!
//! 7-10 and 7-16 print q with the directionality factor Kd inside; 7-22 prints
//! q without it and puts Kd into the force. The product is the same, and
//! applying Kd twice is the classic mistake, so the two are distinct types:
//! [`UndirectedPressure`] becomes [`DirectionalPressure`] once, and only the
//! latter makes a wall pressure.
//!
//! ```compile_fail
//! use groundline::wind::DirectionalPressure;
//! fn twice(q: DirectionalPressure) { q.with_directionality(); }
//! ```

use super::site::{AsceSite, Edition, Exposure, PrintedConstants, Relief};
use crate::error::{Error, within};
use crate::source;
use crate::step::{Step, Worksheet};
use crate::units::{Length, Measurable, Measure, Pressure, UnitSystem, ft};

/// Kd of solid free-standing walls and signs, Table 26.6-1. Quoted.
pub const DIRECTIONALITY: f64 = 0.85;

/// Coefficient c, exponent alpha and gradient height zg of the exposure formula
/// Kz = c (max(z, 15 ft)/zg)^(2/alpha).
const fn terrain(edition: Edition, exposure: Exposure) -> (f64, f64, f64) {
    // (c, alpha, zg in ft). Quoted; the printed tables agree within rounding.
    match (edition, exposure) {
        (Edition::Asce7_10 | Edition::Asce7_16, Exposure::B) => (2.01, 7.0, 1200.0),
        (Edition::Asce7_10 | Edition::Asce7_16, Exposure::C) => (2.01, 9.5, 900.0),
        (Edition::Asce7_10 | Edition::Asce7_16, Exposure::D) => (2.01, 11.5, 700.0),
        (Edition::Asce7_22, Exposure::B) => (2.41, 7.5, 3280.0),
        (Edition::Asce7_22, Exposure::C) => (2.41, 9.8, 2460.0),
        (Edition::Asce7_22, Exposure::D) => (2.41, 11.5, 1935.0),
    }
}

/// The velocity pressure exposure coefficient Kz = c (max(z, 15 ft)/zg)^(2/α) at
/// height `z`; c, α and zg by edition and exposure.
///
/// The formula value, not the rounded table value (they differ by up to 0.01,
/// in 7-22 up to 0.02). Below 15 ft the value at 15 ft holds. The 0.70 floor
/// of exposure B belongs to chapter 28 (low-rise buildings) and is not applied.
///
/// Source: 7-10 Table 29.3-1, 7-16 Table 26.10-1, 7-22 Tables 26.10-1 and
/// 26.11-1.
///
/// # Errors
/// `z` outside 0 to 500 ft.
///
/// ```
/// use groundline::{units::ft, wind::{exposure_coefficient, Edition, Exposure}};
/// let kz = exposure_coefficient(Edition::Asce7_10, Exposure::D, ft(20.0))?;
/// assert!((kz - 1.083).abs() < 0.0005);
/// # Ok::<(), groundline::Error>(())
/// ```
#[inline]
pub fn exposure_coefficient(edition: Edition, exposure: Exposure, z: Length) -> Result<f64, Error> {
    let z = within("height", z, ft(0.0), ft(500.0))?;
    let (coefficient, alpha, gradient) = terrain(edition, exposure);
    let relative = z.value.max(ft(15.0).value) / ft(gradient).value;
    Ok(coefficient * relative.powf(2.0 / alpha))
}

/// The ground elevation factor Ke = exp(−0.0000362 z_e), z_e in ft, or
/// exp(−0.000119 z_e), z_e in m.
///
/// Source: 7-16 and 7-22 Table 26.9-1. Below sea level it exceeds 1.
///
/// # Errors
/// Outside −1 500 to 20 000 ft.
#[inline]
pub fn ground_elevation_factor(
    elevation: Length,
    constants: PrintedConstants,
) -> Result<f64, Error> {
    let elevation = within("ground elevation", elevation, ft(-1_500.0), ft(20_000.0))?;
    Ok(constants.elevation_exponent(elevation).exp())
}

/// A velocity pressure without Kd, as 7-22 prints it.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct UndirectedPressure(Pressure);

impl UndirectedPressure {
    /// The pressure as printed.
    #[inline]
    pub const fn pressure(self) -> Pressure {
        self.0
    }

    /// With the directionality factor of walls and signs, once.
    #[must_use]
    #[inline]
    pub fn with_directionality(self) -> DirectionalPressure {
        DirectionalPressure(self.0 * DIRECTIONALITY)
    }
}

/// A velocity pressure with Kd in it, as 7-10 and 7-16 print it. Strength
/// level.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct DirectionalPressure(Pressure);

impl DirectionalPressure {
    /// The pressure.
    #[inline]
    pub const fn pressure(self) -> Pressure {
        self.0
    }
}

/// The velocity pressure as the edition prints it.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum PrintedPressure {
    /// With Kd: 7-10, 7-16.
    Directional(DirectionalPressure),
    /// Without Kd: 7-22.
    Undirected(UndirectedPressure),
}

/// The velocity pressure at one height, with everything it is made of.
///
/// ```
/// use groundline::{units::{ft, mph, psf, Measurable}, wind::*};
/// let v = BasicWindSpeed::strength_level(mph(155.0))?;
/// let site = AsceSite::new(Edition::Asce7_10, v, Exposure::D);
/// let q = VelocityPressure::at(&site, ft(20.0))?;
/// assert!((q.directional().pressure().to(psf) - 56.62).abs() < 0.01);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct VelocityPressure {
    site: AsceSite,
    height: Length,
    kz: f64,
    kzt: f64,
    ke: f64,
    undirected: UndirectedPressure,
}

impl VelocityPressure {
    /// At a height above ground: for walls, the top.
    ///
    /// # Errors
    /// Height outside 0 to 500 ft.
    #[inline]
    pub fn at(site: &AsceSite, height: Length) -> Result<Self, Error> {
        let kz = exposure_coefficient(site.edition(), site.exposure(), height)?;
        let ke = match site.elevation() {
            Some(elevation) => ground_elevation_factor(elevation, site.constants())?,
            None => 1.0,
        };
        let v = site.speed().speed().value;
        let kzt = site.topographic_factor(height);
        let q = site.constants().velocity_pressure() * kz * kzt * ke * v * v;
        Ok(Self {
            site: *site,
            height,
            kz,
            kzt,
            ke,
            undirected: UndirectedPressure(Pressure::from_si(q)),
        })
    }

    /// The site.
    #[inline]
    pub const fn site(&self) -> &AsceSite {
        &self.site
    }
    /// The height.
    #[inline]
    pub const fn height(&self) -> Length {
        self.height
    }
    /// Kz.
    #[inline]
    pub const fn kz(&self) -> f64 {
        self.kz
    }
    /// Kzt at that height.
    #[inline]
    pub const fn kzt(&self) -> f64 {
        self.kzt
    }
    /// Ke; 1 where no elevation was given.
    #[inline]
    pub const fn ke(&self) -> f64 {
        self.ke
    }

    /// The pressure with Kd in it, in every edition: what a wall pressure is
    /// made from.
    #[inline]
    pub fn directional(&self) -> DirectionalPressure {
        self.undirected.with_directionality()
    }

    /// The pressure as the edition prints it.
    #[inline]
    pub fn printed(&self) -> PrintedPressure {
        match self.site.edition() {
            Edition::Asce7_10 | Edition::Asce7_16 => {
                PrintedPressure::Directional(self.directional())
            }
            Edition::Asce7_22 => PrintedPressure::Undirected(self.undirected),
        }
    }

    /// Writes the working; the height is the top of the fence.
    pub fn write(&self, sheet: &mut Worksheet) {
        self.write_at("height of the top of the fence", sheet);
    }

    /// Writes the basic wind speed and what it stands for.
    fn write_speed(&self, sheet: &mut Worksheet) {
        sheet.remark(format!("Wind speed: {}.", self.site.speed_basis()));
        if let Some(period) = self.site.return_period() {
            let step = Step::given_number(
                "R",
                "return period of the wind speed, years",
                period.years(),
            );
            sheet.push(step.cite(&source::ASCE7_RETURN_PERIOD));
        }
        let speed = self.site.speed();
        let meaning = "basic wind speed, 3-second gust, strength level";
        sheet.push(match speed.allowable_stress_speed() {
            None => Step::given("V", meaning, speed.speed()),
            Some(nominal) => Step::computed("V", meaning, "Va/sqrt(0.6)", speed.speed())
                .with("Va", nominal)
                .cite(&source::IBC_1609_3_1),
        });
    }

    /// Writes the working at a height of this meaning.
    pub(super) fn write_at(&self, height: &'static str, sheet: &mut Worksheet) {
        let edition = self.site.edition();
        sheet.section("Velocity pressure");
        sheet.remark(format!(
            "{}, exposure {}.",
            edition.name(),
            self.site.exposure().letter()
        ));
        self.write_speed(sheet);
        sheet.push(Step::given("h", height, self.height));
        let kz_formula = kz_formula(edition, self.site.exposure(), sheet);
        sheet.push(
            Step::computed_number("Kz", "exposure coefficient", kz_formula, self.kz)
                .with("h", self.height)
                .cite(edition.kz_citation()),
        );
        match self.site.relief() {
            Relief::Factor(kzt) => {
                let step = Step::given_number("Kzt", "topographic factor", *kzt);
                sheet.push(step.cite(&source::ASCE7_26_8));
            }
            Relief::Feature(topography) => {
                topography.write(self.site.exposure(), self.height, sheet);
            }
        }
        if let Some(elevation) = self.site.elevation() {
            let formula = match self.site.constants() {
                PrintedConstants::Customary => {
                    sheet.by_system("exp(-0.0000362*ze)", "exp(-0.000118766*ze)")
                }
                PrintedConstants::Si => {
                    sheet.by_system("exp(-0.0000362712*ze)", "exp(-0.000119*ze)")
                }
            };
            sheet.push(
                Step::computed_number("Ke", "ground elevation factor", formula, self.ke)
                    .with("ze", elevation)
                    .cite(&source::ASCE7_26_9),
            );
        } else if edition != Edition::Asce7_10 {
            sheet.push(Step::given_number(
                "Ke",
                "ground elevation factor, 1 where no elevation is given",
                1.0,
            ));
        }
        sheet.push(
            Step::given_number("Kd", "directionality factor", DIRECTIONALITY)
                .cite(&source::ASCE7_26_6),
        );
        let (constant, converted) = match (self.site.constants(), sheet.system) {
            (PrintedConstants::Customary, UnitSystem::Us) => ("0.00256", false),
            (PrintedConstants::Customary, UnitSystem::Si) => ("0.613344", true),
            (PrintedConstants::Si, UnitSystem::Us) => ("0.00255856", true),
            (PrintedConstants::Si, UnitSystem::Si) => ("0.613", false),
        };
        let elevation = if edition == Edition::Asce7_10 {
            ""
        } else {
            "*Ke"
        };
        let (directed, step) = match self.printed() {
            PrintedPressure::Directional(q) => (
                "*Kd",
                Step::computed("q", "velocity pressure at h, Kd included", "", q.pressure())
                    .with_number("Kd", DIRECTIONALITY),
            ),
            PrintedPressure::Undirected(q) => (
                "",
                Step::computed("q", "velocity pressure at h, without Kd", "", q.pressure()),
            ),
        };
        let mut step = step;
        step.formula = format!("{constant}*Kz*Kzt{directed}{elevation}*V^2").into();
        if edition != Edition::Asce7_10 {
            step = step.with_number("Ke", self.ke);
        }
        if converted {
            sheet.remark(
                "The velocity pressure constant is the printed one of the other unit system, \
                 converted.",
            );
        }
        sheet.push(
            step.with_number("Kz", self.kz)
                .with_number("Kzt", self.kzt)
                .with("V", self.site.speed().speed())
                .shown_as(Measure::WindPressure)
                .cite(edition.velocity_pressure_citation()),
        );
    }
}

/// The exposure formula with its numbers.
fn kz_formula(edition: Edition, exposure: Exposure, sheet: &Worksheet) -> &'static str {
    match (edition, exposure) {
        (Edition::Asce7_22, Exposure::B) => sheet.by_system(
            "2.41*(max(h, 15)/3280)^(2/7.5)",
            "2.41*(max(h, 4.572)/999.744)^(2/7.5)",
        ),
        (Edition::Asce7_22, Exposure::C) => sheet.by_system(
            "2.41*(max(h, 15)/2460)^(2/9.8)",
            "2.41*(max(h, 4.572)/749.808)^(2/9.8)",
        ),
        (Edition::Asce7_22, Exposure::D) => sheet.by_system(
            "2.41*(max(h, 15)/1935)^(2/11.5)",
            "2.41*(max(h, 4.572)/589.788)^(2/11.5)",
        ),
        (_, Exposure::B) => sheet.by_system(
            "2.01*(max(h, 15)/1200)^(2/7)",
            "2.01*(max(h, 4.572)/365.76)^(2/7)",
        ),
        (_, Exposure::C) => sheet.by_system(
            "2.01*(max(h, 15)/900)^(2/9.5)",
            "2.01*(max(h, 4.572)/274.32)^(2/9.5)",
        ),
        (_, Exposure::D) => sheet.by_system(
            "2.01*(max(h, 15)/700)^(2/11.5)",
            "2.01*(max(h, 4.572)/213.36)^(2/11.5)",
        ),
    }
}
