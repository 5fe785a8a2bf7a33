//! Units: exact customary units, the quantities this trade needs, parsing and
//! display in either system.
//!
//! Quantities are [`uom`] types over `f64` in SI base units, so mixing a length
//! with a pressure does not compile:
//!
//! ```compile_fail
//! use groundline::units::{ft, psf};
//! let nonsense = ft(3.0) + psf(20.0);
//! ```
//!
//! Constructors and read-outs are plain functions named after the unit:
//!
//! ```
//! use groundline::units::{ft, inch, m, mph, Measurable};
//! let depth = ft(4.0) + inch(6.0);
//! assert_eq!(depth.to(m), 1.3716);
//! assert_eq!(mph(115.0).to(mph), 115.0);
//! ```
//!
//! `uom`'s own constructors work too, with one warning: its pound-force, psi,
//! kip and cubic inch carry rounded factors. The functions here are exact.
//!
//! Text goes both ways through the same table. Use [`parse`], not `str::parse`:
//! the latter is `uom`'s, with its rounded factors, and takes `NaN ft`.
//!
//! ```
//! use groundline::units::{parse, show, Force, Length, UnitSystem, ft, inch};
//! assert_eq!(parse::<Length>("6' 6\""), Ok(ft(6.0) + inch(6.0)));
//! let weight: Force = parse("120 lb").unwrap();
//! assert_eq!(show(weight, UnitSystem::Us).to_string(), "120 lb");
//! assert_eq!(show(weight, UnitSystem::Si).to_string(), "0.5338 kN");
//! ```

mod display;
mod parse;
mod table;
mod tolerance;

pub use display::{Displayed, Measure, Measured, UnitSystem, round_up, show, show_as, show_up};
pub use parse::{ParseQuantityError, parse};
pub use table::*;
pub(crate) use tolerance::{
    LENGTH_TOL, REL_TOL, at_least, at_most, not_longer, not_shorter, same_length,
};

/// One named unit: its symbol, the other spellings that are read, and its
/// factor to the SI base unit of its dimension.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct UnitDef {
    /// The symbol used in display.
    pub symbol: &'static str,
    /// Other spellings accepted by [`parse`].
    pub aliases: &'static [&'static str],
    /// SI base units in one of this unit.
    si: f64,
}

impl UnitDef {
    /// SI base units in one of this unit, a pure factor.
    pub const fn factor(&self) -> f64 {
        self.si
    }
}

/// The dimensions that have named units.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Dimension {
    /// Length.
    Length,
    /// Area.
    Area,
    /// Volume or section modulus.
    Volume,
    /// Second moment of area.
    SecondMoment,
    /// Speed.
    Velocity,
    /// Pressure, stress or weight per area.
    Pressure,
    /// Force or weight.
    Force,
    /// Force per length.
    LineLoad,
    /// Force per volume.
    ForcePerVolume,
    /// Moment of a force.
    Torque,
    /// Flexural rigidity.
    FlexuralRigidity,
    /// Mass per volume.
    MassDensity,
    /// Plane angle.
    Angle,
    /// A pure number.
    Ratio,
}

impl Dimension {
    /// The plain word for this dimension, as used in messages.
    pub fn word(self) -> &'static str {
        self.row().map_or("quantity", |(_, word, _)| word)
    }

    /// The units of this dimension, in the order they are offered.
    pub fn units(self) -> &'static [UnitDef] {
        self.row().map_or(&[], |(_, _, units)| units)
    }

    fn row(self) -> Option<&'static (Dimension, &'static str, &'static [UnitDef])> {
        table::BY_DIMENSION.iter().find(|row| row.0 == self)
    }

    /// The unit with exactly this symbol.
    fn unit(self, symbol: &str) -> Option<&'static UnitDef> {
        self.units().iter().find(|unit| unit.symbol == symbol)
    }
}

mod sealed {
    /// Keeps [`super::Measurable`] to the quantities of the unit table.
    pub trait Sealed {}
}

/// A quantity of the unit table.
pub trait Measurable: Copy + PartialOrd + sealed::Sealed {
    /// Which dimension this is.
    const DIMENSION: Dimension;

    /// The value in SI base units.
    fn si(self) -> f64;

    /// A quantity from its value in SI base units.
    fn from_si(value: f64) -> Self;

    /// The value in the unit whose constructor is given: `depth.to(ft)`.
    ///
    /// ```
    /// use groundline::units::{inch, ft, Measurable};
    /// assert_eq!(inch(30.0).to(ft), 2.5);
    /// ```
    #[inline]
    fn to(self, unit: impl Fn(f64) -> Self) -> f64 {
        self.si() / unit(1.0).si()
    }
}

/// The moment of a force about a point at `arm` from its line of action.
///
/// The one place where force times length becomes [`Torque`] rather than
/// energy.
#[inline]
pub fn moment(force: Force, arm: Length) -> Torque {
    Torque::from_si(force.value * arm.value)
}

/// The arm at which `force` makes `moment`; a force of nothing (below 1e-200 N)
/// gives a zero arm.
#[inline]
pub fn arm(moment: Torque, force: Force) -> Length {
    if force.value.abs() < 1e-200 {
        Length::from_si(0.0)
    } else {
        Length::from_si(moment.value / force.value)
    }
}

/// The bending moment that a stress on a section modulus makes.
#[inline]
pub fn bending_moment(stress: Pressure, section_modulus: Volume) -> Torque {
    Torque::from_si(stress.value * section_modulus.value)
}
