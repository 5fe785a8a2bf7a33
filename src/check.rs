//! The whole check of one post: every load case against ground and post, and
//! what governs.
//!
//! | what | type |
//! |---|---|
//! | post, hole and ground | [`PostDesign`] |
//! | the check | [`PostCheck`] |
//! | which check is the worst | [`Governing`] |
//! | checks made only where asked for | [`SiteChecks`], [`SiteResults`] |
//! | lean of the top | [`LeanOptions`], [`LeanCheck`] |
//! | movement at grade of an isolated pole | [`GradeMovement`], [`Condition`] |
//! | frost | [`FrostOptions`], [`FrostCheck`] |
//! | pull-out | [`UpliftOptions`], [`UpliftCheck`] |
//! | weight with bending | [`crate::post::AxialOptions`], [`crate::post::AxialBending`] |
//! | quantities | [`MaterialOptions`], [`Materials`], [`MaterialsSum`] |

mod design;
mod frost;
mod governing;
mod lean;
mod materials;
mod missing;
mod movement;
mod post_check;
mod side;
mod site;
mod uplift;

pub use design::PostDesign;
pub use frost::{FrostCheck, FrostOptions, FrostRemedy, Grip};
pub use governing::Governing;
pub use lean::{Give, GroundStiffness, LeanCheck, LeanForm, LeanOptions};
pub use materials::{MaterialOptions, Materials, MaterialsSum};
pub use movement::{Condition, GradeMovement};
pub use post_check::PostCheck;
pub use side::{CreditedFriction, SideFriction};
pub use site::{Checked, SiteChecks, SiteResults};
pub use uplift::{UpliftCheck, UpliftOptions};
