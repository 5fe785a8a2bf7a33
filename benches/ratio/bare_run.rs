//! A straight run of posts under each code in bare f64, SI: wall, pressures,
//! and for each post the worst case, shear, moment and weight at grade.

#![allow(clippy::cast_precision_loss, reason = "small counts")]

use std::hint::black_box;

use crate::bare::{
    B_OVER_S, CASE_C, CASES_A_B, COLUMNS, EDGES, S_OVER_H, bracket, greater, lesser,
};

/// A run free at both ends, gates none.
pub(crate) struct Run {
    pub(crate) length: f64,
    pub(crate) top: f64,
    pub(crate) clearance: f64,
    pub(crate) solidity: f64,
    pub(crate) weight: f64,
    /// Half bays of its posts: from, post, to.
    pub(crate) strips: Vec<(f64, f64, f64)>,
}

/// Pressures of a wall: uniform, off centre (mean, e), zones (edges,
/// pressures), along, and the minimum as a case of its own.
struct Wall {
    uniform: Option<f64>,
    off: Option<(f64, f64)>,
    zones: Option<([f64; 8], [[f64; 7]; 2])>,
    along: Option<([f64; 8], [[f64; 7]; 2])>,
    minimum: Option<f64>,
    height: f64,
}

fn sum(edges: &[f64; 8], pressures: &[f64; 7], a: f64, b: f64) -> f64 {
    let mut total = 0.0;
    for i in 0..7 {
        let to = lesser(edges[i + 1], b);
        total += pressures[i] * greater(0.0, to - greater(edges[i], a));
    }
    total
}

/// What a post brings to grade, and which case brought it: what the library
/// answers too.
struct Case {
    kind: u8,
    run: usize,
    wall: usize,
    of: u8,
    shear: f64,
    moment: f64,
    axial: f64,
    dead: [f64; 3],
}

fn case(run: &Run, walls: &[Wall], strip: (f64, f64, f64)) -> Option<Case> {
    let s = run.top - run.clearance;
    let l = run.length;
    let (from, post, to) = strip;
    let mut found: Option<(usize, u8, f64)> = None;
    for (index, wall) in walls.iter().enumerate() {
        let a = from.max(0.0).min(l);
        let b = to.max(a).min(l);
        let mut worst = (0, f64::MIN);
        let mut consider = |case: u8, force: f64| {
            if force > worst.1 {
                worst = (case, force);
            }
        };
        if let Some(p) = wall.uniform {
            consider(0, p * (b - a));
        }
        if let Some((p, e)) = wall.off {
            let tilt = |twice: f64| 1.0 + 12.0 * e * (0.5 - 0.5 * twice / l);
            // Reactions of the two bays as simple spans.
            let held = |from: f64, to: f64| greater(0.0, lesser(to, l) - greater(from, 0.0));
            let before = (held(from, post), post - 2.0 / 3.0 * (post - from));
            let behind = (held(post, to), post + 2.0 / 3.0 * (to - post));
            let both = |x: &dyn Fn(f64) -> f64| {
                before.0 * tilt(2.0 * x(before.1)) + behind.0 * tilt(2.0 * x(behind.1))
            };
            consider(1, p * both(&|x| x));
            consider(2, p * both(&|x| l - x));
        }
        for (i, zones) in [&wall.zones, &wall.along].into_iter().enumerate() {
            if let Some((edges, [start, end])) = zones {
                let number = 3 + 2 * u8::from(i == 1);
                consider(number, sum(edges, start, a, b));
                consider(number + 1, sum(edges, end, l - b, l - a));
            }
        }
        if let Some(p) = wall.minimum {
            consider(7, p * (b - a));
        }
        let force = worst.1 * s;
        if force > found.map_or(0.0, |(_, _, most)| most) {
            found = Some((index, worst.0, force));
        }
    }
    let (wall, of, shear) = found?;
    Some(Case {
        kind: 0,
        run: 0,
        wall,
        of,
        shear,
        moment: shear * walls[wall].height,
        axial: 0.0,
        dead: [run.weight * s * (to - from), 0.0, 0.0],
    })
}

/// Shear, moment and weight of every post, added up.
fn posts(run: &Run, wall: Wall) -> f64 {
    let walls = vec![wall];
    let mut total = 0.0;
    for strip in &run.strips {
        if let Some(case) = black_box(&case(run, &walls, *strip)) {
            total += case.shear + case.moment + case.axial;
            total += case.dead.iter().sum::<f64>();
            total += f64::from(case.kind) * (case.run + case.wall) as f64;
            total += 0.0 * f64::from(case.of);
        }
    }
    total
}

/// ASCE 7-16, exposure C, flat, sea level, defaults of the library.
pub(crate) fn asce(run: &Run, speed: f64) -> f64 {
    let s = run.top - run.clearance;
    let kz = 2.01 * (run.top.max(4.572) / 274.32).powf(2.0 / 9.5);
    let mph = 1609.344 / 3600.0;
    let psf = 4.448_221_615_260_5 / (0.3048 * 0.3048);
    let q = 0.00256 * psf / (mph * mph) * kz * speed * speed * 0.85;
    let open = 1.0 - run.solidity;
    let per_cf = q * (0.85 * (1.0 - open * open.sqrt()));
    let least = 16.0 * psf;
    let (s_over_h, b_over_s) = (s / run.top, run.length / s);
    let (row, v) = bracket(&S_OVER_H, s_over_h);
    let (column, u) = bracket(&B_OVER_S, b_over_s);
    let mix = |row: usize| {
        let cells = &CASES_A_B[row];
        cells[column] + u * (cells[column + 1] - cells[column])
    };
    let low = mix(row);
    let uniform = per_cf * (low + v * (mix(row + 1) - low));
    let zones = (b_over_s >= 2.0).then(|| {
        let (column, u) = bracket(&COLUMNS, b_over_s);
        let ground = if s_over_h > 0.8 { 1.8 - s_over_h } else { 1.0 };
        let mut edges = [f64::MAX; 8];
        let mut pressures = [0.0; 7];
        for i in 0..7 {
            edges[i] = EDGES[i] * s;
            let (low, high) = (CASE_C[column][i], CASE_C[column + 1][i]);
            pressures[i] = per_cf * ((low + u * (high - low)) * ground);
        }
        (edges, [pressures; 2])
    });
    let wall = Wall {
        uniform: Some(uniform),
        off: (b_over_s <= 5.0).then_some((uniform, 0.2)),
        zones,
        along: None,
        minimum: (least > uniform).then_some(least),
        height: greater(0.55 * run.top, run.clearance + 0.5 * s),
    };
    posts(run, wall)
}

/// EN 1991-1-4, terrain II, recommended values, solid enough.
pub(crate) fn en(run: &Run, speed: f64) -> f64 {
    let z0 = black_box(0.05_f64);
    let kr = 0.19 * (z0 / 0.05).powf(0.07);
    let log = (run.top.max(2.0) / z0).ln();
    let v = speed * (kr * log);
    let q = (1.0 + 7.0 * (1.0 / log)) * 0.5 * 1.25 * v * v;
    let l = run.length / run.top;
    let knots = [3.0, 5.0, 10.0];
    let row = usize::from(l >= 5.0);
    let u = ((l - knots[row]) / (knots[row + 1] - knots[row])).clamp(0.0, 1.0);
    let table = [
        [2.3, 1.4, 1.2, 1.2],
        [2.9, 1.8, 1.4, 1.2],
        [3.4, 2.1, 1.7, 1.2],
    ];
    let solid = ((run.solidity - 0.8) / (1.0 - 0.8)).max(0.0);
    let mut edges = [f64::MAX; 8];
    let mut pressures = [0.0; 7];
    for (i, from) in [0.0, 0.3, 2.0, 4.0].into_iter().enumerate() {
        if from < l {
            edges[i] = from * run.top;
            let free = table[row][i] * (1.0 - u) + table[row + 1][i] * u;
            pressures[i] = q * (1.2 * (1.0 - solid) + free * solid);
        }
    }
    let wall = Wall {
        uniform: None,
        off: None,
        zones: Some((edges, [pressures; 2])),
        along: None,
        minimum: None,
        height: run.clearance + 0.5 * (run.top - run.clearance),
    };
    posts(run, wall)
}

/// AS/NZS 1170.2, every multiplier 1, on the ground and long.
pub(crate) fn as_nzs(run: &Run, speed: f64) -> f64 {
    let s = run.top - run.clearance;
    let v = speed.max(30.0);
    let open = 1.0 - run.solidity;
    let q = 0.5 * 1.2 * v * v * (1.0 - open * open);
    let (b_over_c, c_over_h) = (run.length / s, s / run.top);
    let normal = if b_over_c > 5.0 {
        1.7 - 0.5 * c_over_h
    } else {
        1.3 + 0.5 * (0.3 + b_over_c.log10()) * (0.8 - c_over_h)
    };
    let unit = if c_over_h <= 0.7 { s } else { run.top };
    let zones = |cp: [f64; 3]| {
        let mut edges = [f64::MAX; 8];
        let mut pressures = [0.0; 7];
        for i in 0..3 {
            edges[i] = [0.0, 2.0, 4.0][i] * unit;
            pressures[i] = q * cp[i];
        }
        (edges, [pressures; 2])
    };
    let (oblique, along) = if c_over_h <= 0.7 {
        ([3.0, 1.5, 0.75], [1.2, 0.6, 0.3])
    } else {
        ([2.4, 1.2, 0.6], [1.0, 0.25, 0.25])
    };
    let oblique = (b_over_c > 5.0).then(|| zones(oblique));
    let off = match &oblique {
        Some((edges, pressures)) => sum(edges, &pressures[0], 0.0, run.length) / run.length,
        None => q * normal,
    };
    let wall = Wall {
        uniform: Some(q * normal),
        off: Some((off, 0.2)),
        zones: oblique,
        along: Some(zones(along)),
        minimum: None,
        height: run.clearance + 0.5 * s,
    };
    posts(run, wall)
}
