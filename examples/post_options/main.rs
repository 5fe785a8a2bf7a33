//! One fence, several posts, several ways of setting them: how deep, how hard
//! used, how far it leans, what holds it down, what the crew carries.
//!
//! ```sh
//! cargo run --release --example post_options
//! cargo run --release --example post_options -- --height "8 ft" --units si
//! ```
//!
//! Fence, ground, foam and gravel are invented; flags change some of them.

#[path = "../tall_privacy_fence/one_line.rs"]
#[allow(dead_code, reason = "shared by the examples")]
mod one_line;

use clap::{Parser, ValueEnum};
use comfy_table::{Table, presets};
use groundline::Error;
use groundline::backfill::{Bag, Setting, annulus};
use groundline::caution::{Caution, Cautions};
use groundline::check::PostDesign;
use groundline::combination::Combination;
use groundline::fence::{Fence, FenceRun, Panel, PostKind};
use groundline::foundation::Hole;
use groundline::ground::{Ground, SoilClass};
use groundline::limit_state::AllowableStress;
use groundline::plan::{DepthToDig, FencePlan};
use groundline::post::{
    DesignValues, Grade, Lean, Moisture, PipePost, Post, Sleeve, SleevedPost, Species,
    SteelStrength, TimberPost, Treatment,
};
use groundline::profile::{Profile, Soil, Stiffness};
use groundline::response::{PostModel, Springs};
use groundline::section::{PostSection, Square, Tube};
use groundline::units::{
    FlexuralRigidity, Force, Length, LineLoad, Measurable, Measure, UnitSystem, Velocity, cu_ft,
    deg, inch, ksi, lb, mm, parse, pcf, psf, round_up, show, show_as, show_up,
};
use groundline::uplift::{Friction, HowKnown, PullOut, Shaft, presumptive_friction};
use groundline::wind::{AsceSite, BasicWindSpeed, Edition, Exposure};
use std::fmt::Write as _;
use std::process::ExitCode;

/// One fence, several posts and settings, in one table.
#[derive(Debug, Parser)]
#[command(name = "post_options")]
struct Flags {
    /// Height of the fence.
    #[arg(long, default_value = "6 ft", value_parser = read::<Length>)]
    height: Length,
    /// Length of its straight run.
    #[arg(long, default_value = "240 ft", value_parser = read::<Length>)]
    length: Length,
    /// Spacing of posts.
    #[arg(long, default_value = "6 ft", value_parser = read::<Length>)]
    spacing: Length,
    /// Basic wind speed, ASCE 7-22, exposure B.
    #[arg(long, default_value = "115 mph", value_parser = read::<Velocity>)]
    speed: Velocity,
    /// Waste of fill, a share.
    #[arg(long, default_value_t = 0.1)]
    waste: f64,
    /// Exit with status 1 if any option fails; without it the status is 0 whatever the
    /// verdicts.
    #[arg(long)]
    fail_status: bool,
    /// Units of the report.
    #[arg(long, value_enum, default_value = "us")]
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

/// A post, the hole that goes with it, and E I.
struct Choice {
    name: &'static str,
    post: Post,
    hole: Hole,
    rigidity: FlexuralRigidity,
    weight: LineLoad,
    settings: &'static [Setting],
}

fn main() -> ExitCode {
    let flags = Flags::parse();
    let system = match flags.units {
        Units::Us => UnitSystem::Us,
        Units::Si => UnitSystem::Si,
    };
    match report(&flags, system) {
        Ok((text, fails)) => one_line::printed(&text, u8::from(fails && flags.fail_status)),
        Err(error) => one_line::refuse(&error.in_system(system).to_string()),
    }
}

fn choices() -> Result<Vec<Choice>, Error> {
    const DUG: &[Setting] = &[
        Setting::PouredConcrete,
        Setting::ExpandingFoam,
        Setting::CompactedGravel,
        Setting::TampedSoil,
    ];
    const STEEL: &[Setting] = &[
        Setting::PouredConcrete,
        Setting::ExpandingFoam,
        Setting::CompactedGravel,
        Setting::Driven,
    ];
    const SLEEVED: &[Setting] = &[Setting::PouredConcrete];
    let side = inch(5.5);
    let square = Square::new(side)?;
    let values = DesignValues::of(Species::SouthernPine, Grade::No2, side)?;
    let timber = TimberPost::new(square, values, Moisture::Wet, Treatment::NotIncised)?;
    let steel = SteelStrength::new(ksi(50.0))?;
    let line = Tube::new(inch(2.875), inch(0.160))?;
    let insert = Tube::new(inch(2.375), inch(0.130))?;
    let sleeve = Sleeve::new(inch(5.0), inch(0.135))?;
    // E of steel 29 000 ksi; of the timber 1 200 ksi, from memory. Weights: 490
    // pcf and 38 pcf, common practice, no source.
    let e_steel = ksi(29_000.0);
    Ok(vec![
        Choice {
            name: "6x6 pine",
            post: timber.into(),
            hole: Hole::round(inch(16.0))?,
            rigidity: ksi(1_200.0) * square.second_moment(),
            weight: square.area() * pcf(38.0),
            settings: DUG,
        },
        Choice {
            name: "2-7/8 in pipe",
            post: PipePost::new(line, steel)?.into(),
            hole: Hole::round(inch(12.0))?,
            rigidity: e_steel * line.second_moment(),
            weight: line.area() * pcf(490.0),
            settings: STEEL,
        },
        Choice {
            name: "vinyl on 2-3/8 in pipe",
            post: SleevedPost::new(sleeve, PipePost::new(insert, steel)?.into())?.into(),
            hole: Hole::round(inch(12.0))?,
            rigidity: e_steel * insert.second_moment(),
            weight: insert.area() * pcf(490.0),
            settings: SLEEVED,
        },
    ])
}

/// The report, and whether any option fails.
fn report(flags: &Flags, system: UnitSystem) -> Result<(String, bool), Error> {
    let panel = Panel::new(flags.height)?;
    let fence = Fence::new(FenceRun::new(panel, flags.length, flags.spacing)?);
    let speed = BasicWindSpeed::strength_level(flags.speed)?;
    let site = AsceSite::new(Edition::Asce7_22, speed, Exposure::B);
    let mut table = Table::new();
    table.load_preset(presets::UTF8_BORDERS_ONLY);
    table.set_header([
        "post",
        "set in",
        "depth",
        "ground",
        "post itself",
        "lean",
        "holds down",
        "fill a post",
        "fill a run",
    ]);
    let mut cautions = Cautions::default()
        .with(Caution::Frost)
        .with(Caution::Slope)
        .with(Caution::RetainedSoil)
        .with(Caution::Barrier);
    let (mut posts, mut fails) = (0, false);
    for choice in choices()? {
        for setting in choice.settings {
            let row = option(flags, &site, &fence, &choice, *setting, system)?;
            table.add_row(row.cells);
            posts = row.posts;
            cautions = cautions.and(row.cautions);
            fails |= row.fails;
        }
    }
    let mut out = format!(
        "ONE FENCE, ITS OPTIONS\n\n\
         Fence   {} high, {} long, {posts} posts, solid; wind {} ASCE 7-22 exposure B\n\
         Ground  class 4 of IBC Table 1806.2 (150 psf/ft); for lean and lifting a sand, 30°, \
         115 pcf, stiffness 40 pci; invented\n\n{table}\n\n\
         Wind cases by the zones of the wall figure (off-centre case on short runs only: one reading, \
         ask your engineer).\n\n\
         depth        at which every check of every line post passes, up to the next {}; no depth where \
         none passes\n\
         ground, post used at that depth; the post where its moment is greatest, below grade; \
         over 1.00 it fails\n\
         lean         top at service wind over height, elastic-plastic ground\n\
         holds down   weight at 0.6, and friction where it may be counted without a test\n\
         fill         to carry, {:.0} % waste, every post of the run at the depth of a line post; \
         tamped soil and driving carry nothing\n\
         The sleeve of vinyl counts for nothing; its insert is the post.\n\nCautions\n",
        show(flags.height, system),
        show(flags.length, system),
        show(flags.speed, system),
        show_as(depth_step(system), Measure::SectionLength, system),
        100.0 * flags.waste,
    );
    for caution in cautions.iter() {
        let _ = writeln!(out, "  - {caution}");
    }
    Ok((out, fails))
}

/// Depths are whole numbers of this step.
fn depth_step(system: UnitSystem) -> Length {
    match system {
        UnitSystem::Us => inch(3.0),
        UnitSystem::Si => mm(75.0),
    }
}

/// The row of a post and a setting.
struct Row {
    cells: [String; 9],
    /// Number of posts of the fence.
    posts: usize,
    cautions: Cautions,
    /// Does ground or post fail at the depth of the row?
    fails: bool,
}

/// Checks a post and a setting.
fn option(
    flags: &Flags,
    site: &AsceSite,
    fence: &Fence,
    choice: &Choice,
    setting: Setting,
    system: UnitSystem,
) -> Result<Row, Error> {
    let ground = Ground::presumptive(SoilClass::Class4);
    let design = if setting == Setting::PouredConcrete {
        PostDesign::in_concrete(ground, choice.post, choice.hole)?
    } else {
        PostDesign::bare(ground, choice.post)
    };
    let plan = FencePlan::new(*site, fence.clone(), design);
    let schedule = plan.schedule()?;
    let line = || {
        schedule
            .posts()
            .filter(|post| post.post.kind == PostKind::Line)
    };
    // The depth at which every check of every line post passes, or else the required
    // one, to show what fails there.
    let step = depth_step(system);
    let mut depth = step;
    for post in line() {
        let needed = match schedule.depth_to_dig(post.post.number, step)? {
            DepthToDig::Passes(depth) => depth,
            _ => post.check.required.depth(),
        };
        let needed = round_up(needed, step);
        if needed > depth {
            depth = needed;
        }
    }
    let plan = plan.with_planned_depth(depth);
    let schedule = plan.schedule()?;
    let failing = schedule
        .posts()
        .find(|post| post.post.kind == PostKind::Line && !post.passes_every_check());
    let count = schedule.posts().count();
    let line = || {
        schedule
            .posts()
            .filter(|post| post.post.kind == PostKind::Line)
    };
    let worst = |of: &dyn Fn(&groundline::plan::ScheduledPost<_>) -> f64| {
        line().map(|post| of(&post)).fold(0.0, f64::max)
    };
    let ground_used = worst(&|post| post.check.planned.map_or(0.0, |c| c.utilization().ratio()));
    let post_used = worst(&|post| post.check.strength.worst().ratio());

    // Lean under the worst line post's service load.
    let load = line()
        .map(|post| *post.check.actions())
        .max_by(|a, b| a.moment().abs().value.total_cmp(&b.moment().abs().value));
    let width = design.foundation().bearing_width().width();
    let lean = match load {
        Some(load) => lean(
            flags,
            choice,
            width,
            depth,
            load.shear().abs(),
            load.height(),
        )?,
        None => "no line post".to_owned(),
    };
    let held = holds_down(flags, choice, setting, depth)?;
    let (each, run) = match failing {
        Some(_) => ("no depth".to_owned(), "no depth".to_owned()),
        None => fill(flags, choice, setting, depth, count, system)?,
    };
    let shown = show_up(depth, step, system);
    let shown = match &failing {
        Some(post) => format!("no depth: {} fails at {shown}", post.governing()),
        None => shown.to_string(),
    };
    let cells = [
        choice.name.to_owned(),
        setting.name().to_owned(),
        shown,
        format!("{ground_used:.2}"),
        format!("{post_used:.2}"),
        lean,
        show(held, system).significant(3).to_string(),
        each,
        run,
    ];
    let fails = line().any(|post| !post.passes());
    Ok(Row {
        cells,
        posts: count,
        cautions: setting.cautions(false).and(schedule.cautions()),
        fails,
    })
}

fn profile() -> Result<Profile, Error> {
    let sand = Soil::new(pcf(115.0))?
        .with_friction_angle(deg(30.0))?
        .with_stiffness(Stiffness::growing(groundline::units::lb_per_cu_in(40.0))?)?;
    Profile::uniform(sand)
}

fn lean(
    flags: &Flags,
    choice: &Choice,
    width: Length,
    depth: Length,
    force: Force,
    height: Length,
) -> Result<String, Error> {
    let model = PostModel::new(
        choice.rigidity,
        width,
        depth,
        Springs::elastic_plastic(&profile()?)?,
    )?
    .standing(flags.height)?
    .with_force(height, force)?;
    Ok(match model.solve() {
        Ok(response) => Lean::of_response(&response).map_or(String::new(), |lean| {
            format!("1 in {:.0}", 1.0 / lean.ratio().max(1e-6))
        }),
        Err(Error::NoEquilibrium { .. }) => "goes over".to_owned(),
        Err(other) => return Err(other),
    })
}

/// Weight, and friction where it may be counted without a test.
fn holds_down(
    flags: &Flags,
    choice: &Choice,
    setting: Setting,
    depth: Length,
) -> Result<Force, Error> {
    let post = choice.weight * (depth + flags.height);
    // The top foot is not counted on.
    let top = inch(12.0);
    let round = |size: Length| Shaft::round(size, depth, if top < depth { top } else { depth });
    let (footing, shaft) = match (setting, choice.post.section()) {
        (Setting::PouredConcrete, section) => {
            let volume = annulus(&choice.hole, &section, depth, inch(0.0))?;
            (volume * pcf(145.0), Some(round(choice.hole.size())?))
        }
        (Setting::Driven, PostSection::Tube(tube)) => (lb(0.0), Some(round(tube.diameter())?)),
        _ => (lb(0.0), None),
    };
    let mut pull = PullOut::new(post, footing)?;
    if let Some(shaft) = shaft.filter(|_| setting.credits_friction()) {
        // Class 4 bears 2 000 psf.
        let friction = Friction::Presumptive(presumptive_friction(psf(2_000.0))?);
        pull = pull.with_friction(&profile()?, friction, &shaft, HowKnown::Analysis)?;
    }
    Ok(pull
        .resistance(&Combination::of(AllowableStress::Basic))
        .resistance)
}

/// What the crew carries, a post and the whole run.
fn fill(
    flags: &Flags,
    choice: &Choice,
    setting: Setting,
    depth: Length,
    posts: usize,
    system: UnitSystem,
) -> Result<(String, String), Error> {
    let volume = annulus(&choice.hole, &choice.post.section(), depth, inch(0.0))?;
    let (unit, bag) = match setting {
        Setting::PouredConcrete => ("bags", Bag::lb_80()),
        // A kit that weighs 2.4 lb and rises to 1.6 ft³: invented.
        Setting::ExpandingFoam => ("kits", Bag::given(lb(2.4), cu_ft(1.6))?),
        // Bags of crushed stone, 50 lb for 0.5 ft³: invented.
        Setting::CompactedGravel => ("bags", Bag::given(lb(50.0), cu_ft(0.5))?),
        _ => return Ok(("none".to_owned(), "none".to_owned())),
    };
    let each = bag.count(volume, flags.waste)?;
    #[allow(clippy::cast_precision_loss, reason = "posts of one fence")]
    let run = bag.count(volume * posts as f64, flags.waste)?;
    let tell = |bags: &groundline::backfill::Bags| {
        let mass = match system {
            UnitSystem::Us => format!("{:.0} lb", bags.carry.to(lb)),
            UnitSystem::Si => format!("{:.0} kg", bags.carry.value / 9.806_65),
        };
        format!("{:.0} {unit}, {mass}", bags.buy)
    };
    Ok((tell(&each), tell(&run)))
}
