//! Posts as they were dug: a CSV that overrides single posts.

use super::posts::{Spec, Specs, hole, shape_of};
use super::reading::{Problem, brief};
use groundline::backfill::Setting;
use groundline::fence::Fence;
use groundline::units::{Length, UnitSystem, parse};

/// A post as it was dug.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Dug {
    pub(crate) number: usize,
    pub(crate) spec: Spec,
    pub(crate) note: String,
}

const COLUMNS: [&str; 5] = ["post", "depth", "hole", "shape", "note"];

/// What a line is read against.
struct Against<'a> {
    file: &'a str,
    fence: &'a Fence,
    specs: &'a Specs,
    system: UnitSystem,
}

/// Reads a CSV with a header; blank cells stay as planned.
pub(crate) fn read(
    bytes: &[u8],
    file: &str,
    fence: &Fence,
    specs: &Specs,
    system: UnitSystem,
) -> Result<Vec<Dug>, Vec<Problem>> {
    let against = Against {
        file,
        fence,
        specs,
        system,
    };
    let problem = |line: usize, what: String| Problem::new(file, line, what);
    let mut reader = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .trim(csv::Trim::All)
        .from_reader(bytes);
    let header = match reader.headers() {
        Ok(header) => header.clone(),
        Err(error) => return Err(vec![problem(1, said(&error))]),
    };
    let mut problems = Vec::new();
    for name in &header {
        if !COLUMNS.contains(&name) {
            let columns = COLUMNS.join(", ");
            problems.push(problem(
                0,
                format!("column \"{}\": no such column; give {columns}", brief(name)),
            ));
        }
    }
    let place = |name: &str| header.iter().position(|column| column == name);
    if place("post").is_none() {
        problems.push(problem(
            0,
            "the column \"post\" is missing: the number of the post".into(),
        ));
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    let mut dug: Vec<Dug> = Vec::new();
    for record in reader.records() {
        let record = match record {
            Ok(record) => record,
            Err(error) => {
                let line = error.position().map_or(0, csv::Position::line);
                problems.push(problem(usize::try_from(line).unwrap_or(0), said(&error)));
                continue;
            }
        };
        let line = record.position().map_or(0, csv::Position::line);
        let line = usize::try_from(line).unwrap_or(0);
        let cell = |name: &str| {
            place(name)
                .and_then(|at| record.get(at))
                .unwrap_or_default()
        };
        match against.one(line, cell, &mut problems) {
            Some(post) if dug.iter().any(|other| other.number == post.number) => {
                let what = format!("post = \"{}\": it stands here twice", post.number);
                problems.push(problem(line, what));
            }
            Some(post) => dug.push(post),
            None => {}
        }
    }
    if problems.is_empty() {
        Ok(dug)
    } else {
        Err(problems)
    }
}

/// What the reader says, without its position.
fn said(error: &csv::Error) -> String {
    match error.kind() {
        csv::ErrorKind::Utf8 { .. } => "it is not UTF-8 text: save it as CSV UTF-8".to_owned(),
        csv::ErrorKind::UnequalLengths {
            expected_len, len, ..
        } => format!("{len} of {expected_len} cells"),
        _ => error.to_string(),
    }
}

impl Against<'_> {
    fn one<'c>(
        &self,
        line: usize,
        cell: impl Fn(&str) -> &'c str,
        problems: &mut Vec<Problem>,
    ) -> Option<Dug> {
        let before = problems.len();
        let mut refuse = |column: &str, reason: String| {
            let what = format!("{column} = \"{}\": {reason}", brief(cell(column)));
            problems.push(Problem::new(self.file, line, what));
        };
        let posts = self.fence.posts();
        let number = cell("post").parse::<usize>().ok();
        let Some(post) = number.and_then(|n| posts.get(n.checked_sub(1)?)) else {
            refuse(
                "post",
                format!("give the number of a post, 1 to {}", posts.len()),
            );
            return None;
        };
        let mut spec = *self.specs.of(post.kind);
        let mut length = |column: &str| match cell(column) {
            "" => None,
            text => parse::<Length>(text)
                .map_err(|error| refuse(column, error.to_string()))
                .ok(),
        };
        let (depth, size) = (length("depth"), length("hole"));
        let word = cell("shape");
        let shape = shape_of(word);
        if shape.is_none() && !word.is_empty() {
            refuse("shape", "give round or square".to_owned());
        }
        if size.is_some() || shape.is_some() {
            let column = if size.is_some() { "hole" } else { "shape" };
            match spec.hole {
                Some(planned) => {
                    let size = size.unwrap_or(planned.size());
                    match hole(shape.unwrap_or(planned.shape()), size) {
                        Ok(hole) => spec.hole = Some(hole),
                        Err(error) => refuse("hole", error.in_system(self.system).to_string()),
                    }
                    if let Err(error) = spec.design() {
                        refuse("hole", error.in_system(self.system).to_string());
                    }
                }
                None if spec.setting == Some(Setting::Driven) => refuse(
                    column,
                    "this post is planned as driven: it has no hole".to_owned(),
                ),
                // Taken as concrete it would bear with the width of the hole.
                None => refuse(
                    column,
                    "this post is planned with hole_shape = \"none\", so what would fill a hole \
                     is not known: give set_in and a hole in the job file"
                        .to_owned(),
                ),
            }
        }
        if let Some(depth) = depth {
            spec.planned = Some(depth);
            if let Err(error) = spec.allows(depth)
                && error.field() == "depth"
            {
                refuse("depth", error.in_system(self.system).to_string());
            }
        }
        (problems.len() == before).then(|| Dug {
            number: post.number,
            spec,
            note: cell("note").to_owned(),
        })
    }
}
