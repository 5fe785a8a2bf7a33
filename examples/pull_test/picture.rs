//! Load against movement, a panel for each way of pulling, a stroke for each
//! setting, the knees marked.

use crate::readings::{Pull, Test};
use groundline::units::{Force, Length, Measurable, Measure, UnitSystem, show, show_as};
use svg::Document;
use svg::node::element::path::Data;
use svg::node::element::{Circle, Line, Path, Text};

const WIDTH: f64 = 380.0;
const HEIGHT: f64 = 260.0;
const LEFT: f64 = 80.0;
const TOP: f64 = 60.0;
const GAP: f64 = 100.0;
/// A stroke and a colour for each setting; after these they repeat.
const STROKES: [(&str, &str); 3] = [("none", "#1b4f72"), ("7 4", "#a04000"), ("2 3", "#1e8449")];

fn text(x: f64, y: f64, anchor: &str, content: impl Into<String>) -> Text {
    Text::new(content)
        .set("x", x)
        .set("y", y)
        .set("font-size", 12)
        .set("text-anchor", anchor)
        .set("fill", "#222")
}

fn rule(x1: f64, y1: f64, x2: f64, y2: f64) -> Line {
    Line::new()
        .set("x1", x1)
        .set("y1", y1)
        .set("x2", x2)
        .set("y2", y2)
        .set("stroke", "#888")
}

pub(crate) fn draw(tests: &[Test], system: UnitSystem) -> Document {
    let mut settings: Vec<&str> = Vec::new();
    for test in tests {
        if !settings.contains(&test.setting.as_str()) {
            settings.push(&test.setting);
        }
    }
    let (width, height) = (2.0 * (LEFT + WIDTH) + GAP * 0.5, TOP + HEIGHT + 90.0);
    let mut document = Document::new()
        .set("viewBox", (0, 0, width, height))
        .set("font-family", "sans-serif");
    let mut legend = LEFT;
    for (setting, (dash, colour)) in settings.iter().zip(STROKES.iter().cycle()) {
        let sample = rule(
            legend,
            TOP + HEIGHT + 65.0,
            legend + 30.0,
            TOP + HEIGHT + 65.0,
        )
        .set("stroke", *colour)
        .set("stroke-dasharray", *dash)
        .set("stroke-width", 2);
        document =
            document
                .add(sample)
                .add(text(legend + 36.0, TOP + HEIGHT + 69.0, "start", *setting));
        legend += 190.0;
    }
    let mut left = LEFT;
    for pull in [Pull::Out, Pull::Over] {
        let these: Vec<&Test> = tests.iter().filter(|test| test.pull == pull).collect();
        if !these.is_empty() {
            document = panel(document, &these, &settings, left, pull, system);
            left += WIDTH + GAP;
        }
    }
    document
}

fn panel(
    mut document: Document,
    tests: &[&Test],
    settings: &[&str],
    left: f64,
    pull: Pull,
    system: UnitSystem,
) -> Document {
    let all = || tests.iter().flat_map(|test| test.readings.all());
    let farthest = all().fold(1e-6, |most, (y, _)| y.value.max(most));
    let highest = all().fold(1e-6, |most, (_, p)| p.value.max(most));
    let across = |y: f64| left + WIDTH * y / farthest;
    let up = |p: f64| TOP + HEIGHT * (1.0 - p / highest);
    document = document
        .add(text(left, TOP - 20.0, "start", pull.title()))
        .add(rule(left, TOP + HEIGHT, left + WIDTH, TOP + HEIGHT))
        .add(rule(left, TOP, left, TOP + HEIGHT))
        .add(text(
            left + WIDTH * 0.5,
            TOP + HEIGHT + 40.0,
            "middle",
            "movement",
        ));
    for part in [0.25, 0.5, 0.75, 1.0] {
        let movement = Length::from_si(part * farthest);
        let load = Force::from_si(part * highest);
        let movement = show_as(movement, Measure::SectionLength, system)
            .significant(2)
            .to_string();
        document = document
            .add(text(
                across(part * farthest),
                TOP + HEIGHT + 18.0,
                "middle",
                movement,
            ))
            .add(text(
                left - 6.0,
                up(part * highest) + 4.0,
                "end",
                show(load, system).significant(2).to_string(),
            ));
    }
    for test in tests {
        let number = settings
            .iter()
            .position(|s| *s == test.setting)
            .unwrap_or(0);
        let (dash, colour) = STROKES[number % STROKES.len()];
        let mut data = Data::new().move_to((across(0.0), up(0.0)));
        for (y, p) in test.readings.all() {
            data = data.line_to((across(y.value), up(p.value)));
        }
        document = document.add(
            Path::new()
                .set("d", data)
                .set("fill", "none")
                .set("stroke", colour)
                .set("stroke-width", 1.6)
                .set("stroke-dasharray", dash),
        );
        if let Some(knee) = test.readings.knee() {
            document = document.add(
                Circle::new()
                    .set("cx", across(knee.movement.value))
                    .set("cy", up(knee.load.value))
                    .set("r", 3)
                    .set("fill", colour),
            );
        }
    }
    document
}
