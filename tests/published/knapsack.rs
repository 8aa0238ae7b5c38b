//! Two-constraint knapsacks with published optima: profit is the hours that one failure costs, the two weights are mass
//! and volume.

use super::{figure, packed};
use crate::support::{Failure, Item, Repair, World};

pub(super) struct Knapsack {
    pub profits: &'static [u32],
    pub masses: &'static [u32],
    pub volumes: &'static [u32],
    pub caps: (u32, u32),
    pub optimum: f64,
}

/// OR-Library `mknap2`; Weingartner & Ness, Operations Research 15, 1967, 83-103.
pub(super) const WEING1: Knapsack = Knapsack {
    profits: &[
        1898, 440, 22507, 270, 14148, 3100, 4650, 30800, 615, 4975, 1160, 4225, 510, 11880, 479, 440, 490, 330, 110,
        560, 24355, 2885, 11748, 4550, 750, 3720, 1950, 10500,
    ],
    masses: &[45, 0, 85, 150, 65, 95, 30, 0, 170, 0, 40, 25, 20, 0, 0, 25, 0, 0, 25, 0, 165, 0, 85, 0, 0, 0, 0, 100],
    volumes: &[
        30, 20, 125, 5, 80, 25, 35, 73, 12, 15, 15, 40, 5, 10, 10, 12, 10, 9, 0, 20, 60, 40, 50, 36, 49, 40, 19, 150,
    ],
    caps: (600, 600),
    optimum: 141_278.0,
};

/// OR-Library `mknap2`; Fréville & Plateau, Investigación Operativa 1, 1990, 251-270.
pub(super) const PB4: Knapsack = Knapsack {
    profits: &[
        7074, 5587, 5500, 3450, 367, 4235, 9262, 6155, 32240, 1600, 4500, 6570, 7010, 16020, 8000, 2568, 2365, 4350,
        4975, 29400, 7471, 3840, 3575, 1125, 1790, 2450, 540, 445, 220,
    ],
    masses: &[25, 17, 20, 22, 15, 10, 50, 10, 150, 0, 0, 0, 40, 60, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0],
    volumes: &[0, 0, 0, 0, 0, 2, 5, 6, 40, 2, 6, 10, 13, 30, 15, 5, 5, 10, 15, 91, 24, 15, 15, 5, 10, 15, 10, 10, 10],
    caps: (153, 154),
    optimum: 95168.0,
};

pub(super) fn world(problem: &Knapsack) -> World {
    let mut world = World { kit_mass_g: Some(problem.caps.0), ..World::new() };
    world.bags = vec![("bag".to_owned(), problem.caps.1, 1_000_000, "")];
    for (j, profit) in problem.profits.iter().enumerate() {
        world.items.push(Item {
            id: format!("item-{j}"),
            mass_g: problem.masses[j],
            volume_ml: problem.volumes[j],
            at_most: 1,
            provides: vec![(format!("function {j}"), 1)],
            ..Item::default()
        });
        world.failures.push(Failure {
            id: format!("failure-{j}"),
            mean: 1.0,
            nags_h: Some(f64::from(*profit)),
            repairs: vec![Repair { needs: vec![(format!("function {j}"), 1)], restores: 1.0, ..Repair::default() }],
            ..Failure::default()
        });
    }
    world
}

#[test]
fn pack_returns_the_published_optima() {
    for (name, problem) in [("WEING1", &WEING1), ("PB4", &PB4)] {
        for answer in packed(&world(problem)) {
            let found = figure(&answer, "hours_saved");
            assert!((found - problem.optimum).abs() < 1e-3, "{name}: {found} against {}", problem.optimum);
        }
    }
}
