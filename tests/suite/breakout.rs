//! A plate breaking out of sand, and footings in water.

use approx::assert_relative_eq;
use groundline::combination::Combination;
use groundline::limit_state::AllowableStress;
use groundline::units::*;
use groundline::uplift::*;

fn plate(phi: f64, width: f64, depth: f64) -> Breakout {
    Breakout::new(deg(phi), kn_per_cu_m(18.0), m(width), m(depth)).unwrap()
}

fn held(pull: &PullOut) -> PullOutResistance {
    pull.resistance(&Combination::of(AllowableStress::Basic))
}

/// At the rows of the table, by hand; halfway between, the mean of m and Ku.
#[test]
fn the_table_by_hand() {
    for (phi, slope, pressure) in [
        (20.0_f64, 0.05, 0.856),
        (32.5, 0.20, 0.928),
        (45.0, 0.50, 0.960),
    ] {
        let by_hand = 1.0 + 2.0 * (1.0 + slope * 2.0) * 2.0 * pressure * phi.to_radians().tan();
        assert_relative_eq!(plate(phi, 0.4, 0.8).factor(), by_hand, max_relative = 1e-12);
    }
}

/// Below the critical depth the factor stays and is said to.
#[test]
fn deep_plates() {
    for (phi, critical) in [(20.0, 2.5), (30.0, 4.0), (35.0, 5.0), (45.0, 9.0)] {
        let at = |ratio: f64| plate(phi, 0.2, 0.2 * ratio);
        assert!(!at(critical * 0.999).is_deep() && at(critical * 1.001).is_deep());
        let most = at(critical).factor();
        assert_relative_eq!(at(critical * 3.0).factor(), most, max_relative = 1e-12);
        assert!(at(critical * 0.9).factor() < most);
        // What it carries goes on growing with the overburden.
        assert!(at(critical * 3.0).ultimate() > at(critical).ultimate() * 2.9);
    }
}

#[test]
fn more_sand_never_holds_less() {
    let mut last = 0.0;
    for step in 0..=50 {
        let factor = plate(20.0 + 0.5 * f64::from(step), 0.4, 0.9).factor();
        assert!(factor > last);
        last = factor;
    }
    assert!(plate(30.0, 0.4, 1.0).ultimate() > plate(30.0, 0.4, 0.9).ultimate());
    assert!(plate(30.0, 0.5, 1.0).ultimate() > plate(30.0, 0.4, 1.0).ultimate());
}

/// Over 3, with 0.6 of the weight; of two estimates of one collar the lesser.
#[test]
fn breaking_out_is_a_way_of_a_pull_out() {
    let base = PullOut::new(kn(0.0), kn(1.0)).unwrap();
    let plate = plate(30.0, 0.4, 1.0);
    let alone = held(&base.breaking_out(plate));
    assert_eq!(alone.weakest, PullOutMode::SoilLifts);
    assert_eq!(alone.source, Breakout::source());
    let by_hand = plate.ultimate().to(kn) / 3.0 + 0.6;
    assert_relative_eq!(alone.resistance.to(kn), by_hand, max_relative = 1e-12);
    for (soil, lesser) in [(0.1, 0.06 + 0.6), (500.0, by_hand)] {
        let both = base.lifting_soil_by_collar(kn(soil)).unwrap();
        let both = held(&both.breaking_out(plate));
        assert_relative_eq!(both.resistance.to(kn), lesser, max_relative = 1e-12);
    }
    let cautions = base.breaking_out(plate).cautions();
    assert!(cautions.contains(groundline::caution::Caution::FromMemory));
}

#[test]
fn water_takes_its_weight_off() {
    let base = PullOut::new(kn(0.2), kn(10.0)).unwrap();
    let wet = held(&base.standing_in_water(cu_m(0.5)).unwrap());
    assert_relative_eq!(
        wet.resistance.to(kn),
        0.6 * (10.2 - 0.5 * 9.806_65),
        max_relative = 1e-12
    );
    assert_eq!(
        held(&base.standing_in_water(cu_m(0.0)).unwrap()),
        held(&base)
    );
    assert!(
        base.standing_in_water(cu_m(10.0 / 9.806_65 * 1.0001))
            .is_err()
    );
    for volume in [-0.1, f64::NAN, f64::INFINITY] {
        assert!(base.standing_in_water(cu_m(volume)).is_err());
    }
}

#[test]
fn nonsense_is_refused() {
    let made = |phi, weight, width, depth| {
        Breakout::new(deg(phi), kn_per_cu_m(weight), m(width), m(depth)).is_ok()
    };
    assert!(made(30.0, 18.0, 0.4, 1.0));
    for x in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -1.0, 0.0, 1e9] {
        assert!(!made(x, 18.0, 0.4, 1.0));
        assert!(!made(30.0, x, 0.4, 1.0));
        assert!(!made(30.0, 18.0, x, 1.0));
        assert!(!made(30.0, 18.0, 0.4, x));
    }
}
