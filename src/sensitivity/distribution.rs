//! Distributions of an input, as the ratio of what it turns out to be to what the
//! plan has: mean over nominal and coefficient of variation, as the literature
//! tells them.
//!
//! Normal; lognormal; uniform; Gumbel of greatest values, F = exp(−exp(−(x − m)/s))
//! with s = σ √6/π and m = mean − γ s (γ = 0.577216). Mathematics.

use crate::error::{Error, number_within};
use crate::field_test::distribution::{normal, normal_inverse};
use core::f64::consts::PI;

/// Euler's constant.
const EULER: f64 = 0.577_215_664_901_532_9;

/// How the ratio of an input to its value in the plan is distributed.
///
/// ```
/// use groundline::sensitivity::Distribution;
/// // Soil as presumed on the mean, coefficient of variation 30 %.
/// let soil = Distribution::lognormal(1.0, 0.3)?;
/// // Greatest speed in fifty years, supposed: mean 0.82 of the speed of the map,
/// // deviation 0.14 of it.
/// let wind = Distribution::gumbel(0.82, 0.14)?;
/// assert!(wind.share_below(1.0) > 0.85);
/// assert!((soil.quantile(0.5)? - 1.0 / 1.09_f64.sqrt()).abs() < 1e-9);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Distribution(Kind);

#[derive(Debug, Clone, Copy, PartialEq)]
enum Kind {
    /// Mean, deviation.
    Normal(f64, f64),
    /// Mean and deviation of the logarithm.
    Lognormal(f64, f64),
    /// Ends.
    Uniform(f64, f64),
    /// Mode and scale.
    Gumbel(f64, f64),
}

fn moments(mean: f64, deviation: f64) -> Result<(f64, f64), Error> {
    let mean = number_within("mean ratio", mean, 0.01, 100.0)?;
    let deviation = number_within("deviation of the ratio", deviation, 1e-6 * mean, 2.0 * mean)?;
    Ok((mean, deviation))
}

impl Distribution {
    /// Normal, of a mean ratio and a standard deviation.
    ///
    /// # Errors
    /// Mean outside 0.01 to 100; deviation outside 10⁻⁶ to 2 of the mean.
    pub fn normal(mean: f64, deviation: f64) -> Result<Self, Error> {
        let (mean, deviation) = moments(mean, deviation)?;
        Ok(Self(Kind::Normal(mean, deviation)))
    }

    /// Lognormal, of a mean ratio and a standard deviation, not of its logarithm.
    ///
    /// # Errors
    /// As [`Distribution::normal`].
    pub fn lognormal(mean: f64, deviation: f64) -> Result<Self, Error> {
        let (mean, deviation) = moments(mean, deviation)?;
        let variance = (deviation / mean).powi(2).ln_1p();
        Ok(Self(Kind::Lognormal(
            mean.ln() - 0.5 * variance,
            variance.sqrt(),
        )))
    }

    /// Uniform, from one ratio to another.
    ///
    /// # Errors
    /// Least outside 0.001 to 100, greatest not above it or beyond 1 000.
    pub fn uniform(least: f64, most: f64) -> Result<Self, Error> {
        let least = number_within("least ratio", least, 1e-3, 100.0)?;
        let most = number_within("greatest ratio", most, least * (1.0 + 1e-9), 1e3)?;
        Ok(Self(Kind::Uniform(least, most)))
    }

    /// Gumbel of greatest values, for wind, of a mean ratio and a standard
    /// deviation.
    ///
    /// # Errors
    /// As [`Distribution::normal`].
    pub fn gumbel(mean: f64, deviation: f64) -> Result<Self, Error> {
        let (mean, deviation) = moments(mean, deviation)?;
        let scale = deviation * 6.0_f64.sqrt() / PI;
        Ok(Self(Kind::Gumbel(mean - EULER * scale, scale)))
    }

    /// Its name.
    pub const fn name(&self) -> &'static str {
        match self.0 {
            Kind::Normal(..) => "normal",
            Kind::Lognormal(..) => "lognormal",
            Kind::Uniform(..) => "uniform",
            Kind::Gumbel(..) => "Gumbel",
        }
    }

    /// Its mean, before any truncation.
    pub fn mean(&self) -> f64 {
        match self.0 {
            Kind::Normal(mean, _) => mean,
            Kind::Lognormal(mean, deviation) => (mean + 0.5 * deviation * deviation).exp(),
            Kind::Uniform(least, most) => 0.5 * (least + most),
            Kind::Gumbel(mode, scale) => mode + EULER * scale,
        }
    }

    /// Its standard deviation, before any truncation.
    pub fn deviation(&self) -> f64 {
        match self.0 {
            Kind::Normal(_, deviation) => deviation,
            Kind::Lognormal(_, deviation) => self.mean() * (deviation * deviation).exp_m1().sqrt(),
            Kind::Uniform(least, most) => (most - least) / 12.0_f64.sqrt(),
            Kind::Gumbel(_, scale) => scale * PI / 6.0_f64.sqrt(),
        }
    }

    /// The share of it below a ratio.
    pub fn share_below(&self, ratio: f64) -> f64 {
        match self.0 {
            Kind::Normal(mean, deviation) => normal((ratio - mean) / deviation),
            Kind::Lognormal(mean, deviation) => {
                if ratio > 0.0 {
                    normal((ratio.ln() - mean) / deviation)
                } else {
                    0.0
                }
            }
            Kind::Uniform(least, most) => ((ratio - least) / (most - least)).clamp(0.0, 1.0),
            Kind::Gumbel(mode, scale) => (-(-(ratio - mode) / scale).exp()).exp(),
        }
    }

    /// The ratio that a share of it is below.
    ///
    /// # Errors
    /// Share outside 10⁻¹² to 1 − 10⁻¹².
    pub fn quantile(&self, share: f64) -> Result<f64, Error> {
        number_within("share", share, 1e-12, 1.0 - 1e-12).map(|share| self.at(share))
    }

    fn at(&self, share: f64) -> f64 {
        match self.0 {
            Kind::Normal(mean, deviation) => mean + deviation * normal_inverse(share),
            Kind::Lognormal(mean, deviation) => (mean + deviation * normal_inverse(share)).exp(),
            Kind::Uniform(least, most) => least + (most - least) * share,
            Kind::Gumbel(mode, scale) => mode - scale * (-share.ln()).ln(),
        }
    }

    /// The quantile of the part of it between two ratios, least below most.
    pub(super) fn within(&self, least: f64, most: f64, share: f64) -> f64 {
        let (from, to) = (self.share_below(least), self.share_below(most));
        // The ends of a share of 0 or 1 may be infinite.
        self.at(from + share * (to - from)).max(least).min(most)
    }
}
