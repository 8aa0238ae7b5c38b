//! The mix of non-tyre mechanical failures against a published owner survey.

use super::SHIPPED;
use fardel::domain::{Bike, Failure, Surface};

/// Shares of repaired bikes with a repair in each system, in percent.
///
/// published, second-hand: US consumer-testing magazine, April 2015, owner survey of over 12,300 motorcycles.
const SHARES: [(&str, f64); 10] = [
    ("electrical", 24.0),
    ("accessories", 19.0),
    ("brakes", 18.0),
    ("fuel", 13.0),
    ("clutch", 8.0),
    ("body", 6.0),
    ("drive", 6.0),
    ("valve-train", 5.0),
    ("suspension", 5.0),
    ("cooling", 4.0),
];

/// Rank correlation below which the mix is no longer that of the survey.
const LEAST: f64 = 0.8;

#[test]
fn the_vocabulary_copies_the_published_shares() {
    for (system, share) in SHARES {
        assert_eq!(SHIPPED.systems[system].share, Some(share), "{system}");
    }
}

/// The survey is of road bikes, so the sealed rates are compared, on the bike that has most of what can break.
#[test]
fn the_mix_of_systems_ranks_as_in_the_survey() {
    let bike = SHIPPED.bikes.values().max_by_key(|bike| surveyed(bike).count()).unwrap();
    let published: Vec<f64> = SHARES.iter().map(|(_, share)| *share).collect();
    let rates: Vec<f64> = SHARES.iter().map(|(system, _)| rate(bike, system)).collect();
    let correlation = spearman(&published, &rates);
    println!("{}: Spearman rank correlation with the survey {correlation:.3}, {rates:?}", bike.name);
    assert!(correlation >= LEAST, "{}: {correlation:.3}, {rates:?}", bike.name);
}

fn surveyed(bike: &Bike) -> impl Iterator<Item = &'static Failure> {
    let known = |failure: &&Failure| SHARES.iter().any(|(system, _)| failure.system == *system);
    SHIPPED.failures.values().filter(known).filter(|failure| bike.matches(&failure.applies))
}

fn rate(bike: &Bike, system: &str) -> f64 {
    surveyed(bike).filter(|f| f.system == system).map(|f| f.rate.per_1000_km.on(Surface::Sealed)).sum()
}

/// The correlation of ranks, ties having the mean of their ranks (Spearman 1904; textbook formula).
fn spearman(a: &[f64], b: &[f64]) -> f64 {
    pearson(&ranks(a), &ranks(b))
}

#[allow(clippy::cast_precision_loss, reason = "a handful of ranks")]
fn ranks(values: &[f64]) -> Vec<f64> {
    let rank = |value: &f64| {
        let below = values.iter().filter(|other| *other < value).count();
        let equal = values.iter().filter(|other| other.total_cmp(value).is_eq()).count();
        below as f64 + 0.5 * (equal as f64 + 1.0)
    };
    values.iter().map(rank).collect()
}

#[allow(clippy::cast_precision_loss, reason = "a handful of values")]
fn pearson(a: &[f64], b: &[f64]) -> f64 {
    let mean = |values: &[f64]| values.iter().sum::<f64>() / values.len() as f64;
    let (mean_a, mean_b) = (mean(a), mean(b));
    let product = |of: &[f64], mean: f64, with: &[f64], other: f64| -> f64 {
        of.iter().zip(with).map(|(x, y)| (x - mean) * (y - other)).sum()
    };
    product(a, mean_a, b, mean_b) / (product(a, mean_a, a, mean_a) * product(b, mean_b, b, mean_b)).sqrt()
}

/// Call-outs of a roadside club in a year, most often first; what it calls mechanical is left out, being anything.
///
/// published, second-hand: UK roadside club, 2015, the top five of about 40,300 call-outs: tyres, flat battery,
/// mechanical, alternator, drive chain. Only the place of the flat battery was looked at when rates were written down.
/// Charging and the chain itself are nearly level here (the source gives no numbers for either), and sprocket troubles,
/// which the source does not name, would turn the two round.
const CALLED_OUT: [(&str, &[&str]); 4] = [
    ("tyres", &["rear-puncture-tubed", "front-puncture-tubed", "rear-valve-torn", "rear-cut-tubed", "front-cut-tubed"]),
    ("flat battery", &["battery-flat", "battery-dead"]),
    ("alternator", &["regulator-dead", "charging-plug-burnt"]),
    ("drive chain", &["chain-broken", "chain-jammed", "joining-clip-lost"]),
];

/// A year on sealed roads. derived from a published mean: 4,221 km a bike, US, 2009 (FHWA Highway Statistics, table
/// VM-1M); fifty days from memory.
const YEAR: (f64, f64) = (4221.0, 50.0);

#[test]
fn a_year_on_sealed_roads_ranks_as_the_call_outs_of_a_roadside_club() {
    let bike = &SHIPPED.bikes["twin-700-tubed"];
    let count = |id: &&str| {
        let failure = &SHIPPED.failures[*id];
        assert!(bike.matches(&failure.applies), "{id} cannot happen to the {}", bike.name);
        failure.rate.per_1000_km.on(Surface::Sealed) * YEAR.0 / 1000.0 + failure.rate.per_day * YEAR.1
    };
    let counts = CALLED_OUT.map(|(name, ids)| (name, ids.iter().map(count).sum::<f64>()));
    println!("a year on sealed roads: {counts:.5?}");
    assert!(counts.is_sorted_by(|(_, a), (_, b)| a > b), "{counts:?}");
}

#[test]
fn ranks_share_ties_and_extremes_come_out() {
    assert_eq!(ranks(&[10.0, 30.0, 30.0, 20.0]), [1.0, 3.5, 3.5, 2.0]);
    assert!((spearman(&[1.0, 2.0, 3.0], &[10.0, 20.0, 90.0]) - 1.0).abs() < 1e-12);
    assert!((spearman(&[1.0, 2.0, 3.0], &[3.0, 2.0, 1.0]) + 1.0).abs() < 1e-12);
    // by hand: ranks 1 2 3 4 against 2 1 4 3, 1 - 6 x 4 / (4 x 15)
    assert!((spearman(&[1.0, 2.0, 3.0, 4.0], &[2.0, 1.0, 4.0, 3.0]) - 0.6).abs() < 1e-12);
}
