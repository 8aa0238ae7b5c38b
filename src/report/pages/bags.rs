//! The kit by bag, as lists to tick.

use crate::Look;
use crate::view::bags::{reason, worth};
use crate::words::sentence;
use fardel_core::answer::{PackedBag, PackedItem};
use serde::Serialize;

/// A bag.
#[derive(Serialize)]
pub(super) struct Bag {
    /// Its number in picture and list, from 1.
    number: usize,
    name: String,
    /// How full it is: `15.8 L of 15.8 L`.
    volume: String,
    /// What is in it: `6.66 kg of 9.00 kg`.
    mass: String,
    /// Share of the room that is filled.
    filled: f64,
    /// Share of the bearable load.
    loaded: f64,
    units: u32,
    /// What leaving the empty bag at home saves, unless it is part of the bike.
    spare: Option<String>,
    items: Vec<Item>,
}

/// Some units of an item in a bag.
#[derive(Serialize)]
struct Item {
    /// What its tick is remembered under.
    tick: String,
    name: String,
    count: u32,
    mass: String,
    worth: String,
    reason: String,
}

/// All bags of a bike; `whose` keeps the ticks of several riders apart.
pub(super) fn bags(bags: &[PackedBag], whose: &str, look: &Look) -> Vec<Bag> {
    bags.iter().enumerate().map(|(at, own)| bag(at + 1, own, whose, look)).collect()
}

fn bag(number: usize, bag: &PackedBag, whose: &str, look: &Look) -> Bag {
    let empty = bag.items.is_empty() && !bag.built_in;
    Bag {
        number,
        name: sentence(&bag.name),
        volume: format!("{} of {}", look.show(bag.filled), look.show(bag.usable)),
        mass: format!("{} of {}", look.show(bag.mass), look.show(bag.max_load)),
        filled: share(bag.filled.millilitres(), bag.usable.millilitres()),
        loaded: share(bag.mass.grams(), bag.max_load.grams()),
        units: bag.items.iter().map(|item| item.count).sum(),
        spare: empty.then(|| look.show(bag.own_mass)),
        items: bag.items.iter().map(|own| item(own, &format!("{whose}/{}", bag.id), look)).collect(),
    }
}

fn item(item: &PackedItem, bag: &str, look: &Look) -> Item {
    Item {
        tick: format!("{bag}/{}", item.id),
        name: item.name.clone(),
        count: item.count,
        mass: look.show(item.mass),
        worth: worth(item, look),
        reason: reason(item),
    }
}

/// A part of a whole, from 0 to 1.
pub(super) fn share(part: f64, whole: f64) -> f64 {
    if whole > 0.0 { (part / whole).clamp(0.0, 1.0) } else { 0.0 }
}
