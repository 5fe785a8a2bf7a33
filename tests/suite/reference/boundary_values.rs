//! The nine models of response_bvp.csv, which tests/data/response_bvp.py solves by
//! two methods of its own.

use groundline::profile::{Layer, Profile, Soil, Stiffness};
use groundline::response::*;
use groundline::units::*;

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

pub(crate) fn model(name: &str) -> PostModel {
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
