//! Wind speed-up over hills: Kzt = (1 + K1 K2 K3)².
//!
//! - K1 = a H/Lh, H/Lh not above 0.5, a by feature and exposure;
//! - K2 = max(0, 1 − x/(μ Lh)), μ = 1.5, but 4 downwind of an escarpment;
//! - K3 = exp(−γ z/Lh), γ = 3 ridge, 2.5 escarpment, 4 hill.
//!
//! H height of the feature, Lh distance upwind from its crest to where it is
//! half as high, x distance of the fence from the crest, z height above the
//! local ground. Where H/Lh > 0.5, 2 H stands for Lh in K2 and K3.
//!
//! ASCE 7 26.8, Fig. 26.8-1. Exposure C: quoted. Exposures B and D, the rule
//! for steep features, and the limits below which a feature counts for nothing
//! (H under 15 ft, in exposure B 60 ft; H/Lh under 0.2): from memory.
//!
//! Whether a feature counts at all (unobstructed upwind, twice as high as its
//! surroundings, fence in its upper half) is for the user to judge; taking one
//! that does not is heavier.

use super::site::Exposure;
use crate::error::{Error, within};
use crate::source::{self, Citation};
use crate::step::{Step, Worksheet};
use crate::units::REL_TOL;
use crate::units::{Length, ft};

/// What rises.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Feature {
    /// A two-dimensional ridge.
    Ridge,
    /// A two-dimensional escarpment: high ground goes on behind the crest.
    Escarpment,
    /// A three-dimensional, axisymmetric hill.
    Hill,
}

/// On which side of the crest the fence stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Side {
    /// Towards the wind.
    Upwind,
    /// Behind the crest.
    Downwind,
}

/// A hill, ridge or escarpment and where the fence stands on it:
/// Kzt = (1 + K1 K2 K3)².
///
/// K1 = a H/Lh (H/Lh held at 0.5), K2 = max(0, 1 − x/(μ Lh)), K3 = exp(−γ z/Lh):
/// H height of the feature, Lh distance upwind from its crest to half its
/// height, x distance of the fence from the crest, z height above the local
/// ground; a, μ and γ by feature, side and exposure. Where H/Lh > 0.5, 2 H stands
/// for Lh in K2 and K3. Whether the feature counts by its surroundings is for
/// the user to judge.
///
/// Source: ASCE 7 26.8, Fig. 26.8-1, exposure C quoted, the rest from memory.
///
/// ```
/// use groundline::{units::ft, wind::{Exposure, Feature, Side, Topography}};
/// // At the crest of a ridge 100 ft high, half height 250 ft upwind.
/// let ridge = Topography::new(Feature::Ridge, ft(100.0), ft(250.0), ft(0.0), Side::Upwind)?;
/// let speed_up = ridge.speed_up(Exposure::C, ft(0.0));
/// // K1 = 1.45 × 0.4, K2 = K3 = 1.
/// assert!((speed_up.kzt - 1.58_f64.powi(2)).abs() < 1e-12);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Topography {
    feature: Feature,
    height: Length,
    half_length: Length,
    distance: Length,
    side: Side,
}

/// Kzt and what it is made of.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct SpeedUp {
    /// K1.
    pub k1: f64,
    /// K2.
    pub k2: f64,
    /// K3.
    pub k3: f64,
    /// Kzt.
    pub kzt: f64,
    /// The feature is too low or too gentle to count; Kzt is 1.
    pub counts_for_nothing: bool,
    /// Lh, or 2 H of a steep feature.
    pub effective_length: Length,
    /// Where it comes from, with its mark.
    pub source: &'static Citation,
}

impl Topography {
    /// A feature of height H, half length Lh, at a distance x from its crest.
    ///
    /// # Errors
    /// H outside 1 to 10 000 ft, Lh outside 1 to 100 000 ft, x outside 0 to
    /// 1 000 000 ft.
    pub fn new(
        feature: Feature,
        height: Length,
        half_length: Length,
        distance: Length,
        side: Side,
    ) -> Result<Self, Error> {
        Ok(Self {
            feature,
            height: within("height of the hill", height, ft(1.0), ft(10_000.0))?,
            half_length: within(
                "half length of the hill",
                half_length,
                ft(1.0),
                ft(100_000.0),
            )?,
            distance: within(
                "distance from the crest",
                distance,
                ft(0.0),
                ft(1_000_000.0),
            )?,
            side,
        })
    }

    /// a, the factor of H/Lh in K1.
    const fn k1_slope(self, exposure: Exposure) -> f64 {
        let [b, c, d] = match self.feature {
            Feature::Ridge => [1.30, 1.45, 1.55],
            Feature::Escarpment => [0.75, 0.85, 0.95],
            Feature::Hill => [0.95, 1.05, 1.15],
        };
        match exposure {
            Exposure::B => b,
            Exposure::C => c,
            Exposure::D => d,
        }
    }

    /// γ, the decay with height.
    const fn gamma(self) -> f64 {
        match self.feature {
            Feature::Ridge => 3.0,
            Feature::Escarpment => 2.5,
            Feature::Hill => 4.0,
        }
    }

    /// μ, the decay with distance.
    const fn mu(self) -> f64 {
        match (self.feature, self.side) {
            (Feature::Escarpment, Side::Downwind) => 4.0,
            _ => 1.5,
        }
    }

    /// Kzt at a height above the local ground; a height below ground counts as
    /// none.
    #[inline]
    pub fn speed_up(&self, exposure: Exposure, z: Length) -> SpeedUp {
        let steepness = self.height.value / self.half_length.value;
        let least = match exposure {
            Exposure::B => ft(60.0),
            Exposure::C | Exposure::D => ft(15.0),
        };
        let hair = 1.0 - REL_TOL;
        let counts_for_nothing = self.height < least * hair || steepness < 0.2 * hair;
        let steep = steepness > 0.5 * (1.0 + REL_TOL);
        let length = if steep {
            self.height * 2.0
        } else {
            self.half_length
        };
        let k1 = self.k1_slope(exposure) * steepness.min(0.5);
        let k2 = (1.0 - self.distance.value / (self.mu() * length.value)).max(0.0);
        let k3 = (-self.gamma() * z.value.max(0.0) / length.value).exp();
        let root = 1.0 + k1 * k2 * k3;
        SpeedUp {
            k1,
            k2,
            k3,
            kzt: if counts_for_nothing { 1.0 } else { root * root },
            counts_for_nothing,
            effective_length: length,
            source: if exposure == Exposure::C && !steep && !counts_for_nothing {
                &source::ASCE7_KZT
            } else {
                &source::ASCE7_KZT_FROM_MEMORY
            },
        }
    }

    /// Writes Kzt at a height.
    pub(super) fn write(&self, exposure: Exposure, z: Length, sheet: &mut Worksheet) {
        let up = self.speed_up(exposure, z);
        sheet.push(Step::given(
            "H",
            "height of the hill, ridge or escarpment",
            self.height,
        ));
        sheet.push(Step::given(
            "Lh",
            "from crest to half height, upwind",
            self.half_length,
        ));
        if up.counts_for_nothing {
            sheet.push(
                Step::given_number(
                    "Kzt",
                    "topographic factor: the feature is too low or too gentle to count",
                    up.kzt,
                )
                .cite(up.source),
            );
            return;
        }
        let length = up.effective_length;
        if length != self.half_length {
            sheet.push(
                Step::computed("Le", "length of a steep feature", "2*H", length)
                    .with("H", self.height)
                    .cite(up.source),
            );
        }
        sheet.push(
            Step::computed_number("K1", "by feature and exposure", "a*min(H/Lh, 0.5)", up.k1)
                .with_number("a", self.k1_slope(exposure))
                .with("H", self.height)
                .with("Lh", self.half_length)
                .cite(up.source),
        );
        sheet.push(
            Step::computed_number(
                "K2",
                "by distance from the crest",
                "max(1 - x/(mu*L), 0)",
                up.k2,
            )
            .with("x", self.distance)
            .with_number("mu", self.mu())
            .with("L", length)
            .cite(up.source),
        );
        sheet.push(
            Step::computed_number("K3", "by height", "exp(-gamma*z/L)", up.k3)
                .with_number("gamma", self.gamma())
                .with("z", z)
                .with("L", length)
                .cite(up.source),
        );
        sheet.push(
            Step::computed_number("Kzt", "topographic factor", "(1 + K1*K2*K3)^2", up.kzt)
                .with_number("K1", up.k1)
                .with_number("K2", up.k2)
                .with_number("K3", up.k3)
                .cite(up.source),
        );
    }
}
