//! What answers on the wire say beside numbers: names, reasons, formulas; and what is
//! just enough or just too much to be asked.

use super::edges_wire_fields::{change, example, node};
use groundline::caution::Caution;
use groundline::wire::{Answer, Node};
use serde_json::{Value, json};

fn ask(id: &str, changes: &Value) -> Value {
    let mut request = example(id);
    change(&mut request, changes.as_object().unwrap());
    serde_json::to_value(Answer::to(&node(&request)).node()).unwrap()
}

fn refused(answer: &Value) -> String {
    assert!(answer.get("result").is_none(), "{answer}");
    answer["errors"].to_string()
}

/// A refusal names the calculation that was asked, where it is one.
#[test]
fn refusals_name_the_calculation() {
    let mut request = example("a lean");
    request["version"] = json!(9);
    let name = |request: &Value| {
        let answer = Answer::to(&node(request));
        serde_json::to_value(answer.node()).unwrap()["calculate"].clone()
    };
    assert_eq!(name(&request), "lean");
    request["calculate"] = json!("leaning");
    assert_eq!(name(&request), Value::Null);
}

/// Lines of a worksheet have a formula with its terms where they are computed, and none
/// where they are given.
#[test]
fn formulas_of_worksheets() {
    let mut request = example("timber");
    request["worksheet"] = json!(true);
    let answer = serde_json::to_value(Answer::to(&node(&request)).node()).unwrap();
    let text = answer["worksheets"].to_string();
    assert!(text.contains("\"formula\""), "{text}");
    let mut seen = [0, 0];
    for sheet in answer["worksheets"].as_array().unwrap() {
        for section in sheet["sections"].as_array().unwrap() {
            for line in section["steps"].as_array().unwrap() {
                let has = line.get("formula").is_some() && line.get("terms").is_some();
                if line["origin"] == "given" {
                    seen[0] += 1;
                    assert!(!has, "{line}");
                } else if line["origin"] == "computed" {
                    seen[1] += 1;
                    assert!(has && line["formula"] != "", "{line}");
                }
            }
        }
    }
    assert!(seen[0] > 0 && seen[1] > 0, "{seen:?}");
}

/// Movement and rotation at grade go into a lean each by itself.
#[test]
fn a_lean_of_either() {
    let total = |changes: Value| {
        let answer = ask("a lean", &changes);
        assert!(answer.get("errors").is_none(), "{answer}");
        answer["result"].to_string()
    };
    let both = total(json!({}));
    let moved = total(json!({"/rotation": null}));
    let turned = total(json!({"/movement": null}));
    let neither = total(json!({"/movement": null, "/rotation": null}));
    let all = [&both, &moved, &turned, &neither];
    for (i, one) in all.iter().enumerate() {
        assert!(all[..i].iter().all(|other| other != one));
    }
}

/// Stations where they are asked for.
#[test]
fn stations_if_asked() {
    let has = |stations: Value| {
        let answer = ask("movement, elastic", &json!({"/stations": stations}));
        answer["result"]
            .get("stations")
            .is_some_and(Value::is_array)
    };
    assert!(has(json!(true)) && !has(json!(false)) && !has(Value::Null));
}

/// Bags for one post or more; what is refused is told alone.
#[test]
fn bags_for_no_post() {
    assert!(refused(&ask("bags", &json!({"/posts": 0}))).contains("1 or more"));
    assert!(ask("bags", &json!({"/posts": 1})).get("result").is_some());
    let driven = ask("bags", &json!({"/setting": "driven"}));
    assert!(!refused(&driven).is_empty());
}

/// A driven post is one, and a bare one another: of one alone the maker of b is from
/// memory, and of it alone the ground is disturbed.
#[test]
fn driven_or_bare() {
    let of = |kind: &str| {
        ask(
            "with its working",
            &json!({"/design/foundation": {"kind": kind}}),
        )
    };
    let (driven, bare) = (of("driven"), of("bare"));
    let clause = |answer: &Value, clause: &str| answer["sources"].to_string().contains(clause);
    assert!(clause(&driven, "1807.3.2.1") && !clause(&driven, "1807.3.3"));
    assert!(clause(&bare, "1807.3.3"));
    let backfill = json!(Caution::Backfill.text());
    let said = |answer: &Value| answer["cautions"].as_array().unwrap().contains(&backfill);
    assert!(said(&bare) && !said(&driven));
}

/// An id is given back as it was sent, and whole numbers as such.
#[test]
fn ids_come_back() {
    let mut request = example("driven");
    for id in [
        "-3",
        "0",
        "-0.0",
        "7",
        "2.5",
        "-2.5",
        "9007199254740993.0",
        "\"a\"",
    ] {
        request["id"] = serde_json::from_str(id).unwrap();
        let read: Node = serde_json::from_str(id).unwrap();
        let written = serde_json::to_string(&read).unwrap();
        let expected = serde_json::to_string(&request["id"]).unwrap();
        assert_eq!(written, expected);
    }
}

/// Two inputs share the samples between them.
#[test]
fn samples_of_two_inputs() {
    let all = example("how often")["input"]["shares"].clone();
    let all = all.as_array().unwrap().clone();
    for samples in [7, 20] {
        let shares = json!(all[..2 * samples]);
        let answer = ask("how often", &json!({"/shares": shares}));
        assert_eq!(answer["result"]["samples"], samples, "{answer}");
    }
}

/// Sources of a fence are those of all its posts: one set another way is not like the
/// others of its kind.
#[test]
fn sources_of_every_post() {
    let design = |kind: &str| {
        json!({
            "ground": {"class": 4},
            "post": {"kind": "pipe", "diameter": "4 in", "wall": "0.226 in", "fy": "50 ksi"},
            "foundation": {"kind": kind},
        })
    };
    let with = |posts: Value| ask("a fence", &json!({"/posts": posts}));
    let sources = |answer: &Value| answer["sources"].to_string();
    let plain = sources(&with(Value::Null));
    assert!(!plain.contains("1807.3.3"), "{plain}");
    let one = sources(&with(json!([{"number": 3, "design": design("bare")}])));
    assert!(one.contains("1807.3.3"), "{one}");
}

/// As many fields as are allowed, and more.
#[test]
fn fields_of_an_object() {
    let with = |count: usize| {
        let input: serde_json::Map<_, _> = (0..count)
            .map(|index| (format!("a{index}"), json!(1)))
            .collect();
        let mut request = example("bags");
        request["input"] = Value::Object(input);
        refused(&serde_json::to_value(Answer::to(&node(&request)).node()).unwrap())
    };
    for (count, told) in [(99, false), (100, false), (101, true), (102, true)] {
        let refused = with(count);
        assert_eq!(refused.contains("at most 100 fields"), told, "{refused}");
        assert_eq!(refused.contains("no such field"), !told, "{refused}");
    }
}

/// As many runs as are allowed, and one more.
#[test]
fn runs_of_a_fence() {
    let run = json!({"length": "4 ft", "spacing": "4 ft", "panel": {"height": "1 ft"}});
    let fence = |count: usize| {
        let mut runs = vec![run.clone()];
        let mut next = run.clone();
        next["turn"] = json!("90 deg");
        runs.resize(count, next);
        let changes = json!({"/fence/runs": runs, "/kinds": null, "/posts": null});
        ask("a fence", &changes)
    };
    let words = "give 1 to 1000 runs";
    assert!(refused(&fence(1_001)).contains(words));
    assert!(refused(&fence(0)).contains(words));
    assert!(!fence(1_000).to_string().contains(words));
    assert!(fence(2).get("result").is_some(), "{}", fence(2));
    // A turn for the first run, or none for another, is told once and alone.
    for (at, turn) in [(0, json!("90 deg")), (1, Value::Null)] {
        let mut runs = vec![run.clone(), run.clone()];
        runs[1]["turn"] = json!("90 deg");
        runs[at]["turn"] = turn;
        let answer = ask(
            "a fence",
            &json!({"/fence/runs": runs, "/kinds": null, "/posts": null}),
        );
        let told = refused(&answer);
        assert!(told.contains("turn"), "{told}");
        assert_eq!(answer["errors"].as_array().unwrap().len(), 1, "{told}");
    }
}

/// A fit of a whole curve says why a value is only bounded, and of a value found nothing.
#[test]
fn why_a_value_is_bounded() {
    let straight: Vec<_> = [1.0, 2.0, 3.0, 4.0]
        .map(|x: f64| json!({"movement": format!("{x} mm"), "load": format!("{x} kN")}))
        .into();
    let answer = ask(
        "a side pull, its whole curve",
        &json!({"/readings": straight}),
    );
    let curve = &answer["result"]["curve"];
    assert!(
        curve["strength_is_a_bound"]
            .as_str()
            .is_some_and(|why| why.contains("elastic")),
        "{answer}"
    );
    assert!(curve["stiffness_is_a_bound"].is_null());
}

/// A number that is none, as only a program can give it, is refused.
#[test]
fn numbers_that_are_none() {
    for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        let mut request = node(&example("a lean"));
        let Node::Object(fields) = &mut request else {
            panic!("an object");
        };
        let (_, input) = fields.iter_mut().find(|(name, _)| name == "input").unwrap();
        let Node::Object(input) = input else {
            panic!("an object");
        };
        let (_, limit) = input.iter_mut().find(|(name, _)| name == "limit").unwrap();
        *limit = Node::Number(value);
        let answer = Answer::to(&request);
        assert_eq!(answer.problems().count(), 1);
        assert!(
            answer
                .problems()
                .next()
                .unwrap()
                .to_string()
                .contains("give a number")
        );
    }
}

/// A wind given by speeds where the site has a pressure is told as that, not as a range.
#[test]
fn speeds_for_a_pressure() {
    let speeds = json!({"from": "60 mph", "to": "160 mph", "step": "1 mph"});
    let pressures = json!({"from": "5 psf", "to": "60 psf", "step": "1 psf"});
    let answer = ask("how windy", &json!({"/pressures": pressures}));
    assert!(refused(&answer).contains("give speeds"));
    let answer = ask(
        "how windy",
        &json!({"/speeds": speeds, "/pressures": pressures}),
    );
    let told = refused(&answer);
    assert!(
        told.contains("speeds") && answer["errors"].as_array().unwrap().len() == 1,
        "{told}"
    );
}

/// A post that yields first is told as that, of the methods where it does.
#[test]
fn a_post_that_yields_is_told() {
    let yields = |moment: &str| -> Vec<bool> {
        let answer = ask("methods", &json!({"/yield_moment": moment}));
        let methods = answer["result"]["methods"].as_array().unwrap().clone();
        let told = methods.iter().map(|method| method["post_yields"] == true);
        told.collect()
    };
    assert!(yields("100 kN-m").iter().all(|told| !told));
    assert!(yields("1 N-m").iter().any(|told| *told));
}

/// Concrete that has rested needs no word of waiting.
#[test]
fn concrete_that_has_rested() {
    let cautions = |rested: Value| ask("bags", &json!({"/rested": rested}))["cautions"].to_string();
    assert_eq!(cautions(json!(false)), cautions(Value::Null));
    assert!(cautions(json!(true)).len() < cautions(json!(false)).len());
}

/// Pressures of each run by its number from 1.
#[test]
fn pressures_by_run() {
    let answer = ask("pressures", &json!({}));
    let runs: Vec<_> = answer["result"]["runs"]
        .as_array()
        .unwrap()
        .iter()
        .map(|run| run["run"].clone())
        .collect();
    assert_eq!(runs, [json!(1), json!(2)]);
}

/// A single post takes the design of its own kind where several kinds have one.
#[test]
fn a_post_of_one_of_two_kinds() {
    let post = |diameter: &str| json!({"kind": "pipe", "diameter": diameter, "wall": "0.226 in", "fy": "50 ksi"});
    let design = |diameter: &str| {
        json!({"ground": {"class": 4}, "post": post(diameter),
            "foundation": {"kind": "concrete", "hole": {"shape": "round", "size": "14 in"}}})
    };
    let kinds = json!([
        {"post": "end", "design": design("3 in")},
        {"post": "line", "design": design("4 in")},
    ]);
    // Its own number with the depth of all changes nothing of post 2, a line post.
    let mut request = example("own factors, one post in frost");
    change(
        &mut request,
        json!({"/kinds": kinds, "/posts": null})
            .as_object()
            .unwrap(),
    );
    let usual = serde_json::to_value(Answer::to(&node(&request)).node()).unwrap();
    let posts = json!([{"number": 2, "planned_depth": "60 in"}]);
    change(&mut request, json!({"/posts": posts}).as_object().unwrap());
    let own = serde_json::to_value(Answer::to(&node(&request)).node()).unwrap();
    assert!(usual["result"]["posts"][1].is_object(), "{usual}");
    assert_eq!(own["result"]["posts"][1], usual["result"]["posts"][1]);
    assert_ne!(
        usual["result"]["posts"][0]["utilization"],
        usual["result"]["posts"][1]["utilization"]
    );
}

/// What a site or fence cannot be is told for pressures too, both at once.
#[test]
fn pressures_of_nothing() {
    let answer = ask(
        "pressures",
        &json!({"/site/speed": "1 mph", "/fence/runs/0/length": "1 in"}),
    );
    let told = refused(&answer);
    assert!(
        told.contains("site.speed") && told.contains("fence.runs"),
        "{told}"
    );
}

/// Load cases across a run say which, from 1.
#[test]
fn cases_by_run() {
    let answer = ask("actions", &json!({}));
    let posts = answer["result"]["posts"].as_array().unwrap();
    let runs: std::collections::BTreeSet<_> = posts
        .iter()
        .flat_map(|post| post["cases"].as_array().unwrap())
        .map(|case| case["run"].as_u64().unwrap())
        .collect();
    assert_eq!(runs.into_iter().collect::<Vec<_>>(), [1, 2]);
}
