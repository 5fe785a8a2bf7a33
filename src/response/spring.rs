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

    /// Which part of the curve a deflection is on: parts differ where the curve
    /// has a kink, or has bent much, between them.
    pub(super) fn stage(&self, y: f64, curves: &[Vec<(f64, f64)>]) -> i32 {
        let signed = |part: i32| if y < 0.0 { -part } else { part };
        match *self {
            Self::None | Self::Elastic { .. } => 0,
            Self::ElasticPlastic { k, pu } => signed(i32::from(k * y.abs() > pu)),
            Self::Tanh { k, pu } => signed(steps(&TANH_STEPS, k * y.abs() / pu)),
            Self::CubeRoot { y50, .. } => signed(steps(&CUBE_STEPS, y.abs() / y50)),
            Self::CubeRootCyclic { y50, .. } => signed(steps(&CYCLIC_STEPS, y.abs() / y50)),
            Self::FourthRoot { y50, .. } => signed(steps(&FOURTH_STEPS, y.abs() / y50)),
            Self::Curve(index) => {
                let points = curves.get(index).map_or(&[][..], Vec::as_slice);
                let beyond = points.iter().take_while(|point| y.abs() > point.0).count();
                signed(i32::try_from(beyond).unwrap_or(i32::MAX))
            }
        }
    }

    /// The same by kinks alone.
    pub(super) fn kinks(&self, y: f64, curves: &[Vec<(f64, f64)>]) -> i32 {
        let signed = |part: i32| if y < 0.0 { -part } else { part };
        match *self {
            Self::Tanh { .. } => 0,
            Self::CubeRoot { y50, .. } => signed(steps(&[LINEAR_CUBE, 8.0], y.abs() / y50)),
            Self::CubeRootCyclic { y50, .. } => {
                signed(steps(&[LINEAR_CUBE, 3.0, 15.0], y.abs() / y50))
            }
            Self::FourthRoot { y50, .. } => signed(steps(&[LINEAR_FOURTH, 16.0], y.abs() / y50)),
            _ => self.stage(y, curves),
        }
    }

    /// The spring at a share of the way from one to the other, or beyond either.
    pub(super) fn towards(&self, other: &Self, share: f64) -> Self {
        // No strength or stiffness turns negative beyond the two.
        let mix = |one: f64, other: f64| {
            let mixed = one + share * (other - one);
            mixed.max(1e-3 * one.min(other))
        };
        match (*self, *other) {
            (Self::Elastic { k }, Self::Elastic { k: l }) => Self::Elastic { k: mix(k, l) },
            (Self::ElasticPlastic { k, pu }, Self::ElasticPlastic { k: l, pu: qu }) => {
                Self::ElasticPlastic {
                    k: mix(k, l),
                    pu: mix(pu, qu),
                }
            }
            (Self::Tanh { k, pu }, Self::Tanh { k: l, pu: qu }) => Self::Tanh {
                k: mix(k, l),
                pu: mix(pu, qu),
            },
            (Self::CubeRoot { pu, y50 }, Self::CubeRoot { pu: qu, y50: z50 }) => Self::CubeRoot {
                pu: mix(pu, qu),
                y50: mix(y50, z50),
            },
            (
                Self::CubeRootCyclic { pu, y50, left },
                Self::CubeRootCyclic {
                    pu: qu,
                    y50: z50,
                    left: right,
                },
            ) => Self::CubeRootCyclic {
                pu: mix(pu, qu),
                y50: mix(y50, z50),
                left: mix(left, right),
            },
            (Self::FourthRoot { pu, y50 }, Self::FourthRoot { pu: qu, y50: z50 }) => {
                Self::FourthRoot {
                    pu: mix(pu, qu),
                    y50: mix(y50, z50),
                }
            }
            _ if share < 0.5 => *self,
            _ => *other,
        }
    }
}

/// Where the parts of a curve begin: kinks, and places between them.
const TANH_STEPS: [f64; 7] = [0.25, 0.5, 0.75, 1.0, 1.5, 2.0, 3.0];
const CUBE_STEPS: [f64; 9] = [LINEAR_CUBE, 0.02, 0.05, 0.1, 0.2, 0.5, 1.5, 4.0, 8.0];
const CYCLIC_STEPS: [f64; 9] = [LINEAR_CUBE, 0.02, 0.05, 0.1, 0.2, 0.5, 1.5, 3.0, 15.0];
const FOURTH_STEPS: [f64; 9] = [LINEAR_FOURTH, 0.002, 0.005, 0.01, 0.04, 0.2, 1.0, 5.0, 16.0];

fn steps(steps: &[f64], r: f64) -> i32 {
    steps.iter().map(|step| i32::from(r > *step)).sum()
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
