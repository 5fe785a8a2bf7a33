//! What must hold for any post in any ground: convergence, balance, symmetry,
//! softening, collapse where limit analysis has it, and no panic on anything.

use approx::assert_relative_eq;
use groundline::Error;
use groundline::lateral::{LateralMethod, RigidPlastic};
use groundline::profile::{Layer, Profile, Soil, Stiffness};
use groundline::response::closed_form;
use groundline::response::*;
use groundline::units::*;
use proptest::prelude::*;

const EI: f64 = 47_056.7;

fn model(springs: Springs, shear: f64, moment: f64) -> PostModel {
    PostModel::new(n_sq_m(EI), mm(89.0), m(0.9), springs)
        .unwrap()
        .with_force(m(0.0), newton(shear))
        .unwrap()
        .with_moment(n_m(moment))
        .unwrap()
}

fn elastic() -> Springs {
    Springs::constant(mpa(1.78)).unwrap()
}

fn sand(phi: f64, nh: f64) -> Profile {
    let soil = Soil::new(kn_per_cu_m(18.0))
        .unwrap()
        .with_friction_angle(deg(phi))
        .unwrap()
        .with_stiffness(Stiffness::growing(kn_per_cu_m(nh)).unwrap())
        .unwrap();
    Profile::uniform(soil).unwrap()
}

fn clay(su: f64) -> Profile {
    let soil = Soil::new(kn_per_cu_m(18.0))
        .unwrap()
        .with_undrained_strength(kpa(su))
        .unwrap()
        .with_stiffness(Stiffness::constant(kn_per_cu_m(20_000.0)).unwrap())
        .unwrap();
    Profile::uniform(soil).unwrap()
}

/// Every kind of spring.
fn kinds() -> Vec<Springs> {
    let curve = Curve::new(&[
        (mm(3.0), kn_per_m(4.0)),
        (mm(10.0), kn_per_m(7.0)),
        (mm(40.0), kn_per_m(8.0)),
    ])
    .unwrap();
    let of_soil = |profile: &Profile, loading, stiff| {
        Springs::curves_of_soil(
            profile,
            loading,
            0.01,
            if stiff {
                ClayCurve::Stiff
            } else {
                ClayCurve::Soft
            },
        )
        .unwrap()
    };
    vec![
        elastic(),
        Springs::growing(kn_per_cu_m(8_000.0)).unwrap(),
        Springs::constant_up_to(mpa(1.78), kn_per_m(5.34)).unwrap(),
        Springs::elastic_plastic(&sand(33.0, 9_000.0)).unwrap(),
        Springs::elastic_plastic(&clay(40.0)).unwrap(),
        of_soil(&sand(35.0, 16_600.0), Loading::Static, false),
        of_soil(&sand(35.0, 16_600.0), Loading::Cyclic, false),
        of_soil(&clay(25.0), Loading::Static, false),
        of_soil(&clay(25.0), Loading::Cyclic, false),
        of_soil(&clay(75.0), Loading::Static, true),
        Springs::of_curves(vec![(m(0.5), curve.clone()), (m(5.0), curve)]).unwrap(),
    ]
}

/// The error falls with the fourth power of the element length: Hermite
/// elements, two Gauss points.
#[test]
fn convergence_of_the_fourth_order() {
    let exact = closed_form::finite(mpa(1.78), n_sq_m(EI), m(0.9), kn(2.0), kn_m(2.0)).unwrap();
    let error = |elements: u32| {
        let response = model(elastic(), 2_000.0, 2_000.0)
            .with_elements(elements)
            .unwrap()
            .solve()
            .unwrap();
        let y = response.at_grade().deflection - exact.at_grade().deflection;
        let theta = response.at_grade().rotation - exact.at_grade().rotation;
        (y.value.abs(), theta.value.abs())
    };
    for coarse in [8, 16, 32] {
        let ((y1, t1), (y2, t2)) = (error(coarse), error(2 * coarse));
        for order in [(y1 / y2).log2(), (t1 / t2).log2()] {
            assert!((3.8..4.3).contains(&order), "{coarse}: {order}");
        }
    }
}

/// Along the whole post against the closed form.
#[test]
fn the_whole_post_against_the_closed_form() {
    let exact = closed_form::finite(mpa(1.78), n_sq_m(EI), m(0.9), kn(2.0), kn_m(2.0)).unwrap();
    let response = model(elastic(), 2_000.0, 2_000.0).solve().unwrap();
    for station in response.stations() {
        let z = station.depth;
        let near = |ours: f64, theirs: f64, scale: f64| {
            assert!(
                (ours - theirs).abs() <= 1e-6 * scale,
                "{z:?}: {ours} {theirs}"
            );
        };
        near(station.deflection.value, exact.deflection(z).value, 0.0153);
        near(station.moment.value, exact.moment(z).value, 2_079.0);
        near(station.shear.value, exact.shear(z).value, 2_000.0);
    }
}

/// Closed forms meet where their ranges end: within some one per cent.
#[test]
fn ranges_of_the_closed_forms() {
    let (h, mo) = (kn(2.0), kn_m(2.0));
    let k = mpa(1.78);
    let at = |u: f64| {
        // EI for a λL of u at 0.9 m.
        n_sq_m(k.value / 4.0 * (0.9 / u).powi(4))
    };
    let close = |one: closed_form::AtGrade, other: closed_form::AtGrade| {
        assert_relative_eq!(
            one.deflection.value,
            other.deflection.value,
            max_relative = 0.011
        );
        assert_relative_eq!(
            one.rotation.value,
            other.rotation.value,
            max_relative = 0.021
        );
    };
    let finite = |ei| {
        closed_form::finite(k, ei, m(0.9), h, mo)
            .unwrap()
            .at_grade()
    };
    close(
        closed_form::endless(k, at(3.0), m(0.9), h, mo).unwrap(),
        finite(at(3.0)),
    );
    close(
        closed_form::rigid(k, at(0.5), m(0.9), h, mo).unwrap(),
        finite(at(0.5)),
    );
    assert!(closed_form::endless(k, at(2.9), m(0.9), h, mo).is_err());
    assert!(closed_form::rigid(k, at(0.6), m(0.9), h, mo).is_err());
    assert!(closed_form::finite(k, at(6.1), m(0.9), h, mo).is_err());
    let nh = kn_per_cu_m(10_000.0);
    let solved = |ei, l: f64| {
        let post = PostModel::new(ei, mm(89.0), m(l), Springs::growing(nh).unwrap()).unwrap();
        let post = post.with_force(m(0.0), h).unwrap().with_moment(mo).unwrap();
        // A hundredth of the load: rotations stay small.
        let mut solver = post.solver();
        solver.solve(0.01).unwrap();
        let response = solver.response();
        let at = response.at_grade();
        (at.deflection.value * 100.0, at.rotation.value * 100.0)
    };
    // L/T of 1 and of 4.5.
    let rigid = n_sq_m(1e7 * 0.9_f64.powi(5));
    let quick = closed_form::rigid_growing(nh, rigid, m(0.9), h, mo).unwrap();
    let full = solved(rigid, 0.9);
    assert_relative_eq!(quick.deflection.value, full.0, max_relative = 0.02);
    assert_relative_eq!(quick.rotation.value, full.1, max_relative = 0.03);
    let slender = n_sq_m(1e7 * 0.2_f64.powi(5));
    let quick = closed_form::long_growing(nh, slender, m(0.9), h, mo).unwrap();
    let full = solved(slender, 0.9);
    assert_relative_eq!(quick.deflection.value, full.0, max_relative = 0.01);
    assert_relative_eq!(quick.rotation.value, full.1, max_relative = 0.01);
}

/// Equilibrium to 1e-9 of the load, for every kind of spring, with an axial
/// force too; what statics leaves at the toe is nothing.
#[test]
fn reactions_balance_the_load() {
    for springs in kinds() {
        for axial in [0.0, 2_000.0] {
            let response = PostModel::new(n_sq_m(EI), mm(89.0), m(0.9), springs.clone())
                .unwrap()
                .standing(m(1.2))
                .unwrap()
                .with_wind(m(0.2), m(1.2), n_per_m(150.0))
                .unwrap()
                .with_force(m(0.9), newton(40.0))
                .unwrap()
                .with_axial(newton(axial))
                .unwrap()
                .solve()
                .unwrap();
            let (shear, moment) = response.left_over();
            assert!(shear.value.abs() <= 1e-9 * 190.0, "{springs:?} {shear:?}");
            assert!(moment.value.abs() <= 1e-9 * 190.0, "{springs:?} {moment:?}");
        }
    }
}

/// Energy: what the load does is what beam and ground keep (elastic).
#[test]
fn energy_balance() {
    let response = model(elastic(), 2_000.0, 2_000.0)
        .with_elements(400)
        .unwrap()
        .solve()
        .unwrap();
    let at = response.at_grade();
    let outside = 0.5 * (2_000.0 * at.deflection.value - 2_000.0 * at.rotation.value);
    // Simpson over pairs of elements.
    let inside: f64 = response
        .stations()
        .windows(3)
        .step_by(2)
        .map(|three| {
            let density = |s: &Station| {
                s.moment.value.powi(2) / (2.0 * EI) + 0.5 * 1.78e6 * s.deflection.value.powi(2)
            };
            let h = (three[2].depth - three[0].depth).value;
            h / 6.0 * (density(&three[0]) + 4.0 * density(&three[1]) + density(&three[2]))
        })
        .sum();
    assert_relative_eq!(inside, outside, max_relative = 1e-7);
}

/// The other way round gives the same the other way round; more load never
/// stiffens the post.
#[test]
fn symmetric_and_softening() {
    for springs in kinds() {
        let post = model(springs.clone(), 200.0, 200.0);
        let mut solver = post.solver();
        let at = |solver: &mut Solver, share: f64| {
            solver.solve(share).unwrap();
            solver.response().at_grade().deflection.value
        };
        let forth = at(&mut solver, 1.0);
        let back = at(&mut post.solver(), -1.0);
        assert_relative_eq!(forth, -back, max_relative = 1e-6);
        let mut last = 0.0;
        for i in 1..=8 {
            let share = 0.125 * f64::from(i);
            let flexibility = at(&mut solver, share) / share;
            assert!(flexibility >= last * (1.0 - 1e-6), "{springs:?}");
            last = flexibility;
        }
    }
}

/// Elastic-plastic ground collapses where rigid-plastic statics has its
/// ultimate load, from below.
#[test]
fn collapse_where_limit_analysis_has_it() {
    // 5.34 N/mm on 0.089 m: 60 kPa; the load at 1 m.
    let limit = RigidPlastic::constant(kpa(60.0), mm(89.0)).unwrap();
    let ultimate = limit.ultimate(m(0.9), m(1.0)).unwrap().shear.value;
    // So stiff a ground that it yields nearly everywhere before the post
    // leans too far.
    let springs = Springs::constant_up_to(mpa(200.0), n_per_m(5_340.0)).unwrap();
    let post = PostModel::new(n_sq_m(1e7), mm(89.0), m(0.9), springs).unwrap();
    let post = post.with_force(m(0.0), newton(500.0)).unwrap();
    let post = post
        .with_moment(n_m(500.0))
        .unwrap()
        .with_elements(400)
        .unwrap();
    let factor = post.collapse(1e3).unwrap().unwrap();
    assert!(factor * 500.0 <= ultimate * 1.0005);
    assert_relative_eq!(factor * 500.0, ultimate, max_relative = 2e-3);
    // Beyond it there is a typed error that says what is left.
    let error = post.solver().solve(factor * 1.01).unwrap_err();
    assert!(matches!(error, Error::NoEquilibrium { .. }));
    assert!(error.to_string().contains("no equilibrium"));
    // And within what is asked for, none.
    assert_eq!(post.collapse(0.5 * factor).unwrap(), None);
    // The same with a sand.
    let profile = sand(32.0, 1e6);
    let springs = Springs::elastic_plastic(&profile).unwrap();
    let post = PostModel::new(n_sq_m(1e7), mm(89.0), m(0.9), springs).unwrap();
    let post = post.with_force(m(0.0), newton(300.0)).unwrap();
    let post = post
        .with_moment(n_m(300.0))
        .unwrap()
        .with_elements(400)
        .unwrap();
    let kp = groundline::lateral::passive_coefficient(deg(32.0));
    let limit = RigidPlastic::linear(kn_per_cu_m(18.0 * 3.0 * kp), mm(89.0)).unwrap();
    let ultimate = limit.ultimate(m(0.9), m(1.0)).unwrap().shear.value;
    let factor = post.collapse(1e3).unwrap().unwrap();
    assert_relative_eq!(factor * 300.0, ultimate, max_relative = 3e-3);
}

/// A post many orders stiffer than its ground, in any mesh: the two equations
/// of a rigid body in ground of stiffness nh z, solved here. Elimination node
/// by node loses the ground in rounding.
#[test]
fn stiff_posts_in_fine_meshes() {
    let (nh, l, h, e) = (2e6_f64, 0.5_f64, 100.0, 1.0);
    // H = nh (y0 L²/2 + θ L³/3), −H e = nh (y0 L³/3 + θ L⁴/4).
    let det = nh * l.powi(6) * (1.0 / 8.0 - 1.0 / 9.0);
    let y0 = (h * l.powi(4) / 4.0 + h * e * l.powi(3) / 3.0) / det;
    let theta = (-h * e * l.powi(2) / 2.0 - h * l.powi(3) / 3.0) / det;
    for ei in [1e8, 1e10, 1e12] {
        for elements in [10, 100, 1_000, 5_000] {
            let springs = Springs::growing(kn_per_cu_m(nh / 1e3)).unwrap();
            let post = PostModel::new(n_sq_m(ei), mm(300.0), m(l), springs).unwrap();
            let post = post.with_force(m(e), newton(h)).unwrap();
            let post = post.with_elements(elements).unwrap();
            let response = post.standing(m(1.0)).unwrap().solve().unwrap();
            let at = response.at_grade();
            // Bending is of the order nh L⁵/EI.
            let bending = nh * l.powi(5) / ei + 1e-8;
            assert_relative_eq!(at.deflection.value, y0, max_relative = bending);
            assert_relative_eq!(at.rotation.value, theta, max_relative = bending);
        }
    }
}

/// Collapse is the same in every mesh, and where limit analysis has it.
#[test]
fn collapse_in_fine_meshes() {
    let limit = RigidPlastic::constant(kpa(60.0), mm(89.0)).unwrap();
    let ultimate = limit.ultimate(m(0.9), m(1.0)).unwrap().shear.value;
    for (ei, elements) in [
        (1e6, 100),
        (1e6, 2_000),
        (1e8, 100),
        (1e8, 2_000),
        (1e11, 200),
    ] {
        let springs = Springs::constant_up_to(mpa(200.0), n_per_m(5_340.0)).unwrap();
        let post = PostModel::new(n_sq_m(ei), mm(89.0), m(0.9), springs).unwrap();
        let post = post.with_force(m(1.0), newton(500.0)).unwrap();
        let post = post.with_elements(elements).unwrap();
        let factor = post.collapse(1e3).unwrap().unwrap();
        assert_relative_eq!(factor * 500.0, ultimate, max_relative = 5e-3);
    }
    // Without a limit nothing collapses.
    for springs in [elastic(), Springs::growing(kn_per_cu_m(1e3)).unwrap()] {
        let error = model(springs, 1.0, 1.0).collapse(10.0).unwrap_err();
        assert_eq!(error.field(), "springs");
    }
}

/// A load that is not carried leaves the solver where it was; unloading
/// comes back to rest.
#[test]
fn after_a_load_too_great() {
    let springs = Springs::constant_up_to(mpa(1.78), n_per_m(5_340.0)).unwrap();
    let mut solver = model(springs, 600.0, 600.0).solver();
    assert_eq!(solver.response().at_grade().deflection, m(0.0));
    assert_eq!(solver.response().at_grade().shear, newton(0.0));
    solver.solve(0.8).unwrap();
    let before = solver.response();
    assert!(solver.solve(1e4).is_err());
    assert_eq!(solver.response(), before);
    assert!(solver.solve(f64::NAN).is_err());
    assert_eq!(solver.response(), before);
    for share in [0.1, 0.0, -0.8, 0.0, 0.8] {
        solver.solve(share).unwrap();
        let y = solver.response().at_grade().deflection.value;
        assert_eq!(share == 0.0, y == 0.0);
        assert_eq!(share > 0.0, y > 0.0);
    }
    let again = solver.response().at_grade().deflection;
    assert_relative_eq!(
        again.value,
        before.at_grade().deflection.value,
        max_relative = 1e-9
    );
    // Rest under an axial force beyond the critical one is no equilibrium.
    let post = PostModel::new(n_sq_m(100.0), mm(89.0), m(0.9), elastic()).unwrap();
    let post = post.standing(m(2.0)).unwrap();
    let post = post.with_axial(kn(1.0)).unwrap();
    assert!(post.solver().solve(0.0).is_err());
}

/// Heights that are grade but for rounding are grade.
#[test]
fn heights_of_next_to_nothing() {
    let at = |above: f64| {
        let post = PostModel::new(n_sq_m(EI), mm(89.0), m(0.9), elastic()).unwrap();
        let post = post.with_force(m(above), kn(2.0)).unwrap();
        let post = post.with_moment(kn_m(2.0)).unwrap();
        let response = post.standing(m(above)).unwrap().solve().unwrap();
        assert_eq!(response.at_grade().depth, m(0.0));
        response.at_grade().deflection.to(mm)
    };
    for above in [0.0, 1e-13, 1e-11, 1e-9, 1e-8, 1e-7, 1e-6, 1e-5] {
        assert_relative_eq!(at(above), 15.3407, max_relative = 2e-5);
    }
}

/// A slender post is cut finely enough whatever number of elements is asked
/// for: the endless beam, and the long post in growing ground.
#[test]
fn slender_posts_in_coarse_meshes() {
    for ei in [0.005, 0.5, 50.0] {
        let ei = kn_sq_m(ei);
        let k = mpa(100.0);
        let exact = closed_form::endless(k, ei, m(3.0), newton(10.0), n_m(1.0)).unwrap();
        let post = PostModel::new(ei, mm(89.0), m(3.0), Springs::constant(k).unwrap()).unwrap();
        let post = post.with_force(m(0.0), newton(10.0)).unwrap();
        let post = post.with_moment(n_m(1.0)).unwrap();
        let coarse = post.with_elements(4).unwrap().solve().unwrap();
        assert_relative_eq!(
            coarse.at_grade().deflection.value,
            exact.deflection.value,
            max_relative = 0.02
        );
    }
}

/// An axial force magnifies as it does a cantilever: 1/(1 − N/Ncr) within two
/// per cent, and no equilibrium beyond the critical one.
#[test]
fn second_order() {
    // Ground so stiff that the post is clamped at grade.
    let springs = || Springs::constant(mpa(1e5)).unwrap();
    let ei = 200.0;
    let post = |axial: f64| {
        PostModel::new(n_sq_m(ei), m(0.1), m(1.0), springs())
            .unwrap()
            .standing(m(2.0))
            .unwrap()
            .with_force(m(2.0), newton(1.0))
            .unwrap()
            .with_axial(newton(axial))
            .unwrap()
    };
    let free = post(0.0).solve().unwrap().lean().value;
    assert_relative_eq!(free, 8.0 / (3.0 * ei), max_relative = 0.02);
    let critical = std::f64::consts::PI.powi(2) * ei / 16.0;
    for share in [0.1, 0.3, 0.5] {
        let lean = post(share * critical).solve().unwrap().lean().value;
        assert_relative_eq!(lean / free, 1.0 / (1.0 - share), max_relative = 0.02);
    }
    assert!(post(1.05 * critical).solve().is_err());
    // tan form of the exact magnification.
    let n = 0.3 * critical;
    let u = (n / ei).sqrt() * 2.0;
    let exact = 3.0 * (u.tan() - u) / u.powi(3);
    assert_relative_eq!(
        post(n).solve().unwrap().lean().value / free,
        exact,
        max_relative = 0.01
    );
}

/// Loads above the top count at the top with their moment; wind is its
/// resultant for the ground.
#[test]
fn loads_above_the_post() {
    let base = || PostModel::new(n_sq_m(EI), mm(89.0), m(0.9), elastic()).unwrap();
    let at_grade = |post: PostModel| post.solve().unwrap().at_grade().deflection.value;
    let by_hand = at_grade(
        base()
            .with_force(m(0.0), newton(300.0))
            .unwrap()
            .with_moment(n_m(300.0))
            .unwrap(),
    );
    let force = at_grade(base().with_force(m(1.0), newton(300.0)).unwrap());
    let wind = at_grade(base().with_wind(m(0.5), m(1.5), n_per_m(300.0)).unwrap());
    let tall = at_grade(
        base()
            .standing(m(1.5))
            .unwrap()
            .with_wind(m(0.5), m(1.5), n_per_m(300.0))
            .unwrap(),
    );
    let half = at_grade(
        base()
            .standing(m(1.0))
            .unwrap()
            .with_wind(m(0.5), m(1.5), n_per_m(300.0))
            .unwrap(),
    );
    for ours in [force, wind, tall, half] {
        assert_relative_eq!(ours, by_hand, max_relative = 1e-9);
    }
    // Actions of any limit state.
    let wind = groundline::actions::GroundlineActions::wind_at(
        newton(300.0),
        m(1.0),
        groundline::limit_state::Characteristic,
    )
    .unwrap();
    assert_relative_eq!(
        at_grade(base().with_actions(&wind).unwrap()),
        by_hand,
        max_relative = 1e-9
    );
    let leaning = base()
        .standing(m(1.0))
        .unwrap()
        .with_force(m(1.0), newton(300.0))
        .unwrap();
    let response = leaning.solve().unwrap();
    assert_relative_eq!(
        response.lean_ratio().unwrap(),
        response.lean().value,
        max_relative = 1e-12
    );
    assert_eq!(base().solve().unwrap().lean_ratio(), None);
    // A height that is none: the movement over it would not be finite.
    for height in [f64::from_bits(1), 1e-300, 1e-9] {
        let response = base().standing(m(height)).unwrap().solve().unwrap();
        assert_eq!(response.lean_ratio(), None, "{height}");
    }
}

/// A modulus gives the spring of its formula; a stiffness is needed.
#[test]
fn stiffness_of_layers() {
    let with = |stiffness: Stiffness| {
        let soil = Soil::new(kn_per_cu_m(18.0))
            .unwrap()
            .with_undrained_strength(kpa(50.0))
            .unwrap();
        Springs::elastic(&Profile::uniform(soil.with_stiffness(stiffness).unwrap()).unwrap())
            .unwrap()
    };
    let y = |springs: Springs| model(springs, 500.0, 500.0).solve().unwrap().lean().value;
    // 0.65 (Es b⁴/EI)^(1/12) Es/(1 − ν²), from memory.
    let es: f64 = 8e6;
    let k = 0.65 * (es * 0.089_f64.powi(4) / EI).powf(1.0 / 12.0) * es / (1.0 - 0.3 * 0.3);
    assert_relative_eq!(
        y(with(Stiffness::modulus(mpa(8.0), 0.3).unwrap())),
        y(Springs::constant(pa(k)).unwrap()),
        max_relative = 1e-9
    );
    let ks = kn_per_cu_m(20_000.0);
    assert_relative_eq!(
        y(with(Stiffness::constant(ks).unwrap())),
        y(Springs::constant(pa(2e7 * 0.089)).unwrap()),
        max_relative = 1e-9
    );
    let soft = Soil::new(kn_per_cu_m(18.0))
        .unwrap()
        .with_undrained_strength(kpa(50.0))
        .unwrap();
    assert!(Springs::elastic(&Profile::uniform(soft).unwrap()).is_err());
}

/// One solve after another allocates nothing.
#[test]
fn no_allocation_in_the_iteration() {
    for springs in kinds() {
        let post = model(springs, 200.0, 200.0);
        let mut solver = post.solver();
        let info = allocation_counter::measure(|| {
            for share in [0.2, 0.6, 1.0, -1.0] {
                solver.solve(share).unwrap();
            }
        });
        assert_eq!(info.count_total, 0);
        assert!(solver.iterations() > 0);
    }
}

fn wild() -> impl Strategy<Value = f64> {
    prop_oneof![
        Just(f64::NAN),
        Just(f64::INFINITY),
        Just(-1.0),
        Just(0.0),
        Just(1e308),
        -3.0..6.0_f64,
        (-6.0..8.0_f64).prop_map(|x| 10.0_f64.powf(x)),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    /// Random profiles through solver and collapse: an answer that is finite,
    /// or an error.
    #[test]
    fn random_profiles(
        t in [wild(), wild(), wild()], weight in wild(), phi in wild(), su in wild(),
        stiff in wild(), nh in wild(), water in wild(), top in wild(), depth in wild(),
        ei in wild(), width in wild(), force in wild(), above in wild(), axial in wild(),
        kind in 0..4_usize,
    ) {
        let attempt = || -> Result<(), Error> {
            let sand = Soil::new(kn_per_cu_m(10.0 + weight))?
                .with_friction_angle(deg(20.0 + phi))?
                .with_stiffness(Stiffness::growing(kn_per_cu_m(nh * 1e3))?)?;
            let clay = Soil::new(kn_per_cu_m(10.0 + weight))?
                .with_undrained_strength(kpa(su))?
                .with_stiffness(Stiffness::constant(kn_per_cu_m(stiff * 1e3))?)?;
            let profile = Profile::new(vec![
                Layer::new(m(t[0]), sand)?,
                Layer::new(m(t[1]), clay)?,
                Layer::new(m(t[2]), sand)?,
            ])?
            .with_water_at(m(water))?
            .discounting_top(m(top * 0.1))?;
            let springs = match kind {
                0 => Springs::elastic(&profile)?,
                1 => Springs::elastic_plastic(&profile)?,
                2 => Springs::curves_of_soil(&profile, Loading::Static, 0.01, ClayCurve::Stiff)?,
                _ => Springs::curves_of_soil(&profile, Loading::Cyclic, 0.02, ClayCurve::Soft)?,
            };
            let post = PostModel::new(n_sq_m(ei * 1e3), m(width), m(depth), springs)?
                .standing(m(above))?
                .with_force(m(above), newton(force))?
                .with_axial(newton(axial))?
                .with_elements(40)?;
            match post.solve() {
                Ok(response) => {
                    for station in response.stations() {
                        assert!(station.deflection.value.is_finite());
                        assert!(station.moment.value.is_finite());
                        assert!(station.reaction.value.is_finite());
                    }
                    assert!(response.greatest_moment().moment.value.is_finite());
                }
                Err(error) => assert!(!error.to_string().is_empty()),
            }
            let factor = post.collapse(100.0)?;
            assert!(factor.is_none_or(|f| f.is_finite() && f >= 0.0));
            let hansen = groundline::lateral::Hansen::new(&profile, m(width), groundline::lateral::Drainage::Drained)?;
            let ultimate = hansen.ultimate(m(depth), m(above))?;
            assert!(ultimate.shear.value.is_finite() && ultimate.greatest_moment.value.is_finite());
            Ok(())
        };
        let _ = attempt();
    }
}
