//! Showing quantities in US customary or SI units with sensible digits.

use super::{Dimension, Measurable, UnitDef};
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

    /// For display in a unit system. The format precision is the number of
    /// significant digits (default 4, and never fewer than the digits before
    /// the decimal point). From 1e12 on and below 1e-6 a number stands in full,
    /// with an exponent.
    pub fn in_system(self, system: UnitSystem) -> impl fmt::Display + fmt::Debug {
        Shown {
            measured: self,
            system,
        }
    }
}

/// Shows a quantity in the usual unit of its dimension.
pub fn show<Q: Measurable>(quantity: Q, system: UnitSystem) -> impl fmt::Display + fmt::Debug {
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
pub fn show_as<Q: Measurable>(
    quantity: Q,
    measure: Measure,
    system: UnitSystem,
) -> impl fmt::Display + fmt::Debug {
    Measured::new(quantity).shown_as(measure).in_system(system)
}

#[derive(Debug, Clone, Copy)]
struct Shown {
    measured: Measured,
    system: UnitSystem,
}

impl fmt::Display for Shown {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let unit = self.measured.measure.unit(self.system);
        let value = self.measured.si / unit.factor();
        let text = significant(value, f.precision().unwrap_or(4));
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
