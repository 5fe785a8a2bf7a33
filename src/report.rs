//! Worksheets as text and as Markdown.
//!
//! Both carry the same lines, numbers to six significant digits; neither computes
//! anything. Worksheets come of [`Schedule::worksheet`](crate::plan::Schedule::worksheet)
//! and of the `worksheet` and `write` methods of results.
//!
//! ```
//! # use groundline::{actions::*, check::*, foundation::Hole, ground::*, post::*, section::*};
//! # use groundline::{limit_state::AllowableStress, units::*};
//! # let steel = SteelStrength::new(ksi(50.0))?;
//! # let pipe = PipePost::new(Tube::new(inch(2.375), inch(0.13))?, steel)?;
//! # let ground = Ground::presumptive(SoilClass::Class4);
//! # let design = PostDesign::in_concrete(ground, pipe.into(), Hole::round(inch(10.0))?)?;
//! # let load = GroundlineActions::new(lb(150.0), lb_ft(500.0), lb(0.0), AllowableStress::Basic)?;
//! let check = PostCheck::of_actions(&design, &load, Some(inch(36.0)))?;
//! let sheet = check.worksheet("Post beside the drive", UnitSystem::Us);
//! println!("{}", groundline::report::text(&sheet));
//! # Ok::<(), groundline::Error>(())
//! ```

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
            "{separator}{} = {}",
            term.symbol,
            term.value.in_system(system).significant(6)
        );
    }
    text
}

/// The result of a step: `d = 5.016 ft`.
fn result(step: &Step, system: UnitSystem) -> String {
    format!(
        "{} = {}",
        step.symbol,
        step.result.in_system(system).significant(6)
    )
}

/// The formula of a step, or the word "given".
fn rule(step: &Step) -> &str {
    match step.origin {
        Origin::Given => "given",
        Origin::Computed | Origin::Root => &step.formula,
    }
}
