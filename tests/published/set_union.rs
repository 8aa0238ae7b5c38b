//! Coverage with every tool needed at once is the set-union knapsack problem (Goldschmidt, Nehme & Yu, Naval Research
//! Logistics 41, 1994, 833-842): tools are elements and weigh, failures are sets and pay when all their tools are
//! there. Small random instances are solved exactly by enumerating the tools. A published one takes minutes to prove, but
//! its best value is found in seconds.

use super::{figure, packed};
use crate::support::{Failure, Item, Repair, World, close, load, pack_with_options};
use fardel::milp::{Engine, SolveOptions};
use std::time::Duration;

/// Instance `sukp_85_100_0.10_0.75` of He, Xie, Wong & Wang, Future Generation Computer Systems 78, 2018, 77-86: capacity;
/// weights of the elements; then for each set its profit and its elements, counted from 0.
const PUBLISHED: &str = include_str!("set_union_85_100.txt");
/// Its optimum: Wei & Hao, arXiv 1903.04966, 2019.
const OPTIMUM: f64 = 12_045.0;

#[test]
fn the_published_optimum_is_found() {
    let mut lines =
        PUBLISHED.lines().map(|line| line.split_whitespace().map(|n| n.parse().unwrap()).collect::<Vec<u32>>());
    let (cap, weights) = (lines.next().unwrap()[0], lines.next().unwrap());
    let sets: Vec<(u32, Vec<usize>)> =
        lines.map(|set| (set[0], set[1..].iter().map(|at| *at as usize).collect())).collect();
    assert_eq!((weights.len(), sets.len()), (100, 85));
    let loaded = load(&world(&weights, &sets, cap));
    // How long it takes says something of the machine only, so a slow one gets more time.
    for engine in Engine::ALL {
        let found = [8, 16, 32, 64, 128].into_iter().any(|seconds| {
            let options = SolveOptions { engine: *engine, time_limit: Some(Duration::from_secs(seconds)), gap: 0.0 };
            let objective = pack_with_options(&loaded, &options).map_or(0.0, |answer| answer.proof.objective);
            assert!(objective <= OPTIMUM * (1.0 + 1e-9), "{objective} is beyond the optimum");
            objective >= OPTIMUM * (1.0 - 1e-9)
        });
        assert!(found, "{}", engine.word());
    }
}

#[test]
fn pack_agrees_with_enumeration() {
    for seed in 0..6 {
        let mut random = fastrand::Rng::with_seed(seed);
        let weights: Vec<u32> = (0..11).map(|_| random.u32(5..60)).collect();
        let sets: Vec<(u32, Vec<usize>)> = (0..14)
            .map(|_| {
                let mut tools: Vec<usize> = (0..11).collect();
                random.shuffle(&mut tools);
                tools.truncate(random.usize(1..5));
                (random.u32(10..200), tools)
            })
            .collect();
        let cap = weights.iter().sum::<u32>() / 2;
        for answer in packed(&world(&weights, &sets, cap)) {
            close(figure(&answer, "hours_saved"), best(&weights, &sets, cap), 1e-9);
        }
    }
}

fn best(weights: &[u32], sets: &[(u32, Vec<usize>)], cap: u32) -> f64 {
    let value = |chosen: u32| -> u32 {
        let there = |tool: &usize| chosen >> tool & 1 == 1;
        sets.iter().filter(|(_, tools)| tools.iter().all(there)).map(|(profit, _)| profit).sum()
    };
    let weight = |chosen: u32| -> u32 { (0..weights.len()).filter(|t| chosen >> t & 1 == 1).map(|t| weights[t]).sum() };
    let kits = (0..1_u32 << weights.len()).filter(|chosen| weight(*chosen) <= cap);
    f64::from(kits.map(value).max().unwrap())
}

fn world(weights: &[u32], sets: &[(u32, Vec<usize>)], cap: u32) -> World {
    let mut world = World { kit_mass_g: Some(cap), ..World::new() };
    for (j, weight) in weights.iter().enumerate() {
        let provides = vec![(format!("tool {j}"), 1)];
        world.items.push(Item {
            id: format!("item-{j}"),
            mass_g: *weight,
            volume_ml: 1,
            at_most: 1,
            provides,
            ..Item::default()
        });
    }
    for (j, (profit, tools)) in sets.iter().enumerate() {
        let needs = tools.iter().map(|tool| (format!("tool {tool}"), 1)).collect();
        world.failures.push(Failure {
            id: format!("failure-{j}"),
            mean: 1.0,
            nags_h: Some(f64::from(*profit)),
            repairs: vec![Repair { needs, restores: 1.0, ..Repair::default() }],
            ..Failure::default()
        });
    }
    world
}
