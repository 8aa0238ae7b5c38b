//! What happened on the trips, as a rider reads it: the headline, how the hours spread, what did the harm, what was used.

use super::table::{Set, table};
use super::{Look, heading, how_to_read, wrapped};
use crate::view::Figure;
use crate::view::rehearsal::{
    HARM, SHORT, STRANDINGS, USE, classes, harm_rows, idle, lines, percentiles, reading, short_rows, stranding_rows,
    used_rows, who,
};
use fardel_core::answer::RehearseAnswer;
use fardel_words::{say, word};

/// Length of a bar that stands for all trips.
const BAR: f64 = 60.0;
/// Columns before it.
const BEFORE: f64 = 22.0;

/// The whole answer of `rehearse`.
#[must_use]
pub fn rehearsal(answer: &RehearseAnswer, look: &Look) -> String {
    let parts = [
        super::headline(&answer.trip.scenario, &who(answer, look), &lines(answer, look), look),
        spread(answer, look),
        harm(answer, look),
        strandings(answer, look),
        used(answer, look),
        unused(answer, look),
        short(answer, look),
        notes(answer, look),
    ];
    let parts: Vec<String> = parts.into_iter().filter(|part| !part.is_empty()).collect();
    parts.join("\n")
}

/// Shares of trips by hours lost, with bars, and the percentiles.
fn spread(answer: &RehearseAnswer, look: &Look) -> String {
    let mut text = heading(word!("Hours lost on a trip"));
    classes(answer).iter().for_each(|(label, share)| text += &bar(label, share, look));
    text += &wrapped(&format!("  {}", percentiles(answer, look)), look, "  ");
    text
}

fn bar(label: &str, share: &Figure, look: &Look) -> String {
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a share of sixty")]
    let length =
        (share.value * BAR.min(f64::from(u16::try_from(look.width).unwrap_or(u16::MAX)) - BEFORE)).round() as usize;
    format!("{}\n", format!("  {label:>8} {:>8}  {}", share.text, "#".repeat(length)).trim_end())
}

/// The failures that cost most, whatever was done about them.
fn harm(answer: &RehearseAnswer, look: &Look) -> String {
    let rows = harm_rows(answer);
    if rows.is_empty() {
        return String::new();
    }
    table(&HARM, &[Set::Left(Some(48)), Set::Right(Some(14)), Set::Right(Some(10)), Set::Right(Some(13))], rows, look)
}

fn strandings(answer: &RehearseAnswer, look: &Look) -> String {
    let rows = stranding_rows(answer);
    if rows.is_empty() {
        return say!("{}  Nobody was stranded.\n", heading(word!("What stranded somebody")));
    }
    table(&STRANDINGS, &[Set::Left(Some(48)), Set::Right(Some(22)), Set::Right(Some(15))], rows, look)
}

fn used(answer: &RehearseAnswer, look: &Look) -> String {
    let rows = used_rows(answer);
    if rows.is_empty() {
        return String::new();
    }
    table(&USE, &[Set::Left(Some(48)), Set::Right(Some(11)), Set::Right(Some(22))], rows, look)
}

/// Items that hardly ever leave the bag, and those that never do.
fn unused(answer: &RehearseAnswer, look: &Look) -> String {
    let lines = idle(answer);
    let text: String = lines.iter().map(|line| wrapped(&format!("  {line}"), look, "  ")).collect();
    if text.is_empty() { text } else { heading(word!("What hardly left the bag")) + &text }
}

fn short(answer: &RehearseAnswer, look: &Look) -> String {
    let rows = short_rows(answer);
    if rows.is_empty() {
        return String::new();
    }
    let set = [Set::Left(Some(40)), Set::Right(Some(14)), Set::Right(Some(19)), Set::Right(Some(22))];
    table(&SHORT, &set, rows, look)
}

fn notes(answer: &RehearseAnswer, look: &Look) -> String {
    how_to_read(reading(answer, look), look)
}
