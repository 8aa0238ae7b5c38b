//! What `find`, `show`, `bike` and `gear` answer; their data are their shapes.

use super::{Head, head, written};
use fardel_core::find::{Entry, Found};
use fardel_core::load::List;
use fardel_core::sheet::Sheet;
use serde::Serialize;

#[derive(Serialize)]
struct Whole<'a, T: Serialize> {
    #[serde(flatten)]
    head: Head,
    #[serde(flatten)]
    answer: &'a T,
}

fn whole<T: Serialize>(command: &'static str, answer: &T) -> Result<String, serde_json::Error> {
    written(&Whole { head: head(command), answer })
}

/// The answer of `find`.
///
/// # Errors
/// Never in practice: every answer can be written.
pub fn found(found: &Found) -> Result<String, serde_json::Error> {
    whole("find", found)
}

/// The answer of `show`.
///
/// # Errors
/// As [`found`].
pub fn entry(entry: &Entry) -> Result<String, serde_json::Error> {
    whole("show", entry)
}

/// The answer of `bike`.
///
/// # Errors
/// As [`found`].
pub fn bike(sheet: &Sheet) -> Result<String, serde_json::Error> {
    whole("bike", sheet)
}

/// The answer of `gear`.
///
/// # Errors
/// As [`found`].
pub fn list(list: &List) -> Result<String, serde_json::Error> {
    whole("gear", list)
}
