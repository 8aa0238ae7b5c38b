//! What rides teach about each failure.
//!
//! All parts of a failure's rate (by surface, by day, by fall) move by one factor. The factor is Gamma with mean 1; its
//! shape is what is expected, unmodified, in the kilometres that the evidence is worth, on the surfaces, days and falls of
//! these rides. With `E` expected and `N` seen, the factor becomes `(shape + N) / (shape + E)`. Where all riding is on one
//! surface and nothing is modified, this is the textbook rule: shape = rate x worth, rate = worth, plus count and distance.

use super::gamma::Belief;
use crate::domain::{Bike, Catalogue, Failure, Rate, Ride};
use crate::resolve::modifier;
use crate::serial::parts;
use crate::units::{Distance, Quantity as _};
use schemars::JsonSchema;
use serde::Serialize;

/// What is in an interval that is shown: nine in ten.
const WITHIN: f64 = 0.9;

/// A failure's rate before and after the rides.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Learnt {
    /// Key of the failure.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// Occurrences seen.
    pub seen: u32,
    /// Occurrences expected on these rides by the old rate.
    pub expected: f64,
    /// Per 1000 km of this riding, by the old rate.
    #[serde(rename = "before_per_1000_km")]
    pub before: Reach,
    /// By the new one.
    #[serde(rename = "after_per_1000_km")]
    pub after: Reach,
    /// The new rate, in all its parts.
    #[serde(flatten, with = "Worth")]
    pub rate: Rate,
}

/// A mean with the interval that holds the rate in nine cases out of ten.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct Reach {
    /// The mean.
    pub mean: f64,
    /// One in twenty is lower.
    pub low: f64,
    /// One in twenty is higher.
    pub high: f64,
}

parts! {
    /// What a rate is worth.
    Worth(rate => Rate) {
        /// Kilometres that the evidence is worth now.
        worth_km: f64 = rate.worth.km(),
    }
}

/// How much riding there was on bikes that can have a failure, and what it made likely.
#[derive(Default)]
struct Exposure {
    km: f64,
    /// Expected occurrences without and with what fitted parts and preparations change.
    plain: f64,
    modified: f64,
    seen: u32,
}

/// What the rides teach about every failure that could have happened on them. A failure that was seen where its rate
/// says it cannot happen (a breakage by a fall without any) is left out; see [`impossible`].
#[must_use]
pub fn learn(catalogue: &Catalogue, rides: &[Ride]) -> Vec<Learnt> {
    let each = catalogue.failures.values().map(|failure| (failure, exposure(catalogue, failure, rides)));
    each.filter(|(_, exposure)| exposure.plain > 0.0).map(|(failure, exposure)| learnt(failure, &exposure)).collect()
}

/// Names of failures that were seen although their rates are zero on such rides.
#[must_use]
pub fn impossible(catalogue: &Catalogue, rides: &[Ride]) -> Vec<String> {
    let each = catalogue.failures.values().map(|failure| (failure, exposure(catalogue, failure, rides)));
    each.filter(|(_, e)| e.plain <= 0.0 && e.seen > 0).map(|(failure, _)| failure.name.clone()).collect()
}

fn exposure(catalogue: &Catalogue, failure: &Failure, rides: &[Ride]) -> Exposure {
    let mut sum = Exposure::default();
    for ride in rides {
        let bike = catalogue.bikes.get(&ride.bike).filter(|bike| bike.matches(&failure.applies));
        let Some(bike) = bike else { continue };
        let plain = expected(&failure.rate, ride);
        sum.km += ride.distance().km();
        sum.plain += plain;
        sum.modified += plain * effect(catalogue, ride, bike, &failure.id);
        sum.seen = sum.seen.saturating_add(ride.broke.get(&failure.id).copied().unwrap_or(0));
    }
    sum
}

fn effect(catalogue: &Catalogue, ride: &Ride, bike: &Bike, failure: &str) -> f64 {
    modifier(catalogue, &ride.done, bike, failure)
}

/// Occurrences expected on a ride by its kilometres, days and falls.
fn expected(rate: &Rate, ride: &Ride) -> f64 {
    let by_km: f64 = rate.per_1000_km.iter().map(|(surface, per)| per * ride.km.on(surface).km() / 1000.0).sum();
    by_km + rate.per_day * ride.days + rate.per_fall * f64::from(ride.falls)
}

fn learnt(failure: &Failure, exposure: &Exposure) -> Learnt {
    let per_km = exposure.plain / exposure.km;
    let shape = per_km * failure.rate.worth.km();
    let before = Belief { shape, rate: shape };
    let after = before.after(f64::from(exposure.seen), exposure.modified);
    let factor = after.mean();
    // The posterior's shape is what the new rate expects in the riding that it is worth from now on.
    let worth = (failure.rate.worth.km() + exposure.modified / per_km).min(Distance::LARGEST);
    Learnt {
        id: failure.id.clone(),
        name: failure.name.clone(),
        seen: exposure.seen,
        expected: exposure.modified,
        before: reach(before, per_km * 1000.0),
        after: reach(after, per_km * 1000.0),
        rate: Rate { worth: Distance::new(worth), ..failure.rate.times(factor) },
    }
}

fn reach(belief: Belief, scale: f64) -> Reach {
    let tail = (1.0 - WITHIN) / 2.0;
    Reach { mean: belief.mean() * scale, low: belief.quantile(tail) * scale, high: belief.quantile(1.0 - tail) * scale }
}
