//! Single changes that make a failing post or plan pass.

use groundline::check::{FrostOptions, Governing, Grip, PostDesign, SiteChecks};
use groundline::fence::{Fence, FenceRun, Panel};
use groundline::foundation::Hole;
use groundline::ground::{Ground, SoilClass};
use groundline::limit_state::AllowableStress;
use groundline::plan::FencePlan;
use groundline::post::{
    DesignValues, Grade, Moisture, PipePost, Post, Species, SteelStrength, TimberPost, Treatment,
};
use groundline::remedies::*;
use groundline::section::{Square, Tube};
use groundline::units::*;
use groundline::wind::*;
use proptest::prelude::*;

fn pipe(diameter: f64, wall: f64) -> Post {
    let steel = SteelStrength::new(ksi(50.0)).unwrap();
    PipePost::new(Tube::new(inch(diameter), inch(wall)).unwrap(), steel)
        .unwrap()
        .into()
}

fn fence() -> Fence {
    Fence::new(FenceRun::new(Panel::new(ft(6.0)).unwrap(), ft(48.0), ft(8.0)).unwrap())
}

fn design(hole: f64) -> PostDesign {
    let ground = Ground::presumptive(SoilClass::Class4);
    PostDesign::in_concrete(ground, pipe(2.875, 0.16), Hole::round(inch(hole)).unwrap()).unwrap()
}

/// A pressure of one's own: no minimum, no zones, so numbers follow by hand.
fn pressed(pressure: f64, hole: f64, depth: f64) -> FencePlan<DirectPressure<AllowableStress>> {
    let wind = DirectPressure::new(psf(pressure), AllowableStress::Basic).unwrap();
    FencePlan::new(wind, fence(), design(hole)).with_planned_depth(inch(depth))
}

#[test]
fn debug_print() {
    let plan = pressed(12.0, 12.0, 30.0);
    let r = of_plan(&plan, &RemedyOptions::default()).unwrap();
    println!("{:?} {}", r.failing, r.trials);
    for l in r
        .lines(UnitSystem::Us)
        .iter()
        .chain(&r.other_lines(UnitSystem::Us))
    {
        println!("{l}");
    }
    let frost = FrostOptions::new(inch(30.0), Grip::FineGrained).unwrap();
    let plan = plan.with_site_checks(SiteChecks::default().with_frost(frost));
    let r = of_plan(&plan, &RemedyOptions::default()).unwrap();
    for l in r
        .lines(UnitSystem::Us)
        .iter()
        .chain(&r.other_lines(UnitSystem::Us))
    {
        println!("{l}");
    }
    let _ = Governing::Lean;
    let v = BasicWindSpeed::strength_level(mph(115.0)).unwrap();
    let site = AsceSite::new(Edition::Asce7_22, v, Exposure::B);
    let plan = FencePlan::new(site, fence(), design(12.0)).with_planned_depth(inch(30.0));
    let r = of_plan(&plan, &RemedyOptions::default()).unwrap();
    for l in r
        .lines(UnitSystem::Us)
        .iter()
        .chain(&r.other_lines(UnitSystem::Us))
    {
        println!("{l}");
    }
    let s = groundline::backwards::greatest_wind(&plan, groundline::backwards::Search::speeds())
        .unwrap();
    println!(
        "{:?} {:?}",
        s.answer,
        s.minimum.map(|m| (
            m.pressure,
            m.value,
            m.worst.governing(),
            m.worst.utilization()
        ))
    );
    println!("{:?}", plan.schedule().unwrap().wind_held(3));
}
