//! What riders find in practice. Common practice, no source.

use crate::support::pack_with;
use fardel::answer::{PackAnswer, PackError};
use fardel::load::load;
use fardel::milp::Engine;
use fardel::units::Mass;
use std::path::Path;

/// A light rider, eight days of camping in mild weather, two soft side bags, with another limit on the kit.
fn eight_days(limit: Mass) -> Result<PackAnswer, PackError> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/properties/eight-days.yaml");
    let mut loaded = load(&path, None).unwrap_or_else(|faults| panic!("{faults}"));
    loaded.scenario.limits.kit_mass = Some(limit);
    pack_with(&loaded, Engine::Microlp)
}

/// Such a kit comes to 13 kg (28 lb), water and food counted. Common practice, no source.
#[test]
fn a_light_camping_kit_for_eight_days_comes_to_13_kg() {
    let answer = eight_days(Mass::from_grams(13_000)).unwrap();
    assert!(answer.proof.proven);
    for need in &answer.needs {
        assert!(need.carried >= need.demanded, "{}: {} of {}", need.name, need.carried, need.demanded);
    }
    let mass = answer.totals.mass;
    assert!(mass > Mass::from_grams(12_000) && mass <= Mass::from_grams(13_000), "{mass:?}");
}

/// Nor is 13 kg padding: at 10 kg (22 lb) the needs alone do not fit. Common practice, no source.
#[test]
fn ten_kilograms_do_not_do_for_it() {
    assert!(matches!(eight_days(Mass::from_grams(10_000)), Err(PackError::Infeasible { .. })));
}
