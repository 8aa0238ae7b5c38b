//! The kit by bag, as lists to tick.

use crate::Look;
use crate::view::bags::{LEGEND, reason, worth};
use crate::view::card::without_size;
use crate::view::{Figure, Names};
use crate::words::sentence;
use fardel_core::answer::{PackedBag, PackedItem};
use fardel_core::units::UnitSystem;
use fardel_words::plain;
use serde::Serialize;

/// A bag.
#[derive(Serialize)]
pub(super) struct Bag {
    /// Its number in picture and list, from 1.
    number: usize,
    name: String,
    /// How full it is: `15.2 of 15.8 L`.
    volume: String,
    /// What is in it: `6.66 of 9.00 kg`.
    mass: String,
    /// Share of the room that is filled.
    filled: f64,
    units: u32,
    /// What leaving the empty bag at home saves, unless it is part of the bike.
    spare: Option<String>,
    items: Vec<Item>,
}

/// Some units of an item in a bag.
#[derive(Serialize)]
struct Item {
    /// What its tick is remembered under: another bag or another count is to be packed anew.
    tick: String,
    /// The name alone, as short as it is known.
    short: String,
    name: String,
    count: u32,
    mass: String,
    grams: f64,
    to_buy: bool,
    worth: String,
    reason: String,
}

/// A list of bags, with what the page needs to keep count while they are packed.
#[derive(Serialize)]
pub(super) struct Packing {
    /// What the ticks are remembered under.
    key: String,
    bags: Vec<Bag>,
    /// How many things.
    units: u32,
    whole: String,
    unit: &'static str,
    /// The unit for a gram.
    per_gram: f64,
    /// What the times beside things are.
    legend: &'static str,
}

/// All bags of a bike.
pub(super) fn packing(bags: &[PackedBag], key: String, names: &Names, look: &Look) -> Packing {
    let (unit, per_gram) = match look.units {
        UnitSystem::Metric => ("kg", 0.001),
        UnitSystem::Imperial => ("lb", 1.0 / 453.592_37),
    };
    let mass = bags.iter().map(|bag| bag.mass).sum::<fardel_core::units::Mass>();
    Packing {
        key,
        bags: bags.iter().enumerate().map(|(at, own)| bag(at + 1, own, names, look)).collect(),
        units: bags.iter().flat_map(|bag| &bag.items).map(|item| item.count).sum(),
        whole: look.show(mass),
        unit,
        per_gram,
        legend: plain(LEGEND).trim(),
    }
}

fn bag(number: usize, bag: &PackedBag, names: &Names, look: &Look) -> Bag {
    let empty = bag.items.is_empty() && !bag.built_in;
    Bag {
        number,
        name: sentence(without_size(&bag.name)),
        volume: Figure::volume(bag.filled, look).of(&Figure::volume(bag.usable, look)),
        mass: Figure::mass(bag.mass, look).of(&Figure::mass(bag.max_load, look)),
        filled: share(bag.filled.millilitres(), bag.usable.millilitres()),
        units: bag.items.iter().map(|item| item.count).sum(),
        spare: empty.then(|| look.show(bag.own_mass)),
        items: bag.items.iter().map(|own| item(own, &bag.id, names, look)).collect(),
    }
}

fn item(item: &PackedItem, bag: &str, names: &Names, look: &Look) -> Item {
    Item {
        tick: format!("{bag}/{}/{}", item.id, item.count),
        short: names.short(&item.name).to_owned(),
        name: item.name.clone(),
        count: item.count,
        mass: look.show(item.mass),
        grams: item.mass.grams(),
        to_buy: item.to_buy > 0,
        worth: worth(item, look),
        reason: reason(item),
    }
}

/// A part of a whole, from 0 to 1.
pub(super) fn share(part: f64, whole: f64) -> f64 {
    if whole > 0.0 { (part / whole).clamp(0.0, 1.0) } else { 0.0 }
}
