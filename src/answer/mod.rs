//! Loops over select and stow, returning plain answers.

pub mod joint;
pub mod pack;
mod purpose;
mod remedy;
pub mod solve;

pub use pack::{
    Figures, NeedLine, PackAnswer, PackError, PackedBag, PackedItem, Proof, RiskLine, ToolkitLeft, Totals, TripSummary, pack,
};
pub use remedy::Remedy;
