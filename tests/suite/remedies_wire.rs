//! Remedies, the depth to dig and the wind held on the wire.

use groundline::wire::{Answer, Node};
use serde_json::{Value, json};

fn answer(calculate: &str, input: &Value) -> Value {
    let request = json!({
        "version": 1, "calculate": calculate, "units": "us", "input": input
    });
    let node: Node = serde_json::from_value(request).unwrap();
    serde_json::to_value(Answer::to(&node)).unwrap()
}

fn plan(depth: &str, frost: bool) -> Value {
    let mut plan = json!({
        "site": {"kind": "pressure", "pressure": "5 psf", "level": "allowable_stress"},
        "fence": {"runs": [{"length": "48 ft", "spacing": "8 ft", "panel": {"height": "6 ft"}}]},
        "design": {
            "ground": {"class": 4},
            "post": {"kind": "pipe", "diameter": "4 in", "wall": "0.16 in", "fy": "50 ksi"},
            "foundation": {"kind": "concrete", "hole": {"shape": "round", "size": "12 in"}}
        },
        "planned_depth": depth,
        "checks": {"materials": {"bag": {"weight": "80 lb"}}}
    });
    if frost {
        plan["checks"]["frost"] = json!({"depth": "30 in"});
    }
    plan
}

#[test]
fn a_remedy_of_the_wire_passes_on_the_wire() {
    let found = answer("remedies", &json!({"plan": plan("36 in", false)}));
    let result = &found["result"];
    assert_eq!(result["failing"].as_array().unwrap().len(), 7, "{found}");
    let remedies = result["remedies"].as_array().unwrap();
    let depth = remedies.iter().find(|one| one["kind"] == "depth").unwrap();
    let depth = depth["value"]["value"].as_f64().unwrap();
    let failing = |depth: f64| {
        let plan = plan(&format!("{depth} in"), false);
        answer("fence_schedule", &plan)["result"]["failing"]
            .as_u64()
            .unwrap()
    };
    assert_eq!(failing(depth), 0);
    assert!(failing(depth - 1.0) > 0);
    let only = json!({"plan": plan("36 in", false), "post": 3, "kinds": ["depth", "paving"]});
    let only = answer("remedies", &only);
    assert_eq!(only["result"]["failing"], json!([3]));
    assert_eq!(only["result"]["remedies"].as_array().unwrap().len(), 2);
    assert!(only["result"]["remedies"][1]["condition"].is_string());
    for (field, value) in [
        ("post", json!(9)),
        ("depth_step", json!("0 in")),
        ("fence_step", json!("20 ft")),
        ("greatest_depth", json!("1 in")),
        ("kinds", json!([])),
    ] {
        let mut input = json!({"plan": plan("36 in", false)});
        input[field] = value;
        let refused = answer("remedies", &input);
        let path = refused["errors"][0]["path"].as_str().unwrap();
        assert_eq!(path, format!("input.{field}"));
    }
}

#[test]
fn a_schedule_gives_bags_and_concrete_only_at_a_depth_that_passes() {
    let schedule = answer("fence_schedule", &plan("36 in", false));
    let result = &schedule["result"];
    assert_eq!(result["without_depth"], 0);
    for post in result["posts"].as_array().unwrap() {
        let value = |field: &Value| field["value"].as_f64().unwrap();
        assert!(post["no_depth"].is_null());
        let dig = value(&post["depth_to_dig"]) * 12.0;
        let required = value(&post["check"]["required_depth"]) * 12.0;
        assert!((dig - required.ceil()).abs() < 1e-6);
        let missing = value(&post["check"]["missing_depth"]) * 12.0;
        assert!((missing - (required - 36.0)).abs() < 1e-9);
        // Net concrete round the pipe, to the depth to dig: by hand.
        let area = core::f64::consts::FRAC_PI_4 * (144.0 - 16.0);
        let concrete = value(&post["check"]["concrete"]) * 1728.0;
        assert!((concrete - area * dig).abs() < 1e-6);
        let share = post["wind_held"].as_f64().unwrap();
        assert!(share < 1.0 && (value(&post["pressure_held"]) - 5.0 * share).abs() < 1e-9);
    }
    let frozen = answer("fence_schedule", &plan("36 in", true));
    let result = &frozen["result"];
    assert_eq!(result["without_depth"], 7);
    assert_eq!(result["left_out"], 7);
    assert_eq!(result["concrete"]["value"], 0.0);
    for post in result["posts"].as_array().unwrap() {
        assert!(post["depth_to_dig"].is_null() && post["more"]["bags"].is_null());
        let why = post["no_depth"].as_str().unwrap();
        assert!(
            why.contains("frost uplift fails at every depth tried"),
            "{why}"
        );
    }
}
