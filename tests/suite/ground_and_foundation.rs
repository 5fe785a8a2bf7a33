//! The width that bears, the base, the concrete, and what the ground is asked,
//! by hand.

use crate::samples::{pine, pipe};
use approx::assert_relative_eq;
use groundline::actions::GroundlineActions;
use groundline::bearing::BearingCheck;
use groundline::caution::Caution;
use groundline::foundation::{Foundation, Hole, HoleShape, Restraint, SquareWidth};
use groundline::ground::{Ground, LateralBearing, SoilClass};
use groundline::limit_state::AllowableStress;
use groundline::post::Post;
use groundline::section::PostSection;
use groundline::source;
use groundline::step::Worksheet;
use groundline::units::{
    Area, Force, Measurable, UnitSystem, cu_ft, ft, inch, lb, lb_ft, psf, psf_per_ft, sq_ft, sq_in,
};

fn section(post: impl Into<Post>) -> PostSection {
    post.into().section()
}

/// b of IBC 1807.3.2.1: the diameter of a round, the diagonal of a square; its
/// face where the safer reading is chosen.
#[test]
fn bearing_width() {
    let square_post = section(pine(5.5));
    let round = Foundation::concrete(Hole::round(inch(16.0)).unwrap(), square_post).unwrap();
    let square = Foundation::concrete(Hole::square(inch(16.0)).unwrap(), square_post).unwrap();
    let bare = Foundation::bare(square_post);
    let bare_pipe = Foundation::bare(section(pipe(2.375, 0.13)));
    let diagonal = std::f64::consts::SQRT_2;
    for (foundation, width, face) in [
        (round, 16.0, 16.0),
        (square, 16.0 * diagonal, 16.0),
        (bare, 5.5 * diagonal, 5.5),
        (bare_pipe, 2.375, 2.375),
    ] {
        let b = |f: Foundation| f.bearing_width().width().to(inch);
        assert_relative_eq!(b(foundation), width, max_relative = 1e-12);
        let by_face = foundation.square_width(SquareWidth::Face);
        assert_relative_eq!(b(by_face), face, max_relative = 1e-12);
    }
    assert_eq!(round.hole().unwrap().shape(), HoleShape::Round);
    assert_eq!(square.hole().unwrap().size(), inch(16.0));
    assert!(bare.hole().is_none());
    assert_eq!(round.restraint(), Restraint::None);
    let paved = round.restrained_by(Restraint::RigidPaving);
    assert_eq!(paved.restraint(), Restraint::RigidPaving);
}

/// Net concrete: the hole less the post. By geometry.
#[test]
fn concrete_and_base() {
    let hole = Hole::round(inch(12.0)).unwrap();
    let disc = std::f64::consts::PI / 4.0;
    let with_timber = Foundation::concrete(hole, section(pine(3.5))).unwrap();
    assert_relative_eq!(
        with_timber.concrete_volume(ft(3.0)).to(cu_ft),
        3.0 * (disc - 3.5 * 3.5 / 144.0),
        max_relative = 1e-12
    );
    // A pipe is taken out whole: it is capped.
    let with_pipe = Foundation::concrete(hole, section(pipe(2.375, 0.13))).unwrap();
    assert_relative_eq!(
        with_pipe.concrete_volume(ft(3.0)).to(cu_ft),
        3.0 * disc * (1.0 - 2.375 * 2.375 / 144.0),
        max_relative = 1e-12
    );
    let base = |foundation: Foundation| -> Area { foundation.base_area() };
    assert_relative_eq!(base(with_pipe).to(sq_ft), disc, max_relative = 1e-12);
    assert_relative_eq!(
        base(Foundation::bare(section(pine(3.5)))).to(sq_in),
        12.25,
        max_relative = 1e-12
    );
    let square = Hole::square(ft(1.0)).unwrap();
    assert_relative_eq!(square.area().to(sq_ft), 1.0, max_relative = 1e-12);
    assert_relative_eq!(square.volume(ft(2.0)).to(cu_ft), 2.0, max_relative = 1e-12);
    assert!(
        Foundation::bare(section(pine(3.5)))
            .concrete_volume(ft(3.0))
            .to(cu_ft)
            == 0.0
    );
}

/// The least hole: the post's diagonal in a round one, its face in a square
/// one, and an inch around.
#[test]
fn a_post_must_fit_its_hole() {
    let post = section(pine(5.5));
    let fits = |hole: Hole| Foundation::concrete(hole, post).is_ok();
    let diagonal = 5.5 * std::f64::consts::SQRT_2;
    assert!(fits(Hole::round(inch(diagonal + 2.001)).unwrap()));
    assert!(!fits(Hole::round(inch(diagonal + 1.999)).unwrap()));
    assert!(fits(Hole::square(inch(7.501)).unwrap()));
    assert!(!fits(Hole::square(inch(7.499)).unwrap()));
}

#[test]
fn ground_as_given() {
    let ground = Ground::presumptive(SoilClass::Class5);
    assert_eq!(ground.class(), Some(SoilClass::Class5));
    assert!(!ground.is_isolated_pole() && ground.as_isolated_pole().is_isolated_pole());
    assert_eq!(ground.vertical(), Some(psf(1_500.0)));
    let own = ground.with_vertical_pressure(psf(2_500.0)).unwrap();
    assert_eq!(own.vertical(), Some(psf(2_500.0)));
    let lowered = ground.discounting_top(ft(1.0)).unwrap();
    assert_eq!(lowered.discounted_top(), ft(1.0));
    for class in SoilClass::ALL {
        assert_eq!(SoilClass::from_number(class.number()), Ok(class));
        assert!(class.description().len() > 10);
    }
    let lateral = Ground::given(SoilClass::Class5.lateral_bearing());
    assert_eq!(lateral.class(), None);
    assert_eq!(lateral.vertical(), None);
}

/// Weight over base, against the vertical pressure; none without one.
#[test]
fn vertical_bearing() {
    let foundation =
        Foundation::concrete(Hole::square(ft(1.5)).unwrap(), section(pine(5.5))).unwrap();
    let load = |weight: Force| {
        GroundlineActions::new(lb(500.0), lb_ft(2_000.0), weight, AllowableStress::Basic).unwrap()
    };
    let ground = Ground::presumptive(SoilClass::Class4);
    let check = BearingCheck::new(&load(lb(900.0)), &ground, &foundation).unwrap();
    assert_relative_eq!(check.demand.to(psf), 400.0, max_relative = 1e-12);
    assert_relative_eq!(check.utilization.ratio(), 0.2, max_relative = 1e-12);
    let none = Ground::given(SoilClass::Class4.lateral_bearing());
    assert!(BearingCheck::new(&load(lb(900.0)), &none, &foundation).is_none());
    // The table is cited where its value stands, and there alone; what it supposes of
    // the ground is said wherever a value of it is left.
    let own = |ground: Ground| ground.with_vertical_pressure(psf(2_500.0)).unwrap();
    let lateral = ground.with_lateral(LateralBearing::new(psf_per_ft(120.0)).unwrap());
    for (ground, source, presumed) in [
        (ground, &source::IBC_1806_2, true),
        (lateral, &source::IBC_1806_2, true),
        (own(ground), &source::GIVEN, true),
        (own(lateral), &source::GIVEN, false),
        (own(none), &source::GIVEN, false),
    ] {
        let check = BearingCheck::new(&load(lb(900.0)), &ground, &foundation).unwrap();
        assert_eq!(check.capacity_source, source);
        let mut sheet = Worksheet::new("", UnitSystem::Us);
        check.write(&mut sheet);
        let line = sheet.steps().find(|step| step.symbol == "qa").unwrap();
        assert_eq!(line.citation, Some(source));
        let said = ground.cautions().contains(Caution::PresumptiveSoil);
        assert_eq!(said, presumed);
    }
    // Given as the table has it, it is the table's; changed and changed back it is given.
    let same = ground.with_vertical_pressure(psf(2_000.0)).unwrap();
    assert_eq!(same, ground);
    let back = own(ground).with_vertical_pressure(psf(2_000.0)).unwrap();
    let check = BearingCheck::new(&load(lb(900.0)), &back, &foundation).unwrap();
    assert_eq!(check.capacity_source, &source::GIVEN);
}
