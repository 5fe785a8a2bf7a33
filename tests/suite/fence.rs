//! Posts of a fence: where they stand, what they carry, and their load cases,
//! by hand.

use approx::assert_relative_eq;
use groundline::actions::{FenceWind, GroundlineActions, LoadCaseKind};
use groundline::fence::*;
use groundline::limit_state::{AllowableStress, Strength};
use groundline::units::{Force, Length, Measurable, deg, ft, inch, lb, lb_ft, mph, psf};
use groundline::wind::*;

fn site() -> AsceSite {
    let v = BasicWindSpeed::strength_level(mph(120.0)).unwrap();
    AsceSite::new(Edition::Asce7_16, v, Exposure::C)
}

fn panel() -> Panel {
    Panel::new(ft(6.0)).unwrap()
}

fn run(length: f64, spacing: f64) -> FenceRun {
    FenceRun::new(panel(), ft(length), ft(spacing)).unwrap()
}

fn positions(fence: &Fence) -> Vec<f64> {
    fence
        .posts()
        .iter()
        .map(|post| post.arms().next().unwrap().at.to(ft))
        .collect()
}

#[test]
fn bays_are_equal_and_no_longer_than_asked() {
    let fence = Fence::new(run(50.0, 8.0));
    let at = positions(&fence);
    assert_eq!(at.len(), 8);
    for pair in at.windows(2) {
        assert_relative_eq!(pair[1] - pair[0], 50.0 / 7.0, max_relative = 1e-12);
    }
    // A whole number of bays stays that number, in any unit.
    assert_eq!(Fence::new(run(48.0, 8.0)).posts().len(), 7);
    let metric = FenceRun::new(
        panel(),
        groundline::units::m(24.0),
        groundline::units::m(2.4),
    )
    .unwrap();
    assert_eq!(Fence::new(metric).posts().len(), 11);
}

#[test]
fn tributary_strips_cover_the_run_once() {
    let gate = Gate::new(ft(10.0), ft(5.0), lb(100.0), Hinges::Both).unwrap();
    let fence = Fence::new(run(50.0, 8.0).with_gate(gate).unwrap());
    let mut covered = ft(0.0);
    for post in fence.posts() {
        let arm = post.arms().next().unwrap();
        assert!((arm.from - covered).abs() < inch(1e-9));
        assert_eq!(arm.width(), arm.to - arm.from);
        covered = arm.to;
    }
    assert_eq!(covered, ft(50.0));
    // Open, the opening carries nothing and the rest the same.
    let open: Length = fence
        .posts()
        .iter()
        .flat_map(FencePost::arms)
        .map(|arm| arm.open_to - arm.open_from)
        .sum();
    assert_relative_eq!(open.to(ft), 45.0, max_relative = 1e-12);
}

#[test]
fn gates_anywhere_or_refused() {
    let gate = |at: f64, width: f64| Gate::new(ft(at), ft(width), lb(80.0), Hinges::AtEnd).unwrap();
    // At both ends, and one next to another.
    let fence = Fence::new(
        run(30.0, 8.0)
            .with_gate(gate(0.0, 4.0))
            .unwrap()
            .with_gate(gate(26.0, 4.0))
            .unwrap()
            .with_gate(gate(4.0, 3.0))
            .unwrap(),
    );
    let posts = fence.posts();
    for (ours, by_hand) in positions(&fence).into_iter().zip([
        0.0,
        4.0,
        7.0,
        7.0 + 19.0 / 3.0,
        7.0 + 38.0 / 3.0,
        26.0,
        30.0,
    ]) {
        assert_relative_eq!(ours, by_hand, max_relative = 1e-12);
    }
    assert_eq!(posts.len(), 7);
    assert!(posts[..3].iter().all(|post| post.kind == PostKind::Gate));
    assert_eq!(posts[3].kind, PostKind::Line);
    assert!(posts[5..].iter().all(|post| post.kind == PostKind::Gate));
    let hung: Vec<_> = posts.iter().map(|post| post.leaves().count()).collect();
    assert_eq!(hung, [0, 1, 1, 0, 0, 0, 1]);

    for (at, width) in [(27.0, 4.0), (3.0, 4.0), (0.2, 4.0), (25.8, 4.0)] {
        let taken = run(30.0, 8.0).with_gate(gate(5.0, 3.0)).unwrap();
        assert!(taken.with_gate(gate(at, width)).is_err(), "{at}");
    }
}

#[test]
fn corners_are_shared() {
    let fence = Fence::new(run(24.0, 8.0))
        .turning(deg(90.0), run(16.0, 8.0))
        .unwrap();
    let corner = &fence.posts()[3];
    assert_eq!(corner.kind, PostKind::Corner);
    let arms: Vec<_> = corner.arms().collect();
    assert_eq!((arms[0].run, arms[1].run), (0, 1));
    assert_eq!((arms[0].from, arms[0].to), (ft(20.0), ft(24.0)));
    assert_eq!((arms[1].from, arms[1].to), (ft(0.0), ft(4.0)));
    assert_eq!(fence.posts().len(), 6);
    assert_eq!(fence.posts()[5].number, 6);
}

/// A turn of about a right angle is a return; a slight bend is not, nor does a
/// return go on through a gate.
#[test]
fn return_corners_follow_from_the_layout() {
    let gate = Gate::new(ft(9.0), ft(4.0), lb(80.0), Hinges::AtStart).unwrap();
    let ends = |turn: f64, second: FenceRun| {
        Fence::new(run(48.0, 8.0))
            .turning(deg(turn), second)
            .unwrap()
            .ends(0)
    };
    assert_eq!(ends(90.0, run(16.0, 8.0)).end, WallEnd::Return(ft(16.0)));
    assert_eq!(ends(60.0, run(16.0, 8.0)).end, WallEnd::Return(ft(16.0)));
    assert_eq!(ends(120.0, run(16.0, 8.0)).end, WallEnd::Return(ft(16.0)));
    assert_eq!(ends(59.0, run(16.0, 8.0)).end, WallEnd::Free);
    assert_eq!(ends(121.0, run(16.0, 8.0)).end, WallEnd::Free);
    assert_eq!(
        ends(90.0, run(16.0, 8.0).with_gate(gate).unwrap()).end,
        WallEnd::Return(ft(9.0))
    );
    assert_eq!(ends(90.0, run(16.0, 8.0)).start, WallEnd::Free);
    let second = Fence::new(run(48.0, 8.0).with_gate(gate).unwrap())
        .turning(deg(90.0), run(16.0, 8.0))
        .unwrap()
        .ends(1);
    assert_eq!(second.start, WallEnd::Return(ft(35.0)));
}

fn strength_shear(wind: &FenceWind<'_>, post: &FencePost, kind: LoadCaseKind) -> Option<Force> {
    wind.cases(post)
        .iter()
        .find(|case| case.kind == kind)
        .map(|case| case.wind.shear())
}

/// A corner: each run alone, and both as vectors; at 90° the root of squares,
/// at a slight bend nearly the sum, and never less than either alone.
#[test]
fn corner_posts() {
    for (turn, cosine) in [
        (90.0_f64, 0.0),
        (60.0, 0.5),
        (120.0, 0.5),
        (5.0, 0.996_194_698),
    ] {
        let fence = Fence::new(run(24.0, 8.0))
            .turning(deg(turn), run(18.0, 6.0))
            .unwrap();
        let wind = FenceWind::new(&site(), &fence).unwrap();
        let cases = wind.cases(&fence.posts()[3]);
        let shears: Vec<_> = cases.iter().map(|c| c.wind.shear().to(lb)).collect();
        let [first, second, both] = shears[..] else {
            panic!("{shears:?}")
        };
        let by_hand = (first * first + second * second + 2.0 * first * second * cosine).sqrt();
        assert_relative_eq!(both, by_hand, max_relative = 1e-9);
        assert!(both >= first && both >= second);
        let heights: Vec<_> = cases.iter().map(|c| c.wind.height().to(ft)).collect();
        for height in heights {
            assert_relative_eq!(height, 3.3, max_relative = 1e-12);
        }
    }
}

/// A gate post by hand: leaf of 120 lb and 4 ft on an arm of 2 ft; shut the
/// weight turns it across the wind, open in line with it; open, the fence up
/// to the gate is a wall of its own, and the leaf a wall alone.
#[test]
fn gate_posts() {
    let gate = Gate::new(ft(16.0), ft(4.0), lb(120.0), Hinges::AtStart).unwrap();
    let panel = Panel::new(ft(6.0)).unwrap().with_weight(psf(4.0)).unwrap();
    let run = FenceRun::new(panel, ft(60.0), ft(8.0))
        .unwrap()
        .with_gate(gate)
        .unwrap();
    let fence = Fence::new(run);
    let wind = FenceWind::new(&site(), &fence).unwrap();
    let post = &fence.posts()[2];
    assert_eq!((post.kind, post.leaves().count()), (PostKind::Gate, 1));
    let cases: Vec<_> = wind.cases(post).iter().copied().collect();
    let kinds: Vec<_> = cases.iter().map(|case| case.kind).collect();
    assert_eq!(
        kinds,
        [
            LoadCaseKind::AcrossRun,
            LoadCaseKind::GateOpenAcross,
            LoadCaseKind::GateOpenAlong,
            LoadCaseKind::GateOpenTogether,
        ]
    );
    let [shut, open, along, together] = cases[..] else {
        panic!()
    };
    // Weight: half a bay of panel and the leaf, in every case.
    for case in &cases {
        assert_relative_eq!(
            case.dead.axial().to(lb),
            4.0 * 6.0 * 4.0 + 120.0,
            max_relative = 1e-12
        );
    }
    assert_eq!(
        (shut.dead.in_line(), shut.dead.across()),
        (lb_ft(0.0), lb_ft(240.0))
    );
    assert_eq!(
        (open.dead.in_line(), open.dead.across()),
        (lb_ft(240.0), lb_ft(0.0))
    );
    assert_eq!(
        (along.dead.in_line(), along.dead.across()),
        (lb_ft(0.0), lb_ft(240.0))
    );

    let free_wall = |length: f64| {
        let wall = WallShape::new(ft(length), ft(6.0), ft(0.0), 1.0).unwrap();
        WallWind::new(&site(), wall, WallEnds::FREE).unwrap()
    };
    // Shut: half a bay and half the leaf of a 60 ft wall.
    let (_, force) = free_wall(60.0).worst(ft(12.0), ft(18.0));
    assert_relative_eq!(shut.wind.shear().value, force.value, max_relative = 1e-12);
    // Open: the last 4 ft of a 16 ft wall with a free edge there.
    let (_, force) = free_wall(16.0).worst_on_post(&HalfBays {
        from: ft(12.0),
        post: ft(16.0),
        to: ft(18.0),
    });
    assert_relative_eq!(open.wind.shear().value, force.value, max_relative = 1e-12);
    // The leaf: 4 ft by 6 ft alone, B/s = 2/3.
    let q = shut_q();
    let cf = cf_cases_a_b(1.0, 4.0 / 6.0).unwrap();
    assert_relative_eq!(
        along.wind.shear().to(lb),
        q * 0.85 * cf * 24.0,
        max_relative = 1e-12
    );
    // Both at once, at right angles; the weight leans the worse way.
    assert_relative_eq!(
        together.wind.shear().to(lb),
        along.wind.shear().to(lb).hypot(open.wind.shear().to(lb)),
        max_relative = 1e-12
    );
    assert_eq!(together.dead, open.dead);
    assert!(shut.is_skew() && !open.is_skew() && along.is_skew() && together.is_skew());

    // Combined by hand.
    let basic = AllowableStress::Basic;
    let m = 0.6 * open.wind.moment().to(lb_ft) + 240.0;
    let combined = open.wind.allowable(&open.dead, basic);
    assert_relative_eq!(combined.moment().to(lb_ft), m, max_relative = 1e-12);
    let m = (0.6 * shut.wind.moment().to(lb_ft)).hypot(240.0);
    let combined = shut.wind.allowable(&shut.dead, basic);
    assert_relative_eq!(combined.moment().to(lb_ft), m, max_relative = 1e-12);
    assert_relative_eq!(
        combined.shear().to(lb),
        0.6 * shut.wind.shear().to(lb),
        max_relative = 1e-12
    );
    let heavier = shut
        .wind
        .allowable(&shut.dead, AllowableStress::AlternativeWithIncrease);
    assert_relative_eq!(
        heavier.shear().to(lb),
        0.78 * shut.wind.shear().to(lb),
        max_relative = 1e-12
    );

    // The latch post has no leaf, and its own piece when open.
    let latch = &fence.posts()[3];
    assert_eq!(latch.leaves().count(), 0);
    assert!(strength_shear(&wind, latch, LoadCaseKind::GateOpenAlong).is_none());
    let (_, force) = free_wall(40.0).worst(ft(0.0), ft(4.0));
    assert_relative_eq!(
        strength_shear(&wind, latch, LoadCaseKind::GateOpenAcross)
            .unwrap()
            .value,
        force.value,
        max_relative = 1e-12
    );
}

fn shut_q() -> f64 {
    0.00256 * 2.01 * (15.0_f64 / 900.0).powf(2.0 / 9.5) * 0.85 * 120.0 * 120.0
}

/// A double gate: each post its own leaf, half the opening wide.
#[test]
fn double_gates() {
    let gate = Gate::new(ft(16.0), ft(10.0), lb(150.0), Hinges::Both).unwrap();
    let fence = Fence::new(run(50.0, 8.0).with_gate(gate).unwrap());
    let wind = FenceWind::new(&site(), &fence).unwrap();
    for number in [2, 3] {
        let post = &fence.posts()[number];
        let leaf = post.leaves().next().unwrap();
        assert_eq!((leaf.width, leaf.weight), (ft(5.0), lb(150.0)));
        let case = *wind
            .cases(post)
            .iter()
            .find(|case| case.kind == LoadCaseKind::GateOpenAlong)
            .unwrap();
        assert_eq!(case.dead.across(), lb_ft(375.0));
    }
}

/// A post between two gates carries only leaves when both are open.
#[test]
fn a_post_between_two_gates() {
    let gate = |at: f64, hinges| Gate::new(ft(at), ft(4.0), lb(100.0), hinges).unwrap();
    let run = run(40.0, 8.0)
        .with_gate(gate(16.0, Hinges::AtEnd))
        .unwrap()
        .with_gate(gate(20.0, Hinges::AtStart))
        .unwrap();
    let fence = Fence::new(run);
    let wind = FenceWind::new(&site(), &fence).unwrap();
    let post = fence
        .posts()
        .iter()
        .find(|post| post.leaves().count() == 2)
        .unwrap();
    // One of the two gates open: it ends the other one's piece, shut.
    let (_, force) = {
        let wall = WallShape::new(ft(20.0), ft(6.0), ft(0.0), 1.0).unwrap();
        WallWind::new(&site(), wall, WallEnds::FREE)
            .unwrap()
            .worst_on_post(&HalfBays {
                from: ft(18.0),
                post: ft(20.0),
                to: ft(22.0),
            })
    };
    let open = strength_shear(&wind, post, LoadCaseKind::GateOpenAcross).unwrap();
    assert_relative_eq!(open.value, force.value, max_relative = 1e-12);
    let along = strength_shear(&wind, post, LoadCaseKind::GateOpenAlong).unwrap();
    let cf = cf_cases_a_b(1.0, 4.0 / 6.0).unwrap();
    assert_relative_eq!(
        along.to(lb),
        2.0 * shut_q() * 0.85 * cf * 24.0,
        max_relative = 1e-12
    );
}

/// The second post of a long fence is the worst one: it holds twice the width
/// of the end post and nearly all of it in the first strips.
#[test]
fn posts_near_a_free_end_are_worst() {
    let fence = Fence::new(run(120.0, 8.0));
    let options = WallOptions::default().short_runs_up_to(2.0).unwrap();
    let wind = FenceWind::new(&site().with_options(options), &fence).unwrap();
    let shear: Vec<f64> = fence
        .posts()
        .iter()
        .map(|post| {
            strength_shear(&wind, post, LoadCaseKind::AcrossRun)
                .unwrap()
                .to(lb)
        })
        .collect();
    assert!(shear[1] > shear[0] && shear[1] > shear[2] && shear[2] > shear[7]);
    // By hand, 6 ft wall on the ground, B/s = 20: 4 to 12 ft from the end is
    // 2 ft of the first strip and 6 ft of the second.
    let u = (20.0 - 13.0) / (45.0 - 13.0);
    let first = 0.8 * (4.00 + u * 0.30);
    let second = 0.8 * (2.60 - u * 0.05);
    assert_relative_eq!(
        shear[1],
        shut_q() * 0.85 * 6.0 * (first * 2.0 + second * 6.0),
        max_relative = 1e-12
    );
}

/// With one gate open and the next one shut, the piece between is longer than
/// with both open, and the worse wall counts.
#[test]
fn every_combination_of_open_gates() {
    let gate = |at: f64| Gate::new(ft(at), ft(4.0), lb(100.0), Hinges::AtStart).unwrap();
    let fence = Fence::new(
        run(100.0, 5.0)
            .with_gate(gate(20.0))
            .unwrap()
            .with_gate(gate(44.0))
            .unwrap(),
    );
    let wind = FenceWind::new(&site(), &fence).unwrap();
    // The first post beyond the first gate's far side.
    let post = fence
        .posts()
        .iter()
        .find(|post| post.arms().next().unwrap().at == ft(29.0))
        .unwrap();
    let wall = |length: f64| {
        let shape = WallShape::new(ft(length), ft(6.0), ft(0.0), 1.0).unwrap();
        let wall = WallWind::new(&site(), shape, WallEnds::FREE).unwrap();
        wall.worst(ft(2.5), ft(7.5)).1.to(lb)
    };
    let (both_open, one_open) = (wall(20.0), wall(76.0));
    assert!(one_open > both_open * 1.05);
    let ours = strength_shear(&wind, post, LoadCaseKind::GateOpenAcross).unwrap();
    assert_relative_eq!(ours.to(lb), one_open, max_relative = 1e-9);
}

/// A gate at a corner: its leaf, open, stands parallel to the other run, so one
/// wind loads both; the sum, not the greater of them.
#[test]
fn a_gate_at_a_corner() {
    let gate = Gate::new(ft(0.0), ft(6.0), lb(150.0), Hinges::AtStart).unwrap();
    let fence = Fence::new(run(48.0, 8.0))
        .turning(deg(90.0), run(48.0, 8.0).with_gate(gate).unwrap())
        .unwrap();
    let wind = FenceWind::new(&site(), &fence).unwrap();
    let post = fence
        .posts()
        .iter()
        .find(|post| post.leaves().count() == 1)
        .unwrap();
    let shear = |kind| strength_shear(&wind, post, kind).unwrap().to(lb);
    let leaf = shear(LoadCaseKind::GateOpenAlong);
    let first = shear(LoadCaseKind::AcrossRun);
    let together = shear(LoadCaseKind::GateOpenTogether);
    assert_relative_eq!(together, first + leaf, max_relative = 1e-9);
}

/// A gently bent fence is one wall to the wind as well as two: never less than
/// either.
#[test]
fn gentle_bends() {
    let straight = Fence::new(run(48.0, 8.0));
    let bent = Fence::new(run(24.0, 8.0))
        .turning(deg(2.0), run(24.0, 8.0))
        .unwrap();
    assert_eq!(bent.stretch(0), 0..2);
    assert_eq!(bent.stretch(1), 0..2);
    let sharp = Fence::new(run(24.0, 8.0))
        .turning(deg(60.0), run(24.0, 8.0))
        .unwrap();
    assert_eq!(sharp.stretch(1), 1..2);
    let worst = |fence: &Fence, index: usize| {
        let wind = FenceWind::new(&site(), fence).unwrap();
        let cases = wind.cases(&fence.posts()[index]);
        cases
            .iter()
            .map(|case| case.wind.shear().to(lb))
            .fold(0.0, f64::max)
    };
    for index in 0..7 {
        assert!(
            worst(&bent, index) >= worst(&straight, index) * (1.0 - 1e-3),
            "{index}"
        );
    }
    // And where a run of the bend alone is worse, that counts, with a gate of
    // it open too.
    let gate = Gate::new(ft(14.0), ft(4.0), lb(80.0), Hinges::AtEnd).unwrap();
    let gated = run(24.0, 8.0).with_gate(gate).unwrap();
    for middle in [run(24.0, 8.0), gated] {
        let alone = Fence::new(middle.clone());
        let bent = Fence::new(run(24.0, 8.0))
            .turning(deg(30.0), middle)
            .unwrap()
            .turning(deg(30.0), run(24.0, 8.0))
            .unwrap();
        // Posts 0 to 3 are of the first run, the last of them shared.
        for index in 0..alone.posts().len() {
            assert!(
                worst(&bent, index + 3) >= worst(&alone, index) * (1.0 - 1e-12),
                "{index}"
            );
        }
    }
}

/// Only a return as high, as low and as solid as the wall shelters its end.
#[test]
fn a_lower_return_is_no_return() {
    let ends = |height: f64, gap: f64, solid: f64| {
        let other = Panel::new(ft(height))
            .unwrap()
            .with_clearance(ft(gap))
            .unwrap()
            .with_solidity(solid)
            .unwrap();
        Fence::new(run(48.0, 8.0))
            .turning(deg(90.0), FenceRun::new(other, ft(16.0), ft(8.0)).unwrap())
            .unwrap()
            .ends(0)
            .end
    };
    assert_eq!(ends(6.0, 0.0, 1.0), WallEnd::Return(ft(16.0)));
    assert_eq!(ends(8.0, 0.0, 1.0), WallEnd::Return(ft(16.0)));
    assert_eq!(ends(1.0, 0.0, 1.0), WallEnd::Free);
    assert_eq!(ends(6.0, 0.5, 1.0), WallEnd::Free);
    assert_eq!(ends(6.0, 0.0, 0.8), WallEnd::Free);
}

/// Winds added as vectors: by hand, and their weights simply.
#[test]
fn winds_as_vectors() {
    let part = |force: f64, axial: f64| {
        GroundlineActions::new(lb(force), lb_ft(3.0 * force), lb(axial), Strength).unwrap()
    };
    let together = part(300.0, 10.0)
        .with_turned(&part(400.0, 20.0), deg(90.0))
        .unwrap();
    assert_relative_eq!(together.shear().to(lb), 500.0, max_relative = 1e-12);
    assert_relative_eq!(together.moment().to(lb_ft), 1500.0, max_relative = 1e-12);
    assert_relative_eq!(together.axial().to(lb), 30.0, max_relative = 1e-12);
    let straight = part(300.0, 0.0)
        .with_turned(&part(400.0, 0.0), deg(180.0))
        .unwrap();
    assert_relative_eq!(straight.shear().to(lb), 700.0, max_relative = 1e-12);
}

/// A bend of 1° never lowers the worst shear of any post, wherever it is and
/// whichever gates stand open.
#[test]
fn a_slight_bend_changes_nothing() {
    let gate = |at: f64| Gate::new(ft(at), ft(4.0), lb(100.0), Hinges::AtEnd).unwrap();
    let whole = run(120.0, 4.0)
        .with_gate(gate(0.0))
        .unwrap()
        .with_gate(gate(60.0))
        .unwrap();
    for case_b in [EccentricCase::EveryRun, EccentricCase::ShortRuns] {
        let options = WallOptions::default().eccentric_case(case_b);
        let worst = |fence: &Fence| -> Vec<f64> {
            let wind = FenceWind::new(&site().with_options(options), fence).unwrap();
            fence
                .posts()
                .iter()
                .map(|post| {
                    let shears = wind.cases(post);
                    shears
                        .iter()
                        .map(|case| case.wind.shear().to(lb))
                        .fold(0.0, f64::max)
                })
                .collect()
        };
        let straight = worst(&Fence::new(whole.clone()));
        for cut in [8.0, 16.0, 40.0, 76.0, 100.0] {
            let mut first = run(cut, 4.0).with_gate(gate(0.0)).unwrap();
            let mut second = run(120.0 - cut, 4.0);
            if cut > 60.0 {
                first = first.with_gate(gate(60.0)).unwrap();
            } else {
                second = second.with_gate(gate(60.0 - cut)).unwrap();
            }
            let bent = worst(&Fence::new(first).turning(deg(1.0), second).unwrap());
            assert_eq!(bent.len(), straight.len());
            for (index, (bent, straight)) in bent.iter().zip(&straight).enumerate() {
                assert!(
                    *bent >= straight * (1.0 - 1e-3),
                    "{case_b:?}, bend at {cut} ft, post {index}: {bent} {straight}"
                );
            }
        }
    }
}

/// A gate that ends at a corner, at any position: the numbers of its place and
/// width need not add up to the last bit.
#[test]
fn a_gate_that_ends_at_a_corner() {
    for step in 0..200 {
        let at = 0.9 + 0.3 * f64::from(step);
        let gate = Gate::new(ft(at), ft(4.0), lb(100.0), Hinges::AtStart).unwrap();
        let first = FenceRun::new(panel(), ft(at + 4.0), ft(6.0))
            .unwrap()
            .with_gate(gate)
            .unwrap();
        let fence = Fence::new(first)
            .turning(deg(90.0), run(20.0, 6.0))
            .unwrap();
        for fence in [&fence, &fence.mirrored()] {
            let wind = FenceWind::new(&site(), fence).unwrap();
            assert!(!wind.cases(&fence.posts()[0]).is_empty());
            // No return where the gate stands right at the corner.
            assert!((0..2).any(|i| fence.ends(i) == WallEnds::FREE));
        }
    }
}

/// A corner with a leaf on one run: the other run, which has a gate farther
/// off, counts with that gate shut or open, whichever is worse.
#[test]
fn the_other_run_counts_at_its_worst() {
    let leaf = Gate::new(ft(0.0), ft(4.0), lb(100.0), Hinges::AtStart).unwrap();
    let mut shut_was_worse = 0;
    for (far, options) in [6.0, 12.0, 24.0, 40.0].into_iter().flat_map(|far| {
        [EccentricCase::EveryRun, EccentricCase::ShortRuns]
            .map(|case| (far, WallOptions::default().eccentric_case(case)))
    }) {
        let gate = Gate::new(ft(60.0 - far - 4.0), ft(4.0), lb(100.0), Hinges::AtStart).unwrap();
        let fence = Fence::new(run(60.0, 4.0).with_gate(gate).unwrap())
            .turning(deg(90.0), run(40.0, 8.0).with_gate(leaf).unwrap())
            .unwrap();
        let wind = FenceWind::new(&site().with_options(options), &fence).unwrap();
        let post = fence
            .posts()
            .iter()
            .find(|post| post.arms().count() == 2)
            .unwrap();
        assert_eq!(post.leaves().count(), 1);
        let cases = wind.cases(post);
        let first_run = |kind: LoadCaseKind| {
            cases
                .iter()
                .find(|case| case.kind == kind && case.run == 0)
                .unwrap()
                .wind
                .shear()
                .to(lb)
        };
        let shut = first_run(LoadCaseKind::AcrossRun);
        let open = first_run(LoadCaseKind::GateOpenAcross);
        let leaf = strength_shear(&wind, post, LoadCaseKind::GateOpenAlong)
            .unwrap()
            .to(lb);
        let together = strength_shear(&wind, post, LoadCaseKind::GateOpenTogether)
            .unwrap()
            .to(lb);
        shut_was_worse += usize::from(shut > open * 1.001);
        // The leaf of the second run stands parallel to the first.
        assert_relative_eq!(together, shut.max(open) + leaf, max_relative = 1e-9);
    }
    assert!(shut_was_worse > 0);
}
