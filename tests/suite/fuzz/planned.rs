//! What every plan of a fence promises, whatever its wind.

use super::holds::{finite, not_negative, refused, sound, used};
use groundline::check::{Checked, Governing, SiteResults};
use groundline::combination::CombinesTo;
use groundline::limit_state::AllowableStress;
use groundline::plan::{FencePlan, Schedule, ScheduledPost};
use groundline::report;
use groundline::units::*;
use groundline::wind::WindCode;

/// Checks a plan, with the worksheet of this post if there is one.
pub(crate) fn plan<C: WindCode>(plan: &FencePlan<C>, worksheet: Option<usize>)
where
    C::Level: CombinesTo<AllowableStress>,
{
    let schedule = match plan.schedule() {
        Ok(schedule) => schedule,
        Err(error) => return refused(&error),
    };
    let mut count = 0;
    for planned in schedule.posts() {
        post(&planned);
        count += 1;
    }
    assert_eq!(count, plan.fence().posts().len());
    for run in 0..plan.fence().runs().len() {
        pressures(&schedule, run);
    }
    let sum = schedule.materials(None);
    not_negative("volumes", &[sum.hole, sum.base, sum.fill]);
    not_negative("to carry", &[sum.carry]);
    assert!(sum.exact >= 0.0 && sum.bags >= sum.exact - 1e-6 && sum.bags.is_finite());
    assert!(schedule.cautions().iter().next().is_some());
    if let Some(number) = worksheet
        && let Some(post) = schedule.post(number)
    {
        let system = [UnitSystem::Us, UnitSystem::Si][number % 2];
        sound(&report::text(&schedule.worksheet(&post, system)).to_string());
    }
}

fn post<L: CombinesTo<AllowableStress>>(post: &ScheduledPost<L>) {
    let check = &post.check;
    for case in post.cases.iter() {
        not_negative("shear", &[case.wind.shear()]);
        not_negative("moment", &[case.wind.moment()]);
        not_negative("weight", &[case.dead.axial()]);
        finite(
            "moment of the weight",
            &[case.dead.in_line(), case.dead.across()],
        );
    }
    not_negative(
        "required depth",
        &[check.required.depth(), check.required.a_term()],
    );
    not_negative("bearing", &[check.required.bearing()]);
    if let Some(planned) = &check.planned {
        used("planned depth", planned.utilization());
        not_negative("demand", &[planned.demand(), planned.capacity()]);
        // The required depth is the one the ground is used up at.
        let enough = planned.depth() >= check.required.depth() * (1.0 + 1e-6);
        assert!(
            !enough || planned.utilization().ratio() <= 1.0 + 1e-6,
            "{planned:?}"
        );
    }
    if let Some(bearing) = &check.bearing {
        used("bearing", bearing.utilization);
        not_negative("bearing", &[bearing.demand, bearing.capacity]);
    }
    let demand = &check.strength.demand;
    not_negative("moment below grade", &[demand.moment()]);
    not_negative("shear below grade", &[demand.shear()]);
    not_negative(
        "where it is",
        &[demand.depth_of_moment(), demand.embedment()],
    );
    let mut worst = 0.0_f64;
    for kind in Governing::ALL {
        let own = check.utilization_of(kind);
        used(kind.name(), own);
        worst = worst.max(own.ratio());
        if let Some(own) = post.site.utilization_of(kind) {
            used(kind.name(), own);
            worst = worst.max(own.ratio());
        }
    }
    // What governs is the worst of all, and passing is failing in nothing.
    assert_eq!(post.utilization().ratio(), worst, "{:?}", post.governing());
    assert_eq!(post.passes(), post.failing().next().is_none());
    site(&post.site);
}

fn site(site: &SiteResults) {
    site.refusals().for_each(refused);
    if let Checked::Done(lean) = &site.lean {
        finite(
            "lean",
            &[lean.lean.total(), lean.lean.flexure(), lean.lean.movement()],
        );
        finite("rotation", &[lean.lean.rotation()]);
        not_negative("embedment", &[lean.embedment]);
        assert!(lean.ratio.is_finite(), "{}", lean.ratio);
    }
    if let Checked::Done(frost) = &site.frost {
        let balance = &frost.balance;
        not_negative(
            "frost",
            &[balance.lifts, balance.holds, frost.dead, frost.footing],
        );
        assert_eq!(balance.stays(), frost.remedy().is_none());
    }
    if let Checked::Done(uplift) = &site.uplift {
        not_negative(
            "uplift",
            &[uplift.resistance.resistance, uplift.post, uplift.footing],
        );
    }
    if let Checked::Done(axial) = &site.axial {
        not_negative("axial", &[axial.axial, axial.capacity]);
        not_negative("stress", &[axial.euler, axial.critical]);
        // Infinite where the weight alone tips it.
        assert!(axial.amplification >= 1.0, "{}", axial.amplification);
        assert!(axial.slenderness.is_finite() && axial.slenderness >= 0.0);
    }
    if let Checked::Done(materials) = &site.materials {
        not_negative("volumes", &[materials.hole, materials.base, materials.fill]);
        not_negative("to carry", &[materials.carry()]);
    }
}

/// What is on the strips is on the posts.
fn pressures<C: WindCode>(schedule: &Schedule<'_, C>, run: usize)
where
    C::Level: CombinesTo<AllowableStress>,
{
    let Some(picture) = schedule.wind().picture(run) else {
        return;
    };
    for strip in &picture.strips {
        finite("pressure", &[strip.pressure, strip.pressure_at_to]);
        assert!(strip.coefficient.is_finite());
    }
    for sum in &picture.sums {
        assert!(sum.agrees(), "{sum:?}");
    }
}
