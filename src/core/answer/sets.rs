//! How many sets of things that are used together are in one bag, or on one bike.

use crate::resolve::Instance;
use crate::stow::Placement;
use schemars::JsonSchema;
use serde::Serialize;

/// Sets of things that are used together, of which two or more things are aboard.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, JsonSchema)]
pub struct SetsInBags {
    /// Those that are in one bag.
    pub whole: usize,
    /// All of them.
    pub of: usize,
    /// Those that are not, in the order of the catalogue.
    pub split: Vec<SplitSet>,
}

/// A set in several bags.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct SplitSet {
    /// As a rider would say it.
    pub name: String,
    /// Names of the bags that have some of it.
    pub bags: Vec<String>,
}

/// Sets of things that a group shares, of which two or more are carried.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, JsonSchema)]
pub struct SetsOnBikes {
    /// Those that one bike has one of everything of.
    pub whole: usize,
    /// All of them.
    pub of: usize,
    /// Those that no bike has whole, in the order of the catalogue.
    pub split: Vec<PartedSet>,
}

/// A set of which no bike has everything.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct PartedSet {
    /// As a rider would say it.
    pub name: String,
    /// Riders who carry some of it.
    pub riders: Vec<String>,
}

/// The sets in the bags of the first rider of a case.
pub(super) fn in_bags(instance: &Instance, placement: &Placement) -> SetsInBags {
    let mut sets = SetsInBags::default();
    for set in &instance.sets {
        let own = |bag: &Vec<(usize, u32)>| {
            bag.iter().map(|(item, _)| *item).filter(|item| set.items[0].contains(item)).collect::<Vec<_>>()
        };
        let by_bag: Vec<Vec<usize>> = placement.iter().map(own).collect();
        let mut things = by_bag.concat();
        things.sort_unstable();
        things.dedup();
        if things.len() < 2 {
            continue;
        }
        sets.of += 1;
        let bags = instance.bags.iter().zip(&by_bag).filter(|(_, own)| !own.is_empty());
        let bags: Vec<String> = bags.map(|(bag, _)| bag.name.clone()).collect();
        if bags.len() == 1 {
            sets.whole += 1;
        } else {
            sets.split.push(SplitSet { name: set.name.clone(), bags });
        }
    }
    sets
}

/// The sets that the riders of a case share, by what each holds.
pub(super) fn on_bikes(instance: &Instance, holdings: &[Vec<u32>]) -> SetsOnBikes {
    let mut sets = SetsOnBikes::default();
    for set in &instance.sets {
        let aboard = |item: &usize| holdings.iter().any(|held| held[*item] > 0);
        let things: Vec<usize> = set.shared(&instance.items).filter(aboard).collect();
        if things.len() < 2 {
            continue;
        }
        sets.of += 1;
        if holdings.iter().any(|held| things.iter().all(|item| held[*item] > 0)) {
            sets.whole += 1;
            continue;
        }
        let some = |held: &&Vec<u32>| things.iter().any(|item| held[*item] > 0);
        let riders = instance.mounts.iter().zip(holdings).filter(|(_, held)| some(held));
        let riders = riders.map(|(mount, _)| mount.rider.clone()).collect();
        sets.split.push(PartedSet { name: set.name.clone(), riders });
    }
    sets
}
