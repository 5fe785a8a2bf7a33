//! Movement at grade of an isolated pole, whose lateral bearing is doubled on
//! condition that ½ in (13 mm) of short-term movement at the surface does no harm
//! (IBC 1806.3.4).
//!
//! Where the stiffness of the ground is given ([`super::LeanOptions`]) the movement
//! is checked, under the wind of the lean check: D + 0.6 W, near service level.
//! With y0 and θ0 at the level where the ground begins to count, t the discounted
//! top above it, V the shear and M the moment there,
//!
//! - yg = y0 + θ0 t + (M t²/2 − V t³/6)/EI.
//!
//! Where no stiffness is given, the verdict carries the [`Condition`].

use crate::source::{self, Citation};
use crate::step::{Step, Worksheet};
use crate::units::{Angle, FlexuralRigidity, Force, Length, Measurable, Torque, inch};
use crate::utilization::Utilization;

/// A condition that a verdict rests on and that was not checked.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Condition {
    /// Lateral bearing was doubled as for an isolated pole, and the movement at grade
    /// was not checked. Give a ground stiffness ([`super::LeanOptions`]) to check it.
    HalfInchAtGrade,
}

impl Condition {
    /// Returns the condition in words, to follow "passes".
    pub const fn text(self) -> &'static str {
        match self {
            Self::HalfInchAtGrade => {
                "on condition that 1/2 in (13 mm) of movement at grade does no harm"
            }
        }
    }

    /// Returns where the condition comes from.
    pub const fn source(self) -> &'static Citation {
        match self {
            Self::HalfInchAtGrade => &source::IBC_1806_3_4,
        }
    }
}

impl core::fmt::Display for Condition {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.pad(self.text())
    }
}

/// Movement of an isolated pole at grade against ½ in (13 mm), in the load case worst
/// for it (IBC 1806.3.4). The movement is elastic.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct GradeMovement {
    /// Movement at grade.
    pub movement: Length,
    /// Movement over ½ in.
    pub utilization: Utilization,
    /// Shear V.
    pub shear: Force,
    /// Moment M where the ground begins to count, that of hung leaves included.
    pub moment: Torque,
    /// Movement y0 where the ground begins to count.
    pub in_ground: Length,
    /// Rotation θ0 there.
    pub rotation: Angle,
    /// Flexure of the post over the discounted top.
    pub flexure: Length,
    top: Length,
    rigidity: FlexuralRigidity,
}

impl GradeMovement {
    /// Returns the movement allowed at grade, ½ in.
    pub fn limit() -> Length {
        inch(0.5)
    }

    pub(super) fn new(
        (shear, moment): (Force, Torque),
        (in_ground, rotation): (Length, Angle),
        top: Length,
        rigidity: FlexuralRigidity,
    ) -> Self {
        let t = top.value;
        let bends = (0.5 * moment.value - shear.value * t / 6.0) * t * t / rigidity.value;
        let flexure = Length::from_si(bends);
        let movement = in_ground + Length::from_si(rotation.value * t) + flexure;
        Self {
            movement,
            utilization: Utilization::of(movement, Self::limit()),
            shear,
            moment,
            in_ground,
            rotation,
            flexure,
            top,
            rigidity,
        }
    }

    /// Returns where the limit comes from.
    pub const fn source() -> &'static Citation {
        &source::IBC_1806_3_4
    }

    /// Writes y0 by `in_ground`, then the movement at grade and its utilization.
    pub(super) fn write(&self, sheet: &mut Worksheet, in_ground: impl Fn(&mut Worksheet)) {
        sheet.section("Movement at grade of an isolated pole");
        sheet.remark("Wind as in the lean of the top, of the case worst for movement at grade.");
        sheet.push(Step::given("V", "shear", self.shear));
        sheet.push(Step::given(
            "M",
            "moment where the ground begins to count",
            self.moment,
        ));
        in_ground(sheet);
        let mut at_grade = "y0";
        if self.top > Length::from_si(0.0) {
            at_grade = "y0 + t*q0*pi/180 + yt";
            let formula = sheet.by_system("144*t^2*(M/2 - V*t/6)/EI", "t^2*(M/2 - V*t/6)/EI");
            sheet.push(
                Step::computed(
                    "yt",
                    "flexure over the top layer left out",
                    formula,
                    self.flexure,
                )
                .with("t", self.top)
                .with("M", self.moment)
                .with("V", self.shear)
                .with("EI", self.rigidity)
                .cite(&source::STATICS),
            );
        }
        let step = Step::computed("yg", "movement at grade", at_grade, self.movement)
            .with("y0", self.in_ground);
        sheet.push(if self.top > Length::from_si(0.0) {
            step.with("t", self.top)
                .with("q0", self.rotation)
                .with("yt", self.flexure)
                .cite(&source::STATICS)
        } else {
            step
        });
        if self.utilization < Utilization::NO_CAPACITY {
            sheet.push(
                Step::computed_number("ug", "utilization", "yg/yl", self.utilization.ratio())
                    .with("yg", self.movement)
                    .with("yl", Self::limit())
                    .cite(Self::source()),
            );
        }
    }
}
