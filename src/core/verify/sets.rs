//! Sets of things that are used together are where the answer says they are.

use super::Violation;
use crate::domain::{Bike, Catalogue};
use std::collections::{BTreeMap, BTreeSet};

/// What an answer says of sets: how many are together, of how many, and the others with where they are.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct SetsClaim {
    /// In one place.
    pub whole: usize,
    /// All.
    pub of: usize,
    /// Names of the others, and of the places with some of them.
    pub split: Vec<(String, Vec<String>)>,
}

/// The set of each thing, by key; things of no set are left out. `plain` gives the key of the catalogue.
pub(super) fn by_thing<'a>(
    catalogue: &Catalogue,
    bike: &Bike,
    things: impl Iterator<Item = &'a str>,
    plain: impl Fn(&'a str) -> &'a str,
) -> BTreeMap<&'a str, usize> {
    let sets = catalogue.sets_on(bike);
    things.filter_map(|key| Some((key, sets.of(catalogue.items.get(plain(key))?)?))).collect()
}

/// Counts the sets anew: `places` are names with the things there, `together` says whether a set's things are, given
/// for each place which of them it has.
pub(super) fn check<'a>(
    catalogue: &Catalogue,
    claim: &SetsClaim,
    places: &[(String, BTreeSet<&'a str>)],
    set_of: &BTreeMap<&'a str, usize>,
    together: impl Fn(&BTreeSet<&str>, &[BTreeSet<&str>]) -> bool,
) -> Vec<Violation> {
    let mut found = SetsClaim::default();
    for (at, set) in catalogue.sets.values().enumerate() {
        let own = |things: &BTreeSet<&'a str>| -> BTreeSet<&'a str> {
            things.iter().copied().filter(|id| set_of.get(id) == Some(&at)).collect()
        };
        let parts: Vec<BTreeSet<&str>> = places.iter().map(|(_, things)| own(things)).collect();
        let all: BTreeSet<&str> = parts.iter().flatten().copied().collect();
        if all.len() < 2 {
            continue;
        }
        found.of += 1;
        if together(&all, &parts) {
            found.whole += 1;
        } else {
            let some = places.iter().zip(&parts).filter(|(_, part)| !part.is_empty());
            found.split.push((set.name.clone(), some.map(|((name, _), _)| name.clone()).collect()));
        }
    }
    let what = format!("sets: claimed {claim:?}, found {found:?}");
    if found == *claim { Vec::new() } else { vec![Violation { rule: "sets", what, by: 1.0 }] }
}

/// All of a set is in one bag: one place alone has any of it.
pub(super) fn in_one_bag(_: &BTreeSet<&str>, parts: &[BTreeSet<&str>]) -> bool {
    parts.iter().filter(|part| !part.is_empty()).count() == 1
}

/// One bike has some of everything of a set.
pub(super) fn on_one_bike(all: &BTreeSet<&str>, parts: &[BTreeSet<&str>]) -> bool {
    parts.iter().any(|part| part == all)
}

/// The sets in one rider's bags; `plain` gives the key of the catalogue of a key in a bag.
pub(super) fn check_bags<'a>(
    catalogue: &Catalogue,
    bike: &Bike,
    bags: impl Iterator<Item = &'a String>,
    stowage: &'a crate::domain::Stowage,
    plain: impl Fn(&'a str) -> &'a str,
    claim: &SetsClaim,
) -> Vec<Violation> {
    let mut places: Vec<(String, BTreeSet<&str>)> = Vec::new();
    let mut seen = BTreeSet::new();
    for id in bags.filter(|id| seen.insert((*id).clone())) {
        let Some(bag) = catalogue.bags.get(id) else { continue };
        let things = stowage.get(id).into_iter().flatten().filter(|(_, n)| **n > 0).map(|(key, _)| key.as_str());
        places.push((bag.name.clone(), things.collect()));
    }
    let set_of = by_thing(catalogue, bike, places.iter().flat_map(|(_, things)| things.iter().copied()), plain);
    check(catalogue, claim, &places, &set_of, in_one_bag)
}
