//! A table of a source, compared cell by cell.

use crate::vectors::{Value, half_digit, head, rows};

/// A data file that is a table.
#[derive(Debug)]
pub(crate) struct Table {
    pub(crate) file: &'static str,
    pub(crate) cells: Vec<Cell>,
    mark: String,
}

#[derive(Debug)]
pub(crate) struct Cell {
    /// Which one.
    pub(crate) at: String,
    pub(crate) value: Value,
    pub(crate) mark: String,
}

impl Table {
    pub(crate) fn new(file: &'static str) -> Self {
        // `mark: published`, where one mark holds for the whole file.
        let head = head(file);
        let mark = head.split("mark: ").nth(1).unwrap_or_default();
        let marks = ["published", "quoted", "from memory", "derived"];
        let mark = marks.into_iter().find(|own| mark.starts_with(own));
        Self {
            file,
            cells: Vec::new(),
            mark: mark.unwrap_or_default().to_owned(),
        }
    }

    /// The rows of the file behind its header.
    pub(crate) fn rows(&self) -> Vec<Vec<String>> {
        rows(self.file).split_off(1)
    }

    /// The header.
    pub(crate) fn columns(&self) -> Vec<String> {
        rows(self.file).swap_remove(0)
    }

    /// What the head of the file says behind `source:`, up to the mark.
    pub(crate) fn source(&self) -> String {
        let head = head(self.file);
        let source = head.split("source: ").nth(1).unwrap_or_default();
        let end = source.find("; mark").unwrap_or(source.len());
        source[..end].to_owned()
    }

    /// What the head of the file says behind `note:`.
    pub(crate) fn note(&self) -> Option<String> {
        let head = head(self.file);
        head.split_once("note: ").map(|(_, note)| note.to_owned())
    }

    /// The mark of the cells that follow.
    pub(crate) fn marked(&mut self, mark: &str) {
        mark.clone_into(&mut self.mark);
    }

    /// A cell as printed, and ours, which may be off by half a unit of its last
    /// digit.
    pub(crate) fn cell(&mut self, at: impl Into<String>, printed: &str, ours: f64) {
        self.within(at, printed, ours, half_digit(printed));
    }

    /// A cell that ours is, to the last bits.
    pub(crate) fn exact(&mut self, at: impl Into<String>, printed: &str, ours: f64) {
        self.within(at, printed, ours, 0.0);
    }

    /// A cell with its own tolerance.
    pub(crate) fn within(&mut self, at: impl Into<String>, printed: &str, ours: f64, allowed: f64) {
        self.cells.push(Cell {
            at: at.into(),
            value: Value::Number(printed.to_owned(), ours, allowed),
            mark: self.mark.clone(),
        });
    }
}
