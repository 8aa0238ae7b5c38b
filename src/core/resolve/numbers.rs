//! From names to numbers: the functions, stocks, items and repairs of a case.

use super::instance::{Demand, InstanceFunction, InstanceItem, InstanceRepair};
use super::member::{Machines, Member};
use super::reading::{Candidate, Wanted};
use super::relevant::{Live, meets};
use crate::domain::{Catalogue, Item, Map, Scenario};
use crate::units::Hours;
use fardel_words::say;
use indexmap::IndexSet;

/// Turns names into numbers.
pub(super) struct Numbers<'a> {
    functions: &'a IndexSet<String>,
    stocks: &'a IndexSet<String>,
    demands: &'a [Demand],
}

impl<'a> Numbers<'a> {
    pub fn new(live: &'a Live, demands: &'a [Demand]) -> Self {
        Self { functions: &live.functions, stocks: &live.stocks, demands }
    }

    pub fn names(&self, catalogue: &Catalogue) -> (Vec<InstanceFunction>, Vec<String>) {
        let ways = |id: &String| {
            let ways = catalogue.functions.get(id).map(|function| function.also_from.as_slice()).unwrap_or_default();
            ways.iter().filter_map(|way| way.iter().map(|part| self.functions.get_index_of(part)).collect()).collect()
        };
        let function = |id: &String| InstanceFunction { id: id.clone(), also_from: ways(id) };
        (self.functions.iter().map(function).collect(), self.stocks.iter().cloned().collect())
    }

    pub fn item(
        &self,
        found: &Candidate<'_>,
        scenario: &Scenario,
        members: &[Member<'_>],
        machines: &Machines,
    ) -> InstanceItem {
        let item = found.item;
        let functions = |names: &Map<u32>| {
            names.iter().filter_map(|(name, n)| Some((self.functions.get_index_of(name)?, *n))).collect::<Vec<_>>()
        };
        let only_for = found.machine.map(|sort| machines.sorts[sort].clone());
        let concerns = |at: usize| {
            found.owner.is_none_or(|owner| owner == at) && only_for.as_ref().is_none_or(|riders| riders.contains(&at))
        };
        let holders = members.iter().enumerate().filter(|(at, _)| concerns(*at));
        let owned: Vec<(u32, u32)> = holders.map(|(_, member)| member.owned(&item.id)).collect();
        let bikes = u32::try_from(owned.len()).unwrap_or(u32::MAX);
        InstanceItem {
            id: item.id.clone(),
            key: found.machine.map_or_else(|| item.id.clone(), |sort| machines.of(&item.id, sort)),
            name: name(item, found, members, machines),
            kind: item.kind,
            mass: item.mass,
            volume: item.volume,
            longest: item.longest,
            price: item.price,
            at_least: scenario.always.get(&item.id).copied().unwrap_or(0).min(item.at_most.saturating_mul(bikes)),
            at_most: item.at_most.saturating_mul(bikes),
            buying: Hours::ZERO,
            owned: owned.iter().map(|(owned, _)| owned).sum(),
            in_toolkit: owned.iter().map(|(_, in_toolkit)| in_toolkit).sum(),
            provides: functions(&item.provides),
            holds: found.holds.iter().filter_map(|(n, units)| Some((self.stocks.get_index_of(n)?, *units))).collect(),
            meets: self
                .demands
                .iter()
                .enumerate()
                .map(|(at, demand)| (at, meets(item, found.owner, demand)))
                .filter(|(_, amount)| *amount > 0.0)
                .collect(),
            requires: functions(&item.requires),
            owner: found.owner,
            only_for,
            apart_from: item.apart_from.clone(),
            fits: found.allowed.clone(),
        }
    }

    pub fn repair(&self, wanted: &Wanted<'_>) -> InstanceRepair {
        let index = |names: &[(String, u32)], set: &IndexSet<String>| {
            names.iter().filter_map(|(name, n)| Some((set.get_index_of(name)?, *n))).collect()
        };
        InstanceRepair {
            id: wanted.repair.id.clone(),
            name: wanted.repair.name.clone(),
            grade: wanted.repair.grade,
            needs: index(&wanted.needs, self.functions),
            uses: index(&wanted.uses, self.stocks),
            time: wanted.repair.time,
            restores: wanted.repair.restores,
            skill: wanted.repair.skill,
            riders: wanted.repair.riders,
        }
    }
}

/// As a rider would say it, with the bike where it matters which.
fn name(item: &Item, found: &Candidate<'_>, members: &[Member<'_>], machines: &Machines) -> String {
    match found.machine {
        Some(sort) => say!("{} for the {}", item.name, members[machines.sorts[sort][0]].bike.name),
        None => item.name.clone(),
    }
}
