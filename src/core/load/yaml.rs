//! Text to tree and back. The only file that names the YAML crate, so that another one can take its place.

use super::json;
use super::locate::{Finder, HERE};
use super::node::{Node, Path};
use super::tree::{Seed, Watch, YamlFault};
use crate::diagnostic::{Code, plain};
use serde::Deserialize as _;
use serde::de::{DeserializeSeed as _, IgnoredAny};

/// Most bytes of a file; larger ones are refused before they are parsed.
const LARGEST_FILE: usize = 4 << 20;
/// Brackets open at once, counted before parsing: the parser's own time grows with their square.
const MOST_BRACKETS: usize = 500;

/// Reads one file into a tree.
///
/// # Errors
/// [`YamlFault`] for anything but one YAML document of maps, lists and plain values with unique keys, and for files
/// beyond the limits above.
pub fn parse(text: &str) -> Result<Node, YamlFault> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    check_size(text)?;
    if let Some(read) = json::parse(text) {
        return read;
    }
    let watch = Watch::default();
    let mut documents = serde_yaml::Deserializer::from_str(text);
    let Some(first) = documents.next() else { return Ok(Node::empty()) };
    let node = Seed(&watch).deserialize(first).map_err(|error| told(&watch, &error))?;
    if let Some(second) = documents.next() {
        // A second document that cannot even be parsed is told as what it is.
        IgnoredAny::deserialize(second).map_err(|error| told(&watch, &error))?;
        return Err(YamlFault::whole(
            Code::NotYaml,
            "more than one document",
            "one document, without a `---` line in the middle",
        ));
    }
    Ok(if node == Node::Null { Node::empty() } else { node })
}

/// A tree as the text of a file.
///
/// # Errors
/// What the writer says; no tree that was read is known for which it says anything.
pub fn write(root: &Node) -> Result<String, String> {
    serde_yaml::to_string(root).map_err(|error| error.to_string())
}

/// The line of the last step of `path`, or of the deepest step that exists; `None` where the text is no YAML at all.
pub fn line_of(text: &str, path: &Path) -> Option<usize> {
    let mut steps = path.0.as_slice();
    loop {
        let finder = Finder { steps, here: steps.is_empty() };
        let document = serde_yaml::Deserializer::from_str(text.strip_prefix('\u{feff}').unwrap_or(text)).next()?;
        match finder.deserialize(document) {
            Err(error) if error.to_string().contains(HERE) => return error.location().map(|at| at.line()),
            Err(_) => return None,
            Ok(()) => steps = steps.split_last()?.1,
        }
    }
}

/// A line of a text, counted from one as the parser counts them: it also begins a new one at a lone carriage return
/// and at the line breaks of Unicode.
pub fn line_text(text: &str, line: usize) -> Option<&str> {
    let mut rest = text;
    for _ in 1..line {
        let at = rest.find(['\n', '\r', '\u{85}', '\u{2028}', '\u{2029}'])?;
        let broken = &rest[at..];
        let first = broken.strip_prefix("\r\n");
        rest = first.unwrap_or_else(|| broken.char_indices().nth(1).map_or("", |(end, _)| &broken[end..]));
    }
    rest.split(['\n', '\r', '\u{85}', '\u{2028}', '\u{2029}']).next()
}

fn check_size(text: &str) -> Result<(), YamlFault> {
    if text.len() > LARGEST_FILE {
        return Err(YamlFault::whole(Code::TooLarge, "a file of more than 4 MB", "a file of at most 4 MB"));
    }
    let mut open = 0_usize;
    for c in text.bytes() {
        match c {
            b'[' | b'{' => open += 1,
            b']' | b'}' => open = open.saturating_sub(1),
            _ => {}
        }
        if open > MOST_BRACKETS {
            return Err(YamlFault::whole(
                Code::TooLarge,
                "hundreds of brackets open at once",
                "at most 64 levels of nesting",
            ));
        }
    }
    Ok(())
}

/// Our own fault where we raised one, otherwise what the parser says.
fn told(watch: &Watch, error: &serde_yaml::Error) -> YamlFault {
    let line = error.location().map(|at| at.line());
    if let Some(own) = watch.take() {
        return YamlFault { line, ..own };
    }
    let said = error.to_string();
    let code = if said.contains("limit exceeded") { Code::TooLarge } else { Code::NotYaml };
    let expected = "`key: value` lines, indented by spaces; quote texts that hold `: `, ` #` or start with a bracket";
    YamlFault {
        line,
        ..YamlFault::whole(code, &format!("text that cannot be parsed: {}", plain(&said, 200)), expected)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str = "a:\n  b: 1\n  c:\n    - x\n    - d: 2\n      520: y\n";

    fn line(path: &Path) -> Option<usize> {
        line_of(TEXT, path)
    }

    #[test]
    fn lines_are_those_of_keys_and_members() {
        let c = Path::default().key("a").key("c");
        assert_eq!(line(&Path::default().key("a")), Some(1));
        assert_eq!(line(&c), Some(3));
        assert_eq!(line(&c.index(0)), Some(4));
        assert_eq!(line(&c.index(1).key("d")), Some(5));
        assert_eq!(line(&c.index(1).key("520")), Some(6));
    }

    #[test]
    fn a_place_that_does_not_exist_is_shown_where_it_would_be() {
        assert_eq!(line(&Path::default().key("a").key("z")), Some(1));
        assert_eq!(line(&Path::default().key("a").key("c").index(9)), Some(3));
        assert_eq!(line_of("]", &Path::default().key("a")), None);
    }

    #[test]
    fn lines_end_where_the_parser_ends_them() {
        let text = "a: 1\r\nb: 2\rc: 3\u{2028}d: 4\u{85}e: [\n";
        let lines: Vec<Option<&str>> = (1..=7).map(|line| line_text(text, line)).collect();
        let expected = ["a: 1", "b: 2", "c: 3", "d: 4", "e: [", ""];
        assert_eq!(lines[..6], expected.map(Some));
        assert_eq!(lines[6], None);
        assert_eq!(parse(text).unwrap_err().line, Some(6));
    }

    #[test]
    fn nothing_is_an_empty_map_and_one_document_may_open_with_dashes() {
        for text in ["", "\u{feff}", "# only a remark\n", "---\n", "~"] {
            assert_eq!(parse(text), Ok(Node::empty()), "{text:?}");
        }
        assert!(parse("---\na: 1\n").is_ok());
    }

    #[test]
    fn duplicates_are_told_with_path_and_line() {
        let fault = parse("a:\n  b: 1\n  c: 2\n  b: 3\n").unwrap_err();
        assert_eq!((fault.code, fault.path.to_string(), fault.line), (Code::DuplicateKey, "a.b".to_owned(), Some(4)));
        // 5 as a number and as a text would be the same key to a reader.
        assert_eq!(parse("5: a\n'5': b\n").unwrap_err().code, Code::DuplicateKey);
    }

    #[test]
    fn numbers_keep_their_sort() {
        let node = parse("[1, 1.5, .inf, '1', 0x10, 99999999999999999999]").unwrap();
        let Node::List(members) = node else { panic!("{node:?}") };
        assert_eq!(members[..2], [Node::Int(1), Node::Float(1.5)]);
        assert_eq!(members[2], Node::Float(f64::INFINITY));
        assert_eq!(members[3..5], [Node::Text("1".to_owned()), Node::Int(16)]);
        assert!(matches!(members[5], Node::Float(_)));
    }
}
