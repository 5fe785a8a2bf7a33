//! What cannot be asked is refused where it stands and in words, before anything is
//! computed; and the nearest that can be asked is answered.
//!
//! A line: a change to the example above it, `=>`, the path of the only problem, a colon
//! and words of it. `later` marks what only the calculation itself can tell. A line with
//! `=> answered` stands just inside the limit.

use super::edges_wire_fields::{change, example, node};
use groundline::units::Length;
use groundline::wire::{Answer, Node, Problems, Request, answer_schema, request_schema};
use serde_json::{Value, json};

const REFUSED: &str = r#"
@timber
{"/design/ground/class": 0} => design.ground.class: 1
{"/design/ground/class": 6} => design.ground.class: 5
{"/design/ground/class": null} => design.ground: give either class or lateral_bearing
{"/design/ground/lateral_bearing": "200 pcf"} => design.ground: give either class or lateral_bearing
{"/design/foundation": {"kind": "backfill", "setting": "poured_concrete", "hole": {"shape": "round", "size": "12 in"}}} => design.foundation.setting: expanding_foam
{"/design/foundation": {"kind": "backfill", "setting": "driven", "hole": {"shape": "round", "size": "12 in"}}} => design.foundation.setting: expanding_foam
{"/design/post/grade": null} => design.post: give either species and grade
{"/design/post/fb": "900 psi"} => design.post: give either species and grade
{"/design/post/species": null, "/design/post/grade": null, "/design/post/fb": "900 psi", "/design/post/fv": "100 psi"} => design.post: give either species and grade
{"/design/rest": {"days": -1, "needs": 7}} => design.rest.days: 0
{"/design/rest": {"days": 1, "needs": -7}} => design.rest.needs: 0
{"/design/factors": {"wind": 0.6, "dead": 1, "relieving": 0.6}} => design.factors: factors are for a fence
{"/planned_depth": "100001 ft"} => planned_depth: 0.12 in to 1200000 in
{"/planned_depth": "100000 ft"} => answered
{"/planned_depth": "0.009 ft"} => planned_depth: 0.12 in to 1200000 in
@round timber
{"/post/diameter": "8 in"} => post: give either diameter or circumference
{"/post/circumference": null} => post: give either diameter or circumference
@aluminium
{"/post/alloy": null} => post: give either alloy and temper
{"/post/temper": null} => post: give either alloy and temper
{"/post/fty": "16 ksi", "/post/ftu": "22 ksi"} => post: give either alloy and temper
{"/post/section": {"kind": "square", "side": "4 in"}} => post.section.kind: give a tube or a square_tube
{"/post/section": {"kind": "disc", "diameter": "4 in"}} => post.section.kind: give a tube or a square_tube
@sleeved vinyl
{"/post/insert": {"kind": "sleeved", "outside": "4 in", "wall": "0.15 in", "insert": {"kind": "pipe", "diameter": "2.375 in", "wall": "0.154 in", "fy": "30 ksi"}}} => post.insert: not itself sleeved
@factored
{"/post/post": {"kind": "given", "section": {"kind": "square", "side": "4 in"}, "moment": "2000 lb-ft", "shear": "900 lb"}} => post.post.kind: one of timber, pipe, square_tube
@timber in Europe
{"/post/class": null} => post: give either class, or fm_k
{"/post/fm_k": "24 MPa"} => post: give either class, or fm_k
{"/post/class": null, "/post/fm_k": "24 MPa", "/post/fv_k": "4 MPa"} => post: give either class, or fm_k
{"/post/class": "C16", "/post/e_mean": "8 GPa"} => post: give either class, or fm_k
{"/post/class": "D30", "/post/fv_k": "3 MPa"} => post: give either class, or fm_k
@a block
{"/safety": 0.5} => later safety: safety
@a lean
{"/wind": null} => : give either wind, or force and at
{"/wind": null, "/force": "1 kN"} => : give either wind, or force and at
{"/force": "1 kN", "/at": "1 m"} => : give either wind, or force and at
@a dug hole
{"/depth": "100001 ft"} => depth: 0.12 in to 1200000 in
{"/depth": "99999 ft"} => answered
{"/height": "1001 ft"} => height: 1000 ft
{"/height": "1000 ft"} => answered
{"/design/factors": {"wind": 0.6, "dead": 1, "relieving": 0.6}} => design.factors: factors are for a fence
@methods
{"/code": {"ground": {"class": 4}, "post": {"kind": "pipe", "diameter": "4 in", "wall": "0.226 in", "fy": "50 ksi"}, "foundation": {"kind": "driven"}, "factors": {"wind": 0.6, "dead": 1, "relieving": 0.6}}} => code.factors: factors are for a fence
{"/yield_moment": "0.9 N-m"} => yield_moment: yield moment
{"/yield_moment": "1 N-m"} => answered
{"/rigidity": "0.9 N-m2"} => rigidity: flexural rigidity
{"/shear": "0 kN"} => shear: shear
{"/factor": 0.9} => factor: overall factor
{"/factor": 1} => answered
{"/factor": 5} => answered
@movement
{"/profile": null, "/collapse_up_to": null} => : give one of profile, constant and growing
{"/constant": "5 MPa"} => : give one of profile, constant and growing
{"/growing": "5 MN/m3"} => : give one of profile, constant and growing
{"/loading": "static"} => loading: it goes with law soil_curves
{"/clay": "soft"} => clay: it goes with law soil_curves
{"/strain": 0.01} => strain: it goes with law soil_curves
{"/law": "elastic", "/strain": 0.01} => strain: it goes with law soil_curves
{"/law": "soil_curves", "/strain": 9, "/profile/layers/0/soil": {"unit_weight": "18 kN/m3", "undrained_strength": "40 kPa"}} => : strain at half strength
{"/profile": null, "/constant": "5 MPa", "/law": "elastic", "/collapse_up_to": null} => law: it goes with profile
{"/law": "soil_curves", "/profile/layers/0/soil/friction_angle": null} => profile.layers.0.soil: soil strength
{"/profile/layers/0/thickness": "101 m"} => profile.layers.0.thickness: layer thickness
{"/elements": 3} => elements: give 4 to 5 000
{"/elements": 5001} => elements: give 4 to 5 000
{"/elements": 4} => answered
{"/elements": 5000, "/collapse_up_to": null} => answered
@pull-out
{"/friction": null} => : friction and shaft go together
{"/shaft": null} => : friction and shaft go together
{"/friction": null, "/shaft": null, "/known": "tests"} => known: give the friction
{"/friction": null, "/shaft": null, "/profile": {"layers": [{"thickness": "6 m", "soil": {"unit_weight": "18 kN/m3"}}]}} => profile: give the friction
{"/friction": {"kind": "alpha"}} => profile: this friction depends on the ground
{"/friction": {"kind": "alpha", "alpha": 0.5}} => profile: this friction depends on the ground
{"/friction": {"kind": "beta", "k": 0.8, "delta": "20 deg"}} => profile: this friction depends on the ground
{"/bond/stress": "30 psi"} => bond: give either stress
{"/bond/wood_in_concrete": false} => bond: give either stress
{"/bond/wood_in_concrete": null} => bond: give either stress
{"/uplift": "-1 lb"} => uplift: 0 or more
{"/uplift": "0 lb"} => answered
@frost
{"/stefan_number": 0.2} => : give either lambda
{"/lambda": null, "/stefan_number": 0.2} => : give either lambda
{"/lambda": null, "/thermal_ratio": 1.5} => : give either lambda
{"/lambda": null, "/thermal_ratio": 1.5, "/stefan_number": 0.2} => answered
@heave
{"/stress": "60 kPa"} => : give either ground or stress
{"/ground": null} => : give either ground or stress
@bags
{"/bag/weight": "79.98 lb"} => bag: 40, 50, 60 and 80 lb
{"/bag/weight": "79.995 lb"} => answered
{"/bag/weight": "80.005 lb"} => answered
{"/bag/weight": "80.02 lb"} => bag: 40, 50, 60 and 80 lb
{"/bag/weight": "70 lb"} => bag: 40, 50, 60 and 80 lb
{"/setting": "tamped_soil"} => bag: it takes no bags
{"/setting": "tamped_soil", "/bag/yields": "0.5 ft3"} => bag: it takes no bags
{"/setting": "tamped_soil", "/bag": null} => answered
{"/setting": "expanding_foam"} => bag: known yields are of concrete
{"/setting": "compacted_gravel"} => bag: known yields are of concrete
{"/setting": "expanding_foam", "/bag": null} => answered
{"/setting": "driven", "/bag": null} => setting: no hole
{"/waste": 1.01} => waste: waste
{"/waste": 1} => answered
{"/posts": 0} => posts: give 1 or more
{"/posts": 1} => answered
{"/posts": 1.5} => posts: whole number
{"/posts": -1} => posts: whole number
{"/posts": 1000001} => posts: whole number
{"/posts": 1000000} => answered
@a pull
{"/peak": "5 kN"} => : give either readings or peak
{"/readings": null} => : give either readings or peak
@design value
{"/confidence": 0.9} => confidence: the bases tolerance
{"/basis": "tolerance", "/known_variation": 0.2} => known_variation: the bases normal
{"/basis": "lower_of_both", "/known_variation": 0.2} => known_variation: the bases normal
{"/basis": "correlation"} => basis: lower_of_both
{"/results/at_least": 5} => results.at_least: at most as many
{"/basis": "tolerance", "/confidence": 1.5} => later confidence: confidence
{"/known_variation": -1} => later known_variation: known variation
@two settings
{"/second": {"kind": "pressures", "values": ["700 psf", "960 psf"]}} => later second.kind: same kind
{"/second": {"kind": "growths", "values": ["700 pcf", "960 pcf"]}} => later second.kind: same kind
{"/confidence": 1.5} => later confidence: confidence
@velocity pressure
{"/site": {"kind": "pressure", "pressure": "20 psf", "level": "strength"}} => site.kind: has none
{"/site": {"kind": "pressure", "pressure": "20 psf", "level": "allowable_stress"}} => site.kind: has none
{"/site": {"kind": "pressure", "pressure": "20 psf", "level": "characteristic"}} => site.kind: has none
{"/site": {"kind": "pressure", "pressure": "20 psf", "level": "ultimate"}} => site.kind: has none
{"/site/kzt": 9} => site.kzt: topographic
{"/site/kzt": 1.1, "/site/topography": {"feature": "ridge", "height": "60 ft", "half_length": "120 ft", "distance": "30 ft", "side": "upwind"}} => site.topography: either kzt or topography
{"/height": "-1 ft"} => later height: height
{"/site": {"kind": "asnzs1170", "speed": "45 m/s"}, "/height": "-1 m"} => later height: height
{"/site": {"kind": "asnzs1170", "speed": "45 m/s"}, "/height": "201 m"} => later height: height
{"/site": {"kind": "asnzs1170", "speed": "45 m/s"}, "/height": "200 m"} => answered
@pressures
{"/site/column_gap": "refuse", "/fence/runs/0/length": "66 ft"} => later : 
@two settings
{"/first/values/0": "-1 lb"} => first.values: 
{"/second/values/0": "-1 lb"} => second.values: 
@actions
{"/combination": "en1990_structure"} => combination: at strength level
{"/combination": "asnzs1170_ultimate"} => combination: at strength level
{"/site": {"kind": "pressure", "pressure": "20 psf", "level": "allowable_stress"}} => combination: does not combine
{"/site": {"kind": "pressure", "pressure": "20 psf", "level": "ultimate"}} => combination: ultimate
{"/site": {"kind": "pressure", "pressure": "20 psf", "level": "characteristic"}} => combination: characteristic
{"/site": {"kind": "asnzs1170", "speed": "45 m/s", "terrain_height_multiplier": 0.91}} => combination: ultimate
{"/site": {"kind": "pressure", "pressure": "20 psf", "level": "allowable_stress"}, "/combination": "allowable_stress_alternative"} => combination: does not combine
{"/fence/runs": []} => fence.runs: give 1 to 1000 runs
{"/fence/runs/0/turn": "90 deg"} => fence.runs.0.turn: the first run has no turn
{"/fence/runs/1/turn": null} => fence.runs.1.turn: 1° to 170°
{"/fence/runs/1/turn": "0.9 deg"} => fence.runs.1.turn: turn
{"/fence/runs/1/turn": "1 deg"} => answered
{"/fence/runs/1/turn": "170 deg"} => answered
{"/fence/runs/1/turn": "171 deg"} => fence.runs.1.turn: turn
@actions in Europe
{"/combination": "allowable_stress"} => combination: characteristic
{"/combination": "load_and_resistance"} => combination: characteristic
@a fence
{"/site": {"kind": "en1991", "speed": "25 m/s", "terrain": "II"}} => site.kind: fence_actions
{"/site": {"kind": "asnzs1170", "speed": "45 m/s", "terrain_height_multiplier": 0.91}} => site.kind: fence_actions
{"/site": {"kind": "pressure", "pressure": "20 psf", "level": "characteristic"}} => site.kind: fence_actions
{"/site": {"kind": "pressure", "pressure": "20 psf", "level": "ultimate"}} => site.kind: fence_actions
{"/kinds": [{"post": "end", "design": {"ground": {"class": 4}, "post": {"kind": "pipe", "diameter": "4 in", "wall": "0.226 in", "fy": "50 ksi"}, "foundation": {"kind": "driven"}}}, {"post": "end", "design": {"ground": {"class": 4}, "post": {"kind": "pipe", "diameter": "4 in", "wall": "0.226 in", "fy": "50 ksi"}, "foundation": {"kind": "driven"}}}]} => kinds.1.post: stands twice
{"/kinds": [{"post": "end", "design": {"ground": {"class": 4}, "post": {"kind": "pipe", "diameter": "4 in", "wall": "0.226 in", "fy": "50 ksi"}, "foundation": {"kind": "driven"}}}, {"post": "line", "design": {"ground": {"class": 4}, "post": {"kind": "pipe", "diameter": "4 in", "wall": "0.226 in", "fy": "50 ksi"}, "foundation": {"kind": "driven"}}}]} => answered
{"/posts": [{"number": 3}, {"number": 3}]} => posts.1.number: stands twice
{"/posts": [{"number": 0}]} => posts.0.number: numbered 1 to 20
{"/posts": [{"number": 21}]} => posts.0.number: numbered 1 to 20
{"/posts": [{"number": 20}]} => answered
{"/kinds/0/planned_depth": "-1 in"} => kinds.0.planned_depth: planned depth
@everything
{"/checks/lean/constant": "600 psi"} => checks.lean: either constant or growing
{"/checks/lean/growing": null} => checks.lean: either constant or growing
{"/checks/lean/limit": 0.0005} => checks.lean.limit: limit
{"/checks/lean/rigidity": "0.5 N-m2"} => checks.lean.rigidity: flexural rigidity
{"/checks/frost/ground": "fine_on_steel", "/checks/frost/stress": "7 psi"} => checks.frost: either ground or stress
{"/checks/frost/stress": "-7 psi"} => checks.frost.stress: adfreeze stress
{"/checks/frost/depth": "-7 in"} => checks.frost.depth: frost depth
{"/checks/frost/friction/stress": "300 psf"} => checks.frost.friction.stress: presumptive friction has none
{"/checks/frost/friction/basis": "tested"} => checks.frost.friction.stress: give the allowable stress
{"/checks/frost/concrete": "1 pcf"} => checks.frost.concrete: concrete
{"/checks/frost/post_weight": "-1 lb"} => checks.frost.post_weight: post
{"/checks/uplift/force": "-1 lb"} => checks.uplift.force: force
{"/checks/uplift/friction/stress": null} => checks.uplift.friction.stress: give the allowable stress
{"/checks/uplift/wood_bond": true, "/checks/uplift/bond": "30 psi"} => checks.uplift.bond: either wood_bond or bond
{"/checks/uplift/wood_bond": false, "/checks/uplift/bond": "30 psi"} => answered
{"/checks/uplift/post_weight": "-1 lb"} => checks.uplift.post_weight: post
{"/checks/axial/fc": "800 psi"} => checks.axial: fc and emin go together
{"/checks/axial/emin": "400 ksi"} => checks.axial: fc and emin go together
{"/checks/axial/length_factor": 0.1} => checks.axial.length_factor: factor
{"/checks/axial/capacity": "-1 lb"} => checks.axial.capacity: capacity
{"/checks/materials/bag/weight": "79 lb"} => checks.materials.bag: 40, 50, 60 and 80 lb
{"/checks/materials/base": "-1 in"} => checks.materials.base: base
@own factors, one post in frost
{"/design/factors/wind": 0} => design.factors.wind: factor on wind
{"/design/factors/dead": 9} => design.factors.dead: factor on dead
{"/design/factors/relieving": 9} => design.factors.relieving: relieving
@how windy
{"/speeds": {"from": "60 mph", "to": "90 mph", "step": "1 mph"}, "/pressures": {"from": "5 psf", "to": "20 psf", "step": "1 psf"}} => : give either speeds or pressures
{"/pressures": {"from": "5 psf", "to": "20 psf", "step": "1 psf"}} => later pressures: give speeds
{"/speeds": {"from": "90 mph", "to": "60 mph", "step": "1 mph"}} => later speeds: 
{"/post": 0} => later post: post number
{"/plan/site": {"kind": "pressure", "pressure": "20 psf", "level": "strength"}, "/speeds": {"from": "60 mph", "to": "90 mph", "step": "1 mph"}} => later speeds: give pressures
{"/plan/site": {"kind": "pressure", "pressure": "20 psf", "level": "strength"}, "/pressures": {"from": "20 psf", "to": "5 psf", "step": "1 psf"}} => later pressures: 
{"/plan/planned_depth": "-1 in"} => plan.planned_depth: planned depth
@how far apart
{"/range": {"from": "9 ft", "to": "3 ft", "step": "1 ft"}} => range: 
{"/plan/planned_depth": "-1 in"} => plan.planned_depth: planned depth
@how high
{"/range/step": "-1 in"} => range: 
@how solid
{"/range": {"from": 0.9, "to": 0.3, "step": 0.1}} => range: 
@ledge
{"/range": {"from": "30 in", "to": "12 in", "step": "1 in"}} => range: 
{"/depth_limit": "301 ft"} => depth_limit: depth limit
@cheapest
{"/options": []} => options: give 1 to 100 options
{"/options/0/name": ""} => options.0.name: a name of its own
{"/options/0/cost/fixed": -1} => options.0.cost.fixed: price
{"/options/0/cost/post": -1} => options.0.cost.post: price
{"/options/0/cost/concrete/price": -1} => options.0.cost.concrete: price
{"/options/0/cost/digging/price": -1} => options.0.cost.digging: price
{"/options/0/cost/digging/per": "0.009 ft"} => options.0.cost.digging.per: length
{"/options/0/cost/digging/per": "0.01 ft"} => answered
{"/options/0/cost/digging/per": "10001 ft"} => options.0.cost.digging.per: length
{"/options/0/cost/concrete/per": "0.0009 ft3"} => options.0.cost.concrete.per: volume
{"/options/0/cost/concrete/per": "10001 ft3"} => options.0.cost.concrete.per: volume
{"/options/0/cost/post": 1e12} => answered
{"/options/0/cost/post": 1.1e12} => options.0.cost.post: price
{"/options/0/plan/planned_depth": "-1 in"} => options.0.plan.planned_depth: planned depth
@what matters
{"/step": 0.5} => band: 
{"/plan/planned_depth": "-1 in"} => plan.planned_depth: planned depth
@how often
{"/shares": []} => shares: give 2 for each sample
{"/shares": [0.5, 0.5, 0.5]} => shares: give 2 for each sample
{"/shares": [0.5, 1]} => shares.1: above 0 and below 1
{"/shares": [0, 0.5]} => shares.0: above 0 and below 1
{"/shares": [1e-9, 0.999999999]} => answered
{"/inputs/0/distribution/deviation": -1} => inputs.0.distribution: deviation
{"/plan/planned_depth": "-1 in"} => plan.planned_depth: planned depth
@what rules are worth
{"/plan/planned_depth": "-1 in"} => plan.planned_depth: planned depth
@rules
{"/height": "-6 ft"} => later height: height
@a cone
{"/angle": "91 deg"} => angle: angle
"#;

fn problems(answer: &Answer) -> Vec<(String, String)> {
    let pair = |p: &groundline::wire::Problem| (p.path.clone(), p.to_string());
    answer.problems().map(pair).collect()
}

#[test]
fn what_cannot_be_asked_is_refused_where_it_stands() {
    let mut base = Value::Null;
    let mut wrong = Vec::new();
    for line in REFUSED.lines().filter(|line| !line.is_empty()) {
        if let Some(id) = line.strip_prefix('@') {
            base = example(id);
            continue;
        }
        let (changes, expected) = line.split_once(" => ").unwrap();
        let mut request = base.clone();
        let changes: Value = serde_json::from_str(changes).unwrap();
        change(&mut request, changes.as_object().unwrap());
        let answer = Answer::to(&node(&request));
        let found = problems(&answer);
        if expected == "answered" {
            if !found.is_empty() || answer.result().is_none() {
                wrong.push(format!("{line}: {found:?}"));
            }
            continue;
        }
        let (later, expected) = match expected.strip_prefix("later ") {
            Some(rest) => (true, rest),
            None => (false, expected),
        };
        let (path, words) = expected.split_once(": ").unwrap();
        let full = if path.is_empty() {
            "input".to_owned()
        } else {
            format!("input.{path}")
        };
        let right = matches!(&found[..], [(at, text)] if *at == full && text.contains(words));
        if !right || answer.result().is_some() {
            wrong.push(format!("{line}: {found:?}"));
        }
        if Request::read(&node(&request)).is_ok() != later {
            wrong.push(format!("{line}: read {}", if later { "no" } else { "yes" }));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// The frame of a request.
#[test]
fn the_frame_is_checked() {
    let mut request = example("rules");
    request["worksheet"] = json!(true);
    let found = problems(&Answer::to(&node(&request)));
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(found[0].0, "worksheet");
    for (field, value, words) in [
        ("version", json!(2), "answers version 1"),
        ("version", json!("1"), "answers version 1"),
        ("id", json!(true), "text or a number"),
        // 2^53: from here on a whole number may be another as f64 (IEEE 754).
        (
            "id",
            json!(9_007_199_254_740_992_u64),
            "may come back changed",
        ),
        (
            "id",
            json!(9_007_199_254_740_993_u64),
            "may come back changed",
        ),
        (
            "id",
            json!(-9_007_199_254_740_993_i64),
            "may come back changed",
        ),
        ("units", json!("uk"), "us"),
        ("calculate", json!("nothing"), "one of"),
        ("calculate", json!(4), "one of"),
        ("colour", json!(1), "there is no such field"),
    ] {
        let mut request = example("rules");
        request[field] = value;
        let found = problems(&Answer::to(&node(&request)));
        assert!(
            matches!(&found[..], [(at, text)] if at == field && text.contains(words)),
            "{field} {found:?}"
        );
    }
    for (field, words) in [
        ("version", "the version is 1"),
        ("calculate", "this field is missing"),
    ] {
        let mut request = example("rules");
        request.as_object_mut().unwrap().remove(field);
        let found = problems(&Answer::to(&node(&request)));
        assert!(
            matches!(&found[..], [(at, text)] if at == field && text.contains(words)),
            "{field} {found:?}"
        );
    }
    let mut request = example("rules");
    request["calculate"] = json!(4);
    let found = problems(&Answer::to(&node(&request)));
    assert!(!found[0].1.contains("missing"), "{found:?}");
    request = example("rules");
    request.as_object_mut().unwrap().remove("units");
    let read = Request::read(&node(&request)).unwrap();
    assert_eq!(read.system(), groundline::units::UnitSystem::default());
    let twice: Node = serde_json::from_str(
        r#"{"version": 1, "version": 1, "calculate": "depth_rules", "input": {"height": "6 ft"}}"#,
    )
    .unwrap();
    let found = problems(&Answer::to(&twice));
    assert!(
        found
            .iter()
            .any(|(at, text)| at == "version" && text.contains("twice"))
    );
}

/// A number as id comes back as it was sent, or not at all.
#[test]
fn an_id_comes_back_as_sent() {
    let mut request = example("rules");
    for (id, kept) in [
        (json!(9_007_199_254_740_991_u64), true),
        (json!(-0.25), true),
        (json!(9_007_199_254_740_993_u64), false),
    ] {
        request["id"] = id.clone();
        let found = serde_json::to_value(Answer::to(&node(&request))).unwrap();
        let expected = if kept { id } else { Value::Null };
        assert_eq!(found["id"], expected);
        assert_eq!(found.get("errors").is_none(), kept);
    }
}

/// A request tells what it is, and writes what is not usual only.
#[test]
fn a_request_tells_of_itself() {
    for line in include_str!("../../examples/embed/requests.jsonl").lines() {
        let value: Value = serde_json::from_str(line).unwrap();
        let request = Request::read(&node(&value)).unwrap();
        assert_eq!(value["calculate"], request.calculate());
        let system = request.system();
        let si = system == groundline::units::UnitSystem::Si;
        assert_eq!(value["units"], if si { "si" } else { "us" });
    }
}

#[test]
fn a_worksheet_comes_only_where_asked() {
    for line in include_str!("../../examples/embed/requests.jsonl").lines() {
        let value: Value = serde_json::from_str(line).unwrap();
        let request = Request::read(&node(&value)).unwrap();
        assert_eq!(value["calculate"], request.calculate());
        let written = serde_json::to_value(&request).unwrap();
        assert_eq!(written["id"], value["id"]);
        assert_eq!(written["units"], value["units"]);
        assert_eq!(written.get("worksheet"), value.get("worksheet"));
        let answer = request.answer();
        assert_eq!(
            answer.node().get("calculate").and_then(Node::as_text),
            value["calculate"].as_str()
        );
        let sheets = answer.node().get("worksheets").is_some();
        assert_eq!(sheets, value["worksheet"] == true, "{}", value["id"]);
    }
}

/// Every code of the wind shows the working of its velocity pressure.
#[test]
fn velocity_pressure_has_its_worksheet() {
    for site in [
        json!({"kind": "asce7", "edition": "7-22", "speed": "115 mph", "exposure": "B"}),
        json!({"kind": "en1991", "speed": "25 m/s", "terrain": "II"}),
        json!({"kind": "asnzs1170", "speed": "45 m/s", "terrain_height_multiplier": 0.91}),
    ] {
        let mut request = example("velocity pressure");
        request["input"]["site"] = site;
        request["units"] = json!("si");
        request["worksheet"] = json!(true);
        let found = serde_json::to_value(Answer::to(&node(&request))).unwrap();
        let last = |list: &Value| list.as_array().and_then(|all| all.last()).cloned();
        let section = last(&found["worksheets"][0]["sections"]).unwrap();
        let step = last(&section["steps"]).unwrap();
        let of = |shown: &Value| {
            let (value, unit) = (shown["value"].as_f64(), shown["unit"].as_str());
            super::edges_wire_plan::si(value.unwrap(), unit.unwrap()).unwrap()
        };
        let (last, whole) = (of(&step["result"]), of(&found["result"]["pressure"]));
        assert!((last / whole - 1.0).abs() < 1e-12, "{last} {whole}");
    }
}

/// Units are listed with commas between them, none before the first.
#[test]
fn units_known_are_listed() {
    let mut request = example("rules");
    request["input"]["height"] = json!({ "value": 6, "unit": "lb" });
    let (at, text) = problems(&Answer::to(&node(&request))).remove(0);
    assert_eq!(at, "input.height.unit");
    let list = text.split_once("a unit of length: ").unwrap().1;
    let mut known = list.split(", ");
    assert!(known.clone().count() > 3, "{text}");
    assert!(known.all(|unit| {
        let one: Result<Length, _> = groundline::units::parse(&format!("1 {unit}"));
        one.is_ok()
    }));
    request["input"]["height"] = json!({ "value": 6, "unit": "ft", "value2": 6 });
    let found = problems(&Answer::to(&node(&request)));
    assert!(found.iter().any(|(at, _)| at == "input.height.value2"));
    request["input"]["height"] = json!({ "value": 1e308, "unit": "mi" });
    let found = problems(&Answer::to(&node(&request)));
    assert!(!found.is_empty());
}

#[test]
fn serde_says_what_it_cannot_read() {
    // A value no wire knows.
    struct Bytes;
    impl<'de> serde::Deserializer<'de> for Bytes {
        type Error = serde::de::value::Error;
        fn deserialize_any<V: serde::de::Visitor<'de>>(
            self,
            visitor: V,
        ) -> Result<V::Value, Self::Error> {
            visitor.visit_bytes(b"abc")
        }
        serde::forward_to_deserialize_any! {
            bool i8 i16 i32 i64 i128 u8 u16 u32 u64 u128 f32 f64 char str string bytes byte_buf
            option unit unit_struct newtype_struct seq tuple tuple_struct map struct enum
            identifier ignored_any
        }
    }
    use serde::Deserialize as _;
    let why = Node::deserialize(Bytes).unwrap_err().to_string();
    let expected = why.split_once("expected ").map_or("", |(_, rest)| rest);
    assert!(expected.len() > 5, "{why}");
    assert!(!Problems::of_whole("no data").is_empty());
    assert_eq!(
        Problems::of_whole("no data").to_string(),
        "the request: no data"
    );
}

/// Both schemas say their draft and are objects.
#[test]
fn schemas_are_objects() {
    for schema in [request_schema(), answer_schema()] {
        assert!(matches!(schema, Node::Object(_)));
        assert!(schema.get("$schema").and_then(Node::as_text).is_some());
    }
}

/// How many posts a fence may have is told before it is laid out: bays and two more for
/// every run, two for every gate.
#[test]
fn the_most_posts_on_both_sides() {
    let read = |runs: Value| {
        let mut request = example("actions");
        request["input"]["fence"]["runs"] = runs;
        Request::read(&node(&request)).map_err(|why| why.to_string())
    };
    let run = |bays: f64, gates: usize| {
        let gate = |index: usize| {
            json!({ "at": format!("{} ft", 40 * (index + 1)), "opening": "4 ft",
                "leaf_weight": "60 lb", "hinges": "at_start" })
        };
        let gates: Vec<_> = (0..gates).map(gate).collect();
        json!({ "length": format!("{} ft", 4.0 * bays), "spacing": "4 ft", "gates": gates,
            "panel": { "height": "6 ft" } })
    };
    let second = |bays: f64| {
        let mut run = run(bays, 0);
        run["turn"] = json!("90 deg");
        run
    };
    for (runs, allowed) in [
        (json!([run(9_998.0, 0)]), true),
        (json!([run(9_998.5, 0)]), false),
        (json!([run(9_994.0, 2)]), true),
        (json!([run(9_994.5, 2)]), false),
        (json!([run(5_000.0, 0), second(4_996.0)]), true),
        (json!([run(5_000.0, 0), second(4_996.5)]), false),
    ] {
        let found = read(runs);
        assert_eq!(found.is_ok(), allowed, "{found:?}");
        if let Err(why) = found {
            assert!(why.contains("at most 10000 posts"), "{why}");
        }
    }
}

/// A hundred options, and no more; each with a name of its own.
#[test]
fn the_most_options_on_both_sides() {
    let base = example("cheapest");
    let many = |count: usize| {
        let mut request = base.clone();
        let mut option = request["input"]["options"][0].clone();
        let named = (0..count).map(|index| {
            option["name"] = json!(index.to_string());
            option.clone()
        });
        request["input"]["options"] = Value::Array(named.collect());
        Request::read(&node(&request)).is_ok()
    };
    assert!(many(1) && many(100));
    assert!(!many(101) && !many(0));
}

/// A list is of ten thousand at most.
#[test]
fn the_longest_list_on_both_sides() {
    let mut request = example("how often");
    let mut with = |count: usize| {
        request["input"]["shares"] = json!(vec![0.5; count]);
        Request::read(&node(&request)).is_ok()
    };
    assert!(with(10_000) && !with(10_002));
}

/// What an effect is on the wire where the slopes of its sides are not one: a tight panel
/// can only be less so.
#[test]
fn one_sided_slopes_are_told() {
    let mut request = example("what matters");
    request["input"]["plan"]["fence"]["runs"][0]["panel"]["infill"] =
        json!({ "kind": "given", "solidity": 1.0 });
    let answer = Answer::to(&node(&request));
    let effects = answer.node().at("result.effects").unwrap();
    let Node::List(effects) = effects else {
        panic!("{effects:?}");
    };
    let of = |name: &str| {
        let input = |effect: &&Node| effect.get("input").and_then(Node::as_text) == Some(name);
        effects.iter().find(input).unwrap()
    };
    let solid = of("solidity");
    assert_eq!(solid.get("why").and_then(Node::as_text), Some("refused"));
    assert!(solid.get("below").and_then(Node::as_number).is_some());
    assert!(solid.get("above").and_then(Node::as_number).is_none());
    assert!(solid.get("elasticity").and_then(Node::as_number).is_none());
    assert!(
        solid
            .get("high")
            .and_then(|high| high.get("post"))
            .is_none()
    );
    assert!(solid.at("low.post").and_then(Node::as_number).is_some());
    assert!(solid.get("refused").and_then(Node::as_text).is_some());
    let speed = of("wind_speed");
    assert!(speed.get("elasticity").and_then(Node::as_number).is_some());
    assert!(speed.get("why").and_then(Node::as_text).is_none());
}
