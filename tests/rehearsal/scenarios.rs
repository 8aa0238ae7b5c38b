//! The optimiser's figures on every shipped scenario, tested by riding the trip.

use crate::support::{pack_with, shipped};
use fardel::answer::{RehearseAnswer, rehearse};
use fardel::domain::Kit;
use fardel::load::Loaded;
use fardel::milp::Engine;
use fardel::rehearse::Plan;

const SCENARIOS: [&str; 4] = ["day-ride.yaml", "five-day-loop.yaml", "high-country-week.yaml", "two-up-road.yaml"];

fn ride(loaded: &Loaded, kit: &Kit, trips: u64) -> RehearseAnswer {
    let plan = Plan { trips, ..Plan::default() };
    let rider = &loaded.scenario.riders[0];
    rehearse(&loaded.catalogue, &loaded.scenario, rider, kit, &plan, &|_| ()).expect("the bike is there")
}

#[test]
fn the_optimiser_tells_the_truth_about_its_kit() {
    for name in SCENARIOS {
        let loaded = shipped(name);
        let kit = pack_with(&loaded, Engine::Microlp).unwrap().kit;
        let answer = ride(&loaded, &kit, 2_000_000);
        let (lost, reckoned) = (answer.tally.hours_lost(), answer.predicted.hours_lost.get());
        let apart = (lost.mean - reckoned).abs() / reckoned;
        assert!(4.0 * lost.error < 0.02 * reckoned, "{name}: {lost:?} tells too little");
        let noise = 3.0 * lost.error / reckoned;
        assert!(
            apart < 0.005 + noise,
            "{name}: {} h ridden, {reckoned} h reckoned, {:.2} % apart",
            lost.mean,
            apart * 100.0
        );
        let home = answer.tally.self_recovery();
        let bound = answer.predicted.self_recovery;
        assert!(home.mean + 4.0 * home.error >= bound, "{name}: {home:?}, yet at least {bound} was promised");
        assert!(home.mean - bound < 0.02, "{name}: {home:?} is far above the bound {bound}");
    }
}

/// With nothing aboard there is nothing to approximate: the hours are exact, and so is the chance of getting home.
#[test]
fn an_empty_kit_is_reckoned_exactly() {
    for name in SCENARIOS {
        let answer = ride(&shipped(name), &Kit::default(), 400_000);
        let (lost, reckoned) = (answer.tally.hours_lost(), answer.predicted.hours_empty.get());
        assert!((lost.mean - reckoned).abs() <= 4.0 * lost.error + 1e-6, "{name}: {lost:?} against {reckoned}");
        let expected = answer.predicted.breakdowns;
        let found = answer.tally.each(answer.tally.breakdowns);
        assert!((found / expected - 1.0).abs() < 0.02, "{name}: {found} breakdowns against {expected}");
    }
}
