//! A block that stands on its base alone: no side bearing is counted.
//!
//! With B the width of the block in the direction of the wind, L its length
//! across, D the weight of block and superstructure and M the overturning moment
//! about the base, e = M/D. Where e > B/6 the base opens and
//! q = 2D/[3L(B/2 − e)], else q = D/(B L) (1 + 6e/B). The block resists D B/2.
//! The working of a filed permit calculation ([`crate::source::SPREAD_BLOCK`]).

use crate::actions::GroundlineActions;
use crate::error::{Error, number_within, within};
use crate::limit_state::AllowableStress;
use crate::units::{
    Force, ForcePerVolume, Length, Measurable, Pressure, Torque, ft, lb, lb_ft, moment, pcf,
};
use crate::utilization::Utilization;

/// An overturning moment about the base of a block, at allowable-stress level.
///
/// A type of its own so that a strength-level, characteristic or ultimate
/// moment does not take its place.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Overturning(Torque);

impl Overturning {
    /// A moment an engineer already has, about the base.
    ///
    /// # Errors
    /// Outside 0 to 10⁹ lb·ft.
    pub fn at_allowable_stress(moment: Torque) -> Result<Self, Error> {
        within("moment", moment, lb_ft(0.0), lb_ft(1e9)).map(Self)
    }

    /// The moment.
    pub const fn moment(self) -> Torque {
        self.0
    }
}

/// A rectangular block on its base, without side bearing
/// ([`crate::source::SPREAD_BLOCK`]).
///
/// B is its width in the direction of the wind, L its length across, D the weight
/// of block and superstructure, M the overturning moment about the base, e = M/D.
/// Where e > B/6 the base opens and the toe bears q = 2D/(3L (B/2 − e)), else
/// q = D/(B L) (1 + 6e/B). The block resists D B/2.
///
/// ```
/// use groundline::{embedment::{Overturning, SpreadBlock}, units::*};
/// let block = SpreadBlock::new(ft(2.58), ft(2.58), ft(2.5), pcf(150.0), lb(200.0))?;
/// assert!((block.weight().to(lb) - 2_696.0).abs() < 0.5);
/// let overturning = Overturning::at_allowable_stress(lb_ft(2_143.0))?;
/// assert!((block.toe_pressure(overturning).unwrap().to(psf) - 1_407.0).abs() < 1.0);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpreadBlock {
    width: Length,
    length: Length,
    depth: Length,
    unit_weight: ForcePerVolume,
    superstructure: Force,
}

impl SpreadBlock {
    /// A block of a width B in the wind direction, a length L across it, a
    /// depth and a unit weight, with what stands on it.
    ///
    /// # Errors
    /// Widths and depth outside 0.25 to 50 ft, unit weight outside 50 to
    /// 200 pcf, superstructure outside 0 to 1 000 000 lb.
    pub fn new(
        width: Length,
        length: Length,
        depth: Length,
        unit_weight: ForcePerVolume,
        superstructure: Force,
    ) -> Result<Self, Error> {
        let size = |field, value| within(field, value, ft(0.25), ft(50.0));
        Ok(Self {
            width: size("block width", width)?,
            length: size("block length", length)?,
            depth: size("block depth", depth)?,
            unit_weight: within("unit weight", unit_weight, pcf(50.0), pcf(200.0))?,
            superstructure: within("superstructure", superstructure, lb(0.0), lb(1e6))?,
        })
    }

    /// Weight of the block alone.
    pub fn block_weight(&self) -> Force {
        self.width * self.length * self.depth * self.unit_weight
    }

    /// D, the weight of block and superstructure.
    pub fn weight(&self) -> Force {
        self.block_weight() + self.superstructure
    }

    /// What actions at grade bring to the base: M + V d, d the depth of the block;
    /// their axial force is not added to the weight.
    ///
    /// # Errors
    /// As [`Overturning::at_allowable_stress`].
    pub fn overturning(
        &self,
        actions: &GroundlineActions<AllowableStress>,
    ) -> Result<Overturning, Error> {
        let about_base = actions.moment() + moment(actions.shear(), self.depth);
        Overturning::at_allowable_stress(Torque::from_si(about_base.value.abs()))
    }

    /// e = M/D, for an overturning moment about the base.
    pub fn eccentricity(&self, overturning: Overturning) -> Length {
        crate::units::arm(overturning.0, self.weight())
    }

    /// The greatest pressure under the base; none where the block tips over.
    pub fn toe_pressure(&self, overturning: Overturning) -> Option<Pressure> {
        let e = self.eccentricity(overturning);
        let half = self.width * 0.5;
        if e >= half {
            None
        } else if e > self.width / 6.0 {
            Some(self.weight() * 2.0 / (self.length * 3.0 * (half - e)))
        } else {
            let uniform = self.weight() / (self.width * self.length);
            Some(uniform * (1.0 + 6.0 * e.value / self.width.value))
        }
    }

    /// D B/2, the moment that would tip it over.
    pub fn resisting_moment(&self) -> Torque {
        moment(self.weight(), self.width * 0.5)
    }

    /// The resisting moment over a safety factor.
    ///
    /// # Errors
    /// Safety factor outside 1 to 10.
    pub fn allowable_moment(&self, safety: f64) -> Result<Torque, Error> {
        Ok(self.resisting_moment() / number_within("safety factor", safety, 1.0, 10.0)?)
    }

    /// Overturning over allowable moment. The pressure under the toe is another
    /// check ([`SpreadBlock::toe_pressure`]).
    ///
    /// # Errors
    /// Safety factor outside 1 to 10.
    pub fn utilization(&self, overturning: Overturning, safety: f64) -> Result<Utilization, Error> {
        Ok(Utilization::of(
            overturning.0,
            self.allowable_moment(safety)?,
        ))
    }
}
