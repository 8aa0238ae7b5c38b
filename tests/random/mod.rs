//! Random worlds and random trips, from their files to a verified kit, with every engine built in.
//!
//! Nothing may panic, no engine may be left without an answer by a fault of its own, no answer may fail verification, and
//! what two engines prove has to be the same. `FARDEL_SEEDS=0..10000 cargo test --release random` runs other seeds than
//! the first few. A failing case is made smaller, and its files are left where the message says.

mod odd;
mod trips;
mod worlds;

use crate::support::{World, pack_with_options};
use fardel::answer::PackError;
use fardel::domain::Catalogue;
use fardel::load::{Loaded, Source, load_texts, shipped};
use fardel::milp::{Engine, SolveOptions};
use proptest::prelude::*;
use proptest::test_runner::{Config, RngAlgorithm, TestCaseResult, TestError, TestRng, TestRunner};
use rayon::prelude::*;
use std::collections::BTreeMap;
use std::ops::Range;
use std::path::Path;
use std::sync::{LazyLock, Mutex};
use std::time::Duration;

/// Without a wish in the environment.
const SEEDS: Range<u64> = 0..120;
/// One seed in so many is a trip with the shipped catalogue.
const SHIPPED_EVERY: u64 = 50;
/// A solver that has not ended by then is counted, not waited for.
const LIMIT: Duration = Duration::from_secs(4);

/// How a case ended, and how often.
type Tally = BTreeMap<String, u64>;

#[test]
fn random_scenarios_pack() {
    let seeds = crate::support::seeds("FARDEL_SEEDS", SEEDS);
    let tally = Mutex::new(Tally::new());
    let failed: Vec<String> = seeds.clone().into_par_iter().filter_map(|seed| try_seed(seed, &tally).err()).collect();
    let tally = tally.into_inner().expect("nobody panicked with it");
    println!("seeds {seeds:?}: {tally:#?}");
    assert!(failed.is_empty(), "{} failed:\n{}", failed.len(), failed.join("\n\n"));
    let ended = |how: &str| tally.iter().filter(|(name, _)| name.contains(how)).map(|(_, n)| n).sum::<u64>();
    assert!(ended("proven") > ended("refused"), "most of what is drawn has to be worth packing: {tally:?}");
}

/// Cases that once failed, made small: rungs of a ladder too low for a solver's presolve, things of the always list that
/// fit no bag or are useless without a thing that fits none.
#[test]
fn cases_that_once_failed_pack() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/random/found");
    let cases = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let tally = Mutex::new(Tally::new());
    for instance in cases {
        let read = |name: &str| std::fs::read_to_string(instance.join(name)).unwrap();
        let catalogue = [Source { name: "world.yaml".to_owned(), text: read("world.yaml") }];
        let ended = from_files(&catalogue, read("trip.yaml"), "found", &tally);
        ended.unwrap_or_else(|error| panic!("{}: {error}", instance.display()));
    }
    let tally = tally.into_inner().unwrap();
    assert!(
        tally.keys().all(|how| ["proven", "no kit", "a solver failed"].iter().any(|end| how.contains(end))),
        "{tally:?}"
    );
}

/// Draws what the seed says, tries it, and makes it smaller if it fails.
fn try_seed(seed: u64, tally: &Mutex<Tally>) -> Result<(), String> {
    if seed.is_multiple_of(SHIPPED_EVERY) {
        let trip = trips::trip(&SHIPPED.1);
        return drawn(seed, &trip, |trip| from_files(&SHIPPED.0, trip.text(), "shipped", tally))
            .map_err(|(why, trip)| kept(seed, &why, &[("trip.yaml", trip.text())]));
    }
    let one = |world: &World| [Source { name: "world.yaml".to_owned(), text: world.catalogue() }];
    drawn(seed, &worlds::world(), |world| from_files(&one(world), world.scenario(), "world", tally)).map_err(
        |(why, world)| {
            kept(seed, &why, &[("catalogue/world.yaml", world.catalogue()), ("trip.yaml", world.scenario())])
        },
    )
}

fn from_files(catalogue: &[Source], scenario: String, what: &str, tally: &Mutex<Tally>) -> TestCaseResult {
    let scenario = Source { name: "trip.yaml".to_owned(), text: scenario };
    match load_texts(catalogue, scenario, &|_| unreachable!("no extras")) {
        Ok(loaded) => pack_everywhere(&loaded, what, tally),
        Err(faults) => {
            prop_assert!(!faults.0.is_empty(), "refused without a fault");
            let first = faults.0[0].to_string();
            count(tally, format!("{what}: refused, {}", first.lines().next().unwrap_or_default()));
            Ok(())
        }
    }
}

fn drawn<S: Strategy>(
    seed: u64,
    strategy: &S,
    test: impl Fn(&S::Value) -> TestCaseResult,
) -> Result<(), (String, S::Value)> {
    let mut bytes = [0; 32];
    bytes[..8].copy_from_slice(&seed.to_le_bytes());
    let config = Config {
        cases: 1,
        failure_persistence: None,
        max_shrink_iters: 300,
        max_shrink_time: 120_000,
        ..Config::default()
    };
    let mut runner = TestRunner::new_with_rng(config, TestRng::from_seed(RngAlgorithm::ChaCha, &bytes));
    match runner.run(strategy, |value| test(&value)) {
        Ok(()) => Ok(()),
        Err(TestError::Fail(why, value)) => Err((why.to_string(), value)),
        Err(TestError::Abort(why)) => panic!("seed {seed}: {why}"),
    }
}

/// The files of a failing case, and what to say of it.
fn kept(seed: u64, why: &str, files: &[(&str, String)]) -> String {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("random-{seed}"));
    for (name, text) in files {
        let path = folder.join(name);
        std::fs::create_dir_all(path.parent().expect("a folder")).expect("a folder can be made");
        std::fs::write(path, text).expect("a file can be written");
    }
    format!("seed {seed}, in {}: {why}", folder.display())
}

fn count(tally: &Mutex<Tally>, how: String) {
    *tally.lock().expect("nobody panicked with it").entry(how).or_default() += 1;
}

/// What an engine says of a case.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Said {
    Proven(f64),
    Found(f64),
    NoKit,
    Nothing,
}

fn pack_everywhere(loaded: &Loaded, what: &str, tally: &Mutex<Tally>) -> TestCaseResult {
    let mut all: Vec<Said> = Vec::new();
    for engine in Engine::ALL {
        let options = SolveOptions { engine: *engine, time_limit: Some(LIMIT), ..SolveOptions::default() };
        let (said, how) = match pack_with_options(loaded, &options) {
            Ok(answer) => {
                if answer.warnings.iter().any(|warning| warning.contains("solver failed")) {
                    count(tally, format!("{what}, {}: a solver failed on the way", engine.word()));
                }
                let objective = answer.proof.objective;
                prop_assert!(objective.is_finite(), "objective {objective}");
                if answer.proof.proven {
                    (Said::Proven(objective), "proven")
                } else {
                    (Said::Found(objective), "not proven")
                }
            }
            Err(PackError::Infeasible { .. }) => (Said::NoKit, "no kit"),
            Err(PackError::OutOfTime) => (Said::Nothing, "out of time"),
            Err(error) => return Err(TestCaseError::fail(format!("{}: {error:?}", engine.word()))),
        };
        count(tally, format!("{what}, {}: {how}", engine.word()));
        all.push(said);
    }
    for (one, other) in all.iter().flat_map(|one| all.iter().map(move |other| (*one, *other))) {
        prop_assert!(agree(one, other), "engines disagree: {all:?}");
    }
    Ok(())
}

/// What is proven by one engine is not beaten by the other, and equalled if that has a proof as well.
fn agree(one: Said, other: Said) -> bool {
    match (one, other) {
        (Said::Proven(best), Said::Proven(too)) => (best - too).abs() <= 1e-6 * best.abs().max(1.0),
        (Said::Proven(best), Said::Found(found)) => found <= best + 1e-6 * best.abs().max(1.0),
        (Said::NoKit, Said::Proven(_) | Said::Found(_)) => false,
        _ => true,
    }
}

/// The shipped catalogue, as texts and read.
static SHIPPED: LazyLock<(Vec<Source>, Catalogue)> = LazyLock::new(|| {
    let sources = shipped();
    let catalogue = fardel::load::catalogue(&sources, &[]).unwrap_or_else(|faults| panic!("{faults}"));
    (sources, catalogue)
});
