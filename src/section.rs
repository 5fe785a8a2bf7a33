//! Cross-sections of posts: geometry alone, no material.
//!
//! | section | type |
//! |---|---|
//! | solid square | [`Square`] |
//! | solid round, by diameter or by circumference | [`Disc`] |
//! | round tube | [`Tube`] |
//! | square tube with rounded corners | [`SquareTube`] |
//! | a tube, round or square | [`HollowSection`] |
//! | any of them | [`PostSection`] |
//!
//! Properties are exact geometry of the dimensions given (give the actual,
//! dressed size of timber: a 4×4 is 3.5 in). The shear area is the one on which
//! an even stress is the greatest elastic one, V Q/(I b) at the neutral axis.

mod any;
mod round;
mod square;
mod square_tube;
mod tube;

pub(crate) use any::disc;
pub use any::{HollowSection, PostSection};
pub use round::Disc;
pub use square::Square;
pub use square_tube::SquareTube;
pub use tube::Tube;
