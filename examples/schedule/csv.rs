//! The schedule as a CSV that a spreadsheet opens: RFC 4180, lines end in
//! CR LF, UTF-8 with the mark in front that spreadsheets know it by, plain
//! numbers, the unit in the header.

use super::columns::{COLUMNS, Cell};
use super::rows::Row;
use groundline::units::UnitSystem;

/// The whole file.
pub(crate) fn schedule(rows: &[Row], system: UnitSystem) -> Result<Vec<u8>, String> {
    let mut writer = ::csv::WriterBuilder::new()
        .terminator(::csv::Terminator::CRLF)
        .from_writer("\u{feff}".as_bytes().to_vec());
    let header = COLUMNS.iter().map(|column| match column.unit(system) {
        "" => column.title.to_owned(),
        unit => format!("{} ({unit})", column.title),
    });
    let said = |error: ::csv::Error| error.to_string();
    writer.write_record(header).map_err(said)?;
    for row in rows {
        let cells = COLUMNS.iter().map(|column| match column.cell(row, system) {
            Cell::Text(text) => guarded(&text),
            Cell::Number(value, _) => plain(value),
            Cell::Blank => String::new(),
        });
        writer.write_record(cells).map_err(said)?;
    }
    writer.into_inner().map_err(|error| error.to_string())
}

/// A number to seven digits, without exponent.
fn plain(value: f64) -> String {
    let rounded = format!("{value:.6e}").parse().unwrap_or(value);
    format!("{rounded}")
}

/// Text that no spreadsheet takes for a formula nor for another row.
///
/// Spreadsheets pass over spaces in front, and some read full-width signs as plain
/// ones and the separators of lines and paragraphs as the end of a row.
pub(crate) fn guarded(text: &str) -> String {
    const SIGNS: [char; 8] = [
        '=', '+', '-', '@', '\u{ff1d}', '\u{ff0b}', '\u{ff0d}', '\u{ff20}',
    ];
    let text = text.replace(['\u{2028}', '\u{2029}', '\u{85}'], " ");
    let passed_over = |c: char| {
        c.is_whitespace() || c.is_control() || matches!(c, '\u{200b}'..='\u{200f}' | '\u{feff}')
    };
    let formula = |line: &str| line.trim_start_matches(passed_over).starts_with(SIGNS);
    if text.starts_with(['\t', '\r', '\n']) || text.split(['\r', '\n']).any(formula) {
        format!("'{text}")
    } else {
        text
    }
}
