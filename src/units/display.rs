//! Showing quantities in US customary or SI units with sensible digits.

use super::{Dimension, Length, Measurable, UnitDef};
use core::fmt;

/// The unit system for display.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum UnitSystem {
    /// US customary: feet, inches, pounds-force, psf.
    #[default]
    Us,
    /// SI: metres, millimetres, kilonewtons, kilopascals.
    Si,
}

macro_rules! measures {
    ($( $(#[$doc:meta])* $name:ident = $dimension:ident, $us:literal, $si:literal; )+) => {
        /// What a number measures: picks the unit it is shown in. Several
        /// measures share a dimension (a stress is shown in psi, a wind
        /// pressure in psf).
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
        #[non_exhaustive]
        pub enum Measure { $( $(#[$doc])* $name ),+ }

        impl Measure {
            /// Every measure.
            pub const ALL: &'static [Measure] = &[ $( Measure::$name ),+ ];

            /// The dimension of this measure.
            pub const fn dimension(self) -> Dimension {
                match self { $( Measure::$name => Dimension::$dimension ),+ }
            }

            /// The symbol of the unit it is shown in.
            pub const fn symbol(self, system: UnitSystem) -> &'static str {
                match (self, system) {
                    $( (Measure::$name, UnitSystem::Us) => $us,
                       (Measure::$name, UnitSystem::Si) => $si ),+
                }
            }
        }
    };
}

measures! {
    /// A length along the fence or above ground.
    Length = Length, "ft", "m";
    /// A length of a section or hole.
    SectionLength = Length, "in", "mm";
    /// An area of fence.
    Area = Area, "ft²", "m²";
    /// The area of a section.
    SectionArea = Area, "in²", "mm²";
    /// A volume of material.
    Volume = Volume, "ft³", "m³";
    /// A section modulus.
    SectionModulus = Volume, "in³", "mm³";
    /// A second moment of area.
    SecondMoment = SecondMoment, "in⁴", "mm⁴";
    /// A wind speed.
    Speed = Velocity, "mph", "m/s";
    /// A wind or soil pressure.
    Pressure = Pressure, "psf", "kPa";
    /// A wind pressure fine enough for SI hand calculation.
    WindPressure = Pressure, "psf", "Pa";
    /// A material stress.
    Stress = Pressure, "psi", "MPa";
    /// A force.
    Force = Force, "lb", "kN";
    /// A force per length.
    LineLoad = LineLoad, "lb/ft", "kN/m";
    /// Lateral bearing per depth.
    BearingPerDepth = ForcePerVolume, "psf/ft", "kPa/m";
    /// A unit weight.
    UnitWeight = ForcePerVolume, "pcf", "kN/m³";
    /// A moment.
    Moment = Torque, "lb·ft", "kN·m";
    /// A flexural rigidity.
    FlexuralRigidity = FlexuralRigidity, "lb·in²", "kN·m²";
    /// A mass per volume.
    MassDensity = MassDensity, "kg/m³", "kg/m³";
    /// An angle.
    Angle = Angle, "°", "°";
    /// A pure number.
    Number = Ratio, "", "";
}

impl Measure {
    fn unit(self, system: UnitSystem) -> &'static UnitDef {
        // Every symbol above is in the table (tested); the base unit is a
        // fallback that keeps this total.
        static BASE: UnitDef = UnitDef {
            symbol: "SI",
            aliases: &[],
            si: 1.0,
        };
        self.dimension().unit(self.symbol(system)).unwrap_or(&BASE)
    }

    /// The measure a dimension is shown as when nothing else is said.
    const fn default_of(dimension: Dimension) -> Measure {
        match dimension {
            Dimension::Length => Measure::Length,
            Dimension::Area => Measure::Area,
            Dimension::Volume => Measure::Volume,
            Dimension::SecondMoment => Measure::SecondMoment,
            Dimension::Velocity => Measure::Speed,
            Dimension::Pressure => Measure::Pressure,
            Dimension::Force => Measure::Force,
            Dimension::LineLoad => Measure::LineLoad,
            Dimension::ForcePerVolume => Measure::BearingPerDepth,
            Dimension::Torque => Measure::Moment,
            Dimension::FlexuralRigidity => Measure::FlexuralRigidity,
            Dimension::MassDensity => Measure::MassDensity,
            Dimension::Angle => Measure::Angle,
            Dimension::Ratio => Measure::Number,
        }
    }
}

/// A number that knows what it measures, for errors, worksheets and display.
///
/// It holds the SI value and the [`Measure`]; the unit is chosen when it is
/// shown.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measured {
    measure: Measure,
    si: f64,
}

impl Measured {
    /// A quantity, shown as its dimension usually is.
    pub fn new<Q: Measurable>(quantity: Q) -> Self {
        Self {
            measure: Measure::default_of(Q::DIMENSION),
            si: quantity.si(),
        }
    }

    /// A pure number.
    pub fn number(value: f64) -> Self {
        Self {
            measure: Measure::Number,
            si: value,
        }
    }

    /// The same value shown as another measure of the same dimension; another
    /// dimension is ignored.
    #[must_use]
    pub fn shown_as(self, measure: Measure) -> Self {
        if measure.dimension() == self.measure.dimension() {
            Self { measure, ..self }
        } else {
            self
        }
    }

    /// What it measures.
    pub fn measure(self) -> Measure {
        self.measure
    }

    /// The quantity, if `Q` is its dimension.
    pub fn quantity<Q: Measurable>(self) -> Option<Q> {
        (Q::DIMENSION == self.measure.dimension()).then(|| Q::from_si(self.si))
    }

    /// Returns the display of this quantity in a unit system, to four significant
    /// digits; see [`Displayed`] for other digits.
    pub fn in_system(self, system: UnitSystem) -> Displayed {
        Displayed {
            measured: self,
            system,
            digits: 4,
        }
    }
}

/// Display of a quantity in a unit system.
///
/// The format precision is the number of decimals, as for any number:
/// `{:.1}` of 65.4 in is `65.4 in`. Without a precision, and from 1e12 on, the
/// number has four significant digits, or as many as [`Displayed::significant`]
/// sets, and never fewer than the digits before the decimal point. From 1e12 on
/// and, without a precision, below 1e-6 the number is displayed in full, with an
/// exponent.
///
/// ```
/// use groundline::units::{inch, show_as, Measure, UnitSystem};
/// let depth = show_as(inch(65.4375), Measure::SectionLength, UnitSystem::Us);
/// assert_eq!(depth.to_string(), "65.44 in");
/// assert_eq!(format!("{depth:.1}"), "65.4 in");
/// assert_eq!(depth.significant(3).to_string(), "65.4 in");
/// ```
#[derive(Debug, Clone, Copy)]
#[must_use]
pub struct Displayed {
    measured: Measured,
    system: UnitSystem,
    digits: usize,
}

impl Displayed {
    /// Sets the number of significant digits, 1 to 17; trailing zeros are dropped.
    pub fn significant(self, digits: usize) -> Self {
        Self { digits, ..self }
    }
}

/// Shows a quantity in the usual unit of its dimension.
pub fn show<Q: Measurable>(quantity: Q, system: UnitSystem) -> Displayed {
    Measured::new(quantity).in_system(system)
}

/// Shows a quantity as a given measure of its dimension.
///
/// ```
/// use groundline::units::{inch, show_as, Measure, UnitSystem};
/// let hole = inch(12.0);
/// assert_eq!(show_as(hole, Measure::SectionLength, UnitSystem::Us).to_string(), "12 in");
/// assert_eq!(show_as(hole, Measure::SectionLength, UnitSystem::Si).to_string(), "304.8 mm");
/// ```
pub fn show_as<Q: Measurable>(quantity: Q, measure: Measure, system: UnitSystem) -> Displayed {
    Measured::new(quantity).shown_as(measure).in_system(system)
}

/// Shows a length of a section or hole, in inches or millimetres, rounded up to a
/// whole number of steps: the depth that a person digs to is never less than the
/// depth required. See [`round_up`] for the step.
///
/// ```
/// use groundline::units::{inch, mm, show_up, UnitSystem};
/// assert_eq!(show_up(inch(65.4), inch(1.0), UnitSystem::Us).to_string(), "66 in");
/// assert_eq!(show_up(inch(65.4), mm(10.0), UnitSystem::Si).to_string(), "1670 mm");
/// assert_eq!(show_up(inch(65.1), inch(0.125), UnitSystem::Us).to_string(), "65.125 in");
/// ```
pub fn show_up(length: Length, step: Length, system: UnitSystem) -> Displayed {
    // Enough digits for every step of a tape: fewer could round down again.
    show_as(round_up(length, step), Measure::SectionLength, system).significant(10)
}

/// Returns the quantity rounded up, towards positive infinity, to a whole number of
/// steps.
///
/// A quantity that exceeds a multiple of the step by less than 1e-9 of itself
/// counts as that multiple, so that 48 in does not become 49 in by the rounding
/// of its arithmetic. A quantity that is not finite, or a step that is not finite
/// and positive, or too small beside the quantity to count, leaves the quantity
/// as it is.
///
/// ```
/// use groundline::units::{inch, ft, round_up, Measurable};
/// assert_eq!(round_up(inch(65.4), inch(6.0)).to(inch).round(), 66.0);
/// assert_eq!(round_up(ft(4.0), inch(1.0)).to(inch).round(), 48.0);
/// ```
pub fn round_up<Q: Measurable>(quantity: Q, step: Q) -> Q {
    let (value, step) = (quantity.si(), step.si());
    let count = value / step;
    if !(step > 0.0 && step.is_finite() && count.abs() < 1e15) {
        return quantity;
    }
    let nearest = count.round();
    let whole = if (count - nearest).abs() <= 1e-9 * count.abs() {
        nearest
    } else {
        count.ceil()
    };
    Q::from_si(whole * step)
}

impl fmt::Display for Displayed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let unit = self.measured.measure.unit(self.system);
        let value = self.measured.si / unit.factor();
        let text = match f.precision() {
            Some(decimals) if value.abs() < 1e12 => fixed(value, decimals),
            _ => significant(value, self.digits),
        };
        let text = if unit.symbol.is_empty() {
            text
        } else if unit.symbol == "°" {
            text + "°"
        } else {
            text + " " + unit.symbol
        };
        f.pad_integral(true, "", &text)
    }
}

/// A number with the given decimals; zero has no sign.
fn fixed(value: f64, decimals: usize) -> String {
    let text = format!("{value:.*}", decimals.min(340));
    match text.strip_prefix('-') {
        Some(size) if size.bytes().all(|byte| matches!(byte, b'0' | b'.')) => size.to_owned(),
        _ => text,
    }
}

/// A number with the given significant digits, trailing zeros dropped.
fn significant(value: f64, digits: usize) -> String {
    let size = value.abs();
    if !value.is_finite() || (size != 0.0 && !(1e-6..1e12).contains(&size)) {
        return format!("{value:e}");
    }
    let digits = digits.clamp(1, 17);
    let text = if size == 0.0 {
        "0".to_owned()
    } else {
        // The decimal exponent, taken from the rounded number so that 9.9999
        // is counted as 10.000.
        let rounded = format!("{:.*e}", digits - 1, size);
        let exponent: i32 = rounded
            .split('e')
            .nth(1)
            .and_then(|e| e.parse().ok())
            .unwrap_or(0);
        let decimals = i32::try_from(digits).unwrap_or(17) - 1 - exponent;
        format!("{value:.*}", usize::try_from(decimals).unwrap_or(0))
    };
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    }
}
