//! The calculation sheet: one HTML file without anything from outside.

/// Appends to a String, which cannot fail.
macro_rules! put {
    ($out:expr, $($argument:tt)*) => {{
        use std::fmt::Write as _;
        let _ = write!($out, $($argument)*);
    }};
}

mod figures;
mod parts;
mod result;
mod tables;
mod working;

use super::sheet::Sheet;

/// Text as it stands in HTML, and in an attribute.
pub(crate) fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out += "&amp;",
            '<' => out += "&lt;",
            '>' => out += "&gt;",
            '"' => out += "&quot;",
            '\'' => out += "&#39;",
            // What HTML has no place for.
            c if c.is_control() && c != '\n' && c != '\t' => out.push('\u{fffd}'),
            c => out.push(c),
        }
    }
    out
}

/// A number, with its value in full.
fn number(key: &str, value: f64, unit: &str, shown: &str) -> String {
    format!(
        "<data class=\"number\" value=\"{value}\" data-field=\"{key}\" data-value=\"{value}\" \
         data-unit=\"{unit}\">{}</data>",
        escape(shown)
    )
}

/// The page.
pub(crate) fn page(sheet: &Sheet<'_>) -> String {
    let title = escape(&sheet.job.title);
    let paper = match sheet.system() {
        groundline::units::UnitSystem::Us => "letter",
        groundline::units::UnitSystem::Si => "A4",
    };
    let style = include_str!("style.css").replace("PAPER", paper);
    let mut out = format!(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n<meta \
         name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n<title>{title}: \
         post schedule</title>\n<style>\n{style}</style>\n</head>\n<body>\n<main>\n"
    );
    parts::head(&mut out, sheet);
    result::at_a_glance(&mut out, sheet);
    parts::cautions(&mut out, sheet);
    parts::review(&mut out);
    tables::posts(&mut out, sheet);
    tables::more(&mut out, sheet);
    tables::quantities(&mut out, sheet);
    figures::elevations(&mut out, sheet);
    figures::hole(&mut out, sheet);
    working::worksheets(&mut out, sheet);
    parts::assumptions(&mut out, sheet);
    parts::inputs(&mut out, sheet);
    out += "</main>\n</body>\n</html>\n";
    out
}
