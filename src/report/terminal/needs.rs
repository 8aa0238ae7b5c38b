//! What the trip demands whatever breaks.

use super::table::{Set, table};
use super::{Look, heading, wrapped};
use crate::view::needs::{TITLE, ranges, row};
use fardel_core::answer::{NeedLine, PackAnswer};
use fardel_words::{plain, word};

pub(super) fn needs(answer: &PackAnswer, look: &Look) -> String {
    if answer.needs.is_empty() && ranges(answer).is_empty() {
        return String::new();
    }
    let mut text = table_of(&answer.needs, look);
    for line in ranges(answer) {
        text += &wrapped(&format!("- {line}"), look, "  ");
    }
    text
}

/// The needs alone.
pub(super) fn table_of(needs: &[NeedLine], look: &Look) -> String {
    let rows = needs.iter().map(|need| row(need, look)).collect();
    let set = [Set::Left(Some(32)), Set::Right(Some(12)), Set::Right(Some(12)), Set::Left(None)];
    heading(plain(TITLE))
        + &table(&[word!("need"), word!("demanded"), word!("carried"), word!("reckoned from")], &set, rows, look)
}
