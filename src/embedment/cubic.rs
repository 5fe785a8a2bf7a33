//! The positive root of x³ = a x + c, which both pole formulas come down to.

/// The one positive root of x³ = a x + c for a, c ≥ 0; zero if both vanish.
///
/// The terms are pure numbers or share a system: a is a length squared and c a
/// length cubed. Iterating the printed formula instead (depth from pressure,
/// pressure from depth) contracts by about −½ a turn and, for c = 0, not at
/// all: it jumps between two values for ever.
///
/// Method: the start √(a + m² − 0.52 a m²/(a + m²)) with m = ∛c is within
/// 1.3 % of the root everywhere (exact at both ends); two Halley steps, each
/// tripling the digits, reach double precision. There is no loop and no
/// branch on the way.
///
/// ```
/// use groundline::embedment::positive_root;
/// let x = positive_root(7.0, 6.0); // (x − 3)(x + 1)(x + 2)
/// assert!((x - 3.0).abs() < 1e-15);
/// ```
#[inline]
pub fn positive_root(a: f64, c: f64) -> f64 {
    let m = c.cbrt();
    let square = a + m * m;
    // Below this the squares underflow; such a post carries nothing.
    if square < 1e-100 {
        return 0.0;
    }
    let start = (square - 0.52 * a * (m * m) / square).sqrt();
    halley(halley(start, a, c), a, c)
}

#[inline]
fn halley(x: f64, a: f64, c: f64) -> f64 {
    let xx = x * x;
    let f = x * (xx - a) - c;
    let slope = 3.0 * xx - a;
    x - f * slope / (slope * slope - 3.0 * x * f)
}
