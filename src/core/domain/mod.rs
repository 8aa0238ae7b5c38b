//! What is given (catalogue, scenario) and what is decided (kit, stowage). Plain data: no file format, no solver.

mod basis;
mod bike;
mod catalogue;
mod check;
mod evidence;
mod failure;
mod item;
mod kit;
mod prices;
mod ride;
mod set;
pub mod template;
mod terms;
mod trip;
mod tyre;

pub use basis::{Basis, BasisKind};
pub use bike::{Bag, Bike, Energy, Side};
pub use catalogue::{
    Attribute, Catalogue, Function, Model, Need, Pooling, Preparation, PreparationType, Stock, System,
};
pub use check::Check;
pub use evidence::{EventGroup, Evidence, EvidenceSource, Family, Reading, SourceKind};
pub use failure::{Applies, Failure, Grade, Outcome, Rate, Repair};
pub use item::{Contribution, Item};
pub use kit::{Kit, Stowage};
pub use prices::{OwnPrices, Prices};
pub use ride::Ride;
pub use set::{SetsOfBike, WorkingSet};
pub(crate) use terms::words;
pub use terms::{BySurface, Fair, Kind, NeedRule, RepairSkill, RidingSkill, Role, Style, Surface};
pub use trip::{Leg, Limits, Rider, Scenario, Sharing, Trip};
pub use tyre::{LARGEST_LOAD_INDEX, LEAST_LOAD_INDEX, tyre_load};

/// Names mapped to values, in the order of the file.
pub type Map<T> = indexmap::IndexMap<String, T>;
