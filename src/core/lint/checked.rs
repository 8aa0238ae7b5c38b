//! What checking files came to, file by file.

use super::{Doubt, Lint};
use crate::diagnostic::Fault;
use crate::load::Sort;
use crate::serial::parts;
use schemars::JsonSchema;
use serde::Serialize;

parts! {
    /// A lint by its id.
    LintCode(lint => Lint) {
        /// Stable id, such as `function-unprovided`.
        code: &'static str = lint.id(),
        /// In a line.
        title: &'static str = lint.title(),
    }
}

/// A doubt and where its entry was written.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Warning {
    /// What sort.
    #[serde(flatten, with = "LintCode")]
    pub lint: Lint,
    /// The file.
    pub file: String,
    /// The line, where it is known.
    pub line: Option<usize>,
    /// The keys that lead to the entry.
    pub place: String,
    /// What there is to look at.
    pub what: String,
}

impl Warning {
    /// About a doubt in a file.
    #[must_use]
    pub fn new(doubt: Doubt, file: &str, line: Option<usize>) -> Self {
        let place = format!("{}.{}", doubt.section, doubt.id);
        Self { lint: doubt.lint, file: file.to_owned(), line, place, what: doubt.what }
    }
}

/// One file, or the catalogue as a whole.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, JsonSchema)]
pub struct Checked {
    /// The file as named; of the catalogue, the word.
    pub file: String,
    /// What it is.
    pub sort: Sort,
    /// What is in it, in a line; empty if it could not be read.
    pub title: String,
    /// How it was read.
    pub notes: Vec<String>,
    /// Why it cannot be used.
    pub faults: Vec<Fault>,
    /// What to look at.
    pub warnings: Vec<Warning>,
}
