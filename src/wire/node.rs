//! A tree of plain data, as any self-describing format holds it: what requests
//! are read from and answers are written to.

use core::fmt;
use serde::de::{self, DeserializeSeed, Deserializer, MapAccess, SeqAccess, Visitor};
use serde::ser::{Serialize, SerializeMap, SerializeSeq, Serializer};
use std::borrow::Cow;

/// How deep lists and objects may nest.
const MOST_DEEP: usize = 32;

/// Whole numbers up to here are exact as `f64`, and are written without a
/// decimal point.
pub(super) const EXACT: f64 = 9_007_199_254_740_992.0;

/// Text of a node.
pub(super) type Words = Cow<'static, str>;

/// Plain data.
///
/// Text is borrowed where it is the library's own, as most of an answer is.
/// An object keeps its fields in order, and keeps a field that stands twice, so
/// that reading can refuse it.
#[derive(Debug, Clone, PartialEq)]
pub enum Node {
    /// Nothing.
    Null,
    /// Yes or no.
    Bool(bool),
    /// A number.
    Number(f64),
    /// Text.
    Text(Cow<'static, str>),
    /// A list.
    List(Vec<Node>),
    /// An object: names and what they hold.
    Object(Vec<(Cow<'static, str>, Node)>),
}

impl Node {
    /// Text.
    pub fn text(text: impl Into<Cow<'static, str>>) -> Self {
        Self::Text(text.into())
    }

    /// A number; one that is not finite, which no calculation gives, as text.
    pub fn number(value: f64) -> Self {
        if value.is_finite() {
            Self::Number(value)
        } else {
            Self::text("not finite")
        }
    }

    /// An object of these fields.
    pub fn object<const N: usize>(fields: [(&'static str, Node); N]) -> Self {
        Self::Object(
            fields
                .into_iter()
                .map(|(name, node)| (name.into(), node))
                .collect(),
        )
    }

    /// The first field of a name, of an object.
    pub fn get(&self, name: &str) -> Option<&Node> {
        match self {
            Self::Object(fields) => fields.iter().find(|(n, _)| n == name).map(|(_, node)| node),
            _ => None,
        }
    }

    /// The node at a path such as `posts.3.depth`.
    pub fn at(&self, path: &str) -> Option<&Node> {
        path.split('.').try_fold(self, |node, step| match node {
            Self::List(items) => items.get(step.parse::<usize>().ok()?),
            _ => node.get(step),
        })
    }

    /// The number, if it is one.
    pub const fn as_number(&self) -> Option<f64> {
        match self {
            Self::Number(value) => Some(*value),
            _ => None,
        }
    }

    /// The text, if it is one.
    pub fn as_text(&self) -> Option<&str> {
        match self {
            Self::Text(text) => Some(text),
            _ => None,
        }
    }

    /// What kind of data it is, in a word.
    pub(super) const fn kind(&self) -> &'static str {
        match self {
            Self::Null => "nothing",
            Self::Bool(_) => "yes or no",
            Self::Number(_) => "a number",
            Self::Text(_) => "text",
            Self::List(_) => "a list",
            Self::Object(_) => "an object",
        }
    }

    /// As short text, for messages: long text is cut.
    pub(super) fn brief(&self) -> String {
        const LONGEST: usize = 60;
        match self {
            Self::Bool(value) => value.to_string(),
            Self::Number(value) => value.to_string(),
            Self::Text(text) if text.chars().count() > LONGEST => {
                text.chars().take(LONGEST).chain("...".chars()).collect()
            }
            Self::Text(text) => text.clone().into_owned(),
            other => other.kind().to_owned(),
        }
    }
}

impl Serialize for Node {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self {
            Self::Null => serializer.serialize_unit(),
            Self::Bool(value) => serializer.serialize_bool(*value),
            #[expect(
                clippy::cast_possible_truncation,
                reason = "whole and below 2^53, and not a negative zero"
            )]
            Self::Number(value)
                if value.fract() == 0.0
                    && value.abs() < EXACT
                    && (*value != 0.0 || value.is_sign_positive()) =>
            {
                serializer.serialize_i64(*value as i64)
            }
            Self::Number(value) => serializer.serialize_f64(*value),
            Self::Text(text) => serializer.serialize_str(text),
            Self::List(items) => {
                let mut list = serializer.serialize_seq(Some(items.len()))?;
                for item in items {
                    list.serialize_element(item)?;
                }
                list.end()
            }
            Self::Object(fields) => {
                let mut map = serializer.serialize_map(Some(fields.len()))?;
                for (name, node) in fields {
                    map.serialize_entry(name, node)?;
                }
                map.end()
            }
        }
    }
}

impl<'de> de::Deserialize<'de> for Node {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        Deep(0).deserialize(deserializer)
    }
}

/// Reads a node at a depth of nesting.
#[derive(Clone, Copy)]
struct Deep(usize);

impl Deep {
    fn deeper<E: de::Error>(self) -> Result<Self, E> {
        if self.0 < MOST_DEEP {
            Ok(Self(self.0 + 1))
        } else {
            Err(E::custom(format_args!(
                "nested more than {MOST_DEEP} levels deep"
            )))
        }
    }
}

impl<'de> DeserializeSeed<'de> for Deep {
    type Value = Node;

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<Node, D::Error> {
        deserializer.deserialize_any(self)
    }
}

impl<'de> Visitor<'de> for Deep {
    type Value = Node;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("plain data")
    }

    fn visit_unit<E: de::Error>(self) -> Result<Node, E> {
        Ok(Node::Null)
    }

    fn visit_none<E: de::Error>(self) -> Result<Node, E> {
        Ok(Node::Null)
    }

    fn visit_some<D: Deserializer<'de>>(self, deserializer: D) -> Result<Node, D::Error> {
        deserializer.deserialize_any(self)
    }

    fn visit_bool<E: de::Error>(self, value: bool) -> Result<Node, E> {
        Ok(Node::Bool(value))
    }

    #[expect(
        clippy::cast_precision_loss,
        reason = "a number of this size is out of every range anyway"
    )]
    fn visit_i64<E: de::Error>(self, value: i64) -> Result<Node, E> {
        Ok(Node::Number(value as f64))
    }

    #[expect(
        clippy::cast_precision_loss,
        reason = "a number of this size is out of every range anyway"
    )]
    fn visit_u64<E: de::Error>(self, value: u64) -> Result<Node, E> {
        Ok(Node::Number(value as f64))
    }

    fn visit_f64<E: de::Error>(self, value: f64) -> Result<Node, E> {
        if value.is_finite() {
            Ok(Node::Number(value))
        } else {
            Err(E::custom("a number that is not finite"))
        }
    }

    fn visit_str<E: de::Error>(self, value: &str) -> Result<Node, E> {
        Ok(Node::text(value.to_owned()))
    }

    fn visit_string<E: de::Error>(self, value: String) -> Result<Node, E> {
        Ok(Node::text(value))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Node, A::Error> {
        let deeper = self.deeper()?;
        let mut items = Vec::new();
        while let Some(item) = list.next_element_seed(deeper)? {
            items.push(item);
        }
        Ok(Node::List(items))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Node, A::Error> {
        let deeper = self.deeper()?;
        let mut fields = Vec::new();
        while let Some(name) = map.next_key::<String>()? {
            fields.push((name.into(), map.next_value_seed(deeper)?));
        }
        Ok(Node::Object(fields))
    }
}
