//! What is refused, and why: small typed errors that name the field, the value
//! and the allowed range.
//!
//! A post that fails a check is an answer, not an error; errors are for inputs
//! no check can be made of.

use crate::units::{Length, Measurable, Measure, Measured, Pressure, UnitSystem};
use core::fmt;

/// An input that is refused.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Error {
    /// A value that is not finite or not in the allowed range (both ends
    /// allowed).
    OutOfRange {
        /// The field.
        field: &'static str,
        /// The value given.
        value: Measured,
        /// The least allowed value.
        least: Measured,
        /// The greatest allowed value.
        most: Measured,
    },
    /// An input that does not go together with another one.
    NotApplicable {
        /// The field.
        field: &'static str,
        /// What is allowed instead, in a few words.
        reason: &'static str,
    },
    /// A post that finds no equilibrium: the ground or the post collapses under
    /// the load, or moves so far that the theory ends.
    NoEquilibrium {
        /// The force that is left over.
        residual: Measured,
        /// After how many iterations.
        iterations: u32,
    },
    /// Shear and moment at grade that turn the post in opposite senses: the
    /// pole formulas of the building code do not cover it.
    OppositeSense {
        /// Ground-line shear.
        shear: Measured,
        /// Ground-line moment.
        moment: Measured,
    },
}

impl Error {
    /// The field the error is about. Its names are stable: a change is a
    /// breaking change.
    #[inline]
    pub fn field(&self) -> &'static str {
        match self {
            Self::OutOfRange { field, .. } | Self::NotApplicable { field, .. } => field,
            Self::OppositeSense { .. } => "shear and moment",
            Self::NoEquilibrium { .. } => "load",
        }
    }

    /// The same error with its numbers shown as another measure.
    #[cold]
    fn shown_as(self, measure: Measure) -> Self {
        match self {
            Self::OutOfRange {
                field,
                value,
                least,
                most,
            } => Self::OutOfRange {
                field,
                value: value.shown_as(measure),
                least: least.shown_as(measure),
                most: most.shown_as(measure),
            },
            other => other,
        }
    }

    /// The error in a unit system; `Display` shows US customary.
    pub fn in_system(&self, system: UnitSystem) -> impl fmt::Display + fmt::Debug {
        InSystem {
            error: *self,
            system,
        }
    }
}

#[derive(Debug)]
struct InSystem {
    error: Error,
    system: UnitSystem,
}

impl fmt::Display for InSystem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let system = self.system;
        match self.error {
            Error::OutOfRange {
                field,
                value,
                least,
                most,
            } => write!(
                f,
                "{field} {} is not allowed: give {} to {}",
                value.in_system(system),
                least.in_system(system),
                most.in_system(system)
            ),
            Error::NotApplicable { field, reason } => write!(f, "{field}: {reason}"),
            Error::NoEquilibrium {
                residual,
                iterations,
            } => write!(
                f,
                "load: no equilibrium, {} left over after {iterations} iterations; the post \
                 collapses or moves beyond what is computed",
                residual.in_system(system)
            ),
            Error::OppositeSense { shear, moment } => write!(
                f,
                "shear {} and moment {} at grade turn the post in opposite senses; \
                 the pole formulas do not cover that",
                shear.in_system(system),
                moment.in_system(system)
            ),
        }
    }
}

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(&self.in_system(UnitSystem::Us), f)
    }
}

impl core::error::Error for Error {}

/// `value` if it is finite and within `least..=most`. A value that rounding of a unit
/// conversion put beyond a limit (by less than 1e-12 of it) is that limit.
#[inline]
pub(crate) fn within<Q: Measurable>(
    field: &'static str,
    value: Q,
    least: Q,
    most: Q,
) -> Result<Q, Error> {
    // Written so that NaN fails.
    if least <= value && value <= most {
        Ok(value)
    } else {
        at_limit(value, least, most).ok_or_else(|| {
            out_of_range(
                field,
                Measured::new(value),
                Measured::new(least),
                Measured::new(most),
            )
        })
    }
}

/// The limit that a value is, up to the rounding of a unit conversion.
#[cold]
fn at_limit<Q: Measurable>(value: Q, least: Q, most: Q) -> Option<Q> {
    let is = |limit: &Q| (value.si() - limit.si()).abs() < limit.si().abs() * 1e-12;
    [least, most].into_iter().find(is)
}

/// [`within`] for sizes of sections, holes and depths, which are told in
/// inches or millimetres.
#[inline]
pub(crate) fn size_within(
    field: &'static str,
    value: Length,
    least: Length,
    most: Length,
) -> Result<Length, Error> {
    within(field, value, least, most).map_err(|error| error.shown_as(Measure::SectionLength))
}

/// [`within`] for stresses of materials.
#[inline]
pub(crate) fn stress_within(
    field: &'static str,
    value: Pressure,
    least: Pressure,
    most: Pressure,
) -> Result<Pressure, Error> {
    within(field, value, least, most).map_err(|error| error.shown_as(Measure::Stress))
}

/// [`within`] for pure numbers.
#[inline]
pub(crate) fn number_within(
    field: &'static str,
    value: f64,
    least: f64,
    most: f64,
) -> Result<f64, Error> {
    if least <= value && value <= most {
        Ok(value)
    } else {
        Err(out_of_range(
            field,
            Measured::number(value),
            Measured::number(least),
            Measured::number(most),
        ))
    }
}

#[cold]
fn out_of_range(field: &'static str, value: Measured, least: Measured, most: Measured) -> Error {
    Error::OutOfRange {
        field,
        value,
        least,
        most,
    }
}
