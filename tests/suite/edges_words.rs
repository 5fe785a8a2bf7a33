//! What worksheets and answers say in words, and small facts that a result
//! tells of itself: each against the values it speaks of.

use crate::samples::pipe;
use approx::assert_relative_eq;
use groundline::actions::*;
use groundline::backwards::*;
use groundline::check::{MaterialOptions, PostDesign, SiteChecks};
use groundline::fence::*;
use groundline::field_test::{Comparison, Readings, Sample, Settled};
use groundline::foundation::Hole;
use groundline::ground::*;
use groundline::lateral::{Drainage, Hansen, LateralMethod};
use groundline::limit_state::AllowableStress;
use groundline::plan::FencePlan;
use groundline::post::{PostProperty, TurningStiffness};
use groundline::profile::*;
use groundline::report;
use groundline::response::*;
use groundline::sensitivity::*;
use groundline::side_by_side::SideBySide;
use groundline::step::Worksheet;
use groundline::units::*;
use groundline::wind::*;
use std::collections::BTreeSet;

type Direct = DirectPressure<AllowableStress>;

fn plan(pressure: f64, depth: Option<f64>) -> FencePlan<Direct> {
    let ground = Ground::presumptive(SoilClass::Class4);
    let hole = Hole::round(inch(12.0)).unwrap();
    let design = PostDesign::in_concrete(ground, pipe(4.0, 0.226).into(), hole).unwrap();
    let panel = Panel::new(ft(6.0)).unwrap();
    let fence = Fence::new(FenceRun::new(panel, ft(96.0), ft(8.0)).unwrap());
    let wind = DirectPressure::new(psf(pressure), AllowableStress::Basic)
        .unwrap()
        .acting_at(0.5)
        .unwrap();
    let plan = FencePlan::new(wind, fence, design);
    match depth {
        Some(depth) => plan.with_planned_depth(ft(depth)),
        None => plan,
    }
}

fn told(point: &Point) -> String {
    let (utilization, check, post) = (point.utilization, point.governing, point.post);
    format!("{utilization} in {check} of post {post}")
}

fn page(sheet: &Worksheet) -> String {
    report::markdown(sheet).to_string()
}

/// The summary of a sensitivity names the plan as it is, both ends of each input, what
/// governs, which inputs are one-sided and why, whose slopes lie apart, and what is not
/// in the plan; each input has its value on a line.
#[test]
fn a_sensitivity_in_words() {
    let mut apart = (0, 0);
    let mut one_sided = 0;
    for (pressure, depth, share, top) in [
        (10.0, Some(6.0), 0.1, 0.0),
        (14.0, Some(4.5), 0.4, 0.0),
        (10.0, None, 0.1, 0.0),
        (18.0, Some(4.0), 0.25, 0.0),
        // A top that does not count bends the curves.
        (1.0, Some(5.0), 0.2, 2.5),
        (2.0, Some(4.0), 0.1, 2.0),
    ] {
        let plan = plan(pressure, depth);
        let design = *plan.design();
        let ground = design.ground().discounting_top(ft(top)).unwrap();
        let fence = plan.fence().clone();
        let plan = match depth {
            Some(depth) => FencePlan::new(*plan.site(), fence, design.in_ground(ground))
                .with_planned_depth(ft(depth)),
            None => plan,
        };
        let found = sensitivity(&plan, Band::new(share, 0.01).unwrap()).unwrap();
        let sheet = found.worksheet(UnitSystem::Us);
        let lines = &sheet.sections[0].remarks;
        let base = format!("The plan as it is: {};", told(&found.base));
        assert!(lines.iter().any(|line| line.starts_with(&base)), "{base}");
        let absent: Vec<_> = found.absent.iter().map(|(input, _)| input.name()).collect();
        assert!(!absent.is_empty());
        assert!(lines.contains(&format!("Not in this plan: {}.", absent.join(", "))));
        for effect in &found.effects {
            let head = effect.input.name();
            let line = lines
                .iter()
                .find(|line| line.starts_with(head) && line.contains(": elasticity "))
                .unwrap();
            for (sign, point) in [("-", &effect.low), ("+", &effect.high)] {
                let per_cent = 100.0 * share;
                let end = match point {
                    Ok(point) => format!("; {sign}{per_cent} %: {}", told(point)),
                    Err(_) => format!("; {sign}{per_cent} %: not allowed"),
                };
                assert!(line.contains(&end), "{line}\n{end}");
            }
            let why = match effect.elasticity {
                Elasticity::OneSided { why, .. } => {
                    one_sided += 1;
                    format!("(below | above: {})", why.name())
                }
                _ => String::new(),
            };
            assert_eq!(line.contains("(below | above: "), !why.is_empty(), "{line}");
            assert!(line.contains(&why));
            let (least, most) = effect.slopes_within().unwrap_or((0.0, 0.0));
            let far = most - least > 0.5;
            assert_eq!(line.contains("; slopes from "), far, "{line}");
            if far {
                apart.0 += 1;
                assert!(line.contains(&format!("slopes from {least:.2} to {most:.2} within")));
            } else if least.abs() > 0.3 && (most + least).abs() > 0.5 {
                // Its sum would be called far apart.
                apart.1 += 1;
            }
            let section = sheet.sections.iter().find(|s| s.title == head).unwrap();
            let value = section.steps.iter().find(|step| step.symbol == "x");
            assert_eq!(value.map(|step| step.result), effect.value);
        }
    }
    assert!(
        apart.0 > 0 && apart.1 > 0 && one_sided > 0,
        "{apart:?} {one_sided}"
    );
}

/// What is cut off a distribution, as per cent: what is not nothing is never told as
/// nothing, and of nothing cut off nothing is said.
#[test]
fn cut_off_in_words() {
    let plan = plan(10.0, Some(6.0));
    let mut half = || 0.5;
    let allowed = |input| {
        let wide = Distribution::uniform(0.9, 1.1).unwrap();
        let found = uncertainty(&plan, &[(input, wide)], 1, || 0.5).unwrap();
        (found.inputs[0].least, found.inputs[0].most)
    };
    let (least, _) = allowed(Input::HoleSize);
    // Φ(−5) = 2.87e-7 (published: tables of the normal distribution).
    let deviation = (1.0 - least) / 5.0;
    let normal = Distribution::normal(1.0, deviation).unwrap();
    let found = uncertainty(&plan, &[(Input::HoleSize, normal)], 1, &mut half).unwrap();
    assert_relative_eq!(found.cut_off(), 2.867e-7, max_relative = 1e-3);
    let text = page(&found.worksheet(UnitSystem::Us));
    assert!(
        text.contains("Cut off in all: less than 0.0001 %."),
        "{text}"
    );
    assert!(text.contains(": less than 0.0001 % below and 0 % above are left out"));
    let within = Distribution::uniform(0.95, 1.05).unwrap();
    let found = uncertainty(&plan, &[(Input::HoleSize, within)], 1, &mut half).unwrap();
    let text = page(&found.worksheet(UnitSystem::Us));
    assert!(text.contains("nothing cut off") && !text.contains("Cut off in all"));
}

/// Bags of several posts: a sum that is whole needs no more, one just above it one more.
#[test]
fn bags_of_a_whole_number() {
    // Two holes of 1 m³ without waste, of bags of 20 l.
    let area = std::f64::consts::PI / 4.0 * 0.36;
    for (yields, least) in [(0.020, 100.0), (0.020 * (1.0 - 1e-6), 101.0)] {
        let bag = groundline::backfill::Bag::given(kn(0.4), cu_m(yields)).unwrap();
        let options = MaterialOptions::new(bag);
        let options = options.with_waste(0.0).unwrap();
        let options = options.with_base(m(0.0)).unwrap();
        let ground = Ground::presumptive(SoilClass::Class4);
        let hole = Hole::round(m(0.6)).unwrap();
        let post = pipe(4.0, 0.226);
        let round = std::f64::consts::PI / 4.0 * inch(4.0).value.powi(2);
        let depth = m(1.0 / (area - round));
        let design = PostDesign::in_concrete(ground, post.into(), hole).unwrap();
        let plan = plan(1.0, None);
        let panel = Panel::new(ft(6.0)).unwrap();
        let fence = Fence::new(FenceRun::new(panel, ft(8.0), ft(8.0)).unwrap());
        let plan = FencePlan::new(*plan.site(), fence, design)
            .with_planned_depth(depth)
            .with_site_checks(SiteChecks::default().with_materials(options));
        let sum = plan.schedule().unwrap().materials(None);
        assert_eq!(sum.posts, 2);
        assert_relative_eq!(sum.exact, 2.0 / yields, max_relative = 1e-12);
        assert_eq!(sum.least_bags(), least);
    }
}

/// Readings up to a third of the peak, the one at a third among them: (1, 1) and
/// (2, 1.5) give (1 × 1 + 2 × 1.5)/(1 + 4).
#[test]
fn stiffness_of_early_readings() {
    let of = |loads: [f64; 4]| {
        let readings: Vec<_> = [1.0, 2.0, 3.0, 4.0]
            .map(mm)
            .into_iter()
            .zip(loads.map(kn))
            .collect();
        let stiffness = Readings::new(&readings).unwrap().stiffness().unwrap();
        stiffness.to(kn_per_m) / 1e3
    };
    assert_relative_eq!(of([1.0, 1.5, 1.9, 4.5]), 0.8, max_relative = 1e-12);
    assert_relative_eq!(of([1.0, 1.5, 1.9, 4.4]), 1.0, max_relative = 1e-12);
    // Three of them: (1 + 3 + 5.7)/14.
    assert_relative_eq!(of([1.0, 1.5, 1.9, 6.0]), 9.7 / 14.0, max_relative = 1e-12);
}

/// A layer that starts where a post ends is no part of it.
#[test]
fn layers_down_to_the_toe() {
    let sand = |phi: f64| {
        let soil = Soil::new(kn_per_cu_m(18.0)).unwrap();
        soil.with_friction_angle(deg(phi)).unwrap()
    };
    let layers = vec![
        Layer::new(m(1.0), sand(30.0)).unwrap(),
        Layer::new(m(2.0), sand(35.0)).unwrap(),
    ];
    let profile = Profile::new(layers).unwrap();
    let method = Hansen::new(&profile, m(0.3), Drainage::Drained).unwrap();
    for (depth, spans) in [(1.0, 1), (1.001, 2), (0.999, 1)] {
        let mut sheet = Worksheet::new("", UnitSystem::Si);
        method.write(m(depth), m(1.0), &mut sheet).unwrap();
        let remarks = sheet.sections.iter().flat_map(|section| &section.remarks);
        let found = remarks.filter(|remark| remark.contains("Kq")).count();
        assert_eq!(found, spans, "{depth}");
    }
}

/// Between nodes the post's own length in the ground of that element counts, not in
/// ground further down: the nodes above a boundary do not know what is below it.
#[test]
fn a_mesh_as_fine_as_its_ground() {
    let nodes = |below: f64| {
        let soil = |k: f64| {
            let stiffness = Stiffness::constant(kn_per_cu_m(k)).unwrap();
            let soil = Soil::new(kn_per_cu_m(18.0)).unwrap();
            let soil = soil.with_undrained_strength(kpa(50.0)).unwrap();
            soil.with_stiffness(stiffness).unwrap()
        };
        let layers = vec![
            Layer::new(m(1.5), soil(1e5)).unwrap(),
            Layer::new(m(1.5), soil(below)).unwrap(),
        ];
        let springs = Springs::elastic(&Profile::new(layers).unwrap()).unwrap();
        let post = PostModel::new(n_sq_m(1e3), m(0.1), m(3.0), springs).unwrap();
        let post = post.with_elements(6).unwrap();
        let solver = post.solver();
        let response = solver.response();
        assert_eq!(solver.elements() + 1, response.stations().len());
        let depths = response
            .stations()
            .iter()
            .map(|station| station.depth.value);
        depths.filter(|depth| *depth <= 1.5).collect::<Vec<_>>()
    };
    // (4 EI/k)^(1/4) with k = 1e7 N/m²: 0.141 m, and elements of 0.3 of it at most,
    // so 0.5 m is parted in twelve.
    let same = nodes(1e5);
    assert_eq!(same.len(), 37);
    assert_relative_eq!(same[1], 0.5 / 12.0, max_relative = 1e-12);
    assert_eq!(nodes(1e6), same);
    assert_eq!(nodes(1e3), same);
    // Where it grows, by the lower Gauss point of each of the six parts.
    let nh = kn_per_cu_m(5e4);
    let post = PostModel::new(n_sq_m(1e3), m(0.1), m(3.0), Springs::growing(nh).unwrap());
    let solver = post.unwrap().with_elements(6).unwrap().solver();
    let response = solver.response();
    let depths: Vec<_> = response
        .stations()
        .iter()
        .map(|station| station.depth.value)
        .collect();
    // Down to 12 own lengths 0.3 of one, below it one.
    let mut down = 0.0;
    for part in 0..6 {
        let from = 0.5 * f64::from(part);
        let at = from + 0.25 * (1.0 + 1.0 / 3.0_f64.sqrt());
        let own = (4e3 / (5e7 * at)).powf(0.25);
        let within = depths.iter().filter(|z| from <= **z && **z < from + 0.5);
        let count = u32::try_from(within.count()).unwrap();
        let longest = if down < 12.0 { 0.3 } else { 1.0 };
        assert_eq!(f64::from(count), (0.5 / own / longest).ceil(), "{part}");
        down += 0.5 / own;
    }
}

/// A post does not reach deeper than its ground is described.
#[test]
fn posts_deeper_than_their_ground() {
    let soil = Soil::new(kn_per_cu_m(18.0)).unwrap();
    let soil = soil.with_undrained_strength(kpa(50.0)).unwrap();
    let soil = soil.with_stiffness(Stiffness::constant(kn_per_cu_m(1e4)).unwrap());
    let layers = vec![Layer::new(m(2.0), soil.unwrap()).unwrap()];
    let springs = Springs::elastic(&Profile::new(layers).unwrap()).unwrap();
    let reaches =
        |depth: f64| PostModel::new(n_sq_m(1e5), m(0.1), m(depth), springs.clone()).map(drop);
    assert!(reaches(2.0).is_ok());
    assert_eq!(reaches(2.01).unwrap_err().field(), "depth");
}

/// What statics leaves at the toe is what the sum from the top comes to there: next to
/// nothing of the load, but told as it is.
#[test]
fn what_is_left_at_the_toe() {
    let springs = Springs::growing_up_to(kn_per_cu_m(5e3), kn_per_cu_m(200.0)).unwrap();
    let post = PostModel::new(n_sq_m(5e4), m(0.1), m(1.2), springs).unwrap();
    let post = post.with_force(m(0.0), newton(3_500.0)).unwrap();
    let mut solver = post.solver();
    solver.solve(1.0).unwrap();
    // Where the ground gives, the first step along the tangent is not the last.
    assert!(solver.iterations() > 1);
    let response = solver.response();
    let (shear, moment) = response.left_over();
    assert_eq!(shear, response.at_toe().shear);
    assert_eq!(moment, response.at_toe().moment);
    assert!(shear.value != 0.0 || moment.value != 0.0);
    assert!(shear.value.abs() < 1e-4 && moment.value.abs() < 1e-4);
}

/// A stiffness against turning is what was given.
#[test]
fn turning_stiffness_is_kept() {
    let given = TurningStiffness::new(n_m(1_234.0)).unwrap();
    assert_eq!(given.per_radian(), n_m(1_234.0));
}

/// Names of properties of a post are distinct, and the refusals name them.
#[test]
fn properties_of_a_post_have_names() {
    use PostProperty::{Bending, Shear, Size, Wall};
    let names: BTreeSet<_> = [Size, Wall, Bending, Shear].map(PostProperty::name).into();
    assert_eq!(names.len(), 4);
    assert!(names.iter().all(|name| name.starts_with("post ")));
}

/// Zones of an oblique wind are told by the height of the panel where it is well off the
/// ground, else by that of its top (AS/NZS 1170.2 Table B.2(C), quoted).
#[test]
fn zones_of_a_hoarding_in_words() {
    let site = AsNzsSite::new(RegionalSpeed::ultimate(m_per_s(45.0)).unwrap());
    for (gap, said) in [
        (1.6, "c/h up to 0.7: to 2 s, to 4 s"),
        (1.4, "c/h above 0.7: to 2 h, to 4 h"),
    ] {
        let shape = WallShape::new(m(40.0), m(5.0), m(gap), 0.9).unwrap();
        let wind = WallWind::new(&site, shape, WallEnds::FREE).unwrap();
        let mut sheet = Worksheet::new("", UnitSystem::Si);
        wind.write(WindCase::Zones(Edge::Start), m(0.0), m(4.0), &mut sheet);
        assert!(page(&sheet).contains(said), "{gap}");
    }
}

/// The working of wind on both runs at the first corner.
fn at_the_corner<C: WindCode>(site: &C, fence: &Fence) -> Worksheet {
    let wind = FenceWind::new(site, fence).unwrap();
    let mut posts = fence.posts().iter();
    let corner = posts.find(|post| post.kind == PostKind::Corner).unwrap();
    let cases = wind.cases(corner);
    let mut cases = cases.iter();
    let both = cases.find(|case| case.kind == LoadCaseKind::BothRuns);
    let mut sheet = Worksheet::new("", UnitSystem::Si);
    wind.write(corner, both.unwrap(), &mut sheet);
    sheet
}

/// Where two runs of different height meet at a post, the velocity pressure of both is
/// written; of the same height, once.
#[test]
fn the_velocity_pressure_of_each_height() {
    let run = |height: f64| {
        let panel = Panel::new(m(height)).unwrap();
        FenceRun::new(panel, m(20.0), m(2.5)).unwrap()
    };
    let site = AsNzsSite::new(RegionalSpeed::ultimate(m_per_s(45.0)).unwrap());
    for (other, times) in [(2.0, 1), (6.0, 2)] {
        let fence = Fence::new(run(2.0)).turning(deg(90.0), run(other)).unwrap();
        let sheet = at_the_corner(&site, &fence);
        let speeds = sheet.steps().filter(|step| step.symbol == "Vdes").count();
        assert_eq!(speeds, times, "{other}");
        // Two parts have one angle between them.
        let cosines: Vec<_> = sheet
            .steps()
            .filter(|step| step.meaning.starts_with("cosine between"))
            .collect();
        assert_eq!(cosines.len(), 1);
    }
}

/// Where two runs of one height meet, the velocity pressure of open parts of different
/// middle height is written of both, whether or not there is a solid part below.
#[test]
fn the_velocity_pressure_of_each_open_part() {
    let speed = BasicWindSpeed::strength_level(mph(115.0)).unwrap();
    let site = AsceSite::new(Edition::Asce7_22, speed, Exposure::C);
    let lattice = Infill::lattice(inch(0.5), inch(4.0)).unwrap();
    let topped = |height: f64| {
        let panel = Panel::new(ft(8.0)).unwrap().with_infill(lattice);
        let solid = Infill::given(1.0, Member::Flat).unwrap();
        panel.with_topping(ft(height), solid).unwrap()
    };
    let open = |gap: f64| {
        let panel = Panel::new(ft(8.0)).unwrap().with_infill(lattice);
        panel.with_clearance(ft(gap)).unwrap()
    };
    for (first, second, differ) in [
        (topped(2.0), topped(2.0), false),
        (topped(2.0), topped(3.0), true),
        (open(0.5), open(0.5), false),
        (open(0.5), open(2.0), true),
    ] {
        let run = |panel| FenceRun::new(panel, ft(48.0), ft(8.0)).unwrap();
        let fence = Fence::new(run(first)).turning(deg(90.0), run(second));
        let fence = fence.unwrap();
        let sheet = at_the_corner(&site, &fence);
        let heights = sheet
            .steps()
            .filter(|step| step.meaning == "height of the middle of the open panel")
            .count();
        assert_eq!(heights, 1 + usize::from(differ));
    }
}

/// A single infill is not told as two, however high it hangs.
#[test]
fn panels_of_one_infill() {
    let speed = BasicWindSpeed::strength_level(mph(115.0)).unwrap();
    let site = AsceSite::new(Edition::Asce7_22, speed, Exposure::C);
    for gap in [0.0, 0.3, 1.0] {
        let one = WallShape::new(m(20.0), m(2.4), m(gap), 1.0).unwrap();
        let lattice = Infill::lattice(inch(0.5), inch(4.0)).unwrap();
        let two = one.with_topping(0.25, &lattice).unwrap();
        for (shape, said) in [(one, false), (two, true)] {
            let wind = WallWind::new(&site, shape, WallEnds::FREE).unwrap();
            let mut sheet = Worksheet::new("", UnitSystem::Si);
            wind.write(WindCase::Uniform, m(0.0), m(4.0), &mut sheet);
            assert_eq!(page(&sheet).contains("Two infills"), said, "{gap}");
        }
    }
}

/// Of an option that fails, the post of greatest utilization is named, wherever it stands.
#[test]
fn the_worst_post_of_an_option() {
    let failing = |weak: &[usize]| {
        let mut plan = plan(14.0, Some(7.0));
        let own = *plan.design();
        for (number, depth) in weak.iter().zip([3.0, 2.5, 2.8]) {
            plan = plan.with_post(*number, own, Some(ft(depth)));
        }
        let ranking = cheapest(&[plan], |_| 1.0);
        match ranking.options[0].verdict {
            OptionVerdict::Fails { post, .. } => post,
            other => panic!("{other}"),
        }
    };
    assert_eq!(failing(&[2, 5, 7]), 5);
    assert_eq!(failing(&[7, 5, 2]), 5);
    assert_eq!(failing(&[5, 2, 7]), 2);
    assert_eq!(failing(&[4]), 4);
}

/// How many checks an answer took: both ends of a range of one step, the one answered,
/// and the next value where there is one.
#[test]
fn evaluations_of_a_search() {
    let plan = plan(10.0, Some(6.0));
    let took = |from: f64, to: f64| {
        let search = Search::new(psf(from), psf(to), psf(to - from)).unwrap();
        let found = greatest_wind(&plan, search.trying(1).unwrap()).unwrap();
        (found.evaluations, found.worksheet(UnitSystem::Us))
    };
    let (found, sheet) = took(5.0, 500.0);
    assert_eq!(found, 4);
    assert!(page(&sheet).contains("Varied: the wind pressure as given."));
    assert_eq!(took(1.0, 2.0).0, 3);
    assert_eq!(took(400.0, 500.0).0, 3);
    // Between them, each halving is one.
    for (steps, halvings) in [(2.0, 1), (4.0, 2), (64.0, 6)] {
        let search = Search::new(psf(5.0), psf(500.0), psf(495.0 / steps)).unwrap();
        let found = greatest_wind(&plan, search.trying(1).unwrap()).unwrap();
        assert_eq!(found.evaluations, 4 + halvings);
    }
    // What is varied, in words of each question.
    let inches = |least: f64, most: f64| Search::new(inch(least), inch(most), inch(1.0)).unwrap();
    let spacing = greatest_spacing(&plan, inches(48.0, 96.0)).unwrap();
    assert!(page(&spacing.worksheet(UnitSystem::Us)).contains("Varied: the greatest spacing"));
    let height = greatest_height(&plan, inches(36.0, 96.0)).unwrap();
    assert!(page(&height.worksheet(UnitSystem::Us)).contains("Varied: the height of the top"));
}

/// A knee is where the two lines meet whose squares are least over every way to part the
/// readings, worked here by brute force.
#[test]
fn knees_by_brute_force() {
    let mut state = 12_345_u32;
    let mut noise = || {
        state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        f64::from(state >> 8) / f64::from(1_u32 << 24) - 0.5
    };
    let mut met = 0;
    for case in 0..200 {
        let bend = 3 + case % 5;
        let mut readings: Vec<(f64, f64)> = (1..=10)
            .map(|i| {
                let y = f64::from(i);
                let soft = (y - f64::from(bend)).max(0.0);
                (y, 2.0 * y - 1.5 * soft + 0.8 * noise())
            })
            .collect();
        readings.sort_by(|a, b| a.0.total_cmp(&b.0));
        let pairs: Vec<_> = readings.iter().map(|(y, p)| (mm(*y), kn(*p))).collect();
        let Ok(kept) = Readings::new(&pairs) else {
            continue;
        };
        let peak = readings.iter().map(|r| r.1).fold(0.0, f64::max);
        let upto = readings.iter().position(|r| r.1 >= peak).unwrap() + 1;
        let all = &readings[..upto];
        let mut best: Option<(f64, f64)> = None;
        for split in 2..=upto.saturating_sub(2) {
            let (early, late) = all.split_at(split);
            let k = early.iter().map(|(y, p)| y * p).sum::<f64>()
                / early.iter().map(|(y, _)| y * y).sum::<f64>();
            // The normal equations of p = a + c y.
            let n = late.iter().map(|_| 1.0).sum::<f64>();
            let (sy, sp) = late.iter().fold((0.0, 0.0), |s, r| (s.0 + r.0, s.1 + r.1));
            let syy = late.iter().map(|r| r.0 * r.0).sum::<f64>();
            let syp = late.iter().map(|r| r.0 * r.1).sum::<f64>();
            let c = (n * syp - sy * sp) / (n * syy - sy * sy);
            let a = (sp - c * sy) / n;
            let squares = early.iter().map(|(y, p)| (p - k * y).powi(2)).sum::<f64>()
                + late
                    .iter()
                    .map(|(y, p)| (p - a - c * y).powi(2))
                    .sum::<f64>();
            let at = a / (k - c);
            let bends = k > c && at > 0.0 && at <= all[upto - 1].0 && k * at <= peak;
            if bends && best.is_none_or(|(least, _)| squares < least) {
                best = Some((squares, at));
            }
        }
        let found = kept.knee().map(|knee| knee.movement.to(mm));
        assert_eq!(found.is_some(), best.is_some() && upto >= 5, "{case}");
        if let (Some(found), Some((_, at))) = (found, best) {
            assert_relative_eq!(found, at, max_relative = 1e-9);
            met += 1;
        }
    }
    assert!(met > 100, "{met}");
}

/// Samples whose spread is a ten-millionth of their mean are as good as one reading, in
/// whatever unit; of a thousandth they are samples.
#[test]
fn readings_too_coarse_to_compare() {
    for scale in [1e-2, 1.0, 1e4] {
        for (share, enough) in [(1e-7, false), (1e-3, true)] {
            let of = |middle: f64| {
                let values = [1.0 - share, 1.0, 1.0 + share].map(|x| kn(middle * scale * x));
                Sample::new(&values).unwrap()
            };
            let found = Comparison::between(&of(1.0), &of(1.1), 0.95).unwrap();
            assert_eq!(found.interval.is_some(), enough, "{scale} {share}");
            assert_eq!(found.settled == Settled::TooFew, !enough);
        }
    }
}

/// An input without an elasticity stands behind those that have one.
#[test]
fn what_has_no_slope_is_last() {
    let ground = Ground::presumptive(SoilClass::Class4);
    let hole = Hole::round(inch(12.2)).unwrap();
    let post = pipe(10.0, 4.85);
    let design = PostDesign::in_concrete(ground, post.into(), hole).unwrap();
    let base = plan(10.0, None);
    let plan = FencePlan::new(*base.site(), base.fence().clone(), design);
    let plan = plan.with_planned_depth(ft(5.0));
    let found = sensitivity(&plan, Band::new(0.1, 0.05).unwrap()).unwrap();
    let size = found.effect(Input::PostSize).unwrap();
    assert_eq!(size.elasticity, Elasticity::Undefined);
    let order: Vec<_> = found
        .by_influence()
        .iter()
        .map(|effect| effect.input)
        .collect();
    let first_without = found
        .by_influence()
        .iter()
        .position(|effect| effect.elasticity.influence().is_none());
    assert!(order.contains(&Input::PostSize));
    let behind = &found.by_influence()[first_without.unwrap()..];
    assert!(
        behind
            .iter()
            .all(|effect| effect.elasticity.influence().is_none())
    );
}

/// The length class goes by the ground at half the depth, not below.
#[test]
fn the_ground_at_half_the_depth() {
    let soil = |ks: f64| {
        let soil = Soil::new(kn_per_cu_m(18.0)).unwrap();
        let soil = soil.with_undrained_strength(kpa(60.0)).unwrap();
        soil.with_stiffness(Stiffness::constant(kn_per_cu_m(ks)).unwrap())
            .unwrap()
    };
    let load = GroundlineActions::new(kn(1.0), kn_m(1.0), kn(0.0), AllowableStress::Basic).unwrap();
    let of = |layers: Vec<Layer>| {
        let profile = Profile::new(layers).unwrap();
        let side = SideBySide::new(profile, m(0.3), load, m(2.0), 2.0).unwrap();
        side.with_rigidity(kn_sq_m(200.0)).length_class().unwrap()
    };
    let layered = of(vec![
        Layer::new(m(1.5), soil(2e5)).unwrap(),
        Layer::new(m(4.5), soil(1e3)).unwrap(),
    ]);
    let stiff = of(vec![Layer::new(m(6.0), soil(2e5)).unwrap()]);
    let soft = of(vec![Layer::new(m(6.0), soil(1e3)).unwrap()]);
    assert!(stiff.is_some() && stiff != soft);
    assert_eq!(layered, stiff);
}

/// Remedies of frost have names of their own.
#[test]
fn remedies_have_names() {
    use groundline::check::FrostRemedy;
    assert!(FrostRemedy::SmoothSleeve.name().contains("sleeve"));
    assert!(FrostRemedy::DrainedGravel.name().contains("gravel"));
}

/// A report shows each result and the numbers that go in, as text and as Markdown.
#[test]
fn numbers_of_a_report() {
    let plan = plan(10.0, Some(6.0));
    let schedule = plan.schedule().unwrap();
    let post = schedule.posts().next().unwrap();
    let sheet = schedule.worksheet(&post, UnitSystem::Us);
    let pages = [
        report::text(&sheet).to_string(),
        report::markdown(&sheet).to_string(),
    ];
    let shown = |value: Measured| value.in_system(UnitSystem::Us).significant(6).to_string();
    let mut seen = 0;
    for step in sheet.steps() {
        let result = shown(step.result);
        assert!(pages.iter().all(|page| page.contains(&result)), "{result}");
        for term in &step.terms {
            let number = format!("{} = {}", term.symbol, shown(term.value));
            assert!(pages[0].contains(&number), "{number}");
            assert!(pages[1].contains(&number), "{number}");
            seen += 1;
        }
        let head = format!("{} = {result}", step.symbol);
        assert!(pages[0].contains(&head), "{head}");
    }
    assert!(seen > 20);
}

/// A comparison of two samples is of field tests, by statistics quoted from memory.
#[test]
fn cautions_of_a_comparison() {
    use groundline::caution::Caution;
    let of = |middle: f64| Sample::new(&[0.9, 1.0, 1.1].map(|x| kn(middle * x))).unwrap();
    let found = Comparison::between(&of(1.0), &of(2.0), 0.95).unwrap();
    assert!(found.cautions().contains(Caution::FieldTests));
    assert!(found.cautions().contains(Caution::FromMemory));
}
