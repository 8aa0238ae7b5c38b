//! An invented map as an extract in the format that real ones have, and tracks on it.

use fardel_route::draft::{Leg, legs};
use fardel_route::fault::Fault;
use fardel_route::geo::Point;
use fardel_route::survey::{Survey, Wishes, survey};
use fardel_route::track::{Line, Mark, MarkKind, Track, TrackPoint};
use flate2::Compression;
use flate2::write::ZlibEncoder;
use std::io::{Cursor, Write as _};

type Tags = Vec<(&'static str, &'static str)>;

/// A map whose places are given in kilometres east and north of a corner.
#[derive(Debug, Clone)]
pub struct World {
    pub corner: Point,
    pub nodes: Vec<(i64, Point, Tags)>,
    pub ways: Vec<(i64, Vec<i64>, Tags)>,
}

impl World {
    pub fn at(lat: f64, lon: f64) -> Self {
        Self { corner: Point::new(lat, lon).unwrap(), nodes: Vec::new(), ways: Vec::new() }
    }

    /// A place so many kilometres east and north of the corner, near enough for tests.
    pub fn place(&self, east: f64, north: f64) -> Point {
        let lat = self.corner.lat + north / 111.2;
        let lon = self.corner.lon + east / (111.32 * self.corner.lat.to_radians().cos());
        Point::new(lat, if lon >= 180.0 { lon - 360.0 } else { lon }).unwrap()
    }

    pub fn node(&mut self, east: f64, north: f64, tags: &[(&'static str, &'static str)]) -> i64 {
        // Ids beyond 32 bits, as real ones are.
        let id = 6_000_000_000 + i64::try_from(self.nodes.len()).unwrap();
        self.nodes.push((id, self.place(east, north), tags.to_vec()));
        id
    }

    /// A way through nodes that are there already.
    pub fn join(&mut self, nodes: &[i64], tags: &[(&'static str, &'static str)]) -> i64 {
        let id = 100 + i64::try_from(self.ways.len()).unwrap();
        self.ways.push((id, nodes.to_vec(), tags.to_vec()));
        id
    }

    /// A way through new nodes.
    pub fn way(&mut self, corners: &[(f64, f64)], tags: &[(&'static str, &'static str)]) -> Vec<i64> {
        let nodes: Vec<i64> = corners.iter().map(|(east, north)| self.node(*east, *north, &[])).collect();
        self.join(&nodes, tags);
        nodes
    }

    /// A track through these places.
    pub fn track(&self, corners: &[(f64, f64)]) -> Track {
        let point = |(east, north): &(f64, f64)| TrackPoint { at: self.place(*east, *north), height: None, time: None };
        let points = corners.iter().map(point).collect();
        Track { lines: vec![Line { file: 0, name: None, points }], marks: Vec::new() }
    }

    pub fn mark(&self, east: f64, north: f64, kind: MarkKind, name: &str) -> Mark {
        Mark { at: self.place(east, north), name: name.to_owned(), kind }
    }

    pub fn survey(&self, track: &Track, wishes: &Wishes) -> (Survey, Vec<Leg>) {
        let survey = self.read(track, wishes).unwrap();
        let legs = legs(&survey, wishes);
        (survey, legs)
    }

    pub fn read(&self, track: &Track, wishes: &Wishes) -> Result<Survey, Fault> {
        survey("a.gpx", track, Some(("a.osm.pbf", Cursor::new(self.bytes()))), wishes)
    }

    /// The extract: a header, a blob of nodes, a blob of ways.
    pub fn bytes(&self) -> Vec<u8> {
        let mut strings: Vec<&str> = vec![""];
        let nodes = field(2, &self.dense(&mut strings));
        let node_block = [table(&strings), nodes].concat();
        let mut strings: Vec<&str> = vec![""];
        let group: Vec<u8> = self.ways.iter().flat_map(|way| field(3, &one_way(way, &mut strings))).collect();
        let way_block = [table(&strings), field(2, &group)].concat();
        let header = [field(4, b"OsmSchema-V0.6"), field(4, b"DenseNodes"), field(16, b"invented")].concat();
        [blob(b"OSMHeader", &header), blob(b"OSMData", &node_block), blob(b"OSMData", &way_block)].concat()
    }

    fn dense<'a>(&'a self, strings: &mut Vec<&'a str>) -> Vec<u8> {
        let ids = deltas(self.nodes.iter().map(|node| node.0));
        #[allow(clippy::cast_possible_truncation, reason = "degrees in units of 1e-7")]
        let units = |degrees: f64| (degrees * 1e7).round() as i64;
        let lats = deltas(self.nodes.iter().map(|node| units(node.1.lat)));
        let lons = deltas(self.nodes.iter().map(|node| units(node.1.lon)));
        let mut words = Vec::new();
        for (_, _, tags) in &self.nodes {
            for (key, value) in tags {
                words.extend(varint(number(key, strings)));
                words.extend(varint(number(value, strings)));
            }
            words.push(0);
        }
        field(2, &[field(1, &ids), field(8, &lats), field(9, &lons), field(10, &words)].concat())
    }
}

fn one_way<'a>((id, nodes, tags): &'a (i64, Vec<i64>, Tags), strings: &mut Vec<&'a str>) -> Vec<u8> {
    let keys: Vec<u8> = tags.iter().flat_map(|(key, _)| varint(number(key, strings))).collect();
    let values: Vec<u8> = tags.iter().flat_map(|(_, value)| varint(number(value, strings))).collect();
    let id = [vec![1 << 3], varint(u64::try_from(*id).unwrap())].concat();
    [id, field(2, &keys), field(3, &values), field(8, &deltas(nodes.iter().copied()))].concat()
}

fn number<'a>(string: &'a str, strings: &mut Vec<&'a str>) -> u64 {
    let at = strings.iter().position(|known| *known == string).unwrap_or_else(|| {
        strings.push(string);
        strings.len() - 1
    });
    u64::try_from(at).unwrap()
}

fn table(strings: &[&str]) -> Vec<u8> {
    field(1, &strings.iter().flat_map(|string| field(1, string.as_bytes())).collect::<Vec<u8>>())
}

pub fn varint(mut number: u64) -> Vec<u8> {
    let mut bytes = Vec::new();
    while number > 127 {
        bytes.push(u8::try_from(number & 127).unwrap() | 128);
        number >>= 7;
    }
    bytes.push(u8::try_from(number).unwrap());
    bytes
}

fn deltas(numbers: impl Iterator<Item = i64>) -> Vec<u8> {
    let mut before = 0;
    let step = |number: i64| {
        let step = number - before;
        before = number;
        varint((step.cast_unsigned() << 1) ^ (step >> 63).cast_unsigned())
    };
    numbers.flat_map(step).collect()
}

pub fn field(number: u64, bytes: &[u8]) -> Vec<u8> {
    [varint(number << 3 | 2), varint(bytes.len() as u64), bytes.to_vec()].concat()
}

pub fn blob(kind: &[u8], content: &[u8]) -> Vec<u8> {
    let mut packed = ZlibEncoder::new(Vec::new(), Compression::default());
    packed.write_all(content).unwrap();
    let packed = packed.finish().unwrap();
    let size = [vec![2 << 3], varint(content.len() as u64)].concat();
    raw_blob(kind, &[size, field(3, &packed)].concat())
}

pub fn raw_blob(kind: &[u8], blob: &[u8]) -> Vec<u8> {
    let header = [field(1, kind), vec![3 << 3], varint(blob.len() as u64)].concat();
    let length = u32::try_from(header.len()).unwrap().to_be_bytes();
    [&length[..], &header, blob].concat()
}

/// A valley: a town with a pump in the west, 20 km of sealed road to a shop at a junction, 10 km of gravel, 10 km of track
/// up to a pass, and a path on.
pub fn valley(lat: f64, lon: f64) -> (World, Track) {
    let mut world = World::at(lat, lon);
    let road = world.way(
        &(0..=20).map(|km| (f64::from(km), 0.0)).collect::<Vec<_>>(),
        &[("highway", "primary"), ("surface", "asphalt")],
    );
    let mut gravel = vec![road[20]];
    gravel.extend((21..=30).map(|km| world.node(f64::from(km), 0.0, &[])));
    world.join(&gravel, &[("highway", "unclassified"), ("surface", "gravel")]);
    let mut track = vec![gravel[10]];
    track.extend((1..=10).map(|km| world.node(30.0, f64::from(km), &[])));
    world.join(&track, &[("highway", "track"), ("tracktype", "grade4")]);
    // A road across, and one beside the first at 200 m: the ride must stay on its own.
    world.way(&[(10.0, -5.0), (10.0, 5.0)], &[("highway", "secondary"), ("surface", "sand")]);
    world.way(&[(0.0, 0.2), (20.0, 0.2)], &[("highway", "tertiary"), ("surface", "mud")]);
    world.node(0.0, 0.05, &[("place", "town"), ("name", "Westing")]);
    world.node(0.2, 0.05, &[("amenity", "fuel")]);
    world.node(20.0, 0.05, &[("shop", "convenience")]);
    world.node(30.0, 5.001, &[("barrier", "gate")]);
    let track = world.track(&[(0.0, 0.0), (20.0, 0.0), (30.0, 0.0), (30.0, 10.0)]);
    (world, track)
}
