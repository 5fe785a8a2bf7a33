//! The drawings of the sheet and their legends.

use super::super::drawing::elevation::RunPicture;
use super::super::drawing::{Shade, patterns, rectangle};
use super::super::rows::shown;
use super::super::sheet::Sheet;
use super::escape;
use groundline::actions::CaseSum;
use groundline::units::{Measure, UnitSystem, show};
use svg::Node;
use svg::node::element::Element;

/// Pieces of elevation drawn of one run.
const PIECES: usize = 12;

/// What each fill of a hole means.
fn legend(out: &mut String) {
    *out += "<p class=\"legend\">Hole filled by utilization of its post:";
    for (index, (shade, text)) in Shade::ALL.into_iter().enumerate() {
        let id = format!("legend{index}");
        let mut svg = Element::new("svg");
        svg.assign("xmlns", "http://www.w3.org/2000/svg");
        svg.assign("viewBox", "0 0 26 16");
        svg.assign("class", "key");
        svg.assign("aria-hidden", "true");
        svg.append(patterns(&id));
        let swatch = rectangle(1.0, 1.0, 24.0, 14.0);
        svg.append(swatch.set("fill", shade.fill(&id)));
        put!(out, " <span>{svg} {text}</span>");
    }
    *out += "</p>\n";
}

pub(super) fn elevations(out: &mut String, sheet: &Sheet<'_>) {
    *out += "<section>\n<h2>Elevation, with the wind pressure along each run</h2>\n";
    legend(out);
    put!(
        out,
        "<p class=\"notes\">Pressure on gross area of each run taken alone, gates shut, {}, as positive \
         above its line; each case stands for both directions of the wind. Under each post its \
         utilization and its place along the run{}; dashes mark the depth required. Drawn to different scales along the fence and \
         upwards; holes no narrower than can be seen.{}</p>\n",
        escape(sheet.level),
        match sheet.system() {
            UnitSystem::Us => "",
            UnitSystem::Si => " in m",
        },
        if sheet.rows.iter().any(|row| !row.refused.is_empty()) {
            " <b>In part</b>: a check that was asked for was not made."
        } else {
            ""
        }
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
                    show(turn, sheet.system())
                )
            });
        let unit = Measure::Length.symbol(sheet.system());
        put!(
            out,
            "<figure>\n<figcaption>{}: {} {unit} long{turn}</figcaption>\n",
            escape(name),
            shown(run.length(), Measure::Length, sheet.system()),
        );
        let pieces = picture.pieces(PIECES + 1);
        let cut = pieces.len() > PIECES;
        for piece in pieces.into_iter().take(PIECES) {
            put!(out, "<div class=\"scroll drawing\">{piece}</div>\n");
        }
        if cut {
            *out += "<p class=\"notes\">The run goes on; only its beginning is drawn.</p>\n";
        }
        if let Some(pressure) = sheet.pressures.get(index) {
            let agrees = pressure.sums.iter().all(CaseSum::agrees);
            put!(
                out,
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
    put!(
        out,
        "<section>\n<h2>Post {} and its hole, the post that governs</h2>\n<figure>\n<div class=\"scroll \
         drawing\">{}</div>\n<figcaption>Left: the post to scale, with the load that is worst for its \
         depth{}. Middle: lateral bearing of the depth formula, allowed and needed, where it is read. \
         Right: the reaction of the ground on a rigid post whose ground grows stiffer with depth, in \
         equilibrium with the load that is worst for the post, over the embedment that its strength \
         is checked with; it gives the greatest moment in the post and is not the check of the \
         depth.</figcaption>\n</figure>\n</section>\n",
        picture.number,
        picture.draw(sheet.system()),
        if sheet.job.asked.frost() {
            ", and the depth of the frost"
        } else {
            ""
        },
    );
}
