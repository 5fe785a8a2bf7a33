//! The page as a picture: a chart a soil and hole, depth downwards, with its
//! numbers under the heights they belong to. Lines differ by their pattern and
//! carry their wind speed, so that the page survives a black-and-white printer.

use crate::study::{Curve, Outcome, Panels, Study, class_name};
use groundline::units::{Length, UnitSystem, ft, m};
use svg::Document;
use svg::node::element::path::Data;
use svg::node::element::{Circle, Group, Line, Path, Rectangle, Text};

const WIDTH: f64 = 850.0;
const LEFT: f64 = 40.0;
const CHART: f64 = 150.0;
const ROW: f64 = 10.5;
const INK: &str = "#111";
/// Patterns of lines, lightest wind first.
const PATTERNS: [(&str, f64); 5] = [
    ("none", 1.0),
    ("7 3", 1.3),
    ("2 2.5", 1.5),
    ("9 3 2 3", 1.7),
    ("none", 2.6),
];

fn text(x: f64, y: f64, size: f64, anchor: &str, content: impl Into<String>) -> Text {
    Text::new(content)
        .set("x", x)
        .set("y", y)
        .set("font-size", size)
        .set("text-anchor", anchor)
        .set("fill", INK)
}

fn bold(text: Text) -> Text {
    text.set("font-weight", "bold")
}

fn line(x1: f64, y1: f64, x2: f64, y2: f64, width: f64) -> Line {
    Line::new()
        .set("x1", x1)
        .set("y1", y1)
        .set("x2", x2)
        .set("y2", y2)
        .set("stroke", INK)
        .set("stroke-width", width)
}

fn stroke(data: Data, pattern: usize) -> Path {
    let (dash, width) = PATTERNS[pattern % PATTERNS.len()];
    Path::new()
        .set("d", data)
        .set("fill", "none")
        .set("stroke", INK)
        .set("stroke-width", width)
        .set("stroke-dasharray", dash)
}

/// A depth that no other stands beside: a line of one point would not be seen.
fn dot(x: f64, y: f64) -> Circle {
    Circle::new()
        .set("cx", x)
        .set("cy", y)
        .set("r", 2.2)
        .set("fill", INK)
}

/// Where a line ends because the post, or the ground under it, is too weak.
fn cross(x: f64, y: f64) -> Path {
    let data = Data::new()
        .move_to((x - 3.5, y - 3.5))
        .line_to((x + 3.5, y + 3.5))
        .move_to((x - 3.5, y + 3.5))
        .line_to((x + 3.5, y - 3.5));
    Path::new()
        .set("d", data)
        .set("fill", "none")
        .set("stroke", INK)
        .set("stroke-width", 1.6)
}

/// Where a line leaves the chart at 12 ft.
fn arrow(x: f64, y: f64) -> Path {
    let data = Data::new()
        .move_to((x - 4.0, y - 7.0))
        .line_to((x + 4.0, y - 7.0))
        .line_to((x, y))
        .close();
    Path::new()
        .set("d", data)
        .set("fill", "white")
        .set("stroke", INK)
        .set("stroke-width", 1.3)
}

/// Words in lines of at most so many letters.
fn wrapped(text: &str, letters: usize) -> Vec<String> {
    let mut lines = vec![String::new()];
    for word in text.split_whitespace() {
        let last = lines.len() - 1;
        if !lines[last].is_empty() && lines[last].chars().count() + word.chars().count() >= letters
        {
            lines.push(word.to_owned());
        } else {
            if !lines[last].is_empty() {
                lines[last].push(' ');
            }
            lines[last].push_str(word);
        }
    }
    lines
}

/// Writes paragraphs downwards and returns where the next line would stand.
fn paragraphs<'a>(
    page: &mut Group,
    texts: impl Iterator<Item = &'a str>,
    x: f64,
    mut y: f64,
    size: f64,
    letters: usize,
) -> f64 {
    for paragraph in texts {
        for (i, words) in wrapped(paragraph, letters).into_iter().enumerate() {
            let words = if i == 0 {
                format!("• {words}")
            } else {
                words
            };
            let indent = if i == 0 { 0.0 } else { size * 0.62 };
            *page = page.clone().add(text(x + indent, y, size, "start", words));
            y += size * 1.22;
        }
    }
    y
}

/// The page.
pub(crate) fn draw(study: &Study) -> Document {
    let columns = study.holes.len();
    let across = (WIDTH - LEFT - 20.0) / float(columns);
    let below = ROW * float(study.speeds.len());
    let down = CHART + below + 64.0;
    let mut page = Group::new()
        .add(bold(text(LEFT, 36.0, 20.0, "start", "How deep? Post holes for a fence in the wind")))
        .add(text(
            LEFT,
            54.0,
            10.5,
            "start",
            "Computed by one set of rules for one kind of fence. No substitute for the local code and a \
             licensed engineer; read the cautions below.",
        ));
    let mut y = paragraphs(
        &mut page,
        study.assumptions.iter().map(String::as_str),
        LEFT,
        72.0,
        8.6,
        175,
    );
    y += 10.0;
    page = legend(page, study, y);
    y += 26.0;
    for (i, panel) in study.panels.iter().enumerate() {
        let (row, column) = (i / columns, i % columns);
        let left = LEFT + across * float(column);
        let top = y + down * float(row);
        if column == 0 {
            let title = format!(
                "Soil class {}: {}",
                panel.class.number(),
                class_name(panel.class)
            );
            page = page
                .add(line(LEFT, top - 9.0, WIDTH - 20.0, top - 9.0, 0.6))
                .add(bold(text(LEFT, top + 4.0, 10.0, "start", title)));
        }
        page = page.add(draw_panel(study, panel, left, top + 20.0, across));
    }
    y += down * float(study.panels.len().div_ceil(columns)) + 2.0;
    page = page
        .add(line(LEFT, y - 11.0, WIDTH - 20.0, y - 11.0, 0.6))
        .add(bold(text(LEFT, y + 2.0, 10.0, "start", "Cautions")));
    let cautions: Vec<_> = study
        .cautions
        .iter()
        .map(groundline::caution::Caution::text)
        .collect();
    let half = cautions.len().div_ceil(2);
    let wide = (WIDTH - LEFT - 30.0) / 2.0;
    let ends = [&cautions[..half], &cautions[half..]].map(|part| part.iter().copied());
    let mut bottom = y;
    for (x, part) in [LEFT, LEFT + wide + 10.0].into_iter().zip(ends) {
        let end = paragraphs(&mut page, part, x, y + 14.0, 7.4, 97);
        bottom = bottom.max(end);
    }
    bottom += 6.0;
    let note = format!("groundline {}", env!("CARGO_PKG_VERSION"));
    page = page.add(text(WIDTH - 20.0, bottom + 4.0, 7.0, "end", note));
    Document::new()
        .set("viewBox", (0.0, 0.0, WIDTH, (bottom + 14.0).max(1100.0)))
        .set("font-family", "Helvetica, Arial, sans-serif")
        .add(
            Rectangle::new()
                .set("width", "100%")
                .set("height", "100%")
                .set("fill", "white"),
        )
        .add(page)
}

/// A small count as a coordinate.
fn float(count: usize) -> f64 {
    u16::try_from(count).map_or(f64::from(u16::MAX), f64::from)
}

fn legend(mut page: Group, study: &Study, y: f64) -> Group {
    let mut x = LEFT;
    page = page.add(bold(text(x, y + 3.0, 9.0, "start", "Wind speed")));
    x += 62.0;
    for (i, speed) in study.speeds.iter().enumerate() {
        let data = Data::new().move_to((x, y)).line_to((x + 34.0, y));
        page = page.add(stroke(data, i)).add(text(
            x + 38.0,
            y + 3.0,
            9.0,
            "start",
            format!("{} {}", study.speed(*speed), study.speed_unit()),
        ));
        x += 84.0;
    }
    let [weak, deep] = ["no depth will do", "deeper than 12 ft (3.66 m)"];
    page.add(cross(x + 6.0, y))
        .add(text(x + 14.0, y + 3.0, 9.0, "start", weak))
        .add(arrow(x + 104.0, y + 4.0))
        .add(text(x + 112.0, y + 3.0, 9.0, "start", deep))
}

fn draw_panel(study: &Study, panel: &Panels, left: f64, top: f64, across: f64) -> Group {
    let (from, to) = (left + 50.0, left + across - 28.0);
    let (first, last) = match (study.heights.first(), study.heights.last()) {
        (Some(first), Some(last)) => (first.value, last.value),
        _ => return Group::new(),
    };
    let range = if last > first { last - first } else { 1.0 };
    let x = move |height: Length| from + (height.value - first) / range * (to - from);
    let limit = ft(12.0);
    let y = move |depth: Length| top + 14.0 + depth.value / limit.value * CHART;
    let ground = y(Length::default());
    let bottom = y(limit);
    let word = study.depth_word();
    let size = study.size(panel.hole);
    let hole = format!("Hole {size} {}: depths in {word}", study.size_unit());
    let mut group = Group::new()
        .add(bold(text(from + 4.0, top + 8.0, 9.0, "start", hole)))
        .add(line(from, ground, to, ground, 1.8))
        .add(line(from, ground, from, bottom, 0.8))
        .add(line(from, bottom, to, bottom, 0.8));
    // Lines of depth, and the hatching of the ground.
    let marks: Vec<Length> = match study.system() {
        UnitSystem::Us => (0..=6_u8).map(|i| ft(2.0 * f64::from(i))).collect(),
        UnitSystem::Si => (0..=7_u8).map(|i| m(0.5 * f64::from(i))).collect(),
    };
    for depth in marks {
        if depth.value > 0.0 && depth < limit {
            group = group.add(line(from, y(depth), to, y(depth), 0.25));
        }
        group = group.add(text(
            from - 4.0,
            y(depth) + 3.0,
            8.0,
            "end",
            study.length(depth),
        ));
    }
    let head = format!("depth, {}", study.length_unit());
    group = group.add(text(from - 4.0, ground - 7.0, 7.0, "end", head));
    for height in &study.heights {
        group = group
            .add(line(x(*height), bottom, x(*height), bottom + 3.0, 0.8))
            .add(line(x(*height), ground, x(*height), bottom, 0.2))
            .add(bold(text(
                x(*height),
                bottom + 12.0,
                8.5,
                "middle",
                study.length(*height),
            )));
    }
    let head = format!("height, {}", study.length_unit());
    group = group.add(text(from - 15.0, bottom + 12.0, 7.0, "end", head));
    let mut labels = Vec::new();
    for (i, curve) in panel.curves.iter().enumerate() {
        group = draw_curve(group, curve, i, &x, &y, bottom);
        // Where the line ends.
        let mut depths = curve
            .points
            .iter()
            .filter_map(|(height, outcome)| match outcome {
                Outcome::Depth(depth) => Some((x(*height), y(*depth))),
                _ => None,
            });
        if let Some((at, down)) = depths.next_back() {
            labels.push((at, down, study.speed(curve.speed)));
        }
        let at = bottom + 14.0 + ROW * float(i + 1);
        let speed = format!("{} {}", study.speed(curve.speed), study.speed_unit());
        group = group.add(text(from - 15.0, at, 7.5, "end", speed));
        for (height, cell) in study.heights.iter().zip(&curve.cells) {
            group = match cell {
                Outcome::Depth(_) => {
                    group.add(text(x(*height), at, 8.5, "middle", study.cell(cell)))
                }
                Outcome::TooDeep => group.add(arrow(x(*height), at).set("stroke-width", 0.9)),
                Outcome::PostTooWeak | Outcome::BaseTooWeak => {
                    group.add(cross(x(*height), at - 3.0).set("stroke-width", 1.1))
                }
            };
        }
    }
    labels.sort_by(|a, b| a.1.total_cmp(&b.1));
    let mut placed: Vec<(f64, f64)> = Vec::new();
    for (at, down, speed) in labels {
        let (at, mut down) = (at + 6.0, (down + 3.0).min(bottom - 10.0));
        // Moved down until it is clear of those placed.
        while placed
            .iter()
            .any(|(x, y)| (x - at).abs() < 20.0 && (y - down).abs() < 8.0)
        {
            down += 2.0;
        }
        placed.push((at, down));
        group = group.add(text(at, down, 7.5, "start", speed));
    }
    group
}

/// A line over the heights at which a depth holds, and what ends it.
fn draw_curve(
    mut group: Group,
    curve: &Curve,
    pattern: usize,
    x: &impl Fn(Length) -> f64,
    y: &impl Fn(Length) -> f64,
    bottom: f64,
) -> Group {
    let mut data: Option<Data> = None;
    let mut before: Option<(f64, f64)> = None;
    // The first point of a line, as long as it is the only one.
    let mut alone: Option<(f64, f64)> = None;
    for (height, outcome) in &curve.points {
        match (outcome, before) {
            (Outcome::Depth(depth), _) => {
                let at = (x(*height), y(*depth));
                alone = data.is_none().then_some(at);
                data = Some(match data.take() {
                    Some(data) => data.line_to(at),
                    None => Data::new().move_to(at),
                });
                before = Some(at);
            }
            (Outcome::TooDeep, Some(at)) => {
                group = group.add(arrow(at.0, bottom));
                before = None;
            }
            (Outcome::PostTooWeak | Outcome::BaseTooWeak, Some(at)) => {
                group = group.add(cross(at.0, at.1));
                before = None;
            }
            (_, None) => {}
        }
        if before.is_none()
            && let Some(data) = data.take()
        {
            group = drawn(group, data, alone.take(), pattern);
        }
    }
    match data {
        Some(data) => drawn(group, data, alone, pattern),
        None => group,
    }
}

/// A line, or a dot where it has but one point.
fn drawn(group: Group, data: Data, alone: Option<(f64, f64)>, pattern: usize) -> Group {
    match alone {
        Some((x, y)) => group.add(dot(x, y)),
        None => group.add(stroke(data, pattern)),
    }
}
