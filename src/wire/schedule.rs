//! Every post of a fence.

use super::plan::{OfPlan, PlanSpec};
use super::post_check::CheckResult;
use super::reading::{Path, Problems};
use super::record::records;
use super::request::{Asked, Calculation, Done, add_sources};
use super::site_checks::SiteChecksResult;
use crate::backwards::VariedWind;
use crate::caution::Caution;
use crate::check::{Condition, Governing, MaterialsSum};
use crate::combination::CombinesTo;
use crate::fence::PostKind;
use crate::limit_state::AllowableStress;
use crate::plan::{CaseBReading, FencePlan, digging_step};
use crate::units::{Force, Length, Pressure, Volume};
use crate::utilization::Utilization;

records! {
    /// One post of a fence.
    ScheduledPostResult {
        /// Its number, from 1 along the fence.
        number: usize,
        /// What it is.
        post: PostKind,
        /// Run in which it stands, from 1.
        run: usize,
        /// Where along that run.
        at: Length,
        /// Tributary width.
        tributary_width: Length,
        /// The worst utilization of every check made.
        utilization: Utilization,
        /// Of what.
        governing: Governing,
        /// Is every check made at most 1?
        passes: bool,
        /// Condition that passing rests on, where the movement at grade of an isolated
        /// pole was not checked (lean checks it).
        condition: Option<Condition>,
        /// Depth to dig: the planned depth where every check passes, else the least
        /// depth, in steps of 1 in or 25 mm, at which every check passes.
        depth_to_dig: Option<Length>,
        /// Why there is no depth to dig; `remedies` returns the changes that pass.
        no_depth: Option<String>,
        /// Share of the wind of the site that the planned hole holds with every check.
        wind_held: Option<f64>,
        /// That share of the mean wind pressure on the tributary area of the post, at the
        /// limit state of the wind code.
        pressure_held: Option<Pressure>,
        /// The check of ground and post.
        check: CheckResult,
        /// Results of the optional checks; quantities are to the depth to dig, and left
        /// out where there is none.
        more: Option<SiteChecksResult>,
    }
    /// The posts of a fence with Case B of ASCE 7 spread along every run.
    CaseBReadingResult {
        /// Failing posts with Case B on every run.
        failing: usize,
        /// Greatest depth that lateral bearing requires with Case B on every run.
        deepest: Length,
        /// Greatest depth that lateral bearing requires as planned.
        deepest_as_planned: Length,
    }
    /// A fence checked post by post.
    ScheduleResult {
        /// How many posts there are.
        count: usize,
        /// How many of them fail.
        failing: usize,
        /// Checks asked for and not made, over all posts; they count for
        /// nothing in passing or failing.
        not_checked: usize,
        /// The worst utilization.
        utilization: Utilization,
        /// The post that has it.
        worst_post: usize,
        /// Concrete, net, to the depths to dig; posts without one are left out.
        concrete: Volume,
        /// How many posts have no depth to dig.
        without_depth: usize,
        /// Bags to buy, each hole from whole bags, of the posts it was asked of.
        bags: Option<f64>,
        /// To carry, of the same posts.
        carry: Option<Force>,
        /// How many posts are left out of bags and carry: quantities were not requested
        /// for them, cannot be computed, or there is no depth to dig.
        left_out: Option<usize>,
        /// What the heavier reading of Case B would change; left out where the plan takes
        /// it so already, and for a pressure given.
        case_b_on_every_run: Option<CaseBReadingResult>,
        /// Posts closer than 3 footings or 4.5 posts (ASABE EP486), by number.
        closely_spaced: Vec<usize>,
        /// Posts of a row across the load closer than 5 widths (UFC 3-220-20 6-6.5), by
        /// number.
        closely_spaced_row: Vec<usize>,
        /// Post by post.
        posts: Vec<ScheduledPostResult>,
    }
}

impl CaseBReadingResult {
    fn of(reading: CaseBReading) -> Self {
        Self {
            failing: reading.failing_every_run,
            deepest: reading.deepest_every_run,
            deepest_as_planned: reading.deepest,
        }
    }
}

/// The question: every post checked.
struct Checked(Asked);

impl OfPlan for Checked {
    type Answer = Done<ScheduleResult>;

    fn most_posts(&self) -> usize {
        // A worksheet is some hundred lines.
        if self.0.worksheet { 200 } else { 10_000 }
    }

    fn of<C: VariedWind>(
        self,
        plan: &FencePlan<C>,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<ScheduleResult>>
    where
        C::Level: CombinesTo<AllowableStress>,
    {
        let Self(asked) = self;
        let schedule = problems.take(at, plan.schedule())?;
        let mut result = ScheduleResult {
            count: 0,
            failing: 0,
            not_checked: 0,
            utilization: Utilization::ZERO,
            worst_post: 1,
            concrete: Volume::default(),
            without_depth: 0,
            bags: None,
            carry: None,
            left_out: None,
            case_b_on_every_run: None,
            closely_spaced: Vec::new(),
            closely_spaced_row: Vec::new(),
            posts: Vec::new(),
        };
        let mut cautions = crate::caution::Cautions::default();
        let mut quantities: Option<MaterialsSum> = None;
        let mut sources = Vec::new();
        let mut sheets = Vec::new();
        for post in schedule.posts() {
            let number = post.post.number;
            let mut check = CheckResult::of(&post.check);
            let dig = problems.take(at, schedule.dug(number, digging_step(asked.system)))?;
            let dug = dig.as_ref().ok().map(|dug| (dug.check.depth(), dug));
            check.concrete =
                dug.map(|(depth, dug)| dug.check.design().foundation().concrete_volume(depth));
            let held = post
                .check
                .planned
                .and_then(|_| schedule.wind_held(number).ok());
            let quantities_there = match &dig {
                Ok(dug) => dug.site.materials,
                Err(_) => crate::check::SiteResults::NONE.materials,
            };
            let mut site = post.site;
            site.materials = quantities_there;
            let arm = post.post.arms().next();
            result.count += 1;
            result.failing += usize::from(!post.passes());
            result.not_checked += post.site.refusals().count();
            result.concrete += check.concrete.unwrap_or_default();
            result.without_depth += usize::from(dig.is_err());
            if post.utilization() > result.utilization {
                result.utilization = post.utilization();
                result.worst_post = post.post.number;
            }
            cautions = cautions.and(post.cautions());
            if post.cautions().contains(Caution::CloseSpacing) {
                result.closely_spaced.push(post.post.number);
            }
            if post.cautions().contains(Caution::RowSpacing) {
                result.closely_spaced_row.push(post.post.number);
            }
            if plan.site_checks(post.post.number).materials().is_some() {
                let sum = quantities.unwrap_or_default();
                quantities = Some(sum.with(site.materials.done()));
            }
            let sheet = schedule.worksheet(&post, asked.system);
            add_sources(&mut sources, &sheet);
            if asked.worksheet {
                sheets.push(sheet);
            }
            result.posts.push(ScheduledPostResult {
                number: post.post.number,
                post: post.post.kind,
                run: arm.map_or(0, |arm| arm.run) + 1,
                at: arm.map_or(Length::default(), |arm| arm.at),
                tributary_width: post
                    .post
                    .arms()
                    .fold(Length::default(), |sum, arm| sum + arm.width()),
                utilization: post.utilization(),
                governing: post.governing(),
                passes: post.passes(),
                condition: post.condition(),
                depth_to_dig: dug.map(|(depth, _)| depth),
                no_depth: dig.as_ref().err().map(|why| why.text(asked.system)),
                wind_held: held.map(|held| held.share),
                pressure_held: held.and_then(|held| held.pressure),
                check,
                more: SiteChecksResult::of(&site, asked.system),
            });
        }
        if let Some(sum) = quantities {
            result.bags = Some(sum.bags);
            result.carry = Some(sum.carry);
            result.left_out = Some(result.count - sum.posts);
        }
        let reading = problems.take(at, schedule.case_b_on_every_run())?;
        result.case_b_on_every_run = reading.map(CaseBReadingResult::of);
        let done = Done::new(result, cautions, sources);
        Some(sheets.into_iter().fold(done, Done::with_worksheet))
    }
}

impl Calculation for PlanSpec {
    const CALCULATE: &'static str = "fence_schedule";
    type Result = ScheduleResult;
    const HAS_WORKSHEET: bool = true;

    fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
        Self::validate(self, at, problems);
    }

    fn run(
        &self,
        asked: Asked,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<ScheduleResult>> {
        self.ask(Checked(asked), at, problems)
    }
}
