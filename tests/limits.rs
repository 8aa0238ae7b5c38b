//! Every limit on what a file may hold: kept to its last step, and beyond it a fault that says so.

use fardel::answer::split;
use fardel::diagnostic::{Code, Faults};
use fardel::load::{self, Source};
use fardel_route::limits;
use std::fmt::Write as _;

const WORLD: &str = include_str!("cli/tiny/catalogue/world.yaml");
const TRIP: &str = include_str!("cli/tiny/trip.yaml");

fn source(name: &str, text: &str) -> Source {
    Source { name: name.to_owned(), text: text.to_owned() }
}

/// The faults of a catalogue beside the tiny one.
fn beside(text: &str) -> Vec<Code> {
    codes(load::catalogue(&[source("world.yaml", WORLD)], &[source("own.yaml", text)]))
}

fn codes<T>(read: Result<T, Faults>) -> Vec<Code> {
    let faults = read.err().map(|faults| faults.0).unwrap_or_default();
    faults.iter().for_each(|fault| assert!(!fault.expected.is_empty(), "{fault}"));
    faults.into_iter().map(|fault| fault.code).collect()
}

/// At the limit all is well, one step further there is nothing but this fault.
fn kept(what: &str, code: Code, read: impl Fn(usize) -> Vec<Code>, limit: usize) {
    assert_eq!(read(limit), [], "{what}: {limit}");
    let beyond = read(limit + 1);
    assert!(
        !beyond.is_empty() && beyond.iter().all(|told| *told == code),
        "{what}: {} is told as {beyond:?}",
        limit + 1
    );
}

fn gear(text: &str) -> Vec<Code> {
    let world = load::catalogue(&[source("world.yaml", WORLD)], &[]).unwrap();
    codes(load::gear_text(source("own.csv", text), &world))
}

fn trip(text: &str) -> Vec<Code> {
    codes(load::load_texts(&[source("world.yaml", WORLD)], source("trip.yaml", text), &|_| unreachable!()))
}

#[test]
fn size_of_a_file() {
    let filled = |size: usize| format!("systems: {{}}\n#{}", "x".repeat(size - 13));
    kept("YAML", Code::TooLarge, |size| beside(&filled(size)), 4 << 20);
    let rows = |size: usize| format!("id\npump\n{}", "\n".repeat(size - 8));
    kept("a spreadsheet", Code::TooLarge, |size| gear(&rows(size)), 4 << 20);
}

#[test]
fn nesting_aliases_and_values_of_a_file() {
    // Levels that the format does not have are told as such, so the limit shows in the one fault that is told alone.
    let deep = |levels: usize| beside(&format!("items: {}{}", "[".repeat(levels), "]".repeat(levels)));
    assert!(!deep(63).contains(&Code::TooLarge) && deep(65) == [Code::TooLarge]);
    assert_eq!(deep(501), [Code::TooLarge]);
    // Eight lists of eight, each by alias: 8^6 values in 200 bytes.
    let mut bomb = "a0: &a0 [1, 1, 1, 1, 1, 1, 1, 1]\n".to_owned();
    for level in 1..6 {
        let _ = writeln!(bomb, "a{level}: &a{level} [{}]", [format!("*a{}", level - 1).as_str(); 8].join(", "));
    }
    assert_eq!(beside(&bomb), [Code::TooLarge]);
    // Under one key of a closed list of keys, so that the values are counted before anything is said of them.
    let list = |values: usize| {
        let told = beside(&format!("attributes: {{ a: {{ name: a, values: [{}] }} }}", "a,".repeat(values)));
        told.into_iter().filter(|code| *code != Code::DefinedTwice).collect()
    };
    // Three maps, two keys, two more keys, a name and the list: nine beside the values.
    kept("values", Code::TooLarge, list, 200_000 - 9);
}

#[test]
fn length_of_a_text() {
    let named = |length: usize| beside(&format!("attributes: {{ a: {{ name: {} }} }}", "x".repeat(length)));
    kept("a text", Code::TooLarge, named, 4000);
    let key = |length: usize| beside(&format!("attributes: {{ '{}': {{ name: a }} }}", "x".repeat(length)));
    assert_eq!(key(1000), []);
    let cell = |length: usize| gear(&format!("id,remarks\npump,{}\n", "x".repeat(length)));
    kept("a cell", Code::TooLarge, cell, 4000);
    // 8 MB in texts that are each short enough and, by alias, in a file that is small enough.
    let whole = |times: usize| {
        let values = "*a,".repeat(times);
        let told = beside(&format!("attributes: {{ a: {{ name: &a {}, values: [{values}] }} }}", "x".repeat(4000)));
        told.into_iter().filter(|code| *code != Code::DefinedTwice).collect()
    };
    kept("all text", Code::TooLarge, whole, (8 << 20) / 4000 - 1);
}

#[test]
fn rows_and_columns_of_a_spreadsheet() {
    let rows = |rows: usize| {
        let mut text = "name,mass,volume\n".to_owned();
        (0..rows).for_each(|at| text += &format!("t{at},1 g,1 mL\n"));
        gear(&text)
    };
    kept("rows", Code::TooLarge, rows, 20_000);
    kept("columns", Code::TooLarge, |columns| gear(&format!("id{}\npump\n", ",".repeat(columns - 1))), 200);
}

#[test]
fn references_within_a_catalogue() {
    let sizes = |count: usize| {
        let sizes: Vec<String> = (0..count).map(|at| at.to_string()).collect();
        beside(&format!("functions: {{ 'f {{size}}': {{ name: f, sizes: [{}] }} }}", sizes.join(", ")))
    };
    kept("sizes of a family", Code::TooLarge, sizes, 200);
    let like = |links: usize| {
        let mut text = "bikes:\n  b0: { like: single }\n".to_owned();
        (1..links).for_each(|at| text += &format!("  b{at}: {{ like: b{} }}\n", at - 1));
        beside(&text)
    };
    kept("links of `like`", Code::BrokenLike, like, 16);
    let attributes = |count: usize| {
        let names: Vec<String> = (0..count).map(|at| format!("a{at}: {{ name: a }}, ")).collect();
        let values: Vec<String> = (1..count).rev().map(|at| format!("a{at}: '{{a{}}}', ", at - 1)).collect();
        let (names, values) = (names.concat(), values.concat());
        beside(&format!(
            "attributes: {{ {names} }}\nbikes: {{ b: {{ like: single, attributes: {{ {values} a0: x }} }} }}"
        ))
    };
    kept("attributes in a row", Code::TooLarge, attributes, 16);
    let value = |length: usize| {
        let attributes = format!("a: {}, b: '{{a}}'", "x".repeat(length));
        beside(&format!(
            "attributes: {{ a: {{ name: a }}, b: {{ name: b }} }}\nbikes: {{ b: {{ like: single, attributes: {{ {attributes} }} }} }}"
        ))
    };
    kept("a filled value", Code::TooLarge, value, 200);
}

#[test]
fn legs_and_riders_of_a_trip() {
    let leg = "    - { name: NAME, days: 1, km: { track: 10 }, hours_to_help: 3 h }\n";
    let legs = |count: usize| {
        let further: String = (1..count).map(|at| leg.replace("NAME", &format!("leg {at}"))).collect();
        trip(&TRIP.replace("riders:\n", &format!("{further}riders:\n")))
    };
    kept("legs", Code::TooLarge, legs, 100);
    let rider =
        "  - { name: NAME, bike: single, riding_skill: novice, repair_skill: anyone, mass: 80 kg, bags: [tank-bag] }\n";
    let riders = |count: usize| {
        let further: String = (1..count).map(|at| rider.replace("NAME", &format!("rider {at}"))).collect();
        trip(&TRIP.replace("limits:", &format!("{further}limits:")))
    };
    kept("riders", Code::TooLarge, riders, 50);
}

/// The ends of every range of numbers: `what` with the last value that is taken and the next that is not.
#[test]
fn ranges_of_numbers() {
    let of = |key: &str, value: &str| {
        let old = match key {
            "at_most" => "at_most: 4",
            "mass" => "mass: 1.06 kg",
            "volume" => "volume: 1.1 L",
            "longest" => "longest: 260 mm",
            "price" => "price: 6 USD",
            "meets" => "meets: { drinking water: 1000 }",
            other => panic!("{other}"),
        };
        assert!(WORLD.contains(old), "{old}");
        let changed =
            if key == "meets" { format!("meets: {{ drinking water: {value} }}") } else { format!("{key}: {value}") };
        codes(load::catalogue(&[source("world.yaml", &WORLD.replace(old, &changed))], &[]))
    };
    let ends = [
        ("at_most", "100000", "100001", Code::OutOfRange),
        ("at_most", "1", "1.5", Code::OutOfRange),
        ("meets", "1e9", "1.1e9", Code::OutOfRange),
        ("meets", "0.001", "-0.001", Code::OutOfRange),
        ("mass", "1e-3 g", "-0.001 g", Code::NotAQuantity),
        ("price", "10000000000 USD", "10000000001 USD", Code::NotAQuantity),
        ("price", "0 USD", "-1 USD", Code::NotAQuantity),
    ];
    for (key, taken, refused, code) in ends {
        let taken = taken.replace("1e-3", "0.001");
        assert!(!of(key, &taken).contains(&code), "{key}: {taken}: {:?}", of(key, &taken));
        assert!(of(key, refused).contains(&code), "{key}: {refused}: {:?}", of(key, refused));
    }
    let on_the_trip = [
        ("sealed: 100,", "sealed: 10000000,", "sealed: 10000001,", Code::OutOfRange),
        ("lowest: 6 °C", "lowest: -100 °C", "lowest: -101 °C", Code::NotAQuantity),
        ("highest: 28 °C", "highest: 212 °F", "highest: 213 °F", Code::NotAQuantity),
        ("hours_to_help: 9 h", "hours_to_help: 10000000 h", "hours_to_help: 10000001 h", Code::NotAQuantity),
        ("days: 2", "days: 1e9", "days: 1.1e9", Code::OutOfRange),
        ("mass: 80 kg", "mass: 10000000 kg", "mass: 10000001 kg", Code::NotAQuantity),
    ];
    for (old, taken, refused, code) in on_the_trip {
        assert!(TRIP.contains(old), "{old}");
        assert!(!trip(&TRIP.replace(old, taken)).contains(&code), "{taken}: {:?}", trip(&TRIP.replace(old, taken)));
        assert!(
            trip(&TRIP.replace(old, refused)).contains(&code),
            "{refused}: {:?}",
            trip(&TRIP.replace(old, refused))
        );
    }
}

/// Functions that are combined from two others, which are combined from the same two below them, two hundred levels deep:
/// every way down would be 2^200 of them.
#[test]
fn combinations_of_combinations_are_followed_once() {
    let levels = 200;
    let mut functions = String::from("functions:\n");
    for level in 0..levels {
        for side in ["a", "b"] {
            let from =
                if level + 1 < levels { format!(", also_from: [[a{0}, b{0}]]", level + 1) } else { String::new() };
            writeln!(functions, "  {side}{level}: {{ name: {side}{level}{from} }}").unwrap();
        }
    }
    let last = levels - 1;
    let text = format!(
        "{functions}items:\n  deep-tool: {{ name: deep tool, kind: tool, mass: 10 g, volume: 10 mL, longest: 90 mm, price: 1 USD, \
         provides: {{ a{last}: 1, b{last}: 1 }}, basis: from memory }}\nfailures:\n  deep: {{ name: deep trouble, system: wheels, outcome: \
         stops, rate: {{ per_1000_km: {{ sealed: 1, gravel: 1, track: 1, rough: 1 }}, worth_events: 0.5, basis: from memory }}, repairs: {{ \
         mend: {{ name: mend it, grade: full, time: 5 min, restores: 1, skill: anyone, needs: {{ a0: 1, b0: 1 }}, basis: from memory }} }} }}\n"
    );
    let scenario = format!("catalogues: [deep.yaml]\n{TRIP}");
    let loaded = load::load_texts(&[source("world.yaml", WORLD)], source("trip.yaml", &scenario), &|_| {
        Ok(source("deep.yaml", &text))
    });
    let loaded = loaded.unwrap_or_else(|faults| panic!("{faults}"));
    let answer = crate::support::pack_with(&loaded, fardel::milp::Engine::Microlp).unwrap();
    assert!(answer.bags.iter().flat_map(|bag| &bag.items).any(|item| item.id == "deep-tool"), "it is worth its 10 g");
}

/// The guide tells every limit that is kept here, in these words.
#[test]
fn the_guide_tells_the_limits() {
    let guide = include_str!("../src/cli/topics/problems.md");
    let (_, told) = guide.split_once("## How much a file may hold").unwrap();
    let (told, _) = told.split_once("\n## ").unwrap();
    let trips = format!("{} legs, 50 riders; a group that is to share one kit: {} riders", 100, split::MOST_RIDERS);
    let tracks = format!(
        "{} MB of GPX or KML, {} MB of GeoJSON, {} points, {} marks, {} km",
        limits::TEXT_BYTES >> 20,
        limits::JSON_BYTES >> 20,
        limits::POINTS,
        limits::WAYPOINTS,
        limits::METRES / 1000.0
    );
    let words = [
        "4 MB, 200000 values, 64 levels, 4000 bytes in one text, 8 MB of text in all",
        "4 MB, 20000 rows, 200 columns, 4000 bytes in a cell",
        "200 sizes of one family, 16 MB of text in all families, 16 links of `like`",
        "16 attributes that each stand in the next, 200 bytes in a value that is filled in",
        &trips,
        &tracks,
    ];
    words.iter().for_each(|words| assert!(told.contains(words), "the guide lacks: {words}"));
}
