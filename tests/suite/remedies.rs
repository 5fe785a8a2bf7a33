//! Single changes that make a failing post or plan pass, the depth to dig, the wind
//! that a planned hole holds, and the depth it lacks.

use groundline::backfill::Setting;
use groundline::backwards::{Answer, Search, VariedWind, greatest_wind};
use groundline::check::{FrostOptions, Governing, Grip, PostDesign, SiteChecks};
use groundline::fence::{Fence, FenceRun, Panel};
use groundline::foundation::{Hole, Restraint};
use groundline::ground::{Ground, SoilClass};
use groundline::limit_state::AllowableStress;
use groundline::plan::{DepthToDig, FencePlan, digging_step};
use groundline::post::{
    DesignValues, Grade, Moisture, PipePost, Post, Species, SteelStrength, TimberPost, Treatment,
};
use groundline::remedies::*;
use groundline::section::{Square, Tube};
use groundline::units::*;
use groundline::wind::*;
use proptest::prelude::*;

type Pressed = FencePlan<DirectPressure<AllowableStress>>;

fn pipe(diameter: f64, wall: f64) -> Post {
    let steel = SteelStrength::new(ksi(50.0)).unwrap();
    let tube = Tube::new(inch(diameter), inch(wall)).unwrap();
    PipePost::new(tube, steel).unwrap().into()
}

fn fence(spacing: f64) -> Fence {
    let panel = Panel::new(ft(6.0)).unwrap();
    Fence::new(FenceRun::new(panel, ft(48.0), ft(spacing)).unwrap())
}

fn design(post: Post, hole: f64) -> PostDesign {
    let ground = Ground::presumptive(SoilClass::Class4);
    PostDesign::in_concrete(ground, post, Hole::round(inch(hole)).unwrap()).unwrap()
}

/// A uniform pressure of one's own: no minimum and no zones.
fn plan(pressure: f64, post: Post, hole: f64, depth: f64) -> Pressed {
    let wind = DirectPressure::new(psf(pressure), AllowableStress::Basic)
        .unwrap()
        .acting_at(0.5)
        .unwrap();
    FencePlan::new(wind, fence(8.0), design(post, hole)).with_planned_depth(inch(depth))
}

fn passes(plan: &Pressed) -> bool {
    let schedule = plan.schedule().unwrap();
    schedule.posts().all(|post| post.passes_every_check())
}

/// The same plan with a change, built here by hand: every post has the one design.
fn by_hand(
    plan: &Pressed,
    change: &Change,
    one_less: bool,
    options: &RemedyOptions,
) -> Option<Pressed> {
    let less = |length: Length, step: Length| if one_less { length - step } else { length };
    let more = |length: Length, step: Length| if one_less { length + step } else { length };
    let rebuilt = |design: PostDesign, depth: Length| {
        Some(
            FencePlan::new(*plan.site(), plan.fence().clone(), design)
                .with_planned_depth(depth)
                .with_site_checks(*plan.site_checks(1)),
        )
    };
    let (own, depth) = (*plan.design(), plan.planned_depth().unwrap());
    let refenced = |fence: Fence| {
        Some(
            FencePlan::new(*plan.site(), fence, own)
                .with_planned_depth(depth)
                .with_site_checks(*plan.site_checks(1)),
        )
    };
    let run = &plan.fence().runs()[0];
    match change {
        Change::Depth(to) => rebuilt(own, less(*to, options.depth_step())),
        Change::HoleWidth(width) => {
            let narrower = options
                .hole_sizes()
                .filter(|size| *size < *width - inch(0.01))
                .last();
            let width = if one_less { narrower? } else { *width };
            // The design as it was, in a hole of the next auger down.
            let hole = Hole::round(width).unwrap();
            let present = own.foundation().hole().unwrap().size();
            (width > present).then(|| rebuilt(own.in_hole(hole).unwrap(), depth))?
        }
        Change::LargerPost(post) if !one_less => rebuilt(own.with_post(*post).unwrap(), depth),
        Change::IsolatedPole if !one_less => {
            rebuilt(own.in_ground(own.ground().as_isolated_pole()), depth)
        }
        Change::Paving if !one_less => rebuilt(own.restrained_by(Restraint::RigidPaving), depth),
        Change::Spacing(apart) => {
            let apart = more(*apart, options.fence_step());
            if apart >= run.spacing() {
                return None;
            }
            refenced(Fence::new(
                FenceRun::new(*run.panel(), run.length(), apart).unwrap(),
            ))
        }
        Change::Height(top) => {
            let top = more(*top, options.fence_step());
            if top >= run.panel().top() {
                return None;
            }
            let panel = Panel::new(top).unwrap();
            refenced(Fence::new(
                FenceRun::new(panel, run.length(), run.spacing()).unwrap(),
            ))
        }
        _ => None,
    }
}

/// Every remedy passes on a plan built anew, and one step less of it fails.
fn verify(plan: &Pressed, options: &RemedyOptions) -> Remedies {
    let remedies = of_plan(plan, options).unwrap();
    assert_eq!(remedies.failing.is_empty(), passes(plan));
    for remedy in &remedies.found {
        assert!(remedy.utilization.passes());
        assert!(
            passes(&remedies.applied(plan, remedy).unwrap()),
            "{remedy:?}"
        );
        if let Some(changed) = by_hand(plan, &remedy.change, false, options) {
            assert!(passes(&changed), "{:?}", remedy.change);
        }
        // The step before is at or above the required depth of every post, or the
        // hole would be too shallow: it fails in either case.
        if let Some(less) = by_hand(plan, &remedy.change, true, options) {
            assert!(
                !passes(&less),
                "one step less than {:?} passes",
                remedy.change
            );
        }
    }
    let tried = RemedyKind::ALL
        .iter()
        .filter(|kind| options.tries(**kind))
        .count();
    if !remedies.failing.is_empty() {
        assert_eq!(remedies.found.len() + remedies.others.len(), tried);
    }
    remedies
}

#[test]
fn a_shallow_hole_is_mended_by_every_kind_that_helps() {
    let options = RemedyOptions::default();
    let plan = plan(5.0, pipe(4.0, 0.16), 12.0, 45.0);
    let remedies = verify(&plan, &options);
    // The required depth by the formula, rounded up: nothing else depends on depth.
    let schedule = plan.schedule().unwrap();
    let required = schedule
        .posts()
        .map(|post| post.check.required.depth().to(inch));
    let required = required.fold(0.0, f64::max).ceil();
    let Some(Change::Depth(depth)) = remedies.of_kind(RemedyKind::Depth).map(|r| r.change) else {
        panic!("{remedies:?}");
    };
    assert!((depth.to(inch) - required).abs() < 1e-9);
    assert!(remedies.of_kind(RemedyKind::HoleWidth).is_some());
    assert!(remedies.of_kind(RemedyKind::Spacing).is_some());
    assert!(remedies.of_kind(RemedyKind::Height).is_some());
    let pole = remedies.of_kind(RemedyKind::IsolatedPole).unwrap();
    assert_eq!(pole.condition, Some(Condition::HalfInchOfMovement));
    let paved = remedies.of_kind(RemedyKind::Paving).unwrap();
    assert_eq!(paved.condition, Some(Condition::RigidPavement));
    // A stronger pipe does not bear more on the ground: the hole does.
    assert!(matches!(
        remedies.why_not(RemedyKind::LargerPost),
        Some(WhyNot::NotApplicable(_))
    ));
    assert!(matches!(
        remedies.why_not(RemedyKind::Concrete),
        Some(WhyNot::NotApplicable(_))
    ));
}

#[test]
fn a_weak_post_is_mended_by_a_larger_one_not_by_depth() {
    let plan = plan(12.0, pipe(1.9, 0.12), 12.0, 96.0);
    let remedies = verify(&plan, &RemedyOptions::default());
    assert!(matches!(
        remedies.why_not(RemedyKind::Depth),
        Some(WhyNot::FailsAtAnyDepth {
            governing: Governing::Bending,
            ..
        })
    ));
    let larger = remedies.of_kind(RemedyKind::LargerPost).unwrap();
    let Change::LargerPost(post) = larger.change else {
        panic!("{larger:?}");
    };
    // The next smaller pipe of the same steel fails.
    let sizes = [1.9, 2.375, 2.875, 4.0];
    let index = sizes
        .iter()
        .position(|size| (post.section().face_width() - inch(*size)).abs() < inch(1e-9));
    let walls = [0.12, 0.13, 0.16, 0.16];
    let before = index.unwrap() - 1;
    let design = plan
        .design()
        .with_post(pipe(sizes[before], walls[before]))
        .unwrap();
    let smaller = FencePlan::new(*plan.site(), plan.fence().clone(), design);
    assert!(!passes(&smaller.with_planned_depth(inch(96.0))));
    let schedule = plan.schedule().unwrap();
    let dig = schedule.depth_to_dig(3, inch(1.0)).unwrap();
    let reason = dig.reason().unwrap();
    assert!(reason.is_independent_of_depth && reason.governing == Governing::Bending);
    assert!(reason.text(UnitSystem::Us).contains("at any depth"));
}

#[test]
fn timber_of_a_table_takes_the_values_of_its_size() {
    let side = inch(3.5);
    let values = DesignValues::of(Species::SouthernPine, Grade::No2, side).unwrap();
    let square = Square::new(side).unwrap();
    let post = TimberPost::new(square, values, Moisture::Wet, Treatment::NotIncised).unwrap();
    let plan = plan(8.0, post.into(), 16.0, 90.0);
    let remedies = verify(&plan, &RemedyOptions::default());
    let larger = remedies.of_kind(RemedyKind::LargerPost).unwrap();
    let Change::LargerPost(Post::Timber(post)) = larger.change else {
        panic!("{larger:?}");
    };
    let values = DesignValues::of(Species::SouthernPine, Grade::No2, inch(5.5)).unwrap();
    assert_eq!((post.section().side(), *post.values()), (inch(5.5), values));
}

#[test]
fn soil_in_the_hole_is_replaced_by_concrete() {
    let ground = Ground::presumptive(SoilClass::Class4);
    let hole = Hole::round(inch(16.0)).unwrap();
    let set = PostDesign::set_in(ground, pipe(4.0, 0.16), Setting::TampedSoil, hole).unwrap();
    let wind = DirectPressure::new(psf(4.0), AllowableStress::Basic)
        .unwrap()
        .acting_at(0.5)
        .unwrap();
    let plan = FencePlan::new(wind, fence(8.0), set).with_planned_depth(inch(54.0));
    let remedies = verify(&plan, &RemedyOptions::default());
    let poured = remedies.of_kind(RemedyKind::Concrete).unwrap();
    assert_eq!(poured.change, Change::Concrete(hole));
    let by_hand = design(pipe(4.0, 0.16), 16.0);
    let poured = FencePlan::new(wind, fence(8.0), by_hand).with_planned_depth(inch(54.0));
    assert!(passes(&poured) && !passes(&plan));
    assert!(matches!(
        remedies.why_not(RemedyKind::HoleWidth),
        Some(WhyNot::NotApplicable(_))
    ));
}

/// The frost job: the required depth by the formula is no depth to dig.
#[test]
fn a_depth_is_given_only_where_frost_passes_too() {
    let frost = FrostOptions::new(inch(30.0), Grip::FineGrained).unwrap();
    let plan = plan(5.0, pipe(4.0, 0.16), 12.0, 36.0)
        .with_site_checks(SiteChecks::default().with_frost(frost));
    let remedies = verify(&plan, &RemedyOptions::default());
    let schedule = plan.schedule().unwrap();
    for post in schedule.posts() {
        let number = post.post.number;
        match schedule.depth_to_dig(number, inch(1.0)).unwrap() {
            DepthToDig::Passes(depth) => {
                assert!(
                    schedule
                        .post_at(number, depth)
                        .unwrap()
                        .passes_every_check()
                );
            }
            none => {
                // Every inch to 12 ft fails, by an independent scan.
                assert!((1..=144_u32).all(|d| {
                    !schedule
                        .post_at(number, inch(f64::from(d)))
                        .unwrap()
                        .passes_every_check()
                }));
                assert_eq!(none.reason().unwrap().governing, Governing::FrostUplift);
                assert!(schedule.dug(number, inch(1.0)).unwrap().is_err());
            }
        }
    }
    assert!(remedies.of_kind(RemedyKind::Depth).is_none());
    let lines = remedies.lines(UnitSystem::Us);
    assert_eq!(
        remedies.found.is_empty(),
        lines == ["no single change tried makes every check pass"]
    );
    let sum = schedule.materials_to_dig(None, inch(1.0)).unwrap();
    assert_eq!((sum.posts, sum.left_out), (0, 0));
}

#[test]
fn a_passing_plan_needs_no_change() {
    let plan = plan(1.0, pipe(4.0, 0.16), 18.0, 60.0);
    let remedies = of_plan(&plan, &RemedyOptions::default()).unwrap();
    assert!(remedies.failing.is_empty() && remedies.found.is_empty() && remedies.trials == 0);
    assert!(remedies.others.is_empty());
    assert!(of_post(&plan, 0, &RemedyOptions::default()).is_err());
    assert!(of_post(&plan, 8, &RemedyOptions::default()).is_err());
}

#[test]
fn one_post_is_mended_alone() {
    let good = plan(5.0, pipe(4.0, 0.16), 12.0, 84.0);
    assert!(passes(&good));
    let plan = good.clone().with_post(4, *good.design(), Some(inch(30.0)));
    let whole = of_plan(&plan, &RemedyOptions::default()).unwrap();
    let one = of_post(&plan, 4, &RemedyOptions::default()).unwrap();
    assert_eq!((&whole.failing, &one.failing), (&vec![4], &vec![4]));
    let depth = |remedies: &Remedies| remedies.of_kind(RemedyKind::Depth).map(|r| r.change);
    assert!(depth(&one).is_some());
    assert_eq!(depth(&whole), depth(&one));
    // Posts that pass stay as they are.
    let changed = one
        .applied(&plan, one.of_kind(RemedyKind::Depth).unwrap())
        .unwrap();
    let schedule = changed.schedule().unwrap();
    assert_eq!(schedule.post(3).unwrap().check.depth(), inch(84.0));
    assert!(schedule.post(4).unwrap().check.depth() < inch(84.0));
    assert!(
        of_post(&plan, 3, &RemedyOptions::default())
            .unwrap()
            .failing
            .is_empty()
    );
}

/// A hole 13 % too shallow is used far above 1.13: the missing depth says how much.
#[test]
fn missing_depth_stands_beside_the_utilization() {
    let deep = plan(5.0, pipe(4.0, 0.16), 12.0, 36.0);
    let required = deep
        .schedule()
        .unwrap()
        .post(3)
        .unwrap()
        .check
        .required
        .depth();
    let shallow = deep.with_planned_depth(required * 0.87);
    let post = shallow.schedule().unwrap().post(3).unwrap();
    let missing = post.check.missing_depth().unwrap();
    assert!((missing - required * 0.13).abs() < inch(1e-9));
    let used = post.check.utilization_of(Governing::Embedment).ratio();
    assert!(used > 1.25, "{used}");
    let enough = shallow.with_planned_depth(required * (1.0 + 1e-12));
    assert_eq!(
        enough
            .schedule()
            .unwrap()
            .post(3)
            .unwrap()
            .check
            .missing_depth(),
        None
    );
    let rules = enough.schedule().unwrap();
    for rule in groundline::embedment::DepthRule::ALL {
        let compared = rules.compare(rule).unwrap();
        assert_eq!(compared.missing.is_some(), compared.failing > 0);
    }
}

#[test]
fn the_wind_held_is_the_wind_at_which_the_check_is_full() {
    let plan = plan(9.0, pipe(4.0, 0.16), 12.0, 60.0);
    let held = plan.schedule().unwrap().wind_held(3).unwrap();
    assert!((held.demand.unwrap().to(psf) - 9.0).abs() < 1e-9);
    // Independently: the greatest pressure by trials of the site itself.
    let search = Search::new(psf(0.5), psf(40.0), psf(0.01)).unwrap();
    let solution = greatest_wind(&plan, search).unwrap();
    let greatest = solution.value().unwrap().to(psf);
    let schedule = plan.schedule().unwrap();
    let held = schedule
        .posts()
        .map(|post| schedule.wind_held(post.post.number).unwrap());
    let held = held.map(|held| held.pressure.unwrap().to(psf));
    let least = held.fold(f64::INFINITY, f64::min);
    assert!((least - greatest).abs() <= 0.0101, "{least} {greatest}");
    let unplanned = FencePlan::new(*plan.site(), plan.fence().clone(), *plan.design());
    assert!(unplanned.schedule().unwrap().wind_held(3).is_err());
    // Frost that fails without wind leaves no wind to hold.
    let frost = FrostOptions::new(inch(70.0), Grip::FineGrained).unwrap();
    let frozen = plan.with_site_checks(SiteChecks::default().with_frost(frost));
    let held = frozen.schedule().unwrap().wind_held(3).unwrap();
    assert_eq!((held.share, held.governing), (0.0, Governing::FrostUplift));
}

/// A site of ASCE 7 whose hole holds more than 40 mph of wind but not the minimum.
#[test]
fn the_greatest_wind_names_the_minimum_where_it_governs() {
    let v = BasicWindSpeed::strength_level(mph(115.0)).unwrap();
    let site = AsceSite::new(Edition::Asce7_22, v, Exposure::B);
    let at = |depth: f64| {
        FencePlan::new(site, fence(6.0), design(pipe(4.0, 0.16), 12.0))
            .with_planned_depth(inch(depth))
    };
    let mut governed = 0;
    for depth in (30..110).step_by(4) {
        let plan = at(f64::from(depth));
        let solution = greatest_wind(&plan, AsceSite::search()).unwrap();
        let Answer::MinimumGoverns(speed) = solution.answer else {
            assert!(solution.minimum.is_none());
            continue;
        };
        governed += 1;
        let minimum = solution.minimum.as_ref().unwrap();
        assert_eq!((solution.value(), minimum.value), (None, speed));
        assert_eq!(solution.answer.value_without_minimum(), Some(speed));
        assert!((minimum.pressure.to(psf) - 16.0).abs() < 1e-9);
        assert!(minimum.worst.passes() && !solution.utilization().passes());
        // With the minimum the plan fails at that speed too.
        let v = BasicWindSpeed::strength_level(speed).unwrap();
        let with = plan.clone().with_site(site.with_speed(v));
        assert!(with.schedule().unwrap().posts().any(|post| !post.passes()));
        // Loads without the minimum go with the square of the speed.
        let share = |plan: &FencePlan| {
            let schedule = plan.schedule().unwrap();
            let shares = schedule
                .posts()
                .map(|post| schedule.wind_held(post.post.number).unwrap().share);
            shares.fold(f64::INFINITY, f64::min)
        };
        let full = share(&minimum.plan);
        assert!((1.0..1.01).contains(&full), "{full}");
        let sheet = solution.worksheet(UnitSystem::Us);
        assert!(sheet.steps().any(|step| step.symbol == "pmin"));
    }
    assert!(governed > 0);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Remedies verified on plans built anew; SI steps and US steps of the same size
    /// agree, and so does a plan converted to metres.
    #[test]
    fn remedies_pass_and_are_the_least(
        pressure in 2.0..14.0_f64,
        hole in 8.0..24.0_f64,
        depth in 24.0..90.0_f64,
        strong in any::<bool>(),
    ) {
        let post = if strong { pipe(4.0, 0.16) } else { pipe(2.375, 0.13) };
        let plan = plan(pressure, post, hole, depth);
        let us = verify(&plan, &RemedyOptions::default());
        let si = RemedyOptions::of(UnitSystem::Si);
        let metric = verify(&plan, &si);
        prop_assert_eq!(&us.failing, &metric.failing);
        let depth = |remedies: &Remedies| match remedies.of_kind(RemedyKind::Depth)?.change {
            Change::Depth(depth) => Some(depth),
            _ => None,
        };
        if let (Some(us), Some(si)) = (depth(&us), depth(&metric)) {
            prop_assert!((us - si).abs() <= digging_step(UnitSystem::Us));
        }
        for kind in [RemedyKind::IsolatedPole, RemedyKind::Paving, RemedyKind::LargerPost] {
            prop_assert_eq!(us.of_kind(kind), metric.of_kind(kind));
        }
        let same = RemedyOptions::of(UnitSystem::Us)
            .with_depth_step(mm(25.4)).unwrap()
            .with_fence_step(mm(25.4)).unwrap();
        prop_assert_eq!(us, of_plan(&plan, &same).unwrap());
    }
}
