//! Packing under rates that are drawn: what can be said with a pencil.

use crate::support::{Failure, Item, Repair, World, close, load, pack_with};
use fardel::answer::{Robust, robust};
use fardel::load::Loaded;
use fardel::milp::{Engine, SolveOptions};

/// Room for one of two tools, each of which mends one failure. Ten of each are expected in 1000 km, and the evidence is
/// worth 100 km, so one occurrence: both rates are exponential. Unmended they cost `first` and `second` hours a trip.
fn one_of_two(first: f64, second: f64) -> Loaded {
    let mut world = World { kit_mass_g: Some(100), ..World::new() };
    for (name, hours) in [("one", first), ("two", second)] {
        let function = format!("tool {name}");
        world.items.push(Item {
            id: name.to_owned(),
            mass_g: 100,
            volume_ml: 1,
            at_most: 1,
            provides: vec![(function.clone(), 1)],
            ..Item::default()
        });
        world.failures.push(Failure {
            id: format!("{name} broken"),
            mean: 10.0,
            nags_h: Some(hours / 10.0),
            repairs: vec![Repair { needs: vec![(function, 1)], restores: 1.0, ..Repair::default() }],
            ..Failure::default()
        });
    }
    load(&world)
}

fn drawn(loaded: &Loaded, engine: Engine, draws: u64, seed: u64) -> Robust {
    let kit = pack_with(loaded, engine).unwrap().kit;
    let options = SolveOptions { engine, ..SolveOptions::default() };
    let trip = (&loaded.catalogue, &loaded.scenario, &loaded.scenario.riders[0]);
    robust(trip, &kit, (draws, seed), &options, &|_| ()).unwrap()
}

/// Of two exponential times with rates a and b, the first is the longer with chance b / (a + b): so the tool against the
/// failure that costs three times as much is in three kits of four.
#[test]
fn shares_follow_the_race_of_two_exponentials() {
    let loaded = one_of_two(3.0, 1.0);
    for engine in Engine::ALL {
        let draws = 2000_u32;
        let robust = drawn(&loaded, *engine, u64::from(draws), 1);
        let share = |id: &str| robust.items.iter().find(|item| item.id == id).unwrap().share;
        let error = (0.75 * 0.25 / f64::from(draws)).sqrt();
        // Hours that the nuisances take are drawn too, so it is not three in four to the last digit any more.
        assert!((share("one") - 0.75).abs() < 4.0 * error + 0.08, "{}", share("one"));
        close(share("one") + share("two"), 1.0, 1e-12);
        assert_eq!((robust.draws, robust.unsolved, robust.kits), (2000, 0, 2));
    }
}

/// The mean of what is lost is that of the mean rates, so the plan is the best on average; and what is ridden agrees.
#[test]
fn on_average_the_plan_stands() {
    let robust = drawn(&one_of_two(3.0, 1.0), Engine::default(), 400, 1);
    assert_eq!(robust.best_mean.kit, robust.packed.kit);
    assert!(robust.best_mean.more.is_empty() && robust.best_mean.fewer.is_empty());
    // One hour is lost to the failure that nothing mends; the mean of 200 exponentials is known to 1 in 14.
    assert!((robust.packed.mean.get() - 1.0).abs() < 4.0 / 200_f64.sqrt(), "{:?}", robust.packed.mean);
    assert!((robust.packed.ridden.mean - 1.0).abs() < 4.0 * robust.packed.ridden.error, "{:?}", robust.packed.ridden);
    assert!(robust.packed.worst > robust.packed.mean);
}

#[test]
fn the_draws_follow_from_the_seed() {
    let loaded = one_of_two(2.0, 1.0);
    let with = |seed, threads| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        pool.install(|| drawn(&loaded, Engine::default(), 40, seed))
    };
    assert_eq!(with(1, 1), with(1, 3));
    assert_ne!(with(1, 1), with(2, 1));
}
