//! Small worlds written as files, and the program run on them.

mod program;
mod world;

pub use program::{PATIENCE, Run, fardel, fardel_plain, fardel_unheard, fardel_within, program};
pub use world::{Failure, Item, Repair, World};

use fardel::answer::{PackAnswer, PackError, pack};
use fardel::load::{Loaded, Source};
use fardel::milp::{Engine, SolveOptions};

/// Seeds that a variable of the environment asks for, as `0..10000`, or these.
pub fn seeds(variable: &str, otherwise: std::ops::Range<u64>) -> std::ops::Range<u64> {
    let Ok(text) = std::env::var(variable) else { return otherwise };
    let bounds = text.split_once("..").and_then(|(from, to)| Some(from.parse().ok()?..to.parse().ok()?));
    bounds.unwrap_or_else(|| panic!("{variable} is `{text}`, not as `0..10000`"))
}

/// Commands that are left out where every command is tried in every way: they write through the same functions, but take
/// long, or need files that the tiny world has not. `batch` and `serve` have tests of their own, the others where their
/// answers are.
pub const TRIED_ELSEWHERE: [&str; 10] =
    ["serve", "route", "evidence", "measure-first", "ask", "pool", "class", "batch", "season", "season-jobs"];

/// Loads a world from its texts.
pub fn load(world: &World) -> Loaded {
    let catalogue = Source { name: "world.yaml".to_owned(), text: world.catalogue() };
    let scenario = Source { name: "trip.yaml".to_owned(), text: world.scenario() };
    let loaded = fardel::load::load_texts(&[catalogue], scenario, &|_| unreachable!("no extras"));
    loaded.unwrap_or_else(|faults| panic!("{faults}\n{}\n{}", world.catalogue(), world.scenario()))
}

/// Packs a loaded scenario for its first rider.
pub fn pack_with(loaded: &Loaded, engine: Engine) -> Result<PackAnswer, PackError> {
    pack_with_options(loaded, &SolveOptions { engine, ..SolveOptions::default() })
}

/// Packs a loaded scenario for its first rider, as hard as that.
pub fn pack_with_options(loaded: &Loaded, options: &SolveOptions) -> Result<PackAnswer, PackError> {
    pack(&loaded.catalogue, &loaded.scenario, &loaded.scenario.riders[0], options)
}

/// A shipped scenario with the shipped catalogue.
pub fn shipped(name: &str) -> Loaded {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("scenarios").join(name);
    fardel::load::load(&path, None).unwrap_or_else(|faults| panic!("{faults}"))
}

pub fn close(found: f64, expected: f64, tolerance: f64) {
    let wide = tolerance * expected.abs().max(1.0);
    assert!((found - expected).abs() <= wide, "found {found}, expected {expected} within {wide}");
}
