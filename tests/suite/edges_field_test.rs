//! What a fit of a whole pull says of itself: its scatter, when a bend is more
//! than chance, when a value is only bounded, and how much work it takes. The
//! statistics are those of ordinary least squares, worked here from the
//! residuals and from curves that the solver gives for one value changed.

use crate::field_test_inversion::{
    B, E, EI, L, Noise, SHARES, capacity, clay, off, pull, quiet, read, sand,
};
use approx::assert_relative_eq;
use groundline::field_test::*;
use groundline::lateral::RigidPlastic;
use groundline::response::{PostModel, Springs};
use groundline::units::*;

/// t of 97.5 % of 4 degrees of freedom, as tables print it.
const T_OF_FOUR: f64 = 2.776_445;

/// Movements at grade under loads.
fn movements(springs: Springs, loads: &[Force]) -> Vec<f64> {
    let most = loads[loads.len() - 1];
    let post = PostModel::new(n_sq_m(EI), m(B), m(L), springs).unwrap();
    let post = post.standing(m(E)).unwrap();
    let mut solver = post.with_force(m(E), most).unwrap().solver();
    let mut at = |load: &Force| {
        solver.solve((*load / most).value).unwrap();
        solver.response().at_grade().deflection.value
    };
    loads.iter().map(&mut at).collect()
}

/// Standard errors of the logarithms of both values by the textbook: σ² (J'J)⁻¹,
/// σ² the sum of squares over the readings less two, J over a step of 1e-4
/// upwards: springs yield one by one, so slopes over other steps differ by some
/// per cent.
fn textbook(
    springs: impl Fn(f64, f64) -> Springs,
    (k, s): (f64, f64),
    residuals: &[(Force, Length)],
) -> (f64, f64) {
    let loads: Vec<Force> = residuals.iter().map(|(load, _)| *load).collect();
    let sum: f64 = residuals.iter().map(|(_, r)| r.value * r.value).sum();
    let variance = sum / (f64::from(u32::try_from(loads.len()).unwrap()) - 2.0);
    let h = 1e-4_f64;
    let at = movements(springs(k, s), &loads);
    let slope = |beside: Springs| -> Vec<f64> {
        let pairs = movements(beside, &loads).into_iter().zip(&at);
        pairs.map(|(up, here)| (up - here) / h).collect()
    };
    let of_k = slope(springs(k * h.exp(), s));
    let of_s = slope(springs(k, s * h.exp()));
    let dot = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(x, y)| x * y).sum::<f64>();
    let (kk, ks, ss) = (dot(&of_k, &of_k), dot(&of_k, &of_s), dot(&of_s, &of_s));
    let covariance = nalgebra::Matrix2::new(kk, ks, ks, ss)
        .try_inverse()
        .unwrap();
    (
        (variance * covariance[(0, 0)]).sqrt(),
        (variance * covariance[(1, 1)]).sqrt(),
    )
}

/// The root of the mean square of residuals.
fn root_mean_square(residuals: &[(Force, Length)]) -> f64 {
    let sum: f64 = residuals.iter().map(|(_, r)| r.value * r.value).sum();
    (sum / f64::from(u32::try_from(residuals.len()).unwrap())).sqrt()
}

/// The standard errors are those of the textbook, for a sand and for ground
/// that is the same at every depth.
#[test]
fn standard_errors_of_a_fit() {
    let readings = sand(8e3, 180.0, &SHARES, &mut Noise::of(0.02, 4));
    let found = pull(&readings).growing_curve(1.0).unwrap();
    let (nh, s) = (
        found.stiffness.found().unwrap(),
        found.strength.found().unwrap(),
    );
    let springs = |k: f64, s: f64| {
        Springs::growing_up_to(ForcePerVolume::from_si(k), ForcePerVolume::from_si(s)).unwrap()
    };
    let (of_k, of_s) = textbook(springs, (nh.si(), s.si()), &found.residuals);
    assert_relative_eq!(found.stiffness_error.unwrap(), of_k, max_relative = 1e-3);
    assert_relative_eq!(found.strength_error.unwrap(), of_s, max_relative = 1e-3);
    assert_relative_eq!(
        found.residual.value,
        root_mean_square(&found.residuals),
        max_relative = 1e-12
    );

    let law = RigidPlastic::constant(kpa(150.0), m(B)).unwrap();
    let even = Springs::constant_up_to(mpa(2.0), kpa(150.0) * m(B)).unwrap();
    for (amplitude, seed) in [(0.01, 1), (0.03, 2), (0.05, 3)] {
        let mut noise = Noise::of(amplitude, seed);
        let readings = read(even.clone(), capacity(&law), &SHARES, &mut noise);
        let found = pull(&readings).constant_curve(1.0).unwrap();
        let (k, s) = (
            found.stiffness.found().unwrap(),
            found.strength.found().unwrap(),
        );
        // The bounds of the other two grounds hold here too.
        assert!(off(k, mpa(2.0)) < 4.0 * amplitude);
        assert!(off(s, kpa(150.0)) < amplitude);
        let springs = |k: f64, s: f64| {
            Springs::constant_up_to(Pressure::from_si(k), Pressure::from_si(s) * m(B)).unwrap()
        };
        let (of_k, of_s) = textbook(springs, (k.si(), s.si()), &found.residuals);
        assert_relative_eq!(found.stiffness_error.unwrap(), of_k, max_relative = 1e-3);
        assert_relative_eq!(found.strength_error.unwrap(), of_s, max_relative = 1e-3);
    }
}

/// An error of the load cell adds to both standard errors, and its part is in
/// proportion to it: readings without scatter of movement have no other. It changes no
/// value, and the strength then errs as the last loads do: by about as much.
#[test]
fn standard_errors_with_an_error_of_the_load() {
    let readings = sand(8e3, 180.0, &[0.2, 0.35, 0.5, 0.6, 0.7, 0.8], &mut quiet());
    let by = |share: f64| {
        let pull = pull(&readings).with_load_error(share).unwrap();
        pull.growing_curve(1.0).unwrap()
    };
    let (none, one, two) = (by(0.0), by(0.01), by(0.02));
    assert_eq!((none.load_error, two.load_error), (Some(0.0), Some(0.02)));
    assert_eq!(none.stiffness, two.stiffness);
    assert_eq!(none.strength, two.strength);
    assert!(none.strength_error.unwrap() < 1e-4);
    let pairs = [
        (one.stiffness_error, two.stiffness_error),
        (one.strength_error, two.strength_error),
    ];
    for (one, two) in pairs {
        let (one, two) = (one.unwrap(), two.unwrap());
        assert!((two / one - 2.0).abs() < 0.1, "{one} {two}");
        assert!(two > 0.01 && two < 0.3, "{two}");
    }
    for bad in [-0.001, 0.101, f64::NAN] {
        let pull = pull(&readings).with_load_error(bad);
        assert_eq!(pull.unwrap_err().field(), "load error");
    }
}

/// A bend counts where the sum of squares that it saves, over the variance that
/// is left, is more than t² of the degrees of freedom left: F of one and four.
/// The scatter is raised until the bend is no more than chance; on the edge the
/// ratio is the one of the tables.
#[test]
fn a_bend_of_more_than_chance() {
    let shares = [0.1, 0.2, 0.3, 0.4, 0.5, 0.6];
    let quiet = sand(8e3, 180.0, &shares, &mut quiet());
    let signs = [1.0, -1.0, 1.0, 1.0, -1.0, 0.5];
    let scattered = |amplitude: f64| {
        let last = quiet[5].0;
        let readings: Vec<_> = quiet
            .iter()
            .zip(signs)
            .map(|((y, p), sign)| (*y + last * (amplitude * sign), *p))
            .collect();
        pull(&readings)
    };
    let bends = |amplitude: f64| {
        let found = scattered(amplitude).growing_curve(1.0).unwrap();
        found.strength.found().is_some()
    };
    let (mut low, mut high) = (1e-4_f64, 0.06);
    assert!(bends(low) && !bends(high));
    for _ in 0..11 {
        let middle = (low * high).sqrt();
        if bends(middle) {
            low = middle;
        } else {
            high = middle;
        }
    }
    let at = scattered(low);
    let found = at.growing_curve(1.0).unwrap();
    let straight = at.growing_stiffness(1.0).unwrap().residual.value.powi(2) * 6.0;
    let left = found.residual.value.powi(2) * 6.0;
    let ratio = (straight - left) / (left / 4.0);
    assert_relative_eq!(ratio, T_OF_FOUR * T_OF_FOUR, max_relative = 2e-2);
    // Just outside, the straight line stands and tells its own scatter.
    let straight = scattered(high);
    let found = straight.growing_curve(1.0).unwrap();
    let alone = straight.growing_stiffness(1.0).unwrap();
    assert_eq!(found.stiffness, Identified::Found(alone.value));
    assert_relative_eq!(found.residual.value, alone.residual.value);
    assert!(found.iterations > 0);
}

/// Readings that no ground which carried the peak could have bent are not
/// searched at all: neither straight ones nor scattered ones.
#[test]
fn nothing_to_search() {
    let shares = [0.004, 0.008, 0.012, 0.016, 0.02, 1.0];
    let law = RigidPlastic::constant(kpa(150.0), m(B)).unwrap();
    for amplitude in [0.0, 0.04] {
        let even = Springs::constant_up_to(mpa(2.0), kpa(200.0) * m(B)).unwrap();
        let mut noise = Noise::of(amplitude, 3);
        let readings = read(even, capacity(&law), &shares, &mut noise);
        let found = pull(&readings).constant_curve(0.5).unwrap();
        assert_eq!((found.iterations, found.left_out), (0, 1));
        assert_eq!(
            found.strength,
            Identified::AtLeast(found.carries_the_peak, WhyBound::StayedElastic)
        );
        assert!(off(found.carries_the_peak, kpa(150.0)) < 1e-9);
    }
    // Three readings are enough.
    let three = pull(&sand(8e3, 180.0, &[0.4, 0.7, 0.95], &mut quiet()));
    let found = three.growing_curve(1.0).unwrap();
    assert_eq!(found.residuals.len(), 3);
    assert!(found.iterations > 0 && found.strength.found().is_some());
    // Straight within 1e-7 of itself is straight; a thousand times that is
    // looked at, even if it is found to be chance.
    let shares = [0.05, 0.1, 0.15, 0.2, 0.25, 0.3];
    for (wobble, searched) in [(1e-8, false), (1e-4, true)] {
        let springs = Springs::growing(kn_per_cu_m(8e3)).unwrap();
        let mut noise = Noise::of(wobble, 3);
        let law = RigidPlastic::linear(kn_per_cu_m(180.0), m(B)).unwrap();
        let readings = read(springs, capacity(&law), &shares, &mut noise);
        let found = pull(&readings).growing_curve(1.0).unwrap();
        assert_eq!(found.iterations > 0, searched, "{wobble}");
        assert_eq!(found.strength.found(), None);
    }
}

/// Ground as stiff as the search goes: the movement at the load is the post's
/// own bending and the ground's yielding, so the stiffness is only bounded, by
/// that of elastic ground, and the strength is found. A tenth of it, and both
/// are found.
#[test]
fn the_stiffest_ground() {
    let law = RigidPlastic::linear(kn_per_cu_m(180.0), m(B)).unwrap();
    let pulled = |nh: f64| {
        let springs = Springs::growing_up_to(kn_per_cu_m(nh), kn_per_cu_m(180.0)).unwrap();
        let post = PostModel::new(n_sq_m(EI), m(B), m(L), springs).unwrap();
        let post = post.standing(m(E)).unwrap();
        let mut solver = post.with_force(m(E), capacity(&law)).unwrap().solver();
        let mut at = |share: f64| {
            solver.solve(share).unwrap();
            (
                solver.response().at_top().deflection,
                capacity(&law) * share,
            )
        };
        let readings: Vec<_> = SHARES.iter().map(|share| at(*share)).collect();
        let readings = Readings::new(&readings).unwrap();
        SidePull::new(n_sq_m(EI), m(B), m(L), m(E), Gauge::Load, readings).unwrap()
    };
    let top = pulled(9e6);
    let found = top.growing_curve(1.0).unwrap();
    let alone = top.growing_stiffness(1.0).unwrap().value;
    assert_eq!(
        found.stiffness,
        Identified::AtLeast(alone, WhyBound::TooStiff)
    );
    assert!(off(found.strength.found().unwrap(), kn_per_cu_m(180.0)) < 1e-3);
    assert_eq!((found.stiffness_error, found.strength_error), (None, None));
    let below = pulled(9e5).growing_curve(1.0).unwrap();
    assert!(off(below.stiffness.found().unwrap(), kn_per_cu_m(9e5)) < 0.05);
    assert!(off(below.strength.found().unwrap(), kn_per_cu_m(180.0)) < 1e-3);
    assert!(below.stiffness_error.is_some());
}

/// Every reason is said in its own words.
#[test]
fn reasons_are_told_apart() {
    let reasons = [
        (WhyBound::StayedElastic, "elastic range"),
        (WhyBound::TooFew, "fewer than three"),
        (WhyBound::CarriedThePeak, "weakest ground"),
        (WhyBound::TooStiff, "stiffest ground"),
    ];
    for (i, (why, words)) in reasons.iter().enumerate() {
        assert!(why.name().contains(words));
        assert_eq!(why.to_string(), why.name());
        let with: Vec<_> = reasons
            .iter()
            .filter(|(other, _)| other.name().contains(words))
            .collect();
        assert_eq!(with, [&reasons[i]]);
    }
}

/// The search by parabolas takes fewer curves than golden sections alone would:
/// each of those leaves 0.618 of a bracket. Nine strengths coarsely (to 1e-2),
/// then one search in another, both to 1e-6. The stiffness lies between the one
/// of elastic ground and the stiffest, the strength between the floor and
/// thirty times it.
#[test]
fn work_of_a_search() {
    let sections = |range: f64, to: f64| (to / range).ln() / 0.618_034_f64.ln() + 2.0;
    let wanted = |straight: f64, stiffest: f64| {
        let stiff = (stiffest / straight).ln();
        let step = 30.0_f64.ln() / 8.0;
        9.0 * sections(stiff, 1e-2) + sections(2.0 * step, 1e-6) * sections(1.0, 1e-6)
    };
    let took = |iterations: u32, golden: f64| {
        let took = f64::from(iterations);
        assert!(took > 9.0 * 4.0 && took < 0.45 * golden, "{took} {golden}");
    };
    for mut noise in [quiet(), Noise::of(0.03, 2)] {
        let pulled = pull(&sand(8e3, 180.0, &SHARES, &mut noise));
        let found = pulled.growing_curve(1.0).unwrap();
        let straight = pulled.growing_stiffness(1.0).unwrap().value;
        took(found.iterations, wanted(straight.si(), 9e9));
    }
    let pulled = pull(&clay(20e3, 40.0, &SHARES, &mut quiet()));
    let found = pulled.clay_curve(1.0).unwrap();
    let straight = pulled.constant_stiffness(1.0).unwrap().value;
    took(found.iterations, wanted(straight.si(), 9e9 * B));
}

/// A reading that has no movement yet, or no load, is left out of every fit.
#[test]
fn readings_without_movement_or_load() {
    let with = [
        (mm(0.0), newton(20.0)),
        (mm(0.5), newton(0.0)),
        (mm(1.25), newton(100.0)),
        (mm(2.5), newton(200.0)),
    ];
    let found = pull(&with).growing_stiffness(1.0).unwrap();
    let without = pull(&with[2..]).growing_stiffness(1.0).unwrap();
    assert_eq!(found, without);
    assert_eq!(found.residuals.len(), 2);
    assert_eq!(pull(&with).growing_curve(1.0).unwrap().left_out, 2);
    // Least squares through the origin: 1.25/100 is the compliance of both.
    assert!(found.residual.to(mm) < 1e-12);
}
