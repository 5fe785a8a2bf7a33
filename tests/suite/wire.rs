//! The wire format: requests and answers as data.

use groundline::actions::GroundlineActions;
use groundline::check::PostCheck;
use groundline::fence::{Fence, FenceRun, Panel};
use groundline::foundation::Hole;
use groundline::ground::{Ground, SoilClass};
use groundline::limit_state::AllowableStress;
use groundline::plan::FencePlan;
use groundline::units::{Length, Measurable, ft, inch, lb, lb_ft, mph, parse, psf};
use groundline::wind::{AsceSite, BasicWindSpeed, Edition, Exposure};
use groundline::wire::{Answer, Input, Node, Problems, Request, answer_schema, request_schema};
use proptest::prelude::*;
use serde_json::{Value, json};
use std::collections::BTreeSet;

const REQUESTS: &str = include_str!("../../examples/embed/requests.jsonl");
const SCHEMA: &str = include_str!("../../examples/embed/request.schema.json");
const ANSWER_SCHEMA: &str = include_str!("../../examples/embed/answer.schema.json");

fn node(text: &str) -> Node {
    serde_json::from_str(text).unwrap()
}

fn node_of(value: &Value) -> Node {
    node(&value.to_string())
}

fn examples() -> Vec<Value> {
    let read = |line| serde_json::from_str(line).unwrap();
    REQUESTS.lines().map(read).collect()
}

/// The example request with this id.
fn example(id: &str) -> Value {
    let all = examples();
    all.into_iter().find(|request| request["id"] == id).unwrap()
}

fn number(answer: &Answer, path: &str) -> f64 {
    let found = answer.node().at(path).and_then(Node::as_number);
    found.unwrap_or_else(|| panic!("{path} of {:?}", answer.node()))
}

#[test]
fn every_calculation_has_an_example_that_is_answered() {
    let mut seen = BTreeSet::new();
    for request in examples() {
        let answer = Answer::to(&node_of(&request));
        let problems: Vec<_> = answer.problems().collect();
        assert!(problems.is_empty(), "{}: {problems:?}", request["id"]);
        assert!(answer.result().is_some());
        let name = request["calculate"].as_str().unwrap();
        assert_eq!(
            answer.node().get("calculate").unwrap().as_text(),
            Some(name)
        );
        seen.insert(name.to_owned());
        // The caution that is on every result.
        let first = answer.node().at("cautions.0").and_then(Node::as_text);
        assert!(first.unwrap().contains("licensed engineer"));
        assert!(answer.node().at("sources.0.mark").is_some(), "{name}");
    }
    let names: BTreeSet<_> = Input::NAMES.iter().map(|&name| name.to_owned()).collect();
    assert_eq!(seen, names);
}

#[test]
fn the_schemas_kept_are_current() {
    let kept: Value = serde_json::from_str(SCHEMA).unwrap();
    assert_eq!(serde_json::to_value(request_schema()).unwrap(), kept);
    let kept: Value = serde_json::from_str(ANSWER_SCHEMA).unwrap();
    assert_eq!(serde_json::to_value(answer_schema()).unwrap(), kept);
}

#[test]
fn every_example_and_its_answer_obey_the_schemas() {
    let requests = jsonschema::validator_for(&serde_json::from_str(SCHEMA).unwrap()).unwrap();
    let answers = jsonschema::validator_for(&serde_json::from_str(ANSWER_SCHEMA).unwrap()).unwrap();
    for broken in ["{}", "[]", "{\"calculate\":\"depth_rules\",\"version\":1}"] {
        let answer = serde_json::to_value(Answer::to(&node(broken))).unwrap();
        assert!(answers.is_valid(&answer), "{answer}");
    }
    assert!(!answers.is_valid(&json!({ "version": 1 })));
    for request in examples() {
        if let Err(why) = requests.validate(&request) {
            panic!("{}: {why}", request["id"]);
        }
        let read = Request::read(&node_of(&request)).unwrap();
        let written = serde_json::to_value(&read).unwrap();
        assert!(requests.is_valid(&written), "{}", request["id"]);
        let answer = serde_json::to_value(read.answer()).unwrap();
        if let Err(why) = answers.validate(&answer) {
            panic!("answer to {}: {why}", request["id"]);
        }
        // What the reader refuses, the schema refuses: a field it does not know.
        let mut unknown = request.clone();
        unknown["input"]["colour"] = json!("green");
        assert!(!requests.is_valid(&unknown));
        assert!(Request::read(&node_of(&unknown)).is_err());
    }
}

/// The schema of answers knows the fields of sources, of worksheets and of quantities of
/// any dimension: all of them, and no other.
#[test]
fn the_schema_knows_every_field_of_an_answer() {
    let answers = jsonschema::validator_for(&serde_json::from_str(ANSWER_SCHEMA).unwrap()).unwrap();
    let sheet_of = |changes: &[(&str, Value)]| {
        let mut request = example("timber");
        request["worksheet"] = json!(true);
        for (name, value) in changes {
            request["input"][name] = value.clone();
        }
        serde_json::to_value(Answer::to(&node_of(&request))).unwrap()
    };
    let sheet = sheet_of(&[]);
    let quantity = serde_json::to_value(Answer::to(&node_of(&example("design value")))).unwrap();
    let step = "/worksheets/0/sections/0/steps/0";
    for (answer, places) in [
        (
            &sheet,
            vec![
                "/sources/0".to_owned(),
                "/worksheets/0".to_owned(),
                "/worksheets/0/sections/0".to_owned(),
                step.to_owned(),
                format!("{step}/result"),
            ],
        ),
        (&quantity, vec!["/result/value".to_owned()]),
    ] {
        assert!(answers.is_valid(answer));
        for place in places {
            let fields = answer.pointer(&place).and_then(Value::as_object);
            let fields = fields.unwrap_or_else(|| panic!("{place}"));
            for name in fields.keys().map(String::as_str).chain(["colour"]) {
                let mut broken = answer.clone();
                broken.pointer_mut(&place).unwrap()[name] = json!(true);
                assert!(!answers.is_valid(&broken), "{place} {name}");
            }
        }
    }
    // A post wholly in ground that does not count: no capacity.
    let none = sheet_of(&[
        ("planned_depth", json!("10 in")),
        (
            "design",
            json!({
                "ground": { "class": 4, "discounted_top": "12 in" },
                "post": { "kind": "pipe", "diameter": "2.875 in", "wall": "0.16 in", "fy": "50 ksi" },
                "foundation": { "kind": "driven" }
            }),
        ),
    ]);
    assert_eq!(none["result"]["embedment"], "no capacity");
    if let Err(why) = answers.validate(&none) {
        panic!("{why}");
    }
    for mut request in examples() {
        request["worksheet"] = json!(true);
        let answer = serde_json::to_value(Answer::to(&node_of(&request))).unwrap();
        if let Err(why) = answers.validate(&answer) {
            panic!("{}: {why}", request["id"]);
        }
    }
}

#[test]
fn a_check_asked_over_the_wire_has_the_bits_of_the_library() {
    let request = json!({
        "version": 1, "calculate": "post_check", "units": "us",
        "input": {
            "design": {
                "ground": { "class": 4 },
                "post": { "kind": "pipe", "diameter": "2.875 in", "wall": "0.16 in", "fy": "50 ksi" },
                "foundation": { "kind": "concrete", "hole": { "shape": "round", "size": "12 in" } }
            },
            "shear": "321.7 lb", "moment": "1234.5 lb-ft", "axial": "77 lb", "planned_depth": "41 in"
        }
    });
    let answer = Answer::to(&node_of(&request));
    let design = super::samples::in_concrete(inch(12.0));
    let level = AllowableStress::Basic;
    let load = GroundlineActions::new(lb(321.7), lb_ft(1_234.5), lb(77.0), level).unwrap();
    let check = PostCheck::of_actions(&design, &load, Some(inch(41.0))).unwrap();
    assert_eq!(
        number(&answer, "result.utilization"),
        check.utilization.ratio()
    );
    assert_eq!(
        number(&answer, "result.required_depth.value"),
        check.required.depth().to(ft)
    );
    assert_eq!(
        number(&answer, "result.bending"),
        check.strength.bending.ratio()
    );
    assert_eq!(
        number(&answer, "result.greatest_moment.value"),
        check.strength.demand.moment().to(lb_ft)
    );
    assert_eq!(
        number(&answer, "result.vertical_bearing"),
        check.bearing.unwrap().utilization.ratio()
    );
    assert_eq!(
        answer.node().at("result.governing").unwrap().as_text(),
        Some("embedment")
    );
}

#[test]
fn a_fence_asked_over_the_wire_has_the_bits_of_the_library() {
    let request = json!({
        "version": 1, "calculate": "fence_schedule", "units": "us",
        "input": {
            "site": { "kind": "asce7", "edition": "7-16", "speed": "110 mph", "exposure": "C" },
            "fence": { "runs": [{ "length": "64 ft", "spacing": "8 ft",
                "panel": { "height": "6 ft", "weight": "3 psf" } }] },
            "design": {
                "ground": { "class": 4 },
                "post": { "kind": "pipe", "diameter": "2.875 in", "wall": "0.16 in", "fy": "50 ksi" },
                "foundation": { "kind": "concrete", "hole": { "shape": "round", "size": "12 in" } }
            },
            "planned_depth": "48 in",
            "posts": [{ "number": 2, "planned_depth": "30 in" }]
        }
    });
    let answer = Answer::to(&node_of(&request));
    let panel = Panel::new(ft(6.0)).unwrap().with_weight(psf(3.0)).unwrap();
    let fence = Fence::new(FenceRun::new(panel, ft(64.0), ft(8.0)).unwrap());
    let speed = BasicWindSpeed::strength_level(mph(110.0)).unwrap();
    let site = AsceSite::new(Edition::Asce7_16, speed, Exposure::C);
    let design = super::samples::in_concrete(inch(12.0));
    let plan = FencePlan::new(site, fence, design)
        .with_planned_depth(inch(48.0))
        .with_post(2, design, Some(inch(30.0)));
    let schedule = plan.schedule().unwrap();
    assert_eq!(number(&answer, "result.count"), 9.0);
    for (index, post) in schedule.posts().enumerate() {
        let at = |field: &str| format!("result.posts.{index}.{field}");
        assert_eq!(
            number(&answer, &at("check.utilization")),
            post.check.utilization.ratio()
        );
        assert_eq!(
            number(&answer, &at("check.required_depth.value")),
            post.check.required.depth().to(ft)
        );
        assert_eq!(
            number(&answer, &at("check.planned_depth.value")),
            inch(if index == 1 { 30.0 } else { 48.0 }).to(ft)
        );
    }
}

/// Multiplies every number of a request that stands for a quantity.
fn scaled(value: &Value, by: &mut impl FnMut() -> f64) -> Value {
    match value {
        Value::Object(fields) => {
            if let (Some(number), Some(unit)) = (fields.get("value"), fields.get("unit")) {
                return json!({ "value": number.as_f64().unwrap() * by(), "unit": unit });
            }
            let scale = |(name, value): (&String, &Value)| (name.clone(), scaled(value, by));
            Value::Object(fields.iter().map(scale).collect())
        }
        Value::Array(items) => Value::Array(items.iter().map(|item| scaled(item, by)).collect()),
        other => other.clone(),
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]
    /// Written, read again and computed: the same bits, whatever the units
    /// the request came in.
    #[test]
    fn a_round_trip_keeps_every_bit(
        which in 0_usize..examples().len(),
        seed in prop::collection::vec(0.97_f64..1.03, 1..40),
    ) {
        let mut at = 0;
        let mut next = || { at += 1; seed[at % seed.len()] };
        // First in exact form, so that every quantity is a number to scale.
        let first = Request::read(&node_of(&examples()[which])).unwrap();
        let mutated = scaled(&serde_json::to_value(&first).unwrap(), &mut next);
        let Ok(request) = Request::read(&node_of(&mutated)) else { return Ok(()); };
        let text = serde_json::to_string(&request).unwrap();
        let again: Request = serde_json::from_str(&text).unwrap();
        prop_assert_eq!(&again, &request);
        prop_assert_eq!(serde_json::to_string(&again).unwrap(), text);
        prop_assert_eq!(again.answer(), request.answer());
    }

    /// Nothing that is data makes reading fail otherwise than by saying so,
    /// and what is wrong always has a place and a word of what is allowed.
    #[test]
    fn a_request_with_a_part_replaced_is_answered(
        which in 0_usize..examples().len(),
        place in 0_usize..200,
        with in prop::sample::select(vec![
            "null", "true", "0", "-1", "1e308", "-0.0", "\"\"", "\"8\"", "\"8 psf\"", "\"-8 ft\"",
            "\"1e999 ft\"", "\"NaN ft\"", "[]", "{}", "[[[]]]", "{\"value\":1}",
            "{\"value\":1e308,\"unit\":\"ft\"}", "{\"value\":\"1\",\"unit\":\"ft\"}",
            "{\"value\":1,\"unit\":\"furlong\"}", "{\"kind\":\"pipe\"}", "9007199254740993",
        ]),
    ) {
        let mut request = examples()[which].clone();
        let mut count = 0;
        replace(&mut request, place, &mut count, &serde_json::from_str(with).unwrap());
        let answer = Answer::to(&node_of(&request));
        prop_assert!(answer.result().is_some() != answer.problems().next().is_some());
        for problem in answer.problems() {
            prop_assert!(!problem.allowed.is_empty());
        }
        finite(answer.node());
    }
}

/// Replaces the node that comes at a place of the tree.
fn replace(value: &mut Value, place: usize, count: &mut usize, with: &Value) {
    if *count == place {
        *value = with.clone();
        *count += 1;
        return;
    }
    *count += 1;
    match value {
        Value::Object(fields) => fields
            .iter_mut()
            .for_each(|(_, value)| replace(value, place, count, with)),
        Value::Array(items) => items
            .iter_mut()
            .for_each(|value| replace(value, place, count, with)),
        _ => {}
    }
}

fn finite(node: &Node) {
    match node {
        Node::Number(value) => assert!(value.is_finite()),
        Node::Text(text) => assert_ne!(text, "not finite"),
        Node::List(items) => items.iter().for_each(finite),
        Node::Object(fields) => fields.iter().for_each(|(_, node)| finite(node)),
        Node::Null | Node::Bool(_) => {}
    }
}

fn refused(request: &Value) -> Vec<(String, String)> {
    let answer = Answer::to(&node_of(request));
    assert!(answer.result().is_none(), "{request} was answered");
    let pair = |p: &groundline::wire::Problem| (p.path.clone(), p.to_string());
    answer.problems().map(pair).collect()
}

#[test]
fn every_fault_is_said_at_once_with_its_path() {
    let mut request = example("a fence");
    request["input"]["site"]["speed"] = json!("1150 mph");
    request["input"]["fence"]["runs"][0]["spacing"] = json!("8");
    request["input"]["fence"]["runs"][1]["panel"]["height"] = json!(6);
    request["input"]["design"]["post"]["fy"] = json!({ "value": 50, "unit": "ft" });
    request["input"]["design"]["foundation"]["hole"]["size"] = json!("-12 in");
    request["input"]["design"]["foundation"]["hole"]["depth"] = json!("1 ft");
    request["input"]["kinds"][0]["post"] = json!("middle");
    let faults = refused(&request);
    // What can be read is validated too only when all of it can be read.
    let paths: Vec<_> = faults.iter().map(|(path, _)| path.as_str()).collect();
    for path in [
        "input.fence.runs.0.spacing",
        "input.fence.runs.1.panel.height",
        "input.design.post.fy.unit",
        "input.design.foundation.hole.depth",
        "input.kinds.0.post",
    ] {
        assert!(paths.contains(&path), "{path} of {faults:?}");
    }
    let mut request = example("a fence");
    request["input"]["site"]["speed"] = json!("1150 mph");
    request["input"]["fence"]["runs"][0]["spacing"] = json!("90 ft");
    request["input"]["design"]["ground"]["class"] = json!(9);
    request["input"]["design"]["foundation"]["hole"]["size"] = json!("-12 in");
    request["input"]["posts"][0]["number"] = json!(0);
    let faults = refused(&request);
    for (path, says) in [
        ("input.site.speed", "1150 mph"),
        ("input.fence.runs.0.spacing", "1 ft to 40 ft"),
        ("input.design.ground.class", "1"),
        ("input.design.foundation.hole.size", "3 in to 120 in"),
        ("input.posts.0.number", "numbered"),
    ] {
        let fault = faults.iter().find(|(at, _)| at == path);
        let (_, text) = fault.unwrap_or_else(|| panic!("{path} of {faults:?}"));
        assert!(text.contains(says), "{text}");
    }
}

/// A problem shows what was sent, not what became of it.
#[test]
fn problems_show_what_was_sent() {
    for (sent, shown) in [
        (json!({ "value": 1e3, "unit": "yd" }), "1000 yd"),
        (json!("0.001 km"), "0.001 km"),
        (json!(7), "7"),
        (json!("1234567 in"), "1234567 in"),
    ] {
        let mut request = example("rules");
        request["input"]["height"] = sent.clone();
        let answer = Answer::to(&node_of(&request));
        let value = answer.problems().next().map(|p| p.value.clone());
        assert_eq!(value.unwrap().as_deref(), Some(shown), "{sent}");
    }
    let mut request = example("a lean");
    request["input"]["limit"] = json!(9.5);
    assert!(refused(&request)[0].1.contains("`9.5`"));
}

#[test]
fn limits_are_told_in_the_units_of_the_request() {
    let mut request = example("with its working");
    request["input"]["design"]["foundation"]["hole"]["size"] = json!("1 mm");
    let (_, text) = refused(&request).remove(0);
    assert!(text.contains("76.2 mm to 3048 mm"), "{text}");
}

/// What is not a request, or not quite one.
#[test]
fn broken_requests_each_get_a_clear_error() {
    let text = example("rules").to_string();
    let with = |from: &str, to: &str| {
        assert!(text.contains(from), "{text}");
        text.replace(from, to)
    };
    for (broken, says) in [
        (with("\"version\":1", "\"version\":2"), "version 1"),
        (with("\"version\":1", "\"version\":\"1\""), "version 1"),
        (with(",\"version\":1", ""), "version"),
        (with("depth_rules", "deep_rules"), "depth_rules"),
        (with("\"us\"", "\"imperial\""), "us, si"),
        (with("\"6 ft\"", "\"6\""), "unit is missing"),
        (with("\"6 ft\"", "\"6 kPa\""), "not one of this quantity"),
        (with("\"6 ft\"", "6"), "with its unit"),
        (with("\"6 ft\"", "[\"6 ft\"]"), "with its unit"),
        (with("\"6 ft\"", "{\"value\":6}"), "missing"),
        (
            with("\"6 ft\"", "{\"value\":6,\"unit\":\"ft\",\"unit\":\"m\"}"),
            "once",
        ),
        (with("\"6 ft\"", "\"1e6 ft\""), "0.5 ft to 100 ft"),
        (
            with("\"height\":", "\"height\":\"5 ft\",\"height\":"),
            "twice",
        ),
        (with("\"height\"", "\"heigth\""), "height"),
        ("[]".to_owned(), "give an object"),
        ("3".to_owned(), "give an object"),
        ("null".to_owned(), "give an object"),
        ("{}".to_owned(), "calculate"),
    ] {
        let answer = Answer::to(&node(&broken));
        assert!(answer.result().is_none(), "{broken}");
        let problems = answer.problems().map(ToString::to_string);
        let all = problems.collect::<Vec<_>>().join("\n");
        assert!(all.contains(says), "{broken}: {all}");
    }
    // Not even data: serde says so, and no answer but an error comes of it.
    let deep = "[".repeat(100) + &"]".repeat(100);
    for (broken, says) in [
        (&text[..text.len() / 2], "EOF"),
        ("{\"version\":1e999}", "out of range"),
        (deep.as_str(), "levels deep"),
        ("{\"a\":NaN}", "expected"),
    ] {
        let why = serde_json::from_str::<Node>(broken)
            .unwrap_err()
            .to_string();
        assert!(why.contains(says), "{broken}: {why}");
        let answer = Answer::to_broken(&why);
        assert_eq!(answer.problems().count(), 1);
    }
    assert!(serde_json::from_slice::<Node>(b"\"\xff\"").is_err());
}

/// A request read straight by serde is validated too.
#[test]
fn serde_reads_only_what_is_valid() {
    let text = example("rules").to_string();
    assert!(serde_json::from_str::<Request>(&text).is_ok());
    let why = serde_json::from_str::<Request>(&text.replace("6 ft", "6 psf")).unwrap_err();
    assert!(why.to_string().contains("input.height"), "{why}");
}

#[test]
fn a_hundred_faults_are_enough() {
    let mut request = example("a fence");
    let run = json!({ "length": 1 });
    request["input"]["fence"]["runs"] = Value::Array(vec![run; 500]);
    let faults = refused(&request);
    // One more says that there are more.
    assert_eq!(faults.len(), 101);
    assert!(faults[100].1.contains("more problems"));
}

#[test]
fn long_names_and_texts_are_cut_in_messages() {
    let mut request = example("rules");
    let long = "x".repeat(10_000);
    request["input"][&long] = json!(1);
    request["input"]["height"] = json!(long);
    for (path, text) in refused(&request) {
        assert!(path.len() < 100 && text.len() < 400, "{text}");
    }
}

#[test]
fn limit_states_that_do_not_combine_are_refused() {
    let mut request = example("actions");
    request["input"]["combination"] = json!("en1990_structure");
    let (path, text) = refused(&request).remove(0);
    assert_eq!(path, "input.combination");
    assert!(text.contains("strength level"), "{text}");
    let mut request = example("a fence");
    request["input"]["site"] = json!({ "kind": "en1991", "speed": "25 m/s", "terrain": "II" });
    let (path, text) = refused(&request).remove(0);
    assert_eq!(path, "input.site.kind");
    assert!(text.contains("fence_actions"), "{text}");
}

/// Every unit the parser knows, as text and as an object, is the same length.
#[test]
fn both_ways_to_write_a_quantity_agree() {
    for unit in ["ft", "in", "m", "mm", "cm", "yd", "feet"] {
        let text = format!("6.25 {unit}");
        let length = parse::<Length>(&text).unwrap();
        if !(ft(0.5)..=ft(40.0)).contains(&length) {
            continue;
        }
        let mut request = example("rules");
        request["input"]["height"] = json!(text);
        let one = Answer::to(&node_of(&request));
        request["input"]["height"] = json!({ "value": 6.25, "unit": unit });
        let other = Answer::to(&node_of(&request));
        assert_eq!(one, other, "{unit}");
    }
}

/// The working over the wire is the worksheet of the library.
#[test]
fn a_worksheet_comes_when_it_is_asked_for() {
    let answer = Answer::to(&node_of(&example("with its working")));
    let text = answer.node().at("worksheets.0.sections.0.title");
    assert!(text.and_then(Node::as_text).is_some());
    let sections = serde_json::to_string(answer.node().get("worksheets").unwrap()).unwrap();
    assert!(sections.contains("required depth"), "{sections}");
    assert!(sections.contains("\"mark\""));
    let mut request = example("with its working");
    request["worksheet"] = json!(false);
    assert!(
        Answer::to(&node_of(&request))
            .node()
            .get("worksheets")
            .is_none()
    );
}

#[test]
fn problems_stand_for_themselves() {
    let problems = Problems::of_whole("nothing came");
    assert_eq!(problems.to_string(), "the request: nothing came");
    assert!(!problems.is_empty());
    let ground = Ground::presumptive(SoilClass::Class4);
    assert!(Hole::round(inch(12.0)).is_ok() && ground.class().is_some());
}

/// Each fault is told at the field as sent.
#[test]
fn paths_point_at_the_field_as_sent() {
    for (id, place, value, path) in [
        ("4", "axial", json!("-1 lb"), "axial"),
        ("4", "moment", json!("1e12 lb-ft"), "moment"),
        ("4", "planned_depth", json!("0 in"), "planned_depth"),
        ("4", "design.post.wall", json!("9 in"), "design.post.wall"),
        ("4", "design.post.fy", json!("1 psi"), "design.post.fy"),
        ("a dug hole", "height", json!("-1 ft"), "height"),
        ("a dug hole", "depth", json!("0 in"), "depth"),
        ("ledge", "depth_limit", json!("-5 in"), "depth_limit"),
        ("post 1 alone", "post", json!(99), "post"),
        ("a fence", "planned_depth", json!("0 in"), "planned_depth"),
        (
            "a fence",
            "posts.0.planned_depth",
            json!("-3 in"),
            "posts.0.planned_depth",
        ),
        (
            "a fence",
            "fence.runs.1.length",
            json!("1 ft"),
            "fence.runs.1.length",
        ),
        (
            "a fence",
            "fence.runs.0.gates.0.opening",
            json!("1 ft"),
            "fence.runs.0.gates.0.opening",
        ),
        (
            "a fence",
            "fence.runs.1.turn",
            json!("0 deg"),
            "fence.runs.1.turn",
        ),
        (
            "everything",
            "checks.lean.limit",
            json!(9),
            "checks.lean.limit",
        ),
        (
            "everything",
            "checks.materials.waste",
            json!(9),
            "checks.materials.waste",
        ),
        ("a lean", "limit", json!(9), "limit"),
        ("a lean", "rotation", json!("9 rad"), "rotation"),
        ("bags", "waste", json!(2), "waste"),
        ("bags", "base", json!("99 in"), "base"),
        ("bags", "posts", json!(0), "posts"),
        ("bags", "setting", json!("driven"), "setting"),
        ("heave", "dead", json!("-1 kN"), "dead"),
        ("heave", "perimeter", json!("0 m"), "perimeter"),
        ("frost", "surface_factor", json!(9), "surface_factor"),
        (
            "pull-out",
            "footing_weight",
            json!("-1 lb"),
            "footing_weight",
        ),
        (
            "pull-out",
            "shaft.excluded",
            json!("-1 in"),
            "shaft.excluded",
        ),
        ("pull-out", "plate.depth", json!("0 in"), "plate.depth"),
        ("pull-out", "bond.length", json!("-1 in"), "bond.length"),
        ("methods", "rigidity", json!("1e-300 kN-m2"), "rigidity"),
        ("methods", "factor", json!(9), "factor"),
        (
            "movement",
            "winds.0.wind",
            json!("1e9 kN/m"),
            "winds.0.wind",
        ),
        ("movement", "depth", json!("99 m"), "depth"),
        ("a side pull", "share", json!(9), "share"),
        (
            "design value",
            "results.values.0",
            json!("-1 kPa"),
            "results.values",
        ),
        ("proof", "multiple", json!(9), "multiple"),
        ("round timber", "post.fv", json!("1 psi"), "post.fv"),
        ("sleeved vinyl", "post.wall", json!("4 in"), "post.wall"),
        (
            "cheapest",
            "options.1.cost.concrete.per",
            json!("-1 ft3"),
            "options.1.cost.concrete.per",
        ),
        (
            "cheapest",
            "options.1.name",
            json!("14 in hole"),
            "options.1.name",
        ),
        ("how often", "shares.3", json!(1.5), "shares.3"),
        ("what matters", "band", json!(2), "band"),
    ] {
        let mut request = examples()
            .into_iter()
            .find(|r| r["id"] == id || r["id"] == json!(id.parse::<u32>().ok()))
            .unwrap();
        let pointer = format!("/input/{}", place.replace('.', "/"));
        let (parent, name) = pointer.rsplit_once('/').unwrap();
        match request.pointer_mut(parent) {
            Some(Value::Object(fields)) => {
                fields.insert(name.to_owned(), value);
            }
            Some(Value::Array(items)) => items[name.parse::<usize>().unwrap()] = value,
            other => panic!("{id} has no {parent}: {other:?}"),
        }
        let faults = refused(&request);
        let full = format!("input.{path}");
        assert!(
            faults.iter().any(|(at, _)| *at == full),
            "{id} {place}: {faults:?}"
        );
    }
}

/// A short request may not ask for a computer's whole day.
#[test]
fn long_fences_are_refused_before_they_are_laid_out() {
    let mut request = example("a fence");
    request["input"]["fence"]["runs"] = json!([
        { "length": "300000 ft", "spacing": "4 ft", "panel": { "height": "6 ft" } }
    ]);
    let faults = refused(&request);
    assert!(faults[0].1.contains("10000 posts"), "{faults:?}");
    request["input"]["fence"]["runs"][0]["length"] = json!("30000 ft");
    request["input"]["posts"] = json!([]);
    assert!(Answer::to(&node_of(&request)).result().is_some());
    request["worksheet"] = json!(true);
    assert!(refused(&request)[0].1.contains("200 posts"));
    let mut request = example("how windy");
    request["input"]["plan"]["fence"]["runs"][0]["length"] = json!("30000 ft");
    assert!(refused(&request)[0].1.contains("1000 posts"));
    let many: Vec<_> = (0..50_000).map(|index| format!("\"f{index}\":1")).collect();
    let fields = format!("{{{}}}", many.join(","));
    assert_eq!(Answer::to(&node(&fields)).problems().count(), 1);
}

/// What was asked for and could not be checked is told, not passed over.
#[test]
fn checks_not_made_are_told() {
    let post = json!({ "kind": "given", "section": { "kind": "tube", "diameter": "4 in",
        "wall": "0.2 in" }, "moment": "9000 lb-ft", "shear": "9000 lb" });
    let mut request = example("everything");
    request["input"]["design"]["post"] = post.clone();
    request["input"]["checks"] = json!({ "lean": { "growing": "20 pci" }, "axial": {} });
    let answer = Answer::to(&node_of(&request));
    let posts = number(&answer, "result.count");
    assert_eq!(number(&answer, "result.not_checked"), 2.0 * posts);
    assert!(
        answer
            .node()
            .at("result.posts.0.more.not_checked.1")
            .is_some()
    );
    // Nor does a choice among plans.
    let mut request = example("cheapest");
    let plan = &mut request["input"]["options"][0]["plan"];
    plan["design"]["post"] = post.clone();
    plan["planned_depth"] = json!("120 in");
    plan["checks"] = json!({ "lean": { "growing": "20 pci" } });
    let name = request["input"]["options"][0]["name"].clone();
    let answer = serde_json::to_value(Answer::to(&node_of(&request))).unwrap();
    let all = answer["result"]["options"].as_array().unwrap();
    let open = all.iter().find(|option| option["name"] == name).unwrap();
    assert_eq!(open["passes"], json!(false));
    // Thirteen posts of 72 ft in bays of 6 ft.
    assert_eq!(open["not_checked"], json!(13));
    let reason = open["reason"].as_str().unwrap();
    assert!(reason.contains("EI"), "{reason}");
    assert_ne!(answer["result"]["cheapest"], name);
    let mut request = example("how windy");
    request["input"]["plan"]["design"]["post"] = post;
    request["input"]["plan"]["checks"] = json!({ "lean": { "growing": "20 pci" } });
    // A question backwards takes no open check for a pass.
    let (path, text) = refused(&request).remove(0);
    assert_eq!(path, "input.plan");
    assert!(text.contains("EI"), "{text}");
}

/// Every clause that a worksheet cites is among the sources of the answer.
#[test]
fn sources_are_those_of_the_working() {
    for id in ["everything", "a fence", "how windy", "what matters", "4"] {
        let mut request = examples()
            .into_iter()
            .find(|r| r["id"] == id || r["id"] == json!(id.parse::<u32>().ok()))
            .unwrap();
        request["worksheet"] = json!(false);
        let plain = serde_json::to_value(Answer::to(&node_of(&request))).unwrap();
        request["worksheet"] = json!(true);
        let shown = serde_json::to_value(Answer::to(&node_of(&request))).unwrap();
        let ids = |answer: &Value| -> BTreeSet<String> {
            let all = answer["sources"].as_array().unwrap();
            all.iter().map(|s| s["id"].to_string()).collect()
        };
        let cited: BTreeSet<String> = shown["worksheets"]
            .as_array()
            .unwrap()
            .iter()
            .flat_map(|sheet| sheet["sections"].as_array().unwrap())
            .flat_map(|section| section["steps"].as_array().unwrap())
            .filter_map(|step| step.get("source"))
            .map(|source| source["id"].to_string())
            .collect();
        let listed = ids(&shown);
        let missing: Vec<_> = cited.difference(&listed).collect();
        assert!(missing.is_empty(), "{id}: {missing:?}");
        if id != "what matters" {
            assert!(ids(&plain).len() >= 3, "{id}");
        }
        // Anything from memory is cautioned.
        let memory = plain["sources"].to_string().contains("from memory");
        let said = plain["cautions"].to_string().contains("from memory");
        assert!(!memory || said, "{id}");
    }
}

/// Moment and shear of a post may come from different clauses: both are among the
/// sources, and either is cautioned. The cautions of the post stay with it.
#[test]
fn both_sources_of_a_resistance() {
    let of = |post: Value| {
        let request = json!({ "version": 1, "calculate": "post_resistance", "units": "us",
            "input": { "post": post } });
        let answer = serde_json::to_value(Answer::to(&node_of(&request))).unwrap();
        let sources = answer["sources"].as_array().unwrap().iter();
        let ids: Vec<_> = sources
            .map(|s| s["id"].as_str().unwrap().to_owned())
            .collect();
        let said = |words: &str| answer["cautions"].to_string().contains(words);
        (ids, said("from memory"), said("AWPA"))
    };
    let factored = |post: Value| json!({ "kind": "load_and_resistance", "post": post });
    // AISC 360 F8, Mn = Fy Z, is quoted; G5 is from memory.
    let pipe = json!({ "kind": "pipe", "diameter": "2.375 in", "wall": "0.154 in",
        "fy": "30 ksi" });
    let (ids, memory, wood) = of(factored(pipe));
    assert_eq!(ids, ["aisc360/f8", "aisc360/g5"]);
    assert!(memory && !wood);
    let tube = json!({ "kind": "square_tube", "side": "3 in", "wall": "0.174 in",
        "fy": "46 ksi" });
    let (ids, memory, wood) = of(factored(tube));
    assert_eq!(ids, ["aisc360/f7", "aisc360/g4"]);
    assert!(memory && !wood);
    let timber = json!({ "kind": "timber", "side": "5.5 in", "species": "southern_pine",
        "grade": "no_2", "treatment": "not_incised" });
    let (ids, memory, wood) = of(factored(timber));
    assert_eq!(ids, ["nds/lrfd"]);
    assert!(memory && wood);
    let (ids, memory, wood) = of(json!({ "kind": "timber_en1995",
        "section": { "side": "100 mm" }, "class": "C24", "kmod": 0.9 }));
    assert_eq!(ids, ["en1995/bending"]);
    assert!(memory && wood);
    let (ids, memory, wood) = of(json!({ "kind": "pipe_en1993", "fy": "235 MPa",
        "section": { "diameter": "60.3 mm", "wall": "3.2 mm" } }));
    assert_eq!(ids, ["en1993/chs"]);
    assert!(memory && !wood);
}

#[test]
fn no_capacity_is_said_in_words() {
    let request = json!({ "version": 1, "calculate": "pull_out", "units": "us",
        "input": { "post_weight": "0 lb", "footing_weight": "0 lb", "uplift": "10 lb" } });
    let answer = Answer::to(&node_of(&request));
    let text = answer
        .node()
        .at("result.utilization")
        .and_then(Node::as_text);
    assert_eq!(text, Some("no capacity"));
}

#[test]
fn fields_that_would_do_nothing_are_refused() {
    for (id, place, value) in [
        ("movement, elastic", "law", json!("elastic")),
        ("movement", "strain", json!(0.01)),
        ("design value", "confidence", json!(0.9)),
        ("pull-out", "known", json!("analysis")),
    ] {
        let mut request = example(id);
        if id == "pull-out" {
            request["input"].as_object_mut().unwrap().remove("friction");
            request["input"].as_object_mut().unwrap().remove("shaft");
        }
        request["input"][place] = value;
        let faults = refused(&request);
        assert_eq!(faults[0].0, format!("input.{place}"), "{faults:?}");
    }
    let mut request = example("rules");
    request["worksheet"] = json!(true);
    assert_eq!(refused(&request)[0].0, "worksheet");
    let mut request = example("a fence");
    request["input"]["posts"] = json!([{ "number": 3 }, { "number": 3 }]);
    assert!(refused(&request)[0].1.contains("twice"));
}

/// Weight that loads and weight that relieves, by the factors of EN 1990 EQU
/// (from memory): 1.1 and 0.9.
#[test]
fn actions_give_weight_both_ways() {
    let mut request = example("actions in Europe");
    request["input"]["combination"] = json!("en1990_equilibrium");
    request["input"]["fence"]["runs"][0]["panel"]["weight"] = json!("0.1 kPa");
    let answer = Answer::to(&node_of(&request));
    let at = |field: &str| number(&answer, &format!("result.posts.3.cases.0.{field}.value"));
    assert!((at("axial") / at("axial_relieving") - 1.1 / 0.9).abs() < 1e-12);
    assert_eq!(number(&answer, "result.relieving_factor"), 0.9);
}

/// What the wire answers backwards and by sensitivity is the library's.
#[test]
fn backwards_and_sensitivity_over_the_wire() {
    let answer = Answer::to(&node_of(&example("how windy")));
    let value = number(&answer, "result.value.value");
    let mut forward = example("a fence");
    forward["input"] = example("how windy")["input"]["plan"].clone();
    for (speed, passes) in [(value, true), (value + 0.2, false)] {
        forward["input"]["site"]["speed"] = json!(format!("{speed} mph"));
        let answer = Answer::to(&node_of(&forward));
        assert_eq!(number(&answer, "result.failing") == 0.0, passes, "{speed}");
    }
    let answer = Answer::to(&node_of(&example("what matters")));
    let Some(Node::List(effects)) = answer.node().at("result.effects") else {
        panic!("{:?}", answer.node());
    };
    let of = |name: &str| {
        let found = effects
            .iter()
            .find(|e| e.get("input").unwrap().as_text() == Some(name));
        found
            .unwrap()
            .get("elasticity")
            .unwrap()
            .as_number()
            .unwrap()
    };
    // Pressure goes by the square of the speed, and so does the depth check
    // without dead load.
    assert!((of("wind_speed") - 2.0).abs() < 1e-6);
    assert!((of("lateral_bearing") + 1.0).abs() < 1e-6);
    let mut wrong = example("how windy");
    wrong["input"]["pressures"] = json!({ "from": "5 psf", "to": "50 psf", "step": "1 psf" });
    assert!(refused(&wrong)[0].1.contains("give speeds"));
}

/// Posts as sold go into a request as they stand.
#[test]
fn the_catalogue_feeds_requests() {
    let sold = serde_json::to_value(Answer::to(&node_of(&example("as sold")))).unwrap();
    let strength = |post: Value| {
        let request = json!({ "version": 1, "calculate": "post_strength", "units": "us",
            "input": { "post": post } });
        number(&Answer::to(&node_of(&request)), "result.moment.value")
    };
    let pipes = sold["result"]["pipe"].as_array().unwrap();
    assert_eq!(pipes.len(), 11);
    for pipe in pipes {
        let moment = strength(json!({ "kind": "pipe", "diameter": pipe["diameter"],
            "wall": pipe["wall"], "fy": pipe["fy"] }));
        assert!(moment > 500.0);
    }
    // POST-03, 2.375 x 0.154 at 30 ksi: 13.67 kip-in (AISC 360 F8, Fy from memory).
    let line = strength(json!({ "kind": "pipe", "diameter": pipes[1]["diameter"],
        "wall": pipes[1]["wall"], "fy": pipes[1]["fy"] }));
    assert!((line * 12.0 / 1_000.0 - 13.67).abs() < 0.005);
    for tube in sold["result"]["square_tube"].as_array().unwrap() {
        let moment = strength(json!({ "kind": "square_tube", "side": tube["side"],
            "wall": tube["wall"], "fy": "46 ksi" }));
        assert!(moment > 1_000.0);
    }
}

/// A rule of thumb leaves as many posts too shallow as a fence planned to its
/// depth has posts that fail in the ground.
#[test]
fn rules_compared_by_another_route() {
    let compared = Answer::to(&node_of(&example("what rules are worth")));
    let mut plan = example("a fence");
    plan["input"] = example("what rules are worth")["input"]["plan"].clone();
    for (index, depth) in [
        (0, "24 in"),
        (1, "24 in"),
        (2, "36 in"),
        (3, "24 in"),
        (4, "30 in"),
    ] {
        plan["input"]["planned_depth"] = json!(depth);
        let answer = serde_json::to_value(Answer::to(&node_of(&plan))).unwrap();
        let uses = answer["result"]["posts"].as_array().unwrap().iter();
        let uses: Vec<_> = uses
            .map(|post| post["check"]["embedment"].as_f64().unwrap())
            .collect();
        let failing = uses.iter().filter(|u| **u > 1.0).fold(0.0, |n, _| n + 1.0);
        let worst = uses.iter().copied().fold(0.0, f64::max);
        let of = |field: &str| number(&compared, &format!("result.rules.{index}.{field}"));
        assert_eq!(of("failing"), failing, "{depth}");
        assert!((of("utilization") / worst - 1.0).abs() < 1e-9, "{depth}");
    }
}

#[test]
fn own_factors_and_single_checks_count() {
    let answer = Answer::to(&node_of(&example("own factors, one post in frost")));
    let usual = {
        let mut request = example("own factors, one post in frost");
        let design = request["input"]["design"].as_object_mut().unwrap();
        design.remove("factors");
        Answer::to(&node_of(&request))
    };
    let shear = |answer: &Answer| number(answer, "result.posts.2.check.shear_at_grade.value");
    assert!((shear(&answer) / shear(&usual) - 0.65 / 0.6).abs() < 1e-12);
    assert!(
        answer
            .node()
            .at("result.posts.4.more.frost_lifts")
            .is_some()
    );
    assert!(answer.node().at("result.posts.3.more").is_none());
    // UPL: a cone of 6 in, 3 ft, 20 degrees is 11.247 cubic feet (geometry).
    let cone = Answer::to(&node_of(&example("a cone")));
    assert!((number(&cone, "result.volume.value") - 11.247).abs() < 5e-4);
}
