//! Recomputes a group's kit: every rider's bags and wheels by the rules for one rider, then what the riders have
//! together. From names and counts alone, like everything here.

mod apart;
mod buying;
mod hours;
mod sets;
mod together;
mod trip;

use super::{Claim, Evidence, SetsClaim, Terms, Violation, access, axles, bags, fuel};
use crate::domain::{Catalogue, Kit, Map, Rider, Scenario, Stowage};
use crate::units::{Hours, Mass, Money, Volume};

/// What one rider carries, as the answer has it. Things that fit one sort of bike only are keyed `item of bike` where
/// there are several sorts.
#[derive(Debug, Clone)]
pub struct Part<'a> {
    /// Who.
    pub rider: &'a Rider,
    /// Bag to item to count.
    pub stowage: Stowage,
    /// Load on the front wheel.
    pub front_kg: f64,
    /// Load on the rear wheel.
    pub rear_kg: f64,
    /// Sets of things in one bag.
    pub sets: SetsClaim,
}

/// What an answer claims of a group.
#[derive(Debug, Clone, PartialEq)]
pub struct GroupClaim {
    /// Total mass of the kit.
    pub mass: Mass,
    /// Total packed volume.
    pub volume: Volume,
    /// Money for what nobody owns.
    pub to_buy: Money,
    /// Expected hours lost with nothing aboard.
    pub hours_empty: Hours,
    /// What the kit saves and costs, term by term.
    pub terms: Terms,
    /// Need, whose it is (`None`: the group's), amount.
    pub needs: Vec<(String, Option<String>, f64)>,
    /// Sets of shared things on one bike; `None`: nothing is said of them.
    pub sets: Option<SetsClaim>,
    /// Riders of legs without the others, and how much of each need they have with them.
    pub apart: Vec<ApartClaim>,
    /// Who leaves, what the whole kit would save for the others, what is left for them.
    pub absences: Vec<(String, Hours, Hours)>,
    /// The least share of the one that the other may be.
    pub floor: Option<f64>,
    /// Is the kit what the riders have packed already, so that it costs nothing?
    pub packed: bool,
}

/// Riders of legs without the others, and what they have with them.
#[derive(Debug, Clone, PartialEq)]
pub struct ApartClaim {
    /// Who.
    pub riders: Vec<String>,
    /// Need and amount.
    pub met: Vec<(String, f64)>,
}

/// What the rules for a group look at.
pub(super) struct Group<'a> {
    /// With things of one sort of bike told apart.
    pub catalogue: &'a Catalogue,
    /// As it was given.
    pub plain: &'a Catalogue,
    /// What its keys stand for.
    pub keys: &'a apart::Keys,
    pub scenario: &'a Scenario,
    pub parts: &'a [Part<'a>],
    pub claim: &'a GroupClaim,
}

impl Part<'_> {
    /// What is in the bags, by item.
    pub(super) fn held(&self) -> Map<u32> {
        let mut held = Map::new();
        for (item, count) in self.stowage.values().flatten() {
            *held.entry(item.clone()).or_insert(0) += count;
        }
        held
    }
}

/// Checks a group's answer. Empty: it stands.
#[must_use]
pub fn verify_group(
    catalogue: &Catalogue,
    scenario: &Scenario,
    parts: &[Part<'_>],
    claim: &GroupClaim,
) -> Vec<Violation> {
    let riders: Vec<&Rider> = parts.iter().map(|part| part.rider).collect();
    let demanded = || claim.needs.iter().map(|(need, _, amount)| (need, *amount));
    let own = fuel::spoken_for(catalogue, demanded());
    // Sorts of bike are told apart by what a thing holds, also where a need for fuel takes all of it.
    let (told_apart, keys) = apart::told_apart(catalogue, &riders);
    let told_apart = fuel::spoken_for(&told_apart, demanded());
    let group = Group { catalogue: &told_apart, plain: &own, keys: &keys, scenario, parts, claim };
    let mut found: Vec<Violation> = parts.iter().flat_map(|part| one(&group, part)).collect();
    found.extend(together::check(&group));
    found.extend(hours::check(&group));
    found.extend(buying::check(&group));
    found.extend(sets::check(&group));
    found
}

/// One rider's bags, wheels and limit.
fn one(group: &Group<'_>, part: &Part<'_>) -> Vec<Violation> {
    let Some(bike) = group.catalogue.bikes.get(&part.rider.bike) else {
        return vec![Violation { rule: "counts", what: format!("no bike `{}`", part.rider.bike), by: 1.0 }];
    };
    let kit = Kit::new(part.held());
    let claim = Claim {
        mass: Mass::ZERO,
        volume: Volume::ZERO,
        to_buy: Money::ZERO,
        front_kg: part.front_kg,
        rear_kg: part.rear_kg,
        hours_empty: Hours::ZERO,
        terms: Terms::default(),
        home: None,
        sets: None,
        needs: Vec::new(),
    };
    let scenario = group.scenario.as_ridden_by(part.rider);
    let evidence = Evidence {
        catalogue: group.catalogue,
        scenario: &scenario,
        rider: part.rider,
        bike,
        kit: &kit,
        stowage: &part.stowage,
        claim: &claim,
    };
    let rules = [bags::check, access::check, axles::check];
    let mut found: Vec<Violation> = rules.iter().flat_map(|rule| rule(&evidence)).collect();
    let (bags, own) = (bike.bags.iter().chain(&part.rider.bags), |key| together::plain(group, key));
    found.extend(super::sets::check_bags(group.plain, bike, bags, &part.stowage, own, &part.sets));
    let (mass, limit) = (kit.mass(group.catalogue), scenario.limits.kit_mass);
    if let Some(limit) = limit.filter(|limit| mass > *limit) {
        let by = (mass - limit).grams();
        found.push(Violation { rule: "caps", what: format!("{}'s kit above the limit, g", part.rider.name), by });
    }
    found
}
