//! Hours to help along the way.
//!
//! ```text
//! hours = wait + drive out (from the place that is soonest there) + drive back (to the place that is soonest reached)
//! ```
//!
//! Both drives are shortest times in the map's own network; the last bit from the nearest driven way is gone at the speed
//! for rough ground, 1.3 times as far as the straight line. The wait is until somebody knows and is on the road: short where
//! a telephone works, longer with a beacon, longest where one waits for whoever comes by. A map does not tell where
//! telephones work; near towns and villages it is assumed. Waits are judgement, no source: the rider sets them.

use crate::geo::{Point, Space};
use crate::grid::Grid;
use crate::map::{Corridor, Ground, Place, PlaceKind};
use crate::matching::OnWay;
use crate::network::{Drive, Network, Reached, Speeds};
use crate::ride::Ride;

/// How somebody gets to know, and how long it takes until they are on the road.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wait {
    /// Within this distance of a town or village, in metres, a telephone works.
    pub cover: f64,
    /// Hours from the call there.
    pub covered: f64,
    /// Hours elsewhere.
    pub elsewhere: f64,
}

/// Hours from a call by telephone until somebody is on the road.
pub const CALL_HOURS: f64 = 2.0;
/// The same with a beacon or messenger that is heard anywhere.
pub const BEACON_HOURS: f64 = 4.0;
/// Until somebody comes by, or the rider is missed in the evening and looked for.
pub const NOBODY_HOURS: f64 = 12.0;
/// Within so many metres of a town or village a telephone is taken to work.
pub const COVER_METRES: f64 = 10_000.0;

impl Default for Wait {
    fn default() -> Self {
        Self { cover: COVER_METRES, covered: CALL_HOURS, elsewhere: NOBODY_HOURS }
    }
}

/// Help at one place along the way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HelpAt {
    /// Metres from the start.
    pub metres: f64,
    /// Where.
    pub at: Point,
    /// Hours until somebody is on the road.
    pub wait: f64,
    /// Hours of driving out to the bike, and back with it; none where no way of the map leads there.
    pub drive: Option<(f64, f64)>,
    /// The place from which help comes, by its number in the list of places.
    pub from: Option<usize>,
    /// The node of the map at which the drive out leaves the network, and the hours up to there.
    pub node: Option<(u32, f64)>,
}

impl HelpAt {
    /// All of it; none where help cannot come by the map.
    #[must_use]
    pub fn hours(&self) -> Option<f64> {
        self.drive.map(|(out, back)| self.wait + out + back)
    }
}

/// Distance between two looks, in metres.
const STEP: f64 = 500.0;
/// A place is beside the network if that is at most so far, in metres.
const BESIDE: f64 = 2000.0;
/// The ride is within reach of the network if that is at most so far, in metres.
const WALK: f64 = 5000.0;
/// Ways off the map are longer than straight lines.
const DETOUR: f64 = 1.3;

/// Who helps, and from where.
#[derive(Debug, Clone, Default)]
pub struct Helpers {
    /// Number of the place in the list, the node beside it, and the hours up to that node.
    starts: Vec<(usize, u32, f64)>,
    /// Places that could help, but have no way beside them.
    pub unreached: usize,
}

impl Helpers {
    /// Of these places those that can help and are beside a way.
    #[must_use]
    pub fn new(places: &[Place], network: &Network, speeds: &Speeds) -> Self {
        let mut helpers = Self::default();
        for (number, place) in places.iter().enumerate().filter(|(_, place)| place.kind.helps()) {
            match network.nearest(place.at.space(), BESIDE) {
                Some((node, metres)) => {
                    let hours = speeds.hours(Ground::Unknown, metres * DETOUR);
                    helpers.starts.push((number, node, hours));
                }
                None => helpers.unreached += 1,
            }
        }
        helpers
    }

    /// How many there are.
    #[must_use]
    pub fn count(&self) -> usize {
        self.starts.len()
    }
}

/// A ride on its map, with all that tells how help comes to it.
#[derive(Debug, Clone, Copy)]
pub struct OnMap<'a> {
    /// The ride.
    pub ride: &'a Ride,
    /// The map around it.
    pub corridor: &'a Corridor,
    /// Places of the map and of the rider.
    pub places: &'a [Place],
    /// The way under each piece of the ride.
    pub matched: &'a [Option<OnWay>],
    /// What can be driven.
    pub network: &'a Network,
    /// How fast.
    pub speeds: &'a Speeds,
}

/// Help along the whole ride, every half a kilometre.
#[must_use]
pub fn profile(map: &OnMap<'_>, helpers: &Helpers, wait: &Wait) -> Vec<HelpAt> {
    let OnMap { ride, network, .. } = map;
    let starts: Vec<(u32, f64)> = helpers.starts.iter().map(|(_, node, hours)| (*node, *hours)).collect();
    let (out, back) = (network.reach(&starts, Drive::From), network.reach(&starts, Drive::To));
    let settled = Settled::new(map.places, wait.cover);
    let mut found = Vec::new();
    let mut next = STEP.min(ride.metres) / 2.0;
    for (at, piece) in ride.pieces.iter().enumerate() {
        if piece.from + piece.metres < next {
            continue;
        }
        next += STEP;
        let gates = gates(map, piece.space, map.matched[at].as_ref());
        let there = soonest(&gates, &out, |gate| gate.arrive);
        let home = soonest(&gates, &back, |gate| gate.leave);
        let covered = settled.near(piece.space);
        found.push(HelpAt {
            metres: piece.from + piece.metres / 2.0,
            at: piece.at,
            wait: if covered { wait.covered } else { wait.elsewhere },
            drive: there.zip(home).map(|((_, out), (_, back))| (out, back)),
            from: there
                .and_then(|(node, _)| helpers.starts.get(out.start[node as usize] as usize))
                .map(|start| start.0),
            node: there.map(|(node, _)| (node, out.hours[node as usize])),
        });
    }
    found
}

/// A node by which the network is left or entered, with the hours between it and the bike.
struct Gate {
    node: u32,
    arrive: f64,
    leave: f64,
}

fn gates(map: &OnMap<'_>, at: Space, on: Option<&OnWay>) -> Vec<Gate> {
    let OnMap { corridor, network, speeds, .. } = map;
    let driven = on.map(|on| (on, corridor.ways[on.way as usize].kind)).filter(|(_, kind)| kind.drivable);
    if let Some((on, kind)) = driven {
        let (with, against) = kind.directions;
        let hours =
            |allowed: bool, metres: f64| if allowed { speeds.hours(kind.ground, metres) } else { f64::INFINITY };
        let [(first, before), (last, behind)] = on.ends;
        return vec![
            Gate { node: first, arrive: hours(with, before), leave: hours(against, before) },
            Gate { node: last, arrive: hours(against, behind), leave: hours(with, behind) },
        ];
    }
    let gate = |(node, metres): (u32, f64)| {
        let hours = speeds.hours(Ground::OffMap, metres * DETOUR);
        Gate { node, arrive: hours, leave: hours }
    };
    network.nearest(at, WALK).map(gate).into_iter().collect()
}

fn soonest(gates: &[Gate], reached: &Reached, hours: impl Fn(&Gate) -> f64) -> Option<(u32, f64)> {
    let all = gates.iter().map(|gate| (gate.node, reached.hours[gate.node as usize] + hours(gate)));
    all.filter(|(_, hours)| hours.is_finite()).min_by(|a, b| a.1.total_cmp(&b.1))
}

/// Towns and villages, to ask which are near.
struct Settled<'a> {
    places: &'a [Place],
    grid: Grid,
    reach: f64,
}

impl<'a> Settled<'a> {
    fn new(places: &'a [Place], reach: f64) -> Self {
        let settled = places.iter().zip(0..).filter(|(place, _)| place.kind == PlaceKind::Settlement);
        let grid = Grid::new((reach / 2.0).max(500.0), settled.map(|(place, number)| (place.at.space(), number)));
        Self { places, grid, reach }
    }

    fn near(&self, at: Space) -> bool {
        let mut near = self.grid.near(at, self.reach);
        near.any(|place| self.places[place as usize].at.space().metres_to(at) <= self.reach)
    }
}
