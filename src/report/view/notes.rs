//! The toolkit's leftovers, dropped items, warnings.

use super::{Cell, Figure, Names, Section};
use crate::Look;
use crate::words::{counted, list};
use fardel_core::answer::{PackAnswer, Purchase};
use fardel_core::units::{Currency, Money};
use fardel_words::{say, several};

/// The toolkit's leftovers, dropped items, warnings.
pub(crate) fn lines(answer: &PackAnswer, look: &Look) -> Vec<String> {
    let mut lines = Vec::new();
    if !answer.toolkit_left.is_empty() {
        let names: Vec<String> = answer.toolkit_left.iter().map(|left| counted(left.count, &left.name)).collect();
        let mass = look.show(answer.toolkit_left.iter().map(|left| left.mass).sum::<fardel_core::units::Mass>());
        lines.push(say!(
            "Take out of the bike's own toolkit: {} ({mass}); nothing on this trip needs it, or something in the bags does the same.",
            list(&names)
        ));
    }
    let dropped: Vec<String> = answer.dropped.iter().map(|(reason, n)| format!("{n} {}", reason.words())).collect();
    if !dropped.is_empty() {
        lines.push(say!(
            "{} weighed against each other; left out before that: {}.",
            several!(answer.considered, "{n} item was", "{n} items were"),
            list(&dropped)
        ));
    }
    lines.extend(answer.warnings.iter().cloned());
    lines
}

/// So many purchases a screen names; the bags mark them all.
const FEW: usize = 5;

/// What has to be bought, the dearest first.
pub(crate) fn buying(purchases: &[Purchase], currency: Currency, names: &Names) -> Section {
    let row = |own: &Purchase| -> Vec<Cell> {
        vec![counted(own.count, names.short(&own.name)).into(), Figure::money(own.price, currency).into()]
    };
    let all = Figure::money(purchases.iter().map(|own| own.price).sum(), currency);
    let cheapest = |left: usize| -> Money { purchases.iter().rev().take(left).map(|own| own.price).sum() };
    let rest = |left| say!("{left} more for {}", Figure::money(cheapest(left), currency));
    Section::new(say!("To buy, {all} in all"), &["", "#"], purchases.iter().map(row).collect(), FEW)
        .run_on()
        .with_rest(rest)
}
