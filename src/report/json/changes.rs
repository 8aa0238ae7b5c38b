//! What a kit holds, what comes in and what goes out.

use fardel_core::answer;
use fardel_core::domain::Kit;
use serde::Serialize;

#[derive(Serialize)]
pub(super) struct Change<'a> {
    id: &'a str,
    name: &'a str,
    count: u32,
    price: f64,
}

#[derive(Serialize)]
pub(super) struct Counted<'a> {
    id: &'a str,
    count: u32,
}

pub(super) fn counted(kit: &Kit) -> Vec<Counted<'_>> {
    kit.iter().map(|(id, count)| Counted { id, count }).collect()
}

pub(super) fn changes(changes: &[answer::Change]) -> Vec<Change<'_>> {
    changes.iter().map(change).collect()
}

fn change(change: &answer::Change) -> Change<'_> {
    Change { id: &change.id, name: &change.name, count: change.count, price: change.price.units() }
}
