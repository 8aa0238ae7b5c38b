//! What rests on the wheels before and after, what they may bear, and which limit binds the kit.

use super::table::{Set, table};
use super::{Look, wrapped};
use crate::view;
use fardel_core::answer::{Loading, PackAnswer};

pub(super) fn load(answer: &PackAnswer, look: &Look) -> String {
    answer.loads.iter().map(|load| one(load, look)).collect::<Vec<_>>().join("\n")
}

pub(super) fn one(load: &Loading, look: &Look) -> String {
    let load = view::load::load(load, look);
    let head: Vec<&str> = load.rows.head.iter().map(String::as_str).collect();
    let right = Set::Right(None);
    let mut text = super::titled(&load.title, look);
    text += &table(&head, &[Set::Left(None), right, right, right, right], load.rows.rows, look);
    load.notes.iter().for_each(|note| text += &wrapped(&format!("- {note}"), look, "  "));
    text
}
