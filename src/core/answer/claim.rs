//! Figures of an answer as the verifier takes them.

use super::plan::Home;
use super::sets::{SetsInBags, SetsOnBikes};
use crate::risk;
use crate::units::Hours;
use crate::verify::{SetsClaim, Terms};

/// The terms of the objective.
pub(crate) fn terms(terms: &risk::Terms) -> Terms {
    Terms {
        saved: Hours::new(terms.saved),
        relief: Hours::new(terms.relief),
        riding: Hours::new(terms.riding),
        falls: Hours::new(terms.falls),
        money: Hours::new(terms.money),
        packing: Hours::new(terms.packing),
    }
}

/// The chance of getting home, if it was ridden.
pub(super) fn home(home: &Home) -> Option<(f64, f64)> {
    home.ridden.map(|ridden| (ridden.mean, ridden.error))
}

/// Sets of things in bags.
pub(super) fn in_bags(sets: &SetsInBags) -> SetsClaim {
    let split = sets.split.iter().map(|set| (set.name.clone(), set.bags.clone())).collect();
    SetsClaim { whole: sets.whole, of: sets.of, split }
}

/// Sets of things on bikes.
pub(super) fn on_bikes(sets: &SetsOnBikes) -> SetsClaim {
    let split = sets.split.iter().map(|set| (set.name.clone(), set.riders.clone())).collect();
    SetsClaim { whole: sets.whole, of: sets.of, split }
}
