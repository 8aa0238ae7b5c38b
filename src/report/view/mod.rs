//! Answers as people read them, before any layout. Whatever is shown is here already as text, beside the number and the
//! unit that it came from; terminal, Markdown, pages and tables only lay it out.

pub(crate) mod bags;
pub(crate) mod card;
pub(crate) mod checks;
pub(crate) mod debrief;
pub(crate) mod departure;
pub(crate) mod document;
pub(crate) mod documents;
mod figure;
pub(crate) mod fuel;
mod group;
pub(crate) mod headline;
pub(crate) mod load;
mod model;
mod names;
pub(crate) mod needs;
pub(crate) mod notes;
#[cfg(test)]
mod numbers;
mod pack;
pub(crate) mod rehearsal;
pub(crate) mod risks;
pub(crate) mod robust;
pub(crate) mod setup;
pub(crate) mod split;
pub(crate) mod tradeoff;
pub(crate) mod trim;
mod typed;
pub(crate) mod why;

pub use crate::told::Line;
pub use card::card;
pub use debrief::debrief;
pub use figure::Figure;
pub use group::group;
pub use model::{Bag, Bar, Cell, Next, Section, Thing, View};
pub use names::Names;
pub use pack::pack;
pub use rehearsal::rehearsal;
pub use tradeoff::tradeoff;
pub use trim::trim;
pub use typed::Typed;
pub use why::why;
