//! The posts of the schedule, a row each, and how their numbers are shown.

use super::job::Job;
use groundline::backfill::Setting;
use groundline::check::{
    Checked, Condition, FrostCheck, Governing, GradeMovement, LeanCheck, SiteResults,
};
use groundline::combination::CombinesTo;
use groundline::fence::{Arm, PostKind};
use groundline::foundation::HoleShape;
use groundline::limit_state::AllowableStress;
use groundline::plan::{NoDepth, ScheduledPost};
use groundline::post::AxialBending;
use groundline::source::Citation;
use groundline::units::{
    Force, Length, Measurable, Measure, Torque, UnitSystem, Volume, inch, mm, round_up, show_as,
};
use groundline::utilization::Utilization;
use groundline::wind::WindCode;

/// One post of the schedule, whatever the wind code.
#[derive(Debug, Clone)]
pub(crate) struct Row {
    pub(crate) number: usize,
    pub(crate) kind: PostKind,
    pub(crate) run: usize,
    pub(crate) run_name: String,
    pub(crate) at: Length,
    pub(crate) width: Length,
    pub(crate) case: String,
    pub(crate) shear: Force,
    pub(crate) moment: Torque,
    pub(crate) hole: Option<(HoleShape, Length)>,
    /// None where no more is known than that it is backfill.
    pub(crate) setting: Option<Setting>,
    pub(crate) required: Length,
    pub(crate) planned: Option<Length>,
    /// As planned where every check passes there, else the least depth at which every
    /// check passes; with a gravel base below. None where there is no such depth.
    pub(crate) dig: Option<Length>,
    /// Why there is no depth to dig.
    pub(crate) no_depth: Option<String>,
    /// Depth by which the planned depth is less than the required depth.
    pub(crate) missing: Option<Length>,
    pub(crate) ground: Option<Utilization>,
    pub(crate) strength: Utilization,
    pub(crate) bearing: Option<Utilization>,
    pub(crate) governing: Governing,
    pub(crate) condition: Option<Condition>,
    pub(crate) source: &'static Citation,
    pub(crate) utilization: Utilization,
    pub(crate) failing: Vec<Governing>,
    /// What was asked for and could not be checked, and why.
    pub(crate) refused: Vec<(&'static str, String)>,
    /// What more was asked for.
    pub(crate) site: SiteResults,
    pub(crate) too_weak: bool,
    pub(crate) beyond: bool,
    /// To the planned depth, or else the required one.
    pub(crate) concrete: Volume,
    pub(crate) concrete_at_required: Volume,
    /// What was noted when it was dug; none for a post only planned.
    pub(crate) dug: Option<String>,
}

impl Row {
    /// The row of a post of a job.
    pub(crate) fn new<C: WindCode>(
        site: &C,
        post: &ScheduledPost<C::Level>,
        to_dig: &Result<ScheduledPost<C::Level>, NoDepth>,
        job: &Job,
        dug: Option<String>,
    ) -> Self
    where
        C::Level: CombinesTo<AllowableStress>,
    {
        let (check, arm) = (&post.check, post.post.arms().next());
        let foundation = check.design().foundation();
        let run = arm.map_or(0, |arm| arm.run);
        let required = check.required.depth();
        let planned = check.planned.map(|planned| planned.depth());
        let materials = post.site.materials.done();
        let base = if materials.is_some_and(|all| all.base > Volume::default()) {
            job.asked.base
        } else {
            Length::default()
        };
        let governing = post.governing();
        let case = |case: &groundline::actions::LoadCase<C::Level>| {
            format!("{}, {}", case.kind.name(), site.case_name(case.wind_case))
        };
        Self {
            number: post.post.number,
            kind: post.post.kind,
            run,
            run_name: job.runs.get(run).cloned().unwrap_or_default(),
            at: arm.map_or(Length::default(), |arm| arm.at),
            width: post.post.arms().map(Arm::width).sum(),
            case: check.required_case.as_ref().map_or(String::new(), case),
            shear: check.actions().shear(),
            moment: check.actions().moment(),
            hole: foundation
                .dug_hole()
                .map(|hole| (hole.shape(), hole.size())),
            setting: check.design().setting(),
            required,
            planned,
            dig: to_dig.as_ref().ok().map(|dug| dug.check.depth() + base),
            no_depth: to_dig.as_ref().err().map(|why| why.text(job.system)),
            missing: check.missing_depth(),
            ground: check.planned.map(|planned| planned.utilization()),
            strength: check.strength.worst(),
            bearing: check.bearing.map(|bearing| bearing.utilization),
            governing,
            condition: post.condition(),
            source: source_of(governing, &post.site).unwrap_or_else(|| check.source()),
            utilization: post.utilization(),
            failing: post.failing().collect(),
            refused: refused(&post.site, job.system),
            site: post.site,
            too_weak: check.post_is_too_weak(),
            beyond: check.required.beyond_limit(),
            concrete: foundation.concrete_volume(planned.unwrap_or(required)),
            concrete_at_required: foundation.concrete_volume(required),
            dug,
        }
    }

    /// In one word, or all that fails and all that could not be checked.
    pub(crate) fn result(&self) -> String {
        let mut parts = Vec::new();
        if !self.failing.is_empty() {
            let names: Vec<_> = self.failing.iter().map(|check| check.name()).collect();
            parts.push(format!("FAILS: {}", names.join(", ")));
        }
        if self.too_weak {
            parts.push("post too weak at any depth of this hole".to_owned());
        }
        if !self.refused.is_empty() {
            let names: Vec<_> = self.refused.iter().map(|(name, _)| *name).collect();
            parts.push(format!("NOT CHECKED: {}", names.join(", ")));
        }
        if parts.is_empty() {
            // Without a planned depth there is no hole to check.
            let passes = match self.planned {
                Some(_) => "passes",
                None => "passes dug to the required depth",
            };
            return match self.condition {
                Some(condition) => format!("{passes}, {condition}"),
                None => passes.to_owned(),
            };
        }
        parts.join("; ")
    }

    /// Fails, or is checked in part, or passes everything.
    pub(crate) fn state(&self) -> State {
        if !self.failing.is_empty() {
            State::Fails
        } else if !self.refused.is_empty() {
            State::CheckedInPart
        } else {
            State::Passes
        }
    }

    /// What fails, how much depth is missing, and the depth at which every check passes
    /// or why there is none.
    pub(crate) fn needs(&self, system: UnitSystem) -> String {
        let unit = Measure::SectionLength.symbol(system);
        let names = self
            .failing
            .iter()
            .map(|check| match (check, self.missing) {
                (Governing::Embedment, Some(missing)) => {
                    format!("embedment ({} {unit} missing)", dig(missing, system))
                }
                (check, _) => check.name().to_owned(),
            });
        let names = names.collect::<Vec<_>>().join(", ");
        match (self.dig, &self.no_depth) {
            (Some(depth), _) => format!("{names}: passes dug to {} {unit}", dig(depth, system)),
            (None, Some(why)) => format!("{names}: no depth, {why}"),
            (None, None) => names,
        }
    }
}

/// The step to which depths are rounded up on this sheet.
pub(crate) fn step(system: UnitSystem) -> Length {
    match system {
        UnitSystem::Us => inch(1.0),
        UnitSystem::Si => mm(10.0),
    }
}

/// How a post came out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum State {
    Fails,
    CheckedInPart,
    Passes,
}

impl State {
    pub(crate) const fn name(self) -> &'static str {
        match self {
            Self::Fails => "fails",
            Self::CheckedInPart => "part",
            Self::Passes => "passes",
        }
    }
}

/// Where a check comes from that was made only where asked for.
fn source_of(governing: Governing, site: &SiteResults) -> Option<&'static Citation> {
    match governing {
        Governing::Lean => site.lean.done().map(LeanCheck::source),
        Governing::FrostUplift => site.frost.done().map(FrostCheck::source),
        Governing::GradeMovement => Some(GradeMovement::source()),
        Governing::PullOut => site.uplift.done().map(|uplift| uplift.resistance.source),
        Governing::AxialBending => site.axial.done().map(AxialBending::source),
        _ => None,
    }
}

/// What was asked for and refused: its name and why.
fn refused(site: &SiteResults, system: UnitSystem) -> Vec<(&'static str, String)> {
    fn why<T>(
        name: &'static str,
        checked: &Checked<T>,
        system: UnitSystem,
    ) -> Option<(&'static str, String)> {
        let error = checked.refusal()?;
        Some((name, error.in_system(system).to_string()))
    }
    [
        why(Governing::Lean.name(), &site.lean, system),
        why(Governing::FrostUplift.name(), &site.frost, system),
        why(Governing::PullOut.name(), &site.uplift, system),
        why(Governing::AxialBending.name(), &site.axial, system),
        why("quantities", &site.materials, system),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// A quantity in the unit it is shown in.
pub(crate) fn in_unit<Q: Measurable>(quantity: Q, measure: Measure, system: UnitSystem) -> f64 {
    let symbol = measure.symbol(system);
    let mut units = measure.dimension().units().iter();
    let unit = units.find(|unit| unit.symbol == symbol);
    quantity.si() / unit.map_or(1.0, groundline::units::UnitDef::factor)
}

/// A quantity without its unit, to four digits.
pub(crate) fn shown<Q: Measurable>(quantity: Q, measure: Measure, system: UnitSystem) -> String {
    let text = show_as(quantity, measure, system).to_string();
    let symbol = measure.symbol(system);
    let bare = text.strip_suffix(symbol).unwrap_or(&text).trim_end();
    bare.to_owned()
}

/// A place along a run as a tape reads it: feet and inches to an eighth, or
/// metres to a millimetre.
pub(crate) fn tape(at: Length, system: UnitSystem) -> String {
    const EIGHTHS: [&str; 8] = ["", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8"];
    if system == UnitSystem::Si {
        return format!("{:.3}", at.value);
    }
    let eighths = (at.to(inch) * 8.0).round();
    let feet = (eighths / 96.0).floor();
    let inches = ((eighths - 96.0 * feet) / 8.0).floor();
    let left = eighths - 96.0 * feet - 8.0 * inches;
    let near = |(count, _): &(u32, &str)| (f64::from(*count) - left).abs() < 0.5;
    let part = (0..).zip(EIGHTHS).find(near).map_or("", |(_, part)| part);
    match (inches > 0.0, part) {
        (false, "") => format!("{feet}'"),
        (true, "") => format!("{feet}' {inches}\""),
        (false, part) => format!("{feet}' {part}\""),
        (true, part) => format!("{feet}' {inches}-{part}\""),
    }
}

/// A depth as it is dug: up to the next inch or centimetre.
pub(crate) fn dig(depth: Length, system: UnitSystem) -> String {
    format!("{:.0}", digging(depth, system))
}

/// That depth in inches or millimetres.
pub(crate) fn digging(depth: Length, system: UnitSystem) -> f64 {
    match system {
        UnitSystem::Us => round_up(depth, inch(1.0)).to(inch).round(),
        UnitSystem::Si => round_up(depth, mm(10.0)).to(mm).round(),
    }
}
