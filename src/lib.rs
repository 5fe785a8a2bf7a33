//! Structural checks for posts set in the ground under wind.
//!
//! **No result of this crate is a substitute for the locally adopted code and
//! a licensed engineer.** Every result carries its cautions
//! ([`caution::Cautions`]); show them.
//!
//! # Map
//!
//! The modules follow the load; each uses only those above it.
//!
//! | you have, or want | module |
//! |---|---|
//! | quantities, exact units, parsing, display | [`units`] |
//! | what is refused | [`error`], [`Error`] |
//! | where a number comes from | [`source`] |
//! | what must be said beside a number | [`caution`] |
//! | allowable stress or strength level, as a type | [`limit_state`] |
//! | demand over capacity | [`utilization`] |
//! | lines of a worksheet | [`step`] |
//! | wind pressure on a solid wall (ASCE 7) | [`wind`] |
//! | runs, corners, gates, posts | [`fence`] |
//! | shear, moment and weight at grade | [`actions`] |
//! | cross-sections | [`section`] |
//! | soil classes, lateral bearing, increases | [`ground`] |
//! | holes, concrete, restraint at grade | [`foundation`] |
//! | depth: pole formulas, rules of thumb | [`embedment`] |
//! | vertical bearing | [`bearing`] |
//! | timber and pipe strength, moment below grade | [`post`] |
//! | one post, everything, what governs | [`check`] |
//! | a whole fence | [`plan`] |
//! | worksheets as text and Markdown | [`report`] |
//!
//! # From wind to depth
//!
//! ```
//! assert!(true);
//! ```

pub mod units;

pub mod error;

pub mod source;

pub mod caution;

pub mod limit_state;

pub mod utilization;

pub mod step;

pub mod wind;

pub mod fence;

pub mod actions;

pub mod section;

pub mod ground;

pub mod foundation;

pub mod embedment;

pub mod bearing;

pub mod post;

pub mod check;

pub mod plan;

pub mod report;

pub use error::Error;

/// The README, so that its example runs as a test.
#[cfg(doctest)]
#[doc = include_str!("../README.md")]
pub struct Readme;
