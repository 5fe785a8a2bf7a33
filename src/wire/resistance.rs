//! Design resistance of posts in limit-state formats, and a block on its base,
//! on the wire.

use super::post::{PostSpec, SquareSpec, SquareTubeSpec, TubeSpec};
use super::reading::{Path, Problems};
use super::record::{alternatives, names, records};
use super::request::{Asked, Calculation, Done};
use super::value::{Stress, UnitWeight};
use crate::caution::{Caution, Cautions};
use crate::embedment::{Overturning, SpreadBlock};
use crate::limit_state::LimitState;
use crate::post::{
    DesignResistance, PipeEn1993, Post, SquareTubeEn1993, TimberClass, TimberEn1995,
};
use crate::source;
use crate::units::{Force, Length, Pressure, Torque};
use crate::utilization::Utilization;

names! {
    ClassName {
        "C16" => ClassName::C16,
        "C24" => ClassName::C24,
        "D30" => ClassName::D30,
    }
}

/// A strength class of EN 338 by name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum ClassName {
    /// C16.
    C16,
    /// C24.
    C24,
    /// D30.
    D30,
}

records! {
    /// A post in load and resistance factors: timber, pipe or square_tube.
    FactoredPostSpec {
        /// The post.
        post: PostSpec,
    }
    /// Sawn square timber to EN 1995-1-1.
    EnTimberSpec {
        /// Its section.
        section: SquareSpec,
        /// Strength class of EN 338; instead of fm_k, fv_k and e_mean.
        class: Option<ClassName>,
        /// fm,k of your own.
        fm_k: Option<Stress>,
        /// fv,k of your own.
        fv_k: Option<Stress>,
        /// E0,mean of your own.
        e_mean: Option<Stress>,
        /// kmod of the wind; a national annex says which.
        kmod: f64,
    }
    /// Round hollow section to EN 1993-1-1.
    EnPipeSpec {
        /// Its section.
        section: TubeSpec,
        /// fy.
        fy: Stress,
    }
    /// Square hollow section to EN 1993-1-1.
    EnSquareTubeSpec {
        /// Its section.
        section: SquareTubeSpec,
        /// fy.
        fy: Stress,
    }
    /// Design resistance of a post.
    PostResistanceRequest {
        /// The post and the standard.
        post: ResistingSpec,
    }
    /// What it resists.
    PostResistanceResult {
        /// The format it belongs to.
        format: String,
        /// Moment about an axis parallel to a face.
        moment: Torque,
        /// Moment in any direction.
        skew_moment: Torque,
        /// Shear. EN 1993-1-1 6.2.8 lets bending count on less where more than half
        /// of it is used; that is not computed.
        shear: Force,
    }
    /// A block on its base, by weight alone.
    SpreadBlockRequest {
        /// Width, in the direction of overturning.
        width: Length,
        /// Length across it.
        length: Length,
        /// Depth.
        depth: Length,
        /// Unit weight of the block.
        unit_weight: UnitWeight,
        /// Weight of what stands on it.
        superstructure: Force,
        /// Overturning moment about the base, allowable-stress level.
        moment: Torque,
        /// Factor against overturning; 1.5 unless said.
        safety: Option<f64>,
    }
    /// How it stands.
    SpreadBlockResult {
        /// Weight of block and what stands on it.
        weight: Force,
        /// Distance of the resultant from the middle.
        eccentricity: Length,
        /// Pressure under the toe; none where it tips.
        toe_pressure: Option<Pressure>,
        /// Moment it resists.
        resisting_moment: Torque,
        /// Overturning over resisting moment with the factor.
        utilization: Utilization,
    }
}

alternatives! {
    /// A post by its standard.
    ResistingSpec {
        /// NDS or AISC 360, load and resistance factors.
        "load_and_resistance" => Factored(FactoredPostSpec),
        /// EN 1995-1-1.
        "timber_en1995" => Timber(EnTimberSpec),
        /// EN 1993-1-1.
        "pipe_en1993" => Pipe(EnPipeSpec),
        /// EN 1993-1-1.
        "square_tube_en1993" => SquareTube(EnSquareTubeSpec),
    }
}

impl PostResistanceResult {
    fn of<L: LimitState>(
        resistance: &DesignResistance<L>,
        format: &str,
        cautions: Cautions,
    ) -> Done<Self> {
        let result = Self {
            format: format.to_owned(),
            moment: resistance.moment,
            skew_moment: resistance.skew_moment,
            shear: resistance.shear,
        };
        let sources = [resistance.moment_source, resistance.shear_source];
        Done::new(result, cautions, sources)
    }
}

impl ResistingSpec {
    fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Done<PostResistanceResult>> {
        let lrfd = "load and resistance factors";
        let partial = "partial factors";
        match self {
            Self::Factored(spec) => {
                let place = at.field("post");
                let post = spec.post.build(&place, problems)?;
                let resistance = match &post {
                    Post::Timber(post) => post.design_strength(),
                    Post::Pipe(post) => post.design_strength(),
                    Post::SquareTube(post) => post.design_strength(),
                    _ => {
                        let allowed = "one of timber, pipe, square_tube";
                        problems.add(&place.field("kind"), None, allowed);
                        return None;
                    }
                };
                let cautions = post.cautions();
                Some(PostResistanceResult::of(&resistance, lrfd, cautions))
            }
            Self::Timber(spec) => {
                let section = spec.section.build(&at.field("section"), problems);
                let class = match (spec.class, spec.fm_k, spec.fv_k, spec.e_mean) {
                    (Some(ClassName::C16), None, None, None) => TimberClass::C16,
                    (Some(ClassName::C24), None, None, None) => TimberClass::C24,
                    (Some(ClassName::D30), None, None, None) => TimberClass::D30,
                    (None, Some(fm), Some(fv), Some(e)) => TimberClass::Given(fm.0, fv.0, e.0),
                    _ => {
                        problems.add(at, None, "give either class, or fm_k, fv_k and e_mean");
                        return None;
                    }
                };
                let made = TimberEn1995::new(section?, class, spec.kmod);
                let post = problems.take(&at.field("kmod"), made)?;
                let cautions = Cautions::default().with(Caution::TimberTreatment);
                Some(PostResistanceResult::of(
                    &post.resistance(),
                    partial,
                    cautions,
                ))
            }
            Self::Pipe(spec) => {
                let section = spec.section.build(&at.field("section"), problems)?;
                let made = PipeEn1993::new(section, spec.fy.0);
                let post = problems.take(&at.field("fy"), made)?;
                Some(PostResistanceResult::of(
                    &post.resistance(),
                    partial,
                    Cautions::default(),
                ))
            }
            Self::SquareTube(spec) => {
                let section = spec.section.build(&at.field("section"), problems)?;
                let made = SquareTubeEn1993::new(section, spec.fy.0);
                let post = problems.take(&at.field("fy"), made)?;
                Some(PostResistanceResult::of(
                    &post.resistance(),
                    partial,
                    Cautions::default(),
                ))
            }
        }
    }
}

impl Calculation for PostResistanceRequest {
    const CALCULATE: &'static str = "post_resistance";
    type Result = PostResistanceResult;

    fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
        self.post.build(&at.field("post"), problems);
    }

    fn run(
        &self,
        _: Asked,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<PostResistanceResult>> {
        self.post.build(&at.field("post"), problems)
    }
}

impl SpreadBlockRequest {
    fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<(SpreadBlock, Overturning)> {
        let block = SpreadBlock::new(
            self.width,
            self.length,
            self.depth,
            self.unit_weight.0,
            self.superstructure,
        );
        let block = problems.take(at, block);
        let moment = Overturning::at_allowable_stress(self.moment);
        let moment = problems.take(&at.field("moment"), moment);
        block.zip(moment)
    }
}

impl Calculation for SpreadBlockRequest {
    const CALCULATE: &'static str = "spread_block";
    type Result = SpreadBlockResult;

    fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
        self.build(at, problems);
    }

    fn run(
        &self,
        _: Asked,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<SpreadBlockResult>> {
        let (block, moment) = self.build(at, problems)?;
        let made = block.utilization(moment, self.safety.unwrap_or(1.5));
        let utilization = problems.take(&at.field("safety"), made)?;
        let result = SpreadBlockResult {
            weight: block.weight(),
            eccentricity: block.eccentricity(moment),
            toe_pressure: block.toe_pressure(moment),
            resisting_moment: block.resisting_moment(),
            utilization,
        };
        let cautions = Cautions::default()
            .with(Caution::BuriedUtilities)
            .with(Caution::Frost)
            .with(Caution::Slope);
        Some(Done::new(result, cautions, [&source::STATICS]))
    }
}
