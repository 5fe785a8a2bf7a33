//! Pull-out, frost and quantities: what must hold; their cases and tables stand
//! in `reference`.

use approx::assert_relative_eq;
use groundline::backfill::{Bag, Setting, annulus};
use groundline::caution::Caution;
use groundline::combination::{Combination, WindUplift};
use groundline::foundation::Hole;
use groundline::limit_state::{AllowableStress, Strength};
use groundline::profile::{Layer, Profile, Soil};
use groundline::section::{PostSection, Square, Tube};
use groundline::units::*;
use groundline::uplift::*;
use proptest::prelude::*;

pub(crate) const BASIC: AllowableStress = AllowableStress::Basic;

pub(crate) fn clay(su: Pressure) -> Profile {
    let soil = Soil::new(kn_per_cu_m(18.0))
        .unwrap()
        .with_undrained_strength(su)
        .unwrap();
    Profile::uniform(soil).unwrap()
}

/// α of API through a layered clay by slices.
#[test]
fn alpha_by_slices() {
    let soil = |weight: f64, su: f64| {
        Soil::new(kn_per_cu_m(weight))
            .unwrap()
            .with_undrained_strength(kpa(su))
            .unwrap()
    };
    let profile = Profile::new(vec![
        Layer::new(m(0.6), soil(17.0, 30.0)).unwrap(),
        Layer::new(m(3.0), soil(19.0, 60.0)).unwrap(),
    ])
    .unwrap()
    .with_water_at(m(1.0))
    .unwrap();
    let shaft = Shaft::square(m(0.25), m(1.6), m(0.3)).unwrap();
    let ours = Friction::AlphaApi.resistance(&profile, &shaft).unwrap();
    let slices = 100_000;
    let by_hand: f64 = (0..slices)
        .map(|i| {
            let z = 0.3 + 1.3 * (f64::from(i) + 0.5) / f64::from(slices);
            let su = if z < 0.6 { 30.0 } else { 60.0 };
            let stress =
                17.0 * z.min(0.6) + 19.0 * (z - 0.6).max(0.0) - 9.806_65 * (z - 1.0).max(0.0);
            let psi: f64 = su / stress;
            let alpha = if psi <= 1.0 {
                0.5 / psi.sqrt()
            } else {
                0.5 / psi.powf(0.25)
            };
            alpha.min(1.0) * su * 1.0 * 1.3 / f64::from(slices)
        })
        .sum();
    assert_relative_eq!(ours.to(kn), by_hand, max_relative = 1e-5);
    let sand = Soil::new(kn_per_cu_m(18.0))
        .unwrap()
        .with_friction_angle(deg(30.0))
        .unwrap();
    let sand = Profile::uniform(sand).unwrap();
    assert_eq!(
        Friction::AlphaApi
            .resistance(&sand, &shaft)
            .unwrap_err()
            .field(),
        "undrained strength"
    );
}

/// A top that does not count holds nothing: 200 psf on 12 in from 2 and from 3 ft
/// of 4 ft, by hand.
#[test]
fn friction_begins_below_what_does_not_count() {
    use groundline::profile::presumed::default_sand;
    let held = |dead: f64, excluded: f64| {
        let profile = default_sand().unwrap().discounting_top(ft(dead)).unwrap();
        let shaft = Shaft::round(inch(12.0), ft(4.0), ft(excluded)).unwrap();
        Friction::Given(psf(200.0))
            .resistance(&profile, &shaft)
            .unwrap()
            .to(lb)
    };
    let by_hand = |from: f64| 200.0 * std::f64::consts::PI * (4.0 - from);
    for (dead, excluded, from) in [(0.0, 0.0, 0.0), (2.0, 1.0, 2.0), (1.0, 3.0, 3.0)] {
        assert!(
            (held(dead, excluded) - by_hand(from)).abs() < 1e-6,
            "{dead} {excluded}"
        );
    }
}

/// The weakest way governs and is named; factors by how a value is known.
#[test]
fn the_weakest_way() {
    let profile = clay(kpa(50.0));
    let shaft = Shaft::round(m(0.3), m(1.2), m(0.0)).unwrap();
    let alpha = Friction::alpha(0.55).unwrap();
    let set = Combination::of(BASIC);
    let base = PullOut::new(kn(0.3), kn(2.0)).unwrap();
    // The same friction, calculated or from tests.
    let by = |known| {
        let friction = match known {
            HowKnown::Tests => Friction::Given(kpa(27.5)),
            _ => alpha,
        };
        base.with_friction(&profile, friction, &shaft, known)
            .unwrap()
    };
    for calculated in [
        alpha,
        Friction::AlphaApi,
        Friction::beta(0.4, deg(20.0)).unwrap(),
    ] {
        let refused = base.with_friction(&profile, calculated, &shaft, HowKnown::Tests);
        assert_eq!(refused.unwrap_err().field(), "how friction is known");
    }
    // A variant written by hand is checked too; bearing is not friction.
    for wrong in [
        Friction::Presumptive(psf(1_500.0)),
        Friction::Given(kpa(2_000.0)),
        Friction::Alpha(1.5),
        Friction::Alpha(f64::NAN),
        Friction::Beta(3.0, deg(20.0)),
    ] {
        assert!(wrong.resistance(&profile, &shaft).is_err(), "{wrong:?}");
    }
    let ultimate = alpha.resistance(&profile, &shaft).unwrap().to(kn);
    for (known, factor) in [(HowKnown::Analysis, 3.0), (HowKnown::Tests, 2.0)] {
        let holds = by(known).resistance(&set);
        assert_eq!(holds.weakest, PullOutMode::FootingSlides);
        assert_relative_eq!(
            holds.resistance.to(kn),
            ultimate / factor + 0.6 * 2.3,
            max_relative = 1e-12
        );
    }
    // A short bond is weaker; a light cone too.
    let bond = Bond::given(kpa(100.0), mm(200.0), m(0.2)).unwrap();
    let holds = by(HowKnown::Tests).with_bond(bond).resistance(&set);
    assert_eq!(
        (holds.weakest, holds.source.id),
        (PullOutMode::PostSlides, "given")
    );
    assert_relative_eq!(holds.resistance.to(kn), 4.0 + 0.18, max_relative = 1e-12);
    let holds = by(HowKnown::Tests)
        .lifting_soil_by_collar(kn(5.0))
        .unwrap()
        .resistance(&set);
    assert_eq!(holds.weakest, PullOutMode::SoilLifts);
    assert_relative_eq!(holds.resistance.to(kn), 0.6 * 7.3, max_relative = 1e-12);
    // With a collar and no friction the soil is what it lifts; with neither,
    // weight alone slides.
    let collar = base.lifting_soil_by_collar(kn(5.0)).unwrap();
    let ways = collar.resistance(&set).ways;
    assert!(ways[0].1.is_none() && ways[1].1.is_some() && ways[2].1.is_none());
    assert!(base.resistance(&set).ways[0].1.is_some());
    // Nothing but weight.
    assert_relative_eq!(
        base.resistance(&set).resistance.to(kn),
        0.6 * 2.3,
        max_relative = 1e-12
    );
    // Wind at strength level is factored, at allowable-stress level not.
    let up = WindUplift::new(kn(1.0), Strength).unwrap();
    let already = WindUplift::new(kn(0.6), BASIC).unwrap();
    assert_relative_eq!(
        base.utilization(&up, &set).ratio(),
        base.utilization(&already, &set).ratio(),
        max_relative = 1e-12
    );
    // Nor does the other family lend it more relief than its own.
    let other = Combination::of(AllowableStress::AlternativeWithIncrease);
    assert_eq!(already.factored(&other), kn(0.6));
    assert_relative_eq!(
        base.utilization(&already, &other).ratio(),
        0.6 / 1.38,
        max_relative = 1e-12
    );
    assert_relative_eq!(
        base.utilization(&up, &set).ratio(),
        0.6 / 1.38,
        max_relative = 1e-12
    );
    // Presumptive friction is allowable already.
    let presumptive = Friction::Presumptive(psf(250.0));
    let shaft = Shaft::round(ft(1.0), ft(3.0), ft(0.0)).unwrap();
    let holds = base
        .with_friction(&profile, presumptive, &shaft, HowKnown::Analysis)
        .unwrap()
        .resistance(&set);
    assert!((holds.resistance.to(lb) - (2_356.19 + 0.6 * kn(2.3).to(lb))).abs() < 0.01);
    assert!(
        by(HowKnown::Tests)
            .with_bond(bond)
            .cautions()
            .contains(Caution::Shrinkage)
    );
    assert!(
        by(HowKnown::Analysis)
            .cautions()
            .contains(Caution::FromMemory)
    );
}

/// What may be counted for each way of setting a post.
#[test]
fn settings() {
    let hole = Hole::round(inch(12.0)).unwrap();
    let post = PostSection::Square(Square::new(inch(3.5)).unwrap());
    for setting in Setting::ALL {
        let concrete = setting == Setting::PouredConcrete;
        let driven = setting == Setting::Driven;
        assert_eq!(setting.credits_friction(), concrete || driven);
        let foam = setting == Setting::ExpandingFoam;
        assert_eq!(setting.cautions(true).contains(Caution::Foam), foam);
        assert_eq!(
            setting.cautions(false).contains(Caution::Curing),
            concrete || foam
        );
        assert!(!setting.cautions(true).contains(Caution::Curing));
        assert!(setting.cautions(true).contains(Caution::BuriedUtilities));
    }
    assert!(annulus(&Hole::round(inch(3.0)).unwrap(), &post, ft(2.0), ft(0.0)).is_err());
    // A gravel base is no part of it; waste adds its share; a kit of foam by
    // its yield.
    let whole = annulus(&hole, &post, inch(30.0), inch(0.0)).unwrap();
    let less = annulus(&hole, &post, inch(30.0), inch(6.0)).unwrap();
    assert_relative_eq!((less / whole).value, 0.8, max_relative = 1e-12);
    let kit = Bag::given(lb(2.2), cu_ft(0.9)).unwrap();
    let kits = kit.count(cu_ft(1.8), 0.1).unwrap();
    assert_relative_eq!(kits.exact, 2.2, max_relative = 1e-12);
    assert_eq!((kits.buy, kits.carry), (3.0, lb(2.2) * 3.0));
}

/// One 80 lb bag a hole: common practice, no source. What it fills of a
/// two-foot hole 8 in wide round a 2-3/8 in post, and of a 10 in one round a 4x4.
#[test]
fn one_bag_a_hole() {
    let pipe = PostSection::Tube(Tube::new(inch(2.375), inch(0.13)).unwrap());
    let narrow = annulus(
        &Hole::round(inch(8.0)).unwrap(),
        &pipe,
        inch(24.0),
        inch(0.0),
    )
    .unwrap();
    let bags = Bag::lb_80().count(narrow, 0.0).unwrap();
    assert!(bags.exact > 1.0 && bags.exact < 1.1);
    let timber = PostSection::Square(Square::new(inch(3.5)).unwrap());
    let usual = annulus(
        &Hole::round(inch(10.0)).unwrap(),
        &timber,
        inch(24.0),
        inch(0.0),
    )
    .unwrap();
    assert!(Bag::lb_80().count(usual, 0.0).unwrap().exact > 1.5);
}

proptest! {
    /// A longer or wider collar never pulls out easier; frost lifts more with
    /// depth and perimeter.
    #[test]
    fn longer_and_wider_hold_more(
        d in 0.1..0.6_f64, l in 0.5..2.5_f64, more in 1.0..1.5_f64, su in 10.0..150.0_f64,
        frost in 0.1..1.5_f64, tau in 10.0..150.0_f64,
    ) {
        let set = Combination::of(BASIC);
        let holds = |d: f64, l: f64| {
            let shaft = Shaft::round(m(d), m(l), m(0.2)).unwrap();
            let weight = kn_per_cu_m(23.6) * shaft.area() * shaft.depth();
            let post = PullOut::new(kn(0.1), weight).unwrap();
            let by = |friction| {
                post.with_friction(&clay(kpa(su)), friction, &shaft, HowKnown::Analysis)
                    .unwrap()
                    .resistance(&set)
                    .resistance
            };
            [by(Friction::AlphaApi), by(Friction::alpha(0.5).unwrap())]
        };
        for ((base, wider), longer) in holds(d, l).into_iter().zip(holds(d * more, l)).zip(holds(d, l * more)) {
            prop_assert!(wider >= base * (1.0 - 1e-9) && longer >= base * (1.0 - 1e-9));
        }
        let force = |d: f64, frost: f64| {
            Adfreeze::new(kpa(tau), m(d), m(frost)).unwrap().force()
        };
        prop_assert!(force(d * more, frost) >= force(d, frost));
        prop_assert!(force(d, frost * more) >= force(d, frost));
    }

    /// λ falls with both of its numbers and stays between 0 and 1; frost goes
    /// deeper for more cold.
    #[test]
    fn lambda_is_monotone(mu in 0.01..2.0_f64, alpha in 0.0..8.0_f64, more in 1.0..1.5_f64) {
        let lambda = berggren_lambda(mu, alpha).unwrap();
        prop_assert!(lambda > 0.0 && lambda < 1.0);
        prop_assert!(berggren_lambda(mu * more, alpha).unwrap() <= lambda + 1e-9);
        prop_assert!(berggren_lambda(mu, alpha * more + 0.01).unwrap() <= lambda + 1e-9);
    }
}

/// Hostile numbers are refused.
#[test]
fn hostile() {
    for x in [f64::NAN, f64::INFINITY, -1.0, 1e308] {
        assert!(presumptive_friction(psf(x)).is_err());
        assert!(Shaft::round(m(x), m(1.0), m(0.0)).is_err());
        assert!(Shaft::round(m(0.3), m(x), m(0.0)).is_err());
        assert!(Shaft::round(m(0.3), m(1.0), m(x)).is_err());
        assert!(soil_cone(m(x), m(1.0), deg(20.0)).is_err());
        assert!(soil_cone(m(0.1), m(1.0), deg(x)).is_err());
        assert!(Bond::given(kpa(x), m(0.3), m(1.0)).is_err());
        assert!(PullOut::new(kn(x), kn(1.0)).is_err());
        assert!(berggren_lambda(x, 1.0).is_err());
        assert!(berggren_lambda(0.1, x).is_err());
        assert!(Adfreeze::new(kpa(x), m(0.3), m(1.0)).is_err());
        assert!(ThermalConductivity::watt_per_m_k(x).is_err());
        assert!(Bag::given(lb(x), cu_ft(1.0)).is_err());
        assert!(Bag::lb_80().count(cu_ft(x), 0.0).is_err());
    }
    // Both unit systems of the thermal numbers: 1.7 W/(m·K) is 0.98224 Btu.
    let (a, b) = (
        ThermalConductivity::watt_per_m_k(1.7).unwrap(),
        ThermalConductivity::btu_per_ft_h_f(1.7 / 1.730_734_666).unwrap(),
    );
    let depth = |k| {
        frost_depth(
            k,
            0.7,
            FreezingIndex::fahrenheit_days(1_000.0).unwrap(),
            LatentHeat::btu_per_cu_ft(2_000.0).unwrap(),
            0.8,
        )
        .unwrap()
    };
    assert_relative_eq!(depth(a).value, depth(b).value, max_relative = 1e-12);
    // X = λ √(48 k n F/L) in ft: k 0.98224, n 0.7, F 1000, L 2000.
    let feet = 0.8 * (48.0_f64 * (1.7 / 1.730_734_666) * 0.7 * 1_000.0 / 2_000.0).sqrt();
    assert_relative_eq!(depth(a).to(ft), feet, max_relative = 1e-6);
}
