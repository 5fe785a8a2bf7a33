//! Worksheets of the ultimate sideways load and of the response: the lines of each
//! mode of failure, and the results.

use crate::worksheet_whole::*;
use approx::assert_relative_eq;
use groundline::actions::GroundlineActions;
use groundline::caution::Caution;
use groundline::lateral::*;
use groundline::limit_state::AllowableStress;
use groundline::profile::*;
use groundline::response::{PostModel, Springs};
use groundline::source::Mark;
use groundline::step::{Origin, Worksheet};
use groundline::units::*;

fn soil() -> Soil {
    Soil::new(kn_per_cu_m(18.0))
        .unwrap()
        .with_friction_angle(deg(32.0))
        .unwrap()
}

fn written(method: &dyn LateralMethod, depth: f64, height: f64) -> (Ultimate, Worksheet) {
    let mut sheet = Worksheet::new("", UnitSystem::Si);
    method.write(m(depth), m(height), &mut sheet).unwrap();
    checked(&sheet);
    let ultimate = method.ultimate(m(depth), m(height)).unwrap();
    assert!(says(&sheet, &format!("Governs: {}.", ultimate.mode.name())));
    assert_eq!(quantity::<Force>(&sheet, "Hu"), ultimate.shear);
    if has(&sheet, "Mmax") {
        let greatest = quantity::<Torque>(&sheet, "Mmax");
        assert_eq!(greatest, ultimate.greatest_moment);
    }
    (ultimate, sheet)
}

/// Broms in clay and sand, free and restrained, to the ground or the post that
/// gives way.
#[test]
fn broms_by_mode() {
    let mut seen = Vec::new();
    for head in [Head::Free, Head::Restrained] {
        for yields in [None, Some(1.0), Some(6.0)] {
            let mut clay = BromsClay::new(kpa(50.0), m(0.3)).unwrap().with_head(head);
            let sand = BromsSand::new(kn_per_cu_m(18.0), deg(30.0), m(0.3)).unwrap();
            let mut sand = sand.with_head(head);
            if let Some(moment) = yields {
                clay = clay.yielding_at(kn_m(moment)).unwrap();
                sand = sand.yielding_at(kn_m(moment)).unwrap();
            }
            for depth in [0.6, 1.0, 2.0, 6.0] {
                let free = head == Head::Free;
                let (ultimate, sheet) = written(&clay, depth, 1.5);
                let ground = ultimate.mode == Mode::Ground;
                seen.push((head, ultimate.mode));
                present(&sheet, &["X"]);
                assert_eq!(has(&sheet, "L0"), free && ground);
                assert_eq!(has(&sheet, "Mmax"), free || ground);
                assert_eq!(uses(&sheet, "Hu", "My"), !ground);
                assert_eq!(uses(&sheet, "Hu", "L0"), free && ground);
                let (ultimate, sheet) = written(&sand, depth, 1.5);
                let ground = ultimate.mode == Mode::Ground;
                seen.push((head, ultimate.mode));
                present(&sheet, &["Kp"]);
                assert_eq!(has(&sheet, "f"), free);
                assert_eq!(has(&sheet, "Mmax"), free || ground);
                assert_eq!(uses(&sheet, "Hu", "My"), !ground);
                if ground {
                    assert_eq!(uses(&sheet, "Hu", "e"), free);
                }
            }
        }
    }
    for mode in [
        (Head::Free, Mode::Ground),
        (Head::Free, Mode::PostBelow),
        (Head::Restrained, Mode::Ground),
    ] {
        assert!(seen.contains(&mode), "{mode:?}");
    }
    assert!(
        seen.iter()
            .any(|(head, mode)| *head == Head::Restrained && *mode != Mode::Ground)
    );
}

/// Three quarters of the strength, from the strength given.
#[test]
fn reduced_strengths() {
    let clay = ReducedClay::new(kpa(50.0), m(0.3)).unwrap();
    let (_, sheet) = written(&clay, 1.2, 1.5);
    let given = quantity_of_term::<Pressure>(&sheet, "su", "s0").to(kpa);
    assert!((given - 50.0).abs() < 1e-9);
    assert!((quantity::<Pressure>(&sheet, "su").to(kpa) - 37.5).abs() < 1e-9);
    let sand = ReducedSand::new(kn_per_cu_m(18.0), deg(30.0), m(0.3)).unwrap();
    let (_, sheet) = written(&sand, 1.2, 1.5);
    let tangent = 30.0_f64.to_radians().tan();
    let given = quantity_of_term::<Ratio>(&sheet, "tr", "t0").value;
    assert!((given - tangent).abs() < 1e-9);
    assert!((ratio_of(&sheet, "tr") - 0.75 * tangent).abs() < 1e-9);
}

/// Turning point where the ground gives way, none where the post yields; a layer
/// told from where it begins.
#[test]
fn balances() {
    let soil = soil();
    let layers = vec![
        Layer::new(m(0.4), soil).unwrap(),
        Layer::new(m(9.0), soil).unwrap(),
    ];
    let layered = Profile::new(layers).unwrap();
    let hansen = Hansen::new(&layered, m(0.3), Drainage::Drained).unwrap();
    let graded = RigidPlastic::graded_clay(kpa(50.0), m(0.3)).unwrap();
    let weak = hansen.clone().yielding_at(kn_m(0.3)).unwrap();
    let methods: [&dyn LateralMethod; 3] = [&hansen, &graded, &weak];
    let mut seen = [0; 2];
    for method in methods {
        for depth in [0.8, 1.6] {
            let (ultimate, sheet) = written(method, depth, 1.5);
            let turns = ultimate.rotation.is_some();
            seen[usize::from(turns)] += 1;
            assert_eq!(has(&sheet, "x"), turns);
            assert_eq!(step(&sheet, "Hu").origin == Origin::Given, !turns);
            present(&sheet, &["f", "Mmax"]);
            assert_eq!(quantity::<Length>(&sheet, "f"), ultimate.zero_shear);
            if let Some(x) = ultimate.rotation {
                assert_eq!(quantity::<Length>(&sheet, "x"), x);
            }
        }
    }
    assert!(seen[0] > 0 && seen[1] > 0);
    for (depth, told) in [(0.39, 1), (0.41, 2), (1.2, 2)] {
        let (_, sheet) = written(&hansen, depth, 1.5);
        let remarks = sheet.sections.iter().flat_map(|section| &section.remarks);
        let spans = remarks.filter(|remark| remark.starts_with("From ")).count();
        assert_eq!(spans, told, "{depth}");
    }
    // In the units of its sheet: 0.4 m, and 18 kN/m³ of soil.
    for (system, units, others) in [
        (UnitSystem::Us, ["From 1.312 ft", "psf/ft"], [" m:", "kPa"]),
        (UnitSystem::Si, ["From 0.4 m", "kPa/m"], [" ft:", "psf"]),
    ] {
        let mut sheet = Worksheet::new("", system);
        hansen.write(m(1.2), m(1.5), &mut sheet).unwrap();
        let told = sheet.sections[0].remarks.join("\n");
        assert!(units.iter().all(|unit| told.contains(unit)), "{told}");
        assert!(!others.iter().any(|unit| told.contains(unit)), "{told}");
    }
}

/// What goes into a response and what comes out; its caution only where a spring
/// is from memory.
#[test]
fn response_lines() {
    let stiffness = Stiffness::growing(kn_per_cu_m(8_000.0)).unwrap();
    let sand = Profile::uniform(soil().with_stiffness(stiffness).unwrap()).unwrap();
    for springs in [
        Springs::growing(mn_per_cu_m(3.0)).unwrap(),
        Springs::elastic(&sand).unwrap(),
    ] {
        let model = PostModel::new(kn_sq_m(60.0), m(0.3), m(1.0), springs).unwrap();
        let model = model.standing(m(1.8)).unwrap();
        let model = model.with_force(m(0.9), kn(0.5)).unwrap();
        // 0.5 kN at 0.9 m, 0.2 kN/m from 0.4 to 1.8 m, 0.3 kN and 0.1 kN·m at grade.
        let model = model.with_wind(m(0.4), m(1.8), n_per_m(200.0)).unwrap();
        let level = AllowableStress::Basic;
        let more = GroundlineActions::new(kn(0.3), kn_m(0.1), kn(2.0), level).unwrap();
        let model = model.with_actions(&more).unwrap();
        let response = model.solve().unwrap();
        assert_eq!(response.share(), 1.0);
        let mut solver = model.solver();
        solver.solve(0.5).unwrap();
        let half = solver.response();
        let mut sheet = Worksheet::new("", UnitSystem::Si);
        half.write(&model, &mut sheet);
        assert_eq!(
            step(&sheet, "s")
                .result
                .in_system(UnitSystem::Si)
                .to_string(),
            "0.5"
        );
        assert_eq!(quantity::<Length>(&sheet, "y0"), half.at_grade().deflection);
        let mut sheet = Worksheet::new("", UnitSystem::Si);
        response.write(&model, &mut sheet);
        let (shear, moment) = (0.5 + 0.2 * 1.4 + 0.3, 0.45 + 0.28 * 1.1 + 0.1);
        assert_relative_eq!(
            quantity::<Force>(&sheet, "V").to(kn),
            shear,
            max_relative = 1e-12
        );
        assert_relative_eq!(
            quantity::<Torque>(&sheet, "M").to(kn_m),
            moment,
            max_relative = 1e-12
        );
        assert_eq!(quantity::<Force>(&sheet, "N"), kn(2.0));
        let at = response.at_grade();
        // The shear the solver finds there is all of it.
        assert_relative_eq!(at.shear.to(kn), shear, max_relative = 1e-9);
        let most = response.greatest_moment();
        assert_eq!(quantity::<FlexuralRigidity>(&sheet, "EI"), model.rigidity());
        assert_eq!(quantity::<Length>(&sheet, "b"), model.width());
        assert_eq!(quantity::<Length>(&sheet, "L"), model.depth());
        assert_eq!(quantity::<Length>(&sheet, "y0"), at.deflection);
        assert_eq!(quantity::<Angle>(&sheet, "theta0"), at.rotation);
        assert_eq!(quantity::<Length>(&sheet, "lean"), response.lean());
        assert_eq!(quantity::<Length>(&sheet, "zmax"), most.depth);
        assert_eq!(quantity::<Torque>(&sheet, "Mmax"), most.moment);
        let mut sources = model.springs().sources().into_iter();
        let memory = sources.any(|source| source.mark == Mark::FromMemory);
        assert_eq!(sheet.cautions.contains(Caution::FromMemory), memory);
    }
}
