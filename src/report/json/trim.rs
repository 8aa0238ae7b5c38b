//! The answer of `trim`.

use super::changes::{Change, Counted, changes, counted};
use super::{Head, head, written};
use crate::amount::unit;
use crate::cautions::cautions;
use fardel_core::answer::{Going, Short, TrimAnswer};
use fardel_core::resolve::Measure;
use serde::Serialize;

#[derive(Serialize)]
struct Trim<'a> {
    #[serde(flatten)]
    head: Head,
    scenario: &'a str,
    rider: &'a str,
    bike: &'a str,
    over: &'static str,
    unit: String,
    currency: String,
    packed: f64,
    target: f64,
    left: f64,
    hours_net_before: f64,
    hours_net_after: f64,
    self_recovery_before: f64,
    self_recovery_after: f64,
    needs_short: Vec<&'a str>,
    shortfalls: Vec<Shortfall<'a>>,
    proven_optimal: bool,
    order: Vec<Step<'a>>,
    entering: Vec<Change<'a>>,
    kit: Vec<Counted<'a>>,
    warnings: &'a [String],
    cautions: Vec<&'static str>,
}

/// A need that is not met as packed.
#[derive(Serialize)]
struct Shortfall<'a> {
    need: &'a str,
    name: &'a str,
    unit: &'a str,
    demanded: f64,
    packed: f64,
    demanded_down_to_c: Option<f64>,
    packed_down_to_c: Option<f64>,
}

#[derive(Serialize)]
struct Step<'a> {
    id: &'a str,
    name: &'a str,
    count: u32,
    amount: f64,
    left: f64,
    hours_given_up: f64,
    hours_given_up_in_all: f64,
    no_more_help_with: &'a [String],
    best_is_better_by_h: Option<f64>,
}

/// The answer of `trim` as JSON with a trailing newline.
///
/// # Errors
/// [`serde_json::Error`] if a value cannot be written, which no answer that was verified contains.
pub fn trim(answer: &TrimAnswer) -> Result<String, serde_json::Error> {
    written(&trim_document(answer))
}

/// The same as plain data, for templates.
pub(crate) fn trim_document(answer: &TrimAnswer) -> impl Serialize {
    let measure = answer.measure;
    Trim {
        head: head("trim"),
        scenario: &answer.trip.scenario,
        rider: &answer.trip.rider,
        bike: &answer.trip.bike,
        over: measure.word(),
        unit: unit(measure, answer.currency),
        currency: answer.currency.to_string(),
        packed: measure.in_row(answer.packed),
        target: measure.in_row(answer.target),
        left: measure.in_row(answer.left),
        hours_net_before: answer.net_before.get(),
        hours_net_after: answer.net_after.get(),
        self_recovery_before: answer.recovery_before,
        self_recovery_after: answer.recovery_after,
        needs_short: answer.short.iter().map(|short| short.name.as_str()).collect(),
        shortfalls: answer.short.iter().map(shortfall).collect(),
        proven_optimal: answer.proven,
        order: answer.order.iter().map(|going| step(going, measure)).collect(),
        entering: changes(&answer.entering),
        kit: counted(&answer.kit),
        warnings: &answer.warnings,
        cautions: cautions(&answer.kinds),
    }
}

fn shortfall(short: &Short) -> Shortfall<'_> {
    Shortfall {
        need: &short.id,
        name: &short.name,
        unit: &short.unit,
        demanded: short.demanded,
        packed: short.packed,
        demanded_down_to_c: short.degrees.map(|(wanted, _)| wanted.celsius()),
        packed_down_to_c: short.degrees.map(|(_, packed)| packed.celsius()),
    }
}

fn step(going: &Going, measure: Measure) -> Step<'_> {
    Step {
        id: &going.id,
        name: &going.name,
        count: going.count,
        amount: measure.in_row(going.amount),
        left: measure.in_row(going.left),
        hours_given_up: going.hours.get(),
        hours_given_up_in_all: going.total.get(),
        no_more_help_with: &going.unrepairable,
        best_is_better_by_h: going.best_is_better_by.map(fardel_core::units::Hours::get),
    }
}
