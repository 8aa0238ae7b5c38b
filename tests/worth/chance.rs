//! A limit on the chance of a stranding.

use crate::support::{Failure, Item, Repair, World, close, load, pack_with, shipped};
use fardel::answer::PackError;
use fardel::milp::Engine;

/// One stop a trip in ten, mended by a heavy tool that earns nothing by its hours.
fn world() -> World {
    let repair = Repair { needs: vec![("weld".to_owned(), 1)], time_min: 59.0, restores: 1.0, ..Repair::default() };
    World {
        items: vec![Item {
            id: "welder".to_owned(),
            mass_g: 9000,
            volume_ml: 100,
            price: 0,
            at_most: 1,
            provides: vec![("weld".to_owned(), 1)],
            ..Item::default()
        }],
        failures: vec![Failure { id: "frame".to_owned(), mean: 0.1, repairs: vec![repair], ..Failure::default() }],
        falls: 3.0,
        ..World::new()
    }
}

#[test]
fn what_hours_do_not_buy_a_limit_on_strandings_does() {
    let mut loaded = load(&world());
    let free = pack_with(&loaded, Engine::Microlp).unwrap();
    assert_eq!(free.totals.units, 0);
    // By hand: one stop in ten trips on average.
    close(free.figures.home.bound, (-0.1_f64).exp(), 1e-12);
    loaded.scenario.limits.stranded = Some(0.05);
    let safe = pack_with(&loaded, Engine::Microlp).unwrap();
    assert_eq!(safe.totals.units, 1);
    assert!(safe.proof.objective < free.proof.objective);
}

/// `exp(-0.1)` is a chance of 0.0952 of being stranded: allowed, the tool stays at home.
#[test]
fn a_limit_that_holds_anyway_changes_nothing() {
    let mut loaded = load(&world());
    loaded.scenario.limits.stranded = Some(0.0953);
    assert_eq!(pack_with(&loaded, Engine::Microlp).unwrap().totals.units, 0);
}

#[test]
fn a_limit_that_no_kit_keeps_is_named_with_the_best_there_is() {
    let mut loaded = load(&World { items: Vec::new(), ..world() });
    loaded.scenario.limits.stranded = Some(0.05);
    let Err(PackError::Infeasible { shortfalls, .. }) = pack_with(&loaded, Engine::Microlp) else {
        panic!("a kit without any tool")
    };
    assert_eq!(shortfalls.len(), 1);
    assert_eq!(shortfalls[0].family, "stranded");
    close(shortfalls[0].by + shortfalls[0].limit, 1.0 - (-0.1_f64).exp(), 1e-9);
}

/// A tighter limit costs hours and saves strandings, as they are ridden, on the shipped loop.
#[test]
fn fewer_strandings_are_allowed_and_fewer_happen() {
    let mut loaded = shipped("five-day-loop.yaml");
    (loaded.scenario.limits.kit_mass, loaded.scenario.limits.budget) = (None, None);
    let free = pack_with(&loaded, Engine::Microlp).unwrap();
    let stranded = 1.0 - free.figures.home.chance();
    loaded.scenario.limits.stranded = Some(stranded * 0.8);
    let safe = pack_with(&loaded, Engine::Microlp).unwrap();
    assert!(safe.proof.objective < free.proof.objective);
    let ridden = safe.figures.home.ridden.expect("a trip on which little breaks");
    let allowed = stranded * 0.8;
    assert!(1.0 - ridden.mean <= allowed * 1.1 + 4.0 * ridden.error, "{ridden:?} where {allowed} is allowed");
}
