//! The chance of getting home: a bound for a rider who keeps what each stop needs for that stop.
//!
//! Each failure that stops the bike is pledged to its surest repair: one that uses no stock, or the one whose stocks most
//! probably suffice for everything that may draw on them. A failure without any is fatal at its first occurrence. A failure
//! on legs that more or fewer ride together counts as several, since some repairs take a second rider. The rider takes
//! nothing from a stock but for what is pledged to it, so a stock has to suffice for its pledges alone. Demands on different
//! stocks are positively associated, so the product over stocks of `P(pledged demand <= carried)` is not above that rider's
//! chance (Esary, Proschan & Walkup, Annals of Mathematical Statistics 38, 1967, 1466-1474). Means are those with the kit
//! aboard: a heavier bike falls more often.
//!
//! A rider who mends everything by the quickest repair may do a little worse; what is shown as the chance is simulated.

use super::demand::CompoundPoisson;
use super::{means, value};
use crate::domain::Outcome;
use crate::resolve::{Instance, InstanceFailure, InstanceRepair};
use std::collections::BTreeSet;

/// The bound for a kit.
#[must_use]
pub fn bound(instance: &Instance, counts: &[u32]) -> f64 {
    let (functions, stocks) = (value::available(instance, counts), value::stocked(instance, counts));
    let riders = u32::try_from(instance.exposures.len().max(1)).unwrap_or(u32::MAX);
    let load_kg = value::mass(instance, counts).kilograms() / f64::from(riders);
    let all: Vec<f64> =
        instance.failures.iter().map(|failure| means::loaded(instance, failure, load_kg, |_| true)).collect();
    let able = |repair: &InstanceRepair| repair.is_possible(&functions, &stocks);
    let enough: Vec<f64> =
        (0..instance.stocks.len()).map(|s| demand(instance, &all, s, able).at_most(stocks[s])).collect();
    let mut pledged: Vec<Vec<(f64, u32)>> = vec![Vec::new(); instance.stocks.len()];
    let mut chance = 1.0;
    let stopping = instance.failures.iter().filter(|failure| matches!(failure.outcome, Outcome::Stops));
    for (failure, riders) in
        stopping.flat_map(|failure| together(instance, failure).into_iter().map(move |n| (failure, n)))
    {
        let mean = means::loaded(instance, failure, load_kg, |leg| leg.riders == riders);
        if mean <= 0.0 {
            continue;
        }
        let repairs = failure.repairs.iter().filter(|repair| repair.riders <= riders && able(repair));
        let sure = repairs.map(|r| (r, r.uses.iter().map(|(s, _)| enough[*s]).product::<f64>()));
        match sure.reduce(|best, now| if now.1 > best.1 { now } else { best }) {
            None => chance *= libm::exp(-mean),
            Some((repair, _)) => {
                repair.uses.iter().for_each(|(stock, units)| pledged[*stock].push((mean, *units)));
            }
        }
    }
    let suffice = pledged.into_iter().zip(&stocks).filter(|(draws, _)| !draws.is_empty());
    chance * suffice.map(|(draws, units)| CompoundPoisson::new(draws).at_most(*units)).product::<f64>()
}

/// How many ride together on the legs on which a failure can happen, each number once.
fn together(instance: &Instance, failure: &InstanceFailure) -> BTreeSet<u32> {
    instance.stretches(failure).map(|leg| leg.riders).collect()
}

/// All that may be drawn from a stock: every failure takes the most that any of its repairs takes.
fn demand(instance: &Instance, means: &[f64], stock: usize, able: impl Fn(&InstanceRepair) -> bool) -> CompoundPoisson {
    let most = |failure: &InstanceFailure| {
        let uses = failure.repairs.iter().filter(|repair| able(repair)).flat_map(|repair| &repair.uses);
        uses.filter(|(used, _)| *used == stock).map(|(_, units)| *units).max().unwrap_or(0)
    };
    CompoundPoisson::new(instance.failures.iter().zip(means).map(|(failure, mean)| (*mean, most(failure))))
}
