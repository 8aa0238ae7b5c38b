//! Answers as pages for a browser: one file each, which loads nothing. Each module makes the plain data that its
//! template in `templates/` shows; words are those of the terminal wherever it has them.

mod bags;
mod card;
mod certainty;
mod chart;
mod checks;
mod curve;
mod frame;
mod glance;
mod outline;
mod pack;
mod picture;
mod rehearse;
mod split;
mod systems;
mod tradeoff;
mod trim;
mod wheels;

pub use card::booklet;
pub(super) use frame::allowed as style_hash;
pub(crate) use frame::framed;
pub use pack::{Kit, pack};
pub use rehearse::rehearse;
pub use split::{Group, rider_page, split};
pub use tradeoff::tradeoff;
pub use trim::trim;

/// Why a page could not be made: a defect of the program.
pub type PageError = minijinja::Error;
