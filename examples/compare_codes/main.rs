//! One fence under three codes, side by side.
//!
//! ```sh
//! cargo run --release --example compare_codes
//! cargo run --release --example compare_codes -- --units us --height "6 ft"
//! ```
//!
//! The fence and its wind climate are invented. One climate is told to each
//! code as that code wants to hear it; how, is printed above the table, and why
//! the answers differ below it.

#[path = "../tall_privacy_fence/one_line.rs"]
#[allow(dead_code, reason = "shared by the examples")]
mod one_line;

use clap::{Parser, ValueEnum};
use comfy_table::{CellAlignment, Table, presets};
use groundline::Error;
use groundline::actions::{FenceWind, LoadCase};
use groundline::caution::Cautions;
use groundline::combination::{Combination, Combined, CombinesTo};
use groundline::fence::{Fence, FenceRun, Panel};
use groundline::limit_state::{LimitState, LoadAndResistance, PartialFactor, UltimateCombined};
use groundline::units::{
    Length, Measure, Pressure, Torque, UnitSystem, Velocity, m, parse, show, show_as,
};
use groundline::wind::{
    AsNzsSite, AsceSite, BasicWindSpeed, Edition, EnSite, Exposure, FundamentalSpeed, Infill,
    Member, PeakPressure, RegionalSpeed, Terrain, VelocityPressure, WallWind, WindCode,
};
use std::process::ExitCode;

/// One fence under ASCE 7-22, EN 1991-1-4 and AS/NZS 1170.2.
#[derive(Debug, Parser)]
#[command(name = "compare_codes")]
struct Flags {
    /// Height of the fence.
    #[arg(long, default_value = "2 m", value_parser = length)]
    height: Length,
    /// Length of its one straight run, free at both ends.
    #[arg(long, default_value = "40 m", value_parser = length)]
    length: Length,
    /// Greatest spacing of posts.
    #[arg(long, default_value = "2.5 m", value_parser = length)]
    spacing: Length,
    /// Solid over gross area, 0.8 to 1 (EN 1991-1-4 wants a coefficient from
    /// you below).
    #[arg(long, default_value_t = 1.0)]
    solidity: f64,
    /// 10-minute mean wind speed at 10 m in open country, once in 50 years.
    #[arg(long, default_value = "25 m/s", value_parser = velocity)]
    speed: Velocity,
    /// Output units.
    #[arg(long, value_enum, default_value = "si")]
    units: Units,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum Units {
    Us,
    Si,
}

fn length(text: &str) -> Result<Length, String> {
    parse(text).map_err(|error| error.to_string())
}

fn velocity(text: &str) -> Result<Velocity, String> {
    parse(text).map_err(|error| error.to_string())
}

/// Mz,cat at 3 m and below in terrain category 2. From memory: look it up.
const TERRAIN_HEIGHT_MULTIPLIER: f64 = 0.91;

fn main() -> ExitCode {
    let flags = Flags::parse();
    let system = match flags.units {
        Units::Us => UnitSystem::Us,
        Units::Si => UnitSystem::Si,
    };
    match report(&flags, system) {
        Ok(text) => one_line::printed(&text, 0),
        Err(error) => one_line::refuse(&error.in_system(system).to_string()),
    }
}

/// What one code says of the fence.
struct Column {
    document: &'static str,
    speed: String,
    velocity_pressure: String,
    level: &'static str,
    pressures: [Pressure; 3],
    cases: [&'static str; 3],
    shears: [groundline::units::Force; 3],
    moments: [Torque; 3],
    combined_level: &'static str,
    factor: f64,
    design: [Torque; 3],
    cautions: Cautions,
}

/// The end post, the second, and the one in the middle.
fn looked_at(fence: &Fence) -> [usize; 3] {
    [0, 1, fence.posts().len() / 2]
}

fn column<C: WindCode, To: Combined>(
    code: &C,
    fence: &Fence,
    set: Combination<To>,
    speed: String,
    velocity_pressure: String,
) -> Result<Column, Error>
where
    C::Level: CombinesTo<To>,
{
    let wind = FenceWind::new(code, fence)?;
    let posts = looked_at(fence).map(|index| &fence.posts()[index]);
    let worst: [LoadCase<C::Level>; 3] = posts.map(|post| wind.cases(post)[0]);
    let wall: Option<&WallWind<C>> = wind.runs()[0].alone();
    // The mean pressure over the post's strip in its worst case.
    let pressure = |i: usize| {
        let width = posts[i]
            .arms()
            .map(groundline::fence::Arm::width)
            .sum::<Length>();
        let height = fence.runs()[0].panel().height();
        worst[i].wind.shear() / (width * height)
    };
    Ok(Column {
        document: code.document(),
        speed,
        velocity_pressure,
        level: code.level().name(),
        pressures: [pressure(0), pressure(1), pressure(2)],
        cases: worst.map(|case| code.case_name(case.wind_case)),
        shears: worst.map(|case| case.wind.shear()),
        moments: worst.map(|case| case.wind.moment()),
        combined_level: set.level().name(),
        factor: set.wind(),
        design: worst.map(|case| case.wind.combined(&case.dead, &set).moment()),
        cautions: wind
            .cautions()
            .and(wall.map_or_else(Cautions::default, WallWind::cautions)),
    })
}

/// A gust of the same climate, by the turbulence formula of EN 1991-1-4 at 10 m
/// in terrain II: vb cr √(1 + 7 Iv).
fn gust(speed: FundamentalSpeed) -> Result<Velocity, Error> {
    let peak = PeakPressure::at(&EnSite::new(speed, Terrain::Two), m(10.0))?;
    Ok(peak.mean_velocity * (1.0 + 7.0 * peak.turbulence_intensity).sqrt())
}

fn report(flags: &Flags, system: UnitSystem) -> Result<String, Error> {
    let infill = Infill::given(flags.solidity, Member::Flat)?;
    let panel = Panel::new(flags.height)?.with_infill(infill);
    let fence = Fence::new(FenceRun::new(panel, flags.length, flags.spacing)?);

    let mean = FundamentalSpeed::ten_minute_mean(flags.speed)?;
    let gust = gust(mean)?;
    let strength = gust / 0.6_f64.sqrt();

    let asce = AsceSite::new(
        Edition::Asce7_22,
        BasicWindSpeed::strength_level(strength)?,
        Exposure::C,
    );
    let en = EnSite::new(mean, Terrain::Two);
    let as_nzs = AsNzsSite::new(RegionalSpeed::ultimate(strength)?)
        .with_terrain_height_multiplier(TERRAIN_HEIGHT_MULTIPLIER)?;

    let pressure = |p| show_as(p, Measure::WindPressure, system).to_string();
    let columns = [
        column(
            &asce,
            &fence,
            Combination::of(LoadAndResistance),
            format!(
                "{} gust, strength level",
                show(strength, system).significant(3)
            ),
            {
                let q = VelocityPressure::at(&asce, flags.height)?;
                format!("{}, with Kd", pressure(q.directional().pressure()))
            },
        )?,
        column(
            &en,
            &fence,
            Combination::of(PartialFactor::Structure),
            format!(
                "{} 10-minute mean, 50 years",
                show(mean.speed(), system).significant(3)
            ),
            {
                let peak = PeakPressure::at(&en, flags.height)?;
                format!("{}, qp", pressure(peak.pressure()))
            },
        )?,
        column(
            &as_nzs,
            &fence,
            Combination::of(UltimateCombined),
            format!("{} gust, ultimate", show(strength, system).significant(3)),
            format!("{}, with Mz,cat", pressure(as_nzs.design_pressure())),
        )?,
    ];
    Ok(text(flags, &fence, gust, &columns, system))
}

fn text(
    flags: &Flags,
    fence: &Fence,
    gust: Velocity,
    columns: &[Column; 3],
    system: UnitSystem,
) -> String {
    let numbers = looked_at(fence).map(|index| fence.posts()[index].number);
    let mut table = Table::new();
    table.load_preset(presets::UTF8_BORDERS_ONLY);
    let mut row = |name: String, cell: &dyn Fn(&Column) -> String| {
        let mut cells = vec![name];
        cells.extend(columns.iter().map(cell));
        table.add_row(cells);
    };
    row(String::new(), &|c| c.document.to_owned());
    row("wind speed told".to_owned(), &|c| c.speed.clone());
    row("velocity pressure at the top".to_owned(), &|c| {
        c.velocity_pressure.clone()
    });
    row("its limit state".to_owned(), &|c| c.level.to_owned());
    for (i, number) in numbers.into_iter().enumerate() {
        row(format!("post {number}: worst case"), &|c| {
            c.cases[i].to_owned()
        });
        row("   mean pressure on its strip".to_owned(), &|c| {
            show_as(c.pressures[i], Measure::WindPressure, system)
                .significant(3)
                .to_string()
        });
        row("   shear at grade".to_owned(), &|c| {
            show(c.shears[i], system).significant(3).to_string()
        });
        row("   moment at grade".to_owned(), &|c| {
            show(c.moments[i], system).significant(3).to_string()
        });
    }
    row("combined with dead load as".to_owned(), &|c| {
        c.combined_level.to_owned()
    });
    row("   factor on wind".to_owned(), &|c| {
        format!("{:.2}", c.factor)
    });
    for (i, number) in numbers.into_iter().enumerate() {
        row(format!("post {number}: design moment at grade"), &|c| {
            show(c.design[i], system).significant(3).to_string()
        });
        row("   over that of the first".to_owned(), &|c| {
            format!("{:.2}", (c.design[i] / columns[0].design[i]).value)
        });
    }
    for column in 1..4 {
        if let Some(column) = table.column_mut(column) {
            column.set_cell_alignment(CellAlignment::Right);
        }
    }
    let cautions = columns
        .iter()
        .fold(Cautions::default(), |all, c| all.and(c.cautions));
    let cautions: Vec<_> = cautions.iter().map(|c| format!("  - {c}\n")).collect();
    let cautions = cautions.concat();
    format!(
        "ONE FENCE UNDER THREE CODES\n\n\
         Fence    {} high, {} long, free at both ends, {:.0} % solid, posts at most {} apart; \
         invented\n\
         Climate  {} 10-minute mean at 10 m in open country once in 50 years; open country \
         around.\n         \
         By the turbulence formula of EN 1991-1-4 that is a gust of {}; the strength-level \
         speeds\n         \
         are that over the root of 0.6. Mz,cat {TERRAIN_HEIGHT_MULTIPLIER} is from memory. A real \
         site has its own\n         \
         speed in each code's map: these are for comparison only.\n\n{table}\n\n\
         Why they differ. The codes do not measure the same thing: ASCE 7 and AS/NZS 1170.2 state \
         a rare\n\
         gust that needs no further factor, EN 1991-1-4 a 50-year pressure that EN 1990 multiplies \
         by 1.5. The\n\
         profile near the ground differs: EN 1991-1-4 lets wind fall off below 10 m, ASCE 7 holds \
         the value at\n\
         15 ft (4.6 m) and takes 0.85 for direction and 0.85 for gusts besides. And the figures \
         differ: the steep\n\
         zone at a free end is 0.3 h long to EN 1991-1-4, s to ASCE 7, 2 h to AS/NZS 1170.2; \
         away from the ends\n\
         Case B of ASCE 7, here a linear pressure along the run, is a reading of ours \
         (see EccentricCase).\n\
         Design moments compare the wind side only: resistances go with the code, and mixing them \
         does not compile.\n\n\
         Cautions\n{cautions}",
        show(flags.height, system),
        show(flags.length, system),
        flags.solidity * 100.0,
        show(flags.spacing, system),
        show(flags.speed, system),
        show(gust, system).significant(3),
    )
}
