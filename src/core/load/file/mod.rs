//! The shapes of the files, key by key. Nothing is required here: a missing key is told after inheritance, with all
//! its missing neighbours, instead of one at a time.
//!
//! The doc comments of the keys are the descriptions in the JSON Schemas. `catalogues/schema` and `scenarios/schema`
//! keep what `fardel schema` prints; after a change of a key or its comment write them anew, for example with `cargo
//! run -- schema scenario --out scenarios/schema/scenario.json --force`. Only values of several forms are described by
//! hand, in `schema/values.rs`. Examples of every section are in `fardel help catalogue` and `fardel help files`.

mod bikes;
mod catalogue;
mod common;
mod evidence;
mod failures;
mod gear;
mod inherit;
mod items;
mod rides;
mod scenario;

pub(crate) use bikes::{BagShape, BikeShape};
pub(crate) use catalogue::{
    AttributeShape, CatalogueFile, FallRateShape, FunctionShape, LadderShape, ModelShape, NeedShape, PricesShape,
    ServiceShape, SetShape, StockShape, SystemShape,
};
pub(crate) use common::{Counted, OneOrMany, Surfaces, Text};
pub(crate) use evidence::{EventGroupShape, EvidenceShape, ReadingShape};
pub(crate) use failures::{CheckShape, FailureShape, PreparationShape, RateShape, RepairShape};
pub(crate) use gear::{GearFile, GearShape, KitFile, Listed, PackedFile};
pub(crate) use inherit::Inherit;
pub(crate) use items::{ContributionShape, Graded, ItemShape};
pub(crate) use rides::{RideShape, RidesFile};
pub(crate) use scenario::{
    GroupShape, LegShape, LimitsShape, MoneyShape, OwnPricesShape, RiderShape, ScenarioFile, TripShape,
};
#[cfg(test)]
pub(crate) use {catalogue::SkillShape, gear::KitShape, scenario::PinsShape};
