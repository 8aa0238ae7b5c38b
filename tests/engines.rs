//! Engines agree, and so do the two ways to the same optimum.
//!
//! With `FARDEL_AGREEMENT` set, as CI does, every shipped scenario is packed, trimmed and split with every engine built in;
//! otherwise those that are quickly done. Packing and trimming take the first rider. With one engine built in, its answers
//! are still verified, and proven where this asks for it. Models written for other solvers are compared with one of those
//! in `.ci/reference.py`.

use crate::support::{close, pack_with, shipped};
use fardel::answer::split::{Demands, split};
use fardel::answer::{Wish, joint, trim};
use fardel::load::Loaded;
use fardel::milp::{Engine, SolveOptions};
use fardel::resolve::{Measure, resolve};
use fardel::risk::assess;
use std::time::Duration;

/// The quickest first.
const SHIPPED: [&str; 6] = [
    "day-ride.yaml",
    "two-up-road.yaml",
    "five-day-loop.yaml",
    "high-country-week.yaml",
    "three-to-the-coast.yaml",
    "six-over-the-range.yaml",
];

/// All of them where time is no matter, else the first few.
fn scenarios(few: usize) -> &'static [&'static str] {
    &SHIPPED[..if std::env::var_os("FARDEL_AGREEMENT").is_some() { SHIPPED.len() } else { few }]
}

/// A shipped scenario for its first rider. Nobody of a group can carry and pay alone what the trip asks for, so there the
/// limits of mass and money are lifted.
fn alone(name: &str) -> Loaded {
    let mut loaded = shipped(name);
    if loaded.scenario.riders.len() > 1 {
        loaded.scenario.riders.truncate(1);
        loaded.scenario.riders[0].kit_mass = None;
        (loaded.scenario.limits.kit_mass, loaded.scenario.limits.budget) = (None, None);
    }
    loaded
}

/// Objectives agree to this, relative to their size or to one hour.
const SAME: f64 = 1e-6;

/// What an engine found: the objective, and a bound that is the objective where it is proven.
struct Found {
    engine: Engine,
    objective: f64,
    bound: f64,
}

/// Each within the other's bound; so proven ones are the same.
fn agree(what: &str, found: &[Found]) {
    for (one, other) in found.iter().flat_map(|one| found.iter().map(move |other| (one, other))) {
        let slack = SAME * one.objective.abs().max(1.0);
        assert!(
            other.objective <= one.bound + slack,
            "{what}: {} finds {}, beyond the bound {} of {}",
            other.engine.word(),
            other.objective,
            one.bound,
            one.engine.word()
        );
    }
}

#[test]
fn packing_every_shipped_scenario_is_proven_or_nearly_and_the_same() {
    for name in scenarios(4) {
        let loaded = alone(name);
        let packed = |engine: &Engine| {
            let answer =
                pack_with(&loaded, *engine).unwrap_or_else(|error| panic!("{name}, {}: {error}", engine.word()));
            // Kits may choose each other in turn; then what is left open is told, and it is little.
            assert!(answer.proof.proven || answer.proof.gap < 1e-3, "{name}, {}", engine.word());
            assert!(!answer.warnings.iter().any(|warning| warning.contains("solver failed")), "{name}");
            Found { engine: *engine, objective: answer.proof.objective, bound: answer.proof.bound }
        };
        agree(name, &Engine::ALL.iter().map(packed).collect::<Vec<_>>());
    }
}

/// Nine tenths of the best kit's mass.
#[test]
fn trimming_every_shipped_scenario_is_proven_and_the_same() {
    for name in scenarios(2) {
        let mut loaded = alone(name);
        // A kit with things to spare.
        loaded.catalogue.prices = fardel::domain::Prices::default();
        let rider = &loaded.scenario.riders[0];
        let best = pack_with(&loaded, Engine::Microlp).unwrap();
        #[allow(clippy::cast_possible_truncation, reason = "milligrams of a kit")]
        let target = (best.totals.mass.grams() * 900.0) as i64;
        let wish = Wish { measure: Measure::Mass, target, swap: false, keep: Vec::new() };
        let trimmed = |engine: &Engine| {
            let options = SolveOptions { engine: *engine, ..SolveOptions::default() };
            let answer = trim(&loaded.catalogue, &loaded.scenario, rider, &best.kit, &wish, &options);
            let answer = answer.unwrap_or_else(|error| panic!("{name}, {}: {error}", engine.word()));
            assert!(answer.proven, "{name}, {}", engine.word());
            Found { engine: *engine, objective: answer.net_after.get(), bound: answer.net_after.get() }
        };
        agree(name, &Engine::ALL.iter().map(trimmed).collect::<Vec<_>>());
    }
}

/// A group's kit is not always proven in so short a time: then each engine's bound holds what the other found.
#[test]
fn splitting_every_shipped_scenario_is_the_same_or_within_the_bounds() {
    for name in scenarios(2) {
        let loaded = shipped(name);
        let split = |engine: &Engine| {
            let options = SolveOptions { engine: *engine, time_limit: Some(Duration::from_secs(300)), gap: 0.0 };
            let answer = split(&loaded.catalogue, &loaded.scenario, &Demands::default(), None, &options);
            let proof = answer.unwrap_or_else(|error| panic!("{name}, {}: {error}", engine.word())).proof;
            let bound = if proof.proven { proof.objective } else { proof.bound };
            Found { engine: *engine, objective: proof.objective, bound }
        };
        agree(name, &Engine::ALL.iter().map(split).collect::<Vec<_>>());
    }
}

/// The joint model decides items and bags at once; its optimum is that of select and stow. Slow in pure Rust, so the
/// smallest shipped scenario stands for all; the benchmark times the others.
#[test]
fn the_joint_model_has_the_same_optimum() {
    let loaded = shipped("day-ride.yaml");
    let instance = resolve(&loaded.catalogue, &loaded.scenario, &loaded.scenario.riders[0]).unwrap();
    let (choice, _) = joint::solve(&instance, &assess(&instance), &SolveOptions::default()).unwrap();
    let answer = pack_with(&loaded, Engine::Microlp).unwrap();
    close(choice.objective, answer.proof.objective, 1e-6);
}
