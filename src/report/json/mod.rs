//! Answers for machines, one file a command. Field names carry their unit; a field that does not apply is `null`, never 0.
//!
//! `schema_version` rises when a field changes its meaning or goes; new fields may come without that.

mod bags;
mod brief;
mod card;
mod changes;
mod check;
mod checks;
mod class;
mod debrief;
mod figures;
mod firm;
mod fuel;
mod infeasible;
mod loads;
mod look;
mod pack;
mod rehearsal;
mod risks;
mod robust;
mod row;
mod season;
mod split;
mod tradeoff;
mod trim;
mod why;

pub(crate) use card::card_document;
pub use card::card_of_failures;
pub use check::check;
pub use class::{class, class_member};
pub use debrief::debrief;
pub use infeasible::infeasible;
pub use look::{bike, entry, found, list};
pub use pack::pack;
pub(crate) use pack::pack_document;
pub use rehearsal::rehearsal;
pub(crate) use rehearsal::rehearsal_document;
pub use row::{Row, Status};
pub use season::season;
pub use split::{card, split};
pub(crate) use split::{rider_document, split_document};
pub use tradeoff::tradeoff;
pub(crate) use tradeoff::tradeoff_document;
pub use trim::trim;
pub(crate) use trim::trim_document;
pub use why::why;
pub(crate) use why::why_document;

use serde::Serialize;

/// Version of the shapes in this folder; see DEVELOPERS.md for the fields.
pub const SCHEMA_VERSION: u32 = 3;

/// What every answer opens with.
#[derive(Serialize)]
struct Head {
    schema_version: u32,
    command: &'static str,
    program: &'static str,
}

const fn head(command: &'static str) -> Head {
    Head { schema_version: SCHEMA_VERSION, command, program: concat!("fardel ", env!("CARGO_PKG_VERSION")) }
}

/// A shape as text with a trailing newline.
fn written(shape: &impl Serialize) -> Result<String, serde_json::Error> {
    serde_json::to_string_pretty(shape).map(|text| text + "\n")
}
