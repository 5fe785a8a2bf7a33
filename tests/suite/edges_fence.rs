//! Fences at their limits: gates a hair off, bends on either side of a rule,
//! what a post is called and carries, and winds as vectors.

use approx::assert_relative_eq;
use groundline::actions::*;
use groundline::caution::Caution;
use groundline::fence::*;
use groundline::limit_state::{AllowableStress, Strength};
use groundline::report;
use groundline::step::Worksheet;
use groundline::units::*;
use groundline::wind::*;

fn panel() -> Panel {
    Panel::new(ft(6.0)).unwrap()
}

fn run(length: f64) -> FenceRun {
    FenceRun::new(panel(), ft(length), ft(8.0)).unwrap()
}

fn gate(at: Length, width: Length, hinges: Hinges) -> Gate {
    Gate::new(at, width, lb(80.0), hinges).unwrap()
}

fn site() -> AsceSite {
    let speed = BasicWindSpeed::strength_level(mph(115.0)).unwrap();
    AsceSite::new(Edition::Asce7_22, speed, Exposure::C)
}

/// A piece of fence beside a gate is 6 in long at least; a hundredth of an inch
/// counts for nothing. At the start, between gates, and at the end.
#[test]
fn pieces_beside_a_gate() {
    let four = ft(4.0);
    let first = |piece: f64| run(30.0).with_gate(gate(inch(piece), four, Hinges::AtEnd));
    let between = |piece: f64| {
        run(30.0)
            .with_gate(gate(ft(8.0), four, Hinges::AtEnd))
            .unwrap()
            .with_gate(gate(ft(12.0) + inch(piece), four, Hinges::AtEnd))
    };
    let last = |piece: f64| run(30.0).with_gate(gate(ft(26.0) - inch(piece), four, Hinges::AtEnd));
    for (piece, taken) in [
        (0.0, true),
        (0.005, true),
        (0.02, false),
        (3.0, false),
        (5.98, false),
        (5.995, true),
        (6.0, true),
        (6.1, true),
        (40.0, true),
    ] {
        for made in [first(piece), between(piece), last(piece)] {
            assert_eq!(made.is_ok(), taken, "{piece} in: {made:?}");
            if let Err(error) = made {
                assert_eq!(error.field(), "gate");
                assert!(error.to_string().contains("6 in"), "{error}");
            }
        }
    }
    // Half a hair off its neighbour, a gate is at it.
    for hair in [-0.005, 0.005] {
        let made = between(hair).unwrap();
        assert_eq!(made.gates()[1].at(), ft(12.0));
        let opening = ft(30.0) - ft(26.0) + inch(hair);
        let end = gate(ft(26.0) - inch(hair), four, Hinges::AtEnd);
        let made = run(30.0).with_gate(end).unwrap();
        assert_relative_eq!(made.gates()[0].end().to(ft), 30.0, max_relative = 1e-12);
        assert_relative_eq!(
            made.gates()[0].opening().to(ft),
            opening.to(ft),
            max_relative = 1e-9
        );
    }
    assert_eq!(first(0.005).unwrap().gates()[0].at(), ft(0.0));
    assert_eq!(first(6.0).unwrap().gates()[0].at(), inch(6.0));
    // Farther than a hair it reaches into the other, or beyond the run.
    for over in [between(-0.02), between(-6.0), last(-0.02), last(-12.0)] {
        let error = over.unwrap_err();
        assert!(error.to_string().contains("beyond its run"), "{error}");
    }
}

/// The same run from its other end, and with every bay longer.
#[test]
fn runs_from_the_other_end() {
    let made = run(50.0)
        .with_gate(gate(ft(10.0), ft(4.0), Hinges::AtStart))
        .unwrap()
        .with_gate(gate(ft(30.0), ft(6.0), Hinges::Both))
        .unwrap();
    let other = made.mirrored();
    let at: Vec<_> = other.gates().iter().map(|g| g.at().to(ft)).collect();
    assert_relative_eq!(at[0], 14.0, max_relative = 1e-12);
    assert_relative_eq!(at[1], 36.0, max_relative = 1e-12);
    assert_eq!(other.gates()[0].hinges(), Hinges::Both);
    assert_eq!(other.gates()[1].hinges(), Hinges::AtEnd);
    assert_eq!(other.length(), made.length());
    assert_eq!(
        made.gates()[0].leaf_width(),
        ft(4.0),
        "one leaf as wide as the opening"
    );
    assert_eq!(made.gates()[1].leaf_width(), ft(3.0), "two leaves");

    // Pieces of 10, 16 and 14 ft by 1.5, openings as they are.
    let longer = made.with_bays_by(1.5).unwrap();
    let at: Vec<_> = longer.gates().iter().map(|g| g.at().to(ft)).collect();
    assert_relative_eq!(at[0], 15.0, max_relative = 1e-12);
    assert_relative_eq!(at[1], 15.0 + 4.0 + 24.0, max_relative = 1e-12);
    assert_relative_eq!(longer.length().to(ft), 70.0, max_relative = 1e-12);
    assert_relative_eq!(longer.spacing().to(ft), 12.0, max_relative = 1e-12);
    assert_eq!(longer.gates()[1].opening(), ft(6.0));
    assert_eq!(
        Fence::new(longer).posts().len(),
        Fence::new(made.clone()).posts().len()
    );
    let wider = made.clone().with_spacing(ft(20.0)).unwrap();
    assert_eq!(wider.spacing(), ft(20.0));
    assert_eq!(wider.gates(), made.gates());
    let taller = made.clone().with_panel(Panel::new(ft(8.0)).unwrap());
    assert_eq!(taller.panel().top(), ft(8.0));
    assert_eq!(taller.gates(), made.gates());
}

/// Whole bays give posts at whole spacings; what is a hair more than a bay is
/// one, what is clearly more is two.
#[test]
fn bays() {
    for (length, bays) in [
        (8.0, 1),
        (8.0 * (1.0 + 1e-12), 1),
        (8.001, 2),
        (16.0, 2),
        (24.0, 3),
        (24.01, 4),
        (2.0, 1),
    ] {
        let fence = Fence::new(run(length));
        assert_eq!(fence.posts().len(), bays + 1, "{length} ft");
        let posts = fence.posts();
        assert_eq!(posts[0].kind, PostKind::End);
        assert_eq!(posts[bays].kind, PostKind::End);
        for (i, post) in posts.iter().enumerate() {
            let arm = post.arms().next().unwrap();
            let bay = length / f64::from(u32::try_from(bays).unwrap());
            let at = bay * f64::from(u32::try_from(i).unwrap());
            assert_relative_eq!(arm.at.to(ft), at, max_relative = 1e-12);
            let from = (at - 0.5 * bay).max(0.0);
            let to = (at + 0.5 * bay).min(length);
            assert_relative_eq!(arm.width().to(ft), to - from, max_relative = 1e-9);
            assert_eq!(post.number, i + 1);
            assert!(i == 0 || i == bays || post.kind == PostKind::Line);
        }
    }
}

/// A post beside a gate is a gate post, also at a corner, on whichever run the
/// gate is; the leaf hangs on the post at its hinges.
#[test]
fn kinds_of_posts_and_their_leaves() {
    let corner = |first: FenceRun, second: FenceRun| {
        let fence = Fence::new(first).turning(deg(90.0), second).unwrap();
        fence.posts()[2]
    };
    let at_end = |hinges| {
        run(16.0)
            .with_gate(gate(ft(12.0), ft(4.0), hinges))
            .unwrap()
    };
    let at_start = |hinges| run(16.0).with_gate(gate(ft(0.0), ft(4.0), hinges)).unwrap();
    assert_eq!(corner(run(16.0), run(16.0)).kind, PostKind::Corner);
    for (post, leaves, of) in [
        (corner(run(16.0), at_start(Hinges::AtStart)), 1, 1),
        (corner(run(16.0), at_start(Hinges::Both)), 1, 1),
        (corner(run(16.0), at_start(Hinges::AtEnd)), 0, 1),
    ] {
        assert_eq!(post.kind, PostKind::Gate);
        assert_eq!(post.leaves().count(), leaves);
        assert!(post.leaves().all(|leaf| leaf.run == of));
        assert_eq!(post.arms().count(), 2);
    }
    // Posts 1 (12 ft) and 2 ... of the first run: 0, 6, 12, 16 ft.
    for (hinges, leaves) in [(Hinges::AtEnd, 1), (Hinges::AtStart, 0), (Hinges::Both, 1)] {
        let fence = Fence::new(at_end(hinges))
            .turning(deg(90.0), run(16.0))
            .unwrap();
        let post = fence.posts()[3];
        assert_eq!(post.kind, PostKind::Gate);
        assert_eq!(post.leaves().count(), leaves);
        // Shut it carries half the opening, open nothing of it.
        let arm = post.arms().next().unwrap();
        assert_relative_eq!(arm.from.to(ft), 14.0, max_relative = 1e-12);
        assert_relative_eq!(arm.open_from.to(ft), 16.0, max_relative = 1e-12);
        let before = fence.posts()[2].arms().next().unwrap();
        assert_relative_eq!(before.to.to(ft), 14.0, max_relative = 1e-12);
        assert_relative_eq!(before.open_to.to(ft), 12.0, max_relative = 1e-12);
    }
    let names = [
        PostKind::End,
        PostKind::Line,
        PostKind::Corner,
        PostKind::Gate,
    ];
    assert_eq!(
        names.map(|kind| kind.to_string()),
        ["end", "line", "corner", "gate"]
    );
    let cases = [
        (LoadCaseKind::AcrossRun, "across the run"),
        (LoadCaseKind::BothRuns, "both runs"),
        (LoadCaseKind::GateOpenAcross, "gate open"),
        (LoadCaseKind::GateOpenAlong, "open leaf"),
        (LoadCaseKind::GateOpenTogether, "all at once"),
    ];
    let mut seen = Vec::new();
    for (kind, words) in cases {
        assert!(kind.name().contains(words));
        assert!(!seen.contains(&kind.name()));
        seen.push(kind.name());
    }
}

/// A turn is a return from 60° to 120°, of a run as high, as low down and as
/// solid at least that goes on a while; below 60° the fence goes on straight.
#[test]
fn what_counts_as_a_return() {
    let own = Panel::new(ft(6.0))
        .unwrap()
        .with_clearance(inch(6.0))
        .unwrap()
        .with_solidity(0.9)
        .unwrap();
    let of = |panel: Panel| FenceRun::new(panel, ft(16.0), ft(8.0)).unwrap();
    let ends = |turn: f64, other: FenceRun| {
        let fence = Fence::new(of(own)).turning(deg(turn), other).unwrap();
        (fence.ends(0).end, fence.ends(1).start)
    };
    let back = WallEnd::Return(ft(16.0));
    for (turn, found) in [
        (59.99, WallEnd::Free),
        (60.0, back),
        (90.0, back),
        (120.0, back),
        (120.01, WallEnd::Free),
    ] {
        assert_eq!(ends(turn, of(own)), (found, found), "{turn}°");
    }
    for (other, first, second) in [
        // Higher, lower down, more solid: a return of the first run only.
        (own.with_top(ft(7.0)).unwrap(), back, WallEnd::Free),
        (own.with_clearance(inch(3.0)).unwrap(), back, WallEnd::Free),
        (own.with_solidity(1.0).unwrap(), back, WallEnd::Free),
        // Lower, higher up, less solid: of the second only.
        (own.with_top(ft(5.9)).unwrap(), WallEnd::Free, back),
        (own.with_clearance(inch(7.0)).unwrap(), WallEnd::Free, back),
        (own.with_solidity(0.89).unwrap(), WallEnd::Free, back),
    ] {
        assert_eq!(ends(90.0, of(other)), (first, second));
    }
    // A gate right at the corner: the return is none while it is there.
    let gated = of(own)
        .with_gate(gate(ft(0.0), ft(4.0), Hinges::AtStart))
        .unwrap();
    assert_eq!(ends(90.0, gated), (WallEnd::Free, back));

    // Three runs: one stretch by bends below 60°, two by one of 60°.
    let three = |a: f64, b: f64| {
        let runs = vec![(deg(a), of(own)), (deg(b), of(own))];
        let fence = Fence::of_runs(of(own), runs).unwrap();
        [0, 1, 2].map(|run| fence.stretch(run))
    };
    assert_eq!(three(59.9, 10.0), [0..3, 0..3, 0..3]);
    assert_eq!(three(60.0, 10.0), [0..1, 1..3, 1..3]);
    assert_eq!(three(10.0, 60.0), [0..2, 0..2, 2..3]);
    assert_eq!(three(90.0, 60.0), [0..1, 1..2, 2..3]);
    // A run that is not there is an answer.
    let fence = Fence::new(of(own));
    for run in [1, usize::MAX - 1, usize::MAX] {
        assert!(fence.stretch(run).is_empty(), "{run}");
        assert_eq!(fence.ends(run), WallEnds::FREE);
        assert_eq!(fence.turn_after(run), None);
    }
}

/// The most cases a post can have, none of them lost: at a corner, a leaf hung in
/// each run and another gate farther along it.
#[test]
fn a_post_of_eight_cases() {
    let run = |near: f64, hinges: Hinges, far: f64| {
        FenceRun::new(Panel::new(ft(6.0)).unwrap(), ft(40.0), ft(8.0))
            .unwrap()
            .with_gate(gate(ft(near), ft(4.0), hinges))
            .unwrap()
            .with_gate(gate(ft(far), ft(4.0), Hinges::AtStart))
            .unwrap()
    };
    let (first, second) = (
        run(36.0, Hinges::AtEnd, 8.0),
        run(0.0, Hinges::AtStart, 28.0),
    );
    let fence = Fence::new(first).turning(deg(90.0), second).unwrap();
    let post = fence.posts().iter().find(|post| post.arms().count() == 2);
    let post = post.unwrap();
    assert_eq!(post.leaves().count(), 2);
    let wind = FenceWind::new(&site(), &fence).unwrap();
    let kinds: Vec<_> = wind
        .cases(post)
        .iter()
        .map(|case| (case.kind, case.run))
        .collect();
    let together = kinds.last().unwrap().1;
    assert_eq!(
        kinds,
        [
            (LoadCaseKind::AcrossRun, 0),
            (LoadCaseKind::AcrossRun, 1),
            (LoadCaseKind::BothRuns, kinds[2].1),
            (LoadCaseKind::GateOpenAcross, 0),
            (LoadCaseKind::GateOpenAlong, 0),
            (LoadCaseKind::GateOpenAcross, 1),
            (LoadCaseKind::GateOpenAlong, 1),
            (LoadCaseKind::GateOpenTogether, together),
        ]
    );
}

/// The working of wind on an open leaf has the leaf of its own run alone; of all winds
/// at once, those of both.
#[test]
fn leaves_of_a_working() {
    let run = |at: f64, hinges: Hinges, width: f64| {
        let run = FenceRun::new(panel(), ft(40.0), ft(8.0)).unwrap();
        run.with_gate(gate(ft(at), ft(width), hinges)).unwrap()
    };
    let fence = Fence::new(run(37.0, Hinges::AtEnd, 3.0));
    let fence = fence.turning(deg(90.0), run(0.0, Hinges::AtStart, 4.0));
    let fence = fence.unwrap();
    let posts = fence.posts();
    let post = posts.iter().find(|post| post.leaves().count() == 2);
    let post = post.unwrap();
    let wind = FenceWind::new(&site(), &fence).unwrap();
    let mut seen = Vec::new();
    for case in wind.cases(post).iter() {
        let mut sheet = Worksheet::new("", UnitSystem::Us);
        wind.write(post, case, &mut sheet);
        let text = report::text(&sheet).to_string();
        let on = |run: usize| {
            text.contains(&format!(
                "Along run {run}, onto its open leaf as a wall alone."
            ))
        };
        seen.push((case.kind, case.run, [on(1), on(2)]));
    }
    for (kind, run, leaves) in &seen {
        let expected = match kind {
            LoadCaseKind::GateOpenAlong => [*run == 0, *run == 1],
            LoadCaseKind::GateOpenTogether => [true, true],
            _ => [false, false],
        };
        assert_eq!(*leaves, expected, "{kind:?} of run {run}");
    }
    assert_eq!(seen.len(), 6);
}

/// Cautions of a fence: a leaf twists its post only where there is a gate, and
/// above 12 ft a fence is not the stiff one of the figures.
#[test]
fn cautions_of_a_fence() {
    let told = |run: FenceRun, caution: Caution| {
        let fence = Fence::new(run);
        let wind = FenceWind::new(&site(), &fence).unwrap();
        wind.cautions().iter().any(|said| said == caution)
    };
    let gated = run(30.0)
        .with_gate(gate(ft(8.0), ft(4.0), Hinges::AtStart))
        .unwrap();
    assert!(told(gated, Caution::LeafTorsion));
    assert!(!told(run(30.0), Caution::LeafTorsion));
    for caution in [Caution::RetainedSoil, Caution::Barrier] {
        assert!(told(run(30.0), caution));
    }
    for (top, said) in [(6.0, false), (12.0, false), (12.01, true), (14.0, true)] {
        let tall = run(30.0).with_panel(Panel::new(ft(top)).unwrap());
        assert_eq!(told(tall, Caution::Flexible), said, "{top} ft");
    }
}

/// The weight on a post is that of half a bay each way, less the opening of a
/// gate, and of its leaves; they pull at half their width. By hand.
#[test]
fn weight_on_posts() {
    let panel = Panel::new(ft(6.0))
        .unwrap()
        .with_clearance(ft(1.0))
        .unwrap()
        .with_weight(psf(3.0))
        .unwrap();
    let run = FenceRun::new(panel, ft(28.0), ft(8.0))
        .unwrap()
        .with_gate(gate(ft(8.0), ft(4.0), Hinges::AtStart))
        .unwrap();
    let fence = Fence::new(run);
    let wind = FenceWind::new(&site(), &fence).unwrap();
    // Posts at 0, 8, 12, 20 and 28 ft: halves of bays of 8 ft, 5 ft high.
    let panels = [4.0, 4.0, 4.0, 8.0, 4.0];
    for (i, (post, width)) in fence.posts().iter().zip(panels).enumerate() {
        let leaf = if i == 1 { 80.0 } else { 0.0 };
        for case in wind.cases(post).iter() {
            assert_relative_eq!(
                case.dead.axial().to(lb),
                3.0 * 5.0 * width + leaf,
                max_relative = 1e-9
            );
            let pull = case.dead.in_line() + case.dead.across();
            assert_relative_eq!(pull.to(lb_ft), leaf * 2.0, max_relative = 1e-9);
            // A leaf across the wind turns the moment askew.
            let across = case.dead.across().value > 0.0;
            assert_eq!(
                case.is_skew(),
                across || case.kind == LoadCaseKind::GateOpenTogether
            );
            if matches!(
                case.kind,
                LoadCaseKind::AcrossRun | LoadCaseKind::GateOpenAlong
            ) {
                assert_eq!(across, i == 1);
            } else {
                assert!(!across);
            }
        }
        // The hinge post has one run and one leaf: across shut, across open,
        // along, and both at once. The other gate post has no leaf.
        let kinds: Vec<_> = wind.cases(post).iter().map(|case| case.kind).collect();
        let expected: &[LoadCaseKind] = match i {
            1 => &[
                LoadCaseKind::AcrossRun,
                LoadCaseKind::GateOpenAcross,
                LoadCaseKind::GateOpenAlong,
                LoadCaseKind::GateOpenTogether,
            ],
            _ => &[LoadCaseKind::AcrossRun, LoadCaseKind::GateOpenAcross],
        };
        assert_eq!(kinds, expected, "post {}", i + 1);
    }
    assert!(
        !LoadCase::new(
            GroundlineActions::wind(lb(100.0), ft(3.0)).unwrap(),
            DeadEffects::NONE
        )
        .is_skew()
    );
}

/// Both sums of a picture agree to a billionth, and are said not to where one
/// is off by more.
#[test]
fn sums_of_a_picture() {
    let fence = Fence::new(run(60.0));
    let wind = FenceWind::new(&site(), &fence).unwrap();
    let picture = wind.picture(0).unwrap();
    assert!(wind.picture(1).is_none());
    assert!(!picture.sums.is_empty());
    for sum in picture.sums {
        assert!(sum.agrees());
        for (off, agrees) in [
            (0.5e-9, true),
            (-0.5e-9, true),
            (2e-9, false),
            (-2e-9, false),
        ] {
            let mut other = sum;
            other.on_posts = sum.on_strips * (1.0 + off);
            assert_eq!(other.agrees(), agrees, "{off}");
        }
        let mut nothing = sum;
        nothing.on_strips = newton(0.0);
        nothing.on_posts = newton(0.0);
        assert!(nothing.agrees());
    }
}

/// Two winds at right angles by Pythagoras to the last digit, at other angles
/// by the law of cosines, turned to the side where they add up.
#[test]
fn winds_at_an_angle() {
    let wind = |shear: f64, moment: f64, axial: f64| {
        GroundlineActions::new(newton(shear), n_m(moment), newton(axial), Strength).unwrap()
    };
    for a in 1..40_u32 {
        for b in 1..40_u32 {
            let (x, y) = (f64::from(a), f64::from(b));
            let both = wind(x, y, 1.0)
                .with_turned(&wind(y, x, 2.0), deg(90.0))
                .unwrap();
            assert_eq!(both.shear(), newton(f64::from(a * a + b * b).sqrt()));
            assert_eq!(both.moment(), n_m(f64::from(a * a + b * b).sqrt()));
            assert_eq!(both.axial(), newton(3.0));
        }
    }
    for turn in [0.0_f64, 30.0, 60.0, 100.0, 150.0, 180.0] {
        let both = wind(3.0, 5.0, 0.0)
            .with_turned(&wind(4.0, 6.0, 0.0), deg(turn))
            .unwrap();
        let cosine = turn.to_radians().cos().abs();
        let add = |a: f64, b: f64| (a * a + b * b + 2.0 * a * b * cosine).sqrt();
        assert_relative_eq!(both.shear().value, add(3.0, 4.0), max_relative = 1e-12);
        assert_relative_eq!(both.moment().value, add(5.0, 6.0), max_relative = 1e-12);
    }
    // Opposite senses in either are refused; no moment or no shear is not.
    let fair = wind(3.0, 5.0, 0.0);
    for (other, refused) in [
        (wind(3.0, -5.0, 0.0), true),
        (wind(-3.0, 5.0, 0.0), true),
        (wind(-3.0, -5.0, 0.0), false),
        (wind(3.0, 0.0, 0.0), false),
        (wind(-3.0, 0.0, 0.0), false),
        (wind(0.0, -5.0, 0.0), false),
    ] {
        assert_eq!(fair.with_turned(&other, deg(90.0)).is_err(), refused);
        assert_eq!(other.with_turned(&fair, deg(90.0)).is_err(), refused);
    }
    assert!(fair.with_turned(&fair, deg(-0.1)).is_err());
    assert!(fair.with_turned(&fair, deg(180.1)).is_err());
    let basic = AllowableStress::Basic;
    let other = AllowableStress::AlternativeWithIncrease;
    let at = |level| GroundlineActions::new(lb(1.0), lb_ft(1.0), lb(0.0), level).unwrap();
    assert!(at(basic).with_turned(&at(basic), deg(90.0)).is_ok());
    let error = at(basic).with_turned(&at(other), deg(90.0)).unwrap_err();
    assert_eq!(error.field(), "limit state");
}

/// Dead load with wind: D in line adds whichever way the wind blows, D across
/// as a vector, weight by its own factor (D + 0.6 W, 0.6 D + 0.6 W).
#[test]
fn dead_load_with_wind() {
    use groundline::combination::Combination;
    let dead = DeadEffects::new(newton(500.0), n_m(7.0), n_m(24.0)).unwrap();
    assert_eq!(dead.axial(), newton(500.0));
    assert_eq!((dead.in_line(), dead.across()), (n_m(7.0), n_m(24.0)));
    let set = Combination::of(AllowableStress::Basic);
    for sign in [1.0, -1.0] {
        let wind =
            GroundlineActions::new(newton(10.0 * sign), n_m(30.0 * sign), newton(4.0), Strength)
                .unwrap();
        let both = wind.combined(&dead, &set);
        assert_relative_eq!(both.shear().value, 6.0 * sign, max_relative = 1e-12);
        let in_line: f64 = 0.6 * 30.0 + 7.0;
        assert_relative_eq!(
            both.moment().value,
            sign * in_line.hypot(24.0),
            max_relative = 1e-12
        );
        assert_relative_eq!(both.axial().value, 504.0, max_relative = 1e-12);
        assert_eq!(both.level(), AllowableStress::Basic);
        let least = wind.relieved(&dead, &set);
        assert_relative_eq!(least.axial().value, 4.0 + 300.0, max_relative = 1e-12);
        assert_relative_eq!(
            least.moment().value,
            sign * in_line.hypot(24.0),
            max_relative = 1e-12
        );
        let line = DeadEffects::new(newton(0.0), n_m(7.0), n_m(0.0)).unwrap();
        let both = wind.allowable(&line, AllowableStress::Basic);
        assert_relative_eq!(both.moment().value, sign * in_line, max_relative = 1e-12);
        assert_relative_eq!(both.height().value, in_line / 6.0, max_relative = 1e-12);
    }
}

/// A gate at the end of a run hangs its last post at that very end, and a gate
/// at its start the first at its start, whatever rounding makes of the sum.
#[test]
fn gates_at_the_ends_of_a_run() {
    for i in 1..60_u32 {
        let at = ft(3.0) + m(0.1) * f64::from(i);
        let length = at + ft(3.7);
        let run = FenceRun::new(panel(), length, ft(8.0)).unwrap();
        let run = run.with_gate(gate(at, length - at, Hinges::AtEnd)).unwrap();
        let fence = Fence::new(run);
        let last = fence.posts().last().unwrap();
        let arm = last.arms().next().unwrap();
        assert_eq!((arm.at, arm.to), (length, length));
        assert_eq!(last.kind, PostKind::Gate);
        assert_eq!(last.leaves().count(), 1);
    }
}

/// Winds on both runs of a corner are told under the run with the more of it.
#[test]
fn the_worse_run_of_a_corner() {
    let tall = run(24.0).with_panel(Panel::new(ft(8.0)).unwrap());
    for (first, second, worse) in [(tall.clone(), run(24.0), 0), (run(24.0), tall, 1)] {
        let fence = Fence::new(first).turning(deg(90.0), second).unwrap();
        let wind = FenceWind::new(&site(), &fence).unwrap();
        let corner = fence.posts().iter().find(|p| p.kind == PostKind::Corner);
        let cases = wind.cases(corner.unwrap());
        let across = |run: usize| {
            let of = |case: &&LoadCase| case.kind == LoadCaseKind::AcrossRun && case.run == run;
            cases.iter().find(of).unwrap()
        };
        assert!(across(worse).wind.shear() > across(1 - worse).wind.shear());
        let both = cases
            .iter()
            .find(|case| case.kind == LoadCaseKind::BothRuns);
        let both = both.unwrap();
        assert_eq!(both.run, worse);
        let most = wind.worst(corner.unwrap(), &AllowableStress::Basic.into());
        assert_eq!(most.unwrap().0.kind, LoadCaseKind::BothRuns);
        assert_eq!(both.wind_case, across(worse).wind_case);
        assert_relative_eq!(
            both.wind.shear().value,
            across(0)
                .wind
                .shear()
                .value
                .hypot(across(1).wind.shear().value),
            max_relative = 1e-12
        );
    }
}

/// The walls a run of a gently bent fence may stand in: from the start of the
/// stretch, of the run or from beyond an open gate, to the same on the other
/// side. Listed by hand.
#[test]
fn walls_of_a_bent_fence() {
    let gated = |at: f64| {
        run(40.0)
            .with_gate(gate(ft(at), ft(4.0), Hinges::AtStart))
            .unwrap()
    };
    let listed = |fence: &Fence, index: usize| {
        let wind = FenceWind::new(&site(), fence).unwrap();
        let mut walls: Vec<_> = wind.runs()[index]
            .walls
            .iter()
            .map(|wall| {
                let from = wall.from.to(ft);
                let to = from + wall.wind.shape().length().to(ft);
                (from.round(), to.round(), wall.gate_open)
            })
            .collect();
        assert_eq!(walls[0], (0.0, 40.0, false), "the run alone comes first");
        walls.sort_by(|a, b| a.partial_cmp(b).unwrap());
        walls
    };
    let bent = |runs: Vec<(Angle, FenceRun)>| Fence::of_runs(run(40.0), runs).unwrap();
    // A plain run, then one with a gate from 10 to 14 ft.
    let two = bent(vec![(deg(20.0), gated(10.0))]);
    assert_eq!(
        listed(&two, 1),
        [
            (-40.0, 10.0, true),
            (-40.0, 40.0, false),
            (0.0, 10.0, true),
            (0.0, 40.0, false),
            (14.0, 40.0, true),
        ]
    );
    assert_eq!(
        listed(&two, 0),
        [(0.0, 40.0, false), (0.0, 50.0, true), (0.0, 80.0, false),]
    );
    // Plain runs before and after the gated one.
    let three = bent(vec![(deg(20.0), gated(10.0)), (deg(20.0), run(40.0))]);
    assert_eq!(
        listed(&three, 1),
        [
            (-40.0, 10.0, true),
            (-40.0, 40.0, false),
            (-40.0, 80.0, false),
            (0.0, 10.0, true),
            (0.0, 40.0, false),
            (0.0, 80.0, false),
            (14.0, 40.0, true),
            (14.0, 80.0, true),
        ]
    );
    // At right angles each stands alone.
    let corner = bent(vec![(deg(90.0), gated(10.0))]);
    assert_eq!(listed(&corner, 0), [(0.0, 40.0, false)]);
    assert_eq!(
        listed(&corner, 1),
        [(0.0, 10.0, true), (0.0, 40.0, false), (14.0, 40.0, true)]
    );
}
