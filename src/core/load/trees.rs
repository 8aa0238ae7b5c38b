//! A file as a tree for other programs: the same keys in the same order, as JSON, and back as YAML. Remarks are lost,
//! nothing else.

use super::findings::Findings;
use super::node::Node;
use super::source::Source;
use super::{gather, yaml};
use crate::diagnostic::Faults;
use serde::ser::{Serialize, SerializeMap as _, Serializer};

impl Serialize for Node {
    /// Numbers that JSON cannot write (`.inf`) become their text, which is refused where a number is expected.
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self {
            Self::Null | Self::Spoilt => serializer.serialize_unit(),
            Self::Bool(value) => serializer.serialize_bool(*value),
            Self::Int(value) => serializer.serialize_i64(*value),
            Self::Float(value) if value.is_finite() => serializer.serialize_f64(*value),
            Self::Float(value) => serializer.collect_str(value),
            Self::Text(text) => serializer.serialize_str(text),
            Self::List(members) => serializer.collect_seq(members),
            Self::Map(entries) => {
                let mut map = serializer.serialize_map(Some(entries.len()))?;
                entries.iter().try_for_each(|(key, value)| map.serialize_entry(key, value))?;
                map.end()
            }
        }
    }
}

/// The tree of a YAML or JSON text, as JSON in one line.
///
/// # Errors
/// [`Faults`] where the text is no single document of maps, lists and plain values.
pub fn tree_json(source: Source) -> Result<String, Faults> {
    written(source, |root| serde_json::to_string(root).map_err(|error| error.to_string()))
}

/// The tree of a YAML or JSON text, as YAML.
///
/// # Errors
/// As [`tree_json`].
pub fn tree_yaml(source: Source) -> Result<String, Faults> {
    written(source, yaml::write)
}

/// What every tree that was read can become; a failure would be the file's own.
fn written(source: Source, write: fn(&Node) -> Result<String, String>) -> Result<String, Faults> {
    let mut findings = Findings::default();
    let name = source.name.clone();
    let (_, root) = gather::tree(Ok(source), &mut findings);
    findings.finish()?;
    write(&root.unwrap_or_else(Node::empty)).map_err(|reason| Faults(vec![super::Unreadable { name, reason }.fault()]))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn source(text: &str) -> Source {
        Source { name: "a.yaml".to_owned(), text: text.to_owned() }
    }

    #[test]
    fn a_tree_keeps_order_and_kinds_of_values() {
        let json = tree_json(source("z: 1\na: [x, '2', 2.5, true, ~]\n'5': { k: 3 km }\n")).unwrap();
        assert_eq!(json, r#"{"z":1,"a":["x","2",2.5,true,null],"5":{"k":"3 km"}}"#);
        assert_eq!(tree_json(source(&tree_yaml(source(&json)).unwrap())).unwrap(), json);
    }

    #[test]
    fn texts_that_look_like_something_else_stay_texts() {
        let json =
            r##"{"a":"true","b":"~","c":"1e3","d":"# no remark","e":"two\nlines ","f":"\u202eback","g":": x","h":""}"##;
        let there = tree_yaml(source(json)).unwrap();
        let expected = tree_json(source(json)).unwrap();
        assert_eq!(tree_json(source(&there)).unwrap(), expected, "{there}");
    }

    #[test]
    fn what_is_no_tree_is_a_fault_with_its_line() {
        let faults = tree_json(source("a: 1\na: 2\n")).unwrap_err();
        assert_eq!(faults.0[0].line, Some(2));
    }
}
