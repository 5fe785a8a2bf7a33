//! Text as a quantity of every dimension: what is read is finite, blanks around
//! it change nothing, and what is shown of it is read again.

use groundline::units::*;

/// Runs one input, whatever it is.
pub(crate) fn run(data: &[u8]) {
    let Ok(text) = core::str::from_utf8(data) else {
        return;
    };
    read::<Length>(text);
    read::<Area>(text);
    read::<Volume>(text);
    read::<SecondMoment>(text);
    read::<Velocity>(text);
    read::<Pressure>(text);
    read::<Force>(text);
    read::<LineLoad>(text);
    read::<ForcePerVolume>(text);
    read::<Torque>(text);
    read::<FlexuralRigidity>(text);
    read::<MassDensity>(text);
    read::<Angle>(text);
    read::<Ratio>(text);
}

fn read<Q: Measurable>(text: &str) {
    let quantity = match parse::<Q>(text) {
        Ok(quantity) => quantity,
        Err(why) => {
            let said = why.to_string();
            assert!(!said.is_empty() && !said.contains('\n'), "{said}");
            return;
        }
    };
    assert!(quantity.si().is_finite(), "{text:?}: {}", quantity.si());
    let blanks = format!("\t {text}\u{a0}\n");
    assert_eq!(
        parse::<Q>(&blanks).map(Q::si),
        Ok(quantity.si()),
        "{text:?}"
    );
    for measure in Measure::ALL {
        if measure.dimension() == Q::DIMENSION {
            for system in [UnitSystem::Us, UnitSystem::Si] {
                shown(quantity, *measure, system);
            }
        }
    }
}

/// Every measure of the dimension in either system, at four digits and at all.
fn shown<Q: Measurable>(quantity: Q, measure: Measure, system: UnitSystem) {
    let shown = Measured::new(quantity).shown_as(measure).in_system(system);
    for (text, tolerance) in [
        (format!("{shown}"), 5.1e-4),
        (shown.significant(17).to_string(), 1e-15),
    ] {
        // A number that its unit makes too large or too small to hold.
        if text.starts_with("inf") || text.starts_with("-inf") {
            assert!(quantity.si().abs() > 1e290, "{text}");
            continue;
        }
        let again = match parse::<Q>(&text) {
            Ok(again) => again.si(),
            Err(_) if quantity.si().abs() > 1e290 => continue,
            Err(why) => panic!("{text:?} is shown and not read: {why}"),
        };
        let off = (again - quantity.si()).abs();
        let allowed = tolerance * quantity.si().abs() + 1e-290;
        assert!(off <= allowed, "{} shown as {text:?}", quantity.si());
    }
}
