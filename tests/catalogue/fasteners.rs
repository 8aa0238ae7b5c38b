//! Sizes of hexagons and hex keys against the tables of metric threads.

use super::{SHIPPED, leading_number, sizes};

/// Thread; hex across flats (ISO 272, 4014, 4032); older DIN size; small-flange head; hex key (ISO 4762); button head
/// (ISO 7380). published, second-hand: three agreeing renderings of the ISO columns; older sizes from an engineer's data
/// handbook; small-flange and button-head columns from memory, common practice.
const THREADS: [(&str, [f64; 5]); 8] = [
    ("M4", [7.0, 7.0, 7.0, 3.0, 2.5]),
    ("M5", [8.0, 8.0, 8.0, 4.0, 3.0]),
    ("M6", [10.0, 10.0, 8.0, 5.0, 4.0]),
    ("M8", [13.0, 13.0, 12.0, 6.0, 5.0]),
    ("M10", [16.0, 17.0, 14.0, 8.0, 6.0]),
    ("M12", [18.0, 19.0, 17.0, 10.0, 8.0]),
    ("M14", [21.0, 22.0, 19.0, 12.0, 12.0]),
    ("M16", [24.0, 24.0, 24.0, 14.0, 10.0]),
];

/// Axle nuts, adjusters and drain plugs of bikes, across flats in mm. common practice, no source.
const USUAL_HEX: [f64; 14] = [8.0, 10.0, 12.0, 13.0, 14.0, 16.0, 17.0, 19.0, 22.0, 24.0, 27.0, 30.0, 32.0, 36.0];

/// Keys for axles, pinch bolts and drain plugs, in mm. common practice, no source.
const USUAL_KEYS: [f64; 10] = [4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 14.0, 17.0, 19.0, 22.0];

/// Six-lobe sizes met on bikes. common practice, no source; the drive is that of ISO 10664.
const USUAL_SIX_LOBE: [f64; 5] = [25.0, 30.0, 40.0, 45.0, 50.0];

fn known(size: f64, columns: &[usize], usual: &[f64]) -> bool {
    let same = |other: &f64| (other - size).abs() < 1e-9;
    THREADS.iter().any(|(_, row)| columns.iter().any(|column| same(&row[*column]))) || usual.iter().any(same)
}

#[test]
fn hexagons_are_sizes_that_threads_or_bikes_have() {
    for family in ["hex ", "tight hex ", "socket ", "small socket ", "axle socket "] {
        for size in sizes(SHIPPED.functions.keys(), family) {
            assert!(known(leading_number(size), &[0, 1, 2], &USUAL_HEX), "{family}{size}");
        }
    }
}

#[test]
fn hex_keys_are_sizes_that_screws_or_axles_have() {
    for family in ["hex key ", "hex key bit ", "axle key "] {
        for size in sizes(SHIPPED.functions.keys(), family) {
            assert!(known(leading_number(size), &[3, 4], &USUAL_KEYS), "{family}{size}");
        }
    }
}

#[test]
fn six_lobe_sizes_are_those_met_on_bikes() {
    for family in ["six-lobe T", "six-lobe bit T", "six-lobe socket T"] {
        for size in sizes(SHIPPED.functions.keys(), family) {
            assert!(known(leading_number(size), &[], &USUAL_SIX_LOBE), "{family}{size}");
        }
    }
}

/// The bolts one carries: M5 to M10 turn with an 8, a 10, a 13 and a 16 by ISO 272, all of which are functions.
#[test]
fn every_bolt_carried_has_a_spanner_size() {
    for size in sizes(SHIPPED.stocks.keys(), "bolt M") {
        let (thread, row) =
            THREADS.iter().find(|(thread, _)| *thread == format!("M{size}")).expect("a thread of the table");
        let spanner = format!("hex {} mm", row[0]);
        assert!(SHIPPED.functions.contains_key(&spanner), "{thread}: {spanner}");
    }
}

/// Every size that a bike names is of the tables too.
#[test]
fn bikes_name_sizes_of_the_tables() {
    for bike in SHIPPED.bikes.values() {
        for (attribute, value) in &bike.attributes {
            if let Some(size) = value.strip_prefix("hex key ") {
                assert!(known(leading_number(size), &[3, 4], &USUAL_KEYS), "{}: {attribute} {value}", bike.id);
            } else if let Some(size) = value.trim_start_matches("tight ").strip_prefix("hex ") {
                assert!(known(leading_number(size), &[0, 1, 2], &USUAL_HEX), "{}: {attribute} {value}", bike.id);
            }
        }
    }
}
