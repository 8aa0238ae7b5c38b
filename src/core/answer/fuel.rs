//! Petrol that does not reach the next pump: told before anything else, for nothing in the bags helps a dry tank.

use crate::resolve::{Demand, Instance, Range};
use crate::serial::{Number, OrNull};
use crate::units::{Distance, Quantity, Volume};
use schemars::JsonSchema;
use serde::Serialize;

/// What is carried beyond the tank does not reach the next pump.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct FuelShort {
    /// The leg that asks most of a tank; empty where the scenario states the amount itself.
    pub leg: String,
    /// How far pumps are apart there.
    #[serde(rename = "stretch_km", with = "OrNull")]
    pub stretch: Option<Distance>,
    /// What the trip asks for beyond the tanks, reserve and all.
    #[serde(rename = "wanted_ml", with = "Number")]
    pub wanted: Volume,
    /// What is carried of it.
    #[serde(rename = "carried_ml", with = "Number")]
    pub carried: Volume,
    /// How far apart pumps may be so that tanks and what is carried do.
    #[serde(rename = "pump_every_km", with = "OrNull")]
    pub pump_every: Option<Distance>,
    /// Riders whose tanks are too small.
    pub riders: usize,
}

/// Shares of a millilitre are rounding.
const ROUNDING_ML: f64 = 1.0;

/// What these counts lack of petrol; `None` where it will do.
pub(super) fn short(instance: &Instance, counts: &[u32]) -> Option<FuelShort> {
    let asked = instance.fuel.as_ref()?;
    let at = instance.demands.iter().position(|demand| demand.id == asked.id);
    lacking(instance, asked, at.map_or(0.0, |at| instance.met(at, counts)))
}

/// What every kit of these riders lacks of petrol, because no more containers go with them.
#[must_use]
pub fn short_at_best(instance: &Instance) -> Option<FuelShort> {
    let asked = instance.fuel.as_ref()?;
    let held = instance.demands.iter().find(|demand| demand.id == asked.id).map_or(0.0, |demand| demand.amount);
    lacking(instance, asked, held)
}

fn lacking(instance: &Instance, asked: &Demand, carried: f64) -> Option<FuelShort> {
    if carried + ROUNDING_ML > asked.amount {
        return None;
    }
    let ranges = instance.mounts.iter().filter_map(|mount| mount.range.as_ref());
    let dry: Vec<&Range> = ranges.filter(|range| range.short() > 0.0).collect();
    let litres = |of: fn(&Range) -> f64| dry.iter().map(|range| of(range)).sum::<f64>();
    // An amount that the scenario states has no leg.
    let reckoned = (litres(Range::short) * 1000.0 - asked.amount).abs() <= 2.0 * ROUNDING_ML.max(f64_of(dry.len()));
    let worst = dry.iter().filter(|_| reckoned).max_by(|a, b| a.short().total_cmp(&b.short()));
    let shortest = dry.iter().map(|range| range.stretch.km()).fold(f64::INFINITY, f64::min);
    let share = (litres(|range| range.tank.litres()) + carried / 1000.0) / litres(|range| range.litres).max(1e-9);
    Some(FuelShort {
        leg: worst.map_or_else(String::new, |range| range.leg.clone()),
        stretch: worst.map(|range| range.stretch),
        wanted: Volume::from_base(asked.amount * 1000.0),
        carried: Volume::from_base(carried * 1000.0),
        pump_every: worst.map(|_| Distance::from_base((shortest * share).floor())),
        riders: dry.len(),
    })
}

fn f64_of(count: usize) -> f64 {
    f64::from(u32::try_from(count).unwrap_or(u32::MAX))
}
