//! A kit without a solver keeps every limit and is near the best.

use crate::support::shipped;
use fardel::milp::SolveOptions;
use fardel::resolve::resolve;
use fardel::{risk, select};

/// Of what carrying the best kit is worth beside carrying nothing but what the trip demands, this much at least.
const NEAR: f64 = 0.03;

#[test]
fn the_first_kit_is_near_the_best_on_the_shipped_trips() {
    for name in ["day-ride.yaml", "five-day-loop.yaml", "high-country-week.yaml", "two-up-road.yaml"] {
        let loaded = shipped(name);
        let rider = &loaded.scenario.riders[0];
        let catalogue = loaded.catalogue.as_weighed_by(rider);
        let instance = resolve(&catalogue, &loaded.scenario.as_ridden_by(rider), rider).unwrap();
        let risk_model = risk::assess(&instance);
        let started = std::time::Instant::now();
        let first = select::first(&instance, &risk_model, &[]).unwrap_or_else(|| panic!("{name}: no first kit"));
        let took = started.elapsed();
        let best = select::select(&instance, &risk_model, &[], &SolveOptions::default()).unwrap();
        let saved = risk::value(&instance, &risk_model, &best.counts).gains();
        println!("{name}: {:.4} of {:.4} h net, {saved:.3} h saved, {took:?}", first.objective, best.objective);
        assert!(first.objective <= best.objective + 1e-4 * saved, "{name}: the best kit is beaten");
        let short = best.objective - first.objective;
        assert!(short <= NEAR * saved, "{name}: {short:.3} h short of {saved:.3} h saved");
    }
}
