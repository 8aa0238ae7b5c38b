//! Before you leave: a check list of what can still be done to the bike, free things first.

use super::table::{Set, table};
use super::{Look, heading, wrapped};
use crate::answer::{Chore, PackAnswer};
use crate::report::amount::money;
use crate::units::{Hours, Mass, Money};

/// So many free ones are shown, and so many that cost money; the JSON has all.
const SHOWN: usize = 6;

pub(super) fn departure(answer: &PackAnswer, look: &Look) -> String {
    if answer.chores.is_empty() {
        return String::new();
    }
    let (free, paid): (Vec<&Chore>, Vec<&Chore>) = answer.chores.iter().partition(|chore| chore.price == Money::ZERO);
    let shown: Vec<&Chore> = free.into_iter().take(SHOWN).chain(paid.into_iter().take(SHOWN)).collect();
    let more = answer.chores.len() - shown.len();
    let rows = shown.into_iter().map(|chore| row(answer, chore, look)).map(boxed).collect();
    let mut text = heading("Before you leave");
    text += &wrapped(LEGEND, look, "  ");
    let set = [Set::Left(Some(58)), Set::Right(Some(11)), Set::Right(Some(11)), Set::Right(Some(10)), Set::Left(None)];
    text += &table(&["", "saves", "costs", "work", ""], &set, rows, look);
    if more > 0 {
        text += &format!("  and {more} more (all of them with --format json)\n");
    }
    text
}

/// What the marks mean.
pub(in crate::report) const LEGEND: &str = "  Free things first, then most hours for the money; each as if it alone were done. With this kit, \
or, where marked *, with the best kit then.";

/// Name, what it saves, what it costs, the work, what it weighs.
pub(in crate::report) fn row(answer: &PackAnswer, chore: &Chore, look: &Look) -> Vec<String> {
    let costs =
        if chore.price == Money::ZERO { "nothing".to_owned() } else { money(chore.price, answer.totals.currency) };
    let mass = if chore.mass == Mass::ZERO { String::new() } else { format!("+ {}", look.show(chore.mass)) };
    let mark = if chore.gain_anew.is_some() { "*" } else { "" };
    vec![chore.name.clone(), format!("{}{mark}", minutes(chore.best_gain())), costs, look.show(chore.time), mass]
}

/// With a box to tick.
fn boxed(mut row: Vec<String>) -> Vec<String> {
    row[0].insert_str(0, "[ ] ");
    row
}

fn minutes(hours: Hours) -> String {
    let minutes = hours.get() * 60.0;
    match minutes {
        m if m < 0.1 => "< 0.1 min".to_owned(),
        m if m < 9.95 => format!("{m:.1} min"),
        m if m < 59.5 => format!("{m:.0} min"),
        _ => format!("{:.1} h", hours.get()),
    }
}
