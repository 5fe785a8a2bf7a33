//! The ground and the foundation at their limits: the last value on either side
//! of a rule, each caution with and without its reason, sets of factors, and
//! sections.

use approx::assert_relative_eq;
use groundline::actions::GroundlineActions;
use groundline::caution::{Caution, Cautions};
use groundline::combination::{Combination, WindUplift};
use groundline::foundation::*;
use groundline::ground::*;
use groundline::limit_state::*;
use groundline::profile::*;
use groundline::section::*;
use groundline::source;
use groundline::units::*;

fn told(cautions: Cautions, caution: Caution) -> bool {
    cautions.iter().any(|said| said == caution)
}

/// Increases of lateral bearing, alone and together.
#[test]
fn increases_of_bearing() {
    let (basic, third) = (
        AllowableStress::Basic,
        AllowableStress::AlternativeWithIncrease,
    );
    let soil = Ground::presumptive(SoilClass::Class4);
    let pole = soil.as_isolated_pole();
    let both = pole.allowing_both_increases();
    for (ground, level, factor) in [
        (soil, basic, Some(1.0)),
        (soil, third, Some(4.0 / 3.0)),
        (pole, basic, Some(2.0)),
        (pole, third, None),
        (both, basic, Some(2.0)),
        (both, third, Some(8.0 / 3.0)),
        (soil.allowing_both_increases(), third, Some(4.0 / 3.0)),
    ] {
        assert_eq!(ground.lateral_increase(level).ok(), factor);
    }
    for (ground, presumptive, isolated) in [
        (soil, true, false),
        (pole, true, true),
        // The vertical pressure is still that of the table.
        (soil.with_lateral(soil.lateral()), true, false),
        (Ground::given(soil.lateral()), false, false),
    ] {
        let cautions = ground.cautions();
        assert_eq!(told(cautions, Caution::PresumptiveSoil), presumptive);
        assert_eq!(told(cautions, Caution::IsolatedPole), isolated);
        for always in [
            Caution::BuriedUtilities,
            Caution::Frost,
            Caution::Slope,
            Caution::RetainedSoil,
        ] {
            assert!(told(cautions, always));
        }
    }
    for (number, class) in [(0, None), (1, Some(SoilClass::Class1)), (6, None)] {
        assert_eq!(SoilClass::from_number(number).ok(), class);
    }
    for (class, words) in SoilClass::ALL.into_iter().zip([
        "crystalline",
        "sedimentary",
        "sandy gravel",
        "silty sand",
        "sandy clay",
    ]) {
        assert!(class.description().contains(words));
        assert_eq!(class.to_string(), class.description());
    }
}

/// Each way to found a post, its cautions, what is dug, and what a change
/// keeps.
#[test]
fn ways_to_found_a_post() {
    let post = PostSection::from(Square::new(inch(3.5)).unwrap());
    let big = PostSection::from(Square::new(inch(9.0)).unwrap());
    let hole = Hole::round(inch(12.0)).unwrap();
    let concrete = Foundation::concrete(hole, post).unwrap();
    let backfilled = Foundation::backfilled(hole, post).unwrap();
    let driven = Foundation::driven(post);
    let bare = Foundation::bare(post);
    for (foundation, cures, loose, hole_of, dug) in [
        (concrete, true, false, Some(hole), Some(hole)),
        (backfilled, false, true, None, Some(hole)),
        (driven, false, false, None, None),
        (bare, false, true, None, None),
    ] {
        let cautions = foundation.cautions();
        assert_eq!(told(cautions, Caution::Curing), cures);
        assert_eq!(told(cautions, Caution::Backfill), loose);
        assert!(!told(cautions, Caution::RigidPaving));
        let paved = foundation.restrained_by(Restraint::RigidPaving);
        assert!(told(paved.cautions(), Caution::RigidPaving));
        assert_eq!(foundation.hole().copied(), hole_of);
        assert_eq!(foundation.dug_hole().copied(), dug);
        assert_eq!(foundation.outline(), &post);
        // Another hole is for concrete alone, and must have room.
        let wider = Hole::square(inch(16.0)).unwrap();
        match foundation.in_hole(wider) {
            Ok(other) => {
                assert!(cures);
                assert_eq!(other.hole(), Some(&wider));
                assert_eq!(other.section(), &post);
            }
            Err(error) => assert!(!cures && error.field() == "hole"),
        }
        let narrow = Hole::round(inch(6.0)).unwrap();
        assert!(foundation.in_hole(narrow).is_err());
        // Another section, as long as the hole takes it.
        let other = foundation.with_section(big);
        assert_eq!(other.is_ok(), dug.is_none());
        if let Ok(other) = other {
            assert_eq!((other.section(), other.outline()), (&big, &big));
        }
        let sleeve = Square::new(inch(4.0)).unwrap();
        let sleeved = foundation.sleeved(sleeve).unwrap();
        assert_eq!(sleeved.section(), &post);
        assert_eq!(sleeved.outline(), &PostSection::from(sleeve));
        let huge = Square::new(inch(11.0)).unwrap();
        assert_eq!(foundation.sleeved(huge).is_ok(), dug.is_none());
    }
    // Backfilled, a hole need only take the post; with concrete, 2 in more.
    let diagonal = 3.5 * std::f64::consts::SQRT_2;
    for (size, backfill, pour) in [
        (diagonal - 0.001, false, false),
        (diagonal + 0.001, true, false),
        (diagonal + 1.999, true, false),
        (diagonal + 2.001, true, true),
    ] {
        let hole = Hole::round(inch(size)).unwrap();
        assert_eq!(Foundation::backfilled(hole, post).is_ok(), backfill);
        assert_eq!(Foundation::concrete(hole, post).is_ok(), pour);
    }
    for (size, backfill) in [(3.499, false), (3.501, true)] {
        let hole = Hole::square(inch(size)).unwrap();
        assert_eq!(Foundation::backfilled(hole, post).is_ok(), backfill);
    }
    assert_eq!(hole.resized(inch(20.0)).unwrap().shape(), HoleShape::Round);
    let square = Hole::square(inch(9.0)).unwrap();
    assert_eq!(
        square.resized(inch(20.0)).unwrap().shape(),
        HoleShape::Square
    );
    // Net concrete counts depths from none to 300 ft.
    let net = |depth: f64| concrete.concrete_volume(ft(depth)).to(cu_ft);
    assert_eq!(net(-1.0), 0.0);
    assert_eq!(net(400.0), net(300.0));
    let area = std::f64::consts::PI / 4.0 - 3.5 * 3.5 / 144.0;
    assert_relative_eq!(net(2.0), 2.0 * area, max_relative = 1e-12);
}

fn sand(weight: f64, saturated: f64, phi: f64) -> Soil {
    Soil::new(kn_per_cu_m(weight))
        .unwrap()
        .with_saturated_weight(kn_per_cu_m(saturated))
        .unwrap()
        .with_friction_angle(deg(phi))
        .unwrap()
}

/// Effective stress by hand: above, at and below bounds and water, with water
/// at a bound and at grade, above grade none, and on below the profile.
#[test]
fn stress_in_layers() {
    let profile = Profile::new(vec![
        Layer::new(m(1.0), sand(16.0, 18.0, 30.0)).unwrap(),
        Layer::new(m(2.0), sand(17.0, 20.0, 33.0)).unwrap(),
    ])
    .unwrap();
    let w = 9.806_65;
    let at = |water: Option<f64>, z: f64| {
        let profile = profile.clone();
        let profile = match water {
            Some(water) => profile.with_water_at(m(water)).unwrap(),
            None => profile,
        };
        profile.effective_stress(m(z)).to(kpa)
    };
    for (water, z, stress) in [
        (None, -1.0, 0.0),
        (None, 0.0, 0.0),
        (None, 0.5, 8.0),
        (None, 1.0, 16.0),
        (None, 2.0, 33.0),
        (None, 3.0, 50.0),
        (None, 5.0, 84.0),
        (Some(0.0), 1.0, 18.0 - w),
        (Some(0.0), 2.0, 38.0 - 2.0 * w),
        (Some(0.4), 0.3, 4.8),
        (Some(0.4), 1.0, 6.4 + 0.6 * (18.0 - w)),
        (Some(1.0), 1.0, 16.0),
        (Some(1.0), 2.0, 16.0 + 20.0 - w),
        (Some(2.5), 2.0, 33.0),
        (Some(2.5), 4.0, 16.0 + 25.5 + 1.5 * (20.0 - w)),
        (Some(9.0), 5.0, 84.0),
    ] {
        assert_relative_eq!(at(water, z), stress, max_relative = 1e-12);
    }
    // At a bound the lower soil bears; below the profile the last.
    let phi = |z: f64| profile.bearing_soil(m(z)).friction_angle().unwrap();
    for (z, angle) in [
        (0.0, 30.0),
        (0.999, 30.0),
        (1.0, 33.0),
        (3.0, 33.0),
        (50.0, 33.0),
    ] {
        assert_eq!(phi(z), deg(angle));
    }
    let ring = BearingSurface::Backfill(sand(15.0, 15.0, 28.0));
    let ringed = profile.clone().borne_by(ring).unwrap();
    assert_eq!(
        ringed.bearing_soil(m(2.0)).friction_angle(),
        Some(deg(28.0))
    );
    assert_eq!(ringed.surface(), &ring);
    assert_eq!(ringed.without_ring(), profile);
    let weak = BearingSurface::Backfill(Soil::new(kn_per_cu_m(15.0)).unwrap());
    assert!(profile.clone().borne_by(weak).is_err());
    assert!(Layer::new(m(1.0), Soil::new(kn_per_cu_m(15.0)).unwrap()).is_err());
    let clay = Soil::new(kn_per_cu_m(15.0))
        .unwrap()
        .with_undrained_strength(kpa(20.0))
        .unwrap();
    assert!(Layer::new(m(1.0), clay).is_ok());
    assert_eq!(clay.undrained_strength(), Some(kpa(20.0)));
    assert_eq!(clay.saturated_weight(), kn_per_cu_m(15.0), "as it is");
    assert_eq!(clay.source().id, source::GIVEN.id);
    // No layer or over a hundred are refused.
    let layer = Layer::new(m(1.0), clay).unwrap();
    for (count, taken) in [(0, false), (1, true), (100, true), (101, false)] {
        assert_eq!(Profile::new(vec![layer; count]).is_ok(), taken);
    }
    let topped = profile.clone().discounting_top(ft(20.0)).unwrap();
    assert_eq!((topped.dead_top(), topped.water()), (ft(20.0), None));
    assert!(profile.clone().discounting_top(ft(20.001)).is_err());
    assert_eq!(profile.layers().len(), 2);
    assert_eq!(profile.layers()[1].thickness(), m(2.0));
    assert_eq!(Profile::uniform(clay).unwrap().depth(), m(100.0));
}

/// k of the API sand curve at rows of its chart and halfway between (dry/wet).
#[test]
fn rows_of_the_sand_chart() {
    use groundline::profile::presumed::*;
    for (phi, dry, wet) in [
        (28.8, 10.0, 10.0),
        (29.5, 23.0, 20.0),
        (29.75, 34.0, 26.5),
        (30.5, 53.0, 37.5),
        (36.0, 160.0, 95.0),
        (39.5, 262.5, 148.0),
        (40.0, 275.0, 155.0),
    ] {
        for (below_water, k) in [(false, dry), (true, wet)] {
            let (found, of) = api_sand_stiffness(deg(phi), below_water).unwrap();
            assert_relative_eq!(found.to(lb_per_cu_in), k, max_relative = 1e-9);
            assert_eq!(of.id, source::API_SAND_STIFFNESS.id);
        }
    }
    assert!(api_sand_stiffness(deg(28.79), false).is_err());
    assert!(api_sand_stiffness(deg(40.01), false).is_err());
    let soil = default_sand().unwrap();
    assert_eq!(soil.water(), Some(ft(7.0)));
    let stiff = with_sand_stiffness(*soil.layers()[0].soil(), Density::Dense, true).unwrap();
    assert_eq!(
        stiff.stiffness(),
        Some(&Stiffness::Growing(lb_per_cu_in(40.0)))
    );
    assert_eq!(stiff.source().id, source::NCDOT_DEFAULT_SOIL.id);
}

/// Every set of factors and its source, own factors down to 0.1 of wind (0.78
/// for the alternative family), and what wind at a level keeps.
#[test]
fn sets_of_factors() {
    fn limits<L: groundline::combination::Combined>(level: L, least: f64) {
        let set = Combination::of(level);
        for (wind, taken) in [
            (least, true),
            (least - 1e-9, false),
            (3.0, true),
            (3.001, false),
        ] {
            assert_eq!(set.with_factors(wind, 1.0, 1.0).is_ok(), taken, "{level:?}");
        }
        for (dead, taken) in [(0.5, true), (0.499, false), (3.0, true), (3.001, false)] {
            assert_eq!(set.with_factors(1.0, dead, 1.0).is_ok(), taken);
        }
        for (relieving, taken) in [(0.0, true), (-0.001, false), (1.0, true), (1.001, false)] {
            assert_eq!(set.with_factors(1.0, 1.0, relieving).is_ok(), taken);
        }
        let own = set.with_factors(1.1, 1.2, 0.3).unwrap();
        assert_eq!((own.wind(), own.dead(), own.relieving()), (1.1, 1.2, 0.3));
        assert_eq!(own.source().id, source::GIVEN.id);
        assert_eq!(own.level(), level);
        assert_eq!(Combination::from(level), set);
    }
    use AllowableStress::{AlternativeWithIncrease, Basic};
    limits(Basic, 0.1);
    limits(AlternativeWithIncrease, 0.6 * 1.3);
    limits(LoadAndResistance, 0.1);
    limits(PartialFactor::Structure, 0.1);
    limits(PartialFactor::Equilibrium, 0.1);
    limits(UltimateCombined, 0.1);
    // 2 kN of wind and 1 kN of weight, by hand, at each set of its code.
    let (up, weight) = (kn(2.0), kn(1.0));
    let net = |factors: (f64, f64)| 2.0 * factors.0 - factors.1;
    let strength = WindUplift::new(up, Strength).unwrap();
    for (level, factors) in [
        (Basic, (0.6, 0.6)),
        (AlternativeWithIncrease, (0.78, 2.0 / 3.0)),
    ] {
        let set = Combination::of(level);
        let found = set.net_uplift(&strength, weight).unwrap().to(kn);
        assert_relative_eq!(found, net(factors), max_relative = 1e-12);
        assert_relative_eq!(
            strength.factored(&set).to(kn),
            2.0 * factors.0,
            max_relative = 1e-12
        );
    }
    let found = Combination::of(LoadAndResistance)
        .net_uplift(&strength, weight)
        .unwrap();
    assert_relative_eq!(found.to(kn), net((1.0, 0.9)), max_relative = 1e-12);
    // Wind already at allowable-stress level is not reduced again, whatever
    // was asked for; its own family limits what dead load relieves.
    for (own, asked, relieving) in [
        (Basic, Basic, 0.6),
        (Basic, AlternativeWithIncrease, 0.6),
        (AlternativeWithIncrease, Basic, 0.6),
        (AlternativeWithIncrease, AlternativeWithIncrease, 2.0 / 3.0),
    ] {
        let up = WindUplift::new(up, own).unwrap();
        let found = Combination::of(asked).net_uplift(&up, weight).unwrap();
        assert_relative_eq!(found.to(kn), net((1.0, relieving)), max_relative = 1e-12);
        let wind = GroundlineActions::new(kn(3.0), kn_m(4.0), kn(0.0), own).unwrap();
        let dead = groundline::actions::DeadEffects::NONE;
        let same = wind.combined(&dead, &Combination::of(asked));
        assert_eq!(same.level(), own);
        assert_eq!((same.shear(), same.moment()), (kn(3.0), kn_m(4.0)));
    }
}

/// Sections: formulas of geometry, loss of a layer all round, and which is
/// square.
#[test]
fn sections_and_their_loss() {
    let pi = std::f64::consts::PI;
    let disc = Disc::of_circumference(inch(10.0 * pi)).unwrap();
    assert_relative_eq!(disc.diameter().to(inch), 10.0, max_relative = 1e-12);
    assert_relative_eq!(
        disc.circumference().to(inch),
        10.0 * pi,
        max_relative = 1e-12
    );
    assert_relative_eq!(disc.area().to(sq_in), 25.0 * pi, max_relative = 1e-12);
    assert_relative_eq!(
        disc.shear_area().to(sq_in),
        18.75 * pi,
        max_relative = 1e-12
    );
    assert_relative_eq!(
        disc.second_moment().to(in4),
        pi * 1e4 / 64.0,
        max_relative = 1e-12
    );
    assert_relative_eq!(
        disc.section_modulus().to(cu_in),
        pi * 1e3 / 32.0,
        max_relative = 1e-12
    );
    for (girth, taken) in [(pi * 1.001, true), (pi * 0.999, false), (48.1 * pi, false)] {
        assert_eq!(Disc::of_circumference(inch(girth)).is_ok(), taken);
    }
    let square = Square::new(inch(6.0)).unwrap();
    assert_relative_eq!(
        square.diagonal().to(inch),
        6.0 * 2.0_f64.sqrt(),
        max_relative = 1e-12
    );
    assert_relative_eq!(square.area().to(sq_in), 36.0, max_relative = 1e-12);
    assert_relative_eq!(square.shear_area().to(sq_in), 24.0, max_relative = 1e-12);
    assert_relative_eq!(square.second_moment().to(in4), 108.0, max_relative = 1e-12);
    assert_relative_eq!(
        square.section_modulus().to(cu_in),
        36.0,
        max_relative = 1e-12
    );
    let tube = Tube::new(inch(4.0), inch(0.5)).unwrap();
    assert_relative_eq!(tube.inside_diameter().to(inch), 3.0, max_relative = 1e-12);
    assert_relative_eq!(tube.slenderness(), 8.0, max_relative = 1e-12);
    assert_relative_eq!(tube.area().to(sq_in), pi * 7.0 / 4.0, max_relative = 1e-12);
    assert_relative_eq!(
        tube.second_moment().to(in4),
        pi * 175.0 / 64.0,
        max_relative = 1e-12
    );
    assert_relative_eq!(
        tube.section_modulus().to(cu_in),
        pi * 175.0 / 128.0,
        max_relative = 1e-12
    );
    assert_relative_eq!(
        tube.plastic_modulus().to(cu_in),
        37.0 / 6.0,
        max_relative = 1e-12
    );
    let box_tube = SquareTube::new(inch(4.0), inch(0.25)).unwrap();
    assert_eq!(box_tube.corner_radius(), inch(0.5));
    assert_relative_eq!(
        box_tube.inside_radius().to(inch),
        0.25,
        max_relative = 1e-12
    );
    assert_relative_eq!(box_tube.inside().to(inch), 3.5, max_relative = 1e-12);
    // Side less 3 t, or the clear flat where corners are sharper.
    assert_relative_eq!(box_tube.flat_width().to(inch), 3.25, max_relative = 1e-12);
    assert_relative_eq!(box_tube.slenderness(), 13.0, max_relative = 1e-12);
    for (radius, inside, flat) in [
        (0.0, 0.0, 3.5),
        (0.25, 0.0, 3.5),
        (0.3, 0.05, 3.4),
        (1.0, 0.75, 3.25),
    ] {
        let tube = box_tube.with_corner_radius(inch(radius)).unwrap();
        assert_relative_eq!(tube.inside_radius().to(inch), inside, epsilon = 1e-12);
        assert_relative_eq!(tube.flat_width().to(inch), flat, max_relative = 1e-12);
    }
    for (radius, taken) in [(1.8, true), (1.801, false), (-0.001, false)] {
        assert_eq!(box_tube.with_corner_radius(inch(radius)).is_ok(), taken);
    }
    for (wall, round, boxed) in [
        (0.8, true, true),
        (0.81, true, false),
        (1.96, true, false),
        (1.97, false, false),
    ] {
        assert_eq!(Tube::new(inch(4.0), inch(wall)).is_ok(), round);
        assert_eq!(SquareTube::new(inch(4.0), inch(wall)).is_ok(), boxed);
    }
    // A layer lost: twice it from a side, once from a wall and a radius.
    let loss = inch(0.1);
    assert_relative_eq!(
        disc.less_outside(loss).unwrap().diameter().to(inch),
        9.8,
        max_relative = 1e-12
    );
    assert_relative_eq!(
        square.less_each_face(loss).unwrap().side().to(inch),
        5.8,
        max_relative = 1e-12
    );
    let less = tube.less_outside(loss).unwrap();
    assert_relative_eq!(less.diameter().to(inch), 3.8, max_relative = 1e-12);
    assert_relative_eq!(less.wall().to(inch), 0.4, max_relative = 1e-12);
    let less = box_tube.less_outside(loss).unwrap();
    assert_relative_eq!(less.side().to(inch), 3.8, max_relative = 1e-12);
    assert_relative_eq!(less.wall().to(inch), 0.15, max_relative = 1e-12);
    assert_relative_eq!(less.corner_radius().to(inch), 0.4, max_relative = 1e-12);
    let sharp = box_tube.with_corner_radius(inch(0.05)).unwrap();
    assert_eq!(sharp.less_outside(loss).unwrap().corner_radius(), inch(0.0));
    // Any of them as the section of a post.
    let any = [
        (
            PostSection::from(square),
            true,
            square.diagonal(),
            square.side(),
            square.area(),
        ),
        (
            PostSection::from(tube),
            false,
            inch(4.0),
            inch(4.0),
            sq_in(4.0 * pi),
        ),
        (
            PostSection::from(disc),
            false,
            inch(10.0),
            inch(10.0),
            disc.area(),
        ),
        (
            PostSection::from(box_tube),
            true,
            inch(4.0 * 2.0_f64.sqrt()),
            inch(4.0),
            // Less the corners outside quarter circles.
            sq_in(16.0 - (4.0 - pi) * 0.25),
        ),
    ];
    for (section, is_square, bearing, face, gross) in any {
        assert_eq!(section.is_square(), is_square);
        assert_relative_eq!(
            section.bearing_width().value,
            bearing.value,
            max_relative = 1e-12
        );
        assert_eq!(section.face_width(), face);
        assert_relative_eq!(
            section.gross_area().value,
            gross.value,
            max_relative = 1e-12
        );
    }
    let hollow = HollowSection::from(tube);
    assert_relative_eq!(
        hollow.section_modulus().value,
        tube.section_modulus().value,
        max_relative = 1e-12
    );
    assert_relative_eq!(
        hollow.shear_area().value,
        tube.shear_area().value,
        max_relative = 1e-12
    );
    assert_eq!(PostSection::from(hollow), PostSection::from(tube));
    let hollow = HollowSection::from(box_tube);
    assert_relative_eq!(
        hollow.section_modulus().value,
        box_tube.section_modulus().value,
        max_relative = 1e-12
    );
    assert_relative_eq!(
        hollow.shear_area().value,
        box_tube.shear_area().value,
        max_relative = 1e-12
    );
    assert_eq!(PostSection::from(hollow), PostSection::from(box_tube));
}
