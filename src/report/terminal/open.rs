//! What can still cost hours with this kit, and what it would have taken.

use super::table::{Set, table};
use super::{Look, heading};
use crate::view::risks::{TITLE, rows};
use fardel_core::answer::{PackAnswer, RiskLine};
use fardel_words::{plain, say, several, word};

/// So many are shown; the JSON has all.
const SHOWN: usize = 8;

pub(super) fn open(answer: &PackAnswer, look: &Look) -> String {
    risks(&answer.risks, look)
}

/// The troubles that still cost most.
pub(super) fn risks(risks: &[RiskLine], look: &Look) -> String {
    let mut rows = rows(risks, look);
    if rows.is_empty() {
        return String::new();
    }
    let more = rows.len().saturating_sub(SHOWN);
    rows.truncate(SHOWN);
    let mut text = heading(plain(TITLE));
    text += &table(
        &[word!("trouble"), word!("how likely"), word!("expected"), word!("what it would have taken")],
        &[Set::Left(Some(36)), Set::Left(Some(15)), Set::Right(Some(10)), Set::Left(None)],
        rows,
        look,
    );
    if more > 0 {
        let more = several!(more, "{n} smaller one", "{n} smaller ones");
        text += &say!("  and {more} (all of them with --format json)\n");
    }
    text
}
