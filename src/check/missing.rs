//! The depth that a planned hole lacks.
//!
//! The utilization of embedment is a ratio of pressures, not of depths: a hole
//! 13 % too shallow may be used at 1.31. So the missing depth stands beside it.

use super::PostCheck;
use crate::limit_state::LimitState;
use crate::units::Length;

impl<L: LimitState> PostCheck<L> {
    /// Returns the depth by which the planned depth is less than the required depth;
    /// none where the embedment passes or no depth is planned.
    ///
    /// Only the embedment is compared. [`Schedule::depth_to_dig`] returns a depth at
    /// which every check passes.
    ///
    /// [`Schedule::depth_to_dig`]: crate::plan::Schedule::depth_to_dig
    ///
    /// ```
    /// # use groundline::{actions::*, check::*, foundation::Hole, ground::*, post::*, section::*};
    /// # use groundline::{limit_state::AllowableStress, units::*};
    /// # let steel = SteelStrength::new(ksi(50.0))?;
    /// # let pipe = PipePost::new(Tube::new(inch(2.375), inch(0.13))?, steel)?;
    /// # let ground = Ground::presumptive(SoilClass::Class4);
    /// let design = PostDesign::in_concrete(ground, pipe.into(), Hole::round(inch(10.0))?)?;
    /// let load =
    ///     GroundlineActions::new(lb(150.0), lb_ft(500.0), lb(0.0), AllowableStress::Basic)?;
    /// let check = PostCheck::of_actions(&design, &load, Some(inch(24.0)))?;
    /// let missing = check.missing_depth().unwrap();
    /// assert!((inch(24.0) + missing - check.required.depth()).abs() < inch(1e-9));
    /// # Ok::<(), groundline::Error>(())
    /// ```
    pub fn missing_depth(&self) -> Option<Length> {
        let planned = self.planned.as_ref()?;
        if planned.utilization().passes() {
            return None;
        }
        let missing = self.required.depth() - planned.depth();
        (missing > Length::default()).then_some(missing)
    }
}
