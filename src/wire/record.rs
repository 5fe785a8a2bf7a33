//! Objects, alternatives and names: one declaration each gives the type, its
//! reading, its writing and its schema, so that the four cannot differ.

use super::Node;
use super::node::Words;
use super::reading::{Path, Problems};
use super::schema::Definitions;
use super::value::{Style, Wire};

/// An object with named fields.
pub(super) trait Record: Sized {
    /// Its name in the schema.
    const NAME: &'static str;
    /// What it is.
    const ABOUT: &'static str;
    /// Its fields by name.
    const FIELDS: &'static [&'static str];

    fn read_fields(node: &Node, at: &Path<'_>, problems: &mut Problems) -> Option<Self>;
    fn write_fields(&self, style: Style, fields: &mut Vec<(Words, Node)>);
    /// Name, schema, description and whether it is required.
    fn describe(definitions: &mut Definitions) -> Vec<(&'static str, Node, String, bool)>;
}

/// The name of the field that says which of several kinds an object is.
pub(super) const KIND: &str = "kind";

/// No object has as many fields as this, and looking for twins takes their
/// square.
pub(super) const MOST_FIELDS: usize = 100;

/// Reads an object: all fields, none unknown, none twice.
pub(super) fn read_record<R: Record>(
    node: &Node,
    tagged: bool,
    at: &Path<'_>,
    problems: &mut Problems,
) -> Option<R> {
    let Node::Object(fields) = node else {
        problems.add(
            at,
            Some(node),
            format!("give an object: {}", list(R::FIELDS)),
        );
        return None;
    };
    if fields.len() > MOST_FIELDS {
        problems.add(at, None, format!("at most {MOST_FIELDS} fields"));
        return None;
    }
    let mut sound = true;
    for (index, (name, _)) in fields.iter().enumerate() {
        let known = R::FIELDS.contains(&&**name) || (tagged && name == KIND);
        if !known {
            let allowed = if R::FIELDS.is_empty() {
                "there is no such field; none is known here".to_owned()
            } else {
                format!("there is no such field; known are {}", list(R::FIELDS))
            };
            problems.add(&at.field(name), None, allowed);
            sound = false;
        } else if fields[..index].iter().any(|(earlier, _)| earlier == name) {
            problems.add(&at.field(name), None, "this field stands twice");
            sound = false;
        }
    }
    R::read_fields(node, at, problems).filter(|_| sound)
}

/// The schema of an object, with the kind it is if it is one of several.
pub(super) fn schema_of<R: Record>(
    kind: Option<&'static str>,
    definitions: &mut Definitions,
) -> Node {
    let mut properties = Vec::new();
    let mut required = Vec::new();
    if let Some(kind) = kind {
        properties.push((KIND.into(), Node::object([("const", Node::text(kind))])));
        required.push(Node::text(KIND));
    }
    for (name, schema, about, needed) in R::describe(definitions) {
        let mut schema = match schema {
            Node::Object(fields) => fields,
            other => vec![("const".into(), other)],
        };
        if !about.is_empty() {
            schema.push(("description".into(), Node::text(about)));
        }
        properties.push((name.into(), Node::Object(schema)));
        if needed {
            required.push(Node::text(name));
        }
    }
    Node::object([
        ("type", Node::text("object")),
        ("description", Node::text(R::ABOUT.trim())),
        ("properties", Node::Object(properties)),
        ("required", Node::List(required)),
        ("additionalProperties", Node::Bool(false)),
    ])
}

/// Names in a row.
pub(super) fn list(names: &[&str]) -> String {
    names.join(", ")
}

/// Declares objects.
macro_rules! records {
    ($(
        $(#[doc = $about:literal])+
        $name:ident {
            $( $(#[doc = $doc:literal])+ $field:ident : $type:ty, )*
        }
    )+) => { $(
        $(#[doc = $about])+
        #[derive(Debug, Clone, PartialEq)]
        #[non_exhaustive]
        pub struct $name {
            $( $(#[doc = $doc])+ pub $field: $type, )*
        }

        impl $crate::wire::record::Record for $name {
            const NAME: &'static str = stringify!($name);
            const ABOUT: &'static str = concat!($($about),+);
            const FIELDS: &'static [&'static str] = &[$(stringify!($field)),*];

            #[allow(unused_variables, reason = "an object may have no fields")]
            fn read_fields(
                node: &$crate::wire::Node,
                at: &$crate::wire::reading::Path<'_>,
                problems: &mut $crate::wire::reading::Problems,
            ) -> Option<Self> {
                $( let $field = <$type as $crate::wire::value::ReadField>::read_field(
                    node, stringify!($field), at, problems,
                ); )*
                Some(Self { $($field: $field?),* })
            }

            #[allow(unused_variables, reason = "an object may have no fields")]
            fn write_fields(
                &self,
                style: $crate::wire::Style,
                fields: &mut Vec<($crate::wire::node::Words, $crate::wire::Node)>,
            ) {
                $(
                    if !$crate::wire::value::Wire::is_absent(&self.$field) {
                        fields.push((
                            stringify!($field).into(),
                            $crate::wire::value::Wire::write(&self.$field, style),
                        ));
                    }
                )*
            }

            #[allow(unused_variables, reason = "an object may have no fields")]
            fn describe(
                definitions: &mut $crate::wire::schema::Definitions,
            ) -> Vec<(&'static str, $crate::wire::Node, String, bool)> {
                vec![$((
                    stringify!($field),
                    <$type as $crate::wire::value::Wire>::schema(definitions),
                    concat!($($doc),+).trim().to_owned(),
                    $crate::wire::schema::is_required::<$type>(),
                )),*]
            }
        }

        impl $crate::wire::value::Wire for $name {
            fn read(
                node: &$crate::wire::Node,
                at: &$crate::wire::reading::Path<'_>,
                problems: &mut $crate::wire::reading::Problems,
            ) -> Option<Self> {
                $crate::wire::record::read_record(node, false, at, problems)
            }
            fn write(&self, style: $crate::wire::Style) -> $crate::wire::Node {
                let mut fields = Vec::with_capacity(
                    <Self as $crate::wire::record::Record>::FIELDS.len(),
                );
                $crate::wire::record::Record::write_fields(self, style, &mut fields);
                $crate::wire::Node::Object(fields)
            }
            fn schema(
                definitions: &mut $crate::wire::schema::Definitions,
            ) -> $crate::wire::Node {
                definitions.named(stringify!($name), |definitions| {
                    $crate::wire::record::schema_of::<Self>(None, definitions)
                })
            }
        }
    )+ };
}
pub(super) use records;

/// Declares alternatives, told apart by the field `kind`.
macro_rules! alternatives {
    ($(
        $(#[doc = $about:literal])+
        $name:ident {
            $( $(#[doc = $doc:literal])+ $kind:literal => $variant:ident($record:ty), )+
        }
    )+) => { $(
        $(#[doc = $about])+
        #[derive(Debug, Clone, PartialEq)]
        #[non_exhaustive]
        pub enum $name {
            $( $(#[doc = $doc])+ $variant($record), )+
        }

        impl $crate::wire::value::Wire for $name {
            fn read(
                node: &$crate::wire::Node,
                at: &$crate::wire::reading::Path<'_>,
                problems: &mut $crate::wire::reading::Problems,
            ) -> Option<Self> {
                use $crate::wire::record::KIND;
                const KINDS: &[&str] = &[$($kind),+];
                if !matches!(node, $crate::wire::Node::Object(_)) {
                    problems.add(at, Some(node), format!(
                        "give an object with a `kind`: {}",
                        $crate::wire::record::list(KINDS),
                    ));
                    return None;
                }
                match node.get(KIND).and_then($crate::wire::Node::as_text) {
                    $( Some($kind) => {
                        $crate::wire::record::read_record(node, true, at, problems)
                            .map(Self::$variant)
                    } )+
                    _ => {
                        let missing = if node.get(KIND).is_none() {
                            "this field is missing: "
                        } else {
                            ""
                        };
                        let allowed =
                            format!("{missing}one of {}", $crate::wire::record::list(KINDS));
                        problems.add(&at.field(KIND), node.get(KIND), allowed);
                        None
                    }
                }
            }
            fn write(&self, style: $crate::wire::Style) -> $crate::wire::Node {
                let mut fields = Vec::new();
                match self {
                    $( Self::$variant(record) => {
                        fields.push((
                            $crate::wire::record::KIND.into(),
                            $crate::wire::Node::text($kind),
                        ));
                        $crate::wire::record::Record::write_fields(record, style, &mut fields);
                    } )+
                }
                $crate::wire::Node::Object(fields)
            }
            fn schema(
                definitions: &mut $crate::wire::schema::Definitions,
            ) -> $crate::wire::Node {
                definitions.named(stringify!($name), |definitions| {
                    let kinds = vec![$(
                        $crate::wire::record::schema_of::<$record>(Some($kind), definitions)
                    ),+];
                    $crate::wire::Node::object([
                        ("description", $crate::wire::Node::text(concat!($($about),+).trim())),
                        ("oneOf", $crate::wire::Node::List(kinds)),
                    ])
                })
            }
        }
    )+ };
}
pub(super) use alternatives;

/// Declares the names of the values of a plain enum of the library: all of them.
macro_rules! names {
    ($( $type:ty {
        $( $name:literal => $($value:ident)::+ $(($inside:path))?, )+
    } )+) => { $(
        impl $crate::wire::value::Wire for $type {
            fn read(
                node: &$crate::wire::Node,
                at: &$crate::wire::reading::Path<'_>,
                problems: &mut $crate::wire::reading::Problems,
            ) -> Option<Self> {
                match node.as_text() {
                    $( Some($name) => Some($($value)::+ $(($inside))?), )+
                    _ => {
                        let allowed = format!(
                            "one of {}",
                            $crate::wire::record::list(&[$($name),+]),
                        );
                        problems.add(at, Some(node), allowed);
                        None
                    }
                }
            }
            fn write(&self, _: $crate::wire::Style) -> $crate::wire::Node {
                $crate::wire::Node::text(match self {
                    $( $($value)::+ $(($inside))? => $name, )+
                })
            }
            fn schema(
                definitions: &mut $crate::wire::schema::Definitions,
            ) -> $crate::wire::Node {
                definitions.named(
                    stringify!($type).rsplit("::").next().unwrap_or_default().trim(),
                    |_| $crate::wire::Node::object([(
                        "enum",
                        $crate::wire::Node::List(vec![$($crate::wire::Node::text($name)),+]),
                    )]),
                )
            }
        }
    )+ };
}
pub(super) use names;

/// A record as a value boxed.
impl<T: Wire> Wire for Box<T> {
    fn read(node: &Node, at: &Path<'_>, problems: &mut Problems) -> Option<Self> {
        T::read(node, at, problems).map(Box::new)
    }
    fn write(&self, style: Style) -> Node {
        (**self).write(style)
    }
    fn schema(definitions: &mut Definitions) -> Node {
        T::schema(definitions)
    }
}
