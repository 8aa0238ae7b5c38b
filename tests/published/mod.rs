//! The main job against numbers from outside this project. The source stands beside each check.

mod curve;
mod knapsack;
mod set_union;
mod spares;

use crate::support::{World, fardel};
use serde_json::Value;

/// Packs a world through files and the command line with every engine of this build; gives the JSON of each.
fn packed(world: &World) -> Vec<Value> {
    let folder = tempfile::tempdir().unwrap();
    world.write(folder.path());
    fardel::milp::Engine::ALL
        .iter()
        .map(|engine| {
            let arguments =
                ["pack", "trip.yaml", "--catalogues", "catalogue", "--format", "json", "--engine", engine.word()];
            let answer = fardel(folder.path(), &arguments).json();
            assert_eq!(answer["proof"]["proven_optimal"], true, "{}", engine.word());
            answer
        })
        .collect()
}

fn figure(answer: &Value, name: &str) -> f64 {
    answer["figures"][name].as_f64().unwrap()
}
