//! What a given kit saves, by the stakes: no search, just arithmetic.

use super::{Stakes, recovery};
use crate::resolve::{Case, CaseItem, CaseRepair};
use crate::units::Mass;

/// What a kit does.
#[derive(Debug, Clone)]
pub struct KitValue {
    /// For each failure and repair, the share of occurrences met by it.
    pub shares: Vec<Vec<f64>>,
    /// For each failure, expected hours saved.
    pub saved: Vec<f64>,
    /// Hours lost to handling the kit's mass.
    pub handling: f64,
    /// Chance that no failure that stops the bike is left unrepaired, at least.
    pub self_recovery: f64,
}

impl KitValue {
    /// Expected hours saved by repairs.
    #[must_use]
    pub fn hours_saved(&self) -> f64 {
        self.saved.iter().sum()
    }
    /// Hours saved less what carrying the kit costs: what `select` maximises.
    #[must_use]
    pub fn objective(&self) -> f64 {
        self.hours_saved() - self.handling
    }
}

/// What is left of a kit without the things that are useless in it, because what they need is not there, and so on.
#[must_use]
pub(crate) fn useful(case: &Case, counts: &[u32]) -> Vec<u32> {
    let mut useful = counts.to_vec();
    loop {
        let there = available(case, &useful);
        let useless = |(at, item): (usize, &CaseItem)| {
            let lacks = item.requires.iter().any(|(function, count)| there[*function] < (*count).max(1));
            (useful[at] > 0 && lacks).then_some(at)
        };
        match case.items.iter().enumerate().find_map(useless) {
            Some(at) => useful[at] = 0,
            None => return useful,
        }
    }
}

/// How many of each function are there at a time, combinations included; compositions give one.
pub(crate) fn available(case: &Case, counts: &[u32]) -> Vec<u32> {
    let mut have = vec![0_u32; case.functions.len()];
    for (item, count) in case.items.iter().zip(counts) {
        for (function, each) in &item.provides {
            have[*function] = have[*function].saturating_add(each.saturating_mul(*count));
        }
    }
    loop {
        let combined: Vec<usize> = case
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
pub(crate) fn stocked(case: &Case, counts: &[u32]) -> Vec<u32> {
    let mut have = vec![0_u32; case.stocks.len()];
    for (item, count) in case.items.iter().zip(counts) {
        for (stock, each) in &item.holds {
            have[*stock] = have[*stock].saturating_add(each.saturating_mul(*count));
        }
    }
    have
}

/// Do these counts make the repair possible, once at least?
pub(crate) fn able(case: &Case, counts: &[u32], repair: &CaseRepair) -> bool {
    let (functions, stocks) = (available(case, counts), stocked(case, counts));
    repair.needs.iter().all(|(function, count)| functions[*function] >= *count)
        && repair.uses.iter().all(|(stock, units)| stocks[*stock] >= *units)
}

/// Mass of the counted items.
#[must_use]
pub fn mass(case: &Case, counts: &[u32]) -> Mass {
    case.items.iter().zip(counts).map(|(item, count)| item.mass * *count).sum()
}

/// Hours that carrying the counted items costs.
fn handling(case: &Case, stakes: &Stakes, counts: &[u32]) -> f64 {
    let each = case.items.iter().zip(counts).filter(|(_, count)| **count > 0);
    each.map(|(item, count)| stakes.handling_per_kg(item.owner) * (item.mass * *count).kilograms()).sum()
}

/// The value of carrying `counts[i]` of item `i`.
#[must_use]
pub fn value(case: &Case, stakes: &Stakes, counts: &[u32]) -> KitValue {
    let functions = available(case, counts);
    let stocks = stocked(case, counts);
    let fills: Vec<f64> = stakes.ladders.iter().zip(&stocks).map(|(ladder, units)| ladder.fill(*units)).collect();
    let mut shares = Vec::with_capacity(case.failures.len());
    let mut saved = Vec::with_capacity(case.failures.len());
    for (failure, stakes) in case.failures.iter().zip(&stakes.repairs) {
        let most: Vec<f64> = failure
            .repairs
            .iter()
            .map(|repair| {
                let able = repair.needs.iter().all(|(function, count)| functions[*function] >= *count)
                    && repair.uses.iter().all(|(stock, units)| stocks[*stock] >= *units);
                let stock = repair.uses.iter().map(|(stock, _)| fills[*stock]).fold(1.0, f64::min);
                if able { stock } else { 0.0 }
            })
            .collect();
        let benefits: Vec<f64> = stakes.iter().map(|stake| stake.benefit).collect();
        let (share, hours) = best_first(&most, &benefits);
        shares.push(share);
        saved.push(hours);
    }
    KitValue {
        self_recovery: recovery::self_recovery(case, counts, &functions, &stocks),
        shares,
        saved,
        handling: handling(case, stakes, counts),
    }
}

/// Meets occurrences by the repair that saves most, as far as its stock reaches, then the next: what is optimal when
/// shares may not exceed `most` each nor 1 together.
fn best_first(most: &[f64], benefits: &[f64]) -> (Vec<f64>, f64) {
    let mut order: Vec<usize> = (0..most.len()).collect();
    order.sort_by(|a, b| benefits[*b].total_cmp(&benefits[*a]).then(a.cmp(b)));
    let mut shares = vec![0.0; most.len()];
    let (mut left, mut saved) = (1.0_f64, 0.0);
    for at in order {
        let share = most[at].min(left);
        if benefits[at] > 0.0 && share > 0.0 {
            shares[at] = share;
            saved += share * benefits[at];
            left -= share;
        }
    }
    (shares, saved)
}
