//! Growing a tree out of whatever a YAML parser reports, with limits on what a file may cost.

use super::node::{Node, Path, Step};
use crate::diagnostic::{Code, plain, quoted};
use crate::domain::Map;
use fardel_words::{say, word};
use serde::de::{self, DeserializeSeed, EnumAccess, MapAccess, SeqAccess, Visitor};
use std::cell::RefCell;
use std::fmt;

/// Most bytes of a single text, or of a cell of a spreadsheet.
pub(super) const LONGEST_TEXT: usize = 4000;
/// Most bytes of text in one file, aliases counted as often as they are used.
const MOST_TEXT: usize = 8 << 20;
/// Most values in one file, aliases counted as often as they are used.
const MOST_NODES: usize = 200_000;
/// Deepest nesting; the format itself needs eight levels.
const DEEPEST: usize = 64;

/// Why a text is no tree.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct YamlFault {
    /// What sort of problem.
    pub code: Code,
    /// Where, as far as it is known.
    pub path: Path,
    /// Line, counted from one.
    pub line: Option<usize>,
    /// What stands there.
    pub found: String,
    /// What should stand there.
    pub expected: String,
}

impl YamlFault {
    pub(super) fn whole(code: Code, found: &str, expected: &str) -> Self {
        Self { code, path: Path::default(), line: None, found: found.to_owned(), expected: expected.to_owned() }
    }
}

/// What is counted while a tree grows, where it is growing, and the first thing that went wrong.
#[derive(Default)]
pub(super) struct Watch(RefCell<Watched>);

#[derive(Default)]
struct Watched {
    path: Vec<Step>,
    nodes: usize,
    text: usize,
    fault: Option<YamlFault>,
}

impl Watch {
    fn stop<E: de::Error>(&self, code: Code, found: &str, expected: &str) -> E {
        let mut watched = self.0.borrow_mut();
        let path = Path(watched.path.clone());
        watched.fault.get_or_insert(YamlFault { path, ..YamlFault::whole(code, found, expected) });
        E::custom(found)
    }
    fn enter<E: de::Error>(&self, step: Step) -> Result<(), E> {
        let depth = {
            let mut watched = self.0.borrow_mut();
            watched.path.push(step);
            watched.path.len()
        };
        if depth <= DEEPEST {
            return Ok(());
        }
        // The whole path would only repeat what the brackets in the text show.
        self.0.borrow_mut().path.truncate(1);
        Err(self.stop(Code::TooLarge, word!("deeper nesting"), word!("at most 64 levels of nesting")))
    }
    fn leave(&self) {
        self.0.borrow_mut().path.pop();
    }
    fn count<E: de::Error>(&self, text: usize) -> Result<(), E> {
        let (nodes, total) = {
            let mut watched = self.0.borrow_mut();
            watched.nodes += 1;
            watched.text += text;
            (watched.nodes, watched.text)
        };
        if text > LONGEST_TEXT {
            return Err(self.stop(Code::TooLarge, word!("a very long text"), word!("at most 4000 bytes in one text")));
        }
        if nodes > MOST_NODES || total > MOST_TEXT {
            return Err(self.stop(
                Code::TooLarge,
                word!("too many values"),
                word!("at most 200000 values and 8 MB of text, repeats counted"),
            ));
        }
        Ok(())
    }
    /// The fault we raised ourselves, if it was ours.
    pub(super) fn take(&self) -> Option<YamlFault> {
        self.0.borrow_mut().fault.take()
    }
}

/// Builds a node.
#[derive(Clone, Copy)]
pub(super) struct Seed<'a>(pub &'a Watch);

impl<'de> DeserializeSeed<'de> for Seed<'_> {
    type Value = Node;
    fn deserialize<D: de::Deserializer<'de>>(self, document: D) -> Result<Node, D::Error> {
        document.deserialize_any(self)
    }
}

#[allow(clippy::cast_precision_loss, reason = "such numbers are out of every range anyway")]
impl<'de> Visitor<'de> for Seed<'_> {
    type Value = Node;
    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a value")
    }
    fn visit_unit<E: de::Error>(self) -> Result<Node, E> {
        self.0.count(0).map(|()| Node::Null)
    }
    fn visit_none<E: de::Error>(self) -> Result<Node, E> {
        self.visit_unit()
    }
    fn visit_bool<E: de::Error>(self, value: bool) -> Result<Node, E> {
        self.0.count(0).map(|()| Node::Bool(value))
    }
    fn visit_i64<E: de::Error>(self, value: i64) -> Result<Node, E> {
        self.0.count(0).map(|()| Node::Int(value))
    }
    fn visit_u64<E: de::Error>(self, value: u64) -> Result<Node, E> {
        self.visit_f64(value as f64).map(|float| i64::try_from(value).map_or(float, Node::Int))
    }
    fn visit_i128<E: de::Error>(self, value: i128) -> Result<Node, E> {
        self.visit_f64(value as f64)
    }
    fn visit_u128<E: de::Error>(self, value: u128) -> Result<Node, E> {
        self.visit_f64(value as f64)
    }
    fn visit_f64<E: de::Error>(self, value: f64) -> Result<Node, E> {
        self.0.count(0).map(|()| Node::Float(value))
    }
    fn visit_str<E: de::Error>(self, value: &str) -> Result<Node, E> {
        self.0.count(value.len()).map(|()| Node::Text(value.to_owned()))
    }
    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Node, A::Error> {
        self.0.count(0)?;
        let mut members = Vec::new();
        loop {
            self.0.enter(Step::Index(members.len()))?;
            let Some(member) = list.next_element_seed(self)? else { break };
            self.0.leave();
            members.push(member);
        }
        self.0.leave();
        Ok(Node::List(members))
    }
    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Node, A::Error> {
        self.0.count(0)?;
        let mut entries = Map::new();
        while let Some(key) = map.next_key_seed(KeySeed { watch: self.0, known: Some(&entries) })? {
            self.0.enter(Step::Key(key.clone()))?;
            let value = map.next_value_seed(self)?;
            self.0.leave();
            entries.insert(key, value);
        }
        Ok(Node::Map(entries))
    }
    fn visit_enum<A: EnumAccess<'de>>(self, tagged: A) -> Result<Node, A::Error> {
        let (tag, _) = tagged.variant::<String>()?;
        Err(self.0.stop(
            Code::NotYaml,
            &say!("the tag `!{}`", plain(&tag, 40)),
            word!("a plain value; quote a text that begins with `!`"),
        ))
    }
}

/// Reads a key as text and refuses it when the map has it already.
struct KeySeed<'a> {
    watch: &'a Watch,
    known: Option<&'a Map<Node>>,
}

impl KeySeed<'_> {
    fn take<E: de::Error>(self, key: String) -> Result<String, E> {
        self.watch.count(key.len())?;
        if self.known.is_some_and(|entries| entries.contains_key(&key)) {
            self.watch.0.borrow_mut().path.push(Step::Key(key.clone()));
            return Err(self.watch.stop(
                Code::DuplicateKey,
                &say!("{} a second time", quoted(&key)),
                word!("every key once in its map"),
            ));
        }
        Ok(key)
    }
    fn refuse<E: de::Error>(self, found: &str) -> E {
        self.watch.stop(Code::NotYaml, found, word!("a word before the colon"))
    }
}

impl<'de> DeserializeSeed<'de> for KeySeed<'_> {
    type Value = String;
    fn deserialize<D: de::Deserializer<'de>>(self, key: D) -> Result<String, D::Error> {
        key.deserialize_any(self)
    }
}

impl<'de> Visitor<'de> for KeySeed<'_> {
    type Value = String;
    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a key")
    }
    fn visit_str<E: de::Error>(self, key: &str) -> Result<String, E> {
        self.take(key.to_owned())
    }
    fn visit_bool<E: de::Error>(self, key: bool) -> Result<String, E> {
        self.take(key.to_string())
    }
    fn visit_i64<E: de::Error>(self, key: i64) -> Result<String, E> {
        self.take(key.to_string())
    }
    fn visit_u64<E: de::Error>(self, key: u64) -> Result<String, E> {
        self.take(key.to_string())
    }
    fn visit_f64<E: de::Error>(self, key: f64) -> Result<String, E> {
        self.take(key.to_string())
    }
    fn visit_unit<E: de::Error>(self) -> Result<String, E> {
        Err(self.refuse(word!("nothing as a key")))
    }
    fn visit_seq<A: SeqAccess<'de>>(self, _: A) -> Result<String, A::Error> {
        Err(self.refuse(word!("a list as a key")))
    }
    fn visit_map<A: MapAccess<'de>>(self, _: A) -> Result<String, A::Error> {
        Err(self.refuse(word!("a map as a key; a text that begins with a brace needs quotes")))
    }
    fn visit_enum<A: EnumAccess<'de>>(self, _: A) -> Result<String, A::Error> {
        Err(self.refuse(word!("a tag on a key")))
    }
}
