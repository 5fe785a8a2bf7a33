//! Posts as sold, soil in a cone, and rules of thumb against the code, on the
//! wire.

use super::plan::{OfPlan, PlanSpec};
use super::reading::{Path, Problems};
use super::record::{names, records};
use super::request::{Asked, Calculation, Done};
use super::value::{Size, Stress};
use crate::backwards::VariedWind;
use crate::caution::{Caution, Cautions};
use crate::combination::CombinesTo;
use crate::embedment::DepthRule;
use crate::limit_state::AllowableStress;
use crate::plan::FencePlan;
use crate::post::catalogue::{
    ALUMINIUM, DressedTimber, FenceAluminium, FencePipe, FenceSquareTube, PIPES, PipeFamily,
    SQUARE_TUBES, TIMBERS,
};
use crate::source;
use crate::units::{Angle, Length, LineLoad, Volume};
use crate::uplift::soil_cone;
use crate::utilization::Utilization;

names! {
    PipeFamily {
        "schedule_40" => PipeFamily::Schedule40,
        "high_strength" => PipeFamily::HighStrength,
    }
    DepthRule {
        "two_feet" => DepthRule::TwoFeet,
        "third_of_height" => DepthRule::ThirdOfHeight,
        "third_of_post" => DepthRule::ThirdOfPost,
        "quarter_of_post" => DepthRule::QuarterOfPost,
        "chain_link_standard" => DepthRule::ChainLinkStandard,
    }
}

records! {
    /// Posts as they are sold: sizes to measure against, not a supplier's list.
    CatalogueRequest {}
    /// Dressed square timber.
    TimberEntry {
        /// What it is called.
        name: String,
        /// What it measures.
        side: Size,
    }
    /// A fence pipe.
    PipeEntry {
        /// What it is made to.
        family: PipeFamily,
        /// Outside diameter.
        diameter: Size,
        /// Wall.
        wall: Size,
        /// Yield strength.
        fy: Stress,
        /// Weight.
        weight: LineLoad,
    }
    /// A square tube.
    SquareTubeEntry {
        /// What it is called.
        name: String,
        /// Outside side.
        side: Size,
        /// Design wall.
        wall: Size,
    }
    /// Posts as sold.
    CatalogueResult {
        /// Timber.
        timber: Vec<TimberEntry>,
        /// Pipe.
        pipe: Vec<PipeEntry>,
        /// Square steel tube.
        square_tube: Vec<SquareTubeEntry>,
        /// Square aluminium tube.
        aluminium: Vec<SquareTubeEntry>,
    }
    /// The soil a collar takes with it: a cone, or a cylinder at no angle.
    SoilConeRequest {
        /// Radius of the collar.
        radius: Size,
        /// Height of the soil above it.
        height: Length,
        /// Angle from the vertical.
        angle: Angle,
    }
    /// Its volume, the post in it not taken off.
    SoilConeResult {
        /// Volume.
        volume: Volume,
    }
    /// Rules of thumb for the depth against the code formula, each for the
    /// post of a fence worst for it.
    RulesComparedRequest {
        /// The fence.
        plan: PlanSpec,
    }
    /// What a rule is worth.
    RuleComparedResult {
        /// The rule.
        rule: DepthRule,
        /// Its words.
        words: String,
        /// How well it is known.
        mark: String,
        /// Its depth at the worst post.
        depth: Length,
        /// How many posts it leaves too shallow.
        failing: usize,
        /// The worst of them.
        worst_post: usize,
        /// The ground there.
        utilization: Utilization,
        /// Depth missing at the post that lacks the most.
        missing_depth: Option<Length>,
    }
    /// What the rules are worth.
    RulesComparedResult {
        /// How many posts the fence has.
        posts: usize,
        /// Rule by rule.
        rules: Vec<RuleComparedResult>,
    }
}

impl Calculation for CatalogueRequest {
    const CALCULATE: &'static str = "catalogue";
    type Result = CatalogueResult;

    fn validate(&self, _: &Path<'_>, _: &mut Problems) {}

    fn run(
        &self,
        _: Asked,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<CatalogueResult>> {
        let mut pipe = Vec::new();
        for entry in &PIPES {
            pipe.push(PipeEntry {
                family: entry.family(),
                diameter: Size(entry.outside()),
                wall: Size(entry.wall()),
                fy: Stress(problems.take(at, entry.steel())?.yield_strength()),
                weight: problems.take(at, entry.weight())?,
            });
        }
        let mut square_tube = Vec::new();
        for entry in &SQUARE_TUBES {
            let section = problems.take(at, entry.section())?;
            square_tube.push(SquareTubeEntry {
                name: entry.name().to_owned(),
                side: Size(section.side()),
                wall: Size(section.wall()),
            });
        }
        let mut aluminium = Vec::new();
        for entry in &ALUMINIUM {
            let section = problems.take(at, entry.section())?;
            aluminium.push(SquareTubeEntry {
                name: entry.name().to_owned(),
                side: Size(section.side()),
                wall: Size(section.wall()),
            });
        }
        let timber = TIMBERS.iter().map(|entry| TimberEntry {
            name: entry.name().to_owned(),
            side: Size(entry.side()),
        });
        let sources = TIMBERS
            .iter()
            .map(DressedTimber::source)
            .chain(PIPES.iter().map(FencePipe::source))
            .chain(SQUARE_TUBES.iter().map(FenceSquareTube::source))
            .chain(ALUMINIUM.iter().map(FenceAluminium::source));
        let result = CatalogueResult {
            timber: timber.collect(),
            pipe,
            square_tube,
            aluminium,
        };
        Some(Done::new(result, Cautions::default(), sources))
    }
}

impl SoilConeRequest {
    fn volume(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Volume> {
        let names = [
            ("radius", "radius"),
            ("height of the cone", "height"),
            ("angle of the cone", "angle"),
        ];
        let made = soil_cone(self.radius.0, self.height, self.angle);
        problems.take_by(at, &names, made)
    }
}

impl Calculation for SoilConeRequest {
    const CALCULATE: &'static str = "soil_cone";
    type Result = SoilConeResult;

    fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
        self.volume(at, problems);
    }

    fn run(
        &self,
        _: Asked,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<SoilConeResult>> {
        let volume = self.volume(at, problems)?;
        let cautions = Cautions::default().with(Caution::BuriedUtilities);
        let result = SoilConeResult { volume };
        Some(Done::new(result, cautions, [&source::GEOMETRY]))
    }
}

struct Rules;

impl OfPlan for Rules {
    type Answer = Done<RulesComparedResult>;

    fn of<C: VariedWind>(
        self,
        plan: &FencePlan<C>,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<RulesComparedResult>>
    where
        C::Level: CombinesTo<AllowableStress>,
    {
        let schedule = problems.take(at, plan.schedule())?;
        let mut rules = Vec::new();
        let mut sources = vec![plan.design().formula().equation().citation()];
        for rule in DepthRule::ALL {
            let found = problems.take(at, schedule.compare(rule))?;
            sources.push(rule.source());
            rules.push(RuleComparedResult {
                rule,
                words: rule.name().to_owned(),
                mark: rule.source().mark.name().to_owned(),
                depth: found.check.depth(),
                failing: found.failing,
                worst_post: found.worst_post,
                utilization: found.check.utilization(),
                missing_depth: found.missing,
            });
        }
        let result = RulesComparedResult {
            posts: plan.fence().posts().len(),
            rules,
        };
        Some(Done::new(result, schedule.cautions(), sources))
    }
}

impl Calculation for RulesComparedRequest {
    const CALCULATE: &'static str = "rules_compared";
    type Result = RulesComparedResult;

    fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
        self.plan.validate(&at.field("plan"), problems);
    }

    fn run(
        &self,
        _: Asked,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<RulesComparedResult>> {
        self.plan.ask(Rules, &at.field("plan"), problems)
    }
}
