//! The check of a post: bending at the required depth whatever the planned one, ω on
//! the post, and the movement at grade of an isolated pole.

use crate::samples::{pine, pipe};
use groundline::actions::{DeadEffects, GroundlineActions, LoadCase};
use groundline::caution::Caution;
use groundline::check::*;
use groundline::fence::*;
use groundline::foundation::*;
use groundline::ground::*;
use groundline::limit_state::AllowableStress;
use groundline::plan::FencePlan;
use groundline::post::BelowGrade;
use groundline::report;
use groundline::response::{PostModel, Springs};
use groundline::units::*;
use groundline::wind::*;
use proptest::prelude::*;

fn design(hole: f64, ground: Ground) -> PostDesign {
    PostDesign::in_concrete(ground, pine(5.5).into(), Hole::round(inch(hole)).unwrap()).unwrap()
}

fn class(number: u8) -> Ground {
    Ground::presumptive(SoilClass::from_number(number).unwrap())
}

proptest! {
    /// The post does not change with the planned depth, bending never rises with a
    /// wider hole or better ground, and the required depth rounded up passes whatever
    /// passed without a planned depth.
    #[test]
    fn bending_never_worsens_with_depth(
        shear in 50.0..2_000.0f64,
        height in 0.5..6.0f64,
        hole in 10.0..30.0f64,
        planned in 12.0..200.0f64,
        wider in 1.0..1.5f64,
    ) {
        let wind = GroundlineActions::wind(lb(shear), ft(height)).unwrap();
        let cases = [LoadCase::new(wind, DeadEffects::NONE)];
        let of = |design: &PostDesign, depth: Option<Length>| {
            PostCheck::new(design, &cases, depth).unwrap()
        };
        let here = design(hole, class(4));
        let base = of(&here, None);
        prop_assert_eq!(base.strength, of(&here, Some(inch(planned))).strength);
        let up = (base.required.depth().to(inch)).ceil();
        prop_assert_eq!(base.passes(), of(&here, Some(inch(up))).passes());
        let bending = |design: &PostDesign| of(design, None).strength.bending.ratio();
        let now = bending(&here) * (1.0 + 1e-12);
        prop_assert!(bending(&design(hole * wider, class(4))) <= now);
        prop_assert!(bending(&design(hole, class(3))) <= now);
    }
}

/// Post 2 of the example `tall_privacy_fence`: 964 lb at 4.4 ft, 76 in required. A beam
/// on springs (nh 20 pci, E 1500 ksi, chosen here) has the same moment at 76, 108 and
/// 144 in to 0.4 %, within 2 % of the 5129, 5143 and 5144 lb·ft that an independent
/// calculation gave, while the rigid post over the whole depth grows past all of them.
#[test]
fn a_beam_on_springs_stands_beside_it() {
    let (shear, moment) = (lb(964.0), lb_ft(4_241.0));
    let load = GroundlineActions::new(shear, moment, lb(0.0), AllowableStress::Basic).unwrap();
    let rigid = |depth: f64| {
        BelowGrade::new(&load, inch(depth), ft(0.0), Restraint::None)
            .unwrap()
            .moment()
            .to(lb_ft)
    };
    let beam = |depth: f64| {
        let springs = Springs::growing(lb_per_cu_in(20.0)).unwrap();
        let rigidity = lb_sq_in(1.5e6 * 5.5f64.powi(4) / 12.0);
        PostModel::new(rigidity, inch(18.0), inch(depth), springs)
            .and_then(|post| post.standing(ft(8.0)))
            .and_then(|post| post.with_force(ft(4_241.0 / 964.0), shear))
            .and_then(|post| post.solve())
            .unwrap()
            .greatest_moment()
            .moment
            .to(lb_ft)
    };
    let shallow = beam(76.0);
    for (depth, other) in [(76.0, 5_129.0), (108.0, 5_143.0), (144.0, 5_144.0)] {
        let here = beam(depth);
        assert!((here / other - 1.0).abs() < 0.02, "{here}");
        assert!((here / shallow - 1.0).abs() < 0.004, "{here}");
        assert!(here < rigid(76.0) && rigid(76.0) < 1.08 * here);
    }
    assert!(rigid(144.0) > 1.1 * beam(144.0));
    let planned = |depth: f64| {
        let check = PostCheck::of_actions(&design(18.0, class(3)), &load, Some(inch(depth)));
        check.unwrap().strength.demand.moment().to(lb_ft)
    };
    assert!((planned(144.0) / rigid(76.0) - 1.0).abs() < 0.005);
}

/// IBC 1605.3.2: ω = 1.3 on the wind that meets increased soil pressure, 1 on the post,
/// whose stresses are not increased.
#[test]
fn omega_is_not_charged_to_the_post() {
    let wind = GroundlineActions::wind(lb(1_000.0), ft(4.0)).unwrap();
    let case = [LoadCase::new(wind, DeadEffects::NONE)];
    let basic = design(12.0, class(4));
    let alternative = basic.with_combination(AllowableStress::AlternativeWithIncrease);
    let of = |design| PostCheck::new(design, &case, Some(ft(6.0))).unwrap();
    let check = of(&alternative);
    assert!((check.actions().shear().to(lb) - 780.0).abs() < 1e-9);
    let demand = BelowGrade::new(
        of(&basic).actions(),
        check.required.depth(),
        ft(0.0),
        Restraint::None,
    );
    let demand = demand.unwrap();
    assert_eq!(check.strength.demand.moment(), demand.moment());
    assert_eq!(check.strength.demand.shear(), demand.shear());
    assert!(
        report::text(&check.worksheet("Post", UnitSystem::Us))
            .to_string()
            .contains(
                "For the post itself: omega is 1.3 only where an allowable stress is increased"
            )
    );
    // Factors of one's own hold for both.
    let own = alternative
        .combination()
        .with_factors(1.0, 1.0, 0.6)
        .unwrap();
    assert_eq!(own.without_increase(), own);
    let basic = *basic.combination();
    assert_eq!(basic.without_increase(), basic);
}

fn pole(ground: Ground, depth: f64, asked: &SiteChecks) -> FencePlan {
    let speed = BasicWindSpeed::strength_level(mph(105.0)).unwrap();
    let site = AsceSite::new(Edition::Asce7_22, speed, Exposure::B);
    let fence = FenceRun::new(Panel::new(ft(4.0)).unwrap(), ft(64.0), ft(8.0)).unwrap();
    let hole = Hole::round(inch(12.0)).unwrap();
    let design = PostDesign::in_concrete(ground, pipe(2.875, 0.16).into(), hole).unwrap();
    FencePlan::new(site, Fence::new(fence), design)
        .with_planned_depth(inch(depth))
        .with_site_checks(*asked)
}

/// Doubled bearing passes the ground, and the movement at grade under 0.6 W fails its
/// half inch (class 5, 3 pci): a check with utilization that governs. Without a
/// stiffness the verdict carries the condition.
#[test]
fn the_doubling_meets_its_condition() {
    let ground = class(5).as_isolated_pole();
    let stiffness = GroundStiffness::growing(lb_per_cu_in(3.0)).unwrap();
    let lean = SiteChecks::default().with_lean(LeanOptions::new(stiffness));
    let plan = pole(ground, 60.0, &SiteChecks::default());
    let schedule = plan.schedule().unwrap();
    let post = schedule.post(4).unwrap();
    assert!(post.passes());
    assert_eq!(post.condition(), Some(Condition::HalfInchAtGrade));
    let sheet = schedule.worksheet(&post, UnitSystem::Us);
    let text = report::text(&sheet).to_string();
    assert!(text.contains("passes on condition that 1/2 in (13 mm) of movement at grade"));

    for top in [0.0, 6.0] {
        let ground = ground.discounting_top(inch(top)).unwrap();
        let plan = pole(ground, 60.0 + top, &lean);
        let schedule = plan.schedule().unwrap();
        let post = schedule.post(4).unwrap();
        let check = post.site.lean.done().unwrap();
        let moved = check.at_grade.unwrap();
        assert!(!post.passes() && post.governing() == Governing::GradeMovement);
        assert_eq!(post.condition(), None);
        assert_eq!(
            post.failing().collect::<Vec<_>>(),
            [Governing::GradeMovement]
        );
        assert!((post.utilization().ratio() - moved.movement.to(inch) / 0.5).abs() < 1e-9);
        // Another route: the beam on springs, with the load at its height.
        let height = (moved.moment.value - moved.shear.value * inch(top).value) / moved.shear.value;
        let springs = Springs::growing(lb_per_cu_in(3.0)).unwrap();
        let below = PostModel::new(check.rigidity, inch(12.0), inch(60.0), springs)
            .and_then(|post| post.standing(ft(8.0)))
            .and_then(|post| post.with_force(m(height) + inch(top), moved.shear))
            .and_then(|post| post.solve())
            .unwrap();
        let at = below
            .stations()
            .iter()
            .min_by(|a, b| {
                let off = |s: &groundline::response::Station| (s.depth + inch(top)).value.abs();
                off(a).total_cmp(&off(b))
            })
            .unwrap();
        let moved_there =
            at.deflection.to(inch) + at.rotation.value.abs() * (at.depth + inch(top)).to(inch);
        assert!(
            (moved_there / moved.movement.to(inch) - 1.0).abs() < 5e-3,
            "{moved_there} {}",
            moved.movement.to(inch)
        );
        let sheet = schedule.worksheet(&post, UnitSystem::Us);
        for step in sheet.steps() {
            crate::worksheet::recompute(step, UnitSystem::Us);
        }
    }
    // Not of a pole that is not doubled.
    let plain = pole(class(3), 60.0, &lean);
    let post = plain.schedule().unwrap().post(4).unwrap();
    assert_eq!(post.site.lean.done().unwrap().at_grade, None);
    assert_eq!(post.condition(), None);
}

/// UFC 3-220-20 6-6.5: cautions begin at 5 b, and name their posts.
#[test]
fn a_row_closer_than_five_widths_names_its_posts() {
    let plan = |spacing: f64| {
        let plan = pole(class(3), 60.0, &SiteChecks::default());
        let near = FenceRun::new(Panel::new(ft(4.0)).unwrap(), ft(20.0), ft(spacing)).unwrap();
        plan.with_fence(Fence::new(near))
    };
    // Holes of 12 in: 5 ft. ASABE begins at 3 ft.
    let close = plan(4.0);
    let schedule = close.schedule().unwrap();
    let posts = |caution| schedule.posts_with(caution).collect::<Vec<_>>();
    assert_eq!(posts(Caution::RowSpacing), [1, 2, 3, 4, 5, 6]);
    assert!(posts(Caution::CloseSpacing).is_empty());
    let apart = plan(5.0);
    assert!(
        !apart
            .schedule()
            .unwrap()
            .cautions()
            .contains(Caution::RowSpacing)
    );
}

/// Presumptive skin friction holds against frost only where it is asked for by name,
/// and the result says that its clause is of deep foundations (IBC 1810.3.3.1.4).
#[test]
fn frost_takes_no_presumptive_friction_by_default() {
    let of = |frost: FrostOptions| {
        let asked = SiteChecks::default().with_frost(frost);
        let plan = pole(class(4), 60.0, &asked);
        let schedule = plan.schedule().unwrap();
        let post = schedule.post(4).unwrap();
        let text = report::text(&schedule.worksheet(&post, UnitSystem::Us)).to_string();
        (post, text)
    };
    let frost = FrostOptions::new(inch(24.0), Grip::FineGrained).unwrap();
    let (post, text) = of(frost);
    assert_eq!(post.site.frost.done().unwrap().anchorage, lb(0.0));
    assert!(!post.cautions().contains(Caution::DeepFoundationFriction));
    assert!(text.contains("typical, no upper bound"));
    let (post, text) = of(frost.with_friction(SideFriction::Presumptive).unwrap());
    assert!(post.site.frost.done().unwrap().anchorage > lb(0.0));
    assert!(post.cautions().contains(Caution::DeepFoundationFriction));
    assert!(text.contains("clause of deep foundations"));
}
