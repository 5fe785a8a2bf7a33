//! A block that stands on its base alone: no side bearing is counted.
//!
//! With D the weight of block and superstructure and M the overturning moment
//! about the base, e = M/D. Where e > B/6 the base opens and
//! q = 2D/[3L(B/2 − e)], else q = D/(B L) (1 + 6e/B). The block resists D B/2.
//! The working of a filed permit calculation ([`crate::source::SPREAD_BLOCK`]).

use crate::error::{Error, number_within, within};
use crate::units::{
    Force, ForcePerVolume, Length, Measurable, Pressure, Torque, ft, lb, lb_ft, moment, pcf,
};
use crate::utilization::Utilization;

/// A rectangular block on its base.
///
/// ```
/// use groundline::{embedment::SpreadBlock, units::*};
/// let block = SpreadBlock::new(ft(2.58), ft(2.58), ft(2.5), pcf(150.0), lb(200.0))?;
/// assert!((block.weight().to(lb) - 2_696.0).abs() < 0.5);
/// assert!((block.toe_pressure(lb_ft(2_143.0))?.unwrap().to(psf) - 1_407.0).abs() < 1.0);
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

    /// D.
    pub fn weight(&self) -> Force {
        self.block_weight() + self.superstructure
    }

    /// e, for an overturning moment about the base.
    ///
    /// # Errors
    /// Moment outside 0 to 10⁹ lb·ft.
    pub fn eccentricity(&self, overturning: Torque) -> Result<Length, Error> {
        let overturning = within("moment", overturning, lb_ft(0.0), lb_ft(1e9))?;
        Ok(crate::units::arm(overturning, self.weight()))
    }

    /// The greatest pressure under the base; none where the block tips over.
    ///
    /// # Errors
    /// As [`SpreadBlock::eccentricity`].
    pub fn toe_pressure(&self, overturning: Torque) -> Result<Option<Pressure>, Error> {
        let e = self.eccentricity(overturning)?;
        let half = self.width * 0.5;
        Ok(if e >= half {
            None
        } else if e > self.width / 6.0 {
            Some(self.weight() * 2.0 / (self.length * 3.0 * (half - e)))
        } else {
            let uniform = self.weight() / (self.width * self.length);
            Some(uniform * (1.0 + 6.0 * e.value / self.width.value))
        })
    }

    /// D B/2.
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

    /// Overturning over allowable moment.
    ///
    /// # Errors
    /// As the two above.
    pub fn utilization(&self, overturning: Torque, safety: f64) -> Result<Utilization, Error> {
        let demand = within("moment", overturning, lb_ft(0.0), lb_ft(1e9))?;
        Ok(Utilization::of(
            Torque::from_si(demand.value),
            self.allowable_moment(safety)?,
        ))
    }
}
