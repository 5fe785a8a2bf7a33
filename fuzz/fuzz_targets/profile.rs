#![no_main]

#[path = "../../tests/suite/fuzz/profile.rs"]
mod body;
#[path = "../../tests/suite/fuzz/draw.rs"]
mod draw;

libfuzzer_sys::fuzz_target!(|data: &[u8]| body::run(data));
