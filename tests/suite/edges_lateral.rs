//! Limit-state methods at their limits: every mode of failure against its own
//! balance written out by hand, depths that must lead back, and the last value
//! on either side of a limit.

use approx::assert_relative_eq;
use groundline::lateral::*;
use groundline::profile::{BearingSurface, Layer, Profile, Soil};
use groundline::source;
use groundline::units::*;

/// The positive root of a x² + b x = c.
fn quadratic(a: f64, b: f64, c: f64) -> f64 {
    (-b + (b * b + 4.0 * a * c).sqrt()) / (2.0 * a)
}

/// The root of a rising function by plain halving.
fn halving(mut high: f64, f: impl Fn(f64) -> f64) -> f64 {
    let mut low = 0.0;
    for _ in 0..300 {
        let x = 0.5 * (low + high);
        if f(x) < 0.0 { low = x } else { high = x }
    }
    0.5 * (low + high)
}

/// Broms' modes of failure, least force first.
fn least(modes: &[(f64, Mode)]) -> (f64, Mode) {
    *modes.iter().min_by(|a, b| a.0.total_cmp(&b.0)).unwrap()
}

/// A force just below the ultimate one is carried by no more than the depth,
/// and where the ground decides, by that depth; a force just above by none
/// where the post decides.
fn leads_back(method: &dyn LateralMethod, depth: Length, height: Length) {
    let ultimate = method.ultimate(depth, height).unwrap();
    assert_relative_eq!(
        ultimate.moment.value,
        ultimate.shear.value * height.value,
        max_relative = 1e-12
    );
    let below = method.needed_depth(ultimate.shear * 0.999, height).unwrap();
    let needed = below.depth().unwrap();
    assert!(needed < depth, "{method:?} {needed:?} {depth:?}");
    let again = method.ultimate(needed, height);
    if let Ok(again) = again {
        assert!(again.shear.value >= ultimate.shear.value * 0.999 * (1.0 - 1e-6));
    }
    let above = method.needed_depth(ultimate.shear * 1.001, height).unwrap();
    match ultimate.mode {
        Mode::Ground | Mode::Head => {
            let back = method.needed_depth(ultimate.shear, height).unwrap();
            assert_relative_eq!(
                back.depth().unwrap().value,
                depth.value,
                max_relative = 1e-6
            );
            if let NeededDepth::Depth(deeper) = above {
                assert!(deeper > depth);
            }
        }
        mode => {
            assert_eq!(above, NeededDepth::PostYields);
            if mode == Mode::HeadAndPost {
                // The very force at which it yields it still carries.
                let at = method.needed_depth(ultimate.shear, height).unwrap();
                assert!(at.depth().unwrap() <= depth);
            }
        }
    }
}

/// One clay, head free and held, from a post that always yields to one that
/// never does: the least of the balances in the head of the module's source
/// (Broms 1964a, the head's yielding derived).
#[test]
fn every_mode_of_a_clay() {
    let (su, b) = (40e3_f64, 0.3_f64);
    let x = 9.0 * su * b;
    let mut seen = Vec::new();
    for l in [0.8, 1.3, 2.0, 3.5] {
        for e in [0.0, 0.4, 1.7] {
            for my in [600.0, 4e3, 15e3, 60e3, 5e5] {
                let l0 = l - 1.5 * b;
                let free = [
                    // Hu (e + 1.5 b + f/2) = X g²/4, g = L0 − f, f = Hu/X.
                    (
                        quadratic(0.25 / x, e + 1.5 * b + 0.5 * l0, 0.25 * x * l0 * l0),
                        Mode::Ground,
                    ),
                    (quadratic(0.5 / x, e + 1.5 * b, my), Mode::PostBelow),
                ];
                let held = [
                    (x * l0, Mode::Ground),
                    (
                        quadratic(0.25 / x, 1.5 * b + 0.5 * l0, 0.25 * x * l0 * l0 + my),
                        Mode::Head,
                    ),
                    (quadratic(0.5 / x, 1.5 * b, 2.0 * my), Mode::HeadAndPost),
                    (if e > 0.0 { my / e } else { f64::MAX }, Mode::PostAbove),
                ];
                for (head, modes) in [(Head::Free, &free[..]), (Head::Restrained, &held[..])] {
                    let (force, mode) = least(modes);
                    let clay = BromsClay::new(kpa(40.0), m(b))
                        .unwrap()
                        .with_head(head)
                        .yielding_at(n_m(my))
                        .unwrap();
                    let found = clay.ultimate(m(l), m(e)).unwrap();
                    assert_eq!(found.mode, mode);
                    assert_relative_eq!(found.shear.value, force, max_relative = 1e-9);
                    let (zero, greatest) = match (head, mode) {
                        (Head::Free, _) => {
                            let f = force / x;
                            (1.5 * b + f, force * (e + 1.5 * b + 0.5 * f))
                        }
                        (_, Mode::Ground) => (0.0, force * (0.5 * l + 0.75 * b)),
                        _ => (0.0, my),
                    };
                    assert_relative_eq!(found.zero_shear.value, zero, max_relative = 1e-9);
                    assert_relative_eq!(found.greatest_moment.value, greatest, max_relative = 1e-9);
                    let source = match (head, mode) {
                        (_, Mode::Head) => &source::BROMS_INTERMEDIATE,
                        (_, Mode::PostAbove) => &source::STATICS,
                        (Head::Free, _) => &source::BROMS_CLAY,
                        _ => &source::BROMS_CLAY_RESTRAINED,
                    };
                    assert_eq!(found.source.id, source.id);
                    leads_back(&clay, m(l), m(e));
                    seen.push(mode);
                }
            }
        }
    }
    for mode in MODES {
        assert!(seen.contains(&mode), "{mode:?} never met");
    }
}

/// The same for one sand (Broms 1964b).
#[test]
fn every_mode_of_a_sand() {
    let (b, kp) = (0.25_f64, 3.0_f64);
    let q = 18e3 * b * kp;
    let mut seen = Vec::new();
    for l in [0.6_f64, 1.0, 1.8, 3.0] {
        for e in [0.0, 0.5, 2.0] {
            for my in [600.0, 4e3, 15e3, 60e3, 2e6] {
                // Hu (e + 2f/3) with f = √(2 Hu/(3 Q)).
                let bends = |e: f64, most: f64| {
                    halving(1e8, |h| {
                        h * (e + 2.0 / 3.0 * (2.0 * h / (3.0 * q)).sqrt()) - most
                    })
                };
                let free = [
                    (q * l.powi(3) / (2.0 * (e + l)), Mode::Ground),
                    (bends(e, my), Mode::PostBelow),
                ];
                let held = [
                    (1.5 * q * l * l, Mode::Ground),
                    // Hu L = Q L³/2 + My.
                    ((q * l.powi(3) / 2.0 + my) / l, Mode::Head),
                    (bends(0.0, 2.0 * my), Mode::HeadAndPost),
                    (if e > 0.0 { my / e } else { f64::MAX }, Mode::PostAbove),
                ];
                for (head, modes) in [(Head::Free, &free[..]), (Head::Restrained, &held[..])] {
                    let (force, mode) = least(modes);
                    let sand = BromsSand::new(kn_per_cu_m(18.0), deg(30.0), m(b))
                        .unwrap()
                        .with_head(head)
                        .yielding_at(n_m(my))
                        .unwrap();
                    let found = sand.ultimate(m(l), m(e)).unwrap();
                    assert_eq!(found.mode, mode);
                    assert_relative_eq!(found.shear.value, force, max_relative = 1e-9);
                    let f = (2.0 * force / (3.0 * q)).sqrt();
                    let (zero, greatest) = match (head, mode) {
                        (Head::Free, _) => (f, force * (e + 2.0 * f / 3.0)),
                        (_, Mode::Ground) => (0.0, q * l.powi(3)),
                        _ => (0.0, my),
                    };
                    assert_relative_eq!(found.zero_shear.value, zero, max_relative = 1e-9);
                    assert_relative_eq!(found.greatest_moment.value, greatest, max_relative = 1e-9);
                    let source = match (head, mode) {
                        (_, Mode::Head) => &source::BROMS_INTERMEDIATE,
                        (_, Mode::PostAbove) => &source::STATICS,
                        (_, Mode::HeadAndPost) => &source::BROMS_SAND_RESTRAINED_LONG,
                        (Head::Free, _) => &source::BROMS_SAND,
                        _ => &source::BROMS_SAND_RESTRAINED,
                    };
                    assert_eq!(found.source.id, source.id);
                    leads_back(&sand, m(l), m(e));
                    seen.push(mode);
                }
            }
        }
    }
    for mode in MODES {
        assert!(seen.contains(&mode), "{mode:?} never met");
    }
}

const MODES: [Mode; 5] = [
    Mode::Ground,
    Mode::PostBelow,
    Mode::PostAbove,
    Mode::Head,
    Mode::HeadAndPost,
];

/// Without a yield moment a held head leaves the ground alone to give way.
#[test]
fn held_heads_that_never_yield() {
    let clay = BromsClay::new(kpa(40.0), m(0.3))
        .unwrap()
        .with_head(Head::Restrained);
    let sand = BromsSand::new(kn_per_cu_m(18.0), deg(30.0), m(0.25))
        .unwrap()
        .with_head(Head::Restrained);
    for method in [&clay as &dyn LateralMethod, &sand] {
        for l in [0.7, 1.5, 4.0] {
            leads_back(method, m(l), m(1.0));
        }
        assert_eq!(
            method.greatest_moment(kn(1.0), m(1.0)).unwrap_err().field(),
            "head"
        );
    }
}

/// A post that yields at the very moment it has is one that carries it; a
/// trifle weaker it does not, at any depth.
#[test]
fn just_strong_enough() {
    let (h, e) = (kn(5.0), m(1.2));
    let clay = BromsClay::new(kpa(40.0), m(0.3)).unwrap();
    let sand = BromsSand::new(kn_per_cu_m(18.0), deg(30.0), m(0.3)).unwrap();
    let plastic = RigidPlastic::constant(kpa(300.0), m(0.3)).unwrap();
    let fine = Profile::uniform(sandy()).unwrap();
    let hansen = Hansen::new(&fine, m(0.3), Drainage::Drained).unwrap();
    let most = |method: &dyn LateralMethod| method.greatest_moment(h, e).unwrap().moment;
    let answers = |my: [Torque; 4]| {
        [
            clay.yielding_at(my[0]).unwrap().needed_depth(h, e).unwrap(),
            sand.yielding_at(my[1]).unwrap().needed_depth(h, e).unwrap(),
            plastic
                .yielding_at(my[2])
                .unwrap()
                .needed_depth(h, e)
                .unwrap(),
            hansen
                .clone()
                .yielding_at(my[3])
                .unwrap()
                .needed_depth(h, e)
                .unwrap(),
        ]
    };
    // Hansen looks for it within 30 m, not within the whole profile.
    let within = Layer::new(m(30.0), sandy()).unwrap();
    let within = Profile::new(vec![within]).unwrap();
    let shallow = Hansen::new(&within, m(0.3), Drainage::Drained).unwrap();
    let my = [most(&clay), most(&sand), most(&plastic), most(&shallow)];
    for answer in answers(my) {
        assert!(answer.depth().is_some(), "{answer:?}");
    }
    for answer in answers(my.map(|my| my * (1.0 - 1e-9))) {
        assert_eq!(answer, NeededDepth::PostYields);
    }
    // Held heads: My = H e to the last digit, and 2 My = H (1.5 b + f/2).
    let (h, e) = (newton(1000.0), m(2.0));
    let held = clay.with_head(Head::Restrained);
    let sandy = sand.with_head(Head::Restrained);
    for (my, carries) in [(2000.0, true), (1999.999, false)] {
        let clay = held.yielding_at(n_m(my)).unwrap();
        let sand = sandy.yielding_at(n_m(my)).unwrap();
        assert_eq!(clay.needed_depth(h, e).unwrap().depth().is_some(), carries);
        assert_eq!(sand.needed_depth(h, e).unwrap().depth().is_some(), carries);
    }
}

fn sandy() -> Soil {
    Soil::new(kn_per_cu_m(18.0))
        .unwrap()
        .with_friction_angle(deg(30.0))
        .unwrap()
}

fn clayey(su: f64) -> Soil {
    Soil::new(kn_per_cu_m(19.0))
        .unwrap()
        .with_undrained_strength(kpa(su))
        .unwrap()
}

/// Nothing deeper than 30 m, or than the profile, is asked for.
#[test]
fn how_deep_a_method_goes() {
    let clay = BromsClay::new(kpa(5.0), m(0.1)).unwrap();
    let sand = BromsSand::new(kn_per_cu_m(9.0), deg(25.0), m(0.1)).unwrap();
    let plastic = RigidPlastic::constant(kpa(10.0), m(0.1)).unwrap();
    let four = Profile::new(vec![Layer::new(m(4.0), sandy()).unwrap()]).unwrap();
    let hansen = Hansen::new(&four, m(0.3), Drainage::Drained).unwrap();
    let held = (
        clay.with_head(Head::Restrained),
        sand.with_head(Head::Restrained),
    );
    let methods: [(&dyn LateralMethod, f64); 6] = [
        (&clay, 30.0),
        (&sand, 30.0),
        (&held.0, 30.0),
        (&held.1, 30.0),
        (&plastic, 30.0),
        (&hansen, 4.0),
    ];
    for (method, most) in methods {
        let e = m(1.0);
        let force = method.ultimate(m(most), e).unwrap().shear;
        assert!(method.ultimate(m(most * 1.000_001), e).is_err());
        let over = method.needed_depth(force * 1.000_1, e).unwrap();
        assert_eq!(over, NeededDepth::MoreThan(m(most)), "{method:?}");
        assert_eq!(over.depth(), None);
        let under = method.needed_depth(force * 0.999_9, e).unwrap().depth();
        assert!(under.unwrap() < m(most));
    }
    // Of a clay 1.5 b and a thousandth at least.
    let least = 0.15 * 1.001;
    assert!(clay.ultimate(m(least * (1.0 + 1e-9)), m(1.0)).is_ok());
    // A force that the whole depth just carries needs the whole depth.
    for (method, most) in [(&plastic as &dyn LateralMethod, 30.0), (&hansen, 4.0)] {
        let force = method.ultimate(m(most), m(1.0)).unwrap().shear;
        let needed = method.needed_depth(force, m(1.0)).unwrap();
        assert_eq!(needed, NeededDepth::Depth(m(most)));
    }
    let error = clay.ultimate(m(least * (1.0 - 1e-6)), m(1.0)).unwrap_err();
    assert_eq!(error.field(), "depth");
    assert!(sand.ultimate(m(0.01), m(1.0)).is_ok());
    assert!(sand.ultimate(m(0.009_9), m(1.0)).is_err());
}

/// Each method tells whose it is, and each mode what gives way.
#[test]
fn names() {
    let clay = BromsClay::new(kpa(40.0), m(0.3)).unwrap();
    let sand = BromsSand::new(kn_per_cu_m(18.0), deg(30.0), m(0.3)).unwrap();
    let reduced = (
        ReducedClay::new(kpa(40.0), m(0.3)).unwrap(),
        ReducedSand::new(kn_per_cu_m(18.0), deg(30.0), m(0.3)).unwrap(),
    );
    let hansen = Hansen::new(
        &Profile::uniform(sandy()).unwrap(),
        m(0.3),
        Drainage::Drained,
    );
    let hansen = hansen.unwrap();
    let plastic = [
        RigidPlastic::linear(kn_per_cu_m(100.0), m(0.3)).unwrap(),
        RigidPlastic::constant(kpa(100.0), m(0.3)).unwrap(),
        RigidPlastic::graded_clay(kpa(100.0), m(0.3)).unwrap(),
    ];
    let methods: [(&dyn LateralMethod, &str, &str); 8] = [
        (&clay, "Broms, cohesive", source::BROMS_CLAY.id),
        (&sand, "Broms, cohesionless", source::BROMS_SAND.id),
        (&reduced.0, "UFC 3-220-20", source::UFC_REDUCED.id),
        (&reduced.1, "UFC 3-220-20", source::UFC_REDUCED.id),
        (&hansen, "Hansen", source::HANSEN.id),
        (&plastic[0], "linear", source::RIGID_PLASTIC.id),
        (&plastic[1], "constant", source::RIGID_PLASTIC.id),
        (&plastic[2], "graded", source::RIGID_PLASTIC.id),
    ];
    let mut names = Vec::new();
    for (method, word, id) in methods {
        assert!(method.name().contains(word), "{}", method.name());
        assert_eq!(method.source().id, id);
        names.push(method.name());
    }
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), 8);
    assert_eq!(clay.undrained_strength(), kpa(40.0));
    assert_relative_eq!(sand.passive(), 3.0, max_relative = 1e-12);
    assert_eq!(
        reduced.0.broms().undrained_strength(),
        kpa(30.0),
        "three quarters"
    );

    for (mode, words) in [
        (Mode::Ground, &["ground"][..]),
        (Mode::PostBelow, &["post", "below grade"]),
        (Mode::PostAbove, &["post", "above"]),
        (Mode::Head, &["post", "head", "ground"]),
        (Mode::HeadAndPost, &["post", "head", "below grade"]),
    ] {
        for word in words {
            assert!(mode.name().contains(word), "{}", mode.name());
        }
    }
    let mut modes = MODES.map(Mode::name);
    modes.sort_unstable();
    assert!(modes.windows(2).all(|pair| pair[0] != pair[1]));
}

/// A profile counts as one soil down to a depth that ends with its layer, and
/// not a hair farther; as all dry down to water and not beyond.
#[test]
fn one_soil_down_to_its_end() {
    let profile = |first: Soil, second: Soil| {
        Profile::new(vec![
            Layer::new(m(1.5), first).unwrap(),
            Layer::new(m(3.0), second).unwrap(),
        ])
        .unwrap()
    };
    let loose = Soil::new(kn_per_cu_m(16.0))
        .unwrap()
        .with_friction_angle(deg(28.0))
        .unwrap();
    let sands = profile(sandy(), loose);
    let clays = profile(clayey(40.0), clayey(60.0));
    let (deep, deeper) = (m(1.5), m(1.500_001));
    let alone = BromsSand::new(kn_per_cu_m(18.0), deg(30.0), m(0.3)).unwrap();
    assert_eq!(BromsSand::of(&sands, m(0.3), deep).unwrap(), alone);
    assert!(BromsSand::of(&sands, m(0.3), deeper).is_err());
    let alone = BromsClay::new(kpa(40.0), m(0.3)).unwrap();
    assert_eq!(BromsClay::of(&clays, m(0.3), deep).unwrap(), alone);
    assert!(BromsClay::of(&clays, m(0.3), deeper).is_err());
    // The same soil twice is one soil, down to the end of the profile.
    let twice = profile(sandy(), sandy());
    assert!(BromsSand::of(&twice, m(0.3), m(4.5)).is_ok());
    assert!(BromsSand::of(&twice, m(0.3), m(4.500_001)).is_err());
    assert!(BromsClay::of(&profile(clayey(40.0), clayey(40.0)), m(0.3), m(4.5)).is_ok());
    // Of two weights over one ring of backfill there is no one weight.
    let ringed = sands
        .clone()
        .borne_by(BearingSurface::Backfill(sandy()))
        .unwrap();
    assert!(BromsSand::of(&ringed, m(0.3), deep).is_ok());
    assert!(BromsSand::of(&ringed, m(0.3), deeper).is_err());

    // Water at the bottom of the post, just above it, and at grade.
    let wet = |at: f64| {
        let profile = twice.clone().with_water_at(m(at)).unwrap();
        BromsSand::of(&profile, m(0.3), m(2.0))
    };
    assert!(wet(2.0).is_ok());
    assert!(wet(3.0).is_ok());
    assert!(wet(1.999_999).is_err());
    assert!(wet(1e-6).is_err());
    let buoyant = kn_per_cu_m(18.0 - 9.806_65);
    let buoyant = BromsSand::new(buoyant, deg(30.0), m(0.3)).unwrap();
    let (found, expected) = (
        wet(0.0).unwrap().ultimate(m(2.0), m(1.0)).unwrap().shear,
        buoyant.ultimate(m(2.0), m(1.0)).unwrap().shear,
    );
    assert_relative_eq!(found.value, expected.value, max_relative = 1e-12);
    // Cohesion, a discounted top, or no friction angle: another method.
    let cohesive = sandy().with_cohesion(kpa(1.0)).unwrap();
    let discounted = twice.discounting_top(m(0.1)).unwrap();
    for profile in [profile(cohesive, cohesive), discounted, clays.clone()] {
        let error = BromsSand::of(&profile, m(0.3), deep).unwrap_err();
        assert_eq!(error.field(), "soil");
    }
    let discounted = clays.discounting_top(m(0.1)).unwrap();
    for profile in [sands, discounted] {
        let error = BromsClay::of(&profile, m(0.3), deep).unwrap_err();
        assert_eq!(error.field(), "soil");
    }
}

/// Rigid-plastic statics in closed form: constant pressure p = S b. Between no
/// shear, Mu = p L²/4, and V = (√2 − 1) p L, where no moment is left.
#[test]
fn a_constant_pressure_in_closed_form() {
    let (p, l) = (90e3_f64, 1.6_f64);
    let post = RigidPlastic::constant(kpa(300.0), m(0.3)).unwrap();
    let none = post.beside_shear(m(l), newton(0.0)).unwrap().unwrap();
    assert_relative_eq!(none.rotation.value, l / 2.0, max_relative = 1e-9);
    assert_relative_eq!(none.moment.value, p * l * l / 4.0, max_relative = 1e-9);
    for share in [0.1, 0.3, 0.41] {
        let limit = post.beside_shear(m(l), newton(share * p * l)).unwrap();
        let limit = limit.unwrap();
        let x = 0.5 * (1.0 + share) * l;
        assert_relative_eq!(limit.rotation.value, x, max_relative = 1e-9);
        assert_relative_eq!(
            limit.moment.value,
            p * (l * l / 2.0 - x * x),
            max_relative = 1e-7
        );
    }
    for share in [0.42, 0.8, 1.0, 1.01, 3.0] {
        let beside = post.beside_shear(m(l), newton(share * p * l));
        assert_eq!(beside.unwrap(), None);
    }
    assert_relative_eq!(
        post.constrained(m(l)).unwrap().value,
        p * l * l / 2.0,
        max_relative = 1e-12
    );
    // Shear zero at f = H/p, M = H (e + f/2); yielding at My.
    let (h, e) = (20e3, 0.7);
    let greatest = post.greatest_moment(newton(h), m(e)).unwrap();
    assert_relative_eq!(greatest.depth.value, h / p, max_relative = 1e-9);
    assert_relative_eq!(
        greatest.moment.value,
        h * (e + 0.5 * h / p),
        max_relative = 1e-9
    );
    let my = 9e3;
    let yields = post.yielding_at(n_m(my)).unwrap();
    let ultimate = yields.ultimate(m(l), m(e)).unwrap();
    assert_eq!(ultimate.mode, Mode::PostBelow);
    assert_eq!(ultimate.rotation, None);
    assert_relative_eq!(
        ultimate.shear.value,
        quadratic(0.5 / p, e, my),
        max_relative = 1e-9
    );
    assert_relative_eq!(ultimate.greatest_moment.value, my, max_relative = 1e-9);
    leads_back(&yields, m(l), m(e));
    leads_back(&post, m(l), m(e));
    // Ground: p (L² − 2x²)/2 + e p (L − 2x) = 0, H = p (2x − L).
    let free = post.ultimate(m(l), m(e)).unwrap();
    let x = quadratic(1.0, 2.0 * e, l * l / 2.0 + e * l);
    assert_eq!(free.mode, Mode::Ground);
    assert_relative_eq!(free.rotation.unwrap().value, x, max_relative = 1e-9);
    assert_relative_eq!(free.shear.value, p * (2.0 * x - l), max_relative = 1e-9);
    assert_relative_eq!(free.zero_shear.value, 2.0 * x - l, max_relative = 1e-9);
}

/// The graded pressure, 3 su (1 + z/(2b)) to 4 b and 9 su below, summed up in
/// slices about grade, and turned about grade or about a point.
#[test]
fn a_graded_pressure_in_slices() {
    let (su, b) = (30e3, 0.2);
    let post = RigidPlastic::graded_clay(kpa(30.0), m(b)).unwrap();
    let sum = |l: f64| {
        let n = 200_000;
        let dz = l / f64::from(n);
        (0..n).fold((0.0, 0.0), |(p, q), i| {
            let z = (f64::from(i) + 0.5) * dz;
            let pressure = if z < 4.0 * b {
                3.0 * su * (1.0 + z / (2.0 * b))
            } else {
                9.0 * su
            };
            (p + pressure * b * dz, q + pressure * b * z * dz)
        })
    };
    for l in [0.5, 0.79, 0.81, 1.7] {
        let (p, q) = sum(l);
        assert_relative_eq!(
            post.constrained(m(l)).unwrap().value,
            q,
            max_relative = 1e-6
        );
        let limit = post.beside_shear(m(l), newton(0.2 * p)).unwrap().unwrap();
        let (px, qx) = sum(limit.rotation.value);
        assert_relative_eq!(px, 0.6 * p, max_relative = 1e-5);
        assert_relative_eq!(limit.moment.value, q - 2.0 * qx, max_relative = 1e-4);
    }
}
