//! The answer as a rider reads it in the shed: headline, bags, wheels, what stays open, needs, notes, cautions.

mod bike;
mod card;
mod check;
pub(super) mod checks;
mod debrief;
pub(super) mod departure;
mod find;
pub(super) mod fuel;
pub(super) mod headline;
mod infeasible;
pub(super) mod kit;
mod list;
pub(super) mod load;
pub(super) mod needs;
pub(super) mod notes;
pub(super) mod open;
pub(super) mod rehearsal;
pub(super) mod robust;
pub(super) mod split;
mod table;
pub(super) mod tradeoff;
pub(super) mod trim;
mod why;

pub(crate) use bike::{HOW, jobs};
pub use bike::{bike, unturned};
pub use card::card_of_failures;
pub use check::check;
pub use debrief::debrief;
pub use find::{entry, found};
pub use fuel::fuel_note;
pub use infeasible::{infeasible, stuck};
pub(crate) use infeasible::{short as shortfall, told as change};
pub use list::list;
pub use rehearsal::rehearsal;
pub use robust::robust;
pub use split::{rider_card, split};
pub(crate) use table::columns;
pub use tradeoff::tradeoff;
pub use trim::trim;
pub use why::why;

use fardel_core::answer::PackAnswer;
use fardel_core::units::{Show, UnitSystem};

/// How to show an answer.
#[derive(Debug, Clone, Copy)]
pub struct Look {
    /// Metric or imperial.
    pub units: UnitSystem,
    /// Columns of the terminal.
    pub width: usize,
}

impl Look {
    #[allow(clippy::needless_pass_by_value, reason = "quantities are numbers")]
    pub(super) fn show(&self, quantity: impl Show) -> String {
        quantity.show(self.units)
    }
}

/// The whole answer of `pack`. Styled; the stream it is printed to strips styles where they do not belong.
#[must_use]
pub fn pack(answer: &PackAnswer, look: &Look) -> String {
    let parts = [
        headline::headline(answer, look),
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

/// The same for words of which nobody knows how long they are.
pub(crate) fn titled(text: &str, look: &Look) -> String {
    textwrap::wrap(text, look.width).iter().map(|line| heading(line)).collect()
}

/// Text broken at the width, further lines indented.
pub(crate) fn wrapped(text: &str, look: &Look, indent: &str) -> String {
    let options = textwrap::Options::new(look.width).subsequent_indent(indent);
    format!("{}\n", textwrap::fill(text, options))
}
