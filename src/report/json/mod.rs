//! Answers for machines: each is written as it is (`fardel_core::answer`), under a head that says which program and
//! command wrote it. Field names carry their unit; a field that does not apply is `null`, never 0.
//!
//! [`SCHEMA_VERSION`] rises when a field changes its meaning or goes; new fields may come without that. What the fields
//! mean is in [`schema`].

mod brief;
mod class;
mod evidence;
mod measure;
mod pooled;
mod refusal;
mod row;
mod schema;
mod season;

pub use class::{class, class_member};
pub use evidence::{evidence, rested};
pub use measure::measure_first;
pub use pooled::pooled;
pub use refusal::{Unmet, complaint, infeasible};
pub use row::{Row, Status};
pub use schema::{COMMANDS, schema};
pub use season::season;

use fardel_core::answer::split::{Card, SplitAnswer};
use fardel_core::answer::{
    CardAnswer, PackAnswer, RehearseAnswer, Robust, TradeoffAnswer, TrimAnswer, WhyAnswer, cautions,
};
use fardel_core::debrief::Debrief;
use fardel_core::find::{Entry, Found};
use fardel_core::lint::Checked;
use fardel_core::load::List;
use fardel_core::sheet::Sheet;
use schemars::JsonSchema;
use serde::Serialize;

/// Version of what answers look like.
pub const SCHEMA_VERSION: u32 = 4;

/// What every answer opens with.
#[derive(Serialize, JsonSchema)]
struct Head {
    /// Version of this shape; it rises when a field goes or changes its meaning.
    schema_version: u32,
    /// The command that answered.
    command: &'static str,
    /// Name and version of the program.
    program: &'static str,
}

/// An answer under its head.
#[derive(Serialize, JsonSchema)]
struct Headed<T> {
    #[serde(flatten)]
    head: Head,
    #[serde(flatten)]
    answer: T,
}

/// The answer of `pack`, with what comes of other rates where that was asked for.
#[derive(Serialize, JsonSchema)]
struct Packed<'a> {
    #[serde(flatten)]
    answer: &'a PackAnswer,
    /// What depends on rates that are not known well; with `--uncertain` only.
    #[serde(skip_serializing_if = "Option::is_none")]
    uncertain: Option<&'a Robust>,
}

/// One rider's part of a group's answer.
#[derive(Serialize, JsonSchema)]
struct Part<'a> {
    /// Title of the scenario.
    scenario: &'a str,
    #[serde(flatten)]
    rider: &'a Card,
    /// What can hurt people with this kit, in words.
    cautions: Vec<&'static str>,
}

/// Every file that was checked.
#[derive(Serialize, JsonSchema)]
struct Files<'a> {
    /// Every file that was checked, the catalogue first.
    files: &'a [Checked],
}

const fn head(command: &'static str) -> Head {
    Head { schema_version: SCHEMA_VERSION, command, program: concat!("fardel ", env!("CARGO_PKG_VERSION")) }
}

/// An answer under its head, as plain data, for templates.
pub(crate) fn headed<T: Serialize>(command: &'static str, answer: T) -> impl Serialize {
    Headed { head: head(command), answer }
}

/// As text with a trailing newline.
fn pretty(answer: &impl Serialize) -> Result<String, serde_json::Error> {
    serde_json::to_string_pretty(answer).map(|text| text + "\n")
}

/// The same as text with a trailing newline.
fn written(command: &'static str, answer: impl Serialize) -> Result<String, serde_json::Error> {
    serde_json::to_string_pretty(&headed(command, answer)).map(|text| text + "\n")
}

/// Declares the commands whose answers are written as they are.
macro_rules! written_as_they_are {
    ($($name:ident($answer:ty) = $command:literal;)+) => {
        $(#[doc = concat!("The answer of `", $command, "` as JSON with a trailing newline.")]
        ///
        /// # Errors
        /// [`serde_json::Error`] if a value cannot be written, which no answer contains.
        pub fn $name(answer: &$answer) -> Result<String, serde_json::Error> {
            written($command, answer)
        })+
    };
}

written_as_they_are! {
    split(SplitAnswer) = "split";
    tradeoff(TradeoffAnswer) = "tradeoff";
    trim(TrimAnswer) = "trim";
    why(WhyAnswer) = "why";
    card_of_failures(CardAnswer) = "card";
    rehearsal(RehearseAnswer) = "rehearse";
    debrief(Debrief) = "debrief";
    found(Found) = "find";
    entry(Entry) = "show";
    bike(Sheet) = "bike";
    list(List) = "gear";
}

/// The answer of `pack` as JSON with a trailing newline.
///
/// # Errors
/// [`serde_json::Error`] if a value cannot be written, which no answer contains.
pub fn pack(answer: &PackAnswer, robust: Option<&Robust>) -> Result<String, serde_json::Error> {
    written("pack", Packed { answer, uncertain: robust })
}

/// One rider's card as JSON with a trailing newline.
///
/// # Errors
/// As [`pack`].
pub fn card(answer: &SplitAnswer, card: &Card) -> Result<String, serde_json::Error> {
    written("split", Part { scenario: &answer.scenario, rider: card, cautions: cautions(&answer.kinds) })
}

/// All files, sound or not, as JSON with a trailing newline.
///
/// # Errors
/// As [`pack`].
pub fn check(files: &[Checked]) -> Result<String, serde_json::Error> {
    written("check", Files { files })
}
