//! Every field of sites, fences, plans and questions about plans reaches the answer, as in
//! [`super::edges_wire_fields`].

use super::edges_wire_fields::{change, check, node};
use groundline::wire::{Answer, Node};
use serde_json::{Value, json};

const OTHER_RESULT: &str = r#"
@pressures {}
{"/site/edition": "7-10"}
{"/site/edition": "7-16", "/site/elevation": "5000 ft"}
{"/site/speed": "120 mph"}
{"/site/exposure": "C"}
{"/site/exposure": "D"}
{"/site/kzt": 1.2}
{"/site/topography": {"feature": "ridge", "height": "60 ft", "half_length": "120 ft", "distance": "30 ft", "side": "upwind"}}
{"/site/elevation": "3000 ft"}
{"/site/gust_factor": 0.9}
{"/site/minimum_pressure": "80 psf"}
{"/fence/runs/0/length": "90 ft"}
{"/fence/runs/0/panel/height": "7 ft"}
{"/fence/runs/0/panel/clearance": "8 in"}
{"/fence/runs/0/panel/infill": {"kind": "tight"}, "/fence/runs/0/panel/height": "5 ft"}
{"/fence/runs/0/panel/infill": {"kind": "given", "solidity": 0.5}}
{"/fence/runs/0/panel/infill": {"kind": "pickets", "member": "3.5 in", "gap": "1 in"}}
{"/fence/runs/0/panel/infill": {"kind": "boards_on_both_sides", "member": "3.5 in", "gap": "5 in"}}
{"/fence/runs/0/panel/infill": {"kind": "round_bars", "member": "1 in", "gap": "2 in"}}
{"/fence/runs/0/panel/infill": {"kind": "lattice", "member": "1.5 in", "gap": "2 in"}}
{"/fence/runs/0/panel/infill": {"kind": "woven_mesh", "member": "0.148 in", "gap": "2 in"}}
{"/fence/runs/0/panel/topping": {"height": "1 ft", "infill": {"kind": "lattice", "member": "1.5 in", "gap": "2 in"}}}
@pressures {"/fence/runs/0/panel/height": "8 ft", "/fence/runs/1/panel/height": "8 ft", "/fence/runs/1/length": "2 ft", "/fence/runs/1/spacing": "2 ft"}
{"/site/short_return": "interpolate"}
{"/site/short_return": "first_row"}
@pressures {"/fence/runs/0/panel/infill": {"kind": "given", "solidity": 0.69}}
{"/site/hand_over": "as_printed"}
@pressures {"/site/topography": {"feature": "ridge", "height": "60 ft", "half_length": "120 ft", "distance": "30 ft", "side": "upwind"}}
{"/site/topography/feature": "escarpment"}
{"/site/topography/feature": "hill"}
{"/site/topography/height": "70 ft"}
{"/site/topography/half_length": "150 ft"}
{"/site/topography/distance": "40 ft"}
{"/site/topography/feature": "escarpment", "/site/topography/side": "downwind"}
@pressures {"/fence/runs/0/panel/infill": {"kind": "woven_mesh", "member": "0.148 in", "gap": "2 in"}}
{"/fence/runs/0/panel/infill/member": "0.192 in"}
{"/fence/runs/0/panel/infill/gap": "1 in"}
{"/fence/runs/0/panel/infill/ice": "0.25 in"}
{"/fence/runs/0/panel/infill/covered": 0.3}
@pressures {"/fence/runs/0/panel/infill": {"kind": "given", "solidity": 0.4}}
{"/fence/runs/0/panel/infill/solidity": 0.5}
{"/fence/runs/0/panel/infill/round_diameter": "1 in"}
{"/fence/runs/0/panel/infill/covered": 0.3}
@pressures {"/fence/runs/0/panel/topping": {"height": "1 ft", "infill": {"kind": "lattice", "member": "1.5 in", "gap": "2 in"}}}
{"/fence/runs/0/panel/topping/height": "1.5 ft"}
@pressures {"/fence/runs/0/panel/infill": {"kind": "given", "solidity": 0.75}, "/fence/runs/0/panel/topping": {"height": "1 ft", "infill": {"kind": "lattice", "member": "1.5 in", "gap": "1.5 in"}}}
{"/fence/runs/0/panel/topping/infill/gap": "1 in"}
@pressures in Europe {}
{"/site/speed": "26 m/s"}
{"/site/terrain": "0"}
{"/site/terrain": "I"}
{"/site/terrain": "III"}
{"/site/terrain": "IV"}
{"/site/direction_factor": 0.9}
{"/site/season_factor": 0.9}
{"/site/probability_factor": 0.9}
{"/site/orography_factor": 1.1}
{"/site/turbulence_factor": 0.9}
{"/site/air_density": "1.2 kg/m3"}
{"/site/structural_factor": 0.9}
{"/site/standing_on": "5 m"}
{"/site/shelter_factor": 0.7}
{"/site/peak_pressure": "0.8 kPa"}
@pressures in Europe {"/fence/runs/0/panel/infill/gap": "90 mm", "/site/lattice_coefficient": 1.3}
{"/site/lattice_coefficient": 1.4}
@pressures in Australia {}
{"/site/speed": "46 m/s"}
{"/site/climate_multiplier": 1.05}
{"/site/direction_multiplier": 0.95}
{"/site/terrain_height_multiplier": 0.9}
{"/site/shielding_multiplier": 0.9}
{"/site/topographic_multiplier": 1.1}
{"/site/dynamic_factor": 1.1}
@pressures {"/site": {"kind": "pressure", "pressure": "20 psf", "level": "strength"}}
{"/site/pressure": "21 psf"}
{"/site/level": "characteristic"}
{"/site/level": "ultimate"}
{"/site/level": "allowable_stress"}
@velocity pressure {}
{"/site/edition": "7-10"}
{"/site/edition": "7-16", "/site/elevation": "5000 ft"}
{"/site/exposure": "C"}
{"/site/exposure": "C", "/site/constants": "si", "/height": "40 ft"}
{"/site/speed": "120 mph"}
{"/height": "40 ft"}
@velocity pressure in Europe {}
{"/height": "5 m"}
{"/site/terrain": "IV"}
{"/site": {"kind": "asnzs1170", "speed": "45 m/s", "terrain_height_multiplier": 0.91}}
@actions {}
{"/combination": "allowable_stress"}
{"/combination": "allowable_stress_alternative"}
{"/fence/runs/0/spacing": "6 ft"}
{"/fence/runs/0/panel/weight": "3 psf"}
{"/fence/runs/0/gates/0/at": "32 ft"}
{"/fence/runs/0/gates/0/opening": "5 ft"}
{"/fence/runs/0/gates/0/leaf_weight": "70 lb"}
{"/fence/runs/0/gates/0/hinges": "at_end"}
{"/fence/runs/0/gates/0/hinges": "both"}
{"/fence/runs/0/gates": null}
{"/fence/runs/1/turn": "45 deg"}
{"/fence/runs/1/length": "40 ft"}
{"/site/resultant_height": "as_printed", "/fence/runs/0/panel/clearance": "1 ft"}
{"/site/eccentric_case": "one_base", "/fence/runs": [{"length": "8 ft", "spacing": "4 ft", "panel": {"height": "6 ft"}}]}
{"/site": {"kind": "pressure", "pressure": "20 psf", "level": "strength"}}
{"/site": {"kind": "pressure", "pressure": "20 psf", "level": "allowable_stress"}, "/combination": "allowable_stress"}
{"/site": {"kind": "pressure", "pressure": "20 psf", "level": "ultimate"}, "/combination": "asnzs1170_ultimate"}
{"/site": {"kind": "pressure", "pressure": "20 psf", "level": "characteristic"}, "/combination": "en1990_structure"}
{"/site": {"kind": "asnzs1170", "speed": "45 m/s", "terrain_height_multiplier": 0.91}, "/combination": "asnzs1170_ultimate"}
@actions {"/site": {"kind": "asnzs1170", "speed": "45 m/s", "terrain_height_multiplier": 0.91}, "/combination": "asnzs1170_ultimate"}
{"/site/off_centre_zones": "zones_only"}
@actions {"/site": {"kind": "pressure", "pressure": "20 psf", "level": "strength"}}
{"/site/acting_at": 0.6}
@actions in Europe {}
{"/combination": "en1990_equilibrium"}
{"/combination": "en1990_uplift"}
{"/combination": "en1990_reduced_ground"}
@a fence {}
{"/planned_depth": "60 in"}
{"/kinds": null}
{"/kinds/0/post": "end"}
{"/kinds/0/post": "line"}
{"/kinds/0/post": "corner"}
{"/kinds/0/planned_depth": "50 in"}
{"/kinds/0/design/foundation/hole/size": "18 in"}
{"/posts/0/number": 4}
{"/posts/0/planned_depth": "40 in"}
{"/posts/0/design": {"ground": {"class": 4}, "post": {"kind": "pipe", "diameter": "4 in", "wall": "0.226 in", "fy": "50 ksi"}, "foundation": {"kind": "driven"}}}
{"/posts/0/checks": {"lean": {"growing": "20 pci"}}}
{"/posts": null}
@everything {}
{"/checks/lean/growing": "25 pci"}
{"/checks/lean/growing": null, "/checks/lean/constant": "600 psi"}
{"/checks/lean/limit": 0.05}
{"/checks/lean/rigidity": {"value": 19000000, "unit": "lb-in2"}}
{"/checks/lean": null}
{"/checks/frost/depth": "24 in"}
{"/checks/frost/ground": "gravel_on_steel"}
{"/checks/frost/stress": "7 psi"}
{"/checks/frost/remedy": "smooth_sleeve"}
{"/checks/frost/remedy": "drained_gravel"}
{"/checks/frost/friction": null}
{"/checks/frost/friction": {"basis": "tested", "stress": "400 psf"}}
{"/checks/frost/friction": {"basis": "allowable", "stress": "200 psf"}}
{"/checks/frost/concrete": "140 pcf"}
{"/checks/frost/post_weight": "50 lb"}
{"/checks/frost": null}
{"/checks/uplift/force": "250 lb"}
{"/checks/uplift/friction": null}
{"/checks/uplift/friction/stress": "200 psf"}
{"/checks/uplift/friction": {"basis": "presumptive"}}
{"/checks/uplift/bond": "1 psi"}
{"/checks/uplift/wood_bond": true}
{"/checks/uplift/concrete": "140 pcf"}
{"/checks/uplift/post_weight": "50 lb"}
{"/checks/uplift": null}
{"/checks/axial": null, "/fence/runs/0/panel/weight": "3 psf"}
{"/checks/materials": null}
{"/checks": null}
@everything {"/checks/lean": null, "/checks/frost": null, "/checks/uplift": null, "/checks/axial": null}
{"/checks/materials/bag/weight": "60 lb"}
{"/checks/materials/waste": 0.1}
{"/checks/materials/base": "6 in"}
@everything {"/fence/runs/0/panel/weight": "3 psf"}
{"/checks/axial/length_factor": 2.4}
@everything {"/fence/runs/0/panel/weight": "3 psf", "/design/post": {"kind": "given", "section": {"kind": "square", "side": "5 in"}, "moment": "9000 lb-ft", "shear": "3000 lb", "rigidity": {"value": 19000000, "unit": "lb-in2"}}, "/checks/axial": {"capacity": "9000 lb"}}
{"/checks/axial/capacity": "8000 lb"}
@everything {"/fence/runs/0/panel/weight": "3 psf", "/design/post": {"kind": "timber", "side": "5.5 in", "fb": "900 psi", "fv": "150 psi", "size_class": "timbers", "modulus": "1200 ksi", "treatment": "not_incised"}, "/checks/axial": {"fc": "800 psi", "emin": "400 ksi"}}
{"/checks/axial/fc": "700 psi"}
{"/checks/axial/emin": "350 ksi"}
@everything {"/design/post": {"kind": "sleeved", "outside": "5 in", "wall": "0.15 in", "insert": {"kind": "pipe", "diameter": "2.375 in", "wall": "0.154 in", "fy": "30 ksi"}}, "/design/foundation": {"kind": "backfill", "setting": "tamped_soil", "hole": {"shape": "round", "size": "12 in"}}, "/checks": {"frost": {"depth": "30 in"}, "materials": {"bag": {"weight": "80 lb"}}}}
{"/design/post/outside": "5.5 in"}
@everything {"/design/post": {"kind": "sleeved", "outside": "5 in", "wall": "0.15 in", "insert": {"kind": "pipe", "diameter": "2.375 in", "wall": "0.154 in", "fy": "30 ksi"}}, "/design/foundation": {"kind": "backfill", "setting": "tamped_soil", "hole": {"shape": "round", "size": "12 in"}}, "/fence/runs/0/panel/height": "1 ft", "/checks": {"materials": {"bag": {"weight": "80 lb"}}}}
{"/design/foundation/hole/size": "13 in"}
{"/design/foundation/hole/shape": "square"}
@how windy {}
{"/plan/planned_depth": "55 in"}
{"/post": 1}
{"/speeds": {"from": "60 mph", "to": "90 mph", "step": "1 mph"}}
{"/speeds": {"from": "60 mph", "to": "200 mph", "step": "7 mph"}}
{"/plan/site": {"kind": "pressure", "pressure": "20 psf", "level": "strength"}}
@how windy {"/plan/site": {"kind": "pressure", "pressure": "20 psf", "level": "strength"}}
{"/pressures": {"from": "5 psf", "to": "20 psf", "step": "1 psf"}}
{"/plan/site/level": "allowable_stress"}
@how far apart {}
{"/range": {"from": "3 ft", "to": "20 ft", "step": "6 in"}}
@how high {}
{"/range/to": "5 ft"}
{"/range": null}
@how solid {}
{"/range": {"from": 0.3, "to": 0.6, "step": 0.1}}
@ledge {}
{"/depth_limit": "54 in"}
{"/range": {"from": "8 in", "to": "60 in", "step": "3 in"}}
@cheapest {"/options/0/plan/planned_depth": "72 in"}
{"/options/0/cost/post": 39}
{"/options/0/cost/fixed": 100}
{"/options/0/cost/concrete/price": 10}
{"/options/0/cost/concrete/per": "2 ft3"}
{"/options/0/cost/digging/price": 13}
{"/options/0/cost/digging/per": "2 ft"}
{"/options/0/name": "another"}
@what matters {}
{"/band": 0.2}
{"/step": 0.02}
{"/plan/site/speed": "120 mph"}
@how often {}
{"/inputs/0/input": "panel_height"}
{"/inputs/0/distribution": {"kind": "normal", "mean": 0.8, "deviation": 0.12}}
{"/inputs/0/distribution": {"kind": "lognormal", "mean": 0.8, "deviation": 0.12}}
{"/inputs/0/distribution": {"kind": "uniform", "least": 0.6, "most": 1.0}}
{"/inputs/0/distribution/mean": 0.85}
{"/inputs/0/distribution/deviation": 0.15}
{"/inputs/1/distribution": {"kind": "normal", "mean": 1.2, "deviation": 0.3}}
{"/shares/0": 0.9}
@what rules are worth {}
{"/plan/fence/runs/0/panel/height": "5 ft"}
{"/plan/design/ground/class": 3}
"#;

const OTHER_ANSWER: &str = r#"
@everything {"/checks": {"frost": {"depth": "30 in", "friction": {"basis": "allowable", "stress": "300 psf"}}}}
{"/checks/frost/friction/basis": "tested"}
@pressures in Europe {}
{"/site/shelter_factor": 0.7}
"#;

#[test]
fn every_field_of_a_plan_reaches_the_result() {
    check(OTHER_RESULT, |a, b| a.get("result") == b.get("result"));
}

#[test]
fn every_choice_of_a_plan_reaches_the_answer() {
    check(OTHER_ANSWER, |a, b| a == b);
}

fn answer(request: &Value) -> Value {
    let answer = Answer::to(&node(request));
    let problems: Vec<_> = answer.problems().map(ToString::to_string).collect();
    assert!(problems.is_empty(), "{problems:?}");
    serde_json::to_value(answer.node()).unwrap()
}

fn with(id: &str, changes: &Value) -> Value {
    let mut request = super::edges_wire_fields::example(id);
    change(&mut request, changes.as_object().unwrap());
    request
}

fn near(found: &Value, expected: f64) {
    let found = found.as_f64().unwrap();
    assert!(
        (found - expected).abs() <= 1e-9 * expected.abs(),
        "{found} {expected}"
    );
}

/// Cost by hand: once, and for each of n posts a price, concrete of a round hole of
/// 14 in by 6 ft without the post of 3.5 in, and its depth.
#[test]
fn a_cost_is_the_sum_of_its_parts() {
    let request = with(
        "cheapest",
        &json!({"/options/0/cost": {"fixed": 250, "post": 38,
            "concrete": {"price": 9, "per": "2 ft3"}, "digging": {"price": 12, "per": "3 ft"}},
            "/options/0/plan/planned_depth": "72 in"}),
    );
    let found = answer(&request);
    let options = found["result"]["options"].as_array().unwrap();
    let option = options.iter().find(|o| o["name"] == "14 in hole").unwrap();
    let (posts, depth) = (72.0 / 6.0 + 1.0, 6.0);
    let square = (14.0_f64.powi(2) - 3.5_f64.powi(2)) / 144.0;
    let volume = std::f64::consts::PI / 4.0 * square * depth;
    let each = 38.0 + 9.0 * volume / 2.0 + 12.0 * depth / 3.0;
    near(&option["cost"], 250.0 + posts * each);
    // Prices alone.
    for (part, expected) in [
        (json!({"fixed": 7}), 7.0),
        (json!({"post": 3}), 3.0 * posts),
        (
            json!({"concrete": {"price": 2, "per": "1 ft3"}}),
            2.0 * volume * posts,
        ),
        (
            json!({"digging": {"price": 2, "per": "12 in"}}),
            2.0 * depth * posts,
        ),
    ] {
        let found = answer(&with(
            "cheapest",
            &json!({"/options/0/cost": part, "/options/0/plan/planned_depth": "72 in"}),
        ));
        let options = found["result"]["options"].as_array().unwrap();
        let option = options.iter().find(|o| o["name"] == "14 in hole").unwrap();
        near(&option["cost"], expected);
    }
}

/// The sums of a schedule are those of its posts, and it names the worst.
#[test]
fn a_schedule_adds_up() {
    for (id, changes) in [
        ("a fence", json!({})),
        ("a fence", json!({"/planned_depth": "40 in"})),
        ("everything", json!({"/checks/axial": {}})),
        ("everything", json!({"/fence/runs/0/panel/weight": "3 psf"})),
        (
            "everything",
            json!({"/checks": null, "/posts": [{"number": 5, "checks": {"axial": {}}},
                {"number": 6, "checks": {"axial": {}}}]}),
        ),
    ] {
        let found = answer(&with(id, &changes));
        let result = &found["result"];
        let posts = result["posts"].as_array().unwrap();
        assert_eq!(result["count"], posts.len());
        let failing = posts.iter().filter(|post| post["passes"] == false).count();
        assert_eq!(result["failing"], failing);
        let of = |post: &Value| post["utilization"].as_f64().unwrap();
        let most = posts.iter().map(of).fold(0.0, f64::max);
        near(&result["utilization"], most);
        let worst = posts.iter().find(|post| of(post) >= most).unwrap();
        assert_eq!(result["worst_post"], worst["number"]);
        let concrete = |post: &Value| post["check"]["concrete"]["value"].as_f64().unwrap_or(0.0);
        near(
            &result["concrete"]["value"],
            posts.iter().map(concrete).sum(),
        );
        let refused = |post: &Value| post["more"]["not_checked"].as_array().map_or(0, Vec::len);
        assert_eq!(
            result["not_checked"],
            posts.iter().map(refused).sum::<usize>(),
            "{id} {changes}"
        );
        let numbers: Vec<_> = posts.iter().map(|post| post["number"].as_u64()).collect();
        let expected: Vec<_> = (1..=posts.len() as u64).map(Some).collect();
        assert_eq!(numbers, expected);
        if let Some(asked) = result["carry"]["value"].as_f64() {
            let bags = |post: &Value| post["more"]["bags"].as_f64().unwrap_or(0.0);
            let each: f64 = posts.iter().map(bags).sum();
            // Bought once for the whole fence, the bags are no more than post by post.
            let all = result["bags"].as_f64().unwrap();
            assert!(
                all <= each && all > each - result["count"].as_f64().unwrap(),
                "{all} {each}"
            );
            near(&result["carry"]["value"], all * 80.0);
            assert!(asked > 0.0 || result["without_depth"] == result["count"]);
        }
    }
}

/// A kind of post without a depth of its own stands as deep as the plan says, and a
/// single post as its kind.
#[test]
fn a_depth_of_the_plan_is_that_of_its_kinds() {
    // 66 in for all, 48 in for gate posts, 38 in for post 3.
    for (changes, gate, line) in [
        (json!({}), Some(48.0), Some(66.0)),
        (
            json!({"/kinds/0/planned_depth": null}),
            Some(66.0),
            Some(66.0),
        ),
        (json!({"/planned_depth": null}), Some(48.0), None),
        (
            json!({"/planned_depth": null, "/kinds/0/planned_depth": null}),
            None,
            None,
        ),
    ] {
        let found = answer(&with("a fence", &changes));
        let posts = found["result"]["posts"].as_array().unwrap();
        for post in posts.iter().filter(|post| post["number"] != 3) {
            let expected = if post["post"] == "gate" { gate } else { line };
            let check = &post["check"];
            assert_eq!(
                check["embedment"].is_null(),
                expected.is_none(),
                "{changes}"
            );
            match expected {
                Some(depth) => near(&check["planned_depth"]["value"], depth / 12.0),
                None => assert!(check["planned_depth"].is_null()),
            }
        }
    }
}

/// What single posts take is summed too, and how many posts are not in the sum is said.
#[test]
fn quantities_of_single_posts_are_summed() {
    let asked = json!({"materials": {"bag": {"weight": "80 lb"}}});
    let post = |number: usize| json!({"number": number, "checks": asked.clone()});
    // Posts 3 and 5 alone; all posts; all but those of which something else is asked.
    let other = json!([{"number": 3, "checks": {}}, {"number": 5, "checks": {}}]);
    for (changes, expected) in [
        (
            json!({"/checks": null, "/posts": [post(3), post(5)]}),
            vec![3, 5],
        ),
        (json!({"/checks": asked.clone()}), vec![]),
        (json!({"/checks": asked.clone(), "/posts": other}), vec![]),
    ] {
        let found = answer(&with("everything", &changes));
        let result = &found["result"];
        let posts = result["posts"].as_array().unwrap();
        let bags: Vec<_> = posts
            .iter()
            .filter_map(|post| Some((post["number"].as_u64()?, post["more"]["bags"].as_f64()?)))
            .collect();
        if !expected.is_empty() {
            let numbers: Vec<_> = bags.iter().map(|(number, _)| *number).collect();
            assert_eq!(numbers, expected);
        }
        let sum: f64 = bags.iter().map(|(_, bags)| bags).sum();
        near(&result["bags"], sum);
        near(&result["carry"]["value"], 80.0 * sum);
        assert_eq!(result["left_out"], posts.len() - bags.len(), "{changes}");
    }
    let none = answer(&with("everything", &json!({"/checks": null})));
    assert!(none["result"]["left_out"].is_null() && none["result"]["bags"].is_null());
}

/// On a second run the posts stand as far along as their spacing.
#[test]
fn posts_stand_on_their_run() {
    let found = answer(&with("a fence", &json!({"/kinds": null, "/posts": null})));
    let posts = found["result"]["posts"].as_array().unwrap();
    let last = posts.last().unwrap();
    assert_eq!(last["run"], 2);
    near(&last["at"]["value"], 48.0);
    assert_eq!(last["post"], "end");
    near(&last["tributary_width"]["value"], 4.0);
    near(&posts[1]["tributary_width"]["value"], 8.0);
    assert_eq!(posts[0]["run"], 1);
    let corner = posts.iter().find(|post| post["post"] == "corner").unwrap();
    // 52 ft after the gate in seven bays, half of one; half of 8 ft.
    near(&corner["tributary_width"]["value"], 52.0 / 7.0 / 2.0 + 4.0);
}

/// The same request in other units is answered with the same quantities.
#[test]
fn units_change_nothing_but_the_units() {
    fn same(first: &Node, second: &Node, path: &str) {
        match (first, second) {
            (Node::Object(a), Node::Object(b)) => {
                assert_eq!(a.len(), b.len(), "{path}");
                let quantity = |node: &Node| {
                    let value = node.get("value").and_then(Node::as_number)?;
                    let unit = node.get("unit").and_then(Node::as_text)?;
                    super::edges_wire_plan::si(value, unit)
                };
                if let (Some(x), Some(y)) = (quantity(first), quantity(second)) {
                    assert!((x - y).abs() <= 1e-12 * x.abs().max(1e-9), "{path} {x} {y}");
                    return;
                }
                for ((name, x), (other, y)) in a.iter().zip(b) {
                    assert_eq!(name, other, "{path}");
                    // Depths to dig are whole steps of 1 in or 25 mm, and quantities
                    // are to them.
                    let to_dig = ["depth_to_dig", "concrete", "hole", "fill", "bags", "carry"];
                    if path.starts_with("fence_schedule") && to_dig.contains(&&**name) {
                        continue;
                    }
                    same(x, y, &format!("{path}/{name}"));
                }
            }
            (Node::List(a), Node::List(b)) => {
                assert_eq!(a.len(), b.len(), "{path}");
                for (index, (x, y)) in a.iter().zip(b).enumerate() {
                    same(x, y, &format!("{path}/{index}"));
                }
            }
            (Node::Text(_), Node::Text(_)) => {}
            _ => assert_eq!(first, second, "{path}"),
        }
    }
    for line in include_str!("../../examples/embed/requests.jsonl").lines() {
        let mut request: Value = serde_json::from_str(line).unwrap();
        // Remedies are tried in the steps, and by the augers, of the unit system.
        if request["calculate"] == "remedies" {
            continue;
        }
        let id = format!(
            "{} {}",
            request["calculate"].as_str().unwrap(),
            request["id"]
        );
        let both = ["us", "si"].map(|units| {
            request["units"] = json!(units);
            Answer::to(&node(&request))
        });
        let [us, si] = both.each_ref().map(|a| a.node().get("result").unwrap());
        same(us, si, &id);
    }
}

/// A quantity in SI base units, by the parser of the library where it knows the unit.
pub(super) fn si(value: f64, unit: &str) -> Option<f64> {
    use groundline::units::{
        FlexuralRigidity, Force, ForcePerVolume, Length, LineLoad, Measurable, Pressure, Torque,
        Velocity, Volume, parse,
    };
    let text = format!("{value} {unit}");
    macro_rules! first_of {
        ($($kind:ident),+) => { None$(.or_else(|| parse::<$kind>(&text).ok().map(Measurable::si)))+ };
    }
    first_of!(
        Length,
        Force,
        Torque,
        Pressure,
        Volume,
        LineLoad,
        ForcePerVolume,
        Velocity,
        FlexuralRigidity
    )
}

/// Where the ground ends before the load is carried, that is told, not a depth.
#[test]
fn more_than_the_ground_there_is() {
    let found = answer(&with(
        "methods",
        &json!({"/shear": "60 kN", "/moment": "60 kN-m", "/profile/layers/0/thickness": "1.2 m"}),
    ));
    let methods = found["result"]["methods"].as_array().unwrap();
    let told = methods.iter().filter(|method| {
        let Some(more) = method["required_more_than"]["value"].as_f64() else {
            return false;
        };
        assert!((more - 1.2).abs() < 1e-12 && method["required_depth"].is_null());
        true
    });
    assert!(told.count() > 1, "{methods:?}");
}

/// What stood there is told by its kind where it is no single value.
#[test]
fn kinds_of_data_are_told() {
    for (sent, kind) in [(json!([1]), "a list"), (json!(null), "nothing")] {
        let mut request = super::edges_wire_fields::example("rules");
        request["input"]["height"] = sent;
        let answer = Answer::to(&node(&request));
        let value = answer.problems().next().and_then(|p| p.value.clone());
        assert_eq!(value.as_deref(), Some(kind));
    }
    let mut request = super::edges_wire_fields::example("a lean");
    request["input"]["limit"] = json!({ "a": 1 });
    let answer = Answer::to(&node(&request));
    let value = answer.problems().next().and_then(|p| p.value.clone());
    assert_eq!(value.as_deref(), Some("an object"));
}

/// A curve is fitted to a hundred readings at most.
#[test]
fn the_most_readings_of_a_curve() {
    let read = |count: usize, curve: Value| {
        let mut request = super::edges_wire_fields::example("a side pull");
        let reading = |index: usize| {
            json!({ "movement": format!("{} mm", index + 1),
                "load": format!("{} N", 100 + index) })
        };
        request["input"]["readings"] = (0..count).map(reading).collect();
        request["input"]["curve"] = curve;
        groundline::wire::Request::read(&node(&request)).is_ok()
    };
    assert!(read(100, json!("growing")) && !read(101, json!("growing")));
    assert!(read(101, Value::Null));
}
