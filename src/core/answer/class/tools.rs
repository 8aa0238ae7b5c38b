//! Which toolkit cannot turn which fastener.

use crate::domain::{Catalogue, Kit, Rider};
use crate::sheet::sheet;
use crate::units::UnitSystem;

/// A fastener that a rider's tools cannot turn.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unturned {
    /// What it is: `rear axle nut`.
    pub what: String,
    /// What it asks for: `hex 27 mm`.
    pub size: String,
    /// What breaks and asks for it.
    pub jobs: Vec<String>,
    /// What would turn it, the lightest first.
    pub would_turn: Vec<String>,
}

/// The fasteners of the rider's bike that some repair asks for and the kit cannot turn, and how many were looked at.
pub(super) fn unturned(catalogue: &Catalogue, rider: &Rider, kit: Option<&Kit>) -> (Vec<Unturned>, usize) {
    let own = catalogue.as_weighed_by(rider);
    let (Some(bike), Some(kit)) = (own.bikes.get(&rider.bike), kit) else { return (Vec::new(), 0) };
    let sheet = sheet(&own, bike, Some(kit), UnitSystem::Metric);
    let lines = sheet.unturned().filter(|line| !line.jobs.is_empty()).map(|line| Unturned {
        what: line.what.clone(),
        size: line.value.clone(),
        jobs: line.jobs.clone(),
        would_turn: line.would_turn.clone(),
    });
    (lines.collect(), sheet.fasteners())
}
