//! What the rider has: lines of points and marks beside them.

use crate::geo::Point;

/// All that was read from the files of a rider, in the order given.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Track {
    /// Lines, each ridden from its first point to its last.
    pub lines: Vec<Line>,
    /// Waypoints, in no order.
    pub marks: Vec<Mark>,
}

/// Points that follow each other without a break.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Line {
    /// Number of the file that it is from, from 0.
    pub file: usize,
    /// What it is called, if anything.
    pub name: Option<String>,
    /// The points, at least one.
    pub points: Vec<TrackPoint>,
}

/// A point of a line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TrackPoint {
    /// Where.
    pub at: Point,
    /// Metres above the sea.
    pub height: Option<f64>,
    /// Seconds since the beginning of 1970, UTC.
    pub time: Option<f64>,
}

/// A waypoint that says what is there.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// Where.
    pub at: Point,
    /// What it is called.
    pub name: String,
    /// What is there, as far as type, symbol or name tell.
    pub kind: MarkKind,
}

/// What is at a waypoint.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum MarkKind {
    /// A place to sleep.
    Camp,
    /// A pump.
    Fuel,
    /// Food to buy.
    Shop,
    /// Water to drink.
    Water,
    /// Somebody who can help with a broken bike.
    Help,
    /// None of these, or nothing that is understood.
    Other,
}

/// Words by which the kinds are known, whole and in lower case. In order: the first that fits is taken.
const WORDS: [(MarkKind, &[&str]); 5] = [
    (
        MarkKind::Camp,
        &["camp", "camps", "campsite", "campground", "camping", "bivouac", "bivvy", "hut", "overnight", "sleep"],
    ),
    (MarkKind::Fuel, &["fuel", "petrol", "gas", "gasoline", "pump", "pumps", "filling"]),
    (MarkKind::Shop, &["shop", "store", "supermarket", "grocery", "groceries", "market", "food"]),
    (MarkKind::Water, &["water", "tap", "spring", "well", "fountain"]),
    (MarkKind::Help, &["workshop", "mechanic", "garage", "hospital", "ranger", "town", "help"]),
];

impl MarkKind {
    /// What type, symbol and name say, asked in this order.
    #[must_use]
    pub fn told<'a>(texts: impl IntoIterator<Item = &'a str>) -> Self {
        texts.into_iter().find_map(Self::of).unwrap_or(Self::Other)
    }

    fn of(text: &str) -> Option<Self> {
        let text = text.to_lowercase();
        let words: Vec<&str> = text.split(|c: char| !c.is_alphanumeric()).collect();
        WORDS.iter().find(|(_, known)| words.iter().any(|word| known.contains(word))).map(|(kind, _)| *kind)
    }
}

impl Track {
    /// Points of all lines.
    #[must_use]
    pub fn point_count(&self) -> usize {
        self.lines.iter().map(|line| line.points.len()).sum()
    }

    /// The same track ridden from its end to its beginning; times, which no longer fit, are left out.
    #[must_use]
    pub fn reversed(&self) -> Self {
        let back = |line: &Line| {
            let points = line.points.iter().rev().map(|point| TrackPoint { time: None, ..*point }).collect();
            Line { points, ..line.clone() }
        };
        Self { lines: self.lines.iter().rev().map(back).collect(), marks: self.marks.clone() }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn type_goes_before_name_and_only_whole_words_count() {
        assert_eq!(MarkKind::told(["", "Campground", "Old pump"]), MarkKind::Camp);
        assert_eq!(MarkKind::told(["", "", "Old pump, closed on Sundays"]), MarkKind::Fuel);
        assert_eq!(MarkKind::told(["Waypoint", "Flag", "Waterloo"]), MarkKind::Other);
        assert_eq!(MarkKind::told(["water-tap"]), MarkKind::Water);
    }
}
