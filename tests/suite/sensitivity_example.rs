//! The example `sensitivity`: what it prints is what the library says of the
//! plan its page describes, built again here.

use super::depth_chart::built;
use groundline::check::PostDesign;
use groundline::fence::{Fence, FenceRun, Gate, Hinges, Panel};
use groundline::foundation::Hole;
use groundline::ground::{Ground, SoilClass};
use groundline::plan::FencePlan;
use groundline::post::{PipePost, SteelStrength};
use groundline::section::Tube;
use groundline::sensitivity::{Band, Distribution, Input, sensitivity, uncertainty};
use groundline::units::{Length, Velocity, ft, inch, ksi, lb, mph, psf};
use groundline::wind::{AsceSite, BasicWindSpeed, Edition, Exposure};
use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{Rng, SeedableRng};
use std::process::{Command, Output};

fn run(arguments: &[&str]) -> Output {
    let mut command = Command::new(built("sensitivity"));
    command.args(arguments).output().unwrap()
}

fn page(arguments: &[&str]) -> String {
    let out = run(arguments);
    let wrong = String::from_utf8_lossy(&out.stderr);
    assert!(out.status.success(), "{arguments:?}: {wrong}");
    String::from_utf8(out.stdout).unwrap()
}

/// The fence of the page without flags, with what the tests change.
fn plan(height: Length, speed: Velocity, hole: Length, depth: Length) -> FencePlan {
    let panel = Panel::new(height).unwrap();
    let panel = panel.with_clearance(inch(2.0)).unwrap();
    let panel = panel.with_solidity(0.85).unwrap();
    let panel = panel.with_weight(psf(3.0)).unwrap();
    let run = FenceRun::new(panel, ft(100.0), ft(8.0)).unwrap();
    let gate = Gate::new(ft(40.0), ft(4.0), lb(80.0), Hinges::AtStart).unwrap();
    let fence = Fence::new(run.with_gate(gate).unwrap());
    let speed = BasicWindSpeed::strength_level(speed).unwrap();
    let site = AsceSite::new(Edition::Asce7_22, speed, Exposure::B);
    let tube = Tube::new(inch(3.5), inch(0.216)).unwrap();
    let pipe = PipePost::new(tube, SteelStrength::new(ksi(50.0)).unwrap()).unwrap();
    let ground = Ground::presumptive(SoilClass::Class4).as_isolated_pole();
    let hole = Hole::round(hole).unwrap();
    let design = PostDesign::in_concrete(ground, pipe.into(), hole).unwrap();
    FencePlan::new(site, fence, design).with_planned_depth(depth)
}

fn base() -> FencePlan {
    plan(ft(6.0), mph(110.0), inch(14.0), inch(66.0))
}

/// The cells of the row of an input.
fn row(page: &str, input: &str) -> Vec<String> {
    let start = format!("│ {input} ");
    let line = page.lines().find(|line| line.starts_with(&start));
    let line = line.unwrap_or_else(|| panic!("no row of {input}"));
    line.trim_matches('│')
        .split("  ")
        .map(str::trim)
        .filter(|cell| !cell.is_empty())
        .map(ToOwned::to_owned)
        .collect()
}

#[test]
fn a_seed_fixes_every_byte_and_another_seed_does_not() {
    let seeded = |seed: &str| page(&["--seed", seed, "--samples", "500"]);
    assert_eq!(seeded("7"), seeded("7"));
    let (one, other) = (seeded("7"), seeded("8"));
    let drawn = |page: &str| {
        page.lines()
            .find(|l| l.contains("utilization: mean"))
            .map(str::to_owned)
    };
    assert_ne!(drawn(&one), drawn(&other));
    // Nothing but what is at random depends on it.
    let alone = |page: &str| page.split_once("At random").unwrap().0.to_owned();
    assert_eq!(alone(&one), alone(&other));
}

#[test]
fn every_row_is_what_the_library_says() {
    let band = Band::new(0.1, 0.001).unwrap();
    let found = sensitivity(&base(), band).unwrap();
    for units in ["us", "si"] {
        let page = page(&["--units", units]);
        let ranked = found.by_influence();
        let mut before = 0;
        for effect in ranked {
            let at = page.find(&format!("│ {} ", effect.input)).unwrap();
            assert!(at > before, "{} is out of order", effect.input);
            before = at;
            let cells = row(&page, effect.input.name());
            assert_eq!(cells[2], effect.elasticity.to_string());
            assert_eq!(cells[3], effect.depth_elasticity.to_string());
            let end = |point: &Result<groundline::sensitivity::Point, _>| {
                format!("{:.3}", point.as_ref().unwrap().utilization.ratio())
            };
            assert_eq!(cells[4..6], [end(&effect.low), end(&effect.high)]);
        }
        let plan = base();
        let worst = plan.schedule().unwrap();
        let worst = worst.posts().map(|p| p.check.utilization.ratio());
        let worst = worst.fold(0.0, f64::max);
        assert!(page.contains(&format!("utilization {worst:.3}")), "{page}");
    }
}

/// Slopes by central differences of fences built anew; derived.
#[test]
fn the_slopes_are_those_of_fences_built_anew() {
    let page = page(&[]);
    let used = |plan: &FencePlan| {
        let schedule = plan.schedule().unwrap();
        let all = schedule.posts().map(|p| p.check.utilization.ratio());
        all.fold(0.0, f64::max)
    };
    for (input, [below, above]) in [
        (
            "planned depth",
            [0.999, 1.001].map(|f| plan(ft(6.0), mph(110.0), inch(14.0), inch(66.0 * f))),
        ),
        (
            "hole size",
            [0.999, 1.001].map(|f| plan(ft(6.0), mph(110.0), inch(14.0 * f), inch(66.0))),
        ),
        (
            "basic wind speed",
            [0.999, 1.001].map(|f| plan(ft(6.0), mph(110.0 * f), inch(14.0), inch(66.0))),
        ),
        (
            "panel height",
            [0.999, 1.001].map(|f| plan(ft(6.0 * f), mph(110.0), inch(14.0), inch(66.0))),
        ),
    ] {
        let slope = (used(&above) / used(&below)).ln() / (1.001_f64 / 0.999).ln();
        let printed = row(&page, input)[2]
            .split(" | ")
            .last()
            .unwrap()
            .parse::<f64>()
            .unwrap();
        assert!(
            (printed - slope).abs() < 0.011,
            "{input}: {printed} {slope}"
        );
    }
    // Pressure grows with the square of the wind speed.
    assert_eq!(row(&page, "basic wind speed")[2], "+2.00");
}

#[test]
fn what_is_random_is_what_the_library_says() {
    let inputs = [
        (Input::WindSpeed, Distribution::gumbel(0.82, 0.12).unwrap()),
        (
            Input::LateralBearing,
            Distribution::lognormal(1.3, 0.4).unwrap(),
        ),
        (
            Input::PlannedDepth,
            Distribution::normal(0.98, 0.04).unwrap(),
        ),
        (Input::HoleSize, Distribution::uniform(0.95, 1.15).unwrap()),
        (
            Input::PostSpacing,
            Distribution::uniform(0.97, 1.03).unwrap(),
        ),
        (
            Input::BendingStrength,
            Distribution::lognormal(1.1, 0.08).unwrap(),
        ),
    ];
    let mut generator = ChaCha8Rng::seed_from_u64(5);
    let random = || (f64::from(generator.next_u32()) + 0.5) / 4_294_967_296.0;
    let spread = uncertainty(&base(), &inputs, 700, random).unwrap();
    let share = spread.probability().unwrap();
    assert!(share.count() > 0 && share.count() < 700);
    let page = page(&["--samples", "700", "--seed", "5"]);
    let (low, high) = share.interval();
    for said in [
        format!("{} of 700, {:.2} %", share.count(), 100.0 * share.share()),
        format!("{:.2} to {:.2} %", 100.0 * low, 100.0 * high),
        format!("mean {:.3}", spread.mean.unwrap()),
        format!("half below {:.3}", spread.quantile(0.5).unwrap().ratio()),
        "no reliability analysis".to_owned(),
    ] {
        assert!(page.contains(&said), "{said} is not in {page}");
    }
    for (_, distribution) in inputs {
        let mean = format!("{}, mean {:.3}", distribution.name(), distribution.mean());
        assert!(page.contains(&mean), "{mean}");
    }
}

#[test]
fn without_a_planned_depth_nothing_is_random() {
    let page = page(&["--no-depth"]);
    assert!(page.contains("Nothing at random"), "{page}");
    assert!(!page.contains("samples, seed"));
}

#[test]
fn nonsense_is_refused_in_one_line_with_flag_value_and_allowed() {
    for (flag, value, allowed) in [
        ("--height", "8", "ft, in"),
        ("--height", "99 ft", "0.5 ft to 40 ft"),
        ("--height", "-8 ft", "0.5 ft to 40 ft"),
        ("--spacing", "0 ft", "1 ft to 40 ft"),
        ("--speed", "10 mph", "40 mph to 300 mph"),
        ("--speed", "1e999 mph", "too large"),
        ("--hole", "1 in", "in to 120 in"),
        ("--depth", "0 in", "0.12 in to 1200000 in"),
        ("--depth", "-5 in", "0.12 in to 1200000 in"),
        ("--band", "0", "0.001 to 0.5"),
        ("--band", "-1", "0.001 to 0.5"),
        ("--band", "NaN", "0.001 to 0.5"),
        ("--band", "wide", "0.001 to 0.5"),
        ("--samples", "0", "1 to 1000000"),
        ("--samples", "2000000", "1 to 1000000"),
        ("--samples", "many", "1 to 1000000"),
        ("--samples", "5000000000", "1 to 1000000"),
        ("--seed", "-1", "0 to 18446744073709551615"),
        ("--units", "both", "us, si"),
        ("--hieght", "", "--height"),
    ] {
        let out = run(&[flag, value]);
        let said = String::from_utf8(out.stderr).unwrap();
        assert_eq!(out.status.code(), Some(2), "{flag} {value}: {said}");
        assert_eq!(said.lines().count(), 1, "{said}");
        for part in [flag, value, allowed] {
            assert!(said.contains(part), "{flag} {value}: {said}");
        }
    }
    let both = run(&["--depth", "9 ft", "--no-depth"]);
    let said = String::from_utf8(both.stderr).unwrap();
    assert!(said.contains("--depth") && said.contains("--no-depth"));
    assert_eq!(said.lines().count(), 1, "{said}");
}
