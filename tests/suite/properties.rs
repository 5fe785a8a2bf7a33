//! What must hold for any fence: monotone, scale-free, the same in both unit
//! systems, mirrored, and in balance.

use crate::samples::{pine, pipe};
use groundline::actions::{DeadEffects, FenceWind, GroundlineActions, LoadCase};
use groundline::check::{Governing, PostCheck, PostDesign, SiteChecks};
use groundline::embedment::{DepthCap, PoleFormula};
use groundline::fence::*;
use groundline::foundation::*;
use groundline::ground::*;
use groundline::limit_state::{AllowableStress, Strength};
use groundline::plan::FencePlan;
use groundline::units::*;
use groundline::wind::*;
use proptest::prelude::*;

const BASIC: AllowableStress = AllowableStress::Basic;

fn load(p: f64, h: f64) -> GroundlineActions<AllowableStress> {
    GroundlineActions::new(lb(p), lb_ft(p * h), lb(0.0), BASIC).unwrap()
}

fn formula(bearing: f64, width: f64, cap: DepthCap, restraint: Restraint) -> PoleFormula {
    let soil = Ground::given(LateralBearing::new(psf_per_ft(bearing)).unwrap());
    PoleFormula::new(&soil, BearingWidth::new(ft(width)).unwrap(), restraint).with_cap(cap)
}

fn cap() -> impl Strategy<Value = DepthCap> {
    prop_oneof![Just(DepthCap::CapDepth), Just(DepthCap::CapReading)]
}

fn restraint() -> impl Strategy<Value = Restraint> {
    prop_oneof![Just(Restraint::None), Just(Restraint::RigidPaving)]
}

fn edition() -> impl Strategy<Value = Edition> {
    prop_oneof![
        Just(Edition::Asce7_10),
        Just(Edition::Asce7_16),
        Just(Edition::Asce7_22)
    ]
}

fn exposure() -> impl Strategy<Value = Exposure> {
    prop_oneof![Just(Exposure::B), Just(Exposure::C), Just(Exposure::D)]
}

fn design(hole: Length) -> PostDesign {
    PostDesign::in_concrete(
        Ground::presumptive(SoilClass::Class4),
        pipe(2.875, 0.16).into(),
        Hole::round(hole).unwrap(),
    )
    .unwrap()
}

proptest! {
    #[test]
    fn deeper_for_more_load_shallower_for_better_ground(
        p in 1.0..20_000.0_f64, h in 0.0..20.0_f64, s in 50.0..500.0_f64, b in 0.3..4.0_f64,
        more in 1.001..3.0_f64, cap in cap(), restraint in restraint(),
    ) {
        prop_assume!(restraint == Restraint::None || h > 0.1);
        let depth = |p, h, s, b| {
            formula(s, b, cap, restraint).required(&load(p, h)).unwrap().depth()
        };
        let base = depth(p, h, s, b);
        prop_assert!(depth(p * more, h, s, b) > base);
        prop_assert!(depth(p, h * more + 0.1, s, b) > base);
        prop_assert!(depth(p, h, s * more, b) < base);
        prop_assert!(depth(p, h, s, b * more) < base);
    }

    #[test]
    fn required_passes_check_and_one_percent_less_fails(
        p in 0.0..20_000.0_f64, m in 0.0..300_000.0_f64, s in 50.0..500.0_f64,
        b in 0.3..4.0_f64, top in 0.0..4.0_f64, cap in cap(), restraint in restraint(),
    ) {
        prop_assume!(m > 1.0);
        let soil = Ground::given(LateralBearing::new(psf_per_ft(s)).unwrap())
            .discounting_top(ft(top)).unwrap();
        let width = BearingWidth::new(ft(b)).unwrap();
        let formula = PoleFormula::new(&soil, width, restraint).with_cap(cap);
        let actions = GroundlineActions::new(lb(p), lb_ft(m), lb(0.0), BASIC).unwrap();
        let required = formula.required(&actions).unwrap();
        let check = formula.check(&actions, required.depth()).unwrap();
        // The layer left out costs digits where it is most of the depth.
        let lost = required.depth().value / required.depth_that_counts().value;
        prop_assert!((check.utilization().ratio() - 1.0).abs() < 1e-12 * lost.max(1.0));
        prop_assert!(check.utilization().passes());
        let less = formula.check(&actions, required.depth() * 0.99).unwrap();
        prop_assert!(!less.utilization().passes());
        prop_assert!(less.one_pass_depth().is_none_or(|depth| depth > less.depth()));
    }

    /// Lengths by k, forces by k², with S1 the same (S by 1/k): depth by k.
    #[test]
    fn scale(p in 1.0..5_000.0_f64, h in 0.0..10.0_f64, k in 0.5..2.0_f64) {
        let depth = |p, h, s, b, limit: f64| {
            let d = formula(s, b, DepthCap::CapDepth, Restraint::None)
                .required(&load(p, h)).unwrap().depth().to(ft);
            (d < limit).then_some(d)
        };
        if let (Some(base), Some(scaled)) = (
            depth(p, h, 200.0, 1.0, 12.0),
            depth(p * k * k, h * k, 200.0 / k, k, 12.0),
        ) {
            prop_assert!((scaled / (k * base) - 1.0).abs() < 1e-12);
        }
    }

    /// Cases given need not agree in their weight: the worst of each check is found
    /// wherever it stands. Bearing by hand: the greatest weight over π/4 of a 1 ft hole.
    #[test]
    fn cases_in_any_order(
        given in prop::collection::vec((1.0..800.0_f64, 0.5..6.0_f64, 0.0..6_000.0_f64), 1..5),
        turn in 0..5_usize, depth in 3.0..6.0_f64,
    ) {
        let mut cases: Vec<_> = given.iter().map(|(v, h, n)| LoadCase::new(
            GroundlineActions::wind(lb(*v), ft(*h)).unwrap(),
            DeadEffects::new(lb(*n), lb_ft(0.0), lb_ft(0.0)).unwrap(),
        )).collect();
        let design = design(inch(12.0));
        let of = |cases: &[LoadCase]| PostCheck::new(&design, cases, Some(ft(depth))).unwrap();
        let first = of(&cases);
        let heaviest = given.iter().map(|case| case.2).fold(0.0, f64::max);
        let by_hand = heaviest / (std::f64::consts::PI / 4.0) / 2_000.0;
        let bearing = first.bearing.unwrap().utilization.ratio();
        prop_assert!((bearing - by_hand).abs() < 1e-9 * by_hand.max(1.0));
        cases.rotate_left(turn % given.len());
        let turned = of(&cases);
        cases.reverse();
        for other in [turned, of(&cases)] {
            prop_assert_eq!(other.utilization, first.utilization);
            prop_assert_eq!(other.governing, first.governing);
            for check in Governing::ALL {
                prop_assert_eq!(other.utilization_of(check), first.utilization_of(check));
            }
        }
    }

    /// 18-1 never asks for less than 18-2, for one load.
    #[test]
    fn restraint_never_hurts(p in 1.0..20_000.0_f64, h in 0.1..20.0_f64) {
        let depth = |restraint| formula(150.0, 1.0, DepthCap::CapDepth, restraint)
            .required(&load(p, h)).unwrap().depth();
        prop_assert!(depth(Restraint::RigidPaving) < depth(Restraint::None));
    }

    /// One fence, typed in US units and in SI.
    #[test]
    fn unit_systems_agree(
        height in 1.5..12.0_f64, gap in 0.0..0.4_f64, length in 20.0..300.0_f64,
        spacing in 4.0..12.0_f64, speed in 85.0..180.0_f64, hole in 8.0..36.0_f64,
        depth in 12.0..120.0_f64, edition in edition(), exposure in exposure(),
    ) {
        let run = |height, gap, length, spacing| {
            let panel = Panel::new(height).unwrap().with_clearance(gap).unwrap();
            Fence::new(FenceRun::new(panel, length, spacing).unwrap())
        };
        let us = run(ft(height), inch(gap * 12.0), ft(length), ft(spacing));
        let si = run(
            m(height * 0.3048), mm(gap * 304.8), m(length * 0.3048), cm(spacing * 30.48),
        );
        let site = |speed| AsceSite::new(
            edition, BasicWindSpeed::strength_level(speed).unwrap(), exposure,
        );
        prop_assume!(us.posts().len() == si.posts().len());
        let us_plan = FencePlan::new(site(mph(speed)), us.clone(), design(inch(hole)))
            .with_planned_depth(inch(depth));
        let si_plan = FencePlan::new(site(m_per_s(speed * 0.44704)), si.clone(), design(mm(hole * 25.4)))
            .with_planned_depth(mm(depth * 25.4));
        let (us_schedule, si_schedule) = (us_plan.schedule().unwrap(), si_plan.schedule().unwrap());
        for (a, b) in us_schedule.posts().zip(si_schedule.posts()) {
            let close = |a: f64, b: f64| (a / b - 1.0).abs() < 1e-12;
            prop_assert!(close(a.check.actions().shear().value, b.check.actions().shear().value));
            prop_assert!(close(a.check.required.depth().value, b.check.required.depth().value));
            prop_assert!(close(a.check.utilization.ratio(), b.check.utilization.ratio()));
        }
    }

    /// A fence walked from its other end has the same posts in reverse.
    #[test]
    fn mirrored(
        first in 20.0..150.0_f64, second in 20.0..150.0_f64, spacing in 4.0..10.0_f64,
        gate_at in 1.0..10.0_f64, turn in 10.0..170.0_f64, hinge in 0..3_usize,
    ) {
        let hinges = [Hinges::AtStart, Hinges::AtEnd, Hinges::Both][hinge];
        let gate = Gate::new(ft(gate_at), ft(5.0), lb(140.0), hinges).unwrap();
        let panel = Panel::new(ft(6.0)).unwrap().with_weight(psf(3.0)).unwrap();
        let run = |length| FenceRun::new(panel, ft(length), ft(spacing)).unwrap();
        let fence = Fence::new(run(first).with_gate(gate).unwrap())
            .turning(deg(turn), run(second)).unwrap();
        let mirror = fence.mirrored();
        let v = BasicWindSpeed::strength_level(mph(120.0)).unwrap();
        let site = AsceSite::new(Edition::Asce7_22, v, Exposure::C);
        let plan = FencePlan::new(site, fence.clone(), design(inch(12.0)));
        let mirror_plan = FencePlan::new(site, mirror.clone(), design(inch(12.0)));
        let (schedule, mirror_schedule) = (plan.schedule().unwrap(), mirror_plan.schedule().unwrap());
        let posts: Vec<_> = schedule.posts().collect();
        let mut reversed: Vec<_> = mirror_schedule.posts().collect();
        reversed.reverse();
        prop_assert_eq!(posts.len(), reversed.len());
        for (a, b) in posts.iter().zip(&reversed) {
            prop_assert_eq!(a.post.kind, b.post.kind);
            let close = |a: f64, b: f64| (a - b).abs() <= 1e-9 * a.abs().max(1e-6);
            prop_assert!(close(
                a.check.required.depth().value, b.check.required.depth().value,
            ), "{a:?} {b:?}");
            prop_assert!(close(
                a.check.strength.bending.ratio(), b.check.strength.bending.ratio(),
            ));
            prop_assert_eq!(a.cases.iter().count(), b.cases.iter().count());
        }
    }

    /// Sum of the posts' shears in a case = pressure times area of the case.
    #[test]
    fn shears_sum_to_pressure_times_area(
        length in 4.0..400.0_f64, spacing in 3.0..12.0_f64, height in 1.0..12.0_f64,
        gap in 0.0..0.5_f64, speed in 85.0..200.0_f64, solidity in 0.7..1.0_f64,
    ) {
        let panel = Panel::new(ft(height)).unwrap()
            .with_clearance(ft(height * gap)).unwrap()
            .with_solidity(solidity).unwrap();
        let fence = Fence::new(FenceRun::new(panel, ft(length), ft(spacing)).unwrap());
        let v = BasicWindSpeed::strength_level(mph(speed)).unwrap();
        let every = WallOptions::default().eccentric_case(EccentricCase::EveryRun);
        let site = AsceSite::new(Edition::Asce7_16, v, Exposure::C).with_options(every);
        let wind = FenceWind::new(&site, &fence).unwrap();
        let wall = wind.runs()[0].alone().unwrap();
        for case in WindCase::ALL.into_iter().filter(|case| wall.has(*case)) {
            let shears: Force = fence.posts().iter()
                .map(|post| wind.shear(post.arms().next().unwrap(), case))
                .sum();
            // Case B has the total of Case A; the others the sum of strips.
            let by_area = match case {
                WindCase::Zones(_) | WindCase::Minimum => wall.strips(case)
                    .map(|strip| strip.pressure * (strip.to - strip.from) * panel.height())
                    .sum::<Force>(),
                _ => wall.uniform_pressure().unwrap() * panel.height() * ft(length),
            };
            prop_assert!((shears.value / by_area.value - 1.0).abs() < 1e-11);
        }
    }

    /// More wind, a taller fence, wider bays: never a shallower post.
    #[test]
    fn more_wind_more_depth(
        height in 3.0..10.0_f64, length in 40.0..200.0_f64, bays in 5..20_i32,
        speed in 85.0..150.0_f64, exposure in exposure(), edition in edition(),
    ) {
        let deepest = |height: f64, bays: i32, speed: f64| {
            let panel = Panel::new(ft(height)).unwrap();
            let spacing = length / f64::from(bays);
            prop_assume!((1.0..=40.0).contains(&spacing));
            let fence = Fence::new(FenceRun::new(panel, ft(length), ft(spacing)).unwrap());
            let v = BasicWindSpeed::strength_level(mph(speed)).unwrap();
            let site = AsceSite::new(edition, v, exposure);
            let plan = FencePlan::new(site, fence.clone(), design(inch(12.0)));
            let schedule = plan.schedule().unwrap();
            Ok(schedule.posts()
                .map(|post| post.check.required.depth().value)
                .fold(0.0, f64::max))
        };
        let base = deepest(height, bays, speed)?;
        prop_assert!(deepest(height, bays, speed * 1.1)? >= base * (1.0 - 1e-12));
        prop_assert!(deepest(height * 1.1, bays, speed)? > base);
        prop_assert!(deepest(height, bays - 1, speed)? > base);
    }

    /// A return corner never increases any piece; with or without it the far
    /// strips are the same.
    #[test]
    fn a_return_corner_never_increases(
        length in 10.0..300.0_f64, back in 0.0..40.0_f64, from in 0.0..1.0_f64,
        width in 0.0..0.3_f64,
    ) {
        let v = BasicWindSpeed::strength_level(mph(120.0)).unwrap();
        let site = AsceSite::new(Edition::Asce7_16, v, Exposure::C);
        let wall = WallShape::new(ft(length), ft(6.0), ft(0.0), 1.0).unwrap();
        let wind = |ends| WallWind::new(&site, wall, ends).unwrap();
        let free = wind(WallEnds::FREE);
        let turned = wind(WallEnds {
            start: WallEnd::Return(ft(back)),
            end: WallEnd::Return(ft(back)),
        });
        let (a, b) = (ft(length * from), ft(length * (from + width)));
        for case in WindCase::ALL {
            prop_assert!(turned.force(case, a, b) <= free.force(case, a, b));
        }
    }

    /// Openings never raise the force on gross area.
    #[test]
    fn openings_never_raise_the_load(solidity in 0.7..1.0_f64, less in 0.0..0.3_f64) {
        let lower = (solidity - less).max(0.7);
        prop_assert!(opening_factor(lower).unwrap() <= opening_factor(solidity).unwrap());
    }

    /// The coefficient surfaces are continuous at their knots, but for the
    /// documented steps (Case C at B/s of 10 and 13 in the far regions is one
    /// of interpolation, so continuous too).
    #[test]
    fn coefficients_are_continuous(s_over_h in 0.1..1.0_f64, b in 2.0..60.0_f64) {
        let near = 1e-9;
        let a = cf_cases_a_b(s_over_h, b).unwrap();
        prop_assert!((cf_cases_a_b(s_over_h, b + near).unwrap() - a).abs() < 1e-7);
        prop_assert!((cf_cases_a_b(s_over_h - near, b).unwrap() - a).abs() < 1e-7);
        let c = |b| CaseC::new(s_over_h, b, ColumnGap::Interpolate).unwrap().unwrap();
        for (x, y) in c(b).regions().zip(c(b + near).regions()) {
            prop_assert!((x.cf - y.cf).abs() < 1e-7);
        }
    }
}

/// Kinds of post may have designs and depths of their own.
#[test]
fn a_design_for_a_kind_of_post() {
    let fence = Fence::new(FenceRun::new(Panel::new(ft(6.0)).unwrap(), ft(40.0), ft(8.0)).unwrap());
    let v = BasicWindSpeed::strength_level(mph(115.0)).unwrap();
    let site = AsceSite::new(Edition::Asce7_16, v, Exposure::B);
    let plan = FencePlan::new(site, fence.clone(), design(inch(12.0)))
        .with_planned_depth(ft(4.0))
        .with_kind(PostKind::End, design(inch(24.0)), Some(ft(3.0)));
    let schedule = plan.schedule().unwrap();
    for post in schedule.posts() {
        let end = post.post.kind == PostKind::End;
        let width = post.check.design().foundation().bearing_width().width();
        assert_eq!(width, if end { inch(24.0) } else { inch(12.0) });
        let depth = post.check.planned.unwrap().depth();
        assert_eq!(depth, if end { ft(3.0) } else { ft(4.0) });
    }
    assert!(schedule.post(0).is_none() && schedule.post(7).is_none());
    assert_eq!(schedule.post(6).unwrap().post.kind, PostKind::End);
}

/// What governs is the worst of all checks, each from its own worst case.
#[test]
fn what_governs() {
    let wind = |v: f64, h: f64| {
        LoadCase::new(
            GroundlineActions::new(lb(v), lb_ft(v * h), lb(0.0), Strength).unwrap(),
            DeadEffects::NONE,
        )
    };
    let design = design(inch(24.0));
    let check = |v, h, depth: f64| PostCheck::new(&design, &[wind(v, h)], Some(ft(depth))).unwrap();
    let shallow = check(1500.0, 4.0, 2.0);
    assert_eq!(shallow.governing, Governing::Embedment);
    assert_eq!(shallow.utilization, shallow.planned.unwrap().utilization());
    let deep = check(1500.0, 4.0, 9.0);
    assert_eq!(deep.governing, Governing::Bending);
    assert_eq!(deep.utilization, deep.strength.bending);
    assert!(!deep.passes());
    // Without a plan the ground is used up exactly.
    let unplanned = PostCheck::new(&design, &[wind(100.0, 2.0)], None).unwrap();
    assert_eq!(unplanned.utilization.ratio(), 1.0);
    assert!(unplanned.passes());
    // A heavy leaf on a slender base.
    let heavy = LoadCase::new(
        wind(1.0, 1.0).wind,
        DeadEffects::new(lb(9_000.0), lb_ft(0.0), lb_ft(0.0)).unwrap(),
    );
    let sinking = PostCheck::new(&design, &[heavy], Some(ft(6.0))).unwrap();
    assert_eq!(sinking.governing, Governing::VerticalBearing);
    let by_hand = 9_000.0 / (std::f64::consts::PI * 1.0) / 2_000.0;
    assert!((sinking.utilization.ratio() / by_hand - 1.0).abs() < 1e-12);
}

/// A square post bent in a skew direction: both components add up in a corner,
/// so it resists 1/√2. By the sum of both directions (NDS 3.9, from memory;
/// here plain statics of a corner fibre).
#[test]
fn skew_bending_of_a_square_post() {
    let ground = Ground::presumptive(SoilClass::Class3);
    let hole = Hole::round(inch(18.0)).unwrap();
    let design = PostDesign::in_concrete(ground, pine(5.5).into(), hole).unwrap();
    let panel = Panel::new(ft(6.0)).unwrap();
    let run = |length: f64| FenceRun::new(panel, ft(length), ft(8.0)).unwrap();
    let fence = Fence::new(run(24.0)).turning(deg(90.0), run(24.0)).unwrap();
    let v = BasicWindSpeed::strength_level(mph(115.0)).unwrap();
    let site = AsceSite::new(Edition::Asce7_16, v, Exposure::B);
    let plan = FencePlan::new(site, fence, design).with_planned_depth(ft(6.0));
    let schedule = plan.schedule().unwrap();
    let corner = schedule.post(4).unwrap();
    assert_eq!(corner.post.kind, PostKind::Corner);
    let check = &corner.check.strength;
    assert!(check.skew);
    // The two components: the resultant is the root of squares, the stress in
    // the corner fibre the sum; equal components are the worst direction.
    let component = check.demand.moment() / std::f64::consts::SQRT_2;
    let by_sum = (component / check.strength.moment).value * 2.0;
    assert!((check.bending.ratio() / by_sum - 1.0).abs() < 1e-12);
    // A line post is bent square to a face.
    assert!(!schedule.post(2).unwrap().check.strength.skew);
    // A pipe is the same in every direction.
    let round = pipe(2.875, 0.16).strength();
    assert_eq!(round.skew_moment, round.moment);
}

/// What a planned post carries, put back: the governing check at 1, the others
/// below.
#[test]
fn capacity_of_a_planned_post() {
    for (hole, depth) in [(12.0, 2.5), (30.0, 9.0)] {
        let design = design(inch(hole));
        let (holds, governing) = design.capacity(ft(depth), ft(4.0)).unwrap();
        let check = PostCheck::of_actions(&design, &holds, Some(ft(depth))).unwrap();
        assert_eq!(check.governing, governing);
        assert!((check.utilization.ratio() - 1.0).abs() < 1e-9);
        assert!(check.failing().next().is_none());
        assert!((holds.height().to(ft) - 4.0).abs() < 1e-9);
    }
    let (_, governing) = design(inch(30.0)).capacity(ft(9.0), ft(4.0)).unwrap();
    assert_eq!(governing, Governing::Bending);
}

/// Strength is checked at the required depth, and a post that fails there is too weak
/// at any depth.
#[test]
fn strength_at_the_depth_that_is_needed() {
    let design = design(inch(12.0));
    let case = LoadCase::new(
        GroundlineActions::wind(lb(2_400.0), ft(4.0)).unwrap(),
        DeadEffects::NONE,
    );
    let shallow = PostCheck::new(&design, &[case], Some(ft(2.0))).unwrap();
    let unplanned = PostCheck::new(&design, &[case], None).unwrap();
    assert_eq!(shallow.strength, unplanned.strength);
    assert!(shallow.post_is_too_weak());
    let failing: Vec<_> = shallow.failing().collect();
    assert_eq!(failing, [Governing::Embedment, Governing::Bending]);
    let light = LoadCase::new(
        GroundlineActions::wind(lb(400.0), ft(4.0)).unwrap(),
        DeadEffects::NONE,
    );
    assert!(
        !PostCheck::new(&design, &[light], Some(ft(2.0)))
            .unwrap()
            .post_is_too_weak()
    );
}

/// One post may have a design of its own, before that of its kind.
#[test]
fn a_design_for_one_post() {
    let fence = Fence::new(FenceRun::new(Panel::new(ft(6.0)).unwrap(), ft(40.0), ft(8.0)).unwrap());
    let v = BasicWindSpeed::strength_level(mph(115.0)).unwrap();
    let site = AsceSite::new(Edition::Asce7_16, v, Exposure::B);
    let plan = FencePlan::new(site, fence, design(inch(12.0)))
        .with_kind(PostKind::Line, design(inch(16.0)), None)
        .with_post(2, design(inch(24.0)), Some(ft(4.0)));
    let schedule = plan.schedule().unwrap();
    let width = |number: usize| {
        let post = schedule.post(number).unwrap();
        post.check.design().foundation().bearing_width().width()
    };
    assert_eq!(
        (width(1), width(2), width(3)),
        (inch(12.0), inch(24.0), inch(16.0))
    );
    // A number that no post has: six posts, from 1.
    let checks = SiteChecks::default();
    for (number, taken) in [(0, false), (1, true), (6, true), (7, false)] {
        let own = plan.clone().with_post(number, design(inch(24.0)), None);
        let asked = plan.clone().with_post_site_checks(number, checks);
        for plan in [own, asked] {
            match plan.schedule() {
                Ok(_) => assert!(taken, "{number}"),
                Err(error) => assert_eq!((taken, error.field()), (false, "post number")),
            }
        }
    }
}

/// Too weak means in bending or shear at the required depth, whatever the planned one.
#[test]
fn too_weak_is_said_of_no_post_that_passes() {
    let section = pipe(2.875, 0.16).section().to_owned();
    let soil = Ground::presumptive(SoilClass::Class4);
    let hole = Hole::round(inch(12.0)).unwrap();
    let with = |moment: f64, shear: f64| {
        let post = groundline::post::GivenPost::new(
            groundline::section::PostSection::Tube(section),
            lb_ft(moment),
            lb(shear),
        )
        .unwrap();
        PostDesign::in_concrete(soil, post.into(), hole).unwrap()
    };
    let actions = GroundlineActions::new(lb(800.0), lb_ft(3_500.0), lb(0.0), BASIC).unwrap();
    let check = |design: &PostDesign, depth: f64| {
        PostCheck::of_actions(design, &actions, Some(ft(depth))).unwrap()
    };
    // Moment and shear are those of the required depth at every planned one, of one
    // diagram of pressures: reversed shear of 1 200 lb or so is not taken down by depth.
    let sheared = check(&with(1e6, 1_200.0), 10.0);
    assert!(!sheared.passes() && sheared.post_is_too_weak());
    // Bending passes at the required depth, and so at 11 ft, where the moment of the
    // rigid post over the whole depth would fail it.
    let bent = check(&with(5_000.0, 1e5), 11.0);
    assert!(bent.passes() && !bent.post_is_too_weak());
    let whole = groundline::post::BelowGrade::new(
        &actions,
        ft(11.0),
        ft(0.0),
        groundline::foundation::Restraint::None,
    );
    assert!(whole.unwrap().moment() > lb_ft(5_000.0));
    assert!(check(&with(4_000.0, 1e5), 8.0).post_is_too_weak());
    assert!(check(&with(1e6, 700.0), 8.0).post_is_too_weak());
}
