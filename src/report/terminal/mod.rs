//! The answer as a rider reads it in the shed: headline, bags, wheels, what stays open, needs, notes, cautions.

mod bike;
mod brief;
mod card;
mod check;
mod checks;
mod debrief;
mod departure;
mod document;
mod evidence;
mod find;
mod infeasible;
mod kit;
mod list;
mod load;
mod measure;
mod needs;
mod notes;
mod open;
mod pooled;
mod rehearsal;
mod robust;
mod split;
mod table;
mod tradeoff;
mod trim;
mod why;

pub use crate::view::fuel::range_notes;
pub(crate) use bike::{HOW, jobs};
pub use bike::{bike, unturned};
pub use brief::brief;
pub use card::card_of_failures;
pub use check::check;
pub use debrief::debrief;
pub use evidence::{evidence, rested};
pub use find::{entry, found};
pub use infeasible::{infeasible, stuck};
pub(crate) use infeasible::{short as shortfall, told as change};
pub use list::list;
pub use measure::measure_first;
pub use pooled::{pooled, questions};
pub use rehearsal::rehearsal;
pub use robust::robust;
pub use split::{rider_card, split};
pub(crate) use table::columns;
pub use tradeoff::tradeoff;
pub use trim::trim;
pub use why::why;

use crate::Look;
use crate::told::Line;
use crate::view;
use fardel_core::answer::PackAnswer;
use fardel_words::word;

/// The whole answer of `pack`. Styled; the stream it is printed to strips styles where they do not belong.
#[must_use]
pub fn pack(answer: &PackAnswer, look: &Look) -> String {
    let parts = [
        headline(&answer.trip.scenario, &view::headline::who(answer, look), &view::headline::lines(answer, look), look),
        kit::kit(answer, look),
        load::load(answer, look),
        open::open(answer, look),
        checks::checks(&answer.checks, look),
        departure::departure(answer, look),
        needs::needs(answer, look),
        notes::notes(answer, look),
    ];
    let mut text = parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join("\n");
    text.push('\n');
    text
}

/// Bold.
pub(crate) fn strong(text: &str) -> String {
    let style = anstyle::Style::new().bold();
    format!("{style}{text}{style:#}")
}

/// A section heading on a line of its own.
pub(crate) fn heading(text: &str) -> String {
    let style = anstyle::AnsiColor::Cyan.on_default().bold();
    format!("{style}{text}{style:#}\n")
}

/// What has to be known to read an answer.
fn how_to_read(notes: impl IntoIterator<Item = impl std::fmt::Display>, look: &Look) -> String {
    let notes = notes.into_iter().map(|note| wrapped(&format!("- {note}"), look, "  "));
    notes.fold(heading(word!("How to read this")), |text, note| text + &note)
}

/// A heading for words of which nobody knows how long they are.
pub(crate) fn titled(text: &str, look: &Look) -> String {
    textwrap::wrap(text, look.width).iter().map(|line| heading(line)).collect()
}

/// What it is about, and what matters first, each with its opening word.
pub(super) fn headline(title: &str, who: &str, lines: &[Line], look: &Look) -> String {
    let mut text = titled(title, look) + &wrapped(who, look, "") + "\n";
    for line in lines {
        text += &wrapped(&format!("{} {}", strong(line.opening()), line.text), look, "  ");
    }
    text
}

/// Text broken at the width, further lines indented.
pub(crate) fn wrapped(text: &str, look: &Look, indent: &str) -> String {
    let options = textwrap::Options::new(look.width).subsequent_indent(indent);
    format!("{}\n", textwrap::fill(text, options))
}
