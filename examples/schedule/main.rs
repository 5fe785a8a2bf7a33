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
pub(crate) mod html;
pub(crate) mod job;
pub(crate) mod rows;
pub(crate) mod sheet;

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
    /// The folder to write into, made if it is not there; without it a folder
    /// of the system's temporary folder.
    #[arg(long)]
    out: Option<PathBuf>,
    /// Worksheets of every post in worksheet.md, not only of those that govern.
    #[arg(long)]
    all_worksheets: bool,
}

fn main() -> ExitCode {
    let flags = Flags::parse();
    match run(&flags) {
        Ok(summary) => {
            // A reader that closes early (`| head`) is no failure.
            let _ = std::io::stdout().write_all(summary.as_bytes());
            ExitCode::SUCCESS
        }
        Err(message) => {
            eprintln!("{message}");
            ExitCode::from(2)
        }
    }
}

/// Reads, computes, writes; what is printed at the end.
pub(crate) fn run(flags: &Flags) -> Result<String, String> {
    let sample = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/schedule/us.toml");
    let path = flags.job.clone().unwrap_or(sample);
    let temporary = || std::env::temp_dir().join("groundline-schedule");
    let folder = flags.out.clone().unwrap_or_else(temporary);
    let job = Job::open(&path).map_err(|problems| {
        let lines: Vec<_> = problems.iter().map(ToString::to_string).collect();
        lines.join("\n")
    })?;
    let bar = progress(job.fence.posts().len());
    let sheet = sheet::of(&job, flags.all_worksheets, &|| bar.inc(1))
        .map_err(|error| format!("{}: {error}", path.display()))?;
    bar.finish_and_clear();
    write(&sheet, &folder)?;
    Ok(printed(&sheet, &folder))
}

/// A bar on a terminal, nothing elsewhere.
fn progress(posts: usize) -> ProgressBar {
    let bar = ProgressBar::new(u64::try_from(posts).unwrap_or(u64::MAX));
    match ProgressStyle::with_template("{bar:40} {pos} of {len} posts") {
        Ok(style) => bar.with_style(style),
        Err(_) => bar,
    }
}

fn write(sheet: &Sheet<'_>, folder: &Path) -> Result<(), String> {
    let said = |path: &Path, error: std::io::Error| format!("{}: {error}", path.display());
    std::fs::create_dir_all(folder).map_err(|error| said(folder, error))?;
    let files = [
        ("schedule.csv", csv::schedule(&sheet.rows, sheet.system())?),
        ("worksheet.md", worksheets(sheet).into_bytes()),
        ("sheet.html", html::page(sheet).into_bytes()),
    ];
    for (name, bytes) in files {
        let path = folder.join(name);
        std::fs::write(&path, bytes).map_err(|error| said(&path, error))?;
    }
    Ok(())
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
        sheet.job.title,
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
