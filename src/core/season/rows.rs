//! What is read of a result: as much as is looked at over a whole season. Whole answers and short ones have it alike.

use fardel_words::say;
use serde::Deserialize;

/// A line of results.
#[derive(Debug, Clone, Deserialize)]
pub struct Result {
    /// How the job ended.
    pub status: String,
    /// The answer, where there is one.
    #[serde(default)]
    pub(super) answer: Option<Answer>,
}

impl Result {
    /// Reads a line.
    ///
    /// # Errors
    /// In words, where it is none.
    pub fn read(line: &str) -> std::result::Result<Self, String> {
        let read = serde_json::from_str(line);
        read.map_err(|error| say!("no line of results, at column {}: {error}", error.column()))
    }
}

#[derive(Debug, Clone, Deserialize)]
#[serde(tag = "command", rename_all = "snake_case")]
pub(super) enum Answer {
    Pack(Box<Pack>),
    Study(Study),
    #[serde(other)]
    Else,
}

#[derive(Debug, Clone, Deserialize)]
pub(super) struct Pack {
    #[serde(default)]
    pub scenario: String,
    #[serde(default)]
    pub bike: String,
    pub totals: Option<Totals>,
    pub figures: Option<Figures>,
    #[serde(default)]
    pub bags: Vec<Bag>,
    #[serde(default)]
    pub purchases: Vec<Purchase>,
    #[serde(default)]
    pub risks: Vec<Risk>,
}

#[derive(Debug, Clone, Deserialize)]
pub(super) struct Totals {
    pub mass_g: f64,
    pub currency: String,
}

#[derive(Debug, Clone, Deserialize)]
pub(super) struct Figures {
    pub hours_lost_empty: f64,
    pub hours_lost_with_kit: f64,
    pub self_recovery: Option<Mean>,
    pub self_recovery_at_least: f64,
}

#[derive(Debug, Clone, Deserialize)]
pub(super) struct Mean {
    pub mean: f64,
}

#[derive(Debug, Clone, Deserialize)]
pub(super) struct Bag {
    pub items: Vec<Item>,
}

#[derive(Debug, Clone, Deserialize)]
pub(super) struct Item {
    pub id: String,
    pub name: String,
    pub kind: String,
    pub count: u32,
    pub hours_lost_without: f64,
}

#[derive(Debug, Clone, Deserialize)]
pub(super) struct Purchase {
    pub name: String,
    pub count: u32,
    pub price: f64,
}

#[derive(Debug, Clone, Deserialize)]
pub(super) struct Risk {
    pub name: String,
    pub expected_occurrences: f64,
    pub hours_lost_with_kit: f64,
    pub remedy: Option<Remedy>,
}

#[derive(Debug, Clone, Deserialize)]
pub(super) struct Remedy {
    pub items: Vec<Extra>,
    pub mass_g: f64,
}

#[derive(Debug, Clone, Deserialize)]
pub(super) struct Extra {
    pub name: String,
    pub count: u32,
}

#[derive(Debug, Clone, Deserialize)]
pub(super) struct Study {
    pub all_rates_h: f64,
    pub rates: Vec<Rate>,
    pub turned: Vec<Turned>,
}

#[derive(Debug, Clone, Deserialize)]
pub(super) struct Rate {
    pub id: String,
    pub name: String,
    pub hours: f64,
}

#[derive(Debug, Clone, Deserialize)]
pub(super) struct Turned {
    pub what: String,
    pub factor: f64,
    pub hours: f64,
}
