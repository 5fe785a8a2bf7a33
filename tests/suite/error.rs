//! Words of refusals: what a person reads names no item of the program.

use std::path::{Path, PathBuf};

fn sources(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            sources(&path, found);
        } else if path.extension().is_some_and(|end| end == "rs") {
            found.push(path);
        }
    }
}

/// The literals of a source file without its comments, each with its line.
fn literals(text: &str) -> Vec<(usize, String)> {
    let mut found = Vec::new();
    let mut chars = text.chars().peekable();
    let mut line = 1;
    while let Some(c) = chars.next() {
        match c {
            '\n' => line += 1,
            '/' if chars.peek() == Some(&'/') => while chars.next_if(|c| *c != '\n').is_some() {},
            // A quote as a character: '"' or '\"'.
            '\'' => {
                if chars.next_if_eq(&'\\').is_some() {
                    chars.next();
                    chars.next_if_eq(&'\'');
                } else if chars.next_if_eq(&'"').is_some() {
                    chars.next_if_eq(&'\'');
                }
            }
            '"' => {
                let (start, mut literal) = (line, String::new());
                while let Some(c) = chars.next() {
                    match c {
                        '"' => break,
                        '\\' => {
                            line += usize::from(chars.next() == Some('\n'));
                        }
                        other => {
                            line += usize::from(other == '\n');
                            literal.push(other);
                        }
                    }
                }
                found.push((start, literal));
            }
            _ => {}
        }
    }
    found
}

/// Does a text hold two names with a double colon between them?
fn names_a_path(text: &str) -> bool {
    let letter = |c: char| c.is_ascii_alphanumeric() || c == '_';
    text.match_indices("::")
        .any(|(at, _)| text[..at].ends_with(letter) && text[at + 2..].starts_with(letter))
}

/// No text of the library holds a path of Rust: who sends JSON or a job file does not
/// know them. "quantities want the hole: PostDesign::set_in" was such a reason.
#[test]
fn no_reason_names_a_path_of_rust() {
    let mut files = Vec::new();
    sources(
        &Path::new(env!("CARGO_MANIFEST_DIR")).join("src"),
        &mut files,
    );
    assert!(files.len() > 100);
    let (mut read, mut wrong) = (0, Vec::new());
    for path in files {
        let text = std::fs::read_to_string(&path).unwrap();
        for (line, literal) in literals(&text) {
            read += 1;
            if names_a_path(&literal) {
                wrong.push(format!("{}:{line}: {literal}", path.display()));
            }
        }
    }
    assert!(read > 3_000, "{read}");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert!(names_a_path("the hole: PostDesign::set_in") && !names_a_path("a :: b"));
    // The reader of literals does read them.
    let found = literals("f(\"a::b\"); // \"c::d\"\n'\"' g(\"e\\\"f\")");
    assert_eq!(found, [(1, "a::b".to_owned()), (2, "ef".to_owned())]);
}
