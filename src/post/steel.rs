//! What posts of steel share.

use super::DesignResistance;
use crate::error::{Error, stress_within};
use crate::section::PostSection;
use crate::source::{self, Citation};
use crate::units::{Area, Length, Pressure, Volume, bending_moment, ksi, mm};

/// E of steel.
pub(super) const MODULUS_KSI: f64 = 29_000.0;
/// Ω of bending and shear.
pub(super) const OMEGA: f64 = 1.67;
/// φ of bending and shear.
pub(super) const PHI: f64 = 0.90;

/// Yield strength of a steel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SteelStrength(Pressure);

impl SteelStrength {
    /// A yield strength.
    ///
    /// # Errors
    /// Outside 20 to 100 ksi.
    pub fn new(yield_strength: Pressure) -> Result<Self, Error> {
        stress_within("Fy", yield_strength, ksi(20.0), ksi(100.0)).map(Self)
    }

    /// Fy.
    #[inline]
    pub const fn yield_strength(self) -> Pressure {
        self.0
    }

    /// What bare steel loses of each side that faces natural, undisturbed soil
    /// in 50 years, above the water or in it: 0.6 mm (EN 1993-5 Table 4-1, from
    /// memory). Made ground, peat, and the splash of salted roads take more;
    /// zinc is extra. It is an example: nothing here takes it off by itself.
    ///
    /// ```
    /// use groundline::{post::SteelStrength, section::Tube, units::{inch, mm}};
    /// let new = Tube::new(inch(2.875), inch(0.203))?;
    /// let old = new.less_outside(SteelStrength::loss_in_undisturbed_soil())?;
    /// assert!(old.wall() < inch(0.18));
    /// # Ok::<(), groundline::Error>(())
    /// ```
    pub fn loss_in_undisturbed_soil() -> Length {
        mm(0.6)
    }

    /// Where that comes from.
    pub const fn source_of_loss() -> &'static Citation {
        &source::EN1993_5_LOSS
    }
}

/// γM0 of EN 1993-1-1.
const GAMMA_M0: f64 = 1.0;

/// The class of a wall by EN 1993-1-1 Table 5.2, of its slenderness over ε or
/// ε² and the most of classes 1, 2 and 3; none beyond.
pub(super) fn en1993_class(slenderness: f64, most: [f64; 3]) -> Option<u8> {
    (1..=3_u8)
        .zip(most)
        .find(|(_, most)| slenderness <= *most)
        .map(|(class, _)| class)
}

/// Mc,Rd = W fy/γM0 and Vpl,Rd = Av fy/(√3 γM0) of EN 1993-1-1 6.2.5, 6.2.6.
pub(super) fn en1993_resistance(
    section: &PostSection,
    modulus: Volume,
    shear_area: Area,
    fy: Pressure,
    source: &'static Citation,
) -> DesignResistance {
    DesignResistance::new(
        section,
        bending_moment(fy, modulus) / GAMMA_M0,
        fy * shear_area / (3.0_f64.sqrt() * GAMMA_M0),
        source,
        source,
    )
    .taking_from_moment()
}
