//! How soon a live plan has a good kit, and how soon the proof: `cargo bench --bench live`. Reported, never asserted.
//!
//! Words after `--` choose parts: `first`, `evaluate`, `patch`, `proof`, `pack`, `curve`, `split`; none: all. Times are those of
//! the processor for what runs on one thread, and of the clock for the rest.
#![allow(missing_docs, reason = "a benchmark")]

mod support;

use fardel::answer::split::{Demands, split};
use fardel::answer::{Limits as CurveLimits, pack, tradeoff};
use fardel::domain::{OwnPrices, Rider, Scenario};
use fardel::live::{Budget, Cancel, Change, Live};
use fardel::load::{Loaded, load};
use fardel::milp::{Engine, SolveOptions};
use fardel::resolve::Measure;
use fardel::units::{Hours, Money};
use std::ops::ControlFlow;
use std::path::Path;
use std::sync::Arc;
use std::time::Instant;
use support::peak_memory;

const ALONE: [&str; 4] = ["day-ride", "five-day-loop", "high-country-week", "two-up-road"];
const GROUPS: [&str; 2] = ["three-to-the-coast", "six-over-the-range"];
/// Limits that a drag goes through, as shares of what the best kit takes.
const DRAG: [f64; 12] = [1.0, 0.97, 0.94, 0.9, 0.86, 0.82, 0.86, 0.9, 0.95, 1.0, 1.05, 0.98];

fn main() {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    // Without `cargo bench` this is a test run: nothing takes so long as all this.
    if !arguments.iter().any(|argument| argument == "--bench") {
        return;
    }
    let words: Vec<&str> = arguments.iter().map(String::as_str).filter(|word| !word.starts_with("--")).collect();
    let wanted = |part: &str| words.is_empty() || words.contains(&part);
    let parts: [(&str, fn()); 7] = [
        ("first", first),
        ("evaluate", evaluate),
        ("patch", drag),
        ("proof", proof),
        ("pack", whole),
        ("curve", curve),
        ("split", group),
    ];
    parts.iter().filter(|(part, _)| wanted(part)).for_each(|(_, run)| run());
}

fn loaded(name: &str) -> Loaded {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("scenarios").join(name).with_extension("yaml");
    load(&path, None).expect("the shipped files are sound")
}

/// Seconds of the processor on this thread, where the system tells; else of the clock.
fn seconds<T>(work: impl FnOnce() -> T) -> (T, f64) {
    let on_cpu = || {
        let text = std::fs::read_to_string("/proc/thread-self/schedstat").ok()?;
        text.split_whitespace().next()?.parse::<f64>().ok().map(|nanoseconds| nanoseconds / 1e9)
    };
    let (before, started) = (on_cpu(), Instant::now());
    let done = work();
    let clock = started.elapsed().as_secs_f64();
    (done, before.zip(on_cpu()).map_or(clock, |(before, after)| after - before))
}

fn clock<T>(work: impl FnOnce() -> T) -> (T, f64) {
    let started = Instant::now();
    let done = work();
    (done, started.elapsed().as_secs_f64())
}

fn opened(loaded: &Loaded, scenario: Scenario, rider: usize) -> Live {
    Live::open(Arc::new(loaded.catalogue.clone()), scenario, rider, SolveOptions::default()).expect("a bike")
}

/// Every trip of one rider that is shipped, with its name; the riders of groups as if each rode alone.
fn trips() -> Vec<(String, Loaded, usize)> {
    let mut all = Vec::new();
    for name in ALONE.iter().chain(&GROUPS) {
        let riders = loaded(name).scenario.riders.len();
        all.extend((0..riders).map(|rider| (format!("{name} {}", rider + 1), loaded(name), rider)));
    }
    all
}

fn free(scenario: &Scenario) -> Scenario {
    let none = OwnPrices {
        weight: Some(0.0),
        hour: Some(Money::ZERO),
        buying: Some(0.0),
        thing: Some(Hours::ZERO),
        ..scenario.prices
    };
    Scenario { prices: none, ..scenario.clone() }
}

fn proven(live: &mut Live) -> f64 {
    let hear = &mut |_: &_| ControlFlow::Continue(());
    live.improve(Budget::default(), &Cancel::new(), hear).expect("a kit").objective()
}

fn first() {
    println!("\nfirst kit: seconds to open, to the kit, and how far below the proven best");
    for (name, loaded, rider) in trips() {
        for (prices, scenario) in [("", loaded.scenario.clone()), (", prices 0", free(&loaded.scenario))] {
            let (mut live, open) = seconds(|| opened(&loaded, scenario.clone(), rider));
            let (first, took) = seconds(|| live.first().map(fardel::live::Standing::objective));
            let best = proven(&mut live);
            let short = first.map_or("none".to_owned(), |first| format!("{:.2} %", 100.0 * (best - first) / best));
            println!("  {name}{prices}: {open:.4} s, {took:.4} s, {short} of {best:.4} h");
        }
    }
}

fn evaluate() {
    println!("\nevaluate: milliseconds for the best kit");
    for (name, loaded, rider) in trips() {
        let mut live = opened(&loaded, loaded.scenario.clone(), rider);
        proven(&mut live);
        let kit = live.standing().expect("a kit").kit.clone();
        let mut times: Vec<f64> = (0..21).map(|_| seconds(|| live.evaluate(&kit)).1).collect();
        times.sort_by(f64::total_cmp);
        println!("  {name}: {:.2} ms, sound {}", 1000.0 * times[10], live.evaluate(&kit).is_sound());
    }
}

/// A limit dragged: after each patch the first kit at once, and what it lacks to the best.
fn drag() {
    println!("\na limit dragged: worst seconds from patch to kit, worst and median distance to the proven best");
    for (name, loaded, rider) in trips() {
        let mut live = opened(&loaded, loaded.scenario.clone(), rider);
        live.patch(Change::Limit(Measure::Mass, None)).expect("a limit");
        proven(&mut live);
        let most = Measure::Mass.used(live.instance(), live.standing().expect("a kit").counts());
        let (mut slowest, mut short) = (0.0_f64, Vec::new());
        for share in DRAG {
            #[allow(clippy::cast_possible_truncation, clippy::cast_precision_loss, reason = "milligrams")]
            let limit = (most as f64 * share) as i64;
            let (found, took) = seconds(|| {
                live.patch(Change::Limit(Measure::Mass, Some(limit))).expect("a limit");
                live.first().map(fardel::live::Standing::objective)
            });
            slowest = slowest.max(took);
            let mut own = live.clone();
            let hear = &mut |_: &_| ControlFlow::Continue(());
            let Ok(best) = own.improve(Budget::default(), &Cancel::new(), hear) else { continue };
            let best = best.objective();
            short.push(found.map_or(1.0, |found| (best - found) / best.abs()));
        }
        short.sort_by(f64::total_cmp);
        let worst = short.last().copied().unwrap_or(0.0);
        println!("  {name}: {slowest:.3} s, {:.2} %, {:.2} %", 100.0 * worst, 100.0 * short[short.len() / 2]);
    }
}

fn proof() {
    println!("\nproof of a plan from open to proven: seconds by engine, with prices and without");
    for (name, loaded, rider) in trips() {
        for (prices, scenario) in [("", loaded.scenario.clone()), (", prices 0", free(&loaded.scenario))] {
            let mut told = Vec::new();
            for engine in Engine::ALL {
                let options = SolveOptions { engine: *engine, ..SolveOptions::default() };
                let catalogue = Arc::new(loaded.catalogue.clone());
                let mut live = Live::open(catalogue, scenario.clone(), rider, options).expect("a bike");
                let (objective, took) = seconds(|| proven(&mut live));
                told.push(format!("{} {took:.3} s ({objective:.6} h)", engine.word()));
            }
            println!("  {name}{prices}: {}", told.join(", "));
        }
    }
}

fn whole() {
    println!("\npack complete: seconds of the clock");
    for name in ALONE {
        let loaded = loaded(name);
        for (prices, scenario) in [("", loaded.scenario.clone()), (", prices 0", free(&loaded.scenario))] {
            let rider: &Rider = &scenario.riders[0];
            let work = || pack(&loaded.catalogue, &scenario, rider, &SolveOptions::default()).expect("a kit");
            let (answer, took) = clock(work);
            println!("  {name}{prices}: {took:.2} s, {:.6} h", answer.proof.objective);
        }
    }
}

fn curve() {
    println!("\ncurve of 24 limits of mass: seconds of the clock");
    for name in ALONE {
        let loaded = loaded(name);
        let limits = CurveLimits::Between { from: None, to: None, count: 24 };
        let rider = &loaded.scenario.riders[0];
        let (answer, took) = clock(|| {
            let measured = (Measure::Mass, &limits);
            tradeoff(&loaded.catalogue, &loaded.scenario, rider, measured, &SolveOptions::default(), &|_| {})
        });
        let answer = answer.expect("a curve");
        let proven = answer.points.iter().filter(|point| point.proven).count();
        println!("  {name}: {took:.2} s, {proven} of {} proven", answer.points.len());
    }
}

/// The six twice over: twelve riders.
fn doubled(scenario: &Scenario) -> Scenario {
    let again = scenario.riders.iter().map(|rider| Rider { name: format!("{} too", rider.name), ..rider.clone() });
    let riders = scenario.riders.iter().cloned().chain(again).collect();
    Scenario { riders, ..scenario.clone() }
}

fn group() {
    println!("\nsplit: seconds of the clock, gap, most memory of this benchmark so far");
    let run = |what: &str, loaded: &Loaded, scenario: &Scenario, floor: Option<f64>, limit: Option<u64>| {
        let demands = Demands { keep_if_one_leaves: floor, max_moves: None };
        let time_limit = limit.map(std::time::Duration::from_secs);
        let options = SolveOptions { time_limit, ..SolveOptions::default() };
        let (answer, took) = clock(|| split(&loaded.catalogue, scenario, &demands, None, &options));
        let told = answer.map_or_else(
            |error| error.to_string(),
            |answer| format!("gap {:.3} %, proven {}", 100.0 * answer.proof.gap, answer.proof.proven),
        );
        println!("  {what}: {took:.2} s, {told}, {:.0} MB", peak_memory("self").unwrap_or(0.0));
    };
    let (three, six) = (loaded(GROUPS[0]), loaded(GROUPS[1]));
    run("three", &three, &three.scenario, None, None);
    run("six", &six, &six.scenario, None, None);
    run("twelve", &six, &doubled(&six.scenario), None, Some(60));
    run("six with a floor of 0.8", &six, &six.scenario, Some(0.8), Some(120));
}
