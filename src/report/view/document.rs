//! A whole answer in the order in which it is read: what Markdown lays out. Words and figures are those of the terminal.

use super::{Bag, View};
use crate::cautions::cautions;
use crate::told::{Line, Rows};
use fardel_core::domain::{Check, Kind};
use fardel_words::say;
use serde::Serialize;

/// A whole answer.
#[derive(Debug, Clone, Serialize)]
pub(crate) struct Document {
    pub title: String,
    pub who: String,
    pub lines: Vec<Line>,
    pub parts: Vec<Part>,
    /// Warnings, then what can hurt people.
    pub care: Vec<String>,
}

/// A part under a heading. What it does not have is empty.
#[derive(Debug, Clone, Default, Serialize)]
pub(crate) struct Part {
    pub title: String,
    pub legend: String,
    pub bags: Vec<Bag>,
    pub rows: Option<Rows>,
    /// Boxes to tick.
    pub ticks: Vec<Tick>,
    pub notes: Vec<String>,
}

/// Something to tick.
#[derive(Debug, Clone, Serialize)]
pub(crate) struct Tick {
    /// Set apart from the rest.
    pub name: String,
    pub text: String,
}

impl Part {
    pub(crate) fn new(title: impl Into<String>, legend: &str) -> Self {
        Self { title: title.into(), legend: legend.trim().to_owned(), ..Self::default() }
    }

    /// Rows under a heading; `None` where there are none.
    pub(crate) fn table(title: impl Into<String>, legend: &str, rows: Rows) -> Option<Self> {
        (!rows.rows.is_empty()).then(|| Self { rows: Some(rows), ..Self::new(title, legend) })
    }

    /// Boxes under a heading; `None` where there are none.
    pub(crate) fn to_tick(title: impl Into<String>, legend: &str, ticks: Vec<Tick>) -> Option<Self> {
        (!ticks.is_empty()).then(|| Self { ticks, ..Self::new(title, legend) })
    }

    /// Lines under a heading; `None` where there are none.
    pub(crate) fn list(title: impl Into<String>, notes: Vec<String>) -> Option<Self> {
        (!notes.is_empty()).then(|| Self { notes, ..Self::new(title, "") })
    }
}

/// What is looked at on a bike, with what stops the ride and what the manual decides.
pub(crate) fn check_ticks(checks: &[Check]) -> Vec<Tick> {
    let tick = |check: &Check| Tick {
        name: check.name.clone(),
        text: say!("{} Do not ride: {} Manual: {}.", check.look, check.stop, check.defer),
    };
    checks.iter().map(tick).collect()
}

/// Warnings, then the cautions for these kinds of things.
pub(crate) fn care(warnings: &[String], kinds: &[Kind]) -> Vec<String> {
    warnings.iter().cloned().chain(cautions(kinds).into_iter().map(str::to_owned)).collect()
}

/// A view with everything that it holds.
pub(crate) fn of_view(view: View, care: Vec<String>) -> Document {
    let part = |section: super::Section| {
        let words = |row: Vec<super::Cell>| row.iter().map(|cell| cell.text().to_owned()).collect();
        let rows =
            Rows { head: section.head, numbers: section.numbers, rows: section.rows.into_iter().map(words).collect() };
        Part::table(section.title, "", rows)
    };
    let parts = view.sections.into_iter().filter_map(part).collect();
    Document { title: view.title, who: view.who, lines: view.verdict, parts, care }
}
