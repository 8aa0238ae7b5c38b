//! What the rides taught, as a rider reads it.

use super::table::{Set, table};
use super::{Look, heading, how_to_read, strong, wrapped};
use crate::view::debrief::{FELLOWS, RATES, book, fellows, quiet, rates, things};
use fardel_core::debrief::Debrief;
use fardel_words::{mark, plain, say, word};

/// The whole answer of `debrief`.
#[must_use]
pub fn debrief(debrief: &Debrief, look: &Look) -> String {
    let mut text = wrapped(&format!("{} {}", strong(word!("Book")), book(debrief, look)), look, "  ");
    text.push('\n');
    let (rows, more) = rates(debrief);
    let set =
        [Set::Left(Some(36)), Set::Right(Some(6)), Set::Right(Some(10)), Set::Right(Some(24)), Set::Right(Some(24))];
    text += &table(&RATES, &set, rows, look);
    if more > 0 {
        text += &say!("  and {} (--format json has all)\n", quiet(more));
    }
    let riders = fellows(debrief);
    if !riders.is_empty() {
        let right = |width| Set::Right(Some(width));
        let set = [Set::Left(Some(24)), right(5), right(8), right(6), right(6), right(24)];
        text += &format!("\n{}{}", heading(word!("The riders")), table(&FELLOWS, &set, riders, look));
    }
    let lines = things(debrief, usize::MAX);
    if !lines.is_empty() {
        text.push('\n');
    }
    for line in lines {
        text += &wrapped(&format!("{} {}", strong(line.opening()), line.text), look, "  ");
    }
    text + "\n" + &how_to_read(NOTES.map(plain), look)
}

const NOTES: [&str; 4] = [
    mark!(
        "Rates are per 1000 km of riding as it was on these rides; in brackets what the rate lies between nine times out of ten."
    ),
    mark!(
        "A rate moves as far as what was seen weighs against the events that the old number was worth. Log the rides on which \
     nothing broke as well: they teach as much. Falls are learnt for the riding skill that the rides name; keep to it in scenarios."
    ),
    mark!(
        "Of several riders, each rate is the share that like bikes have in common, and what is the rider's own; with `--rider` it is \
     written for one of them. Name the `kit_mass` of rides, light and heavy: they tell what weight does to your falls."
    ),
    mark!("A thing that was never used may still be worth its weight: that is what `pack` and `why` reckon."),
];
