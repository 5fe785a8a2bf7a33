//! Weight with bending, and frost, on the kinds of post that are not pipe or
//! square timber.

use crate::site_checks::used;
use crate::worksheet::recompute;
use approx::assert_relative_eq;
use groundline::check::*;
use groundline::fence::*;
use groundline::foundation::Hole;
use groundline::ground::*;
use groundline::plan::FencePlan;
use groundline::post::*;
use groundline::section::*;
use groundline::step::Worksheet;
use groundline::units::*;
use groundline::wind::*;

fn square_tube(side: f64, wall: f64) -> SquareTubePost {
    let section = SquareTube::new(inch(side), inch(wall)).unwrap();
    SquareTubePost::new(section, SteelStrength::new(ksi(46.0)).unwrap()).unwrap()
}

/// Every line of its working recomputes.
fn recomputes(both: &AxialBending) {
    for system in [UnitSystem::Us, UnitSystem::Si] {
        let mut sheet = Worksheet::new("", system);
        both.write(&mut sheet);
        assert!(sheet.steps().count() > 2);
        for step in sheet.steps() {
            recompute(step, system);
        }
    }
}

/// AISC 360 E3 and H1-1b (from memory), in kip and inches.
#[test]
fn a_square_tube_by_hand() {
    let post = square_tube(4.0, 0.233);
    let both = AxialBending::new(
        &post.into(),
        &AxialOptions::default(),
        lb(2_000.0),
        used(0.6),
        ft(7.5),
    )
    .unwrap();
    let section = post.section();
    let area = section.area().to(sq_in);
    let radius = (section.second_moment().to(in4) / area).sqrt();
    let slenderness = 2.1 * 90.0 / radius;
    let euler = std::f64::consts::PI.powi(2) * 29_000.0 / slenderness.powi(2);
    // 46/euler is beyond 2.25 above KL/r of 118.
    assert!(slenderness > 118.3);
    let capacity = 0.877 * euler * area / 1.67;
    assert_relative_eq!(both.capacity.to(kipf), capacity, max_relative = 1e-12);
    let raised = 0.6 / (1.0 - 1.6 * 2.0 / (euler * area));
    let by_hand = 2.0 / (2.0 * capacity) + raised;
    assert_eq!(both.form, AxialForm::SteelLight);
    assert_relative_eq!(both.utilization.ratio(), by_hand, max_relative = 1e-12);
    assert_eq!(both.effective, 1.0);
    recomputes(&both);
}

/// b/t beyond 1.40 √(29 000/46) = 35.15 is slender in compression.
#[test]
fn a_square_tube_slender_in_compression_is_refused() {
    let both = |side, wall| {
        let post = square_tube(side, wall).into();
        AxialBending::new(
            &post,
            &AxialOptions::default(),
            lb(100.0),
            used(0.5),
            ft(7.0),
        )
    };
    // b/t = side/wall − 3: 35.1 and 35.3.
    assert!(both(3.81, 0.1).is_ok());
    assert!(both(3.83, 0.1).is_err());
}

/// NDS 3.7.3: a round column is designed as a square one of the same area.
#[test]
fn round_timber_is_a_square_of_its_area() {
    let side = inch(5.5);
    let diameter = side * (4.0 / std::f64::consts::PI).sqrt();
    let (fb, fv) = (lb_per_sq_in(1_500.0), lb_per_sq_in(110.0));
    let round = RoundTimber::new(Disc::new(diameter).unwrap(), fb, fv).unwrap();
    let values = DesignValues::new(fb, fv, SizeClass::Timbers).unwrap();
    let section = Square::new(side).unwrap();
    let square = TimberPost::new(section, values, Moisture::Wet, Treatment::NotIncised).unwrap();
    let values = CompressionValues::new(lb_per_sq_in(700.0), ksi(470.0)).unwrap();
    let options = AxialOptions::default().with_timber(values);
    let of = |post: Post| AxialBending::new(&post, &options, lb(900.0), used(0.7), ft(7.0));
    let (round, square) = (of(round.into()).unwrap(), of(square.into()).unwrap());
    assert_relative_eq!(round.slenderness, square.slenderness, max_relative = 1e-12);
    assert_relative_eq!(
        round.capacity.to(lb),
        square.capacity.to(lb),
        max_relative = 1e-12
    );
    assert_relative_eq!(
        round.utilization.ratio(),
        square.utilization.ratio(),
        max_relative = 1e-12
    );
    recomputes(&round);
    let bare = AxialOptions::default();
    let post: Post = RoundTimber::new(Disc::new(diameter).unwrap(), fb, fv)
        .unwrap()
        .into();
    assert!(AxialBending::new(&post, &bare, lb(900.0), used(0.7), ft(7.0)).is_err());
}

#[test]
fn aluminium_wants_a_capacity_and_a_sleeve_adds_nothing() {
    let section = SquareTube::new(inch(4.0), inch(0.25)).unwrap();
    let metal = Aluminium::of(Alloy::A6063T6, Temper::Unwelded);
    let aluminium: Post = AluminiumPost::new(section, metal).unwrap().into();
    let bare = AxialOptions::default();
    let of = |post: &Post, options: &AxialOptions| {
        AxialBending::new(post, options, lb(500.0), used(0.5), ft(7.0))
    };
    assert!(of(&aluminium, &bare).is_err());
    let given = bare.with_capacity(lb(5_000.0)).unwrap();
    let both = of(&aluminium, &given).unwrap();
    assert_relative_eq!(both.utilization.ratio(), 0.1 + 0.5, max_relative = 1e-12);
    recomputes(&both);
    let tube: Post = square_tube(4.0, 0.233).into();
    let sleeve = Sleeve::new(inch(5.0), inch(0.15)).unwrap();
    let sleeved: Post = SleevedPost::new(sleeve, tube).unwrap().into();
    assert_eq!(of(&sleeved, &bare).unwrap(), of(&tube, &bare).unwrap());
}

/// Frost grips the sleeve, which is wider than the insert.
#[test]
fn frost_grips_the_sleeve() {
    let tube: Post = square_tube(4.0, 0.233).into();
    let sleeve = Sleeve::new(inch(5.0), inch(0.15)).unwrap();
    let sleeved: Post = SleevedPost::new(sleeve, tube).unwrap().into();
    let lifts = |post: Post, concrete: bool| {
        let panel = Panel::new(ft(6.0)).unwrap();
        let fence = Fence::new(FenceRun::new(panel, ft(64.0), ft(8.0)).unwrap());
        let speed = BasicWindSpeed::strength_level(mph(105.0)).unwrap();
        let site = AsceSite::new(Edition::Asce7_22, speed, Exposure::B);
        let ground = Ground::presumptive(SoilClass::Class4);
        let design = if concrete {
            PostDesign::in_concrete(ground, post, Hole::round(inch(12.0)).unwrap()).unwrap()
        } else {
            PostDesign::bare(ground, post)
        };
        let frost = FrostOptions::new(inch(36.0), Grip::Given(kpa(65.0))).unwrap();
        let plan = FencePlan::new(site, fence, design)
            .with_planned_depth(ft(5.0))
            .with_site_checks(SiteChecks::default().with_frost(frost));
        let schedule = plan.schedule().unwrap();
        let post = schedule.post(4).unwrap();
        let Checked::Done(frost) = post.site.frost else {
            panic!("{:?}", post.site.frost);
        };
        frost.balance.lifts
    };
    let by_hand = |perimeter: Length| kpa(65.0) * perimeter * inch(36.0);
    let near = |a: Force, b: Force| assert_relative_eq!(a.to(lb), b.to(lb), max_relative = 1e-12);
    near(lifts(tube, false), by_hand(inch(16.0)));
    near(lifts(sleeved, false), by_hand(inch(20.0)));
    let hole = by_hand(inch(12.0) * std::f64::consts::PI);
    near(lifts(tube, true), hole);
    near(lifts(sleeved, true), hole);
}
