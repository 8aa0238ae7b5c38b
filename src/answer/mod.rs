//! Loops over select and stow, returning plain answers.

mod describe;
pub mod joint;
mod loading;
pub mod pack;
mod plan;
mod purpose;
mod rehearse;
mod remedy;
mod robust;
pub mod solve;
pub mod split;
mod ways;

pub use loading::{Allowance, By, Loading, Wheels};
pub use pack::{PackError, pack};
pub use plan::{
    Figures, NeedLine, PackAnswer, PackedBag, PackedItem, Proof, Purchase, RiskLine, Standing, ToolkitLeft, Totals,
    TripSummary,
};
pub use rehearse::{Predicted, RehearseAnswer, rehearse};
pub use remedy::{Extra, Remedy};
pub use robust::{ItemShare, Robust, Trial, robust};
pub use ways::{Change, WayOut};
