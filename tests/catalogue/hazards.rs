//! What a careful mechanic forbids is in no repair (common practice, no source, unless a source is named).

use super::SHIPPED;
use fardel::domain::{Failure, Grade, Repair};

fn repairs() -> impl Iterator<Item = (&'static Failure, &'static Repair)> {
    SHIPPED.failures.values().flat_map(|failure| failure.repairs.iter().map(move |repair| (failure, repair)))
}

fn place(failure: &Failure, repair: &Repair) -> String {
    format!("{}.{}", failure.id, repair.id)
}

/// Petrol attacks silicone: neither sealant nor self-fusing tape holds it (polymer resistance tables rate silicone rubber
/// "not recommended" for petrol; from memory).
#[test]
fn no_silicone_meets_petrol() {
    for (failure, repair) in repairs().filter(|(failure, _)| failure.system == "fuel" || failure.id == "tank-holed") {
        for stock in ["gasket sealant", "hose tape"] {
            assert!(!repair.uses.contains_key(stock), "{} uses {stock}", place(failure, repair));
        }
    }
}

/// Wire, ties, tape and putty hold no axle, sprocket, lever pivot, caliper or pad.
#[test]
fn nothing_tied_or_glued_carries_the_rider() {
    let carry =
        ["axle-nut-lost", "front-sprocket-loose", "sprocket-bolts-loose", "caliper-bolt-loose", "lever-pivot-lost"];
    let tied = ["steel wire", "zip tie", "cloth tape", "epoxy putty", "hose tape", "cord", "metal strip"];
    for id in carry {
        for repair in &SHIPPED.failures[id].repairs {
            assert!(!tied.iter().any(|stock| repair.uses.contains_key(*stock)), "{id}.{}", repair.id);
        }
    }
}

/// A bodge of a brake gets a bike to where it can be fetched, not on with the trip.
#[test]
fn a_bodge_of_a_brake_restores_little() {
    let brakes = ["front-pads-worn", "rear-pads-worn", "drum-shoes-worn", "brake-master-broken", "brake-lever-broken"];
    let mut seen = 0;
    for (failure, repair) in repairs() {
        let brake = failure.system == "brakes" || brakes.contains(&failure.id.as_str());
        if brake && repair.grade == Grade::Bodge {
            assert!(repair.restores <= 0.5, "{} restores {}", place(failure, repair), repair.restores);
            assert!(!repair.steps.is_empty(), "{} does not say how", place(failure, repair));
            seen += 1;
        }
    }
    assert!(seen > 5, "only {seen} bodges of brakes");
}

/// Whoever works on brakes, wheels, steering, petrol or the final drive is told what to look at before riding on.
#[test]
fn dangerous_work_says_what_to_look_at() {
    let systems = ["brakes", "wheels", "fuel", "drive", "cooling"];
    for (failure, repair) in repairs().filter(|(failure, _)| systems.contains(&failure.system.as_str())) {
        let quiet = ["tank-breather-blocked", "shaft-boot-torn", "chain-guide-broken", "spokes-loose"];
        let told = !repair.check_after.is_empty() || quiet.contains(&failure.id.as_str());
        assert!(told || repair.grade == Grade::Full, "{} says nothing to look at", place(failure, repair));
    }
}

/// Water for the radiator comes from somewhere: every repair that needs it says so.
#[test]
fn what_takes_water_says_so() {
    for (failure, repair) in
        repairs().filter(|(_, repair)| repair.steps.iter().any(|step| step.contains("water to spare")))
    {
        assert!(repair.basis.note.contains("L of water"), "{}: {}", place(failure, repair), repair.basis);
    }
}

/// An axle wants 60 to 100 Nm; on a handle of 165 mm that is 36 to 61 kg, on one of 250 mm 24 to 41 kg.
#[test]
fn axle_keys_go_on_the_long_handle() {
    for size in ["14 mm", "17 mm", "19 mm", "22 mm"] {
        let ways = &SHIPPED.functions[&format!("hex key {size}")].also_from;
        assert!(!ways.is_empty());
        for way in ways {
            assert!(way.iter().any(|function| function == "long handle"), "hex key {size}: {way:?}");
        }
    }
}

/// A tyre wears through with or without a tube in it.
#[test]
fn any_tyre_can_wear_through() {
    for bike in SHIPPED.bikes.values() {
        let worn = |failure: &&Failure| failure.id.starts_with("tyre-worn-through") && bike.matches(&failure.applies);
        assert_eq!(SHIPPED.failures.values().filter(worn).count(), 1, "{}", bike.id);
    }
}
