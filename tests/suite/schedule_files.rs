//! The files of the example `schedule`: all or none, never over what exists; text for
//! a terminal and for a spreadsheet.

use crate::schedule_example::schedule::{self, NAMES, csv, files, terminal};
use crate::schedule_example::{folder, samples};
use clap::Parser;
use std::fs;
use std::path::Path;

fn run(job: &Path, out: &Path, more: &[&str]) -> Result<schedule::Done, String> {
    let arguments = [
        "schedule",
        job.to_str().unwrap(),
        "--out",
        out.to_str().unwrap(),
    ];
    let flags = schedule::Flags::try_parse_from(arguments.iter().chain(more)).unwrap();
    schedule::run(&flags)
}

/// A folder with nothing in it.
fn empty(name: &str) -> std::path::PathBuf {
    let folder = folder(name);
    fs::remove_dir_all(&folder).unwrap();
    fs::create_dir_all(&folder).unwrap();
    folder
}

fn names(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).unwrap();
    let mut names: Vec<_> = entries
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}

/// A sheet that exists may be signed: it is not written over, and with --replace it is
/// kept.
#[test]
fn a_sheet_that_exists_is_kept() {
    let out = empty("kept");
    let job = samples().join("si.toml");
    fs::write(out.join("sheet.html"), "signed").unwrap();
    let refused = run(&job, &out, &[]).unwrap_err();
    assert!(refused.contains("sheet.html") && refused.contains("--replace"));
    assert_eq!(names(&out), ["sheet.html"]);
    assert_eq!(fs::read(out.join("sheet.html")).unwrap(), b"signed");
    run(&job, &out, &["--replace"]).unwrap();
    assert_eq!(
        names(&out),
        ["schedule.csv", "sheet.html", "sheet.html.1", "worksheet.md"]
    );
    assert_eq!(fs::read(out.join("sheet.html.1")).unwrap(), b"signed");
    let first = fs::read(out.join("sheet.html")).unwrap();
    assert!(first.len() > 1_000);
    // Once more: the backup of before stays as well.
    run(&job, &out, &["--replace"]).unwrap();
    assert_eq!(fs::read(out.join("sheet.html.1")).unwrap(), b"signed");
    assert_eq!(fs::read(out.join("sheet.html.2")).unwrap(), first);
    assert!(run(&job, &out, &[]).is_err());
}

/// Where a file cannot be written, none of the job is, and what existed is as before.
#[test]
fn half_a_job_is_not_left_behind() {
    let out = empty("half");
    let made = |name| (name, b"new".to_vec());
    fs::write(out.join("a"), "old").unwrap();
    // A name in a folder that is not there: the last file of the job fails.
    let job = [made("a"), made("b"), made("missing/c")];
    for existing in [files::Existing::BackedUp, files::Existing::Refused] {
        files::write(&out, &job, existing).unwrap_err();
        assert_eq!(names(&out), ["a"]);
        assert_eq!(fs::read(out.join("a")).unwrap(), b"old");
    }
    // The last rename fails: its backup is put back, and those before are too.
    let out = empty("renamed");
    fs::write(out.join("a"), "old").unwrap();
    let long = "l".repeat(246);
    fs::write(out.join(&long), "old").unwrap();
    let job = [made("a"), made("b"), made(long.as_str())];
    files::write(&out, &job, files::Existing::BackedUp).unwrap_err();
    assert_eq!(names(&out), ["a".to_owned(), long.clone()]);
    assert_eq!(fs::read(out.join("a")).unwrap(), b"old");
    assert_eq!(fs::read(out.join(long)).unwrap(), b"old");
}

#[test]
fn the_names_are_those_of_the_summary() {
    let out = empty("names");
    let done = run(&samples().join("si.toml"), &out, &[]).unwrap();
    for name in NAMES {
        assert!(done.summary.contains(name));
    }
    assert_eq!(names(&out), ["schedule.csv", "sheet.html", "worksheet.md"]);
}

/// A title that clears the screen and forges a verdict reaches the terminal as text.
#[test]
fn control_characters_do_not_reach_the_terminal() {
    let out = empty("title");
    let job = fs::read_to_string(samples().join("us.toml")).unwrap();
    let job = job
        .replace(
            "Privacy fence round a garden centre yard",
            "Yard\\u001b[2J\\n0 of 34 posts fail\\u202e\\u009b",
        )
        .replace("\"as_dug.csv\"", "\"dug.csv\"");
    fs::write(out.join("job.toml"), job).unwrap();
    let dug = fs::read(samples().join("as_dug.csv")).unwrap();
    fs::write(out.join("dug.csv"), dug).unwrap();
    let summary = run(&out.join("job.toml"), &out, &[]).unwrap().summary;
    let first = summary.lines().next().unwrap();
    assert!(
        first.starts_with("Yard\\u{1b}[2J\\u{a}0 of 34 posts fail\\u{202e}\\u{9b}: 1 of 34"),
        "{first}"
    );
    assert!(!summary.contains(|c: char| c != '\n' && (c.is_control() || c == '\u{202e}')));
    assert_eq!(terminal::lines("a\tb\r\n\u{7}ü"), "a\\u{9}b\\u{d}\n\\u{7}ü");
    assert_eq!(terminal::title("a\u{2028}b\nc"), "a\\u{2028}b\\u{a}c");
}

/// What a spreadsheet would take for a formula stands behind an apostrophe.
#[test]
fn formulas_are_guarded() {
    for text in [
        "=1",
        "+1",
        "-1",
        "@a",
        "\t=1",
        "\ta",
        "\ra",
        " =1",
        "  +1",
        "\u{a0}=1",
        "\u{3000}=1",
        "\u{200b}=1",
        "\u{feff}=1",
        "\u{ff1d}1",
        "\u{ff0b}1",
        "\u{ff0d}1",
        "\u{ff20}a",
        " \u{ff1d}1",
        "\u{2028}=1",
        "a\n=1",
        "\na",
    ] {
        let guarded = csv::guarded(text);
        assert!(guarded.starts_with('\''), "{text:?}");
    }
    for text in ["", "a", "a=1", "1-2", " a", "ö", "'=1", "3 + 4"] {
        assert_eq!(csv::guarded(text), text);
    }
    // The separators that begin a row in some programs are spaces.
    assert_eq!(csv::guarded("a\u{2028}b\u{2029}c"), "a b c");
    assert_eq!(csv::guarded("a\u{2028}=1"), "a =1");
}

/// Whether posts fail is an answer for a script too.
#[test]
fn done_says_whether_posts_fail() {
    let us = run(&samples().join("us.toml"), &empty("fails"), &[]).unwrap();
    assert!(us.fails && us.summary.contains("1 of 34 posts fail"));
}
