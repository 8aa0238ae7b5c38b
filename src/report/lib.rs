//! Answers as text for eyes and as JSON for machines. Nothing here decides anything.

mod amount;
pub mod ask;
mod bill;
pub mod cautions;
pub mod csv;
mod drawing;
pub mod elicited;
mod escape;
pub mod files;
mod firm;
pub mod histogram;
pub mod json;
mod look;
pub mod markdown;
mod measure;
pub mod pages;
pub mod papers;
pub mod plot;
mod script;
pub mod sheet;
mod template;
pub mod terminal;
mod told;
pub mod view;
mod words;

pub use look::Look;
