//! Ready sets of what riders have at home, so that nobody types forty names to begin with.

use crate::domain::{Bike, Catalogue, Kind, template};
use fardel_words::word;

/// A set of things that are usually owned together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OwnedSet {
    /// Telephone, papers, money, first aid, water bottles, rain suit: for any day.
    Basics,
    /// What turns the usual fasteners and holds things together.
    Tools,
    /// What mends a tyre of this bike.
    Tyres,
    /// Clothes and wash things for nights away.
    Away,
    /// Tent, bag and mat.
    Sleeping,
    /// Stove, pot, lighter and spoon.
    Cooking,
    /// A beacon for where no telephone works.
    Beacon,
}

impl OwnedSet {
    /// All of them, in the order in which they are asked for.
    pub const ALL: [Self; 7] =
        [Self::Basics, Self::Tools, Self::Tyres, Self::Away, Self::Sleeping, Self::Cooking, Self::Beacon];

    /// The word for it, as on the command line.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Basics => "basics",
            Self::Tools => "tools",
            Self::Tyres => "tyres",
            Self::Away => "away",
            Self::Sleeping => "sleeping",
            Self::Cooking => "cooking",
            Self::Beacon => "beacon",
        }
    }

    /// What is in it, for a question.
    #[must_use]
    pub fn told(self) -> &'static str {
        match self {
            Self::Basics => word!("phone, papers, cash, first-aid kit, bottles, rain suit"),
            Self::Tools => word!("multi-tool, spanners, hex keys, tape, zip ties, fuses"),
            Self::Tyres => word!("what mends this bike's tyres: pump, levers, patches and tubes, or plugs"),
            Self::Away => word!("spare clothes, fleece, wash kit, headlamp"),
            Self::Sleeping => word!("tent, sleeping bag, mat"),
            Self::Cooking => word!("gas stove, pot, lighter, spoon"),
            Self::Beacon => "locator beacon",
        }
    }

    /// Ids and counts of what the catalogue has of it.
    #[must_use]
    pub fn items(self, catalogue: &Catalogue, bike: &Bike) -> Vec<(String, u32)> {
        let listed: &[(&str, u32)] = match self {
            Self::Basics => &[
                ("phone", 1),
                ("documents", 1),
                ("cash", 1),
                ("first-aid-kit", 1),
                ("bottle-1000", 2),
                ("rain-suit", 1),
            ],
            Self::Tools => &[
                ("multi-tool", 1),
                ("spanner-10", 1),
                ("spanner-12", 1),
                ("spanner-13", 1),
                ("hex-key-set", 1),
                ("cloth-tape", 1),
                ("zip-ties", 1),
                ("fuses", 1),
            ],
            Self::Tyres => return tyres(catalogue, bike),
            Self::Away => &[("base-set", 1), ("fleece", 1), ("wash-kit-light", 1), ("headlamp", 1)],
            Self::Sleeping => &[("tent-1", 1), ("bag-0-synthetic", 1), ("mat-self-inflating", 1)],
            Self::Cooking => &[("stove-gas", 1), ("pot-1300", 1), ("lighter", 1), ("spoon", 1)],
            Self::Beacon => &[("locator-beacon", 1)],
        };
        known(catalogue, listed.iter().map(|(id, n)| ((*id).to_owned(), *n)))
    }
}

fn known(catalogue: &Catalogue, items: impl Iterator<Item = (String, u32)>) -> Vec<(String, u32)> {
    items.filter(|(id, _)| catalogue.items.contains_key(id)).collect()
}

/// Tubes of the bike's sizes with levers and patches where it has tubes, else plugs; a pump either way.
fn tyres(catalogue: &Catalogue, bike: &Bike) -> Vec<(String, u32)> {
    let tubed = |end: &str| bike.attributes.get(&format!("{end}_tyre")).is_some_and(|tyre| tyre == "tubed");
    let mut items = vec![("hand-pump".to_owned(), 1), ("pressure-gauge".to_owned(), 1)];
    if tubed("front") || tubed("rear") {
        items.extend([("tyre-lever".to_owned(), 2), ("patch-kit".to_owned(), 1)]);
    }
    if !(tubed("front") && tubed("rear")) {
        items.push(("plug-kit".to_owned(), 1));
    }
    for end in ["front", "rear"] {
        items.extend(tube(catalogue, bike, end).filter(|_| tubed(end)).map(|id| (id, 1)));
    }
    known(catalogue, items.into_iter())
}

/// The first tube of the catalogue in the size of a wheel.
fn tube(catalogue: &Catalogue, bike: &Bike, end: &str) -> Option<String> {
    let stock = template::fill(&format!("inner tube {{{end}_rim}}"), &bike.attributes).ok()?;
    let fits = catalogue.items.values().find(|item| item.kind == Kind::Spare && item.holds.contains_key(&stock))?;
    Some(fits.id.clone())
}
