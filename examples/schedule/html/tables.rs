//! The tables of posts, and of what the fence takes.

use super::super::columns::{COLUMNS, Cell, Column, NOT_CHECKED, Place};
use super::super::rows::{Row, in_unit, shown};
use super::super::sheet::Sheet;
use super::{escape, number};
use groundline::units::{Length, Measure, UnitSystem};

fn header(out: &mut String, columns: &[&Column], system: UnitSystem) {
    *out += "<thead><tr>";
    for column in columns {
        let unit = match column.unit(system) {
            "" => String::new(),
            unit => format!("<br/><small>{unit}</small>"),
        };
        put!(out, "<th scope=\"col\">{}{unit}</th>", column.title);
    }
    *out += "</tr></thead>\n<tbody>\n";
}

/// Begins the line of a post.
fn line(out: &mut String, row: &Row) {
    let (state, number) = (row.state().name(), row.number);
    put!(
        out,
        "<tr class=\"{state}\" data-post=\"{number}\" data-state=\"{state}\">"
    );
}

fn cell(
    out: &mut String,
    column: &Column,
    row: &Row,
    system: UnitSystem,
    mark: &str,
    linked: bool,
) {
    match column.cell(row, system) {
        Cell::Text(text) => {
            let refused = if text == NOT_CHECKED { " over" } else { "" };
            // The letter of a case stays with its word.
            let text = escape(&text).replace("Case ", "Case\u{a0}");
            put!(out, "<td class=\"{}{refused}\">{text}</td>", column.key);
        }
        Cell::Number(value, shown) => {
            let number = number(column.key, value, column.unit(system), &(shown + mark));
            let number = if linked {
                format!("<a href=\"#post-{}\">{number}</a>", row.number)
            } else {
                number
            };
            // As the library forgives: a billionth.
            let over = if column.is_used() && value > 1.0 + 1e-9 {
                " over"
            } else {
                ""
            };
            put!(
                out,
                "<td class=\"{} number{over}\">{number}</td>",
                column.key
            );
        }
        Cell::Blank => put!(out, "<td class=\"{} number\">–</td>", column.key),
    }
}

pub(super) fn posts(out: &mut String, sheet: &Sheet<'_>) {
    let system = sheet.system();
    let is_of = |column: &&Column| matches!(column.place, Place::Posts);
    let columns: Vec<&Column> = COLUMNS.iter().filter(is_of).collect();
    *out += "<section class=\"wide\">\n<h2>Posts</h2>\n<div class=\"scroll\" tabindex=\"0\" \
             role=\"region\" aria-label=\"Table of posts\"><table id=\"summary\">\n";
    header(out, &columns, system);
    for row in &sheet.rows {
        line(out, row);
        for column in &columns {
            let dug = column.key == "planned" && row.dug.is_some();
            let mark = if dug { "†" } else { "" };
            let linked = column.key == "post" && sheet.governing.iter().any(|g| g.0 == row.number);
            cell(out, column, row, system, mark, linked);
        }
        *out += "</tr>\n";
    }
    let step = match system {
        UnitSystem::Us => "inch",
        UnitSystem::Si => "10 mm",
    };
    let base = if sheet.job.asked.base > Length::default() {
        "with the gravel base below, "
    } else {
        ""
    };
    put!(
        out,
        "</tbody>\n</table></div>\n<p class=\"notes\"><b>At</b>: post centre from the start of its \
         run; a corner post ends its run and begins the next. <b>Hole</b>: diameter, or side of a square (sq). <b>Width carried</b>: tributary, gates \
         shut, of both runs at a corner. <b>Wind case</b>: the one that asks for the greatest depth; \
         <b>shear</b> and <b>moment</b> at grade in it, allowable-stress level. <b>Required \
         depth</b>: rounded up to the next {step}; * beyond 12 ft, no answer for a fence post; \
         by the lateral load alone, whatever frost asks for. \
         <b>Planned depth</b>: † as dug. <b>Dig to</b>: the deeper of \
         both, {base}rounded up to the next {step}; a driven post is driven so deep. <b>Ground</b>, <b>post</b>, <b>base used</b>: demand over \
         capacity of lateral bearing, of the post itself, of vertical bearing; above 1.00 fails. \
         <b>Concrete</b>: net, to the planned depth, the required one where none is planned.</p>\n",
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

/// What more was asked, post by post.
pub(super) fn more(out: &mut String, sheet: &Sheet<'_>) {
    let (system, asked) = (sheet.system(), &sheet.job.asked);
    if !asked.anything() {
        return;
    }
    let is_of = |column: &&Column| matches!(column.place, Place::More(of) if of(asked));
    let columns: Vec<&Column> = COLUMNS.iter().filter(is_of).collect();
    *out += "<section class=\"wide\">\n<h2>Posts: what more was asked</h2>\n<div class=\"scroll\" \
             tabindex=\"0\" role=\"region\" aria-label=\"Table of what more was asked\"><table \
             id=\"more\">\n";
    let mut head = String::new();
    header(&mut head, &columns, system);
    let first = "<tr><th scope=\"col\">Post</th><th scope=\"col\">Set in</th>";
    *out += &head.replacen("<tr>", first, 1);
    for row in &sheet.rows {
        line(out, row);
        let set_in = row.setting.map_or("backfill", |setting| setting.name());
        put!(
            out,
            "<td class=\"number\">{}</td><td>{set_in}</td>",
            row.number
        );
        for column in &columns {
            cell(out, column, row, system, "", false);
        }
        *out += "</tr>\n";
    }
    *out += "</tbody>\n</table></div>\n<p class=\"notes\">At the depth a post stands in, as planned or \
             dug. ";
    if asked.lean {
        *out += "<b>Lean</b>: movement of the top in the wind, over the height above grade; used: over \
                 the limit, – where none was given. ";
    }
    if asked.frost() {
        *out += "<b>Frost</b>: what it lifts with, what holds against it (weights times 0.6 or as the \
                 combination says), and the share used; \"no capacity\": the post ends in the frost. ";
    }
    if asked.uplift {
        *out += "<b>Pull-out</b>: the least that holds, and the share used by the force given. ";
    }
    if asked.materials() {
        if system == UnitSystem::Si {
            *out += "1 kN to carry is 102 kg. ";
        }
        *out += "<b>To fill</b>: net of the post, without the gravel base and without waste. \
                 <b>Bags</b>: whole ones for this post, waste included. <b>To carry</b>: their weight. ";
    }
    *out +=
        "<b>Not checked</b>: asked for and refused, for the reason under Result.</p>\n</section>\n";
}

/// What each run and the fence take.
pub(super) fn quantities(out: &mut String, sheet: &Sheet<'_>) {
    let system = sheet.system();
    if sheet.quantities.is_empty() {
        return;
    }
    let (volume, force) = (
        Measure::Volume.symbol(system),
        Measure::Force.symbol(system),
    );
    put!(
        out,
        "<section>\n<h2>Quantities</h2>\n<div class=\"scroll\"><table id=\"quantities\">\n<thead><tr><th \
         scope=\"col\">Of</th><th scope=\"col\">Posts</th><th scope=\"col\">Holes to \
         dig<br/><small>{volume}</small></th><th scope=\"col\">Gravel \
         bases<br/><small>{volume}</small></th><th scope=\"col\">To fill round \
         posts<br/><small>{volume}</small></th><th scope=\"col\">Bags, whole ones a post</th><th \
         scope=\"col\">Bags, what is left used on</th><th scope=\"col\">To \
         carry<br/><small>{force}</small></th></tr></thead>\n<tbody>\n"
    );
    for quantity in &sheet.quantities {
        let (sum, key) = (&quantity.sum, &quantity.key);
        let left_out = if sum.left_out > 0 {
            format!(" ({} left out)", sum.left_out)
        } else {
            String::new()
        };
        put!(
            out,
            "<tr><th scope=\"row\">{}</th><td class=\"number\">{}{left_out}</td>",
            escape(&quantity.name),
            sum.posts
        );
        let volumes = [("holes", sum.hole), ("bases", sum.base), ("fill", sum.fill)];
        for (name, value) in volumes {
            let shown = shown(value, Measure::Volume, system);
            let value = in_unit(value, Measure::Volume, system);
            let number = number(&format!("{key}_{name}"), value, volume, &shown);
            put!(out, "<td class=\"number\">{number}</td>");
        }
        let bags = number(
            &format!("{key}_bags"),
            sum.bags,
            "",
            &format!("{:.0}", sum.bags),
        );
        put!(out, "<td class=\"number\">{bags}</td>");
        if quantity.one_bag {
            let least = sum.least_bags();
            let least = number(&format!("{key}_least"), least, "", &format!("{least:.0}"));
            put!(out, "<td class=\"number\">{least}</td>");
        } else {
            *out += "<td class=\"number\">–</td>";
        }
        let carry = shown(sum.carry, Measure::Force, system);
        let value = in_unit(sum.carry, Measure::Force, system);
        let carry = number(&format!("{key}_carry"), value, force, &carry);
        put!(out, "<td class=\"number\">{carry}</td></tr>\n");
    }
    *out += "</tbody>\n</table></div>\n<p class=\"notes\">To the depths as planned or dug, the required \
             where none is planned, not to the depth to dig to. A corner post counts with the run that comes first. Waste is in the bags, \
             not in the volumes. <b>Left out</b>: posts whose quantities could not be computed. Bags of \
             several kinds are added up in a run and in the fence; what each filling takes stands \
             below.</p>\n</section>\n";
}
