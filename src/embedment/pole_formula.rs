//! The pole formulas of IBC 1807.3.2.
//!
//! Nonconstrained (18-1): d = ½A [1 + √(1 + 4.36 h/A)], A = 2.34 P/(S1 b), S1
//! the allowable lateral bearing at d/3. Constrained (18-2, 18-3):
//! d = √(4.25 M/(S3 b)), S3 the same at d, M = P h at grade. P is the shear, at a
//! height h above grade, b the bearing width, d the embedment.
//!
//! The pressure depends on the depth sought. Put in, with S the bearing per
//! depth and F its increases,
//!
//! - 18-1 becomes F S b d³ = 7.02 P d + 7.6518 M, and S1 b d² = 2.34 P d +
//!   2.5506 M where S1 no longer grows;
//! - 18-3 becomes F S b d³ = 4.25 M.
//!
//! Each has one positive root, taken directly. A moment without shear and a
//! shear at grade (h = 0) are regular cases of these forms.
//!
//! Both sides are linear in the load, so the utilization of a given depth is
//! the load over the load that depth carries at the same h.

mod working;

use super::cubic::positive_root;
use crate::actions::GroundlineActions;
use crate::caution::{Caution, Cautions};
use crate::error::{Error, size_within, within};
use crate::foundation::{BearingWidth, Foundation, Restraint};
use crate::ground::Ground;
use crate::limit_state::AllowableStress;
use crate::source::{self, Citation};
use crate::units::{Force, ForcePerVolume, Length, Measurable, Measured, Pressure, Torque, ft, lb};
use crate::utilization::Utilization;

/// 2.34 of equation 18-1.
const SHEAR: f64 = 2.34;
/// 2.34 × 4.36/4, the moment term of 18-1 once squared out.
const MOMENT: f64 = 2.34 * 4.36 / 4.0;
/// 4.25 of equations 18-2 and 18-3.
const CONSTRAINED: f64 = 4.25;

/// The greatest depth that is checked: that to which the post itself is checked
/// ([`crate::post::BelowGrade`]), so that no check of a post returns a required
/// depth that the check of a planned depth refuses.
pub(crate) fn max_depth() -> Length {
    ft(100_000.0)
}

/// The depth beyond which no more pressure is counted.
fn depth_limit() -> Length {
    ft(12.0)
}

/// How the code's "depth of embedment, not over 12 ft for purpose of computing
/// lateral pressure" is read. The readings part company only for embedments of
/// more than 12 ft, but then strongly.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[non_exhaustive]
pub enum DepthCap {
    /// The depth d itself is capped before a third of it is taken: S1 never
    /// exceeds the bearing at 4 ft. Literal, conservative, the default.
    #[default]
    CapDepth,
    /// The depth at which the pressure is read (d/3, or d of a constrained post)
    /// is capped at 12 ft.
    CapReading,
}

/// Which equation a depth comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Equation {
    /// 18-1, nonconstrained.
    Nonconstrained,
    /// 18-2 or 18-3 (the same with M = P h), constrained at grade.
    Constrained,
}

impl Equation {
    /// Its clause.
    #[inline]
    pub const fn citation(self) -> &'static Citation {
        match self {
            Self::Nonconstrained => &source::IBC_1807_3_2_1,
            Self::Constrained => &source::IBC_1807_3_2_2,
        }
    }
}

/// The pole formulas of IBC 1807.3.2 for one foundation in one ground, at
/// allowable-stress level.
///
/// Nonconstrained (18-1): d = ½A (1 + √(1 + 4.36 h/A)), A = 2.34 P/(S1 b).
/// Constrained at grade (18-2, 18-3): d = √(4.25 P h/(S3 b)). P is the shear, at a
/// height h above grade, d the embedment, b the bearing width, S1 and S3 the
/// allowable lateral bearing at d/3 and at d, not read deeper than the 12 ft rule
/// allows ([`DepthCap`]). Level ground; shear and moment must turn the post the
/// same way.
///
/// ```
/// use groundline::{actions::GroundlineActions, embedment::PoleFormula, foundation::*};
/// use groundline::{ground::*, limit_state::AllowableStress, units::*};
/// // Figure 16-1 of Christy, Engineering with the Spreadsheet (ASCE Press):
/// // 510 lb at 4 ft, 1 ft wide, 266 psf/ft: d = 5.02 ft, S1 = 445 psf.
/// let soil = Ground::given(LateralBearing::new(psf_per_ft(266.0))?);
/// let formula = PoleFormula::new(&soil, BearingWidth::new(ft(1.0))?, Restraint::None);
/// let load = GroundlineActions::new(lb(510.0), lb_ft(2_040.0), lb(0.0), AllowableStress::Basic)?;
/// let required = formula.required(&load)?;
/// assert!((required.depth().to(ft) - 5.02).abs() < 0.005);
/// assert!((required.bearing().to(psf) - 445.0).abs() < 0.5);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PoleFormula {
    ground: Ground,
    width: BearingWidth,
    restraint: Restraint,
    cap: DepthCap,
}

/// The load of the formula, both signs folded to positive: N and N·m.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Load {
    shear: f64,
    moment: f64,
}

impl PoleFormula {
    /// The formula for a bearing width and a restraint.
    #[inline]
    pub fn new(ground: &Ground, width: BearingWidth, restraint: Restraint) -> Self {
        Self {
            ground: *ground,
            width,
            restraint,
            cap: DepthCap::default(),
        }
    }

    /// The formula for a foundation.
    #[inline]
    pub fn of(ground: &Ground, foundation: &Foundation) -> Self {
        Self::new(ground, foundation.bearing_width(), foundation.restraint())
    }

    /// With the other reading of the 12 ft rule.
    #[must_use]
    #[inline]
    pub const fn with_cap(self, cap: DepthCap) -> Self {
        Self { cap, ..self }
    }

    /// How the 12 ft rule is read.
    pub const fn cap(&self) -> DepthCap {
        self.cap
    }

    /// The equation that applies.
    #[inline]
    pub const fn equation(&self) -> Equation {
        match self.restraint {
            Restraint::None => Equation::Nonconstrained,
            Restraint::RigidPaving => Equation::Constrained,
        }
    }

    /// The depth below the discounted top over which bearing grows.
    #[inline]
    fn cap_depth(&self) -> Length {
        match (self.equation(), self.cap) {
            (Equation::Nonconstrained, DepthCap::CapReading) => ft(36.0),
            _ => depth_limit(),
        }
    }

    /// The cautions of a depth for a load.
    fn cautions(&self, actions: &GroundlineActions<AllowableStress>, depth: Length) -> Cautions {
        self.ground
            .cautions()
            .with_if(depth > depth_limit(), Caution::BeyondTwelveFeet)
            .with_if(
                actions.level().soil_increase() > 1.0,
                Caution::OneThirdIncrease,
            )
    }

    /// F S, the bearing per depth with its increases.
    #[inline]
    fn bearing_per_depth(
        &self,
        actions: &GroundlineActions<AllowableStress>,
    ) -> Result<ForcePerVolume, Error> {
        let increase = self.ground.lateral_increase(actions.level())?;
        Ok(self.ground.lateral().per_depth() * increase)
    }

    /// The load at the bottom of the discounted top layer.
    #[inline]
    fn load(&self, actions: &GroundlineActions<AllowableStress>) -> Result<Load, Error> {
        let (shear, moment) = (actions.shear().value, actions.moment().value);
        if shear * moment < 0.0 {
            return Err(Error::OppositeSense {
                shear: Measured::new(actions.shear()),
                moment: Measured::new(actions.moment()),
            });
        }
        let shear = shear.abs();
        // A restrained post turns about grade, whatever the soil below it.
        let drop = match self.equation() {
            Equation::Nonconstrained => self.ground.discounted_top().value,
            Equation::Constrained => 0.0,
        };
        Ok(Load {
            shear,
            moment: moment.abs() + shear * drop,
        })
    }

    /// A of equation 18-1 at a bearing.
    #[inline]
    fn a_term(&self, actions: &GroundlineActions<AllowableStress>, bearing: Pressure) -> Length {
        let per_width = bearing.value * self.width.width().value;
        if self.equation() == Equation::Constrained || per_width <= 0.0 {
            Length::from_si(0.0)
        } else {
            Length::from_si(SHEAR * actions.shear().value.abs() / per_width)
        }
    }

    /// Allowable lateral bearing at the reading depth of an embedment below
    /// the discounted top: S1 at a third of it, or S3 at all of it.
    #[inline]
    fn bearing_at(&self, per_depth: ForcePerVolume, depth: Length) -> Pressure {
        let depth = depth.min(self.cap_depth());
        match self.equation() {
            Equation::Nonconstrained => per_depth * depth / 3.0,
            Equation::Constrained => per_depth * depth,
        }
    }

    /// The bearing that a load asks for at an embedment below the discounted
    /// top.
    #[inline]
    fn bearing_needed(&self, load: Load, depth: Length) -> Pressure {
        let d = depth.value;
        let per_width = match self.equation() {
            Equation::Nonconstrained => SHEAR * load.shear * d + MOMENT * load.moment,
            Equation::Constrained => CONSTRAINED * load.moment,
        };
        Pressure::from_si(per_width / (self.width.width().value * d * d))
    }

    /// The least depth that holds a load.
    ///
    /// # Errors
    /// Shear and moment in opposite senses; increases of lateral bearing that
    /// must not be combined.
    #[inline]
    pub fn required(
        &self,
        actions: &GroundlineActions<AllowableStress>,
    ) -> Result<RequiredDepth, Error> {
        let per_depth = self.bearing_per_depth(actions)?;
        let load = self.load(actions)?;
        let per_width = per_depth.value * self.width.width().value;
        let cap = self.cap_depth().value;
        let (a, c) = match self.equation() {
            Equation::Nonconstrained => (
                3.0 * SHEAR * load.shear / per_width,
                3.0 * MOMENT * load.moment / per_width,
            ),
            Equation::Constrained => (0.0, CONSTRAINED * load.moment / per_width),
        };
        let mut below = positive_root(a, c);
        if below > cap {
            // The bearing no longer grows: with it constant, d² = (a d + c)/cap.
            let half = 0.5 * a / cap;
            below = half + (half * half + c / cap).sqrt();
        }
        let below = Length::from_si(below);
        let depth = if below.value > 0.0 {
            below + self.ground.discounted_top()
        } else {
            below
        };
        Ok(RequiredDepth {
            formula: *self,
            actions: *actions,
            per_depth,
            load,
            depth,
            below,
        })
    }

    /// A planned or existing depth against a load.
    ///
    /// # Errors
    /// As [`PoleFormula::required`]; depth outside 0.01 to 100 000 ft.
    #[inline]
    pub fn check(
        &self,
        actions: &GroundlineActions<AllowableStress>,
        depth: Length,
    ) -> Result<DepthCheck, Error> {
        let depth = size_within("depth", depth, ft(0.01), max_depth())?;
        let per_depth = self.bearing_per_depth(actions)?;
        let load = self.load(actions)?;
        let below = depth - self.ground.discounted_top();
        let (demand, capacity, utilization) = if below.value > 0.0 {
            let demand = self.bearing_needed(load, below);
            let capacity = self.bearing_at(per_depth, below);
            (demand, capacity, Utilization::of(demand, capacity))
        } else {
            // Wholly within the layer that does not count.
            let nothing = Pressure::from_si(0.0);
            let loaded = load.shear + load.moment > 0.0;
            (nothing, nothing, Utilization::without_capacity(loaded))
        };
        Ok(DepthCheck {
            formula: *self,
            actions: *actions,
            depth,
            demand,
            capacity,
            utilization,
        })
    }

    /// What a hole of this depth carries: the shear, acting at a height above
    /// grade, that brings it to utilization 1, with its moment at grade.
    ///
    /// # Errors
    /// Depth outside 0.01 to 100 000 ft, height outside 0 to 1 000 ft; increases of
    /// lateral bearing that must not be combined; a shear at grade on a
    /// constrained post, which these formulas do not limit.
    ///
    /// ```
    /// use groundline::{embedment::PoleFormula, foundation::*, ground::*};
    /// use groundline::{limit_state::AllowableStress, units::*};
    /// let soil = Ground::presumptive(SoilClass::Class4);
    /// let formula = PoleFormula::new(&soil, BearingWidth::new(ft(1.0))?, Restraint::None);
    /// let holds = formula.capacity(ft(3.0), ft(3.3), AllowableStress::Basic)?;
    /// assert!(formula.check(&holds, ft(3.0))?.utilization().passes());
    /// # Ok::<(), groundline::Error>(())
    /// ```
    #[inline]
    pub fn capacity(
        &self,
        depth: Length,
        height: Length,
        combination: AllowableStress,
    ) -> Result<GroundlineActions<AllowableStress>, Error> {
        let height = within("height of the force", height, ft(0.0), ft(1_000.0))?;
        if self.equation() == Equation::Constrained && height < ft(0.001) {
            return Err(Error::NotApplicable {
                field: "height of the force",
                reason: "a post held at grade by paving is not limited by a force at grade",
            });
        }
        // A unit force, then scale: the check is linear in the load.
        let unit = lb(1.0);
        let moment = crate::units::moment(unit, height);
        let trial = GroundlineActions::new(unit, moment, lb(0.0), combination)?;
        let check = self.check(&trial, depth)?;
        let scale = if check.demand.value > 0.0 {
            check.capacity.value / check.demand.value
        } else {
            0.0
        };
        GroundlineActions::new(unit * scale, moment * scale, lb(0.0), combination)
    }

    /// What a hole of this depth carries as a pure moment at grade.
    ///
    /// # Errors
    /// Depth outside 0.01 to 300 ft; increases of lateral bearing that must not
    /// be combined.
    #[inline]
    pub fn moment_capacity(
        &self,
        depth: Length,
        combination: AllowableStress,
    ) -> Result<Torque, Error> {
        let unit = crate::units::lb_ft(1.0);
        let trial = GroundlineActions::new(Force::from_si(0.0), unit, lb(0.0), combination)?;
        let check = self.check(&trial, depth)?;
        Ok(if check.demand.value > 0.0 {
            unit * (check.capacity.value / check.demand.value)
        } else {
            unit * 0.0
        })
    }
}

/// The least depth for a load, with what it was computed from.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct RequiredDepth {
    formula: PoleFormula,
    actions: GroundlineActions<AllowableStress>,
    per_depth: ForcePerVolume,
    load: Load,
    depth: Length,
    below: Length,
}

impl RequiredDepth {
    /// The depth below grade, the discounted top layer included; zero for no
    /// load.
    #[inline]
    pub const fn depth(&self) -> Length {
        self.depth
    }

    /// The part of it that counts: what lies below the discounted top layer.
    #[inline]
    pub const fn depth_that_counts(&self) -> Length {
        self.below
    }

    /// S1 or S3 at that depth.
    #[inline]
    pub fn bearing(&self) -> Pressure {
        self.formula.bearing_at(self.per_depth, self.below)
    }

    /// A = 2.34 P/(S1 b) of equation 18-1; zero for a constrained post.
    #[inline]
    pub fn a_term(&self) -> Length {
        self.formula.a_term(&self.actions, self.bearing())
    }

    /// Does the depth lie beyond 12 ft, as it does wherever the 12 ft rule
    /// bites?
    #[inline]
    pub fn beyond_limit(&self) -> bool {
        self.depth > depth_limit()
    }

    /// The equation.
    #[inline]
    pub const fn equation(&self) -> Equation {
        self.formula.equation()
    }

    /// The load.
    #[inline]
    pub const fn actions(&self) -> &GroundlineActions<AllowableStress> {
        &self.actions
    }

    /// The cautions that go with it.
    pub fn cautions(&self) -> Cautions {
        self.formula.cautions(&self.actions, self.depth)
    }
}

/// A depth against a load.
///
/// Demand is the lateral bearing the load needs at this depth, capacity the
/// allowable bearing there; both are linear, so their ratio is also load over
/// load capacity.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct DepthCheck {
    formula: PoleFormula,
    actions: GroundlineActions<AllowableStress>,
    depth: Length,
    demand: Pressure,
    capacity: Pressure,
    utilization: Utilization,
}

impl DepthCheck {
    /// The depth checked.
    #[inline]
    pub const fn depth(&self) -> Length {
        self.depth
    }
    /// The bearing needed.
    #[inline]
    pub const fn demand(&self) -> Pressure {
        self.demand
    }
    /// The bearing allowed.
    #[inline]
    pub const fn capacity(&self) -> Pressure {
        self.capacity
    }
    /// Their ratio.
    #[inline]
    pub const fn utilization(&self) -> Utilization {
        self.utilization
    }
    /// A = 2.34 P/(S1 b) with S1 at the depth checked, as a filed calculation
    /// prints it; zero for a constrained post.
    #[inline]
    pub fn a_term(&self) -> Length {
        self.formula.a_term(&self.actions, self.capacity)
    }
    /// The depth that the printed formula gives with the bearing of the depth
    /// checked: the one pass of filed calculations. It is below the depth
    /// checked exactly if the check passes, and it is not the least depth
    /// ([`PoleFormula::required`] gives that). None for a depth wholly in the
    /// discounted top.
    #[inline]
    pub fn one_pass_depth(&self) -> Option<Length> {
        let load = self.formula.load(&self.actions).ok()?;
        let per_width = self.capacity.value * self.formula.width.width().value;
        if per_width <= 0.0 {
            return None;
        }
        let (half, c) = match self.formula.equation() {
            Equation::Nonconstrained => (
                0.5 * SHEAR * load.shear / per_width,
                MOMENT * load.moment / per_width,
            ),
            Equation::Constrained => (0.0, CONSTRAINED * load.moment / per_width),
        };
        let below = Length::from_si(half + (half * half + c).sqrt());
        Some(below + self.formula.ground.discounted_top())
    }
    /// The load.
    #[inline]
    pub const fn actions(&self) -> &GroundlineActions<AllowableStress> {
        &self.actions
    }
    /// Is the depth beyond 12 ft?
    #[inline]
    pub fn beyond_limit(&self) -> bool {
        self.depth > depth_limit()
    }
    /// Where the check comes from.
    #[inline]
    pub const fn source(&self) -> &'static Citation {
        self.formula.equation().citation()
    }
    /// The cautions that go with it.
    pub fn cautions(&self) -> Cautions {
        self.formula.cautions(&self.actions, self.depth)
    }
}
