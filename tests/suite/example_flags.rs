//! The flags of the example: what it refuses, it refuses in one line that
//! names the flag, the value and what is allowed.

#![allow(dead_code, reason = "the example's own modules, as they are")]

#[path = "../../examples/tall_privacy_fence/flags.rs"]
mod flags;

use clap::Parser;
use flags::Flags;
use groundline::units::{Measurable, ft, inch};

fn parse(arguments: &[&str]) -> Result<Flags, String> {
    Flags::try_parse_from(std::iter::once("tall_privacy_fence").chain(arguments.iter().copied()))
        .map_err(|error| flags::one_line::one_line(&error))
}

/// All that the library says of the flags.
fn refusal(arguments: &[&str]) -> String {
    let flags = match parse(arguments) {
        Err(message) => return message,
        Ok(flags) => flags,
    };
    let made = flags
        .fence()
        .map(drop)
        .and_then(|()| flags.site().map(drop))
        .and_then(|()| flags.design().map(drop))
        .and_then(|()| flags.site_checks().map(drop));
    made.expect_err("accepted")
}

#[test]
fn every_refusal_is_one_line_with_flag_value_and_allowed() {
    for (arguments, flag, value, allowed) in [
        (["--height", "8"], "--height", "8", "ft, in"),
        (["--height", "8 psf"], "--height", "8 psf", "ft, in"),
        (["--height", "tall"], "--height", "tall", "number"),
        (
            ["--height", "-8 ft"],
            "--height",
            "-8 ft",
            "0.5 ft to 40 ft",
        ),
        (
            ["--height", "1e999 ft"],
            "--height",
            "1e999 ft",
            "too large",
        ),
        (
            ["--clearance", "9 ft"],
            "--clearance",
            "9 ft",
            "0 in to 91.2 in",
        ),
        (["--solidity", "0.005"], "--solidity", "0.005", "0.01 to 1"),
        (["--solidity", "NaN"], "--solidity", "NaN", "pure number"),
        (
            ["--speed", "1150 mph"],
            "--speed",
            "1150 mph",
            "40 mph to 300 mph",
        ),
        (["--exposure", "E"], "--exposure", "E", "b, c, d"),
        (
            ["--edition", "7-05"],
            "--edition",
            "7-05",
            "7-10, 7-16, 7-22",
        ),
        (
            ["--topographic-factor", "0.5"],
            "--topographic-factor",
            "0.5",
            "1 to 4",
        ),
        (["--elevation", "9 mi"], "--elevation", "9 mi", "ft, in"),
        (["--soil-class", "7"], "--soil-class", "7", "1 to 5"),
        (["--soil-class", "sand"], "--soil-class", "sand", "1 to 5"),
        (
            ["--lateral-bearing", "0 psf/ft"],
            "--lateral-bearing",
            "0 psf/ft",
            "5 psf/ft",
        ),
        (
            ["--discount-top", "20 ft"],
            "--discount-top",
            "20 ft",
            "0 in to 120 in",
        ),
        (["--hole", "5 in"], "--hole", "5 in", "9.778 in to 120 in"),
        (["--spacing", "0 ft"], "--spacing", "0 ft", "1 ft to 40 ft"),
        (["--front", "1 ft"], "--front", "1 ft", "2 ft"),
        (["--side", "far"], "--side", "far", "none"),
        (
            ["--gate-at", "83 ft"],
            "--gate-at",
            "83 ft",
            "beyond its run",
        ),
        (
            ["--gate-opening", "1 ft"],
            "--gate-opening",
            "1 ft",
            "2 ft to 40 ft",
        ),
        (["--gate-weight", "-1 lb"], "--gate-weight", "-1 lb", "0 lb"),
        (["--turn", "180 deg"], "--turn", "180 deg", "170°"),
        (
            ["--timber", "0.5 in"],
            "--timber",
            "0.5 in",
            "1 in to 24 in",
        ),
        (["--grade", "3"], "--grade", "3", "1 or 2"),
        (["--pipe", "2 ft 6 lb"], "--pipe", "2 ft 6 lb", "ft, in"),
        (["--frost", "40 ft"], "--frost", "40 ft", "0 in to 393.7 in"),
        (["--frost", "cold"], "--frost", "cold", "number"),
        (["--lean", "0 pci"], "--lean", "0 pci", "psf/ft"),
        (["--lean", "5 ft"], "--lean", "5 ft", "MN/m³"),
        (["--bag", "90"], "--bag", "90", "40, 50, 60 or 80"),
    ] {
        let message = refusal(&arguments);
        for part in [flag, value, allowed] {
            assert!(message.contains(part), "{arguments:?}: {message}");
        }
        assert_eq!(message.lines().count(), 1, "{message}");
    }
    let unknown = refusal(&["--hieght", "8 ft"]);
    assert!(unknown.contains("--hieght") && unknown.contains("--height"));
    assert_eq!(refusal(&["--height"]), "--height: a value is missing");
}

/// Flags that do not go together are refused, not dropped.
#[test]
fn flags_are_not_silently_ignored() {
    for (arguments, one, other) in [
        (
            &["--pipe", "2 in", "--timber", "3.5 in"][..],
            "--pipe",
            "--timber",
        ),
        (
            &["--pipe", "2 in", "--species", "hem-fir"],
            "--pipe",
            "--species",
        ),
        (&["--pipe-wall", "0.2 in"], "--pipe", ""),
        (&["--pipe-yield", "30 ksi"], "--pipe", ""),
        (
            &["--soil-class", "4", "--lateral-bearing", "100 psf/ft"],
            "--soil-class",
            "--lateral-bearing",
        ),
        (&["--bare", "--hole", "12 in"], "--bare", "--hole"),
        (&["--bare", "--square-hole"], "--bare", "--square-hole"),
        (
            &["--gate-at", "none", "--gate-opening", "5 ft"],
            "--gate-opening",
            "none",
        ),
        (&["--side", "none", "--turn", "60 deg"], "--turn", "none"),
        (&["--height", "8ft", "--height", "9ft"], "--height", "twice"),
        (&["--markdown"], "--worksheet", ""),
        (&["--modulus", "1200 ksi"], "--lean", ""),
        (
            &["--pipe", "2 in", "--lean", "5 MN/m3", "--modulus", "1 ksi"],
            "--pipe",
            "--modulus",
        ),
        (&["--worksheet", "two"], "--worksheet", "number of a post"),
        (&["--grade", "1.5"], "--grade", "1 or 2"),
    ] {
        let message = refusal(arguments);
        assert!(
            message.contains(one) && message.contains(other),
            "{arguments:?}: {message}"
        );
        assert_eq!(message.lines().count(), 1, "{message}");
    }
}

#[test]
fn flags_reach_the_library() {
    let flags = parse(&[
        "--height",
        "6 ft",
        "--speed",
        "115 mph",
        "--spacing",
        "2.4m",
        "--soil-class",
        "4",
        "--hole",
        "12 in",
        "--planned-depth",
        "30 in",
        "--side",
        "none",
        "--gate-at",
        "none",
        "--pipe",
        "2-3/8 in",
        "--pipe-wall",
        "0.13 in",
        "--isolated-pole",
        "--paved",
    ])
    .unwrap();
    let fence = flags.fence().unwrap();
    assert_eq!(fence.runs().len(), 1);
    assert!(fence.runs()[0].gates().is_empty());
    assert_eq!(fence.runs()[0].panel().top(), ft(6.0));
    let design = flags.design().unwrap();
    assert_eq!(design.foundation().bearing_width().width(), inch(12.0));
    assert!(design.ground().is_isolated_pole());
    assert!((flags.planned_depth.value.to(ft) - 2.5).abs() < 1e-12);
    assert_eq!(flags.site().unwrap().exposure().letter(), "B");
    let asked = flags.site_checks().unwrap();
    assert!(asked.frost().is_none() && asked.materials().is_some());
    let flags = parse(&["--bare", "--frost", "30 in"]).unwrap();
    let asked = flags.site_checks().unwrap();
    assert_eq!(asked.frost().unwrap().depth(), inch(30.0));
    assert!(asked.materials().is_none());
}
