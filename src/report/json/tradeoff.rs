//! The answer of `tradeoff`.

use super::changes::{Change, Counted, changes, counted};
use super::{Head, head, written};
use crate::amount::unit;
use crate::cautions::cautions;
use fardel_core::answer::{TradeoffAnswer, TradeoffPoint};
use fardel_core::resolve::Measure;
use serde::Serialize;

#[derive(Serialize)]
struct Tradeoff<'a> {
    #[serde(flatten)]
    head: Head,
    scenario: &'a str,
    rider: &'a str,
    bike: &'a str,
    over: &'static str,
    unit: String,
    currency: String,
    own_limit: Option<f64>,
    least: f64,
    least_is_exact: bool,
    enough: f64,
    too_low: Vec<f64>,
    worth_to: Option<f64>,
    step: f64,
    step_saves_less_than_a_minute_from: Option<f64>,
    engine: &'static str,
    points: Vec<Point<'a>>,
    warnings: &'a [String],
    cautions: Vec<&'static str>,
}

#[derive(Serialize)]
struct Point<'a> {
    limit: f64,
    used: f64,
    units: u32,
    mass_g: f64,
    volume_ml: f64,
    to_buy: f64,
    hours_saved: f64,
    hours_handling: f64,
    hours_net: f64,
    bound_h: f64,
    proven_optimal: bool,
    self_recovery: f64,
    on_envelope: bool,
    hours_gained_per_step: Option<f64>,
    kit: Vec<Counted<'a>>,
    entering: Vec<Change<'a>>,
    leaving: Vec<Change<'a>>,
    bought: Vec<Change<'a>>,
    no_longer_bought: Vec<Change<'a>>,
}

/// The answer of `tradeoff` as JSON with a trailing newline.
///
/// # Errors
/// [`serde_json::Error`] if a value cannot be written, which no answer that was verified contains.
pub fn tradeoff(answer: &TradeoffAnswer) -> Result<String, serde_json::Error> {
    written(&tradeoff_document(answer))
}

/// The same as plain data, for templates.
pub(crate) fn tradeoff_document(answer: &TradeoffAnswer) -> impl Serialize {
    let measure = answer.measure;
    Tradeoff {
        head: head("tradeoff"),
        scenario: &answer.trip.scenario,
        rider: &answer.trip.rider,
        bike: &answer.trip.bike,
        over: measure.word(),
        unit: unit(measure, answer.currency),
        currency: answer.currency.to_string(),
        own_limit: answer.own_limit.map(|limit| measure.in_row(limit)),
        least: measure.in_row(answer.least),
        least_is_exact: answer.least_exact,
        enough: measure.in_row(answer.enough),
        worth_to: answer.worth.map(|worth| measure.in_row(worth)),
        too_low: answer.too_low.iter().map(|limit| measure.in_row(*limit)).collect(),
        step: measure.in_row(measure.step()),
        step_saves_less_than_a_minute_from: answer.not_worth_a_minute.map(|from| measure.in_row(from)),
        engine: answer.engine,
        points: answer.points.iter().map(|own| point(own, measure)).collect(),
        warnings: &answer.warnings,
        cautions: cautions(&answer.kinds),
    }
}

fn point(point: &TradeoffPoint, measure: Measure) -> Point<'_> {
    Point {
        limit: measure.in_row(point.limit),
        used: measure.in_row(point.used),
        units: point.units,
        mass_g: point.mass.grams(),
        volume_ml: point.volume.millilitres(),
        to_buy: point.to_buy.units(),
        hours_saved: point.saved.get(),
        hours_handling: point.handling.get(),
        hours_net: point.net().get(),
        bound_h: point.bound.get(),
        proven_optimal: point.proven,
        self_recovery: point.self_recovery,
        on_envelope: point.on_envelope,
        hours_gained_per_step: point.step.gain.map(fardel_core::units::Hours::get),
        kit: counted(&point.kit),
        entering: changes(&point.step.entering),
        leaving: changes(&point.step.leaving),
        bought: changes(&point.step.bought),
        no_longer_bought: changes(&point.step.not_bought),
    }
}
