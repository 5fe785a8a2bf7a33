//! Depth and strength of one post: the pole formula, rules of thumb, what a
//! hole already dug is good for, what a post resists, how far it leans.

use super::design::DesignSpec;
use super::post::PostSpec;
use super::post_check::sources_of;
use super::reading::{Path, Problems};
use super::record::records;
use super::request::{Asked, Calculation, Done};
use super::value::Size;
use crate::caution::{Caution, Cautions};
use crate::check::Governing;
use crate::embedment::{DepthRule, max_depth};
use crate::post::Lean;
use crate::units::{Angle, FlexuralRigidity, Force, Length, LineLoad, Torque, ft};
use crate::utilization::Utilization;

records! {
    /// What a post set to a depth carries, before the first check of ground
    /// and post is used up.
    CapacityRequest {
        /// Post, hole and ground.
        design: DesignSpec,
        /// Depth, planned or dug.
        depth: Size,
        /// Height above grade at which the load acts.
        height: Length,
    }
    /// What it carries.
    CapacityResult {
        /// Shear at grade, allowable-stress level.
        shear: Force,
        /// Moment at grade.
        moment: Torque,
        /// What is used up first.
        governing: Governing,
    }
    /// What a post resists, at allowable-stress level.
    PostStrengthRequest {
        /// The post.
        post: PostSpec,
    }
    /// What it resists.
    PostStrengthResult {
        /// Moment about an axis parallel to a face.
        moment: Torque,
        /// Moment in any direction.
        skew_moment: Torque,
        /// Shear.
        shear: Force,
        /// EI, for lean; none where no E is known.
        rigidity: Option<FlexuralRigidity>,
        /// Face width or diameter.
        face_width: Size,
        /// Width that bears without concrete.
        bearing_width: Size,
    }
    /// How far the top of a post leans.
    LeanRequest {
        /// Height above grade.
        height: Length,
        /// EI.
        rigidity: FlexuralRigidity,
        /// Even wind along the height; instead of force.
        wind: Option<LineLoad>,
        /// A force; instead of wind.
        force: Option<Force>,
        /// Its height above grade.
        at: Option<Length>,
        /// Movement of the ground at grade.
        movement: Option<Size>,
        /// Rotation at grade.
        rotation: Option<Angle>,
        /// A limit of your own on movement of the top over height.
        limit: Option<f64>,
    }
    /// How far it leans.
    LeanResult {
        /// What the post bends.
        flexure: Size,
        /// What its rotation at grade carries to the top.
        of_rotation: Size,
        /// Movement of the top.
        total: Size,
        /// Over the height.
        ratio: f64,
        /// Against the limit.
        utilization: Option<Utilization>,
    }
    /// Rules of thumb for the depth of a post: no check, only what they say.
    DepthRulesRequest {
        /// Height of the fence.
        height: Length,
    }
    /// What one rule says.
    DepthRuleResult {
        /// The rule.
        rule: DepthRule,
        /// Its words.
        words: String,
        /// Depth.
        depth: Length,
        /// How well the rule is known.
        mark: String,
    }
    /// What they say.
    DepthRulesResult {
        /// Rule by rule.
        rules: Vec<DepthRuleResult>,
    }
}

impl Calculation for CapacityRequest {
    const CALCULATE: &'static str = "post_capacity";
    type Result = CapacityResult;

    fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
        self.design.build_for_actions(&at.field("design"), problems);
        let made = crate::error::size_within("depth", self.depth.0, ft(0.01), max_depth());
        problems.take(&at.field("depth"), made);
        let made = crate::error::within("height", self.height, ft(0.0), ft(1_000.0));
        problems.take(&at.field("height"), made);
    }

    fn run(
        &self,
        _: Asked,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<CapacityResult>> {
        let design = self
            .design
            .build_for_actions(&at.field("design"), problems)?;
        let made = design.capacity(self.depth.0, self.height);
        let names = [("depth", "depth"), ("height of the force", "height")];
        let (holds, governing) = problems.take_by(at, &names, made)?;
        // Increases and depths beyond 12 ft are cautioned against by the ground's check.
        let ground = problems.take(at, design.formula().check(&holds, self.depth.0))?;
        let cautions = Cautions::default()
            .with(Caution::Barrier)
            .and(ground.cautions())
            .and(design.post().cautions())
            .and(design.cautions());
        let result = CapacityResult {
            shear: holds.shear(),
            moment: holds.moment(),
            governing,
        };
        Some(Done::new(result, cautions, sources_of(&design)))
    }
}

impl Calculation for PostStrengthRequest {
    const CALCULATE: &'static str = "post_strength";
    type Result = PostStrengthResult;
    const HAS_WORKSHEET: bool = true;

    fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
        self.post.build(&at.field("post"), problems);
    }

    fn run(
        &self,
        asked: Asked,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<PostStrengthResult>> {
        let post = self.post.build(&at.field("post"), problems)?;
        let strength = post.strength();
        let result = PostStrengthResult {
            moment: strength.moment,
            skew_moment: strength.skew_moment,
            shear: strength.shear,
            rigidity: post.rigidity(),
            face_width: Size(post.section().face_width()),
            bearing_width: Size(post.section().bearing_width()),
        };
        let sources = [strength.moment_source, strength.shear_source];
        let done = Done::new(result, post.cautions(), sources);
        if !asked.worksheet {
            return Some(done);
        }
        let mut sheet = crate::step::Worksheet::new("Post", asked.system);
        post.write(&mut sheet);
        Some(done.with_worksheet(sheet))
    }
}

impl LeanRequest {
    fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Lean> {
        let made = match (self.wind, self.force, self.at) {
            (Some(wind), None, None) => Lean::of_wind(wind, self.height, self.rigidity),
            (None, Some(force), Some(height)) => {
                Lean::of_force(force, height, self.height, self.rigidity)
            }
            _ => {
                problems.add(at, None, "give either wind, or force and at");
                return None;
            }
        };
        let names = [
            ("wind along the post", "wind"),
            ("force", "force"),
            ("height of the force", "at"),
            ("height of the post", "height"),
            ("flexural rigidity", "rigidity"),
        ];
        let lean = problems.take_by(at, &names, made)?;
        if self.movement.is_none() && self.rotation.is_none() {
            return Some(lean);
        }
        let movement = self.movement.map_or(Length::default(), |size| size.0);
        let rotation = self.rotation.unwrap_or_default();
        let names = [
            ("movement at grade", "movement"),
            ("rotation at grade", "rotation"),
        ];
        problems.take_by(at, &names, lean.with_ground(movement, rotation))
    }
}

impl Calculation for LeanRequest {
    const CALCULATE: &'static str = "lean";
    type Result = LeanResult;

    fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
        let lean = self.build(at, problems);
        if let (Some(lean), Some(limit)) = (lean, self.limit) {
            problems.take(&at.field("limit"), lean.against(limit));
        }
    }

    fn run(&self, _: Asked, at: &Path<'_>, problems: &mut Problems) -> Option<Done<LeanResult>> {
        let lean = self.build(at, problems)?;
        let utilization = match self.limit {
            Some(limit) => Some(problems.take(&at.field("limit"), lean.against(limit))?),
            None => None,
        };
        let result = LeanResult {
            flexure: Size(lean.flexure()),
            of_rotation: Size(lean.of_rotation()),
            total: Size(lean.total()),
            ratio: lean.ratio(),
            utilization,
        };
        Some(Done::new(result, Cautions::default(), [Lean::source()]))
    }
}

impl Calculation for DepthRulesRequest {
    const CALCULATE: &'static str = "depth_rules";
    type Result = DepthRulesResult;

    fn validate(&self, _: &Path<'_>, _: &mut Problems) {}

    fn run(
        &self,
        _: Asked,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<DepthRulesResult>> {
        let mut rules = Vec::new();
        let mut sources = Vec::new();
        for rule in DepthRule::ALL {
            let depth = problems.take(&at.field("height"), rule.depth(self.height))?;
            sources.push(rule.source());
            rules.push(DepthRuleResult {
                rule,
                words: rule.name().to_owned(),
                depth,
                mark: rule.source().mark.name().to_owned(),
            });
        }
        let result = DepthRulesResult { rules };
        Some(Done::new(result, Cautions::default(), sources))
    }
}
