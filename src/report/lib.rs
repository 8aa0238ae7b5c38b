//! Answers as text for eyes and as JSON for machines. Nothing here decides anything.

mod amount;
mod bill;
pub mod cautions;
pub mod csv;
mod drawing;
mod escape;
pub mod files;
mod firm;
pub mod histogram;
pub mod json;
pub mod markdown;
pub mod pages;
pub mod papers;
pub mod plot;
pub mod sheet;
mod template;
pub mod terminal;
mod told;
mod words;

pub use terminal::Look;
