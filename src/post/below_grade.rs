//! Where the moment in an embedded post is greatest, and how great.
//!
//! The pole formulas say how deep and nothing about the moment on the way. The
//! post is taken as rigid in ground whose stiffness grows with depth, so that
//! the soil presses with p(z) = n z (y0 + θ z). Force and moment balance at
//! the bottom fix both unknowns, the stiffness cancels, and with ζ = z/L,
//! m = M/L and K = 8 V + 12 m
//!
//! - shear: V(ζ) = (1 − ζ)(V + V ζ − K ζ²),
//! - moment: M(ζ) = M + L [V ζ − (3 V + 4 m) ζ³ + (2 V + 3 m) ζ⁴],
//! - zero shear, greatest moment: ζ = [V + √(V² + 4 K V)]/(2K),
//! - greatest reverse shear, at ζ = 2(9 V + 12 m)/(3K): (9 V + 12 m) ζ²/3 − V.
//!
//! With rigid paving at grade the post turns about grade: the moment is
//! greatest there, and the shear below the paving is 4M/(3L).
//!
//! Shear and moment at grade count by magnitude, as if they turned the post the
//! same way, which is the worse for both.
//!
//! The moment grows with depth without limit, more than it would in a post that bends.
//! So the depth to take is the least one at which the ground holds the load, however
//! much deeper the hole is. The pressures there balance the load and are allowed where
//! they act; below them the deeper hole needs none. By the static (lower bound) theorem
//! a post and a ground that yield before they break carry the load in the deeper hole
//! too. (Derived; a beam on springs stands beside it in the tests.)
//!
//! The shear falls with depth, to that at grade. It is more than in a post that bends
//! only down to about 3.5 (EI/n)^(1/5); deeper than that, a post under moment that bends
//! has up to some 0.5 M/(EI/n)^(1/5), which no longer falls.
//!
//! The post alone is taken to carry this; a concrete collar around it is not
//! counted, though it helps.

use crate::actions::GroundlineActions;
use crate::error::{Error, within};
use crate::foundation::Restraint;
use crate::limit_state::AllowableStress;
use crate::source;
use crate::step::{Step, Worksheet};
use crate::units::{Force, Length, Measurable, Torque, ft};

/// The greatest moment and shear in an embedded post.
///
/// ```
/// use groundline::{actions::GroundlineActions, foundation::Restraint, post::BelowGrade};
/// use groundline::{limit_state::AllowableStress, units::*};
/// let load = GroundlineActions::new(lb(500.0), lb_ft(2_000.0), lb(0.0), AllowableStress::Basic)?;
/// let inside = BelowGrade::new(&load, ft(4.0), ft(0.0), Restraint::None)?;
/// // A sixth more than at grade, and a foot down.
/// assert!((inside.moment().to(lb_ft) - 2_320.3).abs() < 0.05);
/// assert!((inside.depth_of_moment().to(ft) - 1.0).abs() < 1e-9);
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct BelowGrade {
    actions: GroundlineActions<AllowableStress>,
    top: Length,
    embedment: Length,
    restraint: Restraint,
    zeta: f64,
    moment: Torque,
    shear: Force,
}

impl BelowGrade {
    /// For actions at grade, the embedment that counts, the top layer above it
    /// that does not, and the restraint at grade.
    ///
    /// # Errors
    /// Embedment outside 0.01 to 100 000 ft, top layer outside 0 to 10 ft.
    #[inline]
    pub fn new(
        actions: &GroundlineActions<AllowableStress>,
        embedment: Length,
        top: Length,
        restraint: Restraint,
    ) -> Result<Self, Error> {
        let embedment = within("embedment", embedment, ft(0.01), ft(100_000.0))?;
        let top = within("discounted top layer", top, ft(0.0), ft(10.0))?;
        let v = actions.shear().value.abs();
        let length = embedment.value;
        let (zeta, moment, shear) = match restraint {
            Restraint::RigidPaving => {
                let moment = actions.moment().value.abs();
                (0.0, moment, v.max(4.0 * moment / (3.0 * length)))
            }
            Restraint::None => {
                let at_top = actions.moment().value.abs() + v * top.value;
                let m = at_top / length;
                let k = 8.0 * v + 12.0 * m;
                if k > 0.0 {
                    let zeta = (v + (v * v + 4.0 * k * v).sqrt()) / (2.0 * k);
                    let rise = zeta
                        * (v - zeta * zeta * ((3.0 * v + 4.0 * m) - zeta * (2.0 * v + 3.0 * m)));
                    let turn = 9.0 * v + 12.0 * m;
                    let at = 2.0 * turn / (3.0 * k);
                    let reverse = turn * at * at / 3.0 - v;
                    (zeta, at_top + length * rise, reverse.max(v))
                } else {
                    (0.0, 0.0, 0.0)
                }
            }
        };
        Ok(Self {
            actions: *actions,
            top,
            embedment,
            restraint,
            zeta,
            moment: Torque::from_si(moment),
            shear: Force::from_si(shear),
        })
    }

    /// The greatest moment.
    #[inline]
    pub const fn moment(&self) -> Torque {
        self.moment
    }
    /// The greatest shear, at grade or reversed below it.
    #[inline]
    pub const fn shear(&self) -> Force {
        self.shear
    }
    /// The embedment that counts.
    #[inline]
    pub const fn embedment(&self) -> Length {
        self.embedment
    }
    /// Depth below grade of the greatest moment.
    #[inline]
    pub fn depth_of_moment(&self) -> Length {
        match self.restraint {
            Restraint::None => self.top + self.embedment * self.zeta,
            Restraint::RigidPaving => ft(0.0),
        }
    }

    /// Writes the working.
    pub fn write(&self, sheet: &mut Worksheet) {
        sheet.section("Moment and shear in the post");
        sheet.remark(
            "The post alone carries them; concrete around it is not counted. Rigid post, ground \
             stiffness growing with depth.",
        );
        let v = Force::from_si(self.actions.shear().value.abs());
        let m = Torque::from_si(self.actions.moment().value.abs());
        let length = self.embedment;
        if self.restraint == Restraint::RigidPaving {
            sheet.push(
                Step::given("Mmax", "greatest moment, at the paving", self.moment)
                    .cite(&source::BELOW_GRADE),
            );
            sheet.push(
                Step::computed("Vmax", "greatest shear", "max(V, 4*M/(3*L))", self.shear)
                    .with("V", v)
                    .with("M", m)
                    .with("L", length)
                    .cite(&source::BELOW_GRADE),
            );
            return;
        }
        sheet.remark(
            "Stiffness n per depth: deeper than some 3.5 (EI/n)^(1/5) a post that bends has less \
             moment and more shear.",
        );
        let at_top = Torque::from_si(m.value + v.value * self.top.value);
        let slice = Force::from_si(at_top.value / length.value);
        sheet.push(
            Step::computed(
                "m",
                "moment at the top of the ground that counts, over the embedment",
                "(M + V*t)/L",
                slice,
            )
            .with("M", m)
            .with("V", v)
            .with("t", self.top)
            .with("L", length),
        );
        sheet.push(
            Step::computed_number(
                "z",
                "place of zero shear, as a share of the embedment",
                "(V + sqrt(V^2 + 4*(8*V + 12*m)*V))/(2*(8*V + 12*m))",
                self.zeta,
            )
            .with("V", v)
            .with("m", slice)
            .cite(&source::BELOW_GRADE),
        );
        sheet.push(
            Step::computed(
                "Mmax",
                "greatest moment, there",
                "L*(m + V*z - (3*V + 4*m)*z^3 + (2*V + 3*m)*z^4)",
                self.moment,
            )
            .with("L", length)
            .with("m", slice)
            .with("V", v)
            .with_number("z", self.zeta)
            .cite(&source::BELOW_GRADE),
        );
        sheet.push(
            Step::computed(
                "Vmax",
                "greatest shear: at grade, or reversed near the bottom",
                "max(V, 4*(9*V + 12*m)^3/(27*(8*V + 12*m)^2) - V)",
                self.shear,
            )
            .with("V", v)
            .with("m", slice)
            .cite(&source::BELOW_GRADE),
        );
    }
}
