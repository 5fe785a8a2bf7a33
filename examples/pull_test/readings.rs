//! Readings from a CSV.

use groundline::field_test::Readings;
use groundline::units::{Force, Length, Measure, UnitSystem, mm, parse, show_as};
use std::path::Path;

/// Which way a post was pulled.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Pull {
    Out,
    Over,
}

impl Pull {
    pub(crate) const fn title(self) -> &'static str {
        match self {
            Self::Out => "Pulled out, along the post",
            Self::Over => "Pulled over, sideways",
        }
    }
}

/// One test.
#[derive(Debug)]
pub(crate) struct Test {
    pub(crate) setting: String,
    pub(crate) name: String,
    pub(crate) pull: Pull,
    pub(crate) readings: Readings,
}

type Lines = Vec<(Length, Force)>;

/// A name without regard to case and white space.
fn one_name(name: &str) -> String {
    let words: Vec<String> = name.split_whitespace().map(str::to_lowercase).collect();
    words.join(" ")
}

/// The tests of a file, in its order; a refusal names file and line.
pub(crate) fn from_csv(path: &Path) -> Result<Vec<Test>, String> {
    let file = path.display();
    let mut reader = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .trim(csv::Trim::All)
        .from_path(path)
        .map_err(|error| format!("--readings \"{file}\": {error}"))?;
    let mut found: Vec<(String, String, Pull, Lines)> = Vec::new();
    for record in reader.records() {
        let record = record.map_err(|error| format!("{file}: {error}"))?;
        let line = record.position().map_or(0, csv::Position::line);
        let wrong = |what: String| format!("{file}, line {line}: {what}");
        let [setting, name, pull, movement, load] = record.iter().collect::<Vec<_>>()[..] else {
            return Err(wrong(
                "five fields wanted: setting, test, pull, movement, load".into(),
            ));
        };
        let pull = match pull {
            "out" => Pull::Out,
            "over" => Pull::Over,
            other => return Err(wrong(format!("pull \"{other}\": out or over"))),
        };
        let movement = parse::<Length>(movement).map_err(|e| wrong(e.to_string()))?;
        let load = parse::<Force>(load).map_err(|e| wrong(e.to_string()))?;
        let same = |test: &&mut (String, String, Pull, Lines)| {
            one_name(&test.0) == one_name(setting)
                && one_name(&test.1) == one_name(name)
                && test.2 == pull
        };
        match found.iter_mut().find(same) {
            Some(test) => test.3.push((movement, load)),
            None => found.push((setting.into(), name.into(), pull, vec![(movement, load)])),
        }
    }
    if found.is_empty() {
        return Err(format!("--readings \"{file}\": no readings"));
    }
    // Settings together, in the order they first come, each as it was first written.
    let order: Vec<String> = found.iter().map(|test| test.0.clone()).collect();
    let first = |name: &str| {
        order
            .iter()
            .position(|setting| one_name(setting) == one_name(name))
    };
    for test in &mut found {
        if let Some(place) = first(&test.0) {
            test.0.clone_from(&order[place]);
        }
    }
    found.sort_by_key(|test| first(&test.0));
    found
        .into_iter()
        .map(|(setting, name, pull, lines)| {
            let readings =
                Readings::new(&lines).map_err(|error| format!("{file}, test {name}: {error}"))?;
            Ok(Test {
                setting,
                name,
                pull,
                readings,
            })
        })
        .collect()
}

/// A residual no finer than a dial gauge reads, 0.01 mm.
pub(crate) fn residual(of: Length, system: UnitSystem) -> String {
    let finest = mm(0.01);
    if of < finest {
        return format!(
            "less than {}",
            show_as(finest, Measure::SectionLength, system).significant(1)
        );
    }
    show_as(of, Measure::SectionLength, system)
        .significant(2)
        .to_string()
}
