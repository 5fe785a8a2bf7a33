#![no_main]

#[path = "../../tests/suite/fuzz/profile.rs"]
mod body;
#[path = "../../tests/suite/fuzz/draw.rs"]
mod draw;
#[path = "../../tests/suite/fuzz/holds.rs"]
mod holds;

libfuzzer_sys::fuzz_target!(|data: &[u8]| body::run(data));
