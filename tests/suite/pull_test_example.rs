//! The example `pull_test`: which readings make a test, and the digits it prints.

#![allow(dead_code, reason = "the example's own module, as it is")]

#[path = "../../examples/pull_test/readings.rs"]
mod readings;

use groundline::units::{Length, UnitSystem, inch, mm};
use readings::{from_csv, residual};

/// Names that differ by case or white space are one setting, and one test.
#[test]
fn one_setting_however_it_is_written() {
    let text = "setting,test,pull,movement,load\n\
        Foam A,1,out,1 mm,1 kN\n\
        concrete,9,out,1 mm,2 kN\n\
        foam  a ,1,out,2 mm,2 kN\n\
        FOAM A,2,out,1 mm,3 kN\n";
    let path = std::env::temp_dir().join(format!("groundline-pulls-{}.csv", std::process::id()));
    std::fs::write(&path, text).unwrap();
    let tests = from_csv(&path).unwrap();
    std::fs::remove_file(&path).unwrap();
    let names: Vec<_> = tests
        .iter()
        .map(|test| {
            (
                test.setting.as_str(),
                test.name.as_str(),
                test.readings.all().len(),
            )
        })
        .collect();
    assert_eq!(
        names,
        [("Foam A", "1", 2), ("Foam A", "2", 1), ("concrete", "9", 1)]
    );
}

/// A residual of rounding is none: 1.4e-16 in was printed.
#[test]
fn residuals_are_no_finer_than_a_gauge() {
    for tiny in [
        inch(1.365_923_996_832_131_6e-16),
        Length::default(),
        mm(0.009),
    ] {
        assert!(residual(tiny, UnitSystem::Si).starts_with("less than 0.01 mm"));
        assert!(residual(tiny, UnitSystem::Us).starts_with("less than 0.000"));
        assert!(!residual(tiny, UnitSystem::Us).contains("e-"));
    }
    assert_eq!(residual(mm(1.234), UnitSystem::Si), "1.2 mm");
}
