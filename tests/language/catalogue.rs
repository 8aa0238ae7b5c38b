//! Every text of the shipped catalogue that is shown in the language that is spoken.

use serde_yaml::Value;
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

/// Keys whose values are texts for riders.
const SHOWN: [&str; 7] = ["name", "short", "steps", "check_after", "look", "stop", "defer"];
/// Sections of sources, which are cited as they are, and of words that are compared.
const CITED: [&str; 3] = ["evidence", "sources", "synonyms"];

/// The texts of all files of a folder, with the values of attributes and the names of stocks.
pub(crate) fn texts(folder: &Path) -> BTreeSet<String> {
    let mut all = BTreeSet::new();
    for entry in fs::read_dir(folder).unwrap() {
        let text = fs::read_to_string(entry.unwrap().path()).unwrap_or_default();
        let Ok(Value::Mapping(file)) = serde_yaml::from_str::<Value>(&text) else { continue };
        for (key, value) in &file {
            let section = key.as_str().unwrap_or_default();
            if !CITED.contains(&section) {
                shown(value, &mut all);
            }
            match (section, value) {
                ("attributes", Value::Mapping(own)) => own.values().for_each(|own| add(&own["values"], &mut all)),
                ("needs", Value::Mapping(own)) => own.values().for_each(|own| add(&own["unit"], &mut all)),
                ("stocks", Value::Mapping(own)) => own.keys().for_each(|key| add(key, &mut all)),
                _ => {}
            }
        }
    }
    let two_letters = |text: &String| text.as_bytes().windows(2).any(|pair| pair.iter().all(u8::is_ascii_alphabetic));
    all.into_iter().filter(two_letters).collect()
}

fn shown(value: &Value, all: &mut BTreeSet<String>) {
    match value {
        Value::Mapping(map) => {
            for (key, value) in map {
                if key.as_str().is_some_and(|key| SHOWN.contains(&key)) {
                    add(value, all);
                }
                shown(value, all);
            }
        }
        Value::Sequence(list) => list.iter().for_each(|value| shown(value, all)),
        _ => {}
    }
}

/// A text, or the texts of a list.
fn add(value: &Value, all: &mut BTreeSet<String>) {
    match value {
        Value::String(text) => drop(all.insert(text.trim().to_owned())),
        Value::Sequence(list) => list.iter().for_each(|value| add(value, all)),
        _ => {}
    }
}
