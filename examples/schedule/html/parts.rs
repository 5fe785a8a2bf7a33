//! The parts of the sheet, from the title to the reviewer's block.

use super::super::drawing::Shade;
use super::super::drawing::elevation::RunPicture;
use super::super::rows::{COLUMNS, Cell, Column, dig, in_unit, shown};
use super::super::sheet::Sheet;
use super::escape;
use groundline::caution::Caution;
use groundline::units::{Measurable, Measure, UnitSystem, Volume, cu_yd};

/// Pieces of elevation drawn of one run.
const PIECES: usize = 12;

pub(super) fn head(out: &mut String, sheet: &Sheet<'_>) {
    let job = sheet.job;
    *out += &format!(
        "<header>\n<p class=\"kind\">Post schedule and calculation sheet</p>\n<h1>{}</h1>\n<dl>\n",
        escape(&job.title)
    );
    for (name, value) in &job.details {
        *out += &format!("<div><dt>{name}</dt><dd>{}</dd></div>\n", escape(value));
    }
    *out += &format!(
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
    *out += &format!(
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
        *out +=
            &format!("<li>Failing posts, with the depth each needs ({unit}): {few}{more}.</li>\n");
    }
    let weak = sheet.rows.iter().filter(|row| row.too_weak).count();
    if weak > 0 {
        *out += &format!(
            "<li><b>{} posts are too weak themselves: no depth saves them.</b> Use a stronger post or \
             closer spacing.</li>\n",
            whole("too_weak", weak)
        );
    }
    if let Some(row) = sheet.worst() {
        *out += &format!(
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
        *out += &format!(
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
        *out += &format!("<th scope=\"col\">{}{unit}</th>", column.title);
    }
    *out += "</tr></thead>\n<tbody>\n";
    for row in &sheet.rows {
        let state = if row.failing.is_empty() {
            "passes"
        } else {
            "fails"
        };
        *out += &format!(
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
                    *out += &format!("<td class=\"{}\">{}</td>", column.key, escape(&text));
                }
                Cell::Number(value, shown) => {
                    let number = number(column.key, value, column.unit(system), &(shown + mark));
                    let number = if linked {
                        format!("<a href=\"#post-{}\">{number}</a>", row.number)
                    } else {
                        number
                    };
                    *out += &format!("<td class=\"{} number\">{number}</td>", column.key);
                }
                Cell::Blank => *out += &format!("<td class=\"{} number\">–</td>", column.key),
            }
        }
        *out += "</tr>\n";
    }
    let step = match system {
        UnitSystem::Us => "inch",
        UnitSystem::Si => "10 mm",
    };
    *out += &format!(
        "</tbody>\n</table></div>\n<p class=\"notes\"><b>At</b>: post centre from the start of its \
         run; a corner post ends its run and begins the next. <b>Width carried</b>: tributary, gates \
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

/// What each fill of a hole means.
fn legend(out: &mut String) {
    *out += "<p class=\"legend\">Hole filled by utilization of its post:";
    for (index, (shade, text)) in Shade::ALL.into_iter().enumerate() {
        let id = format!("legend{index}");
        let mut svg = svg::node::element::Element::new("svg");
        use svg::Node;
        svg.assign("xmlns", "http://www.w3.org/2000/svg");
        svg.assign("viewBox", "0 0 26 16");
        svg.assign("class", "key");
        svg.assign("aria-hidden", "true");
        svg.append(super::super::drawing::patterns(&id));
        let swatch = super::super::drawing::rectangle(1.0, 1.0, 24.0, 14.0);
        svg.append(swatch.set("fill", shade.fill(&id)));
        *out += &format!(" <span>{svg} {text}</span>");
    }
    *out += "</p>\n";
}

pub(super) fn elevations(out: &mut String, sheet: &Sheet<'_>) {
    *out += "<section>\n<h2>Elevation, with the wind pressure along each run</h2>\n";
    legend(out);
    *out += &format!(
        "<p class=\"notes\">Pressure on gross area of each run taken alone, gates shut, {}, as positive \
         above its line; each case stands for both directions of the wind. Under each post its \
         utilization and its place along the run. Drawn to different scales along the fence and \
         upwards; holes no narrower than can be seen.</p>\n",
        escape(sheet.level)
    );
    let fence = &sheet.job.fence;
    for (index, run) in fence.runs().iter().enumerate() {
        let picture = RunPicture {
            index,
            run,
            posts: fence.posts(),
            rows: &sheet.rows,
            pressure: sheet.pressures.get(index),
            system: sheet.system(),
        };
        let name = sheet.job.runs.get(index).map_or("", String::as_str);
        let turn = index
            .checked_sub(1)
            .and_then(|before| fence.turn_after(before))
            .map_or(String::new(), |turn| {
                format!(
                    ", turned {} from the run before",
                    groundline::units::show(turn, sheet.system())
                )
            });
        let unit = Measure::Length.symbol(sheet.system());
        *out += &format!(
            "<figure>\n<figcaption>{}: {} {unit} long{turn}</figcaption>\n",
            escape(name),
            shown(run.length(), Measure::Length, sheet.system()),
        );
        let pieces = picture.pieces(PIECES + 1);
        let cut = pieces.len() > PIECES;
        for piece in pieces.into_iter().take(PIECES) {
            *out += &format!("<div class=\"scroll drawing\">{piece}</div>\n");
        }
        if cut {
            *out += "<p class=\"notes\">The run goes on; only its beginning is drawn.</p>\n";
        }
        if let Some(pressure) = sheet.pressures.get(index) {
            let agrees = pressure.sums.iter().all(|sum| sum.agrees());
            *out += &format!(
                "<p class=\"notes\">Sum check: pressure times area and the shear of all posts {}.</p>\n",
                if agrees {
                    "agree in every case"
                } else {
                    "DIFFER: do not use this sheet"
                }
            );
        }
        *out += "</figure>\n";
    }
    *out += "</section>\n";
}

pub(super) fn hole(out: &mut String, sheet: &Sheet<'_>) {
    let Some(picture) = &sheet.hole else { return };
    *out += &format!(
        "<section>\n<h2>Post {} and its hole, the post that governs</h2>\n<figure>\n<div class=\"scroll \
         drawing\">{}</div>\n<figcaption>Left: the post to scale, with the load that is worst for its \
         depth. Middle: lateral bearing of the depth formula, allowed and needed, where it is read. \
         Right: the reaction of the ground on a rigid post whose ground grows stiffer with depth, in \
         equilibrium with the load that is worst for the post, over the embedment that its strength \
         is checked with; it gives the greatest moment in the post and is not the check of the \
         depth.</figcaption>\n</figure>\n</section>\n",
        picture.number,
        picture.draw(sheet.system()),
    );
}

pub(super) fn assumptions(out: &mut String, sheet: &Sheet<'_>) {
    *out += "<section>\n<h2>Assumptions</h2>\n<ul>\n";
    for line in super::super::assumptions::lines(sheet) {
        *out += &format!("<li>{}</li>\n", escape(&line));
    }
    *out += "</ul>\n</section>\n";
}

pub(super) fn inputs(out: &mut String, sheet: &Sheet<'_>) {
    *out += "<section>\n<h2>Inputs as taken</h2>\n<div class=\"scroll\"><table class=\"inputs\">\n<thead><tr>\
             <th scope=\"col\">Field of the job file</th><th scope=\"col\">Value</th><th \
             scope=\"col\">From</th></tr></thead>\n<tbody>\n";
    for echo in &sheet.job.echoes {
        *out += &format!(
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
        *out += &format!("<li>{}</li>\n", escape(caution.text()));
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
        *out += &format!("<tr><th scope=\"row\">{field}</th><td></td></tr>\n");
    }
    *out += "</tbody>\n</table>\n</section>\n";
}
