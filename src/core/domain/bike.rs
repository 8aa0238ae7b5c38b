//! Machines and what can be strapped to them.

use super::{Applies, Basis, BySurface, Kind, Map, terms::words};
use crate::units::{Distance, Length, Mass, Money, Pressure, Volume};

/// A machine: what can break on it, what it can bear, what it comes with.
#[derive(Debug, Clone, PartialEq)]
pub struct Bike {
    /// Key in the catalogue.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// Ready to ride: all liquids, 90 % fuel.
    pub mass: Mass,
    /// Technically permissible maximum mass, everything and everybody included.
    pub max_mass: Mass,
    /// Share of its own mass that rests on the front wheel.
    pub front_share: f64,
    /// Distance between the axles.
    pub wheelbase: Length,
    /// The maker's limit at the front axle, where declared.
    pub front_axle_limit: Option<Mass>,
    /// The maker's limit at the rear axle, where declared.
    pub rear_axle_limit: Option<Mass>,
    /// Load index on the front sidewall.
    pub front_load_index: u32,
    /// Load index on the rear sidewall.
    pub rear_load_index: u32,
    /// Cold pressure of the front tyre for a loaded bike, by the plate or the manual.
    pub front_pressure: Option<Pressure>,
    /// Cold pressure of the rear tyre for a loaded bike, by the plate or the manual.
    pub rear_pressure: Option<Pressure>,
    /// How far the front wheel can travel.
    pub front_travel: Option<Length>,
    /// How far the rear wheel can travel.
    pub rear_travel: Option<Length>,
    /// What drives it, and how far that goes.
    pub energy: Energy,
    /// Rider's centre of mass ahead of the rear axle.
    pub rider_ahead: Length,
    /// Passenger's centre of mass ahead of the rear axle.
    pub passenger_ahead: Length,
    /// What it is like: `drive: chain`, `rear_axle_nut: 27 mm`.
    pub attributes: Map<String>,
    /// Items on board when it left the factory.
    pub toolkit: Map<u32>,
    /// Bags that are part of the bike (a tray under the seat).
    pub bags: Vec<String>,
    /// Preparations that are part of the bike as sold.
    pub fitted: Vec<String>,
    /// Where the numbers come from.
    pub basis: Basis,
}

/// What drives a bike.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Energy {
    /// Petrol.
    Fuel {
        /// Usable fuel of the tank.
        tank: Volume,
        /// Fuel used per 100 km.
        consumption: BySurface<Volume>,
    },
    /// Electricity from a battery that is charged from the mains.
    Battery {
        /// What a full battery does.
        range: BySurface<Distance>,
    },
}

impl Energy {
    /// The attribute that says what drives a bike; it follows from tank or range, and a catalogue may do without it.
    pub const ATTRIBUTE: &'static str = "energy";
    /// As the attribute `energy` has it.
    #[must_use]
    pub const fn word(&self) -> &'static str {
        match self {
            Self::Fuel { .. } => "fuel",
            Self::Battery { .. } => "battery",
        }
    }
    /// Usable fuel of the tank; none on an electric bike.
    #[must_use]
    pub const fn tank(&self) -> Option<Volume> {
        match self {
            Self::Fuel { tank, .. } => Some(*tank),
            Self::Battery { .. } => None,
        }
    }
    /// What a full battery does, by surface; none for a bike with a tank.
    #[must_use]
    pub const fn range(&self) -> Option<&BySurface<Distance>> {
        match self {
            Self::Fuel { .. } => None,
            Self::Battery { range } => Some(range),
        }
    }
}

impl Bike {
    /// Does the bike have, for every attribute named, one of the values named?
    #[must_use]
    pub fn matches(&self, applies: &Applies) -> bool {
        applies.iter().all(|(name, values)| self.attributes.get(name).is_some_and(|own| values.contains(own)))
    }
}

words!(
    /// Where a bag hangs, seen by the rider.
    Side { Left = "left", Right = "right", Centre = "centre" }
);

/// A bag, case or holder.
#[derive(Debug, Clone, PartialEq)]
pub struct Bag {
    /// Key in the catalogue.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// What its maker says it holds.
    pub volume: Volume,
    /// The share of that volume which odd-shaped things really fill.
    pub packing: f64,
    /// The empty bag.
    pub mass: Mass,
    /// What it may carry.
    pub max_load: Mass,
    /// Longest thing that fits.
    pub longest: Length,
    /// Reached without unpacking?
    pub quick: bool,
    /// Keeps rain and fords out?
    pub weatherproof: bool,
    /// Left, right or centre.
    pub side: Side,
    /// Centre ahead of the rear axle (negative: behind).
    pub ahead: Length,
    /// Centre sideways from the middle of the bike.
    pub out: Length,
    /// Centre above the ground.
    pub height: Length,
    /// Kinds that must not go in.
    pub refuses: Vec<Kind>,
    /// What it costs.
    pub price: Money,
    /// Where the numbers come from.
    pub basis: Basis,
}

impl Bag {
    /// The volume that can really be filled.
    #[must_use]
    pub fn usable(&self) -> Volume {
        self.volume.share(self.packing)
    }
}
