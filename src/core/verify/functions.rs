//! Which functions there are with some things at hand, combinations included.

use crate::domain::{Catalogue, Item};
use std::collections::BTreeSet;

/// Functions that some items give by themselves, and everything that can be combined from functions that are there. Found
/// by adding until nothing is added: combinations may be built on combinations, many ways deep.
pub(super) fn had<'a>(catalogue: &'a Catalogue, items: impl Iterator<Item = &'a Item>) -> BTreeSet<&'a str> {
    let mut functions: BTreeSet<&str> = items.flat_map(|item| item.provides.keys().map(String::as_str)).collect();
    loop {
        let before = functions.len();
        for (id, function) in &catalogue.functions {
            if function.also_from.iter().any(|way| way.iter().all(|part| functions.contains(part.as_str()))) {
                functions.insert(id);
            }
        }
        if functions.len() == before {
            return functions;
        }
    }
}
