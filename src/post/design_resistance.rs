//! Design resistance of a post: partial factors of the Eurocodes, or load and
//! resistance factors.

use super::skew_moment;
use crate::actions::GroundlineActions;
use crate::error::{Error, within};
use crate::limit_state::{LimitState, LoadAndResistance, PartialFactor};
use crate::section::PostSection;
use crate::source::Citation;
use crate::units::{Force, Torque, n_m, newton};
use crate::utilization::Utilization;
use core::marker::PhantomData;

/// The share of Vpl,Rd up to which EN 1993-1-1 6.2.8 lets shear be. From memory.
const HALF: f64 = 0.5;

/// MRd and VRd, or φMn and φVn: the limit state says which, and only design
/// actions of the same one can be compared with them.
///
/// Bending about both axes of a square is added up linearly, which is safe: EN
/// 1995-1-1 6.1.6 and, in classes 1 and 2, EN 1993-1-1 6.2.9 count it for less (from
/// memory). Bending is not reduced for shear, which EN 1993-1-1 6.2.8 asks for beyond half of
/// Vpl,Rd (from memory): [`DesignCheck::wants_less_bending`] tells where it does.
///
/// ```
/// use groundline::{actions::*, limit_state::*, post::*, section::*, units::*};
/// let post = TimberEn1995::new(Square::new(mm(100.0))?, TimberClass::C24, 0.9)?;
/// let design = GroundlineActions::new(kn(1.0), kn_m(1.0), kn(0.0), PartialFactor::Structure)?;
/// let check = post.resistance().check(&design, kn_m(1.1), kn(1.5))?;
/// assert!(check.bending.passes() && check.shear.passes());
/// # Ok::<(), groundline::Error>(())
/// ```
///
/// ```compile_fail
/// use groundline::{actions::*, limit_state::*, post::*, section::*, units::*};
/// let post = TimberEn1995::new(Square::new(mm(100.0))?, TimberClass::C24, 0.9)?;
/// let service = GroundlineActions::new(kn(1.0), kn_m(1.0), kn(0.0), AllowableStress::Basic)?;
/// let _ = post.resistance().check(&service, kn_m(1.1), kn(1.0))?; // not design actions
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
    /// Where the moment comes from.
    pub moment_source: &'static Citation,
    /// Where the shear comes from.
    pub shear_source: &'static Citation,
    /// Does shear beyond half of it take from the moment (EN 1993-1-1 6.2.8)?
    shear_takes: bool,
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
    /// Of shear.
    pub shear: Utilization,
    wants_less_bending: bool,
}

impl DesignCheck {
    /// Is shear beyond half of Vpl,Rd, where EN 1993-1-1 6.2.8 (from memory) takes the
    /// strength that bending may count on down? That is not computed:
    /// [`DesignCheck::bending`] is then no answer. Never of other standards.
    pub const fn wants_less_bending(&self) -> bool {
        self.wants_less_bending
    }
}

impl<L: LimitState> DesignResistance<L> {
    pub(super) fn new(
        section: &PostSection,
        moment: Torque,
        shear: Force,
        moment_source: &'static Citation,
        shear_source: &'static Citation,
    ) -> Self {
        Self {
            moment,
            skew_moment: skew_moment(section, moment),
            shear,
            moment_source,
            shear_source,
            shear_takes: false,
            level: PhantomData,
        }
    }

    /// With shear that takes from the moment beyond half of it.
    pub(super) fn taking_from_moment(self) -> Self {
        Self {
            shear_takes: true,
            ..self
        }
    }

    /// The greater of grade and below.
    fn compare(
        &self,
        actions: &GroundlineActions<L>,
        below_grade: Torque,
        shear_below: Force,
    ) -> Result<DesignCheck, Error> {
        let below = within("greatest moment", below_grade, n_m(0.0), n_m(1e9))?;
        let reversed = within("greatest shear", shear_below, newton(0.0), newton(1e8))?;
        let shear = actions.shear().abs();
        let shear = if reversed > shear { reversed } else { shear };
        let at_grade = actions.moment().abs();
        let moment = if below > at_grade { below } else { at_grade };
        let shear = Utilization::of(shear, self.shear);
        Ok(DesignCheck {
            moment,
            bending: Utilization::of(moment, self.moment),
            skew_bending: Utilization::of(moment, self.skew_moment),
            shear,
            wants_less_bending: self.shear_takes && shear.ratio() > HALF,
        })
    }
}

impl DesignResistance<PartialFactor> {
    /// Against design actions, and the greatest moment and shear they make in
    /// the post below grade ([`crate::response::Response::greatest_moment`] and
    /// the shear of its stations: below grade it reverses and may be several
    /// times the one at grade). Where those at grade are greater they count.
    /// Axial force is not combined.
    ///
    /// # Errors
    /// Actions that are not of [`PartialFactor::Structure`]: the other sets are
    /// lighter on the post. Moment outside 0 to 1 GN·m, shear outside 0 to 100
    /// MN.
    pub fn check(
        &self,
        actions: &GroundlineActions<PartialFactor>,
        below_grade: Torque,
        shear_below: Force,
    ) -> Result<DesignCheck, Error> {
        if actions.level() != PartialFactor::Structure {
            return Err(Error::NotApplicable {
                field: "limit state",
                reason: "the post itself is checked with STR actions",
            });
        }
        self.compare(actions, below_grade, shear_below)
    }
}

impl DesignResistance<LoadAndResistance> {
    /// The same for load and resistance factors.
    ///
    /// # Errors
    /// Moment outside 0 to 1 GN·m, shear outside 0 to 100 MN.
    pub fn check(
        &self,
        actions: &GroundlineActions<LoadAndResistance>,
        below_grade: Torque,
        shear_below: Force,
    ) -> Result<DesignCheck, Error> {
        self.compare(actions, below_grade, shear_below)
    }
}
