//! A trip: where, who, with what limits.

use super::{BySurface, Fair, Item, Map, OwnPrices, RepairSkill, RidingSkill, Role, Style};
use crate::units::{Distance, Hours, Length, Mass, Money, Temperature, Volume};

/// A scenario file, read and checked.
#[derive(Debug, Clone, PartialEq)]
pub struct Scenario {
    /// Title of the trip.
    pub name: String,
    /// Where it goes.
    pub trip: Trip,
    /// Who rides.
    pub riders: Vec<Rider>,
    /// What must not be exceeded, by each rider.
    pub limits: Limits,
    /// How a group shares one kit.
    pub group: Sharing,
    /// Items that go in whatever they earn, with counts.
    pub always: Map<u32>,
    /// Items that stay at home.
    pub never: Vec<String>,
    /// Preparations done before leaving.
    pub done: Vec<String>,
    /// Amounts that replace the computed ones, by need.
    pub needs: Map<f64>,
    /// Prices of this trip, in place of the catalogue's.
    pub prices: OwnPrices,
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
    /// Longest distance between fuel stops, for an electric bike between places to charge, where it matters.
    pub fuel_every: Option<Distance>,
    /// Height of the camps above the sea: water boils cooler up there.
    pub altitude: Length,
    /// Names of those who ride it; empty: everybody.
    pub riders: Vec<String>,
}

impl Leg {
    /// Does the rider of this name ride it?
    #[must_use]
    pub fn is_ridden_by(&self, rider: &str) -> bool {
        self.riders.is_empty() || self.riders.iter().any(|name| name == rider)
    }
}

impl Scenario {
    /// How many riders ride a leg together.
    #[must_use]
    pub fn together_on(&self, leg: &Leg) -> u32 {
        u32::try_from(self.riders.iter().filter(|rider| leg.is_ridden_by(&rider.name)).count()).unwrap_or(u32::MAX)
    }

    /// The trip of one rider: only the legs that this rider rides, and this rider's own limit where there is one.
    #[must_use]
    pub fn as_ridden_by(&self, rider: &Rider) -> Self {
        let mut own = self.clone();
        own.trip.legs.retain(|leg| leg.is_ridden_by(&rider.name));
        own.limits.kit_mass = rider.kit_mass.or(own.limits.kit_mass);
        own
    }
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
    /// Do rider or passenger need a medicine every day?
    pub medicine: bool,
    /// Items at home, which cost nothing to take.
    pub owns: Map<u32>,
    /// What this rider does in a group.
    pub roles: Vec<Role>,
    /// The most that this rider wants to carry, instead of what the limits say for everybody.
    pub kit_mass: Option<Mass>,
    /// Items as this rider's gear file has them, which take the place of the catalogue's for this rider; see
    /// [`Catalogue::as_weighed_by`](super::Catalogue::as_weighed_by).
    pub weighed: Map<Item>,
}

/// How a group shares one kit.
#[derive(Debug, Clone, PartialEq)]
pub struct Sharing {
    /// What a fair share of the load is.
    pub fair: Fair,
    /// Shares by rider, where they are stated; any scale.
    pub shares: Map<f64>,
    /// Functions, stocks or needs of which whoever has the role carries at least one.
    pub pins: Map<Vec<String>>,
}

impl Default for Sharing {
    fn default() -> Self {
        Self { fair: Fair::Equal, shares: Map::new(), pins: Map::new() }
    }
}

/// What must not be exceeded by any one rider. `None`: no limit of the riders' own.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Limits {
    /// Mass of the kit, toolkit included, bags not.
    pub kit_mass: Option<Mass>,
    /// Packed volume of the kit.
    pub kit_volume: Option<Volume>,
    /// Money for what is not owned.
    pub budget: Option<Money>,
    /// Most that the chance of a stranding may be: a stop that nobody could repair, on the trip of all who share the kit.
    pub stranded: Option<f64>,
}
