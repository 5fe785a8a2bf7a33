//! How many requests a second: whole-post checks as lines of JSON, on one core
//! and on two, and how much of it is JSON.
//!
//! ```text
//! cargo bench --bench embed --features serde
//! ```

#![allow(clippy::unwrap_used, reason = "inputs are fixed")]

use groundline::wire::{Answer, Node, Request};
use rayon::prelude::*;
use std::hint::black_box;
use std::time::Instant;

const COUNT: u32 = 4_096;
const ROUNDS: usize = 30;

/// Posts that differ, so that nothing is computed twice.
fn lines() -> Vec<String> {
    let line = |i: u32| {
        let shear = 100.0 + f64::from(i % 97);
        let depth = 24.0 + f64::from(i % 41);
        format!(
            "{{\"version\":1,\"id\":{i},\"calculate\":\"post_check\",\"units\":\"us\",\"input\":{{\
             \"design\":{{\"ground\":{{\"class\":4}},\"post\":{{\"kind\":\"timber\",\
             \"side\":\"5.5 in\",\"species\":\"southern_pine\",\"grade\":\"no_2\",\
             \"treatment\":\"not_incised\"}},\"foundation\":{{\"kind\":\"concrete\",\"hole\":\
             {{\"shape\":\"round\",\"size\":\"12 in\"}}}}}},\"shear\":\"{shear} lb\",\
             \"moment\":{{\"value\":620.5,\"unit\":\"lb-ft\"}},\"axial\":\"80 lb\",\
             \"planned_depth\":\"{depth} in\"}}}}"
        )
    };
    (0..COUNT).map(line).collect()
}

/// One line as `embed` answers it.
fn answered(line: &str) -> String {
    let request: Node = serde_json::from_str(line).unwrap();
    serde_json::to_string(&Answer::to(&request)).unwrap()
}

/// Best seconds of many rounds.
fn best(mut work: impl FnMut()) -> f64 {
    let mut best = f64::MAX;
    for _ in 0..ROUNDS {
        let start = Instant::now();
        work();
        best = best.min(start.elapsed().as_secs_f64());
    }
    best
}

fn main() {
    let lines = lines();
    let requests: Vec<Node> = lines
        .iter()
        .map(|line| serde_json::from_str(line).unwrap())
        .collect();
    let read: Vec<Request> = requests.iter().map(|n| Request::read(n).unwrap()).collect();
    let answers: Vec<Answer> = read.iter().map(Request::answer).collect();
    let json = best(|| {
        for (line, answer) in lines.iter().zip(&answers) {
            black_box(serde_json::from_str::<Node>(line).unwrap());
            black_box(serde_json::to_string(answer).unwrap());
        }
    });
    let reading = best(|| {
        for node in &requests {
            black_box(Request::read(node).unwrap());
        }
    });
    let answering = best(|| {
        for request in &read {
            black_box(request.answer());
        }
    });
    let each = |seconds: f64| seconds / f64::from(COUNT) * 1e6;
    println!("JSON alone           {:7.2} us a request", each(json));
    println!("reading, validating  {:7.2} us", each(reading));
    println!("computing, answering {:7.2} us", each(answering));
    let mut first = 0.0;
    for threads in [1, 2] {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads);
        let pool = pool.build().unwrap();
        let whole = best(|| {
            pool.install(|| {
                let all: Vec<String> = lines
                    .par_iter()
                    .with_min_len(16)
                    .map(|l| answered(l))
                    .collect();
                black_box(all);
            });
        });
        let rate = f64::from(COUNT) / whole;
        if threads == 1 {
            first = rate;
        }
        println!(
            "{threads} thread(s)          {rate:9.0} requests a second, {:.2} times one",
            rate / first
        );
    }
}
