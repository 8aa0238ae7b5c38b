//! What is asked of the program for any bytes at all. The fuzzer calls these with what it makes up, the test suite with
//! the files in `tests/fuzz/corpus` and small changes of them.
//!
//! Each function takes the bytes of one file and panics where the program is wrong; a file that is refused with proper
//! faults is right.

#![allow(clippy::must_use_candidate, missing_docs, reason = "functions that pass or panic")]

mod faults;
mod files;
mod names;
mod quantities;
mod routes;
mod trip;

use fardel::domain::Catalogue;
use fardel::load::{self, Source};
use std::sync::OnceLock;

/// One target.
pub type Target = fn(&[u8]);

/// Every target, by the name of its corpus and of its dictionary.
pub const TARGETS: [(&str, Target); 9] = [
    ("catalogue", files::catalogue),
    ("extract", routes::extract),
    ("gear_csv", files::gear_csv),
    ("kit_json", files::kit_json),
    ("ride_log", files::ride_log),
    ("scenario", trip::scenario),
    ("template", names::template),
    ("track", routes::track),
    ("units", quantities::units),
];

/// Runs the target of this name.
pub fn run(name: &str, bytes: &[u8]) {
    let target = TARGETS.iter().find(|(known, _)| *known == name);
    target.unwrap_or_else(|| panic!("no target `{name}`")).1(bytes);
}

/// A world small enough for thousands of runs a second.
const WORLD: &str = include_str!("../../cli/tiny/catalogue/world.yaml");
/// Bytes of a file that one run is given at most; larger ones only take longer to say the same.
const LONGEST: usize = 64 << 10;

fn source(name: &str, text: &str) -> Source {
    Source { name: name.to_owned(), text: text.to_owned() }
}

/// The bytes as text, as reading a file would have it; bytes that are no text never get any further.
fn text(bytes: &[u8]) -> Option<&str> {
    std::str::from_utf8(bytes).ok().filter(|text| text.len() <= LONGEST)
}

fn world() -> &'static Catalogue {
    static WORLD_READ: OnceLock<Catalogue> = OnceLock::new();
    WORLD_READ.get_or_init(|| load::catalogue(&[source("world.yaml", WORLD)], &[]).unwrap_or_else(|f| panic!("{f}")))
}
