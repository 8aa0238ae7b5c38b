//! Named texts: those in the binary itself, and those that somebody read or could not read.

use super::rows::is_rows;
use super::yaml::line_text;
use crate::diagnostic::{Code, Fault, Faults};
use fardel_words::say;
use include_dir::{Dir, include_dir};
use std::path::Path;

static CATALOGUES: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/../../catalogues");

/// A named text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Source {
    /// What messages call it.
    pub name: String,
    /// Its text.
    pub text: String,
}

/// A file that could not be read, and why.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{name}: {reason}")]
pub struct Unreadable {
    /// The file.
    pub name: String,
    /// Why, in words.
    pub reason: String,
}

impl Source {
    /// One of its lines, counted from one.
    pub(super) fn line(&self, line: usize) -> Option<&str> {
        if is_rows(&self.name) { self.text.lines().nth(line.checked_sub(1)?) } else { line_text(&self.text, line) }
    }
}

impl From<Unreadable> for Faults {
    fn from(unreadable: Unreadable) -> Self {
        Self(vec![unreadable.fault()])
    }
}

impl Unreadable {
    /// As something that is wrong with the files.
    #[must_use]
    pub fn fault(self) -> Fault {
        Fault {
            code: Code::Unreadable,
            file: self.name,
            place: String::new(),
            line: None,
            excerpt: None,
            found: self.reason,
            expected: say!("a text file in UTF-8"),
            nearest: None,
        }
    }
}

/// The catalogue files in the binary, in the order of their names.
#[must_use]
pub fn shipped() -> Vec<Source> {
    let mut sources: Vec<Source> = CATALOGUES
        .files()
        .filter(|file| is_yaml(file.path()))
        .map(|file| Source {
            name: format!("catalogues/{}", file.path().display()),
            text: String::from_utf8_lossy(file.contents()).into_owned(),
        })
        .collect();
    sources.sort_by(|a, b| a.name.cmp(&b.name));
    sources
}

/// Does the name end like that of a catalogue file?
#[must_use]
pub fn is_yaml(path: &Path) -> bool {
    path.extension().is_some_and(|ending| ending == "yaml" || ending == "yml")
}
