//! Springs by their laws, station by station: what a solved post's ground
//! pushes with at every depth is the law at the movement there, worked by hand.
//! And the edges of the solver: linear ground in one step, collapse, sums.

use approx::assert_relative_eq;
use groundline::profile::{Layer, Profile, Soil, Stiffness};
use groundline::response::closed_form;
use groundline::response::*;
use groundline::source;
use groundline::units::*;

const B: f64 = 0.1;
const EI: f64 = 2e5;

fn post(springs: Springs, depth: f64, force: f64) -> PostModel {
    PostModel::new(n_sq_m(EI), m(B), m(depth), springs)
        .unwrap()
        .with_force(m(0.0), newton(force))
        .unwrap()
}

/// At every station but the last, whose spring is that of the element above: the
/// first Gauss point of an element, 0.2113 of its length below the station,
/// gives the law. Loads grow by a quarter until the ground lets go or a movement
/// is ten times what is wanted; those met must reach from one end of the law to
/// the other, in a measure of it.
fn follows(
    springs: &Springs,
    law: impl Fn(f64, f64) -> f64,
    measure: impl Fn(f64) -> f64,
    (least, most): (f64, f64),
) {
    let (mut low, mut high) = (f64::MAX, 0.0_f64);
    let mut force = 0.01;
    while high < 10.0 * most {
        force *= 1.25;
        let Ok(response) = post(springs.clone(), 3.0, force).solve() else {
            break;
        };
        for pair in response.stations().windows(2) {
            let (at, next) = (pair[0].depth.value, pair[1].depth.value);
            let y = pair[0].deflection.value;
            let z = at + (0.5 - 0.5 / 3.0_f64.sqrt()) * (next - at);
            let by_hand = law(z, y.abs()).copysign(y);
            assert_relative_eq!(
                pair[0].reaction.value,
                by_hand,
                max_relative = 1e-9,
                epsilon = 1e-9
            );
            (low, high) = (low.min(measure(y.abs())), high.max(measure(y.abs())));
        }
    }
    assert!(low < least && high > most, "{low} {high}");
}

fn clay(su: f64) -> Soil {
    let soil = Soil::new(kn_per_cu_m(18.0)).unwrap();
    soil.with_undrained_strength(kpa(su)).unwrap()
}

fn uniform(soil: Soil) -> Profile {
    Profile::uniform(soil).unwrap()
}

/// Matlock: pu = (3 + σ′/su + J z/b) su b to 9 su b, y50 = 2.5 ε b, ½ (y/y50)^⅓
/// to 8 y50; cyclic 0.72 from 3 y50, falling to 0.72 x/xr at 15 y50, x/xr the
/// share of 3 to 9 that the factor has come. Below 0.01 y50 the chord.
#[test]
fn soft_clay() {
    let y50 = 2.5 * 0.01 * B;
    for (curve, j) in [(ClayCurve::Soft, 0.5), (ClayCurve::Medium, 0.25)] {
        for loading in [Loading::Static, Loading::Cyclic] {
            let springs = Springs::curves_of_soil(&uniform(clay(20.0)), loading, 0.01, curve);
            let law = |z: f64, y: f64| {
                let factor = 3.0 + 18.0 * z / 20.0 + j * z / B;
                let pu = factor.min(9.0) * 20e3 * B;
                let r = y / y50;
                let left = 0.72 * ((factor - 3.0) / 6.0).min(1.0);
                let root = 0.5 * r.max(0.01).cbrt();
                pu * match loading {
                    _ if r < 0.01 => root * r / 0.01,
                    Loading::Static => root.min(1.0),
                    _ if r < 3.0 => root.min(0.72),
                    _ if r < 15.0 => 0.72 - (0.72 - left) * (r - 3.0) / 12.0,
                    _ => left,
                }
            };
            let most = if loading == Loading::Static { 9.0 } else { 3.2 };
            follows(&springs.unwrap(), law, |y| y / y50, (0.005, most));
        }
    }
}

/// Stiff clay: ½ (y/y50)^¼ to 16 y50, the chord below 0.001 y50.
#[test]
fn stiff_clay() {
    let y50 = 2.5 * 0.005 * B;
    let profile = uniform(clay(80.0));
    let springs = Springs::curves_of_soil(&profile, Loading::Static, 0.005, ClayCurve::Stiff);
    let law = |z: f64, y: f64| {
        let factor = 3.0 + 18.0 * z / 80.0 + 0.5 * z / B;
        let r = y / y50;
        let shape = if r < 0.001 {
            0.5 * 0.001_f64.powf(0.25) * r / 0.001
        } else {
            (0.5 * r.powf(0.25)).min(1.0)
        };
        factor.min(9.0) * 80e3 * B * shape
    };
    follows(&springs.unwrap(), law, |y| y / y50, (0.0005, 17.0));
    let cyclic = Springs::curves_of_soil(&profile, Loading::Cyclic, 0.005, ClayCurve::Stiff);
    assert_eq!(cyclic.unwrap_err().field(), "loading");
    let strain =
        |e: f64| Springs::curves_of_soil(&profile, Loading::Static, e, ClayCurve::Soft).is_ok();
    assert!(strain(0.001) && strain(0.05) && !strain(0.000_9) && !strain(0.050_1));
}

/// API sand: A pu tanh(k z y/(A pu)), pu the lesser of (C1 z + C2 b) σ′ and C3 b
/// σ′; A = 3 − 0.8 z/b, at least 0.9; 0.9 of cyclic loading.
#[test]
fn api_sand() {
    let phi = deg(32.0);
    let [c1, c2, c3] = api_sand_coefficients(phi).unwrap();
    let soil = Soil::new(kn_per_cu_m(18.0)).unwrap();
    let soil = soil.with_friction_angle(phi).unwrap();
    let stiff = Stiffness::growing(kn_per_cu_m(15e3)).unwrap();
    let profile = uniform(soil.with_stiffness(stiff).unwrap());
    for loading in [Loading::Static, Loading::Cyclic] {
        let springs = Springs::curves_of_soil(&profile, loading, 0.01, ClayCurve::Soft).unwrap();
        let law = |z: f64, y: f64| {
            let pu = 18e3 * z * (c1 * z + c2 * B).min(c3 * B);
            let a = if loading == Loading::Static {
                (3.0 - 0.8 * z / B).max(0.9)
            } else {
                0.9
            };
            a * pu * (15e6 * z * y / (a * pu)).tanh()
        };
        follows(&springs, law, |y| y / 0.01, (1e-6, 1.0));
        assert_eq!(springs.sources(), [&source::API_SAND]);
    }
    // A sand without a stiffness that grows has no such curve.
    let flat = soil.with_stiffness(Stiffness::constant(kn_per_cu_m(15e3)).unwrap());
    let refused = |soil: Soil| {
        Springs::curves_of_soil(&uniform(soil), Loading::Static, 0.01, ClayCurve::Soft)
            .unwrap_err()
            .field()
            .to_owned()
    };
    assert_eq!(refused(flat.unwrap()), "stiffness of soil");
    assert_eq!(refused(soil), "stiffness of soil");
    let both = soil.with_undrained_strength(kpa(20.0)).unwrap();
    assert_eq!(refused(both.with_stiffness(stiff).unwrap()), "soil");
}

/// A soil, its stiffness, its law by hand, and whether the stiffness is a modulus.
type Case<'a> = (Soil, Stiffness, Box<dyn Fn(f64, f64) -> f64 + 'a>, bool);

/// Elastic-plastic: 3 Kp σ′ b + 2 √Kp c b of drained soil, su b (3 + 1.5 z/b) to 9
/// su b of undrained, the lesser of both where both are told. k of ks is ks b,
/// of nh nh z, of a modulus Vesic's 0.65 (Es b⁴/EI)^(1/12) Es/(1 − ν²).
#[test]
fn elastic_plastic() {
    let drained = Soil::new(kn_per_cu_m(18.0)).unwrap();
    let drained = drained.with_friction_angle(deg(30.0)).unwrap();
    let cohesive = drained.with_cohesion(kpa(5.0)).unwrap();
    let both = cohesive.with_undrained_strength(kpa(30.0)).unwrap();
    let of_sand = |z: f64, c: f64| B * (3.0 * 3.0 * 18e3 * z + 2.0 * 3.0_f64.sqrt() * c);
    let of_clay = |z: f64, su: f64| su * B * (3.0 + 1.5 * z / B).min(9.0);
    let ks = Stiffness::constant(kn_per_cu_m(20e3)).unwrap();
    let nh = Stiffness::growing(kn_per_cu_m(8e3)).unwrap();
    let es = Stiffness::modulus(kpa(6_000.0), 0.3).unwrap();
    let vesic = 0.65 * (6e6 * B.powi(4) / EI).powf(1.0 / 12.0) * 6e6 / (1.0 - 0.09);
    let cases: [Case<'_>; 4] = [
        (
            clay(30.0),
            ks,
            Box::new(|z, y| (20e6 * B * y).min(of_clay(z, 30e3))),
            false,
        ),
        (
            drained,
            nh,
            Box::new(|z, y| (8e6 * z * y).min(of_sand(z, 0.0))),
            false,
        ),
        (
            cohesive,
            es,
            Box::new(|z, y| (vesic * y).min(of_sand(z, 5e3))),
            true,
        ),
        (
            both,
            ks,
            Box::new(|z, y| (20e6 * B * y).min(of_sand(z, 5e3)).min(of_clay(z, 30e3))),
            false,
        ),
    ];
    for (soil, stiffness, law, modulus) in cases {
        let profile = uniform(soil.with_stiffness(stiffness).unwrap());
        let springs = Springs::elastic_plastic(&profile).unwrap();
        follows(&springs, law, |y| y / 0.01, (1e-5, 1.0));
        let vesic = springs.sources().contains(&&source::VESIC);
        assert_eq!(vesic, modulus);
        let elastic = Springs::elastic(&profile).unwrap().sources();
        assert_eq!(elastic.contains(&&source::VESIC), modulus);
        assert!(elastic.contains(&&source::GIVEN));
        assert!(springs.sources().contains(&&source::PLASTIC_SPRINGS));
    }
    assert!(Springs::elastic_plastic(&uniform(clay(30.0))).is_err());
}

/// The user's curves: straight between points, flat beyond the last, the first
/// curve to its depth and the last from its own downwards.
#[test]
fn curves_of_the_user() {
    let curve = |scale: f64| {
        Curve::new(&[
            (mm(2.0), kn_per_m(4.0 * scale)),
            (mm(6.0), kn_per_m(8.0 * scale)),
            (mm(9.0), kn_per_m(8.0 * scale)),
        ])
        .unwrap()
    };
    let springs = Springs::of_curves(vec![(m(1.0), curve(1.0)), (m(2.0), curve(2.0))]).unwrap();
    let law = |z: f64, y: f64| {
        let scale = if z < 1.0 { 1.0 } else { 2.0 };
        let shape = if y <= 0.002 {
            2e6 * y
        } else {
            (4e3 + 1e6 * (y - 0.002)).min(8e3)
        };
        scale * shape
    };
    follows(&springs, law, |y| y / 0.006, (1e-3, 1.0));
    assert_eq!(springs.sources(), [&source::GIVEN]);
    // 1 to 100 curves of 1 to 100 points, each deeper and farther than the last.
    let many = |n: u32| {
        let all = (1..=n)
            .map(|i| (m(f64::from(i) * 0.1), curve(1.0)))
            .collect();
        Springs::of_curves(all).is_ok()
    };
    assert!(many(1) && many(100) && !many(0) && !many(101) && !many(150));
    let points = |n: u32| {
        let all: Vec<_> = (1..=n).map(|i| (mm(f64::from(i)), kn_per_m(1.0))).collect();
        Curve::new(&all).is_ok()
    };
    assert!(points(1) && points(100) && !points(0) && !points(101) && !points(150));
    let two =
        |a: f64, b: f64| Springs::of_curves(vec![(mm(a), curve(1.0)), (mm(b), curve(1.0))]).is_ok();
    assert!(two(10.0, 11.1) && !two(10.0, 10.9) && !two(0.9, 20.0) && !two(20.0, 10.0));
    let falling = Curve::new(&[(mm(1.0), kn_per_m(2.0)), (mm(2.0), kn_per_m(1.9))]);
    assert_eq!(falling.unwrap_err().field(), "reaction of a curve");
    let back = Curve::new(&[(mm(1.0), kn_per_m(2.0)), (mm(1.0), kn_per_m(2.0))]);
    assert_eq!(back.unwrap_err().field(), "deflection of a curve");
    assert!(Curve::new(&[(m(10.0), n_per_m(1e8))]).is_ok());
    assert!(Curve::new(&[(m(10.1), n_per_m(1.0))]).is_err());
    assert!(Curve::new(&[(m(1.0), n_per_m(1.01e8))]).is_err());
}

/// Elastic ground is linear, with and without weight on the post: the first
/// step is the answer, whatever the layers, loads and shares. Another is taken
/// where the axial force turns with the post's own rounding.
#[test]
fn linear_ground_takes_one_step() {
    let layered = Profile::new(vec![
        Layer::new(
            m(0.5),
            clay(20.0)
                .with_stiffness(Stiffness::constant(kn_per_cu_m(5e3)).unwrap())
                .unwrap(),
        )
        .unwrap(),
        Layer::new(
            m(5.0),
            clay(60.0)
                .with_stiffness(Stiffness::growing(kn_per_cu_m(9e3)).unwrap())
                .unwrap(),
        )
        .unwrap(),
    ])
    .unwrap();
    for springs in [
        Springs::constant(mpa(2.0)).unwrap(),
        Springs::growing(kn_per_cu_m(8e3)).unwrap(),
        Springs::elastic(&layered).unwrap(),
    ] {
        for axial in [0.0, 5.0, 40.0] {
            for elements in [4, 20, 100] {
                let mut solver = post(springs.clone(), 1.5, 300.0)
                    .standing(m(2.0))
                    .unwrap()
                    .with_force(m(1.7), newton(90.0))
                    .unwrap()
                    .with_wind(m(0.5), m(2.0), n_per_m(40.0))
                    .unwrap()
                    .with_moment(n_m(-70.0))
                    .unwrap()
                    .with_axial(kn(axial))
                    .unwrap()
                    .with_elements(elements)
                    .unwrap()
                    .solver();
                solver.solve(1.0).unwrap();
                assert_eq!(solver.iterations(), 1, "{axial} {elements}");
                let one = solver.response().at_top().deflection.value;
                solver.solve(-3.0).unwrap();
                assert_eq!(solver.iterations(), 1);
                let other = solver.response().at_top().deflection.value;
                assert_relative_eq!(other, -3.0 * one, max_relative = 1e-7);
            }
        }
    }
}

/// Weights add up; so do loads; a force is one with its parts.
#[test]
fn loads_add_up() {
    let springs = Springs::constant(mpa(2.0)).unwrap();
    let standing = post(springs, 1.5, 300.0).standing(m(2.0)).unwrap();
    let whole = standing.clone().with_axial(kn(30.0)).unwrap().solve();
    let parts = standing.clone().with_axial(kn(10.0)).unwrap();
    let parts = parts.with_axial(kn(20.0)).unwrap().solve();
    assert_eq!(whole.unwrap(), parts.unwrap());
    let most = standing.clone().with_axial(kn(1e5)).unwrap();
    assert_eq!(most.with_axial(kn(1.0)).unwrap_err().field(), "axial force");
    assert!(standing.clone().with_axial(kn(-1.0)).is_err());
    let mut many = standing.clone();
    for _ in 1..100 {
        many = many.with_force(m(1.0), newton(1.0)).unwrap();
    }
    assert!(many.with_force(m(1.0), newton(1.0)).is_err());
    for (elements, taken) in [(3, false), (4, true), (5_000, true), (5_001, false)] {
        assert_eq!(standing.clone().with_elements(elements).is_ok(), taken);
    }
}

/// The greatest moment below grade is that of the closed form, between its
/// stations too: scanned at every ten-thousandth of the depth.
#[test]
fn greatest_moment_of_the_closed_form() {
    for (shear, moment) in [
        (500.0, 0.0),
        (500.0, 200.0),
        (-500.0, 60.0),
        (100.0, -30.0),
        (0.0, 90.0),
    ] {
        for elements in [10, 37, 100] {
            let (k, depth) = (mpa(2.0), m(2.0));
            let form = closed_form::finite(k, n_sq_m(EI), depth, newton(shear), n_m(moment));
            let form = form.unwrap();
            let (mut at, mut most) = (0.0, 0.0_f64);
            for i in 0..=10_000 {
                let z = 2.0 * f64::from(i) / 10_000.0;
                let here = form.moment(m(z)).value.abs();
                if here > most {
                    (at, most) = (z, here);
                }
            }
            let springs = Springs::constant(k).unwrap();
            let response = post(springs, 2.0, shear)
                .with_moment(n_m(moment))
                .unwrap()
                .with_elements(elements)
                .unwrap()
                .solve()
                .unwrap();
            let ours = response.greatest_moment();
            let close = if elements == 10 { 2e-3 } else { 1e-4 };
            assert_relative_eq!(ours.moment.value, most, max_relative = close);
            assert!((ours.depth.value - at).abs() < 0.01, "{ours:?} {at}");
            // No station has more.
            for station in response.stations() {
                assert!(station.moment.value.abs() <= ours.moment.value * (1.0 + 1e-12));
            }
        }
    }
}

/// Collapse by a moment alone and by a force alone. Moment alone, an even
/// limit p: half the post pushes each way, M = p L²/4; force alone at grade:
/// F = p L (√2 − 1). Rigid-plastic statics.
#[test]
fn collapse_of_one_load() {
    let springs = || Springs::constant_up_to(mpa(5.0), kn_per_m(4.0)).unwrap();
    let bare = |springs: Springs| PostModel::new(n_sq_m(1e9), m(B), m(1.0), springs).unwrap();
    let by_moment = bare(springs()).with_moment(n_m(100.0)).unwrap();
    let share = by_moment.collapse(1_000.0).unwrap().unwrap();
    assert_relative_eq!(share, 10.0, max_relative = 2e-3);
    let by_force = bare(springs()).with_force(m(0.0), newton(100.0)).unwrap();
    let share = by_force.collapse(1_000.0).unwrap().unwrap();
    let by_hand = 40.0 * (2.0_f64.sqrt() - 1.0);
    assert_relative_eq!(share, by_hand, max_relative = 2e-3);
    // Not within reach: no answer, and no less than the most that was asked.
    assert_eq!(by_force.collapse(by_hand * 0.9).unwrap(), None);
    assert!(by_force.collapse(by_hand * 1.1).unwrap().is_some());
    let none = bare(springs()).collapse(10.0).unwrap_err();
    assert_eq!(none.field(), "load");
    for elastic in [
        Springs::constant(mpa(5.0)).unwrap(),
        Springs::growing(kn_per_cu_m(5e3)).unwrap(),
    ] {
        let never = bare(elastic).with_force(m(0.0), newton(1.0)).unwrap();
        assert_eq!(never.collapse(10.0).unwrap_err().field(), "springs");
    }
}

/// Limits of a model, just inside and just outside.
#[test]
fn limits_of_a_model() {
    let of = |ei: f64, b: f64, l: f64| {
        let springs = Springs::constant(mpa(1.0)).unwrap();
        PostModel::new(n_sq_m(ei), m(b), m(l), springs).is_ok()
    };
    assert!(of(1.0, 0.02, 0.05) && of(1e12, 3.0, 30.0));
    assert!(!of(0.99, 0.1, 1.0) && !of(1.01e12, 0.1, 1.0));
    assert!(!of(1e4, 0.019, 1.0) && !of(1e4, 3.01, 1.0));
    assert!(!of(1e4, 0.1, 0.049) && !of(1e4, 0.1, 30.1));
    let model = post(Springs::constant(mpa(1.0)).unwrap(), 1.0, 1.0);
    let standing = |h: f64| model.clone().standing(m(h)).is_ok();
    assert!(standing(0.0) && standing(30.0) && !standing(-0.1) && !standing(30.1));
    let force = |h: f64, p: f64| model.clone().with_force(ft(h), kn(p)).is_ok();
    assert!(force(0.0, 1e5) && force(300.0, -1e5));
    assert!(!force(-0.1, 1.0) && !force(300.1, 1.0) && !force(1.0, 1.01e5));
    let wind = |a: f64, b: f64, w: f64| model.clone().with_wind(m(a), m(b), n_per_m(w)).is_ok();
    assert!(wind(0.0, 30.0, 1e6) && wind(2.0, 2.0, -1e6));
    assert!(!wind(-0.1, 1.0, 1.0) && !wind(2.0, 1.9, 1.0) && !wind(0.0, 30.1, 1.0));
    assert!(!wind(0.0, 1.0, 1.01e6));
    assert!(model.clone().with_moment(n_m(1e9)).is_ok());
    assert!(model.clone().with_moment(n_m(-1.01e9)).is_err());
    let k = |k: Pressure| Springs::constant(k).is_ok();
    assert!(k(kpa(1.0)) && k(mpa(1e5)) && !k(kpa(0.99)) && !k(mpa(1.01e5)));
    let limit = |p: f64| Springs::constant_up_to(mpa(1.0), n_per_m(p)).is_ok();
    assert!(limit(1.0) && limit(1e8) && !limit(0.99) && !limit(1.01e8));
    let nh = |nh: f64| Springs::growing(kn_per_cu_m(nh)).is_ok();
    assert!(nh(10.0) && nh(1e7) && !nh(9.99) && !nh(1.01e7));
    let growth = |s: f64| Springs::growing_up_to(kn_per_cu_m(5e3), kn_per_cu_m(s)).is_ok();
    assert!(growth(0.1) && growth(1e4) && !growth(0.099) && !growth(1.001e4));
    for (phi, taken) in [(1.0, true), (0.99, false), (50.0, true), (50.1, false)] {
        assert_eq!(api_sand_coefficients(deg(phi)).is_ok(), taken);
    }
    let share = |most: f64| {
        let springs = Springs::constant_up_to(mpa(1.0), kn_per_m(1e5)).unwrap();
        post(springs, 1.0, 1e-3).collapse(most).is_ok()
    };
    assert!(share(1e6) && !share(1.01e6) && !share(-0.1));
    assert_eq!((model.depth(), model.width()), (m(1.0), m(B)));
    assert_eq!(model.rigidity(), n_sq_m(EI));
    let mut solver = model.solver();
    assert!(solver.solve(1e6).is_err() || solver.iterations() > 0);
    assert!(solver.solve(1.01e6).is_err());
    assert_eq!(model.solve().unwrap().lean_ratio(), None);
    let tall = model.standing(m(0.5)).unwrap().solve().unwrap();
    assert_relative_eq!(
        tall.lean_ratio().unwrap(),
        tall.lean().value / 0.5,
        max_relative = 1e-12
    );
}

/// Small rotations end at 0.5 rad: linear ground under a load that turns the
/// post by a little less is solved, by a little more is refused in its first
/// step, and the solver stays where it was.
#[test]
fn rotation_ends_at_half_a_radian() {
    let springs = Springs::constant(mpa(2.0)).unwrap();
    let mut solver = post(springs, 1.5, 100.0).solver();
    solver.solve(1.0).unwrap();
    let turned = |solver: &Solver| {
        let stations = solver.response();
        let stations = stations.stations().iter();
        stations.fold(0.0_f64, |most, s| most.max(s.rotation.value.abs()))
    };
    let one = turned(&solver);
    solver.solve(-0.499 / one).unwrap();
    assert_relative_eq!(turned(&solver), 0.499, max_relative = 1e-7);
    for share in [0.501, -0.501, 5.0] {
        match solver.solve(share / one).unwrap_err() {
            groundline::Error::NoEquilibrium { iterations, .. } => assert_eq!(iterations, 1),
            other => panic!("{other}"),
        }
        assert_relative_eq!(turned(&solver), 0.499, max_relative = 1e-7);
    }
}
