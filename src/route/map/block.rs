//! A block of nodes and ways, handed over one by one.

use super::wire::{Broken, Field, Message, Packed, Summed, signed};
use crate::geo::Point;

/// Keys and values of a node or a way.
#[derive(Debug, Clone, Copy)]
pub(super) struct Tags<'a> {
    strings: &'a [&'a [u8]],
    pairs: &'a [(u64, u64)],
}

impl<'a> Tags<'a> {
    /// The value of a key.
    pub(super) fn get(&self, key: &str) -> Option<&'a str> {
        let string = |number: u64| usize::try_from(number).ok().and_then(|number| self.strings.get(number));
        let pair = self.pairs.iter().find(|(found, _)| string(*found).is_some_and(|found| *found == key.as_bytes()))?;
        string(pair.1).and_then(|value| std::str::from_utf8(value).ok())
    }

    /// Is there none?
    pub(super) fn is_empty(&self) -> bool {
        self.pairs.is_empty()
    }
}

/// What is done with nodes and ways.
pub(super) trait Visitor {
    /// Are nodes of any interest?
    const NODES: bool;
    /// Are ways?
    const WAYS: bool;
    /// A node that is somewhere.
    fn node(&mut self, _id: i64, _at: Point, _tags: &Tags<'_>) -> Result<(), String> {
        Ok(())
    }
    /// A way, with the ids of its nodes.
    fn way(&mut self, _id: i64, _nodes: &[i64], _tags: &Tags<'_>) -> Result<(), String> {
        Ok(())
    }
}

/// Why a block was not read to its end.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Stopped {
    Broken,
    Refused(String),
}

impl From<Broken> for Stopped {
    fn from(Broken: Broken) -> Self {
        Self::Broken
    }
}

/// What the numbers of a block mean.
#[derive(Debug)]
struct Block<'a> {
    strings: Vec<&'a [u8]>,
    granularity: i64,
    lat_offset: i64,
    lon_offset: i64,
}

/// Hands everything over that is of interest, and says what there was: nodes, ways.
pub(super) fn walk<V: Visitor>(content: &[u8], visitor: &mut V) -> Result<(bool, bool), Stopped> {
    let mut block = Block { strings: Vec::new(), granularity: 100, lat_offset: 0, lon_offset: 0 };
    let mut groups = Vec::new();
    for field in Message(content) {
        match field? {
            (1, Field::Bytes(table)) => {
                for string in Message(table) {
                    if let (1, Field::Bytes(string)) = string? {
                        block.strings.push(string);
                    }
                }
            }
            (2, Field::Bytes(group)) => groups.push(group),
            (17, Field::Number(number)) => block.granularity = number.cast_signed(),
            (19, Field::Number(number)) => block.lat_offset = number.cast_signed(),
            (20, Field::Number(number)) => block.lon_offset = number.cast_signed(),
            _ => {}
        }
    }
    let (mut nodes, mut ways) = (false, false);
    for group in groups {
        for field in Message(group) {
            match field? {
                (1, Field::Bytes(node)) => {
                    nodes = true;
                    if V::NODES {
                        block.node(node, visitor)?;
                    }
                }
                (2, Field::Bytes(dense)) => {
                    nodes = true;
                    if V::NODES {
                        block.dense(dense, visitor)?;
                    }
                }
                (3, Field::Bytes(way)) => {
                    ways = true;
                    if V::WAYS {
                        block.way(way, visitor)?;
                    }
                }
                _ => {}
            }
        }
    }
    Ok((nodes, ways))
}

impl Block<'_> {
    /// None where it is not on the earth, as nodes are that were taken off the map.
    fn point(&self, lat: i64, lon: i64) -> Option<Point> {
        #[allow(clippy::cast_precision_loss, reason = "a whole number of 1e-9 degrees up to 360 has at most 39 bits")]
        let degrees = |offset: i64, number: i64| {
            let number = number.checked_mul(self.granularity).and_then(|number| number.checked_add(offset));
            number.map(|number| number as f64 * 1e-9)
        };
        Point::new(degrees(self.lat_offset, lat)?, degrees(self.lon_offset, lon)?)
    }

    fn tags<'a>(&'a self, pairs: &'a [(u64, u64)]) -> Tags<'a> {
        Tags { strings: &self.strings, pairs }
    }

    fn dense(&self, dense: &[u8], visitor: &mut impl Visitor) -> Result<(), Stopped> {
        let message = Message(dense);
        let (mut lats, mut lons) = (Summed::new(message.bytes(8)?), Summed::new(message.bytes(9)?));
        let mut words = Packed(message.bytes(10)?);
        let tagged = !words.0.is_empty();
        let mut pairs = Vec::new();
        for id in Summed::new(message.bytes(1)?) {
            let id = id?;
            let (lat, lon) = (lats.next().ok_or(Broken)??, lons.next().ok_or(Broken)??);
            pairs.clear();
            if tagged {
                one_nodes_words(&mut words, &mut pairs)?;
            }
            if let Some(at) = self.point(lat, lon) {
                visitor.node(id, at, &self.tags(&pairs)).map_err(Stopped::Refused)?;
            }
        }
        Ok(())
    }

    fn node(&self, node: &[u8], visitor: &mut impl Visitor) -> Result<(), Stopped> {
        let (mut id, mut lat, mut lon) = (0, 0, 0);
        for field in Message(node) {
            match field? {
                (1, Field::Number(number)) => id = signed(number),
                (8, Field::Number(number)) => lat = signed(number),
                (9, Field::Number(number)) => lon = signed(number),
                _ => {}
            }
        }
        let pairs = pairs(&Message(node))?;
        match self.point(lat, lon) {
            Some(at) => visitor.node(id, at, &self.tags(&pairs)).map_err(Stopped::Refused),
            None => Ok(()),
        }
    }

    fn way(&self, way: &[u8], visitor: &mut impl Visitor) -> Result<(), Stopped> {
        let mut id = 0;
        for field in Message(way) {
            if let (1, Field::Number(number)) = field? {
                id = number.cast_signed();
            }
        }
        let nodes = Summed::new(Message(way).bytes(8)?).collect::<Result<Vec<i64>, Broken>>()?;
        let pairs = pairs(&Message(way))?;
        visitor.way(id, &nodes, &self.tags(&pairs)).map_err(Stopped::Refused)
    }
}

/// Keys and values of the next node, up to the zero that ends them.
fn one_nodes_words(words: &mut Packed<'_>, pairs: &mut Vec<(u64, u64)>) -> Result<(), Broken> {
    loop {
        match words.next().ok_or(Broken)?? {
            0 => return Ok(()),
            key => pairs.push((key, words.next().ok_or(Broken)??)),
        }
    }
}

/// Keys and values, which are written one list after the other.
fn pairs(message: &Message<'_>) -> Result<Vec<(u64, u64)>, Broken> {
    let (keys, mut values) = (Packed(message.bytes(2)?), Packed(message.bytes(3)?));
    keys.map(|key| Ok((key?, values.next().ok_or(Broken)??))).collect()
}
