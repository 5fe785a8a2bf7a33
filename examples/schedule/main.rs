//! The schedule of every post of a fence from a job file: a CSV, worksheets in
//! Markdown, and a calculation sheet in HTML for review and print.
//!
//! ```text
//! cargo run --release --example schedule
//! cargo run --release --example schedule -- job.toml --out folder
//! ```
//!
//! `us.toml` and `si.toml` beside this file are job files to start from, with
//! remarks.

pub(crate) mod assumptions;
pub(crate) mod columns;
pub(crate) mod csv;
pub(crate) mod drawing;
pub(crate) mod files;
pub(crate) mod html;
pub(crate) mod job;
pub(crate) mod rows;
pub(crate) mod sheet;
pub(crate) mod terminal;

use clap::Parser;
use groundline::report;
use indicatif::{ProgressBar, ProgressStyle};
use job::Job;
use rows::State;
use sheet::Sheet;
use std::fmt::Write as _;
use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// Depth and strength of every post of a fence, from a job file.
#[derive(Debug, Parser)]
#[command(name = "schedule")]
pub(crate) struct Flags {
    /// The job file, TOML; without it the sample us.toml of this example.
    job: Option<PathBuf>,
    /// The folder to write into, made if it is not there; without it a new folder
    /// in the system's temporary folder.
    #[arg(long)]
    out: Option<PathBuf>,
    /// Replace files of an earlier run, each kept as a backup (sheet.html.1);
    /// without it a job whose files exist is refused.
    #[arg(long)]
    replace: bool,
    /// Exit with status 1 if any post fails or is not wholly checked; without it the
    /// status is 0 whatever the verdicts.
    #[arg(long)]
    fail_status: bool,
    /// Worksheets of every post in worksheet.md, not only of those that govern.
    #[arg(long)]
    all_worksheets: bool,
}

fn main() -> ExitCode {
    let flags = Flags::parse();
    match run(&flags) {
        Ok(done) => {
            // A reader that closes early (`| head`) is no failure.
            let _ = std::io::stdout().write_all(done.summary.as_bytes());
            ExitCode::from(u8::from(done.fails && flags.fail_status))
        }
        Err(message) => {
            let _ = writeln!(std::io::stderr(), "{}", terminal::lines(&message));
            ExitCode::from(2)
        }
    }
}

/// A job that is written.
#[derive(Debug)]
pub(crate) struct Done {
    /// What is printed at the end.
    pub(crate) summary: String,
    /// Does any post fail, or is not wholly checked?
    pub(crate) fails: bool,
}

/// Reads, computes and writes.
pub(crate) fn run(flags: &Flags) -> Result<Done, String> {
    let sample = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/schedule/us.toml");
    let path = flags.job.clone().unwrap_or(sample);
    let folder = flags.out.clone().unwrap_or_else(temporary);
    if !flags.replace {
        files::refuse_existing(&folder, NAMES)?;
    }
    let job = Job::open(&path).map_err(|problems| {
        let lines: Vec<_> = problems.iter().map(ToString::to_string).collect();
        lines.join("\n")
    })?;
    let bar = progress(job.fence.posts().len());
    let sheet = sheet::of(&job, flags.all_worksheets, &|| bar.inc(1))
        .map_err(|error| format!("{}: {error}", path.display()))?;
    bar.finish_and_clear();
    let existing = if flags.replace {
        files::Existing::BackedUp
    } else {
        files::Existing::Refused
    };
    let [schedule, worksheet, page] = NAMES;
    let made = [
        (schedule, csv::schedule(&sheet.rows, sheet.system())?),
        (worksheet, worksheets(&sheet).into_bytes()),
        (page, html::page(&sheet).into_bytes()),
    ];
    files::write(&folder, &made, existing)?;
    Ok(Done {
        summary: terminal::lines(&printed(&sheet, &folder)),
        fails: sheet
            .rows
            .iter()
            .any(|row| !row.failing.is_empty() || !row.refused.is_empty()),
    })
}

/// The files of a job.
pub(crate) const NAMES: [&str; 3] = ["schedule.csv", "worksheet.md", "sheet.html"];

/// A folder of the system's temporary folder that is not there yet.
fn temporary() -> PathBuf {
    let folder = |number: u32| std::env::temp_dir().join(format!("groundline-schedule-{number}"));
    (1..u32::MAX)
        .map(folder)
        .find(|folder| !folder.exists())
        .unwrap_or_else(|| folder(0))
}

/// A bar on a terminal, nothing elsewhere.
fn progress(posts: usize) -> ProgressBar {
    let bar = ProgressBar::new(u64::try_from(posts).unwrap_or(u64::MAX));
    match ProgressStyle::with_template("{bar:40} {pos} of {len} posts") {
        Ok(style) => bar.with_style(style),
        Err(_) => bar,
    }
}

/// The worksheets one after another.
fn worksheets(sheet: &Sheet<'_>) -> String {
    let mut out = String::new();
    let governing = sheet.governing.iter().map(|(_, working)| working);
    let asked: Vec<_> = match &sheet.all {
        Some(all) => all.iter().collect(),
        None => governing.collect(),
    };
    for working in asked {
        // Writing to a String cannot fail.
        let _ = writeln!(out, "{}", report::markdown(working));
    }
    out
}

/// The short summary for the terminal.
fn printed(sheet: &Sheet<'_>, folder: &Path) -> String {
    let mut out = format!(
        "{}: {} of {} posts fail.\n",
        terminal::title(&sheet.job.title),
        sheet.count(State::Fails),
        sheet.rows.len()
    );
    for row in sheet
        .rows
        .iter()
        .filter(|row| !row.failing.is_empty())
        .take(20)
    {
        let _ = writeln!(
            out,
            "  post {}, {}, FAILS: {}; utilization {}",
            row.number,
            row.kind,
            row.needs(sheet.system()),
            row.utilization
        );
    }
    if sheet.count(State::Fails) > 20 {
        out += "  and more, see the files\n";
    }
    for line in &sheet.instead {
        let _ = writeln!(out, "  instead: {line}");
    }
    if sheet.unplanned() > 0 {
        let _ = writeln!(
            out,
            "{} posts have no planned depth: their ground is not checked; see the depth to dig of each",
            sheet.unplanned()
        );
    }
    let part = sheet.rows.iter().filter(|row| !row.refused.is_empty());
    if part.clone().next().is_some() {
        let _ = writeln!(
            out,
            "{} posts are NOT WHOLLY CHECKED and are not counted as passing:",
            part.count()
        );
        for (what, posts) in sheet.refusals() {
            let _ = writeln!(out, "  {what} (posts {posts})");
        }
    }
    let _ = writeln!(
        out,
        "Written to {}: schedule.csv, worksheet.md, sheet.html",
        folder.display()
    );
    out += "Cautions\n";
    for caution in sheet.cautions.iter() {
        let _ = writeln!(out, "  - {}", sheet.caution(caution));
    }
    out
}
