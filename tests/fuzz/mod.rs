//! What fuzzing learnt, kept: every file of every corpus, and some hundred small changes of them, always the same ones.
//!
//! The bodies are those that the fuzzer runs (`tests/fuzz/bodies`), the words that changes put in are those of its
//! dictionaries. A file that once broke something stays in its corpus under a name that says what.
//!
//! `tests/fuzz` is a crate of its own for [cargo-fuzz](https://github.com/rust-fuzz/cargo-fuzz) (libFuzzer), which the
//! build of `fardel` does not see; the stable tool chain will do:
//!
//! ```text
//! cargo install cargo-fuzz
//! cargo fuzz run --fuzz-dir tests/fuzz --target-dir target/fuzz --sanitizer none scenario \
//!     target/fuzz/corpus/scenario tests/fuzz/corpus/scenario -- \
//!     -dict=tests/fuzz/dictionaries/scenario.dict -timeout=10 -rss_limit_mb=2048 -max_len=8192 -max_total_time=600
//! ```
//!
//! Of any file this is asked: it is refused with faults that say file, place, found and expected in words that do a
//! terminal no harm, or it is taken, and then what was read can be written and read again as the same; a trip is
//! packed, and the kit keeps every limit by a second reckoning. New files go to the first folder (make it first), which
//! stays out of the repository; the build must stay out of `tests`, where every source is checked. A finding is mended
//! in the program, and its file goes into the corpus. A new target: a body, a line in `TARGETS`, a file in
//! `tests/fuzz/targets`, a dictionary, a corpus of a dozen small files, a `[[bin]]` in `tests/fuzz/Cargo.toml`. All
//! corpora together stay below 200 KB.

mod bodies;

use fastrand::Rng;
use std::fs;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

/// Changed files of each target, one run of the suite; a packed trip takes a hundred times as long as a unit.
const CHANGED: usize = 400;
const CHANGED_TRIPS: usize = 60;
/// Longest that one file may take on a machine that is busy with other tests.
const SOON: Duration = Duration::from_secs(60);
/// What means something in one of the formats.
const MARKS: &[u8] = b" 0159-.:,;{}[]\n\"'#&*";
/// All corpora together; they are there to be read, not to be complete.
const MOST_BYTES: u64 = 200 << 10;

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fuzz")
}

/// The files of a corpus, in the order of their names.
fn corpus(target: &str) -> Vec<(String, Vec<u8>)> {
    let entries = fs::read_dir(folder().join("corpus").join(target)).unwrap().map(|entry| entry.unwrap());
    let mut files: Vec<(String, Vec<u8>)> =
        entries.map(|entry| (entry.file_name().into_string().unwrap(), fs::read(entry.path()).unwrap())).collect();
    files.sort();
    files
}

/// The words of a dictionary: one in quotation marks a line, with `\"`, `\\` and `\x41` for bytes.
fn words(target: &str) -> Vec<Vec<u8>> {
    let text = fs::read_to_string(folder().join("dictionaries").join(format!("{target}.dict"))).unwrap();
    let lines = text.lines().filter(|line| !line.starts_with('#') && !line.is_empty());
    lines
        .map(|line| {
            let inner = line.strip_prefix('"').and_then(|rest| rest.strip_suffix('"'));
            let inner = inner.unwrap_or_else(|| panic!("{target}.dict: {line}"));
            let mut bytes = inner.bytes();
            let mut word = Vec::new();
            while let Some(byte) = bytes.next() {
                let escaped = if byte == b'\\' { bytes.next().unwrap() } else { 0 };
                let mut digit = || char::from(bytes.next().unwrap()).to_digit(16).unwrap();
                word.push(match escaped {
                    0 => byte,
                    b'x' => u8::try_from(16 * digit() + digit()).unwrap(),
                    other => other,
                });
            }
            word
        })
        .collect()
}

/// A file with one to five small changes.
fn changed(files: &[(String, Vec<u8>)], words: &[Vec<u8>], rng: &mut Rng) -> Vec<u8> {
    let mut bytes = rng.choice(files).unwrap().1.clone();
    for _ in 0..rng.usize(1..=5) {
        let at = rng.usize(0..=bytes.len());
        let end = (at + rng.usize(0..12)).min(bytes.len());
        match rng.u8(0..6) {
            0 => drop(bytes.drain(at..end)),
            1 => drop(bytes.splice(at..end, rng.choice(words).unwrap().iter().copied())),
            2 => drop(bytes.splice(at..at, rng.choice(words).unwrap().iter().copied())),
            3 => bytes[at..end].iter_mut().take(1).for_each(|byte| *byte = *rng.choice(MARKS).unwrap()),
            4 => bytes.extend_from_within(at..end),
            // Lines change places, which leaves a structure standing more often than not.
            _ => {
                let mut lines: Vec<&[u8]> = bytes.split(|byte| *byte == b'\n').collect();
                let (one, other) = (rng.usize(0..lines.len()), rng.usize(0..lines.len()));
                lines.swap(one, other);
                bytes = lines.join(&b'\n');
            }
        }
    }
    bytes
}

fn runs_soon(target: &str, name: &str, bytes: &[u8]) {
    let start = Instant::now();
    let run = std::panic::catch_unwind(|| bodies::run(target, bytes));
    assert!(run.is_ok(), "{target}, {name}: {}", String::from_utf8_lossy(bytes).escape_debug());
    assert!(start.elapsed() < SOON, "{target}, {name}: took {:?}", start.elapsed());
}

fn holds(target: &str, changes: usize) {
    let (files, words, mut rng) = (corpus(target), words(target), Rng::with_seed(20));
    assert!(files.len() >= 8, "{target} has a corpus");
    files.iter().for_each(|(name, bytes)| runs_soon(target, name, bytes));
    for at in 0..changes {
        runs_soon(target, &format!("change {at}"), &changed(&files, &words, &mut rng));
    }
}

macro_rules! targets {
    ($($test:ident = $target:literal, $changes:expr;)+) => {
        $(#[test]
        fn $test() {
            holds($target, $changes);
        })+

        /// Nothing that the fuzzer runs is left out here.
        #[test]
        fn every_target_is_run() {
            let (listed, known) = ([$($target),+], bodies::TARGETS.map(|(name, _)| name));
            assert_eq!(listed, known);
            for name in known {
                let file = folder().join(format!("targets/{name}.rs"));
                assert!(fs::read_to_string(file).unwrap().contains(&format!("\"{name}\"")), "{name}");
            }
        }
    };
}

targets! {
    any_catalogue = "catalogue", CHANGED;
    any_extract = "extract", CHANGED;
    any_gear_csv = "gear_csv", CHANGED;
    any_kit_json = "kit_json", CHANGED;
    any_ride_log = "ride_log", CHANGED;
    any_scenario = "scenario", CHANGED_TRIPS;
    any_template = "template", CHANGED;
    any_track = "track", CHANGED;
    any_units = "units", CHANGED;
}

#[test]
fn the_corpora_stay_small() {
    let sizes = bodies::TARGETS.map(|(name, _)| corpus(name).iter().map(|(_, bytes)| bytes.len() as u64).sum::<u64>());
    assert!(sizes.iter().sum::<u64>() <= MOST_BYTES, "{sizes:?}");
}
