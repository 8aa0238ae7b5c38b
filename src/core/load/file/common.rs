//! Value shapes that several sections share.

use crate::domain::{BySurface, Map};
use crate::load::numbers::Count;
use fardel_words::word;
use schemars::JsonSchema;
use serde::Deserialize;
use serde::de::{Deserializer, Error, MapAccess, SeqAccess, Visitor};
use std::fmt;

/// A text, or a bare number or truth value taken as the text it stands for (`chain: 520`).
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Text(pub String);

struct TextVisitor;

impl Visitor<'_> for TextVisitor {
    type Value = Text;
    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(word!("a text or a number"))
    }
    fn visit_str<E: Error>(self, text: &str) -> Result<Text, E> {
        Ok(Text(text.trim().to_owned()))
    }
    fn visit_bool<E: Error>(self, value: bool) -> Result<Text, E> {
        Ok(Text(value.to_string()))
    }
    fn visit_i64<E: Error>(self, value: i64) -> Result<Text, E> {
        Ok(Text(value.to_string()))
    }
    fn visit_f64<E: Error>(self, value: f64) -> Result<Text, E> {
        Ok(Text(value.to_string()))
    }
}

impl<'de> Deserialize<'de> for Text {
    fn deserialize<D: Deserializer<'de>>(value: D) -> Result<Self, D::Error> {
        value.deserialize_any(TextVisitor)
    }
}

/// One text, or a list of texts any of which will do.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(crate) struct OneOrMany(pub Vec<String>);

struct OneOrManyVisitor;

impl<'de> Visitor<'de> for OneOrManyVisitor {
    type Value = OneOrMany;
    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(word!("a value or a list of values"))
    }
    fn visit_str<E: Error>(self, text: &str) -> Result<OneOrMany, E> {
        TextVisitor.visit_str(text).map(|text: Text| OneOrMany(vec![text.0]))
    }
    fn visit_bool<E: Error>(self, value: bool) -> Result<OneOrMany, E> {
        self.visit_str(&value.to_string())
    }
    fn visit_i64<E: Error>(self, value: i64) -> Result<OneOrMany, E> {
        self.visit_str(&value.to_string())
    }
    fn visit_f64<E: Error>(self, value: f64) -> Result<OneOrMany, E> {
        self.visit_str(&value.to_string())
    }
    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<OneOrMany, A::Error> {
        let mut texts = Vec::new();
        while let Some(text) = list.next_element::<Text>()? {
            texts.push(text.0);
        }
        Ok(OneOrMany(texts))
    }
}

impl<'de> Deserialize<'de> for OneOrMany {
    fn deserialize<D: Deserializer<'de>>(value: D) -> Result<Self, D::Error> {
        value.deserialize_any(OneOrManyVisitor)
    }
}

/// Names with counts: a map, or a list in which every mention counts one.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(crate) struct Counted(pub Map<u32>);

struct CountedVisitor;

impl<'de> Visitor<'de> for CountedVisitor {
    type Value = Counted;
    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(word!("a list of names, or a map of names to counts"))
    }
    fn visit_unit<E: Error>(self) -> Result<Counted, E> {
        Ok(Counted::default())
    }
    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Counted, A::Error> {
        let mut counts = Map::new();
        while let Some(name) = list.next_element::<Text>()? {
            *counts.entry(name.0).or_insert(0) += 1;
        }
        Ok(Counted(counts))
    }
    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Counted, A::Error> {
        let mut counts = Map::new();
        while let Some((name, count)) = map.next_entry::<String, Count>()? {
            counts.insert(name, count.0);
        }
        Ok(Counted(counts))
    }
}

impl<'de> Deserialize<'de> for Counted {
    fn deserialize<D: Deserializer<'de>>(value: D) -> Result<Self, D::Error> {
        value.deserialize_any(CountedVisitor)
    }
}

/// A value for each surface, some of which may be left out.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct Surfaces<T> {
    /// Sealed roads.
    pub sealed: Option<T>,
    /// Gravel roads.
    pub gravel: Option<T>,
    /// Tracks.
    pub track: Option<T>,
    /// Rough ground.
    pub rough: Option<T>,
}

// By hand, because nothing is needed of `T`.
impl<T> Default for Surfaces<T> {
    fn default() -> Self {
        Self { sealed: None, gravel: None, track: None, rough: None }
    }
}

impl<T: Copy> Surfaces<T> {
    /// The values from sealed to rough, absent ones replaced.
    pub fn or(&self, absent: T) -> BySurface<T> {
        BySurface::new([self.sealed, self.gravel, self.track, self.rough].map(|value| value.unwrap_or(absent)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::load::yaml::parse;

    fn counted(text: &str) -> Vec<(String, u32)> {
        Counted::deserialize(&parse(text).unwrap()).unwrap().0.into_iter().collect()
    }

    #[test]
    fn a_list_counts_mentions_and_a_map_says_counts() {
        assert_eq!(counted("[pump, lever, lever]"), [("pump".to_owned(), 1), ("lever".to_owned(), 2)]);
        assert_eq!(counted("{ pump: 1, lever: 3 }"), [("pump".to_owned(), 1), ("lever".to_owned(), 3)]);
        assert!(Counted::deserialize(&parse("pump").unwrap_or(crate::load::node::Node::Int(1))).is_err());
    }

    #[test]
    fn numbers_may_stand_for_texts() {
        assert_eq!(Text::deserialize(&parse("520").unwrap()), Ok(Text("520".to_owned())));
        assert_eq!(OneOrMany::deserialize(&parse("[520, belt]").unwrap()).unwrap().0, ["520", "belt"]);
    }
}
