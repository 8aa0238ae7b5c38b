//! Every lint has an entry that raises it, and a sound one beside it that does not.

use fardel::lint::{self, Doubt, Lint};
use fardel::load::{self, Source};
use std::path::Path;

/// The sound catalogue of the faulty files, with this on top.
fn doubts(extra: &str) -> Vec<Doubt> {
    let sound =
        load::source(&Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cli/tiny/catalogue/world.yaml")).unwrap();
    let extra = Source { name: "extra.yaml".to_owned(), text: extra.to_owned() };
    let catalogue = load::catalogue(&[sound], &[extra]).unwrap_or_else(|faults| panic!("{faults}"));
    lint::catalogue(&catalogue)
}

/// A pump but for these keys.
fn pump(keys: &str) -> String {
    format!(
        "items: {{ other: {{ name: other, kind: tool, mass: 200 g, volume: 250 mL, longest: 250 mm, price: 20 USD, \
         provides: [inflation], basis: from memory{keys} }} }}"
    )
}

const FAILURE: &str = "system: engine, outcome: stops, rate: { per_day: 0.1, worth_events: 0.5, basis: from memory }";
const REPAIR: &str = "name: mend it, grade: field, time: 10 min, restores: 1, skill: anyone, basis: from memory";

/// For each lint an extra file, the entry it is about, and a word of what is said.
fn cases() -> Vec<(Lint, String, &'static str, &'static str)> {
    let new = |text: &str| text.to_owned();
    vec![
        (Lint::NobodyProvides, new("functions: { juggle: { name: juggle } }"), "juggle", "juggle"),
        (Lint::NobodyHolds, new("stocks: { plum: { name: plums, unit: plum } }"), "plum", "plums"),
        (Lint::NobodyMeets, new("needs: { tent: { name: a roof, unit: bed, rule: shelter } }"), "tent", "a roof"),
        (
            Lint::NoUse,
            new("functions: { juggle: { name: juggle } }\n")
                + &pump(", provides: [juggle]").replacen("provides: [inflation], ", "", 1),
            "other",
            "on_request",
        ),
        (Lint::NoUse, pump(", on_request: true"), "other", "has a use for it"),
        (
            Lint::NoRepair,
            format!("failures: {{ odd: {{ name: odd, {FAILURE}, repairs: {{}} }} }}"),
            "odd",
            "no kit mends",
        ),
        (
            Lint::NoKitRepairs,
            format!(
                "failures: {{ odd: {{ name: odd, {FAILURE}, repairs: {{ mend: {{ {REPAIR}, needs: {{ tyre lever: 9 }} }}, wait: {{ {REPAIR} }} }} }} }}"
            ),
            "odd",
            "9 x `tyre lever` (at most 3 can be had)",
        ),
        (Lint::OddDensity, pump("").replace("200 g", "3 kg"), "other", "12.00 kg/L"),
        (Lint::Twins, pump(""), "other", "`pump`"),
        (Lint::Beaten, pump("").replace("200 g", "201 g"), "other", "better in mass"),
        (Lint::OddNumber, pump("").replace("250 mL", "200 L").replace("200 g", "20 kg"), "other", "do not go into"),
        (
            Lint::NoBike,
            format!(
                "failures: {{ odd: {{ name: odd, applies: {{ axle_nut: 3 mm }}, {FAILURE}, repairs: {{ wait: {{ {REPAIR} }} }} }} }}"
            ),
            "odd",
            "no bike",
        ),
    ]
}

#[test]
fn every_lint_is_raised_by_what_it_is_about() {
    for (lint, extra, id, word) in cases() {
        let found = doubts(&extra);
        let meant = |doubt: &&Doubt| doubt.lint == lint && doubt.id == id && doubt.what.contains(word);
        assert!(found.iter().any(|doubt| meant(&doubt)), "{lint:?}\n{extra}\n{found:#?}");
    }
    for lint in Lint::ALL.iter().filter(|lint| **lint != Lint::NoSteps) {
        assert!(cases().iter().any(|(known, ..)| known == lint), "{lint:?} is not tried");
    }
}

const TINY: [&str; 8] = [
    "function-unprovided socket 10 mm",
    "function-unprovided socket 27 mm",
    "unused-item axle-spanner-27",
    "unused-item camera",
    "unused-item jump-leads",
    "without-repair gearbox-seized",
    "beaten jump-leads",
    "beaten track-pump",
];

/// What is odd about the tiny world: sizes of a family that nothing has, things for no repair, a failure
/// beyond repair, things that the pump beats.
#[test]
fn the_tiny_world_is_doubted_for_what_it_lacks() {
    let told: Vec<String> = doubts("").into_iter().map(|doubt| format!("{} {}", doubt.lint.id(), doubt.id)).collect();
    assert_eq!(told, TINY);
}

/// One better key at a time takes an item out of the shade of the other.
#[test]
fn an_item_better_in_anything_is_not_beaten() {
    for own in [
        pump("").replace("200 g", "201 g").replace("250 mL", "249 mL"),
        pump("").replace("200 g", "201 g").replace("250 mm", "249 mm"),
        pump("").replace("200 g", "201 g").replace("20 USD", "19 USD"),
        pump(", at_most: 2").replace("200 g", "201 g"),
        pump("").replace("200 g", "201 g").replace("[inflation]", "[inflation, pliers]"),
        pump(", holds: { tube patch: 1 }").replace("200 g", "201 g"),
        pump(", meets: { papers: 1 }").replace("200 g", "201 g"),
        pump(", personal: true").replace("200 g", "201 g"),
        pump("").replace("200 g", "201 g").replace("kind: tool", "kind: electronics"),
    ] {
        let found = doubts(&own);
        let beaten = |doubt: &Doubt| doubt.id == "other" && matches!(doubt.lint, Lint::Beaten | Lint::Twins);
        assert!(!found.iter().any(beaten), "{own}\n{found:#?}");
    }
}

/// On the tiny trip a puncture is likely; what stops on one trip in a hundred and twenty is not.
#[test]
fn a_likely_failure_says_its_steps() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cli/tiny");
    let found = |cut: &str| -> Vec<String> {
        let mut world = load::source(&root.join("catalogue/world.yaml")).unwrap();
        let kept: Vec<&str> = world.text.lines().filter(|line| cut.is_empty() || !line.contains(cut)).collect();
        world.text = kept.join("\n");
        let trip = load::source(&root.join("trip.yaml")).unwrap();
        let nothing = |name: &str| Err(load::Unreadable { name: name.to_owned(), reason: "not there".to_owned() });
        let loaded = load::load_texts(&[world], trip, &nothing).unwrap_or_else(|faults| panic!("{faults}"));
        let doubts = lint::trip(&loaded.catalogue, &loaded.scenario);
        assert!(doubts.iter().all(|doubt| doubt.lint == Lint::NoSteps));
        doubts.into_iter().map(|doubt| doubt.id).collect()
    };
    assert_eq!(found(""), [""; 0]);
    assert_eq!(found("steps: [Stand"), ["puncture"]);
}
