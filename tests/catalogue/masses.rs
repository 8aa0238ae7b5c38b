//! Densities, and what a whole toolkit comes to.

use super::SHIPPED;
use fardel::domain::Kind;
use std::ops::RangeInclusive;

/// Tools and the spares that go with them on a tubed bike with a 27 mm axle nut and a 520 chain.
const TOOLKIT: [(&str, u32); 28] = [
    ("ratchet-3-8", 1),
    ("socket-8", 1),
    ("socket-10", 1),
    ("socket-12", 1),
    ("socket-13", 1),
    ("socket-14", 1),
    ("spanner-10", 1),
    ("spanner-12", 1),
    ("hex-key-set", 1),
    ("screwdriver-2-way", 1),
    ("pliers", 1),
    ("multi-tool", 1),
    ("axle-lever-27", 1),
    ("tyre-lever", 2),
    ("hand-pump", 1),
    ("pressure-gauge", 1),
    ("patch-kit", 1),
    ("valve-core-kit", 1),
    ("chain-breaker", 1),
    ("joining-link-520", 2),
    ("plug-socket-16", 1),
    ("spoke-key", 1),
    ("zip-ties", 1),
    ("cloth-tape", 1),
    ("steel-wire", 1),
    ("epoxy-putty", 1),
    ("fuses", 1),
    ("test-lamp", 1),
];

/// A complete roll of tools weighs 2.5 to 5 kg (common practice, no source).
#[test]
fn a_standard_toolkit_weighs_what_toolkits_weigh() {
    let kg: f64 = TOOLKIT.iter().map(|(id, count)| SHIPPED.items[*id].mass.kilograms() * f64::from(*count)).sum();
    println!("standard toolkit: {kg:.2} kg");
    assert!((2.5..=5.0).contains(&kg), "{kg:.2} kg");
}

/// Plausible kilograms per litre as packed, by kind (common practice, no source): solid steel, 7.85 kg/L, on top for
/// tools and spares; cloth and down from air to wet cloth; what is mostly water, oil or food about 1 kg/L.
fn densities(kind: Kind) -> RangeInclusive<f64> {
    match kind {
        Kind::Tool | Kind::Spare => 0.1..=7.85,
        Kind::Shelter | Kind::Sleep | Kind::Clothing => 0.04..=0.9,
        Kind::Food | Kind::Water | Kind::Fuel => 0.1..=1.5,
        Kind::Consumable => 0.1..=3.0,
        Kind::Electronics => 0.2..=3.0,
        Kind::Cooking => 0.08..=2.5,
        Kind::FirstAid | Kind::Papers | Kind::Hygiene | Kind::Comfort => 0.08..=2.0,
    }
}

/// Bounds by kind: nothing packs denser than steel (7.85 kg/L), nothing lighter than down (common practice, no source).
#[test]
fn every_item_has_a_plausible_density() {
    for item in SHIPPED.items.values() {
        let density = item.mass.kilograms() / item.volume.litres();
        assert!(densities(item.kind).contains(&density), "{}: {density:.2} kg/L", item.id);
        assert!(density <= 7.85, "{}: denser than steel", item.id);
    }
}

/// A litre of water weighs a kilogram (published, any handbook; 1 % for heat and bubbles).
#[test]
fn water_weighs_what_it_weighs() {
    for item in SHIPPED.items.values() {
        if let Some(water) = item.meets.get("drinking water") {
            assert!(item.mass.grams() >= water.amount * 0.99, "{}: lighter than its water", item.id);
        }
    }
}
