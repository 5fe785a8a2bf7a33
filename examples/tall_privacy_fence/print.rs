//! The schedule on paper.

use crate::flags::Flags;
use comfy_table::{CellAlignment, Table, presets};
use groundline::backwards::{Search, greatest_wind};
use groundline::check::{Condition, Governing};
use groundline::embedment::{DepthCap, DepthRule};
use groundline::fence::{Arm, Hinges};
use groundline::foundation::{HoleShape, Restraint};
use groundline::plan::{FencePlan, Schedule, ScheduledPost, WindHeld};
use groundline::post::Post;
use groundline::remedies::{RemedyOptions, of_plan};

use groundline::actions::PressurePicture;
use groundline::units::{
    Length, Measurable, Measure, UnitSystem, Volume, cu_ft, cu_yd, inch, mm, show, show_as, show_up,
};
use groundline::wind::{AsceSite, WindCase, WindCode};

/// What the numbers rest on: everything that was computed with.
pub(crate) fn assumptions(plan: &FencePlan, system: UnitSystem) -> String {
    [
        "POSTS OF A FENCE IN THE WIND\n".to_owned(),
        wind(plan, system),
        fence(plan, system),
        ground(plan, system),
        posts(plan, system),
        "Numbers not given by a flag are the example's own, not advice.\n\n".to_owned(),
    ]
    .join("\n")
}

fn wind(plan: &FencePlan, system: UnitSystem) -> String {
    let site = plan.site();
    let elevation = match site.elevation() {
        Some(elevation) => format!("ground at {}", show(elevation, system)),
        None => "Ke 1".to_owned(),
    };
    format!(
        "Wind    {}, {} (strength level), exposure {}, Kzt {}, {elevation}, G {}, Kd 0.85\n        \
         {}; minimum {} as a load case of its own\n        \
         Case B (resultant 0.2 B off centre) as linear pressure along {} (--case-b)",
        site.edition(),
        show(site.speed().speed(), system),
        site.exposure(),
        site.topographic_factor(plan.fence().runs()[0].panel().top()),
        site.gust_factor(),
        site.speed_basis(),
        show(site.minimum_pressure(), system),
        site.options().case_b_text(),
    )
}

fn fence(plan: &FencePlan, system: UnitSystem) -> String {
    let mut lines = Vec::new();
    for (index, run) in plan.fence().runs().iter().enumerate() {
        let panel = run.panel();
        lines.push(format!(
            "{}Run {}: {} long, {} high, {} clear below, {:.0} % solid, {}; posts at most {} apart",
            if index == 0 { "Fence   " } else { "        " },
            index + 1,
            show(run.length(), system),
            show(panel.top(), system),
            show_as(panel.clearance(), Measure::SectionLength, system),
            100.0 * panel.solidity(),
            show(panel.weight(), system),
            show(run.spacing(), system),
        ));
        for gate in run.gates() {
            let hung = match gate.hinges() {
                Hinges::AtStart => "hung at its start",
                Hinges::AtEnd => "hung at its end",
                _ => "two leaves",
            };
            lines.push(format!(
                "        Gate at {}, {} wide, leaf of {}, {hung}",
                show(gate.at(), system),
                show(gate.opening(), system),
                show(gate.leaf_weight(), system),
            ));
        }
        if let Some(turn) = plan.fence().turn_after(index) {
            lines.push(format!("        Turn of {}", show(turn, system)));
        }
    }
    lines.join("\n")
}

fn ground(plan: &FencePlan, system: UnitSystem) -> String {
    let design = plan.design();
    let ground = design.ground();
    let class = match ground.class() {
        Some(class) => format!("IBC class {} ({class}), ", class.number()),
        None => String::new(),
    };
    let doubled = if ground.is_isolated_pole() {
        "doubled as for an isolated pole"
    } else {
        "not doubled"
    };
    let third = if design.combination().level().soil_increase() > 1.0 {
        "raised by a third with 0.78 W"
    } else {
        "no one-third increase, 0.6 W"
    };
    let vertical = match ground.vertical() {
        Some(pressure) => format!("vertical {}", show(pressure, system)),
        None => "vertical not checked".to_owned(),
    };
    let cap = match design.formula().cap() {
        DepthCap::CapReading => "12 ft rule read at d/3",
        _ => "12 ft rule caps the depth",
    };
    format!(
        "Ground  {class}lateral bearing {}, {doubled}, {third}; {vertical}\n        top {} not \
         counted; {cap}",
        show(ground.lateral().per_depth(), system),
        show_as(ground.discounted_top(), Measure::SectionLength, system),
    )
}

fn posts(plan: &FencePlan, system: UnitSystem) -> String {
    let design = plan.design();
    let size = |length| show_as(length, Measure::SectionLength, system);
    let mut note = "";
    let post = match design.post() {
        Post::Timber(post) => {
            let side = post.section().side();
            if side.to(inch) > 3.9 && (side.to(inch).round() - side.to(inch)).abs() < 1e-9 {
                note = "\n        (a round size is often nominal: a dressed 4x4 is 3.5 in, a 6x6 5.5 in)";
            }
            format!(
                "timber {} square, {}, wet, Ci {}",
                size(side),
                post.values().label(),
                post.factors().incising
            )
        }
        Post::Pipe(pipe) => format!(
            "steel pipe {} x {}, Fy {}",
            size(pipe.section().diameter()),
            size(pipe.section().wall()),
            show_as(pipe.steel().yield_strength(), Measure::Stress, system)
        ),
        _ => "as given".to_owned(),
    };
    let hole = match design.foundation().hole() {
        Some(hole) => format!(
            "{} {} hole of poured concrete",
            size(hole.size()),
            if hole.shape() == HoleShape::Square {
                "square"
            } else {
                "round"
            }
        ),
        None => "backfilled without concrete".to_owned(),
    };
    let paved = if design.foundation().restraint() == Restraint::RigidPaving {
        ", held by rigid paving at grade"
    } else {
        ""
    };
    let planned = plan.planned_depth().map_or(String::new(), |depth| {
        format!("; planned {} deep", size(depth))
    });
    format!("Posts   {post}; {hole}{paved}{planned}{note}")
}

/// A depth as it is dug: up to the next inch or centimetre.
fn dig(depth: Length, system: UnitSystem) -> String {
    show_up(depth, dig_step(system), system).to_string()
}

/// The step of depths here.
fn dig_step(system: UnitSystem) -> Length {
    match system {
        UnitSystem::Us => inch(1.0),
        UnitSystem::Si => mm(10.0),
    }
}

/// Single changes that make every failing post pass, or that none does.
pub(crate) fn instead(plan: &FencePlan, system: UnitSystem) -> Result<String, String> {
    let remedies = of_plan(plan, &RemedyOptions::of(system))
        .map_err(|error| error.in_system(system).to_string())?;
    if remedies.failing.is_empty() {
        return Ok(String::new());
    }
    let lines = remedies.lines(system);
    Ok(format!(
        "Single changes with which every check of the failing posts passes\n  - {}\n",
        lines.join("\n  - ")
    ))
}

/// The wind that the fence holds as planned, in one line.
pub(crate) fn held(
    plan: &FencePlan,
    schedule: &Schedule<'_>,
    system: UnitSystem,
) -> Result<String, String> {
    let said = |error: groundline::Error| error.in_system(system).to_string();
    let mut least: Option<(usize, WindHeld)> = None;
    for post in schedule.posts().filter(|post| post.check.planned.is_some()) {
        let Ok(held) = schedule.wind_held(post.post.number) else {
            continue;
        };
        if least.is_none_or(|(_, most)| held.share < most.share) {
            least = Some((post.post.number, held));
        }
    }
    let Some((number, held)) = least else {
        return Ok(String::new());
    };
    let pressure = held.pressure.map_or(String::new(), |pressure| {
        format!(
            ", {} on the area post {number} carries (strength level)",
            show_as(pressure, Measure::WindPressure, system)
        )
    });
    let solution = greatest_wind(plan, Search::speeds()).map_err(said)?;
    let speed = match (solution.answer.value_without_minimum(), &solution.minimum) {
        (Some(speed), Some(minimum)) => format!(
            "{} without the minimum pressure of {}, which governs and fails",
            show(speed, system),
            show_as(minimum.pressure, Measure::WindPressure, system)
        ),
        (Some(speed), None) => show(speed, system).to_string(),
        (None, _) => format!(
            "less than {}, with or without the minimum pressure",
            show(solution.checked_at(), system)
        ),
    };
    Ok(format!(
        "As planned the fence holds {:.0} % of this wind{pressure}; {} of post {number} governs. Basic \
         wind speed held: {speed}.\n",
        (100.0 * held.share).floor(),
        held.governing
    ))
}

/// A volume of concrete as it is ordered.
fn cubic(volume: Volume, system: UnitSystem) -> String {
    match system {
        UnitSystem::Us => format!("{:.2} yd³", volume.to(cu_yd)),
        UnitSystem::Si => show(volume, system).to_string(),
    }
}

/// The table of posts, how to read it, and its totals.
pub(crate) fn schedule(schedule: &Schedule<'_>, system: UnitSystem) -> String {
    let mut table = Table::new();
    table.load_preset(presets::ASCII_MARKDOWN).set_header([
        "post", "kind", "run, at", "carries", "wind", "shear", "moment", "required", "planned",
        "missing", "dig to", "ground", "post", "governs", "concrete",
    ]);
    let mut concrete = Volume::default();
    let (mut count, mut failing, mut without, mut beyond) = (0, 0, 0, 0);
    let mut deepest: Option<(Length, usize)> = None;
    let mut reason: Option<(usize, String)> = None;
    let mut condition: Option<Condition> = None;
    for post in schedule.posts() {
        let check = &post.check;
        let number = post.post.number;
        let (mut depth, mut volume) = (None, Volume::default());
        match schedule.dug(number, dig_step(system)) {
            Ok(Ok(dug)) => {
                let to = dug.check.depth();
                volume = check.design().foundation().concrete_volume(to);
                depth = Some(to);
                if deepest.is_none_or(|(most, _)| to > most) {
                    deepest = Some((to, number));
                }
            }
            Ok(Err(why)) => {
                without += 1;
                reason.get_or_insert((number, why.text(system)));
            }
            Err(error) => {
                without += 1;
                reason.get_or_insert((number, error.in_system(system).to_string()));
            }
        }
        concrete += volume;
        count += 1;
        failing += usize::from(!post.passes());
        condition = condition.or(post.condition().filter(|_| post.passes()));
        beyond += usize::from(check.required.beyond_limit());
        table.add_row(row(&post, depth, volume, system));
    }
    for column in [0, 5, 6, 7, 8, 9, 10, 11, 12, 14] {
        if let Some(column) = table.column_mut(column) {
            column.set_cell_alignment(CellAlignment::Right);
        }
    }
    let deepest = deepest.map_or(String::new(), |(depth, number)| {
        format!(
            " The deepest depth to dig is {} (post {number}).",
            dig(depth, system)
        )
    });
    let weak = reason.map_or(String::new(), |(number, why)| {
        format!(
            "{without} of {count} posts have no depth at which every check passes; first post \
             {number}: {why}.\n"
        )
    });
    let condition = condition.map_or(String::new(), |condition| {
        format!(
            "The others pass {condition} ({}).\n",
            condition.source().clause
        )
    });
    let beyond = if beyond > 0 {
        format!(
            "{beyond} of {count} required depths are beyond 12 ft: use a wider hole or another footing.\n"
        )
    } else {
        String::new()
    };
    let concrete = if concrete > Volume::default() {
        format!(
            "Concrete, net, no waste, to the depths to dig{}: {}.\n",
            if without > 0 {
                format!(", {without} posts without one left out")
            } else {
                String::new()
            },
            cubic(concrete, system)
        )
    } else {
        String::new()
    };
    format!(
        "{table}\n\n\
         carries   tributary width, gates shut; a corner carries both runs\n\
         wind      the load case that requires the greatest depth, and its case of the ASCE 7 \
         wall figure\n\
         shear     at grade in that case, and moment about grade, at allowable-stress level\n\
         required  depth by IBC 1807.3.2, rounded up; * beyond 12 ft, no answer for a fence post\n\
         missing   depth by which the planned depth is less than the required depth\n\
         dig to    the planned depth where every check passes, else the least depth at which every check passes; \
         - none\n\
         ground    utilization of the ground at the planned depth; fails above 1.00\n\
         post      utilization of the post itself, at the required depth: a deeper hole adds none\n\
         governs   the worst check, or every check that fails; concrete is net, to the depth \
         to dig\n\n\
         {failing} of {count} posts fail as planned.{deepest}\n\
         {condition}{weak}{beyond}{concrete}",
    )
}

/// Bags, frost and lean, as far as asked for.
pub(crate) fn asked(schedule: &Schedule<'_>, system: UnitSystem) -> String {
    let mut lines = Vec::new();
    if let Ok(sum) = schedule.materials_to_dig(None, dig_step(system)) {
        let left = if sum.left_out > 0 {
            format!(", {} posts left out", sum.left_out)
        } else {
            String::new()
        };
        if sum.bags > 0.0 {
            lines.push(format!(
                "Bags to the depths to dig{left}, no waste: {} ({} if every post rounds up), {} to \
                 carry.\n",
                sum.least_bags(),
                sum.bags,
                show(sum.carry, system)
            ));
        }
    }
    let posts = || schedule.posts();
    let frost = posts()
        .filter_map(|post| Some((post.post.number, *post.site.frost.done()?)))
        .max_by_key(|(_, frost)| frost.utilization);
    if let Some((number, frost)) = frost {
        lines.push(format!(
            "Frost lifts post {number} with {}, {} holds it: {}.\n",
            show(frost.balance.lifts, system),
            show(frost.balance.holds, system),
            frost.remedy().unwrap_or("it stays")
        ));
    }
    let lean = posts()
        .filter_map(|post| Some((post.post.number, *post.site.lean.done()?)))
        .max_by(|a, b| a.1.ratio.total_cmp(&b.1.ratio));
    if let Some((number, lean)) = lean {
        lines.push(format!(
            "Lean: the top of post {number} moves {} at this wind, 1/{:.0} of its height.\n",
            show_as(lean.lean.total(), Measure::SectionLength, system),
            1.0 / lean.ratio
        ));
    }
    let refused = posts().map(|post| post.site.refusals().count()).sum();
    lines.extend(posts().find_map(|post| {
        let refusal = post.site.refusals().next()?;
        let (number, why) = (post.post.number, refusal.in_system(system));
        Some(match refused {
            1 => format!("NOT CHECKED at post {number}: {why}.\n"),
            _ => format!("NOT CHECKED: {refused} checks, first at post {number}: {why}.\n"),
        })
    }));
    lines.concat()
}

/// The case of the ASCE 7 wall figure.
fn letter(case: WindCase) -> &'static str {
    match case {
        WindCase::Uniform => "A",
        WindCase::OffCentre(_) => "B",
        WindCase::Minimum => "min",
        _ => "C",
    }
}

fn pressures_of_run(
    run: usize,
    table: &Table,
    picture: &PressurePicture,
    site: &AsceSite,
    system: UnitSystem,
) -> String {
    let title = format!(
        "Pressure along run {}, taken alone, gates shut, strength level, on gross area\n{table}",
        run + 1
    );
    let sums = picture.sums.iter().map(|sum| {
        format!(
            "Sum check, {:<13} {:>10} on the strips, {:>10} on the posts: {}",
            match sum.case.edge() {
                Some(edge) => format!("{}, {}", site.case_name(sum.case), edge.name()),
                None => site.case_name(sum.case).to_owned(),
            },
            show(sum.on_strips, system).significant(4).to_string(),
            show(sum.on_posts, system).significant(4).to_string(),
            if sum.agrees() { "agree" } else { "DIFFER" }
        )
    });
    let lines: Vec<_> = std::iter::once(title).chain(sums).collect();
    lines.join("\n") + "\n"
}

/// The pressure along each run, case by case, with its sum check.
pub(crate) fn pressures(schedule: &Schedule<'_>, system: UnitSystem) -> String {
    let wind = schedule.wind();
    let mut out = String::new();
    for run in 0..wind.runs().len() {
        let Some(picture) = wind.picture(run) else {
            continue;
        };
        let mut table = Table::new();
        table.load_preset(presets::UTF8_BORDERS_ONLY);
        table.set_header([
            "case",
            "from",
            "to",
            "Cf",
            "pressure",
            "at its end",
            "clause",
        ]);
        for strip in &picture.strips {
            let pressure = |pressure| {
                show_as(pressure, Measure::WindPressure, system)
                    .significant(3)
                    .to_string()
            };
            table.add_row([
                match strip.case.edge() {
                    Some(edge) => format!("{}, {}", strip.case_name, edge.name()),
                    None => strip.case_name.to_owned(),
                },
                show(strip.from, system).significant(4).to_string(),
                show(strip.to, system).significant(4).to_string(),
                format!("{:.3}", strip.coefficient),
                pressure(strip.pressure),
                pressure(strip.pressure_at_to),
                strip.clause.to_string(),
            ]);
        }
        out.push_str(&pressures_of_run(
            run,
            &table,
            &picture,
            wind.code(),
            system,
        ));
        out.push('\n');
    }
    out
}

fn row(
    post: &ScheduledPost,
    to: Option<Length>,
    concrete: Volume,
    system: UnitSystem,
) -> [String; 15] {
    let check = &post.check;
    let place: Vec<_> = post
        .post
        .arms()
        .map(|arm| format!("{}, {}", arm.run + 1, show(arm.at, system)))
        .collect();
    let width: Length = post.post.arms().map(Arm::width).sum();
    [
        post.post.number.to_string(),
        post.post.kind.name().to_owned(),
        place.join(" / "),
        show(width, system).significant(3).to_string(),
        check.required_case.map_or(String::new(), |case| {
            format!("{}, {}", case.kind.name(), letter(case.wind_case))
        }),
        show(check.actions().shear(), system)
            .significant(3)
            .to_string(),
        show(check.actions().moment(), system)
            .significant(3)
            .to_string(),
        format!(
            "{}{}",
            dig(check.required.depth(), system),
            if check.required.beyond_limit() {
                " *"
            } else {
                ""
            }
        ),
        check.planned.map_or(String::new(), |plan| {
            show_as(plan.depth(), Measure::SectionLength, system).to_string()
        }),
        check
            .missing_depth()
            .map_or(String::new(), |missing| dig(missing, system)),
        to.map_or("-".to_owned(), |depth| dig(depth, system)),
        check
            .planned
            .map_or(String::new(), |plan| plan.utilization().to_string()),
        check.strength.worst().to_string(),
        if post.passes() {
            post.governing().name().to_owned()
        } else {
            let failing: Vec<_> = post.failing().map(Governing::name).collect();
            format!("FAILS: {}", failing.join(", "))
        },
        match system {
            _ if concrete == Volume::default() => "-".to_owned(),
            UnitSystem::Us => format!("{:.1} ft³", concrete.to(cu_ft)),
            UnitSystem::Si => show(concrete, system).significant(3).to_string(),
        },
    ]
}

/// What rules of thumb are worth here.
pub(crate) fn rules(schedule: &Schedule<'_>, system: UnitSystem) -> Result<String, String> {
    let mut out = String::from("\nRules of thumb against IBC 1807.3.2 at this wind\n");
    for rule in DepthRule::ALL {
        let compared = schedule
            .compare(rule)
            .map_err(|error| error.in_system(system).to_string())?;
        let verdict = if compared.failing == 0 {
            "satisfies the formula at every post".to_owned()
        } else {
            format!(
                "does NOT satisfy the formula at {} of {} posts, up to {} missing",
                compared.failing,
                compared.posts,
                dig(compared.missing.unwrap_or_default(), system)
            )
        };
        let line = format!(
            "  {:<36} {:>7}  {verdict}; worst utilization {} (post {})\n      [{}]\n",
            rule.name(),
            show_as(compared.check.depth(), Measure::SectionLength, system).to_string(),
            compared.check.utilization(),
            compared.worst_post,
            rule.source(),
        );
        out += &line;
    }
    out += "  The rules know neither wind nor soil.\n";
    Ok(out)
}

/// What a post set as planned is good for.
pub(crate) fn capacity(
    plan: &FencePlan,
    flags: &Flags,
    system: UnitSystem,
) -> Result<String, String> {
    let Some(depth) = plan.planned_depth() else {
        return Ok(String::new());
    };
    let height = flags.height.value * 0.55;
    let (holds, governing) = plan
        .design()
        .capacity(depth, height)
        .map_err(flags.blame("--planned-depth", &flags.planned_depth.text))?;
    Ok(format!(
        "A post set as planned carries {} at {} above grade, allowable-stress level ({governing} \
         governs).\n",
        show(holds.shear(), system).significant(3),
        show(height, system).significant(3),
    ))
}
