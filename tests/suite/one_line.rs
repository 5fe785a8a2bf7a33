//! What every example shares at its end: a reader that has gone, the exit status.

use crate::depth_chart::built;
use std::process::{Command, Output, Stdio};

/// Runs an example whose reader is gone before it prints.
fn closed(name: &str, arguments: &[&str]) -> Output {
    let mut child = Command::new(built(name))
        .args(arguments)
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    drop(child.stdout.take());
    child.wait_with_output().unwrap()
}

/// `tall_privacy_fence --help | true` panicked.
#[test]
fn a_closed_pipe_ends_every_example_quietly() {
    let out = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("closed");
    let _ = std::fs::remove_dir_all(&out);
    let out = out.to_str().unwrap();
    for (name, arguments) in [
        ("tall_privacy_fence", &["--help"][..]),
        ("tall_privacy_fence", &[]),
        ("tall_privacy_fence", &["--worksheet", "1"]),
        ("compare_codes", &["--help"]),
        ("compare_codes", &[]),
        ("post_in_ground", &["--help"]),
        ("post_in_ground", &[]),
        ("pull_test", &["--help"]),
        ("pull_test", &[]),
        ("post_options", &["--help"]),
        ("post_options", &[]),
        ("depth_chart", &["--help"]),
        ("sensitivity", &["--help"]),
        ("schedule", &["--help"]),
        ("schedule", &["--out", out]),
        #[cfg(feature = "serde")]
        ("embed", &["--names"]),
        #[cfg(feature = "serde")]
        ("embed", &["--schema"]),
    ] {
        let done = closed(name, arguments);
        let said = String::from_utf8_lossy(&done.stderr);
        assert!(done.status.success(), "{name} {arguments:?}: {said}");
        assert!(said.is_empty(), "{name} {arguments:?}: {said}");
    }
}

/// The status is 0 whatever the verdicts, and 1 for failing posts where it is asked for;
/// refusals have 2.
#[test]
fn the_status_says_whether_posts_fail() {
    let status = |name: &str, arguments: &[&str]| {
        let done = Command::new(built(name)).args(arguments).output().unwrap();
        done.status.code().unwrap()
    };
    let fence = "tall_privacy_fence";
    let deep = ["--planned-depth", "20 in"];
    let calm = [
        "--speed",
        "85 mph",
        "--height",
        "3 ft",
        "--spacing",
        "3 ft",
        "--planned-depth",
        "60 in",
        "--hole",
        "24 in",
        "--soil-class",
        "1",
        "--gate-at",
        "none",
    ];
    for (flags, plain, asked) in [(&deep[..], 0, 1), (&calm[..], 0, 0)] {
        assert_eq!(status(fence, flags), plain, "{flags:?}");
        assert_eq!(
            status(fence, &[flags, &["--fail-status"]].concat()),
            asked,
            "{flags:?}"
        );
    }
    let both = [&deep[..], &["--fail-status", "--worksheet", "1"]].concat();
    assert_eq!(status(fence, &both), 1);
    assert_eq!(status(fence, &["--speed", "1150 mph", "--fail-status"]), 2);

    let out = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("status");
    let out = out.to_str().unwrap();
    assert_eq!(status("schedule", &["--out", out, "--replace"]), 0);
    assert_eq!(
        status("schedule", &["--out", out, "--replace", "--fail-status"]),
        1
    );
    assert_eq!(status("schedule", &["--out", out]), 2);

    assert_eq!(status("post_options", &["--height", "12 ft"]), 0);
    let tall = ["--height", "12 ft", "--fail-status"];
    assert_eq!(status("post_options", &tall), 1);
    for name in [fence, "schedule", "post_options"] {
        let help = Command::new(built(name)).arg("--help").output().unwrap();
        let help = String::from_utf8(help.stdout).unwrap();
        assert!(help.contains("--fail-status") && help.contains("status 1 if any"));
    }
}
