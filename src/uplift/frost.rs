//! Frost: how deep it goes, what it lifts with, and what holds against it.
//!
//! - Stefan: X = √(2 · 86 400 k n F/L) in SI, 86 400 s to a day, k conductivity,
//!   n surface factor, F freezing index, L latent heat; modified Berggren: λ times
//!   that (published; λ here by the two-phase solution, derived, not compared with
//!   the published chart).
//! - Adfreeze: τ times perimeter times frost depth (CFEM 4th ed., quoted: 65 kPa
//!   on wood or concrete, 100 on steel, fine-grained wet soil; typical values, no upper
//!   bound: 150 to 350 kPa were measured on steel in silt, [`source::ADFREEZE_ON_STEEL`]).
//! - Balance: weight, load and friction below the frost against it. A plain
//!   cylinder that ends at frost depth does not balance full adfreeze in wet
//!   silt; a bell or collar below it, a smooth sleeve through it, or drained
//!   gravel that does not heave are the remedies.

use crate::error::{Error, number_within, size_within, within};
use crate::source::{self, Citation};
use crate::units::{Force, ForcePerVolume, Length, Measurable, Pressure, kn, kn_per_cu_m, kpa, m};
use core::f64::consts::{FRAC_2_SQRT_PI, PI};

macro_rules! thermal {
    ($( $(#[$doc:meta])* $name:ident, $field:literal, $least:literal, $most:literal,
        $si:ident $si_doc:literal $si_factor:expr,
        $us:ident $us_doc:literal $us_factor:expr; )+) => { $(
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
        pub struct $name(f64);

        impl $name {
            #[doc = $si_doc]
            ///
            /// # Errors
            /// Outside the range of the type.
            pub fn $si(value: f64) -> Result<Self, Error> {
                number_within($field, value * $si_factor, $least, $most).map(Self)
            }

            #[doc = $us_doc]
            ///
            /// # Errors
            /// Outside the range of the type.
            pub fn $us(value: f64) -> Result<Self, Error> {
                number_within($field, value * $us_factor, $least, $most).map(Self)
            }
        }
    )+ };
}

thermal! {
    /// Thermal conductivity, 0.05 to 10 W/(m·K).
    ThermalConductivity, "thermal conductivity", 0.05, 10.0,
        watt_per_m_k "In W/(m·K)." 1.0,
        btu_per_ft_h_f "In Btu/(ft·h·°F)." 1.730_734_666;
    /// A freezing index, 0 to 10 000 °C·days.
    FreezingIndex, "freezing index", 0.0, 10_000.0,
        celsius_days "In °C·days." 1.0,
        fahrenheit_days "In °F·days." (5.0 / 9.0);
    /// Latent heat of the water in a soil, 1 to 400 MJ/m³: 0.334 MJ/kg times dry
    /// density and water content by mass.
    LatentHeat, "latent heat", 1.0, 400.0,
        mj_per_cu_m "In MJ/m³." 1.0,
        btu_per_cu_ft "In Btu/ft³." 0.037_258_945_8;
}

/// λ of the modified Berggren formula, for the Stefan number μ = C vs/L and the
/// thermal ratio α = v0/vs: C the heat capacity of the soil per volume, vs how far
/// below freezing its surface is over the winter (n F over its days), v0 how far
/// above freezing the year's mean is, L latent heat. The two-phase solution with
/// equal properties, e^(−l²)/erf l − α e^(−l²)/erfc l = √π l/μ, λ = l √(2/μ).
/// Derived; its published chart was not compared.
///
/// # Errors
/// μ outside 0.001 to 5, α outside 0 to 50.
///
/// ```
/// let lambda = groundline::uplift::berggren_lambda(0.1, 2.0)?;
/// assert!((lambda - 0.7348).abs() < 5e-4);
/// # Ok::<(), groundline::Error>(())
/// ```
pub fn berggren_lambda(mu: f64, alpha: f64) -> Result<f64, Error> {
    let mu = number_within("Stefan number", mu, 0.001, 5.0)?;
    let alpha = number_within("thermal ratio", alpha, 0.0, 50.0)?;
    let balance = |l: f64| {
        let gauss = (-l * l).exp();
        let erf = erf(l);
        PI.sqrt() * l / mu - gauss / erf + alpha * gauss / (1.0 - erf)
    };
    // Falls without bound at 0 and rises; the Stefan value bounds it above.
    let (mut low, mut high) = (1e-12, (mu / 2.0).sqrt() * 1.1);
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if balance(middle) < 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    Ok(0.5 * (low + high) * (2.0 / mu).sqrt())
}

/// The error function by its series of positive terms (Abramowitz and Stegun
/// 7.1.6, from memory), for arguments of 0 to some 4.
pub(crate) fn erf(x: f64) -> f64 {
    let (mut term, mut sum, mut n) = (x, x, 0.0);
    while term > 1e-17 * sum && n < 200.0 {
        n += 1.0;
        term *= 2.0 * x * x / (2.0 * n + 1.0);
        sum += term;
    }
    FRAC_2_SQRT_PI * (-x * x).exp() * sum
}

/// How deep frost goes: Stefan's depth times λ (1 for Stefan alone, which
/// overestimates), X = λ √(2 · 86 400 k n F/L) in SI, k the conductivity, F the
/// freezing index in °C·days, L the latent heat. n is the ratio of the surface's
/// index to the air's: 1.0 snow, 0.9 shade, 0.7 bare soil, 0.5 turf (UFC 3-130-04
/// Table 4-1, published).
///
/// A code's frost line governs where there is one.
///
/// # Errors
/// n outside 0.1 to 2.5, λ outside 0.1 to 1.
///
/// ```
/// use groundline::{units::{Measurable, m}, uplift::*};
/// let x = frost_depth(
///     ThermalConductivity::watt_per_m_k(1.7)?, 1.0,
///     FreezingIndex::celsius_days(600.0)?, LatentHeat::mj_per_cu_m(80.16)?, 1.0,
/// )?;
/// assert!((x.to(m) - 1.483).abs() < 5e-4);
/// # Ok::<(), groundline::Error>(())
/// ```
pub fn frost_depth(
    conductivity: ThermalConductivity,
    n: f64,
    index: FreezingIndex,
    latent: LatentHeat,
    lambda: f64,
) -> Result<Length, Error> {
    let n = number_within("surface factor n", n, 0.1, 2.5)?;
    let lambda = number_within("lambda", lambda, 0.1, 1.0)?;
    let square = 2.0 * 86_400.0 * conductivity.0 * n * index.0 / (latent.0 * 1e6);
    Ok(m(lambda * square.sqrt()))
}

/// Ground that grips what stands in it when it freezes (CFEM 4th ed., quoted). The
/// stresses are typical, not an upper bound: 150 to 350 kPa were measured on steel in
/// silt ([`source::ADFREEZE_ON_STEEL`]).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum FrozenGround {
    /// Fine-grained wet soil on wood or concrete: 65 kPa.
    FineOnWoodOrConcrete,
    /// Fine-grained wet soil on steel: 100 kPa.
    FineOnSteel,
    /// Saturated gravel on steel: 150 kPa.
    GravelOnSteel,
}

impl FrozenGround {
    /// Returns τ, a typical value.
    pub fn stress(self) -> Pressure {
        kpa(match self {
            Self::FineOnWoodOrConcrete => 65.0,
            Self::FineOnSteel => 100.0,
            Self::GravelOnSteel => 150.0,
        })
    }

    /// Where it comes from.
    pub const fn source() -> &'static Citation {
        &source::CFEM_ADFREEZE
    }
}

/// Frost gripping a shaft: τ times perimeter times frost depth, the whole
/// depth gripped at once.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Adfreeze {
    stress: Pressure,
    perimeter: Length,
    depth: Length,
}

/// What lifts and what holds.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct FrostBalance {
    /// What frost lifts with.
    pub lifts: Force,
    /// What holds.
    pub holds: Force,
    /// Does the footing end at or above the frost depth, where a plain shaft
    /// has nothing below to hold it?
    pub ends_in_frost: bool,
}

impl FrostBalance {
    /// Does it stay? Never where it ends in the frost: ground that freezes
    /// under the base lifts it too.
    pub fn stays(&self) -> bool {
        !self.ends_in_frost && self.holds >= self.lifts
    }

    /// What to do where it does not stay; none where it does.
    pub fn remedy(&self) -> Option<&'static str> {
        if self.stays() {
            None
        } else if self.ends_in_frost {
            Some(
                "a plain shaft that stops in the frost has nothing below to hold it: a bell or \
                 collar below the frost, a smooth sleeve through it, or drained gravel that does \
                 not heave",
            )
        } else {
            Some(
                "go deeper below the frost, or lessen the grip: a smooth sleeve through the \
                 frost, or drained gravel that does not heave",
            )
        }
    }
}

impl Adfreeze {
    /// A grip over a perimeter down to a frost depth. A smooth sleeve or
    /// drained gravel through the frost is a smaller stress, which is the
    /// user's to give.
    ///
    /// # Errors
    /// Stress outside 0 to 500 kPa, perimeter outside 2 cm to 12 m, frost depth
    /// outside 0 to 10 m.
    pub fn new(stress: Pressure, perimeter: Length, frost: Length) -> Result<Self, Error> {
        Ok(Self {
            stress: within("adfreeze stress", stress, kpa(0.0), kpa(500.0))?,
            perimeter: size_within("perimeter", perimeter, m(0.02), m(12.0))?,
            depth: size_within("frost depth", frost, m(0.0), m(10.0))?,
        })
    }

    /// What frost lifts with, on a shaft that reaches the frost depth.
    pub fn force(&self) -> Force {
        self.stress * self.perimeter * self.depth
    }

    /// Against the dead load with its factor, and anchorage below the frost,
    /// which a shaft that ends in the frost has none of. The shaft is gripped
    /// only as deep as it goes.
    ///
    /// # Errors
    /// Depth outside 1 cm to 30 m, forces outside 0 to 100 MN.
    pub fn balance(
        &self,
        depth: Length,
        dead: Force,
        anchorage: Force,
    ) -> Result<FrostBalance, Error> {
        let depth = size_within("depth", depth, m(0.01), m(30.0))?;
        let dead = within("dead load", dead, kn(0.0), kn(1e5))?;
        let anchorage = within("anchorage", anchorage, kn(0.0), kn(1e5))?;
        let gripped = if depth < self.depth {
            depth
        } else {
            self.depth
        };
        let ends_in_frost = depth <= self.depth;
        Ok(FrostBalance {
            lifts: self.stress * self.perimeter * gripped,
            holds: if ends_in_frost {
                dead
            } else {
                dead + anchorage
            },
            ends_in_frost,
        })
    }

    /// The depth at which a plain round shaft of this perimeter balances: its
    /// weight over the whole depth, a load, and friction below the frost over a
    /// factor. Linear in the depth; the frost depth at least, and however deep it
    /// comes out.
    ///
    /// # Errors
    /// Unit weight outside 10 to 30 kN/m³, load outside 0 to 100 MN, friction
    /// outside 0 to 1 MPa, factor outside 1 to 10.
    pub fn balancing_depth(
        &self,
        unit_weight: ForcePerVolume,
        load: Force,
        friction: Pressure,
        factor: f64,
    ) -> Result<Length, Error> {
        let (least, most) = (kn_per_cu_m(10.0), kn_per_cu_m(30.0));
        let weight = within("unit weight of the shaft", unit_weight, least, most)?;
        let load = within("load", load, kn(0.0), kn(1e5))?;
        let friction = within("friction below the frost", friction, kpa(0.0), kpa(1_000.0))?;
        let factor = number_within("factor on friction", factor, 1.0, 10.0)?;
        let area = self.perimeter.value * self.perimeter.value / (4.0 * PI);
        let per_depth = weight.value * area;
        let gripping = friction.value * self.perimeter.value / factor;
        // τ P z = γ A L + load + f P (L − z), f over its factor, P perimeter, z frost
        // depth, L the depth sought; A of a circle of that perimeter.
        let needed = self.force().value - load.value + gripping * self.depth.value;
        // Never within the frost, however great the load.
        let depth = (needed / (per_depth + gripping)).max(self.depth.value);
        Ok(Length::from_si(depth))
    }
}
