//! Rides as written.

use super::{Counted, Surfaces};
use crate::load::numbers::{Amount, Count, Kilometres};
use serde::Deserialize;

/// A ride log, or a book of many.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct RidesFile {
    pub rides: Vec<RideShape>,
}

/// A ride that is over.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct RideShape {
    pub name: Option<String>,
    pub bike: Option<String>,
    pub km: Option<Surfaces<Kilometres>>,
    pub days: Option<Amount>,
    pub falls: Option<Count>,
    pub done: Option<Vec<String>>,
    pub broke: Option<Counted>,
    pub carried: Option<Counted>,
    pub used: Option<Counted>,
    pub missed: Option<Counted>,
}
