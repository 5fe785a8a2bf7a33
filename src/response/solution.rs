//! What a post does: station by station, and what matters of it.

use super::cells::{Cells, deflection};
use super::mesh::Mesh;
use super::model::PostModel;
use crate::units::{Angle, Force, Length, LineLoad, Measurable, Torque, rad};
use nalgebra::Vector2;

/// The post at one depth.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Station {
    /// Depth below grade; negative above.
    pub depth: Length,
    /// y, positive with the load.
    pub deflection: Length,
    /// θ = dy/dz: negative where the post leans with the load.
    pub rotation: Angle,
    /// Bending moment EI y''.
    pub moment: Torque,
    /// Shear: the forces above less the reaction so far.
    pub shear: Force,
    /// Soil reaction per length, positive against the load: by the deflection here
    /// and the spring at the point of integration just below, at the toe just above.
    pub reaction: LineLoad,
}

/// The greatest moment.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Greatest {
    /// Where, below grade.
    pub depth: Length,
    /// How much, by magnitude.
    pub moment: Torque,
}

/// Estimated error of a response that comes from its mesh alone.
///
/// From one step of Newton's method to the equilibrium with two Gauss points in
/// each half of each cell of integration and with the bending of each element
/// between its nodes, and statics of that. It is an estimate, not a bound: in tests
/// the true error is at most 3 times the estimate and 2e-6 of the greatest value.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct MeshError {
    /// Greatest error of deflection along the post.
    pub deflection: Length,
    /// Greatest error of bending moment along the post, between stations too.
    pub moment: Torque,
}

/// The response of a post.
#[derive(Debug, Clone, PartialEq)]
pub struct Response {
    stations: Vec<Station>,
    grade: usize,
    above: Length,
    greatest: Greatest,
    share: f64,
    left_over: [f64; 2],
    estimate: Option<MeshError>,
}

impl Response {
    pub(super) fn new(
        model: &PostModel,
        mesh: &Mesh,
        cells: &Cells,
        state: &[Vector2<f64>],
        share: f64,
    ) -> Self {
        let curves = model.springs.curves();
        let axial = model.axial.value;
        let mut stations = Vec::with_capacity(state.len());
        let (mut shear, mut moment) = (0.0, 0.0);
        let mut slopes = Vec::with_capacity(state.len());
        for (i, u) in state.iter().enumerate() {
            // Moment and shear by statics from the top down, just below any
            // load at the node.
            shear += mesh.nodal[i].0 * share;
            moment += mesh.nodal[i].1 * share;
            let near = mesh
                .elements
                .get(i)
                .map(|element| element.springs[0])
                .or_else(|| mesh.elements.last().map(|element| element.springs[1]));
            let reaction = near.map_or(0.0, |spring| spring.at(u.x, curves).0);
            stations.push(Station {
                depth: Length::from_si(mesh.z[i]),
                deflection: Length::from_si(u.x),
                rotation: rad(u.y),
                moment: Torque::from_si(moment),
                shear: Force::from_si(shear),
                reaction: LineLoad::from_si(reaction),
            });
            slopes.push(shear - axial * u.y);
            if let Some(element) = mesh.elements.get(i) {
                let h = element.length;
                let next = state[i + 1];
                let (mut force, mut turning) = (0.0, 0.0);
                cells.each(i, element, |spring, shape, place, weight| {
                    let y = deflection(shape, h, &[*u, next]);
                    let load = weight * h * (element.wind * share - spring.at(y, curves).0);
                    force += load;
                    turning += load * (1.0 - place) * h;
                });
                moment += shear * h + turning + axial * (u.x - next.x);
                shear += force;
            }
        }
        let greatest = greatest(&stations, &slopes, mesh.grade);
        Self {
            stations,
            grade: mesh.grade,
            above: model.above,
            greatest,
            share,
            left_over: [shear, moment],
            estimate: None,
        }
    }

    pub(super) fn with_estimate(self, estimate: Option<MeshError>) -> Self {
        Self { estimate, ..self }
    }

    /// Returns the estimated error of deflection and moment that comes from the
    /// mesh; none on the verge of collapse, where no error can be estimated.
    ///
    /// On smooth ground the error falls with the fourth power of the element length
    /// ([`PostModel::with_elements`]); across kinks of the reaction slower.
    ///
    /// ```
    /// use groundline::{response::*, units::*};
    /// let springs = Springs::constant_up_to(mpa(1.78), kn_per_m(5.34))?;
    /// let post = PostModel::new(kn_sq_m(47.0567), mm(89.0), m(0.9), springs)?
    ///     .with_force(m(0.5), kn(0.6))?;
    /// let response = post.solve()?;
    /// let error = response.error_estimate().unwrap();
    /// assert!(error.deflection < 1e-4 * response.at_grade().deflection);
    /// assert!(error.moment < 1e-4 * response.greatest_moment().moment);
    /// # Ok::<(), groundline::Error>(())
    /// ```
    pub const fn error_estimate(&self) -> Option<MeshError> {
        self.estimate
    }

    /// Every station from the top down. Moment and shear are those just below
    /// a load at the station.
    pub fn stations(&self) -> &[Station] {
        &self.stations
    }

    /// The post at grade.
    pub fn at_grade(&self) -> &Station {
        &self.stations[self.grade]
    }

    /// The top of the post.
    pub fn at_top(&self) -> &Station {
        &self.stations[0]
    }

    /// The toe.
    pub fn at_toe(&self) -> &Station {
        &self.stations[self.stations.len() - 1]
    }

    /// The greatest bending moment at or below grade.
    pub const fn greatest_moment(&self) -> &Greatest {
        &self.greatest
    }

    /// Movement of the top.
    pub fn lean(&self) -> Length {
        self.at_top().deflection
    }

    /// Movement of the top over the height above grade; none for a post that
    /// ends at grade, or above it by less than a ten-millionth of its length.
    pub fn lean_ratio(&self) -> Option<f64> {
        (self.grade > 0).then(|| self.lean().value / self.above.value)
    }

    /// The share of the load it is of: that of [`Solver::solve`](super::Solver::solve),
    /// 1 of [`PostModel::solve`]. The axial force is whole.
    pub const fn share(&self) -> f64 {
        self.share
    }

    /// Shear and moment that statics leaves at the toe: nothing but rounding.
    pub fn left_over(&self) -> (Force, Torque) {
        let [shear, moment] = self.left_over;
        (Force::from_si(shear), Torque::from_si(moment))
    }
}

/// The greatest moment from grade down, between stations by a cubic through
/// moments and their slopes.
fn greatest(stations: &[Station], slopes: &[f64], grade: usize) -> Greatest {
    let mut most = (stations[grade].depth.value, stations[grade].moment.value);
    let mut consider = |z: f64, moment: f64| {
        if moment.abs() > most.1.abs() {
            most = (z, moment);
        }
    };
    for i in grade..stations.len().saturating_sub(1) {
        let (a, b) = (&stations[i], &stations[i + 1]);
        let h = (b.depth - a.depth).value;
        let (m1, m2) = (a.moment.value, b.moment.value);
        let (d1, d2) = (slopes[i] * h, slopes[i + 1] * h);
        consider(b.depth.value, m2);
        // m = m1 + d1 x + c2 x² + c3 x³; where its slope is zero.
        let c3 = 2.0 * (m1 - m2) + d1 + d2;
        let c2 = 3.0 * (m2 - m1) - 2.0 * d1 - d2;
        let root = c2 * c2 - 3.0 * c3 * d1;
        // Of one sign with c2, so that nothing cancels; where there is no root,
        // not a number, which is nowhere between.
        let sum = c2 + root.sqrt().copysign(c2);
        for x in [-d1 / sum, -sum / (3.0 * c3)] {
            if x > 0.0 && x < 1.0 {
                consider(a.depth.value + x * h, m1 + x * (d1 + x * (c2 + x * c3)));
            }
        }
    }
    Greatest {
        depth: Length::from_si(most.0),
        moment: Torque::from_si(most.1.abs()),
    }
}
