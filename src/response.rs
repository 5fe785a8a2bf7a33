//! How a post bends in the ground: lean, movement at grade, moment, shear and
//! soil reaction along the whole post.
//!
//! | what | type |
//! |---|---|
//! | soil springs, layer by layer | [`Springs`], [`Curve`], [`Loading`] |
//! | post, load, ground | [`PostModel`] |
//! | one equilibrium after another, without allocation | [`Solver`] |
//! | the answer | [`Response`], [`Station`] |
//! | quick answers, and checks of the above | [`closed_form`] |
//!
//! A beam-column of Hermite elements on nonlinear springs: EI y'''' + N y'' =
//! w − p(z, y), with N the axial compression, w the wind and p the reaction of the
//! ground, both per length. z from grade downwards, y positive with the load, θ =
//! dy/dz, M = EI y''. Small rotations; a rotation beyond 0.5 rad counts as collapse.
//!
//! A load is carried or it is not; whether it carries factors is the caller's.
//! Movements are of interest at service level.

mod cells;
pub mod closed_form;
mod mesh;
mod model;
mod solution;
mod solver;
mod spring;
mod springs;
mod working;

pub use model::PostModel;
pub use solution::{Greatest, MeshError, Response, Station};
pub use solver::Solver;
pub use springs::{ClayCurve, Curve, Loading, Springs, api_sand_coefficients};
