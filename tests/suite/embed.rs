//! The example `embed`: lines in, lines out, whatever the lines are.

use groundline::wire::{Answer, Node};
use serde_json::{Value, json};
use std::io::{BufRead, BufReader, Write};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

#[path = "../../examples/embed/batch.rs"]
mod batch;
#[path = "../../examples/embed/lines.rs"]
mod lines;

const REQUESTS: &str = include_str!("../../examples/embed/requests.jsonl");
const README: &str = include_str!("../../README.md");

/// The example as cargo built it beside this test.
fn embed() -> PathBuf {
    let mut path = std::env::current_exe().unwrap();
    path.pop();
    if path.ends_with("deps") {
        path.pop();
    }
    let name = format!("embed{}", std::env::consts::EXE_SUFFIX);
    let path = path.join("examples").join(name);
    assert!(path.exists(), "{} is not built", path.display());
    path
}

/// Feeds the example and reads all its lines.
fn fed(arguments: &[&str], input: &[u8]) -> Vec<Value> {
    let mut child = Command::new(embed())
        .args(arguments)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let mut stdin = child.stdin.take().unwrap();
    let input = input.to_vec();
    let feeder = std::thread::spawn(move || stdin.write_all(&input));
    let out = child.wait_with_output().unwrap();
    feeder.join().unwrap().unwrap();
    assert!(out.status.success());
    let text = String::from_utf8(out.stdout).unwrap();
    let read = |line| serde_json::from_str(line).unwrap();
    text.lines().map(read).collect()
}

#[test]
fn answers_come_in_order_and_a_bad_line_stops_nothing() {
    let good = json!({
        "version": 1, "calculate": "depth_rules", "input": { "height": "6 ft" }
    });
    let mut input = Vec::new();
    for number in 0..3_000 {
        match number % 5 {
            0 => input.extend_from_slice(b"{\"version\":1,"),
            1 => input.extend_from_slice(b"\xff\xfe not text"),
            2 => input.extend_from_slice("[".repeat(5_000).as_bytes()),
            _ => {
                let mut request = good.clone();
                request["id"] = json!(number);
                input.extend_from_slice(request.to_string().as_bytes());
            }
        }
        input.extend_from_slice(if number % 7 == 0 {
            b"\r\n\n  \n"
        } else {
            b"\n"
        });
    }
    for arguments in [&[][..], &["--threads", "1"], &["--threads", "5"]] {
        let answers = fed(arguments, &input);
        assert_eq!(answers.len(), 3_000);
        for (number, answer) in answers.iter().enumerate() {
            if number % 5 < 3 {
                let says = ["not JSON", "not UTF-8", "not JSON"][number % 5];
                let allowed = answer["errors"][0]["allowed"].as_str().unwrap();
                assert!(allowed.contains(says), "{allowed}");
            } else {
                assert_eq!(answer["id"], json!(number));
                assert!(answer["result"].is_object());
            }
        }
    }
}

#[test]
fn every_line_has_the_answer_of_the_library() {
    // The mark of UTF-8 that some programs write is passed over.
    let marked = [b"\xef\xbb\xbf", REQUESTS.as_bytes()].concat();
    let answers = fed(&[], &marked);
    assert_eq!(answers.len(), REQUESTS.lines().count());
    for (line, answer) in REQUESTS.lines().zip(answers) {
        let request: Node = serde_json::from_str(line).unwrap();
        let expected = serde_json::to_value(Answer::to(&request)).unwrap();
        assert!(answer == expected, "the answer to {line} differs");
    }
}

/// Who asks one question and waits gets its answer before the next.
#[test]
fn an_answer_does_not_wait_for_more_questions() {
    let mut child = Command::new(embed())
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let mut stdin = child.stdin.take().unwrap();
    let mut stdout = BufReader::new(child.stdout.take().unwrap());
    for line in REQUESTS.lines().take(5) {
        writeln!(stdin, "{line}").unwrap();
        let mut answer = String::new();
        stdout.read_line(&mut answer).unwrap();
        assert!(answer.contains("\"result\""));
    }
    drop(stdin);
    assert!(child.wait().unwrap().success());
}

#[test]
fn lines_are_cut_at_their_limit_and_memory_with_them() {
    use lines::{LONGEST, Line, Lines};
    let mut text = vec![b'x'; LONGEST + 1];
    text.extend_from_slice(b"\nshort\n\n \r\n");
    text.extend(std::iter::repeat_n(b'y', LONGEST));
    let read: Vec<_> = Lines::new(&text[..]).map(Result::unwrap).collect();
    assert_eq!(read.len(), 3);
    assert_eq!(read.iter().map(Line::len).sum::<usize>(), LONGEST + 5);
    assert_eq!(read[0], Line::TooLong);
    assert_eq!(read[1], Line::Whole(b"short".to_vec()));
    assert_eq!(read[2], Line::Whole(vec![b'y'; LONGEST]));
    // A reader that gives one byte at a time sees the same lines.
    let few = BufReader::with_capacity(1, &b"a\nbc\n\nd"[..]);
    let read: Vec<_> = Lines::new(few).map(Result::unwrap).collect();
    let whole = |text: &[u8]| Line::Whole(text.to_vec());
    assert_eq!(read, [whole(b"a"), whole(b"bc"), whole(b"d")]);
    assert_eq!(Lines::new(&b""[..]).count(), 0);
}

/// Answers that wait take no more than the budget and one answer a thread, come in
/// order, and a long one in front holds back the work, not the memory.
#[test]
fn answers_that_wait_are_bounded() {
    use std::sync::atomic::{AtomicUsize, Ordering};
    const SIZE: usize = 1_000;
    const BUDGET: usize = 10 * SIZE;
    const THREADS: usize = 4;
    // As many threads whatever the machine has.
    let pool = rayon::ThreadPoolBuilder::new()
        .num_threads(THREADS)
        .build()
        .unwrap();
    let held = AtomicUsize::new(0);
    let peak = AtomicUsize::new(0);
    let lines: Vec<usize> = (0..500).collect();
    let mut written = Vec::new();
    pool.install(|| {
        batch::in_order(
            &lines,
            THREADS,
            BUDGET,
            |line| {
                if line % 100 == 0 {
                    std::thread::sleep(std::time::Duration::from_millis(50));
                }
                let now = SIZE + held.fetch_add(SIZE, Ordering::SeqCst);
                peak.fetch_max(now, Ordering::SeqCst);
                format!("{line:0SIZE$}")
            },
            |answer| {
                held.fetch_sub(answer.len(), Ordering::SeqCst);
                written.push(answer.parse::<usize>().unwrap());
                Ok(())
            },
        )
    })
    .unwrap();
    assert_eq!(written, lines);
    let peak = peak.into_inner();
    assert!(peak <= BUDGET + THREADS * SIZE, "{peak}");
    // The threads did run ahead of the slow lines.
    assert!(peak >= BUDGET / 2, "{peak}");
}

/// A reader that has gone ends the work: no thread waits for ever.
#[test]
fn work_ends_where_nothing_can_be_written() {
    use std::sync::atomic::{AtomicUsize, Ordering};
    let lines: Vec<usize> = (0..10_000).collect();
    let answered = AtomicUsize::new(0);
    let error = batch::in_order(
        &lines,
        2,
        100,
        |_| {
            answered.fetch_add(1, Ordering::Relaxed);
            "x".repeat(60)
        },
        |_| Err(std::io::ErrorKind::BrokenPipe.into()),
    )
    .unwrap_err();
    assert_eq!(error.kind(), std::io::ErrorKind::BrokenPipe);
    assert!(answered.into_inner() < 100);
}

#[test]
fn nonsense_flags_are_refused_in_one_line() {
    for arguments in [&["--thread", "2"][..], &["--threads", "two"], &["x"]] {
        let out = Command::new(embed()).args(arguments).output().unwrap();
        assert!(!out.status.success());
        assert_eq!(String::from_utf8(out.stderr).unwrap().lines().count(), 1);
    }
}

/// The block of the README in a language, at most five lines.
fn block(language: &str) -> String {
    let start = format!("```{language}\n");
    let (_, rest) = README.split_once(&start).unwrap();
    let (code, _) = rest.split_once("```").unwrap();
    assert!(code.lines().count() <= 5, "{code}");
    code.to_owned()
}

/// Runs a block of the README with an interpreter, if there is one.
fn runs(interpreter: &str, flag: &str, language: &str) {
    let works = Command::new(interpreter).arg("--version").output();
    if !works.is_ok_and(|out| out.status.success()) {
        println!("{interpreter} is not installed: skipped");
        return;
    }
    let folder = embed();
    let folder: &Path = folder.parent().unwrap();
    let code = block(language).replace("target/release/examples", folder.to_str().unwrap());
    let out = Command::new(interpreter)
        .args([flag, &code])
        .output()
        .unwrap();
    let said = String::from_utf8_lossy(&out.stdout);
    let wrong = String::from_utf8_lossy(&out.stderr);
    assert!(out.status.success(), "{wrong}");
    // One third of the whole post of a 6 ft fence: 3 ft.
    assert!(
        said.contains("one third of the whole post"),
        "{said} {wrong}"
    );
    assert!(said.contains('3'), "{said}");
}

#[test]
fn the_readme_calls_it_from_python() {
    runs("python3", "-c", "python");
}

#[test]
fn the_readme_calls_it_from_javascript() {
    runs("node", "-e", "javascript");
}
