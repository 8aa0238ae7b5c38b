//! What comes in and what goes out.

use crate::answer;
use serde::Serialize;

#[derive(Serialize)]
pub(super) struct Change<'a> {
    id: &'a str,
    name: &'a str,
    count: u32,
    price: f64,
}

pub(super) fn changes(changes: &[answer::Change]) -> Vec<Change<'_>> {
    changes.iter().map(change).collect()
}

fn change(change: &answer::Change) -> Change<'_> {
    Change { id: &change.id, name: &change.name, count: change.count, price: change.price.units() }
}
