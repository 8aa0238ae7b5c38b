//! The written rates are those worked out; logs left out are foretold by the others.

use super::{DERIVED, SHIPPED};
use fardel::evidence::{falls, leave_one_out, updated};
use fardel::report::files;

/// After a change of evidence: `fardel evidence --rates catalogues/rates.yaml --replace`.
#[test]
fn the_catalogue_has_the_rates_of_the_derivation() {
    let mut counted = 0;
    for failure in SHIPPED.failures.values() {
        let Some(rate) = updated(&SHIPPED, &DERIVED, failure) else {
            assert!(failure.typed.is_none(), "{}: a rate from evidence, but no group", failure.id);
            continue;
        };
        counted += 1;
        assert_eq!(failure.rate, rate, "{}", failure.id);
    }
    let fallen = falls(&SHIPPED, &DERIVED).unwrap();
    assert_eq!(SHIPPED.model.falls_per_1000_km, fallen.per_1000_km);
    assert_eq!(SHIPPED.model.falls_worth_events.to_bits(), fallen.worth_events.to_bits());
    println!("{counted} of {} rates from evidence", SHIPPED.failures.len());
    assert!(counted > SHIPPED.failures.len() / 2);
    let written = std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/catalogues/rates.yaml")).unwrap();
    assert_eq!(written, files::derived(&SHIPPED, &DERIVED));
}

/// Ten systems of the owner survey.
const TEN: [&str; 10] =
    ["electrical", "accessories", "brakes", "fuel", "clutch", "body", "drive", "valve-train", "suspension", "cooling"];

#[test]
fn logs_left_out_are_foretold_by_the_others() {
    let systems = leave_one_out(&SHIPPED);
    let mut outside = Vec::new();
    for (id, foretold) in &systems {
        let (low, high) = foretold.interval();
        println!("{id}: {} seen, {:.1} foretold, {low} to {high}", foretold.seen, foretold.expected);
        if TEN.contains(&id.as_str()) && !foretold.holds() {
            outside.push(id.as_str());
        }
    }
    println!("outside their intervals: {outside:?}");
    assert!(TEN.iter().all(|id| systems.contains_key(*id)));
    assert!(outside.len() <= 2, "{outside:?}");
    // An interval that holds anything would pass as well.
    let narrow = TEN.iter().filter(|id| systems[**id].interval().1 <= 5.0 * systems[**id].expected.max(1.0)).count();
    assert!(narrow >= 8, "only {narrow} intervals end within five times what is foretold");
}
