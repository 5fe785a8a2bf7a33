//! Posts on the edges of their rules: classes of walls, tables, sleeves, and what
//! is refused.

use approx::assert_relative_eq;
use groundline::post::*;
use groundline::section::*;
use groundline::source::Mark;
use groundline::units::*;

/// The label of a row names its species and grade, and no other row's: post and
/// timber sizes.
#[test]
fn rows_of_the_tables() {
    let species = [
        (Species::SouthernPine, "Southern Pine"),
        (Species::DouglasFirLarch, "Douglas Fir-Larch"),
        (Species::HemFir, "Hem-Fir"),
        (Species::SprucePineFir, "Spruce-Pine-Fir"),
        (Species::WesternCedars, "Western Cedars"),
    ];
    let mut labels = Vec::new();
    for (kind, words) in species {
        for (grade, number) in [(Grade::No1, "No.1"), (Grade::No2, "No.2")] {
            for side in [3.5, 5.5] {
                let values = DesignValues::of(kind, grade, inch(side)).unwrap();
                assert!(values.label().starts_with(words) && values.label().contains(number));
                assert_eq!(values.label().contains("timbers"), side > 5.0);
                let pine = kind == Species::SouthernPine;
                let class = match (side > 5.0, pine) {
                    (false, false) => SizeClass::Dimension,
                    (false, true) => SizeClass::SouthernPineDimension,
                    (true, false) => SizeClass::Timbers,
                    (true, true) => SizeClass::SouthernPineTimbers,
                };
                assert_eq!(values.class(), class);
                assert_eq!(class.is_timbers(), side > 5.0);
                // No better grade is weaker.
                assert!(values.bending() > values.shear());
                labels.push(values.label());
            }
        }
    }
    let count = labels.len();
    labels.sort_unstable();
    labels.dedup();
    // One row of Table 4A holds both grades of spruce-pine-fir (from memory).
    assert_eq!((labels.len(), count), (19, 20));
    let both = |grade| DesignValues::of(Species::SprucePineFir, grade, inch(3.5)).unwrap();
    assert_eq!(both(Grade::No1), both(Grade::No2));
    assert!(both(Grade::No1).label().ends_with("No.1/No.2"));
    for (kind, _) in species {
        let of = |grade| DesignValues::of(kind, grade, inch(5.5)).unwrap();
        let (one, two) = (of(Grade::No1), of(Grade::No2));
        assert!(one.bending() > two.bending());
        assert!(one.modulus().unwrap() >= two.modulus().unwrap());
    }
    // 4.25 in parts the tables.
    let class = |side: f64| DesignValues::of(Species::HemFir, Grade::No2, inch(side));
    assert_eq!(class(4.25).unwrap().class(), SizeClass::Timbers);
    assert_eq!(class(4.249).unwrap().class(), SizeClass::Dimension);
    let own = |fb: f64, fv: f64| {
        DesignValues::new(lb_per_sq_in(fb), lb_per_sq_in(fv), SizeClass::Timbers)
    };
    let values = own(100.0, 20.0).unwrap();
    assert_eq!((values.mark(), values.modulus()), (Mark::Given, None));
    assert_eq!(values.label(), "user's values");
    assert!(own(10_000.0, 2_000.0).is_ok());
    assert!(own(99.0, 50.0).is_err() && own(10_001.0, 50.0).is_err());
    assert!(own(900.0, 19.9).is_err() && own(900.0, 2_001.0).is_err());
    for (e, taken) in [
        (100.0, true),
        (99.0, false),
        (5_000.0, true),
        (5_001.0, false),
    ] {
        assert_eq!(values.with_modulus(ksi(e)).is_ok(), taken);
    }
}

/// EN 1993-1-1 at the limits of its classes, and what each holds: Wpl fy or Wel
/// fy, 2A/π and A/2 of shear over √3.
#[test]
fn classes_of_en1993() {
    let fy = 235.0;
    let tube = |r: f64| Tube::new(mm(100.0), mm(100.0 / r)).unwrap();
    for (r, class) in [(49.9, 1), (50.1, 2), (69.9, 2), (70.1, 3), (89.9, 3)] {
        let section = tube(r);
        let post = PipeEn1993::new(section, mpa(fy)).unwrap();
        assert_eq!(post.class(), class, "{r}");
        let modulus = if class == 3 {
            section.section_modulus()
        } else {
            section.plastic_modulus()
        };
        let held = post.resistance();
        assert_relative_eq!(
            held.moment.value,
            modulus.value * fy * 1e6,
            max_relative = 1e-9
        );
        assert_relative_eq!(held.skew_moment.value, held.moment.value);
        let shear = section.area().value * 2.0 / core::f64::consts::PI * fy * 1e6 / 3.0_f64.sqrt();
        assert_relative_eq!(held.shear.value, shear, max_relative = 1e-9);
    }
    assert!(PipeEn1993::new(tube(90.1), mpa(fy)).is_err());
    // ε² of 355 MPa is 0.662: the limits shrink with it.
    let of = |r: f64| PipeEn1993::new(tube(r), mpa(355.0)).unwrap().class();
    assert_eq!((of(33.0), of(33.2), of(46.2), of(46.5)), (1, 2, 2, 3));
    assert!(PipeEn1993::new(tube(59.7), mpa(355.0)).is_err());
    for (fy, taken) in [(140.0, true), (139.0, false), (700.0, true), (701.0, false)] {
        assert_eq!(PipeEn1993::new(tube(20.0), mpa(fy)).is_ok(), taken);
        let square = SquareTube::new(mm(80.0), mm(8.0)).unwrap();
        assert_eq!(SquareTubeEn1993::new(square, mpa(fy)).is_ok(), taken);
    }
}

/// Aluminium: the lesser of Fty/1.65 and Ftu/1.95, on either side of where they
/// meet, Ftu/Fty = 1.95/1.65; walls to their limits; shear 0.6 of it.
#[test]
fn aluminium_on_the_edge() {
    let tube = |r: f64| Tube::new(inch(3.0), inch(3.0 / r)).unwrap();
    for (fty, ftu) in [(30.0, 36.0), (30.0, 35.0), (20.0, 40.0), (33.0, 33.0)] {
        let metal = Aluminium::given(ksi(fty), ksi(ftu)).unwrap();
        let section = tube(15.0);
        let strength = AluminiumPost::new(section, metal).unwrap().strength();
        let stress = f64::min(fty / 1.65, ftu / 1.95);
        assert_relative_eq!(
            strength.moment.to(kip_in),
            stress * section.section_modulus().to(cu_in),
            max_relative = 1e-9
        );
        assert_relative_eq!(
            strength.shear.to(kipf),
            0.6 * stress * section.shear_area().to(sq_in),
            max_relative = 1e-9
        );
        assert_eq!(metal.mark(), Mark::Given);
    }
    // At 35 ksi 40 and 20; weaker metal more, to 44 and 22; stronger less.
    for (fty, round, flat) in [
        (35.0, 40.0, 20.0),
        (10.0, 44.0, 22.0),
        (56.0, 31.623, 15.811),
    ] {
        let metal = Aluminium::given(ksi(fty), ksi(fty)).unwrap();
        for (by, taken) in [(0.999, true), (1.001, false)] {
            assert_eq!(AluminiumPost::new(tube(round * by), metal).is_ok(), taken);
            // The wall of that slenderness, by its own measure.
            let (mut low, mut high) = (0.1, 0.7);
            for _ in 0..60 {
                let wall = 0.5 * (low + high);
                let tube = SquareTube::new(inch(4.0), inch(wall)).unwrap();
                if tube.slenderness() > flat * by {
                    low = wall;
                } else {
                    high = wall;
                }
            }
            let section = SquareTube::new(inch(4.0), inch(high)).unwrap();
            assert_relative_eq!(section.slenderness(), flat * by, max_relative = 1e-9);
            assert_eq!(AluminiumPost::new(section, metal).is_ok(), taken);
        }
    }
    let given = |fty: f64, ftu: f64| Aluminium::given(ksi(fty), ksi(ftu)).is_ok();
    assert!(given(3.0, 3.0) && given(60.0, 80.0));
    assert!(!given(2.99, 9.0) && !given(60.1, 70.0) && !given(30.0, 29.9) && !given(30.0, 80.1));
}

/// Sleeves, given strengths and steel on both sides of their limits.
#[test]
fn limits_of_posts() {
    let sleeve = |side: f64, wall: f64| Sleeve::new(inch(side), inch(wall)).is_ok();
    assert!(sleeve(1.0, 0.01) && sleeve(24.0, 4.8));
    assert!(!sleeve(0.99, 0.01) && !sleeve(24.1, 1.0));
    assert!(!sleeve(5.0, 0.009) && !sleeve(5.0, 1.01));
    let outer = Sleeve::new(inch(5.0), inch(0.15)).unwrap();
    assert_relative_eq!(outer.inside().to(inch), 4.7, max_relative = 1e-12);
    let given = |side: f64| {
        let section = PostSection::Square(Square::new(inch(side)).unwrap());
        Post::from(GivenPost::new(section, lb_ft(900.0), lb(800.0)).unwrap())
    };
    assert!(SleevedPost::new(outer, given(4.69)).is_ok());
    assert!(SleevedPost::new(outer, given(4.7)).is_err());
    let sleeved = Post::from(SleevedPost::new(outer, given(4.0)).unwrap());
    assert_eq!(sleeved.strength(), given(4.0).strength());
    let wide = Sleeve::new(inch(9.0), inch(0.15)).unwrap();
    assert_eq!(
        SleevedPost::new(wide, sleeved).unwrap_err().field(),
        "insert"
    );
    let section = *PipePost::new(
        Tube::new(inch(2.375), inch(0.154)).unwrap(),
        SteelStrength::new(ksi(50.0)).unwrap(),
    )
    .unwrap()
    .section();
    let own = |moment: f64, shear: f64| {
        GivenPost::new(PostSection::Tube(section), lb_ft(moment), lb(shear)).is_ok()
    };
    assert!(own(1.0, 1.0) && own(1e7, 1e7));
    assert!(!own(0.99, 1.0) && !own(1.01e7, 1.0) && !own(9.0, 0.99) && !own(9.0, 1.01e7));
    for (fy, taken) in [(20.0, true), (19.9, false), (100.0, true), (100.1, false)] {
        assert_eq!(SteelStrength::new(ksi(fy)).is_ok(), taken);
    }
}

/// E of a round post by its factors, each by hand.
#[test]
fn stiffness_of_a_round_post() {
    let round = Disc::new(inch(6.0)).unwrap();
    let post = RoundTimber::new(round, lb_per_sq_in(1_950.0), lb_per_sq_in(160.0)).unwrap();
    assert_eq!(post.adjusted_modulus(), None);
    let post = post.with_modulus(ksi(1_500.0)).unwrap();
    assert_eq!(post.adjusted_modulus(), Some(ksi(1_500.0)));
    let mut factors = *post.factors();
    factors.temperature_modulus = 0.9;
    factors.incising_modulus = 0.95;
    factors.wet_modulus = 0.8;
    let hot = post.with_factors(factors).unwrap().adjusted_modulus();
    let by_hand = 1_500.0 * 0.9 * 0.95 * 0.8;
    assert_relative_eq!(hot.unwrap().to(ksi), by_hand, max_relative = 1e-12);
}

/// How the shear of a pipe buckles: 0.78 E/(D/t)^1.5 against 0.6 Fy, on either
/// side of where they meet, 82.8 at Fy 50, 130 at Fy 25.4; and the design
/// strengths are allowable ones by 1.67 × 0.90.
#[test]
fn shear_of_a_pipe() {
    for fy in [25.4_f64, 36.0, 50.0] {
        let meets = (0.78 * 29_000.0 / (0.6 * fy)).powf(2.0 / 3.0);
        for by in [0.5, 0.99, 1.01, 1.5] {
            let r = meets * by;
            let section = Tube::new(inch(20.0), inch(20.0 / r)).unwrap();
            let post = PipePost::new(section, SteelStrength::new(ksi(fy)).unwrap()).unwrap();
            let stress = f64::min(0.6 * fy, 0.78 * 29_000.0 / (r * r.sqrt()));
            let by_hand = stress * section.area().to(sq_in) / 2.0 / 1.67;
            let ours = post.strength();
            assert_relative_eq!(ours.shear.to(kipf), by_hand, max_relative = 1e-9);
            let design = post.design_strength();
            assert_relative_eq!(
                design.moment.value,
                ours.moment.value * 1.503,
                max_relative = 1e-9
            );
            assert_relative_eq!(
                design.shear.value,
                ours.shear.value * 1.503,
                max_relative = 1e-9
            );
        }
    }
}

/// Lean by statics: of wind, of a force, of shear and moment at grade, each a
/// bound of what bends above; and its limits.
#[test]
fn lean_by_hand() {
    let ei = n_sq_m(5e4);
    let wind = Lean::of_wind(n_per_m(200.0), m(2.0), ei).unwrap();
    assert_relative_eq!(
        wind.flexure().value,
        200.0 * 16.0 / 4e5,
        max_relative = 1e-12
    );
    let force = Lean::of_force(newton(300.0), m(1.5), m(2.0), ei).unwrap();
    let by_hand = 300.0 * 2.25 * (6.0 - 1.5) / 3e5;
    assert_relative_eq!(force.flexure().value, by_hand, max_relative = 1e-12);
    // V h at the top is a force there: P h³/(3 EI); an even wind M = V h/2 has w
    // h⁴/(8 EI), and the bound is not below it.
    let of = |v: f64, mo: f64, couples: f64| {
        let lean = Lean::of_grade(newton(v), n_m(mo), n_m(couples), m(2.0), ei);
        lean.unwrap().flexure().value
    };
    assert_relative_eq!(
        of(300.0, 600.0, 0.0),
        300.0 * 8.0 / 1.5e5,
        max_relative = 1e-12
    );
    assert!(of(400.0, 400.0, 0.0) >= 200.0 * 16.0 / 4e5);
    // A couple C at the top: C h²/(2 EI).
    assert_relative_eq!(of(0.0, 0.0, 50.0), 50.0 * 4.0 / 1e5, max_relative = 1e-12);
    for share in [0.05, 0.2, 0.33, 0.5, 0.6, 0.75, 0.9, 1.0] {
        let one = Lean::of_force(newton(300.0), m(2.0 * share), m(2.0), ei).unwrap();
        let bound = of(300.0, 600.0 * share, 0.0);
        assert!(bound >= one.flexure().value * (1.0 - 1e-12), "{share}");
    }
    let on = wind.with_ground(mm(3.0), rad(0.002)).unwrap();
    assert_relative_eq!(
        on.total().value,
        200.0 * 16.0 / 4e5 + 0.003 + 0.004,
        max_relative = 1e-12
    );
    assert_relative_eq!(on.ratio(), on.total().value / 2.0, max_relative = 1e-12);
    let used = on.against(0.01).unwrap();
    assert_relative_eq!(used.ratio(), on.ratio() / 0.01, max_relative = 1e-12);
    for (limit, taken) in [
        (0.001, true),
        (0.000_9, false),
        (0.25, true),
        (0.251, false),
    ] {
        assert_eq!(on.against(limit).is_ok(), taken);
    }
    let ground = |y: f64, turn: f64| wind.with_ground(m(y), rad(turn)).is_ok();
    assert!(ground(0.0, 0.0) && ground(1.0, 0.5));
    assert!(!ground(1.01, 0.0) && !ground(0.0, 0.51) && !ground(-0.01, 0.0));
    let height = |h: f64| Lean::of_wind(n_per_m(1.0), m(h), ei).is_ok();
    assert!(height(0.1) && height(30.0) && !height(0.099) && !height(30.1));
    let at = |a: f64| Lean::of_force(newton(1.0), m(a), m(2.0), ei).is_ok();
    assert!(at(0.0) && at(2.0) && !at(2.01) && !at(-0.01));
}

/// Factors of one's own stay with a post through any number of changes of its
/// section; those of the rules are worked anew.
#[test]
fn own_factors_stay() {
    let values = DesignValues::of(Species::DouglasFirLarch, Grade::No2, inch(5.5)).unwrap();
    let square = |side: f64| Square::new(inch(side)).unwrap();
    let ruled = TimberPost::new(square(13.5), values, Moisture::Wet, Treatment::Incised).unwrap();
    let mut own = *ruled.factors();
    own.load_duration = 1.25;
    let post = ruled.with_factors(own).unwrap();
    let twice = post.with(square(5.5), values).unwrap();
    let twice = twice.with(square(7.5), values).unwrap();
    assert_eq!(twice.factors(), &own);
    // Of the rules: a side of 13.5 in has CF below 1, one of 5.5 in has not.
    let anew = ruled.with(square(5.5), values).unwrap();
    assert!(ruled.factors().size < 1.0 && anew.factors().size == 1.0);
    assert_eq!(anew.factors().incising, 0.8);
    let back = anew.with(square(13.5), values).unwrap();
    assert_eq!(back, ruled);

    let disc = |d: f64| Disc::new(inch(d)).unwrap();
    let (fb, fv) = (lb_per_sq_in(1_500.0), lb_per_sq_in(120.0));
    let ruled = RoundTimber::new(disc(6.0), fb, fv).unwrap();
    let mut own = *ruled.factors();
    own.load_duration = 1.25;
    let post = ruled.with_factors(own).unwrap();
    let twice = post.with(disc(14.0), fb, fv).unwrap();
    let twice = twice.with(disc(7.0), fb, fv).unwrap();
    assert_eq!(twice.factors(), &own);
    let anew = ruled.with(disc(16.0), fb, fv).unwrap();
    assert_eq!(
        anew.factors(),
        RoundTimber::new(disc(16.0), fb, fv).unwrap().factors()
    );
}

/// A name of the catalogue is side by side by nominal wall, in inches: the wall
/// of steel is 0.93 of it (A500, rounded to a thousandth), of aluminium all.
#[test]
fn names_of_the_catalogue() {
    let number = |text: &str| -> f64 {
        let (whole, part) = text.split_once('-').unwrap_or(("0", text));
        let part = part.split_once('/').map_or_else(
            || part.parse::<f64>().unwrap(),
            |(a, b)| a.parse::<f64>().unwrap() / b.parse::<f64>().unwrap(),
        );
        whole.parse::<f64>().unwrap() + part
    };
    let sides = |name: &str| -> Vec<f64> { name.split('x').map(number).collect() };
    for tube in &catalogue::ALUMINIUM {
        let section = tube.section().unwrap();
        let (side, wall) = (section.side().to(inch), section.wall().to(inch));
        assert_eq!(
            sides(tube.name()),
            [side, side, wall].map(|x| (x * 1e9).round() / 1e9)
        );
        assert_eq!(section.corner_radius(), inch(0.0));
    }
    for tube in &catalogue::SQUARE_TUBES {
        let section = tube.section().unwrap();
        let name = sides(tube.name());
        assert_eq!(name[0], name[1]);
        assert_relative_eq!(section.side().to(inch), name[0], max_relative = 1e-12);
        assert!((section.wall().to(inch) - 0.93 * name[2]).abs() < 0.000_6);
        let steel = tube.post().unwrap().steel();
        assert_relative_eq!(steel.yield_strength().to(ksi), 46.0, max_relative = 1e-12);
    }
    for timber in &catalogue::TIMBERS {
        let name = sides(timber.name());
        assert_eq!(name[0], name[1]);
        assert_relative_eq!(timber.side().to(inch), name[0] - 0.5, max_relative = 1e-12);
    }
}
