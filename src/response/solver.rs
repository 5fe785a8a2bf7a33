//! Equilibrium by Newton's method with a line search, each step by one sweep
//! of block-tridiagonal elimination.
//!
//! Unknowns y and θ at each node; 2 × 2 blocks; O(n) in the elements; nothing
//! is allocated once the solver is made. Springs act at the two Gauss points of
//! an element; where the reaction has kinks, at those of smaller cells, which are
//! cut at the equilibrium of the Gauss points and again at each of the cells, until
//! they stay where they are.
//!
//! A short element of a stiff post is many orders stiffer than the ground, and
//! differences of such stiffnesses leave nothing of the ground. So the sweep
//! does not eliminate a node from the next one but, of each element, the
//! bending r of its lower end relative to the upper one carried on rigidly:
//! bending stiffness stands in the pivot alone, and what is handed down is of
//! the size of the ground's. Bending of each element is likewise kept and
//! updated by itself in the residual. Equilibrium is a residual of 1e-10 of the
//! load, or of 1e-8 where rounding lets it fall no further.
//!
//! A pivot that is not positive, a rotation beyond 0.5 rad or 60 iterations
//! without equilibrium are collapse, where the load fails so from rest and in
//! small steps as well.

mod estimate;
mod sweep;

use super::cells::Cells;
use super::mesh::Mesh;
use super::model::PostModel;
use super::solution::Response;
use crate::error::{Error, number_within};
use crate::units::{Force, Measurable, Measured};
use nalgebra::{Matrix2, Vector2, Vector3};

/// The residual over the load at which equilibrium is reached.
const TOLERANCE: f64 = 1e-10;
/// The same where it falls no further.
const FLOOR: f64 = 1e-8;
const MOST_ITERATIONS: u32 = 60;
/// How many times elements are cut into cells.
const MOST_CUTS: u32 = 5;
/// The least slope of a spring over p/y where Newton's method alone is lost, the
/// residual over the load at which it goes on alone, and the iterations till then.
const LEAST_SLOPE: f64 = 0.1;
const NEAR: f64 = 1e-6;
const MOST_STIFFLY: u32 = 400;
/// Shares of its work at the start that a step may leave, and have too much.
const MOST_LEFT: f64 = 0.8;
const MOST_BEYOND: f64 = 0.2;
/// Small steps of a load that is not found at one go.
const STEPS: u32 = 16;
/// Beyond this rotation the theory of small ones is over.
const MOST_ROTATION: f64 = 0.5;

/// A post ready to be loaded.
///
/// ```
/// use groundline::{response::*, units::*};
/// let springs = Springs::constant_up_to(mpa(1.78), kn_per_m(5.34))?;
/// let post = PostModel::new(kn_sq_m(47.0567), mm(89.0), m(0.9), springs)?
///     .with_force(m(0.0), kn(0.6))?;
/// let mut solver = post.solver();
/// for share in [0.25, 0.5, 0.75, 1.0] {
///     solver.solve(share)?;
///     println!("{share}: {:?}", solver.response().at_grade().deflection);
/// }
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone)]
pub struct Solver {
    model: PostModel,
    mesh: Mesh,
    /// Cells of the last equilibrium and of the trial.
    cells: Cells,
    trial_cells: Cells,
    /// y and θ at each node.
    state: Vec<Vector2<f64>>,
    trial: Vec<Vector2<f64>>,
    /// Rotations of the ends of each element relative to its chord, and that of
    /// the chord; of the last equilibrium and of the trial.
    bent: Vec<[f64; 3]>,
    trial_bent: Vec<[f64; 3]>,
    step: Vec<Vector2<f64>>,
    /// Bending of each element in the step: y and θ of its lower end relative
    /// to the upper one carried on rigidly.
    step_bent: Vec<Vector2<f64>>,
    residual: Vec<Vector2<f64>>,
    /// Tangent of springs and axial force: diagonal blocks, symmetric, the
    /// three that differ; blocks to the next node. Bending apart.
    diagonal: Vec<Vector3<f64>>,
    next: Vec<Matrix2<f64>>,
    /// What the sweep down keeps of each element for the sweep up: r = G d + g
    /// of the step d of its lower end.
    gain: Vec<Matrix2<f64>>,
    offset: Vec<Vector2<f64>>,
    load: Vec<Vector2<f64>>,
    /// EI/h, 6 EI/h², 12 EI/h³ and −1.2 N/h of each element.
    bending: Vec<[f64; 4]>,
    iterations: u32,
    share: f64,
    /// Slopes of springs in the tangent are not less than this part of p/y.
    least_slope: f64,
}

impl Solver {
    pub(super) fn new(model: &PostModel) -> Self {
        let mesh = Mesh::new(model);
        let count = mesh.z.len();
        // Force and minus moment: virtual work of θ = dy/dz at grade.
        let mut load: Vec<_> = mesh
            .nodal
            .iter()
            .map(|(force, moment)| Vector2::new(*force, -moment))
            .collect();
        for (i, element) in mesh.elements.iter().enumerate() {
            let (w, h) = (element.wind, element.length);
            load[i] += Vector2::new(0.5 * w * h, w * h * h / 12.0);
            load[i + 1] += Vector2::new(0.5 * w * h, -w * h * h / 12.0);
        }
        let (rigidity, axial) = (model.rigidity.value, model.axial.value);
        let bending = mesh
            .elements
            .iter()
            .map(|element| {
                let h = element.length;
                let s = rigidity / h;
                [s, 6.0 * s / h, 12.0 * s / (h * h), -1.2 * axial / h]
            })
            .collect();
        Self {
            model: model.clone(),
            cells: Cells::new(count - 1),
            trial_cells: Cells::new(count - 1),
            mesh,
            state: vec![Vector2::zeros(); count],
            trial: vec![Vector2::zeros(); count],
            bent: vec![[0.0; 3]; count - 1],
            trial_bent: vec![[0.0; 3]; count - 1],
            step: vec![Vector2::zeros(); count],
            step_bent: vec![Vector2::zeros(); count - 1],
            residual: vec![Vector2::zeros(); count],
            diagonal: vec![Vector3::zeros(); count],
            next: vec![Matrix2::zeros(); count - 1],
            gain: vec![Matrix2::zeros(); count - 1],
            offset: vec![Vector2::zeros(); count - 1],
            load,
            bending,
            iterations: 0,
            share: 0.0,
            least_slope: 0.0,
        }
    }

    /// How many iterations the last solve took.
    pub const fn iterations(&self) -> u32 {
        self.iterations
    }

    /// How many elements there are.
    pub fn elements(&self) -> usize {
        self.mesh.elements.len()
    }

    /// Finds the equilibrium under a share of the load, starting from the last
    /// one found, or from rest where the load falls to less than half or turns
    /// round; if that leads nowhere from rest, and in small steps of the load. The
    /// axial force is not scaled: it is there at every share.
    ///
    /// # Errors
    /// Share outside −10⁶ to 10⁶; [`Error::NoEquilibrium`], after which the
    /// solver is where it was before. There may be one all the same, near collapse
    /// of a post far too slender for its ground.
    pub fn solve(&mut self, share: f64) -> Result<(), Error> {
        let share = number_within("share of the load", share, -1e6, 1e6)?;
        let mut found = self.onward(share);
        if found.is_err() && self.is_near(share) {
            found = self.in_steps(share, 1);
        }
        let iterations = found
            .or_else(|_| self.in_steps(share, STEPS))
            .or_else(|_| self.stiffly(share))?;
        self.keep(share, iterations);
        Ok(())
    }

    /// At one go: beyond collapse every way there is would be tried in vain.
    fn reaches(&mut self, share: f64) -> bool {
        let found = self.onward(share);
        found.is_ok_and(|iterations| {
            self.keep(share, iterations);
            true
        })
    }

    /// Is the last equilibrium a start?
    fn is_near(&self, share: f64) -> bool {
        share / self.share > 0.5
    }

    /// From the last equilibrium, or from rest, at one go.
    fn onward(&mut self, share: f64) -> Result<u32, Error> {
        if self.is_near(share) {
            self.trial.copy_from_slice(&self.state);
            self.trial_bent.copy_from_slice(&self.bent);
            self.newton(share)
        } else {
            self.in_steps(share, 1)
        }
    }

    /// From rest.
    fn in_steps(&mut self, share: f64, steps: u32) -> Result<u32, Error> {
        self.trial.fill(Vector2::zeros());
        self.trial_bent.fill([0.0; 3]);
        let part = |step| share * (f64::from(step) / f64::from(steps));
        (1..=steps).try_fold(0, |sum, step| Ok(sum + self.newton(part(step))?))
    }

    /// From rest with springs that never yield to nothing, which leads slowly but
    /// surely near, and from there.
    fn stiffly(&mut self, share: f64) -> Result<u32, Error> {
        self.least_slope = LEAST_SLOPE;
        let near = self.in_steps(share, 1);
        self.least_slope = 0.0;
        Ok(near? + self.newton(share)?)
    }

    fn keep(&mut self, share: f64, iterations: u32) {
        (self.share, self.iterations) = (share, iterations);
        self.state.copy_from_slice(&self.trial);
        self.bent.copy_from_slice(&self.trial_bent);
        self.cells.copy(&self.trial_cells);
    }

    fn newton(&mut self, share: f64) -> Result<u32, Error> {
        let length = self.model.depth.value;
        let norm = |vectors: &[Vector2<f64>]| {
            let sum: f64 = vectors
                .iter()
                .map(|v| v.x * v.x + v.y * v.y / (length * length))
                .sum();
            sum.sqrt()
        };
        let scale = norm(&self.load) * share.abs();
        let failed = |residual: f64, iterations: u32| {
            let residual = Measured::new(Force::from_si(residual));
            Error::NoEquilibrium {
                residual,
                iterations,
            }
        };
        self.trial_cells.clear();
        self.assemble(share);
        let mut size = norm(&self.residual);
        let (mut least, mut stalled) = (f64::MAX, 0);
        // Elastic ground has no kinks.
        let elastic = self.model.springs.unlimited();
        let mut cuts = if elastic { MOST_CUTS } else { 0 };
        let stiffly = self.least_slope > 0.0;
        let most = if stiffly {
            MOST_STIFFLY
        } else {
            MOST_ITERATIONS
        };
        for iteration in 0..most {
            if stiffly && size <= NEAR * scale {
                return Ok(iteration);
            }
            let mut there = size <= TOLERANCE * scale || (size <= FLOOR * scale && stalled > 2);
            // Cells where the reaction has kinks in the equilibrium found, until they
            // stay where they are.
            if cuts < MOST_CUTS && there {
                cuts += 1;
                let curves = self.model.springs.curves();
                let changed = self
                    .trial_cells
                    .divide(&self.mesh, &self.trial, curves, scale);
                if changed {
                    self.assemble(share);
                    size = norm(&self.residual);
                    (least, stalled) = (f64::MAX, 0);
                    there = size <= TOLERANCE * scale;
                }
            }
            // Rest without load is an equilibrium, but it may be unstable.
            if there && scale > 0.0 {
                return Ok(iteration);
            }
            if !self.eliminate() {
                return Err(failed(size, iteration));
            }
            if there {
                return Ok(iteration);
            }
            self.search(share);
            size = norm(&self.residual);
            if size < 0.5 * least {
                (least, stalled) = (size, 0);
            } else {
                stalled += 1;
            }
            let turned = self
                .trial
                .iter()
                .fold(0.0_f64, |most, u| most.max(u.y.abs()));
            if !size.is_finite() || !turned.is_finite() {
                return Err(failed(scale, iteration + 1));
            }
            if turned > MOST_ROTATION {
                return Err(failed(size, iteration + 1));
            }
        }
        Err(failed(size, most))
    }

    /// Moves along the step to where little of the work of the residual on it is
    /// left, or little is too much: the whole step first, farther while much is left,
    /// then by secant between the last place before that and the first beyond. Far
    /// beyond, the energy may have risen again, and steps would go in circles.
    fn search(&mut self, share: f64) {
        let before = self.work();
        let (mut low, mut high) = ((0.0, 1.0), None);
        let (mut done, mut target) = (0.0, 1.0_f64);
        for _ in 0..12 {
            self.advance(target - done);
            done = target;
            self.assemble(share);
            let left = self.work() / before;
            if left < -MOST_BEYOND {
                high = Some((done, left));
            } else if left > MOST_LEFT {
                low = (done, left);
            } else {
                return;
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
    }

    /// Moves the trial by a share of the step.
    fn advance(&mut self, share: f64) {
        for (u, d) in self.trial.iter_mut().zip(&self.step) {
            *u += d * share;
        }
        let steps = self.step.iter().zip(&self.step_bent);
        for ((bent, element), (upper, r)) in self
            .trial_bent
            .iter_mut()
            .zip(&self.mesh.elements)
            .zip(steps)
        {
            let turned = r.x / element.length;
            bent[0] -= share * turned;
            bent[1] += share * (r.y - turned);
            bent[2] += share * (upper.y + turned);
        }
    }

    /// The work of the residual on the step.
    fn work(&self) -> f64 {
        self.residual
            .iter()
            .zip(&self.step)
            .map(|(r, d)| r.dot(d))
            .sum()
    }

    pub(super) fn collapse(&mut self, most: f64) -> Result<Option<f64>, Error> {
        if self.model.springs.unlimited() {
            return Err(Error::NotApplicable {
                field: "springs",
                reason: "elastic springs have no limit: nothing collapses",
            });
        }
        if self.load.iter().all(|load| load.x == 0.0 && load.y == 0.0) {
            return Err(Error::NotApplicable {
                field: "load",
                reason: "there is none",
            });
        }
        let (mut low, mut high) = (0.0, most.min(1.0));
        // Double until it fails.
        while self.reaches(high) {
            low = high;
            if high >= most {
                return Ok(None);
            }
            high = (2.0 * high).min(most);
        }
        for _ in 0..60 {
            if high - low <= 1e-6 * high {
                break;
            }
            let middle = 0.5 * (low + high);
            // From the last equilibrium.
            if self.reaches(middle) {
                low = middle;
            } else {
                high = middle;
            }
        }
        Ok(Some(low))
    }

    /// The response at the last equilibrium; at rest, and under no load, before
    /// there is one.
    pub fn response(&self) -> Response {
        let response = self.unestimated();
        let estimate = self.estimate(&response);
        response.with_estimate(estimate)
    }

    /// The same without an estimate of its error, which costs about an iteration.
    pub(crate) fn unestimated(&self) -> Response {
        Response::new(
            &self.model,
            &self.mesh,
            &self.cells,
            &self.state,
            self.share,
        )
    }
}
