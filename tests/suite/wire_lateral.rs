//! Lengths on the wire: what has no meaning is refused, by every calculation.

use groundline::units::{Length, parse};
use groundline::wire::{Answer, Node};
use serde_json::{Value, json};

const REQUESTS: &str = include_str!("../../examples/embed/requests.jsonl");

fn example(id: &str) -> Value {
    let mut all = REQUESTS
        .lines()
        .map(|line| serde_json::from_str::<Value>(line).unwrap());
    all.find(|request| request["id"] == id).unwrap()
}

fn answer(request: &Value) -> Answer {
    let node: Node = serde_json::from_str(&request.to_string()).unwrap();
    Answer::to(&node)
}

/// `lateral_methods` answered a width of −3 m and of nothing, and a depth of −1 m,
/// with a result. The limits are those of each method: 0.02 to 3 m, 0.01 to 30 m.
#[test]
fn sizes_of_lateral_methods_have_limits() {
    for (field, value, taken) in [
        ("width", "-3 m", false),
        ("width", "0 mm", false),
        ("width", "19.9 mm", false),
        ("width", "20 mm", true),
        ("width", "3 m", true),
        ("width", "3.001 m", false),
        ("planned_depth", "-1 m", false),
        ("planned_depth", "0 m", false),
        ("planned_depth", "9 mm", false),
        ("planned_depth", "10 mm", true),
        ("planned_depth", "30 m", true),
        ("planned_depth", "30.01 m", false),
    ] {
        let mut request = example("methods");
        request["input"][field] = json!(value);
        let answer = answer(&request);
        let problems: Vec<_> = answer.problems().collect();
        assert_eq!(answer.result().is_some(), taken, "{field} {value}");
        assert_eq!(problems.is_empty(), taken, "{field} {value}");
        if let [problem] = problems.as_slice() {
            assert_eq!(problem.path, format!("input.{field}"));
            assert_eq!(problem.value.as_deref(), Some(value));
            assert!(problem.allowed.contains("give "), "{}", problem.allowed);
        }
    }
}

/// Every place of a request where a length stands, as a pointer.
fn lengths(value: &Value, at: &str, found: &mut Vec<String>) {
    match value {
        Value::String(text) if parse::<Length>(text).is_ok() => found.push(at.to_owned()),
        Value::Object(fields) => {
            if let (Some(number), Some(unit)) = (fields.get("value"), fields.get("unit")) {
                let text = format!("{number} {}", unit.as_str().unwrap_or_default());
                if parse::<Length>(&text).is_ok() {
                    found.push(at.to_owned());
                }
                return;
            }
            for (name, value) in fields {
                lengths(value, &format!("{at}/{name}"), found);
            }
        }
        Value::Array(items) => {
            for (index, value) in items.iter().enumerate() {
                lengths(value, &format!("{at}/{index}"), found);
            }
        }
        _ => {}
    }
}

/// Ends of the places where a length may be zero: a place along a run or a post, a gap,
/// a part that may be missing, a height at grade, a movement. None may be negative.
const ZERO: [&str; 18] = [
    "gates/0/at",
    "panel/clearance",
    "infill/gap",
    "input/height",
    "forces/0/height",
    "winds/0/from",
    "range/from",
    "input/movement",
    "readings/0/movement",
    "allowed_movement",
    "bond/length",
    "shaft/excluded",
    "input/base",
    "materials/base",
    "post/loss",
    "frost_depth",
    "frost/depth",
    "profile/water",
];

/// Every length of every example is refused where it is negative or zero, but for
/// those that mean something then.
#[test]
fn lengths_that_mean_nothing_are_refused() {
    let (mut places, mut wrong) = (0, Vec::new());
    for line in REQUESTS.lines() {
        let request: Value = serde_json::from_str(line).unwrap();
        let mut found = Vec::new();
        lengths(&request["input"], "/input", &mut found);
        for place in found {
            places += 1;
            let may_be_zero = ZERO.iter().any(|end| place.ends_with(end));
            for (value, allowed) in [("-3 m", false), ("0 mm", may_be_zero)] {
                let mut request = request.clone();
                *request.pointer_mut(&place).unwrap() = json!(value);
                if answer(&request).result().is_some() && !allowed {
                    wrong.push(format!("{} {place} {value}", request["calculate"]));
                }
            }
        }
    }
    assert!(places > 200, "{places}");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// A pressure without its height acts at 0.55 of the panel, in JSON as in a job file.
#[test]
fn a_pressure_acts_at_the_same_height_everywhere() {
    let request = example("a pressure of one's own");
    assert_eq!(request["input"]["site"].get("acting_at"), None);
    let with = |share: f64| {
        let mut request = request.clone();
        request["input"]["site"]["acting_at"] = json!(share);
        answer(&request).node().clone()
    };
    let without = answer(&request).node().clone();
    assert!(without == with(0.55));
    assert!(without != with(0.5));
    let schema = include_str!("../../examples/embed/request.schema.json");
    assert!(schema.contains("share of the panel height; 0.55 unless given"));
}
