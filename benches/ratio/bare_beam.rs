//! The beam on springs in bare f64 arrays: the same nodes, springs, cells where the
//! reaction has kinks, Newton steps, line search and elimination as the library, no
//! types, no matrices.

/// A spring: 0 none, 1 elastic-plastic, 2 tanh.
#[derive(Clone, Copy)]
pub(crate) struct Spring {
    pub(crate) kind: u8,
    pub(crate) k: f64,
    pub(crate) pu: f64,
}

const GAUSS: [f64; 2] = [0.211_324_865_405_187_1, 0.788_675_134_594_812_9];

/// One point of an element that is cut into cells.
struct Point {
    shape: [f64; 4],
    weight: f64,
    spring: Spring,
}

const SHAPES: [[f64; 4]; 2] = [shapes(GAUSS[0]), shapes(GAUSS[1])];

/// Shape functions, those of rotations over the length.
const fn shapes(x: f64) -> [f64; 4] {
    [
        1.0 - 3.0 * x * x + 2.0 * x * x * x,
        x - 2.0 * x * x + x * x * x,
        3.0 * x * x - 2.0 * x * x * x,
        x * x * x - x * x,
    ]
}

const LEVELS: usize = 14;
const TANH: [f64; 7] = [0.25, 0.5, 0.75, 1.0, 1.5, 2.0, 3.0];

/// Part of the curve; of kinks alone, or of smooth bends too.
fn stage(s: Spring, y: f64, kinks: bool) -> i32 {
    let part = match s.kind {
        0 => 0,
        1 => i32::from(s.k * y.abs() > s.pu),
        _ if kinks => 0,
        _ => {
            let r = s.k * y.abs() / s.pu;
            TANH.iter().map(|step| i32::from(r > *step)).sum()
        }
    };
    if y < 0.0 { -part } else { part }
}

/// The spring at a place of an element.
fn between(pair: &[Spring; 2], place: f64) -> Spring {
    let share = (place - GAUSS[0]) / (GAUSS[1] - GAUSS[0]);
    let mix = |one: f64, other: f64| {
        let mixed = one + share * (other - one);
        mixed.max(1e-3 * one.min(other))
    };
    Spring {
        kind: pair[0].kind,
        k: mix(pair[0].k, pair[1].k),
        pu: mix(pair[0].pu, pair[1].pu),
    }
}

fn deflection(n: &[f64; 4], h: f64, u: &[[f64; 2]]) -> f64 {
    n[0] * u[0][0] + n[1] * h * u[0][1] + n[2] * u[1][0] + n[3] * h * u[1][1]
}

pub(crate) struct Beam {
    ei: f64,
    axial: f64,
    depth: f64,
    h: Vec<f64>,
    runs: Vec<(usize, usize)>,
    points: Vec<Point>,
    springs: Vec<[Spring; 2]>,
    load: Vec<[f64; 2]>,
    state: Vec<[f64; 2]>,
    bent: Vec<[f64; 3]>,
    step: Vec<[f64; 2]>,
    residual: Vec<[f64; 2]>,
    diagonal: Vec<[f64; 3]>,
    step_bent: Vec<[f64; 2]>,
    gain: Vec<[f64; 4]>,
    offset: Vec<[f64; 2]>,
    next: Vec<[f64; 4]>,
}

fn spring(s: Spring, y: f64) -> (f64, f64) {
    match s.kind {
        0 => (0.0, 0.0),
        1 => {
            let p = s.k * y;
            if p > s.pu {
                (s.pu, 0.0)
            } else if p < -s.pu {
                (-s.pu, 0.0)
            } else {
                (p, s.k)
            }
        }
        _ => {
            let x = s.k * y / s.pu;
            let e = (-2.0 * x.abs()).exp();
            let t = ((1.0 - e) / (1.0 + e)).copysign(x);
            (s.pu * t, s.k * (1.0 - t * t))
        }
    }
}

impl Beam {
    /// Nodes from grade down.
    pub(crate) fn new(
        ei: f64,
        nodes: &[f64],
        shear: f64,
        moment: f64,
        at: impl Fn(f64) -> Spring,
    ) -> Self {
        let count = nodes.len();
        let elements = count - 1;
        let depth = nodes[elements];
        let h: Vec<f64> = nodes.windows(2).map(|pair| pair[1] - pair[0]).collect();
        let springs = (0..elements)
            .map(|i| GAUSS.map(|g| at(nodes[i] + g * h[i])))
            .collect();
        let mut load = vec![[0.0; 2]; count];
        load[0] = [shear, -moment];
        Self {
            ei,
            axial: 0.0,
            depth,
            h,
            runs: vec![(0, 0); elements],
            points: Vec::with_capacity(elements + 600),
            springs,
            load,
            state: vec![[0.0; 2]; count],
            bent: vec![[0.0; 3]; elements],
            step: vec![[0.0; 2]; count],
            residual: vec![[0.0; 2]; count],
            diagonal: vec![[0.0; 3]; count],
            step_bent: vec![[0.0; 2]; elements],
            gain: vec![[0.0; 4]; elements],
            offset: vec![[0.0; 2]; elements],
            next: vec![[0.0; 4]; elements],
        }
    }

    fn assemble(&mut self) {
        let axial = self.axial;
        for (r, l) in self.residual.iter_mut().zip(&self.load) {
            *r = *l;
        }
        self.diagonal.fill([0.0; 3]);
        for i in 0..self.springs.len() {
            let (h, s) = (self.h[i], self.ei / self.h[i]);
            let (u1, u2) = (self.state[i], self.state[i + 1]);
            let [r1, r2, chord] = self.bent[i];
            let m1 = s * (4.0 * r1 + 2.0 * r2) - axial * h * (4.0 * r1 - r2) / 30.0;
            let m2 = s * (2.0 * r1 + 4.0 * r2) - axial * h * (4.0 * r2 - r1) / 30.0;
            let v = 6.0 * s * (r1 + r2) / h - axial * (0.1 * (r1 + r2) - chord);
            let (mut f1, mut f2) = ([v, m1], [-v, m2]);
            let k = -1.2 * axial / h;
            let c = -0.1 * axial;
            let d = -4.0 * axial * h / 30.0;
            let o = axial * h / 30.0;
            let mut k11 = [k, c, d];
            let mut k22 = [k, -c, d];
            let mut k12 = [-k, c, -c, o];
            let (from, to) = self.runs[i];
            let whole = if from == to { 2 } else { 0 };
            for (one, shape) in self.springs[i].iter().zip(&SHAPES).take(whole) {
                let n = [shape[0], shape[1] * h, shape[2], shape[3] * h];
                let y = n[0] * u1[0] + n[1] * u1[1] + n[2] * u2[0] + n[3] * u2[1];
                let (p, slope) = spring(*one, y);
                let (p, slope) = (0.5 * h * p, 0.5 * h * slope);
                f1[0] += p * n[0];
                f1[1] += p * n[1];
                f2[0] += p * n[2];
                f2[1] += p * n[3];
                let (a, b) = (slope * n[0], slope * n[1]);
                k11[0] += a * n[0];
                k11[1] += a * n[1];
                k11[2] += b * n[1];
                k12[0] += a * n[2];
                k12[1] += a * n[3];
                k12[2] += b * n[2];
                k12[3] += b * n[3];
                k22[0] += slope * n[2] * n[2];
                k22[1] += slope * n[2] * n[3];
                k22[2] += slope * n[3] * n[3];
            }
            for j in 0..2 {
                self.residual[i][j] -= f1[j];
                self.residual[i + 1][j] -= f2[j];
            }
            for j in 0..3 {
                self.diagonal[i][j] += k11[j];
                self.diagonal[i + 1][j] += k22[j];
            }
            self.next[i] = k12;
        }
        for i in 0..self.springs.len() {
            let (from, to) = self.runs[i];
            let h = self.h[i];
            let u = [self.state[i], self.state[i + 1]];
            for point in &self.points[from..to] {
                let (p, slope) = spring(point.spring, deflection(&point.shape, h, &u));
                let (p, slope) = (point.weight * h * p, point.weight * h * slope);
                let n = &point.shape;
                let n = [n[0], n[1] * h, n[2], n[3] * h];
                for j in 0..2 {
                    let part = slope * n[j];
                    self.residual[i][j] -= p * n[j];
                    self.residual[i + 1][j] -= p * n[j + 2];
                    self.next[i][2 * j] += part * n[2];
                    self.next[i][2 * j + 1] += part * n[3];
                    let (a, b) = (2 * j, 2 * j + 1);
                    self.diagonal[i + j][0] += slope * n[a] * n[a];
                    self.diagonal[i + j][1] += slope * n[a] * n[b];
                    self.diagonal[i + j][2] += slope * n[b] * n[b];
                }
            }
        }
    }

    /// Cuts the elements anew where the reaction has kinks.
    fn divide(&mut self, load: f64) -> bool {
        let before = self.points.len();
        self.runs.fill((0, 0));
        self.points.clear();
        for i in 0..self.springs.len() {
            let (h, pair) = (self.h[i], self.springs[i]);
            let u = [self.state[i], self.state[i + 1]];
            let one = stage(between(&pair, 0.0), u[0][0], false);
            let cut = stage(between(&pair, 1.0), u[1][0], false) != one
                || (0..2).any(|j| stage(pair[j], deflection(&SHAPES[j], h, &u), false) != one);
            if cut {
                self.cut(i, 1e-8 * load);
            }
        }
        before + self.points.len() > 0
    }

    fn cut(&mut self, i: usize, tolerance: f64) {
        let (h, pair) = (self.h[i], self.springs[i]);
        let u = [self.state[i], self.state[i + 1]];
        let over = |from: f64, width: f64| {
            let [p, q] = GAUSS.map(|g| {
                let place = from + g * width;
                spring(between(&pair, place), deflection(&shapes(place), h, &u)).0
            });
            let part = 0.5 * h * width;
            [part * (p + q), part * (q - p) * (GAUSS[1] - 0.5)]
        };
        let kinks = |place: f64| {
            let y = deflection(&shapes(place), h, &u);
            stage(between(&pair, place), y, true)
        };
        let from = self.points.len();
        let mut open = [(0.0, 1.0, over(0.0, 1.0), 0); LEVELS + 2];
        let mut count = 1;
        while count > 0 {
            count -= 1;
            let (top, width, [whole, turning], level) = open[count];
            let half = 0.5 * width;
            let (a, b) = (over(top, half), over(top + half, half));
            let turned = 0.5 * (a[1] + b[1]) + 0.25 * (b[0] - a[0]);
            let off = (a[0] + b[0] - whole).abs() + (turned - turning).abs();
            let full = self.points.len() + 2 * (count + 2) > self.springs.len() + 600;
            let hidden = level < 5 && kinks(top) != kinks(top + width);
            if (off > tolerance || hidden) && level < LEVELS && !full {
                open[count] = (top + half, half, b, level + 1);
                open[count + 1] = (top, half, a, level + 1);
                count += 2;
            } else if width < 1.0 {
                self.points.extend(GAUSS.map(|g| {
                    let place = top + g * width;
                    Point {
                        shape: shapes(place),
                        weight: half,
                        spring: between(&pair, place),
                    }
                }));
            }
        }
        self.runs[i] = (from, self.points.len());
    }

    fn eliminate(&mut self) -> bool {
        let last = self.next.len();
        let mut rhs = self.residual[0];
        let mut stiff = self.diagonal[0];
        for i in 0..last {
            let (h, s) = (self.h[i], self.ei / self.h[i]);
            let n = self.next[i];
            let a = [stiff[0], stiff[1] - h * stiff[0]];
            let a22 = stiff[2] - h * (stiff[1] + a[1]);
            let b = [n[0], n[1], n[2] - h * n[0], n[3] - h * n[1]];
            let g = [rhs[0], rhs[1] - h * rhs[0]];
            let p = [a[0] + 12.0 * s / (h * h), a[1] - 6.0 * s / h, a22 + 4.0 * s];
            let det = p[0] * p[2] - p[1] * p[1];
            if !(p[0] > 0.0 && det > 1e-14 * p[0] * p[2]) {
                return false;
            }
            let f = 1.0 / det;
            let x = [a[0] + b[0], a[1] + b[1], a[1] + b[2], a22 + b[3]];
            let n = [
                p[2] * x[0] - p[1] * x[2],
                p[2] * x[1] - p[1] * x[3],
                p[0] * x[2] - p[1] * x[0],
                p[0] * x[3] - p[1] * x[1],
            ];
            self.gain[i] = n.map(|n| f * n);
            self.offset[i] = [
                f * (p[1] * g[1] - p[2] * g[0]),
                f * (p[1] * g[0] - p[0] * g[1]),
            ];
            let below = self.diagonal[i + 1];
            stiff = [
                below[0] + a[0] + 2.0 * b[0] - f * (x[0] * n[0] + x[2] * n[2]),
                below[1] + a[1] + b[1] + b[2] - f * (x[0] * n[1] + x[2] * n[3]),
                below[2] + a22 + 2.0 * b[3] - f * (x[1] * n[1] + x[3] * n[3]),
            ];
            let down = self.residual[i + 1];
            rhs = [
                down[0] + g[0] - f * (n[0] * g[0] + n[2] * g[1]),
                down[1] + g[1] - f * (n[1] * g[0] + n[3] * g[1]),
            ];
        }
        let det = stiff[0] * stiff[2] - stiff[1] * stiff[1];
        if !(stiff[0] > 0.0 && det > 1e-14 * stiff[0] * stiff[2]) {
            return false;
        }
        let f = 1.0 / det;
        let mut below = [
            f * (stiff[2] * rhs[0] - stiff[1] * rhs[1]),
            f * (stiff[0] * rhs[1] - stiff[1] * rhs[0]),
        ];
        self.step[last] = below;
        for i in (0..last).rev() {
            let (k, o) = (self.gain[i], self.offset[i]);
            let r = [
                k[0] * below[0] + k[1] * below[1] + o[0],
                k[2] * below[0] + k[3] * below[1] + o[1],
            ];
            self.step_bent[i] = r;
            let turn = below[1] - r[1];
            below = [below[0] - r[0] - self.h[i] * turn, turn];
            self.step[i] = below;
        }
        true
    }

    fn advance(&mut self, share: f64) {
        for (u, d) in self.state.iter_mut().zip(&self.step) {
            u[0] += share * d[0];
            u[1] += share * d[1];
        }
        let steps = self.step.iter().zip(&self.step_bent);
        for ((bent, h), (upper, r)) in self.bent.iter_mut().zip(&self.h).zip(steps) {
            let turned = r[0] / h;
            bent[0] -= share * turned;
            bent[1] += share * (r[1] - turned);
            bent[2] += share * (upper[1] + turned);
        }
    }

    fn norm(&self, vectors: &[[f64; 2]]) -> f64 {
        let l = self.depth;
        let sum: f64 = vectors
            .iter()
            .map(|v| v[0] * v[0] + v[1] * v[1] / (l * l))
            .sum();
        sum.sqrt()
    }

    fn work(&self) -> f64 {
        self.residual
            .iter()
            .zip(&self.step)
            .map(|(r, d)| r[0] * d[0] + r[1] * d[1])
            .sum()
    }

    /// From rest to equilibrium; deflection at grade and iterations.
    pub(crate) fn solve(&mut self) -> Option<(f64, u32)> {
        self.state.fill([0.0; 2]);
        self.bent.fill([0.0; 3]);
        let scale = self.norm(&self.load);
        self.runs.fill((0, 0));
        self.points.clear();
        self.assemble();
        let mut size = self.norm(&self.residual);
        let (mut least, mut stalled) = (f64::MAX, 0);
        let mut cuts = 0;
        for iteration in 0..60 {
            let mut there = size <= 1e-10 * scale || (size <= 1e-8 * scale && stalled > 2);
            if cuts < 5 && there {
                cuts += 1;
                if self.divide(scale) {
                    self.assemble();
                    size = self.norm(&self.residual);
                    (least, stalled) = (f64::MAX, 0);
                    there = size <= 1e-10 * scale;
                }
            }
            if there {
                return Some((self.state[0][0], iteration));
            }
            if !self.eliminate() {
                return None;
            }
            let before = self.work();
            let (mut low, mut high) = ((0.0, 1.0), None);
            let (mut done, mut target) = (0.0, 1.0_f64);
            for _ in 0..12 {
                self.advance(target - done);
                done = target;
                self.assemble();
                let left = self.work() / before;
                if left < -0.2 {
                    high = Some((done, left));
                } else if left > 0.8 {
                    low = (done, left);
                } else {
                    break;
                }
                target = match high {
                    Some((high, at_high)) => {
                        let (low, at_low) = low;
                        let part: f64 = at_low / (at_low - at_high);
                        low + (high - low) * part.clamp(0.1, 0.9)
                    }
                    None => 4.0 * done,
                };
            }
            size = self.norm(&self.residual);
            if size < 0.5 * least {
                (least, stalled) = (size, 0);
            } else {
                stalled += 1;
            }
            let turned = self
                .state
                .iter()
                .fold(0.0_f64, |most, u| most.max(u[1].abs()));
            if !size.is_finite() || turned > 0.5 {
                return None;
            }
        }
        None
    }
}
