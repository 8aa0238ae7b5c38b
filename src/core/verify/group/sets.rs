//! Sets that a group shares: which of them one bike has whole.

use super::together::plain;
use super::{Group, Part};
use crate::verify::{Violation, sets};
use std::collections::{BTreeMap, BTreeSet};

/// Things that stay with their owner, or that are kept for one sort of bike, are no part of it.
pub(super) fn check(group: &Group<'_>) -> Vec<Violation> {
    let Some(claim) = &group.claim.sets else { return Vec::new() };
    let Some(bike) = group.parts.first().and_then(|part| group.plain.bikes.get(&part.rider.bike)) else {
        return Vec::new();
    };
    let shared = |key: &str| {
        group.keys.get(key).is_none_or(|known| known.bike.is_none())
            && group.plain.items.get(plain(group, key)).is_some_and(|item| !item.personal)
    };
    let things = |part: &Part<'_>| -> Vec<String> {
        part.held().into_iter().filter(|(key, n)| *n > 0 && shared(key)).map(|(key, _)| key).collect()
    };
    let held: Vec<(String, Vec<String>)> =
        group.parts.iter().map(|part| (part.rider.name.clone(), things(part))).collect();
    let places: Vec<(String, BTreeSet<&str>)> =
        held.iter().map(|(name, own)| (name.clone(), own.iter().map(String::as_str).collect())).collect();
    let all = held.iter().flat_map(|(_, own)| own.iter().map(String::as_str));
    let set_of: BTreeMap<&str, usize> = sets::by_thing(group.plain, bike, all, |key| key);
    sets::check(group.plain, claim, &places, &set_of, sets::on_one_bike)
}
