//! The answer: a result with its cautions, sources and working, or what is wrong
//! with the request.

use super::input::Input;
use super::node::Words;
use super::reading::{Problem, Problems};
use super::request::{Done, Request, id_of};
use super::schema::{Definitions, list_of, object, text, words};
use super::value::{Quantity, Style, Wire, write_measured};
use super::{Node, VERSION};
use crate::caution::Caution;
use crate::source::{Citation, Mark};
use crate::step::{Origin, Step, Worksheet};
use crate::units::UnitSystem;
use core::fmt;
use serde::{Serialize, Serializer};

/// An answer: a result, or what is wrong with the request.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    pub(super) node: Node,
    pub(super) problems: Option<Problems>,
}

pub(super) fn head(id: Option<&Node>, name: Option<&'static str>) -> Vec<(Words, Node)> {
    let mut fields = vec![("version".into(), Node::Number(f64::from(VERSION)))];
    if let Some(id) = id {
        fields.push(("id".into(), id.clone()));
    }
    if let Some(name) = name {
        fields.push(("calculate".into(), Node::text(name)));
    }
    fields
}

impl Answer {
    /// The answer to a request as data: never a panic, never nothing.
    pub fn to(node: &Node) -> Self {
        match Request::read(node) {
            Ok(request) => {
                let mut answer = request.answer();
                if let Some(mut problems) = answer.problems.take() {
                    problems.show_as_sent(node);
                    let name = Some(request.calculate());
                    return Self::refusing(node.get("id"), name, problems);
                }
                answer
            }
            Err(problems) => {
                let id = id_of(node);
                let name = node.get("calculate").and_then(Node::as_text);
                let name = Input::NAMES
                    .iter()
                    .copied()
                    .find(|known| name == Some(*known));
                Self::refusing(id, name, problems)
            }
        }
    }

    /// The answer to what is not even data.
    pub fn to_broken(why: impl fmt::Display) -> Self {
        Self::refusing(None, None, Problems::of_whole(why.to_string()))
    }

    pub(super) fn refusing(
        id: Option<&Node>,
        name: Option<&'static str>,
        problems: Problems,
    ) -> Self {
        let mut fields = head(id, name);
        fields.push(("errors".into(), problems.write()));
        Self {
            node: Node::Object(fields),
            problems: Some(problems),
        }
    }

    /// As data.
    pub const fn node(&self) -> &Node {
        &self.node
    }

    /// The result, if there is one.
    pub fn result(&self) -> Option<&Node> {
        self.node.get("result")
    }

    /// What is wrong with the request, if anything is.
    pub fn problems(&self) -> impl Iterator<Item = &Problem> {
        self.problems.iter().flat_map(Problems::iter)
    }
}

/// The parts of an answer that a calculation gave.
pub(super) fn parts<R: Wire>(done: &Done<R>, system: UnitSystem) -> Vec<(Words, Node)> {
    // Said of every source that is from memory, whatever the parts say.
    let memory = done.sources.iter().any(|s| s.mark == Mark::FromMemory);
    let cautions = done.cautions.with_if(memory, Caution::FromMemory);
    let cautions = cautions.iter().map(|c| Node::text(c.text())).collect();
    let sources = done.sources.iter().map(|source| citation(source)).collect();
    let mut parts = vec![
        ("result".into(), done.result.write(Style::System(system))),
        ("cautions".into(), Node::List(cautions)),
        ("sources".into(), Node::List(sources)),
    ];
    if !done.worksheets.is_empty() {
        let sheets = done.worksheets.iter().map(worksheet).collect();
        parts.push(("worksheets".into(), Node::List(sheets)));
    }
    parts
}

fn citation(source: &Citation) -> Node {
    Node::object([
        ("id", Node::text(source.id)),
        ("document", Node::text(source.document)),
        ("clause", Node::text(source.clause)),
        ("mark", Node::text(source.mark.name())),
    ])
}

/// The schema of a source.
pub(super) fn source_schema(definitions: &mut Definitions) -> Node {
    let marks = [
        Mark::Published,
        Mark::Quoted,
        Mark::FromMemory,
        Mark::Derived,
        Mark::CommonPractice,
        Mark::Given,
    ];
    definitions.named("Source", |_| {
        let fields = [
            ("id", text()),
            ("document", text()),
            ("clause", text()),
            ("mark", words(&marks.map(Mark::name))),
        ];
        object(fields, &[])
    })
}

/// The schema of a worksheet.
pub(super) fn worksheet_schema(definitions: &mut Definitions) -> Node {
    definitions.named("Worksheet", |definitions| {
        let quantity = Quantity::schema(definitions);
        let terms = Node::object([
            ("type", Node::text("object")),
            ("additionalProperties", quantity.clone()),
        ]);
        let step = object(
            [
                ("symbol", text()),
                ("meaning", text()),
                ("origin", words(&["given", "computed", "root"])),
                ("formula", text()),
                ("terms", terms),
                ("result", quantity),
                ("source", source_schema(definitions)),
            ],
            &["formula", "terms", "source"],
        );
        let section = [
            ("title", text()),
            ("remarks", list_of(text())),
            ("steps", list_of(step)),
        ];
        let sections = list_of(object(section, &[]));
        object([("title", text()), ("sections", sections)], &[])
    })
}

fn worksheet(sheet: &Worksheet) -> Node {
    let line = |step: &Step| {
        let terms = step
            .terms
            .iter()
            .map(|term| (term.symbol.into(), write_measured(term.value, sheet.system)))
            .collect();
        let mut fields = vec![
            ("symbol".into(), Node::text(step.symbol)),
            ("meaning".into(), Node::text(step.meaning)),
            (
                "origin".into(),
                Node::text(match step.origin {
                    Origin::Given => "given",
                    Origin::Computed => "computed",
                    Origin::Root => "root",
                }),
            ),
        ];
        if !step.formula.is_empty() {
            fields.push(("formula".into(), Node::text(step.formula.clone())));
            fields.push(("terms".into(), Node::Object(terms)));
        }
        fields.push(("result".into(), write_measured(step.result, sheet.system)));
        if let Some(source) = step.citation {
            fields.push(("source".into(), citation(source)));
        }
        Node::Object(fields)
    };
    let section = |section: &crate::step::Section| {
        let remarks = section.remarks.iter().map(|text| Node::text(text.clone()));
        Node::object([
            ("title", Node::text(section.title)),
            ("remarks", Node::List(remarks.collect())),
            (
                "steps",
                Node::List(section.steps.iter().map(line).collect()),
            ),
        ])
    };
    Node::object([
        ("title", Node::text(sheet.title.clone())),
        (
            "sections",
            Node::List(sheet.sections.iter().map(section).collect()),
        ),
    ])
}

impl Serialize for Answer {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        self.node().serialize(serializer)
    }
}
