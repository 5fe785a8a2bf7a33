//! Friction between ground and shaft.
//!
//! - presumptive: a sixth of the presumptive bearing, at most 500 psf (IBC
//!   1810.3.3.1.4; quoted);
//! - α su, undrained: α by API RP 2A, ½ ψ^(−½) up to ψ = 1 and ½ ψ^(−¼) beyond,
//!   ψ = su/σ′, at most 1; or by the drilled-shaft practice, 0.55 to su/pa = 1.5
//!   and 0.55 − 0.1 (su/pa − 1.5) to 2.5, pa = 101.3 kPa, with su of UU tests; or
//!   by GEC-10, 0.30 + 0.17 pa/su, with su of CIUC tests (all from memory);
//! - K σ′ tan δ, drained: K of tension, 0.4 drilled (NAVFAC; from memory), δ the
//!   friction angle of the shaft.
//!
//! su is the undrained strength and σ′ the effective vertical stress at a depth.
//!
//! Shallow integrals are small; where the top is excluded (frost, cracks) little
//! is left.

use crate::error::{Error, number_within, size_within, within};
use crate::profile::Profile;
use crate::source::{self, Citation};
use crate::units::{Angle, Area, Force, Length, Measurable, Pressure, deg, inch, kpa, m, psf};
use core::f64::consts::PI;

/// Friction by the building code: a sixth of the presumptive bearing, at most
/// 500 psf. Allowable.
///
/// # Errors
/// Bearing outside 0 to 20 000 psf.
///
/// ```
/// use groundline::{units::{Measurable, psf}, uplift::presumptive_friction};
/// assert!((presumptive_friction(psf(1_500.0))?.to(psf) - 250.0).abs() < 1e-9);
/// assert!((presumptive_friction(psf(4_000.0))?.to(psf) - 500.0).abs() < 1e-9);
/// # Ok::<(), groundline::Error>(())
/// ```
pub fn presumptive_friction(bearing: Pressure) -> Result<Pressure, Error> {
    let bearing = within("bearing pressure", bearing, psf(0.0), psf(20_000.0))?;
    let (sixth, most) = (bearing / 6.0, psf(500.0));
    Ok(if sixth < most { sixth } else { most })
}

/// α of API RP 2A: ½ ψ^(−½) up to ψ = su/σ′ = 1 and ½ ψ^(−¼) beyond, at most 1.
/// From memory.
///
/// # Errors
/// su outside 1 kPa to 1 MPa, σ′ outside 0.1 kPa to 10 MPa.
pub fn api_alpha(su: Pressure, effective: Pressure) -> Result<f64, Error> {
    let su = within("undrained strength", su, kpa(1.0), kpa(1_000.0))?;
    let stress = within("effective stress", effective, kpa(0.1), kpa(10_000.0))?;
    Ok(api_alpha_of(su.value / stress.value))
}

fn api_alpha_of(psi: f64) -> f64 {
    let power = if psi <= 1.0 { -0.5 } else { -0.25 };
    (0.5 * psi.powf(power)).min(1.0)
}

/// Atmospheric pressure.
fn pa() -> Pressure {
    kpa(101.3)
}

/// Undrained strength over atmospheric pressure, as far as the α of drilled shafts
/// go.
fn shaft_ratio(su: Pressure) -> Result<f64, Error> {
    let su = within("undrained strength", su, kpa(1.0), pa() * 2.501)?;
    Ok((su / pa()).value)
}

/// Returns α of the older drilled-shaft practice (O'Neill and Reese, FHWA-IF-99-025):
/// 0.55 to su/pa = 1.5, and 0.55 − 0.1 (su/pa − 1.5) to 2.5, pa = 101.3 kPa. From
/// memory.
///
/// su is the undrained strength of unconsolidated undrained (UU) triaxial
/// compression. The strength of consolidated undrained (CIUC) tests is greater and
/// belongs to [`gec10_alpha`]; a vane or a pocket penetrometer gives neither of the
/// two without a correction. The exclusion of the top 5 ft is a rule of bridges
/// that would leave most posts nothing; it is not applied.
///
/// # Errors
/// su outside 1 kPa to 253.25 kPa (su/pa up to 2.5, a thousandth over for rounded values).
pub fn drilled_shaft_alpha(su: Pressure) -> Result<f64, Error> {
    Ok(0.55 - 0.1 * (shaft_ratio(su)? - 1.5).max(0.0))
}

/// Returns α of GEC-10 (FHWA-NHI-18-024) for drilled shafts: 0.30 + 0.17 pa/su, pa =
/// 101.3 kPa, at most 1. From memory.
///
/// su is the undrained strength of consolidated undrained triaxial compression
/// (CIUC), on samples consolidated to the stress in the ground; with the lower su of
/// a UU test α comes out too great. Below su = 0.243 pa the limit of 1 governs. The
/// upper limit of su is that of [`drilled_shaft_alpha`]: beyond it the ground is a
/// soft rock, with methods of its own.
///
/// # Errors
/// su outside 1 kPa to 253.25 kPa.
///
/// ```
/// use groundline::{units::kpa, uplift::{drilled_shaft_alpha, gec10_alpha}};
/// assert!((gec10_alpha(kpa(101.3))? - 0.47).abs() < 1e-12);
/// assert!(gec10_alpha(kpa(50.0))? > drilled_shaft_alpha(kpa(50.0))?);
/// # Ok::<(), groundline::Error>(())
/// ```
pub fn gec10_alpha(su: Pressure) -> Result<f64, Error> {
    Ok((0.30 + 0.17 / shaft_ratio(su)?).min(1.0))
}

/// A shaft between two depths.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shaft {
    perimeter: Length,
    area: Area,
    from: Length,
    to: Length,
}

impl Shaft {
    /// A round shaft of a diameter down to a depth, with a top that is not
    /// counted.
    ///
    /// # Errors
    /// Diameter outside 1 in to 10 ft, depth outside 1 cm to 30 m, excluded top
    /// negative or deeper than the shaft.
    pub fn round(diameter: Length, depth: Length, excluded: Length) -> Result<Self, Error> {
        let d = size_within("diameter", diameter, inch(1.0), inch(120.0))?;
        Self::of(d * PI, d * d * (PI / 4.0), depth, excluded)
    }

    /// A square shaft of a side.
    ///
    /// # Errors
    /// As [`Shaft::round`].
    pub fn square(side: Length, depth: Length, excluded: Length) -> Result<Self, Error> {
        let side = size_within("side", side, inch(1.0), inch(120.0))?;
        Self::of(side * 4.0, side * side, depth, excluded)
    }

    fn of(perimeter: Length, area: Area, depth: Length, excluded: Length) -> Result<Self, Error> {
        let to = size_within("depth", depth, m(0.01), m(30.0))?;
        Ok(Self {
            perimeter,
            area,
            from: size_within("excluded top", excluded, m(0.0), to)?,
            to,
        })
    }

    /// Around it.
    pub const fn perimeter(&self) -> Length {
        self.perimeter
    }
    /// Its cross-section.
    pub const fn area(&self) -> Area {
        self.area
    }
    /// Where it begins to count.
    pub const fn from(&self) -> Length {
        self.from
    }
    /// Its depth.
    pub const fn depth(&self) -> Length {
        self.to
    }
    /// The length that counts.
    pub fn counts(&self) -> Length {
        self.to - self.from
    }
    /// The side that counts.
    pub fn side(&self) -> Area {
        self.perimeter * self.counts()
    }
}

/// What the friction on a shaft is.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Friction {
    /// An allowable stress of the building code; already safe.
    Presumptive(Pressure),
    /// An ultimate stress, the same everywhere: of a report or a test.
    Given(Pressure),
    /// α su with this α, su the undrained strength of the test that α belongs to
    /// ([`drilled_shaft_alpha`], [`gec10_alpha`]). Ultimate.
    Alpha(f64),
    /// α su with α of API RP 2A by depth ([`api_alpha`]). Ultimate.
    AlphaApi,
    /// α su with α of GEC-10 by su ([`gec10_alpha`]), su of CIUC tests. Ultimate.
    AlphaGec10,
    /// K σ′ tan δ of K and δ, σ′ the effective vertical stress. Ultimate.
    Beta(f64, Angle),
    /// An ultimate stress from tests, the same everywhere, and what made it of
    /// them ([`crate::field_test::Characteristic`]). The correlation factors of EN
    /// 1997-1 make no characteristic value of posts and are refused.
    Tested(Pressure, &'static Citation),
}

impl Friction {
    /// K of tension and δ.
    ///
    /// # Errors
    /// K outside 0.1 to 2, δ outside 5° to 45°.
    pub fn beta(k: f64, delta: Angle) -> Result<Self, Error> {
        Ok(Self::Beta(
            number_within("K", k, 0.1, 2.0)?,
            within("friction of the shaft", delta, deg(5.0), deg(45.0))?,
        ))
    }

    /// α given.
    ///
    /// # Errors
    /// Outside 0.05 to 1.
    pub fn alpha(alpha: f64) -> Result<Self, Error> {
        number_within("alpha", alpha, 0.05, 1.0).map(Self::Alpha)
    }

    /// A variant written by hand is as checked as one made by a constructor.
    fn checked(&self) -> Result<(), Error> {
        match self {
            // Not the bearing it is a sixth of.
            Self::Presumptive(stress) => {
                within("presumptive friction", *stress, psf(0.0), psf(500.0 + 1e-9)).map(|_| ())
            }
            Self::Tested(_, basis)
                if [&source::EN1997_CORRELATION, &source::EN1997_GROUND_TESTS].contains(basis) =>
            {
                Err(Error::NotApplicable {
                    field: "friction",
                    reason: "correlation factors of piles give no 5 % value of posts: take a \
                             characteristic value of the tests",
                })
            }
            Self::Given(stress) | Self::Tested(stress, _) => {
                within("friction", *stress, kpa(0.0), kpa(1_000.0)).map(|_| ())
            }
            Self::Alpha(alpha) => Self::alpha(*alpha).map(|_| ()),
            Self::AlphaApi | Self::AlphaGec10 => Ok(()),
            Self::Beta(k, delta) => Self::beta(*k, *delta).map(|_| ()),
        }
    }

    /// Is it allowable already, so that no factor is put on it?
    pub const fn is_allowable(&self) -> bool {
        matches!(self, Self::Presumptive(_))
    }

    /// Where it comes from.
    pub const fn source(&self) -> &'static Citation {
        match self {
            Self::Presumptive(_) => &source::IBC_FRICTION,
            Self::Given(_) => &source::GIVEN,
            Self::Tested(_, basis) => basis,
            Self::Alpha(_) | Self::AlphaApi => &source::ALPHA_METHOD,
            Self::AlphaGec10 => &source::GEC10_ALPHA,
            Self::Beta(..) => &source::BETA_METHOD,
        }
    }

    /// The stress at a depth, ultimate or allowable as
    /// [`Friction::is_allowable`] says; in the discounted top of the profile too.
    ///
    /// # Errors
    /// α where the soil that pushes back has no undrained strength; a presumptive
    /// stress above 500 psf, another outside 0 to 1 MPa, α, K or δ out of range, su out
    /// of the range of [`gec10_alpha`].
    pub fn stress(&self, profile: &Profile, z: Length) -> Result<Pressure, Error> {
        self.checked()?;
        let su = || {
            let soil = profile.bearing_soil(z);
            soil.undrained_strength().ok_or(Error::NotApplicable {
                field: "undrained strength",
                reason: "friction by alpha wants one in every layer of the shaft",
            })
        };
        Ok(match self {
            Self::Presumptive(stress) | Self::Given(stress) | Self::Tested(stress, _) => *stress,
            Self::Alpha(alpha) => su()? * *alpha,
            Self::AlphaApi => {
                let (su, stress) = (su()?, profile.effective_stress(z));
                su * api_alpha_of(su.value / stress.value.max(1.0))
            }
            Self::AlphaGec10 => {
                let su = su()?;
                su * gec10_alpha(su)?
            }
            Self::Beta(k, delta) => profile.effective_stress(z) * (k * delta.value.tan()),
        })
    }

    /// The resistance of a shaft, integrated between the depths where the
    /// ground changes; nothing of the discounted top of the profile. Ultimate, or
    /// allowable as [`Friction::is_allowable`] says.
    ///
    /// # Errors
    /// As [`Friction::stress`]; the shaft is deeper than the ground is described.
    pub fn resistance(&self, profile: &Profile, shaft: &Shaft) -> Result<Force, Error> {
        // Two Gauss points are exact where the stress is linear; α of API is
        // not, so each span is cut in eight.
        const POINTS: [f64; 2] = [0.211_324_865_405_187_1, 0.788_675_134_594_812_9];
        self.checked()?;
        profile.reaches(shaft.depth())?;
        let mut edges = vec![shaft.from.value];
        edges.extend(
            profile
                .breaks(shaft.depth())
                .into_iter()
                .filter(|z| *z > shaft.from.value),
        );
        edges.push(shaft.to.value);
        let mut sum = 0.0;
        for pair in edges.windows(2) {
            let step = (pair[1] - pair[0]) / 8.0;
            let mut from = pair[0];
            for _ in 0..8 {
                for x in POINTS {
                    let z = Length::from_si(from + x * step);
                    if z >= profile.dead_top() {
                        sum += 0.5 * step * self.stress(profile, z)?.value;
                    }
                }
                from += step;
            }
        }
        Ok(Force::from_si(sum * shaft.perimeter.value))
    }
}
