//! Answers that are a few lines and some tables: the same on the terminal and as a page.

mod class;
mod season;
mod words;

pub use class::{coach, member};
pub use season::season;

use crate::Look;
use crate::pages::{PageError, framed};
use crate::terminal::{columns, heading, strong, titled, wrapped};
use crate::told::{Line, Rows};
use fardel_words::word;
use serde::Serialize;

/// An answer before it becomes text or page.
#[derive(Debug, Serialize)]
pub struct Paper {
    #[serde(skip)]
    title: String,
    #[serde(skip)]
    kind: &'static str,
    who: String,
    lines: Vec<Line>,
    #[serde(rename = "tables")]
    parts: Vec<Part>,
    notes: Vec<String>,
    cautions: Vec<&'static str>,
}

/// A table with its name.
#[derive(Debug, Serialize)]
struct Part {
    title: &'static str,
    note: String,
    rows: Rows,
}

impl Part {
    /// None where there is nothing to show.
    fn new(title: &'static str, note: impl Into<String>, head: &[&str], rows: Vec<Vec<String>>) -> Option<Self> {
        (!rows.is_empty()).then(|| Self { title, note: note.into(), rows: Rows::new(head, rows) })
    }
}

impl Paper {
    /// For the terminal.
    #[must_use]
    pub fn text(&self, look: &Look) -> String {
        let mut text = titled(&self.title, look) + &wrapped(&self.who, look, "") + "\n";
        for line in &self.lines {
            text += &wrapped(&format!("  {} {}", strong(line.opening()), line.text), look, "    ");
        }
        for part in &self.parts {
            text += &format!("\n{}", heading(part.title));
            text += &columns(&part.rows, look);
            if !part.note.is_empty() {
                text += &wrapped(&format!("  {}", part.note), look, "  ");
            }
        }
        if !self.notes.is_empty() {
            text += &format!("\n{}", heading(word!("Notes")));
            self.notes.iter().for_each(|note| text += &wrapped(&format!("- {note}"), look, "  "));
        }
        text += &format!("\n{}", heading(word!("Take care")));
        self.cautions.iter().for_each(|care| text += &wrapped(&format!("- {care}"), look, "  "));
        text
    }

    /// For a browser.
    ///
    /// # Errors
    /// [`PageError`] where the template asks for what is not there: a defect of the program.
    pub fn page(&self, look: &Look) -> Result<String, PageError> {
        framed("paper.html", (&self.title, self.kind), self, look)
    }
}
