//! Small worlds of any shape, their numbers now and then at the edge of what the files allow.

use crate::support::{Failure, Item, Repair, World};
use proptest::prelude::*;

const FUNCTIONS: usize = 6;
const STOCKS: usize = 4;
const ITEMS: usize = 24;

/// Any world.
pub(super) fn world() -> impl Strategy<Value = World> {
    let things = (prop::collection::vec(item(), 1..=ITEMS), prop::collection::vec(failure(), 1..=12));
    let place = (prop::collection::vec(bag(), 1..=4), limits(), hours(), falls());
    let axles = (prop::option::weighted(0.2, 81.5..83.5), prop::option::weighted(0.4, 104.3..107.3));
    let said = (said(), said(), skill());
    (things, place, axles, said).prop_map(
        |((items, failures), (bags, (kit_mass_g, budget), hours, falls), axles, said)| {
            let (always, owns, repair_skill) = said;
            let named = |list: Vec<(usize, u32)>| {
                let there = list.into_iter().filter(|(at, _)| *at < items.len());
                let mut named: Vec<(String, u32)> =
                    there.map(|(at, n)| (format!("item-{at}"), n.min(items[at].at_most))).collect();
                named.sort();
                named.dedup_by(|one, other| one.0 == other.0);
                named
            };
            let (always, owns) = (named(always), named(owns));
            let items =
                items.into_iter().enumerate().map(|(at, item)| Item { id: format!("item-{at}"), ..item }).collect();
            let failures = failures.into_iter().enumerate();
            let failures = failures.map(|(at, failure)| Failure { id: format!("failure-{at}"), ..failure }).collect();
            let bags = bags.into_iter().enumerate();
            let bags = bags.map(|(at, (room, load, extra))| (format!("bag-{at}"), room, load, extra)).collect();
            let (front_axle_kg, rear_axle_kg) = axles;
            World {
                items: with_function(items),
                failures,
                bags,
                kit_mass_g,
                budget,
                hours_to_help: hours,
                repair_skill,
                always,
                owns,
                falls,
                front_axle_kg,
                rear_axle_kg,
                ..World::default()
            }
        },
    )
}

/// Some things require the first function, so it has to exist.
fn with_function(mut items: Vec<Item>) -> Vec<Item> {
    if items[0].provides.iter().all(|(name, _)| name != "function 0") {
        items[0].provides.push(("function 0".to_owned(), 1));
    }
    items
}

fn skill() -> impl Strategy<Value = &'static str> {
    prop_oneof![4 => Just("expert"), 1 => Just("anyone")]
}

/// Things that are named in the scenario, and how many.
fn said() -> impl Strategy<Value = Vec<(usize, u32)>> {
    prop::collection::vec((0..ITEMS, 1..=2_u32), 0..=3)
}

fn limits() -> impl Strategy<Value = (Option<u32>, Option<u32>)> {
    let mass =
        prop_oneof![3 => Just(None), 1 => Just(Some(0)), 1 => Just(Some(1)), 6 => (100..6000_u32).prop_map(Some)];
    let money = prop_oneof![3 => Just(None), 1 => Just(Some(0)), 5 => (1..300_u32).prop_map(Some)];
    (mass, money)
}

fn hours() -> impl Strategy<Value = f64> {
    prop_oneof![8 => 0.5..30.0, 1 => Just(0.001), 1 => Just(500.0)]
}

fn falls() -> impl Strategy<Value = f64> {
    prop_oneof![3 => Just(0.0), 6 => 0.0..5.0, 1 => 100.0..400.0]
}

fn bag() -> impl Strategy<Value = (u32, u32, &'static str)> {
    let extra = prop::sample::select(vec![
        "",
        "    access: quick\n",
        "    weatherproof: false\n",
        "    refuses: [fuel]\n",
        "    ahead: 700 mm\n",
        "    ahead: -300 mm\n",
        "    ahead: 1000 mm\n    access: quick\n",
    ]);
    (prop_oneof![9 => 300..4000_u32, 1 => Just(1)], prop_oneof![9 => 300..5000_u32, 1 => Just(1)], extra)
}

/// What of so many names is mentioned, and how often.
fn some(what: &'static str, of: usize, most: u32, longest: usize) -> impl Strategy<Value = Vec<(String, u32)>> {
    let names: Vec<usize> = (0..of).collect();
    let chosen = prop::sample::subsequence(names, 0..=longest);
    chosen.prop_flat_map(move |chosen| {
        let counts = prop::collection::vec(1..=most, chosen.len());
        counts.prop_map(move |counts| chosen.iter().map(|at| format!("{what} {at}")).zip(counts).collect())
    })
}

fn item() -> impl Strategy<Value = Item> {
    let mass = prop_oneof![20 => 5..900_u32, 1 => Just(1), 1 => 5_000..60_000_u32];
    let volume = prop_oneof![20 => 5..600_u32, 1 => Just(1), 1 => 5_000..90_000_u32];
    let price = prop_oneof![12 => 0..60_u32, 3 => Just(0), 1 => Just(90_000)];
    let at_most = prop_oneof![16 => Just(1), 6 => 2..=4_u32, 1 => 200..=5000_u32];
    let units = prop_oneof![12 => Just(4), 1 => Just(700_u32)].prop_flat_map(|most| some("stock", STOCKS, most, 2));
    let extra = prop::sample::select(vec![
        "",
        "",
        "",
        "",
        "    access: quick\n",
        "    dry: true\n",
        "    requires: [function 0]\n",
    ]);
    let made = (mass, volume, price, at_most, some("function", FUNCTIONS, 2, 3), units, extra);
    made.prop_map(|(mass_g, volume_ml, price, at_most, provides, holds, extra)| Item {
        id: String::new(),
        mass_g,
        volume_ml,
        price,
        at_most,
        provides,
        holds,
        extra: extra.to_owned(),
    })
}

fn repair() -> impl Strategy<Value = Repair> {
    let time = prop_oneof![8 => 0.0..90.0, 1 => Just(0.0), 1 => Just(50_000.0)];
    let restores = prop_oneof![4 => 0.05..1.0, 3 => Just(1.0)];
    (some("function", FUNCTIONS, 3, 3), some("stock", STOCKS, 3, 2), time, restores)
        .prop_map(|(needs, uses, time_min, restores)| Repair { needs, uses, time_min, restores })
}

fn failure() -> impl Strategy<Value = Failure> {
    let mean = prop_oneof![12 => 0.0..1.5, 1 => Just(0.0), 1 => Just(1e-12), 1 => 5.0..60.0, 1 => 1e-7..1e-3];
    let nags =
        prop_oneof![6 => Just(None), 6 => (0.5..6.5).prop_map(Some), 1 => Just(Some(1e-5)), 1 => Just(Some(400.0))];
    let per_fall = prop_oneof![1 => Just(0.0), 2 => 0.0..0.2];
    (mean, nags, per_fall, prop::collection::vec(repair(), 0..=3))
        .prop_map(|(mean, nags_h, per_fall, repairs)| Failure { id: String::new(), mean, nags_h, per_fall, repairs })
}
