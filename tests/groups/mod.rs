//! Random groups, from their files to a verified kit for all, with every engine built in: an answer, a proof that there is
//! none, or time that ran out, but never an answer that does not survive checking.
//!
//! `FARDEL_GROUPS=0..3000 cargo test --release groups` draws other seeds than the first few.

mod draw;
mod relations;

use draw::{Drawn, drawn};
use fardel::answer::PackError;
use fardel::answer::split::{Demands, SplitAnswer, split};
use fardel::load::{Loaded, Source, load_texts};
use fardel::milp::{Engine, SolveOptions};
use rayon::prelude::*;
use std::collections::BTreeMap;
use std::ops::Range;
use std::path::Path;
use std::sync::Mutex;
use std::time::Duration;

/// Without a wish in the environment.
const SEEDS: Range<u64> = 0..30;
/// A solver that has not ended by then is counted, not waited for.
const LIMIT: Duration = Duration::from_secs(10);

fn loaded(catalogue: String, scenario: String) -> Result<Loaded, String> {
    let catalogue = Source { name: "world.yaml".to_owned(), text: catalogue };
    let scenario = Source { name: "trip.yaml".to_owned(), text: scenario };
    load_texts(&[catalogue], scenario, &|_| unreachable!("no extras")).map_err(|faults| faults.to_string())
}

fn load_drawn(drawn: &Drawn) -> Result<Loaded, String> {
    loaded(drawn.catalogue.to_string(), drawn.scenario.to_string())
}

fn solve(loaded: &Loaded, engine: Engine, floor: Option<f64>) -> Result<SplitAnswer, PackError> {
    let options = SolveOptions { engine, time_limit: Some(LIMIT), ..SolveOptions::default() };
    let demands = Demands { keep_if_one_leaves: floor, ..Demands::default() };
    split(&loaded.catalogue, &loaded.scenario, &demands, None, &options)
}

/// How a group ended, in a word; an error is one that must not be.
fn ended(result: &Result<SplitAnswer, PackError>) -> Result<&'static str, String> {
    match result {
        Ok(answer) if answer.proof.proven => Ok("proven"),
        Ok(_) => Ok("not proven"),
        Err(PackError::Infeasible { .. }) => Ok("no kit"),
        Err(PackError::OutOfTime) => Ok("out of time"),
        Err(PackError::Unverified { violations, .. }) => Err(format!("{violations:?}")),
        Err(error) => Err(error.to_string()),
    }
}

#[test]
fn random_groups_split() {
    let seeds = crate::support::seeds("FARDEL_GROUPS", SEEDS);
    let tally = Mutex::new(BTreeMap::<String, u64>::new());
    let count = |how: &str| *tally.lock().expect("nobody panicked with it").entry(how.to_owned()).or_default() += 1;
    let failed: Vec<String> = seeds
        .clone()
        .into_par_iter()
        .filter_map(|seed| {
            let drawn = drawn(seed);
            let loaded = match load_drawn(&drawn) {
                Ok(loaded) => loaded,
                Err(faults) => return Some(format!("seed {seed} is refused: {faults}")),
            };
            let floor = seed.is_multiple_of(5).then_some(0.6);
            for engine in Engine::ALL {
                match ended(&solve(&loaded, *engine, floor)) {
                    Ok(how) => count(how),
                    Err(error) => return Some(format!("seed {seed}, {}: {error}", engine.word())),
                }
            }
            None
        })
        .collect();
    let tally = tally.into_inner().expect("nobody panicked with it");
    println!("seeds {seeds:?}: {tally:#?}");
    assert!(failed.is_empty(), "{} failed:\n{}", failed.len(), failed.join("\n\n"));
    let of = |how: &str| tally.get(how).copied().unwrap_or(0);
    assert!(of("proven") * 2 > seeds.end - seeds.start, "most of what is drawn has to be worth splitting: {tally:?}");
}

/// Worlds on which claim and check once differed: things of one sort of bike that are personal, or that a need for fuel
/// takes; a rider's own limit for what stays with its owner; fuel that no container holds.
#[test]
fn groups_that_once_failed_split() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/groups/found");
    let mut worlds: Vec<_> = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    worlds.sort();
    assert!(worlds.len() > 10);
    let failed: Vec<String> = worlds
        .into_par_iter()
        .flat_map_iter(|world| {
            let read = |name: &str| std::fs::read_to_string(world.join(name)).unwrap();
            let loaded = loaded(read("world.yaml"), read("trip.yaml")).unwrap();
            let failed = move |engine: &Engine| {
                let error = ended(&solve(&loaded, *engine, None)).err()?;
                Some(format!("{}, {}: {error}", world.display(), engine.word()))
            };
            Engine::ALL.iter().filter_map(failed).collect::<Vec<_>>()
        })
        .collect();
    assert!(failed.is_empty(), "{}", failed.join("\n"));
}
