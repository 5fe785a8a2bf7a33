//! One bracketed root finder for the whole module.

/// The root of a function that rises from not positive at `low` to not negative
/// at `high`, to 1e-13 of the bracket. Regula falsi with the Illinois step,
/// bisection whenever it dawdles; at most 200 evaluations. A function that does
/// not change sign gives the end nearer to zero.
pub(super) fn rising_root(mut low: f64, mut high: f64, f: impl Fn(f64) -> f64) -> f64 {
    let width = high - low;
    let (mut at_low, mut at_high) = (f(low), f(high));
    if at_low >= 0.0 {
        return low;
    }
    if at_high <= 0.0 {
        return high;
    }
    let mut last_low = false;
    let mut stuck = 0;
    for _ in 0..200 {
        if high - low <= 1e-13 * width {
            break;
        }
        let secant = high - at_high * (high - low) / (at_high - at_low);
        let inside = secant > low && secant < high && stuck < 3;
        let x = if inside { secant } else { 0.5 * (low + high) };
        let value = f(x);
        let before = high - low;
        if value < 0.0 {
            low = x;
            at_low = value;
            if last_low {
                at_high *= 0.5;
            }
            last_low = true;
        } else if value > 0.0 {
            high = x;
            at_high = value;
            if !last_low {
                at_low *= 0.5;
            }
            last_low = false;
        } else {
            return x;
        }
        stuck = if high - low > 0.5 * before {
            stuck + 1
        } else {
            0
        };
    }
    0.5 * (low + high)
}
