//! The calculation, step by step.

use super::super::sheet::Sheet;
use super::escape;
use groundline::source::Mark;
use groundline::step::{Origin, Section, Step, Worksheet};
use groundline::units::UnitSystem;

/// The worksheets of the governing post of each kind.
pub(super) fn worksheets(out: &mut String, sheet: &Sheet<'_>) {
    *out += "<section class=\"calculation\">\n<h2>Calculation, step by step</h2>\n<p>The post that \
             governs of each kind. Each line gives its result, the formula or rule with the \
             numbers that go in, and where it comes from with how well it is known: \
             <b>published</b> (seen in the source and recomputed), <b>quoted</b> (seen as quoted by \
             others), <b>from memory</b> (not confirmed against any page), <b>derived</b>, \
             <b>given</b>. Lines recompute by hand from the numbers shown.</p>\n";
    for (number, working) in &sheet.governing {
        let Some(row) = sheet.rows.iter().find(|row| row.number == *number) else {
            continue;
        };
        put!(
            out,
            "<details open=\"open\" id=\"post-{number}\">\n<summary>{}: utilization {}, {}</summary>\n",
            escape(&working.title),
            row.utilization,
            escape(&row.result())
        );
        one(out, working);
        *out += "</details>\n";
    }
    *out += "</section>\n";
}

fn one(out: &mut String, working: &Worksheet) {
    for part in &working.sections {
        put!(out, "<h3>{}</h3>\n", escape(part.title));
        for remark in &part.remarks {
            put!(out, "<p class=\"remark\">{}</p>\n", escape(remark));
        }
        if !part.steps.is_empty() {
            steps(out, part, working.system);
        }
    }
}

fn steps(out: &mut String, part: &Section, system: UnitSystem) {
    *out += "<div class=\"scroll\"><table class=\"steps\">\n<thead><tr><th scope=\"col\">Result</th><th \
             scope=\"col\">Meaning</th><th scope=\"col\">Formula or rule</th><th scope=\"col\">Numbers \
             in</th><th scope=\"col\">Source</th></tr></thead>\n<tbody>\n";
    for step in &part.steps {
        let source = step.citation.map_or(String::new(), |citation| {
            let mark = citation.mark;
            let class = if mark == Mark::FromMemory {
                "mark memory"
            } else {
                "mark"
            };
            format!(
                "{} {} <span class=\"{class}\">{}</span>",
                escape(citation.document),
                escape(citation.clause),
                mark.name()
            )
        });
        put!(
            out,
            "<tr><td class=\"result\">{} = {}</td><td>{}</td><td class=\"formula\">{}</td><td \
             class=\"formula\">{}</td><td>{source}</td></tr>\n",
            escape(step.symbol),
            step.result.in_system(system).significant(6),
            escape(step.meaning),
            escape(&rule(step)),
            escape(&numbers(step, system)),
        );
    }
    *out += "</tbody>\n</table></div>\n";
}

fn rule(step: &Step) -> String {
    match step.origin {
        Origin::Given => "given".to_owned(),
        Origin::Root => format!("root of {}", step.formula),
        _ => step.formula.to_string(),
    }
}

fn numbers(step: &Step, system: UnitSystem) -> String {
    let terms = step.terms.iter().map(|term| {
        let value = term.value.in_system(system).significant(6);
        format!("{} = {value}", term.symbol)
    });
    terms.collect::<Vec<_>>().join("; ")
}
