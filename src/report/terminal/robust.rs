//! What depends on numbers that are not known well, as a rider reads it.

use super::table::{Set, table};
use super::{Look, heading, wrapped};
use crate::told::Rows;
use crate::view::robust::{EDGE, KITS, SHOWN, told};
use fardel_core::answer::Robust;
use fardel_words::{say, word};

/// The part of `pack --uncertain` after the plan.
#[must_use]
pub fn robust(robust: &Robust, look: &Look) -> String {
    let told = told(robust);
    let mut text = format!("\n{}", heading(word!("If the numbers are wrong")));
    text += &wrapped(&format!("  {}", told.opening), look, "  ");
    text += &edge(told.edge, look);
    let set = [Set::Left(Some(30)), Set::Right(Some(12)), Set::Right(Some(14)), Set::Right(Some(30))];
    text += &format!("\n{}", table(&KITS, &set, told.kits.rows, look));
    told.closing.iter().for_each(|line| text += &wrapped(&format!("  {line}"), look, "  "));
    text + &super::measure::part(&robust.measure, look)
}

fn edge(edge: Rows, look: &Look) -> String {
    let all = edge.rows.len();
    if all == 0 {
        return String::new();
    }
    let rows = edge.rows.into_iter().take(SHOWN).collect();
    let set = [Set::Left(Some(48)), Set::Left(Some(14)), Set::Right(Some(15))];
    let mut text = format!("\n{}", table(&EDGE, &set, rows, look));
    if all > SHOWN {
        text += &say!("  and {} more (all of them with --format json)\n", all - SHOWN);
    }
    text
}
