//! How good the mesh of a response is, and how good its own estimate of that.

use crate::reference::boundary_values::model;
use groundline::profile::{Layer, Profile, Soil, Stiffness};
use groundline::response::*;
use groundline::units::*;
use proptest::prelude::*;
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};

/// The rows of response_bvp.csv: case, movement at top and grade, greatest
/// moment and movement of the toe.
fn rows() -> Vec<(String, [f64; 4])> {
    let all = include_str!("../data/response_bvp.csv").lines();
    all.filter(|line| !line.starts_with('#'))
        .skip(1)
        .map(|line| {
            let cells: Vec<&str> = line.split(',').collect();
            let number = |i: usize| cells[i].parse::<f64>().unwrap();
            (
                cells[0].to_owned(),
                [number(1), number(2), number(4), number(6)],
            )
        })
        .collect()
}

fn values(response: &Response) -> [f64; 4] {
    [
        response.at_top().deflection.value,
        response.at_grade().deflection.value,
        response.greatest_moment().moment.value,
        response.at_toe().deflection.value,
    ]
}

fn solved(post: &PostModel, elements: u32) -> Response {
    let post = post.clone().with_elements(elements).unwrap();
    post.solve().unwrap()
}

/// The mesh that nobody chose: 1e-4 of every movement, the least one of the toe
/// of stiff clay too, and of the moment; 1e-6 where movements are great.
#[test]
fn boundary_values_in_the_default_mesh() {
    let rows = rows();
    assert_eq!(rows.len(), 9);
    for (name, exact) in rows {
        let response = model(&name).solve().unwrap();
        let ours = values(&response);
        for i in 0..4 {
            let off = (ours[i] / exact[i] - 1.0).abs();
            assert!(off < if i < 3 { 1e-6 } else { 1e-4 }, "{name} {i}: {off:e}");
        }
        honest(&response, &exact, &name);
    }
}

/// The estimate is not less than a third of the true error, but for 2e-6 of the
/// value.
fn honest(response: &Response, exact: &[f64; 4], name: &str) {
    let ours = values(response);
    let error = response.error_estimate().unwrap();
    let most = exact[0].abs().max(exact[1].abs());
    for i in [0, 1, 3] {
        let off = (ours[i] - exact[i]).abs();
        let estimate = error.deflection.value;
        assert!(off <= 3.0 * estimate + 2e-6 * most, "{name} {i}: {off:e}");
    }
    let off = (ours[2] - exact[2]).abs();
    let estimate = error.moment.value;
    assert!(off <= 3.0 * estimate + 2e-6 * exact[2], "{name}: {off:e}");
}

/// Coarse meshes: more elements never make it worse, the error falls at least a
/// hundredfold from 8 to 64, and each estimate is honest.
#[test]
fn refining_never_makes_it_worse() {
    for (name, exact) in rows() {
        let mut last = [f64::MAX; 3];
        let mut coarse = [0.0; 3];
        for elements in [8, 16, 32, 64, 128, 256] {
            let response = solved(&model(&name), elements);
            honest(&response, &exact, &format!("{name} {elements}"));
            let ours = values(&response);
            for i in 0..3 {
                let off = (ours[i] / exact[i] - 1.0).abs();
                assert!(off <= last[i] + 1e-6, "{name} {elements} {i}: {off:e}");
                last[i] = off;
                if elements == 8 {
                    coarse[i] = off;
                } else if elements == 64 {
                    assert!(off <= 0.01 * coarse[i] + 1e-6, "{name} {i}: {off:e}");
                }
            }
        }
    }
}

/// The error of smooth ground falls with the fourth power of the element length,
/// layers or not, and so does the estimate.
#[test]
fn fourth_order_in_layers() {
    let post = model("two_layers");
    let (_, exact) = rows()
        .into_iter()
        .find(|row| row.0 == "two_layers")
        .unwrap();
    // The layers meet at 0.4 m of 0.9: nine elements or a multiple fit.
    let at = |elements: u32| {
        let response = solved(&post, elements);
        let error = response.error_estimate().unwrap();
        let toe = (values(&response)[3] - exact[3]).abs();
        (toe, error.deflection.value)
    };
    for elements in [9, 18] {
        let (one, other) = (at(elements), at(2 * elements));
        for order in [(one.0 / other.0).log2(), (one.1 / other.1).log2()] {
            assert!((3.5..4.5).contains(&order), "{elements}: {order}");
        }
    }
}

#[derive(Debug, Clone)]
struct Drawn {
    layers: Vec<(f64, f64, bool)>,
    law: usize,
    depth: f64,
    width: f64,
    water: f64,
    share: f64,
    above: f64,
}

/// A post near the share of its collapse load, in layers of sand and clay.
fn post(drawn: &Drawn) -> Option<PostModel> {
    let count = drawn.layers.len();
    let layers = drawn.layers.iter().enumerate().map(|(i, layer)| {
        let (part, strength, is_sand) = *layer;
        let soil = Soil::new(kn_per_cu_m(17.0)).unwrap();
        let soil = if is_sand {
            let nh = Stiffness::growing(kn_per_cu_m(3e3 + 3e4 * strength)).unwrap();
            let soil = soil.with_friction_angle(deg(26.0 + 14.0 * strength));
            soil.unwrap().with_stiffness(nh).unwrap()
        } else {
            let ks = Stiffness::constant(kn_per_cu_m(5e3 + 6e4 * strength)).unwrap();
            let soil = soil.with_undrained_strength(kpa(12.0 + 100.0 * strength));
            soil.unwrap().with_stiffness(ks).unwrap()
        };
        let thickness = if i + 1 == count {
            50.0
        } else {
            drawn.depth * part
        };
        Layer::new(m(thickness), soil).unwrap()
    });
    let profile = Profile::new(layers.collect())
        .unwrap()
        .with_water_at(m(drawn.depth * drawn.water))
        .unwrap();
    let of_soil = |loading, curve| Springs::curves_of_soil(&profile, loading, 0.01, curve).unwrap();
    let springs = match drawn.law {
        0 => Springs::elastic(&profile).unwrap(),
        1 => Springs::elastic_plastic(&profile).unwrap(),
        2 => of_soil(Loading::Static, ClayCurve::Soft),
        3 => of_soil(Loading::Cyclic, ClayCurve::Soft),
        _ => of_soil(Loading::Static, ClayCurve::Stiff),
    };
    let rigidity = n_sq_m(9e9 * drawn.width.powi(4) / 12.0);
    let force = |force: f64| {
        PostModel::new(rigidity, m(drawn.width), m(drawn.depth), springs.clone())
            .and_then(|post| post.standing(m(drawn.above)))
            .and_then(|post| post.with_force(m(drawn.above), newton(force)))
            .unwrap()
    };
    let most = if drawn.law == 0 {
        1.0
    } else {
        let coarse = force(1_000.0).with_elements(20).unwrap();
        coarse.collapse(1e4).unwrap()?
    };
    Some(force(1_000.0 * drawn.share * most))
}

/// Random posts in random layers against a mesh eight times as fine: 1e-4 of
/// movement and moment, and an honest estimate; in a mesh half as fine the
/// estimate is honest too. The same posts in every run.
#[test]
fn random_layers_in_the_default_mesh() {
    let drawn = (
        prop::collection::vec((0.05..0.5_f64, 0.0..1.0_f64, any::<bool>()), 1..5),
        0..5_usize,
        (0.5..5.0_f64, 0.06..0.5_f64),
        (0.1..1.2_f64, 0.05..0.8_f64, 0.2..3.0_f64),
    )
        .prop_map(
            |(layers, law, (depth, width), (water, share, above))| Drawn {
                layers,
                law,
                depth,
                width,
                water,
                share,
                above,
            },
        );
    let rng = TestRng::deterministic_rng(RngAlgorithm::ChaCha);
    let mut runner = TestRunner::new_with_rng(Config::with_cases(60), rng);
    let passed = runner.run(&drawn, |drawn| {
        let Some(post) = post(&drawn) else {
            return Ok(());
        };
        let exact = values(&solved(&post, 640));
        let response = post.solve().unwrap();
        let ours = values(&response);
        for i in 0..3 {
            let off = (ours[i] / exact[i] - 1.0).abs();
            prop_assert!(off < 1e-4, "{i}: {off:e}");
        }
        honest(&response, &exact, "40");
        honest(&solved(&post, 20), &exact, "20");
        Ok(())
    });
    passed.unwrap();
}

/// On the verge of collapse, or at rest, an estimate is small or there is none.
#[test]
fn estimate_at_rest() {
    let solver = model("plastic_sand").solver();
    let error = solver.response().error_estimate().unwrap();
    assert_eq!((error.deflection, error.moment), (m(0.0), n_m(0.0)));
}
