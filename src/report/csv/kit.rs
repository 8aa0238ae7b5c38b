//! A kit, a row for each kind of thing in each bag. `--kit` and `--packed` read it back.

use super::{plain, several, table};
use csv::Error;
use fardel_core::answer::split::{Card, SplitAnswer};
use fardel_core::answer::{PackAnswer, PackedBag, PackedItem, Standing};

/// The columns; `load` knows such a file by `bag_id`, and reads ids and counts.
const HEAD: [&str; 15] = [
    "rider",
    "bag_id",
    "bag",
    "id",
    "name",
    "kind",
    "count",
    "unit_mass_g",
    "mass_g",
    "volume_ml",
    "standing",
    "purposes",
    "hours_lost_without",
    "to_buy_in_kit",
    "from_toolkit_in_kit",
];

/// One rider's kit.
///
/// # Errors
/// [`Error`] when a row cannot be written, which memory always can.
pub fn pack(answer: &PackAnswer) -> Result<String, Error> {
    table(&HEAD, rows(&answer.trip.rider, &answer.bags))
}

/// A group's kit.
///
/// # Errors
/// As [`pack`].
pub fn split(answer: &SplitAnswer) -> Result<String, Error> {
    table(&HEAD, answer.cards.iter().flat_map(|card| rows(&card.rider, &card.bags)))
}

/// One rider's part of it.
///
/// # Errors
/// As [`pack`].
pub fn card(card: &Card) -> Result<String, Error> {
    table(&HEAD, rows(&card.rider, &card.bags))
}

fn rows(rider: &str, bags: &[PackedBag]) -> Vec<Vec<String>> {
    bags.iter().flat_map(|bag| bag.items.iter().map(move |item| row(rider, bag, item))).collect()
}

fn row(rider: &str, bag: &PackedBag, item: &PackedItem) -> Vec<String> {
    let standing = match item.standing {
        Standing::Earns => "earns",
        Standing::Needed => "needed",
        Standing::Asked => "asked",
    };
    vec![
        plain(rider),
        bag.id.clone(),
        plain(&bag.name),
        item.id.clone(),
        plain(&item.name),
        item.kind.word().to_owned(),
        item.count.to_string(),
        (item.mass.grams() / f64::from(item.count.max(1))).to_string(),
        item.mass.grams().to_string(),
        item.volume.millilitres().to_string(),
        standing.to_owned(),
        several(&item.purposes),
        item.worth.get().to_string(),
        item.to_buy.to_string(),
        item.from_toolkit.to_string(),
    ]
}
