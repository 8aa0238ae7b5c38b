//! Which items can matter at all. Everything else is dropped, counted and named, before the optimiser sees it.
//!
//! A repair is live when the rider has the skill, it saves time on some leg, and every function and stock it takes can
//! be had from some item; an item is live when it serves a live repair, a demand of the trip, or a live item that
//! requires its function. Each makes the other smaller, so the two are found together, by shrinking until still.

use super::case::{Case, CaseFailure, CaseFunction, CaseItem, CaseRepair, Demand, LeftOut, Reason};
use super::fits::{Waived, fits};
use super::{applies, exposure, needs};
use crate::domain::{Bag, Bike, Catalogue, Failure, Item, Repair, Rider, Scenario, template};
use indexmap::IndexSet;

/// Resolves the trip of one rider.
///
/// # Panics
/// Never for a catalogue and scenario that `load` accepted and a rider of that scenario.
#[must_use]
pub fn resolve(catalogue: &Catalogue, scenario: &Scenario, rider: &Rider) -> Option<Case> {
    let bike = catalogue.bikes.get(&rider.bike)?;
    let bags = bags(catalogue, bike, rider);
    let exposure = exposure::exposure(catalogue, scenario, rider, bike.mass);
    let demands = needs::demands(catalogue, scenario, rider);
    let mut left_out = Vec::new();
    let mut warnings = Vec::new();
    let candidates = candidates(catalogue, scenario, &bags, &mut left_out, &mut warnings);
    let repairs: Vec<Wanted<'_>> = applies::failures(catalogue, bike)
        .flat_map(|failure| wanted(catalogue, scenario, bike, rider, failure))
        .collect();
    let live = Live::find(catalogue, scenario, &candidates, &repairs, &demands);
    let numbers = Numbers::new(catalogue, &live, &demands);

    let mut items = Vec::new();
    for (at, (item, allowed)) in candidates.iter().enumerate() {
        if live.items[at] {
            items.push(numbers.item(item, allowed, scenario, rider, bike));
        } else {
            left_out.push(LeftOut { item: item.id.clone(), reason: Reason::NothingNeedsIt });
        }
    }
    let failures = applies::failures(catalogue, bike)
        .map(|failure| CaseFailure {
            id: failure.id.clone(),
            name: failure.name.clone(),
            system: failure.system.clone(),
            outcome: failure.outcome,
            rate: failure.rate.clone(),
            modifier: applies::modifier(catalogue, scenario, bike, &failure.id),
            repairs: live.of(failure, &repairs).map(|wanted| numbers.repair(wanted)).collect(),
            beyond_skill: failure.repairs.iter().map(|r| r.skill).filter(|skill| *skill > rider.repair_skill).min(),
        })
        .collect();
    let (functions, stocks) = numbers.names(catalogue);
    Some(Case {
        items,
        functions,
        stocks,
        failures,
        demands,
        bags,
        kit_mass: scenario.limits.kit_mass,
        budget: scenario.limits.budget,
        exposure,
        left_out,
        warnings,
    })
}

/// The bags that are part of the bike, then the rider's.
fn bags(catalogue: &Catalogue, bike: &Bike, rider: &Rider) -> Vec<Bag> {
    let keys: IndexSet<&String> = bike.bags.iter().chain(&rider.bags).collect();
    keys.into_iter().filter_map(|id| catalogue.bags.get(id)).cloned().collect()
}

type Candidate<'a> = (&'a Item, Vec<bool>);

/// Items that are wanted at all and fit some bag.
fn candidates<'a>(
    catalogue: &'a Catalogue,
    scenario: &Scenario,
    bags: &[Bag],
    left_out: &mut Vec<LeftOut>,
    warnings: &mut Vec<String>,
) -> Vec<Candidate<'a>> {
    let mut kept = Vec::new();
    let (mut no_quick, mut no_dry) = (false, false);
    for item in catalogue.items.values() {
        if scenario.never.contains(&item.id) {
            left_out.push(LeftOut { item: item.id.clone(), reason: Reason::OnNeverList });
            continue;
        }
        let (allowed, waived) = fits(item, bags);
        if !allowed.contains(&true) {
            left_out.push(LeftOut { item: item.id.clone(), reason: Reason::FitsNoBag });
            continue;
        }
        no_quick |= waived.contains(&Waived::Quick);
        no_dry |= waived.contains(&Waived::Dry);
        kept.push((item, allowed));
    }
    if no_quick {
        warnings.push("Some things want to be at hand, but no bag that takes them opens quickly.".to_owned());
    }
    if no_dry {
        warnings.push("Some things must stay dry, but no bag that takes them is weatherproof: use liners.".to_owned());
    }
    kept
}

/// A repair this rider could do if the functions and stocks (names filled in) were there.
struct Wanted<'a> {
    failure: &'a str,
    repair: &'a Repair,
    needs: Vec<(String, u32)>,
    uses: Vec<(String, u32)>,
}

fn wanted<'a>(
    catalogue: &'a Catalogue,
    scenario: &Scenario,
    bike: &Bike,
    rider: &Rider,
    failure: &'a Failure,
) -> Vec<Wanted<'a>> {
    let saves = |repair: &Repair| {
        scenario.trip.legs.iter().any(|leg| {
            let hours = failure.outcome.hours_unrepaired(leg.hours_to_help).get();
            repair.restores * hours > repair.time.get()
        })
    };
    let able = |repair: &&Repair| repair.skill <= rider.repair_skill && saves(repair);
    failure
        .repairs
        .iter()
        .filter(able)
        .filter_map(|repair| {
            let needs = filled(&repair.needs, bike, u32::max)?;
            let uses = filled(&repair.uses, bike, u32::saturating_add)?;
            let known = needs.iter().all(|(name, _)| catalogue.functions.contains_key(name))
                && uses.iter().all(|(name, _)| catalogue.stocks.contains_key(name));
            known.then_some(Wanted { failure: &failure.id, repair, needs, uses })
        })
        .collect()
}

/// Names with the bike's values in their holes. Where two names become one, a tool does for both (the larger count
/// stands) and a stock is used twice (the sum does). `None` if the bike lacks a value, which `load` refuses.
fn filled(names: &crate::domain::Map<u32>, bike: &Bike, merge: impl Fn(u32, u32) -> u32) -> Option<Vec<(String, u32)>> {
    let mut out: crate::domain::Map<u32> = crate::domain::Map::new();
    for (name, count) in names {
        let name = template::fill(name, &bike.attributes).ok()?;
        let held = out.entry(name).or_insert(0);
        *held = merge(*held, *count);
    }
    Some(out.into_iter().collect())
}

/// What is still alive: candidates and repairs by position, and the names they give and take.
struct Live {
    items: Vec<bool>,
    repairs: Vec<bool>,
    functions: IndexSet<String>,
    stocks: IndexSet<String>,
}

impl Live {
    fn find(
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
            for (alive, (item, _)) in live.items.iter_mut().zip(candidates) {
                *alive &= item.requires.keys().all(|name| functions.contains(name));
            }
            live.keep_useful(catalogue, scenario, candidates, repairs, demands);
            if before == (live.items.clone(), live.repairs.clone()) {
                return live;
            }
        }
    }

    /// What the live items give, combinations included.
    fn obtainable(&self, catalogue: &Catalogue, candidates: &[Candidate<'_>]) -> (IndexSet<String>, IndexSet<String>) {
        let alive = || candidates.iter().zip(&self.items).filter(|(_, alive)| **alive).map(|((item, _), _)| item);
        let mut functions: IndexSet<String> = alive().flat_map(|item| item.provides.keys().cloned()).collect();
        let stocks = alive().flat_map(|item| item.holds.keys().cloned()).collect();
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
            for (at, (item, _)) in candidates.iter().enumerate() {
                useful[at] = self.items[at]
                    && (always(item)
                        || item.provides.keys().any(|name| functions.contains(name))
                        || item.holds.keys().any(|name| stocks.contains(name))
                        || demands.iter().any(|demand| meets(item, demand) > 0.0));
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

    /// The live repairs of one failure.
    fn of<'a>(&'a self, failure: &'a Failure, repairs: &'a [Wanted<'a>]) -> impl Iterator<Item = &'a Wanted<'a>> {
        let alive = repairs.iter().zip(&self.repairs).filter(|(_, alive)| **alive).map(|(wanted, _)| wanted);
        alive.filter(move |wanted| wanted.failure == failure.id)
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

/// What one unit of an item does for a demand: nothing where it is not warm enough.
fn meets(item: &Item, demand: &Demand) -> f64 {
    let Some(part) = item.meets.get(&demand.id) else { return 0.0 };
    match (part.down_to, demand.down_to) {
        (Some(good_to), Some(coldest)) if good_to.celsius() > coldest.celsius() => 0.0,
        _ => part.amount,
    }
}

/// Turns names into numbers.
struct Numbers<'a> {
    functions: &'a IndexSet<String>,
    stocks: &'a IndexSet<String>,
    demands: &'a [Demand],
}

impl<'a> Numbers<'a> {
    fn new(_: &Catalogue, live: &'a Live, demands: &'a [Demand]) -> Self {
        Self { functions: &live.functions, stocks: &live.stocks, demands }
    }

    fn names(&self, catalogue: &Catalogue) -> (Vec<CaseFunction>, Vec<String>) {
        let ways = |id: &String| {
            let ways = catalogue.functions.get(id).map(|function| function.also_from.as_slice()).unwrap_or_default();
            ways.iter().filter_map(|way| way.iter().map(|part| self.functions.get_index_of(part)).collect()).collect()
        };
        let function = |id: &String| CaseFunction { id: id.clone(), also_from: ways(id) };
        (self.functions.iter().map(function).collect(), self.stocks.iter().cloned().collect())
    }

    fn item(&self, item: &Item, allowed: &[bool], scenario: &Scenario, rider: &Rider, bike: &Bike) -> CaseItem {
        let count = |names: &crate::domain::Map<u32>, index: &IndexSet<String>| {
            names.iter().filter_map(|(name, n)| Some((index.get_index_of(name)?, *n))).collect::<Vec<_>>()
        };
        let in_toolkit = bike.toolkit.get(&item.id).copied().unwrap_or(0);
        CaseItem {
            id: item.id.clone(),
            name: item.name.clone(),
            kind: item.kind,
            mass: item.mass,
            volume: item.volume,
            longest: item.longest,
            price: item.price,
            at_least: scenario.always.get(&item.id).copied().unwrap_or(0),
            at_most: item.at_most,
            owned: in_toolkit + rider.owns.get(&item.id).copied().unwrap_or(0),
            in_toolkit,
            provides: count(&item.provides, self.functions),
            holds: count(&item.holds, self.stocks),
            meets: self
                .demands
                .iter()
                .enumerate()
                .map(|(at, demand)| (at, meets(item, demand)))
                .filter(|(_, amount)| *amount > 0.0)
                .collect(),
            requires: count(&item.requires, self.functions),
            apart_from: item.apart_from.clone(),
            fits: allowed.to_vec(),
        }
    }

    fn repair(&self, wanted: &Wanted<'_>) -> CaseRepair {
        let index = |names: &[(String, u32)], set: &IndexSet<String>| {
            names.iter().filter_map(|(name, n)| Some((set.get_index_of(name)?, *n))).collect()
        };
        CaseRepair {
            id: wanted.repair.id.clone(),
            name: wanted.repair.name.clone(),
            grade: wanted.repair.grade,
            needs: index(&wanted.needs, self.functions),
            uses: index(&wanted.uses, self.stocks),
            time: wanted.repair.time,
            restores: wanted.repair.restores,
        }
    }
}
