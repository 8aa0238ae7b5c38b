//! The chance of getting home with a kit, from trips ridden event by event, and what prices come to on a trip.

use super::plan::{Home, ItemCosts, PriceTags};
use crate::rehearse::{self, Estimate, Load, Plan};
use crate::resolve::{Instance, InstanceItem};
use crate::risk::{self, RiskModel};
use crate::units::{Hours, Mass};
use fardel_milp::timing::timed;

/// Breakdowns and falls on all trips together: a few seconds at worst.
const MOST_IN_ALL: f64 = 2e7;
/// With fewer trips than this the chance is not worth showing.
const FEWEST: f64 = 1000.0;

/// The chance with so many units of each item; `masses`: what is on each rider's bike.
pub(super) fn home(instance: &Instance, counts: &[u32], masses: &[Mass]) -> Home {
    Home {
        ridden: timed("ride for the chance", || ridden(instance, counts, masses)),
        bound: risk::recovery::bound(instance, counts),
    }
}

fn ridden(instance: &Instance, counts: &[u32], masses: &[Mass]) -> Option<Estimate> {
    let loads: Vec<Load> = instance
        .mounts
        .iter()
        .zip(masses)
        .map(|(mount, mass)| Load { rider: mount.rider.clone(), mass: *mass })
        .collect();
    let party = rehearse::party(instance, counts, &loads);
    let trips = trips(party.happenings())?;
    let plan = Plan { trips, ..Plan::default() };
    Some(rehearse::rehearse(&party, &plan, &|_| {}).self_recovery())
}

/// How many trips to ride for the chance where so much happens on each: a hundred thousand, fewer where that would take
/// longer than a moment, none where even a thousand would.
#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    clippy::cast_precision_loss,
    reason = "bounded from both sides"
)]
fn trips(happenings: f64) -> Option<u64> {
    let most = MOST_IN_ALL / happenings.max(1.0);
    (most >= FEWEST).then(|| most.min(Plan::default().trips as f64) as u64)
}

/// What the prices come to on a trip, with the kit whose stakes these are.
pub(super) fn price_tags(instance: &Instance, risk_model: &RiskModel) -> PriceTags {
    let legs = || instance.exposures.iter().flat_map(|exposure| &exposure.legs);
    let fetched = || legs().map(|leg| leg.fetched.get());
    PriceTags {
        kilogram: risk_model.per_kg(None),
        hour: instance.prices.hour,
        thing: instance.prices.thing,
        fetched: (
            Hours::new(fetched().reduce(f64::min).unwrap_or(0.0)),
            Hours::new(fetched().reduce(f64::max).unwrap_or(0.0)),
        ),
        dread: Hours::new(legs().map(|leg| leg.dread.get()).fold(0.0, f64::max)),
    }
}

/// What so many units of an item cost.
pub(super) fn item_costs(instance: &Instance, risk_model: &RiskModel, item: &InstanceItem, count: u32) -> ItemCosts {
    ItemCosts {
        weight: Hours::new(risk_model.handling_per_kg(item.owner) * (item.mass * count).kilograms()),
        packing: instance.prices.thing * f64::from(count),
        money: item.buying * f64::from(count.saturating_sub(item.owned)),
    }
}
