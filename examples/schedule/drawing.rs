//! Drawings of the sheet, readable in black and white: patterns and labels say
//! what colour would.

pub(crate) mod elevation;
pub(crate) mod hole;

use groundline::utilization::Utilization;
use std::fmt::Write as _;
use svg::Node;
use svg::node::element::{Definitions, Element, Line, Path, Pattern, Rectangle, Text};

pub(crate) const INK: &str = "#111";

/// How far a post is used up, in four steps that print.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Shade {
    Light,
    Hatched,
    Crossed,
    Black,
}

impl Shade {
    pub(crate) const ALL: [(Self, &'static str); 4] = [
        (Self::Light, "up to 0.50"),
        (Self::Hatched, "up to 0.90"),
        (Self::Crossed, "up to 1.00"),
        (Self::Black, "above 1.00: FAILS"),
    ];

    pub(crate) fn of(utilization: Utilization) -> Self {
        match utilization.ratio() {
            _ if !utilization.passes() => Self::Black,
            ratio if ratio <= 0.5 => Self::Light,
            ratio if ratio <= 0.9 => Self::Hatched,
            _ => Self::Crossed,
        }
    }

    /// Its fill in a drawing whose patterns begin with `id`.
    pub(crate) fn fill(self, id: &str) -> String {
        match self {
            Self::Light => "#fff".to_owned(),
            Self::Hatched => format!("url(#{id}-hatched)"),
            Self::Crossed => format!("url(#{id}-crossed)"),
            Self::Black => INK.to_owned(),
        }
    }
}

/// The patterns of a drawing.
pub(crate) fn patterns(id: &str) -> Definitions {
    let pattern = |name: &str, strokes: &str| {
        Pattern::new()
            .set("id", format!("{id}-{name}"))
            .set("patternUnits", "userSpaceOnUse")
            .set("width", 6)
            .set("height", 6)
            .add(
                rectangle(0.0, 0.0, 6.0, 6.0)
                    .set("fill", "#fff")
                    .set("stroke", "none"),
            )
            .add(
                Path::new()
                    .set("d", strokes)
                    .set("stroke", INK)
                    .set("stroke-width", 1)
                    .set("fill", "none"),
            )
    };
    Definitions::new()
        .add(pattern("hatched", "M-1 1L1 -1M0 6L6 0M5 7L7 5"))
        .add(pattern(
            "crossed",
            "M-1 1L1 -1M0 6L6 0M5 7L7 5M-1 5L1 7M0 0L6 6M5 -1L7 1",
        ))
}

pub(crate) fn rectangle(x: f64, y: f64, width: f64, height: f64) -> Rectangle {
    Rectangle::new()
        .set("x", round(x))
        .set("y", round(y))
        .set("width", round(width.max(0.0)))
        .set("height", round(height.max(0.0)))
        .set("stroke", INK)
}

pub(crate) fn line(x1: f64, y1: f64, x2: f64, y2: f64) -> Line {
    Line::new()
        .set("x1", round(x1))
        .set("y1", round(y1))
        .set("x2", round(x2))
        .set("y2", round(y2))
        .set("stroke", INK)
}

pub(crate) fn label(x: f64, y: f64, size: u32, anchor: &str, text: impl Into<String>) -> Text {
    Text::new(text)
        .set("x", round(x))
        .set("y", round(y))
        .set("font-size", size)
        .set("text-anchor", anchor)
        .set("fill", INK)
}

/// A closed area.
pub(crate) fn area(points: &[(f64, f64)]) -> Path {
    Path::new()
        .set("d", strokes(points) + "Z")
        .set("stroke", INK)
        .set("stroke-width", 1)
}

/// The strokes along some points.
pub(crate) fn strokes(points: &[(f64, f64)]) -> String {
    let mut strokes = String::new();
    for (x, y) in points {
        let letter = if strokes.is_empty() { 'M' } else { 'L' };
        // Writing to a String cannot fail.
        let _ = write!(strokes, "{letter}{} {}", round(*x), round(*y));
    }
    strokes
}

/// An empty drawing of a size, with a title for those who cannot see it.
pub(crate) fn document(width: f64, height: f64, title: &str) -> Element {
    let mut svg = Element::new("svg");
    svg.assign("xmlns", "http://www.w3.org/2000/svg");
    svg.assign("viewBox", format!("0 0 {} {}", round(width), round(height)));
    svg.assign("role", "img");
    svg.assign("font-family", "sans-serif");
    svg.append(svg::node::element::Title::new(title));
    svg
}

fn round(value: f64) -> f64 {
    (value * 10.0).round() / 10.0
}
