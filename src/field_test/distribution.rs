//! Quantiles of the normal, Student's and the non-central t distribution, as
//! small as the statistics of a few tests need.
//!
//! - Φ by the series of the error function near zero and its continued fraction
//!   in the tails (Abramowitz and Stegun 7.1.6, 7.1.14; from memory);
//! - t of ν degrees of freedom, a whole number, by its finite sum (26.7.3,
//!   26.7.4; from memory), of a ν between whole numbers by the continued fraction
//!   of the incomplete beta function (26.5.8, 26.7.1; from memory);
//! - non-central t by its definition, Φ(t s − δ) integrated over the
//!   distribution of the sample deviation.
//!
//! Compared with scipy in the tests.

use crate::error::{Error, number_within};
use crate::uplift::erf;
use core::f64::consts::{FRAC_2_PI, FRAC_2_SQRT_PI, PI, SQRT_2};

/// Φ, the standard normal distribution.
pub fn normal(z: f64) -> f64 {
    let x = z.abs() / SQRT_2;
    // Half of erfc.
    let tail = if x < 2.5 {
        0.5 - 0.5 * erf(x)
    } else if x < 27.0 {
        let mut fraction = x;
        for k in (1..=80).rev() {
            fraction = x + 0.5 * f64::from(k) / fraction;
        }
        0.25 * FRAC_2_SQRT_PI * (-x * x).exp() / fraction
    } else {
        0.0
    };
    if z.is_nan() {
        f64::NAN
    } else if z > 0.0 {
        1.0 - tail
    } else {
        tail
    }
}

/// Student's distribution of ν degrees of freedom, at least 1.
pub fn student(t: f64, freedom: u32) -> f64 {
    let nu = freedom.max(1);
    let theta = (t / f64::from(nu).sqrt()).atan();
    let (sine, cosine) = theta.sin_cos();
    // The sum of cos powers from 2/3 or 1/2 onwards.
    let even = nu.is_multiple_of(2);
    let start = if even { 1.0 } else { cosine };
    let (mut term, mut sum) = (start, 0.0);
    let mut k = u32::from(!even);
    while k + 2 <= nu {
        sum += term;
        k += 2;
        let step = f64::from(k);
        term *= cosine * cosine * (step - 1.0) / step;
    }
    let central = if even {
        sine * sum
    } else {
        FRAC_2_PI * (theta + sine * sum)
    };
    0.5 + 0.5 * central
}

/// The value a share of a standard normal is below.
///
/// # Errors
/// Share outside 1e-6 to 1 − 1e-6.
///
/// ```
/// use groundline::field_test::distribution::normal_quantile;
/// assert!((normal_quantile(0.95)? - 1.644_854).abs() < 1e-6);
/// # Ok::<(), groundline::Error>(())
/// ```
pub fn normal_quantile(share: f64) -> Result<f64, Error> {
    let share = checked(share)?;
    Ok(inverse(normal, share))
}

/// [`normal_quantile`] of any share above 0 and below 1; the tails as precise as
/// the share is.
pub(crate) fn normal_inverse(share: f64) -> f64 {
    if share > 0.5 {
        -inverse(normal, 1.0 - share)
    } else {
        inverse(normal, share)
    }
}

/// The value a share of Student's t of ν degrees of freedom is below.
///
/// # Errors
/// Share outside 1e-6 to 1 − 1e-6, ν outside 1 to 10 000.
pub fn student_quantile(share: f64, freedom: u32) -> Result<f64, Error> {
    let share = checked(share)?;
    number_within("degrees of freedom", f64::from(freedom), 1.0, 10_000.0)?;
    Ok(inverse(|t| student(t, freedom), share))
}

/// Returns the quantile of Student's t of a ν that need not be whole, at least 1
/// and at most 1e4.
pub(super) fn fractional_quantile(share: f64, nu: f64) -> Result<f64, Error> {
    let share = checked(share)?;
    let nu = number_within("degrees of freedom", nu, 1.0, 10_000.0)?;
    Ok(inverse(|t| fractional_student(t, nu), share))
}

/// Student's distribution of a ν that need not be whole: the tail beyond |t| is
/// half of I(x; ν/2, 1/2), x = ν/(ν + t²), I the regularized incomplete beta
/// function.
fn fractional_student(t: f64, nu: f64) -> f64 {
    let x = nu / (nu + t * t);
    let (a, b) = (0.5 * nu, 0.5);
    // Γ(1/2) = √π.
    let factor = a * x.ln() + b * (1.0 - x).ln() + ln_gamma(a + b) - ln_gamma(a) - 0.5 * PI.ln();
    let beta = if x >= 1.0 {
        1.0
    } else if x < (a + 1.0) / (a + b + 2.0) {
        factor.exp() * beta_fraction(x, a, b) / a
    } else {
        1.0 - factor.exp() * beta_fraction(1.0 - x, b, a) / b
    };
    if t > 0.0 {
        1.0 - 0.5 * beta
    } else {
        0.5 * beta
    }
}

/// The continued fraction of the incomplete beta function, from its tail: a
/// number of terms that is enough for x below (a + 1)/(a + b + 2).
fn beta_fraction(x: f64, a: f64, b: f64) -> f64 {
    let mut fraction = 1.0;
    for k in (1..=400).rev() {
        let m = f64::from(k / 2);
        let term = if k % 2 == 0 {
            m * (b - m) * x / ((a + 2.0 * m - 1.0) * (a + 2.0 * m))
        } else {
            -(a + m) * (a + b + m) * x / ((a + 2.0 * m) * (a + 2.0 * m + 1.0))
        };
        fraction = 1.0 + term / fraction;
    }
    1.0 / fraction
}

/// ln Γ of a positive number: Stirling's series from 20 up, by recursion below.
fn ln_gamma(x: f64) -> f64 {
    let (mut z, mut product) = (x, 1.0);
    while z < 20.0 {
        product *= z;
        z += 1.0;
    }
    let square = z * z;
    let series = (1.0 / 12.0 - (1.0 / 360.0 - 1.0 / (1_260.0 * square)) / square) / z;
    (z - 0.5) * z.ln() - z + 0.5 * (2.0 * PI).ln() + series - product.ln()
}

/// The one-sided tolerance factor k: with this confidence, a share of the
/// population lies above mean − k s of n tests, normal, spread unknown.
///
/// # Errors
/// n outside 3 to 1 000, share outside 0.5 to 0.999, confidence outside 0.5 to
/// 0.999.
///
/// ```
/// use groundline::field_test::distribution::tolerance_factor;
/// assert!((tolerance_factor(5, 0.95, 0.75)? - 2.463).abs() < 1e-3);
/// # Ok::<(), groundline::Error>(())
/// ```
pub fn tolerance_factor(tests: u32, share: f64, confidence: f64) -> Result<f64, Error> {
    number_within("tests", f64::from(tests), 3.0, 1_000.0)?;
    let share = number_within("share of the population", share, 0.5, 0.999)?;
    let confidence = number_within("confidence", confidence, 0.5, 0.999)?;
    let root = f64::from(tests).sqrt();
    let delta = normal_quantile(share)? * root;
    let freedom = f64::from(tests - 1);
    Ok(inverse(|t| non_central(t, freedom, delta), confidence) / root)
}

/// Non-central t by Simpson's rule over the sample deviation s in σ: its
/// density is 2 (ν/2)^(ν/2)/Γ(ν/2) s^(ν−1) e^(−ν s²/2).
fn non_central(t: f64, nu: f64, delta: f64) -> f64 {
    const PARTS: u32 = 2_000;
    // Beyond this the density is nothing.
    let most = 1.0 + 9.0 / (2.0 * nu).sqrt();
    let step = most / f64::from(PARTS);
    let constant = 2.0_f64.ln() + 0.5 * nu * (0.5 * nu).ln() - ln_gamma_half(nu);
    let at = |s: f64| {
        if s <= 0.0 {
            let density = if nu < 1.5 { constant.exp() } else { 0.0 };
            return density * normal(-delta);
        }
        let density = (constant + (nu - 1.0) * s.ln() - 0.5 * nu * s * s).exp();
        density * normal(t * s - delta)
    };
    let mut sum = at(0.0) + at(most);
    for i in 1..PARTS {
        let weight = if i % 2 == 1 { 4.0 } else { 2.0 };
        sum += weight * at(f64::from(i) * step);
    }
    sum * step / 3.0
}

/// ln Γ(ν/2) of a whole number ν, by recursion from Γ(1) or Γ(1/2).
fn ln_gamma_half(nu: f64) -> f64 {
    let (mut x, mut sum) = if nu % 2.0 == 0.0 {
        (1.0, 0.0)
    } else {
        (0.5, 0.5 * PI.ln())
    };
    while x < 0.5 * nu - 0.25 {
        sum += x.ln();
        x += 1.0;
    }
    sum
}

fn checked(share: f64) -> Result<f64, Error> {
    number_within("share", share, 1e-6, 1.0 - 1e-6)
}

/// Where a distribution reaches a share: a bracket doubled until it holds it,
/// then halved; at most 200 evaluations.
fn inverse(distribution: impl Fn(f64) -> f64, share: f64) -> f64 {
    let (mut low, mut high) = (-1.0, 1.0);
    while distribution(low) > share && low > -1e9 {
        low *= 2.0;
    }
    while distribution(high) < share && high < 1e9 {
        high *= 2.0;
    }
    for _ in 0..110 {
        let middle = 0.5 * (low + high);
        if high - low <= 1e-13 * middle.abs() {
            break;
        }
        if distribution(middle) < share {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}
