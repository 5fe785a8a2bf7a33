//! Limit-state methods against integration, and what must hold for any of them;
//! their cases stand in `reference`.

use approx::assert_relative_eq;
use groundline::lateral::*;
use groundline::profile::{Layer, Profile, Soil};
use groundline::units::*;
use proptest::prelude::*;

/// Where the angle vanishes.
#[test]
fn hansen_without_friction() {
    // The small-angle branch meets the formulas.
    let (limit, near) = (
        HansenConstants::new(deg(0.0)).unwrap(),
        HansenConstants::new(deg(0.001)).unwrap(),
    );
    assert_relative_eq!(limit.kc_surface, near.kc_surface, max_relative = 1e-4);
    assert_relative_eq!(limit.kc_depth, near.kc_depth, max_relative = 1e-4);
    assert_relative_eq!(limit.alpha_c, near.alpha_c, max_relative = 1e-4);
    assert!(near.kq_depth < 1e-3);
}

fn soil(weight: f64, phi: f64, cohesion: f64) -> Soil {
    Soil::new(kn_per_cu_m(weight))
        .unwrap()
        .with_friction_angle(deg(phi))
        .unwrap()
        .with_cohesion(kpa(cohesion))
        .unwrap()
}

fn undrained(weight: f64, su: f64) -> Soil {
    Soil::new(kn_per_cu_m(weight))
        .unwrap()
        .with_undrained_strength(kpa(su))
        .unwrap()
}

/// Three layers, water between, a dead top.
fn layered() -> Profile {
    let layers = [
        (0.35, soil(17.0, 28.0, 2.0)),
        (0.4, undrained(18.5, 30.0)),
        (3.0, soil(19.0, 33.0, 0.0)),
    ];
    let layers = layers
        .map(|(t, soil)| Layer::new(m(t), soil).unwrap())
        .to_vec();
    Profile::new(layers)
        .unwrap()
        .with_water_at(m(0.9))
        .unwrap()
        .discounting_top(m(0.1))
        .unwrap()
}

/// Layered Hansen against direct integration: the reaction written out again
/// here, 200 000 slices, the rotation point from the balance of moments.
#[test]
fn layered_hansen_by_slices() {
    let (b, l, e) = (0.3, 1.5, 1.2);
    let post = Hansen::new(&layered(), m(b), Drainage::Drained).unwrap();
    let ultimate = post.ultimate(m(l), m(e)).unwrap();
    // Effective stress by hand: 17, 18.5, 19, buoyant below 0.9.
    let stress = |z: f64| {
        let first = 17.0 * z.min(0.35);
        let second = 18.5 * (z.min(0.75) - 0.35).max(0.0);
        let third = 19.0 * (z - 0.75).max(0.0);
        first + second + third - 9.806_65 * (z - 0.9).max(0.0)
    };
    let reaction = |z: f64| {
        let (phi, c) = if z < 0.1 {
            return 0.0;
        } else if z < 0.35 {
            (28.0, 2.0)
        } else if z < 0.75 {
            (0.0, 30.0)
        } else {
            (33.0, 0.0)
        };
        let (kq, kc) = HansenConstants::new(deg(phi)).unwrap().at(z / b);
        b * (stress(z) * kq + c * kc)
    };
    let slices = 200_000;
    let dz = l / f64::from(slices);
    let p: Vec<(f64, f64)> = (0..slices)
        .map(|i| {
            let z = (f64::from(i) + 0.5) * dz;
            (z, reaction(z) * dz)
        })
        .collect();
    let whole: f64 = p.iter().map(|(z, p)| p * (e + z)).sum();
    let (mut arm, mut force, mut x) = (0.0, 0.0, 0.0);
    for (z, p) in &p {
        if arm + p * (e + z) > 0.5 * whole {
            break;
        }
        arm += p * (e + z);
        force += p;
        x = z + 0.5 * dz;
    }
    let total: f64 = p.iter().map(|(_, p)| p).sum();
    assert!((ultimate.rotation.unwrap().value - x).abs() < 2.0 * dz);
    assert_relative_eq!(
        ultimate.shear.to(kn),
        2.0 * force - total,
        max_relative = 1e-4
    );
    // The greatest moment: where the reaction so far equals the load.
    let (mut so_far, mut turning) = (0.0, 0.0);
    for (z, p) in &p {
        if so_far + p > ultimate.shear.to(kn) {
            break;
        }
        so_far += p;
        turning += p * z;
    }
    let f = ultimate.zero_shear.value;
    let moment = ultimate.shear.to(kn) * (e + f) - (so_far * f - turning);
    assert_relative_eq!(
        ultimate.greatest_moment.to(kn_m),
        moment,
        max_relative = 1e-4
    );
}

/// Which soils a method takes, and which it refuses.
#[test]
fn what_is_refused() {
    let width = m(0.3);
    let ground = layered();
    assert!(BromsClay::of(&ground, width, m(1.0)).is_err());
    assert!(BromsSand::of(&ground, width, m(1.0)).is_err());
    assert!(ReducedClay::of(&ground, width, m(1.0)).is_err());
    assert!(ReducedSand::of(&ground, width, m(1.0)).is_err());
    let clay = Profile::uniform(undrained(18.0, 50.0)).unwrap();
    let sand = Profile::uniform(soil(18.0, 30.0, 0.0)).unwrap();
    assert!(BromsClay::of(&clay, width, m(1.0)).is_ok());
    assert!(BromsClay::of(&sand, width, m(1.0)).is_err());
    assert!(BromsSand::of(&sand, width, m(1.0)).is_ok());
    assert!(BromsSand::of(&clay, width, m(1.0)).is_err());
    assert_eq!(
        ReducedSand::of(&sand, width, m(1.0)).unwrap(),
        ReducedSand::new(kn_per_cu_m(18.0), deg(30.0), width).unwrap()
    );
    assert_eq!(
        ReducedClay::of(&clay, width, m(1.0)).unwrap(),
        ReducedClay::new(kpa(50.0), width).unwrap()
    );
    // Under water throughout: buoyant; water half-way: refused.
    let wet = sand.clone().with_water_at(m(0.0)).unwrap();
    assert_eq!(
        BromsSand::of(&wet, width, m(1.0)).unwrap(),
        BromsSand::new(kn_per_cu_m(18.0 - 9.806_65), deg(30.0), width).unwrap()
    );
    let half = sand.clone().with_water_at(m(0.5)).unwrap();
    assert!(BromsSand::of(&half, width, m(1.0)).is_err());
    assert!(BromsSand::of(&half, width, m(0.5)).is_ok());
    let cohesive = Profile::uniform(soil(18.0, 30.0, 5.0)).unwrap();
    assert!(BromsSand::of(&cohesive, width, m(1.0)).is_err());
    let dead = sand.discounting_top(m(0.2)).unwrap();
    assert!(BromsSand::of(&dead, width, m(1.0)).is_err());
    // Nothing of 1.5 b counts in clay.
    let broms = BromsClay::of(&clay, width, m(1.0)).unwrap();
    assert_eq!(
        broms.ultimate(m(0.45), m(1.0)).unwrap_err().field(),
        "depth"
    );
    // Deeper than the ground is described.
    let shallow = Profile::new(vec![Layer::new(m(1.0), undrained(18.0, 50.0)).unwrap()]).unwrap();
    let hansen = Hansen::new(&shallow, width, Drainage::Drained).unwrap();
    assert!(hansen.ultimate(m(1.01), m(1.0)).is_err());
    let needed = hansen.needed_depth(kn(500.0), m(1.0)).unwrap();
    assert_eq!(needed, NeededDepth::MoreThan(m(1.0)));
    assert!(Layer::new(m(1.0), Soil::new(pcf(110.0)).unwrap()).is_err());
    assert!(Layer::new(m(-1.0), undrained(18.0, 50.0)).is_err());
    assert!(Profile::new(Vec::new()).is_err());
}

/// Which strength of a soil that has both.
#[test]
fn drainage() {
    let both = soil(18.0, 30.0, 0.0)
        .with_undrained_strength(kpa(60.0))
        .unwrap();
    let profile = |soil| Profile::uniform(soil).unwrap();
    let ultimate = |soil, drainage| {
        let post = Hansen::new(&profile(soil), m(0.3), drainage).unwrap();
        post.ultimate(m(1.2), m(1.5)).unwrap().shear
    };
    let sand = ultimate(soil(18.0, 30.0, 0.0), Drainage::Drained);
    let clay = ultimate(undrained(18.0, 60.0), Drainage::Undrained);
    assert_eq!(ultimate(both, Drainage::Drained), sand);
    assert_eq!(ultimate(both, Drainage::Undrained), clay);
    assert!(clay > sand);
}

/// Limits: uniform pressure under a force at grade turns at L/√2; a backfill
/// ring replaces the soil; what the ground weighs below water.
#[test]
fn limits() {
    let post = RigidPlastic::constant(kpa(100.0), m(0.3)).unwrap();
    let ultimate = post.ultimate(m(2.0), m(0.0)).unwrap();
    assert_relative_eq!(
        ultimate.rotation.unwrap().value,
        2.0 / std::f64::consts::SQRT_2,
        max_relative = 1e-9
    );
    let fill = soil(16.0, 25.0, 0.0);
    let ring = layered()
        .borne_by(groundline::profile::BearingSurface::Backfill(fill))
        .unwrap();
    assert_eq!(ring.bearing_soil(m(1.0)), &fill);
    // Its weight stays that of the layers.
    assert_eq!(
        ring.effective_stress(m(1.2)),
        layered().effective_stress(m(1.2))
    );
    let naked = Soil::new(pcf(110.0)).unwrap();
    assert!(
        layered()
            .borne_by(groundline::profile::BearingSurface::Backfill(naked))
            .is_err()
    );
    // Graded clay by slices.
    let graded = RigidPlastic::graded_clay(kpa(40.0), m(0.25)).unwrap();
    let by_slices: f64 = (0..100_000)
        .map(|i| {
            let z = (f64::from(i) + 0.5) * 1.6e-5;
            let p = if z < 1.0 {
                3.0 * 40.0 * (1.0 + z / 0.5)
            } else {
                360.0
            };
            p * 0.25 * z * 1.6e-5
        })
        .sum();
    assert_relative_eq!(
        graded.constrained(m(1.6)).unwrap().to(kn_m),
        by_slices,
        max_relative = 1e-6
    );
}

/// Restrained heads: what gives way, and the derived middle mode by its own
/// balance.
#[test]
fn restrained_heads() {
    let my = 4.0;
    let clay = BromsClay::new(kpa(40.0), m(0.2))
        .unwrap()
        .with_head(Head::Restrained)
        .yielding_at(kn_m(my))
        .unwrap();
    let x = 9.0 * 40.0 * 0.2;
    let mode = |l: f64| clay.ultimate(m(l), m(0.0)).unwrap();
    let (short, middle, long) = (mode(0.4), mode(0.9), mode(3.0));
    assert_eq!(short.mode, Mode::Ground);
    assert_relative_eq!(short.shear.to(kn), x * 0.1, max_relative = 1e-12);
    assert_eq!(middle.mode, Mode::Head);
    let h = middle.shear.to(kn);
    let f = h / x;
    let g = 0.9 - 0.3 - f;
    // Moments about the point of zero shear.
    assert_relative_eq!(
        h * (0.3 + 0.5 * f) - my,
        0.25 * x * g * g,
        max_relative = 1e-9
    );
    assert_eq!(long.mode, Mode::HeadAndPost);
    let h = long.shear.to(kn);
    assert_relative_eq!(h * (0.3 + 0.5 * h / x), 2.0 * my, max_relative = 1e-9);

    let sand = BromsSand::new(kn_per_cu_m(18.0), deg(32.0), m(0.2))
        .unwrap()
        .with_head(Head::Restrained)
        .yielding_at(kn_m(my))
        .unwrap();
    let q = 18.0 * 0.2 * sand.passive();
    let mode = |l: f64| sand.ultimate(m(l), m(0.0)).unwrap();
    let (short, middle, long) = (mode(0.5), mode(0.9), mode(3.0));
    assert_eq!(short.mode, Mode::Ground);
    assert_eq!(middle.mode, Mode::Head);
    assert_relative_eq!(
        middle.shear.to(kn) * 0.9,
        0.5 * q * 0.9_f64.powi(3) + my,
        max_relative = 1e-9
    );
    assert_eq!(long.mode, Mode::HeadAndPost);
    let h = long.shear.to(kn);
    let f = (2.0 * h / (3.0 * q)).sqrt();
    assert_relative_eq!(h * 2.0 * f / 3.0, 2.0 * my, max_relative = 1e-9);

    // Held at grade, loaded high up: the post above is a cantilever, H e = My.
    for method in [&clay as &dyn LateralMethod, &sand] {
        let high = method.ultimate(m(3.0), m(2.0)).unwrap();
        assert_eq!(high.mode, Mode::PostAbove);
        assert_relative_eq!(high.shear.to(kn), my / 2.0, max_relative = 1e-12);
        let more = method.needed_depth(kn(0.51 * my), m(2.0)).unwrap();
        assert_eq!(more, NeededDepth::PostYields);
        assert!(
            method
                .needed_depth(kn(0.49 * my), m(2.0))
                .unwrap()
                .depth()
                .is_some()
        );
    }
}

/// Every method for one pier in one ground.
fn methods(yields_at: Option<f64>) -> Vec<Box<dyn LateralMethod>> {
    let b = m(0.3);
    let my = yields_at.map(kn_m);
    let clay = BromsClay::new(kpa(50.0), b).unwrap();
    let sand = BromsSand::new(kn_per_cu_m(18.0), deg(30.0), b).unwrap();
    let held_clay = clay.with_head(Head::Restrained);
    let held_sand = sand.with_head(Head::Restrained);
    let hansen = Hansen::new(&layered(), b, Drainage::Drained).unwrap();
    let linear = RigidPlastic::linear(kn_per_cu_m(160.0), b).unwrap();
    let constant = RigidPlastic::constant(kpa(200.0), b).unwrap();
    let graded = RigidPlastic::graded_clay(kpa(50.0), b).unwrap();
    let mut all: Vec<Box<dyn LateralMethod>> = vec![
        Box::new(ReducedClay::new(kpa(50.0), b).unwrap()),
        Box::new(ReducedSand::new(kn_per_cu_m(18.0), deg(30.0), b).unwrap()),
    ];
    if let Some(my) = my {
        let clay = ReducedClay::new(kpa(50.0), b).unwrap();
        all.push(Box::new(clay.yielding_at(my).unwrap()));
        let sand = ReducedSand::new(kn_per_cu_m(18.0), deg(30.0), b).unwrap();
        all.push(Box::new(sand.yielding_at(my).unwrap()));
    }
    match my {
        None => all.extend([
            Box::new(clay) as Box<dyn LateralMethod>,
            Box::new(sand),
            Box::new(held_clay),
            Box::new(held_sand),
            Box::new(hansen),
            Box::new(linear),
            Box::new(constant),
            Box::new(graded),
        ]),
        Some(my) => all.extend([
            Box::new(clay.yielding_at(my).unwrap()) as Box<dyn LateralMethod>,
            Box::new(sand.yielding_at(my).unwrap()),
            Box::new(held_clay.yielding_at(my).unwrap()),
            Box::new(held_sand.yielding_at(my).unwrap()),
            Box::new(hansen.yielding_at(my).unwrap()),
            Box::new(linear.yielding_at(my).unwrap()),
            Box::new(constant.yielding_at(my).unwrap()),
            Box::new(graded.yielding_at(my).unwrap()),
        ]),
    }
    all
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// The depth a load needs carries just that load; deeper carries more,
    /// higher up less; the greatest moment is that of the load.
    #[test]
    fn depth_and_load_are_inverse(
        l in 0.6..2.5_f64, e in 0.05..3.0_f64, my in 3.0..40.0_f64, yields in proptest::bool::ANY,
    ) {
        for method in methods(yields.then_some(my)) {
            let ultimate = method.ultimate(m(l), m(e)).unwrap();
            prop_assert!(ultimate.shear.value > 0.0 && ultimate.shear.value.is_finite());
            let deeper = method.ultimate(m(l * 1.1), m(e)).unwrap();
            prop_assert!(deeper.shear.value >= ultimate.shear.value * (1.0 - 1e-9));
            let higher = method.ultimate(m(l), m(e * 1.1)).unwrap();
            prop_assert!(higher.shear.value <= ultimate.shear.value * (1.0 + 1e-9));
            if ultimate.mode == Mode::Ground || ultimate.mode == Mode::Head {
                let needed = method.needed_depth(ultimate.shear * (1.0 - 1e-9), m(e)).unwrap();
                let depth = needed.depth().unwrap();
                // Where ground hands over to head the load hardly grows with
                // depth: a billionth of it is the root of that in depth.
                prop_assert!(
                    (depth.value / l - 1.0).abs() < 5e-5,
                    "{}: {} for {l}", method.name(), depth.value
                );
            } else {
                let more = method.needed_depth(ultimate.shear * 1.001, m(e)).unwrap();
                prop_assert_eq!(more, NeededDepth::PostYields);
            }
            if ultimate.zero_shear.value == 0.0 {
                // A restrained head: by the depth, not by the load alone.
                let refused = method.greatest_moment(ultimate.shear, m(e)).unwrap_err();
                prop_assert_eq!(refused.field(), "head");
            } else {
                let at = method.greatest_moment(ultimate.shear, m(e)).unwrap();
                prop_assert!(((at.depth / ultimate.zero_shear).value - 1.0).abs() < 1e-6);
                prop_assert!(
                    ((at.moment / ultimate.greatest_moment).value - 1.0).abs() < 1e-6
                );
            }
        }
    }
}

/// Hostile numbers: refused, never a panic.
#[test]
fn hostile() {
    let wild = [
        f64::NAN,
        f64::INFINITY,
        f64::NEG_INFINITY,
        -1.0,
        0.0,
        1e308,
        5e-324,
    ];
    for method in methods(Some(10.0)) {
        for x in wild {
            assert!(method.ultimate(m(x), m(1.0)).is_err());
            assert!(method.needed_depth(kn(x), m(1.0)).is_err());
            assert!(method.greatest_moment(kn(x), m(1.0)).is_err());
            let _ = method.ultimate(m(1.0), m(x));
            if let Ok(needed) = method.needed_depth(kn(1.0), m(x)) {
                assert!(needed.depth().is_none_or(|d| d.value.is_finite()));
            }
        }
    }
    for x in wild {
        assert!(BromsClay::new(kpa(x), m(0.3)).is_err());
        assert!(BromsClay::new(kpa(50.0), m(x)).is_err());
        assert!(BromsSand::new(kn_per_cu_m(x), deg(30.0), m(0.3)).is_err());
        assert!(BromsSand::new(kn_per_cu_m(18.0), deg(x), m(0.3)).is_err());
        assert!(RigidPlastic::linear(kn_per_cu_m(x), m(0.3)).is_err());
        assert!(RigidPlastic::constant(kpa(x), m(0.3)).is_err());
        assert!(RigidPlastic::graded_clay(kpa(x), m(0.3)).is_err());
        assert!(Soil::new(kn_per_cu_m(x)).is_err());
        assert!(soil_angle(x).is_err());
        let _ = HansenConstants::new(deg(x));
    }
}

fn soil_angle(x: f64) -> Result<Soil, groundline::Error> {
    Soil::new(kn_per_cu_m(18.0))?.with_friction_angle(deg(x))
}
