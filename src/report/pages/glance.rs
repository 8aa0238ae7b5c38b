//! What is seen first: who rides, what the kit comes to, and what is used of the limits.

use crate::view::{Bar, Line, View};
use fardel_words::{say, word};
use serde::Serialize;

/// The head of an answer.
#[derive(Serialize)]
pub(super) struct Glance {
    who: String,
    alarms: Vec<Line>,
    lost: Option<Lost>,
    /// The verdict in lines, each with its opening word.
    verdict: Vec<Line>,
    /// The chance of riding home, if it was asked about.
    home: String,
    /// How far the proof goes.
    proof: String,
    limits: Vec<Limit>,
}

/// Hours lost with the kit and without.
#[derive(Serialize)]
struct Lost {
    /// With the kit.
    left: String,
    /// With nothing aboard.
    empty: String,
    share: f64,
    /// Lost by everybody together.
    group: bool,
}

/// A limit, and what is used of it.
#[derive(Serialize)]
struct Limit {
    name: String,
    part: String,
    /// `of 60.7 L`, `of 24.0 kg, by the rear tyre`.
    of: String,
    share: f64,
    /// Nothing is left.
    full: bool,
}

/// From the view; its first two bars are the hours where `hours` says so.
pub(super) fn glance(view: View, who: String, hours: bool) -> Glance {
    let group = view.bars.first().is_some_and(|bar| bar.name == word!("Lost, all riders"));
    let lost = view.bars.first().filter(|_| hours).map(|bar| Lost {
        left: bar.part.text.clone(),
        empty: bar.whole.text.clone(),
        share: bar.share,
        group,
    });
    let skipped = if hours { 2 } else { 0 };
    let text =
        |words: &[&str]| view.verdict.iter().find(|line| words.contains(&line.word)).map(|line| line.text.clone());
    Glance {
        who,
        home: text(&["Ride home"]).unwrap_or_default().split([';', '(']).next().unwrap_or_default().trim().to_owned(),
        proof: text(&["Proven", "Not proven"]).unwrap_or_default(),
        alarms: view.alarms,
        lost,
        verdict: view.verdict,
        limits: view.bars.iter().skip(skipped).map(limit).collect(),
    }
}

fn limit(bar: &Bar) -> Limit {
    let by = bar.text.strip_prefix(bar.part.of(&bar.whole).as_str()).unwrap_or_default();
    Limit {
        name: bar.name.clone(),
        part: bar.part.text.clone(),
        of: say!("of {}{by}", bar.whole.text),
        share: bar.share,
        full: bar.share >= 1.0,
    }
}
