//! The toolkit's leftovers, dropped items, warnings, cautions.

use super::{Look, heading, wrapped};
use crate::answer::PackAnswer;
use crate::report::cautions::cautions;
use crate::report::words::{counted, list};

pub(super) fn notes(answer: &PackAnswer, look: &Look) -> String {
    let mut text = buying(answer);
    let own = own_notes(answer, look);
    if !own.is_empty() {
        text += &(heading("Notes") + &own + "\n");
    }
    text += &heading("Take care");
    for caution in cautions(&answer.kinds) {
        text += &wrapped(&format!("- {caution}"), look, "  ");
    }
    text
}

fn own_notes(answer: &PackAnswer, look: &Look) -> String {
    let mut text = String::new();
    if !answer.toolkit_left.is_empty() {
        let names: Vec<String> = answer.toolkit_left.iter().map(|left| counted(left.count, &left.name)).collect();
        let mass = look.show(answer.toolkit_left.iter().map(|left| left.mass).sum::<crate::units::Mass>());
        text += &wrapped(
            &format!(
                "- Take out of the bike's own toolkit: {} ({mass}); nothing on this trip needs it, or something in the bags does the same.",
                list(&names)
            ),
            look,
            "  ",
        );
    }
    let dropped: Vec<String> = answer.dropped.iter().map(|(reason, n)| format!("{n} {}", reason.words())).collect();
    if !dropped.is_empty() {
        let line = format!(
            "- {} items were weighed against each other; left out before that: {}.",
            answer.considered,
            list(&dropped)
        );
        text += &wrapped(&line, look, "  ");
    }
    for warning in &answer.warnings {
        text += &wrapped(&format!("- {warning}"), look, "  ");
    }
    text
}

/// The shopping list.
fn buying(answer: &PackAnswer) -> String {
    if answer.purchases.is_empty() {
        return String::new();
    }
    let currency = answer.totals.currency;
    let items = answer.purchases.iter().map(|purchase| {
        format!("{} ({:.0} {currency})", counted(purchase.count, &purchase.name), purchase.price.units())
    });
    let mut text = heading("To buy");
    items.for_each(|item| text += &format!("  {item}\n"));
    text.push('\n');
    text
}
