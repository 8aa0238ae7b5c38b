//! Spares of one sort of bike, told apart where a group rides several sorts.

use crate::domain::{Catalogue, Item, Map, Rider};
use std::collections::BTreeSet;

/// A catalogue in which everything that fits one sort of bike only is there once for each sort in the group, keyed
/// `item of bike`, holding `stock of bike`. With one sort of bike, the catalogue as it is.
pub(super) fn told_apart(catalogue: &Catalogue, riders: &[&Rider]) -> Catalogue {
    let mut own = catalogue.clone();
    let bikes = bikes(riders);
    if bikes.len() < 2 {
        return own;
    }
    let mut items: Map<Item> = Map::new();
    for (id, item) in &catalogue.items {
        if !item.holds.keys().any(|stock| is_told_apart(catalogue, stock)) {
            items.insert(id.clone(), item.clone());
            continue;
        }
        for bike in &bikes {
            let key = format!("{id} of {bike}");
            let held = item.holds.iter().map(|(stock, units)| (stock_on(catalogue, stock, bike, true), *units));
            items.insert(key.clone(), Item { id: key, holds: held.collect(), ..item.clone() });
        }
    }
    own.items = items;
    own
}

/// The sorts of bike in the group.
pub(super) fn bikes<'a>(riders: &[&'a Rider]) -> BTreeSet<&'a str> {
    riders.iter().map(|rider| rider.bike.as_str()).collect()
}

/// The name of a stock on this sort of bike; `several`: the group rides more than one.
pub(super) fn stock_on(catalogue: &Catalogue, stock: &str, bike: &str, several: bool) -> String {
    if several && is_told_apart(catalogue, stock) { format!("{stock} of {bike}") } else { stock.to_owned() }
}

fn is_told_apart(catalogue: &Catalogue, stock: &str) -> bool {
    catalogue.stocks.get(stock).is_some_and(|stock| stock.one_bike)
}
