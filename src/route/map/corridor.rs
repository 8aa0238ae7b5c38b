//! The three readings.

use super::blob::{Blobs, Place as BlobPlace};
use super::block::{Stopped, Tags, Visitor, walk};
use super::places::{Place, PlaceKind};
use super::tags::WayKind;
use crate::fault::Fault;
use crate::geo::{Point, Space};
use crate::grid::cube;
use crate::limits;
use crate::ride::Ride;
use fardel_words::{say, word};
use std::collections::{BTreeMap, BTreeSet};
use std::io::{Read, Seek};

/// What is kept of a map.
#[derive(Debug, Clone, Default)]
pub struct Corridor {
    /// Half its width in metres.
    pub reach: f64,
    /// Ids of the nodes of ways, rising.
    pub ids: Vec<i64>,
    /// Where they are.
    pub nodes: Vec<Point>,
    /// Ways that go through the corridor.
    pub ways: Vec<Way>,
    /// Places in the corridor, in the order of the file.
    pub places: Vec<Place>,
}

/// A way of the map.
#[derive(Debug, Clone, PartialEq)]
pub struct Way {
    /// As the map numbers it.
    pub id: i64,
    /// Numbers of its nodes. A way that leaves the corridor and comes back is there once for each time.
    pub nodes: Vec<u32>,
    /// What is known of it.
    pub kind: WayKind,
}

/// Reads what lies within `reach` metres of a ride, and a little more.
///
/// # Errors
/// [`Fault`] with the byte at which a file is broken, or where more lies in the corridor than is taken.
pub fn read(name: &str, reader: impl Read + Seek, ride: &Ride, reach: f64) -> Result<Corridor, Fault> {
    let mut blobs = Blobs::new(name, reader)?;
    let mut inside = Inside { cubes: Cubes::around(ride, reach), ..Inside::default() };
    let (mut with_nodes, mut with_ways) = (Vec::new(), Vec::new());
    while let Some(place) = blobs.next()? {
        let (nodes, ways) = visit(&mut blobs, place, &mut inside)?;
        if nodes {
            with_nodes.push(place);
        }
        if ways {
            with_ways.push(place);
        }
    }
    inside.sort();
    let mut through = Through { inside: &inside, ways: Vec::new(), outlines: Vec::new(), nodes: 0 };
    for place in with_ways {
        visit(&mut blobs, place, &mut through)?;
    }
    let (ways, outlines) = (through.ways, through.outlines);
    let mut where_are = WhereAre::of(&ways, &outlines);
    for place in with_nodes {
        visit(&mut blobs, place, &mut where_are)?;
    }
    Ok(gather(reach, &ways, outlines, where_are, inside.places))
}

fn visit<V: Visitor>(
    blobs: &mut Blobs<'_, impl Read + Seek>,
    place: BlobPlace,
    visitor: &mut V,
) -> Result<(bool, bool), Fault> {
    let content = blobs.unpack(place)?;
    walk(&content, visitor).map_err(|stopped| match stopped {
        Stopped::Broken => blobs.fault(word!("a broken block"), word!("an OpenStreetMap extract (.osm.pbf), whole")),
        Stopped::Refused(why) => blobs.fault(&why, word!("a narrower corridor or a shorter track")),
    })
}

/// The cubes of space that the corridor fills.
#[derive(Debug, Default)]
struct Cubes {
    size: f64,
    cubes: BTreeSet<[i64; 3]>,
    /// The cube asked for last, and the answer: nodes that follow each other are near each other.
    last: Option<([i64; 3], bool)>,
}

impl Cubes {
    fn around(ride: &Ride, reach: f64) -> Self {
        let size = (reach / 3.0).max(1000.0);
        // One more than it takes, for the ride may be at the edge of its cube.
        let rings: Vec<i64> = if reach > size { (-4..=4).collect() } else { (-2..=2).collect() };
        let passed: BTreeSet<[i64; 3]> = ride.pieces.iter().map(|piece| cube(piece.space, size)).collect();
        let mut cubes = BTreeSet::new();
        for [x, y, z] in passed {
            for (dx, dy) in rings.iter().flat_map(|dx| rings.iter().map(move |dy| (dx, dy))) {
                cubes.extend(rings.iter().map(|dz| [x + dx, y + dy, z + dz]));
            }
        }
        Self { size, cubes, last: None }
    }

    fn have(&mut self, at: Space) -> bool {
        let asked = cube(at, self.size);
        match self.last {
            Some((cube, answer)) if cube == asked => answer,
            _ => {
                let answer = self.cubes.contains(&asked);
                self.last = Some((asked, answer));
                answer
            }
        }
    }
}

/// First reading: which nodes are in the corridor, and what is at them.
#[derive(Debug, Default)]
struct Inside {
    cubes: Cubes,
    /// Ids by their upper half, four bytes each.
    ids: BTreeMap<i64, Vec<u32>>,
    count: usize,
    places: Vec<Place>,
}

fn halves(id: i64) -> (i64, u32) {
    (id >> 32, u32::try_from(id & 0xffff_ffff).unwrap_or_default())
}

impl Inside {
    fn sort(&mut self) {
        self.ids.values_mut().for_each(|ids| ids.sort_unstable());
    }

    fn has(&self, id: i64) -> bool {
        let (upper, lower) = halves(id);
        self.ids.get(&upper).is_some_and(|ids| ids.binary_search(&lower).is_ok())
    }
}

impl Visitor for Inside {
    const NODES: bool = true;
    const WAYS: bool = false;

    fn node(&mut self, id: i64, at: Point, tags: &Tags<'_>) -> Result<(), String> {
        if !self.cubes.have(at.space()) {
            return Ok(());
        }
        self.count += 1;
        if self.count > limits::MAP_NODES {
            return Err(say!("more than {} nodes in the corridor", limits::MAP_NODES));
        }
        let (upper, lower) = halves(id);
        self.ids.entry(upper).or_default().push(lower);
        let name = || tags.get("name").unwrap_or_default().to_owned();
        self.places.extend(PlaceKind::of(tags).into_iter().map(|kind| Place { kind, name: name(), at }));
        if self.places.len() > limits::MAP_PLACES {
            return Err(say!("more than {} places in the corridor", limits::MAP_PLACES));
        }
        Ok(())
    }
}

/// A place drawn by its outline: it counts where its first node is.
#[derive(Debug)]
struct Outline {
    kind: PlaceKind,
    name: String,
    node: i64,
}

/// Second reading: ways through the corridor, by the ids of their nodes.
#[derive(Debug)]
struct Through<'a> {
    inside: &'a Inside,
    ways: Vec<(i64, WayKind, Vec<i64>)>,
    outlines: Vec<Outline>,
    nodes: usize,
}

impl Visitor for Through<'_> {
    const NODES: bool = false;
    const WAYS: bool = true;

    fn way(&mut self, id: i64, nodes: &[i64], tags: &Tags<'_>) -> Result<(), String> {
        let kind = WayKind::of(tags);
        let is_way = kind.is_some();
        let there = |kind: &PlaceKind| !is_way || *kind == PlaceKind::Ford;
        let places: Vec<PlaceKind> = PlaceKind::of(tags).into_iter().filter(there).collect();
        if kind.is_none() && places.is_empty() {
            return Ok(());
        }
        let Some(first) = nodes.iter().find(|node| self.inside.has(**node)) else { return Ok(()) };
        let name = || tags.get("name").unwrap_or_default().to_owned();
        self.outlines.extend(places.into_iter().map(|kind| Outline { kind, name: name(), node: *first }));
        if let Some(kind) = kind {
            // Where a way leaves the corridor and comes back, what is between is not there.
            for run in nodes.split(|node| !self.inside.has(*node)).filter(|run| run.len() > 1) {
                self.nodes += run.len();
                self.ways.push((id, kind, run.to_vec()));
            }
        }
        let most = limits::NETWORK_NODES;
        if self.nodes > most { Err(say!("ways of more than {most} points in the corridor")) } else { Ok(()) }
    }
}

/// Third reading: where the nodes are that matter.
#[derive(Debug)]
struct WhereAre {
    ids: Vec<i64>,
    places: Vec<Option<Point>>,
}

impl WhereAre {
    fn of(ways: &[(i64, WayKind, Vec<i64>)], outlines: &[Outline]) -> Self {
        let nodes = ways.iter().flat_map(|(_, _, nodes)| nodes.iter().copied());
        let mut ids: Vec<i64> = nodes.chain(outlines.iter().map(|outline| outline.node)).collect();
        ids.sort_unstable();
        ids.dedup();
        let places = vec![None; ids.len()];
        Self { ids, places }
    }

    fn number(&self, id: i64) -> Option<usize> {
        self.ids.binary_search(&id).ok()
    }
}

impl Visitor for WhereAre {
    const NODES: bool = true;
    const WAYS: bool = false;

    fn node(&mut self, id: i64, at: Point, _: &Tags<'_>) -> Result<(), String> {
        if let Some(number) = self.number(id) {
            self.places[number] = Some(at);
        }
        Ok(())
    }
}

fn gather(
    reach: f64,
    ways: &[(i64, WayKind, Vec<i64>)],
    outlines: Vec<Outline>,
    found: WhereAre,
    mut places: Vec<Place>,
) -> Corridor {
    let at = |id: i64| found.number(id).and_then(|number| found.places[number]);
    let outlined = outlines.into_iter().filter_map(|o| at(o.node).map(|at| Place { kind: o.kind, name: o.name, at }));
    places.extend(outlined);
    let number = |id: &i64| found.number(*id).and_then(|number| u32::try_from(number).ok());
    let mut ways: Vec<Way> = ways
        .iter()
        .map(|(id, kind, nodes)| Way { id: *id, nodes: nodes.iter().filter_map(number).collect(), kind: *kind })
        .collect();
    ways.sort_by_key(|way| way.id);
    // Every id was met in the corridor in the first reading, so that each has its place.
    let nodes = found.places.iter().map(|place| place.unwrap_or(Point { lat: 0.0, lon: 0.0 })).collect();
    Corridor { reach, ids: found.ids, nodes, ways, places }
}
