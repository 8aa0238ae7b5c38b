//! A kit's figures are its own: the same whatever else the catalogue holds, and the same as those of trips ridden out.

use crate::support::{Failure, Item, Repair, World, load};
use fardel::resolve::{Instance, resolve};
use fardel::risk::{assess, value};
use fastrand::Rng;

fn instance(world: &World) -> Instance {
    let loaded = load(world);
    resolve(&loaded.catalogue, &loaded.scenario, &loaded.scenario.riders[0]).expect("the bike is there")
}

/// Adds things that open further repairs, draw on the same stocks, and stand before or after the others.
fn richer(world: &World, random: &mut Rng) -> World {
    let mut rich = world.clone();
    for at in 0..3 {
        let item = Item {
            id: format!("new-{at}"),
            mass_g: random.u32(10..500),
            volume_ml: 10,
            price: 5,
            at_most: 2,
            provides: vec![(format!("new function {at}"), 1)],
            holds: vec![(format!("stock {}", random.usize(0..3)), random.u32(1..4))],
            ..Item::default()
        };
        let place = random.usize(0..=rich.items.len());
        rich.items.insert(place, item);
    }
    for failure in &mut rich.failures {
        let repair = Repair {
            needs: vec![(format!("new function {}", random.usize(0..3)), 1)],
            uses: vec![(format!("stock {}", random.usize(0..3)), 1)],
            time_min: f64::from(random.u32(0..60)),
            restores: 1.0,
        };
        failure.repairs.push(repair);
    }
    rich
}

#[test]
fn a_kit_is_worth_the_same_whatever_else_could_be_had() {
    for seed in 0..200 {
        let mut random = Rng::with_seed(seed);
        let poor = crate::properties::tiny_world(seed);
        let rich = richer(&poor, &mut random);
        let (poor, rich) = (instance(&poor), instance(&rich));
        let risk_model = (assess(&poor), assess(&rich));
        for _ in 0..5 {
            let kit: Vec<(String, u32)> =
                poor.items.iter().map(|item| (item.id.clone(), random.u32(0..=item.at_most))).collect();
            let counts = |instance: &Instance| -> Vec<u32> {
                let count = |id: &String| kit.iter().find(|(other, _)| other == id).map_or(0, |(_, n)| *n);
                instance.items.iter().map(|item| count(&item.id)).collect()
            };
            let (a, b) =
                (value(&poor, &risk_model.0, &counts(&poor)).terms, value(&rich, &risk_model.1, &counts(&rich)).terms);
            for (a, b) in [(a.saved, b.saved), (a.relief, b.relief), (a.riding, b.riding), (a.falls, b.falls)] {
                assert!((a - b).abs() <= 1e-9 * a.abs().max(1.0), "seed {seed}: {a} against {b} for {kit:?}");
            }
        }
    }
}

/// A stock that two repairs of one failure draw on is there once: with one tube, half of two punctures' worth of demand by
/// the pump and half by cartridges is not all of it. By hand: mean 1, one unit: `1 - exp(-1)` of the occurrences.
#[test]
fn two_repairs_of_one_failure_share_one_stock() {
    let repair = |function: &str, minutes: f64| Repair {
        needs: vec![(function.to_owned(), 1)],
        uses: vec![("tube".to_owned(), 1)],
        time_min: minutes,
        restores: 1.0,
    };
    let tool = |id: &str, function: &str| Item {
        id: id.to_owned(),
        mass_g: 100,
        volume_ml: 10,
        at_most: 1,
        provides: vec![(function.to_owned(), 1)],
        ..Item::default()
    };
    let tube = Item {
        id: "tube".to_owned(),
        mass_g: 100,
        volume_ml: 10,
        at_most: 1,
        holds: vec![("tube".to_owned(), 1)],
        ..Item::default()
    };
    let world = World {
        items: vec![tool("pump", "air by hand"), tool("cartridges", "air from a can"), tube],
        failures: vec![Failure {
            id: "puncture".to_owned(),
            mean: 1.0,
            repairs: vec![repair("air by hand", 30.0), repair("air from a can", 12.0)],
            ..Failure::default()
        }],
        hours_to_help: 10.0,
        ..World::new()
    };
    let instance = instance(&world);
    let found = value(&instance, &assess(&instance), &[1, 1, 1]);
    let met = 1.0 - (-1.0_f64).exp();
    assert!((found.terms.saved - met * (10.0 - 0.2)).abs() < 1e-9, "{}", found.terms.saved);
}
