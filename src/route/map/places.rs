//! Places beside the way that matter: who sells, who helps, what is in the way.

use super::block::Tags;
use crate::geo::Point;
use crate::track::MarkKind;

/// What is at a place of the map.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum PlaceKind {
    /// A pump.
    Fuel,
    /// Groceries.
    Shop,
    /// Water that the map says can be drunk.
    Water,
    /// A city or a part of it, a town or a village.
    Settlement,
    /// Somebody who repairs motorcycles or cars.
    Workshop,
    /// A hospital or a clinic.
    Hospital,
    /// A ranger, or a mountain or lifeboat rescue post.
    Ranger,
    /// Water across the way.
    Ford,
    /// Something to open, or that may be locked.
    Gate,
}

impl PlaceKind {
    /// In a word.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Fuel => "fuel",
            Self::Shop => "shop",
            Self::Water => "water",
            Self::Settlement => "town",
            Self::Workshop => "workshop",
            Self::Hospital => "hospital",
            Self::Ranger => "ranger",
            Self::Ford => "ford",
            Self::Gate => "gate",
        }
    }

    /// Can somebody there come and fetch a bike, or call someone who can?
    #[must_use]
    pub const fn helps(self) -> bool {
        matches!(self, Self::Fuel | Self::Settlement | Self::Workshop | Self::Hospital | Self::Ranger)
    }

    /// What the tags say. A place can be more than one thing.
    pub(super) fn of(tags: &Tags<'_>) -> Vec<Self> {
        if tags.is_empty() { Vec::new() } else { Self::told(|key| tags.get(key)) }
    }

    fn told<'a>(tag: impl Fn(&str) -> Option<&'a str>) -> Vec<Self> {
        let amenity = tag("amenity");
        let shop = match (amenity, tag("shop")) {
            (Some("fuel"), _) => Some(Self::Fuel),
            (_, Some("motorcycle" | "motorcycle_repair" | "car_repair" | "tyres")) => Some(Self::Workshop),
            (
                _,
                Some(
                    "supermarket" | "convenience" | "general" | "grocery" | "bakery" | "greengrocer" | "country_store"
                    | "kiosk",
                ),
            ) => Some(Self::Shop),
            (Some("hospital" | "clinic"), _) => Some(Self::Hospital),
            (Some("ranger_station"), _) => Some(Self::Ranger),
            (Some("drinking_water" | "water_point"), _) => Some(Self::Water),
            _ => None,
        };
        let tap = tag("drinking_water") == Some("yes") && tag("man_made").or_else(|| tag("natural")).is_some();
        let place = match tag("place") {
            Some("city" | "town" | "village" | "suburb") => Some(Self::Settlement),
            _ => None,
        };
        let rescue = matches!(tag("emergency"), Some("mountain_rescue" | "lifeboat_station")).then_some(Self::Ranger);
        let ford = tag("ford").is_some_and(|value| value != "no").then_some(Self::Ford);
        let gate = matches!(tag("barrier"), Some("gate" | "lift_gate" | "swing_gate" | "bollard" | "block"))
            .then_some(Self::Gate);
        [shop, tap.then_some(Self::Water), place, rescue, ford, gate].into_iter().flatten().collect()
    }
}

/// A place of the map, or one that the rider marked.
#[derive(Debug, Clone, PartialEq)]
pub struct Place {
    /// What is there.
    pub kind: PlaceKind,
    /// What it is called; empty where the map does not say.
    pub name: String,
    /// Where.
    pub at: Point,
}

impl Place {
    /// The rider's mark as a place; none for camps and what is not understood.
    #[must_use]
    pub fn marked(mark: &crate::track::Mark) -> Option<Self> {
        let kind = match mark.kind {
            MarkKind::Fuel => PlaceKind::Fuel,
            MarkKind::Shop => PlaceKind::Shop,
            MarkKind::Water => PlaceKind::Water,
            MarkKind::Help => PlaceKind::Workshop,
            MarkKind::Camp | MarkKind::Other => return None,
        };
        Some(Self { kind, name: mark.name.clone(), at: mark.at })
    }
}
