//! The kit, bag by bag.

use super::table::{ROOMY, Set, table};
use super::{Look, strong, wrapped};
use crate::view::bags::{LEGEND, reason, worth};
use crate::words::sentence;
use fardel_core::answer::{PackAnswer, PackedBag, PackedItem};
use fardel_words::{plain, say, word};

pub(super) fn kit(answer: &PackAnswer, look: &Look) -> String {
    let mut text = super::heading(word!("What goes where"));
    text += &wrapped(plain(LEGEND), look, "  ");
    let name_width = answer.bags.iter().flat_map(|b| &b.items).map(|i| i.name.chars().count()).max().unwrap_or(10);
    for packed in &answer.bags {
        text += &bag(packed, name_width, look);
    }
    text
}

pub(super) fn bag(bag: &PackedBag, name_width: usize, look: &Look) -> String {
    if bag.items.is_empty() {
        let advice =
            if bag.built_in { String::new() } else { say!("; left at home it saves {}", look.show(bag.own_mass)) };
        return say!("{}: stays empty{advice}\n", strong(&sentence(&bag.name)));
    }
    let head = say!(
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
