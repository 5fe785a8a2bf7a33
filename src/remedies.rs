//! Single changes that make a failing post, or a failing plan, pass.
//!
//! | question | function |
//! |---|---|
//! | which single change makes one post pass? | [`of_post`] |
//! | which single change makes every failing post of a plan pass? | [`of_plan`] |
//!
//! Every kind of change is tried ([`RemedyKind`]), from the least upwards in
//! practicable steps ([`RemedyOptions`]), until every check the plan includes passes:
//! embedment, bending, shear, bearing and the optional checks. The change found is then
//! applied to a copy of the plan and its schedule is checked again, so a remedy is
//! always a plan that passes; the step before it fails. Changes are not combined.
//!
//! A kind that does not help is listed with the check that still fails at the greatest
//! change tried ([`NotRemedied`]).
//!
//! Changes of design (depth, hole, post, fill, ground, paving) apply to the failing
//! posts alone. Changes of the fence (spacing, solidity, height) apply to every run
//! beyond the value, weights of panels stay as they are.
//!
//! ```
//! use groundline::{check::PostDesign, fence::*, foundation::Hole, ground::*, plan::FencePlan};
//! use groundline::{post::*, remedies::*, section::Tube, units::*, wind::*};
//! let fence = Fence::new(FenceRun::new(Panel::new(ft(6.0))?, ft(96.0), ft(8.0))?);
//! let v = BasicWindSpeed::strength_level(mph(115.0))?;
//! let site = AsceSite::new(Edition::Asce7_22, v, Exposure::B);
//! let pipe = PipePost::new(Tube::new(inch(2.875), inch(0.16))?, SteelStrength::new(ksi(50.0))?)?;
//! let ground = Ground::presumptive(SoilClass::Class4);
//! let design = PostDesign::in_concrete(ground, pipe.into(), Hole::round(inch(12.0))?)?;
//! let plan = FencePlan::new(site, fence, design).with_planned_depth(inch(30.0));
//! let remedies = of_plan(&plan, &RemedyOptions::default())?;
//! for line in remedies.lines(UnitSystem::Us) {
//!     println!("{line}");
//! }
//! for remedy in &remedies.found {
//!     let changed = remedies.applied(&plan, remedy)?;
//!     assert!(changed.schedule()?.posts().all(|post| post.passes_every_check()));
//! }
//! # Ok::<(), groundline::Error>(())
//! ```

mod change;
mod find;
mod larger;
mod options;
mod result;
mod text;

pub use change::{Change, Condition, RemedyKind};
pub use find::{of_plan, of_post};
pub use options::RemedyOptions;
pub use result::{NotRemedied, Remedies, Remedy, TriedRange, WhyNot};
