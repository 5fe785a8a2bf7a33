//! Comparison of lengths and ratios up to rounding.
//!
//! The same fence in feet, inches and millimetres is the same fence, so no limit may
//! depend on the last bit of a conversion. Lengths compare to a hundredth of an inch
//! (0.254 mm, finer than anyone sets a post), ratios and angles to a billionth of the
//! limit.

use super::Length;

/// What rounding may take from a ratio, of the limit.
pub(crate) const REL_TOL: f64 = 1e-9;

/// The difference up to which two lengths are the same: 0.01 in.
pub(crate) const LENGTH_TOL: Length = Length {
    dimension: core::marker::PhantomData,
    units: core::marker::PhantomData,
    value: 0.000_254,
};

/// Returns whether a ratio is at least a limit, up to rounding.
#[inline]
pub(crate) fn at_least(value: f64, limit: f64) -> bool {
    value >= limit - limit.abs() * REL_TOL
}

/// Returns whether a ratio is at most a limit, up to rounding.
#[inline]
pub(crate) fn at_most(value: f64, limit: f64) -> bool {
    value <= limit + limit.abs() * REL_TOL
}

/// Returns whether two lengths are the same, to [`LENGTH_TOL`].
#[inline]
pub(crate) fn same_length(one: Length, other: Length) -> bool {
    (one - other).value.abs() <= LENGTH_TOL.value
}

/// Returns whether a length is at least a limit, to [`LENGTH_TOL`].
#[inline]
pub(crate) fn not_shorter(length: Length, limit: Length) -> bool {
    length >= limit - LENGTH_TOL
}

/// Returns whether a length is at most a limit, to [`LENGTH_TOL`].
#[inline]
pub(crate) fn not_longer(length: Length, limit: Length) -> bool {
    length <= limit + LENGTH_TOL
}
