//! The parts of the sheet, from the title to the reviewer's block.

use super::super::rows::{COLUMNS, Cell, Column, dig, in_unit};
use super::super::sheet::Sheet;
use super::escape;
use groundline::caution::Caution;
use groundline::units::{Measurable, Measure, UnitSystem, Volume, cu_yd};

pub(super) fn head(out: &mut String, sheet: &Sheet<'_>) {
    let job = sheet.job;
    put!(
        out,
        "<header>\n<p class=\"kind\">Post schedule and calculation sheet</p>\n<h1>{}</h1>\n<dl>\n",
        escape(&job.title)
    );
    for (name, value) in &job.details {
        put!(
            out,
            "<div><dt>{name}</dt><dd>{}</dd></div>\n",
            escape(value)
        );
    }
    put!(
        out,
        "<div><dt>Wind</dt><dd>{}, {}</dd></div>\n<div><dt>Computed with</dt><dd>groundline {}</dd></div>\n\
         </dl>\n<p class=\"warning\"><b>For review. Not for construction until signed below.</b> {}</p>\n\
         </header>\n",
        escape(sheet.document),
        escape(sheet.level),
        env!("CARGO_PKG_VERSION"),
        escape(Caution::NoSubstitute.text()),
    );
}

/// A number of the summary, with its value in full.
fn number(key: &str, value: f64, unit: &str, shown: &str) -> String {
    format!(
        "<data class=\"number\" value=\"{value}\" data-field=\"{key}\" data-value=\"{value}\" \
         data-unit=\"{unit}\">{}</data>",
        escape(shown)
    )
}

pub(super) fn result(out: &mut String, sheet: &Sheet<'_>) {
    let (posts, failing) = (sheet.rows.len(), sheet.failing());
    let system = sheet.system();
    let count = |n: usize| u32::try_from(n).map_or(f64::INFINITY, f64::from);
    let whole = |key: &str, n: usize| number(key, count(n), "", &n.to_string());
    *out += "<section class=\"glance\" id=\"result\">\n<h2>Result</h2>\n<ul>\n";
    put!(
        out,
        "<li><b>{} of {} posts {}.</b></li>\n",
        whole("failing", failing),
        whole("posts", posts),
        if failing == 0 {
            "fail: every post passes as planned"
        } else {
            "FAIL as planned or dug"
        }
    );
    if failing > 0 {
        let list: Vec<_> = sheet
            .rows
            .iter()
            .filter(|row| !row.failing.is_empty())
            .collect();
        let few = list
            .iter()
            .take(40)
            .map(|row| format!("{} needs {}", row.number, dig(row.required, system)));
        let unit = Measure::SectionLength.symbol(system);
        let more = if list.len() > 40 {
            " and more, see the table"
        } else {
            ""
        };
        let few = few.collect::<Vec<_>>().join(", ");
        put!(
            out,
            "<li>Failing posts, with the depth each needs ({unit}): {few}{more}.</li>\n"
        );
    }
    let weak = sheet.rows.iter().filter(|row| row.too_weak).count();
    if weak > 0 {
        put!(
            out,
            "<li><b>{} posts are too weak themselves: no depth saves them.</b> Use a stronger post or \
             closer spacing.</li>\n",
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
    *out += "</ul>\n</section>\n";
}

pub(super) fn summary(out: &mut String, sheet: &Sheet<'_>) {
    let system = sheet.system();
    let columns: Vec<&Column> = COLUMNS.iter().filter(|column| column.on_sheet).collect();
    *out += "<section class=\"wide\">\n<h2>Posts</h2>\n<div class=\"scroll\" tabindex=\"0\" \
             role=\"region\" aria-label=\"Table of posts\"><table id=\"summary\">\n<thead><tr>";
    for column in &columns {
        let unit = match column.unit(system) {
            "" => String::new(),
            unit => format!("<br/><small>{unit}</small>"),
        };
        put!(out, "<th scope=\"col\">{}{unit}</th>", column.title);
    }
    *out += "</tr></thead>\n<tbody>\n";
    for row in &sheet.rows {
        let state = if row.failing.is_empty() {
            "passes"
        } else {
            "fails"
        };
        put!(
            out,
            "<tr class=\"{state}\" data-post=\"{}\" data-state=\"{state}\">",
            row.number
        );
        for column in &columns {
            let cell = column.cell(row, system);
            let dug = column.key == "planned" && row.dug.is_some();
            let mark = if dug { "†" } else { "" };
            let linked = column.key == "post" && sheet.governing.iter().any(|g| g.0 == row.number);
            match cell {
                Cell::Text(text) => {
                    put!(out, "<td class=\"{}\">{}</td>", column.key, escape(&text));
                }
                Cell::Number(value, shown) => {
                    let number = number(column.key, value, column.unit(system), &(shown + mark));
                    let number = if linked {
                        format!("<a href=\"#post-{}\">{number}</a>", row.number)
                    } else {
                        number
                    };
                    put!(out, "<td class=\"{} number\">{number}</td>", column.key);
                }
                Cell::Blank => put!(out, "<td class=\"{} number\">–</td>", column.key),
            }
        }
        *out += "</tr>\n";
    }
    let step = match system {
        UnitSystem::Us => "inch",
        UnitSystem::Si => "10 mm",
    };
    put!(
        out,
        "</tbody>\n</table></div>\n<p class=\"notes\"><b>At</b>: post centre from the start of its \
         run; a corner post ends its run and begins the next. <b>Hole</b>: diameter, or side of a square (sq). <b>Width carried</b>: tributary, gates \
         shut, of both runs at a corner. <b>Wind case</b>: the one that asks for the greatest depth; \
         <b>shear</b> and <b>moment</b> at grade in it, allowable-stress level. <b>Required \
         depth</b>: rounded up to the next {step}; * beyond 12 ft, no answer for a fence post. \
         <b>Planned depth</b>: † as dug. <b>Ground</b>, <b>post</b>, <b>base used</b>: demand over \
         capacity of lateral bearing, of the post itself, of vertical bearing; above 1.00 fails. \
         <b>Concrete</b>: net, to the planned depth.</p>\n",
    );
    let noted: Vec<_> = sheet
        .rows
        .iter()
        .filter_map(|row| {
            Some((
                row.number,
                row.dug.as_deref().filter(|note| !note.is_empty())?,
            ))
        })
        .collect();
    if !noted.is_empty() {
        *out += "<p class=\"notes\">Noted when dug: ";
        let notes = noted
            .iter()
            .map(|(number, note)| format!("post {number}: {}", escape(note)));
        *out += &notes.collect::<Vec<_>>().join("; ");
        *out += ".</p>\n";
    }
    *out += "</section>\n";
}

pub(super) fn assumptions(out: &mut String, sheet: &Sheet<'_>) {
    *out += "<section>\n<h2>Assumptions</h2>\n<ul>\n";
    for line in super::super::assumptions::lines(sheet) {
        put!(out, "<li>{}</li>\n", escape(&line));
    }
    *out += "</ul>\n</section>\n";
}

pub(super) fn inputs(out: &mut String, sheet: &Sheet<'_>) {
    *out += "<section>\n<h2>Inputs as taken</h2>\n<div class=\"scroll\"><table class=\"inputs\">\n<thead><tr>\
             <th scope=\"col\">Field of the job file</th><th scope=\"col\">Value</th><th \
             scope=\"col\">From</th></tr></thead>\n<tbody>\n";
    for echo in &sheet.job.echoes {
        put!(
            out,
            "<tr><td>{}</td><td>{}</td><td>{}</td></tr>\n",
            escape(&echo.path),
            escape(&echo.value),
            if echo.given { "the file" } else { "default" }
        );
    }
    *out += "</tbody>\n</table></div>\n</section>\n";
}

pub(super) fn cautions(out: &mut String, sheet: &Sheet<'_>) {
    *out += "<section class=\"cautions\" id=\"cautions\">\n<h2>Cautions</h2>\n<ul>\n";
    for caution in sheet.cautions.iter() {
        put!(out, "<li>{}</li>\n", escape(caution.text()));
    }
    *out += "</ul>\n</section>\n";
}

pub(super) fn review(out: &mut String) {
    *out += "<section class=\"review\" id=\"review\">\n<h2>Review by a licensed engineer</h2>\n<table>\n<tbody>\n";
    for field in [
        "Name",
        "Licence, number and state",
        "Date",
        "Remarks",
        "Signature and seal",
    ] {
        put!(out, "<tr><th scope=\"row\">{field}</th><td></td></tr>\n");
    }
    *out += "</tbody>\n</table>\n</section>\n";
}
