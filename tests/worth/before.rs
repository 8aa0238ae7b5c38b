//! With every price at 0 and stocks pooled as in the first version of the sums, the answers of before come back.

use crate::support::{pack_with, shipped};
use fardel::domain::{Pooling, Prices};
use fardel::milp::Engine;

/// What the first version finds for the shipped scenarios with the catalogue of today: objective in hours, grams, things.
/// Made on 2026-11-28 by a build of that version (its last commit before prices came). It was given the catalogue without
/// what it cannot read (`prices`, `short`, `sets`, wheel travel, electric bikes), with the rates of `rates.yaml` typed in, and without failures of
/// camp gear where nobody camps.
const BEFORE: [(&str, f64, f64, u32); 4] = [
    ("day-ride.yaml", 0.112_343_091_8, 7340.0, 27),
    ("five-day-loop.yaml", 5.525_909_175_3, 24_623.0, 79),
    ("high-country-week.yaml", 3.009_141_979_1, 16_498.0, 60),
    ("two-up-road.yaml", 0.566_847_445_6, 17_257.0, 47),
];

#[test]
fn without_prices_the_first_answers_come_back() {
    for (name, objective, grams, things) in BEFORE {
        let mut loaded = shipped(name);
        loaded.catalogue.prices = Prices::default();
        loaded.catalogue.model.pooling = Pooling::EveryRepair;
        let answer = pack_with(&loaded, Engine::Microlp).expect("a kit");
        let found = (answer.proof.objective, answer.totals.mass.grams(), answer.totals.units);
        assert!((found.0 - objective).abs() < 1e-6 * objective, "{name}: {found:?} against {objective}");
        assert!((found.1 - grams).abs() < 0.5, "{name}: {found:?} against {grams} g");
        assert_eq!(found.2, things, "{name}");
    }
}
