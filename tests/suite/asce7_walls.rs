//! Walls of ASCE 7 on rows of posts: the minimum pressure, Case B by statics, return
//! corners, and limits that rounding must not move.

use approx::assert_relative_eq;
use groundline::actions::FenceWind;
use groundline::check::PostDesign;
use groundline::fence::{Fence, FenceRun, Gate, Hinges, Panel};
use groundline::foundation::Hole;
use groundline::ground::{Ground, SoilClass};
use groundline::plan::FencePlan;
use groundline::post::{PipePost, SteelStrength};
use groundline::section::Tube;
use groundline::units::{
    Length, Measurable, UnitSystem, deg, ft, inch, ksi, lb, m, mm, mph, parse, psf,
};
use groundline::wind::*;
use proptest::prelude::*;

fn asce(speed: f64) -> AsceSite {
    let speed = BasicWindSpeed::strength_level(mph(speed)).unwrap();
    AsceSite::new(Edition::Asce7_16, speed, Exposure::B)
}

fn every_run(site: AsceSite) -> AsceSite {
    site.with_options(WallOptions::default().eccentric_case(EccentricCase::EveryRun))
}

fn run(length: Length, height: Length, spacing: Length) -> FenceRun {
    FenceRun::new(Panel::new(height).unwrap(), length, spacing).unwrap()
}

fn design() -> PostDesign {
    let tube = Tube::new(inch(3.5), inch(0.216)).unwrap();
    let pipe = PipePost::new(tube, SteelStrength::new(ksi(50.0)).unwrap()).unwrap();
    let ground = Ground::presumptive(SoilClass::Class3);
    PostDesign::in_concrete(ground, pipe.into(), Hole::round(inch(18.0)).unwrap()).unwrap()
}

/// Two posts: the end post takes 1.4 times half of the force, by the reaction of a simple
/// span under 1 + 2.4 (0.5 - x/B): L/6 (2 (2.2) + (-0.2)) = 0.7 L against 0.5 L. Half of
/// the bay at its mean pressure would be 1.6 times.
#[test]
fn case_b_on_two_posts() {
    let fence = Fence::new(run(ft(8.0), ft(6.0), ft(8.0)));
    let wind = FenceWind::new(&asce(115.0), &fence).unwrap();
    let shear = |post: usize, case| {
        let arm = fence.posts()[post].arms().next().unwrap();
        wind.shear(arm, case).to(lb)
    };
    let half = shear(0, WindCase::Uniform);
    let heavy = WindCase::OffCentre(Edge::Start);
    assert_relative_eq!(shear(0, heavy), 1.4 * half, max_relative = 1e-12);
    assert_relative_eq!(shear(1, heavy), 0.6 * half, max_relative = 1e-12);
    let heavy = WindCase::OffCentre(Edge::End);
    assert_relative_eq!(shear(1, heavy), 1.4 * half, max_relative = 1e-12);
}

/// On runs up to B/s = 5 by default, on longer ones only where every run is chosen.
#[test]
fn case_b_by_length_of_the_run() {
    let has = |site: &AsceSite, length: f64| {
        let fence = Fence::new(run(ft(length), ft(6.0), ft(6.0)));
        let wind = FenceWind::new(site, &fence).unwrap();
        let wall = wind.runs()[0].alone().unwrap();
        wall.has(WindCase::OffCentre(Edge::Start))
    };
    let site = asce(115.0);
    assert!(has(&site, 30.0) && !has(&site, 30.1));
    assert!(has(&every_run(site), 300.0));
    let own = site.with_options(WallOptions::default().short_runs_up_to(10.0).unwrap());
    assert!(has(&own, 60.0) && !has(&own, 60.1));
    let base = WallOptions::default().eccentric_case(EccentricCase::OneBase);
    assert!(!has(&site.with_options(base), 6.0));
}

/// The schedule says what the every-run reading would change, and says nothing where there
/// is nothing to change.
#[test]
fn the_other_reading_of_case_b() {
    let fence = Fence::new(run(ft(96.0), ft(6.0), ft(8.0)));
    let plan = |site| FencePlan::new(site, fence.clone(), design()).with_planned_depth(ft(5.0));
    let usual = plan(asce(115.0));
    let reading = usual
        .schedule()
        .unwrap()
        .case_b_on_every_run()
        .unwrap()
        .unwrap();
    let heavy = plan(every_run(asce(115.0)));
    let heavy = heavy.schedule().unwrap();
    let deepest = heavy
        .posts()
        .map(|post| post.check.required.depth())
        .fold(ft(0.0), |a, b| if b > a { b } else { a });
    assert_eq!(reading.deepest_every_run, deepest);
    let failing = heavy.posts().filter(|post| !post.passes()).count();
    assert_eq!(reading.failing_every_run, failing);
    assert_eq!(reading.posts, 13);
    // Mid-run: 16 psf does not govern, so Case B brings more than Case A.
    assert!(reading.failing_every_run > reading.failing, "{reading:?}");
    let text = reading.text(UnitSystem::Us);
    assert!(
        text.contains(&format!("{failing} of 13 posts fail")),
        "{text}"
    );
    assert_eq!(heavy.case_b_on_every_run().unwrap(), None);
    let given = DirectPressure::new(psf(20.0), groundline::limit_state::Strength).unwrap();
    let given = FencePlan::new(given, fence.clone(), design());
    assert_eq!(
        given.schedule().unwrap().case_b_on_every_run().unwrap(),
        None
    );
}

/// 40 mph, no posts fail: the minimum is a load case of its own, and the deepest post is
/// that of 16 psf x 0.6 on 6 ft of the 7 ft 10 in panel: 451 lb at 0.55 h = 4.4 ft. As a
/// floor under Case B of every run it asked 75 in of the same post.
#[test]
fn a_fence_in_a_mild_wind() {
    let panel = Panel::new(ft(8.0))
        .unwrap()
        .with_clearance(inch(2.0))
        .unwrap();
    let fence = Fence::new(FenceRun::new(panel, ft(84.0), ft(6.0)).unwrap());
    let deepest = |site| {
        let plan = FencePlan::new(site, fence.clone(), design()).with_planned_depth(inch(66.0));
        let schedule = plan.schedule().unwrap();
        let posts = schedule.posts().map(|post| {
            let depth = post.check.required.depth().to(inch);
            (depth, post.check.planned.unwrap().utilization().passes())
        });
        posts.fold((0.0_f64, 0), |(deep, fails), (depth, passes)| {
            (deep.max(depth), fails + usize::from(!passes))
        })
    };
    let (depth, fails) = deepest(asce(40.0));
    assert_eq!((depth.ceil(), fails), (56.0, 0));
    let floor = WallOptions::default()
        .eccentric_case(EccentricCase::EveryRun)
        .minimum_case(MinimumCase::EveryStrip);
    let (depth, fails) = deepest(asce(40.0).with_options(floor));
    assert!(depth > 74.0 && fails > 0, "{depth} {fails}");
    // The force by hand.
    let wind = FenceWind::new(&asce(40.0), &fence).unwrap();
    let case = wind.cases(&fence.posts()[3])[0];
    assert_eq!(case.wind_case, WindCase::Minimum);
    let by_hand = 16.0 * 6.0 * (8.0 - 2.0 / 12.0);
    assert_relative_eq!(case.wind.shear().to(lb), by_hand, max_relative = 1e-12);
}

/// A return corner reduces the first strip from B/s = 5 only (figure note, quoted): on
/// walls from 2 to below 5 the strip keeps the whole coefficient.
#[test]
fn a_return_on_a_wall_of_two_to_five() {
    let first = |b_over_s: f64, start: WallEnd| {
        let wall = WallShape::new(ft(6.0 * b_over_s), ft(6.0), ft(0.0), 1.0).unwrap();
        let end = WallEnd::Free;
        let wind = WallWind::new(&asce(115.0), wall, WallEnds { start, end }).unwrap();
        let strip = wind.strips(WindCase::Zones(Edge::Start)).next().unwrap();
        (strip.coefficient, strip.pressure.to(psf))
    };
    let returns = WallEnd::Return(ft(12.0));
    for b_over_s in [2.0, 2.5, 3.0, 4.0, 4.9, 4.999] {
        assert_eq!(
            first(b_over_s, returns),
            first(b_over_s, WallEnd::Free),
            "{b_over_s}"
        );
    }
    // From 5 on 0.60 for a return of 2 s.
    let (whole, reduced) = (first(5.0, WallEnd::Free), first(5.0, returns));
    assert_relative_eq!(reduced.0, 0.6 * whole.0, max_relative = 1e-12);
    assert_relative_eq!(reduced.1, 0.6 * whole.1, max_relative = 1e-12);
}

/// Limits that rounding must not move: a return of 0.3 s, a gap of no size under the
/// printed height of the resultant, B/s of 13 in the gap of the columns.
#[test]
fn limits_up_to_rounding() {
    for ratio in [0.3 * (1.0 - 2e-16), 0.3, 0.1 * 3.0] {
        let factor = return_factor(ratio, ShortReturn::NoReduction).unwrap();
        assert_relative_eq!(factor, 0.9, max_relative = 1e-12);
    }
    assert_eq!(return_factor(0.299, ShortReturn::NoReduction).unwrap(), 1.0);
    let options = WallOptions::default().resultant_height(ResultantHeight::AsPrinted);
    let site = asce(115.0).with_options(options);
    for gap in [0.0, 1e-12, 1e-6] {
        let wall = WallShape::new(m(20.0), m(2.0), m(gap), 1.0).unwrap();
        let wind = WallWind::new(&site, wall, WallEnds::FREE).unwrap();
        assert_relative_eq!(wind.resultant_height().to(m), 1.1, max_relative = 1e-5);
    }
    for (b_over_s, refused) in [
        (10.0 * (1.0 + 1e-15), false),
        (10.01, true),
        (12.99, true),
        (13.0 * (1.0 - 1e-15), false),
    ] {
        let made = CaseC::new(1.0, b_over_s, ColumnGap::Refuse);
        assert_eq!(made.is_err(), refused, "{b_over_s}");
    }
}

/// The printed columns of Case C are not refused, in whatever unit the fence is typed.
#[test]
fn printed_columns_are_never_refused() {
    let options = WallOptions::default().column_gap(ColumnGap::Refuse);
    let site = asce(115.0).with_options(options);
    for (length, height) in [
        ("78 ft", "6 ft"),
        ("936 in", "72 in"),
        ("23774.4 mm", "1828.8 mm"),
        ("60 ft", "6 ft"),
        ("720 in", "1.8288 m"),
    ] {
        let read = |text: &str| parse::<Length>(text).unwrap();
        let wall = WallShape::new(read(length), read(height), ft(0.0), 1.0).unwrap();
        assert!(
            WallWind::new(&site, wall, WallEnds::FREE).is_ok(),
            "{length}"
        );
    }
}

/// A return "48.0 in" high beside a run "4.0 ft" high is as high: 393 lb and not 654 lb.
#[test]
fn a_return_as_high_in_another_unit() {
    let shear = |height: &str| {
        let other = run(ft(16.0), parse(height).unwrap(), ft(8.0));
        let fence = Fence::new(run(ft(48.0), ft(4.0), ft(8.0)))
            .turning(deg(90.0), other)
            .unwrap();
        let wall = fence.ends(0).end;
        (wall != WallEnd::Free, fence)
    };
    for height in [
        "48.0 in",
        "4 ft",
        "4' 0\"",
        "1.2192 m",
        "1219.2 mm",
        "121.92 cm",
        "1219 mm",
    ] {
        assert!(shear(height).0, "{height}");
    }
    assert!(!shear("47.9 in").0);
}

/// One fence in five ways of typing its lengths, with corners, a gate and table edges.
fn typed(lengths: [f64; 6], turn: f64, unit: usize) -> Fence {
    let length = |feet: f64| -> Length {
        let text = match unit {
            0 => format!("{feet} ft"),
            1 => format!("{} in", feet * 12.0),
            2 => format!("{}' {}\"", feet.floor(), (feet - feet.floor()) * 12.0),
            3 => format!("{} m", feet * 0.3048),
            _ => format!("{} mm", feet * 304.8),
        };
        parse(&text).unwrap()
    };
    let [height, gap, first, second, spacing, gate] = lengths;
    let panel = Panel::new(length(height)).unwrap();
    let panel = panel.with_clearance(length(gap)).unwrap();
    let run = |far: f64| FenceRun::new(panel, length(far), length(spacing)).unwrap();
    let gate = Gate::new(length(gate), length(4.0), lb(90.0), Hinges::AtStart).unwrap();
    Fence::new(run(first).with_gate(gate).unwrap())
        .turning(deg(turn), run(second))
        .unwrap()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    /// The resultant of the forces of the posts stands 0.2 B off the middle, exactly.
    #[test]
    fn case_b_of_posts_has_its_resultant(
        length in 4.0..200.0_f64, spacing in 3.0..12.0_f64, height in 3.0..12.0_f64,
        gate in prop::option::of(0.2..0.7_f64),
    ) {
        let mut run = run(ft(length), ft(height), ft(spacing));
        if let Some(at) = gate && length > 20.0 {
            let gate = Gate::new(ft(length * at), ft(4.0), lb(90.0), Hinges::Both).unwrap();
            run = run.with_gate(gate).unwrap();
        }
        let fence = Fence::new(run);
        let wind = FenceWind::new(&every_run(asce(115.0)), &fence).unwrap();
        for (edge, side) in [(Edge::Start, -1.0), (Edge::End, 1.0)] {
            let (mut force, mut moment) = (0.0, 0.0);
            for arm in fence.posts().iter().flat_map(groundline::fence::FencePost::arms) {
                let shear = wind.shear(arm, WindCase::OffCentre(edge)).to(lb);
                force += shear;
                moment += shear * (arm.at.to(ft) - length / 2.0);
            }
            let off = moment / force / length;
            prop_assert!((off - side * 0.2).abs() < 1e-12, "{off}");
        }
    }

    /// A fence typed in ft, in, ft and in, m and mm is the same fence, table edges and
    /// return corners included.
    #[test]
    fn one_fence_in_five_units(
        height in prop::sample::select(vec![4.0, 5.0, 6.0, 7.5, 8.0]),
        gap in prop::sample::select(vec![0.0, 0.25, 0.5]),
        ratio in prop::sample::select(vec![2.0, 4.0, 5.0, 10.0, 13.0, 20.0, 45.0, 7.3]),
        second in prop::sample::select(vec![0.3, 1.0, 2.0, 5.0, 13.0]),
        spacing in prop::sample::select(vec![4.0, 6.0, 8.0]),
        turn in prop::sample::select(vec![10.0, 15.0, 45.0, 60.0, 90.0, 120.0]),
    ) {
        let s: f64 = height - gap;
        let (first, second) = ((s * ratio).max(16.0), (s * second).max(2.0));
        let lengths = [height, gap, first, second, spacing, 6.0];
        let plan = |unit| {
            let site = asce(115.0).with_risk_category(RiskCategory::II);
            FencePlan::new(site, typed(lengths, turn, unit), design())
                .with_planned_depth(inch(48.0))
        };
        let (us, kinds) = (plan(0), 5);
        let us: Vec<_> = us.schedule().unwrap().posts().map(|post| {
            (post.check.required.depth().value, post.check.utilization.ratio(),
             post.cases.len())
        }).collect();
        for unit in 1..kinds {
            let other = plan(unit);
            let other = other.schedule().unwrap();
            prop_assert_eq!(other.posts().count(), us.len(), "unit {}", unit);
            for (post, (depth, used, cases)) in other.posts().zip(&us) {
                let close = |a: f64, b: f64| (a / b - 1.0).abs() < 1e-12;
                prop_assert!(close(post.check.required.depth().value, *depth),
                    "unit {unit} post {}: {} {depth}", post.post.number,
                    post.check.required.depth().value);
                prop_assert!(close(post.check.utilization.ratio(), *used));
                prop_assert_eq!(post.cases.len(), *cases);
            }
        }
    }
}

/// A bend of up to 15° goes on as one wall: no post needs more than the straight fence,
/// but for the post at the bend, which takes the worst of each side at once.
#[test]
fn a_bend_of_a_few_degrees() {
    let depths = |fence: Fence| -> Vec<f64> {
        let plan = FencePlan::new(asce(115.0), fence, design());
        let schedule = plan.schedule().unwrap();
        schedule
            .posts()
            .map(|post| post.check.required.depth().to(inch))
            .collect()
    };
    let straight = depths(Fence::new(run(ft(96.0), ft(6.0), ft(8.0))));
    for cut in [16.0, 48.0, 72.0] {
        for turn in [1.0, 7.0, 15.0] {
            let bent = Fence::new(run(ft(cut), ft(6.0), ft(8.0)))
                .turning(deg(turn), run(ft(96.0 - cut), ft(6.0), ft(8.0)))
                .unwrap();
            let bent = depths(bent);
            assert_eq!(bent.len(), straight.len());
            for (index, (bent, straight)) in bent.iter().zip(&straight).enumerate() {
                let ratio = bent / straight;
                assert!(
                    (ratio - 1.0).abs() < 0.02,
                    "{cut} {turn}° post {index}: {ratio}"
                );
            }
        }
        // Beyond 15° both readings count, and the post at the bend is deeper.
        let bent = Fence::new(run(ft(cut), ft(6.0), ft(8.0)))
            .turning(deg(16.0), run(ft(96.0 - cut), ft(6.0), ft(8.0)))
            .unwrap();
        assert!(
            depths(bent)
                .iter()
                .zip(&straight)
                .any(|(bent, straight)| *bent > straight * 1.1)
        );
    }
    // A lower fence does not carry the wall on: its neighbour has a free end there.
    let lower = Fence::new(run(ft(48.0), ft(6.0), ft(8.0)))
        .turning(deg(5.0), run(ft(48.0), ft(4.0), ft(8.0)))
        .unwrap();
    assert_eq!((lower.straight(0), lower.straight(1)), (0..1, 0..2));
}

/// Risk category and return period: carried by the site, printed by the worksheet; a
/// return period of maps before 2010 is refused.
#[test]
fn risk_category_and_return_period() {
    for (category, edition, years) in [
        (RiskCategory::I, Edition::Asce7_10, 300.0),
        (RiskCategory::II, Edition::Asce7_22, 700.0),
        (RiskCategory::III, Edition::Asce7_16, 1_700.0),
        (RiskCategory::IV, Edition::Asce7_10, 1_700.0),
        (RiskCategory::IV, Edition::Asce7_16, 3_000.0),
        (RiskCategory::IV, Edition::Asce7_22, 3_000.0),
    ] {
        // ASCE 7 wind maps by risk category: from memory.
        assert_eq!(category.return_period(edition).years(), years);
        assert_eq!(category.name().parse::<RiskCategory>().unwrap(), category);
        assert_eq!(category.to_string(), category.name());
    }
    assert!("V".parse::<RiskCategory>().is_err());
    for years in [50.0, 299.0, f64::NAN, 1e6] {
        assert!(ReturnPeriod::of_years(years).is_err(), "{years}");
    }
    let site = asce(115.0);
    assert_eq!(site.speed_basis(), "risk category not stated");
    let stated = site.with_risk_category(RiskCategory::II);
    assert_eq!(
        stated.speed_basis(),
        "risk category II, return period 700 years"
    );
    let own = stated.with_return_period(ReturnPeriod::of_years(1_000.0).unwrap());
    assert_eq!(
        own.speed_basis(),
        "risk category II, return period 1000 years"
    );
    // It changes no number.
    let fence = Fence::new(run(ft(48.0), ft(6.0), ft(8.0)));
    let plan = |site| FencePlan::new(site, fence.clone(), design());
    let (a, b) = (plan(site), plan(own));
    let (a, b) = (a.schedule().unwrap(), b.schedule().unwrap());
    for (a, b) in a.posts().zip(b.posts()) {
        assert_eq!(a.check.actions(), b.check.actions());
    }
    let post = b.post(2).unwrap();
    let text = groundline::report::text(&b.worksheet(&post, UnitSystem::Us)).to_string();
    assert!(
        text.contains("risk category II, return period 1000 years"),
        "{text}"
    );
}

/// V = V_asd/√0.6 (IBC 1609.3.1): 90 mph on a map before 2010 is 116 mph.
#[test]
fn a_speed_of_a_map_before_2010() {
    let v = BasicWindSpeed::from_allowable_stress(mph(90.0)).unwrap();
    assert_relative_eq!(
        v.speed().to(mph),
        90.0 / 0.6_f64.sqrt(),
        max_relative = 1e-12
    );
    assert_eq!(v.allowable_stress_speed(), Some(mph(90.0)));
    assert_eq!(asce(115.0).speed().allowable_stress_speed(), None);
    for speed in [30.0, 240.0, f64::NAN] {
        assert!(BasicWindSpeed::from_allowable_stress(mph(speed)).is_err());
    }
    // Same wind as the strength-level speed.
    let wall = WallShape::new(m(20.0), m(2.0), mm(0.0), 1.0).unwrap();
    let of = |speed| {
        let site = AsceSite::new(Edition::Asce7_16, speed, Exposure::B);
        let wind = WallWind::new(&site, wall, WallEnds::FREE).unwrap();
        wind.uniform_pressure().unwrap()
    };
    let direct = BasicWindSpeed::strength_level(v.speed()).unwrap();
    assert_eq!(of(v), of(direct));
}
