//! `new`: a scenario to begin with, written whole or not at all.

use super::{Tiny, compare};
use crate::support::fardel;

#[test]
fn a_new_scenario() {
    let run = fardel(Tiny::new().path(), &["new", "--bike", "single-450-tubed", "--days", "3"]);
    assert!(!run.answered().is_empty());
    compare("new", &run);
}

#[test]
fn an_existing_file_is_kept_unless_forced() {
    let tiny = Tiny::new();
    let arguments = [
        "new",
        "--bike",
        "single",
        "--days",
        "2",
        "--style",
        "roofed",
        "--out",
        "mine.yaml",
        "--catalogues",
        "catalogue",
    ];
    assert_eq!(fardel(tiny.path(), &arguments).answered(), "");
    let first = tiny.read("mine.yaml");
    assert!(first.contains("bike: single ") && first.contains("style: roofed"), "{first}");
    tiny.write("mine.yaml", "mine");
    let again = fardel(tiny.path(), &arguments);
    assert!(again.refused(2).contains("it exists already"), "{}", again.err);
    assert_eq!(tiny.read("mine.yaml"), "mine");
    assert_eq!(fardel(tiny.path(), &[&arguments[..], &["--force"]].concat()).answered(), "");
    assert_eq!(tiny.read("mine.yaml"), first);
    assert_eq!(tiny.files().len(), 3, "nothing else is left behind");
}

#[test]
fn an_unknown_bike_is_answered_with_the_nearest() {
    let tiny = Tiny::new();
    let run = fardel(
        tiny.path(),
        &["new", "--bike", "singel", "--days", "2", "--out", "mine.yaml", "--catalogues", "catalogue"],
    );
    assert!(run.refused(2).contains("did you mean `single`?"), "{}", run.err);
    assert_eq!(tiny.files().len(), 2);
    let day = ["new", "--bike", "single", "--days", "1", "--style", "camping", "--catalogues", "catalogue"];
    assert!(fardel(tiny.path(), &day).refused(2).contains("a single day has no nights"));
    for days in ["0", "61", "many"] {
        assert_eq!(fardel(tiny.path(), &["new", "--bike", "single", "--days", days]).code, 2, "{days}");
    }
}

/// Whatever is said, the file loads without a fault and names what was said.
#[test]
fn every_word_makes_a_file_that_loads() {
    let folder = tempfile::tempdir().unwrap();
    for (ground, help) in [("road", "near"), ("gravel", "hours"), ("mixed", "half-day"), ("rough", "day")] {
        for (season, style) in [("cold", "camping"), ("mild", "roofed"), ("hot", "camping")] {
            let file = format!("{ground}-{season}.yaml");
            let run = fardel(
                folder.path(),
                &[
                    "new",
                    "--bike",
                    "single-700-enduro",
                    "--days",
                    "4",
                    "--ground",
                    ground,
                    "--help-is",
                    help,
                    "--season",
                    season,
                    "--style",
                    style,
                    "--owns",
                    "basics,tyres",
                    "--hour",
                    "25 USD",
                    "--out",
                    &file,
                ],
            );
            assert_eq!(run.answered(), "");
            let text = std::fs::read_to_string(folder.path().join(&file)).unwrap();
            assert!(text.contains("hour: 25 USD") && text.contains("patch-kit: 1"), "{text}");
            assert!(!text.contains("tent-1"), "not said to be owned");
            fardel(folder.path(), &["check", &file]).answered();
        }
    }
}

/// A kit that a coach could look at: little bought, what is owned in it, and a few kilograms of tools.
#[test]
fn the_kit_of_a_new_scenario_buys_little_and_mends_punctures() {
    let folder = tempfile::tempdir().unwrap();
    let new = ["new", "--bike", "single-400-dirt", "--days", "3", "--out", "trip.yaml"];
    assert_eq!(fardel(folder.path(), &new).answered(), "");
    let json = fardel(folder.path(), &["pack", "trip.yaml", "--format", "json"]).json();
    assert!(json["totals"]["to_buy"].as_f64().unwrap() < 400.0, "{}", json["totals"]);
    let items: Vec<&serde_json::Value> =
        json["bags"].as_array().unwrap().iter().flat_map(|bag| bag["items"].as_array().unwrap()).collect();
    let ids: Vec<&str> = items.iter().map(|item| item["id"].as_str().unwrap()).collect();
    for owned in ["tent-1", "bag-0-synthetic", "hand-pump", "tyre-lever"] {
        assert!(ids.contains(&owned), "{owned} stays in: {ids:?}");
    }
    let tools: f64 = items
        .iter()
        .filter(|item| ["tool", "spare", "consumable"].contains(&item["kind"].as_str().unwrap()))
        .map(|item| item["mass_g"].as_f64().unwrap())
        .sum();
    assert!((1000.0..6000.0).contains(&tools), "{tools} g");
}

#[test]
fn wrong_words_are_answered_with_the_nearest() {
    let tiny = Tiny::new();
    let new = ["new", "--bike", "single", "--days", "2", "--catalogues", "catalogue"];
    let run = fardel(tiny.path(), &[&new[..], &["--ground", "gravle"]].concat());
    assert!(run.refused(2).contains("did you mean `gravel`?"), "{}", run.err);
    let run = fardel(tiny.path(), &[&new[..], &["--hour", "40 pounds"]].concat());
    assert!(run.refused(2).contains("--hour"), "{}", run.err);
    assert!(fardel(tiny.path(), &["new", "--days", "2", "--catalogues", "catalogue"]).refused(2).contains("--bike"));
    assert!(
        fardel(tiny.path(), &["new", "--bike", "single", "--catalogues", "catalogue"]).refused(2).contains("--days")
    );
}
