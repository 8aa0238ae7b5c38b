//! What can still be done to the bike before leaving: the few that are most worth their time, free things first.

use crate::Look;
use crate::amount::money;
use crate::told::Line;
use fardel_core::answer::{Chore, PackAnswer};
use fardel_core::units::{Hours, Mass, Money};
use fardel_words::{mark, say, word};

/// So many are shown; the JSON has all.
pub(crate) const SHOWN: usize = 5;

/// The title of the list.
pub(crate) const TITLE: &str = mark!("Worth doing before you leave");

/// How many more there are, and how to see them.
pub(crate) fn rest(more: usize) -> String {
    let save = if more == 1 { word!("saves") } else { word!("save") };
    say!("and {more} more that {save} less for the money (all of them with --format json)")
}

/// What the marks mean.
pub(crate) const LEGEND: &str = mark!(
    "  Free things first, then most hours for the money; each as if it alone were done. With this kit, \
or, where marked *, with the best kit then."
);

/// The first thing to do at home, in a line.
pub(crate) fn first(answer: &PackAnswer, look: &Look) -> Option<Line> {
    let chore = answer.chores.first()?;
    let costs = if chore.price == Money::ZERO {
        say!("nothing to buy")
    } else {
        say!("{} to buy", money(chore.price, answer.totals.currency))
    };
    let (work, saves) = (look.show(chore.time), minutes(chore.best_gain()));
    Some(Line::new("First at home", say!("{}: {work} of work, {costs}, saves {saves} on average", chore.name)))
}

/// Name, what it saves, what it costs, the work, what it weighs.
pub(crate) fn cells(answer: &PackAnswer, chore: &Chore, look: &Look) -> [String; 5] {
    let costs = if chore.price == Money::ZERO { say!("nothing") } else { money(chore.price, answer.totals.currency) };
    let mass = if chore.mass == Mass::ZERO { String::new() } else { format!("+ {}", look.show(chore.mass)) };
    let mark = if chore.gain_anew.is_some() { "*" } else { "" };
    [chore.name.clone(), format!("{}{mark}", minutes(chore.best_gain())), costs, look.show(chore.time), mass]
}

/// The same as a row.
pub(crate) fn row(answer: &PackAnswer, chore: &Chore, look: &Look) -> Vec<String> {
    cells(answer, chore, look).to_vec()
}

fn minutes(hours: Hours) -> String {
    let minutes = hours.get() * 60.0;
    match minutes {
        m if m < 0.1 => say!("< 0.1 min"),
        m if m < 9.95 => say!("{m:.1} min"),
        m if m < 59.5 => say!("{m:.0} min"),
        _ => say!("{:.1} h", hours.get()),
    }
}
