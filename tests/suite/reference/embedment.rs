//! The pole formulas and the spread block: the cases of embedment.csv.

use super::Method;
use crate::embedment::{ground, load, load_at};
use crate::vectors::Case;
use approx::assert_relative_eq;
use groundline::embedment::{
    DepthCap, DepthRule, Overturning, PoleFormula, SpreadBlock, hole_diameter_rule,
    utility_pole_depth,
};
use groundline::foundation::{BearingWidth, Hole, Restraint};
use groundline::ground::{Ground, SoilClass};
use groundline::units::{Area, Force, Length, Measurable, Pressure, ft, lb, lb_ft, moment, pcf};

pub(crate) const METHODS: &[Method] = &[
    (
        "ibc_18_1_converged",
        "depth by IBC 18-1, self-consistent",
        converged,
    ),
    (
        "ibc_18_1_converged_R1",
        "depth by IBC 18-1, depth held to 12 ft",
        converged,
    ),
    (
        "ibc_18_1_converged_R2",
        "depth by IBC 18-1, reading held to 12 ft",
        converged,
    ),
    ("ibc_18_2_closed", "depth by IBC 18-2, paving", paved),
    ("ibc_18_1_one_pass", "IBC 18-1 at a trial depth", one_pass),
    (
        "ibc_18_1_one_pass_two_areas",
        "IBC 18-1 at a trial depth, two areas",
        two_areas,
    ),
    ("ibc_a_term", "A of IBC 18-1", a_term),
    (
        "ibc_a_term_negative",
        "A with the depth counted twice, refused",
        a_term_counted_twice,
    ),
    ("s1_lookup", "lateral bearing S1", bearing),
    ("s1_at_cap_R1", "lateral bearing S1 at 12 ft", bearing),
    (
        "s1_beyond_cap_R1",
        "lateral bearing S1 below 12 ft",
        bearing,
    ),
    ("spread_block_overturning", "spread block", spread_block),
    ("astm_f567_depth", "depth of ASTM F567", standard_depth),
    ("astm_f567_hole", "hole of ASTM F567", standard_hole),
    ("utility_pole_rule", "rule for utility poles", utility_pole),
    ("depth_rule", "rule of thumb", rule_of_thumb),
];

fn formula(case: &Case, restraint: Restraint) -> PoleFormula {
    PoleFormula::new(
        &ground(case.input("S"), case.number("F")),
        BearingWidth::new(case.input("b")).unwrap(),
        restraint,
    )
}

fn converged(case: &Case) {
    let cap = if case.method.ends_with("R2") {
        DepthCap::CapReading
    } else {
        DepthCap::CapDepth
    };
    let required = formula(case, Restraint::None)
        .with_cap(cap)
        .required(&load_at(case.input("P"), case.input("h")))
        .unwrap();
    case.compare("d", required.depth());
    if case.expects("S1") {
        case.compare("S1", required.bearing());
    }
    if case.expects("A") {
        case.compare("A", required.a_term());
    }
}

fn two_areas(case: &Case) {
    let q: Pressure = case.input("q");
    let (a1, a2): (Area, Area) = (case.input("A1"), case.input("A2"));
    let (f1, f2): (Force, Force) = (q * a1, q * a2);
    let total = moment(f1, case.input("h1")) + moment(f2, case.input("h2"));
    let actions = load(f1 + f2, total);
    case.compare("P", actions.shear());
    case.compare("h_eq", actions.height());
    if case.expects("Mn") {
        case.compare("Mn", actions.moment());
    }
    // S1 = 400 psf as given: class 4 doubled, read at a third of 4 ft.
    let soil = Ground::presumptive(SoilClass::Class4).as_isolated_pole();
    let formula = PoleFormula::new(
        &soil,
        BearingWidth::new(case.input("b")).unwrap(),
        Restraint::None,
    );
    let check = formula.check(&actions, ft(4.0)).unwrap();
    assert_relative_eq!(
        check.capacity().si(),
        case.input::<Pressure>("S1").si(),
        max_relative = 1e-12
    );
    case.compare("A", check.a_term());
    case.compare("d", check.one_pass_depth().unwrap());
}

fn spread_block(case: &Case) {
    let q: Pressure = case.input("q");
    let (a1, a2): (Area, Area) = (case.input("A1"), case.input("A2"));
    let block = SpreadBlock::new(
        case.input("block_B"),
        case.input("block_L"),
        case.input("block_depth"),
        case.input("gamma"),
        case.input("superstructure"),
    )
    .unwrap();
    let overturning = moment(q * a1, case.input("h1")) + moment(q * a2, case.input("h2"));
    case.compare("Mn", overturning);
    let overturning = Overturning::at_allowable_stress(overturning).unwrap();
    case.compare("footing_weight", block.block_weight());
    case.compare("D", block.weight());
    case.compare("e", block.eccentricity(overturning));
    case.compare("q_toe", block.toe_pressure(overturning).unwrap());
    case.compare("M_resist", block.resisting_moment());
    let safety = case.number("SF");
    case.compare("M_allow", block.allowable_moment(safety).unwrap());
    assert!(block.utilization(overturning, safety).unwrap().passes());
}

fn paved(case: &Case) {
    let required = formula(case, Restraint::RigidPaving)
        .required(&load_at(case.input("P"), case.input("h")))
        .unwrap();
    case.compare("d", required.depth());
    let footing = Hole::round(case.input("b"))
        .unwrap()
        .volume(required.depth());
    case.compare("concrete_volume", footing);
    case.compare("concrete_weight", footing * pcf(150.0));
}

fn one_pass(case: &Case) {
    let area: Area = case.input("A1");
    let shear: Force = case.input::<Pressure>("q") * area;
    case.compare("P", shear);
    let check = formula(case, Restraint::None)
        .check(&load_at(shear, case.input("h")), case.input("d_trial"))
        .unwrap();
    case.compare("S1", check.capacity());
    case.compare("A", check.a_term());
    case.compare("d", check.one_pass_depth().unwrap());
    case.compare("Mn", check.actions().moment());
    let footing = Hole::round(case.input("b"))
        .unwrap()
        .volume(case.input("d_trial"));
    case.compare("footing_weight", footing * pcf(150.0));
}

fn a_term(case: &Case) {
    let soil = ground(case.input("S"), case.number("increase"));
    let formula = PoleFormula::new(
        &soil,
        BearingWidth::new(case.input("b")).unwrap(),
        Restraint::None,
    );
    let check = formula
        .check(&load_at(case.input("P"), ft(8.0)), case.input("d_trial"))
        .unwrap();
    case.compare("A", check.a_term());
}

fn a_term_counted_twice(case: &Case) {
    // The wrong value comes of counting the depth twice, so that a
    // pressure stands where a pressure per depth belongs. A
    // `compile_fail` example at `LateralBearing` shows that refused;
    // here, that what the type does accept cannot give the wrong A.
    case.compare_word("outcome", "refused");
    let per_depth = case.input::<Pressure>("S1") / (ft(6.0) / 3.0);
    let formula = PoleFormula::new(
        &ground(per_depth, 1.0),
        BearingWidth::new(case.input("b")).unwrap(),
        Restraint::None,
    );
    let check = formula
        .check(&load_at(case.input("P"), ft(8.0)), ft(6.0))
        .unwrap();
    let wrong = check.a_term() / case.input::<Length>("factor_applied_twice").to(ft);
    case.compare_number("A_wrong", wrong.to(ft));
    assert!(check.a_term() > ft(17.0));
}

fn bearing(case: &Case) {
    let formula = PoleFormula::new(
        &ground(case.input("S"), case.number("F")),
        BearingWidth::new(ft(1.0)).unwrap(),
        Restraint::None,
    );
    let check = formula
        .check(&load(lb(1.0), lb_ft(1.0)), case.input("d"))
        .unwrap();
    case.compare("S1", check.capacity());
}

fn standard_depth(case: &Case) {
    let depth = DepthRule::ChainLinkStandard.depth(case.input("H")).unwrap();
    case.compare("d", depth);
}

fn standard_hole(case: &Case) {
    case.compare("hole", hole_diameter_rule(case.input("post_OD")).unwrap());
}

fn utility_pole(case: &Case) {
    case.compare("d", utility_pole_depth(case.input("L")).unwrap());
}

fn rule_of_thumb(case: &Case) {
    let rule = match case.word("rule") {
        "two-foot" => DepthRule::TwoFeet,
        "third-of-height" => DepthRule::ThirdOfHeight,
        "third-of-post" => DepthRule::ThirdOfPost,
        "quarter-of-post" => DepthRule::QuarterOfPost,
        other => panic!("{other}"),
    };
    case.compare("d", rule.depth(case.input("H")).unwrap());
}
