//! The answer of `split`: the group first, then a card for each rider, then what is left when somebody leaves.

use super::table::{Set, table};
use super::{Look, checks, heading, kit, load, needs, notes, open, wrapped};
use crate::view::split as told;
use fardel_core::answer::split::{Card, SplitAnswer};
use fardel_words::{plain, say, word};

/// The whole answer. Styled; the stream it is printed to strips styles where they do not belong.
#[must_use]
pub fn split(answer: &SplitAnswer, look: &Look) -> String {
    let mut parts = vec![
        super::headline(&answer.scenario, &told::who(answer, look), &told::lines(answer, look), look),
        shares(answer, look),
    ];
    parts.extend(answer.cards.iter().map(|card| self::card(answer, card, look)));
    parts.push(moved(answer));
    parts.push(leaving(answer, look));
    parts.push(carriers(answer, look));
    parts.push(open::risks(&answer.risks, look));
    parts.push(checks::group(&answer.checks, look));
    parts.push(needs::table_of(&answer.needs, look));
    parts.push(alone(answer, look));
    parts.push(notes::buying(&answer.purchases, answer.totals.currency));
    parts.push(notes::closing(&answer.warnings, &answer.kinds, look));
    parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join("\n")
}

/// One rider's card by itself, to print and take along.
#[must_use]
pub fn rider_card(answer: &SplitAnswer, card: &Card, look: &Look) -> String {
    let mut text = super::titled(&answer.scenario, look);
    text.push('\n');
    text += &self::card(answer, card, look);
    text.push('\n');
    text + &notes::closing(&[], &answer.kinds, look)
}

/// Who carries how much.
fn shares(answer: &SplitAnswer, look: &Look) -> String {
    let right = Set::Right(None);
    let set = [Set::Left(None), Set::Left(Some(30)), Set::Left(None), right, right, right, right, right];
    heading(word!("Who carries how much")) + &table(&told::SHARES, &set, told::share_rows(answer, look), look)
}

fn card(answer: &SplitAnswer, card: &Card, look: &Look) -> String {
    let mut text = super::titled(&told::card_title(card, look), look);
    for line in told::lacks(answer, card) {
        text += &wrapped(&format!("  {line}"), look, "  ");
    }
    let width = answer.cards.iter().flat_map(|card| &card.bags).flat_map(|bag| &bag.items);
    let width = width.map(|item| item.name.chars().count()).max().unwrap_or(10);
    for bag in &card.bags {
        text += &kit::bag(bag, width, look);
    }
    text.push('\n');
    text + &load::one(&card.load, look)
}

fn moved(answer: &SplitAnswer) -> String {
    let Some(moves) = told::moves(answer) else { return String::new() };
    moves.iter().fold(heading(word!("What changes hands")), |text, line| text + &format!("  {line}\n"))
}

/// What is left when somebody leaves.
fn leaving(answer: &SplitAnswer, look: &Look) -> String {
    let rows = told::leaving_rows(answer, look);
    if rows.is_empty() {
        return String::new();
    }
    let right = Set::Right(None);
    let set = [Set::Left(None), right, right, right, Set::Left(None)];
    super::titled(&say!("{}: hours saved for the others", plain(told::LEAVING)), look)
        + &table(&told::LEFT, &set, rows, look)
}

/// What is there twice, and the single copies that would be missed most.
fn carriers(answer: &SplitAnswer, look: &Look) -> String {
    let set = [Set::Left(Some(44)), Set::Left(None), Set::Right(None), Set::Right(None)];
    let mut text = String::new();
    for (title, all) in [(plain(told::ONCE), &answer.once), (plain(told::TWICE), &answer.twice)] {
        let rows = told::carried_rows(all, look);
        if rows.is_empty() {
            continue;
        }
        let more = rows.len().saturating_sub(told::SHOWN);
        text += &super::titled(title, look);
        text += &table(&told::CARRIED, &set, rows.into_iter().take(told::SHOWN).collect(), look);
        if more > 0 {
            text += &say!("  and {more} less missed (all of them with --format json)\n");
        }
    }
    text
}

/// What sharing saves against everybody packing alone.
fn alone(answer: &SplitAnswer, look: &Look) -> String {
    let rows = told::alone_rows(answer, look);
    if rows.is_empty() {
        return String::new();
    }
    let buying = say!("to buy, {}", answer.totals.currency);
    let set = [Set::Left(None), Set::Right(None), Set::Right(None), Set::Right(None)];
    super::titled(plain(told::ALONE), look) + &table(&["", word!("kit"), word!("saves"), &buying], &set, rows, look)
}
