//! A file as a tree that keeps the order of its keys, and the path to a node in it.

use crate::domain::Map;
use std::fmt;

/// A value of a file, before anybody knows what it means.
#[derive(Debug, Clone, PartialEq)]
pub enum Node {
    /// Nothing after the key.
    Null,
    /// `true` or `false`.
    Bool(bool),
    /// A whole number.
    Int(i64),
    /// A number with a fraction; may be infinite or not a number, which decoding refuses where it stands.
    Float(f64),
    /// Anything else written on its own.
    Text(String),
    /// A list.
    List(Vec<Node>),
    /// Keys and values in the order of the file.
    Map(Map<Node>),
    /// Was wrong, has been told, is skipped from now on. Keeps its place, so that its neighbours keep theirs.
    Spoilt,
}

/// One step down the tree.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Step {
    /// Into a map.
    Key(String),
    /// Into a list, counted from zero.
    Index(usize),
}

/// The steps from the root of a file to a node.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Default)]
pub struct Path(pub Vec<Step>);

impl Path {
    /// One step further, into a map.
    #[must_use]
    pub fn key(&self, key: &str) -> Self {
        self.with(Step::Key(key.to_owned()))
    }
    /// One step further, into a list (counted from zero).
    #[must_use]
    pub fn index(&self, index: usize) -> Self {
        self.with(Step::Index(index))
    }
    fn with(&self, step: Step) -> Self {
        let mut steps = self.0.clone();
        steps.push(step);
        Self(steps)
    }
}

impl fmt::Display for Path {
    /// `items.patch-kit.mass`, `trip.legs[1].km`; list members are counted from one, as people count.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (at, step) in self.0.iter().enumerate() {
            match step {
                Step::Key(key) if at == 0 => f.write_str(key)?,
                Step::Key(key) => write!(f, ".{key}")?,
                Step::Index(index) => write!(f, "[{}]", index + 1)?,
            }
        }
        Ok(())
    }
}

impl Node {
    /// An empty map, which is what an empty file means.
    #[must_use]
    pub fn empty() -> Self {
        Self::Map(Map::new())
    }

    /// Takes the node at `path` out of the reckoning; `false` when there is none.
    pub fn spoil(&mut self, path: &Path) -> bool {
        let mut node = self;
        for step in &path.0 {
            let next = match (node, step) {
                (Self::Map(entries), Step::Key(key)) => entries.get_mut(key),
                (Self::List(members), Step::Index(index)) => members.get_mut(*index),
                _ => None,
            };
            let Some(next) = next else { return false };
            node = next;
        }
        let fresh = *node != Self::Spoilt;
        *node = Self::Spoilt;
        fresh
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_path_reads_as_keys_and_places() {
        let path = Path::default().key("trip").key("legs").index(0).key("km");
        assert_eq!(path.to_string(), "trip.legs[1].km");
    }

    #[test]
    fn a_spoilt_node_keeps_its_place() {
        let mut node = Node::List(vec![Node::Int(1), Node::Int(2)]);
        assert!(node.spoil(&Path::default().index(0)));
        assert_eq!(node, Node::List(vec![Node::Spoilt, Node::Int(2)]));
        assert!(!node.spoil(&Path::default().index(0)));
        assert!(!node.spoil(&Path::default().index(7)));
    }
}
