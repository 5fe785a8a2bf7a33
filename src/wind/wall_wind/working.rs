//! The working of the wind on a piece of wall: what is the same for every code.

use super::{WallWind, on_wall};
use crate::source::Citation;
use crate::step::{Step, Worksheet};
use crate::units::{Length, Measurable, Measure, Pressure};
use crate::wind::code::WindCode;
use crate::wind::patterns::{Edge, MOST_ZONES, Strip, WindCase};

/// A strip no wider than this, in m, is what rounding left of one.
const SLIVER: f64 = 1e-9;

impl<C: WindCode> WallWind<C> {
    /// Writes how the velocity pressure comes about.
    pub fn write_site(&self, sheet: &mut Worksheet) {
        C::write_site(self, sheet);
    }

    /// Writes the height of the resultant.
    pub(crate) fn write_resultant(&self, sheet: &mut Worksheet) {
        C::write_resultant(self, sheet);
    }

    /// Does it take the velocity pressure at the same heights?
    pub(crate) fn same_heights(&self, other: &Self) -> bool {
        C::reference_heights(&self.working) == C::reference_heights(&other.working)
    }

    /// Writes the working for the force on the piece between two positions in
    /// one case.
    pub fn write(&self, case: WindCase, from: Length, to: Length, sheet: &mut Worksheet) {
        let shape = &self.shape;
        let from = Length::from_si(on_wall(from, 0.0, shape.length().value));
        let to = Length::from_si(on_wall(to, from.value, shape.length().value));
        sheet.section("Wind on the tributary strip");
        sheet.remark(format!("Wind case: {}.", self.code.case_name(case)));
        sheet.push(
            Step::computed("s", "height of the panel", "h - c", shape.panel_height())
                .with("h", shape.top())
                .with("c", shape.clearance()),
        );
        C::write_shape(self, sheet);
        sheet.push(Step::given(
            "x1",
            "tributary strip, from the start of the straight wall",
            from,
        ));
        sheet.push(Step::given("x2", "tributary strip, to", to));
        match case {
            WindCase::Uniform | WindCase::OffCentre(_) => {
                C::write_uniform(self, case, sheet);
                self.write_one(case, from, to, sheet);
            }
            WindCase::Zones(edge) | WindCase::Along(edge) => {
                sheet.remark(format!(
                    "Windward edge at the {} of the straight wall; positions are from its start.",
                    edge.name()
                ));
                C::write_zones(self, case, sheet);
                self.write_many(case, from, to, sheet);
            }
        }
    }

    /// Writes the height of the resultant of a pressure that is the same over
    /// the height.
    pub(in crate::wind) fn write_mid_height(
        &self,
        clause: &'static Citation,
        sheet: &mut Worksheet,
    ) {
        let shape = &self.shape;
        let ratio =
            (self.resultant_height() - shape.clearance()).value / shape.panel_height().value;
        sheet.push(
            Step::computed(
                "hr",
                "height of the resultant above grade; m s the middle of the solid area, m not below 0.5",
                "c + m*s",
                self.resultant_height(),
            )
            .with("c", shape.clearance())
            .with_number("m", ratio)
            .with("s", shape.panel_height())
            .cite(clause),
        );
    }

    fn write_one(&self, case: WindCase, from: Length, to: Length, sheet: &mut Worksheet) {
        let force = self.force(case, from, to);
        let (pressure, off) = match (case, self.pressures.uniform, self.pressures.off_centre) {
            (WindCase::OffCentre(edge), _, Some(off)) => (off.pressure, Some((off, edge))),
            (_, Some(uniform), _) => (uniform.pressure, None),
            _ => (Pressure::from_si(0.0), None),
        };
        let step = match off {
            None => Step::computed(
                "W",
                "wind force",
                sheet.by_system("p*s*(x2 - x1)", "p*s*(x2 - x1)/1000"),
                force,
            ),
            Some((off, Edge::Start)) => Step::computed(
                "W",
                "wind force, e B off centre, linear along the wall, towards its start",
                sheet.by_system(
                    "p*s*(x2 - x1)*(1 + 12*e*(0.5 - (x1 + x2)/(2*B)))",
                    "p*s*(x2 - x1)*(1 + 12*e*(0.5 - (x1 + x2)/(2*B)))/1000",
                ),
                force,
            )
            .with("B", self.shape.length())
            .with_number("e", off.eccentricity),
            Some((off, Edge::End)) => Step::computed(
                "W",
                "wind force, e B off centre, linear along the wall, towards its end",
                sheet.by_system(
                    "p*s*(x2 - x1)*(1 + 12*e*((x1 + x2)/(2*B) - 0.5))",
                    "p*s*(x2 - x1)*(1 + 12*e*((x1 + x2)/(2*B) - 0.5))/1000",
                ),
                force,
            )
            .with("B", self.shape.length())
            .with_number("e", off.eccentricity),
        };
        sheet.push(
            step.with_as("p", pressure, Measure::WindPressure)
                .with("s", self.shape.panel_height())
                .with("x1", from)
                .with("x2", to)
                .cite(if off.is_some() {
                    &crate::source::LINEAR_SPREAD
                } else {
                    C::clause(self, case, 0)
                }),
        );
    }

    fn write_many(&self, case: WindCase, from: Length, to: Length, sheet: &mut Worksheet) {
        const PRESSURES: [&str; MOST_ZONES] = ["p1", "p2", "p3", "p4", "p5", "p6", "p7"];
        const WIDTHS: [&str; MOST_ZONES] = ["w1", "w2", "w3", "w4", "w5", "w6", "w7"];
        let held: Vec<(Strip, Length)> = self
            .strips(case)
            .filter_map(|strip| {
                let a = strip.from.value.max(from.value);
                let b = strip.to.value.min(to.value);
                (b - a > SLIVER).then(|| (strip, Length::from_si(b - a)))
            })
            .take(MOST_ZONES)
            .collect();
        let products: Vec<_> = (0..held.len())
            .map(|i| format!("{}*{}", PRESSURES[i], WIDTHS[i]))
            .collect();
        let per_unit = sheet.by_system("", "/1000");
        let sum = if products.is_empty() {
            "0".to_owned()
        } else {
            products.join(" + ")
        };
        let mut total = Step::computed(
            "W",
            "wind force over the zones the post holds",
            format!("s*({sum}){per_unit}"),
            self.force(case, from, to),
        );
        for (i, (strip, width)) in held.iter().enumerate() {
            C::write_zone(self, case, strip, PRESSURES[i], sheet);
            total = total
                .with_as(PRESSURES[i], strip.pressure, Measure::WindPressure)
                .with(WIDTHS[i], *width);
        }
        sheet.push(
            total
                .with("s", self.shape.panel_height())
                .cite(&crate::source::STATICS),
        );
    }
}
