//! EN 1991-1-4: published and quoted cases, the tables cell by cell, and by
//! hand. Sources and marks stand in tests/data.

use crate::vectors::{Case, rows};
use approx::assert_relative_eq;
use groundline::caution::Caution;
use groundline::units::*;
use groundline::wind::*;

fn terrain(numeral: &str) -> Terrain {
    Terrain::ALL
        .into_iter()
        .find(|terrain| terrain.name() == numeral)
        .unwrap()
}

fn site(speed: Velocity, terrain: Terrain) -> EnSite {
    EnSite::new(FundamentalSpeed::ten_minute_mean(speed).unwrap(), terrain)
}

fn number(text: &str) -> f64 {
    text.parse().unwrap()
}

/// A return period in years as an annual probability.
fn annual(period: &str) -> f64 {
    1.0 / number(period.trim_end_matches('y').trim())
}

/// Runs a row of wind.csv if it is one of EN 1991-1-4.
pub(crate) fn run(case: &Case) -> bool {
    match case.method.as_str() {
        "en1991_cprob" => {
            let p = annual(case.word("T"));
            let factor = probability_factor(p, case.number("K"), case.number("n")).unwrap();
            case.compare_number("cprob", factor);
        }
        "en1991_qp" => peak(case),
        "en1991_cpnet" => {
            let l = if case.has("l_over_h") {
                case.number("l_over_h")
            } else {
                7.0
            };
            let returns = case
                .has("return_over_h")
                .then(|| case.number("return_over_h"));
            let returns = returns.filter(|r| *r > 0.0);
            let cp = cp_net(l, returns, case.number("solidity")).unwrap();
            for (zone, cp) in ["A", "B", "C", "D"].into_iter().zip(cp) {
                case.compare_number(zone, cp);
            }
        }
        "en1991_wall_pressure" => {
            let cprob = probability_factor(annual(case.word("return_period")), 0.2, 0.5).unwrap();
            let base: Length = case.input("base");
            let site = site(case.input("vb0"), terrain(case.word("terrain")))
                .with_probability_factor(cprob)
                .unwrap()
                .standing_on(base)
                .unwrap();
            let height: Length = case.input("h");
            let wall = WallShape::new(case.input("l"), height, m(0.0), 1.0).unwrap();
            let wind = WallWind::new(&site, wall, WallEnds::FREE).unwrap();
            assert_relative_eq!(
                wind.peak_pressure().height.value,
                case.input::<Length>("ze").value
            );
            let strips: Vec<_> = wind.strips(WindCase::Zones(Edge::Start)).collect();
            assert_eq!(strips.len(), 4);
            for (zone, strip) in ["A", "B", "C", "D"].into_iter().zip(strips) {
                case.compare(zone, strip.pressure);
            }
        }
        _ => return false,
    }
    true
}

fn peak(case: &Case) {
    let peaks: Vec<_> = case
        .word("terrain")
        .split(',')
        .map(|numeral| {
            let site = site(case.input("vb"), terrain(numeral));
            PeakPressure::at(&site, case.input("z")).unwrap()
        })
        .collect();
    let all: Vec<Pressure> = peaks.iter().map(PeakPressure::pressure).collect();
    case.compare_all("qp", &all);
    if case.expects("kr") {
        case.compare_number("kr", peaks[0].kr);
        case.compare_number("cr", peaks[0].roughness_factor);
        case.compare("vm", peaks[0].mean_velocity);
        case.compare_number("Iv", peaks[0].turbulence_intensity);
    }
}

/// Table 4.1. Quoted.
#[test]
fn terrain_table() {
    let rows = rows("en1991_terrain.csv");
    assert_eq!(rows.len(), 6);
    for row in &rows[1..] {
        let terrain = terrain(&row[0]);
        assert_eq!(terrain.roughness_length(), m(number(&row[1])));
        assert_eq!(terrain.least_height(), m(number(&row[2])));
    }
}

/// Table 7.9. Quoted.
#[test]
fn net_pressure_table() {
    let rows = rows("en1991_cpnet.csv");
    assert_eq!(rows.len(), 6);
    for row in &rows[1..] {
        let ratios: &[f64] = match row[2].as_str() {
            "<=3" => &[0.5, 2.0, 3.0],
            ">=10" => &[10.0, 11.0, 1000.0],
            "any" => &[1.0, 3.0, 4.0, 7.0, 10.0, 50.0],
            exact => &[number(exact)],
        };
        let returns: &[Option<f64>] = match row[1].as_str() {
            "none" => &[None, Some(0.0)],
            "any" => &[None, Some(0.4), Some(1.0)],
            _ => &[Some(1.0), Some(5.0)],
        };
        for l in ratios {
            for returns in returns {
                let ours = cp_net(*l, *returns, number(&row[0])).unwrap();
                for (cell, ours) in row[3..].iter().zip(ours) {
                    assert_relative_eq!(ours, number(cell), max_relative = 1e-12);
                }
            }
        }
    }
}

/// Zones from the windward end. Quoted.
#[test]
fn zone_table() {
    let rows = rows("en1991_zones.csv");
    let site = site(m_per_s(24.0), Terrain::Two);
    let wind = |length: f64| {
        let wall = WallShape::new(m(length), m(2.0), m(0.0), 1.0).unwrap();
        WallWind::new(&site, wall, WallEnds::FREE).unwrap()
    };
    for edge in [Edge::Start, Edge::End] {
        let wall = wind(30.0);
        let strips: Vec<_> = wall.strips(WindCase::Zones(edge)).collect();
        for (row, strip) in rows[1..].iter().zip(&strips) {
            let far = if row[2] == "end" {
                15.0
            } else {
                number(&row[2])
            };
            let (from, to) = match edge {
                Edge::Start => (strip.from, strip.to),
                Edge::End => (m(30.0) - strip.to, m(30.0) - strip.from),
            };
            assert_relative_eq!(from.to(m), 2.0 * number(&row[1]), epsilon = 1e-12);
            assert_relative_eq!(to.to(m), 2.0 * far, epsilon = 1e-12);
        }
        assert_eq!(strips.len(), 4);
    }
    // Cut off at the end of a short wall: l of 1.5 h, and of 3 h.
    assert_eq!(wind(3.0).strips(WindCase::Zones(Edge::Start)).count(), 2);
    assert_eq!(wind(6.0).strips(WindCase::Zones(Edge::Start)).count(), 3);
}

/// Between the rows, by hand: l/h 4 halfway from 3 to 5, 7.5 halfway from 5 to
/// 10; a return of half h; solidity 0.9.
#[test]
fn between_the_rows() {
    assert_relative_eq!(
        cp_net(4.0, None, 1.0).unwrap()[0],
        2.6,
        max_relative = 1e-12
    );
    assert_relative_eq!(
        cp_net(7.5, None, 1.0).unwrap()[2],
        1.55,
        max_relative = 1e-12
    );
    assert_relative_eq!(
        cp_net(10.0, Some(0.5), 1.0).unwrap()[0],
        2.75,
        max_relative = 1e-12
    );
    assert_relative_eq!(
        cp_net(10.0, None, 0.9).unwrap()[0],
        2.3,
        max_relative = 1e-12
    );
    assert_relative_eq!(
        cp_net(10.0, Some(0.5), 0.9).unwrap()[0],
        1.975,
        max_relative = 1e-12
    );
}

/// Every factor reaches the pressure with its own power.
#[test]
fn factors_reach_the_pressure() {
    let plain = site(m_per_s(24.0), Terrain::Three);
    let q = |site: &EnSite| PeakPressure::at(site, m(2.0)).unwrap().pressure().value;
    let ratio = |site: EnSite| q(&site) / q(&plain);
    assert_relative_eq!(
        ratio(plain.with_direction_factor(0.9).unwrap()),
        0.81,
        max_relative = 1e-12
    );
    assert_relative_eq!(
        ratio(plain.with_season_factor(0.8).unwrap()),
        0.64,
        max_relative = 1e-12
    );
    assert_relative_eq!(
        ratio(plain.with_probability_factor(1.1).unwrap()),
        1.21,
        max_relative = 1e-12
    );
    assert_relative_eq!(
        ratio(plain.with_air_density(kg_per_cu_m(1.0)).unwrap()),
        0.8,
        max_relative = 1e-12
    );
    // Terrain III below 5 m: ln(5/0.3).
    let log = (5.0_f64 / 0.3).ln();
    let gust = |c0: f64, ki: f64| 1.0 + 7.0 * ki / (c0 * log);
    assert_relative_eq!(
        ratio(plain.with_orography_factor(1.3).unwrap()),
        1.69 * gust(1.3, 1.0) / gust(1.0, 1.0),
        max_relative = 1e-12
    );
    assert_relative_eq!(
        ratio(plain.with_turbulence_factor(0.8).unwrap()),
        gust(1.0, 0.8) / gust(1.0, 1.0),
        max_relative = 1e-12
    );
    // The structural factor is on the pressure of the wall.
    let wall = WallShape::new(m(20.0), m(2.0), m(0.0), 1.0).unwrap();
    let first = |site: &EnSite| {
        let wind = WallWind::new(site, wall, WallEnds::FREE).unwrap();
        wind.strips(WindCase::Zones(Edge::Start))
            .next()
            .unwrap()
            .pressure
            .value
    };
    let stiff = plain.with_structural_factor(1.05).unwrap();
    assert_relative_eq!(first(&stiff) / first(&plain), 1.05, max_relative = 1e-12);
    // Nothing of a wall on the ground stands lower than zmin.
    assert_eq!(
        q(&plain),
        PeakPressure::at(&plain, m(5.0)).unwrap().pressure().value
    );
    assert!(PeakPressure::at(&plain, m(200.1)).is_err());
}

/// 7.4.3: a panel raised by a quarter of its height, or not longer than high,
/// is a signboard; its force stands 0.25 b off centre.
#[test]
fn signboards() {
    let site = site(m_per_s(24.0), Terrain::Two);
    let wind = |length: f64, top: f64, gap: f64| {
        let wall = WallShape::new(m(length), m(top), m(gap), 1.0).unwrap();
        WallWind::new(&site, wall, WallEnds::FREE).unwrap()
    };
    let off = WindCase::OffCentre(Edge::Start);
    for (sign, is) in [
        (wind(6.0, 2.5, 0.5), true),
        (wind(6.0, 2.48, 0.48), false),
        (wind(2.0, 2.0, 0.0), true),
        (wind(2.01, 2.0, 0.0), false),
    ] {
        assert_eq!(sign.has(off), is);
        assert_eq!(sign.has(WindCase::Zones(Edge::End)), !is);
    }
    let sign = wind(6.0, 2.5, 0.5);
    // ze = zg + h/2.
    assert_relative_eq!(sign.peak_pressure().height.to(m), 1.5, max_relative = 1e-12);
    assert_relative_eq!(sign.resultant_height().to(m), 1.5, max_relative = 1e-12);
    let total = sign.force(off, m(0.0), m(6.0));
    let by_hand = 1.8 * sign.peak_pressure().pressure().value * 6.0 * 2.0;
    assert_relative_eq!(total.value, by_hand, max_relative = 1e-12);
    // Its resultant, by slices: 3 m − 0.25 × 6 m from the start.
    let (mut turning, slices) = (0.0, 3000);
    for i in 0..slices {
        let (from, to) = (m(0.002 * f64::from(i)), m(0.002 * f64::from(i + 1)));
        turning += sign.force(off, from, to).value * 0.5 * (from + to).value;
    }
    assert_relative_eq!(turning / total.value, 1.5, max_relative = 1e-6);
    // The strip tells the pressure at both ends: 2.5 and −0.5 of the mean.
    let strip = sign.strips(off).next().unwrap();
    let mean = 1.8 * sign.peak_pressure().pressure();
    assert_relative_eq!((strip.pressure / mean).value, 2.5, max_relative = 1e-12);
    assert_relative_eq!(
        (strip.pressure_at_to / mean).value,
        -0.5,
        max_relative = 1e-12
    );
}

/// 7.4.2: the factor is applied farther than h from both ends, nowhere else.
#[test]
fn shelter() {
    let plain = site(m_per_s(24.0), Terrain::Two);
    let sheltered = plain.with_shelter_factor(0.6).unwrap();
    let wall = WallShape::new(m(20.0), m(2.0), m(0.0), 1.0).unwrap();
    let with = WallWind::new(&sheltered, wall, WallEnds::FREE).unwrap();
    let without = WallWind::new(&plain, wall, WallEnds::FREE).unwrap();
    for case in [WindCase::Zones(Edge::Start), WindCase::Zones(Edge::End)] {
        let ratio = |from: f64, to: f64| {
            let share = with.force(case, m(from), m(to)) / without.force(case, m(from), m(to));
            share.value
        };
        for (from, to) in [(0.0, 2.0), (0.0, 0.5), (18.0, 20.0), (19.9, 20.0)] {
            assert_relative_eq!(ratio(from, to), 1.0, max_relative = 1e-12);
        }
        for (from, to) in [(2.0, 18.0), (2.0, 2.1), (7.9, 8.1), (17.9, 18.0)] {
            assert_relative_eq!(ratio(from, to), 0.6, max_relative = 1e-12);
        }
    }
    assert!(with.cautions().contains(Caution::Shelter));
    assert!(!without.cautions().contains(Caution::Shelter));
    // Too short to have a middle.
    let stub = WallShape::new(m(3.9), m(2.0), m(0.0), 1.0).unwrap();
    let whole = |site: &EnSite| {
        let wind = WallWind::new(site, stub, WallEnds::FREE).unwrap();
        wind.force(WindCase::Zones(Edge::Start), m(0.0), m(3.9))
    };
    assert_relative_eq!(
        whole(&sheltered).value,
        whole(&plain).value,
        max_relative = 1e-12
    );
}

/// Below 80 % solid 7.4 does not hold: refused, or a lattice by the user's
/// coefficient, on solid area.
#[test]
fn lattices() {
    let plain = site(m_per_s(24.0), Terrain::Two);
    let wall = |solidity: f64| WallShape::new(m(20.0), m(2.0), m(0.0), solidity).unwrap();
    let error = WallWind::new(&plain, wall(0.79), WallEnds::FREE).unwrap_err();
    assert_eq!(error.field(), "solidity");
    assert!(WallWind::new(&plain, wall(0.8), WallEnds::FREE).is_ok());
    let lattice = plain.with_lattice_coefficient(1.6).unwrap();
    let wind = WallWind::new(&lattice, wall(0.5), WallEnds::FREE).unwrap();
    let q = wind.peak_pressure().pressure().value;
    assert_relative_eq!(
        wind.force(WindCase::Uniform, m(0.0), m(20.0)).value,
        q * 1.6 * 0.5 * 40.0,
        max_relative = 1e-12
    );
    assert!(wind.cautions().contains(Caution::OpenFence));
    // Of a lattice top on a solid fence the solid part counts for all of it.
    let top = Infill::lattice(mm(20.0), mm(60.0)).unwrap();
    let mixed = wall(1.0).with_top(0.25, &top).unwrap();
    assert!(mixed.solidity() < 0.9);
    let wind = WallWind::new(&plain, mixed, WallEnds::FREE).unwrap();
    let solid = WallWind::new(&plain, wall(1.0), WallEnds::FREE).unwrap();
    assert_eq!(
        wind.force(WindCase::Zones(Edge::Start), m(0.0), m(9.0)),
        solid.force(WindCase::Zones(Edge::Start), m(0.0), m(9.0))
    );
}
