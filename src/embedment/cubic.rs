//! The positive root of x³ = a x + c, which both pole formulas come down to.

/// The one positive root of x³ = a x + c for a, c ≥ 0; zero if both vanish.
/// Negative terms and NaN count as zero, terms beyond 1e140 and 1e200 as these.
///
/// The terms are pure numbers or share a system: a is a length squared and c a
/// length cubed. Iterating the printed formula instead (depth from pressure,
/// pressure from depth) contracts by about −½ a turn and, for c = 0, not at
/// all: it jumps between two values for ever.
///
/// Method: the start √(a + m² − 0.52 a m²/(a + m²)) with m = ∛c is within
/// 1.3 % of the root everywhere (exact at both ends); two Halley steps, each
/// tripling the digits, reach double precision. m² = c · c^(−1/3), and the
/// inverse cube root comes from a third of the exponent bits (3.5 % off) and
/// one cubic correction (0.02 %), without a division. There is no loop.
///
/// ```
/// use groundline::embedment::positive_root;
/// let x = positive_root(7.0, 6.0); // (x − 3)(x + 1)(x + 2)
/// assert!((x - 3.0).abs() < 1e-15);
/// ```
#[inline]
#[expect(clippy::manual_clamp, reason = "clamp keeps NaN")]
pub fn positive_root(a: f64, c: f64) -> f64 {
    // Also turns NaN to zero.
    let (a, c) = (a.max(0.0).min(1e140), c.max(0.0).min(1e200));
    let mm = c * inverse_cube_root(c);
    let square = a + mm;
    // Below this the squares underflow; such a post carries nothing.
    if square < 1e-100 {
        return 0.0;
    }
    let start = (square - 0.52 * a * mm / square).sqrt();
    halley(halley(start, a, c), a, c)
}

/// c^(−1/3) to 0.02 %; finite at zero.
#[inline]
fn inverse_cube_root(c: f64) -> f64 {
    let x = f64::from_bits(0x553e_eb85_1eb8_51ec - c.to_bits() / 3);
    let h = 1.0 - c * x * x * x;
    x + x * h * (1.0 / 3.0 + h * (2.0 / 9.0))
}

#[inline]
fn halley(x: f64, a: f64, c: f64) -> f64 {
    let xx = x * x;
    let f = x * (xx - a) - c;
    let slope = 3.0 * xx - a;
    x - f * slope / (slope * slope - 3.0 * x * f)
}
