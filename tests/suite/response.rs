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
                .with_stiffness(Stiffness::growing(kn_per_cu_m(16_600.0)).unwrap())
                .unwrap();
            let profile = Profile::uniform(sand).unwrap();
            let springs =
                Springs::curves_of_soil(&profile, Loading::Cyclic, 0.01, ClayCurve::Soft).unwrap();
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
        let soil = sand(phi)
            .with_stiffness(Stiffness::growing(kn_per_cu_m(nh)).unwrap())
            .unwrap();
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
        Layer::new(m(thickness), sand(30.0).with_stiffness(ks).unwrap()).unwrap()
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
            let springs = Springs::curves_of_soil(&profile, Loading::Static, 0.01, ClayCurve::Soft);
            at_grade(springs.unwrap(), 0.35, 0.42)
        }
        "soft_clay" => {
            let springs =
                Springs::curves_of_soil(&clay(25.0, 8.0), Loading::Static, 0.02, ClayCurve::Soft)
                    .unwrap();
            at_grade(springs, 0.5, 0.6)
        }
        "stiff_clay" => {
            let springs = Springs::curves_of_soil(
                &clay(75.0, 18.0),
                Loading::Static,
                0.007,
                ClayCurve::Stiff,
            )
            .unwrap();
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

/// Half of a beam that goes on both ways, loaded in the middle by P: shear P/2
/// at grade and no rotation there, by superposition of two solves.
struct Half {
    /// Distance, deflection and moment for P = 1 N.
    stations: Vec<(f64, f64, f64)>,
}

impl Half {
    fn new(springs: &Springs, ei: f64, length: f64, elements: u32) -> Self {
        let solve = |shear: f64, moment: f64| {
            PostModel::new(n_sq_m(ei), m(0.1), m(length), springs.clone())
                .unwrap()
                .with_force(m(0.0), newton(shear))
                .unwrap()
                .with_moment(n_m(moment))
                .unwrap()
                .with_elements(elements)
                .unwrap()
                .solve()
                .unwrap()
        };
        let (a, b) = (solve(0.5, 0.0), solve(0.0, 1.0));
        let undo = -a.at_grade().rotation.value / b.at_grade().rotation.value;
        let stations = a
            .stations()
            .iter()
            .zip(b.stations())
            .map(|(a, b)| {
                (
                    a.depth.value,
                    a.deflection.value + undo * b.deflection.value,
                    a.moment.value + undo * b.moment.value,
                )
            })
            .collect();
        Self { stations }
    }

    /// Deflection and moment at a distance, linear between fine stations.
    fn at(&self, x: f64) -> (f64, f64) {
        let i = self.stations.partition_point(|s| s.0 < x).max(1);
        let (a, b) = (self.stations[i - 1], self.stations[i]);
        let u = (x - a.0) / (b.0 - a.0);
        (a.1 + u * (b.1 - a.1), a.2 + u * (b.2 - a.2))
    }

    /// Under the load; the moment of the half is minus the hogging one.
    fn middle(&self) -> (f64, f64) {
        (self.stations[0].1, self.stations[0].2.abs())
    }

    /// Sums over a uniform load between two distances, midpoint rule.
    fn under(&self, from: f64, to: f64) -> (f64, f64) {
        let n = 4_000;
        let dx = (to - from) / f64::from(n);
        (0..n).fold((0.0, 0.0), |sum, i| {
            let (y, mo) = self.at((from + (f64::from(i) + 0.5) * dx).abs());
            (sum.0 + y * dx, sum.1 + mo * dx)
        })
    }
}

/// Springs in strips 4 mm wide that stand for discrete ones: half a spring at
/// the middle, whole ones behind.
fn discrete(at: &[f64], stiffness: &[f64]) -> Springs {
    let half = 0.002;
    let nothing = || Curve::new(&[(m(1.0), n_per_m(0.0))]).unwrap();
    let spring = |k: f64| {
        let per_length = k / (2.0 * half);
        let y = 5e7 / per_length;
        Curve::new(&[(m(y), n_per_m(5e7))]).unwrap()
    };
    let mut curves = Vec::new();
    for (x, k) in at.iter().zip(stiffness) {
        if *x > half {
            curves.push((m(x - half), nothing()));
        }
        curves.push((m(x + half), spring(*k)));
    }
    curves.push((m(900.0), nothing()));
    Springs::of_curves(curves).unwrap()
}

/// Springs of textbooks. Quoted, derived row by row.
#[test]
fn textbook_springs() {
    for case in cases("textbook_springs.csv") {
        textbook(&case);
        case.finish();
    }
}

fn textbook(case: &Case) {
    match case.method.as_str() {
        "winkler_infinite_point_load" | "winkler_infinite_three_loads" => {
            let ei = case.input::<Pressure>("E").value * 36.9e-6;
            let half = Half::new(&Springs::constant(mpa(14.0)).unwrap(), ei, 12.0, 3_000);
            let p = case.input::<Force>("P").value;
            // The section is 99.1 mm deep to the fibre in both rows.
            let stress = |moment: f64| pa(moment * 0.0991 / 36.9e-6);
            if case.expects("y") {
                let (y, mo) = half.middle();
                case.compare("y", m(y * p));
                case.compare("M", n_m(mo * p));
                case.compare("sigma", stress(mo * p));
            } else {
                let a = case.input::<Length>("spacing").value;
                let (near, far) = (half.at(a), half.at(2.0 * a));
                let (y, mo) = half.middle();
                case.compare("y_middle", m(p * (y + 2.0 * near.0)));
                // Moments of the half are minus those under the load.
                let end = (mo - near.1 - far.1).abs();
                case.compare("M_end", n_m(p * end));
                case.compare("sigma", stress(p * end));
            }
        }
        "winkler_smeared_springs" => {
            let (spacing, ei) = (1.1, 72e9 * 2.45e-6);
            let k = 110e3 / spacing;
            let half = Half::new(&Springs::constant(pa(k)).unwrap(), ei, 14.0, 3_000);
            let (y, mo) = half.middle();
            case.compare("y", m(12e3 * y));
            case.compare("M", n_m(12e3 * mo));
            case.compare("sigma", pa(12e3 * mo * 0.05 / 2.45e-6));
            let next: Vec<Length> = (1..4)
                .map(|i| m(12e3 * half.at(spacing * f64::from(i)).0))
                .collect();
            case.compare_all("y_next", &next);
        }
        "winkler_discrete_springs_free_ends" => {
            let springs = discrete(&[0.0, 1.1, 2.2, 3.3], &[110e3; 4]);
            // The middle strip is cut in half by the symmetry; the last one
            // wholly on the beam.
            let half = Half::new(&springs, 72e9 * 2.45e-6, 3.302, 1_500);
            let y: Vec<Length> = (0..4)
                .map(|i| m(12e3 * half.at(1.1 * f64::from(i)).0))
                .collect();
            case.compare_all("y", &y);
            case.compare("M", n_m(12e3 * half.middle().1));
        }
        "winkler_uniform_load" => {
            let ei = 6.6667e11 * 1e-6;
            let half = Half::new(&Springs::constant(mpa(4.0)).unwrap(), ei, 14.0, 4_000);
            let (w, l) = (35e3, 3.61);
            let (y, _) = half.under(-0.5 * l, 0.5 * l);
            case.compare("y", m(w * y));
            let beta = (4e6 / (4.0 * ei)).powf(0.25);
            let quarter = std::f64::consts::FRAC_PI_4 / beta;
            // A point inside, a quarter wave from one end; one outside.
            let inside = half.under(-quarter, l - quarter).1.abs();
            case.compare("M_at_quarter_wave", n_m(w * inside));
            let outside = half.under(quarter, l + quarter).1.abs();
            case.compare("M_outside", n_m(w * outside));
        }
        "winkler_semi_infinite_end_load" => {
            let ei = 200e9 * 2.53e-6;
            let k = mpa(23.8);
            let at = closed_form::endless(k, n_sq_m(ei), m(6.0), kn(30.0), n_m(0.0)).unwrap();
            case.compare("y0", at.deflection);
            let solved = PostModel::new(n_sq_m(ei), m(0.1), m(6.0), Springs::constant(k).unwrap())
                .unwrap()
                .with_force(m(0.0), kn(30.0))
                .unwrap()
                .with_elements(2_000)
                .unwrap()
                .solve()
                .unwrap();
            let greatest = solved.greatest_moment();
            assert!((greatest.moment.to(n_m) * 1e3 - case.expected_number("M")).abs() <= 60.0);
            case.compared_by_hand("M");
            case.compare("z", greatest.depth);
            case.compare("sigma", pa(greatest.moment.value * 0.051 / 2.53e-6));
        }
        "winkler_constants" => {
            // k = 1 kPa, EI = 250 N·m²: β = 1 per metre.
            let solved = PostModel::new(
                n_sq_m(250.0),
                m(0.1),
                m(12.0),
                Springs::constant(kpa(1.0)).unwrap(),
            )
            .unwrap()
            .with_force(m(0.0), newton(1.0))
            .unwrap()
            .with_elements(4_000)
            .unwrap()
            .solve()
            .unwrap();
            case.compare("y0_factor", Ratio::from_si(solved.lean().value * 1_000.0));
            let greatest = solved.greatest_moment();
            case.compare("M_factor", Ratio::from_si(greatest.moment.value));
            case.compare("z_factor", Ratio::from_si(greatest.depth.value));
        }
        "winkler_pinned_discrete" => {
            let kip_in = kip_in(1.0).value;
            let ei = ksi(29_000.0).value * 128.5 * inch(1.0).value.powi(4);
            let k = kipf(22.5).value / inch(1.0).value;
            let at: Vec<f64> = (0..9).map(|i| inch(15.0 * f64::from(i)).value).collect();
            let mut stiffness = vec![k; 9];
            stiffness[8] = 1e4 * k;
            let half = Half::new(
                &discrete(&at, &stiffness),
                ei,
                inch(120.0).value + 0.002,
                2_000,
            );
            let p = kipf(40.0).value;
            let ours = p * half.middle().1 / kip_in;
            assert!((ours - case.expected_number("M")).abs() <= 0.5, "{ours}");
            case.compared_by_hand("M");
        }
        "winkler_simply_supported" => {
            // β = 1 per metre; the far support a stiff end.
            let (half_length, ei) = (0.5 * case.number("beta_L"), 250.0);
            let soil = Curve::new(&[(m(1.0), n_per_m(1_000.0))]).unwrap();
            let support = Curve::new(&[(m(0.01), n_per_m(1e7))]).unwrap();
            let springs =
                Springs::of_curves(vec![(m(half_length - 0.001), soil), (m(900.0), support)])
                    .unwrap();
            let half = Half::new(&springs, ei, half_length, 4_000);
            let factor = half.middle().0 * ei;
            assert!(
                (factor - case.expected_number("y_EI_beta3_over_F")).abs() <= 2e-6,
                "{factor}"
            );
            case.compared_by_hand("y_EI_beta3_over_F");
        }
        "winkler_spaced_springs" => {
            let ei: f64 = 206.8e9 * 6e-6;
            let k: f64 = 10e3 / 1.5;
            let beta = (k / (4.0 * ei)).powf(0.25);
            assert!((beta - case.expected_number("beta")).abs() <= 5e-5);
            case.compared_by_hand("beta");
            let half = Half::new(&Springs::constant(pa(k)).unwrap(), ei, 29.0, 2_000);
            let (y, mo) = half.middle();
            case.compare("sigma", pa(6.7e3 * mo * 0.05 / 6e-6));
            case.compare("v", m(6.7e3 * y));
        }
        "matlock_reese_deflection_limit" => {
            let (ei, nh): (FlexuralRigidity, ForcePerVolume) = (case.input("EI"), case.input("nh"));
            let t = closed_form::relative_length(nh, ei).unwrap();
            case.compare("T", t);
            let y0 = case.input::<Length>("y0").value;
            let scale = ei.value / t.value.powi(3);
            case.compare("H_with_2.435", newton(y0 * scale / 2.435));
            let solved = PostModel::new(ei, m(0.25), m(25.0), Springs::growing(nh).unwrap())
                .unwrap()
                .with_force(m(0.0), kn(1.0))
                .unwrap()
                .with_elements(2_000)
                .unwrap()
                .solve()
                .unwrap();
            case.compare("H_exact", kn(y0 / solved.lean().value));
            let quick = closed_form::long_growing(nh, ei, m(25.0), kn(1.0), n_m(0.0)).unwrap();
            assert_relative_eq!(
                quick.deflection.value,
                solved.lean().value,
                max_relative = 5e-4
            );
        }
        "matlock_reese_inverse_T" => {
            // T from a known deflection, by bisection on nh.
            let ei = n_sq_m(case.input::<Pressure>("E").value * 0.049);
            let (h, mo): (Force, Torque) = (case.input("H"), case.input("M"));
            let y0 = case.input::<Length>("y0");
            let (mut low, mut high) = (1.0, 5.0);
            for _ in 0..60 {
                let t: f64 = 0.5 * (low + high);
                let nh = ForcePerVolume::from_si(ei.value / t.powi(5));
                let at = closed_form::long_growing(nh, ei, m(6.0 * t), h, mo).unwrap();
                if at.deflection > y0 {
                    high = t;
                } else {
                    low = t;
                }
            }
            case.compare("T", m(low));
        }
        other => panic!("{}: {other}", case.id),
    }
}
