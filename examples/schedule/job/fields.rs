//! Tables of the job file, whose fields are read one by one; a field that
//! nothing asked for is refused.

use super::reading::Reading;
use groundline::Error;
use groundline::units::{Dimension, Measurable, ParseQuantityError, UnitSystem, parse};
use std::cell::RefCell;
use std::fmt;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// A table and what was asked of it.
#[derive(Debug)]
pub(crate) struct Table<'a> {
    reading: &'a Reading<'a>,
    path: String,
    at: usize,
    entries: Option<&'a DeTable<'a>>,
    asked: RefCell<Vec<&'static str>>,
    /// Where fields of these names come from if they are not here.
    parent: Option<(&'a Table<'a>, &'static [&'static str])>,
}

impl<'a> Table<'a> {
    /// The table of the whole file.
    pub(crate) fn root(reading: &'a Reading<'a>, table: &'a Spanned<DeTable<'a>>) -> Self {
        Self::new(reading, String::new(), 0, Some(table.get_ref()))
    }

    fn new(
        reading: &'a Reading<'a>,
        path: String,
        at: usize,
        entries: Option<&'a DeTable<'a>>,
    ) -> Self {
        Self {
            reading,
            path,
            at,
            entries,
            asked: RefCell::default(),
            parent: None,
        }
    }

    /// With a table that fields of some names come from if they are not here.
    pub(crate) fn falling_back_on(
        self,
        parent: &'a Table<'a>,
        names: &'static [&'static str],
    ) -> Self {
        parent.asked.borrow_mut().extend(names);
        Self {
            parent: Some((parent, names)),
            ..self
        }
    }

    pub(crate) fn system(&self) -> UnitSystem {
        self.reading.system
    }

    /// Does it stand in the file?
    pub(crate) fn is_given(&self) -> bool {
        self.entries.is_some()
    }

    fn path_of(&self, key: &str) -> String {
        if self.path.is_empty() {
            key.to_owned()
        } else {
            format!("{}.{key}", self.path)
        }
    }

    fn own(&self, key: &'static str) -> Option<&'a Spanned<DeValue<'a>>> {
        self.asked.borrow_mut().push(key);
        let mut entries = self.entries?.iter();
        entries
            .find(|(name, _)| name.get_ref().as_ref() == key)
            .map(|(_, value)| value)
    }

    /// A value, and the path it stands at.
    fn find(&self, key: &'static str) -> Option<(String, &'a Spanned<DeValue<'a>>)> {
        if let Some(value) = self.own(key) {
            return Some((self.path_of(key), value));
        }
        let (parent, names) = self.parent?;
        names.contains(&key).then(|| parent.find(key)).flatten()
    }

    /// Is a field given, here or where it falls back on?
    pub(crate) fn has(&self, key: &'static str) -> bool {
        self.find(key).is_some()
    }

    /// Is a field given here?
    pub(crate) fn has_own(&self, key: &'static str) -> bool {
        self.own(key).is_some()
    }

    /// Refuses a field for a reason.
    pub(crate) fn refuse(&self, key: &'static str, reason: impl fmt::Display) {
        match self.find(key) {
            Some((path, value)) => {
                let typed = self.reading.typed(value.span());
                let what = format!("{path} = {typed}: {reason}");
                self.reading.refuse(value.span().start, what);
            }
            None => self
                .reading
                .refuse(self.at, format!("{}: {reason}", self.path_of(key))),
        }
    }

    /// Takes what the library made of a field, or refuses the field.
    pub(crate) fn take<T>(&self, key: &'static str, made: Result<T, Error>) -> Option<T> {
        made.map_err(|error| self.refuse(key, error.in_system(self.system())))
            .ok()
    }

    /// As [`Table::take`], where some fields of an error are another key's.
    pub(crate) fn take_by<T>(
        &self,
        key: &'static str,
        others: &[(&str, &'static str)],
        made: Result<T, Error>,
    ) -> Option<T> {
        let key = made.as_ref().err().map_or(key, |error| {
            let other = others.iter().find(|(field, _)| *field == error.field());
            other.map_or(key, |(_, key)| key)
        });
        self.take(key, made)
    }

    pub(crate) fn missing(&self, key: &'static str, allowed: &str) {
        let what = format!("{} is missing: {allowed}", self.path_of(key));
        self.reading.refuse(self.at, what);
    }

    fn echo_default(&self, key: &str, value: &str) {
        self.reading
            .echo(self.path_of(key), value.to_owned(), false);
    }

    /// Text, as it stands.
    pub(crate) fn text(&self, key: &'static str) -> Option<String> {
        let (path, value) = self.find(key)?;
        let text = value.get_ref().as_str().map(str::to_owned);
        match &text {
            Some(text) => self.reading.echo(path, text.clone(), true),
            None => self.refuse(key, format!("write it as text: {key} = \"...\"")),
        }
        text
    }

    /// A quantity with its unit; a pure number may stand without quotes.
    pub(crate) fn quantity<Q: Measurable>(&self, key: &'static str) -> Option<Q> {
        let (path, value) = self.find(key)?;
        let pure = Q::DIMENSION == Dimension::Ratio;
        let text = match value.get_ref() {
            DeValue::String(text) => text.to_string(),
            DeValue::Integer(_) | DeValue::Float(_) if pure => self.reading.typed(value.span()),
            DeValue::Integer(_) | DeValue::Float(_) => {
                let typed = self.reading.typed(value.span());
                let example = Q::DIMENSION.units().first().map_or("", |unit| unit.symbol);
                let hint = format!("write it as text with its unit: {key} = \"{typed} {example}\"");
                self.refuse(key, format!("{hint}; {}", allowed::<Q>()));
                return None;
            }
            _ => {
                self.refuse(key, format!("write it as text; {}", allowed::<Q>()));
                return None;
            }
        };
        match parse(&text) {
            Ok(quantity) => {
                self.reading.echo(path, text, true);
                Some(quantity)
            }
            Err(error) => {
                self.refuse(key, error);
                None
            }
        }
    }

    /// A quantity that must be given.
    pub(crate) fn required<Q: Measurable>(&self, key: &'static str) -> Option<Q> {
        if !self.has(key) {
            self.missing(key, &allowed::<Q>());
        }
        self.quantity(key)
    }

    /// A quantity, or a text read in its place.
    pub(crate) fn quantity_or<Q: Measurable>(&self, key: &'static str, other: &str) -> Option<Q> {
        if self.has(key) {
            return self.quantity(key);
        }
        self.echo_default(key, other);
        parse(other).ok()
    }

    /// With a quantity that may be given; what is refused stops the job.
    pub(crate) fn with<T: Copy, Q: Measurable>(
        &self,
        key: &'static str,
        made: T,
        change: impl FnOnce(T, Q) -> Result<T, Error>,
    ) -> T {
        let changed = self.quantity(key).map(|value| change(made, value));
        changed
            .and_then(|changed| self.take(key, changed))
            .unwrap_or(made)
    }

    /// One of some words (case does not count); the first is taken where none
    /// is given, unless it must be.
    pub(crate) fn choice<T: Copy>(
        &self,
        key: &'static str,
        words: &[(&str, T)],
        must: bool,
    ) -> Option<T> {
        let list: Vec<_> = words
            .iter()
            .map(|(word, _)| format!("\"{word}\""))
            .collect();
        let allowed = format!("give one of {}", list.join(", "));
        let Some((path, value)) = self.find(key) else {
            if must {
                self.missing(key, &allowed);
                return None;
            }
            let (word, first) = words.first()?;
            self.echo_default(key, word);
            return Some(*first);
        };
        // Numbers and true or false may be words too.
        let text = match value.get_ref() {
            DeValue::String(text) => text.trim().to_owned(),
            _ => self.reading.typed(value.span()),
        };
        let found = words
            .iter()
            .find(|(word, _)| word.eq_ignore_ascii_case(&text));
        let Some((word, choice)) = found else {
            self.refuse(key, allowed);
            return None;
        };
        self.reading.echo(path, (*word).to_owned(), true);
        Some(*choice)
    }

    /// true or false, false where none is given.
    pub(crate) fn flag(&self, key: &'static str) -> Option<bool> {
        self.choice(key, &[("false", false), ("true", true)], false)
    }

    /// A table inside this one, or else inside the one it falls back on.
    pub(crate) fn table_or_fallback(&self, key: &'static str) -> Table<'a> {
        match self.parent {
            Some((parent, names)) if names.contains(&key) && !self.has_own(key) => {
                parent.table(key)
            }
            _ => self.table(key),
        }
    }

    /// A table inside this one; without fields where it does not stand.
    pub(crate) fn table(&self, key: &'static str) -> Table<'a> {
        let found = self.own(key);
        let table = found.and_then(|value| value.get_ref().as_table());
        if found.is_some() && table.is_none() {
            self.refuse(
                key,
                "this is a table of fields: give it as [...] or { ... }",
            );
        }
        let at = found.map_or(self.at, |value| value.span().start);
        Table::new(self.reading, self.path_of(key), at, table)
    }

    /// The tables of a list, numbered from 1.
    pub(crate) fn tables(&self, key: &'static str) -> Vec<Table<'a>> {
        let Some(found) = self.own(key) else {
            return Vec::new();
        };
        let wrong = || {
            let whole = format!(
                "this is a list of tables: begin each with [[{}]]",
                self.path_of(key)
            );
            self.refuse(key, whole);
            Vec::new()
        };
        let Some(list) = found.get_ref().as_array() else {
            return wrong();
        };
        let tables = list.iter().enumerate().map(|(index, item)| {
            let path = format!("{}[{}]", self.path_of(key), index + 1);
            let table = item.get_ref().as_table()?;
            Some(Table::new(
                self.reading,
                path,
                item.span().start,
                Some(table),
            ))
        });
        tables.collect::<Option<_>>().unwrap_or_else(wrong)
    }

    /// Refuses whatever was not asked for.
    pub(crate) fn finish(&self) {
        let mut asked = self.asked.borrow().clone();
        asked.sort_unstable();
        asked.dedup();
        for (name, _) in self.entries.iter().flat_map(|table| table.iter()) {
            if !asked.contains(&name.get_ref().as_ref()) {
                let path = self.path_of(&self.reading.typed(name.span()));
                let what = format!("{path}: no such field; here may stand {}", asked.join(", "));
                self.reading.refuse(name.span().start, what);
            }
        }
    }
}

/// What a quantity may be.
fn allowed<Q: Measurable>() -> String {
    let text = ParseQuantityError::MissingUnit(Q::DIMENSION).to_string();
    let allowed = text.split_once("; ").map(|(_, allowed)| allowed.to_owned());
    allowed.unwrap_or(text)
}
