//! The kit by bag: what each thing is worth and what it is for.

use super::{Bag, Figure, Names, Thing};
use crate::Look;
use crate::words::sentence;
use fardel_core::answer::{PackedBag, PackedItem, Standing};
use fardel_words::{mark, say, several, word};

/// Purposes named for an item before "and more".
const PURPOSES_SHOWN: usize = 2;

/// What the fourth column says.
pub(crate) const LEGEND: &str = mark!(
    "  Beside each thing: what you would expect to lose if it alone stayed at home. Things that work \
together each show the whole loss, so the times do not add up."
);

/// What is lost without it, or why it is there all the same.
pub(crate) fn worth(item: &PackedItem, look: &Look) -> String {
    match item.standing {
        _ if item.worth.get() >= 1.0 / 60.0 => look.show(item.worth),
        Standing::Needed => say!("needed"),
        Standing::Asked => say!("asked for"),
        Standing::Earns => "< 1 min".to_owned(),
    }
}

/// What it is for.
pub(crate) fn reason(item: &PackedItem) -> String {
    let shown = item.purposes.iter().take(PURPOSES_SHOWN).cloned().collect::<Vec<_>>().join("; ");
    let more = item.purposes.len().saturating_sub(PURPOSES_SHOWN);
    let mut text = shown;
    if more > 0 {
        text += &format!("; {}", several!(more_as_number(more), "{n} more", "{n} more"));
    }
    if text.is_empty() {
        word!("on your always list").clone_into(&mut text);
    }
    if item.to_buy == 0 && item.from_toolkit > 0 {
        text += word!(" (bike's own toolkit)");
    }
    text
}

fn more_as_number(more: usize) -> f64 {
    f64::from(u32::try_from(more).unwrap_or(u32::MAX))
}

/// The bags, with their contents in the order of the answer.
pub(crate) fn bags(bags: &[PackedBag], names: &Names, look: &Look) -> Vec<Bag> {
    bags.iter().map(|own| bag(own, names, look)).collect()
}

fn bag(bag: &PackedBag, names: &Names, look: &Look) -> Bag {
    let (filled, usable) = (Figure::volume(bag.filled, look), Figure::volume(bag.usable, look));
    let (mass, bears) = (Figure::mass(bag.mass, look), Figure::mass(bag.max_load, look));
    let idle = bag.items.is_empty() && !bag.built_in;
    Bag {
        name: sentence(&bag.name),
        room: filled.of(&usable),
        load: mass.of(&bears),
        filled,
        usable,
        mass,
        bears,
        spare: idle.then(|| Figure::mass(bag.own_mass, look)),
        things: bag.items.iter().map(|item| thing(item, names, look)).collect(),
    }
}

fn thing(item: &PackedItem, names: &Names, look: &Look) -> Thing {
    Thing {
        count: Figure::count(item.count),
        short: names.short(&item.name).to_owned(),
        name: item.name.clone(),
        mass: Figure::mass(item.mass, look),
        worth: worth(item, look),
        reason: reason(item),
        to_buy: item.to_buy > 0,
    }
}
