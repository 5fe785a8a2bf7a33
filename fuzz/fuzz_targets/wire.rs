#![no_main]

#[path = "../../tests/suite/fuzz/wire.rs"]
mod body;

use groundline::wire::Node;
use libfuzzer_sys::{fuzz_mutator, fuzz_target, fuzzer_mutate};
use std::sync::LazyLock;

fuzz_target!(|data: &[u8]| body::run(data));

// Bytes changed anywhere seldom leave a request: mostly parts of it are changed.
fuzz_mutator!(|data: &mut [u8], size: usize, max_size: usize, seed: u32| {
    match altered(&data[..size], seed) {
        Some(text) if text.len() <= max_size => {
            data[..text.len()].copy_from_slice(&text);
            text.len()
        }
        _ => fuzzer_mutate(data, size, max_size),
    }
});

/// Every part of the sample requests: the field it stands in, the field that
/// object stands in, and the part.
static PARTS: LazyLock<Vec<(String, String, Node)>> = LazyLock::new(|| {
    fn walk(inside: &str, node: &Node, parts: &mut Vec<(String, String, Node)>) {
        match node {
            Node::Object(fields) => {
                for (name, part) in fields {
                    parts.push((inside.to_owned(), name.to_string(), part.clone()));
                    walk(name, part, parts);
                }
            }
            Node::List(items) => items.iter().for_each(|item| walk(inside, item, parts)),
            _ => {}
        }
    }
    let mut parts = Vec::new();
    for line in include_str!("../../examples/embed/requests.jsonl").lines() {
        walk("", &serde_json::from_str(line).unwrap(), &mut parts);
    }
    parts
});

/// Every word a request may have.
static WORDS: LazyLock<Vec<String>> = LazyLock::new(|| {
    fn walk(node: &Node, words: &mut Vec<String>) {
        match node {
            Node::Object(fields) => {
                for (name, part) in fields {
                    match part {
                        Node::Text(word) if name == "const" => words.push(word.to_string()),
                        Node::List(items) if name == "enum" => {
                            words.extend(items.iter().filter_map(Node::as_text).map(str::to_owned));
                        }
                        part => walk(part, words),
                    }
                }
            }
            Node::List(items) => items.iter().for_each(|item| walk(item, words)),
            _ => {}
        }
    }
    let mut words = Vec::new();
    walk(&groundline::wire::request_schema(), &mut words);
    words
});

struct Random(u64);

impl Random {
    fn below(&mut self, count: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 16) as usize % count.max(1)
    }
}

fn altered(data: &[u8], seed: u32) -> Option<Vec<u8>> {
    let mut random = Random(u64::from(seed).wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1);
    if random.below(6) == 0 {
        return None;
    }
    let mut node: Node = serde_json::from_slice(data).ok()?;
    for _ in 0..=random.below(3) {
        let mut place = random.below(count(&node));
        alter("", "", &mut node, &mut place, &mut random);
    }
    serde_json::to_vec(&node).ok()
}

fn count(node: &Node) -> usize {
    1 + match node {
        Node::Object(fields) => fields.iter().map(|(_, part)| count(part)).sum(),
        Node::List(items) => items.iter().map(count).sum(),
        _ => 0,
    }
}

/// Alters the node at a place, counted from the root.
fn alter(inside: &str, name: &str, node: &mut Node, place: &mut usize, random: &mut Random) {
    if *place == 0 {
        *place = usize::MAX;
        return at(inside, name, node, random);
    }
    *place -= 1;
    match node {
        Node::Object(fields) => {
            for (own, part) in fields {
                if *place != usize::MAX {
                    alter(name, own, part, place, random);
                }
            }
        }
        Node::List(items) => {
            for item in items {
                if *place != usize::MAX {
                    alter(inside, name, item, place, random);
                }
            }
        }
        _ => {}
    }
}

fn at(inside: &str, name: &str, node: &mut Node, random: &mut Random) {
    let like = |random: &mut Random, same_inside: bool| {
        let found: Vec<_> = PARTS
            .iter()
            .filter(|part| part.1 == name && (!same_inside || part.0 == inside))
            .collect();
        let found = found.get(random.below(found.len()));
        found.map(|part| part.2.clone())
    };
    match (random.below(8), &mut *node) {
        (0..=1, part) => {
            if let Some(other) = like(random, true) {
                *part = other;
            }
        }
        (2, part) => {
            if let Some(other) = like(random, false) {
                *part = other;
            }
        }
        (_, Node::Object(fields)) => match random.below(3) {
            0 if !fields.is_empty() => {
                let at = random.below(fields.len());
                fields.remove(at);
            }
            _ => {
                let known: Vec<_> = PARTS.iter().filter(|part| part.0 == name).collect();
                if let Some((_, field, part)) = known.get(random.below(known.len())) {
                    fields.retain(|(own, _)| own != field);
                    fields.push((field.clone().into(), part.clone()));
                }
            }
        },
        (_, Node::List(items)) => match random.below(3) {
            0 if !items.is_empty() => {
                let at = random.below(items.len());
                items.remove(at);
            }
            _ if !items.is_empty() => {
                let (from, to) = (random.below(items.len()), random.below(items.len()));
                let item = items[from].clone();
                items.insert(to, item);
            }
            _ => {}
        },
        (_, Node::Number(value)) => *value *= factor(random),
        (_, Node::Bool(value)) => *value = !*value,
        (_, Node::Text(text)) => {
            let end = text.find(|c: char| !(c.is_ascii_digit() || "+-.e".contains(c)));
            let (number, unit) = text.split_at(end.unwrap_or(text.len()));
            match number.parse::<f64>() {
                Ok(number) => *text = format!("{}{unit}", number * factor(random)).into(),
                Err(_) => *text = WORDS[random.below(WORDS.len())].as_str().into(),
            }
        }
        (_, Node::Null) => {}
    }
}

fn factor(random: &mut Random) -> f64 {
    let fine = 0.5 + random.below(1_000) as f64 / 1_000.0;
    let coarse = [0.0, -1.0, 0.1, 10.0, 1e-3, 1e3, 1e-6, 1e6, 0.5, 2.0];
    match random.below(3) {
        0 => coarse[random.below(coarse.len())],
        _ => fine,
    }
}
