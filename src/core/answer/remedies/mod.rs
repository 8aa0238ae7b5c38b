//! Ways out when needs and limits cannot hold together: changes of the trip, the limits or the luggage, each tried by
//! packing the changed trip, the shortest first.
//!
//! Tried are, each alone: things left at home or borrowed, water, food and petrol sooner, a companion, a heavier kit or
//! more money (the least that will do, by minimising it), another bag, warmer nights, a stouter tyre, no passenger; two
//! together where fewer than two single changes were found. A changed trip is resolved and packed without what breaks.
//! What mends is on top and may stay at home, so this small case can be packed if and only if the whole one can.

mod change;
mod limits;
mod luggage;
mod planning;

pub use change::Change;

use super::solve::solve;
use crate::domain::{Catalogue, Rider, Scenario};
use crate::resolve::{Instance, resolve};
use crate::risk::{self, RiskModel};
use crate::select::relax::Shortfall;
use fardel_milp::SolveOptions;
use std::time::Duration;

/// Most ways out that an answer names.
const MOST_WAYS: usize = 3;
/// With fewer single changes than this, two together are tried as well.
const FEW_WAYS: usize = 2;
/// How near the best a kit of a changed trip need be: only that there is one matters.
const NEAR: f64 = 0.5;
/// Longest that one trial may take; one that is not decided by then is no way out.
const TRIAL_LIMIT: Duration = Duration::from_secs(20);

/// Changes that make the trip possible, all of them together.
#[derive(Debug, Clone, PartialEq)]
pub struct TripRemedy {
    /// What to change.
    pub changes: Vec<Change>,
}

/// A trip with changes made to it.
#[derive(Clone)]
struct Trial {
    catalogue: Catalogue,
    scenario: Scenario,
    rider: Rider,
    options: SolveOptions,
}

impl Trial {
    fn instance(&self) -> Option<(Instance, RiskModel)> {
        resolve(&self.catalogue, &self.scenario, &self.rider).map(needs_only)
    }

    fn with(&self, change: &Change) -> Self {
        let mut changed = self.clone();
        change.apply(&mut changed.catalogue, &mut changed.scenario, &mut changed.rider);
        changed
    }

    /// Is there a kit that meets all needs and goes into the bags? What mends breakdowns is on top and may stay at home.
    fn holds(&self) -> bool {
        self.instance().is_some_and(|(instance, risk_model)| solve(&instance, &risk_model, &self.options).is_ok())
    }

    /// The change, if it makes the trip possible.
    fn tried(&self, change: Change) -> Option<Change> {
        self.with(&change).holds().then_some(change)
    }
}

/// The case with nothing that breaks: it can be packed for whenever the whole one can, and is a small matter to decide.
pub(super) fn needs_only(mut instance: Instance) -> (Instance, RiskModel) {
    instance.failures.clear();
    let risk_model = risk::assess(&instance);
    (instance, risk_model)
}

/// Up to three ways out, single changes before two together. Free ones come before bought ones, small before large.
pub(super) fn remedies(
    catalogue: &Catalogue,
    scenario: &Scenario,
    rider: &Rider,
    shortfalls: &[Shortfall],
    options: &SolveOptions,
) -> Vec<TripRemedy> {
    let options = SolveOptions { gap: NEAR, time_limit: Some(TRIAL_LIMIT), ..*options };
    let trial = Trial { catalogue: catalogue.clone(), scenario: scenario.clone(), rider: rider.clone(), options };
    let singles = planning::all(&trial).into_iter().chain(bought(&trial, shortfalls));
    let mut ways: Vec<Vec<Change>> = singles.map(|change| vec![change]).collect();
    if ways.len() < FEW_WAYS {
        let alone: Vec<&'static str> = ways.iter().flatten().map(Change::word).collect();
        let fresh = |changes: &Vec<Change>| changes.iter().all(|change| !alone.contains(&change.word()));
        ways.extend(pairs(&trial, shortfalls).into_iter().filter(fresh));
    }
    // Stable: what was tried first of equal rank stays first.
    ways.sort_by_key(|changes| (changes.len(), changes.iter().map(Change::rank).max()));
    ways.truncate(MOST_WAYS);
    ways.into_iter().map(|changes| TripRemedy { changes }).collect()
}

/// Changes of limits, luggage and trip that are not free.
fn bought(trial: &Trial, shortfalls: &[Shortfall]) -> Vec<Change> {
    limits::all(trial).into_iter().chain(luggage::all(trial, shortfalls)).collect()
}

/// A change of plan or limit that does not suffice alone, and one more.
fn pairs(trial: &Trial, shortfalls: &[Shortfall]) -> Vec<Vec<Change>> {
    let mut found: Vec<Vec<Change>> = Vec::new();
    for first in planning::strongest(trial).into_iter().chain(limits::generous(trial)) {
        let seconds = bought(&trial.with(&first), shortfalls);
        let pairs = seconds.into_iter().filter(|second| first.rank() < second.rank());
        found.extend(pairs.filter_map(|second| limits::settled(trial, &first, second)));
        if found.len() >= MOST_WAYS {
            break;
        }
    }
    found
}
