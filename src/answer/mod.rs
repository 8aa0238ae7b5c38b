//! Loops over select and stow, returning plain answers.

pub mod joint;
pub mod pack;
mod plan;
mod purpose;
mod remedy;
pub mod solve;

pub use pack::{PackError, pack};
pub use plan::{
    Figures, NeedLine, PackAnswer, PackedBag, PackedItem, Proof, RiskLine, ToolkitLeft, Totals, TripSummary,
};
pub use remedy::Remedy;
