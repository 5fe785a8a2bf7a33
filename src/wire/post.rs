//! Sections and posts on the wire.

use super::reading::{Path, Problems};
use super::record::{alternatives, names, records};
use super::value::{Size, Stress};
use crate::error::Error;
use crate::post::{
    Alloy, Aluminium, AluminiumPost, DesignValues, GivenPost, Grade, Moisture, PipePost, Post,
    RoundTimber, SizeClass, Sleeve, SleevedPost, Species, SquareTubePost, SteelStrength, Temper,
    TimberPost, Treatment,
};
use crate::section::{Disc, HollowSection, PostSection, Square, SquareTube, Tube};
use crate::units::{FlexuralRigidity, Force, Torque};

names! {
    Species {
        "southern_pine" => Species::SouthernPine,
        "douglas_fir_larch" => Species::DouglasFirLarch,
        "hem_fir" => Species::HemFir,
        "spruce_pine_fir" => Species::SprucePineFir,
        "western_cedars" => Species::WesternCedars,
    }
    Grade { "no_1" => Grade::No1, "no_2" => Grade::No2, }
    SizeClass {
        "dimension" => SizeClass::Dimension,
        "southern_pine_dimension" => SizeClass::SouthernPineDimension,
        "timbers" => SizeClass::Timbers,
        "southern_pine_timbers" => SizeClass::SouthernPineTimbers,
    }
    Moisture { "wet" => Moisture::Wet, "dry" => Moisture::Dry, }
    Treatment { "not_incised" => Treatment::NotIncised, "incised" => Treatment::Incised, }
    Alloy { "6063-T6" => Alloy::A6063T6, "6061-T6" => Alloy::A6061T6, }
    Temper { "unwelded" => Temper::Unwelded, "welded" => Temper::Welded, }
}

records! {
    /// A solid square.
    SquareSpec {
        /// Actual side.
        side: Size,
        /// Loss of each face to decay.
        loss: Option<Size>,
    }
    /// A solid round.
    DiscSpec {
        /// Diameter; instead of circumference.
        diameter: Option<Size>,
        /// Circumference; instead of diameter.
        circumference: Option<Size>,
        /// Loss of the outside to decay.
        loss: Option<Size>,
    }
    /// A round tube.
    TubeSpec {
        /// Outside diameter.
        diameter: Size,
        /// Design wall.
        wall: Size,
        /// Loss of the outside to rust.
        loss: Option<Size>,
    }
    /// A square tube.
    SquareTubeSpec {
        /// Outside side.
        side: Size,
        /// Design wall.
        wall: Size,
        /// Outside radius of the corners; twice the wall unless said.
        corner_radius: Option<Size>,
        /// Loss of the outside to rust.
        loss: Option<Size>,
    }
    /// Sawn square timber (NDS).
    TimberSpec {
        /// Actual side: a 4x4 is 3.5 in.
        side: Size,
        /// Species; with grade, instead of fb, fv and size_class.
        species: Option<Species>,
        /// Grade.
        grade: Option<Grade>,
        /// Reference bending stress of your own.
        fb: Option<Stress>,
        /// Reference shear stress of your own.
        fv: Option<Stress>,
        /// The table your own values belong to.
        size_class: Option<SizeClass>,
        /// Reference E of your own.
        modulus: Option<Stress>,
        /// Moisture in service; wet unless said.
        moisture: Option<Moisture>,
        /// How the preservative got in: a fifth of the strength hangs on it.
        treatment: Treatment,
        /// Loss of each face to decay.
        loss: Option<Size>,
    }
    /// Round timber.
    RoundTimberSpec {
        /// Diameter at grade; instead of circumference.
        diameter: Option<Size>,
        /// Circumference at grade; instead of diameter.
        circumference: Option<Size>,
        /// Loss of the outside to decay.
        loss: Option<Size>,
        /// Reference bending stress.
        fb: Stress,
        /// Reference shear stress.
        fv: Stress,
        /// Reference E.
        modulus: Option<Stress>,
    }
    /// Round steel pipe (AISC 360).
    PipeSpec {
        /// Outside diameter.
        diameter: Size,
        /// Design wall.
        wall: Size,
        /// Yield strength.
        fy: Stress,
        /// Loss of the outside to rust.
        loss: Option<Size>,
    }
    /// Square steel tube (AISC 360).
    SquareTubePostSpec {
        /// Outside side.
        side: Size,
        /// Design wall.
        wall: Size,
        /// Outside radius of the corners; twice the wall unless said.
        corner_radius: Option<Size>,
        /// Loss of the outside to rust.
        loss: Option<Size>,
        /// Yield strength.
        fy: Stress,
    }
    /// Aluminium tube.
    AluminiumSpec {
        /// Its section, tube or square_tube.
        section: SectionSpec,
        /// Alloy; instead of fty and ftu.
        alloy: Option<Alloy>,
        /// Is there a weld where the moment is great? Goes with alloy.
        temper: Option<Temper>,
        /// Yield strength of your own.
        fty: Option<Stress>,
        /// Ultimate strength of your own.
        ftu: Option<Stress>,
    }
    /// A vinyl sleeve over an insert.
    SleevedSpec {
        /// Outside side of the sleeve.
        outside: Size,
        /// Wall of the sleeve.
        wall: Size,
        /// The insert: any post but a sleeved one.
        insert: Box<PostSpec>,
    }
    /// A post whose allowable strength is known.
    GivenPostSpec {
        /// Its section.
        section: SectionSpec,
        /// Allowable moment about an axis parallel to a face.
        moment: Torque,
        /// Allowable shear.
        shear: Force,
        /// EI, for lean.
        rigidity: Option<FlexuralRigidity>,
    }
}

alternatives! {
    /// A section.
    SectionSpec {
        /// Solid square.
        "square" => Square(SquareSpec),
        /// Solid round.
        "disc" => Disc(DiscSpec),
        /// Round tube.
        "tube" => Tube(TubeSpec),
        /// Square tube.
        "square_tube" => SquareTube(SquareTubeSpec),
    }
    /// A post.
    PostSpec {
        /// Sawn square timber.
        "timber" => Timber(TimberSpec),
        /// Round timber.
        "round_timber" => RoundTimber(RoundTimberSpec),
        /// Round steel pipe.
        "pipe" => Pipe(PipeSpec),
        /// Square steel tube.
        "square_tube" => SquareTube(SquareTubePostSpec),
        /// Aluminium tube.
        "aluminium" => Aluminium(AluminiumSpec),
        /// A vinyl sleeve over an insert.
        "sleeved" => Sleeved(SleevedSpec),
        /// Of known strength.
        "given" => Given(GivenPostSpec),
    }
}

/// A section, and what is left of it.
fn less<S>(
    made: Result<S, Error>,
    at: &Path<'_>,
    loss: Option<Size>,
    lose: impl FnOnce(&S, crate::units::Length) -> Result<S, Error>,
    problems: &mut Problems,
) -> Option<S> {
    let names = [
        ("post size", "side"),
        ("pipe diameter", "diameter"),
        ("pipe wall", "wall"),
        ("tube side", "side"),
        ("tube wall", "wall"),
        ("corner radius", "corner_radius"),
        ("post diameter", "diameter"),
        ("post circumference", "circumference"),
    ];
    let section = problems.take_by(at, &names, made)?;
    match loss {
        Some(Size(loss)) => problems.take(&at.field("loss"), lose(&section, loss)),
        None => Some(section),
    }
}

fn square(spec: &SquareSpec, at: &Path<'_>, problems: &mut Problems) -> Option<Square> {
    let made = Square::new(spec.side.0);
    less(made, at, spec.loss, Square::less_each_face, problems)
}

fn disc(spec: &DiscSpec, at: &Path<'_>, problems: &mut Problems) -> Option<Disc> {
    let made = match (spec.diameter, spec.circumference) {
        (Some(Size(diameter)), None) => Disc::new(diameter),
        (None, Some(Size(circumference))) => Disc::of_circumference(circumference),
        _ => {
            problems.add(at, None, "give either diameter or circumference");
            return None;
        }
    };
    less(made, at, spec.loss, Disc::less_outside, problems)
}

fn tube(spec: &TubeSpec, at: &Path<'_>, problems: &mut Problems) -> Option<Tube> {
    let made = Tube::new(spec.diameter.0, spec.wall.0);
    less(made, at, spec.loss, Tube::less_outside, problems)
}

fn square_tube(
    spec: &SquareTubeSpec,
    at: &Path<'_>,
    problems: &mut Problems,
) -> Option<SquareTube> {
    let mut made = SquareTube::new(spec.side.0, spec.wall.0);
    if let Some(Size(radius)) = spec.corner_radius {
        made = made.and_then(|tube| tube.with_corner_radius(radius));
    }
    less(made, at, spec.loss, SquareTube::less_outside, problems)
}

impl SectionSpec {
    pub(super) fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<PostSection> {
        match self {
            Self::Square(spec) => square(spec, at, problems).map(PostSection::Square),
            Self::Disc(spec) => disc(spec, at, problems).map(PostSection::Disc),
            Self::Tube(spec) => tube(spec, at, problems).map(PostSection::Tube),
            Self::SquareTube(spec) => square_tube(spec, at, problems).map(PostSection::SquareTube),
        }
    }
}

impl TimberSpec {
    fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<TimberPost> {
        let spec = SquareSpec {
            side: self.side,
            loss: self.loss,
        };
        let square = square(&spec, at, problems);
        let values = match (self.species, self.grade, self.fb, self.fv, self.size_class) {
            (Some(species), Some(grade), None, None, None) => problems.take(
                &at.field("species"),
                DesignValues::of(species, grade, self.side.0),
            ),
            (None, None, Some(Stress(fb)), Some(Stress(fv)), Some(class)) => {
                let names = [("Fb", "fb"), ("Fv", "fv")];
                problems.take_by(at, &names, DesignValues::new(fb, fv, class))
            }
            _ => {
                problems.add(
                    at,
                    None,
                    "give either species and grade, or fb, fv and size_class",
                );
                None
            }
        };
        let values = match (values, self.modulus) {
            (Some(values), Some(Stress(modulus))) => {
                problems.take(&at.field("modulus"), values.with_modulus(modulus))
            }
            (values, _) => values,
        };
        let moisture = self.moisture.unwrap_or_default();
        problems.take(
            at,
            TimberPost::new(square?, values?, moisture, self.treatment),
        )
    }
}

impl RoundTimberSpec {
    fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<RoundTimber> {
        let spec = DiscSpec {
            diameter: self.diameter,
            circumference: self.circumference,
            loss: self.loss,
        };
        let section = disc(&spec, at, problems)?;
        let made = RoundTimber::new(section, self.fb.0, self.fv.0);
        let post = problems.take_by(at, &[("Fb", "fb"), ("Fv", "fv")], made)?;
        match self.modulus {
            Some(Stress(modulus)) => {
                problems.take(&at.field("modulus"), post.with_modulus(modulus))
            }
            None => Some(post),
        }
    }
}

impl PipeSpec {
    fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<PipePost> {
        let spec = TubeSpec {
            diameter: self.diameter,
            wall: self.wall,
            loss: self.loss,
        };
        let tube = tube(&spec, at, problems);
        let steel = problems.take(&at.field("fy"), SteelStrength::new(self.fy.0));
        problems.take_by(at, &[("pipe wall", "wall")], PipePost::new(tube?, steel?))
    }
}

impl SquareTubePostSpec {
    fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<SquareTubePost> {
        let spec = SquareTubeSpec {
            side: self.side,
            wall: self.wall,
            corner_radius: self.corner_radius,
            loss: self.loss,
        };
        let section = square_tube(&spec, at, problems);
        let steel = problems.take(&at.field("fy"), SteelStrength::new(self.fy.0));
        problems.take(at, SquareTubePost::new(section?, steel?))
    }
}

impl AluminiumSpec {
    fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<AluminiumPost> {
        let place = at.field("section");
        let section = match self.section.build(&place, problems) {
            Some(PostSection::Tube(tube)) => Some(HollowSection::from(tube)),
            Some(PostSection::SquareTube(tube)) => Some(HollowSection::from(tube)),
            Some(_) => {
                problems.add(&place.field("kind"), None, "give a tube or a square_tube");
                None
            }
            None => None,
        };
        let metal = match (self.alloy, self.temper, self.fty, self.ftu) {
            (Some(alloy), Some(temper), None, None) => Some(Aluminium::of(alloy, temper)),
            (None, None, Some(Stress(fty)), Some(Stress(ftu))) => {
                let names = [("Fty", "fty"), ("Ftu", "ftu")];
                problems.take_by(at, &names, Aluminium::given(fty, ftu))
            }
            _ => {
                problems.add(at, None, "give either alloy and temper, or fty and ftu");
                None
            }
        };
        problems.take(&place, AluminiumPost::new(section?, metal?))
    }
}

impl SleevedSpec {
    fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<SleevedPost> {
        let sleeve = Sleeve::new(self.outside.0, self.wall.0);
        let names = [("sleeve side", "outside"), ("sleeve wall", "wall")];
        let sleeve = problems.take_by(at, &names, sleeve);
        let place = at.field("insert");
        // Told before it is built, so that nesting ends here.
        if matches!(*self.insert, PostSpec::Sleeved(_)) {
            problems.add(&place, None, "the insert is not itself sleeved");
            return None;
        }
        let insert = self.insert.build(&place, problems);
        problems.take(&place, SleevedPost::new(sleeve?, insert?))
    }
}

impl PostSpec {
    pub(super) fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Post> {
        match self {
            Self::Timber(spec) => spec.build(at, problems).map(Post::from),
            Self::RoundTimber(spec) => spec.build(at, problems).map(Post::from),
            Self::Pipe(spec) => spec.build(at, problems).map(Post::from),
            Self::SquareTube(spec) => spec.build(at, problems).map(Post::from),
            Self::Aluminium(spec) => spec.build(at, problems).map(Post::from),
            Self::Sleeved(spec) => spec.build(at, problems).map(Post::from),
            Self::Given(given) => {
                let section = given.section.build(&at.field("section"), problems)?;
                let made = GivenPost::new(section, given.moment, given.shear);
                let names = [("allowable moment", "moment"), ("allowable shear", "shear")];
                let post = problems.take_by(at, &names, made)?;
                let post = match given.rigidity {
                    Some(rigidity) => {
                        problems.take(&at.field("rigidity"), post.with_rigidity(rigidity))?
                    }
                    None => post,
                };
                Some(Post::from(post))
            }
        }
    }
}

impl SquareSpec {
    pub(super) fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Square> {
        square(self, at, problems)
    }
}

impl TubeSpec {
    pub(super) fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Tube> {
        tube(self, at, problems)
    }
}

impl SquareTubeSpec {
    pub(super) fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<SquareTube> {
        square_tube(self, at, problems)
    }
}
