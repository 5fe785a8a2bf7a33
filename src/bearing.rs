//! Vertical bearing under a post: IBC 1807.3.2.3.
//!
//! qv = N/Ab, the load at grade over the area of the base, against the allowable
//! foundation pressure qa. The base is taken as evenly pressed: what moment reaches
//! it is not counted. The weight of the footing itself is not added (it
//! takes the place of soil of nearly that weight), skin friction is not
//! counted, and no increase for wind is taken, since the load is dead load.

use crate::actions::GroundlineActions;
use crate::foundation::Foundation;
use crate::ground::Ground;
use crate::limit_state::AllowableStress;
use crate::source::{self, Citation};
use crate::step::{Step, Worksheet};
use crate::units::{Area, Pressure};
use crate::utilization::Utilization;

/// The base of a post against its load.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct BearingCheck {
    /// The load; its axial force is N.
    pub actions: GroundlineActions<AllowableStress>,
    /// Ab, area of the base.
    pub base: Area,
    /// qv, pressure under the base.
    pub demand: Pressure,
    /// qa, allowable pressure: tabular or the user's.
    pub capacity: Pressure,
    /// Where qa comes from.
    pub capacity_source: &'static Citation,
    /// Their ratio.
    pub utilization: Utilization,
}

impl BearingCheck {
    /// The check; none where the ground has no vertical pressure.
    #[inline]
    pub fn new(
        actions: &GroundlineActions<AllowableStress>,
        ground: &Ground,
        foundation: &Foundation,
    ) -> Option<Self> {
        let capacity = ground.vertical()?;
        let base = foundation.base_area();
        let demand = actions.axial() / base;
        Some(Self {
            actions: *actions,
            base,
            demand,
            capacity,
            capacity_source: ground.vertical_source(),
            utilization: Utilization::of(demand, capacity),
        })
    }

    /// Where it comes from.
    #[inline]
    pub const fn source(&self) -> &'static Citation {
        &source::IBC_1807_3_2_3
    }

    /// Writes the working.
    pub fn write(&self, sheet: &mut Worksheet) {
        sheet.section("Vertical bearing");
        sheet.remark(
            "The weight of the footing is not added, since it takes the place of soil of nearly that \
             weight; side friction is not counted either.",
        );
        sheet.push(Step::given("N", "weight at grade", self.actions.axial()));
        sheet.push(Step::given("Ab", "area of the base", self.base));
        sheet.push(
            Step::computed("qv", "pressure under the base", "N/Ab", self.demand)
                .with("N", self.actions.axial())
                .with("Ab", self.base)
                .cite(self.source()),
        );
        sheet.push(
            Step::given("qa", "allowable foundation pressure", self.capacity)
                .cite(self.capacity_source),
        );
        sheet.push(
            Step::computed_number("ub", "utilization", "qv/qa", self.utilization.ratio())
                .with("qv", self.demand)
                .with("qa", self.capacity),
        );
    }
}
