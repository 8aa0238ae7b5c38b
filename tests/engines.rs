//! Engines agree, and so do the two ways to the same optimum.

use crate::support::{close, pack_with, shipped};
use fardel::answer::joint;
use fardel::engine::{Effort, Engine};
use fardel::resolve::resolve;
use fardel::risk::assess;

const SHIPPED: [&str; 4] = ["day-ride.yaml", "five-day-loop.yaml", "high-country-week.yaml", "two-up-road.yaml"];

#[test]
fn every_shipped_scenario_is_proven_optimal_on_every_engine() {
    for name in SHIPPED {
        let loaded = shipped(name);
        let mut first = None;
        for engine in Engine::ALL {
            let answer =
                pack_with(&loaded, *engine).unwrap_or_else(|error| panic!("{name}, {}: {error}", engine.word()));
            assert!(answer.proof.proven, "{name}, {}", engine.word());
            close(answer.proof.objective, *first.get_or_insert(answer.proof.objective), 1e-6);
        }
    }
}

/// The joint model decides items and bags at once; its optimum is that of select and stow. Slow in pure Rust, so the
/// smallest shipped scenario stands for all; the benchmark times the others.
#[test]
fn the_joint_model_has_the_same_optimum() {
    let loaded = shipped("day-ride.yaml");
    let case = resolve(&loaded.catalogue, &loaded.scenario, &loaded.scenario.riders[0]).unwrap();
    let (choice, _) = joint::solve(&case, &assess(&case), &Effort::default()).unwrap();
    let answer = pack_with(&loaded, Engine::Microlp).unwrap();
    close(choice.objective, answer.proof.objective, 1e-6);
}
