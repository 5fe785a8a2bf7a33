//! Questions asked backwards: every answer is verified forwards, by schedules
//! made here anew, and by closed forms where there are any (all derived here;
//! both check and formula are linear in the pressure, so a utilization found
//! once gives the answer without a search).

use crate::samples::{pine, pipe};
use crate::worksheet::recompute;
use crate::worksheet_whole::closed;
use groundline::Error;
use groundline::actions::GroundlineActions;
use groundline::backfill::Bag;
use groundline::backwards::*;
use groundline::caution::Caution;
use groundline::check::*;
use groundline::fence::*;
use groundline::foundation::*;
use groundline::ground::*;
use groundline::limit_state::{AllowableStress, Strength};
use groundline::plan::FencePlan;
use groundline::post::{GivenPost, Post};
use groundline::report;
use groundline::section::Tube;
use groundline::units::*;
use groundline::wind::*;
use proptest::prelude::*;

const BASIC: AllowableStress = AllowableStress::Basic;

fn speed(value: f64) -> BasicWindSpeed {
    BasicWindSpeed::strength_level(mph(value)).unwrap()
}

fn site(value: f64) -> AsceSite {
    AsceSite::new(Edition::Asce7_22, speed(value), Exposure::C)
}

fn given(value: f64) -> DirectPressure<AllowableStress> {
    DirectPressure::new(psf(value), BASIC)
        .unwrap()
        .acting_at(0.5)
        .unwrap()
}

fn panel(height: f64) -> Panel {
    Panel::new(ft(height)).unwrap()
}

fn run(height: f64, length: f64, spacing: f64) -> FenceRun {
    FenceRun::new(panel(height), ft(length), ft(spacing)).unwrap()
}

fn straight(height: f64, length: f64, spacing: f64) -> Fence {
    Fence::new(run(height, length, spacing))
}

/// A post of class 4 soil in a hole in inches.
fn design(post: impl Into<Post>, hole: f64) -> PostDesign {
    let hole = Hole::round(inch(hole)).unwrap();
    PostDesign::in_concrete(Ground::presumptive(SoilClass::Class4), post.into(), hole).unwrap()
}

/// The same, held by paving at grade: bending is then that at grade, in proportion to
/// the load. Elsewhere it is that of the required depth, which grows with the load.
fn paved(post: impl Into<Post>, hole: f64) -> PostDesign {
    design(post, hole).restrained_by(Restraint::RigidPaving)
}

/// The greatest utilization of a plan, by its public schedule.
fn most<C: WindCode>(plan: &FencePlan<C>) -> f64
where
    C::Level: groundline::combination::CombinesTo<AllowableStress>,
{
    let schedule = plan.schedule().unwrap();
    schedule
        .posts()
        .map(|post| post.check.utilization.ratio())
        .fold(0.0, f64::max)
}

const PASSES: f64 = 1.0 + 1e-9;

fn found<Q: Measurable, C: WindCode>(solution: &Solution<Q, C>) -> Q {
    match solution.answer {
        Answer::Found(value) => value,
        ref other => panic!("{:?}: not found", std::mem::discriminant(other)),
    }
}

/// With wind of a code that grows as V², everything does: V = V0 sqrt(1/u0), for
/// the whole fence and for each post, whatever check governs.
#[test]
fn speed_by_the_square_root() {
    let depth = ft(8.0);
    for (post, hole, governs) in [
        (Post::from(pipe(6.0, 0.28)), 14.0, Governing::Embedment),
        (Post::from(pipe(2.875, 0.2)), 36.0, Governing::Bending),
        (Post::from(pine(5.5)), 36.0, Governing::Bending),
    ] {
        let of_post = if governs == Governing::Bending {
            paved(post, hole)
        } else {
            design(post, hole)
        };
        let fence = straight(4.0, 48.0, 5.0);
        let plan = FencePlan::new(site(110.0), fence, of_post).with_planned_depth(depth);
        let schedule = plan.schedule().unwrap();
        // The least pressure of the code must not govern.
        assert!(schedule.posts().all(|p| p.check.required.depth() < depth));
        let solution = greatest_wind(&plan, AsceSite::search()).unwrap();
        assert_eq!(solution.governing(), governs);
        let by_hand = 110.0 / most(&plan).sqrt();
        let answer = found(&solution).to(mph);
        // The answer is the whole step below.
        assert!(answer <= by_hand + 1e-9 && by_hand < answer + 0.1 + 1e-9);
        let mut least = f64::MAX;
        for (post, of_post) in schedule
            .posts()
            .zip(greatest_wind_of_each(&plan, AsceSite::search()))
        {
            let of_post = of_post.unwrap();
            assert_eq!(of_post.post, Some(post.post.number));
            assert_eq!(of_post.governing_post().post.number, post.post.number);
            let by_hand = 110.0 / post.check.utilization.ratio().sqrt();
            let answer = found(&of_post).to(mph);
            assert!(answer <= by_hand + 1e-9 && by_hand < answer + 0.1 + 1e-9);
            least = least.min(answer);
        }
        // The fence is as good as its worst post.
        assert_eq!(answer, least);
    }
}

/// A pressure as given: p = p0/u0, at either limit state.
#[test]
fn pressure_in_proportion() {
    let fence = straight(6.0, 96.0, 8.0);
    let design = design(pipe(2.875, 0.16), 12.0);
    let plan = FencePlan::new(given(10.0), fence.clone(), design).with_planned_depth(ft(4.0));
    let answer = found(&greatest_wind(&plan, Search::pressures()).unwrap()).to(psf);
    let by_hand = 10.0 / most(&plan);
    assert!(answer <= by_hand + 1e-9 && by_hand < answer + 0.1 + 1e-9);
    // Strength level: 0.6 of it counts, so 1/0.6 as much is carried.
    let strength = DirectPressure::new(psf(10.0), Strength)
        .unwrap()
        .acting_at(0.5)
        .unwrap();
    let plan = FencePlan::new(strength, fence, design).with_planned_depth(ft(4.0));
    let fine = Search::new(psf(1.0), psf(200.0), psf(0.001)).unwrap();
    let at_strength = found(&greatest_wind(&plan, fine).unwrap()).to(psf);
    assert!((at_strength * 0.6 - by_hand).abs() < 0.001);
}

/// Under an even pressure the load of a line post is in proportion to its bay:
/// the greatest spacing is the last before the bays would have to be longer
/// than s0/u0.
#[test]
fn spacing_in_proportion() {
    for design in [
        paved(pipe(2.375, 0.154), 24.0),
        design(pipe(4.0, 0.226), 10.0),
    ] {
        let (length, s0) = (96.0, 4.0);
        let fence = straight(6.0, length, s0);
        let plan = FencePlan::new(given(14.0), fence, design).with_planned_depth(ft(5.0));
        let solution = greatest_spacing(&plan, Search::spacings()).unwrap();
        let answer = found(&solution);
        assert!(solution.check().required.depth() < ft(5.0));
        let longest = s0 / most(&plan);
        let bay = |inches: u32| {
            let spacing = f64::from(inches) / 12.0;
            length / (length / spacing - 1e-9).ceil()
        };
        let by_hand = (12..=480)
            .take_while(|inches| bay(*inches) <= longest)
            .last();
        assert!((answer.to(inch) - f64::from(by_hand.unwrap())).abs() < 1e-6);
        // What is built: bays of the length by hand.
        let built = solution.plan().fence().posts()[1]
            .arms()
            .next()
            .unwrap()
            .at
            .to(ft);
        assert!((built - bay(by_hand.unwrap())).abs() < 1e-9);
        assert!(built <= longest);
    }
}

/// Nonconstrained pole formula at a given depth: the bearing is in proportion to
/// b, so b = b0 u0; the weight is no matter.
#[test]
fn hole_in_proportion() {
    let limit = ft(3.5);
    let fence = straight(5.0, 40.0, 5.0);
    let plan = FencePlan::new(given(12.0), fence, design(pipe(4.0, 0.226), 12.0));
    let solution = smallest_hole(&plan, limit, Search::holes()).unwrap();
    let at_limit = plan.with_planned_depth(limit);
    let by_hand = 12.0 * most(&at_limit);
    let answer = found(&solution).to(inch);
    assert_eq!(solution.governing(), Governing::Embedment);
    assert!(
        answer >= by_hand - 1e-9 && by_hand > answer - 0.5 - 1e-9,
        "{answer} {by_hand}"
    );
    assert_eq!(solution.question, Question::Hole(limit));
    assert_eq!(solution.check().planned.unwrap().depth(), limit);
    // A square hole bears with its diagonal: its side is less by √2.
    let square = PostDesign::in_concrete(
        Ground::presumptive(SoilClass::Class4),
        pipe(4.0, 0.226).into(),
        Hole::square(inch(12.0)).unwrap(),
    )
    .unwrap();
    let plan = FencePlan::new(*at_limit.site(), at_limit.fence().clone(), square);
    let fine = Search::new(inch(7.0), inch(60.0), inch(0.001)).unwrap();
    let solution = smallest_hole(&plan, limit, fine).unwrap();
    let side = found(&solution).to(inch);
    assert!((side - by_hand / 2.0_f64.sqrt()).abs() < 0.0011);
    let hole = solution.check().design().foundation().hole().unwrap();
    assert_eq!(hole.shape(), HoleShape::Square);
}

/// Even pressure on a fence from the ground: P = p s h, M = p s h²/2, so
/// 7.02 P d + 7.6518 M = S b d³ is a quadratic in h.
#[test]
fn height_by_a_quadratic() {
    let (p, s, d, b) = (12.0, 6.0, 4.0, 1.25);
    let plan = FencePlan::new(
        given(p),
        straight(4.0, 60.0, s),
        design(pipe(6.0, 0.28), 15.0),
    )
    .with_planned_depth(ft(d));
    let fine = Search::new(ft(1.0), ft(20.0), inch(0.01)).unwrap();
    let solution = greatest_height(&plan, fine).unwrap();
    assert_eq!(solution.governing(), Governing::Embedment);
    let capacity = 150.0 * b * d * d * d / (p * s);
    let (a, c) = (0.5 * 2.34 * 3.0 * 4.36 / 4.0, 3.0 * 2.34 * d);
    let by_hand = (-c + (c * c + 4.0 * a * capacity).sqrt()) / (2.0 * a);
    let answer = found(&solution).to(ft);
    assert!(
        answer <= by_hand && by_hand < answer + 0.011 / 12.0,
        "{answer} {by_hand}"
    );
}

/// The figure of open fences steps down at a solidity of 0.3, from 1.8 × 0.299
/// to 1.6 × 0.3: a fence that fails a hair below passes again from 0.30 on. It
/// is told and not taken.
#[test]
fn a_band_that_passes_again() {
    let thin = panel(6.0).with_solidity(0.5).unwrap();
    let fence = Fence::new(FenceRun::new(thin, ft(96.0), ft(8.0)).unwrap());
    let plan = FencePlan::new(site(140.0), fence, paved(pipe(2.875, 0.16), 18.0))
        .with_planned_depth(ft(6.0));
    let at = |solidity: f64| {
        let fence = plan
            .fence()
            .changing_runs(|run| {
                let panel = run.panel().with_solidity(solidity)?;
                Ok(run.with_panel(panel))
            })
            .unwrap();
        most(&plan.clone().with_fence(fence))
    };
    // A wind that makes it 1 in the middle of the step.
    let (below, above) = (at(0.29), at(0.30));
    assert!(below > above * 1.05, "{below} {above}");
    let v = 140.0 / (0.5 * (below + above)).sqrt();
    let plan = plan.clone().with_site(site(v));
    let solution = greatest_solidity(&plan, Search::solidities()).unwrap();
    let answer = found(&solution).to(number);
    assert!(answer < 0.29 && solution.next.as_ref().unwrap().value.to(number) < 0.30);
    let again = &solution.passes_again;
    assert_eq!(again.len(), 1);
    assert!((again[0].from.to(number) - 0.30).abs() < 1e-9);
    // Cf ε = 1.6 ε from there: as far as u(0.30) allows.
    let far = 0.30 / (above * (v / 140.0).powi(2));
    let last = again[0].to.to(number);
    assert!(last <= far && far < last + 0.01, "{last} {far}");
    let sheet = solution.worksheet(UnitSystem::Us);
    assert!(report::text(&sheet).to_string().contains("passes again"));
    // Asked from within the step on, the milder values that fail are told.
    let from = Search::new(number(0.285), number(0.7), number(0.005)).unwrap();
    let solution = greatest_solidity(&plan, from).unwrap();
    let answer = found(&solution).to(number);
    assert!(answer <= far && far < answer + 0.005);
    let milder = solution.milder_fails.unwrap();
    assert!((milder.to(number) - 0.285).abs() < 1e-9);
    let sheet = solution.worksheet(UnitSystem::Si);
    assert!(
        report::text(&sheet)
            .to_string()
            .contains("A milder value fails: 0.285")
    );
}

/// Round wire drags less from a certain speed on (D√q above 2.5 ft·√psf): a
/// fence that fails just below passes again just above.
#[test]
fn a_speed_that_passes_again() {
    let bars = Infill::round_bars(inch(5.0), inch(7.0)).unwrap();
    let fence = Fence::new(FenceRun::new(panel(6.0).with_infill(bars), ft(96.0), ft(8.0)).unwrap());
    let plan = |depth: f64| {
        FencePlan::new(site(100.0), fence.clone(), design(pipe(6.0, 0.28), 12.0))
            .with_planned_depth(ft(depth))
    };
    let u = |plan: &FencePlan, v: f64| most(&plan.clone().with_site(site(v)));
    // The speed of the step, found here by looking.
    let first = plan(5.0);
    let drop = (40..300)
        .map(f64::from)
        .find(|v| u(&first, *v + 1.0) < u(&first, *v) * 0.95);
    let Some(drop) = drop else {
        panic!("no step in the speeds");
    };
    // A depth at which 1 lies inside the step.
    let depth = (100..1000)
        .map(|d| f64::from(d) / 100.0)
        .find(|d| u(&plan(*d), drop + 1.0) < 0.97)
        .unwrap();
    let plan = plan(depth);
    assert!(u(&plan, drop) > 1.0 && u(&plan, drop + 1.0) < 1.0);
    let search = Search::new(mph(40.0), mph(300.0), mph(1.0))
        .unwrap()
        .trying(260)
        .unwrap();
    let solution = greatest_wind(&plan, search).unwrap();
    assert!(found(&solution).to(mph) <= drop);
    assert!(most(&plan.clone().with_site(site(found(&solution).to(mph)))) <= PASSES);
    assert_eq!(solution.passes_again.len(), 1);
    assert!((solution.passes_again[0].from.to(mph) - (drop + 1.0)).abs() < 1e-6);
    // A post that fails in a milder wind is not good for a harder one.
    let from = Search::new(mph(drop), mph(300.0), mph(1.0)).unwrap();
    let solution = greatest_wind(&plan, from.trying(300).unwrap()).unwrap();
    assert_eq!(solution.answer, Answer::FailsAtMildest(mph(drop)));
    assert_eq!((solution.value(), solution.milder_fails), (None, None));
    let again = &solution.passes_again[0];
    assert!((again.from.to(mph) - (drop + 1.0)).abs() < 1e-6);
    let last = again.to.to(mph);
    assert!(last > drop + 2.0, "{last}");
    assert!(u(&plan, last) <= 1.0 && u(&plan, last + 1.0) > 1.0);
}

/// Two runs whose wires drag less from two speeds on, each so deep that it fails just
/// below its own: three stretches pass, and each is told apart.
#[test]
fn a_speed_that_passes_twice_again() {
    let run = |diameter: f64| {
        let bars = Infill::round_bars(inch(diameter), inch(1.4 * diameter)).unwrap();
        FenceRun::new(panel(6.0).with_infill(bars), ft(48.0), ft(8.0)).unwrap()
    };
    let fence = Fence::new(run(5.0)).turning(deg(90.0), run(4.7)).unwrap();
    let own = design(pipe(6.0, 0.28), 12.0);
    let plan = |first: f64, second: f64| {
        let plan = FencePlan::new(site(100.0), fence.clone(), own);
        (1..=13).fold(plan, |plan, number| {
            // The corner, post 7, is out of the question.
            let depth = match number {
                ..7 => first,
                7 => 9.9,
                _ => second,
            };
            plan.with_post(number, own, Some(ft(depth)))
        })
    };
    let u = |plan: &FencePlan, v: f64| most(&plan.clone().with_site(site(v)));
    // Each run by itself, the other as deep as the corner: where it drops, and the depth
    // at which it fails before.
    let step = |plan: &dyn Fn(f64) -> FencePlan| {
        let shallow = plan(4.0);
        let mut speeds = (40..300).map(f64::from);
        let drop = speeds.find(|v| u(&shallow, v + 1.0) < u(&shallow, *v) * 0.95);
        let drop = drop.unwrap();
        let mut depths = (100..990).map(|d| f64::from(d) / 100.0);
        (drop, depths.find(|d| u(&plan(*d), drop) < 1.05).unwrap())
    };
    let (first, deep) = step(&|depth| plan(depth, 9.9));
    let (second, deeper) = step(&|depth| plan(9.9, depth));
    assert!(first + 3.0 < second, "{first} {second}");
    let plan = plan(deep, deeper);
    let search = Search::new(mph(40.0), mph(300.0), mph(1.0)).unwrap();
    let solution = greatest_wind(&plan, search.trying(260).unwrap()).unwrap();
    let told: Vec<_> = solution
        .passes_again
        .iter()
        .map(|stretch| (stretch.from.to(mph).round(), stretch.to.to(mph).round()))
        .collect();
    let passes: Vec<_> = (40..=300)
        .map(|v| u(&plan, f64::from(v)) <= PASSES)
        .collect();
    let mut stretches = Vec::new();
    for (v, passes) in (40..).map(f64::from).zip(passes) {
        match stretches.last_mut() {
            Some((_, to)) if passes && *to == v - 1.0 => *to = v,
            _ if passes => stretches.push((v, v)),
            _ => {}
        }
    }
    assert_eq!(stretches.len(), 3, "{stretches:?}");
    assert_eq!(told, stretches[1..]);
}

/// Each way of having no answer, and none of them an error.
#[test]
fn no_answer_is_an_answer() {
    // Strong, deep, wide: good for every speed.
    let strong = design(pipe(12.0, 0.4), 60.0);
    let plan =
        FencePlan::new(site(100.0), straight(4.0, 24.0, 3.0), strong).with_planned_depth(ft(11.0));
    let solution = greatest_wind(&plan, AsceSite::search()).unwrap();
    let Answer::PassesThroughout(last) = solution.answer else {
        panic!("{:?}", solution.answer);
    };
    assert!((last.to(mph) - 300.0).abs() < 1e-9 && solution.next.is_none());
    assert!(most(&plan.clone().with_site(site(last.to(mph)))) <= PASSES);

    // A shallow hole: even the least pressure of the code is too much, the pipe
    // itself would do.
    let shallow = FencePlan::new(
        site(100.0),
        straight(6.0, 48.0, 6.0),
        design(pipe(6.0, 0.28), 10.0),
    )
    .with_planned_depth(ft(1.0));
    let solution = greatest_wind(&shallow, AsceSite::search()).unwrap();
    assert_eq!(solution.answer, Answer::FailsAtMildest(mph(40.0)));
    assert_eq!(solution.governing(), Governing::Embedment);
    assert_eq!((solution.value(), solution.next.is_none()), (None, true));
    assert!(most(&shallow.clone().with_site(site(40.0))) > PASSES);

    // A thin pipe fails whatever the depth of its hole.
    let thin = FencePlan::new(
        site(100.0),
        straight(8.0, 48.0, 8.0),
        design(pipe(1.66, 0.1), 36.0),
    )
    .with_planned_depth(ft(9.0));
    let solution = greatest_wind(&thin, AsceSite::search()).unwrap();
    assert_eq!(solution.answer, Answer::PostTooWeak(mph(40.0)));
    let told = report::text(&solution.worksheet(UnitSystem::Us)).to_string();
    let told = told.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(told.contains("too weak whatever the depth of its hole"));
    let holes = Search::new(inch(12.0), ft(10.0), inch(1.0)).unwrap();
    let solution = smallest_hole(&thin, ft(6.0), holes).unwrap();
    assert_eq!(solution.answer, Answer::PostTooWeak(ft(10.0)));
    assert_eq!(solution.governing(), Governing::Bending);

    // A ledge at 6 in: no hole is wide enough.
    let ledge = FencePlan::new(
        given(20.0),
        straight(8.0, 48.0, 8.0),
        design(pipe(8.0, 0.3), 24.0),
    );
    let solution = smallest_hole(&ledge, inch(6.0), Search::holes()).unwrap();
    assert_eq!(solution.answer, Answer::FailsAtMildest(ft(10.0)));
    assert_eq!(solution.governing(), Governing::Embedment);

    // A hole so deep that the smallest that takes the post will do: the next
    // one does not take it.
    let deep = FencePlan::new(
        given(5.0),
        straight(4.0, 48.0, 4.0),
        design(pipe(4.0, 0.226), 24.0),
    );
    let solution = smallest_hole(&deep, ft(6.0), Search::holes()).unwrap();
    assert!((found(&solution).to(inch) - 6.0).abs() < 1e-9);
    let next = solution.next.as_ref().unwrap();
    assert_eq!(next.worst.unwrap_err().field(), "hole size");
    assert!(
        report::text(&solution.worksheet(UnitSystem::Us))
            .to_string()
            .contains("cannot be built")
    );

    // Spacing, height and solidity, both ways.
    let mild = FencePlan::new(
        given(0.5),
        straight(6.0, 48.0, 6.0),
        design(pipe(6.0, 0.28), 18.0),
    )
    .with_planned_depth(ft(10.0));
    let wild = FencePlan::new(
        given(500.0),
        straight(6.0, 48.0, 6.0),
        design(pipe(6.0, 0.28), 18.0),
    )
    .with_planned_depth(ft(2.0));
    for (plan, fails) in [(&mild, false), (&wild, true)] {
        let answers = [
            greatest_spacing(plan, Search::spacings()).unwrap().answer,
            greatest_height(plan, Search::heights()).unwrap().answer,
        ];
        for answer in answers {
            match answer {
                Answer::PassesThroughout(last) => assert!(!fails && last == ft(40.0)),
                Answer::FailsAtMildest(first) | Answer::PostTooWeak(first) => {
                    assert!(fails && first == ft(1.0));
                }
                other => panic!("{other:?}"),
            }
        }
    }
    // A pressure on gross area does not ask how solid.
    let solution = greatest_solidity(&mild, Search::solidities()).unwrap();
    assert_eq!(solution.answer, Answer::PassesThroughout(number(1.0)));
    let solution = greatest_solidity(&wild, Search::solidities()).unwrap();
    assert!(solution.value().is_none());
}

/// Why a post fails is its own reason, not that of its neighbour.
#[test]
fn each_post_has_its_own_answer() {
    let strong = design(pipe(6.0, 0.28), 18.0);
    let plan = FencePlan::new(site(100.0), straight(6.0, 48.0, 6.0), strong)
        .with_planned_depth(ft(8.0))
        .with_post(3, design(pipe(1.66, 0.1), 36.0), Some(ft(8.0)))
        .with_post(4, strong, Some(ft(1.0)));
    let of = |number| greatest_wind_of_post(&plan, number, AsceSite::search()).unwrap();
    assert!(of(2).value().is_some());
    // Without the minimum of 16 psf the thin pipe stands some wind; the shallow hole none.
    let Answer::MinimumGoverns(speed) = of(3).answer else {
        panic!("{:?}", of(3).answer);
    };
    assert!(speed > mph(40.0), "{speed:?}");
    // Forwards: at 100 mph the minimum does not govern, and wind goes by the speed squared.
    let at_100 = plan.schedule().unwrap().post(3).unwrap();
    assert_ne!(at_100.cases[0].wind_case, WindCase::Minimum);
    let scale = (speed / mph(100.0)).value.powi(2);
    let actions = at_100.check.actions();
    let actions = GroundlineActions::new(
        actions.shear() * scale,
        actions.moment() * scale,
        actions.axial(),
        actions.level(),
    );
    let check = PostCheck::of_actions(at_100.check.design(), &actions.unwrap(), Some(ft(8.0)));
    // The answer is rounded down by the step of the search.
    let used = check.unwrap().utilization.ratio();
    assert!(used > 0.999 && used <= 1.0 + 1e-9, "{used}");
    assert_eq!(of(4).answer, Answer::FailsAtMildest(mph(40.0)));
    // Of the whole fence one such post is enough.
    let all = greatest_wind(&plan, AsceSite::search()).unwrap();
    assert_eq!(all.answer, Answer::PostTooWeak(mph(40.0)));
}

/// Sites at another wind are else the same.
#[test]
fn another_wind_changes_nothing_else() {
    let hill = site(100.0).with_topographic_factor(1.3).unwrap();
    assert_eq!(hill.with_speed(speed(130.0)).with_speed(speed(100.0)), hill);
    assert_eq!(hill.with_speed(speed(130.0)).speed(), speed(130.0));
    let high = given(10.0).acting_at(0.55).unwrap();
    let other = high.with_pressure(psf(20.0)).unwrap();
    assert_eq!(other, given(20.0).acting_at(0.55).unwrap());
    assert_eq!(other.intensity(), psf(20.0));
    assert_eq!(
        hill.with_intensity(mph(120.0)).unwrap().intensity(),
        mph(120.0)
    );
    for wrong in [f64::NAN, 0.0, -1.0, 1e9] {
        assert_eq!(
            high.with_pressure(psf(wrong)).unwrap_err().field(),
            "wind pressure"
        );
        assert_eq!(
            hill.with_intensity(mph(wrong)).unwrap_err().field(),
            "wind speed"
        );
    }
}

/// What cannot be asked is refused, with the field.
#[test]
fn refusals() {
    let plan = FencePlan::new(
        site(100.0),
        straight(6.0, 48.0, 6.0),
        design(pipe(4.0, 0.226), 12.0),
    );
    let field = |error: Error| error.field();
    assert_eq!(
        field(greatest_wind(&plan, AsceSite::search()).unwrap_err()),
        "planned depth"
    );
    assert_eq!(
        field(greatest_height(&plan, Search::heights()).unwrap_err()),
        "planned depth"
    );
    let deep = plan.clone().with_planned_depth(ft(6.0));
    for number in [0, 10, usize::MAX] {
        let error = greatest_wind_of_post(&deep, number, AsceSite::search()).unwrap_err();
        assert_eq!(error.field(), "post number");
    }
    let single = deep.clone().with_post(2, *deep.design(), Some(ft(6.0)));
    assert_eq!(
        field(greatest_spacing(&single, Search::spacings()).unwrap_err()),
        "post spacing"
    );
    assert!(greatest_height(&single, Search::heights()).is_ok());
    for limit in [0.0, -1.0, f64::NAN, f64::INFINITY, 301.0] {
        let error = smallest_hole(&plan, ft(limit), Search::holes()).unwrap_err();
        assert_eq!(error.field(), "depth limit");
    }
    let bare = PostDesign::bare(*plan.design().ground(), *plan.design().post());
    let bare = FencePlan::new(*plan.site(), plan.fence().clone(), bare);
    assert_eq!(
        field(smallest_hole(&bare, ft(4.0), Search::holes()).unwrap_err()),
        "hole"
    );
    // Out of every range.
    let beyond = Search::new(mph(400.0), mph(500.0), mph(10.0)).unwrap();
    assert_eq!(
        field(greatest_wind(&deep, beyond).unwrap_err()),
        "wind speed"
    );

    for (least, most, step) in [
        (1.0, 1.0, 0.1),
        (2.0, 1.0, 0.1),
        (-1.0, 1.0, 0.1),
        (f64::NAN, 1.0, 0.1),
        (0.0, f64::NAN, 0.1),
        (0.0, f64::INFINITY, 0.1),
        (0.0, 1.0, 0.0),
        (0.0, 1.0, -0.1),
        (0.0, 1.0, 1.1),
        (0.0, 1.0, 1e-7),
        (0.0, 1.0, f64::NAN),
    ] {
        assert!(
            Search::new(ft(least), ft(most), ft(step)).is_err(),
            "{least} {most} {step}"
        );
    }
    assert!(Search::spacings().trying(0).is_err());
    assert!(Search::spacings().trying(5_001).is_err());
}

/// Evaluations are capped: those of the scan, twenty for halving, three to
/// verify. And what is counted is what was done.
#[test]
fn evaluations_are_capped() {
    let plan = FencePlan::new(
        given(10.0),
        straight(6.0, 24.0, 6.0),
        design(pipe(4.0, 0.226), 12.0),
    )
    .with_planned_depth(ft(4.0));
    let finest = Search::new(psf(1.0), psf(101.0), psf(0.0001)).unwrap();
    assert_eq!(finest.steps(), 1_000_000);
    for trials in [1, 7, 1_000] {
        let solution = greatest_wind(&plan, finest.trying(trials).unwrap()).unwrap();
        let answer = found(&solution).to(psf);
        let by_hand = 10.0 / most(&plan);
        assert!(answer <= by_hand + 1e-9 && by_hand < answer + 0.000_11);
        assert!(
            solution.evaluations <= trials + 1 + 20 + 3,
            "{}",
            solution.evaluations
        );
        assert!(solution.evaluations > trials.min(20));
    }
    // A search of whole steps tries no more than there are.
    let few = Search::new(psf(1.0), psf(6.0), psf(1.0)).unwrap();
    assert_eq!(few.steps(), 5);
    let solution = greatest_wind(&plan, few).unwrap();
    assert!(solution.evaluations <= 6 + 2);
}

/// Searches that end between steps stay within their range.
#[test]
fn ends_between_steps() {
    let plan = FencePlan::new(
        given(0.5),
        straight(6.0, 24.0, 6.0),
        design(pipe(4.0, 0.226), 12.0),
    )
    .with_planned_depth(ft(6.0));
    let search = Search::new(psf(0.2), psf(0.55), psf(0.1)).unwrap();
    assert_eq!(search.steps(), 3);
    let solution = greatest_wind(&plan, search).unwrap();
    assert!((solution.value().unwrap().to(psf) - 0.5).abs() < 1e-9);
}

#[test]
fn heights_keep_what_is_fixed() {
    let lattice = Infill::lattice(inch(1.5), inch(1.5)).unwrap();
    let topped = panel(6.0)
        .with_clearance(ft(1.5))
        .unwrap()
        .with_topping(ft(1.0), lattice)
        .unwrap();
    let higher = topped.with_top(ft(9.0)).unwrap();
    assert_eq!((higher.top(), higher.clearance()), (ft(9.0), ft(1.5)));
    // 1 ft of 7.5 ft is three quarters solid.
    assert!((higher.solidity() - (1.0 - 0.25 / 7.5)).abs() < 1e-12);
    assert_eq!(
        topped.with_top(ft(2.0)).unwrap_err().field(),
        "height of the topping"
    );
    assert_eq!(
        topped.with_top(ft(1.5)).unwrap_err().field(),
        "clearance below"
    );
    // A gap leaves the topping its height too: 6 ft less 5 ft.
    assert!(topped.with_clearance(ft(5.0)).is_ok());
    assert_eq!(
        topped.with_clearance(ft(5.01)).unwrap_err().field(),
        "height of the topping"
    );
    assert_eq!(
        topped.with_top(ft(f64::NAN)).unwrap_err().field(),
        "fence height"
    );
    // Heights that cannot be built are passed over.
    let fence = Fence::new(FenceRun::new(topped, ft(48.0), ft(6.0)).unwrap());
    let plan = FencePlan::new(given(12.0), fence, design(pipe(6.0, 0.28), 18.0))
        .with_planned_depth(ft(5.0));
    let solution = greatest_height(&plan, Search::heights()).unwrap();
    let height = found(&solution);
    assert!(height > ft(3.0));
    let built = solution.plan().fence().runs()[0].panel();
    assert_eq!((built.top(), built.clearance()), (height, ft(1.5)));
    assert_eq!(solution.milder_fails, None);
}

#[test]
fn rebuilt_runs_keep_their_gates() {
    let gate = Gate::new(ft(16.0), ft(4.0), lb(100.0), Hinges::AtStart).unwrap();
    let fence = Fence::new(run(6.0, 48.0, 8.0).with_gate(gate).unwrap())
        .turning(deg(90.0), run(6.0, 24.0, 8.0))
        .unwrap();
    let same = fence
        .changing_runs(|run| run.with_spacing(ft(8.0)))
        .unwrap();
    assert_eq!(same, fence);
    let closer = fence
        .changing_runs(|run| run.with_spacing(ft(4.0)))
        .unwrap();
    assert_eq!(closer.runs()[0].gates(), fence.runs()[0].gates());
    assert_eq!(closer.turn_after(0), fence.turn_after(0));
    // 16, gate, 28 at 4 ft, then 24 at 4 ft.
    assert_eq!(closer.posts().len(), 1 + 4 + 1 + 7 + 6);
    assert!(
        fence
            .changing_runs(|run| run.with_spacing(ft(0.5)))
            .is_err()
    );
    let square = PostDesign::in_concrete(
        Ground::presumptive(SoilClass::Class3).as_isolated_pole(),
        pine(5.5).into(),
        Hole::square(inch(16.0)).unwrap(),
    )
    .unwrap()
    .square_width(SquareWidth::Face)
    .restrained_by(Restraint::RigidPaving)
    .with_combination(AllowableStress::AlternativeWithIncrease);
    assert_eq!(
        square.in_hole(Hole::square(inch(16.0)).unwrap()).unwrap(),
        square
    );
    let wider = square.in_hole(Hole::square(inch(20.0)).unwrap()).unwrap();
    assert_eq!(wider.formula().equation(), square.formula().equation());
    assert_eq!(wider.foundation().bearing_width().width(), inch(20.0));
    assert!(square.in_hole(Hole::square(inch(7.0)).unwrap()).is_err());
}

/// Cheapest first, ties as given, what fails out with its reason.
#[test]
fn options_by_cost() {
    let plan = |hole: f64, depth: f64| {
        FencePlan::new(
            given(12.0),
            straight(6.0, 48.0, 6.0),
            design(pipe(4.0, 0.226), hole),
        )
        .with_planned_depth(ft(depth))
    };
    let thin = FencePlan::new(
        given(12.0),
        straight(6.0, 48.0, 6.0),
        design(pipe(1.66, 0.1), 18.0),
    )
    .with_planned_depth(ft(6.0));
    let refused = plan(18.0, 100_001.0);
    let plans = [
        plan(24.0, 5.0),
        thin,
        plan(12.0, 6.0),
        refused,
        plan(12.0, 1.0),
        plan(24.0, 5.0),
    ];
    let concrete = |schedule: &groundline::plan::Schedule<'_, _>| -> f64 {
        schedule
            .posts()
            .map(|post| {
                let check = post.check;
                let depth = check.planned.unwrap().depth();
                check.design().foundation().concrete_volume(depth).to(cu_ft)
            })
            .sum()
    };
    let ranking = cheapest(&plans, concrete);
    let order: Vec<_> = ranking.options.iter().map(|option| option.index).collect();
    assert_eq!(order, [2, 0, 5, 1, 3, 4]);
    // Nine posts, by hand.
    let pipe_area = std::f64::consts::PI / 4.0 * (4.0_f64 / 12.0).powi(2);
    let by_hand = 9.0 * 6.0 * (std::f64::consts::PI / 4.0 - pipe_area);
    let (index, cost) = ranking.cheapest().unwrap();
    assert_eq!(index, 2);
    assert!((cost - by_hand).abs() < 1e-9 * by_hand);
    let verdict = |index: usize| {
        let found = ranking.options.iter().find(|option| option.index == index);
        found.unwrap().verdict
    };
    assert!(matches!(
        verdict(1),
        OptionVerdict::Fails {
            governing: Governing::Bending,
            ..
        }
    ));
    assert!(matches!(
        verdict(4),
        OptionVerdict::Fails {
            governing: Governing::Embedment,
            ..
        }
    ));
    assert!(matches!(verdict(3), OptionVerdict::Refused(error) if error.field() == "depth"));
    assert!(verdict(4).to_string().contains("fails in embedment"));
    for option in &ranking.options {
        assert!(option.cautions.contains(Caution::NoSubstitute));
    }
    // A cost that is no number is no cost.
    for cost in [f64::NAN, f64::INFINITY] {
        let ranking = cheapest(&plans, |_| cost);
        assert_eq!(ranking.cheapest(), None);
        assert!(
            ranking
                .options
                .iter()
                .any(|option| option.verdict == OptionVerdict::NoCost)
        );
    }
    assert_eq!(cheapest(&plans[..0], |_| 0.0).cheapest(), None);
}

/// A plan of which a check asked for cannot be made is no answer, however cheap: lean
/// without the EI of the post. One that fails says so first; quantities are no check.
#[test]
fn an_option_left_open_is_refused() {
    let section = Tube::new(inch(4.0), inch(0.226)).unwrap();
    let given_post = GivenPost::new(section.into(), lb_ft(90_000.0), lb(90_000.0)).unwrap();
    let known = given_post.with_rigidity(n_sq_m(3e5)).unwrap();
    let stiffness = GroundStiffness::growing(mn_per_cu_m(5.0)).unwrap();
    let lean = SiteChecks::default().with_lean(LeanOptions::new(stiffness));
    let plan = |post: GivenPost, asked: SiteChecks, depth: f64| {
        FencePlan::new(given(12.0), straight(6.0, 48.0, 6.0), design(post, 24.0))
            .with_planned_depth(ft(depth))
            .with_site_checks(asked)
    };
    let bare = PostDesign::bare(Ground::presumptive(SoilClass::Class3), known.into());
    let quantities = SiteChecks::default().with_materials(MaterialOptions::new(Bag::lb_60()));
    let plans = [
        plan(given_post, lean, 5.0),
        plan(known, lean, 5.0),
        plan(given_post, lean, 1.0),
        FencePlan::new(given(1.0), straight(6.0, 48.0, 6.0), bare)
            .with_planned_depth(ft(9.0))
            .with_site_checks(quantities),
    ];
    // The one left open would be the cheapest.
    let ranking = cheapest(&plans, |schedule| {
        let depth = schedule.post(1).unwrap().check.depth().to(ft);
        depth
            + f64::from(u8::from(
                schedule.post(1).unwrap().site.lean.done().is_some(),
            ))
    });
    let verdict = |index: usize| {
        let found = ranking.options.iter().find(|option| option.index == index);
        found.unwrap().verdict
    };
    assert_eq!(ranking.cheapest(), Some((1, 6.0)));
    let OptionVerdict::Refused(error) = verdict(0) else {
        panic!("{}", verdict(0))
    };
    let schedule = plans[0].schedule().unwrap();
    assert_eq!(
        schedule.post(1).unwrap().site.unchecked().next(),
        Some(&error)
    );
    assert!(matches!(verdict(2), OptionVerdict::Fails { .. }));
    let open = plans[3].schedule().unwrap();
    assert_eq!(open.post(1).unwrap().site.refusals().count(), 1);
    assert_eq!(verdict(3), OptionVerdict::Passes(9.0));
}

/// A default design that no post has is not looked at: here a bare post, where every
/// kind of post of the fence has concrete.
#[test]
fn the_hole_of_posts_there_are() {
    let fence = straight(5.0, 40.0, 5.0);
    let concrete = design(pipe(4.0, 0.226), 12.0);
    let ground = Ground::presumptive(SoilClass::Class4);
    let bare = PostDesign::bare(ground, pipe(4.0, 0.226).into());
    let limit = ft(3.5);
    let plain = FencePlan::new(given(12.0), fence.clone(), concrete);
    let kinds = FencePlan::new(given(12.0), fence, bare)
        .with_kind(PostKind::Gate, bare, None)
        .with_kind(PostKind::End, concrete, None);
    let of = |plan: &FencePlan<_>| smallest_hole(plan, limit, Search::holes());
    // Posts between the ends are still bare.
    assert_eq!(of(&kinds).unwrap_err().field(), "hole");
    let whole = kinds.with_kind(PostKind::Line, concrete, None);
    assert_eq!(found(&of(&whole).unwrap()), found(&of(&plain).unwrap()));
    assert_eq!(whole.design(), &bare);
    // A post with a design of its own leaves its kind.
    let count = whole.fence().posts().len();
    let single = whole
        .with_kind(PostKind::End, bare, None)
        .with_post(1, concrete, None);
    assert_eq!(of(&single).unwrap_err().field(), "hole");
    let single = single.with_post(count, concrete, None);
    assert_eq!(found(&of(&single).unwrap()), found(&of(&plain).unwrap()));
}

/// The working recomputes, in both systems, and holds the forward check.
#[test]
fn the_working() {
    fn check<Q: Measurable, C: WindCode>(solution: &Solution<Q, C>)
    where
        C::Level: groundline::combination::CombinesTo<AllowableStress>,
    {
        for system in [UnitSystem::Us, UnitSystem::Si] {
            let sheet = solution.worksheet(system);
            closed(&sheet);
            assert!(sheet.steps().count() > 15);
            for step in sheet.steps() {
                recompute(step, system);
            }
            assert_eq!(sheet.cautions, solution.cautions());
            let u = sheet.steps().find(|step| step.symbol == "u").unwrap();
            assert_eq!(u.result, Measured::number(solution.utilization().ratio()));
            let next = sheet.steps().any(|step| step.symbol == "xn");
            assert_eq!(next, solution.next.is_some());
            let text = report::text(&sheet).to_string();
            assert!(text.contains("Asked backwards") && text.contains("no substitute"));
            let number = solution.governing_post().post.number;
            assert!(text.contains(&format!("ost {number}")));
        }
    }
    let plan = FencePlan::new(
        site(100.0),
        straight(6.0, 48.0, 6.0),
        design(pipe(4.0, 0.226), 18.0),
    )
    .with_planned_depth(ft(6.0));
    check(&greatest_wind(&plan, AsceSite::search()).unwrap());
    check(&greatest_wind_of_post(&plan, 3, AsceSite::search()).unwrap());
    check(&greatest_spacing(&plan, Search::spacings()).unwrap());
    check(&greatest_height(&plan, Search::heights()).unwrap());
    check(&greatest_solidity(&plan, Search::solidities()).unwrap());
    check(&smallest_hole(&plan, ft(5.0), Search::holes()).unwrap());
    check(&smallest_hole(&plan, ft(0.5), Search::holes()).unwrap());
    let direct = FencePlan::new(given(10.0), plan.fence().clone(), *plan.design())
        .with_planned_depth(ft(4.0));
    check(&greatest_wind(&direct, Search::pressures()).unwrap());
}

/// A fence with a bend or a gate, of any height and solidity.
fn any_fence() -> impl Strategy<Value = Fence> {
    (
        3.0..9.0_f64,
        0.0..0.5_f64,
        0.1..1.0_f64,
        24.0..90.0_f64,
        4.0..9.0_f64,
        prop::option::of(0.2..0.7_f64),
        prop::option::of(20.0..120.0_f64),
    )
        .prop_map(|(height, gap, solid, length, spacing, gate, bend)| {
            let panel = panel(height).with_clearance(ft(gap)).unwrap();
            let panel = panel
                .with_solidity(solid)
                .unwrap()
                .with_weight(psf(4.0))
                .unwrap();
            let mut first = FenceRun::new(panel, ft(length), ft(spacing)).unwrap();
            if let Some(share) = gate {
                let gate = Gate::new(ft(length * share), ft(4.0), lb(90.0), Hinges::AtEnd);
                first = first.with_gate(gate.unwrap()).unwrap();
            }
            let side = FenceRun::new(panel, ft(20.0), ft(spacing)).unwrap();
            match bend {
                Some(turn) => Fence::new(first).turning(deg(turn), side).unwrap(),
                None => Fence::new(first),
            }
        })
}

/// Whatever the answer, it is what the forward schedule says.
fn verify<Q: Measurable, C: WindCode>(
    solution: &Solution<Q, C>,
    plan_at: impl Fn(Q) -> FencePlan<C>,
) -> Result<(), TestCaseError>
where
    C::Level: groundline::combination::CombinesTo<AllowableStress>,
{
    let at = plan_at(solution.checked_at());
    prop_assert_eq!(solution.plan(), &at);
    prop_assert!((most(&at) - solution.utilization().ratio()).abs() < 1e-12);
    match solution.answer {
        Answer::Found(value) => {
            prop_assert!(most(&at) <= PASSES);
            let next = solution.next.as_ref().unwrap();
            prop_assert!(
                (next.value.si() - value.si()).abs() <= solution.search.step().si() * 1.001
            );
            if next.worst.is_ok() {
                prop_assert!(most(&plan_at(next.value)) > PASSES);
            }
        }
        Answer::PassesThroughout(_) => prop_assert!(most(&at) <= PASSES),
        Answer::FailsAtMildest(_) | Answer::PostTooWeak(_) => prop_assert!(most(&at) > PASSES),
        Answer::MinimumGoverns(value) => {
            prop_assert!(most(&at) > PASSES && most(&plan_at(value)) > PASSES);
            let minimum = solution.minimum.as_ref().unwrap();
            prop_assert!(most(&minimum.plan) <= PASSES);
        }
        _ => prop_assert!(false, "an answer not known here"),
    }
    for stretch in &solution.passes_again {
        prop_assert!(most(&plan_at(stretch.from)) <= PASSES);
        prop_assert!(most(&plan_at(stretch.to)) <= PASSES);
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn every_answer_holds_forwards(
        fence in any_fence(), v in 60.0..180.0_f64, depth in 2.0..8.0_f64,
        hole in 10.0..30.0_f64, diameter in 2.375..6.0_f64,
    ) {
        let plan = FencePlan::new(site(v), fence, design(pipe(diameter, 0.2), hole))
            .with_planned_depth(ft(depth));
        let coarse = |least: f64, most: f64, step: f64| {
            Search::new(ft(least), ft(most), inch(step)).unwrap().trying(25).unwrap()
        };
        let search = AsceSite::search().trying(25).unwrap();
        verify(&greatest_wind(&plan, search).unwrap(), |v| {
            let speed = BasicWindSpeed::strength_level(v).unwrap();
            plan.clone().with_site(plan.site().with_speed(speed))
        })?;
        verify(&greatest_spacing(&plan, coarse(1.0, 12.0, 1.0)).unwrap(), |spacing| {
            let fence = plan.fence().changing_runs(|run| run.with_spacing(spacing)).unwrap();
            plan.clone().with_fence(fence)
        })?;
        verify(&greatest_height(&plan, coarse(2.0, 14.0, 1.0)).unwrap(), |height| {
            let fence = plan.fence().changing_runs(|run| {
                let panel = run.panel().with_top(height)?;
                Ok(run.with_panel(panel))
            }).unwrap();
            plan.clone().with_fence(fence)
        })?;
        verify(&greatest_solidity(&plan, Search::solidities()).unwrap(), |solid| {
            let fence = plan.fence().changing_runs(|run| {
                let panel = run.panel().with_solidity(solid.to(number))?;
                Ok(run.with_panel(panel))
            }).unwrap();
            plan.clone().with_fence(fence)
        })?;
        verify(&smallest_hole(&plan, ft(depth), Search::holes().trying(25).unwrap()).unwrap(), |size| {
            let design = plan.design().in_hole(Hole::round(size).unwrap()).unwrap();
            FencePlan::new(*plan.site(), plan.fence().clone(), design).with_planned_depth(ft(depth))
        })?;
    }

    /// Deeper holes are good for no less wind; a wider hole for no less either.
    #[test]
    fn more_hole_more_wind(
        height in 3.0..8.0_f64, depth in 2.0..6.0_f64, more in 0.1..2.0_f64, hole in 10.0..24.0_f64,
    ) {
        let speed = |depth: f64, hole: f64| {
            // So strong a pipe that the ground always governs.
            let plan = FencePlan::new(
                given(10.0), straight(height, 48.0, 6.0), design(pipe(8.0, 0.5), hole),
            ).with_planned_depth(ft(depth));
            greatest_wind(&plan, Search::pressures()).unwrap().value().map_or(0.0, |v| v.to(psf))
        };
        prop_assume!(hole + more < 30.0 && hole >= 10.0);
        let base = speed(depth, hole);
        prop_assert!(speed(depth + more, hole) >= base);
        prop_assert!(speed(depth, hole + more) >= base);
    }
}
