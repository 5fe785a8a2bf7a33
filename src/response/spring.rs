//! One spring: reaction per length and its slope at a deflection.

/// A soil spring at a depth. Forces per length in N/m, deflections in m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Spring {
    /// Nothing: above grade, or a top that does not count.
    None,
    /// p = k y.
    Elastic { k: f64 },
    /// p = k y up to ±pu.
    ElasticPlastic { k: f64, pu: f64 },
    /// p = pu tanh(k y/pu).
    Tanh { k: f64, pu: f64 },
    /// p = ½ pu (y/y50)^(1/3), linear below 0.01 y50, flat from 8 y50.
    CubeRoot { pu: f64, y50: f64 },
    /// The same, from 3 y50 falling linearly to `left` pu at 15 y50.
    CubeRootCyclic { pu: f64, y50: f64, left: f64 },
    /// p = ½ pu (y/y50)^(1/4), linear below 0.001 y50, flat from 16 y50.
    FourthRoot { pu: f64, y50: f64 },
    /// The curve of this number.
    Curve(usize),
}

/// Below this share of y50 a cube-root curve, whose slope at rest is infinite,
/// is a straight line.
const LINEAR_CUBE: f64 = 0.01;
/// The same of a fourth-root curve.
const LINEAR_FOURTH: f64 = 0.001;
/// What cyclic loading leaves of soft clay at 3 y50: 0.5 ∛3, told as 0.72.
const CYCLIC: f64 = 0.72;

impl Spring {
    /// Reaction and slope; a softening curve reports no negative slope.
    #[inline]
    pub(super) fn at(&self, y: f64, curves: &[Vec<(f64, f64)>]) -> (f64, f64) {
        match *self {
            Self::None => (0.0, 0.0),
            Self::Elastic { k } => (k * y, k),
            Self::ElasticPlastic { k, pu } => {
                let p = k * y;
                if p > pu {
                    (pu, 0.0)
                } else if p < -pu {
                    (-pu, 0.0)
                } else {
                    (p, k)
                }
            }
            Self::Tanh { k, pu } => {
                let t = tanh(k * y / pu);
                (pu * t, k * (1.0 - t * t))
            }
            Self::CubeRoot { pu, y50 } => {
                let (shape, slope) = cube_root(y.abs() / y50, None);
                (pu * shape.copysign(y), pu * slope / y50)
            }
            Self::CubeRootCyclic { pu, y50, left } => {
                let (shape, slope) = cube_root(y.abs() / y50, Some(left));
                (pu * shape.copysign(y), pu * slope / y50)
            }
            Self::FourthRoot { pu, y50 } => {
                let (shape, slope) = fourth_root(y.abs() / y50);
                (pu * shape.copysign(y), pu * slope / y50)
            }
            Self::Curve(index) => {
                let (p, slope) = curves
                    .get(index)
                    .map_or((0.0, 0.0), |c| on_curve(c, y.abs()));
                (p.copysign(y), slope)
            }
        }
    }
}

/// tanh by one exponential, faster than the general one; within 1e-16 of it.
#[inline]
fn tanh(x: f64) -> f64 {
    let e = (-2.0 * x.abs()).exp();
    ((1.0 - e) / (1.0 + e)).copysign(x)
}

fn cube_root(r: f64, cyclic: Option<f64>) -> (f64, f64) {
    if r < LINEAR_CUBE {
        let slope = 0.5 * LINEAR_CUBE.cbrt() / LINEAR_CUBE;
        return (slope * r, slope);
    }
    match cyclic {
        Some(left) if r >= 15.0 => (left, 0.0),
        Some(left) if r >= 3.0 => (CYCLIC + (left - CYCLIC) * (r - 3.0) / 12.0, 0.0),
        _ if r >= 8.0 => (1.0, 0.0),
        _ => {
            let root = r.cbrt();
            let shape = 0.5 * root;
            // Cyclic curves meet 0.72 at 3 y50, where the root is 0.7211.
            let shape = if cyclic.is_some() {
                shape.min(CYCLIC)
            } else {
                shape
            };
            (shape, 0.5 * root / (3.0 * r))
        }
    }
}

fn fourth_root(r: f64) -> (f64, f64) {
    if r < LINEAR_FOURTH {
        let slope = 0.5 * LINEAR_FOURTH.sqrt().sqrt() / LINEAR_FOURTH;
        (slope * r, slope)
    } else if r >= 16.0 {
        (1.0, 0.0)
    } else {
        let root = r.sqrt().sqrt();
        (0.5 * root, 0.125 * root / r)
    }
}

/// Piecewise linear from the origin; flat beyond the last point.
fn on_curve(points: &[(f64, f64)], y: f64) -> (f64, f64) {
    let mut last = (0.0, 0.0);
    for point in points {
        if y <= point.0 {
            let slope = (point.1 - last.1) / (point.0 - last.0);
            return (last.1 + slope * (y - last.0), slope.max(0.0));
        }
        last = *point;
    }
    (last.1, 0.0)
}
