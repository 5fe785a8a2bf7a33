#![no_main]

#[path = "../../tests/suite/fuzz/job.rs"]
mod body;
#[path = "../../tests/suite/fuzz/holds.rs"]
mod holds;
#[path = "../../tests/suite/fuzz/planned.rs"]
mod planned;
#[path = "../../examples/schedule/main.rs"]
#[allow(dead_code)]
mod schedule;

/// Where the tests have it.
mod schedule_example {
    pub(crate) use crate::schedule;
}

libfuzzer_sys::fuzz_target!(|data: &[u8]| body::run(data));
