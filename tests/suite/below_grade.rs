//! Moment and shear below grade against direct integration of the soil
//! reaction they are derived from, and against the published-form rigid pile
//! solution.

use approx::assert_relative_eq;
use groundline::actions::GroundlineActions;
use groundline::foundation::Restraint;
use groundline::limit_state::AllowableStress;
use groundline::post::BelowGrade;
use groundline::response::{PostModel, Springs};
use groundline::units::*;
use proptest::prelude::*;

/// Rigid pile in ground of stiffness n z: y0 = 18H/(nL²) + 24M/(nL³),
/// θ = −(24H/(nL³) + 36M/(nL⁴)) (derived from equilibrium); the greatest
/// moment and shear by 200 000 slices of p = n z (y0 + θ z). n = 1.
fn by_slices(h: f64, m: f64, l: f64) -> (f64, f64, f64) {
    let y0 = 18.0 * h / l.powi(2) + 24.0 * m / l.powi(3);
    let theta = -(24.0 * h / l.powi(3) + 36.0 * m / l.powi(4));
    let n = 200_000;
    let step = l / f64::from(n);
    let (mut shear, mut moment) = (h, m);
    let (mut most, mut at, mut most_shear) = (m, 0.0, h);
    for i in 0..n {
        let z = (f64::from(i) + 0.5) * step;
        let before = shear;
        shear -= z * (y0 + theta * z) * step;
        moment += 0.5 * (before + shear) * step;
        if moment > most {
            (most, at) = (moment, z + 0.5 * step);
        }
        most_shear = most_shear.max(shear.abs());
    }
    // The post ends free: both vanish at the bottom.
    assert!(shear.abs() < 1e-6 * (h + m / l));
    assert!(moment.abs() < 1e-6 * (h * l + m));
    (most, at, most_shear)
}

#[test]
fn against_slices() {
    for (h, m0, l) in [
        (1.0, 0.0, 1.0),
        (2.5, 3.0, 1.2),
        (0.5, 4.0, 0.8),
        (0.0, 1.0, 1.0),
        (10.0, 1.0, 3.0),
    ] {
        let load =
            GroundlineActions::new(kn(h), kn_m(m0), kn(0.0), AllowableStress::Basic).unwrap();
        let ours = BelowGrade::new(&load, m(l), m(0.0), Restraint::None).unwrap();
        let (moment, at, shear) = by_slices(h, m0, l);
        assert_relative_eq!(ours.moment().to(kn_m), moment, max_relative = 1e-8);
        assert!((ours.depth_of_moment().to(m) - at).abs() < 1e-4 * l);
        assert_relative_eq!(ours.shear().to(kn), shear, max_relative = 1e-6);
    }
}

/// What is said of a post that bends, against the beam on springs: it has less moment at
/// any depth; less shear down to 3.5 (EI/n)^(1/5), more from 3.75 on, and under moment
/// alone never more than 0.5 M/(EI/n)^(1/5).
#[test]
fn against_a_post_that_bends() {
    let (stiffness, n) = (kn_sq_m(200.0), kn_per_cu_m(5_000.0));
    let t = (200.0 / 5_000.0_f64).powf(0.2);
    for height in [1.0, 4.0, f64::INFINITY] {
        // Shear and moment of a force at a height, or of a moment alone.
        let (h, m0) = if height.is_finite() {
            (1.0, height)
        } else {
            (0.0, 1.0)
        };
        let load =
            GroundlineActions::new(kn(h), kn_m(m0), kn(0.0), AllowableStress::Basic).unwrap();
        for depth in [1.5, 2.5, 3.5, 3.75, 5.0, 8.0] {
            let l = m(depth * t);
            let rigid = BelowGrade::new(&load, l, m(0.0), Restraint::None).unwrap();
            let bent = PostModel::new(stiffness, mm(100.0), l, Springs::growing(n).unwrap())
                .and_then(|model| model.with_force(m(0.0), kn(h)))
                .and_then(|model| model.with_moment(kn_m(m0)))
                .and_then(|model| model.solve())
                .unwrap();
            let shears = bent.stations().iter().map(|at| at.shear.to(kn).abs());
            let shear = shears.fold(0.0, f64::max);
            let moment = bent.greatest_moment().moment.to(kn_m);
            assert!(moment <= rigid.moment().to(kn_m) * (1.0 + 1e-6), "{depth}");
            let more = shear / rigid.shear().to(kn);
            if depth <= 3.5 {
                assert!(more < 1.0 + 1e-6, "{height} {depth}: {more}");
            } else if h == 0.0 {
                assert!(more > 1.0, "{depth}: {more}");
                assert!(shear < 0.5 * m0 / t, "{depth}: {shear}");
            }
        }
    }
}

/// A layer that does not count raises the moment by V t and moves it down.
#[test]
fn below_a_discounted_top() {
    let load = GroundlineActions::new(kn(2.0), kn_m(3.0), kn(0.0), AllowableStress::Basic).unwrap();
    let raised =
        GroundlineActions::new(kn(2.0), kn_m(4.0), kn(0.0), AllowableStress::Basic).unwrap();
    let ours = BelowGrade::new(&load, m(1.0), m(0.5), Restraint::None).unwrap();
    let same = BelowGrade::new(&raised, m(1.0), m(0.0), Restraint::None).unwrap();
    assert_eq!(ours.moment(), same.moment());
    assert_relative_eq!(
        ours.depth_of_moment().to(m),
        same.depth_of_moment().to(m) + 0.5,
        max_relative = 1e-12
    );
}

/// Turning about paving at grade, p = n θ z²: the soil's moment about grade
/// is M, so its sum is 4M/(3L). Statics.
#[test]
fn held_at_grade() {
    let load =
        GroundlineActions::new(lb(100.0), lb_ft(900.0), lb(0.0), AllowableStress::Basic).unwrap();
    let ours = BelowGrade::new(&load, ft(3.0), ft(0.0), Restraint::RigidPaving).unwrap();
    assert_eq!(ours.moment(), lb_ft(900.0));
    assert_eq!(ours.depth_of_moment(), ft(0.0));
    assert_relative_eq!(ours.shear().to(lb), 400.0, max_relative = 1e-12);
}

proptest! {
    /// Never less than at grade, never more than the shear's whole depth adds.
    #[test]
    fn bounds(v in 0.0..1e4_f64, m0 in 0.0..1e5_f64, l in 0.1..10.0_f64) {
        let load = GroundlineActions::new(
            lb(v), lb_ft(m0), lb(0.0), AllowableStress::Basic,
        ).unwrap();
        let ours = BelowGrade::new(&load, ft(l), ft(0.0), Restraint::None).unwrap();
        prop_assert!(ours.moment() >= lb_ft(m0) * (1.0 - 1e-12));
        prop_assert!(ours.moment() <= lb_ft(m0 + v * l));
        prop_assert!(ours.shear() >= lb(v));
        prop_assert!(ours.depth_of_moment() <= ft(l));
    }
}
