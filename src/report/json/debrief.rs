//! The answer of `debrief`.

use super::{Head, head, written};
use fardel_core::debrief::{self, Learnt, Reach};
use serde::Serialize;

#[derive(Serialize)]
struct Debrief<'a> {
    #[serde(flatten)]
    head: Head,
    rides: usize,
    distance_km: f64,
    days: f64,
    falls: u32,
    failures: Vec<Failure<'a>>,
    not_learnt: &'a [String],
    unused: Vec<Unused<'a>>,
    missed: Vec<Missed<'a>>,
}

#[derive(Serialize)]
struct Failure<'a> {
    id: &'a str,
    name: &'a str,
    seen: u32,
    expected: f64,
    before_per_1000_km: Interval,
    after_per_1000_km: Interval,
    worth_km: f64,
}

#[derive(Serialize)]
struct Interval {
    mean: f64,
    low: f64,
    high: f64,
}

#[derive(Serialize)]
struct Unused<'a> {
    name: &'a str,
    rides: usize,
}

#[derive(Serialize)]
struct Missed<'a> {
    name: &'a str,
    times: u32,
}

/// The answer of `debrief` as JSON with a trailing newline.
///
/// # Errors
/// [`serde_json::Error`] if a value cannot be written, which no answer contains.
pub fn debrief(answer: &debrief::Debrief) -> Result<String, serde_json::Error> {
    written(&Debrief {
        head: head("debrief"),
        rides: answer.rides,
        distance_km: answer.distance.km(),
        days: answer.days,
        falls: answer.falls,
        failures: answer.learnt.iter().map(failure).collect(),
        not_learnt: &answer.impossible,
        unused: answer.unused.iter().map(|(name, rides)| Unused { name, rides: *rides }).collect(),
        missed: answer.missed.iter().map(|(name, times)| Missed { name, times: *times }).collect(),
    })
}

fn failure(learnt: &Learnt) -> Failure<'_> {
    Failure {
        id: &learnt.id,
        name: &learnt.name,
        seen: learnt.seen,
        expected: learnt.expected,
        before_per_1000_km: interval(learnt.before),
        after_per_1000_km: interval(learnt.after),
        worth_km: learnt.rate.worth.km(),
    }
}

const fn interval(reach: Reach) -> Interval {
    Interval { mean: reach.mean, low: reach.low, high: reach.high }
}
