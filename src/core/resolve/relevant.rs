//! Which items can matter at all. Everything else is dropped, counted and named, before the optimiser sees it.
//!
//! A repair is live when the rider has the skill, it saves time on some leg, and every function and stock it takes can
//! be had from some item; an item is live when it serves a live repair, a demand of the trip, or a live item that
//! requires its function. Each makes the other smaller, so the two are found together, by shrinking until still.

use super::instance::Demand;
use super::reading::{Candidate, Wanted};
use crate::domain::{Catalogue, Failure, Item, Scenario};
use indexmap::IndexSet;

/// What is still alive: candidates and repairs by position, and the names they give and take.
pub(super) struct Live {
    pub items: Vec<bool>,
    repairs: Vec<bool>,
    pub functions: IndexSet<String>,
    pub stocks: IndexSet<String>,
}

impl Live {
    pub fn find(
        catalogue: &Catalogue,
        scenario: &Scenario,
        candidates: &[Candidate<'_>],
        repairs: &[Wanted<'_>],
        demands: &[Demand],
    ) -> Self {
        let mut live = Self {
            items: vec![true; candidates.len()],
            repairs: vec![true; repairs.len()],
            functions: IndexSet::new(),
            stocks: IndexSet::new(),
        };
        loop {
            let before = (live.items.clone(), live.repairs.clone());
            let (functions, stocks) = live.obtainable(catalogue, candidates);
            for (alive, wanted) in live.repairs.iter_mut().zip(repairs) {
                *alive &= wanted.needs.iter().all(|(name, _)| functions.contains(name))
                    && wanted.uses.iter().all(|(name, _)| stocks.contains(name));
            }
            for (alive, found) in live.items.iter_mut().zip(candidates) {
                // What has to come along stays: that it is useless alone is for the answer to say.
                *alive &= scenario.always.contains_key(&found.item.id)
                    || found.item.requires.keys().all(|name| functions.contains(name));
            }
            live.keep_useful(catalogue, scenario, candidates, repairs, demands);
            if before == (live.items.clone(), live.repairs.clone()) {
                return live;
            }
        }
    }

    /// What the live items give, combinations included.
    fn obtainable(&self, catalogue: &Catalogue, candidates: &[Candidate<'_>]) -> (IndexSet<String>, IndexSet<String>) {
        let alive = || candidates.iter().zip(&self.items).filter(|(_, alive)| **alive).map(|(found, _)| found.item);
        let mut functions: IndexSet<String> = alive().flat_map(|item| item.provides.keys().cloned()).collect();
        let held = candidates.iter().zip(&self.items).filter(|(_, alive)| **alive).flat_map(|(found, _)| &found.holds);
        let stocks = held.map(|(name, _)| name.clone()).collect();
        loop {
            let before = functions.len();
            for (id, function) in &catalogue.functions {
                if function.also_from.iter().any(|way| way.iter().all(|part| functions.contains(part))) {
                    functions.insert(id.clone());
                }
            }
            if functions.len() == before {
                return (functions, stocks);
            }
        }
    }

    /// Drops items that serve no live repair, no demand and no live item.
    fn keep_useful(
        &mut self,
        catalogue: &Catalogue,
        scenario: &Scenario,
        candidates: &[Candidate<'_>],
        repairs: &[Wanted<'_>],
        demands: &[Demand],
    ) {
        let alive = || repairs.iter().zip(&self.repairs).filter(|(_, alive)| **alive).map(|(wanted, _)| wanted);
        let stocks: IndexSet<String> = alive().flat_map(|w| w.uses.iter().map(|(name, _)| name.clone())).collect();
        let mut functions: IndexSet<String> = alive().flat_map(|w| w.needs.iter().map(|(n, _)| n.clone())).collect();
        let always = |item: &Item| scenario.always.contains_key(&item.id);
        let mut useful = vec![false; candidates.len()];
        loop {
            let before = functions.len();
            add_parts(catalogue, &mut functions);
            for (at, found) in candidates.iter().enumerate() {
                let item = found.item;
                useful[at] = self.items[at]
                    && (always(item)
                        || item.provides.keys().any(|name| functions.contains(name))
                        || found.holds.iter().any(|(name, _)| stocks.contains(name))
                        || demands.iter().any(|demand| meets(item, found.owner, demand) > 0.0));
                if useful[at] {
                    functions.extend(item.requires.keys().cloned());
                }
            }
            if functions.len() == before {
                break;
            }
        }
        self.items = useful;
        self.functions = functions;
        self.stocks = stocks;
    }

    /// The live repairs of one failure on bikes that are alike.
    pub fn of<'a>(
        &'a self,
        machine: usize,
        failure: &'a Failure,
        repairs: &'a [Wanted<'a>],
    ) -> impl Iterator<Item = &'a Wanted<'a>> {
        let alive = repairs.iter().zip(&self.repairs).filter(|(_, alive)| **alive).map(|(wanted, _)| wanted);
        alive.filter(move |wanted| wanted.machine == machine && wanted.failure == failure.id)
    }
}

/// Adds the functions from which wanted ones can be combined.
fn add_parts(catalogue: &Catalogue, functions: &mut IndexSet<String>) {
    let mut at = 0;
    while let Some(name) = functions.get_index(at).cloned() {
        if let Some(function) = catalogue.functions.get(&name) {
            functions.extend(function.also_from.iter().flatten().cloned());
        }
        at += 1;
    }
}

/// What one unit of an item does for a demand: nothing where it is not warm enough, or is somebody else's.
pub(super) fn meets(item: &Item, owner: Option<usize>, demand: &Demand) -> f64 {
    if demand.owner.is_some() && demand.owner != owner {
        return 0.0;
    }
    let Some(part) = item.meets.get(&demand.id) else { return 0.0 };
    match (part.down_to, demand.down_to) {
        (Some(good_to), Some(coldest)) if good_to.celsius() > coldest.celsius() => 0.0,
        _ => part.amount,
    }
}
