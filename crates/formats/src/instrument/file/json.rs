//! A JSON text as a tree, and that alone: what its values mean is asked later, so that one reader
//! serves every shape.

use serde::de::{Deserialize, Deserializer, MapAccess, SeqAccess, Visitor};
use std::fmt;

/// A value of a JSON text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Node {
    Null,
    Flag(bool),
    Whole(i64),
    /// A number with a fraction, or beyond what is counted with.
    Number,
    Text(String),
    List(Vec<Node>),
    /// The fields of an object, in the order of the text; a name may stand twice.
    Fields(Vec<(String, Node)>),
}

/// The most characters of a text that are repeated in a message.
const SHOWN: usize = 40;

impl Node {
    /// What a person sees here: "the number 7".
    pub(super) fn in_words(&self) -> String {
        match self {
            Self::Null => "null".to_owned(),
            Self::Flag(yes) => format!("`{yes}`"),
            Self::Whole(number) => format!("the number {number}"),
            Self::Number => "a number that is not whole".to_owned(),
            Self::Text(text) => format!("the text `{}`", shown(text)),
            Self::List(items) => format!("a list of {}", items.len()),
            Self::Fields(_) => "an object in braces".to_owned(),
        }
    }
}

/// A text, cut where it is long.
pub(super) fn shown(text: &str) -> String {
    let mut shown: String = text.chars().take(SHOWN).collect();
    if shown.len() < text.len() {
        shown.push('…');
    }
    shown
}

impl<'de> Deserialize<'de> for Node {
    fn deserialize<D: Deserializer<'de>>(reader: D) -> Result<Self, D::Error> {
        reader.deserialize_any(Any)
    }
}

struct Any;

impl<'de> Visitor<'de> for Any {
    type Value = Node;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a value")
    }

    fn visit_unit<E>(self) -> Result<Node, E> {
        Ok(Node::Null)
    }

    fn visit_bool<E>(self, yes: bool) -> Result<Node, E> {
        Ok(Node::Flag(yes))
    }

    fn visit_i64<E>(self, number: i64) -> Result<Node, E> {
        Ok(Node::Whole(number))
    }

    fn visit_u64<E>(self, number: u64) -> Result<Node, E> {
        Ok(i64::try_from(number).map_or(Node::Number, Node::Whole))
    }

    fn visit_f64<E>(self, _: f64) -> Result<Node, E> {
        Ok(Node::Number)
    }

    fn visit_str<E>(self, text: &str) -> Result<Node, E> {
        Ok(Node::Text(text.to_owned()))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Node, A::Error> {
        let mut items = Vec::new();
        while let Some(item) = list.next_element()? {
            items.push(item);
        }
        Ok(Node::List(items))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut object: A) -> Result<Node, A::Error> {
        let mut fields = Vec::new();
        while let Some(field) = object.next_entry()? {
            fields.push(field);
        }
        Ok(Node::Fields(fields))
    }
}
