//! A plate, bell or collar that breaks out of sand: Meyerhof and Adams.
//!
//! Of a circular plate of width B at a depth D, Fq = 1 + 2 (1 + m D/B) (D/B) Ku
//! tan φ and Qu = Fq γ A D, γ the unit weight of the sand and A the area of the
//! plate, for a depth of at most a critical ratio D/B; below it Fq stays. Of φ:
//!
//! | φ | 20° | 25° | 30° | 35° | 40° | 45° |
//! |---|---|---|---|---|---|---|
//! | m | 0.05 | 0.10 | 0.15 | 0.25 | 0.35 | 0.50 |
//! | Ku | 0.856 | 0.888 | 0.920 | 0.936 | 0.960 | 0.960 |
//! | critical D/B | 2.5 | 3 | 4 | 5 | 7 | 9 |
//!
//! The formula, m and Ku at 35° are quoted by a worked example; the other
//! values are from memory. Linear between. Sand not disturbed, or compacted as
//! it was: loose backfill in a dug hole has none of it.

use crate::error::{Error, size_within, within};
use crate::source::{self, Citation};
use crate::units::{Angle, Force, ForcePerVolume, Length, Measurable, deg, inch, kn_per_cu_m, m};
use core::f64::consts::PI;

/// φ in degrees, m, Ku, critical D/B.
const TABLE: [(f64, f64, f64, f64); 6] = [
    (20.0, 0.05, 0.856, 2.5),
    (25.0, 0.10, 0.888, 3.0),
    (30.0, 0.15, 0.920, 4.0),
    (35.0, 0.25, 0.936, 5.0),
    (40.0, 0.35, 0.960, 7.0),
    (45.0, 0.50, 0.960, 9.0),
];

/// What a plate in sand breaks out with (Meyerhof and Adams 1968, quoted and from
/// memory).
///
/// Qu = Fq γ A D, Fq = 1 + 2 (1 + m D/B) (D/B) Ku tan φ, D/B no more than a critical
/// ratio: γ the unit weight of the sand, φ its friction angle, A the area and B the
/// diameter of the plate, D its depth, m and Ku of φ. Ultimate; for undisturbed or
/// well compacted sand.
///
/// ```
/// use groundline::{units::*, uplift::Breakout};
/// let plate = Breakout::new(deg(35.0), kn_per_cu_m(17.4), m(1.5), m(1.5))?;
/// assert!((plate.factor() - 2.638).abs() < 0.001);
/// assert!((plate.ultimate().to(kn) - 121.7).abs() < 0.05);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Breakout {
    factor: f64,
    ultimate: Force,
    beyond: bool,
}

impl Breakout {
    /// Of φ, the unit weight of the sand (buoyant below water), the diameter
    /// of the plate and its depth.
    ///
    /// # Errors
    /// φ outside 20° to 45°, unit weight outside 3 to 25 kN/m³, diameter
    /// outside 3 to 120 in, depth outside 0.1 to 30 m.
    pub fn new(
        phi: Angle,
        unit_weight: ForcePerVolume,
        diameter: Length,
        depth: Length,
    ) -> Result<Self, Error> {
        let phi = within("friction angle", phi, deg(20.0), deg(45.0))?;
        let (least, most) = (kn_per_cu_m(3.0), kn_per_cu_m(25.0));
        let weight = within("unit weight", unit_weight, least, most)?;
        let width = size_within("diameter of the plate", diameter, inch(3.0), inch(120.0))?;
        let depth = size_within("depth of the plate", depth, m(0.1), m(30.0))?;
        let (slope, pressure, critical) = coefficients(phi.to(deg));
        let ratio = (depth / width).value;
        let counts = ratio.min(critical);
        let factor = 1.0 + 2.0 * (1.0 + slope * counts) * counts * pressure * phi.value.tan();
        let area = width * width * (PI / 4.0);
        Ok(Self {
            factor,
            ultimate: weight * (area * depth) * factor,
            beyond: ratio > critical,
        })
    }

    /// Fq.
    pub const fn factor(&self) -> f64 {
        self.factor
    }
    /// Qu, with the weight of the sand and without that of the plate.
    pub const fn ultimate(&self) -> Force {
        self.ultimate
    }
    /// Is it deeper than the critical ratio, so that Fq stays?
    pub const fn is_deep(&self) -> bool {
        self.beyond
    }
    /// Where it comes from.
    pub const fn source() -> &'static Citation {
        &source::BREAKOUT
    }
}

/// m, Ku and the critical ratio, linear between the rows.
fn coefficients(phi: f64) -> (f64, f64, f64) {
    let mut found = (TABLE[0].1, TABLE[0].2, TABLE[0].3);
    for pair in TABLE.windows(2) {
        let (a, b) = (pair[0], pair[1]);
        if phi >= a.0 {
            let share = ((phi - a.0) / (b.0 - a.0)).min(1.0);
            let between = |x: f64, y: f64| x + share * (y - x);
            found = (between(a.1, b.1), between(a.2, b.2), between(a.3, b.3));
        }
    }
    found
}
