//! Poisson means: how often a failure is to be expected on each leg.

use crate::resolve::{Exposure, Instance, InstanceFailure, LegExposure};

/// Expected occurrences on one leg of one rider:
/// `modifier x (sum over surfaces of rate per 1000 km x thousand km + rate per day x days + rate per fall x falls)`.
#[must_use]
pub fn on_leg(failure: &InstanceFailure, leg: &LegExposure) -> f64 {
    riding(failure, leg) + per_fall(failure) * leg.falls
}

/// The part of it that comes with kilometres and days, whether or not anybody falls.
#[must_use]
pub fn riding(failure: &InstanceFailure, leg: &LegExposure) -> f64 {
    failure.in_riding(leg)
}

/// Expected occurrences in one fall.
#[must_use]
pub fn per_fall(failure: &InstanceFailure) -> f64 {
    failure.in_a_fall()
}

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
        let leg = |leg: &LegExposure| on_leg(failure, leg) + per_fall(failure) * leg.falls * rise;
        exposure.legs.iter().filter(|leg| counts(leg)).map(leg).sum::<f64>()
    };
    failure.riders.iter().map(rider).sum()
}
