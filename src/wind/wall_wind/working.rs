//! The working of the wind on a piece of wall: what is the same for every code.

use super::{HalfBays, WallWind, on_wall};
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
    /// one case ([`WallWind::force`]).
    pub fn write(&self, case: WindCase, from: Length, to: Length, sheet: &mut Worksheet) {
        self.write_piece(case, from, to, None, sheet);
    }

    /// Writes the working for the force on a post in one case ([`WallWind::on_post`]).
    pub fn write_on_post(&self, case: WindCase, bays: &HalfBays, sheet: &mut Worksheet) {
        self.write_piece(case, bays.from, bays.to, Some(bays.post), sheet);
    }

    fn write_piece(
        &self,
        case: WindCase,
        from: Length,
        to: Length,
        post: Option<Length>,
        sheet: &mut Worksheet,
    ) {
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
            WindCase::Uniform | WindCase::Minimum => {
                C::write_uniform(self, case, sheet);
                self.write_even(case, from, to, sheet);
            }
            WindCase::OffCentre(edge) => {
                C::write_uniform(self, case, sheet);
                self.write_off_centre(edge, from, to, post, sheet);
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

    fn write_even(&self, case: WindCase, from: Length, to: Length, sheet: &mut Worksheet) {
        let pattern = match case {
            WindCase::Minimum => self.pressures.minimum,
            _ => self.pressures.uniform,
        };
        let pressure = pattern.map_or(Pressure::from_si(0.0), |pattern| pattern.pressure);
        sheet.push(
            Step::computed(
                "W",
                "wind force",
                sheet.by_system("p*s*(x2 - x1)", "p*s*(x2 - x1)/1000"),
                self.force(case, from, to),
            )
            .with_as("p", pressure, Measure::WindPressure)
            .with("s", self.shape.panel_height())
            .with("x1", from)
            .with("x2", to)
            .cite(C::clause(self, case, 0)),
        );
    }

    /// Writes the force off centre towards an edge: on a piece, or as the reactions of
    /// the two bays of a post.
    fn write_off_centre(
        &self,
        edge: Edge,
        from: Length,
        to: Length,
        post: Option<Length>,
        sheet: &mut Worksheet,
    ) {
        let Some(off) = self.pressures.off_centre else {
            return;
        };
        let length = self.shape.length();
        let case = WindCase::OffCentre(edge);
        let post = post.map(|post| Length::from_si(on_wall(post, from.value, length.value)));
        // The linear factor at x, from either edge.
        let at = |x: &str| match edge {
            Edge::Start => format!("(1 + 12*e*(0.5 - {x}))"),
            Edge::End => format!("(1 + 12*e*({x} - 0.5))"),
        };
        let per_unit = sheet.by_system("", "/1000");
        let (formula, force) = match post {
            None => (
                format!("p*s*(x2 - x1)*{}{per_unit}", at("(x1 + x2)/(2*B)")),
                self.force(case, from, to),
            ),
            Some(post) => (
                format!(
                    "p*s*((xp - x1)*{} + (x2 - xp)*{}){per_unit}",
                    at("(xp + 2*x1)/(3*B)"),
                    at("(xp + 2*x2)/(3*B)")
                ),
                self.on_post(case, &HalfBays { from, post, to }),
            ),
        };
        let meaning = match (edge, post.is_some()) {
            (Edge::Start, false) => {
                "wind force, e B off centre, linear along the wall, towards its start"
            }
            (Edge::End, false) => {
                "wind force, e B off centre, linear along the wall, towards its end"
            }
            (Edge::Start, true) => {
                "wind force, e B off centre towards the start, linear along the wall; reactions \
                 of the two bays as simple spans"
            }
            (Edge::End, true) => {
                "wind force, e B off centre towards the end, linear along the wall; reactions of \
                 the two bays as simple spans"
            }
        };
        let mut step = Step::computed("W", meaning, formula, force)
            .with("B", length)
            .with_number("e", off.eccentricity)
            .with_as("p", off.pressure, Measure::WindPressure)
            .with("s", self.shape.panel_height())
            .with("x1", from)
            .with("x2", to);
        if let Some(post) = post {
            sheet.push(Step::given("xp", "position of the post", post));
            step = step.with("xp", post);
        }
        sheet.push(step.cite(&crate::source::LINEAR_SPREAD));
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
