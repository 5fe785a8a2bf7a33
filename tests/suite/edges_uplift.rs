//! Friction, bond, cones, frost and fill: their limits on both sides, and their
//! formulas by hand away from the cases of the handbooks.

use approx::assert_relative_eq;
use core::f64::consts::PI;
use groundline::backfill::{Bag, RestDays, Setting, annulus};
use groundline::caution::Caution;
use groundline::foundation::Hole;
use groundline::profile::{Profile, Soil};
use groundline::section::{PostSection, Square, Tube};
use groundline::source;
use groundline::units::*;
use groundline::uplift::*;

fn clay() -> Profile {
    let soil = Soil::new(kn_per_cu_m(18.0)).unwrap();
    Profile::uniform(soil.with_undrained_strength(kpa(40.0)).unwrap()).unwrap()
}

/// API α by hand: ½ ψ^(−½) to ψ = 1, ½ ψ^(−¼) beyond, at most 1.
#[test]
fn alpha_by_hand() {
    for (su, stress, alpha) in [
        (100.0, 100.0, 0.5),
        (25.0, 100.0, 1.0),
        (10.0, 100.0, 1.0),
        (36.0, 100.0, 0.5 / 0.6),
        (64.0, 100.0, 0.5 / 0.8),
        (1_000.0, 62.5, 0.25),
        (405.0, 80.0, 0.5 / 1.5),
    ] {
        let ours = api_alpha(kpa(su), kpa(stress)).unwrap();
        assert_relative_eq!(ours, alpha, max_relative = 1e-9);
    }
    let taken = |su: f64, stress: f64| api_alpha(kpa(su), kpa(stress)).is_ok();
    assert!(taken(1.0, 0.1) && taken(1_000.0, 10_000.0));
    assert!(!taken(0.99, 50.0) && !taken(1_001.0, 50.0));
    assert!(!taken(50.0, 0.09) && !taken(50.0, 10_001.0));
    // Drilled shafts: 0.55 to su/pa = 1.5, 0.45 at 2.5, and no further.
    let drilled = |ratio: f64| drilled_shaft_alpha(kpa(101.3 * ratio));
    for (ratio, alpha) in [(0.5, 0.55), (1.5, 0.55), (2.0, 0.50), (2.5, 0.45)] {
        assert_relative_eq!(drilled(ratio).unwrap(), alpha, max_relative = 1e-12);
    }
    assert!(drilled(2.501).is_ok() && drilled(2.502).is_err());
    assert!(drilled_shaft_alpha(kpa(1.0)).is_ok() && drilled_shaft_alpha(kpa(0.99)).is_err());
}

/// A sixth of the bearing, at most 500 psf; a friction of 500 psf is one, more
/// is a bearing that was not divided.
#[test]
fn presumptive_friction_on_the_edge() {
    for (bearing, friction) in [
        (0.0, 0.0),
        (1_500.0, 250.0),
        (2_999.4, 499.9),
        (3_000.0, 500.0),
        (20_000.0, 500.0),
    ] {
        let ours = presumptive_friction(psf(bearing)).unwrap();
        assert_relative_eq!(ours.to(psf), friction, max_relative = 1e-12);
        let shaft = Shaft::square(ft(0.5), ft(3.0), ft(1.0)).unwrap();
        let held = Friction::Presumptive(ours).resistance(&clay(), &shaft);
        // 4 × ½ ft × 2 ft of side.
        assert_relative_eq!(held.unwrap().to(lb), 4.0 * friction, max_relative = 1e-9);
    }
    assert!(presumptive_friction(psf(20_001.0)).is_err());
    assert!(presumptive_friction(psf(-1.0)).is_err());
    let shaft = Shaft::square(ft(0.5), ft(3.0), ft(1.0)).unwrap();
    let held = |friction: Friction| friction.resistance(&clay(), &shaft).is_ok();
    assert!(!held(Friction::Presumptive(psf(500.1))));
    assert!(held(Friction::Given(kpa(1_000.0))) && !held(Friction::Given(kpa(1_001.0))));
    assert!(held(Friction::Given(kpa(0.0))) && !held(Friction::Given(kpa(-0.1))));
    assert!(held(Friction::Alpha(1.0)) && !held(Friction::Alpha(1.01)));
    assert!(held(Friction::Beta(2.0, deg(45.0))) && !held(Friction::Beta(2.01, deg(45.0))));
    assert!(held(Friction::AlphaApi));
    // The stress at a depth is as checked as the sum of it.
    let stress = |friction: Friction| friction.stress(&clay(), m(0.5)).is_ok();
    assert!(stress(Friction::Alpha(1.0)) && !stress(Friction::Alpha(1.01)));
    assert!(stress(Friction::Given(kpa(1_000.0))) && !stress(Friction::Given(kpa(1_001.0))));
    assert!(!stress(Friction::Presumptive(psf(500.1))));
    assert!(!stress(Friction::Beta(f64::NAN, deg(25.0))) && stress(Friction::AlphaApi));
    assert!(Friction::alpha(0.05).is_ok() && Friction::alpha(0.049).is_err());
    assert!(Friction::beta(0.1, deg(5.0)).is_ok() && Friction::beta(2.0, deg(45.0)).is_ok());
    assert!(Friction::beta(0.099, deg(5.0)).is_err() && Friction::beta(0.1, deg(4.9)).is_err());
    assert!(Friction::beta(1.0, deg(45.1)).is_err());
    for (friction, allowable, source) in [
        (
            Friction::Presumptive(psf(100.0)),
            true,
            &source::IBC_FRICTION,
        ),
        (Friction::Given(psf(100.0)), false, &source::GIVEN),
        (Friction::Alpha(0.5), false, &source::ALPHA_METHOD),
        (Friction::AlphaApi, false, &source::ALPHA_METHOD),
        (Friction::Beta(0.4, deg(20.0)), false, &source::BETA_METHOD),
    ] {
        assert_eq!(friction.is_allowable(), allowable);
        assert_eq!(friction.source(), source);
    }
}

/// A shaft's perimeter, area and side by geometry, its limits, and a friction
/// at a depth.
#[test]
fn shafts_by_geometry() {
    let round = Shaft::round(m(0.3), m(1.5), m(0.4)).unwrap();
    let square = Shaft::square(m(0.3), m(1.5), m(0.4)).unwrap();
    for (shaft, perimeter, area) in [(round, 0.3 * PI, 0.15 * 0.15 * PI), (square, 1.2, 0.09)] {
        assert_relative_eq!(shaft.perimeter().value, perimeter, max_relative = 1e-12);
        assert_relative_eq!(shaft.area().value, area, max_relative = 1e-12);
        assert_relative_eq!(shaft.side().value, 1.1 * perimeter, max_relative = 1e-12);
        assert_relative_eq!(shaft.counts().value, 1.1, max_relative = 1e-12);
        assert_eq!((shaft.from(), shaft.depth()), (m(0.4), m(1.5)));
        // K tan δ of a uniform ground: 18 kN/m³ × the middle depth 0.95 m.
        let beta = Friction::beta(0.4, deg(25.0)).unwrap();
        let held = beta.resistance(&clay(), &shaft).unwrap();
        let tan = 25.0_f64.to_radians().tan();
        let by_hand = 0.4 * tan * 18.0 * 0.95 * 1.1 * perimeter;
        assert_relative_eq!(held.to(kn), by_hand, max_relative = 1e-9);
        let stress = beta.stress(&clay(), m(0.5)).unwrap();
        assert_relative_eq!(stress.to(kpa), 0.4 * tan * 9.0, max_relative = 1e-9);
        let alpha = Friction::alpha(0.5).unwrap().stress(&clay(), m(0.5));
        assert_relative_eq!(alpha.unwrap().to(kpa), 20.0, max_relative = 1e-12);
        // ψ = 40/9: ½ ψ^(−¼) of 40 kPa.
        let api = Friction::AlphaApi.stress(&clay(), m(0.5)).unwrap();
        let by_hand = 20.0 * (9.0_f64 / 40.0).powf(0.25);
        assert_relative_eq!(api.to(kpa), by_hand, max_relative = 1e-9);
    }
    let of = |size: f64, depth: f64, top: f64| {
        let round = Shaft::round(inch(size), m(depth), m(top)).is_ok();
        assert_eq!(round, Shaft::square(inch(size), m(depth), m(top)).is_ok());
        round
    };
    assert!(of(1.0, 1.0, 0.0) && of(120.0, 30.0, 30.0) && of(9.0, 0.01, 0.0));
    assert!(!of(0.99, 1.0, 0.0) && !of(120.5, 1.0, 0.0));
    assert!(!of(9.0, 0.009, 0.0) && !of(9.0, 30.1, 0.0));
    assert!(!of(9.0, 1.0, 1.01) && !of(9.0, 1.0, -0.1));
    // Deeper than the ground is described.
    let deep = Shaft::round(m(0.3), m(20.0), m(0.0)).unwrap();
    let shallow = Profile::new(vec![
        groundline::profile::Layer::new(m(3.0), *clay().layers()[0].soil()).unwrap(),
    ])
    .unwrap();
    assert!(Friction::AlphaApi.resistance(&shallow, &deep).is_err());
}

/// A cone by slices of discs; its limits.
#[test]
fn cones_by_slices() {
    for (r1, h, angle) in [(0.2, 0.9, 0.0), (0.2, 0.9, 25.0), (0.5, 3.0, 45.0)] {
        let slices = 20_000;
        let by_hand: f64 = (0..slices)
            .map(|i| {
                let z = h * (f64::from(i) + 0.5) / f64::from(slices);
                let r = r1 + z * f64::to_radians(angle).tan();
                PI * r * r * h / f64::from(slices)
            })
            .sum();
        let ours = soil_cone(m(r1), m(h), deg(angle)).unwrap();
        assert_relative_eq!(ours.value, by_hand, max_relative = 1e-7);
    }
    let taken = |r: f64, h: f64, a: f64| soil_cone(inch(r), m(h), deg(a)).is_ok();
    assert!(taken(1.0, 0.01, 0.0) && taken(60.0, 30.0, 45.0));
    assert!(!taken(0.99, 1.0, 9.0) && !taken(60.1, 1.0, 9.0));
    assert!(!taken(9.0, 0.009, 9.0) && !taken(9.0, 30.1, 9.0));
    assert!(!taken(9.0, 1.0, -0.1) && !taken(9.0, 1.0, 45.1));
    let bond = |s: f64, p: f64, l: f64| Bond::given(lb_per_sq_in(s), inch(p), m(l)).is_ok();
    assert!(bond(0.0, 1.0, 0.0) && bond(1_000.0, 480.0, 30.0));
    assert!(!bond(-0.1, 9.0, 1.0) && !bond(1_001.0, 9.0, 1.0));
    assert!(!bond(9.0, 0.99, 1.0) && !bond(9.0, 481.0, 1.0) && !bond(9.0, 9.0, 30.1));
    let given = Bond::given(lb_per_sq_in(10.0), inch(14.0), inch(20.0)).unwrap();
    assert_relative_eq!(given.resistance().to(lb), 2_800.0, max_relative = 1e-12);
    assert_eq!(given.source(), &source::GIVEN);
    let wood = Bond::wood_in_concrete(inch(14.0), inch(20.0)).unwrap();
    assert_eq!(wood.source(), &source::WOOD_BOND);
}

/// λ of the modified Berggren formula solves the balance of heat of both phases
/// at the front; erf by the series of its definition, term by term.
#[test]
fn lambda_is_a_root() {
    let erf = |x: f64| {
        let (mut sum, mut power, mut factorial) = (0.0, x, 1.0);
        for n in 0..60 {
            let n = f64::from(n);
            sum += power / (factorial * (2.0 * n + 1.0));
            power *= -x * x;
            factorial *= n + 1.0;
        }
        2.0 / PI.sqrt() * sum
    };
    for mu in [0.001, 0.05, 0.3, 1.0, 2.0, 5.0] {
        for alpha in [0.0, 0.5, 3.0, 50.0] {
            let lambda = berggren_lambda(mu, alpha).unwrap();
            assert!(lambda > 0.0 && lambda <= 1.0, "{mu} {alpha} {lambda}");
            let x = lambda * (mu / 2.0).sqrt();
            let balance = |x: f64| {
                let gauss = (-x * x).exp();
                PI.sqrt() * x / mu + alpha * gauss / (1.0 - erf(x)) - gauss / erf(x)
            };
            assert!(balance(x * (1.0 - 1e-8)) < 0.0, "{mu} {alpha}");
            assert!(balance(x * (1.0 + 1e-8)) > 0.0, "{mu} {alpha}");
        }
    }
    let taken = |mu: f64, alpha: f64| berggren_lambda(mu, alpha).is_ok();
    assert!(!taken(0.000_9, 1.0) && !taken(5.01, 1.0));
    assert!(!taken(1.0, -0.01) && !taken(1.0, 50.1));
}

/// Stefan by hand in both systems, and the limits of what goes in. 1 Btu/(ft·h·°F)
/// is 1.730 735 W/(m·K), 1 Btu/ft³ 37.258 95 kJ/m³.
#[test]
fn stefan_by_hand() {
    let k = ThermalConductivity::watt_per_m_k(1.5).unwrap();
    let f = FreezingIndex::celsius_days(500.0).unwrap();
    let l = LatentHeat::mj_per_cu_m(100.0).unwrap();
    let depth = frost_depth(k, 0.8, f, l, 0.7).unwrap();
    let by_hand = 0.7 * (2.0 * 86_400.0 * 1.5 * 0.8 * 500.0 / 100e6_f64).sqrt();
    assert_relative_eq!(depth.value, by_hand, max_relative = 1e-12);
    let us = frost_depth(
        ThermalConductivity::btu_per_ft_h_f(1.5 / 1.730_735).unwrap(),
        0.8,
        FreezingIndex::fahrenheit_days(900.0).unwrap(),
        LatentHeat::btu_per_cu_ft(100e3 / 37.258_95).unwrap(),
        0.7,
    );
    assert_relative_eq!(us.unwrap().value, by_hand, max_relative = 1e-6);
    let of = |n: f64, lambda: f64| frost_depth(k, n, f, l, lambda).is_ok();
    assert!(of(0.1, 0.1) && of(2.5, 1.0));
    assert!(!of(0.099, 0.5) && !of(2.51, 0.5) && !of(1.0, 0.099) && !of(1.0, 1.01));
    for (value, taken) in [(0.05, true), (0.049, false), (10.0, true), (10.01, false)] {
        assert_eq!(ThermalConductivity::watt_per_m_k(value).is_ok(), taken);
    }
    for (value, taken) in [
        (0.0, true),
        (-0.1, false),
        (10_000.0, true),
        (10_001.0, false),
    ] {
        assert_eq!(FreezingIndex::celsius_days(value).is_ok(), taken);
    }
    for (value, taken) in [(1.0, true), (0.99, false), (400.0, true), (401.0, false)] {
        assert_eq!(LatentHeat::mj_per_cu_m(value).is_ok(), taken);
    }
}

/// The balance of frost: with all of the shaft in it only the dead load holds,
/// just below it the anchorage too; what it says to do; the depth at which both
/// are even, checked by the balance itself.
#[test]
fn frost_in_balance() {
    let grip = Adfreeze::new(kpa(65.0), m(1.0), m(0.8)).unwrap();
    assert_relative_eq!(grip.force().to(kn), 52.0, max_relative = 1e-12);
    let at = |depth: f64, dead: f64, anchorage: f64| {
        grip.balance(m(depth), kn(dead), kn(anchorage)).unwrap()
    };
    let within = at(0.8, 10.0, 1_000.0);
    assert!(within.ends_in_frost && !within.stays());
    assert_relative_eq!(within.holds.to(kn), 10.0, max_relative = 1e-12);
    assert!(within.remedy().unwrap().contains("plain shaft that stops"));
    let half = at(0.4, 10.0, 0.0);
    assert_relative_eq!(half.lifts.to(kn), 26.0, max_relative = 1e-12);
    let below = at(0.801, 10.0, 42.0);
    assert!(!below.ends_in_frost && below.stays());
    assert_relative_eq!(below.holds.to(kn), 52.0, max_relative = 1e-12);
    assert_relative_eq!(below.lifts.to(kn), 52.0, max_relative = 1e-12);
    assert_eq!(below.remedy(), None);
    let little = at(0.9, 10.0, 41.9);
    assert!(!little.stays() && little.remedy().unwrap().starts_with("go deeper"));
    // Even a load that outweighs it does not stay in frost.
    assert!(!at(0.5, 1_000.0, 0.0).stays());
    // A round shaft of perimeter P: area P²/4π. Lift less load is its weight and
    // the friction over its factor below the frost.
    for (load, friction, factor) in [(0.0, 0.0, 1.0), (5.0, 20.0, 2.0), (10.0, 50.0, 3.0)] {
        let depth = grip
            .balancing_depth(kn_per_cu_m(24.0), kn(load), kpa(friction), factor)
            .unwrap()
            .value;
        let weight = 24.0 / (4.0 * PI) * depth;
        let held = friction / factor * (depth - 0.8);
        assert_relative_eq!(weight + held + load, 52.0, max_relative = 1e-9);
    }
    let heavy = grip.balancing_depth(kn_per_cu_m(24.0), kn(90.0), kpa(20.0), 2.0);
    assert_eq!(heavy.unwrap(), m(0.8));
    let depth = |w: f64, p: f64, f: f64, by: f64| {
        grip.balancing_depth(kn_per_cu_m(w), kn(p), kpa(f), by)
            .is_ok()
    };
    assert!(depth(10.0, 0.0, 0.0, 1.0) && depth(30.0, 1e5, 1_000.0, 10.0));
    assert!(!depth(9.9, 0.0, 0.0, 1.0) && !depth(30.1, 0.0, 0.0, 1.0));
    assert!(!depth(20.0, 1.01e5, 0.0, 1.0) && !depth(20.0, 0.0, 1_001.0, 1.0));
    assert!(!depth(20.0, 0.0, 0.0, 0.99) && !depth(20.0, 0.0, 0.0, 10.1));
    let new = |s: f64, p: f64, z: f64| Adfreeze::new(kpa(s), m(p), m(z)).is_ok();
    assert!(new(0.0, 0.02, 0.0) && new(500.0, 12.0, 10.0));
    assert!(!new(500.1, 1.0, 1.0) && !new(50.0, 0.019, 1.0) && !new(50.0, 12.1, 1.0));
    assert!(!new(50.0, 1.0, 10.1) && !new(-1.0, 1.0, 1.0));
    let balance = |z: f64, d: f64, a: f64| grip.balance(m(z), kn(d), kn(a)).is_ok();
    assert!(balance(0.01, 0.0, 0.0) && balance(30.0, 1e5, 1e5));
    assert!(!balance(0.009, 0.0, 0.0) && !balance(30.1, 0.0, 0.0));
    assert!(!balance(1.0, 1.01e5, 0.0) && !balance(1.0, 0.0, 1.01e5));
}

/// Rest, bags and fill.
#[test]
fn fill_on_the_edge() {
    for days in [0.0, 2.5, 1_000.0] {
        assert_eq!(RestDays::new(days).unwrap().days(), days);
    }
    for days in [-0.1, 1_000.1, f64::NAN] {
        assert!(RestDays::new(days).is_err());
    }
    // What a bag yields is in the proportion of its weight: 80 lb 0.60 ft³.
    for (bag, weight) in [
        (Bag::lb_40(), 40.0),
        (Bag::lb_50(), 50.0),
        (Bag::lb_60(), 60.0),
        (Bag::lb_80(), 80.0),
    ] {
        assert_relative_eq!(bag.weight().to(lb), weight, max_relative = 1e-12);
        assert_relative_eq!(
            bag.yields().to(cu_ft),
            weight * 0.0075,
            max_relative = 1e-12
        );
        assert_eq!(bag.source(), &source::BAG_YIELDS);
    }
    let of = |weight: f64, yields: f64| Bag::given(lb(weight), cu_ft(yields)).is_ok();
    assert!(of(0.1, 0.001) && of(5_000.0, 100.0));
    assert!(!of(0.099, 1.0) && !of(5_001.0, 1.0) && !of(1.0, 0.000_9) && !of(1.0, 100.1));
    let bag = Bag::lb_80();
    assert_eq!(
        Bag::given(lb(1.0), cu_ft(1.0)).unwrap().source(),
        &source::GIVEN
    );
    for (volume, waste, buy) in [
        (1.2, 0.0, 2.0),
        (1.201, 0.0, 3.0),
        (1.2, 0.05, 3.0),
        (0.0, 0.1, 0.0),
    ] {
        let bags = bag.count(cu_ft(volume), waste).unwrap();
        assert_eq!(bags.buy, buy);
        assert_relative_eq!(bags.carry.to(lb), 80.0 * buy, max_relative = 1e-12);
        assert_relative_eq!(
            bags.exact,
            volume / 0.6 * (1.0 + waste),
            max_relative = 1e-12
        );
    }
    assert!(bag.count(cu_ft(1e7), 1.0).is_ok() && bag.count(cu_ft(1.01e7), 0.0).is_err());
    assert!(bag.count(cu_ft(1.0), 1.01).is_err() && bag.count(cu_ft(1.0), -0.01).is_err());
    // A ring by geometry: round and square holes, a gravel base, and a post as
    // wide as the hole.
    let post = PostSection::Square(Square::new(inch(3.5)).unwrap());
    let pipe = PostSection::Tube(Tube::new(inch(4.0), inch(0.2)).unwrap());
    let round = Hole::round(inch(10.0)).unwrap();
    let square = Hole::square(inch(10.0)).unwrap();
    let volume = |hole: &Hole, post: &PostSection, base: f64| {
        annulus(hole, post, inch(30.0), inch(base)).map(|v| v.to(cu_in))
    };
    let (disc, tube) = (25.0 * PI, 4.0 * PI);
    for (ours, by_hand) in [
        (volume(&round, &post, 0.0), (disc - 12.25) * 30.0),
        (volume(&square, &post, 6.0), (100.0 - 12.25) * 24.0),
        (volume(&round, &pipe, 6.0), (disc - tube) * 24.0),
        (volume(&square, &pipe, 29.5), (100.0 - tube) * 0.5),
    ] {
        assert_relative_eq!(ours.unwrap(), by_hand, max_relative = 1e-9);
    }
    assert!(volume(&round, &post, 29.6).is_err() && volume(&round, &post, -0.1).is_err());
    let into = |hole: Hole, side: f64| {
        let post = PostSection::Square(Square::new(inch(side)).unwrap());
        annulus(&hole, &post, inch(30.0), inch(0.0)).is_ok()
    };
    assert!(!into(square, 10.0) && into(square, 9.9));
    assert!(into(round, 7.0) && !into(round, 9.9) && !into(round, 10.0));
    assert!(annulus(&round, &post, inch(1.0), inch(0.5)).is_ok());
    assert!(annulus(&round, &post, inch(0.99), inch(0.0)).is_err());
    assert!(annulus(&round, &post, ft(300.0), inch(0.0)).is_ok());
    assert!(annulus(&round, &post, ft(300.1), inch(0.0)).is_err());
}

/// What each setting is called, what pushes back and what it warns of.
#[test]
fn settings_told_apart() {
    let mut names: Vec<_> = Setting::ALL.iter().map(|s| s.name()).collect();
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), 5);
    for setting in Setting::ALL {
        let poured = setting == Setting::PouredConcrete;
        let driven = setting == Setting::Driven;
        let foam = setting == Setting::ExpandingFoam;
        assert_eq!(setting.bears_on_undisturbed_soil(), poured || driven);
        assert_eq!(setting.credits_friction(), poured || driven);
        for rested in [false, true] {
            let cautions = setting.cautions(rested);
            let says = |caution| cautions.contains(caution);
            assert!(says(Caution::BuriedUtilities));
            assert_eq!(says(Caution::Curing), !rested && (poured || foam));
            assert_eq!(says(Caution::Backfill), !poured && !driven && !foam);
            assert_eq!(says(Caution::Foam), foam);
            assert_eq!(says(Caution::BackfillRing), !poured && !driven);
        }
    }
}
