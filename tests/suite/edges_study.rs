//! Questions about plans at their edges: kinks, refusals of both sides, posts used alike,
//! strides of a search, methods side by side.

use crate::samples::pipe;
use groundline::actions::GroundlineActions;
use groundline::backwards::*;
use groundline::caution::{Caution, Cautions};
use groundline::check::PostDesign;
use groundline::fence::*;
use groundline::foundation::Hole;
use groundline::ground::*;
use groundline::lateral::NeededDepth;
use groundline::limit_state::AllowableStress;
use groundline::plan::FencePlan;
use groundline::profile::*;
use groundline::sensitivity::*;
use groundline::side_by_side::SideBySide;
use groundline::units::*;
use groundline::wind::*;
use std::collections::BTreeSet;

type Direct = DirectPressure<AllowableStress>;

fn design(diameter: f64, wall: f64, hole: f64) -> PostDesign {
    let ground = Ground::presumptive(SoilClass::Class4);
    let hole = Hole::round(inch(hole)).unwrap();
    PostDesign::in_concrete(ground, pipe(diameter, wall).into(), hole).unwrap()
}

#[expect(
    clippy::large_types_passed_by_value,
    reason = "a test says what it asks for in one line"
)]
fn plan_of(design: PostDesign, pressure: f64, depth: f64) -> FencePlan<Direct> {
    let panel = Panel::new(ft(6.0)).unwrap();
    let fence = Fence::new(FenceRun::new(panel, ft(96.0), ft(8.0)).unwrap());
    let wind = DirectPressure::new(psf(pressure), AllowableStress::Basic)
        .unwrap()
        .acting_at(0.5)
        .unwrap();
    FencePlan::new(wind, fence, design).with_planned_depth(ft(depth))
}

fn worst(plan: &FencePlan<Direct>) -> f64 {
    let schedule = plan.schedule().unwrap();
    schedule
        .posts()
        .map(|post| post.utilization().ratio())
        .fold(0.0, f64::max)
}

/// A slope is told side by side where the sides differ by more than 0.02 + 10 h, as a
/// share of the greater where that is above 1. A planned depth little more than the top
/// that does not count gives curvature at will: u goes nearly by 1/(d − t).
#[test]
fn a_kink_is_what_the_docs_say() {
    for step in [1e-3, 3e-3, 1e-2] {
        let limit = 0.02 + 10.0 * step;
        let band = Band::new(0.1, step).unwrap();
        let of = |top: f64| {
            let plan = plan_of(design(4.0, 0.3, 12.0), 1.0, 4.0);
            let design = *plan.design();
            let ground = design.ground().discounting_top(ft(top)).unwrap();
            let plan = FencePlan::new(*plan.site(), plan.fence().clone(), design.in_ground(ground))
                .with_planned_depth(ft(4.0));
            let at = |factor: f64| {
                let varied = vary(&plan, Input::PlannedDepth, factor).unwrap();
                worst(&varied).ln()
            };
            let run = (1.0 + step).ln();
            let here = worst(&plan).ln();
            let below = (here - at(1.0 / (1.0 + step))) / run;
            let above = (at(1.0 + step) - here) / run;
            let scale = below.abs().max(above.abs()).max(1.0);
            let apart = (above - below).abs() / scale;
            // Beyond all capacity there is no slope.
            let apart = if apart > 0.0 { apart } else { f64::INFINITY };
            (plan, apart, below, above)
        };
        // The share by which the sides differ grows with the top.
        for aim in [0.97, 1.03] {
            let (mut low, mut high) = (0.1, 4.0 / (1.0 + step) - 1e-3);
            for _ in 0..60 {
                let middle = 0.5 * (low + high);
                if of(middle).1 < aim * limit {
                    low = middle;
                } else {
                    high = middle;
                }
            }
            let (plan, apart, below, above) = of(low);
            assert!((apart / (aim * limit) - 1.0).abs() < 1e-3, "{step} {apart}");
            let found = sensitivity(&plan, band).unwrap();
            let told = found.effect(Input::PlannedDepth).unwrap().elasticity;
            match told {
                Elasticity::Central(value) => {
                    assert!(aim < 1.0, "{step}: {told:?}");
                    assert!((value / (0.5 * (below + above)) - 1.0).abs() < 1e-6);
                }
                Elasticity::OneSided {
                    below: Some(b),
                    above: Some(a),
                    why: OneSided::Kink,
                } => {
                    assert!(aim > 1.0, "{step}: {told:?}");
                    assert!((b / below - 1.0).abs() < 1e-6 && (a / above - 1.0).abs() < 1e-6);
                }
                other => panic!("{step} {aim}: {other:?}"),
            }
        }
    }
}

/// A pipe that can be neither thinner, for its wall, nor thicker, for its hole.
#[test]
fn both_sides_refused() {
    let plan = plan_of(design(10.0, 4.85, 12.2), 10.0, 5.0);
    for (step, none) in [(0.05, true), (0.001, false)] {
        let found = sensitivity(&plan, Band::new(0.1, step).unwrap()).unwrap();
        let size = found.effect(Input::PostSize).unwrap();
        assert!(size.low.is_err() && size.high.is_err());
        assert_eq!(size.elasticity == Elasticity::Undefined, none, "{size:?}");
        assert_eq!(size.depth_elasticity == Elasticity::Undefined, none);
    }
    assert_eq!(Elasticity::Undefined.influence(), None);
    assert_eq!(Elasticity::Undefined.value(), None);
    assert_eq!(Elasticity::Undefined.to_string(), "none");
    let words = [
        OneSided::GoverningChanges,
        OneSided::Kink,
        OneSided::Refused,
    ];
    let words: BTreeSet<_> = words.iter().map(|why| why.name()).collect();
    assert_eq!(words.len(), 3);
}

/// Rounding apart, the worst post is named wherever it stands; of equals the first.
#[test]
fn the_worst_post_by_a_hair() {
    for (shallower, named) in [(0.0, 2), (1e-6, 7), (1e-5, 7), (-1e-6, 2)] {
        let plan = plan_of(design(4.0, 0.3, 12.0), 10.0, 4.0);
        let own = *plan.design();
        let plan = plan.with_post(7, own, Some(ft(4.0 * (1.0 - shallower))));
        let found = sensitivity(&plan, Band::default()).unwrap();
        assert_eq!(found.base.post, named, "{shallower}");
    }
}

/// The deepest post is named beside the worst one, whichever stands first.
#[test]
fn the_deepest_post_is_not_the_worst() {
    for (deepest, worst) in [(4, 8), (8, 4)] {
        let plan = plan_of(design(4.0, 0.3, 12.0), 10.0, 6.0);
        let own = *plan.design();
        // A slighter hole takes more depth, and has it.
        let plan = plan.with_post(deepest, design(4.0, 0.3, 9.0), Some(ft(12.0)));
        let plan = plan.with_post(worst, own, Some(ft(3.0)));
        let found = sensitivity(&plan, Band::default()).unwrap();
        assert_eq!((found.base.depth.post, found.base.post), (deepest, worst));
        let required = plan.schedule().unwrap().post(deepest).unwrap();
        assert_eq!(found.base.depth.depth, required.check.required.depth());
    }
}

/// An input that a plan does not have is refused with what is missing.
#[test]
fn inputs_that_are_not_there() {
    let plan = plan_of(design(4.0, 0.3, 12.0), 10.0, 4.0);
    let found = sensitivity(&plan, Band::default()).unwrap();
    for (input, word) in [
        (Input::WindSpeed, "speed"),
        (Input::Clearance, "gap"),
        (Input::PanelWeight, "weight"),
        (Input::DiscountedTop, "top layer"),
    ] {
        let refused = vary(&plan, input, 1.1).unwrap_err();
        assert_eq!(refused.field(), input.name());
        assert!(refused.to_string().contains(word), "{refused}");
        let told = found.absent.iter().find(|(absent, _)| *absent == input);
        assert_eq!(told.unwrap().1, refused);
    }
}

/// A search tries no more values than it may, however its steps divide.
#[test]
fn strides_are_rounded_up() {
    let plan = plan_of(design(4.0, 0.226, 12.0), 10.0, 6.0);
    for (steps, trials) in [(250.0, 100), (199.0, 100), (101.0, 100), (7.0, 4), (5.0, 3)] {
        // All of it passes: the scan alone, its end, and the check of the answer.
        let search = Search::new(psf(0.1), psf(0.1 + 0.001 * steps), psf(0.001)).unwrap();
        let search = search.trying(trials).unwrap();
        let solution = greatest_wind(&plan, search).unwrap();
        assert!(matches!(solution.answer, Answer::PassesThroughout(_)));
        assert!(
            solution.evaluations <= trials + 2,
            "{steps}: {}",
            solution.evaluations
        );
        let end = solution.value().unwrap() / search.most();
        assert!((end - number(1.0)).abs() < number(1e-12));
    }
}

/// What a search may be, on both sides of each limit.
#[test]
fn limits_of_a_search() {
    let search = |least: f64, most: f64, step: f64| Search::new(ft(least), ft(most), ft(step));
    assert!(search(0.0, 1.0, 0.1).is_ok());
    assert!(search(-1e-9, 1.0, 0.1).is_err());
    assert!(search(1.0, 1.0, 0.1).is_err() && search(1.1, 1.0, 0.1).is_err());
    assert!(search(1.0, 2.0, 1.0).is_ok() && search(1.0, 2.0, 1.000_001).is_err());
    assert!(search(0.0, 1.0, 1.01e-6).is_ok() && search(0.0, 1.0, 0.99e-6).is_err());
    assert!(search(0.0, 1.0, 0.0).is_err() && search(0.0, 1.0, -0.1).is_err());
    for bad in [f64::NAN, f64::INFINITY] {
        assert!(search(bad, 1.0, 0.1).is_err());
        assert!(search(0.0, bad, 0.1).is_err());
        assert!(search(0.0, 1.0, bad).is_err());
    }
    let usual = search(0.0, 1.0, 0.1).unwrap();
    assert_eq!((usual.steps(), usual.trials()), (10, 100));
    assert!(usual.trying(0).is_err() && usual.trying(1).is_ok());
    assert!(usual.trying(5_000).is_ok() && usual.trying(5_001).is_err());
    // The usual ranges, and that they go as finely as they say.
    let speeds = Search::speeds();
    assert_eq!((speeds.least(), speeds.most()), (mph(40.0), mph(300.0)));
    assert_eq!(speeds.steps(), 2_600);
    assert_eq!(Search::pressures().steps(), 9_999);
    assert_eq!(Search::spacings().steps(), 468);
    assert_eq!(Search::heights().steps(), 468);
    assert_eq!(Search::holes().steps(), 234);
    assert_eq!(Search::solidities().steps(), 99);
}

/// The cautions of an answer are those of its plan, and its names are of the question.
#[test]
fn answers_carry_the_cautions_of_their_plan() {
    let plan = plan_of(design(4.0, 0.226, 12.0), 10.0, 4.0);
    let solution = greatest_wind(&plan, Search::pressures()).unwrap();
    let at = solution.plan().schedule().unwrap();
    assert_eq!(solution.cautions(), at.cautions());
    assert_ne!(solution.cautions(), Cautions::default());
    let post = greatest_wind_of_post(&plan, 3, Search::pressures()).unwrap();
    assert_eq!(post.post, Some(3));
    assert_eq!(post.governing_post().post.number, 3);
    let each = greatest_wind_of_each(&plan, Search::pressures());
    assert_eq!(each.map(Result::unwrap).count(), 13);
    let spacing = greatest_spacing(&plan, Search::spacings()).unwrap();
    let height = greatest_height(&plan, Search::heights()).unwrap();
    let hole = smallest_hole(&plan, ft(4.0), Search::holes()).unwrap();
    for (name, word) in [
        (solution.question.name(), "pressure"),
        (spacing.question.name(), "spacing"),
        (height.question.name(), "height"),
        (hole.question.name(), "hole"),
    ] {
        assert!(name.contains(word), "{name}");
    }
    for (found, what) in [
        (
            solution.checked_at().to(psf),
            solution.value().map(|p| p.to(psf)),
        ),
        (
            spacing.checked_at().to(ft),
            spacing.value().map(|s| s.to(ft)),
        ),
        (height.checked_at().to(ft), height.value().map(|h| h.to(ft))),
        (hole.checked_at().to(ft), hole.value().map(|h| h.to(ft))),
    ] {
        assert_eq!(Some(found), what);
    }
}

/// What each distribution says of itself, by its moments.
#[test]
fn distributions_invert() {
    let all = [
        (Distribution::normal(1.1, 0.2), "normal", 1.1, 0.2),
        (Distribution::lognormal(1.1, 0.2), "lognormal", 1.1, 0.2),
        (Distribution::gumbel(1.1, 0.2), "Gumbel", 1.1, 0.2),
        (
            Distribution::uniform(0.8, 1.4),
            "uniform",
            1.1,
            0.6 / 12.0_f64.sqrt(),
        ),
    ];
    for (made, name, mean, deviation) in all {
        let made = made.unwrap();
        assert_eq!(made.name(), name);
        assert!((made.mean() - mean).abs() < 1e-12, "{name}");
        assert!((made.deviation() - deviation).abs() < 1e-12, "{name}");
        // The mean and the variance again, as the mean over equal shares.
        let n = 20_000;
        let (mut sum, mut square) = (0.0, 0.0);
        for index in 0..n {
            let share = (f64::from(index) + 0.5) / f64::from(n);
            let value = made.quantile(share).unwrap();
            assert!((made.share_below(value) - share).abs() < 1e-9, "{name}");
            sum += value;
            square += value * value;
        }
        let found = sum / f64::from(n);
        let spread = (square / f64::from(n) - found * found).sqrt();
        assert!((found - mean).abs() < 1e-4, "{name} {found}");
        assert!((spread - deviation).abs() < 1e-3, "{name} {spread}");
    }
    let log = Distribution::lognormal(1.1, 0.2).unwrap();
    assert_eq!((log.share_below(0.0), log.share_below(-1.0)), (0.0, 0.0));
    let flat = Distribution::uniform(0.8, 1.4).unwrap();
    assert_eq!((flat.share_below(0.7), flat.share_below(1.5)), (0.0, 1.0));
    for share in [0.0, 0.9e-12, 1.0, f64::NAN] {
        assert!(flat.quantile(share).is_err());
    }
    assert!(flat.quantile(1.1e-12).is_ok());
    for mean in [0.009_9, 100.1, f64::NAN] {
        assert!(Distribution::normal(mean, 0.1).is_err());
    }
    for (deviation, made) in [(0.9e-6, false), (1.1e-6, true), (2.0, true), (2.001, false)] {
        assert_eq!(Distribution::normal(1.0, deviation).is_ok(), made);
        assert_eq!(Distribution::gumbel(1.0, deviation).is_ok(), made);
        assert_eq!(Distribution::lognormal(1.0, deviation).is_ok(), made);
        // A share of the mean.
        assert_eq!(Distribution::normal(50.0, 50.0 * deviation).is_ok(), made);
    }
    for (least, most, made) in [
        (1e-3, 1.0, true),
        (0.9e-3, 1.0, false),
        (1.0, 1.0, false),
        (1.0, 1e3, true),
        (1.0, 1.001e3, false),
        (100.0, 200.0, true),
        (100.1, 200.0, false),
    ] {
        assert_eq!(
            Distribution::uniform(least, most).is_ok(),
            made,
            "{least} {most}"
        );
    }
}

/// The band and the step, on both sides of their limits.
#[test]
fn limits_of_a_band() {
    for (share, step, made) in [
        (0.001, 0.001, true),
        (0.000_99, 0.000_5, false),
        (0.5, 0.05, true),
        (0.501, 0.05, false),
        (0.5, 0.050_1, false),
        (0.02, 0.02, true),
        (0.02, 0.020_1, false),
        (0.1, 1e-5, true),
        (0.1, 0.99e-5, false),
    ] {
        assert_eq!(Band::new(share, step).is_ok(), made, "{share} {step}");
    }
    assert_eq!(
        (Band::default().share(), Band::default().step()),
        (0.1, 0.001)
    );
}

fn side_by_side(soil: Soil, shear: f64, planned: f64, thickness: f64) -> SideBySide {
    let load = GroundlineActions::new(kn(shear), kn_m(shear), kn(0.0), AllowableStress::Basic);
    let profile = Profile::new(vec![Layer::new(m(thickness), soil).unwrap()]).unwrap();
    SideBySide::new(profile, m(0.3), load.unwrap(), m(planned), 1.5).unwrap()
}

/// The length class is that of the published slenderness: with L/T in growing ground,
/// T = (EI/nh)^(1/5), short below 2 and long above 4.
#[test]
fn length_classes_by_hand() {
    let nh = 6.0e6;
    let soil = Soil::new(kn_per_cu_m(18.0))
        .and_then(|soil| soil.with_friction_angle(deg(32.0)))
        .and_then(|soil| soil.with_stiffness(Stiffness::growing(kn_per_cu_m(6_000.0)).unwrap()))
        .unwrap();
    for (slenderness, flexible) in [(1.9, false), (2.1, true), (3.9, true), (4.1, true)] {
        let relative: f64 = 1.5 / slenderness;
        let rigidity = n_sq_m(nh * relative.powi(5));
        let all = side_by_side(soil, 1.0, 1.5, 8.0).with_rigidity(rigidity);
        for verdict in all.verdicts() {
            assert_eq!(verdict.too_flexible, Some(flexible), "{slenderness}");
        }
        let plain = side_by_side(soil, 1.0, 1.5, 8.0);
        assert!(
            plain
                .verdicts()
                .iter()
                .all(|verdict| verdict.too_flexible.is_none())
        );
    }
}

/// A depth within the ground is told, one below it is not made up; at the depth needed
/// the method is used in full.
#[test]
fn needed_depths_use_the_ground_in_full() {
    let sand = Soil::new(kn_per_cu_m(18.0)).unwrap();
    let sand = sand.with_friction_angle(deg(32.0)).unwrap();
    let clay = Soil::new(kn_per_cu_m(18.0)).unwrap();
    let clay = clay.with_undrained_strength(kpa(40.0)).unwrap();
    let mut told = 0;
    for soil in [sand, clay] {
        for planned in [0.5, 1.0, 2.0] {
            let all = side_by_side(soil, 1.5, planned, 6.0);
            for verdict in all.verdicts() {
                let Ok(NeededDepth::Depth(depth)) = verdict.needed else {
                    continue;
                };
                let there = side_by_side(soil, 1.5, depth.to(m), 6.0);
                let there = there.verdicts();
                let same = there.iter().find(|v| v.method == verdict.method).unwrap();
                let used = same.utilization.unwrap().ratio();
                assert!((used - 1.0).abs() < 1e-6, "{}: {used}", verdict.method);
                told += 1;
            }
            // Planned deeper it is used less.
            let passes = all.verdicts();
            for verdict in &passes {
                if let (Ok(NeededDepth::Depth(depth)), Some(used)) =
                    (verdict.needed, verdict.utilization)
                {
                    assert_eq!(depth < m(planned), used.ratio() < 1.0, "{}", verdict.method);
                }
            }
        }
        // Too much load for the ground there is.
        let all = side_by_side(soil, 60.0, 0.9, 1.0);
        for verdict in all.verdicts() {
            match verdict.needed {
                Ok(NeededDepth::MoreThan(depth)) => {
                    assert_eq!(depth, m(1.0), "{}", verdict.method);
                    told += 1;
                }
                Ok(NeededDepth::Depth(depth)) => assert!(depth <= m(1.0)),
                _ => {}
            }
        }
        assert!(all.cautions().contains(Caution::MethodsDiffer));
    }
    assert!(told > 12, "{told}");
}
