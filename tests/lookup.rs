//! `find`, `show` and `bike`, on the shipped catalogue; a size that is blamed where the rider wrote it.

use crate::support::fardel;
use fardel::load::{self, Source, Unreadable};
use std::fs;
use std::path::Path;

const TRIP: &str = "name: an afternoon\ntrip:\n  style: none\n  legs:\n    - { name: out and back, days: 1, km: { track: 60 }, \
                    hours_to_help: 5 h }\nriders:\n  - { name: Ilse, bike: mine, riding_skill: intermediate, repair_skill: handy, \
                    mass: 80 kg, bags: [tail-roll] }\n";

fn here() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn scenario(own: &str) -> Result<load::Loaded, String> {
    let text = format!("{TRIP}catalogue:\n{own}");
    let source = Source { name: "trip.yaml".to_owned(), text };
    let none = |name: &str| Err(Unreadable { name: name.to_owned(), reason: "no such file".to_owned() });
    load::load_texts(&load::shipped(), source, &none).map_err(|faults| faults.to_string())
}

#[test]
fn a_wrong_size_is_told_once_where_the_rider_wrote_it() {
    let told =
        scenario("  bikes:\n    mine: { like: single-450-tubed, attributes: { rear_axle: 24 mm } }\n").unwrap_err();
    assert!(told.contains("trip.yaml:10, catalogue.bikes.mine.attributes.rear_axle"), "{told}");
    assert!(told.contains("1 problem in 1 file"), "{told}");
    assert!(told.contains("`hex 22 mm`, `hex 24 mm`") && told.contains("did you mean `hex 24 mm`?"), "{told}");
    assert!(told.lines().count() < 10, "{told}");
}

#[test]
fn a_size_can_be_added_in_the_scenario_alone() {
    let own = "  functions:\n    hex 26 mm: { name: turn a 26 mm hex head or nut }\n  items:\n    spanner-26: { like: spanner-19, name: 26 mm \
               spanner, mass: 250 g, provides: [hex 26 mm] }\n  bikes:\n    mine: { like: single-450-tubed, attributes: { rear_axle: hex 26 mm } }\n";
    let loaded = scenario(own).unwrap();
    assert!(loaded.catalogue.functions.contains_key("hex 26 mm"));
    assert_eq!(loaded.catalogue.bikes["mine"].attributes["rear_axle"], "hex 26 mm");
    assert_eq!(loaded.catalogue.items["spanner-26"].provides.keys().collect::<Vec<_>>(), ["hex 26 mm"]);
}

#[test]
fn words_of_both_sides_of_the_sea_find_the_same() {
    let ids = |word: &str| {
        let run = fardel(here(), &["find", word, "--all", "--format", "json"]);
        assert_eq!((run.code, run.err.as_str()), (0, ""));
        let hits = run.json()["hits"].as_array().unwrap().iter().map(|hit| hit["id"].clone()).collect::<Vec<_>>();
        assert!(!hits.is_empty());
        hits
    };
    assert_eq!(ids("wrench"), ids("spanner"));
    assert_eq!(ids("gasoline"), ids("petrol"));
    let run = fardel(here(), &["find", "zzzz"]);
    assert!(run.refused(2).contains("Nothing is called `zzzz`"));
}

/// Every entry of the catalogue can be shown, as text and as JSON, and says its basis.
#[test]
fn every_entry_can_be_shown() {
    let catalogue = load::catalogue(&load::shipped(), &[]).unwrap();
    let repairs = catalogue.failures.values().flat_map(|f| f.repairs.iter().map(move |r| format!("{}/{}", f.id, r.id)));
    let ids = catalogue.items.keys().chain(catalogue.failures.keys()).chain(catalogue.bikes.keys());
    let ids = ids.chain(catalogue.bags.keys()).chain(catalogue.preparations.keys()).cloned().chain(repairs);
    let look = fardel::report::Look { units: fardel::units::UnitSystem::Metric, width: 80 };
    for id in ids {
        let entry = fardel::find::show(&catalogue, &id, look.units).unwrap_or_else(|| panic!("{id}"));
        assert!(!entry.basis.is_empty() && !entry.facts.is_empty(), "{id}");
        let text = fardel::report::terminal::entry(&entry, &look);
        let plain = anstream::adapter::strip_str(&text).to_string();
        let widest = plain.lines().map(|line| line.chars().count()).max().unwrap_or(0);
        assert!(widest <= 80, "{id}: {widest} columns\n{plain}");
        fardel::report::json::entry(&entry).unwrap();
    }
}

#[test]
fn show_says_what_is_asked_for() {
    let lever = fardel(here(), &["show", "tyre-lever"]);
    for part in ["210 g", "longest side", "rear tyre punctured: patch the tube", "Basis of the numbers"] {
        assert!(lever.out.contains(part), "{part} in {}", lever.out);
    }
    let unknown = fardel(here(), &["show", "pump"]);
    assert!(unknown.refused(2).contains("hand-pump"));
}

/// A sheet filled in at the bike becomes a bike that a scenario can ride, with a size that the catalogue lacks.
#[test]
fn a_filled_sheet_is_read_back() {
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    assert_eq!(fardel(at, &["bike", "single-450-tubed", "--format", "csv", "--out", "sheet.csv"]).code, 0);
    let sheet = fs::read_to_string(at.join("sheet.csv")).unwrap();
    let filled: Vec<String> = sheet
        .lines()
        .map(|line| match line.split(',').next() {
            Some("rear_axle") => format!("{line}26 mm"),
            Some("front_axle") => format!("{line}24"),
            Some("mass") => format!("{line}141 kg"),
            Some("rear_load_index") => format!("{line}66"),
            _ => line.to_owned(),
        })
        .collect();
    fs::write(at.join("filled.csv"), filled.join("\n")).unwrap();
    let read = fardel(at, &["bike", "single-450-tubed", "--read", "filled.csv", "--id", "mine", "--out", "mine.yaml"]);
    assert_eq!((read.code, read.err.as_str()), (0, ""));
    fs::write(at.join("trip.yaml"), format!("catalogues: [mine.yaml]\n{TRIP}")).unwrap();
    let loaded = load::load(&at.join("trip.yaml"), None).unwrap_or_else(|faults| panic!("{faults}"));
    let bike = &loaded.catalogue.bikes["mine"];
    assert_eq!(
        (bike.attributes["rear_axle"].as_str(), bike.attributes["front_axle"].as_str()),
        ("hex 26 mm", "hex 24 mm")
    );
    assert!((bike.mass.kilograms() - 141.0).abs() < 1e-9);
    assert_eq!(bike.rear_load_index, 66);
    assert_eq!(loaded.catalogue.functions["hex 26 mm"].name, "turn a 26 mm hex head or nut");
    // The same as YAML.
    fs::write(
        at.join("filled.yaml"),
        "mass: 141 kg\nrear_load_index: 66\nattributes: { front_axle: 24, rear_axle: 26 mm }\n",
    )
    .unwrap();
    let yaml = fardel(at, &["bike", "single-450-tubed", "--read", "filled.yaml", "--id", "mine"]);
    assert_eq!(yaml.out, fs::read_to_string(at.join("mine.yaml")).unwrap());
}

#[test]
fn a_badly_filled_sheet_is_told_line_by_line() {
    let folder = tempfile::tempdir().unwrap();
    let text =
        "key,yours\nrear_axl,hex 26 mm\nmass,heavy\nrear_tyre,solid\nfront_load_index,5000\nrear_axle,a big one\n";
    fs::write(folder.path().join("filled.csv"), text).unwrap();
    let run = fardel(folder.path(), &["bike", "single-450-tubed", "--read", "filled.csv", "--out", "mine.yaml"]);
    let told = run.refused(2);
    for part in [
        "filled.csv:2",
        "did you mean `rear_axle`?",
        "filled.csv:3",
        "filled.csv:4",
        "`tubed`, `tubeless`",
        "filled.csv:5",
        "filled.csv:6",
        "5 problems",
    ] {
        assert!(told.contains(part), "{part} in {told}");
    }
    assert!(!folder.path().join("mine.yaml").exists());
}

#[test]
fn the_sheet_is_a_page_that_loads_nothing() {
    let html = fardel(here(), &["bike", "single-450-tubed", "--format", "html"]).out;
    for part in ["<!doctype html>", "what takes the rear wheel off", "hex 27 mm", "Content-Security-Policy"] {
        assert!(html.contains(part), "{part}");
    }
    assert!(!html.contains("http://") && !html.contains("https://"), "{html}");
    let markdown = fardel(here(), &["bike", "single-450-tubed", "--format", "markdown"]).out;
    assert!(markdown.contains("| what | catalogue | yours |"), "{markdown}");
}

#[test]
fn what_a_kit_cannot_turn() {
    let run = fardel(here(), &["bike", "single-450-tubed", "--kit", "scenarios/day-ride-packed.csv"]);
    assert_eq!((run.code, run.err.as_str()), (0, ""));
    assert!(
        run.out.contains("cannot be turned with this kit") && run.out.contains("27 mm axle spanner"),
        "{}",
        run.out
    );
}
