//! What each item is good for: the repairs that it takes part in, on any bike of the catalogue.

use crate::domain::{Bike, Catalogue, Failure, Map, Repair, template};
use std::collections::{BTreeMap, BTreeSet};

/// A repair of a failure.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Use<'a> {
    pub failure: &'a Failure,
    pub repair: &'a Repair,
}

/// For each item, the repairs that it gives something for, in the order of the catalogue.
pub(crate) fn uses(catalogue: &Catalogue) -> Map<Vec<Use<'_>>> {
    let mut uses: Map<Vec<Use<'_>>> = Map::new();
    for failure in catalogue.failures.values() {
        let bikes: Vec<&Bike> = catalogue.bikes.values().filter(|bike| bike.matches(&failure.applies)).collect();
        for repair in &failure.repairs {
            for item in items_for(catalogue, repair, &bikes) {
                uses.entry(item.to_owned()).or_default().push(Use { failure, repair });
            }
        }
    }
    uses
}

/// The items that give something for a repair on one of these bikes.
pub(crate) fn items_for<'a>(catalogue: &'a Catalogue, repair: &Repair, bikes: &[&Bike]) -> Vec<&'a str> {
    let functions: BTreeSet<String> = filled(&repair.needs, bikes);
    let functions: BTreeSet<String> = functions.iter().flat_map(|name| parts(catalogue, name)).collect();
    let stocks = filled(&repair.uses, bikes);
    let serves = |item: &&crate::domain::Item| {
        item.provides.keys().any(|name| functions.contains(name)) || item.holds.keys().any(|name| stocks.contains(name))
    };
    catalogue.items.values().filter(serves).map(|item| item.id.as_str()).collect()
}

/// Names with their holes filled, for each bike; those without holes as they are.
pub(crate) fn filled(names: &Map<u32>, bikes: &[&Bike]) -> BTreeSet<String> {
    let on = |name: &str| -> Vec<String> {
        if name.contains('{') {
            bikes.iter().filter_map(|bike| template::fill(name, &bike.attributes).ok()).collect()
        } else {
            vec![name.to_owned()]
        }
    };
    names.keys().flat_map(|name| on(name)).collect()
}

/// A function and all that it can be had from.
pub(crate) fn parts(catalogue: &Catalogue, function: &str) -> BTreeSet<String> {
    let mut all = BTreeSet::from([function.to_owned()]);
    let mut open = vec![function.to_owned()];
    while let Some(name) = open.pop() {
        let ways = catalogue.functions.get(&name).map(|function| function.also_from.as_slice()).unwrap_or_default();
        for part in ways.iter().flatten() {
            if all.insert(part.clone()) {
                open.push(part.clone());
            }
        }
    }
    all
}

/// Functions that a set of items gives, combinations included.
pub(crate) fn functions_of<'a>(catalogue: &Catalogue, items: impl IntoIterator<Item = &'a str>) -> BTreeSet<String> {
    let items = items.into_iter().filter_map(|id| catalogue.items.get(id));
    let mut given: BTreeSet<String> = items.flat_map(|item| item.provides.keys().cloned()).collect();
    loop {
        let had = |ways: &[Vec<String>]| ways.iter().any(|way| way.iter().all(|part| given.contains(part)));
        let more: Vec<String> = catalogue
            .functions
            .iter()
            .filter(|(id, function)| !given.contains(*id) && had(&function.also_from))
            .map(|(id, _)| id.clone())
            .collect();
        if more.is_empty() {
            return given;
        }
        given.extend(more);
    }
}

/// The single items that give a function by themselves, the lightest first.
pub(crate) fn givers(catalogue: &Catalogue) -> BTreeMap<&str, Vec<&crate::domain::Item>> {
    let mut givers: BTreeMap<&str, Vec<&crate::domain::Item>> = BTreeMap::new();
    for item in catalogue.items.values() {
        for function in item.provides.keys() {
            givers.entry(function).or_default().push(item);
        }
    }
    givers.values_mut().for_each(|items| items.sort_by_key(|item| item.mass));
    givers
}
