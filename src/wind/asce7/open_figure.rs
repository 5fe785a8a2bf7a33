//! Force coefficients of open signs and single-plane open frames, for a fence
//! whose openings are 30 % or more. They go on the SOLID area.
//!
//! Cf by bands of solidity, without interpolation: ε below 0.1, 0.3, and to
//! 0.7; flat members, and round ones slow or fast by D√q against
//! 2.5 ft·√psf (5.3 m·√Pa as printed; 5.27 is the same limit).
//!
//! At the edges of the bands the pressure on gross area, Cf ε, steps: a fence a
//! hair more open may carry up to 12.5 % more (flat members at ε = 0.3:
//! 0.54 below, 0.48 above). So it is printed.
//!
//! 7-10 Fig. 29.5-2; 7-16 and 7-22 Fig. 29.4-2. Quoted.

use crate::error::{Error, number_within, size_within, within};
use crate::units::REL_TOL;
use crate::units::{Length, Measurable, Pressure, ft, psf};
use crate::wind::infill::Member;

/// The columns of the figure.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum OpenShape {
    /// Flat-sided.
    Flat,
    /// Round, D√q at or below the limit.
    RoundSlow,
    /// Round, D√q above the limit.
    RoundFast,
}

/// The limit of D√q, ft·√psf.
const ROUND_LIMIT: f64 = 2.5;

/// Cf on the solid area, by bands of solidity without interpolation: below 0.1,
/// below 0.3, and to 0.7 ([`crate::source::ASCE7_OPEN_SIGN`], quoted).
///
/// # Errors
/// Solidity outside 0 to 0.7.
///
/// ```
/// use groundline::wind::{OpenShape, open_cf};
/// assert_eq!(open_cf(0.5, OpenShape::Flat)?, 1.6);
/// # Ok::<(), groundline::Error>(())
/// ```
pub fn open_cf(solidity: f64, shape: OpenShape) -> Result<f64, Error> {
    let solidity = number_within("solidity", solidity, 0.0, 0.7)?;
    let band = usize::from(solidity >= 0.1 - REL_TOL) + usize::from(solidity >= 0.3 - REL_TOL);
    Ok(match shape {
        OpenShape::Flat => [2.0, 1.8, 1.6],
        OpenShape::RoundSlow => [1.2, 1.3, 1.5],
        OpenShape::RoundFast => [0.8, 0.9, 1.1],
    }[band])
}

/// The column for a member at a velocity pressure: of round ones by D√q against
/// 2.5 ft·√psf.
///
/// The library asks with Kd in q whatever the edition, although 7-22 prints q
/// without: the smaller q keeps a member slow for longer, and slow drags more.
///
/// # Errors
/// Velocity pressure outside 0 to 2 000 psf, diameter outside 0 to 20 ft.
pub fn open_shape(member: Member, velocity_pressure: Pressure) -> Result<OpenShape, Error> {
    let q = within(
        "velocity pressure",
        velocity_pressure,
        psf(0.0),
        psf(2_000.0),
    )?;
    if let Member::Round(diameter) = member {
        size_within("member diameter", diameter, ft(0.0), ft(20.0))?;
    }
    Ok(match member {
        Member::Flat => OpenShape::Flat,
        Member::Round(diameter) if reynolds(diameter, q) <= ROUND_LIMIT => OpenShape::RoundSlow,
        Member::Round(_) => OpenShape::RoundFast,
    })
}

/// D√q in ft·√psf, what stands for the Reynolds number.
pub(super) fn reynolds(diameter: Length, q: Pressure) -> f64 {
    diameter.to(ft) * q.to(psf).sqrt()
}
