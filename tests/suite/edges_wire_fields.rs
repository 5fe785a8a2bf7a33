//! Every field on the wire reaches the answer: a request with one thing changed is
//! answered, and answered otherwise; written out and read again it is the same request.
//!
//! A line that starts with `@` names an example request and what is first changed in it;
//! the lines after it are changes to that, one at a time. A place is a JSON pointer below
//! `/input`; null takes a field away.

use groundline::caution::Caution;
use groundline::source;
use groundline::wire::{Answer, Node, Request};
use serde_json::{Map, Value, json};

const REQUESTS: &str = include_str!("../../examples/embed/requests.jsonl");

/// Changes after which the result is another.
const OTHER_RESULT: &str = r#"
@timber {}
{"/design/ground/class": 1}
{"/design/ground/class": 2}
{"/design/ground/class": 4}
{"/design/ground/class": 5}
{"/design/ground/class": null, "/design/ground/lateral_bearing": "210 pcf"}
{"/design/ground/vertical_pressure": "1800 psf"}
{"/design/ground/isolated_pole": false}
{"/design/ground/discounted_top": "6 in"}
{"/design/foundation/hole/size": "14 in"}
{"/design/foundation/hole/shape": "square"}
{"/design/foundation/restraint": "rigid_paving"}
{"/design/post/side": "5.25 in"}
{"/design/post/loss": "0.25 in"}
{"/design/post/treatment": "incised"}
{"/design/foundation": {"kind": "driven"}}
{"/design/foundation": {"kind": "bare"}}
{"/shear": "310 lb"}
{"/moment": "1200 lb-ft"}
{"/axial": "150 lb"}
{"/planned_depth": "50 in"}
@timber {"/design/combination": "alternative_with_increase", "/design/ground/isolated_pole": true, "/design/ground/both_increases": true}
{"/design/ground/isolated_pole": false}
@timber {"/design/foundation/hole/shape": "square"}
{"/design/foundation/square_width": "face"}
@timber {"/design/foundation": {"kind": "bare"}}
{"/design/foundation/restraint": "rigid_paving"}
{"/design/foundation/square_width": "face"}
@timber {"/design/foundation": {"kind": "driven"}}
{"/design/foundation/restraint": "rigid_paving"}
{"/design/foundation/square_width": "face"}
@timber {"/design/foundation": {"kind": "backfill", "setting": "tamped_soil", "hole": {"shape": "square", "size": "10 in"}}}
{"/design/foundation/restraint": "rigid_paving"}
@a post {}
{"/post/species": "douglas_fir_larch"}
{"/post/species": "hem_fir"}
{"/post/species": "spruce_pine_fir"}
{"/post/species": "western_cedars"}
{"/post/grade": "no_1"}
{"/post/modulus": "900 ksi"}
@a post {"/post/species": null, "/post/grade": null, "/post/fb": "1000 psi", "/post/fv": "150 psi", "/post/size_class": "dimension", "/post/moisture": "wet", "/post/side": "3.5 in"}
{"/post/fb": "1100 psi"}
{"/post/fv": "160 psi"}
{"/post/size_class": "southern_pine_dimension"}
{"/post/moisture": "dry"}
{"/post/modulus": "900 ksi"}
@a post {"/post/species": null, "/post/grade": null, "/post/fb": "1000 psi", "/post/fv": "150 psi", "/post/size_class": "timbers"}
{"/post/fb": "1100 psi"}
{"/post/side": "7.25 in"}
@a post {"/post/species": null, "/post/grade": null, "/post/fb": "1000 psi", "/post/fv": "150 psi", "/post/size_class": "southern_pine_timbers"}
{"/post/fv": "160 psi"}
@square tube {}
{"/post/side": "3.5 in"}
{"/post/wall": "0.16 in"}
{"/post/fy": "50 ksi"}
{"/post/corner_radius": "0.3 in"}
{"/post/loss": "0.01 in"}
@aluminium {}
{"/post/section/side": "3.5 in"}
{"/post/section/wall": "0.2 in"}
{"/post/section/corner_radius": "0.3 in"}
{"/post/section/loss": "0.01 in"}
{"/post/section": {"kind": "tube", "diameter": "4 in", "wall": "0.25 in"}}
{"/post/section": {"kind": "tube", "diameter": "4 in", "wall": "0.25 in", "loss": "0.01 in"}}
{"/post/alloy": "6061-T6"}
{"/post/temper": "welded"}
{"/post/alloy": null, "/post/temper": null, "/post/fty": "30 ksi", "/post/ftu": "38 ksi"}
@aluminium {"/post/alloy": null, "/post/temper": null, "/post/fty": "16 ksi", "/post/ftu": "22 ksi"}
{"/post/fty": "15 ksi"}
@round timber {}
{"/post/circumference": "24 in"}
{"/post/circumference": null, "/post/diameter": "7.5 in"}
{"/post/loss": "0.5 in"}
{"/post/fb": "1600 psi"}
{"/post/fv": "120 psi"}
{"/post/modulus": "1500 ksi"}
{"/post/modulus": null}
@sleeved vinyl {}
{"/post/insert/diameter": "2.875 in"}
{"/post/insert": {"kind": "square_tube", "side": "2.5 in", "wall": "0.15 in", "fy": "36 ksi"}}
@known strength {}
{"/post/section/side": "100 mm"}
{"/post/section": {"kind": "disc", "diameter": "90 mm"}}
{"/post/section": {"kind": "disc", "circumference": "300 mm"}}
{"/post/section": {"kind": "tube", "diameter": "90 mm", "wall": "3 mm"}}
{"/post/section": {"kind": "square_tube", "side": "92 mm", "wall": "3 mm"}}
{"/post/moment": "2.2 kN-m"}
{"/post/shear": "8 kN"}
{"/post/rigidity": "56 kN-m2"}
{"/post/rigidity": null}
@factored {}
{"/post/post": {"kind": "timber", "side": "5.5 in", "species": "southern_pine", "grade": "no_2", "treatment": "not_incised"}}
{"/post/post": {"kind": "square_tube", "side": "3 in", "wall": "0.174 in", "fy": "46 ksi"}}
@timber in Europe {}
{"/post/class": "C16"}
{"/post/class": "D30"}
{"/post/class": null, "/post/fm_k": "22 MPa", "/post/fv_k": "3 MPa", "/post/e_mean": "10 GPa"}
{"/post/kmod": 0.8}
{"/post/section/side": "90 mm"}
{"/post/section/loss": "5 mm"}
@pipe in Europe {}
{"/post/section/diameter": "76.1 mm"}
{"/post/section/wall": "4 mm"}
{"/post/section/loss": "0.5 mm"}
{"/post/fy": "275 MPa"}
@tube in Europe {}
{"/post/section/side": "90 mm"}
{"/post/section/wall": "5 mm"}
{"/post/section/corner_radius": "5 mm"}
{"/post/section/loss": "0.5 mm"}
{"/post/fy": "275 MPa"}
@a block {}
{"/width": "3.5 ft"}
{"/length": "3.5 ft"}
{"/depth": "2.5 ft"}
{"/unit_weight": "145 pcf"}
{"/superstructure": "300 lb"}
{"/moment": "1600 lb-ft"}
{"/safety": 2.0}
@a lean {}
{"/height": "1.9 m"}
{"/rigidity": "50 kN-m2"}
{"/wind": "0.7 kN/m"}
{"/wind": null, "/force": "1 kN", "/at": "1 m"}
{"/movement": "6 mm"}
{"/movement": null}
{"/rotation": "0.2 deg"}
{"/rotation": null}
{"/limit": 0.03}
{"/limit": null}
@a lean {"/wind": null, "/force": "1 kN", "/at": "1 m"}
{"/force": "1.1 kN"}
{"/at": "1.1 m"}
@rules {}
{"/height": "7 ft"}
@a dug hole {}
{"/depth": "32 in"}
{"/height": "4 ft"}
@methods {}
{"/profile/layers/0/soil/unit_weight": "17 kN/m3"}
{"/profile/layers/0/soil/friction_angle": "30 deg"}
{"/profile/layers/0/soil/cohesion": "3 kPa"}
{"/profile/layers/0/soil/friction_angle": null, "/profile/layers/0/soil/undrained_strength": "40 kPa"}
{"/profile/layers/0/soil/undrained_strength": "40 kPa"}
{"/profile/layers/0/soil/stiffness": null}
{"/profile/layers/0/soil/stiffness": {"kind": "modulus", "es": "10 MPa", "poisson": 0.3}}
{"/profile/layers/0/thickness": "1.2 m"}
{"/profile/water": "0.3 m"}
{"/profile/discounted_top": "0.2 m"}
{"/profile/backfill": {"unit_weight": "19 kN/m3", "friction_angle": "35 deg"}}
{"/width": "350 mm"}
{"/planned_depth": "1.1 m"}
{"/shear": "1.3 kN"}
{"/moment": "1.4 kN-m"}
{"/factor": 2.0}
{"/yield_moment": "1.5 kN-m"}
{"/rigidity": "6000 kN-m2"}
{"/rigidity": null}
@methods {"/profile/water": "0.3 m"}
{"/profile/layers/0/soil/saturated_weight": "21 kN/m3"}
@methods {"/profile/layers/0/soil/friction_angle": null, "/profile/layers/0/soil/undrained_strength": "40 kPa", "/profile/layers/0/soil/stiffness": null}
{"/profile/layers/0/soil/stiffness": {"kind": "constant", "ks": "30 MN/m3"}}
{"/profile/layers/0/soil/undrained_strength": "45 kPa"}
@the code beside them {}
{"/code": null}
{"/code/foundation/hole/size": "14 in"}
{"/yield_moment": null}
@movement {}
{"/rigidity": "50 kN-m2"}
{"/width": "350 mm"}
{"/depth": "1.1 m"}
{"/height": "2 m"}
{"/law": "elastic", "/collapse_up_to": null}
{"/law": "soil_curves"}
{"/profile": null, "/constant": "5 MPa", "/collapse_up_to": null}
{"/profile": null, "/growing": "5 MN/m3", "/collapse_up_to": null}
{"/winds/0/from": "0.1 m"}
{"/winds/0/to": "1.7 m"}
{"/winds/0/wind": "0.6 kN/m"}
{"/forces": [{"height": "1 m", "force": "0.2 kN"}]}
{"/moment": "0.3 kN-m"}
{"/axial": "5 kN"}
{"/elements": 20}
{"/collapse_up_to": null}
{"/stations": true}
@movement {"/law": "soil_curves"}
{"/loading": "static"}
@movement {"/law": "soil_curves", "/profile/layers/0/soil": {"unit_weight": "18 kN/m3", "undrained_strength": "40 kPa"}, "/collapse_up_to": null}
{"/strain": 0.02}
{"/clay": "medium"}
@movement {"/forces": [{"height": "1 m", "force": "0.2 kN"}], "/collapse_up_to": null}
{"/forces/0/height": "1.2 m"}
{"/forces/0/force": "0.3 kN"}
@pull-out {}
{"/post_weight": "40 lb"}
{"/footing_weight": "260 lb"}
{"/friction/bearing": "1500 psf"}
{"/friction": {"kind": "given", "stress": "400 psf"}}
{"/friction": {"kind": "alpha"}, "/profile": {"layers": [{"thickness": "20 ft", "soil": {"unit_weight": "115 pcf", "undrained_strength": "900 psf"}}]}}
{"/friction": {"kind": "alpha", "alpha": 0.4}, "/profile": {"layers": [{"thickness": "20 ft", "soil": {"unit_weight": "115 pcf", "undrained_strength": "900 psf"}}]}}
{"/friction": {"kind": "beta", "k": 0.8, "delta": "20 deg"}, "/profile": {"layers": [{"thickness": "20 ft", "soil": {"unit_weight": "115 pcf", "friction_angle": "30 deg"}}]}}
{"/shaft/shape": "square"}
{"/shaft/size": "11 in"}
{"/shaft/depth": "38 in"}
{"/shaft/excluded": "10 in"}
{"/friction": null, "/shaft": null}
{"/lifted_soil": "500 lb", "/plate": null}
{"/plate": null}
{"/plate/friction_angle": "32 deg"}
{"/plate/unit_weight": "105 pcf"}
{"/plate/diameter": "18 in"}
{"/plate/depth": "34 in"}
{"/below_water": "1 ft3"}
{"/below_water": null}
{"/bond/perimeter": "15 in"}
{"/bond/length": "25 in"}
{"/bond": null}
{"/bond/wood_in_concrete": null, "/bond/stress": "2 psi"}
{"/bond/wood_in_concrete": false, "/bond/stress": "2 psi"}
{"/uplift": "400 lb"}
{"/uplift": null}
{"/combination": "alternative_with_increase"}
@pull-out {"/friction": {"kind": "given", "stress": "400 psf"}}
{"/known": "tests"}
@frost {}
{"/conductivity_watt_per_m_k": 1.5}
{"/surface_factor": 0.6}
{"/freezing_index_celsius_days": 1000}
{"/latent_heat_mj_per_cu_m": 90}
{"/lambda": 0.9}
{"/lambda": null}
@frost by the soil {}
{"/stefan_number": 0.3}
{"/thermal_ratio": 1.0}
@heave {}
{"/frost_depth": "1 m"}
{"/ground": "fine_on_steel"}
{"/ground": "gravel_on_steel"}
{"/ground": null, "/stress": "70 kPa"}
{"/perimeter": "1 m"}
{"/depth": "0.8 m"}
{"/dead": "1.2 kN"}
{"/anchorage": "7 kN"}
{"/anchorage": null}
@bags {}
{"/hole/size": "12 in"}
{"/hole/shape": "square"}
{"/section/diameter": "2.875 in"}
{"/depth": "32 in"}
{"/base": "6 in"}
{"/base": null}
{"/bag/weight": "40 lb"}
{"/bag/weight": "50 lb"}
{"/bag/weight": "60 lb"}
{"/bag/yields": "0.5 ft3"}
{"/bag": null}
{"/waste": 0.2}
{"/waste": null}
{"/posts": 15}
{"/posts": null}
{"/setting": "expanding_foam", "/bag/yields": "0.5 ft3"}
{"/setting": "compacted_gravel", "/bag/yields": "0.5 ft3"}
{"/setting": "tamped_soil", "/bag": null}
@a pull {}
{"/readings/5/load": "5.6 kN"}
{"/readings/0/movement": "5 mm"}
{"/readings": null, "/peak": "5 kN"}
{"/shaft/size": "310 mm"}
{"/shaft/excluded": "0.1 m"}
{"/weight": "1.3 kN"}
{"/undrained_strength": "45 kPa"}
{"/undrained_strength": null}
{"/profile": {"layers": [{"thickness": "6 m", "soil": {"unit_weight": "18 kN/m3", "friction_angle": "32 deg"}}]}}
@a side pull {}
{"/rigidity": "50 kN-m2"}
{"/width": "350 mm"}
{"/depth": "1 m"}
{"/height": "1.3 m"}
{"/curve": "growing"}
{"/curve": "constant"}
{"/curve": "clay"}
{"/share": 0.7}
@a side pull, its whole curve {}
{"/gauge": "load"}
{"/curve": "constant"}
{"/curve": "clay"}
{"/curve": null}
@design value {}
{"/basis": "normal"}
{"/basis": "tolerance"}
{"/basis": "lower_of_both"}
{"/basis": "lognormal_tolerance"}
{"/basis": null}
{"/results/at_least": 2}
{"/known_variation": 0.2}
{"/results/values/0": "22 kPa"}
{"/results": {"kind": "forces", "values": ["21 kN", "25 kN", "19.5 kN", "23 kN"]}}
{"/results": {"kind": "growths", "values": ["21 kPa/m", "25 kPa/m", "19.5 kPa/m", "23 kPa/m"]}}
@design value {"/basis": "normal"}
{"/known_variation": 0.2}
@design value {"/basis": "tolerance"}
{"/confidence": 0.95}
@two settings {}
{"/first/values/0": "900 lb"}
{"/second/values/0": "690 lb"}
{"/confidence": 0.9}
{"/first": {"kind": "pressures", "values": ["910 psf", "1010 psf", "870 psf"]}, "/second": {"kind": "pressures", "values": ["700 psf", "960 psf", "640 psf"]}}
{"/first": {"kind": "growths", "values": ["910 pcf", "1010 pcf", "870 pcf"]}, "/second": {"kind": "growths", "values": ["700 pcf", "960 pcf", "640 pcf"]}}
@proof {}
{"/load": "3.5 kN"}
{"/multiple": 1.6}
{"/allowed_movement": "30 mm"}
@proof {"/allowed_movement": "30 mm"}
{"/allowed_movement": null}
@a cone {}
{"/radius": "7 in"}
{"/height": "2.5 ft"}
{"/angle": "25 deg"}
"#;

/// Changes after which result, cautions or sources are others.
const OTHER_ANSWER: &str = r#"
@timber {"/shear": "6000 lb", "/moment": "60000 lb-ft"}
{"/design/depth_cap": "cap_reading"}
@timber {}
{"/design/ground/both_increases": true, "/design/combination": "alternative_with_increase"}
{"/design/combination": "alternative_with_increase", "/design/ground/isolated_pole": false}
{"/design/rest": {"days": 1, "needs": 7}}
@timber {"/design/foundation": {"kind": "backfill", "setting": "expanding_foam", "hole": {"shape": "round", "size": "12 in"}}, "/design/rest": {"days": 7, "needs": 7}}
{"/design/rest/days": 1}
{"/design/rest/needs": 8}
{"/design/foundation/setting": "compacted_gravel"}
{"/design/foundation/setting": "tamped_soil"}
@bags {"/setting": "expanding_foam", "/bag/yields": "0.5 ft3"}
{"/rested": true}
@pull-out {"/friction": {"kind": "given", "stress": "400 psf"}}
{"/friction": null, "/shaft": null}
{"/plate": null}
{"/bond": null}
@methods {}
{"/profile/backfill": {"unit_weight": "19 kN/m3", "friction_angle": "35 deg"}}
@aluminium {"/post/alloy": null, "/post/temper": null, "/post/fty": "16 ksi", "/post/ftu": "17 ksi"}
{"/post/ftu": "16.5 ksi"}
"#;

pub(super) fn example(id: &str) -> Value {
    let read = |line| serde_json::from_str::<Value>(line).unwrap();
    let found = REQUESTS
        .lines()
        .map(read)
        .find(|request| request["id"] == id);
    found.unwrap_or_else(|| panic!("{id}"))
}

/// Sets places below `/input`, making objects where there are none.
pub(super) fn change(request: &mut Value, changes: &Map<String, Value>) {
    for (pointer, value) in changes {
        let mut place = &mut request["input"];
        for name in pointer.split('/').skip(1) {
            place = match name.parse::<usize>() {
                Ok(index) => &mut place[index],
                Err(_) => &mut place[name],
            };
        }
        *place = value.clone();
    }
}

/// Each change of a table with its request before and after.
pub(super) fn cases(table: &str) -> Vec<(String, Value, Value)> {
    let mut base = Value::Null;
    let mut about = String::new();
    let mut all = Vec::new();
    for line in table.lines().filter(|line| !line.is_empty()) {
        if let Some(rest) = line.strip_prefix('@') {
            let (id, first) = rest.split_at(rest.find('{').unwrap());
            base = example(id.trim());
            change(&mut base, &serde_json::from_str(first).unwrap());
            rest.clone_into(&mut about);
        } else {
            let mut after = base.clone();
            change(&mut after, &serde_json::from_str(line).unwrap());
            all.push((format!("{about}: {line}"), base.clone(), after));
        }
    }
    all
}

pub(super) fn node(request: &Value) -> Node {
    serde_json::from_str(&request.to_string()).unwrap()
}

/// The answer, which must be one.
fn answered(about: &str, request: &Value) -> Result<Answer, String> {
    let answer = Answer::to(&node(request));
    let problems: Vec<_> = answer.problems().map(ToString::to_string).collect();
    if problems.is_empty() {
        Ok(answer)
    } else {
        Err(format!("{about}: {problems:?}"))
    }
}

pub(super) fn check(table: &str, same: impl Fn(&Node, &Node) -> bool) {
    let mut wrong = Vec::new();
    let mut known: Option<(Value, Answer)> = None;
    for (about, before, after) in cases(table) {
        let first = match known.take().filter(|(request, _)| *request == before) {
            Some((_, first)) => Ok(first),
            None => answered(&about, &before),
        };
        let (first, second) = match first.and_then(|a| Ok((a, answered(&about, &after)?))) {
            Ok(both) => both,
            Err(why) => {
                wrong.push(why);
                continue;
            }
        };
        let alike = same(first.node(), second.node());
        known = Some((before, first));
        if alike {
            wrong.push(format!("{about}: answered alike"));
        }
        // Written out and read again it asks the same.
        let request = Request::read(&node(&after)).unwrap();
        let again = Request::read(&request.write()).unwrap();
        assert_eq!(again, request, "{about}");
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_field_reaches_the_result() {
    check(OTHER_RESULT, |a, b| a.get("result") == b.get("result"));
}

fn said(id: &str, changes: &Value) -> (Vec<String>, Vec<String>) {
    let mut request = example(id);
    change(&mut request, changes.as_object().unwrap());
    let answer = answered(id, &request).unwrap();
    let answer = serde_json::to_value(answer.node()).unwrap();
    let text = |value: &Value| value.as_str().unwrap().to_owned();
    let list = |name: &str| answer[name].as_array().unwrap().clone();
    (
        list("cautions").iter().map(text).collect(),
        list("sources").iter().map(|s| text(&s["id"])).collect(),
    )
}

/// What a hole is good for is told with the cautions of its depth and increases, and with
/// every source that it took.
#[test]
fn what_a_hole_carries_is_cautioned() {
    let third = Caution::OneThirdIncrease;
    let deep = Caution::BeyondTwelveFeet;
    for (changes, expected) in [
        (json!({}), vec![]),
        (json!({"/depth": "12 ft"}), vec![]),
        (json!({"/depth": "12.01 ft"}), vec![deep]),
        (
            json!({"/design/combination": "alternative_with_increase"}),
            vec![third],
        ),
    ] {
        let (cautions, _) = said("a dug hole", &changes);
        for caution in [third, deep] {
            let found = cautions.iter().any(|text| text == caution.text());
            assert_eq!(found, expected.contains(&caution), "{changes} {caution:?}");
        }
    }
    let sources = |changes: &Value| said("a dug hole", changes).1;
    let (presumed, doubled) = (source::IBC_1806_2.id, source::IBC_1806_3_4.id);
    let plain = sources(&json!({}));
    assert!(plain.iter().any(|id| id == presumed) && !plain.iter().any(|id| id == doubled));
    assert!(plain.iter().any(|id| id == source::BELOW_GRADE.id));
    let twice = sources(&json!({"/design/ground/isolated_pole": true}));
    assert!(twice.iter().any(|id| id == doubled));
    let own = json!({"/design/ground": {"lateral_bearing": "200 pcf"}});
    assert!(!sources(&own).iter().any(|id| id == presumed));
}

/// How a post moves is told with its method, the beam-column, beside that of the springs.
#[test]
fn the_beam_column_is_cited() {
    for id in ["movement", "movement, elastic", "a side pull"] {
        let (_, sources) = said(id, &json!({}));
        assert!(
            sources.iter().any(|id| id == source::BEAM_COLUMN.id),
            "{id}"
        );
        assert!(sources.len() > 1);
    }
}

#[test]
fn every_choice_reaches_the_answer() {
    check(OTHER_ANSWER, |a, b| a == b);
}
