//! The kit, bag by bag.

use super::table::{ROOMY, Set, table};
use super::{Look, strong, wrapped};
use crate::words::{plural, sentence};
use fardel_core::answer::{PackAnswer, PackedBag, PackedItem, Standing};

/// Purposes named for an item before "and more".
const PURPOSES_SHOWN: usize = 2;

pub(super) fn kit(answer: &PackAnswer, look: &Look) -> String {
    let mut text = super::heading("What goes where");
    text += &wrapped(LEGEND, look, "  ");
    let name_width = answer.bags.iter().flat_map(|b| &b.items).map(|i| i.name.chars().count()).max().unwrap_or(10);
    for packed in &answer.bags {
        text += &bag(packed, name_width, look);
    }
    text
}

/// What the fourth column says.
pub(crate) const LEGEND: &str = "  Beside each thing: what you would expect to lose if it alone stayed at home. Things that work \
together each show the whole loss, so the times do not add up.";

pub(super) fn bag(bag: &PackedBag, name_width: usize, look: &Look) -> String {
    if bag.items.is_empty() {
        let advice =
            if bag.built_in { String::new() } else { format!("; left at home it saves {}", look.show(bag.own_mass)) };
        return format!("{}: stays empty{advice}\n", strong(&sentence(&bag.name)));
    }
    let head = format!(
        "{}: {} of {}, {} of {}",
        strong(&sentence(&bag.name)),
        look.show(bag.filled),
        look.show(bag.usable),
        look.show(bag.mass),
        look.show(bag.max_load),
    );
    let mut text = wrapped(&head, look, "  ");
    // On a telephone, what a thing is for would take the screen; `why` tells it.
    let columns = if look.width < ROOMY { 4 } else { 5 };
    let rows = bag.items.iter().map(|item| row(item, look).into_iter().take(columns).collect()).collect();
    let name = u16::try_from(name_width + 2).unwrap_or(40).min(44);
    text += &table(
        &[],
        &[Set::Right(Some(6)), Set::Left(Some(name)), Set::Right(Some(10)), Set::Right(Some(11)), Set::Left(None)],
        rows,
        look,
    );
    text
}

fn row(item: &PackedItem, look: &Look) -> Vec<String> {
    vec![item.count.to_string(), item.name.clone(), look.show(item.mass), worth(item, look), reason(item)]
}

/// What is lost without it, or why it is there all the same.
pub(crate) fn worth(item: &PackedItem, look: &Look) -> String {
    match item.standing {
        _ if item.worth.get() >= 1.0 / 60.0 => look.show(item.worth),
        Standing::Needed => "needed".to_owned(),
        Standing::Asked => "asked for".to_owned(),
        Standing::Earns => "< 1 min".to_owned(),
    }
}

/// What it is for.
pub(crate) fn reason(item: &PackedItem) -> String {
    let shown = item.purposes.iter().take(PURPOSES_SHOWN).cloned().collect::<Vec<_>>().join("; ");
    let more = item.purposes.len().saturating_sub(PURPOSES_SHOWN);
    let mut text = shown;
    if more > 0 {
        text += &format!("; {}", plural(more_as_number(more), "more", "more"));
    }
    if text.is_empty() {
        "on your always list".clone_into(&mut text);
    }
    if item.to_buy == 0 && item.from_toolkit > 0 {
        text += " (bike's own toolkit)";
    }
    text
}

fn more_as_number(more: usize) -> f64 {
    f64::from(u32::try_from(more).unwrap_or(u32::MAX))
}
