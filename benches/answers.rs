//! Speed and memory of the answers around a kit: `cargo bench --bench answers`. Reported, never asserted.
//!
//! The curve of 24 limits against 24 packs from nothing at the same limits, each started anew as a rider would; a group of
//! six on three kinds of bike, with and without a floor, with the most memory that the program held.
#![allow(missing_docs, reason = "a benchmark")]

mod support;

use serde_json::Value;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::thread::{scope, sleep};
use std::time::{Duration, Instant};
use support::peak_memory;

const LOOP: &str = "five-day-loop";
const SIX: &str = "six-over-the-range";
const POINTS: usize = 24;
/// How often the memory of a running program is looked at; what is read is the most so far.
const LOOK: Duration = Duration::from_millis(10);

fn main() {
    // Without `cargo bench` this is a test run: nothing takes so long as all this.
    if !std::env::args().any(|argument| argument == "--bench") {
        return;
    }
    let engines: &[&str] = if cfg!(feature = "highs") { &["microlp", "highs"] } else { &["microlp"] };
    for engine in engines {
        println!("\n{engine}");
        curve(engine);
        group(engine, &[]);
        group(engine, &["--keep-if-one-leaves", "0.8"]);
    }
}

fn scenario(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("scenarios").join(name).with_extension("yaml")
}

/// What a run of the program gave and took.
struct Taken {
    answer: Value,
    seconds: f64,
    peak: Option<f64>,
}

fn run(arguments: &[&str]) -> Taken {
    let started = Instant::now();
    let child = Command::new(env!("CARGO_BIN_EXE_fardel"))
        .args(arguments)
        .args(["--format", "json"])
        .stdout(Stdio::piped())
        .spawn()
        .expect("it starts");
    let process = child.id().to_string();
    let (output, peak) = scope(|scope| {
        let wait = scope.spawn(move || Child::wait_with_output(child).expect("it ends"));
        let mut peak = None;
        while !wait.is_finished() {
            peak = peak_memory(&process).or(peak);
            sleep(LOOK);
        }
        (wait.join().expect("it ends"), peak)
    });
    assert!(output.status.success(), "{arguments:?}");
    let answer = serde_json::from_slice(&output.stdout).expect("JSON");
    Taken { answer, seconds: started.elapsed().as_secs_f64(), peak }
}

fn megabytes(peak: Option<f64>) -> String {
    peak.map_or_else(|| "memory not told".to_owned(), |peak| format!("at most {peak:.0} MB"))
}

fn curve(engine: &str) {
    let path = scenario(LOOP);
    let path = path.to_str().expect("a name");
    let points = POINTS.to_string();
    let curve = run(&["tradeoff", path, "--points", &points, "--engine", engine]);
    let rows = curve.answer["points"].as_array().expect("points");
    let folder = tempfile::tempdir().expect("a folder");
    let text = std::fs::read_to_string(path).expect("the scenario");
    let mut cold = 0.0;
    for row in rows {
        let kilograms = row["limit"].as_f64().expect("a limit") / 1000.0;
        let limited = folder.path().join("limited.yaml");
        std::fs::write(&limited, with_limit(&text, kilograms)).expect("it is written");
        let pack = run(&["pack", limited.to_str().expect("a name"), "--engine", engine]);
        cold += pack.seconds;
        let (one, other) = (objective(&row["hours_net"]), objective(&pack.answer["proof"]["objective_h"]));
        if (one - other).abs() > 1e-6 * other.abs().max(1.0) {
            println!("  at {kilograms:.3} kg the curve says {one:.9} h, the pack {other:.9} h");
        }
    }
    println!(
        "tradeoff, {LOOP}, {} limits: {:.2} s, {}; as many packs from nothing {cold:.2} s; ratio {:.1}",
        rows.len(),
        curve.seconds,
        megabytes(curve.peak),
        cold / curve.seconds
    );
}

fn objective(value: &Value) -> f64 {
    value.as_f64().unwrap_or(f64::NAN)
}

/// The scenario with another limit on the mass of the kit.
fn with_limit(text: &str, kilograms: f64) -> String {
    let limited = |line: &str| match line.split_once("kit_mass:") {
        Some((before, _)) => format!("{before}kit_mass: {:.0} g", (kilograms * 1000.0).floor()),
        None => line.to_owned(),
    };
    text.lines().map(|line| limited(line) + "\n").collect()
}

fn group(engine: &str, further: &[&str]) {
    let path = scenario(SIX);
    let all = [&["split", path.to_str().expect("a name"), "--engine", engine], further].concat();
    let taken = run(&all);
    let proof = &taken.answer["proof"];
    println!(
        "split, {SIX}{}: {:.2} s, {}; proven {}, gap {:.2} %",
        [&[""], further].concat().join(" "),
        taken.seconds,
        megabytes(taken.peak),
        proof["proven_optimal"],
        100.0 * objective(&proof["relative_gap"]),
    );
}
