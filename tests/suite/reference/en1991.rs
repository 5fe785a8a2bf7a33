//! EN 1991-1-4: its cases of wind.csv.

use super::Method;
use crate::en1991::{site, terrain};
use crate::vectors::Case;
use approx::assert_relative_eq;
use groundline::units::*;
use groundline::wind::*;

pub(crate) const METHODS: &[Method] = &[
    (
        "en1991_cprob",
        "probability factor, EN 1991-1-4",
        probability,
    ),
    ("en1991_qp", "peak velocity pressure, EN 1991-1-4", peak),
    (
        "en1991_cpnet",
        "cp,net of a wall, EN 1991-1-4",
        net_pressure,
    ),
    (
        "en1991_wall_pressure",
        "pressure on a wall, EN 1991-1-4",
        wall_pressure,
    ),
    ("en1991_signboard", "signboard, EN 1991-1-4", signboard),
];

/// A return period in years as an annual probability.
fn annual(period: &str) -> f64 {
    1.0 / period.trim_end_matches('y').trim().parse::<f64>().unwrap()
}

fn peak(case: &Case) {
    let peaks: Vec<_> = case
        .word("terrain")
        .split(',')
        .map(|numeral| {
            let site = site(case.input("vb"), terrain(numeral));
            PeakPressure::at(&site, case.input("z")).unwrap()
        })
        .collect();
    let all: Vec<Pressure> = peaks.iter().map(PeakPressure::pressure).collect();
    case.compare_all("qp", &all);
    if case.expects("kr") {
        case.compare_number("kr", peaks[0].kr);
        case.compare_number("cr", peaks[0].roughness_factor);
        case.compare("vm", peaks[0].mean_velocity);
        case.compare_number("Iv", peaks[0].turbulence_intensity);
    }
}

fn probability(case: &Case) {
    let p = annual(case.word("T"));
    let factor = probability_factor(p, case.number("K"), case.number("n")).unwrap();
    case.compare_number("cprob", factor);
}

fn net_pressure(case: &Case) {
    let l = if case.has("l_over_h") {
        case.number("l_over_h")
    } else {
        7.0
    };
    let returns = case
        .has("return_over_h")
        .then(|| case.number("return_over_h"));
    let returns = returns.filter(|r| *r > 0.0);
    let cp = cp_net(l, returns, case.number("solidity")).unwrap();
    for (zone, cp) in ["A", "B", "C", "D"].into_iter().zip(cp) {
        case.compare_number(zone, cp);
    }
}

fn wall_pressure(case: &Case) {
    let cprob = probability_factor(annual(case.word("return_period")), 0.2, 0.5).unwrap();
    let base: Length = case.input("base");
    let site = site(case.input("vb0"), terrain(case.word("terrain")))
        .with_probability_factor(cprob)
        .unwrap()
        .standing_on(base)
        .unwrap();
    let height: Length = case.input("h");
    let wall = WallShape::new(case.input("l"), height, m(0.0), 1.0).unwrap();
    let wind = WallWind::new(&site, wall, WallEnds::FREE).unwrap();
    assert_relative_eq!(
        wind.peak_pressure().height.value,
        case.input::<Length>("ze").value
    );
    let strips: Vec<_> = wind.strips(WindCase::Zones(Edge::Start)).collect();
    assert_eq!(strips.len(), 4);
    for (zone, strip) in ["A", "B", "C", "D"].into_iter().zip(strips) {
        case.compare(zone, strip.pressure);
    }
}

/// cf of the force, and the resultant's place by slices.
fn signboard(case: &Case) {
    let (b, h, gap): (Length, Length, Length) =
        (case.input("b"), case.input("h"), case.input("gap"));
    let site = site(case.input("vb0"), terrain(case.word("terrain")));
    let sign = WallWind::new(
        &site,
        WallShape::new(b, h, gap, 1.0).unwrap(),
        WallEnds::FREE,
    );
    let sign = sign.unwrap();
    let off = WindCase::OffCentre(Edge::Start);
    let area = b * (h - gap);
    let total = sign.force(off, m(0.0), b);
    case.compare("cf", total / (sign.peak_pressure().pressure() * area));
    case.compare("ze", sign.peak_pressure().height);
    let slices = 3000;
    let mut turning = 0.0;
    for i in 0..slices {
        let (from, to) = (
            b * (f64::from(i) / f64::from(slices)),
            b * (f64::from(i + 1) / f64::from(slices)),
        );
        turning += sign.force(off, from, to).value * 0.5 * (from + to).value;
    }
    case.compare_number("e_over_b", 0.5 - turning / total.value / b.value);
}
