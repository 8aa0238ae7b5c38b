//! Recomputes everything from the kit alone: catalogue, scenario, item counts, bag contents. It shares no code with
//! resolve, risk, select or stow: names stay names, stocks are convolved rather than climbed. Any disagreement is a
//! defect of the program and is never shown as an answer.
//!
//! Checked are masses, volumes, money, needs, bag contents, access, wheel loads (about the other contact patch), hours
//! and the price of weight. A figure that differs by more than the tolerance is an internal error with a dump (exit
//! status 3). For a group, bags, access and wheels are checked rider by rider; counts, money, needs and hours together,
//! every absence included (`group`). One rule, one file.
//!
//! # The two reckonings side by side
//!
//! What a kit is said to cost and to save is defined once in the terms of the model, which the kit is chosen by, and once
//! here. Where they part, one of them is wrong:
//!
//! | figure | in the model: item, failure and stock numbers | here: names, riders and bags |
//! | --- | --- | --- |
//! | to buy | `Instance::to_buy`: units beyond `owned`, which `resolve` has summed over the riders whose thing it may be | `counts`, `group::together`: of a personal thing what each rider carries beyond the own list; of a shared one what all carry beyond all their lists |
//! | charged for buying | `InstanceItem::buying`, set by `resolve` for the days of those concerned; whole where the own things already do as much | `prices::money`: price, kind, days and nights of the rider or of all; `is_owned_already` compares functions, stocks and needs anew |
//! | hours saved | `risk::value`: benefit x share, shares by the largest fixed point of `risk::division` over ladders of stocks | `value`: means by leg and surface, `shares` by convolving what each stock is asked for |
//! | weight | `RiskModel::handling_per_kg` x grams of the counts | `prices::riding_per_kg` and the falls of the legs x the mass of what is in the bags |
//! | packing | price of a thing x units | price of a thing x things in the bags |
//! | of a group | one instance with pooled failures, `allocation::Situation` for each set of riders present | `group::trip`: leg by leg, who is there and what is in their bags |
//! | needs | `Instance::demands` and `met` | `needs`: amounts from the legs, met by name; `fuel` for each rider's tank |
//! | wheels | `resolve::mount` about the rear contact patch | `axles` about the front one |

mod access;
mod axles;
mod bags;
mod caps;
mod counts;
mod fuel;
mod functions;
mod group;
mod home;
mod needs;
mod prices;
mod sets;
mod shares;
mod stock;
mod value;

pub use group::{ApartClaim, GroupClaim, Part, verify_group};
pub use prices::Terms;
pub use sets::SetsClaim;

use crate::domain::{Bike, Catalogue, Kit, Rider, Scenario, Stowage};
use crate::units::{Hours, Mass, Money, Volume};
use fardel_milp::timing::timed;

/// What an answer claims.
#[derive(Debug, Clone, PartialEq)]
pub struct Claim {
    /// Total mass of the kit.
    pub mass: Mass,
    /// Total packed volume.
    pub volume: Volume,
    /// Money for what is not owned.
    pub to_buy: Money,
    /// Load on the front wheel.
    pub front_kg: f64,
    /// Load on the rear wheel.
    pub rear_kg: f64,
    /// Expected hours lost with an empty kit.
    pub hours_empty: Hours,
    /// What the kit saves and costs, term by term.
    pub terms: Terms,
    /// Chance of getting home as it was ridden, with its standard error.
    pub home: Option<(f64, f64)>,
    /// Sets of things in one bag; `None`: nothing is said of them.
    pub sets: Option<SetsClaim>,
    /// Amounts demanded and met, by need.
    pub needs: Vec<(String, f64)>,
}

/// One disagreement or broken rule.
#[derive(Debug, Clone, PartialEq)]
pub struct Violation {
    /// The rule, by the name of its file.
    pub rule: &'static str,
    /// What is wrong.
    pub what: String,
    /// By how much, in the rule's own unit.
    pub by: f64,
}

/// Largest relative difference between a claimed and a recomputed figure.
pub const TOLERANCE: f64 = 1e-6;

/// What the rules look at.
pub(crate) struct Evidence<'a> {
    pub catalogue: &'a Catalogue,
    pub scenario: &'a Scenario,
    pub rider: &'a Rider,
    pub bike: &'a Bike,
    pub kit: &'a Kit,
    pub stowage: &'a Stowage,
    pub claim: &'a Claim,
}

/// What one rule finds wrong.
type Rule = fn(&Evidence<'_>) -> Vec<Violation>;

/// Checks an answer. Empty: it stands.
#[must_use]
pub fn verify(
    catalogue: &Catalogue,
    scenario: &Scenario,
    rider: &Rider,
    kit: &Kit,
    stowage: &Stowage,
    claim: &Claim,
) -> Vec<Violation> {
    timed("check the answer", || violations(catalogue, scenario, rider, (kit, stowage), claim))
}

fn violations(
    catalogue: &Catalogue,
    scenario: &Scenario,
    rider: &Rider,
    (kit, stowage): (&Kit, &Stowage),
    claim: &Claim,
) -> Vec<Violation> {
    let Some(bike) = catalogue.bikes.get(&rider.bike) else {
        return vec![Violation { rule: "counts", what: format!("no bike `{}`", rider.bike), by: 1.0 }];
    };
    let own = fuel::spoken_for(catalogue, claim.needs.iter().map(|(need, amount)| (need, *amount)));
    let evidence = Evidence { catalogue: &own, scenario, rider, bike, kit, stowage, claim };
    let rules: [Rule; 8] =
        [counts::check, caps::check, needs::check, bags::check, access::check, axles::check, value::check, home::check];
    let mut found: Vec<Violation> = rules.iter().flat_map(|rule| rule(&evidence)).collect();
    let bags = bike.bags.iter().chain(&rider.bags);
    let sets = claim.sets.iter();
    found.extend(sets.flat_map(|own| sets::check_bags(catalogue, bike, bags.clone(), stowage, |id| id, own)));
    found
}

/// A violation if a claimed figure differs from the recomputed one.
pub(crate) fn differs(rule: &'static str, what: &str, claimed: f64, found: f64) -> Option<Violation> {
    let by = (claimed - found).abs();
    let wrong = by > TOLERANCE * found.abs().max(1.0) || !by.is_finite();
    wrong.then(|| Violation { rule, what: format!("{what}: claimed {claimed}, found {found}"), by })
}

#[cfg(test)]
mod tests;
