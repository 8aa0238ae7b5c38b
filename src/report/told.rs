//! Pieces of an answer in words, before they become lines of a terminal or parts of a page.

use fardel_words::{plain, translated};
use serde::{Serialize, Serializer};

/// A sentence or two with the word that they open with.
#[derive(Debug, Clone, Serialize)]
pub struct Line {
    /// Set apart from the rest: `Carry`, `Proven`.
    #[serde(serialize_with = "shown")]
    pub word: &'static str,
    /// What follows.
    pub text: String,
}

/// Rows under a head; the first cell of a row names it.
#[derive(Debug, Clone, Serialize)]
pub(crate) struct Rows {
    /// One for each column.
    pub head: Vec<String>,
    /// Which columns hold numbers.
    pub numbers: Vec<bool>,
    /// Cells as shown.
    pub rows: Vec<Vec<String>>,
}

/// The opening word in the language that is spoken.
fn shown<S: Serializer>(word: &&'static str, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(plain(word))
}

impl Line {
    /// The opening word as it is shown.
    #[must_use]
    pub fn opening(&self) -> &'static str {
        plain(self.word)
    }

    pub(crate) fn new(word: &'static str, text: impl Into<String>) -> Self {
        Self { word, text: text.into() }
    }
}

impl Rows {
    /// Rows under these heads; a head that opens with `#` is one of numbers.
    pub(crate) fn new(head: &[&str], rows: Vec<Vec<String>>) -> Self {
        let numbers = head.iter().map(|text| text.starts_with('#')).collect();
        let head = head.iter().map(|text| translated(text.trim_start_matches('#')).to_owned()).collect();
        Self { head, numbers, rows }
    }
}
