//! The soil a collar takes with it: a cone, or a cylinder.

use crate::error::{Error, size_within, within};
use crate::units::{Angle, Length, Measurable, Volume, deg, inch, m};
use core::f64::consts::PI;

/// The volume of a truncated cone of a radius below, widening upwards over a
/// height by an angle from the vertical: π H/3 (r1² + r1 r2 + r2²),
/// r2 = r1 + H tan θ. Geometry.
///
/// Angles told in the trade, from memory: 30° in competent clay, 20° to 25° in
/// sand, none (a cylinder) in loose or backfilled ground. Weight alone, without
/// shear on the cone, is the lower estimate. The post in it is to be taken off.
///
/// # Errors
/// Radius outside 1 in to 5 ft, height outside 1 cm to 30 m, angle outside 0°
/// to 45°.
///
/// ```
/// use groundline::{units::*, uplift::soil_cone};
/// let v = soil_cone(ft(0.5), ft(3.0), deg(20.0))?;
/// assert!((v.to(cu_ft) - 11.24733).abs() < 1e-5);
/// # Ok::<(), groundline::Error>(())
/// ```
pub fn soil_cone(radius: Length, height: Length, angle: Angle) -> Result<Volume, Error> {
    let r1 = size_within("radius", radius, inch(1.0), inch(60.0))?.value;
    let h = size_within("height of the cone", height, m(0.01), m(30.0))?.value;
    let angle = within("angle of the cone", angle, deg(0.0), deg(45.0))?;
    let r2 = r1 + h * angle.value.tan();
    Ok(Volume::from_si(
        PI * h / 3.0 * (r1 * r1 + r1 * r2 + r2 * r2),
    ))
}
