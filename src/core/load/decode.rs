//! Tree to file shape: a serde format over [`Node`] whose errors say where they happened and what was expected.

use super::node::{Node, Path, Step};
use crate::diagnostic::quoted;
use fardel_words::say;
use serde::de::value::StrDeserializer;
use serde::de::{self, DeserializeSeed, Expected, IntoDeserializer, MapAccess, SeqAccess, Unexpected, Visitor};
use std::fmt;

/// What is wrong with a node.
#[derive(Debug, Clone, PartialEq)]
pub enum Wrong {
    /// A key that the shape lacks; the path ends with the key.
    UnknownField(String, &'static [&'static str]),
    /// A key that the shape demands; the path ends with the map.
    Missing(&'static str),
    /// A list where a text belongs.
    Type(String, String),
    /// A text that should be a quantity with a unit: what was found, what was expected.
    Quantity(String, String),
    /// A number outside its range.
    Range(String, String),
    /// A word outside its list.
    Word(String, &'static [&'static str]),
    /// Anything else, in words.
    Other(String),
}

/// An error on the way from tree to shape.
#[derive(Debug, Clone, PartialEq)]
pub struct DecodeError {
    /// From the node outwards; [`DecodeError::path`] puts it in order.
    steps: Vec<Step>,
    /// What is wrong there.
    pub wrong: Wrong,
}

impl DecodeError {
    fn new(wrong: Wrong) -> Self {
        Self { steps: Vec::new(), wrong }
    }
    fn below(mut self, step: Step) -> Self {
        self.steps.push(step);
        self
    }
    /// Where it happened.
    #[must_use]
    pub fn path(&self) -> Path {
        Path(self.steps.iter().rev().cloned().collect())
    }
}

impl fmt::Display for DecodeError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {:?}", self.path(), self.wrong)
    }
}

impl std::error::Error for DecodeError {}

/// What serde found, in a rider's words.
fn found(unexpected: Unexpected<'_>) -> String {
    match unexpected {
        Unexpected::Bool(value) => quoted(&value.to_string()),
        Unexpected::Signed(value) => say!("the number `{value}`"),
        Unexpected::Unsigned(value) => say!("the number `{value}`"),
        Unexpected::Float(value) => say!("the number `{value}`"),
        Unexpected::Str(text) => quoted(text),
        Unexpected::Unit | Unexpected::Option => "nothing".to_owned(),
        Unexpected::Seq => "a list".to_owned(),
        Unexpected::Map => "a map".to_owned(),
        Unexpected::Other(words) => words.to_owned(),
        other => other.to_string(),
    }
}

/// What serde expected, in a rider's words.
fn wanted(expected: &dyn Expected) -> String {
    match expected.to_string() {
        text if text == "a string" => "a text".to_owned(),
        text if text == "a sequence" => "a list".to_owned(),
        text if text == "a boolean" => say!("`true` or `false`"),
        text if text == "a map" || text.starts_with("struct ") => say!("a map of `key: value` lines"),
        text => text,
    }
}

impl de::Error for DecodeError {
    fn custom<T: fmt::Display>(message: T) -> Self {
        Self::new(Wrong::Other(message.to_string()))
    }
    fn invalid_type(unexpected: Unexpected<'_>, expected: &dyn Expected) -> Self {
        let found = match unexpected {
            Unexpected::Str(text) => say!("the text {}", quoted(text)),
            other => found(other),
        };
        Self::new(Wrong::Type(found, wanted(expected)))
    }
    fn invalid_value(unexpected: Unexpected<'_>, expected: &dyn Expected) -> Self {
        // Only quantities refuse texts by value, and only ranges refuse numbers.
        let sort = if matches!(unexpected, Unexpected::Str(_)) { Wrong::Quantity } else { Wrong::Range };
        Self::new(sort(found(unexpected), wanted(expected)))
    }
    fn unknown_variant(word: &str, words: &'static [&'static str]) -> Self {
        Self::new(Wrong::Word(word.to_owned(), words))
    }
    fn unknown_field(field: &str, fields: &'static [&'static str]) -> Self {
        Self::new(Wrong::UnknownField(field.to_owned(), fields))
    }
    fn missing_field(field: &'static str) -> Self {
        Self::new(Wrong::Missing(field))
    }
}

impl<'de> de::Deserializer<'de> for &'de Node {
    type Error = DecodeError;

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, DecodeError> {
        match self {
            Node::Null | Node::Spoilt => visitor.visit_unit(),
            Node::Bool(value) => visitor.visit_bool(*value),
            Node::Int(value) => visitor.visit_i64(*value),
            Node::Float(value) => visitor.visit_f64(*value),
            Node::Text(text) => visitor.visit_borrowed_str(text),
            Node::List(members) => visitor.visit_seq(Members { rest: members.iter().enumerate() }),
            Node::Map(entries) => visitor.visit_map(Entries { rest: entries.iter(), open: None }),
        }
    }
    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, DecodeError> {
        if matches!(self, Node::Null | Node::Spoilt) { visitor.visit_none() } else { visitor.visit_some(self) }
    }
    fn deserialize_newtype_struct<V: Visitor<'de>>(self, _: &'static str, visitor: V) -> Result<V::Value, DecodeError> {
        visitor.visit_newtype_struct(self)
    }
    /// A key with nothing after it is an empty list.
    fn deserialize_seq<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, DecodeError> {
        match self {
            Node::Null => visitor.visit_seq(Members { rest: [].iter().enumerate() }),
            other => other.deserialize_any(visitor),
        }
    }
    /// A key with nothing after it is an empty map.
    fn deserialize_map<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, DecodeError> {
        match self {
            Node::Null => visitor.visit_map(Entries { rest: indexmap::map::Slice::new().iter(), open: None }),
            other => other.deserialize_any(visitor),
        }
    }
    fn deserialize_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, DecodeError> {
        match self {
            // Without this, serde would also take a list of values in the order of the fields.
            Node::List(_) => Err(de::Error::invalid_type(Unexpected::Seq, &"a map")),
            other => other.deserialize_map(visitor),
        }
    }
    serde::forward_to_deserialize_any! {
        bool i8 i16 i32 i64 i128 u8 u16 u32 u64 u128 f32 f64 char str string bytes byte_buf unit unit_struct tuple
        tuple_struct enum identifier ignored_any
    }
}

struct Members<'de> {
    rest: std::iter::Enumerate<std::slice::Iter<'de, Node>>,
}

impl<'de> SeqAccess<'de> for Members<'de> {
    type Error = DecodeError;
    fn next_element_seed<T: DeserializeSeed<'de>>(&mut self, seed: T) -> Result<Option<T::Value>, DecodeError> {
        let Some((at, node)) = self.rest.find(|(_, node)| **node != Node::Spoilt) else { return Ok(None) };
        seed.deserialize(node).map(Some).map_err(|error| error.below(Step::Index(at)))
    }
}

struct Entries<'de> {
    rest: indexmap::map::Iter<'de, String, Node>,
    open: Option<(&'de String, &'de Node)>,
}

impl<'de> MapAccess<'de> for Entries<'de> {
    type Error = DecodeError;
    fn next_key_seed<K: DeserializeSeed<'de>>(&mut self, seed: K) -> Result<Option<K::Value>, DecodeError> {
        self.open = self.rest.find(|(_, node)| **node != Node::Spoilt);
        let Some((key, _)) = self.open else { return Ok(None) };
        let text: StrDeserializer<'_, DecodeError> = key.as_str().into_deserializer();
        seed.deserialize(text).map(Some).map_err(|error| error.below(Step::Key(key.clone())))
    }
    fn next_value_seed<T: DeserializeSeed<'de>>(&mut self, seed: T) -> Result<T::Value, DecodeError> {
        let (key, node) = self.open.take().ok_or_else(|| DecodeError::new(Wrong::Missing("a key")))?;
        seed.deserialize(node).map_err(|error| error.below(Step::Key(key.clone())))
    }
}
