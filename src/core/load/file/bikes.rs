//! Bikes and bags as written.

use super::{Counted, Surfaces, Text};
use crate::domain::{Basis, Kind, Map, Side};
use crate::load::numbers::{Count, Share};
use crate::load::quantity::Price;
use crate::load::words::Access;
use crate::units::{Length, Mass, Volume};
use schemars::JsonSchema;
use serde::Deserialize;

/// A machine.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct BikeShape {
    /// As a rider would say it.
    pub name: Option<String>,
    /// Takes over from this bike what is not stated.
    pub like: Option<String>,
    /// Ready to ride, with nine tenths of its fuel.
    pub mass: Option<Mass>,
    /// Bike, people and luggage together, by its maker.
    pub max_mass: Option<Mass>,
    /// Share of its mass on the front wheel.
    pub front_share: Option<Share>,
    /// Between the axles.
    pub wheelbase: Option<Length>,
    /// Most that the front wheel may bear.
    pub front_axle_limit: Option<Mass>,
    /// Most that the rear wheel may bear.
    pub rear_axle_limit: Option<Mass>,
    /// From the sidewall of the front tyre, 40 to 85.
    pub front_load_index: Option<Count>,
    /// From the sidewall of the rear tyre, 40 to 85.
    pub rear_load_index: Option<Count>,
    /// Usable fuel.
    pub tank: Option<Volume>,
    /// For 100 km, by surface.
    pub consumption: Option<Surfaces<Volume>>,
    /// Centre of the rider's mass, ahead of the rear axle.
    pub rider_x: Option<Length>,
    /// Centre of the passenger's mass, ahead of the rear axle.
    pub passenger_x: Option<Length>,
    /// What can be asked of it, such as its chain size.
    pub attributes: Option<Map<Text>>,
    /// On board; costs nothing, may stay at home.
    pub toolkit: Option<Counted>,
    /// Bags that are part of the bike.
    pub bags: Option<Vec<String>>,
    /// Preparations that are part of the bike.
    pub fitted: Option<Vec<String>>,
    /// Where the numbers come from.
    pub basis: Option<Basis>,
}

/// A bag, case or holder.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct BagShape {
    /// As a rider would say it.
    pub name: Option<String>,
    /// Takes over from this bag what is not stated.
    pub like: Option<String>,
    /// Inside.
    pub volume: Option<Volume>,
    /// Share of it that odd-shaped things really fill.
    pub packing: Option<Share>,
    /// Empty.
    pub mass: Option<Mass>,
    /// Most that it may carry.
    pub max_load: Option<Mass>,
    /// Longest thing that goes in.
    pub longest: Option<Length>,
    /// How soon a thing in it is at hand.
    pub access: Option<Access>,
    /// Does it keep things dry?
    pub weatherproof: Option<bool>,
    /// Which side of the bike.
    pub side: Option<Side>,
    /// Its middle, ahead of the rear axle; negative is behind.
    pub ahead: Option<Length>,
    /// Its middle, out from the middle of the bike.
    pub out: Option<Length>,
    /// Its middle, above the ground.
    pub height: Option<Length>,
    /// Kinds that must not go in.
    pub refuses: Option<Vec<Kind>>,
    /// Of one.
    pub price: Option<Price>,
    /// Where the numbers come from.
    pub basis: Option<Basis>,
}
