//! Structural checks for posts set in the ground under wind.
//!
//! **No result of this crate is a substitute for the locally adopted code and
//! a licensed engineer.** Every result carries its cautions
//! ([`caution::Cautions`]); show them.
//!
//! # Where to start
//!
//! | you ask | begin at |
//! |---|---|
//! | how deep must each post of this fence be, and what governs? | [`plan::FencePlan`], the example below |
//! | is the hole as dug good enough? | [`plan::FencePlan::with_planned_depth`], [`plan::FencePlan::with_post`] for one that differs |
//! | one post under a force I know? | [`actions::GroundlineActions::wind`], [`check::PostCheck::of_actions`] |
//! | only the depth by the code formula? | [`embedment::PoleFormula::required`] |
//! | what does wind of EN 1991-1-4 or AS/NZS 1170.2 bring to each post? | [`actions::FenceWind::cases`] |
//! | does a post resist factored loads? | [`post::DesignResistance`] |
//! | will it lean, heave, pull out; how many bags? | [`check::SiteChecks`], asked by [`plan::FencePlan::with_site_checks`] |
//! | what does the ground really do? | [`response`], and [`side_by_side`] for every method |
//! | what would this fence stand, what is the smallest hole, the cheapest post? | [`backwards`] |
//! | a post fails: which single change makes it pass? | [`remedies`] |
//! | which input matters? | [`sensitivity`] |
//! | what do these pull tests prove? | [`field_test`] |
//! | why? | [`plan::Schedule::worksheet`], shown by [`report`] |
//! | all this from another language? | `wire` (feature `serde`) |
//!
//! # Map
//!
//! The modules follow the load; each uses only those above it.
//!
//! | subject | module |
//! |---|---|
//! | quantities, exact units, parsing, display | [`units`] |
//! | what is refused | [`error`], [`Error`] |
//! | where a number comes from | [`source`] |
//! | what must be said beside a number | [`caution`] |
//! | allowable stress, strength level, partial factors, as types | [`limit_state`] |
//! | factors on wind and dead load, named and cited | [`combination`] |
//! | demand over capacity | [`utilization`] |
//! | lines of a worksheet | [`step`] |
//! | wind pressure along a fence: ASCE 7, EN 1991-1-4, AS/NZS 1170.2, your own | [`wind`] |
//! | how solid pickets, lattice, mesh, slats make it | [`wind::Infill`] |
//! | runs, corners, gates, posts | [`fence`] |
//! | shear, moment and weight at grade | [`actions`] |
//! | cross-sections | [`section`] |
//! | soil classes, lateral bearing, increases | [`ground`] |
//! | holes, concrete, restraint at grade | [`foundation`] |
//! | layers of ground: weight, strength, stiffness, water | [`profile`] |
//! | pull-out, frost | [`uplift`] |
//! | concrete, foam, gravel, soil: what counts, how much to carry | [`backfill`] |
//! | depth: pole formulas, rules of thumb | [`embedment`] |
//! | ultimate sideways load: Broms, Hansen, plastic statics | [`lateral`] |
//! | lean, movement, moment along the post in the ground | [`response`] |
//! | what pull-out and side-pull tests prove | [`field_test`] |
//! | vertical bearing | [`bearing`] |
//! | strength of timber, steel, aluminium; moment below grade | [`post`] |
//! | one post, everything, what governs | [`check`] |
//! | its lean, frost, pull-out, weight with bending, bags, where asked for | [`check::SiteChecks`] |
//! | every method for one post, side by side | [`side_by_side`] |
//! | a whole fence | [`plan`] |
//! | greatest speed, spacing, height, solidity, smallest hole, cheapest option | [`backwards`] |
//! | single changes that make a failing post or plan pass | [`remedies`] |
//! | what matters: each input varied, inputs at random | [`sensitivity`] |
//! | worksheets as text and Markdown | [`report`] |
//! | requests and answers as data, for any language (feature `serde`) | `wire` |
//!
//! # From wind to depth
//!
//! ```
//! use groundline::{check::PostDesign, fence::*, foundation::Hole, ground::*, plan::FencePlan};
//! use groundline::{post::*, section::Tube, units::*, wind::*};
//!
//! fn main() -> Result<(), groundline::Error> {
//!     let panel = Panel::new(ft(6.0))?.with_clearance(inch(2.0))?;
//!     let fence = Fence::new(FenceRun::new(panel, ft(96.0), ft(8.0))?);
//!     let speed = BasicWindSpeed::strength_level(mph(115.0))?;
//!     let site = AsceSite::new(Edition::Asce7_22, speed, Exposure::B);
//!     let steel = SteelStrength::new(ksi(50.0))?;
//!     let pipe = PipePost::new(Tube::new(inch(2.875), inch(0.160))?, steel)?;
//!     let ground = Ground::presumptive(SoilClass::Class4);
//!     let design = PostDesign::in_concrete(ground, pipe.into(), Hole::round(inch(12.0))?)?;
//!     let plan = FencePlan::new(site, fence, design).with_planned_depth(inch(30.0));
//!     let schedule = plan.schedule()?;
//!     for post in schedule.posts() {
//!         let depth = show(post.check.required.depth(), UnitSystem::Us);
//!         println!("post {}: needs {depth}, at 30 in use {}", post.post.number, post.check.utilization);
//!     }
//!     for caution in schedule.cautions().iter() {
//!         println!("{caution}");
//!     }
//!     Ok(())
//! }
//! ```
//!
//! # Conventions
//!
//! Lengths along a fence are measured from the start of a run to post centres,
//! depths downwards from grade. Shear and moment at grade are positive when
//! they turn the post the same way ([`actions`]). Wind is at the limit state of
//! its code; a plan checks ground and post at allowable-stress level, which
//! wind of ASCE 7 or a pressure of your own combines to and others do not. A
//! post alone is checked against factored loads too
//! ([`post::DesignResistance`]). The state is in the type ([`limit_state`],
//! [`combination`]).

#![cfg_attr(docsrs, feature(doc_cfg))]

pub mod units;

pub mod error;

pub mod source;

pub mod caution;

pub mod limit_state;

pub mod combination;

pub mod utilization;

pub mod step;

pub mod wind;

pub mod fence;

pub mod actions;

pub mod section;

pub mod ground;

pub mod foundation;

pub mod profile;

pub mod uplift;

pub mod backfill;

pub mod embedment;

pub mod lateral;

pub mod response;

pub mod field_test;

pub mod bearing;

pub mod post;

pub mod check;

pub mod side_by_side;

pub mod plan;

pub mod backwards;

pub mod remedies;

pub mod sensitivity;

pub mod report;

#[cfg(feature = "serde")]
#[cfg_attr(docsrs, doc(cfg(feature = "serde")))]
pub mod wire;

pub use error::Error;

/// The README, so that its example runs as a test.
#[cfg(doctest)]
#[doc = include_str!("../README.md")]
pub struct Readme;
