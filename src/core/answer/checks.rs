//! What is looked at before leaving, whatever the numbers say: every check that is about the bike, in the catalogue's order.

use crate::domain::{Catalogue, Check, Rider};
use schemars::JsonSchema;
use serde::Serialize;

/// The checks of bikes that are looked at alike.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct BikeChecks {
    /// Names of the bikes, each once.
    pub bikes: Vec<String>,
    /// Who rides them.
    pub riders: Vec<String>,
    /// What is looked at on each.
    pub checks: Vec<Check>,
}

/// All checks of a rider's bike.
pub(super) fn checks(catalogue: &Catalogue, rider: &Rider) -> Vec<Check> {
    let bike = catalogue.bikes.get(&rider.bike);
    bike.map_or_else(Vec::new, |bike| catalogue.checks_of(bike).cloned().collect())
}

/// The checks of a group: riders whose bikes are looked at alike are told together.
pub(super) fn group_checks(catalogue: &Catalogue, riders: &[Rider]) -> Vec<BikeChecks> {
    let mut groups: Vec<BikeChecks> = Vec::new();
    for rider in riders {
        let checks = checks(catalogue, rider);
        if checks.is_empty() {
            continue;
        }
        let at = groups.iter().position(|group| group.checks == checks).unwrap_or_else(|| {
            groups.push(BikeChecks { bikes: Vec::new(), riders: Vec::new(), checks });
            groups.len() - 1
        });
        let bike = catalogue.bikes.get(&rider.bike).map_or_else(|| rider.bike.clone(), |bike| bike.name.clone());
        if !groups[at].bikes.contains(&bike) {
            groups[at].bikes.push(bike);
        }
        groups[at].riders.push(rider.name.clone());
    }
    groups
}
