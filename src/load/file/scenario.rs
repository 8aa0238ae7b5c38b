//! A scenario as written.

use super::{Counted, Surfaces};
use crate::domain::{Fair, Map, RepairSkill, RidingSkill, Role, Style};
use crate::load::numbers::{Amount, Count, Kilometres};
use crate::load::quantity::Price;
use crate::units::{Distance, Hours, Length, Mass, Temperature};
use serde::Deserialize;

/// A whole scenario file.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct ScenarioFile {
    pub name: Option<String>,
    pub catalogues: Vec<String>,
    pub trip: Option<TripShape>,
    pub riders: Option<Vec<RiderShape>>,
    pub limits: Option<LimitsShape>,
    pub group: Option<GroupShape>,
    pub always: Option<Counted>,
    pub never: Option<Vec<String>>,
    pub done: Option<Vec<String>>,
    pub needs: Option<Map<Amount>>,
}

/// Nights and legs.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct TripShape {
    pub style: Option<Style>,
    pub legs: Option<Vec<LegShape>>,
}

/// A stretch of the trip.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct LegShape {
    pub name: Option<String>,
    pub days: Option<Amount>,
    pub nights: Option<Count>,
    pub km: Option<Surfaces<Kilometres>>,
    pub hours_to_help: Option<Hours>,
    pub lowest: Option<Temperature>,
    pub highest: Option<Temperature>,
    pub water_every: Option<Hours>,
    pub food_every: Option<Hours>,
    pub fuel_every: Option<Distance>,
    pub altitude: Option<Length>,
    pub riders: Option<Vec<String>>,
}

/// Who rides what.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct RiderShape {
    pub name: Option<String>,
    pub bike: Option<String>,
    pub riding_skill: Option<RidingSkill>,
    pub repair_skill: Option<RepairSkill>,
    pub mass: Option<Mass>,
    pub passenger: Option<Mass>,
    pub medicine: Option<bool>,
    pub bags: Option<Vec<String>>,
    pub owns: Option<Counted>,
    pub gear: Option<String>,
    pub roles: Option<Vec<Role>>,
    pub kit_mass: Option<Mass>,
}

/// How a group shares one kit.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct GroupShape {
    pub fair: Option<Fair>,
    pub shares: Option<Map<Amount>>,
    pub pins: Option<PinsShape>,
}

/// What goes with whom, by role.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct PinsShape {
    pub leads: Option<Vec<String>>,
    pub last: Option<Vec<String>>,
    pub medic: Option<Vec<String>>,
}

/// What must not be exceeded.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct LimitsShape {
    pub kit_mass: Option<Mass>,
    pub budget: Option<Price>,
}
