//! Tables of soil, frost, concrete and statistics, cell by cell.

use super::{Table, TableOf, boundary_values, number};
use crate::field_test::kn as kn_of;
use approx::assert_relative_eq;
use groundline::backfill::Bag;
use groundline::field_test::distribution::{normal_quantile, student_quantile, tolerance_factor};
use groundline::field_test::{Spread, correlation_factors, ground_test_factors};
use groundline::ground::SoilClass;
use groundline::lateral::HansenConstants;
use groundline::profile::presumed;
use groundline::response::{PostModel, Response, Springs, api_sand_coefficients};
use groundline::source::Mark;
use groundline::units::*;
use groundline::uplift::{Breakout, FrozenGround};

pub(crate) const TABLES: &[TableOf] = &[
    (
        "ibc_presumptive_soils.csv",
        "presumptive values of five classes",
        presumptive_soils,
    ),
    ("subgrade_modulus.csv", "stiffness of sand", stiffness),
    (
        "hansen_coefficients.csv",
        "constants of Brinch Hansen",
        hansen,
    ),
    ("api_sand_coefficients.csv", "C1, C2, C3 of sand", api_sand),
    (
        "matlock_reese_coefficients.csv",
        "coefficients of a long post",
        matlock_reese,
    ),
    (
        "response_bvp.csv",
        "responses by a boundary-value solver",
        boundary_values,
    ),
    ("meyerhof_adams.csv", "m and Ku of a plate in sand", plate),
    ("adfreeze.csv", "grip of frozen ground", adfreeze),
    ("bag_yields.csv", "yields of bags", bags),
    ("en1990_kn.csv", "kn", characteristic),
    ("en1997_xi.csv", "correlation factors", correlation),
    (
        "tolerance_factors.csv",
        "tolerance factors, 95 %",
        tolerance,
    ),
    ("quantiles.csv", "quantiles by scipy", quantiles),
];

fn presumptive_soils(table: &mut Table) {
    for row in table.rows() {
        let class = SoilClass::from_number(row[0].parse().unwrap()).unwrap();
        let lateral = class.lateral_bearing().per_depth();
        let at = |what: &str| format!("class {} {what}", row[0]);
        table.marked(&row[8]);
        table.exact(at("vertical"), &row[2], class.vertical_pressure().to(psf));
        table.exact(at("lateral"), &row[3], lateral.to(psf_per_ft));
        table.marked("derived");
        table.cell(at("lateral, SI"), &row[7], lateral.to(kpa_per_m));
    }
    assert_eq!(table.cells.len(), 15);
}

fn stiffness(table: &mut Table) {
    for row in table.rows() {
        let wet = row[2] == "below water";
        let (ours, citation) = match row[0].as_str() {
            "Kh_sand" => {
                let density = match row[1].as_str() {
                    "loose" => presumed::Density::Loose,
                    "medium" => presumed::Density::Medium,
                    _ => presumed::Density::Dense,
                };
                presumed::sand_stiffness(density, wet)
            }
            "k_api_sand" => {
                let phi = row[1].trim_start_matches("phi=").parse().unwrap();
                presumed::api_sand_stiffness(deg(phi), wet).unwrap()
            }
            // Curves of stiff clay under free water are not here.
            _ => continue,
        };
        table.marked(&row[7]);
        let at = format!("{}, {}", row[1], row[2]);
        table.within(at, &row[3], ours.to(lb_per_cu_in), 1e-9);
        assert_eq!(citation.mark, Mark::Quoted);
    }
    assert_eq!(table.cells.len(), 32);
}

fn hansen(table: &mut Table) {
    for row in table.rows() {
        let c = HansenConstants::new(deg(number(&row[0]))).unwrap();
        for (i, (name, ours)) in [
            ("Kq0", c.kq_surface),
            ("Kq∞", c.kq_depth),
            ("αq", c.alpha_q),
            ("Kc0", c.kc_surface),
            ("Kc∞", c.kc_depth),
            ("αc", c.alpha_c),
        ]
        .into_iter()
        .enumerate()
        {
            table.cell(format!("φ {}° {name}", row[0]), &row[i + 1], ours);
        }
    }
}

fn api_sand(table: &mut Table) {
    for row in table.rows() {
        let ours = api_sand_coefficients(deg(number(&row[0]))).unwrap();
        for (i, ours) in ours.into_iter().enumerate() {
            table.cell(format!("φ {}° C{}", row[0], i + 1), &row[i + 1], ours);
        }
    }
}

/// Along the depth, L/T = 10.
fn matlock_reese(table: &mut Table) {
    let model = |shear: f64, moment: f64| {
        let springs = Springs::growing(kn_per_cu_m(1_000.0)).unwrap();
        PostModel::new(kn_sq_m(1_000.0), m(0.3), m(10.0), springs)
            .unwrap()
            .with_force(m(0.0), kn(shear))
            .unwrap()
            .with_moment(kn_m(moment))
            .unwrap()
            .with_elements(1_000)
            .unwrap()
            .solve()
            .unwrap()
    };
    let (by_shear, by_moment) = (model(1.0, 0.0), model(0.0, 1.0));
    for row in table.rows() {
        let at = |response: &Response| {
            let mut stations = response.stations().iter();
            *stations
                .find(|s| (s.depth.value - number(&row[0])).abs() < 1e-9)
                .unwrap()
        };
        let (a, b) = (at(&by_shear), at(&by_moment));
        for (i, (name, ours)) in [
            ("Ay", a.deflection.value * 1_000.0),
            ("Am", a.moment.to(kn_m)),
            ("By", b.deflection.value * 1_000.0),
            ("Bm", b.moment.to(kn_m)),
        ]
        .into_iter()
        .enumerate()
        {
            let printed = &row[i + 1];
            table.cell(format!("Z {} {name}", row[0]), printed, ours);
        }
    }
}

fn boundary_values(table: &mut Table) {
    for row in table.rows() {
        let model = boundary_values::model(&row[0]).with_elements(800).unwrap();
        let response = model.solve().unwrap();
        let (at, greatest) = (response.at_grade(), response.greatest_moment());
        for (i, (name, ours, relative, absolute)) in [
            ("y top", response.lean().value, 2e-6, 0.0),
            ("y0", at.deflection.value, 2e-6, 0.0),
            ("θ0", at.rotation.value, 2e-6, 0.0),
            ("Mmax", greatest.moment.value, 2e-6, 0.0),
            ("z of Mmax", greatest.depth.value, 1e-4, 0.0),
            ("y toe", response.at_toe().deflection.value, 5e-6, 2e-9),
        ]
        .into_iter()
        .enumerate()
        {
            let printed = &row[i + 1];
            let allowed = relative * number(printed).abs() + absolute;
            table.within(format!("{} {name}", row[0]), printed, ours, allowed);
        }
    }
    assert_eq!(table.cells.len(), 54);
}

/// m and Ku out of the factors at one and two widths:
/// Fq − 1 = 2 (1 + m D/B) (D/B) Ku tan φ.
fn plate(table: &mut Table) {
    for row in table.rows() {
        let phi = number(&row[0]);
        let above_one = |ratio: f64| {
            let plate = Breakout::new(deg(phi), kn_per_cu_m(18.0), m(0.4), m(0.4 * ratio));
            plate.unwrap().factor() - 1.0
        };
        let (one, two) = (above_one(1.0), above_one(2.0));
        let slope = (two - 2.0 * one) / (4.0 * one - two);
        let pressure = one / (2.0 * (1.0 + slope) * phi.to_radians().tan());
        table.marked(&row[3]);
        table.within(format!("φ {}° m", row[0]), &row[1], slope, 1e-9);
        table.within(format!("φ {}° Ku", row[0]), &row[2], pressure, 1e-9);
    }
}

fn adfreeze(table: &mut Table) {
    let stresses = [
        FrozenGround::FineOnWoodOrConcrete,
        FrozenGround::FineOnSteel,
        FrozenGround::GravelOnSteel,
    ];
    for (row, ground) in table.rows().iter().zip(stresses) {
        table.marked(&row[5]);
        let at = format!("{}, {}", row[3], row[2]);
        table.exact(at, &row[0], ground.stress().to(kpa));
    }
}

fn bags(table: &mut Table) {
    let bags = [Bag::lb_40(), Bag::lb_50(), Bag::lb_60(), Bag::lb_80()];
    for (row, bag) in table.rows().iter().zip(bags) {
        table.marked(&row[3]);
        let at = |what: &str| format!("{} lb, {what}", row[0]);
        assert_relative_eq!(bag.weight().to(lb), number(&row[0]), max_relative = 1e-12);
        table.exact(at("ft³"), &row[1], bag.yields().to(cu_ft));
        let per_yard = bag.count(cu_yd(1.0), 0.0).unwrap().buy;
        table.exact(at("a cubic yard"), &row[2], per_yard);
    }
}

/// To the print, and to the formula as the file has it.
fn characteristic(table: &mut Table) {
    for row in table.rows() {
        let [name, kind, n, printed, formula, mark] = row.as_slice() else {
            panic!("{row:?}");
        };
        // D.2 is for design values, which are not made here; n = inf is no
        // sample.
        if name != "D.1" || n == "inf" {
            continue;
        }
        let (spread, off) = if kind == "V_known" {
            (Spread::Known(0.1), 0.0165)
        } else {
            (Spread::OfTheTests, 0.0125)
        };
        let ours = kn_of(n.parse().unwrap(), spread);
        table.marked(mark);
        table.within(format!("{kind}, n {n}"), printed, ours, off);
        table.marked("derived");
        table.cell(format!("{kind}, n {n}, formula"), formula, ours);
    }
}

fn correlation(table: &mut Table) {
    for row in table.rows() {
        let n: u32 = row[1].trim_start_matches(">=").parse().unwrap();
        let factors = |n| {
            if row[0] == "A.9" {
                correlation_factors(n)
            } else {
                ground_test_factors(n)
            }
        };
        let (mean, least) = factors(n);
        table.exact(format!("{}, n {n}, mean", row[0]), &row[2], mean);
        table.exact(format!("{}, n {n}, least", row[0]), &row[3], least);
        if row[1].starts_with(">=") {
            assert_eq!(factors(n + 7), (mean, least));
        }
    }
}

fn tolerance(table: &mut Table) {
    for row in table.rows() {
        let n: u32 = row[0].parse().unwrap();
        for (confidence, printed) in [(0.75, &row[1]), (0.9, &row[2]), (0.95, &row[3])] {
            let ours = tolerance_factor(n, 0.95, confidence).unwrap();
            table.cell(format!("n {n}, confidence {confidence}"), printed, ours);
        }
    }
}

/// tests/data/quantiles.py.
fn quantiles(table: &mut Table) {
    for row in table.rows() {
        let n: u32 = row[1].parse().unwrap();
        let ours = match row[0].as_str() {
            "normal" => normal_quantile(number(&row[2])).unwrap(),
            "student" => student_quantile(number(&row[2]), n).unwrap(),
            "tolerance" if n < 3 => continue,
            "tolerance" => tolerance_factor(n, number(&row[2]), number(&row[3])).unwrap(),
            _ => continue,
        };
        // Simpson's rule is coarsest for the fewest tests.
        let relative = if row[0] == "tolerance" { 2e-7 } else { 1e-11 };
        let allowed = relative * number(&row[4]).abs() + 1e-12;
        table.within(
            format!("{}, n {n}, share {}", row[0], row[2]),
            &row[4],
            ours,
            allowed,
        );
    }
}
