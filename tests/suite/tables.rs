//! Every table cell of the source against a copy typed apart from it.

use crate::vectors::rows;
use approx::assert_relative_eq;
use groundline::ground::SoilClass;
use groundline::post::{DesignValues, Grade, Species};
use groundline::source::Mark;
use groundline::units::{Measurable, ft, inch, kpa_per_m, lb_per_sq_in, psf, psf_per_ft};
use groundline::wind::{
    CaseC, ColumnGap, Edition, Exposure, OpenShape, ShortReturn, cf_cases_a_b,
    exposure_coefficient, open_cf, return_factor,
};

fn number(text: &str) -> f64 {
    text.parse().unwrap()
}

/// ASCE 7-10 Figure 29.4-1, Cases A and B. Published.
#[test]
fn cases_a_and_b() {
    let rows = rows("asce7_cf_cases_ab.csv");
    let columns: Vec<f64> = rows[0][1..].iter().map(|c| number(c)).collect();
    assert_eq!((rows.len(), columns.len()), (8, 12));
    for row in &rows[1..] {
        for (column, cell) in columns.iter().zip(&row[1..]) {
            let ours = cf_cases_a_b(number(&row[0]), *column).unwrap();
            assert_relative_eq!(ours, number(cell), max_relative = 1e-12);
        }
        // Clamped beyond both ends.
        let last = number(&row[12]);
        assert_relative_eq!(
            cf_cases_a_b(number(&row[0]), 1e6).unwrap(),
            last,
            max_relative = 1e-12
        );
        assert_relative_eq!(
            cf_cases_a_b(number(&row[0]), 0.001).unwrap(),
            number(&row[1]),
            max_relative = 1e-12
        );
    }
    assert_eq!(
        cf_cases_a_b(0.01, 3.0).unwrap(),
        cf_cases_a_b(0.16, 3.0).unwrap()
    );
}

/// ASCE 7 Case C, B/s 2 to 10. Quoted. At s/h 0.5 nothing else multiplies.
#[test]
fn case_c_to_ten() {
    let rows = rows("asce7_cf_case_c_2_10.csv");
    for (column, header) in rows[0].iter().enumerate().skip(1).take(9) {
        let b = number(header);
        let regions: Vec<_> = CaseC::new(0.5, b, ColumnGap::Interpolate)
            .unwrap()
            .unwrap()
            .regions()
            .collect();
        for (index, row) in rows[1..].iter().enumerate() {
            match row[column].as_str() {
                "" => assert!(regions.len() <= index),
                cell if index < 3 => {
                    assert_relative_eq!(regions[index].cf, number(cell), max_relative = 1e-12);
                }
                // 3s to 10s: every piece of it that exists.
                cell => {
                    assert!(regions.len() > 3);
                    for region in &regions[3..] {
                        assert_relative_eq!(region.cf, number(cell), max_relative = 1e-12);
                    }
                }
            }
        }
    }
}

/// ASCE 7 Case C, B/s 13 and 45. Quoted.
#[test]
fn case_c_from_thirteen() {
    let rows = rows("asce7_cf_case_c_13_45.csv");
    assert_eq!(rows.len(), 8);
    for column in [1, 2] {
        let b = number(&rows[0][column]);
        let c = CaseC::new(0.5, b, ColumnGap::Interpolate).unwrap().unwrap();
        for (region, row) in c.regions().zip(&rows[1..]) {
            assert_relative_eq!(region.cf, number(&row[column]), max_relative = 1e-12);
        }
    }
}

/// Return corners. Quoted.
#[test]
fn return_corner() {
    for row in &rows("asce7_return_corner.csv")[1..] {
        assert_relative_eq!(
            return_factor(number(&row[0]), ShortReturn::NoReduction).unwrap(),
            number(&row[1]),
            max_relative = 1e-12
        );
    }
}

/// Constants of Kz: the formula with the typed constants, at three heights
/// that fix coefficient, exponent and lower limit. Quoted.
#[test]
fn exposure_constants() {
    for row in &rows("asce7_kz_constants.csv")[1..] {
        let editions: &[Edition] = if row[0].contains("7-10") {
            &[Edition::Asce7_10, Edition::Asce7_16]
        } else {
            &[Edition::Asce7_22]
        };
        let exposure = match row[1].as_str() {
            "B" => Exposure::B,
            "C" => Exposure::C,
            _ => Exposure::D,
        };
        for edition in editions {
            for z in [3.0, 15.0, 16.0, 120.0] {
                let by_hand = number(&row[2])
                    * (f64::max(z, number(&row[6])) / number(&row[4])).powf(2.0 / number(&row[3]));
                assert_relative_eq!(
                    exposure_coefficient(*edition, exposure, ft(z)).unwrap(),
                    by_hand,
                    max_relative = 1e-12
                );
            }
        }
    }
}

/// ASCE 7-10 Table 29.3-1 as printed, within its rounding. Published.
#[test]
fn exposure_table() {
    for row in &rows("asce7_kz_table_7_10.csv")[1..] {
        for (cell, exposure) in row[1..].iter().zip([Exposure::B, Exposure::C, Exposure::D]) {
            if !cell.is_empty() {
                let ours =
                    exposure_coefficient(Edition::Asce7_10, exposure, ft(number(&row[0]))).unwrap();
                assert!((ours - number(cell)).abs() <= 0.01, "{row:?}");
            }
        }
    }
}

/// Open signs and frames, the edges of each band. Quoted.
#[test]
fn open_signs() {
    for row in &rows("asce7_open_sign_cf.csv")[1..] {
        let (from, to) = (number(&row[0]), number(&row[1]));
        for solidity in [from, 0.5 * (from + to), to - 1e-6] {
            for (cell, shape) in
                row[2..]
                    .iter()
                    .zip([OpenShape::Flat, OpenShape::RoundSlow, OpenShape::RoundFast])
            {
                assert_eq!(open_cf(solidity, shape).unwrap(), number(cell));
            }
        }
    }
    assert!(open_cf(0.71, OpenShape::Flat).is_err());
}

/// IBC 2012 Table 1806.2 as reproduced by Day. Published.
#[test]
fn presumptive_soils() {
    let rows = rows("ibc_presumptive_soils.csv");
    assert_eq!(rows.len(), 6);
    for row in &rows[1..] {
        let class = SoilClass::from_number(row[0].parse().unwrap()).unwrap();
        assert_relative_eq!(
            class.vertical_pressure().to(psf),
            number(&row[2]),
            max_relative = 1e-12
        );
        let lateral = class.lateral_bearing().per_depth();
        assert_relative_eq!(
            lateral.to(psf_per_ft),
            number(&row[3]),
            max_relative = 1e-12
        );
        assert!((lateral.to(kpa_per_m) - number(&row[7])).abs() < 0.02);
    }
}

/// NDS Supplement values, marks row by row.
#[test]
fn timber_values() {
    for row in &rows("nds_design_values.csv")[1..] {
        let species = match row[1].as_str() {
            "Southern Pine" => Species::SouthernPine,
            "Douglas Fir-Larch" => Species::DouglasFirLarch,
            "Hem-Fir" => Species::HemFir,
            "Spruce-Pine-Fir" => Species::SprucePineFir,
            "Western Cedars" => Species::WesternCedars,
            other => panic!("{other}"),
        };
        let grade = if row[2] == "No.1" {
            Grade::No1
        } else {
            Grade::No2
        };
        let side = if row[0] == "4D" { inch(5.5) } else { inch(3.5) };
        let ours = DesignValues::of(species, grade, side).unwrap();
        assert_relative_eq!(
            ours.bending().to(lb_per_sq_in),
            number(&row[4]),
            max_relative = 1e-12
        );
        assert_relative_eq!(
            ours.shear().to(lb_per_sq_in),
            number(&row[6]),
            max_relative = 1e-12
        );
        assert_eq!(ours.class().is_timbers(), row[0] == "4D");
        let least_certain = if row[5] == "quoted" && row[7] == "quoted" {
            Mark::Quoted
        } else {
            Mark::FromMemory
        };
        assert_eq!(ours.mark(), least_certain, "{row:?}");
        assert_relative_eq!(
            ours.modulus().unwrap().to(lb_per_sq_in),
            number(&row[8]),
            max_relative = 1e-12
        );
        assert_eq!(ours.modulus_mark().unwrap().name(), row[9], "{row:?}");
    }
}
