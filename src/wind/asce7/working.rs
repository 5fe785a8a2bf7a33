//! The working of the wind on a wall to ASCE 7, line by line.

use super::open_figure::{OpenShape, reynolds};
use super::options::MinimumCase;
use super::site::AsceSite;
use super::velocity_pressure::{DIRECTIONALITY, PrintedPressure, VelocityPressure};
use super::wall_figure::cells_a_b;
use super::walls::{Open, Solid};
use crate::source;
use crate::step::{Step, Worksheet};
use crate::units::{Measure, Pressure, at_least, show};
use crate::wind::infill::Member;
use crate::wind::patterns::{Edge, Strip, WindCase};
use crate::wind::wall::WallEnd;
use crate::wind::wall_wind::WallWind;

impl WallWind<AsceSite> {
    pub(super) fn write_ratios(&self, sheet: &mut Worksheet) {
        let shape = self.shape();
        sheet.push(
            Step::given_number("G", "gust-effect factor", self.code().gust_factor())
                .cite(&source::ASCE7_26_11),
        );
        let least = self.code().minimum_pressure();
        let meaning = match self.code().options().minimum_case {
            MinimumCase::OwnCase => "minimum design pressure, a load case of its own",
            MinimumCase::EveryStrip => "minimum design pressure, a floor under every strip",
        };
        sheet.push(
            Step::given("pmin", meaning, least)
                .shown_as(Measure::WindPressure)
                .cite(&source::ASCE7_MINIMUM),
        );
        let Some(solid) = &self.working.solid else {
            sheet.remark("Openings of 30 % or more: the figure of open signs and frames.");
            return;
        };
        if self.working.open.is_some() {
            sheet.remark(
                "Near 30 % openings, or partly solid: both figures are computed and the worse \
                 counts.",
            );
        }
        let (foot, top) = shape.dense_part();
        if top - foot != shape.panel_height() {
            sheet.remark(format!(
                "Two infills: the figure is read with s and h of the more solid part, from {} to {} \
                 above grade.",
                show(foot, sheet.system),
                show(top, sheet.system)
            ));
        }
        sheet.push(
            Step::computed_number("s/h", "height ratio", "s/h", shape.dense_s_over_h())
                .with("s", top - foot)
                .with("h", top),
        );
        sheet.push(
            Step::computed_number("B/s", "length ratio", "B/s", shape.dense_b_over_s())
                .with("B", shape.length())
                .with("s", top - foot),
        );
        sheet.push(
            Step::computed_number(
                "fo",
                "factor for openings; eps of the most solid part",
                "1 - (1 - eps)^1.5",
                solid.opening_factor,
            )
            .with_number("eps", shape.densest())
            .cite(&source::ASCE7_WALL_OPENINGS),
        );
    }

    /// Writes the height of the resultant.
    pub(super) fn write_height(&self, sheet: &mut Worksheet) {
        let shape = self.shape();
        let (middle, height) = (shape.solid_height(), self.resultant_height());
        let ratio = (middle - shape.clearance()).value / shape.panel_height().value;
        let formula = if height > middle {
            "max(0.55*h, c + m*s)"
        } else {
            "c + m*s"
        };
        let mut step = Step::computed(
            "hr",
            "height of the resultant above grade; m s the middle of the solid area, m not below 0.5",
            formula,
            height,
        )
        .with("c", shape.clearance())
        .with("s", shape.panel_height())
        .with_number("m", ratio);
        if height > middle {
            step = step.with("h", shape.top());
        }
        sheet.push(step.cite(if self.working.solid.is_some() {
            &source::ASCE7_WALL_RESULTANT
        } else {
            &source::ASCE7_OPEN_SIGN
        }));
    }

    pub(super) fn write_case_a_b(&self, case: WindCase, sheet: &mut Worksheet) {
        let (solid, open) = (&self.working.solid, &self.working.open);
        if case == WindCase::Minimum {
            self.write_minimum(sheet);
            return;
        }
        let uniform = case == WindCase::Uniform;
        let both = uniform && solid.is_some() && open.is_some();
        if let Some(solid) = solid {
            self.write_cf(solid, sheet);
            let symbol = if both { "pw" } else { "p" };
            self.push_pressure(
                symbol,
                "pressure on gross area",
                solid.cf,
                solid.opening_factor,
                solid.uniform,
                sheet,
            );
        }
        if let Some(open) = open.as_ref().filter(|_| uniform) {
            self.write_open(open, if both { "po" } else { "p" }, sheet);
        }
        if let (true, Some(solid), Some(open)) = (both, solid, open) {
            let worse = if open.uniform > solid.uniform {
                open.uniform
            } else {
                solid.uniform
            };
            sheet.push(
                Step::computed("p", "the worse of both figures", "max(pw, po)", worse)
                    .shown_as(Measure::WindPressure)
                    .with_as("pw", solid.uniform, Measure::WindPressure)
                    .with_as("po", open.uniform, Measure::WindPressure)
                    .cite(&source::HAND_OVER),
            );
        }
    }

    fn write_minimum(&self, sheet: &mut Worksheet) {
        let Some(minimum) = self.pressures().minimum else {
            return;
        };
        let least = self.code().minimum_pressure();
        let step = if self.working.solid.is_some() {
            Step::computed(
                "p",
                "minimum design pressure on gross area",
                "pmin",
                minimum.pressure,
            )
        } else {
            Step::computed(
                "p",
                "minimum design pressure, on solid area, as a pressure on gross area",
                "pmin*eps",
                minimum.pressure,
            )
            .with_number("eps", self.shape().solidity())
        };
        sheet.push(
            step.shown_as(Measure::WindPressure)
                .with_as("pmin", least, Measure::WindPressure)
                .cite(&source::ASCE7_MINIMUM),
        );
    }

    fn write_open(&self, open: &Open, symbol: &'static str, sheet: &mut Worksheet) {
        let q = open.velocity_pressure.directional().pressure();
        if let Member::Round(diameter) = self.shape().member() {
            sheet.push(
                Step::computed_number(
                    "Dq",
                    "size of round members, D sqrt(q Kd) in ft and psf, against 2.5",
                    sheet.by_system("D*sqrt(q)/12", "D*sqrt(q/47.880259)/304.8"),
                    reynolds(diameter, q),
                )
                .with_as("D", diameter, Measure::SectionLength)
                .with_as("q", q, Measure::WindPressure)
                .cite(&source::ASCE7_OPEN_SIGN),
            );
        }
        let meaning = match open.shape {
            OpenShape::Flat => {
                "force coefficient on solid area, flat members, by solidity band (the worst of two infills)"
            }
            OpenShape::RoundSlow => {
                "force coefficient on solid area, round members at or below the limit, by band (the worst of two infills)"
            }
            OpenShape::RoundFast => {
                "force coefficient on solid area, round members above the limit, by band (the worst of two infills)"
            }
        };
        sheet.push(Step::given_number("Co", meaning, open.cf).cite(&source::ASCE7_OPEN_SIGN));
        let (q, kd) = printed(&open.velocity_pressure);
        let site = self.code();
        let floored = site.options().minimum_case == MinimumCase::EveryStrip;
        let formula = match (kd.is_some(), floored) {
            (true, false) => "q*Kd*G*Co*eps",
            (false, false) => "q*G*Co*eps",
            (true, true) => "max(q*Kd*G*Co, pmin)*eps",
            (false, true) => "max(q*G*Co, pmin)*eps",
        };
        let mut step = Step::computed(
            symbol,
            "pressure on gross area, open figure",
            formula,
            open.uniform,
        )
        .shown_as(Measure::WindPressure)
        .with_as("q", q, Measure::WindPressure)
        .with_number("G", site.gust_factor())
        .with_number("Co", open.cf)
        .with_number("eps", self.shape().solidity());
        if floored {
            step = step.with_as("pmin", site.minimum_pressure(), Measure::WindPressure);
        }
        if let Some(kd) = kd {
            step = step.with_number("Kd", kd);
        }
        sheet.push(step.cite(&source::ASCE7_OPEN_SIGN));
    }

    fn write_cf(&self, solid: &Solid, sheet: &mut Worksheet) {
        let cells = cells_a_b(self.shape().dense_s_over_h(), self.shape().dense_b_over_s());
        sheet.push(
            Step::computed_number(
                "Cf",
                "force coefficient, Cases A and B: cells of rows r1, r2 (s/h) and columns b1, b2 \
                 (B/s), bilinear at r, b",
                "((C11*(r2 - r) + C21*(r - r1))*(b2 - b) + (C12*(r2 - r) + C22*(r - r1))*(b - b1))\
                 /((r2 - r1)*(b2 - b1))",
                solid.cf,
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
            .cite(self.code().edition().wall_figure_citation()),
        );
    }

    pub(super) fn write_case_c(&self, case: WindCase, sheet: &mut Worksheet) {
        sheet.remark(
            "Strips from the windward edge: to s, 2 s, 3 s, 4 s, 5 s, 10 s, and beyond (to 3 s and \
             beyond where B/s is not above 10).",
        );
        let ground = self.case_c().map_or(1.0, |c| c.ground_factor());
        let (foot, top) = self.shape().dense_part();
        let step = if ground < 1.0 {
            Step::computed_number("fg", "factor near the ground", "1.8 - s/h", ground)
                .with("s", top - foot)
                .with("h", top)
        } else {
            Step::given_number("fg", "factor near the ground, 1 for s/h up to 0.8", ground)
        };
        sheet.push(step.cite(&source::ASCE7_WALL_CASE_C));
        self.write_return(case, sheet);
    }

    fn write_return(&self, case: WindCase, sheet: &mut Worksheet) {
        let at_corner = self.corner_factor(case);
        let end = match case.edge() {
            Some(Edge::End) => self.ends().end,
            _ => self.ends().start,
        };
        if let WallEnd::Return(length) = end
            && at_corner < 1.0
        {
            let ratio = length.value / self.shape().panel_height().value;
            sheet.push(
                Step::computed_number("lr", "return length over s", "Lr/s", ratio)
                    .with("Lr", length)
                    .with("s", self.shape().panel_height()),
            );
            let step = if !at_least(ratio, 0.3) {
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

    /// The factor of the return corner at the windward edge.
    fn corner_factor(&self, case: WindCase) -> f64 {
        let factors = self
            .working
            .solid
            .map_or([1.0; 2], |solid| solid.return_factors);
        factors[case.edge().map_or(0, Edge::index)]
    }

    pub(super) fn write_strip(
        &self,
        case: WindCase,
        strip: &Strip,
        symbol: &'static str,
        sheet: &mut Worksheet,
    ) {
        let ground = self.case_c().map_or(1.0, |c| c.ground_factor());
        let corner = if strip.zone == 0 {
            self.corner_factor(case)
        } else {
            1.0
        };
        let tabular = strip.coefficient / (ground * corner);
        let step = Step::computed_number(
            "Ctab",
            "tabular coefficient of the strip, Case C: columns b1, b2 (B/s), linear at b",
            "C1 + (C2 - C1)*(b - b1)/(b2 - b1)",
            tabular,
        );
        let step = match self.case_c().map(|c| c.columns(strip.zone)) {
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
                strip.coefficient,
            )
            .with_number("Ctab", tabular)
            .with_number("fg", ground)
            .with_number("fr", corner)
            .cite(&source::ASCE7_WALL_CASE_C),
        );
        self.push_pressure(
            symbol,
            "pressure of the strip on gross area",
            strip.coefficient,
            self.opening_factor().unwrap_or(1.0),
            strip.pressure,
            sheet,
        );
    }

    fn push_pressure(
        &self,
        symbol: &'static str,
        meaning: &'static str,
        cf: f64,
        opening_factor: f64,
        pressure: Pressure,
        sheet: &mut Worksheet,
    ) {
        let site = self.code();
        let (q, kd) = printed(&self.working.velocity_pressure);
        let floored = site.options().minimum_case == MinimumCase::EveryStrip;
        let formula = match (kd.is_some(), floored) {
            (true, false) => "q*Kd*G*Cf*fo",
            (false, false) => "q*G*Cf*fo",
            (true, true) => "max(q*Kd*G*Cf*fo, pmin)",
            (false, true) => "max(q*G*Cf*fo, pmin)",
        };
        let mut step = Step::computed(symbol, meaning, formula, pressure)
            .shown_as(Measure::WindPressure)
            .with_as("q", q, Measure::WindPressure)
            .with_number("G", site.gust_factor())
            .with_number("Cf", cf)
            .with_number("fo", opening_factor);
        if floored {
            step = step.with_as("pmin", site.minimum_pressure(), Measure::WindPressure);
        }
        if let Some(kd) = kd {
            step = step.with_number("Kd", kd);
        }
        sheet.push(
            step.cite(if floored && pressure == site.minimum_pressure() {
                &source::ASCE7_MINIMUM
            } else {
                &source::ASCE7_WALL_FORCE
            }),
        );
    }
}

/// q as the edition prints it, and Kd where it is not in it.
fn printed(q: &VelocityPressure) -> (Pressure, Option<f64>) {
    match q.printed() {
        PrintedPressure::Directional(q) => (q.pressure(), None),
        PrintedPressure::Undirected(q) => (q.pressure(), Some(DIRECTIONALITY)),
    }
}
