//! A job file of the example `schedule`, a zero byte, and the CSV of posts as
//! dug: refusals of one line each, or a plan that holds and sheets without a
//! number that is none.

use super::holds::{refused, sound};
use super::planned;
use crate::schedule_example::schedule::job::{Job, as_dug, site::Site};
use crate::schedule_example::schedule::{csv, html, sheet};
use std::fmt::Display;
use std::path::Path;

/// Longer fences are read and no more.
const MOST_POSTS: usize = 12;

/// Runs one input, whatever it is.
pub(crate) fn run(data: &[u8]) {
    let mut parts = data.splitn(2, |byte| *byte == 0);
    let Some(Ok(text)) = parts.next().map(std::str::from_utf8) else {
        return;
    };
    // It may name a file: none of this machine.
    if text.contains("as_dug") && text.contains(['/', '\\', '.']) {
        return;
    }
    let mut job = match Job::parse(text, "job.toml", Path::new("no such folder")) {
        Ok(job) => job,
        Err(problems) => return told(&problems),
    };
    sound(&job.title);
    assert!(job.fence.posts().len() > 1 && job.runs.len() == job.fence.runs().len());
    if job.fence.posts().len() > MOST_POSTS {
        return;
    }
    if let Some(posts) = parts.next() {
        match as_dug::read(posts, "dug.csv", &job.fence, &job.specs, job.system) {
            Ok(dug) => job.dug = dug,
            Err(problems) => told(&problems),
        }
    }
    let number = data.len() % 64;
    match job.site {
        Site::Asce(site) => match job.plan(site) {
            Ok(plan) => planned::plan(&plan, Some(number)),
            Err(error) => refused(&error),
        },
        Site::GivenStrength(site) => match job.plan(site) {
            Ok(plan) => planned::plan(&plan, Some(number)),
            Err(error) => refused(&error),
        },
        Site::GivenAllowable(site) => match job.plan(site) {
            Ok(plan) => planned::plan(&plan, Some(number)),
            Err(error) => refused(&error),
        },
    }
    if number < 4 {
        sheets(&job);
    }
}

/// Refused with reasons, each on a line of its own.
fn told(problems: &[impl Display]) {
    assert!(!problems.is_empty());
    for problem in problems {
        let line = problem.to_string();
        assert!(!line.contains(['\n', '\r']), "{line:?}");
    }
}

/// Everything that would be written.
fn sheets(job: &Job) {
    let sheet = match sheet::of(job, false, &|| ()) {
        Ok(sheet) => sheet,
        Err(why) => return assert!(!why.is_empty()),
    };
    assert_eq!(sheet.rows.len(), job.fence.posts().len());
    let rows = csv::schedule(&sheet.rows, sheet.system()).expect("rows are written");
    let rows = String::from_utf8(rows).expect("rows are text");
    assert!(rows.lines().count() > sheet.rows.len());
    let page = html::page(&sheet);
    assert!(page.trim_end().ends_with("</html>"));
    assert!(!page.contains(">NaN") && !page.contains("\"NaN"), "{page}");
}
