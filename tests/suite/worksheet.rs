//! Worksheets: the numbers on each line recompute by hand, from what is
//! printed on it.
//!
//! The formula text of every computed step is evaluated, with the printed
//! (rounded) numbers of its terms, by the small evaluator below, and must give
//! the printed result within the rounding.

use crate::samples;
use crate::worksheet_whole::closed;
use groundline::check::PostDesign;
use groundline::embedment::DepthCap;
use groundline::fence::*;
use groundline::foundation::*;
use groundline::ground::*;
use groundline::limit_state::AllowableStress;
use groundline::plan::{FencePlan, Schedule};
use groundline::post::*;
use groundline::report;
use groundline::step::{Origin, Step, Worksheet};
use groundline::units::*;
use groundline::wind::*;
use std::collections::BTreeMap;

/// A recursive-descent evaluator: + − * / ^, brackets, sqrt, exp, ln, log10, max,
/// min.
struct Formula<'a> {
    text: &'a [u8],
    at: usize,
    terms: &'a BTreeMap<&'static str, f64>,
}

impl Formula<'_> {
    fn skip(&mut self) {
        while self.text.get(self.at) == Some(&b' ') {
            self.at += 1;
        }
    }

    fn eat(&mut self, sign: u8) -> bool {
        self.skip();
        let found = self.text.get(self.at) == Some(&sign);
        self.at += usize::from(found);
        found
    }

    fn sum(&mut self) -> f64 {
        let mut value = if self.eat(b'-') {
            -self.product()
        } else {
            self.product()
        };
        loop {
            if self.eat(b'+') {
                value += self.product();
            } else if self.eat(b'-') {
                value -= self.product();
            } else {
                return value;
            }
        }
    }

    fn product(&mut self) -> f64 {
        let mut value = self.power();
        loop {
            if self.eat(b'*') {
                value *= self.power();
            } else if self.eat(b'/') {
                value /= self.power();
            } else {
                return value;
            }
        }
    }

    fn power(&mut self) -> f64 {
        let base = self.atom();
        if self.eat(b'^') {
            base.powf(self.atom())
        } else {
            base
        }
    }

    fn atom(&mut self) -> f64 {
        self.skip();
        if self.eat(b'(') {
            let value = self.sum();
            assert!(self.eat(b')'));
            return value;
        }
        let start = self.at;
        let number = self.text[start].is_ascii_digit();
        while self.text.get(self.at).is_some_and(|c| {
            if number {
                c.is_ascii_digit() || *c == b'.'
            } else {
                c.is_ascii_alphanumeric() || *c == b'\''
            }
        }) {
            self.at += 1;
        }
        let word = std::str::from_utf8(&self.text[start..self.at]).unwrap();
        if number {
            return word.parse().unwrap();
        }
        if let Some(value) = self.terms.get(word) {
            return *value;
        }
        if word == "pi" {
            return std::f64::consts::PI;
        }
        assert!(self.eat(b'('), "unknown term {word}");
        let first = self.sum();
        let value = match word {
            "sqrt" => first.sqrt(),
            "exp" => first.exp(),
            "ln" => first.ln(),
            "log10" => first.log10(),
            "max" | "min" => {
                assert!(self.eat(b','));
                let second = self.sum();
                if word == "max" {
                    first.max(second)
                } else {
                    first.min(second)
                }
            }
            other => panic!("unknown function {other}"),
        };
        assert!(self.eat(b')'));
        value
    }
}

fn evaluate(text: &str, terms: &BTreeMap<&'static str, f64>) -> f64 {
    let mut formula = Formula {
        text: text.as_bytes(),
        at: 0,
        terms,
    };
    let value = formula.sum();
    formula.skip();
    assert_eq!(formula.at, text.len(), "left over in {text}");
    value
}

#[test]
fn the_evaluator_evaluates() {
    let terms = BTreeMap::from([("A", 2.0), ("Fb'", 3.0)]);
    let value = |text| evaluate(text, &terms);
    assert_eq!(value("1 + 2*A^3/4 - (1 - 2)"), 6.0);
    assert_eq!(value("max(A, Fb') + min(A, 1) + sqrt(4)*exp(0)"), 6.0);
    assert_eq!(value("-A + 2/3*Fb'"), 0.0);
    assert_eq!(value("ln(exp(A)) + log10(100)"), 4.0);
}

/// A number as printed on the sheet, in the unit printed.
fn printed(value: Measured, system: UnitSystem) -> f64 {
    let text = value.in_system(system).significant(6).to_string();
    let number = text.split(' ').next().unwrap().trim_end_matches('°');
    number.parse().unwrap()
}

pub(crate) fn recompute(step: &Step, system: UnitSystem) {
    let terms: BTreeMap<_, _> = step
        .terms
        .iter()
        .map(|term| (term.symbol, printed(term.value, system)))
        .collect();
    let result = printed(step.result, system);
    match step.origin {
        Origin::Computed => {
            let by_hand = evaluate(&step.formula, &terms);
            // Six digits a number; sums may cancel some.
            let scale = result.abs().max(if step.formula.contains(" - ") {
                1e-2 * by_hand.abs().max(1.0)
            } else {
                1e-9
            });
            // What half of the sixth digit of each number makes of the result: much where a
            // formula divides by a small difference.
            let slack: f64 = terms
                .keys()
                .map(|symbol| {
                    let mut other = terms.clone();
                    if let Some(value) = other.get_mut(symbol) {
                        *value *= 1.0 + 5e-6;
                    }
                    (evaluate(&step.formula, &other) - by_hand).abs()
                })
                .filter(|slack| slack.is_finite())
                .sum();
            assert!(
                (by_hand - result).abs() <= 5e-4 * scale + slack,
                "{} = {}: {by_hand} by hand, {result} printed; {terms:?}",
                step.symbol,
                step.formula
            );
        }
        Origin::Root => {
            let (left, right) = step.formula.split_once('=').unwrap();
            let (left, right) = (evaluate(left, &terms), evaluate(right, &terms));
            assert!(
                (left / right - 1.0).abs() < 5e-4,
                "{step:?}: {left} {right}"
            );
        }
        Origin::Given => assert!(step.formula.is_empty() && step.terms.is_empty()),
        _ => panic!("an origin that is not recomputed"),
    }
}

fn check_sheet(sheet: &Worksheet) {
    assert!(sheet.steps().count() > 30);
    closed(sheet);
    for step in sheet.steps() {
        recompute(step, sheet.system);
    }
    for text in [
        report::text(sheet).to_string(),
        report::markdown(sheet).to_string(),
    ] {
        assert!(text.contains("no substitute"));
        assert!(text.contains("from memory") || !text.contains("Table 4D"));
        for section in &sheet.sections {
            assert!(text.contains(section.title));
        }
        assert!(!text.contains("NaN") && !text.contains("inf "));
    }
}

fn every_post(plan: &FencePlan) {
    let schedule = plan.schedule().unwrap();
    for post in schedule.posts() {
        for system in [UnitSystem::Us, UnitSystem::Si] {
            check_sheet(&schedule.worksheet(&post, system));
            // And the wind of every case, not only of the governing one.
            for case in post.cases.iter() {
                let mut sheet = Worksheet::new("case", system);
                schedule.wind().write(&post.post, case, &mut sheet);
                closed(&sheet);
                for step in sheet.steps() {
                    recompute(step, system);
                }
                let sum = sheet.steps().find(|step| step.symbol == "Vw").unwrap();
                let shear: Force = sum.result.quantity().unwrap();
                assert_eq!(shear, case.wind.shear());
                // The forces on the lines make the shear.
                let forces: Vec<Force> = sheet
                    .steps()
                    .filter(|step| step.symbol == "W")
                    .map(|step| step.result.quantity().unwrap())
                    .collect();
                assert!(!forces.is_empty());
                if let [only] = forces[..] {
                    assert!((only - shear).abs() <= shear * 1e-9, "{case:?}");
                }
            }
        }
    }
}

fn fence(height: f64, clearance: f64, solidity: f64) -> Fence {
    let panel = Panel::new(ft(height))
        .unwrap()
        .with_clearance(ft(clearance))
        .unwrap()
        .with_solidity(solidity)
        .unwrap()
        .with_weight(psf(5.0))
        .unwrap();
    let gate = Gate::new(ft(16.0), ft(4.0), lb(130.0), Hinges::AtStart).unwrap();
    let double = Gate::new(ft(20.0), ft(10.0), lb(190.0), Hinges::Both).unwrap();
    let front = FenceRun::new(panel, ft(70.0), ft(8.0))
        .unwrap()
        .with_gate(gate)
        .unwrap()
        .with_gate(double)
        .unwrap();
    let side = FenceRun::new(panel, ft(12.0), ft(6.0)).unwrap();
    Fence::new(front).turning(deg(75.0), side).unwrap()
}

fn timber(side: f64, treatment: Treatment) -> Post {
    samples::timber(Species::DouglasFirLarch, side, treatment).into()
}

fn pipe(diameter: f64, wall: f64) -> Post {
    samples::pipe(diameter, wall).into()
}

fn site(edition: Edition, exposure: Exposure) -> AsceSite {
    AsceSite::new(
        edition,
        BasicWindSpeed::strength_level(mph(120.0)).unwrap(),
        exposure,
    )
}

#[test]
fn numbers_recompute_by_hand() {
    let class4 = Ground::presumptive(SoilClass::Class4);
    let hole = Hole::round(inch(18.0)).unwrap();

    let tight = fence(6.0, 0.0, 1.0);
    let design = PostDesign::in_concrete(class4, timber(5.5, Treatment::Incised), hole).unwrap();
    every_post(
        &FencePlan::new(site(Edition::Asce7_10, Exposure::B), tight.clone(), design)
            .with_planned_depth(ft(4.0)),
    );

    let raised = fence(8.0, 1.0, 0.8);
    let ground = class4.as_isolated_pole().discounting_top(ft(1.0)).unwrap();
    let design = PostDesign::in_concrete(ground, pipe(2.875, 0.16), hole).unwrap();
    let hill = site(Edition::Asce7_22, Exposure::C)
        .with_topographic_factor(1.4)
        .unwrap()
        .at_elevation(ft(4000.0))
        .unwrap();
    every_post(&FencePlan::new(hill, raised.clone(), design).with_planned_depth(ft(5.0)));

    // A gate in the middle of a long run: strips that end at an open gate.
    let panel = Panel::new(ft(8.0)).unwrap();
    let gate = Gate::new(ft(36.0), ft(4.0), lb(150.0), Hinges::AtStart).unwrap();
    let gated = FenceRun::new(panel, ft(84.0), ft(6.0))
        .unwrap()
        .with_gate(gate)
        .unwrap();
    let bend = FenceRun::new(panel, ft(20.0), ft(6.0)).unwrap();
    let gated = Fence::new(gated).turning(deg(20.0), bend).unwrap();
    let design = PostDesign::in_concrete(class4, pipe(2.875, 0.16), hole).unwrap();
    every_post(&FencePlan::new(
        site(Edition::Asce7_16, Exposure::B),
        gated,
        design,
    ));

    // Paved, square hole, alternative combinations, noncompact pipe.
    let square = Hole::square(inch(16.0)).unwrap();
    let design = PostDesign::in_concrete(class4, pipe(6.0, 0.06), square)
        .unwrap()
        .restrained_by(Restraint::RigidPaving)
        .with_combination(AllowableStress::AlternativeWithIncrease);
    let flat = site(Edition::Asce7_16, Exposure::D)
        .at_elevation(ft(1000.0))
        .unwrap()
        .with_constants(PrintedConstants::Si);
    every_post(&FencePlan::new(flat, tight.clone(), design).with_planned_depth(ft(3.0)));

    // So weak a ground that the 12 ft rule bites, both readings; a slender
    // pipe; no planned depth; square bare post.
    let weak = Ground::given(LateralBearing::new(psf_per_ft(8.0)).unwrap());
    for cap in [DepthCap::CapDepth, DepthCap::CapReading] {
        let design = PostDesign::bare(weak, pipe(10.0, 0.05)).with_cap(cap);
        every_post(&FencePlan::new(
            site(Edition::Asce7_22, Exposure::D),
            raised.clone(),
            design,
        ));
    }
    let design = PostDesign::bare(class4, timber(3.5, Treatment::NotIncised));
    every_post(
        &FencePlan::new(site(Edition::Asce7_22, Exposure::B), tight.clone(), design)
            .with_planned_depth(ft(2.0)),
    );
}

/// The result on the sheet is the result of the check, and the case shown is
/// the one that governs.
#[test]
fn the_sheet_says_what_the_check_says() {
    let fence = fence(6.0, 0.0, 1.0);
    let design = PostDesign::in_concrete(
        Ground::presumptive(SoilClass::Class4),
        timber(5.5, Treatment::NotIncised),
        Hole::round(inch(12.0)).unwrap(),
    )
    .unwrap();
    let plan = FencePlan::new(site(Edition::Asce7_16, Exposure::B), fence.clone(), design)
        .with_planned_depth(ft(4.0));
    let schedule: Schedule<'_> = plan.schedule().unwrap();
    for post in schedule.posts() {
        let sheet = schedule.worksheet(&post, UnitSystem::Us);
        let value = |symbol: &str| {
            sheet
                .steps()
                .filter(|step| step.symbol == symbol)
                .last()
                .unwrap()
                .result
        };
        let depth: Length = value("d").quantity().unwrap();
        assert_eq!(depth, post.check.required.depth());
        let wind: Force = value("Vw").quantity().unwrap();
        assert!(
            wind == post.check.required_case.unwrap().wind.shear()
                || wind == post.check.strength_case.unwrap().wind.shear()
        );
        let used: Ratio = value("u").quantity().unwrap();
        assert_eq!(
            used.value,
            post.check.planned.unwrap().utilization().ratio()
        );
        let bending: Ratio = value("um").quantity().unwrap();
        assert_eq!(bending.value, post.check.strength.bending.ratio());
        // The printed formula gives back the root.
        let depths: Vec<Length> = sheet
            .steps()
            .filter(|step| step.symbol == "dc" && step.origin != Origin::Given)
            .map(|step| step.result.quantity().unwrap())
            .collect();
        assert_eq!(depths[0], depths[1]);
        let text = report::text(&sheet).to_string();
        assert!(text.contains(if post.check.passes() {
            "passes"
        } else {
            "FAILS"
        }));
    }
}

/// Cautions appear where they apply and not elsewhere.
#[test]
fn cautions_where_they_apply() {
    use groundline::caution::Caution;
    let fence = fence(6.0, 0.0, 1.0);
    let class4 = Ground::presumptive(SoilClass::Class4);
    let hole = Hole::round(inch(18.0)).unwrap();
    let cautions = |design: PostDesign| {
        FencePlan::new(site(Edition::Asce7_16, Exposure::B), fence.clone(), design)
            .schedule()
            .unwrap()
            .cautions()
    };
    let plain = cautions(
        PostDesign::in_concrete(class4, timber(5.5, Treatment::NotIncised), hole).unwrap(),
    );
    for expected in [
        Caution::NoSubstitute,
        Caution::BuriedUtilities,
        Caution::Frost,
        Caution::Slope,
        Caution::RetainedSoil,
        Caution::Barrier,
        Caution::Curing,
        Caution::PresumptiveSoil,
        Caution::FromMemory,
    ] {
        assert!(plain.contains(expected), "{expected:?}");
    }
    for absent in [
        Caution::IsolatedPole,
        Caution::OneThirdIncrease,
        Caution::BeyondTwelveFeet,
        Caution::RigidPaving,
        Caution::Backfill,
    ] {
        assert!(!plain.contains(absent), "{absent:?}");
    }
    assert_eq!(plain.iter().next(), Some(Caution::NoSubstitute));
    assert!(plain.contains(Caution::TimberTreatment));
    assert!(!plain.contains(Caution::NoVerticalBearing) && !plain.contains(Caution::Flexible));
    // The gate post's bay of 4 ft is under three times 18 in.
    assert!(plain.contains(Caution::CloseSpacing));
    let narrow = Hole::round(inch(12.0)).unwrap();
    let apart = cautions(PostDesign::in_concrete(class4, pipe(2.375, 0.13), narrow).unwrap());
    assert!(!apart.contains(Caution::CloseSpacing) && !apart.contains(Caution::TimberTreatment));
    let weak = Ground::given(LateralBearing::new(psf_per_ft(10.0)).unwrap());
    let other = cautions(PostDesign::bare(weak.as_isolated_pole(), pipe(2.375, 0.13)));
    assert!(other.contains(Caution::IsolatedPole));
    assert!(other.contains(Caution::BeyondTwelveFeet));
    assert!(other.contains(Caution::Backfill));
    assert!(other.contains(Caution::NoVerticalBearing));
    assert!(!other.contains(Caution::PresumptiveSoil) && !other.contains(Caution::Curing));
    let paved = cautions(
        PostDesign::in_concrete(class4, pipe(2.375, 0.13), hole)
            .unwrap()
            .restrained_by(Restraint::RigidPaving)
            .with_combination(AllowableStress::AlternativeWithIncrease),
    );
    assert!(paved.contains(Caution::RigidPaving) && paved.contains(Caution::OneThirdIncrease));
}
