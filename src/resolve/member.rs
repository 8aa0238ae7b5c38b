//! One rider of those who share a kit: bike, bags, and the legs that this rider rides.

use super::exposure::{self, Exposure};
use super::fits::{Waived, fits};
use crate::domain::{Bag, Bike, Catalogue, Item, Rider, Scenario};
use crate::units::Mass;
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
            members.push(Self {
                rider,
                bike,
                scenario: scenario.as_ridden_by(rider),
                bags: keys.into_iter().filter_map(|id| catalogue.bags.get(id)).cloned().collect(),
                first_bag,
                exposure: exposure::exposure(catalogue, scenario, rider, bike.mass),
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

/// The riders whose bikes are alike, by position: their failures take the same repairs.
pub(super) fn alike(members: &[Member<'_>]) -> Vec<Vec<usize>> {
    let mut by_bike: IndexMap<&str, Vec<usize>> = IndexMap::new();
    for (at, member) in members.iter().enumerate() {
        by_bike.entry(&member.bike.id).or_default().push(at);
    }
    by_bike.into_values().collect()
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
