//! Which way of the map each piece of the ride is on.
//!
//! A hidden Markov model: what is hidden is the way, what is seen is where a piece lies and where it heads. A way is the
//! more likely the nearer it is and the more it heads alike; from one piece to the next the rider stays on the way, goes on
//! to one that it meets, or, seldom, jumps: then the map has a gap, or the track has. Off the map is a way like any other
//! that is always some distance away. The likeliest whole sequence is found by Viterbi's algorithm. Costs are negative
//! logarithms; they are judgement, tried on invented tracks, no source.

use crate::geo::Space;
use crate::grid::Grid;
use crate::map::{Corridor, Ground};
use crate::ride::Ride;
use std::collections::BTreeMap;

/// Farther from a way than this, in metres, nobody is on it.
const REACH: f64 = 60.0;
/// Scatter of recorded points and of the map together, in metres.
const SCATTER: f64 = 12.0;
/// A way across the ride costs so much beside its distance.
const ACROSS: f64 = 8.0;
/// To ride on, for each piece, where no car goes while there is a road as near.
const WALKED: f64 = 0.5;
/// To go on to a way that meets this one: little, for maps cut one road into many ways. To one that begins near by, as
/// where a way between is shorter than a piece. To jump to any other, to leave the map or come back to it.
const TURN: f64 = 0.1;
const NEXT: f64 = 1.5;
const JUMP: f64 = 5.0;
const LEAVE: f64 = 3.0;
/// How near the ends of two stretches are that are next to each other, in metres.
const BETWEEN: f64 = 40.0;
/// Off the map, for each piece: as likely as a way 40 m away that heads alike.
const OFF: f64 = (40.0 / SCATTER) * (40.0 / SCATTER) / 2.0;
/// Ways looked at for each piece.
const MOST: usize = 8;

/// Where a piece of the ride is on the map.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OnWay {
    /// Number of the way in the corridor.
    pub way: u32,
    /// Nodes before and behind, and the metres to each along the way.
    pub ends: [(u32, f64); 2],
}

/// A way that a piece may be on.
#[derive(Debug, Clone, Copy)]
struct Candidate {
    on: Option<OnWay>,
    cost: f64,
}

/// The way under each piece of the ride; none where it is off the map.
#[must_use]
pub fn matched(ride: &Ride, corridor: &Corridor) -> Vec<Option<OnWay>> {
    let near = Near::new(ride, corridor);
    let mut meets = Meets { corridor, spaces: &near.spaces, known: BTreeMap::new() };
    let mut columns: Vec<Vec<(Option<OnWay>, u8)>> = Vec::with_capacity(ride.pieces.len());
    let mut costs: Vec<f64> = Vec::new();
    for piece in &ride.pieces {
        let candidates = near.candidates(piece.space, piece.direction);
        let before = columns.last();
        let mut column = Vec::with_capacity(candidates.len());
        let mut next = Vec::with_capacity(candidates.len());
        for candidate in &candidates {
            let from = before.into_iter().flatten().zip(&costs).zip(0_u8..);
            let best = from
                .map(|(((on, _), cost), at)| (cost + meets.step(on.as_ref(), candidate.on.as_ref()), at))
                .min_by(|a, b| a.0.total_cmp(&b.0));
            let (cost, from) = best.unwrap_or((0.0, 0));
            next.push(cost + candidate.cost);
            column.push((candidate.on, from));
        }
        // Only differences matter, and small numbers keep their digits.
        let least = next.iter().copied().fold(f64::INFINITY, f64::min);
        next.iter_mut().for_each(|cost| *cost -= least);
        costs = next;
        columns.push(column);
    }
    let mut at = costs.iter().enumerate().min_by(|a, b| a.1.total_cmp(b.1)).map_or(0, |(at, _)| at);
    let mut found = Vec::with_capacity(columns.len());
    for column in columns.iter().rev() {
        let (on, from) = column[at];
        found.push(on);
        at = usize::from(from);
    }
    found.reverse();
    found
}

/// What is under each piece.
#[must_use]
pub fn grounds(matched: &[Option<OnWay>], corridor: &Corridor) -> Vec<Ground> {
    let ground = |on: &Option<OnWay>| on.map_or(Ground::OffMap, |on| corridor.ways[on.way as usize].kind.ground);
    matched.iter().map(ground).collect()
}

/// Stretches of ways, found by place.
struct Near<'a> {
    corridor: &'a Corridor,
    spaces: Vec<Space>,
    /// Way, and which of its stretches.
    stretches: Vec<(u32, u32)>,
    grid: Grid,
}

/// Edge of the cubes, in metres.
const CUBE: f64 = 100.0;

impl<'a> Near<'a> {
    fn new(ride: &Ride, corridor: &'a Corridor) -> Self {
        let spaces: Vec<Space> = corridor.nodes.iter().map(|node| node.space()).collect();
        let ridden = Grid::new(CUBE, ride.pieces.iter().map(|piece| piece.space).zip(0..));
        let (mut stretches, mut places) = (Vec::new(), Vec::new());
        for (way, number) in corridor.ways.iter().zip(0..) {
            for (pair, at) in way.nodes.windows(2).zip(0..) {
                let (start, end) = (spaces[pair[0] as usize], spaces[pair[1] as usize]);
                let stretch = u32::try_from(stretches.len()).unwrap_or(u32::MAX);
                let before = places.len();
                for place in along(start, end) {
                    if ridden.near(place, REACH + CUBE).next().is_some() {
                        places.push((place, stretch));
                    }
                }
                if places.len() > before {
                    stretches.push((number, at));
                }
            }
        }
        Self { corridor, spaces, stretches, grid: Grid::new(CUBE, places) }
    }

    /// The nearest stretch of each way within reach, the likeliest first, and off the map at the end.
    fn candidates(&self, at: Space, direction: Space) -> Vec<Candidate> {
        let mut best: BTreeMap<u32, Candidate> = BTreeMap::new();
        for stretch in self.grid.near(at, REACH + CUBE / 2.0) {
            let (way, number) = self.stretches[stretch as usize];
            let nodes = &self.corridor.ways[way as usize].nodes[number as usize..];
            let (first, last) = (nodes[0], nodes[1]);
            let (start, end) = (self.spaces[first as usize], self.spaces[last as usize]);
            let (away, share) = at.to_stretch(start, end);
            let length = start.metres_to(end);
            if away > REACH || length <= 0.0 {
                continue;
            }
            let alike = (direction.dot(end.from(start)) / length).abs().min(1.0);
            let walked = if self.corridor.ways[way as usize].kind.drivable { 0.0 } else { WALKED };
            let cost = (away / SCATTER).powi(2) / 2.0 + ACROSS * (1.0 - alike) + walked;
            let ends = [(first, share * length), (last, (1.0 - share) * length)];
            let candidate = Candidate { on: Some(OnWay { way, ends }), cost };
            let known = best.entry(way).or_insert(candidate);
            if cost < known.cost {
                *known = candidate;
            }
        }
        let mut candidates: Vec<Candidate> = best.into_values().collect();
        candidates.sort_by(|a, b| a.cost.total_cmp(&b.cost));
        candidates.truncate(MOST);
        candidates.push(Candidate { on: None, cost: OFF });
        candidates
    }
}

/// Points on a stretch, no farther apart than half a cube.
fn along(start: Space, end: Space) -> impl Iterator<Item = Space> {
    let parts = (start.metres_to(end) / (CUBE / 2.0)).ceil().clamp(1.0, 1e5);
    let part = move |number: u32| {
        let share = f64::from(number) / parts;
        Space([0, 1, 2].map(|axis| start.0[axis] + share * (end.0[axis] - start.0[axis])))
    };
    (0..=100_000_u32).take_while(move |number| f64::from(*number) <= parts).map(part)
}

/// Which ways share a node.
struct Meets<'a> {
    corridor: &'a Corridor,
    spaces: &'a [Space],
    known: BTreeMap<(u32, u32), bool>,
}

impl Meets<'_> {
    fn step(&mut self, from: Option<&OnWay>, to: Option<&OnWay>) -> f64 {
        match (from, to) {
            (None, None) => 0.0,
            (None, Some(_)) | (Some(_), None) => LEAVE,
            (Some(from), Some(to)) if from.way == to.way => 0.0,
            (Some(from), Some(to)) if self.meet(from.way.min(to.way), from.way.max(to.way)) => TURN,
            (Some(from), Some(to)) if self.next_to(from, to) => NEXT,
            (Some(_), Some(_)) => JUMP,
        }
    }

    /// Does one stretch begin or end near an end of the other?
    fn next_to(&self, one: &OnWay, other: &OnWay) -> bool {
        let at = |end: &(u32, f64)| self.spaces[end.0 as usize];
        one.ends.iter().any(|a| other.ends.iter().any(|b| at(a).metres_to(at(b)) <= BETWEEN))
    }

    fn meet(&mut self, one: u32, other: u32) -> bool {
        let ways = &self.corridor.ways;
        let ask = || {
            let mut nodes = ways[one as usize].nodes.clone();
            nodes.sort_unstable();
            ways[other as usize].nodes.iter().any(|node| nodes.binary_search(node).is_ok())
        };
        *self.known.entry((one, other)).or_insert_with(ask)
    }
}
