//! How deep? On one page: required depth over height, wind speed, soil class and
//! hole, as a table on the terminal, a chart (SVG) and a file of numbers (CSV).
//!
//! ```sh
//! cargo run --release --example depth_chart
//! cargo run --release --example depth_chart -- --picture depths.svg --csv depths.csv
//! cargo run --release --example depth_chart -- --units si --post 6x6 --exposure c
//! ```
//!
//! Fence and post are invented; flags change them. Every depth shown was checked
//! forwards: set to it, every post of the fence passes every check.

mod chart;
#[path = "../tall_privacy_fence/one_line.rs"]
#[allow(dead_code, reason = "shared by the examples")]
mod one_line;
mod study;

use clap::{Parser, ValueEnum};
use comfy_table::{Table, presets};
use groundline::ground::SoilClass;
use groundline::units::{Length, Measurable, UnitSystem, Velocity, parse};
use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use study::{Outcome, Study, class_name};

/// Required depth over height, wind, soil and hole, on one page.
///
/// Quantities are typed with their unit; lists are separated by commas.
#[derive(Debug, Parser)]
#[command(name = "depth_chart")]
pub(crate) struct Flags {
    /// Heights of the fence, ascending [default: 3 to 8 ft, or 1 to 2.4 m].
    #[arg(long, value_delimiter = ',', value_parser = read::<Length>, allow_hyphen_values = true)]
    heights: Vec<Length>,
    /// Basic wind speeds of ASCE 7, strength level [default: 100, 115, 130, 150
    /// mph, or 45, 51, 58, 67 m/s].
    #[arg(long, value_delimiter = ',', value_parser = read::<Velocity>, allow_hyphen_values = true)]
    speeds: Vec<Velocity>,
    /// Diameters of the round holes [default: 12, 18, 24 in, or 300, 450, 600 mm].
    #[arg(long, value_delimiter = ',', value_parser = read::<Length>, allow_hyphen_values = true)]
    holes: Vec<Length>,
    /// Classes of soil, IBC Table 1806.2.
    #[arg(long, value_delimiter = ',', default_value = "3,4,5", value_parser = soil_class, allow_hyphen_values = true)]
    soils: Vec<SoilClass>,
    /// Exposure of ASCE 7-22.
    #[arg(long, value_enum, default_value = "b")]
    exposure: ExposureArg,
    /// Greatest spacing of posts [default: 6 ft, or 1.8 m].
    #[arg(long, value_parser = read::<Length>, allow_hyphen_values = true)]
    spacing: Option<Length>,
    /// Length of the straight fence [default: 96 ft, or 28.8 m].
    #[arg(long, value_parser = read::<Length>, allow_hyphen_values = true)]
    length: Option<Length>,
    /// Solid area over gross area of the panel.
    #[arg(long, default_value_t = 1.0, value_parser = share, allow_hyphen_values = true)]
    solidity: f64,
    /// The post: dressed southern pine No. 2, pipe of 50 ksi (2-3/8, 2-7/8, 4 in
    /// across) or Schedule 40 of 30 ksi (3-1/2, 4-1/2, 6-5/8 in across).
    #[arg(long, value_enum, default_value = "pipe-4")]
    post: PostArg,
    /// Double the lateral bearing as for isolated poles (IBC 1806.3.4).
    #[arg(long)]
    isolated_pole: bool,
    /// Where the off-centre case of the wind figure is spread along the fence.
    #[arg(long, value_enum, default_value = "short-runs")]
    case_b: CaseBArg,
    /// Write the chart, with the numbers under it, to this file (SVG).
    #[arg(long)]
    picture: Option<PathBuf>,
    /// Write the numbers to this file (CSV).
    #[arg(long)]
    csv: Option<PathBuf>,
    /// Output units.
    #[arg(long, value_enum, default_value = "us")]
    units: Units,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum ExposureArg {
    B,
    C,
    D,
}

#[derive(Debug, Clone, Copy, PartialEq, ValueEnum)]
enum CaseBArg {
    ShortRuns,
    EveryRun,
    OneBase,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum PostArg {
    #[value(name = "4x4")]
    Timber4,
    #[value(name = "6x6")]
    Timber6,
    #[value(name = "8x8")]
    Timber8,
    #[value(name = "pipe-2-3/8")]
    Pipe2375,
    #[value(name = "pipe-2-7/8")]
    Pipe2875,
    #[value(name = "pipe-4")]
    Pipe4,
    #[value(name = "pipe-3-1/2")]
    Pipe35,
    #[value(name = "pipe-4-1/2")]
    Pipe45,
    #[value(name = "pipe-6-5/8")]
    Pipe6625,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum Units {
    Us,
    Si,
}

fn read<Q: Measurable>(text: &str) -> Result<Q, String> {
    parse(text).map_err(|error| error.to_string())
}

fn soil_class(text: &str) -> Result<SoilClass, String> {
    let number = text.parse().ok();
    number
        .and_then(|number| SoilClass::from_number(number).ok())
        .ok_or("give 1 to 5, the class of material of IBC Table 1806.2".to_owned())
}

fn share(text: &str) -> Result<f64, String> {
    text.parse()
        .map_err(|_| "give a pure number, 0.01 to 1".to_owned())
}

fn main() -> ExitCode {
    one_line::answered(run)
}

fn run(flags: &Flags) -> Result<String, String> {
    let system = match flags.units {
        Units::Us => UnitSystem::Us,
        Units::Si => UnitSystem::Si,
    };
    let study = Study::new(flags, system)?;
    let mut text = page(&study);
    if let Some(path) = &flags.picture {
        let drawing = chart::draw(&study);
        svg::save(path, &drawing).map_err(|error| refusal("--picture", path, error))?;
        let _ = writeln!(text, "Picture written to {}.", path.display());
    }
    if let Some(path) = &flags.csv {
        let numbers = csv_text(&study).map_err(|error| refusal("--csv", path, error))?;
        std::fs::write(path, numbers).map_err(|error| refusal("--csv", path, error))?;
        let _ = writeln!(text, "Numbers written to {}.", path.display());
    }
    Ok(text)
}

fn refusal(flag: &str, path: &Path, error: impl std::fmt::Display) -> String {
    format!("{flag} \"{}\": {error}", path.display())
}

/// The page for a terminal.
fn page(study: &Study) -> String {
    let mut table = Table::new();
    table.load_preset(presets::UTF8_BORDERS_ONLY);
    let mut header = vec![
        "soil class".to_owned(),
        format!("hole, {}", study.size_unit()),
        format!("wind, {}", study.speed_unit()),
    ];
    header.extend(study.heights.iter().map(|h| study.length(*h)));
    table.set_header(header);
    for (row, group) in study.panels.iter().enumerate() {
        for (line, curve) in group.curves.iter().enumerate() {
            // Said once a group; an empty line before each but the first.
            let first = line == 0;
            if first && row > 0 {
                table.add_row([""]);
            }
            let mut cells = vec![
                if first {
                    group.class.number().to_string()
                } else {
                    String::new()
                },
                if first {
                    study.size(group.hole)
                } else {
                    String::new()
                },
                study.speed(curve.speed),
            ];
            cells.extend(curve.cells.iter().map(|cell| study.cell(cell)));
            table.add_row(cells);
        }
    }
    for column in table.column_iter_mut() {
        column.set_cell_alignment(comfy_table::CellAlignment::Right);
    }
    let mut text = format!(
        "HOW DEEP: required depth of post holes in {}, by height of fence in {}\n\n{table}\n\n",
        study.depth_word(),
        study.height_word()
    );
    for line in study.key() {
        let _ = writeln!(text, "{line}");
    }
    text += "\nSoil classes of IBC Table 1806.2\n";
    for class in &study.soils {
        let _ = writeln!(text, "  {}  {}", class.number(), class_name(*class));
    }
    text += "\nAssumptions\n";
    for line in &study.assumptions {
        let _ = writeln!(text, "  - {line}");
    }
    text += "\nCautions\n";
    for caution in study.cautions.iter() {
        let _ = writeln!(text, "  - {caution}");
    }
    text
}

/// The numbers, one a line, after the assumptions and cautions as comments.
fn csv_text(study: &Study) -> Result<String, Box<dyn std::error::Error>> {
    let mut text = String::from(
        "# required depth of post holes; depth is empty where there is none, state says why\n",
    );
    for line in &study.assumptions {
        let _ = writeln!(text, "# assumption: {line}");
    }
    for caution in study.cautions.iter() {
        let _ = writeln!(text, "# caution: {caution}");
    }
    let mut writer = csv::Writer::from_writer(Vec::new());
    let unit = |name: &str, unit: &str| format!("{name}_{}", unit.replace('/', "_per_"));
    writer.write_record([
        "soil_class".to_owned(),
        unit("hole", study.size_unit()),
        unit("speed", study.speed_unit()),
        unit("height", study.length_unit()),
        unit("depth", study.size_unit()),
        "state".to_owned(),
    ])?;
    for panel in &study.panels {
        for curve in &panel.curves {
            for (height, cell) in study.heights.iter().zip(&curve.cells) {
                let depth = match cell {
                    Outcome::Depth(depth) => study.size(*depth),
                    _ => String::new(),
                };
                writer.write_record([
                    panel.class.number().to_string(),
                    study.size(panel.hole),
                    study.speed(curve.speed),
                    study.length(*height),
                    depth,
                    cell.state().to_owned(),
                ])?;
            }
        }
    }
    text += &String::from_utf8(writer.into_inner()?)?;
    Ok(text)
}
