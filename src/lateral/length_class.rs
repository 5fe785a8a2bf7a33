//! Short, intermediate, long: whether a rigid method fits a post.
//!
//! With Kh the subgrade modulus, nh its growth with depth, b the width, EI the
//! rigidity and L the depth of the post, β = (Kh b/(4 EI))^(1/4) and
//! η = (nh/EI)^(1/5): constant stiffness, short up to β L = 2.25 and long beyond;
//! growing, short below η L = 2, long above 4. FHWA-HI-97-013 9.7.3.2, quoted.

use crate::error::{Error, number_within, within};
use crate::source::{self, Citation};
use crate::units::{
    FlexuralRigidity, ForcePerVolume, Length, Measurable, Pressure, kn_per_cu_m, kpa, n_sq_m,
};

/// How long a post is for its stiffness (FHWA-HI-97-013 9.7.3.2, quoted).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[non_exhaustive]
pub enum LengthClass {
    /// Turns as a rigid body: the rigid methods are for it.
    Short,
    /// Between.
    Intermediate,
    /// Bends in the ground; deeper would change little. A rigid method does
    /// not describe it.
    Long,
}

impl LengthClass {
    /// Its word.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Short => "short",
            Self::Intermediate => "intermediate",
            Self::Long => "long",
        }
    }

    /// Where the limits come from.
    pub const fn source() -> &'static Citation {
        &source::FHWA_LENGTH_CLASS
    }

    /// β L and class in ground of constant stiffness, β = (Kh b/(4 EI))^(1/4): short
    /// up to 2.25, long beyond.
    ///
    /// # Errors
    /// A value that is not positive and finite, or out of the range the
    /// methods and the response take.
    pub fn in_constant(
        kh: ForcePerVolume,
        width: Length,
        rigidity: FlexuralRigidity,
        depth: Length,
    ) -> Result<(f64, Self), Error> {
        let (kh, ei) = (checked(kh)?, checked_rigidity(rigidity)?);
        let (b, l) = (
            super::checked_width(width)?.value,
            super::checked_depth(depth)?,
        );
        let beta_l = (kh * b / (4.0 * ei)).powf(0.25) * l;
        let class = if beta_l <= 2.25 {
            Self::Short
        } else {
            Self::Long
        };
        Ok((beta_l, class))
    }

    /// η L and class in ground whose stiffness grows with depth, η = (nh/EI)^(1/5):
    /// short below 2, long above 4.
    ///
    /// # Errors
    /// A value that is not positive and finite, or out of the range the
    /// methods and the response take.
    pub fn in_growing(
        nh: ForcePerVolume,
        rigidity: FlexuralRigidity,
        depth: Length,
    ) -> Result<(f64, Self), Error> {
        let (nh, ei) = (checked(nh)?, checked_rigidity(rigidity)?);
        let eta_l = (nh / ei).powf(0.2) * super::checked_depth(depth)?;
        let class = if eta_l < 2.0 {
            Self::Short
        } else if eta_l <= 4.0 {
            Self::Intermediate
        } else {
            Self::Long
        };
        Ok((eta_l, class))
    }

    /// Kh of a clay by the same source: n1 n2 80 qu/b, qu = 2 su, n1 by qu
    /// (0.36 quoted; its range 0.32 to 0.40 from memory) and n2 by material
    /// (1.30 for timber, quoted).
    ///
    /// # Errors
    /// qu outside 1 kPa to 2 MPa, n1 outside 0.3 to 0.5, n2 outside 1 to 1.5,
    /// width out of range.
    pub fn clay_modulus(
        qu: Pressure,
        width: Length,
        n1: f64,
        n2: f64,
    ) -> Result<ForcePerVolume, Error> {
        let qu = within("unconfined strength", qu, kpa(1.0), kpa(2_000.0))?;
        let n1 = number_within("n1", n1, 0.3, 0.5)?;
        let n2 = number_within("n2", n2, 1.0, 1.5)?;
        let width = super::checked_width(width)?;
        Ok(ForcePerVolume::from_si(
            n1 * n2 * 80.0 * qu.value / width.value,
        ))
    }
}

fn checked(k: ForcePerVolume) -> Result<f64, Error> {
    within("subgrade modulus", k, kn_per_cu_m(1.0), kn_per_cu_m(1e8)).map(|k| k.value)
}

fn checked_rigidity(rigidity: FlexuralRigidity) -> Result<f64, Error> {
    within("flexural rigidity", rigidity, n_sq_m(1.0), n_sq_m(1e12)).map(|ei| ei.value)
}
