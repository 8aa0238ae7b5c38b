//! The answer of `pool`.

use super::{Head, head, written};
use fardel_core::elicit::pool::Opinion;
use fardel_core::elicit::{Change, Pooled, Score};
use serde::Serialize;

#[derive(Serialize)]
struct Pool<'a> {
    #[serde(flatten)]
    head: Head,
    questions: Vec<One<'a>>,
    riders: Vec<Rider<'a>>,
}

#[derive(Serialize)]
struct One<'a> {
    id: &'a str,
    riders: usize,
    catalogue: Option<f64>,
    after: Option<f64>,
    equal: Thought,
    performance: Option<Thought>,
}

#[derive(Serialize)]
struct Thought {
    mean: f64,
    five_in_hundred: f64,
    median: f64,
    ninety_five_in_hundred: f64,
}

#[derive(Serialize)]
struct Rider<'a> {
    name: &'a str,
    known_answered: usize,
    known_held: usize,
    calibration: f64,
    information: f64,
    weight: Option<f64>,
}

/// What riders say together, as JSON with a trailing newline.
///
/// # Errors
/// [`serde_json::Error`] if a value cannot be written, which no answer contains.
pub fn pooled(scores: &[Score], pooled: &[Pooled], changes: &[Change]) -> Result<String, serde_json::Error> {
    let one = |own: &'_ Pooled| {
        let change = changes.iter().find(|change| change.id == own.id);
        (change.map(|change| change.before), change.map(|change| change.after))
    };
    let questions = pooled.iter().map(|own| {
        let (catalogue, after) = one(own);
        let performance = own.performance.as_ref().map(thought);
        One { id: &own.id, riders: own.riders, catalogue, after, equal: thought(&own.equal), performance }
    });
    let riders = scores.iter().map(|own| Rider {
        name: &own.rider,
        known_answered: own.answered,
        known_held: own.held,
        calibration: own.calibration,
        information: own.information,
        weight: own.weight,
    });
    written(&Pool { head: head("pool"), questions: questions.collect(), riders: riders.collect() })
}

fn thought(own: &Opinion) -> Thought {
    let quantiles = own.quantiles;
    Thought {
        mean: own.mean,
        five_in_hundred: quantiles.low,
        median: quantiles.best,
        ninety_five_in_hundred: quantiles.high,
    }
}
