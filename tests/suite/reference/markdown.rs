//! The record of the reference suite as Markdown.

use super::{Compared, MARKS, Record, Subject, Table};
use crate::vectors::{Line, Value, half_digit};

pub(crate) const BEGIN: &str = "<!-- begin of what the reference suite writes -->\n";
pub(crate) const END: &str = "<!-- end of what the reference suite writes -->\n";

pub(crate) fn table(record: &Record) -> String {
    let mut out = String::new();
    out += &counts(record);
    out += &beyond(record);
    for subject in &record.subjects {
        out += &cases(subject);
    }
    out += &tables(&record.tables);
    out
}

/// A value as it is shown: the print, ours to two digits more while that is not
/// past seven, and the difference in units of the last digit and as a share; past
/// six digits the difference of what is shown, so that it is the same everywhere.
/// Numbers of more than ten digits are shown with seven.
struct Shown {
    printed: String,
    ours: String,
    off: f64,
    share: f64,
    allowed: f64,
}

fn shown(printed: &str, ours: f64, allowed: f64) -> Shown {
    let decimals = printed.split_once('.').map_or(0, |(_, after)| after.len());
    let digits = printed.trim_start_matches(['-', '0', '.']);
    let digits = digits.chars().filter(char::is_ascii_digit).count();
    let value: f64 = printed.parse().unwrap();
    let (printed, text) = if digits > 10 {
        let kept = decimals.saturating_sub(digits - 7);
        (rounded(value, kept, kept), rounded(ours, kept, kept))
    } else {
        let more = 7_usize.saturating_sub(digits).min(2);
        let text = rounded(ours, decimals, decimals + more);
        (printed.to_owned(), text)
    };
    let unit = 2.0 * half_digit(&printed);
    let value: f64 = printed.parse().unwrap();
    let near = if digits > 6 {
        text.parse().unwrap()
    } else {
        ours
    };
    let gap: f64 = near - value;
    let gap = if gap.abs() < 5e-4 * unit { 0.0 } else { gap };
    Shown {
        printed,
        ours: text,
        off: gap / unit,
        share: if value == 0.0 { 0.0 } else { gap / value.abs() },
        allowed: allowed / unit,
    }
}

/// With at most so many decimals, and no noughts behind the least.
fn rounded(value: f64, least: usize, most: usize) -> String {
    let text = (least..most)
        .map(|decimals| format!("{value:.decimals$}"))
        .find(|text| {
            format!("{:.most$}", text.parse::<f64>().unwrap()) == format!("{value:.most$}")
        })
        .unwrap_or_else(|| format!("{value:.most$}"));
    if text.parse::<f64>().unwrap() == 0.0 {
        text.trim_start_matches('-').to_owned()
    } else {
        text
    }
}

/// At most two digits behind the point, or the first two that count.
fn short(value: f64) -> String {
    let size = value.abs();
    let text = match size {
        0.0 => return "0".to_owned(),
        s if s >= 1e4 => format!("{value:.0}"),
        s if s >= 0.095 => format!("{value:.2}"),
        s if s >= 0.0095 => format!("{value:.3}"),
        s if s >= 0.000_95 => format!("{value:.4}"),
        _ => format!("{value:.0e}"),
    };
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    }
}

fn signed(value: f64) -> String {
    let plus = if value > 0.0 { "+" } else { "" };
    format!("{plus}{}", short(value))
}

fn percent(share: f64) -> String {
    let share = share * 100.0;
    if share != 0.0 && share.abs() < 0.000_95 {
        return "<0.001".to_owned();
    }
    signed(share)
}

fn allowed(units: f64) -> String {
    if units == 0.0 {
        "exact".to_owned()
    } else {
        short(units)
    }
}

/// A line of a case: as printed, ours, and its worst value.
fn line(line: &Line) -> (String, String, Option<Shown>) {
    let mut worst: Option<Shown> = None;
    let (mut printed, mut ours) = (Vec::new(), Vec::new());
    for value in &line.values {
        match value {
            Value::Word(print, own) => {
                printed.push(print.clone());
                ours.push(own.clone());
            }
            Value::Number(print, own, allowed) => {
                let now = shown(print, *own, *allowed);
                printed.push(now.printed.clone());
                ours.push(now.ours.clone());
                if worst
                    .as_ref()
                    .is_none_or(|worst| now.off.abs() > worst.off.abs())
                {
                    worst = Some(now);
                }
            }
        }
    }
    (printed.join(", "), ours.join(", "), worst)
}

fn name(line: &Line) -> String {
    if line.unit.is_empty() {
        line.name.clone()
    } else {
        format!("{}, {}", line.name, line.unit)
    }
}

/// An aligned table; the last column is as wide as it likes.
fn aligned(rows: &[Vec<String>]) -> String {
    let columns = rows[0].len();
    let width = |i: usize| rows.iter().map(|row| row[i].chars().count()).max().unwrap();
    let widths: Vec<_> = (0..columns - 1).map(width).collect();
    let line = |row: &Vec<String>| {
        let cells = row.iter().zip(&widths);
        let cells = cells.map(|(cell, width)| format!("{cell:width$}"));
        let cells: Vec<_> = cells.chain([row[columns - 1].clone()]).collect();
        format!("| {} |\n", cells.join(" | "))
    };
    let rule: Vec<_> = widths.iter().map(|width| "-".repeat(width + 2)).collect();
    let rule = format!("|{}|---|\n", rule.join("|"));
    let mut lines = rows.iter().map(line);
    lines.next().unwrap() + &rule + &lines.collect::<String>()
}

fn texts<const N: usize>(cells: [&str; N]) -> Vec<String> {
    cells.map(str::to_owned).to_vec()
}

/// How many of each mark.
fn by_mark<'a>(marks: impl Iterator<Item = &'a str>) -> String {
    let marks: Vec<_> = marks.collect();
    let count = |own: &str| marks.iter().filter(|mark| **mark == own).count();
    let parts = MARKS.into_iter().filter(|mark| count(mark) > 0);
    parts
        .map(|mark| format!("{} {mark}", count(mark)))
        .collect::<Vec<_>>()
        .join(", ")
}

fn counts(record: &Record) -> String {
    let all = || record.subjects.iter().flat_map(|subject| &subject.cases);
    let values: usize = all()
        .flat_map(|compared| &compared.lines)
        .map(|line| line.values.len())
        .sum();
    let cells = || record.tables.iter().flat_map(|(_, table)| &table.cells);
    format!(
        "\n{} cases ({}) with {values} values, and {} tables with {} cells ({}).\n\n{}",
        all().count(),
        by_mark(all().map(|compared| compared.case.mark.as_str())),
        record.tables.len(),
        cells().count(),
        by_mark(cells().map(|cell| cell.mark.as_str())),
        summary(record)
    )
}

/// Subject by subject: values by mark, and how many of those that are not derived
/// ours does not round to.
fn summary(record: &Record) -> String {
    let mut rows = vec![texts([
        "values of",
        "published",
        "quoted",
        "from memory",
        "derived",
        "not rounding to the print",
    ])];
    let mut row = |name: &str, values: Vec<(&str, &Value)>| {
        let count = |own: &str| values.iter().filter(|(mark, _)| *mark == own).count();
        let off = values.iter();
        let off = off.filter(|(mark, value)| *mark != "derived" && differs(value, mark));
        let counts = MARKS.map(count).into_iter().chain([off.count()]);
        let mut cells = vec![name.to_owned()];
        cells.extend(counts.map(|count| count.to_string()));
        rows.push(cells);
    };
    for subject in &record.subjects {
        let values = subject.cases.iter().flat_map(|compared| {
            let lines = compared.lines.iter().flat_map(|line| &line.values);
            lines.map(|value| (compared.case.mark.as_str(), value))
        });
        row(subject.name, values.collect());
    }
    let cells = record.tables.iter().flat_map(|(_, table)| &table.cells);
    row(
        "Tables",
        cells
            .map(|cell| (cell.mark.as_str(), &cell.value))
            .collect(),
    );
    aligned(&rows)
}

/// Does ours not round to the print, or, of a derived value, is it more than a
/// unit of its last digit off?
pub(crate) fn differs(value: &Value, mark: &str) -> bool {
    let limit = if mark == "derived" { 1.0 } else { 0.5 };
    match value {
        Value::Number(print, ours, allowed) => {
            shown(print, *ours, *allowed).off.abs() > limit + 1e-6
        }
        Value::Word(..) => false,
    }
}

/// Where ours differs, and why: of values as printed, or of derived ones.
fn differing(record: &Record, derived: bool) -> String {
    let wanted = |mark: &str| (mark == "derived") == derived;
    let mut rows = Vec::new();
    for compared in record.subjects.iter().flat_map(|subject| &subject.cases) {
        let case = &compared.case;
        for own in compared.lines.iter().filter(|_| wanted(&case.mark)) {
            if own.values.iter().any(|value| differs(value, &case.mark)) {
                let (printed, ours, _) = line(own);
                let (id, name, mark, note) = (&case.id, name(own), &case.mark, &case.note);
                rows.push(format!(
                    "- {id} {name}: {printed} printed, {ours} ours ({mark}): {note}.\n"
                ));
            }
        }
    }
    for (what, table) in &record.tables {
        let cells: Vec<_> = table
            .cells
            .iter()
            .filter(|cell| wanted(&cell.mark))
            .collect();
        let off = cells.iter().filter(|cell| differs(&cell.value, &cell.mark));
        let (file, off, all) = (table.file, off.count(), cells.len());
        if off > 0 {
            let note = table.note().unwrap_or_default();
            rows.push(format!(
                "- {what} (`{file}`): {off} of {all} cells: {note}.\n"
            ));
        }
    }
    rows.concat()
}

fn beyond(record: &Record) -> String {
    format!(
        "\n### Where ours does not round to the print\n\n\
         Published, quoted and remembered values that ours does not round to, and why;\n\
         every other one does.\n\n{}\n\
         Derived values that ours is more than a unit of their last digit off.\n\n{}",
        differing(record, false),
        differing(record, true)
    )
}

fn cases(subject: &Subject) -> String {
    let mut rows = vec![texts([
        "case", "what", "value", "printed", "ours", "off", "off, %", "may", "mark", "source",
    ])];
    for Compared { case, what, lines } in &subject.cases {
        for (i, own) in lines.iter().enumerate() {
            let (printed, ours, worst) = line(own);
            let [off, share, may] = match worst {
                None => ["0".to_owned(), String::new(), "exact".to_owned()],
                Some(worst) => [
                    signed(worst.off),
                    percent(worst.share),
                    allowed(worst.allowed),
                ],
            };
            let source = match (i, case.note.as_str()) {
                (0, "") => case.source.clone(),
                (0, note) => format!("{}. Note: {note}", case.source),
                _ => "as above".to_owned(),
            };
            rows.push(vec![
                case.id.clone(),
                (*what).to_owned(),
                name(own),
                printed,
                ours,
                off,
                share,
                may,
                case.mark.clone(),
                source,
            ]);
        }
    }
    format!(
        "\n### {}\n\nInputs: `tests/data/{}`. {} cases: {}.\n\n{}",
        subject.name,
        subject.file,
        subject.cases.len(),
        by_mark(
            subject
                .cases
                .iter()
                .map(|compared| compared.case.mark.as_str())
        ),
        aligned(&rows)
    )
}

/// The cell that is farthest off in units of its last digit.
fn worst(table: &Table) -> Option<(&str, Shown)> {
    let mut worst: Option<(&str, Shown)> = None;
    for cell in &table.cells {
        if let Value::Number(print, ours, allowed) = &cell.value {
            let now = shown(print, *ours, *allowed);
            let least = worst.as_ref().map_or(0.0, |(_, worst)| worst.off.abs());
            if now.off.abs() > least {
                worst = Some((&cell.at, now));
            }
        }
    }
    worst
}

fn tables(all: &[(&str, Table)]) -> String {
    let mut rows = vec![texts([
        "table",
        "cells",
        "marks",
        "off",
        "off, %",
        "may",
        "at",
        "printed",
        "ours",
        "file in tests/data, source",
    ])];
    for (what, table) in all {
        let mut row = vec![
            (*what).to_owned(),
            table.cells.len().to_string(),
            by_mark(table.cells.iter().map(|cell| cell.mark.as_str())),
        ];
        row.extend(match worst(table) {
            None => texts(["0", "0", "", "every cell", "", ""]),
            Some((at, shown)) => vec![
                signed(shown.off),
                percent(shown.share),
                allowed(shown.allowed),
                at.to_owned(),
                shown.printed,
                shown.ours,
            ],
        });
        row.push(format!("`{}`: {}", table.file, table.source()));
        rows.push(row);
    }
    format!(
        "\n### Tables\n\nCompared cell by cell; the greatest difference of each and where it is. Left out\n\
         are cells without a counterpart here: Table D.2 of EN 1990, kmod of the longer durations, springs of\n\
         stiff clay under water, silt that grips steel angles, AS/NZS 1170.2 with a return.\n\n{}",
        aligned(&rows)
    )
}
