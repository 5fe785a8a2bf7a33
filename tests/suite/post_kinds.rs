//! Square tube, round timber, aluminium, sleeves: by hand, and what must hold
//! of every kind of post.

use crate::samples::{pine, pipe};
use crate::worksheet::recompute;
use crate::worksheet_whole::closed;
use approx::assert_relative_eq;
use groundline::actions::GroundlineActions;
use groundline::caution::Caution;
use groundline::check::{PostCheck, PostDesign};
use groundline::foundation::Hole;
use groundline::ground::{Ground, SoilClass};
use groundline::limit_state::AllowableStress;
use groundline::post::*;
use groundline::section::*;
use groundline::units::*;
use proptest::prelude::*;

fn steel(fy: f64) -> SteelStrength {
    SteelStrength::new(ksi(fy)).unwrap()
}

/// A square tube of 6 in, its walls so slender; b = B − 3t.
fn tube_of(slenderness: f64) -> SquareTube {
    SquareTube::new(inch(6.0), inch(6.0 / (slenderness + 3.0))).unwrap()
}

/// Se by slices: the flange in compression cut to its effective width.
fn effective_modulus(tube: &SquareTube, lost: f64) -> f64 {
    let (side, wall) = (tube.side().to(inch), tube.wall().to(inch));
    // The strip that does not count lies in the wall at the top.
    let n = 20_000;
    let (mut a, mut first) = (tube.area().to(sq_in), 0.0);
    let mut second = tube.second_moment().to(in4);
    for k in 0..n {
        let y = side / 2.0 - wall * (f64::from(k) + 0.5) / f64::from(n);
        let slice = lost * wall / f64::from(n);
        a -= slice;
        first -= slice * y;
        second -= slice * y * y;
    }
    let middle = first / a;
    (second - a * middle * middle) / (side / 2.0 - middle)
}

/// F7 by hand, limits at Fy 50 as numbers: 26.97, 33.72, 58.3, 137.3, with the
/// webs, which never govern. From memory.
#[test]
fn walls_of_square_tubes() {
    let root = (29_000.0_f64 / 50.0).sqrt();
    let hand = |slenderness: f64| {
        let tube = tube_of(slenderness);
        let (s, z) = (
            tube.section_modulus().to(cu_in),
            tube.plastic_modulus().to(cu_in),
        );
        let (plastic, elastic) = (50.0 * z, 50.0 * s);
        let flange = if slenderness <= 26.97 {
            plastic
        } else if slenderness <= 33.72 {
            plastic - (plastic - elastic) * (3.57 * slenderness / root - 4.0)
        } else {
            let t = tube.wall().to(inch);
            let be = 1.92 * t * root * (1.0 - 0.38 / slenderness * root);
            50.0 * effective_modulus(&tube, slenderness * t - be)
        };
        let web = if slenderness <= 58.3 {
            plastic
        } else {
            plastic - (plastic - elastic) * (0.305 * slenderness / root - 0.738)
        };
        flange.min(web) / 1.67
    };
    for slenderness in [
        10.0, 20.0, 26.9, 27.2, 30.0, 33.6, 33.9, 45.0, 58.0, 59.0, 100.0, 137.0,
    ] {
        let post = SquareTubePost::new(tube_of(slenderness), steel(50.0)).unwrap();
        let ours = post.strength().moment.to(kip_in);
        assert_relative_eq!(ours, hand(slenderness), max_relative = 1e-6);
    }
    assert!(SquareTubePost::new(tube_of(137.2), steel(50.0)).is_ok());
    assert!(SquareTubePost::new(tube_of(137.4), steel(50.0)).is_err());
    // G4: yielding up to 1.10 √(5 E/Fy) = 59.2.
    let shear = |slenderness: f64| {
        let tube = tube_of(slenderness);
        let (b, t) = (tube.side().to(inch), tube.wall().to(inch));
        let post = SquareTubePost::new(tube, steel(50.0)).unwrap();
        post.strength().shear.to(kipf) * 1.67 / (2.0 * (b - 3.0 * t) * t)
    };
    assert_relative_eq!(shear(20.0), 30.0, max_relative = 1e-9);
    assert_relative_eq!(shear(59.0), 30.0, max_relative = 1e-9);
    let reach = 2_900.0_f64.sqrt();
    assert_relative_eq!(shear(65.0), 30.0 * 1.10 * reach / 65.0, max_relative = 1e-9);
    assert_relative_eq!(
        shear(90.0),
        30.0 * 1.51 * 2_900.0 / 8_100.0,
        max_relative = 1e-9
    );
}

/// EN 1993-1-1 from memory: 80x80x4 of S235 has Wpl 33.1 cm³, A 11.7 cm² as
/// tabled; class limits 33, 38, 42 ε.
#[test]
fn square_tubes_of_en1993() {
    let tube = SquareTube::new(mm(80.0), mm(4.0)).unwrap();
    let post = SquareTubeEn1993::new(tube, mpa(355.0)).unwrap();
    let holds = post.resistance();
    assert!((holds.moment.to(kn_m) - 0.355 * 33.1).abs() < 0.355 * 0.06);
    assert!((holds.shear.to(kn) - 11.7 * 35.5 / 2.0 / 3.0_f64.sqrt()).abs() < 0.6);
    assert_relative_eq!(
        holds.skew_moment.value * 2.0_f64.sqrt(),
        holds.moment.value,
        max_relative = 1e-12
    );
    let of = |slenderness: f64| SquareTubeEn1993::new(tube_of(slenderness), mpa(235.0));
    for (slenderness, class) in [(32.9, 1), (33.1, 2), (37.9, 2), (38.1, 3), (41.9, 3)] {
        let post = of(slenderness).unwrap();
        assert_eq!(post.class(), class);
        let modulus = if class < 3 {
            post.section().plastic_modulus()
        } else {
            post.section().section_modulus()
        };
        assert_relative_eq!(
            post.resistance().moment.to(kn_m),
            modulus.to(cu_mm) * 235e-6,
            max_relative = 1e-9
        );
    }
    assert!(of(42.1).is_err());
    // ε of 460 MPa is 0.715: 38 ε = 27.2, 42 ε = 30.0.
    let strong = |x: f64| SquareTubeEn1993::new(tube_of(x), mpa(460.0));
    assert_eq!(strong(27.4).unwrap().class(), 3);
    assert!(strong(30.1).is_err());
    assert!(SquareTubeEn1993::new(tube, mpa(f64::NAN)).is_err());
}

/// Round timber by hand, and CF of the square of the same area: 1 up to 13.5
/// in.
#[test]
fn round_timber_by_hand() {
    let of = |d: f64| {
        let section = Disc::new(inch(d)).unwrap();
        RoundTimber::new(section, lb_per_sq_in(1_500.0), lb_per_sq_in(100.0)).unwrap()
    };
    let held = of(8.0).strength();
    assert_relative_eq!(
        held.moment.to(lb_in),
        2_400.0 * 50.265_482,
        max_relative = 1e-7
    );
    // 4V/(3A) = 160 psi.
    assert_relative_eq!(
        held.shear.to(lb),
        160.0 * 50.265_482 * 0.75,
        max_relative = 1e-7
    );
    assert_eq!(held.moment, held.skew_moment);
    assert_eq!(of(13.5).factors().size, 1.0);
    let side = 20.0 * (std::f64::consts::PI / 4.0).sqrt();
    let expected = (12.0 / side).powf(1.0 / 9.0);
    assert_relative_eq!(of(20.0).factors().size, expected, max_relative = 1e-12);
    // CF is on bending alone.
    let mut factors = *of(8.0).factors();
    factors.size = 0.5;
    let small = of(8.0).with_factors(factors).unwrap().strength();
    assert_eq!(small.shear, held.shear);
    assert_relative_eq!(
        small.moment.value,
        held.moment.value / 2.0,
        max_relative = 1e-12
    );
    // Fibre strengths of poles are refused.
    let section = Disc::new(inch(8.0)).unwrap();
    assert!(RoundTimber::new(section, lb_per_sq_in(8_000.0), lb_per_sq_in(100.0)).is_err());
    assert_eq!(Post::from(of(8.0)).rigidity(), None);
    let stiff = of(8.0).with_modulus(ksi(1_500.0)).unwrap();
    let rigidity = Post::from(stiff).rigidity().unwrap();
    assert_relative_eq!(
        rigidity.to(lb_sq_in),
        1.5e6 * 201.061_93,
        max_relative = 1e-7
    );
}

/// E' enters by its own three factors, and CD not at all.
#[test]
fn modulus_of_timber() {
    let post = pine(3.5);
    // 1 400 ksi times 0.9; I of 3.5 in is 12.505 in⁴.
    assert_relative_eq!(
        post.adjusted_modulus().unwrap().to(ksi),
        1_260.0,
        max_relative = 1e-12
    );
    let rigidity = Post::from(post).rigidity().unwrap();
    assert_relative_eq!(
        rigidity.to(lb_sq_in),
        1.26e6 * 12.505_2,
        max_relative = 1e-5
    );
    for (change, share) in [
        ((|f| f.wet_modulus *= 0.5) as fn(&mut TimberFactors), 0.5),
        (|f| f.temperature_modulus *= 0.5, 0.5),
        (|f| f.incising_modulus *= 0.5, 0.5),
        (|f| f.load_duration *= 0.5, 1.0),
        (|f| f.incising *= 0.5, 1.0),
        (|f| f.temperature *= 0.5, 1.0),
    ] {
        let mut factors = *post.factors();
        change(&mut factors);
        let changed = post
            .with_factors(factors)
            .unwrap()
            .adjusted_modulus()
            .unwrap();
        assert_relative_eq!(
            changed.value,
            post.adjusted_modulus().unwrap().value * share,
            max_relative = 1e-12
        );
    }
    // Timbers lose nothing wet; incised 5 %.
    let big = crate::samples::timber(Species::DouglasFirLarch, 5.5, Treatment::Incised);
    assert_relative_eq!(big.adjusted_modulus().unwrap().to(ksi), 1_300.0 * 0.95);
}

/// Aluminium by hand: 6063-T6, 25 and 30 ksi: yielding 15.15, rupture 15.38 ksi;
/// 6061-T6, 35 and 38: rupture governs, 19.49. From memory.
#[test]
fn aluminium_by_hand() {
    let section = catalogue::ALUMINIUM[0].section().unwrap();
    // Sharp corners: I = (2⁴ − 1.75⁴)/12, Z = (2³ − 1.75³)/4.
    let (i, z) = (
        (16.0 - 1.75_f64.powi(4)) / 12.0,
        (8.0 - 1.75_f64.powi(3)) / 4.0,
    );
    for (alloy, temper, stress) in [
        (Alloy::A6063T6, Temper::Unwelded, 25.0 / 1.65),
        (Alloy::A6063T6, Temper::Welded, 8.0 / 1.65),
        (Alloy::A6061T6, Temper::Unwelded, 38.0 / 1.95),
        (Alloy::A6061T6, Temper::Welded, 11.0 / 1.65),
    ] {
        let post = AluminiumPost::new(section, Aluminium::of(alloy, temper)).unwrap();
        let held = post.strength();
        assert_relative_eq!(held.moment.to(kip_in), stress * i, max_relative = 1e-9);
        let shear = 0.6 * stress * 4.0 * i * 0.125 / z;
        assert_relative_eq!(held.shear.to(kipf), shear, max_relative = 1e-9);
        assert_relative_eq!(
            post.rigidity().to(lb_sq_in),
            1.01e7 * i,
            max_relative = 1e-9
        );
    }
    // Limits: flats 20 √(35/Fty) to 22, rounds 40 √(35/Fty) to 44; a weld
    // does not raise them.
    let square = |b: f64, alloy, temper| {
        AluminiumPost::new(tube_of(b), Aluminium::of(alloy, temper)).is_ok()
    };
    let round = |r: f64, alloy| {
        let tube = Tube::new(inch(4.0), inch(4.0 / r)).unwrap();
        AluminiumPost::new(tube, Aluminium::of(alloy, Temper::Unwelded)).is_ok()
    };
    assert!(square(21.9, Alloy::A6063T6, Temper::Unwelded));
    assert!(!square(22.1, Alloy::A6063T6, Temper::Unwelded));
    assert!(!square(22.1, Alloy::A6063T6, Temper::Welded));
    assert!(square(19.9, Alloy::A6061T6, Temper::Unwelded));
    assert!(!square(20.1, Alloy::A6061T6, Temper::Welded));
    assert!(round(43.9, Alloy::A6063T6) && !round(44.1, Alloy::A6063T6));
    assert!(round(39.9, Alloy::A6061T6) && !round(40.1, Alloy::A6061T6));
    // The light extrusion of gardens is refused.
    let light = SquareTube::new(inch(2.0), inch(0.0625)).unwrap();
    assert!(AluminiumPost::new(light, Aluminium::of(Alloy::A6063T6, Temper::Unwelded)).is_err());
    for tube in &catalogue::ALUMINIUM {
        assert!(
            tube.post(Aluminium::of(Alloy::A6061T6, Temper::Unwelded))
                .is_ok()
        );
    }
}

/// Timber of values given, E among them.
fn own_timber() -> TimberPost {
    let values = DesignValues::new(ksi(0.9), lb_per_sq_in(150.0), SizeClass::Timbers).unwrap();
    let values = values.with_modulus(ksi(1_100.0)).unwrap();
    assert_eq!(values.modulus_mark(), Some(groundline::source::Mark::Given));
    let section = Square::new(inch(5.5)).unwrap();
    TimberPost::new(section, values, Moisture::Wet, Treatment::NotIncised).unwrap()
}

/// One post of each kind.
fn kinds() -> Vec<Post> {
    let given = Aluminium::given(ksi(16.0), ksi(30.0)).unwrap();
    let round = RoundTimber::new(
        Disc::new(inch(6.0)).unwrap(),
        lb_per_sq_in(1_500.0),
        lb_per_sq_in(110.0),
    );
    let sleeve = Sleeve::new(inch(8.0), inch(0.14)).unwrap();
    let own = GivenPost::new(
        PostSection::from(tube_of(20.0)),
        lb_ft(4_000.0),
        lb(9_000.0),
    );
    let bare: Vec<Post> = vec![
        pine(3.5).into(),
        own_timber().into(),
        pipe(2.875, 0.16).into(),
        own.unwrap().with_rigidity(kn_sq_m(50.0)).unwrap().into(),
        SquareTubePost::new(tube_of(20.0), steel(46.0))
            .unwrap()
            .into(),
        SquareTubePost::new(tube_of(30.0), steel(50.0))
            .unwrap()
            .into(),
        SquareTubePost::new(tube_of(50.0), steel(50.0))
            .unwrap()
            .into(),
        SquareTubePost::new(tube_of(80.0), steel(50.0))
            .unwrap()
            .into(),
        round.unwrap().with_modulus(ksi(1_400.0)).unwrap().into(),
        AluminiumPost::new(tube_of(18.0), given).unwrap().into(),
        AluminiumPost::new(
            Tube::new(inch(3.0), inch(0.125)).unwrap(),
            Aluminium::of(Alloy::A6061T6, Temper::Welded),
        )
        .unwrap()
        .into(),
    ];
    let sleeved = bare.clone().into_iter().map(|post| {
        let post = SleevedPost::new(sleeve, post).unwrap();
        Post::from(post)
    });
    bare.iter().copied().chain(sleeved).collect()
}

/// Every kind in a hole: its sheet recomputes, its skew moment is that of its
/// shape, its cautions are said.
#[test]
fn every_kind_is_checked() {
    let ground = Ground::presumptive(SoilClass::Class4);
    let hole = Hole::round(inch(16.0)).unwrap();
    let load = GroundlineActions::new(lb(300.0), lb_ft(1_000.0), lb(50.0), AllowableStress::Basic)
        .unwrap();
    for post in kinds() {
        let design = PostDesign::in_concrete(ground, post, hole).unwrap();
        let check = PostCheck::of_actions(&design, &load, Some(inch(48.0))).unwrap();
        for system in [UnitSystem::Us, UnitSystem::Si] {
            let sheet = check.worksheet("post", system);
            closed(&sheet);
            for step in sheet.steps() {
                recompute(step, system);
            }
            let shown = |symbol: &str| {
                let step = sheet.steps().filter(|step| step.symbol == symbol).last();
                step.unwrap().result
            };
            assert_eq!(
                shown("Mr").quantity::<Torque>().unwrap(),
                post.strength().moment
            );
            assert_eq!(
                shown("Vr").quantity::<Force>().unwrap(),
                post.strength().shear
            );
        }
        let strength = post.strength();
        let share = strength.skew_moment.value / strength.moment.value;
        let expected = if post.section().is_square() {
            0.5_f64.sqrt()
        } else {
            1.0
        };
        assert_relative_eq!(share, expected, max_relative = 1e-12);
        assert!(post.rigidity().unwrap() > n_sq_m(1_000.0), "{post:?}");

        let cautions = check.cautions();
        let (bare, sleeved) = match post {
            Post::Sleeved(sleeved) => (Post::from(*sleeved.insert()), true),
            bare => (bare, false),
        };
        let timber = matches!(bare, Post::Timber(_) | Post::RoundTimber(_));
        assert_eq!(cautions.contains(Caution::TimberTreatment), timber);
        assert_eq!(cautions.contains(Caution::Sleeve), sleeved);
        assert!(matches!(bare, Post::Given(_)) || cautions.contains(Caution::FromMemory));
        assert_eq!(bare.strength(), post.strength());
        assert_eq!(bare.section(), post.section());
        assert_eq!(bare.rigidity(), post.rigidity());
    }
}

/// E I of steel by hand: 29 000 ksi.
#[test]
fn rigidity_of_steel() {
    let tube = catalogue::SQUARE_TUBES[6].post().unwrap();
    // I as the AISC Manual prints it, from memory: 7.80 in⁴.
    let rigidity = Post::from(tube).rigidity().unwrap();
    assert_relative_eq!(rigidity.to(lb_sq_in), 29e6 * 7.80, max_relative = 1e-3);
    // A pipe of 2.375 × 0.154 in: 0.6657 in⁴.
    let rigidity = Post::from(pipe(2.375, 0.154)).rigidity().unwrap();
    assert_relative_eq!(rigidity.to(lb_sq_in), 29e6 * 0.6657, max_relative = 2e-4);
    let own = GivenPost::new(PostSection::from(tube_of(20.0)), lb_ft(1e3), lb(1e3)).unwrap();
    assert_eq!(Post::from(own).rigidity(), None);
    let own = own.with_rigidity(kn_sq_m(12.0)).unwrap();
    assert_eq!(Post::from(own).rigidity(), Some(kn_sq_m(12.0)));
}

#[test]
fn sleeves() {
    let insert: Post = pine(3.5).into();
    let four = Sleeve::new(inch(4.0), inch(0.135)).unwrap();
    let post = SleevedPost::new(four, insert).unwrap();
    assert_eq!(Post::from(*post.insert()), insert);
    assert_eq!(post.sleeve().outside(), inch(4.0));
    let tight = Sleeve::new(inch(3.77), inch(0.135)).unwrap();
    assert_eq!(
        SleevedPost::new(tight, insert).unwrap_err().field(),
        "insert"
    );
    assert!(SleevedPost::new(four, pine(5.5).into()).is_err());
    let twice = SleevedPost::new(Sleeve::new(inch(9.0), inch(0.2)).unwrap(), post.into());
    assert_eq!(twice.unwrap_err().field(), "insert");
    // Steel rusts: 0.6 mm in 50 years.
    assert_eq!(SteelStrength::loss_in_undisturbed_soil(), mm(0.6));
    assert!(SteelStrength::source_of_loss().document.contains("1993-5"));
}

proptest! {
    /// A thicker or a stronger tube is never weaker, a rusted one never
    /// stronger; load and resistance factors hold 1.67 times 0.90 as much.
    #[test]
    fn steel_tubes_are_monotone(b in 8.0..120.0_f64, more in 1.001..1.2_f64, fy in 25.0..70.0_f64) {
        let post = |b: f64, fy: f64| SquareTubePost::new(tube_of(b), steel(fy));
        let Ok(weak) = post(b, fy) else { return Ok(()) };
        let stronger = post(b / more, fy).unwrap();
        let (one, other) = (weak.strength(), stronger.strength());
        // The moment may step down by 0.2 % where the flange turns slender.
        prop_assert!(other.moment.value > one.moment.value * 0.998, "{b} {fy} {more}");
        prop_assert!(other.shear > one.shear);
        let design = weak.design_strength();
        prop_assert!((design.moment.value / one.moment.value - 1.503).abs() < 1e-9);
        prop_assert!((design.shear.value / one.shear.value - 1.503).abs() < 1e-9);
        let rusted = tube_of(b).less_outside(tube_of(b).wall() * (more - 1.0));
        if let Ok(left) = rusted.and_then(|tube| SquareTubePost::new(tube, steel(fy))) {
            prop_assert!(left.strength().moment < one.moment);
            prop_assert!(left.strength().shear < one.shear);
        }
    }

    /// So of rounds and aluminium.
    #[test]
    fn others_are_monotone(size in 2.0..12.0_f64, more in 1.001..1.5_f64) {
        let round = |d: f64| {
            let section = Disc::new(inch(d)).unwrap();
            RoundTimber::new(section, ksi(1.5), lb_per_sq_in(110.0)).unwrap().strength()
        };
        let metal = Aluminium::of(Alloy::A6061T6, Temper::Unwelded);
        let square = |wall: f64| {
            let tube = SquareTube::new(inch(size), inch(size * wall)).unwrap();
            AluminiumPost::new(tube, metal).unwrap().strength()
        };
        for (one, other) in [(round(size), round(size * more)), (square(0.1), square(0.1 * more))] {
            prop_assert!(other.moment > one.moment && other.shear > one.shear);
        }
    }
}
