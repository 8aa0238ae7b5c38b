//! Short names: short, and each for one thing.

use fardel::load::{self, Source};
use std::collections::BTreeMap;

/// As long as a line of a screen bears three times.
const LONGEST: usize = 24;

#[test]
fn every_thing_has_a_short_name_of_its_own() {
    let catalogue = load::catalogue(&load::shipped(), &[]).unwrap();
    let mut seen: BTreeMap<&str, &str> = BTreeMap::new();
    for item in catalogue.items.values() {
        assert!(item.short.chars().count() <= LONGEST, "{}: {}", item.id, item.short);
        assert!(!item.short.contains([',', ';', '*']), "{}: {}", item.id, item.short);
        if let Some(other) = seen.insert(&item.short, &item.id) {
            panic!("{} and {other} are both called {}", item.id, item.short);
        }
    }
    assert!(seen.len() > 250);
}

/// A short name belongs to the name beside it.
#[test]
fn a_short_name_is_taken_over_with_the_name_only() {
    let own = "items:\n  mine: { like: patch-kit, name: my own patches, basis: ride log }\n  same: { like: patch-kit, mass: 70 g, \
               basis: ride log }\n  other: { like: patch-kit, name: six patches in a tin, short: patch tin, basis: ride log }\n";
    let own = Source { name: "own.yaml".to_owned(), text: own.to_owned() };
    let catalogue = load::catalogue(&load::shipped(), &[own]).unwrap();
    let short = |id: &str| catalogue.items[id].short.as_str();
    assert_eq!([short("mine"), short("same"), short("other")], ["my own patches", "patch kit", "patch tin"]);
}
