//! A trip: where, who, with what limits.

use super::{BySurface, Map, RepairSkill, RidingSkill, Style};
use crate::units::{Distance, Hours, Mass, Money, Temperature};

/// A scenario file, read and checked.
#[derive(Debug, Clone, PartialEq)]
pub struct Scenario {
    /// Title of the trip.
    pub name: String,
    /// Where it goes.
    pub trip: Trip,
    /// Who rides.
    pub riders: Vec<Rider>,
    /// What must not be exceeded.
    pub limits: Limits,
    /// Items that go in whatever they earn, with counts.
    pub always: Map<u32>,
    /// Items that stay at home.
    pub never: Vec<String>,
    /// Preparations done before leaving.
    pub done: Vec<String>,
    /// Amounts that replace the computed ones, by need.
    pub needs: Map<f64>,
}

/// The legs and how the nights are spent.
#[derive(Debug, Clone, PartialEq)]
pub struct Trip {
    /// No nights, under roofs, or camping.
    pub style: Style,
    /// In riding order; never empty.
    pub legs: Vec<Leg>,
}

/// A stretch of the trip.
#[derive(Debug, Clone, PartialEq)]
pub struct Leg {
    /// What the rider calls it.
    pub name: String,
    /// Days under way.
    pub days: f64,
    /// Nights on it.
    pub nights: u32,
    /// Distance by surface.
    pub km: BySurface<Distance>,
    /// From a breakdown until the bike is at a workshop or road head.
    pub hours_to_help: Hours,
    /// Lowest night temperature.
    pub lowest: Temperature,
    /// Highest day temperature.
    pub highest: Temperature,
    /// Longest time between places to refill water.
    pub water_every: Hours,
    /// Longest time between places to buy food.
    pub food_every: Hours,
    /// Longest distance between fuel stops, where it matters.
    pub fuel_every: Option<Distance>,
}

/// Who rides what, how well, with which bags.
#[derive(Debug, Clone, PartialEq)]
pub struct Rider {
    /// What they are called.
    pub name: String,
    /// Key of the bike.
    pub bike: String,
    /// Scales the falls.
    pub riding_skill: RidingSkill,
    /// Limits the repairs.
    pub repair_skill: RepairSkill,
    /// With riding gear.
    pub mass: Mass,
    /// Passenger with riding gear.
    pub passenger: Option<Mass>,
    /// Keys of the bags on the bike, beside those that are part of it.
    pub bags: Vec<String>,
    /// Items at home, which cost nothing to take.
    pub owns: Map<u32>,
}

/// What must not be exceeded. `None`: no limit of the rider's own.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Limits {
    /// Mass of the kit, toolkit included, bags not.
    pub kit_mass: Option<Mass>,
    /// Money for what is not owned.
    pub budget: Option<Money>,
}
