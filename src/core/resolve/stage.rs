//! The stage itself: the trip of some riders with one kit between them as a case. A single rider is a group of one.

use super::apart::apart;
use super::containers::{fuel_to_containers, no_reserve_in_containers};
use super::instance::{Instance, InstanceFailure, LeftOut, Reason};
use super::member::{Machines, Member};
use super::numbers::Numbers;
use super::reading::{Wanted, candidates, wanted};
use super::relevant::Live;
use super::{applies, buying, group, mount, sets};
use crate::domain::{Bag, Catalogue, Failure, NeedRule, Rider, Scenario};
use fardel_milp::timing::timed;

/// Resolves the trip of one rider.
///
/// # Panics
/// Never for a catalogue and scenario that `load` accepted and a rider of that scenario.
#[must_use]
pub fn resolve(catalogue: &Catalogue, scenario: &Scenario, rider: &Rider) -> Option<Instance> {
    resolve_group(catalogue, scenario, std::slice::from_ref(rider))
}

/// Resolves the trip of riders who share one kit. Their bags stand one rider after the other.
///
/// # Panics
/// Never for a catalogue and scenario that `load` accepted and riders of that scenario.
#[must_use]
pub fn resolve_group(catalogue: &Catalogue, scenario: &Scenario, riders: &[Rider]) -> Option<Instance> {
    timed("see what can matter on this trip", || resolved(catalogue, scenario, riders))
}

fn resolved(catalogue: &Catalogue, scenario: &Scenario, riders: &[Rider]) -> Option<Instance> {
    let members = Member::all(catalogue, scenario, riders)?;
    let machines = Machines::new(&members);
    let mut demands = group::demands(catalogue, &members);
    let mut left_out = Vec::new();
    let mut warnings = Vec::new();
    let mut candidates = candidates(catalogue, scenario, &members, &machines, &mut left_out, &mut warnings);
    let bags: Vec<Bag> = members.iter().flat_map(|member| member.bags.clone()).collect();
    let bikes = u32::try_from(members.len()).unwrap_or(u32::MAX);
    let fuel = demands.iter().find(|demand| demand.rule == NeedRule::Fuel && demand.amount > 0.0).cloned();
    fuel_to_containers(&mut demands, &candidates, &bags, bikes, &mut warnings);
    demands.retain(|demand| demand.amount > 0.0);
    no_reserve_in_containers(&mut candidates, &demands, &mut warnings);
    let apart = apart(catalogue, scenario, &members, &demands);
    let prices = catalogue.prices.with(&scenario.prices);
    let skill = members.iter().map(|member| member.rider.repair_skill).max()?;
    let repairs: Vec<Wanted<'_>> = machines
        .sorts
        .iter()
        .enumerate()
        .flat_map(|(machine, own)| {
            let first = &members[own[0]];
            let failures = applies::failures(catalogue, first.bike, scenario.trip.style);
            failures.map(move |failure| (machine, first, own, failure))
        })
        .flat_map(|(machine, first, own, failure)| {
            let legs = own.iter().flat_map(|rider| &members[*rider].scenario.trip.legs);
            let legs: Vec<_> = legs.map(|leg| (leg, scenario.together_on(leg))).collect();
            wanted((catalogue, &prices), &legs, first.bike, skill, (&machines, machine), failure)
        })
        .collect();
    let live = Live::find(catalogue, scenario, &candidates, &repairs, &demands);
    let numbers = Numbers::new(&live, &demands);

    let mut items = Vec::new();
    for (at, candidate) in candidates.iter().enumerate() {
        if live.items[at] {
            items.push(numbers.item(candidate, scenario, &members, &machines));
        } else {
            left_out.push(LeftOut { item: candidate.item.id.clone(), reason: Reason::NothingNeedsIt });
        }
    }
    let failure = |machine: usize, riders: &Vec<usize>, failure: &Failure| InstanceFailure {
        id: failure.id.clone(),
        name: failure.name.clone(),
        system: failure.system.clone(),
        riders: riders.clone(),
        outcome: failure.outcome,
        rate: failure.rate.clone(),
        modifier: applies::modifier(catalogue, &scenario.done, members[riders[0]].bike, &failure.id),
        repairs: live.of(machine, failure, &repairs).map(|wanted| numbers.repair(wanted)).collect(),
        beyond_skill: failure
            .repairs
            .iter()
            .filter(|repair| repair.riders <= most_together(&members, riders))
            .map(|repair| repair.skill)
            .filter(|wanted| *wanted > skill)
            .min(),
    };
    let failures = machines.sorts.iter().enumerate().flat_map(|(machine, riders)| {
        let failure = &failure;
        let own = applies::failures(catalogue, members[riders[0]].bike, scenario.trip.style);
        own.map(move |found| failure(machine, riders, found))
    });
    let failures = failures.collect();
    let (functions, stocks) = numbers.names(catalogue);
    let mut instance = Instance {
        items,
        functions,
        stocks,
        failures,
        demands,
        apart,
        fuel,
        bags,
        mounts: members.iter().map(|member| mount::mount(catalogue, member)).collect(),
        kit_mass: group::kit_mass(&members),
        own_kit_mass: members.iter().map(Member::kit_mass).collect(),
        parts: 1,
        kit_volume: group::kit_volume(scenario, &members),
        budget: group::budget(scenario, &members),
        stranded: scenario.limits.stranded,
        prices,
        pooling: catalogue.model.pooling,
        sets: Vec::new(),
        exposures: members.iter().map(|member| member.exposure.clone()).collect(),
        left_out,
        warnings,
    };
    instance.sets = sets::sets(&instance, catalogue, &members);
    buying::charge(&mut instance, catalogue, scenario, &members);
    Some(instance)
}

/// The most riders who ride one leg together with any of these.
fn most_together(members: &[Member<'_>], riders: &[usize]) -> u32 {
    let legs = riders.iter().flat_map(|rider| &members[*rider].exposure.legs);
    legs.map(|leg| leg.riders).max().unwrap_or(1)
}
