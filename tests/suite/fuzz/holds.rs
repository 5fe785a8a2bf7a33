//! What holds of every number, text and refusal.

use groundline::Error;
use groundline::units::{Measurable, UnitSystem};
use groundline::utilization::Utilization;

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

/// A refusal names its field, in one line in either system.
pub(crate) fn refused(error: &Error) {
    for system in [UnitSystem::Us, UnitSystem::Si] {
        let text = error.in_system(system).to_string();
        assert!(!text.is_empty() && !text.contains('\n'), "{text}");
        let named = text.contains(error.field()) || matches!(error, Error::OppositeSense { .. });
        assert!(named, "{}: {text}", error.field());
    }
}
