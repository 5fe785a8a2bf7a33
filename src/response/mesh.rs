//! The post cut into elements: nodes at grade, at every change of the ground
//! and of the load.

use super::model::{Load, PostModel};
use super::spring::Spring;

/// One element with its springs at the two Gauss points.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Element {
    pub(super) length: f64,
    pub(super) springs: [Spring; 2],
    /// Wind per length.
    pub(super) wind: f64,
}

impl Element {
    /// The spring at a place in the element, 0 at its top to 1: straight between
    /// those at its Gauss points.
    pub(super) fn spring(&self, place: f64) -> Spring {
        let share = (place - GAUSS[0]) / (GAUSS[1] - GAUSS[0]);
        self.springs[0].towards(&self.springs[1], share)
    }
}

/// Nodes from the top down.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Mesh {
    /// Depth of each node; negative above grade.
    pub(super) z: Vec<f64>,
    pub(super) elements: Vec<Element>,
    /// Force and moment at each node; wind only where it comes to the top from
    /// above it.
    pub(super) nodal: Vec<(f64, f64)>,
    /// The node at grade.
    pub(super) grade: usize,
}

/// Where the Gauss points stand in an element.
pub(super) const GAUSS: [f64; 2] = [0.211_324_865_405_187_1, 0.788_675_134_594_812_9];
/// Shape functions of y at the Gauss points, rotations over the length.
pub(super) const SHAPES: [[f64; 4]; 2] = [shapes(GAUSS[0]), shapes(GAUSS[1])];

pub(super) const fn shapes(x: f64) -> [f64; 4] {
    [
        1.0 - 3.0 * x * x + 2.0 * x * x * x,
        x - 2.0 * x * x + x * x * x,
        3.0 * x * x - 2.0 * x * x * x,
        x * x * x - x * x,
    ]
}

impl Mesh {
    pub(super) fn new(model: &PostModel) -> Self {
        let toe = model.depth.value;
        // Closer than this, two depths are one.
        let near = 1e-7 * (toe + model.above.value);
        let top = if model.above.value > near {
            -model.above.value
        } else {
            0.0
        };
        let mut breaks = vec![top, 0.0, toe];
        breaks.extend(model.springs.breaks(model.depth, model.width));
        for load in &model.loads {
            match *load {
                Load::At(height, ..) => breaks.push((-height).max(top)),
                Load::Along(from, to, _) => {
                    breaks.push((-from).max(top));
                    breaks.push((-to).max(top));
                }
            }
        }
        for depth in &mut breaks {
            for fixed in [0.0, top, toe] {
                if (*depth - fixed).abs() <= near {
                    *depth = fixed;
                }
            }
        }
        breaks.sort_by(f64::total_cmp);
        breaks.dedup_by(|a, b| (*a - *b).abs() <= near);
        let size = toe / f64::from(model.elements);
        let mut z = vec![top];
        for pair in breaks.windows(2) {
            let (from, to) = (pair[0], pair[1]);
            let most = f64::from(model.elements);
            let count = ((to - from) / size - 1e-9).ceil().clamp(1.0, most);
            let mut i = 1.0;
            while i <= count {
                z.push(if i >= count {
                    to
                } else {
                    from + (to - from) * (i / count)
                });
                i += 1.0;
            }
        }
        let z = refined(&z, model);
        let grade = z.iter().position(|z| *z >= 0.0).unwrap_or(0);
        let elements = z
            .windows(2)
            .map(|pair| {
                let (from, to) = (pair[0], pair[1]);
                let middle = 0.5 * (from + to);
                let below = middle > 0.0;
                let spring = |xi: f64| {
                    if below {
                        let at = from + xi * (to - from);
                        model.springs.at(at, model.width, model.rigidity)
                    } else {
                        Spring::None
                    }
                };
                let winds = model.loads.iter().map(|load| match *load {
                    Load::Along(low, high, wind) if -middle > low && -middle < high => wind,
                    _ => 0.0,
                });
                Element {
                    length: to - from,
                    springs: GAUSS.map(spring),
                    wind: winds.sum(),
                }
            })
            .collect();
        let mut nodal = vec![(0.0, 0.0); z.len()];
        for load in &model.loads {
            if let Load::At(height, force, moment) = *load {
                let at = (-height).max(top);
                let over = height + at;
                let node = z.iter().position(|z| *z >= at - near).unwrap_or(0);
                nodal[node].0 += force;
                nodal[node].1 += moment + force * over;
            }
        }
        for load in &model.loads {
            // Wind above the top comes to it with its moment.
            if let Load::Along(from, to, wind) = *load {
                let low = from.max(-top);
                if to > low {
                    let force = wind * (to - low);
                    nodal[0].0 += force;
                    nodal[0].1 += force * (0.5 * (to + low) + top);
                }
            }
        }
        Self {
            z,
            elements,
            nodal,
            grade,
        }
    }
}

/// Elements below grade over the soil's own length, (4 EI/k)^(1/4) of the spring
/// at rest, at most: longer ones miss how the post bends in it.
const LONGEST: f64 = 0.3;
/// The same farther down than `ACTIVE` of those lengths, where the post is next to
/// at rest.
const LONGEST_BELOW: f64 = 1.0;
const ACTIVE: f64 = 12.0;

/// Elements cut where the soil's own length is short.
fn refined(coarse: &[f64], model: &PostModel) -> Vec<f64> {
    let curves = model.springs.curves();
    let mut z = vec![coarse[0]];
    // Own lengths from grade to here.
    let mut down = 0.0;
    for pair in coarse.windows(2) {
        let (from, to) = (pair[0], pair[1]);
        let h = to - from;
        let mut parts = 1.0;
        if from >= 0.0 {
            let at = from + GAUSS[1] * h;
            let (_, k) = model
                .springs
                .at(at, model.width, model.rigidity)
                .at(0.0, curves);
            let own = h / (4.0 * model.rigidity.value / k).powf(0.25);
            let longest = if down < ACTIVE {
                LONGEST
            } else {
                LONGEST_BELOW
            };
            parts = (own / longest).ceil().clamp(1.0, 100.0);
            down += own;
        }
        let mut i = 1.0;
        while i < parts {
            z.push(from + h * (i / parts));
            i += 1.0;
        }
        z.push(to);
    }
    z
}
