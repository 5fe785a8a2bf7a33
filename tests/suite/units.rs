//! Exact factors against their definitions, parsing both ways, display.

use approx::assert_relative_eq;
use groundline::units::*;
use proptest::prelude::*;

/// Definitions. Factors printed to seven digits are a table of `reference`.
#[test]
fn exact_factors() {
    assert_eq!(ft(1.0).to(m), 0.3048);
    assert_eq!(inch(1.0).to(m), 0.0254);
    assert_eq!(yd(1.0).to(m), 0.9144);
    assert_relative_eq!(
        lb(1.0).to(newton),
        0.453_592_37 * 9.806_65,
        max_relative = 1e-15
    );
    assert_relative_eq!(mph(1.0).to(m_per_s), 0.447_04, max_relative = 1e-15);
    assert_relative_eq!(km_per_h(36.0).to(m_per_s), 10.0, max_relative = 1e-15);
    assert_relative_eq!(cu_yd(1.0).to(cu_ft), 27.0, max_relative = 1e-15);
    assert_relative_eq!(cu_ft(1.0).to(cu_in), 1728.0, max_relative = 1e-15);
    assert_relative_eq!(cu_m(1.0).to(litre), 1000.0, max_relative = 1e-15);
    assert_relative_eq!(psf_per_ft(1.0).to(pcf), 1.0, max_relative = 1e-15);
    assert_relative_eq!(lb_per_cu_in(1.0).to(pcf), 1728.0, max_relative = 1e-15);
    assert_relative_eq!(kip_ft(1.0).to(kip_in), 12.0, max_relative = 1e-15);
    assert_relative_eq!(
        kn_sq_m(1.0).to(lb_sq_in),
        kn(1.0).to(lb) * 1e6 / (25.4 * 25.4),
        max_relative = 1e-14
    );
    assert_relative_eq!(
        deg(180.0).to(rad),
        std::f64::consts::PI,
        max_relative = 1e-15
    );
    assert_eq!(percent(5.0).to(number), 0.05);
    assert_relative_eq!(cm(1.0).to(mm), 10.0, max_relative = 1e-15);
    assert_relative_eq!(sq_ft(1.0).to(sq_in), 144.0, max_relative = 1e-15);
    assert_relative_eq!(sq_m(1.0).to(sq_mm), 1e6, max_relative = 1e-15);
    assert_relative_eq!(cu_mm(1e9).to(cu_m), 1.0, max_relative = 1e-15);
    assert_relative_eq!(m4(1.0).to(mm4), 1e12, max_relative = 1e-15);
    assert_relative_eq!(kn_m(1.0).to(n_m), 1000.0, max_relative = 1e-15);
    assert_relative_eq!(kpa_per_m(1.0).to(kn_per_cu_m), 1.0, max_relative = 1e-15);
    assert_relative_eq!(kn_per_m(1.0).to(n_per_m), 1000.0, max_relative = 1e-15);
    assert_relative_eq!(kpa(1.0).to(pa), 1000.0, max_relative = 1e-15);
    assert_relative_eq!(n_sq_m(1000.0).to(kn_sq_m), 1.0, max_relative = 1e-15);
}

/// The exact units agree with uom's where uom's are exact, and show why its
/// rounded ones are not used.
#[test]
fn against_uom() {
    use uom::si::force::pound_force;
    use uom::si::length::{foot, mile};
    use uom::si::velocity::mile_per_hour;
    assert_eq!(Length::new::<foot>(8.0), ft(8.0));
    assert_relative_eq!(
        Length::new::<mile>(1.0).to(ft),
        5280.0,
        max_relative = 1e-15
    );
    assert_relative_eq!(
        Velocity::new::<mile_per_hour>(115.0).value,
        mph(115.0).value,
        max_relative = 1e-15
    );
    let rounded = Force::new::<pound_force>(1.0).value / lb(1.0).value - 1.0;
    assert!(rounded.abs() > 1e-9);
}

#[test]
fn texts_that_are_read() {
    let feet = |text: &str| parse::<Length>(text).unwrap().to(ft);
    for (text, value) in [
        ("8 ft", 8.0),
        ("8ft", 8.0),
        ("8 FT", 8.0),
        ("30 In", 2.5),
        (" 8.5 feet ", 8.5),
        ("6' 6\"", 6.5),
        ("6'6\"", 6.5),
        ("6'-6\"", 6.5),
        ("6 ft 6 in", 6.5),
        ("6 ft 3-1/2 in", 6.0 + 3.5 / 12.0),
        ("-1' 6\"", -1.5),
        ("6′ 6″", 6.5),
        ("30 in", 2.5),
        ("3 1/2 in", 3.5 / 12.0),
        ("2-3/8 in", 2.375 / 12.0),
        ("3/4 in", 0.0625),
        ("1e1 ft", 10.0),
        (".5 ft", 0.5),
        ("304.8mm", 1.0),
        ("2 yd", 6.0),
    ] {
        assert_relative_eq!(feet(text), value, max_relative = 1e-14);
    }
    assert_eq!(parse::<Velocity>("115 mph"), Ok(mph(115.0)));
    assert_eq!(parse::<Pressure>("20 psf"), Ok(psf(20.0)));
    assert_eq!(parse::<Pressure>("20 lb/ft2"), Ok(psf(20.0)));
    assert_eq!(parse::<ForcePerVolume>("150 pcf"), Ok(pcf(150.0)));
    assert_eq!(parse::<ForcePerVolume>("150 psf/ft"), Ok(psf_per_ft(150.0)));
    assert_eq!(parse::<ForcePerVolume>("30 kN/m3"), Ok(kn_per_cu_m(30.0)));
    assert_eq!(parse::<Length>("2.4 m"), Ok(m(2.4)));
    assert_eq!(parse::<Angle>("90°"), Ok(deg(90.0)));
    assert_eq!(parse::<Ratio>("0.85"), Ok(number(0.85)));
    assert_eq!(parse::<Ratio>("85 %"), Ok(percent(85.0)));
    assert_eq!(parse::<Torque>("3 kip-ft"), Ok(kip_ft(3.0)));
}

#[test]
fn texts_that_are_refused() {
    for text in [
        "",
        " ",
        "ft",
        "8",
        "8 psf",
        "8 ft 6",
        "8 ft 6 ft",
        "8 m 6 in",
        "6' 6\" 6\"",
        "6' -6\" x",
        "8 ftt",
        "8 f t",
        "inf ft",
        "NaN ft",
        "1e999 ft",
        "1e999 ft 1 in",
        "--8 ft",
        "8,5 ft",
        "1/0 in",
        "3 1/0 in",
        "8 ft2",
        "٣ ft",
        "8\u{0}ft",
        "6'--6\"",
    ] {
        assert!(parse::<Length>(text).is_err(), "{text:?}");
    }
    assert!(parse::<Pressure>("20 psf 3 in").is_err());
    // The message offers what is allowed.
    let message = parse::<Length>("8").unwrap_err().to_string();
    assert_eq!(
        message,
        "the unit is missing; give a length in ft, in, yd, m, cm, mm"
    );
    assert!(
        parse::<Ratio>("x")
            .unwrap_err()
            .to_string()
            .contains("number")
    );
}

#[test]
fn display_has_sensible_digits() {
    let us = |q: Force| show(q, UnitSystem::Us).to_string();
    assert_eq!(us(lb(0.0)), "0 lb");
    assert_eq!(us(lb(1234.56)), "1235 lb");
    assert_eq!(us(lb(123_456.7)), "123457 lb");
    assert_eq!(us(lb(99.996)), "100 lb");
    assert_eq!(us(lb(-0.123_456)), "-0.1235 lb");
    assert_eq!(us(lb(f64::NAN)), "NaN lb");
    assert_eq!(us(lb(f64::INFINITY)), "inf lb");
    assert_eq!(us(lb(1e300)), "1e300 lb");
    assert_eq!(
        format!("{:.6}", show(lb(1.0 / 3.0), UnitSystem::Us)),
        "0.333333 lb"
    );
    assert_eq!(format!("{:>8}", show(ft(2.5), UnitSystem::Us)), "  2.5 ft");
    assert_eq!(
        show(psf_per_ft(150.0), UnitSystem::Si).to_string(),
        "23.56 kPa/m"
    );
    assert_eq!(show(deg(90.0), UnitSystem::Us).to_string(), "90°");
    assert_eq!(
        show_as(pcf(150.0), Measure::UnitWeight, UnitSystem::Us).to_string(),
        "150 pcf"
    );
    // A measure of another dimension is ignored.
    assert_eq!(
        show_as(ft(1.0), Measure::Force, UnitSystem::Us).to_string(),
        "1 ft"
    );
}

/// Every unit of every dimension reads its own symbol and aliases, and every
/// measure is shown in a unit of the table.
#[test]
fn one_table_serves_all() {
    fn spellings<Q: Measurable + std::fmt::Debug>() {
        for unit in Q::DIMENSION.units() {
            for name in std::iter::once(&unit.symbol).chain(unit.aliases) {
                let read: Q = parse(&format!("3 {name}")).unwrap();
                assert_relative_eq!(read.si(), 3.0 * unit.factor(), max_relative = 1e-15);
            }
        }
    }
    spellings::<Length>();
    spellings::<Area>();
    spellings::<Volume>();
    spellings::<SecondMoment>();
    spellings::<Velocity>();
    spellings::<Pressure>();
    spellings::<Force>();
    spellings::<LineLoad>();
    spellings::<ForcePerVolume>();
    spellings::<Torque>();
    spellings::<FlexuralRigidity>();
    spellings::<Angle>();
    spellings::<Ratio>();
    for measure in Measure::ALL {
        for system in [UnitSystem::Us, UnitSystem::Si] {
            let symbol = measure.symbol(system);
            assert!(
                measure
                    .dimension()
                    .units()
                    .iter()
                    .any(|u| u.symbol == symbol),
                "{measure:?} {symbol}"
            );
        }
    }
}

/// Helpers that change dimension: force on an arm, and back.
#[test]
fn moments() {
    assert_relative_eq!(
        moment(lb(100.0), ft(3.0)).to(lb_ft),
        300.0,
        max_relative = 1e-15
    );
    assert_relative_eq!(
        arm(lb_ft(300.0), lb(100.0)).to(ft),
        3.0,
        max_relative = 1e-15
    );
    assert_eq!(arm(lb_ft(300.0), lb(0.0)), ft(0.0));
}

proptest! {
    /// What is shown with all digits reads back the same.
    #[test]
    fn shown_and_read_back(value in -1e9..1e9_f64, si in any::<bool>()) {
        prop_assume!(value.abs() > 1e-3);
        let system = if si { UnitSystem::Si } else { UnitSystem::Us };
        let length = ft(value);
        let text = format!("{:.17}", show(length, system));
        let read: Length = parse(&text).unwrap();
        prop_assert!((read.value / length.value - 1.0).abs() < 1e-14, "{text}");
    }

    /// No text makes the parser panic or give a non-finite quantity.
    #[test]
    fn any_text(text in "\\PC{0,24}") {
        if let Ok(length) = parse::<Length>(&text) {
            prop_assert!(length.value.is_finite());
        }
    }

    /// Nor any text of likely characters.
    #[test]
    fn likely_text(text in "[-+0-9./ eftinm'\"]{0,16}") {
        if let Ok(length) = parse::<Length>(&text) {
            prop_assert!(length.value.is_finite());
        }
    }
}
