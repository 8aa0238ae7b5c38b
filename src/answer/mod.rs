//! Loops over select and stow, returning plain answers.

mod describe;
pub mod joint;
pub mod pack;
mod plan;
mod purpose;
mod remedy;
pub mod solve;

pub use pack::{PackError, pack};
pub use plan::{
    Figures, Loaded, NeedLine, PackAnswer, PackedBag, PackedItem, Proof, Purchase, RiskLine, Standing, ToolkitLeft,
    Totals, TripSummary,
};
pub use remedy::{Extra, Remedy};
