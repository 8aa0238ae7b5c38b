//! Things that are used together, and which of them a bike's things belong to.

use super::{Basis, Bike, Catalogue, Item, Kind, Map, template};
use std::collections::{BTreeMap, BTreeSet};

/// Kinds of things that a bike is mended with; petrol, clothing or food that a repair asks for stays what it is.
const MENDS: [Kind; 4] = [Kind::Tool, Kind::Spare, Kind::Consumable, Kind::Electronics];

/// Things that are used together and so are kept together.
#[derive(Debug, Clone, PartialEq)]
pub struct WorkingSet {
    /// Key in the catalogue.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// Systems whose failures are mended with it.
    pub systems: Vec<String>,
    /// Kinds of things that belong to it unless another set asks for them.
    pub kinds: Vec<Kind>,
    /// How often a day it is reached for, whatever breaks.
    pub a_day: f64,
    /// Where the numbers come from.
    pub basis: Basis,
}

/// The sets as one bike has them: what a thing is for depends on the bike.
#[derive(Debug)]
pub struct SetsOfBike<'a> {
    sets: &'a Map<WorkingSet>,
    /// For each failure that can happen on the bike, the set that its system belongs to.
    of_failure: Vec<Option<usize>>,
    /// Names of functions and stocks that repairs ask for, with the numbers of the failures.
    asked: BTreeMap<String, BTreeSet<usize>>,
    /// Functions that do nothing but together with others.
    pieces: BTreeSet<&'a str>,
}

impl Catalogue {
    /// The sets as a bike has them.
    #[must_use]
    pub fn sets_on(&self, bike: &Bike) -> SetsOfBike<'_> {
        let (mut of_failure, mut asked) = (Vec::new(), BTreeMap::<String, BTreeSet<usize>>::new());
        // Without sets nothing has to be looked up.
        let failures = self.failures.values().filter(|failure| !self.sets.is_empty() && bike.matches(&failure.applies));
        for (at, failure) in failures.enumerate() {
            of_failure.push(self.sets.values().position(|set| set.systems.contains(&failure.system)));
            for name in failure.repairs.iter().flat_map(|repair| repair.needs.keys().chain(repair.uses.keys())) {
                if let Ok(name) = template::fill(name, &bike.attributes) {
                    asked.entry(name).or_default().insert(at);
                }
            }
        }
        let ways = self.functions.values().flat_map(|function| &function.also_from).filter(|way| way.len() > 1);
        let pieces = ways.flatten().map(String::as_str).filter(|name| !asked.contains_key(*name)).collect();
        SetsOfBike { sets: &self.sets, of_failure, asked, pieces }
    }
}

impl SetsOfBike<'_> {
    /// The number of the set that a thing belongs to: the one for whose systems at least half of the failures are that
    /// ask for it, or else, as for pieces of a whole, the first that takes its kind.
    #[must_use]
    pub fn of(&self, item: &Item) -> Option<usize> {
        self.by_use(item).or_else(|| self.sets.values().position(|set| set.kinds.contains(&item.kind)))
    }

    fn by_use(&self, item: &Item) -> Option<usize> {
        if !MENDS.contains(&item.kind) {
            return None;
        }
        if item.provides.keys().any(|name| self.pieces.contains(name.as_str())) {
            return None;
        }
        let names = item.provides.keys().chain(item.holds.keys());
        let failures: BTreeSet<usize> = names.filter_map(|name| self.asked.get(name)).flatten().copied().collect();
        let votes = |set: usize| failures.iter().filter(|failure| self.of_failure[**failure] == Some(set)).count();
        (0..self.sets.len()).find(|set| !failures.is_empty() && votes(*set) * 2 >= failures.len())
    }
}

#[cfg(test)]
mod tests {
    use crate::load::{Source, load_texts, shipped};

    /// What riders keep together (common practice, no source): levers, pump and patches; tester and fuses; a socket
    /// with its handle; stove with pot and gas.
    #[test]
    fn shipped_things_are_in_the_sets_that_riders_keep() {
        let text = include_str!("../../../scenarios/day-ride.yaml").to_owned();
        let scenario = Source { name: "day-ride.yaml".to_owned(), text };
        let catalogue = load_texts(&shipped(), scenario, &|_| unreachable!("no other files")).unwrap().catalogue;
        let bike = &catalogue.bikes["single-450-tubed"];
        let sets = catalogue.sets_on(bike);
        let of = |id: &str| sets.of(&catalogue.items[id]).map(|at| catalogue.sets[at].id.as_str());
        for id in ["tyre-lever", "hand-pump", "patch-kit", "tube-18", "valve-core-kit"] {
            assert_eq!(of(id), Some("puncture"), "{id}");
        }
        for id in ["test-lamp", "fuses", "jump-pack"] {
            assert_eq!(of(id), Some("electrics"), "{id}");
        }
        for id in ["ratchet-3-8", "socket-12", "sliding-bar-1-2", "axle-key-19", "multi-tool", "spanner-10"] {
            assert_eq!(of(id), Some("tools"), "{id}");
        }
        for id in ["stove-gas", "gas-230", "pot-1300", "lighter", "spoon"] {
            assert_eq!(of(id), Some("stove"), "{id}");
        }
        // Petrol keeps by itself, whatever repairs ask for it.
        assert_eq!(of("fuel-bag-3"), None);
    }
}
