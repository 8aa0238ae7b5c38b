//! Hours lost with an empty kit, hours saved by this one, and what it costs, term by term: from the names up.

use super::prices::{beyond_owned, money, prices, riding_per_kg};
use super::shares::{Fault, Way, shares};
use super::stock::Draw;
use super::{Evidence, Violation, differs, functions};
use crate::domain::{Bag, Bike, Catalogue, Failure, Leg, Map, Pooling, Prices, Repair, Rider, Scenario, template};
use std::collections::BTreeSet;

pub(super) fn check(e: &Evidence<'_>) -> Vec<Violation> {
    let world = World::new(e);
    let empty: f64 = world.failures.iter().map(|f| world.hours_unrepaired(f)).sum();
    let shares = world.shares();
    let (saved, relief) = world.gains(&shares);
    let (riding, falls) = world.handling(&shares);
    let claim = &e.claim.terms;
    [
        differs("value", "hours lost with an empty kit", e.claim.hours_empty.get(), empty),
        differs("value", "hours saved", claim.saved.get(), saved),
        differs("value", "dread taken away", claim.relief.get(), relief),
        differs("value", "hours of riding with the weight", claim.riding.get(), riding),
        differs("value", "hours of falls by weight", claim.falls.get(), falls),
        differs("value", "hours for money", claim.money.get(), world.money()),
        differs("value", "hours of packing", claim.packing.get(), world.packing()),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// A repair that some kit makes possible, with its names filled in.
struct Able<'a> {
    repair: &'a Repair,
    needs: Vec<(String, u32)>,
    uses: Vec<(String, u32)>,
    benefit: f64,
    dread: f64,
}

pub(super) struct World<'a> {
    e: &'a Evidence<'a>,
    prices: Prices,
    pub failures: Vec<&'a Failure>,
    /// For each of them, its repairs that some kit makes possible, the one that saves most first.
    able: Vec<Vec<Able<'a>>>,
    /// Functions that this kit has, combinations included.
    had: BTreeSet<&'a str>,
    /// Functions that some kit of this rider could have.
    possible: BTreeSet<String>,
    /// Stocks that some kit of this rider could have.
    holdable: BTreeSet<String>,
}

impl<'a> World<'a> {
    pub fn new(e: &'a Evidence<'a>) -> Self {
        let all = e.catalogue.failures.values().filter(|own| own.happens_on(e.scenario.trip.style));
        let failures: Vec<&Failure> = all.filter(|own| e.bike.matches(&own.applies)).collect();
        let bags: Vec<_> = e.bike.bags.iter().chain(&e.rider.bags).filter_map(|id| e.catalogue.bags.get(id)).collect();
        let (possible, holdable) = possible(e.catalogue, &e.scenario.never, &bags);
        let prices = prices(e.catalogue, e.scenario);
        let aboard = e.kit.iter().filter_map(|(id, _)| e.catalogue.items.get(id));
        let had = functions::had(e.catalogue, aboard);
        let mut world = Self { e, prices, failures, able: Vec::new(), had, possible, holdable };
        world.able = world.failures.iter().map(|failure| world.able(failure)).collect();
        world
    }

    fn legs(&self) -> &'a [Leg] {
        &self.e.scenario.trip.legs
    }

    /// How many of the scenario's riders are on a leg.
    fn company(&self, leg: &Leg) -> usize {
        self.e.scenario.riders.iter().filter(|rider| leg.is_ridden_by(&rider.name)).count()
    }

    fn falls(&self, leg: &Leg) -> f64 {
        falls(self.e.catalogue, self.e.rider, leg)
    }

    fn modifier(&self, failure: &Failure) -> f64 {
        modifier(self.e.catalogue, self.e.scenario, self.e.bike, failure)
    }

    fn mean(&self, failure: &Failure, leg: &Leg) -> f64 {
        self.modifier(failure) * unmodified(failure, leg, self.falls(leg))
    }

    /// Hours lost to one occurrence on a leg if nothing is done, and the dread of it.
    fn cost(&self, failure: &Failure, leg: &Leg) -> (f64, f64) {
        cost(&self.prices, failure, leg)
    }

    fn hours_unrepaired(&self, failure: &Failure) -> f64 {
        self.legs().iter().map(|leg| self.mean(failure, leg) * self.cost(failure, leg).0).sum()
    }

    /// Repairs within skill, worth beginning on some leg, whose functions and stocks some kit could have.
    fn able(&self, failure: &'a Failure) -> Vec<Able<'a>> {
        let fill = |names: &Map<u32>| -> Option<Vec<(String, u32)>> {
            names.iter().map(|(n, count)| Some((template::fill(n, &self.e.bike.attributes).ok()?, *count))).collect()
        };
        let added = |uses: Vec<(String, u32)>| {
            let mut sums = std::collections::BTreeMap::new();
            uses.into_iter().for_each(|(name, units)| *sums.entry(name).or_insert(0) += units);
            sums.into_iter().collect()
        };
        let in_skill = failure.repairs.iter().filter(|repair| repair.skill <= self.e.rider.repair_skill);
        let mut able: Vec<Able<'a>> = in_skill
            .map(|repair| (repair, self.benefit(failure, repair)))
            .filter(|(_, (benefit, _))| *benefit > 0.0)
            .filter_map(|(repair, (benefit, dread))| {
                Some(Able { repair, needs: fill(&repair.needs)?, uses: added(fill(&repair.uses)?), benefit, dread })
            })
            .filter(|able| able.needs.iter().all(|(name, _)| self.possible.contains(name)))
            .filter(|able| able.uses.iter().all(|(name, _)| self.holdable.contains(name)))
            .collect();
        able.sort_by(|a, b| b.benefit.total_cmp(&a.benefit));
        able
    }

    /// What one occurrence on a leg is spared by a repair, and the dread in it.
    fn spared(&self, failure: &Failure, repair: &Repair, leg: &Leg) -> (f64, f64) {
        let (hours, dread) = self.cost(failure, leg);
        let all = hours + dread;
        let spared = all - repair.time.get() - (1.0 - repair.restores) * all;
        if self.company(leg) < repair.riders as usize || spared <= 0.0 {
            (0.0, 0.0)
        } else {
            (spared, repair.restores * dread)
        }
    }

    fn benefit(&self, failure: &Failure, repair: &Repair) -> (f64, f64) {
        self.legs().iter().fold((0.0, 0.0), |sum, leg| {
            let (mean, (spared, dread)) = (self.mean(failure, leg), self.spared(failure, repair, leg));
            (sum.0 + mean * spared, if spared > 0.0 { sum.1 + mean * dread } else { sum.1 })
        })
    }

    /// The shares of the occurrences that the kit's repairs meet.
    fn shares(&self) -> Vec<Vec<f64>> {
        let way = |able: &Able<'a>| Way {
            repair: able.repair.id.clone(),
            benefit: able.benefit,
            dread: able.dread,
            equipped: able.needs.iter().all(|(name, count)| self.has(name) >= *count),
            uses: able.uses.clone(),
        };
        let fault = |(failure, able): (&&Failure, &Vec<Able<'a>>)| Fault {
            mean: self.legs().iter().map(|leg| self.mean(failure, leg)).sum(),
            ways: able.iter().map(way).collect(),
        };
        let faults: Vec<Fault> = self.failures.iter().zip(&self.able).map(fault).collect();
        shares(&faults, &|name| self.carried(name), self.e.catalogue.model.pooling)
    }

    /// Hours saved, and dread taken away.
    fn gains(&self, shares: &[Vec<f64>]) -> (f64, f64) {
        let each = self.able.iter().zip(shares).flat_map(|(able, shares)| able.iter().zip(shares));
        each.fold((0.0, 0.0), |sum, (able, share)| {
            (sum.0 + share * (able.benefit - able.dread), sum.1 + share * able.dread)
        })
    }

    /// How many of a function are in the kit at a time; a combination counts as one.
    fn has(&self, function: &str) -> u32 {
        let direct: u32 = self
            .e
            .kit
            .iter()
            .filter_map(|(id, count)| Some(self.e.catalogue.items.get(id)?.provides.get(function)? * count))
            .sum();
        if direct == 0 && self.had.contains(function) { 1 } else { direct }
    }

    /// Units of a stock in the kit.
    pub fn carried(&self, stock: &str) -> u32 {
        let held = |(id, count): (&str, u32)| Some(self.e.catalogue.items.get(id)?.holds.get(stock)? * count);
        self.e.kit.iter().filter_map(held).sum()
    }

    /// Hours of hard riding with the kit's weight; and kilograms x falls x (what a fall costs by itself and through what is
    /// left of the damage after the kit's own repairs).
    fn handling(&self, shares: &[Vec<f64>]) -> (f64, f64) {
        let model = &self.e.catalogue.model;
        let kg = self.e.kit.mass(self.e.catalogue).kilograms();
        let riding = kg * riding_per_kg(self.e.catalogue, self.e.scenario, self.e.rider, self.e.bike);
        let bike = self.e.bike.mass.kilograms();
        if bike <= 0.0 {
            return (riding, 0.0);
        }
        let per_leg = |leg: &Leg| {
            let each = self.failures.iter().zip(self.able.iter().zip(shares));
            let broken: f64 = each
                .map(|(failure, (able, shares))| {
                    self.modifier(failure) * failure.rate.per_fall * self.left(failure, able, shares, leg)
                })
                .sum();
            self.falls(leg) * (model.hours_per_fall.get() + broken)
        };
        let falls: f64 = self.legs().iter().map(per_leg).sum();
        (riding, falls * model.load_sensitivity / bike * kg)
    }

    /// Hours that an occurrence on a leg still costs with the kit; by the first version of these sums, with the best that any
    /// kit could do.
    fn left(&self, failure: &Failure, able: &[Able<'a>], shares: &[f64], leg: &Leg) -> f64 {
        let hours = self.cost(failure, leg).0;
        let saved = able.iter().map(|able| {
            let (spared, dread) = self.spared(failure, able.repair, leg);
            spared - dread
        });
        match self.e.catalogue.model.pooling {
            Pooling::EveryRepair => hours - saved.fold(0.0, f64::max),
            Pooling::LeftOver => hours - saved.zip(shares).map(|(saved, share)| saved * share).sum::<f64>(),
        }
    }

    fn packing(&self) -> f64 {
        let things: u32 = self.e.kit.iter().map(|(_, count)| count).sum();
        f64::from(things) * self.prices.thing.get()
    }

    fn money(&self) -> f64 {
        let mut owned = self.e.bike.toolkit.clone();
        self.e.rider.owns.iter().for_each(|(id, count)| *owned.entry(id.clone()).or_insert(0) += count);
        let needs: Vec<_> = self.e.claim.needs.iter().map(|(need, amount)| (need.clone(), None, *amount)).collect();
        let rider = Some(self.e.rider);
        let all = beyond_owned(self.e.catalogue, self.e.kit, &owned, rider);
        all.iter().map(|bought| money(self.e.catalogue, self.e.scenario, &[self.e.rider], &needs, bought)).sum()
    }

    /// Of each failure the most that any repair which the kit allows draws from a stock.
    pub fn most_drawn(&self, stock: &str) -> Vec<Draw> {
        let units = |able: &Able<'_>| able.uses.iter().find(|(name, _)| name == stock).map(|(_, units)| *units);
        let of = |(at, (failure, able)): (usize, (&&Failure, &Vec<Able<'a>>))| {
            let most = able.iter().filter(|able| self.allowed(able)).filter_map(units).max()?;
            let modifier = self.modifier(failure);
            let riding: f64 = self.legs().iter().map(|leg| unmodified(failure, leg, 0.0)).sum();
            let per_fall = modifier * failure.rate.per_fall;
            Some(Draw { failure: at, riding: modifier * riding, per_fall, units: most })
        };
        self.failures.iter().zip(&self.able).enumerate().filter_map(of).collect()
    }

    /// Falls on the trip with the kit's weight aboard.
    pub fn loaded_falls(&self) -> f64 {
        self.legs().iter().map(|leg| self.falls(leg)).sum::<f64>() * self.rise()
    }

    /// What the repairs of a failure use that the kit allows wherever the rider is.
    pub fn possible_ways(&self, at: usize) -> Vec<Vec<(String, u32)>> {
        let everywhere =
            |able: &&Able<'a>| self.legs().iter().all(|leg| self.company(leg) >= able.repair.riders as usize);
        self.able[at]
            .iter()
            .filter(everywhere)
            .filter(|able| self.allowed(able))
            .map(|able| able.uses.clone())
            .collect()
    }

    fn allowed(&self, able: &Able<'_>) -> bool {
        able.needs.iter().all(|(name, count)| self.has(name) >= *count)
            && able.uses.iter().all(|(name, units)| self.carried(name) >= *units)
    }

    /// By how much the kit's weight makes falls more frequent.
    fn rise(&self) -> f64 {
        let bike = self.e.bike.mass.kilograms();
        let kg = self.e.kit.mass(self.e.catalogue).kilograms();
        if bike > 0.0 { 1.0 + self.e.catalogue.model.load_sensitivity * kg / bike } else { 1.0 }
    }

    /// Expected occurrences on the trip with the kit's weight aboard.
    pub fn loaded_mean(&self, failure: &Failure) -> f64 {
        let rise = self.rise();
        let on = |leg: &Leg| self.modifier(failure) * unmodified(failure, leg, self.falls(leg) * rise);
        self.legs().iter().map(on).sum()
    }
}

/// Hours lost to one occurrence on a leg if nothing is done, and the dread of it.
pub(super) fn cost(prices: &Prices, failure: &Failure, leg: &Leg) -> (f64, f64) {
    let help = leg.hours_to_help;
    (failure.outcome.hours_unrepaired(prices.fetched(help)).get(), failure.outcome.dread(prices.dread(help)).get())
}

/// Falls of a rider on a leg with an empty kit.
pub(super) fn falls(catalogue: &Catalogue, rider: &Rider, leg: &Leg) -> f64 {
    let model = &catalogue.model;
    let on_surface = leg.km.iter().map(|(surface, km)| model.falls_per_1000_km.on(surface) * km.km() / 1000.0);
    on_surface.sum::<f64>() * model.skill_factor(rider.riding_skill)
}

/// What parts fitted and preparations done make of a failure's rate; each counts once.
pub(super) fn modifier(catalogue: &Catalogue, scenario: &Scenario, bike: &Bike, failure: &Failure) -> f64 {
    let done: BTreeSet<&String> = bike.fitted.iter().chain(&scenario.done).collect();
    let parts = done.into_iter().filter_map(|id| catalogue.preparations.get(id));
    let parts = parts.filter(|part| bike.matches(&part.applies));
    parts.filter_map(|part| part.effects.get(&failure.id)).product()
}

/// Expected occurrences on a leg with so many falls, before parts and preparations.
pub(super) fn unmodified(failure: &Failure, leg: &Leg, falls: f64) -> f64 {
    let rate = &failure.rate;
    let ridden: f64 = leg.km.iter().map(|(surface, km)| rate.per_1000_km.on(surface) * km.km() / 1000.0).sum();
    ridden + rate.per_day * leg.days + rate.per_fall * falls
}

/// Functions and stocks that some kit of this rider could have: from items not refused, that fit a bag, and whose own
/// requirements can be had.
pub(super) fn possible(catalogue: &Catalogue, never: &[String], bags: &[&Bag]) -> (BTreeSet<String>, BTreeSet<String>) {
    let carried = catalogue.items.values().filter(|item| {
        !never.contains(&item.id)
            && bags.iter().any(|bag| {
                item.longest <= bag.longest
                    && item.volume <= bag.usable()
                    && item.mass <= bag.max_load
                    && !bag.refuses.contains(&item.kind)
            })
    });
    let mut items: Vec<_> = carried.collect();
    loop {
        let functions = functions::had(catalogue, items.iter().copied());
        let before = items.len();
        items.retain(|item| item.requires.keys().all(|name| functions.contains(name.as_str())));
        if items.len() == before {
            let stocks = items.iter().flat_map(|item| item.holds.keys().cloned()).collect();
            return (functions.into_iter().map(str::to_owned).collect(), stocks);
        }
    }
}
