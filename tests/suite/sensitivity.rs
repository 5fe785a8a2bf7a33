//! Sensitivity and inputs at random, against closed forms derived here by hand.
//!
//! The pole formula of IBC 1807.3.2.1 (published), d = A/2 (1 + √(1 + 4.36 h/A)) with
//! A = 2.34 P/(S1 b) and S1 = S d/3, squared out, is d² = A (d + 1.09 h); so the
//! utilization of a planned depth is u = 7.02 P (d + 1.09 h)/(S b d³). Elasticities
//! below are its logarithmic derivatives.
//!
//! Values of Φ are those of any table: Φ(1) = 0.841 345, Φ(−1.5) = 0.066 807.

use crate::samples::{pine, pipe};
use crate::worksheet::recompute;
use crate::worksheet_whole::closed;
use groundline::Error;
use groundline::caution::Caution;
use groundline::check::{Governing, PostDesign};
use groundline::fence::*;
use groundline::foundation::*;
use groundline::ground::*;
use groundline::limit_state::{AllowableStress, Strength};
use groundline::plan::FencePlan;
use groundline::post::*;
use groundline::report;
use groundline::section::*;
use groundline::sensitivity::*;
use groundline::source::Mark;
use groundline::units::*;
use groundline::wind::*;
use proptest::prelude::*;

type Direct = DirectPressure<AllowableStress>;

fn given(value: f64) -> Direct {
    DirectPressure::new(psf(value), AllowableStress::Basic)
        .unwrap()
        .acting_at(0.5)
        .unwrap()
}

fn site(value: f64) -> AsceSite {
    let speed = BasicWindSpeed::strength_level(mph(value)).unwrap();
    AsceSite::new(Edition::Asce7_22, speed, Exposure::C)
}

fn straight(height: f64, length: f64, spacing: f64) -> Fence {
    let panel = Panel::new(ft(height)).unwrap();
    Fence::new(FenceRun::new(panel, ft(length), ft(spacing)).unwrap())
}

fn class4() -> Ground {
    Ground::presumptive(SoilClass::Class4)
}

fn design(post: impl Into<Post>, hole: f64) -> PostDesign {
    let hole = Hole::round(inch(hole)).unwrap();
    PostDesign::in_concrete(class4(), post.into(), hole).unwrap()
}

/// The same, held by paving at grade: bending is then that at grade, in proportion to
/// the load. Elsewhere it is that of the required depth, which grows with the load.
fn paved(post: impl Into<Post>, hole: f64) -> PostDesign {
    design(post, hole).restrained_by(Restraint::RigidPaving)
}

/// A strong pipe in a 12 in hole 4 ft deep, 6 ft fence, 8 ft bays: the ground
/// governs.
fn in_the_ground(pressure: f64) -> FencePlan<Direct> {
    let plan = FencePlan::new(
        given(pressure),
        straight(6.0, 96.0, 8.0),
        design(pipe(4.0, 0.3), 12.0),
    );
    plan.with_planned_depth(ft(4.0))
}

fn default_of<C: groundline::backwards::VariedWind>(plan: &FencePlan<C>) -> Sensitivity
where
    C::Level: groundline::combination::CombinesTo<AllowableStress>,
{
    sensitivity(plan, Band::default()).unwrap()
}

/// The central elasticity of an input.
fn slope(found: &Sensitivity, input: Input) -> f64 {
    let effect = found.effect(input).unwrap();
    match effect.elasticity {
        Elasticity::Central(value) => value,
        other => panic!("{input}: {other:?}"),
    }
}

fn depth_slope(found: &Sensitivity, input: Input) -> f64 {
    found
        .effect(input)
        .unwrap()
        .depth_elasticity
        .value()
        .unwrap()
}

fn near(value: f64, expected: f64, tolerance: f64) {
    assert!(
        (value - expected).abs() <= tolerance,
        "{value}, not {expected}"
    );
}

/// Bending: u = M/Mr. M goes by V², Mr by Fy Z, Fb S.
#[test]
fn bending_of_an_interior_post() {
    let plan = |post: Post| {
        let fence = straight(4.0, 48.0, 5.0);
        FencePlan::new(site(110.0), fence, paved(post, 36.0)).with_planned_depth(ft(8.0))
    };
    let (diameter, wall) = (2.875, 0.2);
    let of_pipe = default_of(&plan(pipe(diameter, wall).into()));
    let of_timber = default_of(&plan(pine(5.5).into()));
    for found in [&of_pipe, &of_timber] {
        assert_eq!(found.base.governing, Governing::Bending);
        near(slope(found, Input::WindSpeed), 2.0, 1e-9);
        near(slope(found, Input::BendingStrength), -1.0, 1e-9);
        for input in [
            Input::HoleSize,
            Input::LateralBearing,
            Input::PanelWeight,
            Input::ShearStrength,
            Input::VerticalPressure,
        ] {
            if let Some(effect) = found.effect(input) {
                assert_eq!(effect.elasticity, Elasticity::Central(0.0), "{input}");
                assert!(effect.governs_throughout());
            }
        }
        let speed = found.effect(Input::WindSpeed).unwrap();
        let u = |point: Result<Point, Error>| point.unwrap().utilization.ratio();
        near(u(speed.low) / u(Ok(speed.base)), 0.81, 1e-9);
        near(u(speed.high) / u(Ok(speed.base)), 1.21, 1e-9);
        let (least, most) = speed.slopes_within().unwrap();
        near(least, 2.0, 1e-9);
        near(most, 2.0, 1e-9);
        assert_eq!(speed.value, Some(Measured::new(mph(110.0))));
    }
    // Z = (D³ − (D − 2t)³)/6, a compact wall.
    let inside = diameter - 2.0 * wall;
    let cubes = diameter.powi(3) - inside.powi(3);
    let by_wall = -6.0 * wall * inside.powi(2) / cubes;
    let by_size = -3.0 * diameter * (diameter.powi(2) - inside.powi(2)) / cubes;
    near(slope(&of_pipe, Input::PostWall), by_wall, 1e-6);
    near(slope(&of_pipe, Input::PostSize), by_size, 1e-6);
    // S = a³/6.
    near(slope(&of_timber, Input::PostSize), -3.0, 1e-9);
    assert!(of_timber.effect(Input::PostWall).is_none());
    assert!(of_pipe.effect(Input::ShearStrength).is_none());
    let absent: Vec<_> = of_pipe.absent.iter().map(|(input, _)| *input).collect();
    assert_eq!(
        absent,
        [
            Input::WindPressure,
            Input::Clearance,
            Input::PanelWeight,
            Input::DiscountedTop,
            Input::ShearStrength
        ]
    );
}

/// Under an even pressure everything goes by pressure and bay.
#[test]
fn pressure_and_spacing_in_proportion() {
    let fence = straight(6.0, 96.0, 8.0);
    for (design, governing) in [
        (paved(pipe(2.375, 0.13), 30.0), Governing::Bending),
        (design(pipe(4.0, 0.3), 12.0), Governing::Embedment),
    ] {
        let plan = FencePlan::new(given(12.0), fence.clone(), design).with_planned_depth(ft(5.0));
        let found = default_of(&plan);
        assert_eq!(found.base.governing, governing);
        near(slope(&found, Input::WindPressure), 1.0, 1e-9);
        near(slope(&found, Input::PostSpacing), 1.0, 1e-9);
        let missing = found
            .absent
            .iter()
            .find(|(input, _)| *input == Input::WindSpeed);
        assert_eq!(missing.unwrap().1.field(), "basic wind speed");
    }
    // At strength level too, with gates and a corner.
    let panel = Panel::new(ft(6.0)).unwrap();
    let gate = Gate::new(ft(20.0), ft(10.0), lb(0.0), Hinges::Both).unwrap();
    let front = FenceRun::new(panel, ft(60.0), ft(8.0)).unwrap();
    let front = front.with_gate(gate).unwrap();
    let side = FenceRun::new(panel, ft(30.0), ft(6.0)).unwrap();
    let fence = Fence::new(front).turning(deg(90.0), side).unwrap();
    let wind = DirectPressure::new(psf(20.0), Strength)
        .unwrap()
        .acting_at(0.5)
        .unwrap();
    let plan =
        FencePlan::new(wind, fence, design(pipe(4.0, 0.3), 12.0)).with_planned_depth(ft(5.0));
    near(slope(&default_of(&plan), Input::WindPressure), 1.0, 1e-9);
    for factor in [0.9, 1.01, 1.1] {
        let varied = vary(&plan, Input::PostSpacing, factor).unwrap();
        assert_eq!(varied.fence().posts().len(), plan.fence().posts().len());
        let [first, second] = varied.fence().runs() else {
            panic!("two runs");
        };
        // 20 and 30 ft of fence beside a gate of 10.
        near(first.length().to(ft), 50.0 * factor + 10.0, 1e-9);
        near(first.gates()[0].at().to(ft), 20.0 * factor, 1e-9);
        assert_eq!(first.gates()[0].opening(), ft(10.0));
        near(second.length().to(ft), 30.0 * factor, 1e-9);
    }
}

/// Gates keep their openings and the pieces of fence between them grow: 16, 10 and 20
/// ft of fence, 4 and 10 ft of gates.
#[test]
fn bays_grow_beside_gates() {
    let run = FenceRun::new(Panel::new(ft(6.0)).unwrap(), ft(60.0), ft(8.0)).unwrap();
    let gate = |at, opening| Gate::new(ft(at), ft(opening), lb(90.0), Hinges::AtStart).unwrap();
    let run = run.with_gate(gate(16.0, 4.0)).unwrap();
    let run = run.with_gate(gate(30.0, 10.0)).unwrap();
    let longer = run.with_bays_by(1.1).unwrap();
    near(longer.length().to(ft), 46.0 * 1.1 + 14.0, 1e-9);
    near(longer.spacing().to(ft), 8.8, 1e-9);
    let places: Vec<_> = longer.gates().iter().map(|gate| gate.at().to(ft)).collect();
    near(places[0], 17.6, 1e-9);
    near(places[1], 17.6 + 4.0 + 11.0, 1e-9);
    assert_eq!(longer.gates()[1].leaf_weight(), lb(90.0));
    let posts = |run: &FenceRun| Fence::new(run.clone()).posts().len();
    assert_eq!(posts(&longer), posts(&run));
    assert!(run.with_bays_by(6.0).is_err() && run.with_bays_by(f64::NAN).is_err());
    // A piece that becomes too short for a gate to stand beside.
    assert!(run.with_bays_by(0.13).is_ok() && run.with_bays_by(0.04).is_err());
}

/// The ground at a planned depth.
#[test]
fn embedment_by_the_pole_formula() {
    let found = default_of(&in_the_ground(10.0));
    assert_eq!(found.base.governing, Governing::Embedment);
    let (d, height) = (4.0_f64, 6.0);
    let h = height / 2.0;
    let u = 7.02 * (10.0 * 6.0 * 8.0) * (d + 1.09 * h) / (150.0 * d.powi(3));
    near(found.base.utilization.ratio(), u, 1e-9);
    near(slope(&found, Input::HoleSize), -1.0, 1e-9);
    near(slope(&found, Input::LateralBearing), -1.0, 1e-9);
    // The steps are 0.1 %, the error of the difference goes by their square.
    let by_depth = d / (d + 1.09 * h) - 3.0;
    near(slope(&found, Input::PlannedDepth), by_depth, 1e-6);
    let by_height = 1.0 + 0.545 * height / (d + 0.545 * height);
    near(slope(&found, Input::PanelHeight), by_height, 1e-6);
    for input in [Input::PostSize, Input::PostWall, Input::Solidity] {
        let effect = found.effect(input).unwrap();
        assert_eq!(effect.elasticity.influence(), Some(0.0), "{input}");
    }
    // The depth required: d³/(d + 1.09 h) is in proportion to P/(S b).
    let d = found.base.depth.depth.to(ft);
    near(
        d.powi(3) / (d + 1.09 * h),
        7.02 * 480.0 / 150.0,
        1e-9 * d.powi(3),
    );
    let by_load = 1.0 / (3.0 - d / (d + 1.09 * h));
    near(depth_slope(&found, Input::WindPressure), by_load, 1e-6);
    near(depth_slope(&found, Input::HoleSize), -by_load, 1e-6);
    near(depth_slope(&found, Input::LateralBearing), -by_load, 1e-6);
    near(depth_slope(&found, Input::PlannedDepth), 0.0, 1e-12);
}

/// A gap below: the panel shrinks and its resultant rises. A top layer left out: less
/// depth, more arm.
#[test]
fn gap_and_discounted_top() {
    let (height, gap, depth, top) = (6.0, 1.0, 4.0, 0.5);
    let panel = Panel::new(ft(height)).unwrap();
    let panel = panel.with_clearance(ft(gap)).unwrap();
    let fence = Fence::new(FenceRun::new(panel, ft(96.0), ft(8.0)).unwrap());
    let hole = Hole::round(inch(14.0)).unwrap();
    let ground = class4().discounting_top(ft(top)).unwrap();
    let design = PostDesign::in_concrete(ground, pipe(4.0, 0.3).into(), hole).unwrap();
    let plan = FencePlan::new(given(10.0), fence, design).with_planned_depth(ft(depth));
    let found = default_of(&plan);
    assert_eq!(found.base.governing, Governing::Embedment);
    // u by (H − c) (d − t + 1.09 (h + t))/(d − t)³, h = (H + c)/2.
    let below = depth - top;
    let arm = below + 1.09 * (0.5 * (height + gap) + top);
    let by_gap = -gap / (height - gap) + 0.545 * gap / arm;
    near(slope(&found, Input::Clearance), by_gap, 1e-6);
    let by_top = top * (0.09 / arm + 3.0 / below);
    near(slope(&found, Input::DiscountedTop), by_top, 1e-6);
    let by_depth = depth * (1.0 / arm - 3.0 / below);
    near(slope(&found, Input::PlannedDepth), by_depth, 1e-6);
}

/// ASCE 7 reduces the force on a wall with openings by 1 − (1 − ε)^1.5 (quoted).
#[test]
fn solidity_of_a_wall_with_openings() {
    let solidity = 0.9;
    let panel = Panel::new(ft(6.0))
        .unwrap()
        .with_solidity(solidity)
        .unwrap();
    let fence = Fence::new(FenceRun::new(panel, ft(96.0), ft(8.0)).unwrap());
    let plan = FencePlan::new(site(130.0), fence, design(pipe(4.0, 0.3), 12.0))
        .with_planned_depth(ft(5.0));
    let open: f64 = 1.0 - solidity;
    let by_hand = solidity * 1.5 * open.sqrt() / (1.0 - open.powf(1.5));
    let band = Band::new(0.05, 0.001).unwrap();
    let found = sensitivity(&plan, band).unwrap();
    near(slope(&found, Input::Solidity), by_hand, 1e-4);
    // Members and gaps are not a solidity.
    let pickets = Infill::pickets(inch(3.5), inch(0.5)).unwrap();
    let plan = plan.clone().with_fence(
        plan.fence()
            .changing_runs(|run| {
                let panel = run.panel().with_infill(pickets);
                Ok(run.with_panel(panel))
            })
            .unwrap(),
    );
    assert!(vary(&plan, Input::Solidity, 0.9).is_err());
    assert_eq!(Infill::TIGHT.given_solidity(), Some(1.0));
    assert_eq!(Infill::TIGHT.covered(0.1).unwrap().given_solidity(), None);
}

/// Shear of a given strength, and the base under a heavy panel.
#[test]
fn shear_and_bearing() {
    let section = PostSection::Tube(Tube::new(inch(4.0), inch(0.3)).unwrap());
    let weak = GivenPost::new(section, lb_ft(50_000.0), lb(500.0)).unwrap();
    let plan = FencePlan::new(given(12.0), straight(6.0, 96.0, 8.0), design(weak, 36.0))
        .with_planned_depth(ft(8.0));
    let found = default_of(&plan);
    assert_eq!(found.base.governing, Governing::Shear);
    near(slope(&found, Input::ShearStrength), -1.0, 1e-9);
    near(slope(&found, Input::BendingStrength), 0.0, 1e-12);
    assert!(found.effect(Input::PostSize).is_none());

    let panel = Panel::new(ft(6.0))
        .unwrap()
        .with_weight(psf(150.0))
        .unwrap();
    let fence = Fence::new(FenceRun::new(panel, ft(96.0), ft(8.0)).unwrap());
    let plan =
        FencePlan::new(given(1.0), fence, design(pipe(4.0, 0.3), 12.0)).with_planned_depth(ft(4.0));
    let found = default_of(&plan);
    assert_eq!(found.base.governing, Governing::VerticalBearing);
    // Weight over area: W/(π b²/4).
    near(slope(&found, Input::VerticalPressure), -1.0, 1e-9);
    near(slope(&found, Input::HoleSize), -2.0, 1e-9);
    near(slope(&found, Input::PanelWeight), 1.0, 1e-9);
    near(slope(&found, Input::PostSpacing), 1.0, 1e-9);
    near(slope(&found, Input::WindPressure), 0.0, 1e-12);
}

/// The ground is used 5 % more than the post: a hole 5 % wider hands over to bending.
#[test]
fn a_change_of_what_governs_is_told() {
    let plan = in_the_ground(10.0);
    let plan = FencePlan::new(
        *plan.site(),
        plan.fence().clone(),
        paved(pipe(4.0, 0.3), 12.0),
    )
    .with_planned_depth(ft(4.0));
    let check = |plan: &FencePlan<Direct>| plan.schedule().unwrap().post(2).unwrap().check;
    let ratio = |plan: &FencePlan<Direct>, of| check(plan).utilization_of(of).ratio();
    let (ground, bending) = (
        ratio(&plan, Governing::Embedment),
        ratio(&plan, Governing::Bending),
    );
    // Both go by the load; make the post so weak by its allowable moment.
    let strength = plan.design().post().strength();
    let weak = |share: f64| {
        let moment = strength.moment * (bending / (share * ground));
        let post = GivenPost::new(plan.design().post().section(), moment, lb(1e6)).unwrap();
        FencePlan::new(*plan.site(), plan.fence().clone(), paved(post, 12.0))
            .with_planned_depth(ft(4.0))
    };
    let mild = weak(1.0 / 1.05).with_site(given(2.0));
    let (ground, bending) = (
        ratio(&mild, Governing::Embedment),
        ratio(&mild, Governing::Bending),
    );
    assert!(ground < 1.0);
    let mild = vary(&mild, Input::BendingStrength, bending / (ground / 1.05)).unwrap();
    let found = default_of(&mild);
    assert_eq!(found.base.governing, Governing::Embedment);
    let hole = found.effect(Input::HoleSize).unwrap();
    near(slope(&found, Input::HoleSize), -1.0, 1e-9);
    assert!(!hole.governs_throughout());
    let switches: Vec<_> = hole.switches().collect();
    let [switch] = switches[..] else {
        panic!("{switches:?}");
    };
    near(switch.between.0, 1.04, 1e-12);
    near(switch.between.1, 1.06, 1e-12);
    assert_eq!(switch.below, (2, Governing::Embedment));
    assert_eq!(switch.above, (2, Governing::Bending));
    assert_eq!(hole.high.unwrap().governing, Governing::Bending);
    near(
        hole.high.unwrap().utilization.ratio(),
        found.base.utilization.ratio() / 1.05,
        1e-9,
    );
    // The other way nothing changes, nor with the wind.
    assert!(
        found
            .effect(Input::WindPressure)
            .unwrap()
            .governs_throughout()
    );
    assert_eq!(hole.low.unwrap().governing, Governing::Embedment);

    // Exactly at the corner: −1 below, 0 above.
    let corner = vary(&mild, Input::HoleSize, 1.05).unwrap();
    let found = default_of(&corner);
    let hole = found.effect(Input::HoleSize).unwrap();
    let Elasticity::OneSided {
        below: Some(below),
        above: Some(above),
        why: OneSided::GoverningChanges,
    } = hole.elasticity
    else {
        panic!("{:?}", hole.elasticity);
    };
    near(below, -1.0, 1e-6);
    near(above, 0.0, 1e-6);
    assert_eq!(hole.elasticity.value(), None);
    near(hole.elasticity.influence().unwrap(), 1.0, 1e-6);
    let text = report::text(&found.worksheet(UnitSystem::Us)).to_string();
    assert!(text.contains("One-sided: what governs changes here."));
}

/// The same check of the same post, and yet a corner: the least pressure of the code
/// takes over in milder wind.
#[test]
fn a_kink_is_told() {
    let least = |pressure: f64| site(110.0).with_minimum_pressure(psf(pressure)).unwrap();
    let fence = straight(4.0, 20.0, 5.0);
    let plan = |site| {
        FencePlan::new(site, fence.clone(), paved(pipe(2.875, 0.2), 36.0))
            .with_planned_depth(ft(8.0))
    };
    let most = |site| default_of(&plan(site)).base.utilization.ratio();
    // Where the least pressure comes to govern, by halving.
    let (mut low, mut high) = (16.0, 200.0);
    assert_eq!(most(least(low)), most(site(110.0)));
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if most(least(middle)) > most(site(110.0)) * (1.0 + 1e-12) {
            high = middle;
        } else {
            low = middle;
        }
    }
    let found = default_of(&plan(least(high)));
    let speed = found.effect(Input::WindSpeed).unwrap();
    let Elasticity::OneSided {
        below: Some(below),
        above: Some(above),
        ..
    } = speed.elasticity
    else {
        panic!("{:?}", speed.elasticity);
    };
    near(below, 0.0, 1e-6);
    assert!(above > 1.0, "{above}");
    // Flat below, the square of the speed above, once the least pressure is left behind
    // everywhere.
    let (least, most) = speed.slopes_within().unwrap();
    near(least, 0.0, 1e-6);
    near(most, 2.0, 1e-6);
    let text = report::text(&found.worksheet(UnitSystem::Us)).to_string();
    assert!(text.contains("slopes from 0.00 to 2.00 within"));
}

/// A depth wholly in the layer left out: no capacity, no slope, and a share of 1.
#[test]
fn without_any_capacity() {
    let hole = Hole::round(inch(12.0)).unwrap();
    let ground = class4().discounting_top(ft(5.0)).unwrap();
    let design = PostDesign::in_concrete(ground, pipe(4.0, 0.3).into(), hole).unwrap();
    let plan =
        FencePlan::new(given(5.0), straight(6.0, 96.0, 8.0), design).with_planned_depth(ft(3.0));
    let found = default_of(&plan);
    for effect in found.by_influence() {
        assert_eq!(effect.elasticity, Elasticity::Undefined, "{}", effect.input);
        assert_eq!(effect.elasticity.influence(), None);
    }
    for step in found.worksheet(UnitSystem::Si).steps() {
        recompute(step, UnitSystem::Si);
    }
    let input = [(Input::WindPressure, Distribution::normal(1.0, 0.1).unwrap())];
    let found = uncertainty(&plan, &input, 20, lcg(3)).unwrap();
    assert_eq!((found.exceeding, found.without_capacity), (20, 20));
    assert_eq!(found.probability().unwrap().share(), 1.0);
}

/// Bending is that of the required depth: a planned depth about the required one, or far
/// from it, does not change it.
#[test]
fn bending_is_flat_in_the_planned_depth() {
    let plan = in_the_ground(10.0);
    let required = plan.schedule().unwrap().post(2).unwrap().check.required;
    for times in [1.0, 1.5, 3.0] {
        let plan = FencePlan::new(
            *plan.site(),
            plan.fence().clone(),
            design(pipe(1.9, 0.12), 12.0),
        )
        .with_planned_depth(required.depth() * times);
        let found = default_of(&plan);
        assert_eq!(found.base.governing, Governing::Bending);
        let depth = found.effect(Input::PlannedDepth).unwrap();
        assert_eq!(depth.elasticity, Elasticity::Central(0.0));
        assert!(depth.governs_throughout());
    }
}

/// Posts used nearly alike: the worst is named, not the first.
#[test]
fn the_worst_post_is_named() {
    let panel = Panel::new(ft(6.0)).unwrap();
    let front = FenceRun::new(panel, ft(80.0), ft(8.0)).unwrap();
    let side = FenceRun::new(panel, ft(80.1), ft(8.01)).unwrap();
    let fence = Fence::new(front).turning(deg(90.0), side).unwrap();
    let plan = FencePlan::new(given(10.0), fence, design(pipe(4.0, 0.3), 12.0));
    let found = default_of(&plan.with_planned_depth(ft(4.0)));
    // Eleven posts to the corner, and the first line post after it.
    assert_eq!((found.base.post, found.base.depth.post), (12, 12));
}

/// What leaves its range is told, by the error of its constructor.
#[test]
fn refusals_are_told() {
    let plan = |speed| {
        FencePlan::new(
            site(speed),
            straight(4.0, 48.0, 5.0),
            paved(pipe(4.0, 0.3), 36.0),
        )
        .with_planned_depth(ft(15.0))
    };
    let found = default_of(&plan(290.0));
    let speed = found.effect(Input::WindSpeed).unwrap();
    let error = speed.high.unwrap_err();
    assert!(matches!(error, Error::OutOfRange { .. }));
    assert_eq!(error.field(), "wind speed");
    assert!(speed.low.is_ok());
    assert_eq!(speed.refused().unwrap().1.field(), "wind speed");
    // 300/290 = 1.034.
    near(speed.refused().unwrap().0, 1.04, 1e-12);
    near(slope(&found, Input::WindSpeed), 2.0, 1e-9);
    // At the end of its range: one side.
    let found = default_of(&plan(300.0));
    let speed = found.effect(Input::WindSpeed).unwrap();
    match speed.elasticity {
        Elasticity::OneSided {
            below: Some(below),
            above: None,
            why: OneSided::Refused,
        } => near(below, 2.0, 1e-9),
        other => panic!("{other:?}"),
    }
    assert_eq!(speed.elasticity.to_string(), "+2.00 | none");
    // A tight panel cannot be tighter.
    let solidity = found.effect(Input::Solidity).unwrap();
    assert_eq!(solidity.high.unwrap_err().field(), "solidity");
    // Depths.
    let deep = vary(&plan(100.0), Input::PlannedDepth, 300.0 / 15.0).unwrap();
    assert!(vary(&deep, Input::PlannedDepth, 1.01).is_err());
    // A base that cannot be checked is an error.
    let wrong = plan(100.0).with_planned_depth(ft(200_000.0));
    assert!(sensitivity(&wrong, Band::default()).is_err());
}

/// Factors an input may have, against the ranges of the constructors.
#[test]
fn allowed_factors_are_those_of_the_constructors() {
    let plan = in_the_ground(10.0);
    for (input, least, most) in [
        // 0.1 to 1 000 psf of 10; soil 5 to 10 000 psf/ft of 150.
        (Input::WindPressure, 0.01, 100.0),
        (Input::LateralBearing, 5.0 / 150.0, 10_000.0 / 150.0),
        // The pipe of 4 in with 1 in around, to 120 in, of 12 in.
        (Input::HoleSize, 0.5, 10.0),
        (Input::PlannedDepth, 0.0025, 75.0),
        (Input::PanelHeight, 0.5 / 6.0, 40.0 / 6.0),
        (Input::Solidity, 0.01, 1.0),
        // Spacing to 40 ft of 8; the run from 2 ft of 96, the spacing from 1 ft.
        (Input::PostSpacing, 0.125, 5.0),
        // Fy 20 to 100 ksi of 50.
        (Input::BendingStrength, 0.4, 2.0),
    ] {
        let (found_least, found_most) = allowed_factors(&plan, input).unwrap();
        near(found_least / least, 1.0, 1e-9);
        near(found_most / most, 1.0, 1e-9);
        assert!(vary(&plan, input, found_least).is_ok());
        assert!(vary(&plan, input, found_most).is_ok());
    }
    assert!(allowed_factors(&plan, Input::WindSpeed).is_err());
}

/// Without a planned depth the ground is left out of the utilization, and the depth
/// required tells.
#[test]
fn without_a_planned_depth() {
    let planned = in_the_ground(10.0);
    let plan = FencePlan::new(*planned.site(), planned.fence().clone(), *planned.design());
    let found = default_of(&plan);
    assert!(!found.every_depth_planned);
    assert!(found.effect(Input::PlannedDepth).is_none());
    assert_eq!(found.base.governing, Governing::Bending);
    let check = plan.schedule().unwrap().post(2).unwrap().check;
    assert_eq!(
        found.base.utilization,
        check.utilization_of(Governing::Bending)
    );
    assert_eq!(found.base.depth.depth, check.required.depth());
    let d = check.required.depth().to(ft);
    let by_load = 1.0 / (3.0 - d / (d + 1.09 * 3.0));
    near(depth_slope(&found, Input::WindPressure), by_load, 1e-6);
    near(depth_slope(&found, Input::HoleSize), -by_load, 1e-6);
    let first = found.by_influence_on_depth()[0];
    assert_eq!(first.input, Input::PanelHeight);
    let text = report::text(&found.worksheet(UnitSystem::Us)).to_string();
    assert!(text.contains("by construction"));
    assert!(text.contains("of the depth"));
    let refusal = uncertainty(
        &plan,
        &[(Input::WindPressure, Distribution::normal(1.0, 0.1).unwrap())],
        10,
        || 0.5,
    );
    assert_eq!(refusal.unwrap_err().field(), "planned depth");
}

#[test]
fn ranked_by_influence() {
    let found = default_of(&in_the_ground(10.0));
    let ranked = found.by_influence();
    assert_eq!(ranked.len(), found.effects.len());
    assert_eq!(ranked[0].input, Input::PlannedDepth);
    assert_eq!(ranked[1].input, Input::PanelHeight);
    let influences: Vec<_> = ranked.iter().map(|e| e.elasticity.influence()).collect();
    assert!(influences.windows(2).all(|pair| pair[0] >= pair[1]));
    assert_eq!(found.evaluations as usize, 1 + 12 * found.effects.len());
    assert!(found.cautions().contains(Caution::OneAtATime));
    assert!(found.cautions().contains(Caution::GivenPressure));
}

/// One factor for every design; those without such an input stay.
#[test]
fn every_design_is_varied() {
    let fence = straight(6.0, 96.0, 8.0);
    let timber = design(pine(5.5), 18.0);
    let plan = FencePlan::new(given(10.0), fence, design(pipe(2.875, 0.2), 12.0))
        .with_planned_depth(ft(4.0))
        .with_kind(PostKind::End, timber, Some(ft(3.0)))
        .with_post(5, PostDesign::bare(class4(), pine(7.5).into()), None);
    let check = |plan: &FencePlan<Direct>, number| {
        let schedule = plan.schedule().unwrap();
        schedule.post(number).unwrap().check
    };
    let deeper = vary(&plan, Input::PlannedDepth, 1.5).unwrap();
    assert_eq!(check(&deeper, 1).planned.unwrap().depth(), ft(4.5));
    assert_eq!(check(&deeper, 2).planned.unwrap().depth(), ft(6.0));
    assert!(check(&deeper, 5).planned.is_none());
    let wider = vary(&plan, Input::HoleSize, 1.5).unwrap();
    let b = |plan: &FencePlan<Direct>, number| {
        check(plan, number)
            .design()
            .foundation()
            .bearing_width()
            .width()
            .to(inch)
    };
    assert_eq!((b(&wider, 1), b(&wider, 2)), (27.0, 18.0));
    near(b(&wider, 5), 7.5 * 2.0_f64.sqrt(), 1e-9);
    // A bare post bears with its own width.
    let thicker = vary(&plan, Input::PostSize, 1.1).unwrap();
    near(b(&thicker, 5), 8.25 * 2.0_f64.sqrt(), 1e-9);
    let walls = vary(&plan, Input::PostWall, 0.5).unwrap();
    assert_eq!(check(&walls, 1), check(&plan, 1));
    assert!(check(&walls, 2).strength.bending > check(&plan, 2).strength.bending);
    // Several values are no value.
    assert_eq!(Input::HoleSize.value(&plan), None);
    assert_eq!(
        Input::PanelHeight.value(&plan),
        Some(Measured::new(ft(6.0)))
    );
    assert!(!default_of(&plan).every_depth_planned);
}

/// Posts of every kind, each property multiplied.
#[test]
fn posts_of_every_kind_are_scaled() {
    use PostProperty::{Bending, Shear, Size, Wall};
    let steel = SteelStrength::new(ksi(46.0)).unwrap();
    let tube = SquareTube::new(inch(3.0), inch(0.174)).unwrap();
    let metal = Aluminium::of(Alloy::A6061T6, Temper::Unwelded);
    let square = SquareTubePost::new(tube, steel).unwrap();
    let section = PostSection::Tube(Tube::new(inch(2.5), inch(0.125)).unwrap());
    let round = RoundTimber::new(
        Disc::new(inch(6.0)).unwrap(),
        lb_per_sq_in(1_900.0),
        lb_per_sq_in(160.0),
    )
    .unwrap()
    .with_modulus(ksi(1_200.0))
    .unwrap();
    let insert = GivenPost::new(section, lb_ft(2_100.0), lb(5_000.0)).unwrap();
    let insert = insert.with_rigidity(lb_sq_in(2e7)).unwrap();
    let sleeve = Sleeve::new(inch(5.0), inch(0.135)).unwrap();
    let kinds: [(Post, bool, [bool; 4]); 7] = [
        // Does shear follow bending strength? Which properties are there?
        (pine(5.5).into(), false, [true, false, true, true]),
        (round.into(), false, [true, false, true, true]),
        (pipe(2.875, 0.2).into(), true, [true, true, true, false]),
        (square.into(), true, [true, true, true, false]),
        (
            AluminiumPost::new(tube, metal).unwrap().into(),
            true,
            [true, true, true, false],
        ),
        (insert.into(), false, [false, false, true, true]),
        (
            SleevedPost::new(sleeve, square.into()).unwrap().into(),
            true,
            [true, true, true, false],
        ),
    ];
    for (post, follows, has) in kinds {
        let base = post.strength();
        for (property, has) in [Size, Wall, Bending, Shear].into_iter().zip(has) {
            assert_eq!(post.property(property).is_some(), has, "{post:?}");
            let scaled = post.scaled(property, 1.05);
            if !has {
                assert_eq!(scaled.unwrap_err().field(), property.name());
                continue;
            }
            let scaled = scaled.unwrap();
            let (moment, shear) = (
                scaled.strength().moment / base.moment,
                scaled.strength().shear / base.shear,
            );
            match property {
                Bending => {
                    near(moment.value, 1.05, 1e-12);
                    near(shear.value, if follows { 1.05 } else { 1.0 }, 1e-12);
                }
                Shear => {
                    near(moment.value, 1.0, 1e-12);
                    near(shear.value, 1.05, 1e-12);
                }
                _ => assert!(moment.value > 1.0 && moment.value < 1.2),
            }
            assert_eq!(scaled.rigidity().is_some(), post.rigidity().is_some());
            // By 1 nothing changes but who gave the values.
            let same = post.scaled(property, 1.0).unwrap();
            assert_eq!(same.strength().moment, base.moment);
            assert_eq!(same.strength().shear, base.shear);
            assert_eq!(same.rigidity(), post.rigidity());
        }
    }
    // A rounded corner grows with the wall.
    let thicker = Post::from(square).scaled(Wall, 1.05).unwrap();
    let by_hand = SquareTube::new(inch(3.0), inch(0.174 * 1.05)).unwrap();
    let by_hand = SquareTubePost::new(by_hand, steel).unwrap();
    near(
        (thicker.strength().moment / by_hand.strength().moment).value,
        1.0,
        1e-12,
    );
    // Stronger aluminium has a stricter limit of the wall: 20 √(35/36.75) = 19.5.
    let slender = SquareTube::new(inch(3.0), inch(3.0 / 22.8)).unwrap();
    for temper in [Temper::Unwelded, Temper::Welded] {
        let metal = Aluminium::of(Alloy::A6061T6, temper);
        let slender = Post::from(AluminiumPost::new(slender, metal).unwrap());
        let error = slender.scaled(Bending, 1.05).unwrap_err();
        assert_eq!(error.field(), "aluminium wall");
        assert!(slender.scaled(Bending, 1.01).is_ok());
    }
    // Solid rounds and squares: d³ and a³.
    for post in [Post::from(pine(5.5)), Post::from(round)] {
        let larger = post.scaled(Size, 1.1).unwrap();
        near(
            (larger.strength().moment / post.strength().moment).value,
            1.331,
            1e-9,
        );
    }
    // Table values stay the table's where only the size changes.
    let Post::Timber(larger) = Post::from(pine(5.5)).scaled(Size, 1.1).unwrap() else {
        panic!("timber");
    };
    assert_eq!(larger.values(), pine(5.5).values());
    // Factors follow the size, own factors stay: CF of 14 in is (12/14)^(1/9).
    let cf = |post: &TimberPost| post.factors().size;
    let big = pine(14.0);
    let grown = big.with(Square::new(inch(15.0)).unwrap(), *big.values());
    near(
        cf(&grown.unwrap()),
        (12.0_f64 / 15.0).powf(1.0 / 9.0),
        1e-12,
    );
    let own = big.with_factors(*big.factors()).unwrap();
    let grown = own.with(Square::new(inch(15.0)).unwrap(), *own.values());
    near(
        cf(&grown.unwrap()),
        (12.0_f64 / 14.0).powf(1.0 / 9.0),
        1e-12,
    );
    // Across the classes of the tables there is no way.
    assert!(Post::from(pine(5.5)).scaled(Size, 0.7).is_err());
    // A post too large for its sleeve or its hole.
    let sleeved = Post::from(SleevedPost::new(sleeve, square.into()).unwrap());
    assert!(sleeved.scaled(Size, 1.6).is_err());
    let tight = design(pipe(4.0, 0.3), 6.5);
    let post = tight.post().scaled(Size, 1.2).unwrap();
    assert_eq!(tight.with_post(post).unwrap_err().field(), "hole size");
    for factor in [f64::NAN, f64::INFINITY, 0.0, -1.0, 1e300] {
        for property in [Size, Wall, Bending] {
            assert!(Post::from(pipe(4.0, 0.3)).scaled(property, factor).is_err());
        }
    }
}

#[test]
fn worksheets_recompute() {
    let panel = Panel::new(ft(6.0)).unwrap();
    let panel = panel.with_clearance(inch(2.0)).unwrap();
    let panel = panel.with_weight(psf(4.0)).unwrap();
    let fence = Fence::new(FenceRun::new(panel, ft(96.0), ft(8.0)).unwrap());
    let plan =
        FencePlan::new(site(115.0), fence, design(pine(5.5), 18.0)).with_planned_depth(ft(5.0));
    let found = default_of(&plan);
    for system in [UnitSystem::Us, UnitSystem::Si] {
        let sheet = found.worksheet(system);
        closed(&sheet);
        assert!(sheet.steps().count() > 60);
        for step in sheet.steps() {
            recompute(step, system);
        }
        let text = report::markdown(&sheet).to_string();
        for effect in &found.effects {
            assert!(text.contains(effect.input.name()));
        }
        assert!(text.contains("no substitute") && text.contains("varied alone"));
        assert!(!text.contains("NaN") && !text.contains("inf"));
    }
    let inputs = [
        (Input::WindSpeed, Distribution::gumbel(0.9, 0.1).unwrap()),
        (Input::HoleSize, Distribution::uniform(0.2, 1.3).unwrap()),
    ];
    for draws in [1, 300] {
        let found = uncertainty(&plan, &inputs, draws, lcg(7)).unwrap();
        for system in [UnitSystem::Us, UnitSystem::Si] {
            let sheet = found.worksheet(system);
            closed(&sheet);
            for step in sheet.steps() {
                recompute(step, system);
            }
            let text = report::text(&sheet).to_string();
            assert!(text.contains("no reliability analysis to a code"));
            assert!(text.contains("Wilson 1927"));
            assert!(text.contains("left out"));
        }
    }
}

/// A small deterministic generator: Numerical Recipes' 32-bit congruence, its upper
/// half.
fn lcg(seed: u32) -> impl FnMut() -> f64 {
    let mut state = seed;
    move || {
        state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        (f64::from(state >> 8) + 0.5) / 16_777_216.0
    }
}

/// Van der Corput's sequence of base 2, from 1: of the first 2^k − 1 numbers exactly
/// as many are below a/2^k as there are multiples.
fn van_der_corput() -> impl FnMut() -> f64 {
    let mut i = 0_u32;
    move || {
        i += 1;
        f64::from(i.reverse_bits()) / 4_294_967_296.0
    }
}

/// One input on which ln u depends linearly: u = u0 X^e.
#[test]
fn one_input_against_its_distribution() {
    let plan = in_the_ground(3.0);
    let u0 = default_of(&plan).base.utilization.ratio();
    assert!(u0 < 1.0);
    let n = 4095;
    // Lognormal pressure, the limit one deviation of the logarithm above the median.
    let v: f64 = 0.25;
    let sigma = (v * v).ln_1p().sqrt();
    let mean = (1.0 / u0).ln() - sigma + 0.5 * sigma * sigma;
    let mean = mean.exp();
    let lognormal = Distribution::lognormal(mean, v * mean).unwrap();
    // Normal, the limit 1.5 deviations above the mean.
    let normal = Distribution::normal(1.0 / u0 - 1.5 * 0.2, 0.2).unwrap();
    let uniform = Distribution::uniform(0.8 / u0, 1.3 / u0).unwrap();
    // Gumbel, the limit a standard deviation above the mean: s = σ √6/π, m = mean − γ s.
    let gumbel = Distribution::gumbel(1.0 / u0 - 0.3, 0.3).unwrap();
    let reduced = std::f64::consts::PI / 6.0_f64.sqrt() + 0.577_215_664_9;
    let above = [
        (lognormal, 1.0 - 0.841_344_746),
        (normal, 0.066_807_201),
        (uniform, 0.6),
        (gumbel, 1.0 - (-(-reduced).exp()).exp()),
    ];
    for (distribution, expected) in above {
        let run = |random: &mut dyn FnMut() -> f64| {
            let input = [(Input::WindPressure, distribution)];
            uncertainty(&plan, &input, n, random).unwrap()
        };
        let even = run(&mut van_der_corput());
        assert_eq!(
            (even.evaluated(), even.not_built, even.without_number),
            (n, 0, 0)
        );
        let share = even.probability().unwrap();
        assert_eq!(share.of(), n);
        // Even spacing: right to one sample.
        near(share.share(), expected, 1.01 / f64::from(n));
        assert_eq!(even.governed_by(Governing::Embedment), n);
        let half = even.quantile(0.5).unwrap().ratio();
        near(half / u0, distribution.quantile(0.5).unwrap(), 1e-3 / u0);
        near(even.mean.unwrap() / u0, distribution.mean(), 3e-3);
        near(even.deviation.unwrap() / u0, distribution.deviation(), 6e-3);
        // At random: within the sampling error, twice its 95 % interval at most.
        for seed in [1, 2, 3] {
            let share = run(&mut lcg(seed)).probability().unwrap();
            let (low, high) = share.interval();
            assert!(low < share.share() && share.share() < high);
            let reach = high - low;
            near(share.share(), expected, reach);
        }
        assert!(even.cautions().contains(Caution::NoReliability));
    }
}

/// Three samples by hand: quantiles by rank, mean, deviation of n − 1.
#[test]
fn three_samples_by_hand() {
    let plan = in_the_ground(3.0);
    let u0 = default_of(&plan).base.utilization.ratio();
    let uniform = Distribution::uniform(0.8, 1.2).unwrap();
    let mut numbers = [0.75, 0.25, 0.5].into_iter();
    let found = uncertainty(&plan, &[(Input::WindPressure, uniform)], 3, || {
        numbers.next().unwrap()
    })
    .unwrap();
    for (share, ratio) in [
        (0.0, 0.9),
        (0.33, 0.9),
        (0.34, 1.0),
        (0.66, 1.0),
        (0.67, 1.1),
        (1.0, 1.1),
    ] {
        near(found.quantile(share).unwrap().ratio(), ratio * u0, 1e-9);
    }
    near(found.mean.unwrap(), u0, 1e-9);
    near(found.deviation.unwrap(), 0.1 * u0, 1e-9);
    assert!(found.quantile(1.1).is_err() && found.quantile(f64::NAN).is_err());
    assert_eq!(found.governed(), [(2, Governing::Embedment, 3)]);
    let share = found.probability().unwrap();
    assert_eq!((share.count(), share.of()), (0, 3));
    // One sample has no deviation.
    let one = uncertainty(&plan, &[(Input::WindPressure, uniform)], 1, || 0.5).unwrap();
    assert_eq!(one.deviation, None);
}

/// Another post, another ground: all choices of the design stay.
#[test]
fn designs_keep_their_choices() {
    let chosen = |design: PostDesign| {
        design
            .restrained_by(Restraint::RigidPaving)
            .square_width(SquareWidth::Face)
            .with_cap(groundline::embedment::DepthCap::CapReading)
            .with_combination(AllowableStress::AlternativeWithIncrease)
    };
    let (one, other) = (pipe(2.875, 0.2), pine(5.5));
    assert_eq!(
        chosen(design(one, 18.0)).with_post(other.into()).unwrap(),
        chosen(design(other, 18.0))
    );
    let bare = |post: Post| chosen(PostDesign::bare(class4(), post));
    assert_eq!(
        bare(one.into()).with_post(other.into()).unwrap(),
        bare(other.into())
    );
    let hole = Hole::round(inch(18.0)).unwrap();
    let soft = Ground::presumptive(SoilClass::Class5).as_isolated_pole();
    assert_eq!(
        chosen(design(one, 18.0)).in_ground(soft),
        chosen(PostDesign::in_concrete(soft, one.into(), hole).unwrap())
    );
    // Own values are of no class; all else of the ground stays.
    let bearing = LateralBearing::new(psf_per_ft(180.0)).unwrap();
    let own = soft.discounting_top(ft(1.0)).unwrap().with_lateral(bearing);
    assert_eq!((own.class(), own.lateral()), (None, bearing));
    assert!(own.is_isolated_pole());
    assert_eq!(
        (own.vertical(), own.discounted_top()),
        (Some(psf(1_500.0)), ft(1.0))
    );
}

/// The square of the speed, and the inverse of the soil.
#[test]
fn speed_squared_and_soil_inverted() {
    let plan = FencePlan::new(
        site(110.0),
        straight(6.0, 48.0, 8.0),
        design(pipe(6.0, 0.3), 18.0),
    )
    .with_planned_depth(ft(9.0));
    let u0 = default_of(&plan).base.utilization.ratio();
    assert!(u0 < 1.0 && u0 > 0.3, "{u0}");
    // u = u0 X² above 1 from X = 1/√u0.
    let limit = 1.0 / u0.sqrt();
    let (least, most) = (0.9 * limit, 1.2 * limit);
    let uniform = Distribution::uniform(least, most).unwrap();
    let found = uncertainty(
        &plan,
        &[(Input::WindSpeed, uniform)],
        1023,
        van_der_corput(),
    );
    let share = found.unwrap().probability().unwrap().share();
    near(share, 2.0 / 3.0, 1.01 / 1023.0);
    // u = u0/X above 1 below u0.
    let uniform = Distribution::uniform(0.8 * u0, 1.8 * u0).unwrap();
    let found = uncertainty(
        &plan,
        &[(Input::LateralBearing, uniform)],
        1023,
        van_der_corput(),
    );
    near(
        found.unwrap().probability().unwrap().share(),
        0.2,
        1.01 / 1023.0,
    );
}

/// Three lognormal inputs: ln u is normal with the sum of the variances.
#[test]
fn three_inputs_together() {
    let plan = in_the_ground(6.0);
    let u0 = default_of(&plan).base.utilization.ratio();
    let input = |v: f64| (Distribution::lognormal(1.0, v).unwrap(), (v * v).ln_1p());
    let ((wind, a), (soil, b), (hole, c)) = (input(0.2), input(0.25), input(0.05));
    // Of mean 1 the median's logarithm is −σ²/2.
    let mean = u0.ln() - 0.5 * a + 0.5 * b + 0.5 * c;
    let deviation = (a + b + c).sqrt();
    let z = mean / deviation;
    let inputs = [
        (Input::WindPressure, wind),
        (Input::LateralBearing, soil),
        (Input::HoleSize, hole),
    ];
    let n = 4_000;
    let found = uncertainty(&plan, &inputs, n, lcg(42)).unwrap();
    // Φ by its integral, Simpson's rule.
    let phi = {
        let step = (z + 8.0) / 2_000.0;
        let density = |x: f64| (-0.5 * x * x).exp() / (2.0 * std::f64::consts::PI).sqrt();
        let sum: f64 = (0..=2_000)
            .map(|i| {
                let weight = match i {
                    0 | 2_000 => 1.0,
                    i if i % 2 == 1 => 4.0,
                    _ => 2.0,
                };
                weight * density(-8.0 + f64::from(i) * step)
            })
            .sum();
        sum * step / 3.0
    };
    assert!(phi > 0.02 && phi < 0.98, "{phi}");
    let share = found.probability().unwrap().share();
    let error = (phi * (1.0 - phi) / f64::from(n)).sqrt();
    near(share, phi, 3.0 * error);
    // The median: exp of the mean of the logarithm, error 1.2533 σ/√n.
    let half = found.quantile(0.5).unwrap().ratio().ln();
    near(half, mean, 3.0 * 1.2533 * deviation / f64::from(n).sqrt());
    // The same numbers give the same result, others another.
    assert_eq!(found, uncertainty(&plan, &inputs, n, lcg(42)).unwrap());
    assert_ne!(found, uncertainty(&plan, &inputs, n, lcg(43)).unwrap());
}

/// A distribution that leaves the range: cut, told, and what is left is all of it.
#[test]
fn truncation_is_told() {
    let plan = in_the_ground(5.0);
    let u0 = default_of(&plan).base.utilization.ratio();
    // The hole of 12 in is refused below the pipe of 4 in with 1 in around: 0.5.
    let uniform = Distribution::uniform(0.4, 1.4).unwrap();
    let found = uncertainty(&plan, &[(Input::HoleSize, uniform)], 2047, van_der_corput()).unwrap();
    let [cut] = found.inputs[..] else {
        panic!("one input");
    };
    near(cut.least, 0.5, 1e-9);
    near(cut.most, 10.0, 1e-8);
    near(cut.below, 0.1, 1e-9);
    assert_eq!(cut.above, 0.0);
    near(cut.cut(), 0.1, 1e-9);
    assert_eq!(found.not_built, 0);
    // u = u0/X: above 1 below u0, of 0.5 to 1.4.
    assert!(u0 > 0.5 && u0 < 1.4, "{u0}");
    near(
        found.probability().unwrap().share(),
        (u0 - 0.5) / 0.9,
        1.01 / 2047.0,
    );
    let text = report::text(&found.worksheet(UnitSystem::Us)).to_string();
    assert!(text.contains("cut to 0.5000 to 10.0000: 10 % below and 0 % above"));
    near(found.cut_off(), 0.1, 1e-9);
    // Above: solidity of a tight panel, half of it; with the hole 1 − 0.5 × 0.9 in all.
    let normal = Distribution::normal(1.0, 0.1).unwrap();
    let inputs = [(Input::Solidity, normal), (Input::HoleSize, uniform)];
    let found = uncertainty(&plan, &inputs, 10, lcg(1)).unwrap();
    near(found.inputs[0].above, 0.5, 1e-9);
    near(found.cut_off(), 0.55, 1e-9);
    let text = report::text(&found.worksheet(UnitSystem::Us)).to_string();
    assert!(text.contains("Cut off in all: 55 %"));
    // All but nothing of it is outside.
    let far = Distribution::normal(0.2, 0.01).unwrap();
    let refusal = uncertainty(&plan, &[(Input::HoleSize, far)], 10, lcg(1)).unwrap_err();
    assert_eq!(refusal.field(), "hole size");
}

/// Allowed alone and not together: counted. A hole of 12 x in and a pipe of 4 y in
/// need 12 x ≥ 4 y + 2; of x from 0.5 to 1 and y from 1 to 2 that fails where
/// x < (2 y + 1)/6, which is half of the rectangle: the mean of (2y + 1)/6 is 2/3, and
/// (2/3 − 1/2)/(1/2) = 1/3.
#[test]
fn samples_that_cannot_be_built_are_counted() {
    let plan = in_the_ground(5.0);
    let n = 4_000;
    let inputs = [
        (Input::HoleSize, Distribution::uniform(0.5, 1.0).unwrap()),
        (Input::PostSize, Distribution::uniform(1.0, 2.0).unwrap()),
    ];
    let found = uncertainty(&plan, &inputs, n, lcg(5)).unwrap();
    assert_eq!(found.samples, n);
    assert_eq!(found.evaluated() + found.not_built, n);
    let share = f64::from(found.not_built) / f64::from(n);
    near(share, 1.0 / 3.0, 3.0 * (2.0 / 9.0 / f64::from(n)).sqrt());
    assert_eq!(found.first_refusal.unwrap().field(), "hole size");
    let (with, without) = (
        found.probability_if_unbuilt_fail().unwrap(),
        found.probability().unwrap(),
    );
    assert_eq!(with.of(), n);
    assert_eq!(with.count(), without.count() + found.not_built);
    assert_eq!(without.of(), found.evaluated());
    let governed: u32 = found.governed().iter().map(|entry| entry.2).sum();
    assert_eq!(governed, found.evaluated());
    let by_check: u32 = Governing::ALL.iter().map(|g| found.governed_by(*g)).sum();
    assert_eq!(by_check, governed);
}

/// Numbers that are none are counted too, and never kept.
#[test]
fn numbers_that_are_none_are_counted() {
    let plan = in_the_ground(5.0);
    let input = [(Input::WindPressure, Distribution::normal(1.0, 0.1).unwrap())];
    let mut numbers = [
        f64::NAN,
        0.0,
        1.0,
        -0.5,
        f64::INFINITY,
        0.5,
        2.0,
        f64::MIN_POSITIVE,
        1.0 - 1e-16,
        1e-300,
    ]
    .into_iter()
    .cycle();
    let found = uncertainty(&plan, &input, 10, || numbers.next().unwrap()).unwrap();
    assert_eq!((found.without_number, found.evaluated()), (6, 4));
    assert!(found.mean.unwrap().is_finite());
    let none = uncertainty(&plan, &input, 3, || f64::NAN).unwrap();
    assert_eq!((none.without_number, none.evaluated()), (3, 0));
    assert_eq!((none.probability(), none.mean), (None, None));
    assert!(none.quantile(0.5).is_err());
    let text = report::text(&none.worksheet(UnitSystem::Si)).to_string();
    assert!(!text.contains("NaN"));
}

#[test]
fn hostile_arguments() {
    let hostile = [
        f64::NAN,
        f64::INFINITY,
        f64::NEG_INFINITY,
        0.0,
        -0.0,
        -1.0,
        1e308,
        5e-324,
        f64::MIN,
    ];
    let plan = in_the_ground(5.0);
    for value in hostile {
        for made in [
            Distribution::normal(value, 0.1),
            Distribution::normal(1.0, value),
            Distribution::lognormal(value, 0.1),
            Distribution::lognormal(1.0, value),
            Distribution::gumbel(value, 0.1),
            Distribution::gumbel(1.0, value),
            Distribution::uniform(value, 1.0),
            Distribution::uniform(1.0, value),
        ] {
            assert!(made.is_err(), "{value}: {made:?}");
        }
        assert!(Band::new(value, 0.001).is_err());
        assert!(Band::new(0.1, value).is_err());
        assert!(
            Distribution::normal(1.0, 0.1)
                .unwrap()
                .quantile(value)
                .is_err()
        );
        for input in Input::ALL {
            assert!(vary(&plan, input, value).is_err(), "{input} by {value}");
        }
    }
    assert!(Distribution::uniform(1.0, 1.0).is_err());
    assert!(Band::new(0.02, 0.03).is_err());
    let input = (Input::WindPressure, Distribution::normal(1.0, 0.1).unwrap());
    assert!(uncertainty(&plan, &[], 10, lcg(1)).is_err());
    assert!(uncertainty(&plan, &[input, input], 10, lcg(1)).is_err());
    assert!(uncertainty(&plan, &[input], 0, lcg(1)).is_err());
    assert!(uncertainty(&plan, &[input], 2_000_000, lcg(1)).is_err());
    let absent = (Input::WindSpeed, input.1);
    assert!(uncertainty(&plan, &[absent], 10, lcg(1)).is_err());
    // As wide as they may be: cut, never out of range, never a panic.
    for distribution in [
        Distribution::normal(1.0, 2.0).unwrap(),
        Distribution::lognormal(50.0, 100.0).unwrap(),
        Distribution::gumbel(1.0, 2.0).unwrap(),
        Distribution::uniform(0.001, 1_000.0).unwrap(),
    ] {
        for input in [Input::WindPressure, Input::PlannedDepth, Input::PostSpacing] {
            let found = uncertainty(&plan, &[(input, distribution)], 60, lcg(9)).unwrap();
            assert_eq!(found.evaluated(), 60, "{input}: {:?}", found.first_refusal);
            assert!(found.inputs[0].cut() > 0.0);
        }
    }
}

/// Wilson's interval by the equation it solves, (k/n − p)² = z² p (1 − p)/n.
#[test]
fn wilson_interval() {
    // Mathematics that this test checks, so it carries no caution.
    assert_eq!(Proportion::source().mark, Mark::Derived);
    for (k, n) in [(0, 1), (1, 1), (3, 10), (999, 1_000), (12, 100_000)] {
        let share = Proportion::new(k, n).unwrap();
        let (low, high) = share.interval();
        assert!((0.0..=1.0).contains(&low) && (0.0..=1.0).contains(&high));
        for p in [low, high] {
            let left = (share.share() - p).powi(2);
            let right = 1.959_963_985_f64.powi(2) * p * (1.0 - p) / f64::from(n);
            near(left, right, 1e-9);
        }
        // What is above mirrors what is not.
        let other = Proportion::new(n - k, n).unwrap().interval();
        near(other.0, 1.0 - high, 1e-12);
    }
    assert!(Proportion::new(0, 0).is_err());
    assert!(Proportion::new(2, 1).is_err());
}

/// Distributions against their definitions.
#[test]
fn distributions() {
    // Φ(1.2815516) = 0.9, of any table.
    let normal = Distribution::normal(1.0, 0.2).unwrap();
    near(
        normal.quantile(0.9).unwrap(),
        1.0 + 0.2 * 1.281_551_566,
        1e-8,
    );
    let lognormal = Distribution::lognormal(1.2, 0.36).unwrap();
    let sigma = 1.09_f64.ln().sqrt();
    let median = 1.2 / 1.09_f64.sqrt();
    near(
        lognormal.quantile(0.9).unwrap(),
        median * (1.281_551_566 * sigma).exp(),
        1e-8,
    );
    let gumbel = Distribution::gumbel(0.82, 0.14).unwrap();
    // At the mean exp(−exp(−γ)) = 0.570 376.
    near(gumbel.share_below(0.82), 0.570_376_0, 1e-7);
    let scale = 0.14 * 6.0_f64.sqrt() / std::f64::consts::PI;
    let mode = 0.82 - 0.577_215_665 * scale;
    near(
        gumbel.quantile(0.98).unwrap(),
        mode + 3.901_938_658 * scale,
        1e-8,
    );
    let uniform = Distribution::uniform(0.5, 1.5).unwrap();
    assert_eq!(uniform.quantile(0.25).unwrap(), 0.75);
    for (distribution, mean, deviation) in [
        (normal, 1.0, 0.2),
        (lognormal, 1.2, 0.36),
        (gumbel, 0.82, 0.14),
        (uniform, 1.0, 1.0 / 12.0_f64.sqrt()),
    ] {
        near(distribution.mean(), mean, 1e-12);
        near(distribution.deviation(), deviation, 1e-12);
        for share in [1e-9, 1e-4, 0.2, 0.5, 0.8, 0.999, 1.0 - 1e-9] {
            let there = distribution.quantile(share).unwrap();
            if distribution.share_below(there) > 0.0 {
                near(distribution.share_below(there), share, 1e-10);
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]

    /// There and back; and the two ends of a band hold the slope between them where it
    /// is a power.
    #[test]
    fn factors_invert(index in 0..Input::ALL.len(), factor in 0.92..1.08_f64, pressure in 2.0..30.0_f64) {
        let input = Input::ALL[index];
        let plan = in_the_ground(pressure);
        if let Ok(there) = vary(&plan, input, factor) {
            let back = vary(&there, input, 1.0 / factor).unwrap();
            let (a, b) = (default_of(&plan).base, default_of(&back).base);
            prop_assert!((a.utilization.ratio() / b.utilization.ratio() - 1.0).abs() < 1e-9);
            // The point is the worst of the schedule.
            let worst = there.schedule().unwrap().posts().map(|post| post.check.utilization).max();
            let point = default_of(&there).base.utilization.ratio();
            prop_assert!((point / worst.unwrap().ratio() - 1.0).abs() < 1e-8);
            prop_assert_eq!((a.post, a.governing), (b.post, b.governing));
        }
    }

    /// More wind on the mean is never a smaller share above 1, with the same numbers.
    #[test]
    fn shares_grow_with_the_mean(mean in 0.5..2.0_f64, more in 1.0..1.5_f64, seed in 0..1_000_u32) {
        let plan = in_the_ground(6.0);
        let share = |mean: f64| {
            let wind = Distribution::lognormal(mean, 0.3 * mean).unwrap();
            uncertainty(&plan, &[(Input::WindPressure, wind)], 60, lcg(seed)).unwrap().exceeding
        };
        prop_assert!(share(mean) <= share(mean * more));
    }
}
