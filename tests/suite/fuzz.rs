//! The bodies that `fuzz/` searches with, run on the inputs it kept and on some
//! at random.

mod draw;
mod profile;
mod units;
#[cfg(feature = "serde")]
mod wire;

use proptest::prelude::*;
use std::path::Path;

/// Every input kept for a target.
fn kept(target: &str, run: fn(&[u8])) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/fuzz");
    let mut count = 0;
    for entry in std::fs::read_dir(folder.join(target)).unwrap() {
        run(&std::fs::read(entry.unwrap().path()).unwrap());
        count += 1;
    }
    assert!(count > 5, "{count} inputs of {target}");
}

#[test]
fn kept_profiles() {
    kept("profile", profile::run);
}

#[test]
fn kept_units() {
    kept("units", units::run);
}

#[cfg(feature = "serde")]
#[test]
fn kept_requests() {
    kept("wire", wire::run);
}

proptest! {
    #[test]
    fn any_profile(data in prop::collection::vec(any::<u8>(), 0..150)) {
        profile::run(&data);
    }
}
