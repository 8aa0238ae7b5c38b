//! The curve as a table, what comes and goes between its points, and what to buy first.

use super::table::{Set, table};
use super::{Look, heading, strong, wrapped};
use crate::amount::next;
use crate::cautions::cautions;
use crate::view::tradeoff::{BUYING, LEGEND, ends, opening, purchases, rows, steps};
use fardel_core::answer::TradeoffAnswer;
use fardel_core::resolve::Measure;
use fardel_words::{plain, say, word};

/// The whole answer of `tradeoff`.
#[must_use]
pub fn tradeoff(answer: &TradeoffAnswer, look: &Look) -> String {
    let mut text = super::titled(&answer.trip.scenario, look);
    text += &wrapped(&opening(answer), look, "");
    text.push('\n');
    for line in ends(answer, look) {
        text += &wrapped(&format!("  {} {}", strong(line.opening()), line.text), look, "    ");
    }
    if !answer.points.is_empty() {
        text.push('\n');
        text += &curve(answer, look);
    }
    if answer.points.len() > 1 {
        text.push('\n');
        text += &if answer.measure == Measure::Money { buying(answer, look) } else { changes(answer, look) };
    }
    text.push('\n');
    text += &heading(word!("Take care"));
    for warning in answer.warnings.iter().map(String::as_str).chain(cautions(&answer.kinds)) {
        text += &wrapped(&format!("- {warning}"), look, "  ");
    }
    text
}

fn curve(answer: &TradeoffAnswer, look: &Look) -> String {
    let each = say!("per {} more", next(answer.measure, answer.currency, look));
    let head = [
        word!("limit"),
        word!("kit takes"),
        word!("things"),
        word!("saves"),
        word!("net"),
        word!("gets home"),
        each.as_str(),
        "",
    ];
    let rows = rows(answer, look);
    let set = [
        Set::Right(Some(if rows.len() < answer.points.len() { 22 } else { 12 })),
        Set::Right(Some(11)),
        Set::Right(Some(8)),
        Set::Right(Some(9)),
        Set::Right(Some(15)),
        Set::Right(Some(11)),
        Set::Right(Some(17)),
        Set::Left(None),
    ];
    let mut text = heading(word!("The curve"));
    text += &table(&head, &set, rows, look);
    text += &wrapped(plain(LEGEND), look, "  ");
    text
}

fn changes(answer: &TradeoffAnswer, look: &Look) -> String {
    let mut text = heading(word!("What comes and goes from row to row"));
    for (limit, line) in steps(answer, look) {
        text += &wrapped(&format!("  {}  {line}", strong(&limit)), look, "    ");
    }
    text
}

/// What to buy at each budget, beyond the row before.
fn buying(answer: &TradeoffAnswer, look: &Look) -> String {
    let mut text = heading(word!("What to buy first"));
    text += &wrapped(&format!("  {}", plain(BUYING)), look, "  ");
    for (budget, line) in purchases(answer, look) {
        text += &wrapped(&format!("  {}  {line}", strong(&budget)), look, "    ");
    }
    text
}
