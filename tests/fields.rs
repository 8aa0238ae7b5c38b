//! The JSON of every command is what `fardel schema answer` says: nothing undocumented, nothing documented in vain.

mod runs;

use crate::cli::Tiny;
use crate::debrief::LOG;
use crate::split::shown::SECOND;
use crate::support::fardel;
use runs::{REFUSED, RUNS};
use serde_json::{Value, json};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::path::Path;

/// Where the shipped files are.
const SHIPPED: &str = env!("CARGO_MANIFEST_DIR");

#[test]
fn answers_are_as_their_schema_says() {
    let tiny = world();
    let schema = Documented::new(tiny.path());
    let mut seen = Seen::default();
    for run in RUNS {
        let own = run.split_whitespace().chain(["--catalogues", "catalogue", "--format", "json"]);
        // A check that finds faults answers too, with another status.
        let ended = fardel(tiny.path(), &own.collect::<Vec<_>>());
        schema.answer(run, &read(run, &ended.out, &ended.err), &mut seen);
    }
    for (run, code) in REFUSED {
        let own = run.split_whitespace().chain(["--catalogues", "catalogue", "--format", "json"]);
        let ended = fardel(tiny.path(), &own.collect::<Vec<_>>());
        assert_eq!(ended.code, *code, "{run}: {}", ended.err);
        schema.complaint(run, &read(run, &ended.err, ""), &mut seen);
    }
    let cards = "split group.yaml --catalogues catalogue --format json --out cards";
    fardel(tiny.path(), &cards.split_whitespace().collect::<Vec<_>>()).answered();
    schema.answer(cards, &read(cards, &tiny.read("cards/group.json"), ""), &mut seen);
    schema.answer(cards, &read(cards, &tiny.read("cards/1-aino.json"), ""), &mut seen);
    assert!(seen.wrong.is_empty(), "{}", seen.wrong.join("\n"));
    let in_vain: Vec<String> = schema.properties().into_keys().filter(|own| !seen.used.contains(own)).collect();
    assert!(in_vain.is_empty(), "no run writes {}", in_vain.join(", "));
}

#[test]
fn answers_on_the_shipped_scenarios_are_as_their_schema_says() {
    let schema = Documented::new(SHIPPED.as_ref());
    let mut seen = Seen::default();
    let runs = [
        "pack scenarios/day-ride.yaml",
        "card scenarios/day-ride.yaml",
        "trim scenarios/day-ride.yaml --kit scenarios/day-ride-packed.csv --by 100g",
        "check scenarios/day-ride.yaml scenarios/six-over-the-range.yaml",
        "find lever",
        "show patch-kit",
        "bike single-450-tubed",
    ];
    for run in runs {
        let own = run.split_whitespace().chain(["--format", "json"]);
        let ended = fardel(SHIPPED.as_ref(), &own.collect::<Vec<_>>());
        schema.answer(run, &read(run, &ended.out, &ended.err), &mut seen);
    }
    assert!(seen.wrong.is_empty(), "{}", seen.wrong.join("\n"));
}

#[test]
fn every_property_of_the_schema_is_described() {
    let schema = Documented::new(Tiny::new().path());
    let bare: Vec<String> = schema
        .properties()
        .into_iter()
        .filter(|(_, own)| own["description"].as_str().is_none_or(|words| words.len() < 4))
        .map(|(place, _)| place)
        .collect();
    assert!(bare.is_empty(), "not described: {}", bare.join(", "));
}

/// What the table says of a version's fields is so: where they went is in the schema, and where they were is not.
#[test]
fn the_table_of_renamed_fields_is_true() {
    let schema = Documented::new(Tiny::new().path());
    let mut table = csv::Reader::from_reader(include_str!("answers/v3-to-v4.csv").as_bytes());
    for row in table.records() {
        let row = row.unwrap();
        let (old, new, kind) = (row[1].trim_end_matches('.'), row[2].trim_end_matches('.'), &row[3]);
        assert!(["moved", "gone", "null", "null or moved", "raised"].contains(&kind), "{row:?}");
        for command in row[0].split(' ').filter(|command| *command != "*") {
            let shapes = if command == "split" { vec!["split", "split_one_rider"] } else { vec![command] };
            let has = |path: &str| shapes.iter().any(|shape| schema.has(&format!("/$defs/{shape}"), path));
            assert_eq!(has(new), kind.ends_with("moved"), "{command}: {new}");
            // A name may have come to stand for something with parts.
            assert!(!has(old) || new.starts_with(&format!("{old}.")), "{command}: {old} is still there");
        }
    }
}

#[test]
fn words_stand_on_standard_error_where_answers_are_words() {
    let tiny = world();
    let run = fardel(tiny.path(), &["pack", "faulty.yaml", "--catalogues", "catalogue"]);
    assert!(run.err.starts_with("faulty.yaml:"), "{}", run.err);
}

#[test]
fn a_fault_is_told_in_its_place() {
    let tiny = world();
    let run = fardel(tiny.path(), &["pack", "faulty.yaml", "--catalogues", "catalogue", "--format", "json"]);
    let told: Value = serde_json::from_str(&run.err).unwrap();
    let fault = &told["faults"][0];
    assert_eq!(
        (&told["command"], &fault["code"], &fault["file"]),
        (&json!("pack"), &json!("unknown-key"), &json!("faulty.yaml"))
    );
    assert_eq!((&fault["place"], &fault["nearest"]), (&json!("limits.budgt"), &json!("budget")), "{told}");
    assert!(fault["line"].is_u64() && fault["found"].is_string() && fault["expected"].is_string(), "{told}");
}

/// The tiny world with all that the runs need.
fn world() -> Tiny {
    // A copy, for commands that write.
    let tiny = Tiny::new();
    tiny.write("log.yaml", &LOG.replace("falls: 2", "falls: 0"));
    tiny.write("catalogue/evidence.yaml", EVIDENCE);
    tiny.write("heavy.yaml", HEAVY);
    tiny.write("ada.yaml", HEAVY);
    tiny.write("group.yaml", &tiny.read("trip.yaml").replace("\nlimits:", SECOND));
    tiny.write("packed.yaml", "items: { pump: 1, tyre-lever: 2, bottle: 1, rain-suit: 1, documents: 1 }\n");
    tiny.write("too.yaml", "items: { pump: 1, handle: 1, bottle: 2, rain-suit: 1, documents: 1 }\n");
    tiny.write(
        "poor.yaml",
        &tiny.read("trip.yaml").replace("budget: 70 USD", "budget: 0 USD").replace("bottle: 1, ", ""),
    );
    tiny.write("things.csv", "item,qty,weight (g)\npump,1,300\ntyre levr,2,200\nharmonica,1,95\nnovel,1,\n");
    let mut answers = "id,lowest,highest,best,confidence\n".to_owned();
    for at in 1..=10 {
        writeln!(answers, "log-{at},1,9,4,80").unwrap();
    }
    answers += "rate:puncture:8000-7000-4000-1000-100,10,30,20,90\n";
    tiny.write("anna.csv", &answers);
    tiny.write("ben.csv", &answers);
    tiny.write("packed.csv", include_str!("cli/tiny/packed.csv"));
    tiny.write("short.csv", "id,count\npump,1\ntyre-lever,2\npatch-kit,1\nbottle,1\nrain-suit,1\ndocuments,1\n");
    let named = "name: Two days to the quarry";
    tiny.write("mine.yaml", "items:\n  pump: { like: pump, mass: 320 g, basis: ride log }\n");
    tiny.write("noted.yaml", &tiny.read("trip.yaml").replace(named, &format!("{named}\ncatalogues: [mine.yaml]")));
    let dry = "needs:\n  petrol: { name: petrol beyond the tank, unit: mL, rule: fuel }\nitems:\n  barrel: { name: barrel, kind: fuel, \
               mass: 2 kg, volume: 9 L, longest: 3000 mm, price: 9 USD, meets: { petrol: 9000 }, basis: from memory }\n";
    tiny.write("pumps.yaml", dry);
    let far = tiny.read("trip.yaml").replace("fuel_every: 150 km", "fuel_every: 500 km");
    tiny.write("dry.yaml", &far.replace(named, &format!("{named}\ncatalogues: [pumps.yaml]")));
    let quiet = "bikes:\n  quiet: { like: single, name: quiet single, range: { sealed: 160 km, gravel: 140 km, track: 110 km, \
                 rough: 75 km }, basis: from memory }\n";
    tiny.write("quiet.yaml", quiet);
    let flat = far.replace("bike: single", "bike: quiet");
    assert_ne!(flat, far);
    tiny.write("flat.yaml", &flat.replace(named, &format!("{named}\ncatalogues: [quiet.yaml]")));
    let screen = "needs:\n  way: { name: a way, unit: way, rule: navigation }\nitems:\n  screen: { name: screen, kind: electronics, \
                  mass: 100 g, volume: 100 mL, longest: 90 mm, price: 75 USD, meets: { way: 1 }, basis: from memory }\n";
    tiny.write("screen.yaml", screen);
    // Money for one of two screens, and a leg for each rider alone.
    let leg = |rider: &str| {
        format!(
            "    - {{ name: {rider} alone, riders: [{rider}], days: 1, km: {{ sealed: 50 }}, hours_to_help: 2 h, \
             lowest: 6 °C, highest: 28 °C, water_every: 0.25 days }}\n"
        )
    };
    let parted =
        tiny.read("group.yaml").replace("riders:\n  -", &format!("{}{}riders:\n  -", leg("Aino"), leg("Pekka")));
    tiny.write("parted.yaml", &parted.replace(named, &format!("{named}\ncatalogues: [screen.yaml]")));
    // Sets of which no bag, and no bike, can have everything.
    tiny.write(
        "sets.yaml",
        "sets: { all: { name: all there is, kinds: [tool, spare, water, papers], basis: from memory } }\n",
    );
    let kept = |trip: &str| trip.replace(named, &format!("{named}\ncatalogues: [sets.yaml]"));
    tiny.write("kept.yaml", &kept(&tiny.read("trip.yaml")));
    let pinned = tiny.read("group.yaml").replace("last: [inflation]", "last: [inflation], leads: [tube patch]");
    tiny.write("kept-group.yaml", &kept(&pinned.replace("mass: 80 kg", "mass: 80 kg\n    roles: [leads]")));
    tiny.write("rich.yaml", &tiny.read("trip.yaml").replace("budget: 70 USD", "budget: 700 USD"));
    tiny.write("poor-kit.yaml", "items: { zip-ties: 1 }\n");
    tiny.write("faulty.yaml", &tiny.read("trip.yaml").replace("budget:", "budgt:"));
    tiny
}

fn read(run: &str, text: &str, else_: &str) -> Value {
    serde_json::from_str(text).unwrap_or_else(|error| panic!("{run}: no JSON ({error}): {text}{else_}"))
}

/// What the runs wrote.
#[derive(Default)]
struct Seen {
    /// Properties of the schema, by where they stand in it.
    used: BTreeSet<String>,
    wrong: Vec<String>,
}

/// The schema that the program prints.
struct Documented(Value);

impl Documented {
    fn new(folder: &Path) -> Self {
        Self(serde_json::from_str(fardel(folder, &["schema", "answer"]).answered()).unwrap())
    }

    /// The answer is valid, and has no property that is not described.
    fn answer(&self, run: &str, answer: &Value, seen: &mut Seen) {
        Self::valid(run, &self.0, answer, seen);
        let shape = match answer["command"].as_str().unwrap() {
            "pack" if answer.get("infeasible").is_some() => "pack_without_a_kit",
            "split" if answer.get("riders").is_none() => "split_one_rider",
            "evidence" if answer.get("groups").is_none() => "evidence_one_failure",
            "measure-first" => "measure_first",
            command => command,
        };
        self.walk(run, &format!("/$defs/{shape}"), answer, seen);
    }

    fn complaint(&self, run: &str, complaint: &Value, seen: &mut Seen) {
        let mut schema = self.0.clone();
        schema.as_object_mut().unwrap().remove("anyOf");
        schema["$ref"] = json!("#/$defs/complaint");
        Self::valid(run, &schema, complaint, seen);
        self.walk(run, "/$defs/complaint", complaint, seen);
    }

    fn valid(run: &str, schema: &Value, answer: &Value, seen: &mut Seen) {
        let validator = jsonschema::validator_for(schema).unwrap();
        seen.wrong.extend(validator.iter_errors(answer).map(|error| format!("{run}: {error}")));
    }

    /// Goes through a value and the schema at a place of it side by side.
    fn walk(&self, run: &str, place: &str, value: &Value, seen: &mut Seen) {
        let places = self.places(place, value);
        match value {
            Value::Object(fields) => {
                for (name, field) in fields {
                    let known: Vec<String> = places
                        .iter()
                        .map(|own| format!("{own}/properties/{name}"))
                        .filter(|own| self.0.pointer(own).is_some())
                        .collect();
                    if known.is_empty() {
                        seen.wrong.push(format!("{run}: `{name}` is not described at {place}"));
                    }
                    for own in known {
                        self.walk(run, &own, field, seen);
                        seen.used.insert(own);
                    }
                }
            }
            Value::Array(members) => {
                let items = places.iter().map(|own| format!("{own}/items"));
                let items: Vec<String> = items.filter(|own| self.0.pointer(own).is_some()).collect();
                members.iter().for_each(|member| items.iter().for_each(|own| self.walk(run, own, member, seen)));
            }
            _ => {}
        }
    }

    /// All places that describe this value: the one given, what it refers to, and the branches that can be meant.
    fn places(&self, place: &str, value: &Value) -> Vec<String> {
        let Some(schema) = self.0.pointer(place) else { return Vec::new() };
        let mut all = vec![place.to_owned()];
        if let Some(reference) = schema["$ref"].as_str() {
            all.extend(self.places(reference.trim_start_matches('#'), value));
        }
        for choice in ["allOf", "anyOf", "oneOf"] {
            for (at, branch) in schema[choice].as_array().into_iter().flatten().enumerate() {
                if can_be(branch, value) {
                    all.extend(self.places(&format!("{place}/{choice}/{at}"), value));
                }
            }
        }
        all
    }

    /// Does a path such as `bags[].items[].name` lead to a property?
    fn has(&self, shape: &str, path: &str) -> bool {
        let mut places = vec![shape.to_owned()];
        for name in path.split('.') {
            let (name, listed) = name.split_once('[').map_or((name, false), |(name, _)| (name, true));
            let step = format!("/properties/{name}{}", if listed { "/items" } else { "" });
            let further = places.iter().flat_map(|place| self.all_places(place)).map(|place| place + &step);
            places = further.filter(|place| self.0.pointer(place).is_some()).collect();
        }
        !places.is_empty()
    }

    /// As [`Self::places`], whatever the value.
    fn all_places(&self, place: &str) -> Vec<String> {
        let schema = &self.0.pointer(place).unwrap();
        let mut all = vec![place.to_owned()];
        all.extend(schema["$ref"].as_str().into_iter().flat_map(|own| self.all_places(own.trim_start_matches('#'))));
        for choice in ["allOf", "anyOf", "oneOf"] {
            let branches = 0..schema[choice].as_array().map_or(0, Vec::len);
            all.extend(branches.flat_map(|at| self.all_places(&format!("{place}/{choice}/{at}"))));
        }
        all
    }

    /// Every property, by where it stands.
    fn properties(&self) -> BTreeMap<String, Value> {
        let mut all = BTreeMap::new();
        gather(&self.0, "", &mut all);
        all
    }
}

/// Does no constant of the branch stand against the value?
fn can_be(branch: &Value, value: &Value) -> bool {
    let object = branch["$ref"].is_string() || branch["type"] == "object";
    let fixed = branch["properties"].as_object().into_iter().flatten();
    let as_fixed =
        fixed.filter_map(|(name, own)| Some((name, own.get("const")?))).all(|(name, own)| value[name] == *own);
    as_fixed && (value.is_object() || !object)
}

fn gather(schema: &Value, place: &str, into: &mut BTreeMap<String, Value>) {
    match schema {
        Value::Object(parts) => {
            for (name, part) in parts {
                let own = format!("{place}/{name}");
                if place.ends_with("/properties") {
                    into.insert(own.clone(), part.clone());
                }
                gather(part, &own, into);
            }
        }
        Value::Array(parts) => {
            parts.iter().enumerate().for_each(|(at, part)| gather(part, &format!("{place}/{at}"), into));
        }
        _ => {}
    }
}

/// A log about punctures, so that there is evidence to show.
const EVIDENCE: &str = "evidence_reading: { bikes: [single], mix: { sealed: 1, gravel: 0, track: 0, rough: 0 }, km_per_day: 200, basis: from memory }
event_groups:
  flats: { name: punctures, system: wheels, family: memory, failures: [puncture] }
evidence:
  a-log: { name: to the coast and back, kind: trip log, km: 20000, counts: { flats: 3 }, whole: true, blind: small repairs, basis: 'published: an example' }
";
/// Rides with a light and a heavy kit.
const HEAVY: &str = "rides:
  - { name: light, bike: single, km: { rough: 200 }, days: 2, falls: 1, kit_mass: 6 kg }
  - { name: heavy, bike: single, km: { rough: 200 }, days: 2, falls: 3, kit_mass: 40 kg }
";
