//! AS/NZS 1170.2 and the CFE manual: published and quoted cases, the table row
//! by row, and by hand. Sources and marks stand in tests/data.

use crate::vectors::{Case, rows};
use approx::assert_relative_eq;
use groundline::caution::Caution;
use groundline::source::Mark;
use groundline::units::*;
use groundline::wind::*;

fn site(speed: f64) -> AsNzsSite {
    AsNzsSite::new(RegionalSpeed::ultimate(m_per_s(speed)).unwrap())
}

/// A wall of these proportions, its panel 2 m high.
fn wall(b_over_c: f64, c_over_h: f64, solidity: f64) -> WallShape {
    let top = 2.0 / c_over_h;
    WallShape::new(m(2.0 * b_over_c), m(top), m(top - 2.0), solidity).unwrap()
}

fn wind(shape: WallShape) -> WallWind<AsNzsSite> {
    WallWind::new(&site(40.0), shape, WallEnds::FREE).unwrap()
}

fn coefficients(wind: &WallWind<AsNzsSite>, case: WindCase) -> Vec<f64> {
    wind.strips(case).map(|strip| strip.coefficient).collect()
}

fn temperature(text: &str) -> AirTemperature {
    AirTemperature::celsius(text.trim_end_matches('C').trim().parse().unwrap()).unwrap()
}

/// Runs a row of wind.csv if it is one of these.
pub(crate) fn run(case: &Case) -> bool {
    match case.method.as_str() {
        "asnzs_cfe_cpn" => {
            let hoarding = Hoarding::new(case.number("b_over_c"), case.number("c_over_h")).unwrap();
            case.compare_number("Cpn", hoarding.normal());
        }
        "asnzs_zoned" => {
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
        "asnzs_porosity" => {
            case.compare_number("Kp", porosity_factor(case.number("delta")).unwrap());
        }
        "cfe_pressure" => cfe(case),
        _ => return false,
    }
    true
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

/// Every row of the table: formulas written out again here, zones as told.
#[test]
fn hoarding_table() {
    let table = rows("asnzs1170_cpn.csv");
    let mut seen = 0;
    for row in &table[1..] {
        let (wind_from, b_range, c_range) = (row[1].as_str(), row[2].as_str(), row[3].as_str());
        let b_values: &[f64] = match b_range {
            "0.5 to 5" => &[0.5, 1.0, 3.0, 5.0],
            ">5" => &[5.01, 8.0, 40.0],
            _ => &[0.5, 3.0, 12.0],
        };
        let c_values: &[f64] = match c_range {
            "0.2 to 1" => &[0.2, 0.5, 0.8, 1.0],
            "<0.2" => &[0.1, 0.19],
            "<=0.7" => &[0.3, 0.7],
            ">0.7" => &[0.71, 1.0],
            other => panic!("{other}"),
        };
        let formula = |b: f64, c: f64| match row[5].as_str() {
            "1.3+0.5*(0.3+log10(b/c))*(0.8-c/h)" => 1.3 + 0.5 * (0.3 + b.log10()) * (0.8 - c),
            "1.7-0.5*c/h" => 1.7 - 0.5 * c,
            // The other practice is used where it is larger.
            "1.4+0.3*log10(b/c)" if b > 5.0 => (1.4 + 0.3 * b.log10()).max(1.7 - 0.5 * c),
            "1.4+0.3*log10(b/c)" => 1.4 + 0.3 * b.log10(),
            number => number.trim_start_matches("+-").parse().unwrap(),
        };
        for b in b_values {
            for c in c_values {
                let wind = wind(wall(*b, *c, 1.0));
                let expected = formula(*b, *c);
                let zone = match row[4].as_str() {
                    "0 to 2c" | "0 to 2h" | "all" => 0,
                    "2c to 4c" | "2h to 4h" | ">2h" => 1,
                    _ => 2,
                };
                let case = match wind_from {
                    "0deg" => WindCase::Uniform,
                    "45deg" if row[4] == "all" => WindCase::OffCentre(Edge::Start),
                    "45deg" => WindCase::Zones(Edge::Start),
                    "90deg" => WindCase::Along(Edge::Start),
                    "45deg with return" => {
                        // One transcription, not used: no reduction.
                        let ends = WallEnds {
                            start: WallEnd::Return(m(9.0)),
                            end: WallEnd::Free,
                        };
                        let cornered = WallWind::new(&site(40.0), *wind.shape(), ends).unwrap();
                        assert_eq!(
                            coefficients(&cornered, WindCase::Zones(Edge::Start)),
                            coefficients(&wind, WindCase::Zones(Edge::Start))
                        );
                        assert!(expected < coefficients(&wind, WindCase::Zones(Edge::Start))[0]);
                        seen += 1;
                        continue;
                    }
                    other => panic!("{other}"),
                };
                let ours = coefficients(&wind, case);
                let Some(ours) = ours.get(zone) else {
                    // The wall ends before that zone.
                    let height = if *c > 0.7 { 1.0 / c } else { 1.0 };
                    assert!(*b <= height * if zone == 1 { 2.0 } else { 4.0 });
                    continue;
                };
                assert_relative_eq!(*ours, expected, max_relative = 1e-12);
                seen += 1;
            }
        }
    }
    assert!(seen > 60);
}

/// Zones are told in c up to c/h = 0.7 and in h above.
#[test]
fn zone_lengths() {
    let ends = |c: f64, case| {
        let wind = wind(wall(20.0, c, 1.0));
        wind.strips(case)
            .map(|strip| strip.to.to(m))
            .collect::<Vec<_>>()
    };
    for case in [WindCase::Zones(Edge::Start), WindCase::Along(Edge::Start)] {
        assert_eq!(ends(0.5, case)[..2], [4.0, 8.0]);
        assert_relative_eq!(ends(0.8, case)[0], 5.0, max_relative = 1e-12);
        assert_relative_eq!(ends(0.8, case)[1], 10.0, max_relative = 1e-12);
    }
}

/// p = ½ ρ Vdes² Cshp Cdyn with each multiplier once, and not below 30 m/s.
#[test]
fn speed_and_pressure() {
    let site = site(50.0)
        .with_climate_multiplier(1.05)
        .unwrap()
        .with_direction_multiplier(0.95)
        .unwrap()
        .with_terrain_height_multiplier(0.83)
        .unwrap()
        .with_shielding_multiplier(0.9)
        .unwrap()
        .with_topographic_multiplier(1.1)
        .unwrap()
        .with_dynamic_factor(1.2)
        .unwrap();
    let v: f64 = 50.0 * 1.05 * 0.95 * 0.83 * 0.9 * 1.1;
    assert_relative_eq!(site.design_speed().to(m_per_s), v, max_relative = 1e-12);
    assert_relative_eq!(
        site.design_pressure().to(pa),
        0.6 * v * v * 1.2,
        max_relative = 1e-12
    );
    let shape = WallShape::new(m(40.0), m(1.8), m(0.0), 0.6).unwrap();
    let wind = WallWind::new(&site, shape, WallEnds::FREE).unwrap();
    // Long wall on the ground: first 2 h at 2.4; Kp = 1 − 0.4².
    let first = wind.strips(WindCase::Zones(Edge::End)).next().unwrap();
    assert_relative_eq!(
        first.pressure.to(pa),
        0.6 * v * v * 1.2 * 2.4 * 0.84,
        max_relative = 1e-12
    );
    assert!(wind.cautions().contains(Caution::Shelter));
    assert!(wind.cautions().contains(Caution::OpenFence));
    let slow = AsNzsSite::new(RegionalSpeed::ultimate(m_per_s(32.0)).unwrap())
        .with_terrain_height_multiplier(0.83)
        .unwrap();
    assert_eq!(slow.design_speed(), m_per_s(30.0));
}

/// The two readings of oblique wind on a long wall.
#[test]
fn off_centre_zones() {
    let shape = wall(10.0, 1.0, 1.0);
    let also = wind(shape);
    let only = WallWind::new(
        &site(40.0).with_off_centre_zones(OffCentreZones::ZonesOnly),
        shape,
        WallEnds::FREE,
    )
    .unwrap();
    let off = WindCase::OffCentre(Edge::Start);
    assert!(also.has(off) && !only.has(off));
    // Its total is that of the zones: (2.4 + 1.2) 2 h + 0.6 × 6 h over 10 h.
    assert_relative_eq!(coefficients(&also, off)[0], 1.08, max_relative = 1e-12);
    assert_relative_eq!(
        also.force(off, m(0.0), m(20.0)).value,
        also.force(WindCase::Zones(Edge::Start), m(0.0), m(20.0))
            .value,
        max_relative = 1e-12
    );
    // Shorter walls have no zones, and their eccentric case stays.
    let short = WallWind::new(
        &site(40.0).with_off_centre_zones(OffCentreZones::ZonesOnly),
        wall(5.0, 1.0, 1.0),
        WallEnds::FREE,
    )
    .unwrap();
    assert!(short.has(off) && !short.has(WindCase::Zones(Edge::Start)));
}

/// Below b/c = 0.5 the table's end is held and said to be.
#[test]
fn beyond_the_table() {
    let at = |b: f64| Hoarding::new(b, 1.0).unwrap();
    assert_eq!(at(0.3).normal(), at(0.5).normal());
    assert!(at(0.3).beyond_table() && !at(0.5).beyond_table());
    assert!(
        wind(wall(0.3, 1.0, 1.0))
            .cautions()
            .contains(Caution::BeyondTable)
    );
    assert!(
        !wind(wall(0.6, 1.0, 1.0))
            .cautions()
            .contains(Caution::BeyondTable)
    );
}

/// The mark travels with the number: the formula is published, the rest quoted.
#[test]
fn marks() {
    let mark = |b: f64, case| {
        wind(wall(b, 1.0, 1.0))
            .strips(case)
            .next()
            .unwrap()
            .clause
            .mark
    };
    assert_eq!(mark(2.0, WindCase::Uniform), Mark::Published);
    assert_eq!(mark(9.0, WindCase::Uniform), Mark::Quoted);
    assert_eq!(mark(9.0, WindCase::Zones(Edge::Start)), Mark::Quoted);
    assert_eq!(mark(9.0, WindCase::OffCentre(Edge::Start)), Mark::Derived);
    assert_eq!(mark(2.0, WindCase::OffCentre(Edge::Start)), Mark::Derived);
}
