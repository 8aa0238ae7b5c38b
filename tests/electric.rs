//! Electric bikes: range in place of a tank, nothing of an engine, and a battery that does not reach the next socket.

use crate::cli::Tiny;
use crate::support::{close, fardel};
use fardel::domain::{Catalogue, Energy};
use fardel::load;

/// A day on the shipped bike; 40 km of each surface but rough ground, of which there are 10.
const DAY: &str = "name: a day on the battery
trip:
  style: none
  legs:
    - { name: out and back, days: 1, km: { sealed: 40, gravel: 40, track: 40, rough: 10 }, hours_to_help: 5 h, lowest: 8 °C, \
 highest: 24 °C, water_every: 0.5 days, food_every: 1 day, fuel_every: FAR km }
riders:
  - { name: Sanna, bike: electric-trail, riding_skill: intermediate, repair_skill: handy, mass: 78 kg, bags: [tail-pack, tank-bag, tool-tube] }
";

fn shipped() -> Catalogue {
    load::catalogue(&load::shipped(), &[]).unwrap_or_else(|faults| panic!("{faults}"))
}

fn day(far: u32, command: &[&str]) -> crate::support::Run {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("day.yaml"), DAY.replace("FAR", &far.to_string())).unwrap();
    fardel(folder.path(), &[&command[..1], &["day.yaml"], &command[1..]].concat())
}

/// Nothing that burns petrol is told to a rider who has none. Words of engines, not of chains: oil for the chain is carried.
#[test]
fn a_day_ride_names_nothing_of_an_engine() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("day.yaml"), DAY.replace("FAR", "50")).unwrap();
    let told = fardel(folder.path(), &["pack", "day.yaml", "--full"]);
    let text = told.answered().to_lowercase().replace("no clutch", "");
    for word in [
        "spark plug",
        "plug spanner",
        "siphon",
        "fuel",
        "petrol range",
        "oil level",
        "engine oil",
        "air filter",
        "carburettor",
        "clutch",
        "regulator",
    ] {
        // The cautions that go with every answer name fuel once.
        let told =
            text.lines().filter(|line| line.contains(word) && !line.contains("brakes, steering, wheels and fuel"));
        assert_eq!(told.collect::<Vec<_>>(), Vec::<&str>::new(), "{word}");
    }
    assert!(text.contains("drive battery and charging port") && text.contains("battery range:"), "{text}");
    let card = fardel(folder.path(), &["card", "day.yaml", "--format", "markdown"]);
    let card = card.answered();
    assert!(card.contains("wired in orange") && !card.contains("Petrol: in the open"), "{card}");
}

/// By hand: a full battery does 110, 95, 75 and 50 km; 40 km of each but 10 rough take 40/110 + 40/95 + 40/75 + 10/50 = 1.5180
/// of it in 130 km, so it does 85.64 km on this mix. The reserve is (120 x 1.25 + 10 x 1.5) / 130 = 1.2692, so 80 km between
/// sockets want 101.54 km, 15.90 more than there are, and sockets may be 67.47 km apart.
#[test]
fn a_battery_that_does_not_reach_is_told_first() {
    let answer = day(80, &["pack", "--format", "json"]).json();
    let short = &answer["charge_short"];
    close(short["range_km"].as_f64().unwrap(), 85.64, 0.01);
    close(short["reserve_factor"].as_f64().unwrap(), 1.2692, 0.0001);
    close(short["wanted_km"].as_f64().unwrap(), 101.54, 0.01);
    close(short["charge_every_km"].as_f64().unwrap(), 67.0, 1e-9);
    close(answer["charge_ranges"][0]["short_km"].as_f64().unwrap(), 15.90, 0.01);
    assert!(answer["fuel_ranges"].as_array().unwrap().is_empty() && answer["fuel_short"].is_null());
    for command in [
        &["pack"][..],
        &["pack", "--full"],
        &["card"],
        &["card", "--format", "markdown"],
        &["pack", "--format", "html"],
    ] {
        let told = day(80, command);
        let text = told.answered();
        assert!(text.contains("NOT ENOUGH to reach the next place to charge"), "{command:?}: {text}");
    }
    assert!(day(80, &["check"]).answered().contains("find a place to charge every 67"));
    let enough = day(60, &["pack", "--format", "json"]).json();
    assert!(enough.get("charge_short").is_none() && !enough["charge_ranges"].as_array().unwrap().is_empty());
}

/// A fault of the tiny world's bike, which has its tank in line 83 and its consumption in line 84.
fn refused(change: impl Fn(&str) -> String) -> String {
    let tiny = Tiny::new();
    let world = tiny.read("catalogue/world.yaml");
    let changed = change(&world);
    assert_ne!(changed, world);
    tiny.write("catalogue/world.yaml", &changed);
    tiny.pack(&[]).refused(2).to_owned()
}

const RANGE: &str = "    range: { sealed: 160 km, gravel: 140 km, track: 110 km, rough: 75 km }\n";

#[test]
fn a_bike_has_a_tank_or_a_battery() {
    let after = |world: &str, more: &str| world.replace("    tank: 12 L\n", &format!("    tank: 12 L\n{more}"));
    let both = refused(|world| after(world, RANGE));
    assert!(
        both.contains("world.yaml:84") && both.contains("`range` beside `tank`") && both.contains("not both"),
        "{both}"
    );
    let without = |world: &str| {
        let lines = world
            .lines()
            .filter(|line| !line.trim_start().starts_with("tank:") && !line.trim_start().starts_with("consumption:"));
        lines.flat_map(|line| [line, "\n"]).collect::<String>()
    };
    let neither = refused(without);
    assert!(neither.contains("no `tank` and no `range`") && neither.contains("`range: { sealed: 160 km"), "{neither}");
    assert!(!neither.contains("no `consumption`"), "one error a cause: {neither}");
    let battery = |range: &str| refused(|world| without(&after(world, range).replace("    tank: 12 L\n", "")));
    let zero = battery(&RANGE.replace("75 km", "0 km"));
    assert!(zero.contains("rough") && zero.contains("more than zero"), "{zero}");
    let lacking = battery(&RANGE.replace(", rough: 75 km", ""));
    assert!(lacking.contains("no `rough`"), "{lacking}");
    let litres = battery(&RANGE.replace("75 km", "75 L"));
    assert!(litres.contains("75 L") && !litres.contains("no `range`") && !litres.contains("no `tank`"), "{litres}");
}

/// What drives the base is taken over, unless the bike says the other.
#[test]
fn a_bike_like_another_keeps_or_changes_what_drives_it() {
    let tiny = Tiny::new();
    let own = format!(
        "bikes:\n  quiet:\n    like: single\n    name: quiet one\n{RANGE}    basis: from memory\n  second: {{ like: quiet, name: another }}\n  loud: {{ like: quiet, name: loud one, tank: 9 L, consumption: {{ sealed: 4 L, gravel: 4 L, track: 5 L, rough: 6 L }} }}\n"
    );
    let texts: Vec<load::Source> = [("world.yaml", tiny.read("catalogue/world.yaml")), ("own.yaml", own)]
        .map(|(name, text)| load::Source { name: name.to_owned(), text })
        .into();
    let found = load::catalogue(&texts, &[]).unwrap_or_else(|faults| panic!("{faults}"));
    let battery = |id: &str| matches!(found.bikes[id].energy, Energy::Battery { .. });
    assert_eq!(["single", "quiet", "second", "loud"].map(battery), [false, true, true, false]);
}

/// A bike of a rider's own that says nothing but its tank can break down as any other with an engine; one with a range cannot.
#[test]
fn tank_or_range_decides_what_can_break() {
    for bike in shipped().bikes.values() {
        let word = if bike.energy.range().is_some() { "battery" } else { "fuel" };
        assert_eq!(bike.attributes["energy"], word, "{}", bike.id);
    }
    let tiny = Tiny::new();
    let own = "attributes: { energy: { name: energy, values: [fuel, battery] } }\nbikes: { wrong: { like: single, name: wrong one, attributes: { energy: battery }, basis: from memory } }\n";
    let texts: Vec<load::Source> = [("world.yaml", tiny.read("catalogue/world.yaml")), ("own.yaml", own.to_owned())]
        .map(|(name, text)| load::Source { name: name.to_owned(), text })
        .into();
    let faults = load::catalogue(&texts, &[]).unwrap_err().to_string();
    assert!(faults.contains("energy") && faults.contains("`fuel`, as its `tank` or `range` says"), "{faults}");
}

/// Orange cables, packs and controllers are not for the wayside (common practice, no source).
#[test]
fn nothing_of_the_drive_is_opened() {
    let catalogue = shipped();
    let electric = catalogue.failures.values().filter(|failure| {
        failure.applies.get("energy").is_some_and(|own| own.iter().any(|value| value == "battery") && own.len() == 1)
    });
    let mut seen = 0;
    for repair in electric.flat_map(|failure| &failure.repairs) {
        let opens = ["{body_fastener}", "test a circuit", "measure voltage", "crimp", "cut wire", "pick"];
        assert!(!repair.needs.keys().any(|need| opens.contains(&need.as_str())), "{}", repair.id);
        if repair.needs.contains_key("tow") {
            assert!(repair.steps[0].contains("owner's manual"), "{}: {:?}", repair.id, repair.steps);
        }
        seen += 1;
    }
    assert!(seen >= 7, "{seen}");
}

/// A sheet filled in at the bike changes one surface and keeps the rest.
#[test]
fn a_sheet_takes_a_range_by_surface() {
    let folder = tempfile::tempdir().unwrap();
    let sheet = fardel(folder.path(), &["bike", "electric-trail", "--format", "csv"]);
    assert!(sheet.answered().contains("range_rough") && !sheet.out.contains("tank"), "{}", sheet.out);
    std::fs::write(folder.path().join("mine.csv"), "key,yours\nrange_rough,41 km\nmass,127 kg\n").unwrap();
    let made = fardel(folder.path(), &["bike", "electric-trail", "--read", "mine.csv"]);
    let text = made.answered();
    assert!(
        text.contains("range: { sealed: \"110 km\", gravel: \"95 km\", track: \"75 km\", rough: \"41 km\" }"),
        "{text}"
    );
    std::fs::write(folder.path().join("mine.csv"), "key,yours\ntank,9 L\n").unwrap();
    assert!(fardel(folder.path(), &["bike", "electric-trail", "--read", "mine.csv"]).refused(2).contains("`tank`"));
}
