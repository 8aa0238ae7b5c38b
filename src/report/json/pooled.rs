//! The answer of `pool`.

use super::written;
use fardel_core::elicit::pool::Opinion;
use fardel_core::elicit::{Change, Pooled, Score};
use schemars::JsonSchema;
use serde::Serialize;

/// What several riders say together.
#[derive(Serialize, JsonSchema)]
pub(super) struct Pool<'a> {
    /// The numbers that were asked for.
    questions: Vec<One<'a>>,
    /// Those who answered, with how well they knew what is known.
    riders: Vec<Rider<'a>>,
}

/// One number.
#[derive(Serialize, JsonSchema)]
struct One<'a> {
    /// Id of the question.
    id: &'a str,
    /// How many riders answered it.
    riders: usize,
    /// What the catalogue says, in the unit of the question.
    catalogue: Option<f64>,
    /// What the riders say together.
    after: Option<f64>,
    /// Everybody weighs the same.
    equal: Thought,
    /// Weighed by calibration and information; `null` where nobody who answered has a weight.
    performance: Option<Thought>,
}

/// A distribution.
#[derive(Serialize, JsonSchema)]
struct Thought {
    /// Its mean.
    mean: f64,
    /// Exceeded with a chance of 95 %.
    five_in_hundred: f64,
    /// Exceeded as often as not.
    median: f64,
    /// Exceeded with a chance of 5 %.
    ninety_five_in_hundred: f64,
}

/// How well a rider knew what is known.
#[derive(Serialize, JsonSchema)]
struct Rider<'a> {
    /// The rider.
    name: &'a str,
    /// Questions with known answers that the rider answered.
    known_answered: usize,
    /// Of these, those whose answer lies in the rider's interval.
    known_held: usize,
    /// A p-value; low ones are bad.
    calibration: f64,
    /// High ones are narrow intervals.
    information: f64,
    /// Share of the weight; `null` for a rider who left some of these questions open.
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
    written("pool", Pool { questions: questions.collect(), riders: riders.collect() })
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
