//! What the rides taught, as a rider reads it.

use super::table::{Set, table};
use super::{Look, heading, strong, wrapped};
use crate::words::{list, plural};
use fardel_core::debrief::{Debrief, Learnt, Reach};

/// Failures that did not happen are shown only while so much more was expected; the JSON has all.
const QUIET: usize = 6;

/// The whole answer of `debrief`.
#[must_use]
pub fn debrief(debrief: &Debrief, look: &Look) -> String {
    let rides = debrief.rides;
    #[allow(clippy::cast_precision_loss, reason = "a count of rides")]
    let count = plural(rides as f64, "ride", "rides");
    let seen: u32 = debrief.learnt.iter().map(|learnt| learnt.seen).sum();
    let expected: f64 = debrief.learnt.iter().map(|learnt| learnt.expected).sum();
    let line = format!(
        "{} {count}, {}, {}, {}. {} broke where the catalogue expected {expected:.1}.",
        strong("Book"),
        look.show(debrief.distance),
        plural(debrief.days, "day", "days"),
        plural(f64::from(debrief.falls), "fall", "falls"),
        plural(f64::from(seen), "thing", "things"),
    );
    let mut text = wrapped(&line, look, "  ");
    text.push('\n');
    text += &rates(debrief, look);
    text += &things(debrief, look);
    text.push('\n');
    text += &heading("How to read this");
    for note in NOTES {
        text += &wrapped(&format!("- {note}"), look, "  ");
    }
    text
}

const NOTES: [&str; 3] = [
    "Rates are per 1000 km of riding as it was on these rides; in brackets what the rate lies between nine times out of ten.",
    "One ride moves a rate only as far as its kilometres weigh against those that the old number was worth. Log the rides on \
     which nothing broke as well: they teach as much.",
    "A thing that was never used may still be worth its weight: that is what `pack` and `why` reckon.",
];

fn rates(debrief: &Debrief, look: &Look) -> String {
    let quiet = debrief.learnt.iter().filter(|learnt| learnt.seen == 0).take(QUIET);
    let shown = debrief.learnt.iter().filter(|learnt| learnt.seen > 0).chain(quiet);
    let rows: Vec<Vec<String>> = shown.map(row).collect();
    let head = ["failure", "seen", "expected", "rate before", "rate now"];
    let set =
        [Set::Left(Some(36)), Set::Right(Some(6)), Set::Right(Some(10)), Set::Right(Some(24)), Set::Right(Some(24))];
    let mut text = table(&head, &set, rows, look);
    let rest = debrief.learnt.iter().filter(|learnt| learnt.seen == 0).count().saturating_sub(QUIET);
    if rest > 0 {
        text +=
            &format!("  and {rest} more that did not happen; their rates went down a little (--format json has all)\n");
    }
    text
}

fn row(learnt: &Learnt) -> Vec<String> {
    vec![
        learnt.name.clone(),
        learnt.seen.to_string(),
        format!("{:.2}", learnt.expected),
        reach(learnt.before),
        reach(learnt.after),
    ]
}

fn reach(reach: Reach) -> String {
    format!("{:.3} ({:.3} to {:.3})", reach.mean, reach.low, reach.high)
}

fn things(debrief: &Debrief, look: &Look) -> String {
    let mut text = String::new();
    if !debrief.missed.is_empty() {
        let names: Vec<String> = debrief.missed.iter().map(|(name, n)| crate::words::counted(*n, name)).collect();
        text += &wrapped(&format!("{} {}.", strong("Missed"), list(&names)), look, "  ");
    }
    if !debrief.unused.is_empty() {
        let names: Vec<String> = debrief.unused.iter().map(|(name, rides)| format!("{name} ({rides} rides)")).collect();
        text += &wrapped(&format!("{} Carried and never used: {}.", strong("Unused"), list(&names)), look, "  ");
    }
    if !debrief.impossible.is_empty() {
        let line = format!(
            "{} {}: the catalogue says that this cannot happen on such rides, so there is nothing to scale. Give it a rate in \
             a catalogue of your own.",
            strong("Not learnt"),
            list(&debrief.impossible)
        );
        text += &wrapped(&line, look, "  ");
    }
    if text.is_empty() { text } else { format!("\n{text}") }
}
