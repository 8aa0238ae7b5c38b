//! Bags and what is in them.

use super::figures::{Costs, costs};
use fardel_core::answer::{PackedItem, Standing};
use serde::Serialize;

#[derive(Serialize)]
pub(super) struct Bag<'a> {
    id: &'a str,
    name: &'a str,
    empty_g: f64,
    part_of_bike: bool,
    filled_ml: f64,
    usable_ml: f64,
    mass_g: f64,
    max_load_g: f64,
    items: Vec<Item<'a>>,
}

#[derive(Serialize)]
struct Item<'a> {
    id: &'a str,
    name: &'a str,
    kind: &'static str,
    standing: &'static str,
    count: u32,
    mass_g: f64,
    volume_ml: f64,
    to_buy_in_kit: u32,
    from_toolkit_in_kit: u32,
    hours_lost_without: f64,
    costs: Costs,
    purposes: &'a [String],
}

pub(super) fn bag(bag: &fardel_core::answer::PackedBag) -> Bag<'_> {
    Bag {
        id: &bag.id,
        name: &bag.name,
        empty_g: bag.own_mass.grams(),
        part_of_bike: bag.built_in,
        filled_ml: bag.filled.millilitres(),
        usable_ml: bag.usable.millilitres(),
        mass_g: bag.mass.grams(),
        max_load_g: bag.max_load.grams(),
        items: bag.items.iter().map(item).collect(),
    }
}

fn item(item: &PackedItem) -> Item<'_> {
    Item {
        id: &item.id,
        name: &item.name,
        kind: item.kind.word(),
        standing: standing(item.standing),
        count: item.count,
        mass_g: item.mass.grams(),
        volume_ml: item.volume.millilitres(),
        to_buy_in_kit: item.to_buy,
        from_toolkit_in_kit: item.from_toolkit,
        hours_lost_without: item.worth.get(),
        costs: costs(&item.costs),
        purposes: &item.purposes,
    }
}

pub(super) const fn standing(standing: Standing) -> &'static str {
    match standing {
        Standing::Earns => "earns",
        Standing::Needed => "needed",
        Standing::Asked => "asked",
    }
}
