//! The way laid out: short pieces one after the other, so that anything along it is a sum over pieces.

use crate::climb::Heights;
use crate::geo::{Point, Space};
use crate::grid::Grid;
use crate::limits::METRES;
use crate::track::Track;
use fardel_words::say;

/// Longest piece, in metres: what lies under a longer one could change on it.
pub const PIECE: f64 = 25.0;
/// Neighbouring points this far apart are a straight line drawn by hand rather than a way that was ridden, in metres.
const DRAWN: f64 = 1000.0;

/// A piece of the way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Piece {
    /// Its beginning.
    pub at: Point,
    /// Its middle, in space.
    pub space: Space,
    /// Along it, one metre long.
    pub direction: Space,
    /// Its length.
    pub metres: f64,
    /// From the start of the ride to its beginning.
    pub from: f64,
}

/// A whole ride.
#[derive(Debug, Clone, Default)]
pub struct Ride {
    /// In the order of riding.
    pub pieces: Vec<Piece>,
    /// Length of all pieces.
    pub metres: f64,
    /// Heights along the way.
    pub heights: Heights,
    /// Metres from the start, and seconds since 1970, where times are known.
    pub clock: Vec<(f64, f64, Space)>,
    /// Metres from the start at which each line begins, and the number of its file.
    pub lines: Vec<(f64, usize)>,
    /// Metres between the end of one line and the beginning of the next, which are not counted as ridden.
    pub between_lines: f64,
    /// Metres of straight lines between points that are far apart.
    pub drawn: f64,
    grid: Grid,
}

impl Ride {
    /// Lays a track out.
    ///
    /// # Errors
    /// In words, where the track has no length or goes farther than is taken.
    pub fn new(track: &Track) -> Result<Self, String> {
        let mut ride = Self::default();
        let mut heights = Vec::new();
        let mut before: Option<Point> = None;
        for line in track.lines.iter().filter(|line| line.points.len() > 1) {
            ride.lines.push((ride.metres, line.file));
            ride.between_lines += before.zip(line.points.first()).map_or(0.0, |(end, start)| end.metres_to(start.at));
            let mut last: Option<Point> = None;
            for point in &line.points {
                if let Some(last) = last {
                    ride.stretch(last, point.at)?;
                }
                last = Some(point.at);
                heights.extend(point.height.map(|height| (ride.metres, height)));
                ride.clock.extend(point.time.map(|time| (ride.metres, time, point.at.space())));
            }
            before = last;
        }
        if ride.metres <= 0.0 {
            return Err(say!("found a track without length; expected two points that differ"));
        }
        ride.heights = Heights::new(heights);
        ride.grid = Grid::new(1000.0, ride.pieces.iter().map(|piece| piece.space).zip(0..));
        Ok(ride)
    }

    fn stretch(&mut self, start: Point, end: Point) -> Result<(), String> {
        let metres = start.metres_to(end);
        if metres <= 0.0 {
            return Ok(());
        }
        if self.metres + metres > METRES {
            return Err(say!("found more than {:.0} km of track; expected less", METRES / 1000.0));
        }
        if metres > DRAWN {
            self.drawn += metres;
        }
        let pieces = (metres / PIECE).ceil();
        let corners = start.corners(end, pieces);
        let each = metres / pieces;
        for (from, to) in corners.iter().zip(&corners[1..]) {
            let (a, b) = (from.space(), to.space());
            let along = b.from(a);
            let length = along.length();
            let direction = if length > 0.0 { Space(along.0.map(|part| part / length)) } else { Space([0.0; 3]) };
            let space = Space([0, 1, 2].map(|axis| f64::midpoint(a.0[axis], b.0[axis])));
            self.pieces.push(Piece { at: *from, space, direction, metres: each, from: self.metres });
            self.metres += each;
        }
        Ok(())
    }

    /// The piece at so many metres from the start.
    #[must_use]
    pub fn piece_at(&self, metres: f64) -> Option<&Piece> {
        let after = self.pieces.partition_point(|piece| piece.from <= metres);
        self.pieces.get(after.saturating_sub(1))
    }

    /// Where the ride passes a place within `reach` metres: metres from the start of the nearest piece, once for each
    /// time that it comes by.
    #[must_use]
    pub fn passes(&self, place: Space, reach: f64) -> Vec<f64> {
        let distance = |piece: u32| self.pieces[piece as usize].space.metres_to(place);
        let mut near: Vec<u32> = self.grid.near(place, reach).filter(|piece| distance(*piece) <= reach).collect();
        near.sort_unstable();
        near.dedup();
        let mut found: Vec<(u32, u32)> = Vec::new();
        for piece in near {
            match found.last_mut() {
                // Still the same time: it has not been away by more than it takes to turn and come back.
                Some((best, last))
                    if self.pieces[piece as usize].from - self.pieces[*last as usize].from <= 2.0 * reach =>
                {
                    *last = piece;
                    if distance(piece) < distance(*best) {
                        *best = piece;
                    }
                }
                _ => found.push((piece, piece)),
            }
        }
        found.into_iter().map(|(best, _)| &self.pieces[best as usize]).map(|p| p.from + p.metres / 2.0).collect()
    }

    /// Pieces between two places along the way, with the metres of each that lie between.
    pub fn between(&self, from: f64, to: f64) -> impl Iterator<Item = (usize, f64)> + '_ {
        let first = self.pieces.partition_point(|piece| piece.from + piece.metres <= from);
        let inside = self.pieces.iter().enumerate().skip(first).take_while(move |(_, piece)| piece.from < to);
        inside.map(move |(at, piece)| (at, (piece.from + piece.metres).min(to) - piece.from.max(from)))
    }
}
