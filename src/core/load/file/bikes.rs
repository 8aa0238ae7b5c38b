//! Bikes and bags as written.

use super::{Counted, Surfaces, Text};
use crate::domain::{Basis, Kind, Map, Side};
use crate::load::numbers::{Count, Share};
use crate::load::quantity::Price;
use crate::load::words::Access;
use crate::units::{Distance, Length, Mass, Pressure, Volume};
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
    /// Mass ready to ride, with nine tenths of its fuel, or with its battery.
    pub mass: Option<Mass>,
    /// Most that bike, people and luggage may weigh together, by its maker.
    pub max_mass: Option<Mass>,
    /// Share of its mass on the front wheel.
    pub front_share: Option<Share>,
    /// Distance between the axles.
    pub wheelbase: Option<Length>,
    /// Most that the front wheel may bear; may be left out.
    pub front_axle_limit: Option<Mass>,
    /// Most that the rear wheel may bear; may be left out.
    pub rear_axle_limit: Option<Mass>,
    /// Load index on the sidewall of the front tyre, 40 to 85.
    pub front_load_index: Option<Count>,
    /// Load index on the sidewall of the rear tyre, 40 to 85.
    pub rear_load_index: Option<Count>,
    /// Cold pressure of the front tyre for a loaded bike, by the plate or the manual; may be left out.
    pub front_pressure: Option<Pressure>,
    /// Cold pressure of the rear tyre for a loaded bike, by the plate or the manual; may be left out.
    pub rear_pressure: Option<Pressure>,
    /// How far the front wheel can travel; may be left out.
    pub front_travel: Option<Length>,
    /// How far the rear wheel can travel; may be left out.
    pub rear_travel: Option<Length>,
    /// Usable fuel of the tank; an electric bike has `range` instead.
    pub tank: Option<Volume>,
    /// Fuel for 100 km, by surface; an electric bike has `range` instead.
    pub consumption: Option<Surfaces<Volume>>,
    /// What a full battery does, by surface: for an electric bike, in place of `tank` and `consumption`.
    pub range: Option<Surfaces<Distance>>,
    /// Centre of the rider's mass, ahead of the rear axle.
    pub rider_x: Option<Length>,
    /// Centre of the passenger's mass, ahead of the rear axle.
    pub passenger_x: Option<Length>,
    /// What can be asked of it, such as its chain size; a value may refer to another attribute: `hex {nut}`.
    pub attributes: Option<Map<Text>>,
    /// Tools that came with the bike: on board, cost nothing, may stay at home.
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
    /// Volume inside.
    pub volume: Option<Volume>,
    /// Share of it that odd-shaped things really fill.
    pub packing: Option<Share>,
    /// Mass when empty.
    pub mass: Option<Mass>,
    /// Most that it may carry.
    pub max_load: Option<Mass>,
    /// Longest thing that goes in.
    pub longest: Option<Length>,
    /// How soon a thing in it is at hand.
    pub access: Option<Access>,
    /// Whether it keeps things dry.
    pub weatherproof: Option<bool>,
    /// The side of the bike that it hangs on.
    pub side: Option<Side>,
    /// How far its middle is ahead of the rear axle; negative is behind.
    pub ahead: Option<Length>,
    /// How far its middle is out from the middle of the bike.
    pub out: Option<Length>,
    /// How high its middle is above the ground.
    pub height: Option<Length>,
    /// Kinds that must not go in.
    pub refuses: Option<Vec<Kind>>,
    /// Price of one.
    pub price: Option<Price>,
    /// Where the numbers come from.
    pub basis: Option<Basis>,
}
