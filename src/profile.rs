//! One description of the ground: layers with weight, strength and stiffness,
//! the water table, what does not count, and what the post bears against.
//!
//! | what | type |
//! |---|---|
//! | a soil | [`Soil`], [`Stiffness`] |
//! | layers over one another | [`Layer`], [`Profile`] |
//! | values to start from, each with its mark | [`presumed`] |
//!
//! Limit-state methods ([`crate::lateral`]) and the response of a post
//! ([`crate::response`]) both read it. The presumptive lateral bearing of the
//! building code is another thing and stays in [`crate::ground`].

mod layers;
pub mod presumed;
mod soil;

pub(crate) use layers::water;
pub use layers::{BearingSurface, Layer, Profile};
pub use soil::{Soil, Stiffness};
