//! Back-figuring of side pulls: the model of design makes readings, with and
//! without noise, and the values that made them come back. Derived: the
//! strengths are told by closed statics, the readings by the solver, which is
//! checked elsewhere.

use approx::assert_relative_eq;
use groundline::caution::Caution;
use groundline::field_test::*;
use groundline::lateral::{LateralMethod, RigidPlastic};
use groundline::profile::{Profile, Soil, Stiffness};
use groundline::response::{PostModel, Springs};
use groundline::source;
use groundline::units::*;

pub(crate) const EI: f64 = 47_000.0;
pub(crate) const B: f64 = 0.089;
pub(crate) const L: f64 = 0.9;
pub(crate) const E: f64 = 1.1;

/// Shares of the load at which the ground lets go.
pub(crate) const SHARES: [f64; 6] = [0.2, 0.4, 0.6, 0.75, 0.88, 0.95];
pub(crate) const EARLY: [f64; 5] = [0.05, 0.1, 0.15, 0.2, 0.25];

/// Factors of 1 ± an amplitude, from a linear congruential generator (Knuth's
/// constants): the same every time.
pub(crate) struct Noise {
    state: u64,
    amplitude: f64,
}

impl Noise {
    pub(crate) fn of(amplitude: f64, state: u64) -> Self {
        Self { state, amplitude }
    }

    pub(crate) fn factor(&mut self) -> f64 {
        self.state = self
            .state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        let unit = f64::from(u32::try_from(self.state >> 32).unwrap()) / f64::from(u32::MAX);
        1.0 + self.amplitude * (2.0 * unit - 1.0)
    }
}

pub(crate) fn quiet() -> Noise {
    Noise::of(0.0, 1)
}

pub(crate) fn capacity(law: &RigidPlastic) -> Force {
    law.ultimate(m(L), m(E)).unwrap().shear
}

/// Readings at shares of a load.
pub(crate) fn read(
    springs: Springs,
    load: Force,
    shares: &[f64],
    noise: &mut Noise,
) -> Vec<(Length, Force)> {
    let post = PostModel::new(n_sq_m(EI), m(B), m(L), springs).unwrap();
    let post = post.standing(m(E)).unwrap();
    let mut solver = post.with_force(m(E), load).unwrap().solver();
    let at = |share: &f64| {
        solver.solve(*share).unwrap();
        let y = solver.response().at_grade().deflection;
        (y * noise.factor(), load * *share)
    };
    shares.iter().map(at).collect()
}

pub(crate) fn pull(readings: &[(Length, Force)]) -> SidePull {
    let readings = Readings::new(readings).unwrap();
    SidePull::new(n_sq_m(EI), m(B), m(L), m(E), Gauge::Grade, readings).unwrap()
}

/// A sand by nh and S in kN/m³, its readings.
pub(crate) fn sand(nh: f64, s: f64, shares: &[f64], noise: &mut Noise) -> Vec<(Length, Force)> {
    let law = RigidPlastic::linear(kn_per_cu_m(s), m(B)).unwrap();
    let springs = Springs::growing_up_to(kn_per_cu_m(nh), kn_per_cu_m(s)).unwrap();
    read(springs, capacity(&law), shares, noise)
}

/// A clay by ks in kN/m³ and su in kPa.
pub(crate) fn clay(ks: f64, su: f64, shares: &[f64], noise: &mut Noise) -> Vec<(Length, Force)> {
    let law = RigidPlastic::graded_clay(kpa(su), m(B)).unwrap();
    let soil = Soil::new(kn_per_cu_m(20.0)).unwrap();
    let soil = soil.with_undrained_strength(kpa(su)).unwrap();
    let soil = soil.with_stiffness(Stiffness::Constant(kn_per_cu_m(ks)));
    let ground = Profile::uniform(soil.unwrap()).unwrap();
    let springs = Springs::elastic_plastic(&ground).unwrap();
    read(springs, capacity(&law), shares, noise)
}

pub(crate) fn off<Q: Measurable>(found: Q, expected: Q) -> f64 {
    (found.si() / expected.si() - 1.0).abs()
}

/// The springs that grow up to a growing limit are the sand of a profile: 3 Kp
/// γ′ of 30° (Kp = 3) and 20 kN/m³ is 180 kN/m³.
#[test]
fn growing_limit_is_the_sand_of_a_profile() {
    let soil = Soil::new(kn_per_cu_m(20.0)).unwrap();
    let soil = soil.with_friction_angle(deg(30.0)).unwrap();
    let soil = soil.with_stiffness(Stiffness::Growing(kn_per_cu_m(8e3)));
    let ground = Profile::uniform(soil.unwrap()).unwrap();
    let springs = Springs::elastic_plastic(&ground).unwrap();
    let law = RigidPlastic::linear(kn_per_cu_m(180.0), m(B)).unwrap();
    let other = read(springs, capacity(&law), &SHARES, &mut quiet());
    let own = sand(8e3, 180.0, &SHARES, &mut quiet());
    for ((y, _), (same, _)) in own.iter().zip(&other) {
        assert_relative_eq!(y.value, same.value, max_relative = 1e-7);
    }
    for bad in [f64::NAN, f64::INFINITY, 0.0, -1.0] {
        assert!(Springs::growing_up_to(kn_per_cu_m(8e3), kn_per_cu_m(bad)).is_err());
    }
}

/// Without noise both values come back: to 1e-4, where the searches stop at
/// 1e-6 of the logarithm and the solver at 1e-10 of the load.
#[test]
fn curves_come_back() {
    let readings = sand(8e3, 180.0, &SHARES, &mut quiet());
    let found = pull(&readings).growing_curve(1.0).unwrap();
    assert!(off(found.stiffness.found().unwrap(), kn_per_cu_m(8e3)) < 1e-4);
    assert!(off(found.strength.found().unwrap(), kn_per_cu_m(180.0)) < 1e-4);
    // The peak was 0.95 of what the strength carries.
    assert!(off(found.carries_the_peak, kn_per_cu_m(171.0)) < 1e-9);
    assert_eq!((found.residuals.len(), found.left_out), (6, 0));
    assert!(found.residual.to(mm) < 1e-3 && found.iterations < 2_000);
    assert!(found.cautions().contains(Caution::FieldTests));
    assert_eq!(found.sources()[0], &source::PLASTIC_SPRINGS);

    let readings = clay(20e3, 40.0, &SHARES, &mut quiet());
    let found = pull(&readings).clay_curve(1.0).unwrap();
    assert!(off(found.stiffness.found().unwrap(), kpa(20e3 * B)) < 1e-4);
    assert!(off(found.strength.found().unwrap(), kpa(40.0)) < 1e-4);

    let law = RigidPlastic::constant(kpa(150.0), m(B)).unwrap();
    let springs = Springs::constant_up_to(mpa(2.0), kpa(150.0) * m(B)).unwrap();
    let readings = read(springs, capacity(&law), &SHARES, &mut quiet());
    // Up to 0.9 of the peak: four of six.
    let found = pull(&readings).constant_curve(0.9).unwrap();
    assert!(off(found.stiffness.found().unwrap(), mpa(2.0)) < 1e-4);
    assert!(off(found.strength.found().unwrap(), kpa(150.0)) < 1e-4);
    assert_eq!((found.residuals.len(), found.left_out), (4, 2));
}

/// Noise of 1, 3, 5 % of movement. The last reading, near the end of the
/// ground, moves with some 1/(1 − P/Pu) of a change of strength, so its noise
/// puts the strength off by less than itself: bound a. The stiffness is told by
/// the early readings, which weigh little: a movement at grade goes with nh to
/// −0.6 to −1 and with k to −0.75 to −1, and the fit shares its error with the
/// strength: bound 4 a.
#[test]
fn curves_come_back_out_of_noise() {
    for (amplitude, seed) in [(0.01, 1), (0.03, 2), (0.05, 3)] {
        let readings = sand(8e3, 180.0, &SHARES, &mut Noise::of(amplitude, seed));
        let found = pull(&readings).growing_curve(1.0).unwrap();
        let stiffness = off(found.stiffness.found().unwrap(), kn_per_cu_m(8e3));
        let strength = off(found.strength.found().unwrap(), kn_per_cu_m(180.0));
        assert!(stiffness < 4.0 * amplitude, "{amplitude}: {stiffness}");
        assert!(strength < amplitude, "{amplitude}: {strength}");
        // Its own standard error is of the size of the noise.
        let error = found.stiffness_error.unwrap();
        assert!(
            error > 0.05 * amplitude && error < 6.0 * amplitude,
            "{error}"
        );

        let readings = clay(20e3, 40.0, &SHARES, &mut Noise::of(amplitude, seed + 7));
        let found = pull(&readings).clay_curve(1.0).unwrap();
        let stiffness = off(found.stiffness.found().unwrap(), kpa(20e3 * B));
        let strength = off(found.strength.found().unwrap(), kpa(40.0));
        assert!(stiffness < 4.0 * amplitude, "{amplitude}: {stiffness}");
        assert!(strength < amplitude, "{amplitude}: {strength}");
    }
}

/// The values that are figured one by one. Elastic: a mean of movements off by
/// at most a is off by at most a, and movement goes with nh to −0.6 at least
/// and with k to −0.75, so 1/0.6 and 1/0.75 of it, with a little for the curve
/// of the power: 1.9 a and 1.5 a. Strength by statics reads no movement: noise
/// of a on the load puts it off by a and no more, and exactly as the peak.
#[test]
fn single_values_come_back_out_of_noise() {
    let elastic = [100.0, 200.0, 300.0, 400.0, 500.0].map(|load| load / 500.0);
    for amplitude in [0.01, 0.03, 0.05] {
        for seed in 1..=4 {
            let mut noise = Noise::of(amplitude, seed);
            let springs = Springs::growing(kn_per_cu_m(8e3)).unwrap();
            let readings = read(springs, newton(500.0), &elastic, &mut noise);
            let found = pull(&readings).growing_stiffness(1.0).unwrap();
            let ours = off(found.value, kn_per_cu_m(8e3));
            assert!(ours > 0.0 && ours < 1.9 * amplitude, "{ours}");
            assert!(found.cautions().contains(Caution::FieldTests));
            let springs = Springs::constant(mpa(2.0)).unwrap();
            let readings = read(springs, newton(500.0), &elastic, &mut noise);
            let found = pull(&readings).constant_stiffness(1.0).unwrap();
            let ours = off(found.value, mpa(2.0));
            assert!(ours > 0.0 && ours < 1.5 * amplitude, "{ours}");

            let factor = noise.factor();
            let at = |law: RigidPlastic| pull(&[(mm(50.0), capacity(&law) * factor)]);
            let one = at(RigidPlastic::constant(kpa(77.0), m(B)).unwrap());
            let ours = one.ultimate_pressure().unwrap() / kpa(77.0);
            assert_relative_eq!(ours.value, factor, max_relative = 1e-9);
            let one = at(RigidPlastic::linear(kn_per_cu_m(210.0), m(B)).unwrap());
            let ours = one.ultimate_growth().unwrap() / kn_per_cu_m(210.0);
            assert_relative_eq!(ours.value, factor, max_relative = 1e-9);
            let one = at(RigidPlastic::graded_clay(kpa(33.0), m(B)).unwrap());
            let ours = one.undrained_strength().unwrap() / kpa(33.0);
            assert_relative_eq!(ours.value, factor, max_relative = 1e-9);
        }
    }
}

/// What cannot be known is said, with a bound that holds.
#[test]
fn what_is_not_identifiable() {
    // Elastic, without noise and with: the strength only bounded.
    for amplitude in [0.0, 0.03] {
        let readings = sand(8e3, 180.0, &EARLY, &mut Noise::of(amplitude, 5));
        let pull = pull(&readings);
        let found = pull.growing_curve(1.0).unwrap();
        let floor = pull.ultimate_growth().unwrap();
        let Identified::AtLeast(bound, why) = found.strength else {
            panic!("{found:?}");
        };
        assert_eq!((bound, why), (floor, WhyBound::StayedElastic));
        assert!(bound < kn_per_cu_m(180.0));
        let alone = pull.growing_stiffness(1.0).unwrap();
        assert_eq!(found.stiffness.found(), Some(alone.value));
        assert_eq!(found.strength.found(), None);
        assert_eq!(found.strength_error, None);
        assert!(why.name().contains("elastic range"));
    }
    // One reading, and two: bounds of both.
    let readings = sand(8e3, 180.0, &SHARES, &mut quiet());
    for count in [1, 2] {
        let found = pull(&readings[..count]).growing_curve(1.0).unwrap();
        let Identified::AtLeast(nh, WhyBound::TooFew) = found.stiffness else {
            panic!("{found:?}");
        };
        assert!(nh <= kn_per_cu_m(8e3 * (1.0 + 1e-6)));
        assert!(found.strength.at_least() < kn_per_cu_m(180.0));
    }
    // Only late ones: the stiffness of elastic ground is far too low, and a
    // bound.
    let late = pull(&readings[4..]).growing_curve(1.0).unwrap();
    assert!(late.stiffness.at_least() < kn_per_cu_m(7e3));
    assert_eq!(late.stiffness.found(), None);
    // A plateau and unloading are left out, and change nothing else.
    let mut more = readings[..3].to_vec();
    let (y, load) = readings[2];
    more.extend([(y * 2.0, load), (y * 4.0, load * 0.9), (y * 5.0, load)]);
    let with = pull(&more).growing_curve(1.0).unwrap();
    let without = pull(&readings[..3]).growing_curve(1.0).unwrap();
    assert_eq!(with.left_out, 3);
    assert_eq!(with.residuals, without.residuals);
    assert_eq!(with.strength, without.strength);
    // Movements that fall are no readings; a share out of range, nothing moved.
    let fall = [(mm(2.0), newton(200.0)), (mm(1.9), newton(300.0))];
    assert_eq!(Readings::new(&fall).unwrap_err().field(), "movement");
    for bad in [0.0, 1.1, f64::NAN, f64::INFINITY, -1.0] {
        assert!(pull(&readings).growing_curve(bad).is_err());
        assert!(pull(&readings).clay_curve(bad).is_err());
        assert!(pull(&readings).constant_curve(bad).is_err());
    }
    let still = pull(&[(mm(0.0), newton(5.0))]);
    assert_eq!(still.growing_curve(1.0).unwrap_err().field(), "readings");
    // The readings of a ground that could not have carried the peak.
    let mut wild = readings;
    let (y, load) = wild[5];
    wild.push((y * 3.0, load * 1.1));
    let found = pull(&wild).growing_curve(0.92).unwrap();
    assert_eq!((found.left_out, found.strength_error), (1, None));
    assert_eq!(
        found.strength,
        Identified::AtLeast(found.carries_the_peak, WhyBound::CarriedThePeak)
    );
}

/// Load and movement times c: strength times c, stiffness the same. The same
/// readings in inches and pounds: the same values.
#[test]
fn scale_and_units() {
    let readings = sand(8e3, 180.0, &SHARES, &mut Noise::of(0.02, 9));
    let own = pull(&readings).growing_curve(1.0).unwrap();
    let twice: Vec<_> = readings.iter().map(|(y, p)| (*y * 2.0, *p * 2.0)).collect();
    let other = pull(&twice).growing_curve(1.0).unwrap();
    let ratio = other.strength.found().unwrap() / own.strength.found().unwrap();
    assert_relative_eq!(ratio.value, 2.0, max_relative = 1e-4);
    let ratio = other.stiffness.found().unwrap() / own.stiffness.found().unwrap();
    assert_relative_eq!(ratio.value, 1.0, max_relative = 1e-4);
    let us: Vec<_> = readings
        .iter()
        .map(|(y, p)| (inch(y.to(mm) / 25.4), lb(p.value / 4.448_221_615_260_5)))
        .collect();
    let readings = Readings::new(&us).unwrap();
    let feet = |metres: f64| ft(metres / 0.304_8);
    let other = SidePull::new(
        n_sq_m(EI),
        inch(B / 0.025_4),
        feet(L),
        feet(E),
        Gauge::Grade,
        readings,
    )
    .unwrap()
    .growing_curve(1.0)
    .unwrap();
    let ratio = other.strength.found().unwrap() / own.strength.found().unwrap();
    assert_relative_eq!(ratio.value, 1.0, max_relative = 1e-4);
}

/// Between the rows of Table A.10, and its use.
#[test]
fn ground_test_profiles() {
    assert_eq!(ground_test_factors(6), ground_test_factors(5));
    assert_eq!(ground_test_factors(9), ground_test_factors(7));
    assert_eq!(ground_test_factors(50), ground_test_factors(10));
    // Mean 10 over 1.33 against least 9 over 1.23: 7.3171.
    let sample = Sample::new(&[kn(10.0), kn(9.0), kn(11.0)]).unwrap();
    let value = sample.pile_resistance(PileTests::GroundTests);
    assert_relative_eq!(value.resistance.to(kn), 9.0 / 1.23, max_relative = 1e-12);
    let near = Sample::new(&[kn(10.0), kn(9.9), kn(10.1)]).unwrap();
    let value = near.pile_resistance(PileTests::GroundTests);
    assert_relative_eq!(value.resistance.to(kn), 10.0 / 1.33, max_relative = 1e-12);
    assert!(value.tests.name().contains("piles"));
    assert_eq!(value.tests.source(), &source::EN1997_GROUND_TESTS);
}
