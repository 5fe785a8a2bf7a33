//! Posts that several tests use. Invented.

use groundline::check::PostDesign;
use groundline::foundation::Hole;
use groundline::ground::{Ground, SoilClass};
use groundline::post::{
    DesignValues, Grade, Moisture, PipePost, Species, SteelStrength, TimberPost, Treatment,
};
use groundline::section::{Square, Tube};
use groundline::units::{Length, inch, ksi};

/// A wet post of a species, No. 2, of an actual side in inches.
pub(crate) fn timber(species: Species, side: f64, treatment: Treatment) -> TimberPost {
    let values = DesignValues::of(species, Grade::No2, inch(side)).unwrap();
    let section = Square::new(inch(side)).unwrap();
    TimberPost::new(section, values, Moisture::Wet, treatment).unwrap()
}

/// A southern pine post of an actual side in inches.
pub(crate) fn pine(side: f64) -> TimberPost {
    timber(Species::SouthernPine, side, Treatment::NotIncised)
}

/// A pipe of 50 ksi, diameter and wall in inches.
pub(crate) fn pipe(diameter: f64, wall: f64) -> PipePost {
    let section = Tube::new(inch(diameter), inch(wall)).unwrap();
    PipePost::new(section, SteelStrength::new(ksi(50.0)).unwrap()).unwrap()
}

/// A pipe in a round hole of concrete, class 4.
pub(crate) fn in_concrete(hole: Length) -> PostDesign {
    PostDesign::in_concrete(
        Ground::presumptive(SoilClass::Class4),
        pipe(2.875, 0.16).into(),
        Hole::round(hole).unwrap(),
    )
    .unwrap()
}
