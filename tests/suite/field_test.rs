//! Field tests: readings and inversions against the models that made them; the
//! cases and tables stand in `reference`.

use approx::assert_relative_eq;
use groundline::caution::Caution;
use groundline::combination::Combination;
use groundline::field_test::distribution::*;
use groundline::field_test::*;
use groundline::lateral::{LateralMethod, RigidPlastic};
use groundline::limit_state::AllowableStress;
use groundline::profile::{Profile, Soil};
use groundline::response::{PostModel, Springs};
use groundline::source;
use groundline::units::*;
use groundline::uplift::*;
use proptest::prelude::*;

/// kn as the library has it, out of a sample of mean 1 and known spread.
pub(crate) fn kn(tests: u32, spread: Spread) -> f64 {
    let mut values = vec![1.0; tests as usize];
    if let (Spread::OfTheTests, [first, .., last]) = (spread, values.as_mut_slice()) {
        (*first, *last) = (0.99, 1.01);
    }
    let values: Vec<_> = values.into_iter().map(newton).collect();
    let sample = Sample::new(&values).unwrap();
    sample.characteristic(Basis::Normal(spread)).unwrap().factor
}

fn kn_force(value: f64) -> Force {
    groundline::units::kn(value)
}

/// Far out, by symmetry, and what is refused.
#[test]
fn quantiles() {
    assert_relative_eq!(
        normal(-10.0),
        7.619_853_024_160_527e-24,
        max_relative = 1e-12
    );
    assert_relative_eq!(
        normal(3.535_5) + normal(-3.535_5),
        1.0,
        max_relative = 1e-15
    );
    assert!(normal(f64::NAN).is_nan());
    assert!(normal_quantile(0.0).is_err() && student_quantile(0.5, 0).is_err());
    assert!(tolerance_factor(2, 0.95, 0.75).is_err());
}

fn sample(values: &[f64]) -> Sample<Force> {
    let values: Vec<_> = values.iter().map(|v| kn_force(*v)).collect();
    Sample::new(&values).unwrap()
}

/// Welch against scipy's degrees of freedom, and what is settled.
#[test]
fn two_backfills() {
    let (one, other) = (
        sample(&[12.1, 10.8, 13.4, 11.5, 12.6]),
        sample(&[9.7, 12.9, 8.8]),
    );
    // scipy has 2.5275; rounded down for the printed table.
    let as_is = Comparison::between(&one, &other, 0.95).unwrap();
    assert!((as_is.freedom.unwrap() - 2.5275).abs() < 5e-5);
    let floor =
        |first, second| Comparison::between_by(first, second, 0.95, WelchFreedom::Floor).unwrap();
    let both = floor(&one, &other);
    assert_eq!(both.freedom, Some(2.0));
    // A wider interval, as the lesser ν has the greater t.
    assert!(both.interval.unwrap().0 < as_is.interval.unwrap().0);
    assert_relative_eq!(
        both.difference.to(kn_force),
        12.08 - 31.4 / 3.0,
        max_relative = 1e-12
    );
    let (low, high) = both.interval.unwrap();
    let s = |sample: &Sample<Force>| sample.deviation().unwrap().to(kn_force).powi(2);
    let error = (s(&one) / 5.0 + s(&other) / 3.0).sqrt();
    // t(0.975, 2) = 4.3027 (printed tables).
    assert_relative_eq!(
        (high - low).to(kn_force),
        2.0 * 4.302_65 * error,
        max_relative = 1e-5
    );
    assert_eq!(both.settled, Settled::NotSettled);
    let more = both.more_tests.unwrap();
    // Turned round, it is the same with the other sign.
    let turned = floor(&other, &one);
    assert_relative_eq!(turned.difference.value, -both.difference.value);
    assert_eq!(turned.more_tests, Some(more));
    // The number asked for: t + t of the power over the error, by hand.
    let enough = |n: f64| {
        let (a, b) = (s(&one) / (5.0 + n), s(&other) / (3.0 + n));
        let nu = (a + b).powi(2) / (a * a / (4.0 + n) + b * b / (2.0 + n));
        let nu = (1..2_000)
            .take_while(|k| f64::from(*k) <= nu)
            .last()
            .unwrap();
        let t = student_quantile(0.975, nu).unwrap() + student_quantile(0.8, nu).unwrap();
        both.difference.to(kn_force) >= t * (a + b).sqrt()
    };
    assert!(enough(f64::from(more)) && !enough(f64::from(more - 1)));
    // Settled both ways, and one test of either, whatever it reads.
    let far = Comparison::between(&sample(&[20.0, 21.0, 20.5]), &one, 0.95).unwrap();
    assert_eq!(
        (far.settled, far.more_tests),
        (Settled::FirstHigher, Some(0))
    );
    let far = Comparison::between(&one, &sample(&[20.0, 21.0, 20.5]), 0.95).unwrap();
    assert_eq!(far.settled, Settled::SecondHigher);
    let single = Comparison::between(&sample(&[99.0]), &one, 0.95).unwrap();
    assert_eq!((single.settled, single.interval), (Settled::TooFew, None));
    assert!(single.settled.name().contains("nothing is proved"));
    assert!(Comparison::between(&one, &other, 1.0).is_err());
    // Readings all the same have no spread, and contradict none.
    let coarse = Comparison::between(&sample(&[5.01, 5.01]), &sample(&[5.0, 5.0]), 0.95);
    assert_eq!(coarse.unwrap().settled, Settled::TooFew);
    let coarse = sample(&[5.0, 5.0, 5.0]);
    assert!(
        coarse
            .characteristic(Basis::Normal(Spread::OfTheTests))
            .is_err()
    );
    // Tests that speak against the spread said to be known.
    let wide = sample(&[5.0, 15.0]).characteristic(Basis::Normal(Spread::Known(0.01)));
    assert!(wide.is_err());
    let near = sample(&[9.0, 11.0]);
    // Two that spread more than the spread known: t of one degree of freedom,
    // 6.3138 √1.5 of 14 %, leaves nothing.
    let known = near.characteristic(Basis::Normal(Spread::Known(0.01)));
    assert!(known.is_err());
    // Equal means are never settled.
    let same = Comparison::between(&one, &one, 0.95).unwrap();
    assert_eq!((same.settled, same.more_tests), (Settled::NotSettled, None));
}

/// What may not be made of too few or too wild tests.
#[test]
fn refusals() {
    let two = sample(&[5.0, 6.0]);
    for basis in [
        Basis::Normal(Spread::OfTheTests),
        Basis::Lognormal(Spread::OfTheTests),
        Basis::Tolerance(0.75),
    ] {
        assert_eq!(two.characteristic(basis).unwrap_err().field(), "tests");
    }
    assert!(
        two.characteristic(Basis::Normal(Spread::Known(0.1)))
            .is_ok()
    );
    assert!(
        two.characteristic(Basis::Normal(Spread::Known(f64::NAN)))
            .is_err()
    );
    let wild = sample(&[1.0, 9.0, 2.0]);
    assert!(
        wild.characteristic(Basis::Normal(Spread::OfTheTests))
            .is_err()
    );
    let lognormal = wild.characteristic(Basis::Lognormal(Spread::OfTheTests));
    assert!(lognormal.unwrap().value.value > 0.0);
    assert_eq!(sample(&[4.0]).deviation(), None);
    for bad in [f64::NAN, f64::INFINITY, 0.0, -1.0] {
        assert!(Sample::new(&[newton(bad)]).is_err());
        assert!(Readings::new(&[(m(bad.min(-1.0)), newton(1.0))]).is_err());
        assert!(ProofLoad::new(newton(bad), 1.5).is_err());
    }
    assert!(Sample::<Force>::new(&[]).is_err() && Readings::new(&[]).is_err());
}

/// Two straight lines give their knee back; the start gives its slope.
#[test]
fn knees() {
    let at = |y: f64| {
        if y <= 4.0 {
            500.0 * y
        } else {
            2_000.0 + 60.0 * (y - 4.0)
        }
    };
    let readings: Vec<_> = (1..=20)
        .map(|i| (mm(f64::from(i)), newton(at(f64::from(i)))))
        .collect();
    let pull = Readings::new(&readings).unwrap();
    assert_relative_eq!(pull.stiffness().unwrap().value, 500e3, max_relative = 1e-12);
    let knee = pull.knee().unwrap();
    assert_relative_eq!(knee.movement.to(mm), 4.0, max_relative = 1e-9);
    assert_relative_eq!(knee.load.value, 2_000.0, max_relative = 1e-9);
    assert_relative_eq!(knee.before.value, 500e3, max_relative = 1e-9);
    assert_relative_eq!(knee.after.value, 60e3, max_relative = 1e-9);
    let peak = pull.peak();
    assert_eq!((peak.movement, peak.load), (mm(20.0), newton(at(20.0))));
    assert_eq!(peak.kind, PeakKind::AtLeast);
    assert_relative_eq!(pull.movement_at(newton(1_750.0)).unwrap().to(mm), 3.5);
    assert_eq!(pull.movement_at(newton(1e5)), None);
    // A start that is written down is the start that is understood.
    let mut with_start = vec![(mm(0.0), newton(0.0))];
    with_start.extend(readings.iter().copied());
    let same = Readings::new(&with_start).unwrap().stiffness();
    assert_relative_eq!(same.unwrap().value, 500e3, max_relative = 1e-12);
    let late = Readings::new(&[(mm(0.0), newton(0.0)), (mm(2.0), newton(900.0))]).unwrap();
    assert_relative_eq!(late.stiffness().unwrap().value, 450e3, max_relative = 1e-12);
    // Straight, or hardening: no knee. Too few: none.
    let bend = |f: fn(f64) -> f64, n: u32| {
        let all: Vec<_> = (1..=n)
            .map(|i| (mm(f64::from(i)), newton(f(f64::from(i)))))
            .collect();
        Readings::new(&all).unwrap().knee()
    };
    assert_eq!(bend(|y| y * y, 12), None);
    assert_eq!(bend(f64::sqrt, 4), None);
    assert!(bend(f64::sqrt, 12).is_some());
    // A movement that never was.
    let still = Readings::new(&[(mm(0.0), newton(5.0))]).unwrap();
    assert_eq!((still.stiffness(), still.knee()), (None, None));
    // Proof.
    let proof = ProofLoad::new(newton(1_000.0), 1.5).unwrap();
    assert_eq!(proof.judge(&pull).outcome, ProofOutcome::Stood);
    assert_relative_eq!(proof.judge(&pull).movement.unwrap().to(mm), 3.0);
    let strict = proof.allowing(mm(2.9)).unwrap();
    assert_eq!(strict.judge(&pull).outcome, ProofOutcome::MovedTooFar);
    // Held while it creeps, and let go.
    let held = |last: f64| {
        let readings = [(2.0, 1.0), (8.0, 3.0), (60.0, 3.0), (200.0, last)];
        let readings: Vec<_> = readings
            .iter()
            .map(|(y, p)| (mm(*y), kn_force(*p)))
            .collect();
        let proof = ProofLoad::new(kn_force(2.0), 1.5).unwrap();
        proof
            .allowing(mm(10.0))
            .unwrap()
            .judge(&Readings::new(&readings).unwrap())
    };
    assert_eq!(held(0.2).outcome, ProofOutcome::LetGo);
    assert_eq!(held(2.9).outcome, ProofOutcome::MovedTooFar);
    assert_eq!(held(2.9).movement, Some(mm(200.0)));
    // Held first, then pulled on: the creep counts, what comes after does not.
    assert_eq!(held(4.0).outcome, ProofOutcome::MovedTooFar);
    assert_eq!(held(4.0).movement, Some(mm(60.0)));
    let great = ProofLoad::new(newton(2_000.0), 1.5).unwrap().judge(&pull);
    assert_eq!(
        (great.outcome, great.movement),
        (ProofOutcome::NotShown, None)
    );
    assert_relative_eq!(great.target.value, 3_000.0);
}

/// Pull-out: α and β that made a resistance come back.
#[test]
fn axial_pulls_come_back() {
    let clay = Soil::new(kn_per_cu_m(18.0)).unwrap();
    let clay = Profile::uniform(clay.with_undrained_strength(kpa(40.0)).unwrap()).unwrap();
    let shaft = Shaft::round(m(0.3), m(1.2), m(0.2)).unwrap();
    let weight = kn_force(1.5);
    let peak = Friction::alpha(0.6)
        .unwrap()
        .resistance(&clay, &shaft)
        .unwrap()
        + weight;
    let pull = AxialPull::new(peak, shaft, weight).unwrap();
    assert_relative_eq!(
        pull.implied_alpha(kpa(40.0)).unwrap(),
        0.6,
        max_relative = 1e-12
    );
    let sand = clay.with_water_at(m(0.7)).unwrap();
    let beta = Friction::beta(0.4, deg(24.0)).unwrap();
    let peak = beta.resistance(&sand, &shaft).unwrap() + weight;
    let pull = AxialPull::new(peak, shaft, weight).unwrap();
    let expected = 0.4 * 24_f64.to_radians().tan();
    assert_relative_eq!(
        pull.implied_beta(&sand).unwrap(),
        expected,
        max_relative = 1e-12
    );
    assert!(pull.average_bond().pressure() > pull.friction());
    assert!(AxialPull::new(newton(100.0), shaft, newton(200.0)).is_err());
}

/// The characteristic value feeds design and remembers its basis.
#[test]
fn into_design() {
    let bonds = Sample::new(&[kpa(12.0), kpa(15.0), kpa(13.0), kpa(14.0)]).unwrap();
    let value = bonds
        .characteristic(Basis::Lognormal(Spread::OfTheTests))
        .unwrap();
    let clay = Soil::new(kn_per_cu_m(18.0)).unwrap();
    let clay = Profile::uniform(clay.with_undrained_strength(kpa(40.0)).unwrap()).unwrap();
    let shaft = Shaft::round(m(0.3), m(1.0), m(0.0)).unwrap();
    let post = PullOut::new(kn_force(0.0), kn_force(0.0))
        .unwrap()
        .with_friction(&clay, value.as_friction(), &shaft, HowKnown::Tests)
        .unwrap();
    let holds = post.resistance(&Combination::of(AllowableStress::Basic));
    let side = core::f64::consts::PI * 0.3;
    assert_relative_eq!(
        holds.resistance.value,
        value.value.value * side / 2.0,
        max_relative = 1e-12
    );
    assert_eq!(holds.source, &source::EN1990_ANNEX_D);
    assert!(post.cautions().contains(Caution::FieldTests));
    let bond = value.as_bond(3.0, m(0.4), m(0.8)).unwrap();
    assert_relative_eq!(bond.resistance().value, value.value.value / 3.0 * 0.32);
    assert_eq!(bond.source(), &source::EN1990_ANNEX_D);
    assert!(value.cautions().contains(Caution::FieldTests));
    assert!(!value.cautions().contains(Caution::FromMemory));
    let limit = bonds.characteristic(Basis::Tolerance(0.75)).unwrap();
    assert!(limit.cautions().contains(Caution::FromMemory));
    assert!(value.as_bond(0.5, m(0.4), m(0.8)).is_err());
    let soil = value
        .as_undrained_strength(Soil::new(kn_per_cu_m(18.0)).unwrap())
        .unwrap();
    assert_eq!(soil.source(), &source::EN1990_ANNEX_D);
    assert_eq!(soil.undrained_strength(), Some(value.value));
}

/// The last reading is the greatest: a lower bound, which the statistics carry.
#[test]
fn pulls_that_were_stopped() {
    let of = |loads: &[f64]| {
        let pairs = (1..)
            .zip(loads)
            .map(|(i, p)| (mm(f64::from(i)), kn_force(*p)));
        Readings::new(&pairs.collect::<Vec<_>>()).unwrap()
    };
    for (loads, kind) in [
        (&[1.0, 2.0, 3.0][..], PeakKind::AtLeast),
        (&[1.0, 3.0, 3.0], PeakKind::AtLeast),
        (&[1.0, 3.0, 2.999], PeakKind::Reached),
        (&[3.0], PeakKind::AtLeast),
    ] {
        assert_eq!(of(loads).peak().kind, kind, "{loads:?}");
        let shaft = Shaft::round(m(0.3), m(1.0), m(0.0)).unwrap();
        let pull = AxialPull::of(&of(loads), shaft, newton(0.0)).unwrap();
        assert_eq!(pull.kind(), kind);
    }
    let with = |bounds: usize, values: &[f64]| {
        let kind = |i| {
            if i < bounds {
                PeakKind::AtLeast
            } else {
                PeakKind::Reached
            }
        };
        let all = values
            .iter()
            .enumerate()
            .map(|(i, v)| (kn_force(*v), kind(i)));
        Sample::with_kinds(&all.collect::<Vec<_>>()).unwrap()
    };
    let (high, low) = ([20.0, 21.0, 20.5], [10.0, 11.0, 10.5]);
    for bounds in 0..=3 {
        let value = with(bounds, &low).characteristic(Basis::default()).unwrap();
        assert_eq!(value.at_least as usize, bounds);
        let said = value.cautions().contains(Caution::StoppedPulls);
        assert_eq!(said, bounds > 0);
        // The lower one may be the higher one; the higher one stays it.
        let both = Comparison::between(&with(0, &high), &with(bounds, &low), 0.95).unwrap();
        let settled = if bounds > 0 {
            Settled::LowerIsBound
        } else {
            Settled::FirstHigher
        };
        assert_eq!((both.settled, both.at_least as usize), (settled, bounds));
        let both = Comparison::between(&with(0, &low), &with(bounds, &high), 0.95).unwrap();
        assert_eq!(both.settled, Settled::SecondHigher);
        assert_eq!(both.cautions().contains(Caution::StoppedPulls), bounds > 0);
    }
}

/// A proof is shown by a reading at or above the load and one after it.
#[test]
fn proofs_are_bracketed() {
    let proof = ProofLoad::new(kn_force(2.0), 1.5).unwrap();
    let judged = |pairs: &[(f64, f64)]| {
        let pairs: Vec<_> = pairs.iter().map(|(y, p)| (mm(*y), kn_force(*p))).collect();
        let pull = Readings::new(&pairs).unwrap();
        let result = proof.allowing(mm(10.0)).unwrap().judge(&pull);
        (result.outcome, result.movement.map(|y| y.to(mm).round()))
    };
    // Stopped below; fell below; ended as the load was reached; went on.
    assert_eq!(
        judged(&[(2.0, 2.0), (4.0, 2.9)]),
        (ProofOutcome::NotShown, None)
    );
    assert_eq!(
        judged(&[(2.0, 2.9), (4.0, 2.8)]),
        (ProofOutcome::NotReached, None)
    );
    let (outcome, _) = judged(&[(2.0, 2.0), (4.0, 3.0)]);
    assert_eq!(outcome, ProofOutcome::NotShown);
    let (outcome, _) = judged(&[(2.0, 2.0), (4.0, 3.0), (4.5, 3.0)]);
    assert_eq!(outcome, ProofOutcome::Stood);
    // Only one reading, far above: it moved 20 mm, not 3/6 of it from the start.
    let one = judged(&[(20.0, 6.0)]);
    assert_eq!(one, (ProofOutcome::MovedTooFar, Some(20.0)));
}

/// pⁿ = 0.05 by the binomial distribution: 59 of 59 for 95 % at 95 %, the number
/// that printed tables have (Wilks).
#[test]
fn what_proof_loads_prove() {
    for n in [1, 2, 3, 10, 59, 10_000] {
        let share = proved_share(n, 0.95).unwrap();
        let all_stand = (0..n).fold(1.0, |chance, _| chance * share);
        assert_relative_eq!(all_stand, 0.05, max_relative = 1e-9);
    }
    assert_relative_eq!(proved_share(1, 0.95).unwrap(), 0.05, max_relative = 1e-12);
    assert_relative_eq!(proved_share(2, 0.75).unwrap(), 0.5, max_relative = 1e-12);
    assert!(proved_share(0, 0.95).is_err() && proved_share(10_001, 0.95).is_err());
    assert!(proved_share(3, 0.49).is_err() && proved_share(3, f64::NAN).is_err());
    assert_eq!(proved_share_source(), &source::PROVED_SHARE);
}

/// The data set `sleep` of R, as its documentation prints Welch's test: ν 17.776,
/// −3.365 483 2 to 0.205 483 2 (published). Both groups are 3 higher here, since
/// only positive results are taken; a difference is the same.
#[test]
fn welch_as_printed() {
    let a = [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0].map(|x| x + 3.0);
    let b = [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4].map(|x| x + 3.0);
    let both = Comparison::between(&sample(&a), &sample(&b), 0.95).unwrap();
    let (low, high) = both.interval.unwrap();
    assert!((low.to(kn_force) + 3.365_483_2).abs() < 1e-6, "{low:?}");
    assert!((high.to(kn_force) - 0.205_483_2).abs() < 1e-6, "{high:?}");
    assert!((both.freedom.unwrap() - 17.776).abs() < 5e-4);
}

/// α by its own test of the strength, and no friction of pile factors.
#[test]
fn alpha_of_the_right_strength() {
    for (ratio, alpha) in [
        (0.1, 1.0),
        (0.25, 0.98),
        (0.5, 0.64),
        (1.0, 0.47),
        (2.5, 0.368),
    ] {
        let ours = gec10_alpha(kpa(101.3 * ratio)).unwrap();
        assert_relative_eq!(ours, alpha, max_relative = 1e-12);
    }
    assert!(gec10_alpha(kpa(0.99)).is_err() && gec10_alpha(kpa(254.0)).is_err());
    let clay = Soil::new(kn_per_cu_m(18.0)).unwrap();
    let clay = Profile::uniform(clay.with_undrained_strength(kpa(101.3)).unwrap()).unwrap();
    let stress = Friction::AlphaGec10.stress(&clay, m(1.0)).unwrap();
    assert_relative_eq!(stress.to(kpa), 0.47 * 101.3, max_relative = 1e-12);
    assert_eq!(Friction::AlphaGec10.source(), &source::GEC10_ALPHA);
    for pile in [PileTests::LoadTests, PileTests::GroundTests] {
        let friction = Friction::Tested(kpa(20.0), pile.source());
        assert_eq!(
            friction.stress(&clay, m(1.0)).unwrap_err().field(),
            "friction"
        );
    }
    let good = Friction::Tested(kpa(20.0), Basis::default().source());
    assert!(good.stress(&clay, m(1.0)).is_ok());
}

const EI: f64 = 47_000.0;

fn simulated(springs: Springs, gauge: Gauge, noise: &[f64]) -> SidePull {
    let post = PostModel::new(n_sq_m(EI), mm(89.0), m(0.9), springs).unwrap();
    let post = post.standing(m(1.1)).unwrap();
    let mut load = 0.0;
    let mut readings = Vec::new();
    for factor in noise {
        load += 50.0;
        let pulled = post.clone().with_force(m(1.1), newton(load)).unwrap();
        let response = pulled.solve().unwrap();
        let y = match gauge {
            Gauge::Grade => response.at_grade().deflection,
            _ => response.at_top().deflection,
        };
        readings.push((y * *factor, newton(load)));
    }
    let readings = Readings::new(&readings).unwrap();
    SidePull::new(n_sq_m(EI), mm(89.0), m(0.9), m(1.1), gauge, readings).unwrap()
}

/// Readings that the models made give their ground back.
#[test]
fn inversion() {
    for gauge in [Gauge::Grade, Gauge::Load] {
        for k in [0.3, 2.0, 15.0] {
            let pull = simulated(Springs::constant(mpa(k)).unwrap(), gauge, &[1.0; 6]);
            let found = pull.constant_stiffness(0.5).unwrap();
            assert_relative_eq!(found.value.to(mpa), k, max_relative = 1e-7);
            // Readings up to half of the peak: three of six.
            assert_eq!(found.residuals.len(), 3);
            assert!(found.residual.to(mm) < 1e-6);
        }
        for nh in [1e3, 8e3, 6e4] {
            let springs = Springs::growing(kn_per_cu_m(nh)).unwrap();
            let pull = simulated(springs, gauge, &[1.0; 6]);
            let found = pull.growing_stiffness(0.5).unwrap();
            assert_relative_eq!(found.value.to(kn_per_cu_m), nh, max_relative = 1e-7);
        }
    }
    // Less than the post itself, more than the softest ground.
    for (y, load) in [(0.001, 100.0), (900.0, 1.0)] {
        let readings = Readings::new(&[(mm(y), newton(load))]).unwrap();
        let pull = SidePull::new(n_sq_m(EI), mm(89.0), m(0.9), m(1.1), Gauge::Load, readings);
        assert_eq!(
            pull.unwrap().growing_stiffness(1.0).unwrap_err().field(),
            "movement"
        );
    }
    // Strength: the ultimate load of a strength gives the strength.
    let at = |method: RigidPlastic| {
        let peak = method.ultimate(m(0.9), m(1.1)).unwrap().shear;
        let readings = Readings::new(&[(mm(50.0), peak)]).unwrap();
        SidePull::new(n_sq_m(EI), mm(89.0), m(0.9), m(1.1), Gauge::Load, readings).unwrap()
    };
    let pull = at(RigidPlastic::constant(kpa(77.0), mm(89.0)).unwrap());
    assert_relative_eq!(
        pull.ultimate_pressure().unwrap().to(kpa),
        77.0,
        max_relative = 1e-9
    );
    let pull = at(RigidPlastic::linear(kn_per_cu_m(210.0), mm(89.0)).unwrap());
    let growth = pull.ultimate_growth().unwrap().to(kn_per_cu_m);
    assert_relative_eq!(growth, 210.0, max_relative = 1e-9);
    let pull = at(RigidPlastic::graded_clay(kpa(33.0), mm(89.0)).unwrap());
    assert_relative_eq!(
        pull.undrained_strength().unwrap().to(kpa),
        33.0,
        max_relative = 1e-9
    );
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Readings off by up to 5 % each put the stiffness off by no more than a
    /// stiffness whose movement is 5 % off: in growing ground the movement at
    /// grade goes with nh to between −0.6 and −1, so 9 %.
    #[test]
    fn noise_is_not_magnified(
        nh in 1e3..4e4_f64, noise in proptest::collection::vec(0.95..1.05_f64, 6),
    ) {
        // In order, as movements under a growing load are.
        let springs = Springs::growing(kn_per_cu_m(nh)).unwrap();
        let pull = simulated(springs, Gauge::Grade, &noise);
        let found = pull.growing_stiffness(1.0).unwrap();
        let ratio = found.value.to(kn_per_cu_m) / nh;
        prop_assert!((0.91..1.1).contains(&ratio), "{ratio}");
        prop_assert!(found.residual.value >= 0.0);
    }

    /// More of the same spread never lowers kn's worth; a known spread never
    /// asks more than an unknown one; lognormal is never negative; scale is
    /// scale.
    #[test]
    fn characteristic_values(values in proptest::collection::vec(2.0..9.0_f64, 3..12)) {
        let own = sample(&values);
        let scaled: Vec<_> = values.iter().map(|v| v * 7.0).collect();
        for basis in [
            Basis::Lognormal(Spread::OfTheTests),
            Basis::Lognormal(Spread::Known(0.2)),
            Basis::LognormalTolerance(0.75),
        ] {
            let value = own.characteristic(basis).unwrap();
            prop_assert!(value.value.value > 0.0 && value.value <= value.mean * (1.0 + 1e-12));
            let seven = sample(&scaled).characteristic(basis).unwrap();
            prop_assert!(((seven.value / value.value).value / 7.0 - 1.0).abs() < 1e-9);
        }
        let n = own.tests();
        prop_assert!(kn(n, Spread::Known(0.1)) < kn(n, Spread::OfTheTests));
        prop_assert!(kn(n + 1, Spread::OfTheTests) < kn(n, Spread::OfTheTests));
        prop_assert!(tolerance_factor(n, 0.95, 0.9).unwrap() > tolerance_factor(n, 0.95, 0.75).unwrap());
    }
}
