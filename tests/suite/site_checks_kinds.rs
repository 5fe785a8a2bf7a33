//! Weight with bending, and frost, on the kinds of post that are not pipe or
//! square timber.

use crate::site_checks::used;
use crate::worksheet::recompute;
use crate::worksheet_whole::closed;
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
        closed(&sheet);
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
    // Raised by its Euler load, E 10 100 ksi (Aluminum Design Manual, from memory).
    let second = section.second_moment().to(in4);
    let euler = std::f64::consts::PI.powi(2) * 10_100.0 * second / (2.1_f64 * 84.0).powi(2);
    let by_hand = 0.1 + 0.5 / (1.0 - 1.6 * 0.5 / euler);
    assert_relative_eq!(both.utilization.ratio(), by_hand, max_relative = 1e-12);
    // A post of given strength wants its EI.
    let outside = PostSection::SquareTube(section);
    let strong = GivenPost::new(outside, lb_ft(5_000.0), lb(5_000.0)).unwrap();
    assert!(of(&strong.into(), &given).is_err());
    let stiff = strong.with_rigidity(kn_sq_m(60.0)).unwrap();
    let both = of(&stiff.into(), &given).unwrap();
    recomputes(&both);
    assert!(both.utilization.ratio() > 0.6);
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

/// Turning ground in the Euler load: 1/Pe = 1/P0 + L/kt, by hand; and never less
/// used than fixed.
#[test]
fn soft_ground_lets_weight_tip_a_post() {
    let bare = AxialOptions::default();
    let values = CompressionValues::new(lb_per_sq_in(700.0), ksi(470.0)).unwrap();
    let with = bare.with_timber(values).with_capacity(lb(5_000.0)).unwrap();
    let pine = crate::samples::pine(5.5);
    let pipe = crate::samples::pipe(2.375, 0.154);
    let section = PostSection::from(Square::new(inch(3.5)).unwrap());
    let given = GivenPost::new(section, lb_ft(5_000.0), lb(5_000.0)).unwrap();
    let given = given.with_rigidity(kn_sq_m(60.0)).unwrap();
    for post in [
        pine.into(),
        pipe.into(),
        square_tube(4.0, 0.233).into(),
        Post::from(given),
    ] {
        let of = |options: &AxialOptions| {
            AxialBending::new(&post, options, lb(300.0), used(0.5), ft(7.0)).unwrap()
        };
        let fixed = of(&with);
        let mut last = fixed.utilization;
        for stiffness in [1e9, 300.0, 30.0, 10.0] {
            let turning = TurningStiffness::new(kn_m(stiffness)).unwrap();
            let soft = of(&with.on_ground(turning));
            assert!(soft.utilization.ratio() >= last.ratio() * (1.0 - 1e-6));
            last = soft.utilization;
            recomputes(&soft);
            let area = match post {
                Post::Pipe(pipe) => pipe.section().area(),
                Post::SquareTube(tube) => tube.section().area(),
                _ => post.section().gross_area(),
            };
            let load = |stress: Pressure| (stress * area).to(kn);
            let by_hand = 1.0 / (1.0 / load(fixed.euler) + 7.0 * 0.3048 / stiffness);
            assert_relative_eq!(load(soft.euler), by_hand, max_relative = 1e-9);
        }
    }
    for torque in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert!(TurningStiffness::new(kn_m(torque)).is_err());
    }
}

/// The amplification of a pipe in growing ground by the second-order solver:
/// moment at the foot with and without 1.6 times the weight.
#[test]
fn amplification_by_the_solver() {
    use groundline::response::{PostModel, Springs, closed_form};
    let pipe = crate::samples::pipe(2.375, 0.154);
    let (height, depth, nh) = (m(1.83), m(0.9), mn_per_cu_m(3.0));
    let weight = kn(1.0);
    let springs = Springs::growing(nh).unwrap();
    let model = PostModel::new(pipe.rigidity(), mm(254.0), depth, springs).unwrap();
    let at_foot = |axial: Force| {
        let response = model.clone().standing(height).unwrap();
        let response = response.with_force(height, newton(100.0)).unwrap();
        let response = response.with_axial(axial).unwrap().solve().unwrap();
        response.at_grade().moment.to(n_m)
    };
    let solver = at_foot(weight * 1.6) / at_foot(kn(0.0));
    let foot = closed_form::finite_growing(nh, pipe.rigidity(), depth, kn(0.0), n_m(1.0)).unwrap();
    let turning = TurningStiffness::new(n_m(1.0 / foot.rotation.value.abs())).unwrap();
    let options = AxialOptions::default().on_ground(turning);
    let ours = AxialBending::new(&pipe.into(), &options, weight, used(0.5), height).unwrap();
    // The solver's is of a force at the top: the estimate is near and not less
    // than nine tenths of what is added.
    let (added, of_solver) = (ours.amplification - 1.0, solver - 1.0);
    assert!(
        of_solver > 0.1 && added > 0.9 * of_solver && added < 1.6 * of_solver,
        "{added} {of_solver}"
    );
}

/// Weight alone on timber, CD 0.9, and le/d beyond 50 (NDS 2.3.2, 3.7.1.4, from
/// memory).
#[test]
fn weight_alone_and_slender_timber() {
    let values = CompressionValues::new(lb_per_sq_in(700.0), ksi(470.0)).unwrap();
    let options = AxialOptions::default().with_timber(values);
    let post = Post::from(crate::samples::pine(5.5));
    let of = |weight: f64, length: f64| {
        AxialBending::new(&post, &options, lb(weight), used(0.0), ft(length)).unwrap()
    };
    let both = of(10_000.0, 4.0);
    // le = 2.1 x 48 = 100.8 in, le/d 18.33, FcE = 0.822 x 470 000/335.9.
    let ratio: f64 = 2.1 * 48.0 / 5.5;
    let over = 0.822 * 470_000.0 / (ratio * ratio) / (700.0 * 0.9);
    let half = (1.0 + over) / 1.6;
    let stability = half - (half * half - over / 0.8).sqrt();
    let by_hand = 10_000.0 / 30.25 / (700.0 * 0.9 * stability);
    assert_relative_eq!(both.alone.unwrap().ratio(), by_hand, max_relative = 1e-12);
    assert_eq!(both.utilization, both.alone.unwrap());
    recomputes(&both);
    // 50 x 5.5/2.1 = 130.95 in.
    assert!(of(10.0, 130.9 / 12.0).utilization.passes());
    let beyond = of(10.0, 131.0 / 12.0);
    assert!(!beyond.utilization.passes());
    recomputes(&beyond);
}

/// A taller fence on a post that is too slender never passes again, and a
/// question backwards takes no check left open for a pass.
#[test]
fn open_checks_are_no_answer() {
    use groundline::backwards::{Search, greatest_height};
    let values = CompressionValues::new(lb_per_sq_in(700.0), ksi(470.0)).unwrap();
    let plan = |post: Post, weight: f64, asked: SiteChecks| {
        let panel = Panel::new(ft(5.0))
            .unwrap()
            .with_weight(psf(weight))
            .unwrap();
        let fence = Fence::new(FenceRun::new(panel, ft(32.0), ft(4.0)).unwrap());
        let level = groundline::limit_state::AllowableStress::Basic;
        let wind = DirectPressure::new(psf(2.0), level)
            .unwrap()
            .acting_at(0.5)
            .unwrap();
        let ground = Ground::presumptive(SoilClass::Class3);
        let hole = Hole::round(inch(14.0)).unwrap();
        let design = PostDesign::in_concrete(ground, post, hole).unwrap();
        FencePlan::new(wind, fence, design)
            .with_planned_depth(ft(4.0))
            .with_site_checks(asked)
    };
    let timber = SiteChecks::default().with_axial(AxialOptions::default().with_timber(values));
    let found = greatest_height(
        &plan(crate::samples::pine(3.5).into(), 15.0, timber),
        Search::heights(),
    );
    // le/d = 50 is 83.3 in of post, some of it in the ground.
    let height = found.unwrap().value().unwrap();
    assert!(height < ft(7.0), "{height:?}");
    let section = PostSection::from(Square::new(inch(4.0)).unwrap());
    let given = GivenPost::new(section, lb_ft(9_000.0), lb(9_000.0)).unwrap();
    let open = SiteChecks::default().with_axial(AxialOptions::default());
    let refused = greatest_height(&plan(given.into(), 15.0, open), Search::heights());
    assert_eq!(refused.unwrap_err().field(), "allowable axial load");
    // No weight, no check of it.
    let light = plan(crate::samples::pipe(2.375, 0.154).into(), 0.0, open);
    let schedule = light.schedule().unwrap();
    let post = schedule.post(3).unwrap();
    assert_eq!(
        post.site.axial.refusal().unwrap().field(),
        "weight at grade"
    );
}

/// A sleeve takes its room in the hole and has to fit it.
#[test]
fn a_sleeve_takes_room_in_the_hole() {
    let tube: Post = square_tube(3.0, 0.174).into();
    let sleeve = Sleeve::new(inch(5.0), inch(0.15)).unwrap();
    let sleeved: Post = SleevedPost::new(sleeve, tube).unwrap().into();
    let ground = Ground::presumptive(SoilClass::Class4);
    let concrete = |post: Post, hole: f64| {
        let design = PostDesign::in_concrete(ground, post, Hole::round(inch(hole)).unwrap());
        design.map(|design| design.foundation().concrete_volume(inch(36.0)).to(cu_ft))
    };
    let by_hand = |side: f64| (std::f64::consts::PI * 25.0 - side * side) * 36.0 / 1_728.0;
    assert_relative_eq!(
        concrete(tube, 10.0).unwrap(),
        by_hand(3.0),
        max_relative = 1e-2
    );
    assert_relative_eq!(
        concrete(sleeved, 10.0).unwrap(),
        by_hand(5.0),
        max_relative = 1e-12
    );
    assert!(concrete(tube, 6.5).is_ok());
    assert!(concrete(sleeved, 6.5).is_err() && concrete(sleeved, 9.1).is_ok());
}

/// A corner of two heights leans over the taller; gravel round steel grips by its
/// own row (CFEM, quoted: 150 kPa).
#[test]
fn the_taller_panel_and_gravel_on_steel() {
    let run = |height: f64| {
        let panel = Panel::new(ft(height)).unwrap();
        FenceRun::new(panel, ft(32.0), ft(8.0)).unwrap()
    };
    let ground = Ground::presumptive(SoilClass::Class4);
    let hole = Hole::round(inch(12.0)).unwrap();
    let post = crate::samples::pipe(2.875, 0.16).into();
    let setting = groundline::backfill::Setting::CompactedGravel;
    let design = PostDesign::set_in(ground, post, setting, hole).unwrap();
    let stiffness = GroundStiffness::growing(mn_per_cu_m(6.0)).unwrap();
    let asked = SiteChecks::default()
        .with_lean(LeanOptions::new(stiffness))
        .with_frost(FrostOptions::new(inch(20.0), Grip::FineGrained).unwrap());
    for (first, second) in [(4.0, 6.0), (6.0, 4.0)] {
        let fence = Fence::new(run(first))
            .turning(deg(90.0), run(second))
            .unwrap();
        let speed = BasicWindSpeed::strength_level(mph(105.0)).unwrap();
        let site = AsceSite::new(Edition::Asce7_22, speed, Exposure::B);
        let plan = FencePlan::new(site, fence, design)
            .with_planned_depth(ft(4.0))
            .with_site_checks(asked);
        let schedule = plan.schedule().unwrap();
        let corner = schedule.post(5).unwrap();
        assert_eq!(corner.post.kind, PostKind::Corner);
        assert_eq!(corner.site.lean.done().unwrap().height, ft(6.0));
        assert_eq!(corner.site.frost.done().unwrap().stress, kpa(150.0));
    }
}
