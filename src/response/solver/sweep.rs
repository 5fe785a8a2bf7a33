//! Residual and tangent of a state, and the step that one sweep of elimination
//! takes from them.

use super::Solver;
use crate::response::cells::deflection;
use crate::response::mesh::SHAPES;
use crate::response::spring::Spring;
use nalgebra::{Matrix2, Vector2, Vector3};

impl Solver {
    /// Residual and tangent at the trial state.
    pub(super) fn assemble(&mut self, share: f64) {
        let axial = self.model.axial.value;
        let curves = self.model.springs.curves();
        for (residual, load) in self.residual.iter_mut().zip(&self.load) {
            *residual = load * share;
        }
        // Slices of one length, so that the loop has no bounds to check.
        let elements = self.mesh.elements.as_slice();
        let cells = &self.trial_cells;
        let least_slope = self.least_slope;
        let count = elements.len();
        let trial = &self.trial[..=count];
        let bent = &self.trial_bent[..count];
        let bending = &self.bending[..count];
        let residual = &mut self.residual[..=count];
        let diagonal = &mut self.diagonal[..=count];
        let next = &mut self.next[..count];
        let mut above = trial[0];
        // What the element above leaves to its lower node.
        let mut force = residual[0];
        let mut block = [0.0; 3];
        for i in 0..count {
            let element = &elements[i];
            let h = element.length;
            let (u1, u2) = (above, trial[i + 1]);
            let [r1, r2, chord] = bent[i];
            let [s, s6, _, k] = bending[i];
            // Bending, less what the axial force takes.
            let m1 = s * (4.0 * r1 + 2.0 * r2) - axial * h * (4.0 * r1 - r2) * (1.0 / 30.0);
            let m2 = s * (2.0 * r1 + 4.0 * r2) - axial * h * (4.0 * r2 - r1) * (1.0 / 30.0);
            let v = s6 * (r1 + r2) - axial * (0.1 * (r1 + r2) - chord);
            let (c, o) = (-0.1 * axial, axial * h * (1.0 / 30.0));
            let d = -4.0 * o;
            let (mut f1, mut f2) = ([v, m1], [-v, m2]);
            let (mut k11, mut k22, mut k12) = ([k, c, d], [k, -c, d], [-k, c, -c, o]);
            // Elements in cells: below.
            let whole = if cells.is_cut(i) { 0 } else { 2 };
            for (spring, shape) in element.springs.iter().zip(&SHAPES).take(whole) {
                let n = [shape[0], shape[1] * h, shape[2], shape[3] * h];
                let y = n[0] * u1.x + n[1] * u1.y + n[2] * u2.x + n[3] * u2.y;
                let (p, slope) = tangent(spring, y, curves, least_slope);
                let (p, slope) = (0.5 * h * p, 0.5 * h * slope);
                f1[0] += p * n[0];
                f1[1] += p * n[1];
                f2[0] += p * n[2];
                f2[1] += p * n[3];
                let (a, b, c) = (slope * n[0], slope * n[1], slope * n[2]);
                k11[0] += a * n[0];
                k11[1] += a * n[1];
                k11[2] += b * n[1];
                k12[0] += a * n[2];
                k12[1] += a * n[3];
                k12[2] += b * n[2];
                k12[3] += b * n[3];
                k22[0] += c * n[2];
                k22[1] += c * n[3];
                k22[2] += slope * n[3] * n[3];
            }
            residual[i] = force - Vector2::new(f1[0], f1[1]);
            diagonal[i] = Vector3::new(block[0] + k11[0], block[1] + k11[1], block[2] + k11[2]);
            next[i] = Matrix2::new(k12[0], k12[1], k12[2], k12[3]);
            force = residual[i + 1] - Vector2::new(f2[0], f2[1]);
            block = k22;
            above = u2;
        }
        residual[count] = force;
        diagonal[count] = Vector3::from(block);
        self.assemble_cells();
    }

    /// Adds the springs of the elements that are cut into cells.
    fn assemble_cells(&mut self) {
        let curves = self.model.springs.curves();
        for (i, element) in self.mesh.elements.iter().enumerate() {
            if !self.trial_cells.is_cut(i) {
                continue;
            }
            let h = element.length;
            let ends = [self.trial[i], self.trial[i + 1]];
            self.trial_cells
                .each(i, element, |spring, shape, _, weight| {
                    let y = deflection(shape, h, &ends);
                    let (p, slope) = tangent(spring, y, curves, self.least_slope);
                    let (p, slope) = (weight * h * p, weight * h * slope);
                    let [a, b] = [
                        Vector2::new(shape[0], shape[1] * h),
                        Vector2::new(shape[2], shape[3] * h),
                    ];
                    self.residual[i] -= a * p;
                    self.residual[i + 1] -= b * p;
                    self.diagonal[i] += Vector3::new(a.x * a.x, a.x * a.y, a.y * a.y) * slope;
                    self.diagonal[i + 1] += Vector3::new(b.x * b.x, b.x * b.y, b.y * b.y) * slope;
                    self.next[i] +=
                        Matrix2::new(a.x * b.x, a.x * b.y, a.y * b.x, a.y * b.y) * slope;
                });
        }
    }

    /// Solves tangent × step = residual; false if a pivot is not positive.
    ///
    /// With the lower end d of an element and r, its upper end is
    /// u = W (d − r), W = (1, −h; 0, 1). Of the energy
    /// ½ u'A u + u'B d + ½ r'K r − g'u the least over r is at
    /// r = (A^ + K)⁻¹ ((A^ + B^) d − g^), A^ = W'A W, B^ = W'B, g^ = W'g.
    pub(super) fn eliminate(&mut self) -> bool {
        let last = self.next.len();
        let elements = &self.mesh.elements[..last];
        let bending = &self.bending[..last];
        let diagonal = &self.diagonal[..=last];
        let residual = &self.residual[..=last];
        let step = &mut self.step[..=last];
        let step_bent = &mut self.step_bent[..last];
        let next = &self.next[..last];
        let gain = &mut self.gain[..last];
        let offset = &mut self.offset[..last];
        let mut rhs = residual[0];
        let mut stiff = diagonal[0];
        for i in 0..last {
            let h = elements[i].length;
            let [s, s6, s12, _] = bending[i];
            let n = next[i];
            // A^, B^, g^.
            let (a11, a12) = (stiff.x, stiff.y - h * stiff.x);
            let a22 = stiff.z - h * (stiff.y + a12);
            let (b11, b12) = (n.m11, n.m12);
            let (b21, b22) = (n.m21 - h * b11, n.m22 - h * b12);
            let (g1, g2) = (rhs.x, rhs.y - h * rhs.x);
            // (A^ + K)⁻¹.
            let p11 = a11 + s12;
            let p12 = a12 - s6;
            let p22 = a22 + 4.0 * s;
            let det = p11 * p22 - p12 * p12;
            if !(p11 > 0.0 && det > 1e-14 * p11 * p22) {
                return false;
            }
            let f = 1.0 / det;
            // X = A^ + B^; r = G d + g, G = f N. Each element waits for the one
            // above, so f comes in last.
            let (x11, x12, x21, x22) = (a11 + b11, a12 + b12, a12 + b21, a22 + b22);
            let (n11, n12) = (p22 * x11 - p12 * x21, p22 * x12 - p12 * x22);
            let (n21, n22) = (p11 * x21 - p12 * x11, p11 * x22 - p12 * x12);
            gain[i] = Matrix2::new(n11, n12, n21, n22) * f;
            offset[i] = Vector2::new(p12 * g2 - p22 * g1, p12 * g1 - p11 * g2) * f;
            // What the post above does to the lower end: A^ + B^ + B^' − X'G.
            let below = diagonal[i + 1];
            stiff = Vector3::new(
                below.x + a11 + 2.0 * b11 - f * (x11 * n11 + x21 * n21),
                below.y + a12 + b12 + b21 - f * (x11 * n12 + x21 * n22),
                below.z + a22 + 2.0 * b22 - f * (x12 * n12 + x22 * n22),
            );
            let down = &residual[i + 1];
            rhs = Vector2::new(
                down.x + g1 - f * (n11 * g1 + n21 * g2),
                down.y + g2 - f * (n12 * g1 + n22 * g2),
            );
        }
        let det = stiff.x * stiff.z - stiff.y * stiff.y;
        if !(stiff.x > 0.0 && det > 1e-14 * stiff.x * stiff.z) {
            return false;
        }
        let f = 1.0 / det;
        let mut below = Vector2::new(
            f * (stiff.z * rhs.x - stiff.y * rhs.y),
            f * (stiff.x * rhs.y - stiff.y * rhs.x),
        );
        step[last] = below;
        for i in (0..last).rev() {
            let r = gain[i] * below + offset[i];
            step_bent[i] = r;
            let turn = below.y - r.y;
            below = Vector2::new(below.x - r.x - elements[i].length * turn, turn);
            step[i] = below;
        }
        true
    }
}

/// Reaction of a spring and its slope, which is not less than a part of p/y.
#[inline]
fn tangent(spring: &Spring, y: f64, curves: &[Vec<(f64, f64)>], least_slope: f64) -> (f64, f64) {
    let (p, slope) = spring.at(y, curves);
    if least_slope > 0.0 && y != 0.0 {
        (p, slope.max(least_slope * p / y))
    } else {
        (p, slope)
    }
}
