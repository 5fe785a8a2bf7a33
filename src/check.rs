//! The whole check of one post: every load case against ground and post, and
//! what governs.
//!
//! | what | type |
//! |---|---|
//! | post, hole and ground | [`PostDesign`] |
//! | the check | [`PostCheck`] |
//! | which check is the worst | [`Governing`] |

mod design;
mod governing;
mod post_check;

pub use design::PostDesign;
pub use governing::Governing;
pub use post_check::PostCheck;
