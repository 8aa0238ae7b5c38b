//! Hours of all riders together: lost with nothing aboard, saved by what is there on each leg, lost to weight; and what
//! is left of them when one rider leaves.

use super::trip::{Able, Sort, Stretch, Trip};
use super::{Group, Part};
use crate::domain::{Failure, Leg, Map, Rider};
use crate::verify::value::{falls, modifier};
use crate::verify::{Violation, differs, stock};
use std::collections::BTreeMap;

pub(super) fn check(group: &Group<'_>) -> Vec<Violation> {
    let trip = Trip::new(group, None);
    let claim = group.claim;
    let mut found: Vec<Violation> = [
        differs("value", "hours lost with nothing aboard", claim.hours_empty.get(), empty(&trip)),
        differs("value", "hours saved", claim.hours_saved.get(), saved(&trip, &|stretch| held(group, &stretch.riders))),
        differs("value", "hours of handling", claim.handling.get(), handling(&trip)),
    ]
    .into_iter()
    .flatten()
    .collect();
    let everybody: Vec<&Rider> = group.parts.iter().map(|part| part.rider).collect();
    for (absent, with_all, left) in &claim.absences {
        let others = Trip::new(group, Some(absent));
        let whole_kit = saved(&others, &|_| held(group, &everybody));
        let rest = saved(&others, &|stretch| held(group, &stretch.riders));
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
        trip.mean(sort.bike, failure, rider, leg) * failure.outcome.hours_unrepaired(leg.hours_to_help).get()
    };
    let legs = &trip.group.scenario.trip.legs;
    let each = trip.sorts.iter().flat_map(|sort| sort.failures.iter().map(move |(failure, _)| (sort, *failure)));
    let each = each.flat_map(|(sort, failure)| sort.riders.iter().map(move |rider| (sort, failure, *rider)));
    each.map(|(sort, failure, rider)| legs.iter().map(|leg| of(sort, failure, rider, leg)).sum::<f64>()).sum()
}

/// What these riders have with them, without things whose own requirements are not there.
pub(super) fn held(group: &Group<'_>, riders: &[&Rider]) -> Map<u32> {
    let there = |part: &&Part<'_>| riders.iter().any(|rider| rider.name == part.rider.name);
    let mut held: Map<u32> = Map::new();
    for (id, count) in group.parts.iter().filter(there).flat_map(Part::held) {
        *held.entry(id).or_insert(0) += count;
    }
    loop {
        let useless = held.keys().find(|id| {
            let item = group.catalogue.items.get(*id);
            item.is_none_or(|item| item.requires.iter().any(|(f, count)| has(group, &held, f) < (*count).max(1)))
        });
        match useless.cloned() {
            Some(id) => held.shift_remove(&id),
            None => return held,
        };
    }
}

/// How many of a function are there at a time; a combination counts as one.
fn has(group: &Group<'_>, held: &Map<u32>, function: &str) -> u32 {
    let given = |(id, count): (&String, &u32)| Some(group.catalogue.items.get(id)?.provides.get(function)? * count);
    let direct: u32 = held.iter().filter_map(given).sum();
    let ways = || group.catalogue.functions.get(function).map(|f| f.also_from.as_slice()).unwrap_or_default();
    let combined = || ways().iter().any(|way| way.iter().all(|part| has(group, held, part) > 0));
    if direct == 0 && combined() { 1 } else { direct }
}

fn carried(group: &Group<'_>, held: &Map<u32>, stock: &str) -> u32 {
    held.iter().filter_map(|(id, count)| Some(group.catalogue.items.get(id)?.holds.get(stock)? * count)).sum()
}

/// Demand on every stock over the whole of a trip: each failure draws, with all its occurrences, the units of the repair
/// from that stock which saves most.
fn demands(trip: &Trip<'_>) -> BTreeMap<String, Vec<(f64, u32)>> {
    let whole = trip.whole();
    let mut all: BTreeMap<String, Vec<(f64, u32)>> = BTreeMap::new();
    for sort in &trip.sorts {
        for (failure, able) in &sort.failures {
            let legs = || whole.legs.iter();
            let mean: f64 =
                sort.riders.iter().flat_map(|r| legs().map(|leg| trip.mean(sort.bike, failure, r, leg))).sum();
            let mut best: BTreeMap<&str, (f64, u32)> = BTreeMap::new();
            for able in able {
                let benefit = trip.benefit(sort, failure, able.repair, &whole);
                for (stock, units) in &able.uses {
                    let known = best.entry(stock).or_insert((0.0, 0));
                    if benefit > known.0 {
                        *known = (benefit, *units);
                    }
                }
            }
            for (stock, (benefit, units)) in best {
                if benefit > 0.0 {
                    all.entry(stock.to_owned()).or_default().push((mean, units));
                }
            }
        }
    }
    all
}

/// Hours saved on all stretches, each with what `held` says is there.
fn saved(trip: &Trip<'_>, held: &dyn Fn(&Stretch<'_>) -> Map<u32>) -> f64 {
    let demands = demands(trip);
    let on = |stretch: &Stretch<'_>| -> f64 {
        let held = held(stretch);
        let there = There { trip, demands: &demands, held: &held, stretch };
        let each = trip.sorts.iter().flat_map(|sort| sort.failures.iter().map(move |found| (sort, found)));
        each.map(|(sort, (failure, able))| there.saved(sort, failure, able)).sum()
    };
    trip.stretches().iter().map(on).sum()
}

struct There<'a> {
    trip: &'a Trip<'a>,
    demands: &'a BTreeMap<String, Vec<(f64, u32)>>,
    held: &'a Map<u32>,
    stretch: &'a Stretch<'a>,
}

impl There<'_> {
    /// The best use of what is there for one failure: repairs in falling order of benefit, each as far as it goes.
    fn saved(&self, sort: &Sort<'_>, failure: &Failure, able: &[Able<'_>]) -> f64 {
        let skill = self.stretch.riders.iter().map(|rider| rider.repair_skill).max();
        let in_skill = able.iter().filter(|able| Some(able.repair.skill) <= skill);
        let benefit = |able: &Able<'_>| self.trip.benefit(sort, failure, able.repair, self.stretch);
        let mut ranked: Vec<(f64, &Able<'_>)> = in_skill.map(|able| (benefit(able), able)).collect();
        ranked.sort_by(|a, b| b.0.total_cmp(&a.0));
        let (mut open, mut saved) = (1.0_f64, 0.0);
        for (benefit, able) in ranked.into_iter().filter(|(benefit, _)| *benefit > 0.0) {
            let share = self.reach(able).min(open);
            saved += share * benefit;
            open -= share;
        }
        saved
    }

    /// The share of occurrences that a repair can meet.
    fn reach(&self, able: &Able<'_>) -> f64 {
        let group = self.trip.group;
        let equipped = able.needs.iter().all(|(name, count)| has(group, self.held, name) >= *count);
        let stocked = able.uses.iter().all(|(name, units)| carried(group, self.held, name) >= *units);
        if !equipped || !stocked {
            return 0.0;
        }
        let fill = |name: &String| {
            let sources = self.demands.get(name).map(Vec::as_slice).unwrap_or_default();
            stock::fill(sources, carried(group, self.held, name))
        };
        able.uses.iter().map(|(name, _)| fill(name)).fold(1.0, f64::min)
    }
}

/// Hours lost to weight: personal things at the price of their owner's bike, shared ones at the mean of all.
fn handling(trip: &Trip<'_>) -> f64 {
    let group = trip.group;
    let prices: BTreeMap<&str, f64> =
        group.parts.iter().map(|part| (part.rider.name.as_str(), price_per_kg(trip, part.rider))).collect();
    #[allow(clippy::cast_precision_loss, reason = "a dozen riders at most")]
    let mean = prices.values().sum::<f64>() / prices.len().max(1) as f64;
    let weight = |part: &Part<'_>| -> f64 {
        let price = |personal: bool| if personal { prices[part.rider.name.as_str()] } else { mean };
        let each = part.held().into_iter().filter_map(|(id, n)| group.catalogue.items.get(&id).map(|item| (item, n)));
        each.map(|(item, n)| price(item.personal) * (item.mass * n).kilograms()).sum()
    };
    group.parts.iter().map(weight).sum()
}

/// What a kilogram more on a rider's bike costs: falls on all legs x relative rise per kilogram x what a fall costs.
fn price_per_kg(trip: &Trip<'_>, rider: &Rider) -> f64 {
    let Some(sort) = trip.sorts.iter().find(|sort| sort.bike.id == rider.bike) else { return 0.0 };
    let (catalogue, scenario) = (trip.group.catalogue, trip.group.scenario);
    let bike = sort.bike.mass.kilograms();
    if bike <= 0.0 {
        return 0.0;
    }
    let broken = |leg: &Leg| -> f64 {
        let one = |(failure, able): &(&Failure, Vec<Able<'_>>)| {
            let hours = failure.outcome.hours_unrepaired(leg.hours_to_help).get();
            let there = able.iter().filter(|able| able.repair.riders as usize <= trip.company(leg));
            let worth = there.filter(|able| pays(trip, sort, failure, able));
            let left = worth.map(|able| able.repair.time.get() + (1.0 - able.repair.restores) * hours);
            modifier(catalogue, scenario, sort.bike, failure) * failure.rate.per_fall * left.fold(hours, f64::min)
        };
        sort.failures.iter().map(one).sum()
    };
    let legs = scenario.trip.legs.iter().filter(|leg| leg.is_ridden_by(&rider.name));
    let per_leg = legs.map(|leg| falls(catalogue, rider, leg) * (catalogue.model.hours_per_fall.get() + broken(leg)));
    per_leg.sum::<f64>() * catalogue.model.load_sensitivity / bike
}

/// Is a repair worth beginning on some leg that a rider of such a bike rides?
fn pays(trip: &Trip<'_>, sort: &Sort<'_>, failure: &Failure, able: &Able<'_>) -> bool {
    trip.group.scenario.trip.legs.iter().any(|leg| {
        let hours = failure.outcome.hours_unrepaired(leg.hours_to_help).get();
        sort.riders.iter().any(|rider| leg.is_ridden_by(&rider.name))
            && able.repair.riders as usize <= trip.company(leg)
            && able.repair.restores * hours > able.repair.time.get()
    })
}
