//! The fence from the side, run by run: wind pressure case by case above, the
//! posts below, each hole filled by how far its post is used up. Long runs are
//! cut into pieces that share a post.

use super::super::rows::{Row, tape};
use super::{Shade, area, document, label, line, patterns, rectangle};
use groundline::actions::PressurePicture;
use groundline::fence::{FencePost, FenceRun};
use groundline::units::{Length, Measure, UnitSystem, m, pa, show_as};
use groundline::wind::WindCase;
use svg::Node;
use svg::node::element::Element;

const LEFT: f64 = 96.0;
const WIDTH: f64 = 900.0;
const RIGHT: f64 = 40.0;
const BAND: f64 = 46.0;
const FENCE: f64 = 90.0;
/// Bays in one piece of a run.
const BAYS: usize = 12;

/// One run and what is drawn of it.
pub(crate) struct RunPicture<'a> {
    pub(crate) index: usize,
    pub(crate) run: &'a FenceRun,
    pub(crate) posts: &'a [FencePost],
    pub(crate) rows: &'a [Row],
    pub(crate) pressure: Option<&'a PressurePicture>,
    pub(crate) system: UnitSystem,
}

/// The frame of one piece: metres to units of the drawing.
struct Frame {
    id: String,
    from: f64,
    to: f64,
    across: f64,
    up: f64,
    grade: f64,
    system: UnitSystem,
}

impl Frame {
    fn x(&self, at: f64) -> f64 {
        LEFT + (at - self.from) * self.across
    }

    fn y(&self, height: f64) -> f64 {
        self.grade - height * self.up
    }
}

impl RunPicture<'_> {
    /// The pieces of the run, at most so many.
    pub(crate) fn pieces(&self, most: usize) -> Vec<Element> {
        let mut stations: Vec<(f64, &Row)> = Vec::new();
        for post in self.posts {
            for arm in post.arms().filter(|arm| arm.run == self.index) {
                if let Some(row) = self.rows.get(post.number - 1) {
                    stations.push((arm.at.value, row));
                }
            }
        }
        let mut starts: Vec<usize> = (0..stations.len().max(2) - 1).step_by(BAYS).collect();
        starts.truncate(most);
        let spans = |start: usize| &stations[start..(start + BAYS + 1).min(stations.len())];
        let length = |piece: &[(f64, &Row)]| match piece {
            [first, .., last] => last.0 - first.0,
            _ => 0.0,
        };
        // Every piece of a run is drawn to one scale.
        let longest = starts.iter().map(|s| length(spans(*s))).fold(0.0, f64::max);
        let deepest = stations
            .iter()
            .flat_map(|(_, row)| [Some(row.required), row.planned])
            .flatten()
            .fold(0.0, |deepest: f64, depth| deepest.max(depth.value));
        let count = starts.len();
        let pieces = starts.into_iter().enumerate().map(|(piece, start)| {
            let stations = spans(start);
            let cases = self.cases();
            let top = 26.0 + BAND * f64::from(u32::try_from(cases.len()).unwrap_or(0));
            let up = FENCE / self.run.panel().top().value;
            // A hole far deeper than the fence is high is cut off.
            let below = (deepest * up).min(3.0 * FENCE);
            let frame = Frame {
                id: format!("run{}-{}", self.index + 1, piece + 1),
                from: stations.first().map_or(0.0, |s| s.0),
                to: stations.last().map_or(0.0, |s| s.0),
                across: WIDTH / longest.max(0.1),
                up,
                grade: top + 20.0 + FENCE,
                system: self.system,
            };
            let title = format!("Run {}, piece {} of {count}", self.index + 1, piece + 1);
            let height = frame.grade + below + 60.0;
            let mut svg = document(LEFT + WIDTH + RIGHT, height, &title);
            svg.append(patterns(&frame.id));
            for (band, case) in cases.iter().enumerate() {
                let base = 26.0 + BAND * f64::from(u32::try_from(band + 1).unwrap_or(0)) - 8.0;
                self.band(&mut svg, &frame, *case, base);
            }
            self.fence(&mut svg, &frame);
            for (at, row) in stations {
                post(&mut svg, &frame, *at, row, below);
            }
            svg
        });
        pieces.collect()
    }

    fn cases(&self) -> Vec<WindCase> {
        let mut cases = Vec::new();
        for strip in self.pressure.iter().flat_map(|picture| &picture.strips) {
            if !cases.contains(&strip.case) {
                cases.push(strip.case);
            }
        }
        cases
    }

    /// The pressure of one case along the piece.
    fn band(&self, svg: &mut Element, frame: &Frame, case: WindCase, base: f64) {
        let Some(picture) = self.pressure else { return };
        let strips = || picture.strips.iter();
        let most = strips()
            .flat_map(|strip| [strip.pressure, strip.pressure_at_to])
            .fold(0.0, |most: f64, pressure| most.max(pressure.value.abs()));
        let scale = (BAND - 22.0) / most.max(1e-9);
        let name = strips()
            .find(|strip| strip.case == case)
            .map_or("", |s| s.case_name);
        svg.append(label(6.0, base - 10.0, 12, "start", name));
        if let Some(edge) = case.edge() {
            let text = format!("from its {}", edge.name());
            svg.append(label(6.0, base + 3.0, 10, "start", text));
        }
        svg.append(
            line(frame.x(frame.from), base, frame.x(frame.to), base).set("stroke-width", 0.6),
        );
        for strip in strips().filter(|strip| strip.case == case) {
            let (from, to) = (strip.from.value, strip.to.value);
            let (a, b) = (from.max(frame.from), to.min(frame.to));
            if b - a < 1e-9 {
                continue;
            }
            let at = |x: f64| {
                let share = (x - from) / (to - from);
                let (one, other) = (strip.pressure.value, strip.pressure_at_to.value);
                one + (other - one) * share
            };
            let (p_from, p_to) = (at(a), at(b));
            let (xa, xb) = (frame.x(a), frame.x(b));
            let corners = [
                (xa, base),
                (xa, base - p_from * scale),
                (xb, base - p_to * scale),
                (xb, base),
            ];
            svg.append(area(&corners).set("fill", "#ddd").set("stroke-width", 0.8));
            let value = |p: f64| {
                show_as(pa(p), Measure::WindPressure, frame.system)
                    .significant(3)
                    .to_string()
            };
            let even = (p_from - p_to).abs() < 1e-9 * most;
            let (wide, room) = (xb - xa, if even { 44.0 } else { 100.0 });
            if wide < room {
                continue;
            }
            if even {
                let top = base - p_from.max(0.0) * scale - 3.0;
                svg.append(label(
                    f64::midpoint(xa, xb),
                    top,
                    10,
                    "middle",
                    value(p_from),
                ));
            } else {
                for (x, p, anchor) in [(xa + 2.0, p_from, "start"), (xb - 2.0, p_to, "end")] {
                    let top = base - p.max(0.0) * scale - 3.0;
                    svg.append(label(x, top, 10, anchor, value(p)));
                }
            }
        }
    }

    fn fence(&self, svg: &mut Element, frame: &Frame) {
        let panel = self.run.panel();
        let (left, right) = (frame.x(frame.from), frame.x(frame.to));
        let (top, foot) = (frame.y(panel.top().value), frame.y(panel.clearance().value));
        let boards = rectangle(left, top, right - left, foot - top);
        svg.append(boards.set("fill", "#f3f3f3").set("stroke-width", 0.8));
        for gate in self.run.gates() {
            let (a, b) = (
                gate.at().value.max(frame.from),
                gate.end().value.min(frame.to),
            );
            if b - a < 1e-9 {
                continue;
            }
            let (a, b) = (frame.x(a), frame.x(b));
            svg.append(rectangle(a, top, b - a, foot - top).set("fill", "#fff"));
            svg.append(line(a, foot, b, top).set("stroke-width", 0.6));
            svg.append(line(a, top, b, foot).set("stroke-width", 0.6));
            let middle = f64::midpoint(a, b);
            let plate = rectangle(middle - 17.0, f64::midpoint(top, foot) - 9.0, 34.0, 15.0);
            svg.append(plate.set("fill", "#fff").set("stroke", "none"));
            let y = f64::midpoint(top, foot) + 3.0;
            svg.append(label(middle, y, 12, "middle", "gate"));
        }
        let grade = line(left - 26.0, frame.grade, right + 26.0, frame.grade);
        svg.append(grade.set("stroke-width", 2));
        let height = show_as(panel.top(), Measure::Length, frame.system).to_string();
        svg.append(label(6.0, f64::midpoint(top, foot), 12, "start", height));
        svg.append(label(
            6.0,
            f64::midpoint(top, foot) + 13.0,
            10,
            "start",
            "high",
        ));
    }
}

/// One post: hole, number, utilization, place.
fn post(svg: &mut Element, frame: &Frame, at: f64, row: &Row, below: f64) {
    let x = frame.x(at);
    let depth = |length: Length| (length.value * frame.up).min(below);
    let size = row.hole.map_or(0.0, |(_, size)| size.value);
    let half = (size * frame.across * 0.5).clamp(5.0, 18.0);
    let planned = depth(row.planned.unwrap_or(row.required));
    let required = depth(row.required);
    let fill = Shade::of(row.utilization).fill(&frame.id);
    let hole = rectangle(x - half, frame.grade, 2.0 * half, planned);
    svg.append(hole.set("fill", fill).set("stroke-width", 1.2));
    let top = frame.grade - FENCE;
    svg.append(line(x, top, x, frame.grade).set("stroke-width", 3));
    let needed = line(
        x - half - 7.0,
        frame.grade + required,
        x + half + 7.0,
        frame.grade + required,
    );
    svg.append(
        needed
            .set("stroke-width", 1.6)
            .set("stroke-dasharray", "5 2"),
    );
    let number = format!("{}{}", row.number, if row.dug.is_some() { "†" } else { "" });
    svg.append(label(x, top - 5.0, 13, "middle", number).set("font-weight", "bold"));
    let foot = frame.grade + below + 14.0;
    let utilization = label(x, foot, 12, "middle", row.utilization.to_string());
    svg.append(utilization);
    if !row.failing.is_empty() {
        let fails = label(x, foot + 13.0, 11, "middle", "FAILS");
        svg.append(fails.set("font-weight", "bold"));
    }
    if !row.refused.is_empty() {
        let part = label(x, foot + 40.0, 9, "middle", "IN PART");
        svg.append(part.set("font-weight", "bold"));
    }
    let place = tape(m(at), frame.system);
    let place = label(x, foot + 27.0, 10, "middle", place);
    svg.append(place);
}
