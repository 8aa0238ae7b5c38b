//! What is near a place: things sorted by the cube of space that they are in.

use crate::geo::Space;

/// Numbers of things by place.
#[derive(Debug, Clone, Default)]
pub struct Grid {
    size: f64,
    cells: Vec<(u64, u32)>,
}

/// The number of a cube along one axis; no coordinate on the earth needs more than 20 bits with cubes of 20 m.
#[allow(clippy::cast_possible_truncation, reason = "clamped to 20 bits")]
fn step(metres: f64, size: f64) -> i64 {
    (metres / size).floor().clamp(-1_000_000.0, 1_000_000.0) as i64
}

/// The number of a cube.
fn key(cube: [i64; 3]) -> u64 {
    cube.iter().fold(0, |key, step| key << 21 | u64::try_from(step + (1 << 20)).unwrap_or_default())
}

/// The cube of this edge in which a place is.
pub(crate) fn cube(at: Space, size: f64) -> [i64; 3] {
    at.0.map(|metres| step(metres, size))
}

impl Grid {
    /// Things by their places, in cubes of this edge in metres (at least 20).
    pub fn new(size: f64, things: impl IntoIterator<Item = (Space, u32)>) -> Self {
        let size = size.max(20.0);
        let mut cells: Vec<(u64, u32)> = things.into_iter().map(|(at, thing)| (key(cube(at, size)), thing)).collect();
        cells.sort_unstable();
        cells.dedup();
        Self { size, cells }
    }

    /// Every thing within `reach` metres, and some a little farther away; in no order, perhaps twice.
    pub fn near(&self, at: Space, reach: f64) -> impl Iterator<Item = u32> + '_ {
        let rings = step(reach, self.size) + 1;
        let [x, y, z] = cube(at, self.size);
        let columns = (x - rings..=x + rings).flat_map(move |x| (y - rings..=y + rings).map(move |y| (x, y)));
        columns.flat_map(move |(x, y)| {
            let (low, high) = (key([x, y, z - rings]), key([x, y, z + rings]));
            let first = self.cells.partition_point(|(key, _)| *key < low);
            self.cells[first..].iter().take_while(move |(key, _)| *key <= high).map(|(_, thing)| *thing)
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geo::Point;
    use std::collections::BTreeSet;

    /// Against looking at every thing, with the date line and a pole among the places.
    #[test]
    fn nothing_within_reach_is_missed() {
        let mut random = fastrand::Rng::with_seed(7);
        for (lat, lon) in [(0.0, 180.0), (89.99, 10.0), (-33.0, 151.0), (-90.0, 0.0)] {
            let mut point = || {
                let lat = (lat + random.f64() * 0.02 - 0.01_f64).clamp(-90.0, 90.0);
                Point::new(lat, lon + random.f64() * 0.02 - 0.01).unwrap().space()
            };
            let places: Vec<Space> = (0..500).map(|_| point()).collect();
            let grid = Grid::new(100.0, places.iter().copied().zip(0..));
            for _ in 0..50 {
                let at = point();
                let near: BTreeSet<u32> = grid.near(at, 250.0).collect();
                for (place, number) in places.iter().zip(0..) {
                    assert!(at.metres_to(*place) > 250.0 || near.contains(&number));
                }
            }
        }
    }
}
