//! The shares of an owner survey, from which typed-in rates are made, are copied as they were published.

use super::SHIPPED;

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

#[test]
fn the_vocabulary_copies_the_published_shares() {
    for (system, share) in SHARES {
        assert_eq!(SHIPPED.systems[system].share, Some(share), "{system}");
    }
}
