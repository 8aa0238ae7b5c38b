//! Bikes and bags as written.

use super::{Counted, Surfaces, Text};
use crate::domain::{Basis, Kind, Map, Side};
use crate::load::numbers::{Count, Share};
use crate::load::quantity::Price;
use crate::load::words::Access;
use crate::units::{Length, Mass, Volume};
use serde::Deserialize;

/// A machine.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct BikeShape {
    pub name: Option<String>,
    pub like: Option<String>,
    pub mass: Option<Mass>,
    pub max_mass: Option<Mass>,
    pub front_share: Option<Share>,
    pub wheelbase: Option<Length>,
    pub front_axle_limit: Option<Mass>,
    pub rear_axle_limit: Option<Mass>,
    pub front_load_index: Option<Count>,
    pub rear_load_index: Option<Count>,
    pub tank: Option<Volume>,
    pub consumption: Option<Surfaces<Volume>>,
    pub rider_x: Option<Length>,
    pub passenger_x: Option<Length>,
    pub attributes: Option<Map<Text>>,
    pub toolkit: Option<Counted>,
    pub bags: Option<Vec<String>>,
    pub fitted: Option<Vec<String>>,
    pub basis: Option<Basis>,
}

/// A bag, case or holder.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct BagShape {
    pub name: Option<String>,
    pub like: Option<String>,
    pub volume: Option<Volume>,
    pub packing: Option<Share>,
    pub mass: Option<Mass>,
    pub max_load: Option<Mass>,
    pub longest: Option<Length>,
    pub access: Option<Access>,
    pub weatherproof: Option<bool>,
    pub side: Option<Side>,
    pub ahead: Option<Length>,
    pub out: Option<Length>,
    pub height: Option<Length>,
    pub refuses: Option<Vec<Kind>>,
    pub price: Option<Price>,
    pub basis: Option<Basis>,
}
