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

twins! {
    quantities: units, 1000;
    #[cfg(feature = "serde")]
    requests: wire, 500;
    jobs: job, 300;
    profiles: profile, 1000;
    fences: fence, 500;
}
