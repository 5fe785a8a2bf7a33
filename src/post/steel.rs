//! What posts of steel share.

use crate::error::{Error, stress_within};
use crate::source::{self, Citation};
use crate::units::{Length, Pressure, ksi, mm};

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
