//! Post strength by hand; its cases and tables stand in `reference`.

use approx::assert_relative_eq;
use groundline::actions::GroundlineActions;
use groundline::limit_state::PartialFactor;
use groundline::post::*;
use groundline::response::{PostModel, Springs};
use groundline::section::{Square, Tube};
use groundline::units::{
    Measurable, Torque, bending_moment, cu_in, in4, inch, kip_in, kn, kn_m, kn_per_cu_m, kn_per_m,
    kn_sq_m, ksi, lb, lb_in, lb_per_sq_in, m, mm, mpa, sq_in,
};

/// Dry service has no CM, timbers have none either way, and the size factor
/// of 4D starts above 12 in: (12/d)^(1/9).
#[test]
fn timber_factors_branch() {
    let factors = |side: f64, class, moisture| {
        let values = DesignValues::new(lb_per_sq_in(1500.0), lb_per_sq_in(150.0), class).unwrap();
        TimberFactors::for_wind(
            &Square::new(inch(side)).unwrap(),
            &values,
            moisture,
            Treatment::NotIncised,
        )
    };
    let dry = factors(3.5, SizeClass::Dimension, Moisture::Dry);
    assert_eq!((dry.wet_bending, dry.wet_shear, dry.size), (1.0, 1.0, 1.5));
    let wet = factors(3.5, SizeClass::Dimension, Moisture::Wet);
    assert_eq!((wet.wet_bending, wet.wet_shear), (0.85, 0.97));
    let timbers = factors(5.5, SizeClass::Timbers, Moisture::Wet);
    assert_eq!(
        (timbers.wet_bending, timbers.wet_shear, timbers.size),
        (1.0, 1.0, 1.0)
    );
    assert_relative_eq!(
        factors(15.5, SizeClass::Timbers, Moisture::Wet).size,
        (12.0_f64 / 15.5).powf(1.0 / 9.0),
        max_relative = 1e-12
    );
    // The wrong table for a size is refused.
    let values =
        DesignValues::new(lb_per_sq_in(900.0), lb_per_sq_in(150.0), SizeClass::Timbers).unwrap();
    assert!(
        TimberPost::new(
            Square::new(inch(3.5)).unwrap(),
            values,
            Moisture::Wet,
            Treatment::NotIncised
        )
        .is_err()
    );
}

/// Each factor enters where NDS Table 4.3.1 puts it.
#[test]
fn each_factor_counts_once() {
    let side = Square::new(inch(5.5)).unwrap();
    let values = DesignValues::new(
        lb_per_sq_in(1000.0),
        lb_per_sq_in(100.0),
        SizeClass::Timbers,
    )
    .unwrap();
    let post = TimberPost::new(side, values, Moisture::Wet, Treatment::NotIncised).unwrap();
    let with = |change: fn(&mut TimberFactors)| {
        let mut factors = *post.factors();
        change(&mut factors);
        let changed = post.with_factors(factors).unwrap();
        (
            (changed.adjusted_bending() / post.adjusted_bending()).value,
            (changed.adjusted_shear() / post.adjusted_shear()).value,
        )
    };
    let close = |(b, v): (f64, f64), (eb, ev): (f64, f64)| {
        assert_relative_eq!(b, eb, max_relative = 1e-12);
        assert_relative_eq!(v, ev, max_relative = 1e-12);
    };
    close(with(|f| f.load_duration = 0.8), (0.5, 0.5));
    close(with(|f| f.wet_bending = 0.5), (0.5, 1.0));
    close(with(|f| f.wet_shear = 0.5), (1.0, 0.5));
    close(with(|f| f.temperature = 0.5), (0.5, 0.5));
    close(with(|f| f.stability = 0.5), (0.5, 1.0));
    close(with(|f| f.size = 0.5), (0.5, 1.0));
    close(with(|f| f.flat_use = 0.5), (0.5, 1.0));
    close(with(|f| f.incising = 0.5), (0.5, 0.5));
    close(with(|f| f.repetitive = 0.5), (0.5, 1.0));
    let mut wild = *post.factors();
    wild.size = f64::NAN;
    assert!(post.with_factors(wild).is_err());
}

/// F8 by hand for each kind of wall, limits as in AISC 360 (from memory): at
/// Fy 50, λp 40.6, λr 179.8, cap 261.
#[test]
fn pipe_walls() {
    let pipe = |slenderness: f64| {
        let tube = Tube::new(inch(10.0), inch(10.0 / slenderness)).unwrap();
        PipePost::new(tube, SteelStrength::new(ksi(50.0)).unwrap())
    };
    let hand = |slenderness: f64| {
        let tube = *pipe(slenderness).unwrap().section();
        let (s, z) = (
            tube.section_modulus().to(cu_in),
            tube.plastic_modulus().to(cu_in),
        );
        let plastic = 50.0 * z;
        let nominal = if slenderness <= 40.6 {
            plastic
        } else if slenderness <= 179.8 {
            (0.021 * 29_000.0 / slenderness + 50.0) * s
        } else {
            0.33 * 29_000.0 / slenderness * s
        };
        nominal.min(plastic) / 1.67
    };
    for slenderness in [15.0, 40.5, 41.0, 100.0, 179.0, 181.0, 260.0] {
        assert_relative_eq!(
            pipe(slenderness).unwrap().strength().moment.to(kip_in),
            hand(slenderness),
            max_relative = 1e-9
        );
    }
    assert!(pipe(260.9).is_ok());
    assert!(pipe(261.1).is_err());
    // Shear yields (0.6 Fy) in any fence pipe; buckling takes over beyond
    // D/t = (0.78 E/0.6 Fy)^(2/3) = 83.
    let shear = |slenderness: f64| {
        let post = pipe(slenderness).unwrap();
        post.strength().shear.to(lb) / (0.5 / 1.67 * post.section().area().to(sq_in) * 1000.0)
    };
    assert_relative_eq!(shear(20.0), 30.0, max_relative = 1e-9);
    assert_relative_eq!(shear(82.0), 30.0, max_relative = 1e-9);
    assert_relative_eq!(
        shear(120.0),
        0.78 * 29_000.0 / 120.0_f64.powf(1.5),
        max_relative = 1e-9
    );
}

/// Section properties by slices, an independent route.
#[test]
fn section_properties_by_slices() {
    let n = 400_000;
    let side = 5.5;
    let square = Square::new(inch(side)).unwrap();
    let (outer, inner) = (2.375 / 2.0, 2.375 / 2.0 - 0.154);
    let tube = Tube::new(inch(2.375), inch(0.154)).unwrap();
    let (mut i_square, mut i_tube, mut z_tube) = (0.0, 0.0, 0.0);
    for k in 0..n {
        let fraction = (f64::from(k) + 0.5) / f64::from(n) - 0.5;
        let y = side * fraction;
        i_square += y * y * side * side / f64::from(n);
        let y = 2.0 * outer * fraction;
        let half = |r: f64| (r * r - y * y).max(0.0).sqrt();
        let width = 2.0 * (half(outer) - half(inner));
        let slice = width * 2.0 * outer / f64::from(n);
        i_tube += y * y * slice;
        z_tube += y.abs() * slice;
    }
    assert_relative_eq!(
        square.second_moment().to(in4),
        i_square,
        max_relative = 1e-6
    );
    assert_relative_eq!(tube.second_moment().to(in4), i_tube, max_relative = 1e-6);
    assert_relative_eq!(
        tube.plastic_modulus().to(cu_in),
        z_tube,
        max_relative = 1e-6
    );
}

/// A stress on a modulus is a moment: 1 000 psi on 12 in³ is 12 000 lb·in.
#[test]
fn stress_times_modulus() {
    let moment: Torque = bending_moment(lb_per_sq_in(1000.0), cu_in(12.0));
    assert_relative_eq!(moment.to(lb_in), 12_000.0, max_relative = 1e-12);
}

/// kh: none from 150 mm, at most 1.3; square posts in any direction; classes of
/// a wall; what is refused.
#[test]
fn branches_of_the_european_posts() {
    let timber = |side: f64| {
        TimberEn1995::new(Square::new(mm(side)).unwrap(), TimberClass::C24, 0.9).unwrap()
    };
    assert_relative_eq!(timber(150.0).size_factor(), 1.0);
    assert_relative_eq!(timber(200.0).size_factor(), 1.0);
    assert_relative_eq!(timber(30.0).size_factor(), 1.3);
    let held = timber(100.0).resistance();
    assert_relative_eq!(
        held.skew_moment.value * 2_f64.sqrt(),
        held.moment.value,
        max_relative = 1e-12
    );
    // fy 235: D/t of 50, 70 and 90, and beyond.
    let pipe = |slenderness: f64| {
        PipeEn1993::new(
            Tube::new(mm(200.0), mm(200.0 / slenderness)).unwrap(),
            mpa(235.0),
        )
    };
    for (slenderness, class) in [(49.9, 1), (50.1, 2), (69.9, 2), (70.1, 3), (89.9, 3)] {
        let post = pipe(slenderness).unwrap();
        assert_eq!(post.class(), class);
        let modulus = if class < 3 {
            post.section().plastic_modulus()
        } else {
            post.section().section_modulus()
        };
        assert_relative_eq!(
            post.resistance().moment.value,
            235e6 * modulus.value,
            max_relative = 1e-12
        );
        assert_eq!(post.resistance().skew_moment, post.resistance().moment);
    }
    assert!(pipe(90.1).is_err());
    assert!(PipeEn1993::new(*pipe(40.0).unwrap().section(), mpa(f64::NAN)).is_err());
    let square = Square::new(mm(100.0)).unwrap();
    assert!(TimberEn1995::new(square, TimberClass::C24, 1.2).is_err());
    let given = TimberClass::Given(mpa(f64::INFINITY), mpa(3.0), mpa(9_000.0));
    assert!(TimberEn1995::new(square, given, 0.9).is_err());
    // Design actions, by the greater of grade and below.
    let actions =
        GroundlineActions::new(kn(2.0), kn_m(-2.5), kn(0.1), PartialFactor::Structure).unwrap();
    let check = held.check(&actions, kn_m(2.0), kn(1.0)).unwrap();
    assert_eq!(check.moment, kn_m(2.5));
    assert_relative_eq!(check.bending.ratio(), 2.5 / 3.003_2, max_relative = 1e-4);
    assert_relative_eq!(check.shear.ratio(), 2.0 / 12.369, max_relative = 1e-4);
    assert!(check.skew_bending.ratio() > 1.0);
    assert_eq!(
        held.check(&actions, kn_m(2.9), kn(0.0)).unwrap().moment,
        kn_m(2.9)
    );
    // Below grade the shear reverses and is greater.
    let below = held.check(&actions, kn_m(2.9), kn(14.0)).unwrap();
    assert_relative_eq!(below.shear.ratio(), 14.0 / 12.369, max_relative = 1e-4);
    let lighter = PartialFactor::ReducedGround;
    let lighter = GroundlineActions::new(kn(2.0), kn_m(2.5), kn(0.1), lighter).unwrap();
    let refused = held.check(&lighter, kn_m(2.0), kn(1.0)).unwrap_err();
    assert_eq!(refused.field(), "limit state");
    assert!(held.check(&actions, kn_m(f64::NAN), kn(1.0)).is_err());
}

/// The lean of the whole post in the ground comes apart into flexure, rotation
/// and movement, flexure as that of the cantilever.
#[test]
fn lean_of_a_response() {
    let post = PostModel::new(
        kn_sq_m(60.0),
        mm(300.0),
        m(1.0),
        Springs::growing(kn_per_cu_m(8_000.0)).unwrap(),
    )
    .unwrap()
    .standing(m(1.8))
    .unwrap();
    let wind = post
        .clone()
        .with_wind(m(0.0), m(1.8), kn_per_m(0.6))
        .unwrap();
    let response = wind.solve().unwrap();
    let lean = Lean::of_response(&response).unwrap();
    assert_relative_eq!(
        lean.total().value,
        response.lean().value,
        max_relative = 1e-12
    );
    let by_hand = Lean::of_wind(kn_per_m(0.6), m(1.8), kn_sq_m(60.0)).unwrap();
    assert_relative_eq!(
        lean.flexure().value,
        by_hand.flexure().value,
        max_relative = 1e-8
    );
    assert!(lean.movement() > mm(1.0) && lean.of_rotation() > mm(5.0));
    let response = post
        .clone()
        .with_force(m(1.2), kn(0.9))
        .unwrap()
        .solve()
        .unwrap();
    let lean = Lean::of_response(&response).unwrap();
    let by_hand = Lean::of_force(kn(0.9), m(1.2), m(1.8), kn_sq_m(60.0)).unwrap();
    assert_relative_eq!(
        lean.flexure().value,
        by_hand.flexure().value,
        max_relative = 1e-8
    );
    assert_relative_eq!(
        lean.against(1.0 / 60.0).unwrap().ratio(),
        lean.ratio() * 60.0,
        max_relative = 1e-12
    );
    for limit in [0.0, 1.0, f64::NAN] {
        assert!(lean.against(limit).is_err());
    }
    assert!(Lean::of_force(kn(1.0), m(2.0), m(1.8), kn_sq_m(60.0)).is_err());
    let flush = PostModel::new(
        kn_sq_m(60.0),
        mm(300.0),
        m(1.0),
        Springs::growing(kn_per_cu_m(8_000.0)).unwrap(),
    );
    let response = flush.unwrap().with_force(m(0.0), kn(1.0)).unwrap().solve();
    assert!(Lean::of_response(&response.unwrap()).is_none());
}

/// Loss of section never helps, and all of it is refused.
#[test]
fn loss_of_section() {
    let tube = Tube::new(inch(2.375), inch(0.154)).unwrap();
    let square = Square::new(inch(3.5)).unwrap();
    let (mut moment, mut modulus) = (f64::MAX, f64::MAX);
    for loss in [0.0, 0.01, 0.03, 0.1] {
        let left = tube.less_outside(inch(loss)).unwrap();
        assert_relative_eq!(
            left.inside_diameter().value,
            tube.inside_diameter().value,
            max_relative = 1e-12
        );
        let steel = SteelStrength::new(ksi(30.0)).unwrap();
        let now = PipePost::new(left, steel).unwrap().strength().moment.value;
        assert!(now < moment);
        moment = now;
        let left = square.less_each_face(inch(loss)).unwrap();
        assert!(left.section_modulus().value < modulus);
        modulus = left.section_modulus().value;
    }
    assert!(tube.less_outside(inch(0.154)).is_err());
    assert!(tube.less_outside(inch(-0.01)).is_err());
    assert!(square.less_each_face(inch(1.75)).is_err());
    assert!(square.less_each_face(inch(f64::NAN)).is_err());
}
