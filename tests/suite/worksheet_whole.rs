//! Worksheets: the lines that ought to be there are there.

use crate::worksheet::recompute;
use groundline::step::{Origin, Step, Worksheet};
use groundline::units::*;

/// Number and unit as printed on the sheet.
fn printed(value: Measured, system: UnitSystem) -> (f64, String) {
    let text = value.in_system(system).significant(9).to_string();
    let text = text.replace('°', " deg");
    let (number, unit) = text.split_once(' ').unwrap_or((&text, ""));
    (number.parse().unwrap(), unit.to_owned())
}

fn same(one: &(f64, String), other: &(f64, String)) -> bool {
    one.1 == other.1 && (one.0 - other.0).abs() <= 1e-6 * one.0.abs().max(other.0.abs())
}

/// Names in a formula.
fn names(formula: &str) -> Vec<&str> {
    formula
        .split(|c: char| !(c.is_ascii_alphanumeric() || c == '\''))
        .filter(|word| word.starts_with(|c: char| c.is_ascii_alphabetic()))
        .collect()
}

/// What a section may use without a line of its own, by why: numbers that go in
/// and are named by the meaning of the line they stand on. No number that is
/// computed is among them but those marked so.
const GO_IN: &[(&str, &[&str])] = &[
    // Geometry of the fence; the figure's cells around the ratios (the table is
    // the source); the least pressure; the eccentricity of the clause.
    (
        "Wind on the tributary strip",
        &[
            "h", "c", "s", "m", "B", "b", "l", "Lr", "D", "e", "w1", "w2", "w3", "w4", "w5", "w6",
            "w7", "C11", "C12", "C21", "C22", "C1", "C2", "C3", "b1", "b2", "r1", "r2", "r", "c1",
            "c2", "cw", "lr", "l1", "l2", "l3", "pmin", "delta", "eps", "bc", "ch",
            // 1 without a return, whose line is then left out.
            "fr", // psf or Pa with Kd in it, whatever the edition.
            "q",
        ],
    ),
    ("At the ground line, from wind", &["c", "m", "s", "h"]),
    (
        "Solidity of the panel",
        &["e0", "eb", "et", "f", "r", "t", "w"],
    ),
    // Factors of the hill by its kind; where the fence stands on it. L is Lh or Le.
    (
        "Velocity pressure",
        &["a", "mu", "gamma", "x", "z", "L", "ze"],
    ),
    // Factors given or recommended, constants of the terrain.
    (
        "Peak velocity pressure",
        &["cdir", "cseason", "cprob", "z0", "zmin", "co", "kI", "rho"],
    ),
    (
        "Design wind pressure",
        &["Mc", "Md", "Mzcat", "Ms", "Mt", "Cdyn", "rho"],
    ),
    (
        "Weight at the ground line",
        &["G1", "G2", "l1", "l2", "g1", "g2", "s1", "s2", "w1", "w2"],
    ),
    ("Foundation", &["a"]),
    // The layer left out, where there is none: 0.
    ("Required embedment", &["t", "b"]),
    ("Planned embedment", &["t", "b"]),
    ("Moment and shear in the post", &["t"]),
    // Sizes of sections; E of steel; factors of timber. Ag is computed, of the
    // sizes: no line.
    ("Post: steel pipe", &["D", "t", "E", "Ag"]),
    (
        "Post: square steel tube",
        &["B", "R", "q", "t", "E", "Ag", "c"],
    ),
    ("Post: aluminium tube", &["B", "R", "q", "t", "D"]),
    (
        "Post: sawn timber",
        &["CD", "CM", "Ct", "CL", "CF", "Cfu", "Ci", "Cr", "a", "Ag"],
    ),
    (
        "Post: round timber",
        &["CD", "CM", "Ct", "CL", "CF", "Cfu", "Ci", "Cr", "d", "Ag"],
    ),
    // K, L, r, Ag and w = D/t of the post; its EI; kt of the ground.
    (
        "Weight and bending together",
        &["K", "L", "r", "E", "EI", "Ag", "Fy", "w", "kt"],
    ),
    ("Lean of the top", &["k", "H", "lim"]),
    // Unit weight, adfreeze stress; f and Wf where they are nothing.
    ("Frost", &["g", "Vc", "t", "f", "Wf"]),
    ("Pull-out", &["g", "Vc", "f", "Wf"]),
    ("Quantities", &["Y", "wa", "nc", "Wb"]),
    // The soil, the post and the load, as asked.
    ("Broms, cohesive soil", &["su", "b", "L", "e", "My"]),
    ("Broms, cohesionless soil", &["g", "b", "L", "e", "My"]),
    ("UFC 3-220-20", &["s0", "t0"]),
    // P and Q are computed: sums over layers and depth.
    ("Brinch Hansen", &["e", "Px", "Qx", "PL", "QL", "Pf", "Qf"]),
    (
        "Rigid-plastic statics",
        &["e", "Px", "Qx", "PL", "QL", "Pf", "Qf"],
    ),
    // One moment along the leaf, or across it; the other is nothing.
    ("At the ground line, combined with dead load", &["Mi", "Mx"]),
];

/// The same number by another name.
const RENAMED: &[(&str, &[&str])] = &[
    ("W1", &["W"]),
    ("W2", &["W"]),
    ("W3", &["W"]),
    ("W4", &["W"]),
    ("Wa", &["W"]),
    ("Wb", &["W"]),
    ("M0", &["M"]),
    // Their size, as loads on the post.
    ("V", &["P"]),
    ("L", &["dc", "dq"]),
    ("dr", &["dc", "dq"]),
    // cn where there is no return.
    ("cs", &["cn", "ct"]),
    ("R", &["Rp", "Rs"]),
];

/// Is the number of a term, not on a line before, excused?
fn excused(title: &str, term: &str) -> bool {
    let mut lists = GO_IN.iter().filter(|(section, _)| *section == title);
    lists.any(|(_, terms)| terms.contains(&term))
}

/// Every term of every computed line stands on an earlier line of the sheet with
/// its symbol and value, or goes in.
pub(crate) fn closed(sheet: &Worksheet) {
    type Known = Vec<(&'static str, (f64, String))>;
    let mut known: Known = Vec::new();
    let mut gaps: Vec<String> = Vec::new();
    let among = |known: &Known, symbol: &str, value: &(f64, String)| {
        let mut found = known.iter().filter(|(old, _)| *old == symbol);
        found.any(|(_, old)| same(old, value))
    };
    for section in &sheet.sections {
        for step in &section.steps {
            let named = names(&step.formula);
            // A root stands in its own equation.
            let root = step.origin == Origin::Root;
            let result = (step.symbol, printed(step.result, sheet.system));
            if root {
                known.push(result.clone());
            }
            for term in &step.terms {
                let symbol = term.symbol;
                if !named.contains(&symbol) {
                    continue;
                }
                let value = printed(term.value, sheet.system);
                let renamed = RENAMED.iter().filter(|(new, _)| *new == symbol);
                let mut others = renamed.flat_map(|(_, old)| *old);
                // 12 ft at the most.
                let twelve = symbol == "dr" && at_twelve(&value, sheet.system);
                if !(among(&known, symbol, &value)
                    || others.any(|old| among(&known, old, &value))
                    || twelve
                    || excused(section.title, symbol))
                {
                    gaps.push(format!(
                        "{}: {} = {} uses {symbol} = {value:?}",
                        section.title, step.symbol, step.formula
                    ));
                }
            }
            known.push(result);
        }
    }
    assert!(gaps.is_empty(), "which no line before gives: {gaps:#?}");
}

/// Is it a depth at which the 12 ft rule stops?
fn at_twelve(depth: &(f64, String), system: UnitSystem) -> bool {
    [ft(12.0), ft(36.0)]
        .into_iter()
        .any(|limit| same(depth, &printed(Measured::new(limit), system)))
}

/// Every line recomputes and every term is introduced.
pub(crate) fn checked(sheet: &Worksheet) {
    for step in sheet.steps() {
        recompute(step, sheet.system);
    }
    closed(sheet);
}

/// The last line of a symbol.
pub(crate) fn step<'a>(sheet: &'a Worksheet, symbol: &str) -> &'a Step {
    let found = sheet.steps().filter(|step| step.symbol == symbol).last();
    found.unwrap_or_else(|| panic!("no line {symbol}"))
}

pub(crate) fn count(sheet: &Worksheet, symbol: &str) -> usize {
    sheet.steps().filter(|step| step.symbol == symbol).count()
}

pub(crate) fn has(sheet: &Worksheet, symbol: &str) -> bool {
    count(sheet, symbol) > 0
}

pub(crate) fn present(sheet: &Worksheet, symbols: &[&str]) {
    for symbol in symbols {
        assert!(has(sheet, symbol), "no line {symbol}");
    }
}

pub(crate) fn absent(sheet: &Worksheet, symbols: &[&str]) {
    for symbol in symbols {
        assert!(!has(sheet, symbol), "a line {symbol}");
    }
}

/// Has the formula of the last line of a symbol this term?
pub(crate) fn uses(sheet: &Worksheet, symbol: &str, term: &str) -> bool {
    let step = step(sheet, symbol);
    let named = names(&step.formula).contains(&term);
    assert!(!named || step.terms.iter().any(|found| found.symbol == term));
    named
}

pub(crate) fn quantity<Q: Measurable>(sheet: &Worksheet, symbol: &str) -> Q {
    step(sheet, symbol).result.quantity().unwrap()
}

pub(crate) fn quantity_of_term<Q: Measurable>(sheet: &Worksheet, symbol: &str, term: &str) -> Q {
    let terms = step(sheet, symbol).terms.iter();
    let mut terms = terms.filter(|found| found.symbol == term);
    terms.next().unwrap().value.quantity().unwrap()
}

pub(crate) fn ratio_of(sheet: &Worksheet, symbol: &str) -> f64 {
    quantity::<Ratio>(sheet, symbol).value
}

/// Does a remark hold this text?
pub(crate) fn says(sheet: &Worksheet, text: &str) -> bool {
    let remarks = sheet.sections.iter().flat_map(|section| &section.remarks);
    remarks.into_iter().any(|remark| remark.contains(text))
}
