//! What the rider, the bags and the bike leave of the catalogue: items that fit, repairs within skill, names filled in.

use super::case::{LeftOut, Reason};
use super::fits::{Waived, fits};
use crate::domain::{Bag, Bike, Catalogue, Failure, Item, Map, Repair, Rider, Scenario, template};
use indexmap::IndexSet;

/// The bags that are part of the bike, then the rider's.
pub(super) fn bags(catalogue: &Catalogue, bike: &Bike, rider: &Rider) -> Vec<Bag> {
    let keys: IndexSet<&String> = bike.bags.iter().chain(&rider.bags).collect();
    keys.into_iter().filter_map(|id| catalogue.bags.get(id)).cloned().collect()
}

/// An item that fits somewhere, and into which bags.
pub(super) type Candidate<'a> = (&'a Item, Vec<bool>);

/// Items that are wanted at all and fit some bag.
pub(super) fn candidates<'a>(
    catalogue: &'a Catalogue,
    scenario: &Scenario,
    bags: &[Bag],
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
        let (allowed, waived) = fits(item, bags);
        if !allowed.contains(&true) {
            left_out.push(LeftOut { item: item.id.clone(), reason: Reason::FitsNoBag });
            continue;
        }
        no_quick |= waived.contains(&Waived::Quick);
        no_dry |= waived.contains(&Waived::Dry);
        kept.push((item, allowed));
    }
    if no_quick {
        warnings.push("Some things want to be at hand, but no bag that takes them opens quickly.".to_owned());
    }
    if no_dry {
        warnings.push("Some things must stay dry, but no bag that takes them is weatherproof: use liners.".to_owned());
    }
    kept
}

/// A repair this rider could do if the functions and stocks (names filled in) were there.
pub(super) struct Wanted<'a> {
    pub failure: &'a str,
    pub repair: &'a Repair,
    pub needs: Vec<(String, u32)>,
    pub uses: Vec<(String, u32)>,
}

pub(super) fn wanted<'a>(
    catalogue: &'a Catalogue,
    scenario: &Scenario,
    bike: &Bike,
    rider: &Rider,
    failure: &'a Failure,
) -> Vec<Wanted<'a>> {
    let saves = |repair: &Repair| {
        scenario.trip.legs.iter().any(|leg| {
            let hours = failure.outcome.hours_unrepaired(leg.hours_to_help).get();
            repair.restores * hours > repair.time.get()
        })
    };
    let able = |repair: &&Repair| repair.skill <= rider.repair_skill && saves(repair);
    failure
        .repairs
        .iter()
        .filter(able)
        .filter_map(|repair| {
            let needs = filled(&repair.needs, bike, u32::max)?;
            let uses = filled(&repair.uses, bike, u32::saturating_add)?;
            let known = needs.iter().all(|(name, _)| catalogue.functions.contains_key(name))
                && uses.iter().all(|(name, _)| catalogue.stocks.contains_key(name));
            known.then_some(Wanted { failure: &failure.id, repair, needs, uses })
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
