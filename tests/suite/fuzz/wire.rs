//! Bytes as a request on the wire: never a panic, an answer that is JSON with
//! finite numbers, and the same answer from the request as it is written again.

use groundline::units::{Length, parse};
use groundline::wire::{Answer, Node, Request};

/// More posts than this are read and not computed: a fence of a mile tells no
/// more than a short one and takes a thousand times as long.
const MOST_POSTS: f64 = 12.0;
/// The same where a fence is checked dozens of times for one answer.
const MOST_BY_TRIALS: f64 = 4.0;

/// Runs one input, whatever it is.
pub(crate) fn run(data: &[u8]) {
    let Ok(node) = serde_json::from_slice::<Node>(data) else {
        return;
    };
    let request = match Request::read(&node) {
        Ok(request) => request,
        Err(problems) => {
            assert!(problems.iter().next().is_some(), "refused without a reason");
            sound(&Answer::to(&node));
            return;
        }
    };
    let written = json(&request);
    let again = match Request::read(&written) {
        Ok(again) => again,
        Err(problems) => panic!("refused what it wrote: {problems}\n{written:?}"),
    };
    assert_eq!(again.write(), request.write(), "written twice");
    assert_eq!(again, request, "read twice");
    if takes_long(&request, &written) {
        return;
    }
    let answer = request.answer();
    sound(&answer);
    // Of like requests a few are enough.
    if data.len().is_multiple_of(8) {
        assert_eq!(again.answer(), answer, "answered twice");
        let told = Answer::to(&node);
        sound(&told);
        assert_eq!(told.result(), answer.result(), "read and answered at once");
    }
}

/// What anything is on the wire, read back.
fn json(what: &impl serde::Serialize) -> Node {
    let text = serde_json::to_string(what).expect("it is written");
    serde_json::from_str(&text).expect("what is written is JSON")
}

fn sound(answer: &Answer) {
    assert_eq!(&json(answer), answer.node(), "read back from JSON");
    let refused = answer.problems().next().is_some();
    assert_eq!(answer.result().is_none(), refused, "a result or a reason");
    for part in ["result", "worksheets", "cautions"] {
        if let Some(node) = answer.node().get(part) {
            finite(part, node);
        }
    }
}

/// Numbers are finite, utilizations not negative.
fn finite(name: &str, node: &Node) {
    match node {
        Node::Number(value) => {
            assert!(value.is_finite(), "{name}: {value}");
            let negative = name == "utilization" && *value < 0.0;
            assert!(!negative, "{name}: {value}");
        }
        Node::Text(text) => {
            // What `Node::number` makes of a number that is not finite.
            assert_ne!(text, "not finite", "{name}");
            assert!(!text.contains("NaN"), "{name}: {text}");
        }
        Node::List(items) => items.iter().for_each(|item| finite(name, item)),
        Node::Object(fields) => {
            for (name, node) in fields {
                finite(name, node);
            }
        }
        _ => {}
    }
}

/// What would keep the search waiting: long fences, and readings that a whole
/// curve is fitted to.
fn takes_long(request: &Request, written: &Node) -> bool {
    let most = match request.calculate() {
        "side_pull" if written.at("input.curve").is_some() => return true,
        "sensitivity" | "uncertainty" | "cheapest_option" => MOST_BY_TRIALS,
        name if name.starts_with("greatest") || name.starts_with("smallest") => MOST_BY_TRIALS,
        _ => MOST_POSTS,
    };
    posts(written) > most
}

/// About how many posts the fences of a request have together.
fn posts(node: &Node) -> f64 {
    let length = |name| {
        let text = node.get(name).and_then(Node::as_text)?;
        Some(parse::<Length>(text).ok()?.value)
    };
    let inside = match node {
        Node::List(items) => items.iter().map(posts).sum(),
        Node::Object(fields) => fields.iter().map(|(_, node)| posts(node)).sum(),
        _ => 0.0,
    };
    match (length("length"), length("spacing")) {
        (Some(length), Some(spacing)) => inside + 1.0 + length / spacing,
        _ => inside,
    }
}
