//! What can still be done to the bike before leaving: the few that are most worth their time, free things first.

use super::table::{Set, table};
use super::{Look, heading, wrapped};
use crate::view::departure::{LEGEND, SHOWN, TITLE, rest, row};
use fardel_core::answer::PackAnswer;
use fardel_words::{plain, word};

pub(super) fn departure(answer: &PackAnswer, look: &Look) -> String {
    if answer.chores.is_empty() {
        return String::new();
    }
    let shown = answer.chores.iter().take(SHOWN);
    let more = answer.chores.len().saturating_sub(SHOWN);
    let rows = shown.map(|chore| row(answer, chore, look)).map(boxed).collect();
    let mut text = heading(plain(TITLE));
    text += &wrapped(plain(LEGEND), look, "  ");
    let set = [Set::Left(Some(58)), Set::Right(Some(11)), Set::Right(Some(11)), Set::Right(Some(10)), Set::Left(None)];
    text += &table(&["", word!("saves"), word!("costs"), word!("work"), ""], &set, rows, look);
    if more > 0 {
        text += &wrapped(&format!("  {}", rest(more)), look, "  ");
    }
    text
}

/// With a box to tick.
fn boxed(mut row: Vec<String>) -> Vec<String> {
    row[0].insert_str(0, "[ ] ");
    row
}
