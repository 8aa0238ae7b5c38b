//! What a person is shown of an answer, as plain data: the same for every form.

use super::Figure;
use crate::told::Line;
use fardel_words::{translated, word};
use serde::Serialize;

/// An answer for people. Parts that an answer does not have are empty.
#[derive(Debug, Clone, Default, Serialize)]
pub struct View {
    /// What it is about: the trip, or the thing asked for.
    pub title: String,
    /// Who rides what, how far.
    pub who: String,
    /// What matters first, in full sentences, each with its opening word.
    pub lines: Vec<Line>,
    /// The same on as few lines as will do.
    pub verdict: Vec<Line>,
    /// Before everything else: what is wrong with the trip itself.
    pub alarms: Vec<Line>,
    /// What is used of what there is.
    pub bars: Vec<Bar>,
    /// How many things, and what their marks mean.
    pub things: String,
    /// The kit by bag.
    pub bags: Vec<Bag>,
    /// Lists and tables beside the bags, in the order of their weight.
    pub sections: Vec<Section>,
    /// A line each, after everything else.
    pub remarks: Vec<Line>,
    /// What may be typed next.
    pub next: Vec<Next>,
}

/// A part of a whole, to be drawn as long as it is large.
#[derive(Debug, Clone, Serialize)]
pub struct Bar {
    /// What is measured; empty where the bar above says it.
    pub name: String,
    /// What is used, of what: `24.00 of 24.00 kg`.
    pub text: String,
    /// What is used.
    pub part: Figure,
    /// Of what.
    pub whole: Figure,
    /// From 0 to 1.
    pub share: f64,
    /// `full`, where nothing is left.
    pub note: &'static str,
}

/// A bag and what is in it.
#[derive(Debug, Clone, Serialize)]
pub struct Bag {
    /// As a rider would say it, first letter large.
    pub name: String,
    /// Room filled.
    pub filled: Figure,
    /// Room that can be filled.
    pub usable: Figure,
    /// `15.2 of 15.8 L`.
    pub room: String,
    /// Mass of the contents.
    pub mass: Figure,
    /// What it may carry.
    pub bears: Figure,
    /// `6.71 of 9.00 kg`.
    pub load: String,
    /// What leaving it at home saves, where it stays empty and can be taken off.
    pub spare: Option<Figure>,
    /// The contents.
    pub things: Vec<Thing>,
}

/// Some units of an item in a bag.
#[derive(Debug, Clone, Serialize)]
pub struct Thing {
    /// How many.
    pub count: Figure,
    /// Its full name.
    pub name: String,
    /// The short one.
    pub short: String,
    /// Of all units here.
    pub mass: Figure,
    /// What is lost without it, or why it is there all the same.
    pub worth: String,
    /// What it is for.
    pub reason: String,
    /// Some of it has to be bought.
    pub to_buy: bool,
}

/// A list or table under a heading.
#[derive(Debug, Clone, Default, Serialize)]
pub struct Section {
    /// Its heading.
    pub title: String,
    /// Heads of the columns; empty where rows speak for themselves.
    pub head: Vec<String>,
    /// Rows of one cell are a list, which may be run on.
    pub rows: Vec<Vec<Cell>>,
    /// Columns that hold numbers, to be set to the right.
    pub numbers: Vec<bool>,
    /// Rows are run on, one after the other, rather than set in a table.
    pub run_on: bool,
    /// How many of the rows a screen shows.
    pub few: usize,
    /// What is said for each number of rows that are left out, from none up: `3 more for 41 USD`.
    pub rest: Vec<String>,
}

/// A cell of a row.
#[derive(Debug, Clone, Serialize)]
#[serde(untagged)]
pub enum Cell {
    /// Words.
    Words(String),
    /// A number.
    Figure(Figure),
}

/// A command that may be typed next, and what it tells.
#[derive(Debug, Clone, Serialize)]
pub struct Next {
    /// As typed.
    pub command: String,
    /// In few words.
    pub tells: &'static str,
}

impl Cell {
    /// As shown.
    #[must_use]
    pub fn text(&self) -> &str {
        match self {
            Self::Words(words) => words,
            Self::Figure(figure) => &figure.text,
        }
    }
}

impl From<String> for Cell {
    fn from(words: String) -> Self {
        Self::Words(words)
    }
}

impl From<&str> for Cell {
    fn from(words: &str) -> Self {
        Self::Words(words.to_owned())
    }
}

impl From<Figure> for Cell {
    fn from(figure: Figure) -> Self {
        Self::Figure(figure)
    }
}

impl Section {
    /// Rows under a heading; a head that opens with `#` is one of numbers.
    pub(crate) fn new(title: impl Into<String>, head: &[&str], rows: Vec<Vec<Cell>>, few: usize) -> Self {
        let numbers = head.iter().map(|text| text.starts_with('#')).collect();
        let head = head.iter().map(|text| translated(text.trim_start_matches('#')).to_owned()).collect();
        Self { title: title.into(), head, rows, numbers, run_on: false, few, rest: Vec::new() }
    }

    /// With its rows run on.
    #[must_use]
    pub(crate) fn run_on(self) -> Self {
        Self { run_on: true, ..self }
    }

    /// With what is said of the rows that are left out: `more` of how many.
    #[must_use]
    pub(crate) fn with_rest(mut self, more: impl Fn(usize) -> String) -> Self {
        self.rest = (0..=self.rows.len()).map(|left| if left == 0 { String::new() } else { more(left) }).collect();
        self
    }
}

impl Bar {
    /// A bar, with what is used and of what.
    pub(crate) fn new(name: &str, part: Figure, whole: Figure) -> Self {
        let share = if whole.value > 0.0 { (part.value / whole.value).clamp(0.0, 1.0) } else { 0.0 };
        // To three digits, which is what is shown, nothing is left.
        let full = share > 0.9985;
        let (share, note) = if full { (1.0, word!("full")) } else { (share, "") };
        Self { name: name.to_owned(), text: part.of(&whole), part, whole, share, note }
    }

    /// With other words beside it.
    #[must_use]
    pub(crate) fn saying(self, text: String) -> Self {
        Self { text, note: "", ..self }
    }
}
