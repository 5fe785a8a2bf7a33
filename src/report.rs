//! Worksheets as text and as Markdown.
//!
//! Both carry the same lines; neither computes anything.

mod markdown;
mod text;

pub use markdown::markdown;
pub use text::text;

use crate::step::{Origin, Step};
use crate::units::UnitSystem;
use core::fmt::Write;

/// The numbers that go into a step: `P = 526.4 lb, b = 1.5 ft`.
fn numbers(step: &Step, system: UnitSystem) -> String {
    let mut text = String::new();
    for term in &step.terms {
        let separator = if text.is_empty() { "" } else { ", " };
        // Writing to a String cannot fail.
        let _ = write!(
            text,
            "{separator}{} = {:.6}",
            term.symbol,
            term.value.in_system(system)
        );
    }
    text
}

/// The result of a step: `d = 5.016 ft`.
fn result(step: &Step, system: UnitSystem) -> String {
    format!("{} = {:.6}", step.symbol, step.result.in_system(system))
}

/// How the result comes about, in a word for a given.
fn rule(step: &Step) -> &str {
    match step.origin {
        Origin::Given => "given",
        Origin::Computed | Origin::Root => &step.formula,
    }
}
