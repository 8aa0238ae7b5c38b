//! What rides teach about each failure.
//!
//! All parts of a failure's rate (by surface, by day, by fall) move by one factor. The factor is Gamma with mean 1; its
//! shape is what the rate is worth in events. With `E` expected and `N` seen, the factor becomes `(shape + N) / (shape + E)`
//! and the new rate is worth `shape + N` events: the textbook rule. A rate is worth 0.3 events or more, so one event never
//! multiplies it by more than 1.3 / 0.3. Several riders on like bikes: [`super::together`].

use super::gamma::Belief;
use super::riders::{Rider, Whose};
use super::together::{Told, together};
use crate::domain::{Bike, Catalogue, Failure, Rate, Ride};
use crate::evidence::LEAST;
use crate::resolve::modifier;
use crate::serial::parts;
use schemars::JsonSchema;
use serde::Serialize;

/// What is in an interval that is shown: nine in ten.
const WITHIN: f64 = 0.9;

/// Events that a rate can be worth in a file.
pub const MOST_EVENTS: f64 = 1e6;

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
        /// Events that the new rate is worth.
        worth_events: f64 = rate.worth_events,
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
pub(super) fn learn(catalogue: &Catalogue, riders: &[Rider<'_>], whose: Whose) -> Vec<Learnt> {
    let each = catalogue.failures.values().map(|failure| {
        let of = |rider: &Rider<'_>| exposure(catalogue, failure, rider.rides.iter().copied());
        (failure, riders.iter().map(of).collect::<Vec<Exposure>>())
    });
    each.filter(|(_, all)| all.iter().any(|own| own.plain > 0.0))
        .map(|(failure, all)| learnt(failure, &all, whose))
        .collect()
}

/// Names of failures that were seen although their rates are zero on such rides.
#[must_use]
pub fn impossible(catalogue: &Catalogue, rides: &[Ride]) -> Vec<String> {
    let each = catalogue.failures.values().map(|failure| (failure, exposure(catalogue, failure, rides.iter())));
    each.filter(|(_, e)| e.plain <= 0.0 && e.seen > 0).map(|(failure, _)| failure.name.clone()).collect()
}

fn exposure<'a>(catalogue: &Catalogue, failure: &Failure, rides: impl Iterator<Item = &'a Ride>) -> Exposure {
    let mut sum = Exposure::default();
    for ride in rides {
        let bike = catalogue.bikes.get(&ride.bike).filter(|bike| bike.matches(&failure.applies));
        let Some(bike) = bike else { continue };
        if !happens(failure, ride) {
            continue;
        }
        let plain = expected(&failure.rate, ride);
        sum.km += ride.distance().km();
        sum.plain += plain;
        sum.modified += plain * effect(catalogue, ride, bike, &failure.id);
        sum.seen = sum.seen.saturating_add(ride.broke.get(&failure.id).copied().unwrap_or(0));
    }
    sum
}

/// Rides do not say how their nights were spent: those of several days are taken for what camping gear can fail on.
fn happens(failure: &Failure, ride: &Ride) -> bool {
    failure.styles.is_empty() || ride.days > 1.0
}

fn effect(catalogue: &Catalogue, ride: &Ride, bike: &Bike, failure: &str) -> f64 {
    modifier(catalogue, &ride.done, bike, failure)
}

/// Occurrences expected on a ride by its kilometres, days and falls.
fn expected(rate: &Rate, ride: &Ride) -> f64 {
    let by_km: f64 = rate.per_1000_km.iter().map(|(surface, per)| per * ride.km.on(surface).km() / 1000.0).sum();
    by_km + rate.per_day * ride.days + rate.per_fall * f64::from(ride.falls)
}

fn learnt(failure: &Failure, all: &[Exposure], whose: Whose) -> Learnt {
    let exposure = all.iter().fold(Exposure::default(), |sum, own| Exposure {
        km: sum.km + own.km,
        plain: sum.plain + own.plain,
        modified: sum.modified + own.modified,
        seen: sum.seen.saturating_add(own.seen),
    });
    let per_km = exposure.plain / exposure.km;
    let shape = failure.rate.worth_events;
    let before = Belief { shape, rate: shape };
    let after = after(shape, all, whose);
    let factor = after.mean();
    let worth_events = after.shape.clamp(LEAST, MOST_EVENTS);
    Learnt {
        id: failure.id.clone(),
        name: failure.name.clone(),
        seen: exposure.seen,
        expected: exposure.modified,
        before: reach(before, per_km * 1000.0),
        after: reach(after, per_km * 1000.0),
        rate: Rate { worth_events, ..failure.rate.times(factor) },
    }
}

/// What is known of the factor on a rate that was worth `shape` events.
fn after(shape: f64, all: &[Exposure], whose: Whose) -> Belief {
    if let [own] = all {
        return Belief { shape, rate: shape }.after(f64::from(own.seen), own.modified);
    }
    let told = |own: &Exposure| Told { seen: f64::from(own.seen), expected: own.modified };
    let found = together(shape, &all.iter().map(told).collect::<Vec<Told>>());
    let own = found.of(whose);
    Belief { shape: own.shape, rate: own.shape / own.mean }
}

pub(super) fn reach(belief: Belief, scale: f64) -> Reach {
    let tail = (1.0 - WITHIN) / 2.0;
    Reach { mean: belief.mean() * scale, low: belief.quantile(tail) * scale, high: belief.quantile(1.0 - tail) * scale }
}
