//! The depth at its limits: depths that hold nothing, the 12 ft rule, forces at
//! a paved grade, a block on its base, rules of thumb, how long a post is for
//! its stiffness.

use approx::assert_relative_eq;
use groundline::actions::GroundlineActions;
use groundline::caution::{Caution, Cautions};
use groundline::embedment::*;
use groundline::foundation::*;
use groundline::ground::*;
use groundline::lateral::LengthClass;
use groundline::limit_state::*;
use groundline::source;
use groundline::units::*;

fn told(cautions: Cautions, caution: Caution) -> bool {
    cautions.iter().any(|said| said == caution)
}

fn load(shear: f64, moment: f64) -> GroundlineActions<AllowableStress> {
    at(shear, moment, AllowableStress::Basic)
}

fn at(shear: f64, moment: f64, level: AllowableStress) -> GroundlineActions<AllowableStress> {
    GroundlineActions::new(lb(shear), lb_ft(moment), lb(0.0), level).unwrap()
}

fn formula(ground: &Ground, restraint: Restraint) -> PoleFormula {
    PoleFormula::new(ground, BearingWidth::new(ft(1.0)).unwrap(), restraint)
}

/// A = 2.34 P/(S1 b) by hand, none for a post held by paving, none without a
/// load.
#[test]
fn the_a_term() {
    let soil = Ground::presumptive(SoilClass::Class4);
    let free = formula(&soil, Restraint::None);
    let paved = formula(&soil, Restraint::RigidPaving);
    for (shear, moment) in [(500.0, 2_000.0), (-500.0, -2_000.0)] {
        let required = free.required(&load(shear, moment)).unwrap();
        // S1 at a third of the depth, 150 psf/ft.
        let s1 = 150.0 * required.depth().to(ft) / 3.0;
        assert_relative_eq!(
            required.a_term().to(ft),
            2.34 * 500.0 / s1,
            max_relative = 1e-9
        );
        let check = free.check(&load(shear, moment), ft(6.0)).unwrap();
        assert_relative_eq!(
            check.a_term().to(ft),
            2.34 * 500.0 / 300.0,
            max_relative = 1e-9
        );
        assert_eq!(
            paved.required(&load(shear, moment)).unwrap().a_term(),
            ft(0.0)
        );
        assert_eq!(
            paved.check(&load(shear, moment), ft(6.0)).unwrap().a_term(),
            ft(0.0)
        );
    }
    for formula in [free, paved] {
        let nothing = formula.required(&load(0.0, 0.0)).unwrap();
        assert_eq!(nothing.depth(), ft(0.0));
        assert_eq!(nothing.a_term(), ft(0.0));
    }
    assert_eq!(free.equation(), Equation::Nonconstrained);
    assert_eq!(paved.equation(), Equation::Constrained);
    let id = |formula: PoleFormula| {
        let check = formula.check(&load(1.0, 1.0), ft(3.0)).unwrap();
        assert_eq!(check.source().id, formula.equation().citation().id);
        check.source().id
    };
    assert_eq!(id(free), source::IBC_1807_3_2_1.id);
    assert_eq!(id(paved), source::IBC_1807_3_2_2.id);
}

/// In a top that does not count nothing is asked and nothing is held, to its
/// very bottom; just below it something is.
#[test]
fn the_bottom_of_a_discounted_top() {
    let soil = Ground::presumptive(SoilClass::Class4)
        .discounting_top(ft(2.0))
        .unwrap();
    let free = formula(&soil, Restraint::None);
    for depth in [1.0, 2.0] {
        for (shear, moment, ratio) in [(0.0, 0.0, 0.0), (1.0, 0.0, 1e6), (0.0, 1.0, 1e6)] {
            let check = free.check(&load(shear, moment), ft(depth)).unwrap();
            assert_eq!((check.demand(), check.capacity()), (psf(0.0), psf(0.0)));
            assert_eq!(check.utilization().ratio(), ratio);
            assert_eq!(check.one_pass_depth(), None);
            assert_eq!(check.a_term(), ft(0.0));
        }
    }
    let check = free.check(&load(1.0, 1.0), ft(2.01)).unwrap();
    assert!(check.demand() > psf(0.0) && check.capacity() > psf(0.0));
    assert!(check.one_pass_depth().unwrap() > ft(2.0));
    assert_eq!(check.depth(), ft(2.01));
    assert_eq!(check.actions(), &load(1.0, 1.0));
    // Without a load no depth, not even the top's.
    let nothing = free.required(&load(0.0, 0.0)).unwrap();
    assert_eq!(nothing.depth(), ft(0.0));
    assert_eq!(nothing.depth_that_counts(), ft(0.0));
    let some = free.required(&load(1.0, 1.0)).unwrap();
    assert_relative_eq!(
        some.depth().to(ft),
        2.0 + some.depth_that_counts().to(ft),
        max_relative = 1e-12
    );
    // The drop to the bottom of the top adds P t to the moment: 18-1 squared
    // out, S b d³/3 = 2.34 P d + 2.5506 M.
    let d = free
        .required(&load(300.0, 900.0))
        .unwrap()
        .depth_that_counts()
        .to(ft);
    assert_relative_eq!(
        150.0 * d * d * d / 3.0,
        2.34 * 300.0 * d + 2.34 * 4.36 / 4.0 * (900.0 + 300.0 * 2.0),
        max_relative = 1e-9
    );
    // A post held at grade turns about grade: no drop, 18-3.
    let d = formula(&soil, Restraint::RigidPaving)
        .required(&load(300.0, 900.0))
        .unwrap()
        .depth_that_counts()
        .to(ft);
    assert_relative_eq!(150.0 * d * d * d, 4.25 * 900.0, max_relative = 1e-9);
}

/// Twelve feet: up to it no caution and growing pressure, beyond it a caution
/// and, as the rule is read, none.
#[test]
fn twelve_feet() {
    let soil = Ground::presumptive(SoilClass::Class4);
    let free = formula(&soil, Restraint::None);
    let reading = free.with_cap(DepthCap::CapReading);
    let paved = formula(&soil, Restraint::RigidPaving);
    assert_eq!(
        (free.cap(), reading.cap()),
        (DepthCap::CapDepth, DepthCap::CapReading)
    );
    let little = load(1.0, 1.0);
    for (formula, depth, capacity) in [
        (free, 12.0, 600.0),
        (free, 12.01, 600.0),
        (free, 40.0, 600.0),
        (reading, 12.0, 600.0),
        (reading, 30.0, 1_500.0),
        (reading, 36.0, 1_800.0),
        (reading, 36.1, 1_800.0),
        (paved, 11.0, 1_650.0),
        (paved, 12.0, 1_800.0),
        (paved, 12.1, 1_800.0),
    ] {
        let check = formula.check(&little, ft(depth)).unwrap();
        assert_relative_eq!(check.capacity().to(psf), capacity, max_relative = 1e-12);
        let beyond = depth > 12.0;
        assert_eq!(check.beyond_limit(), beyond);
        assert_eq!(told(check.cautions(), Caution::BeyondTwelveFeet), beyond);
    }
    // The depth required, beyond it too, is the one the check just passes.
    for formula in [free, reading, paved] {
        for moment in [3e3, 30e3, 60e3, 3e5, 3e6] {
            let actions = load(moment / 5.0, moment);
            let required = formula.required(&actions).unwrap();
            let beyond = required.depth() > ft(12.0);
            assert_eq!(required.beyond_limit(), beyond);
            assert_eq!(told(required.cautions(), Caution::BeyondTwelveFeet), beyond);
            let check = formula.check(&actions, required.depth()).unwrap();
            assert_relative_eq!(check.utilization().ratio(), 1.0, max_relative = 1e-9);
            assert_relative_eq!(
                required.bearing().value,
                check.capacity().value,
                max_relative = 1e-12
            );
        }
    }
    // The caution of the one-third increase goes with its combinations.
    for (level, said) in [
        (AllowableStress::Basic, false),
        (AllowableStress::AlternativeWithIncrease, true),
    ] {
        let required = free.required(&at(100.0, 100.0, level)).unwrap();
        assert_eq!(told(required.cautions(), Caution::OneThirdIncrease), said);
        assert_eq!(required.actions().level(), level);
    }
}

/// A force at a paved grade has no capacity; from a thousandth of a foot it
/// has, and it is the load that just passes.
#[test]
fn forces_near_a_paved_grade() {
    let soil = Ground::presumptive(SoilClass::Class4);
    let paved = formula(&soil, Restraint::RigidPaving);
    let free = formula(&soil, Restraint::None);
    let basic = AllowableStress::Basic;
    for (height, taken) in [(0.0, false), (0.000_999, false), (0.001, true), (1.0, true)] {
        assert_eq!(paved.capacity(ft(3.0), ft(height), basic).is_ok(), taken);
        let holds = free.capacity(ft(3.0), ft(height), basic).unwrap();
        let check = free.check(&holds, ft(3.0)).unwrap();
        assert_relative_eq!(check.utilization().ratio(), 1.0, max_relative = 1e-9);
    }
    // S3 b d² = 4.25 M with S3 = 450 psf.
    let moment = paved.moment_capacity(ft(3.0), basic).unwrap();
    assert_relative_eq!(moment.to(lb_ft), 450.0 * 9.0 / 4.25, max_relative = 1e-12);
    let moment = free.moment_capacity(ft(3.0), basic).unwrap();
    assert_relative_eq!(
        moment.to(lb_ft),
        150.0 * 9.0 / (2.34 * 4.36 / 4.0),
        max_relative = 1e-12
    );
    // Opposite senses: neither equation is for them. One alone is fair.
    for (shear, moment, taken) in [
        (10.0, -10.0, false),
        (-10.0, 10.0, false),
        (-10.0, -10.0, true),
        (0.0, -10.0, true),
        (-10.0, 0.0, true),
    ] {
        assert_eq!(free.required(&load(shear, moment)).is_ok(), taken);
        assert_eq!(free.check(&load(shear, moment), ft(3.0)).is_ok(), taken);
    }
}

/// A block on its base: the base opens beyond a sixth, the toe has no pressure
/// from a half on. Kern and triangle of statics.
#[test]
fn a_block_on_its_base() {
    let block = SpreadBlock::new(ft(3.0), ft(4.0), ft(2.0), pcf(150.0), lb(400.0)).unwrap();
    assert_relative_eq!(block.block_weight().to(lb), 3_600.0, max_relative = 1e-12);
    assert_relative_eq!(block.weight().to(lb), 4_000.0, max_relative = 1e-12);
    assert_relative_eq!(
        block.resisting_moment().to(lb_ft),
        6_000.0,
        max_relative = 1e-12
    );
    let over = |e: f64| Overturning::at_allowable_stress(lb_ft(4_000.0 * e)).unwrap();
    for (e, q) in [
        (0.0, Some(4_000.0 / 12.0)),
        (0.25, Some(4_000.0 / 12.0 * 1.5)),
        (0.5, Some(4_000.0 / 12.0 * 2.0)),
        (0.75, Some(2.0 * 4_000.0 / (3.0 * 4.0 * 0.75))),
        (1.25, Some(2.0 * 4_000.0 / (3.0 * 4.0 * 0.25))),
        (1.499_9, Some(2.0 * 4_000.0 / (3.0 * 4.0 * 0.000_1))),
        (1.500_1, None),
        (2.0, None),
    ] {
        assert_relative_eq!(block.eccentricity(over(e)).to(ft), e, max_relative = 1e-12);
        let found = block.toe_pressure(over(e)).map(|q| q.to(psf));
        assert_eq!(found.is_some(), q.is_some(), "{e}");
        if let (Some(found), Some(q)) = (found, q) {
            assert_relative_eq!(found, q, max_relative = 1e-9);
        }
    }
    // At a half to the last digit: 40 kN, 2 m wide.
    let round = SpreadBlock::new(m(2.0), m(1.0), m(1.0), kn_per_cu_m(20.0), lb(0.0)).unwrap();
    let at_the_toe = Overturning::at_allowable_stress(kn_m(40.0)).unwrap();
    assert_eq!(round.eccentricity(at_the_toe), m(1.0));
    assert_eq!(round.toe_pressure(at_the_toe), None);
    // M + V D about the base, of either sense; 1.5 against it.
    for sign in [1.0, -1.0] {
        let about = block
            .overturning(&load(100.0 * sign, 900.0 * sign))
            .unwrap();
        assert_relative_eq!(about.moment().to(lb_ft), 1_100.0, max_relative = 1e-12);
        let used = block.utilization(about, 1.5).unwrap();
        assert_relative_eq!(used.ratio(), 1_100.0 / 4_000.0, max_relative = 1e-12);
    }
    assert!(block.allowable_moment(0.999).is_err());
    assert_eq!(
        block.allowable_moment(1.0).unwrap(),
        block.resisting_moment()
    );
    // A check that just passes, and one that just does not; neither is shown
    // as what it is not.
    for (ratio, passes, shown) in [
        (1.0, true, "1.00"),
        (1.0 + 0.5e-9, true, "1.00"),
        (1.0 + 3e-9, false, "1.01"),
        (1.001, false, "1.01"),
        (1.004_9, false, "1.01"),
        (1.006, false, "1.01"),
        (1.016, false, "1.02"),
        (0.994, true, "0.99"),
    ] {
        let about = Overturning::at_allowable_stress(lb_ft(6_000.0 * ratio)).unwrap();
        let used = block.utilization(about, 1.0).unwrap();
        assert_eq!(used.passes(), passes, "{ratio}");
        assert_eq!(used.to_string(), shown);
        let half = block.utilization(over(0.75), 1.0).unwrap();
        assert_eq!(used.max(half), used);
        assert_eq!(half.max(used), used);
        assert!(used > half && used.cmp(&half).is_gt());
    }
    // The double 1.005 is a little less than that, and would round to 1.00.
    let over = Overturning::at_allowable_stress(kn_m(40.2)).unwrap();
    let used = round.utilization(over, 1.0).unwrap();
    assert_eq!((used.ratio(), used.passes()), (1.005, false));
    assert_eq!(used.to_string(), "1.01");
}

/// Rules of thumb by hand, on both sides of where they change.
#[test]
fn rules_of_thumb() {
    let depth = |rule: DepthRule, height: f64| rule.depth(ft(height)).unwrap().to(inch);
    for (height, chain_link) in [(3.0, 24.0), (4.0, 24.0), (4.5, 25.5), (6.0, 30.0)] {
        let by_hand = [24.0, height * 4.0, height * 6.0, height * 4.0, chain_link];
        for (rule, by_hand) in DepthRule::ALL.into_iter().zip(by_hand) {
            assert_relative_eq!(depth(rule, height), by_hand, max_relative = 1e-12);
        }
    }
    let words = [
        "two-foot",
        "third of the height",
        "third of the whole post",
        "quarter",
        "24 in",
    ];
    let sources = [
        &source::PRACTICE_TWO_FEET,
        &source::PRACTICE_THIRD_OF_HEIGHT,
        &source::PRACTICE_THIRD_OF_POST,
        &source::PRACTICE_QUARTER_OF_POST,
        &source::ASTM_F567_5_1,
    ];
    for ((rule, words), source) in DepthRule::ALL.into_iter().zip(words).zip(sources) {
        assert!(rule.name().contains(words));
        assert_eq!(rule.source().id, source.id);
    }
    for (section, hole) in [(2.0, 8.0), (4.0, 16.0), (4.01, 12.03), (6.0, 18.0)] {
        let found = hole_diameter_rule(inch(section)).unwrap().to(inch);
        assert_relative_eq!(found, hole, max_relative = 1e-12);
    }
    for (pole, depth) in [
        (5.0, 5.0),
        (29.0, 5.0),
        (30.0, 5.0),
        (31.0, 5.1),
        (40.0, 6.0),
    ] {
        let found = utility_pole_depth(ft(pole)).unwrap().to(ft);
        assert_relative_eq!(found, depth, max_relative = 1e-12);
    }
}

/// The one pass of a filed calculation by hand: 18-1 and 18-3 with the bearing
/// of the depth checked.
#[test]
fn one_pass() {
    let soil = Ground::presumptive(SoilClass::Class4)
        .discounting_top(ft(0.5))
        .unwrap();
    // 150 psf/ft × 1 ft wide, 4 ft that count.
    let (p, m) = (300.0, 900.0);
    let pass = |restraint: Restraint| {
        let check = formula(&soil, restraint).check(&load(p, m), ft(4.5));
        check.unwrap().one_pass_depth().unwrap().to(ft)
    };
    let a: f64 = 2.34 * p / 200.0;
    let h: f64 = (m + p * 0.5) / p;
    let free = 0.5 * a * (1.0 + (1.0 + 4.36 * h / a).sqrt());
    assert_relative_eq!(pass(Restraint::None), free + 0.5, max_relative = 1e-9);
    let paved = (4.25 * m / 600.0_f64).sqrt();
    assert_relative_eq!(
        pass(Restraint::RigidPaving),
        paved + 0.5,
        max_relative = 1e-9
    );
}

/// βL up to 2.25, ηL below 2 and above 4 (FHWA-HI-97-013 9.7.3.2): both sides
/// of each, and the numbers themselves.
#[test]
fn length_classes() {
    // β L = 2.25 with Kh b/(4 EI) = (2.25/L)⁴.
    let (kh, b, l) = (20e6_f64, 0.3_f64, 3.0_f64);
    for (target, class) in [
        (2.25 * (1.0 - 1e-9), LengthClass::Short),
        (2.25 * (1.0 + 1e-9), LengthClass::Long),
        (0.5, LengthClass::Short),
        (6.0, LengthClass::Long),
    ] {
        let ei = kh * b / 4.0 / (target / l).powi(4);
        let found =
            LengthClass::in_constant(kn_per_cu_m(kh / 1e3), m(b), n_sq_m(ei), m(l)).unwrap();
        assert_relative_eq!(found.0, target, max_relative = 1e-12);
        assert_eq!(found.1, class);
    }
    let nh = 5e6_f64;
    for (target, class) in [
        (1.0, LengthClass::Short),
        (2.0 * (1.0 - 1e-9), LengthClass::Short),
        (2.0 * (1.0 + 1e-9), LengthClass::Intermediate),
        (4.0 * (1.0 - 1e-9), LengthClass::Intermediate),
        (4.0 * (1.0 + 1e-9), LengthClass::Long),
        (9.0, LengthClass::Long),
    ] {
        let ei = nh / (target / l).powi(5);
        let found = LengthClass::in_growing(kn_per_cu_m(nh / 1e3), n_sq_m(ei), m(l)).unwrap();
        assert_relative_eq!(found.0, target, max_relative = 1e-12);
        assert_eq!(found.1, class);
    }
    let classes = [
        LengthClass::Short,
        LengthClass::Intermediate,
        LengthClass::Long,
    ];
    assert_eq!(
        classes.map(LengthClass::name),
        ["short", "intermediate", "long"]
    );
    assert_eq!(LengthClass::source().id, source::FHWA_LENGTH_CLASS.id);
    // n1 n2 80 qu/b.
    let kh = LengthClass::clay_modulus(kpa(100.0), m(0.4), 0.36, 1.3).unwrap();
    assert_relative_eq!(
        kh.value,
        0.36 * 1.3 * 80.0 * 100e3 / 0.4,
        max_relative = 1e-12
    );
}
