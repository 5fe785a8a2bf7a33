//! Demand over capacity.

use crate::units::Measurable;
use core::fmt;

/// Demand over capacity: a check passes up to 1.
///
/// Always finite. A demand without any capacity, or one a million times the
/// capacity or more, counts as the greatest value,
/// [`Utilization::NO_CAPACITY`].
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Utilization(f64);

impl Utilization {
    /// No capacity to speak of.
    pub const NO_CAPACITY: Self = Self(1e6);
    /// No demand.
    pub const ZERO: Self = Self(0.0);
    /// Exactly used up.
    pub const FULL: Self = Self(1.0);
    /// What is forgiven above 1 for rounding.
    pub const TOLERANCE: f64 = 1e-9;

    /// The ratio of two like quantities, neither negative.
    #[inline]
    pub(crate) fn of<Q: Measurable>(demand: Q, capacity: Q) -> Self {
        let ratio = demand.si() / capacity.si();
        if demand.si() == 0.0 {
            Self::ZERO
        } else {
            // Also where it is no number.
            Self(ratio.min(Self::NO_CAPACITY.0))
        }
    }

    /// For a demand that meets no capacity at all.
    #[inline]
    pub(crate) fn without_capacity(demand: bool) -> Self {
        if demand {
            Self::NO_CAPACITY
        } else {
            Self::ZERO
        }
    }

    /// The ratio.
    #[inline]
    pub const fn ratio(self) -> f64 {
        self.0
    }

    /// Is it at most 1 (and a billionth, for rounding)?
    #[inline]
    pub fn passes(self) -> bool {
        self.0 <= 1.0 + Self::TOLERANCE
    }

    /// The greater of two.
    #[must_use]
    #[inline]
    pub fn max(self, other: Self) -> Self {
        Self(self.0.max(other.0))
    }
}

impl Eq for Utilization {}

#[expect(
    clippy::derive_ord_xor_partial_ord,
    reason = "never NaN, so the two agree"
)]
impl Ord for Utilization {
    fn cmp(&self, other: &Self) -> core::cmp::Ordering {
        self.0.total_cmp(&other.0)
    }
}

impl fmt::Display for Utilization {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let text = if *self == Self::NO_CAPACITY {
            "no capacity".to_owned()
        } else if !self.passes() && self.0 <= 1.005 {
            // Never show a failing check as 1.00; the double 1.005 is a little less.
            "1.01".to_owned()
        } else {
            format!("{:.2}", self.0)
        };
        f.pad_integral(true, "", &text)
    }
}
