//! Load combinations: how they act; their factors are a table of `reference`.

use approx::assert_relative_eq;
use groundline::actions::{DeadEffects, GroundlineActions};
use groundline::combination::{Combination, WindUplift};
use groundline::limit_state::*;
use groundline::source::Mark;
use groundline::units::*;

/// Factors on the ground, EN 1997-1 Annex A, Tables A.2, A.4 and A.16 (from
/// memory); those on loads are a table of `reference`.
#[test]
fn factors_on_the_ground() {
    for (set, friction, undrained) in [
        (PartialFactor::Structure, 1.0, 1.0),
        (PartialFactor::Equilibrium, 1.25, 1.4),
        (PartialFactor::Uplift, 1.25, 1.4),
        (PartialFactor::ReducedGround, 1.25, 1.4),
    ] {
        assert_eq!(set.soil_friction_factor(), friction, "{set:?}");
        assert_eq!(set.soil_undrained_factor(), undrained, "{set:?}");
    }
    let names: std::collections::BTreeSet<_> = PartialFactor::ALL
        .into_iter()
        .map(LimitState::name)
        .collect();
    assert_eq!(names.len(), 4);
}

/// Shear and moment take the wind factor, weight and its moments the dead one;
/// in line they add, across they combine as vectors.
#[test]
fn how_they_act() {
    let wind = GroundlineActions::wind_at(kn(2.0), m(1.5), Characteristic).unwrap();
    let dead = DeadEffects::new(kn(1.0), kn_m(0.2), kn_m(0.4)).unwrap();
    let set = Combination::of(PartialFactor::Structure);
    let design = wind.combined(&dead, &set);
    assert_relative_eq!(design.shear().to(kn), 3.0, max_relative = 1e-12);
    assert_relative_eq!(design.axial().to(kn), 1.35, max_relative = 1e-12);
    let in_line: f64 = 1.5 * 3.0 + 1.35 * 0.2;
    let across: f64 = 1.35 * 0.4;
    assert_relative_eq!(
        design.moment().to(kn_m),
        in_line.hypot(across),
        max_relative = 1e-12
    );
    assert_eq!(design.level(), PartialFactor::Structure);
    // The other way round the sign follows the wind.
    let back = GroundlineActions::new(kn(-2.0), kn_m(-3.0), kn(0.0), Characteristic).unwrap();
    assert_relative_eq!(
        back.combined(&dead, &set).moment().to(kn_m),
        -in_line.hypot(across),
        max_relative = 1e-12
    );
    // Two short forms agree.
    let strength = GroundlineActions::wind_at(kn(2.0), m(1.5), Strength).unwrap();
    assert_eq!(
        strength.allowable(&dead, AllowableStress::Basic),
        strength.combined(&dead, &Combination::of(AllowableStress::Basic))
    );
}

/// Wind given at allowable-stress level is not reduced again, and keeps its
/// own family.
#[test]
fn allowable_stays_allowable() {
    let own = AllowableStress::AlternativeWithIncrease;
    let wind = GroundlineActions::wind_at(kn(2.0), m(1.5), own).unwrap();
    let combined = wind.combined(&DeadEffects::NONE, &Combination::of(AllowableStress::Basic));
    assert_eq!(combined.shear(), kn(2.0));
    assert_eq!(combined.level(), own);
}

/// Relieving weight: the least axial force, moments of hung leaves still
/// loading.
#[test]
fn relieved() {
    let wind = GroundlineActions::wind_at(kn(2.0), m(1.5), Strength).unwrap();
    let dead = DeadEffects::new(kn(10.0), kn_m(0.2), kn_m(0.0)).unwrap();
    let basic = Combination::of(AllowableStress::Basic);
    assert_relative_eq!(
        wind.relieved(&dead, &basic).axial().to(kn),
        6.0,
        max_relative = 1e-12
    );
    assert_eq!(
        wind.relieved(&dead, &basic).moment(),
        wind.combined(&dead, &basic).moment()
    );
    let design = Combination::of(LoadAndResistance);
    assert_relative_eq!(
        wind.relieved(&dead, &design).axial().to(kn),
        9.0,
        max_relative = 1e-12
    );
    let wind = GroundlineActions::wind_at(kn(2.0), m(1.5), Characteristic).unwrap();
    let equ = wind.relieved(&dead, &Combination::of(PartialFactor::Equilibrium));
    assert_relative_eq!(equ.axial().to(kn), 9.0, max_relative = 1e-12);
    assert_relative_eq!(equ.moment().to(kn_m), 4.5 + 1.1 * 0.2, max_relative = 1e-12);
}

/// Sets do not mix at run time either, and a post turned two ways at once is
/// refused here as it is by the pole formula.
#[test]
fn sets_do_not_mix() {
    use AllowableStress::{AlternativeWithIncrease, Basic};
    let at = |shear: f64, moment: f64, level| {
        GroundlineActions::new(lb(shear), lb_ft(moment), lb(0.0), level).unwrap()
    };
    let error = at(1.0, 3.0, Basic)
        .with_turned(&at(1.0, 3.0, AlternativeWithIncrease), deg(90.0))
        .unwrap_err();
    assert_eq!(error.field(), "limit state");
    let error = at(100.0, -300.0, Basic)
        .with_turned(&at(0.0, 0.0, Basic), deg(90.0))
        .unwrap_err();
    assert_eq!(error.field(), "shear and moment");
    assert!(
        at(3.0, 9.0, Basic)
            .with_turned(&at(4.0, 12.0, Basic), deg(90.0))
            .is_ok()
    );
    // The soil increase of the alternative family stands on its 0.78.
    let alternative = Combination::of(AlternativeWithIncrease);
    assert!(alternative.with_factors(0.6, 1.0, 0.6).is_err());
    assert!(alternative.with_factors(0.78, 1.0, 0.6).is_ok());
}

/// The user's own factors replace the set, and are marked as given.
#[test]
fn own_factors() {
    let set = Combination::of(PartialFactor::Uplift);
    let own = set.with_factors(1.4, 1.15, 0.95).unwrap();
    assert_eq!((own.wind(), own.dead(), own.relieving()), (1.4, 1.15, 0.95));
    assert_eq!(
        (own.source().mark, own.level()),
        (Mark::Given, PartialFactor::Uplift)
    );
    for bad in [f64::NAN, -1.0, 1e9, 0.05] {
        assert!(set.with_factors(bad, 1.0, 1.0).is_err());
        assert!(set.with_factors(1.0, bad, 1.0).is_err());
        if bad != 0.05 {
            assert!(set.with_factors(1.0, 1.0, bad).is_err());
        }
    }
}

/// Uplift with favourable dead load: 0.6 U − 0.6 D of ASCE 7 2.4.1 (quoted:
/// 1000 lb strength-level uplift, 353.43 lb of collar, net 387.94 lb); EN UPL
/// by hand.
#[test]
fn uplift_with_relieving_weight() {
    let basic = Combination::of(AllowableStress::Basic);
    let up = WindUplift::new(lb(1000.0), Strength).unwrap();
    let net = basic.net_uplift(&up, lb(353.43)).unwrap();
    assert!((net.to(lb) - 387.94).abs() < 387.94 * 1e-4);
    let upl = Combination::of(PartialFactor::Uplift);
    let up = WindUplift::new(kn(2.0), Characteristic).unwrap();
    let net = upl.net_uplift(&up, kn(1.0)).unwrap();
    assert_relative_eq!(net.to(kn), 2.1, max_relative = 1e-12);
    // Already at allowable-stress level: not reduced again.
    let up = WindUplift::new(lb(600.0), AllowableStress::Basic).unwrap();
    let net = basic.net_uplift(&up, lb(353.43)).unwrap();
    assert!((net.to(lb) - 387.94).abs() < 387.94 * 1e-4);
    for bad in [f64::NAN, f64::INFINITY, -1.0] {
        assert!(WindUplift::new(lb(bad), Strength).is_err());
        assert!(basic.relieving_weight(lb(bad)).is_err());
        assert!(basic.net_uplift(&up, lb(bad)).is_err());
    }
    assert_relative_eq!(
        upl.relieving_weight(kn(1.0)).unwrap().to(kn),
        0.9,
        max_relative = 1e-12
    );
}
