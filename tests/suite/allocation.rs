//! A check takes no heap memory.

use crate::samples::pine;
use groundline::actions::{DeadEffects, GroundlineActions, LoadCase};
use groundline::check::{PostCheck, PostDesign};
use groundline::foundation::Hole;
use groundline::ground::{Ground, SoilClass};
use groundline::units::*;
use groundline::wind::*;
use std::hint::black_box;

#[test]
fn a_check_from_wind_to_utilization_allocates_nothing() {
    let design = PostDesign::in_concrete(
        Ground::presumptive(SoilClass::Class4),
        pine(5.5).into(),
        Hole::round(inch(18.0)).unwrap(),
    )
    .unwrap();
    let run = || {
        let v = BasicWindSpeed::strength_level(black_box(mph(115.0))).unwrap();
        let site = AsceSite::new(Edition::Asce7_16, v, Exposure::B);
        let wall = WallShape::new(ft(96.0), ft(6.0), ft(0.0), 1.0).unwrap();
        let wind = WallWind::new(&site, wall, WallEnds::FREE).unwrap();
        let (_, force) = wind.worst(ft(4.0), ft(12.0));
        let actions = GroundlineActions::wind(force, wind.resultant_height()).unwrap();
        let cases = [LoadCase::new(actions, DeadEffects::NONE)];
        PostCheck::new(&design, &cases, Some(ft(4.0))).unwrap()
    };
    let first = run();
    let used = allocation_counter::measure(|| {
        black_box(run());
    });
    assert_eq!(used.count_total, 0);
    assert_eq!(first, run());
}
