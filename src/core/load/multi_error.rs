//! Decoding that does not stop at the first error: the offending node is told, taken out, and the rest decoded again.

use super::decode::{DecodeError, Wrong};
use super::findings::{Findings, Place};
use super::node::{Node, Path};
use crate::diagnostic::{Code, MOST_PER_FILE, nearest, quoted};
use fardel_words::say;
use serde::Deserialize;

/// Decodes a whole file into `T`, putting every fault into `findings`.
/// `None` when so much is wrong that nothing can be concluded from what is left.
pub(crate) fn recover<T: for<'de> Deserialize<'de>>(mut root: Node, file: usize, findings: &mut Findings) -> Option<T> {
    for _ in 0..=MOST_PER_FILE {
        let error = match T::deserialize(&root) {
            Ok(shape) => return Some(shape),
            Err(error) => error,
        };
        let path = error.path();
        tell(&error, &Place { file, path: path.clone() }, findings);
        if path.0.is_empty() || !spoil(&mut root, &path, file, findings) {
            return None;
        }
    }
    None
}

/// Takes the node out; when it is out already, the map around it.
fn spoil(root: &mut Node, path: &Path, file: usize, findings: &mut Findings) -> bool {
    let mut path = path.clone();
    while !path.0.is_empty() {
        findings.spoil(&Place { file, path: path.clone() });
        if root.spoil(&path) {
            return true;
        }
        path.0.pop();
    }
    false
}

fn tell(error: &DecodeError, place: &Place, findings: &mut Findings) {
    match &error.wrong {
        Wrong::UnknownField(field, fields) => {
            let near = nearest(field, fields.iter().copied());
            if let Some(meant) = &near {
                // The key that was meant is not missing as well.
                let mut around = place.clone();
                around.path.0.pop();
                findings.spoil(&around.key(meant));
            }
            findings.add(Code::UnknownKey, place, quoted(field), one_of(fields), near);
        }
        Wrong::Missing(field) => {
            findings.add(Code::MissingKey, place, say!("no `{field}`"), format!("`{field}: ...`"), None);
        }
        Wrong::Type(found, expected) => findings.add(Code::WrongType, place, found.clone(), expected.clone(), None),
        Wrong::Quantity(found, expected) => {
            findings.add(Code::NotAQuantity, place, found.clone(), expected.clone(), None);
        }
        Wrong::Range(found, expected) => findings.add(Code::OutOfRange, place, found.clone(), expected.clone(), None),
        Wrong::Word(word, words) if *words == super::words::BASIS_FORMS => {
            findings.add(Code::NoBasis, place, quoted(word), one_of(words), None);
        }
        Wrong::Word(word, words) => {
            let near = nearest(word, words.iter().copied());
            findings.add(Code::UnknownWord, place, quoted(word), one_of(words), near);
        }
        Wrong::Other(message) => {
            findings.add(Code::WrongType, place, message.clone(), say!("a value of another form"), None);
        }
    }
}

/// `one of a, b, c`; a single word stands alone.
fn one_of(words: &[&str]) -> String {
    match words {
        [] => "nothing".to_owned(),
        [only] => format!("`{only}`"),
        many => say!("one of `{}`", many.join("`, `")),
    }
}
