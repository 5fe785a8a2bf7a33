//! The result at a glance.

use super::super::rows::{State, in_unit, shown};
use super::super::sheet::Sheet;
use super::{escape, number};
use groundline::units::{Measurable, Measure, UnitSystem, Volume, cu_yd};

pub(super) fn at_a_glance(out: &mut String, sheet: &Sheet<'_>) {
    let (posts, failing) = (sheet.rows.len(), sheet.count(State::Fails));
    let count = |n: usize| u32::try_from(n).map_or(f64::INFINITY, f64::from);
    let whole = |key: &str, n: usize| number(key, count(n), "", &n.to_string());
    *out += "<section class=\"glance\" id=\"result\">\n<h2>Result</h2>\n<ul>\n";
    let part = sheet.count(State::CheckedInPart);
    let unplanned = sheet.unplanned();
    put!(
        out,
        "<li><b>{} of {} posts {}.</b></li>\n",
        whole("failing", failing),
        whole("posts", posts),
        match (failing, part, unplanned) {
            (0, 0, 0) => "fail: every post passes as planned or dug",
            (0, ..) => "fail",
            _ => "FAIL as planned or dug",
        }
    );
    if unplanned > 0 {
        put!(
            out,
            "<li><b>{} posts have no planned depth: their ground is not checked.</b> Dig them to the \
             required one.</li>\n",
            whole("unplanned", unplanned)
        );
    }
    let refused = sheet.rows.iter().filter(|row| !row.refused.is_empty());
    let refused = refused.count();
    if refused > 0 {
        put!(
            out,
            "<li><b>Of {} posts a check was asked for and NOT MADE.</b> {} of these pass what could be \
             checked, and do not count as passing. {} posts pass all that was asked.</li>\n",
            whole("refused", refused),
            whole("part", part),
            whole("passing", sheet.count(State::Passes))
        );
    }
    for (what, numbers) in sheet.refusals() {
        put!(
            out,
            "<li class=\"refused\">{} (posts {numbers}).</li>\n",
            escape(&what)
        );
    }
    fails(out, sheet);
    let weak = sheet.rows.iter().filter(|row| row.too_weak).count();
    if weak > 0 {
        put!(
            out,
            "<li><b>{} posts are too weak themselves: increasing the depth does not \
             help.</b></li>\n",
            whole("too_weak", weak)
        );
    }
    if let Some(row) = sheet.worst() {
        put!(
            out,
            "<li>Post {} governs the fence: {}, utilization {} ({}).</li>\n",
            row.number,
            row.governing.name(),
            row.utilization,
            escape(&row.source.to_string())
        );
    }
    quantities(out, sheet);
    *out += "</ul>\n</section>\n";
}

/// What fails of each post, and what would mend it.
fn fails(out: &mut String, sheet: &Sheet<'_>) {
    let system = sheet.system();
    let list: Vec<_> = sheet
        .rows
        .iter()
        .filter(|row| !row.failing.is_empty())
        .collect();
    let few = list
        .iter()
        .take(40)
        .map(|row| format!("post {} {}", row.number, row.needs(system)));
    let more = if list.len() > 40 {
        " and more, see the table"
    } else {
        ""
    };
    let few = few.collect::<Vec<_>>().join("; ");
    if !list.is_empty() {
        put!(out, "<li>What fails: {few}{more}.</li>\n");
    }
    if !sheet.instead.is_empty() {
        let lines: Vec<_> = sheet.instead.iter().map(|line| escape(line)).collect();
        put!(
            out,
            "<li>Single changes with which every check of the failing posts passes: {}.</li>\n",
            lines.join("; ")
        );
    }
    for (remedy, numbers) in sheet.remedies() {
        put!(
            out,
            "<li>Lifted by frost, posts {numbers}: {}.</li>\n",
            escape(&remedy)
        );
    }
}

/// What it takes, in one line each.
fn quantities(out: &mut String, sheet: &Sheet<'_>) {
    let system = sheet.system();
    let planned: Volume = sheet.rows.iter().map(|row| row.concrete).sum();
    let required: Volume = sheet.rows.iter().map(|row| row.concrete_at_required).sum();
    if required > Volume::default() {
        let total = |key: &str, volume: Volume| match system {
            UnitSystem::Us => {
                let value = volume.to(cu_yd);
                number(key, value, "yd³", &format!("{value:.2} yd³"))
            }
            UnitSystem::Si => {
                let value = in_unit(volume, Measure::Volume, system);
                number(key, value, "m³", &format!("{value:.2} m³"))
            }
        };
        put!(
            out,
            "<li>Concrete, net, nothing added for waste or uneven holes: {} as planned or dug, {} to \
             the required depths.</li>\n",
            total("concrete_planned", planned),
            total("concrete_required", required)
        );
    }
    if let Some(fence) = sheet.quantities.iter().find(|all| all.key == "fence") {
        let unit = Measure::Force.symbol(system);
        put!(
            out,
            "<li>To carry: {:.0} bags, {} {unit}{}, for the depths as planned or dug; see \
             Quantities.</li>\n",
            fence.sum.bags,
            shown(fence.sum.carry, Measure::Force, system),
            match system {
                UnitSystem::Us => String::new(),
                // Standard gravity.
                UnitSystem::Si => format!(" ({:.0} kg)", fence.sum.carry.value / 9.806_65),
            }
        );
    }
}
