//! A general-purpose validator reads the schemas: it takes whatever is shipped, and refuses what the reader refuses.

use super::super::decode::Wrong;
use super::super::file;
use super::super::node::Node;
use super::super::yaml::parse;
use super::*;
use crate::domain::Map;
use jsonschema::Validator;
use serde::Deserialize;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

fn here(path: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..").join(path)
}

/// Where the schema of a file is kept, for editors.
fn kept(shape: Shape) -> PathBuf {
    let folder = if shape == Shape::Catalogue { "catalogues" } else { "scenarios" };
    here(folder).join("schema").join(format!("{}.json", shape.word()))
}

fn value_of(shape: Shape) -> Value {
    serde_json::from_str(&schema(shape).unwrap()).unwrap()
}

fn validator(shape: Shape) -> Validator {
    jsonschema::draft202012::new(&value_of(shape)).unwrap()
}

fn json(node: &Node) -> Value {
    match node {
        Node::Null | Node::Spoilt => Value::Null,
        Node::Bool(value) => (*value).into(),
        Node::Int(value) => (*value).into(),
        Node::Float(value) => (*value).into(),
        Node::Text(text) => text.as_str().into(),
        Node::List(members) => members.iter().map(json).collect(),
        Node::Map(entries) => Value::Object(entries.iter().map(|(key, value)| (key.clone(), json(value))).collect()),
    }
}

fn told(validator: &Validator, text: &str) -> Vec<String> {
    let value = json(&parse(text).unwrap());
    validator.iter_errors(&value).map(|error| format!("{}: {error}", error.instance_path())).collect()
}

fn yaml_files(folder: &str) -> Vec<PathBuf> {
    let mut paths: Vec<PathBuf> = fs::read_dir(here(folder)).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.retain(|path| path.extension().is_some_and(|ending| ending == "yaml"));
    paths
}

#[test]
fn the_schemas_are_draft_2020_12_themselves() {
    for shape in Shape::ALL {
        assert!(jsonschema::meta::validate(&value_of(*shape)).is_ok(), "{}", shape.word());
        assert_eq!(value_of(*shape)["$schema"], "https://json-schema.org/draft/2020-12/schema");
    }
}

#[test]
fn every_shipped_file_fits_its_schema_and_names_it() {
    for (folder, shape) in [("catalogues", Shape::Catalogue), ("scenarios", Shape::Scenario)] {
        let validator = validator(shape);
        let files = yaml_files(folder);
        assert!(files.len() >= 4, "{folder}");
        for path in files {
            let text = fs::read_to_string(&path).unwrap();
            let wrong = told(&validator, &text);
            assert!(wrong.is_empty(), "{}: {wrong:?}", path.display());
            let line = format!("# yaml-language-server: $schema=schema/{}.json", shape.word());
            assert_eq!(text.lines().next(), Some(line.as_str()), "{}", path.display());
        }
    }
}

/// The kept files are what the program prints: `fardel schema WHAT --out FILE --force` writes them anew.
#[test]
fn the_kept_schemas_are_what_is_printed() {
    for shape in Shape::ALL {
        let path = kept(*shape);
        let text = fs::read_to_string(&path).unwrap_or_default();
        assert!(text == schema(*shape).unwrap(), "{} is old: see src/core/load/file/mod.rs", path.display());
    }
}

/// The keys that the reader takes, from its own complaint about one that it does not.
fn keys<T: for<'de> Deserialize<'de>>() -> BTreeSet<String> {
    let strange = Node::Map(Map::from_iter([("no such key".to_owned(), Node::Null)]));
    match T::deserialize(&strange).err().map(|error| error.wrong) {
        Some(Wrong::UnknownField(_, keys)) => keys.iter().map(|key| (*key).to_owned()).collect(),
        other => panic!("{other:?}"),
    }
}

#[test]
fn every_key_of_the_reader_is_in_the_schema_and_no_other() {
    let mut read = BTreeMap::from([
        ("fardel catalogue file", keys::<file::CatalogueFile>()),
        ("fardel scenario file", keys::<file::ScenarioFile>()),
        ("fardel gear file", keys::<file::GearFile>()),
        ("fardel kit file", keys::<file::KitFile>()),
    ]);
    macro_rules! add {
        ($($shape:ident),+) => { $(read.insert(stringify!($shape), keys::<file::$shape>());)+ };
    }
    add!(
        CatalogueFile,
        AttributeShape,
        FunctionShape,
        StockShape,
        NeedShape,
        SystemShape,
        LadderShape,
        ModelShape,
        SkillShape,
        SetShape
    );
    add!(PricesShape, ServiceShape, OwnPricesShape, EvidenceShape, EventGroupShape, ReadingShape);
    add!(ItemShape, Graded, BikeShape, BagShape, FailureShape, RateShape, RepairShape, PreparationShape, CheckShape);
    add!(GearShape, KitShape, TripShape, LegShape, RiderShape, GroupShape, PinsShape, LimitsShape, MoneyShape);
    add!(FallRateShape, EvidenceShape, EventGroupShape, ReadingShape);
    let surfaces: BTreeSet<String> = crate::domain::Surface::WORDS.iter().map(|word| (*word).to_owned()).collect();
    let mut found = BTreeSet::new();
    for root in Shape::ALL.iter().map(|shape| value_of(*shape)) {
        let own = (root["title"].as_str().unwrap().to_owned(), &root);
        let definitions = root["$defs"].as_object().unwrap().iter().map(|(name, schema)| (name.clone(), schema));
        for (name, schema) in std::iter::once(own).chain(definitions) {
            let Some(properties) = schema.get("properties").and_then(Value::as_object) else { continue };
            let keys: BTreeSet<String> = properties.keys().cloned().collect();
            let wanted = if name.starts_with("Surfaces") { Some(&surfaces) } else { read.get(name.as_str()) };
            assert_eq!(Some(&keys), wanted, "{name}");
            assert_eq!(schema["additionalProperties"], Value::Bool(false), "{name}");
            found.insert(name);
        }
    }
    assert!(read.keys().all(|name| found.contains(*name)), "{found:?}");
}

/// What the reader refuses for its form alone, the schema refuses; the same put right, both take.
#[test]
fn a_wrong_key_unit_word_or_basis_is_refused() {
    let validator = validator(Shape::Catalogue);
    let cases = [
        ("items: { a: { mass: 60 g } }", "items: { a: { mass: 60 } }"),
        ("items: { a: { mass: 1.5kg } }", "items: { a: { mass: 1.5 L } }"),
        ("items: { a: { mass: 60 g } }", "items: { a: { mass: -60 g } }"),
        ("items: { a: { volume: 1 fl oz } }", "items: { a: { volume: 1 floz } }"),
        ("bags: { a: { ahead: −50 mm } }", "bags: { a: { ahead: about 50 mm } }"),
        ("items: { a: { longest: 6 cm } }", "items: { a: { lenght: 6 cm } }"),
        ("items: { a: { price: 5 USD } }", "items: { a: { price: 5 dollars } }"),
        ("items: { a: { kind: tool } }", "items: { a: { kind: tol } }"),
        ("items: { a: { at_most: 2 } }", "items: { a: { at_most: 2.5 } }"),
        ("items: { a: { provides: [a, a] } }", "items: { a: { provides: { a: many } } }"),
        ("items: { a: { meets: { b: { amount: 1 } } } }", "items: { a: { meets: { b: { amonut: 1 } } } }"),
        ("items: { a: { basis: 'derived: how' } }", "items: { a: { basis: derived } }"),
        ("items: { a: { basis: from memory; so it is } }", "items: { a: { basis: a guess } }"),
        ("failures: { a: { applies: { drive: [520, belt] } } }", "failures: { a: { applies: { drive: { a: b } } } }"),
        ("failures: { a: { limps_share: 0.5 } }", "failures: { a: { limps_share: 1.5 } }"),
        ("failures: { a: { rate: { worth_events: 0.5 } } }", "failures: { a: { rate: { worth_events: 0.1 } } }"),
        ("evidence: { a: { kind: trip log } }", "evidence: { a: { kind: trip logs } }"),
        ("event_groups: { a: { family: survey } }", "event_groups: { a: { family: surveys } }"),
        ("items:", "items: []"),
        ("bikes: {}", "bykes: {}"),
    ];
    for (right, wrong) in cases {
        assert!(told(&validator, right).is_empty(), "{right}: {:?}", told(&validator, right));
        assert!(file::CatalogueFile::deserialize(&parse(right).unwrap()).is_ok(), "{right}");
        assert!(!told(&validator, wrong).is_empty(), "{wrong}");
        assert!(file::CatalogueFile::deserialize(&parse(wrong).unwrap()).is_err(), "{wrong}");
    }
}

#[test]
fn gear_and_kits_may_be_short() {
    let gear = validator(Shape::Gear);
    let text =
        "items: [tyre-lever, { id: hand-pump, mass: 171 g }, { name: Paper diary, volume: 400 mL, kind: papers }]";
    assert!(told(&gear, text).is_empty(), "{:?}", told(&gear, text));
    assert!(told(&gear, "items: { tyre-lever: 2, hand-pump: { mass: 171 g }, knife: }").is_empty());
    assert!(!told(&gear, "items: [{ id: hand-pump, mass: 171 }]").is_empty());
    assert!(!told(&gear, "items: { tyre-lever: two }").is_empty());
    let kit = validator(Shape::Kit);
    assert!(told(&kit, "items: { tyre-lever: 2, knife: { count: 1, remarks: sharp } }").is_empty());
    assert!(!told(&kit, "items: [{ id: knife, mass: 90 g }]").is_empty());
}
