//! `rehearse`: what happens to a given kit on many trips, beside what the optimiser reckons.

use super::describe::summary;
use super::plan::TripSummary;
use crate::domain::{Catalogue, Kit, Rider, Scenario};
use crate::rehearse::{self, Load, Party, Plan, Tally};
use crate::resolve::{Case, resolve};
use crate::risk;
use crate::units::{Hours, Mass};

/// What happened on the trips.
#[derive(Debug, Clone)]
pub struct RehearseAnswer {
    /// Where and who.
    pub trip: TripSummary,
    /// How it was rehearsed.
    pub plan: Plan,
    /// Mass of the kit.
    pub mass: Mass,
    /// The party that rode.
    pub party: Party,
    /// What was counted.
    pub tally: Tally,
    /// What the optimiser reckons for the same kit.
    pub predicted: Predicted,
}

/// What the optimiser reckons for a kit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Predicted {
    /// Breakdowns on a trip.
    pub breakdowns: f64,
    /// Hours lost with nothing aboard.
    pub hours_empty: Hours,
    /// Hours lost with the kit, its weight included.
    pub hours_lost: Hours,
    /// Chance that no stop is left unrepaired, at least.
    pub self_recovery: f64,
}

/// Rehearses a rider's trip with a kit. `None` if the rider's bike is not in the catalogue.
#[must_use]
pub fn rehearse(
    catalogue: &Catalogue,
    scenario: &Scenario,
    rider: &Rider,
    kit: &Kit,
    plan: &Plan,
    ridden: &(dyn Fn(u64) + Sync),
) -> Option<RehearseAnswer> {
    let case = resolve(catalogue, scenario, rider)?;
    let counts: Vec<u32> = case.items.iter().map(|item| kit.count(&item.id)).collect();
    let mass = kit.mass(catalogue);
    let dead_weight = mass - risk::value::mass(&case, &counts);
    let party = rehearse::party(&case, &counts, &[Load { rider: rider.name.clone(), mass }]);
    let tally = rehearse::rehearse(&party, plan, &ridden);
    let predicted = predicted(&case, &counts, dead_weight);
    Some(RehearseAnswer { trip: summary(catalogue, scenario, rider), plan: *plan, mass, party, tally, predicted })
}

fn predicted(case: &Case, counts: &[u32], dead_weight: Mass) -> Predicted {
    let stakes = risk::assess(case);
    let value = risk::value(case, &stakes, counts);
    let handling = value.handling + stakes.handling_per_kg(Some(0)) * dead_weight.kilograms();
    Predicted {
        breakdowns: stakes.means.iter().sum(),
        hours_empty: Hours::new(stakes.hours_empty()),
        hours_lost: Hours::new(stakes.hours_empty() - value.hours_saved() + handling),
        self_recovery: value.self_recovery,
    }
}
