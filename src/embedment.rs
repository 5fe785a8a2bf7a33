//! How deep a post must be set, what a planned depth is good for, and what
//! rules of thumb say.
//!
//! | method | type | source |
//! |---|---|---|
//! | pole formulas, nonconstrained and constrained | [`PoleFormula`] | IBC 1807.3.2, equations 18-1 to 18-3 |
//! | block on its base, no side bearing | [`SpreadBlock`] | statics of a spread footing |
//! | rules of thumb and of fence standards, for comparison only | [`DepthRule`] | see each |

mod cubic;
mod depth_rules;
mod pole_formula;
mod spread_block;

pub use cubic::positive_root;
pub use depth_rules::{DepthRule, hole_diameter_rule, utility_pole_depth};
#[cfg(feature = "serde")]
pub(crate) use pole_formula::max_depth;
pub use pole_formula::{DepthCap, DepthCheck, Equation, PoleFormula, RequiredDepth};
pub use spread_block::{Overturning, SpreadBlock};
