//! Hours lost with an empty kit, hours saved by this one, hours that carrying it costs: from the names up.

use super::{Evidence, Violation, differs, stock};
use crate::domain::{Bag, Bike, Catalogue, Failure, Leg, Map, Repair, Rider, Scenario, template};
use std::collections::BTreeSet;

pub(super) fn check(e: &Evidence<'_>) -> Vec<Violation> {
    let world = World::new(e);
    let empty: f64 = world.failures.iter().map(|f| world.hours_unrepaired(f)).sum();
    let saved: f64 = world.able.iter().map(|able| world.hours_saved(able)).sum();
    let handling = world.handling();
    [
        differs("value", "hours lost with an empty kit", e.claim.hours_empty.get(), empty),
        differs("value", "hours saved", e.claim.hours_saved.get(), saved),
        differs("value", "hours of handling", e.claim.handling.get(), handling),
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
}

struct World<'a> {
    e: &'a Evidence<'a>,
    failures: Vec<&'a Failure>,
    /// For each of them, its repairs that some kit makes possible, the one that saves most first.
    able: Vec<Vec<Able<'a>>>,
    /// Functions that some kit of this rider could have.
    possible: BTreeSet<String>,
    /// Stocks that some kit of this rider could have.
    holdable: BTreeSet<String>,
}

impl<'a> World<'a> {
    fn new(e: &'a Evidence<'a>) -> Self {
        let failures: Vec<&Failure> = e.catalogue.failures.values().filter(|f| e.bike.matches(&f.applies)).collect();
        let bags: Vec<_> = e.bike.bags.iter().chain(&e.rider.bags).filter_map(|id| e.catalogue.bags.get(id)).collect();
        let (possible, holdable) = possible(e.catalogue, &e.scenario.never, &bags);
        let mut world = Self { e, failures, able: Vec::new(), possible, holdable };
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

    fn hours_unrepaired(&self, failure: &Failure) -> f64 {
        let lost = |leg: &Leg| self.mean(failure, leg) * failure.outcome.hours_unrepaired(leg.hours_to_help).get();
        self.legs().iter().map(lost).sum()
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
            .filter(|(_, benefit)| *benefit > 0.0)
            .filter_map(|(repair, benefit)| {
                Some(Able { repair, needs: fill(&repair.needs)?, uses: added(fill(&repair.uses)?), benefit })
            })
            .filter(|able| able.needs.iter().all(|(name, _)| self.possible.contains(name)))
            .filter(|able| able.uses.iter().all(|(name, _)| self.holdable.contains(name)))
            .collect();
        able.sort_by(|a, b| b.benefit.total_cmp(&a.benefit));
        able
    }

    fn benefit(&self, failure: &Failure, repair: &Repair) -> f64 {
        let saved = |leg: &Leg| {
            if self.company(leg) < repair.riders as usize {
                return 0.0;
            }
            let hours = failure.outcome.hours_unrepaired(leg.hours_to_help).get();
            self.mean(failure, leg) * (hours - repair.time.get() - (1.0 - repair.restores) * hours).max(0.0)
        };
        self.legs().iter().map(saved).sum()
    }

    /// The kit's best use for one failure: repairs in falling order of benefit, each as far as functions and stock go.
    fn hours_saved(&self, able: &[Able<'a>]) -> f64 {
        let (mut open, mut saved) = (1.0_f64, 0.0);
        for able in able {
            let equipped = able.needs.iter().all(|(name, count)| self.has(name) >= *count);
            let stocked = able.uses.iter().all(|(name, units)| self.carried(name) >= *units);
            let reach = able.uses.iter().map(|(name, _)| self.fill(name)).fold(1.0, f64::min);
            let share = if equipped && stocked { reach.min(open) } else { 0.0 };
            saved += share * able.benefit;
            open -= share;
        }
        saved
    }

    /// How many of a function are in the kit at a time; a combination counts as one.
    fn has(&self, function: &str) -> u32 {
        let direct: u32 = self
            .e
            .kit
            .iter()
            .filter_map(|(id, count)| Some(self.e.catalogue.items.get(id)?.provides.get(function)? * count))
            .sum();
        let combined = || {
            let ways = self.e.catalogue.functions.get(function).map(|f| f.also_from.as_slice()).unwrap_or_default();
            ways.iter().any(|way| way.iter().all(|part| self.has(part) > 0))
        };
        if direct == 0 && combined() { 1 } else { direct }
    }

    /// Units of a stock in the kit.
    fn carried(&self, stock: &str) -> u32 {
        let held = |(id, count): (&str, u32)| Some(self.e.catalogue.items.get(id)?.holds.get(stock)? * count);
        self.e.kit.iter().filter_map(held).sum()
    }

    /// Share of the pooled demand on a stock that the kit meets.
    fn fill(&self, stock: &str) -> f64 {
        let sources: Vec<(f64, u32)> = self
            .failures
            .iter()
            .zip(&self.able)
            .filter_map(|(failure, able)| {
                // Of several repairs that draw on the stock, the one that saves most, which stands first.
                let units = |able: &Able<'_>| able.uses.iter().find(|(name, _)| name == stock).map(|(_, units)| *units);
                let units = able.iter().find_map(units)?;
                Some((self.legs().iter().map(|leg| self.mean(failure, leg)).sum(), units))
            })
            .collect();
        stock::fill(&sources, self.carried(stock))
    }

    /// Kilograms x falls x (what a fall costs by itself and through what still has to be waited for).
    fn handling(&self) -> f64 {
        let model = &self.e.catalogue.model;
        let bike = self.e.bike.mass.kilograms();
        if bike <= 0.0 {
            return 0.0;
        }
        let per_leg = |leg: &Leg| {
            let broken: f64 = self
                .failures
                .iter()
                .zip(&self.able)
                .map(|(failure, able)| {
                    let hours = failure.outcome.hours_unrepaired(leg.hours_to_help).get();
                    let there = able.iter().filter(|a| a.repair.riders as usize <= self.company(leg));
                    let left = there.map(|a| a.repair.time.get() + (1.0 - a.repair.restores) * hours);
                    self.modifier(failure) * failure.rate.per_fall * left.fold(hours, f64::min)
                })
                .sum();
            self.falls(leg) * (model.hours_per_fall.get() + broken)
        };
        let falls: f64 = self.legs().iter().map(per_leg).sum();
        falls * model.load_sensitivity / bike * self.e.kit.mass(self.e.catalogue).kilograms()
    }
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
        let mut functions: BTreeSet<String> = items.iter().flat_map(|item| item.provides.keys().cloned()).collect();
        loop {
            let more: Vec<String> = catalogue
                .functions
                .iter()
                .filter(|(id, f)| {
                    !functions.contains(*id) && f.also_from.iter().any(|w| w.iter().all(|p| functions.contains(p)))
                })
                .map(|(id, _)| id.clone())
                .collect();
            if more.is_empty() {
                break;
            }
            functions.extend(more);
        }
        let before = items.len();
        items.retain(|item| item.requires.keys().all(|name| functions.contains(name)));
        if items.len() == before {
            let stocks = items.iter().flat_map(|item| item.holds.keys().cloned()).collect();
            return (functions, stocks);
        }
    }
}
