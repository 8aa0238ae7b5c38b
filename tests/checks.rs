//! What is looked at before leaving: the checks of the bike, always all of them, and a few preparations after them.

use crate::cli::Tiny;
use crate::split::shown::SECOND;
use crate::support::fardel;
use fardel::domain::Catalogue;
use fardel::load::{self, Source};
use std::path::Path;

fn catalogue() -> Catalogue {
    load::catalogue(&load::shipped(), &[]).unwrap_or_else(|faults| panic!("{faults}"))
}

fn ids(catalogue: &Catalogue, bike: &str) -> Vec<String> {
    catalogue.checks_of(&catalogue.bikes[bike]).map(|check| check.id.clone()).collect()
}

/// Common practice, no source: what a bike has is looked at, what it has not is not.
#[test]
fn a_bike_gets_the_checks_of_its_parts() {
    let catalogue = catalogue();
    for bike in catalogue.bikes.values() {
        let ids = ids(&catalogue, &bike.id);
        let is = |attribute: &str, value: &str| bike.attributes.get(attribute).is_some_and(|own| own == value);
        for (check, wanted) in [
            ("spokes", is("wheels", "spoked") || is("wheels", "spoked tubeless")),
            ("chain", is("drive", "chain")),
            ("sprockets", is("drive", "chain")),
            ("belt", is("drive", "belt")),
            ("shaft", is("drive", "shaft")),
            ("coolant", is("cooling", "liquid")),
            ("rear-disc", is("rear_brake", "disc")),
            ("rear-drum", is("rear_brake", "drum")),
            ("clutch-cable", is("clutch", "cable")),
            ("clutch-line", is("clutch", "hydraulic")),
            ("throttle-cable", is("throttle", "cable")),
            ("engine-oil", is("energy", "fuel")),
            ("fuel-system", is("energy", "fuel")),
            ("battery", is("energy", "fuel")),
            ("drive-battery", is("energy", "battery")),
        ] {
            assert_eq!(ids.iter().any(|id| id == check), wanted, "{check} on {}", bike.id);
        }
        let always = ["front-brake", "tyres", "wheel-bearings", "fasteners", "steering", "suspension", "controls"];
        for check in always.iter().chain(&["lights", "brake-fluid", "luggage", "stands"]) {
            assert!(ids.iter().any(|id| id == check), "{check} on {}", bike.id);
        }
    }
    assert!(!ids(&catalogue, "twin-500-cast").contains(&"spokes".to_owned()), "cast wheels have no spokes");
    assert!(!ids(&catalogue, "twin-1250-shaft").contains(&"chain".to_owned()), "a shaft is no chain");
}

/// One or two short sentences, when to stop, and what the manual decides.
#[test]
fn checks_are_short_and_say_when_to_stop() {
    for check in catalogue().checks.values() {
        for text in [&check.look, &check.stop] {
            assert!(text.starts_with(char::is_uppercase) && text.ends_with('.'), "{}: {text}", check.id);
            assert!(text.len() <= 130 && text.matches(". ").count() <= 1, "{}: {text}", check.id);
        }
        assert!(!check.defer.is_empty() && !check.defer.ends_with('.'), "{}: {}", check.id, check.defer);
    }
}

/// The names of the checks in the JSON, in their order.
fn names(checks: &serde_json::Value) -> Vec<String> {
    checks.as_array().unwrap().iter().map(|check| check["name"].as_str().unwrap().to_owned()).collect()
}

/// All are there, in this order, and before `after`.
fn all_in_order(text: &str, names: &[String], after: &str) {
    let start = text.find("Before you leave: check").unwrap_or_else(|| panic!("no checks in\n{text}"));
    let mut from = start;
    for name in names {
        let at = text[from..].find(name.as_str());
        from += at.unwrap_or_else(|| panic!("`{name}` is not there, or not in its place:\n{text}"));
    }
    assert!(text.rfind(after).is_some_and(|at| at > from), "`{after}` comes before a check:\n{text}");
}

const OWN: [&str; 2] = ["Brakes", "Tyres and valves"];

#[test]
fn all_checks_are_shown_everywhere_whatever_is_done() {
    let tiny = Tiny::new();
    for done in ["done: [bars-guarded]", "done: [bars-guarded, cable-oiled]"] {
        let trip = tiny.read("trip.yaml").replace("done: [bars-guarded]", done);
        tiny.write("trip.yaml", &trip);
        let json = tiny.pack(&["--format", "json"]).json();
        assert_eq!(names(&json["checks"]), OWN);
        assert!(json["checks"][0]["stop"].as_str().unwrap().contains("leak"));
        let undone = !done.contains("oiled");
        assert_eq!(json["before_you_leave"].as_array().unwrap().len(), usize::from(undone));
        let after = if undone { "Worth doing before you leave" } else { "What the trip demands" };
        let own = OWN.map(str::to_owned);
        all_in_order(&tiny.pack(&[]).out, &own, after);
        let markdown = tiny.pack(&["--format", "markdown"]).out;
        all_in_order(&markdown, &own, after);
        let page = tiny.pack(&["--format", "html", "--curve", "0"]).out;
        for id in ["brakes", "tubed-tyres"] {
            assert_eq!(page.matches(&format!("data-tick=\"check&#x2f;1&#x2f;{id}\"")).count(), 1, "{id}");
        }
        assert!(!page.contains("Tyres and beads"), "a check of another bike");
    }
}

#[test]
fn the_card_has_them_in_full() {
    let tiny = Tiny::new();
    let card = |format: &str| {
        fardel(tiny.path(), &["card", "trip.yaml", "--catalogues", "catalogue", "--full", "--format", format]).out
    };
    for text in [card("text"), card("markdown"), card("html")] {
        all_in_order(&text, &OWN.map(str::to_owned), "Take care");
        assert!(text.contains("Lever sinking or a leak.") && text.contains("pad limits"), "{text}");
    }
}

#[test]
fn bikes_alike_are_told_once_and_others_for_themselves() {
    let tiny = Tiny::new();
    let trip = tiny.read("trip.yaml").replace("\nlimits:", SECOND);
    let run = |format: &str| {
        let run = ["split", "trip.yaml", "--catalogues", "catalogue", "--full", "--format", format];
        let run = fardel(tiny.path(), &run);
        assert_eq!(run.code, 0, "{}", run.err);
        run.out
    };
    tiny.write("trip.yaml", &trip);
    let json: serde_json::Value = serde_json::from_str(&run("json")).unwrap();
    let [group] = json["checks"].as_array().unwrap().as_slice() else { panic!("{}", json["checks"]) };
    assert_eq!(names(&group["checks"]), OWN);
    assert_eq!(group["riders"], serde_json::json!(["Aino", "Pekka"]));
    assert_eq!(run("text").matches("[ ] Brakes").count(), 1);
    let other = trip.replace("name: Pekka\n    bike: single", "name: Pekka\n    bike: tubeless");
    assert_ne!(other, trip);
    tiny.write("trip.yaml", &other);
    let json: serde_json::Value = serde_json::from_str(&run("json")).unwrap();
    let groups = json["checks"].as_array().unwrap();
    assert_eq!(groups.len(), 2);
    assert_eq!(names(&groups[1]["checks"]), ["Brakes", "Tyres and beads"]);
    let text = run("text");
    assert_eq!(text.matches("[ ] Brakes").count(), 1, "what is alike is told once:\n{text}");
    all_in_order(
        &text,
        &["Brakes", "Aino", "Tyres and valves", "Pekka", "Tyres and beads"].map(str::to_owned),
        "Take care",
    );
    let page = run("html");
    for tick in ["check/1/brakes", "check/1/tubed-tyres", "check/2/brakes", "check/2/tubeless-tyres"] {
        assert_eq!(page.matches(&format!("data-tick=\"{}\"", tick.replace('/', "&#x2f;"))).count(), 1, "{tick}");
    }
    assert!(run("markdown").contains("Tyres and beads"));
}

/// So many preparations are shown to a reader; the JSON has all.
const FEW: usize = 5;

/// The tiny world with so many preparations that each save something.
fn with_preparations(count: usize) -> Tiny {
    let tiny = Tiny::new();
    let world = tiny.read("catalogue/world.yaml");
    let (before, rest) = world.split_once("preparations:\n").unwrap();
    let rest = rest.split_once("\nchecks:").unwrap().1;
    let one = |at: usize| {
        format!(
            "  cable-{at}: {{ name: cable looked at {at}, type: adjustment, price: 0 USD, mass: 0 g, time: 10 min, \
             effects: {{ clutch-cable-snapped: 0.{at} }}, basis: from memory }}\n"
        )
    };
    let all: String = (1..=count).map(one).collect();
    let trip = tiny.read("trip.yaml").replace("done: [bars-guarded]", "done: []");
    tiny.write("trip.yaml", &trip);
    tiny.write("catalogue/world.yaml", &format!("{before}preparations:\n{all}\nchecks:{rest}"));
    tiny
}

#[test]
fn at_most_five_preparations_are_shown_and_where_the_rest_is() {
    for count in [4, FEW, 8] {
        let tiny = with_preparations(count);
        let json = tiny.pack(&["--format", "json"]).json();
        let all = names(&json["before_you_leave"]);
        assert_eq!(all.len(), count);
        let text = tiny.pack(&[]).out;
        let markdown = tiny.pack(&["--format", "markdown"]).out;
        let page = tiny.pack(&["--format", "html", "--curve", "0"]).out;
        for (at, name) in all.iter().enumerate() {
            for document in [&text, &markdown, &page] {
                assert_eq!(document.contains(name.as_str()), at < FEW, "{name} of {count}, rank {at}:\n{document}");
            }
        }
        for document in [text, markdown, page] {
            let more = count.saturating_sub(FEW);
            let told = document.to_lowercase().contains(&format!("and {more} more that save less"));
            assert_eq!(told, more > 0, "{count}:\n{document}");
            assert_eq!(document.contains("--format json"), more > 0, "{count}:\n{document}");
        }
    }
}

fn refused(check: &str) -> String {
    let tiny = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cli/tiny/catalogue/world.yaml");
    let world = Source { name: "world.yaml".to_owned(), text: std::fs::read_to_string(tiny).unwrap() };
    let own = Source { name: "own.yaml".to_owned(), text: format!("checks:\n  fork:\n{check}") };
    let faults = load::catalogue(&[world], &[own]).expect_err("a broken check");
    faults.to_string()
}

const SOUND: &str =
    "    name: Fork\n    look: Legs dry.\n    stop: Oil on the disc.\n    defer: levels\n    basis: from memory\n";

#[test]
fn broken_checks_are_refused_with_line_and_nearest_name() {
    let unknown = refused(&format!("{SOUND}    applies: {{ tires: tubed }}\n"));
    assert!(unknown.contains("own.yaml:8, checks.fork.applies.tires"), "{unknown}");
    assert!(unknown.contains("did you mean `tyres`?"), "{unknown}");
    let value = refused(&format!("{SOUND}    applies: {{ tyres: tubeles }}\n"));
    assert!(value.contains("own.yaml:8") && value.contains("did you mean `tubeless`?"), "{value}");
    let key = refused(&SOUND.replace("look:", "lok:"));
    assert!(key.contains("own.yaml:4") && key.contains("did you mean `look`?"), "{key}");
    for (field, line) in [("name", 3), ("look", 4), ("stop", 5), ("defer", 6), ("basis", 7)] {
        let kept: Vec<&str> = SOUND.lines().filter(|line| !line.trim().starts_with(field)).collect();
        let without = kept.join("\n") + "\n";
        let missing = refused(&without);
        assert!(missing.contains("own.yaml:2") && missing.contains(&format!("no `{field}`")), "{missing}");
        if field != "basis" {
            let old = SOUND.lines().nth(line - 3).unwrap();
            let empty = refused(&SOUND.replace(old, &format!("    {field}: ''")));
            assert!(empty.contains(&format!("no `{field}`")), "{empty}");
        }
    }
    let basis = refused(&SOUND.replace("from memory", "guessed"));
    assert!(basis.contains("own.yaml:7"), "{basis}");
}

/// A rider's own file may reword a check or add one; the order is that of the files.
#[test]
fn an_extra_file_adds_and_overrides() {
    let own = "checks:\n  zip: { name: Zip, look: Closed., stop: Open., defer: nothing, basis: from memory }\n  \
               stands: { name: My stand, look: Up., stop: Down., defer: nothing, basis: from memory }\n";
    let own = Source { name: "own.yaml".to_owned(), text: own.to_owned() };
    let catalogue = load::catalogue(&load::shipped(), &[own]).unwrap_or_else(|faults| panic!("{faults}"));
    let last: Vec<&str> = catalogue.checks.keys().rev().take(2).map(String::as_str).collect();
    assert_eq!(last, ["zip", "stands"]);
    assert_eq!(catalogue.checks["stands"].name, "My stand");
}
