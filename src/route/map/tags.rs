//! What a way is to ride on, from its tags.
//!
//! | told by | sealed | gravel | track | rough |
//! | --- | --- | --- | --- | --- |
//! | `surface` | asphalt, concrete (plates, lanes), chipseal, paved, paving stones, sett, bricks, metal | compacted, fine gravel, gravel, pebbles, unpaved, cobbles | ground, dirt, earth, grass, clay, wood chips | sand, mud, rock, stone, boulders, ice, snow, salt |
//! | `smoothness`, no better than | - | bad | very bad | horrible, very horrible, impassable |
//! | `tracktype`, no better than | - | grade 1 (without `surface`), grade 2 | grades 3, 4 | grade 5 |
//! | `mtb:scale`, no better than | - | - | 1 | 2 and more |
//! | `ford`, no better than | - | - | track | - |
//! | `highway` alone | motorway, trunk, primary, secondary and their links | - | track | path, bridleway |
//!
//! The kind of way counts only where none of the others is there. What nothing tells is unknown and stays so: minor roads
//! without a surface are sealed in one country and gravel in the next. The meanings are those of the map's own pages on
//! these keys; which of four kinds of ground a rider meets there is common practice, no source.

use super::block::Tags;

/// What is ridden on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Ground {
    /// Hard and bound.
    Sealed,
    /// Loose but built.
    Gravel,
    /// Not built, or no longer kept.
    Track,
    /// Rocks, ruts, sand, mud.
    Rough,
    /// A way whose tags do not tell.
    Unknown,
    /// No way of the map.
    OffMap,
    /// Carried, not ridden.
    Ferry,
}

impl Ground {
    /// All of them, in the order in which they are shown.
    pub const ALL: [Self; 7] =
        [Self::Sealed, Self::Gravel, Self::Track, Self::Rough, Self::Unknown, Self::OffMap, Self::Ferry];
    /// Those that a trip knows.
    pub const KNOWN: [Self; 4] = [Self::Sealed, Self::Gravel, Self::Track, Self::Rough];

    /// In a word.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Sealed => "sealed",
            Self::Gravel => "gravel",
            Self::Track => "track",
            Self::Rough => "rough",
            Self::Unknown => "unknown",
            Self::OffMap => "off the map",
            Self::Ferry => "ferry",
        }
    }
}

/// A ford as a cut tells it of a way: there it is among the places already, and must not become another one.
pub(super) const FORD_OF_CUT: &str = "fardel:ford";

/// What is known of a way.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WayKind {
    /// What is ridden on.
    pub ground: Ground,
    /// Could a car with a trailer, or a truck of the country, go there? Not on paths, nor where motors are forbidden.
    pub drivable: bool,
    /// May it be driven in the order of its nodes, and against it?
    pub directions: (bool, bool),
    /// Does it go through water?
    pub ford: bool,
}

/// Kinds of ways that are made for cars, links left out.
const DRIVEN: [&str; 12] = [
    "motorway",
    "trunk",
    "primary",
    "secondary",
    "tertiary",
    "unclassified",
    "residential",
    "living_street",
    "service",
    "road",
    "track",
    "escape",
];

impl WayKind {
    /// None where nobody rides: no way at all, or one that is planned, built or for trains and walkers on stairs.
    pub(super) fn of(tags: &Tags<'_>) -> Option<Self> {
        Self::told(|key| tags.get(key))
    }

    fn told<'a>(tag: impl Fn(&str) -> Option<&'a str>) -> Option<Self> {
        let ford = tag("ford").is_some_and(|value| value != "no") || tag(FORD_OF_CUT).is_some();
        if tag("route") == Some("ferry") {
            let directions = directions(&tag);
            return Some(Self { ground: Ground::Ferry, drivable: true, directions, ford: false });
        }
        let highway = tag("highway")?;
        if matches!(
            highway,
            "proposed"
                | "construction"
                | "razed"
                | "abandoned"
                | "platform"
                | "steps"
                | "elevator"
                | "corridor"
                | "bus_stop"
                | "rest_area"
                | "services"
                | "raceway"
        ) {
            return None;
        }
        // The nearest to the wheels that is said is what counts.
        let said = tag("motor_vehicle").or_else(|| tag("vehicle")).or_else(|| tag("access"));
        let drivable = DRIVEN.contains(&highway.strip_suffix("_link").unwrap_or(highway)) && said != Some("no");
        Some(Self { ground: ground(highway, &tag), drivable, directions: directions(&tag), ford })
    }
}

fn ground<'a>(highway: &str, tag: &impl Fn(&str) -> Option<&'a str>) -> Ground {
    use Ground::{Gravel, Rough, Sealed, Track, Unknown};
    let surface = tag("surface").and_then(surface);
    let track_type = match tag("tracktype") {
        Some("grade1") if surface.is_none() => Some(Gravel),
        Some("grade2") => Some(Gravel),
        Some("grade3" | "grade4") => Some(Track),
        Some("grade5") => Some(Rough),
        _ => None,
    };
    let smoothness = match tag("smoothness") {
        Some("excellent" | "good" | "intermediate")
            if surface.is_none() && track_type.is_none() && highway != "track" =>
        {
            Some(Sealed)
        }
        Some("bad") => Some(Gravel),
        Some("very_bad") => Some(Track),
        Some("horrible" | "very_horrible" | "impassable") => Some(Rough),
        _ => None,
    };
    let steep = match tag("mtb:scale").and_then(|scale| scale.chars().next()) {
        Some('1') => Some(Track),
        Some('2'..='6') => Some(Rough),
        _ => None,
    };
    let ford = tag("ford").is_some_and(|value| value != "no").then_some(Track);
    let worst = [surface, track_type, smoothness, steep, ford].into_iter().flatten().max();
    worst.unwrap_or(match highway.strip_suffix("_link").unwrap_or(highway) {
        "motorway" | "trunk" | "primary" | "secondary" => Sealed,
        "track" => Track,
        "path" | "bridleway" => Rough,
        _ => Unknown,
    })
}

/// Where several are named, the first.
fn surface(value: &str) -> Option<Ground> {
    let value = value.split(';').next().unwrap_or_default().trim();
    match value.split(':').next().unwrap_or_default() {
        "asphalt" | "concrete" | "chipseal" | "paved" | "paving_stones" | "sett" | "bricks" | "brick" | "metal"
        | "metal_grid" | "wood" | "acrylic" | "tartan" => Some(Ground::Sealed),
        "compacted" | "fine_gravel" | "gravel" | "pebblestone" | "unpaved" | "cobblestone" | "unhewn_cobblestone"
        | "grass_paver" | "shells" => Some(Ground::Gravel),
        "ground" | "dirt" | "earth" | "grass" | "clay" | "woodchips" | "soil" => Some(Ground::Track),
        "sand" | "mud" | "rock" | "stone" | "stones" | "rocks" | "boulders" | "ice" | "snow" | "salt" => {
            Some(Ground::Rough)
        }
        _ => None,
    }
}

fn directions<'a>(tag: &impl Fn(&str) -> Option<&'a str>) -> (bool, bool) {
    match tag("oneway") {
        Some("yes" | "true" | "1") => (true, false),
        Some("-1" | "reverse") => (false, true),
        Some("no" | "false" | "0") => (true, true),
        _ => {
            let bound = tag("junction") == Some("roundabout") || tag("highway") == Some("motorway");
            (true, !bound)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn kind(tags: &[(&str, &'static str)]) -> Option<WayKind> {
        WayKind::told(|key| tags.iter().find(|(found, _)| *found == key).map(|(_, value)| *value))
    }

    /// Ten ways as they stand on maps, judged by hand before the table was asked.
    #[test]
    fn ten_ways_by_hand() {
        let ways: [(&[(&str, &str)], Ground); 10] = [
            (&[("highway", "primary"), ("surface", "asphalt"), ("maxspeed", "100")], Ground::Sealed),
            (&[("highway", "unclassified"), ("surface", "gravel")], Ground::Gravel),
            (&[("highway", "track"), ("tracktype", "grade2")], Ground::Gravel),
            (&[("highway", "track"), ("tracktype", "grade4"), ("surface", "dirt")], Ground::Track),
            (&[("highway", "track"), ("surface", "gravel"), ("smoothness", "horrible")], Ground::Rough),
            (&[("highway", "track"), ("surface", "sand")], Ground::Rough),
            (&[("highway", "path"), ("mtb:scale", "1"), ("surface", "ground")], Ground::Track),
            (&[("highway", "tertiary")], Ground::Unknown),
            (&[("highway", "track")], Ground::Track),
            (&[("route", "ferry"), ("motorcar", "yes")], Ground::Ferry),
        ];
        for (tags, ground) in ways {
            assert_eq!(kind(tags).map(|kind| kind.ground), Some(ground), "{tags:?}");
        }
    }

    #[test]
    fn who_may_drive_where() {
        assert!(!kind(&[("highway", "path")]).unwrap().drivable);
        assert!(!kind(&[("highway", "track"), ("motor_vehicle", "no")]).unwrap().drivable);
        assert!(kind(&[("highway", "track"), ("access", "no"), ("motor_vehicle", "private")]).unwrap().drivable);
        assert_eq!(kind(&[("highway", "motorway")]).unwrap().directions, (true, false));
        assert_eq!(kind(&[("highway", "road"), ("oneway", "-1")]).unwrap().directions, (false, true));
        assert_eq!(kind(&[("highway", "proposed")]), None);
        assert_eq!(kind(&[("building", "yes")]), None);
    }
}
