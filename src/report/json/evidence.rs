//! What rates rest on.

use super::written;
use fardel_core::domain::Failure;
use fardel_core::evidence::{Bearing, Overview, Rested};
use schemars::JsonSchema;
use serde::Serialize;

/// All groups of events that are counted together.
#[derive(Serialize, JsonSchema)]
pub(super) struct Evidence<'a> {
    /// Each group of events.
    groups: Vec<Group<'a>>,
}

/// One group of events.
#[derive(Serialize, JsonSchema)]
struct Group<'a> {
    /// Key in the catalogue.
    id: &'a str,
    /// As a rider would say it.
    name: &'a str,
    /// Where the typed-in rates come from: `survey`, `memory`, `crash`, `falls`.
    family: &'static str,
    /// Trip logs that bear on it.
    trip_logs: usize,
    /// Call-outs, inspections and life tests that bear on it.
    other_sources: usize,
    /// Occurrences in the trip logs.
    seen: f64,
    /// Occurrences in them by the typed-in rates.
    expected_typed_in: f64,
    /// Occurrences in them by the rates worked out.
    expected_now: f64,
    /// Factor on the typed-in rates, for the mean of all riders.
    factor: Interval,
    /// Shape of the Gamma factor by which one log differs from another.
    scatter_shape: f64,
}

/// A mean with the interval that holds nine cases out of ten.
#[derive(Serialize, JsonSchema)]
struct Interval {
    /// The mean.
    mean: f64,
    /// One in twenty is lower.
    low: f64,
    /// One in twenty is higher.
    high: f64,
}

/// What the rate of one failure rests on.
#[derive(Serialize, JsonSchema)]
pub(super) struct One<'a> {
    /// Key of the failure.
    id: &'a str,
    /// As a rider would say it.
    name: &'a str,
    /// Where the rate comes from.
    basis: String,
    /// The group that it is counted in; `null` where no source bears on it.
    group: Option<&'a str>,
    /// Factor on the typed-in rates of the group.
    factor_of_group: Option<f64>,
    /// Factor on the typed-in rate of this failure.
    factor: Option<f64>,
    /// Events that the rate is worth, for one bike.
    worth_events: f64,
    /// What the sources say of the group.
    sources: Vec<Source<'a>>,
}

/// What one source says of a group of events.
#[derive(Serialize, JsonSchema)]
struct Source<'a> {
    /// Key in the catalogue.
    id: &'a str,
    /// What it is.
    name: &'a str,
    /// Occurrences that it counts.
    seen: f64,
    /// Occurrences by the typed-in rates, its bias included.
    expected_typed_in: f64,
    /// Occurrences by the rates worked out.
    expected_now: f64,
}

/// All groups of events as JSON with a trailing newline.
///
/// # Errors
/// [`serde_json::Error`] if a value cannot be written, which no answer contains.
pub fn evidence(groups: &[Overview]) -> Result<String, serde_json::Error> {
    written("evidence", Evidence { groups: groups.iter().map(group).collect() })
}

fn group(own: &Overview) -> Group<'_> {
    let (mean, low, high) = own.factor;
    Group {
        id: &own.id,
        name: &own.name,
        family: own.family.word(),
        trip_logs: own.sources.0,
        other_sources: own.sources.1,
        seen: own.seen,
        expected_typed_in: own.typed,
        expected_now: own.found,
        factor: Interval { mean, low, high },
        scatter_shape: own.scatter,
    }
}

/// What one failure's rate rests on.
///
/// # Errors
/// As [`evidence`].
pub fn rested(failure: &Failure, rested: Option<&Rested>) -> Result<String, serde_json::Error> {
    let one = One {
        id: &failure.id,
        name: &failure.name,
        basis: failure.rate.basis.to_string(),
        group: rested.map(|own| own.group.as_str()),
        factor_of_group: rested.map(|own| own.factors.0),
        factor: rested.map(|own| own.factors.1),
        worth_events: failure.rate.worth_events,
        sources: rested.map(|own| own.bearings.iter().map(source).collect()).unwrap_or_default(),
    };
    written("evidence", one)
}

fn source(own: &Bearing) -> Source<'_> {
    Source { id: &own.source, name: &own.name, seen: own.seen, expected_typed_in: own.typed, expected_now: own.found }
}
