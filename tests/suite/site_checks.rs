//! The checks of a post that are made only where asked for: by hand from
//! statics, by other routes, and what must hold of them.

use crate::samples::{pine, pipe};
use crate::vectors::rows;
use crate::worksheet::recompute;
use crate::worksheet_whole::closed;
use approx::assert_relative_eq;
use groundline::Error;
use groundline::actions::GroundlineActions;
use groundline::backfill::{Bag, RestDays, Setting};
use groundline::caution::{Caution, Cautions};
use groundline::check::*;
use groundline::fence::*;
use groundline::foundation::*;
use groundline::ground::*;
use groundline::limit_state::AllowableStress;
use groundline::plan::{FencePlan, ScheduledPost};
use groundline::post::*;
use groundline::report;
use groundline::response::closed_form::{self, finite_growing};
use groundline::response::{PostModel, Springs};
use groundline::section::{PostSection, Tube};
use groundline::units::*;
use groundline::uplift::{FrozenGround, PullOutMode};
use groundline::utilization::Utilization;
use groundline::wind::*;
use proptest::prelude::*;
use std::f64::consts::PI;

/// 64 ft of fence, 6 ft high, posts 8 ft apart, 5 psf.
fn fence() -> Fence {
    let panel = Panel::new(ft(6.0)).unwrap().with_weight(psf(5.0)).unwrap();
    Fence::new(FenceRun::new(panel, ft(64.0), ft(8.0)).unwrap())
}

fn site() -> AsceSite {
    let speed = BasicWindSpeed::strength_level(mph(105.0)).unwrap();
    AsceSite::new(Edition::Asce7_22, speed, Exposure::B)
}

fn ground() -> Ground {
    Ground::presumptive(SoilClass::Class4)
}

fn concrete(post: impl Into<Post>) -> PostDesign {
    PostDesign::in_concrete(ground(), post.into(), Hole::round(inch(12.0)).unwrap()).unwrap()
}

#[expect(
    clippy::large_types_passed_by_value,
    reason = "a test says what it asks for in one line"
)]
fn plan(design: PostDesign, depth: Length, asked: SiteChecks) -> FencePlan {
    FencePlan::new(site(), fence(), design)
        .with_planned_depth(depth)
        .with_site_checks(asked)
}

/// The fourth post, in the middle of the run.
#[expect(
    clippy::large_types_passed_by_value,
    reason = "a test says what it asks for in one line"
)]
fn post(design: PostDesign, depth: Length, asked: SiteChecks) -> ScheduledPost {
    plan(design, depth, asked)
        .schedule()
        .unwrap()
        .post(4)
        .unwrap()
}

/// Shear and moment of the wind at grade, 0.6 W, by hand from the case.
fn service(post: &ScheduledPost) -> (f64, f64) {
    let case = post
        .cases
        .iter()
        .max_by(|a, b| a.wind.moment().value.total_cmp(&b.wind.moment().value))
        .unwrap();
    (
        0.6 * case.wind.shear().to(newton),
        0.6 * case.wind.moment().to(n_m),
    )
}

fn lean_of(post: &ScheduledPost) -> LeanCheck {
    *post.site.lean.done().unwrap()
}

fn clay() -> LeanOptions {
    LeanOptions::new(GroundStiffness::constant(mpa(4.0)).unwrap())
}

fn sand() -> LeanOptions {
    LeanOptions::new(GroundStiffness::growing(kn_per_cu_m(6_000.0)).unwrap())
}

fn lean(options: LeanOptions) -> SiteChecks {
    SiteChecks::default().with_lean(options)
}

fn frost(options: FrostOptions) -> SiteChecks {
    SiteChecks::default().with_frost(options)
}

#[test]
fn nothing_asked_nothing_changes() {
    let post = post(concrete(pine(5.5)), ft(4.0), SiteChecks::default());
    assert_eq!(post.site, SiteResults::NONE);
    assert_eq!(post.utilization(), post.check.utilization);
    assert_eq!(post.governing(), post.check.governing);
    assert_eq!(post.passes(), post.check.passes());
    assert!(post.failing().eq(post.check.failing()));
    assert!(post.cautions().contains(Caution::Frost));
    for absent in [
        Caution::FrostChecked,
        Caution::NotAllChecked,
        Caution::SetTooSoon,
    ] {
        assert!(!post.cautions().contains(absent));
    }
}

// Lean.

/// Deflection of the top by a spread of the wind, integrated: unit load at the
/// top, M(s) (h − s)/EI. The spread in N/m at a height.
fn integrated(spread: impl Fn(f64) -> f64, h: f64, ei: f64) -> (f64, f64, f64) {
    let n = 2_000;
    let step = h / f64::from(n);
    let heights: Vec<f64> = (0..n).map(|i| (f64::from(i) + 0.5) * step).collect();
    let (mut shear, mut moment, mut top) = (0.0, 0.0, 0.0);
    // From the top down: shear and moment above each height.
    let (mut above, mut bending) = (0.0, 0.0);
    for s in heights.iter().rev() {
        let load = spread(*s) * step;
        bending += (above + load / 2.0) * step;
        above += load;
        top += (bending - (above - load / 2.0) * step / 2.0) * (h - s) * step / ei;
        shear += load;
        moment += load * s;
    }
    (shear, moment, top)
}

#[test]
fn flexure_of_linear_pressures_is_exact() {
    let (h, ei) = (2.4, 80e3);
    for tilt in [-1.0, -0.4, 0.0, 0.3, 1.0] {
        let (v, mo, top) = integrated(|s| 500.0 * (1.0 + tilt * (2.0 * s / h - 1.0)), h, ei);
        let lean = Lean::of_grade(newton(v), n_m(mo), n_m(0.0), m(h), n_sq_m(ei)).unwrap();
        assert_relative_eq!(lean.total().value, top, max_relative = 2e-3);
    }
    // A force at the top, P h³/(3 EI); a couple at the top, C h²/(2 EI).
    let tip = Lean::of_grade(kn(1.0), kn_m(2.4), kn_m(0.0), m(h), n_sq_m(ei)).unwrap();
    assert_relative_eq!(
        tip.total().value,
        1e3 * h.powi(3) / (3.0 * ei),
        max_relative = 1e-12
    );
    let couple = Lean::of_grade(kn(0.0), kn_m(0.0), kn_m(1.0), m(h), n_sq_m(ei)).unwrap();
    assert_relative_eq!(
        couple.total().value,
        1e3 * h * h / (2.0 * ei),
        max_relative = 1e-12
    );
    let both = Lean::of_grade(kn(1.0), kn_m(3.4), kn_m(0.0), m(h), n_sq_m(ei)).unwrap();
    assert_relative_eq!(
        both.total().value,
        (tip.total() + couple.total()).value,
        max_relative = 1e-12
    );
}

proptest! {
    /// Whatever band or force makes the shear and moment, the post bends no
    /// more than said, and no less than by a force at M/V.
    #[test]
    fn flexure_is_on_the_safe_side(from in 0.0..0.9_f64, width in 0.02..1.0_f64, at in 0.0..1.0_f64) {
        let (h, ei) = (2.0, 50e3);
        let to = (from + width).min(1.0);
        let (v, mo, top) = integrated(
            |s| if s / h >= from && s / h <= to { 700.0 } else { 0.0 }, h, ei);
        let lean = Lean::of_grade(newton(v), n_m(mo), n_m(0.0), m(h), n_sq_m(ei)).unwrap();
        prop_assert!(lean.total().value >= top * (1.0 - 5e-3));
        let least = Lean::of_force(newton(v), m(mo / v), m(h), n_sq_m(ei)).unwrap();
        prop_assert!(top >= least.total().value * (1.0 - 5e-3));
        let force = Lean::of_force(kn(1.0), m(at * h), m(h), n_sq_m(ei)).unwrap();
        let bound = Lean::of_grade(kn(1.0), kn_m(at * h), kn_m(0.0), m(h), n_sq_m(ei)).unwrap();
        prop_assert!(bound.total().value >= force.total().value * (1.0 - 1e-12));
    }
}

/// Rigid post: the block of springs by statics, y = y0 + θ z, ∫k y = −H and
/// its moment.
#[test]
fn lean_of_a_rigid_post_by_statics() {
    let depth = 1.2;
    let rigid = n_sq_m(1e11);
    for (options, power) in [(clay(), 0), (sand(), 1)] {
        let k = [4e6, 6e6][power];
        let options = options.with_rigidity(rigid).unwrap();
        let post = post(concrete(pine(5.5)), m(depth), lean(options));
        let (v, mo) = service(&post);
        let check = lean_of(&post);
        // ∫ k z^p (y0 + q z) dz = V, ∫ k z^p (y0 + q z) z dz = −M.
        let at = |n: i32| depth.powi(n) / f64::from(n) * k;
        let p = i32::try_from(power).unwrap();
        let (a, b, c) = (at(p + 1), at(p + 2), at(p + 3));
        let determinant = a * c - b * b;
        let y0 = (v * c + mo * b) / determinant;
        let q = -(a * mo + b * v) / determinant;
        assert_relative_eq!(check.lean.movement().value, y0, max_relative = 2e-3);
        assert_relative_eq!(check.lean.rotation().value, -q, max_relative = 2e-3);
        let top = y0 - q * 6.0 * 0.3048 + check.lean.flexure().value;
        assert_relative_eq!(check.lean.total().value, top, max_relative = 2e-3);
        assert_relative_eq!(check.ratio, top / (6.0 * 0.3048), max_relative = 2e-3);
        assert!(check.lean.flexure().value < 1e-5);
    }
}

/// A pipe: EI from its section by hand, flexure of the wind's moment at 0.55 h,
/// and the ground by the solver.
#[test]
fn lean_of_a_pipe_by_hand_and_solver() {
    let inertia = PI / 64.0 * (2.875_f64.powi(4) - (2.875_f64 - 0.32).powi(4));
    let ei = 29e6 * inertia; // lb in²
    for (options, springs, form) in [
        (
            clay(),
            Springs::constant(mpa(4.0)).unwrap(),
            LeanForm::Finite,
        ),
        (
            sand(),
            Springs::growing(kn_per_cu_m(6_000.0)).unwrap(),
            LeanForm::FiniteGrowing,
        ),
    ] {
        let post = post(concrete(pipe(2.875, 0.16)), ft(4.0), lean(options));
        let check = lean_of(&post);
        assert_eq!(check.form, form);
        assert_relative_eq!(check.rigidity.to(lb_sq_in), ei, max_relative = 1e-9);
        let (v, mo) = service(&post);
        let (v_lb, h) = (v / 4.448_221_615, 72.0);
        let m_lb_in = mo / 4.448_221_615 / 0.0254;
        assert_relative_eq!(m_lb_in / v_lb / h, 0.55, max_relative = 1e-6);
        // Linear pressure of that resultant: w = w0 (1 + 0.3 (2 s/h − 1)).
        let flexure = v_lb * h.powi(3) / (6.0 * ei) * 0.855;
        assert_relative_eq!(check.lean.flexure().to(inch), flexure, max_relative = 1e-6);
        let solved = PostModel::new(lb_sq_in(ei), inch(12.0), ft(4.0), springs)
            .unwrap()
            .with_force(m(0.0), newton(v))
            .unwrap()
            .with_moment(n_m(mo))
            .unwrap()
            .solve()
            .unwrap();
        let grade = solved.at_grade();
        assert_relative_eq!(
            check.lean.movement().value,
            grade.deflection.value,
            max_relative = 1e-4
        );
        assert_relative_eq!(
            check.lean.rotation().value,
            -grade.rotation.value,
            max_relative = 1e-4
        );
    }
}

/// The power series against the rigid form, the long form of Matlock and
/// Reese, the solver between them, and Betti: movement by a unit moment is
/// rotation by a unit shear.
#[test]
fn finite_post_in_growing_ground() {
    let (nh, l) = (kn_per_cu_m(5_000.0), m(1.0));
    let rigidity = |ratio: f64| n_sq_m(5e6 / ratio.powi(5));
    let (v, mo) = (kn(0.02), kn_m(0.03));
    for ratio in [0.1, 0.3, 1.0, 1.7, 2.5, 3.5, 4.5, 5.9] {
        let ei = rigidity(ratio);
        let post = finite_growing(nh, ei, l, v, mo).unwrap();
        if ratio >= 1.0 {
            let solved = PostModel::new(ei, m(0.3), l, Springs::growing(nh).unwrap())
                .unwrap()
                .with_force(m(0.0), v)
                .unwrap()
                .with_moment(mo)
                .unwrap()
                .solve()
                .unwrap();
            let grade = solved.at_grade();
            assert_relative_eq!(
                post.deflection.value,
                grade.deflection.value,
                max_relative = 2e-4
            );
            assert_relative_eq!(
                post.rotation.value,
                grade.rotation.value,
                max_relative = 2e-4
            );
        }
        if ratio <= 0.3 {
            // 18 H/(nh L²) + 24 M/(nh L³), in kN and m.
            assert_relative_eq!(
                post.deflection.value,
                (18.0 * 0.02 + 24.0 * 0.03) / 5_000.0,
                max_relative = 1e-3
            );
            assert_relative_eq!(
                post.rotation.value,
                -(24.0 * 0.02 + 36.0 * 0.03) / 5_000.0,
                max_relative = 1e-3
            );
        }
        if ratio > 4.5 {
            // 2.43 and 1.62 of the printed tables.
            let t = 1.0 / ratio;
            let y = 2.43 * 20.0 * t.powi(3) / ei.value + 1.62 * 30.0 * t * t / ei.value;
            assert_relative_eq!(post.deflection.value, y, max_relative = 5e-3);
        }
        let by_moment = finite_growing(nh, ei, l, kn(0.0), kn_m(1.0)).unwrap();
        let by_shear = finite_growing(nh, ei, l, kn(1.0), kn_m(0.0)).unwrap();
        assert_relative_eq!(
            by_moment.deflection.value,
            -by_shear.rotation.value,
            max_relative = 1e-8
        );
    }
    assert!(finite_growing(nh, rigidity(6.5), l, v, mo).is_err());
    assert!(finite_growing(nh, rigidity(0.03), l, v, mo).is_err());
    assert!(closed_form::long_growing(nh, rigidity(6.5), l, v, mo).is_ok());
}

#[test]
fn forms_hand_over_without_a_step() {
    let total = |options: LeanOptions, ei: f64| {
        let options = options.with_rigidity(n_sq_m(ei)).unwrap();
        let post = post(concrete(pine(5.5)), m(1.9), lean(options));
        (lean_of(&post).form, lean_of(&post).lean)
    };
    let soft = LeanOptions::new(GroundStiffness::constant(kpa(1.0)).unwrap());
    let loose = LeanOptions::new(GroundStiffness::growing(kn_per_cu_m(10.0)).unwrap());
    let (fourth, fifth) = (1.9_f64.powi(4), 1.9_f64.powi(5));
    // λL = 6 and 0.01, L/T = 6 and 0.05.
    for (options, at, forms) in [
        (
            clay(),
            4e6 * fourth / 4.0 / 6.0_f64.powi(4),
            [LeanForm::Endless, LeanForm::Finite],
        ),
        (
            soft,
            1e3 * fourth / 4.0 / 0.01_f64.powi(4),
            [LeanForm::Finite, LeanForm::Rigid],
        ),
        (
            sand(),
            6e6 * fifth / 6.0_f64.powi(5),
            [LeanForm::LongGrowing, LeanForm::FiniteGrowing],
        ),
        (
            loose,
            1e4 * fifth / 0.05_f64.powi(5),
            [LeanForm::FiniteGrowing, LeanForm::RigidGrowing],
        ),
    ] {
        let ((under, low), (over, high)) = (
            total(options, at * 0.999_999),
            total(options, at * 1.000_001),
        );
        assert_eq!([under, over], forms);
        assert_relative_eq!(
            low.movement().value,
            high.movement().value,
            max_relative = 4e-3
        );
        assert_relative_eq!(
            low.rotation().value,
            high.rotation().value,
            max_relative = 4e-3
        );
    }
}

#[test]
fn limit_of_lean_governs_where_reached() {
    let free = post(concrete(pipe(4.0, 0.226)), ft(8.0), lean(clay()));
    let ratio = lean_of(&free).ratio;
    assert_eq!(lean_of(&free).utilization, None);
    assert_eq!(free.governing(), free.check.governing);
    let at = |limit: f64| {
        post(
            concrete(pipe(4.0, 0.226)),
            ft(8.0),
            lean(clay().with_limit(limit).unwrap()),
        )
    };
    let exact = lean_of(&at(ratio)).utilization.unwrap();
    assert_relative_eq!(exact.ratio(), 1.0, max_relative = 1e-12);
    assert!(exact.passes());
    let tight = at(ratio / 3.0);
    assert_relative_eq!(
        lean_of(&tight).utilization.unwrap().ratio(),
        3.0,
        max_relative = 1e-12
    );
    assert_eq!(tight.governing(), Governing::Lean);
    let own: Vec<_> = tight.check.failing().collect();
    assert!(!tight.passes() && own.is_empty(), "{own:?}");
    assert!(tight.failing().eq([Governing::Lean]));
    assert_relative_eq!(tight.utilization().ratio(), 3.0, max_relative = 1e-12);
}

#[test]
fn lean_without_a_modulus_or_with_paving_is_refused_with_its_reason() {
    let section = PostSection::Tube(Tube::new(inch(4.0), inch(0.2)).unwrap());
    let strong = GivenPost::new(section, lb_ft(9_000.0), lb(9_000.0)).unwrap();
    let unknown = post(concrete(strong), ft(4.0), lean(clay()));
    let reason = unknown.site.lean.refusal().unwrap();
    assert_eq!(reason.field(), "flexural rigidity");
    assert!(unknown.cautions().contains(Caution::NotAllChecked));
    assert_eq!(unknown.site.refusals().count(), 1);
    // It counts for nothing.
    assert_eq!(unknown.utilization(), unknown.check.utilization);
    assert!(
        post(concrete(pine(5.5)), ft(4.0), lean(clay()))
            .site
            .lean
            .done()
            .is_some()
    );
    let given = post(
        concrete(strong),
        ft(4.0),
        lean(clay().with_rigidity(kn_sq_m(300.0)).unwrap()),
    );
    assert!(given.site.lean.done().is_some());
    assert!(!given.cautions().contains(Caution::NotAllChecked));
    let paved = concrete(pipe(2.875, 0.16)).restrained_by(Restraint::RigidPaving);
    assert!(
        post(paved, ft(4.0), lean(clay()))
            .site
            .lean
            .refusal()
            .is_some()
    );
}

/// A top that does not count: the post stands taller, in less ground, and the
/// moment about that level is greater by V times it.
#[test]
fn a_top_that_does_not_count_leans_more() {
    let plain = post(concrete(pipe(2.875, 0.16)), ft(5.0), lean(clay()));
    let ground = ground().discounting_top(ft(1.0)).unwrap();
    let design = PostDesign::in_concrete(
        ground,
        pipe(2.875, 0.16).into(),
        Hole::round(inch(12.0)).unwrap(),
    )
    .unwrap();
    let cut = post(design, ft(5.0), lean(clay()));
    let (v, mo) = service(&cut);
    let check = lean_of(&cut);
    assert_relative_eq!(check.embedment.to(ft), 4.0, max_relative = 1e-12);
    assert_relative_eq!(check.lean.height().to(ft), 7.0, max_relative = 1e-12);
    assert_relative_eq!(
        check.wind_moment.to(n_m),
        mo + v * 0.3048,
        max_relative = 1e-9
    );
    assert!(check.ratio > 1.2 * lean_of(&plain).ratio);
}

// Frost.

/// Grip 65 kPa round a 12 in hole; 8 ft by 6 ft at 5 psf, and concrete of 145
/// pcf round a 5.5 in post.
#[test]
fn frost_by_hand() {
    let options = FrostOptions::new(inch(30.0), Grip::FineGrained).unwrap();
    let with = |options| post(concrete(pine(5.5)), ft(6.0), frost(options));
    let plain = with(options);
    let check = plain.site.frost.done().unwrap();
    let lifts = 65e3 * PI * 0.3048 * 30.0 * 0.0254 / 4.448_221_615_260_5;
    let ring = PI / 4.0 - (5.5 / 12.0_f64).powi(2);
    let holds = 0.6 * (8.0 * 6.0 * 5.0 + 145.0 * ring * 6.0);
    assert_relative_eq!(check.balance.lifts.to(lb), lifts, max_relative = 1e-9);
    assert_relative_eq!(check.balance.holds.to(lb), holds, max_relative = 1e-9);
    assert_relative_eq!(
        check.utilization.ratio(),
        lifts / holds,
        max_relative = 1e-9
    );
    assert_eq!(plain.governing(), Governing::FrostUplift);
    assert!(check.remedy().unwrap().contains("deeper"));

    // 250 psf on 3.5 ft below the frost, the class's 2000 psf over 6 = 333.
    let rubbed = with(
        options
            .with_friction(SideFriction::Allowable(psf(250.0)))
            .unwrap(),
    );
    let check = rubbed.site.frost.done().unwrap();
    assert_relative_eq!(
        check.balance.holds.to(lb),
        holds + 250.0 * PI * 3.5,
        max_relative = 1e-9
    );
    let presumed = with(options.with_friction(SideFriction::Presumptive).unwrap());
    let check = presumed.site.frost.done().unwrap();
    assert_relative_eq!(
        check.balance.holds.to(lb),
        holds + 2_000.0 / 6.0 * PI * 3.5,
        max_relative = 1e-9
    );
    let heavy = with(
        options
            .with_concrete(pcf(150.0))
            .unwrap()
            .with_post_weight(lb(90.0))
            .unwrap(),
    );
    assert_relative_eq!(
        heavy.site.frost.done().unwrap().balance.holds.to(lb),
        0.6 * (240.0 + 150.0 * ring * 6.0 + 90.0),
        max_relative = 1e-9
    );
    for remedy in [FrostRemedy::SmoothSleeve, FrostRemedy::DrainedGravel] {
        let sleeved = with(options.with_remedy(remedy));
        let check = sleeved.site.frost.done().unwrap();
        assert_eq!(check.balance.lifts, lb(0.0));
        assert_eq!(check.utilization, Utilization::ZERO);
        assert_eq!(check.remedy(), None);
        assert_eq!(sleeved.governing(), sleeved.check.governing);
    }
    // The alternative combinations relieve by 2/3.
    let design = concrete(pine(5.5)).with_combination(AllowableStress::AlternativeWithIncrease);
    let other = post(design, ft(6.0), frost(options));
    assert_relative_eq!(
        other.site.frost.done().unwrap().balance.holds.to(lb),
        holds / 0.6 * 2.0 / 3.0,
        max_relative = 1e-9
    );
}

/// A plain cylinder that stops at or above the frost depth fails, whatever it
/// weighs and whatever the grip, and the worksheet says so.
#[test]
fn a_cylinder_that_stops_in_the_frost_fails() {
    for (depth, sleeve) in [(36.0, false), (30.0, false), (36.0, true)] {
        let mut options = FrostOptions::new(inch(36.0), Grip::Given(kpa(5.0)))
            .unwrap()
            .with_friction(SideFriction::Presumptive)
            .unwrap()
            .with_post_weight(kipf(500.0))
            .unwrap();
        if sleeve {
            options = options.with_remedy(FrostRemedy::SmoothSleeve);
        }
        let plan = plan(concrete(pipe(2.375, 0.13)), inch(depth), frost(options));
        let schedule = plan.schedule().unwrap();
        let post = schedule.post(3).unwrap();
        let check = post.site.frost.done().unwrap();
        assert!(check.balance.ends_in_frost && !post.passes());
        assert_eq!(post.governing(), Governing::FrostUplift);
        assert_eq!(check.anchorage, lb(0.0));
        let text = report::text(&schedule.worksheet(&post, UnitSystem::Us)).to_string();
        // The lines of the report are wrapped.
        let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(text.contains("ends in the frost: a plain shaft that stops there FAILS"));
        assert!(text.contains("a bell or collar below the frost"));
    }
    let below = FrostOptions::new(inch(36.0), Grip::Given(kpa(5.0)))
        .unwrap()
        .with_post_weight(kipf(500.0))
        .unwrap();
    let post = post(concrete(pipe(2.375, 0.13)), inch(36.1), frost(below));
    assert!(post.site.frost.done().unwrap().utilization.passes());
}

/// What is gripped, and how hard, by setting and post.
#[test]
fn grip_by_setting() {
    let hole = Hole::square(inch(10.0)).unwrap();
    let asked = frost(FrostOptions::new(inch(12.0), Grip::FineGrained).unwrap());
    let gripped = |design: PostDesign| {
        let post = post(design, ft(6.0), asked);
        let check = *post.site.frost.done().unwrap();
        (
            check.perimeter.to(inch),
            check.stress.to(kpa),
            check.footing.to(lb),
        )
    };
    let set = |setting, post: Post| PostDesign::set_in(ground(), post, setting, hole).unwrap();
    let (around, stress, weight) = gripped(set(Setting::PouredConcrete, pipe(2.375, 0.13).into()));
    assert_relative_eq!(around, 40.0, max_relative = 1e-12);
    assert_eq!(stress, 65.0);
    let ring = (100.0 - PI / 4.0 * 2.375 * 2.375) / 144.0 * 6.0;
    assert_relative_eq!(weight, 145.0 * ring, max_relative = 1e-9);
    let (around, stress, weight) = gripped(set(Setting::ExpandingFoam, pipe(2.375, 0.13).into()));
    assert_relative_eq!(around, 40.0, max_relative = 1e-12);
    assert_eq!((stress, weight), (65.0, 0.0));
    let (around, stress, weight) = gripped(set(Setting::TampedSoil, pipe(2.375, 0.13).into()));
    assert_relative_eq!(around, 2.375 * PI, max_relative = 1e-12);
    assert_eq!((stress, weight), (100.0, 0.0));
    let (around, stress, _) = gripped(set(Setting::CompactedGravel, pine(3.5).into()));
    assert_relative_eq!(around, 14.0, max_relative = 1e-12);
    assert_eq!(stress, 65.0);
    let driven = PostDesign::driven(ground(), pipe(2.375, 0.13).into());
    assert_eq!(gripped(driven).1, 100.0);
    let named = FrostOptions::new(inch(12.0), Grip::Of(FrozenGround::GravelOnSteel)).unwrap();
    let post = post(driven, ft(6.0), frost(named));
    assert_eq!(post.site.frost.done().unwrap().stress, kpa(150.0));
}

/// Friction without a test: concrete and driven posts only.
#[test]
fn friction_only_where_the_setting_credits_it() {
    let hole = Hole::round(inch(10.0)).unwrap();
    for setting in Setting::ALL {
        let design = if setting == Setting::Driven {
            PostDesign::driven(ground(), pipe(2.375, 0.13).into())
        } else {
            PostDesign::set_in(ground(), pipe(2.375, 0.13).into(), setting, hole).unwrap()
        };
        let credits = matches!(setting, Setting::PouredConcrete | Setting::Driven);
        for (friction, counts) in [
            // The clause is of elements cast in place.
            (
                SideFriction::Presumptive,
                setting == Setting::PouredConcrete,
            ),
            (SideFriction::Allowable(psf(200.0)), credits),
            (SideFriction::Tested(psf(200.0)), true),
            (SideFriction::None, false),
        ] {
            let asked = SiteChecks::default()
                .with_frost(
                    FrostOptions::new(inch(12.0), Grip::FineGrained)
                        .unwrap()
                        .with_friction(friction)
                        .unwrap(),
                )
                .with_uplift(
                    UpliftOptions::new(lb(500.0))
                        .unwrap()
                        .with_friction(friction)
                        .unwrap(),
                );
            let post = post(design, ft(4.0), asked);
            let (cold, pulled) = (
                post.site.frost.done().unwrap(),
                post.site.uplift.done().unwrap(),
            );
            assert_eq!(cold.anchorage > lb(0.0), counts, "{setting:?} {friction:?}");
            assert_eq!(cold.friction, pulled.friction);
            assert_eq!(
                cold.friction.refused(),
                !counts && friction != SideFriction::None
            );
            assert_eq!(
                post.cautions().contains(Caution::FieldTests),
                matches!(friction, SideFriction::Tested(_))
            );
        }
    }
    // Presumptive of a ground without vertical bearing is refused.
    let bare = Ground::given(LateralBearing::new(psf_per_ft(150.0)).unwrap());
    let tube = pipe(2.375, 0.13).into();
    let design = PostDesign::set_in(bare, tube, Setting::PouredConcrete, hole).unwrap();
    let asked = frost(
        FrostOptions::new(inch(12.0), Grip::FineGrained)
            .unwrap()
            .with_friction(SideFriction::Presumptive)
            .unwrap(),
    );
    assert!(post(design, ft(4.0), asked).site.frost.refusal().is_some());
}

proptest! {
    /// Deeper frost lifts more and leaves less to hold; a deeper post holds
    /// more.
    #[test]
    fn frost_is_monotone(a in 0.0..60.0_f64, b in 0.0..60.0_f64, depth in 61.0..120.0_f64, more in 0.0..40.0_f64) {
        let (shallow, deep) = (a.min(b), a.max(b));
        let of = |frost_depth: f64, depth: f64| {
            let options = FrostOptions::new(inch(frost_depth), Grip::FineGrained).unwrap()
                .with_friction(SideFriction::Presumptive).unwrap();
            *post(concrete(pine(5.5)), inch(depth), frost(options)).site.frost.done().unwrap()
        };
        let (less, most, held) = (of(shallow, depth), of(deep, depth), of(deep, depth + more));
        prop_assert!(most.balance.lifts >= less.balance.lifts);
        prop_assert!(most.balance.holds <= less.balance.holds);
        prop_assert!(most.utilization >= less.utilization);
        prop_assert!(held.utilization <= most.utilization);
    }
}

// Pull-out.

#[test]
fn pull_out_by_hand() {
    let force = UpliftOptions::new(lb(600.0)).unwrap();
    let asked = |options| SiteChecks::default().with_uplift(options);
    let ring = PI / 4.0 - (5.5 / 12.0_f64).powi(2);
    let footing = 145.0 * ring * 4.0;
    let plain = post(concrete(pine(5.5)), ft(4.0), asked(force));
    let check = plain.site.uplift.done().unwrap();
    let holds = 0.6 * (240.0 + footing);
    assert_relative_eq!(
        check.resistance.resistance.to(lb),
        holds,
        max_relative = 1e-9
    );
    assert_relative_eq!(
        check.utilization.ratio(),
        600.0 / holds,
        max_relative = 1e-9
    );
    assert_eq!(check.resistance.weakest, PullOutMode::FootingSlides);

    let rubbed = force.with_friction(SideFriction::Presumptive).unwrap();
    let friction = 2_000.0 / 6.0 * PI * 4.0;
    let check_of = |options| {
        *post(concrete(pine(5.5)), ft(4.0), asked(options))
            .site
            .uplift
            .done()
            .unwrap()
    };
    assert_relative_eq!(
        check_of(rubbed).resistance.resistance.to(lb),
        holds + friction,
        max_relative = 1e-9
    );
    // Frost asked for too: its depth holds nothing.
    let cold = FrostOptions::new(ft(1.5), Grip::FineGrained).unwrap();
    let both = post(concrete(pine(5.5)), ft(4.0), asked(rubbed).with_frost(cold));
    assert_relative_eq!(
        both.site
            .uplift
            .done()
            .unwrap()
            .resistance
            .resistance
            .to(lb),
        holds + friction * 2.5 / 4.0,
        max_relative = 1e-9
    );
    // A weak bond: 1 psi on 22 in round and 48 in deep, and 0.6 of the weight
    // on the post.
    let weak = check_of(rubbed.with_bond(lb_per_sq_in(0.5)).unwrap());
    assert_eq!(weak.resistance.weakest, PullOutMode::PostSlides);
    assert_relative_eq!(
        weak.resistance.resistance.to(lb),
        0.5 * 22.0 * 48.0 + 0.6 * 240.0,
        max_relative = 1e-9
    );
    let wood = check_of(rubbed.with_wood_bond().with_post_weight(lb(50.0)).unwrap());
    assert_eq!(wood.resistance.weakest, PullOutMode::FootingSlides);
    assert_relative_eq!(
        wood.resistance.ways[2].1.unwrap().to(lb),
        30.0 * 22.0 * 48.0 + 0.6 * 290.0,
        max_relative = 1e-9
    );
    assert!(
        post(concrete(pine(5.5)), ft(4.0), asked(rubbed.with_wood_bond()))
            .cautions()
            .contains(Caution::Shrinkage)
    );
    // 30 psi is wood's, in concrete.
    let steel = post(
        concrete(pipe(2.375, 0.13)),
        ft(4.0),
        asked(force.with_wood_bond()),
    );
    assert_eq!(steel.site.uplift.refusal().unwrap().field(), "bond");
    let bare = PostDesign::driven(ground(), pine(5.5).into());
    assert!(
        post(bare, ft(4.0), asked(force.with_wood_bond()))
            .site
            .uplift
            .refusal()
            .is_some()
    );
    let strong = post(
        concrete(pine(5.5)),
        ft(4.0),
        asked(UpliftOptions::new(kipf(50.0)).unwrap()),
    );
    assert_eq!(strong.governing(), Governing::PullOut);
    assert!(!strong.passes());
}

// Weight with bending.

/// r, A and the bare numbers of a 2.375 x 0.154 pipe, in inches.
fn bare_pipe() -> (f64, f64) {
    let (d, i) = (2.375_f64, 2.375_f64 - 0.308);
    ((d * d + i * i).sqrt() / 4.0, PI / 4.0 * (d * d - i * i))
}

fn schedule_40() -> Post {
    PipePost::new(
        Tube::new(inch(2.375), inch(0.154)).unwrap(),
        SteelStrength::new(ksi(30.0)).unwrap(),
    )
    .unwrap()
    .into()
}

/// A utilization in bending: moment at paving over a given allowable one.
pub(crate) fn used(ratio: f64) -> Utilization {
    let section = PostSection::Tube(Tube::new(inch(2.0), inch(0.1)).unwrap());
    let strength = GivenPost::new(section, lb_ft(1_000.0), lb(1e6))
        .unwrap()
        .strength();
    let load = GroundlineActions::new(
        lb(0.0),
        lb_ft(1_000.0 * ratio),
        lb(0.0),
        AllowableStress::Basic,
    )
    .unwrap();
    let demand = BelowGrade::new(&load, ft(4.0), ft(0.0), Restraint::RigidPaving).unwrap();
    PostStrengthCheck::new(demand, strength, false).bending
}

fn together(post: &Post, axial: f64, bending: f64, length: Length) -> AxialBending {
    AxialBending::new(post, &column(), lb(axial), used(bending), length).unwrap()
}

/// Compression values of timber, invented, and a capacity.
fn column() -> AxialOptions {
    AxialOptions::default()
        .with_timber(CompressionValues::new(lb_per_sq_in(1_100.0), ksi(440.0)).unwrap())
        .with_capacity(lb(10_000.0))
        .unwrap()
}

fn given() -> Post {
    let section = PostSection::Tube(Tube::new(inch(2.0), inch(0.1)).unwrap());
    GivenPost::new(section, lb_ft(1_000.0), lb(1e4))
        .unwrap()
        .with_rigidity(kn_sq_m(400.0))
        .unwrap()
        .into()
}

/// Its Euler load of a length in feet, in kN.
fn given_euler(length: f64) -> f64 {
    PI * PI * 400.0 / (2.1 * length * 0.3048).powi(2)
}

/// E3 by its limits: Fy A/1.67 without length; 0.877 of Euler's load over 1.67
/// when slender; where the branches meet, 0.658^2.25 and 0.877/2.25 of Fy are
/// 0.390 both.
#[test]
fn columns_of_pipe() {
    let (r, area) = bare_pipe();
    let stocky = together(&schedule_40(), 0.0, 0.0, ft(0.1));
    assert_relative_eq!(
        stocky.capacity.to(lb),
        30e3 * area / 1.67,
        max_relative = 1e-3
    );
    let slender = together(&schedule_40(), 0.0, 0.0, ft(20.0));
    let length = 2.1 * 240.0;
    let euler = PI * PI * 29e6 * (area * r * r) / (length * length);
    assert_relative_eq!(
        slender.capacity.to(lb),
        0.877 * euler / 1.67,
        max_relative = 1e-9
    );
    assert_relative_eq!(slender.slenderness, length / r, max_relative = 1e-9);
    // KL/r at Fy/Fe = 2.25.
    let turn = (2.25 * PI * PI * 29e3 / 30.0_f64).sqrt() * r / 2.1;
    let (before, after) = (
        together(&schedule_40(), 0.0, 0.0, inch(turn * 0.999_999)),
        together(&schedule_40(), 0.0, 0.0, inch(turn * 1.000_001)),
    );
    assert_relative_eq!(before.critical.to(ksi), 11.70, epsilon = 0.01);
    assert_relative_eq!(
        before.critical.value,
        after.critical.value,
        max_relative = 1e-3
    );
    // A middling one with the numbers written out: Fe, Fcr, Pa.
    let one = together(&schedule_40(), 500.0, 0.5, inch(84.0));
    let s = 2.1 * 84.0 / r;
    let fe = PI * PI * 29e3 / (s * s);
    let pa = 0.877 * fe * area / 1.67 * 1e3;
    assert!(30.0 / fe > 2.25);
    assert_relative_eq!(one.capacity.to(lb), pa, max_relative = 1e-9);
    let raised = 1.0 / (1.0 - 1.6 * 500.0 / (fe * area * 1e3));
    assert_relative_eq!(one.amplification, raised, max_relative = 1e-9);
    assert_eq!(one.form, AxialForm::SteelLight);
    assert_relative_eq!(
        one.utilization.ratio(),
        500.0 / (2.0 * pa) + 0.5 * raised,
        max_relative = 1e-9
    );
    // A wall of D/t = 120 at 50 ksi: 0.038 · 580/120 + 2/3 of the area counts.
    let thin: Post = pipe(6.0, 0.05).into();
    let thin = together(&thin, 0.0, 0.0, ft(1.0));
    assert_relative_eq!(
        thin.effective,
        0.038 * 580.0 / 120.0 + 2.0 / 3.0,
        max_relative = 1e-9
    );
}

/// H1-1a from 0.2 on, with 8/9 of the moment.
#[test]
fn heavy_and_light_of_h1() {
    let pa = together(&schedule_40(), 0.0, 0.0, ft(4.0)).capacity.to(lb);
    for (share, form) in [
        (0.199, AxialForm::SteelLight),
        (0.201, AxialForm::SteelHeavy),
    ] {
        let both = together(&schedule_40(), share * pa, 0.4, ft(4.0));
        assert_eq!(both.form, form);
        let bending = 0.4 * both.amplification;
        let sum = match form {
            AxialForm::SteelLight => share / 2.0 + bending,
            _ => share + 8.0 / 9.0 * bending,
        };
        assert_relative_eq!(both.utilization.ratio(), sum, max_relative = 1e-9);
        assert!(both.amplification > 1.0);
    }
}

/// CP by its limits, and against the roots of its quadratic: with c = 0.8,
/// c CP² − (1 + a) CP + a = 0.
#[test]
fn columns_of_timber() {
    let post: Post = pine(5.5).into();
    let full = 1_100.0 * 1.6;
    for length in [0.2, 3.0, 7.0, 10.0, 10.9] {
        let one = together(&post, 2_000.0, 0.3, ft(length));
        let s = 2.1 * length * 12.0 / 5.5;
        let euler = 0.822 * 440e3 / (s * s);
        let a = euler / full;
        assert_relative_eq!(one.euler.to(lb_per_sq_in), euler, max_relative = 1e-9);
        let cp = one.stability;
        assert_relative_eq!(
            0.8 * cp * cp - (1.0 + a) * cp + a,
            0.0,
            epsilon = 1e-9 * (1.0 + a)
        );
        assert!(cp <= 1.0 && cp <= a && cp >= 0.5 * a.min(1.0));
        let fc = 2_000.0 / 30.25;
        let sum = (fc / (full * cp)).powi(2) + 0.3 / (1.0 - fc / euler);
        assert_relative_eq!(one.utilization.ratio(), sum, max_relative = 1e-9);
    }
    assert_relative_eq!(
        together(&post, 1.0, 0.0, ft(0.1)).stability,
        1.0,
        epsilon = 1e-3
    );
    // Slender: Euler's stress. Fc so great that everything is slender.
    let strong =
        AxialOptions::default().with_timber(CompressionValues::new(ksi(10.0), ksi(50.0)).unwrap());
    let one = AxialBending::new(&post, &strong, lb(1.0), Utilization::ZERO, ft(10.9)).unwrap();
    assert_relative_eq!(one.critical.value, one.euler.value, max_relative = 5e-3);
    let beyond = AxialBending::new(&post, &column(), lb(1.0), Utilization::ZERO, ft(11.0));
    assert_eq!(beyond.unwrap().utilization, Utilization::NO_CAPACITY);
    let without = AxialOptions::default();
    for post in [post, given()] {
        assert!(AxialBending::new(&post, &without, lb(1.0), Utilization::ZERO, ft(5.0)).is_err());
    }
}

#[test]
fn without_weight_it_is_bending_alone() {
    for post in [schedule_40(), pine(5.5).into(), given()] {
        let one = together(&post, 0.0, 0.7, ft(6.0));
        assert_relative_eq!(one.utilization.ratio(), 0.7, max_relative = 1e-12);
        let linear = together(&given(), 2_500.0, 0.5, ft(6.0));
        let raised = 1.0 / (1.0 - 1.6 * 2_500.0 * 0.004_448_221_615 / given_euler(6.0));
        assert_relative_eq!(
            linear.utilization.ratio(),
            0.25 + 0.5 * raised,
            max_relative = 1e-9
        );
        // More than Euler's load: no capacity, not a negative number.
        let beyond = together(&schedule_40(), 1e6, 0.5, ft(12.0));
        assert_eq!(beyond.utilization, Utilization::NO_CAPACITY);
    }
}

proptest! {
    #[test]
    fn more_weight_more_used(a in 0.0..30_000.0_f64, b in 0.0..30_000.0_f64, bending in 0.0..1.2_f64, length in 2.0..10.0_f64) {
        // Within one form: where H1-1b becomes H1-1a with little moment it
        // steps up, with more than 0.9 down.
        for post in [schedule_40(), pine(5.5).into(), given()] {
            let (less, more) = (
                together(&post, a.min(b), bending, ft(length)),
                together(&post, a.max(b), bending, ft(length)),
            );
            if less.form == more.form {
                prop_assert!(more.utilization >= less.utilization);
            }
            let longer = together(&post, a, bending, ft(length + 0.5));
            let shorter = together(&post, a, bending, ft(length));
            if longer.form == shorter.form {
                prop_assert!(longer.utilization >= shorter.utilization);
            }
        }
    }
}

/// In the schedule: P is D, and the length is from the greatest moment.
#[test]
fn weight_with_bending_of_a_fence_post() {
    let asked = SiteChecks::default().with_axial(column());
    let post = post(concrete(pine(5.5)), ft(4.0), asked);
    let check = post.site.axial.done().unwrap();
    assert_relative_eq!(check.axial.to(lb), 240.0, max_relative = 1e-9);
    let depth = post.check.strength.demand.depth_of_moment();
    assert_relative_eq!(check.length.to(ft), 6.0 + depth.to(ft), max_relative = 1e-9);
    assert_relative_eq!(
        check.bending.ratio(),
        post.check.strength.bending.ratio(),
        max_relative = 1e-12
    );
    // 240 lb on a 6x6 is little: 7.93 psi against an Euler stress of some 300.
    let s = 2.1 * check.length.to(inch) / 5.5;
    let raised = 1.0 / (1.0 - 240.0 / 30.25 / (0.822 * 440e3 / (s * s)));
    let over = check.utilization.ratio() - raised * check.bending.ratio();
    assert!(over > 0.0 && over < 0.01, "{over}");
    assert!(raised > 1.0 && raised < 1.05);
    assert!(post.cautions().contains(Caution::FromMemory));
}

// Settings and quantities.

#[test]
fn settings_take_the_right_width_and_cautions() {
    let hole = Hole::round(inch(10.0)).unwrap();
    let cautions = |design: PostDesign| -> Cautions {
        post(design, ft(4.0), SiteChecks::default()).cautions()
    };
    let set = |setting| PostDesign::set_in(ground(), pine(3.5).into(), setting, hole).unwrap();
    let diagonal = 3.5 * 2.0_f64.sqrt();
    for (setting, width) in [
        (Setting::PouredConcrete, 10.0),
        (Setting::ExpandingFoam, diagonal),
        (Setting::CompactedGravel, diagonal),
        (Setting::TampedSoil, diagonal),
    ] {
        let design = set(setting);
        assert_eq!(design.setting(), Some(setting));
        let b = design.foundation().bearing_width().width();
        assert_relative_eq!(b.to(inch), width, max_relative = 1e-12);
        let said = cautions(design);
        let (concrete, foam) = (
            setting == Setting::PouredConcrete,
            setting == Setting::ExpandingFoam,
        );
        assert_eq!(said.contains(Caution::Curing), concrete || foam);
        assert_eq!(said.contains(Caution::Foam), foam);
        assert_eq!(said.contains(Caution::Backfill), !concrete && !foam);
        assert_eq!(said.contains(Caution::BackfillRing), !concrete);
        assert_eq!(design.foundation().hole().is_some(), concrete);
        assert_eq!(design.foundation().dug_hole(), Some(&hole));
    }
    // Concrete by either name is the same check.
    let by_name = post(set(Setting::PouredConcrete), ft(4.0), SiteChecks::default());
    let poured = PostDesign::in_concrete(ground(), pine(3.5).into(), hole).unwrap();
    let poured = post(poured, ft(4.0), SiteChecks::default());
    assert_eq!(by_name.check.utilization, poured.check.utilization);
    assert_eq!(by_name.cautions(), poured.cautions());
    assert_eq!(by_name.check.design(), poured.check.design());
    let driven = PostDesign::driven(ground(), pine(3.5).into());
    assert!(!cautions(driven).contains(Caution::Backfill));
    assert_eq!(driven.foundation().dug_hole(), None);
    assert_relative_eq!(
        driven.foundation().bearing_width().width().to(inch),
        diagonal,
        max_relative = 1e-12
    );
    assert!(PostDesign::set_in(ground(), pine(3.5).into(), Setting::Driven, hole).is_err());
    let narrow = Hole::round(inch(4.0)).unwrap();
    assert!(
        PostDesign::set_in(ground(), pine(3.5).into(), Setting::CompactedGravel, narrow).is_err()
    );
    // Rigid paving is still said.
    let paved = set(Setting::ExpandingFoam).restrained_by(Restraint::RigidPaving);
    assert!(cautions(paved).contains(Caution::RigidPaving));
}

#[test]
fn rest_before_the_wind() {
    let days = |days| RestDays::new(days).unwrap();
    let said = |rests, needs| {
        let design = concrete(pine(5.5)).resting(days(rests), days(needs));
        let cautions = post(design, ft(4.0), SiteChecks::default()).cautions();
        (
            cautions.contains(Caution::Curing),
            cautions.contains(Caution::SetTooSoon),
        )
    };
    assert_eq!(said(7.0, 7.0), (false, false));
    assert_eq!(said(6.9, 7.0), (true, true));
    for bad in [f64::NAN, -1.0, 1_001.0, f64::INFINITY] {
        assert!(RestDays::new(bad).is_err());
    }
}

fn quantities(options: MaterialOptions) -> SiteChecks {
    SiteChecks::default().with_materials(options)
}

/// Bags of the published yields, by hand: 3.5 in square in a 10 in hole, 30 in.
#[test]
fn bags_of_a_post() {
    let hole = Hole::round(inch(10.0)).unwrap();
    let ring = (PI / 4.0 * 100.0 - 3.5 * 3.5) * 30.0 / 1_728.0;
    for row in &rows("bag_yields.csv")[1..] {
        let (weight, yields): (f64, f64) = (row[0].parse().unwrap(), row[1].parse().unwrap());
        let bag = [Bag::lb_40(), Bag::lb_50(), Bag::lb_60(), Bag::lb_80()]
            .into_iter()
            .find(|bag| (bag.weight().to(lb) - weight).abs() < 1e-9)
            .unwrap();
        let options = MaterialOptions::new(bag).with_waste(0.1).unwrap();
        let design =
            PostDesign::set_in(ground(), pine(3.5).into(), Setting::PouredConcrete, hole).unwrap();
        let one = post(design, inch(30.0), quantities(options));
        let one = one.site.materials.done().unwrap();
        assert_relative_eq!(one.fill.to(cu_ft), ring, max_relative = 1e-9);
        let bags = one.bags.unwrap();
        assert_relative_eq!(bags.exact, ring / yields * 1.1, max_relative = 1e-9);
        assert_eq!(bags.buy, (ring / yields * 1.1).ceil());
        assert_relative_eq!(one.carry().to(lb), bags.buy * weight, max_relative = 1e-12);
    }
}

/// Two feet deep with one 80 lb bag: common practice, no source. What it comes
/// to, as a comparison: the bag yields 0.60 ft³.
#[test]
fn two_feet_and_one_bag() {
    let count = |post_: Post, hole: f64| {
        let hole = Hole::round(inch(hole)).unwrap();
        let design = PostDesign::set_in(ground(), post_, Setting::PouredConcrete, hole).unwrap();
        let one = post(
            design,
            ft(2.0),
            quantities(MaterialOptions::new(Bag::lb_80())),
        );
        one.site.materials.done().unwrap().bags.unwrap()
    };
    // A 4x4 in three times its width: (78.54 − 12.25)/144 · 2 = 0.921 ft³.
    let wood = count(pine(3.5).into(), 10.0);
    assert_relative_eq!(wood.exact, 0.9207 / 0.6, max_relative = 1e-3);
    assert_eq!(wood.buy, 2.0);
    // A 2-3/8 in line post in 6 in: (28.27 − 4.43)/144 · 2 = 0.331 ft³; in 8 in
    // 0.637, a twentieth over one bag.
    let line = count(pipe(2.375, 0.13).into(), 6.0);
    assert_relative_eq!(line.exact, 0.3312 / 0.6, max_relative = 1e-3);
    assert_eq!(line.buy, 1.0);
    let wider = count(pipe(2.375, 0.13).into(), 8.0);
    assert_relative_eq!(wider.exact, 0.637 / 0.6, max_relative = 1e-3);
    assert_eq!(wider.buy, 2.0);
}

#[test]
fn quantities_by_setting() {
    let hole = Hole::round(inch(8.0)).unwrap();
    // A kit of foam of 0.5 ft³ free rise at 3.2 lb, invented.
    let kit = Bag::given(lb(3.2), cu_ft(0.5)).unwrap();
    let options = MaterialOptions::new(kit).with_base(inch(6.0)).unwrap();
    let of = |design| {
        *post(design, inch(30.0), quantities(options))
            .site
            .materials
            .done()
            .unwrap()
    };
    let set =
        |setting| PostDesign::set_in(ground(), pipe(2.375, 0.13).into(), setting, hole).unwrap();
    let foam = of(set(Setting::ExpandingFoam));
    let disc = |d: f64| PI / 4.0 * d * d / 1_728.0;
    assert_relative_eq!(foam.hole.to(cu_ft), disc(8.0) * 36.0, max_relative = 1e-9);
    assert_relative_eq!(foam.base.to(cu_ft), disc(8.0) * 6.0, max_relative = 1e-9);
    let fill = (disc(8.0) - disc(2.375)) * 30.0;
    assert_relative_eq!(foam.fill.to(cu_ft), fill, max_relative = 1e-9);
    assert_relative_eq!(
        foam.carry().to(lb),
        3.2 * (fill / 0.5).ceil(),
        max_relative = 1e-9
    );
    assert!(of(set(Setting::CompactedGravel)).bags.is_some());
    let tamped = of(set(Setting::TampedSoil));
    assert_eq!((tamped.bags, tamped.carry()), (None, lb(0.0)));
    assert_eq!(tamped.hole, foam.hole);
    let driven = of(PostDesign::driven(ground(), pipe(2.375, 0.13).into()));
    assert_eq!((driven.hole, driven.bags), (cu_ft(0.0), None));
    let unknown = PostDesign::bare(ground(), pipe(2.375, 0.13).into());
    let unknown = post(unknown, inch(30.0), quantities(options));
    assert_eq!(unknown.site.materials.refusal().unwrap().field(), "hole");
    // What a bag of concrete yields says nothing of foam or of gravel.
    let known = MaterialOptions::new(Bag::lb_50());
    let own = MaterialOptions::new(Bag::given(lb(50.0), cu_ft(0.375)).unwrap());
    for (setting, allowed) in [
        (Setting::PouredConcrete, true),
        (Setting::ExpandingFoam, false),
        (Setting::CompactedGravel, false),
        (Setting::TampedSoil, true),
    ] {
        let of = |options| post(set(setting), inch(30.0), quantities(options));
        let (known, own) = (of(known), of(own));
        assert!(own.site.materials.done().is_some(), "{setting:?}");
        let refused = known.site.materials.refusal().map(Error::field);
        assert_eq!(refused, (!allowed).then_some("bag"), "{setting:?}");
    }
}

/// Of a fence with a corner: 9 posts on the first run, 3 more on the second.
#[test]
fn quantities_of_a_fence() {
    let panel = Panel::new(ft(6.0)).unwrap();
    let side = FenceRun::new(panel, ft(24.0), ft(8.0)).unwrap();
    let fence = fence().turning(deg(90.0), side).unwrap();
    let options = MaterialOptions::new(Bag::lb_80());
    let plan = FencePlan::new(site(), fence, concrete(pine(5.5)))
        .with_planned_depth(ft(4.0))
        .with_site_checks(quantities(options));
    let schedule = plan.schedule().unwrap();
    let (all, first, second) = (
        schedule.materials(None),
        schedule.materials(Some(0)),
        schedule.materials(Some(1)),
    );
    assert_eq!((all.posts, first.posts, second.posts), (12, 9, 3));
    let ring = (PI / 4.0 - (5.5 / 12.0_f64).powi(2)) * 4.0;
    assert_relative_eq!(all.fill.to(cu_ft), 12.0 * ring, max_relative = 1e-9);
    assert_relative_eq!(
        (first.fill + second.fill).value,
        all.fill.value,
        max_relative = 1e-12
    );
    assert_relative_eq!(all.hole.to(cu_ft), 12.0 * PI, max_relative = 1e-9);
    let a_post = (ring / 0.6).ceil();
    assert_eq!(all.bags, 12.0 * a_post);
    assert_eq!(all.least_bags(), (12.0 * ring / 0.6).ceil());
    assert_relative_eq!(all.carry.to(lb), 12.0 * a_post * 80.0, max_relative = 1e-12);
    // Another bag, or nothing, for one post.
    let other = plan
        .clone()
        .with_post_site_checks(2, SiteChecks::default())
        .with_post_site_checks(3, quantities(MaterialOptions::new(Bag::lb_40())));
    let sum = other.schedule().unwrap().materials(None);
    assert_eq!(sum.posts, 11);
    assert_eq!(sum.bags, 10.0 * a_post + (ring / 0.3).ceil());
    // Left out, not forgotten.
    let unknown = plan.with_post(5, PostDesign::bare(ground(), pine(5.5).into()), None);
    let sum = unknown.schedule().unwrap().materials(None);
    assert_eq!((sum.posts, sum.left_out), (11, 1));
    assert_eq!(SiteChecks::default().materials(), None);
    let none = FencePlan::new(site(), self::fence(), concrete(pine(5.5)));
    assert_eq!(
        none.schedule().unwrap().materials(None),
        MaterialsSum::default()
    );
}

// Cautions, worksheets, hostile numbers.

#[test]
fn frost_that_was_checked_is_not_said_to_be_unchecked() {
    let asked = frost(FrostOptions::new(inch(30.0), Grip::FineGrained).unwrap());
    let plan = plan(concrete(pine(5.5)), ft(4.0), asked);
    let schedule = plan.schedule().unwrap();
    let post = schedule.post(4).unwrap();
    assert!(!post.cautions().contains(Caution::Frost));
    assert!(post.cautions().contains(Caution::FrostChecked));
    assert!(post.cautions().contains(Caution::NoSubstitute));
    let text = report::text(&schedule.worksheet(&post, UnitSystem::Us)).to_string();
    assert!(!text.contains("Frost is not checked here"));
}

fn everything() -> SiteChecks {
    SiteChecks::default()
        .with_lean(
            sand()
                .with_rigidity(kn_sq_m(400.0))
                .unwrap()
                .with_limit(0.02)
                .unwrap(),
        )
        .with_frost(
            FrostOptions::new(inch(20.0), Grip::FineGrained)
                .unwrap()
                .with_friction(SideFriction::Presumptive)
                .unwrap()
                .with_post_weight(lb(60.0))
                .unwrap(),
        )
        .with_uplift(
            UpliftOptions::new(lb(300.0))
                .unwrap()
                .with_friction(SideFriction::Allowable(psf(150.0)))
                .unwrap()
                .with_bond(lb_per_sq_in(20.0))
                .unwrap(),
        )
        .with_axial(column())
        .with_materials(
            MaterialOptions::new(Bag::lb_60())
                .with_waste(0.07)
                .unwrap()
                .with_base(inch(4.0))
                .unwrap(),
        )
}

/// Every line of a post with everything asked for recomputes from the numbers
/// printed on it, in both systems.
#[test]
fn numbers_recompute_by_hand() {
    let hole = Hole::round(inch(12.0)).unwrap();
    let cut = ground().discounting_top(ft(0.5)).unwrap();
    let constant = everything().with_lean(clay().with_rigidity(kn_sq_m(400.0)).unwrap());
    let gate = Gate::new(ft(16.0), ft(4.0), lb(130.0), Hinges::AtStart).unwrap();
    let panel = Panel::new(ft(6.0)).unwrap().with_weight(psf(5.0)).unwrap();
    let run = FenceRun::new(panel, ft(64.0), ft(8.0))
        .unwrap()
        .with_gate(gate)
        .unwrap();
    let side = FenceRun::new(panel, ft(24.0), ft(8.0)).unwrap();
    let fence = Fence::new(run).turning(deg(90.0), side).unwrap();
    let kit = Bag::given(lb(3.2), cu_ft(0.5)).unwrap();
    for (design, asked) in [
        (concrete(pine(5.5)), everything()),
        (concrete(pipe(2.875, 0.16)), constant),
        (
            PostDesign::in_concrete(cut, schedule_40(), hole).unwrap(),
            everything(),
        ),
        (
            PostDesign::in_concrete(cut, given(), hole).unwrap(),
            constant,
        ),
        (
            PostDesign::set_in(ground(), pine(5.5).into(), Setting::ExpandingFoam, hole).unwrap(),
            everything().with_materials(MaterialOptions::new(kit)),
        ),
        (PostDesign::driven(ground(), schedule_40()), everything()),
    ] {
        for depth in [Some(ft(4.5)), Some(inch(18.0)), None] {
            let mut plan = FencePlan::new(site(), fence.clone(), design).with_site_checks(asked);
            if let Some(depth) = depth {
                plan = plan.with_planned_depth(depth);
            }
            let schedule = plan.schedule().unwrap();
            for post in schedule.posts() {
                for system in [UnitSystem::Us, UnitSystem::Si] {
                    let sheet = schedule.worksheet(&post, system);
                    closed(&sheet);
                    for step in sheet.steps() {
                        recompute(step, system);
                    }
                    for title in [
                        "Weight and bending together",
                        "Lean of the top",
                        "Frost",
                        "Pull-out",
                        "Quantities",
                    ] {
                        assert!(sheet.sections.iter().any(|section| section.title == title));
                    }
                    let text = report::text(&sheet).to_string();
                    assert!(!text.contains("NaN") && !text.contains("inf "));
                }
                assert_eq!(post.site.refusals().count(), 0);
                // Of the case worst in bending, which the strength check may
                // pass over for one worse in shear.
                let bent = post.site.axial.done().unwrap().bending;
                assert!(bent >= post.check.strength.bending);
                let worst = Governing::ALL
                    .into_iter()
                    .filter_map(|check| post.site.utilization_of(check))
                    .chain([post.check.utilization])
                    .max()
                    .unwrap();
                assert_eq!(post.utilization(), worst);
                assert_eq!(post.passes(), post.failing().next().is_none());
            }
        }
    }
}

#[test]
fn hostile_numbers_are_refused() {
    for x in [
        f64::NAN,
        f64::INFINITY,
        f64::NEG_INFINITY,
        -1.0,
        1e308,
        f64::MIN,
    ] {
        assert!(GroundStiffness::constant(pa(x)).is_err());
        assert!(GroundStiffness::growing(n_per_cu_m(x)).is_err());
        assert!(clay().with_limit(x).is_err());
        assert!(clay().with_rigidity(n_sq_m(x)).is_err());
        assert!(FrostOptions::new(m(x), Grip::FineGrained).is_err());
        assert!(FrostOptions::new(m(1.0), Grip::Given(pa(x))).is_err());
        let frost = FrostOptions::new(m(1.0), Grip::FineGrained).unwrap();
        assert!(frost.with_friction(SideFriction::Allowable(pa(x))).is_err());
        assert!(frost.with_friction(SideFriction::Tested(pa(x))).is_err());
        assert!(frost.with_concrete(n_per_cu_m(x)).is_err());
        assert!(frost.with_post_weight(newton(x)).is_err());
        assert!(UpliftOptions::new(newton(x)).is_err());
        let uplift = UpliftOptions::new(lb(100.0)).unwrap();
        assert!(
            uplift
                .with_friction(SideFriction::Allowable(pa(x)))
                .is_err()
        );
        assert!(uplift.with_bond(pa(x)).is_err());
        assert!(uplift.with_concrete(n_per_cu_m(x)).is_err());
        assert!(uplift.with_post_weight(newton(x)).is_err());
        let bags = MaterialOptions::new(Bag::lb_80());
        assert!(bags.with_waste(x).is_err());
        assert!(bags.with_base(m(x)).is_err());
        assert!(CompressionValues::new(pa(x), ksi(440.0)).is_err());
        assert!(CompressionValues::new(ksi(1.0), pa(x)).is_err());
        assert!(column().with_capacity(newton(x)).is_err());
        assert!(column().with_length_factor(x).is_err());
        for post in [schedule_40(), pine(5.5).into(), given()] {
            let bent = Utilization::FULL;
            assert!(AxialBending::new(&post, &column(), newton(x), bent, m(2.0)).is_err());
            assert!(AxialBending::new(&post, &column(), lb(9.0), bent, m(x)).is_err());
        }
        let ei = n_sq_m(1e5);
        assert!(Lean::of_grade(newton(x), n_m(1.0), n_m(0.0), m(2.0), ei).is_err());
        assert!(Lean::of_grade(newton(1.0), n_m(x), n_m(0.0), m(2.0), ei).is_err());
        assert!(Lean::of_grade(newton(1.0), n_m(1.0), n_m(x), m(2.0), ei).is_err());
        assert!(Lean::of_grade(newton(1.0), n_m(1.0), n_m(0.0), m(x), ei).is_err());
        let nh = kn_per_cu_m(5_000.0);
        let one = (kn(1.0), kn_m(1.0));
        assert!(finite_growing(n_per_cu_m(x), ei, m(1.0), one.0, one.1).is_err());
        assert!(finite_growing(nh, n_sq_m(x), m(1.0), one.0, one.1).is_err());
        assert!(finite_growing(nh, ei, m(x), one.0, one.1).is_err());
    }
    // So deep or shallow that a check has no answer: refused one by one, and
    // never a number that is none.
    for depth in [inch(0.5), ft(250.0)] {
        let post = post(concrete(pine(5.5)), depth, everything());
        assert!(post.site.refusals().count() >= 1);
        assert!(post.utilization().ratio().is_finite());
        assert!(post.cautions().contains(Caution::NotAllChecked));
    }
}

// Beside these.

/// A top that does not count holds nothing, nor does the frost: the deeper of
/// the two.
#[test]
fn friction_begins_below_frost_and_discounted_top() {
    for (top, frost_depth) in [(2.0, 1.0), (1.0, 2.0), (2.0, 2.0)] {
        let ground = ground().discounting_top(ft(top)).unwrap();
        let hole = Hole::round(inch(12.0)).unwrap();
        let design = PostDesign::in_concrete(ground, pine(5.5).into(), hole).unwrap();
        let asked = SiteChecks::default()
            .with_frost(
                FrostOptions::new(ft(frost_depth), Grip::FineGrained)
                    .unwrap()
                    .with_friction(SideFriction::Allowable(psf(100.0)))
                    .unwrap(),
            )
            .with_uplift(
                UpliftOptions::new(lb(100.0))
                    .unwrap()
                    .with_friction(SideFriction::Allowable(psf(100.0)))
                    .unwrap(),
            );
        let post = post(design, ft(5.0), asked);
        let anchorage = post.site.frost.done().unwrap().anchorage;
        assert_relative_eq!(anchorage.to(lb), 100.0 * PI * 3.0, max_relative = 1e-9);
        let side = post.site.uplift.done().unwrap().side;
        assert_relative_eq!(side.to(sq_ft), PI * 3.0, max_relative = 1e-9);
    }
}

/// Where a number comes from: the weakest way, the grip, the closed form.
#[test]
fn sources_of_what_governs() {
    let asked = everything().with_uplift(
        UpliftOptions::new(lb(100.0))
            .unwrap()
            .with_friction(SideFriction::Presumptive)
            .unwrap(),
    );
    let post = post(concrete(pine(5.5)), ft(5.0), asked);
    let id = |source: &groundline::source::Citation| source.id;
    assert_eq!(
        id(post.site.uplift.done().unwrap().resistance.source),
        "ibc/1810.3.3.1.4"
    );
    assert_eq!(
        id(post.site.frost.done().unwrap().source()),
        "cfem/adfreeze"
    );
    assert_eq!(
        id(post.site.lean.done().unwrap().source()),
        "growing-series"
    );
    assert_eq!(id(post.site.axial.done().unwrap().source()), "nds/3.9.2");
}

/// The leaf of a gate hangs on its post: a couple, in line or across, that
/// bends it as at the top and turns it in the ground with the wind.
#[test]
fn a_hung_leaf_leans_its_post() {
    let of = |weight: f64| {
        let panel = Panel::new(ft(6.0)).unwrap();
        let gate = Gate::new(ft(16.0), ft(4.0), lb(weight), Hinges::AtStart).unwrap();
        let run = FenceRun::new(panel, ft(36.0), ft(8.0))
            .unwrap()
            .with_gate(gate)
            .unwrap();
        let plan = FencePlan::new(site(), Fence::new(run), concrete(pipe(2.875, 0.16)))
            .with_planned_depth(ft(5.0))
            .with_site_checks(lean(clay()));
        let schedule = plan.schedule().unwrap();
        let post = schedule
            .posts()
            .max_by(|a, b| {
                let weight = |post: &ScheduledPost| post.cases[0].dead.axial().value;
                weight(a).total_cmp(&weight(b))
            })
            .unwrap();
        (post, lean_of(&post))
    };
    let ((_, light), (post, heavy)) = (of(0.0), of(400.0));
    assert_eq!(light.couples, lb_ft(0.0));
    assert!(heavy.couples > lb_ft(0.0));
    let case = post
        .cases
        .iter()
        .find(|case| {
            let dead = case.dead.in_line() + case.dead.across();
            (0.6 * case.wind.shear() - heavy.shear).abs() < lb(1e-6) && dead == heavy.couples
        })
        .unwrap();
    // 400 lb at half of 4 ft.
    let arm = (case.dead.in_line() + case.dead.across()).to(lb_ft) / 400.0;
    assert_relative_eq!(arm, 2.0, max_relative = 1e-6);
    // With y0 and θ0 of the same ground under M + C, by Hetenyi.
    let moment = heavy.wind_moment + heavy.couples;
    let by = closed_form::finite(mpa(4.0), heavy.rigidity, ft(5.0), heavy.shear, moment)
        .unwrap()
        .at_grade();
    assert_relative_eq!(
        heavy.lean.movement().value,
        by.deflection.value,
        max_relative = 1e-9
    );
    assert_relative_eq!(
        heavy.lean.rotation().value,
        -by.rotation.value,
        max_relative = 1e-9
    );
    assert!(heavy.ratio > light.ratio);
    // The worst of every case, each by itself.
    let each: Vec<f64> = post
        .cases
        .iter()
        .map(|case| {
            let (v, mo) = (case.wind.shear() * 0.6, case.wind.moment() * 0.6);
            let couples = case.dead.in_line() + case.dead.across();
            let bent = Lean::of_grade(v, mo, couples, ft(6.0), heavy.rigidity).unwrap();
            let by = closed_form::finite(mpa(4.0), heavy.rigidity, ft(5.0), v, mo + couples)
                .unwrap()
                .at_grade();
            let top = bent.total() + by.deflection + ft(6.0) * -by.rotation.value;
            (top / ft(6.0)).value
        })
        .collect();
    let worst = each.iter().copied().fold(0.0, f64::max);
    assert!(each.len() > 1 && each.iter().any(|one| *one < 0.99 * worst));
    assert_relative_eq!(heavy.ratio, worst, max_relative = 1e-9);
}

/// Wind that is at allowable-stress level as given is not multiplied by 0.6.
#[test]
fn wind_at_allowable_level_as_given() {
    let pressure = DirectPressure::new(psf(12.0), AllowableStress::Basic)
        .unwrap()
        .acting_at(0.5)
        .unwrap();
    let plan = FencePlan::new(pressure, fence(), concrete(pipe(2.875, 0.16)))
        .with_planned_depth(ft(5.0))
        .with_site_checks(
            lean(clay()).with_frost(FrostOptions::new(ft(2.0), Grip::FineGrained).unwrap()),
        );
    let post = plan.schedule().unwrap().post(4).unwrap();
    // 12 psf on 8 ft by 6 ft.
    let check = post.site.lean.done().unwrap();
    assert_relative_eq!(check.shear.to(lb), 576.0, max_relative = 1e-9);
    assert_eq!(post.site.frost.done().unwrap().relieving, 0.6);
}
