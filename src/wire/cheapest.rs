//! The cheapest of several plans, on the wire.

use super::plan::{OfPlan, PlanSpec};
use super::reading::{Path, Problems};
use super::record::records;
use super::request::{Asked, Calculation, Done};
use crate::backwards::{OptionVerdict, VariedWind, cheapest};
use crate::caution::Cautions;
use crate::combination::CombinesTo;
use crate::limit_state::AllowableStress;
use crate::plan::{FencePlan, Schedule};
use crate::step::Worksheet;
use crate::units::{Length, UnitSystem, Volume, cu_ft, ft};
use crate::wind::WindCode;

records! {
    /// So much a volume of concrete.
    VolumePrice {
        /// Price.
        price: f64,
        /// A volume.
        per: Volume,
    }
    /// So much a length of digging.
    LengthPrice {
        /// Price.
        price: f64,
        /// A length.
        per: Length,
    }
    /// What a plan costs, in any one currency.
    CostSpec {
        /// Once, for the whole fence.
        fixed: Option<f64>,
        /// For each post.
        post: Option<f64>,
        /// Concrete, net, to the depth planned or else required.
        concrete: Option<VolumePrice>,
        /// Digging, by the depth of each hole.
        digging: Option<LengthPrice>,
    }
    /// An option.
    OptionSpec {
        /// Its name.
        name: String,
        /// The fence.
        plan: PlanSpec,
        /// What it costs.
        cost: CostSpec,
    }
    /// The cheapest of several plans that hold.
    CheapestRequest {
        /// The options, at most 100.
        options: Vec<OptionSpec>,
    }
    /// An option, as ranked.
    RankedResult {
        /// Its name.
        name: String,
        /// Does every check of every post pass?
        passes: bool,
        /// Its cost, if it passes.
        cost: Option<f64>,
        /// Why it is out.
        reason: Option<String>,
        /// Checks asked for and not made, over all posts: with any an option does not
        /// pass.
        not_checked: usize,
    }
    /// Options by cost, those that fail last.
    CheapestResult {
        /// The name of the cheapest that passes.
        cheapest: Option<String>,
        /// All of them.
        options: Vec<RankedResult>,
    }
}

/// What became of one plan.
struct Costed {
    verdict: OptionVerdict,
    cautions: Cautions,
    not_checked: usize,
    /// Of its worst post, for its sources.
    sheet: Option<Worksheet>,
}

/// The question: what one plan costs, if it holds.
struct Costs<'a>(&'a CostSpec);

impl OfPlan for Costs<'_> {
    type Answer = Costed;

    fn of<C: VariedWind>(
        self,
        plan: &FencePlan<C>,
        _: &Path<'_>,
        _: &mut Problems,
    ) -> Option<Self::Answer>
    where
        C::Level: CombinesTo<AllowableStress>,
    {
        let cost = |schedule: &Schedule<'_, C>| self.0.of(schedule);
        let ranking = cheapest(core::slice::from_ref(plan), cost);
        let only = ranking.options.first()?;
        let mut costed = Costed {
            verdict: only.verdict,
            cautions: only.cautions,
            not_checked: 0,
            sheet: None,
        };
        if let Ok(schedule) = plan.schedule() {
            let posts = schedule.posts();
            costed.not_checked = posts.map(|post| post.site.unchecked().count()).sum();
            let worst = schedule
                .posts()
                .max_by_key(crate::plan::ScheduledPost::utilization);
            costed.sheet = worst.map(|post| schedule.worksheet(&post, UnitSystem::Us));
        }
        Some(costed)
    }
}

impl CostSpec {
    fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
        let mut price = |name: &str, value: Option<f64>| {
            if let Some(value) = value {
                let made = crate::error::number_within("price", value, 0.0, 1e12);
                problems.take(&at.field(name), made);
            }
        };
        price("fixed", self.fixed);
        price("post", self.post);
        price("concrete", self.concrete.as_ref().map(|price| price.price));
        price("digging", self.digging.as_ref().map(|price| price.price));
        if let Some(concrete) = &self.concrete {
            let made = crate::error::within("volume", concrete.per, cu_ft(1e-3), cu_ft(1e4));
            let place = at.field("concrete");
            problems.take(&place.field("per"), made);
        }
        if let Some(digging) = &self.digging {
            let made = crate::error::within("length", digging.per, ft(1e-2), ft(1e4));
            let place = at.field("digging");
            problems.take(&place.field("per"), made);
        }
    }

    fn of<C: WindCode>(&self, schedule: &Schedule<'_, C>) -> f64
    where
        C::Level: CombinesTo<AllowableStress>,
    {
        let mut cost = self.fixed.unwrap_or(0.0);
        for post in schedule.posts() {
            let depth = match post.check.planned {
                Some(planned) => planned.depth(),
                None => post.check.required.depth(),
            };
            cost += self.post.unwrap_or(0.0);
            if let Some(concrete) = &self.concrete {
                let volume = post.check.design().foundation().concrete_volume(depth);
                cost += concrete.price * (volume / concrete.per).value;
            }
            if let Some(digging) = &self.digging {
                cost += digging.price * (depth / digging.per).value;
            }
        }
        cost
    }
}

impl Calculation for CheapestRequest {
    const CALCULATE: &'static str = "cheapest_option";
    type Result = CheapestResult;

    fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
        let place = at.field("options");
        if self.options.is_empty() || self.options.len() > 100 {
            problems.add(&place, None, "give 1 to 100 options");
            return;
        }
        for (index, option) in self.options.iter().enumerate() {
            let place = place.place(index);
            option.plan.validate(&place.field("plan"), problems);
            option.cost.validate(&place.field("cost"), problems);
            let twin = self.options[..index].iter().any(|o| o.name == option.name);
            if option.name.is_empty() || twin {
                problems.add(
                    &place.field("name"),
                    None,
                    "give each option a name of its own",
                );
            }
        }
    }

    fn run(
        &self,
        asked: Asked,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<CheapestResult>> {
        let place = at.field("options");
        let mut cautions = Cautions::default();
        let mut sheets = Vec::new();
        let mut options = Vec::new();
        for (index, option) in self.options.iter().enumerate() {
            let place = place.place(index);
            let question = Costs(&option.cost);
            let costed = option.plan.ask(question, &place.field("plan"), problems)?;
            cautions = cautions.and(costed.cautions);
            sheets.extend(costed.sheet);
            let verdict = costed.verdict;
            let (cost, reason) = match verdict {
                OptionVerdict::Passes(cost) => (Some(cost), None),
                OptionVerdict::Refused(error) => {
                    (None, Some(error.in_system(asked.system).to_string()))
                }
                other => (None, Some(other.to_string())),
            };
            options.push(RankedResult {
                name: option.name.clone(),
                passes: matches!(verdict, OptionVerdict::Passes(_) | OptionVerdict::NoCost),
                cost,
                reason,
                not_checked: costed.not_checked,
            });
        }
        options.sort_by(|a, b| {
            let rank = |option: &RankedResult| option.cost.unwrap_or(f64::INFINITY);
            rank(a).total_cmp(&rank(b))
        });
        let result = CheapestResult {
            cheapest: options
                .first()
                .filter(|option| option.cost.is_some())
                .map(|option| option.name.clone()),
            options,
        };
        let done = Done::new(result, cautions, []);
        Some(sheets.iter().fold(done, Done::citing))
    }
}
