//! Force coefficients of open signs and single-plane open frames.
//!
//! The table alone, for a fence whose openings are 30 % or more. A fence here
//! cannot be given such a panel yet; the coefficient goes on the SOLID area.

use crate::error::{Error, number_within, within};
use crate::units::{Length, Measurable, Pressure, ft, psf};

/// The shape of the members.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum ElementShape {
    /// Flat-sided: boards, angles, square tube.
    Flat,
    /// Round, D√q at or below the limit ([`round_member`]).
    RoundSlow,
    /// Round, D√q above the limit.
    RoundFast,
}

/// Cf by bands of solidity below 0.1, 0.3 and 0.7; no interpolation between
/// them ([`crate::source::ASCE7_OPEN_SIGN`], quoted).
///
/// # Errors
/// Solidity outside 0 to 0.7.
///
/// ```
/// use groundline::wind::{ElementShape, open_sign_cf};
/// assert_eq!(open_sign_cf(0.5, ElementShape::Flat)?, 1.6);
/// # Ok::<(), groundline::Error>(())
/// ```
pub fn open_sign_cf(solidity: f64, shape: ElementShape) -> Result<f64, Error> {
    let solidity = number_within("solidity", solidity, 0.0, 0.7)?;
    let band = usize::from(solidity >= 0.1) + usize::from(solidity >= 0.3);
    Ok(match shape {
        ElementShape::Flat => [2.0, 1.8, 1.6],
        ElementShape::RoundSlow => [1.2, 1.3, 1.5],
        ElementShape::RoundFast => [0.8, 0.9, 1.1],
    }[band])
}

/// The shape of a round member: slow where D√q is at or below 2.5 ft·√psf.
///
/// # Errors
/// Diameter outside 0 to 10 ft, velocity pressure outside 0 to 1 000 psf.
pub fn round_member(diameter: Length, velocity_pressure: Pressure) -> Result<ElementShape, Error> {
    let diameter = within("member diameter", diameter, ft(0.0), ft(10.0))?;
    let q = within(
        "velocity pressure",
        velocity_pressure,
        psf(0.0),
        psf(1_000.0),
    )?;
    Ok(if diameter.to(ft) * q.to(psf).sqrt() <= 2.5 {
        ElementShape::RoundSlow
    } else {
        ElementShape::RoundFast
    })
}
