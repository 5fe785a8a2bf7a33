//! Tables of wind codes, cell by cell.

use super::{Table, TableOf, number};
use crate::asnzs1170::{coefficients, wall, wind};
use crate::en1991;
use approx::assert_relative_eq;
use groundline::units::*;
use groundline::wind::*;

pub(crate) const TABLES: &[TableOf] = &[
    (
        "asce7_cf_cases_ab.csv",
        "Cf of walls, Cases A and B",
        cases_a_and_b,
    ),
    (
        "asce7_cf_case_c_2_10.csv",
        "Cf of walls, Case C, B/s 2 to 10",
        case_c_to_ten,
    ),
    (
        "asce7_cf_case_c_13_45.csv",
        "Cf of walls, Case C, B/s 13 and 45",
        case_c_from_thirteen,
    ),
    (
        "asce7_return_corner.csv",
        "factor for return corners",
        return_corner,
    ),
    (
        "asce7_kz_constants.csv",
        "Kz from the constants of the table",
        exposure_constants,
    ),
    (
        "asce7_kz_table_7_10.csv",
        "Kz as tabled, ASCE 7-10",
        exposure_table,
    ),
    ("asce7_kzt_k1.csv", "K1 of hills, exposure C", k1),
    (
        "asce7_kzt_multipliers.csv",
        "multipliers and decays of hills",
        hills,
    ),
    ("asce7_open_sign_cf.csv", "Cf of open signs", open_signs),
    ("en1991_terrain.csv", "terrain categories", terrain),
    ("en1991_cpnet.csv", "cp,net of walls", net_pressure),
    ("en1991_zones.csv", "ends of the zones of a wall", zones),
    ("asnzs1170_cpn.csv", "Cpn of walls", hoardings),
];

/// Inside, and clamped beyond both ends.
fn cases_a_and_b(table: &mut Table) {
    let columns = table.columns();
    assert_eq!(columns.len(), 13);
    for row in table.rows() {
        let cf = |b: f64| cf_cases_a_b(number(&row[0]), b).unwrap();
        for (column, cell) in columns.iter().zip(&row).skip(1) {
            let at = format!("s/h {}, B/s {column}", row[0]);
            table.exact(at, cell, cf(number(column)));
        }
        assert_relative_eq!(cf(1e6), number(&row[12]), max_relative = 1e-12);
        assert_relative_eq!(cf(0.001), number(&row[1]), max_relative = 1e-12);
    }
    assert_eq!(
        cf_cases_a_b(0.01, 3.0).unwrap(),
        cf_cases_a_b(0.16, 3.0).unwrap()
    );
}

fn case_c(b: f64) -> Vec<f64> {
    // At s/h 0.5 nothing else multiplies.
    let c = CaseC::new(0.5, b, ColumnGap::Interpolate).unwrap().unwrap();
    c.regions().map(|region| region.cf).collect()
}

fn case_c_to_ten(table: &mut Table) {
    let columns = table.columns();
    for (column, header) in columns.iter().enumerate().skip(1).take(9) {
        let regions = case_c(number(header));
        for (index, row) in table.rows().iter().enumerate() {
            let at = format!("B/s {header}, {}", row[0]);
            match row[column].as_str() {
                "" => assert!(regions.len() <= index),
                cell if index < 3 => table.exact(at, cell, regions[index]),
                // 3s to 10s: every piece of it that exists.
                cell => {
                    assert!(regions.len() > 3);
                    assert!(regions[3..].iter().all(|cf| *cf == regions[3]));
                    table.exact(at, cell, regions[3]);
                }
            }
        }
    }
}

fn case_c_from_thirteen(table: &mut Table) {
    let columns = table.columns();
    for (column, header) in columns.iter().enumerate().skip(1).take(2) {
        for (cf, row) in case_c(number(header)).into_iter().zip(table.rows()) {
            table.exact(format!("B/s {header}, {}", row[0]), &row[column], cf);
        }
    }
    assert_eq!(table.cells.len(), 14);
}

fn return_corner(table: &mut Table) {
    for row in table.rows() {
        let factor = return_factor(number(&row[0]), ShortReturn::NoReduction).unwrap();
        table.exact(format!("Lr/s {}", row[0]), &row[1], factor);
    }
}

fn exposure(letter: &str) -> Exposure {
    match letter {
        "B" => Exposure::B,
        "C" => Exposure::C,
        _ => Exposure::D,
    }
}

/// The constants come back out of our Kz: α of its growth from 60 to 120 ft, the
/// coefficient of its size there; below the least height nothing falls.
fn exposure_constants(table: &mut Table) {
    for row in table.rows() {
        let editions: &[Edition] = if row[0].contains("7-10") {
            &[Edition::Asce7_10, Edition::Asce7_16]
        } else {
            &[Edition::Asce7_22]
        };
        table.marked(&row[7]);
        for edition in editions {
            let kz = |z: f64| exposure_coefficient(*edition, exposure(&row[1]), ft(z)).unwrap();
            let (zg, alpha) = (number(&row[4]), number(&row[3]));
            let at = |what: &str| format!("{} {} {what}", row[0], row[1]);
            let growth = (kz(120.0) / kz(60.0)).ln();
            table.within(at("α"), &row[3], 2.0 * 2.0_f64.ln() / growth, 1e-9);
            let ours = kz(120.0) * (zg / 120.0).powf(2.0 / alpha);
            table.within(at("coefficient"), &row[2], ours, 1e-9);
            assert_eq!(kz(3.0), kz(number(&row[6])));
            assert!(kz(number(&row[6]) + 0.001) > kz(3.0));
        }
    }
}

fn exposure_table(table: &mut Table) {
    let columns = table.columns();
    for row in table.rows() {
        for (cell, letter) in row.iter().zip(&columns).skip(1) {
            if !cell.is_empty() {
                let z = ft(number(&row[0]));
                let kz = exposure_coefficient(Edition::Asce7_10, exposure(letter), z).unwrap();
                let at = format!("{} ft, exposure {letter}", row[0]);
                table.within(at, cell, kz, 0.007);
            }
        }
    }
}

fn k1(table: &mut Table) {
    let shapes = [Feature::Ridge, Feature::Escarpment, Feature::Hill];
    for row in table.rows() {
        table.marked(&row[5]);
        for ((cell, shape), name) in
            row[2..5]
                .iter()
                .zip(shapes)
                .zip(["ridge", "escarpment", "hill"])
        {
            let height = ft(200.0 * number(&row[1]));
            let hill = Topography::new(shape, height, ft(200.0), ft(0.0), Side::Upwind).unwrap();
            let up = hill.speed_up(exposure(&row[0]), ft(0.0));
            table.cell(format!("{name}, H/Lh {}", row[1]), cell, up.k1);
            assert_eq!((up.k2, up.k3), (1.0, 1.0));
            assert_relative_eq!(up.kzt, (1.0 + up.k1).powi(2), max_relative = 1e-12);
        }
    }
}

fn hills(table: &mut Table) {
    let shapes = [Feature::Ridge, Feature::Escarpment, Feature::Hill];
    for (row, shape) in table.rows().iter().zip(shapes) {
        let up = |letter: &str, x: f64, side: Side| {
            let hill = Topography::new(shape, ft(80.0), ft(200.0), ft(x), side).unwrap();
            hill.speed_up(exposure(letter), ft(50.0))
        };
        for (i, letter) in [(1, "B"), (2, "C"), (3, "D")] {
            table.marked(&row[if letter == "C" { 8 } else { 7 }]);
            let ours = up(letter, 0.0, Side::Upwind).k1 / 0.4;
            table.within(format!("{} K1, {letter}", row[0]), &row[i], ours, 1e-12);
        }
        table.marked(&row[8]);
        for (i, side) in [(4, Side::Upwind), (5, Side::Downwind)] {
            let ours = 120.0 / 200.0 / (1.0 - up("C", 120.0, side).k2);
            table.within(format!("{} μ, {side:?}", row[0]), &row[i], ours, 1e-9);
        }
        let ours = -up("C", 0.0, Side::Upwind).k3.ln() * 200.0 / 50.0;
        table.within(format!("{} γ", row[0]), &row[6], ours, 1e-9);
    }
}

/// The edges of each band and its middle.
fn open_signs(table: &mut Table) {
    let shapes = [OpenShape::Flat, OpenShape::RoundSlow, OpenShape::RoundFast];
    for row in table.rows() {
        let (from, to) = (number(&row[0]), number(&row[1]));
        for (cell, shape) in row[2..].iter().zip(shapes) {
            let cf = |solidity: f64| open_cf(solidity, shape).unwrap();
            let middle = cf(0.5 * (from + to));
            assert_eq!((cf(from), cf(to - 1e-6)), (middle, middle));
            table.exact(
                format!("{shape:?}, solidity {} to {}", row[0], row[1]),
                cell,
                middle,
            );
        }
    }
    assert!(open_cf(0.71, OpenShape::Flat).is_err());
}

fn terrain(table: &mut Table) {
    for row in table.rows() {
        let terrain = en1991::terrain(&row[0]);
        let at = |what: &str| format!("{} {what}", row[0]);
        table.exact(at("z0"), &row[1], terrain.roughness_length().to(m));
        table.exact(at("zmin"), &row[2], terrain.least_height().to(m));
    }
    assert_eq!(table.cells.len(), 2 * Terrain::ALL.len());
}

/// Each row at lengths, and with returns, for which it holds.
fn net_pressure(table: &mut Table) {
    let columns = table.columns();
    for row in table.rows() {
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
        let cp = |l, returns| cp_net(l, returns, number(&row[0])).unwrap();
        let all = ratios
            .iter()
            .flat_map(|l| returns.iter().map(|r| cp(*l, *r)));
        let all: Vec<_> = all.collect();
        for (zone, name) in columns[3..].iter().enumerate() {
            let worst = all.iter().map(|cp| cp[zone]).max_by(|a, b| {
                let off = |cp: &f64| (cp - number(&row[3 + zone])).abs();
                off(a).total_cmp(&off(b))
            });
            let at = format!(
                "zone {name}, l/h {}, solidity {}, return {}",
                row[2], row[0], row[1]
            );
            table.exact(at, &row[3 + zone], worst.unwrap());
        }
    }
}

/// From either end of a wall 2 m high.
fn zones(table: &mut Table) {
    let site = en1991::site(m_per_s(24.0), Terrain::Two);
    let wind = |length: f64| {
        let wall = WallShape::new(m(length), m(2.0), m(0.0), 1.0).unwrap();
        WallWind::new(&site, wall, WallEnds::FREE).unwrap()
    };
    for edge in [Edge::Start, Edge::End] {
        let wall = wind(30.0);
        let strips: Vec<_> = wall.strips(WindCase::Zones(edge)).collect();
        assert_eq!(strips.len(), 4);
        for (row, strip) in table.rows().iter().zip(&strips) {
            let (from, to) = match edge {
                Edge::Start => (strip.from, strip.to),
                Edge::End => (m(30.0) - strip.to, m(30.0) - strip.from),
            };
            let at = |what: &str| format!("zone {} {what}", row[0]);
            table.within(at("from"), &row[1], from.to(m) / 2.0, 1e-12);
            if row[2] == "end" {
                assert_relative_eq!(to.to(m), 30.0, max_relative = 1e-12);
            } else {
                table.within(at("to"), &row[2], to.to(m) / 2.0, 1e-12);
            }
        }
    }
    // Cut off at the end of a short wall: l of 1.5 h, and of 3 h.
    assert_eq!(wind(3.0).strips(WindCase::Zones(Edge::Start)).count(), 2);
    assert_eq!(wind(6.0).strips(WindCase::Zones(Edge::Start)).count(), 3);
}

/// Every row: formulas written out again here, zones as told.
fn hoardings(table: &mut Table) {
    for row in table.rows() {
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
                hoarding(table, &row, (*b, *c), formula(*b, *c), wind_from);
            }
        }
    }
    assert!(table.cells.len() > 60);
}

fn hoarding(table: &mut Table, row: &[String], (b, c): (f64, f64), expected: f64, from: &str) {
    let wind = wind(wall(b, c, 1.0));
    let zone = match row[4].as_str() {
        "0 to 2c" | "0 to 2h" | "all" => 0,
        "2c to 4c" | "2h to 4h" | ">2h" => 1,
        _ => 2,
    };
    let case = match from {
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
            let site = crate::asnzs1170::site(40.0);
            let cornered = WallWind::new(&site, *wind.shape(), ends).unwrap();
            let zones = |wind| coefficients(wind, WindCase::Zones(Edge::Start));
            assert_eq!(zones(&cornered), zones(&wind));
            assert!(expected < zones(&wind)[0]);
            return;
        }
        other => panic!("{other}"),
    };
    if let Some(ours) = coefficients(&wind, case).get(zone) {
        let at = format!("{} {from}, b/c {b}, c/h {c}, {}", row[0], row[4]);
        // A cell is a number, or a formula worked out above.
        let printed = row[5].trim_start_matches("+-");
        if printed.parse::<f64>().is_ok() {
            table.marked(&row[7]);
            table.exact(at, printed, *ours);
        } else {
            table.marked("derived");
            table.exact(at, &format!("{expected}"), *ours);
        }
    } else {
        // The wall ends before that zone.
        let height = if c > 0.7 { 1.0 / c } else { 1.0 };
        assert!(b <= height * if zone == 1 { 2.0 } else { 4.0 });
    }
}
