//! The post itself: does it break before the ground gives?
//!
//! | post | type | source |
//! |---|---|---|
//! | sawn square timber | [`TimberPost`] | NDS, allowable stress |
//! | round timber, by diameter or circumference | [`RoundTimber`] | NDS, reference values yours |
//! | round steel pipe | [`PipePost`] | AISC 360 chapters F8 and G5 |
//! | square steel tube | [`SquareTubePost`] | AISC 360 chapters F7 and G4 |
//! | aluminium tube, round or square | [`AluminiumPost`] | Aluminum Design Manual, stocky walls |
//! | vinyl sleeve over an insert | [`SleevedPost`] | the insert alone |
//! | any other, strength known | [`GivenPost`] | yours |
//! | one of these | [`Post`] | |
//! | sawn square timber, design resistance | [`TimberEn1995`] | EN 1995-1-1 |
//! | round hollow section, design resistance | [`PipeEn1993`] | EN 1993-1-1 |
//! | square hollow section, design resistance | [`SquareTubeEn1993`] | EN 1993-1-1 |
//! | timber, pipe and tube in load and resistance factors | [`TimberPost::design_strength`], [`PipePost::design_strength`], [`SquareTubePost::design_strength`] | NDS Appendix N, AISC 360 |
//! | what a post resists in design actions | [`DesignResistance`] | that of the post |
//! | a post against design actions | [`DesignCheck`] | |
//! | moment and shear below grade | [`BelowGrade`] | statics |
//! | timber, pipe and tube as sold | [`catalogue`] | NDS Supplement, ASTM F1083, F1043, A500 |
//! | how far the top leans, with [`Post::rigidity`] | [`Lean`] | statics |
//! | weight and bending together | [`AxialBending`] | AISC 360 H1, NDS 3.9.2 |
//!
//! Bending and shear, where the moment is greatest. Axial load (small in a
//! fence post) is combined with bending where asked for. Wall or face lost to rust or decay
//! is a smaller section ([`crate::section::Tube::less_outside`],
//! [`crate::section::SquareTube::less_outside`],
//! [`crate::section::Disc::less_outside`],
//! [`crate::section::Square::less_each_face`]; how much steel may lose:
//! [`SteelStrength::loss_in_undisturbed_soil`]).

mod aluminium;
mod any;
mod axial;
mod below_grade;
pub mod catalogue;
mod design_resistance;
mod given;
mod lean;
mod pipe;
mod pipe_en1993;
mod property;
mod round_timber;
mod sleeved;
mod square_tube;
mod square_tube_en1993;
mod steel;
mod strength;
mod timber;
mod timber_en1995;
mod timber_factors;
mod timber_values;

pub use aluminium::{Alloy, Aluminium, AluminiumPost, Temper};
pub use any::Post;
pub use axial::{AxialBending, AxialForm, AxialOptions, CompressionValues, TurningStiffness};
pub use below_grade::BelowGrade;
pub use design_resistance::{DesignCheck, DesignResistance};
pub use given::GivenPost;
pub use lean::Lean;
pub use pipe::PipePost;
pub use pipe_en1993::PipeEn1993;
pub use property::PostProperty;
pub use round_timber::RoundTimber;
pub use sleeved::{Insert, Sleeve, SleevedPost};
pub use square_tube::SquareTubePost;
pub use square_tube_en1993::SquareTubeEn1993;
pub use steel::SteelStrength;
pub use strength::{PostStrength, PostStrengthCheck};
pub use timber::TimberPost;
pub use timber_en1995::{TimberClass, TimberEn1995};
pub use timber_factors::{Moisture, TimberFactors, Treatment};
pub use timber_values::{DesignValues, Grade, SizeClass, Species};

use strength::skew_moment;
