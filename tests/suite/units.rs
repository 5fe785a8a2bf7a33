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
        show(lb(1.0 / 3.0), UnitSystem::Us)
            .significant(6)
            .to_string(),
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
        let text = show(length, system).significant(17).to_string();
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

/// The precision of a format is the number of decimals: `{:.1}` of 65.5 in was "5 ft"
/// when it meant significant digits.
#[test]
fn precision_means_decimals() {
    let depth = show_as(inch(65.4375), Measure::SectionLength, UnitSystem::Us);
    assert_eq!(format!("{depth:.0}"), "65 in");
    assert_eq!(format!("{depth:.1}"), "65.4 in");
    assert_eq!(format!("{depth:.3}"), "65.438 in");
    assert_eq!(format!("{depth:.6}"), "65.437500 in");
    assert_eq!(format!("{:.1}", show(inch(65.5), UnitSystem::Us)), "5.5 ft");
    assert_eq!(format!("{depth:>9.1}"), "  65.4 in");
    assert_eq!(depth.to_string(), "65.44 in");
    assert_eq!(depth.significant(2).to_string(), "65 in");
    assert_eq!(format!("{:.1}", depth.significant(2)), "65.4 in");
    let us = UnitSystem::Us;
    assert_eq!(format!("{:.2}", show(lb(-0.001), us)), "0.00 lb");
    assert_eq!(format!("{:.2}", show(lb(1e-9), us)), "0.00 lb");
    assert_eq!(format!("{:.1}", show(lb(-1.26), us)), "-1.3 lb");
    assert_eq!(format!("{:.1}", show(lb(f64::NAN), us)), "NaN lb");
    assert_eq!(format!("{:.1}", show(lb(1e300), us)), "1e300 lb");
    assert_eq!(format!("{:.1}", show(deg(12.34), us)), "12.3°");
}

/// A depth to dig to is rounded up to the step of a tape, never down.
#[test]
fn depths_to_dig_are_rounded_up() {
    let us = |depth: Length, step: Length| show_up(depth, step, UnitSystem::Us).to_string();
    assert_eq!(us(inch(65.4), inch(1.0)), "66 in");
    assert_eq!(us(inch(65.001), inch(1.0)), "66 in");
    assert_eq!(us(inch(65.0), inch(1.0)), "65 in");
    assert_eq!(us(inch(65.4), inch(6.0)), "66 in");
    assert_eq!(us(inch(65.4), ft(1.0)), "72 in");
    // Four digits would have rounded 100.125 down to 100.1.
    assert_eq!(us(inch(100.01), inch(0.125)), "100.125 in");
    assert_eq!(us(inch(10_000.01), inch(0.125)), "10000.125 in");
    // A length that its arithmetic put just above a mark is that mark.
    assert_eq!(us(ft(4.0) * 0.1 * 10.0 + inch(4e-9), inch(1.0)), "48 in");
    assert_eq!(
        show_up(m(1.001), mm(10.0), UnitSystem::Si).to_string(),
        "1010 mm"
    );
    // A step that is none leaves the length alone.
    for step in [0.0, -1.0, f64::NAN, f64::INFINITY, 1e-300] {
        assert_eq!(us(inch(65.4), inch(step)), "65.4 in", "{step}");
    }
    assert!(round_up(inch(f64::NAN), inch(1.0)).value.is_nan());
    assert_eq!(round_up(inch(0.0), inch(1.0)), inch(0.0));
    assert_eq!(round_up(lb(-2.5), lb(1.0)), lb(-2.0));
}

/// How people write lengths and units.
#[test]
fn texts_as_people_write_them() {
    for (text, inches) in [
        ("30 in.", 30.0),
        ("30in.", 30.0),
        ("30. in.", 30.0),
        ("6 ft.", 72.0),
        ("6 ft. 3 in.", 75.0),
        ("6 ft. 3-1/2 in.", 75.5),
        ("6 ft .5 in", 72.5),
        ("6'6", 78.0),
        ("6' 6", 78.0),
        ("6'-6", 78.0),
        ("6' 6 1/2", 78.5),
        ("6'6½", 78.5),
        ("-6'6", -78.0),
        ("6\u{2032}6", 78.0),
        ("6\u{2019}6\u{201d}", 78.0),
        ("6'6''", 78.0),
        ("3''", 3.0),
        ("6½ ft", 78.0),
        ("6 ½ ft", 78.0),
        ("6-½ ft", 78.0),
        ("½ in", 0.5),
        ("-½ in", -0.5),
        ("-6½ ft", -78.0),
        ("6 ft ¾ in", 72.75),
        ("6' 3⅞\"", 75.875),
        ("2⅜ in", 2.375),
        ("2 3\u{2044}8 in", 2.375),
        ("3\u{2044}4 in", 0.75),
    ] {
        let found = parse::<Length>(text).map(|length| length.to(inch));
        let found = found.unwrap_or_else(|why| panic!("{text:?}: {why}"));
        assert!((found - inches).abs() < 1e-9, "{text:?} {found}");
    }
    for (character, value) in [
        ('½', 1.0 / 2.0),
        ('⅓', 1.0 / 3.0),
        ('⅔', 2.0 / 3.0),
        ('¼', 1.0 / 4.0),
        ('¾', 3.0 / 4.0),
        ('⅕', 1.0 / 5.0),
        ('⅖', 2.0 / 5.0),
        ('⅗', 3.0 / 5.0),
        ('⅘', 4.0 / 5.0),
        ('⅙', 1.0 / 6.0),
        ('⅚', 5.0 / 6.0),
        ('⅐', 1.0 / 7.0),
        ('⅛', 1.0 / 8.0),
        ('⅜', 3.0 / 8.0),
        ('⅝', 5.0 / 8.0),
        ('⅞', 7.0 / 8.0),
        ('⅑', 1.0 / 9.0),
        ('⅒', 1.0 / 10.0),
    ] {
        assert_eq!(parse::<Length>(&format!("{character} m")), Ok(m(value)));
        assert_eq!(
            parse::<Length>(&format!("2{character} m")),
            Ok(m(2.0 + value))
        );
    }
    for text in [
        "3 ft-lbf",
        "3 lbf-ft",
        "3 lbf·ft",
        "3 ft lbf",
        "3 ft-lbs",
        "36 in-lbf",
    ] {
        let found = parse::<Torque>(text).unwrap().to(lb_ft);
        assert_relative_eq!(found, 3.0, max_relative = 1e-14);
    }
    for text in [
        "3 k-ft",
        "3 ft-k",
        "3 kip ft",
        "3 ft-kips",
        "36 k-in",
        "3000 ft-lbf",
    ] {
        let found = parse::<Torque>(text).unwrap().to(kip_ft);
        assert_relative_eq!(found, 3.0, max_relative = 1e-14);
    }
    for text in [
        "20 lbf/ft2",
        "20 lbf/ft²",
        "20 lbf/ft^2",
        "20 lb/sq ft",
        "0.02 ksf",
        "20 psf.",
    ] {
        let found = parse::<Pressure>(text).unwrap().to(psf);
        assert_relative_eq!(found, 20.0, max_relative = 1e-14);
    }
    assert_eq!(parse::<Pressure>("36 k/in2"), Ok(ksi(36.0)));
    assert_eq!(parse::<Pressure>("36 lbf/in2"), Ok(lb_per_sq_in(36.0)));
    assert_eq!(parse::<LineLoad>("1.5 klf"), Ok(kip_per_ft(1.5)));
    assert_eq!(parse::<LineLoad>("1.5 k/ft"), Ok(kip_per_ft(1.5)));
    assert_relative_eq!(kip_per_ft(1.5).to(lb_per_ft), 1500.0, max_relative = 1e-15);
    assert_eq!(parse::<LineLoad>("15 lbf/ft"), Ok(lb_per_ft(15.0)));
    assert_eq!(parse::<Force>("2 k"), Ok(kipf(2.0)));
    assert_eq!(parse::<Force>("2 kips"), Ok(kipf(2.0)));
    assert_eq!(parse::<ForcePerVolume>("120 lbf/ft3"), Ok(pcf(120.0)));
    assert_eq!(
        parse::<ForcePerVolume>("150 lb/ft2/ft"),
        Ok(psf_per_ft(150.0))
    );
    assert_eq!(parse::<FlexuralRigidity>("5 k-in2"), Ok(kip_sq_in(5.0)));
    assert_relative_eq!(kip_sq_in(5.0).to(lb_sq_in), 5000.0, max_relative = 1e-15);
    assert_eq!(parse::<Volume>("2 cu. yd."), Ok(cu_yd(2.0)));
}

/// What is refused is named for what it is.
#[test]
fn commas_and_nominal_sizes_are_refused_by_name() {
    use ParseQuantityError as E;
    let d = Dimension::Length;
    for (text, error) in [
        ("1,8 m", E::Comma(d)),
        ("1,234 ft", E::Comma(d)),
        ("-1,8 m", E::Comma(d)),
        ("6' 6,5\"", E::Comma(d)),
        ("4x4", E::NominalSize(d)),
        ("4X4", E::NominalSize(d)),
        ("4 x 4", E::NominalSize(d)),
        ("4\u{d7}4", E::NominalSize(d)),
        ("2x4 in", E::NominalSize(d)),
        ("1.8, m", E::UnknownUnit(d)),
        ("4x", E::UnknownUnit(d)),
        // Is it 6 ft and .6 in, or 6 in? Neither is guessed.
        ("6 ft.6 in", E::UnknownUnit(d)),
        ("30 in..", E::NotANumber(d)),
        ("30 .in", E::UnknownUnit(d)),
        ("6'.", E::NotANumber(d)),
        ("2.5½ in", E::UnknownUnit(d)),
        ("1/2½ in", E::UnknownUnit(d)),
        ("½½ in", E::UnknownUnit(d)),
        ("6½", E::MissingUnit(d)),
        ("6 ft 6", E::MissingUnit(d)),
        ("6\" 6", E::MissingUnit(d)),
        ("6'6 ft", E::MixedParts(d)),
    ] {
        assert_eq!(parse::<Length>(text), Err(error), "{text:?}");
    }
    assert_eq!(
        parse::<Length>("1,8 m").unwrap_err().to_string(),
        "a comma in a number is not read, write 1.8 for 1,8 and 1234 for 1,234; \
         give a length in ft, in, yd, m, cm, mm"
    );
    assert_eq!(
        parse::<Length>("4x4").unwrap_err().to_string(),
        "this is a nominal size, write the actual one (a dressed 4x4 is 3.5 in, a 6x6 5.5 in); \
         give a length in ft, in, yd, m, cm, mm"
    );
    let comma = parse::<Ratio>("0,85").unwrap_err();
    assert_eq!(comma, E::Comma(Dimension::Ratio));
    assert!(
        comma
            .to_string()
            .ends_with("give a pure number or a percentage")
    );
}
