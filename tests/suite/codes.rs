//! What must hold whatever code gave the pressure.

use crate::worksheet::recompute;
use crate::worksheet_whole::closed;
use approx::assert_relative_eq;
use groundline::actions::{CaseSum, FenceWind};
use groundline::caution::Caution;
use groundline::fence::*;
use groundline::limit_state::{AllowableStress, Characteristic, LimitState, Strength};
use groundline::plan::FencePlan;
use groundline::report;
use groundline::step::Worksheet;
use groundline::units::*;
use groundline::wind::*;
use proptest::prelude::*;

fn asce() -> AsceSite {
    let v = BasicWindSpeed::strength_level(mph(140.0)).unwrap();
    let hill = Topography::new(
        Feature::Escarpment,
        ft(80.0),
        ft(130.0),
        ft(90.0),
        Side::Downwind,
    );
    AsceSite::new(Edition::Asce7_22, v, Exposure::D).with_topography(hill.unwrap())
}

fn en() -> EnSite {
    let vb0 = FundamentalSpeed::ten_minute_mean(m_per_s(25.0)).unwrap();
    EnSite::new(vb0, Terrain::Two)
        .with_lattice_coefficient(1.6)
        .unwrap()
}

fn as_nzs() -> AsNzsSite {
    AsNzsSite::new(RegionalSpeed::ultimate(m_per_s(45.0)).unwrap())
        .with_terrain_height_multiplier(0.91)
        .unwrap()
}

fn direct() -> DirectPressure<Characteristic> {
    DirectPressure::new(kpa(0.9), Characteristic)
        .unwrap()
        .acting_at(0.5)
        .unwrap()
}

fn shape(length: f64, top: f64, gap: f64, solidity: f64) -> WallShape {
    WallShape::new(m(length), m(top), m(gap), solidity).unwrap()
}

fn ends(start: Option<f64>, end: Option<f64>) -> WallEnds {
    let end_of = |length: Option<f64>| length.map_or(WallEnd::Free, |l| WallEnd::Return(m(l)));
    WallEnds {
        start: end_of(start),
        end: end_of(end),
    }
}

/// A wall seen from its other end carries the same, mirrored.
fn mirrors<C: WindCode>(code: &C, shape: WallShape, ends: WallEnds, x: f64, y: f64) {
    let turned = WallEnds {
        start: ends.end,
        end: ends.start,
    };
    let (one, other) = (
        WallWind::new(code, shape, ends).unwrap(),
        WallWind::new(code, shape, turned).unwrap(),
    );
    let length = shape.length();
    for case in WindCase::ALL {
        let here = one.force(case, m(x), m(y));
        let there = other.force(case.mirrored(), length - m(y), length - m(x));
        let scale = one.force(case, m(0.0), length).abs().value.max(1e-9);
        assert!((here - there).abs().value <= 1e-9 * scale, "{case:?}");
    }
}

/// Pieces add up, strips tile the wall and hold the same force, zones fall
/// away from a free end.
fn adds_up<C: WindCode>(code: &C, shape: WallShape, ends: WallEnds, x: f64) {
    let wind = WallWind::new(code, shape, ends).unwrap();
    let length = shape.length();
    let mut any = false;
    for case in WindCase::ALL {
        let whole = wind.force(case, m(0.0), length);
        assert_eq!(wind.has(case), wind.strips(case).next().is_some());
        if !wind.has(case) {
            assert_eq!(whole.value, 0.0);
            continue;
        }
        any = true;
        assert!(whole.value > 0.0);
        let parts = wind.force(case, m(0.0), m(x)) + wind.force(case, m(x), length);
        assert_relative_eq!(parts.value, whole.value, max_relative = 1e-9);
        let strips: Vec<_> = wind.strips(case).collect();
        let mut sum = 0.0;
        let mut covered = 0.0;
        for strip in &strips {
            let mean = 0.5 * (strip.pressure + strip.pressure_at_to);
            let width = strip.to - strip.from;
            assert!(width.value >= -1e-12);
            covered += width.value;
            sum += (mean * width * shape.panel_height()).value;
            assert!(strip.coefficient > 0.0);
        }
        assert_relative_eq!(covered, length.value, max_relative = 1e-9);
        assert_relative_eq!(sum, whole.value, max_relative = 1e-9);
        // Nothing falls on what is not there.
        assert_eq!(wind.force(case, length, length * 2.0).value, 0.0);
        if let WindCase::Zones(edge) | WindCase::Along(edge) = case {
            let end = match edge {
                Edge::Start => ends.start,
                Edge::End => ends.end,
            };
            if end == WallEnd::Free {
                for pair in strips.windows(2) {
                    assert!(pair[1].pressure <= pair[0].pressure * (1.0 + 1e-12));
                }
            }
        }
    }
    assert!(any);
    let (case, worst) = wind.worst(m(0.0), m(x));
    assert!(wind.has(case));
    for other in WindCase::ALL {
        assert!(wind.force(other, m(0.0), m(x)) <= worst);
    }
    assert!(wind.resultant_height() >= shape.mid_height());
    assert!(wind.resultant_height() <= shape.top());
}

fn end() -> impl Strategy<Value = Option<f64>> {
    prop_oneof![Just(None), (0.0..8.0_f64).prop_map(Some)]
}

proptest! {
    #[test]
    fn walls_of_every_code(
        length in 0.4..120.0_f64, top in 0.8..4.0_f64, gap in 0.0..0.6_f64,
        solidity in 0.05..1.0_f64, start in end(), finish in end(),
        x in 0.0..1.0_f64, y in 0.0..1.0_f64, shelter in 0.3..1.0_f64,
    ) {
        let shape = shape(length, top, gap, solidity);
        let ends = ends(start, finish);
        let (x, y) = (length * x.min(y), length * x.max(y));
        let sheltered = en().with_shelter_factor(shelter).unwrap();
        mirrors(&asce(), shape, ends, x, y);
        mirrors(&en(), shape, ends, x, y);
        mirrors(&sheltered, shape, ends, x, y);
        mirrors(&as_nzs(), shape, ends, x, y);
        mirrors(&direct(), shape, ends, x, y);
        adds_up(&asce(), shape, ends, x);
        adds_up(&en(), shape, ends, x);
        adds_up(&as_nzs(), shape, ends, x);
        adds_up(&direct(), shape, ends, x);
    }

    /// A return corner never increases: any piece of a wall to ASCE 7 and
    /// AS/NZS 1170.2; zone A to EN 1991-1-4, and all zones from l = 5 h. (Its
    /// table has more in zones B and C of shorter walls with a return.)
    #[test]
    fn a_return_never_increases(
        length in 0.4..120.0_f64, top in 0.8..4.0_f64, lr in 0.0..12.0_f64,
        more in 0.0..6.0_f64, x in 0.0..1.0_f64, y in 0.0..1.0_f64, solidity in 0.8..1.0_f64,
    ) {
        let shape = shape(length, top, 0.0, solidity);
        let (x, y) = (m(length * x.min(y)), m(length * x.max(y)));
        let worst = |ends: WallEnds| (
            WallWind::new(&asce(), shape, ends).unwrap().worst(x, y).1,
            WallWind::new(&as_nzs(), shape, ends).unwrap().worst(x, y).1,
            WallWind::new(&en(), shape, ends).unwrap().worst(x, y).1,
        );
        let (free, short, long) = (
            worst(ends(None, None)),
            worst(ends(Some(lr), None)),
            worst(ends(Some(lr + more), None)),
        );
        let hair = 1.0 + 1e-12;
        prop_assert!(short.0 <= free.0 * hair && long.0 <= short.0 * hair);
        prop_assert!(short.1 <= free.1 * hair && long.1 <= short.1 * hair);
        if length >= 5.0 * top {
            prop_assert!(short.2 <= free.2 * hair && long.2 <= short.2 * hair);
        }
        let zone_a = |returns| cp_net(length / top, returns, solidity).unwrap()[0];
        prop_assert!(zone_a(Some(lr / top)) <= zone_a(None) * hair);
        prop_assert!(zone_a(Some((lr + more) / top)) <= zone_a(Some(lr / top)) * hair);
    }

    /// Continuous at the knots of every interpolation.
    #[test]
    fn continuous_at_the_knots(s_over_h in 0.1..1.0_f64, b in 0.05..60.0_f64) {
        let near = |a: f64, b: f64| (a - b).abs() < 1e-6;
        let hair = 1e-9;
        for knot in [0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 4.0, 5.0, 10.0, 20.0, 30.0, 45.0] {
            let cf = |b| cf_cases_a_b(s_over_h, b).unwrap();
            prop_assert!(near(cf(knot - hair), cf(knot + hair)));
        }
        for knot in [0.16, 0.2, 0.3, 0.5, 0.7, 0.9, 1.0 - hair] {
            let cf = |s| cf_cases_a_b(s, b).unwrap();
            prop_assert!(near(cf(knot - hair), cf(knot + hair)));
        }
        let c = |s, b| CaseC::new(s, b, ColumnGap::Interpolate).unwrap().unwrap();
        for knot in [3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 9.0, 10.0, 13.0, 45.0] {
            let (low, high) = (c(s_over_h, knot - hair), c(s_over_h, knot + hair));
            for (a, b) in low.regions().zip(high.regions()) {
                prop_assert!(near(a.cf, b.cf));
            }
        }
        for (a, b) in c(0.8 - hair, 20.0).regions().zip(c(0.8 + hair, 20.0).regions()) {
            prop_assert!(near(a.cf, b.cf));
        }
        for knot in [0.3, 1.0, 2.0] {
            let factor = |x| return_factor(x, ShortReturn::Interpolate).unwrap();
            prop_assert!(near(factor(knot - hair), factor(knot + hair)));
        }
        for knot in [3.0, 5.0, 10.0] {
            let cp = |l| cp_net(l, Some(0.3), 0.93).unwrap();
            for (a, b) in cp(knot - hair).into_iter().zip(cp(knot + hair)) {
                prop_assert!(near(a, b));
            }
        }
        let cp = |lr| cp_net(b, Some(lr), 0.93).unwrap();
        for (a, b) in cp(1.0 - hair).into_iter().zip(cp(1.0 + hair)) {
            prop_assert!(near(a, b));
        }
        // b/c = 5 of AS/NZS 1170.2: log 5 is 0.699, so the formulas meet
        // within 0.001.
        let cpn = |b| Hoarding::new(b, s_over_h.max(0.2)).unwrap().normal();
        prop_assert!((cpn(5.0) - cpn(5.0 + 1e-6)).abs() < 1e-3);
    }
}

/// A fence with corner, bend, gate, lattice top and open side.
fn fence() -> Fence {
    let lattice = Infill::lattice(mm(40.0), mm(60.0)).unwrap();
    let topped = Panel::new(m(2.2))
        .unwrap()
        .with_clearance(m(0.05))
        .unwrap()
        .with_topping(m(0.4), lattice)
        .unwrap()
        .with_weight(psf(4.0))
        .unwrap();
    let mesh = Infill::woven_mesh(mm(4.0), mm(50.0)).unwrap();
    let link = Panel::new(m(1.8)).unwrap().with_infill(mesh);
    let pickets = Infill::pickets(mm(90.0), mm(42.0)).unwrap();
    let picket = Panel::new(m(1.2)).unwrap().with_infill(pickets);
    let gate = Gate::new(m(5.0), m(1.2), newton(400.0), Hinges::AtStart).unwrap();
    let front = FenceRun::new(topped, m(30.0), m(2.5))
        .unwrap()
        .with_gate(gate)
        .unwrap();
    Fence::new(front)
        .turning(deg(90.0), FenceRun::new(topped, m(12.0), m(2.5)).unwrap())
        .unwrap()
        .turning(deg(75.0), FenceRun::new(link, m(20.0), m(3.0)).unwrap())
        .unwrap()
        .turning(deg(20.0), FenceRun::new(picket, m(9.0), m(2.0)).unwrap())
        .unwrap()
}

/// Every post in every case, line by line in both unit systems; the pressure
/// picture with its sums; the mirrored fence.
fn whole<C: WindCode>(code: &C) {
    let fence = fence();
    let wind = FenceWind::new(code, &fence).unwrap();
    let mirrored = fence.mirrored();
    let other_way = FenceWind::new(code, &mirrored).unwrap();
    let count = fence.posts().len();
    for (i, post) in fence.posts().iter().enumerate() {
        let cases = wind.cases(post);
        let turned = other_way.cases(&mirrored.posts()[count - 1 - i]);
        assert_eq!(cases.len(), turned.len());
        let most = |cases: &[groundline::actions::LoadCase<C::Level>]| {
            let moments = cases.iter().map(|case| case.wind.moment().value);
            moments.fold(0.0, f64::max)
        };
        assert_relative_eq!(most(&cases), most(&turned), max_relative = 1e-9);
        for case in cases.iter() {
            assert!(case.wind.moment().value > 0.0);
            assert_eq!(case.wind.level(), code.level());
            for system in [UnitSystem::Us, UnitSystem::Si] {
                let mut sheet = Worksheet::new("case", system);
                wind.write(post, case, &mut sheet);
                closed(&sheet);
                for step in sheet.steps() {
                    recompute(step, system);
                }
                let text = report::text(&sheet).to_string();
                assert!(text.contains(code.level().name()));
                assert!(!text.contains("NaN"));
            }
        }
    }
    for run in 0..fence.runs().len() {
        let picture = wind.picture(run).unwrap();
        assert!(!picture.strips.is_empty());
        assert!(picture.sums.iter().all(CaseSum::agrees));
        assert!(
            picture
                .strips
                .iter()
                .all(|strip| !strip.clause.document.is_empty())
        );
        for sum in &picture.sums {
            let wall = wind.runs()[run].alone().unwrap();
            let length = fence.runs()[run].length();
            assert_relative_eq!(
                sum.on_strips.value,
                wall.force(sum.case, m(0.0), length).value,
                max_relative = 1e-9
            );
        }
    }
    assert!(wind.picture(9).is_none());
    for caution in [
        Caution::NoSubstitute,
        Caution::RetainedSoil,
        Caution::Barrier,
    ] {
        assert!(wind.cautions().contains(caution));
    }
}

#[test]
fn a_fence_under_every_code() {
    whole(&asce());
    whole(&AsceSite::new(
        Edition::Asce7_10,
        BasicWindSpeed::strength_level(mph(105.0)).unwrap(),
        Exposure::B,
    ));
    whole(&en());
    whole(
        &en()
            .with_shelter_factor(0.7)
            .unwrap()
            .with_structural_factor(0.95)
            .unwrap(),
    );
    whole(&as_nzs());
    whole(&as_nzs().with_off_centre_zones(OffCentreZones::ZonesOnly));
    whole(&direct());
    whole(
        &DirectPressure::new(psf(22.0), Strength)
            .unwrap()
            .acting_at(0.5)
            .unwrap()
            .acting_at(0.55)
            .unwrap(),
    );
}

/// An open fence says that its openings may close; a solid one does not.
#[test]
fn open_fences_are_cautioned() {
    let fence = |panel: Panel| Fence::new(FenceRun::new(panel, m(20.0), m(2.5)).unwrap());
    let solid = fence(Panel::new(m(1.8)).unwrap());
    let open = fence(Panel::new(m(1.8)).unwrap().with_solidity(0.4).unwrap());
    let caution = |fence: &Fence| {
        let found = [
            FenceWind::new(&asce(), fence).unwrap().cautions(),
            FenceWind::new(&en(), fence).unwrap().cautions(),
            FenceWind::new(&as_nzs(), fence).unwrap().cautions(),
        ];
        found.map(|cautions| cautions.contains(Caution::OpenFence))
    };
    assert_eq!(caution(&solid), [false; 3]);
    assert_eq!(caution(&open), [true; 3]);
}

/// A number at hand goes the same way to a checked post, at either level; the
/// figures agree with the same pressure told as strength level.
#[test]
fn a_given_pressure_reaches_the_check() {
    let design = crate::samples::in_concrete(inch(12.0));
    let fence = Fence::new(FenceRun::new(Panel::new(ft(6.0)).unwrap(), ft(40.0), ft(8.0)).unwrap());
    let strength = DirectPressure::new(psf(35.0), Strength)
        .unwrap()
        .acting_at(0.5)
        .unwrap();
    let allowable = DirectPressure::new(psf(21.0), AllowableStress::Basic)
        .unwrap()
        .acting_at(0.5)
        .unwrap();
    let first = FencePlan::new(strength, fence.clone(), design).with_planned_depth(ft(3.0));
    let other = FencePlan::new(allowable, fence, design).with_planned_depth(ft(3.0));
    let (first, other) = (first.schedule().unwrap(), other.schedule().unwrap());
    for (a, b) in first.posts().zip(other.posts()) {
        assert_relative_eq!(
            a.check.utilization.ratio(),
            b.check.utilization.ratio(),
            max_relative = 1e-12
        );
        assert_relative_eq!(
            a.check.required.depth().value,
            b.check.required.depth().value,
            max_relative = 1e-12
        );
        assert!(a.cautions().contains(Caution::GivenPressure));
        for system in [UnitSystem::Us, UnitSystem::Si] {
            for sheet in [first.worksheet(&a, system), other.worksheet(&b, system)] {
                closed(&sheet);
                for step in sheet.steps() {
                    recompute(step, system);
                }
            }
        }
    }
    // By hand: an inner post, 21 psf on 6 ft × 8 ft at 3 ft.
    let inner = other.post(3).unwrap();
    assert_relative_eq!(
        inner.check.actions().shear().to(lb),
        1008.0,
        max_relative = 1e-12
    );
    assert_relative_eq!(
        inner.check.actions().moment().to(lb_ft),
        3024.0,
        max_relative = 1e-12
    );
}

/// Own combination factors reach the check and its worksheet.
#[test]
fn own_combination_factors_reach_the_check() {
    use groundline::combination::Combination;
    let own = Combination::of(AllowableStress::Basic)
        .with_factors(0.7, 1.1, 0.6)
        .unwrap();
    let design = crate::samples::in_concrete(inch(12.0)).with_combination(own);
    let gate = Gate::new(ft(8.0), ft(4.0), lb(120.0), Hinges::AtStart).unwrap();
    let run = FenceRun::new(
        Panel::new(ft(6.0)).unwrap().with_weight(psf(5.0)).unwrap(),
        ft(40.0),
        ft(8.0),
    )
    .unwrap();
    let fence = Fence::new(run.with_gate(gate).unwrap());
    let pressure = DirectPressure::new(psf(30.0), Strength)
        .unwrap()
        .acting_at(0.5)
        .unwrap();
    let plan = FencePlan::new(pressure, fence, design);
    let schedule = plan.schedule().unwrap();
    for post in schedule.posts() {
        let case = post.check.required_case.unwrap();
        let actions = post.check.actions();
        assert_relative_eq!(
            actions.shear().value,
            0.7 * case.wind.shear().value,
            max_relative = 1e-12
        );
        assert_relative_eq!(
            actions.axial().value,
            1.1 * case.dead.axial().value,
            max_relative = 1e-12
        );
        let sheet = schedule.worksheet(&post, UnitSystem::Us);
        closed(&sheet);
        for step in sheet.steps() {
            recompute(step, UnitSystem::Us);
        }
        let line = sheet.steps().find(|step| step.symbol == "fw").unwrap();
        assert_eq!(line.citation.unwrap().id, "given");
    }
}

/// The proportions of a wall, its documents, and whose clause a case is of.
#[test]
fn proportions_documents_and_clauses() {
    let wall = shape(24.0, 3.0, 0.6, 1.0);
    assert_relative_eq!(wall.b_over_s(), 10.0, max_relative = 1e-12);
    assert_relative_eq!(wall.s_over_h(), 0.8, max_relative = 1e-12);
    for (document, named) in [
        (asce().document(), "ASCE"),
        (en().document(), "EN 1991"),
        (as_nzs().document(), "AS/NZS"),
    ] {
        assert!(document.contains(named), "{document}");
    }
    let clause = |length: f64, case: WindCase| {
        let wall = WallWind::new(&as_nzs(), shape(length, 2.0, 0.0, 1.0), WallEnds::FREE);
        let strips = wall.unwrap();
        let strip = strips.strips(case).next();
        strip.map(|strip| strip.clause)
    };
    let off = WindCase::OffCentre(Edge::Start);
    // Long: beside the zones; short: in their place.
    assert_eq!(
        clause(40.0, off),
        Some(&groundline::source::ASNZS_OFF_CENTRE_ZONES)
    );
    assert_eq!(clause(4.0, off), Some(&groundline::source::LINEAR_SPREAD));
}
