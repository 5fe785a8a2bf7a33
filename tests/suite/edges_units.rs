//! Units at their limits: what is just read and just refused, and why; words
//! of dimensions; numbers at the change of their form.

use groundline::error::Error;
use groundline::units::*;
use groundline::wind::AirTemperature;

const DIMENSIONS: [(Dimension, &str); 14] = [
    (Dimension::Length, "length"),
    (Dimension::Area, "area"),
    (Dimension::Volume, "volume"),
    (Dimension::SecondMoment, "second moment"),
    (Dimension::Velocity, "speed"),
    (Dimension::Pressure, "pressure"),
    (Dimension::Force, "force"),
    (Dimension::LineLoad, "force per length"),
    (Dimension::ForcePerVolume, "force per volume"),
    (Dimension::Torque, "moment"),
    (Dimension::FlexuralRigidity, "rigidity"),
    (Dimension::MassDensity, "density"),
    (Dimension::Angle, "angle"),
    (Dimension::Ratio, "number"),
];

/// Each dimension has its own word and units; symbols name one unit each.
#[test]
fn words_of_dimensions() {
    let mut words = Vec::new();
    for (dimension, word) in DIMENSIONS {
        assert!(dimension.word().contains(word), "{}", dimension.word());
        assert!(!words.contains(&dimension.word()));
        words.push(dimension.word());
        assert!(!dimension.units().is_empty());
        for unit in dimension.units() {
            assert!(unit.factor() > 0.0);
            let same = dimension.units().iter().filter(|u| u.symbol == unit.symbol);
            assert_eq!(same.count(), 1, "{}", unit.symbol);
        }
    }
}

/// What is wrong with a text is told for what it is.
#[test]
fn why_a_text_is_refused() {
    use ParseQuantityError as E;
    let d = Dimension::Length;
    for (text, error) in [
        ("", E::NotANumber(d)),
        ("ft", E::NotANumber(d)),
        ("-ft", E::NotANumber(d)),
        (".ft", E::NotANumber(d)),
        ("1/0 ft", E::NotANumber(d)),
        ("0/0 ft", E::NotANumber(d)),
        ("1/ ft", E::NotANumber(d)),
        ("1/x ft", E::NotANumber(d)),
        ("8", E::MissingUnit(d)),
        ("8 ", E::MissingUnit(d)),
        ("3 1/2", E::MissingUnit(d)),
        ("3 1/0 in", E::UnknownUnit(d)),
        ("2.5 1/2 in", E::UnknownUnit(d)),
        ("8 psf", E::UnknownUnit(d)),
        ("8 ftx", E::UnknownUnit(d)),
        ("8 ft x", E::UnknownUnit(d)),
        ("8 ft2", E::MissingUnit(d)),
        ("1e ft", E::UnknownUnit(d)),
        ("8 ft 6 ft", E::MixedParts(d)),
        ("8 in 6 in", E::MixedParts(d)),
        ("8 m 6 in", E::MixedParts(d)),
        ("8 ft 6 in 3 in", E::MixedParts(d)),
        ("1e999 ft", E::NotFinite(d)),
        ("-1e999 ft", E::NotFinite(d)),
    ] {
        assert_eq!(parse::<Length>(text), Err(error), "{text:?}");
    }
    let p = Dimension::Pressure;
    assert_eq!(parse::<Pressure>("8 psf 6 psf"), Err(E::UnknownUnit(p)));
    assert_eq!(parse::<Pressure>("8 ft"), Err(E::UnknownUnit(p)));
    // Each says so in words of its own, and what to give.
    let errors = [
        (E::NotANumber(d), "number"),
        (E::MissingUnit(d), "missing"),
        (E::UnknownUnit(d), "not one of this quantity"),
        (E::MixedParts(d), "feet and inches"),
        (E::NotFinite(d), "too large"),
    ];
    for (error, words) in errors {
        let text = error.to_string();
        assert!(text.contains(words), "{text}");
        assert!(text.contains("give a length in ft, "), "{text}");
    }
    let text = E::MissingUnit(Dimension::Angle).to_string();
    assert!(text.contains("give an angle in "), "{text}");
    let text = E::MissingUnit(Dimension::Area).to_string();
    assert!(text.contains("give an area in "), "{text}");
    let text = E::MissingUnit(Dimension::Ratio).to_string();
    assert!(
        text.ends_with("give a pure number or a percentage"),
        "{text}"
    );
}

/// Spellings at the limit of what a tape says.
#[test]
fn texts_that_are_just_read() {
    for (text, inches) in [
        ("6' .5\"", 72.5),
        ("6'-.5\"", 72.5),
        ("6 ft - 6 in", 78.0),
        ("6 ft -6in", 78.0),
        ("0' 6\"", 6.0),
        ("6' 0\"", 72.0),
        ("-0' 6\"", -6.0),
        ("-6' 6\"", -78.0),
        ("-3 1/2 in", -3.5),
        ("-3-1/2 in", -3.5),
        ("0 1/2 in", 0.5),
        ("-1/2 in", -0.5),
        ("0/2 in", 0.0),
        ("+5 in", 5.0),
        ("5. in", 5.0),
        ("5e0in", 5.0),
        ("5E+1 in", 50.0),
        ("50e-1 in", 5.0),
        ("5 1/4\"", 5.25),
        ("1' 1/2\"", 12.5),
        ("1 1/2' 3\"", 21.0),
    ] {
        let found = parse::<Length>(text).unwrap().to(inch);
        assert!((found - inches).abs() < 1e-9, "{text:?} {found}");
    }
    // An inch that takes away is no inches part, but a dash may be a hyphen.
    assert!(parse::<Length>("6 ft --6 in").is_err());
    assert!(parse::<Length>("6 ft +6 in").is_err());
}

/// h = M/V down to a force that counts as none, below 1e-200 N.
#[test]
fn arms_of_forces_of_nothing() {
    assert_eq!(arm(n_m(6.0), newton(2.0)), m(3.0));
    assert_eq!(arm(n_m(6.0), newton(-2.0)), m(-3.0));
    assert_eq!(arm(n_m(6.0), newton(0.0)), m(0.0));
    assert_eq!(arm(n_m(1e-200), newton(1e-200)), m(1.0));
    assert_eq!(arm(n_m(1e-200), newton(-1e-200)), m(-1.0));
    assert_eq!(arm(n_m(1e-200), newton(0.9e-200)), m(0.0));
    assert_eq!(moment(newton(3.0), m(4.0)), n_m(12.0));
    assert_eq!(bending_moment(pa(3.0), cu_m(4.0)), n_m(12.0));
}

/// Digits at the change of form: tiny and huge numbers in powers of ten, the
/// rest plain, no zeros that say nothing, and no digit before the point lost.
#[test]
fn digits_that_are_shown() {
    let shown = |value: f64| {
        Measured::number(value)
            .in_system(UnitSystem::Us)
            .to_string()
    };
    for (value, text) in [
        (0.0, "0"),
        (1e-6, "0.000001"),
        (0.99e-6, "9.9e-7"),
        (9.999_9e-7, "9.9999e-7"),
        (9.99e11, "999000000000"),
        (1e12, "1e12"),
        (-1e12, "-1e12"),
        (1.5e12, "1.5e12"),
        (9.999_9, "10"),
        (9.999, "9.999"),
        (12_345.6, "12346"),
        (-0.012_344, "-0.01234"),
        (1_200.0, "1200"),
        (1.2, "1.2"),
        (f64::INFINITY, "inf"),
    ] {
        assert_eq!(shown(value), text);
    }
    let digits = |digits: usize| {
        let shown = Measured::number(2.0 / 3.0).in_system(UnitSystem::Us);
        shown.significant(digits).to_string()
    };
    assert_eq!(digits(1), "0.7");
    assert_eq!(digits(2), "0.67");
    assert_eq!(digits(7), "0.6666667");
    assert_eq!(digits(0), "0.7", "one at least");
    assert_eq!(show(deg(45.0), UnitSystem::Si).to_string(), "45°");
    let pressure = Measured::new(psf(20.0));
    assert_eq!(pressure.measure(), Measure::Pressure);
    assert_eq!(
        pressure.shown_as(Measure::Stress).measure(),
        Measure::Stress
    );
    assert_eq!(pressure.shown_as(Measure::Length), pressure);
    assert_eq!(pressure.quantity::<Pressure>(), Some(psf(20.0)));
    assert_eq!(pressure.quantity::<Length>(), None);
    assert_eq!(Measured::number(3.0).measure(), Measure::Number);
}

/// A limit is allowed, beyond it is not, nor is what is no number; the refusal
/// holds the value and both limits, in either system.
#[test]
fn both_sides_of_a_limit() {
    for (degrees, taken) in [
        (-60.0, true),
        (60.0, true),
        (-60.000_001, false),
        (60.000_001, false),
        (f64::NAN, false),
        (f64::INFINITY, false),
        (f64::NEG_INFINITY, false),
    ] {
        let made = AirTemperature::celsius(degrees);
        assert_eq!(made.is_ok(), taken, "{degrees}");
    }
    let error = AirTemperature::celsius(61.0).unwrap_err();
    assert_eq!(
        error,
        Error::OutOfRange {
            field: "air temperature",
            value: Measured::number(61.0),
            least: Measured::number(-60.0),
            most: Measured::number(60.0),
        }
    );
    assert_eq!(error.field(), "air temperature");
    assert_eq!(
        error.to_string(),
        "air temperature 61 is not allowed: give -60 to 60"
    );
    // Holes are told in inches or millimetres.
    let hole = groundline::foundation::Hole::round(inch(2.0)).unwrap_err();
    assert_eq!(
        hole.in_system(UnitSystem::Us).to_string(),
        "hole diameter 2 in is not allowed: give 3 in to 120 in"
    );
    assert_eq!(
        hole.in_system(UnitSystem::Si).to_string(),
        "hole diameter 50.8 mm is not allowed: give 76.2 mm to 3048 mm"
    );
    for (size, taken) in [(3.0, true), (120.0, true), (2.999, false), (120.01, false)] {
        assert_eq!(
            groundline::foundation::Hole::round(inch(size)).is_ok(),
            taken
        );
    }
}
