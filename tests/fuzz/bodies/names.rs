//! Names with holes: filled completely and once for all, or a proper reason why not; the same through a catalogue file.

use super::{faults, source, text};
use fardel::domain::Map;
use fardel::domain::template::{self, TemplateError};
use fardel::load;

/// The name on the first line; `attribute=value` on the others.
pub fn template(bytes: &[u8]) {
    let Some(text) = text(bytes) else { return };
    let mut lines = text.lines();
    let name = lines.next().unwrap_or_default();
    let values: Map<String> =
        lines.filter_map(|line| line.split_once('=')).map(|(key, value)| (key.to_owned(), value.to_owned())).collect();
    holes_are_found(name);
    let filled = template::fill(name, &values);
    is_right(name, &values, &filled);
    through_a_file(name, &values);
}

/// Putting braces and holes back between the pieces gives the text.
fn holes_are_found(name: &str) {
    match template::holes(name) {
        Ok(holes) => {
            assert_eq!(holes.len(), name.matches('{').count(), "{name:?}");
            for hole in holes {
                assert!(!hole.is_empty() && hole.trim() == hole && !hole.contains(['{', '}']), "{hole:?} of {name:?}");
            }
        }
        Err(error) => assert_eq!(error, TemplateError::Broken(name.to_owned())),
    }
}

fn is_right(name: &str, values: &Map<String>, filled: &Result<String, TemplateError>) {
    match filled {
        Ok(filled) => {
            assert!(!filled.contains('{'), "{name:?} became {filled:?}");
            assert_eq!(template::fill(filled, values).as_ref(), Ok(filled));
            assert!(name.contains('{') || name == filled, "{name:?} became {filled:?}");
        }
        Err(TemplateError::Missing(hole)) => assert!(!values.contains_key(hole), "{hole:?} is there"),
        Err(TemplateError::Cyclic(hole)) => assert!(values.contains_key(hole), "{hole:?} cannot be in a ring"),
        Err(TemplateError::TooLarge(hole)) => assert!(values.contains_key(hole), "{hole:?} leads nowhere"),
        Err(TemplateError::Broken(text)) => assert!(text.contains('{'), "{text:?} has no brace"),
    }
}

/// Attributes of a bike, and a function that the name asks for.
fn through_a_file(name: &str, values: &Map<String>) {
    let quoted = |text: &str| serde_json::Value::from(text).to_string();
    let lines = |tail: fn(&str) -> String| -> String {
        let lines: Vec<String> =
            values.iter().map(|(key, value)| format!("  {}: {}\n", quoted(key), tail(value))).collect();
        lines.concat()
    };
    let declared = lines(|_| "{ name: an attribute }".to_owned());
    let stated = lines(|value| serde_json::Value::from(value).to_string());
    let text = format!(
        "attributes:\n{declared}functions:\n  {0}: {{ name: {0}, sizes: [1, 2] }}\nbikes:\n  b:\n   attributes:\n{1}",
        quoted(name),
        stated.replace("  ", "    ")
    );
    // The bike lacks everything else, so there is always something to tell.
    let faults = load::catalogue(&[source("names.yaml", &text)], &[]).expect_err("a bike of attributes only");
    faults::are_told(&faults, &[("names.yaml", &text)]);
}
