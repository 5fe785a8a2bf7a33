//! An experiment: the closed form over slices of numbers, in passes the
//! compiler turns into vector instructions, against the library's one answer at
//! a time. What came of it stands in `benches/README.md`.

use crate::bare::{CAP, Formula, MOMENT};

const CHUNK: usize = 64;

/// Required depths of an unconstrained pole for slices of shear and moment.
pub(crate) fn required(formula: &Formula, shear: &[f64], moment: &[f64], depth: &mut [f64]) {
    let per_width = formula.per_depth * formula.width;
    let chunks = shear.chunks(CHUNK).zip(moment.chunks(CHUNK));
    for ((shear, moment), depth) in chunks.zip(depth.chunks_mut(CHUNK)) {
        let (mut a, mut c, mut x) = ([0.0; CHUNK], [0.0; CHUNK], [0.0_f64; CHUNK]);
        for i in 0..shear.len() {
            a[i] = (3.0 * 2.34 * shear[i] / per_width).clamp(0.0, 1e140);
            c[i] = (3.0 * MOMENT * moment[i] / per_width).clamp(0.0, 1e200);
        }
        // A division of whole numbers, which has no vector instruction.
        for i in 0..CHUNK {
            x[i] = f64::from_bits(0x553e_eb85_1eb8_51ec - c[i].to_bits() / 3);
        }
        for i in 0..CHUNK {
            let (a, c, x) = (a[i], c[i], &mut x[i]);
            let h = 1.0 - c * *x * *x * *x;
            let mm = c * (*x + *x * h * (1.0 / 3.0 + h * (2.0 / 9.0)));
            let square = a + mm;
            let start = (square - 0.52 * a * mm / square).sqrt();
            let root = halley(halley(start, a, c), a, c);
            let root = if square < 1e-100 { 0.0 } else { root };
            let half = 0.5 * a / CAP;
            let beyond = half + (half * half + c / CAP).sqrt();
            *x = if root > CAP { beyond } else { root };
        }
        depth.copy_from_slice(&x[..depth.len()]);
    }
}

fn halley(x: f64, a: f64, c: f64) -> f64 {
    let xx = x * x;
    let f = x * (xx - a) - c;
    let slope = 3.0 * xx - a;
    x - f * slope / (slope * slope - 3.0 * x * f)
}
