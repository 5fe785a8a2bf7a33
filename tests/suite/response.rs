//! The response of a post in the ground against closed forms, published and
//! derived cases, and an independent boundary-value solution.
//!
//! tests/data/response.csv and textbook_springs.csv hold the cases with source
//! and mark; response_bvp.csv was made by response_bvp.py beside it.

use crate::vectors::{Case, cases, rows};
use approx::assert_relative_eq;
use groundline::profile::{Layer, Profile, Soil, Stiffness};
use groundline::response::closed_form;
use groundline::response::*;
use groundline::units::*;

/// EI of the 89 mm square post of the cases.
fn rigidity() -> FlexuralRigidity {
    kn_sq_m(9e6 * 0.089_f64.powi(4) / 12.0)
}

/// A post of the cases, 0.9 m deep, loaded at grade.
fn post(springs: Springs, shear: Force, moment: Torque) -> PostModel {
    PostModel::new(rigidity(), mm(89.0), m(0.9), springs)
        .unwrap()
        .with_force(m(0.0), shear)
        .unwrap()
        .with_moment(moment)
        .unwrap()
}

fn tolerance(case: &Case, name: &str, ours: f64, expected: f64, relative: f64) {
    assert!(
        (ours - expected).abs() <= relative * expected.abs(),
        "{} ({}): {name} {ours} where {expected} is expected",
        case.id,
        case.source
    );
    case.compared_by_hand(name);
}

#[test]
fn every_case() {
    for case in cases("response.csv") {
        run(&case);
        case.finish();
    }
}

fn run(case: &Case) {
    let (h, mo): (Force, Torque) = match case.method.as_str() {
        "matlock_reese_long" | "matlock_reese_short" => (kn(1.0), kn_m(1.0)),
        _ => (case.input("H"), case.input("M")),
    };
    match case.method.as_str() {
        "winkler_constant_k" => constant(case, h, mo),
        "winkler_constant_k_semi_infinite" | "winkler_constant_k_rigid" => {
            // Outside the range the library gives them for; here the formula.
            let k: Pressure = case.input("k");
            let (ei, l) = (rigidity(), case.input::<Length>("L"));
            let lambda = (k.value / (4.0 * ei.value)).powf(0.25);
            let y0 = if case.method.ends_with("rigid") {
                assert!(closed_form::rigid(k, ei, l, h, mo).is_err());
                // The same numbers in a post so stiff that it is allowed.
                let stiff = closed_form::rigid(k, ei * 1e4, l, h, mo).unwrap();
                stiff.deflection
            } else {
                assert!(closed_form::endless(k, ei, l, h, mo).is_err());
                // The same λ in a post so deep that it is allowed.
                closed_form::endless(k, ei, m(3.0), h, mo)
                    .unwrap()
                    .deflection
            };
            assert!(lambda > 0.0);
            case.compare("y0", y0);
        }
        "winkler_linear_k" => {
            let response = post(Springs::growing(kn_per_cu_m(10_000.0)).unwrap(), h, mo)
                .solve()
                .unwrap();
            grade(case, &response, 1e-4);
        }
        "winkler_linear_k_rigid" => {
            let l: Length = case.input("L");
            let stiff = rigidity() * 1e5;
            let at = closed_form::rigid_growing(kn_per_cu_m(10_000.0), stiff, l, h, mo).unwrap();
            case.compare("y0", at.deflection);
            // Printed to six decimals, a hair coarser than the row's tolerance.
            assert!((at.rotation.to(rad) - case.expected_number("theta0")).abs() <= 5e-7);
            case.compared_by_hand("theta0");
        }
        "matlock_reese_long" | "matlock_reese_short" => matlock_reese(case),
        "elastic_plastic_soil" => {
            let b = 0.089;
            let limit = case.input::<Pressure>("p_u_pressure").value * b;
            let springs = Springs::constant_up_to(mpa(1.78), n_per_m(limit)).unwrap();
            let response = post(springs, h, mo)
                .with_elements(400)
                .unwrap()
                .solve()
                .unwrap();
            grade(case, &response, 2e-4);
        }
        "py_api_sand_cyclic" => {
            let sand = Soil::new(case_weight(case))
                .unwrap()
                .with_friction_angle(case.input("phi"))
                .unwrap()
                .with_stiffness(Stiffness::growing(kn_per_cu_m(16_600.0)).unwrap());
            let profile = Profile::uniform(sand).unwrap();
            let springs = Springs::curves_of_soil(&profile, Loading::Cyclic, 0.01, false).unwrap();
            let response = post(springs, h, mo)
                .with_elements(200)
                .unwrap()
                .solve()
                .unwrap();
            grade(case, &response, 1e-4);
        }
        other => panic!("{}: {other}", case.id),
    }
}

fn case_weight(case: &Case) -> ForcePerVolume {
    case.input("gamma")
}

/// y0, θ0, the greatest moment and its place, as far as a row has them.
fn grade(case: &Case, response: &Response, relative: f64) {
    let at = response.at_grade();
    let expect = |name: &str| case.expected_number(name);
    for (name, ours) in [
        ("y0", at.deflection.to(mm)),
        ("theta0", at.rotation.to(rad)),
        ("Mmax", response.greatest_moment().moment.to(n_m)),
    ] {
        if case.expects(name) {
            tolerance(case, name, ours, expect(name), relative);
        }
    }
    if case.expects("z_Mmax") {
        let off = (response.greatest_moment().depth.to(m) - expect("z_Mmax")).abs();
        assert!(off <= 1e-3, "{}: z_Mmax off by {off}", case.id);
        case.compared_by_hand("z_Mmax");
    }
}

fn constant(case: &Case, h: Force, mo: Torque) {
    let k = mpa(1.78);
    let post = post(Springs::constant(k).unwrap(), h, mo);
    let closed = closed_form::finite(k, rigidity(), m(0.9), h, mo).unwrap();
    let mesh = post.solve().unwrap();
    let expect = |name: &str| case.expected_number(name);
    tolerance(
        case,
        "lambda_L",
        closed.slenderness(),
        expect("lambda_L"),
        1e-5,
    );
    let at = closed.at_grade();
    tolerance(case, "y0", at.deflection.to(mm), expect("y0"), 1e-6);
    tolerance(case, "theta0", at.rotation.to(rad), expect("theta0"), 1e-6);
    // Where the closed form's shear is zero, by bisection.
    let zero = |f: &dyn Fn(f64) -> f64, mut low: f64, mut high: f64| {
        for _ in 0..100 {
            let middle = 0.5 * (low + high);
            if f(middle) > 0.0 {
                low = middle;
            } else {
                high = middle;
            }
        }
        low
    };
    let z = zero(&|z| closed.shear(m(z)).value, 0.0, 0.3);
    assert!((z - expect("z_Mmax")).abs() < 1e-5);
    tolerance(
        case,
        "Mmax",
        closed.moment(m(z)).to(n_m),
        expect("Mmax"),
        1e-6,
    );
    tolerance(
        case,
        "y_toe",
        closed.deflection(m(0.9)).to(mm),
        expect("y_toe"),
        1e-6,
    );
    let reverses = zero(&|z| closed.deflection(m(z)).value, 0.0, 0.9);
    tolerance(case, "z_zero", reverses, expect("z_zero"), 1e-5);
    // The toe is free.
    assert!(closed.moment(m(0.9)).value.abs() < 1e-9 * 2_000.0);
    assert!(closed.shear(m(0.9)).value.abs() < 1e-9 * 2_000.0);
    // The mesh.
    let at = mesh.at_grade();
    assert_relative_eq!(at.deflection.to(mm), expect("y0"), max_relative = 1e-4);
    assert_relative_eq!(at.rotation.to(rad), expect("theta0"), max_relative = 1e-4);
    assert_relative_eq!(
        mesh.at_toe().deflection.to(mm),
        expect("y_toe"),
        max_relative = 1e-4
    );
    let greatest = mesh.greatest_moment();
    assert_relative_eq!(greatest.moment.to(n_m), expect("Mmax"), max_relative = 1e-4);
    assert_relative_eq!(greatest.depth.to(m), expect("z_Mmax"), max_relative = 1e-4);
    case.compared_by_hand("z_Mmax");
}

/// Non-dimensional coefficients of ground that stiffens with depth: a post of
/// EI = nh = 1 in T units has T = 1, so depth is L/T.
fn matlock_reese(case: &Case) {
    let ratio = case.number("L_over_T");
    // T = 1 m: EI 1 MN·m², nh 1 MN/m³.
    let model = |shear: f64, moment: f64| {
        let springs = Springs::growing(kn_per_cu_m(1_000.0)).unwrap();
        PostModel::new(kn_sq_m(1_000.0), m(0.3), m(ratio), springs)
            .unwrap()
            .with_force(m(0.0), kn(shear))
            .unwrap()
            .with_moment(kn_m(moment))
            .unwrap()
            .with_elements(400)
            .unwrap()
            .solve()
            .unwrap()
    };
    let (by_shear, by_moment) = (model(1.0, 0.0), model(0.0, 1.0));
    let ay = by_shear.at_grade().deflection.value * 1_000.0;
    let by = by_moment.at_grade().deflection.value * 1_000.0;
    let bs = by_moment.at_grade().rotation.value * 1_000.0;
    let (am, z) = (
        by_shear.greatest_moment().moment.to(kn_m),
        by_shear.greatest_moment().depth.value,
    );
    let allowed = if ratio > 5.0 { 1e-3 } else { 2e-3 };
    let expect = |name: &str| case.expected_number(name);
    for (name, ours) in [
        ("Ay0", ay),
        ("By0", by),
        ("Bs0", bs),
        ("Am_max", am),
        ("Z_Am_max", z),
    ] {
        if case.expects(name) {
            tolerance(case, name, ours, expect(name), allowed);
        }
    }
    if case.expects("Fy") {
        // A head that does not turn: the moment that undoes the rotation.
        let turned = by_shear.at_grade().rotation.value / by_moment.at_grade().rotation.value;
        let fy = ay - by * turned;
        tolerance(case, "Fy", fy, expect("Fy"), allowed);
        tolerance(case, "Fm", -turned, expect("Fm"), allowed);
        let [ay0, by0, bs0, most, at] = closed_form::LONG_GROWING;
        for (quick, full) in [(ay0, ay), (by0, by), (-bs0, bs), (most, am), (at, z)] {
            assert_relative_eq!(quick, full, max_relative = 1e-3);
        }
    }
}

/// The coefficients along the depth, L/T = 10. Derived; printed to three
/// digits.
#[test]
fn matlock_reese_table() {
    let springs = || Springs::growing(kn_per_cu_m(1_000.0)).unwrap();
    let model = |shear: f64, moment: f64| {
        PostModel::new(kn_sq_m(1_000.0), m(0.3), m(10.0), springs())
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
    for row in &rows("matlock_reese_coefficients.csv")[1..] {
        let number = |i: usize| row[i].parse::<f64>().unwrap();
        let at = |response: &Response| {
            let stations = response.stations();
            *stations
                .iter()
                .find(|s| (s.depth.value - number(0)).abs() < 1e-9)
                .unwrap()
        };
        let (a, b) = (at(&by_shear), at(&by_moment));
        for (ours, printed) in [
            (a.deflection.value * 1_000.0, number(1)),
            (a.moment.to(kn_m), number(2)),
            (b.deflection.value * 1_000.0, number(3)),
            (b.moment.to(kn_m), number(4)),
        ] {
            assert!((ours - printed).abs() <= 6e-4, "{row:?}: {ours} {printed}");
        }
    }
}

/// API sand coefficients. Derived.
#[test]
fn api_sand_table() {
    for row in &rows("api_sand_coefficients.csv")[1..] {
        let number = |i: usize| row[i].parse::<f64>().unwrap();
        let ours = api_sand_coefficients(deg(number(0))).unwrap();
        for (i, ours) in ours.into_iter().enumerate() {
            assert!((ours - number(i + 1)).abs() <= 1e-4);
        }
    }
}

fn sand(phi: f64) -> Soil {
    Soil::new(kn_per_cu_m(18.0))
        .unwrap()
        .with_friction_angle(deg(phi))
        .unwrap()
}

fn clay(su: f64, weight: f64) -> Profile {
    let soil = Soil::new(kn_per_cu_m(weight))
        .unwrap()
        .with_undrained_strength(kpa(su))
        .unwrap();
    Profile::uniform(soil).unwrap()
}

/// The nine cases of the independent boundary-value solution.
fn bvp_model(name: &str) -> PostModel {
    let growing = |phi: f64, nh: f64| {
        let soil = sand(phi).with_stiffness(Stiffness::growing(kn_per_cu_m(nh)).unwrap());
        Profile::uniform(soil).unwrap()
    };
    let plastic = || Springs::elastic_plastic(&growing(32.0, 10_000.0)).unwrap();
    let fence = |springs: Springs, wind: f64, axial: f64| {
        PostModel::new(kn_sq_m(47.0567), mm(89.0), m(0.9), springs)
            .unwrap()
            .standing(m(1.8))
            .unwrap()
            .with_wind(m(0.0), m(1.8), kn_per_m(wind))
            .unwrap()
            .with_axial(kn(axial))
            .unwrap()
    };
    let at_grade = |springs: Springs, h: f64, mo: f64| {
        PostModel::new(kn_sq_m(47.0567), mm(89.0), m(0.9), springs)
            .unwrap()
            .with_force(m(0.0), kn(h))
            .unwrap()
            .with_moment(kn_m(mo))
            .unwrap()
    };
    // Layers of constant stiffness k per length: ks = k/b.
    let layer = |thickness: f64, k: f64| {
        let ks = Stiffness::constant(kn_per_cu_m(k * 1e3 / 0.089)).unwrap();
        Layer::new(m(thickness), sand(30.0).with_stiffness(ks)).unwrap()
    };
    match name {
        "wind_above" => fence(Springs::constant(mpa(1.78)).unwrap(), 0.4, 0.0),
        "wind_above_axial" => fence(Springs::constant(mpa(1.78)).unwrap(), 0.4, 5.0),
        "two_layers" => {
            let profile = Profile::new(vec![layer(0.4, 1.0), layer(5.0, 4.0)]).unwrap();
            at_grade(Springs::elastic(&profile).unwrap(), 1.0, 1.2)
        }
        "plastic_sand" => at_grade(plastic(), 0.3, 0.36),
        "api_sand" => {
            let profile = growing(35.0, 16_600.0);
            let springs = Springs::curves_of_soil(&profile, Loading::Static, 0.01, false);
            at_grade(springs.unwrap(), 0.35, 0.42)
        }
        "soft_clay" => {
            let springs =
                Springs::curves_of_soil(&clay(25.0, 8.0), Loading::Static, 0.02, false).unwrap();
            at_grade(springs, 0.5, 0.6)
        }
        "stiff_clay" => {
            let springs =
                Springs::curves_of_soil(&clay(75.0, 18.0), Loading::Static, 0.007, true).unwrap();
            at_grade(springs, 0.9, 1.08)
        }
        "dead_top" => {
            let profile = Profile::new(vec![layer(10.0, 3.0)])
                .unwrap()
                .discounting_top(m(0.2))
                .unwrap();
            at_grade(Springs::elastic(&profile).unwrap(), 1.0, 1.2)
        }
        "axial_plastic" => fence(plastic(), 0.15, 3.0),
        other => panic!("{other}"),
    }
}

#[test]
fn against_the_boundary_value_solution() {
    let rows = rows("response_bvp.csv");
    assert_eq!(rows.len(), 10);
    for row in &rows[1..] {
        let number = |i: usize| row[i].parse::<f64>().unwrap();
        let response = bvp_model(&row[0])
            .with_elements(800)
            .unwrap()
            .solve()
            .unwrap();
        let near = |name: &str, ours: f64, theirs: f64, relative: f64, absolute: f64| {
            let off = (ours - theirs).abs();
            assert!(
                off <= relative * theirs.abs() + absolute,
                "{}: {name} {ours} against {theirs}",
                row[0]
            );
        };
        near("top", response.lean().value, number(1), 2e-6, 0.0);
        near(
            "y0",
            response.at_grade().deflection.value,
            number(2),
            2e-6,
            0.0,
        );
        near(
            "theta0",
            response.at_grade().rotation.value,
            number(3),
            2e-6,
            0.0,
        );
        near(
            "Mmax",
            response.greatest_moment().moment.value,
            number(4),
            2e-6,
            0.0,
        );
        near(
            "z",
            response.greatest_moment().depth.value,
            number(5),
            1e-4,
            0.0,
        );
        near(
            "toe",
            response.at_toe().deflection.value,
            number(6),
            5e-6,
            2e-9,
        );
    }
}
