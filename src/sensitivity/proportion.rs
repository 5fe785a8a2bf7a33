//! A share of samples and its sampling error: the score interval of Wilson.
//!
//! With k of n and z of the normal distribution, 1.959 964 for 95 %:
//!
//! (k + z²/2 ± z √(k (n − k)/n + z²/4)) / (n + z²)
//!
//! Unlike p ± z √(p (1 − p)/n) it says something where none, or all, of the samples
//! are above 1.

use crate::error::{Error, number_within};
use crate::source::{self, Citation};

/// The quantile of 97.5 %.
pub(super) const Z: f64 = 1.959_963_984_540_054;

/// So many of so many.
///
/// ```
/// use groundline::sensitivity::Proportion;
/// let share = Proportion::new(15, 148)?;
/// let (low, high) = share.interval();
/// assert!(low < 15.0 / 148.0 && 15.0 / 148.0 < high);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Proportion {
    count: u32,
    of: u32,
}

impl Proportion {
    /// A count of a number of samples.
    ///
    /// # Errors
    /// No samples; a count greater than their number.
    pub fn new(count: u32, of: u32) -> Result<Self, Error> {
        number_within("samples", f64::from(of), 1.0, f64::from(u32::MAX))?;
        number_within("count", f64::from(count), 0.0, f64::from(of))?;
        Ok(Self { count, of })
    }

    /// How many.
    pub const fn count(self) -> u32 {
        self.count
    }

    /// Of how many.
    pub const fn of(self) -> u32 {
        self.of
    }

    /// The share.
    pub fn share(self) -> f64 {
        f64::from(self.count) / f64::from(self.of)
    }

    /// Wilson's interval at 95 %: what sampling alone leaves open.
    pub fn interval(self) -> (f64, f64) {
        let (k, n) = (f64::from(self.count), f64::from(self.of));
        let middle = k + 0.5 * Z * Z;
        let half = Z * (k * (n - k) / n + 0.25 * Z * Z).sqrt();
        let whole = n + Z * Z;
        // Rounding must not take it past its ends.
        let low = if self.count == 0 { 0.0 } else { middle - half };
        let high = if self.count == self.of {
            whole
        } else {
            middle + half
        };
        (low / whole, high / whole)
    }

    /// Where the interval comes from.
    pub const fn source() -> &'static Citation {
        &source::WILSON
    }
}
