//! The bodies `fuzz/` searches with, on the inputs it kept and on some at
//! random: a part of each kept one replaced.

mod draw;
mod fence;
mod holds;
mod job;
mod planned;
mod profile;
mod units;
#[cfg(feature = "serde")]
mod wire;

use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::Index;
use std::path::Path;
use std::sync::LazyLock;

/// What is kept for a target.
fn kept(target: &str) -> Vec<Vec<u8>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/fuzz");
    let files = std::fs::read_dir(folder.join(target)).unwrap();
    let mut paths: Vec<_> = files.map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    assert!(paths.len() > 5, "{target}: {paths:?}");
    let read = |path| std::fs::read(path).unwrap();
    paths.into_iter().map(read).collect()
}

/// A kept input with a stretch of it replaced by a stretch of another, and some
/// bytes.
fn altered(kept: &'static [Vec<u8>]) -> impl Strategy<Value = Vec<u8>> {
    let place = any::<Index>;
    let few = vec((place(), any::<u8>()), 0..3);
    (
        place(),
        place(),
        [place(), place(), place()],
        0..12_usize,
        few,
    )
        .prop_map(|(one, other, [to, from, end], most, bytes)| {
            let other = other.get(kept);
            let mut input = one.get(kept).clone();
            let to = to.index(input.len() + 1);
            let cut = (to + end.index(most + 1)).min(input.len());
            let from = from.index(other.len() + 1);
            let stretch = &other[from..(from + most).min(other.len())];
            input.splice(to..cut, stretch.iter().copied());
            for (at, byte) in bytes {
                if !input.is_empty() {
                    let at = at.index(input.len());
                    input[at] = byte;
                }
            }
            input
        })
}

macro_rules! twins {
    ($( $(#[$only:meta])? $name:ident: $target:ident, $cases:literal; )+) => { $(
        $(#[$only])?
        mod $name {
            use super::*;

            static KEPT: LazyLock<Vec<Vec<u8>>> =
                LazyLock::new(|| kept(stringify!($target)));

            #[test]
            fn kept_inputs() {
                KEPT.iter().for_each(|input| $target::run(input));
            }

            proptest! {
                #![proptest_config(ProptestConfig::with_cases($cases))]

                #[test]
                fn kept_inputs_altered(input in altered(&KEPT)) {
                    $target::run(&input);
                }

                #[test]
                fn anything(input in vec(any::<u8>(), 0..400)) {
                    $target::run(&input);
                }
            }
        }
    )+ };
}

/// Kept requests that are read, as they are written, and every answer.
#[cfg(feature = "serde")]
#[test]
fn kept_requests_and_answers_obey_the_schemas() {
    use groundline::wire::{Answer, Node, Request, answer_schema, request_schema};
    let validator = |schema: Node| {
        let schema = serde_json::to_value(schema).unwrap();
        jsonschema::validator_for(&schema).unwrap()
    };
    let (requests, answers) = (validator(request_schema()), validator(answer_schema()));
    let mut answered = 0;
    for input in kept("wire") {
        let Ok(node) = serde_json::from_slice::<Node>(&input) else {
            continue;
        };
        let shown = String::from_utf8_lossy(&input);
        if let Ok(request) = Request::read(&node) {
            let written = serde_json::to_value(&request).unwrap();
            if let Err(why) = requests.validate(&written) {
                panic!("{why}: {written} of {shown}");
            }
        }
        let answer = Answer::to(&node);
        answered += usize::from(answer.result().is_some());
        let answer = serde_json::to_value(&answer).unwrap();
        if let Err(why) = answers.validate(&answer) {
            panic!("{why}: {answer} to {shown}");
        }
    }
    assert!(answered > 5, "{answered}");
}

twins! {
    quantities: units, 500;
    #[cfg(feature = "serde")]
    requests: wire, 120;
    jobs: job, 500;
    profiles: profile, 500;
    fences: fence, 300;
}
