//! Reading with a memory: every problem of a request is kept, each with its
//! path, what stood there and what is allowed.

use super::Node;
use crate::error::Error;
use crate::units::UnitSystem;
use core::fmt;

/// One thing that is wrong with a request.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Problem {
    /// Where: names and places from the top, such as `input.runs.0.spacing`;
    /// empty for the whole.
    pub path: String,
    /// What stood there, if anything did; long text is cut.
    pub value: Option<String>,
    /// What is allowed.
    pub allowed: String,
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let place = if self.path.is_empty() {
            "the request"
        } else {
            &self.path
        };
        match &self.value {
            Some(value) => write!(f, "{place}: `{value}`; {}", self.allowed),
            None => write!(f, "{place}: {}", self.allowed),
        }
    }
}

/// Everything that is wrong with a request: never empty where it is an error.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Problems {
    found: Vec<Problem>,
    system: UnitSystem,
}

impl Problems {
    /// None yet; limits are told in a unit system.
    pub(super) const fn new(system: UnitSystem) -> Self {
        Self {
            found: Vec::new(),
            system,
        }
    }

    /// One problem of the whole, as of a text that is not even data.
    pub fn of_whole(allowed: impl Into<String>) -> Self {
        Self {
            found: vec![Problem {
                path: String::new(),
                value: None,
                allowed: allowed.into(),
            }],
            system: UnitSystem::default(),
        }
    }

    /// Each of them.
    pub fn iter(&self) -> impl Iterator<Item = &Problem> {
        self.found.iter()
    }

    /// How many there are, to see whether there are more later.
    pub(super) const fn len(&self) -> usize {
        self.found.len()
    }

    /// Is there none?
    pub fn is_empty(&self) -> bool {
        self.found.is_empty()
    }

    pub(super) fn set_system(&mut self, system: UnitSystem) {
        self.system = system;
    }

    /// Something is wrong here.
    pub(super) fn add(&mut self, at: &Path<'_>, value: Option<&Node>, allowed: impl Into<String>) {
        // A request with a thousand faults is not read to the end.
        const MOST: usize = 100;
        if self.found.len() == MOST {
            self.found.push(Problem {
                path: String::new(),
                value: None,
                allowed: "there are more problems than these".to_owned(),
            });
        } else if self.found.len() < MOST {
            self.found.push(Problem {
                path: at.to_string(),
                value: value.map(Node::brief),
                allowed: allowed.into(),
            });
        }
    }

    /// The value of a library result, or its error kept at this place.
    pub(super) fn take<T>(&mut self, at: &Path<'_>, result: Result<T, Error>) -> Option<T> {
        match result {
            Ok(value) => Some(value),
            Err(error) => {
                let (value, allowed) = match error {
                    Error::OutOfRange {
                        field,
                        value,
                        least,
                        most,
                    } => {
                        let system = self.system;
                        let allowed = format!(
                            "{field}: give {} to {}",
                            least.in_system(system),
                            most.in_system(system)
                        );
                        (Some(value.in_system(system).to_string()), allowed)
                    }
                    other => (None, other.in_system(self.system).to_string()),
                };
                self.add(at, value.map(Node::text).as_ref(), allowed);
                None
            }
        }
    }

    /// [`Problems::take`] with the place of each field the library names.
    pub(super) fn take_by<T>(
        &mut self,
        at: &Path<'_>,
        names: &[(&str, &str)],
        result: Result<T, Error>,
    ) -> Option<T> {
        let name = result.as_ref().err().and_then(|error| {
            let field = error.field();
            names.iter().find(|(library, _)| *library == field)
        });
        match name {
            Some((_, wire)) => self.take(&at.field(wire), result),
            None => self.take(at, result),
        }
    }

    /// Shows at each problem what stood there in the request as sent, rather
    /// than what became of it.
    pub(super) fn show_as_sent(&mut self, request: &Node) {
        for problem in &mut self.found {
            let Some(node) = request.at(&problem.path) else {
                continue;
            };
            match (node, node.get("value"), node.get("unit")) {
                (Node::Text(_) | Node::Number(_) | Node::Bool(_), ..) => {
                    problem.value = Some(node.brief());
                }
                (_, Some(value), Some(unit)) => {
                    problem.value = Some(format!("{} {}", value.brief(), unit.brief()));
                }
                _ => {}
            }
        }
    }

    /// As data: a list of `{path, value, allowed}`.
    pub(super) fn write(&self) -> Node {
        let problem = |problem: &Problem| {
            let mut fields = vec![("path".into(), Node::text(problem.path.clone()))];
            if let Some(value) = &problem.value {
                fields.push(("value".into(), Node::text(value.clone())));
            }
            fields.push(("allowed".into(), Node::text(problem.allowed.clone())));
            Node::Object(fields)
        };
        Node::List(self.found.iter().map(problem).collect())
    }
}

impl fmt::Display for Problems {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (i, problem) in self.found.iter().enumerate() {
            if i > 0 {
                f.write_str("; ")?;
            }
            write!(f, "{problem}")?;
        }
        Ok(())
    }
}

impl core::error::Error for Problems {}

/// One optional step after another, each problem kept at its own place: what could not
/// be changed stays as it is, so that the next step is read too.
pub(super) struct Steps<'a, 'p, T> {
    value: T,
    at: &'a Path<'a>,
    problems: &'p mut Problems,
    sound: bool,
}

impl<'a, 'p, T: Copy> Steps<'a, 'p, T> {
    /// From here on.
    pub(super) fn new(value: T, at: &'a Path<'a>, problems: &'p mut Problems) -> Self {
        Self {
            value,
            at,
            problems,
            sound: true,
        }
    }

    /// With what a field holds, if it is given.
    pub(super) fn step<V>(
        &mut self,
        name: &str,
        given: Option<V>,
        make: impl FnOnce(T, V) -> Result<T, Error>,
    ) {
        self.build(name, given, |given, _, _| Some(given), make);
    }

    /// With what is built of a field, if it is given.
    pub(super) fn build<S, V>(
        &mut self,
        name: &str,
        given: Option<S>,
        build: impl FnOnce(S, &Path<'_>, &mut Problems) -> Option<V>,
        make: impl FnOnce(T, V) -> Result<T, Error>,
    ) {
        let Some(given) = given else {
            return;
        };
        let place = self.at.field(name);
        let built = build(given, &place, self.problems);
        let made = built.and_then(|built| self.problems.take(&place, make(self.value, built)));
        match made {
            Some(made) => self.value = made,
            None => self.sound = false,
        }
    }

    /// The whole, if every step could be made.
    pub(super) fn done(self) -> Option<T> {
        self.sound.then_some(self.value)
    }
}

/// Where reading is: a chain of names and places, kept on the stack.
#[derive(Debug, Clone, Copy)]
pub(super) struct Path<'a> {
    above: Option<&'a Path<'a>>,
    step: PathStep<'a>,
}

#[derive(Debug, Clone, Copy)]
enum PathStep<'a> {
    Top,
    Field(&'a str),
    Place(usize),
}

impl<'a> Path<'a> {
    /// The whole.
    pub(super) const TOP: Path<'static> = Path {
        above: None,
        step: PathStep::Top,
    };

    /// A field of what is here.
    pub(super) const fn field(&'a self, name: &'a str) -> Path<'a> {
        Path {
            above: Some(self),
            step: PathStep::Field(name),
        }
    }

    /// A place of the list that is here.
    pub(super) const fn place(&'a self, index: usize) -> Path<'a> {
        Path {
            above: Some(self),
            step: PathStep::Place(index),
        }
    }
}

impl fmt::Display for Path<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(above) = self.above
            && !matches!(above.step, PathStep::Top)
        {
            write!(f, "{above}.")?;
        }
        match self.step {
            PathStep::Top => Ok(()),
            // A name the request made up may be long.
            PathStep::Field(name) if name.chars().count() > 60 => {
                for c in name.chars().take(60) {
                    write!(f, "{c}")?;
                }
                f.write_str("...")
            }
            PathStep::Field(name) => f.write_str(name),
            PathStep::Place(index) => write!(f, "{index}"),
        }
    }
}
