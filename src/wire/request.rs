//! The request: which calculation, of what, in which units.

use super::answer::{Answer, head};
use super::input::Input;
use super::node::EXACT;
use super::reading::{Path, Problems};
use super::record::{MOST_FIELDS, Record, list};
use super::value::{ReadField, Style, Wire};
use super::{Node, VERSION};
use crate::caution::Cautions;
use crate::source::Citation;
use crate::step::Worksheet;
use crate::units::UnitSystem;

/// What a calculation is asked beside its input.
#[derive(Debug, Clone, Copy)]
pub(super) struct Asked {
    /// Units of the answer.
    pub(super) system: UnitSystem,
    /// Is its worksheet wanted?
    pub(super) worksheet: bool,
}

/// What a calculation gives.
#[derive(Debug)]
pub(super) struct Done<R> {
    pub(super) result: R,
    pub(super) cautions: Cautions,
    pub(super) sources: Vec<&'static Citation>,
    pub(super) worksheets: Vec<Worksheet>,
}

impl<R> Done<R> {
    /// A result with its cautions and its sources.
    pub(super) fn new(
        result: R,
        cautions: Cautions,
        sources: impl IntoIterator<Item = &'static Citation>,
    ) -> Self {
        let mut listed = Vec::new();
        add(&mut listed, sources);
        Self {
            result,
            cautions,
            sources: listed,
            worksheets: Vec::new(),
        }
    }

    /// With the sources of a worksheet, which need not be shown.
    pub(super) fn citing(mut self, sheet: &Worksheet) -> Self {
        add_sources(&mut self.sources, sheet);
        self
    }

    /// With a worksheet.
    pub(super) fn with_worksheet(mut self, sheet: Worksheet) -> Self {
        self.worksheets.push(sheet);
        self
    }
}

fn add(listed: &mut Vec<&'static Citation>, sources: impl IntoIterator<Item = &'static Citation>) {
    for source in sources {
        if !listed.contains(&source) {
            listed.push(source);
        }
    }
}

/// Lists the sources of a worksheet that are not yet.
pub(super) fn add_sources(listed: &mut Vec<&'static Citation>, sheet: &Worksheet) {
    add(listed, sheet.steps().filter_map(|step| step.citation));
}

/// A calculation that can be asked for by name.
pub(super) trait Calculation: Record {
    /// The name.
    const CALCULATE: &'static str;
    /// What it gives.
    type Result: Wire;
    /// Can its working be had?
    const HAS_WORKSHEET: bool = false;

    /// Everything that can be refused before computing.
    fn validate(&self, at: &Path<'_>, problems: &mut Problems);

    /// Computes; gives nothing where there was a problem.
    fn run(
        &self,
        asked: Asked,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<Self::Result>>;
}

/// One request: which calculation, of what, in which units the answer.
///
/// It is read from any self-describing format by serde. Reading validates:
/// what is a `Request` can be computed, unless parts of it do not go together.
/// To have every problem as data, read a [`Node`] and call [`Request::read`].
#[derive(Debug, Clone, PartialEq)]
pub struct Request {
    id: Option<Node>,
    system: UnitSystem,
    worksheet: bool,
    input: Input,
}

const FIELDS: [&str; 6] = ["version", "id", "calculate", "units", "worksheet", "input"];

/// The id of a request, if it is one that comes back as it was sent.
pub(super) fn id_of(request: &Node) -> Option<&Node> {
    request.get("id").filter(|id| match id {
        Node::Number(number) => number.abs() < EXACT,
        other => matches!(other, Node::Text(_)),
    })
}

impl Request {
    /// Reads a request.
    ///
    /// # Errors
    /// Everything that is wrong with it, not the first thing only.
    pub fn read(node: &Node) -> Result<Self, Problems> {
        let mut problems = Problems::new(UnitSystem::Us);
        let top = Path::TOP;
        let Node::Object(fields) = node else {
            problems.add(
                &top,
                Some(node),
                format!("give an object: {}", list(&FIELDS)),
            );
            return Err(problems);
        };
        if fields.len() > MOST_FIELDS {
            problems.add(&top, None, format!("at most {MOST_FIELDS} fields"));
            return Err(problems);
        }
        for (index, (name, _)) in fields.iter().enumerate() {
            if !FIELDS.contains(&&**name) {
                let allowed = format!("there is no such field; known are {}", list(&FIELDS));
                problems.add(&top.field(name), None, allowed);
            } else if fields[..index].iter().any(|(earlier, _)| earlier == name) {
                problems.add(&top.field(name), None, "this field stands twice");
            }
        }
        let system = Option::<UnitSystem>::read_field(node, "units", &top, &mut problems);
        let system = system.flatten().unwrap_or_default();
        problems.set_system(system);
        match node.get("version") {
            Some(Node::Number(version)) if version.total_cmp(&f64::from(VERSION)).is_eq() => {}
            Some(other) => {
                let allowed = format!("this library answers version {VERSION}");
                problems.add(&top.field("version"), Some(other), allowed);
            }
            None => problems.add(
                &top.field("version"),
                None,
                format!("this field is missing; the version is {VERSION}"),
            ),
        }
        let id = match (node.get("id"), id_of(node)) {
            (None | Some(Node::Null), _) => None,
            (Some(_), Some(id)) => Some(id.clone()),
            (Some(other), None) => {
                let allowed = match other {
                    Node::Number(_) => "a number so large may come back changed: give text",
                    _ => "give text or a number",
                };
                problems.add(&top.field("id"), Some(other), allowed);
                None
            }
        };
        let worksheet = Option::<bool>::read_field(node, "worksheet", &top, &mut problems);
        let worksheet = worksheet.flatten().unwrap_or(false);
        let name = match node.get("calculate") {
            Some(Node::Text(name)) => Some(&**name),
            other => {
                let missing = if other.is_none() {
                    "this field is missing: "
                } else {
                    ""
                };
                let allowed = format!("{missing}one of {}", list(Input::NAMES));
                problems.add(&top.field("calculate"), other, allowed);
                None
            }
        };
        let place = top.field("input");
        let empty = Node::Object(Vec::new());
        let given = node.get("input").unwrap_or(&empty);
        let input = name.and_then(|name| Input::read(name, given, &place, &mut problems));
        if let Some(input) = &input {
            input.validate(&place, &mut problems);
            if worksheet && !input.has_worksheet() {
                let allowed = "this calculation has no worksheet";
                problems.add(&top.field("worksheet"), node.get("worksheet"), allowed);
            }
        }
        match input {
            Some(input) if problems.is_empty() => Ok(Self {
                id,
                system,
                worksheet,
                input,
            }),
            _ => {
                problems.show_as_sent(node);
                Err(problems)
            }
        }
    }

    /// The request as data, every quantity in SI base units so that it is read
    /// again to the same bits.
    pub fn write(&self) -> Node {
        let mut fields = vec![("version".into(), Node::Number(f64::from(VERSION)))];
        if let Some(id) = &self.id {
            fields.push(("id".into(), id.clone()));
        }
        fields.push(("calculate".into(), Node::text(self.input.name())));
        fields.push(("units".into(), self.system.write(Style::Exact)));
        if self.worksheet {
            fields.push(("worksheet".into(), Node::Bool(true)));
        }
        fields.push(("input".into(), self.input.write(Style::Exact)));
        Node::Object(fields)
    }

    /// The name of its calculation.
    pub fn calculate(&self) -> &'static str {
        self.input.name()
    }

    /// What is to be calculated.
    pub const fn input(&self) -> &Input {
        &self.input
    }

    /// The units of the answer.
    pub const fn system(&self) -> UnitSystem {
        self.system
    }

    /// Computes it.
    pub fn answer(&self) -> Answer {
        let mut problems = Problems::new(self.system);
        let asked = Asked {
            system: self.system,
            worksheet: self.worksheet,
        };
        let place = Path::TOP;
        let computed = self.input.run(asked, &place.field("input"), &mut problems);
        match computed {
            Some(mut parts) if problems.is_empty() => {
                let mut fields = head(self.id.as_ref(), Some(self.input.name()));
                fields.append(&mut parts);
                Answer {
                    node: Node::Object(fields),
                    problems: None,
                }
            }
            _ => {
                if problems.is_empty() {
                    problems.add(&place, None, "it could not be computed");
                }
                Answer::refusing(self.id.as_ref(), Some(self.input.name()), problems)
            }
        }
    }
}

mod serde_impls {
    use super::{Node, Request};
    use serde::{Deserialize, Deserializer, Serialize, Serializer, de::Error};

    impl<'de> Deserialize<'de> for Request {
        fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
            Self::read(&Node::deserialize(deserializer)?).map_err(D::Error::custom)
        }
    }

    impl Serialize for Request {
        fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
            self.write().serialize(serializer)
        }
    }
}
