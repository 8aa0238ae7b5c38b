//! Poisson means with a kit aboard: how often a failure is to be expected where falls rise with the load. On one leg and without
//! a load: [`InstanceFailure::on_leg`].

use crate::resolve::{Exposure, Instance, InstanceFailure, LegExposure};

/// Share by which so many kilograms aboard make falls more frequent: `load sensitivity x load / bike mass`.
#[must_use]
pub fn rise(exposure: &Exposure, load_kg: f64) -> f64 {
    let bike_kg = exposure.bike_mass.kilograms();
    if bike_kg > 0.0 { exposure.load_sensitivity * load_kg / bike_kg } else { 0.0 }
}

/// Expected occurrences on the legs that `counts` takes, with so many kilograms on every bike, which raise falls.
#[must_use]
pub fn loaded(
    instance: &Instance,
    failure: &InstanceFailure,
    load_kg: f64,
    counts: impl Fn(&LegExposure) -> bool,
) -> f64 {
    let rider = |rider: &usize| {
        let exposure = &instance.exposures[*rider];
        let rise = rise(exposure, load_kg);
        let leg = |leg: &LegExposure| failure.on_leg(leg) + failure.in_a_fall() * leg.falls * rise;
        exposure.legs.iter().filter(|leg| counts(leg)).map(leg).sum::<f64>()
    };
    failure.riders.iter().map(rider).sum()
}
