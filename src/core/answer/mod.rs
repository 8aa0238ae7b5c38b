//! Loops over select and stow, returning plain answers.

mod candidates;
mod card;
mod checks;
mod claim;
mod departure;
mod describe;
mod firm;
mod fuel;
mod home;
pub mod joint;
mod loading;
mod measure;
pub mod pack;
mod plan;
mod purpose;
mod ready;
mod rehearse;
mod remedies;
mod remedy;
mod robust;
pub mod solve;
pub mod split;
mod sufficient;
pub mod tradeoff;
mod trim;
mod why;

pub use card::{Aboard, CardAnswer, CardFailure, CardRepair, CardThing, card};
pub use checks::BikeChecks;
pub use departure::{Anew, Chore};
pub use firm::{ALMOST_THE_SAME, Dial, Firm, FirmLine, FirmTrial};
pub use fuel::{FuelShort, short_at_best};
pub use loading::{Allowance, By, Loading, Wheels};
pub use measure::{DRAWS as MEASURE_DRAWS, Measure, SURE, Worthwhile, measure_first};
pub use pack::{PackError, pack, pack_thoroughly};
pub use plan::{
    Figures, Home, ItemCosts, NeedLine, PackAnswer, PackedBag, PackedItem, PriceTags, Proof, Purchase, RiskLine,
    Standing, ToolkitLeft, Totals, TripSummary,
};
pub use rehearse::{Predicted, RehearseAnswer, RehearseError, rehearse, rehearse_uncertain};
pub use remedies::{Change as TripChange, TripRemedy};
pub use remedy::{Extra, Remedy};
pub use robust::{ItemShare, Robust, Trial, robust};
pub use sufficient::Set;
pub use tradeoff::{Change, Curve, CurvePoint, Limits, Step, TradeoffAnswer, TradeoffPoint, curve, tradeoff};
pub use trim::{Going, Short, TrimAnswer, Wish, trim};
pub use why::{About, Carried, Cover, FailureReasons, Left, Other, RepairReasons, WhyAnswer, WhyError, why};
