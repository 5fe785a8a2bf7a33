//! Characteristic values and statistics: the cases of field_test.csv.

use super::Method;
use crate::field_test::kn;
use crate::vectors::Case;
use approx::assert_relative_eq;
use groundline::field_test::distribution::*;
use groundline::field_test::*;
use groundline::sensitivity::Proportion;
use groundline::units::*;
use groundline::uplift::Shaft;

fn tests(case: &Case) -> Sample<Force> {
    Sample::new(&case.inputs::<Force>("tests")).unwrap()
}

pub(crate) const METHODS: &[Method] = &[
    ("en1990_kn_unknown", "kn, spread of the tests", kn_unknown),
    ("en1990_kn_known", "kn, spread known", kn_known),
    (
        "tolerance_factor_p95_conf75",
        "tolerance factor, 95 % at 75 %",
        tolerance,
    ),
    (
        "tolerance_factor_p95_conf95",
        "tolerance factor, 95 % at 95 %",
        tolerance,
    ),
    ("sample_statistics", "mean and deviation", statistics),
    (
        "characteristic_value_normal",
        "characteristic value, normal",
        normal_value,
    ),
    (
        "characteristic_value_lognormal",
        "characteristic value, lognormal",
        lognormal_value,
    ),
    ("tolerance_limit_conf75", "tolerance limit at 75 %", limit),
    (
        "en1997_static_tests",
        "correlation factors of static tests",
        static_tests,
    ),
    ("average_bond", "average bond", bond),
    ("student_quantile", "quantile of Student's t", student),
    (
        "wilson_interval",
        "interval of a proportion, Wilson",
        wilson,
    ),
];

/// n or so in a row.
fn counts(case: &Case) -> Vec<u32> {
    let values = case.inputs::<Ratio>("n");
    let whole = |v: &Ratio| (1..=1_000).find(|n| f64::from(*n) == v.si()).unwrap();
    values.iter().map(whole).collect()
}

fn kn_unknown(case: &Case) {
    let ours: Vec<_> = counts(case)
        .into_iter()
        .map(|n| kn(n, Spread::OfTheTests))
        .collect();
    case.compare_in_unit("kn", &ours);
}

fn kn_known(case: &Case) {
    let ours: Vec<_> = counts(case)
        .into_iter()
        .map(|n| kn(n, Spread::Known(0.1)))
        .collect();
    case.compare_in_unit("kn", &ours);
    assert_relative_eq!(
        normal_quantile(0.95).unwrap(),
        case.number("z"),
        epsilon = 5e-5
    );
}

fn tolerance(case: &Case) {
    let confidence = if case.method.ends_with("75") {
        0.75
    } else {
        0.95
    };
    let ours: Vec<_> = counts(case)
        .into_iter()
        .map(|n| tolerance_factor(n, 0.95, confidence).unwrap())
        .collect();
    case.compare_in_unit("k", &ours);
}

fn statistics(case: &Case) {
    let sample = tests(case);
    case.compare("mean", sample.mean());
    case.compare("s", sample.deviation().unwrap());
    case.compare_number("V", sample.variation().unwrap());
}

fn normal_value(case: &Case) {
    let factor = case.number("kn");
    // m (1 − k V) with the factor that the row prints.
    let sample = tests(case);
    case.compare("Xk", sample.mean() - sample.deviation().unwrap() * factor);
    let own = tests(case)
        .characteristic(Basis::Normal(Spread::OfTheTests))
        .unwrap();
    // The library's own, with kn not rounded.
    assert_relative_eq!(own.value.to(groundline::units::kn), 9.748, epsilon = 1e-3);
    assert_relative_eq!(own.factor, factor, epsilon = 6e-3);
}

fn lognormal_value(case: &Case) {
    let own = tests(case)
        .characteristic(Basis::Lognormal(Spread::OfTheTests))
        .unwrap();
    // With the printed kn, from the library's by ln X: Y = mY − kn sY.
    let logs: Vec<f64> = case
        .inputs::<Force>("tests")
        .iter()
        .map(|f| f.value.ln())
        .collect();
    let mean = logs.iter().sum::<f64>() / 5.0;
    let slope = (mean - own.value.value.ln()) / own.factor;
    let with_print = Force::from_si((mean - slope * case.number("kn")).exp());
    case.compare("Xk", with_print);
}

fn limit(case: &Case) {
    let own = tests(case).characteristic(Basis::Tolerance(0.75)).unwrap();
    case.compare("X", own.value);
    assert_relative_eq!(own.factor, case.number("k"), epsilon = 5e-4);
}

fn static_tests(case: &Case) {
    let sample = tests(case);
    let (on_mean, on_least) = correlation_factors(sample.tests());
    case.compare("mean_over_xi1", sample.mean() / on_mean);
    case.compare("min_over_xi2", sample.least() / on_least);
    let own = sample.pile_resistance(PileTests::LoadTests);
    assert_relative_eq!(own.by_mean.value, (sample.mean() / on_mean).value);
    assert_relative_eq!(own.by_least.value, (sample.least() / on_least).value);
    case.compare("Rk", own.resistance);
    assert_eq!(sample.tests(), counts(case)[0]);
}

fn bond(case: &Case) {
    let shaft = Shaft::round(case.input("D"), case.input("L"), m(0.0)).unwrap();
    let pull = AxialPull::new(case.input("F"), shaft, newton(0.0)).unwrap();
    case.compare("tau", pull.average_bond().pressure());
}

fn student(case: &Case) {
    case.compare_number(
        "t",
        student_quantile(case.number("p"), counts(case)[0]).unwrap(),
    );
}

fn wilson(case: &Case) {
    let whole = |name: &str| {
        (0..=1_000)
            .find(|n| f64::from(*n) == case.number(name))
            .unwrap()
    };
    let (low, high) = Proportion::new(whole("k"), whole("n")).unwrap().interval();
    case.compare_number("low", low);
    case.compare_number("high", high);
}
