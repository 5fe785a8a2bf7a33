//! Pull-out and frost: what holds a post down, and what lifts it.
//!
//! | what | where | source |
//! |---|---|---|
//! | friction on the shaft | [`Friction`], [`Shaft`] | IBC presumptive (quoted), α and K tan δ (from memory) |
//! | soil lifted with a collar | [`soil_cone`] | geometry |
//! | plate or collar breaking out of sand | [`Breakout`] | Meyerhof and Adams (quoted, from memory) |
//! | bond of post to footing | [`Bond`] | Hoyle and Woeste 1989 (quoted), or given |
//! | the weakest of them, named | [`PullOut`] | |
//! | how deep frost goes | [`frost_depth`], [`berggren_lambda`] | Stefan, modified Berggren |
//! | what frost lifts with | [`Adfreeze`] | CFEM 4th ed. (quoted) |
//!
//! Depths from grade. Forces positive upwards where they lift and downwards
//! where they hold.

mod bond;
mod breakout;
mod cone;
mod friction;
mod frost;
mod pull_out;

pub use bond::Bond;
pub use breakout::Breakout;
pub use cone::soil_cone;
pub use friction::{
    Friction, Shaft, api_alpha, drilled_shaft_alpha, gec10_alpha, presumptive_friction,
};
pub(crate) use frost::erf;
pub use frost::{
    Adfreeze, FreezingIndex, FrostBalance, FrozenGround, LatentHeat, ThermalConductivity,
    berggren_lambda, frost_depth,
};
pub use pull_out::{HowKnown, PullOut, PullOutMode, PullOutResistance};
