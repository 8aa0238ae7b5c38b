//! What the shipped catalogue says for the card in the pocket.

use fardel::{lint, load};
use std::path::Path;

/// More words than this are not read with cold hands.
const MOST_WORDS: usize = 11;

#[test]
fn steps_are_short_and_every_repair_with_steps_says_what_to_look_at() {
    let catalogue = load::catalogue(&load::shipped(), &[]).unwrap_or_else(|faults| panic!("{faults}"));
    let mut told = 0;
    for (id, failure) in &catalogue.failures {
        for repair in failure.repairs.iter().filter(|repair| !repair.steps.is_empty()) {
            let place = format!("{id}.{}", repair.id);
            assert!(repair.steps.len() <= 14, "{place}: a card, not a manual");
            assert!(!repair.check_after.is_empty(), "{place} says nothing to look at afterwards");
            for line in repair.steps.iter().chain(&repair.check_after) {
                assert!(line.split_whitespace().count() <= MOST_WORDS, "{place}: {line}");
                assert!(line.starts_with(char::is_uppercase) && !line.ends_with('.'), "{place}: {line}");
            }
            told += 1;
        }
    }
    assert!(told > 100, "{told}");
}

/// Whoever works on brakes tests them before riding on.
#[test]
fn brakes_are_tested_afterwards() {
    let catalogue = load::catalogue(&load::shipped(), &[]).unwrap_or_else(|faults| panic!("{faults}"));
    for (id, failure) in catalogue.failures.iter().filter(|(_, failure)| failure.system == "brakes") {
        for repair in failure.repairs.iter().filter(|repair| !repair.steps.is_empty()) {
            let tested = repair
                .check_after
                .iter()
                .any(|line| ["rake test", "walking pace", "bites"].iter().any(|word| line.contains(word)));
            assert!(tested, "{id}.{}: {:?}", repair.id, repair.check_after);
        }
    }
}

#[test]
fn likely_failures_of_the_shipped_trips_say_their_steps() {
    for name in
        ["day-ride", "five-day-loop", "high-country-week", "two-up-road", "three-to-the-coast", "six-over-the-range"]
    {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("scenarios/{name}.yaml"));
        let loaded = load::load(&path, None).unwrap_or_else(|faults| panic!("{faults}"));
        let doubts = lint::trip(&loaded.catalogue, &loaded.scenario);
        assert!(doubts.is_empty(), "{name}: {doubts:#?}");
    }
}
