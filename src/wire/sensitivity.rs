//! What matters, and inputs at random, on the wire.

use super::plan::{OfPlan, PlanSpec};
use super::reading::{Path, Problems};
use super::record::{alternatives, names, records};
use super::request::{Asked, Calculation, Done};
use crate::backwards::VariedWind;
use crate::check::Governing;
use crate::combination::CombinesTo;
use crate::limit_state::AllowableStress;
use crate::plan::FencePlan;
use crate::sensitivity::{
    Band, Distribution, Elasticity, Input, OneSided, Point, sensitivity, uncertainty,
};
use crate::source;
use crate::units::Length;
use crate::utilization::Utilization;

names! {
    Input {
        "wind_speed" => Input::WindSpeed,
        "wind_pressure" => Input::WindPressure,
        "lateral_bearing" => Input::LateralBearing,
        "vertical_pressure" => Input::VerticalPressure,
        "discounted_top" => Input::DiscountedTop,
        "hole_size" => Input::HoleSize,
        "planned_depth" => Input::PlannedDepth,
        "post_spacing" => Input::PostSpacing,
        "panel_height" => Input::PanelHeight,
        "clearance" => Input::Clearance,
        "solidity" => Input::Solidity,
        "panel_weight" => Input::PanelWeight,
        "post_size" => Input::PostSize,
        "post_wall" => Input::PostWall,
        "bending_strength" => Input::BendingStrength,
        "shear_strength" => Input::ShearStrength,
    }
    OneSided {
        "governing_changes" => OneSided::GoverningChanges,
        "kink" => OneSided::Kink,
        "refused" => OneSided::Refused,
    }
}

records! {
    /// How the governing utilization moves with each input.
    SensitivityRequest {
        /// The fence.
        plan: PlanSpec,
        /// The share tried to each side; 0.1 unless said.
        band: Option<f64>,
        /// The step of the derivative; 0.001 unless said.
        step: Option<f64>,
    }
    /// What a plan comes to.
    PointResult {
        /// Greatest utilization.
        utilization: Utilization,
        /// The post.
        post: usize,
        /// The check.
        governing: Governing,
        /// Greatest required depth.
        required_depth: Length,
    }
    /// An input, alone.
    EffectResult {
        /// The input.
        input: Input,
        /// Share of change of the utilization over that of the input.
        elasticity: Option<f64>,
        /// Where the sides differ: to smaller values.
        below: Option<f64>,
        /// To greater values.
        above: Option<f64>,
        /// Why they differ.
        why: Option<OneSided>,
        /// The same of the required depth.
        depth_elasticity: Option<f64>,
        /// At the lower end of the band.
        low: Option<PointResult>,
        /// At the upper end.
        high: Option<PointResult>,
        /// Why an end cannot be built.
        refused: Option<String>,
        /// One post and check govern over the whole band.
        governs_throughout: bool,
    }
    /// What matters, the strongest input first.
    SensitivityResult {
        /// The plan as it is.
        base: PointResult,
        /// Every post has a depth; else the ground is left out of the
        /// utilization and the required depth is what to look at.
        every_depth_planned: bool,
        /// Input by input.
        effects: Vec<EffectResult>,
    }
    /// Mean and standard deviation, as ratios to the value of the plan.
    MomentsSpec {
        /// Mean.
        mean: f64,
        /// Standard deviation.
        deviation: f64,
    }
    /// Ends, as ratios to the value of the plan.
    EndsSpec {
        /// Least.
        least: f64,
        /// Most.
        most: f64,
    }
    /// An input at random.
    RandomInputSpec {
        /// The input.
        input: Input,
        /// Its distribution.
        distribution: DistributionSpec,
    }
    /// How often the utilization is above 1 where inputs are at random.
    UncertaintyRequest {
        /// The fence, every post with a depth.
        plan: PlanSpec,
        /// The inputs.
        inputs: Vec<RandomInputSpec>,
        /// Your random numbers, evenly spread between 0 and 1, neither included:
        /// one for each input of a sample, sample by sample. Nothing here is random
        /// of itself.
        shares: Vec<f64>,
    }
    /// How often; no reliability analysis to a code.
    UncertaintyResult {
        /// Samples.
        samples: usize,
        /// Of them not built, since an input left its range.
        not_built: usize,
        /// Of them above 1.
        exceeding: usize,
        /// Share of those built that is above 1.
        probability: Option<f64>,
        /// Lower end of its interval at 95 %.
        from: Option<f64>,
        /// Upper end.
        to: Option<f64>,
        /// Mean utilization.
        mean: Option<f64>,
        /// Its standard deviation.
        deviation: Option<f64>,
        /// Utilization that a twentieth of the samples exceeds.
        exceeded_by_a_twentieth: Option<Utilization>,
        /// Greatest share of a distribution that lies outside the allowed
        /// range and is in no sample.
        cut_off: f64,
        /// Post and check that governed the most often.
        governed: Vec<GovernedResult>,
    }
    /// How often a post and a check governed.
    GovernedResult {
        /// The post.
        post: usize,
        /// The check.
        governing: Governing,
        /// In how many samples.
        samples: usize,
    }
}

alternatives! {
    /// A distribution of the ratio to the value of the plan.
    DistributionSpec {
        /// Normal.
        "normal" => Normal(MomentsSpec),
        /// Lognormal.
        "lognormal" => Lognormal(MomentsSpec),
        /// Gumbel, of greatest values.
        "gumbel" => Gumbel(MomentsSpec),
        /// Even.
        "uniform" => Uniform(EndsSpec),
    }
}

impl PointResult {
    fn of(point: &Point) -> Self {
        Self {
            utilization: point.utilization,
            post: point.post,
            governing: point.governing,
            required_depth: point.depth.depth,
        }
    }
}

impl SensitivityRequest {
    fn band(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Band> {
        let usual = Band::default();
        let share = self.band.unwrap_or(usual.share());
        let step = self.step.unwrap_or(usual.step().min(share));
        problems.take(&at.field("band"), Band::new(share, step))
    }
}

struct What(Band, Asked);

impl OfPlan for What {
    type Answer = Done<SensitivityResult>;

    fn of<C: VariedWind>(
        self,
        plan: &FencePlan<C>,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<SensitivityResult>>
    where
        C::Level: CombinesTo<AllowableStress>,
    {
        let Self(band, asked) = self;
        let found = problems.take(at, sensitivity(plan, band))?;
        let effects = found.by_influence().into_iter().map(|effect| {
            let (below, above, why) = match effect.elasticity {
                Elasticity::OneSided { below, above, why } => (below, above, Some(why)),
                _ => (None, None, None),
            };
            EffectResult {
                input: effect.input,
                elasticity: effect.elasticity.value(),
                below,
                above,
                why,
                depth_elasticity: effect.depth_elasticity.value(),
                low: effect.low.as_ref().ok().map(PointResult::of),
                high: effect.high.as_ref().ok().map(PointResult::of),
                refused: effect
                    .refused()
                    .map(|(_, why)| why.in_system(asked.system).to_string()),
                governs_throughout: effect.governs_throughout(),
            }
        });
        let result = SensitivityResult {
            base: PointResult::of(&found.base),
            every_depth_planned: found.every_depth_planned,
            effects: effects.collect(),
        };
        let done = Done::new(result, found.cautions(), [&source::LOG_SLOPE]);
        Some(if asked.worksheet {
            done.with_worksheet(found.worksheet(asked.system))
        } else {
            done
        })
    }
}

impl Calculation for SensitivityRequest {
    const CALCULATE: &'static str = "sensitivity";
    type Result = SensitivityResult;
    const HAS_WORKSHEET: bool = true;

    fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
        self.plan.validate(&at.field("plan"), problems);
        self.band(at, problems);
    }

    fn run(
        &self,
        asked: Asked,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<SensitivityResult>> {
        let band = self.band(at, problems)?;
        self.plan
            .ask(What(band, asked), &at.field("plan"), problems)
    }
}

impl DistributionSpec {
    fn build(&self, at: &Path<'_>, problems: &mut Problems) -> Option<Distribution> {
        let made = match self {
            Self::Normal(of) => Distribution::normal(of.mean, of.deviation),
            Self::Lognormal(of) => Distribution::lognormal(of.mean, of.deviation),
            Self::Gumbel(of) => Distribution::gumbel(of.mean, of.deviation),
            Self::Uniform(of) => Distribution::uniform(of.least, of.most),
        };
        problems.take(at, made)
    }
}

impl UncertaintyRequest {
    fn inputs(
        &self,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<(Vec<(Input, Distribution)>, u32)> {
        let place = at.field("inputs");
        let mut inputs = Vec::new();
        for (index, input) in self.inputs.iter().enumerate() {
            let place = place.place(index);
            let built = input
                .distribution
                .build(&place.field("distribution"), problems);
            inputs.push(built.map(|distribution| (input.input, distribution)));
        }
        let count = inputs.len().max(1);
        if self.shares.is_empty() || !self.shares.len().is_multiple_of(count) {
            let allowed = format!("give {count} for each sample");
            problems.add(&at.field("shares"), None, allowed);
            return None;
        }
        // At either end a distribution may have no value: the library draws none there.
        let within = |share: &f64| 0.0 < *share && *share < 1.0;
        if let Some(index) = self.shares.iter().position(|share| !within(share)) {
            let place = at.field("shares");
            problems.add(
                &place.place(index),
                None,
                "give a share above 0 and below 1",
            );
            return None;
        }
        let samples = u32::try_from(self.shares.len() / count).ok()?;
        Some((inputs.into_iter().collect::<Option<_>>()?, samples))
    }
}

struct HowOften<'a>(Vec<(Input, Distribution)>, u32, &'a [f64], Asked);

impl OfPlan for HowOften<'_> {
    type Answer = Done<UncertaintyResult>;

    fn of<C: VariedWind>(
        self,
        plan: &FencePlan<C>,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<UncertaintyResult>>
    where
        C::Level: CombinesTo<AllowableStress>,
    {
        let Self(inputs, samples, shares, asked) = self;
        let mut shares = shares.iter().copied();
        // As many as are asked for, by `inputs`.
        let next = || shares.next().unwrap_or(0.5);
        let found = problems.take(at, uncertainty(plan, &inputs, samples, next))?;
        let share = found.probability();
        let interval = share.map(crate::sensitivity::Proportion::interval);
        let governed = found.governed().into_iter().take(10);
        let result = UncertaintyResult {
            samples: found.samples as usize,
            not_built: found.not_built as usize,
            exceeding: found.exceeding as usize,
            probability: share.map(crate::sensitivity::Proportion::share),
            from: interval.map(|(from, _)| from),
            to: interval.map(|(_, to)| to),
            mean: found.mean.filter(|mean| mean.is_finite()),
            deviation: found.deviation.filter(|deviation| deviation.is_finite()),
            exceeded_by_a_twentieth: found.quantile(0.95).ok(),
            cut_off: found.cut_off(),
            governed: governed
                .map(|(post, governing, samples)| GovernedResult {
                    post,
                    governing,
                    samples: samples as usize,
                })
                .collect(),
        };
        let done = Done::new(result, found.cautions(), [&source::WILSON]);
        Some(if asked.worksheet {
            done.with_worksheet(found.worksheet(asked.system))
        } else {
            done
        })
    }
}

impl Calculation for UncertaintyRequest {
    const CALCULATE: &'static str = "uncertainty";
    type Result = UncertaintyResult;
    const HAS_WORKSHEET: bool = true;

    fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
        self.plan.validate(&at.field("plan"), problems);
        self.inputs(at, problems);
    }

    fn run(
        &self,
        asked: Asked,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<UncertaintyResult>> {
        let (inputs, samples) = self.inputs(at, problems)?;
        let question = HowOften(inputs, samples, &self.shares, asked);
        self.plan.ask(question, &at.field("plan"), problems)
    }
}
