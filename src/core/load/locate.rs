//! Finding the line of a place: the text is read again, and an error raised where the path ends carries the line.

use super::node::Step;
use serde::de::{self, DeserializeSeed, EnumAccess, MapAccess, SeqAccess, Visitor};
use std::fmt;

/// The message by which a [`Finder`] tells that it has arrived; the crate adds the line to it.
pub(super) const HERE: &str = "arrived at the place";

/// Walks down a path and raises an error where it ends. `here`: the value being looked at is the place itself.
pub(super) struct Finder<'a> {
    pub steps: &'a [Step],
    pub here: bool,
}

impl<'de> DeserializeSeed<'de> for Finder<'_> {
    type Value = ();
    fn deserialize<D: de::Deserializer<'de>>(self, document: D) -> Result<(), D::Error> {
        document.deserialize_any(self)
    }
}

impl<'de> Visitor<'de> for Finder<'_> {
    type Value = ();
    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(HERE)
    }
    fn visit_unit<E: de::Error>(self) -> Result<(), E> {
        if self.here { Err(E::custom(HERE)) } else { Ok(()) }
    }
    fn visit_none<E: de::Error>(self) -> Result<(), E> {
        self.visit_unit()
    }
    fn visit_bool<E: de::Error>(self, _: bool) -> Result<(), E> {
        self.visit_unit()
    }
    fn visit_i64<E: de::Error>(self, _: i64) -> Result<(), E> {
        self.visit_unit()
    }
    fn visit_u64<E: de::Error>(self, _: u64) -> Result<(), E> {
        self.visit_unit()
    }
    fn visit_i128<E: de::Error>(self, _: i128) -> Result<(), E> {
        self.visit_unit()
    }
    fn visit_u128<E: de::Error>(self, _: u128) -> Result<(), E> {
        self.visit_unit()
    }
    fn visit_f64<E: de::Error>(self, _: f64) -> Result<(), E> {
        self.visit_unit()
    }
    fn visit_str<E: de::Error>(self, _: &str) -> Result<(), E> {
        self.visit_unit()
    }
    fn visit_enum<A: EnumAccess<'de>>(self, _: A) -> Result<(), A::Error> {
        Err(de::Error::custom("a tag"))
    }
    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<(), A::Error> {
        let wanted = match self.steps.split_first() {
            _ if self.here => return Err(de::Error::custom(HERE)),
            Some((Step::Index(index), rest)) => Some((*index, rest)),
            _ => None,
        };
        let mut at = 0;
        loop {
            let steps = wanted.and_then(|(index, rest)| (index == at).then_some(rest));
            let more = match steps {
                Some(steps) => list.next_element_seed(Finder { steps, here: steps.is_empty() })?.is_some(),
                None => list.next_element::<de::IgnoredAny>()?.is_some(),
            };
            if !more {
                return Ok(());
            }
            at += 1;
        }
    }
    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<(), A::Error> {
        let wanted = match self.steps.split_first() {
            _ if self.here => return Err(de::Error::custom(HERE)),
            Some((Step::Key(key), rest)) => Some((key.as_str(), rest)),
            _ => None,
        };
        let last = wanted.filter(|(_, rest)| rest.is_empty()).map(|(key, _)| key);
        while let Some(key) = map.next_key_seed(KeyFinder { last })? {
            match wanted {
                Some((name, steps)) if key == name => map.next_value_seed(Finder { steps, here: false })?,
                _ => map.next_value::<de::IgnoredAny>().map(|_| ())?,
            }
        }
        Ok(())
    }
}

/// Reads keys; arrives at the one that is the last step, so that the line told is the key's own.
struct KeyFinder<'a> {
    last: Option<&'a str>,
}

impl<'de> DeserializeSeed<'de> for KeyFinder<'_> {
    type Value = String;
    fn deserialize<D: de::Deserializer<'de>>(self, key: D) -> Result<String, D::Error> {
        key.deserialize_any(self)
    }
}

impl Visitor<'_> for KeyFinder<'_> {
    type Value = String;
    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a key")
    }
    fn visit_str<E: de::Error>(self, key: &str) -> Result<String, E> {
        if self.last == Some(key) { Err(E::custom(HERE)) } else { Ok(key.to_owned()) }
    }
    fn visit_bool<E: de::Error>(self, key: bool) -> Result<String, E> {
        self.visit_str(&key.to_string())
    }
    fn visit_i64<E: de::Error>(self, key: i64) -> Result<String, E> {
        self.visit_str(&key.to_string())
    }
    fn visit_u64<E: de::Error>(self, key: u64) -> Result<String, E> {
        self.visit_str(&key.to_string())
    }
    fn visit_f64<E: de::Error>(self, key: f64) -> Result<String, E> {
        self.visit_str(&key.to_string())
    }
}
