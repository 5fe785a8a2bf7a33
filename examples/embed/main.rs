//! Requests in, answers out, a line each: the checks for any language.
//!
//! Reads JSON Lines from standard input and answers each line with one line on
//! standard output, in the same order, as soon as it can. A bad line gets an
//! answer that says what is wrong with it; blank lines are skipped. All cores
//! are used. Memory is bounded on an endless stream: at most 72 MB of lines that
//! wait, 32 MB of answers that wait behind a longer one, and the work and the answer
//! of one line a thread, however long the answer is.
//!
//! `--schema` prints the JSON Schema of requests, `--answer-schema` that of
//! answers, `--names` what can be calculated, `--threads N` uses N cores.

mod batch;
mod lines;

use groundline::wire::{Answer, Input, Node, answer_schema, request_schema};
use lines::{Line, Lines};
use std::io::{self, BufWriter, Write};
use std::process::ExitCode;
use std::sync::mpsc::{Receiver, sync_channel};
use std::thread;

/// Lines that are in work at once, and bytes of them.
const BATCH: usize = 1_024;
const BATCH_BYTES: usize = 8 << 20;

/// Lines that wait.
const WAITING: usize = 64;

/// Bytes of answers that wait to be written before work on more lines begins.
const ANSWER_BYTES: usize = 32 << 20;

/// A thread more for so many lines: fewer are answered sooner than handed out.
const LINES_A_THREAD: usize = 16;

/// More threads than this help nowhere.
const MOST_THREADS: usize = 1_024;

/// Answers one line, whatever it is.
fn answer(line: &Line) -> String {
    let bytes = match line {
        Line::Whole(bytes) => bytes,
        Line::TooLong => return write(&Answer::to_broken("the line is longer than 1 MB")),
    };
    // Some programs mark the start of UTF-8.
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    let answered = match std::str::from_utf8(bytes) {
        Err(why) => Answer::to_broken(format_args!("not UTF-8: {why}")),
        Ok(text) => match serde_json::from_str::<Node>(text) {
            Err(why) => Answer::to_broken(format_args!("not JSON: {why}")),
            Ok(request) => Answer::to(&request),
        },
    };
    write(&answered)
}

fn write(answer: &Answer) -> String {
    serde_json::to_string(answer).unwrap_or_else(|why| {
        let text = serde_json::Value::from(why.to_string());
        format!("{{\"version\":1,\"errors\":[{{\"path\":\"\",\"allowed\":{text}}}]}}")
    })
}

/// Answers batches as they come: one line if there is but one, so that who
/// waits for an answer gets it.
fn serve(lines: &Receiver<io::Result<Line>>, out: impl Write) -> io::Result<()> {
    let mut out = BufWriter::new(out);
    let mut batch = Vec::with_capacity(BATCH);
    while let Ok(first) = lines.recv() {
        let first = first?;
        let mut bytes = first.len();
        batch.push(first);
        while batch.len() < BATCH && bytes < BATCH_BYTES {
            let Ok(next) = lines.try_recv() else { break };
            let next = next?;
            bytes += next.len();
            batch.push(next);
        }
        let threads = rayon::current_num_threads().min(batch.len().div_ceil(LINES_A_THREAD));
        batch::in_order(&batch, threads, ANSWER_BYTES, answer, |line| {
            writeln!(out, "{line}")
        })?;
        out.flush()?;
        batch.clear();
    }
    Ok(())
}

fn print(node: &Node) -> io::Result<()> {
    let text = serde_json::to_string_pretty(node).map_err(io::Error::other)?;
    writeln!(io::stdout(), "{text}")
}

fn run() -> io::Result<()> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = arguments.iter().map(String::as_str).collect();
    let threads = match words.as_slice() {
        [] => 0,
        ["--schema"] => return print(&request_schema()),
        ["--answer-schema"] => return print(&answer_schema()),
        ["--names"] => return writeln!(io::stdout(), "{}", Input::NAMES.join("\n")),
        ["--threads", count] => count.parse().map_err(|_| {
            let text = format!("--threads {count}: give a whole number");
            io::Error::new(io::ErrorKind::InvalidInput, text)
        })?,
        other => {
            let text = format!(
                "{}: give --schema, --answer-schema, --names or --threads N, or nothing",
                other.join(" ")
            );
            return Err(io::Error::new(io::ErrorKind::InvalidInput, text));
        }
    };
    rayon::ThreadPoolBuilder::new()
        .num_threads(threads.min(MOST_THREADS))
        .build_global()
        .map_err(io::Error::other)?;
    let (send, receive) = sync_channel(WAITING);
    thread::spawn(move || {
        for line in Lines::new(io::stdin().lock()) {
            if send.send(line).is_err() {
                break;
            }
        }
    });
    serve(&receive, io::stdout().lock())
}

fn main() -> ExitCode {
    match run() {
        Ok(()) => ExitCode::SUCCESS,
        // Who read the answers has gone: nothing is wrong.
        Err(why) if why.kind() == io::ErrorKind::BrokenPipe => ExitCode::SUCCESS,
        Err(why) => {
            eprintln!("{why}");
            ExitCode::FAILURE
        }
    }
}
