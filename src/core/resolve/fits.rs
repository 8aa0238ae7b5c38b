//! Which item may go into which bag.

use crate::domain::{Bag, Item};

/// Length, room, load and kind allow it.
pub(super) fn possible(item: &Item, bag: &Bag) -> bool {
    item.longest <= bag.longest
        && item.volume <= bag.usable()
        && item.mass <= bag.max_load
        && !bag.refuses.contains(&item.kind)
}

/// A wish of an item that no bag of the rider can grant.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Waived {
    Quick,
    Dry,
}

/// For each bag: may the item go there? A wish for quick access or dryness binds only while some bag that takes the
/// item at all can grant it; otherwise it is waived and named, so that one missing dry bag does not empty the kit.
pub(super) fn fits(item: &Item, bags: &[Bag]) -> (Vec<bool>, Vec<Waived>) {
    let mut allowed: Vec<bool> = bags.iter().map(|bag| possible(item, bag)).collect();
    let mut waived = Vec::new();
    if item.dry && !narrow(&mut allowed, bags, |bag| bag.weatherproof) {
        waived.push(Waived::Dry);
    }
    if item.quick && !narrow(&mut allowed, bags, |bag| bag.quick) {
        waived.push(Waived::Quick);
    }
    (allowed, waived)
}

/// Keeps only bags that grant the wish, if there is one; says whether there was (or no bag was left to ask).
fn narrow(allowed: &mut [bool], bags: &[Bag], grants: impl Fn(&Bag) -> bool) -> bool {
    let granted: Vec<bool> = allowed.iter().zip(bags).map(|(ok, bag)| *ok && grants(bag)).collect();
    let any_left = allowed.iter().any(|ok| *ok);
    let any_granted = granted.iter().any(|ok| *ok);
    if any_granted {
        allowed.copy_from_slice(&granted);
    }
    any_granted || !any_left
}
