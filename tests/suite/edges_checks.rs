//! Checks of one post at their edges: the order of load cases, weights, cautions on both
//! sides of their limit, what was asked, and sums.

use crate::samples::{pine, pipe};
use groundline::actions::{GroundlineActions, LoadCase};
use groundline::backfill::{Bag, Setting};
use groundline::caution::Caution;
use groundline::check::*;
use groundline::combination::Combination;
use groundline::fence::*;
use groundline::foundation::*;
use groundline::ground::*;
use groundline::limit_state::AllowableStress;
use groundline::plan::{FencePlan, ScheduledPost};
use groundline::post::*;
use groundline::report;
use groundline::section::{Disc, PostSection, Square, SquareTube, Tube};
use groundline::source::Mark;
use groundline::step::Origin;
use groundline::units::*;
use groundline::utilization::Utilization;
use groundline::wind::*;
use std::collections::BTreeSet;
use std::f64::consts::PI;

fn site() -> AsceSite {
    let speed = BasicWindSpeed::strength_level(mph(105.0)).unwrap();
    AsceSite::new(Edition::Asce7_22, speed, Exposure::B)
}

fn ground() -> Ground {
    Ground::presumptive(SoilClass::Class4)
}

fn concrete(post: impl Into<Post>, hole: f64) -> PostDesign {
    PostDesign::in_concrete(ground(), post.into(), Hole::round(inch(hole)).unwrap()).unwrap()
}

fn run(height: f64, weight: f64, length: f64, spacing: f64) -> FenceRun {
    let panel = Panel::new(ft(height)).unwrap();
    let panel = panel.with_weight(psf(weight)).unwrap();
    FenceRun::new(panel, ft(length), ft(spacing)).unwrap()
}

/// A fence with corner and gate, so that posts have several cases.
fn corner() -> Fence {
    let gate = Gate::new(ft(16.0), ft(4.0), lb(120.0), Hinges::AtStart).unwrap();
    let first = run(6.0, 3.0, 36.0, 8.0).with_gate(gate).unwrap();
    Fence::new(first)
        .turning(deg(60.0), run(5.0, 2.0, 20.0, 4.0))
        .unwrap()
}

fn posts(plan: &FencePlan) -> Vec<ScheduledPost> {
    plan.schedule().unwrap().posts().collect()
}

/// The worst case is found wherever it stands.
#[test]
fn the_order_of_cases_does_not_matter() {
    let design = concrete(pipe(2.875, 0.16), 12.0);
    let plan = FencePlan::new(site(), corner(), design).with_planned_depth(ft(4.0));
    let mut several = 0;
    for post in posts(&plan) {
        let cases: Vec<LoadCase> = post.cases.iter().copied().collect();
        several += usize::from(cases.len() > 1);
        let depths = cases.iter().map(|case| {
            let one = PostCheck::new(&design, &[*case], None).unwrap();
            one.required.depth()
        });
        let deepest = depths.reduce(Length::max).unwrap();
        for turn in 0..cases.len() {
            let mut turned = cases.clone();
            turned.rotate_left(turn);
            for order in [turned.clone(), turned.into_iter().rev().collect()] {
                let check = PostCheck::new(&design, &order, Some(ft(4.0))).unwrap();
                assert_eq!(check.required.depth(), deepest);
                assert_eq!(check.utilization, post.check.utilization);
                assert_eq!(check.strength.worst(), post.check.strength.worst());
                let planned = |check: &PostCheck| check.planned.unwrap().utilization();
                assert_eq!(planned(&check), planned(&post.check));
            }
        }
    }
    assert!(several > 1);
}

/// Against frost the least weight of any case counts, times the factor of weight that
/// relieves; by hand: (dead + concrete) times the factor.
#[test]
fn the_least_weight_holds_against_frost() {
    let design = concrete(pipe(2.875, 0.16), 12.0);
    let frost = FrostOptions::new(inch(24.0), Grip::FineGrained).unwrap();
    let asked = SiteChecks::default().with_frost(frost);
    let of = |weight: f64| {
        let fence = Fence::new(run(6.0, weight, 48.0, 8.0));
        posts(&FencePlan::new(site(), fence, design).with_planned_depth(ft(4.0)))[3]
    };
    let (light, heavy) = (of(1.0), of(5.0));
    let check = light.check;
    let (light, heavy) = (light.cases[0], heavy.cases[0]);
    assert!(light.dead.axial() < heavy.dead.axial());
    let factor = 0.6;
    // The pipe stands in the concrete of a round hole of 1 ft.
    let footing = 145.0 * PI / 4.0 * (1.0 - (2.875_f64 / 12.0).powi(2)) * 4.0;
    for cases in [vec![light, heavy], vec![heavy, light], vec![light]] {
        let made = asked.of(&check, &cases, ft(6.0));
        let made = made.frost.done().unwrap();
        assert_eq!(made.dead, light.dead.axial());
        assert!((made.relieving - factor).abs() < 1e-12);
        let holds = (light.dead.axial().to(lb) + footing) * factor;
        assert!((made.balance.holds.to(lb) / holds - 1.0).abs() < 1e-9);
    }
    let none = asked.of(&check, &[], ft(6.0));
    assert!(none.frost.refusal().is_some());
}

/// The couple of a leaf goes with the factor of dead load.
#[test]
fn leaves_lean_with_the_factor_of_dead_load() {
    let lean = LeanOptions::new(GroundStiffness::constant(mpa(4.0)).unwrap());
    let of = |dead: f64| {
        let set = Combination::of(AllowableStress::Basic);
        let set = set.with_factors(0.6, dead, 0.6).unwrap();
        let design = concrete(pipe(2.875, 0.16), 12.0).with_combination(set);
        let plan = FencePlan::new(site(), corner(), design)
            .with_planned_depth(ft(4.0))
            .with_site_checks(SiteChecks::default().with_lean(lean));
        let all = posts(&plan).into_iter();
        all.map(|post| post.site.lean.done().unwrap().couples)
            .reduce(Torque::max)
            .unwrap()
    };
    let once = of(1.0);
    assert!(once > lb_ft(0.0));
    for dead in [0.5, 1.4, 3.0] {
        assert!(
            (of(dead) / once - number(dead)).abs() < number(1e-12),
            "{dead}"
        );
    }
}

/// Nearer than three widths of footing, or than 4.5 of post, bays are close.
#[test]
fn close_spacing_on_both_sides() {
    let close = |design: PostDesign, spacing: f64| {
        let fence = Fence::new(run(6.0, 0.0, spacing * 6.0, spacing));
        let plan = FencePlan::new(site(), fence, design).with_planned_depth(ft(6.0));
        let all = posts(&plan);
        let is = |post: &ScheduledPost| post.cautions().contains(Caution::CloseSpacing);
        let first = is(&all[0]);
        assert!(all.iter().all(|post| is(post) == first));
        first
    };
    // A round hole of 24 in: 6 ft.
    let wide = concrete(pipe(2.875, 0.16), 24.0);
    assert!(close(wide, 5.99) && !close(wide, 6.01));
    // A driven pipe of 12.75 in bears on its own width: 3 b is 3.19 ft, 4.5 of the face
    // 4.78 ft.
    let driven = PostDesign::driven(ground(), pipe(12.75, 0.375).into());
    assert!(close(driven, 4.77) && !close(driven, 4.79));
    // One close bay behind a wide gate: both its posts are close, and no other.
    let gate = Gate::new(ft(16.0), ft(12.0), lb(120.0), Hinges::AtStart).unwrap();
    let fence = Fence::new(run(6.0, 0.0, 32.0, 8.0).with_gate(gate).unwrap());
    let plan = FencePlan::new(site(), fence, wide).with_planned_depth(ft(6.0));
    let all: Vec<_> = posts(&plan)
        .iter()
        .map(|post| post.cautions().contains(Caution::CloseSpacing))
        .collect();
    assert_eq!(all, [false, false, false, true, true]);
}

/// Posts above 12 ft are flexible.
#[test]
fn tall_posts_on_both_sides() {
    for (height, tall) in [(11.99, false), (12.0, false), (12.01, true)] {
        let fence = Fence::new(run(height, 0.0, 24.0, 8.0));
        let plan = FencePlan::new(site(), fence, concrete(pipe(4.0, 0.226), 18.0));
        for post in posts(&plan) {
            assert_eq!(
                post.cautions().contains(Caution::Flexible),
                tall,
                "{height}"
            );
        }
    }
}

#[test]
fn what_is_asked_is_known() {
    let empty = SiteChecks::default();
    assert!(empty.is_empty());
    let frost = FrostOptions::new(inch(24.0), Grip::FineGrained).unwrap();
    for asked in [
        empty.with_lean(LeanOptions::new(
            GroundStiffness::constant(mpa(4.0)).unwrap(),
        )),
        empty.with_frost(frost),
        empty.with_uplift(UpliftOptions::new(lb(100.0)).unwrap()),
        empty.with_axial(AxialOptions::default()),
        empty.with_materials(MaterialOptions::new(Bag::lb_80())),
    ] {
        assert!(!asked.is_empty());
    }
}

/// A utilization beyond all bounds is told as such: neither lean nor weight and bending
/// has a line then that would give another number.
#[test]
fn without_any_capacity() {
    let pipe = PostSection::Tube(Tube::new(inch(2.375), inch(0.154)).unwrap());
    let post = GivenPost::new(pipe, lb_ft(1.0), lb(1.0)).unwrap();
    let post = post.with_rigidity(n_sq_m(1e9)).unwrap();
    let soft = LeanOptions::new(GroundStiffness::constant(kpa(10.0)).unwrap());
    let soft = soft.with_limit(0.001).unwrap();
    let lean = SiteChecks::default().with_lean(soft.with_rigidity(n_sq_m(1.0)).unwrap());
    let axial = AxialOptions::default().with_capacity(lb(1e6)).unwrap();
    let axial = SiteChecks::default().with_axial(axial);
    for (height, some) in [(0.5, true), (20.0, false)] {
        for (asked, symbol) in [(lean, "ul"), (axial, "ua")] {
            let fence = Fence::new(run(height, 0.1, 120.0, 40.0));
            let wind = DirectPressure::new(psf(200.0), AllowableStress::Basic)
                .unwrap()
                .acting_at(0.5)
                .unwrap();
            let plan = FencePlan::new(wind, fence, concrete(post, 14.0))
                .with_planned_depth(ft(5.0))
                .with_site_checks(asked);
            let schedule = plan.schedule().unwrap();
            let post = schedule.posts().nth(2).unwrap();
            let found = if symbol == "ul" {
                post.site.lean.done().unwrap().utilization.unwrap()
            } else {
                let axial = post.site.axial.done().unwrap();
                // It is not for its weight that it has none.
                assert!(axial.amplification < 1.1);
                axial.utilization
            };
            assert_eq!(found < Utilization::NO_CAPACITY, some, "{symbol} {found}");
            let sheet = schedule.worksheet(&post, UnitSystem::Us);
            assert_eq!(sheet.steps().any(|step| step.symbol == symbol), some);
        }
    }
}

/// Each caution of the checks asked for, where it belongs and not elsewhere.
#[test]
fn cautions_of_what_was_asked() {
    let fence = Fence::new(run(6.0, 4.0, 48.0, 8.0));
    let of = |design: PostDesign, asked: SiteChecks| {
        let plan = FencePlan::new(site(), fence.clone(), design)
            .with_planned_depth(ft(5.0))
            .with_site_checks(asked);
        posts(&plan)[2]
    };
    let empty = SiteChecks::default();
    let axial = empty.with_axial(AxialOptions::default());
    let stiff = LeanOptions::new(GroundStiffness::constant(mpa(4.0)).unwrap());
    for post in [Post::from(pipe(4.0, 0.226)), Post::from(pine(5.5))] {
        let design = concrete(post, 14.0);
        let own = of(design, empty).cautions();
        let with = of(design, axial);
        let Some(made) = with.site.axial.done() else {
            // Timber of a species has no Fc here.
            assert!(with.cautions().contains(Caution::NotAllChecked));
            continue;
        };
        let memory = made.source().mark == Mark::FromMemory;
        assert_eq!(
            with.cautions().contains(Caution::FromMemory),
            own.contains(Caution::FromMemory) || memory
        );
        assert!(!own.contains(Caution::FixedFoot));
        assert!(with.cautions().contains(Caution::FixedFoot));
        assert!(!with.cautions().contains(Caution::NotAllChecked));
        let turning = of(design, axial.with_lean(stiff));
        assert!(!turning.cautions().contains(Caution::FixedFoot));
    }
    let design = concrete(pipe(4.0, 0.226), 14.0);
    let friction = |friction| {
        let up = UpliftOptions::new(lb(50.0)).unwrap();
        let up = up.with_friction(friction).unwrap();
        of(design, empty.with_uplift(up)).cautions()
    };
    assert!(friction(SideFriction::Tested(psf(300.0))).contains(Caution::FieldTests));
    assert!(!friction(SideFriction::Allowable(psf(300.0))).contains(Caution::FieldTests));
    let frost = FrostOptions::new(inch(24.0), Grip::FineGrained).unwrap();
    for (friction, tested) in [
        (SideFriction::Tested(psf(300.0)), true),
        (SideFriction::Allowable(psf(300.0)), false),
    ] {
        let asked = empty.with_frost(frost.with_friction(friction).unwrap());
        let cautions = of(design, asked).cautions();
        assert_eq!(cautions.contains(Caution::FieldTests), tested);
        assert!(cautions.contains(Caution::FrostChecked) && !cautions.contains(Caution::Frost));
    }
    let up = UpliftOptions::new(lb(50.0)).unwrap();
    let bonded = of(
        concrete(pine(5.5), 14.0),
        empty.with_uplift(up.with_wood_bond()),
    );
    assert!(bonded.cautions().contains(Caution::Shrinkage));
    let loose = of(concrete(pine(5.5), 14.0), empty.with_uplift(up));
    assert!(!loose.cautions().contains(Caution::Shrinkage));
    // A bond of one's own shrinks only where wood stands in concrete.
    let own = empty.with_uplift(up.with_bond(psf(500.0)).unwrap());
    let foam = |post: Post| {
        let hole = Hole::round(inch(14.0)).unwrap();
        PostDesign::set_in(ground(), post, Setting::ExpandingFoam, hole).unwrap()
    };
    for (design, shrinks) in [
        (concrete(pine(5.5), 14.0), true),
        (concrete(pipe(4.0, 0.226), 14.0), false),
        (foam(pine(5.5).into()), false),
        (foam(pipe(4.0, 0.226).into()), false),
    ] {
        let post = of(design, own);
        assert!(post.site.uplift.done().unwrap().bond.is_some());
        assert_eq!(post.cautions().contains(Caution::Shrinkage), shrinks);
    }
}

/// Weight, bearing and their cautions, and the source of whatever governs.
#[test]
fn cautions_and_sources_of_a_check() {
    let check = |design: &PostDesign, shear: f64, moment: f64, axial: f64, depth: f64| {
        let level = AllowableStress::Basic;
        let load = GroundlineActions::new(lb(shear), lb_ft(moment), lb(axial), level).unwrap();
        PostCheck::of_actions(design, &load, Some(ft(depth))).unwrap()
    };
    let design = concrete(pipe(2.375, 0.13), 12.0);
    for (weight, none) in [(0.0, true), (0.01, false), (100.0, false)] {
        let found = check(&design, 150.0, 500.0, weight, 4.0).cautions();
        assert_eq!(found.contains(Caution::NoWeight), none, "{weight}");
        assert!(!found.contains(Caution::NoVerticalBearing));
    }
    let own = Ground::given(LateralBearing::new(pcf(150.0)).unwrap());
    let bare = design.in_ground(own);
    let found = check(&bare, 150.0, 500.0, 100.0, 4.0).cautions();
    assert!(found.contains(Caution::NoVerticalBearing) && !found.contains(Caution::NoWeight));
    let set = Combination::of(AllowableStress::Basic);
    let factors = set.with_factors(0.6, 1.0, 0.5).unwrap();
    let found = check(&design.with_combination(factors), 150.0, 500.0, 100.0, 4.0);
    assert!(found.cautions().contains(Caution::OwnFactors));
    let found = check(&design, 150.0, 500.0, 100.0, 4.0);
    assert!(!found.cautions().contains(Caution::OwnFactors));
    // What governs, by loads that only it cannot carry.
    let given = |moment: f64, shear: f64| {
        let section = Tube::new(inch(2.375), inch(0.13)).unwrap();
        let post = GivenPost::new(section.into(), lb_ft(moment), lb(shear)).unwrap();
        concrete(post, 12.0)
    };
    let (weak, brittle) = (given(300.0, 9_000.0), given(90_000.0, 100.0));
    for (design, axial, depth, governing) in [
        (&design, 100.0, 2.0, Governing::Embedment),
        (&weak, 100.0, 8.0, Governing::Bending),
        (&brittle, 100.0, 8.0, Governing::Shear),
        (
            &given(90_000.0, 9_000.0),
            90_000.0,
            8.0,
            Governing::VerticalBearing,
        ),
    ] {
        let found = check(design, 150.0, 500.0, axial, depth);
        assert_eq!(found.governing, governing);
        let strength = found.strength.strength;
        let expected = match governing {
            Governing::Embedment => found.required.equation().citation().id,
            Governing::Bending => strength.moment_source.id,
            Governing::Shear => strength.shear_source.id,
            _ => "ibc/1807.3.2.3",
        };
        assert_eq!(found.source().id, expected);
        let failing: Vec<_> = found.failing().collect();
        assert!(failing.contains(&governing), "{governing} {failing:?}");
        assert!(!found.passes());
        assert_eq!(found.utilization_of(governing), found.utilization);
    }
    let timber = check(&concrete(pine(5.5), 14.0), 100.0, 4_000.0, 100.0, 9.0);
    assert_eq!(timber.governing, Governing::Bending);
    assert_eq!(
        timber.source().id,
        timber.strength.strength.moment_source.id
    );
}

/// Sums of quantities are those of the posts.
#[test]
fn quantities_add_up() {
    let options = MaterialOptions::new(Bag::lb_80());
    let options = options.with_base(inch(4.0)).unwrap();
    let options = options.with_waste(0.1).unwrap();
    let design = concrete(pipe(2.875, 0.16), 12.0);
    let plan = FencePlan::new(site(), corner(), design)
        .with_planned_depth(ft(4.0))
        .with_site_checks(SiteChecks::default().with_materials(options));
    let schedule = plan.schedule().unwrap();
    let sum = schedule.materials(None);
    let count = schedule.posts().count();
    assert_eq!((sum.posts, sum.left_out), (count, 0));
    let n = f64::from(u32::try_from(count).unwrap());
    // A round hole of 1 ft, 4 ft and a base of 4 in; the pipe stands in the fill only.
    let area = PI / 4.0;
    let fill = (area - PI / 4.0 * (2.875_f64 / 12.0).powi(2)) * 4.0;
    for (found, expected) in [
        (sum.hole, area * (4.0 + 1.0 / 3.0)),
        (sum.base, area / 3.0),
        (sum.fill, fill),
    ] {
        assert!((found.to(cu_ft) / (n * expected) - 1.0).abs() < 1e-9);
    }
    // 0.6 ft3 of an 80 lb bag (published by makers), and a tenth more.
    let exact = fill / 0.6 * 1.1;
    assert!((sum.exact / (n * exact) - 1.0).abs() < 1e-9);
    assert_eq!(sum.bags, n * exact.ceil());
    assert!((sum.carry.to(lb) / (n * exact.ceil() * 80.0) - 1.0).abs() < 1e-9);
    assert_eq!(sum.least_bags(), (n * exact).ceil());
}

/// Names are distinct and of the trade.
#[test]
fn names_are_distinct() {
    let names: BTreeSet<_> = Governing::ALL.iter().map(|check| check.name()).collect();
    assert_eq!(names.len(), Governing::ALL.len());
    for (check, word) in Governing::ALL.iter().zip([
        "embedment",
        "bending",
        "shear",
        "bearing",
        "lean",
        "frost",
        "pull",
        "axial",
    ]) {
        assert!(check.name().contains(word), "{check}");
        assert_eq!(check.to_string(), check.name());
    }
    let forms = [
        (LeanForm::Rigid, "rigid", "constant"),
        (LeanForm::Finite, "finite", "constant"),
        (LeanForm::Endless, "endless", "constant"),
        (LeanForm::RigidGrowing, "rigid", "growing"),
        (LeanForm::FiniteGrowing, "finite", "growing"),
        (LeanForm::LongGrowing, "long", "growing"),
    ];
    for (form, post, soil) in forms {
        assert!(form.name().contains(post) && form.name().contains(soil));
    }
    let id = |form: LeanForm| form.source().id;
    assert_eq!(id(LeanForm::Rigid), id(LeanForm::RigidGrowing));
    assert_eq!(id(LeanForm::Finite), id(LeanForm::Endless));
    let sources: BTreeSet<_> = forms.iter().map(|(form, ..)| id(*form)).collect();
    assert_eq!(sources.len(), 4);
}

/// Reports hold every step and section of a sheet, as text and as a table.
#[test]
fn reports_are_not_empty() {
    let design = concrete(pipe(2.875, 0.16), 12.0);
    let plan = FencePlan::new(site(), corner(), design).with_planned_depth(ft(4.0));
    let schedule = plan.schedule().unwrap();
    let post = schedule.post(2).unwrap();
    let sheet = schedule.worksheet(&post, UnitSystem::Us);
    assert!(sheet.steps().count() > 10);
    for text in [
        report::text(&sheet).to_string(),
        report::markdown(&sheet).to_string(),
    ] {
        for step in sheet.steps() {
            assert!(text.contains(step.meaning), "{}", step.meaning);
        }
        for caution in post.cautions().iter() {
            assert!(text.contains(caution.text()), "{caution:?}");
        }
    }
    assert!(post.cautions().iter().count() > 3);
    let text = report::text(&sheet).to_string();
    for step in sheet.steps().filter(|step| step.origin == Origin::Computed) {
        assert!(text.contains(&*step.formula), "{}", step.formula);
    }
}

/// Limits of what is asked, just inside and just outside, as their docs say.
#[test]
fn limits_of_what_is_asked() {
    macro_rules! limits {
        ($($make:expr, $least:expr, $most:expr, $unit:expr;)+) => { $(
            let make = |value: f64| ($make)($unit(value)).is_ok();
            let (least, most): (f64, f64) = ($least, $most);
            assert!(make(least * 1.000_001) && make(most * 0.999_999), stringify!($make));
            assert!(!make(most * 1.000_001), stringify!($make));
            assert!(!make(if least == 0.0 { -1e-6 } else { least * 0.999_999 }), stringify!($make));
            assert!(!make(f64::NAN) && !make(f64::INFINITY), stringify!($make));
        )+ };
    }
    let lean = LeanOptions::new(GroundStiffness::constant(mpa(4.0)).unwrap());
    let frost = FrostOptions::new(inch(24.0), Grip::FineGrained).unwrap();
    let up = UpliftOptions::new(lb(100.0)).unwrap();
    let plain = |value: f64| value;
    limits! {
        GroundStiffness::constant, 1.0, 1e8, kpa;
        GroundStiffness::growing, 10.0, 1e7, kn_per_cu_m;
        |value| lean.with_limit(value), 0.001, 0.25, plain;
        |value| lean.with_rigidity(value), 1.0, 1e12, n_sq_m;
        |value| frost.with_concrete(value), 60.0, 250.0, pcf;
        |value| up.with_concrete(value), 60.0, 250.0, pcf;
    }
}

/// What frost grips of a driven post is its outline: π d of round ones, four sides of
/// square ones.
#[test]
fn around_posts_of_every_section() {
    let frost = FrostOptions::new(inch(24.0), Grip::FineGrained).unwrap();
    let given = |section: PostSection| {
        Post::from(GivenPost::new(section, lb_ft(5_000.0), lb(5_000.0)).unwrap())
    };
    for (section, around) in [
        (PostSection::from(Disc::new(inch(6.0)).unwrap()), 6.0 * PI),
        (Square::new(inch(6.0)).unwrap().into(), 24.0),
        (Tube::new(inch(6.0), inch(0.2)).unwrap().into(), 6.0 * PI),
        (SquareTube::new(inch(6.0), inch(0.2)).unwrap().into(), 24.0),
    ] {
        let design = PostDesign::driven(ground(), given(section));
        let plan = FencePlan::new(site(), corner(), design)
            .with_planned_depth(ft(5.0))
            .with_site_checks(SiteChecks::default().with_frost(frost));
        assert_eq!(plan.planned_depth(), Some(ft(5.0)));
        let found = posts(&plan)[1].site.frost.done().unwrap().perimeter;
        assert!((found.to(inch) / around - 1.0).abs() < 1e-12);
    }
    let plan = FencePlan::new(site(), corner(), concrete(pipe(2.875, 0.16), 12.0));
    assert_eq!(plan.planned_depth(), None);
}

/// A source from memory is told of, and no other.
#[test]
fn memory_is_told_only_where_it_is() {
    let panel = Panel::new(ft(6.0)).unwrap().with_weight(psf(3.0)).unwrap();
    let fence = Fence::new(FenceRun::new(panel, ft(48.0), ft(8.0)).unwrap());
    let wind = DirectPressure::new(psf(5.0), AllowableStress::Basic)
        .unwrap()
        .acting_at(0.5)
        .unwrap();
    let section = Tube::new(inch(4.0), inch(0.226)).unwrap();
    let given = GivenPost::new(section.into(), lb_ft(9_000.0), lb(5_000.0)).unwrap();
    let given = given.with_rigidity(n_sq_m(2e5)).unwrap();
    let own = AxialOptions::default().with_capacity(lb(20_000.0)).unwrap();
    let set = Combination::of(AllowableStress::Basic);
    let set = set.with_factors(1.0, 1.0, 0.6).unwrap();
    let design = concrete(given, 14.0).with_combination(set);
    let plan = FencePlan::new(wind, fence.clone(), design).with_planned_depth(ft(5.0));
    let asked = SiteChecks::default().with_axial(own);
    let with = plan.clone().with_site_checks(asked);
    let of = |plan: &FencePlan<DirectPressure<AllowableStress>>| {
        plan.schedule().unwrap().post(3).unwrap()
    };
    let (plain, checked) = (of(&plan), of(&with));
    let memory = checked.site.axial.done().unwrap().source().mark == Mark::FromMemory;
    assert!(!plain.cautions().contains(Caution::FromMemory));
    assert_eq!(checked.cautions().contains(Caution::FromMemory), memory);
    // b of a post without a footing is IBC 1807.3.3, from memory; that of one driven or in
    // concrete is not.
    let hole = Hole::round(inch(14.0)).unwrap();
    let set = |setting| PostDesign::set_in(ground(), given.into(), setting, hole).unwrap();
    for (design, memory) in [
        (PostDesign::bare(ground(), given.into()), true),
        (set(Setting::CompactedGravel), true),
        (set(Setting::TampedSoil), true),
        (set(Setting::ExpandingFoam), true),
        (set(Setting::PouredConcrete), false),
        (PostDesign::driven(ground(), given.into()), false),
    ] {
        assert_eq!(design.cautions().contains(Caution::FromMemory), memory);
        let own = Combination::of(AllowableStress::Basic);
        let own = own.with_factors(1.0, 1.0, 0.6).unwrap();
        let plan = FencePlan::new(wind, fence.clone(), design.with_combination(own));
        let post = of(&plan.with_planned_depth(ft(5.0)));
        assert_eq!(post.cautions().contains(Caution::FromMemory), memory);
        let cites = |step: &groundline::step::Step| {
            step.citation
                .is_some_and(|source| source.id == "ibc/1807.3.3")
        };
        let sheet = post.check.worksheet("", UnitSystem::Us);
        assert_eq!(sheet.steps().any(cites), memory);
    }
}
