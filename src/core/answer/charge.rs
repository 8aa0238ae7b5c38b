//! A battery that does not reach the next place to charge: told before anything else, for nothing in the bags helps.

use crate::resolve::{ChargeRange, Instance};
use crate::serial::Number;
use crate::units::Distance;
use schemars::JsonSchema;
use serde::Serialize;

/// A full battery does not reach the next place to charge.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct ChargeShort {
    /// Whose battery; of several the one that lacks most.
    pub rider: String,
    /// The leg that asks most of it.
    pub leg: String,
    /// How far places to charge are apart there.
    #[serde(rename = "stretch_km", with = "Number")]
    pub stretch: Distance,
    /// Factor on that distance.
    pub reserve_factor: f64,
    /// What the battery should do, reserve and all.
    #[serde(rename = "wanted_km", with = "Number")]
    pub wanted: Distance,
    /// What a full one does on the leg's mix of surfaces.
    #[serde(rename = "range_km", with = "Number")]
    pub range: Distance,
    /// How far apart places to charge may be.
    #[serde(rename = "charge_every_km", with = "Number")]
    pub charge_every: Distance,
    /// Riders whose batteries are too small.
    pub riders: usize,
}

/// What the batteries of these riders lack; `None` where they will do.
#[must_use]
pub fn charge_short(instance: &Instance) -> Option<ChargeShort> {
    let flat = instance.mounts.iter().filter_map(|mount| Some((&mount.rider, mount.charge.as_ref()?)));
    let flat: Vec<(&String, &ChargeRange)> = flat.filter(|(_, range)| range.short() > Distance::ZERO).collect();
    let (rider, worst) = flat.iter().max_by(|a, b| a.1.short().km().total_cmp(&b.1.short().km()))?;
    Some(ChargeShort {
        rider: (*rider).clone(),
        leg: worst.leg.clone(),
        stretch: worst.stretch,
        reserve_factor: worst.reserve,
        wanted: worst.wanted(),
        range: worst.range,
        charge_every: Distance::new(worst.reaches().km().floor()),
        riders: flat.len(),
    })
}
