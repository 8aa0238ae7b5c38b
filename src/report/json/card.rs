//! The answer of `card`.

use super::checks::{Check, checks};
use super::fuel::{FuelShort, fuel};
use super::{Head, head, written};
use crate::cautions::{cautions, on_the_card};
use fardel_core::answer::{CardAnswer, CardFailure, CardRepair, CardThing};
use serde::Serialize;

#[derive(Serialize)]
struct Card<'a> {
    #[serde(flatten)]
    head: Head,
    scenario: &'a str,
    rider: &'a str,
    bike: &'a str,
    bags_known: bool,
    checks: Vec<Check<'a>>,
    failures: Vec<Failure<'a>>,
    more_failures: usize,
    not_mended: Vec<Open<'a>>,
    fuel_short: Option<FuelShort<'a>>,
    warnings: &'a [String],
    before_any_repair: &'static [&'static str],
    cautions: Vec<&'static str>,
}

#[derive(Serialize)]
struct Open<'a> {
    name: &'a str,
    expected_occurrences: f64,
}

#[derive(Serialize)]
struct Failure<'a> {
    id: &'a str,
    name: &'a str,
    outcome: &'static str,
    expected_occurrences: f64,
    repairs: Vec<Repair<'a>>,
}

#[derive(Serialize)]
struct Repair<'a> {
    id: &'a str,
    name: &'a str,
    grade: &'static str,
    restores: f64,
    time_h: f64,
    skill: &'static str,
    riders: u32,
    tools: Vec<Thing<'a>>,
    used_up: Vec<Thing<'a>>,
    steps: &'a [String],
    check_after: &'a [String],
}

#[derive(Serialize)]
struct Thing<'a> {
    name: &'a str,
    bags: &'a [String],
}

/// The answer of `card` as JSON with a trailing newline.
///
/// # Errors
/// [`serde_json::Error`] if a value cannot be written, which no answer contains.
pub fn card_of_failures(answer: &CardAnswer) -> Result<String, serde_json::Error> {
    written(&card_document(answer))
}

/// The same as plain data, for templates.
pub(crate) fn card_document(answer: &CardAnswer) -> impl Serialize {
    Card {
        head: head("card"),
        scenario: &answer.trip.scenario,
        rider: &answer.trip.rider,
        bike: &answer.trip.bike,
        bags_known: answer.stowed,
        checks: checks(&answer.checks),
        failures: answer.failures.iter().map(failure).collect(),
        more_failures: answer.more,
        not_mended: answer.open.iter().map(|(name, mean)| Open { name, expected_occurrences: *mean }).collect(),
        fuel_short: fuel(answer.fuel.as_ref()),
        warnings: &answer.warnings,
        before_any_repair: on_the_card(),
        cautions: cautions(&answer.kinds),
    }
}

fn failure(own: &CardFailure) -> Failure<'_> {
    Failure {
        id: &own.id,
        name: &own.name,
        outcome: own.outcome,
        expected_occurrences: own.mean,
        repairs: own.repairs.iter().map(repair).collect(),
    }
}

fn repair(own: &CardRepair) -> Repair<'_> {
    Repair {
        id: &own.id,
        name: &own.name,
        grade: own.grade.word(),
        restores: own.restores,
        time_h: own.time.get(),
        skill: own.skill.word(),
        riders: own.riders,
        tools: own.tools.iter().map(thing).collect(),
        used_up: own.used_up.iter().map(thing).collect(),
        steps: &own.steps,
        check_after: &own.check_after,
    }
}

fn thing(own: &CardThing) -> Thing<'_> {
    Thing { name: &own.name, bags: &own.bags }
}
