//! Poisson means: how often a failure is to be expected on each leg.

use crate::resolve::{CaseFailure, LegExposure};

/// Expected occurrences on one leg of one rider:
/// `modifier x (sum over surfaces of rate per 1000 km x thousand km + rate per day x days + rate per fall x falls)`.
#[must_use]
pub fn on_leg(failure: &CaseFailure, leg: &LegExposure) -> f64 {
    riding(failure, leg) + per_fall(failure) * leg.falls
}

/// The part of it that comes with kilometres and days, whether or not anybody falls.
#[must_use]
pub fn riding(failure: &CaseFailure, leg: &LegExposure) -> f64 {
    let rate = &failure.rate;
    let by_km: f64 = rate.per_1000_km.iter().map(|(surface, per)| per * leg.thousand_km.on(surface)).sum();
    failure.modifier * (by_km + rate.per_day * leg.days)
}

/// Expected occurrences in one fall.
#[must_use]
pub fn per_fall(failure: &CaseFailure) -> f64 {
    failure.modifier * failure.rate.per_fall
}
