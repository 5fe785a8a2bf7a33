//! What pulls of two ways of setting a post prove: reads a CSV, prints what
//! each test says, what may be designed with, and whether one way is better.
//!
//! ```sh
//! cargo run --release --example pull_test
//! cargo run --release --example pull_test -- --readings my.csv --picture pulls.svg
//! ```
//!
//! The CSV has a line for each reading: setting, test, pull (`out` along the
//! post, `over` sideways), movement and load with their units. The readings
//! beside this file are invented.

#[path = "../tall_privacy_fence/one_line.rs"]
#[allow(dead_code, reason = "shared by the examples")]
mod one_line;
mod picture;
mod readings;

use clap::{Parser, ValueEnum};
use comfy_table::{Table, presets};
use groundline::Error;
use groundline::caution::{Caution, Cautions};
use groundline::field_test::{
    AxialPull, Basis, Comparison, Gauge, PeakKind, ProofLoad, ProofOutcome, Sample, SidePull,
    proved_share,
};
use groundline::units::{
    FlexuralRigidity, Force, Length, Measurable, Measure, Pressure, UnitSystem, parse, show,
    show_as,
};
use groundline::uplift::Shaft;
use readings::{Pull, Test, residual};
use std::fmt::Write as _;
use std::path::PathBuf;
use std::process::ExitCode;

/// What pull-out and side-pull tests of two settings prove.
#[derive(Debug, Parser)]
#[command(name = "pull_test")]
struct Flags {
    /// Readings.
    #[arg(long, default_value = concat!(env!("CARGO_MANIFEST_DIR"), "/examples/pull_test/readings.csv"))]
    readings: PathBuf,
    /// Diameter of the hole, which is what slides in the ground.
    #[arg(long, default_value = "250 mm", value_parser = read::<Length>)]
    hole: Length,
    /// Depth of the posts.
    #[arg(long, default_value = "0.8 m", value_parser = read::<Length>)]
    depth: Length,
    /// Weight of what comes up.
    #[arg(long, default_value = "0.9 kN", value_parser = read::<Force>)]
    weight: Force,
    /// Height of the side pulls.
    #[arg(long, default_value = "1.2 m", value_parser = read::<Length>)]
    height: Length,
    /// Flexural rigidity of the posts.
    #[arg(long, default_value = "95 kN·m²", value_parser = read::<FlexuralRigidity>)]
    rigidity: FlexuralRigidity,
    /// Service load each post must carry sideways, proved at 1.5 times.
    #[arg(long, default_value = "1.2 kN", value_parser = read::<Force>)]
    service: Force,
    /// Movement allowed at the proof load.
    #[arg(long, default_value = "75 mm", value_parser = read::<Length>)]
    allowed: Length,
    /// Confidence of the comparison.
    #[arg(long, default_value_t = 0.95)]
    confidence: f64,
    /// Draw load against movement here (SVG).
    #[arg(long)]
    picture: Option<PathBuf>,
    /// Units of the report.
    #[arg(long, value_enum, default_value = "si")]
    units: Units,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum Units {
    Us,
    Si,
}

fn read<Q: Measurable>(text: &str) -> Result<Q, String> {
    parse(text).map_err(|error| error.to_string())
}

fn main() -> ExitCode {
    match run(&Flags::parse()) {
        Ok(text) => one_line::printed(&text, 0),
        Err(message) => one_line::refuse(&message),
    }
}

fn run(flags: &Flags) -> Result<String, String> {
    let system = match flags.units {
        Units::Us => UnitSystem::Us,
        Units::Si => UnitSystem::Si,
    };
    let tests = readings::from_csv(&flags.readings)?;
    let mut text = report(flags, &tests, system).map_err(|e| e.in_system(system).to_string())?;
    if let Some(path) = &flags.picture {
        let drawing = picture::draw(&tests, system);
        svg::save(path, &drawing)
            .map_err(|error| format!("--picture \"{}\": {error}", path.display()))?;
        let _ = writeln!(text, "Picture written to {}.", path.display());
    }
    Ok(text)
}

fn report(flags: &Flags, tests: &[Test], system: UnitSystem) -> Result<String, Error> {
    let mut out = format!(
        "PULL TESTS\n\n{} tests; hole {}, depth {}. What the readings are, is for whoever took \
         them to say; those shipped are invented.\n",
        tests.len(),
        show_as(flags.hole, Measure::SectionLength, system),
        show(flags.depth, system),
    );
    for pull in [Pull::Out, Pull::Over] {
        let these: Vec<&Test> = tests.iter().filter(|test| test.pull == pull).collect();
        if these.is_empty() {
            continue;
        }
        let _ = writeln!(out, "\n{}\n", pull.title());
        let _ = writeln!(out, "{}", table(flags, &these, pull, system)?);
        settings(flags, &these, pull, system, &mut out)?;
    }
    let cautions = Cautions::default()
        .with(Caution::BuriedUtilities)
        .with(Caution::FieldTests)
        .with_if(
            tests
                .iter()
                .any(|test| test.readings.peak().kind == PeakKind::AtLeast),
            Caution::StoppedPulls,
        )
        .with(Caution::FromMemory);
    let _ = writeln!(out, "\nCautions");
    for caution in cautions.iter() {
        let _ = writeln!(out, "  - {caution}");
    }
    Ok(out)
}

/// Each test by itself.
fn table(flags: &Flags, tests: &[&Test], pull: Pull, system: UnitSystem) -> Result<Table, Error> {
    let mut table = Table::new();
    table.load_preset(presets::UTF8_BORDERS_ONLY);
    let last = match pull {
        Pull::Out => ["bond, average", "friction, less weight"],
        Pull::Over => ["nh, to half the peak", "proof"],
    };
    table.set_header(
        ["setting", "test", "peak", "at", "knee at"]
            .into_iter()
            .chain(last),
    );
    let shaft = Shaft::round(flags.hole, flags.depth, Length::default())?;
    for test in tests {
        let peak = test.readings.peak();
        let knee = test.readings.knee().map_or("none".to_owned(), |knee| {
            show(knee.load, system).significant(3).to_string()
        });
        let tail = match pull {
            Pull::Out => {
                let axial = AxialPull::of(&test.readings, shaft, flags.weight)?;
                [axial.average_bond().pressure(), axial.friction()]
                    .map(|stress| at_least(axial.kind(), stress, system))
            }
            Pull::Over => {
                let side = side(flags, test)?;
                let proof = ProofLoad::new(flags.service, 1.5)?.allowing(flags.allowed)?;
                let ground = match side.growing_stiffness(0.5) {
                    Ok(ground) => format!(
                        "{}, off by {}",
                        show_as(ground.value, Measure::UnitWeight, system).significant(3),
                        residual(ground.residual, system)
                    ),
                    Err(why) => why.in_system(system).to_string(),
                };
                [
                    ground,
                    proof.judge(&test.readings).outcome.name().to_owned(),
                ]
            }
        };
        table.add_row(
            [
                test.setting.clone(),
                test.name.clone(),
                at_least(peak.kind, peak.load, system),
                show_as(peak.movement, Measure::SectionLength, system)
                    .significant(3)
                    .to_string(),
                knee,
            ]
            .into_iter()
            .chain(tail),
        );
    }
    Ok(table)
}

/// A value with three digits, marked where it is a lower bound.
fn at_least<Q: Measurable>(kind: PeakKind, value: Q, system: UnitSystem) -> String {
    let bound = if kind == PeakKind::AtLeast {
        "at least "
    } else {
        ""
    };
    format!("{bound}{}", show(value, system).significant(3))
}

fn side(flags: &Flags, test: &Test) -> Result<SidePull, Error> {
    SidePull::new(
        flags.rigidity,
        flags.hole,
        flags.depth,
        flags.height,
        Gauge::Load,
        test.readings.clone(),
    )
}

/// What the tests of each setting say together, and one against the other.
fn settings(
    flags: &Flags,
    tests: &[&Test],
    pull: Pull,
    system: UnitSystem,
    out: &mut String,
) -> Result<(), Error> {
    // Tests of a setting stand together.
    let mut names: Vec<&str> = tests.iter().map(|test| test.setting.as_str()).collect();
    names.dedup();
    let mut samples = Vec::new();
    for name in &names {
        let of: Vec<(Force, PeakKind)> = tests
            .iter()
            .filter(|test| test.setting == *name)
            .map(|test| test.readings.peak())
            .map(|peak| (peak.load, peak.kind))
            .collect();
        let sample = Sample::with_kinds(&of)?;
        let spread = sample
            .variation()
            .map_or("not known".to_owned(), |v| format!("{:.1} %", 100.0 * v));
        let _ = writeln!(
            out,
            "{name}: {} tests, mean {}, spread {spread}",
            sample.tests(),
            show(sample.mean(), system).significant(3)
        );
        if sample.at_least() > 0 {
            let _ = writeln!(
                out,
                "  {} of them stopped at the greatest load: the mean is a lower bound, the \
                 spread may be greater",
                sample.at_least()
            );
        }
        if pull == Pull::Over {
            proved(flags, tests, name, system, out)?;
        }
        for basis in Basis::OF_TESTS {
            let found = match sample.characteristic(basis) {
                Ok(value) => show(value.value, system).significant(3).to_string(),
                Err(why) => why.in_system(system).to_string(),
            };
            let _ = writeln!(out, "  {found:<10} {basis}");
        }
        samples.push(sample);
    }
    if let ([first, second], [one, other]) = (names.as_slice(), samples.as_slice()) {
        let both = Comparison::between(one, other, flags.confidence)?;
        let _ = write!(
            out,
            "{first} less {second}: {}",
            show(both.difference, system).significant(3)
        );
        if let Some((low, high)) = both.interval {
            let _ = write!(
                out,
                ", between {} and {} at {:.0} %",
                show(low, system).significant(3),
                show(high, system).significant(3),
                100.0 * flags.confidence
            );
        }
        let _ = writeln!(out, ": {}", both.settled.name());
        match both.more_tests {
            Some(0) => {}
            Some(more) => {
                let _ = writeln!(
                    out,
                    "  some {more} more of each would settle it four times in five, if means and \
                     spreads stay"
                );
            }
            None => {
                let _ = writeln!(out, "  how many more would settle it cannot be said");
            }
        }
    }
    if pull == Pull::Out {
        bond(flags, tests, &names, system, out)?;
    }
    Ok(())
}

/// What the proof loads of a setting prove.
fn proved(
    flags: &Flags,
    tests: &[&Test],
    name: &str,
    system: UnitSystem,
    out: &mut String,
) -> Result<(), Error> {
    let proof = ProofLoad::new(flags.service, 1.5)?.allowing(flags.allowed)?;
    let of = || tests.iter().filter(|test| test.setting == name);
    let judged = |test: &&&Test| proof.judge(&test.readings).outcome == ProofOutcome::Stood;
    let (all, stood) = (of().count(), of().filter(judged).count());
    let load = show(proof.target(), system).significant(3);
    let _ = match u32::try_from(stood) {
        Ok(number) if number > 0 && stood == all => writeln!(
            out,
            "  {stood} of {all} stood {load}: at least {:.0} % of posts hold it, at 95 % confidence",
            100.0 * proved_share(number, 0.95)?
        ),
        _ => writeln!(
            out,
            "  {stood} of {all} stood {load}: no share of posts is proved"
        ),
    };
    Ok(())
}

/// The friction that design may take.
fn bond(
    flags: &Flags,
    tests: &[&Test],
    names: &[&str],
    system: UnitSystem,
    out: &mut String,
) -> Result<(), Error> {
    let shaft = Shaft::round(flags.hole, flags.depth, Length::default())?;
    for name in names {
        let mut stresses: Vec<(Pressure, PeakKind)> = Vec::new();
        for test in tests.iter().filter(|test| test.setting == *name) {
            let axial = AxialPull::of(&test.readings, shaft, flags.weight)?;
            stresses.push((axial.friction(), axial.kind()));
        }
        let sample = Sample::with_kinds(&stresses)?;
        let _ = match sample.characteristic(Basis::default()) {
            Ok(value) => writeln!(
                out,
                "{name}: friction to design with {}, before a factor of 2 (uplift, by tests): {}",
                show(value.value, system).significant(3),
                value.basis
            ),
            Err(why) => writeln!(
                out,
                "{name}: no friction to design with: {}",
                why.in_system(system)
            ),
        };
    }
    Ok(())
}
