//! The ways that a car can go as a graph, and the shortest times in it.

use crate::geo::Space;
use crate::grid::Grid;
use crate::map::{Corridor, Ground};
use std::cmp::Reverse;
use std::collections::BinaryHeap;

/// Kilometres an hour of whoever comes to fetch a bike, by what is driven on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Speeds {
    /// On sealed roads.
    pub sealed: f64,
    /// On gravel.
    pub gravel: f64,
    /// On tracks.
    pub track: f64,
    /// On rough ground, and where there is no way at all.
    pub rough: f64,
    /// Where the map does not tell.
    pub unknown: f64,
    /// On ferries, waiting for them included.
    pub ferry: f64,
}

impl Default for Speeds {
    /// A four-wheel drive with a trailer, or a truck of the country: common practice, no source.
    fn default() -> Self {
        Self { sealed: 60.0, gravel: 40.0, track: 20.0, rough: 8.0, unknown: 30.0, ferry: 6.0 }
    }
}

impl Speeds {
    /// On one of them.
    #[must_use]
    pub const fn on(&self, ground: Ground) -> f64 {
        match ground {
            Ground::Sealed => self.sealed,
            Ground::Gravel => self.gravel,
            Ground::Track => self.track,
            Ground::Rough | Ground::OffMap => self.rough,
            Ground::Unknown => self.unknown,
            Ground::Ferry => self.ferry,
        }
    }

    /// The hours for a way of so many metres.
    #[must_use]
    pub fn hours(&self, ground: Ground, metres: f64) -> f64 {
        metres / 1000.0 / self.on(ground)
    }
}

/// Points of ways and the times between them. Numbers of points are those of the corridor.
#[derive(Debug, Clone)]
pub struct Network {
    /// Of each point.
    spaces: Vec<Space>,
    /// Where the edges of a point begin in the lists, by direction: driven as they are, and the other way round.
    edges: [Edges; 2],
    grid: Grid,
}

#[derive(Debug, Clone, Default)]
struct Edges {
    first: Vec<usize>,
    to: Vec<(u32, f32)>,
}

impl Edges {
    fn new(points: usize, edges: &[(u32, u32, f32)]) -> Self {
        let mut first = vec![0; points + 1];
        for (from, _, _) in edges {
            first[*from as usize + 1] += 1;
        }
        for at in 0..points {
            first[at + 1] += first[at];
        }
        let (mut next, mut to) = (first.clone(), vec![(0, 0.0); edges.len()]);
        for (from, end, hours) in edges {
            to[next[*from as usize]] = (*end, *hours);
            next[*from as usize] += 1;
        }
        Self { first, to }
    }

    fn of(&self, point: u32) -> &[(u32, f32)] {
        let at = point as usize;
        &self.to[self.first[at]..self.first[at + 1]]
    }
}

/// Which way the edges are driven.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Drive {
    /// From the starts to everywhere.
    From,
    /// From everywhere to the nearest of the starts.
    To,
}

/// The shortest times to all points, in hours, and the start that each is nearest to. Infinite where there is no way.
#[derive(Debug, Clone)]
pub struct Reached {
    /// Of each point.
    pub hours: Vec<f64>,
    /// Which of the starts, by its place in the list.
    pub start: Vec<u32>,
}

impl Network {
    /// From the ways that can be driven.
    #[must_use]
    pub fn new(corridor: &Corridor, speeds: &Speeds) -> Self {
        let spaces: Vec<Space> = corridor.nodes.iter().map(|node| node.space()).collect();
        let (mut edges, mut used) = (Vec::new(), vec![false; spaces.len()]);
        for way in corridor.ways.iter().filter(|way| way.kind.drivable) {
            for pair in way.nodes.windows(2) {
                let (from, to) = (pair[0], pair[1]);
                let metres = spaces[from as usize].metres_to(spaces[to as usize]);
                #[allow(clippy::cast_possible_truncation, reason = "seven digits are enough for an edge")]
                let hours = speeds.hours(way.kind.ground, metres) as f32;
                (used[from as usize], used[to as usize]) = (true, true);
                let (with, against) = way.kind.directions;
                edges.extend(with.then_some((from, to, hours)));
                edges.extend(against.then_some((to, from, hours)));
            }
        }
        let there = Edges::new(spaces.len(), &edges);
        edges.iter_mut().for_each(|(from, to, _)| std::mem::swap(from, to));
        let back = Edges::new(spaces.len(), &edges);
        let points = (0..).zip(&spaces).zip(&used).filter(|(_, used)| **used);
        let grid = Grid::new(500.0, points.map(|((number, space), _)| (*space, number)));
        Self { spaces, edges: [there, back], grid }
    }

    /// The point nearest to a place, within so many metres, and how far it is.
    #[must_use]
    pub fn nearest(&self, place: Space, reach: f64) -> Option<(u32, f64)> {
        // Near ones first: most places have one beside them.
        [300.0, 1000.0, reach].into_iter().filter(|near| *near <= reach).find_map(|near| {
            let distance = |point: u32| (point, self.spaces[point as usize].metres_to(place));
            let found = self.grid.near(place, near).map(distance).filter(|(_, metres)| *metres <= near);
            found.min_by(|a, b| a.1.total_cmp(&b.1).then(a.0.cmp(&b.0)))
        })
    }

    /// Dijkstra's algorithm from all starts at once, each with the hours that it takes to be on the road.
    #[must_use]
    pub fn reach(&self, starts: &[(u32, f64)], drive: Drive) -> Reached {
        let edges = &self.edges[usize::from(drive == Drive::To)];
        let mut reached =
            Reached { hours: vec![f64::INFINITY; self.spaces.len()], start: vec![u32::MAX; self.spaces.len()] };
        let mut open = BinaryHeap::new();
        for ((point, hours), start) in starts.iter().zip(0..) {
            open.push(Reverse((Hours(*hours), *point, start)));
        }
        while let Some(Reverse((Hours(hours), point, start))) = open.pop() {
            if hours >= reached.hours[point as usize] {
                continue;
            }
            reached.hours[point as usize] = hours;
            reached.start[point as usize] = start;
            for (next, more) in edges.of(point) {
                let hours = hours + f64::from(*more);
                if hours < reached.hours[*next as usize] {
                    open.push(Reverse((Hours(hours), *next, start)));
                }
            }
        }
        reached
    }
}

/// Hours in their order.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Hours(f64);

impl Eq for Hours {}

impl PartialOrd for Hours {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Hours {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        self.0.total_cmp(&other.0)
    }
}
