//! What items can give at all, and what anything asks for.

use crate::domain::{Bike, Catalogue, Failure, Map, template};
use indexmap::IndexSet;

/// Functions and stocks that all items together give, with how many at most.
pub(super) struct Reach {
    functions: Map<u32>,
    stocks: Map<u32>,
}

impl Reach {
    /// Items whose own requirements cannot be met give nothing.
    pub fn of(catalogue: &Catalogue) -> Self {
        let mut reach = Self { functions: Map::new(), stocks: Map::new() };
        loop {
            let (functions, stocks) = reach.grown(catalogue);
            if functions == reach.functions && stocks == reach.stocks {
                return reach;
            }
            (reach.functions, reach.stocks) = (functions, stocks);
        }
    }

    fn grown(&self, catalogue: &Catalogue) -> (Map<u32>, Map<u32>) {
        let (mut functions, mut stocks) = (Map::new(), Map::new());
        let usable = |requires: &Map<u32>| requires.iter().all(|(name, n)| self.function(name) >= *n);
        for item in catalogue.items.values().filter(|item| usable(&item.requires)) {
            for (into, given) in [(&mut functions, &item.provides), (&mut stocks, &item.holds)] {
                for (name, n) in given {
                    let total: &mut u32 = into.entry(name.clone()).or_insert(0);
                    *total = total.saturating_add(n.saturating_mul(item.at_most));
                }
            }
        }
        for (id, function) in &catalogue.functions {
            if function.also_from.iter().any(|way| way.iter().all(|part| self.function(part) > 0)) {
                functions.entry(id.clone()).or_insert(1);
            }
        }
        functions.sort_keys();
        stocks.sort_keys();
        (functions, stocks)
    }

    /// How many of a function at a time all items together give.
    pub fn function(&self, name: &str) -> u32 {
        self.functions.get(name).copied().unwrap_or(0)
    }

    /// How many units of a stock all items together hold.
    pub fn stock(&self, name: &str) -> u32 {
        self.stocks.get(name).copied().unwrap_or(0)
    }
}

/// The bikes that a failure can happen to.
pub(super) fn sufferers<'a>(catalogue: &'a Catalogue, failure: &'a Failure) -> impl Iterator<Item = &'a Bike> {
    catalogue.bikes.values().filter(|bike| bike.matches(&failure.applies))
}

/// A name with the bike's values in its holes.
pub(super) fn filled(name: &str, bike: &Bike) -> String {
    template::fill(name, &bike.attributes).unwrap_or_else(|_| name.to_owned())
}

/// Functions and stocks that something asks for: repairs on bikes that can suffer the failure, the parts of what is
/// asked for, and items that are themselves of use.
pub(super) struct Asked {
    pub functions: IndexSet<String>,
    pub stocks: IndexSet<String>,
}

impl Asked {
    pub fn of(catalogue: &Catalogue) -> Self {
        let mut asked = Self { functions: IndexSet::new(), stocks: IndexSet::new() };
        for failure in catalogue.failures.values() {
            for bike in sufferers(catalogue, failure) {
                for repair in &failure.repairs {
                    asked.functions.extend(repair.needs.keys().map(|name| filled(name, bike)));
                    asked.stocks.extend(repair.uses.keys().map(|name| filled(name, bike)));
                }
            }
        }
        loop {
            let before = asked.functions.len();
            let parts = catalogue.functions.iter().filter(|(id, _)| asked.functions.contains(*id));
            let parts: Vec<String> = parts.flat_map(|(_, function)| function.also_from.concat()).collect();
            asked.functions.extend(parts);
            let useful: Vec<_> = catalogue.items.values().filter(|item| asked.wants(item) || item.on_request).collect();
            asked.functions.extend(useful.iter().flat_map(|item| item.requires.keys().cloned()));
            if asked.functions.len() == before {
                return asked;
            }
        }
    }

    /// Is anything that this item gives asked for?
    pub fn wants(&self, item: &crate::domain::Item) -> bool {
        !item.meets.is_empty()
            || item.provides.keys().any(|name| self.functions.contains(name))
            || item.holds.keys().any(|name| self.stocks.contains(name))
    }
}
