//! `rehearse`: what happens to a given kit on many trips, beside what the optimiser reckons.

use super::charge::{ChargeShort, charge_short};
use super::counted::Counted;
use super::describe::summary;
use super::fuel::{self, FuelShort};
use super::plan::TripSummary;
use super::shapes::TripParts;
use crate::domain::{Catalogue, Kit, Rider, Scenario};
use crate::rehearse::{self, Load, Party, Plan, Tally};
use crate::resolve::{Instance, resolve};
use crate::risk;
use crate::serial::Number;
use crate::uncertain::Uncertain;
use crate::units::{Hours, Mass};
use fardel_words::say;
use schemars::JsonSchema;
use serde::Serialize;

/// What happened on the trips.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct RehearseAnswer {
    /// Where and who.
    #[serde(flatten, with = "TripParts")]
    pub trip: TripSummary,
    /// How it was rehearsed.
    #[serde(flatten)]
    pub plan: Plan,
    /// Mass of the kit.
    #[serde(rename = "kit_g", with = "Number")]
    pub mass: Mass,
    /// Where the petrol does not reach the next pump, of which the trips that are ridden know nothing.
    #[serde(rename = "fuel_short")]
    pub fuel: Option<FuelShort>,
    /// Where a battery does not reach the next place to charge; left out where all do.
    #[serde(rename = "charge_short", skip_serializing_if = "Option::is_none")]
    pub charge: Option<ChargeShort>,
    /// The party that rode.
    #[serde(skip)]
    pub party: Party,
    /// What was counted.
    #[serde(skip)]
    pub tally: Tally,
    /// What that comes to.
    #[serde(flatten)]
    pub counted: Counted,
    /// What the optimiser reckons for the same kit.
    #[serde(rename = "reckoned")]
    pub predicted: Predicted,
}

/// What the optimiser reckons for a kit.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct Predicted {
    /// Breakdowns on a trip.
    #[serde(rename = "expected_failures")]
    pub breakdowns: f64,
    /// Hours lost with nothing aboard.
    #[serde(rename = "hours_lost_empty", with = "Number")]
    pub hours_empty: Hours,
    /// Hours lost with the kit, its weight included.
    #[serde(rename = "hours_lost_with_kit", with = "Number")]
    pub hours_lost: Hours,
    /// Chance that no stop is left unrepaired, at least.
    #[serde(rename = "self_recovery_at_least")]
    pub self_recovery: f64,
}

/// More breakdowns and falls than this on one trip are no trip: the day would not hold them.
const MOST_ON_A_TRIP: f64 = 1e6;
/// More than this on all trips together would take hours.
const MOST_IN_ALL: f64 = 1e11;

/// Draws of the worlds that are ridden in begin here, beyond all others.
const RIDDEN_FROM: u64 = 1 << 40;

/// Why nothing was rehearsed.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum RehearseError {
    /// The rider's bike is not in the catalogue.
    #[error("{}", say!("internal error: no bike `{0}`", .0))]
    NoBike(String),
    /// Too much happens.
    #[error(
        "{0:.0} things would break or fall on each of {1} trips, more than can be ridden; look at the rates and the \
         distances, or ask for fewer --trips"
    )]
    TooMuch(f64, u64),
}

/// Rehearses a rider's trip with a kit.
///
/// # Errors
/// [`RehearseError`] without such a bike, or if too much happens to be ridden out.
pub fn rehearse(
    catalogue: &Catalogue,
    scenario: &Scenario,
    rider: &Rider,
    kit: &Kit,
    plan: &Plan,
    ridden: &(dyn Fn(u64) + Sync),
) -> Result<RehearseAnswer, RehearseError> {
    rehearsed((catalogue, scenario, rider), kit, plan, false, ridden)
}

/// The same with all that is uncertain drawn anew again and again.
///
/// # Errors
/// As [`rehearse`].
pub fn rehearse_uncertain(
    catalogue: &Catalogue,
    scenario: &Scenario,
    rider: &Rider,
    kit: &Kit,
    plan: &Plan,
    ridden: &(dyn Fn(u64) + Sync),
) -> Result<RehearseAnswer, RehearseError> {
    rehearsed((catalogue, scenario, rider), kit, plan, true, ridden)
}

fn rehearsed(
    (catalogue, scenario, rider): (&Catalogue, &Scenario, &Rider),
    kit: &Kit,
    plan: &Plan,
    uncertain: bool,
    ridden: &(dyn Fn(u64) + Sync),
) -> Result<RehearseAnswer, RehearseError> {
    let instance = resolve(catalogue, scenario, rider).ok_or_else(|| RehearseError::NoBike(rider.bike.clone()))?;
    let counts = instance.counts(kit);
    let mass = kit.mass(catalogue);
    let dead_weight = mass - risk::value::mass(&instance, &counts);
    let load = [Load { rider: rider.name.clone(), mass }];
    let party = rehearse::party(&instance, &counts, &load);
    let predicted = predicted(&instance, &counts, dead_weight);
    if too_much(&party, plan.trips) {
        return Err(RehearseError::TooMuch(party.happenings(), plan.trips));
    }
    let tally = if uncertain {
        let uncertain = Uncertain::new(catalogue, scenario, &instance);
        in_many_worlds(&uncertain, &counts, &load, (&party, plan), &ridden)
    } else {
        rehearse::rehearse(&party, plan, &ridden)
    };
    let trip = summary(catalogue, scenario, rider);
    let (fuel, charge) = (fuel::short(&instance, &counts), charge_short(&instance));
    let counted = Counted::new(&party, &tally);
    Ok(RehearseAnswer { trip, plan: *plan, mass, fuel, charge, party, tally, counted, predicted })
}

/// The trips of a plan, ridden in many worlds.
pub(super) fn in_many_worlds(
    uncertain: &Uncertain<'_>,
    counts: &[u32],
    load: &[Load],
    (like, plan): (&Party, &Plan),
    ridden: &(impl Fn(u64) + Sync),
) -> Tally {
    let world = |number: u64| {
        let world = uncertain.world(&uncertain.draw(plan.seed, RIDDEN_FROM + number));
        rehearse::party(&world, counts, load)
    };
    rehearse::rehearse_worlds(like, &world, plan, ridden)
}

/// Does too much happen for so many trips to be ridden out?
pub(super) fn too_much(party: &Party, trips: u64) -> bool {
    #[allow(clippy::cast_precision_loss, reason = "trips are at most 1e9")]
    let in_all = party.happenings() * trips as f64;
    party.happenings() > MOST_ON_A_TRIP || in_all > MOST_IN_ALL
}

fn predicted(instance: &Instance, counts: &[u32], dead_weight: Mass) -> Predicted {
    let risk_model = risk::assess(instance);
    let value = risk::value(instance, &risk_model, counts);
    // Trips are ridden event by event: what weight does to the pace of riding is no event.
    let falls = value.terms.falls + risk_model.at(instance, counts).per_kg(Some(0)).falls * dead_weight.kilograms();
    Predicted {
        breakdowns: risk_model.means.iter().sum(),
        hours_empty: Hours::new(risk_model.hours_empty()),
        hours_lost: Hours::new(risk_model.hours_empty() - value.hours_saved() + falls),
        self_recovery: risk::recovery::bound(instance, counts),
    }
}
