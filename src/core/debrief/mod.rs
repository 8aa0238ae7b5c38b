//! After the ride: what happened against what was expected, and rates that have learnt from it.
//!
//! Rates are always worked out anew from all rides of the book and the catalogue before any of them, so a ride cannot
//! count twice and the order of rides does not matter.
//!
//! # The rule
//!
//! All parts of a failure's rate move by one factor with a Gamma distribution of mean 1. Its shape is what the rate is
//! worth in events, 0.3 at least. Rides on which `E` were expected, fitted parts and preparations counted, and `N` seen,
//! make it
//!
//! ```text
//! factor = (shape + N) / (shape + E)        new worth_events = worth_events + N
//! ```
//!
//! which is the textbook rule (Gelman et al., Bayesian Data Analysis, section 2.6; its examples are among the tests of
//! `gamma`). One event multiplies a rate by 1.3 / 0.3 at most. Falls are learnt the same way, for the riding skill that the
//! rides name ([`Fallen`]). Failures that the bike cannot have are left alone. So is one that was seen where its rate is zero
//! on such riding; the answer names it.

mod falls;
pub mod gamma;
mod rates;
mod riders;
mod together;

pub use falls::{Fallen, Sensitivity};
pub use rates::{Learnt, MOST_EVENTS, Reach, impossible};
pub use riders::Fellow;

use crate::domain::{Catalogue, Kind, Ride};
use crate::serial::{Listed, Number, parts};
use crate::units::Distance;
use riders::Whose;
use schemars::JsonSchema;
use serde::Serialize;

/// From so many rides on, an item that was always carried and never used is named.
const SEVERAL: usize = 2;

/// What the rides taught.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Debrief {
    /// Rides in the book.
    pub rides: usize,
    /// All kilometres.
    #[serde(rename = "distance_km", with = "Number")]
    pub distance: Distance,
    /// All days.
    pub days: f64,
    /// All falls.
    pub falls: u32,
    /// Each rider beside the others; empty where there is only one.
    pub riders: Vec<Fellow>,
    /// The rider that was named, whose rates these are.
    #[serde(rename = "rates_of")]
    pub whose: Option<String>,
    /// What they taught about falls, where any could be expected.
    #[serde(rename = "fall_rate")]
    pub fallen: Option<Fallen>,
    /// Every failure that could have happened, those that did first, then by how much was expected.
    #[serde(rename = "failures")]
    pub learnt: Vec<Learnt>,
    /// Failures that happened although their rates say they cannot on such rides; their rates stay as they are.
    #[serde(rename = "not_learnt")]
    pub impossible: Vec<String>,
    /// Tools, spares and consumables carried on several rides and used on none: name and number of rides.
    #[serde(with = "Listed::<Unused>")]
    pub unused: Vec<(String, usize)>,
    /// Items that would have helped: name and how often.
    #[serde(with = "Listed::<Missed>")]
    pub missed: Vec<(String, u32)>,
}

parts! {
    /// Something carried for nothing.
    Unused((name, rides) => (String, usize)) {
        /// As a rider would say it.
        name: String = name.clone(),
        /// Rides that it was carried on and not used.
        rides: usize = *rides,
    }
    /// Something that would have helped.
    Missed((name, times) => (String, u32)) {
        /// As a rider would say it.
        name: String = name.clone(),
        /// How often.
        times: u32 = *times,
    }
}

/// Goes through the rides. With several riders the rates are those of the one that is named, else those of the owner of the
/// book, whose rides name no rider, else those of a rider like all of them.
#[must_use]
pub fn debrief(catalogue: &Catalogue, rides: &[Ride], rider: Option<&str>) -> Debrief {
    let riders = riders::riders(rides);
    let whose = riders.iter().position(|own| own.name == rider).map_or(Whose::Anybody, Whose::Rider);
    let mut learnt = rates::learn(catalogue, &riders, whose);
    learnt.sort_by(|a, b| b.seen.cmp(&a.seen).then(b.expected.total_cmp(&a.expected)));
    Debrief {
        rides: rides.len(),
        distance: rides.iter().map(Ride::distance).sum(),
        days: rides.iter().map(|ride| ride.days).sum(),
        falls: rides.iter().map(|ride| ride.falls).fold(0, u32::saturating_add),
        fallen: falls::fallen(catalogue, &riders, whose),
        riders: riders::fellows(catalogue, &riders),
        whose: if let Whose::Rider(at) = whose { riders[at].name.map(str::to_owned) } else { None },
        learnt,
        impossible: impossible(catalogue, rides),
        unused: unused(catalogue, rides),
        missed: missed(catalogue, rides),
    }
}

fn unused(catalogue: &Catalogue, rides: &[Ride]) -> Vec<(String, usize)> {
    let kinds = [Kind::Tool, Kind::Spare, Kind::Consumable];
    let items = catalogue.items.values().filter(|item| kinds.contains(&item.kind));
    let mut unused: Vec<(String, usize)> = items
        .filter(|item| !rides.iter().any(|ride| ride.used.contains_key(&item.id)))
        .map(|item| (item.name.clone(), rides.iter().filter(|ride| ride.carried.contains_key(&item.id)).count()))
        .filter(|(_, rides)| *rides >= SEVERAL)
        .collect();
    unused.sort_by_key(|(_, rides)| std::cmp::Reverse(*rides));
    unused
}

fn missed(catalogue: &Catalogue, rides: &[Ride]) -> Vec<(String, u32)> {
    let times =
        |id: &str| rides.iter().filter_map(|ride| ride.missed.get(id)).fold(0, |all: u32, n| all.saturating_add(*n));
    let mut missed: Vec<(String, u32)> =
        catalogue.items.values().map(|item| (item.name.clone(), times(&item.id))).filter(|(_, n)| *n > 0).collect();
    missed.sort_by_key(|(_, times)| std::cmp::Reverse(*times));
    missed
}
