//! Every method for one post: each in its own safety format, each refusal with
//! its reason, and the working of the closed forms.

use crate::worksheet::recompute;
use crate::worksheet_whole::closed;
use approx::assert_relative_eq;
use groundline::actions::GroundlineActions;
use groundline::caution::Caution;
use groundline::embedment::PoleFormula;
use groundline::foundation::{BearingWidth, Restraint};
use groundline::ground::{Ground, LateralBearing, SoilClass};
use groundline::lateral::*;
use groundline::limit_state::AllowableStress;
use groundline::profile::{BearingSurface, Layer, Profile, Soil, Stiffness, presumed};
use groundline::report;
use groundline::response::{PostModel, Springs};
use groundline::side_by_side::*;
use groundline::source::{self, Mark};
use groundline::step::Worksheet;
use groundline::units::*;

fn sand() -> Profile {
    let soil = Soil::new(kn_per_cu_m(18.0))
        .unwrap()
        .with_friction_angle(deg(32.0))
        .unwrap();
    Profile::uniform(
        soil.with_stiffness(Stiffness::growing(kn_per_cu_m(8_000.0)).unwrap())
            .unwrap(),
    )
    .unwrap()
}

fn clay() -> Profile {
    let soil = Soil::new(kn_per_cu_m(18.0))
        .unwrap()
        .with_undrained_strength(kpa(50.0))
        .unwrap();
    Profile::uniform(
        soil.with_stiffness(Stiffness::constant(kn_per_cu_m(20_000.0)).unwrap())
            .unwrap(),
    )
    .unwrap()
}

fn load(shear: f64, moment: f64) -> GroundlineActions<AllowableStress> {
    GroundlineActions::new(kn(shear), kn_m(moment), kn(0.3), AllowableStress::Basic).unwrap()
}

fn all(profile: Profile) -> SideBySide {
    SideBySide::new(profile, m(0.3), load(1.2, 1.08), m(1.0), 1.5).unwrap()
}

/// Each verdict is its method asked directly, with its own factor.
#[test]
fn each_in_its_own_format() {
    let verdicts = all(sand()).verdicts();
    let find = |name: &str| verdicts.iter().find(|v| v.method == name).unwrap();
    let broms = BromsSand::new(kn_per_cu_m(18.0), deg(32.0), m(0.3)).unwrap();
    let verdict = find("Broms, cohesionless");
    assert_eq!(verdict.format, SafetyFormat::OverallFactor(1.5));
    let hu = broms.ultimate(m(1.0), m(0.9)).unwrap().shear.to(kn);
    assert_relative_eq!(
        verdict.utilization.unwrap().ratio(),
        1.5 * 1.2 / hu,
        max_relative = 1e-12
    );
    assert_eq!(
        verdict.needed.unwrap(),
        broms.needed_depth(kn(1.2) * 1.5, m(0.9)).unwrap()
    );
    let verdict = find("UFC 3-220-20, drained");
    // Factored loads, 2.0 on wind as live load (UFC 3-220-20, 6-55).
    assert_eq!(verdict.format, SafetyFormat::ReducedStrength(2.0));
    assert_eq!(verdict.source.id, source::UFC_REDUCED.id);
    let reduced = ReducedSand::new(kn_per_cu_m(18.0), deg(32.0), m(0.3)).unwrap();
    let hu = reduced.ultimate(m(1.0), m(0.9)).unwrap().shear.to(kn);
    assert_relative_eq!(
        verdict.utilization.unwrap().ratio(),
        2.0 * 1.2 / hu,
        max_relative = 1e-12
    );
    // The other kind of ground is refused, with a reason.
    let refused = find("Broms, cohesive").needed.unwrap_err();
    assert!(refused.to_string().contains("one clay"));
    assert!(find("Brinch Hansen").needed.is_ok());
    let plastic = find("rigid-plastic");
    let kp = passive_coefficient(deg(32.0));
    let own = RigidPlastic::linear(kn_per_cu_m(54.0 * kp), m(0.3)).unwrap();
    assert_eq!(
        plastic.needed.unwrap(),
        own.needed_depth(kn(1.8), m(0.9)).unwrap()
    );
    let verdicts = all(clay()).verdicts();
    // Each names its own document.
    let applicable: Vec<_> = verdicts
        .iter()
        .filter(|v| v.needed.is_ok())
        .map(|v| (v.method, v.source.id))
        .collect();
    assert_eq!(
        applicable,
        [
            ("Broms, cohesive", source::BROMS_CLAY.id),
            ("Brinch Hansen", source::HANSEN.id),
            ("rigid-plastic", source::RIGID_PLASTIC.id),
            ("UFC 3-220-20, undrained", source::UFC_REDUCED.id)
        ]
    );
}

/// The code beside them, a post that yields, a post too flexible.
#[test]
fn code_yield_and_flexibility() {
    let formula = PoleFormula::new(
        &Ground::presumptive(SoilClass::Class4),
        BearingWidth::new(m(0.3)).unwrap(),
        Restraint::None,
    );
    let with = all(sand()).with_code(formula);
    let verdicts = with.verdicts();
    let code = &verdicts[0];
    assert_eq!(code.method, "IBC 1807.3.2");
    let check = formula.check(&load(1.2, 1.08), m(1.0)).unwrap();
    assert_eq!(code.utilization, Some(check.utilization()));
    assert_eq!(
        code.needed.unwrap().depth().unwrap(),
        formula.required(&load(1.2, 1.08)).unwrap().depth()
    );
    let weak = all(sand()).yielding_at(kn_m(1.0));
    for verdict in weak.verdicts() {
        if let Ok(needed) = verdict.needed {
            assert_eq!(needed, NeededDepth::PostYields);
            assert_eq!(verdict.mode, Some(Mode::PostBelow));
        }
    }
    assert_eq!(all(sand()).length_class(), Ok(None));
    let class = |ei: f64| {
        all(sand())
            .with_rigidity(kn_sq_m(ei))
            .length_class()
            .unwrap()
            .unwrap()
    };
    // η L = (8 000/EI)^(1/5).
    assert_eq!(class(8_000.0 / 1.9_f64.powi(5)), LengthClass::Short);
    assert_eq!(class(8_000.0 / 2.1_f64.powi(5)), LengthClass::Intermediate);
    assert_eq!(class(8_000.0 / 4.1_f64.powi(5)), LengthClass::Long);
    let slender = all(sand()).with_rigidity(kn_sq_m(5.0));
    assert!(
        slender
            .verdicts()
            .iter()
            .filter(|v| v.needed.is_ok())
            .all(|v| v.too_flexible == Some(true))
    );
    // β L = (ks b/(4 EI))^(1/4) = 2.25 in clay.
    let class = |ei: f64| {
        all(clay())
            .with_rigidity(kn_sq_m(ei))
            .length_class()
            .unwrap()
            .unwrap()
    };
    assert_eq!(class(6_000.0 / 4.0 / 2.24_f64.powi(4)), LengthClass::Short);
    assert_eq!(class(6_000.0 / 4.0 / 2.26_f64.powi(4)), LengthClass::Long);
    assert!(with.cautions().contains(Caution::MethodsDiffer));
}

/// The code brings its cautions: of the ground it takes, of the combinations, and of the
/// depth, planned or required.
#[test]
fn cautions_of_the_code() {
    let formula = |ground: &Ground| {
        PoleFormula::new(ground, BearingWidth::new(m(0.3)).unwrap(), Restraint::None)
    };
    let class = Ground::presumptive(SoilClass::Class4);
    let own = Ground::given(LateralBearing::new(psf_per_ft(150.0)).unwrap());
    let third = AllowableStress::AlternativeWithIncrease;
    let cautions = |ground: Option<&Ground>, level, planned: f64, shear: f64| {
        let load = GroundlineActions::new(kn(shear), kn_m(shear), kn(0.0), level).unwrap();
        let all = SideBySide::new(sand(), m(0.3), load, m(planned), 1.5).unwrap();
        match ground {
            Some(ground) => all.with_code(formula(ground)).cautions(),
            None => all.cautions(),
        }
    };
    let basic = AllowableStress::Basic;
    let of_code = [
        Caution::PresumptiveSoil,
        Caution::IsolatedPole,
        Caution::OneThirdIncrease,
        Caution::BeyondTwelveFeet,
    ];
    for (ground, level, planned, shear, expected) in [
        (None, third, 4.0, 1.2, [false; 4]),
        (Some(&own), basic, 1.0, 1.2, [false; 4]),
        (Some(&class), basic, 1.0, 1.2, [true, false, false, false]),
        (
            Some(&class.as_isolated_pole()),
            basic,
            1.0,
            1.2,
            [true, true, false, false],
        ),
        (Some(&own), third, 1.0, 1.2, [false, false, true, false]),
        // 12 ft is 3.66 m.
        (Some(&own), basic, 3.65, 1.2, [false; 4]),
        (Some(&own), basic, 3.67, 1.2, [false, false, false, true]),
        // Planned shallow, and needed deep.
        (Some(&own), basic, 1.0, 1_000.0, [false, false, false, true]),
    ] {
        let found = cautions(ground, level, planned, shear);
        assert_eq!(of_code.map(|caution| found.contains(caution)), expected);
        assert!(found.contains(Caution::MethodsDiffer) && found.contains(Caution::Slope));
    }
}

/// A depth that leaves the one soil it is for is no answer.
#[test]
fn depths_stay_in_their_soil() {
    let layers = |rest: &[Layer]| {
        let top = Layer::new(m(1.0), *sand().layers()[0].soil()).unwrap();
        let mut layers = vec![top];
        layers.extend(rest);
        Profile::new(layers).unwrap()
    };
    let soft = Soil::new(kn_per_cu_m(18.0)).unwrap();
    let soft = soft.with_undrained_strength(kpa(5.0)).unwrap();
    let ask = |profile: Profile| {
        SideBySide::new(profile, m(0.3), load(4.0, 6.0), m(0.9), 1.5)
            .unwrap()
            .verdicts()
    };
    let one_soil = [
        "Broms, cohesionless",
        "rigid-plastic",
        "UFC 3-220-20, drained",
    ];
    let layered = ask(layers(&[Layer::new(m(9.0), soft).unwrap()]));
    let wet = ask(sand().with_water_at(m(0.95)).unwrap());
    let shallow = ask(layers(&[]));
    let enough = ask(sand());
    let find = |all: &[Verdict], name: &str| all.iter().find(|v| v.method == name).unwrap().clone();
    for name in one_soil {
        // Deeper than 1 m in uniform sand.
        let depth = find(&enough, name).needed.unwrap().depth().unwrap();
        assert!(depth > m(1.0), "{name}: {depth:?}");
        for refused in [&layered, &wet] {
            let verdict = find(refused, name);
            assert_eq!(verdict.needed.unwrap_err().field(), "soil");
            assert!(verdict.utilization.is_some());
        }
        let verdict = find(&shallow, name);
        assert_eq!(verdict.needed, Ok(NeededDepth::MoreThan(m(1.0))));
    }
    assert!(find(&layered, "Brinch Hansen").needed.is_ok());
}

/// A soil with both strengths is asked twice; a ring of backfill says so.
#[test]
fn two_strengths_and_a_ring() {
    let both = Soil::new(kn_per_cu_m(18.0)).unwrap();
    let both = both.with_friction_angle(deg(28.0)).unwrap();
    let both = both.with_undrained_strength(kpa(20.0)).unwrap();
    let of = |soil: Soil| all(Profile::uniform(soil).unwrap()).verdicts();
    let find =
        |all: &[Verdict], name: &str| all.iter().find(|v| v.method == name).unwrap().utilization;
    let undrained = Soil::new(kn_per_cu_m(18.0)).unwrap();
    let drained = undrained.with_friction_angle(deg(28.0)).unwrap();
    let undrained = undrained.with_undrained_strength(kpa(20.0)).unwrap();
    for method in ["Brinch Hansen", "rigid-plastic"] {
        assert_eq!(
            find(&of(both), &format!("{method}, drained")),
            find(&of(drained), method)
        );
        assert_eq!(
            find(&of(both), &format!("{method}, undrained")),
            find(&of(undrained), method)
        );
    }
    let ring = clay().borne_by(BearingSurface::Backfill(drained)).unwrap();
    assert!(all(ring.clone()).cautions().contains(Caution::BackfillRing));
    assert!(!all(clay()).cautions().contains(Caution::BackfillRing));
    assert_eq!(ring.without_ring(), clay());
}

/// A stiffness is checked where a soil takes it, out of range or no number.
#[test]
fn stiffness_is_checked() {
    let soil = Soil::new(kn_per_cu_m(18.0)).unwrap();
    for stiffness in [
        Stiffness::Constant(kn_per_cu_m(f64::NAN)),
        Stiffness::Growing(kn_per_cu_m(f64::INFINITY)),
        Stiffness::Modulus(mpa(10.0), 1.0),
    ] {
        assert!(soil.with_stiffness(stiffness).is_err());
    }
}

#[test]
fn refusals() {
    let nothing = load(0.0, 1.0);
    assert_eq!(
        SideBySide::new(sand(), m(0.3), nothing, m(1.0), 1.5)
            .unwrap_err()
            .field(),
        "shear"
    );
    let opposite = load(1.0, -1.0);
    assert!(SideBySide::new(sand(), m(0.3), opposite, m(1.0), 1.5).is_err());
    for factor in [0.9, f64::NAN, 6.0] {
        assert!(SideBySide::new(sand(), m(0.3), load(1.0, 1.0), m(1.0), factor).is_err());
    }
    // A layered ground is for Hansen alone.
    let layers = vec![
        Layer::new(m(0.4), *sand().layers()[0].soil()).unwrap(),
        Layer::new(m(3.0), *clay().layers()[0].soil()).unwrap(),
    ];
    let verdicts = all(Profile::new(layers).unwrap()).verdicts();
    let applicable: Vec<_> = verdicts
        .iter()
        .filter(|v| v.needed.is_ok())
        .map(|v| v.method)
        .collect();
    assert_eq!(applicable, ["Brinch Hansen"]);
}

/// The lines of the closed forms recompute by hand, in both systems.
#[test]
fn working_of_the_methods() {
    for system in [UnitSystem::Us, UnitSystem::Si] {
        let mut sheet = Worksheet::new("methods", system);
        let clay = BromsClay::new(kpa(50.0), m(0.3)).unwrap();
        let sand = BromsSand::new(kn_per_cu_m(18.0), deg(30.0), m(0.3)).unwrap();
        for yields in [false, true] {
            for head in [Head::Free, Head::Restrained] {
                let (mut clay, mut sand) = (clay.with_head(head), sand.with_head(head));
                if yields {
                    clay = clay.yielding_at(kn_m(3.0)).unwrap();
                    sand = sand.yielding_at(kn_m(3.0)).unwrap();
                }
                for depth in [0.6, 1.2, 3.0] {
                    clay.write(m(depth), m(1.5), &mut sheet).unwrap();
                    sand.write(m(depth), m(1.5), &mut sheet).unwrap();
                }
            }
        }
        let layers = vec![
            Layer::new(m(0.4), *self::sand().layers()[0].soil()).unwrap(),
            Layer::new(m(9.0), *self::clay().layers()[0].soil()).unwrap(),
        ];
        let layered = Profile::new(layers).unwrap();
        let hansen = Hansen::new(&layered, m(0.3), Drainage::Drained).unwrap();
        let graded = RigidPlastic::graded_clay(kpa(50.0), m(0.3)).unwrap();
        let others: [&dyn LateralMethod; 5] = [
            &hansen,
            &hansen.clone().yielding_at(kn_m(3.0)).unwrap(),
            &graded,
            &ReducedClay::new(kpa(50.0), m(0.3)).unwrap(),
            &ReducedSand::new(kn_per_cu_m(18.0), deg(30.0), m(0.3)).unwrap(),
        ];
        for method in others {
            method.write(m(1.2), m(1.5), &mut sheet).unwrap();
            assert!(method.write(m(-1.0), m(1.5), &mut sheet).is_err());
        }
        let post = PostModel::new(
            kn_sq_m(60.0),
            m(0.3),
            m(1.0),
            Springs::elastic(&self::clay()).unwrap(),
        )
        .unwrap()
        .standing(m(1.8))
        .unwrap()
        .with_force(m(0.9), kn(1.2))
        .unwrap();
        post.solve().unwrap().write(&post, &mut sheet);
        assert!(sheet.steps().count() > 60);
        closed(&sheet);
        for step in sheet.steps() {
            recompute(step, system);
        }
        let text = report::text(&sheet).to_string();
        assert!(text.contains("(from memory)") && text.contains("(derived)"));
    }
}

/// The mark of presumed ground, and stiffness of sand between the rows.
#[test]
fn presumed_values() {
    let ground = presumed::default_sand().unwrap();
    let soil = ground.layers()[0].soil();
    assert_eq!(soil.source().mark, Mark::Published);
    // The caution goes with it, as a layer or as a ring, and not without.
    let ring = BearingSurface::Backfill(*soil);
    for (profile, said) in [
        (ground.clone(), true),
        (clay().borne_by(ring).unwrap(), true),
        (clay(), false),
    ] {
        let cautions = all(profile).cautions();
        assert_eq!(cautions.contains(Caution::PresumptiveSoil), said);
    }
    // Between the rows, linear; beyond them, refused.
    let (k, _) = presumed::api_sand_stiffness(deg(36.5), false).unwrap();
    assert_relative_eq!(k.to(lb_per_cu_in), 171.0, max_relative = 1e-9);
    assert!(presumed::api_sand_stiffness(deg(28.0), false).is_err());
    assert!(presumed::api_sand_stiffness(deg(41.0), false).is_err());
}

/// UFC 3-220-20 eqs. 6-55 and 6-56: factored loads meet the reduced strength. The case of
/// the example `post_in_ground`, 1.2 kN at 0.9 m in a sand of 32°: 0.858 m, by 2.0 on
/// wind as live load, where the strength alone gave 0.653 m. Sand 30° with 1.5 kN, and
/// clay of 50 kPa with 2.5 kN at 1.0 m: 0.731 to 0.963 m and 0.855 to 1.039 m (derived).
#[test]
fn ufc_takes_factored_loads() {
    let sand = |phi: f64| {
        let soil = Soil::new(kn_per_cu_m(18.0)).unwrap();
        Profile::uniform(soil.with_friction_angle(deg(phi)).unwrap()).unwrap()
    };
    for (profile, shear, height, plain, factored) in [
        (sand(32.0), 1.2, 0.9, 0.653, 0.858),
        (sand(30.0), 1.5, 0.9, 0.731, 0.963),
        (clay(), 2.5, 1.0, 0.855, 1.039),
    ] {
        let all = SideBySide::new(profile, m(0.3), load(shear, shear * height), m(1.0), 1.5);
        let all = all.unwrap();
        let depth = |all: &SideBySide| {
            let verdicts = all.verdicts();
            let ufc = verdicts
                .iter()
                .find(|v| v.method.starts_with("UFC") && v.needed.is_ok());
            ufc.unwrap().needed.unwrap().depth().unwrap().to(m)
        };
        assert!((depth(&all) - factored).abs() < 6e-4, "{}", depth(&all));
        let strength_alone = all.with_ufc_load_factor(1.0).unwrap();
        assert!((depth(&strength_alone) - plain).abs() < 6e-4);
        assert!(strength_alone.with_ufc_load_factor(0.9).is_err());
    }
}

/// Broms' clay neglects 1.5 b: a wider post can need more depth, and the verdict says
/// so; in sand it never does.
#[test]
fn wider_can_need_deeper_in_clay() {
    let of = |profile: Profile, width: f64| {
        let all = SideBySide::new(profile, m(width), load(1.2, 1.08), m(1.5), 1.5).unwrap();
        all.verdicts()
    };
    let clay_at = |width: f64| {
        let all = of(clay(), width);
        all.into_iter()
            .find(|v| v.method == "Broms, cohesive")
            .unwrap()
    };
    let depth = |width: f64| clay_at(width).needed.unwrap().depth().unwrap();
    // 1.5 b outweighs f + g at 0.6 m, and not at 0.1 m.
    assert!(depth(0.57) < depth(0.6) && clay_at(0.6).narrower_needs_less);
    assert!(depth(0.095) > depth(0.1) && !clay_at(0.1).narrower_needs_less);
    for verdict in of(sand(), 0.6) {
        assert!(!verdict.narrower_needs_less, "{}", verdict.method);
    }
}
