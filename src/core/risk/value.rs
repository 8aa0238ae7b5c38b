//! What a given kit saves and costs: no search, just arithmetic.

use super::division::{self, Division};
use super::{PerKilogram, RiskModel};
use crate::resolve::{Instance, InstanceItem, InstanceRepair};
use crate::units::Mass;
use schemars::JsonSchema;
use serde::Serialize;

/// What a kit does and what it costs, in hours of the trip.
#[derive(Debug, Clone)]
pub struct KitValue {
    /// For each failure and repair, the share of occurrences met by it.
    pub shares: Vec<Vec<f64>>,
    /// For each failure, expected hours saved.
    pub saved: Vec<f64>,
    /// For each failure, the dread of being stranded that is taken away.
    pub relief: Vec<f64>,
    /// All of it added up.
    pub terms: Terms,
}

/// The terms of the objective, each in hours of the trip.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, JsonSchema)]
pub struct Terms {
    /// Saved by repairs.
    #[serde(rename = "saved_h")]
    pub saved: f64,
    /// Dread of being stranded that is taken away.
    #[serde(rename = "dread_saved_h")]
    pub relief: f64,
    /// Lost to hard riding with the weight of the kit.
    #[serde(rename = "riding_h")]
    pub riding: f64,
    /// Lost to falls that the weight brings.
    #[serde(rename = "falls_h")]
    pub falls: f64,
    /// What is bought, as far as this trip bears it.
    #[serde(rename = "money_h")]
    pub money: f64,
    /// Lost to packing.
    #[serde(rename = "packing_h")]
    pub packing: f64,
}

impl Terms {
    /// `saved + relief - riding - falls - money - packing`: what `select` maximises.
    #[must_use]
    pub fn objective(&self) -> f64 {
        self.saved + self.relief - self.costs()
    }
    /// What the kit costs.
    #[must_use]
    pub fn costs(&self) -> f64 {
        self.handling() + self.money + self.packing
    }
    /// What its weight costs.
    #[must_use]
    pub fn handling(&self) -> f64 {
        self.riding + self.falls
    }
}

impl KitValue {
    /// Expected hours saved by repairs.
    #[must_use]
    pub const fn hours_saved(&self) -> f64 {
        self.terms.saved
    }
    /// What repairs bring: hours saved and dread taken away.
    #[must_use]
    pub fn gains(&self) -> f64 {
        self.terms.saved + self.terms.relief
    }
    /// What `select` maximises.
    #[must_use]
    pub fn objective(&self) -> f64 {
        self.terms.objective()
    }
}

/// What is left of a kit without the things that are useless in it, because what they need is not there, and so on.
#[must_use]
pub(crate) fn useful(instance: &Instance, counts: &[u32]) -> Vec<u32> {
    let mut useful = counts.to_vec();
    loop {
        let there = available(instance, &useful);
        let useless = |(at, item): (usize, &InstanceItem)| {
            let lacks = item.requires.iter().any(|(function, count)| there[*function] < (*count).max(1));
            (useful[at] > 0 && lacks).then_some(at)
        };
        match instance.items.iter().enumerate().find_map(useless) {
            Some(at) => useful[at] = 0,
            None => return useful,
        }
    }
}

/// How many of each function are there at a time, combinations included; compositions give one.
pub(crate) fn available(instance: &Instance, counts: &[u32]) -> Vec<u32> {
    let mut have = vec![0_u32; instance.functions.len()];
    for (item, count) in instance.items.iter().zip(counts) {
        for (function, each) in &item.provides {
            have[*function] = have[*function].saturating_add(each.saturating_mul(*count));
        }
    }
    loop {
        let combined: Vec<usize> = instance
            .functions
            .iter()
            .enumerate()
            .filter(|(at, f)| have[*at] == 0 && f.also_from.iter().any(|way| way.iter().all(|part| have[*part] > 0)))
            .map(|(at, _)| at)
            .collect();
        if combined.is_empty() {
            return have;
        }
        combined.into_iter().for_each(|at| have[at] = 1);
    }
}

/// Units of each stock in the kit.
pub(crate) fn stocked(instance: &Instance, counts: &[u32]) -> Vec<u32> {
    let mut have = vec![0_u32; instance.stocks.len()];
    for (item, count) in instance.items.iter().zip(counts) {
        for (stock, each) in &item.holds {
            have[*stock] = have[*stock].saturating_add(each.saturating_mul(*count));
        }
    }
    have
}

/// Do these counts make the repair possible, once at least?
pub(crate) fn able(instance: &Instance, counts: &[u32], repair: &InstanceRepair) -> bool {
    repair.is_possible(&available(instance, counts), &stocked(instance, counts))
}

/// Mass of the counted items.
#[must_use]
pub fn mass(instance: &Instance, counts: &[u32]) -> Mass {
    instance.items.iter().zip(counts).map(|(item, count)| item.mass * *count).sum()
}

/// What carrying, packing and buying the counted items costs; `weight` by owner.
fn costs(instance: &Instance, counts: &[u32], weight: impl Fn(Option<usize>) -> PerKilogram) -> Terms {
    let mut terms = Terms::default();
    for (item, count) in instance.items.iter().zip(counts).filter(|(_, count)| **count > 0) {
        let (kg, per_kg) = ((item.mass * *count).kilograms(), weight(item.owner));
        terms.riding += per_kg.riding * kg;
        terms.falls += per_kg.falls * kg;
        terms.money += item.buying.get() * f64::from(count.saturating_sub(item.owned));
        terms.packing += instance.prices.thing.get() * f64::from(*count);
    }
    terms
}

/// The value of carrying `counts[i]` of item `i`, by the demands and the price of weight that this kit itself makes: the
/// same whatever else the catalogue holds.
#[must_use]
pub fn value(instance: &Instance, risk_model: &RiskModel, counts: &[u32]) -> KitValue {
    if instance.pooling == crate::domain::Pooling::EveryRepair {
        return value_in_model(instance, risk_model, counts);
    }
    let division = division::settle(instance, risk_model, counts);
    let own = risk_model.weight_at(instance, &division);
    valued(instance, risk_model, division, costs(instance, counts, |owner| own.per_kg(owner)))
}

/// The same by the ladders and prices of the stakes as given: what the optimiser sees.
#[must_use]
pub fn value_in_model(instance: &Instance, risk_model: &RiskModel, counts: &[u32]) -> KitValue {
    let division = division::by_ladders(instance, risk_model, counts);
    valued(instance, risk_model, division, costs(instance, counts, |owner| risk_model.per_kg(owner)))
}

fn valued(instance: &Instance, risk_model: &RiskModel, division: Division, costs: Terms) -> KitValue {
    let of_failure = |f: usize, of: &dyn Fn(&super::RepairRisk) -> f64| -> f64 {
        risk_model.order[f].iter().map(|at| division.shares[f][*at] * of(&risk_model.repairs[f][*at])).sum()
    };
    let saved: Vec<f64> = (0..instance.failures.len()).map(|f| of_failure(f, &|r| r.benefit - r.dread)).collect();
    let relief: Vec<f64> = (0..instance.failures.len()).map(|f| of_failure(f, &|r| r.dread)).collect();
    let terms = Terms { saved: saved.iter().sum(), relief: relief.iter().sum(), ..costs };
    KitValue { shares: division.shares, saved, relief, terms }
}
