//! The same algorithms in bare f64, SI, with the same inputs, options and range
//! checks: what one would write without types.

#![allow(
    clippy::struct_excessive_bools,
    clippy::manual_clamp,
    clippy::too_many_lines,
    reason = "one flat twin of the library's options and steps"
)]

const FT: f64 = 0.3048;
pub(crate) const CAP: f64 = 12.0 * FT;
pub(crate) const MOMENT: f64 = 2.34 * 4.36 / 4.0;

/// Actions at grade: N, N·m, N, and whether the alternative combinations hold.
pub(crate) struct Actions {
    pub(crate) shear: f64,
    pub(crate) moment: f64,
    pub(crate) axial: f64,
    pub(crate) alternative: bool,
}

/// The pole formula of one ground and width.
pub(crate) struct Formula {
    pub(crate) per_depth: f64,
    pub(crate) width: f64,
    pub(crate) isolated_pole: bool,
    pub(crate) both_increases: bool,
    pub(crate) top: f64,
    pub(crate) constrained: bool,
    pub(crate) cap_reading: bool,
}

fn positive_root(a: f64, c: f64) -> f64 {
    let (a, c) = (a.max(0.0).min(1e140), c.max(0.0).min(1e200));
    let x = f64::from_bits(0x553e_eb85_1eb8_51ec - c.to_bits() / 3);
    let h = 1.0 - c * x * x * x;
    let mm = c * (x + x * h * (1.0 / 3.0 + h * (2.0 / 9.0)));
    let square = a + mm;
    if square < 1e-100 {
        return 0.0;
    }
    let start = (square - 0.52 * a * mm / square).sqrt();
    halley(halley(start, a, c), a, c)
}

/// `f64::max` also handles NaN, which costs; nothing here is NaN.
pub(crate) fn greater(a: f64, b: f64) -> f64 {
    if b > a { b } else { a }
}

/// The same of `f64::min`.
pub(crate) fn lesser(a: f64, b: f64) -> f64 {
    if b < a { b } else { a }
}

fn halley(x: f64, a: f64, c: f64) -> f64 {
    let xx = x * x;
    let f = x * (xx - a) - c;
    let slope = 3.0 * xx - a;
    x - f * slope / (slope * slope - 3.0 * x * f)
}

impl Formula {
    fn bearing_per_depth(&self, actions: &Actions) -> Option<f64> {
        let third = if actions.alternative { 4.0 / 3.0 } else { 1.0 };
        let pole = if self.isolated_pole { 2.0 } else { 1.0 };
        if self.isolated_pole && actions.alternative && !self.both_increases {
            return None;
        }
        Some(self.per_depth * (pole * third))
    }

    fn load(&self, actions: &Actions) -> Option<(f64, f64)> {
        if actions.shear * actions.moment < 0.0 {
            return None;
        }
        let p = actions.shear.abs();
        let drop = if self.constrained { 0.0 } else { self.top };
        Some((p, actions.moment.abs() + p * drop))
    }

    fn cap(&self) -> f64 {
        if !self.constrained && self.cap_reading {
            3.0 * CAP
        } else {
            CAP
        }
    }

    /// Total depth and the part that counts.
    pub(crate) fn required(&self, actions: &Actions) -> Option<(f64, f64)> {
        let per_width = self.bearing_per_depth(actions)? * self.width;
        let (p, m) = self.load(actions)?;
        let (a, c) = if self.constrained {
            (0.0, 4.25 * m / per_width)
        } else {
            (3.0 * 2.34 * p / per_width, 3.0 * MOMENT * m / per_width)
        };
        let mut below = positive_root(a, c);
        let cap = self.cap();
        if below > cap {
            let half = 0.5 * a / cap;
            below = half + (half * half + c / cap).sqrt();
        }
        Some(if below > 0.0 {
            (below + self.top, below)
        } else {
            (below, below)
        })
    }

    fn utilization(&self, actions: &Actions, depth: f64) -> Option<f64> {
        if !(0.01 * FT..=300.0 * FT).contains(&depth) {
            return None;
        }
        let per_depth = self.bearing_per_depth(actions)?;
        let (p, m) = self.load(actions)?;
        let d = depth - self.top;
        if d <= 0.0 {
            return Some(if p + m > 0.0 { 1e6 } else { 0.0 });
        }
        let capped = d.min(self.cap());
        let (needed, allowed) = if self.constrained {
            (4.25 * m, per_depth * capped)
        } else {
            (2.34 * p * d + MOMENT * m, per_depth * capped / 3.0)
        };
        Some((needed / (self.width * d * d) / allowed).min(1e6))
    }
}

/// What is fixed: formula, post strength, base.
pub(crate) struct Design {
    pub(crate) formula: Formula,
    pub(crate) moment: f64,
    pub(crate) shear: f64,
    pub(crate) vertical: Option<f64>,
    pub(crate) base: f64,
}

/// What varies, and the options of a site and a wall.
pub(crate) struct Input {
    pub(crate) speed: f64,
    pub(crate) top: f64,
    pub(crate) clearance: f64,
    pub(crate) solidity: f64,
    pub(crate) length: f64,
    pub(crate) from: f64,
    pub(crate) width: f64,
    pub(crate) depth: f64,
    pub(crate) kzt: f64,
    pub(crate) elevation: Option<f64>,
    pub(crate) gust: f64,
    pub(crate) returns: [Option<f64>; 2],
    pub(crate) axial: f64,
    pub(crate) dead_in_line: f64,
    pub(crate) dead_across: f64,
    pub(crate) alternative: bool,
}

pub(crate) const S_OVER_H: [f64; 7] = [0.16, 0.2, 0.3, 0.5, 0.7, 0.9, 1.0];
pub(crate) const B_OVER_S: [f64; 12] = [
    0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 4.0, 5.0, 10.0, 20.0, 30.0, 45.0,
];
#[rustfmt::skip]
pub(crate) const CASES_A_B: [[f64; 12]; 7] = [
    [1.95, 1.90, 1.85, 1.85, 1.80, 1.80, 1.85, 1.85, 1.85, 1.90, 1.90, 1.95],
    [1.95, 1.90, 1.85, 1.80, 1.80, 1.80, 1.80, 1.80, 1.85, 1.90, 1.90, 1.95],
    [1.95, 1.90, 1.85, 1.80, 1.80, 1.80, 1.80, 1.80, 1.80, 1.85, 1.85, 1.85],
    [1.95, 1.85, 1.80, 1.75, 1.75, 1.70, 1.70, 1.70, 1.70, 1.70, 1.70, 1.75],
    [1.90, 1.85, 1.75, 1.70, 1.65, 1.60, 1.60, 1.55, 1.55, 1.55, 1.55, 1.55],
    [1.85, 1.75, 1.70, 1.60, 1.55, 1.50, 1.45, 1.45, 1.40, 1.40, 1.40, 1.40],
    [1.80, 1.70, 1.65, 1.55, 1.45, 1.40, 1.35, 1.35, 1.30, 1.30, 1.30, 1.30],
];
pub(crate) const EDGES: [f64; 8] = [0.0, 1.0, 2.0, 3.0, 4.0, 5.0, 10.0, f64::MAX];
pub(crate) const COLUMNS: [f64; 11] = [2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 9.0, 10.0, 13.0, 45.0];
pub(crate) const CASE_C: [[f64; 7]; 11] = [
    [2.25, 1.50, 1.15, 1.10, 1.10, 1.10, 0.55],
    [2.60, 1.70, 1.15, 1.10, 1.10, 1.10, 0.55],
    [2.90, 1.90, 1.30, 1.10, 1.10, 1.10, 0.55],
    [3.10, 2.00, 1.45, 1.05, 1.05, 1.05, 0.55],
    [3.30, 2.15, 1.55, 1.05, 1.05, 1.05, 0.55],
    [3.40, 2.25, 1.65, 1.05, 1.05, 1.05, 0.55],
    [3.55, 2.30, 1.70, 1.05, 1.05, 1.05, 0.55],
    [3.65, 2.35, 1.75, 1.00, 1.00, 1.00, 0.55],
    [3.75, 2.45, 1.85, 0.95, 0.95, 0.95, 0.55],
    [4.00, 2.60, 2.00, 1.50, 1.35, 0.90, 0.55],
    [4.30, 2.55, 1.95, 1.85, 1.85, 1.10, 0.55],
];

pub(crate) fn bracket<const N: usize>(knots: &[f64; N], x: f64) -> (usize, f64) {
    let mut index = 0;
    for knot in &knots[1..N - 1] {
        index += usize::from(x >= *knot);
    }
    let (low, high) = (knots[index], knots[index + 1]);
    (index, ((x - low) / (high - low)).clamp(0.0, 1.0))
}

fn return_factor(x: f64) -> Option<f64> {
    if !(0.0..=1e9).contains(&x) {
        return None;
    }
    Some(if x < 0.3 {
        1.0
    } else if x < 1.0 {
        0.90 - 0.15 * (x - 0.3) / 0.7
    } else {
        0.75 - 0.15 * (x - 1.0).min(1.0)
    })
}

/// Wind to utilization of one post in 7-16 exposure C. Utilization plus
/// required depth, so that nothing of either is left out.
pub(crate) fn whole(design: &Design, input: &Input) -> Option<f64> {
    let (top, length) = (input.top, input.length);
    if !(17.88..=134.2).contains(&input.speed)
        || !(0.15..=30.5).contains(&top)
        || !(0.0..=0.95 * top).contains(&input.clearance)
        || !(0.7..=1.0).contains(&input.solidity)
        || !(0.076..=91_440.0).contains(&length)
        || !(1.0..=4.0).contains(&input.kzt)
        || !(0.85..=3.0).contains(&input.gust)
        || !(0.0..=4.448e8).contains(&input.axial)
        || !(0.0..=1.4e9).contains(&input.dead_in_line)
        || !(0.0..=1.4e9).contains(&input.dead_across)
    {
        return None;
    }
    // Wind.
    let s = top - input.clearance;
    let kz = 2.01 * (top.max(4.572) / 274.32).powf(2.0 / 9.5);
    let ke = match input.elevation {
        Some(z) => (-0.000_036_2 * z / FT).exp(),
        None => 1.0,
    };
    let mph = 1609.344 / 3600.0;
    let psf = 4.448_221_615_260_5 / (FT * FT);
    let constant = 0.00256 * psf / (mph * mph);
    let q = constant * kz * input.kzt * ke * input.speed * input.speed * 0.85;
    let open = 1.0 - input.solidity;
    let per_cf = q * (input.gust * (1.0 - open * open.sqrt()));
    let least = 16.0 * psf;
    let (s_over_h, b_over_s) = (s / top, length / s);
    let (row, v) = bracket(&S_OVER_H, s_over_h);
    let (column, u) = bracket(&B_OVER_S, b_over_s);
    let mix = |row: usize| {
        let cells = &CASES_A_B[row];
        cells[column] + u * (cells[column + 1] - cells[column])
    };
    let low = mix(row);
    let uniform = per_cf * (low + v * (mix(row + 1) - low));
    // Cases; the minimum is one of its own.
    let a = input.from.max(0.0).min(length);
    let b = (input.from + input.width).max(a).min(length);
    let eccentric = |twice: f64| 1.0 + 2.4 * (0.5 - 0.5 * twice / length);
    let plain = uniform * (b - a);
    let mut force = greater(plain, least * (b - a));
    if b_over_s <= 5.0 {
        let either = greater(
            plain * eccentric(a + b),
            plain * eccentric(2.0 * length - a - b),
        );
        force = greater(force, either);
    }
    if b_over_s >= 2.0 {
        let (column, u) = bracket(&COLUMNS, b_over_s);
        let (low, high) = (&CASE_C[column], &CASE_C[column + 1]);
        let ground = if s_over_h > 0.8 { 1.8 - s_over_h } else { 1.0 };
        let mut factors = [1.0, 1.0];
        for (factor, end) in factors.iter_mut().zip(input.returns) {
            if let Some(lr) = end {
                let reduced = return_factor(lr / s)?;
                *factor = if b_over_s >= 5.0 { reduced } else { 1.0 };
            }
        }
        let (mut near, mut far) = (0.0, 0.0);
        for i in 0..7 {
            let cf = (low[i] + u * (high[i] - low[i])) * ground;
            let (first, last) = if i == 0 {
                (per_cf * (cf * factors[0]), per_cf * (cf * factors[1]))
            } else {
                let p = per_cf * cf;
                (p, p)
            };
            let (from, to) = (EDGES[i] * s, EDGES[i + 1] * s);
            near += first * greater(0.0, lesser(to, b) - greater(from, a));
            far += last * greater(0.0, lesser(to, length - a) - greater(from, length - b));
        }
        force = greater(greater(force, near), far);
    }
    let force = force * s;
    let height = greater(0.55 * top, input.clearance + 0.5 * s);
    if !(0.0..=91.44).contains(&height) || force.abs() > 4.448e8 {
        return None;
    }
    // Combination.
    let factor = if input.alternative { 0.6 * 1.3 } else { 0.6 };
    let in_line = factor * force * height + input.dead_in_line;
    let actions = Actions {
        shear: factor * force,
        moment: if input.dead_across == 0.0 {
            in_line
        } else {
            (in_line * in_line + input.dead_across * input.dead_across).sqrt()
        },
        axial: input.axial,
        alternative: input.alternative,
    };
    // Ground.
    let (depth, below) = design.formula.required(&actions)?;
    let ground = design.formula.utilization(&actions, input.depth)?;
    // Post, at the required depth.
    let l = greater(0.1 * FT, below);
    let v = actions.shear.abs();
    let (inside, reverse) = if design.formula.constrained {
        let m = actions.moment.abs();
        (m, v.max(4.0 * m / (3.0 * l)))
    } else {
        let at_top = actions.moment.abs() + v * design.formula.top;
        let m = at_top / l;
        let k = 8.0 * v + 12.0 * m;
        if k > 0.0 {
            let zeta = (v + (v * v + 4.0 * k * v).sqrt()) / (2.0 * k);
            let rise =
                zeta * (v - zeta * zeta * ((3.0 * v + 4.0 * m) - zeta * (2.0 * v + 3.0 * m)));
            let turn = 9.0 * v + 12.0 * m;
            let at = 2.0 * turn / (3.0 * k);
            (at_top + l * rise, (turn * at * at / 3.0 - v).max(v))
        } else {
            (0.0, 0.0)
        }
    };
    let bending = (inside / design.moment).min(1e6);
    let shearing = (reverse / design.shear).min(1e6);
    let bearing = match design.vertical {
        Some(vertical) => (actions.axial / design.base / vertical).min(1e6),
        None => 0.0,
    };
    Some(greater(greater(greater(ground, bending), shearing), bearing) + depth)
}
