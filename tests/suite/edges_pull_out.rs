//! Pull-out and posts below grade: what governs and its source, and the limits
//! of what goes in.

use approx::assert_relative_eq;
use groundline::actions::GroundlineActions;
use groundline::caution::Caution;
use groundline::combination::Combination;
use groundline::foundation::Restraint;
use groundline::limit_state::{AllowableStress, PartialFactor};
use groundline::post::*;
use groundline::profile::{Profile, Soil};
use groundline::section::*;
use groundline::source;
use groundline::units::*;
use groundline::uplift::*;

fn held(pull: &PullOut) -> PullOutResistance {
    pull.resistance(&Combination::of(AllowableStress::Basic))
}

/// The source told is that of the way that governs.
#[test]
fn source_of_what_governs() {
    let soil = Soil::new(kn_per_cu_m(18.0)).unwrap();
    let profile = Profile::uniform(soil.with_undrained_strength(kpa(50.0)).unwrap()).unwrap();
    let shaft = Shaft::round(m(0.3), m(1.0), m(0.0)).unwrap();
    let base = PullOut::new(kn(0.2), kn(1.0)).unwrap();
    let slides = base
        .with_friction(
            &profile,
            Friction::alpha(0.5).unwrap(),
            &shaft,
            HowKnown::Analysis,
        )
        .unwrap();
    let weak = Bond::wood_in_concrete(mm(100.0), mm(10.0)).unwrap();
    let strong = Bond::wood_in_concrete(m(1.0), m(1.0)).unwrap();
    let plate = Breakout::new(deg(30.0), kn_per_cu_m(18.0), m(0.4), m(0.3)).unwrap();
    let light = slides.lifting_soil_by_collar(kn(0.5)).unwrap();
    let heavy = slides.lifting_soil_by_collar(kn(900.0)).unwrap();
    assert!(plate.ultimate() < kn(20.0));
    for (pull, mode, source) in [
        (base, PullOutMode::FootingSlides, &source::STATICS),
        (slides, PullOutMode::FootingSlides, &source::ALPHA_METHOD),
        (
            slides.with_bond(strong),
            PullOutMode::FootingSlides,
            &source::ALPHA_METHOD,
        ),
        (
            slides.with_bond(weak),
            PullOutMode::PostSlides,
            &source::WOOD_BOND,
        ),
        (light, PullOutMode::SoilLifts, &source::STATICS),
        (heavy, PullOutMode::FootingSlides, &source::ALPHA_METHOD),
        (
            slides.breaking_out(plate),
            PullOutMode::SoilLifts,
            &source::BREAKOUT,
        ),
        (
            heavy.breaking_out(plate),
            PullOutMode::SoilLifts,
            &source::BREAKOUT,
        ),
        (
            light.breaking_out(plate),
            PullOutMode::SoilLifts,
            &source::STATICS,
        ),
    ] {
        let holds = held(&pull);
        assert_eq!((holds.weakest, holds.source), (mode, source));
        // The weakest way is the least of those there are.
        let least = holds.ways.iter().filter_map(|(_, held)| *held);
        let least = least.fold(f64::MAX, |least, held| least.min(held.value));
        assert_eq!(holds.resistance.value, least);
        let own = holds.ways.iter().find(|(way, _)| *way == mode).unwrap();
        assert_eq!(own.1, Some(holds.resistance));
    }
    let names = [
        (PullOutMode::FootingSlides, "footing slides"),
        (PullOutMode::SoilLifts, "lifts the soil"),
        (PullOutMode::PostSlides, "post slides"),
    ];
    for (mode, words) in names {
        assert!(mode.name().contains(words));
        let with = names.iter().filter(|(m, _)| m.name().contains(words));
        assert_eq!(with.count(), 1);
    }
    // Frost is always told; what comes from memory where it does.
    for (pull, memory) in [
        (base, false),
        (slides, true),
        (base.breaking_out(plate), true),
        (base.with_bond(strong), false),
    ] {
        assert!(pull.cautions().contains(Caution::Frost));
        assert_eq!(pull.cautions().contains(Caution::FromMemory), memory);
    }
}

/// Weights to a million pounds, and no less than none.
#[test]
fn limits_of_a_pull_out() {
    let of = |post: f64, footing: f64| PullOut::new(lb(post), lb(footing)).is_ok();
    assert!(of(0.0, 0.0) && of(1e6, 1e6));
    assert!(!of(-1.0, 0.0) && !of(0.0, -1.0) && !of(1.001e6, 0.0) && !of(0.0, 1.001e6));
    let base = PullOut::new(lb(10.0), lb(1_000.0)).unwrap();
    let soil = |w: f64| base.lifting_soil_by_collar(lb(w)).is_ok();
    assert!(soil(0.0) && soil(1e6) && !soil(-1.0) && !soil(1.001e6));
    // All of a footing in water, and no more of it than weighs it away.
    let most = lb(1_000.0).to(kn) / 9.806_65;
    assert!(base.standing_in_water(cu_m(most * 0.999_999)).is_ok());
    assert!(base.standing_in_water(cu_m(most * 1.000_1)).is_err());
    assert_eq!(
        (HowKnown::Analysis.factor(), HowKnown::Tests.factor()),
        (3.0, 2.0)
    );
    let plate = |phi: f64, w: f64, b: f64, d: f64| {
        Breakout::new(deg(phi), kn_per_cu_m(w), inch(b), m(d)).is_ok()
    };
    assert!(plate(20.0, 3.0, 3.0, 0.1) && plate(45.0, 25.0, 120.0, 30.0));
    assert!(!plate(19.9, 18.0, 9.0, 1.0) && !plate(45.1, 18.0, 9.0, 1.0));
    assert!(!plate(30.0, 2.9, 9.0, 1.0) && !plate(30.0, 25.1, 9.0, 1.0));
    assert!(!plate(30.0, 18.0, 2.9, 1.0) && !plate(30.0, 18.0, 120.5, 1.0));
    assert!(!plate(30.0, 18.0, 9.0, 0.099) && !plate(30.0, 18.0, 9.0, 30.1));
    // Deep from just beyond the critical ratio, 4 at 30° and 5 at 35°.
    for (phi, critical) in [(30.0, 4.0), (35.0, 5.0), (32.5, 4.5), (45.0, 9.0)] {
        let at = |ratio: f64| {
            Breakout::new(deg(phi), kn_per_cu_m(18.0), m(0.5), m(0.5 * ratio)).unwrap()
        };
        assert!(!at(critical * 0.999).is_deep() && at(critical * 1.001).is_deep());
        assert_relative_eq!(
            at(critical * 0.999_999).factor(),
            at(critical * 2.0).factor(),
            max_relative = 1e-5
        );
    }
}

/// A rigid post below grade, both ways of the load, and its limits; the moment
/// of a shear alone is V L times that at ζ = (1 + √33)/16.
#[test]
fn below_grade_on_the_edge() {
    let actions = |v: f64, mo: f64| {
        GroundlineActions::new(kn(v), kn_m(mo), kn(0.0), AllowableStress::Basic).unwrap()
    };
    let zeta = (1.0 + 33.0_f64.sqrt()) / 16.0;
    let by_hand = 1.5 * 2.0 * (zeta - 3.0 * zeta.powi(3) + 2.0 * zeta.powi(4));
    for sign in [1.0, -1.0] {
        let alone = BelowGrade::new(&actions(2.0 * sign, 0.0), m(1.5), m(0.0), Restraint::None);
        let alone = alone.unwrap();
        assert_relative_eq!(alone.moment().to(kn_m), by_hand, max_relative = 1e-9);
        assert_relative_eq!(
            alone.depth_of_moment().value,
            1.5 * zeta,
            max_relative = 1e-9
        );
        assert_eq!(alone.embedment(), m(1.5));
        // A moment alone is greatest at the top; the shear is 4 (12 m)³/(27 (12 m)²).
        let turned = BelowGrade::new(&actions(0.0, 3.0 * sign), m(1.5), m(0.0), Restraint::None);
        let turned = turned.unwrap();
        assert_relative_eq!(turned.moment().to(kn_m), 3.0, max_relative = 1e-9);
        assert_relative_eq!(
            turned.shear().to(kn),
            4.0 * 12.0 * 2.0 / 27.0,
            max_relative = 1e-9
        );
    }
    let nothing = BelowGrade::new(&actions(0.0, 0.0), m(1.5), m(0.3), Restraint::None).unwrap();
    assert_eq!((nothing.moment(), nothing.shear()), (kn_m(0.0), kn(0.0)));
    let of = |l: f64, top: f64| {
        BelowGrade::new(&actions(1.0, 1.0), ft(l), ft(top), Restraint::None).is_ok()
    };
    assert!(of(0.01, 0.0) && of(100_000.0, 10.0));
    assert!(!of(0.009, 0.0) && !of(100_001.0, 0.0) && !of(4.0, -0.1) && !of(4.0, 10.1));
}

/// Design resistance: the sign of an action does not count, nor does it matter
/// which of the two places governs; limits of what is given.
#[test]
fn design_checks_on_the_edge() {
    let tube = Tube::new(mm(60.3), mm(3.2)).unwrap();
    let resists = PipeEn1993::new(tube, mpa(235.0)).unwrap().resistance();
    let check = |v: f64, mo: f64, below: f64, reversed: f64| {
        let level = PartialFactor::Structure;
        let actions = GroundlineActions::new(kn(v), kn_m(mo), kn(0.0), level).unwrap();
        resists.check(&actions, kn_m(below), kn(reversed))
    };
    for (v, mo, below, reversed) in [
        (1.0, 0.5, 0.6, 0.2),
        (-1.0, -0.5, 0.4, 0.2),
        (0.3, 0.0, 0.6, 2.0),
        (-3.0, -0.9, 0.0, 2.0),
    ] {
        let found = check(v, mo, below, reversed).unwrap();
        let moment = f64::max(mo.abs(), below);
        let shear = f64::max(v.abs(), reversed);
        assert_relative_eq!(found.moment.to(kn_m), moment, max_relative = 1e-12);
        assert_relative_eq!(
            found.bending.ratio(),
            moment / resists.moment.to(kn_m),
            max_relative = 1e-12
        );
        assert_relative_eq!(
            found.shear.ratio(),
            shear / resists.shear.to(kn),
            max_relative = 1e-12
        );
        assert_eq!(found.skew_bending, found.bending);
    }
    // Shear beyond half of Vpl,Rd takes from bending (EN 1993-1-1 6.2.8, from memory);
    // 2 A/π fy/√3 by hand, A = π (60.3 − 3.2) 3.2 mm².
    let half = 0.5 * (2.0 * (60.3 - 3.2) * 3.2) * 235.0 / 3.0_f64.sqrt() / 1_000.0;
    for (shear, takes) in [(0.999 * half, false), (1.001 * half, true)] {
        assert_eq!(
            check(0.1, 0.1, 0.0, shear).unwrap().wants_less_bending(),
            takes
        );
        assert_eq!(
            check(-shear, 0.1, 0.0, 0.0).unwrap().wants_less_bending(),
            takes
        );
    }
    let square = SquareTube::new(mm(80.0), mm(4.0)).unwrap();
    let square = SquareTubeEn1993::new(square, mpa(235.0))
        .unwrap()
        .resistance();
    let wood = Square::new(mm(100.0)).unwrap();
    let wood = TimberEn1995::new(wood, TimberClass::C24, 0.9)
        .unwrap()
        .resistance();
    for (resists, takes) in [(square, true), (wood, false)] {
        let level = PartialFactor::Structure;
        let actions = GroundlineActions::new(kn(0.0), kn_m(0.0), kn(0.0), level).unwrap();
        let found = resists.check(&actions, kn_m(0.0), resists.shear * 0.6);
        assert_eq!(found.unwrap().wants_less_bending(), takes);
    }
    assert!(check(1.0, 1.0, 0.0, 0.0).is_ok() && check(1.0, 1.0, 1e6, 1e5).is_ok());
    assert!(check(1.0, 1.0, -0.1, 0.0).is_err() && check(1.0, 1.0, 0.0, -0.1).is_err());
    assert!(check(1.0, 1.0, 1.001e6, 0.0).is_err() && check(1.0, 1.0, 0.0, 1.001e5).is_err());
}
