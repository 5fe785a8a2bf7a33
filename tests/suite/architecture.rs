//! The shape of the project: modules import only from earlier ones, every
//! source cited is in references.md and the other way round, files stay small.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

fn read(path: impl AsRef<Path>) -> String {
    fs::read_to_string(root().join(path)).unwrap()
}

fn sources() -> Vec<(String, String)> {
    fn walk(folder: &Path, found: &mut Vec<(String, String)>) {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                walk(&path, found);
            } else if path.extension().is_some_and(|e| e == "rs") {
                let name = path.strip_prefix(root().join("src")).unwrap();
                let name = name.to_string_lossy().replace('\\', "/");
                found.push((name, fs::read_to_string(&path).unwrap()));
            }
        }
    }
    let mut found = Vec::new();
    walk(&root().join("src"), &mut found);
    assert!(found.len() > 30);
    found
}

/// Code without comments, so that doc examples may use the whole crate.
fn code(text: &str) -> String {
    text.lines()
        .filter(|line| !line.trim_start().starts_with("//"))
        .collect::<Vec<_>>()
        .join("\n")
}

/// The modules in the order of lib.rs: the load path.
fn modules() -> Vec<String> {
    read("src/lib.rs")
        .lines()
        .filter_map(|line| line.strip_prefix("pub mod ")?.strip_suffix(';'))
        .map(str::to_owned)
        .collect()
}

#[test]
fn modules_import_only_from_earlier_ones() {
    let order = modules();
    assert!(order.len() >= 18);
    let place = |name: &str| order.iter().position(|module| module == name);
    for (file, text) in sources() {
        let own = file.split(['/', '.']).next().unwrap();
        let Some(own) = place(own) else { continue };
        for (_, rest) in code(&text).match_indices("crate::").map(|(i, m)| {
            let text = code(&text);
            (i, text[i + m.len()..].to_owned())
        }) {
            let name: String = rest
                .chars()
                .take_while(|c| c.is_alphanumeric() || *c == '_')
                .collect();
            if let Some(other) = place(&name) {
                assert!(other <= own, "{file} imports {name}, which comes later");
            }
        }
    }
}

#[test]
fn no_file_is_past_six_hundred_lines() {
    for (file, text) in sources() {
        assert!(text.lines().count() <= 600, "{file}");
    }
}

/// Ids and marks of references.md: lines of its tables that start with a
/// back-quoted id.
fn references() -> Vec<(String, String)> {
    read("references.md")
        .lines()
        .filter_map(|line| {
            let cells: Vec<_> = line.strip_prefix("| `")?.split(" | ").collect();
            let id = cells[0].trim_end_matches('`').to_owned();
            let mark = cells.last()?.trim_end_matches([' ', '|']).to_owned();
            Some((id, mark))
        })
        .collect()
}

#[test]
fn references_and_citations_agree() {
    let listed = references();
    let ids: BTreeSet<_> = listed.iter().map(|(id, _)| id.as_str()).collect();
    assert_eq!(ids.len(), listed.len(), "an id stands twice");
    let cited: BTreeSet<_> = groundline::source::ALL.iter().map(|c| c.id).collect();
    assert_eq!(cited.len(), groundline::source::ALL.len());
    assert_eq!(ids, cited);
    for citation in groundline::source::ALL {
        let (_, mark) = listed.iter().find(|(id, _)| id == citation.id).unwrap();
        assert_eq!(mark, citation.mark.name(), "{}", citation.id);
    }
}

/// Every citation is used outside the list of citations.
#[test]
fn every_citation_is_used() {
    let list = read("src/source.rs");
    let names: Vec<_> = list
        .lines()
        .filter_map(|line| line.trim().split_once(" = \""))
        .map(|(name, _)| name.to_owned())
        .filter(|name| {
            name.chars()
                .all(|c| c.is_ascii_uppercase() || c.is_ascii_digit() || c == '_')
        })
        .collect();
    assert_eq!(names.len(), groundline::source::ALL.len());
    let elsewhere: String = sources()
        .into_iter()
        .filter(|(file, _)| file != "source.rs")
        .map(|(_, text)| text)
        .collect();
    for name in names {
        assert!(
            elsewhere.contains(&format!("source::{name}")),
            "{name} is cited nowhere"
        );
    }
}

/// Every data file says where it comes from.
#[test]
fn data_files_name_their_source() {
    for entry in fs::read_dir(root().join("tests/data")).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_none_or(|e| e != "csv") {
            continue;
        }
        let text = fs::read_to_string(&path).unwrap();
        let first = text.lines().next().unwrap();
        assert!(first.starts_with('#'), "{path:?}");
        assert!(
            first.contains("source:") || text.contains(",source,mark"),
            "{path:?}"
        );
    }
}

/// Nothing non-deterministic or outward in the library.
#[test]
fn the_library_is_pure() {
    for (file, text) in sources() {
        let code = code(&text);
        for forbidden in [
            "std::fs",
            "std::io",
            "std::net",
            "std::env",
            "std::time",
            "std::process",
            "println!",
            "eprintln!",
            "thread_local!",
            "static mut",
            "OnceLock",
            "LazyLock",
            "Mutex",
            "Atomic",
        ] {
            assert!(!code.contains(forbidden), "{file}: {forbidden}");
        }
    }
}
