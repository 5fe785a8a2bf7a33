//! Beams on springs of textbooks: the cases of textbook_springs.csv.

use super::Method;
use crate::vectors::Case;
use approx::assert_relative_eq;
use groundline::response::closed_form;
use groundline::response::*;
use groundline::units::*;

pub(crate) const METHODS: &[Method] = &[
    (
        "winkler_infinite_point_load",
        "endless beam, one load",
        endless,
    ),
    (
        "winkler_infinite_three_loads",
        "endless beam, three loads",
        endless,
    ),
    (
        "winkler_smeared_springs",
        "beam on spaced springs, smeared",
        smeared,
    ),
    (
        "winkler_discrete_springs_free_ends",
        "beam on seven springs",
        seven_springs,
    ),
    ("winkler_uniform_load", "endless beam, even load", even_load),
    (
        "winkler_semi_infinite_end_load",
        "beam loaded at its end",
        end_load,
    ),
    (
        "winkler_constants",
        "constants of a beam loaded at its end",
        constants,
    ),
    ("winkler_pinned_discrete", "pinned beam on springs", pinned),
    (
        "winkler_simply_supported",
        "supported beam on springs",
        supported,
    ),
    ("winkler_spaced_springs", "beam on spaced springs", spaced),
    (
        "matlock_reese_deflection_limit",
        "load at a limit of deflection",
        deflection_limit,
    ),
    ("matlock_reese_inverse_T", "T from a deflection", inverse),
];

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

fn endless(case: &Case) {
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

fn smeared(case: &Case) {
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

fn seven_springs(case: &Case) {
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

fn even_load(case: &Case) {
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

fn end_load(case: &Case) {
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
    case.compare_in_unit("M", &[greatest.moment.to(n_m) * 1e3]);
    case.compare("z", greatest.depth);
    case.compare("sigma", pa(greatest.moment.value * 0.051 / 2.53e-6));
}

fn constants(case: &Case) {
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

fn pinned(case: &Case) {
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
    case.compare("M", n_m(p * half.middle().1));
}

fn supported(case: &Case) {
    // β = 1 per metre; the far support a stiff end.
    let (half_length, ei) = (0.5 * case.number("beta_L"), 250.0);
    let soil = Curve::new(&[(m(1.0), n_per_m(1_000.0))]).unwrap();
    let support = Curve::new(&[(m(0.01), n_per_m(1e7))]).unwrap();
    let springs =
        Springs::of_curves(vec![(m(half_length - 0.001), soil), (m(900.0), support)]).unwrap();
    let half = Half::new(&springs, ei, half_length, 4_000);
    let factor = half.middle().0 * ei;
    case.compare_number("y_EI_beta3_over_F", factor);
}

fn spaced(case: &Case) {
    let ei: f64 = 206.8e9 * 6e-6;
    let k: f64 = 10e3 / 1.5;
    let beta = (k / (4.0 * ei)).powf(0.25);
    case.compare_in_unit("beta", &[beta]);
    let half = Half::new(&Springs::constant(pa(k)).unwrap(), ei, 29.0, 2_000);
    let (y, mo) = half.middle();
    case.compare("sigma", pa(6.7e3 * mo * 0.05 / 6e-6));
    case.compare("v", m(6.7e3 * y));
}

fn deflection_limit(case: &Case) {
    let (ei, nh): (FlexuralRigidity, ForcePerVolume) = (case.input("EI"), case.input("nh"));
    let t = closed_form::relative_length(nh, ei).unwrap();
    let y0 = case.input::<Length>("y0").value;
    if case.expects("H_with_2.435") {
        let scale = ei.value / t.value.powi(3);
        case.compare("H_with_2.435", newton(y0 * scale / 2.435));
        return;
    }
    case.compare("T", t);
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

fn inverse(case: &Case) {
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
