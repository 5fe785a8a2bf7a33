//! What goes into a response and what comes out, for the sheet. The numbers
//! between are a field of the [`Response`], not lines.

use super::model::PostModel;
use super::solution::Response;
use crate::source::{self, Mark};
use crate::step::{Step, Worksheet};
use crate::units::Measure;

impl Response {
    /// Writes inputs and results: the loads as they come to grade and the share of them
    /// that acts.
    pub fn write(&self, model: &PostModel, sheet: &mut Worksheet) {
        sheet.section("Response of the post in the ground");
        sheet.remark(
            "By numerical solution of a beam-column on springs; movements at the level the loads \
             are given at.",
        );
        for source in model.springs().sources() {
            sheet.remark(format!("Springs: {source}."));
            let memory = source.mark == Mark::FromMemory;
            sheet.cautions = sheet
                .cautions
                .with_if(memory, crate::caution::Caution::FromMemory);
        }
        sheet.push(Step::given("EI", "flexural rigidity", model.rigidity()));
        sheet.push(
            Step::given("b", "width that bears on the ground", model.width())
                .shown_as(Measure::SectionLength),
        );
        sheet.push(Step::given("L", "depth", model.depth()));
        let (shear, moment) = model.loads_at_grade();
        sheet.push(Step::given("V", "shear of the loads at grade", shear));
        sheet.push(Step::given(
            "M",
            "moment of the loads at grade, of the post as it stood",
            moment,
        ));
        sheet.push(Step::given(
            "N",
            "axial compression, all along",
            model.axial,
        ));
        sheet.push(Step::given_number(
            "s",
            "share of shear and moment that acts",
            self.share(),
        ));
        let at = self.at_grade();
        let result = |step: Step| step.cite(&source::BEAM_COLUMN);
        sheet.push(result(
            Step::given("y0", "movement at grade", at.deflection).shown_as(Measure::SectionLength),
        ));
        sheet.push(result(Step::given(
            "theta0",
            "rotation at grade",
            at.rotation,
        )));
        sheet.push(result(
            Step::given("lean", "movement of the top", self.lean())
                .shown_as(Measure::SectionLength),
        ));
        sheet.push(result(Step::given(
            "zmax",
            "depth of the greatest moment",
            self.greatest_moment().depth,
        )));
        sheet.push(result(Step::given(
            "Mmax",
            "greatest moment at or below grade",
            self.greatest_moment().moment,
        )));
        if let Some(error) = self.error_estimate() {
            sheet.push(result(
                Step::given(
                    "ey",
                    "estimated error of the mesh in any movement",
                    error.deflection,
                )
                .shown_as(Measure::SectionLength),
            ));
            sheet.push(result(Step::given(
                "eM",
                "estimated error of the mesh in any moment",
                error.moment,
            )));
        }
    }
}
