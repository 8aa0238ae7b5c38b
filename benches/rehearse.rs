//! Speed of riding trips: `cargo bench --bench rehearse`. Reported, never asserted.
//!
//! Trips per second on one thread and on all, at fixed and at drawn rates, for each shipped scenario. With the name of a
//! file in `FARDEL_PARTY` the party of the main scenario is written there as JSON, for comparison with other programs.
#![allow(missing_docs, reason = "a benchmark")]

use fardel::answer::pack;
use fardel::load::load;
use fardel::milp::SolveOptions;
use fardel::rehearse::{Load, Party, Plan, party, rehearse};
use fardel::resolve::resolve;
use std::path::Path;
use std::time::Instant;

const MAIN: &str = "five-day-loop";
const SCENARIOS: [&str; 4] = ["day-ride", MAIN, "high-country-week", "two-up-road"];
/// Trips of each measurement.
const TRIPS: u64 = 4_000_000;

/// The first rider of a shipped scenario with the kit that is best.
fn ready(name: &str) -> Party {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("scenarios").join(name).with_extension("yaml");
    let loaded = load(&path, None).expect("the shipped files are sound");
    let rider = &loaded.scenario.riders[0];
    let answer = pack(&loaded.catalogue, &loaded.scenario, rider, &SolveOptions::default()).expect("a kit");
    let instance = resolve(&loaded.catalogue, &loaded.scenario, rider).expect("a bike");
    let counts: Vec<u32> = instance.items.iter().map(|item| answer.kit.count(&item.id)).collect();
    party(&instance, &counts, &[Load { rider: rider.name.clone(), mass: answer.totals.mass }])
}

/// Trips per second, the best of three.
#[allow(clippy::cast_precision_loss, reason = "a count")]
fn speed(party: &Party, threads: usize, uncertain: bool) -> f64 {
    let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().expect("threads");
    let trips = if uncertain { TRIPS / 20 } else { TRIPS };
    let plan = Plan { trips, uncertain, ..Plan::default() };
    let run = || {
        let start = Instant::now();
        let tally = pool.install(|| rehearse(party, &plan, &|_| ()));
        assert_eq!(tally.trips, trips, "all trips are ridden");
        trips as f64 / start.elapsed().as_secs_f64()
    };
    (0..3).map(|_| run()).fold(0.0, f64::max)
}

fn main() {
    let threads = std::thread::available_parallelism().map_or(1, std::num::NonZero::get);
    println!("trips per second          one thread  {threads} threads  rates drawn, one thread");
    for name in SCENARIOS {
        let party = ready(name);
        let speeds = [speed(&party, 1, false), speed(&party, threads, false), speed(&party, 1, true)];
        println!("{name:<24} {:>11.0} {:>10.0} {:>24.0}", speeds[0], speeds[1], speeds[2]);
        if let (MAIN, Some(path)) = (name, std::env::var_os("FARDEL_PARTY")) {
            std::fs::write(path, serde_json::to_string(&party).expect("plain data")).expect("a file to write");
        }
    }
}
