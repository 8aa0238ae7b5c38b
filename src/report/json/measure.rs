//! The answer of `measure-first`, and the same part of `pack`.

use super::{Head, head, written};
use fardel_core::answer::{Measure, Worthwhile};
use fardel_core::uncertain::What;
use serde::Serialize;

#[derive(Serialize)]
pub(super) struct Measured<'a> {
    draws: u64,
    kits: usize,
    numbers: usize,
    looked_at: usize,
    everything_h: f64,
    everything_standard_error_h: f64,
    first: Vec<First<'a>>,
}

#[derive(Serialize)]
struct First<'a> {
    what: &'static str,
    id: &'a str,
    name: &'a str,
    basis: &'static str,
    gain_h: f64,
    gain_standard_error_h: f64,
}

#[derive(Serialize)]
struct MeasureFirst<'a> {
    #[serde(flatten)]
    head: Head,
    scenario: &'a str,
    rider: &'a str,
    seed: u64,
    #[serde(flatten)]
    measured: Measured<'a>,
}

/// What to measure first, as JSON with a trailing newline.
///
/// # Errors
/// [`serde_json::Error`] if a value cannot be written, which no answer contains.
pub fn measure_first(
    (scenario, rider): (&str, &str),
    seed: u64,
    measure: &Measure,
) -> Result<String, serde_json::Error> {
    written(&MeasureFirst { head: head("measure-first"), scenario, rider, seed, measured: measured(measure) })
}

pub(super) fn measured(measure: &Measure) -> Measured<'_> {
    Measured {
        draws: measure.draws,
        kits: measure.kits,
        numbers: measure.numbers,
        looked_at: measure.lines.len(),
        everything_h: measure.everything.hours,
        everything_standard_error_h: measure.everything.error,
        first: measure.first().map(first).collect(),
    }
}

fn first(own: &Worthwhile) -> First<'_> {
    First {
        what: word(own.subject.what),
        id: &own.subject.id,
        name: &own.subject.name,
        basis: own.subject.basis.opening(),
        gain_h: own.gain.hours,
        gain_standard_error_h: own.gain.error,
    }
}

const fn word(what: What) -> &'static str {
    match what {
        What::Falls => "falls",
        What::LoadSensitivity => "load_sensitivity",
        What::HoursPerFall => "hours_per_fall",
        What::Rate => "rate",
        What::System => "system",
        What::Time => "repair_time",
        What::Restores => "repair_restores",
        What::Limps => "limps_share",
        What::Nags => "nags_hours",
        What::Help => "hours_to_help",
        What::Weight => "price_weight",
        What::Hour => "price_hour",
        What::Thing => "price_thing",
        What::RestOfDay => "price_rest_of_day",
        What::Recovery => "price_recovery",
        What::Night => "price_night",
        What::Dread => "price_dread",
    }
}
