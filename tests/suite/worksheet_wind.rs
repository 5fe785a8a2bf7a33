//! Worksheets of the wind: the symbols of each clause stand on the sheet when
//! the option is on and not when it is off; both sides of every limit.
//!
//! The symbols are those of the formulas of the clauses: ASCE 7 26.8, 26.9,
//! 26.10 and 29.3 (29.4 of 7-10), EN 1991-1-4 4.2 to 4.5 and 7.4,
//! AS/NZS 1170.2 2.2 and Table B.2.

use crate::worksheet_whole::*;
use groundline::actions::{FenceWind, LoadCase, LoadCaseKind};
use groundline::fence::*;
use groundline::limit_state::AllowableStress;
use groundline::step::{Origin, Worksheet};
use groundline::units::*;
use groundline::wind::*;

const SYSTEMS: [UnitSystem; 2] = [UnitSystem::Us, UnitSystem::Si];

fn site(edition: Edition) -> AsceSite {
    let v = BasicWindSpeed::strength_level(mph(130.0)).unwrap();
    AsceSite::new(edition, v, Exposure::C)
}

fn shape(length: f64, top: f64, gap: f64, solidity: f64) -> WallShape {
    WallShape::new(ft(length), ft(top), ft(gap), solidity).unwrap()
}

fn ends(start: Option<f64>, end: Option<f64>) -> WallEnds {
    let end_of = |length: Option<f64>| length.map_or(WallEnd::Free, |l| WallEnd::Return(ft(l)));
    WallEnds {
        start: end_of(start),
        end: end_of(end),
    }
}

/// A piece of a wall in one case, whole: from the site to the force.
fn piece<C: WindCode>(
    wall: &WallWind<C>,
    case: WindCase,
    (from, to): (f64, f64),
    system: UnitSystem,
) -> Worksheet {
    let mut sheet = Worksheet::new("", system);
    wall.write_site(&mut sheet);
    wall.write(case, ft(from), ft(to), &mut sheet);
    checked(&sheet);
    present(&sheet, &["s", "x1", "x2", "W"]);
    assert_eq!(quantity::<Length>(&sheet, "x1").to(ft), from);
    assert_eq!(quantity::<Length>(&sheet, "x2").to(ft), to);
    assert_eq!(
        quantity::<Force>(&sheet, "W"),
        wall.force(case, ft(from), ft(to))
    );
    sheet
}

fn asce(site: &AsceSite, shape: WallShape, ends: WallEnds) -> WallWind<AsceSite> {
    WallWind::new(site, shape, ends).unwrap()
}

const START: WindCase = WindCase::Zones(Edge::Start);
const END: WindCase = WindCase::Zones(Edge::End);

/// q = 0.00256 Kz Kzt Kd Ke V²: Ke from 7-16 on, Kd in the force from 7-22 on.
#[test]
fn velocity_pressure_by_edition() {
    let fence = shape(80.0, 6.0, 0.0, 1.0);
    for (edition, ke, kd) in [
        (Edition::Asce7_10, false, true),
        (Edition::Asce7_16, true, true),
        (Edition::Asce7_22, true, false),
    ] {
        for system in SYSTEMS {
            let wall = asce(&site(edition), fence, WallEnds::FREE);
            let sheet = piece(&wall, WindCase::Uniform, (0.0, 8.0), system);
            present(&sheet, &["V", "h", "Kz", "Kzt", "Kd", "q", "G", "Cf", "p"]);
            assert_eq!(has(&sheet, "Ke"), ke);
            assert_eq!(uses(&sheet, "q", "Ke"), ke);
            assert_eq!(uses(&sheet, "q", "Kd"), kd);
            assert_eq!(uses(&sheet, "p", "Kd"), !kd);
            for term in ["Kz", "Kzt", "V"] {
                assert!(uses(&sheet, "q", term));
            }
            // At sea level it is 1, and no formula is shown.
            if ke {
                assert_eq!(step(&sheet, "Ke").origin, Origin::Given);
                assert_eq!(ratio_of(&sheet, "Ke"), 1.0);
                let high = site(edition).at_elevation(ft(5_000.0)).unwrap();
                let wall = asce(&high, fence, WallEnds::FREE);
                let sheet = piece(&wall, WindCase::Uniform, (0.0, 8.0), system);
                assert!(uses(&sheet, "Ke", "ze"));
                assert!(ratio_of(&sheet, "Ke") < 0.9);
                assert_eq!(count(&sheet, "Ke"), 1);
            }
        }
    }
}

/// The remark on constants of the other unit system, exactly where they are.
#[test]
fn constants_of_the_other_system() {
    let fence = shape(80.0, 6.0, 0.0, 1.0);
    for (constants, system, told) in [
        (PrintedConstants::Customary, UnitSystem::Us, false),
        (PrintedConstants::Customary, UnitSystem::Si, true),
        (PrintedConstants::Si, UnitSystem::Us, true),
        (PrintedConstants::Si, UnitSystem::Si, false),
    ] {
        let site = site(Edition::Asce7_16).with_constants(constants);
        let wall = asce(&site, fence, WallEnds::FREE);
        let sheet = piece(&wall, WindCase::Uniform, (0.0, 8.0), system);
        assert_eq!(says(&sheet, "of the other unit system"), told);
    }
}

/// Kzt: K1, K2, K3 only by a hill that counts (7-16: H/Lh from 0.2 on; H from
/// 15 ft in exposure C), 2 H for Lh above H/Lh = 0.5 only.
#[test]
fn topography_lines() {
    let fence = shape(80.0, 6.0, 0.0, 1.0);
    let of = |height: f64, half: f64| {
        let hill = Topography::new(Feature::Ridge, ft(height), ft(half), ft(20.0), Side::Upwind);
        let site = site(Edition::Asce7_16).with_topography(hill.unwrap());
        let wall = asce(&site, fence, WallEnds::FREE);
        piece(&wall, WindCase::Uniform, (0.0, 8.0), UnitSystem::Us)
    };
    let parts = ["K1", "K2", "K3"];
    let flat = piece(
        &asce(&site(Edition::Asce7_16), fence, WallEnds::FREE),
        WindCase::Uniform,
        (0.0, 8.0),
        UnitSystem::Us,
    );
    absent(&flat, &["H", "Lh", "Le", "K1", "K2", "K3"]);
    for (height, half, counts, steep) in [
        (60.0, 300.0, true, false),
        (60.0, 301.0, false, false),
        (14.9, 40.0, false, false),
        (15.0, 40.0, true, false),
        (60.0, 120.0, true, false),
        (60.0, 119.0, true, true),
        (60.0, 30.0, true, true),
    ] {
        let sheet = of(height, half);
        present(&sheet, &["H", "Lh", "Kzt"]);
        for part in parts {
            assert_eq!(has(&sheet, part), counts, "{height} {half}");
        }
        assert_eq!(has(&sheet, "Le"), steep, "{height} {half}");
        assert_eq!(ratio_of(&sheet, "Kzt") > 1.0, counts);
        assert_eq!(step(&sheet, "Kzt").origin == Origin::Computed, counts);
    }
}

/// The wall figure by s/h, B/s and openings; the open figure by solid area; both
/// between 65 and 70 % solid.
#[test]
fn wall_and_open_figure() {
    let every = WallOptions::default().eccentric_case(EccentricCase::EveryRun);
    let site = site(Edition::Asce7_16).with_options(every);
    let wall_only = ["s/h", "B/s", "fo", "Cf"];
    for (solidity, wall, open) in [
        (1.0, true, false),
        (0.701, true, false),
        (0.7, true, true),
        (0.65, true, true),
        (0.649, false, true),
        (0.3, false, true),
    ] {
        for system in SYSTEMS {
            let it = asce(&site, shape(80.0, 6.0, 0.5, solidity), WallEnds::FREE);
            let sheet = piece(&it, WindCase::Uniform, (0.0, 8.0), system);
            for symbol in wall_only {
                assert_eq!(has(&sheet, symbol), wall, "{symbol} {solidity}");
            }
            assert_eq!(has(&sheet, "Co"), open);
            assert_eq!(has(&sheet, "pw"), wall && open);
            assert_eq!(has(&sheet, "po"), wall && open);
            assert_eq!(says(&sheet, "both figures are computed"), wall && open);
            assert_eq!(says(&sheet, "the figure of open signs"), !wall);
            assert_eq!(count(&sheet, "p"), 1);
            assert_eq!(
                quantity::<Pressure>(&sheet, "p"),
                it.uniform_pressure().unwrap()
            );
            // The velocity pressure of each figure at its own height.
            assert_eq!(count(&sheet, "Kz"), usize::from(wall) + usize::from(open));
            absent(&sheet, &["Dq"]);
            let titles = sheet.sections.iter();
            let titles = titles.filter(|section| section.title == "Velocity pressure");
            assert_eq!(titles.count(), usize::from(wall) + usize::from(open));
            // The off-centre case has the wall figure alone.
            if wall {
                let sheet = piece(&it, WindCase::OffCentre(Edge::Start), (0.0, 8.0), system);
                present(&sheet, &["Cf", "p"]);
                absent(&sheet, &["pw", "po", "Co"]);
            }
        }
    }
}

/// Where both figures are computed the worse counts, whichever it is.
#[test]
fn the_worse_of_both_figures() {
    let site = site(Edition::Asce7_16);
    let mut seen = [false; 2];
    // Cf of a long wall is less, of a short one on the ground more or less.
    for (length, gap) in [
        (80.0, 0.0),
        (6.0, 0.0),
        (6.0, 3.0),
        (3.0, 0.5),
        (300.0, 4.0),
    ] {
        for solidity in [0.65, 0.68, 0.7] {
            let it = asce(&site, shape(length, 6.0, gap, solidity), WallEnds::FREE);
            let sheet = piece(&it, WindCase::Uniform, (0.0, 3.0), UnitSystem::Us);
            let (wall, open) = (
                quantity::<Pressure>(&sheet, "pw"),
                quantity::<Pressure>(&sheet, "po"),
            );
            seen[usize::from(open > wall)] = true;
            let worse = if open > wall { open } else { wall };
            assert_eq!(quantity::<Pressure>(&sheet, "p"), worse);
        }
    }
    assert_eq!(seen, [true; 2]);
}

/// D√q against 2.5 for round members only.
#[test]
fn round_members() {
    let site = site(Edition::Asce7_16);
    for (infill, round) in [
        (Infill::woven_mesh(inch(0.15), inch(2.0)).unwrap(), true),
        (Infill::round_bars(inch(2.0), inch(3.0)).unwrap(), true),
        (Infill::round_bars(inch(8.0), inch(9.0)).unwrap(), true),
        (Infill::pickets(inch(2.0), inch(3.0)).unwrap(), false),
    ] {
        for system in SYSTEMS {
            let shape = shape(80.0, 6.0, 0.0, 1.0).with_infill(&infill);
            let it = asce(&site, shape, WallEnds::FREE);
            let sheet = piece(&it, WindCase::Uniform, (0.0, 8.0), system);
            assert_eq!(has(&sheet, "Dq"), round);
            let meaning = step(&sheet, "Co").meaning;
            assert_eq!(meaning.contains("flat members"), !round);
            if round {
                assert_eq!(
                    ratio_of(&sheet, "Dq") > 2.5,
                    meaning.contains("above the limit")
                );
            }
        }
    }
}

/// Case C: 1.8 − s/h for s/h above 0.8 only.
#[test]
fn factor_near_the_ground() {
    let site = site(Edition::Asce7_16);
    for (gap, reduced) in [
        (0.0, true),
        (1.9, true),
        (2.0, false),
        (2.1, false),
        (5.0, false),
    ] {
        for case in [START, END] {
            let it = asce(&site, shape(80.0, 10.0, gap, 1.0), WallEnds::FREE);
            let sheet = piece(&it, case, (0.0, 8.0), UnitSystem::Us);
            assert_eq!(uses(&sheet, "fg", "h"), reduced, "{gap}");
            let by_hand: f64 = if reduced {
                1.8 - (10.0 - gap) / 10.0
            } else {
                1.0
            };
            assert!((ratio_of(&sheet, "fg") - by_hand).abs() < 1e-9);
            present(&sheet, &["Ctab", "Cf", "fo"]);
            absent(&sheet, &["fr", "lr"]);
        }
        // Not in Case A.
        let it = asce(&site, shape(80.0, 10.0, gap, 1.0), WallEnds::FREE);
        absent(
            &piece(&it, WindCase::Uniform, (0.0, 8.0), UnitSystem::Us),
            &["fg", "Ctab"],
        );
    }
}

/// The return corner: only at the windward end, only with a return that
/// reduces; its formula by Lr/s below 0.3, to 1, and beyond.
#[test]
fn return_corner_lines() {
    let first_row = WallOptions::default().short_return(ShortReturn::FirstRow);
    let plain = site(Edition::Asce7_16);
    let first_row = plain.with_options(first_row);
    let of = |site: &AsceSite, start: Option<f64>, end: Option<f64>, case| {
        let it = asce(site, shape(80.0, 5.0, 0.0, 1.0), ends(start, end));
        let sheet = piece(&it, case, (0.0, 80.0), UnitSystem::Us);
        assert_eq!(has(&sheet, "lr"), has(&sheet, "fr"));
        sheet
    };
    // s = 5 ft: Lr of 1.5 is 0.3 s.
    for (length, formula) in [
        (1.5, "0.90 - 0.15*(lr - 0.3)/0.7"),
        (4.9, "0.90 - 0.15*(lr - 0.3)/0.7"),
        (5.0, "0.75 - 0.15*min(lr - 1, 1)"),
        (9.0, "0.75 - 0.15*min(lr - 1, 1)"),
        (30.0, "0.75 - 0.15*min(lr - 1, 1)"),
    ] {
        for (start, end, with, without) in [
            (Some(length), None, START, END),
            (None, Some(length), END, START),
        ] {
            let sheet = of(&plain, start, end, with);
            assert_eq!(step(&sheet, "fr").formula, formula, "{length}");
            assert!((ratio_of(&sheet, "lr") - length / 5.0).abs() < 1e-12);
            absent(&of(&plain, start, end, without), &["fr", "lr"]);
        }
    }
    // Both ends with returns: each case its own.
    for (case, length) in [(START, 3.0), (END, 7.0)] {
        let sheet = of(&plain, Some(3.0), Some(7.0), case);
        let found = quantity_of_term::<Length>(&sheet, "lr", "Lr").to(ft);
        assert!((found - length).abs() < 1e-9);
    }
    // Below 0.3 s nothing by default, 0.90 where so chosen.
    absent(&of(&plain, Some(1.4), None, START), &["fr", "lr"]);
    let sheet = of(&first_row, Some(1.4), None, START);
    assert_eq!(step(&sheet, "fr").origin, Origin::Given);
    assert_eq!(ratio_of(&sheet, "fr"), 0.9);
    // It goes on the first strip alone.
    let sheet = of(&plain, Some(5.0), None, START);
    let factors: Vec<f64> = sheet
        .steps()
        .filter(|step| step.symbol == "Cf")
        .map(|step| {
            let fr = step.terms.iter().find(|term| term.symbol == "fr").unwrap();
            fr.value.quantity::<Ratio>().unwrap().value
        })
        .collect();
    assert!((factors[0] - 0.75).abs() < 1e-12 && factors.len() > 3);
    assert!(factors[1..].iter().all(|factor| *factor == 1.0));
}

/// A piece holds a pressure line for each strip it lies in, no more and no
/// less, whichever way the wind comes.
#[test]
fn strips_of_a_piece() {
    // s = 6 ft: strips to 6, 12, 18, 24, 30, 60 and 80 from the windward edge.
    let it = asce(
        &site(Edition::Asce7_16),
        shape(80.0, 6.0, 0.0, 1.0),
        WallEnds::FREE,
    );
    for (from, to, of_start, of_end) in [
        (0.0, 80.0, 7, 7),
        (0.0, 6.0, 1, 1),
        (6.0, 12.0, 1, 1),
        (5.0, 13.0, 3, 1),
        (12.0, 20.0, 2, 1),
        (50.0, 68.0, 2, 3),
        (74.0, 80.0, 1, 1),
    ] {
        for (case, strips) in [(START, of_start), (END, of_end)] {
            let sheet = piece(&it, case, (from, to), UnitSystem::Us);
            for (i, symbol) in ["p1", "p2", "p3", "p4", "p5", "p6", "p7"]
                .iter()
                .enumerate()
            {
                assert_eq!(
                    count(&sheet, symbol),
                    usize::from(i < strips),
                    "{from} {to}"
                );
                assert_eq!(uses(&sheet, "W", symbol), i < strips);
            }
            assert_eq!(count(&sheet, "Ctab"), strips);
            assert!(says(
                &sheet,
                if case == START {
                    "Windward edge at the start"
                } else {
                    "Windward edge at the end"
                }
            ));
        }
    }
}

/// Off centre: heavier towards its own edge, by the formula printed.
#[test]
fn off_centre_lines() {
    let it = asce(
        &site(Edition::Asce7_16),
        shape(12.0, 6.0, 0.0, 1.0),
        WallEnds::FREE,
    );
    for system in SYSTEMS {
        for (edge, sign) in [(Edge::Start, 1.0), (Edge::End, -1.0)] {
            let sheet = piece(&it, WindCase::OffCentre(edge), (1.0, 4.0), system);
            assert!(uses(&sheet, "W", "e") && uses(&sheet, "W", "B"));
            let even = piece(&it, WindCase::Uniform, (1.0, 4.0), system);
            assert!(!uses(&even, "W", "e"));
            // 1 + 12 · 0.2 · (0.5 − 2.5/12) towards the start.
            let ratio = quantity::<Force>(&sheet, "W") / quantity::<Force>(&even, "W");
            let by_hand = 1.0 + sign * 2.4 * (0.5 - 2.5 / 12.0);
            assert!((ratio.value - by_hand).abs() < 1e-12);
        }
    }
}

/// The clause of the minimum where it rules, of the force where not.
#[test]
fn the_minimum_is_cited_where_it_rules() {
    let slow = BasicWindSpeed::strength_level(mph(85.0)).unwrap();
    let slow = AsceSite::new(Edition::Asce7_16, slow, Exposure::B);
    let fence = shape(300.0, 6.0, 0.0, 1.0);
    // A case of its own, in both systems and of an open fence too.
    for system in SYSTEMS {
        for (solidity, p) in [(1.0, 16.0), (0.5, 8.0)] {
            let it = asce(&slow, shape(300.0, 6.0, 0.0, solidity), WallEnds::FREE);
            let sheet = piece(&it, WindCase::Minimum, (0.0, 8.0), system);
            let found = quantity::<Pressure>(&sheet, "p");
            assert!((found.to(psf) - p).abs() < 1e-9);
            let cited = step(&sheet, "p").citation.unwrap();
            assert_eq!(cited.id, groundline::source::ASCE7_MINIMUM.id);
            let formula = if solidity < 1.0 { "pmin*eps" } else { "pmin" };
            assert_eq!(step(&sheet, "p").formula, formula);
        }
    }
    // As a floor.
    let floor = WallOptions::default().minimum_case(MinimumCase::EveryStrip);
    let slow = slow.with_options(floor);
    let cited = |site: &AsceSite| {
        let it = asce(site, fence, WallEnds::FREE);
        let sheet = piece(&it, WindCase::Uniform, (0.0, 8.0), UnitSystem::Us);
        (
            step(&sheet, "p").citation.unwrap(),
            quantity::<Pressure>(&sheet, "p"),
        )
    };
    let (least, p) = cited(&slow);
    assert_eq!(p, psf(16.0));
    assert_eq!(least.id, groundline::source::ASCE7_MINIMUM.id);
    let (force, p) = cited(&site(Edition::Asce7_16));
    assert!(p > psf(16.0));
    assert_eq!(force.id, groundline::source::ASCE7_WALL_FORCE.id);
}

/// Two infills: said, and read by the more solid part.
#[test]
fn two_infills() {
    let site = site(Edition::Asce7_16);
    let board = shape(80.0, 6.0, 0.0, 1.0);
    let lattice = Infill::lattice(inch(1.5), inch(2.5)).unwrap();
    let topped = board.with_topping(0.25, &lattice).unwrap();
    let of = |shape| {
        piece(
            &asce(&site, shape, WallEnds::FREE),
            WindCase::Uniform,
            (0.0, 8.0),
            UnitSystem::Us,
        )
    };
    assert!(!says(&of(board), "Two infills"));
    let sheet = of(topped);
    assert!(says(&sheet, "Two infills"));
    // s is 4.5 ft of the boards, 0 to 4.5 ft.
    assert!((ratio_of(&sheet, "B/s") - 80.0 / 4.5).abs() < 1e-9);
    assert!((ratio_of(&sheet, "s/h") - 1.0).abs() < 1e-9);
}

/// How solidity comes about: nothing for boards tight, covered share only where
/// openings are covered, both parts of a topped panel.
#[test]
fn solidity_lines() {
    let of = |panel: Panel| {
        let fence = Fence::new(FenceRun::new(panel, ft(40.0), ft(8.0)).unwrap());
        let site = site(Edition::Asce7_16);
        let wind = FenceWind::new(&site, &fence).unwrap();
        let post = &fence.posts()[2];
        let mut sheet = Worksheet::new("", UnitSystem::Us);
        wind.write(post, &wind.cases(post)[0], &mut sheet);
        checked(&sheet);
        sheet
    };
    let title = |sheet: &Worksheet| {
        let titles = sheet.sections.iter();
        titles
            .filter(|s| s.title == "Solidity of the panel")
            .count()
    };
    let tight = Panel::new(ft(6.0)).unwrap();
    let sheet = of(tight);
    assert_eq!(title(&sheet), 0);
    absent(&sheet, &["eps"]);
    let pickets = Infill::pickets(inch(3.5), inch(0.5)).unwrap();
    let sheet = of(tight.with_infill(pickets));
    assert_eq!((title(&sheet), count(&sheet, "eps")), (1, 1));
    assert!(uses(&sheet, "eps", "w") && uses(&sheet, "eps", "t"));
    assert!(!uses(&sheet, "eps", "f"));
    assert!((ratio_of(&sheet, "eps") - 0.875).abs() < 1e-12);
    let sheet = of(tight.with_infill(pickets.covered(0.25).unwrap()));
    assert!(uses(&sheet, "eps", "f"));
    assert!((ratio_of(&sheet, "eps") - (1.0 - 0.125 * 0.75)).abs() < 1e-12);
    let lattice = Infill::lattice(inch(1.5), inch(2.5)).unwrap();
    let sheet = of(tight.with_topping(ft(1.5), lattice).unwrap());
    assert_eq!((title(&sheet), count(&sheet, "eps")), (1, 3));
    assert!(uses(&sheet, "eps", "eb") && uses(&sheet, "eps", "et") && uses(&sheet, "eps", "r"));
    let given = tight.with_solidity(0.8).unwrap();
    assert!((ratio_of(&of(given), "eps") - 0.8).abs() < 1e-12);
    for infill in [
        Infill::boards_on_both_sides(inch(3.0), inch(5.0)).unwrap(),
        Infill::woven_mesh(inch(0.15), inch(2.0)).unwrap(),
    ] {
        let sheet = of(tight.with_infill(infill));
        assert!((ratio_of(&sheet, "eps") - infill.solidity()).abs() < 1e-12);
    }
}

/// hr: never below 0.55 h where that is chosen and higher; else the middle.
#[test]
fn height_of_the_resultant() {
    let of = |gap: f64, options: WallOptions, solidity: f64| {
        let panel = Panel::new(ft(10.0))
            .unwrap()
            .with_clearance(ft(gap))
            .unwrap()
            .with_solidity(solidity)
            .unwrap();
        let fence = Fence::new(FenceRun::new(panel, ft(80.0), ft(8.0)).unwrap());
        let site = site(Edition::Asce7_16).with_options(options);
        let wind = FenceWind::new(&site, &fence).unwrap();
        let post = &fence.posts()[4];
        let case = &wind.cases(post)[0];
        let mut sheet = Worksheet::new("", UnitSystem::Us);
        wind.write(post, case, &mut sheet);
        checked(&sheet);
        assert_eq!(count(&sheet, "hr"), 1);
        assert!(uses(&sheet, "Mw", "hr") && uses(&sheet, "Mw", "Vw"));
        let height = quantity::<Length>(&sheet, "hr");
        let arm = case.wind.moment().value / case.wind.shear().value;
        assert!((height.value - arm).abs() < 1e-9);
        (height.to(ft), step(&sheet, "hr").formula.contains("0.55"))
    };
    let near = |a: (f64, bool), b: (f64, bool)| (a.0 - b.0).abs() < 1e-9 && a.1 == b.1;
    let printed = WallOptions::default().resultant_height(ResultantHeight::AsPrinted);
    let plain = WallOptions::default();
    // Mid-height of 10 ft with a gap c is 5 + c/2: 5.5 at a gap of 1.
    assert!(near(of(0.0, plain, 1.0), (5.5, true)));
    assert!(near(of(0.9, plain, 1.0), (5.5, true)));
    assert!(near(of(1.1, plain, 1.0), (5.55, false)));
    assert!(near(of(3.0, plain, 1.0), (6.5, false)));
    assert!(near(of(0.0, printed, 1.0), (5.5, true)));
    assert!(near(of(0.2, printed, 1.0), (5.1, false)));
    // The open figure: the middle.
    assert!(near(of(0.0, plain, 0.4), (5.0, false)));
}

/// EN 1991-1-4: the factors of the velocity; none of them with qp given.
#[test]
fn peak_velocity_pressure_lines() {
    let vb0 = FundamentalSpeed::ten_minute_mean(m_per_s(25.0)).unwrap();
    let site = EnSite::new(vb0, Terrain::Three);
    let chain = ["vb0", "vb", "z", "kr", "cr", "vm", "Iv"];
    for system in SYSTEMS {
        let it = WallWind::new(&site, shape(80.0, 6.0, 0.0, 1.0), WallEnds::FREE).unwrap();
        let sheet = piece(&it, START, (0.0, 8.0), system);
        present(&sheet, &chain);
        for (symbol, term) in [
            ("vb", "cdir"),
            ("vb", "cseason"),
            ("vb", "cprob"),
            ("cr", "z0"),
            ("cr", "zmin"),
            ("vm", "co"),
            ("Iv", "kI"),
            ("qp", "rho"),
            ("qp", "Iv"),
            ("qp", "vm"),
        ] {
            assert!(uses(&sheet, symbol, term), "{symbol} {term}");
        }
        present(&sheet, &["l/h", "cscd", "eps", "cn", "cp", "p1", "qp"]);
        absent(&sheet, &["psi", "ct"]);
        let given = site.with_peak_pressure(kpa(0.9)).unwrap();
        let it = WallWind::new(&given, shape(80.0, 6.0, 0.0, 1.0), WallEnds::FREE).unwrap();
        let sheet = piece(&it, START, (0.0, 8.0), system);
        absent(&sheet, &chain);
        assert_eq!(step(&sheet, "qp").origin, Origin::Given);
    }
}

/// 7.4.1: return corner and shelter only where they are; zones to 0.3 h, 2 h,
/// 4 h; 7.4.3 and 7.11 by their own coefficients.
#[test]
fn walls_signboards_and_lattices() {
    let vb0 = FundamentalSpeed::ten_minute_mean(m_per_s(25.0)).unwrap();
    let site = EnSite::new(vb0, Terrain::Two);
    let wall = |site: &EnSite, start, end, case, piece_of| {
        let it = WallWind::new(site, shape(80.0, 5.0, 0.0, 1.0), ends(start, end)).unwrap();
        piece(&it, case, piece_of, UnitSystem::Si)
    };
    for (start, end, case, returned) in [
        (None, None, START, false),
        (Some(3.0), None, START, true),
        (Some(3.0), None, END, false),
        (None, Some(8.0), END, true),
        (None, Some(8.0), START, false),
    ] {
        // h = 5 ft: zones to 1.5, 10, 20 and 80 ft.
        let sheet = wall(&site, start, end, case, (0.0, 80.0));
        assert_eq!(count(&sheet, "cn"), 4);
        assert_eq!(count(&sheet, "ct"), if returned { 4 } else { 0 });
        assert_eq!(count(&sheet, "cp"), 4);
        let tables: Vec<&str> = sheet
            .steps()
            .filter(|step| step.symbol == "cn")
            .map(|step| step.meaning.split_at(6).0)
            .collect();
        assert_eq!(tables, ["zone A", "zone B", "zone C", "zone D"]);
        // l/h = 16 is held at 10: the last row.
        for (step, cn) in sheet
            .steps()
            .filter(|step| step.symbol == "cn")
            .zip([3.4, 2.1, 1.7, 1.2])
        {
            let found = step.result.quantity::<Ratio>().unwrap().value;
            assert!((found - cn).abs() < 1e-12);
        }
        absent(&sheet, &["psi"]);
        // Without shelter and of a solid wall cp is that of the table.
        if !returned {
            let (cp, cn) = (ratio_of(&sheet, "cp"), ratio_of(&sheet, "cn"));
            assert!((cp - cn).abs() < 1e-12);
        }
    }
    let sheltered = site.with_shelter_factor(0.7).unwrap();
    // h from either end not sheltered: 1.5, 5, 10, 20, 75 and 80 ft.
    let sheet = wall(&sheltered, None, None, START, (0.0, 80.0));
    assert_eq!(count(&sheet, "psi"), 1);
    let with: Vec<bool> = sheet
        .steps()
        .filter(|step| step.symbol == "cp")
        .map(|step| step.formula.contains("psi"))
        .collect();
    assert_eq!(with, [false, false, true, true, true, false]);

    // A gap of a quarter of the height: a signboard, cf 1.8, 0.25 b off centre.
    for (gap, signboard) in [(1.0, false), (1.1, true)] {
        let it = WallWind::new(&site, shape(80.0, 5.3, gap, 1.0), WallEnds::FREE).unwrap();
        assert_eq!(it.has(WindCase::OffCentre(Edge::Start)), signboard);
        let case = if signboard {
            WindCase::OffCentre(Edge::Start)
        } else {
            START
        };
        let sheet = piece(&it, case, (0.0, 8.0), UnitSystem::Si);
        assert_eq!(says(&sheet, "Signboard, 7.4.3"), signboard);
        assert_eq!(says(&sheet, "Free-standing wall, 7.4.1"), !signboard);
        if signboard {
            assert_eq!(ratio_of(&sheet, "cp"), 1.8);
            assert_eq!(quantity_of_term::<Ratio>(&sheet, "W", "e").value, 0.25);
            absent(&sheet, &["cn", "psi", "eps"]);
            present(&sheet, &["p"]);
        }
    }
    let lattice = site.with_lattice_coefficient(1.6).unwrap();
    let it = WallWind::new(&lattice, shape(80.0, 5.0, 0.0, 0.4), WallEnds::FREE).unwrap();
    let sheet = piece(&it, WindCase::Uniform, (0.0, 8.0), UnitSystem::Si);
    assert_eq!(ratio_of(&sheet, "cp"), 1.6);
    assert!(uses(&sheet, "p", "eps") && says(&sheet, "Plane lattice, 7.11"));
    absent(&sheet, &["cn", "psi"]);
}

/// AS/NZS 1170.2: the formula by b/c and c/h, the zones, the mean of the zones.
#[test]
fn hoardings() {
    let speed = RegionalSpeed::ultimate(m_per_s(45.0)).unwrap();
    let site = AsNzsSite::new(speed);
    let of = |length: f64, top: f64, gap: f64| {
        WallWind::new(&site, shape(length, top, gap, 0.9), WallEnds::FREE).unwrap()
    };
    let short = "1.3 + 0.5*(0.3 + log10(bc))*(0.8 - ch)";
    let (long, high) = ("1.7 - 0.5*ch", "1.4 + 0.3*log10(bc)");
    let high_long = "max(1.4 + 0.3*log10(bc), 1.7 - 0.5*ch)";
    for (length, top, gap, formula) in [
        (25.0, 5.0, 0.0, short),
        (25.1, 5.0, 0.0, long),
        (25.0, 25.0, 20.0, short),
        (25.0, 26.0, 21.0, high),
        (100.0, 26.0, 21.0, high),
        // 1.4 + 0.3 log 5.2 = 1.615 is below 1.7 - 0.5/10 = 1.65, of 8 above.
        (26.0, 50.0, 45.0, high_long),
        (40.0, 50.0, 45.0, high),
    ] {
        for system in SYSTEMS {
            let it = of(length, top, gap);
            let sheet = piece(&it, WindCase::Uniform, (0.0, 4.0), system);
            assert_eq!(step(&sheet, "Cpn").formula, formula, "{length} {top} {gap}");
            present(&sheet, &["VR", "Vdes", "q", "b/c", "c/h", "Kp", "p"]);
            for term in ["VR", "Mc", "Md", "Mzcat", "Ms", "Mt"] {
                assert!(uses(&sheet, "Vdes", term));
            }
            for term in ["q", "Cpn", "Kp"] {
                assert!(uses(&sheet, "p", term));
            }
            absent(&sheet, &["zf", "zt"]);
            assert!(!says(&sheet, "below the least of the table"));
            assert!((ratio_of(&sheet, "b/c") - length / (top - gap)).abs() < 1e-9);
            assert!((ratio_of(&sheet, "c/h") - (top - gap) / top).abs() < 1e-9);
        }
    }
    for (length, below) in [(2.6, false), (2.4, true)] {
        let sheet = piece(
            &of(length, 5.0, 0.0),
            WindCase::Uniform,
            (0.0, 2.0),
            UnitSystem::Si,
        );
        assert_eq!(says(&sheet, "below the least of the table"), below);
    }
    // Zones to 2 h and 4 h of a wall on the ground.
    let it = of(80.0, 5.0, 0.0);
    for case in [START, END] {
        let sheet = piece(&it, case, (0.0, 80.0), UnitSystem::Si);
        assert_eq!(
            (
                count(&sheet, "zf"),
                count(&sheet, "zt"),
                count(&sheet, "Cpn")
            ),
            (3, 3, 3)
        );
        let first = sheet.steps().find(|step| step.symbol == "Cpn").unwrap();
        let first = first.result.quantity::<Ratio>().unwrap().value;
        assert_eq!(first, 2.4);
    }
    // Off centre: the mean of the zones of a long wall, 0° of a short one.
    let off = WindCase::OffCentre(Edge::Start);
    let sheet = piece(&it, off, (0.0, 8.0), UnitSystem::Si);
    for term in ["C1", "l1", "C2", "l2", "C3", "l3", "b"] {
        assert!(uses(&sheet, "Cpn", term));
    }
    // 2.4·10 + 1.2·10 + 0.6·60 over 80.
    assert!((ratio_of(&sheet, "Cpn") - 72.0 / 80.0).abs() < 1e-9);
    let clause = |sheet: &Worksheet| step(sheet, "p").citation.unwrap().id;
    let zoned = clause(&sheet);
    let sheet = piece(&of(20.0, 5.0, 0.0), off, (0.0, 8.0), UnitSystem::Si);
    assert_eq!(step(&sheet, "Cpn").formula, short);
    assert_eq!(clause(&sheet), groundline::source::ASNZS_B2_B.id);
    assert_eq!(zoned, groundline::source::ASNZS_OFF_CENTRE_ZONES.id);
    let normal = piece(&it, WindCase::Uniform, (0.0, 8.0), UnitSystem::Si);
    assert_eq!(clause(&normal), groundline::source::ASNZS_B2_A.id);
}

/// A pressure given stands on the sheet as given.
#[test]
fn a_given_pressure() {
    let code = DirectPressure::new(psf(25.0), AllowableStress::Basic)
        .unwrap()
        .acting_at(0.5)
        .unwrap();
    let it = WallWind::new(&code, shape(80.0, 5.0, 0.0, 1.0), WallEnds::FREE).unwrap();
    let sheet = piece(&it, WindCase::Uniform, (0.0, 8.0), UnitSystem::Us);
    assert_eq!(step(&sheet, "p").origin, Origin::Given);
    assert_eq!(quantity::<Pressure>(&sheet, "p"), psf(25.0));
    assert!(says(&sheet, "Given by the user"));
}

fn corner_fence() -> Fence {
    let low = Panel::new(ft(5.0)).unwrap().with_weight(psf(4.0)).unwrap();
    let tall = Panel::new(ft(7.0)).unwrap().with_weight(psf(6.0)).unwrap();
    let single = Gate::new(ft(16.0), ft(4.0), lb(130.0), Hinges::AtStart).unwrap();
    let first = FenceRun::new(low, ft(60.0), ft(8.0))
        .unwrap()
        .with_gate(single)
        .unwrap();
    let double = Gate::new(ft(24.0), ft(10.0), lb(190.0), Hinges::Both).unwrap();
    let back = Gate::new(ft(34.0), ft(6.0), lb(150.0), Hinges::AtStart).unwrap();
    let second = FenceRun::new(tall, ft(64.0), ft(8.0))
        .unwrap()
        .with_gate(double)
        .unwrap()
        .with_gate(back)
        .unwrap();
    Fence::new(first).turning(deg(60.0), second).unwrap()
}

/// Every case of every post: its parts, the way they add, what is open, the
/// weight and its leaf, and the results.
#[test]
fn parts_of_each_case() {
    let fence = corner_fence();
    let site = site(Edition::Asce7_16);
    let wind = FenceWind::new(&site, &fence).unwrap();
    let mut kinds = Vec::new();
    for post in fence.posts() {
        for case in wind.cases(post).iter() {
            kinds.push(case.kind);
            one_case(&wind, post, case);
        }
    }
    for kind in [
        LoadCaseKind::AcrossRun,
        LoadCaseKind::BothRuns,
        LoadCaseKind::GateOpenAcross,
        LoadCaseKind::GateOpenAlong,
        LoadCaseKind::GateOpenTogether,
    ] {
        assert!(kinds.contains(&kind), "{kind:?}");
    }
}

fn one_case(wind: &FenceWind<'_, AsceSite>, post: &FencePost, case: &LoadCase) {
    let mut sheet = Worksheet::new("", UnitSystem::Us);
    wind.write(post, case, &mut sheet);
    checked(&sheet);
    assert_eq!(quantity::<Force>(&sheet, "Vw"), case.wind.shear());
    assert_eq!(quantity::<Torque>(&sheet, "Mw"), case.wind.moment());
    assert_eq!(quantity::<Force>(&sheet, "N"), case.dead.axial());
    assert!(says(
        &sheet,
        &format!("Load case: wind {}.", case.kind.name())
    ));
    // The leaf: as many as hang on the post.
    let leaves = post.leaves().count();
    assert_eq!(has(&sheet, "Ml"), leaves > 0);
    for (i, symbol) in ["G1", "G2"].into_iter().enumerate() {
        assert_eq!(uses(&sheet, "N", symbol), i < leaves);
        assert_eq!(leaves > 0 && uses(&sheet, "Ml", symbol), i < leaves);
    }
    if leaves > 0 {
        let leaf = case.dead.in_line().value.max(case.dead.across().value);
        assert_eq!(quantity::<Torque>(&sheet, "Ml").value, leaf);
    }
    for (i, symbol) in ["g1", "g2"].into_iter().enumerate() {
        assert_eq!(uses(&sheet, "N", symbol), i < post.arms().count());
    }
    // The parts: an arm each but where the leaf stands alone.
    let (arms, along) = (post.arms().count(), {
        let mut runs: Vec<usize> = post.leaves().map(|leaf| leaf.run).collect();
        runs.dedup();
        runs.len()
    });
    let parts = match case.kind {
        LoadCaseKind::AcrossRun | LoadCaseKind::GateOpenAcross | LoadCaseKind::GateOpenAlong => 1,
        LoadCaseKind::BothRuns => arms,
        _ => arms + along,
    };
    let moments = ["M1", "M2", "M3", "M4"];
    let forces = ["W1", "W2", "W3", "W4"];
    for i in 0..4 {
        let there = parts > 1 && i < parts;
        assert_eq!(has(&sheet, moments[i]), there, "{:?}", case.kind);
        assert_eq!(parts > 1 && uses(&sheet, "Vw", forces[i]), there);
        assert_eq!(parts > 1 && uses(&sheet, "Mw", moments[i]), there);
    }
    assert_eq!(says(&sheet, "added as vectors"), parts > 1);
    // The strips across: none where the leaf is alone, and the leaf where it is
    // open towards the wind.
    let strips = |text: &str| {
        let remarks = sheet.sections.iter().flat_map(|section| &section.remarks);
        remarks.filter(|remark| remark.starts_with(text)).count()
    };
    let (across, leaf) = match case.kind {
        LoadCaseKind::AcrossRun | LoadCaseKind::GateOpenAcross => (1, 0),
        LoadCaseKind::BothRuns => (arms, 0),
        LoadCaseKind::GateOpenAlong => {
            (0, post.leaves().filter(|leaf| leaf.run == case.run).count())
        }
        _ => (arms, leaves),
    };
    assert_eq!(strips("Across run "), across, "{:?}", case.kind);
    assert_eq!(strips("Along run "), leaf, "{:?}", case.kind);
    if parts == 1 && across == 1 {
        assert!(says(&sheet, &format!("Across run {}.", case.run + 1)));
    }
    // A gate open is said only where one is.
    if matches!(case.kind, LoadCaseKind::AcrossRun | LoadCaseKind::BothRuns) {
        assert!(!says(&sheet, "A gate is open"));
    }
    if case.kind == LoadCaseKind::GateOpenAcross {
        assert!(says(&sheet, "A gate is open"));
        assert!(!says(&sheet, "as one wall"));
    }
    // A wall whose velocity pressure is at another height brings its own: here
    // those of the other run.
    let others = post.arms().filter(|arm| arm.run != case.run).count();
    let leaves = post.leaves().filter(|leaf| leaf.run != case.run).count();
    let brought = match case.kind {
        LoadCaseKind::BothRuns => others,
        LoadCaseKind::GateOpenTogether => others + leaves,
        _ => 0,
    };
    let titles = sheet.sections.iter();
    let titles = titles.filter(|section| section.title == "Velocity pressure");
    assert_eq!(titles.count(), 1 + brought, "{:?}", case.kind);
}

/// With the run it goes on into: said where the wall is the longer one.
#[test]
fn one_wall_round_a_bend() {
    let panel = Panel::new(ft(6.0)).unwrap();
    let run = |length| FenceRun::new(panel, ft(length), ft(8.0)).unwrap();
    let straight = Fence::new(run(24.0)).turning(deg(10.0), run(24.0)).unwrap();
    let corner = Fence::new(run(24.0)).turning(deg(90.0), run(24.0)).unwrap();
    let site = site(Edition::Asce7_16);
    let mut said = [0, 0];
    for (i, fence) in [straight, corner].iter().enumerate() {
        let wind = FenceWind::new(&site, fence).unwrap();
        for post in fence.posts() {
            for case in wind.cases(post).iter() {
                let mut sheet = Worksheet::new("", UnitSystem::Us);
                wind.write(post, case, &mut sheet);
                checked(&sheet);
                let goes_on = says(&sheet, "as one wall");
                if case.kind == LoadCaseKind::AcrossRun {
                    assert_eq!(goes_on, case.wall > 0);
                }
                said[i] += usize::from(goes_on);
            }
        }
    }
    assert!(said[0] > 0 && said[1] == 0);
}

/// At a corner the solidity of each kind of panel stands once.
#[test]
fn solidity_of_each_kind_of_panel() {
    let boards = Infill::pickets(inch(3.5), inch(0.5)).unwrap();
    let others = Infill::pickets(inch(3.5), inch(0.7)).unwrap();
    let panel = |infill| Panel::new(ft(6.0)).unwrap().with_infill(infill);
    for (second, kinds) in [(boards, 1), (others, 2)] {
        let run = |infill| FenceRun::new(panel(infill), ft(40.0), ft(8.0)).unwrap();
        let fence = Fence::new(run(boards))
            .turning(deg(90.0), run(second))
            .unwrap();
        let site = site(Edition::Asce7_16);
        let wind = FenceWind::new(&site, &fence).unwrap();
        let post = fence
            .posts()
            .iter()
            .find(|post| post.arms().count() == 2)
            .unwrap();
        for case in wind.cases(post).iter() {
            let mut sheet = Worksheet::new("", UnitSystem::Us);
            wind.write(post, case, &mut sheet);
            checked(&sheet);
            assert_eq!(count(&sheet, "eps"), kinds);
        }
    }
}
