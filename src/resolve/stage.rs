//! The stage itself: one rider's trip as a case.

use super::case::{Case, CaseFailure, LeftOut, Reason};
use super::numbers::Numbers;
use super::reading::{Wanted, bags, candidates, wanted};
use super::relevant::Live;
use super::{applies, exposure, needs};
use crate::domain::{Catalogue, Rider, Scenario};

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
    let numbers = Numbers::new(&live, &demands);

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
            riders: vec![0],
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
        exposures: vec![exposure],
        left_out,
        warnings,
    })
}
