//! A kit without a solver keeps the limits, and does not beat the best.

use crate::support::shipped;
use fardel::milp::SolveOptions;
use fardel::resolve::resolve;
use fardel::{risk, select};

#[test]
fn the_first_kit_keeps_the_limits_of_the_shipped_trips() {
    for name in ["day-ride.yaml", "five-day-loop.yaml", "high-country-week.yaml", "two-up-road.yaml"] {
        let loaded = shipped(name);
        let rider = &loaded.scenario.riders[0];
        let catalogue = loaded.catalogue.as_weighed_by(rider);
        let instance = resolve(&catalogue, &loaded.scenario.as_ridden_by(rider), rider).unwrap();
        let risk_model = risk::assess(&instance);
        let started = std::time::Instant::now();
        // It may find none under tight limits; that proves nothing.
        let Some(first) = select::first(&instance, &risk_model, &[], None) else { continue };
        let took = started.elapsed();
        let best = select::select(&instance, &risk_model, &[], &SolveOptions::default()).unwrap();
        let saved = risk::value(&instance, &risk_model, &best.counts).gains();
        println!("{name}: {:.4} of {:.4} h net, {saved:.3} h saved, {took:?}", first.objective, best.objective);
        assert!(first.objective <= best.objective + 1e-4 * saved, "{name}: the best kit is beaten");
        let limit = instance.kit_mass.expect("shipped trips have a limit");
        assert!(risk::value::mass(&instance, &first.counts) <= limit, "{name}: too heavy");
    }
}
