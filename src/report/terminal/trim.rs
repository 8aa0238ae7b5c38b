//! What to leave at home, the first to go first.

use super::table::{Set, table};
use super::{Look, heading, strong, wrapped};
use crate::cautions::cautions;
use crate::view::trim::{STARRED, lines, priced, row, show};
use crate::words::counted;
use fardel_core::answer::{Going, TrimAnswer};
use fardel_words::{plain, say, word};

/// The whole answer of `trim`.
#[must_use]
pub fn trim(answer: &TrimAnswer, look: &Look) -> String {
    let mut text = super::titled(&answer.trip.scenario, look);
    text += &wrapped(&say!("{} on a {}.", answer.trip.rider, answer.trip.bike), look, "");
    text.push('\n');
    for line in lines(answer, look) {
        text += &wrapped(&format!("  {} {}", strong(line.opening()), line.text), look, "    ");
    }
    if !answer.order.is_empty() {
        text.push('\n');
        text += &order(answer, look);
    }
    if !answer.entering.is_empty() {
        text.push('\n');
        text += &heading(word!("Take instead"));
        answer.entering.iter().for_each(|change| text += &format!("  {}\n", priced(answer, change)));
    }
    text.push('\n');
    text += &heading(word!("Take care"));
    for warning in answer.warnings.iter().map(String::as_str).chain(cautions(&answer.kinds)) {
        text += &wrapped(&format!("- {warning}"), look, "  ");
    }
    text
}

fn order(answer: &TrimAnswer, look: &Look) -> String {
    if !answer.entering.is_empty() {
        let line =
            |going: &Going| format!("  {} ({})\n", counted(going.count, &going.name), show(answer, going.amount, look));
        return answer.order.iter().map(line).fold(heading(word!("Leave at home")), |text, line| text + &line);
    }
    let rows = answer.order.iter().enumerate().map(|(at, going)| row(answer, at, going, look)).collect();
    let set = [
        Set::Right(Some(6)),
        Set::Left(Some(40)),
        Set::Right(Some(11)),
        Set::Right(Some(11)),
        Set::Right(Some(11)),
        Set::Right(Some(11)),
        Set::Left(None),
    ];
    let mut text = heading(word!("First to go first"));
    text += &table(
        &["", "", word!("takes"), word!("kit then"), word!("on average"), word!("in all"), ""],
        &set,
        rows,
        look,
    );
    if answer.order.iter().any(|going| going.best_is_better_by.is_some()) {
        text += &wrapped(&format!("  {}", plain(STARRED)), look, "  ");
    }
    text
}
