//! The toolkit's leftovers, dropped items, warnings, cautions.

use super::{Look, heading, wrapped};
use crate::cautions::cautions;
use crate::view::notes::lines;
use crate::words::counted;
use fardel_core::answer::{PackAnswer, Purchase};
use fardel_core::domain::Kind;
use fardel_core::units::Currency;
use fardel_words::{say, word};

pub(super) fn notes(answer: &PackAnswer, look: &Look) -> String {
    let mut text = buying(&answer.purchases, answer.totals.currency);
    let own = own_notes(answer, look);
    if !own.is_empty() {
        text += &(heading(word!("Notes")) + &own + "\n");
    }
    text + &care(&answer.kinds, look)
}

/// What can hurt people.
fn care(kinds: &[Kind], look: &Look) -> String {
    let mut text = heading(word!("Take care"));
    for caution in cautions(kinds) {
        text += &wrapped(&format!("- {caution}"), look, "  ");
    }
    text
}

/// Warnings, where there are any, and cautions.
pub(super) fn closing(warnings: &[String], kinds: &[Kind], look: &Look) -> String {
    let mut text = String::new();
    if !warnings.is_empty() {
        text += &heading(word!("Notes"));
        for warning in warnings {
            text += &wrapped(&format!("- {warning}"), look, "  ");
        }
        text.push('\n');
    }
    text + &care(kinds, look)
}

fn own_notes(answer: &PackAnswer, look: &Look) -> String {
    lines(answer, look).iter().map(|line| wrapped(&format!("- {line}"), look, "  ")).collect()
}

/// The shopping list.
pub(super) fn buying(purchases: &[Purchase], currency: Currency) -> String {
    if purchases.is_empty() {
        return String::new();
    }
    let items = purchases
        .iter()
        .map(|purchase| say!("{} ({:.0} {currency})", counted(purchase.count, &purchase.name), purchase.price.units()));
    let mut text = heading(word!("To buy"));
    items.for_each(|item| text += &format!("  {item}\n"));
    text.push('\n');
    text
}
