//! Numbers and choices out of bytes. Where the bytes end, the least and the
//! first.

use arbitrary::Unstructured;
use groundline::Error;
use groundline::report;
use groundline::step::Worksheet;
use groundline::units::{Measurable, UnitSystem};
use groundline::utilization::Utilization;

/// Numbers no range has, or few.
const HOSTILE: [f64; 8] = [
    f64::NAN,
    f64::INFINITY,
    f64::NEG_INFINITY,
    0.0,
    -1.0,
    5e-324,
    1e-300,
    1e308,
];

/// Bytes to draw from.
pub(crate) struct Draw<'a>(Unstructured<'a>);

impl<'a> Draw<'a> {
    pub(crate) fn new(data: &'a [u8]) -> Self {
        Self(Unstructured::new(data))
    }

    fn raw(&mut self) -> u16 {
        self.0.arbitrary().unwrap_or(0)
    }

    /// One of a few, evenly.
    pub(crate) fn below(&mut self, count: usize) -> usize {
        let byte: u8 = self.0.arbitrary().unwrap_or(0);
        usize::from(byte) % count
    }

    pub(crate) fn yes(&mut self) -> bool {
        self.below(2) == 1
    }

    /// One of these.
    pub(crate) fn of<T: Copy>(&mut self, these: &[T]) -> T {
        these[self.below(these.len())]
    }

    /// A share of a range, both ends in it; now and then something hostile.
    fn share(&mut self) -> Result<f64, f64> {
        const LAST: u16 = u16::MAX - 8;
        let raw = self.raw();
        match raw.checked_sub(LAST + 1) {
            Some(hostile) => Err(HOSTILE[usize::from(hostile)]),
            None => Ok(f64::from(raw) / f64::from(LAST)),
        }
    }

    /// A number from 0 to 1, never hostile.
    pub(crate) fn plain(&mut self) -> f64 {
        f64::from(self.raw()) / f64::from(u16::MAX)
    }

    /// A number of a range, evenly.
    pub(crate) fn number(&mut self, least: f64, most: f64) -> f64 {
        match self.share() {
            Ok(share) if share >= 1.0 => most,
            Ok(share) => least + share * (most - least),
            Err(hostile) => hostile,
        }
    }

    /// A number of a range of sizes.
    pub(crate) fn size(&mut self, least: f64, most: f64) -> f64 {
        match self.share() {
            Ok(share) if share <= 0.0 => least,
            Ok(share) if share >= 1.0 => most,
            Ok(share) => (least * (most / least).powf(share)).clamp(least, most),
            Err(hostile) => hostile,
        }
    }
}

/// Every one finite.
pub(crate) fn finite<Q: Measurable>(what: &str, values: &[Q]) {
    for value in values {
        assert!(value.si().is_finite(), "{what}: {}", value.si());
    }
}

/// Every one finite and not negative.
pub(crate) fn not_negative<Q: Measurable>(what: &str, values: &[Q]) {
    finite(what, values);
    for value in values {
        assert!(value.si() >= 0.0, "{what}: {}", value.si());
    }
}

/// From nothing to no capacity.
pub(crate) fn used(what: &str, utilization: Utilization) {
    let ratio = utilization.ratio();
    assert!((0.0..=1e6).contains(&ratio), "{what}: {ratio}");
}

/// A text that tells of no number that is none.
pub(crate) fn sound(text: &str) {
    let broken = |word: &str| {
        let word = word.trim_matches(|c: char| !c.is_alphanumeric());
        word == "NaN" || word == "inf"
    };
    assert!(!text.split_whitespace().any(broken), "{text}");
}

/// A worksheet and its cautions, in either form.
pub(crate) fn sheet(write: impl FnOnce(&mut Worksheet), draw: &mut Draw<'_>) {
    let system = draw.of(&[UnitSystem::Us, UnitSystem::Si]);
    let mut sheet = Worksheet::new("fuzz", system);
    write(&mut sheet);
    if draw.yes() {
        sound(&report::text(&sheet).to_string());
    } else {
        sound(&report::markdown(&sheet).to_string());
    }
}

/// A refusal names its field, in one line in either system.
pub(crate) fn refused(error: &Error) {
    for system in [UnitSystem::Us, UnitSystem::Si] {
        let text = error.in_system(system).to_string();
        assert!(!text.is_empty() && !text.contains('\n'), "{text}");
        let named = text.contains(error.field()) || matches!(error, Error::OppositeSense { .. });
        assert!(named, "{}: {text}", error.field());
    }
}
