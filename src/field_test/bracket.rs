//! The least of a function in a bracket.

use crate::error::Error;

/// The most evaluations of one search.
const MOST: u32 = 60;

/// Where a function of one valley is least, and how much: Brent's search by
/// parabola and golden section, to a tolerance, at most [`MOST`]
/// evaluations. An end of the bracket is tried where it is near.
pub(super) fn least(
    low: f64,
    high: f64,
    within: f64,
    mut f: impl FnMut(f64) -> Result<f64, Error>,
) -> Result<(f64, f64), Error> {
    const GOLDEN: f64 = 0.381_966_011_250_105_1;
    let (mut a, mut b) = (low, high);
    let mut x = a + GOLDEN * (b - a);
    let mut at_x = f(x)?;
    let (mut w, mut at_w, mut v, mut at_v) = (x, at_x, x, at_x);
    let (mut step, mut before) = (0.0_f64, 0.0_f64);
    for _ in 3..MOST {
        let middle = 0.5 * (a + b);
        if (x - middle).abs() <= 2.0 * within - 0.5 * (b - a) {
            break;
        }
        let r = (x - w) * (at_x - at_v);
        let q = (x - v) * (at_x - at_w);
        let p = (x - v) * q - (x - w) * r;
        let q = 2.0 * (q - r);
        let parabola = -p / q;
        let inside = x + parabola > a + 2.0 * within && x + parabola < b - 2.0 * within;
        if parabola.is_finite() && inside && parabola.abs() < 0.5 * before.abs() {
            before = step;
            step = parabola;
        } else {
            before = if x < middle { b - x } else { a - x };
            step = GOLDEN * before;
        }
        let u = x + if step.abs() >= within {
            step
        } else {
            within.copysign(step)
        };
        let at_u = f(u)?;
        if at_u <= at_x {
            if u < x {
                b = x;
            } else {
                a = x;
            }
            (v, at_v, w, at_w, x, at_x) = (w, at_w, x, at_x, u, at_u);
        } else {
            if u < x {
                a = u;
            } else {
                b = u;
            }
            if at_u <= at_w || (w - x).abs() <= 0.0 {
                (v, at_v, w, at_w) = (w, at_w, u, at_u);
            } else if at_u <= at_v || (v - x).abs() <= 0.0 || (v - w).abs() <= 0.0 {
                (v, at_v) = (u, at_u);
            }
        }
    }
    for end in [low, high] {
        if (x - end).abs() < 4.0 * within {
            let at_end = f(end)?;
            if at_end <= at_x {
                (x, at_x) = (end, at_end);
            }
        }
    }
    Ok((x, at_x))
}
