//! Masses against tables of standards, typed in, and against arithmetic from sizes that standards fix.

use fardel::domain::{BasisKind, Catalogue};
use std::sync::LazyLock;

static SHIPPED: LazyLock<Catalogue> = LazyLock::new(|| {
    fardel::load::catalogue(&fardel::load::shipped(), &[]).unwrap_or_else(|faults| panic!("{faults}"))
});

/// Grams per cubic centimetre of steel: 7.85, as fastener tables reckon with it.
const STEEL: f64 = 7.85;

#[track_caller]
fn weighs(id: &str, grams: f64, within: f64) {
    let own = SHIPPED.items[id].mass.grams();
    assert!((own / grams - 1.0).abs() <= within, "{id}: {own} g against {grams:.1} g");
}

/// Castle nuts, DIN 935-1 (2013), kilograms per 1000: fasten.it, table of DIN 935-1 (published, second-hand).
#[test]
fn axle_nuts_are_those_of_din_935() {
    for (id, grams) in [("axle-nut-m14", 27.0), ("axle-nut-m16", 38.9), ("axle-nut-m18", 57.5), ("axle-nut-m20", 75.2)]
    {
        weighs(id, grams, 0.02);
        assert_eq!(SHIPPED.items[id].basis.kind, BasisKind::Standard, "{id}");
    }
}

/// Keys of JIS B 4648, volume times steel: 10.8, 19.2, 31.3 and 62.7 g (derived).
#[test]
fn hex_keys_are_those_of_jis_b_4648() {
    for (id, grams) in [("hex-key-4", 10.8), ("hex-key-5", 19.2), ("hex-key-6", 31.3), ("hex-key-8", 62.7)] {
        weighs(id, grams, 0.03);
    }
    let keys: f64 =
        ["hex-key-4", "hex-key-5", "hex-key-6", "hex-key-8"].map(|id| SHIPPED.items[id].mass.grams()).iter().sum();
    let set = SHIPPED.items["hex-key-set"].mass.grams();
    assert!((10.0..=40.0).contains(&(set - keys)), "the clip weighs {} g", set - keys);
}

/// An item, the diameter of its screws in mm, and the length of each in mm with kilograms per 1000.
type Screws = (&'static str, f64, &'static [(f64, f64)]);

/// Cap screws of DIN 912, kilograms per 1000 by length: fullerkr.com, weight chart of DIN 912 (published).
const SCREWS: [Screws; 4] = [
    ("bolts-m5", 5.0, &[(12.0, 3.0), (16.0, 3.5), (16.0, 3.5), (20.0, 4.0), (20.0, 4.0), (25.0, 4.8)]),
    ("bolts-m6", 6.0, &[(16.0, 5.8), (20.0, 6.5), (25.0, 7.6), (25.0, 7.6), (30.0, 8.3), (40.0, 11.0)]),
    ("bolts-m8", 8.0, &[(25.0, 15.0), (30.0, 16.9), (40.0, 20.9), (50.0, 24.9)]),
    ("bolts-m10", 10.0, &[(40.0, 32.9), (60.0, 45.7)]),
];

/// Nut of DIN 934: width across flats and height, mm (published, second-hand: a194grade2h.com, table of DIN 934). Washer of
/// DIN 125: hole, width and thickness, mm (from memory).
fn nut_and_washer(thread: f64) -> ((f64, f64), (f64, f64, f64)) {
    match thread {
        5.0 => ((8.0, 4.0), (5.3, 10.0, 1.0)),
        6.0 => ((10.0, 5.0), (6.4, 12.0, 1.6)),
        8.0 => ((13.0, 6.5), (8.4, 16.0, 1.6)),
        _ => ((17.0, 8.0), (10.5, 20.0, 2.0)),
    }
}

#[test]
fn bolts_are_screws_of_din_912_with_nut_and_washer() {
    let disc = |across: f64| std::f64::consts::FRAC_PI_4 * across * across;
    for (id, thread, screws) in SCREWS {
        let ((flats, height), (hole, width, thick)) = nut_and_washer(thread);
        let nut = (3.0_f64.sqrt() / 2.0 * flats * flats - disc(thread)) * height / 1000.0 * STEEL;
        let washer = (disc(width) - disc(hole)) * thick / 1000.0 * STEEL;
        let all: f64 = screws.iter().map(|(_, grams)| grams + nut + washer).sum();
        weighs(id, all, 0.03);
        let lengths: Vec<String> = screws.iter().map(|(length, _)| length.to_string()).collect();
        assert!(SHIPPED.items[id].basis.note.contains(&lengths.join(", ")), "{id} names its lengths");
    }
}

/// Deep-groove bearings by ISO 15: bore, outside diameter and width in mm (published, second-hand); two thirds of the ring
/// between are steel (from memory; the rest is air, grease and seals). They pack as two discs.
#[test]
fn bearings_are_rings_of_iso_15() {
    for (id, bore, outside, width) in [
        ("bearings-6202", 15.0, 35.0, 11.0),
        ("bearings-6203", 17.0, 40.0, 12.0),
        ("bearings-6204", 20.0, 47.0, 14.0),
        ("bearings-6205", 25.0, 52.0, 15.0),
        ("bearings-6905", 25.0, 42.0, 9.0),
        ("bearings-6006", 30.0, 55.0, 13.0),
    ] {
        let disc = |across: f64| std::f64::consts::FRAC_PI_4 * across * across * width / 1000.0;
        weighs(id, 2.0 * (disc(outside) - disc(bore)) * STEEL * 2.0 / 3.0, 0.04);
        let room = SHIPPED.items[id].volume.millilitres() / (2.0 * disc(outside));
        assert!((0.98..=1.2).contains(&room), "{id}: {room:.2} of its discs");
    }
}

/// Inner tubes: a ring of rubber on a rim of the size that ETRTO names (533, 483, 459 and 433 mm across the bead seat for
/// 21, 19, 18 and 17 in; from memory), 1150 kg/m3 (derived).
#[test]
fn tubes_are_rings_of_rubber() {
    for (id, rim, across, thick) in [
        ("tube-21", 533.0, 55.0, 1.75),
        ("tube-19", 483.0, 60.0, 1.75),
        ("tube-18", 459.0, 80.0, 2.0),
        ("tube-17", 433.0, 80.0, 1.75),
    ] {
        let (rim, across): (f64, f64) = (rim, across);
        let radius = f64::midpoint(rim, across);
        let area = std::f64::consts::PI * across * std::f64::consts::TAU * radius;
        weighs(id, area * thick * 1.15e-3, 0.03);
    }
}
