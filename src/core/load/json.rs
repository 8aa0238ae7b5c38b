//! JSON, where a file is that. It is nearly YAML, but for what it may escape: letters beyond the first plane come as two
//! halves from many programs, which a YAML parser takes for nonsense.

use super::node::Node;
use super::tree::{Seed, Watch, YamlFault};
use serde::de::DeserializeSeed as _;

/// The tree of a JSON object; `None` where the text is none, so that it is to be read as YAML and told about as such.
///
/// # Errors
/// [`YamlFault`] for a key written twice, and for what goes beyond the limits of a tree.
pub fn parse(text: &str) -> Option<Result<Node, YamlFault>> {
    if !text.trim_start().starts_with('{') {
        return None;
    }
    let watch = Watch::default();
    let mut document = serde_json::Deserializer::from_str(text);
    match Seed(&watch).deserialize(&mut document) {
        Ok(node) => document.end().is_ok().then_some(Ok(node)),
        Err(error) => watch.take().map(|own| Err(YamlFault { line: Some(error.line()), ..own })),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::diagnostic::Code;

    #[test]
    fn escapes_that_only_json_has_are_read() {
        let node = parse(r#" {"a": "\ud83d\ude00 \u00e9 \/", "b": [1, -2.5, true, null]}"#).unwrap().unwrap();
        let Node::Map(entries) = node else { panic!("{node:?}") };
        assert_eq!(entries["a"], Node::Text("\u{1f600} é /".to_owned()));
        let expected = [Node::Int(1), Node::Float(-2.5), Node::Bool(true), Node::Null];
        assert_eq!(entries["b"], Node::List(expected.to_vec()));
    }

    #[test]
    fn limits_hold_and_anything_else_is_left_to_yaml() {
        let twice = parse("{\"a\": 1,\n\"a\": 2}").unwrap().unwrap_err();
        assert_eq!((twice.code, twice.line, twice.path.to_string()), (Code::DuplicateKey, Some(2), "a".to_owned()));
        let deep = format!("{{\"a\": {}{}}}", "[".repeat(70), "]".repeat(70));
        assert_eq!(parse(&deep).unwrap().unwrap_err().code, Code::TooLarge);
        for text in ["", "a: 1", "{a: 1}", "{\"a\": 1} # more", "{\"a\": 1}{}", "[1]", "{\"a\""] {
            assert_eq!(parse(text), None, "{text}");
        }
    }
}
