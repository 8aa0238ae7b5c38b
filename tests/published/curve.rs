//! Curves through published optima, and through those that dynamic programming finds.

use super::knapsack::{Knapsack, PB4, WEING1};
use super::spares::{nine_parts, spares};
use crate::support::{World, close, fardel};
use fardel::milp::Engine;
use serde_json::Value;

/// The points of a curve over mass at these limits in grams, with every engine of this build.
fn curves(world: &World, grams: &[u32]) -> Vec<Vec<Value>> {
    let folder = tempfile::tempdir().unwrap();
    world.write(folder.path());
    let limits: Vec<String> = grams.iter().map(|grams| format!("{grams}g")).collect();
    let limits = limits.join(",");
    let of = |engine: &Engine| {
        let arguments = ["tradeoff", "trip.yaml", "--catalogues", "catalogue", "--format", "json", "--at", &limits];
        let arguments: Vec<&str> = arguments.into_iter().chain(["--engine", engine.word()]).collect();
        let answer = fardel(folder.path(), &arguments).json();
        let points = answer["points"].as_array().unwrap().clone();
        assert_eq!(points.len(), grams.len());
        assert!(points.iter().all(|point| point["proven_optimal"] == true));
        points
    };
    Engine::ALL.iter().map(of).collect()
}

fn number(point: &Value, field: &str) -> f64 {
    point[field].as_f64().unwrap()
}

/// Data and results as in the spares tests: P. Enqvist, KTH SF2863 Systems Engineering, home assignment 2, 2021; course
/// report by D. Patkhullaev and M. Axén, 2021, tables 2 to 4. Expected shortage of the exact optimum by budget, and of the
/// greedy kits (part added with the largest fall of shortage per cost) by what they cost; 218 recomputed from the one
/// before it and a Poisson mean of 1.98.
const EXACT: [(u32, f64); 5] = [(0, 6.1040), (100, 3.7755), (150, 3.1970), (350, 1.3376), (500, 0.6319)];
const GREEDY: [(u32, f64); 14] = [
    (20, 5.390_50),
    (31, 5.131_32),
    (52, 4.663_91),
    (64, 4.404_73),
    (78, 4.130_88),
    (98, 3.775_52),
    (143, 3.196_99),
    (218, 2.335_06),
    (248, 2.090_84),
    (323, 1.502_29),
    (345, 1.337_56),
    (365, 1.206_03),
    (386, 1.074_15),
    (431, 0.859_78),
];

#[test]
fn the_spares_curve_passes_through_the_published_optima_and_never_below_the_greedy_kits() {
    let mut budgets: Vec<u32> = EXACT.iter().chain(&GREEDY).map(|(budget, _)| *budget).collect();
    budgets.sort_unstable();
    for points in curves(&spares(&nine_parts(), 8), &budgets) {
        let shortage = |budget: &u32| {
            let point = points.iter().find(|point| point["limit"] == f64::from(*budget)).unwrap();
            6.104 - number(point, "hours_saved")
        };
        for (budget, expected) in &EXACT {
            assert!((shortage(budget) - expected).abs() <= 5e-5, "{budget}: {} not {expected}", shortage(budget));
        }
        for (budget, greedy) in &GREEDY {
            assert!(shortage(budget) <= greedy + 1e-5, "{budget}: {} above {greedy}", shortage(budget));
        }
    }
}

/// The best profit for every mass up to the cap, volume kept, item by item.
fn by_dynamic_programming(problem: &Knapsack) -> Vec<u32> {
    let (masses, volumes) = (problem.caps.0 as usize, problem.caps.1 as usize);
    let mut best = vec![vec![0_u32; volumes + 1]; masses + 1];
    for (j, profit) in problem.profits.iter().enumerate() {
        let (mass, volume) = (problem.masses[j] as usize, problem.volumes[j] as usize);
        for m in (mass..=masses).rev() {
            for v in (volume..=volumes).rev() {
                best[m][v] = best[m][v].max(best[m - mass][v - volume] + profit);
            }
        }
    }
    best.into_iter().map(|row| row[volumes]).collect()
}

#[test]
fn every_point_of_a_knapsack_curve_is_the_optimum_of_dynamic_programming() {
    for problem in [&WEING1, &PB4] {
        let best = by_dynamic_programming(problem);
        // The published optimum stands at the end.
        close(f64::from(best[problem.caps.0 as usize]), problem.optimum, 0.0);
        let limits: Vec<u32> = (0..=8).map(|k| problem.caps.0 * k / 8).collect();
        let world = World { kit_mass_g: None, ..super::knapsack::world(problem) };
        for points in curves(&world, &limits) {
            for (limit, point) in limits.iter().zip(points) {
                close(number(&point, "hours_saved"), f64::from(best[*limit as usize]), 1e-9);
            }
        }
    }
}
