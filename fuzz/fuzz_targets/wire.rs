#![no_main]

#[path = "../../tests/suite/fuzz/wire.rs"]
mod body;

libfuzzer_sys::fuzz_target!(|data: &[u8]| body::run(data));
