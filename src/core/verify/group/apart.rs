//! Spares of one sort of bike, told apart where a group rides several sorts.

use crate::domain::{Catalogue, Item, Map, Rider};
use std::collections::BTreeSet;
use std::fmt;

/// A thing of the catalogue, and the sort of bike that it is for where sorts are told apart.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(in crate::verify) struct ItemKey {
    /// Key in the catalogue.
    pub item: String,
    /// Key of the bike.
    pub bike: Option<String>,
}

impl fmt::Display for ItemKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.bike {
            Some(bike) => write!(f, "{} of {bike}", self.item),
            None => f.write_str(&self.item),
        }
    }
}

/// What each key of the catalogue stands for, by the key as it is written in bags.
pub(in crate::verify) type Keys = Map<ItemKey>;

/// A catalogue in which everything that fits one sort of bike only is there once for each sort in the group, keyed
/// `item of bike`, holding `stock of bike`. With one sort of bike, the catalogue as it is.
pub(super) fn told_apart(catalogue: &Catalogue, riders: &[&Rider]) -> (Catalogue, Keys) {
    let bikes = bikes(riders);
    let (mut items, mut keys): (Map<Item>, Keys) = (Map::new(), Keys::new());
    for (id, item) in &catalogue.items {
        if bikes.len() < 2 || !item.holds.keys().any(|stock| is_told_apart(catalogue, stock)) {
            items.insert(id.clone(), item.clone());
            keys.insert(id.clone(), ItemKey { item: id.clone(), bike: None });
            continue;
        }
        for bike in &bikes {
            let key = ItemKey { item: id.clone(), bike: Some((*bike).to_owned()) };
            let held = item.holds.iter().map(|(stock, units)| (stock_on(catalogue, stock, bike, true), *units));
            items.insert(key.to_string(), Item { id: key.to_string(), holds: held.collect(), ..item.clone() });
            keys.insert(key.to_string(), key);
        }
    }
    (Catalogue { items, ..catalogue.clone() }, keys)
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
