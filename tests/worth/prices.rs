//! Prices do what they say: by enumeration, by monotony, and term by term.

use super::PRICES;
use crate::support::{World, load, pack_with};
use fardel::answer::PackAnswer;
use fardel::milp::Engine;

fn priced(seed: u64, prices: &str) -> PackAnswer {
    let world = World { rest: PRICES, kit_mass_g: None, budget: None, ..crate::properties::tiny_world(seed) };
    let mut text = world.scenario();
    text += prices;
    let catalogue = fardel::load::Source { name: "world.yaml".to_owned(), text: world.catalogue() };
    let scenario = fardel::load::Source { name: "trip.yaml".to_owned(), text };
    let loaded = fardel::load::load_texts(&[catalogue], scenario, &|_| unreachable!("no extras"));
    pack_with(&loaded.unwrap_or_else(|faults| panic!("{faults}")), Engine::Microlp).expect("a kit")
}

/// The world's leg is 1,000 km of rough at 20 km/h, all of it work: 50 h. Bike, rider and bags come to 180 kg and 1 kg a bag.
#[test]
fn a_kilogram_stretches_hard_riding_in_proportion() {
    let answer = priced(1, "");
    assert!((answer.prices.kilogram.riding - 50.0 / 182.0).abs() < 1e-12, "{:?}", answer.prices);
    let mass = answer.totals.mass.kilograms();
    assert!((answer.figures.terms.riding - mass * 50.0 / 182.0).abs() < 1e-9);
    assert!((answer.figures.terms.packing - f64::from(answer.totals.units) * 0.5 / 60.0).abs() < 1e-9);
}

#[test]
fn a_higher_price_of_weight_never_makes_a_heavier_kit() {
    for seed in 0..60 {
        let mut last: Option<PackAnswer> = None;
        for weight in ["0", "0.2", "1", "3", "10"] {
            let now = priced(seed, &format!("prices: {{ weight: {weight} }}\n"));
            if let Some(before) = last.filter(|before| before.proof.proven && now.proof.proven) {
                let heavier = now.totals.mass.grams() - before.totals.mass.grams();
                assert!(heavier <= 0.0, "seed {seed}: at {weight} {heavier} g heavier");
            }
            last = Some(now);
        }
    }
}

#[test]
fn a_higher_price_of_things_never_makes_more_of_them() {
    for seed in 0..60 {
        let mut last = u32::MAX;
        for thing in ["0", "1", "10", "60"] {
            let now = priced(seed, &format!("prices: {{ thing: {thing} min }}\n")).totals.units;
            assert!(now <= last, "seed {seed}: {now} things after {last}");
            last = now;
        }
    }
}

/// The further help is, the more of what could be lost is saved.
#[test]
fn further_from_help_nobody_is_worse_equipped() {
    for seed in 0..60 {
        let mut last = 0.0;
        for help in [2.0, 6.0, 20.0] {
            let base = crate::properties::tiny_world(seed);
            let mut world = World { rest: PRICES, kit_mass_g: None, budget: None, hours_to_help: help, ..base };
            for failure in &mut world.failures {
                failure.nags_h = None;
                failure.repairs.iter_mut().for_each(|repair| repair.time_min = 0.0);
            }
            let answer = pack_with(&load(&world), Engine::Microlp).expect("a kit");
            let coverage = answer.figures.coverage;
            assert!(coverage >= last - 1e-9, "seed {seed}, {help} h: {coverage} after {last}");
            last = coverage;
        }
    }
}
