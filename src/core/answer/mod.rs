//! Loops over select and stow, returning plain answers.

mod candidates;
mod card;
pub(crate) mod cautions;
mod charge;
mod checks;
mod claim;
pub mod class;
mod counted;
mod demand;
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
mod sets;
pub mod setup;
mod shapes;
pub mod solve;
pub mod split;
mod study;
mod sufficient;
pub mod tradeoff;
mod trim;
mod why;

pub use card::{Aboard, CardAnswer, CardFailure, CardRepair, CardThing, card};
pub use cautions::cautions;
pub use charge::{ChargeShort, charge_short};
pub use checks::BikeChecks;
pub(crate) use claim::terms as claimed;
pub use counted::{Counted, FailureCount, HoursLost, ItemCount, StockCount};
pub use demand::NeedLine;
pub use departure::{Anew, Chore};
pub use firm::{ALMOST_THE_SAME, Dial, Firm, FirmLine, FirmTrial};
pub use fuel::{FuelShort, short_at_best};
pub(crate) use loading::wheels;
pub use loading::{Allowance, By, LimitUse, Loading, Wheels};
pub use measure::{DRAWS as MEASURE_DRAWS, Measure, MeasureFirst, SURE, Worthwhile, measure_first};
pub use pack::{PackError, pack, pack_briefly, pack_thoroughly};
pub(crate) use pack::{told, told_thoroughly};
pub use plan::{
    Figures, Home, ItemCosts, PackAnswer, PackedBag, PackedItem, PriceTags, Proof, Purchase, RiskLine, Standing,
    ToolkitLeft, Totals, TripSummary,
};
pub(crate) use ready::{Ready, explain, resolved};
pub use rehearse::{Predicted, RehearseAnswer, RehearseError, rehearse, rehearse_uncertain};
pub use remedies::{Change as TripChange, TripRemedy};
pub use remedy::{Extra, Remedy};
pub use robust::{ItemShare, Robust, Trial, robust};
pub use sets::{PartedSet, SetsInBags, SetsOnBikes, SplitSet};
pub use study::{RateWorth, Study, Turned, study};
pub use sufficient::Set;
pub use tradeoff::{
    Change, Curve, CurveFigures, CurvePoint, Limits, PointFigures, Step, TradeoffAnswer, TradeoffPoint, curve, tradeoff,
};
pub use trim::{Going, GoingFigures, Short, TrimAnswer, TrimFigures, Wish, trim};
pub(crate) use why::why_of;
pub use why::{About, Carried, Cover, FailureReasons, Left, Other, RepairReasons, WhyAnswer, WhyError, why};
