//! Reading the published cases: rows of inputs and expected values with units,
//! tolerance, source and mark.
//!
//! `name=value unit; …`, lists separated by commas, `-` for pure numbers.
//! Every expected value of a row must be compared, or the row fails.

use groundline::units::{Measurable, Ratio, parse};
use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;

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

/// One row.
#[derive(Debug)]
pub(crate) struct Case {
    pub(crate) id: String,
    pub(crate) method: String,
    pub(crate) source: String,
    pub(crate) mark: String,
    inputs: BTreeMap<String, String>,
    expected: BTreeMap<String, String>,
    tolerance: String,
    compared: RefCell<BTreeSet<String>>,
}

/// Every row of a file.
pub(crate) fn cases(name: &str) -> Vec<Case> {
    rows(name)
        .into_iter()
        .skip(1)
        .map(|fields| {
            let [id, method, inputs, expected, tolerance, source, mark] =
                <[String; 7]>::try_from(fields).unwrap();
            Case {
                inputs: pairs(&inputs),
                expected: pairs(&expected),
                id,
                method,
                source,
                mark,
                tolerance,
                compared: RefCell::default(),
            }
        })
        .collect()
}

fn pairs(text: &str) -> BTreeMap<String, String> {
    text.split(';')
        .map(|pair| {
            let (name, value) = pair.split_once('=').unwrap();
            (name.trim().to_owned(), value.trim().to_owned())
        })
        .collect()
}

/// The values of `1,2,3 ft`.
fn list<Q: Measurable>(text: &str) -> Vec<Q> {
    let (numbers, unit) = text.rsplit_once(' ').unwrap();
    numbers
        .split(',')
        .map(|number| parse(&format!("{number} {unit}")).unwrap())
        .collect()
}

impl Case {
    /// The values of an input.
    pub(crate) fn inputs<Q: Measurable>(&self, name: &str) -> Vec<Q> {
        let text = self
            .inputs
            .get(name)
            .unwrap_or_else(|| panic!("{}: no input {name}", self.id));
        list(text)
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
        self.expected.contains_key(name)
    }

    /// The number expected, in the unit of the row.
    pub(crate) fn expected_number(&self, name: &str) -> f64 {
        let text = &self.expected[name];
        text.split_whitespace().next().unwrap().parse().unwrap()
    }

    /// Compares values with expected ones, within the row's tolerance.
    pub(crate) fn compare_all<Q: Measurable>(&self, name: &str, ours: &[Q]) {
        let text = self
            .expected
            .get(name)
            .unwrap_or_else(|| panic!("{}: expects no {name}", self.id));
        let unit = text.rsplit_once(' ').unwrap().1;
        let expected = list::<Q>(text);
        assert_eq!(expected.len(), ours.len(), "{}: {name}", self.id);
        for (expected, ours) in expected.iter().zip(ours) {
            let allowed = self.allowed::<Q>(name, *expected, unit);
            let error = (ours.si() - expected.si()).abs();
            assert!(
                error <= allowed,
                "{} ({}, {}): {name} is {} where {} is expected, {unit}; off by {}, allowed {}",
                self.id,
                self.source,
                self.mark,
                ours.si(),
                expected.si(),
                error,
                allowed
            );
        }
        self.compared.borrow_mut().insert(name.to_owned());
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
        assert_eq!(
            self.expected[name].trim_end_matches('-').trim(),
            ours,
            "{}",
            self.id
        );
        self.compared.borrow_mut().insert(name.to_owned());
    }

    /// A value compared outside, since its unit is not of one quantity.
    pub(crate) fn compared_by_hand(&self, name: &str) {
        assert!(self.expects(name));
        self.compared.borrow_mut().insert(name.to_owned());
    }

    /// The row was looked at whole.
    pub(crate) fn finish(&self) {
        let expected: BTreeSet<_> = self.expected.keys().cloned().collect();
        assert_eq!(
            *self.compared.borrow(),
            expected,
            "{}: values not compared",
            self.id
        );
    }

    /// The tolerance of a value, SI: `exact` leaves rounding of the last bits.
    fn allowed<Q: Measurable>(&self, name: &str, expected: Q, unit: &str) -> f64 {
        let rounding = 1e-12 * expected.si().abs();
        if self.tolerance == "exact" {
            return rounding;
        }
        if self.tolerance.starts_with("must") {
            // A value printed to show a mistake: to its last digit.
            return 5e-4;
        }
        for part in self.tolerance.split(';') {
            let (kind, value) = part.split_once('=').unwrap();
            let number = value.split_whitespace().next().unwrap();
            match kind.trim() {
                "rel" => return number.parse::<f64>().unwrap() * expected.si().abs(),
                "abs" => {
                    let value: Q = parse(&format!("{number} {unit}")).unwrap();
                    return value.si() + rounding;
                }
                kind if kind.strip_suffix(" rel") == Some(name) => {
                    return number.parse::<f64>().unwrap() * expected.si().abs();
                }
                kind if kind == name => {
                    let value: Q = if value.contains(' ') {
                        parse(value).unwrap()
                    } else {
                        parse(&format!("{value} {unit}")).unwrap()
                    };
                    return value.si() + rounding;
                }
                _ => {}
            }
        }
        // A row that names tolerances for some values prints the others exactly.
        rounding
    }
}
