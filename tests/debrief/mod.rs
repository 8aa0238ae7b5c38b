//! `fardel debrief`: rates that learn, a book that only grows, and bad logs that change nothing.

mod several;

use crate::cli::{Tiny, compare};
use crate::support::{Run, close, fardel};

/// Two rides on the tiny bike.
pub const LOG: &str = "rides:
  - name: quarry and back
    bike: single
    km: { sealed: 1000, gravel: 2000 }
    days: 9
    falls: 2
    broke: { puncture: 2, indicator-broken: 1 }
    carried: [tyre-lever, pump, patch-kit, zip-ties]
    used: { tyre-lever: 2, pump: 2, patch-kit: 2 }
    missed: [clutch-cable]
  - name: the long way round
    bike: single
    km: { track: 1000 }
    days: 3
    falls: 0
    carried: [tyre-lever, pump, patch-kit, zip-ties]
    used: [pump]
";

fn debrief(tiny: &Tiny, further: &[&str]) -> Run {
    let own = ["debrief", "--book", "book.yaml", "--rates", "rates.yaml", "--catalogues", "catalogue", "--full"];
    fardel(tiny.path(), &own.iter().chain(further).copied().collect::<Vec<_>>())
}

fn with_log(log: &str) -> Tiny {
    let tiny = Tiny::new();
    tiny.write("log.yaml", log);
    tiny
}

#[test]
fn the_debrief_as_text() {
    compare("debrief", &debrief(&with_log(LOG), &["log.yaml"]));
}

#[test]
fn the_debrief_as_json() {
    compare("debrief-json", &debrief(&with_log(LOG), &["log.yaml", "--format", "json"]));
}

/// By hand; every rate is worth half an event. Punctures: expected 1 x 0.05 + 2 x 0.1 + 1 x 0.2 = 0.45, two seen: factor
/// 2.5 / 0.95. Indicators: 0.2 in each of two falls, one seen: 1.5 / 0.9.
#[test]
fn rates_follow_the_rule_by_hand() {
    let tiny = with_log(LOG);
    let json = debrief(&tiny, &["log.yaml", "--format", "json"]).json();
    let find = |id: &str| {
        let failures = json["failures"].as_array().unwrap();
        failures.iter().find(|failure| failure["id"] == id).unwrap_or_else(|| panic!("no {id}")).clone()
    };
    let number = |value: &serde_json::Value| value.as_f64().unwrap();
    for failure in json["failures"].as_array().unwrap() {
        for interval in [&failure["before_per_1000_km"], &failure["after_per_1000_km"]] {
            assert!(number(&interval["low"]) < number(&interval["high"]), "{failure}");
        }
    }
    let puncture = find("puncture");
    close(number(&puncture["expected"]), 0.45, 1e-12);
    close(number(&puncture["before_per_1000_km"]["mean"]), 0.45 / 4.0, 1e-12);
    close(number(&puncture["after_per_1000_km"]["mean"]), 0.45 / 4.0 * 2.5 / 0.95, 1e-12);
    close(number(&puncture["worth_events"]), 2.5, 1e-12);
    let indicator = find("indicator-broken");
    close(number(&indicator["after_per_1000_km"]["mean"]), 0.4 / 4.0 * 1.5 / 0.9, 1e-12);
    close(number(&indicator["worth_events"]), 1.5, 1e-12);
    // None seen.
    let cable = find("clutch-cable-snapped");
    let (expected, shape) = (0.05 + 0.12 + 0.1, 0.5);
    close(number(&cable["expected"]), expected, 1e-12);
    close(number(&cable["after_per_1000_km"]["mean"]), expected / 4.0 * shape / (shape + expected), 1e-12);
    assert!(json["failures"].as_array().unwrap().iter().all(|failure| failure["id"] != "puncture-tubeless"));
    assert_eq!(json["unused"][0]["name"], "10 zip ties", "the levers, the pump and the patches were used");
    assert_eq!(json["unused"].as_array().unwrap().len(), 1);
    assert_eq!(json["missed"][0]["name"], "clutch cable");
}

/// What is learnt is in the catalogue that is written, and a scenario that names it packs by it.
#[test]
fn a_scenario_packs_by_the_rates_that_were_learnt() {
    let tiny = with_log(LOG);
    let mean = |tiny: &Tiny| {
        let json = tiny.pack(&["--format", "json"]).json();
        let risks = json["risks"].as_array().unwrap().clone();
        risks.iter().find(|risk| risk["id"] == "puncture").unwrap()["expected_occurrences"].as_f64().unwrap()
    };
    let before = mean(&tiny);
    assert_eq!(debrief(&tiny, &["log.yaml"]).code, 0);
    tiny.write("trip.yaml", &tiny.read("trip.yaml").replace("trip:\n", "catalogues: [rates.yaml]\ntrip:\n"));
    close(mean(&tiny) / before, 2.5 / 0.95, 1e-9);
}

/// One ride after the other, in either order, or both at once: the same rates.
#[test]
fn the_book_grows_and_the_order_does_not_matter() {
    let (first, second) = LOG.split_at(LOG.find("  - name: the long").unwrap());
    let second = format!("rides:\n{second}");
    let rates = |logs: &[&str]| {
        let tiny = Tiny::new();
        let mut books: Vec<String> = Vec::new();
        for (at, log) in logs.iter().enumerate() {
            tiny.write(&format!("{at}.yaml"), log);
            let run = debrief(&tiny, &[&format!("{at}.yaml")]);
            assert_eq!(run.code, 0, "{}", run.err);
            let book = tiny.read("book.yaml");
            assert!(books.last().is_none_or(|before| book.starts_with(before)), "what was there stays to the letter");
            books.push(book);
        }
        let rates = tiny.read("rates.yaml");
        // Without a new ride the same comes out again.
        assert_eq!(debrief(&tiny, &[]).code, 0);
        assert_eq!((tiny.read("rates.yaml"), tiny.read("book.yaml")), (rates.clone(), books.pop().unwrap()));
        rates
    };
    let both = rates(&[LOG]);
    assert_eq!(both, rates(&[first, &second]));
    // Added up in the other order, the last bit of a number may differ.
    let other = rates(&[&second, first]);
    assert_eq!(both.lines().count(), other.lines().count());
}

/// With anything wrong, neither file is touched.
#[test]
fn a_bad_log_changes_nothing() {
    let tiny = with_log(LOG);
    assert_eq!(debrief(&tiny, &["log.yaml"]).code, 0);
    let before = (tiny.read("book.yaml"), tiny.read("rates.yaml"));
    let good = "rides: [{ name: third, bike: single, km: { sealed: 10 }, days: 1, falls: 0, broke: { puncture: 1 } }]";
    let bad = [
        (LOG, "`quarry and back` again"),
        ("rides: []\n", "no ride"),
        (&good.replace("single", "singel") as &str, "single"),
        (&good.replace("puncture", "punkture"), "puncture"),
        (&good.replace("puncture", "puncture-tubeless"), "a failure that this bike can have"),
        (&good.replace("sealed: 10", "sealed: 0"), "no kilometres"),
        (&good.replace("days: 1, ", ""), "days"),
        (&good.replace("falls: 0", "falls: -1"), "falls"),
        (&good.replace("broke", "broken"), "broken"),
        ("rides: {", "YAML"),
    ];
    for (log, told) in bad {
        tiny.write("log.yaml", log);
        let run = debrief(&tiny, &["log.yaml"]);
        assert!(run.refused(2).contains(told), "{log}\n{}", run.err);
        assert_eq!((tiny.read("book.yaml"), tiny.read("rates.yaml")), before, "{log}");
    }
    tiny.write("log.yaml", good);
    assert_eq!(debrief(&tiny, &["log.yaml"]).code, 0, "the good one goes in");
}

/// A book that cannot grow at its end, a catalogue that somebody wrote, rates that know the rides already.
#[test]
fn what_would_be_lost_is_refused() {
    let tiny = with_log(LOG);
    tiny.write("rates.yaml", "items: {}\n");
    assert!(debrief(&tiny, &["log.yaml"]).refused(2).contains("was not written by"));
    tiny.write(
        "rates.yaml",
        "# Rates by your own rides, written by `fardel debrief`. It writes this file anew each time.\n",
    );
    tiny.write("book.yaml", "rides: [{ name: first, bike: single, km: { sealed: 10 }, days: 1, falls: 0 }]\n");
    assert!(debrief(&tiny, &["log.yaml"]).refused(2).contains("nothing can be added at its end"));
    assert!(!tiny.read("book.yaml").contains("quarry"));
    tiny.write("book.yaml", LOG);
    assert_eq!(debrief(&tiny, &[]).code, 0);
    assert!(debrief(&tiny, &["--own", "rates.yaml"]).refused(2).contains("know the rides already"));
    assert_eq!(debrief(&Tiny::new(), &[]).code, 2, "neither a book nor a log");
}

/// One broken chain on a short ride with the shipped catalogue: the rate rises, by a factor that a rider would believe.
#[test]
fn one_broken_chain_does_not_make_it_an_everyday_thing() {
    let tiny = with_log(
        "rides: [{ name: over the hills, bike: single-650-carb, km: { sealed: 900, gravel: 400 }, days: 6, falls: 1, broke: [chain-broken] }]",
    );
    let run =
        fardel(tiny.path(), &["debrief", "log.yaml", "--book", "b.yaml", "--rates", "r.yaml", "--format", "json"]);
    let json = run.json();
    let chain = json["failures"].as_array().unwrap().iter().find(|own| own["id"] == "chain-broken").unwrap();
    let mean = |key: &str| chain[key]["mean"].as_f64().unwrap();
    let factor = mean("after_per_1000_km") / mean("before_per_1000_km");
    println!("one broken chain: {factor:.2} times");
    assert!(factor > 1.2 && factor <= 4.5, "{factor}");
}

/// By hand: with `E` expected and four seen, `(1 + 4) / (1 + E)`; a novice is expected to fall more often.
#[test]
fn falls_are_learnt_for_the_skill_that_the_rides_name() {
    let tiny = with_log("rides: [{ name: a, bike: single, km: { rough: 1000 }, days: 3, falls: 4 }]");
    let world = tiny.read("catalogue/world.yaml");
    let rough = |text: &str| -> f64 {
        let line = text.lines().find(|line| line.contains("falls_per_1000_km")).unwrap();
        line.split("rough:").nth(1).unwrap().split([',', '}']).next().unwrap().trim().parse().unwrap()
    };
    let typed = rough(&world);
    let json = debrief(&tiny, &["log.yaml", "--format", "json"]).json();
    let falls = &json["fall_rate"];
    close(falls["expected"].as_f64().unwrap(), typed, 1e-12);
    close(falls["after_per_1000_km"]["mean"].as_f64().unwrap(), typed * 5.0 / (1.0 + typed), 1e-12);
    close(falls["worth_events"].as_f64().unwrap(), 5.0, 1e-12);
    assert!(tiny.read("rates.yaml").contains("fall_rate:"));
    let novice =
        with_log("rides: [{ name: a, bike: single, km: { rough: 1000 }, days: 3, falls: 4, riding_skill: novice }]");
    let json = debrief(&novice, &["log.yaml", "--format", "json"]).json();
    let factor = json["fall_rate"]["expected"].as_f64().unwrap() / typed;
    assert!(factor > 1.0, "{factor}");
    assert!(novice.read("book.yaml").contains("riding_skill: novice"));
}
