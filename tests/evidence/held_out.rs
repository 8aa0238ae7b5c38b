//! Rates against sources that nothing was made from. Factors are stated: these sources count other things than travellers do.

use super::{SHIPPED, reader};
use fardel::domain::{Failure, SourceKind, Surface};

/// A year on sealed roads. derived from a published mean: 4,221 km a bike, US, 2009 (FHWA Highway Statistics, table VM-1M);
/// fifty days from memory.
const YEAR: (f64, f64) = (4221.0, 50.0);

/// Occurrences of a group's failures in so many kilometres and days on sealed roads, `per_day` rates counted.
fn on_sealed_roads(group: &str, (km, days): (f64, f64)) -> f64 {
    let reader = reader();
    let of = |own: &Failure| {
        let rate = own.rate.per_1000_km.on(Surface::Sealed) * km / 1000.0 + own.rate.per_day * days;
        reader.reach(own) * rate
    };
    reader.failures(&SHIPPED.evidence.groups[group]).map(of).sum()
}

fn within(what: &str, found: f64, published: f64, factor: f64) {
    println!("{what}: {found:.4} against {published:.4}, {:.2} times", found / published);
    assert!((found / published).max(published / found) <= factor, "{what}: {found} against {published}");
}

#[test]
fn what_is_held_out_is_not_used() {
    let held: Vec<_> = SHIPPED.evidence.sources.values().filter(|source| source.held_out).collect();
    assert!(held.len() >= 4 && held.iter().all(|source| source.kind != SourceKind::TripLog));
    for pooled in super::DERIVED.groups.values() {
        assert!(pooled.cells.iter().all(|cell| held.iter().all(|source| source.id != cell.source)));
    }
}

/// published, second-hand: roadworthiness tests of motorcycles, Great Britain, 2021/22: 15.52 % of 962,802 failed, of these
/// 40.2 % by lamps and 16.8 % by brakes. A test counts faults that stop nobody and the aim of lamps: six times what shows under
/// way is judged, and may be off by four.
#[test]
fn inspections_in_britain() {
    let tested = (3920.0, 50.0);
    let lamps = on_sealed_roads("lamps", tested) + on_sealed_roads("headlamp-bulb", tested);
    within("lamps at the test", lamps * 6.0, 0.1552 * 0.402, 4.0);
    within("brakes at the test", on_sealed_roads("brakes", tested) * 6.0, 0.1552 * 0.168, 4.0);
}

/// published: main inspections of motorcycles, Germany, 2008: lighting 28.7 and brakes 14.5 % of defects.
#[test]
fn inspections_in_germany() {
    let tested = (7840.0, 100.0);
    let lamps = on_sealed_roads("lamps", tested) + on_sealed_roads("headlamp-bulb", tested);
    within("lamps for one of brakes", lamps / on_sealed_roads("brakes", tested), 28.7 / 14.5, 3.0);
}

/// Systems that a roadside patrol is called for.
const STRANDED: [&str; 12] = [
    "punctures",
    "flat-battery",
    "battery",
    "charging",
    "chain",
    "chain-off",
    "clutch-control",
    "clutch-plates",
    "fuel-supply",
    "out-of-fuel",
    "ignition",
    "wiring",
];

/// published, second-hand: motorcycle roadside service, Australia: 62 % of call-outs for tyres.
#[test]
fn call_outs_in_australia() {
    let all: f64 = STRANDED.iter().map(|group| on_sealed_roads(group, YEAR)).sum();
    within("share of tyres", on_sealed_roads("punctures", YEAR) / all, 0.62, 1.6);
}

/// published, second-hand: UK roadside club, 2015: tyres first, flat battery second, alternator and drive chain fourth and fifth
/// of about 40,300 call-outs. A flat battery at home is not counted here, so only tyres are asked to come first, and the
/// battery not to be beyond ten times the alternator and the chain.
#[test]
fn call_outs_in_britain() {
    let year = |group| on_sealed_roads(group, YEAR);
    let (tyres, flat) = (year("punctures"), year("flat-battery"));
    println!(
        "tyres {tyres:.4}, flat battery {flat:.4}, alternator {:.4}, chain {:.4}",
        year("charging"),
        year("chain")
    );
    for other in ["flat-battery", "charging", "chain"] {
        assert!(tyres > year(other), "{other}");
    }
    assert!(flat < 10.0 * year("charging") && flat < 10.0 * year("chain"));
}

/// published: motoring federation, Japan, 2011: beyond punctures and flat batteries, which are used, the order is out of fuel,
/// battery worn out, charging, carburettor, plugs. Neighbours may change places within a factor of four.
#[test]
fn call_outs_in_japan_go_on_in_that_order() {
    let order =
        ["out-of-fuel", "battery", "charging", "carburettor", "ignition"].map(|group| on_sealed_roads(group, YEAR));
    println!("order in Japan: {order:.5?}");
    for pair in order.windows(2) {
        assert!(pair[1] <= 4.0 * pair[0], "{order:?}");
    }
}
