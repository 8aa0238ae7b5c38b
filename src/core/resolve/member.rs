//! One rider of those who share a kit: bike, bags, and the legs that this rider rides.

use super::exposure::{self, Exposure};
use super::fits::{Waived, fits};
use crate::domain::{Bag, Bike, Catalogue, Item, Rider, Scenario};
use crate::units::Mass;
use fardel_words::say;
use indexmap::{IndexMap, IndexSet};

/// A rider as the other steps of this stage see one.
pub(super) struct Member<'a> {
    pub rider: &'a Rider,
    pub bike: &'a Bike,
    /// The trip with only the legs that this rider rides.
    pub scenario: Scenario,
    /// The bags that are part of the bike, then the rider's.
    pub bags: Vec<Bag>,
    /// Where they begin among the bags of the case.
    pub first_bag: usize,
    pub exposure: Exposure,
}

impl<'a> Member<'a> {
    /// All riders, in the order given; `None` if the catalogue lacks a bike.
    pub fn all(catalogue: &'a Catalogue, scenario: &Scenario, riders: &'a [Rider]) -> Option<Vec<Self>> {
        let mut members: Vec<Self> = Vec::with_capacity(riders.len());
        for rider in riders {
            let bike = catalogue.bikes.get(&rider.bike)?;
            let keys: IndexSet<&String> = bike.bags.iter().chain(&rider.bags).collect();
            let first_bag = members.last().map_or(0, |before| before.first_bag + before.bags.len());
            let bags: Vec<Bag> = keys.into_iter().filter_map(|id| catalogue.bags.get(id)).cloned().collect();
            let empty = bags.iter().filter(|bag| !bike.bags.contains(&bag.id)).map(|bag| bag.mass).sum();
            members.push(Self {
                rider,
                bike,
                scenario: scenario.as_ridden_by(rider),
                bags,
                first_bag,
                exposure: exposure::exposure(catalogue, scenario, rider, (bike.mass, empty)),
            });
        }
        Some(members)
    }

    /// The rider's own limit for the kit.
    pub fn kit_mass(&self) -> Option<Mass> {
        self.scenario.limits.kit_mass
    }

    /// Units of an item that cost this rider nothing, and how many of them are in the bike's toolkit.
    pub fn owned(&self, item: &str) -> (u32, u32) {
        let in_toolkit = self.bike.toolkit.get(item).copied().unwrap_or(0);
        (in_toolkit + self.rider.owns.get(item).copied().unwrap_or(0), in_toolkit)
    }
}

/// Which riders' bikes are alike: their failures take the same repairs, and the same spares fit.
pub(super) struct Machines {
    /// For each sort of bike, the riders on it, by position.
    pub sorts: Vec<Vec<usize>>,
    /// Keys of the bikes.
    bikes: Vec<String>,
}

impl Machines {
    pub fn new(members: &[Member<'_>]) -> Self {
        let mut by_bike: IndexMap<&str, Vec<usize>> = IndexMap::new();
        for (at, member) in members.iter().enumerate() {
            by_bike.entry(&member.bike.id).or_default().push(at);
        }
        let (bikes, sorts) = by_bike.into_iter().map(|(id, riders)| (id.to_owned(), riders)).unzip();
        Self { sorts, bikes }
    }

    /// Must this stock be kept apart by sort of bike?
    pub fn tells_apart(&self, catalogue: &Catalogue, stock: &str) -> bool {
        self.sorts.len() > 1 && catalogue.stocks.get(stock).is_some_and(|stock| stock.one_bike)
    }

    /// The name of something that is for this sort of bike only.
    pub fn of(&self, name: &str, sort: usize) -> String {
        say!("{name} of {}", self.bikes[sort])
    }

    /// The name of a stock on this sort of bike.
    pub fn stock(&self, catalogue: &Catalogue, stock: &str, sort: usize) -> String {
        if self.tells_apart(catalogue, stock) { self.of(stock, sort) } else { stock.to_owned() }
    }
}

/// For each bag of the case: may the item go there? Each rider's own bags are asked on their own, so that a wish which
/// nobody else's bag grants is waived for that rider only. With `owner`, only that rider's bags.
pub(super) fn allowed(item: &Item, members: &[Member<'_>], owner: Option<usize>) -> (Vec<bool>, Vec<Waived>) {
    let mut all = Vec::new();
    let mut waived = Vec::new();
    for (at, member) in members.iter().enumerate() {
        if owner.is_none_or(|owner| owner == at) {
            let (own, not_granted) = fits(item, &member.bags);
            all.extend(own);
            waived.extend(not_granted);
        } else {
            all.extend(member.bags.iter().map(|_| false));
        }
    }
    (all, waived)
}
