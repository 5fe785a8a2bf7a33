//! Requests and answers as plain data, for programs in any language (feature
//! `serde`).
//!
//! A request names what to `calculate` and gives its `input`; every quantity
//! carries its unit, as `"8 ft"` or as `{"value": 8, "unit": "ft"}`. The answer
//! has a `result` in the `units` asked for, its `cautions` in full (show them)
//! and its `sources` with their marks; with `"worksheet": true` the working too,
//! and the sources of its every line.
//!
//! ```
//! use groundline::wire::{Answer, Node};
//! let text = r#"{
//!     "version": 1, "calculate": "post_check", "units": "us",
//!     "input": {
//!         "design": {
//!             "ground": { "class": 4 },
//!             "post": { "kind": "pipe", "diameter": "2-3/8 in", "wall": "0.13 in", "fy": "50 ksi" },
//!             "foundation": { "kind": "concrete", "hole": { "shape": "round", "size": "10 in" } }
//!         },
//!         "shear": "150 lb", "moment": "500 lb-ft", "axial": "0 lb", "planned_depth": "36 in"
//!     }
//! }"#;
//! let request: Node = serde_json::from_str(text).unwrap();
//! let answer = Answer::to(&request);
//! assert_eq!(answer.problems().count(), 0);
//! let governs = answer.node().at("result.governing").and_then(Node::as_text);
//! assert_eq!(governs, Some("embedment"));
//! ```
//!
//! What is wrong with a request comes back as data too: all of it at once, each
//! with its path, what stood there and what is allowed.
//!
//! ```
//! use groundline::wire::{Answer, Node};
//! let text = r#"{ "version": 1, "calculate": "post_check", "input": { "sheer": "150 lb" } }"#;
//! let answer = Answer::to(&serde_json::from_str(text).unwrap());
//! assert!(answer.problems().any(|p| p.path == "input.sheer"));
//! assert!(answer.problems().any(|p| p.path == "input.moment"));
//! ```
//!
//! | you ask | `calculate` |
//! |---|---|
//! | one post under a shear and a moment I know? | `post_check` |
//! | what is a hole already dug good for? | `post_capacity`; or `post_check` and `fence_schedule` with a `planned_depth` |
//! | every post of a fence? | `fence_schedule` |
//! | the wind on it, to any code? | `wind_pressures`, `fence_actions`, `velocity_pressure` |
//! | what does the ground really do? | `response`, `lateral_methods` |
//! | will it be pulled out or lifted by frost? | `pull_out`, `frost_balance`; of every post, the `checks` of `fence_schedule` |
//! | what do pull tests prove? | `axial_pull` and `side_pull` of one test, `characteristic_value`, `compare_settings`, `proof_load` and `proved_share` of several, `pile_resistance` of piles |
//! | a post fails: which single change makes it pass? | `remedies` |
//! | up to what wind, spacing, height? which is cheapest? | `greatest_wind` and its like, `smallest_hole`, `cheapest_option` |
//!
//! A line of each is in `examples/embed/requests.jsonl`; every name is in
//! [`Input::NAMES`], every field in the JSON Schema. An optional field may be left
//! out or null; in an answer what there is not is left out. A utilization is a
//! number, or the text `no capacity`. A source has `id`, `document`, `clause` and
//! `mark`; a worksheet a `title` and `sections` of `steps`, each with `symbol`,
//! `meaning`, `origin`, `formula` and its `terms`, `result` and `source`.
//!
//! | what | where |
//! |---|---|
//! | plain data | [`Node`] |
//! | request, answer | [`Request`], [`Answer`] |
//! | what can be calculated | [`Input`], by name in [`Input::NAMES`] |
//! | what is wrong | [`Problem`], [`Problems`] |
//! | JSON Schema | [`request_schema`], [`answer_schema`] |
//!
//! Names and meanings stay within a [`VERSION`]: fields may be added, none
//! changes. A program that reads numbers by `serde_json` should take its
//! feature `float_roundtrip`, else the last bit of a number may be lost before
//! it gets here.

mod answer;
mod backwards;
mod cheapest;
mod depth;
mod design;
mod fence;
mod field;
mod field_proof;
mod frost;
mod input;
mod lateral;
mod materials;
mod node;
mod plan;
mod post;
mod post_check;
mod profile;
mod reading;
mod record;
mod remedies;
mod request;
mod resistance;
mod schedule;
mod schema;
mod sensitivity;
mod side_pull;
mod site;
mod site_checks;
mod site_codes;
mod tables;
mod uplift;
mod value;
mod velocity;
mod wind;

pub use answer::Answer;
pub use backwards::*;
pub use cheapest::*;
pub use depth::*;
pub use design::*;
pub use fence::*;
pub use field::*;
pub use field_proof::*;
pub use frost::*;
pub use input::{Input, answer_schema, request_schema};
pub use lateral::*;
pub use materials::*;
pub use node::Node;
pub use plan::{KindSpec, NumberSpec, PlanSpec};
pub use post::*;
pub use post_check::{CheckResult, PostCheckRequest};
pub use profile::*;
pub use reading::{Problem, Problems};
pub use remedies::*;
pub use request::Request;
pub use resistance::*;
pub use schedule::{ScheduleResult, ScheduledPostResult};
pub use sensitivity::*;
pub use side_pull::*;
pub use site::*;
pub use site_checks::*;
pub use site_codes::*;
pub use tables::*;
pub use uplift::*;
pub use value::{Quantity, SectionArea, SectionModulus, Size, Stress, Style, UnitWeight};
pub use velocity::*;
pub use wind::*;

/// The version of the wire format.
pub const VERSION: u8 = 1;
