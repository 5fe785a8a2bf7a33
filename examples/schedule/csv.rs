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
            Cell::Text(text) => guarded(text),
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

/// Text that no spreadsheet takes for a formula.
fn guarded(text: String) -> String {
    if text.starts_with(['=', '+', '-', '@', '\t', '\r']) {
        format!("'{text}")
    } else {
        text
    }
}
