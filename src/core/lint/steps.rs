//! Likely failures whose repairs say nothing for the card in the pocket.

use super::{Doubt, Lint};
use crate::domain::{Catalogue, Scenario};
use crate::resolve::{InstanceFailure, resolve};
use crate::risk;
use fardel_words::say;

/// Expected occurrences on a trip from which a failure is likely.
const LIKELY: f64 = 0.01;

/// Likely failures without steps, once for each failure, whoever may suffer it.
pub(super) fn doubts(catalogue: &Catalogue, scenario: &Scenario) -> Vec<Doubt> {
    let mut doubts: Vec<Doubt> = Vec::new();
    for rider in &scenario.riders {
        let Some(instance) = resolve(catalogue, scenario, rider) else { continue };
        let means = risk::assess(&instance).means;
        for (failure, mean) in instance.failures.iter().zip(means) {
            let known = doubts.iter().any(|doubt| doubt.id == failure.id);
            if mean >= LIKELY && !known && !failure.repairs.is_empty() && !has_steps(catalogue, failure) {
                let what = say!("{mean:.3} times on the trip of {}, and no repair of it has `steps`", rider.name);
                doubts.push(Doubt { lint: Lint::NoSteps, section: "failures", id: failure.id.clone(), what });
            }
        }
    }
    doubts
}

fn has_steps(catalogue: &Catalogue, failure: &InstanceFailure) -> bool {
    let written = catalogue.failures.get(&failure.id);
    written.is_some_and(|written| {
        let doable = |id: &str| failure.repairs.iter().any(|repair| repair.id == id);
        written.repairs.iter().any(|repair| doable(&repair.id) && !repair.steps.is_empty())
    })
}
