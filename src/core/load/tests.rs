//! The loader as a whole, on small texts.

use super::*;
use crate::diagnostic::Code;
use crate::domain::Surface;

const SOUND: &str = include_str!("../../../tests/faulty/sound/catalogue.yaml");
const TRIP: &str = include_str!("../../../tests/faulty/sound/scenario.yaml");

fn source(name: &str, text: &str) -> Source {
    Source { name: name.to_owned(), text: text.to_owned() }
}

fn no_extra(name: &str) -> Result<Source, Unreadable> {
    Err(Unreadable { name: name.to_owned(), reason: "no such file".to_owned() })
}

fn with(text: &str) -> Result<Catalogue, Faults> {
    catalogue(&[source("sound.yaml", SOUND), source("more.yaml", text)], &[])
}

fn codes(result: Result<Catalogue, Faults>) -> Vec<Code> {
    result.map_or_else(|faults| faults.0.iter().map(|fault| fault.code).collect(), |_| Vec::new())
}

#[test]
fn families_become_members() {
    let catalogue = with("").unwrap();
    let names: Vec<&str> = catalogue.functions.keys().map(String::as_str).collect();
    assert_eq!(names, ["inflation", "tyre lever", "socket 24 mm", "socket 27 mm", "hex 24 mm", "hex 27 mm"]);
    assert_eq!(catalogue.functions["hex 24 mm"].also_from, [["socket 24 mm"]]);
    assert_eq!(catalogue.functions["hex 24 mm"].name, "turn a 24 mm hex");
}

/// 0.0035 per 1000 km x share 0.15 x ladder (1, 2, 3, 6).
#[test]
fn an_anchored_rate_is_anchor_times_share_times_ladder() {
    let catalogue = with(
        "systems:
  electrical: { name: electrics, share: 24, per_1000_km: 0.0035, basis: from memory }
ladders:
  shaking: { sealed: 1, gravel: 2, track: 3, rough: 6, basis: from memory }
failures:
  fuse-blown:
    name: fuse blown
    system: electrical
    outcome: nags
    nags_hours: 1 h
    rate: { share_of_system: 0.15, ladder: shaking, worth_events: 0.5, basis: from memory }
",
    )
    .unwrap();
    let rate = &catalogue.failures["fuse-blown"].rate;
    let expected = [0.000_525, 0.001_05, 0.001_575, 0.003_15];
    for (surface, expected) in Surface::ALL.iter().zip(expected) {
        assert!((rate.per_1000_km.on(*surface) - expected).abs() < 1e-12, "{surface:?}");
    }
    assert!((rate.worth_events - 0.5).abs() < 1e-12);
}

#[test]
fn surfaces_left_out_of_a_rate_are_zero() {
    let catalogue = with("").unwrap();
    let rate = &catalogue.failures["rear-puncture"].rate.per_1000_km;
    assert!((rate.on(Surface::Rough) - 0.4).abs() < 1e-12);
    assert!(rate.on(Surface::Gravel).abs() < 1e-12);
}

#[test]
fn a_bike_inherits_and_merges_attributes() {
    let catalogue =
        with("bikes:\n  wide: { like: single, name: wide one, attributes: { rear_tyre: tubeless } }\n").unwrap();
    let wide = &catalogue.bikes["wide"];
    assert_eq!(wide.attributes["axle_nut"], "27 mm");
    assert_eq!(wide.attributes["rear_tyre"], "tubeless");
    assert_eq!(wide.mass, catalogue.bikes["single"].mass);
    assert_eq!(wide.name, "wide one");
}

#[test]
fn attributes_may_refer_to_attributes() {
    let text = "attributes:\n  front_axle: { name: front axle }\nbikes:\n  b: { like: single, attributes: { front_axle: 'hex {axle_nut}' } }\n";
    assert_eq!(with(text).unwrap().bikes["b"].attributes["front_axle"], "hex 27 mm");
}

#[test]
fn an_extra_catalogue_overrides_and_says_so() {
    let extra = source("mine.yaml", "items:\n  patch-kit: { like: patch-kit, mass: 45 g }\n");
    let scenario = source("trip.yaml", &format!("catalogues: [mine.yaml]\n{TRIP}"));
    let loaded = load_texts(&[source("sound.yaml", SOUND)], scenario, &|_| Ok(extra.clone())).unwrap();
    let kit = &loaded.catalogue.items["patch-kit"];
    assert!((kit.mass.grams() - 45.0).abs() < 1e-9);
    assert_eq!(kit.holds["tube patch"], 8);
    assert_eq!(loaded.notes, ["items.patch-kit from mine.yaml takes the place of the one from sound.yaml"]);
}

#[test]
fn many_entries_that_override_are_told_in_one_line() {
    let text = "items:\n  patch-kit: { like: patch-kit, mass: 45 g }\n  axle-spanner: { like: axle-spanner, mass: 145 g }\n\
                bikes:\n  single: { like: single, mass: 150 kg }\nbags:\n  roll: { like: roll, mass: 900 g }\n";
    let extra = source("mine.yaml", text);
    let scenario = source("trip.yaml", &format!("catalogues: [mine.yaml]\n{TRIP}"));
    let loaded = load_texts(&[source("sound.yaml", SOUND)], scenario, &|_| Ok(extra.clone())).unwrap();
    let expected = "4 entries from mine.yaml take the place of others: items.patch-kit, items.axle-spanner and 2 more";
    assert_eq!(loaded.notes, [expected]);
}

#[test]
fn an_extra_entry_may_replace_a_member_of_a_family() {
    let extra = source("mine.yaml", "functions:\n  hex 27 mm: { name: the big one }\n");
    let scenario = source("trip.yaml", &format!("catalogues: [mine.yaml]\n{TRIP}"));
    let loaded = load_texts(&[source("sound.yaml", SOUND)], scenario, &|_| Ok(extra.clone())).unwrap();
    assert_eq!(loaded.catalogue.functions["hex 27 mm"].name, "the big one");
    assert_eq!(loaded.notes, ["hex 27 mm from mine.yaml takes the place of the one from sound.yaml"]);
}

#[test]
fn a_missing_extra_catalogue_is_a_fault() {
    let scenario = source("trip.yaml", &format!("catalogues: [mine.yaml]\n{TRIP}"));
    let faults = load_texts(&[source("sound.yaml", SOUND)], scenario, &no_extra).unwrap_err();
    assert_eq!(faults.0.len(), 1);
    assert_eq!((faults.0[0].code, faults.0[0].file.as_str()), (Code::Unreadable, "mine.yaml"));
}

#[test]
fn a_broken_entry_is_not_called_unknown() {
    let told = codes(with("stocks:\n  fuse: 3\nitems:\n  box: { like: patch-kit, holds: [fuse] }\n"));
    assert_eq!(told, [Code::WrongType]);
}

#[test]
fn a_misspelt_key_is_not_missing_as_well() {
    let told = codes(with("stocks:\n  fuse: { name: fuses, unitt: fuse }\n"));
    assert_eq!(told, [Code::UnknownKey]);
}

#[test]
fn a_quantity_told_once_is_not_missing_as_well_nor_for_the_heirs() {
    let text = "items:\n  a: { name: a, kind: tool, mass: 5, volume: 1 mL, longest: 1 mm, price: 1 USD, basis: from memory }\n  b: { like: a }\n";
    assert_eq!(codes(with(text)), [Code::NotAQuantity]);
}

#[test]
fn faults_of_several_files_come_together_in_the_order_of_files_and_lines() {
    let a = source("a.yaml", "stocks:\n  x: { unit: u }\n  y: { name: y, unit: u, z: 1 }\n");
    let b = source("b.yaml", "items: [1]\n");
    let faults = catalogue(&[a, b], &[]).unwrap_err();
    let places: Vec<String> = faults.0.iter().map(|f| format!("{}:{}", f.file, f.line.unwrap_or(0))).collect();
    assert_eq!(places, ["a.yaml:2", "a.yaml:3", "b.yaml:1"]);
}

#[test]
fn no_file_and_empty_files_are_an_empty_catalogue() {
    assert_eq!(codes(catalogue(&[], &[])), [Code::NothingThere]);
    assert_eq!(codes(catalogue(&[source("a.yaml", "# nothing\n")], &[])), [Code::NothingThere]);
}

#[test]
fn the_defaults_of_a_leg() {
    let loaded = load_texts(&[source("sound.yaml", SOUND)], source("trip.yaml", TRIP), &no_extra).unwrap();
    let leg = &loaded.scenario.trip.legs[0];
    assert_eq!((leg.nights, leg.water_every.get(), leg.food_every.get()), (0, 24.0, 24.0));
    assert_eq!((leg.lowest.celsius(), leg.highest.celsius()), (10.0, 25.0));
    assert!((leg.km.on(Surface::Gravel).km() - 120.0).abs() < 1e-12);
    assert!(leg.km.on(Surface::Rough).km().abs() < 1e-12);
}

#[test]
fn nights_make_the_temperatures_required() {
    let scenario = TRIP.replace("style: none", "style: roofed");
    let faults = load_texts(&[source("sound.yaml", SOUND)], source("t.yaml", &scenario), &no_extra).unwrap_err();
    let found: Vec<&str> = faults.0.iter().map(|fault| fault.found.as_str()).collect();
    assert_eq!(found, ["no `lowest`", "no `highest`"]);
}

#[test]
fn the_shipped_catalogue_loads() {
    if let Err(faults) = catalogue(&shipped(), &[]) {
        panic!("{faults}");
    }
}
