//! The parts of the sheet, from the title to the reviewer's block.

use super::super::sheet::Sheet;
use super::escape;
use groundline::caution::Caution;

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
        put!(out, "<li>{}</li>\n", escape(&sheet.caution(caution)));
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
