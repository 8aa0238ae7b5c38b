//! What rests on the wheels before and after, what they may bear, which limit binds the kit, and what is set for the load.

use super::table::{Set, table};
use super::{Look, heading, wrapped};
use crate::view;
use fardel_core::answer::{Loading, PackAnswer};
use fardel_words::plain;

pub(super) fn load(answer: &PackAnswer, look: &Look) -> String {
    answer.loads.iter().map(|load| one(load, look)).collect::<Vec<_>>().join("\n")
}

pub(super) fn one(load: &Loading, look: &Look) -> String {
    loaded(load, look) + &set(load, look)
}

fn loaded(load: &Loading, look: &Look) -> String {
    let load = view::load::load(load, look);
    let head: Vec<&str> = load.rows.head.iter().map(String::as_str).collect();
    let right = Set::Right(None);
    let mut text = super::titled(&load.title, look);
    text += &table(&head, &[Set::Left(None), right, right, right, right], load.rows.rows, look);
    load.notes.iter().for_each(|note| text += &wrapped(&format!("- {note}"), look, "  "));
    text
}

/// What is set for the load.
fn set(load: &Loading, look: &Look) -> String {
    let Some(own) = &load.setup else { return String::new() };
    let told = view::setup::told(own, look);
    let head: Vec<&str> = told.rows.head.iter().map(String::as_str).collect();
    let right = Set::Right(None);
    let mut text = format!("\n{}", heading(plain(view::setup::TITLE)));
    text += &wrapped(&format!("  {}", plain(view::setup::LEGEND)), look, "  ");
    text += &table(&head, &[Set::Left(None), right, right, Set::Left(None)], told.rows.rows, look);
    told.notes.iter().for_each(|note| text += &wrapped(&format!("- {note}"), look, "  "));
    text
}
