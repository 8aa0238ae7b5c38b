//! How much riding of which sort: kilometres, days and falls of each leg.

use crate::domain::{BySurface, Catalogue, Leg, RepairSkill, Rider, Scenario};
use crate::units::{Hours, Mass};

/// The riding of the whole trip, leg by leg.
#[derive(Debug, Clone, PartialEq)]
pub struct Exposure {
    /// In riding order.
    pub legs: Vec<LegExposure>,
    /// The bike ready to ride.
    pub bike_mass: Mass,
    /// Hours by which a kilogram of kit stretches the hard riding of the trip: `weight x sum over legs and surfaces of
    /// km / speed x strain, over the mass moved` (bike, people, empty bags).
    pub riding_per_kg: f64,
    /// Relative rise in falls per (kit mass / bike mass).
    pub load_sensitivity: f64,
    /// What a fall costs, breakage apart.
    pub hours_per_fall: Hours,
    /// How well this rider mends a bike.
    pub repair_skill: RepairSkill,
}

/// The riding of one leg.
#[derive(Debug, Clone, PartialEq)]
pub struct LegExposure {
    /// Which leg of the trip.
    pub number: usize,
    /// Thousands of kilometres by surface.
    pub thousand_km: BySurface<f64>,
    /// Days under way.
    pub days: f64,
    /// Expected falls with an empty kit.
    pub falls: f64,
    /// From a breakdown to a workshop or road head.
    pub hours_to_help: Hours,
    /// What a breakdown that is left costs: the wait for help, the rest of the day, the money.
    pub fetched: Hours,
    /// What is charged to a stranding beside that.
    pub dread: Hours,
    /// How many riders ride it together.
    pub riders: u32,
}

/// Falls on a leg with an empty kit: sum over surfaces of `falls per 1000 km x km / 1000`, times the skill factor.
fn falls(catalogue: &Catalogue, rider: &Rider, leg: &Leg) -> f64 {
    let model = &catalogue.model;
    let base: f64 = leg.km.iter().map(|(s, km)| model.falls_per_1000_km.on(s) * km.km() / 1000.0).sum();
    base * model.skill_factor(rider.riding_skill)
}

/// The exposure of one rider, on the legs that this rider rides.
pub(super) fn exposure(
    catalogue: &Catalogue,
    scenario: &Scenario,
    rider: &Rider,
    (bike_mass, empty_bags): (Mass, Mass),
) -> Exposure {
    let prices = catalogue.prices.with(&scenario.prices);
    let ridden = || scenario.trip.legs.iter().filter(|leg| leg.is_ridden_by(&rider.name));
    let per_km = prices.hard_hours_per_km();
    let hard: f64 = ridden().flat_map(|leg| leg.km.iter()).map(|(surface, km)| per_km.on(surface) * km.km()).sum();
    let moved = (bike_mass + rider.mass + rider.passenger.unwrap_or(Mass::ZERO) + empty_bags).kilograms();
    let leg = |(number, leg): (usize, &Leg)| LegExposure {
        number,
        thousand_km: leg.km.map(|km| km.km() / 1000.0),
        days: leg.days,
        falls: falls(catalogue, rider, leg),
        hours_to_help: leg.hours_to_help,
        fetched: prices.fetched(leg.hours_to_help),
        dread: prices.dread(leg.hours_to_help),
        riders: scenario.together_on(leg),
    };
    Exposure {
        legs: scenario.trip.legs.iter().enumerate().filter(|(_, leg)| leg.is_ridden_by(&rider.name)).map(leg).collect(),
        bike_mass,
        riding_per_kg: if moved > 0.0 { prices.weight * hard / moved } else { 0.0 },
        load_sensitivity: catalogue.model.load_sensitivity,
        hours_per_fall: catalogue.model.hours_per_fall,
        repair_skill: rider.repair_skill,
    }
}
