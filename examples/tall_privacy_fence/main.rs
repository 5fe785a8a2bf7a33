//! The schedule of every post of a tall privacy fence, for an invented site or
//! for the installer's own numbers.
//!
//! ```text
//! cargo run --release --example tall_privacy_fence
//! cargo run --release --example tall_privacy_fence -- --height "6 ft" --speed "120 mph" \
//!     --soil-class 5 --hole "12 in" --planned-depth "30 in" --worksheet 1
//! ```

mod flags;
mod print;

use flags::Flags;
use groundline::caution::Caution;
use groundline::plan::FencePlan;
use groundline::report;
use std::process::ExitCode;

fn main() -> ExitCode {
    flags::one_line::answered_with_status(run)
}

/// The answer and its exit status.
fn run(flags: &Flags) -> Result<(String, u8), String> {
    let system = flags.system();
    let plan = FencePlan::new(flags.site()?, flags.fence()?, flags.design()?)
        .with_planned_depth(flags.planned_depth.value)
        .with_site_checks(flags.site_checks()?);
    let schedule = plan.schedule().map_err(|error| match error.field() {
        "depth" => flags.blame("--planned-depth", &flags.planned_depth.text)(error),
        "lateral bearing" => format!("--one-third-increase with --isolated-pole: {error}"),
        _ => error.in_system(system).to_string(),
    })?;

    let fails = schedule
        .posts()
        .any(|post| !post.passes() || post.site.refusals().next().is_some());
    let status = u8::from(flags.fail_status && fails);
    if let Some(number) = flags.worksheet {
        let post = schedule.post(number).ok_or(format!(
            "--worksheet \"{number}\": give a post number, 1 to {}",
            plan.fence().posts().len()
        ))?;
        let sheet = schedule.worksheet(&post, system);
        let text = if flags.markdown {
            report::markdown(&sheet).to_string()
        } else {
            report::text(&sheet).to_string()
        };
        return Ok((text, status));
    }
    let mut out = print::assumptions(&plan, system);
    if flags.pressures {
        out += &print::pressures(&schedule, system);
        out += "Cautions\n";
        for caution in schedule.wind().cautions().iter() {
            out.extend(["  - ", caution.text(), "\n"]);
        }
        return Ok((out, status));
    }
    out += &print::schedule(&schedule, system);
    out += &print::asked(&schedule, system);
    out += &print::instead(&plan, system)?;
    out += &print::held(&plan, &schedule, system)?;
    out += &print::capacity(&plan, flags, system)?;
    out += &print::rules(&schedule, system)?;
    if let Ok(Some(reading)) = schedule.case_b_on_every_run() {
        out.extend(["\n", &reading.text(system), "\n"]);
    }
    out += "\nCautions\n";
    for caution in schedule.cautions().iter() {
        out.extend(["  - ", caution.text()]);
        if matches!(caution, Caution::CloseSpacing | Caution::RowSpacing) {
            let posts: Vec<_> = schedule
                .posts_with(caution)
                .map(|number| number.to_string())
                .collect();
            out.extend([" Posts ", &posts.join(", "), "."]);
        }
        out += "\n";
    }
    out += "\nThe working of a post, line by line: --worksheet POST. The pressure along\nthe fence: --pressures. All flags: --help.\n";
    Ok((out, status))
}
