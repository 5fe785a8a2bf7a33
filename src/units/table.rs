//! The one table of units: every name that is parsed, shown or used as a
//! constructor stands here once, with its exact factor to SI.
//!
//! Customary units follow from four exact definitions and nothing else: the
//! international foot (0.3048 m), the avoirdupois pound (0.453 592 37 kg),
//! standard gravity (9.806 65 m/s²) and the mile (5 280 ft). See
//! [`crate::source::UNITS_NIST`].

use super::{Dimension, UnitDef};
use uom::si::{ISQ, Quantity, SI};
use uom::typenum::{N2, P1, P3, P4, Z0};

const FT: f64 = 0.3048;
const IN: f64 = 0.0254;
const YD: f64 = 0.9144;
const MI: f64 = 1609.344;
/// Pound-force: 0.453 592 37 kg × 9.806 65 m/s², exact.
const LBF: f64 = 4.448_221_615_260_5;
const KIP: f64 = 1000.0 * LBF;
/// Conventional millimetre of mercury: 13 595.1 kg/m³ × 9.806 65 m/s² × 1 mm.
const MM_HG: f64 = 133.322_387_415;
const DEG: f64 = core::f64::consts::PI / 180.0;

/// Length, m.
pub type Length = uom::si::f64::Length;
/// Area, m².
pub type Area = uom::si::f64::Area;
/// Volume, m³; also the section modulus of a post.
pub type Volume = uom::si::f64::Volume;
/// Second moment of area, m⁴.
pub type SecondMoment = Quantity<ISQ<P4, Z0, Z0, Z0, Z0, Z0, Z0>, SI<f64>, f64>;
/// Speed, m/s.
pub type Velocity = uom::si::f64::Velocity;
/// Pressure, stress, or weight per area, N/m².
pub type Pressure = uom::si::f64::Pressure;
/// Force or weight, N.
pub type Force = uom::si::f64::Force;
/// Force per length, N/m.
pub type LineLoad = Quantity<ISQ<Z0, P1, N2, Z0, Z0, Z0, Z0>, SI<f64>, f64>;
/// Force per volume, N/m³: unit weight, or lateral bearing per depth.
pub type ForcePerVolume = Quantity<ISQ<N2, P1, N2, Z0, Z0, Z0, Z0>, SI<f64>, f64>;
/// Moment of a force, N·m. Made from a force and an arm by [`super::moment`].
pub type Torque = uom::si::f64::Torque;
/// Flexural rigidity EI, N·m².
pub type FlexuralRigidity = Quantity<ISQ<P3, P1, N2, Z0, Z0, Z0, Z0>, SI<f64>, f64>;
/// Mass per volume, kg/m³.
pub type MassDensity = uom::si::f64::MassDensity;
/// Plane angle, rad.
pub type Angle = uom::si::f64::Angle;
/// A pure number.
pub type Ratio = uom::si::f64::Ratio;

macro_rules! quantities {
    ($(
        $name:ident, $word:literal, $list:ident {
            $( $fun:ident = $si:expr, $symbol:literal $(, $alias:literal)* ; )+
        }
    )+) => {
        $(
            impl super::sealed::Sealed for $name {}
            impl super::Measurable for $name {
                const DIMENSION: Dimension = Dimension::$name;
                #[inline(always)]
                fn si(self) -> f64 { self.value }
                #[inline(always)]
                fn from_si(value: f64) -> Self {
                    Self {
                        dimension: core::marker::PhantomData,
                        units: core::marker::PhantomData,
                        value,
                    }
                }
            }
            pub(crate) static $list: &[UnitDef] = &[
                $( UnitDef { symbol: $symbol, aliases: &[$($alias),*], si: $si }, )+
            ];
            $(
                #[doc = concat!("A quantity given in ", $symbol, " (", $word, ").")]
                #[inline]
                pub fn $fun(value: f64) -> $name {
                    <$name as super::Measurable>::from_si(value * $si)
                }
            )+
        )+

        pub(crate) static BY_DIMENSION: &[(Dimension, &str, &[UnitDef])] = &[
            $( (Dimension::$name, $word, $list), )+
        ];
    };
}

quantities! {
    Length, "length", LENGTHS {
        ft = FT, "ft", "foot", "feet", "'", "\u{2032}", "\u{2019}";
        inch = IN, "in", "inch", "inches", "\"", "\u{2033}", "\u{201d}", "''";
        yd = YD, "yd", "yard", "yards";
        m = 1.0, "m", "metre", "metres", "meter", "meters";
        cm = 0.01, "cm";
        mm = 0.001, "mm";
    }
    Area, "area", AREAS {
        sq_ft = FT * FT, "ft²", "ft2", "ft^2", "sq ft", "sq. ft", "sf";
        sq_in = IN * IN, "in²", "in2", "in^2", "sq in", "sq. in";
        sq_m = 1.0, "m²", "m2", "m^2";
        sq_mm = 1e-6, "mm²", "mm2", "mm^2";
    }
    Volume, "volume", VOLUMES {
        cu_ft = FT * FT * FT, "ft³", "ft3", "ft^3", "cu ft", "cu. ft", "cf";
        cu_yd = YD * YD * YD, "yd³", "yd3", "yd^3", "cu yd", "cu. yd", "cy";
        cu_in = IN * IN * IN, "in³", "in3", "in^3", "cu in", "cu. in";
        cu_m = 1.0, "m³", "m3", "m^3";
        cu_mm = 1e-9, "mm³", "mm3", "mm^3";
        litre = 1e-3, "L", "l", "litre", "litres", "liter", "liters";
    }
    SecondMoment, "second moment of area", SECOND_MOMENTS {
        in4 = IN * IN * IN * IN, "in⁴", "in4", "in^4";
        m4 = 1.0, "m⁴", "m4", "m^4";
        mm4 = 1e-12, "mm⁴", "mm4", "mm^4";
    }
    Velocity, "speed", SPEEDS {
        mph = MI / 3600.0, "mph", "mi/h";
        m_per_s = 1.0, "m/s";
        km_per_h = 1.0 / 3.6, "km/h", "kph";
    }
    Pressure, "pressure", PRESSURES {
        psf = LBF / (FT * FT), "psf", "lb/ft²", "lb/ft2", "lb/ft^2", "lbf/ft²", "lbf/ft2", "lbf/ft^2",
            "lb/sq ft", "lbf/sq ft";
        lb_per_sq_in = LBF / (IN * IN), "psi", "lb/in²", "lb/in2", "lb/in^2", "lbf/in²", "lbf/in2",
            "lbf/in^2", "lb/sq in", "lbf/sq in";
        ksf = KIP / (FT * FT), "ksf", "kip/ft²", "kip/ft2", "kip/ft^2", "k/ft²", "k/ft2", "k/ft^2";
        ksi = KIP / (IN * IN), "ksi", "kip/in²", "kip/in2", "kip/in^2", "k/in²", "k/in2", "k/in^2";
        pa = 1.0, "Pa", "N/m²", "N/m2", "N/m^2";
        kpa = 1e3, "kPa", "kN/m²", "kN/m2", "kN/m^2";
        mpa = 1e6, "MPa", "N/mm²", "N/mm2", "N/mm^2", "MN/m²", "MN/m2", "MN/m^2";
        gpa = 1e9, "GPa";
        mm_hg = MM_HG, "mmHg";
    }
    Force, "force", FORCES {
        lb = LBF, "lb", "lbs", "lbf";
        kipf = KIP, "kip", "kips", "kipf", "k";
        newton = 1.0, "N";
        kn = 1e3, "kN";
    }
    LineLoad, "force per length", LINE_LOADS {
        lb_per_ft = LBF / FT, "lb/ft", "plf", "lbf/ft", "lbs/ft";
        lb_per_inch = LBF / IN, "lb/in", "pli", "lbf/in", "lbs/in";
        kip_per_ft = KIP / FT, "kip/ft", "klf", "kips/ft", "k/ft";
        n_per_m = 1.0, "N/m";
        kn_per_m = 1e3, "kN/m";
    }
    ForcePerVolume, "force per volume", FORCES_PER_VOLUME {
        pcf = LBF / (FT * FT * FT), "pcf", "lb/ft³", "lb/ft3", "lb/ft^3", "lbf/ft³", "lbf/ft3",
            "lbf/ft^3", "lb/cu ft", "lbf/cu ft";
        psf_per_ft = LBF / (FT * FT * FT), "psf/ft", "lb/ft²/ft", "lb/ft2/ft", "lbf/ft²/ft", "lbf/ft2/ft";
        lb_per_cu_in = LBF / (IN * IN * IN), "pci", "lb/in³", "lb/in3", "lb/in^3", "lbf/in³",
            "lbf/in3", "lbf/in^3", "lb/cu in", "lbf/cu in";
        n_per_cu_m = 1.0, "N/m³", "N/m3", "N/m^3";
        kn_per_cu_m = 1e3, "kN/m³", "kN/m3", "kN/m^3";
        mn_per_cu_m = 1e6, "MN/m³", "MN/m3", "MN/m^3";
        kpa_per_m = 1e3, "kPa/m";
    }
    Torque, "moment", MOMENTS {
        lb_ft = LBF * FT, "lb·ft", "lb-ft", "lb ft", "ft-lb", "ft lb", "ft·lb", "lbf·ft", "lbf-ft",
            "lbf ft", "ft-lbf", "ft lbf", "ft·lbf", "ft-lbs", "ft lbs", "lbs-ft", "lbs ft";
        lb_in = LBF * IN, "lb·in", "lb-in", "lb in", "in-lb", "in lb", "in·lb", "lbf·in", "lbf-in",
            "lbf in", "in-lbf", "in lbf", "in·lbf", "in-lbs", "in lbs", "lbs-in", "lbs in";
        kip_ft = KIP * FT, "kip·ft", "kip-ft", "kip ft", "ft-kip", "ft kip", "ft-kips", "kips-ft",
            "k·ft", "k-ft", "k ft", "ft-k", "ft k", "ft·k";
        kip_in = KIP * IN, "kip·in", "kip-in", "kip in", "in-kip", "in kip", "in-kips", "kips-in",
            "k·in", "k-in", "k in", "in-k", "in k", "in·k";
        n_m = 1.0, "N·m", "N-m", "N m", "Nm";
        kn_m = 1e3, "kN·m", "kN-m", "kN m", "kNm";
    }
    FlexuralRigidity, "flexural rigidity", RIGIDITIES {
        lb_sq_in = LBF * IN * IN, "lb·in²", "lb-in2", "lb in2", "lb in^2", "lb-in²", "lb-in^2",
            "lbf·in²", "lbf-in²", "lbf-in2", "lbf-in^2", "lbf in2";
        kip_sq_in = KIP * IN * IN, "kip·in²", "kip-in²", "kip-in2", "kip-in^2", "kip in2", "k·in²",
            "k-in²", "k-in2", "k-in^2", "k in2";
        n_sq_m = 1.0, "N·m²", "N-m2", "N m2", "N m^2";
        kn_sq_m = 1e3, "kN·m²", "kN-m2", "kN m2", "kN m^2";
    }
    MassDensity, "mass density", MASS_DENSITIES {
        kg_per_cu_m = 1.0, "kg/m³", "kg/m3", "kg/m^3";
    }
    Angle, "angle", ANGLES {
        deg = DEG, "°", "deg", "degree", "degrees";
        rad = 1.0, "rad";
    }
    Ratio, "pure number", RATIOS {
        number = 1.0, "", "-";
        percent = 0.01, "%", "percent";
    }
}
