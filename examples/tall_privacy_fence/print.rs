//! The schedule on paper.

use crate::flags::{CaseBArg, Flags};
use comfy_table::{CellAlignment, Table, presets};
use groundline::embedment::DepthRule;
use groundline::fence::Arm;
use groundline::ground::SoilClass;
use groundline::plan::{FencePlan, Schedule, ScheduledPost};
use groundline::units::{
    Length, Measurable, Measure, UnitSystem, Volume, cu_ft, cu_yd, inch, mm, show, show_as,
};

/// What the numbers rest on.
pub(crate) fn assumptions(flags: &Flags, plan: &FencePlan<'_>, system: UnitSystem) -> String {
    let site = plan.site();
    let size = |length| show_as(length, Measure::SectionLength, system);
    let wind = format!(
        "Wind    {}, {} (strength level), exposure {}, Kzt {}, G {}, Kd 0.85, at least {}\n        \
         Case B (resultant 0.2 B off centre) {}\n",
        site.edition().name(),
        show(site.speed().speed(), system),
        site.exposure().letter(),
        site.topographic_factor(),
        site.gust_factor(),
        show(site.minimum_pressure(), system),
        match flags.case_b {
            CaseBArg::EveryRun =>
                "spread linearly along every run, the safe reading (see --case-b)",
            CaseBArg::ShortRuns => "spread linearly along runs too short for Case C only",
        }
    );
    let lengths: Vec<_> = plan
        .fence()
        .runs()
        .iter()
        .map(|run| show(run.length(), system).to_string())
        .collect();
    let fence = format!(
        "Fence   {} high, {} clear below, {:.0} % solid; runs of {}; posts at most {} apart\n",
        show(flags.height.value, system),
        size(flags.clearance.value),
        100.0 * flags.solidity,
        lengths.join(" and "),
        show(flags.spacing.value, system),
    );
    let soil = match &flags.lateral_bearing {
        Some(bearing) => format!("lateral bearing {}", show(bearing.value, system)),
        None => SoilClass::from_number(flags.soil_class)
            .map(|class| {
                format!(
                    "IBC class {} ({}), lateral bearing {}",
                    class.number(),
                    class.description(),
                    show(class.lateral_bearing().per_depth(), system)
                )
            })
            .unwrap_or_default(),
    };
    let doubled = if flags.isolated_pole {
        "doubled as for an isolated pole"
    } else {
        "not doubled"
    };
    let discounted = if flags.discount_top.value > Length::default() {
        format!(", top {} not counted", size(flags.discount_top.value))
    } else {
        String::new()
    };
    let post = match &flags.pipe {
        Some(pipe) => format!(
            "steel pipe {} x {}, Fy {}",
            size(pipe.value),
            size(flags.pipe_wall.value),
            show_as(flags.pipe_yield.value, Measure::Stress, system)
        ),
        None => format!(
            "timber {} square, {} No.{}",
            size(flags.timber.value),
            flags.species.name(),
            flags.grade
        ),
    };
    let hole = if flags.bare {
        "backfilled without concrete".to_owned()
    } else {
        format!(
            "{} {} hole of poured concrete",
            size(flags.hole.value),
            if flags.square_hole { "square" } else { "round" }
        )
    };
    format!(
        "POSTS OF A SOLID FENCE IN THE WIND\n\n{wind}{fence}\
         Ground  {soil}, {doubled}{discounted}\n\
         Posts   {post}; {hole}; planned {} deep\n\n",
        size(flags.planned_depth.value)
    )
}

/// A depth as it is dug: up to the next inch or centimetre.
fn dig(depth: Length, system: UnitSystem) -> String {
    // A whisker above a mark is that mark.
    match system {
        UnitSystem::Us => format!("{:.0} in", (depth.to(inch) - 1e-6).ceil()),
        UnitSystem::Si => format!("{:.0} mm", 10.0 * ((depth.to(mm) - 1e-4) / 10.0).ceil()),
    }
}

/// The table of posts, how to read it, and its totals.
pub(crate) fn schedule(schedule: &Schedule<'_>, system: UnitSystem) -> String {
    let mut table = Table::new();
    table.load_preset(presets::ASCII_MARKDOWN).set_header([
        "post", "kind", "run, at", "carries", "wind", "shear", "moment", "required", "planned",
        "ground", "strength", "governs", "concrete",
    ]);
    let (mut required, mut planned) = (Volume::default(), Volume::default());
    let (mut count, mut failing) = (0, 0);
    let mut deepest: Option<ScheduledPost> = None;
    for post in schedule.posts() {
        let check = &post.check;
        let volume = |depth| check.design().foundation().concrete_volume(depth);
        let at_required = volume(check.required.depth());
        required += at_required;
        planned += check
            .planned
            .map_or(at_required, |plan| volume(plan.depth()));
        count += 1;
        failing += usize::from(!check.passes());
        if deepest.is_none_or(|d| check.required.depth() > d.check.required.depth()) {
            deepest = Some(post);
        }
        table.add_row(row(&post, at_required, system));
    }
    for column in [0, 5, 6, 7, 8, 9, 10, 12] {
        if let Some(column) = table.column_mut(column) {
            column.set_cell_alignment(CellAlignment::Right);
        }
    }
    let total = |volume: Volume| match system {
        UnitSystem::Us => format!("{:.2} yd³", volume.to(cu_yd)),
        UnitSystem::Si => show(volume, system).to_string(),
    };
    let deepest = deepest.map_or(String::new(), |post| {
        format!(
            " The deepest needed is {} (post {}).",
            dig(post.check.required.depth(), system),
            post.post.number
        )
    });
    format!(
        "{table}\n\n\
         carries   tributary width, gates shut; a corner carries both runs\n\
         wind      the load case that asks for the greatest depth, and its case of the ASCE 7 \
         wall figure\n\
         shear     at grade in that case, and moment about grade, at allowable-stress level\n\
         required  depth by IBC 1807.3.2, rounded up; concrete is net, to that depth, no waste\n\
         ground    utilization of the ground at the planned depth; strength: of the post; a check fails \
         above 1.00\n\n\
         {failing} of {count} posts fail as planned.{deepest}\n\
         Concrete, net: {} to the planned depth, {} to the required depths.\n",
        total(planned),
        total(required)
    )
}

fn row(post: &ScheduledPost, concrete: Volume, system: UnitSystem) -> [String; 13] {
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
        format!("{:.3}", show(width, system)),
        format!(
            "{}, {}",
            check.required_case.kind.name(),
            check.required_case.wind_case.letter()
        ),
        format!("{:.3}", show(check.actions().shear(), system)),
        format!("{:.3}", show(check.actions().moment(), system)),
        dig(check.required.depth(), system),
        check.planned.map_or(String::new(), |plan| {
            show_as(plan.depth(), Measure::SectionLength, system).to_string()
        }),
        check
            .planned
            .map_or(String::new(), |plan| plan.utilization().to_string()),
        check.strength.bending.max(check.strength.shear).to_string(),
        format!(
            "{}{}",
            check.governing.name(),
            if check.passes() { "" } else { ", FAILS" }
        ),
        match system {
            UnitSystem::Us => format!("{:.1} ft³", concrete.to(cu_ft)),
            UnitSystem::Si => format!("{:.3}", show(concrete, system)),
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
                "does NOT satisfy the formula at {} of {} posts",
                compared.failing, compared.posts
            )
        };
        let line = format!(
            "  {:<36} {:>7}  {verdict}; worst utilization {} (post {})\n",
            rule.name(),
            show_as(compared.check.depth(), Measure::SectionLength, system).to_string(),
            compared.check.utilization(),
            compared.worst_post,
        );
        out += &line;
    }
    out += "  (the rules know neither wind nor soil; quoted from a standard and trade guidance)\n";
    Ok(out)
}
