#![no_main]

#[path = "../../tests/suite/fuzz/units.rs"]
mod body;

libfuzzer_sys::fuzz_target!(|data: &[u8]| body::run(data));
