//! What the trip demands, and how much of it is carried.

use crate::serial::Number;
use crate::units::Mass;
use schemars::JsonSchema;
use serde::Serialize;

/// A need of the trip.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct NeedLine {
    /// Key in the catalogue.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// Amount demanded.
    pub demanded: f64,
    /// Amount carried.
    pub carried: f64,
    /// What the things that meet it weigh together.
    #[serde(rename = "mass_g", with = "Number")]
    pub mass: Mass,
    /// Unit of both.
    pub unit: String,
    /// The formula with the trip's numbers in it.
    pub working: String,
}
