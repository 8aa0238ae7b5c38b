//! Parts of an answer go a line each.

/// JSON as it is, without line breaks and indents.
pub(crate) fn one_line(json: &str) -> String {
    let (mut quoted, mut escaped) = (false, false);
    let kept = |c: &char| {
        let is_text = quoted;
        if *c == '"' && !escaped {
            quoted = !quoted;
        }
        escaped = is_text && *c == '\\' && !escaped;
        is_text || !c.is_ascii_whitespace()
    };
    json.chars().filter(kept).collect()
}

#[cfg(test)]
mod tests {
    use super::one_line;

    #[test]
    fn spaces_go_outside_of_texts_only() {
        let json = "{\n  \"a b\": \"x \\\" y\\\\\",\n  \"c\": [1, 2]\n}\n";
        assert_eq!(one_line(json), r#"{"a b":"x \" y\\","c":[1,2]}"#);
    }
}
