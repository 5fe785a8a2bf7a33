#![no_main]

#[path = "../../tests/suite/fuzz/fence.rs"]
mod body;
#[path = "../../tests/suite/fuzz/draw.rs"]
mod draw;
#[path = "../../tests/suite/fuzz/holds.rs"]
mod holds;
#[path = "../../tests/suite/fuzz/planned.rs"]
mod planned;

libfuzzer_sys::fuzz_target!(|data: &[u8]| body::run(data));
