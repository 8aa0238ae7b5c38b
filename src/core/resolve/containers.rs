//! Fuel that no container on these bikes can hold is not asked for, but said: the riders must refuel sooner. Fuel that is
//! asked for is not there a second time for breakdowns.

use super::instance::Demand;
use super::reading::Candidate;
use crate::domain::{Bag, NeedRule};
use fardel_words::{say, word};

/// Lowers what is demanded of fuel to what holders, cases and containers allow, with a warning where that is less.
pub(super) fn fuel_to_containers(
    demands: &mut [Demand],
    candidates: &[Candidate<'_>],
    bags: &[Bag],
    riders: u32,
    warnings: &mut Vec<String>,
) {
    for demand in demands.iter_mut().filter(|demand| demand.rule == NeedRule::Fuel) {
        let held = held(&demand.id, candidates, bags, riders);
        if held < demand.amount {
            let (short, litres) = ((demand.amount - held) / 1000.0, demand.amount / 1000.0);
            warnings.push(say!(
                "NOT ENOUGH FUEL. {}: {litres:.1} L to carry, and approved containers in the holders and bags of this bike take {:.1} L of it. You would be {short:.1} L short: find a pump sooner or another holder. Law and ferries limit how much petrol may be carried outside the tank; ask.",
                demand.working,
                held / 1000.0
            ));
            demand.amount = held;
            demand.working += word!(", more than containers hold");
        }
    }
}

/// Petrol that is carried to reach the next pump is no reserve: containers that meet a demand for fuel hold nothing for
/// breakdowns. What the demand has on top of the bare consumption is the reserve.
pub(super) fn no_reserve_in_containers(
    candidates: &mut [Candidate<'_>],
    demands: &[Demand],
    warnings: &mut Vec<String>,
) {
    let fuel = || demands.iter().filter(|demand| demand.rule == NeedRule::Fuel);
    let containers = candidates.iter_mut().filter(|found| fuel().any(|own| found.item.meets.contains_key(&own.id)));
    let emptied = containers.filter(|found| !found.holds.is_empty()).map(|found| found.holds.clear()).count();
    if emptied > 0 {
        warnings.push(say!("Petrol carried to reach the next pump is no reserve: it is not counted as help if you run dry or have to throw bad petrol away."));
    }
}

/// What bag after bag takes when each is filled with the container that brings most.
fn held(need: &str, candidates: &[Candidate<'_>], bags: &[Bag], riders: u32) -> f64 {
    let mut left: Vec<(&Candidate<'_>, f64, u32)> = candidates
        .iter()
        .filter_map(|found| {
            let amount = found.item.meets.get(need)?.amount;
            Some((found, amount, found.item.at_most.saturating_mul(riders)))
        })
        .collect();
    let mut total = 0.0;
    for (at, bag) in bags.iter().enumerate() {
        let fit = |found: &Candidate<'_>, most: u32| {
            let fits = (1..=most)
                .take_while(|n| found.item.volume * *n <= bag.usable() && found.item.mass * *n <= bag.max_load);
            if found.allowed[at] { u32::try_from(fits.count()).unwrap_or(0) } else { 0 }
        };
        let best = left.iter_mut().map(|entry| (fit(entry.0, entry.2), entry));
        let best = best.max_by(|a, b| (f64::from(a.0) * a.1.1).total_cmp(&(f64::from(b.0) * b.1.1)));
        if let Some((count, entry)) = best {
            total += f64::from(count) * entry.1;
            entry.2 -= count;
        }
    }
    total
}
