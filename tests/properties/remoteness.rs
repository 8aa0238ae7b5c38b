//! The further from help, the more a missing tool costs. Common practice, no source.

use crate::support::{Failure, Item, Repair, World, load, pack_with, shipped};
use fardel::milp::Engine;
use fardel::units::Hours;
use fastrand::Rng;

/// On a shipped trip without caps: hours to help times 1, 2, 4.
#[test]
fn coverage_and_mass_do_not_fall_on_the_five_day_loop() {
    let mut loaded = shipped("five-day-loop.yaml");
    loaded.scenario.limits = fardel::domain::Limits::default();
    let base = loaded.scenario.clone();
    let (mut coverage, mut mass) = (0.0, fardel::units::Mass::ZERO);
    for factor in [0.5, 1.0, 2.0, 4.0] {
        loaded.scenario = base.clone();
        for leg in &mut loaded.scenario.trip.legs {
            leg.hours_to_help = Hours::new(leg.hours_to_help.get() * factor);
        }
        let answer = pack_with(&loaded, Engine::Microlp).unwrap();
        assert!(answer.figures.coverage >= coverage - 1e-9, "factor {factor}");
        assert!(answer.totals.mass >= mass, "factor {factor}: {:?} after {mass:?}", answer.totals.mass);
        (coverage, mass) = (answer.figures.coverage, answer.totals.mass);
    }
}

/// Random worlds with one repair for each failure and one item for each function, no caps: there the best kit can only
/// grow (it is a closure in a growing profit), and coverage with it.
#[test]
fn kits_grow_with_the_distance_from_help() {
    for seed in 0..40 {
        let mut random = Rng::with_seed(seed);
        let mut world = World { falls: 6.0, ..World::new() };
        for i in 0..8 {
            let provides = vec![(format!("tool {i}"), 1)];
            let mass_g = random.u32(50..4000);
            world.items.push(Item {
                id: format!("item-{i}"),
                mass_g,
                volume_ml: 1,
                at_most: 1,
                provides,
                ..Item::default()
            });
        }
        for f in 0..6 {
            let needs = (0..8).filter(|_| random.u8(0..4) == 0).map(|i| (format!("tool {i}"), 1)).collect();
            let restores = f64::from(random.u32(4..=10)) / 10.0;
            let repair = Repair { needs, restores, time_min: f64::from(random.u32(5..120)), ..Repair::default() };
            world.failures.push(Failure {
                id: format!("failure-{f}"),
                mean: random.f64() * 0.2,
                repairs: vec![repair],
                ..Failure::default()
            });
        }
        let (mut coverage, mut mass) = (0.0, fardel::units::Mass::ZERO);
        for hours in [0.5, 1.0, 2.0, 4.0, 8.0, 16.0, 64.0] {
            world.hours_to_help = hours;
            let answer = pack_with(&load(&world), Engine::Microlp).unwrap();
            assert!(answer.figures.coverage >= coverage - 1e-9, "seed {seed}, {hours} h");
            assert!(answer.totals.mass >= mass, "seed {seed}, {hours} h");
            (coverage, mass) = (answer.figures.coverage, answer.totals.mass);
        }
    }
}
