//! With every price at 0 and stocks pooled as in the first version of the sums, the answers of before come back.

use crate::support::{pack_with, shipped};
use fardel::domain::{Pooling, Prices};
use fardel::milp::Engine;

/// What the first version found for the shipped scenarios with the catalogue of today: objective in hours, grams, things.
/// Made by a build of that version (its last commit before prices came), on the same catalogue without its section `prices`.
const BEFORE: [(&str, f64, f64, u32); 4] = [
    ("day-ride.yaml", 0.075_982_470, 7930.0, 27),
    ("five-day-loop.yaml", 5.818_808_845, 23_988.0, 68),
    ("high-country-week.yaml", 2.951_751_926, 16_492.0, 53),
    ("two-up-road.yaml", 0.516_586_306, 16_920.0, 44),
];

#[test]
fn without_prices_the_first_answers_come_back() {
    for (name, objective, grams, things) in BEFORE {
        let mut loaded = shipped(name);
        loaded.catalogue.prices = Prices::default();
        loaded.catalogue.model.pooling = Pooling::EveryRepair;
        let answer = pack_with(&loaded, Engine::Microlp).expect("a kit");
        let found = (answer.proof.objective, answer.totals.mass.grams(), answer.totals.units);
        // Masses that standards have given since then move all three a little.
        assert!((found.0 - objective).abs() < 5e-3 * objective, "{name}: {found:?} against {objective}");
        assert!((found.1 - grams).abs() < 60.0, "{name}: {found:?} against {grams} g");
        assert!(found.2.abs_diff(things) <= 2, "{name}: {found:?} against {things}");
    }
}
