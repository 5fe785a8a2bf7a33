//! How two runs of the same algorithm are compared: by the clock, or by
//! instructions, which the rest of the machine does not disturb.

use std::env::{args, current_exe};
use std::hint::black_box;
use std::process::{Command, exit};
use std::time::Instant;

const ROUNDS: usize = 400;

/// What is measured.
pub(crate) enum Race {
    /// Best nanoseconds of many rounds in turn.
    Clock,
    /// Instructions of one round, by valgrind.
    Count,
    /// One round of one side: what valgrind is given to run.
    Once { name: String, typed: bool },
}

impl Race {
    pub(crate) fn asked_for() -> Self {
        let words: Vec<String> = args().skip(1).filter(|word| word != "--bench").collect();
        let words: Vec<&str> = words.iter().map(String::as_str).collect();
        match words.as_slice() {
            [] => Self::Clock,
            ["--instructions"] => Self::Count,
            ["--once", name, side] => Self::Once {
                name: (*name).to_owned(),
                typed: *side == "typed",
            },
            _ => stop("usage: cargo bench --bench ratio [-- --instructions]"),
        }
    }

    /// Runs both over so many items, prints what each costs an item, and gives
    /// back the typed figure.
    pub(crate) fn run(
        &self,
        name: &str,
        items: usize,
        mut typed: impl FnMut() -> f64,
        mut bare: impl FnMut() -> f64,
    ) -> Option<f64> {
        let figures = match self {
            Self::Clock => clock(&mut typed, &mut bare),
            Self::Count => (instructions(name, "typed"), instructions(name, "bare")),
            Self::Once { name: asked, .. } if asked != name => return None,
            Self::Once { typed: true, .. } => once(&mut typed),
            Self::Once { typed: false, .. } => once(&mut bare),
        };
        let each = 1.0 / f64::from(u32::try_from(items).unwrap());
        let (typed, bare) = (figures.0 * each, figures.1 * each);
        let unit = if matches!(self, Self::Count) {
            ""
        } else {
            " ns"
        };
        println!(
            "{name:<36} typed {typed:9.1}{unit}   bare f64 {bare:9.1}{unit}   ratio {:.3}",
            typed / bare
        );
        Some(typed)
    }
}

fn clock(typed: &mut dyn FnMut() -> f64, bare: &mut dyn FnMut() -> f64) -> (f64, f64) {
    let (sum_typed, sum_bare) = (typed(), bare());
    assert!(
        (sum_typed / sum_bare - 1.0).abs() < 1e-12,
        "the twins disagree: {sum_typed} {sum_bare}"
    );
    let mut best = (f64::MAX, f64::MAX);
    for _ in 0..ROUNDS {
        let start = Instant::now();
        black_box(typed());
        best.0 = best.0.min(start.elapsed().as_secs_f64());
        let start = Instant::now();
        black_box(bare());
        best.1 = best.1.min(start.elapsed().as_secs_f64());
    }
    (best.0 * 1e9, best.1 * 1e9)
}

/// The function whose instructions are counted.
#[inline(never)]
fn counted(run: &mut dyn FnMut() -> f64) -> f64 {
    black_box(run())
}

fn once(run: &mut dyn FnMut() -> f64) -> ! {
    black_box(run());
    counted(run);
    exit(0)
}

/// Instructions of one round of one side, counted in a process of its own.
fn instructions(name: &str, side: &str) -> f64 {
    let output = Command::new("valgrind")
        .args(["--tool=callgrind", "--callgrind-out-file=/dev/null"])
        .args(["--collect-atstart=no", "--toggle-collect=*race::counted*"])
        .arg(current_exe().unwrap())
        .args(["--once", name, side])
        .output()
        .unwrap_or_else(|why| stop(&format!("valgrind is not on the PATH: {why}")));
    let said = String::from_utf8_lossy(&output.stderr);
    let line = said.lines().find(|line| line.contains("Collected :"));
    let count = line.and_then(|line| line.rsplit(' ').next()?.parse().ok());
    let count = count.filter(|count| *count > 0.0);
    count.unwrap_or_else(|| stop(&format!("valgrind counted nothing: {said}")))
}

fn stop(why: &str) -> ! {
    eprintln!("{why}");
    exit(1)
}
