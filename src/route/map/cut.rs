//! The corridor written as an extract of its own, so that the next run along the same ride need not read a whole country.
//!
//! It is a PBF file as any other, and read as such. What it says of ways and places are the fewest tags from which the
//! reader makes the same of them again. Its header names what it was cut from; a cut of something else is not used.

use super::blob::Blobs;
use super::corridor::{Corridor, Way};
use super::places::{Place, PlaceKind};
use super::tags::{FORD_OF_CUT, Ground, WayKind};
use crate::geo::Point;
use crate::ride::Ride;

use flate2::Compression;
use flate2::write::ZlibEncoder;
use std::collections::{BTreeMap, BTreeSet};
use std::hash::{DefaultHasher, Hash, Hasher};
use std::io::{self, Read, Seek, Write};

/// Nodes, and ways, of a block; as many as other programs put into one.
const BLOCK: usize = 8000;
/// Changes when the corridor holds something else than before.
const VERSION: u32 = 1;
/// How the origin of every cut begins.
const CUT: &str = "corridor";

/// What a cut is made of: an extract, as its name, size and time of change tell it apart, and the corridor of a ride.
#[must_use]
pub fn origin(extract: &str, size: u64, changed: u64, ride: &Ride, reach: f64) -> String {
    let mut hash = DefaultHasher::new();
    for piece in &ride.pieces {
        piece.space.0.iter().for_each(|metres| metres.to_bits().hash(&mut hash));
    }
    reach.to_bits().hash(&mut hash);
    format!("{CUT} {VERSION} of {extract}, {size} bytes, changed {changed}, along {:016x}", hash.finish())
}

/// Does this origin stand in a cut, of whatever extract and ride?
#[must_use]
pub fn is_ours(origin: &str) -> bool {
    origin.starts_with(CUT)
}

/// What this extract says it was cut from; none where it is no cut, or cannot be read.
pub fn origin_of(reader: impl Read + Seek) -> Option<String> {
    let mut blobs = Blobs::new("", reader).ok()?;
    blobs.next().ok()?;
    blobs.source
}

/// The corridor as an extract, without the nodes of outlines that were read as places: they are of no more use.
///
/// # Errors
/// Where packing fails, which it does not in memory.
pub fn bytes(corridor: &Corridor, origin: &str) -> io::Result<Vec<u8>> {
    let used: BTreeSet<u32> = corridor.ways.iter().flat_map(|way| way.nodes.iter().copied()).collect();
    packed(corridor, origin, used.into_iter())
}

/// The same with every node, as an extract of a country has them.
///
/// # Errors
/// As [`bytes`].
#[doc(hidden)]
pub fn bytes_with_every_node(corridor: &Corridor, origin: &str) -> io::Result<Vec<u8>> {
    packed(corridor, origin, (0..).take(corridor.nodes.len()))
}

fn packed(corridor: &Corridor, origin: &str, nodes: impl Iterator<Item = u32>) -> io::Result<Vec<u8>> {
    let header = [
        field(4, b"OsmSchema-V0.6"),
        field(4, b"DenseNodes"),
        field(16, b"fardel route"),
        field(17, origin.as_bytes()),
    ];
    let mut file = blob(b"OSMHeader", &header.concat())?;
    let bare = nodes.map(|node| node as usize).map(|node| (corridor.ids[node], corridor.nodes[node], Vec::new()));
    // Places have ids that no map gives.
    let marked = corridor.places.iter().zip(1..).map(|(place, number)| (-number, place.at, place_tags(place)));
    let nodes: Vec<(i64, Point, Tags<'_>)> = bare.chain(marked).collect();
    for nodes in nodes.chunks(BLOCK) {
        file.extend(blob(b"OSMData", &node_block(nodes))?);
    }
    for ways in corridor.ways.chunks(BLOCK) {
        file.extend(blob(b"OSMData", &way_block(ways, &corridor.ids))?);
    }
    Ok(file)
}

type Tags<'a> = Vec<(&'static str, &'a str)>;

fn place_tags(place: &Place) -> Tags<'_> {
    let kind = match place.kind {
        PlaceKind::Fuel => ("amenity", "fuel"),
        PlaceKind::Shop => ("shop", "convenience"),
        PlaceKind::Water => ("amenity", "drinking_water"),
        PlaceKind::Settlement => ("place", "town"),
        PlaceKind::Workshop => ("shop", "motorcycle_repair"),
        PlaceKind::Hospital => ("amenity", "hospital"),
        PlaceKind::Ranger => ("amenity", "ranger_station"),
        PlaceKind::Ford => ("ford", "yes"),
        PlaceKind::Gate => ("barrier", "gate"),
    };
    let name = (!place.name.is_empty()).then_some(("name", place.name.as_str()));
    [Some(kind), name].into_iter().flatten().collect()
}

fn way_tags(kind: WayKind) -> Tags<'static> {
    let way = if kind.ground == Ground::Ferry { ("route", "ferry") } else { ("highway", "road") };
    let surface = match kind.ground {
        Ground::Sealed => Some("asphalt"),
        Ground::Gravel => Some("gravel"),
        Ground::Track => Some("dirt"),
        Ground::Rough => Some("sand"),
        Ground::Unknown | Ground::OffMap | Ground::Ferry => None,
    };
    let directions = match kind.directions {
        (true, false) => "yes",
        (false, true) => "-1",
        _ => "no",
    };
    let closed = (!kind.drivable).then_some(("motor_vehicle", "no"));
    let ford = kind.ford.then_some((FORD_OF_CUT, "yes"));
    let surface = surface.map(|surface| ("surface", surface));
    [Some(way), surface, Some(("oneway", directions)), closed, ford].into_iter().flatten().collect()
}

/// The strings of a block, each once. The first is empty, as the format wants it.
#[derive(Debug, Default)]
struct Strings<'a> {
    numbers: BTreeMap<&'a str, u64>,
    table: Vec<u8>,
}

impl<'a> Strings<'a> {
    fn new() -> Self {
        Self { numbers: BTreeMap::new(), table: field(1, b"") }
    }

    fn number(&mut self, string: &'a str) -> u64 {
        let next = self.numbers.len() as u64 + 1;
        *self.numbers.entry(string).or_insert_with(|| {
            self.table.extend(field(1, string.as_bytes()));
            next
        })
    }

    fn numbers(&mut self, strings: impl Iterator<Item = &'a str>) -> Vec<u8> {
        strings.flat_map(|string| varint(self.number(string))).collect()
    }
}

fn node_block(nodes: &[(i64, Point, Tags<'_>)]) -> Vec<u8> {
    #[allow(clippy::cast_possible_truncation, reason = "degrees in units of 1e-7, as maps have them")]
    let units = |degrees: f64| (degrees * 1e7).round() as i64;
    let mut strings = Strings::new();
    let mut words = Vec::new();
    for (_, _, tags) in nodes {
        words.extend(strings.numbers(tags.iter().flat_map(|(key, value)| [*key, *value])));
        words.push(0);
    }
    let dense = [
        field(1, &differences(nodes.iter().map(|node| node.0))),
        field(8, &differences(nodes.iter().map(|node| units(node.1.lat)))),
        field(9, &differences(nodes.iter().map(|node| units(node.1.lon)))),
        field(10, &words),
    ];
    [field(1, &strings.table), field(2, &field(2, &dense.concat()))].concat()
}

fn way_block(ways: &[Way], ids: &[i64]) -> Vec<u8> {
    let mut strings = Strings::new();
    let mut group = Vec::new();
    for way in ways {
        let tags = way_tags(way.kind);
        let message = [
            [varint(1 << 3), varint(way.id.cast_unsigned())].concat(),
            field(2, &strings.numbers(tags.iter().map(|(key, _)| *key))),
            field(3, &strings.numbers(tags.iter().map(|(_, value)| *value))),
            field(8, &differences(way.nodes.iter().map(|node| ids[*node as usize]))),
        ];
        group.extend(field(3, &message.concat()));
    }
    [field(1, &strings.table), field(2, &group)].concat()
}

fn varint(mut number: u64) -> Vec<u8> {
    let mut bytes = Vec::new();
    loop {
        #[allow(clippy::cast_possible_truncation, reason = "seven bits")]
        let low = (number & 127) as u8;
        number >>= 7;
        bytes.push(if number == 0 { low } else { low | 128 });
        if number == 0 {
            return bytes;
        }
    }
}

fn field(number: u64, bytes: &[u8]) -> Vec<u8> {
    [varint(number << 3 | 2), varint(bytes.len() as u64), bytes.to_vec()].concat()
}

fn differences(numbers: impl Iterator<Item = i64>) -> Vec<u8> {
    let mut before = 0_i64;
    let step = |number: i64| {
        let step = number.wrapping_sub(before);
        before = number;
        varint((step.cast_unsigned() << 1) ^ (step >> 63).cast_unsigned())
    };
    numbers.flat_map(step).collect()
}

fn blob(kind: &[u8], content: &[u8]) -> io::Result<Vec<u8>> {
    let mut packed = ZlibEncoder::new(Vec::new(), Compression::default());
    packed.write_all(content)?;
    let size = [varint(2 << 3), varint(content.len() as u64)].concat();
    let blob = [size, field(3, &packed.finish()?)].concat();
    let header = [field(1, kind), varint(3 << 3), varint(blob.len() as u64)].concat();
    let length = u32::try_from(header.len()).map_err(io::Error::other)?.to_be_bytes();
    Ok([&length[..], &header, &blob].concat())
}
