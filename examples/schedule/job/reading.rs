//! What is kept while a job file is read: refusals with line, path, value and
//! what is allowed, so that all of them can be told at once, and every field
//! as it was taken, to be printed as the inputs.

use groundline::units::UnitSystem;
use std::cell::RefCell;
use std::fmt;
use std::ops::Range;

/// Something refused.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Problem {
    line: usize,
    file: String,
    what: String,
}

impl Problem {
    /// What is told stays on one line, whatever was typed.
    pub(crate) fn new(file: &str, line: usize, mut what: String) -> Self {
        if what.contains(char::is_control) {
            what = what.replace(char::is_control, " ");
        }
        let file = file.replace(char::is_control, " ");
        Self { line, file, what }
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.line == 0 {
            write!(f, "{}: {}", self.file, self.what)
        } else {
            write!(f, "{}, line {}: {}", self.file, self.line, self.what)
        }
    }
}

/// A field as it was taken.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Echo {
    pub(crate) path: String,
    pub(crate) value: String,
    pub(crate) given: bool,
}

/// What is kept while a file is read.
#[derive(Debug)]
pub(crate) struct Reading<'a> {
    pub(crate) file: String,
    pub(crate) text: &'a str,
    pub(crate) system: UnitSystem,
    pub(crate) problems: RefCell<Vec<Problem>>,
    pub(crate) echoes: RefCell<Vec<Echo>>,
}

/// What was typed, on one line and cut.
pub(crate) fn brief(typed: &str) -> String {
    let mut line: String = typed.chars().filter(|c| !c.is_control()).take(60).collect();
    if line.len() < typed.len() {
        line.push('…');
    }
    line
}

/// The line of a byte of a text, from 1.
pub(crate) fn line_of(text: &str, byte: usize) -> usize {
    1 + text.bytes().take(byte).filter(|b| *b == b'\n').count()
}

impl Reading<'_> {
    pub(super) fn refuse(&self, at: usize, what: String) {
        let problem = Problem::new(&self.file, line_of(self.text, at), what);
        let mut problems = self.problems.borrow_mut();
        if !problems.contains(&problem) {
            problems.push(problem);
        }
    }

    /// The value as it was typed, on one line.
    pub(super) fn typed(&self, span: Range<usize>) -> String {
        brief(self.text.get(span).unwrap_or_default())
    }

    pub(super) fn echo(&self, path: String, value: String, given: bool) {
        let mut echoes = self.echoes.borrow_mut();
        if !echoes.iter().any(|echo| echo.path == path) {
            echoes.push(Echo { path, value, given });
        }
    }
}
