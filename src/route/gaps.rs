//! How far it is from pump to pump, from shop to shop and from tap to tap, along the way.

use crate::map::{Place, PlaceKind};
use crate::ride::Ride;

/// How far beside the way a place may be to count, in metres: nobody carries fuel past a pump that is near, and nobody
/// walks a kilometre for water.
#[must_use]
pub const fn reach(kind: PlaceKind) -> f64 {
    match kind {
        PlaceKind::Fuel | PlaceKind::Shop | PlaceKind::Settlement => 1000.0,
        PlaceKind::Ford | PlaceKind::Gate => 15.0,
        _ => 300.0,
    }
}

/// Where the ride passes a place of these kinds: metres from the start, rising, and the number of the place.
#[must_use]
pub fn passes(ride: &Ride, places: &[Place], kinds: &[PlaceKind]) -> Vec<(f64, usize)> {
    let wanted = places.iter().enumerate().filter(|(_, place)| kinds.contains(&place.kind));
    let mut found: Vec<(f64, usize)> = wanted
        .flat_map(|(number, place)| {
            ride.passes(place.at.space(), reach(place.kind)).into_iter().map(move |metres| (metres, number))
        })
        .collect();
    found.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
    found
}

/// The longest way between two places, of those that touch a part of the ride. The ride begins and ends as if at one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gap {
    /// Metres from the start.
    pub from: f64,
    /// Metres from the start.
    pub to: f64,
}

impl Gap {
    /// Its length in metres.
    #[must_use]
    pub fn metres(self) -> f64 {
        self.to - self.from
    }
}

/// A part is touched by a gap if at least so much of it lies in the gap, in metres: a camp just beyond a pump does not
/// make the whole way up to that pump one of the next day's.
const TOUCHED: f64 = 1000.0;

/// The longest gap that touches the part between two places along the way.
#[must_use]
pub fn longest(passes: &[(f64, usize)], total: f64, from: f64, to: f64) -> Gap {
    let places = std::iter::once(0.0).chain(passes.iter().map(|(metres, _)| *metres)).chain([total]);
    let mut before = 0.0;
    let mut longest = Gap { from, to: from };
    for place in places {
        let gap = Gap { from: before, to: place };
        before = place;
        let shared = gap.to.min(to) - gap.from.max(from);
        let enough = TOUCHED.min(gap.metres()).min((to - from) / 2.0);
        if shared > 0.0 && shared >= enough && gap.metres() > longest.metres() {
            longest = gap;
        }
    }
    longest
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_longest_gap_counts_for_every_day_that_it_touches() {
        let passes = [(100.0, 0), (400.0, 1), (450.0, 2)];
        let gap = |passes: &[(f64, usize)], from: f64, to: f64| {
            let gap = longest(passes, 600.0, from, to);
            (gap.from, gap.to)
        };
        assert_eq!(gap(&passes, 0.0, 200.0), (100.0, 400.0));
        assert_eq!(gap(&passes, 200.0, 600.0), (100.0, 400.0));
        assert_eq!(gap(&passes, 420.0, 600.0), (450.0, 600.0));
        assert_eq!(gap(&[], 0.0, 600.0), (0.0, 600.0));
        assert_eq!(
            gap(&[(390.0, 0), (410.0, 1)], 400.0, 600.0),
            (410.0, 600.0),
            "not the first 390 m, 10 m before the day"
        );
    }
}
