//! Response of a post: whole solves and their cost per element and iteration.

use crate::bare_beam::{Beam, Spring};
use crate::race::Race;
use groundline::profile::{Profile, Soil, Stiffness};
use groundline::response::{ClayCurve, Loading, PostModel, Springs, api_sand_coefficients};
use groundline::units::{deg, kn_per_cu_m, m, mm, n_m, n_sq_m, newton};
use std::hint::black_box;

const EI: f64 = 47_056.7;
const B: f64 = 0.089;
const GAMMA: f64 = 18_000.0;

fn profile(phi: f64, nh: f64) -> Profile {
    let soil = Soil::new(kn_per_cu_m(18.0))
        .unwrap()
        .with_friction_angle(deg(phi))
        .unwrap()
        .with_stiffness(Stiffness::growing(kn_per_cu_m(nh)).unwrap())
        .unwrap();
    Profile::uniform(soil).unwrap()
}

fn model(springs: Springs, elements: u32, shear: f64, moment: f64) -> PostModel {
    PostModel::new(n_sq_m(EI), mm(89.0), m(0.9), springs)
        .unwrap()
        .with_force(m(0.0), newton(shear))
        .unwrap()
        .with_moment(n_m(moment))
        .unwrap()
        .with_elements(elements)
        .unwrap()
}

fn compare(
    race: &Race,
    name: &str,
    springs: &Springs,
    load: (f64, f64),
    at: impl Fn(f64) -> Spring + Copy,
) {
    for elements in [50, 100, 200, 400, 800, 1_600] {
        let mut solver = model(springs.clone(), elements, load.0, load.1).solver();
        solver.solve(1.0).unwrap();
        let response = solver.response();
        let ours = response.at_grade().deflection.value;
        // The same nodes for both.
        let stations = response.stations().iter();
        let nodes: Vec<f64> = stations.map(|station| station.depth.value).collect();
        let mut beam = Beam::new(EI, &nodes, load.0, load.1, at);
        let (theirs, iterations) = beam.solve().unwrap();
        assert!((ours / theirs - 1.0).abs() < 1e-9, "{ours} {theirs}");
        #[expect(clippy::cast_precision_loss, reason = "small counts")]
        let each = solver.elements() as f64 * f64::from(iterations.max(1));
        let mut share = 1.0;
        let figure = race.run(
            &format!("{name}, {elements} elements"),
            1,
            || {
                // A load that turns round starts from rest.
                share = -share;
                black_box(&mut solver).solve(share).unwrap();
                f64::from(solver.iterations())
            },
            || f64::from(black_box(&mut beam).solve().unwrap().1),
        );
        if let Some(figure) = figure {
            println!(
                "{:36} typed {:9.1} an element and iteration",
                "",
                figure / each
            );
        }
    }
}

pub(crate) fn beams(race: &Race) {
    let kp = (std::f64::consts::FRAC_PI_4 + 0.5 * deg(32.0).value)
        .tan()
        .powi(2);
    let plastic = Springs::elastic_plastic(&profile(32.0, 10_000.0)).unwrap();
    let at = |z: f64| Spring {
        kind: 1,
        k: 1e7 * z,
        pu: 3.0 * kp * GAMMA * z * B,
    };
    compare(race, "elastic-plastic", &plastic, (300.0, 360.0), at);

    let [c1, c2, c3] = api_sand_coefficients(deg(35.0)).unwrap();
    let api = Springs::curves_of_soil(
        &profile(35.0, 16_600.0),
        Loading::Static,
        0.01,
        ClayCurve::Soft,
    );
    let at = |z: f64| Spring {
        kind: 2,
        k: 1.66e7 * z,
        pu: (3.0 - 0.8 * z / B).max(0.9) * GAMMA * z * (c1 * z + c2 * B).min(c3 * B),
    };
    compare(race, "API sand", &api.unwrap(), (350.0, 420.0), at);
}
