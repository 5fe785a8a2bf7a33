//! What matters: how the governing utilization of a plan moves with each input,
//! and how it spreads where inputs are not known for certain.
//!
//! | question | function, type |
//! |---|---|
//! | what can be varied | [`Input`] |
//! | a plan with one input multiplied | [`vary`], [`allowed_factors`] |
//! | each input alone: ±10 %, elasticity, what governs | [`sensitivity`], [`Sensitivity`] |
//! | inputs at random: how often above 1 | [`uncertainty`], [`Uncertainty`] |
//! | the distributions | [`Distribution`] |
//! | a share of samples and its sampling error | [`Proportion`] |
//!
//! Every value comes from the forward check of a plan that was built anew
//! through validating constructors. A factor that leaves an allowed range is
//! told, never cut back.
//!
//! ```
//! use groundline::{check::PostDesign, fence::*, foundation::Hole, ground::*, plan::FencePlan};
//! use groundline::{post::*, section::Tube, sensitivity::*, units::*, wind::*};
//! # let fence = Fence::new(FenceRun::new(Panel::new(ft(6.0))?, ft(96.0), ft(8.0))?);
//! # let v = BasicWindSpeed::strength_level(mph(115.0))?;
//! # let site = AsceSite::new(Edition::Asce7_22, v, Exposure::C);
//! # let pipe = PipePost::new(Tube::new(inch(2.875), inch(0.2))?, SteelStrength::new(ksi(50.0))?)?;
//! # let ground = Ground::presumptive(SoilClass::Class4);
//! # let design = PostDesign::in_concrete(ground, pipe.into(), Hole::round(inch(12.0))?)?;
//! let plan = FencePlan::new(site, fence, design).with_planned_depth(ft(5.0));
//! let found = sensitivity(&plan, Band::default())?;
//! for effect in found.by_influence() {
//!     println!("{}: {}", effect.input, effect.elasticity);
//! }
//! // Force goes by the square of the speed.
//! let speed = found.effect(Input::WindSpeed).unwrap();
//! assert!((speed.elasticity.value().unwrap() - 2.0).abs() < 1e-6);
//! # Ok::<(), groundline::Error>(())
//! ```

mod band;
mod distribution;
mod effect;
mod input;
mod point;
mod proportion;
mod study;
mod uncertainty;
mod vary;
mod working;

pub use band::Band;
pub use distribution::Distribution;
pub use effect::{Effect, Elasticity, OneSided, Switch};
pub use input::Input;
pub use point::{DepthPoint, Point};
pub use proportion::Proportion;
pub use study::{Sensitivity, sensitivity};
pub use uncertainty::{Truncation, Uncertainty, uncertainty};
pub use vary::{allowed_factors, vary};
