//! What matters? Each input of a planned fence varied alone, then all of them at
//! random.
//!
//! ```sh
//! cargo run --release --example sensitivity
//! cargo run --release --example sensitivity -- --samples 20000 --seed 7 --units si
//! cargo run --release --example sensitivity -- --no-depth
//! cargo run --release --example sensitivity -- --worksheet
//! ```
//!
//! Fence and distributions are invented; flags change the fence. The random numbers
//! come from a seeded generator (ChaCha, eight rounds): the same seed gives the same
//! page. This is no reliability analysis to a code.

#[path = "../tall_privacy_fence/one_line.rs"]
#[allow(dead_code, reason = "shared by the examples")]
mod one_line;

use clap::{Parser, ValueEnum};
use comfy_table::{Table, presets};
use groundline::Error;
use groundline::caution::Cautions;
use groundline::check::PostDesign;
use groundline::fence::{Fence, FenceRun, Gate, Hinges, Panel};
use groundline::foundation::Hole;
use groundline::ground::{Ground, SoilClass};
use groundline::plan::FencePlan;
use groundline::post::{PipePost, SteelStrength};
use groundline::report;
use groundline::section::Tube;
use groundline::sensitivity::{
    Band, Distribution, Effect, Elasticity, Input, Point, Sensitivity, Uncertainty, sensitivity,
    uncertainty,
};
use groundline::units::{
    Length, Measurable, UnitSystem, Velocity, ft, inch, ksi, lb, mph, parse, psf, show,
};
use groundline::wind::{AsceSite, BasicWindSpeed, Edition, Exposure};
use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{Rng, SeedableRng};
use std::fmt::Write as _;
use std::process::ExitCode;

/// What matters: each input alone, then all at random.
#[derive(Debug, Parser)]
#[command(name = "sensitivity")]
struct Flags {
    /// Height of the fence [default: 6 ft].
    #[arg(long, value_parser = read::<Length>, allow_hyphen_values = true)]
    height: Option<Length>,
    /// Greatest spacing of posts [default: 8 ft].
    #[arg(long, value_parser = read::<Length>, allow_hyphen_values = true)]
    spacing: Option<Length>,
    /// Basic wind speed, ASCE 7-22, exposure B [default: 110 mph].
    #[arg(long, value_parser = read::<Velocity>, allow_hyphen_values = true)]
    speed: Option<Velocity>,
    /// Diameter of the holes [default: 14 in].
    #[arg(long, value_parser = read::<Length>, allow_hyphen_values = true)]
    hole: Option<Length>,
    /// Planned depth of the holes [default: 66 in].
    #[arg(long, value_parser = read::<Length>, allow_hyphen_values = true)]
    depth: Option<Length>,
    /// No planned depth: how the required depth moves; nothing at random.
    #[arg(long, conflicts_with = "depth")]
    no_depth: bool,
    /// Share by which each input is varied to each side, 0.001 to 0.5.
    #[arg(long, default_value_t = 0.1, value_parser = band, allow_hyphen_values = true)]
    band: f64,
    /// How many samples, 1 to 1 000 000.
    #[arg(long, default_value_t = 2_000, value_parser = samples, allow_hyphen_values = true)]
    samples: u32,
    /// Seed of the random numbers.
    #[arg(long, default_value_t = 1, value_parser = seed, allow_hyphen_values = true)]
    seed: u64,
    /// Units of the report.
    #[arg(long, value_enum, default_value = "us")]
    units: Units,
    /// Print the worksheets too.
    #[arg(long)]
    worksheet: bool,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum Units {
    Us,
    Si,
}

fn read<Q: Measurable>(text: &str) -> Result<Q, String> {
    parse(text).map_err(|error| error.to_string())
}

fn band(text: &str) -> Result<f64, String> {
    text.parse()
        .map_err(|_| "give a pure number, 0.001 to 0.5".to_owned())
}

fn samples(text: &str) -> Result<u32, String> {
    text.parse()
        .map_err(|_| "give a whole number, 1 to 1000000".to_owned())
}

fn seed(text: &str) -> Result<u64, String> {
    text.parse()
        .map_err(|_| format!("give a whole number, 0 to {}", u64::MAX))
}

/// The flag that a refused field came from.
fn flag(field: &str) -> Option<&'static str> {
    Some(match field {
        "fence height" => "--height",
        "post spacing" => "--spacing",
        "wind speed" => "--speed",
        "hole diameter" | "hole size" => "--hole",
        "depth" => "--depth",
        "band" => "--band",
        "samples" => "--samples",
        _ => return None,
    })
}

fn main() -> ExitCode {
    one_line::answered(|flags: &Flags| {
        let system = match flags.units {
            Units::Us => UnitSystem::Us,
            Units::Si => UnitSystem::Si,
        };
        page(flags, system).map_err(|error| {
            let told = error.in_system(system);
            flag(error.field()).map_or(told.to_string(), |flag| format!("{flag}: {told}"))
        })
    })
}

/// The fence: a straight run with a gate, pipe in concrete, sandy ground.
fn plan(flags: &Flags) -> Result<FencePlan, Error> {
    let panel = Panel::new(flags.height.unwrap_or(ft(6.0)))?
        .with_clearance(inch(2.0))?
        .with_solidity(0.85)?
        .with_weight(psf(3.0))?;
    let gate = Gate::new(ft(40.0), ft(4.0), lb(80.0), Hinges::AtStart)?;
    let run = FenceRun::new(panel, ft(100.0), flags.spacing.unwrap_or(ft(8.0)))?;
    let fence = Fence::new(run.with_gate(gate)?);
    let speed = BasicWindSpeed::strength_level(flags.speed.unwrap_or(mph(110.0)))?;
    let site = AsceSite::new(Edition::Asce7_22, speed, Exposure::B);
    let steel = SteelStrength::new(ksi(50.0))?;
    let pipe = PipePost::new(Tube::new(inch(3.5), inch(0.216))?, steel)?;
    let hole = Hole::round(flags.hole.unwrap_or(inch(14.0)))?;
    let ground = Ground::presumptive(SoilClass::Class4).as_isolated_pole();
    let plan = FencePlan::new(
        site,
        fence,
        PostDesign::in_concrete(ground, pipe.into(), hole)?,
    );
    Ok(if flags.no_depth {
        plan
    } else {
        plan.with_planned_depth(flags.depth.unwrap_or(inch(66.0)))
    })
}

/// Ratios to the plan, invented: what was planned may turn out so.
fn inputs() -> Result<[(Input, Distribution); 6], Error> {
    Ok([
        // The greatest gust of a life, below the speed of the map on the mean.
        (Input::WindSpeed, Distribution::gumbel(0.82, 0.12)?),
        (Input::LateralBearing, Distribution::lognormal(1.3, 0.4)?),
        (Input::PlannedDepth, Distribution::normal(0.98, 0.04)?),
        (Input::HoleSize, Distribution::uniform(0.95, 1.15)?),
        (Input::PostSpacing, Distribution::uniform(0.97, 1.03)?),
        (Input::BendingStrength, Distribution::lognormal(1.1, 0.08)?),
    ])
}

fn page(flags: &Flags, system: UnitSystem) -> Result<String, Error> {
    let plan = plan(flags)?;
    let band = Band::new(flags.band, f64::min(0.001, flags.band))?;
    let found = sensitivity(&plan, band)?;
    let mut text = String::new();
    alone(&found, system, &mut text);
    let mut cautions = found.cautions();
    if flags.worksheet {
        let _ = writeln!(text, "{}", report::text(&found.worksheet(system)));
    }
    if flags.no_depth {
        let _ = writeln!(text, "Nothing at random without a planned depth.\n");
    } else {
        let mut generator = ChaCha8Rng::seed_from_u64(flags.seed);
        // The middle of one of 2^32 equal parts: never 0, never 1.
        let random = || (f64::from(generator.next_u32()) + 0.5) / 4_294_967_296.0;
        let spread = uncertainty(&plan, &inputs()?, flags.samples, random)?;
        at_random(&spread, flags.seed, system, &mut text);
        cautions = cautions.and(spread.cautions());
        if flags.worksheet {
            let _ = writeln!(text, "{}", report::text(&spread.worksheet(system)));
        }
    }
    say(cautions, &mut text);
    Ok(text)
}

/// Each input alone, the greatest influence first.
fn alone(found: &Sensitivity, system: UnitSystem, text: &mut String) {
    let base = &found.base;
    let _ = writeln!(
        text,
        "As planned: utilization {:.3} (load over capacity; up to 1 holds), {} of post {}; greatest \
         depth needed {}, post {}\n",
        base.utilization.ratio(),
        base.governing,
        base.post,
        show(base.depth.depth, system),
        base.depth.post
    );
    let share = 100.0 * found.band.share();
    let mut table = Table::new();
    table.load_preset(presets::UTF8_BORDERS_ONLY);
    table.set_header([
        "input".to_owned(),
        "value".to_owned(),
        "% of u per %".to_owned(),
        "% of depth per %".to_owned(),
        format!("u at −{share:.1} %"),
        format!("u at +{share:.1} %"),
        "what governs".to_owned(),
    ]);
    let ranked = if found.every_depth_planned {
        found.by_influence()
    } else {
        found.by_influence_on_depth()
    };
    for effect in ranked {
        table.add_row([
            effect.input.to_string(),
            effect
                .value
                .map_or("several".to_owned(), |v| v.in_system(system).to_string()),
            effect.elasticity.to_string(),
            effect.depth_elasticity.to_string(),
            end(&effect.low),
            end(&effect.high),
            governs(effect),
        ]);
    }
    let _ = writeln!(text, "{table}");
    for effect in &found.effects {
        if let Some((factor, error)) = effect.refused() {
            let _ = writeln!(
                text,
                "{}, from factor {factor:.3} on: {}",
                effect.input,
                error.in_system(system)
            );
        }
    }
    let _ = writeln!(
        text,
        "u: utilization. % of u per %: by how much it changes when the input grows by 1 %.\n\
         Slopes over ±{} %; where the sides differ: below | above.\n",
        100.0 * found.band.step()
    );
}

fn end(point: &Result<Point, Error>) -> String {
    match point {
        Ok(point) => format!("{:.3}", point.utilization.ratio()),
        Err(_) => "not allowed".to_owned(),
    }
}

fn governs(effect: &Effect) -> String {
    let mut parts: Vec<String> = effect
        .switches()
        .map(|switch| {
            format!(
                "{} of {} to {} of {} at ×{:.2} to {:.2}",
                switch.below.1,
                switch.below.0,
                switch.above.1,
                switch.above.0,
                switch.between.0,
                switch.between.1
            )
        })
        .collect();
    if let Elasticity::OneSided { why, .. } = effect.elasticity {
        parts.push(why.name().to_owned());
    }
    if let Some((least, most)) = effect.slopes_within().filter(|(a, b)| b - a > 0.5) {
        parts.push(format!("slopes {least:+.2} to {most:+.2} over the band"));
    }
    if parts.is_empty() {
        "the same throughout".to_owned()
    } else {
        parts.join("; ")
    }
}

/// All of them at random.
fn at_random(spread: &Uncertainty, seed: u64, system: UnitSystem, text: &mut String) {
    let _ = writeln!(text, "At random, as ratios to the plan (invented):");
    for cut in &spread.inputs {
        let _ = write!(
            text,
            "  {}: {}, mean {:.3}, standard deviation {:.3}",
            cut.input,
            cut.distribution.name(),
            cut.distribution.mean(),
            cut.distribution.deviation()
        );
        let _ = if cut.cut() > 0.0 {
            writeln!(
                text,
                ", cut to {:.3} to {:.3} ({} of it left out)",
                cut.least,
                cut.most,
                if cut.cut() < 1e-6 {
                    "less than a millionth".to_owned()
                } else {
                    format!("{:.4} %", 100.0 * cut.cut())
                }
            )
        } else {
            writeln!(text)
        };
    }
    let _ = writeln!(
        text,
        "{} samples, seed {seed}: {} checked, {} could not be built",
        spread.samples,
        spread.evaluated(),
        spread.not_built
    );
    if let Some(error) = spread.first_refusal {
        let _ = writeln!(text, "  first that could not: {}", error.in_system(system));
    }
    if spread.cut_off() > 1e-6 {
        let _ = writeln!(
            text,
            "  {:.4} % of all that could happen was cut off and is in none of them",
            100.0 * spread.cut_off()
        );
    }
    if let (Some(share), Some(mean)) = (spread.probability(), spread.mean) {
        let (low, high) = share.interval();
        let _ = writeln!(
            text,
            "  fails (utilization above 1): {} of {}, {:.2} % (with 95 % confidence {:.2} to {:.2} %)",
            share.count(),
            share.of(),
            100.0 * share.share(),
            100.0 * low,
            100.0 * high
        );
        let _ = write!(text, "  utilization: mean {mean:.3}");
        for (name, share) in [("5 %", 0.05), ("half", 0.5), ("95 %", 0.95)] {
            if let Ok(value) = spread.quantile(share) {
                let _ = write!(text, ", {name} below {:.3}", value.ratio());
            }
        }
        let _ = writeln!(text);
    }
    for (post, check, count) in spread.governed().into_iter().take(5) {
        let _ = writeln!(text, "  {check} of post {post} governs {count} times");
    }
    let _ = writeln!(text, "This is no reliability analysis to a code.\n");
}

fn say(cautions: Cautions, text: &mut String) {
    let _ = writeln!(text, "Cautions");
    for caution in cautions.iter() {
        let _ = writeln!(text, "  - {caution}");
    }
}
