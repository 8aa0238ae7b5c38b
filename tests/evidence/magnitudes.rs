//! Rates are of a size that workshops and riders know, or have evidence beside them.

use super::{DERIVED, SHIPPED, on_the_mix};
use fardel::domain::{BasisKind, SourceKind};
use fardel::evidence::{LEAST, rested_on};

/// Parts that wear out or are lost on ordinary bikes.
const WEAR: [&str; 28] = [
    "chain-broken",
    "sprocket-teeth-gone",
    "sprocket-bolts-loose",
    "belt-broken",
    "clutch-cable-broken",
    "clutch-burnt",
    "throttle-cable-broken",
    "front-bearing-gone",
    "rear-bearing-gone",
    "headlamp-bulb-blown",
    "tail-lamp-out",
    "battery-dead",
    "battery-terminal-loose",
    "regulator-dead",
    "charging-plug-burnt",
    "fuse-blown",
    "wire-chafed",
    "stand-switch-dead",
    "plug-fouled",
    "plug-cap-cracked",
    "fork-seal-leaks",
    "shock-leaks",
    "steering-head-loose",
    "front-pads-worn",
    "rear-pads-worn",
    "fuel-pump-dead",
    "fuel-filter-clogged",
    "radiator-hose-split",
];

/// Once in 500,000 km of the usual mix.
const SELDOM: f64 = 1.0 / 500.0;

/// None is rarer than that unless sources say so beside it: more than that distance together, or a length of life.
#[test]
fn wear_parts_are_not_rarer_than_once_in_half_a_million_kilometres_without_evidence() {
    for id in WEAR {
        let rate = on_the_mix(&SHIPPED.failures[id]);
        if rate >= SELDOM {
            continue;
        }
        let rested = rested_on(&SHIPPED, &DERIVED, id).unwrap_or_else(|| panic!("{id}: {rate:.5}, no evidence"));
        let km: f64 = rested.bearings.iter().map(|own| SHIPPED.evidence.sources[&own.source].km).sum();
        println!("{id}: once in {:.0} km, {} sources over {km:.0} km", 1000.0 / rate, rested.bearings.len());
        let life = rested.bearings.iter().any(|own| SHIPPED.evidence.sources[&own.source].kind == SourceKind::LifeTest);
        assert!(km >= 500_000.0 || life, "{id}: {rate:.5} per 1000 km, sources over {km:.0} km only");
        assert_eq!(SHIPPED.failures[id].rate.basis.kind, BasisKind::Evidence, "{id}: nothing printed beside it");
    }
}

#[test]
fn every_rate_is_worth_an_event_or_nearly() {
    for failure in SHIPPED.failures.values() {
        let worth = failure.rate.worth_events;
        assert!((LEAST..=50.0).contains(&worth), "{}: {worth}", failure.id);
    }
}

/// What the logs have in all, in groups that all logs tell of, within a factor of two of what the rates would have.
#[test]
fn the_pooled_logs_are_met_in_all() {
    let groups = fardel::evidence::overview(&SHIPPED, &DERIVED);
    let survey = groups.iter().filter(|group| group.family == fardel::domain::Family::Survey);
    let (seen, found, typed) =
        survey.fold((0.0, 0.0, 0.0), |(a, b, c), own| (a + own.seen, b + own.found, c + own.typed));
    println!("groups of the owner survey: {seen} seen, {found:.1} now, {typed:.1} by the survey alone");
    assert!((0.5..=2.0).contains(&(found / seen)), "{seen} against {found}");
    assert!(typed < seen / 2.0, "the survey alone would do");
}
