//! Hours of all riders together: lost with nothing aboard, saved by what is there on each leg, lost to weight; and what
//! is left of them when one rider leaves.

use super::trip::{Able, Sort, Stretch, Trip};
use super::{Group, Part};
use crate::domain::{Failure, Leg, Map, Pooling, Rider};
use crate::verify::prices::riding_per_kg;
use crate::verify::shares::{Fault, Way, shares, shares_by};
use crate::verify::value::{cost, falls, modifier};
use crate::verify::{Violation, differs, functions, stock};
use std::collections::{BTreeMap, BTreeSet};

pub(super) fn check(group: &Group<'_>) -> Vec<Violation> {
    let trip = Trip::new(group, None);
    let claim = group.claim;
    let there = |stretch: &Stretch<'_>| held(group, &stretch.riders);
    let (saved, relief) = gains(&trip, &there);
    let (riding, falls) = handling(&trip, &there);
    let mut found: Vec<Violation> = [
        differs("value", "hours lost with nothing aboard", claim.hours_empty.get(), empty(&trip)),
        differs("value", "hours saved", claim.terms.saved.get(), saved),
        differs("value", "dread taken away", claim.terms.relief.get(), relief),
        differs("value", "hours of riding with the weight", claim.terms.riding.get(), riding),
        differs("value", "hours of falls by weight", claim.terms.falls.get(), falls),
        differs("value", "hours of packing", claim.terms.packing.get(), packing(&trip)),
    ]
    .into_iter()
    .flatten()
    .collect();
    let everybody: Vec<&Rider> = group.parts.iter().map(|part| part.rider).collect();
    for (absent, with_all, left) in &claim.absences {
        let others = Trip::new(group, Some(absent));
        let whole_kit = gains(&others, &|_| held(group, &everybody)).0;
        let rest = gains(&others, &there).0;
        found.extend(differs("absence", &format!("all without {absent}"), with_all.get(), whole_kit));
        found.extend(differs("absence", &format!("left without {absent}"), left.get(), rest));
        let least = claim.floor.unwrap_or(0.0) * whole_kit;
        if rest < least * (1.0 - super::super::TOLERANCE) {
            let what = format!("without {absent}: {rest} h of {whole_kit} h");
            found.push(Violation { rule: "absence", what, by: least - rest });
        }
    }
    found
}

fn empty(trip: &Trip<'_>) -> f64 {
    let of = |sort: &Sort<'_>, failure: &Failure, rider: &Rider, leg: &Leg| {
        trip.mean(sort.bike, failure, rider, leg) * cost(&trip.prices, failure, leg).0
    };
    let legs = &trip.group.scenario.trip.legs;
    let each = trip.sorts.iter().flat_map(|sort| sort.failures.iter().map(move |(failure, _)| (sort, *failure)));
    let each = each.flat_map(|(sort, failure)| sort.riders.iter().map(move |rider| (sort, failure, *rider)));
    each.map(|(sort, failure, rider)| legs.iter().map(|leg| of(sort, failure, rider, leg)).sum::<f64>()).sum()
}

fn packing(trip: &Trip<'_>) -> f64 {
    let things: u32 = trip.group.parts.iter().flat_map(|part| part.held().into_values()).sum();
    f64::from(things) * trip.prices.thing.get()
}

/// What these riders have with them, without things whose own requirements are not there.
pub(super) fn held(group: &Group<'_>, riders: &[&Rider]) -> Map<u32> {
    let there = |part: &&Part<'_>| riders.iter().any(|rider| rider.name == part.rider.name);
    let mut held: Map<u32> = Map::new();
    for (id, count) in group.parts.iter().filter(there).flat_map(Part::held) {
        *held.entry(id).or_insert(0) += count;
    }
    loop {
        let had = had(group, &held);
        let useless = held.keys().find(|id| {
            let item = group.catalogue.items.get(*id);
            item.is_none_or(|item| item.requires.iter().any(|(f, count)| has(group, &held, &had, f) < (*count).max(1)))
        });
        match useless.cloned() {
            Some(id) => held.shift_remove(&id),
            None => return held,
        };
    }
}

/// How many of a function are there at a time; a combination counts as one.
fn has(group: &Group<'_>, held: &Map<u32>, had: &BTreeSet<&str>, function: &str) -> u32 {
    let given = |(id, count): (&String, &u32)| Some(group.catalogue.items.get(id)?.provides.get(function)? * count);
    let direct: u32 = held.iter().filter_map(given).sum();
    if direct == 0 && had.contains(function) { 1 } else { direct }
}

/// Functions that are there with these things, combinations included.
fn had<'a>(group: &'a Group<'_>, held: &Map<u32>) -> BTreeSet<&'a str> {
    functions::had(group.catalogue, held.keys().filter_map(|id| group.catalogue.items.get(id)))
}

fn carried(group: &Group<'_>, held: &Map<u32>, stock: &str) -> u32 {
    held.iter().filter_map(|(id, count)| Some(group.catalogue.items.get(id)?.holds.get(stock)? * count)).sum()
}

/// Demand on every stock over the whole of a trip that the group does not ride together from end to end: each failure draws,
/// with all its occurrences, the units of the repair from that stock which saves most.
fn demands(trip: &Trip<'_>) -> BTreeMap<String, Vec<(f64, u32)>> {
    let whole = trip.whole();
    let mut all: BTreeMap<String, Vec<(f64, u32)>> = BTreeMap::new();
    for sort in &trip.sorts {
        for (failure, able) in &sort.failures {
            let mut best: BTreeMap<&str, (f64, u32)> = BTreeMap::new();
            for able in able {
                let benefit = trip.benefit(sort, failure, able.repair, &whole).0;
                for (stock, units) in &able.uses {
                    let known = best.entry(stock).or_insert((0.0, 0));
                    if benefit > known.0 {
                        *known = (benefit, *units);
                    }
                }
            }
            for (stock, (benefit, units)) in best {
                if benefit > 0.0 {
                    all.entry(stock.to_owned()).or_default().push((total(trip, sort, failure, &whole), units));
                }
            }
        }
    }
    all
}

/// Expected occurrences with all riders on such a bike who are there.
fn total(trip: &Trip<'_>, sort: &Sort<'_>, failure: &Failure, stretch: &Stretch<'_>) -> f64 {
    let there = sort.riders.iter().filter(|rider| stretch.riders.iter().any(|other| other.name == rider.name));
    there.flat_map(|rider| stretch.legs.iter().map(|leg| trip.mean(sort.bike, failure, rider, leg))).sum()
}

/// Hours saved and dread taken away on all stretches, each with what `held` says is there.
fn gains(trip: &Trip<'_>, held: &dyn Fn(&Stretch<'_>) -> Map<u32>) -> (f64, f64) {
    let demands = demands(trip);
    let stretches = trip.stretches();
    let each = stretches.iter().flat_map(|stretch| {
        let held = held(stretch);
        let faults = faults(trip, stretch, &held);
        let shares = shares_on(trip, &faults, &held, (stretches.len() > 1).then_some(&demands));
        faults
            .into_iter()
            .zip(shares)
            .flat_map(|(fault, shares)| fault.ways.into_iter().zip(shares))
            .collect::<Vec<_>>()
    });
    each.fold((0.0, 0.0), |sum, (way, share)| (sum.0 + share * (way.benefit - way.dread), sum.1 + share * way.dread))
}

/// What can happen to whom on a stretch, and what those there could do about it; in the order of sorts and failures.
fn faults(trip: &Trip<'_>, stretch: &Stretch<'_>, held: &Map<u32>) -> Vec<Fault> {
    let skill = stretch.riders.iter().map(|rider| rider.repair_skill).max();
    let had = had(trip.group, held);
    let fault = |sort: &Sort<'_>, failure: &Failure, able: &[Able<'_>]| {
        let way = |able: &Able<'_>| {
            let (benefit, dread) = trip.benefit(sort, failure, able.repair, stretch);
            let equipped = able.needs.iter().all(|(name, count)| has(trip.group, held, &had, name) >= *count);
            Way { repair: able.repair.id.clone(), benefit, dread, equipped, uses: able.uses.clone() }
        };
        let mut ways: Vec<Way> = able.iter().filter(|able| Some(able.repair.skill) <= skill).map(way).collect();
        ways.retain(|way| way.benefit > 0.0);
        ways.sort_by(|a, b| b.benefit.total_cmp(&a.benefit));
        Fault { mean: total(trip, sort, failure, stretch), ways }
    };
    let each = trip.sorts.iter().flat_map(|sort| sort.failures.iter().map(move |found| (sort, found)));
    each.map(|(sort, (failure, able))| fault(sort, failure, able)).collect()
}

/// The shares that the repairs meet: by their own demands where the group rides together from end to end, else by those of
/// the whole trip.
fn shares_on(
    trip: &Trip<'_>,
    faults: &[Fault],
    held: &Map<u32>,
    demands: Option<&BTreeMap<String, Vec<(f64, u32)>>>,
) -> Vec<Vec<f64>> {
    let group = trip.group;
    let pooling = group.catalogue.model.pooling;
    match demands {
        None => shares(faults, &|name| carried(group, held, name), pooling),
        Some(demands) => {
            let fill = |name: &str| {
                let sources = demands.get(name).map(Vec::as_slice).unwrap_or_default();
                stock::fill(sources, carried(group, held, name))
            };
            shares_by(faults, &|name| carried(group, held, name), &fill, pooling)
        }
    }
}

/// Hours lost to weight, through riding and falls: personal things at the price of their owner's bike, shared ones at the
/// mean of all.
fn handling(trip: &Trip<'_>, held: &dyn Fn(&Stretch<'_>) -> Map<u32>) -> (f64, f64) {
    let group = trip.group;
    let stretches = trip.stretches();
    let left = match stretches.as_slice() {
        [only] if group.catalogue.model.pooling == Pooling::LeftOver => Some(Left::new(trip, only, &held(only))),
        _ => None,
    };
    let price = |part: &Part<'_>| {
        let bike = group.catalogue.bikes.get(&part.rider.bike);
        let riding = bike.map_or(0.0, |bike| riding_per_kg(group.catalogue, group.scenario, part.rider, bike));
        (riding, falls_per_kg(trip, part.rider, left.as_ref()))
    };
    let prices: BTreeMap<&str, (f64, f64)> =
        group.parts.iter().map(|part| (part.rider.name.as_str(), price(part))).collect();
    #[allow(clippy::cast_precision_loss, reason = "a dozen riders at most")]
    let riders = prices.len().max(1) as f64;
    let sum = prices.values().fold((0.0, 0.0), |sum, price| (sum.0 + price.0, sum.1 + price.1));
    let mean = (sum.0 / riders, sum.1 / riders);
    let mut lost = (0.0, 0.0);
    for part in group.parts {
        for (id, n) in part.held() {
            let Some(item) = group.catalogue.items.get(&id) else { continue };
            let price = if item.personal { prices[part.rider.name.as_str()] } else { mean };
            let kg = (item.mass * n).kilograms();
            lost = (lost.0 + price.0 * kg, lost.1 + price.1 * kg);
        }
    }
    lost
}

/// What the repairs of a kit do about each failure of each sort of bike.
struct Left {
    /// In the order of sorts and failures: for each repair of the failure by name, the share of occurrences it meets.
    shares: Vec<Vec<(String, f64)>>,
}

impl Left {
    fn new(trip: &Trip<'_>, stretch: &Stretch<'_>, held: &Map<u32>) -> Self {
        let faults = faults(trip, stretch, held);
        let shares = shares_on(trip, &faults, held, None);
        let named = faults
            .into_iter()
            .zip(shares)
            .map(|(fault, shares)| fault.ways.into_iter().map(|way| way.repair).zip(shares).collect());
        Self { shares: named.collect() }
    }

    /// Share of an occurrence's hours on a leg that is saved.
    fn saved(&self, trip: &Trip<'_>, at: usize, failure: &Failure, able: &[Able<'_>], leg: &Leg) -> f64 {
        let spared = |id: &str| {
            let own = able.iter().find(|able| able.repair.id == id);
            own.map_or(0.0, |able| {
                let (spared, dread) = trip.spared(failure, able.repair, leg);
                spared - dread
            })
        };
        self.shares[at].iter().map(|(id, share)| share * spared(id)).sum()
    }
}

/// What a kilogram more on a rider's bike costs in falls: falls on all legs x relative rise per kilogram x what a fall costs.
/// What is left of the damage is what the kit leaves (`left`), or, where parts of the group ride alone, what the best of all
/// repairs would.
fn falls_per_kg(trip: &Trip<'_>, rider: &Rider, left: Option<&Left>) -> f64 {
    let Some(sort) = trip.sorts.iter().position(|sort| sort.bike.id == rider.bike) else { return 0.0 };
    let before: usize = trip.sorts[..sort].iter().map(|sort| sort.failures.len()).sum();
    let sort = &trip.sorts[sort];
    let (catalogue, scenario) = (trip.group.catalogue, trip.group.scenario);
    let bike = sort.bike.mass.kilograms();
    if bike <= 0.0 {
        return 0.0;
    }
    let broken = |leg: &Leg| -> f64 {
        let one = |(at, (failure, able)): (usize, &(&Failure, Vec<Able<'_>>))| {
            let hours = cost(&trip.prices, failure, leg).0;
            let saved = left.map_or_else(
                || {
                    let each = able.iter().map(|able| trip.spared(failure, able.repair, leg));
                    each.map(|(spared, dread)| spared - dread).fold(0.0, f64::max)
                },
                |left| left.saved(trip, before + at, failure, able, leg),
            );
            modifier(catalogue, scenario, sort.bike, failure) * failure.rate.per_fall * (hours - saved)
        };
        sort.failures.iter().enumerate().map(one).sum()
    };
    let legs = scenario.trip.legs.iter().filter(|leg| leg.is_ridden_by(&rider.name));
    let per_leg = legs.map(|leg| falls(catalogue, rider, leg) * (catalogue.model.hours_per_fall.get() + broken(leg)));
    per_leg.sum::<f64>() * catalogue.model.load_sensitivity / bike
}
