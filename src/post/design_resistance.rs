//! Design resistance of a post: partial factors of the Eurocodes, or load and
//! resistance factors.

use crate::actions::GroundlineActions;
use crate::error::{Error, within};
use crate::limit_state::{LimitState, PartialFactor};
use crate::section::PostSection;
use crate::source::Citation;
use crate::units::{Force, Torque, n_m};
use crate::utilization::Utilization;
use core::marker::PhantomData;

/// MRd and VRd, or φMn and φVn: the limit state says which, and only design
/// actions of the same one can be compared with them.
///
/// ```compile_fail
/// use groundline::{actions::*, limit_state::*, post::*, section::*, units::*};
/// let post = TimberEn1995::new(Square::new(mm(100.0))?, TimberClass::C24, 0.9)?;
/// let service = GroundlineActions::new(kn(1.0), kn_m(1.0), kn(0.0), AllowableStress::Basic)?;
/// let _ = post.resistance().check(&service, kn_m(1.1))?; // not design actions
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct DesignResistance<L: LimitState = PartialFactor> {
    /// MRd about an axis parallel to a face.
    pub moment: Torque,
    /// MRd whatever its direction: of a square the above over √2.
    pub skew_moment: Torque,
    /// VRd.
    pub shear: Force,
    /// Where they come from.
    pub source: &'static Citation,
    level: PhantomData<L>,
}

/// A post against design actions.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct DesignCheck {
    /// The greatest moment.
    pub moment: Torque,
    /// Of moment, square to a face.
    pub bending: Utilization,
    /// Of moment, in any direction.
    pub skew_bending: Utilization,
    /// Of shear at grade.
    pub shear: Utilization,
}

impl<L: LimitState> DesignResistance<L> {
    pub(super) fn new(
        section: &PostSection,
        moment: Torque,
        shear: Force,
        source: &'static Citation,
    ) -> Self {
        let skew_moment = match section {
            PostSection::Square(_) => moment / core::f64::consts::SQRT_2,
            PostSection::Tube(_) => moment,
        };
        Self {
            moment,
            skew_moment,
            shear,
            source,
            level: PhantomData,
        }
    }

    /// Against design actions, and the greatest moment they make in the post
    /// below grade ([`crate::response::Response::greatest_moment`] or a method
    /// of [`crate::lateral`]); where the one at grade is greater it counts.
    /// Axial force is not combined, shear is the one at grade.
    ///
    /// # Errors
    /// Moment outside 0 to 1 GN·m.
    pub fn check(
        &self,
        actions: &GroundlineActions<L>,
        below_grade: Torque,
    ) -> Result<DesignCheck, Error> {
        let below = within("greatest moment", below_grade, n_m(0.0), n_m(1e9))?;
        let at_grade = actions.moment().abs();
        let moment = if below > at_grade { below } else { at_grade };
        Ok(DesignCheck {
            moment,
            bending: Utilization::of(moment, self.moment),
            skew_bending: Utilization::of(moment, self.skew_moment),
            shear: Utilization::of(actions.shear().abs(), self.shear),
        })
    }
}
