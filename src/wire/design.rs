//! Ground, post and hole on the wire.

use super::reading::{Path, Problems};
use super::record::{alternatives, names, records};
use super::value::{Size, Stress};
use crate::check::PostDesign;
use crate::embedment::DepthCap;
use crate::foundation::{Foundation, Hole, HoleShape, Restraint, SquareWidth};
use crate::ground::{Ground, LateralBearing, SoilClass};
use crate::limit_state::AllowableStress;
use crate::post::{
    DesignValues, GivenPost, Grade, Moisture, PipePost, Post, SizeClass, Species, SteelStrength,
    TimberPost, Treatment,
};
use crate::section::{PostSection, Square, Tube};
use crate::units::{Force, ForcePerVolume, Pressure, Torque, UnitSystem};

names! {
    UnitSystem { "us" => UnitSystem::Us, "si" => UnitSystem::Si, }
    AllowableStress {
        "basic" => AllowableStress::Basic,
        "alternative_with_increase" => AllowableStress::AlternativeWithIncrease,
    }
    HoleShape { "round" => HoleShape::Round, "square" => HoleShape::Square, }
    Restraint { "none" => Restraint::None, "rigid_paving" => Restraint::RigidPaving, }
    SquareWidth { "diagonal" => SquareWidth::Diagonal, "face" => SquareWidth::Face, }
    DepthCap {
        "cap_depth" => DepthCap::CapDepth,
        "cap_reading" => DepthCap::CapReading,
    }
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
}

records! {
    /// Ground: a class of IBC Table 1806.2, or a lateral bearing of your own.
    GroundSpec {
        /// Class of IBC Table 1806.2, 1 to 5; instead of lateral_bearing.
        class: Option<usize>,
        /// Allowable lateral bearing per depth; instead of class.
        lateral_bearing: Option<ForcePerVolume>,
        /// Allowable vertical foundation pressure.
        vertical_pressure: Option<Pressure>,
        /// Lateral bearing doubled as for an isolated pole (1806.3.4).
        isolated_pole: Option<bool>,
        /// Doubling and one-third increase allowed together.
        both_increases: Option<bool>,
        /// Top layer that does not count.
        discounted_top: Option<Size>,
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
        /// Moisture in service; wet unless said.
        moisture: Option<Moisture>,
        /// How the preservative got in: a fifth of the strength hangs on it.
        treatment: Treatment,
        /// Loss of each face to decay.
        loss: Option<Size>,
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
    /// A post whose allowable strength is known.
    GivenPostSpec {
        /// Its section.
        section: SectionSpec,
        /// Allowable moment about an axis parallel to a face.
        moment: Torque,
        /// Allowable shear.
        shear: Force,
    }
    /// A solid square.
    SquareSpec {
        /// Actual side.
        side: Size,
    }
    /// A round tube.
    TubeSpec {
        /// Outside diameter.
        diameter: Size,
        /// Wall.
        wall: Size,
    }
    /// A hole.
    HoleSpec {
        /// Round or square.
        shape: HoleShape,
        /// Diameter or side.
        size: Size,
    }
    /// Poured concrete in a hole.
    ConcreteSpec {
        /// The hole.
        hole: HoleSpec,
        /// Restraint at grade; none unless said.
        restraint: Option<Restraint>,
        /// b of a square; the diagonal unless said.
        square_width: Option<SquareWidth>,
    }
    /// A post in backfill, without a structural footing.
    BareSpec {
        /// Restraint at grade; none unless said.
        restraint: Option<Restraint>,
        /// b of a square; the diagonal unless said.
        square_width: Option<SquareWidth>,
    }
    /// A kind of post in a kind of hole in a ground.
    DesignSpec {
        /// The ground.
        ground: GroundSpec,
        /// The post.
        post: PostSpec,
        /// What it is set in.
        foundation: FoundationSpec,
        /// Load combinations; basic unless said.
        combination: Option<AllowableStress>,
        /// Reading of the 12 ft rule.
        depth_cap: Option<DepthCap>,
    }
}

alternatives! {
    /// A section.
    SectionSpec {
        /// Solid square.
        "square" => Square(SquareSpec),
        /// Round tube.
        "tube" => Tube(TubeSpec),
    }
    /// A post.
    PostSpec {
        /// Sawn square timber.
        "timber" => Timber(TimberSpec),
        /// Round steel pipe.
        "pipe" => Pipe(PipeSpec),
        /// Of known strength.
        "given" => Given(GivenPostSpec),
    }
    /// What a post is set in.
    FoundationSpec {
        /// Poured concrete.
        "concrete" => Concrete(ConcreteSpec),
        /// Backfill only.
        "bare" => Bare(BareSpec),
    }
}

impl GroundSpec {
    pub(super) fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Ground> {
        let ground = match (self.class, self.lateral_bearing) {
            (Some(class), None) => {
                let number = u8::try_from(class).unwrap_or(u8::MAX);
                problems
                    .take(&at.field("class"), SoilClass::from_number(number))
                    .map(Ground::presumptive)
            }
            (None, Some(lateral)) => problems
                .take(&at.field("lateral_bearing"), LateralBearing::new(lateral))
                .map(Ground::with_lateral_bearing),
            _ => {
                problems.add(at, None, "give either class or lateral_bearing");
                None
            }
        };
        let mut ground = ground?;
        if let Some(pressure) = self.vertical_pressure {
            let place = at.field("vertical_pressure");
            ground = problems.take(&place, ground.with_vertical_pressure(pressure))?;
        }
        if let Some(Size(top)) = self.discounted_top {
            let place = at.field("discounted_top");
            ground = problems.take(&place, ground.discounting_top(top))?;
        }
        if self.isolated_pole == Some(true) {
            ground = ground.as_isolated_pole();
        }
        if self.both_increases == Some(true) {
            ground = ground.allowing_both_increases();
        }
        Some(ground)
    }
}

impl SquareSpec {
    pub(super) fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Square> {
        problems.take(&at.field("side"), Square::new(self.side.0))
    }
}

impl TubeSpec {
    pub(super) fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Tube> {
        problems.take(at, Tube::new(self.diameter.0, self.wall.0))
    }
}

impl SectionSpec {
    pub(super) fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<PostSection> {
        match self {
            Self::Square(square) => square.build(at, problems).map(PostSection::Square),
            Self::Tube(tube) => tube.build(at, problems).map(PostSection::Tube),
        }
    }
}

impl TimberSpec {
    fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<TimberPost> {
        let square = problems.take(&at.field("side"), Square::new(self.side.0));
        let square = match (square, self.loss) {
            (Some(square), Some(Size(loss))) => {
                problems.take(&at.field("loss"), square.less_each_face(loss))
            }
            (square, _) => square,
        };
        let values = match (self.species, self.grade, self.fb, self.fv, self.size_class) {
            (Some(species), Some(grade), None, None, None) => problems.take(
                &at.field("species"),
                DesignValues::of(species, grade, self.side.0),
            ),
            (None, None, Some(Stress(fb)), Some(Stress(fv)), Some(class)) => {
                problems.take(&at.field("fb"), DesignValues::new(fb, fv, class))
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
        let moisture = self.moisture.unwrap_or_default();
        problems.take(
            at,
            TimberPost::new(square?, values?, moisture, self.treatment),
        )
    }
}

impl PipeSpec {
    fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<PipePost> {
        let tube = problems.take(
            &at.field("diameter"),
            Tube::new(self.diameter.0, self.wall.0),
        );
        let tube = match (tube, self.loss) {
            (Some(tube), Some(Size(loss))) => {
                problems.take(&at.field("loss"), tube.less_outside(loss))
            }
            (tube, _) => tube,
        };
        let steel = problems.take(&at.field("fy"), SteelStrength::new(self.fy.0));
        problems.take(at, PipePost::new(tube?, steel?))
    }
}

impl PostSpec {
    pub(super) fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Post> {
        match self {
            Self::Timber(timber) => timber.build(at, problems).map(Post::from),
            Self::Pipe(pipe) => pipe.build(at, problems).map(Post::from),
            Self::Given(given) => {
                let section = given.section.build(&at.field("section"), problems)?;
                problems
                    .take(at, GivenPost::new(section, given.moment, given.shear))
                    .map(Post::from)
            }
        }
    }
}

impl HoleSpec {
    pub(super) fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Hole> {
        let size = self.size.0;
        problems.take(
            &at.field("size"),
            match self.shape {
                HoleShape::Round => Hole::round(size),
                HoleShape::Square => Hole::square(size),
            },
        )
    }
}

impl FoundationSpec {
    pub(super) fn build(
        &self,
        section: Option<PostSection>,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Foundation> {
        let (foundation, restraint, width) = match self {
            Self::Concrete(concrete) => {
                let hole = concrete.hole.build(&at.field("hole"), problems)?;
                let place = at.field("hole");
                let foundation =
                    problems.take(&place.field("size"), Foundation::concrete(hole, section?))?;
                (foundation, concrete.restraint, concrete.square_width)
            }
            Self::Bare(bare) => (
                Foundation::bare(section?),
                bare.restraint,
                bare.square_width,
            ),
        };
        Some(
            foundation
                .restrained_by(restraint.unwrap_or_default())
                .square_width(width.unwrap_or_default()),
        )
    }
}

impl DesignSpec {
    pub(super) fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<PostDesign> {
        let ground = self.ground.build(&at.field("ground"), problems);
        let post = self.post.build(&at.field("post"), problems);
        let section = post.map(|post| post.section());
        let place = at.field("foundation");
        let foundation = self.foundation.build(section, &place, problems);
        let (ground, post, foundation) = (ground?, post?, foundation?);
        let design = match foundation.hole() {
            Some(hole) => problems.take(&place, PostDesign::in_concrete(ground, post, *hole))?,
            None => PostDesign::bare(ground, post),
        };
        let (restraint, width) = match &self.foundation {
            FoundationSpec::Concrete(c) => (c.restraint, c.square_width),
            FoundationSpec::Bare(b) => (b.restraint, b.square_width),
        };
        Some(
            design
                .restrained_by(restraint.unwrap_or_default())
                .square_width(width.unwrap_or_default())
                .with_cap(self.depth_cap.unwrap_or_default())
                .with_combination(self.combination.unwrap_or_default()),
        )
    }
}
