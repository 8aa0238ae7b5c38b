//! What many answers come to.

use super::{Head, head, pretty};
use fardel_core::season::Season;
use serde::Serialize;

#[derive(Serialize)]
struct Whole<'a> {
    #[serde(flatten)]
    head: Head,
    #[serde(flatten)]
    season: &'a Season,
}

/// A season as JSON with a trailing newline; tables are maps by name.
///
/// # Errors
/// [`serde_json::Error`] if a value cannot be written, which never happens for finite sums.
pub fn season(season: &Season) -> Result<String, serde_json::Error> {
    pretty(&Whole { head: head("season"), season })
}
