//! Reading the reference cases: rows of inputs and expected values with units,
//! tolerance, source, mark and note.
//!
//! `name=value unit; …`, lists separated by commas, `-` for pure numbers. Digits
//! stand as the source prints them. A tolerance is `print` (half a unit of the last
//! digit), `exact`, `rel=…`, `abs=…` in the unit of the row, or `name=…`,
//! `name rel=…` for some of the values and the print for the rest. Every expected
//! value of a row must be compared, and what is compared is what the table of
//! references.md shows.

use groundline::units::{Measurable, Ratio, parse};
use std::collections::BTreeMap;
use std::path::PathBuf;
use std::sync::Mutex;

/// The path of a data file.
pub(crate) fn data(name: &str) -> PathBuf {
    [env!("CARGO_MANIFEST_DIR"), "tests", "data", name]
        .iter()
        .collect()
}

/// A CSV file without its comment lines, as rows of fields; the first row is
/// the header.
pub(crate) fn rows(name: &str) -> Vec<Vec<String>> {
    csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .has_headers(false)
        .from_path(data(name))
        .unwrap()
        .records()
        .map(|record| record.unwrap().iter().map(str::to_owned).collect())
        .collect()
}

/// The comment lines of a file.
pub(crate) fn head(name: &str) -> String {
    let text = std::fs::read_to_string(data(name)).unwrap();
    let lines = text.lines().map_while(|line| line.strip_prefix('#'));
    lines.map(str::trim).collect::<Vec<_>>().join(" ")
}

/// Half a unit of the last digit of a number as printed.
pub(crate) fn half_digit(printed: &str) -> f64 {
    let (digits, power) = printed.split_once(['e', 'E']).unwrap_or((printed, "0"));
    let decimals = digits.split_once('.').map_or(0, |(_, after)| after.len());
    let power: i32 = power.parse().unwrap();
    0.5 * 10_f64.powi(power - i32::try_from(decimals).unwrap())
}

/// What was compared for one expected value of a row, in the unit of the row.
#[derive(Debug, Clone)]
pub(crate) struct Line {
    pub(crate) name: String,
    pub(crate) unit: String,
    pub(crate) values: Vec<Value>,
}

#[derive(Debug, Clone)]
pub(crate) enum Value {
    /// As printed, ours, and how far off it may be.
    Number(String, f64, f64),
    /// As printed, and ours.
    Word(String, String),
}

impl Value {
    /// Is ours within the tolerance?
    pub(crate) fn agrees(&self) -> bool {
        match self {
            Value::Number(printed, ours, allowed) => {
                let printed: f64 = printed.parse().unwrap();
                (ours - printed).abs() <= allowed * (1.0 + 1e-9) + 1e-12 * printed.abs()
            }
            Value::Word(printed, ours) => printed == ours,
        }
    }

    /// Is the tolerance wider than half a unit of the last digit?
    pub(crate) fn is_loose(&self) -> bool {
        matches!(self, Value::Number(printed, _, allowed)
            if *allowed > half_digit(printed) * (1.0 + 1e-9))
    }
}

/// One row.
#[derive(Debug)]
pub(crate) struct Case {
    pub(crate) id: String,
    pub(crate) method: String,
    pub(crate) source: String,
    pub(crate) mark: String,
    pub(crate) note: String,
    inputs: BTreeMap<String, String>,
    /// In the order of the row.
    expected: Vec<(String, String)>,
    tolerance: String,
    compared: Mutex<Vec<Line>>,
}

/// Every row of a file.
pub(crate) fn cases(name: &str) -> Vec<Case> {
    rows(name)
        .into_iter()
        .skip(1)
        .map(|fields| {
            let [id, method, inputs, expected, tolerance, source, mark, note] =
                <[String; 8]>::try_from(fields).unwrap();
            Case {
                inputs: pairs(&inputs).into_iter().collect(),
                expected: pairs(&expected),
                id,
                method,
                source,
                mark,
                note,
                tolerance,
                compared: Mutex::default(),
            }
        })
        .collect()
}

fn pairs(text: &str) -> Vec<(String, String)> {
    text.split(';')
        .map(|pair| {
            let (name, value) = pair.split_once('=').unwrap();
            (name.trim().to_owned(), value.trim().to_owned())
        })
        .collect()
}

impl Case {
    /// The values of an input.
    pub(crate) fn inputs<Q: Measurable>(&self, name: &str) -> Vec<Q> {
        let text = self
            .inputs
            .get(name)
            .unwrap_or_else(|| panic!("{}: no input {name}", self.id));
        let (numbers, unit) = text.rsplit_once(' ').unwrap();
        numbers
            .split(',')
            .map(|number| parse(&format!("{number} {unit}")).unwrap())
            .collect()
    }

    /// The value of an input.
    pub(crate) fn input<Q: Measurable>(&self, name: &str) -> Q {
        self.inputs(name)[0]
    }

    /// A pure number.
    pub(crate) fn number(&self, name: &str) -> f64 {
        self.input::<Ratio>(name).value
    }

    /// A word.
    pub(crate) fn word(&self, name: &str) -> &str {
        self.inputs[name].trim_end_matches('-').trim()
    }

    /// Does it give this input?
    pub(crate) fn has(&self, name: &str) -> bool {
        self.inputs.contains_key(name)
    }

    /// Does it expect this value?
    pub(crate) fn expects(&self, name: &str) -> bool {
        self.expected.iter().any(|(own, _)| own == name)
    }

    /// Numbers as printed, and their unit.
    fn expected(&self, name: &str) -> (Vec<&str>, &str) {
        let found = self.expected.iter().find(|(own, _)| own == name);
        let (_, text) = found.unwrap_or_else(|| panic!("{}: expects no {name}", self.id));
        let (numbers, unit) = text.rsplit_once(' ').unwrap();
        (numbers.split(',').map(str::trim).collect(), unit)
    }

    /// Compares numbers in the unit of the row with the expected ones: the one
    /// place where that is done.
    pub(crate) fn compare_in_unit(&self, name: &str, ours: &[f64]) {
        let (printed, unit) = self.expected(name);
        assert_eq!(printed.len(), ours.len(), "{}: {name}", self.id);
        let values = printed
            .into_iter()
            .zip(ours)
            .map(|(printed, ours)| {
                Value::Number(printed.to_owned(), *ours, self.allowed(name, printed))
            })
            .collect();
        self.record(name, unit, values);
    }

    /// Compares quantities with the expected ones.
    pub(crate) fn compare_all<Q: Measurable>(&self, name: &str, ours: &[Q]) {
        let (_, unit) = self.expected(name);
        let one = parse::<Q>(&format!("1 {unit}")).unwrap().si();
        let ours: Vec<_> = ours.iter().map(|ours| ours.si() / one).collect();
        self.compare_in_unit(name, &ours);
    }

    /// [`Case::compare_all`] for one value.
    pub(crate) fn compare<Q: Measurable>(&self, name: &str, ours: Q) {
        self.compare_all(name, &[ours]);
    }

    /// [`Case::compare`] for a pure number.
    pub(crate) fn compare_number(&self, name: &str, ours: f64) {
        self.compare(name, Ratio::from_si(ours));
    }

    /// A word that is expected.
    pub(crate) fn compare_word(&self, name: &str, ours: &str) {
        let (printed, _) = self.expected(name);
        let value = Value::Word(printed[0].to_owned(), ours.to_owned());
        self.record(name, "-", vec![value]);
    }

    fn record(&self, name: &str, unit: &str, values: Vec<Value>) {
        let (name, unit) = (name.to_owned(), unit.trim_matches('-').to_owned());
        self.compared
            .lock()
            .unwrap()
            .push(Line { name, unit, values });
    }

    /// What was compared, in the order of the row; each value of the row once.
    pub(crate) fn finish(&self) -> Vec<Line> {
        let mut lines = std::mem::take(&mut *self.compared.lock().unwrap());
        let place = |line: &Line| self.expected.iter().position(|(own, _)| *own == line.name);
        lines.sort_by_key(place);
        let names: Vec<_> = lines.iter().map(|line| line.name.as_str()).collect();
        let expected: Vec<_> = self.expected.iter().map(|(name, _)| name).collect();
        assert_eq!(names, expected, "{}: each value once", self.id);
        lines
    }

    /// The tolerance of a value, in the unit of the row.
    fn allowed(&self, name: &str, printed: &str) -> f64 {
        let size = printed.parse::<f64>().unwrap().abs();
        let number = |text: &str| text.trim().parse::<f64>().unwrap();
        for part in self.tolerance.split(';').map(str::trim) {
            match part.split_once('=') {
                None if part == "exact" => return 0.0,
                None if part == "print" => {}
                Some(("rel", share)) => return number(share) * size,
                Some(("abs", off)) => return number(off),
                Some((own, off)) if own == name => return number(off),
                Some((own, share)) if own.strip_suffix(" rel") == Some(name) => {
                    return number(share) * size;
                }
                Some((own, _)) if self.expects(own.trim_end_matches(" rel")) => {}
                _ => panic!("{}: tolerance {part}", self.id),
            }
        }
        half_digit(printed)
    }
}
