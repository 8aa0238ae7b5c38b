//! Rides as written.

use super::{Counted, Surfaces};
use crate::domain::RidingSkill;
use crate::load::numbers::{Amount, Count, Kilometres};
use crate::units::Mass;
use serde::Deserialize;

/// A ride log, or a book of many.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct RidesFile {
    /// The rides.
    pub rides: Vec<RideShape>,
}

/// A ride that is over.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct RideShape {
    /// What the ride is called; no two alike.
    pub name: Option<String>,
    /// Who rode, in a book of several riders; the owner of the book if left out.
    pub rider: Option<String>,
    /// Id of the bike.
    pub bike: Option<String>,
    /// Distances by surface.
    pub km: Option<Surfaces<Kilometres>>,
    /// Days under way.
    pub days: Option<Amount>,
    /// How many falls.
    pub falls: Option<Count>,
    /// How well the rider rides; `intermediate` if left out.
    pub riding_skill: Option<RidingSkill>,
    /// What the whole kit weighed.
    pub kit_mass: Option<Mass>,
    /// Preparations that were done.
    pub done: Option<Vec<String>>,
    /// Failures that happened, and how often.
    pub broke: Option<Counted>,
    /// Items that were carried.
    pub carried: Option<Counted>,
    /// Items that were used.
    pub used: Option<Counted>,
    /// Items that would have helped.
    pub missed: Option<Counted>,
}
