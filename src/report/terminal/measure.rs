//! What to measure first, as a rider reads it.

use super::{Look, heading, titled, wrapped};
use crate::measure::{closing, opening, sentence};
use crate::words;
use fardel_core::answer::Measure;
use fardel_words::word;

/// How many are shown after a plan.
const FEW: usize = 5;

/// The answer of `measure-first`: as many as are asked for.
#[must_use]
pub fn measure_first(title: &str, measure: &Measure, most: usize, look: &Look) -> String {
    let mut text = titled(title, look);
    text += &wrapped(&opening(measure), look, "");
    text.push('\n');
    text + &listed(measure, most, look)
}

/// The part of `pack --uncertain` about it.
pub(super) fn part(measure: &Measure, look: &Look) -> String {
    format!("\n{}{}", heading(word!("What to measure first")), listed(measure, FEW, look))
}

fn listed(measure: &Measure, most: usize, look: &Look) -> String {
    let mut text = String::new();
    for (at, own) in measure.first().take(most).enumerate() {
        text += &wrapped(&format!("  {}. {}.", at + 1, words::sentence(&sentence(own))), look, "     ");
    }
    text + &wrapped(&format!("  {}", closing(measure)), look, "  ")
}
