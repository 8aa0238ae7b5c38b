//! What riders, bags and bikes leave of the catalogue: items that fit, repairs within skill, names filled in.

use super::fits::Waived;
use super::instance::{LeftOut, Reason};
use super::member::{Machines, Member, allowed};
use crate::domain::{Bike, Catalogue, Failure, Item, Leg, Map, Prices, Repair, RepairSkill, Scenario, template};
use fardel_words::say;

/// An item that fits somewhere, into which bags, and whose it is.
pub(super) struct Candidate<'a> {
    pub item: &'a Item,
    pub allowed: Vec<bool>,
    /// Personal things stay with their owner and are there once for each rider.
    pub owner: Option<usize>,
    /// Spares of one sort of bike are there once for each sort: the number of the sort.
    pub machine: Option<usize>,
    /// What it holds, the sort of bike told where it matters.
    pub holds: Vec<(String, u32)>,
}

/// Items that are wanted at all and fit some bag.
pub(super) fn candidates<'a>(
    catalogue: &'a Catalogue,
    scenario: &Scenario,
    members: &[Member<'_>],
    machines: &Machines,
    left_out: &mut Vec<LeftOut>,
    warnings: &mut Vec<String>,
) -> Vec<Candidate<'a>> {
    let mut kept = Vec::new();
    let (mut no_quick, mut no_dry) = (false, false);
    for item in catalogue.items.values() {
        if scenario.never.contains(&item.id) {
            left_out.push(LeftOut { item: item.id.clone(), reason: Reason::OnNeverList });
            continue;
        }
        for (owner, machine) in variants(item, members, machines, catalogue) {
            let (allowed, waived) = allowed(item, members, owner);
            // What has to come along stays, so that the answer can be that it cannot.
            if !allowed.contains(&true) && !scenario.always.contains_key(&item.id) {
                left_out.push(LeftOut { item: item.id.clone(), reason: Reason::FitsNoBag });
                continue;
            }
            no_quick |= waived.contains(&Waived::Quick);
            no_dry |= waived.contains(&Waived::Dry);
            let name = |stock: &String| machines.stock(catalogue, stock, machine.unwrap_or(0));
            let holds = item.holds.iter().map(|(stock, units)| (name(stock), *units)).collect();
            kept.push(Candidate { item, allowed, owner, machine, holds });
        }
    }
    if no_quick {
        warnings.push(say!("Some things want to be at hand, but no bag that takes them opens quickly."));
    }
    if no_dry {
        warnings.push(say!("Some things must stay dry, but no bag that takes them is weatherproof: use liners."));
    }
    kept
}

/// Once for each owner, once for each sort of bike, or just once.
fn variants(
    item: &Item,
    members: &[Member<'_>],
    machines: &Machines,
    catalogue: &Catalogue,
) -> Vec<(Option<usize>, Option<usize>)> {
    let owners = if item.personal { (0..members.len()).map(Some).collect() } else { vec![None] };
    let of_one_bike = item.holds.keys().any(|stock| machines.tells_apart(catalogue, stock));
    let sorts = if of_one_bike { (0..machines.sorts.len()).map(Some).collect() } else { vec![None] };
    owners.into_iter().flat_map(|owner| sorts.iter().map(move |sort| (owner, *sort)).collect::<Vec<_>>()).collect()
}

/// A repair that somebody could do if the functions and stocks (names filled in) were there.
pub(super) struct Wanted<'a> {
    /// Bikes that are alike, by number.
    pub machine: usize,
    pub failure: &'a str,
    pub repair: &'a Repair,
    pub needs: Vec<(String, u32)>,
    pub uses: Vec<(String, u32)>,
}

/// The repairs of a failure on bikes that are alike, within the best skill there is, that save time on one of the legs;
/// each leg comes with the number of riders who ride it together, and a repair that takes more of them saves nothing there.
pub(super) fn wanted<'a>(
    (catalogue, prices): (&'a Catalogue, &Prices),
    legs: &[(&Leg, u32)],
    bike: &Bike,
    skill: RepairSkill,
    (machines, machine): (&Machines, usize),
    failure: &'a Failure,
) -> Vec<Wanted<'a>> {
    let saves = |repair: &Repair| {
        legs.iter().filter(|(_, together)| *together >= repair.riders).any(|(leg, _)| {
            let hours = failure.outcome.hours_unrepaired(prices.fetched(leg.hours_to_help)).get();
            let dread = failure.outcome.dread(prices.dread(leg.hours_to_help)).get();
            repair.restores * (hours + dread) > repair.time.get()
        })
    };
    let able = |repair: &&Repair| repair.skill <= skill && saves(repair);
    failure
        .repairs
        .iter()
        .filter(able)
        .filter_map(|repair| {
            let needs = filled(&repair.needs, bike, u32::max)?;
            let uses = filled(&repair.uses, bike, u32::saturating_add)?;
            let known = needs.iter().all(|(name, _)| catalogue.functions.contains_key(name))
                && uses.iter().all(|(name, _)| catalogue.stocks.contains_key(name));
            let uses = uses.into_iter().map(|(name, n)| (machines.stock(catalogue, &name, machine), n)).collect();
            known.then_some(Wanted { machine, failure: &failure.id, repair, needs, uses })
        })
        .collect()
}

/// Names with the bike's values in their holes. Where two names become one, a tool does for both (the larger count
/// stands) and a stock is used twice (the sum does). `None` if the bike lacks a value, which `load` refuses.
fn filled(names: &Map<u32>, bike: &Bike, merge: impl Fn(u32, u32) -> u32) -> Option<Vec<(String, u32)>> {
    let mut out: Map<u32> = Map::new();
    for (name, count) in names {
        let name = template::fill(name, &bike.attributes).ok()?;
        let held = out.entry(name).or_insert(0);
        *held = merge(*held, *count);
    }
    Some(out.into_iter().collect())
}
