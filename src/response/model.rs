//! A post, what loads it, and the ground it stands in.

use super::solution::Response;
use super::solver::Solver;
use super::springs::Springs;
use crate::actions::GroundlineActions;
use crate::error::{Error, size_within, within};
use crate::limit_state::LimitState;
use crate::units::{
    FlexuralRigidity, Force, Length, LineLoad, Measurable, Torque, ft, kn, m, n_per_m, n_sq_m,
};

/// A load along the post.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Load {
    /// A height above grade, and the force and the moment there: m, N, N·m.
    At(f64, f64, f64),
    /// Two heights above grade, the lower one first, and the force per length
    /// between them: m, m, N/m.
    Along(f64, f64, f64),
}

/// A post in the ground under load.
///
/// ```
/// use groundline::{response::*, units::*};
/// // A 89 mm post, 0.9 m deep, 2 kN and 2 kN·m at grade, constant springs.
/// let springs = Springs::constant(mpa(1.78))?;
/// let post = PostModel::new(kn_sq_m(47.0567), mm(89.0), m(0.9), springs)?
///     .with_force(m(1.0), kn(2.0))?;
/// let response = post.standing(m(1.0))?.solve()?;
/// assert!((response.at_grade().deflection.to(mm) - 15.3407).abs() < 1e-3);
/// assert!((response.greatest_moment().moment.to(n_m) - 2_078.99).abs() < 0.1);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct PostModel {
    pub(super) rigidity: FlexuralRigidity,
    pub(super) width: Length,
    pub(super) depth: Length,
    pub(super) above: Length,
    pub(super) axial: Force,
    pub(super) loads: Vec<Load>,
    pub(super) springs: Springs,
    pub(super) elements: u32,
}

impl PostModel {
    /// A post of a flexural rigidity EI, the width that bears on the ground,
    /// and a depth; nothing above grade yet.
    ///
    /// # Errors
    /// EI outside 1 N·m² to 10¹² N·m², width outside 2 cm to 3 m, depth outside
    /// 5 cm to 30 m or deeper than the ground is described.
    pub fn new(
        rigidity: FlexuralRigidity,
        width: Length,
        depth: Length,
        springs: Springs,
    ) -> Result<Self, Error> {
        let described = springs.depth();
        let most = if described < m(30.0) {
            described
        } else {
            m(30.0)
        };
        Ok(Self {
            rigidity: within("flexural rigidity", rigidity, n_sq_m(1.0), n_sq_m(1e12))?,
            width: size_within("width of the post or footing", width, m(0.02), m(3.0))?,
            depth: size_within("depth", depth, m(0.05), most)?,
            above: m(0.0),
            axial: Force::from_si(0.0),
            loads: Vec::new(),
            springs,
            elements: 40,
        })
    }

    /// Standing this high above grade. Loads above it count at its top.
    ///
    /// # Errors
    /// Outside 0 to 30 m.
    pub fn standing(self, above: Length) -> Result<Self, Error> {
        let above = within("height above grade", above, m(0.0), m(30.0))?;
        Ok(Self { above, ..self })
    }

    /// With a force at a height above grade. Where the post is not that high
    /// it comes to the top with its moment.
    ///
    /// # Errors
    /// Height outside 0 to 300 ft, force beyond 100 MN, more than 100 loads.
    pub fn with_force(self, height: Length, force: Force) -> Result<Self, Error> {
        let height = within("height of the force", height, ft(0.0), ft(300.0))?;
        let most = kn(1e5);
        let force = within("force", force, -most, most)?;
        self.with(Load::At(height.value, force.value, 0.0))
    }

    /// With a wind along the post between two heights above grade.
    ///
    /// # Errors
    /// Heights outside 0 to 30 m or not in order, load beyond 1 MN/m, more
    /// than 100 loads.
    pub fn with_wind(self, from: Length, to: Length, wind: LineLoad) -> Result<Self, Error> {
        let from = within("foot of the wind", from, m(0.0), m(30.0))?;
        let to = within("top of the wind", to, from, m(30.0))?;
        let most = n_per_m(1e6);
        let wind = within("wind along the post", wind, -most, most)?;
        self.with(Load::Along(from.value, to.value, wind.value))
    }

    /// With shear and moment at grade, at any limit state; their axial force
    /// too.
    ///
    /// # Errors
    /// As [`PostModel::with_axial`]; more than 100 loads.
    pub fn with_actions<L: LimitState>(
        self,
        actions: &GroundlineActions<L>,
    ) -> Result<Self, Error> {
        let (shear, moment) = (actions.shear().value, actions.moment().value);
        self.with_axial(actions.axial())?
            .with(Load::At(0.0, shear, moment))
    }

    /// With a moment at grade.
    ///
    /// # Errors
    /// Beyond 1 GN·m, more than 100 loads.
    pub fn with_moment(self, moment: Torque) -> Result<Self, Error> {
        let most = crate::units::n_m(1e9);
        let moment = within("moment", moment, -most, most)?;
        self.with(Load::At(0.0, 0.0, moment.value))
    }

    fn with(mut self, load: Load) -> Result<Self, Error> {
        if self.loads.len() >= 100 {
            return Err(Error::NotApplicable {
                field: "loads",
                reason: "there are more than 100",
            });
        }
        self.loads.push(load);
        Ok(self)
    }

    /// With an axial compression, the same along the whole post, added to what
    /// there is: its second-order effect is included.
    ///
    /// # Errors
    /// Outside 0 to 100 MN, itself or with what there is.
    pub fn with_axial(self, axial: Force) -> Result<Self, Error> {
        let most = kn(1e5);
        let axial = within("axial force", axial, kn(0.0), most)? + self.axial;
        let axial = within("axial force", axial, kn(0.0), most)?;
        Ok(Self { axial, ..self })
    }

    /// With this many elements below grade in place of 40; above, elements are
    /// as long, but no more of them. Bounds of layers, of loads and of the formulas
    /// of the springs are nodes besides. Elements longer than 0.3 of the soil's own
    /// length, (4 EI/k)^(1/4) of the spring at rest, are cut further, into 100 at
    /// most; beyond 12 of these lengths below grade, elements longer than one.
    ///
    /// 40 are good to 1e-4 of deflection at grade and greatest moment in the
    /// tests: [`Response::error_estimate`] is that of the post at hand.
    ///
    /// # Errors
    /// Outside 4 to 5 000.
    pub fn with_elements(self, elements: u32) -> Result<Self, Error> {
        if !(4..=5_000).contains(&elements) {
            return Err(Error::NotApplicable {
                field: "elements",
                reason: "give 4 to 5 000",
            });
        }
        Ok(Self { elements, ..self })
    }

    /// EI.
    pub const fn rigidity(&self) -> FlexuralRigidity {
        self.rigidity
    }
    /// The width that bears on the ground.
    pub const fn width(&self) -> Length {
        self.width
    }
    /// The depth.
    pub const fn depth(&self) -> Length {
        self.depth
    }
    /// The springs.
    pub const fn springs(&self) -> &Springs {
        &self.springs
    }

    /// What the loads come to at grade, by statics of the post as it stood: shear
    /// and moment.
    pub(super) fn loads_at_grade(&self) -> (Force, Torque) {
        let add = |(shear, moment): (f64, f64), load: &Load| match *load {
            Load::At(height, force, turning) => (shear + force, moment + force * height + turning),
            Load::Along(from, to, wind) => {
                let force = wind * (to - from);
                (shear + force, moment + force * 0.5 * (from + to))
            }
        };
        let (shear, moment) = self.loads.iter().fold((0.0, 0.0), add);
        (Force::from_si(shear), Torque::from_si(moment))
    }

    /// A solver for it, to be asked for one share of the load after another.
    pub fn solver(&self) -> Solver {
        Solver::new(self)
    }

    /// The response to the load.
    ///
    /// # Errors
    /// [`Error::NoEquilibrium`]: the post collapses.
    pub fn solve(&self) -> Result<Response, Error> {
        let mut solver = self.solver();
        solver.solve(1.0)?;
        Ok(solver.response())
    }

    /// The share of the load at which the ground lets the post go: the last one
    /// with an equilibrium, to a millionth, and not more than `most`. None if
    /// even that is carried. The post itself stays elastic: compare its
    /// greatest moment with what it bears. The axial force is not scaled.
    ///
    /// # Errors
    /// `most` outside 0 to 10⁶, no load at all, or elastic springs.
    ///
    /// ```
    /// use groundline::{response::*, units::*};
    /// let springs = Springs::constant_up_to(mpa(1.78), kn_per_m(5.34))?;
    /// let post = PostModel::new(kn_sq_m(47.0567), mm(89.0), m(0.9), springs)?
    ///     .with_force(m(0.0), kn(0.6))?
    ///     .with_moment(kn_m(0.6))?;
    /// let factor = post.collapse(100.0)?.unwrap();
    /// assert!(factor > 1.0 && factor < 2.0);
    /// # Ok::<(), groundline::Error>(())
    /// ```
    pub fn collapse(&self, most: f64) -> Result<Option<f64>, Error> {
        let most = crate::error::number_within("share of the load", most, 0.0, 1e6)?;
        let mut solver = self.solver();
        solver.collapse(most)
    }
}
