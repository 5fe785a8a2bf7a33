//! The working of the wind on a piece of wall, line by line.

use super::{Strip, WallWind, WindCase, on_wall};
use crate::source;
use crate::step::{Step, Worksheet};
use crate::units::{Length, Measurable, Measure, Pressure};
use crate::wind::velocity_pressure::{DIRECTIONALITY, PrintedPressure};
use crate::wind::wall_shape::{WallEnd, cells_a_b};

impl WallWind {
    /// Writes the working for the force on the piece between two positions in
    /// one case.
    pub fn write(&self, case: WindCase, from: Length, to: Length, sheet: &mut Worksheet) {
        let shape = &self.shape;
        let from = Length::from_si(on_wall(from, 0.0, shape.length().value));
        let to = Length::from_si(on_wall(to, from.value, shape.length().value));
        let site = self.velocity_pressure.site();
        sheet.section("Wind on the tributary strip");
        sheet.push(
            Step::computed(
                "s",
                "height of the solid part",
                "h - c",
                shape.panel_height(),
            )
            .with("h", shape.top())
            .with("c", shape.clearance()),
        );
        sheet.push(
            Step::computed_number("s/h", "height ratio", "s/h", shape.s_over_h())
                .with("s", shape.panel_height())
                .with("h", shape.top()),
        );
        sheet.push(
            Step::computed_number("B/s", "length ratio", "B/s", shape.b_over_s())
                .with("B", shape.length())
                .with("s", shape.panel_height()),
        );
        sheet.push(
            Step::given_number("G", "gust-effect factor", site.gust_factor())
                .cite(&source::ASCE7_26_11),
        );
        sheet.push(
            Step::computed_number(
                "fo",
                "factor for openings",
                "1 - (1 - eps)^1.5",
                self.opening_factor,
            )
            .with_number("eps", shape.solidity())
            .cite(&source::ASCE7_WALL_OPENINGS),
        );
        sheet.push(Step::given(
            "x1",
            "tributary strip, from the start of the straight wall",
            from,
        ));
        sheet.push(Step::given("x2", "tributary strip, to", to));
        match case {
            WindCase::A | WindCase::BTowardsStart | WindCase::BTowardsEnd => {
                self.write_uniform(case, from, to, sheet);
            }
            WindCase::CFromStart | WindCase::CFromEnd => {
                self.write_strips(case, from, to, sheet);
            }
        }
    }

    /// Writes the height of the resultant.
    pub(crate) fn write_resultant(&self, sheet: &mut Worksheet) {
        let shape = &self.shape;
        let middle = shape.clearance() + shape.panel_height() * 0.5;
        let formula = if self.resultant_height() > middle {
            "max(0.55*h, c + s/2)"
        } else {
            "c + s/2"
        };
        let mut step = Step::computed(
            "hr",
            "height of the resultant above grade",
            formula,
            self.resultant_height(),
        )
        .with("c", shape.clearance())
        .with("s", shape.panel_height());
        if formula.contains('h') {
            step = step.with("h", shape.top());
        }
        sheet.push(step.cite(&source::ASCE7_WALL_RESULTANT));
    }

    fn write_uniform(&self, case: WindCase, from: Length, to: Length, sheet: &mut Worksheet) {
        let cells = cells_a_b(self.shape.s_over_h(), self.shape.b_over_s());
        sheet.push(
            Step::computed_number(
                "Cf",
                "force coefficient, Cases A and B: cells of rows r1, r2 (s/h) and columns b1, b2 \
                 (B/s), bilinear at r, b",
                "((C11*(r2 - r) + C21*(r - r1))*(b2 - b) + (C12*(r2 - r) + C22*(r - r1))*(b - b1))\
                 /((r2 - r1)*(b2 - b1))",
                self.cf,
            )
            .with_number("C11", cells.cf[0][0])
            .with_number("C12", cells.cf[0][1])
            .with_number("C21", cells.cf[1][0])
            .with_number("C22", cells.cf[1][1])
            .with_number("r1", cells.rows[0])
            .with_number("r2", cells.rows[1])
            .with_number("r", cells.s_over_h)
            .with_number("b1", cells.columns[0])
            .with_number("b2", cells.columns[1])
            .with_number("b", cells.b_over_s)
            .cite(
                self.velocity_pressure
                    .site()
                    .edition()
                    .wall_figure_citation(),
            ),
        );
        self.push_pressure("p", "pressure on gross area", self.cf, self.uniform, sheet);
        let force = self.force(case, from, to);
        let step = if case == WindCase::A {
            Step::computed(
                "W",
                "wind force, Case A",
                sheet.by_system("p*s*(x2 - x1)", "p*s*(x2 - x1)/1000"),
                force,
            )
        } else if case == WindCase::BTowardsStart {
            Step::computed(
                "W",
                "wind force, Case B, linear along the run, towards its start",
                sheet.by_system(
                    "p*s*(x2 - x1)*(1 + 2.4*(0.5 - (x1 + x2)/(2*B)))",
                    "p*s*(x2 - x1)*(1 + 2.4*(0.5 - (x1 + x2)/(2*B)))/1000",
                ),
                force,
            )
            .with("B", self.shape.length())
        } else {
            Step::computed(
                "W",
                "wind force, Case B, linear along the run, towards its end",
                sheet.by_system(
                    "p*s*(x2 - x1)*(1 + 2.4*((x1 + x2)/(2*B) - 0.5))",
                    "p*s*(x2 - x1)*(1 + 2.4*((x1 + x2)/(2*B) - 0.5))/1000",
                ),
                force,
            )
            .with("B", self.shape.length())
        };
        sheet.push(
            step.with_as("p", self.uniform, Measure::WindPressure)
                .with("s", self.shape.panel_height())
                .with("x1", from)
                .with("x2", to)
                .cite(if case == WindCase::A {
                    &source::ASCE7_WALL_FORCE
                } else {
                    &source::ASCE7_WALL_CASE_B
                }),
        );
    }

    fn write_strips(&self, case: WindCase, from: Length, to: Length, sheet: &mut Worksheet) {
        const PRESSURES: [&str; 7] = ["p1", "p2", "p3", "p4", "p5", "p6", "p7"];
        const WIDTHS: [&str; 7] = ["w1", "w2", "w3", "w4", "w5", "w6", "w7"];
        let held: Vec<(Strip, Length)> = self
            .strips(case)
            .filter_map(|strip| {
                let a = strip.from.value.max(from.value);
                let b = strip.to.value.min(to.value);
                (b > a).then(|| (strip, Length::from_si(b - a)))
            })
            .take(7)
            .collect();
        sheet.remark(format!(
            "Case C, windward edge at the {} of the straight wall; positions are from the start.",
            if case == WindCase::CFromStart {
                "start"
            } else {
                "end"
            }
        ));
        let ground = self.case_c.map_or(1.0, |c| c.ground_factor());
        let step = if ground < 1.0 {
            Step::computed_number("fg", "factor near the ground", "1.8 - s/h", ground)
                .with("s", self.shape.panel_height())
                .with("h", self.shape.top())
        } else {
            Step::given_number("fg", "factor near the ground, 1 for s/h up to 0.8", ground)
        };
        sheet.push(step.cite(&source::ASCE7_WALL_CASE_C));
        let edge = usize::from(case == WindCase::CFromEnd);
        self.write_return(edge, sheet);
        let products: Vec<_> = (0..held.len())
            .map(|i| format!("{}*{}", PRESSURES[i], WIDTHS[i]))
            .collect();
        let per_unit = sheet.by_system("", "/1000");
        let mut total = Step::computed(
            "W",
            "wind force, Case C, over the strips the post holds",
            format!("s*({}){per_unit}", products.join(" + ")),
            self.force(case, from, to),
        );
        for (i, (strip, width)) in held.iter().enumerate() {
            self.write_strip(case, strip, PRESSURES[i], sheet);
            total = total
                .with_as(PRESSURES[i], strip.pressure, Measure::WindPressure)
                .with(WIDTHS[i], *width);
        }
        sheet.push(
            total
                .with("s", self.shape.panel_height())
                .cite(&source::ASCE7_WALL_FORCE),
        );
    }

    fn write_return(&self, edge: usize, sheet: &mut Worksheet) {
        let at_corner = self.return_factors[edge];
        let end = [self.ends.start, self.ends.end][edge];
        if let WallEnd::Return(length) = end
            && at_corner < 1.0
        {
            let ratio = length.value / self.shape.panel_height().value;
            sheet.push(
                Step::computed_number("lr", "return length over s", "Lr/s", ratio)
                    .with("Lr", length)
                    .with("s", self.shape.panel_height()),
            );
            let step = if ratio < 0.3 {
                Step::given_number("fr", "factor of the short return, as chosen", at_corner)
            } else if ratio < 1.0 {
                Step::computed_number(
                    "fr",
                    "factor of the return corner, on the first strip",
                    "0.90 - 0.15*(lr - 0.3)/0.7",
                    at_corner,
                )
                .with_number("lr", ratio)
            } else {
                Step::computed_number(
                    "fr",
                    "factor of the return corner, on the first strip",
                    "0.75 - 0.15*min(lr - 1, 1)",
                    at_corner,
                )
                .with_number("lr", ratio)
            };
            sheet.push(step.cite(&source::ASCE7_WALL_RETURN));
        }
    }

    fn write_strip(
        &self,
        case: WindCase,
        strip: &Strip,
        symbol: &'static str,
        sheet: &mut Worksheet,
    ) {
        let ground = self.case_c.map_or(1.0, |c| c.ground_factor());
        let at_corner = self.return_factors[usize::from(case == WindCase::CFromEnd)];
        let at_edge = if case == WindCase::CFromStart {
            strip.from.value == 0.0
        } else {
            strip.to >= self.shape.length()
        };
        let corner = if at_edge { at_corner } else { 1.0 };
        let tabular = strip.cf / (ground * corner);
        let step = Step::computed_number(
            "Ctab",
            "tabular coefficient of the strip, Case C: columns b1, b2 (B/s), linear at b",
            "C1 + (C2 - C1)*(b - b1)/(b2 - b1)",
            tabular,
        );
        let step = match self.case_c.map(|c| c.columns(strip.region)) {
            Some((columns, b, cf)) => step
                .with_number("C1", cf[0])
                .with_number("C2", cf[1])
                .with_number("b1", columns[0])
                .with_number("b2", columns[1])
                .with_number("b", b),
            None => step,
        };
        sheet.push(
            step.with("from", strip.from)
                .with("to", strip.to)
                .cite(&source::ASCE7_WALL_CASE_C),
        );
        sheet.push(
            Step::computed_number(
                "Cf",
                "force coefficient of the strip",
                "Ctab*fg*fr",
                strip.cf,
            )
            .with_number("Ctab", tabular)
            .with_number("fg", ground)
            .with_number("fr", corner)
            .cite(&source::ASCE7_WALL_CASE_C),
        );
        self.push_pressure(
            symbol,
            "pressure of the strip on gross area",
            strip.cf,
            strip.pressure,
            sheet,
        );
    }

    fn push_pressure(
        &self,
        symbol: &'static str,
        meaning: &'static str,
        cf: f64,
        pressure: Pressure,
        sheet: &mut Worksheet,
    ) {
        let site = self.velocity_pressure.site();
        let (formula, q, kd) = match self.velocity_pressure.printed() {
            PrintedPressure::Directional(q) => ("max(q*G*Cf*fo, pmin)", q.pressure(), None),
            PrintedPressure::Undirected(q) => (
                "max(q*Kd*G*Cf*fo, pmin)",
                q.pressure(),
                Some(DIRECTIONALITY),
            ),
        };
        let mut step = Step::computed(symbol, meaning, formula, pressure)
            .shown_as(Measure::WindPressure)
            .with_as("q", q, Measure::WindPressure)
            .with_number("G", site.gust_factor())
            .with_number("Cf", cf)
            .with_number("fo", self.opening_factor)
            .with_as("pmin", site.minimum_pressure(), Measure::WindPressure);
        if let Some(kd) = kd {
            step = step.with_number("Kd", kd);
        }
        let floored = pressure == site.minimum_pressure();
        sheet.push(step.cite(if floored {
            &source::ASCE7_MINIMUM
        } else {
            &source::ASCE7_WALL_FORCE
        }));
    }
}
