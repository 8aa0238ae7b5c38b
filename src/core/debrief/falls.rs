//! What rides teach about falls, and about what weight does to them.
//!
//! As with failures: all surfaces move by one factor, Gamma with mean 1 and the shape that the fall rate is worth. Falls are
//! expected as an intermediate rider has them, times the factor of the skill that the ride names: so what is learnt is what
//! is left over after the skill, and the scenario must name the same skill as the rides.
//!
//! A kit of mass `m` on a bike of mass `M` raises falls by `1 + s m / M`. The sensitivity `s` is log-normal about the
//! catalogue's, as wide as its basis is, and integrated on a grid: rides with light and with heavy kits tell it, each by the
//! probability of its falls beside the others of the same rider. A ride that does not name its `kit_mass` counts with what the
//! things weigh that it lists as carried.

use super::gamma::Belief;
use super::rates::{MOST_EVENTS, Reach, reach};
use super::riders::{Rider, Whose};
use super::together::{Told, together};
use crate::domain::{BySurface, Catalogue, Ride};
use crate::evidence::grid::{Moments, weights};
use crate::uncertain::Law;
use crate::uncertain::widths::{NINE_IN_TEN, Quantity, within};
use schemars::JsonSchema;
use serde::Serialize;

/// Falls before and after the rides.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Fallen {
    /// Falls on the rides.
    #[serde(skip)]
    pub seen: u32,
    /// Falls expected by the old rates.
    pub expected: f64,
    /// Per 1000 km of this riding, by the old rates.
    #[serde(rename = "before_per_1000_km")]
    pub before: Reach,
    /// By the new ones.
    #[serde(rename = "after_per_1000_km")]
    pub after: Reach,
    /// The new rates.
    #[serde(skip)]
    pub per_1000_km: BySurface<f64>,
    /// Falls that the new rates are worth.
    pub worth_events: f64,
    /// What weight does to falls; `null` where the rides tell nothing about it.
    pub load_sensitivity: Option<Sensitivity>,
}

/// The rise in falls per (kit mass / bike mass), before and after the rides.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct Sensitivity {
    /// As the catalogue has it.
    pub before: Reach,
    /// By the rides.
    pub after: Reach,
}

/// Points of the grid of sensitivities, by their normal scores.
const POINTS: u32 = 81;
/// The outermost score.
const OUTERMOST: f64 = 4.0;

/// A ride's falls: seen, expected without a load, and the mass of the kit over that of the bike.
#[derive(Debug, Clone, Copy)]
struct Fall {
    seen: f64,
    bare: f64,
    load: f64,
}

/// What the rides teach about falls; `None`: none can be expected on them, or none are modelled.
#[must_use]
pub(super) fn fallen(catalogue: &Catalogue, riders: &[Rider<'_>], whose: Whose) -> Option<Fallen> {
    let model = &catalogue.model;
    let falls: Vec<Vec<Fall>> =
        riders.iter().map(|rider| rider.rides.iter().map(|ride| fall(catalogue, ride)).collect()).collect();
    let all = || riders.iter().flat_map(|rider| &rider.rides);
    let expected: f64 = falls.iter().flatten().map(|own| own.bare * (1.0 + model.load_sensitivity * own.load)).sum();
    let km: f64 = all().map(|ride| ride.distance().km()).sum();
    if expected <= 0.0 {
        return None;
    }
    let seen = all().fold(0_u32, |all, ride| all.saturating_add(ride.falls));
    let worth = model.falls_worth_events;
    let known = sensitivities(catalogue, &falls);
    let given = |sensitivity: f64| factor(worth, &told(&falls, sensitivity), whose).0;
    let (mut mean, mut square) = (0.0, 0.0);
    for (sensitivity, weight) in &known {
        let own = given(*sensitivity);
        mean += weight * own.mean;
        square += weight * own.mean * own.mean * (1.0 + own.shape.recip());
    }
    let Moments { mean, shape } = Moments::of(mean, square);
    let scale = expected / km * 1000.0;
    let after = Belief { shape, rate: shape / mean };
    Some(Fallen {
        seen,
        expected,
        before: reach(Belief { shape: worth, rate: worth }, scale),
        after: reach(after, scale),
        per_1000_km: model.falls_per_1000_km.map(|rate| rate * mean),
        worth_events: shape.clamp(crate::evidence::LEAST, MOST_EVENTS),
        load_sensitivity: (known.len() > 1).then(|| sensitivity(catalogue, &known)),
    })
}

fn fall(catalogue: &Catalogue, ride: &Ride) -> Fall {
    let model = &catalogue.model;
    let by_km: f64 = ride.km.iter().map(|(surface, km)| model.falls_per_1000_km.on(surface) * km.km() / 1000.0).sum();
    let carried = || {
        let weigh = |(id, count): (&String, &u32)| {
            catalogue.items.get(id).map_or(0.0, |item| item.mass.kilograms() * f64::from(*count))
        };
        ride.carried.iter().map(weigh).sum()
    };
    let kit = ride.kit_mass.map_or_else(carried, crate::units::Mass::kilograms);
    let bike = catalogue.bikes.get(&ride.bike).map_or(0.0, |bike| bike.mass.kilograms());
    Fall {
        seen: f64::from(ride.falls),
        bare: model.skill_factor(ride.riding_skill) * by_km,
        load: if bike > 0.0 { kit / bike } else { 0.0 },
    }
}

/// Seen and expected of each rider.
fn told(falls: &[Vec<Fall>], sensitivity: f64) -> Vec<Told> {
    let one = |own: &Vec<Fall>| Told {
        seen: own.iter().map(|fall| fall.seen).sum(),
        expected: own.iter().map(|fall| fall.bare * (1.0 + sensitivity * fall.load)).sum(),
    };
    falls.iter().map(one).collect()
}

/// The factor on the catalogue's rate of falls, and the logarithm of the probability of what was seen, but for what does not
/// depend on what was expected.
fn factor(worth: f64, told: &[Told], whose: Whose) -> (Moments, f64) {
    if let [own] = told {
        // The textbook rule: Gamma and Poisson.
        let after = Belief { shape: worth, rate: worth }.after(own.seen, own.expected);
        let evidence = own.seen * own.expected.max(f64::MIN_POSITIVE).ln() - after.shape * after.rate.ln();
        return (Moments { mean: after.mean(), shape: after.shape }, evidence);
    }
    let found = together(worth, told);
    (found.of(whose), found.evidence)
}

/// How far the sensitivity may be from the catalogue's.
fn law(catalogue: &Catalogue) -> Law {
    Law::Within(within(Quantity::Effect, catalogue.model.basis.kind))
}

/// Sensitivities with their weights by the rides; the catalogue's alone where there is nothing to learn about it.
fn sensitivities(catalogue: &Catalogue, falls: &[Vec<Fall>]) -> Vec<(f64, f64)> {
    let model = &catalogue.model;
    let before = model.load_sensitivity;
    let loads = || falls.iter().flatten().filter(|own| own.bare > 0.0).map(|own| own.load);
    let spread = loads().fold(0.0, f64::max) - loads().fold(f64::INFINITY, f64::min);
    if before <= 0.0 || spread <= 0.0 {
        return vec![(before, 1.0)];
    }
    let law = law(catalogue);
    let score = |at: u32| OUTERMOST * (2.0 * f64::from(at) / f64::from(POINTS - 1) - 1.0);
    let value = |at: u32| before * law.factor(score(at));
    let probability = |at: u32| {
        let sensitivity = value(at);
        let told = told(falls, sensitivity);
        // Each fall by the ride that it happened on, beside all that the rider was expected to have.
        let of_ride = |own: &Fall| if own.seen > 0.0 { own.seen * (1.0 + sensitivity * own.load).ln() } else { 0.0 };
        let of_rider =
            |own: &Told| if own.seen > 0.0 { own.seen * own.expected.max(f64::MIN_POSITIVE).ln() } else { 0.0 };
        let placed = falls.iter().flatten().map(of_ride).sum::<f64>() - told.iter().map(of_rider).sum::<f64>();
        factor(model.falls_worth_events, &told, Whose::Anybody).1 + placed - score(at) * score(at) / 2.0
    };
    let weights = weights(&(0..POINTS).map(probability).collect::<Vec<f64>>());
    (0..POINTS).map(value).zip(weights).collect()
}

fn sensitivity(catalogue: &Catalogue, known: &[(f64, f64)]) -> Sensitivity {
    let before = catalogue.model.load_sensitivity;
    let end = |score: f64| before * law(catalogue).factor(score);
    let quantile = |share: f64| {
        let mut sum = 0.0;
        let reached = known.iter().find(|(_, weight)| {
            sum += weight;
            sum >= share
        });
        reached.or(known.last()).map_or(before, |(value, _)| *value)
    };
    let mean = known.iter().map(|(value, weight)| value * weight).sum();
    Sensitivity {
        before: Reach { mean: before, low: end(-NINE_IN_TEN), high: end(NINE_IN_TEN) },
        after: Reach { mean, low: quantile(0.05), high: quantile(0.95) },
    }
}
