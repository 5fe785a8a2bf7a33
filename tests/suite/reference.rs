//! The reference suite: every case and table of tests/data computed by the library
//! and compared with its source, and the table of references.md that shows it.
//!
//! A case file is listed in [`CASES`] with the methods that compute its rows, a
//! table in [`TABLES`]; what is compared is recorded on the way, and the record is
//! both the verdict and the table. `GROUNDLINE_WRITE_TABLE=1 cargo test --test suite
//! reference` writes the table anew.

mod asnzs1170;
pub(crate) mod boundary_values;
mod embedment;
mod en1991;
mod field_test;
mod ground_tables;
mod lateral;
mod markdown;
mod members;
mod post;
mod post_tables;
mod response;
mod springs;
mod table;
mod uplift;
mod wind;
mod wind_tables;

use crate::vectors::{Case, Line, Value, cases, data, half_digit};
use std::collections::BTreeSet;
use std::sync::LazyLock;
use table::Table;

/// A method as rows name it, its plain name, and what computes it.
type Method = (&'static str, &'static str, fn(&Case));

/// A table's file, its plain name, and what computes its cells.
type TableOf = (&'static str, &'static str, fn(&mut Table));

/// Files of cases: name, subject, methods.
const CASES: &[(&str, &str, &[&[Method]])] = &[
    (
        "wind.csv",
        "Wind",
        &[wind::METHODS, en1991::METHODS, asnzs1170::METHODS],
    ),
    ("embedment.csv", "Embedment", &[embedment::METHODS]),
    ("soil.csv", "Ultimate sideways load", &[lateral::METHODS]),
    (
        "response.csv",
        "Response in the ground",
        &[response::METHODS],
    ),
    (
        "textbook_springs.csv",
        "Beams on springs, of textbooks",
        &[springs::METHODS],
    ),
    (
        "uplift.csv",
        "Pull-out, frost, quantities",
        &[uplift::METHODS],
    ),
    ("post.csv", "Posts", &[post::METHODS]),
    (
        "textbook_members.csv",
        "Members, of textbooks",
        &[members::METHODS],
    ),
    (
        "field_test.csv",
        "Field tests and statistics",
        &[field_test::METHODS],
    ),
];

const TABLES: &[&[TableOf]] = &[
    wind_tables::TABLES,
    ground_tables::TABLES,
    post_tables::TABLES,
];

const MARKS: [&str; 4] = ["published", "quoted", "from memory", "derived"];

fn number(text: &str) -> f64 {
    text.parse().unwrap()
}

/// A row, its method in plain words, and what was compared.
#[derive(Debug)]
struct Compared {
    case: Case,
    what: &'static str,
    lines: Vec<Line>,
}

#[derive(Debug)]
struct Subject {
    file: &'static str,
    name: &'static str,
    cases: Vec<Compared>,
}

#[derive(Debug)]
struct Record {
    subjects: Vec<Subject>,
    tables: Vec<(&'static str, Table)>,
}

static RECORD: LazyLock<Record> = LazyLock::new(|| Record {
    subjects: CASES
        .iter()
        .map(|(file, name, all)| subject(file, name, all))
        .collect(),
    tables: TABLES
        .iter()
        .copied()
        .flatten()
        .map(|(file, name, compute)| {
            let mut table = Table::new(file);
            compute(&mut table);
            (*name, table)
        })
        .collect(),
});

fn subject(file: &'static str, name: &'static str, all: &[&[Method]]) -> Subject {
    let run = |case: Case| {
        let mut methods = all.iter().copied().flatten();
        let found = methods.find(|(code, ..)| *code == case.method);
        let Some((_, what, compute)) = found else {
            panic!("{}: nothing computes {}", case.id, case.method);
        };
        compute(&case);
        let lines = case.finish();
        Compared { case, what, lines }
    };
    let cases = cases(file).into_iter().map(run).collect();
    Subject { file, name, cases }
}

/// Is there a difference, or room for one, that nothing explains?
fn lacks_reason(value: &Value, mark: &str, note: &str) -> bool {
    let loose = mark != "derived" && value.is_loose();
    note.is_empty() && (loose || markdown::differs(value, mark))
}

/// Ours against every value of every source; and a tolerance wider than the print
/// has its reason.
#[test]
fn every_value_agrees_with_its_source() {
    let mut wrong = Vec::new();
    let mut judge = |what: String, value: &Value| {
        if !value.agrees() {
            wrong.push(format!("{what}: {value:?}"));
        }
    };
    let mut unexplained = Vec::new();
    for subject in &RECORD.subjects {
        for Compared { case, lines, .. } in &subject.cases {
            assert!(MARKS.contains(&case.mark.as_str()), "{}", case.id);
            for line in lines {
                for value in &line.values {
                    judge(format!("{} {}", case.id, line.name), value);
                    if lacks_reason(value, &case.mark, &case.note) {
                        unexplained.push(format!("{} {}", case.id, line.name));
                    }
                }
            }
        }
    }
    for (_, table) in &RECORD.tables {
        assert!(!table.cells.is_empty(), "{}", table.file);
        for cell in &table.cells {
            let at = format!("{}, {}", table.file, cell.at);
            assert!(MARKS.contains(&cell.mark.as_str()), "{at}: {}", cell.mark);
            judge(at.clone(), &cell.value);
            if lacks_reason(&cell.value, &cell.mark, &table.note().unwrap_or_default()) {
                unexplained.push(at);
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert!(
        unexplained.is_empty(),
        "no reason for a tolerance wider than the print: {}",
        unexplained.join("; ")
    );
}

/// Every file is listed, every method used, every id stands once.
#[test]
fn nothing_is_left_out() {
    let files = std::fs::read_dir(data("")).unwrap();
    let files = files.map(|file| file.unwrap().path());
    let files: BTreeSet<_> = files
        .filter(|file| file.extension().is_some_and(|extension| extension == "csv"))
        .map(|file| file.file_name().unwrap().to_str().unwrap().to_owned())
        .collect();
    let cases = CASES.iter().map(|(file, ..)| *file);
    let tables = TABLES.iter().copied().flatten().map(|(file, ..)| *file);
    let listed: Vec<_> = cases.chain(tables).map(str::to_owned).collect();
    let count = listed.len();
    let listed = BTreeSet::from_iter(listed);
    assert_eq!(count, listed.len(), "a file is listed twice");
    let odd: Vec<_> = listed.symmetric_difference(&files).collect();
    assert!(odd.is_empty(), "not listed, or not there: {odd:?}");
    let mut ids = BTreeSet::new();
    for ((_, _, all), subject) in CASES.iter().zip(&RECORD.subjects) {
        let rows = &subject.cases;
        for (code, ..) in all.iter().copied().flatten() {
            let used = rows.iter().any(|compared| compared.case.method == *code);
            assert!(used, "{}: no case of {code}", subject.file);
        }
        for compared in rows {
            let id = compared.case.id.as_str();
            assert!(ids.insert(id), "{id} stands twice");
        }
    }
}

/// The table of references.md is what this suite finds.
#[test]
fn the_table_of_references_is_current() {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("references.md");
    let text = std::fs::read_to_string(&path)
        .unwrap()
        .replace("\r\n", "\n");
    let (before, rest) = text.split_once(markdown::BEGIN).unwrap();
    let (now, after) = rest.split_once(markdown::END).unwrap();
    let made = markdown::table(&RECORD);
    if std::env::var_os("GROUNDLINE_WRITE_TABLE").is_some() {
        let whole = [before, markdown::BEGIN, &made, markdown::END, after].concat();
        std::fs::write(&path, whole).unwrap();
    } else {
        assert!(
            now == made,
            "references.md is behind the tests: GROUNDLINE_WRITE_TABLE=1 cargo test --test suite reference"
        );
    }
}

/// The measure itself: half of the last digit, and what is within it.
#[test]
fn half_of_the_last_digit() {
    for (printed, half) in [
        ("0.57", 0.005),
        ("0.70", 0.005),
        ("648", 0.5),
        ("-4.126", 0.000_5),
        ("3e-2", 0.005),
        ("1.50e3", 5.0),
    ] {
        approx::assert_relative_eq!(half_digit(printed), half, max_relative = 1e-12);
        let value = |off: f64, allowed: f64| {
            let ours = number(printed) + off * half;
            Value::Number(printed.to_owned(), ours, allowed)
        };
        assert!(value(0.999, half).agrees() && value(-0.999, half).agrees());
        assert!(!value(1.001, half).agrees() && !value(-1.001, half).agrees());
        assert!(value(0.0, 0.0).agrees() && !value(1e-6, 0.0).agrees());
        assert!(!value(0.0, half).is_loose() && value(0.0, 1.01 * half).is_loose());
        let differs = |off: f64, mark: &str| markdown::differs(&value(off, half), mark);
        assert!(differs(1.01, "quoted") && !differs(0.99, "quoted"));
        assert!(differs(2.02, "derived") && !differs(1.98, "derived"));
    }
    let no = Value::Word("no".to_owned(), "yes".to_owned());
    assert!(!no.agrees());
}
