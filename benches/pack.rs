//! Speed and memory of the main job: `cargo bench`. Reported, never asserted.
//!
//! First each shipped scenario from file to answer, with time and memory; then the program itself as a rider starts it; then
//! select and stow against the joint model of the same case, with the ratio; at last the time to a proven kit by the prices of
//! the trip, with its limits and without any, and the time that riding for the chance of getting home takes.
#![allow(missing_docs, reason = "a benchmark")]

mod support;

use divan::{AllocProfiler, Bencher};
use fardel::answer::{joint, pack, solve};
use fardel::domain::Limits;
use fardel::load::{Loaded, load};
use fardel::milp::{Engine, SolveOptions, Stop};
use fardel::rehearse::{self, Load, Plan};
use fardel::resolve::{Instance, resolve};
use fardel::risk::{RiskModel, assess};
use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::{Duration, Instant};
use support::peak_memory;

#[global_allocator]
static ALLOCATIONS: AllocProfiler = AllocProfiler::system();

const MAIN: &str = "five-day-loop";
const SCENARIOS: [&str; 4] = ["day-ride", MAIN, "high-country-week", "two-up-road"];

/// The joint model may take hours in pure Rust; what is told then is a lower bound on the ratio.
const JOINT_LIMIT: Duration = Duration::from_secs(60);

fn path(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("scenarios").join(name).with_extension("yaml")
}

fn loaded(name: &str) -> Loaded {
    load(&path(name), None).expect("the shipped files are sound")
}

/// From reading the files to the verified answer, with the default engine.
#[divan::bench(args = SCENARIOS, sample_count = 5, sample_size = 1)]
fn file_to_answer(bencher: Bencher<'_, '_>, name: &str) {
    bencher.bench(|| {
        let loaded = loaded(name);
        pack(&loaded.catalogue, &loaded.scenario, &loaded.scenario.riders[0], &SolveOptions::default()).expect("a kit")
    });
}

fn main() {
    divan::main();
    // Without `cargo bench` this is a test run: once through is enough.
    if std::env::args().any(|argument| argument == "--bench") {
        whole_program();
        with_prices();
        for name in ["day-ride", MAIN] {
            for engine in Engine::ALL {
                against_joint(name, *engine);
            }
        }
    }
}

/// Median of five runs of the program, and the most memory it held.
fn whole_program() {
    let mut times: Vec<f64> = Vec::new();
    for _ in 0..5 {
        let started = Instant::now();
        let output =
            Command::new(env!("CARGO_BIN_EXE_fardel")).arg("pack").arg(path(MAIN)).output().expect("it starts");
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        times.push(started.elapsed().as_secs_f64());
    }
    times.sort_by(f64::total_cmp);
    println!("\n`fardel pack` on the {MAIN}, start to output: {:.3} s (median of 5)", times[2]);
    if let Some(peak) = peak_memory("self") {
        println!("most memory held by this benchmark so far, all four scenarios packed: {peak:.1} MB");
    }
}

/// Seconds to a proven kit on every engine, with the trip's limits and without, and for the ridden chance.
fn with_prices() {
    for name in SCENARIOS {
        for limited in [true, false] {
            let mut loaded = loaded(name);
            if !limited {
                loaded.scenario.limits = Limits::default();
            }
            let rider = &loaded.scenario.riders[0];
            let instance = resolve(&loaded.catalogue, &loaded.scenario, rider).expect("a bike");
            let risk_model = assess(&instance);
            let times: Vec<String> = Engine::ALL
                .iter()
                .map(|engine| format!("{} {:.3} s", engine.word(), select_and_stow(&instance, &risk_model, *engine).0))
                .collect();
            let options = SolveOptions::default();
            let counts = solve::solve(&instance, &risk_model, &options).expect("a kit").choice.counts;
            let load = Load { rider: rider.name.clone(), mass: fardel::risk::value::mass(&instance, &counts) };
            let party = rehearse::party(&instance, &counts, &[load]);
            let started = Instant::now();
            let tally = rehearse::rehearse(&party, &Plan::default(), &|_| ());
            let ridden = started.elapsed().as_secs_f64();
            let limits = if limited { "its limits" } else { "no limits" };
            println!(
                "{name}, {limits}: proven kit {}; chance of {} trips {ridden:.3} s",
                times.join(", "),
                tally.trips
            );
        }
    }
}

fn against_joint(name: &str, engine: Engine) {
    let loaded = loaded(name);
    let instance = resolve(&loaded.catalogue, &loaded.scenario, &loaded.scenario.riders[0]).expect("a bike");
    let risk_model = assess(&instance);
    let (parts, objective) = select_and_stow(&instance, &risk_model, engine);
    let options = SolveOptions { engine, time_limit: Some(JOINT_LIMIT), ..SolveOptions::default() };
    let started = Instant::now();
    let joint = joint::solve(&instance, &risk_model, &options);
    let together = started.elapsed().as_secs_f64();
    let proven = joint.as_ref().is_ok_and(|(choice, _)| choice.stop == Stop::Proven);
    let found = joint.map_or("nothing found".to_owned(), |(choice, _)| format!("objective {:.6}", choice.objective));
    println!(
        "{name}, {}: select and stow {parts:.3} s (objective {objective:.6}); joint {}{together:.3} s ({found}); ratio {}{:.1}",
        engine.word(),
        if proven { "" } else { "stopped after " },
        if proven { "" } else { "at least " },
        together / parts,
    );
}

/// Seconds (the best of three) and objective.
fn select_and_stow(instance: &Instance, risk_model: &RiskModel, engine: Engine) -> (f64, f64) {
    let options = SolveOptions { engine, ..SolveOptions::default() };
    let mut best = (f64::INFINITY, 0.0);
    for _ in 0..3 {
        let started = Instant::now();
        let solved = solve::solve(instance, risk_model, &options).expect("a kit");
        best = (started.elapsed().as_secs_f64().min(best.0), solved.choice.objective);
    }
    best
}
