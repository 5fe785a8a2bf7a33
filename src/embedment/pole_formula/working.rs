//! The working of the pole formulas, line by line.

use super::{DepthCap, DepthCheck, Equation, Load, RequiredDepth};
use crate::step::{Step, Worksheet};
use crate::units::{Force, Length, Measurable, Torque, arm};

impl Load {
    fn force(self) -> Force {
        Force::from_si(self.shear)
    }

    fn torque(self) -> Torque {
        Torque::from_si(self.moment)
    }
}

impl RequiredDepth {
    /// Writes the working: the depth, then the printed formula at that depth.
    pub fn write(&self, sheet: &mut Worksheet) {
        sheet.section("Required embedment");
        sheet.remark(match self.equation() {
            Equation::Nonconstrained => {
                "Nonconstrained, equation 18-1 squared out, so that the depth and the depth at \
                 which S1 is read agree; the printed formula below gives it back."
            }
            Equation::Constrained => {
                "Constrained at grade, equation 18-3. The depth is the one at which S3 is read."
            }
        });
        if self.formula.cap_depth() < self.below {
            sheet.remark(match self.formula.cap {
                DepthCap::CapDepth => {
                    "Deeper than 12 ft: the depth used for pressure stays at 12 ft."
                }
                DepthCap::CapReading => {
                    "Read so that only the depth at which pressure is read is limited to 12 ft."
                }
            });
        }
        if self.below.value == 0.0 {
            sheet.remark(if self.actions.shear().value == 0.0 {
                "No load, no depth."
            } else {
                "No moment at grade: the paving takes the shear, and the formula asks for no depth."
            });
            return;
        }
        let equation = match self.equation() {
            Equation::Nonconstrained => "F*S*dr/3*b*dc^2 = 2.34*P*dc + 2.34*4.36/4*M",
            Equation::Constrained => "F*S*dr*b*dc^2 = 4.25*M",
        };
        let top = self.formula.ground.discounted_top();
        write_load(self.load, top, &self.actions, sheet);
        sheet.push(
            Step::root("dc", "depth that counts", equation, self.below)
                .with_number("F", self.increase())
                .with("S", self.formula.ground.lateral().per_depth())
                .with("dr", reading_depth(&self.formula, self.below))
                .with("b", self.formula.width.width())
                .with("P", self.load.force())
                .with("M", self.load.torque())
                .cite(self.equation().citation()),
        );
        match self.equation() {
            Equation::Nonconstrained => self.write_nonconstrained(sheet),
            Equation::Constrained => self.write_constrained(sheet),
        }
        sheet.push(
            Step::computed("d", "required depth below grade", "dc + t", self.depth)
                .with("dc", self.below)
                .with("t", self.formula.ground.discounted_top()),
        );
    }

    fn write_nonconstrained(&self, sheet: &mut Worksheet) {
        let cite = self.equation().citation();
        let b = self.formula.width.width();
        let (p, m) = (self.load.force(), self.load.torque());
        sheet.push(allowed_step(
            self.equation(),
            self.bearing(),
            self.increase(),
            &self.formula,
            self.below,
        ));
        if self.load.shear == 0.0 {
            sheet.push(
                Step::computed(
                    "dc",
                    "depth for a moment alone, the limit of the printed formula",
                    "sqrt(2.34*4.36/4*M/(S1*b))",
                    self.below,
                )
                .with("M", m)
                .with("S1", self.bearing())
                .with("b", b)
                .cite(cite),
            );
            return;
        }
        sheet.push(
            Step::computed("A", "term of 18-1", "2.34*P/(S1*b)", self.a_term())
                .with("P", p)
                .with("S1", self.bearing())
                .with("b", b)
                .cite(cite),
        );
        sheet.push(
            Step::computed("hP", "height of the shear, h of 18-1", "M/P", arm(m, p))
                .with("M", m)
                .with("P", p),
        );
        sheet.push(
            Step::computed(
                "dc",
                "depth by the printed formula, agrees with the first line",
                "0.5*A*(1 + sqrt(1 + 4.36*hP/A))",
                self.below,
            )
            .with("A", self.a_term())
            .with("hP", arm(m, p))
            .cite(cite),
        );
    }

    fn write_constrained(&self, sheet: &mut Worksheet) {
        sheet.push(allowed_step(
            self.equation(),
            self.bearing(),
            self.increase(),
            &self.formula,
            self.below,
        ));
        sheet.push(
            Step::computed(
                "dc",
                "depth by the printed formula, agrees with the first line",
                "sqrt(4.25*M/(S3*b))",
                self.below,
            )
            .with("M", self.load.torque())
            .with("S3", self.bearing())
            .with("b", self.formula.width.width())
            .cite(self.equation().citation()),
        );
    }

    fn increase(&self) -> f64 {
        self.per_depth.value / self.formula.ground.lateral().per_depth().value
    }
}

/// The load at the top of the ground that counts, where a layer is left out.
fn write_load(
    load: Load,
    top: Length,
    actions: &crate::actions::GroundlineActions<crate::limit_state::AllowableStress>,
    sheet: &mut Worksheet,
) {
    // Both stand without their sign, as the formula takes them; a restrained post
    // turns about grade, and its moment is that of grade.
    let moment = actions.moment().abs();
    if load.torque() != moment {
        sheet.push(
            Step::computed(
                "M",
                "moment at the bottom of the layer left out",
                "M0 + P*t",
                load.torque(),
            )
            .with("M0", moment)
            .with("P", load.force())
            .with("t", top),
        );
    }
}

/// The depth that bearing is read from: no deeper than the 12 ft rule allows.
fn reading_depth(formula: &super::PoleFormula, below: Length) -> Length {
    let cap = formula.cap_depth();
    if below > cap { cap } else { below }
}

fn allowed_step(
    equation: Equation,
    bearing: crate::units::Pressure,
    increase: f64,
    formula: &super::PoleFormula,
    below: Length,
) -> Step {
    let at = reading_depth(formula, below);
    let step = match equation {
        Equation::Nonconstrained => Step::computed(
            "S1",
            "allowable lateral bearing at a third of the depth",
            "F*S*dr/3",
            bearing,
        ),
        Equation::Constrained => Step::computed(
            "S3",
            "allowable lateral bearing at the depth",
            "F*S*dr",
            bearing,
        ),
    };
    step.with_number("F", increase)
        .with("S", formula.ground.lateral().per_depth())
        .with("dr", at)
        .cite(equation.citation())
}

impl DepthCheck {
    /// Writes the working.
    pub fn write(&self, sheet: &mut Worksheet) {
        sheet.section("Planned embedment");
        sheet.push(Step::given("dp", "planned depth below grade", self.depth));
        let top = self.formula.ground.discounted_top();
        let counts = self.depth - top;
        if counts.value <= 0.0 {
            sheet.remark("The planned depth lies wholly in the top layer that does not count.");
            return;
        }
        sheet.push(
            Step::computed("dq", "planned depth that counts", "dp - t", counts)
                .with("dp", self.depth)
                .with("t", top),
        );
        let (Ok(load), Ok(per_depth)) = (
            self.formula.load(&self.actions),
            self.formula.bearing_per_depth(&self.actions),
        ) else {
            return;
        };
        let equation = self.formula.equation();
        let increase = per_depth.value / self.formula.ground.lateral().per_depth().value;
        sheet.push(allowed_step(
            equation,
            self.capacity,
            increase,
            &self.formula,
            counts,
        ));
        let (step, symbol, ratio) = match equation {
            Equation::Nonconstrained => {
                write_load(load, top, &self.actions, sheet);
                (
                    Step::computed(
                        "Sn",
                        "lateral bearing needed, 18-1 solved for S1",
                        "(2.34*P*dq + 2.34*4.36/4*M)/(b*dq^2)",
                        self.demand,
                    )
                    .with("P", load.force()),
                    "S1",
                    "Sn/S1",
                )
            }
            Equation::Constrained => (
                Step::computed(
                    "Sn",
                    "lateral bearing needed, 18-3 solved for S3",
                    "4.25*M/(b*dq^2)",
                    self.demand,
                ),
                "S3",
                "Sn/S3",
            ),
        };
        sheet.push(
            step.with("M", load.torque())
                .with("b", self.formula.width.width())
                .with("dq", counts)
                .cite(self.source()),
        );
        sheet.push(
            Step::computed_number("u", "utilization", ratio, self.utilization.ratio())
                .with("Sn", self.demand)
                .with(symbol, self.capacity),
        );
    }
}
