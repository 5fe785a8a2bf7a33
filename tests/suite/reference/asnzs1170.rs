//! AS/NZS 1170.2 and the CFE manual: their cases of wind.csv.

use super::Method;
use crate::asnzs1170::{coefficients, wall, wind};
use crate::vectors::Case;
use approx::assert_relative_eq;
use groundline::units::*;
use groundline::wind::*;

pub(crate) const METHODS: &[Method] = &[
    (
        "asnzs_cfe_cpn",
        "Cpn of a hoarding, AS/NZS 1170.2 and CFE",
        hoarding,
    ),
    ("asnzs_zoned", "Cpn by zones, AS/NZS 1170.2", zoned),
    ("asnzs_porosity", "porosity factor, AS/NZS 1170.2", porosity),
    ("cfe_pressure", "pressure, CFE", cfe),
];

fn temperature(text: &str) -> AirTemperature {
    AirTemperature::celsius(text.trim_end_matches('C').trim().parse().unwrap()).unwrap()
}

fn cfe(case: &Case) {
    let g = cfe_density_factor(case.input("Omega"), temperature(case.word("tau"))).unwrap();
    case.compare_number("G", g);
    if !case.expects("VD") {
        case.compare("q", cfe_velocity_pressure(case.input("V"), g).unwrap());
        return;
    }
    let design = case.input::<Velocity>("VR") * (case.number("FT") * case.number("Frz"));
    case.compare("VD", design);
    let q = cfe_velocity_pressure(design, g).unwrap();
    case.compare("q", q);
    let (b, panel, top): (Length, Length, Length) =
        (case.input("b"), case.input("h_panel"), case.input("H"));
    let shape = WallShape::new(b, top, top - panel, case.number("solidity")).unwrap();
    let wind = wind(shape);
    let kp = porosity_factor(shape.solidity()).unwrap();
    case.compare_number("Kp", kp);
    let normal = coefficients(&wind, WindCase::Uniform)[0];
    case.compare_number("Cpn", normal);
    case.compare("p_0_45", q * (kp * normal));
    case.compare(
        "p_90",
        q * (kp * coefficients(&wind, WindCase::Along(Edge::Start))[0]),
    );
    // 0.2 b off centre, by the force and moment of slices.
    let off = WindCase::OffCentre(Edge::Start);
    let (mut force, mut turning) = (0.0, 0.0);
    for i in 0..4000 {
        let (from, to) = (b * (f64::from(i) / 4000.0), b * (f64::from(i + 1) / 4000.0));
        let slice = wind.force(off, from, to).value;
        force += slice;
        turning += slice * 0.5 * (from + to).value;
    }
    let offset = 0.5 * b.value - turning / force;
    assert_relative_eq!(offset, 0.8, max_relative = 1e-6);
    case.compare("e_45", m((offset * 1e4).round() / 1e4));
}

fn hoarding(case: &Case) {
    let hoarding = Hoarding::new(case.number("b_over_c"), case.number("c_over_h")).unwrap();
    case.compare_number("Cpn", hoarding.normal());
}

fn zoned(case: &Case) {
    assert_eq!(
        (case.word("wind_angle"), case.word("return")),
        ("45 deg", "none")
    );
    let wind = wind(wall(case.number("b_over_c"), case.number("c_over_h"), 1.0));
    let zones: Vec<_> = wind.strips(WindCase::Zones(Edge::Start)).collect();
    for (zone, name) in zones.iter().zip(["Cpn_0_2c", "Cpn_2c_4c", "Cpn_beyond"]) {
        case.compare_number(name, zone.coefficient);
    }
    // c is 2 m.
    assert_eq!([zones[0].to, zones[1].to].map(|x| x.to(m)), [4.0, 8.0]);
}

fn porosity(case: &Case) {
    case.compare_number("Kp", porosity_factor(case.number("delta")).unwrap());
}
