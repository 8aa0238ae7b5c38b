//! The riding of a group, or of part of it: who rides which legs with whom, and what breaks on the way.

use super::{Group, apart};
use crate::domain::{Bike, Failure, Leg, Map, Prices, Repair, RepairSkill, Rider, template};
use crate::verify::prices::prices;
use crate::verify::value::{cost, falls, modifier, possible, unmodified};
use std::collections::{BTreeMap, BTreeSet};

/// The trip of some of the riders.
pub(super) struct Trip<'a> {
    pub group: &'a Group<'a>,
    pub prices: Prices,
    pub riders: Vec<&'a Rider>,
    /// For each sort of bike: its riders, and the failures that it can suffer, each with the repairs that a rider of
    /// this trip could do with some kit.
    pub sorts: Vec<Sort<'a>>,
}

/// Bikes that are alike.
pub(super) struct Sort<'a> {
    pub bike: &'a Bike,
    pub riders: Vec<&'a Rider>,
    pub failures: Vec<(&'a Failure, Vec<Able<'a>>)>,
}

/// A repair with its names filled in.
pub(super) struct Able<'a> {
    pub repair: &'a Repair,
    pub needs: Vec<(String, u32)>,
    pub uses: Vec<(String, u32)>,
}

/// Legs that the same riders ride.
pub(super) struct Stretch<'a> {
    pub riders: Vec<&'a Rider>,
    pub legs: Vec<&'a Leg>,
}

impl<'a> Trip<'a> {
    /// Everybody's trip, or that of all but one.
    pub fn new(group: &'a Group<'a>, absent: Option<&str>) -> Self {
        let legs = &group.scenario.trip.legs;
        let rides = |rider: &&Rider| {
            Some(rider.name.as_str()) != absent && legs.iter().any(|leg| leg.is_ridden_by(&rider.name))
        };
        let everybody: Vec<&Rider> = group.parts.iter().map(|part| part.rider).collect();
        let riders: Vec<&Rider> = everybody.iter().copied().filter(rides).collect();
        let skill = riders.iter().map(|rider| rider.repair_skill).max();
        let bags: Vec<_> = everybody
            .iter()
            .flat_map(|rider| {
                group.catalogue.bikes.get(&rider.bike).into_iter().flat_map(|b| &b.bags).chain(&rider.bags)
            })
            .filter_map(|id| group.catalogue.bags.get(id))
            .collect();
        let obtainable = possible(group.catalogue, &group.scenario.never, &bags);
        let several = apart::bikes(&everybody).len() > 1;
        let mut sorts = Vec::new();
        // In the order in which the bikes are first ridden, as ties between failures never matter to sums.
        for bike in apart::bikes(&riders) {
            let Some(bike) = group.catalogue.bikes.get(bike) else { continue };
            let on_it: Vec<&Rider> = riders.iter().copied().filter(|rider| rider.bike == bike.id).collect();
            let style = group.scenario.trip.style;
            let all = group.catalogue.failures.values();
            let all = all.filter(|failure| bike.matches(&failure.applies) && failure.happens_on(style));
            let failures = all.map(|failure| (failure, able(group, bike, failure, skill, &obtainable, several)));
            sorts.push(Sort { bike, riders: on_it, failures: failures.collect() });
        }
        Self { group, prices: prices(group.catalogue, group.scenario), riders, sorts }
    }

    /// Legs with the same riders together.
    pub fn stretches(&self) -> Vec<Stretch<'a>> {
        let mut sets: BTreeMap<Vec<&str>, Stretch<'a>> = BTreeMap::new();
        for leg in &self.group.scenario.trip.legs {
            let riders: Vec<&Rider> =
                self.riders.iter().copied().filter(|rider| leg.is_ridden_by(&rider.name)).collect();
            if !riders.is_empty() {
                let names = riders.iter().map(|rider| rider.name.as_str()).collect();
                sets.entry(names).or_insert_with(|| Stretch { riders, legs: Vec::new() }).legs.push(leg);
            }
        }
        sets.into_values().collect()
    }

    /// Expected occurrences of a failure with one rider on one leg.
    pub fn mean(&self, bike: &Bike, failure: &Failure, rider: &Rider, leg: &Leg) -> f64 {
        if !leg.is_ridden_by(&rider.name) {
            return 0.0;
        }
        let factor = modifier(self.group.catalogue, self.group.scenario, bike, failure);
        factor * unmodified(failure, leg, falls(self.group.catalogue, rider, leg))
    }

    /// How many riders of this trip are on a leg.
    pub fn company(&self, leg: &Leg) -> usize {
        self.riders.iter().filter(|rider| leg.is_ridden_by(&rider.name)).count()
    }

    /// What a repair spares one occurrence on a leg, and the dread in it.
    pub fn spared(&self, failure: &Failure, repair: &Repair, leg: &Leg) -> (f64, f64) {
        let (hours, dread) = cost(&self.prices, failure, leg);
        let all = hours + dread;
        let spared = all - repair.time.get() - (1.0 - repair.restores) * all;
        if self.company(leg) < repair.riders as usize || spared <= 0.0 {
            (0.0, 0.0)
        } else {
            (spared, repair.restores * dread)
        }
    }

    /// Hours that a repair saves on these legs if it can always be done, dread among them, and the dread in it.
    pub fn benefit(&self, sort: &Sort<'_>, failure: &Failure, repair: &Repair, stretch: &Stretch<'_>) -> (f64, f64) {
        let there = sort.riders.iter().filter(|rider| stretch.riders.iter().any(|other| other.name == rider.name));
        let each = there.flat_map(|rider| stretch.legs.iter().map(move |leg| (rider, leg)));
        each.fold((0.0, 0.0), |sum, (rider, leg)| {
            let mean = self.mean(sort.bike, failure, rider, leg);
            let (spared, dread) = self.spared(failure, repair, leg);
            (sum.0 + mean * spared, if spared > 0.0 { sum.1 + mean * dread } else { sum.1 })
        })
    }

    /// The whole trip as one stretch.
    pub fn whole(&self) -> Stretch<'a> {
        Stretch { riders: self.riders.clone(), legs: self.group.scenario.trip.legs.iter().collect() }
    }
}

/// The repairs of a failure on a bike within a skill, whose functions and stocks some kit could have.
fn able<'a>(
    group: &Group<'a>,
    bike: &Bike,
    failure: &'a Failure,
    skill: Option<RepairSkill>,
    (functions, stocks): &(BTreeSet<String>, BTreeSet<String>),
    several: bool,
) -> Vec<Able<'a>> {
    let filled = |names: &Map<u32>| -> Option<BTreeMap<String, Vec<u32>>> {
        let mut all: BTreeMap<String, Vec<u32>> = BTreeMap::new();
        for (name, count) in names {
            all.entry(template::fill(name, &bike.attributes).ok()?).or_default().push(*count);
        }
        Some(all)
    };
    let able = |repair: &'a Repair| {
        let needs = filled(&repair.needs)?.into_iter().map(|(name, n)| (name, n.into_iter().max().unwrap_or(0)));
        let uses = filled(&repair.uses)?
            .into_iter()
            .map(|(name, n)| (apart::stock_on(group.catalogue, &name, &bike.id, several), n.into_iter().sum()));
        Some(Able { repair, needs: needs.collect(), uses: uses.collect() })
    };
    let in_skill = failure.repairs.iter().filter(|repair| Some(repair.skill) <= skill);
    let all = in_skill.filter_map(able);
    all.filter(|able| able.needs.iter().all(|(name, _)| functions.contains(name)))
        .filter(|able| able.uses.iter().all(|(name, _)| stocks.contains(name)))
        .collect()
}
