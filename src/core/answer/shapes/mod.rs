//! What answers write in place of pairs, sums and words.

mod lists;
mod sums;
mod words;

pub(super) use lists::{BatteryRange, Dropped, FuelRange, Holder, Lacking, NamedCount, OpenFailure, RepairShare};
pub(super) use sums::{
    Degrees, FetchedPrice, HomeTogether, KilogramPrice, LoadedWheels, RemedyParts, SameRange, TripParts,
};
pub(super) use words::{AllowedBy, Cautions, DialWord, JointModel, ReasonWords};
