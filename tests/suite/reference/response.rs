//! The response of a post in the ground: the cases of response.csv.

use super::Method;
use crate::vectors::Case;
use approx::assert_relative_eq;
use groundline::profile::{Profile, Soil, Stiffness};
use groundline::response::closed_form;
use groundline::response::*;
use groundline::units::*;

pub(crate) const METHODS: &[Method] = &[
    (
        "winkler_constant_k",
        "constant springs, finite post",
        winkler_constant_k,
    ),
    (
        "winkler_constant_k_semi_infinite",
        "constant springs, endless post",
        limits,
    ),
    (
        "winkler_constant_k_rigid",
        "constant springs, rigid post",
        limits,
    ),
    ("winkler_linear_k", "growing springs", growing),
    (
        "winkler_linear_k_rigid",
        "growing springs, rigid post",
        growing_rigid,
    ),
    (
        "matlock_reese_long",
        "Matlock and Reese, long post",
        matlock_reese,
    ),
    (
        "matlock_reese_short",
        "Matlock and Reese, short post",
        matlock_reese,
    ),
    (
        "elastic_plastic_soil",
        "elastic-plastic ground",
        elastic_plastic,
    ),
    (
        "py_api_sand_cyclic",
        "p-y curves of sand, cyclic",
        curves_of_sand,
    ),
];

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

/// H and M of a case.
fn loads(case: &Case) -> (Force, Torque) {
    (case.input("H"), case.input("M"))
}

/// y0, θ0, the greatest moment and its place, as far as a row has them.
fn grade(case: &Case, response: &Response) {
    let (at, greatest) = (response.at_grade(), response.greatest_moment());
    case.compare("y0", at.deflection);
    if case.expects("theta0") {
        case.compare("theta0", at.rotation);
    }
    case.compare("Mmax", greatest.moment);
    case.compare("z_Mmax", greatest.depth);
}

fn constant(case: &Case) {
    let (h, mo) = loads(case);
    let k = mpa(1.78);
    let post = post(Springs::constant(k).unwrap(), h, mo);
    let closed = closed_form::finite(k, rigidity(), m(0.9), h, mo).unwrap();
    let mesh = post.solve().unwrap();
    case.compare_number("lambda_L", closed.slenderness());
    let at = closed.at_grade();
    case.compare("y0", at.deflection);
    case.compare("theta0", at.rotation);
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
    let z = m(zero(&|z| closed.shear(m(z)).value, 0.0, 0.3));
    case.compare("z_Mmax", z);
    case.compare("Mmax", closed.moment(z));
    let toe = closed.deflection(m(0.9));
    case.compare("y_toe", toe);
    let reverses = zero(&|z| closed.deflection(m(z)).value, 0.0, 0.9);
    case.compare("z_zero", m(reverses));
    // The toe is free.
    assert!(closed.moment(m(0.9)).value.abs() < 1e-9 * 2_000.0);
    assert!(closed.shear(m(0.9)).value.abs() < 1e-9 * 2_000.0);
    // The mesh agrees with the closed form.
    let near = |ours: f64, closed: f64| assert_relative_eq!(ours, closed, max_relative = 1e-4);
    near(mesh.at_grade().deflection.value, at.deflection.value);
    near(mesh.at_grade().rotation.value, at.rotation.value);
    near(mesh.at_toe().deflection.value, toe.value);
    let greatest = mesh.greatest_moment();
    near(greatest.moment.value, closed.moment(z).value);
    near(greatest.depth.value, z.value);
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
    for (name, ours) in [
        ("Ay0", ay),
        ("By0", by),
        ("Bs0", bs),
        ("Am_max", am),
        ("Z_Am_max", z),
    ] {
        if case.expects(name) {
            case.compare_number(name, ours);
        }
    }
    if case.expects("Fy") {
        // A head that does not turn: the moment that undoes the rotation.
        let turned = by_shear.at_grade().rotation.value / by_moment.at_grade().rotation.value;
        let fy = ay - by * turned;
        case.compare_number("Fy", fy);
        case.compare_number("Fm", -turned);
        let long = closed_form::LONG_GROWING;
        for (quick, full) in [
            (long.ay, ay),
            (long.by, by),
            (-long.bs, bs),
            (long.am, am),
            (long.z, z),
        ] {
            assert_relative_eq!(quick, full, max_relative = 1e-3);
        }
    }
}

fn winkler_constant_k(case: &Case) {
    constant(case);
}

fn limits(case: &Case) {
    let (h, mo) = loads(case);
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

fn growing(case: &Case) {
    let (h, mo) = loads(case);
    let response = post(Springs::growing(kn_per_cu_m(10_000.0)).unwrap(), h, mo)
        .solve()
        .unwrap();
    grade(case, &response);
}

fn growing_rigid(case: &Case) {
    let (h, mo) = loads(case);
    let l: Length = case.input("L");
    let stiff = rigidity() * 1e5;
    let at = closed_form::rigid_growing(kn_per_cu_m(10_000.0), stiff, l, h, mo).unwrap();
    case.compare("y0", at.deflection);
    case.compare("theta0", at.rotation);
}

fn elastic_plastic(case: &Case) {
    let (h, mo) = loads(case);
    let b = 0.089;
    let limit = case.input::<Pressure>("p_u_pressure").value * b;
    let springs = Springs::constant_up_to(mpa(1.78), n_per_m(limit)).unwrap();
    let response = post(springs, h, mo)
        .with_elements(400)
        .unwrap()
        .solve()
        .unwrap();
    grade(case, &response);
}

fn curves_of_sand(case: &Case) {
    let (h, mo) = loads(case);
    let sand = Soil::new(case.input("gamma"))
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
    grade(case, &response);
}
