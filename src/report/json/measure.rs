//! The answer of `measure-first`.

use super::written;
use fardel_core::answer::{Measure, MeasureFirst};
use schemars::JsonSchema;
use serde::Serialize;

/// What to measure first before a trip.
#[derive(Serialize, JsonSchema)]
pub(super) struct Measured<'a> {
    /// Title of the scenario.
    scenario: &'a str,
    /// Who packs.
    rider: &'a str,
    /// The random seed.
    seed: u64,
    #[serde(flatten)]
    measured: MeasureFirst,
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
    written("measure-first", Measured { scenario, rider, seed, measured: MeasureFirst::from(measure) })
}
