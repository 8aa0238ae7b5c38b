//! Odd trips with the shipped catalogue, alone and in groups: an answer within the time that a rider waits, or a proof that
//! there is none.
//!
//! It goes by the clock, so it is a test of a release build with nothing else running:
//! `FARDEL_TRIPS=0..2000 cargo test --release odd_trips -- --ignored --nocapture` tries other seeds than the first few and names the
//! slowest. With `FARDEL_TRIPS_TO` set to a folder their scenarios are written there instead, to be tried with the program.

use super::{SHIPPED, count, drawn, kept, trips};
use fardel::answer::split::{Demands, split};
use fardel::answer::{PackError, pack};
use fardel::load::{Source, load_texts};
use fardel::milp::SolveOptions;
use proptest::prelude::*;
use proptest::test_runner::TestCaseResult;
use rayon::prelude::*;
use std::collections::BTreeMap;
use std::ops::Range;
use std::sync::Mutex;
use std::time::{Duration, Instant};

/// Without a wish in the environment.
const TRIPS: Range<u64> = 0..8;
/// One seed in so many is a group; of the groups every other must do without any one rider.
const GROUP_EVERY: u64 = 4;
/// What has no answer by then is too slow.
const LIMIT: Duration = Duration::from_secs(20);
/// The share of the hours that must still be saved when one of a group leaves.
const FLOOR: f64 = 0.6;
/// How many of the slowest are named.
const NAMED: usize = 8;

/// How often each ending came, and how long each seed took.
#[derive(Default)]
struct Ended {
    tally: Mutex<BTreeMap<String, u64>>,
    seconds: Mutex<Vec<(f64, u64)>>,
}

#[test]
#[ignore = "goes by the clock: in a release build, with nothing else running"]
fn odd_trips_with_the_shipped_catalogue() {
    let seeds = crate::support::seeds("FARDEL_TRIPS", TRIPS);
    let ended = Ended::default();
    let failed: Vec<String> = seeds.clone().into_par_iter().filter_map(|seed| tried(seed, &ended).err()).collect();
    let mut slowest = ended.seconds.into_inner().expect("nobody panicked with it");
    slowest.sort_by(|one, other| other.0.total_cmp(&one.0));
    slowest.truncate(NAMED);
    println!("trips {seeds:?}: {:#?}\nslowest (s, seed): {slowest:.2?}", ended.tally);
    assert!(failed.is_empty(), "{} failed:\n{}", failed.len(), failed.join("\n\n"));
}

fn tried(seed: u64, ended: &Ended) -> Result<(), String> {
    let group = seed.is_multiple_of(GROUP_EVERY);
    let floor = (group && seed.is_multiple_of(2 * GROUP_EVERY)).then_some(FLOOR);
    let told = |(why, trip): (String, trips::Trip)| kept(seed, &why, &[("trip.yaml", trip.text())]);
    let test = |trip: &trips::Trip| match std::env::var_os("FARDEL_TRIPS_TO") {
        Some(folder) => {
            let folder = std::path::Path::new(&folder);
            let word = if group { "group" } else { "single" };
            std::fs::write(folder.join(format!("{word}-{seed:05}.yaml")), trip.text()).expect("the folder is there");
            Ok(())
        }
        None => answered(seed, &trip.text(), floor, ended),
    };
    if group {
        drawn(seed, &trips::group(&SHIPPED.1), test).map_err(told)
    } else {
        drawn(seed, &trips::trip(&SHIPPED.1), test).map_err(told)
    }
}

/// Packs for one rider, splits for several.
fn answered(seed: u64, text: &str, floor: Option<f64>, ended: &Ended) -> TestCaseResult {
    let scenario = Source { name: "trip.yaml".to_owned(), text: text.to_owned() };
    let loaded = match load_texts(&SHIPPED.0, scenario, &|_| unreachable!("no extras")) {
        Ok(loaded) => loaded,
        Err(faults) => {
            count(&ended.tally, format!("refused, {}", faults.0[0].code.id()));
            return Ok(());
        }
    };
    let options = SolveOptions { time_limit: Some(LIMIT), ..SolveOptions::default() };
    let (catalogue, scenario) = (&loaded.catalogue, &loaded.scenario);
    let started = Instant::now();
    let demands = Demands { keep_if_one_leaves: floor, ..Demands::default() };
    let (what, result) = if let [rider] = scenario.riders.as_slice() {
        ("one rider", pack(catalogue, scenario, rider, &options).map(|answer| answer.proof.proven))
    } else {
        let what = if floor.is_some() { "a group with a floor" } else { "a group" };
        (what, split(catalogue, scenario, &demands, None, &options).map(|answer| answer.proof.proven))
    };
    ended.seconds.lock().expect("nobody panicked with it").push((started.elapsed().as_secs_f64(), seed));
    let how = match result {
        Ok(true) => "proven",
        Ok(false) => "not proven",
        Err(PackError::Infeasible { .. }) => "no kit",
        Err(PackError::OutOfTime) => return Err(TestCaseError::fail(format!("no answer within {LIMIT:?}"))),
        Err(error) => return Err(TestCaseError::fail(format!("{error:?}"))),
    };
    count(&ended.tally, format!("{what}: {how}"));
    Ok(())
}
