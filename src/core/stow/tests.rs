//! Filled bags of a shipped trip: what an exchange keeps, what it gains, and what makes no difference to it.

use super::at_once::Bags;
use super::exchange::{exchange, how_disliked};
use super::*;
use crate::load::{Source, load_texts, shipped};
use crate::resolve::{self, Instance};

/// What a rider of the five-day loop carries, near enough.
const KIT: &[(&str, u32)] = &[
    ("hand-pump", 1),
    ("tyre-lever", 2),
    ("valve-core-kit", 1),
    ("patch-kit", 1),
    ("tube-18", 1),
    ("axle-lever-27", 1),
    ("axle-ring-22-24", 1),
    ("multi-tool", 1),
    ("spanner-12", 1),
    ("fuses", 1),
    ("electrical-tape", 1),
    ("epoxy-putty", 1),
    ("jump-pack", 1),
    ("siphon-hose", 1),
    ("tent-1", 1),
    ("mat-self-inflating", 1),
    ("bag-0-synthetic", 1),
    ("stove-gas", 1),
    ("gas-230", 1),
    ("pot-1300", 1),
    ("lighter", 1),
    ("spoon", 1),
    ("day-ration-shop", 4),
    ("water-bag-2", 2),
    ("rain-suit", 1),
    ("documents", 1),
    ("cash", 1),
];

fn loop_trip() -> (Instance, Vec<u32>) {
    let text = include_str!("../../../scenarios/five-day-loop.yaml").to_owned();
    let scenario = Source { name: "five-day-loop.yaml".to_owned(), text };
    let loaded = load_texts(&shipped(), scenario, &|_| unreachable!("no other files")).unwrap();
    let instance = resolve::resolve(&loaded.catalogue, &loaded.scenario, &loaded.scenario.riders[0]).unwrap();
    let count = |id: &String| KIT.iter().find(|(own, _)| own == id).map_or(0, |(_, n)| *n);
    let counts: Vec<u32> = instance.items.iter().map(|item| count(&item.id)).collect();
    assert_eq!(counts.iter().filter(|n| **n > 0).count(), KIT.len(), "every thing of the kit is in the case");
    (instance, counts)
}

/// As the program for the bags alone leaves it.
fn as_solved(instance: &Instance, counts: &[u32]) -> Placement {
    let (model, columns) = model(instance, counts);
    let answer = fardel_milp::solve(&model, &SolveOptions { gap: GAP, ..SolveOptions::default() }).unwrap();
    columns.placement(instance, &answer)
}

fn counted(instance: &Instance, placement: &Placement) -> Vec<u32> {
    let of = |item: usize| placement.iter().flatten().filter(|(own, _)| *own == item).map(|(_, n)| *n).sum();
    (0..instance.items.len()).map(of).collect()
}

/// Bags in which the things of a set are.
fn bags_of(instance: &Instance, placement: &Placement, set: &str) -> usize {
    let set = instance.sets.iter().find(|own| own.name == set).unwrap();
    let has = |bag: &&Vec<(usize, u32)>| bag.iter().any(|(item, _)| set.items[0].contains(item));
    placement.iter().filter(has).count()
}

#[test]
fn an_exchange_keeps_every_unit_and_every_rule() {
    let (instance, counts) = loop_trip();
    let after = exchange(&instance, as_solved(&instance, &counts));
    assert_eq!(counted(&instance, &after), counts);
    let mut bags = Bags::new(&instance, false);
    for (bag, units) in after.iter().enumerate() {
        for (item, count) in units {
            for _ in 0..*count {
                assert!(bags.takes(*item, bag), "{} in {}", instance.items[*item].id, instance.bags[bag].id);
                bags.put(*item, bag);
            }
        }
    }
}

#[test]
fn an_exchange_gains_and_then_rests() {
    let (instance, counts) = loop_trip();
    let before = as_solved(&instance, &counts);
    let after = exchange(&instance, before.clone());
    assert!(how_disliked(&instance, &after) < how_disliked(&instance, &before) - 0.5);
    assert_eq!(exchange(&instance, after.clone()), after);
    for set in ["stove, pot and fuel", "sleeping bag and mat", "papers and money"] {
        assert_eq!(bags_of(&instance, &after, set), 1, "{set}");
    }
}

/// What things, bags and riders are called is nothing to the exchange.
#[test]
fn other_names_change_nothing() {
    let (instance, counts) = loop_trip();
    let before = as_solved(&instance, &counts);
    let mut other = instance.clone();
    for (at, item) in other.items.iter_mut().enumerate() {
        item.id = format!("thing {}", 1000 - at);
        item.name.clone_from(&item.id);
    }
    other.bags.iter_mut().enumerate().for_each(|(at, bag)| bag.id = format!("bag {}", 100 - at));
    other.sets.iter_mut().enumerate().for_each(|(at, set)| set.name = format!("set {}", 100 - at));
    assert_eq!(exchange(&other, before.clone()), exchange(&instance, before));
}

/// Petrol is not smelt in the night.
#[test]
fn the_siphon_never_shares_a_bag_with_the_sleeping_bag() {
    let (instance, counts) = loop_trip();
    let kind = |item: usize| instance.items[item].kind;
    for placement in [together(&instance, as_solved(&instance, &counts)), at_once(&instance, &counts).unwrap()] {
        for bag in &placement {
            let siphon = bag.iter().any(|(item, _)| instance.items[*item].id == "siphon-hose");
            assert!(!siphon || bag.iter().all(|(item, _)| kind(*item) != crate::domain::Kind::Sleep));
        }
    }
}
