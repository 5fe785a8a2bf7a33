//! The working of weight and bending together, line by line.

use super::{ADVISED, AxialBending, AxialForm, MOST_SLENDER};
use crate::source::{self, Citation};
use crate::step::{Step, Worksheet};
use crate::units::Measure;
use crate::utilization::Utilization;

impl AxialBending {
    /// Writes the working.
    pub fn write(&self, sheet: &mut Worksheet) {
        sheet.section("Weight and bending together");
        sheet.push(Step::given("Np", "weight on the post", self.axial));
        sheet.push(Step::given_number(
            "um",
            "utilization in bending alone, of the case worst for it",
            self.bending.ratio(),
        ));
        sheet.remark(if self.turning.is_some() {
            "The ground turns under the foot of the post, which lets its weight tip it more."
        } else {
            "The post is taken as fixed in the ground: soft ground or a shallow hole lets its \
             weight tip it more."
        });
        match self.form {
            AxialForm::Linear => self.write_given(sheet),
            AxialForm::Timber => {
                self.write_slenderness("le/d", sheet);
                self.write_timber(sheet);
            }
            AxialForm::SteelHeavy | AxialForm::SteelLight => {
                self.write_slenderness("KL/r", sheet);
                self.write_steel(sheet);
            }
        }
        if self.form == AxialForm::Timber && self.slenderness > MOST_SLENDER {
            sheet.remark("le/d is beyond 50: NDS 3.7.1.4 does not allow it. FAILS.");
            return;
        }
        if self.amplification.is_infinite() || self.utilization == Utilization::NO_CAPACITY {
            sheet.remark("The weight alone is beyond what the post carries without tipping.");
            return;
        }
        self.write_amplification(sheet);
        let (formula, both) = match self.form {
            AxialForm::SteelHeavy => ("Np/Pa + 8/9*um*B", self.utilization),
            AxialForm::SteelLight => ("Np/(2*Pa) + um*B", self.utilization),
            AxialForm::Timber => ("(Np/Pa)^2 + um*B", self.both),
            AxialForm::Linear => ("Np/Pa + um*B", self.utilization),
        };
        sheet.push(
            Step::computed_number("ua", "utilization of both together", formula, both.ratio())
                .with("Np", self.axial)
                .with("Pa", self.capacity)
                .with_number("um", self.bending.ratio())
                .with_number("B", self.amplification)
                .cite(self.source()),
        );
        if let Some(alone) = self.alone {
            sheet.push(
                Step::given(
                    "F9",
                    "Fc with its factors and CD 0.9, without CP",
                    self.lasting,
                )
                .shown_as(Measure::Stress)
                .cite(&source::GIVEN),
            );
            sheet.push(
                Step::computed_number(
                    "ud",
                    "utilization of the weight alone",
                    sheet.by_system(
                        "Np/(F9*Ag*((1 + Fe/F9)/1.6 - sqrt(((1 + Fe/F9)/1.6)^2 - Fe/F9/0.8)))",
                        "1000*Np/(F9*Ag*((1 + Fe/F9)/1.6 - sqrt(((1 + Fe/F9)/1.6)^2 - Fe/F9/0.8)))",
                    ),
                    alone.ratio(),
                )
                .with("Np", self.axial)
                .with_as("F9", self.lasting, Measure::Stress)
                .with_as("Ag", self.area, Measure::SectionArea)
                .with_as("Fe", self.euler, Measure::Stress)
                .cite(&source::NDS_3_9_2),
            );
        }
    }

    fn write_given(&self, sheet: &mut Worksheet) {
        sheet.push(Step::given("Pa", "allowable axial load", self.capacity).cite(&source::GIVEN));
        let load = self.fixed * self.area;
        let symbol = if self.turning.is_some() { "P0" } else { "Pe" };
        sheet.push(
            Step::computed(
                symbol,
                "Euler load, fixed in the ground",
                sheet.by_system("pi^2*EI/(K*L)^2", "pi^2*EI/(K*L/1000)^2"),
                load,
            )
            .with("EI", self.rigidity)
            .with_number("K", self.length_factor)
            .with_as("L", self.length, Measure::SectionLength)
            .cite(&source::STATICS),
        );
        if let Some(turning) = self.turning {
            sheet.push(
                Step::computed(
                    "Pe",
                    "Euler load, the ground turning",
                    sheet.by_system("1/(1/P0 + L/(12*kt))", "1/(1/P0 + L/(1000*kt))"),
                    self.euler * self.area,
                )
                .with("P0", load)
                .with_as("L", self.length, Measure::SectionLength)
                .with("kt", turning.0)
                .cite(&source::STATICS),
            );
        }
    }

    /// The Euler stress of a fixed post, and with the ground turning.
    fn write_euler(&self, formula: &'static str, clause: &'static Citation, sheet: &mut Worksheet) {
        let symbol = if self.turning.is_some() { "F0" } else { "Fe" };
        sheet.push(
            Step::computed(
                symbol,
                "Euler stress, fixed in the ground",
                formula,
                self.fixed,
            )
            .with_as("E", self.modulus, Measure::Stress)
            .with_number("s", self.slenderness)
            .shown_as(Measure::Stress)
            .cite(clause),
        );
        if let Some(turning) = self.turning {
            sheet.push(
                Step::computed(
                    "Fe",
                    "Euler stress, the ground turning",
                    sheet.by_system("1/(1/F0 + Ag*L/(12*kt))", "1/(1/F0 + Ag*L/(10^6*kt))"),
                    self.euler,
                )
                .with_as("F0", self.fixed, Measure::Stress)
                .with_as("Ag", self.area, Measure::SectionArea)
                .with_as("L", self.length, Measure::SectionLength)
                .with("kt", turning.0)
                .shown_as(Measure::Stress)
                .cite(&source::STATICS),
            );
        }
    }

    fn write_slenderness(&self, name: &'static str, sheet: &mut Worksheet) {
        sheet.remark(
            "The length is from the greatest moment in the ground to the top; all weight is taken \
             to act there.",
        );
        sheet.push(
            Step::computed_number("s", name, "K*L/r", self.slenderness)
                .with_number("K", self.length_factor)
                .with_as("L", self.length, Measure::SectionLength)
                .with_as("r", self.radius, Measure::SectionLength)
                .cite(self.source()),
        );
    }

    fn write_timber(&self, sheet: &mut Worksheet) {
        let clause = &source::NDS_3_9_2;
        sheet.push(
            Step::given("Fs", "Fc with its factors and CD, without CP", self.full)
                .shown_as(Measure::Stress)
                .cite(&source::GIVEN),
        );
        self.write_euler("0.822*E/s^2", clause, sheet);
        sheet.push(
            Step::computed_number(
                "CP",
                "column stability",
                "(1 + Fe/Fs)/1.6 - sqrt(((1 + Fe/Fs)/1.6)^2 - Fe/Fs/0.8)",
                self.stability,
            )
            .with_as("Fe", self.euler, Measure::Stress)
            .with_as("Fs", self.full, Measure::Stress)
            .cite(clause),
        );
        sheet.push(
            Step::computed(
                "Pa",
                "allowable axial load",
                sheet.by_system("Fs*CP*Ag", "Fs*CP*Ag/1000"),
                self.capacity,
            )
            .with_as("Fs", self.full, Measure::Stress)
            .with_number("CP", self.stability)
            .with_as("Ag", self.area, Measure::SectionArea)
            .cite(clause),
        );
    }

    fn write_steel(&self, sheet: &mut Worksheet) {
        let clause = &source::AISC_E3;
        if self.slenderness > ADVISED {
            sheet.remark("KL/r is beyond 200, where AISC 360 E2 advises to stay below.");
        }
        self.write_euler("pi^2*E/s^2", clause, sheet);
        let formula = if (self.full / self.euler).value <= 2.25 {
            "0.658^(Fy/Fe)*Fy"
        } else {
            "0.877*Fe"
        };
        sheet.push(
            Step::computed("Fcr", "critical stress", formula, self.critical)
                .with_as("Fe", self.euler, Measure::Stress)
                .with_as("Fy", self.full, Measure::Stress)
                .shown_as(Measure::Stress)
                .cite(clause),
        );
        let meaning = "share of the area that counts";
        // Of a square tube that is not slender all of it does.
        sheet.push(if self.walls > 0.0 {
            let formula = "min(0.038*E/(Fy*w) + 2/3, 1)";
            Step::computed_number("q", meaning, formula, self.effective)
                .with_as("E", self.modulus, Measure::Stress)
                .with_as("Fy", self.full, Measure::Stress)
                .with_number("w", self.walls)
                .cite(clause)
        } else {
            Step::given_number("q", meaning, self.effective).cite(clause)
        });
        sheet.push(
            Step::computed(
                "Pa",
                "allowable axial load",
                sheet.by_system("Fcr*q*Ag/1.67", "Fcr*q*Ag/1.67/1000"),
                self.capacity,
            )
            .with_as("Fcr", self.critical, Measure::Stress)
            .with_number("q", self.effective)
            .with_as("Ag", self.area, Measure::SectionArea)
            .cite(clause),
        );
    }

    fn write_amplification(&self, sheet: &mut Worksheet) {
        let meaning = "what the moment is raised by";
        if self.form == AxialForm::Linear {
            let formula = "1/(1 - 1.6*Np/Pe)";
            sheet.push(
                Step::computed_number("B", meaning, formula, self.amplification)
                    .with("Np", self.axial)
                    .with("Pe", self.euler * self.area)
                    .cite(&source::STATICS),
            );
            return;
        }
        let formula = if self.form == AxialForm::Timber {
            sheet.by_system("1/(1 - Np/(Fe*Ag))", "1/(1 - 1000*Np/(Fe*Ag))")
        } else {
            sheet.by_system("1/(1 - 1.6*Np/(Fe*Ag))", "1/(1 - 1600*Np/(Fe*Ag))")
        };
        sheet.push(
            Step::computed_number("B", meaning, formula, self.amplification)
                .with("Np", self.axial)
                .with_as("Fe", self.euler, Measure::Stress)
                .with_as("Ag", self.area, Measure::SectionArea)
                .cite(self.source()),
        );
    }
}
