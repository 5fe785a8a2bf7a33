//! One post in the ground: every method beside the others, how far it leans,
//! and a picture.
//!
//! ```sh
//! cargo run --release --example post_in_ground
//! cargo run --release --example post_in_ground -- --picture post.svg
//! ```
//!
//! Ground, post and load are invented; flags change them.

#[path = "../tall_privacy_fence/one_line.rs"]
#[allow(dead_code, reason = "shared by the examples")]
mod one_line;
mod picture;

use clap::{Parser, ValueEnum};
use comfy_table::{Table, presets};
use groundline::Error;
use groundline::actions::GroundlineActions;
use groundline::embedment::PoleFormula;
use groundline::foundation::{BearingWidth, Restraint};
use groundline::ground::{Ground, SoilClass};
use groundline::lateral::NeededDepth;
use groundline::limit_state::AllowableStress;
use groundline::profile::{Profile, Soil, Stiffness};
use groundline::response::{PostModel, Response, Springs};
use groundline::side_by_side::{SideBySide, Verdict};
use groundline::units::{
    Angle, FlexuralRigidity, Force, ForcePerVolume, Length, Measurable, Measure, Pressure, Torque,
    UnitSystem, ft, mm, moment, parse, round_up, show, show_as,
};
use std::fmt::Write as _;
use std::path::PathBuf;
use std::process::ExitCode;

/// A post in the ground by every method, its lean, and a picture.
#[derive(Debug, Parser)]
#[command(name = "post_in_ground")]
struct Flags {
    /// Wind on the post at allowable-stress (service) level.
    #[arg(long, default_value = "1.2 kN", value_parser = read::<Force>)]
    force: Force,
    /// Its height above grade; the fence ends at twice that.
    #[arg(long, default_value = "0.9 m", value_parser = read::<Length>)]
    height: Length,
    /// Weight on the post.
    #[arg(long, default_value = "0.5 kN", value_parser = read::<Force>)]
    weight: Force,
    /// Depth planned.
    #[arg(long, default_value = "1 m", value_parser = read::<Length>)]
    depth: Length,
    /// Width that bears on the ground: the hole of a concrete footing.
    #[arg(long, default_value = "300 mm", value_parser = read::<Length>)]
    width: Length,
    /// Flexural rigidity of the post.
    #[arg(long, default_value = "60 kN·m²", value_parser = read::<FlexuralRigidity>)]
    rigidity: FlexuralRigidity,
    /// Moment at which the post yields.
    #[arg(long, default_value = "4.5 kN·m", value_parser = read::<Torque>)]
    yields_at: Torque,
    /// Ground.
    #[arg(long, value_enum, default_value = "sand")]
    soil: Kind,
    /// Unit weight of the ground.
    #[arg(long, default_value = "18 kN/m³", value_parser = read::<ForcePerVolume>)]
    unit_weight: ForcePerVolume,
    /// Friction angle of sand.
    #[arg(long, default_value = "32 deg", value_parser = read::<Angle>)]
    friction: Angle,
    /// Growth of the stiffness of sand with depth.
    #[arg(long, default_value = "8 MN/m³", value_parser = read::<ForcePerVolume>)]
    growth: ForcePerVolume,
    /// Undrained strength of clay.
    #[arg(long, default_value = "50 kPa", value_parser = read::<Pressure>)]
    strength: Pressure,
    /// Subgrade modulus of clay.
    #[arg(long, default_value = "20 MN/m³", value_parser = read::<ForcePerVolume>)]
    subgrade: ForcePerVolume,
    /// Overall factor for the methods that want one.
    #[arg(long, default_value_t = 1.5)]
    factor: f64,
    /// Write a picture of the post to this file (SVG).
    #[arg(long)]
    picture: Option<PathBuf>,
    /// Output units.
    #[arg(long, value_enum, default_value = "si")]
    units: Units,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum Kind {
    Sand,
    Clay,
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
    let flags = Flags::parse();
    let system = match flags.units {
        Units::Us => UnitSystem::Us,
        Units::Si => UnitSystem::Si,
    };
    let (mut text, response) = match report(&flags, system) {
        Ok(made) => made,
        Err(error) => return one_line::refuse(&error.in_system(system).to_string()),
    };
    if let (Some(path), Some(response)) = (&flags.picture, response) {
        let drawing = picture::draw(&response, flags.width, system);
        if let Err(error) = svg::save(path, &drawing) {
            let message = format!("--picture \"{}\": {error}", path.display());
            return one_line::refuse(&message);
        }
        let _ = writeln!(text, "Picture written to {}.", path.display());
    }
    one_line::printed(&text, 0)
}

fn ground(flags: &Flags) -> Result<(Profile, Ground), Error> {
    let soil = Soil::new(flags.unit_weight)?;
    Ok(match flags.soil {
        Kind::Sand => (
            Profile::uniform(
                soil.with_friction_angle(flags.friction)?
                    .with_stiffness(Stiffness::growing(flags.growth)?)?,
            )?,
            Ground::presumptive(SoilClass::Class4),
        ),
        Kind::Clay => (
            Profile::uniform(
                soil.with_undrained_strength(flags.strength)?
                    .with_stiffness(Stiffness::constant(flags.subgrade)?)?,
            )?,
            Ground::presumptive(SoilClass::Class5),
        ),
    })
}

fn report(flags: &Flags, system: UnitSystem) -> Result<(String, Option<Response>), Error> {
    let (profile, presumptive) = ground(flags)?;
    let load = GroundlineActions::new(
        flags.force,
        moment(flags.force, flags.height),
        flags.weight,
        AllowableStress::Basic,
    )?;
    let code = PoleFormula::new(
        &presumptive,
        BearingWidth::new(flags.width)?,
        Restraint::None,
    );
    let all = SideBySide::new(
        profile.clone(),
        flags.width,
        load,
        flags.depth,
        flags.factor,
    )?
    .with_code(code)
    .yielding_at(flags.yields_at)
    .with_rigidity(flags.rigidity);
    let class = all
        .length_class()?
        .map_or("not known", groundline::lateral::LengthClass::name);

    let top = flags.height * 2.0;
    let post = PostModel::new(
        flags.rigidity,
        flags.width,
        flags.depth,
        Springs::elastic_plastic(&profile)?,
    )?
    .standing(top)?
    .with_wind(Length::default(), top, flags.force / top)?
    .with_axial(flags.weight)?;
    let collapse = post.collapse(100.0)?;
    let (lean, response) = match post.solve() {
        Ok(response) => (lean(&response, collapse, system), Some(response)),
        Err(error) => (error.in_system(system).to_string(), None),
    };

    let mut table = Table::new();
    table.load_preset(presets::UTF8_BORDERS_ONLY);
    table.set_header([
        "method",
        "safety",
        "asks for",
        "used at",
        "greatest moment",
        "gives way",
    ]);
    let mut notes = Vec::new();
    for verdict in all.verdicts() {
        match &verdict.needed {
            Ok(_) => {
                table.add_row(row(&verdict, system));
            }
            Err(why) => notes.push(format!("{}: {}", verdict.method, why.in_system(system))),
        }
    }
    let cautions: Vec<_> = all
        .cautions()
        .iter()
        .map(|c| format!("  - {c}\n"))
        .collect();
    let kind = match flags.soil {
        Kind::Sand => format!("sand, {} friction", show(flags.friction, system)),
        Kind::Clay => format!("clay, undrained {}", show(flags.strength, system)),
    };
    let text = format!(
        "ONE POST BY EVERY METHOD\n\n\
         Load     {} at {} above grade, service level; weight {}\n\
         Post     {} wide in the ground, planned {} deep, EI {}, yields at {}; {class} for its \
         ground\n\
         Ground   {kind}, {}; invented\n\n{table}\n\n\
         asks for        depth by the method's own safety format; they are not mixed\n\
         used at         the planned depth, fails above 1.00\n\
         greatest moment in the post under the load itself\n\
         *               a rigid method on a post that is not short for its ground\n\
         †               5 % less width needs less depth: the neglected top is 1.5 times the width\n\
         UFC 3-220-20    1.5 on dead load, 2.0 on live; wind is taken as live, our reading\n\n\
         Not for this ground:\n  {}\n\n\
         Lean, elastic-plastic springs, wind spread over the fence:\n{lean}\n\n\
         Cautions\n{}",
        show(flags.force, system),
        show(flags.height, system),
        show(flags.weight, system),
        show_as(flags.width, Measure::SectionLength, system),
        show(flags.depth, system),
        show(flags.rigidity, system),
        show(flags.yields_at, system),
        show_as(flags.unit_weight, Measure::UnitWeight, system),
        notes.join("\n  "),
        cautions.concat(),
    );
    Ok((text, response))
}

/// A required depth, never rounded down: up to a hundredth of a foot, or 5 mm.
fn needed_depth(depth: Length, system: UnitSystem) -> String {
    let step = match system {
        UnitSystem::Us => ft(0.01),
        UnitSystem::Si => mm(5.0),
    };
    show(round_up(depth, step), system).to_string()
}

fn row(verdict: &Verdict, system: UnitSystem) -> [String; 6] {
    let needed = match verdict.needed {
        Ok(NeededDepth::Depth(depth)) => needed_depth(depth, system),
        Ok(NeededDepth::PostYields) => "post yields first".to_owned(),
        Ok(NeededDepth::MoreThan(depth)) => format!("over {}", show(depth, system).significant(3)),
        _ => String::new(),
    };
    [
        format!(
            "{}{}",
            verdict.method,
            if verdict.too_flexible == Some(true) {
                " *"
            } else {
                ""
            }
        ),
        verdict.format.to_string(),
        if verdict.narrower_needs_less {
            format!("{needed} †")
        } else {
            needed
        },
        verdict.utilization.map_or(String::new(), |u| u.to_string()),
        verdict.greatest_moment.map_or(String::new(), |m| {
            show(m, system).significant(3).to_string()
        }),
        verdict
            .mode
            .map_or(String::new(), |mode| mode.name().to_owned()),
    ]
}

fn lean(response: &Response, collapse: Option<f64>, system: UnitSystem) -> String {
    let at = response.at_grade();
    let size = |length: Length| {
        show_as(length, Measure::SectionLength, system)
            .significant(3)
            .to_string()
    };
    let greatest = response.greatest_moment();
    let ratio = response.lean_ratio().map_or(String::new(), |ratio| {
        format!(", 1 in {:.0} of the height", 1.0 / ratio.abs().max(1e-9))
    });
    let collapse = match collapse {
        Some(factor) => format!("{factor:.2} times this load"),
        None => "more than 100 times this load".to_owned(),
    };
    format!(
        "  top moves {}{ratio}; at grade {}, rotation {}\n  greatest moment in the post {} at {} below \
         grade\n  collapses at {collapse}",
        size(response.lean()),
        size(at.deflection),
        show(at.rotation, system).significant(3),
        show(greatest.moment, system).significant(3),
        size(greatest.depth),
    )
}
