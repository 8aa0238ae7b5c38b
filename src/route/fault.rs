//! What is wrong with what was given, as data; the words only on display.

use fardel_words::say;

/// A file that cannot be used, and why.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{}", say!("{}{}: found {found}; expected {expected}", place, .line.map_or_else(String::new, |line| format!(":{line}"))))]
pub struct Fault {
    /// The file, and for a binary one how far into it.
    pub place: String,
    /// The line, from 1; none in a binary file.
    pub line: Option<usize>,
    /// What is there.
    pub found: String,
    /// What should be there.
    pub expected: String,
}

impl Fault {
    /// In a whole file or at no line of it.
    pub fn new(place: &str, found: impl Into<String>, expected: impl Into<String>) -> Self {
        Self { place: place.to_owned(), line: None, found: found.into(), expected: expected.into() }
    }

    /// In a line of a text.
    pub fn at(place: &str, line: usize, found: impl Into<String>, expected: impl Into<String>) -> Self {
        Self { line: Some(line), ..Self::new(place, found, expected) }
    }
}

/// A piece of somebody's text, short enough and plain enough to be shown in one line.
pub fn shown(text: &str) -> String {
    let plain: String = text.chars().map(|c| if c.is_control() { ' ' } else { c }).take(40).collect();
    if text.chars().count() > 40 { format!("`{plain}...`") } else { format!("`{plain}`") }
}
