//! What the JSON Schemas of requests and answers (draft 2020-12) refer to by
//! name, made from the same declarations as the reading.

use super::Node;
use super::node::Words;
use super::reading::{Path, Problems};
use super::value::Wire;
use crate::units::{Dimension, UnitSystem};

/// Schemas that are referred to by name.
#[derive(Debug, Default)]
pub(super) struct Definitions(Vec<(Words, Node)>);

impl Definitions {
    /// A reference to a named schema, made once.
    pub(super) fn named(&mut self, name: &str, make: impl FnOnce(&mut Self) -> Node) -> Node {
        if !self.0.iter().any(|(known, _)| known == name) {
            // Its place is taken first, so that a schema may hold itself.
            self.0.push((name.to_owned().into(), Node::Null));
            let schema = make(self);
            if let Some(place) = self.0.iter_mut().find(|(known, _)| known == name) {
                place.1 = schema;
            }
        }
        Node::object([("$ref", Node::text(format!("#/$defs/{name}")))])
    }

    /// The schema of a quantity.
    pub(super) fn quantity(&mut self, dimension: Dimension) -> Node {
        self.named(&format!("{dimension:?}"), |_| {
            let word = dimension.word();
            let article = if word.starts_with('a') { "An" } else { "A" };
            let mut units = Vec::new();
            for unit in dimension.units() {
                units.push(Node::text(unit.symbol));
                units.extend(unit.aliases.iter().map(|alias| Node::text(*alias)));
            }
            Node::object([
                (
                    "description",
                    Node::text(format!("{article} {word} with its unit.")),
                ),
                (
                    "anyOf",
                    Node::List(vec![
                        Node::object([
                            ("type", Node::text("string")),
                            ("pattern", Node::text(r"^\s*[-+]?[0-9.][\s\S]*\S\s*$")),
                        ]),
                        Node::object([
                            ("type", Node::text("object")),
                            (
                                "properties",
                                Node::object([
                                    ("value", Node::object([("type", Node::text("number"))])),
                                    ("unit", Node::object([("enum", Node::List(units))])),
                                ]),
                            ),
                            (
                                "required",
                                Node::List(vec![Node::text("value"), Node::text("unit")]),
                            ),
                            ("additionalProperties", Node::Bool(false)),
                        ]),
                    ]),
                ),
            ])
        })
    }

    /// All of them, by name.
    pub(super) fn into_node(mut self) -> Node {
        self.0.sort_by(|a, b| a.0.cmp(&b.0));
        Node::Object(self.0)
    }
}

/// The schema of text.
pub(super) fn text() -> Node {
    Node::object([("type", Node::text("string"))])
}

/// The schema of a list.
pub(super) fn list_of(items: Node) -> Node {
    Node::object([("type", Node::text("array")), ("items", items)])
}

/// A word list as a schema.
pub(super) fn words(names: &[&'static str]) -> Node {
    Node::object([(
        "enum",
        Node::List(names.iter().map(|name| Node::text(*name)).collect()),
    )])
}

/// An object of these fields and no other; all but some of them are always there.
pub(super) fn object<const N: usize>(fields: [(&'static str, Node); N], optional: &[&str]) -> Node {
    let required = fields.iter().map(|(name, _)| *name);
    let required = required.filter(|name| !optional.contains(name));
    let required = required.map(Node::text).collect();
    Node::object([
        ("type", Node::text("object")),
        ("properties", Node::object(fields)),
        ("required", Node::List(required)),
        ("additionalProperties", Node::Bool(false)),
    ])
}

/// Must a field of this type be there?
pub(super) fn is_required<T: Wire>() -> bool {
    T::missing(&Path::TOP, &mut Problems::new(UnitSystem::Us)).is_none()
}
