//! Bond between post and footing: the post may pull out of its collar.
//!
//! Treated wood cast in concrete, 30 psi allowable (Hoyle and Woeste 1989, p.
//! 336; quoted). Wood shrinks from concrete and a gap opens: keys or a notched
//! foot hold, bond is an upper estimate. Foam has no published strength in the
//! ground: only what the user gives.

use crate::error::{Error, number_within, size_within, stress_within};
use crate::source::{self, Citation};
use crate::units::{Force, Length, Pressure, inch, lb_per_sq_in, m};

/// A bond stress over the side of a post: stress times perimeter times length. Wood
/// shrinks from concrete and a gap opens, so it is an upper estimate.
///
/// ```
/// use groundline::{units::*, uplift::Bond};
/// let bond = Bond::wood_in_concrete(inch(18.0), inch(10.0))?;
/// assert!((bond.resistance().to(lb) - 5_400.0).abs() < 1e-6);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bond {
    stress: Pressure,
    perimeter: Length,
    length: Length,
    source: &'static Citation,
}

impl Bond {
    /// An allowable stress given, over a perimeter and a length.
    ///
    /// # Errors
    /// Stress outside 0 to 1 000 psi, perimeter outside 1 in to 40 ft, length
    /// outside 0 to 30 m.
    pub fn given(stress: Pressure, perimeter: Length, length: Length) -> Result<Self, Error> {
        let most = lb_per_sq_in(1_000.0);
        Ok(Self {
            stress: stress_within("bond stress", stress, lb_per_sq_in(0.0), most)?,
            perimeter: size_within("perimeter", perimeter, inch(1.0), inch(480.0))?,
            length: size_within("bonded length", length, m(0.0), m(30.0))?,
            source: &source::GIVEN,
        })
    }

    /// From tests: an ultimate stress over a factor.
    ///
    /// # Errors
    /// Factor outside 1 to 10; as [`Bond::given`].
    pub(crate) fn tested(
        ultimate: Pressure,
        factor: f64,
        perimeter: Length,
        length: Length,
        basis: &'static Citation,
    ) -> Result<Self, Error> {
        let factor = number_within("factor on bond", factor, 1.0, 10.0)?;
        Ok(Self {
            source: basis,
            ..Self::given(ultimate / factor, perimeter, length)?
        })
    }

    /// Treated wood cast in concrete: 30 psi, allowable (Hoyle and Woeste 1989, p.
    /// 336; quoted).
    ///
    /// # Errors
    /// As [`Bond::given`].
    pub fn wood_in_concrete(perimeter: Length, length: Length) -> Result<Self, Error> {
        Ok(Self {
            source: &source::WOOD_BOND,
            ..Self::given(lb_per_sq_in(30.0), perimeter, length)?
        })
    }

    /// What it holds, allowable.
    pub fn resistance(&self) -> Force {
        self.stress * self.perimeter * self.length
    }

    /// Where it comes from.
    pub const fn source(&self) -> &'static Citation {
        self.source
    }
}
