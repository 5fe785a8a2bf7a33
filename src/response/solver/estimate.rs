//! How far the mesh is from the answer: the same equilibrium with a finer
//! integration, by one step of Newton.

use super::Solver;
use crate::response::cells::deflection;
use crate::response::mesh::{GAUSS, shapes};
use crate::response::solution::{MeshError, Response};
use crate::units::{Length, Measurable, Torque};
use nalgebra::Vector2;

/// Loads of an element: force and its moment about the lower end, of the whole
/// element, and the moment of those of its upper half about the middle.
#[derive(Default)]
struct Statics {
    whole: [f64; 2],
    upper: f64,
    /// y at the middle.
    middle: f64,
}

impl Solver {
    pub(super) fn estimate(&self, response: &Response) -> Option<MeshError> {
        let mut fine = self.clone();
        fine.trial.copy_from_slice(&self.state);
        fine.trial_bent.copy_from_slice(&self.bent);
        fine.trial_cells.copy(&self.cells);
        fine.assemble(self.share);
        let axial = self.model.axial.value;
        let curves = self.model.springs.curves();
        for (i, element) in self.mesh.elements.iter().enumerate() {
            let h = element.length;
            let ends = [self.state[i], self.state[i + 1]];
            // Reaction by the points used less that by finer ones.
            let mut over = [0.0; 4];
            self.cells.each(i, element, |spring, shape, _, weight| {
                let (p, _) = spring.at(deflection(shape, h, &ends), curves);
                for (over, shape) in over.iter_mut().zip(shape) {
                    *over += weight * h * p * shape;
                }
            });
            let bulge = self.finely(i, &ends, |_, shape, p| {
                for (over, shape) in over.iter_mut().zip(shape) {
                    *over -= p * shape;
                }
            });
            // The axial force on what the element bulges between its nodes.
            let turned = axial * bulge / 30.0;
            fine.residual[i] += Vector2::new(over[0], over[1] * h + turned);
            fine.residual[i + 1] += Vector2::new(over[2], over[3] * h - turned);
        }
        if !fine.eliminate() {
            return None;
        }
        let moved: Vec<_> = self
            .state
            .iter()
            .zip(&fine.step)
            .map(|(u, d)| u + d)
            .collect();
        let off = fine
            .step
            .iter()
            .fold(0.0_f64, |most, d| most.max(d.x.abs()));
        let moment = self.moments_off(response, &moved);
        (off.is_finite() && moment.is_finite()).then(|| MeshError {
            deflection: Length::from_si(off),
            moment: Torque::from_si(moment),
        })
    }

    /// The greatest difference of the moments of a response, at stations and
    /// half-way between them, from those of a state by finer integration.
    fn moments_off(&self, response: &Response, state: &[Vector2<f64>]) -> f64 {
        let axial = self.model.axial.value;
        let stations = response.stations();
        let (mut shear, mut moment, mut off) = (0.0, 0.0, 0.0_f64);
        for (i, element) in self.mesh.elements.iter().enumerate() {
            shear += self.mesh.nodal[i].0 * self.share;
            moment += self.mesh.nodal[i].1 * self.share;
            let h = element.length;
            let ends = [state[i], state[i + 1]];
            let statics = self.statics(i, &ends);
            let at_middle =
                moment + 0.5 * shear * h + statics.upper + axial * (ends[0].x - statics.middle);
            let (a, b) = (&stations[i], &stations[i + 1]);
            let slope = |shear: f64, turned: f64| (shear - axial * turned) * h;
            // Moment and shear of the lower station less the loads of its node.
            let (force, turning) = self.mesh.nodal[i + 1];
            let lower = b.moment.value - turning * self.share;
            let one = slope(a.shear.value, a.rotation.value);
            let other = slope(b.shear.value - force * self.share, b.rotation.value);
            let between = 0.5 * (a.moment.value + lower) + 0.125 * (one - other);
            off = off.max((a.moment.value - moment).abs());
            off = off.max((between - at_middle).abs());
            moment += shear * h + statics.whole[1] + axial * (ends[0].x - ends[1].x);
            shear += statics.whole[0];
        }
        off
    }

    fn statics(&self, index: usize, ends: &[Vector2<f64>; 2]) -> Statics {
        let element = &self.mesh.elements[index];
        let h = element.length;
        let wind = element.wind * self.share * h;
        let mut statics = Statics {
            whole: [wind, 0.5 * wind * h],
            upper: 0.125 * wind * h,
            ..Statics::default()
        };
        let bulge = self.finely(index, ends, |place, _, p| {
            statics.whole[0] -= p;
            statics.whole[1] -= p * (1.0 - place) * h;
            if place < 0.5 {
                statics.upper -= p * (0.5 - place) * h;
            }
        });
        statics.middle = deflection(&shapes(0.5), h, ends) + bulge / 16.0;
        statics
    }

    /// Calls with place, shape functions and reaction at finer points: two in each half
    /// of each cell, at the deflection with what the loads bend the element between
    /// its nodes. That is `bulge` x² (1 − x)²; returns `bulge`.
    fn finely(
        &self,
        index: usize,
        ends: &[Vector2<f64>; 2],
        mut call: impl FnMut(f64, &[f64; 4], f64),
    ) -> f64 {
        let element = &self.mesh.elements[index];
        let curves = self.model.springs.curves();
        let h = element.length;
        let at_middle = deflection(&shapes(0.5), h, ends);
        let (reaction, _) = element.spring(0.5).at(at_middle, curves);
        let bent = (ends[1].y - ends[0].y) / h;
        let load = element.wind * self.share - reaction - self.model.axial.value * bent;
        let bulge = load * h.powi(4) / (24.0 * self.model.rigidity.value);
        let bends = index >= self.mesh.grade && self.model.springs.bend_with_depth();
        let (width, rigidity) = (self.model.width, self.model.rigidity);
        let spring_at = |place: f64| {
            if bends {
                let z = self.mesh.z[index] + place * h;
                self.model.springs.at(z, width, rigidity)
            } else {
                element.spring(place)
            }
        };
        self.cells.each_cell(index, |top, width| {
            for half in [top, top + 0.5 * width] {
                for gauss in GAUSS {
                    let place = half + 0.5 * width * gauss;
                    let shape = shapes(place);
                    let between = bulge * (place * (1.0 - place)).powi(2);
                    let y = deflection(&shape, h, ends) + between;
                    let (p, _) = spring_at(place).at(y, curves);
                    call(place, &shape, 0.25 * p * width * h);
                }
            }
        });
        bulge
    }
}
