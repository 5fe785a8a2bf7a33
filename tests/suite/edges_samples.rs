//! Samples, knees and proof loads on the edges between their cases.

use approx::assert_relative_eq;
use groundline::caution::Caution;
use groundline::combination::Combination;
use groundline::field_test::distribution::*;
use groundline::field_test::*;
use groundline::limit_state::AllowableStress;
use groundline::profile::{Layer, Profile, Soil};
use groundline::source;
use groundline::units::*;
use groundline::uplift::*;

fn sample(values: &[f64]) -> Sample<Force> {
    let values: Vec<_> = values.iter().map(|v| kn(*v)).collect();
    Sample::new(&values).unwrap()
}

fn readings(pairs: &[(f64, f64)]) -> Readings {
    let pairs: Vec<_> = pairs.iter().map(|(y, p)| (mm(*y), kn(*p))).collect();
    Readings::new(&pairs).unwrap()
}

/// EN 1990 (D.7) with V known: 1.6449 √(1 + 1/n); normal on X, lognormal on
/// ln X with s = √(ln(1 + V²)). Tests that spread more than that take their own spread and t.
#[test]
fn known_spread_by_hand() {
    let values = [12.1, 10.8, 13.4, 11.5, 12.6];
    let tests = sample(&values);
    let kn5 = 1.644_853_627 * 1.2_f64.sqrt();
    let mean = values.iter().sum::<f64>() / 5.0;
    let of_logs = values.iter().map(|v: &f64| v.ln()).sum::<f64>() / 5.0;
    for v in [0.15, 0.3] {
        let normal = tests.characteristic(Basis::Normal(Spread::Known(v)));
        let normal = normal.unwrap();
        assert_relative_eq!(
            normal.value.to(kn),
            mean * (1.0 - kn5 * v),
            max_relative = 1e-8
        );
        assert_relative_eq!(normal.factor, kn5, max_relative = 1e-8);
        let log = tests.characteristic(Basis::Lognormal(Spread::Known(v)));
        let by_hand = (of_logs - kn5 * (1.0 + v * v).ln().sqrt()).exp();
        assert_relative_eq!(log.unwrap().value.to(kn), by_hand, max_relative = 1e-8);
    }
    // Their own spread is 0.083: with a smaller one known, t of 95 % and 4 degrees
    // of freedom as tables print it (2.131 847) takes the place of z.
    let t5 = 2.131_846_786 * 1.2_f64.sqrt();
    let s = (values.iter().map(|v| (v - mean).powi(2)).sum::<f64>() / 4.0).sqrt();
    let normal = tests.characteristic(Basis::Normal(Spread::Known(0.02)));
    let normal = normal.unwrap();
    assert_eq!(normal.basis, Basis::Normal(Spread::OfTheTests));
    assert_relative_eq!(normal.value.to(kn), mean - t5 * s, max_relative = 1e-8);
    let s = (values
        .iter()
        .map(|v| (v.ln() - of_logs).powi(2))
        .sum::<f64>()
        / 4.0)
        .sqrt();
    let log = tests.characteristic(Basis::Lognormal(Spread::Known(0.02)));
    assert_relative_eq!(
        log.unwrap().value.to(kn),
        (of_logs - t5 * s).exp(),
        max_relative = 1e-8
    );
    // 1 % and 100 % are taken, no less and no more; of 100 % a normal one
    // leaves nothing, a lognormal one something.
    let log = |v: f64| tests.characteristic(Basis::Lognormal(Spread::Known(v)));
    assert!(log(0.01).is_ok() && log(0.009_9).is_err());
    assert!(log(1.0).is_ok() && log(1.01).is_err());
    let all = tests.characteristic(Basis::Normal(Spread::Known(1.0)));
    assert_eq!(all.unwrap_err().field(), "tests");
}

/// How many tests each basis wants, and what it is called.
#[test]
fn bases() {
    let of_tests = |n: usize| {
        let all = [9.0, 10.0, 11.0, 10.5];
        sample(&all[..n])
    };
    let own = [
        Basis::Normal(Spread::OfTheTests),
        Basis::Lognormal(Spread::OfTheTests),
        Basis::Tolerance(0.75),
        Basis::LognormalTolerance(0.75),
        Basis::LowerOfBoth,
    ];
    for basis in own {
        assert!(of_tests(2).characteristic(basis).is_err());
        assert!(of_tests(3).characteristic(basis).is_ok());
        // All the same, or to a millionth, say nothing of their spread.
        let same = sample(&[10.0, 10.0, 10.000_001]).characteristic(basis);
        assert_eq!(same.unwrap_err().field(), "tests");
        assert!(sample(&[10.0, 10.0, 10.0001]).characteristic(basis).is_ok());
    }
    for n in 1..=4 {
        let one = of_tests(n).characteristic(Basis::Normal(Spread::Known(0.1)));
        assert_eq!(one.unwrap().tests, u32::try_from(n).unwrap());
    }
    let others = [
        Basis::Normal(Spread::Known(0.1)),
        Basis::Lognormal(Spread::Known(0.1)),
    ];
    let mut names: Vec<_> = own.iter().chain(&others).map(|b| b.name()).collect();
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), 7);
    assert!(
        Basis::Tolerance(0.75)
            .to_string()
            .ends_with("with 75 % confidence")
    );
    for basis in [
        Basis::Normal(Spread::Known(0.1)),
        Basis::Lognormal(Spread::Known(0.1)),
    ] {
        assert!(basis.to_string().ends_with("spread known as 10 %"));
    }
    assert_eq!(Basis::LowerOfBoth.to_string(), Basis::LowerOfBoth.name());
    // A limit told from memory says so; a quoted one does not.
    let memory = |basis: Basis| {
        let value = of_tests(4).characteristic(basis).unwrap();
        assert!(value.cautions().contains(Caution::FieldTests));
        value.cautions().contains(Caution::FromMemory)
    };
    for basis in own.into_iter().chain(others) {
        assert_eq!(
            memory(basis),
            basis.source().mark == source::Mark::FromMemory
        );
    }
    assert!(memory(Basis::Tolerance(0.75)) && memory(Basis::LognormalTolerance(0.75)));
    assert!(!memory(Basis::Normal(Spread::OfTheTests)));
    // One to a thousand results.
    assert!(Sample::<Force>::new(&[]).is_err());
    assert!(Sample::new(&vec![kn(1.0); 1_000]).is_ok());
    assert!(Sample::new(&vec![kn(1.0); 1_001]).is_err());
}

/// A friction that rests on tests, of whichever basis, carries their caution
/// into a pull-out; one by analysis does not.
#[test]
fn tests_are_told_in_a_pull_out() {
    let soil = Soil::new(kn_per_cu_m(18.0)).unwrap();
    let profile = Profile::uniform(soil.with_undrained_strength(kpa(50.0)).unwrap()).unwrap();
    let shaft = Shaft::round(m(0.3), m(1.0), m(0.0)).unwrap();
    let values = [kpa(20.0), kpa(22.0), kpa(21.0), kpa(24.0)];
    let values = Sample::new(&values).unwrap();
    let base = PullOut::new(kn(0.2), kn(1.0)).unwrap();
    for basis in [
        Basis::Normal(Spread::OfTheTests),
        Basis::Lognormal(Spread::Known(0.1)),
        Basis::Tolerance(0.75),
        Basis::LognormalTolerance(0.75),
        Basis::LowerOfBoth,
    ] {
        let value = values.characteristic(basis).unwrap();
        let friction = value.as_friction();
        let pull = base.with_friction(&profile, friction, &shaft, HowKnown::Tests);
        let pull = pull.unwrap();
        assert!(pull.cautions().contains(Caution::FieldTests), "{basis}");
        // Two on tests: value × side / 2 and the weight.
        let held = pull.resistance(&Combination::of(AllowableStress::Basic));
        let by_hand = value.value.value * core::f64::consts::PI * 0.3 / 2.0;
        let weight = 1_200.0 * Combination::of(AllowableStress::Basic).relieving();
        assert_relative_eq!(held.resistance.value, by_hand + weight, max_relative = 1e-9);
        let bond = value.as_bond(3.0, m(0.5), m(0.8)).unwrap();
        assert_relative_eq!(
            bond.resistance().value,
            value.value.value / 3.0 * 0.4,
            max_relative = 1e-12
        );
        let bonded = base.with_bond(bond);
        assert!(bonded.cautions().contains(Caution::FieldTests), "{basis}");
        assert!(bonded.cautions().contains(Caution::Shrinkage));
    }
    let alpha = Friction::alpha(0.5).unwrap();
    let pull = base.with_friction(&profile, alpha, &shaft, HowKnown::Analysis);
    assert!(!pull.unwrap().cautions().contains(Caution::FieldTests));
    let bonded = base.with_bond(Bond::wood_in_concrete(m(0.5), m(0.8)).unwrap());
    assert!(!bonded.cautions().contains(Caution::FieldTests));
    assert!(!base.cautions().contains(Caution::Shrinkage));
}

/// The knee of a curve without a corner: over every parting the least sum of
/// squares, each line's by the sums alone: Σp² − (Σpy)²/Σy² through the origin,
/// Spp − Spy²/Syy of a free one.
#[test]
fn knee_of_a_smooth_curve() {
    for n in [5, 6, 9, 12] {
        let y: Vec<f64> = (1..=n).map(f64::from).collect();
        let p: Vec<f64> = y
            .iter()
            .map(|y| y.sqrt() + 0.03 * (5.0 * y).sin())
            .collect();
        let sums = |x: &[f64], p: &[f64]| -> (f64, f64, f64) {
            let product = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(a, b)| a * b).sum::<f64>();
            (product(x, x), product(x, p), product(p, p))
        };
        let centred = |x: &[f64]| -> (f64, Vec<f64>) {
            let count = f64::from(u32::try_from(x.len()).unwrap());
            let mean = x.iter().sum::<f64>() / count;
            (mean, x.iter().map(|x| x - mean).collect())
        };
        let mut best = (f64::MAX, 0.0, 0.0);
        for split in 2..=y.len() - 2 {
            let (xx, xp, pp) = sums(&y[..split], &p[..split]);
            let first = (pp - xp * xp / xx, xp / xx);
            let ((ym, yc), (pm, pc)) = (centred(&y[split..]), centred(&p[split..]));
            let (xx, xp, pp) = sums(&yc, &pc);
            let slope = xp / xx;
            let error = first.0 + pp - xp * xp / xx;
            let meet = (pm - slope * ym) / (first.1 - slope);
            let load = first.1 * meet;
            if first.1 > slope
                && meet > 0.0
                && meet <= y[y.len() - 1]
                && load <= p[p.len() - 1]
                && error < best.0
            {
                best = (error, meet, load);
            }
        }
        let pairs: Vec<_> = y.iter().copied().zip(p.iter().copied()).collect();
        let knee = readings(&pairs).knee().unwrap();
        assert_relative_eq!(knee.movement.to(mm), best.1, max_relative = 1e-9);
        assert_relative_eq!(knee.load.to(kn), best.2, max_relative = 1e-9);
    }
}

/// What is read off a pull at the edges: the first of equal peaks, the third of
/// the peak, a load met exactly.
#[test]
fn read_off_a_pull() {
    let pull = readings(&[(1.0, 1.0), (2.0, 3.0), (4.0, 3.0), (5.0, 2.0)]);
    let peak = pull.peak();
    assert_eq!((peak.movement, peak.load), (mm(2.0), kn(3.0)));
    assert_eq!(peak.kind, PeakKind::Reached);
    assert_eq!(pull.all().len(), 4);
    // A third of 3 is the first reading, and only that.
    assert_relative_eq!(pull.stiffness().unwrap().value, 1e6, max_relative = 1e-12);
    assert_eq!(pull.movement_at(kn(3.0)), Some(mm(2.0)));
    let half = pull.movement_at(kn(2.0)).unwrap();
    assert_relative_eq!(half.to(mm), 1.5, max_relative = 1e-12);
    assert_eq!(pull.movement_at(kn(3.000_1)), None);
    // Below the first reading: straight from the start.
    let early = pull.movement_at(kn(0.25)).unwrap();
    assert_relative_eq!(early.to(mm), 0.25, max_relative = 1e-12);
    // 10 m and a million pounds.
    let one = |y: Length, p: Force| Readings::new(&[(y, p)]).is_ok();
    assert!(one(m(10.0), lb(1e6)) && one(m(0.0), lb(0.0)));
    assert!(!one(m(10.01), lb(1.0)) && !one(m(1.0), lb(1.001e6)));
    assert!(!one(m(-0.001), lb(1.0)) && !one(m(1.0), lb(-1.0)));
    assert!(Readings::new(&[]).is_err());
    assert!(Readings::new(&vec![(m(1.0), kn(1.0)); 10_000]).is_ok());
    assert!(Readings::new(&vec![(m(1.0), kn(1.0)); 10_001]).is_err());
}

/// A proof load: within 5 % of the target it is held, 10 % below it has let go.
#[test]
fn proofs_on_the_edge() {
    let proof = ProofLoad::new(kn(2.0), 1.5).unwrap();
    assert_eq!(proof.target(), kn(3.0));
    // The target is passed between two readings, and the post pulled on: the
    // movement is that at the target, 5 + 5 × 0.1/0.6.
    let past = proof.judge(&readings(&[(5.0, 2.9), (10.0, 3.5), (12.0, 3.4)]));
    let movement = past.movement.unwrap().to(mm);
    assert_relative_eq!(movement, 5.0 + 0.5 / 0.6, max_relative = 1e-9);
    assert_eq!(past.outcome, ProofOutcome::Stood);
    assert_eq!((past.target, past.reached), (kn(3.0), kn(3.5)));
    // Creep at the target, or within 5 % of it, up and down.
    let after = |load: f64| proof.judge(&readings(&[(8.0, 3.0), (20.0, load), (30.0, load)]));
    for (load, movement, outcome) in [
        (3.145, 30.0, ProofOutcome::Stood),
        (3.16, 8.0, ProofOutcome::Stood),
        (2.86, 30.0, ProofOutcome::Stood),
        (2.84, 8.0, ProofOutcome::Stood),
        (2.71, 8.0, ProofOutcome::Stood),
        (2.69, 8.0, ProofOutcome::LetGo),
    ] {
        let judged = after(load);
        assert_relative_eq!(judged.movement.unwrap().to(mm), movement, epsilon = 1e-9);
        assert_eq!(judged.outcome, outcome, "{load}");
    }
    // A load that was low on the way up has not let go.
    let up = proof.judge(&readings(&[(1.0, 0.5), (2.0, 2.0), (8.0, 3.0), (8.1, 3.0)]));
    assert_eq!(up.outcome, ProofOutcome::Stood);
    // Let go, and pulled back up into the band, whether far, at once or above it.
    for let_go in [
        [(5.0, 3.0), (6.0, 0.5), (7.0, 2.9)],
        [(5.0, 3.0), (5.0, 0.5), (7.0, 3.1)],
        [(5.0, 3.2), (6.0, 0.5), (7.0, 3.0)],
        [(5.0, 3.0), (6.0, 2.69), (7.0, 3.0)],
    ] {
        let judged = proof.judge(&readings(&let_go));
        assert_eq!(judged.outcome, ProofOutcome::LetGo);
        // What comes after is no movement under the load.
        assert!(judged.movement.unwrap() <= mm(5.0));
    }
    // As far as allowed and not further.
    let creep = readings(&[(2.0, 3.0), (8.0, 3.0)]);
    let judged = |most: f64| proof.allowing(mm(most)).unwrap().judge(&creep).outcome;
    assert_eq!(judged(8.0), ProofOutcome::Stood);
    assert_eq!(judged(7.999), ProofOutcome::MovedTooFar);
    let names = [
        (ProofOutcome::Stood, "stood"),
        (ProofOutcome::NotReached, "fell before"),
        (ProofOutcome::NotShown, "not shown"),
        (ProofOutcome::MovedTooFar, "moved further"),
        (ProofOutcome::LetGo, "let go"),
    ];
    for (outcome, words) in names {
        let with = names.iter().filter(|(o, _)| o.name().contains(words));
        assert_eq!(with.count(), 1, "{}", outcome.name());
        assert!(outcome.name().contains(words));
    }
    for (multiple, taken) in [(1.0, true), (0.999, false), (3.0, true), (3.001, false)] {
        assert_eq!(ProofLoad::new(kn(1.0), multiple).is_ok(), taken);
    }
    for (load, taken) in [(lb(1.0), true), (lb(0.99), false), (lb(1e6), true)] {
        assert_eq!(ProofLoad::new(load, 1.0).is_ok(), taken);
    }
    assert!(ProofLoad::new(lb(1.01e6), 1.0).is_err());
    assert!(proof.allowing(m(0.0)).is_ok() && proof.allowing(m(10.0)).is_ok());
    assert!(proof.allowing(m(10.01)).is_err() && proof.allowing(m(-0.01)).is_err());
    let cautions = proof.cautions();
    assert!(cautions.contains(Caution::FieldTests) && cautions.contains(Caution::FromMemory));
    assert_eq!(ProofLoad::source(), &source::PROOF_LOAD);
}

/// Welch's interval, by hand: of 10, 12, 14 against 5, 6, 7 the error is
/// √(4/3 + 1/3), ν = (5/3)²/((4/3)²/2 + (1/3)²/2) = 2.94, rounded down 2, t of
/// 97.5 % 4.302 65 as tables print it: 6 ± 5.555. Settled, by either order.
#[test]
fn welch_by_hand() {
    let (first, second) = (sample(&[10.0, 12.0, 14.0]), sample(&[5.0, 6.0, 7.0]));
    let floor = |first, second, confidence| {
        Comparison::between_by(first, second, confidence, WelchFreedom::Floor).unwrap()
    };
    let both = floor(&first, &second, 0.95);
    let half = 4.302_653 * (5.0_f64 / 3.0).sqrt();
    let (low, high) = both.interval.unwrap();
    assert_eq!((both.freedom, both.more_tests), (Some(2.0), Some(0)));
    assert_relative_eq!(both.difference.to(kn), 6.0, max_relative = 1e-12);
    assert_relative_eq!(low.to(kn), 6.0 - half, max_relative = 1e-5);
    assert_relative_eq!(high.to(kn), 6.0 + half, max_relative = 1e-6);
    assert_eq!(both.settled, Settled::FirstHigher);
    let turned = Comparison::between(&second, &first, 0.95).unwrap();
    assert_eq!(turned.settled, Settled::SecondHigher);
    assert_relative_eq!(turned.difference.to(kn), -6.0, max_relative = 1e-12);
    // Equal spreads and numbers: ν is n1 + n2 − 2 exactly.
    let twin = sample(&[11.0, 13.0, 15.0]);
    let equal = floor(&first, &twin, 0.9);
    assert_eq!(
        (equal.freedom, equal.settled),
        (Some(4.0), Settled::NotSettled)
    );
    // How many more: the least n of each at which the difference of 1 is t of
    // 95 % and t of 80 % times its error 2 √(2/n), ν = 2 n − 2.
    let enough = |n: u32| {
        let t = |share: f64| student_quantile(share, 2 * n - 2).unwrap();
        1.0 >= (t(0.95) + t(0.8)) * 2.0 * (2.0 / f64::from(n)).sqrt()
    };
    let n = (3..2_000).find(|n| enough(*n)).unwrap();
    assert_eq!(equal.more_tests, Some(n - 3));
    // The same mean is never told apart.
    let same = Comparison::between(&first, &first, 0.9).unwrap();
    assert_eq!((same.more_tests, same.settled), (None, Settled::NotSettled));
    // No spread in one of them.
    let flat = sample(&[10.0, 10.0, 10.0]);
    let none = Comparison::between(&first, &flat, 0.9).unwrap();
    assert_eq!(
        (none.settled, none.interval, none.freedom),
        (Settled::TooFew, None, None)
    );
    for (confidence, taken) in [(0.5, true), (0.499, false), (0.999, true), (0.999_5, false)] {
        assert_eq!(
            Comparison::between(&first, &twin, confidence).is_ok(),
            taken
        );
    }
}

/// Quantiles of one degree of freedom are those of Cauchy, tan π(p − ½), of two
/// (2p − 1)/√(2p(1 − p)): closed forms. Φ of 0 to 6 as tables print the tail.
#[test]
fn quantiles_in_closed_form() {
    for p in [1e-6, 0.01, 0.3, 0.5, 0.8, 0.975, 1.0 - 1e-6] {
        let one = (core::f64::consts::PI * (p - 0.5)).tan();
        let two = (2.0 * p - 1.0) / (2.0 * p * (1.0 - p)).sqrt();
        let close = |ours: f64, other: f64| (ours - other).abs() <= 1e-8 * (1.0 + other.abs());
        assert!(close(student_quantile(p, 1).unwrap(), one), "{p}");
        assert!(close(student_quantile(p, 2).unwrap(), two), "{p}");
        // The distribution undoes it.
        for freedom in [1, 2, 3, 4, 7, 30] {
            let t = student_quantile(p, freedom).unwrap();
            assert!((student(t, freedom) - p).abs() < 1e-10);
        }
        let z = normal_quantile(p).unwrap();
        assert!((normal(z) - p).abs() < 1e-12);
    }
    let tails = [
        (0.0, 0.5),
        (1.0, 0.158_655_253_931),
        (2.0, 0.022_750_131_948),
        (3.0, 1.349_898_031_6e-3),
        (3.6, 1.591_085_901_6e-4),
        (4.0, 3.167_124_183_3e-5),
        (6.0, 9.865_876_450_4e-10),
    ];
    for (z, tail) in tails {
        assert_relative_eq!(normal(-z), tail, max_relative = 1e-9);
        assert_relative_eq!(normal(z), 1.0 - tail, max_relative = 1e-12);
    }
    assert!(normal(f64::NAN).is_nan());
    assert_eq!((normal(60.0), normal(-60.0)), (1.0, 0.0));
    for (share, taken) in [
        (1e-6, true),
        (9e-7, false),
        (1.0 - 1e-6, true),
        (1.0 - 9e-7, false),
    ] {
        assert_eq!(normal_quantile(share).is_ok(), taken);
        assert_eq!(student_quantile(share, 3).is_ok(), taken);
    }
    assert!(student_quantile(0.9, 0).is_err() && student_quantile(0.9, 10_001).is_err());
    assert!(student_quantile(0.9, 10_000).is_ok());
    let factor = |n, p, c| tolerance_factor(n, p, c).is_ok();
    assert!(factor(3, 0.5, 0.5) && factor(1_000, 0.999, 0.999));
    assert!(!factor(2, 0.9, 0.9) && !factor(1_001, 0.9, 0.9));
    assert!(!factor(5, 0.49, 0.9) && !factor(5, 0.999_1, 0.9));
    assert!(!factor(5, 0.9, 0.49) && !factor(5, 0.9, 0.999_1));
}

/// β of a shaft that begins below the top, through two layers and water: the
/// pull that K tan δ gives is given back.
#[test]
fn beta_of_a_shaft_that_begins_lower() {
    let soil = |weight: f64| {
        let soil = Soil::new(kn_per_cu_m(weight)).unwrap();
        soil.with_friction_angle(deg(30.0)).unwrap()
    };
    let profile = Profile::new(vec![
        Layer::new(m(0.6), soil(17.0)).unwrap(),
        Layer::new(m(3.0), soil(20.0)).unwrap(),
    ])
    .unwrap()
    .with_water_at(m(1.0))
    .unwrap();
    let shaft = Shaft::round(m(0.3), m(1.5), m(0.6)).unwrap();
    // Mean stress from 0.6 to 1.5 m by hand: 10.2 at 0.6, 18.2 at 1.0, and
    // 18.2 + 0.5 (20 − 9.80665) at 1.5.
    let low = 18.2 + 0.5 * (20.0 - 9.806_65);
    let mean = (0.4 * (10.2 + 18.2) / 2.0 + 0.5 * (18.2 + low) / 2.0) / 0.9;
    let force = 0.4 * mean * core::f64::consts::PI * 0.3 * 0.9;
    let pull = AxialPull::new(kn(force + 0.7), shaft, kn(0.7)).unwrap();
    assert_relative_eq!(
        pull.implied_beta(&profile).unwrap(),
        0.4,
        max_relative = 1e-9
    );
    let per_side = (force + 0.7) / (core::f64::consts::PI * 0.3 * 0.9);
    assert_relative_eq!(
        pull.average_bond().pressure().to(kpa),
        per_side,
        max_relative = 1e-9
    );
    assert!(pull.implied_alpha(kpa(1.0)).is_ok() && pull.implied_alpha(kpa(1_000.0)).is_ok());
    assert!(pull.implied_alpha(kpa(0.99)).is_err() && pull.implied_alpha(kpa(1_001.0)).is_err());
    assert!(AxialPull::new(lb(1.0), shaft, lb(1.0)).is_ok());
    assert!(AxialPull::new(lb(0.99), shaft, lb(0.0)).is_err());
    assert!(AxialPull::new(lb(2.0), shaft, lb(2.01)).is_err());
    assert!(AxialPull::new(lb(1.01e6), shaft, lb(0.0)).is_err());
    let nothing = Shaft::round(m(0.3), m(1.0), m(1.0)).unwrap();
    assert_eq!(
        AxialPull::new(lb(9.0), nothing, lb(0.0))
            .unwrap_err()
            .field(),
        "shaft"
    );
}
