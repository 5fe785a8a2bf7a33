//! Deflection, moment, shear and soil reaction along a post, side by side, as
//! an engineer draws them: depth downwards, grade hatched.

use groundline::response::{Response, Station};
use groundline::units::{Length, Measure, UnitSystem, show, show_as};
use svg::Document;
use svg::node::element::path::Data;
use svg::node::element::{Group, Line, Path, Rectangle, Text};

const PANEL: f64 = 170.0;
const GAP: f64 = 30.0;
const HEIGHT: f64 = 520.0;
const TOP: f64 = 80.0;
const LEFT: f64 = 70.0;

/// One diagram: its name, its values in SI, and how its extreme is told.
struct Diagram {
    name: &'static str,
    value: fn(&Station) -> f64,
    tell: fn(&Station, UnitSystem) -> String,
}

const DIAGRAMS: [Diagram; 4] = [
    Diagram {
        name: "deflection",
        value: |s| s.deflection.value,
        tell: |s, system| {
            show_as(s.deflection, Measure::SectionLength, system)
                .significant(3)
                .to_string()
        },
    },
    Diagram {
        name: "moment",
        value: |s| s.moment.value,
        tell: |s, system| show(s.moment, system).significant(3).to_string(),
    },
    Diagram {
        name: "shear",
        value: |s| s.shear.value,
        tell: |s, system| show(s.shear, system).significant(3).to_string(),
    },
    Diagram {
        name: "soil reaction",
        value: |s| s.reaction.value,
        tell: |s, system| show(s.reaction, system).significant(3).to_string(),
    },
];

fn text(x: f64, y: f64, size: f64, anchor: &str, content: impl Into<String>) -> Text {
    Text::new(content)
        .set("x", x)
        .set("y", y)
        .set("font-size", size)
        .set("text-anchor", anchor)
        .set("fill", "#222")
}

fn line(x1: f64, y1: f64, x2: f64, y2: f64, width: f64) -> Line {
    Line::new()
        .set("x1", x1)
        .set("y1", y1)
        .set("x2", x2)
        .set("y2", y2)
        .set("stroke", "#222")
        .set("stroke-width", width)
}

/// The picture of a response.
pub(crate) fn draw(response: &Response, width: Length, system: UnitSystem) -> Document {
    let stations = response.stations();
    let (top, toe) = (response.at_top().depth.value, response.at_toe().depth.value);
    let scale = HEIGHT / (toe - top);
    let y = move |depth: f64| TOP + (depth - top) * scale;
    let total = LEFT + 5.0 * (PANEL + GAP);
    let mut document = Document::new()
        .set("viewBox", (0.0, 0.0, total, TOP + HEIGHT + 50.0))
        .set("font-family", "sans-serif")
        .add(
            Rectangle::new()
                .set("width", "100%")
                .set("height", "100%")
                .set("fill", "white"),
        )
        .add(text(
            LEFT,
            26.0,
            17.0,
            "start",
            "A post in the ground under service load",
        ))
        .add(text(
            LEFT,
            46.0,
            12.0,
            "start",
            "No substitute for the local code and a licensed engineer.",
        ));

    // Grade across all panels, hatched.
    let grade = y(0.0);
    document = document.add(line(LEFT - 30.0, grade, total - GAP, grade, 1.5));
    let mut hatch = Data::new();
    let mut x = LEFT - 26.0;
    while x < total - GAP - 8.0 {
        hatch = hatch
            .move_to((x, grade + 9.0))
            .line_to((x + 8.0, grade + 1.0));
        x += 16.0;
    }
    document = document.add(
        Path::new()
            .set("d", hatch)
            .set("stroke", "#888")
            .set("stroke-width", 1)
            .set("fill", "none"),
    );

    // The post itself, its footing drawn to scale.
    let middle = LEFT + PANEL / 2.0;
    let half = (width.value * scale / 2.0).min(PANEL / 2.0);
    document = document
        .add(
            Rectangle::new()
                .set("x", middle - half)
                .set("y", grade)
                .set("width", 2.0 * half)
                .set("height", y(toe) - grade)
                .set("fill", "#ddd")
                .set("stroke", "#222"),
        )
        .add(line(middle, y(top), middle, y(toe), 4.0))
        .add(text(middle, TOP - 12.0, 13.0, "middle", "post"))
        .add(text(
            LEFT - 34.0,
            y(toe),
            11.0,
            "end",
            show(response.at_toe().depth, system)
                .significant(3)
                .to_string(),
        ))
        .add(text(LEFT - 34.0, grade + 4.0, 11.0, "end", "grade"));
    if top < 0.0 {
        let height = show(-response.at_top().depth, system)
            .significant(3)
            .to_string();
        document = document.add(text(LEFT - 34.0, y(top) + 4.0, 11.0, "end", height));
    }

    for (i, diagram) in (0_u8..).zip(&DIAGRAMS) {
        let from = LEFT + (f64::from(i) + 1.0) * (PANEL + GAP);
        document = document.add(panel(diagram, stations, from, &y, system));
    }
    document
}

fn panel(
    diagram: &Diagram,
    stations: &[Station],
    from: f64,
    y: &dyn Fn(f64) -> f64,
    system: UnitSystem,
) -> Group {
    let values = stations.iter().map(diagram.value);
    let most = values
        .clone()
        .fold(0.0_f64, |m, v| m.max(v.abs()))
        .max(1e-300);
    let zero = from + PANEL / 2.0;
    let x = |value: f64| zero + value / most * (PANEL / 2.0 - 8.0);
    let mut data = Data::new().move_to((zero, y(stations[0].depth.value)));
    for station in stations {
        data = data.line_to((x((diagram.value)(station)), y(station.depth.value)));
    }
    let last = stations[stations.len() - 1].depth.value;
    data = data.line_to((zero, y(last))).close();
    let mut group = Group::new()
        .add(text(zero, TOP - 12.0, 13.0, "middle", diagram.name))
        .add(
            Path::new()
                .set("d", data)
                .set("fill", "#cfe0ee")
                .set("stroke", "#1f4e79")
                .set("stroke-width", 1.5),
        )
        .add(line(zero, y(stations[0].depth.value), zero, y(last), 1.0));
    // The extreme, told where it is.
    let extreme = stations.iter().max_by(|a, b| {
        let (a, b) = ((diagram.value)(a).abs(), (diagram.value)(b).abs());
        a.total_cmp(&b)
    });
    if let Some(station) = extreme {
        let at = y(station.depth.value);
        // Below the line where it would meet the name above.
        let label = if at < TOP + 16.0 { at + 14.0 } else { at - 5.0 };
        group = group
            .add(line(zero, at, x((diagram.value)(station)), at, 1.0))
            .add(text(
                zero,
                label,
                11.0,
                "middle",
                (diagram.tell)(station, system),
            ));
    }
    group
}
